"""Judgements of the belt in the machine, before and after: path, stretch, pull at the shaft, what it takes, what speed is lost."""

import tomllib
from dataclasses import replace
from importlib import resources

import numpy as np
import uncertainties

from benchreckoner.bench.belt_bag import left_out
from benchreckoner.bench.belt_draws import draws_of
from benchreckoner.bench.belt_learn import FEW, learn
from benchreckoner.bench.belt_path_sheet import belt_in_machine, path_of
from benchreckoner.bench.belt_reckon import reckon
from benchreckoner.bench.belt_sheet import OFF, bag_of, belt_of, drive_of, inertia_of, pulleys_of, seats_path, seen_of, string_path
from benchreckoner.bench.judge import CONTRADICTION, WORST_FIRST, Judgement, PartsReport
from benchreckoner.bench.limits import Band
from benchreckoner.bench.motor_limits import judge_within
from benchreckoner.bench.motor_sheet import PLAYING, motor_sheet
from benchreckoner.bench.reasons import sentence, told, verdict_words
from benchreckoner.bench.uncertain import Known, propagate, within
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD, Verdict
from benchreckoner.physics.belt_creep import driven_speed
from benchreckoner.physics.belt_sizes import free_length, inside_circumference
from benchreckoner.units import Q

ROOM = "belts"
PATH, STRETCH, HUB, TAKEN, LOST, MISSING = ("path along the seats", "stretch", "pull at the shaft", "current taken by the belt",
                                            "speed lost by the belt", "what a belt must fit")
_ROWS = tomllib.loads(resources.files(__package__).joinpath("belt_limits.toml").read_text(encoding="utf-8"))
_SEAT = Q(0.05, "mm")  # each seat by calliper: common practice, no source
_GROWN = -20.0  # percent: no set and no age makes a belt that much longer than its path; our own choice
_COUNT = 1000
_CLEAN = "Wipe belt and seats with a little alcohol, power off, let it dry, and take the speed again before you buy."


def judge_belts(sheet):
    """Judge the belt that runs at every stage.

    Parameters
    ----------
    sheet : Sheet
        A belt without a `thickness` says nothing here.

    Returns
    -------
    tuple of PartsReport
        The latest stage first.
    """
    if not any(part.kind == "belt" and "thickness" in part.details for part in sheet.parts.values()):
        return ()
    about = motor_sheet(sheet)
    try:
        drive, _ = drive_of(sheet, about), bag_of(sheet)
    except ValueError as fault:
        part = belt_in_machine(sheet) or next(part for part in sheet.parts.values() if part.kind == "belt")
        return (PartsReport(ROOM, sheet.stages[-1], (_blank(part, MISSING, sheet.stages[-1], OFF, reason="It cannot be reckoned yet.",
                                                            next=sentence(str(fault))),), ()),)
    reports, as_found = [], belt_in_machine(sheet, sheet.stages[0])
    seen = _fitted_and_read(sheet)
    for stage in reversed(sheet.stages):
        clash = _clashing_paths(sheet, about.readings) if stage == sheet.stages[0] else ()
        judged = sorted(_judge_stage(sheet, about, drive, as_found, seen, stage), key=lambda one: WORST_FIRST.index(one.verdict.word))
        if judged or clash:
            reports.append(PartsReport(ROOM, stage, tuple(judged), clash))
    return tuple(reports)


def taken_by_belt(drive, belt, current):
    """What a belt itself takes of the motor's current, beyond the motor's own and the wheel's load.

    Parameters
    ----------
    drive : Drive
    belt : Belt
    current : Known [A]
        Playing, with this belt.

    Returns
    -------
    taken, needed : Known [A]
        `needed` is what the motor would draw for its load with a belt that costs nothing.
    """
    motor, wheel = ((seat + belt.thickness) / 2 for seat in (drive.motor_seat, drive.wheel_seat))
    for_load = propagate(lambda load, constant: (load * (motor / wheel) / (constant * Q(1, "rad"))).to("A"), "A", load=drive.load,
                         constant=drive.motor_constant)
    needed = drive.no_load_current + for_load
    return current - needed, needed


def lost_speed(drive, belt, wheel_speed, motor_speed):
    """Share of the speed that the belt loses by creep and slip, in percent.

    Parameters
    ----------
    drive : Drive
    belt : Belt
    wheel_speed, motor_speed : Known [turn/min]

    Returns
    -------
    Known
    """
    def law(wheel, motor, first, second):
        gripped = driven_speed(speed=motor, driving_radius=(first + belt.thickness) / 2, driven_radius=(second + belt.thickness) / 2)
        return (100 * (1 - (wheel / gripped).m_as(""))) * Q(1, "percent")

    seats = {name: within(seat, (_SEAT / seat).m_as(""), "mm") for name, seat in (("first", drive.motor_seat), ("second", drive.wheel_seat))}
    return propagate(law, "percent", wheel=wheel_speed, motor=motor_speed, **seats)


def stretch_of(drive, belt):
    """How far a belt is stretched on its path, in percent, as its listed size says.

    Parameters
    ----------
    drive : Drive
    belt : Belt

    Returns
    -------
    Known
    """
    height = belt.thickness / 2

    def law(path, size):
        free = free_length(inside_circumference=inside_circumference(size=size, measure=belt.measure, neutral_height=height), neutral_height=height)
        return (100 * (((path + drive.total_wrap.m_as("rad") * height) / free).m_as("") - 1)) * Q(1, "percent")

    return propagate(law, "percent", path=drive.seat_path, size=within(belt.size, belt.limits["size"] / belt.size.m_as("m"), "mm"))


def _judge_stage(sheet, about, drive, as_found, seen, stage):
    if stage == sheet.stages[0]:
        yield from _path(sheet, about.readings)
    part, fresh = belt_in_machine(sheet, stage), stage == sheet.stages[0]
    if part is None or not {"section", "thickness", "length", "sold_as"} <= set(part.details):
        return
    opened = fresh or part.name in next(action.fitted for action in sheet.actions if action.name == stage)
    belt = belt_of(part)
    if opened:
        slip = left_out(drive, belt)
        yield _misfit(part, drive, belt, stage, slip) if slip else _stretch(part, drive, belt, stage)
        if part is not as_found and not slip:
            yield _hub(sheet, drive, belt, [one for one in seen if sheet.stages.index(one.stage) <= sheet.stages.index(stage)], stage)
    yield from _current(about, drive, belt, stage, opened and part is not as_found)
    yield from _speed(sheet, about, drive, belt, stage)


def _path(sheet, readings):
    known = string_path(sheet, readings)
    if known is not None:
        yield _blank(pulleys_of(sheet)[1], PATH, sheet.stages[0], OFF, known=known, no_band=True, verdict=Verdict(SOUND, 1.0),
                     reason=f"{told(known)} by string; seats and places give {told(seats_path(path_of(sheet)))}.")


def _clashing_paths(sheet, readings):
    """Two ways to the path that cannot both be right."""
    known, other = string_path(sheet, readings), seats_path(path_of(sheet))
    if known is None or not (known - other).differs():
        return ()
    return (_blank(pulleys_of(sheet)[1], CONTRADICTION, sheet.stages[0], OFF, known=known - other,
                   reason=f"The string gives {told(known)} along the seats, their sizes and places {told(other)}: both cannot be right.",
                   next="Lay the string again, in the seats and not on a flange, and measure from shaft to shaft again."),)


def _stretch(part, drive, belt, stage):
    return _against(_blank(part, STRETCH, stage, OFF, known=stretch_of(drive, belt)), _band("stretch", "percent"),
                    "Lay the string once more, and measure the belt free, on two thin pins: a millimetre in 230 is 0.4 %.")


def _misfit(part, drive, belt, stage, slip):
    """A belt that no path can have stretched so: bad where it has only grown longer than its path, else its size is in doubt."""
    judged = _stretch(part, drive, belt, stage)
    grown = _GROWN < judged.known.plain < 0
    return replace(judged, verdict=judged.verdict if grown else Verdict(UNTOLD, 1.0), band=judged.band if grown else None, no_band=not grown,
                   reason=f"{judged.reason if grown else told(judged.known) + '.'} {slip}",
                   next="Lay the belt round two thin pins and measure it; its thickness by calliper.")


def _fitted_and_read(sheet):
    """What fitted belts were read to do; nothing where one of their sizes cannot be right, which is told by itself."""
    try:
        return seen_of(sheet)
    except ValueError:
        return ()


def _hub(sheet, drive, belt, seen, stage):
    """As everything believed of the rubber allows and the readings so far have left of it, as a middle and a spread."""
    draws, taught = _draws(sheet, drive, belt, seen)
    hub = reckon(drive, draws, [belt]).hub[0]
    known = Known(uncertainties.ufloat(float(hub.mean()), float(hub.std())), "N")
    return _against(_blank(pulleys_of(sheet)[0], HUB, stage, PLAYING, known=known), _band("hub", "N"),
                    "Weigh the rubber: masses on the free belt, and the lengths they give.", f"reckoned for the fresh belt{taught}")


def _draws(sheet, drive, belt, seen):
    """The draws that the readings leave, as many of the first readings as leave enough of them, and those belts in words."""
    for many in range(len(seen), 0, -1):
        learned = learn(drive=drive, belts=[belt], seen=seen[:many], inertia=inertia_of(sheet))
        if learned.seen and learned.effective >= FEW:
            names = " and ".join(dict.fromkeys(one.belt.name for one in learned.seen))
            return learned.draws.with_belts([belt]), f", after what was read with {names}"
    return draws_of(drive, [belt], count=_COUNT), ""


def _current(about, drive, belt, stage, wanted):
    moment = about.first(stage, PLAYING)
    if moment is None:
        if wanted:
            yield _blank(about.motor, TAKEN, stage, PLAYING, reason=f"No current was read with {belt.name}.",
                         next="Read the motor's current while it plays, within ten minutes of fitting, on the meter that read it with the belt off.")
        return
    taken, needed = taken_by_belt(drive, belt, moment.current)
    if taken.plain < 0 and taken.differs():
        yield _blank(about.motor, TAKEN, stage, PLAYING, known=taken, no_band=True,
                     reason=f"{told(taken)}: motor and load need {told(needed)} by themselves, more than was read. No belt gives current back.",
                     next="Check the current with the belt off, the thread's force on the wheel, and whether milli was typed.")
        return
    row = _ROWS["taken"]
    band = Band(*(Q(row[edge] * needed.plain, "A") for edge in ("sound_up_to", "bad_from")), row["source"], row["mark"])
    share = 100 * taken.plain / needed.plain
    yield _against(_blank(about.motor, TAKEN, stage, PLAYING, known=taken), band, "Read the current, belt on and belt off, on a finer range.",
                   f"{share:.0f} % of the {told(needed)} that motor and load need by themselves")


def _speed(sheet, about, drive, belt, stage):
    wheel = pulleys_of(sheet)[1]
    speed = about.readings.find(wheel.name, "speed", stage, PLAYING)
    if speed is None or not Q(1, speed.unit).is_compatible_with("turn/min"):
        return
    motor = next((one.speed for one in about.at(stage, PLAYING) if one.speed is not None), None)
    taken_as = "" if motor is not None else ", the motor's speed taken as its rated one"
    motor = within(drive.motor_speed, 0.005, "turn/min") if motor is None else motor
    lost = lost_speed(drive, belt, speed, motor)
    if lost.plain < -_ROWS["lost"]["sound_up_to"] and lost.differs():
        yield _blank(wheel, LOST, stage, PLAYING, known=lost, no_band=True,
                     reason=f"{told(lost)}: the wheel turns faster than the belt can drive it{taken_as}.",
                     next="Check both speeds, the motor pulley's seat, and the thickness of the belt: one of them holds a slip.")
        return
    creeps = 100 * float(np.median(reckon(drive, draws_of(drive, [belt], count=_COUNT), [belt]).creep[0]))
    judged = _against(_blank(wheel, LOST, stage, PLAYING, known=lost), _band("lost", "percent"),
                      "Measure the motor pulley's seat again: 0.05 mm of it count for 0.8 % here.", f"creep alone is about {creeps:.1f} %{taken_as}")
    slips = judged.verdict.word in (BAD, DOUBTFUL)
    yield _blank(wheel, LOST, stage, PLAYING, known=lost, band=judged.band, verdict=judged.verdict,
                 reason=f"{judged.reason}{' What is beyond it is slip, or a pulley or belt of another size.' if slips else ''}",
                 next=_CLEAN if slips else judged.next)


def _against(blank, band, then, beside=""):
    verdict = judge_within(blank.known, band)
    reason = f"{told(blank.known)}: {verdict_words(band, verdict)}." + (f" {sentence(beside)}" if beside else "")
    return Judgement(blank.part, blank.kind, blank.quantity, blank.stage, blank.condition, blank.known, band, verdict, reason,
                     then if verdict.word == UNTOLD else "")


def _band(name, unit):
    row = _ROWS[name]
    ends = [Q(row[edge], unit) if edge in row else None for edge in ("sound_down_to", "bad_down_from")]
    return Band(Q(row["sound_up_to"], unit), Q(row["bad_from"], unit), row["source"], row["mark"], *ends)


def _blank(part, quantity, stage, condition, *, known=None, band=None, verdict=Verdict(UNTOLD, 1.0), reason="", next="", no_band=False):
    return Judgement(part.name, part.kind, quantity, stage, condition, known, band, verdict, reason, next, no_band=no_band)
