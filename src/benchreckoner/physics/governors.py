"""The electronic governor of a small motor: the speed it holds, and where the supply no longer lets it.

It holds the volts on the motor at a set value plus so many ohms times the current, so that the current's own loss
in the winding is made good. All laws here are for a steady load; `hunting` tells when the steady state does not last.
"""

import numpy as np

from benchreckoner.physics.motors import motor_speed
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
        If the current is more than the governor's volts drive through the held winding.

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
    set_voltage, compensation = _settings(set_voltage, compensation)
    return motor_speed(voltage=set_voltage + compensation * current, current=current, winding_resistance=winding_resistance,
                       motor_constant=motor_constant, brush_drop=brush_drop)


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
    set_voltage, compensation = _settings(set_voltage, compensation)
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
        For a supply under the drop, or a current that leaves the motor no volts to turn with.

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
    return motor_speed(voltage=_offered(current, open_voltage, regulator_drop, source_resistance), current=current,
                       winding_resistance=winding_resistance, motor_constant=motor_constant, brush_drop=brush_drop)


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
        For a supply under the drop, or a current that leaves the motor no volts to turn with.

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
    set_voltage, compensation = _settings(set_voltage, compensation)
    offered = _offered(current, open_voltage, regulator_drop, source_resistance)
    wanted = (set_voltage + compensation * current).to("V")
    speed = motor_speed(voltage=np.minimum(wanted, offered), current=current, winding_resistance=winding_resistance,
                        motor_constant=motor_constant, brush_drop=brush_drop)
    return speed, wanted <= offered


def speed_error(*, current, trim_current, trim_speed, compensation, winding_resistance, motor_constant):
    r"""By how much the speed is off at one load, after it was trimmed right at another.

    Parameters
    ----------
    current : Quantity [A], zero or more
        Within the headroom.
    trim_current : Quantity [A], zero or more
        While it was trimmed.
    trim_speed : Quantity [turn/min], above zero
    compensation : Quantity [ohm], zero or more
    winding_resistance : Quantity [ohm], above zero
    motor_constant : Quantity [V*s/rad], above zero

    Returns
    -------
    Quantity [%]
        Below zero for slow.

    Notes
    -----
    .. math:: \Delta\omega / \omega = -(R - R_c)(I - I_{trim}) / (K_e\, \omega_{trim})

    Each ohm of missing compensation costs the same. Both loads steady, winding and magnet as warm as when it was trimmed.

    References
    ----------
    .. [1] The law of `governed_speed`, once at each load. RECOMPUTED.

    Examples
    --------
    >>> off = speed_error(current=Q(140, "mA"), trim_current=Q(85, "mA"), trim_speed=Q(2400, "turn/min"),
    ...     compensation=Q(12, "ohm"), winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{off.m_as('%'):.2f} %")
    -5.05 %
    """
    missing = need(winding_resistance, "ohm", "winding_resistance", above=0) - need(compensation, "ohm", "compensation", least=0)
    more = need(current, "A", "current", least=0) - need(trim_current, "A", "trim_current", least=0)
    made = need(motor_constant, "V*s/rad", "motor_constant", above=0) * need(trim_speed, "turn/min", "trim_speed", above=0)
    return (-missing * more / made).to("%")


def bridge_values(*, set_voltage, sense_resistance, upper_resistance, lower_resistance):
    r"""Compensation that a governor's bridge gives, and the reference voltage that goes with it.

    The motor stands in series with the sense resistor; a divider across both feeds the amplifier.

    Parameters
    ----------
    set_voltage : Quantity [V], above zero
    sense_resistance : Quantity [ohm], above zero
    upper_resistance, lower_resistance : Quantity [ohm], above zero
        Of the divider.

    Returns
    -------
    compensation : Quantity [ohm]
    reference_voltage : Quantity [V]

    Notes
    -----
    .. math:: R_c = R_s R_1 / R_2, \quad V_{ref} = V_{set} / (1 + R_1 / R_2)

    Of an ideal amplifier that draws nothing from the divider.

    References
    ----------
    .. [1] The divider's tap less the sense resistor's volts is the reference. RECOMPUTED.

    Examples
    --------
    >>> ohms, volts = bridge_values(set_voltage=Q(3.2, "V"), sense_resistance=Q(1, "ohm"), upper_resistance=Q(15, "kohm"),
    ...     lower_resistance=Q(1, "kohm"))
    >>> print(f"{ohms:.0f~P}, {volts:.2f~P}")
    15 Ω, 0.20 V
    """
    times = (need(upper_resistance, "ohm", "upper_resistance", above=0)
             / need(lower_resistance, "ohm", "lower_resistance", above=0)).to("")
    compensation = need(sense_resistance, "ohm", "sense_resistance", above=0) * times
    return compensation.to("ohm"), (need(set_voltage, "V", "set_voltage", above=0) / (1 + times)).to("V")


def _settings(set_voltage, compensation):
    return need(set_voltage, "V", "set_voltage", above=0), need(compensation, "ohm", "compensation", least=0)


def _supply(open_voltage, regulator_drop, source_resistance):
    """The volts that the transistor passes on off load, and the ohms before the motor."""
    drop = need(regulator_drop, "V", "regulator_drop", least=0)
    volts = need(open_voltage, "V", "open_voltage")
    if not np.all(volts > drop):
        raise ValueError(f"open_voltage: must be above regulator_drop, {drop:~P}, got {volts:~P}: nothing would be left "
                         "for the motor; write Q(9, 'V')")
    return (volts - drop).to("V"), need(source_resistance, "ohm", "source_resistance", above=0)


def _offered(current, open_voltage, regulator_drop, source_resistance):
    """The volts that a fully open transistor leaves for the motor."""
    left, source = _supply(open_voltage, regulator_drop, source_resistance)
    volts = (left - need(current, "A", "current", least=0) * source).to("V")
    if not np.all(volts.magnitude > 0):
        raise ValueError(f"current: {current:~P} is more than this supply gives through {source:~P}; "
                         "write a smaller current, such as Q(85, 'mA')")
    return volts
