"""The lines of a script, chapter by chapter: every figure from a judgement or a comparison."""

from benchreckoner.bench.tries import PLAN, counted, decision_words, still_possible, tallies
from benchreckoner.bench.verdict import BAD, UNTOLD
from benchreckoner.bench.vocabulary import AS_FOUND
from benchreckoner.show.spoken import aloud, called, exact, figure, plain, shared_size
from benchreckoner.tell.script_line import CHAPTERS, Claim, Line
from benchreckoner.tell.script_words import (
    SPOKEN_VERDICTS, condition_words, listed, moment_words, number_word, principle_words, quantity_words, stopped, time_words, told_twice, upper, verdict_words)

WRONG, KNOWN, DONE, CHANGED, UNSURE = CHAPTERS
_MARKS = {"FOUND": "published", "RECOMPUTED": "recomputed from a published formula", "MEMORY": "from memory"}
_HOW = {"held": "the motor held still, at most two seconds", "playing": "the machine playing", "off": "switched off",
        "no load": "the belt off", "lifted": "one leg lifted off the board", "in circuit": "the part still soldered in",
        "bench supply": "a bench supply on the motor"}
GIVE_OR_TAKE = "give or take"
_PROBED = ("V", "A", "ohm", "F")
_LONGEST_NEXT = 20  # words of a measurement that is still said aloud


def claim_of(one, text, *, stage=None):
    """The claim that a text makes about a judgement or a comparison."""
    return Claim(text, one.part, one.quantity, one.stage if stage is None else stage, one.condition)


def opening_lines(sheet):
    """The machine, what it did, and what was seen."""
    name = plain(sheet.machine.name)
    yield Line("opening", WRONG, told_twice(f"On my bench today: {stopped(name)}", f"On the table in front of you: {stopped(name)}"),
               shot="the whole machine, closed", weight=100)
    if not sheet.symptoms:
        yield Line("no symptom", WRONG, told_twice("Nobody wrote down what it did wrong."), weight=40)
    for number, symptom in enumerate(sheet.symptoms):
        what, found = plain(symptom.what), symptom.stage == AS_FOUND
        when = f"{'' if found else f'After “{plain(symptom.stage)}”, '}{'another' if number else 'the'} complaint"
        words = f"{upper(when)}: {stopped(what)}"
        yield Line(f"symptom: {what}, {symptom.stage}", WRONG, told_twice(words, f"{words} Who has met that?"),
                   shot=f"the machine doing it: {what}", weight=60 if number else 95)
    for seen in sheet.observations:
        photo = f", or the photograph {plain(seen.photo)}" if seen.photo else ""
        what = f"{called(seen.part)} {{}} this to see: {stopped(plain(seen.what))}"
        yield Line(f"seen: {seen.part}, {plain(seen.what)}, {seen.stage}", WRONG,
                   told_twice(f"On {what.format('there was')}", f"On {what.format('there was')} Pass the lens round."),
                   shot=f"close-up of {called(seen.part)}{photo}", weight=35)


def meter_lines(sheet):
    """What it was read with, and what "give or take" and the verdicts promise."""
    used = [called(name) for name in dict.fromkeys(reading.instrument for reading in sheet.readings)]
    if used:
        words = f"All this was read with {listed(used)}."
        yield Line("instruments", KNOWN, told_twice(words, f"{words} {'They lie' if used[1:] else 'It lies'} here."), shot="the instruments side by side", weight=30)
        yield Line(GIVE_OR_TAKE, KNOWN, told_twice("“Give or take” means: nineteen times in twenty, the true value lies inside."), weight=45)
    else:
        yield Line("no reading", KNOWN, told_twice("Nothing was measured yet."), weight=90)


def promise_lines(judged):
    """What "sound" and "bad" promise, and whose limits they are, said once for all of these judgements."""
    if judged:
        yield Line("how sure", KNOWN, told_twice("“Sound”, “doubtful” and “bad” are said only where the readings make them right at least nineteen times "
                                                "in twenty."), weight=44)
    if any(one.band is not None and one.band.mark == "PRACTICE" for one in judged):
        yield Line("whose limits", KNOWN, told_twice("The limits are common practice of the trade or our own choice, unless something else is said."), weight=65)


def judged_lines(one, *, first):
    """A part that is bad or doubtful: its value and verdict, the limit behind it, and what it costs the motor."""
    weight = 90 if first else 75 if one.verdict.word == BAD else 55
    key = f"{one.part}, {one.quantity}, {one.stage}, {one.condition}"
    if one.known is None:
        words = first_sentence(one.reason)
        yield Line(f"judged: {key}", KNOWN, told_twice(words), (claim_of(one, words),), shot=_shot(one), weight=weight)
        return
    said, (mine, ours, sure) = figure(one.known), verdict_words(one)
    about = upper(f"{moment_words(one, one.stage)}{quantity_words(one)} was {said}.")
    yield Line(f"judged: {key}", KNOWN, told_twice(f"{about} {mine}", f"{about} {ours}"),
               tuple(claim_of(one, words) for words in (said, sure) if words), shot=_shot(one), weight=weight)
    if one.band is not None and one.band.unit == one.known.unit:
        limit = limit_words(one.band)
        whose = f" That limit is {_MARKS[one.band.mark]}." if one.band.mark in _MARKS else ""
        yield Line(f"limit: {key}", KNOWN, told_twice(f"{limit}{whose}"), (claim_of(one, limit),),
                   shot="the limit as words in the picture", weight=weight - 35)
    if one.gain is not None and first:
        won = figure(one.gain.volts)
        words = upper(f"{condition_words(one.condition)}mending it would win back {'at most ' if one.gain.at_most else ''}{won}.")
        yield Line(f"costs: {key}", KNOWN, told_twice(words, f"{words} What would you mend first?"), (claim_of(one, won),),
                   shot="the stairs of volts, from the cells to the motor", weight=60)


def principle_line(one):
    """Why readings of this kind tell anything; None where there is nothing to explain."""
    words = principle_words(one)
    return None if words is None else Line(f"how it tells: {words.split('.')[0]}", KNOWN, told_twice(words), shot="hands and meter, or a sketch",
                                           weight=58)


def limit_words(band):
    """A band as one spoken sentence."""
    edges = [edge for edge in (band.sound_up_to, band.bad_from) if _finite(edge)]
    size = shared_size(edges, band.unit)
    sound, bad = exact(band.sound_up_to, band.unit, size=size), exact(band.bad_from, band.unit, size=size) if _finite(band.bad_from) else ""
    if band.sound_down_to is not None:
        ends = [*([f"less than {exact(band.bad_down_from, band.unit)}"] if band.bad_down_from is not None else []), *([f"more than {bad}"] if bad else [])]
        worse = f", and {' or '.join(ends)} is bad" if ends else ""
        return f"Sound is from {exact(band.sound_down_to, band.unit)} to {sound}{worse}."
    if sound == bad:
        return f"Up to {sound} is sound, and more is over the limit."
    if band.bad_from < band.sound_up_to:
        return f"From {sound} up it is sound, and {bad} or less is bad."
    return f"Up to {sound} is sound, and {bad} or more is bad."


def sound_line(names):
    """What was found sound, each part or what was read of it as it is called."""
    words = f"Sound, by the readings: {listed(names)}."
    return Line("sound", KNOWN, told_twice(words), shot="each of them for a moment", weight=25)


def nothing_judged():
    """What is said where no reading suffices."""
    return Line("nothing judged", KNOWN, told_twice("The readings so far do not suffice to judge any part."), weight=90)


def done_lines(sheet, caution):
    """The actions, with what had to come off and how long it took; `caution` stands before each."""
    if not sheet.actions:
        yield Line("nothing done", DONE, told_twice("Nothing was done to it yet."), weight=70)
    for number, action in enumerate(sheet.actions):
        name = plain(action.name)
        words = f"{'Then' if number else 'First'}: {stopped(name)}"
        yield Line(f"done: {name}", DONE, told_twice(words, f"{words} Watch the hands."),
                   shot=f"hands at work: {name}", caution=caution, weight=70)
        if action.taken_off:
            back = f"All of it must go back{', but for what is replaced' if action.fitted else ''}."
            off = listed([called(thing) for thing in action.taken_off], most=4)
            yield Line(f"taken off: {name}", DONE, told_twice(f"For that, {off} had to come off.", f"For that, {off} had to come off. {back}"),
                       shot="the parts in the order they came off", weight=45)
        if action.took is not None:
            times = [time_words(time) for time in (action.took, action.planned) if time is not None]
            words = f"That took {times[0]}.{f' The plan was {times[1]}.' if times[1:] else ''}"
            yield Line(f"time: {name}", DONE, told_twice(words), tuple(Claim(time, "", "time", name, "") for time in times), weight=28)


def setting_lines(sheet):
    """Where each trimmer or control first was seen to stand, and where it was left."""
    for first, *later in sheet.stood:
        part, what = first.part, plain(first.what)
        words = (f"The {what} of {called(part)} was found like this: “{plain(first.place)}”." if first.stage == AS_FOUND else
                 f"After “{plain(first.stage)}”, the {what} of {called(part)} stood like this: “{plain(first.place)}”.")
        left = f" It was left like this: “{plain(later[-1].place)}”." if later else ""
        photo = f", or the photograph {plain(first.photo)}" if first.photo else ""
        yield Line(f"setting: {part}, {what}", DONE, told_twice(f"{words}{left}"), shot=f"close-up of the {what}{photo}", weight=32)


def changed_line(change, *, now, heavy, latest):
    """One change that is real: before, after, and what the part counts as."""
    key = f"{change.part}, {change.quantity}, {change.before_stage}, {change.after_stage}, {change.condition}"
    size = shared_size((change.after.value, change.before.value), change.after.unit)
    after, before = figure(change.after, size=size), figure(change.before, size=size)
    claims = [claim_of(change, after, stage=change.after_stage), claim_of(change, before, stage=change.before_stage)]
    was = upper(f"{moment_words(change, change.before_stage)}{quantity_words(change)} was {before}.")
    camera = room = f"{was} After “{plain(change.after_stage)}”, it was {after}."
    if now is not None:
        mine, ours, sure = verdict_words(now)
        camera, room = f"{camera} {mine}", f"{camera} {ours}"
        claims += [claim_of(now, sure)] if sure else []
    if change.after_stage == latest:
        room = f"{room} You can read it here yourselves."
    return Line(f"changed: {key}", CHANGED, told_twice(camera, room), tuple(claims),
                shot=f"the reading before and after, side by side: {called(change.part)}", weight=85 if heavy else 50)


def cure_line(part, between, *, fitted, heavy):
    """Which action changed a part: the one that put in another, or one of all that lie between its two readings."""
    names = [f"“{plain(name)}”" for name in between]
    if fitted:
        words = f"Between these readings, another {plain(part)} was fitted: “{plain(fitted)}”."
    elif len(names) == 1:
        words = f"Between these readings of {called(part)}, one thing was done: {names[0]}."
    else:
        together = "both" if len(names) == 2 else "several together"
        words = (f"Between these readings of {called(part)}, {number_word(len(names))} things were done: {listed(names, most=len(names))}. "
                 f"One of these {number_word(len(names))}, or {together}, changed it: the readings cannot say which.")
    return Line(f"which action: {part}, {', '.join(between)}", CHANGED, told_twice(words), shot="the list of what was done",
                weight=80 if heavy else 45)


def unsure_lines(*, symptoms, left, untold, findings, unjudged):
    """What is still wrong, what the readings leave open, and what nobody read."""
    for one in left:
        words = f"By its latest readings, {called(one.part)} is {SPOKEN_VERDICTS[one.verdict.word]}."
        yield Line(f"left: {one.part}, {one.stage}", UNSURE, told_twice(words), weight=80 if one.verdict.word == BAD else 60)
    for one in findings:
        words = first_sentence(one.reason)
        yield Line(f"finding: {one.part}, {one.quantity}, {one.stage}, {one.condition}", UNSURE, told_twice(words),
                   (claim_of(one, words),), weight=85)
    for number, one in enumerate(untold):
        words = f"Not settled yet: {quantity_words(one)}."
        then = first_sentence(one.next)
        claims = ()
        if then and len(then.split()) <= _LONGEST_NEXT:
            words, claims = f"{words} Next: {then[:1].lower()}{then[1:]}", (claim_of(one, then),)
        yield Line(f"untold: {one.part}, {one.quantity}, {one.stage}, {one.condition}", UNSURE, told_twice(words), claims,
                   weight=30 if number else 65)
    if unjudged:
        yield Line("unjudged", UNSURE, told_twice(f"Not judged at all: {listed([called(part) for part in unjudged])}."), weight=35)
    for symptom in symptoms:
        words = f"“{upper(plain(symptom.what))}” was not noted again afterwards. That alone does not prove it gone."
        yield Line(f"not seen again: {plain(symptom.what)}", UNSURE, told_twice(words), weight=40)
    # Less than a first thing left open: it stands in the description as well.
    yield Line("corrections", UNSURE, told_twice("If you find a mistake, tell me. What is put right stands below, with its date.",
                                                 "If you find a mistake, tell me now or later."), weight=60)


def tried_lines(sheet):
    """Each fault that was looked for again and again, with what the tries prove."""
    for tally in tallies(sheet):
        when = AS_FOUND if tally.stage == AS_FOUND else f"after “{plain(tally.stage)}”"
        words = [f"{upper(called(tally.part))}, tried {plain(tally.condition_tried)}, {when}: {counted(tally)}.",
                 upper(f"{decision_words(tally, PLAN)}."),
                 upper(f"{still_possible(tally)}.").replace(" %", " per cent").replace(" (95 per cent limit)", "")]
        claim = Claim(" ".join(words), tally.part, "tries", tally.stage, tally.condition_tried)
        yield Line(f"tried: {tally.part}, {tally.condition_tried}, {tally.stage}", CHANGED, told_twice(claim.text), (claim,),
                   shot="the tally on paper", weight=65)


def first_sentence(text):
    """The first sentence of a reason, up to its colon where it is long."""
    start = text.split(". ")[0]
    start = start.split(": ")[0] if len(start.split()) > _LONGEST_NEXT else start
    return upper(f"{aloud(plain(start)).rstrip('.')}.") if start else ""


def open_verdict(one):
    """Whether a judgement tells nothing yet, though there is a limit for it."""
    return one.verdict.word == UNTOLD and not one.no_band


def _finite(quantity):
    return abs(quantity.magnitude) != float("inf")


def _shot(one):
    how = next((words for start, words in _HOW.items() if one.condition.startswith(start)), plain(one.condition))
    # Only volts and the like are read with probes: nobody is told to hold one to a running wheel.
    seen = "the probes at" if one.known is not None and one.known.unit in _PROBED else "close-up of"
    return f"{seen} {called(one.part)}, {how}"
