"""A small motor's winding resistance and motor constant, from steady runs on the bench."""

import numpy as np

from benchreckoner.physics.plain import useful_volts
from benchreckoner.units import Q, need

_ROUNDING = 1e-9


def motor_constant_from_run(*, voltage, current, speed, winding_resistance, brush_drop=Q(0, "V")):
    r"""Motor constant from one steady run, best without a load, where the winding takes little.

    Parameters
    ----------
    voltage : Quantity [V], above zero
    current : Quantity [A], zero or more, below the held current
    speed : Quantity [turn/min], above zero
    winding_resistance : Quantity [ohm], above zero
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [V*s/rad]

    Raises
    ------
    ValueError
        If the winding alone would take all the volts.

    Notes
    -----
    .. math:: K_e = \frac{V - V_b - I R}{\omega}

    References
    ----------
    .. [1] Fitzgerald et al., Electric Machinery, 6th ed., example 7.9, check value M01. FOUND.

    Examples
    --------
    >>> constant = motor_constant_from_run(voltage=Q(50, "V"), current=Q(1.25, "A"), speed=Q(2100, "turn/min"),
    ...     winding_resistance=Q(1.03, "ohm"))
    >>> print(f"{constant:.4f~P}")
    0.2215 V·s/rad
    """
    speed = need(speed, "turn/min", "speed", above=0)
    taken = need(current, "A", "current", least=0) * need(winding_resistance, "ohm", "winding_resistance", above=0)
    left = (useful_volts(voltage, brush_drop) - taken).to("V")
    if not np.all(left.magnitude > 0):
        raise ValueError(f"current: {current:~P} through the winding takes all the {voltage:~P}, nothing is left to turn on; "
                         "read volts and current at one time, or look at winding_resistance")
    return (left / speed).to("V*s/rad")


def constants_from_two_loads(*, first_voltage, first_current, first_speed, second_voltage, second_current, second_speed,
                             brush_drop=Q(0, "V")):
    r"""Winding resistance and motor constant from two steady runs under different loads.

    Parameters
    ----------
    first_voltage, second_voltage : Quantity [V], above zero
    first_current, second_current : Quantity [A], above zero
    first_speed, second_speed : Quantity [turn/min], above zero
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    winding_resistance : Quantity [ohm]
    motor_constant : Quantity [V*s/rad]

    Raises
    ------
    ValueError
        If current and speed moved together, which tells nothing apart, or if no motor gives such readings.

    Notes
    -----
    With :math:`U = V - V_b`:

    .. math::
        R = \frac{U_1 \omega_2 - U_2 \omega_1}{I_1 \omega_2 - I_2 \omega_1}, \quad
        K_e = \frac{U_1 I_2 - U_2 I_1}{\omega_1 I_2 - \omega_2 I_1}

    The two currents should be two to one apart, or small errors of reading grow large.

    References
    ----------
    .. [1] Two equations for two unknowns; tested against a linear solution. RECOMPUTED.

    Examples
    --------
    >>> ohms, constant = constants_from_two_loads(first_voltage=Q(6, "V"), first_current=Q(50, "mA"),
    ...     first_speed=Q(403.846, "rad/s"), second_voltage=Q(6, "V"), second_current=Q(200, "mA"),
    ...     second_speed=Q(230.769, "rad/s"))
    >>> print(f"{ohms:.2f~P}, {constant:.5f~P}")
    15.00 Ω, 0.01300 V·s/rad
    """
    first, second = useful_volts(first_voltage, brush_drop), useful_volts(second_voltage, brush_drop)
    amps = [need(value, "A", name, above=0) for value, name in ((first_current, "first_current"),
                                                                (second_current, "second_current"))]
    turns = [need(value, "turn/min", name, above=0).to("rad/s")
             for value, name in ((first_speed, "first_speed"), (second_speed, "second_speed"))]
    apart = (amps[1] * turns[0] - amps[0] * turns[1])
    if np.any(np.abs(apart.m_as("A*rad/s")) < _ROUNDING * (amps[1] * turns[0]).m_as("A*rad/s")):
        raise ValueError("second_current: moved in step with the speed, which tells winding and magnet apart by nothing; "
                         "take the second run at twice the current or more on the same volts")
    resistance = ((second * turns[0] - first * turns[1]) / apart).to("ohm")
    constant = ((first * amps[1] - second * amps[0]) / apart).to("V*s/rad")
    if not (np.all(resistance.magnitude > 0) and np.all(constant.magnitude > 0)):
        raise ValueError(f"second_speed: no motor gives these two runs (they would need {resistance:.3g~P} and "
                         f"{constant:.3g~P}); on the same volts, more current goes with less speed")
    return resistance, constant
