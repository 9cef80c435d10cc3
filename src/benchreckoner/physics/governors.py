"""The electronic governor of a small motor: the speed it holds, and where the supply no longer lets it.

It holds the volts on the motor at a set value plus so many ohms times the current, so that the current's own loss
in the winding is made good. All laws here are for a steady load; `hunting` tells when the steady state does not last.
"""

import numpy as np

from benchreckoner.units import Q, need


def governed_speed(*, current, set_voltage, compensation, winding_resistance, motor_constant, brush_drop=Q(0, "V")):
    r"""Speed of a motor while its governor holds it.

    Parameters
    ----------
    current : Quantity [A], zero or more
        Drawn by the motor.
    set_voltage : Quantity [V], above zero
        What the governor would put on the motor at no current.
    compensation : Quantity [ohm], zero or more
        By how much it raises that, for each ampere.
    winding_resistance : Quantity [ohm], above zero
    motor_constant : Quantity [V*s/rad], above zero
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [turn/min]

    Raises
    ------
    ValueError
        Where the current would leave the motor no volts to turn with.

    Notes
    -----
    .. math:: \omega = [V_{set} - V_b - (R - R_c) I] / K_e

    With the compensation equal to the winding's ohms no load shifts the speed, and there it is about to hunt.
    An ideal amplifier: no drift, no filter, and volts in hand (see `headroom_current`).

    References
    ----------
    .. [1] Volts round the loop: V = I R + K w, with V = V_set + R_c I. RECOMPUTED.

    Examples
    --------
    >>> speed = governed_speed(current=Q(85, "mA"), set_voltage=Q(3.0, "V"), compensation=Q(12, "ohm"),
    ...     winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{speed.m_as('turn/min'):.1f}")
    2016.4
    """
    current = need(current, "A", "current", least=0)
    set_voltage = need(set_voltage, "V", "set_voltage", above=0)
    compensation = need(compensation, "ohm", "compensation", least=0)
    return _turning(set_voltage + compensation * current, current, *_motor(winding_resistance, motor_constant, brush_drop))


def headroom_current(*, open_voltage, regulator_drop, set_voltage, compensation, source_resistance):
    r"""The most current at which the governor still has the volts that it needs.

    Parameters
    ----------
    open_voltage : Quantity [V]
        Of the supply, with nothing drawn from it.
    regulator_drop : Quantity [V], zero or more
        The least that the governor's transistor keeps for itself.
    set_voltage : Quantity [V], above zero
    compensation : Quantity [ohm], zero or more
    source_resistance : Quantity [ohm], above zero
        Cells, contacts and wires, the governor's own sense resistor included.

    Returns
    -------
    Quantity [A]
        Below zero where it cannot hold the set voltage even at no load.

    Raises
    ------
    ValueError
        For a supply under the drop.

    Notes
    -----
    .. math:: I_{max} = (V_s - V_{drop} - V_{set}) / (R_c + r)

    References
    ----------
    .. [1] The supply line and the governor's line crossed. RECOMPUTED.

    Examples
    --------
    >>> amps = headroom_current(open_voltage=Q(6, "V"), regulator_drop=Q(0.3, "V"), set_voltage=Q(3.2, "V"),
    ...     compensation=Q(15, "ohm"), source_resistance=Q(5, "ohm"))
    >>> print(f"{amps.to('mA'):.0f~P}")
    125 mA
    """
    set_voltage = need(set_voltage, "V", "set_voltage", above=0)
    compensation = need(compensation, "ohm", "compensation", least=0)
    left, source = _supply(open_voltage, regulator_drop, source_resistance)
    return ((left - set_voltage) / (compensation + source)).to("A")


def ungoverned_speed(*, current, open_voltage, regulator_drop, source_resistance, winding_resistance, motor_constant,
                     brush_drop=Q(0, "V")):
    r"""Speed of a motor whose governor is fully open, for want of volts.

    Parameters
    ----------
    current : Quantity [A], zero or more
    open_voltage : Quantity [V]
        Of the supply, with nothing drawn from it.
    regulator_drop : Quantity [V], zero or more
    source_resistance : Quantity [ohm], above zero
        Cells, contacts and wires, the governor's own sense resistor included.
    winding_resistance : Quantity [ohm], above zero
    motor_constant : Quantity [V*s/rad], above zero
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [turn/min]

    Raises
    ------
    ValueError
        For a supply under the drop, or where the current leaves no volts to turn with.

    Notes
    -----
    .. math:: \omega = [V_s - V_{drop} - V_b - I (R + r)] / K_e

    References
    ----------
    .. [1] Volts round the loop. RECOMPUTED.

    Examples
    --------
    >>> speed = ungoverned_speed(current=Q(100, "mA"), open_voltage=Q(5, "V"), regulator_drop=Q(0.3, "V"),
    ...     source_resistance=Q(5, "ohm"), winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{speed.m_as('turn/min'):.1f}")
    1983.3
    """
    current = need(current, "A", "current", least=0)
    left, source = _supply(open_voltage, regulator_drop, source_resistance)
    return _turning(left - current * source, current, *_motor(winding_resistance, motor_constant, brush_drop))


def supplied_speed(*, current, set_voltage, compensation, open_voltage, regulator_drop, source_resistance,
                   winding_resistance, motor_constant, brush_drop=Q(0, "V")):
    r"""Speed of a motor with governor on a supply, whichever of the two sets it.

    Parameters
    ----------
    current : Quantity [A], zero or more
    set_voltage : Quantity [V], above zero
    compensation : Quantity [ohm], zero or more
    open_voltage : Quantity [V]
        Of the supply, with nothing drawn from it.
    regulator_drop : Quantity [V], zero or more
    source_resistance : Quantity [ohm], above zero
        Cells, contacts and wires, the governor's own sense resistor included.
    winding_resistance : Quantity [ohm], above zero
    motor_constant : Quantity [V*s/rad], above zero
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    speed : Quantity [turn/min]
    governed : bool
        Whether the governor holds it; else it is the supply that does. An array where an argument is one.

    Raises
    ------
    ValueError
        For a supply under the drop, or where the current leaves no volts to turn with.

    Notes
    -----
    The motor gets the smaller one of two voltages, what the governor wants and what the supply leaves:

    .. math:: V_m = \min(V_{set} + R_c I,\; V_s - V_{drop} - r I), \quad \omega = (V_m - V_b - I R) / K_e

    References
    ----------
    .. [1] Volts round the loop. RECOMPUTED.

    Examples
    --------
    >>> speed, governed = supplied_speed(current=Q(350, "mA"), set_voltage=Q(3.2, "V"), compensation=Q(15, "ohm"),
    ...     open_voltage=Q(9, "V"), regulator_drop=Q(0.3, "V"), source_resistance=Q(2.2, "ohm"),
    ...     winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{speed.m_as('turn/min'):.1f} {governed}")
    1968.6 False
    """
    current = need(current, "A", "current", least=0)
    wanted = (need(set_voltage, "V", "set_voltage", above=0) + need(compensation, "ohm", "compensation", least=0) * current).to("V")
    left, source = _supply(open_voltage, regulator_drop, source_resistance)
    offered = (left - source * current).to("V")
    speed = _turning(np.minimum(wanted, offered), current, *_motor(winding_resistance, motor_constant, brush_drop))
    return speed, wanted <= offered


def _motor(winding_resistance, motor_constant, brush_drop):
    return (need(winding_resistance, "ohm", "winding_resistance", above=0),
            need(motor_constant, "V*s/rad", "motor_constant", above=0), need(brush_drop, "V", "brush_drop", least=0))


def _supply(open_voltage, regulator_drop, source_resistance):
    """The volts that the transistor passes on off load, and the ohms before the motor."""
    drop = need(regulator_drop, "V", "regulator_drop", least=0)
    volts = need(open_voltage, "V", "open_voltage")
    if not np.all(volts > drop):
        raise ValueError(f"open_voltage: must be above regulator_drop, {drop:~P}, got {volts:~P}: nothing would be left "
                         "for the motor; write Q(9, 'V')")
    return (volts - drop).to("V"), need(source_resistance, "ohm", "source_resistance", above=0)


def _turning(voltage, current, winding, constant, drop):
    speed = ((voltage - drop - current * winding) / constant).to("turn/min")
    if not np.all(speed.magnitude >= 0):
        raise ValueError(f"current: {current:~P} leaves no volts to turn with, so the motor stands; "
                         "write a smaller current, such as Q(20, 'mA')")
    return speed
