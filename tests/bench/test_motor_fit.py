"""A motor from its runs: the truth held on simulated benches, what cannot be told, and runs that no motor gives."""

import math

import numpy as np
import pytest
from uncertainties import ufloat

from benchreckoner.bench.motor_fit import Run, fit_motor
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import Q

OHMS, CONSTANT, IDLE = 15.0, 0.013, 0.020
RADIANS = 2 * math.pi / 60


def near(value, share, unit):
    return Known(value + 0 * ufloat(0, 1) if not share else ufloat(value, abs(value * share) or share), unit)


def run(kind, volts, amps, turns=None, share=0.005):
    """A run of the true motor, each reading with this share for standard uncertainty."""
    if kind != "held" and turns is None:
        turns = (volts - amps * OHMS) / CONSTANT / RADIANS
    return Run(kind, near(volts, share, "V"), near(amps, share, "A"),
               None if turns is None else near(turns, share, "turn/min"))


def held(ohms, volts=1.5, **more):
    return run("held", volts, volts / ohms, **more)


SIX = [held(ohms) for ohms in (14.8, 15.2, 15.0, 14.9, 15.1, 15.0)]
FREE, PLAY, HEAVY = run("no load", 6, IDLE), run("loaded", 6, 0.085), run("loaded", 6, 0.2)


def test_exact_runs_give_the_motor_back():
    fit = fit_motor([*SIX, FREE, PLAY, HEAVY])
    assert fit.winding_resistance.plain == pytest.approx(OHMS, rel=2e-3)
    assert fit.motor_constant.plain == pytest.approx(CONSTANT, rel=1e-3)
    assert fit.no_load_current.plain == pytest.approx(IDLE) and fit.wants == () and fit.reasons == ()


def test_two_loads_by_the_exact_formula():
    """Two equations: least squares must pass through both (numpy's solution), the widened interval apart."""
    runs = [run("loaded", 5, 0.05, 3700), run("loaded", 6, 0.2, 2150)]
    fit = fit_motor(runs)
    expected = np.linalg.solve([[0.05, 3700 * RADIANS], [0.2, 2150 * RADIANS]], [5, 6])
    assert [fit.winding_resistance.plain, fit.motor_constant.plain] == pytest.approx(expected, rel=1e-6)


def test_uncertainty_of_two_loads_by_shaking_them():
    """The spread of exact solutions of shaken readings (numpy, seeded) against the uncertainty told."""
    fit = fit_motor([PLAY, HEAVY])
    rng = np.random.default_rng(1)
    shaken = [[one.plain * (1 + 0.005 * rng.standard_normal(20000)) for one in (each.voltage, each.current, each.speed)]
              for each in (PLAY, HEAVY)]
    (u1, i1, w1), (u2, i2, w2) = shaken
    w1, w2 = w1 * RADIANS, w2 * RADIANS
    assert 2 * np.std((u1 * w2 - u2 * w1) / (i1 * w2 - i2 * w1)) == pytest.approx(fit.winding_resistance.expanded.m, rel=0.03)
    assert 2 * np.std((u1 * i2 - u2 * i1) / (w1 * i2 - w2 * i1)) == pytest.approx(fit.motor_constant.expanded.m, rel=0.03)


def test_what_readings_share_does_not_cancel_in_ohms():
    """A percentage that every current shares moves the ohms by as much, however many runs there are."""
    shared = ufloat(0, 0.01)
    ones = [held(15.0, share=1e-5) for _ in range(12)]
    ones = [Run("held", one.voltage, Known(one.current.number * (1 + shared), "A")) for one in ones]
    fit = fit_motor(ones)
    assert fit.winding_resistance.number.std_dev == pytest.approx(0.15, rel=0.02)


# Meters' limits become half widths; positions scatter by 4 %; a third of the benches has only two positions.
def bench(rng):
    ohms, constant, idle = rng.uniform(8, 40), rng.uniform(0.006, 0.03), rng.uniform(0.01, 0.03)
    shared = {unit: ufloat(0, share / math.sqrt(3)) for unit, share in (("V", 0.008), ("A", 0.015))}
    sign = {unit: share * rng.uniform(-1, 1) for unit, share in (("V", 0.008), ("A", 0.015))}

    def read(true, unit, own):
        shown = true * (1 + sign.get(unit, 0)) * (1 + own * rng.uniform(-1, 1))
        return Known(shown * (1 + shared.get(unit, 0)) + ufloat(0, own * shown / math.sqrt(3)), unit)

    runs = []
    for _ in range(int(rng.choice([2, 4, 6]))):
        here = ohms * (1 + 0.04 * rng.standard_normal())
        runs.append(Run("held", read(1.5, "V", 0.002), read(1.5 / here, "A", 0.003)))
    for kind, amps in (("no load", idle), ("loaded", 3 * idle), ("loaded", 0.4 * 6 / ohms)):
        runs.append(Run(kind, read(6, "V", 0.001), read(amps, "A", 0.003),
                        read((6 - amps * ohms) / constant / RADIANS, "turn/min", 0.005)))
    return (ohms, constant, idle), fit_motor(runs)


def test_the_truth_lies_within_in_about_95_of_100():
    rng = np.random.default_rng(5)
    held_it = np.zeros(3)
    for _ in range(400):
        truth, fit = bench(rng)
        for place, (true, known) in enumerate(zip(truth, (fit.winding_resistance, fit.motor_constant, fit.no_load_current))):
            held_it[place] += abs(known.plain - true) <= known.expanded.m
    assert np.all(held_it >= 0.92 * 400), held_it / 400


def test_uneven_positions_widen_by_their_scatter():
    """14 to 16 ohm at three positions: Student's t of two degrees of freedom, 4.303, over root three."""
    fit = fit_motor([held(ohms, share=1e-5) for ohms in (14, 15, 16)])
    assert fit.winding_resistance.expanded.m == pytest.approx(4.303 / math.sqrt(3), rel=1e-3)


def test_runs_that_disagree_widen_and_are_told():
    close, far = (fit_motor([FREE, PLAY, HEAVY, run("loaded", 6, 0.15, (6 - 0.15 * ohms) / CONSTANT / RADIANS)]) for ohms in (15, 17.5))
    assert far.winding_resistance.expanded > 1.5 * close.winding_resistance.expanded
    assert any("disagree by more than the instruments explain" in one for one in far.reasons) and not close.reasons


def test_brush_drop_is_taken_off_every_run():
    runs = [run(one.kind, one.voltage.plain + 0.2, one.current.plain, None if one.speed is None else one.speed.plain)
            for one in (*SIX, FREE, HEAVY)]
    fit = fit_motor(runs, brush_drop=Q(0.2, "V"))
    assert fit.winding_resistance.plain == pytest.approx(OHMS, rel=5e-3) and fit.motor_constant.plain == pytest.approx(CONSTANT, rel=2e-3)


def test_one_position_may_read_a_quarter_low():
    fit = fit_motor([held(15, share=1e-5)])
    assert fit.winding_resistance.expanded.m == pytest.approx(2 * 0.25 * 15 / math.sqrt(3), rel=1e-3)
    assert fit.motor_constant is None and fit.no_load_current is None
    assert "nothing on its shaft" in fit.wants[0] and "5 more positions" in fit.wants[1]


@pytest.mark.parametrize(("runs", "wanted"), [
    ([FREE], "Hold the shaft at 6 positions"),
    ([*SIX, FREE], "Load it until it draws at least twice"),
    ([Run("no load", FREE.voltage, FREE.current), *SIX], "Take the speed of the run no load at 20.0 mA"),
    ([run("loaded", 6, 0.085), run("loaded", 6, 0.1)], "one more run at twice the current"),
])
def test_the_next_run_is_named(runs, wanted):
    assert any(wanted in one for one in fit_motor(runs).wants)


def test_currents_too_near_each_other_tell_nothing():
    fit = fit_motor([run("loaded", 6, 0.085), run("loaded", 6, 0.087)])
    assert fit.winding_resistance is None and fit.no_load_current is None


@pytest.mark.parametrize(("runs", "told"), [
    ([held(15, volts=9)], "Held on 9 V this motor takes 5.40 W"),
    ([*SIX, FREE, run("loaded", 6, 0.1, 7000)], "The run loaded at 100 mA turns faster than its 6 V allow"),
    ([run("loaded", 6, 0.05, 3000), run("loaded", 6, 0.2, 4000)], "No motor gives these runs together"),
    ([held(10, share=1e-4), held(15, share=1e-4)], "more than a third apart"),
    ([FREE, run("loaded", 6, 0.012)], "draws less than the 20.00 ± 0.20 mA without a load"),
])
def test_what_is_wrong_is_told(runs, told):
    assert any(told in one for one in fit_motor(runs).reasons)


def test_a_sound_rotor_is_not_accused():
    """A third between positions is what three segments do by themselves."""
    assert not fit_motor([held(ohms) for ohms in (11.4, 15, 15, 11.4)]).reasons
    assert not fit_motor([held(15, volts=1.5)]).reasons


@pytest.mark.parametrize(("make", "told"), [
    (lambda: run("stalled", 6, 0.1), "kind: write one of"), (lambda: run("loaded", -6, 0.1, 2000), "voltage: must be above zero"),
    (lambda: run("loaded", 6, -0.1, 2000), "current: must be above zero"),
    (lambda: run("loaded", 6, 0.1, -2000), "speed: must be above zero"), (lambda: run("loaded", 6, 0.1, 0), "speed: must be above zero"),
    (lambda: run("held", 1, 0.1, 200), "a held shaft has none"), (lambda: run("loaded", 6, 0.1, share=0), "voltage: is known to within nothing"),
    (lambda: fit_motor([]), "runs: there is none"), (lambda: fit_motor([held(15)], brush_drop=Q(1.5, "V")), "brush_drop: takes all"),
])
def test_bad_input_is_refused(make, told):
    with pytest.raises(ValueError, match=told):
        make()
