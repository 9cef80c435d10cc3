"""What may be behind a capacitor's readings: one cause, several, or readings that can't both be right."""

import itertools
from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.capacitor_fit import (LEAST_LEAK, LEAST_SERIES, NO_LEAK, PRINCIPLES, Region, Span, anything, most_series,
                                                 region)
from benchreckoner.units import Q, need, show

SOUND, LEAKY, RESISTIVE, DRY, MORE = "as marked", "leaky", "high series resistance", "dried out", "really more farads"
_USUAL_LOSS = 0.25  # dissipation at 120 Hz up to which nothing is wrong; new parts for general use reach it, common practice
_BESIDES = 1.1  # two testers' answers must lie this far apart to be told from each other
# What to try next, the readiest first.
_NEXT = (("charge time", Q(10, "kohm")), ("bridge", Q(120, "Hz")), ("bridge, series resistance", Q(120, "Hz")),
         ("bridge, series resistance", Q(1, "kHz")), ("discharge time", Q(10, "kohm")))
_WORDS = {
    "charge time": "a charge-time tester with {}", "bridge": "a bridge at {}",
    "bridge, series resistance": "the series resistance on a bridge at {}", "discharge time": "a discharge tester with {}"}


@dataclass(frozen=True)
class Cause:
    """One cause that alone explains the readings, and what the part would then be."""

    name: str
    region: Region


@dataclass(frozen=True)
class PartFit:
    """What the readings leave open.

    ``whole`` is the span of everything that fits, None where nothing does. ``causes`` are the single causes
    that fit. ``hidden`` is the least leak that the readings do not show, where the part may be as marked.
    """

    whole: Span | None
    causes: tuple
    hidden: float | None
    sentences: tuple


def fit_part(readings, *, marked, tolerance=(-0.2, 0.2)):
    """What one or more testers' readings say of a part.

    Parameters
    ----------
    readings : sequence of ShownReading
    marked : Quantity [F], above zero
        What stands on the part.
    tolerance : tuple of float
        How far a sound part may lie below and above it, as shares.

    Returns
    -------
    PartFit

    Raises
    ------
    ValueError
        For no reading, farads at or below zero, or a tolerance that is none.
    """
    readings, marked = tuple(readings), need(marked, "F", "marked", above=0)
    if not readings:
        raise ValueError("readings: none there; give what at least one tester showed")
    if not -1 < tolerance[0] <= 0 <= tolerance[1] < 10:
        raise ValueError(f"tolerance: must reach from between -1 and 0 up to 0 or more, got {tolerance}; write (-0.2, 0.2)")
    start = anything(readings, marked)
    whole = region(readings, start)
    if not whole:
        return PartFit(None, (), None, (_contradiction(readings),))
    hypotheses = _hypotheses(start, marked, tolerance)
    found = {name: region(readings, span) for name, span in hypotheses.items()}
    causes = tuple(Cause(name, one) for name, one in found.items() if one and name != SOUND)
    if found[SOUND]:
        hidden = found[LEAKY].span.low[1] if found[LEAKY] else NO_LEAK
        return PartFit(whole.span, (Cause(SOUND, found[SOUND]),), hidden, _sound_words(hidden))
    return PartFit(whole.span, causes, None, _cause_words(causes, whole.span, readings))


def _hypotheses(start, marked, tolerance):
    """The span that each single cause leaves: the others as a sound part has them."""
    (least, most), shortest = start.whole(0), start.low[1]
    low, high = ((1 + share) * marked.m_as("F") for share in tolerance)
    usual = most_series(marked, _USUAL_LOSS)
    return {
        SOUND: Span((low, NO_LEAK, LEAST_SERIES), (high, NO_LEAK, usual)),
        LEAKY: Span((low, shortest, LEAST_SERIES), (high, NO_LEAK, usual)),
        RESISTIVE: Span((low, NO_LEAK, usual), (high, NO_LEAK, start.high[2])),
        DRY: Span((min(least, low), NO_LEAK, LEAST_SERIES), (low, NO_LEAK, start.high[2])),
        MORE: Span((high, NO_LEAK, LEAST_SERIES), (max(most, high), NO_LEAK, usual)),
    }


def _contradiction(readings):
    if len(readings) == 1:
        return "No part that we can think of reads so: check the tester's setting and its leads, discharge the part, read again."
    both = "These two readings can't both be right" if len(readings) == 2 else "These readings can't all be right"
    return (f"{both}: no leakage and no series resistance gives them, whatever the part's farads. Chance alone brings such a clash "
            "less than 1 time in 20. Discharge the part, check each tester's setting and leads, read again out of circuit.")


def _sound_words(hidden):
    less = ("no leak at all is ruled in" if hidden >= NO_LEAK else
            f"a leak of {_ohms(hidden)} or more would read the same to such testers")
    return ("These readings fit a sound part as marked.",
            f"They don't prove it: {less}. Only a leakage test at working volts clears it.")


def _cause_words(causes, whole, readings):
    if not causes:
        return (f"No single cause fits; more than one thing is off at once. What fits: {_between(whole.whole(0), 'F')}, a leak of "
                f"{_leak(whole)}, and {_between(whole.whole(2), 'ohm')} in series.",)
    told = [_told(cause) for cause in causes]
    if len(causes) == 1:
        confirm = " A leakage test at working volts confirms it." if causes[0].name == LEAKY else ""
        return (f"One cause alone fits: {told[0]}.{confirm}",)
    return (f"Several causes fit: {'; or '.join(told)}.", _next_words(causes, readings))


def _told(cause):
    span = cause.region.span
    if cause.name == LEAKY:
        return f"leaky, {_leak(span)} across it"
    if cause.name == RESISTIVE:
        return f"high series resistance, {_between(span.whole(2), 'ohm')}"
    if cause.name == DRY:
        return f"dried out, {_between(span.whole(0), 'F')} left"
    return (f"really {_between(span.whole(0), 'F')}: a wide old tolerance, soakage, or another part in parallel if it is still "
            "in circuit")


def _next_words(causes, readings):
    """The reading that would tell most of the causes apart, reckoned from what each of them predicts."""
    taken = {(one.principle, str(one.setting.to_base_units())) for one in readings}
    best, told = 0, ""
    for name, setting in _NEXT:
        if (name, str(setting.to_base_units())) in taken:
            continue
        law = PRINCIPLES[name]
        ranges = [cause.region.predicted(law, setting) for cause in causes]
        apart = sum(max(one[0], other[0]) > _BESIDES * min(one[1], other[1]) for one, other in itertools.combinations(ranges, 2))
        if apart > best:
            best, way = apart, _WORDS[name].format(show(setting, law.setting_unit, digits=2))
            told = f"Measure this next: {way}. It would show " + "; ".join(
                f"{_between(one, law.shows)} if {_IF[cause.name]}" for cause, one in zip(causes, ranges)) + "."
    return told or "No other tester tells them apart. Measure its leakage current at working volts next."


_IF = {LEAKY: "leaky", RESISTIVE: "it is series resistance", DRY: "dried out", MORE: "it really has more"}


def _leak(span):
    low, high = span.whole(1)
    if high > 0.9 * NO_LEAK:
        return f"{_ohms(low)} or more"
    return f"{_ohms(high)} or less" if low < 1.1 * LEAST_LEAK else _between((low, high), "ohm")


def _ohms(value):
    return show(Q(value, "ohm"), "ohm", digits=2)


def _between(ends, unit):
    low, high = ends
    if np.isinf(high):
        return f"{show(Q(low, unit), unit, digits=2)} or more, or nothing at all" if np.isfinite(low) else "nothing at all"
    first, last = (show(Q(max(0.0, one), unit), unit) for one in ends)
    return f"about {first}" if first == last else f"{first} to {last}"
