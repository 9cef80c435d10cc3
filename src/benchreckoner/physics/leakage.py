"""Leakage of capacitors: what a meter behind a resistor says of it, and how it falls with time."""

import numpy as np

from benchreckoner.units import Q, need


def leakage_current(*, shown, series_resistance, meter_resistance):
    r"""Current through a capacitor, from the volts across a resistor in series with it.

    Parameters
    ----------
    shown : Quantity [V]
        What the meter across the resistor shows.
    series_resistance : Quantity [ohm], above zero
    meter_resistance : Quantity [ohm], above zero
        Of the meter's input; it lies beside the resistor.

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = V \left(\frac{1}{R_s} + \frac{1}{R_m}\right)

    All of the current is taken for leakage: wait until the charging current has gone.

    References
    ----------
    .. [1] Ohm's law, check values C31 and C32, RECOMPUTED.

    Examples
    --------
    >>> amps = leakage_current(shown=Q(2, "V"), series_resistance=Q(10, "kohm"), meter_resistance=Q(10, "Mohm"))
    >>> print(f"{amps.to('uA'):.1f~P}")
    200.2 µA
    """
    shown = need(shown, "V", "shown")
    series_resistance = need(series_resistance, "ohm", "series_resistance", above=0)
    meter_resistance = need(meter_resistance, "ohm", "meter_resistance", above=0)
    return (shown / series_resistance + shown / meter_resistance).to("A")


def leakage_resistance(*, supply, shown, series_resistance, meter_resistance):
    r"""Resistance that a leaking capacitor shows to direct current, by the same measurement.

    Parameters
    ----------
    supply : Quantity [V], above zero
    shown : Quantity [V], above zero and below the supply
        What the meter across the resistor shows.
    series_resistance, meter_resistance : Quantity [ohm], above zero

    Returns
    -------
    Quantity [ohm]

    Raises
    ------
    ValueError
        If the resistor would take the whole supply: the part is then a short, or the supply another.

    Notes
    -----
    .. math:: R_L = (E - V) / I

    It holds at this voltage and this time on voltage only: leakage is no resistor.

    References
    ----------
    .. [1] Ohm's law, check value C31, RECOMPUTED.

    Examples
    --------
    >>> ohms = leakage_resistance(supply=Q(6, "V"), shown=Q(2, "V"), series_resistance=Q(10, "kohm"),
    ...     meter_resistance=Q(10, "Mohm"))
    >>> print(f"{ohms.to('kohm'):.2f~P}")
    19.98 kΩ
    """
    supply = need(supply, "V", "supply", above=0)
    shown = need(shown, "V", "shown", above=0)
    if not np.all(shown < supply):
        raise ValueError(f"shown: the resistor cannot take more than the supply of {supply:~P}, got {shown:~P}; "
                         "read both again, on one range")
    current = leakage_current(shown=shown, series_resistance=series_resistance, meter_resistance=meter_resistance)
    return ((supply - shown) / current).to("ohm")


def charging_current(*, supply, series_resistance, capacitance, time):
    r"""Current that still charges a sound capacitor, and poses as leakage.

    Parameters
    ----------
    supply : Quantity [V]
    series_resistance : Quantity [ohm], above zero
    capacitance : Quantity [F], above zero
    time : Quantity [s], zero or more
        Since the supply was switched on.

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = \frac{E}{R} e^{-t / R C}

    References
    ----------
    .. [1] Exponential charging, check values C29 and C30, RECOMPUTED.

    Examples
    --------
    >>> amps = charging_current(supply=Q(6, "V"), series_resistance=Q(100, "kohm"),
    ...     capacitance=Q(1000, "uF"), time=Q(120, "s"))
    >>> print(f"{amps.to('uA'):.2f~P}")
    18.07 µA
    """
    supply = need(supply, "V", "supply")
    resistance = need(series_resistance, "ohm", "series_resistance", above=0)
    capacitance = need(capacitance, "F", "capacitance", above=0)
    time = need(time, "s", "time", least=0)
    return (supply / resistance * np.exp(-(time / (resistance * capacitance)).m_as(""))).to("A")


def currents_on_voltage(*, supply, series_resistance, capacitance, leakage_resistance, time):
    r"""What still charges a leaking capacitor, and what leaks through it; a meter in line shows both together.

    Parameters
    ----------
    supply : Quantity [V]
    series_resistance : Quantity [ohm], above zero
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
        At this time on voltage.
    time : Quantity [s], zero or more

    Returns
    -------
    charging, leaking : Quantity [A]

    Notes
    -----
    .. math::
        I_C = \frac{E}{R} e^{-t/\tau}, \quad I_L = \frac{E}{R + R_L} (1 - e^{-t/\tau}), \quad
        \tau = C\,(R \parallel R_L)

    The leakage resistance is taken as constant while the part charges; where it grows, it must do so slowly.

    References
    ----------
    .. [1] Thevenin's source and exponential charging, RECOMPUTED; tested against a numerical solution.

    Examples
    --------
    >>> charging, leaking = currents_on_voltage(supply=Q(6, "V"), series_resistance=Q(100, "kohm"),
    ...     capacitance=Q(1000, "uF"), leakage_resistance=Q(1e6, "Mohm"), time=Q(120, "s"))
    >>> print(f"{charging.to('uA'):.2f~P}")
    18.07 µA
    """
    supply, time = need(supply, "V", "supply"), need(time, "s", "time", least=0)
    resistance = need(series_resistance, "ohm", "series_resistance", above=0)
    capacitance = need(capacitance, "F", "capacitance", above=0)
    leak = need(leakage_resistance, "ohm", "leakage_resistance", above=0)
    ages = (time * (1 / resistance + 1 / leak) / capacitance).m_as("")
    return (supply / resistance * np.exp(-ages)).to("A"), (supply / (resistance + leak) * -np.expm1(-ages)).to("A")


def decayed_current(*, current, read_after, exponent, time):
    r"""Leakage at another time on voltage, by the power law.

    Parameters
    ----------
    current : Quantity [A]
        Read after `read_after` on voltage.
    read_after, time : Quantity [s], above zero
    exponent : float or array, zero or more
        How steeply it falls; parts are often between 0.5 and 1.

    Returns
    -------
    Quantity [A]

    Raises
    ------
    ValueError
        If the exponent is negative: leakage that grows with time on voltage follows no such law.

    Notes
    -----
    .. math:: I(t) = I_1 (t / t_1)^{-n}

    From minutes to hours, after the charging current has gone and before a floor is reached.

    References
    ----------
    .. [1] Curie and von Schweidler's form of the current. MEMORY.

    Examples
    --------
    >>> amps = decayed_current(current=Q(100, "uA"), read_after=Q(1, "min"), exponent=1, time=Q(5, "min"))
    >>> print(f"{amps.to('uA'):.1f~P}")
    20.0 µA
    """
    current = need(current, "A", "current")
    first, time = need(read_after, "s", "read_after", above=0), need(time, "s", "time", above=0)
    if not np.all(np.asarray(exponent) >= 0):
        raise ValueError(f"exponent: must be zero or more, got {exponent}; write exponent=0.7")
    return (current * (time / first).m_as("") ** -np.asarray(exponent, dtype=float)).to("A")


def held_voltage(*, voltage, capacitance, leakage_resistance, meter_resistance, time):
    r"""Volts that a charged capacitor still has while a meter hangs on it.

    Parameters
    ----------
    voltage : Quantity [V]
        At the start.
    capacitance : Quantity [F], above zero
    leakage_resistance, meter_resistance : Quantity [ohm], above zero
        Both discharge it, side by side.
    time : Quantity [s], zero or more

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: V = V_0\, e^{-t / C (R_L \parallel R_m)}

    Soakage adds to it at first.

    References
    ----------
    .. [1] Exponential discharge, check value C33, RECOMPUTED.

    Examples
    --------
    >>> volts = held_voltage(voltage=Q(1, "V"), capacitance=Q(10, "uF"), leakage_resistance=Q(1e6, "Mohm"),
    ...     meter_resistance=Q(10, "Mohm"), time=Q(60, "s"))
    >>> print(f"{volts:.4f~P}")
    0.5488 V
    """
    voltage, time = need(voltage, "V", "voltage"), need(time, "s", "time", least=0)
    capacitance = need(capacitance, "F", "capacitance", above=0)
    each = 1 / need(leakage_resistance, "ohm", "leakage_resistance", above=0) \
        + 1 / need(meter_resistance, "ohm", "meter_resistance", above=0)
    return (voltage * np.exp(-(time * each / capacitance).m_as(""))).to("V")


def recovered_voltage(*, voltage, capacitance, soak_capacitance, soak_resistance, time):
    r"""Volts that come back by soakage after a short.

    Parameters
    ----------
    voltage : Quantity [V]
        On which the part had stood for long.
    capacitance : Quantity [F], above zero
        That the short emptied.
    soak_capacitance : Quantity [F], above zero
        Further inside, which the short was too brief to empty.
    soak_resistance : Quantity [ohm], above zero
        Between the two.
    time : Quantity [s], zero or more
        Since the short was taken off.

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math::
        V = U \frac{C_k}{C + C_k} \left(1 - e^{-t/\tau}\right), \qquad \tau = R_k \frac{C\, C_k}{C + C_k}

    One inner branch stands for many; a real part comes back over minutes and hours.

    References
    ----------
    .. [1] Two capacitors that share their charge; tested against a numerical solution.
    .. [2] 10 to 15 % for aluminium, 2 to 3 % for solid tantalum: open encyclopaedia, "Aluminum
       electrolytic capacitor". FOUND.

    Examples
    --------
    >>> volts = recovered_voltage(voltage=Q(6, "V"), capacitance=Q(90, "uF"), soak_capacitance=Q(10, "uF"),
    ...     soak_resistance=Q(1, "Mohm"), time=Q(1, "h"))
    >>> print(f"{volts:.2f~P}")
    0.60 V
    """
    voltage, time = need(voltage, "V", "voltage"), need(time, "s", "time", least=0)
    outer, inner = need(capacitance, "F", "capacitance", above=0), need(soak_capacitance, "F", "soak_capacitance", above=0)
    constant = need(soak_resistance, "ohm", "soak_resistance", above=0) * outer * inner / (outer + inner)
    return (voltage * inner / (outer + inner) * -np.expm1(-(time / constant).m_as(""))).to("V")
