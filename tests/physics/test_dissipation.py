"""Laws of a pass transistor's heat: the worst load, both sides of the knee, chains, what is refused."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from benchreckoner.physics.dissipation import (
    derated_power, governed_power, junction_temperature, largest_power, thermal_resistance, transistor_power, worst_governed_load,
)
from benchreckoner.units import Q

SET = dict(open_voltage=Q(9, "V"), source_resistance=Q(2.2, "ohm"), set_voltage=Q(3.26726, "V"), compensation=Q(15, "ohm"),
           regulator_drop=Q(0.3, "V"))


def watts(milliamperes, **change):
    return governed_power(current=Q(milliamperes, "mA"), **{**SET, **change}).m_as("W")


@settings(max_examples=60)
@given(volts=st.floats(4, 15), source=st.floats(0.5, 10), compensation=st.floats(0, 20), drop=st.floats(0.1, 1.5))
def test_the_worst_load_is_where_scipy_finds_it(volts, source, compensation, drop):
    """The largest of V I over the currents that the governor still holds, by a search instead of a slope."""
    if volts - drop - 3 < 0.05:
        return
    limit = (volts - drop - 3) / (compensation + source)
    found = minimize_scalar(lambda amps: -(volts - 3 - (compensation + source) * amps) * amps, bounds=(0, limit), method="bounded",
                            options={"xatol": 1e-9})
    ours = worst_governed_load(open_voltage=Q(volts, "V"), source_resistance=Q(source, "ohm"), set_voltage=Q(3, "V"),
                               compensation=Q(compensation, "ohm"), regulator_drop=Q(drop, "V"))
    assert ours.m_as("A") == pytest.approx(found.x, rel=1e-3, abs=1e-5)


def test_the_heat_has_no_jump_where_the_governor_lets_go():
    assert watts(315.86 - 0.01) == pytest.approx(watts(315.86 + 0.01), rel=2e-3)


def test_a_stalled_motor_heats_its_transistor_less_than_playing():
    """S9 held: 8.7 V in 17.2 ohm are 506 mA, times the drop alone."""
    assert watts(505.81) == pytest.approx(0.3 * 0.50581, rel=1e-6) and watts(505.81) < watts(85) < watts(166.65)


def test_a_higher_supply_heats_by_its_extra_volts():
    assert watts(85, open_voltage=Q(14, "V")) - watts(85) == pytest.approx(5 * 0.085)


def test_nothing_flows_nothing_heats():
    assert watts(0) == 0 and transistor_power(voltage_drop=Q(5, "V"), current=Q(0, "A")).magnitude == 0


def test_heat_is_what_the_supply_gives_less_what_everything_else_takes():
    """Energy: supply volts times amperes, less source, less motor."""
    amps = 0.12
    motor = (3.26726 + 15 * amps) * amps
    assert watts(120) == pytest.approx(9 * amps - 2.2 * amps**2 - motor)


@given(ambient=st.floats(-10, 60), chain=st.lists(st.floats(0.5, 100), min_size=1, max_size=4))
def test_the_largest_power_brings_the_junction_to_its_limit(ambient, chain):
    most = largest_power(junction_limit=Q(150, "degC"), ambient=Q(ambient, "degC"), resistances=Q(chain, "K/W"))
    warm = junction_temperature(ambient=Q(ambient, "degC"), power=most, resistances=Q(chain, "K/W"))
    assert warm.m_as("degC") == pytest.approx(150)
    back = thermal_resistance(hot=warm, cold=Q(ambient, "degC"), power=most)
    assert back.m_as("K/W") == pytest.approx(sum(chain))


def test_many_powers_at_once():
    warm = junction_temperature(ambient=Q(25, "degC"), power=Q([0, 1, 2], "W"), resistances=Q([10, 20], "K/W"))
    assert np.allclose(warm.m_as("degC"), [25, 55, 85])


def test_derating_meets_the_chain():
    """A slope of one over the resistance: both ways to the same watts; below the rated temperature nothing is added."""
    rated = dict(rated_power=Q(0.5, "W"), slope=Q(4, "mW/K"))
    chain = largest_power(junction_limit=Q(150, "degC"), ambient=Q(70, "degC"), resistances=Q([250], "K/W"))
    assert derated_power(ambient=Q(70, "degC"), **rated).m_as("W") == pytest.approx(chain.m_as("W"))
    assert derated_power(ambient=Q(0, "degC"), **rated).m_as("W") == 0.5


@pytest.mark.parametrize(("call", "told"), [
    (lambda: watts(85, open_voltage=Q(0.2, "V")), "open_voltage"),
    (lambda: watts(4000), "current: supply and drop give 3955 mA"),
    (lambda: watts(-1), "current: must be at least 0"),
    (lambda: worst_governed_load(**{**SET, "open_voltage": Q(3, "V")}), "open_voltage: 3 V cannot hold"),
    (lambda: largest_power(junction_limit=Q(150, "degC"), ambient=Q(150, "degC"), resistances=Q([3], "K/W")), "ambient"),
    (lambda: largest_power(junction_limit=Q(150, "degC"), ambient=Q(25, "degC"), resistances=Q([0], "K/W")), "resistances"),
    (lambda: thermal_resistance(hot=Q(20, "degC"), cold=Q(25, "degC"), power=Q(1, "W")), "cold"),
    (lambda: derated_power(rated_power=Q(0.5, "W"), slope=Q(4, "mW/K"), ambient=Q(150, "degC")), "ambient: at 150 °C"),
])
def test_what_cannot_be_is_told(call, told):
    with pytest.raises(ValueError, match=told):
        call()


def test_a_bare_number_is_refused_by_name():
    with pytest.raises(TypeError, match="voltage_drop"):
        transistor_power(voltage_drop=4, current=Q(1, "A"))
