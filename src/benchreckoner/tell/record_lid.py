"""The record's first sheet of paper, for the lid: what changed, how it is set, what was fitted and left alone, cut to what fits."""

from benchreckoner.bench.belt_path_sheet import belt_in_machine
from benchreckoner.bench.compare import comparisons, whole_changes
from benchreckoner.bench.judge import WORST_FIRST
from benchreckoner.bench.parts import ROOMS, latest_of
from benchreckoner.bench.reasons import told
from benchreckoner.bench.report import part_name
from benchreckoner.bench.verdict import BAD, DOUBTFUL, UNTOLD

_SETTINGS = ("set voltage", "compensation", "speed")  # what a trimmer was left at, and what it makes of the speed
_MOST = 7  # of each kind


def lid(sheet, reports, parts):
    """What the next repairer needs on one sheet of paper.

    Parameters
    ----------
    sheet : Sheet
    reports : tuple of StageReport
    parts : tuple of PartsReport

    Returns
    -------
    dict
        Under each name a list, and under ``more_`` and its name how many did not fit.
    """
    # Of a part's verdicts the worst, and the worst part first: what is cut off at the end is the least.
    ranked = sorted(left_alone(reports, parts), key=lambda one: WORST_FIRST.index(one.verdict.word), reverse=True)
    alone = list({one.part: one.verdict.word for one in ranked}.items())[::-1]
    open_still = [part_name(one) for one in left_open(reports, parts)] + [part.name for part in unjudged(sheet, reports, parts)]
    kinds = {"proof": _proof(sheet, reports, parts), "settings": [*_typed(sheet), *_measured(sheet, parts)],
             "fitted": _fitted(sheet), "symptoms": sheet.symptoms, "alone": alone,
             "untold": [name for name in dict.fromkeys(open_still) if name not in dict(alone)]}
    return {name: things[:_MOST] for name, things in kinds.items()} \
        | {f"more_{name}": len(things[_MOST:]) for name, things in kinds.items()}


def latest(reports, parts):
    """Each part's judgements at the latest stage that speaks of it; a verdict goes before none."""
    found = {}
    for report in (*reports, *parts):
        for one in sorted(report.judgements, key=lambda one: one.verdict.word == UNTOLD):
            found.setdefault((one.part, one.quantity), one)
    return found.values()


def left_alone(reports, parts):
    """What is bad or doubtful by its latest readings."""
    return [one for one in latest(reports, parts) if one.verdict.word in (BAD, DOUBTFUL)]


def left_open(reports, parts):
    """What the latest readings leave open, what cannot all be true first."""
    whole = [one for chain in reports[0].chains for one in chain.findings] if reports else []
    whole += [one for room in ROOMS if (report := latest_of(parts, room)) for one in report.findings]
    return whole + [one for one in latest(reports, parts) if one.verdict.word == UNTOLD]


def unjudged(sheet, reports, parts):
    """Parts of which no judgement speaks."""
    judged = {one.part for one in latest(reports, parts)}
    return [part for part in sheet.parts.values() if part.name not in judged]


def replaced(sheet):
    """Belts that came out because another one runs now: they do not go back."""
    fitted = {name for action in sheet.actions for name in action.fitted}
    belts = [name for name, part in sheet.parts.items() if part.kind == "belt"]
    running = belt_in_machine(sheet) if fitted & set(belts) else None
    return {name for name in belts if running and name != running.name}


def _proof(sheet, reports, parts):
    """Every real change as a whole; of one thing under several conditions, the one read last."""
    best = {}
    for one in (*whole_changes(comparisons(reports)), *whole_changes(comparisons(parts))):
        key, stage = (one.part, one.quantity), sheet.stages.index(one.after_stage)
        if one.real and one.quantity not in _SETTINGS and (key not in best or stage > best[key][0]):
            best[key] = (stage, one)
    return [one for _, one in best.values()]


def _typed(sheet):
    """Where each trimmer and control stood first, and where it stands now."""
    return [{"part": shown[0].part, "what": shown[0].what, "first": shown[0].place, "first_stage": shown[0].stage,
             "last": shown[-1].place, "last_stage": shown[-1].stage, "once": len(shown) == 1} for shown in sheet.stood]


def _measured(sheet, parts):
    """What the settings make, as first and as last read; of several conditions the one read last."""
    found = {}
    for report in reversed(parts):
        for one in report.judgements:
            if one.quantity in _SETTINGS and one.known is not None:
                found.setdefault((one.part, one.quantity), {}).setdefault(one.condition, []).append(one)
    for (part, quantity), conditions in found.items():
        shown = max(conditions.values(), key=lambda shown: sheet.stages.index(shown[-1].stage))
        yield {"part": part, "what": quantity, "first": told(shown[0].known), "first_stage": shown[0].stage,
               "last": told(shown[-1].known), "last_stage": shown[-1].stage, "once": len(shown) == 1}


def _fitted(sheet):
    """Each part that was fitted and is still in, with the action that fitted it."""
    fitted = {name: action.name for action in sheet.actions for name in action.fitted}
    return [(sheet.parts[name], action) for name, action in fitted.items() if name not in replaced(sheet)]
