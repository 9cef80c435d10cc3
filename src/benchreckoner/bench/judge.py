"""Judgements: every link of the feed chain against its band, and what the whole chain says."""

from dataclasses import dataclass, replace
from itertools import combinations

from benchreckoner.bench import chain as chains
from benchreckoner.bench import reasons
from benchreckoner.bench.bounds import read_ohms
from benchreckoner.bench.by_current import shifts
from benchreckoner.bench.chain import Chain, Gain
from benchreckoner.bench.contradictions import contradictions
from benchreckoner.bench.limits import Band, NoBand, band_for
from benchreckoner.bench.uncertain import Known, Readings
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD, Verdict, judge_value, uncertainty_to_settle
from benchreckoner.bench.vocabulary import CONDITIONS, ON_BENCH_SUPPLY
from benchreckoner.units import Q

FEED_CHAIN, UNMEASURED, CONTRADICTION, BY_CURRENT = "feed chain", "unmeasured joint", "contradiction", "ohms by current"
_PREFERRED = (*chains.STANDING, "playing", "winding", "no load")
WORST_FIRST = (BAD, DOUBTFUL, UNTOLD, SOUND)


@dataclass(frozen=True)
class Judgement:
    """One part, or the whole feed chain, at one stage under one condition."""

    part: str
    kind: str
    quantity: str
    stage: str
    condition: str
    known: Known | None
    band: Band | None
    verdict: Verdict
    reason: str
    next: str
    gain: Gain | None = None
    no_band: bool = False
    as_read: Known | None = None  # what is compared before and after, where it is not `known`

    @property
    def won_back(self):
        """Motor volts won back by mending, as a plain number for ranking."""
        return self.gain.volts.plain if self.gain else 0.0


def unjudged(part, quantity, stage, condition, *, reason="", next=""):
    """A part's judgement before anything is known: "can't tell yet", with no value and no band.

    Parameters
    ----------
    part : Part
    quantity, stage, condition : str
    reason, next : str, optional

    Returns
    -------
    Judgement
    """
    return Judgement(part.name, part.kind, quantity, stage, condition, None, None, Verdict(UNTOLD, 1.0), reason, next)


@dataclass(frozen=True)
class ChainReport:
    """A chain and its judgements, the worst first."""

    chain: Chain
    judgements: tuple
    findings: tuple

    @property
    def guilty(self):
        """The first link that is bad, ranked by volts won back; None if none is."""
        branches = {link.name for link in self.chain.links if not chains.in_series(self.chain, link)}
        return next((one for one in self.judgements if one.verdict.word == BAD and one.kind != "current meter"
                     and one.part not in branches), None)

    @property
    def contradicted(self):
        """Whether some of its readings cannot all be true."""
        return any(one.quantity == CONTRADICTION for one in self.findings)


@dataclass(frozen=True)
class PartsReport:
    """Parts that are judged one by one at one stage: their judgements, the worst first, and what cannot all be true.

    `room` says which parts, by one of the names in `bench.parts.ROOMS`.
    """

    room: str
    stage: str
    judgements: tuple
    findings: tuple


@dataclass(frozen=True)
class StageReport:
    """One stage of the repair: its chains, the most telling condition first."""

    stage: str
    chains: tuple

    @property
    def judgements(self):
        """Those of every chain, one after the other."""
        return tuple(one for chain in self.chains for one in chain.judgements)

    @property
    def main(self):
        """The chain to speak of first: one with a guilty link, else one with something doubtful, else the first."""
        def rank(chain):
            doubtful = any(one.verdict.word in (BAD, DOUBTFUL) for one in chain.judgements)
            return 0 if chain.guilty else 1 if doubtful else 2

        return min(self.chains, key=rank, default=None)


def judge_sheet(sheet):
    """Judge the feed chain at every stage and under every condition that has readings.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of StageReport
        The latest stage first; stages without readings of the chain are left out.
    """
    readings = Readings(sheet)
    source, motor, links = chains.feed_parts(sheet)
    names = {part.name for part in (source, motor, *links) if part}
    taken = {(stage, condition) for part, _, stage, condition in readings.keys()
             if part in names and condition not in ON_BENCH_SUPPLY}
    order = [*_PREFERRED, *(one for one in CONDITIONS if one not in _PREFERRED)]
    reports = []
    for stage in reversed(sheet.stages):
        found = [_judge_chain(sheet, readings, stage, condition)
                 for condition in order if (stage, condition) in taken]
        found = tuple(report for report in found if report.judgements or report.findings)
        if found:
            reports.append(StageReport(stage, _against_each_other(found)))
    return tuple(reports)


def _against_each_other(reports):
    """The chains of one stage; what one joint's ohms under two conditions say stands with the more telling one."""
    found = list(reports)
    for first, second in combinations(range(len(found)), 2):
        told_of = tuple(_shifted(found[first].chain, shift) for shift in shifts(found[first].chain, found[second].chain))
        found[first] = replace(found[first], findings=(*found[first].findings, *told_of))
    return tuple(found)


def _shifted(chain, shift):
    name, kind = (FEED_CHAIN, "") if shift.part is None or not shift.explained else (shift.part.name, shift.part.kind)
    return Judgement(name, kind, BY_CURRENT if shift.explained else CONTRADICTION, chain.stage, chain.condition, shift.difference, None,
                     Verdict(UNTOLD, 1.0), shift.reason, shift.next)


def _judge_chain(sheet, readings, stage, condition):
    chain = chains.read_chain(sheet, readings, stage, condition)
    findings = [Judgement(FEED_CHAIN, "", CONTRADICTION, stage, condition, known, None, Verdict(UNTOLD, 1.0), why, then)
                for known, why, then in contradictions(sheet, readings, chain)]
    left = chains.remainder(chain) if condition != "off" else None
    if left is not None and left.differs() and left.plain > 0:
        findings.append(_unmeasured(chain, left))
    judgements = [_judge_link(chain, link) for link in chain.links if _asked(chain, readings, link)]
    if chain.source and (chain.loaded_voltage is not None) and condition != "off":
        judgements.append(_judge_source(chain))
    judgements += _two_wire(sheet, readings, chain)
    judgements.sort(key=lambda one: (WORST_FIRST.index(one.verdict.word), -one.won_back))
    return ChainReport(chain, tuple(judgements), tuple(findings))


def _asked(chain, readings, link):
    """A link is spoken of where its chain was read at all; switched off, no drop says anything."""
    return bool(chain.drops) and chain.condition != "off"


def _judge_link(chain, link):
    ohms, trouble = chains.link_ohms(chain, link)
    if trouble:
        return _untold(chain, link, trouble, reasons.next_reading(chain, link))
    lost = chain.drops[link.name]
    ceiling = chain.off_voltage or chain.loaded_voltage
    if ceiling is not None and lost.lies_above(ceiling):
        return _untold(chain, link, "its drop is larger than the whole supply", "Check range and unit, and read the drop again.")
    if lost.differs() and lost.plain < 0:
        return _untold(chain, link, "its drop is negative: the probes were the other way round, or the current was",
                       "Read the drop again with the probes turned round.")
    return _against_band(chain, link, ohms)


def _judge_source(chain):
    ohms, trouble = chains.source_ohms(chain)
    if trouble:
        return _untold(chain, chain.source, trouble, reasons.next_source_reading(chain))
    if ohms.differs() and ohms.plain < 0:
        return _untold(chain, chain.source, "it reads more volts loaded than off", "Read both again, off first.")
    return _against_band(chain, chain.source, ohms)


def _against_band(chain, part, ohms):
    try:
        band = band_for(part, supply=chain.loaded_voltage or chain.off_voltage, current=chain.current)
    except NoBand as nothing:
        return Judgement(part.name, part.kind, "resistance", chain.stage, chain.condition, ohms, None,
                         Verdict(UNTOLD, 1.0), reasons.sentence(str(nothing)), "", no_band=True)
    sound, bad = band.sound_up_to.m_as("ohm"), band.bad_from.m_as("ohm")
    verdict = judge_value(value=ohms.plain, uncertainty=ohms.number.std_dev,
                          sound_up_to=sound, bad_from=bad)
    then = ""
    if verdict.word == UNTOLD:
        needed = uncertainty_to_settle(value=ohms.plain, sound_up_to=sound, bad_from=bad)
        then = reasons.settle(chain, part, ohms, Q(needed, "ohm"))
    return Judgement(part.name, part.kind, "resistance", chain.stage, chain.condition, ohms, band, verdict,
                     reasons.against_band(ohms, band, verdict), then, chains.gain(chain, part, ohms, band.sound_up_to))


def _two_wire(sheet, readings, chain):
    """An ohmmeter's reading has its test leads in it: unless they are known, it can clear a link, not condemn it."""
    for link in chain.links:
        way = read_ohms(sheet, readings, link, "resistance", chain.stage, chain.condition)
        if way is None:
            continue
        judged = _against_band(chain, link, way.reading)
        if judged.verdict.word != SOUND and not (way.four_wire or way.leads_known):
            yield _untold(chain, link, "an ohmmeter's reading has the test leads in it, so it can clear a link but not condemn it",
                          f"Read the voltage drop across {link.name} while the motor runs or is held.", way.reading, judged.band)
        else:
            yield judged


def _unmeasured(chain, left):
    current = chain.current
    ohms = ""
    if current is not None and not chain.current_problem and current.differs() and current.plain > 0:
        ohms = reasons.as_ohms(left, current)
    unread = [link.name for link in chains.unread_links(chain)]
    return Judgement(FEED_CHAIN, "", UNMEASURED, chain.stage, chain.condition, left, None, Verdict(UNTOLD, 1.0),
                     reasons.unmeasured(left, ohms, unread), reasons.next_joint(unread))


def _untold(chain, part, trouble, then, known=None, band=None):
    return Judgement(part.name, part.kind, "resistance", chain.stage, chain.condition, known, band,
                     Verdict(UNTOLD, 1.0), reasons.sentence(trouble), then)
