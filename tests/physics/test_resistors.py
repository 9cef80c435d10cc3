"""Resistors by their laws: limits, doubling, watts that add up, and a second route."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.physics import resistors
from benchreckoner.physics.contacts import contact_resistance
from benchreckoner.physics.parallel import without_parallel
from benchreckoner.physics.signal import series_loss
from benchreckoner.units import Q

OHMS = some.floats(0.5, 1000)


def test_the_allowed_watts_fall_on_a_straight_line_to_nothing():
    """Half way between 70 and 155 degC half is left, and a hair below 155 next to nothing."""
    def left(celsius):
        return resistors.allowed_power(rated_power=Q(2, "W"), temperature=Q(celsius, "degC")).m_as("W")

    assert [left(celsius) for celsius in (-10, 70, 112.5)] == pytest.approx([2, 2, 1]) and 0 < left(154.99) < 0.001


@pytest.mark.parametrize("celsius", [155, 200])
def test_a_place_as_hot_as_the_part_may_be_is_refused(celsius):
    with pytest.raises(ValueError, match="temperature: .*cooler place"):
        resistors.allowed_power(rated_power=Q(2, "W"), temperature=Q(celsius, "degC"))


@given(celsius=some.floats(70, 154), rated=some.floats(0.1, 5), hottest=some.floats(154.5, 200))
def test_at_the_allowed_watts_the_hot_spot_is_at_its_limit(celsius, rated, hottest):
    watts = resistors.allowed_power(rated_power=Q(rated, "W"), temperature=Q(celsius, "degC"), hottest=Q(hottest, "degC"))
    spot = resistors.hot_spot(ambient=Q(celsius, "degC"), power=watts, rated_power=Q(rated, "W"), hottest=Q(hottest, "degC"))
    assert spot.m_as("degC") == pytest.approx(hottest)


def test_no_watts_no_rise_and_twice_the_watts_twice_the_rise():
    def spot(watts):
        return resistors.hot_spot(ambient=Q(30, "degC"), power=Q(watts, "W"), rated_power=Q(1, "W")).m_as("degC")

    assert spot(0) == 30 and spot(0.8) - 30 == pytest.approx(2 * (spot(0.4) - 30))


def test_heat_goes_with_the_square_and_not_with_the_sign():
    def heat(volts):
        return resistors.dissipated_power(voltage=Q(volts, "V"), resistance=Q(10, "ohm")).m_as("W")

    assert heat(-3) == pytest.approx(0.9) and heat(6) == pytest.approx(4 * heat(3))


@given(watts=some.floats(0.1, 5), ohms=OHMS, times=some.floats(0.1, 20))
def test_a_burning_current_makes_just_that_heat(watts, ohms, times):
    current = resistors.burning_current(rated_power=Q(watts, "W"), resistance=Q(ohms, "ohm"), times=times)
    assert resistors.dissipated_power(voltage=current * Q(ohms, "ohm"), resistance=Q(ohms, "ohm")).m_as("W") == pytest.approx(times * watts)


@pytest.mark.parametrize("times", [0, -1, True, "6"])
def test_a_factor_is_a_number_above_zero(times):
    with pytest.raises(ValueError, match="times: .*6.25"):
        resistors.burning_current(rated_power=Q(1, "W"), resistance=Q(1, "ohm"), times=times)


@given(load=OHMS, ohms=OHMS, source=some.floats(0, 10))
@pytest.mark.parametrize("law", [resistors.across_load, resistors.in_series_with_load])
def test_the_watts_add_up_to_what_the_source_gives(law, load, ohms, source):
    effect = law(voltage=Q(3, "V"), load_resistance=Q(load, "ohm"), resistance=Q(ohms, "ohm"), source_resistance=Q(source, "ohm"))
    given_off = 3 * effect.current.m_as("A") - effect.current.m_as("A") ** 2 * source
    assert (effect.load_power + effect.resistor_power).m_as("W") == pytest.approx(given_off)
    assert contact_resistance(voltage_drop=Q(3, "V") - effect.current * Q(source, "ohm"), current=effect.current).m_as("ohm") == (
        pytest.approx(effect.load.m_as("ohm")))


@given(load=OHMS, ohms=OHMS, source=some.floats(0.1, 10))
@pytest.mark.parametrize("law", [resistors.across_load, resistors.in_series_with_load])
def test_the_level_is_the_load_s_watts_against_none(law, load, ohms, source):
    """Second route: ten times the logarithm of its watts with and without the resistor."""
    effect = law(voltage=Q(3, "V"), load_resistance=Q(load, "ohm"), resistance=Q(ohms, "ohm"), source_resistance=Q(source, "ohm"))
    alone = (3 / (load + source)) ** 2 * load
    assert effect.level.m_as("dB") == pytest.approx(10 * math.log10(effect.load_power.m_as("W") / alone), abs=1e-9)


@given(load=OHMS, ohms=OHMS)
def test_a_stiff_source_heeds_no_shunt_and_loses_by_series_as_a_divider_does(load, ohms):
    given_here = dict(voltage=Q(1, "V"), load_resistance=Q(load, "ohm"), resistance=Q(ohms, "ohm"))
    across = resistors.across_load(**given_here)
    assert across.level.m_as("dB") == pytest.approx(0, abs=1e-9)
    assert without_parallel(reading=across.load, parallel=Q(load, "ohm")).m_as("ohm") == pytest.approx(ohms, rel=1e-6)
    loss = series_loss(load_resistance=Q(load, "ohm"), series_resistance=Q(ohms, "ohm"))
    assert resistors.in_series_with_load(**given_here).level.m_as("dB") == pytest.approx(loss.m_as("dB"))


def test_a_bare_number_is_refused_by_name():
    with pytest.raises(TypeError, match="resistance"):
        resistors.across_load(voltage=Q(1, "V"), load_resistance=Q(8, "ohm"), resistance=33)
