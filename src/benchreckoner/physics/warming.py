"""How hot a motor gets: one heat store, two heat stores, a winding held still, a rhythm of work and rest."""

import numpy as np

from benchreckoner.physics.copper import COPPER_INTERCEPT, warmed_resistance
from benchreckoner.units import Q, need

_ROOM = Q(20, "degC")


def rise_after(*, power, thermal_resistance, heat_capacity, time):
    r"""How much warmer a thing is after a time of steady heat.

    Parameters
    ----------
    power : Quantity [W], zero or more
    thermal_resistance : Quantity [delta_degC/W], above zero
        From the thing to what takes its heat.
    heat_capacity : Quantity [J/delta_degC], above zero
    time : Quantity [s], zero or more

    Returns
    -------
    Quantity [delta_degC]

    Notes
    -----
    .. math:: \theta = P R_{th} (1 - e^{-t/\tau}), \qquad \tau = R_{th} C_{th}

    One temperature for the whole thing, and heat loss in proportion to the rise: near enough up to some 50 K.

    References
    ----------
    .. [1] Gupta, "Electric Drives", Ex. 45, through an open transcription; check value T06, FOUND.

    Examples
    --------
    A small winding held still on 1 W for 2 s:

    >>> rise = rise_after(power=Q(1, "W"), thermal_resistance=Q(10, "delta_degC/W"),
    ...     heat_capacity=Q(1.9, "J/delta_degC"), time=Q(2, "s"))
    >>> print(f"{rise.m_as('delta_degC'):.2f} K")
    1.00 K
    """
    power = need(power, "W", "power", least=0)
    thermal_resistance = need(thermal_resistance, "delta_degC/W", "thermal_resistance", above=0)
    heat_capacity = need(heat_capacity, "J/delta_degC", "heat_capacity", above=0)
    time = need(time, "s", "time", least=0)
    waited = (time / (thermal_resistance * heat_capacity)).m_as("")
    return (power * thermal_resistance * -np.expm1(-waited)).to("delta_degC")


def two_time_constants(*, winding_to_housing, housing_to_air, winding_capacity, housing_capacity):
    r"""The two time constants of a winding inside a housing.

    Parameters
    ----------
    winding_to_housing, housing_to_air : Quantity [delta_degC/W], above zero
    winding_capacity, housing_capacity : Quantity [J/delta_degC], above zero

    Returns
    -------
    short, long : Quantity [s]

    Notes
    -----
    .. math:: C_w \dot T_w = P - \frac{T_w - T_h}{R_{wh}}, \qquad
              C_h \dot T_h = \frac{T_w - T_h}{R_{wh}} - \frac{T_h - t_a}{R_{ha}}

    The rates are the roots of s² - (a + b + c) s + a c, with a = 1/(Rwh Cw), b = 1/(Rwh Ch), c = 1/(Rha Ch).

    References
    ----------
    .. [1] The two equations above; check value T10, RECOMPUTED.

    Examples
    --------
    >>> short, long = two_time_constants(winding_to_housing=Q(10, "delta_degC/W"), housing_to_air=Q(24, "delta_degC/W"),
    ...     winding_capacity=Q(1.9, "J/delta_degC"), housing_capacity=Q(46, "J/delta_degC"))
    >>> print(f"{short.m_as('s'):.1f} s, {long.m_as('min'):.1f} min")
    18.2 s, 19.2 min
    """
    inner = need(winding_to_housing, "delta_degC/W", "winding_to_housing", above=0)
    outer = need(housing_to_air, "delta_degC/W", "housing_to_air", above=0)
    winding = need(winding_capacity, "J/delta_degC", "winding_capacity", above=0)
    housing = need(housing_capacity, "J/delta_degC", "housing_capacity", above=0)
    first, second, third = ((1 / (resistance * capacity)).to("1/s")
                            for resistance, capacity in ((inner, winding), (inner, housing), (outer, housing)))
    half = (first + second + third) / 2
    fast = half + (half**2 - first * third) ** 0.5
    return (1 / fast).to("s"), (fast / (first * third)).to("s")


def runaway_current(*, winding_resistance, thermal_resistance):
    r"""The held current above which a copper winding never settles.

    Parameters
    ----------
    winding_resistance : Quantity [ohm], above zero
        At 20 degC.
    thermal_resistance : Quantity [delta_degC/W], above zero
        From the winding to the air.

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = 1 / \sqrt{a R_{20} R_{th}}, \qquad a = 1 / (234.5 + 20)

    Each kelvin adds ohms, each ohm adds heat. From here on more is added than can leave. In truth it ends: enamel burns,
    or heat begins to leave faster than the law has it. Only a *current* that is held runs away; held volts do not.

    References
    ----------
    .. [1] The denominator of the closed form in `held_temperature`; check value T11, RECOMPUTED.

    Examples
    --------
    >>> amps = runaway_current(winding_resistance=Q(15, "ohm"), thermal_resistance=Q(34, "delta_degC/W"))
    >>> print(f"{amps.to('A'):.3f~P}")
    0.706 A
    """
    resistance = need(winding_resistance, "ohm", "winding_resistance", above=0)
    thermal = need(thermal_resistance, "delta_degC/W", "thermal_resistance", above=0)
    return ((_ohms_per_kelvin(resistance) * thermal) ** -0.5).to("A")


def held_temperature(*, current, winding_resistance, thermal_resistance, ambient=_ROOM):
    r"""Where a winding's temperature ends when its current is held.

    Parameters
    ----------
    current : Quantity [A], zero or more
    winding_resistance : Quantity [ohm], above zero
        At 20 degC.
    thermal_resistance : Quantity [delta_degC/W], above zero
        From the winding to the air.
    ambient : Quantity [degC], from -50 to 250 degC
        20 degC if left out.

    Returns
    -------
    Quantity [degC]

    Raises
    ------
    ValueError
        At and above `runaway_current`, where there is no end.

    Notes
    -----
    .. math:: \theta = \frac{K [1 + a (t_a - 20)]}{1 - a K}, \qquad K = I^2 R_{20} R_{th}

    References
    ----------
    .. [1] Heat made equals heat lost, with copper's line; check value T10, RECOMPUTED.

    Examples
    --------
    >>> end = held_temperature(current=Q(140, "mA"), winding_resistance=Q(15, "ohm"),
    ...     thermal_resistance=Q(34, "delta_degC/W"), ambient=Q(25, "degC"))
    >>> print(f"{end.m_as('degC'):.1f}")
    35.6
    """
    current = need(current, "A", "current", least=0)
    resistance = need(winding_resistance, "ohm", "winding_resistance", above=0)
    thermal = need(thermal_resistance, "delta_degC/W", "thermal_resistance", above=0)
    here = warmed_resistance(resistance=resistance, cold=_ROOM, warm=ambient)
    left = (1 - current**2 * _ohms_per_kelvin(resistance) * thermal).to("")
    if not np.all(left.magnitude > 0):
        edge = runaway_current(winding_resistance=resistance, thermal_resistance=thermal)
        raise ValueError(f"current: {current:~P} held never settles, each kelvin adds more heat than it sheds; stay below "
                         f"{edge:.3g~P}, or hold volts instead")
    return ambient + (current**2 * here * thermal / left).to("delta_degC")


def stalled_end(*, voltage, source_resistance, winding_resistance, thermal_resistance, ambient=_ROOM):
    r"""Where a motor ends that is left on while it cannot turn.

    Parameters
    ----------
    voltage : Quantity [V], zero or more, one or an array
        Of the supply off load, less what the governor's transistor keeps.
    source_resistance : Quantity [ohm], zero or more
        Cells, contacts, wires, sense resistor.
    winding_resistance : Quantity [ohm], above zero
        At 20 degC.
    thermal_resistance : Quantity [delta_degC/W], above zero
        From the winding to the air.
    ambient : Quantity [degC], from -50 to 250 degC
        20 degC if left out.

    Returns
    -------
    temperature : Quantity [degC]
    current : Quantity [A]
        At the end, when the warm copper lets less through.

    Notes
    -----
    .. math:: \theta = R_{th} R(t_a + \theta) \left(\frac{V}{R(t_a + \theta) + r}\right)^2

    Solved for the rise. It always settles: warm copper lowers the current that the volts drive.

    References
    ----------
    .. [1] Heat made equals heat lost; check value T11, RECOMPUTED.

    Examples
    --------
    >>> end, amps = stalled_end(voltage=Q(8.7, "V"), source_resistance=Q(2.2, "ohm"), winding_resistance=Q(15, "ohm"),
    ...     thermal_resistance=Q(34, "delta_degC/W"), ambient=Q(25, "degC"))
    >>> print(f"{end.m_as('degC'):.1f}; {amps.to('A'):.4f~P}")
    124.7; 0.3722 A
    """
    from scipy.optimize import brentq

    volts = np.asarray(need(voltage, "V", "voltage", least=0).m_as("V"), dtype=float)
    source = need(source_resistance, "ohm", "source_resistance", least=0).m_as("ohm")
    resistance = need(winding_resistance, "ohm", "winding_resistance", above=0)
    thermal = need(thermal_resistance, "delta_degC/W", "thermal_resistance", above=0).m_as("delta_degC/W")
    here = warmed_resistance(resistance=resistance, cold=_ROOM, warm=ambient).m_as("ohm")
    slope = _ohms_per_kelvin(resistance).m_as("ohm/delta_degC")

    def rise(volts):
        def missing(rise):
            ohms = here + slope * rise
            return rise - thermal * ohms * (volts / (ohms + source)) ** 2

        return brentq(missing, 0.0, thermal * volts**2 / here) if volts else 0.0  # no more than all the volts on cool ohms

    rises = np.array([rise(one) for one in volts.ravel()]).reshape(volts.shape)[()]
    return ambient + Q(rises, "delta_degC"), Q((volts / (here + slope * rises + source))[()], "A")


def rhythm_temperatures(*, load_end, idle_end, load_time, idle_time, time_constant):
    r"""Lowest and highest temperature of a thing that works and rests in a steady rhythm.

    Parameters
    ----------
    load_end, idle_end : Quantity [degC]
        Where it would end if it worked, or rested, for ever.
    load_time, idle_time : Quantity [s], above zero
        Of each turn.
    time_constant : Quantity [s], above zero

    Returns
    -------
    lowest, highest : Quantity [degC]

    Notes
    -----
    .. math:: T_{high} = T_L - (T_L - T_{low}) e^{-t_L/\tau}, \qquad T_{low} = T_I + (T_{high} - T_I) e^{-t_I/\tau}

    Once the rhythm has lasted some time constants. One heat store.

    References
    ----------
    .. [1] G. K. Dubey, "Fundamentals of Electrical Drives", 2nd ed., Ex. 4.1, through an open transcription; T08, FOUND.

    Examples
    --------
    >>> lowest, highest = rhythm_temperatures(load_end=Q(104.4, "degC"), idle_end=Q(15, "degC"), load_time=Q(10, "s"),
    ...     idle_time=Q(20, "s"), time_constant=Q(60, "s"))
    >>> print(f"{lowest.m_as('degC'):.1f} to {highest.m_as('degC'):.1f}")
    40.0 to 49.9
    """
    load_end, idle_end = need(load_end, "degC", "load_end"), need(idle_end, "degC", "idle_end")
    time_constant = need(time_constant, "s", "time_constant", above=0)
    working, resting = (np.exp(-(need(time, "s", name, above=0) / time_constant).m_as(""))
                        for time, name in ((load_time, "load_time"), (idle_time, "idle_time")))
    swing = (load_end - idle_end) * (1 - working) / (1 - working * resting)
    return (idle_end + swing * resting).to("degC"), (idle_end + swing).to("degC")


def insulation_life_factor(*, temperature, rated):
    r"""How many times shorter insulation lives than at the temperature it is rated for.

    Parameters
    ----------
    temperature, rated : Quantity [degC]

    Returns
    -------
    float
        Below one where it is cooler than rated.

    Notes
    -----
    .. math:: 2^{(t - t_{rated})/10}

    A rule of thumb: each 10 K halves the life. Only near the rated temperature.

    References
    ----------
    .. [1] I. L. Kosow, "Electric Machinery and Transformers", Ex. 13.1, through an open transcription; T09, FOUND.

    Examples
    --------
    >>> insulation_life_factor(temperature=Q(125, "degC"), rated=Q(105, "degC"))
    4.0
    """
    above = need(temperature, "degC", "temperature") - need(rated, "degC", "rated")
    return 2.0 ** (above.m_as("delta_degC") / 10)


def _ohms_per_kelvin(resistance):
    """By how much copper of this resistance at 20 degC grows for each kelvin."""
    return resistance / (COPPER_INTERCEPT + Q(20, "delta_degC"))
