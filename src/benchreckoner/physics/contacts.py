"""Electrical contacts in a feed chain: what a joint's ohms cost the motor."""

import numpy as np

from benchreckoner.units import Q, need


def contact_resistance(*, voltage_drop, current):
    r"""Resistance of one link from the volts across it and the current through it.

    This is a four-wire reading: the leads that carry the current are not the
    leads that sense the volts, so lead and probe resistance stay out of it.

    Parameters
    ----------
    voltage_drop : Quantity [V]
        Read across the link while the current flows, any shape.
    current : Quantity [A], above zero
        Through the link at that moment.

    Returns
    -------
    Quantity [ohm]

    Raises
    ------
    ValueError
        If the current is zero or below.

    Notes
    -----
    .. math:: R = V / I

    Thermal voltages of unlike metals ride on V; the module `ohmmeter` says
    how much, and how to take them out.

    References
    ----------
    .. [1] Ohm's law; check value K2, RECOMPUTED.

    Examples
    --------
    >>> ohms = contact_resistance(voltage_drop=Q(22, "mV"), current=Q(1, "A"))
    >>> print(f"{ohms.to('mohm'):.1f~P}")
    22.0 mΩ
    """
    voltage_drop = need(voltage_drop, "V", "voltage_drop")
    current = need(current, "A", "current", above=0)
    return (voltage_drop / current).to("ohm")


def voltage_drop(*, current, contact_resistance):
    r"""Volts lost in a link, or in several added together.

    Parameters
    ----------
    current : Quantity [A], zero or more
    contact_resistance : Quantity [ohm], zero or more
        One link's, or the sum of several in series.

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: V = I R

    References
    ----------
    .. [1] Ohm's law; check value K8 (six contacts of 50 mohm at 0.3 A), RECOMPUTED.

    Examples
    --------
    >>> lost = voltage_drop(current=Q(0.3, "A"), contact_resistance=6 * Q(50, "mohm"))
    >>> print(f"{lost:.2f~P}")
    0.09 V
    """
    current = need(current, "A", "current", least=0)
    contact_resistance = need(contact_resistance, "ohm", "contact_resistance", least=0)
    return (current * contact_resistance).to("V")


def motor_voltage(*, supply, source_resistance, motor_resistance, contact_resistance=Q(0, "ohm")):
    r"""Volts that reach a motor held still, the moment it is asked to start.

    A motor that does not turn yet makes no voltage of its own, so it is just
    its winding's ohms at the end of a chain of ohms.

    Parameters
    ----------
    supply : Quantity [V], above zero
        The source's voltage with nothing drawn from it.
    source_resistance : Quantity [ohm], zero or more
        Inside the cells or the adapter.
    motor_resistance : Quantity [ohm], above zero
        Winding, brushes and commutator.
    contact_resistance : Quantity [ohm], zero or more
        Everything between source and motor, added up. Nothing if left out.

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: V_m = V_b \frac{R_a}{R_i + \sum R_c + R_a}

    Holds while the motor stands still and no transistor or governor limits
    the current. Once it turns, its own voltage takes over: see
    `running_speed_ratio`.

    References
    ----------
    .. [1] Series circuit, formula F18; check value K4, RECOMPUTED.

    Examples
    --------
    >>> volts = motor_voltage(supply=Q(6, "V"), source_resistance=Q(0.6, "ohm"),
    ...     motor_resistance=Q(8, "ohm"), contact_resistance=Q(1, "ohm"))
    >>> print(f"{volts:.2f~P}")
    5.00 V
    """
    supply = need(supply, "V", "supply", above=0)
    source_resistance = need(source_resistance, "ohm", "source_resistance", least=0)
    motor_resistance = need(motor_resistance, "ohm", "motor_resistance", above=0)
    contact_resistance = need(contact_resistance, "ohm", "contact_resistance", least=0)
    whole = source_resistance + contact_resistance + motor_resistance
    return (supply * motor_resistance / whole).to("V")


def starting_torque_ratio(*, source_resistance, motor_resistance, contact_resistance):
    r"""Starting torque with these contacts, as a share of the torque with perfect ones.

    Parameters
    ----------
    source_resistance : Quantity [ohm], zero or more
    motor_resistance : Quantity [ohm], above zero
    contact_resistance : Quantity [ohm], zero or more
        Everything between source and motor, added up.

    Returns
    -------
    float or array
        1 for perfect contacts, towards 0 as they get worse.

    Notes
    -----
    .. math:: \frac{T}{T_0} = \frac{R_i + R_a}{R_i + R_a + \sum R_c}

    A held permanent-magnet motor pulls in proportion to its current; friction
    inside it is left out, so the pull that is left for the belt falls faster.

    References
    ----------
    .. [1] Series circuit, formula F18; check value K6, RECOMPUTED.

    Examples
    --------
    >>> ratio = starting_torque_ratio(source_resistance=Q(0.6, "ohm"),
    ...     motor_resistance=Q(8, "ohm"), contact_resistance=Q(1, "ohm"))
    >>> print(f"{ratio:.3f}")
    0.896
    """
    source_resistance = need(source_resistance, "ohm", "source_resistance", least=0)
    motor_resistance = need(motor_resistance, "ohm", "motor_resistance", above=0)
    contact_resistance = need(contact_resistance, "ohm", "contact_resistance", least=0)
    perfect = source_resistance + motor_resistance
    return (perfect / (perfect + contact_resistance)).m_as("")


def running_speed_ratio(*, supply, current, source_resistance, motor_resistance, contact_resistance):
    r"""Speed with these contacts, as a share of the speed with perfect ones.

    Parameters
    ----------
    supply : Quantity [V], above zero
        The source's voltage with nothing drawn from it.
    current : Quantity [A], zero or more
        While running; taken as the same with and without the contacts,
        because the mechanics ask for the same torque.
    source_resistance : Quantity [ohm], zero or more
    motor_resistance : Quantity [ohm], above zero
    contact_resistance : Quantity [ohm], zero or more
        Everything between source and motor, added up.

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        If the supply cannot drive that current through that chain: the motor
        would stand still, and this law no longer speaks.

    Notes
    -----
    .. math:: \frac{n}{n_0} = \frac{V_b - I (R_i + \sum R_c + R_a)}{V_b - I (R_i + R_a)}

    For a motor without a governor. A governor hides the loss until it has no
    volts left to give.

    References
    ----------
    .. [1] Permanent-magnet motor at constant torque, formula F19.

    Examples
    --------
    >>> ratio = running_speed_ratio(supply=Q(6, "V"), current=Q(0.12, "A"),
    ...     source_resistance=Q(0.6, "ohm"), motor_resistance=Q(8, "ohm"),
    ...     contact_resistance=Q(1, "ohm"))
    >>> print(f"{ratio:.3f}")
    0.976
    """
    supply = need(supply, "V", "supply", above=0)
    current = need(current, "A", "current", least=0)
    source_resistance = need(source_resistance, "ohm", "source_resistance", least=0)
    motor_resistance = need(motor_resistance, "ohm", "motor_resistance", above=0)
    contact_resistance = need(contact_resistance, "ohm", "contact_resistance", least=0)
    perfect = supply - current * (source_resistance + motor_resistance)
    left = perfect - current * contact_resistance
    if not np.all(left.m_as("V") > 0):
        raise ValueError("supply: too low to drive this current through this chain; "
                         "write a higher supply or a smaller current")
    return (left / perfect).m_as("")


def resistance_from_loss(*, load_resistance, loss):
    r"""Ohms of a contact in series with a load, from the decibels that it takes.

    Parameters
    ----------
    load_resistance : Quantity [ohm], above zero
        Loudspeaker, headphone or the input of the next stage.
    loss : Quantity [dB]
        Level before the contact less the level behind it.

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R_c = R_L (10^{\Delta L / 20} - 1)

    For a source that holds its voltage. A line input of many kilohms makes a
    decibel out of kilohms only, so it says little about a contact.

    References
    ----------
    .. [1] Voltage divider, formula F20 solved for the contact; check value D1 read backwards, RECOMPUTED.

    Examples
    --------
    >>> ohms = resistance_from_loss(load_resistance=Q(8, "ohm"), loss=Q(1.0231, "dB"))
    >>> print(f"{ohms:.2f~P}")
    1.00 Ω
    """
    load_resistance = need(load_resistance, "ohm", "load_resistance", above=0)
    loss = need(loss, "dB", "loss")
    return (load_resistance * (10 ** (loss.m_as("dB") / 20) - 1)).to("ohm")
