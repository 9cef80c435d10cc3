"""What an action changed, as a picture: each reading with its uncertainty, stage by stage, between the limits."""

import math

import numpy as np

from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.reasons import told
from benchreckoner.bench.verdict import BAD, DOUBTFUL
from benchreckoner.show.picture import Axis, Band, Curve, Picture, Point
from benchreckoner.units import Q, show_exact

_PREFIXES = {-12: "p", -9: "n", -6: "u", -3: "m", 0: "", 3: "k", 6: "M"}
_PREFIXED = ("ohm", "V", "A", "F", "N", "N*m", "W")
_STYLES = {"sound": "first", "bad": "heavy"}
_NEAR = 0.5  # where nothing lies below this share of the largest, the axis may leave nought out


def change_pictures(judgements):
    """Every quantity that was shown to have changed, those of parts that were bad or doubtful first.

    Parameters
    ----------
    judgements : tuple
        What `judge_sheet` and `judge_parts` gave.

    Returns
    -------
    tuple of Picture
        One a quantity of a part, with all the stages at which it was known.
    """
    shown = {}
    for reports in judgements:
        for change in comparisons(reports):
            shown.setdefault((change.part, change.quantity, change.condition), []).append(change)
    judged = {}
    for one in (one for reports in judgements for report in reports for one in report.judgements):
        judged.setdefault((one.part, one.quantity, one.condition), []).append(one)
    real = [key for key, changes in shown.items() if any(change.real for change in changes)]
    troubled = {key for key in real if any(one.verdict.word in (BAD, DOUBTFUL) for one in judged[key])}
    return tuple(_picture(key, shown[key], judged[key]) for key in sorted(real, key=lambda key: key not in troubled))


def _picture(key, changes, judged):
    part, quantity, condition = key
    readings = [(changes[0].before_stage, changes[0].before), *((change.after_stage, change.after) for change in changes)]
    band = next((one.band for one in judged if one.band is not None and one.band.unit == changes[0].after.unit), None)
    unit = _unit([known for _, known in readings])
    values = [float(known.value.m_as(unit)) for _, known in readings]
    halves = [float(known.expanded.m_as(unit)) for _, known in readings]
    ends = [value + sign * half for value, half in zip(values, halves) for sign in (-1, 1)]
    zones = _zones(band, unit)
    low, high = _span(ends, [edge for _, *edges in zones for edge in edges if math.isfinite(edge)])
    tall = (0.4 - len(readings), 0.6)
    whiskers = _whiskers(values, halves)
    sentence = f"{part[:1].upper()}{part[1:]}, {quantity}, {condition}: " + "; ".join(
        f"{stage} {told(known)}" for stage, known in readings) + f". {_told(changes)}"
    names = [f"{_alone(told(known))}{' ' * place}" for place, (_, known) in enumerate(readings)]  # names differ, equal readings too
    return Picture(
        title=f"{part[:1].upper()}{part[1:]}: {quantity}",
        x=Axis("what was read", unit, low, high),
        y=Axis("stage", "", *tall, ticks=tuple((-place, stage) for place, (stage, _) in enumerate(readings))),
        curves=(Curve("± of each (k = 2)", *whiskers, "heavy"),),
        points=tuple(Point(name, value, -place, "own" if place == len(readings) - 1 else "other")
                     for place, (name, value) in enumerate(zip(names, values))),
        bands=tuple(Band(_zone_name(word, start, end, unit, band.unit), np.clip((start, end), low, high), *np.repeat([tall], 2, axis=0).T, _STYLES[word])
                    for word, start, end in zones if start < high and end > low),
        sentence=sentence,
        alt=f"{len(readings)} readings one below the other, each with a bar as long as its uncertainty. {sentence}"
            + ("" if low <= 0 else " The axis does not start at nought."))


def _alone(words):
    """The value and its unit without its uncertainty: no finer than that lets it be told."""
    value, _, spread = words.partition(" ± ")
    return f"{value} {spread.partition(' ')[2]}" if spread else value


def _unit(known):
    """The unit with the prefix in which the largest is between 1 and 1000."""
    unit = known[0].unit
    largest = max(abs(one.plain) for one in known)
    if unit not in _PREFIXED or not largest:
        return unit
    return f"{_PREFIXES[max(-12, min(6, 3 * math.floor(math.log10(largest) / 3)))]}{unit}"


def _zones(band, unit):
    """Word, lower end and upper end of the sound and the bad values; infinity where there is no end."""
    if band is None:
        return ()
    top, worse, bottom, less = (otherwise if edge is None else float(edge.m_as(unit)) for edge, otherwise in (
        (band.sound_up_to, math.inf), (band.bad_from, math.inf), (band.sound_down_to, -math.inf), (band.bad_down_from, -math.inf)))
    if worse < top:  # more is better
        return (("sound", top, math.inf), ("bad", -math.inf, worse))
    return (("sound", bottom, top), ("bad", worse, math.inf), ("bad", -math.inf, less))


def _zone_name(word, start, end, unit, plain_unit):
    low, high = (show_exact(Q(edge, unit).to(plain_unit), plain_unit) if math.isfinite(edge) else "" for edge in (start, end))
    return f"{word}, {low} to {high}" if low and high else f"{word} from {low}" if low else f"{word} up to {high}"


def _span(ends, edges):
    """The axis' ends: from nought where the readings reach far down, else close about them; a limit near by is taken in."""
    low, high = min(ends), max(ends)
    near = [edge for edge in edges if low - (high - low) <= edge <= high + (high - low)]
    low, high = min([low, *near]), max([high, *near])
    room = 0.25 * (high - low or abs(high) or 1.0)
    if 0 <= low <= _NEAR * high:
        return 0.0, 1.12 * high
    return low - room, high + room


def _whiskers(values, halves):
    """One line from end to end of each reading, with gaps between them."""
    x = np.concatenate([[value - half, value + half, np.nan] for value, half in zip(values, halves)])
    y = np.concatenate([[-place, -place, np.nan] for place in range(len(values))])
    return x, y


def _told(changes):
    """Which of the steps is more than the uncertainty explains."""
    return " ".join(f"From “{change.before_stage}” to “{change.after_stage}” it went {'up' if change.change.plain > 0 else 'down'} by more than the "
                    "uncertainty explains." if change.real else
                    f"From “{change.before_stage}” to “{change.after_stage}” no change is shown." for change in changes)
