"""Colour bands on resistors, read and written."""

from benchreckoner.physics.markings import Marking
from benchreckoner.physics.plain import share
from benchreckoner.units import Q, need

DIGITS = ("black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white")
_POWERS = {**{name: power for power, name in enumerate(DIGITS)}, "gold": -1, "silver": -2}
# Gold and violet as in check values C56 and C58; the others as public tables agree. Of orange they tell two different
# stories (3 % and 0.05 %), and of yellow some tell 4 % and some nothing, so neither is read as a tolerance here.
TOLERANCES = {"brown": 0.01, "red": 0.02, "green": 0.005, "blue": 0.0025, "violet": 0.001, "grey": 0.0005,
              "gold": 0.05, "silver": 0.1}
COLOURS = (*DIGITS, "gold", "silver")
_SPELLINGS = {"gray": "grey", "purple": "violet", "mauve": "violet", "golden": "gold"}
_WITHOUT_A_BAND = 0.2
_SAME = 1e-6


def colour_value(*, bands):
    r"""Ohms and tolerance of a resistor's bands, read in the order given.

    Parameters
    ----------
    bands : sequence of str
        Three, four or five colour words; ``gray`` and ``purple`` are understood.

    Returns
    -------
    Marking
        Value in ohm, and the tolerance as fractions.

    Raises
    ------
    ValueError
        Names the band that has no meaning where it stands.

    Notes
    -----
    Two digits (of five bands three), then the power of ten, then the tolerance:

    .. math:: R = (10\,d_1 + d_2) \times 10^{m}

    Three bands stand for 20 %. No value begins with black, and gold and silver are no digits: that often
    tells which end is the first.

    References
    ----------
    .. [1] IEC 60062 as a public book's chapter on colour codes tells it; check values C56 and C58, FOUND.
    .. [2] Digits and powers of ten: check value C67, MEMORY, consistent with [1].

    Examples
    --------
    >>> value, lower, upper = colour_value(bands=["yellow", "violet", "orange", "gold"])
    >>> print(value, lower, upper)
    47000.0 ohm -0.05 0.05
    """
    names = [colour_name(band) for band in bands]
    if not 3 <= len(names) <= 5:
        raise ValueError(f"bands: three, four or five are read, got {len(names)}; write for example "
                         "\"yellow violet orange gold\". A sixth band tells of temperature: leave it off")
    figures = len(names) - 2 if len(names) > 3 else 2
    for place, name in enumerate(names[:figures], start=1):
        if name not in DIGITS:
            raise ValueError(f"band {place}: {name} is no digit; read from the other end")
    if names[0] == "black":
        raise ValueError("band 1: no value begins with black; read from the other end")
    digits = "".join(str(DIGITS.index(name)) for name in names[:figures])
    value = Q(float(f"{digits}e{_POWERS[names[figures]]}"), "ohm")
    if len(names) == 3:
        return Marking(value, -_WITHOUT_A_BAND, _WITHOUT_A_BAND)
    if names[-1] not in TOLERANCES:
        raise ValueError(f"band {len(names)}: {names[-1]} is no tolerance that is read here; read from the other end")
    tolerance = TOLERANCES[names[-1]]
    return Marking(value, -tolerance, tolerance)


def colours(*, resistance, tolerance, bands=4):
    """The bands of a resistor, first to last.

    Parameters
    ----------
    resistance : Quantity [ohm], above zero
    tolerance : float
        As a fraction, such as 0.05; with 0.2 the last band is left off.
    bands : int
        4 (two figures) or 5 (three figures).

    Returns
    -------
    tuple of str

    Raises
    ------
    ValueError
        If the value needs more figures, or no colour stands for the tolerance or the size.

    References
    ----------
    .. [1] `colour_value` turned round.

    Examples
    --------
    >>> colours(resistance=Q(4.7, "kohm"), tolerance=0.05)
    ('yellow', 'violet', 'red', 'gold')
    """
    ohms = float(need(resistance, "ohm", "resistance", above=0).m_as("ohm"))
    tolerance = share(tolerance, "tolerance")
    if bands not in (4, 5):
        raise ValueError(f"bands: write 4 or 5, got {bands!r}")
    figures = bands - 2
    mantissa, _, power = f"{ohms:.{figures - 1}e}".partition("e")
    if abs(float(f"{mantissa}e{power}") / ohms - 1) > _SAME:
        raise ValueError(f"resistance: {bands} bands hold {figures} figures, {ohms:g} ohm has more")
    names = {power: name for name, power in _POWERS.items()}
    last = {value: name for name, value in TOLERANCES.items()}
    scale = int(power) - figures + 1
    if scale not in names:
        raise ValueError(f"resistance: no colour stands for ten to the power {scale}, so {ohms:g} ohm has no bands")
    digits = tuple(DIGITS[int(figure)] for figure in mantissa.replace(".", ""))
    if tolerance == _WITHOUT_A_BAND and bands == 4:
        return (*digits, names[scale])
    if tolerance not in last:
        raise ValueError(f"tolerance: no band stands for {tolerance:g}; write one of "
                         f"{', '.join(f'{one:g}' for one in sorted(last))}")
    return (*digits, names[scale], last[tolerance])


def colour_name(word):
    """A colour word in the one spelling used here.

    Parameters
    ----------
    word : str

    Returns
    -------
    str

    Raises
    ------
    ValueError
        For a word that is none of the twelve colours.

    Examples
    --------
    >>> colour_name("Gray")
    'grey'
    """
    name = word.strip().casefold()
    name = _SPELLINGS.get(name, name)
    if name not in COLOURS:
        raise ValueError(f"{word.strip()!r} is no colour of a band; write one of {', '.join(COLOURS)}")
    return name
