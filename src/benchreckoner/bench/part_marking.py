"""What is printed or painted on a part, in one typed line: every reading that fits, or what it could mean."""

import difflib
import math
import re
from dataclasses import dataclass

from benchreckoner.physics.colour_bands import COLOURS, TOLERANCES, colour_name, colour_value
from benchreckoner.physics.markings import letter_code_value, old_words_value, three_figures_value
from benchreckoner.physics.preferred import smallest_series
from benchreckoner.physics.tolerances import letter_tolerance, printed_tolerance
from benchreckoner.units import Q, read_quantity, show_exact, tidy

_UNITS = {"resistor": "ohm", "capacitor": "F"}
_SIZES = {"resistor": (1e-2, 1e12), "capacitor": (1e-13, 10.0)}  # smaller or larger is no part of these books
_LONGEST = 60
_VOLTS = re.compile(r"(?<![\w.])(\d+(?:[.,]\d+)?)\s*(?:v\.?d\.?c\.?w?\.?|w\.?v\.?(?:d\.?c\.?)?|d\.?c\.?w\.?v\.?|volts?|v\.?)(?![\w])",
                    re.IGNORECASE)
_FIGURE = r"\d+(?:[.,]\d+)?"
_TOLERANCE = re.compile(rf"(?:±|\+/-|\+-)\s*{_FIGURE}\s*%?|-\s*{_FIGURE}\s*%?\s*[/,;]?\s*\+\s*{_FIGURE}\s*%?"
                        rf"|\+\s*{_FIGURE}\s*%?\s*[/,;]?\s*-\s*{_FIGURE}\s*%?|(?<![\w.,]){_FIGURE}\s*%")
_IN_FULL = re.compile(r"(\d+(?:[.,]\d*)?|[.,]\d+)([pnumPNU])F?([A-Z]?)")
_WITH_UNIT = re.compile(r".*\d[pnumPNU]F")
_PLAIN = re.compile(r"(\d{1,4}|\d*[.,]\d+)([A-Z]?)")
# Colours that dirt, heat and warm light turn into each other. Common practice.
_ALIKE = ({"brown", "red", "orange"}, {"orange", "yellow", "gold"}, {"violet", "blue", "grey", "black"}, {"green", "blue"},
          {"grey", "silver", "white"}, {"brown", "black", "violet"})
_LOOKALIKES = {"O": "0", "o": "0", "I": "1", "l": "1", "S": "5", "B": "8", "Z": "2", "g": "9"}
_POINTS = {"resistor": "RKM", "capacitor": "pnuF"}
_POWERS = {"p": -12, "n": -9, "u": -6, "m": -3}
_OLD_STEPS = (2.5, 3.2, 4.0, 5.0, 6.4, 8.0)  # what electrolytics were made in before the series. Common practice.
_EXAMPLES = {"resistor": '"4K7" or "yellow violet orange gold"', "capacitor": '"4n7", "473K" or "50 MFD -10/+50 %"'}


@dataclass(frozen=True)
class PartReading:
    """One way to read a marking.

    ``lower`` and ``upper`` are fractions, None where no tolerance is marked; ``rated`` is the printed voltage or None;
    ``how`` tells in plain words how it was read.
    """

    value: Q
    lower: float | None
    upper: float | None
    how: str
    rated: Q | None = None

    @property
    def limits(self):
        """The least and the most the part may have, or None where no tolerance is marked."""
        return None if self.lower is None else (self.value * (1 + self.lower), self.value * (1 + self.upper))

    @property
    def series(self):
        """The coarsest series of preferred values that holds it; empty where none does."""
        return smallest_series(value=self.value)

    @property
    def usual(self):
        """Whether it is a value that is or was made in numbers."""
        return self.series not in ("", "E96") or _is_old_step(self.value)


def read_marking(text, part):
    """Read one typed line in every way that fits.

    Parameters
    ----------
    text : str
        Colour words with commas or spaces, a code, or old words; a tolerance and a voltage may follow.
    part : str
        ``"resistor"`` or ``"capacitor"``.

    Returns
    -------
    tuple of PartReading
        The likeliest first: values that are made stand before others.

    Raises
    ------
    ValueError
        Says what the marking could mean: the nearest readings.
    """
    if part not in _UNITS:
        raise ValueError(f"Part: write \"resistor\" or \"capacitor\", got {part!r}")
    clean = tidy(text).strip("\"'“”").strip()
    if not clean or len(clean) > _LONGEST:
        what = "nothing written yet" if not clean else f"more than {_LONGEST} characters"
        raise ValueError(f"Marking: {what}, write for example {_EXAMPLES[part]}")
    words = [word for word in re.split(r"[\s,;/-]+", clean) if word]
    if all(word.isalpha() for word in words) and (any(_is_colour(word) for word in words)
                                                  or len(words) > 2 and all(_near_colours(word) for word in words)):
        return _read_bands(words, part)
    readings = _read_print(clean, part)
    if not readings:
        raise ValueError(f"Marking: cannot read \"{clean}\" as a {part}'s. {_could_be(_print_guesses(clean, part), part)}")
    return readings


def tolerance_words(reading):
    """The tolerance of a reading as it is printed, such as ``±5 %`` or ``−10/+50 %``."""
    if reading.lower is None:
        return "no tolerance marked"
    below, above = (f"{100 * part:.3g}" for part in (-reading.lower, reading.upper))
    return f"±{above} %" if below == above else f"−{below}/+{above} %"


def _read_bands(words, part):
    if part == "capacitor":
        raise ValueError("Marking: colour bands on capacitors follow other rules, which these books do not read; measure it")
    unknown = [word for word in words if not _is_colour(word)]
    if unknown:
        near = {word: _near_colours(word) for word in unknown}
        missing = next((word for word in unknown if not near[word]), None)
        if missing:
            raise ValueError(f"Marking: \"{missing}\" is no colour of a band; the colours are {', '.join(COLOURS)}")
        changed = [near[word][0] if word in near else colour_name(word) for word in words]
        told = ", ".join(f"\"{word}\" is no colour of a band, perhaps \"{near[word][0]}\"" for word in unknown)
        readings = _both_ways(changed) if 3 <= len(changed) <= 5 else ()
        raise ValueError(f"Marking: {told}." + (f" {_could_be([(' '.join(changed), readings[0])], part)}" if readings else ""))
    names = [colour_name(word) for word in words]
    if not 3 <= len(names) <= 5:
        raise ValueError(f"Marking: three, four or five bands are read, here are {len(names)}; write for example \"yellow violet "
                         "orange gold\". A sixth band tells of temperature: leave it off")
    readings = _both_ways(names)
    if not readings:
        raise ValueError(f"Marking: \"{' '.join(names)}\" is no resistor from either end. "
                         f"{_could_be(_band_guesses(names), part)}")
    return readings


def _both_ways(names):
    """The bands from the left and from the other end, where they mean something; made values first."""
    found = []
    for bands, how in ((names, "bands from the left"), (names[::-1], "bands from the other end")):
        try:
            read = colour_value(bands=bands)
        except ValueError:
            continue
        if _sized(read.value, "resistor") and not any(one.value == read.value and one.upper == read.upper for one in found):
            found.append(PartReading(*read, how))
    return _likeliest_first(found)


def _read_print(text, part):
    """Everything that letters and figures could say, the likeliest first; empty where nothing fits."""
    rest, rated, tolerance = text, None, (None, None)
    if volts := _VOLTS.search(rest):
        rated, rest = Q(float(volts[1].replace(",", ".")), "V"), _without(rest, volts)
    if marked := _TOLERANCE.search(rest):
        try:
            tolerance, rest = printed_tolerance(marking=marked[0]), _without(rest, marked)
        except ValueError:
            return ()
    found = {}
    for value, lower, upper, how in _ways(rest, part):
        if not _sized(value, part):
            continue
        if tolerance != (None, None):
            lower, upper = tolerance
        key = (f"{value.m_as(_UNITS[part]):.6g}", lower, upper)
        found.setdefault(key, PartReading(value, lower, upper, how, rated))
    return _likeliest_first(found.values())


def _ways(rest, part):
    """Each way in which what is left of a line can be read, as (value, lower, upper, how)."""
    close = rest.replace(" ", "")
    codes = ((letter_code_value, "a code whose letter stands for the point"),
             (three_figures_value, f"two digits and how many noughts follow, in {'pF' if part == 'capacitor' else 'ohms'}"))
    with_unit = part == "capacitor" and _WITH_UNIT.fullmatch(close)
    for law, how in codes[1 if with_unit else 0:]:  # the F of "220 uF" is farad, not a tolerance
        try:
            yield (*law(marking=close, part=part), how)
        except ValueError:
            pass
    if part == "capacitor":
        try:
            yield (old_words_value(marking=rest), None, None, "the old words: MFD and MF are microfarads, MMF picofarads")
        except ValueError:
            pass
    yield from _full_ways(rest, close, part)
    yield from _plain_ways(close, part)


def _full_ways(rest, close, part):
    """A number with its unit, of which a capacitor may leave out the F."""
    try:
        if part == "resistor":
            yield (read_quantity(rest, "ohm").quantity, None, None, "written in full")
        elif full := _IN_FULL.fullmatch(close):
            value = Q(float(f"{full[1].replace(',', '.')}e{_POWERS[full[2].lower()]}"), "F")
            yield (value, *(letter_tolerance(letter=full[3], capacitance=value) if full[3] else (None, None)), "written in full")
    except ValueError:
        pass


def _plain_ways(close, part):
    """A number without a unit: what the trade left out. Common practice, so only values that are made."""
    plain = _PLAIN.fullmatch(close)
    if not plain:
        return
    number = float(plain[1].replace(",", "."))
    if part == "resistor":
        sizes = () if plain[2] else ((1.0, "a plain number of ohms (common practice)"),)
    elif number < 1:
        sizes = ((1e-6, "a plain number below one, in microfarads (common practice)"),)
    else:
        sizes = ((1e-12, "a plain number in picofarads, as on small old parts (common practice)"),)
        if not plain[2]:
            sizes += ((1e-6, "a plain number in microfarads, as on electrolytics (common practice)"),)
    for size, how in sizes:
        value = Q(number * size, _UNITS[part])
        if number > 0 and PartReading(value, None, None, how).usual:
            try:
                yield (value, *(letter_tolerance(letter=plain[2], capacitance=value) if plain[2] else (None, None)), how)
            except ValueError:
                return


def _likeliest_first(readings):
    return tuple(sorted(readings, key=lambda one: not (one.series or one.usual)))


def _is_old_step(value):
    mantissa = float(f"{value.to_base_units().magnitude:.6e}".partition("e")[0])
    return any(math.isclose(mantissa, step, rel_tol=1e-5) for step in _OLD_STEPS)


def _sized(value, part):
    low, high = _SIZES[part]
    return low <= value.m_as(_UNITS[part]) <= high


def _without(text, found):
    return " ".join((text[:found.start()] + " " + text[found.end():]).split()).strip(" ,;")


def _is_colour(word):
    try:
        return bool(colour_name(word))
    except ValueError:
        return False


def _near_colours(word):
    if _is_colour(word):
        return [colour_name(word)]
    return difflib.get_close_matches(word.casefold(), COLOURS, n=1, cutoff=0.6) if len(word) > 2 else []


def _band_guesses(names):
    """Readings with one band taken for another or one too many, colours that look alike first."""
    guesses = []
    for fewer in (names[:-1], names[1:]):
        guesses += [(False, not reading.usual, True, " ".join(fewer), reading) for reading in _both_ways(fewer)[:1]]
    for place, name in enumerate(names):
        for other in COLOURS:
            if other == name:
                continue
            changed = [*names[:place], other, *names[place + 1:]]
            for reading in _both_ways(changed)[:1]:
                alike = any({name, other} <= group for group in _ALIKE)
                usual = reading.upper in (TOLERANCES["gold"], TOLERANCES["silver"], TOLERANCES["brown"], TOLERANCES["red"])
                guesses.append((not alike, not reading.usual and len(names) < 5, not usual, " ".join(changed), reading))
    return [(words, reading) for *_, words, reading in sorted(guesses, key=lambda one: one[:3])]


def _print_guesses(text, part):
    """Readings of a line in which one character was misread, doubled or swapped."""
    tries = {}
    for place, character in enumerate(text):
        before, after = text[:place], text[place + 1:]
        if character in _LOOKALIKES:
            tries.setdefault(before + _LOOKALIKES[character] + after)
        if character.isalpha():
            for letter in _POINTS[part]:
                tries.setdefault(before + letter + after)
        tries.setdefault(before + character.swapcase() + after)
        if after:
            tries.setdefault(before + after[0] + character + after[1:])
        tries.setdefault(before + after)
    guesses = []
    for order, changed in enumerate(tries):
        for reading in _read_print(changed, part)[:1]:
            guesses.append((not reading.usual, order, changed, reading))
    return [(changed, reading) for *_, changed, reading in sorted(guesses, key=lambda one: one[:2])]


def _could_be(guesses, part):
    """The nearest readings in words, at most three of different value."""
    told = {}
    for written, reading in guesses:
        words = f"{show_exact(reading.value, _UNITS[part])}{'' if reading.lower is None else ', ' + tolerance_words(reading)}"
        told.setdefault(words, f"\"{written}\" ({words})")
    if not told:
        return f"Nothing near it means anything; clean the part, look again, and write for example {_EXAMPLES[part]}"
    *first, last = list(told.values())[:3]
    could = f"{', '.join(first)} or {last}" if first else last
    return f"It could be {could}. Clean the part and look again, or measure it"
