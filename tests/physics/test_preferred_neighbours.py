"""The two preferred values round a value: side by side in the list, and one of them the nearest."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics.preferred import nearest_preferred, preferred_neighbours
from benchreckoner.units import Q

# IEC 60063, series E12, read again from the public list, in whole ohms of the second decade.
LISTED = (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82, 100)


def neighbours(ohms):
    return tuple(one.m_as("ohm") for one in preferred_neighbours(value=Q(ohms, "ohm")))


@pytest.mark.parametrize(("low", "high"), list(zip(LISTED, LISTED[1:])))
@pytest.mark.parametrize("power", [-4, 0, 4])
def test_neighbours_stand_side_by_side_in_the_list(low, high, power):
    pair = pytest.approx((low * 10.0**power, high * 10.0**power))
    for share in (0.01, 0.5, 0.99):
        assert neighbours((low + share * (high - low)) * 10.0**power) == pair
    assert neighbours(low * 10.0**power) == pytest.approx((low * 10.0**power,) * 2)


@given(st.floats(1e-5, 1e8))
def test_the_nearest_is_one_of_the_neighbours_and_they_hold_the_value(ohms):
    below, above = neighbours(ohms)
    assert below * (1 - 1e-5) <= ohms <= above * (1 + 1e-5)
    nearest = nearest_preferred(value=Q(ohms, "ohm")).m_as("ohm")
    assert nearest in (pytest.approx(below), pytest.approx(above))
    assert abs(math.log(nearest / ohms)) <= min(abs(math.log(above / ohms)), abs(math.log(ohms / below))) + 1e-5


def test_the_unit_given_comes_back_and_another_series_is_another_pair():
    below, above = preferred_neighbours(value=Q(4.4, "uF"), series="E6")
    assert below.units == above.units == Q(1, "uF").units and (below.magnitude, above.magnitude) == (3.3, 4.7)
