"""Our registry against pint's own: the same numbers, units and errors, when asked for the first time and again."""

import itertools
import operator

import numpy as np
import pint
import pytest

from benchreckoner.registry import Registry

UNITS = ("", "percent", "V", "mV", "J/C", "turn/min", "rad/s", "V*s/rad", "degC", "delta_degC", "kelvin", "dB", "degC/W")
NUMBERS = (2.5, 3, 0.0, np.float64(-0.7), np.array([1.0, -2.0, 0.25]), np.array([1, 2, 3]))
PAIRS = ((2.5, np.float64(-0.7)), (3, 2.5), (np.array([1.0, -2.0, 0.25]), np.array([1, 2, 3])), (2, 0))
SIGNS = (operator.add, operator.sub, operator.mul, operator.truediv, operator.pow, operator.lt, operator.eq)
OURS, PINTS = Registry(), pint.UnitRegistry()


def outcome(work, registry):
    """Magnitude with its kind and the units, or the kind of error and its words."""
    try:
        with np.errstate(all="ignore"):
            found = work(registry)
    except Exception as error:
        return type(error).__name__, str(error)
    if isinstance(found, registry.Quantity):
        return type(found.magnitude).__name__, np.asarray(found.magnitude).tobytes(), str(found.units)
    return type(found).__name__, np.asarray(found).tobytes()


def agree(work, what):
    wanted = outcome(work, PINTS)
    assert outcome(work, OURS) == wanted, what
    assert outcome(work, OURS) == wanted, f"{what}, asked again"


@pytest.mark.parametrize("unit", UNITS)
def test_sums_of_two_quantities_are_pints(unit):
    for other, sign, (left, right) in itertools.product(UNITS, SIGNS, PAIRS):
        agree(lambda registry: sign(registry.Quantity(left, unit), registry.Quantity(right, other)),
              f"{left!r} {unit} {sign.__name__} {right!r} {other}")


@pytest.mark.parametrize("unit", UNITS)
def test_sums_with_a_bare_number_are_pints(unit):
    for sign, number, bare in itertools.product(SIGNS, NUMBERS, (2, 1, 0, np.float64(0.5), np.array([1.0, 2.0, 3.0]), True)):
        agree(lambda registry: sign(registry.Quantity(number, unit), bare), f"{number!r} {unit} {sign.__name__} {bare!r}")
        agree(lambda registry: sign(bare, registry.Quantity(number, unit)), f"{bare!r} {sign.__name__} {number!r} {unit}")


@pytest.mark.parametrize("unit", UNITS)
def test_conversions_are_pints(unit):
    for other, number in itertools.product((*UNITS, "kV", "no such unit"), NUMBERS):
        agree(lambda registry: registry.Quantity(number, unit).to(other), f"{number!r} {unit} to {other}")
        agree(lambda registry: registry.Quantity(number, unit).m_as(other), f"{number!r} {unit} as {other}")
        agree(lambda registry: registry.Quantity(number, unit).to(registry.Unit(other)), f"{number!r} {unit} to the unit {other}")
        agree(lambda registry: registry.convert(number, unit, other), f"{number!r} from {unit} to {other}")


@pytest.mark.parametrize("value", [True, None, "", "3 V", [1, 2], (1.0, 2.0), {}, 2 + 1j, np.array(1.5), np.int64(4)])
def test_what_a_quantity_is_made_of_is_pints(value):
    for unit in (None, "V", "", "m/s"):
        agree(lambda registry: registry.Quantity(value, unit), f"{value!r} {unit}")
        agree(lambda registry: registry.Quantity(value, unit and registry.Unit(unit)), f"{value!r} unit {unit}")


def test_a_quantity_changed_in_place_leaves_what_it_was_made_from():
    first = OURS.Quantity(np.array([1.0, 2.0]), "V")
    second = first.to("mV")
    second *= 2
    second += OURS.Quantity(1.0, "V")
    assert first.magnitude.tolist() == [1.0, 2.0]
    assert second.magnitude.tolist() == [3000.0, 5000.0] and str(second.units) == "millivolt"
    volts = np.array([1.0, 2.0])
    OURS.Quantity(volts, "V").ito("mV")
    assert volts.tolist() == [1000.0, 2000.0], "asked for in place"


def test_a_quantity_knows_the_unit_it_is_in():
    assert OURS.Quantity(1.0, "turn/min").is_in("turn/min")
    assert not OURS.Quantity(1.0, "turn/min").is_in("rad/s")
    assert not OURS.Quantity(1.0, "V").is_in("mV")
