"""Letters and figures on resistors and capacitors, read and written: codes and old words."""

import math
import re
from typing import NamedTuple

from benchreckoner.physics.tolerances import letter_tolerance
from benchreckoner.units import Q, need, tidy

PARTS = ("resistor", "capacitor")
_UNITS = {"resistor": "ohm", "capacitor": "F"}
# The letter stands where the point would be. Resistors print capitals; a small k and r are read as well.
_POINTS = {"resistor": {"R": 0, "K": 3, "M": 6, "G": 9}, "capacitor": {"p": -12, "n": -9, "u": -6, "m": -3, "F": 0}}
_ALSO = {"resistor": {"r": "R", "k": "K"}, "capacitor": {"P": "p", "N": "n", "U": "u"}}
_THREE_FIGURES = {"resistor": 0, "capacitor": -12}
_OLD_WORDS = {"MFD": -6, "MF": -6, "MMFD": -12, "MMF": -12, "UUF": -12, "UUFD": -12, "PFD": -12}
_NUMBER = r"(\d+(?:[.,]\d*)?|[.,]\d+)"
_SAME = 1e-9


class Marking(NamedTuple):
    """What a marking says: the value, and how far below and above it the part may be, as fractions.

    ``lower`` and ``upper`` are None where no tolerance is marked.
    """

    value: Q
    lower: float | None = None
    upper: float | None = None


def letter_code_value(*, marking, part):
    """The value of a code whose letter stands for the point, such as ``4K7`` or ``4u7``.

    Parameters
    ----------
    marking : str
        With a tolerance letter behind it or without.
    part : str
        ``"resistor"`` (R, K, M, G) or ``"capacitor"`` (p, n, u or µ, m, F).

    Returns
    -------
    Marking
        Value in ohm or farad.

    Raises
    ------
    ValueError
        If it is no such code.

    References
    ----------
    .. [1] IEC 60062, letter and digit code, as an open encyclopaedia lists it; check values C61 and C62, FOUND.

    Examples
    --------
    >>> print(letter_code_value(marking="47K3", part="resistor").value)
    47300.0 ohm
    """
    points, also = _POINTS[_known(part)], _ALSO[part]
    found = re.fullmatch(rf"(\d{{0,4}})([{''.join((*points, *also))}])(\d{{0,4}})([A-Z]?)", _bare(marking))
    if not found or not found[1] + found[3]:
        raise ValueError(f"marking: {marking!r} is no letter code of a {part}; write for example "
                         f"\"{'4K7' if part == 'resistor' else '4u7'}\"")
    power = points[also.get(found[2], found[2])]
    return _with_letter(float(f"{found[1] or 0}.{found[3] or 0}e{power}"), part, found[4])


def three_figures_value(*, marking, part):
    """The value of three figures: two digits and how many noughts follow, in picofarads or ohms.

    Parameters
    ----------
    marking : str
        Such as ``473`` or ``473K``.
    part : str
        ``"resistor"`` or ``"capacitor"``.

    Returns
    -------
    Marking
        Value in ohm or farad.

    Raises
    ------
    ValueError
        If it is no such code.

    Notes
    -----
    A third figure of 8 or 9 stands for a hundredth or a tenth on some parts and is not read.

    References
    ----------
    .. [1] An open encyclopaedia's page on capacitors (473K: 47 nF, 10 %), FOUND (second-hand).

    Examples
    --------
    >>> print(three_figures_value(marking="473", part="resistor").value)
    47000.0 ohm
    """
    _known(part)
    found = re.fullmatch(r"([1-9]\d)([0-7])([A-Z]?)", _bare(marking))
    if not found:
        raise ValueError(f"marking: {marking!r} is no code of three figures; write for example \"473\"")
    return _with_letter(float(f"{found[1]}e{int(found[2]) + _THREE_FIGURES[part]}"), part, found[3])


def old_words_value(*, marking):
    """The capacitance of an old marking such as ``50 MFD`` or ``250 MMF``.

    Parameters
    ----------
    marking : str
        Number and word, in capitals or not.

    Returns
    -------
    Quantity [F]

    Raises
    ------
    ValueError
        If the word is none of MFD, MF, MMFD, MMF, UUF, PFD.

    Notes
    -----
    MF and MFD are microfarads, MMF and MMFD and UUF a millionth of those: picofarads.

    References
    ----------
    .. [1] An open encyclopaedia's page on capacitors, obsolete units, FOUND (second-hand).

    Examples
    --------
    >>> print(f"{old_words_value(marking='.05 MFD').to('nF'):.3g}")
    50 nanofarad
    """
    found = re.fullmatch(rf"{_NUMBER}\s*([A-Za-z]+)\.?", _bare(marking))
    if not found or found[2].upper() not in _OLD_WORDS:
        raise ValueError(f"marking: {marking!r} has none of the old words {', '.join(_OLD_WORDS)}; "
                         "write for example \"50 MFD\"")
    number = found[1].replace(",", ".")
    return need(Q(float(f"{number}e{_OLD_WORDS[found[2].upper()]}"), "F"), "F", "marking", above=0)


def letter_code(*, value, tolerance=""):
    """Write a value as a letter code.

    Parameters
    ----------
    value : Quantity [ohm] or [F], above zero
        At most four figures.
    tolerance : str
        A tolerance letter to stand behind it, or nothing.

    Returns
    -------
    str

    Raises
    ------
    ValueError
        If the value has more figures than a code holds, or no letter is of its size.

    References
    ----------
    .. [1] `letter_code_value` turned round; check values C61 and C62, FOUND.

    Examples
    --------
    >>> letter_code(value=Q(0.47, "ohm")), letter_code(value=Q(4.7, "uF"), tolerance="K")
    ('R47', '4µ7K')
    """
    part, number = _what_it_is(value)
    if tolerance:
        letter_tolerance(letter=tolerance)
    powers = {power: letter for letter, power in _POINTS[part].items()}
    power = min(max(3 * math.floor(math.log10(number * (1 + _SAME)) / 3), min(powers)), max(powers))
    figures = f"{number / 10.0**power:.9g}"
    whole, _, rest = figures.partition(".")
    code = f"{'' if whole == '0' and rest else whole}{powers[power]}{rest}".replace("u", "µ")
    if "e" in figures or len(whole) > 4 or len(rest) > 4:
        raise ValueError(f"value: {figures} has more figures than a letter code holds")
    return code + tolerance


def three_figures(*, value, tolerance=""):
    """Write a value as two digits and the number of noughts, in picofarads or ohms.

    Parameters
    ----------
    value : Quantity [ohm] or [F]
    tolerance : str
        A tolerance letter to stand behind it, or nothing.

    Returns
    -------
    str

    Raises
    ------
    ValueError
        If the value has more than two figures or does not fit.

    References
    ----------
    .. [1] `three_figures_value` turned round.

    Examples
    --------
    >>> three_figures(value=Q(47, "nF"), tolerance="K")
    '473K'
    """
    part, number = _what_it_is(value)
    if tolerance:
        letter_tolerance(letter=tolerance)
    mantissa, _, power = f"{number:.1e}".partition("e")
    noughts = int(power) - 1 - _THREE_FIGURES[part]
    if abs(float(f"{mantissa}e{power}") / number - 1) > _SAME or not 0 <= noughts <= 7:
        raise ValueError(f"value: {value:~P} cannot be written as two digits and up to seven noughts")
    return f"{mantissa.replace('.', '')}{noughts}{tolerance}"


def old_words(*, capacitance):
    """Write a capacitance as an old part has it: MFD from a thousandth of a microfarad on, else MMF.

    Parameters
    ----------
    capacitance : Quantity [F], above zero

    Returns
    -------
    str

    References
    ----------
    .. [1] `old_words_value` turned round.

    Examples
    --------
    >>> old_words(capacitance=Q(50, "nF")), old_words(capacitance=Q(250, "pF"))
    ('0.05 MFD', '250 MMF')
    """
    farads = float(need(capacitance, "F", "capacitance", above=0).m_as("F"))
    word, power = ("MFD", -6) if farads >= 1e-9 * (1 - _SAME) else ("MMF", -12)
    return f"{farads / 10.0**power:.9g} {word}"


def _bare(marking):
    """One spelling, and no quotation marks: the errors show theirs with such."""
    return tidy(marking).strip("\"'“”").strip()


def _known(part):
    if part not in PARTS:
        raise ValueError(f"part: write \"resistor\" or \"capacitor\", got {part!r}")
    return part


def _with_letter(number, part, letter):
    value = need(Q(number, _UNITS[part]), _UNITS[part], "marking", above=0)
    if not letter:
        return Marking(value)
    return Marking(value, *letter_tolerance(letter=letter, capacitance=value if part == "capacitor" else None))


def _what_it_is(value):
    part = "capacitor" if isinstance(value, Q) and value.is_compatible_with("F") else "resistor"
    return part, float(need(value, _UNITS[part], "value", above=0).m_as(_UNITS[part]))
