"""What a sheet says of its motor: moments of readings taken together, runs on a bench supply, the governor's volts."""

from dataclasses import dataclass
from functools import cached_property

from benchreckoner.bench.motor_fit import fit_motor
from benchreckoner.bench.motor_run import HELD, LOADED, NO_LOAD, Run
from benchreckoner.bench.repair import Part
from benchreckoner.bench.uncertain import Known, Readings
from benchreckoner.bench.vocabulary import ON_BENCH_SUPPLY
from benchreckoner.units import Q, show

PLAYING, BELT_OFF = "playing", "no load"
KINDS = dict(zip(ON_BENCH_SUPPLY, (HELD, NO_LOAD, LOADED), strict=True))


@dataclass(frozen=True)
class Moment:
    """Readings of the motor that were taken together: at one stage, under one condition, in one run, at one time.

    `terminal` is the volts at the motor's own tags, `inlet` those ahead of its governor; anything not read is None.
    `speed` is the motor's, through the pulley's ratio where a pulley was read.
    """

    stage: str
    condition: str
    run: str
    after: Q | None
    current: Known | None
    terminal: Known | None
    inlet: Known | None
    speed: Known | None

    @property
    def when(self):
        """Its condition, with the time where one was noted."""
        return self.condition if self.after is None else f"{self.condition}, after {show(self.after, 'min', digits=2)}"


@dataclass(frozen=True)
class MotorSheet:
    """The motor of a sheet with its governor, every moment it was read at, and what its bench runs add up to."""

    motor: Part
    governor: Part | None
    moments: tuple[Moment, ...]
    readings: Readings
    stages: tuple[str, ...]
    wheels: tuple[Part, ...] = ()

    @property
    def tells_of_motor(self):
        """Whether more is known than a feed chain's volts and amperes: what is usual, a speed, the belt off, a bench run."""
        return (self.governor is not None or any(key in self.motor.details for key in ("rated_current", "rated_speed"))
                or any(one.speed is not None or one.condition in (BELT_OFF, *KINDS) for one in self.moments))

    def wheel_speeds(self, stage):
        """Wheels that were read while it played, with their speeds, where nothing tells the motor's own at this stage."""
        if any(one.speed is not None for one in self.at(stage, PLAYING)):
            return ()
        read = ((wheel, self.readings.find(wheel.name, "speed", stage, PLAYING)) for wheel in self.wheels)
        return tuple((wheel, _turning(known)) for wheel, known in read if known is not None and _turning(known) is not None)

    def at(self, stage, condition):
        """Moments of one stage and condition: first what has no time, then by time."""
        found = [one for one in self.moments if (one.stage, one.condition) == (stage, condition)]
        return sorted(found, key=lambda one: -1.0 if one.after is None else one.after.m_as("s"))

    def first(self, stage, condition):
        """The first moment that has a current, or None."""
        return next((one for one in self.at(stage, condition) if one.current is not None), None)

    def fit(self, stage):
        """The motor's constants by the bench runs of this stage, else of the nearest one, earlier ones first.

        Returns
        -------
        MotorFit or None
            None where no stage has a run.
        """
        here = self.stages.index(stage)
        order = sorted(self._fits, key=lambda name: (self.stages.index(name) > here, abs(self.stages.index(name) - here)))
        return self._fits[order[0]] if order else None

    def fit_here(self, stage):
        """The motor's constants by the bench runs of this stage alone, or None."""
        return self._fits.get(stage)

    @cached_property
    def _fits(self):
        """What the runs of each stage add up to, fitted once: every judgement asks for it again."""
        runs = {}
        for one in self.moments:
            if (one.condition in KINDS and one.current is not None and one.terminal is not None
                    and one.current.plain > 0 and one.terminal.plain > 0):
                runs.setdefault(one.stage, []).append(_run(one))
        return {stage: fit_motor(alike) for stage, alike in runs.items()}


def motor_sheet(sheet):
    """Gather what a sheet says of its motor.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    MotorSheet or None
        None where no motor is listed.

    Notes
    -----
    With a governor on the sheet, the motor's volts are those ahead of it and the governor's volts those behind it,
    at the motor's own tags. On a bench supply straight on the tags, the motor's volts are its own.
    """
    motor = _first(sheet, "motor")
    if motor is None:
        return None
    governor = next((part for part in sheet.parts.values() if part.kind == "governor" and "style" in part.details), None)
    readings = Readings(sheet)
    groups = {}
    for reading in sheet.readings:
        after = None if reading.after is None else reading.after.m_as("s")
        groups.setdefault((reading.stage, reading.condition, reading.run, after), []).append(reading)
    moments = (_moment(sheet, readings, motor, governor, *key[:3], alike) for key, alike in groups.items())
    kept = tuple(one for one in moments if any((one.current, one.terminal, one.inlet, one.speed)))
    wheels = tuple(part for part in sheet.parts.values() if part.kind == "pulley")
    return MotorSheet(motor, governor, kept, readings, sheet.stages, wheels)


def _moment(sheet, readings, motor, governor, stage, condition, run, alike):
    def of(part, quantity):
        return _best(readings, [one for one in alike if part is not None and (one.part, one.quantity) == (part.name, quantity)])

    own, behind = of(motor, "voltage"), of(governor, "voltage")
    straight = condition in ON_BENCH_SUPPLY or governor is None
    return Moment(stage, condition, run, alike[0].after, of(motor, "current"), own if straight else behind,
                  None if straight else own, _speed(sheet, readings, motor, alike))


def _speed(sheet, readings, motor, alike):
    """The motor's own speed, else that of a pulley whose ratio is known."""
    for part, ratio in [(motor, 1.0), *((part, part.details["ratio"]) for part in sheet.parts.values()
                                        if part.kind == "pulley" and "ratio" in part.details)]:
        found = _best(readings, [one for one in alike if (one.part, one.quantity) == (part.name, "speed")])
        if found is not None and (turning := _turning(found)) is not None:
            return Known(turning.number * ratio, "turn/min")
    return None


def _turning(speed):
    """A speed in turns a minute, or None where it is a tape's."""
    one = Q(1, speed.unit)
    return Known(speed.number * one.m_as("turn/min"), "turn/min") if one.is_compatible_with("turn/min") else None


def _best(readings, alike):
    """One value for repeats: each instrument's joined, the finest of them."""
    by_name = {}
    for reading in alike:
        by_name.setdefault(reading.instrument, []).append(reading)
    return min(map(readings.joined, by_name.values()), key=lambda one: one.number.std_dev, default=None)


def _run(moment):
    kind = KINDS[moment.condition]
    speed = moment.speed if kind != HELD and moment.speed is not None and moment.speed.plain > 0 else None
    return Run(kind, moment.terminal, moment.current, speed)


def _first(sheet, kind):
    return next((part for part in sheet.parts.values() if part.kind == kind), None)
