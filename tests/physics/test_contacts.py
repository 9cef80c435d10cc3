"""Laws of contacts: limits, signs, doubling, and a second route."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from benchreckoner.physics import contacts, parallel
from benchreckoner.units import Q

ohms = st.floats(1e-3, 100)
volts = st.floats(0.5, 60)


def held(supply, source, motor, links):
    return contacts.motor_voltage(supply=Q(supply, "V"), source_resistance=Q(source, "ohm"),
                                  motor_resistance=Q(motor, "ohm"), contact_resistance=Q(links, "ohm")).m_as("V")


@given(volts, ohms, ohms, ohms)
def test_kirchhoff_by_a_root_finder(supply, source, motor, links):
    """Second route: the current at which the loop's volts add up to nothing (scipy)."""
    current = brentq(lambda i: supply - i * (source + links + motor), 0, supply / motor + 1)
    assert held(supply, source, motor, links) == pytest.approx(current * motor, rel=1e-9)


@given(volts, ohms, ohms, ohms)
def test_perfect_links_leave_only_the_source(supply, source, motor, links):
    assert held(supply, source, motor, 0) == pytest.approx(supply * motor / (source + motor))
    assert held(supply, source, motor, links) < held(supply, source, motor, 0)
    assert held(2 * supply, source, motor, links) == pytest.approx(2 * held(supply, source, motor, links))


@given(volts, ohms, ohms, ohms)
def test_torque_ratio_is_the_ratio_of_volts(supply, source, motor, links):
    ratio = contacts.starting_torque_ratio(source_resistance=Q(source, "ohm"), motor_resistance=Q(motor, "ohm"),
                                           contact_resistance=Q(links, "ohm"))
    assert ratio == pytest.approx(held(supply, source, motor, links) / held(supply, source, motor, 0))


def test_an_open_link_leaves_nothing():
    assert held(9, 1, 10, 1e12) == pytest.approx(0, abs=1e-9)


@given(ohms, st.floats(0.001, 1))
def test_a_drop_and_its_resistance_undo_each_other(resistance, current):
    drop = contacts.voltage_drop(current=Q(current, "A"), contact_resistance=Q(resistance, "ohm"))
    back = contacts.contact_resistance(voltage_drop=drop, current=Q(current, "A"))
    assert back.m_as("ohm") == pytest.approx(resistance)


def test_running_speed_falls_with_the_volts_lost_and_stops_where_they_run_out():
    def speed(links):
        return contacts.running_speed_ratio(
            supply=Q(6, "V"), current=Q(0.12, "A"), source_resistance=Q(0.6, "ohm"),
            motor_resistance=Q(8, "ohm"), contact_resistance=Q(links, "ohm"))

    assert speed(0) == pytest.approx(1)
    # Straight line in the ohms, so two halves of the loss are equal.
    assert speed(0) - speed(1) == pytest.approx(speed(1) - speed(2))
    with pytest.raises(ValueError, match="supply"):
        speed(41.5)  # 0.12 A x 50.1 ohm is above 6 V


def test_parallel_contacts():
    def side_by_side(*resistances):
        return parallel.parallel_resistance(resistances=Q(resistances, "ohm")).m_as("ohm")

    assert side_by_side(0.3) == pytest.approx(0.3)
    assert side_by_side(0.3, 0.3, 0.3) == pytest.approx(0.1)
    assert side_by_side(0.3, 1e9) == pytest.approx(0.3)


@pytest.mark.parametrize("law", [
    lambda: contacts.contact_resistance(voltage_drop=Q(1, "V"), current=Q(0, "A")),
    lambda: contacts.contact_resistance(voltage_drop=Q(1, "V"), current=Q(-1, "A")),
    lambda: contacts.voltage_drop(current=Q(1, "A"), contact_resistance=Q(-1, "ohm")),
    lambda: held(9, 1, 0, 1),
    lambda: held(np.nan, 1, 1, 1),
    lambda: parallel.parallel_resistance(resistances=Q([0.1, 0], "ohm")),
])
def test_bad_input_is_refused(law):
    with pytest.raises(ValueError):
        law()


def test_a_bare_number_is_refused_by_name():
    with pytest.raises(TypeError, match="current"):
        contacts.contact_resistance(voltage_drop=Q(1, "V"), current=1)


@given(ohms, ohms)
def test_a_path_taken_off_leaves_the_part(part, path):
    """Second route: put the part back beside the path (F23)."""
    reading = parallel.parallel_resistance(resistances=Q([part, path], "ohm"))
    assert parallel.without_parallel(reading=reading, parallel=Q(path, "ohm")).m_as("ohm") == pytest.approx(part, rel=1e-6)


@pytest.mark.parametrize("reading", [10, 11])
def test_no_part_reads_more_than_the_path_across_it(reading):
    with pytest.raises(ValueError, match="reading: must be below the path"):
        parallel.without_parallel(reading=Q(reading, "ohm"), parallel=Q(10, "ohm"))


@given(st.floats(1, 1e5), st.floats(0, 40))
def test_ohms_from_a_loss_cost_that_loss(load, loss):
    """Second route: the contact's divider (F20)."""
    contact = contacts.resistance_from_loss(load_resistance=Q(load, "ohm"), loss=Q(loss, "dB")).m_as("ohm")
    assert -20 * np.log10(load / (load + contact)) == pytest.approx(loss, abs=1e-9)
