"""Ampere-hours: how long a cell runs, and how fast it may be charged."""

from benchreckoner.units import Q, need

# Nickel cells by the book: 0.1 It, that is a tenth of the capacity each hour, for 16 hours.
STANDARD_RATE, STANDARD_TIME = Q(0.1, "1/h"), Q(16, "h")


def runtime(*, capacity, current):
    r"""Hours that a cell lasts at a steady current.

    Parameters
    ----------
    capacity : Quantity [Ah], above zero
        As marked: at the gentle current of its maker's test.
    current : Quantity [A], above zero

    Returns
    -------
    Quantity [h]

    Notes
    -----
    .. math:: t = C / I

    Optimistic at high drain: alkaline and zinc-carbon cells then give far fewer ampere-hours, nickel cells somewhat
    fewer. And it counts to the cell's end point; a governor may need more volts than that (see `regulation_end`).

    References
    ----------
    .. [1] Charge is current times time, check value R08. RECOMPUTED.

    Examples
    --------
    >>> hours = runtime(capacity=Q(2.0, "Ah"), current=Q(150, "mA"))
    >>> print(f"{hours:.1f~P}")
    13.3 h
    """
    capacity = need(capacity, "Ah", "capacity", above=0)
    current = need(current, "A", "current", above=0)
    return (capacity / current).to("h")


def standard_charge(*, capacity):
    r"""Current and time of the standard charge of an empty nickel cell.

    Parameters
    ----------
    capacity : Quantity [Ah], above zero

    Returns
    -------
    current : Quantity [A]
    time : Quantity [h]

    Notes
    -----
    .. math:: I = 0.1\,I_t = 0.1\,C / (1\,\mathrm{h}), \quad t = 16\,\mathrm{h}

    Nickel-metal hydride and nickel-cadmium only, near 20 degC, empty at the start. Never for alkaline, zinc-carbon
    or lithium cells.

    References
    ----------
    .. [1] Pages that quote the IEC test of nickel-metal hydride cells: 0.1 It for 16 h. FOUND.

    Examples
    --------
    >>> current, time = standard_charge(capacity=Q(2.0, "Ah"))
    >>> print(f"{current:.2f~P} for {time:.0f~P}")
    0.20 A for 16 h
    """
    capacity = need(capacity, "Ah", "capacity", above=0)
    return (capacity * STANDARD_RATE).to("A"), STANDARD_TIME


def charge_rate(*, current, capacity):
    r"""Charging current as a share of the capacity each hour, the rate It.

    Parameters
    ----------
    current : Quantity [A], zero or more
    capacity : Quantity [Ah], above zero

    Returns
    -------
    Quantity [1/h]
        0.1 /h is what makers write as 0.1 It, or C/10.

    Notes
    -----
    .. math:: n = I / C

    Of the current that the charger truly gives with these cells in it: read it in line, marked values lie.

    References
    ----------
    .. [1] The definition of It, check value R08 turned round. RECOMPUTED.

    Examples
    --------
    >>> rate = charge_rate(current=Q(120, "mA"), capacity=Q(2.0, "Ah"))
    >>> print(f"{rate:.2f~P}")
    0.06 1/h
    """
    current = need(current, "A", "current", least=0)
    capacity = need(capacity, "Ah", "capacity", above=0)
    return (current / capacity).to("1/h")


def full_charge_time(*, capacity, current):
    r"""Hours to fill an empty nickel cell at a low current.

    Parameters
    ----------
    capacity : Quantity [Ah], above zero
    current : Quantity [A], above zero

    Returns
    -------
    Quantity [h]

    Notes
    -----
    .. math:: t = 1.6\, C / I

    The standard charge puts 1.6 times the capacity in, since the last part of it turns into heat; taken as the same
    at other low rates. Between about 0.05 and 0.1 It; a slower charge wastes more, a faster one needs watching.

    References
    ----------
    .. [1] 0.1 It for 16 h (pages that quote the IEC test, FOUND), scaled by the current. RECOMPUTED.

    Examples
    --------
    >>> hours = full_charge_time(capacity=Q(2.5, "Ah"), current=Q(200, "mA"))
    >>> print(f"{hours:.0f~P}")
    20 h
    """
    capacity = need(capacity, "Ah", "capacity", above=0)
    current = need(current, "A", "current", above=0)
    return (STANDARD_RATE * STANDARD_TIME * capacity / current).to("h")
