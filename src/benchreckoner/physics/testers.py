"""Capacitance testers that wait for a threshold: what they show of a part that leaks and has series resistance.

Each assumes an ideal capacitor, and so shows something else. Leakage is taken as a resistance across the
capacitance: a real part leaks less at low volts. The testers that never wait stand in `testers_steady`.
"""

import numpy as np

from benchreckoner.units import Q, need

KNEE = 1 - np.exp(-1)  # one time constant: the threshold at which series resistance shifts least


def charge_time_reading(*, capacitance, leakage_resistance, series_resistance, source_resistance, stop=KNEE, start=0.0):
    r"""Shown by a tester that times how long its resistor takes to charge the part.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
    series_resistance : Quantity [ohm], zero or more
    source_resistance : Quantity [ohm], above zero
        Between the tester's supply and the part.
    stop, start : float
        Shares of its supply at which the clock stops and starts, 0 <= start < stop < 1.

    Returns
    -------
    Quantity [F]
        NaN where the clock never stops: the leak holds the part below the threshold.

    Raises
    ------
    ValueError
        For shares that do not rise from zero or more to below one.

    Notes
    -----
    With :math:`\rho = r/R_s`, :math:`a = R_L/(R_L + R_s + r)` and :math:`k' = k(1 + \rho) - \rho`:

    .. math:: C_{shown} = C\, a (1 + \rho) \frac{\ln \frac{a - k_1'}{a - k_2'}}{\ln \frac{1 - k_1}{1 - k_2}}

    A threshold that the jump at switching on passes counts from there.

    References
    ----------
    .. [1] Thevenin's theorem and exponential charging; derived, and held by a numerical solution. RECOMPUTED.

    Examples
    --------
    >>> farads = charge_time_reading(capacitance=Q(10, "uF"), leakage_resistance=Q(50, "kohm"),
    ...     series_resistance=Q(0, "ohm"), source_resistance=Q(10, "kohm"))
    >>> print(f"{farads.to('uF'):.3f~P}")
    11.842 µF
    """
    capacitance, leak, series = tested_part(capacitance, leakage_resistance, series_resistance)
    source = need(source_resistance, "ohm", "source_resistance", above=0)
    _rising(start, stop)
    rho = (series / source).m_as("")
    end = (leak / (leak + source + series)).m_as("")
    first = np.maximum(0, start * (1 + rho) - rho)
    last = np.maximum(first, stop * (1 + rho) - rho)
    waited = end * (1 + rho) * _log_ratio(end - first, end - last)
    return (capacitance * (waited / np.log((1 - start) / (1 - stop)))).to("F")


def discharge_time_reading(*, capacitance, leakage_resistance, series_resistance, load_resistance, stop=1 - KNEE, start=1.0,
                           charging_resistance=Q(0, "ohm")):
    r"""Shown by a tester that charges the part and times how long a resistor takes to empty it.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
    series_resistance : Quantity [ohm], zero or more
    load_resistance : Quantity [ohm], above zero
        It empties the part; the tester watches its volts.
    stop, start : float
        Shares of its supply at which the clock stops and starts, 0 < stop < start <= 1; with 1 it starts
        at the switch-over.
    charging_resistance : Quantity [ohm], zero or more
        Through which the part was filled before.

    Returns
    -------
    Quantity [F]
        NaN where the part cannot be charged up to where the clock starts.

    Raises
    ------
    ValueError
        For shares that do not fall so, or a start at the whole supply behind a charging resistor.

    Notes
    -----
    With :math:`\rho = r/R_d` and :math:`a = R_L/(R_L + R_c + r)`:

    .. math::
        C_{shown} = C \frac{R_L (1 + \rho)}{R_L + R_d + r}
        \frac{\ln \frac{\min(a,\, k_1 (1 + \rho))}{k_2 (1 + \rho)}}{\ln (k_1 / k_2)}

    The leak helps to empty it, so it reads low.

    References
    ----------
    .. [1] Exponential discharge; derived, and held by a numerical solution. RECOMPUTED.

    Examples
    --------
    >>> farads = discharge_time_reading(capacitance=Q(10, "uF"), leakage_resistance=Q(100, "kohm"),
    ...     series_resistance=Q(0, "ohm"), load_resistance=Q(10, "kohm"))
    >>> print(f"{farads.to('uF'):.3f~P}")
    9.091 µF
    """
    capacitance, leak, series = tested_part(capacitance, leakage_resistance, series_resistance)
    load = need(load_resistance, "ohm", "load_resistance", above=0)
    filling = need(charging_resistance, "ohm", "charging_resistance", least=0)
    if not 0 < stop < start <= 1:
        raise ValueError(f"start, stop: must fall from 1 or less to above 0, got {start} and {stop}; write 1 and 0.37")
    if start == 1 and np.any(filling.magnitude > 0):
        raise ValueError("start: behind a charging resistor no part quite reaches the supply; write for example 0.9")
    rho = (series / load).m_as("")
    full = (leak / (leak + filling + series)).m_as("")
    seen = ((leak + series) / (leak + filling + series)).m_as("")
    first = np.minimum(full, start * (1 + rho))
    last = np.minimum(first, stop * (1 + rho))
    waited = (leak * (1 + rho) / (leak + load + series)).m_as("") * np.log(first / last)
    return (capacitance * np.where(seen >= start, waited / np.log(start / stop), np.nan)).to("F")


def ramp_reading(*, capacitance, leakage_resistance, series_resistance, current, stop, start=Q(0, "V")):
    r"""Shown by a tester that charges the part with a steady current and times its rise.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
    series_resistance : Quantity [ohm], zero or more
    current : Quantity [A], above zero
    stop, start : Quantity [V]
        At which the clock stops and starts, 0 <= start < stop.

    Returns
    -------
    Quantity [F]
        NaN where the clock never stops: the leak carries the whole current before.

    Raises
    ------
    ValueError
        If the volts do not rise from zero or more.

    Notes
    -----
    With :math:`x = V/(I R_L)` and :math:`x' = x - r/R_L`, not below zero:

    .. math:: C_{shown} = C \frac{1}{x_2 - x_1} \ln \frac{1 - x_1'}{1 - x_2'}

    References
    ----------
    .. [1] A current shared between charge and leak; derived, and held by a numerical solution. RECOMPUTED.

    Examples
    --------
    >>> farads = ramp_reading(capacitance=Q(10, "uF"), leakage_resistance=Q(20, "kohm"), series_resistance=Q(0, "ohm"),
    ...     current=Q(100, "uA"), stop=Q(1, "V"))
    >>> print(f"{farads.to('uF'):.3f~P}")
    13.863 µF
    """
    capacitance, leak, series = tested_part(capacitance, leakage_resistance, series_resistance)
    current = need(current, "A", "current", above=0)
    start, stop = need(start, "V", "start", least=0), need(stop, "V", "stop", above=0)
    if not np.all(start < stop):
        raise ValueError(f"start: must lie below stop, {stop:~P}, got {start:~P}; write Q(0, 'V')")
    step = (series / leak).m_as("")
    first_seen, last_seen = ((volts / (current * leak)).m_as("") for volts in (start, stop))
    first = np.maximum(0, first_seen - step)
    last = np.maximum(first, last_seen - step)
    reached = last < 1
    first, last = (np.where(reached, share, 0) for share in (first, last))
    waited = np.where(reached, np.log1p(-first) - np.log1p(-last), np.nan)
    return (capacitance * (waited / (last_seen - first_seen))).to("F")


def oscillator_reading(*, capacitance, leakage_resistance, series_resistance, source_resistance, low=1 / 3, high=2 / 3):
    r"""Shown by a tester that times one round of an oscillator, charging and emptying by one resistor.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
    series_resistance : Quantity [ohm], zero or more
    source_resistance : Quantity [ohm], above zero
        It is switched between the supply and nought.
    low, high : float
        Shares of the supply at which it is switched, 0 < low < high < 1.

    Returns
    -------
    Quantity [F]
        NaN where it stops swinging: the leak holds the part below the upper threshold.

    Raises
    ------
    ValueError
        For shares that do not rise between nought and one.

    Notes
    -----
    With :math:`\rho = r/R` and :math:`a = R_L/(R_L + R + r)`:

    .. math::
        C_{shown} = C\, a (1 + \rho) \frac{\ln \frac{a - \alpha(1+\rho)}{a - \beta(1+\rho) + \rho}
        + \ln \frac{\beta(1+\rho) - \rho}{\alpha(1+\rho)}}{\ln \frac{(1-\alpha)\beta}{(1-\beta)\alpha}}

    Each switch-over jumps part of the swing; where it jumps all of it, nothing is left to time and it shows nought.

    References
    ----------
    .. [1] Charging and discharging by turns; derived, and held by a numerical solution. RECOMPUTED.

    Examples
    --------
    >>> farads = oscillator_reading(capacitance=Q(10, "uF"), leakage_resistance=Q(30, "kohm"),
    ...     series_resistance=Q(0, "ohm"), source_resistance=Q(10, "kohm"))
    >>> print(f"{farads.to('uF'):.3f~P}")
    12.457 µF
    """
    capacitance, leak, series = tested_part(capacitance, leakage_resistance, series_resistance)
    source = need(source_resistance, "ohm", "source_resistance", above=0)
    if not 0 < low:
        raise ValueError(f"low: must be above 0, got {low}; write for example 1/3")
    _rising(low, high)
    rho = (series / source).m_as("")
    end = (leak / (leak + source + series)).m_as("")
    bottom = low * (1 + rho)
    top = np.maximum(bottom, high * (1 + rho) - rho)
    waited = end * (1 + rho) * (_log_ratio(end - bottom, end - top) + np.log(top / bottom))
    return (capacitance * (waited / np.log((1 - low) * high / ((1 - high) * low)))).to("F")


def tested_part(capacitance, leakage_resistance, series_resistance):
    """What every law of a tester is told of the part: each checked, in its own unit."""
    return (need(capacitance, "F", "capacitance", above=0), need(leakage_resistance, "ohm", "leakage_resistance", above=0),
            need(series_resistance, "ohm", "series_resistance", least=0))


def _rising(start, stop):
    if not 0 <= start < stop < 1:
        raise ValueError(f"start, stop: must rise from 0 or more to below 1, got {start} and {stop}; write 0 and 0.632")


def _log_ratio(far, near):
    """The logarithm of far by near, NaN where the end is never reached."""
    reached = np.asarray(near) > 0
    return np.where(reached, np.log(np.where(reached, far, 1) / np.where(reached, near, 1)), np.nan)
