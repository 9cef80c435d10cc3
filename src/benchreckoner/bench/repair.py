"""One repair as plain data: what a bench sheet says, once it has been read and checked."""

from collections.abc import Mapping
from dataclasses import dataclass

from benchreckoner.bench.accuracy import AccuracyEntry
from benchreckoner.bench.vocabulary import AS_FOUND
from benchreckoner.units import Q, Typed


@dataclass(frozen=True)
class Machine:
    """The machine on the bench."""

    name: str
    kind: str
    supply: Q | None
    note: str


@dataclass(frozen=True)
class Instrument:
    """What readings are taken with, and what its maker promises."""

    name: str
    accuracy: tuple[AccuracyEntry, ...]
    note: str
    leads: Typed | None = None  # ohms with its two leads touched together
    four_wire: bool = False
    input_resistance: Q | None = None  # of its voltage ranges
    principle: str = ""  # by which a tester of capacitors measures


@dataclass(frozen=True)
class Beside:
    """A resistor that lies across a part in the circuit, and the share by which it may be off."""

    name: str
    resistance: Q
    tolerance: float


@dataclass(frozen=True)
class Part:
    """One part, in the order the current meets them."""

    name: str
    kind: str
    details: Mapping[str, str | int | float | bool | Q | tuple[Beside, ...]]
    current_from: str | None
    note: str


@dataclass(frozen=True)
class Action:
    """Something done to the machine; its name opens a stage."""

    name: str
    planned: Q | None
    took: Q | None
    taken_off: tuple[str, ...]
    note: str
    fitted: tuple[str, ...] = ()  # parts of the sheet: from here on another piece under the same name, or the belt that now runs


@dataclass(frozen=True)
class Reading:
    """A quantity of a part, at a stage, under a condition, by an instrument."""

    part: str
    quantity: str
    value: Typed
    instrument: str
    stage: str
    condition: str
    after: Q | None
    range: Q | None
    text: str
    line: int
    note: str
    applied: Q | None = None  # volts of the supply behind a part that is read on its own
    series_resistor: Q | None = None  # between that supply and the part
    run: str = ""  # shared by readings that were taken together, in one go


@dataclass(frozen=True)
class Symptom:
    """What the machine does wrong."""

    what: str
    stage: str
    note: str


@dataclass(frozen=True)
class Observation:
    """Something seen or photographed."""

    part: str
    what: str
    stage: str
    photo: str
    note: str


@dataclass(frozen=True)
class Setting:
    """Where a trimmer or a control of a part stands, in free words."""

    part: str
    what: str
    place: str
    stage: str
    photo: str
    note: str


@dataclass(frozen=True)
class Trial:
    """Tries of a part under one condition in free words: so many clean, and then so many with the fault."""

    part: str
    condition_tried: str
    clean: int
    faults: int
    stage: str
    note: str


@dataclass(frozen=True)
class Sheet:
    """One repair."""

    source: str
    machine: Machine
    instruments: dict[str, Instrument]
    parts: dict[str, Part]
    actions: tuple[Action, ...]
    readings: tuple[Reading, ...]
    symptoms: tuple[Symptom, ...]
    observations: tuple[Observation, ...]
    note: str = ""
    trials: tuple[Trial, ...] = ()
    settings: tuple[Setting, ...] = ()

    @property
    def stages(self):
        """Every stage in order: as found, then one for each action."""
        return (AS_FOUND, *(action.name for action in self.actions))

    @property
    def stood(self):
        """Each trimmer and control with all its places, the earliest first; capitals make no other one of it."""
        places = {}
        for one in sorted(self.settings, key=lambda one: self.stages.index(one.stage)):
            places.setdefault((one.part, one.what.casefold()), []).append(one)
        return tuple(tuple(alike) for alike in places.values())
