"""The change between two readings: against the `uncertainties` package, drawn values, and its limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from uncertainties import ufloat

from benchreckoner.physics.comparing import change_uncertainty
from benchreckoner.units import Q

SIZES = some.floats(1e-6, 1e3)


def change(before, after):
    return change_uncertainty(before=Q(before, "mohm"), after=Q(after, "mohm")).m_as("mohm")


@given(before=SIZES, after=SIZES)
def test_another_library_agrees(before, after):
    assert change(before, after) == pytest.approx((ufloat(60, before) - ufloat(52, after)).std_dev, rel=1e-9, abs=1e-12)


def test_drawn_values_spread_as_much():
    rng = np.random.default_rng(7)
    drawn = rng.normal(60, 3, 200_000) - rng.normal(52, 4, 200_000)
    assert drawn.std() == pytest.approx(change(3, 4), rel=0.01)


@given(before=SIZES, after=SIZES)
def test_it_lies_between_the_larger_and_the_sum_and_either_may_stand_first(before, after):
    assert max(before, after) * (1 - 1e-9) <= change(before, after) <= (before + after) * (1 + 1e-9)
    assert change(before, after) == pytest.approx(change(after, before))


def test_units_may_differ_and_the_first_one_stays():
    found = change_uncertainty(before=Q(3, "mV"), after=Q(0.004, "V"))
    assert found.m_as("mV") == pytest.approx(5) and f"{found.units}" == "millivolt"


@pytest.mark.parametrize("wrong, kind", [({"before": 3}, TypeError), ({"after": 3}, TypeError), ({"after": Q(3, "V")}, ValueError),
                                         ({"before": Q(-1, "mohm")}, ValueError), ({"after": Q(float("nan"), "mohm")}, ValueError)])
def test_a_wrong_argument_is_named(wrong, kind):
    with pytest.raises(kind, match=next(iter(wrong))):
        change_uncertainty(**{"before": Q(3, "mohm"), "after": Q(4, "mohm"), **wrong})
