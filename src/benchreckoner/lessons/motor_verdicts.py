"""Book 05, the reader's own motor: the forms, the judgement with its reasons, the suspects in order, and saying it."""

from dataclasses import dataclass
from functools import cached_property
from html import escape

from IPython.display import HTML

from benchreckoner import project
from benchreckoner.bench.governor_judge import governor_line
from benchreckoner.bench.motor_judge import CURRENT, PATTERN, TORQUE, judge_motors
from benchreckoner.bench.motor_sheet import PLAYING, MotorSheet, motor_sheet
from benchreckoner.bench.motor_pattern import Pattern
from benchreckoner.bench.motor_signs import next_in_words, stage_pattern
from benchreckoner.bench.reasons import sentence, told
from benchreckoner.bench.report import part_name
from benchreckoner.bench.repair import Sheet
from benchreckoner.bench.verdict import SOUND
from benchreckoner.lessons.governor import supply_picture
from benchreckoner.lessons.motor_example import DROP
from benchreckoner.lessons.your_bench import SIGNS, actions_form, my_guesses, own_live, own_or_demo, readings_form
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.form import Field
from benchreckoner.show.picture import Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show_exact

EXAMPLE = project.CASES / "record_player.toml"
_KINDS = ("motor", "governor", "pulley", "cells", "adapter")
_RUN = Field("run", "Run: one name for readings taken together", placeholder="such as held 1")
_SUSPECTS = 3
_SUPPLY, _AMPS = ladder(2, 15, 53), ladder(0.02, 0.4, 77)  # as in the lesson's own picture


@dataclass(frozen=True)
class FirstRead:
    """A sheet's motor at the first stage that it was read at work."""

    sheet: Sheet
    about: MotorSheet
    stage: str
    pattern: Pattern

    @cached_property
    def playing(self):
        """Judgements of that stage, playing."""
        return tuple(one for report in judge_motors(self.sheet, self.about) if report.stage == self.stage
                     for one in report.judgements if one.condition == PLAYING)


def first_read(sheet):
    """What a sheet says of its motor at the first stage that it was read at work.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    FirstRead or None
    """
    about = motor_sheet(sheet)
    if about is None or not about.tells_of_motor:
        return None
    patterns = ((stage, stage_pattern(sheet, stage, about)) for stage in sheet.stages)
    return next((FirstRead(sheet, about, stage, pattern) for stage, pattern in patterns if pattern is not None), None)


def motor_form():
    """A form for current, volts and speed of motor, governor and platter; it answers with the judgement and the suspects."""
    return readings_form(quantities=("current", "voltage", "speed"), kinds=_KINDS, further=(_RUN,), judged=motor_html)


def done_form():
    """A form for what was done; each action opens a stage, so that before and after can be told apart."""
    return actions_form()


def verdicts():
    """What the reader's sheet says of the motor; the invented record player's, where it says nothing."""
    read, words = _read()
    return HTML(words + "".join(_stage_html(report) for report in judge_motors(read.sheet, read.about)))


def motor_html(sheet):
    """The motor's judgements at every stage, the latest first, each stage with its suspects and the next test.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
        HTML made from escaped parts.
    """
    about = motor_sheet(sheet)
    reports = judge_motors(sheet, about)
    if not reports:
        return ("<p>The sheet says too little of its motor yet. Write rated_current and rated_speed with the motor, a governor with its "
                "style, a pulley with its ratio, and enter the current playing and with the belt off.</p>")
    return "".join(_stage_html(report) + _suspects_html(report.stage, stage_pattern(sheet, report.stage, about)) for report in reports)


def suspects():
    """The suspects in order with their reasons, and the next test worth taking, at the first stage that was read."""
    read, words = _read()
    return HTML(words + _suspects_html(read.stage, read.pattern))


def _suspects_html(stage, pattern):
    """Suspects of one stage, as HTML made from escaped parts; empty where nothing was read of the motor at work."""
    if pattern is None:
        return ""
    head = (f"The readings fit <strong>{escape(pattern.word)}</strong>: {escape(pattern.named.means)}." if pattern.named else
            "<strong>Can't tell yet:</strong> no suspect reaches 80 %.")
    rows = "".join(_suspect_html(one) for one in pattern.suspects[:_SUSPECTS])
    first, *more = next_in_words(pattern)
    tests = f"<li><strong>Next test worth its minutes:</strong> {escape(first)}</li>" + "".join(f"<li>{escape(line)}</li>" for line in more)
    return (f"<p>Suspects, {escape(stage)}. {head}</p><ol>{rows}</ol><ul>{tests}</ul>"
            "<p><small>Odds from common practice, one fault at a time; two together look like neither.</small></p>")


def my_governor():
    """The lesson's picture of supply and load, for the motor and governor of the sheet, with the reader's own point in it."""
    read, _ = _read()
    declared = _governor_picture(read)
    return own_live(None if declared is None else (declared, None), needs="For your own picture the sheet needs an electronic governor with its "
                    "volts at two currents, the supply off load, and the bare motor's runs on a bench supply.")


def own_governor(sheet):
    """The live picture of a sheet's own governor, or None where too little is known.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    LivePicture or None
    """
    read = first_read(sheet)
    return None if read is None else _governor_picture(read)


def _governor_picture(read):
    about, stage = read.about, read.stage
    line, fit = governor_line(about, stage), about.fit(stage)
    if None in (line, fit) or None in (fit.winding_resistance, fit.motor_constant) or not line.compensation.plain >= 0:
        return None
    source = next((part for part in read.sheet.parts.values() if part.kind in ("cells", "adapter")), None)
    off = source and about.readings.find(source.name, "voltage", stage, "off")
    moment = about.first(stage, PLAYING)
    if off is None or None in (moment, moment and moment.inlet) or not _SUPPLY[0] <= off.plain <= _SUPPLY[-1]:
        return None
    sense = about.governor.details.get("sense_resistor", Q(0, "ohm"))
    before = Q(max((off.plain - moment.inlet.plain) / moment.current.plain, 0.01), "ohm") + sense
    speed = None if moment.speed is None else moment.speed.plain
    own = Point("your reading", off.plain, float("nan") if speed is None else speed, "own")
    return LivePicture(
        key="my-governor", picture=supply_picture,
        sliders=(Slider("supply", "supply, off load", "V", _SUPPLY, start=off.plain),
                 Slider("current", "current drawn by the motor", "A", _AMPS, start=min(max(moment.current.plain, _AMPS[0]), _AMPS[-1]))),
        goal="Find the supply at which your governor lets go at the current you read. How far are your cells from it?",
        fixed=dict(compensation=line.compensation.value, source=before, set_voltage=line.set_voltage.value,
                   winding=fit.winding_resistance.value, constant=fit.motor_constant.value, drop=DROP, own=own),
        phone_sliders=("supply", "current"))


def say_why_slow():
    """Say it: two sentences on why the machine drags, then ours, from the same judgements."""
    read, _ = _read()
    return say_it("motor-slow", "Tell the owner in two sentences why it drags and what you do next. Say what it is, how you know, how sure you "
                  "are, and what you do not know.", ours=say_ours(read), checks=say_checks(read), store=my_guesses())


def say_ours(read):
    """Our sentences, from the first stage that was read."""
    pattern, found = read.pattern, {one.quantity: one for one in read.playing}
    current = found.get(CURRENT)
    usual = read.about.motor.details.get("rated_current")
    begin = "" if current is None else (f"Playing, I read {told(current.known)}" + (f" where {show_exact(usual, 'A')} is usual" if usual else "")
                                       + (f"; with the belt off, most of that is gone, so belt and bearings take {told(found[TORQUE].known)}"
                                          if TORQUE in found and found[TORQUE].verdict.word != SOUND else "") + ".")
    name = (f"That fits {pattern.word}, {pattern.named.shown} by common practice" if pattern.named else
            f"No cause reaches 80 % yet; {pattern.suspects[0].name} leads")
    then = pattern.then or (pattern.parting.how if pattern.parting else "")
    then = f" {sentence('next: ' + then[:1].lower() + then[1:])}" if then else ""
    return f"{begin} {name}. I do not know yet which part it is.{then}".strip()


def say_checks(read):
    """What the reader's sentences are looked through for."""
    found = [one for one in read.playing if one.known is not None]
    return SayChecks(what=("bearing", "belt", "load", "friction", "motor", "governor", "cells"),
                     quantities=tuple((one.known.value, one.known.unit) for one in found))


def _stage_html(report):
    rows = [one for one in report.judgements if one.quantity != PATTERN]
    lines = "".join(f"<li><strong>{SIGNS[one.verdict.word]} {escape(part_name(one))} ({escape(one.condition)}): {escape(one.verdict.word)}."
                    f"</strong> {escape(f'{one.reason} {one.next}'.strip())}</li>" for one in rows if one.verdict.word != SOUND)
    lines += "".join(f"<li><strong>{escape(one.quantity)}:</strong> {escape(f'{one.reason} {one.next}'.strip())}</li>" for one in report.findings)
    sound = "".join(f"<li>{escape(part_name(one))} ({escape(one.condition)}): {escape(one.reason)}</li>" for one in rows
                    if one.verdict.word == SOUND)
    fold = f"<details><summary>Sound by these readings</summary><ul>{sound}</ul></details>" if sound else ""
    return (f"<p><strong>{escape(report.stage)}</strong> (± holds about 95 %, k = 2)</p>" + (f"<ul>{lines}</ul>" if lines else "") + fold)


def _suspect_html(one):
    why = "".join(f" {side} it: {escape('; '.join(said))}." for side, said in (("For", one.fits), ("Against", one.against)) if said)
    return f"<li>{escape(one.name)}, {one.shown}.{why}</li>"


def _read():
    return own_or_demo(first_read, demo=EXAMPLE, lacks="says too little of its motor yet")
