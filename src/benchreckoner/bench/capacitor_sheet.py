"""Every capacitor on the sheet: its judgements at each stage, and one verdict a part with its reasons in a line each."""

from dataclasses import dataclass, replace

from benchreckoner.bench.capacitor_effects import effects
from benchreckoner.bench.capacitor_judge import judge_capacitor
from benchreckoner.bench.capacitor_limits import ELECTROLYTIC, rating
from benchreckoner.bench.judge import CONTRADICTION, WORST_FIRST, Judgement, PartsReport
from benchreckoner.bench.leakage_judge import judge_leakage
from benchreckoner.bench.leakage_words import headline, name_of, practice_line, rule_line
from benchreckoner.bench.limits import Band, NoBand
from benchreckoner.bench.reasons import sentence
from benchreckoner.bench.repair import Part
from benchreckoner.bench.uncertain import Readings
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD, Verdict

LEAKAGE = "leakage current"
_GONE = ("bulg", "leak", "vented", "burst", "crust")  # as seen on a part; common practice
_READ_LEAKAGE = ("Read its leakage at its rated voltage, up to 63 V, through a resistor, one leg lifted, after 1, 2 and 5 minutes: a good "
                 "capacitance clears no part.")


@dataclass(frozen=True)
class PartVerdict:
    """One word for one part, by the last stage it was read at: why, a line each, what it does there, what to do next.

    `worst` is the judgement that made it bad, and None where none did.
    """

    part: Part
    stage: str
    word: str
    reasons: tuple[str, ...]
    effects: tuple[str, ...]
    next: str
    worst: Judgement | None


def judge_capacitors(sheet):
    """Judge every capacitor that was read, at every stage.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartsReport
        The latest stage first.
    """
    readings = Readings(sheet)
    parts = [part for part in sheet.parts.values() if part.kind == "capacitor"]
    leaks = judge_leakage(sheet, readings)
    reports = []
    for stage in reversed(sheet.stages):
        found = [one for part in parts for one in judge_capacitor(sheet, readings, part, stage)]
        found += [_leakage(report) for report in leaks if report.series.stage == stage]
        findings = tuple(one for one in found if one.quantity == CONTRADICTION)
        judged = sorted((one for one in found if one.quantity != CONTRADICTION),
                        key=lambda one: WORST_FIRST.index(one.verdict.word))
        if found:
            reports.append(PartsReport("capacitors", stage, tuple(judged), findings))
    return tuple(reports)


def part_verdicts(sheet):
    """One verdict for each capacitor on the sheet, the worst first.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartVerdict
        Parts that were not read are among them, as "can't tell yet".
    """
    reports = judge_capacitors(sheet)
    verdicts = [_seen(sheet, _verdict(sheet, part, reports)) for part in sheet.parts.values() if part.kind == "capacitor"]
    return tuple(sorted(verdicts, key=lambda one: WORST_FIRST.index(one.word)))


def _leakage(report):
    """One series of leakage readings as one judgement."""
    series, rules = report.series, [one for one in report.rules if one.verdict.word != UNTOLD]
    word, likely = _leakage_word(report)
    # A rule that was read goes before one that was recalled.
    shown = min(rules, key=lambda one: (one.rule.mark != "FOUND", one.limit), default=report.practice)
    band = None if shown is None else Band(shown.limit, shown.limit, shown.rule.source, shown.rule.mark)
    known = series.points[-1].leakage if series.points else None
    reason = headline(report).removeprefix(f"{name_of(series)}: ").removeprefix(f"{word}, ")
    if shown is not None and not report.stop:
        reason = f"{sentence(reason)} {rule_line(shown) if report.span else practice_line(report)}"
    return Judgement(series.part.name, series.part.kind, LEAKAGE, series.stage, series.condition, known, band,
                     Verdict(word, likely), sentence(reason), "")


def _leakage_word(report):
    """Where the rules disagree a part is doubtful; many times over the usual limit it is bad, whatever else is untold."""
    if report.stop or report.practice is None:
        return UNTOLD, 1.0
    if not report.span:
        practice = report.practice.verdict
        return (BAD, practice.probability) if practice.word == BAD else (UNTOLD, 1.0)
    mildest, hardest = report.span
    likely = min(one.verdict.probability for one in report.rules if one.verdict.word != UNTOLD)
    return (mildest, likely) if mildest == hardest else (DOUBTFUL, likely)


def _verdict(sheet, part, reports):
    stage, found = next(((report.stage, [one for one in (*report.judgements, *report.findings) if one.part == part.name])
                         for report in reports if any(one.part == part.name for one in report.judgements)), ("", []))
    reasons = tuple(f"{one.quantity.capitalize()} ({one.condition}): {one.reason}" for one in found)
    then = next((one.next for one in found if one.next), "")
    words = {one.verdict.word for one in found}
    leak = next((one for one in found if one.quantity == LEAKAGE), None)
    if BAD in words:
        word, then = BAD, ""
    elif DOUBTFUL in words:
        word = DOUBTFUL
    elif leak is not None and leak.verdict.word == SOUND and UNTOLD not in words:
        word = SOUND
    else:
        word = UNTOLD
        then = then or ("" if leak is not None else _READ_LEAKAGE)
    worst = next((one for one in found if one.verdict.word == BAD), None)
    try:
        rated = rating(part)
    except NoBand as nothing:
        return PartVerdict(part, stage, UNTOLD, (*reasons, sentence(str(nothing))), (), then, worst)
    if word == SOUND and rated.style in ELECTROLYTIC and not any(one.quantity == "series resistance" for one in found):
        reasons += ("Its series resistance was not read; as it dries out, that grows first.",)
    return PartVerdict(part, stage, word, reasons, _effects(sheet, part, rated, found, leak), then, worst)


def _seen(sheet, verdict):
    """A part that bulges, leaks or has vented goes, whatever it reads, until another is fitted in its place."""
    since = max((at for at, action in enumerate(sheet.actions, 1) if verdict.part.name in action.fitted), default=0)
    seen = [one.what for one in sheet.observations if one.part == verdict.part.name
            and any(sign in one.what.casefold() for sign in _GONE) and sheet.stages.index(one.stage) >= since]
    if not seen:
        return verdict
    reason = f"Seen: {', '.join(seen)}. Such a part is replaced whatever it reads (common practice)."
    return replace(verdict, word=BAD, reasons=(reason, *verdict.reasons), next="")


def _effects(sheet, part, rated, found, leak):
    read = next((one for one in found if one.quantity == "capacitance" and one.verdict.word in (BAD, DOUBTFUL)
                 and one.known.plain < rated.capacitance.m_as("F")), None)
    flows = leak is not None and leak.known is not None and leak.verdict.word in (BAD, DOUBTFUL)
    return effects(part, rated, leakage=leak.known.value if flows else None, capacitance=read.known.value if read else None,
                   supply=sheet.machine.supply)
