"""Figures as a mouth says them: a value with its uncertainty in words, and how long words take to say."""

import math
import re
import unicodedata

_UNITS = {
    "ohm": "ohms", "V": "volts", "A": "amps", "F": "farads", "W": "watts", "N": "newtons", "s": "seconds", "Hz": "hertz",
    "N*m": "newton metres", "V*s/rad": "volt seconds per radian", "turn/min": "turns a minute", "degC": "degrees Celsius",
    "K": "kelvin", "delta_degC": "degrees Celsius", "mm": "millimetres", "g": "grams", "dB": "decibels", "MPa": "megapascals",
    "percent": "per cent", "cm/s": "centimetres a second", "": "",
}
_PREFIXED = ("ohm", "V", "A", "F", "W", "N", "s", "Hz", "N*m", "V*s/rad")
_PREFIXES = {-12: "pico", -9: "nano", -6: "micro", -3: "milli", 0: "", 3: "kilo", 6: "mega", 9: "giga"}
_NEVER_BELOW_ZERO = ("ohm", "F")
_TURNING = dict.fromkeys([*range(0x202A, 0x202F), *range(0x2066, 0x206A)])
_UNSURE = re.compile(r"(-?[\d.]*\d) ± ([\d.]*\d) ([^\W\d]+(?:/\w+)?|°C|%)(?=( \w)?)")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")


def figure(known, *, size=None):
    """A known value with its expanded uncertainty, as it is said aloud.

    Parameters
    ----------
    known : Known
    size : int, optional
        The power of ten of a prefix that `shared_size` gave; it is used unless the figure is less than a tenth of it.

    Returns
    -------
    str
        The value is rounded, but never by more than a quarter of its uncertainty. Where ohms or
        farads reach down to nothing, only their upper end is said.

    Examples
    --------
    >>> from benchreckoner.bench.uncertain import Known
    >>> from uncertainties import ufloat
    >>> figure(Known(ufloat(0.827, 0.0065), "ohm"))
    'about 830 milliohms, give or take 13'
    >>> figure(Known(ufloat(0.020, 0.017), "ohm"))
    'no more than about 54 milliohms'
    """
    value, spread = known.plain, 2 * known.number.std_dev
    if spread <= 0:
        return exact(known.value, known.unit)
    if known.unit in _NEVER_BELOW_ZERO and value <= spread:
        top = value + spread
        return f"no more than about {_said(top, _fewest(top, top / 100), known.unit)}"
    places = _fewest(value, spread / 4)
    size = _near(size, max(abs(value), spread), known.unit)
    about = _said(value, places, known.unit, size)
    digits = 1 - math.floor(math.log10(spread))
    return f"about {about}, give or take {_number(spread, digits, size)}"


def exact(quantity, unit, *, size=None):
    """A quantity that is what it is, such as a limit, as it is said aloud.

    >>> from benchreckoner.units import Q
    >>> exact(Q(0.05, "ohm"), "ohm"), exact(Q(1, "V"), "V")
    ('50 milliohms', '1 volt')
    """
    value = float(quantity.m_as(unit))
    places = 2 - math.floor(math.log10(abs(value))) if value else 0
    size = _near(size, abs(value), unit)
    return _said(value, max(places, -size), unit, size if value else None)


def shared_size(quantities, unit):
    """The power of ten of the prefix that figures heard one after the other share: that of the largest.

    >>> from benchreckoner.units import Q
    >>> size = shared_size((Q(780, "uN*m"), Q(1.28, "mN*m")), "N*m")
    >>> exact(Q(780, "uN*m"), "N*m", size=size)
    '0.78 millinewton metres'
    """
    return max(_exponent(abs(float(quantity.m_as(unit))), unit) for quantity in quantities)


def aloud(text):
    """A written sentence with its figures that carry a ± as they are said; ohms in brackets behind volts are left out.

    >>> aloud("120 ± 86 mV between supply and motor (1.02 ± 0.73 Ω) are in no drop that was read.")
    'About 120 millivolts, give or take 86, between supply and motor are in no drop that was read.'
    """
    said = _UNSURE.sub(_said_aloud, re.sub(r" \([^()]*±[^()]*\)", "", text))
    return said[:1].upper() + said[1:] if text[:1].isdigit() else said


def called(name):
    """A part as a sentence calls it: "the motor", but "spring 3" and "C4" without the article.

    >>> called("motor"), called("spring 3"), called("C4")
    ('the motor', 'spring 3', 'C4')
    """
    name = plain(name)
    own = (not name[:1].islower() or any(letter.isdigit() for letter in name) or name.startswith(("the ", "a ", "an "))
           or len(name.split()[-1]) == 1)
    return name if own else f"the {name}"


def unit_said(words):
    """The unit that words or a sign stand for, and what one of it is in that unit.

    Parameters
    ----------
    words : str
        Such as ``milliohms``, ``mΩ`` or ``turns a minute``.

    Returns
    -------
    (str or None, float)
        None where the words are no unit.

    Examples
    --------
    >>> unit_said("milliohms"), unit_said("minutes"), unit_said("legs")
    (('ohm', 0.001), ('s', 60.0), (None, 1.0))
    """
    return _SAID.get(words.replace("\u2126", "Ω").replace("μ", "µ"), (None, 1.0))


def plain(text):
    """Words from a sheet on one line, without signs that turn round or hide what follows."""
    text = "".join(sign for sign in text.translate(_TURNING) if unicodedata.category(sign) != "Cc" or sign.isspace())
    return " ".join(text.split())


def spoken_seconds(text, words_per_minute):
    """How long a text takes to say.

    Parameters
    ----------
    text : str
    words_per_minute : float
        Above zero. A figure counts as the words that are said for it.

    Returns
    -------
    float
        Seconds.

    Raises
    ------
    ValueError
        If the rate is not above zero.

    Examples
    --------
    >>> spoken_seconds("It took a while.", 160)
    1.5
    """
    if not words_per_minute > 0:
        raise ValueError(f"words_per_minute: must be above zero, got {words_per_minute}; write for example 160")
    return 60 * spoken_words(text) / words_per_minute


def spoken_words(text):
    """How many words are said for a text.

    >>> spoken_words("about 830 milliohms"), spoken_words("0.63")
    (6, 4)
    """
    bare = _NUMBER.sub(" ", text)
    return (sum(_words_of(number) for number in _NUMBER.findall(text))
            + len(re.findall(r"[^\W\d_]+(?:['’\-][^\W\d_]+)*|[%°]", bare)))


def _words_of(number):
    """"830" is eight hundred and thirty, "0.63" nought point six three."""
    whole, _, part = number.replace(",", ".").partition(".")
    groups = [int(group) for group in f"{int(whole):,}".split(",")]
    said = sum(_below_thousand(group) + (place > 0) for place, group in enumerate(reversed(groups)) if group) or 1
    if len(groups) > 1 and 0 < groups[-1] < 100:
        said += 1
    return said + (1 + len(part) if part else 0)


def _below_thousand(number):
    hundreds, rest = divmod(number, 100)
    tens = 0 if not rest else 1 if rest < 20 or rest % 10 == 0 else 2
    return (2 if hundreds else 0) + (1 if hundreds and rest else 0) + tens


def _fewest(value, most):
    """The fewest decimals, below zero for tens and hundreds, that move a value by no more than this."""
    places = -(math.floor(math.log10(abs(value))) if value else 0)
    while abs(round(value, places) - value) > most:
        places += 1
    return places


def _exponent(value, unit):
    if unit not in _PREFIXED or not value:
        return 0
    size = max(-12, min(9, 3 * math.floor(math.log10(abs(value) * (1 + 1e-9)) / 3)))
    return -6 if unit == "F" and -6 < size < 0 else size  # as it is printed on the part: 2200 microfarads


def _near(wanted, value, unit):
    """The wanted prefix's power of ten where a value is at least a tenth of it, else the value's own."""
    own = _exponent(value, unit)
    return wanted if wanted is not None and own < wanted and value >= 10.0 ** (wanted - 1) else own


def _said(value, places, unit, size=None):
    size = _exponent(round(value, places), unit) if size is None else size
    number = _number(value, places, size)
    words = _PREFIXES[size] + _UNITS.get(unit, unit)
    if number == "1" and words.endswith("s") and " " not in words and unit != "Hz":
        words = words[:-1]
    return f"{number} {_joined(words)}".strip()


def _joined(words):
    """Prefix and unit in their usual spelling."""
    return words.replace("kiloohm", "kilohm").replace("megaohm", "megohm")


def _number(value, places, size):
    text = f"{round(value, places) / 10.0 ** size:.{max(0, places + size)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "minus ")


def _said_aloud(found):
    unit, factor = unit_said(found[3])
    size = round(math.log10(factor))
    if unit is None or size not in _PREFIXES:
        return found[0]
    words = _joined(_PREFIXES[size] + _UNITS[unit])
    return f"about {found[1]} {words}, give or take {found[2]}".replace("-", "minus ") + ("," if found[4] else "")


def _said_units():
    """Every spelling of a unit, spoken or as a sign, with its prefix."""
    table = {"minutes": ("s", 60.0), "minute": ("s", 60.0), "min": ("s", 60.0), "s": ("s", 1.0), "%": ("percent", 1.0),
             "°C": ("degC", 1.0), "r/min": ("turn/min", 1.0), "dB": ("dB", 1.0), "mm": ("mm", 1.0)}
    for unit, words in _UNITS.items():
        for power, prefix in _PREFIXES.items() if unit in _PREFIXED else ((0, ""),):
            for said in filter(None, (words, words.removesuffix("s"))):
                table[_joined(prefix + said)] = (unit, 10.0 ** power)
    for unit, sign in (("ohm", "Ω"), ("ohm", "ohm"), ("V", "V"), ("A", "A"), ("F", "F"), ("W", "W"), ("N", "N"), ("Hz", "Hz")):
        for power, prefix in {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M"}.items():
            table[prefix + sign] = (unit, 10.0 ** power)
    return {**table, "uF": ("F", 1e-6), "uA": ("A", 1e-6), "uV": ("V", 1e-6)}


_SAID = _said_units()
