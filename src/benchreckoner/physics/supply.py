"""Cells and adapters: the volts they promise and the volts they give."""

from benchreckoner.units import need


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
    >>> from benchreckoner.units import Q
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
    >>> from benchreckoner.units import Q
    >>> current, voltage = loaded_cells(cells=10, cell_voltage=Q(1.5, "V"),
    ...     cell_resistance=Q(0.2, "ohm"), load_resistance=Q(58, "ohm"))
    >>> print(f"{current:.2f~P}, {voltage:.1f~P}")
    0.25 A, 14.5 V
    """
    if isinstance(cells, bool) or not isinstance(cells, int) or cells < 1:
        raise ValueError(f"cells: must be a whole number from 1, got {cells!r}; write cells=6")
    cell_voltage = need(cell_voltage, "V", "cell_voltage", above=0)
    cell_resistance = need(cell_resistance, "ohm", "cell_resistance", least=0)
    load_resistance = need(load_resistance, "ohm", "load_resistance", above=0)
    current = cells * cell_voltage / (cells * cell_resistance + load_resistance)
    return current.to("A"), (current * load_resistance).to("V")


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
    >>> from benchreckoner.units import Q
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
