"""Judgements of a motor's governor: its set voltage, its compensation against the winding, and the volts it has in hand."""

from dataclasses import dataclass, replace

from benchreckoner.bench.judge import unjudged
from benchreckoner.bench.motor_limits import judge_within, motor_band
from benchreckoner.bench.motor_sheet import BELT_OFF, PLAYING
from benchreckoner.bench.reasons import mark_words, sureness, told, verdict_words
from benchreckoner.bench.uncertain import Known, propagate, within
from benchreckoner.bench.verdict import BAD, SOUND, UNTOLD
from benchreckoner.physics.motors import terminal_voltage
from benchreckoner.units import Q, show, show_exact

SET, COMPENSATION, HEADROOM = "set voltage", "compensation", "headroom"
_APART = 1.5  # one current so many times the other, or the slope between them is a guess
_STATED = 0.1  # by which a compensation from the circuit's resistors may be off: two resistors of 5 %
_COLD_SHARE = 0.92  # copper at 0 degC against 20 degC: (234.5 + 0) / (234.5 + 20)


@dataclass(frozen=True)
class GovernorLine:
    """The volts that a governor gives: so many at no current, and so many ohms times the current more.

    `low` and `high` are the two moments it was drawn through; `low` is None where the ohms come from the circuit.
    """

    set_voltage: Known
    compensation: Known
    low: object
    high: object


def governor_line(about, stage):
    """The governor's line at one stage, by its volts at two currents, else by the circuit's own compensation.

    Parameters
    ----------
    about : MotorSheet
    stage : str

    Returns
    -------
    GovernorLine or None
        None too where it no longer holds: the volts are the supply's then.
    """
    if about.governor is None or about.governor.details["style"] != "electronic":
        return None
    read = [one for one in (*about.at(stage, PLAYING), *about.at(stage, BELT_OFF))
            if one.terminal is not None and one.current is not None and one.current.plain > 0 and not _let_go(about, one)]
    if not read:
        return None
    low, high = min(read, key=lambda one: one.current.plain), max(read, key=lambda one: one.current.plain)
    if high.current.plain > _APART * low.current.plain and high.current.lies_above(low.current):
        ohms = Known((high.terminal.number - low.terminal.number) / (high.current.number - low.current.number), "ohm")
    elif "compensation" in about.governor.details:
        low, ohms = None, within(about.governor.details["compensation"], _STATED, "ohm")
    else:
        return None
    return GovernorLine(Known(high.terminal.number - ohms.number * high.current.number, "V"), ohms, low, high)


def judge_governor(about, stage):
    """Judge the governor at one stage.

    Parameters
    ----------
    about : MotorSheet
    stage : str

    Yields
    ------
    Judgement
    """
    if about.governor is None:
        return
    yield from _headroom(about, stage)
    line, fit = governor_line(about, stage), about.fit(stage)
    if line is None:
        return
    known = fit is not None and fit.winding_resistance is not None and fit.motor_constant is not None
    yield _compensation(about, stage, line, fit) if known else _without_motor(about, stage, COMPENSATION, line.compensation)
    yield _set_voltage(about, stage, line, fit) if known else _without_motor(about, stage, SET, line.set_voltage)


def speed_shift(about, line, fit):
    """By how much the speed changes from the lighter current of the line to the heavier one, as a percentage of the rated speed.

    Returns
    -------
    Known or None
        None where the line has one current only, or no rated speed is written.
    """
    rated = about.motor.details.get("rated_speed")
    if line.low is None or rated is None:
        return None
    lost = (fit.winding_resistance.number - line.compensation.number) * (line.high.current.number - line.low.current.number)
    return Known(-100 * lost / fit.motor_constant.number / rated.m_as("rad/s"), "percent")


def _compensation(about, stage, line, fit):
    ohms, winding = line.compensation, fit.winding_resistance
    blank = replace(unjudged(about.governor, COMPENSATION, stage, PLAYING), known=ohms)
    if ohms.differs() and ohms.plain < 0:
        return replace(blank, reason=f"{told(ohms)}: its volts fall as the current rises, which no compensation does.",
                       next="Read its volts and the current again, belt off and belt on, each pair in one go.")
    band = motor_band("compensation", winding.value)
    beside = Known(ohms.number * (winding.plain / winding.number), "ohm")  # what both are unsure of, on one side
    verdict = judge_within(beside, band)
    shift = speed_shift(about, line, fit)
    droop = "" if shift is None else (f" From {show(line.low.current.value, 'A')} to {show(line.high.current.value, 'A')} the speed "
                                      f"{'falls' if shift.plain < 0 else 'rises'} by {abs(shift.plain):.1f} ± "
                                      f"{2 * shift.number.std_dev:.1f} %.")
    how = " (by the circuit's resistors)" if line.low is None else ""
    cold = (f" At 0 °C the winding has 8 % less, {show(_COLD_SHARE * winding.value, 'ohm')}: there it may hunt."
            if verdict.word != BAD and ohms.plain > _COLD_SHARE * winding.plain else "")
    hunts = " From there on the speed swings by itself." if verdict.word == BAD else ""
    then = {UNTOLD: "Read its volts and the current again, belt off and belt on, on finer ranges.",
            BAD: "Mark the compensation's trimmer and turn it back until a heavier load slows the motor a little."}.get(verdict.word, "")
    return replace(blank, band=band, verdict=verdict, next=then,
                   reason=f"{told(ohms)}{how}, beside a winding of {told(winding)}: {verdict_words(band, verdict)}.{hunts}{droop}{cold}")


def _set_voltage(about, stage, line, fit):
    blank = replace(unjudged(about.governor, SET, stage, PLAYING), known=line.set_voltage)
    rated, usual = (about.motor.details.get(key) for key in ("rated_speed", "rated_current"))
    if rated is None or usual is None:
        return replace(blank, no_band=True, reason=f"{told(line.set_voltage)}: nothing to hold it against.",
                       next="Write rated_speed and rated_current with the motor: they tell what it should be.")
    needed = propagate(lambda resistance, constant: terminal_voltage(speed=rated, current=usual, winding_resistance=resistance,
                                                                     motor_constant=constant), "V",
                       resistance=fit.winding_resistance, constant=fit.motor_constant)
    needed = Known(needed.number - line.compensation.number * usual.m_as("A"), "V")
    band = motor_band("set_voltage", needed.value)
    verdict = judge_within(Known(line.set_voltage.number * (needed.plain / needed.number), "V"), band)
    then = "Read its volts again, on the range that the motor's own volts were read on." if verdict.word == UNTOLD else ""
    return replace(blank, band=band, verdict=verdict, next=then,
                   reason=f"{told(line.set_voltage)}, where {show_exact(rated, 'turn/min')} at {show_exact(usual, 'A')} ask for "
                   f"{told(needed)}: {verdict_words(band, verdict)}.")


def headroom_left(about, moment):
    """Volts between what comes in and what the motor gets, its sense resistor's share taken off; None if an end was not read."""
    if moment is None or moment.inlet is None or moment.terminal is None or moment.current is None:
        return None
    sense = about.governor.details.get("sense_resistor", Q(0, "ohm")).m_as("ohm")
    return Known(moment.inlet.number - moment.terminal.number - sense * moment.current.number, "V")


def _let_go(about, moment):
    left = headroom_left(about, moment)
    return left is not None and left.plain <= motor_band("headroom").bad_from.m_as("V")


def _headroom(about, stage):
    for moment in about.at(stage, PLAYING):
        left = headroom_left(about, moment)
        if left is None:
            continue
        blank = replace(unjudged(about.governor, HEADROOM, stage, moment.when), known=left)
        if left.differs() and left.plain < 0:
            yield replace(blank, reason=f"{told(left)}: the motor cannot get more volts than come in.",
                          next="Read the volts ahead of the governor and behind it again, in one go.")
            continue
        band = motor_band("headroom")
        verdict = judge_within(left, band)
        edges = f"sound from {show_exact(band.sound_up_to, 'V')}, bad up to {show_exact(band.bad_from, 'V')} ({mark_words(band.mark)})"
        spare = f" The supply may fall by {show(left.value - band.bad_from, 'V', digits=2)} before the governor lets go."
        sure = "" if verdict.word == UNTOLD or verdict.probability > 0.999 else f", {sureness(verdict.probability)}"
        yield replace(blank, band=band, verdict=verdict, reason=f"{told(left)} left for it: {edges}{sure}.{spare if verdict.word == SOUND else ''}",
                      next={SOUND: "", UNTOLD: "Read both volts again on a finer range."}.get(
                          verdict.word, "Look at cells, contacts and switch first: here it no longer holds the speed."))


def _without_motor(about, stage, quantity, known):
    return replace(unjudged(about.governor, quantity, stage, PLAYING), known=known, no_band=True,
                   reason=f"{told(known)}: nothing to hold it against, as the motor's own winding and constant are not known.",
                   next="Run the bare motor on a bench supply: held for 2 s at 1 to 2 V, free, and under a load.")
