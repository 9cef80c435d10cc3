"""Preferred values: twelve nearly equal steps of ratio a decade."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics.preferred import E12, nearest_preferred
from benchreckoner.units import Q


def nearest(ohms):
    return nearest_preferred(resistance=Q(ohms, "ohm")).m_as("ohm")


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
