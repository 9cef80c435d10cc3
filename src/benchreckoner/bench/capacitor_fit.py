"""From one or two testers' readings back to the part: which farads, leakage and series resistance fit them.

Three things are unknown and seldom more than two are read, so the answer is a region, found by splitting boxes and
dropping those that cannot give the readings. The answer is rather a little too wide than too narrow.
"""

import itertools
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.stats import chi2

from benchreckoner.bench.uncertain import Known
from benchreckoner.physics.testers import charge_time_reading, discharge_time_reading, oscillator_reading, ramp_reading
from benchreckoner.physics.testers_steady import bridge_capacitance, bridge_resistance, integrator_reading
from benchreckoner.units import Q

LEAST_LEAK, NO_LEAK = 10.0, 1e9  # ohm: from next to a short to nothing to speak of
LEAST_SERIES, MOST_LOSS = 1e-3, 10.0  # ohm; dissipation at 120 Hz beyond which a part is as good as open, common practice
SOAKING = 0.05  # a slow tester counts soaked-up charge too: a few per cent more, common practice
SURENESS = 0.95
_APART = 10.0  # how far the true farads may lie from what is marked and shown, either way
_FINEST = (0.004, 0.03, 0.05)  # of farads, leak and series resistance, as shares
_FIRST_SPLITS, _MOST_BOXES = 3, 6000
_SLACK = 0.25  # the share of its own height by which a box's readings may leave those at its corners


@dataclass(frozen=True)
class Principle:
    """One way of reading a capacitor: its law, the one setting of the tester, and what it shows."""

    name: str
    law: Callable
    setting: str
    setting_unit: str
    usual: Q
    fixed: tuple = ()
    shows: str = "F"
    slow: bool = True
    may_never_stop: bool = False

    def reading(self, *, capacitance, leakage_resistance, series_resistance, setting):
        """What it shows of this part."""
        return self.law(capacitance=capacitance, leakage_resistance=leakage_resistance, series_resistance=series_resistance,
                        **{self.setting: setting}, **dict(self.fixed))


PRINCIPLES = {one.name: one for one in (
    Principle("charge time", charge_time_reading, "source_resistance", "ohm", Q(10, "kohm"), may_never_stop=True),
    Principle("bridge", bridge_capacitance, "frequency", "Hz", Q(120, "Hz"), slow=False),
    Principle("bridge, series resistance", bridge_resistance, "frequency", "Hz", Q(1, "kHz"), shows="ohm", slow=False),
    Principle("discharge time", discharge_time_reading, "load_resistance", "ohm", Q(10, "kohm")),
    Principle("steady current to 1 V", ramp_reading, "current", "A", Q(100, "uA"), (("stop", Q(1, "V")),), may_never_stop=True),
    Principle("oscillator", oscillator_reading, "source_resistance", "ohm", Q(10, "kohm"), may_never_stop=True),
    Principle("charge added up", integrator_reading, "time", "s", Q(0.1, "s")),
)}


@dataclass(frozen=True)
class ShownReading:
    """What one tester showed of the part.

    ``principle`` is a name in PRINCIPLES; ``shown`` is None where it never stopped; ``setting`` is its
    resistor, current, frequency or time.
    """

    principle: str
    shown: Known | None
    setting: Q

    def __post_init__(self):
        if self.principle not in PRINCIPLES:
            raise ValueError(f"tester: write one of {', '.join(PRINCIPLES)}, got {self.principle!r}")
        if self.shown is None and not self.law.may_never_stop:
            raise ValueError(f"{self.principle}: such a tester always shows something; write what it shows, for example "
                             + ('"5 ohm"' if self.law.shows == "ohm" else '"9.8 uF"'))
        if self.shown is not None and not (self.shown.plain > 0 and self.shown.number.std_dev > 0):
            raise ValueError(f"{self.principle}: what it shows must be above zero, and known to within something")

    @property
    def law(self):
        return PRINCIPLES[self.principle]


@dataclass(frozen=True)
class Span:
    """What a part may be: lowest and highest farads, ohms of leak and ohms in series, in plain SI numbers."""

    low: tuple
    high: tuple

    def whole(self, axis):
        """Lowest and highest along one axis: 0 farads, 1 leak, 2 series resistance."""
        return self.low[axis], self.high[axis]


@dataclass(frozen=True, eq=False)
class Region:
    """Every box that fits, as logarithms of farads, leak and series resistance: lower corners and one size."""

    lows: np.ndarray
    size: np.ndarray

    def __bool__(self):
        return len(self.lows) > 0

    @property
    def span(self):
        return Span(tuple(np.exp(self.lows.min(axis=0))), tuple(np.exp((self.lows + self.size).max(axis=0))))

    def predicted(self, principle, setting):
        """Lowest and highest that this tester would show of a part in the region; endless where it never stops."""
        low, high = _shown_by(principle, setting, self.lows, self.size)
        return float(low.min()), float(high.max())


def anything(readings, marked):
    """All that a part may be before it is read.

    Parameters
    ----------
    readings : sequence of ShownReading
    marked : Quantity [F]

    Returns
    -------
    Span
    """
    farads = [marked.m_as("F"), *(one.shown.value.m_as("F") for one in readings
                                  if one.shown is not None and one.law.shows == "F")]
    return Span((min(farads) / _APART, LEAST_LEAK, LEAST_SERIES),
                (max(farads) * _APART, NO_LEAK, most_series(marked, MOST_LOSS)))


def most_series(marked, loss):
    """Series resistance that gives a part of these farads this dissipation at 120 Hz, in ohms."""
    return loss / (2 * np.pi * 120 * marked.m_as("F"))


def region(readings, span):
    """What part of a span the readings leave.

    Parameters
    ----------
    readings : sequence of ShownReading
    span : Span

    Returns
    -------
    Region
        Empty where nothing in the span fits. It holds the true part at least 95 times in 100.

    Notes
    -----
    A box goes when even its nearest predicted readings are further off, all in all, than chance brings one time
    in twenty (the sum of squares over the uncertainties, against chi-square for so many readings).
    """
    allowed = chi2.ppf(SURENESS, sum(one.shown is not None for one in readings) or 1)
    lows, size = np.log(np.array([span.low])), np.log(span.high) - np.log(span.low)
    for axis in np.flatnonzero(size > 0).tolist() * _FIRST_SPLITS:
        lows, size = _halved(lows, size, axis)
    lows = lows[_misfit(readings, lows, size) <= allowed]
    while 0 < 2 * len(lows) <= _MOST_BOXES and np.any(size > _FINEST):
        lows, size = _halved(lows, size, int(np.argmax(size / _FINEST)))
        lows = lows[_misfit(readings, lows, size) <= allowed]
    return Region(lows, size)


def _halved(lows, size, axis):
    size = size.copy()
    size[axis] /= 2
    step = np.zeros(3)
    step[axis] = size[axis]
    return np.concatenate((lows, lows + step)), size


def _misfit(readings, lows, size):
    """The least sum of squares that each box allows; endless where it cannot give a reading at all."""
    total = np.zeros(len(lows))
    for one in readings:
        low, high = _shown_by(one.law, one.setting, lows, size)
        if one.shown is None:
            total += np.where(np.isinf(high), 0, np.inf)
            continue
        shown, uncertainty = one.shown.plain, one.shown.number.std_dev
        total += (np.maximum(0, np.maximum(low - shown, shown - high)) / uncertainty) ** 2
    return total


def _shown_by(principle, setting, lows, size):
    """Lowest and highest that a tester shows of each box, from its corners and a little beyond."""
    corners = np.array(list(itertools.product(*((0, one) if one > 0 else (0,) for one in size))))
    farads, leak, series = (np.exp(lows[:, axis] + corners[:, axis, None]) for axis in range(3))
    shown = principle.reading(capacitance=Q(farads, "F"), leakage_resistance=Q(leak, "ohm"),
                              series_resistance=Q(series, "ohm"), setting=setting).m_as(principle.shows)
    shown = np.where(np.isnan(shown), np.inf, shown)
    low, high = shown.min(axis=0), shown.max(axis=0)
    slack = _SLACK * np.where(np.isfinite(high), np.where(np.isfinite(high), high, 0) - np.where(np.isfinite(low), low, 0),
                              np.where(np.isfinite(low), low, 0))
    return low - slack, (high + slack) * (1 + SOAKING if principle.slow else 1)
