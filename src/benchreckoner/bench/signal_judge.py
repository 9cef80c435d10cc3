"""Judgements of what passes sound: contacts, switches, jacks, shields and potentiometers, each by itself."""

from dataclasses import replace

from benchreckoner.bench import signal_reasons as words
from benchreckoner.bench.bounds import MOST_LEADS, Bounds, Way, judge_bounds, lifting_would_tell, read_ohms
from benchreckoner.bench.chain import flows
from benchreckoner.bench.contradictions import disagreements
from benchreckoner.bench.judge import CONTRADICTION, WORST_FIRST, Judgement, PartsReport
from benchreckoner.bench.limits import NoBand, band_for
from benchreckoner.bench.reasons import sentence, told
from benchreckoner.bench.signal_direct import direct_voltage
from benchreckoner.bench.signal_levels import MOVED, level_loss, movements
from benchreckoner.bench.uncertain import Known, Readings, propagate
from benchreckoner.bench.verdict import UNTOLD, Verdict
from benchreckoner.bench.vocabulary import CONDITIONS, SIGNAL_KINDS
from benchreckoner.physics.contacts import contact_resistance
from benchreckoner.physics.parallel import parallel_resistance
from benchreckoner.units import Q

_OHMS = ("resistance", "wiper resistance")


def judge_signal(sheet):
    """Judge the parts of the sound's path at every stage that has readings of them.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartsReport
        The latest stage first.
    """
    readings = Readings(sheet)
    parts = [part for part in sheet.parts.values() if part.kind in SIGNAL_KINDS]
    reports = (_judge_stage(sheet, readings, stage, parts) for stage in reversed(sheet.stages))
    return tuple(report for report in reports if report.judgements or report.findings)


def _judge_stage(sheet, readings, stage, parts):
    judgements, findings = [], []
    for part in parts:
        taken = {condition for name, _, at, condition in readings.keys() if (name, at) == (part.name, stage)}
        found = []
        for condition in [one for one in CONDITIONS if one in taken]:
            if condition not in MOVED:
                found += _judge_part(sheet, readings, part, stage, condition)
                findings += [_contradiction(part, stage, condition, *one)
                             for one in disagreements([part], readings, stage, condition)]
        found += movements(readings, part, stage, _band(readings, part, stage))
        if part.kind == "potentiometer":
            found += direct_voltage(sheet, readings, part, stage, found)
        judgements += found
    findings += [one for one in judgements if one.quantity == CONTRADICTION]
    judgements = [one for one in judgements if one.quantity != CONTRADICTION]
    judgements.sort(key=lambda one: WORST_FIRST.index(one.verdict.word))
    return PartsReport("signal", stage, tuple(judgements), tuple(findings))


def _judge_part(sheet, readings, part, stage, condition):
    """Its ohms and its loss of level under one condition."""
    yield from _by_current(readings, part, stage, condition)
    for quantity in _OHMS:
        way = read_ohms(sheet, readings, part, quantity, stage, condition)
        if way is not None:
            yield from _judge_ohms(readings, part, quantity, stage, condition, way)
    yield from level_loss(readings, part, stage, condition)


def _by_current(readings, part, stage, condition):
    """Ohms from a voltage drop and the current sent through: no lead is in them."""
    drop = readings.find(part.name, "voltage drop", stage, condition)
    current = readings.find(part.name, "current", stage, condition)
    if drop is None and current is None:
        return
    untold = _untold(part, "resistance", stage, condition)
    if drop is None or current is None:
        missing = "current" if current is None else "voltage drop"
        yield replace(untold, reason=f"No {missing} was read with it, so no ohms come out of it.",
                      next=f"Read the {missing} of {part.name} too, in the same moment ({condition}).")
    elif not flows(current):
        yield replace(untold, reason="The current read with it is nothing that can be told from zero, or flows backwards.",
                      next="Send more current through it, a few milliamperes, and mind the meter's plus and minus.")
    elif drop.differs() and drop.plain < 0:
        yield replace(untold, reason=f"Its drop of {told(drop)} is negative: the probes were the other way round, or the current was.",
                      next="Read the drop again with the probes turned round.")
    else:
        ohms = propagate(contact_resistance, "ohm", voltage_drop=drop, current=current)
        yield from _judge_ohms(readings, part, "resistance", stage, condition, Way(ohms, "", True, True))


def _judge_ohms(readings, part, quantity, stage, condition, way):
    untold = replace(_untold(part, quantity, stage, condition), known=way.reading, as_read=way.reading)
    track = _track(readings, part, stage)
    bounds = _bounds(part, quantity, condition, way)
    if bounds.contradicted:
        yield replace(untold, reason=words.SEE_CONTRADICTION)
        yield replace(untold, quantity=CONTRADICTION, reason=words.too_much(part, way), next=words.TOO_MUCH_NEXT)
        return
    if way.reading.differs() and way.reading.plain < 0:
        yield replace(untold, reason=f"{told(way.reading)}{way.words}: less than nothing, so leads or reading have slipped.",
                      next="Touch the leads together and read both again.")
        return
    try:
        band = band_for(part, quantity=quantity, track=track)
    except NoBand as nothing:
        yield replace(untold, reason=sentence(str(nothing)), no_band=True)
        return
    if quantity == "wiper resistance" and bounds.low.plain - track.m_as("ohm") > 2 * bounds.low.number.std_dev:
        yield replace(untold, reason=words.SEE_CONTRADICTION)
        yield replace(untold, quantity=CONTRADICTION, reason=words.beyond_track(part, way, track),
                      next="Turn it to the stop and read from the wiper to that end, and the track end to end.")
        return
    verdict = judge_bounds(bounds, band)
    then = ""
    if verdict.word == UNTOLD:
        then = words.next_ohms(part, way, bounds, band, bounds.in_circuit and lifting_would_tell(bounds, band))
    yield replace(untold, known=bounds.best, band=band, verdict=verdict, next=then,
                  reason=words.why(part, way, bounds, band, verdict))


def _bounds(part, quantity, condition, way):
    """What a reading leaves open about the part alone."""
    low = way.reading
    if not way.four_wire and not way.leads_known:
        # A pair of leads can be as much as a contact, but is nothing beside a track.
        low = Known(way.reading.number - MOST_LEADS, "ohm") if part.kind == "potentiometer" else None
    beside = part.details.get("across", ())
    if condition == "lifted" or condition != "in circuit" and not beside:
        return Bounds(low, way.reading)
    if not beside or quantity == "wiper resistance":
        return Bounds(low, way.reading, open_ended=True)  # what joins wiper and end is another path than the track's
    least, most = (float(parallel_resistance(resistances=Q([one.resistance.m_as("ohm") * (1 + sign * one.tolerance) for one in beside],
                                                           "ohm")).m_as("ohm")) for sign in (-1, 1))
    return Bounds(low, way.reading, path=(least, most))


def _track(readings, part, stage):
    """A potentiometer's track: as written on it, else as read at this stage."""
    stated = part.details.get("resistance")
    if stated is not None:
        return stated.to("ohm")
    read = [readings.find(part.name, "resistance", stage, condition) for condition in CONDITIONS]
    return next((one.value for one in read if one is not None and one.plain > 0), None)


def _band(readings, part, stage):
    """The band for what moves: a control's wiper, any other part's ohms; None if there is none."""
    quantity = "wiper resistance" if part.kind == "potentiometer" else "resistance"
    try:
        return band_for(part, quantity=quantity, track=_track(readings, part, stage))
    except NoBand:
        return None


def _untold(part, quantity, stage, condition):
    return Judgement(part.name, part.kind, quantity, stage, condition, None, None, Verdict(UNTOLD, 1.0), "", "")


def _contradiction(part, stage, condition, known, reason, then):
    return Judgement(part.name, part.kind, CONTRADICTION, stage, condition, known, None, Verdict(UNTOLD, 1.0),
                     sentence(reason), then)
