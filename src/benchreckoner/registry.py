"""The registry of units: pint's own, that asks itself nothing twice.

A slider waits for hundreds of small sums with units. Before each of them pint reads the units' names anew and asks
each whether it has an offset; what it once found is kept here. Whatever is more than a sum of plain numbers in plain
units, degrees Celsius and decibels above all, and every error, stays with pint.
"""

import operator

import numpy as np
import pint
from pint.util import UnitsContainer

_PLAIN = (float, int, np.float64, np.ndarray)


class Quantity(pint.UnitRegistry.Quantity):
    """Pint's quantity, with a short way for sums of plain numbers in plain units."""

    def __new__(cls, value, units=None):
        if type(value) in _PLAIN:
            if type(units) is str:
                units = cls._REGISTRY.parse_units_as_container(units)
            if isinstance(units, UnitsContainer):
                return _made(cls, value, units)
        return super().__new__(cls, value, units)

    def to(self, other=None, *contexts, **options):
        """The same quantity in another unit."""
        if type(other) is not str or contexts or options:
            return super().to(other, *contexts, **options)
        units = self._REGISTRY.parse_units_as_container(other)
        return type(self)(self._REGISTRY.convert(self._magnitude, self._units, units), units)

    def is_in(self, unit):
        """Whether this is its unit already."""
        wanted = self._REGISTRY.parse_units_as_container(unit)
        return self._units is wanted or self._units == wanted

    def __mul__(self, other):
        return self._multiplied(other, operator.mul, super().__mul__)

    __rmul__ = __mul__  # as pint has it

    def __truediv__(self, other):
        return self._multiplied(other, _divided, super().__truediv__)

    def __pow__(self, other):
        if type(other) is int and other > 1 and type(self._magnitude) in _PLAIN:
            if (units := self._REGISTRY.product(operator.pow, self._units, other)) is not None:
                return _made(type(self), self._magnitude**other, units)
        return super().__pow__(other)

    def __add__(self, other):
        return self._added(other, operator.add, super().__add__)

    __radd__ = __add__

    def __sub__(self, other):
        return self._added(other, operator.sub, super().__sub__)

    def __rsub__(self, other):
        return -self._added(other, operator.sub, lambda theirs: -super(Quantity, self).__rsub__(theirs))

    def _multiplied(self, other, sign, pints):
        if type(self._magnitude) in _PLAIN:
            theirs = other._magnitude if type(other) is type(self) else other
            if type(theirs) in _PLAIN:
                units = self._REGISTRY.product(sign, self._units, _NONE if theirs is other else other._units)
                if units is not None:
                    return _made(type(self), sign(self._magnitude, theirs), units)
        return pints(other)

    def _added(self, other, sign, pints):
        if type(self) is type(other) and type(self._magnitude) in _PLAIN and type(other._magnitude) in _PLAIN:
            if factor := self._REGISTRY.factor_of_sum(other._units, self._units):
                return _made(type(self), sign(self._magnitude, other._magnitude * factor), self._units)
        elif not self._units and type(self._magnitude) in _PLAIN and type(other) in _PLAIN:
            return _made(type(self), sign(self._magnitude, other), self._units)
        return pints(other)


_NONE = UnitsContainer()


def _divided(first, second):
    """As pint divides: a whole number as if it had a point."""
    return (float(first) if type(first) is int else first) / second


def _made(kind, value, units):
    """A quantity of a plain number, as pint makes it after all its questions."""
    quantity = object.__new__(kind)
    quantity._magnitude, quantity._units = value, units
    return quantity


class Registry(pint.UnitRegistry):
    """Pint's registry for units that are all known from the start: a later definition would not be heard."""

    Quantity = Quantity

    def __init__(self):
        self._read, self._factors, self._products, self._sums = {}, {}, {}, {}
        super().__init__()

    def parse_units_as_container(self, input_string, as_delta=None, case_sensitive=None):
        """A unit's words as pint reads them."""
        key = input_string, as_delta, case_sensitive
        if (found := self._read.get(key)) is None:
            found = self._read[key] = super().parse_units_as_container(*key)
        return found

    def convert(self, value, src, dst, inplace=False, **context):
        """A value carried from one unit to another, as pint carries it."""
        if inplace or context or not (isinstance(src, UnitsContainer) and isinstance(dst, UnitsContainer)):
            return super().convert(value, src, dst, inplace, **context)
        if src is dst or src == dst:
            return value
        if (factor := self._factors.get((src, dst))) is None:
            straight = self._plain(src) and self._plain(dst)
            factor = self._factors[src, dst] = super().convert(1, src, dst) if straight else 0
        return value * factor if factor else super().convert(value, src, dst)

    def product(self, sign, first, second):
        """The units of a product, quotient or power, None where pint must see to it."""
        key = sign, first, second
        if key not in self._products:
            plain = self._plain(first) and (sign is operator.pow or self._plain(second))
            self._products[key] = sign(first, second) if plain else None
        return self._products[key]

    def factor_of_sum(self, second, first):
        """What carries the second of a sum into the units of the first, 0 where pint must see to it."""
        key = second, first
        if key not in self._sums:
            alike = self._get_dimensionality(second) == self._get_dimensionality(first)
            steps = any(name.startswith("delta_") for name in (*first, *second)) and first != second
            plain = alike and not steps and self._plain(first) and self._plain(second)
            self._sums[key] = self.convert(1, second, first) if plain else 0
        return self._sums[key]

    def _plain(self, units):
        return all(map(self._is_multiplicative, units))
