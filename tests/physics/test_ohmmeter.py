"""What a meter shows: leads only ever add, and reversal takes thermal volts out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics import ohmmeter
from benchreckoner.units import Q


@given(st.floats(0, 10), st.floats(0, 1), st.floats(0, 1))
def test_two_wires_never_read_below_the_link(resistance, lead, probe):
    shown = ohmmeter.two_wire_reading(resistance=Q(resistance, "ohm"), lead_resistance=Q(lead, "ohm"),
                                      probe_resistance=Q(probe, "ohm")).m_as("ohm")
    assert shown >= resistance
    assert shown - resistance == pytest.approx(2 * lead + 2 * probe)


@given(st.floats(1e-3, 1), st.floats(-1e-3, 1e-3), st.floats(0.01, 2))
def test_reversal_takes_the_thermal_voltage_out(resistance, thermal, current):
    got = ohmmeter.reversed_contact_resistance(
        forward_drop=Q(resistance * current + thermal, "V"),
        backward_drop=Q(-resistance * current + thermal, "V"), current=Q(current, "A"))
    assert got.m_as("ohm") == pytest.approx(resistance)


def test_more_current_makes_the_thermal_error_smaller():
    def error(current):
        return ohmmeter.thermal_resistance_error(sensitivity=Q(3, "uV/K"),
                                                 temperature_difference=Q(10, "delta_degC"), current=current)

    assert error(Q(1, "A")).m_as("ohm") == pytest.approx(error(Q(0.1, "A")).m_as("ohm") / 10)


def test_a_temperature_is_refused_where_a_difference_belongs():
    with pytest.raises(ValueError, match="delta_degC"):
        ohmmeter.thermal_resistance_error(sensitivity=Q(3, "uV/K"), temperature_difference=Q(10, "degC"),
                                          current=Q(1, "A"))
