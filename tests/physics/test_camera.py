"""Filming: averages against samples, what is seen against frames laid down one by one, and steps against their equation."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from benchreckoner.physics.camera import (change_by_reference, flicker_free_exposures, flicker_seen, recorded_step,
                                           ripple_left, smear, still_frame_rates)
from benchreckoner.physics.turning import seen_speed
from benchreckoner.units import Q


def left(hertz, seconds):
    return ripple_left(frequency=Q(hertz, "Hz"), exposure=Q(seconds, "s"))


@given(st.floats(1, 500), st.floats(1e-4, 0.1))
def test_what_is_left_is_the_swing_of_the_means(hertz, seconds):
    """Means of a sine over the exposure, begun at many moments: half their swing."""
    begins = np.linspace(0, 1 / hertz, 181)
    inside = (np.arange(2000) + 0.5) / 2000 * seconds
    means = np.sin(2 * np.pi * hertz * (begins[:, None] + inside)).mean(axis=1)
    assert left(hertz, seconds) == pytest.approx((means.max() - means.min()) / 2, abs=2e-3)


@pytest.mark.parametrize("mains", [50, 60])
@pytest.mark.parametrize("frames", [24, 25, 30, 50, 60, 240])
def test_free_exposures_leave_nothing_of_any_ripple(mains, frames):
    """A rectified sine, sharp at its foot, and a lamp that is on for a tenth of the time."""
    found = flicker_free_exposures(mains_frequency=Q(mains, "Hz"), frame_rate=Q(frames, "1/s")).m_as("s")
    assert np.all(found <= 1 / frames + 1e-9) and len(found) == int(2 * mains / frames + 1e-9)
    for exposure in found:
        times = (np.arange(60000) + 0.5) / 60000 * exposure
        for shape in (lambda turns: abs(np.sin(np.pi * turns)), lambda turns: turns % 1 < 0.1):
            means = [shape(2 * mains * (begin + times)).mean() for begin in np.linspace(0, 0.5 / mains, 7)]
            assert max(means) - min(means) < 1e-3


def test_a_fast_film_has_no_free_exposure():
    assert len(flicker_free_exposures(mains_frequency=Q(50, "Hz"), frame_rate=Q(120, "1/s"))) == 0


@given(st.sampled_from([50.0, 60.0]), st.floats(10, 300))
def test_the_seen_ripple_passes_through_the_same_points(mains, frames):
    seen = flicker_seen(mains_frequency=Q(mains, "Hz"), frame_rate=Q(frames, "1/s")).m_as("Hz")
    times = np.arange(12) / frames
    assert np.cos(2 * np.pi * seen * times) == pytest.approx(np.cos(2 * np.pi * 2 * mains * times), abs=1e-6)
    assert abs(seen) <= frames / 2 + 1e-9


@given(st.floats(50, 6000), st.integers(1, 6))
def test_marks_stand_still_at_those_rates_and_no_others(speed, marks):
    rates = still_frame_rates(speed=Q(speed, "turn/min"), marks=marks, slowest=Q(20, "1/s"), fastest=Q(240, "1/s"))
    for rate in rates.m_as("1/s"):
        assert 19.99 < rate < 240.01
        seen = seen_speed(speed=Q(speed, "turn/min"), marks=marks, rate=Q(rate, "1/s"))
        assert seen.m_as("turn/min") == pytest.approx(0, abs=1e-6)
    passing = speed * marks / 60
    assert len(rates) == sum(20 - 1e-7 <= passing / whole <= 240 + 1e-6 for whole in range(1, 100))


def test_smear_grows_with_time():
    for seconds in (0.005, 0.01):
        assert smear(speed=Q(60, "turn/min"), exposure=Q(seconds, "s")).m_as("turn") == pytest.approx(seconds)


@given(st.floats(-30, 30), st.floats(1, 20), st.floats(0.05, 5))
def test_a_step_settles_by_its_equation(step, ratio, settling):
    """The gain moves towards its goal at a rate that is its distance by the settling time."""
    times = np.linspace(0, 4 * settling, 9)
    goal = -step * (1 - 1 / ratio)
    gain = solve_ivp(lambda _, now: (goal - now) / settling, (0, times[-1]), [0.0], t_eval=times, rtol=1e-9, atol=1e-9).y[0]
    found = recorded_step(step=Q(step, "dB"), ratio=ratio, time=Q(times, "s"), settling_time=Q(settling, "s")).m_as("dB")
    assert found == pytest.approx(step + gain, abs=1e-5)


@given(*[st.floats(-60, 0)] * 4, st.floats(-20, 20), st.floats(-20, 20))
def test_the_gain_of_a_recording_drops_out(before, after, first, second, gain, other_gain):
    def change(one, other):
        return change_by_reference(before=Q(before + one, "dB"), reference_before=Q(first + one, "dB"),
                                   after=Q(after + other, "dB"), reference_after=Q(second + other, "dB")).m_as("dB")
    assert change(gain, other_gain) == pytest.approx(change(0, 0), abs=1e-9)


@pytest.mark.parametrize(("law", "arguments", "told"), [
    (ripple_left, {"frequency": Q(-1, "Hz"), "exposure": Q(1, "s")}, "frequency"),
    (ripple_left, {"frequency": Q(1, "Hz"), "exposure": Q(0, "s")}, "exposure"),
    (still_frame_rates, {"speed": Q(1, "turn/min"), "marks": 0, "slowest": Q(1, "1/s"), "fastest": Q(2, "1/s")}, "marks"),
    (still_frame_rates, {"speed": Q(1, "turn/min"), "marks": 1, "slowest": Q(2, "1/s"), "fastest": Q(2, "1/s")}, "slowest"),
    (recorded_step, {"step": Q(1, "dB"), "ratio": 0.5, "time": Q(1, "s"), "settling_time": Q(1, "s")}, "ratio"),
])
def test_nonsense_is_refused_by_name(law, arguments, told):
    with pytest.raises(ValueError, match=told):
        law(**arguments)
