"""Tolerances marked on a part: letters, and figures printed in full."""

import re

from benchreckoner.units import need, tidy

_PER_CENT = {"B": 0.1, "C": 0.25, "D": 0.5, "F": 1, "G": 2, "H": 3, "J": 5, "K": 10, "M": 20, "N": 30}
_UNEVEN = {"Q": (-10, 30), "T": (-10, 50), "S": (-20, 50), "Z": (-20, 80)}
_PICOFARADS = {"B": 0.1, "C": 0.25, "D": 0.5, "F": 1.0, "G": 2.0}  # on capacitors below 10 pF
_NUMBER = r"(\d+(?:[.,]\d*)?|[.,]\d+)"
_SAME = 1e-9


def letter_tolerance(*, letter, capacitance=None):
    """The tolerance that a letter behind the value stands for.

    Parameters
    ----------
    letter : str
    capacitance : Quantity [F], optional
        Below 10 pF the letters B to G count picofarads, not per cent.

    Returns
    -------
    tuple of (float, float)
        How far below and above the value, as fractions of it.

    Raises
    ------
    ValueError
        For a letter that stands for none.

    References
    ----------
    .. [1] K and M: check value C64, FOUND. B to N: C65, Q T S Z: C66, MEMORY; J, K, M, N, T, Z and, on resistors, D, F, G
       also in a service manual's code chart, FOUND. Letters below 10 pF: C, D there, and a public page, FOUND (second-hand);
       B, F, G MEMORY.

    Examples
    --------
    >>> letter_tolerance(letter="T")
    (-0.1, 0.5)
    """
    if capacitance is not None and letter in _PICOFARADS:
        farads = float(need(capacitance, "F", "capacitance", above=0).m_as("F"))
        if farads < 10e-12 * (1 - _SAME):
            part = _PICOFARADS[letter] * 1e-12 / farads
            return -part, part
    if letter in _UNEVEN:
        lower, upper = _UNEVEN[letter]
        return lower / 100, upper / 100
    if letter not in _PER_CENT:
        raise ValueError(f"letter: {letter!r} stands for no tolerance here; the letters are "
                         f"{', '.join((*_PER_CENT, *_UNEVEN))}")
    return -_PER_CENT[letter] / 100, _PER_CENT[letter] / 100


def printed_tolerance(*, marking):
    """The tolerance printed in full, such as ``-10/+50 %``, ``±20 %`` or ``10 %``.

    Parameters
    ----------
    marking : str

    Returns
    -------
    tuple of (float, float)
        How far below and above the value, as fractions of it.

    Raises
    ------
    ValueError
        If it cannot be read, or takes away all of the value.

    References
    ----------
    .. [1] -10/+50 %: check value C66, MEMORY, and a service manual's code chart, FOUND.

    Examples
    --------
    >>> printed_tolerance(marking="-10 +50 %")
    (-0.1, 0.5)
    """
    text = tidy(marking).strip("\"'“”").replace(" ", "").removesuffix("%").replace("%", "")
    even = re.fullmatch(rf"(?:±|\+/-|\+-)?{_NUMBER}", text)
    minus_first = re.fullmatch(rf"-{_NUMBER}[/,;]?\+{_NUMBER}", text)
    plus_first = re.fullmatch(rf"\+{_NUMBER}[/,;]?-{_NUMBER}", text)
    if even:
        below = above = even[1]
    elif minus_first:
        below, above = minus_first.groups()
    elif plus_first:
        above, below = plus_first.groups()
    else:
        raise ValueError(f"marking: cannot read {marking!r} as a tolerance; write for example \"-10/+50 %\" or \"±20 %\"")
    lower, upper = (float(part.replace(",", ".")) / 100 for part in (below, above))
    if lower >= 1:
        raise ValueError(f"marking: {marking!r} takes away all of the value; write for example \"-10/+50 %\"")
    return -lower, upper
