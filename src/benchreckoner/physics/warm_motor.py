"""A motor that warms itself while it turns a steady load: temperatures, current and speed, coupled.

Copper gains ohms, so the same current makes more heat. The magnet weakens, so the same torque takes more current.
Load and friction are held as they are when cold. Heat from iron and brushes is left out, so real rises are higher.
"""

import numpy as np

from benchreckoner.physics.copper import COPPER_INTERCEPT, FERRITE, warm_constant, warmed_resistance
from benchreckoner.physics.governors import supplied_speed
from benchreckoner.units import Q, need

_ROOM = Q(20, "degC")
_HOTTEST = 250.0  # degC: enamel has burnt before, and copper's line ends
_CLOSE = dict(method="LSODA", rtol=1e-5, atol=1e-4)  # K; a slider waits for it


def warm_current(*, cold_current, magnet, magnet_coefficient=FERRITE):
    r"""Current that the same torque takes when the magnet has another temperature.

    Parameters
    ----------
    cold_current : Quantity [A], zero or more
        At 20 degC, for load and the motor's own friction.
    magnet : Quantity [degC]
    magnet_coefficient : Quantity [1/delta_degC]
        Hard ferrite's if left out.

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I(t) = I_{20} / [1 + a_B (t - 20)]

    Torque is current times constant. Grease that thins as it warms lowers the torque itself, which this leaves out.

    References
    ----------
    .. [1] T = K I, see `copper.warm_constant`. RECOMPUTED.

    Examples
    --------
    >>> print(f"{warm_current(cold_current=Q(85, 'mA'), magnet=Q(50, 'degC')).to('mA'):.2f~P}")
    90.43 mA
    """
    cold_current = need(cold_current, "A", "cold_current", least=0)
    one = Q(1, "V*s/rad")
    return (cold_current * one / warm_constant(motor_constant=one, temperature=magnet, coefficient=magnet_coefficient)).to("A")


def warming_temperatures(*, cold_current, time, start, air, winding_resistance, winding_to_housing, housing_to_air,
                         winding_capacity, housing_capacity, magnet_coefficient=FERRITE):
    r"""Winding and magnet of a motor that turns a steady load, while they warm.

    Parameters
    ----------
    cold_current : Quantity [A], zero or more
        At 20 degC, for load and the motor's own friction.
    time : Quantity [s], one or a rising array, zero or more
        Since it was switched on.
    start, air : Quantity [degC], from -50 to 100 degC
        Of the whole motor at first, and of the air round it from then on.
    winding_resistance : Quantity [ohm], above zero
        At 20 degC.
    winding_to_housing, housing_to_air : Quantity [delta_degC/W], above zero
    winding_capacity, housing_capacity : Quantity [J/delta_degC], above zero
    magnet_coefficient : Quantity [1/delta_degC]
        Hard ferrite's if left out.

    Returns
    -------
    winding, magnet : Quantity [degC]
        The magnet is taken to be as warm as the housing.

    Raises
    ------
    ValueError
        Where the winding passes 250 degC within the time.

    Notes
    -----
    .. math:: C_w \dot T_w = I(T_h)^2 R(T_w) - \frac{T_w - T_h}{R_{wh}}, \qquad
              C_h \dot T_h = \frac{T_w - T_h}{R_{wh}} - \frac{T_h - t_a}{R_{ha}}

    Solved step by step. The governor does not stand in it: torque sets the current, and current the heat.

    References
    ----------
    .. [1] The equations above; check value M31, RECOMPUTED.

    Examples
    --------
    >>> winding, magnet = warming_temperatures(cold_current=Q(140, "mA"), time=Q(10, "min"), start=Q(20, "degC"),
    ...     air=Q(20, "degC"), winding_resistance=Q(15, "ohm"), winding_to_housing=Q(10, "delta_degC/W"),
    ...     housing_to_air=Q(24, "delta_degC/W"), winding_capacity=Q(1.9, "J/delta_degC"),
    ...     housing_capacity=Q(46, "J/delta_degC"))
    >>> print(f"{winding.m_as('degC'):.1f} {magnet.m_as('degC'):.1f}")
    25.8 22.9
    """
    from scipy.integrate import solve_ivp

    heat = _heat(cold_current, winding_resistance, magnet_coefficient)
    inner, outer = _thermal(winding_to_housing, housing_to_air)
    winding_store = need(winding_capacity, "J/delta_degC", "winding_capacity", above=0).m_as("J/delta_degC")
    housing_store = need(housing_capacity, "J/delta_degC", "housing_capacity", above=0).m_as("J/delta_degC")
    first, around = _surroundings(start, "start"), _surroundings(air, "air")
    seconds = need(time, "s", "time", least=0).m_as("s")
    times = np.atleast_1d(seconds).astype(float)
    if np.any(np.diff(times) <= 0):
        raise ValueError("time: must rise; write for example Q([1, 10], 'min')")

    def flow(_, state):
        winding, housing = state
        inwards = (winding - housing) / inner
        return (heat(winding, housing) - inwards) / winding_store, (inwards - (housing - around) / outer) / housing_store

    def burnt(_, state):
        return state[0] - _HOTTEST

    burnt.terminal = True
    found = solve_ivp(flow, (0, max(times[-1], 1e-9)), [first, first], t_eval=times, events=burnt, **_CLOSE)
    if found.t_events[0].size:
        raise ValueError(f"cold_current: {cold_current:~P} takes the winding past {_HOTTEST:g} degC after "
                         f"{found.t_events[0][0]:.0f} s, and enamel burns sooner; write a smaller one, or a shorter time")
    return tuple(Q(one if np.ndim(seconds) else float(one[0]), "degC") for one in found.y)


def settled_temperatures(*, cold_current, air, winding_resistance, winding_to_housing, housing_to_air,
                         magnet_coefficient=FERRITE):
    r"""Where winding and magnet of a motor with a steady load end.

    Parameters
    ----------
    cold_current, air, winding_resistance, winding_to_housing, housing_to_air, magnet_coefficient
        As for `warming_temperatures`.

    Returns
    -------
    winding, magnet : Quantity [degC]

    Raises
    ------
    ValueError
        Where it never settles below 250 degC.

    Notes
    -----
    .. math:: P = I(T_h)^2 R(T_w), \quad T_h = t_a + P R_{ha}, \quad T_w = T_h + P R_{wh}

    Solved for the heat P, by a root.

    References
    ----------
    .. [1] The equations above; check value M31, RECOMPUTED.

    Examples
    --------
    >>> winding, magnet = settled_temperatures(cold_current=Q(140, "mA"), air=Q(20, "degC"),
    ...     winding_resistance=Q(15, "ohm"), winding_to_housing=Q(10, "delta_degC/W"), housing_to_air=Q(24, "delta_degC/W"))
    >>> print(f"{winding.m_as('degC'):.2f} {magnet.m_as('degC'):.2f}")
    30.74 27.58
    """
    from scipy.optimize import brentq, minimize_scalar

    heat = _heat(cold_current, winding_resistance, magnet_coefficient)
    inner, outer = _thermal(winding_to_housing, housing_to_air)
    around = _surroundings(air, "air")

    def gain(power):
        return heat(around + power * (inner + outer), around + power * outer) - power

    most = (_HOTTEST - around) / (inner + outer)
    # The heat bends upwards against what is shed: the first crossing lies before the place where it falls short by most.
    low = minimize_scalar(gain, bounds=(0, most), method="bounded").x
    if gain(low) > 0:
        raise ValueError(f"cold_current: {cold_current:~P} never settles below {_HOTTEST:g} degC, warmth brings more heat than it "
                         "sheds; write a smaller one")
    power = brentq(gain, 0.0, low) if gain(0.0) > 0 else 0.0
    return Q(around + power * (inner + outer), "degC"), Q(around + power * outer, "degC")


def warm_drift(*, cold_current, winding, magnet, set_voltage, compensation, open_voltage, regulator_drop, source_resistance,
               winding_resistance, motor_constant, start=_ROOM, magnet_coefficient=FERRITE):
    r"""By how much warmth shifts the speed of a motor with governor and a steady load.

    Parameters
    ----------
    cold_current : Quantity [A], zero or more
        At 20 degC, for load and the motor's own friction.
    winding, magnet : Quantity [degC]
        Now.
    set_voltage, compensation, open_voltage, regulator_drop, source_resistance
        As for `governors.supplied_speed`.
    winding_resistance : Quantity [ohm], above zero
        At 20 degC.
    motor_constant : Quantity [V*s/rad], above zero
        At 20 degC.
    start : Quantity [degC]
        Of the whole motor before; 20 degC if left out.
    magnet_coefficient : Quantity [1/delta_degC]
        Hard ferrite's if left out.

    Returns
    -------
    Quantity [%]
        Above zero for faster.

    Notes
    -----
    .. math:: \omega = \frac{\min(V_{set} + R_c I,\; V_s - V_{drop} - r I) - I R(T_w)}{K_e(T_h)},
              \qquad I = I_{20} K_{e20} / K_e(T_h)

    Copper takes volts from the turning, a weaker magnet needs fewer for the same speed. No compensation, and volts in
    hand: a motor on a stiff supply.

    References
    ----------
    .. [1] The governor's equation; check value M20, RECOMPUTED.

    Examples
    --------
    >>> drift = warm_drift(cold_current=Q(85, "mA"), winding=Q(50, "degC"), magnet=Q(50, "degC"), set_voltage=Q(3.26726, "V"),
    ...     compensation=Q(15, "ohm"), open_voltage=Q(9, "V"), regulator_drop=Q(0.3, "V"), source_resistance=Q(2.2, "ohm"),
    ...     winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{drift.m_as('percent'):.2f} %")
    1.18 %
    """
    def speed(winding, magnet):
        return supplied_speed(
            current=warm_current(cold_current=cold_current, magnet=magnet, magnet_coefficient=magnet_coefficient),
            set_voltage=set_voltage, compensation=compensation, open_voltage=open_voltage, regulator_drop=regulator_drop,
            source_resistance=source_resistance,
            winding_resistance=warmed_resistance(resistance=winding_resistance, cold=_ROOM, warm=winding),
            motor_constant=warm_constant(motor_constant=motor_constant, temperature=magnet, coefficient=magnet_coefficient))[0]

    return (speed(winding, magnet) / speed(start, start) - 1).to("percent")


def drift_parts(*, cold_voltage, warm_voltage, cold_current, warm_current, cold_resistance, warm_resistance):
    r"""What volts, copper and load did to the speed between two readings of one motor.

    Parameters
    ----------
    cold_voltage, warm_voltage : Quantity [V], above zero
        At the motor's own terminals.
    cold_current, warm_current : Quantity [A], above zero
    cold_resistance, warm_resistance : Quantity [ohm], above zero
        Of the winding alone.

    Returns
    -------
    volts, copper, load : Quantity [%]
        Of the speed; above zero for faster. What the magnet did is no part of it.

    Raises
    ------
    ValueError
        Where a reading leaves the motor no volts to turn with.

    Notes
    -----
    .. math:: \frac{\Delta E}{\bar E} = \frac{\Delta V - \bar I\,\Delta R - \bar R\,\Delta I}{\bar E}, \qquad E = V - I R

    Bars are means of cold and warm, and with them the three parts add up to the whole change of E exactly. It holds with
    any governor and with none, since the volts are read at the motor.

    References
    ----------
    .. [1] Volts round the loop: V = I R + K w. RECOMPUTED.

    Examples
    --------
    >>> parts = drift_parts(cold_voltage=Q(4.5, "V"), warm_voltage=Q(4.5, "V"), cold_current=Q(0.1, "A"),
    ...     warm_current=Q(0.1, "A"), cold_resistance=Q(15, "ohm"), warm_resistance=Q(16, "ohm"))
    >>> print(f"{parts[1].m_as('percent'):.2f} %")
    -3.39 %
    """
    volts = [need(cold_voltage, "V", "cold_voltage", above=0), need(warm_voltage, "V", "warm_voltage", above=0)]
    amps = [need(cold_current, "A", "cold_current", above=0), need(warm_current, "A", "warm_current", above=0)]
    ohms = [need(cold_resistance, "ohm", "cold_resistance", above=0), need(warm_resistance, "ohm", "warm_resistance", above=0)]
    for when, volt, amp, ohm in zip(("cold", "warm"), volts, amps, ohms):
        if not np.all((volt - amp * ohm).m_as("V") > 0):
            raise ValueError(f"{when}_voltage: {volt:~P} is less than current and ohms take by themselves, so it could not turn; "
                             f"read {when}_voltage at the motor's terminals while it runs")
    turning = (volts[0] - amps[0] * ohms[0] + volts[1] - amps[1] * ohms[1]) / 2
    ohmic = -(amps[0] + amps[1]) / 2 * (ohms[1] - ohms[0])
    loaded = -(ohms[0] + ohms[1]) / 2 * (amps[1] - amps[0])
    return tuple((part / turning).to("percent") for part in (volts[1] - volts[0], ohmic, loaded))


def _heat(cold_current, winding_resistance, magnet_coefficient):
    """Heat in the winding in watts, by the temperatures of winding and magnet in degC; plain numbers, for the solvers."""
    amps = need(cold_current, "A", "cold_current", least=0).m_as("A")
    ohms = need(winding_resistance, "ohm", "winding_resistance", above=0).m_as("ohm")
    loss = need(magnet_coefficient, "1/delta_degC", "magnet_coefficient").m_as("1/delta_degC")
    zero = COPPER_INTERCEPT.m_as("delta_degC")
    cold = amps**2 * ohms / (zero + 20)
    return lambda winding, magnet: cold * (zero + winding) / (1 + loss * (magnet - 20)) ** 2


def _thermal(winding_to_housing, housing_to_air):
    return (need(winding_to_housing, "delta_degC/W", "winding_to_housing", above=0).m_as("delta_degC/W"),
            need(housing_to_air, "delta_degC/W", "housing_to_air", above=0).m_as("delta_degC/W"))


def _surroundings(value, name):
    degrees = float(need(value, "degC", name, least=-50).m_as("degC"))
    if degrees > 100:
        raise ValueError(f"{name}: no motor is kept above 100 degC; write Q(20, 'degC')")
    return degrees
