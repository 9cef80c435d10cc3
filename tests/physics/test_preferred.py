"""Preferred values: twelve nearly equal steps of ratio a decade."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics.preferred import E12, nearest_preferred, preferred_neighbours
from benchreckoner.units import Q

# IEC 60063, series E12, read again from the public list, in whole ohms of the second decade.
LISTED = (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82, 100)


def nearest(ohms):
    return nearest_preferred(resistance=Q(ohms, "ohm")).m_as("ohm")


def neighbours(ohms):
    return tuple(one.m_as("ohm") for one in preferred_neighbours(resistance=Q(ohms, "ohm")))


def test_the_series_is_geometric_within_its_rounding():
    """IEC 60063 builds E12 on steps of the twelfth root of ten; the listed values are that, rounded by hand."""
    for place, value in enumerate(E12):
        assert value == pytest.approx(10 ** (place / 12), rel=0.05)


@given(st.floats(1e-2, 1e6))
def test_no_value_is_further_than_half_a_step(ohms):
    assert 1 / 1.13 < nearest(ohms) / ohms < 1.13


@given(st.floats(1e-2, 1e5))
def test_ten_times_the_ohms_is_ten_times_the_resistor(ohms):
    assert nearest(10 * ohms) == pytest.approx(10 * nearest(ohms))


def test_over_the_top_of_a_decade():
    assert nearest(9.5) == 10 and nearest(0.095) == pytest.approx(0.1)


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
    assert below * (1 - 1e-8) <= ohms <= above * (1 + 1e-8)
    assert nearest(ohms) in (below, above)
    assert abs(np.log(nearest(ohms) / ohms)) <= min(np.log(above / ohms), np.log(ohms / below)) + 1e-8


def test_many_at_once():
    below, above = preferred_neighbours(resistance=Q(np.array([4.3, 470.0]), "ohm"))
    assert below.m_as("ohm") == pytest.approx([3.9, 470]) and above.m_as("ohm") == pytest.approx([4.7, 470])
    assert nearest_preferred(resistance=Q(np.array([4.2, 470.0]), "ohm")).m_as("ohm") == pytest.approx([3.9, 470])


@pytest.mark.parametrize("ohms", [0, -1, 1e-7, 2e9])
def test_what_no_resistor_has_is_refused(ohms):
    with pytest.raises(ValueError, match="resistance"):
        neighbours(ohms)
