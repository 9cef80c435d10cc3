"""How hot a motor gets: limits, proportion, numerical solutions and repeated sums as a second route."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.integrate import solve_ivp

from benchreckoner.physics import warming
from benchreckoner.physics.copper import warmed_resistance
from benchreckoner.units import Q

HEAT, STORE = some.floats(1, 60), some.floats(0.5, 100)
PER_KELVIN = 1 / 254.5


def kelvin_per_watt(value):
    return Q(value, "delta_degC/W")


def joule_per_kelvin(value):
    return Q(value, "J/delta_degC")


@settings(max_examples=30, deadline=None)
@given(power=some.floats(0.01, 5), resistance=HEAT, store=STORE, waited=some.floats(0.1, 5))
def test_one_store_against_a_numerical_solution(power, resistance, store, waited):
    time = waited * resistance * store
    found = solve_ivp(lambda _, rise: (power - rise / resistance) / store, (0, time), [0.0], rtol=1e-10, atol=1e-12)
    ours = warming.rise_after(power=Q(power, "W"), thermal_resistance=kelvin_per_watt(resistance),
                              heat_capacity=joule_per_kelvin(store), time=Q(time, "s"))
    assert float(ours.m_as("delta_degC")) == pytest.approx(found.y[0, -1], rel=1e-7)


def test_at_first_all_the_heat_stays():
    """2 s of 1 W in 1.9 J/K: nearly 2/1.9 K, whatever can leave."""
    for leak in (50, 5000):
        rise = warming.rise_after(power=Q(1, "W"), thermal_resistance=kelvin_per_watt(leak), heat_capacity=joule_per_kelvin(1.9),
                                  time=Q(2, "s"))
        assert float(rise.m_as("delta_degC")) == pytest.approx(2 / 1.9, rel=0.5 * 2 / 1.9 / leak * 1.1)


@given(inner=HEAT, outer=HEAT, winding=STORE, housing=STORE)
def test_two_time_constants_are_the_rates_eigenvalues(inner, outer, winding, housing):
    rates = np.array([[-1 / inner / winding, 1 / inner / winding], [1 / inner / housing, -(1 / inner + 1 / outer) / housing]])
    expected = sorted(-1 / np.linalg.eigvals(rates).real)
    ours = warming.two_time_constants(winding_to_housing=kelvin_per_watt(inner), housing_to_air=kelvin_per_watt(outer),
                                      winding_capacity=joule_per_kelvin(winding), housing_capacity=joule_per_kelvin(housing))
    assert [float(one.m_as("s")) for one in ours] == pytest.approx(expected, rel=1e-6)


@given(share=some.floats(0.05, 0.9), ohms=some.floats(5, 60), thermal=some.floats(10, 80), air=some.floats(0, 45))
def test_a_held_current_by_repeating_until_it_stays(share, ohms, thermal, air):
    edge = float(warming.runaway_current(winding_resistance=Q(ohms, "ohm"), thermal_resistance=kelvin_per_watt(thermal)).m_as("A"))
    rise = 0.0
    for _ in range(400):
        rise = thermal * (share * edge) ** 2 * ohms * (1 + PER_KELVIN * (air + rise - 20))
    end = warming.held_temperature(current=Q(share * edge, "A"), winding_resistance=Q(ohms, "ohm"),
                                   thermal_resistance=kelvin_per_watt(thermal), ambient=Q(air, "degC"))
    assert float(end.m_as("degC")) == pytest.approx(air + rise, rel=1e-6)


def test_runaway_is_told_and_never_a_number():
    with pytest.raises(ValueError, match="current: 0.71 A held never settles.*0.706 A"):
        warming.held_temperature(current=Q(0.71, "A"), winding_resistance=Q(15, "ohm"), thermal_resistance=kelvin_per_watt(34))
    near = warming.held_temperature(current=Q(0.70, "A"), winding_resistance=Q(15, "ohm"), thermal_resistance=kelvin_per_watt(34))
    assert near.m_as("degC") > 5000, "just below the edge the law leads far past anything real"


@given(volts=some.floats(0.5, 15), source=some.floats(0, 20), thermal=some.floats(10, 80), air=some.floats(0, 45))
def test_a_stalled_motor_sheds_what_it_takes(volts, source, thermal, air):
    end, amps = warming.stalled_end(voltage=Q(volts, "V"), source_resistance=Q(source, "ohm"), winding_resistance=Q(15, "ohm"),
                                    thermal_resistance=kelvin_per_watt(thermal), ambient=Q(air, "degC"))
    degrees, amps = float(end.m_as("degC")), float(amps.m_as("A"))
    ohms = 15 * (234.5 + degrees) / 254.5
    assert amps == pytest.approx(volts / (ohms + source)) and degrees - air == pytest.approx(thermal * amps**2 * ohms, abs=1e-6)


def test_no_volts_no_heat():
    end, amps = warming.stalled_end(voltage=Q(0, "V"), source_resistance=Q(1, "ohm"), winding_resistance=Q(15, "ohm"),
                                    thermal_resistance=kelvin_per_watt(34))
    assert end.m_as("degC") == 20 and amps.m_as("A") == 0


@given(working=some.floats(1, 300), resting=some.floats(1, 300), tau=some.floats(5, 500))
def test_a_rhythm_repeats_itself(working, resting, tau):
    lowest, highest = (float(one.m_as("degC")) for one in warming.rhythm_temperatures(
        load_end=Q(90, "degC"), idle_end=Q(20, "degC"), load_time=Q(working, "s"), idle_time=Q(resting, "s"), time_constant=Q(tau, "s")))
    assert 90 - (90 - lowest) * np.exp(-working / tau) == pytest.approx(highest)
    assert 20 + (highest - 20) * np.exp(-resting / tau) == pytest.approx(lowest)


def test_a_quick_rhythm_is_its_mean_heat():
    """Turns far shorter than the time constant: a third of the time at work gives a third of the rise."""
    ends = warming.rhythm_temperatures(load_end=Q(80, "degC"), idle_end=Q(20, "degC"), load_time=Q(0.01, "s"), idle_time=Q(0.02, "s"),
                                       time_constant=Q(60, "s"))
    assert [float(one.m_as("degC")) for one in ends] == pytest.approx([40, 40], abs=0.02)


def test_ten_kelvin_halve_and_double():
    factors = [warming.insulation_life_factor(temperature=Q(degrees, "degC"), rated=Q(105, "degC")) for degrees in (95, 105, 115)]
    assert factors == pytest.approx([0.5, 1, 2])


def test_a_hotter_winding_has_warmer_ohms_in_the_end():
    """The closed form against copper's own law: heat by the ohms at the end temperature."""
    end = warming.held_temperature(current=Q(0.3, "A"), winding_resistance=Q(15, "ohm"), thermal_resistance=kelvin_per_watt(34))
    ohms = warmed_resistance(resistance=Q(15, "ohm"), cold=Q(20, "degC"), warm=end)
    assert float((Q(0.3, "A") ** 2 * ohms).m_as("W")) * 34 == pytest.approx(float(end.m_as("degC")) - 20)


ONE = dict(power=Q(1, "W"), thermal_resistance=kelvin_per_watt(10), heat_capacity=joule_per_kelvin(2), time=Q(1, "s"))
STALLED = dict(voltage=Q(8, "V"), source_resistance=Q(1, "ohm"), winding_resistance=Q(15, "ohm"), thermal_resistance=kelvin_per_watt(34))
TWO = dict(winding_to_housing=kelvin_per_watt(10), housing_to_air=kelvin_per_watt(24), winding_capacity=joule_per_kelvin(2),
           housing_capacity=joule_per_kelvin(46))
RHYTHM = dict(load_end=Q(80, "degC"), idle_end=Q(20, "degC"), load_time=Q(1, "s"), idle_time=Q(1, "s"), time_constant=Q(60, "s"))


@pytest.mark.parametrize(("law", "right", "wrong"), [
    (warming.rise_after, ONE, dict(power=Q(-1, "W"))), (warming.rise_after, ONE, dict(time=Q(-1, "s"))),
    (warming.rise_after, ONE, dict(heat_capacity=joule_per_kelvin(0))), (warming.rise_after, ONE, dict(thermal_resistance=Q(1, "ohm"))),
    (warming.stalled_end, STALLED, dict(voltage=Q(-1, "V"))), (warming.stalled_end, STALLED, dict(source_resistance=Q(-1, "ohm"))),
    (warming.stalled_end, STALLED, dict(winding_resistance=Q(0, "ohm"))),
    (warming.two_time_constants, TWO, dict(winding_capacity=joule_per_kelvin(-1))),
    (warming.two_time_constants, TWO, dict(housing_to_air=kelvin_per_watt(0))),
    (warming.rhythm_temperatures, RHYTHM, dict(idle_time=Q(0, "s"))), (warming.rhythm_temperatures, RHYTHM, dict(time_constant=Q(0, "s"))),
])
def test_nonsense_is_told_by_its_name(law, right, wrong):
    with pytest.raises(ValueError, match=next(iter(wrong))):
        law(**{**right, **wrong})
