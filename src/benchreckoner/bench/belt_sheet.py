"""Belts on a sheet: the bag, the drive they shall fit, and what each fitted belt was read to do."""

from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.belt_bag import left_out
from benchreckoner.bench.belt_drive import Belt, Drive
from benchreckoner.bench.belt_path_sheet import belt_in_machine, path_of
from benchreckoner.bench.motor_sheet import BELT_OFF, PLAYING, motor_sheet
from benchreckoner.bench.reasons import told
from benchreckoner.bench.uncertain import Known, Readings, propagate, within
from benchreckoner.units import Q

CALLIPER = Q(0.03, "mm")  # of a thickness on the sheet, at three places: common practice, no source
THREAD = Q(0.3, "mm")  # thick, of a string laid in the seats, unless its pulley says otherwise
OFF, STARTING = "off", "starting"
_PATH_LIMIT = Q(1.5, "mm")  # of a path from seats and places, at worst: common practice
_TRIM, _SHAFT = 0.03, Q(2, "mm")  # what a trimmer takes either way, and a small motor's shaft: common practice
APART = 0.05  # share by which a string and the pulleys may differ before one of them is surely a slip: our own choice
_DISC_LIMIT = 0.10  # a flywheel taken for an even disc: our own choice


@dataclass(frozen=True)
class Seen:
    """What one belt was read to do at one stage; what was not read is None.

    ``current`` the motor's [A], ``speed`` the wheel's [turn/min], both playing; ``start`` from standstill to speed [s].
    """

    belt: Belt
    stage: str
    current: Known
    speed: Known | None = None
    start: Known | None = None


def bag_of(sheet):
    """Every belt of the sheet that was not in the machine as found.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of Belt

    Raises
    ------
    ValueError
        Names the belt that says too little of itself, and what to write.
    """
    found = belt_in_machine(sheet, sheet.stages[0])
    return tuple(belt_of(part) for part in sheet.parts.values() if part.kind == "belt" and part is not found)


def belt_of(part):
    """One belt as the reckoning takes it.

    Parameters
    ----------
    part : Part

    Returns
    -------
    Belt

    Raises
    ------
    ValueError
    """
    said = part.details
    for key, example in (("section", "square"), ("thickness", "1.2 mm"), ("length", "69 mm"), ("sold_as", "inside diameter")):
        if key not in said:
            raise ValueError(f'{part.name}: has no {key}, write for example {key} = "{example}"')
    if said["section"] == "flat" and "width" not in said:
        raise ValueError(f'{part.name}: a flat belt needs a width, write for example width = "4 mm"')
    if said["section"] != "flat" and "width" in said:
        raise ValueError(f'{part.name}: only a flat belt has a width; write section = "flat", or leave the width out')
    return Belt(part.name, said["section"], said["thickness"], said["length"], said["sold_as"], said.get("width"), said.get("hardness"),
                thickness_limit=CALLIPER)


def pulleys_of(sheet):
    """The pulley on the motor's shaft, and the wheel whose speed counts.

    Parameters
    ----------
    sheet : Sheet
        The motor's pulley says ``drives = true``, the wheel has its `rated_speed`.

    Returns
    -------
    motor_pulley, wheel : Part

    Raises
    ------
    ValueError
    """
    pulleys = [part for part in sheet.parts.values() if part.kind == "pulley" and "at" in part.details]
    driving = [part for part in pulleys if part.details.get("drives")]
    if len(driving) != 1:
        raise ValueError("write drives = true with one pulley, the one on the motor's shaft")
    wheels = [part for part in pulleys if part is not driving[0] and "rated_speed" in part.details]
    if len(wheels) != 1:
        raise ValueError('write with the one wheel whose speed counts how fast it should turn, rated_speed = "280 turn/min"')
    return driving[0], wheels[0]


def drive_of(sheet, about=None):
    """The drive that the sheet describes, with what was read of it.

    Parameters
    ----------
    sheet : Sheet
    about : MotorSheet, optional
        What it says of its motor, if that was gathered already: readings then share what one meter shares.

    Returns
    -------
    Drive

    Raises
    ------
    ValueError
        Says what is missing and what to write.
    """
    found, about = path_of(sheet), motor_sheet(sheet) if about is None else about
    readings = Readings(sheet) if about is None else about.readings
    motor_pulley, wheel = pulleys_of(sheet)
    if found.misfit:
        raise ValueError(found.misfit)
    if about is None or "rated_speed" not in about.motor.details:
        raise ValueError('write the motor with the speed that its set needs, rated_speed = "2400 turn/min"')
    total = found.path.wraps.sum()
    wrap = found.path.wraps[[part.name for part in found.pulleys].index(motor_pulley.name)]
    shaft = about.motor.details.get("shaft_diameter", _SHAFT)
    return Drive(
        seat_path=_seat_path(sheet, readings, found), motor_seat=motor_pulley.details["diameter"], wheel_seat=wheel.details["diameter"],
        motor_wrap=wrap, load=_load(sheet, readings, wheel), motor_constant=_constant(about, sheet), no_load_current=_belt_off(about),
        motor_speed=about.motor.details["rated_speed"], wheel_speed=wheel.details["rated_speed"],
        trimmer=wheel.details.get("trim", _TRIM), shaft_radius=shaft / 2, bearing=about.motor.details.get("bearing", "unknown"), total_wrap=total)


def inertia_of(sheet):
    """How hard the wheel is to start, from its mass and its rim, as an even disc.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    Known or None
        In kg*m**2; None where mass or rim is not on the sheet.
    """
    wheel, readings = pulleys_of(sheet)[1], Readings(sheet)
    mass = _at_any_stage(sheet, lambda stage: readings.find(wheel.name, "mass", stage, OFF))
    if mass is None or "rim_diameter" not in wheel.details:
        return None
    radius = wheel.details["rim_diameter"] / 2
    return propagate(lambda mass, disc: (mass * disc * radius**2 / 2).to("kg*m**2"), "kg*m**2", mass=mass,
                     disc=within(Q(1, ""), _DISC_LIMIT, ""))


def seen_of(sheet):
    """What every belt of the bag was read to do, in the order in which they were fitted.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of Seen
        One a stage that opened with a belt fitted and has the motor's current.

    Raises
    ------
    ValueError
        As `drive_of` does, and for a fitted belt whose size cannot be right.
    """
    about = motor_sheet(sheet)
    readings = about.readings
    wheel = pulleys_of(sheet)[1].name
    drive, found = drive_of(sheet, about), []
    for action in sheet.actions:
        belt = belt_in_machine(sheet, action.name)
        moment = about.first(action.name, PLAYING) if belt is not None and belt.name in action.fitted else None
        if moment is not None:
            slip = left_out(drive, belt_of(belt))
            if slip:
                raise ValueError(f"{belt.name}: was fitted, but its size cannot be right. {slip}")
            found.append(Seen(belt_of(belt), action.name, moment.current, _turns(readings.find(wheel, "speed", action.name, PLAYING)),
                              readings.find(wheel, "time", action.name, STARTING)))
    return tuple(found)


def string_path(sheet, readings=None):
    """Length along the seats as a string laid in them gave it.

    Parameters
    ----------
    sheet : Sheet
        Lengths of a pulley, switched off, are those of the string, once round all of them.
    readings : Readings, optional

    Returns
    -------
    Known or None
        In mm.
    """
    readings = Readings(sheet) if readings is None else readings
    for part in (part for part in sheet.parts.values() if part.kind == "pulley"):
        found = _at_any_stage(sheet, lambda stage: readings.find(part.name, "length", stage, OFF))
        if found is not None:
            thick = part.details.get("thickness", THREAD)
            return Known(found.number - np.pi * thick.m_as("mm"), "mm")
    return None


def seats_path(found):
    """Length along the seats as their sizes and places give it.

    Parameters
    ----------
    found : SheetPath

    Returns
    -------
    Known
        In mm.
    """
    seats = (found.path.length - found.place["neutral_height"] * found.path.wraps.sum().m_as("rad")).to("mm")
    return within(seats, (_PATH_LIMIT / seats).m_as(""), "mm")


def _seat_path(sheet, readings, found):
    """By string where one was laid, else from seats and places."""
    by_string, by_seats = string_path(sheet, readings), seats_path(found)
    if by_string is None:
        return by_seats
    if not abs(by_string.plain / by_seats.plain - 1) < APART:
        raise ValueError(f"the string gives {told(by_string)} along the seats, their sizes and places give {told(by_seats)}: one of them holds "
                         "a slip; lay the string once round in the seats, and measure both seats and from shaft to shaft")
    return by_string


def _load(sheet, readings, wheel):
    force = _at_any_stage(sheet, lambda stage: readings.find(wheel.name, "force", stage, OFF))
    if force is None:
        raise ValueError(f"how hard {wheel.name} is to turn is not known; wind a thread on its seat, pull so that it just turns with the "
                         'play key down, and enter that force, for example "33 mN", under the condition "off"')
    radius = wheel.details["diameter"].m_as("m") / 2
    return Known(force.number * radius, "N*m")


def _constant(about, sheet):
    fit = about.fit(sheet.stages[0])
    if fit is None or fit.motor_constant is None:
        raise ValueError('the motor\'s constant is not known; enter volts, current and speed of the bare motor under the condition '
                         '"bench supply, no load", and once more loaded')
    return fit.motor_constant


def _belt_off(about):
    found = next((moment for stage in about.stages if (moment := about.first(stage, BELT_OFF)) is not None), None)
    if found is None:
        raise ValueError('what the motor draws with its belt off is not known; enter its current under the condition "no load"')
    return found.current


def _turns(speed):
    """A wheel's speed in turns a minute; one along its rim tells nothing here."""
    if speed is None or not Q(1, speed.unit).is_compatible_with("turn/min"):
        return None
    return Known(speed.number * Q(1, speed.unit).m_as("turn/min"), "turn/min")


def _at_any_stage(sheet, find):
    """The latest stage's, for what does not change with a belt."""
    return next((found for stage in reversed(sheet.stages) if (found := find(stage)) is not None), None)

