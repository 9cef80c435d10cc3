"""Heat of a pass transistor: the watts it must turn into heat, and how hot its junction gets."""

import numpy as np

from benchreckoner.physics.governors import headroom_current
from benchreckoner.units import Q, need


def transistor_power(*, voltage_drop, current):
    r"""Heat in a transistor that stands in series with its load.

    Parameters
    ----------
    voltage_drop : Quantity [V], zero or more
        Across the transistor, collector to emitter.
    current : Quantity [A], zero or more
        Through it; the base's own small current is left out.

    Returns
    -------
    Quantity [W]

    Notes
    -----
    .. math:: P = V I

    For steady volts and amperes, or for mean values where only one of the two swings.

    References
    ----------
    .. [1] Malvino, Bates, *Electronic Principles*, 7th ed., example 24-7, check value P07, FOUND.

    Examples
    --------
    >>> print(f"{transistor_power(voltage_drop=Q(4.3, 'V'), current=Q(85, 'mA')).to('W'):.4f~P}")
    0.3655 W
    """
    voltage_drop = need(voltage_drop, "V", "voltage_drop", least=0)
    current = need(current, "A", "current", least=0)
    return (voltage_drop * current).to("W")


def governed_power(*, current, open_voltage, source_resistance, set_voltage, compensation, regulator_drop):
    r"""Heat in the pass transistor of a governed motor, at any current.

    Parameters
    ----------
    current : Quantity [A], zero or more
    open_voltage : Quantity [V]
        Of the supply, with nothing drawn from it.
    source_resistance : Quantity [ohm], above zero
        Cells, contacts and wires, the governor's own sense resistor included. What it loses warms the
        cells and the resistor, not the transistor.
    set_voltage : Quantity [V], above zero
        What the governor would put on the motor at no current.
    compensation : Quantity [ohm], zero or more
    regulator_drop : Quantity [V], zero or more
        The least that the transistor keeps for itself.

    Returns
    -------
    Quantity [W]

    Raises
    ------
    ValueError
        For a supply under the drop, and for more current than supply and drop can give.

    Notes
    -----
    .. math:: P = [V_s - V_{set} - (R_c + r) I] I

    As long as the governor has volts in hand. Beyond that the transistor is fully open and keeps its drop alone:
    :math:`P = V_{drop} I`, little heat although the current is large. A stalled motor stands there.

    References
    ----------
    .. [1] The supply line less the governor's line, times the current; check value P09, RECOMPUTED.

    Examples
    --------
    >>> watts = governed_power(current=Q(100, "mA"), open_voltage=Q(9, "V"), source_resistance=Q(2, "ohm"),
    ...     set_voltage=Q(3, "V"), compensation=Q(15, "ohm"), regulator_drop=Q(0.3, "V"))
    >>> print(f"{watts.to('W'):.2f~P}")
    0.43 W
    """
    current = need(current, "A", "current", least=0)
    limit = headroom_current(open_voltage=open_voltage, regulator_drop=regulator_drop, set_voltage=set_voltage,
                             compensation=compensation, source_resistance=source_resistance)
    most = ((open_voltage - regulator_drop) / source_resistance).to("A")
    if not np.all(current <= most):
        raise ValueError(f"current: supply and drop give {most.m_as('mA'):.4g} mA at most, into a short; write Q(85, 'mA')")
    kept = open_voltage - set_voltage - (compensation + source_resistance) * current
    return (Q(np.where(current <= limit, kept.m_as("V"), regulator_drop.m_as("V")), "V") * current).to("W")


def worst_governed_load(*, open_voltage, source_resistance, set_voltage, compensation, regulator_drop):
    r"""The current at which a governed motor heats its pass transistor most, while the governor holds.

    Parameters
    ----------
    open_voltage : Quantity [V]
        Of the supply, with nothing drawn from it.
    source_resistance : Quantity [ohm], above zero
        Cells, contacts and wires, the governor's own sense resistor included.
    set_voltage : Quantity [V], above zero
    compensation : Quantity [ohm], zero or more
    regulator_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [A]

    Raises
    ------
    ValueError
        For a supply that cannot hold the set voltage at any current.

    Notes
    -----
    .. math:: I = \min\left(\frac{V_s - V_{set}}{2 (R_c + r)},\; I_{max}\right)

    Half the volts in hand are then lost to current, the other half stands across the transistor. Where the governor
    runs out of volts before that, its last current is the worst.

    References
    ----------
    .. [1] The slope of `governed_power` set to zero; check value P09, RECOMPUTED.

    Examples
    --------
    >>> amps = worst_governed_load(open_voltage=Q(9, "V"), source_resistance=Q(2, "ohm"), set_voltage=Q(3, "V"),
    ...     compensation=Q(15, "ohm"), regulator_drop=Q(0.3, "V"))
    >>> print(f"{amps.to('mA'):.1f~P}")
    176.5 mA
    """
    limit = headroom_current(open_voltage=open_voltage, regulator_drop=regulator_drop, set_voltage=set_voltage,
                             compensation=compensation, source_resistance=source_resistance)
    if not np.all(limit.magnitude > 0):
        raise ValueError(f"open_voltage: {open_voltage:~P} cannot hold {set_voltage:~P} at any current; "
                         "write more, such as Q(9, 'V')")
    return np.minimum(((open_voltage - set_voltage) / (2 * (compensation + source_resistance))).to("A"), limit)


def junction_temperature(*, ambient, power, resistances):
    r"""Temperature of the junction behind a chain of thermal resistances.

    Parameters
    ----------
    ambient : Quantity [degC]
        Where the chain ends: the air, or the case if that was measured.
    power : Quantity [W], zero or more
    resistances : Quantity [K/W], zero or more, one axis
        One after the other, such as junction to case, case to plate, plate to air.

    Returns
    -------
    Quantity [degC]

    Notes
    -----
    .. math:: T_j = T_a + P \sum R

    After it has warmed through, in minutes. A pulse is another matter. The chain is one path: what leaves beside the
    plate is left out, so a real junction is a little cooler.

    References
    ----------
    .. [1] Sedra, Smith, *Microelectronic Circuits*, 5th ed., example 14.4, check value P02, FOUND.

    Examples
    --------
    >>> warm = junction_temperature(ambient=Q(25, "degC"), power=Q(2, "W"), resistances=Q([3, 1, 20], "K/W"))
    >>> print(f"{warm:.0f~P}")
    73 °C
    """
    ambient, power = need(ambient, "degC", "ambient", least=-273.15), need(power, "W", "power", least=0)
    rise = power * _chain(resistances)
    return Q(ambient.m_as("degC") + rise.m_as("K"), "degC")


def largest_power(*, junction_limit, ambient, resistances):
    r"""The most heat that a transistor may make before its junction reaches its limit.

    Parameters
    ----------
    junction_limit : Quantity [degC]
        From the data sheet.
    ambient : Quantity [degC], below the limit
        Where the chain ends: the air, or a case that is held at this temperature.
    resistances : Quantity [K/W], above zero in all, one axis

    Returns
    -------
    Quantity [W]

    Raises
    ------
    ValueError
        Where the air is as hot as the limit already, or nothing resists.

    Notes
    -----
    .. math:: P = (T_{j,max} - T_a) / \sum R

    References
    ----------
    .. [1] Neamen, *Electronic Circuit Analysis and Design*, 2nd ed., example 8.1, check value P01; P04, P05, P17, FOUND.

    Examples
    --------
    >>> print(largest_power(junction_limit=Q(150, "degC"), ambient=Q(50, "degC"), resistances=Q([5, 45], "K/W")).to("W"))
    2.0 watt
    """
    span = _span(junction_limit, ambient, "ambient")
    whole = _chain(resistances)
    if not np.all(whole.magnitude > 0):
        raise ValueError("resistances: nothing resists here; write for example resistances=Q([3, 20], 'K/W')")
    return (span / whole).to("W")


def thermal_resistance(*, hot, cold, power):
    r"""Thermal resistance between two places, from their temperatures and the heat that flows.

    Parameters
    ----------
    hot, cold : Quantity [degC]
        Such as the junction's limit, and the air for which the rated power holds.
    power : Quantity [W], above zero

    Returns
    -------
    Quantity [K/W]

    Raises
    ------
    ValueError
        If the hot side is not the hotter one.

    Notes
    -----
    .. math:: R = (T_{hot} - T_{cold}) / P

    A data sheet's rated power gives junction to air only where it holds in free air. Many a power transistor's holds
    with its case kept at 25 degC, and gives junction to case.

    References
    ----------
    .. [1] Sedra, Smith, example 14.4, check value P02; Cengel, example 3-11, check value P17, FOUND.

    Examples
    --------
    >>> print(thermal_resistance(hot=Q(150, "degC"), cold=Q(25, "degC"), power=Q(0.5, "W")).to("K/W"))
    250.0 kelvin / watt
    """
    power = need(power, "W", "power", above=0)
    return (_span(hot, cold, "cold") / power).to("K/W")


def derated_power(*, rated_power, slope, ambient, rated_at=Q(25, "degC")):
    r"""What is left of a rated power in warmer surroundings.

    Parameters
    ----------
    rated_power : Quantity [W], above zero
    slope : Quantity [W/K], above zero
        How much it loses for each kelvin, from the data sheet.
    ambient : Quantity [degC]
    rated_at : Quantity [degC]
        Up to here the whole rating holds.

    Returns
    -------
    Quantity [W]

    Raises
    ------
    ValueError
        Where nothing is left.

    Notes
    -----
    .. math:: P = P_{rated} - s (T_a - T_{rated})

    The straight line to nothing at the junction's limit; its slope is one over the thermal resistance.

    References
    ----------
    .. [1] Schultz, *Grob's Basic Electronics*, example 28-11, check value P18, FOUND.

    Examples
    --------
    >>> print(f"{derated_power(rated_power=Q(500, 'mW'), slope=Q(4, 'mW/K'), ambient=Q(65, 'degC')).to('mW'):.0f~P}")
    340 mW
    """
    rated_power = need(rated_power, "W", "rated_power", above=0)
    slope = need(slope, "W/K", "slope", above=0)
    ambient, rated_at = need(ambient, "degC", "ambient"), need(rated_at, "degC", "rated_at")
    above = Q(np.maximum(ambient.m_as("degC") - rated_at.m_as("degC"), 0), "K")
    left = (rated_power - slope * above).to("W")
    if not np.all(left.magnitude > 0):
        raise ValueError(f"ambient: at {ambient:~P} nothing is left of the rating; write Q(50, 'degC')")
    return left


def _chain(resistances):
    return np.sum(need(resistances, "K/W", "resistances", least=0))


def _span(hot, cold, name):
    hot, cold = need(hot, "degC", "junction_limit" if name == "ambient" else "hot"), need(cold, "degC", name)
    span = Q(hot.m_as("degC") - cold.m_as("degC"), "K")
    if not np.all(span.magnitude > 0):
        raise ValueError(f"{name}: {cold:~P} must lie below {hot:~P}; write for example Q(25, 'degC')")
    return span
