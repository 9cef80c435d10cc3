"""Readings with their uncertainty: what is shared between them and what is not (JCGM 100)."""

import math
from dataclasses import dataclass

import numpy as np
import uncertainties

from benchreckoner.bench.accuracy import READ_AS, entry_for
from benchreckoner.bench.vocabulary import QUANTITIES
from benchreckoner.units import Q

_LIMIT = math.sqrt(3)  # a limit a is the half-width of an even spread: u = a / sqrt(3)


@dataclass(frozen=True)
class Known:
    """A value in one unit, as an `uncertainties` number that remembers what it shares."""

    number: object
    unit: str

    @property
    def value(self):
        return Q(self.number.nominal_value, self.unit)

    @property
    def plain(self):
        """The value as a bare number in the unit."""
        return self.number.nominal_value

    @property
    def expanded(self):
        """Expanded uncertainty, k = 2."""
        return Q(2 * self.number.std_dev, self.unit)

    def __add__(self, other):
        return Known(self.number + other.number, self.unit)

    def __sub__(self, other):
        return Known(self.number - other.number, self.unit)

    def differs(self):
        """Whether it is further from zero than its expanded uncertainty explains."""
        return abs(self.plain) > 2 * self.number.std_dev

    def lies_above(self, other):
        """Whether it is more than the other by more than both uncertainties explain."""
        return self.plain > other.plain and (self - other).differs()


class Readings:
    """All readings of one sheet, repeats joined, each asked for by what it is.

    Readings at several times on voltage are no repeats. Asked for without a
    time, those without one stand; if there are none, those at the latest.

    One object a sheet, because what two readings share (a meter's percentage on
    one range) lives here.
    """

    def __init__(self, sheet):
        self._sheet = sheet
        self._shared = {}
        self._groups = {}
        for reading in sheet.readings:
            key = (reading.part, reading.quantity, reading.stage, reading.condition)
            after = reading.after and reading.after.m_as("s")
            alike = self._groups.setdefault(key, {}).setdefault(after, {})
            alike.setdefault((reading.instrument, self._entry(reading)), []).append(reading)
        self._known = {}

    def find(self, part, quantity, stage, condition):
        """The best-known value of this reading, or None if it was not taken."""
        known = self.by_instrument(part, quantity, stage, condition)
        return min(known.values(), key=lambda one: one.number.std_dev, default=None)

    def by_instrument(self, part, quantity, stage, condition):
        """Every value of this reading, by instrument and the accuracy of the range it was read on."""
        key = (part, quantity, stage, condition)
        if key not in self._known:
            self._known[key] = {(name, entry): self._join(name, entry, repeats)
                                for (name, entry), repeats in self._alike(key).items()}
        return self._known[key]

    def extremes(self, part, quantity, stage, condition):
        """Lowest and highest of each instrument's repeats, each as a reading of its own.

        Yields
        ------
        instrument : str
        low, high : Known
        """
        by_name = {}
        for (name, _), repeats in self._alike((part, quantity, stage, condition)).items():
            by_name.setdefault(name, []).extend(repeats)
        for name, repeats in by_name.items():
            ordered = sorted(repeats, key=lambda reading: reading.value.quantity)
            if len(ordered) > 1:
                yield name, *(one_reading(reading.value, quantity=quantity, instrument=self._sheet.instruments[name],
                                          stated=reading.range) for reading in (ordered[0], ordered[-1]))

    def singles(self, part, quantity, stage, condition):
        """Every reading by itself, repeats not joined: of something that moves, each one counts."""
        return [one_reading(reading.value, quantity=quantity, instrument=self._sheet.instruments[name], stated=reading.range)
                for (name, _), repeats in self._alike((part, quantity, stage, condition)).items()
                for reading in repeats]

    def joined(self, alike):
        """Chosen readings of one thing by one instrument as one value: repeats that a caller has sorted itself."""
        return self._join(alike[0].instrument, self._entry(alike[0]), list(alike))

    def keys(self):
        """(part, quantity, stage, condition) of every reading taken, in order."""
        return tuple(self._groups)

    def _alike(self, key):
        """The repeats at the one time that stands for all, by instrument and accuracy."""
        times = self._groups.get(key, {})
        return times.get(None) or times.get(max(times, default=None), {})

    def _entry(self, reading):
        """The accuracy that holds for one reading; repeats on another range stand apart."""
        return entry_for(self._sheet.instruments[reading.instrument].accuracy, quantity=reading.quantity,
                         value=reading.value.quantity, range=reading.range, name=reading.instrument)

    def _join(self, instrument, entry, repeats):
        """Repeats shrink scatter only: one meter's limits stay as wide as for a single reading."""
        unit = _unit(repeats[0].quantity, repeats[0].value)
        values = [reading.value.quantity.m_as(unit) for reading in repeats]
        widest = max(repeats, key=lambda reading: reading.value.half_digit.m_as(_step(unit)))
        number = _read_off(float(np.mean(values)), widest.value, entry, self._percentage(instrument, repeats[0], entry), unit)
        if len(set(values)) > 1:
            number += uncertainties.ufloat(0, np.std(values, ddof=1) / math.sqrt(len(values)))
        return Known(number, unit)

    def _percentage(self, instrument, reading, entry):
        stated = reading.range if reading.range is not None else entry.up_to
        if stated is None:
            return _spread(entry.fraction)
        key = (instrument, READ_AS.get(reading.quantity, reading.quantity), str(stated.to_base_units()))
        return self._shared.setdefault(key, _spread(entry.fraction))


def one_reading(typed, *, quantity, instrument, stated=None):
    """A single value as typed, with the uncertainty of the instrument it was read on.

    Parameters
    ----------
    typed : Typed
    quantity : str
        Such as ``"voltage"``.
    instrument : Instrument
    stated : Quantity, optional
        The range it was read on.

    Returns
    -------
    Known

    Raises
    ------
    ValueError
        If the instrument has no accuracy for it.
    """
    unit = _unit(quantity, typed)
    entry = entry_for(instrument.accuracy, quantity=quantity, value=typed.quantity, range=stated, name=instrument.name)
    return Known(_read_off(float(typed.quantity.m_as(unit)), typed, entry, _spread(entry.fraction), unit), unit)


def within(quantity, fraction, unit):
    """A value known to lie within a fraction of itself, such as a resistor's tolerance."""
    return Known(float(quantity.m_as(unit)) * (1 + _spread(fraction)), unit)


def propagate(law, unit, **known):
    """Put uncertain values through a law, by numerical derivatives round it.

    Parameters
    ----------
    law : callable
        Takes quantities (arrays too) by the names in `known`, returns a quantity.
    unit : str
        Of the result.
    known : Known

    Returns
    -------
    Known
        Correlated with everything its inputs are correlated with.
    """
    names = list(known)
    middle = np.array([known[name].number.nominal_value for name in names])
    steps = np.array([max(1e-3 * known[name].number.std_dev, 1e-9 * abs(known[name].number.nominal_value), 1e-300)
                      for name in names])
    offsets = np.vstack([np.zeros(len(names)), np.diag(steps), -np.diag(steps)])
    points = middle + offsets
    values = law(**{name: Q(points[:, column], known[name].unit) for column, name in enumerate(names)})
    values = np.broadcast_to(values.m_as(unit), len(points))
    number = float(values[0])
    for column, name in enumerate(names):
        slope = (values[1 + column] - values[1 + len(names) + column]) / (2 * steps[column])
        number += float(slope) * (known[name].number - middle[column])
    return Known(number, unit)


def _unit(quantity, typed):
    """The unit a kind of reading is reckoned in; where there are two, the one it was typed in."""
    unit = QUANTITIES[quantity]
    return unit if isinstance(unit, str) else str(typed.quantity.units)


def _read_off(middle, typed, entry, percentage, unit):
    """The three limits of a reading: a share of it, the instrument's fixed part, half the last digit."""
    half_digit = float(typed.half_digit.m_as(_step(unit)))
    fixed = float(entry.fixed.m_as(_step(unit))) if entry.fixed is not None else 0.0
    return middle * (1 + percentage) + _spread(fixed + entry.digits * 2 * half_digit) + _spread(half_digit)


def _step(unit):
    return "delta_degC" if unit in ("degC", "degree_Celsius") else unit


def _spread(limit):
    return uncertainties.ufloat(0, limit / _LIMIT) if limit > 0 else 0.0
