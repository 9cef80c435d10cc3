"""Preferred values: the resistors and capacitors that a drawer holds."""

import numpy as np

from benchreckoner.units import Q, need

# IEC 60063, as a public page lists the series. FOUND (second-hand). E24 and the coarser series are listed, not reckoned:
# eight values of E24 are not the rounded steps of the 24th root of ten. All 96 values of E96 are such steps.
SERIES = {
    "E3": (1.0, 2.2, 4.7),
    "E6": (1.0, 1.5, 2.2, 3.3, 4.7, 6.8),
    "E12": (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2),
    "E24": (1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0,
            3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1),
    "E96": tuple(round(10 ** (step / 96), 2) for step in range(96)),
}
_SAME = 1e-6  # two values this near are one value, typed or reckoned


def nearest_preferred(*, value, series="E12"):
    r"""The value of a series that is nearest, by ratio.

    Parameters
    ----------
    value : Quantity, above zero
        Of any unit: ohms and farads alike.
    series : str
        ``"E3"``, ``"E6"``, ``"E12"``, ``"E24"`` or ``"E96"``.

    Returns
    -------
    Quantity
        In the unit given.

    Raises
    ------
    ValueError
        For a series that is not listed here.

    Notes
    -----
    Nearest by ratio, not by difference: 10 % too much and 10 % too little count alike.

    References
    ----------
    .. [1] IEC 60063; check values C51 to C54, FOUND (second-hand).

    Examples
    --------
    >>> print(nearest_preferred(value=Q(4.3, "ohm")))
    4.7 ohm
    >>> print(nearest_preferred(value=Q(4.35, "ohm"), series="E96"))
    4.32 ohm
    """
    number, unit = _number(value)
    decade = 10.0 ** np.floor(np.log10(number))
    candidates = [one * scale for scale in (decade, 10 * decade) for one in _listed(series)]
    # Three digits say all of a value, and drop the last bits that the decade left in it.
    return Q(float(f"{min(candidates, key=lambda one: abs(np.log(one / number))):.3g}"), unit)


def preferred_neighbours(*, value, series="E12"):
    r"""The two values of a series between which a value lies.

    Parameters
    ----------
    value : Quantity, above zero
        Of any unit: ohms and farads alike.
    series : str
        As for `nearest_preferred`.

    Returns
    -------
    below, above : Quantity
        In the unit given; both the same where the value is one of the series.

    References
    ----------
    .. [1] IEC 60063; check values C51 to C54, FOUND (second-hand).

    Examples
    --------
    >>> below, above = preferred_neighbours(value=Q(4.3, "ohm"))
    >>> print(f"{below}, {above}")
    3.9 ohm, 4.7 ohm
    """
    number, unit = _number(value)
    decade = 10.0 ** np.floor(np.log10(number))
    around = [float(f"{one * scale:.3g}") for scale in (decade / 10, decade, 10 * decade) for one in _listed(series)]
    return (Q(max(one for one in around if one <= number * (1 + _SAME)), unit),
            Q(min(one for one in around if one >= number * (1 - _SAME)), unit))


def smallest_series(*, value):
    """The series with the fewest values that still holds this one.

    Parameters
    ----------
    value : Quantity, above zero

    Returns
    -------
    str
        Such as ``"E6"``; empty where no series here holds it.

    Notes
    -----
    The coarser the series, the likelier a shop or a drawer has the value. E96 does not hold all of E24.

    References
    ----------
    .. [1] IEC 60063; check values C51 to C54, FOUND (second-hand).

    Examples
    --------
    >>> smallest_series(value=Q(33, "uF")), smallest_series(value=Q(8, "uF"))
    ('E6', '')
    """
    number, unit = _number(value)
    for name in SERIES:
        if abs(nearest_preferred(value=value, series=name).m_as(unit) / number - 1) < _SAME:
            return name
    return ""


def _number(value):
    if not isinstance(value, Q):
        raise TypeError(f"value: write Q({value!r}, 'ohm'), not a bare number")
    return float(need(value, f"{value.units}", "value", above=0).magnitude), value.units


def _listed(series):
    if series not in SERIES:
        raise ValueError(f"series: {series!r} is not listed here; write one of {', '.join(SERIES)}")
    return SERIES[series]
