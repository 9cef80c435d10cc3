"""A motor that warms itself: against the two stores' closed form, another solver, repeated sums, and the speed equation."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.integrate import solve_ivp
from scipy.linalg import expm

from benchreckoner.physics import bearing_load, warm_motor
from benchreckoner.units import Q

HEAT = dict(winding_to_housing=Q(10, "delta_degC/W"), housing_to_air=Q(24, "delta_degC/W"))
STORES = dict(winding_capacity=Q(1.9, "J/delta_degC"), housing_capacity=Q(46, "J/delta_degC"))
SET = dict(set_voltage=Q(3.2672564, "V"), compensation=Q(15, "ohm"), regulator_drop=Q(0.3, "V"), source_resistance=Q(2.2, "ohm"),
           winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
SOLVED = settings(max_examples=15, deadline=None)
TIMES = np.geomspace(2, 7200, 25)


def run(amps, start=20.0, air=20.0, **other):
    values = dict(cold_current=Q(amps, "A"), time=Q(TIMES, "s"), start=Q(start, "degC"), air=Q(air, "degC"),
                  winding_resistance=Q(15, "ohm"), **HEAT, **STORES)
    return np.array([one.m_as("degC") for one in warm_motor.warming_temperatures(**{**values, **other})])


def drift(amps, winding, magnet, supply=9.0, **other):
    values = dict(cold_current=Q(amps, "A"), winding=Q(winding, "degC"), magnet=Q(magnet, "degC"), open_voltage=Q(supply, "V"), **SET)
    return warm_motor.warm_drift(**{**values, **other}).m_as("percent")


@SOLVED
@given(amps=some.floats(0.02, 0.3), start=some.floats(0, 30), air=some.floats(0, 50))
def test_the_run_against_another_solver(amps, start, air):
    """An implicit solver at tight tolerance, the equations written anew."""
    def flow(_, state):
        winding, magnet = state
        heat = (amps / (1 - 0.002 * (magnet - 20))) ** 2 * 15 * (234.5 + winding) / 254.5
        return (heat - (winding - magnet) / 10) / 1.9, ((winding - magnet) / 10 - (magnet - air) / 24) / 46

    expected = solve_ivp(flow, (0, 7200), [start, start], method="Radau", t_eval=TIMES, rtol=1e-9, atol=1e-9).y
    assert np.abs(run(amps, start, air) - expected).max() < 0.01


def test_small_heat_follows_the_closed_form():
    """So little current that copper and magnet hardly change: two stores under constant heat, by the matrix exponential."""
    rates = np.array([[-1 / 19, 1 / 19], [1 / 460, -(1 / 10 + 1 / 24) / 46]])
    heat = np.array([0.01**2 * 15 / 1.9, 0])
    end = -np.linalg.solve(rates, heat)
    expected = np.array([end - expm(rates * time) @ end for time in TIMES]).T
    assert run(0.01, winding_resistance=Q(1e3 * 15, "ohm"), cold_current=Q(0.01 / 1e3**0.5, "A")) - 20 == pytest.approx(
        expected, rel=2e-3, abs=1e-3)


def test_no_load_cools_to_the_air_on_the_long_time_constant():
    """By an hour only the slow part is left; it falls by e in 1150.366 s (check value T10)."""
    _, magnet = run(0.0, start=60.0, air=20.0, time=Q([3000.0, 3000 + 1150.366], "s"))
    assert (magnet[1] - 20) / (magnet[0] - 20) == pytest.approx(np.exp(-1), rel=2e-3)


def test_the_shares_of_the_rise():
    """Steady heat: 56.7, 74.3 and 84.7 % after 10, 20 and 30 minutes, by the matrix exponential. Heat that grows comes a little later."""
    winding, _ = run(0.14, time=Q([10.0, 20.0, 30.0, 600.0], "min"))
    shares = (winding[:3] - 20) / (winding[3] - 20)
    rates = np.array([[-1 / 19, 1 / 19], [1 / 460, -(1 / 10 + 1 / 24) / 46]])
    steady = [1 - (expm(rates * time) @ np.array([34, 24]))[0] / 34 for time in (600, 1200, 1800)]
    assert np.all(shares < steady) and shares == pytest.approx(steady, abs=0.025)
    assert shares == pytest.approx([0.56, 0.73, 0.84], abs=0.02), "the reference's own"


@given(amps=some.floats(0, 0.28), air=some.floats(0, 50))
def test_the_end_by_repeating_until_it_stays(amps, air):
    watts = 0.0
    for _ in range(500):
        magnet = air + 24 * watts
        watts = (amps / (1 - 0.002 * (magnet - 20))) ** 2 * 15 * (234.5 + magnet + 10 * watts) / 254.5
    ours = warm_motor.settled_temperatures(cold_current=Q(amps, "A"), air=Q(air, "degC"), winding_resistance=Q(15, "ohm"), **HEAT)
    assert [float(one.m_as("degC")) for one in ours] == pytest.approx([air + 34 * watts, air + 24 * watts], abs=1e-4)


def test_the_run_ends_where_it_settles():
    ends = warm_motor.settled_temperatures(cold_current=Q(0.25, "A"), air=Q(40, "degC"), winding_resistance=Q(15, "ohm"), **HEAT)
    last = run(0.25, air=40.0, time=Q(10, "hour"))
    assert last == pytest.approx([float(one.m_as("degC")) for one in ends], abs=0.02)


def test_a_motor_that_runs_away_is_told():
    with pytest.raises(ValueError, match="cold_current: 0.65 A never settles below 250 degC"):
        warm_motor.settled_temperatures(cold_current=Q(0.65, "A"), air=Q(20, "degC"), winding_resistance=Q(15, "ohm"), **HEAT)
    with pytest.raises(ValueError, match="cold_current: 0.65 A takes the winding past 250 degC after"):
        run(0.65, time=Q([60.0, 36000.0], "s"))


@given(amps=some.floats(0.02, 0.2), rise=some.floats(-20, 60))
def test_the_governed_drift_by_its_equation(amps, rise):
    """Volts in hand: [E - (R(t) - Rc) I / s] / s against E, with s the magnet's strength."""
    strength = 1 - 0.002 * rise
    expected = (3.2672564 - (15 * (254.5 + rise) / 254.5 - 15) * amps / strength) / strength / 3.2672564 - 1
    assert float(drift(amps, 20 + rise, 20 + rise, supply=12.0)) == pytest.approx(100 * expected, abs=1e-6)


def test_copper_slows_and_a_magnet_speeds():
    assert drift(0.085, 50, 20) < 0 < drift(0.085, 20, 50)


def test_the_two_cancel_at_one_load():
    loads = np.linspace(0.02, 0.2, 400)
    signs = np.sign([drift(amps, 50, 50) for amps in loads])
    assert np.sum(signs[1:] != signs[:-1]) == 1 and signs[0] > 0


def test_no_change_at_the_start_itself():
    assert float(drift(0.14, 5, 5, start=Q(5, "degC"))) == pytest.approx(0, abs=1e-9)


def test_out_of_headroom_warmth_costs_more():
    """M31: at 6 V and 140 mA, 30 K put it past its 141 mA; at 9 V they do not."""
    assert drift(0.14, 50, 50, supply=6.0) < drift(0.14, 50, 50) - 3
    assert drift(0.14, 50, 50, supply=12.0) == pytest.approx(drift(0.14, 50, 50))


@given(volts=some.floats(-0.3, 0.3), amps=some.floats(-0.02, 0.02), ohms=some.floats(-1, 2))
def test_the_parts_add_up_to_the_whole(volts, amps, ohms):
    parts = warm_motor.drift_parts(cold_voltage=Q(4.5, "V"), warm_voltage=Q(4.5 + volts, "V"), cold_current=Q(0.085, "A"),
                                   warm_current=Q(0.085 + amps, "A"), cold_resistance=Q(15, "ohm"), warm_resistance=Q(15 + ohms, "ohm"))
    cold, warm = 4.5 - 0.085 * 15, 4.5 + volts - (0.085 + amps) * (15 + ohms)
    assert sum(float(part.m_as("percent")) for part in parts) == pytest.approx(200 * (warm - cold) / (warm + cold), abs=1e-9)


def test_a_belt_s_limit_and_current_are_each_other_turned_round():
    belt = dict(hub_load=Q(0.8, "N"), bending_torque=Q(30, "uN*m"), shaft_radius=Q(1, "mm"), motor_constant=Q(0.013, "V*s/rad"))
    limit = bearing_load.bearing_limit(spare_current=Q(40, "mA"), **belt)
    amps = bearing_load.belt_current(bearing=np.array([float(limit.m_as("")), 0]), **belt).m_as("mA")
    assert amps == pytest.approx([40, 30e-6 / 0.013 * 1e3])
    thick = bearing_load.bearing_limit(spare_current=Q(40, "mA"), **{**belt, "shaft_radius": Q(2, "mm")})
    assert float((limit / thick).m_as("")) == pytest.approx(2)


def test_a_belt_that_bending_alone_uses_up_is_below_zero():
    limit = bearing_load.bearing_limit(spare_current=Q(1, "mA"), hub_load=Q(1, "N"), bending_torque=Q(99, "uN*m"),
                                       shaft_radius=Q(1, "mm"), motor_constant=Q(0.013, "V*s/rad"))
    assert limit.m_as("") < 0


@pytest.mark.parametrize(("call", "told"), [
    (lambda: run(-0.1), "cold_current"), (lambda: run(0.1, air=150.0), "air"), (lambda: run(0.1, start=-80.0), "start"),
    (lambda: run(0.1, time=Q([2.0, 1.0], "s")), "time: must rise"), (lambda: run(0.1, housing_capacity=Q(0, "J/delta_degC")), "housing_cap"),
    (lambda: drift(-0.1, 20, 20), "cold_current"), (lambda: drift(0.1, 20, 400), "temperature"),
    (lambda: drift(0.1, 20, 20, supply=0.2), "voltage|drop"),
    (lambda: warm_motor.settled_temperatures(cold_current=Q(0.1, "A"), air=Q(200, "degC"), winding_resistance=Q(15, "ohm"), **HEAT), "air"),
    (lambda: warm_motor.drift_parts(cold_voltage=Q(1, "V"), warm_voltage=Q(4, "V"), cold_current=Q(0.1, "A"), warm_current=Q(0.1, "A"),
                                    cold_resistance=Q(15, "ohm"), warm_resistance=Q(15, "ohm")), "cold_voltage.*could not turn"),
    (lambda: bearing_load.belt_current(bearing=0.1, hub_load=Q(-1, "N"), bending_torque=Q(0, "N*m"), shaft_radius=Q(1, "mm"),
                                       motor_constant=Q(0.013, "V*s/rad")), "hub_load"),
    (lambda: bearing_load.bearing_limit(spare_current=Q(1, "mA"), hub_load=Q(0, "N"), bending_torque=Q(0, "N*m"),
                                        shaft_radius=Q(1, "mm"), motor_constant=Q(0.013, "V*s/rad")), "hub_load"),
])
def test_nonsense_is_told_by_its_name(call, told):
    with pytest.raises(ValueError, match=told):
        call()
