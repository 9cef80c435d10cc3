"""Leads: gauge against diameter, the standard's limits against the copper they allow."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics import leads
from benchreckoner.units import Q


@given(st.integers(0, 34))
def test_six_gauges_halve_the_diameter(gauge):
    """ASTM B258: 39 steps are a factor of 92, so six are 92**(6/39) = 2.005."""
    ratio = leads.wire_diameter(gauge=gauge) / leads.wire_diameter(gauge=gauge + 6)
    assert ratio.m_as("") == pytest.approx(2.005, abs=0.001)


@given(st.floats(0.05, 5), st.floats(0.01, 100))
def test_resistance_goes_with_length_and_against_area(diameter, length):
    def ohms(d, m):
        return leads.wire_resistance(diameter=Q(d, "mm"), length=Q(m, "m")).m_as("ohm")

    assert ohms(diameter, 2 * length) == pytest.approx(2 * ohms(diameter, length))
    assert ohms(2 * diameter, length) == pytest.approx(ohms(diameter, length) / 4)


@pytest.mark.parametrize("area", [0.5, 0.75, 1.0, 1.5])
@pytest.mark.parametrize("conductor_class", [2, 5])
def test_the_standards_limits_are_physically_possible(area, conductor_class):
    """The copper that just meets each limit is less than the nominal area, but not by a fifth."""
    ohms = leads.lead_resistance(gauge=Q(area, "mm**2"), length=Q(1, "km"), conductor_class=conductor_class)
    copper = 1.7241e-8 * 1000 / ohms.m_as("ohm") * 1e6
    assert 0.8 * area < copper < area


def test_gauge_and_area_agree_where_they_meet():
    """AWG 20 is 0.52 mm2 (pi d^2 / 4 by ASTM B258): its ohms lie under the limit for 0.5 mm2."""
    assert math.pi / 4 * leads.wire_diameter(gauge=20).m_as("mm") ** 2 == pytest.approx(0.518, abs=0.001)
    gauge = leads.lead_resistance(gauge=20, length=Q(1, "m"))
    assert gauge < leads.lead_resistance(gauge=Q(0.5, "mm**2"), length=Q(1, "m")) < 1.25 * gauge


def test_warm_copper_has_more_ohms_and_cold_copper_fewer():
    def at(celsius):
        return leads.warm_copper(resistance=Q(1, "ohm"), temperature=Q(celsius, "degC")).m_as("ohm")

    assert at(20) == pytest.approx(1)
    # Second formula: R2/R1 = (234.5 + t2)/(234.5 + t1), read in an engineering page; FOUND.
    assert at(60) == pytest.approx((234.5 + 60) / (234.5 + 20), rel=1e-3)
    assert at(0) == pytest.approx(234.5 / 254.5, rel=1e-3)


@pytest.mark.parametrize("call", [
    {"gauge": 24.0}, {"gauge": -1}, {"gauge": 41}, {"gauge": True}, {"gauge": Q(0.6, "mm**2")}, {"gauge": Q(1, "mm")},
    {"gauge": 24, "temperature": Q(500, "degC")}, {"gauge": Q(0.5, "mm**2"), "conductor_class": 3},
])
def test_bad_input_is_refused(call):
    with pytest.raises(ValueError):
        leads.lead_resistance(**{"length": Q(1, "m"), **call})
