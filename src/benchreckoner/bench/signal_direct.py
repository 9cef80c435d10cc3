"""Direct volts on a potentiometer: what they say, and when they must be read before a control is called dirty."""

import re

from benchreckoner.bench import signal_reasons as words
from benchreckoner.bench.judge import Judgement
from benchreckoner.bench.limits import band_for
from benchreckoner.bench.uncertain import Known
from benchreckoner.bench.verdict import BAD, DOUBTFUL, UNTOLD, Verdict, judge_value
from benchreckoner.bench.vocabulary import CONDITIONS

_SCRATCHES = re.compile(r"scratch|crackl|rustl|nois", re.IGNORECASE)
_ANY_CONTROL = re.compile(r"\b(control|knob|pot|potentiometer|fader|slider)s?\b")


def direct_voltage(sheet, readings, part, stage, judged):
    """Judge the direct volts on a control, or ask for them where it scratches or its wiper is poor.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings
    part : Part
        A potentiometer.
    stage : str
    judged : list of Judgement
        What is known of this part at this stage.

    Yields
    ------
    Judgement
    """
    read = [condition for condition in CONDITIONS if readings.find(part.name, "voltage", stage, condition) is not None]
    for condition in read:
        yield _judge(part, readings.find(part.name, "voltage", stage, condition), stage, condition)
    suspected = any(one.verdict.word in (BAD, DOUBTFUL) and one.quantity in ("wiper resistance", "movement") for one in judged)
    so_far = sheet.stages[:sheet.stages.index(stage) + 1]
    known = any(readings.find(part.name, "voltage", one, condition) is not None
                for one in so_far for condition in CONDITIONS if condition != "off")
    if (suspected or sheet.readings and _scratches(sheet, part, stage)) and not known:
        yield Judgement(part.name, part.kind, "voltage", stage, "playing", None, None, Verdict(UNTOLD, 1.0),
                        "Its direct volts were not read, and a leaky capacitor makes a control scratch just as dirt does.",
                        words.next_direct_volts(part))


def _judge(part, volts, stage, condition):
    size = Known(volts.number if volts.plain >= 0 else -volts.number, "V")  # either sign scratches
    if condition == "off":
        return Judgement(part.name, part.kind, "voltage", stage, condition, size, None, Verdict(UNTOLD, 1.0),
                         "Switched off, no capacitor leaks onto it.", words.next_direct_volts(part))
    band = band_for(part, quantity="voltage")
    verdict = judge_value(value=size.plain, uncertainty=size.number.std_dev,
                          sound_up_to=band.sound_up_to.m_as("V"), bad_from=band.bad_from.m_as("V"))
    then = ""
    if verdict.word == UNTOLD:
        then = words.next_finer(part, size, band)
    elif verdict.word in (BAD, DOUBTFUL):
        then = words.next_capacitor(part)
    return Judgement(part.name, part.kind, "voltage", stage, condition, size, band, verdict,
                     words.direct_volts(size, band, verdict), then, as_read=size)


def _scratches(sheet, part, stage):
    """Whether the sheet says at this stage that this control, or some control, scratches."""
    seen = any(one.part == part.name and one.stage == stage and _SCRATCHES.search(one.what) for one in sheet.observations)
    said = [f"{one.what} {one.note}".casefold() for one in sheet.symptoms if one.stage == stage]
    return seen or any(_SCRATCHES.search(words) and _speaks_of(sheet, part, words) for words in said)


def _speaks_of(sheet, part, words):
    """Whether a symptom means this control: it names it, or names a control and none in particular."""
    controls = [one for one in sheet.parts.values() if one.kind == "potentiometer"]
    named = [one.name for one in controls
             if any(word in words for word in one.name.casefold().split() if not _ANY_CONTROL.fullmatch(word))]
    return part.name in named if named else bool(_ANY_CONTROL.search(words))
