"""Preferred values: nearly equal steps of ratio, as many a decade as the series' name says."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics.preferred import SERIES, nearest_preferred, smallest_series
from benchreckoner.units import Q


def nearest(ohms, series="E12"):
    return nearest_preferred(value=Q(ohms, "ohm"), series=series).m_as("ohm")


@pytest.mark.parametrize("name", SERIES)
def test_the_series_is_geometric_within_its_rounding(name):
    """IEC 60063 builds En on steps of the nth root of ten; the listed values are that, some rounded by hand."""
    steps = int(name.removeprefix("E"))
    assert len(SERIES[name]) == steps
    for place, value in enumerate(SERIES[name]):
        assert value == pytest.approx(10 ** (place / steps), rel=0.05)


@pytest.mark.parametrize(("coarse", "fine"), list(itertools.pairwise(("E3", "E6", "E12", "E24"))))
def test_each_series_holds_the_coarser_one(coarse, fine):
    assert set(SERIES[coarse]) < set(SERIES[fine])


def test_which_values_are_not_the_rounded_steps():
    """Check value C55: so E24 must be listed, and cannot be reckoned."""
    odd = {value for place, value in enumerate(SERIES["E24"]) if round(10 ** (place / 24), 1) != value}
    assert odd == {2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2}


@pytest.mark.parametrize("name", SERIES)
@given(ohms=st.floats(1e-2, 1e6))
def test_no_value_is_further_than_half_a_step(name, ohms):
    widest = max(high / low for low, high in itertools.pairwise((*SERIES[name], 10.0)))
    assert widest**-0.5 * (1 - 1e-9) <= nearest(ohms, name) / ohms <= widest**0.5 * (1 + 1e-9)


def test_nearest_is_by_ratio():
    """1.097 is 9.7 % above 1.0 and 9.4 % below 1.2, though it is nearer to 1.0 in ohms."""
    assert nearest(1.097) == 1.2


@given(ohms=st.floats(1e-2, 1e5), name=st.sampled_from(list(SERIES)))
def test_ten_times_the_ohms_is_ten_times_the_resistor(ohms, name):
    assert nearest(10 * ohms, name) == pytest.approx(10 * nearest(ohms, name))


@given(place=st.integers(0, 95), decade=st.integers(-12, 6), name=st.sampled_from(list(SERIES)))
def test_a_listed_value_is_its_own_nearest_and_its_series_is_found(place, decade, name):
    value = Q(SERIES[name][place % len(SERIES[name])] * 10.0**decade, "F")
    assert nearest_preferred(value=value, series=name).m_as("F") == pytest.approx(value.m_as("F"), rel=1e-9)
    found = smallest_series(value=value)
    assert list(SERIES).index(found) <= list(SERIES).index(name)


def test_over_the_top_of_a_decade():
    assert nearest(9.5) == 10 and nearest(0.095) == pytest.approx(0.1)


def test_the_unit_given_comes_back():
    assert nearest_preferred(value=Q(4.4, "uF")).units == Q(1, "uF").units


@pytest.mark.parametrize("value", [Q(0, "ohm"), Q(-1, "ohm"), Q(float("nan"), "ohm")])
def test_nonsense_is_refused(value):
    with pytest.raises(ValueError, match="value"):
        nearest_preferred(value=value)
    with pytest.raises(ValueError, match="E24"):
        nearest_preferred(value=Q(1, "ohm"), series="E7")
    with pytest.raises(TypeError, match="value"):
        smallest_series(value=3)
