"""Cells and adapters: the volts they promise and the volts they give."""

import numpy as np

from benchreckoner.units import Q, need


def source_resistance(*, off_voltage, loaded_voltage, current):
    r"""Resistance inside a source, from its volts off load and on load.

    Parameters
    ----------
    off_voltage : Quantity [V]
        Across the source with nothing drawn from it.
    loaded_voltage : Quantity [V]
        Across the source while the current flows.
    current : Quantity [A], above zero

    Returns
    -------
    Quantity [ohm]
        Negative if the loaded volts are the higher ones: two readings that
        contradict each other, left for the caller to tell.

    Notes
    -----
    .. math:: R_i = (V_{off} - V_{loaded}) / I

    Good for a few seconds under load. Cells sag further over minutes.

    References
    ----------
    .. [1] Bird, worked example 4, p. 36, turned round. FOUND (in an open transcription).

    Examples
    --------
    >>> ohms = source_resistance(off_voltage=Q(15, "V"), loaded_voltage=Q(14.5, "V"),
    ...     current=Q(0.25, "A"))
    >>> print(f"{ohms:.1f~P}")
    2.0 Ω
    """
    off_voltage = need(off_voltage, "V", "off_voltage")
    loaded_voltage = need(loaded_voltage, "V", "loaded_voltage")
    current = need(current, "A", "current", above=0)
    return ((off_voltage - loaded_voltage) / current).to("ohm")


def loaded_cells(*, cells, cell_voltage, cell_resistance, load_resistance):
    r"""Current from cells in series into a load, and the volts left across it.

    Parameters
    ----------
    cells : int, at least 1
    cell_voltage : Quantity [V], above zero
        One cell, nothing drawn from it.
    cell_resistance : Quantity [ohm], zero or more
        Inside one cell.
    load_resistance : Quantity [ohm], above zero

    Returns
    -------
    current : Quantity [A]
    voltage : Quantity [V]

    Notes
    -----
    .. math:: I = N E / (N r + R), \quad V = I R

    References
    ----------
    .. [1] Bird, worked example 4, p. 36. FOUND (in an open transcription).

    Examples
    --------
    >>> current, voltage = loaded_cells(cells=10, cell_voltage=Q(1.5, "V"),
    ...     cell_resistance=Q(0.2, "ohm"), load_resistance=Q(58, "ohm"))
    >>> print(f"{current:.2f~P}, {voltage:.1f~P}")
    0.25 A, 14.5 V
    """
    cells = _counted(cells)
    cell_voltage = need(cell_voltage, "V", "cell_voltage", above=0)
    cell_resistance = need(cell_resistance, "ohm", "cell_resistance", least=0)
    load_resistance = need(load_resistance, "ohm", "load_resistance", above=0)
    current = cells * cell_voltage / (cells * cell_resistance + load_resistance)
    return current.to("A"), (current * load_resistance).to("V")


def source_voltage(*, voltage, at_current, source_resistance, current):
    r"""Volts of a source at one current, from what it gives at another.

    Parameters
    ----------
    voltage : Quantity [V]
        Known at `at_current`: off load, or what is marked on an adapter at its marked current.
    at_current : Quantity [A], zero or more
    source_resistance : Quantity [ohm], zero or more
    current : Quantity [A], zero or more
        The current asked for; zero for off load.

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: V(I) = V_1 + R_i (I_1 - I)

    A straight line. An unregulated adapter bends upwards at its last few milliamperes, so off load it gives
    still more; a regulated one keeps its volts and then drops all at once. Cells sag over minutes as well.

    References
    ----------
    .. [1] Bird, worked example 4, p. 36. FOUND (in an open transcription).

    Examples
    --------
    An adapter marked 12 V at 400 mA, 10 ohm inside, with nothing drawn:

    >>> volts = source_voltage(voltage=Q(12, "V"), at_current=Q(400, "mA"), source_resistance=Q(10, "ohm"),
    ...     current=Q(0, "A"))
    >>> print(f"{volts:.1f~P}")
    16.0 V
    """
    voltage = need(voltage, "V", "voltage")
    at_current = need(at_current, "A", "at_current", least=0)
    source_resistance = need(source_resistance, "ohm", "source_resistance", least=0)
    current = need(current, "A", "current", least=0)
    return (voltage + source_resistance * (at_current - current)).to("V")


def regulation_end(*, cells, current, set_voltage, compensation, regulator_drop, cell_resistance, other_resistance):
    r"""Open-circuit volts of each cell at which a governor runs out of volts to regulate with.

    Parameters
    ----------
    cells : int, at least 1
        In series.
    current : Quantity [A], zero or more
        Drawn by the motor.
    set_voltage : Quantity [V], above zero
        What the governor would put on the motor at no current.
    compensation : Quantity [ohm], zero or more
    regulator_drop : Quantity [V], zero or more
        The least that the governor's transistor keeps for itself.
    cell_resistance : Quantity [ohm], zero or more
        Inside one cell.
    other_resistance : Quantity [ohm], zero or more
        Contacts, wires, and the governor's own sense resistor, which is included here.

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: E = [V_{set} + R_c I + V_{drop} + I (N r + R)] / N

    One resistance a cell, whatever its charge: real cells gain ohms as they empty, so regulation ends a little
    sooner. The motor's current alone: a lamp or an amplifier on the same cells adds its own loss in them.

    References
    ----------
    .. [1] The supply's line and the governor's line crossed, check value R07. RECOMPUTED.

    Examples
    --------
    >>> volts = regulation_end(cells=5, current=Q(140, "mA"), set_voltage=Q(3.26726, "V"), compensation=Q(15, "ohm"),
    ...     regulator_drop=Q(0.3, "V"), cell_resistance=Q(0.15, "ohm"), other_resistance=Q(1.3, "ohm"))
    >>> print(f"{volts:.2f~P}")
    1.19 V
    """
    cells = _counted(cells)
    current = need(current, "A", "current", least=0)
    set_voltage = need(set_voltage, "V", "set_voltage", above=0)
    compensation = need(compensation, "ohm", "compensation", least=0)
    regulator_drop = need(regulator_drop, "V", "regulator_drop", least=0)
    inside = cells * need(cell_resistance, "ohm", "cell_resistance", least=0)
    outside = need(other_resistance, "ohm", "other_resistance", least=0)
    wanted = set_voltage + compensation * current + regulator_drop
    return ((wanted + current * (inside + outside)) / cells).to("V")


def start_dip(*, open_voltage, supply_resistance, regulator_drop, motor_resistance, brush_drop=Q(0, "V")):
    r"""Current of a motor in the moment it starts, and the volts that are left behind cells and contacts.

    Parameters
    ----------
    open_voltage : Quantity [V]
        Of the supply, with nothing drawn from it.
    supply_resistance : Quantity [ohm], zero or more
        Cells, contacts and wires.
    regulator_drop : Quantity [V], zero or more
        The least that the governor's transistor keeps for itself.
    motor_resistance : Quantity [ohm], above zero
        The winding, at rest, and the governor's sense resistor.
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    current : Quantity [A]
    voltage : Quantity [V]

    Raises
    ------
    ValueError
        For a supply under the drops: no current would flow.

    Notes
    -----
    .. math:: I = (V_s - V_{drop} - V_b) / (R_s + R_m), \quad V = V_s - R_s I

    It lasts some hundredths of a second, until the motor turns; a capacitor across the supply softens it.

    References
    ----------
    .. [1] Ohm's law, the motor at rest, check value R06. RECOMPUTED.

    Examples
    --------
    >>> current, volts = start_dip(open_voltage=Q(9, "V"), supply_resistance=Q(1.2, "ohm"),
    ...     regulator_drop=Q(0.3, "V"), motor_resistance=Q(16, "ohm"))
    >>> print(f"{current:.3f~P}, {volts:.2f~P}")
    0.506 A, 8.39 V
    """
    open_voltage = need(open_voltage, "V", "open_voltage")
    supply_resistance = need(supply_resistance, "ohm", "supply_resistance", least=0)
    drops = need(regulator_drop, "V", "regulator_drop", least=0) + need(brush_drop, "V", "brush_drop", least=0)
    motor_resistance = need(motor_resistance, "ohm", "motor_resistance", above=0)
    if not np.all(open_voltage > drops):
        raise ValueError(f"open_voltage: must be above the drops of {drops:~P}, got {open_voltage:~P}: no current "
                         "would flow; write Q(9, 'V')")
    current = (open_voltage - drops) / (supply_resistance + motor_resistance)
    return current.to("A"), (open_voltage - supply_resistance * current).to("V")


def series_resistor(*, resistance, supply, other_resistance):
    r"""Current through a resistor put in series with a load, and the watts it must stand.

    Parameters
    ----------
    resistance : Quantity [ohm], above zero
        The added resistor.
    supply : Quantity [V], above zero
        The source's voltage with nothing drawn from it.
    other_resistance : Quantity [ohm], zero or more
        Everything else in the loop: source, links, motor held still.

    Returns
    -------
    current : Quantity [A]
    power : Quantity [W]

    Notes
    -----
    .. math:: I = V / (R + R_{other}), \quad P = I^2 R

    The held motor is the worst case: turning, it draws less.

    References
    ----------
    .. [1] Ohm's and Joule's laws.

    Examples
    --------
    >>> current, power = series_resistor(resistance=Q(10, "ohm"), supply=Q(9, "V"),
    ...     other_resistance=Q(20, "ohm"))
    >>> print(f"{current:.1f~P}, {power:.1f~P}")
    0.3 A, 0.9 W
    """
    resistance = need(resistance, "ohm", "resistance", above=0)
    supply = need(supply, "V", "supply", above=0)
    other_resistance = need(other_resistance, "ohm", "other_resistance", least=0)
    current = supply / (resistance + other_resistance)
    return current.to("A"), (current**2 * resistance).to("W")


def _counted(cells):
    if isinstance(cells, bool) or not isinstance(cells, int) or cells < 1:
        raise ValueError(f"cells: must be a whole number from 1, got {cells!r}; write cells=6")
    return cells
