"""A burnt resistor's value: what its damaged bands leave open, and what the rest of the bench says of it."""

import itertools
import math
from collections import defaultdict
from dataclasses import dataclass

from benchreckoner.physics.colour_bands import COLOURS, DIGITS, TOLERANCES, colour_name
from benchreckoner.physics.parallel import without_parallel
from benchreckoner.physics.preferred import SERIES
from benchreckoner.units import Q, need, show, show_exact

UNREADABLE = "?"
COMPOSITION, FILM, WIRE = "carbon composition", "film", "wire-wound"
KINDS = (COMPOSITION, FILM, WIRE)
# What a heated band may have been before, beside what it looks like (1 is left out: as it looks). Common practice.
_WAS = {
    "black": {"brown": 0.4, "blue": 0.2, "violet": 0.2}, "brown": {"red": 0.6, "orange": 0.3, "yellow": 0.3, "gold": 0.3, "violet": 0.1},
    "red": {"orange": 0.3, "brown": 0.1}, "orange": {"yellow": 0.3, "red": 0.1}, "yellow": {"white": 0.2, "gold": 0.3},
    "green": {"blue": 0.2}, "blue": {"violet": 0.3, "green": 0.2}, "violet": {"blue": 0.2},
    "grey": {"violet": 0.5, "white": 0.4, "silver": 0.3, "blue": 0.2}, "white": {}, "gold": {"yellow": 0.2}, "silver": {"grey": 0.2},
}
_POWERS = {**{name: power for power, name in enumerate(DIGITS)}, "gold": -1, "silver": -2}
# How often each last band is met, by how many bands there are; others hardly. Common practice.
_LAST = {4: {"gold": 1.0, "silver": 0.6, "brown": 0.3, "red": 0.3}, 5: {"brown": 1.0, "red": 0.5, "gold": 0.1}}
_RARE = 0.02
_COMMON, _LESS_COMMON, _SELDOM = 3.0, 1.0, 0.1  # E12, the rest of E24, E24 with a wide tolerance. Common practice.
_LEAST, _MOST = 0.1, 2.2e7  # ohms that such machines hold
_WITHOUT_A_BAND = 0.2
_ODD = 0.03  # how often a piece of evidence speaks of another part, or was misread. Our own choice.
_EVERYWHERE = math.log(_MOST / _LEAST)
_AGED = 0.03  # standard share by which a sound old sister has drifted. Common practice.
_WEAK, _TOLD = 0.02, 12  # as likely as the first, below which a candidate is not told; and how many are told
_SETTLED = 0.95
_ORDER = ("first", "second", "third", "fourth", "fifth")


@dataclass(frozen=True)
class Evidence:
    """Ohms that speak of the part's marked value.

    The logarithm of read over marked is taken as normal, with the standard shares ``below`` and ``above`` it. ``odd`` is how
    often it says nothing at all. ``at_least``: the marked value may be anything from the ohms up.
    """

    source: str
    resistance: Q
    below: float
    above: float
    odd: float = _ODD
    at_least: bool = False
    own_tolerance: bool = True  # a part of that value was read, so its tolerance is in the reading


@dataclass(frozen=True)
class Candidate:
    """One value that fits: its bands, its odds among all that fit, and why."""

    value: Q
    tolerance: float
    bands: tuple[str, ...]
    odds: float
    reasons: tuple[str, ...]


def read_bands(text):
    """Bands as typed, first to last: colour words, ``?`` for one that cannot be read, ``red/orange`` for either of two.

    Parameters
    ----------
    text : str

    Returns
    -------
    tuple of tuple of str
        The colours seen at each place; empty for a band that cannot be read.

    Raises
    ------
    ValueError
        Says what is wrong and shows what to write.
    """
    words = text.replace(",", " ").split()
    if not 3 <= len(words) <= 5:
        raise ValueError(f"Bands: three, four or five are read, here are {len(words)}; write a question mark for each that "
                         'cannot be read, for example "brown ? red gold". A sixth band tells of temperature: leave it off')
    try:
        return tuple(() if word == UNREADABLE else tuple(colour_name(one) for one in word.split("/")) for word in words)
    except ValueError as fault:
        raise ValueError(f"Bands: {fault}, or a question mark") from None


def twin_reading(*, resistance, accuracy):
    """The same part of the other channel, read with one leg lifted."""
    return _read_of("the twin channel's part", resistance, accuracy)


def twin_in_circuit(*, resistance, accuracy, across=None):
    """The same part of the other channel, read in circuit: with the ohms known across it, or as the least it can be."""
    if across is None:
        spread = math.hypot(accuracy, _AGED)
        return Evidence("the twin channel's part in circuit", need(resistance, "ohm", "resistance", above=0), spread, spread,
                        at_least=True)
    alone = without_parallel(reading=resistance, parallel=across)
    swelling = (alone / resistance).m_as("")  # an error of the reading grows by so much in what is left
    return _read_of("the twin channel's part, without what lies across it", alone, accuracy * swelling)


def from_circuit(*, voltage, current, accuracy):
    """What a sister stage asks for: volts across its resistor by the current through it."""
    ohms = need(voltage, "V", "voltage", above=0) / need(current, "A", "current", above=0)
    return _read_of("volts by current in the sister stage", ohms.to("ohm"), accuracy)


def own_reading(*, resistance, kind, accuracy=0.01):
    """The burnt part's own ohms, which say little: composition drifts upwards, film and wire-wound parts open."""
    need(resistance, "ohm", "resistance", above=0)
    if kind not in KINDS:
        raise ValueError(f"kind: write one of {', '.join(KINDS)}, got {kind!r}")
    above, odd = (0.5, _ODD) if kind == COMPOSITION else (0.05, 0.5)  # common practice
    return Evidence("its own reading", resistance.to("ohm"), math.hypot(accuracy, 0.07), math.hypot(accuracy, above), odd)


def candidates(bands, evidence=()):
    """Every preferred value that the bands leave open, with its odds once the evidence is heard.

    Parameters
    ----------
    bands : sequence of tuple of str
        From `read_bands`.
    evidence : iterable of Evidence

    Returns
    -------
    tuple of Candidate
        The likeliest first, twelve at most; those a fiftieth as likely as the first are left out. Tolerance and bands are the
        likeliest of that value.

    Raises
    ------
    ValueError
        If no preferred value fits these bands.

    Notes
    -----
    Bayes' rule: how common a value is, times how well each band and each piece of evidence fits it. The odds are as good as
    those weights, which are common practice or our own choice: an order to check in, and no proof.
    """
    evidence, fits, best = tuple(evidence), defaultdict(float), {}
    for names, weight in _ways(bands):
        value, tolerance = _value(names)
        weight *= _usual(value, tolerance, len(names))
        if weight > 0:
            value = float(f"{value:.3g}")
            weight *= math.prod(_fit(one, value, tolerance) for one in evidence)
            fits[value] += weight
            best[value] = max(best.get(value, (0.0, (), 0.0)), (weight, names, tolerance))
    if not fits:
        raise ValueError("Bands: no preferred value fits them. Read them from the other end, or write a question mark for the one "
                         "you trust least")
    whole = sum(fits.values())
    order = sorted(fits, key=fits.get, reverse=True)
    return tuple(_told(bands, evidence, value, best[value], fits[value] / whole)
                 for place, value in enumerate(order) if place < _TOLD and fits[value] >= _WEAK * fits[order[0]])


def what_settles(found):
    """What to measure next, so that one candidate remains.

    Parameters
    ----------
    found : sequence of Candidate
        The likeliest first.

    Returns
    -------
    str
    """
    first, *others = (one.value.m_as("ohm") for one in found)
    if found[0].odds >= _SETTLED or not others:
        return (f"{_ohms(first)} stands out. Before you solder, check it against the circuit: the volts across the new part by its ohms "
                "should be the current of the sister stage.")
    other = others[0]
    step = math.exp(abs(math.log(first / other)) / 2) - 1
    needed = f"to {100 * step:.2g} % or better" if step < 0.5 else "roughly"
    small = " They are near enough that many places take either." if step < 0.06 else ""
    return (f"To tell {_ohms(first)} from {_ohms(other)}: lift one leg of the same part in the other channel and read it {needed}. "
            f"No other channel: volts across and current through the same part of a sister stage.{small}")


def _read_of(source, resistance, accuracy):
    if not 0 < accuracy < 1:
        raise ValueError(f"accuracy: write a share between 0 and 1, such as 0.02, got {accuracy!r}")
    spread = math.hypot(accuracy, _AGED)
    return Evidence(source, need(resistance, "ohm", "resistance", above=0).to("ohm"), spread, spread)


def _ways(bands):
    """Every way to read the bands, with the weight of what heat may have changed."""
    last = len(bands) - 1
    for names in itertools.product(*(_could_be(seen, place, last) for place, seen in enumerate(bands))):
        colours, weights = zip(*names)
        yield colours, math.prod(weights)


def _could_be(seen, place, last):
    """Colours that a band may have been, each with its weight, at a place where it means something."""
    if not seen:
        spread = dict.fromkeys(COLOURS, 1.0)
    else:
        spread = {}
        for name in seen:
            for was, weight in {name: 1.0, **_WAS[name]}.items():
                spread[was] = max(weight, spread.get(was, 0.0))
    three = last == 2
    if place == last and not three:
        return [(name, weight * _LAST[last + 1].get(name, _RARE)) for name, weight in spread.items() if name in TOLERANCES]
    if place == (last if three else last - 1):
        return list(spread.items())
    return [(name, weight) for name, weight in spread.items() if name in DIGITS and (place or name != "black")]


def _value(names):
    """Ohms and tolerance as plain numbers: there are too many ways for quantities."""
    figures = len(names) - 2 if len(names) > 3 else 2
    number = int("".join(str(DIGITS.index(name)) for name in names[:figures]))
    return number * 10.0 ** _POWERS[names[figures]], TOLERANCES[names[-1]] if len(names) > 3 else _WITHOUT_A_BAND


def _usual(value, tolerance, count):
    """How common a value is; nothing where no series holds it."""
    if not _LEAST <= value <= _MOST:
        return 0.0
    figures = float(f"{value:.6e}".partition("e")[0])

    def held(series):
        return any(abs(figures / one - 1) < 1e-6 for one in SERIES[series])

    if held("E12"):
        return _COMMON
    if held("E24"):
        return _SELDOM if tolerance > 0.05 else _LESS_COMMON
    return _LESS_COMMON if count > 4 and tolerance <= 0.02 and held("E96") else 0.0


def _fit(one, value, tolerance):
    """How probable this reading is, were the part marked so: a density over the logarithm of ohms."""
    off = math.log(one.resistance.m_as("ohm") / value)
    spread = math.hypot(one.below if off < 0 else one.above, tolerance / math.sqrt(3) if one.own_tolerance else 0.0)
    other = math.hypot(one.above if off < 0 else one.below, tolerance / math.sqrt(3) if one.own_tolerance else 0.0)
    if one.at_least:
        near = 0.5 * math.erfc(off / (spread * math.sqrt(2))) / _EVERYWHERE
    else:
        near = math.sqrt(2 / math.pi) / (spread + other) * math.exp(-0.5 * (off / spread) ** 2)
    return (1 - one.odd) * near + one.odd / _EVERYWHERE


def _told(bands, evidence, value, best, odds):
    _, names, tolerance = best
    reasons = [f"the {_ORDER[place]} band, {' or '.join(seen)} now, was {was} before the heat (common practice)"
               for place, (seen, was) in enumerate(zip(bands, names, strict=True)) if seen and was not in seen]
    reasons += [_heard(one, value) for one in evidence]
    return Candidate(Q(value, "ohm"), tolerance, names, odds, tuple(reasons) or ("what can be read of its bands fits as it looks",))


def _heard(one, value):
    """What a piece of evidence says of one value."""
    read, off = show(one.resistance, "ohm"), one.resistance.m_as("ohm") / value - 1
    if one.at_least:
        return f"{one.source} reads {read}, " + ("which allows it" if off < 3 * one.above else "more than it can have")
    size = f"{100 * abs(off):.0f} %" if abs(off) < 2 else f"{1 + off:.2g} times"
    where = "just that" if abs(off) < 0.005 else f"{size} {'above' if off > 0 else 'below'} it" if abs(off) < 2 else f"{size} as much"
    return f"{one.source}, {read}, is {where}"


def _ohms(plain):
    return show_exact(Q(plain, "ohm"), "ohm")
