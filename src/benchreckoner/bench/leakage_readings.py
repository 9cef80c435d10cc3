"""A capacitor's leakage readings on the sheet: turned into amperes, freed of charging current, brought to one time."""

import math
import re
from dataclasses import dataclass
from functools import cached_property

from benchreckoner.bench.power_law import fit_power_law
from benchreckoner.bench.repair import Part
from benchreckoner.bench.uncertain import Known, propagate, within
from benchreckoner.physics.leakage import charging_current, leakage_current
from benchreckoner.units import Q

LEAKAGE, ACROSS = "leakage current", "voltage drop"
RESISTOR_SHARE = 0.05  # a series resistor may be off by this much: common practice of today's film resistors
METER_OHMS = Q(10, "Mohm")  # of a digital meter whose own is not written: common practice
CAPACITANCE_SHARE = 0.5  # an old part may have half more than its marking says: common practice
WATCH = Q(5, "s")  # watch and meter are read together to this: a choice of ours
MOSTLY = 0.9  # leakage, when charging is at most a tenth of what is shown: a choice of ours
_FORWARD, _BACKWARD = 6, 2  # times the last and the first time on voltage: beyond, a bound only. A choice of ours


@dataclass(frozen=True)
class LeakagePoint:
    """One time on voltage: what was read as amperes, and what of it may still be charging."""

    after: Q
    read: Known
    charging: Known | None  # None where no resistor or capacitance is known

    @property
    def leakage(self):
        """What was read less what still charges."""
        return self.read if self.charging is None else self.read - self.charging

    @property
    def mostly_charging(self):
        """Whether charging may be more than a tenth of what was read."""
        return self.charging is not None and self.charging.plain + 2 * self.charging.number.std_dev > (
            (1 - MOSTLY) * self.read.plain)

    @property
    def shows(self):
        """Whether there is something to take a logarithm of, beyond what the instrument may be off."""
        return self.leakage.plain > 2 * self.leakage.number.std_dev

    @property
    def usable(self):
        return self.shows and not self.mostly_charging


@dataclass(frozen=True)
class AtTime:
    """The leakage at one time on voltage, between two bounds; how it is known, in words.

    None: no such bound. Where both are one and the same, the leakage itself is known.
    """

    low: Known | None
    high: Known | None
    how: str


@dataclass(frozen=True)
class LeakageSeries:
    """The readings of one part at one stage under one condition, taken through one resistor at one voltage."""

    part: Part
    stage: str
    condition: str
    applied: Q | None
    series_resistor: Q | None
    points: tuple[LeakagePoint, ...]
    untimed: int  # readings that do not say after how long
    problems: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()

    @property
    def usable(self):
        return tuple(point for point in self.points if point.usable)

    @property
    def on_part(self):
        """Volts on the part itself at the last reading: what is applied less what the resistor takes."""
        if self.applied is None or not self.points:
            return None
        taken = Q(0, "V")
        if self.series_resistor is not None:
            taken = (self.points[-1].read.value * self.series_resistor).to("V")
        return self.applied - taken

    @cached_property
    def law(self):
        """The power law through what can be used; None with fewer than two times."""
        usable = self.usable
        if len({point.after.m_as("s") for point in usable}) < 2:
            return None
        times = [within(point.after, min(1, (WATCH / point.after).m_as("")), "s") for point in usable]
        return fit_power_law(x=times, y=[point.leakage for point in usable])

    @property
    def rising(self):
        """Whether the leakage grows with time on voltage by more than the readings may be off."""
        return self.law is not None and self.law.slope.plain > 0 and self.law.slope.differs()

    def at(self, time):
        """The leakage after this time on voltage.

        Parameters
        ----------
        time : Quantity [s]

        Returns
        -------
        AtTime
            By the power law where two times or more can be used and it is not far off; else by the rule that
            leakage never grows with time on voltage, as a bound.
        """
        if not self.points or self.rising:
            return AtTime(None, None, "")
        minutes = time_words(time)
        same = [point for point in self.usable if math.isclose(point.after.m_as("s"), time.m_as("s"))]
        if self.law is not None and self._near(time):
            low = high = self.law.at(time)
            how = f"after {minutes}, by the power law through {self.law.count} readings"
        elif same:
            low = high = same[0].leakage
            how = f"read after {minutes}"
        else:
            # Charging that is still in a reading makes it too high: it bounds from above all the same.
            above = min((point for point in self.points if point.after <= time), key=lambda one: _at_most(one).plain,
                        default=None)
            below = max((point for point in self.usable if point.after >= time), key=lambda one: one.leakage.plain,
                        default=None)
            high, low = above and _at_most(above), below and below.leakage
            how = f"after {minutes}, " + " and ".join(
                f"no {word} than what was read after {time_words(point.after)}"
                for word, point in (("more", above), ("less", below)) if point is not None)
        if self.condition == "in circuit":
            return AtTime(None, high, f"{how}; in circuit, so the rest of the circuit is in it")
        if self.points[-1].charging is None:
            return AtTime(None, high, f"{how}; some of it may still be charging current")
        return AtTime(low, high, how)

    def _near(self, time):
        seconds = [point.after.m_as("s") for point in self.usable]
        return min(seconds) / _BACKWARD <= time.m_as("s") <= _FORWARD * max(seconds)


def leakage_series(sheet, readings):
    """Every series of leakage readings of the sheet's capacitors, the latest stage last.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings
        Of that sheet.

    Returns
    -------
    tuple of LeakageSeries
    """
    groups = {}
    for reading in sheet.readings:
        if sheet.parts[reading.part].kind == "capacitor" and reading.quantity in (LEAKAGE, ACROSS):
            groups.setdefault((reading.part, reading.stage, reading.condition, _text(reading.applied),
                               _text(reading.series_resistor)), []).append(reading)
    stages = {stage: number for number, stage in enumerate(sheet.stages)}
    made = [_series(sheet, readings, taken) for taken in groups.values()]
    return tuple(sorted(made, key=lambda one: stages[one.stage]))


def time_words(time):
    """A time on voltage as a reader would say it.

    >>> time_words(Q(90, "s")), time_words(Q(20, "s"))
    ('1.5 min', '20 s')
    """
    return f"{time.m_as('min'):.3g} min" if time >= Q(1, "min") else f"{time.m_as('s'):.3g} s"


def year_made(part):
    """The year a part was made, out of ``made = "about 1975"``; None if there is none in it."""
    found = re.search(r"(?<!\d)(19[2-9]\d|20\d\d)(?!\d)", part.details.get("made", ""))
    return int(found[1]) if found else None


def _series(sheet, readings, taken):
    first = taken[0]
    part = sheet.parts[first.part]
    resistor = first.series_resistor and within(first.series_resistor, RESISTOR_SHARE, "ohm")
    points, problems, assumed, meters = [], [], [], {}
    untimed = sum(reading.after is None or reading.after.magnitude == 0 for reading in taken)
    if resistor is not None:
        assumed.append(f"the series resistor is taken as right within {100 * RESISTOR_SHARE:.0f} %")
    alike = {}
    for reading in taken:
        if reading.after is not None and reading.after.magnitude > 0:
            key = (reading.after.m_as("s"), reading.quantity, reading.instrument, _text(reading.range))
            alike.setdefault(key, []).append(reading)
    for (seconds, quantity, instrument, _), repeats in sorted(alike.items(), key=lambda one: one[0][0]):
        read = readings.joined(repeats)
        if quantity == ACROSS:
            if resistor is None:
                problems.append('volts were read beside it, but through which resistor? Write series_resistor = "10 kohm"')
                continue
            read = _amperes(read, resistor, sheet.instruments[instrument], meters, assumed)
        after = Q(seconds, "s")
        points.append(LeakagePoint(after, read, _charging(part, first.applied, resistor, after)))
    problems += _contradictions(first, points)
    if points and resistor is None:
        assumed.append('no series resistor is written, so charging current cannot be told from leakage; write '
                       'series_resistor = "1 kohm"')
    elif points and points[0].charging is None:
        assumed.append("without the part's capacitance and the volts applied, charging current cannot be told from leakage; "
                       'write capacitance = "100 uF" at the part and applied = "10 V" at the reading')
    return LeakageSeries(part, first.stage, first.condition, first.applied, first.series_resistor, tuple(points), untimed,
                         tuple(dict.fromkeys(problems)), tuple(dict.fromkeys(assumed)))


def _amperes(volts, resistor, instrument, meters, assumed):
    """Amperes through the part, from volts across the resistor, the meter's own ohms beside it."""
    if instrument.name not in meters:
        meters[instrument.name] = within(instrument.input_resistance or METER_OHMS, RESISTOR_SHARE, "ohm")
        if instrument.input_resistance is None:
            assumed.append(f"{instrument.name} is taken to have 10 MΩ at its input (common practice)")
    return propagate(lambda shown, series, meter: leakage_current(shown=shown, series_resistance=series, meter_resistance=meter),
                     "A", shown=volts, series=resistor, meter=meters[instrument.name])


def _charging(part, applied, resistor, after):
    """What still charges a sound part of this capacitance, so far as the sheet says."""
    farads = part.details.get("capacitance")
    if applied is None or resistor is None or farads is None:
        return None
    return propagate(lambda series, capacitance: charging_current(
        supply=applied, series_resistance=series, capacitance=capacitance, time=after), "A", series=resistor,
        capacitance=within(farads, part.details.get("tolerance", CAPACITANCE_SHARE), "F"))


def _contradictions(reading, points):
    """What cannot be: more current than the supply can drive through the resistor, or a current backwards."""
    if reading.applied is not None and reading.series_resistor is not None:
        most = (reading.applied / reading.series_resistor).to("A")
        if any(point.read.plain - 2 * point.read.number.std_dev > most.magnitude for point in points):
            yield ("more current was read than the supply can drive through the resistor: one of supply, resistor and "
                   "reading is another than written")
    if any(point.read.plain + 2 * point.read.number.std_dev < 0 for point in points):
        yield "the current runs backwards: look at the probes, and at the part's plus and minus before you go on"


def _at_most(point):
    """What was read, charging included where it cannot be told off well."""
    return point.read if point.mostly_charging else point.leakage


def _text(quantity):
    return "" if quantity is None else f"{quantity.to_base_units():.6g}"
