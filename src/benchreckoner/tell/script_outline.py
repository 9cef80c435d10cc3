"""The outline of a script: every line that a sheet's readings carry, and which of them fit into a time."""

from dataclasses import replace

from benchreckoner.bench.cautions import cautions_for
from benchreckoner.bench.capacitor_sheet import LEAKAGE
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import WORST_FIRST, judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.tell import script_sentences as sentences
from benchreckoner.tell.script_line import REGISTERS, Line
from benchreckoner.tell.script_sentences import CHANGED, DONE, KNOWN, WRONG
from benchreckoner.tell.script_words import quantity_words
from benchreckoner.show.spoken import called, plain, spoken_seconds

_ALWAYS = 100  # the weight of a line that no target drops
_EVERY_TIME = ("power off",)  # stands before each action
# Cautions for a probe or a finger near a part; the others are for cleaning, soldering and the like.
_MEASURING = ("shorted cells", "polarity", "adapter", "stored charge", "charge comes back", "reforming", "held motor", "moving parts", "hot parts",
              "hearing")
_LIFTING = "soldering"  # a lifted leg was soldered


def outline(sheet, judgements=None):
    """Every line that the sheet's readings carry, in order; none is dropped.

    Parameters
    ----------
    sheet : Sheet
    judgements : tuple, optional
        What `judge_sheet` and `judge_parts` gave, where that is known already.

    Returns
    -------
    tuple of Line
        At least one for each of `CHAPTERS`.
    """
    reports, parts = judgements or (judge_sheet(sheet), judge_parts(sheet))
    judged = [one for report in (*reports, *parts) for one in report.judgements]
    changes = [one for one in (*comparisons(reports), *comparisons(parts)) if one.real]
    lines = [*sentences.opening_lines(sheet), *_known(sheet, judged), *_done(sheet), *_changed(sheet, judged, changes),
             *_unsure(sheet, judged, (*reports, *parts))]
    if not any("give or take" in line.say["camera"] for line in lines):
        lines = [line for line in lines if line.id != sentences.GIVE_OR_TAKE]
    return tuple(_with_cautions(sheet, _distinct(lines)))


def chapter_times(lines, register, words_per_minute):
    """Where each chapter begins.

    Parameters
    ----------
    lines : iterable of Line
        Those that are said, in order.
    register : str
    words_per_minute : float

    Returns
    -------
    list of (str, float)
        Chapter and seconds from the start; a chapter that is come back to stands twice.
    """
    times, here, chapter = [], 0.0, None
    for line in lines:
        if line.chapter != chapter:
            chapter = line.chapter
            times.append((chapter, here))
        here += spoken_seconds(line.say[register], words_per_minute)
    return times


def fit(lines, *, target, words_per_minute, fixed=()):
    """Drop the least weighty lines until the rest can be said in time.

    Parameters
    ----------
    lines : tuple of Line
    target : float or None
        Seconds; with None nothing is dropped.
    words_per_minute : float
    fixed : collection of str
        Ids of lines whose `use` is settled already.

    Returns
    -------
    tuple of Line
        All of them, the dropped ones with ``use = False``. The first line of each chapter that
        has one, and lines of the greatest weight, stay.
    """
    lines = [line if line.id in fixed else replace(line, use=True) for line in lines]
    free = [place for place, line in enumerate(lines) if line.id not in fixed and line.weight < _ALWAYS]
    for place in sorted(free, key=lambda place: (lines[place].weight, -place)):
        if target is None or max(total(lines, register, words_per_minute) for register in REGISTERS) <= target:
            break
        if sum(line.use and line.chapter == lines[place].chapter for line in lines) > 1:
            lines[place] = replace(lines[place], use=False)
    return tuple(lines)


def total(lines, register, words_per_minute):
    """How long the lines that are said take in one register; cautions read out come on top.

    Parameters
    ----------
    lines : iterable of Line
    register : str
    words_per_minute : float

    Returns
    -------
    float
        Seconds.
    """
    return sum(spoken_seconds(line.say[register], words_per_minute) for line in lines if line.use)


def _known(sheet, judged):
    """What was read, and what is bad or doubtful by it: each at the first stage that says so."""
    yield from sentences.meter_lines(sheet)
    told = {}
    for stage in sheet.stages:
        for one in judged:
            if one.stage == stage and one.verdict.word in (BAD, DOUBTFUL):
                told.setdefault((one.part, one.quantity), one)
    ranked = sorted(told.values(), key=lambda one: (one.verdict.word != BAD, -one.won_back))
    yield from sentences.promise_lines(ranked)
    explained = set()
    for number, one in enumerate(ranked):
        why = sentences.principle_line(one)
        if why is not None and why.id not in explained:
            explained.add(why.id)
            yield why
        yield from sentences.judged_lines(one, first=not number)
    bad = {one.part for one in told.values()}
    sound = dict.fromkeys(one.part for one in reversed(judged) if one.verdict.word == SOUND and one.part not in bad)
    if sound:
        yield sentences.sound_line([_sound_name([one for one in judged if one.part == part]) for part in sound])
    if not judged and sheet.readings:
        yield sentences.nothing_judged()


def _sound_name(judged):
    """A part's name where all that was judged of it is sound; else one thing of it that is."""
    leaks = judged[0].kind == "capacitor" and not any(one.quantity == LEAKAGE for one in judged)  # a leak hides in a good capacitance
    if all(one.verdict.word == SOUND for one in judged) and not leaks:
        return called(judged[0].part)
    return next(quantity_words(one) for one in judged if one.verdict.word == SOUND)


def _done(sheet):
    yield from sentences.done_lines(sheet, "\n".join(one.words for one in cautions_for(sheet) if one.name in _EVERY_TIME))
    yield from sentences.setting_lines(sheet)


def _changed(sheet, judged, changes):
    """What changed by more than the uncertainty, the parts that were bad or doubtful first."""
    troubled = {(one.part, one.quantity) for one in judged if one.verdict.word in (BAD, DOUBTFUL)}
    now = {(one.part, one.quantity, one.stage, one.condition): one for one in judged if one.verdict.word != UNTOLD}
    for place, change in enumerate(changes):
        heavy = (change.part, change.quantity) in troubled
        yield sentences.changed_line(change, heavy=heavy, latest=sheet.stages[-1],
                                     now=now.get((change.part, change.quantity, change.after_stage, change.condition)))
        span = (change.part, change.before_stage, change.after_stage)
        if span not in [(one.part, one.before_stage, one.after_stage) for one in changes[place + 1:]]:
            first, last = (sheet.stages.index(stage) for stage in span[1:])
            between = [action for action in sheet.actions if action.name in sheet.stages[first + 1:last + 1]]
            fitted = next((action.name for action in reversed(between) if change.part in action.fitted), "")
            yield sentences.cure_line(change.part, [action.name for action in between], fitted=fitted, heavy=heavy)
    yield from sentences.tried_lines(sheet)
    if not changes:
        words = ("Nothing can be compared yet: nothing was read both before and after." if not sheet.actions else
                 "Nothing that was read twice changed by more than the uncertainty explains.")
        yield Line("no change", CHANGED, sentences.told_twice(words), weight=70)


def _unsure(sheet, judged, reports):
    latest = {}
    for stage in reversed(sheet.stages):
        for one in sorted((one for one in judged if one.stage == stage), key=lambda one: one.verdict.word == UNTOLD):
            latest.setdefault((one.part, one.quantity), one)
    newest = {}
    for report in reports:
        newest.setdefault(getattr(report, "room", "chain"), report)
    findings = [one for report in newest.values() for piece in getattr(report, "chains", (report,)) for one in piece.findings]
    last = {symptom.what: symptom for symptom in sheet.symptoms}
    return sentences.unsure_lines(
        symptoms=[symptom for symptom in last.values() if sheet.actions and symptom.stage != sheet.stages[-1]],
        left=_worst([one for one in latest.values() if one.verdict.word in (BAD, DOUBTFUL)]),
        untold=[one for one in latest.values() if sentences.open_verdict(one)], findings=findings,
        unjudged=[name for name in sheet.parts if name not in {one.part for one in judged}])


def _worst(judged):
    """One judgement a part, the worst."""
    found = {}
    for one in sorted(judged, key=lambda one: WORST_FIRST.index(one.verdict.word)):
        found.setdefault(one.part, one)
    return list(found.values())


def _with_cautions(sheet, lines):
    """Each caution before the first line that shows such a part being read or worked on.

    A leg is lifted with an iron, so what protects that stands before the first part read with a leg lifted.
    What fits no line's parts stands before the first thing that is measured, or done.
    """
    needed = [one for one in cautions_for(sheet) if one.name not in _EVERY_TIME]
    placed = {}
    lifted = next((line.id for line in lines if any(claim.condition == "lifted" for claim in line.claims)), None)
    if lifted is not None:
        placed[lifted] = [one.words for one in cautions_for(sheet) if one.name in _EVERY_TIME]
    for one in needed:
        if lifted is not None and one.name == _LIFTING:
            placed[lifted].append(one.words)
            continue
        chapter = WRONG if not one.kinds else KNOWN if one.name in _MEASURING else DONE
        here = [line for line in lines if line.chapter == chapter]
        shown = [line for line in here if one.kinds and any(one.belongs_to(part) for part in _shown(sheet, line))]
        placed.setdefault((shown or here)[0].id, []).append(one.words)
    return [replace(line, caution="\n".join([*filter(None, [line.caution]), *placed.get(line.id, ())])) for line in lines]


def _shown(sheet, line):
    """The parts that a line's figures are of, or that its action names or fits."""
    names = {claim.part for claim in line.claims}
    if any("held" in claim.condition for claim in line.claims):
        names |= {part.name for part in sheet.parts.values() if part.kind == "motor"}
    for action in sheet.actions:
        if line.id == f"done: {plain(action.name)}":
            names |= {*action.fitted, *action.taken_off, *(name for name in sheet.parts if name in action.name)}
    return [sheet.parts[name] for name in names if name in sheet.parts]


def _distinct(lines):
    """The same lines, a second one of an id numbered."""
    seen, made = {}, []
    for line in lines:
        seen[line.id] = seen.get(line.id, 0) + 1
        made.append(line if seen[line.id] == 1 else replace(line, id=f"{line.id}, {seen[line.id]}"))
    return made
