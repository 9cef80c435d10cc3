"""The feed chain as a staircase: the volts that are left after each place on the way to the motor."""

from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.judge import CONTRADICTION, UNMEASURED
from benchreckoner.bench.reasons import told
from benchreckoner.bench.uncertain import Known
from benchreckoner.bench.verdict import BAD
from benchreckoner.show.picture import Axis, Band, Curve, Picture, Point
from benchreckoner.units import show

OFF_LOAD, UNDER_LOAD, NOT_READ = "off load", "under load", "not read"
WORKED_BACK = "worked back from motor and drops"
_STEPS = [digit * 10.0**power for power in range(-4, 5) for digit in (1, 2, 5)]
_LONGEST_TITLE = 40
_RISER = 12


@dataclass(frozen=True)
class Stair:
    """One place on the way: the volts lost there, the volts left after it, its ohms.

    Whatever the readings do not tell is None; `note` then says so, else it is
    the verdict's word, or what kind of place this is.
    """

    name: str
    lost: Known | None
    left: Known | None
    ohms: Known | None
    note: str


def stairs(chain):
    """The places from source to motor, or none if no volts were read to start from.

    Parameters
    ----------
    chain : ChainReport

    Returns
    -------
    tuple of Stair
        Off load and under load, then the links, then what no reading accounts
        for, then the motor. Links behind the motor take their volts from it all
        the same, so they stand before it.

    Notes
    -----
    Without the volts under load, the top is worked back: motor and drops added up.
    """
    read = chain.chain
    top = _top(read)
    if top is None or read.condition == "off":
        return ()
    judged = {one.part: one for one in reversed(chain.judgements)}
    places = []
    if read.off_voltage is not None:
        places.append(Stair(OFF_LOAD, None, read.off_voltage, None, ""))
    lost = None if read.off_voltage is None else read.off_voltage - top
    inside = judged.get(read.source.name) if read.source else None
    note = inside.verdict.word if inside else ""
    places.append(Stair(UNDER_LOAD, lost, top, inside.known if inside else None,
                        note if read.loaded_voltage is not None else WORKED_BACK))
    left = top
    for link in read.links:
        drop, one = read.drops.get(link.name), judged.get(link.name)
        if drop is None:
            places.append(Stair(link.name, None, left, None, NOT_READ))
            continue
        left = left - drop
        places.append(Stair(link.name, drop, left, one.known if one else None, one.verdict.word if one else ""))
    for one in chain.findings:
        if one.quantity == UNMEASURED:
            left = left - one.known
            places.append(Stair(UNMEASURED, one.known, left, None, "in no drop that was read"))
    if read.motor is not None:
        known = read.motor_voltage
        places.append(Stair(read.motor.name, None, known, None, "what is left" if known is not None else NOT_READ))
    return tuple(places)


def chains_to_show(reports):
    """The chain as it was first and the latest one under the same condition.

    Parameters
    ----------
    reports : tuple of StageReport
        From `judge_sheet`, the latest first.

    Returns
    -------
    tuple of ChainReport
        Two, or one where nothing can be set beside it, or none. The later one
        has every drop read if any has.
    """
    by_condition = {}
    for report in reversed(reports):
        for chain in sorted(report.chains, key=lambda chain: chain is not report.main):
            if stairs(chain):
                by_condition.setdefault(chain.chain.condition, []).append(chain)
    found = []
    for shown in by_condition.values():
        later = [chain for chain in shown[1:] if _whole(chain)] or shown[1:]
        found.append((*shown[:1], *later[-1:]))
    return max(found, key=len, default=())


def staircase(*, chain, before=None, after=None):
    """Draw the volts that are left at each place from source to motor.

    Parameters
    ----------
    chain : ChainReport
        One that has `stairs`.
    before, after : ChainReport, optional
        The chain it will be compared with, from an earlier or a later stage. It
        shares scale and places; an earlier one is drawn faintly too.

    Returns
    -------
    Picture
        The guilty link and any unmeasured joint stand out: hatched, with a
        heavy edge, named with their volts and ohms.

    Raises
    ------
    ValueError
        If there is nothing to draw.
    """
    places = stairs(chain)
    if not places:
        raise ValueError("staircase: no volts to start from were read; read the volts across the source under load")
    other = before or after
    others = stairs(other) if other else ()
    names = _names(places, others)
    volts = _axis([stair.left.plain for stair in (*places, *others) if stair.left is not None])
    row = {stair.name: place for place, stair in enumerate(names)}
    read = chain.chain
    bands, curves, points = [], [_curve("volts left", places, row)], []
    if before:
        curves.insert(0, _curve("before, for comparison", others, row, "faint"))
    for stair, word, ohms in _marked(chain, places):
        place, low = row[stair.name], stair.left.plain
        high = low + stair.lost.plain
        edge = place - 0.5
        bands.append(Band(f"volts lost at the {word} step", [edge, place, place + 0.5], [min(low, high)] * 3,
                          [max(low, high)] * 3, "heavy"))
        # Points all down the riser, so that no label is put across it.
        curves.append(Curve(f"the {word} step", [*[edge] * _RISER, place, place + 0.5],
                            [*np.linspace(high, low, _RISER), low, low], "heavy"))
        label = ", ".join([f"{word}: {show(stair.lost.value, 'V')}", *([show(ohms, "ohm")] if ohms is not None else [])])
        points.append(Point(label, edge + 0.05, (low + high) / 2 if word == BAD else low, "other" if word == BAD else "extra"))
    return Picture(
        title=f"{_shortened(read.stage)}, {read.condition}: {_end(read)}",
        x=Axis("from the source to the motor", "", -0.5, len(names) - 0.5, ticks=_ticks(names, places)),
        y=volts, bands=bands, curves=curves, points=points,
        sentence=_sentence(chain, places, volts), alt=_alt(chain, places))


def staircases(reports):
    """The chain as it was first and as it is now, each with its drawing, on one scale.

    Parameters
    ----------
    reports : tuple of StageReport
        From `judge_sheet`, the latest first.

    Returns
    -------
    tuple of (ChainReport, Picture)
    """
    shown = chains_to_show(reports)
    if len(shown) < 2:
        return tuple((chain, staircase(chain=chain)) for chain in shown)
    first, last = shown
    return (first, staircase(chain=first, after=last)), (last, staircase(chain=last, before=first))


def missing(*, source, motor, links):
    """What to read before a staircase can be drawn.

    Parameters
    ----------
    source, motor : Part or None
    links : tuple of Part
        All three as `feed_parts` finds them.
    """
    wanted = ((source, "the cells or the adapter"), (motor, "the motor"), (links, "the links of the feed chain"))
    lacking = [words for part, words in wanted if not part]
    if lacking:
        return f"No staircase yet: the sheet does not list {', '.join(lacking)}."
    return (f"No staircase yet. While the motor runs or is held, read the volts across {source.name}, the volts across "
            f"{motor.name} and the voltage drop across each link: {', '.join(link.name for link in links)}.")


def _top(read):
    if read.loaded_voltage is not None:
        return read.loaded_voltage
    if read.motor_voltage is None or not read.drops:
        return None
    top = read.motor_voltage
    for drop in read.drops.values():
        top = top + drop
    return top


def _whole(chain):
    read = chain.chain
    return read.loaded_voltage is not None and read.motor_voltage is not None and len(read.drops) == len(read.links)


def _names(places, others):
    """The places of both chains in one row; only the ends and an unmeasured joint can lack in one."""
    ends = (OFF_LOAD, UNDER_LOAD)
    both = {stair.name: stair for stair in (*places, *others)}
    first = [both[name] for name in ends if name in both]
    middle = [stair for stair in places if stair.name not in (*ends, UNMEASURED) and stair is not places[-1]]
    unmeasured = [both[UNMEASURED]] if UNMEASURED in both else []
    return [*first, *middle, *unmeasured, *places[-1:]]


def _ticks(names, places):
    unread = {stair.name for stair in places if stair.note == NOT_READ}
    return [(place, f"{stair.name}, {NOT_READ}" if stair.name in unread else stair.name) for place, stair in enumerate(names)]


def _curve(name, places, row, style="first"):
    """Treads and risers; a place whose volts nobody knows leaves a gap."""
    shown = sorted(places, key=lambda stair: row[stair.name])
    x = [row[stair.name] + side for stair in shown for side in (-0.5, 0, 0.5)]
    y = [np.nan if stair.left is None else stair.left.plain for stair in shown for _ in range(3)]
    return Curve(name, x, y, style)


def _marked(chain, places):
    """The stairs that stand out, each with a word and its ohms."""
    for stair in places:
        if chain.guilty and stair.name == chain.guilty.part and stair.lost is not None:
            yield stair, BAD, stair.ohms.value
        elif stair.name == UNMEASURED:
            yield stair, "unmeasured", stair.lost.value / chain.chain.current.value if _flows(chain) else None


def _end(read):
    """What a title has to say first."""
    if read.motor_voltage is None:
        return "volts left on the way to the motor"
    return f"{show(read.motor_voltage.value, 'V')} left for the motor"


def _flows(chain):
    current = chain.chain.current
    return current is not None and not chain.chain.current_problem and current.differs() and current.plain > 0


def _axis(values):
    """Round ends with a little air, from zero where that costs little."""
    low, high = min(values), max(values)
    span = (high - low) or max(abs(high), 0.1) / 5
    step = next((step for step in _STEPS if span / step <= 6), _STEPS[-1])
    bottom, top = np.floor((low - 0.2 * span) / step) * step, np.ceil((high + 0.1 * span) / step) * step
    return Axis("volts left", "V", 0 if low >= 0 and bottom < 0.3 * top else bottom, top)


def _sentence(chain, places, volts):
    read = chain.chain
    words = [f"{told(stair.left)} {stair.name}" + (f" ({WORKED_BACK})" if stair.note == WORKED_BACK else "")
             for stair in places if stair.name in (OFF_LOAD, UNDER_LOAD)]
    text = f"The source gives {' and '.join(words)}"
    text += f"; {told(read.motor_voltage)} are left for the motor." if read.motor_voltage is not None else "; the motor's volts were not read."
    for stair, word, _ in _marked(chain, places):
        text += f" Hatched, with a heavy edge: {told(stair.lost)} " \
                + (f"lost at {stair.name}, the guilty link." if word == BAD else "that no drop accounts for.")
    unread = [stair.name for stair in places if stair.note == NOT_READ and stair.name != places[-1].name]
    if unread:
        text += f" Not read, so drawn level: {', '.join(unread)}."
    if any(one.quantity == CONTRADICTION for one in chain.findings):
        text += " These readings contradict each other, so not all of this can be right."
    if volts.low > 0:
        text += f" The scale of volts starts at {volts.shown(volts.low)}, not at zero."
    return text


def _alt(chain, places):
    read = chain.chain
    losses = [f"{stair.name} {show(stair.lost.value, 'V')}" for stair in places if stair.lost is not None]
    return (f"A staircase that falls from the source to the motor, {read.stage}, {read.condition}. Volts lost at each step: "
            f"{', '.join(losses) or 'none read'}.")


def _shortened(text):
    return text if len(text) <= _LONGEST_TITLE else text[:_LONGEST_TITLE - 1].rstrip() + "…"
