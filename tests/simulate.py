"""Simulated benches with known truth: chains, meters that err within their limits, sheets that result.

The errors are drawn here from the instruments' stated limits, by a road of its own:
nothing of the judging code is used to make them.
"""

from dataclasses import dataclass, field, replace

import numpy as np

from benchreckoner.bench.accuracy import read_accuracy
from benchreckoner.bench.sheet import Instrument, Machine, Part, Reading, Sheet
from benchreckoner.units import Q, read_quantity

# (largest value, share of reading, volts or amperes, last digit)
VOLT_RANGES = [(0.2, 0.005, 0.0002, 0.0001), (2.0, 0.005, 0.001, 0.001), (20.0, 0.008, 0.01, 0.01)]
AMPERE_RANGE = (10.0, 0.012, 0.002, 0.001)
# Sound up to and bad from, as the books state them (see limits.toml for the sources).
EDGES = {"supply contact": (0.05, 0.5), "switch": (0.1, 0.5), "plug and socket": (0.03, 0.15), "solder joint": (0.03, 0.15),
         # AWG 24, 35 cm: 84.213 ohm/km (W7) and two end joints of 5 mohm; bad at twice that.
         "lead": (0.0394, 0.079)}
ACCURACIES = {
    "meter": [{"quantity": "voltage", "up_to": "200 mV", "limit": "0.5 % + 0.2 mV"},
              {"quantity": "voltage", "up_to": "2 V", "limit": "0.5 % + 1 mV"},
              {"quantity": "voltage", "up_to": "20 V", "limit": "0.8 % + 10 mV"}],
    "second meter": [{"quantity": "current", "up_to": "10 A", "limit": "1.2 % + 2 mA"}],
}


@dataclass
class Truth:
    """A chain as it really is: ohms by link, with a joint that nobody lists if `hidden` is above zero."""

    links: dict
    off_voltage: float
    source_resistance: float
    motor_resistance: float
    condition: str
    hidden: float = 0.0
    kinds: dict = field(default_factory=dict)

    @property
    def current(self):
        if self.condition == "playing":
            return 0.12
        return self.off_voltage / (self.source_resistance + sum(self.links.values()) + self.hidden + self.motor_resistance)


def sound_chain(rng):
    """A random chain in which every link is within its sound limit."""
    kinds = [str(kind) for kind in rng.choice(list(EDGES), size=int(rng.integers(2, 9)))]
    names = [f"{kind} {number}" for number, kind in enumerate(kinds, start=1)]
    cells = int(rng.integers(2, 9))
    return Truth(links={name: EDGES[kind][0] * rng.uniform(0.05, 1) for name, kind in zip(names, kinds, strict=True)},
                 off_voltage=cells * rng.uniform(1.4, 1.6), source_resistance=cells * rng.uniform(0.08, 0.3),
                 motor_resistance=rng.uniform(5, 20), condition=str(rng.choice(["held", "playing"])),
                 kinds=dict(zip(names, kinds, strict=True)) | {"cells": cells})


class Bench:
    """Two meters with fixed gain errors a range, and fresh digit errors each reading."""

    def __init__(self, rng):
        self.rng = rng
        self.gains = {limits: rng.uniform(-limits[1], limits[1]) for limits in [*VOLT_RANGES, AMPERE_RANGE]}

    def read(self, value, ranges):
        limits = next(one for one in ranges if abs(value) * 1.02 < one[0])
        shown = value * (1 + self.gains[limits]) + self.rng.uniform(-limits[2], limits[2])
        decimals = len(f"{limits[3]:.4f}".rstrip("0").partition(".")[2])
        return f"{round(shown / limits[3]) * limits[3]:.{decimals}f}"

    def volts(self, value):
        return self.read(value, VOLT_RANGES) + " V"

    def amperes(self, value):
        return self.read(value, [AMPERE_RANGE]) + " A"


def sheet_of(truth, rng):
    """What a careful person would write down of this chain."""
    return make_sheet(truth, rows_of(truth, Bench(rng)))


def sheet_of_both(truth, rng, *, playing=None):
    """What was read of one chain held and playing, with the same two meters; `playing` has other ohms where they changed."""
    bench = Bench(rng)
    held, turning = replace(truth, condition="held"), replace(playing or truth, condition="playing")
    return make_sheet(truth, [*rows_of(held, bench), *rows_of(turning, bench)[1:]])


def rows_of(truth, bench):
    """Readings of one chain under its condition, the cells off load first."""
    current = truth.current
    loaded = truth.off_voltage - current * truth.source_resistance
    at_motor = loaded - current * (sum(truth.links.values()) + truth.hidden)
    rows = [("cells", "voltage", bench.volts(truth.off_voltage), "meter", "off"),
            ("cells", "voltage", bench.volts(loaded), "meter", truth.condition),
            ("motor", "voltage", bench.volts(at_motor), "meter", truth.condition),
            ("motor", "current", bench.amperes(current), "second meter", truth.condition)]
    rows += [(name, "voltage drop", bench.volts(current * ohms), "meter", truth.condition)
             for name, ohms in truth.links.items()]
    return rows


def make_sheet(truth, rows):
    """A sheet from (part, quantity, value, instrument, condition) rows, without the road through a file."""
    parts = {"cells": part("cells", "cells", count=truth.kinds["cells"], chemistry="alkaline")}
    lead = {"gauge": "AWG 24", "length": Q(35, "cm")}
    parts |= {name: part(name, truth.kinds[name], **(lead if truth.kinds[name] == "lead" else {})) for name in truth.links}
    parts["motor"] = part("motor", "motor")
    readings = tuple(
        Reading(part=name, quantity=quantity, value=read_quantity(value, "A" if quantity == "current" else "V"),
                instrument=instrument, stage="as found", condition=condition, after=None, range=None, text=value,
                line=number, note="")
        for number, (name, quantity, value, instrument, condition) in enumerate(rows, start=1))
    instruments = {name: Instrument(name=name, accuracy=read_accuracy(accuracy, name), note="")
                   for name, accuracy in ACCURACIES.items()}
    return Sheet(source="simulated", machine=Machine(name="trial", kind="record player", supply=Q(9, "V"), note=""),
                 instruments=instruments, parts=parts, actions=(), readings=readings, symptoms=(), observations=())


def part(name, kind, **details):
    return Part(name=name, kind=kind, details=details, current_from=None, note="")


def generator(seed):
    return np.random.default_rng(seed)
