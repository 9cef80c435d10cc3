"""Crackle against its law, against scipy's own spectrum, and against what each fault must and must not do."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.signal import welch

from benchreckoner.physics import crackle, telegraph
from benchreckoner.physics.take import Take
from benchreckoner.physics.tunes import plucked_tune
from benchreckoner.units import Q

STAYS = {"mean_up": Q(0.02, "s"), "mean_down": Q(0.005, "s")}


def short(seed):
    return Take(Q(4, "s"), Q(16000, "Hz"), np.random.default_rng(seed))


def test_the_spectrum_sums_to_the_variance():
    """Second route: the density integrated over all frequencies is the variance."""
    summed = quad(lambda f: telegraph.spectrum(step=Q(2, "V"), frequency=Q(f, "Hz"), **STAYS)
                  .m_as("V**2/Hz"), 0, np.inf)[0]
    assert summed == pytest.approx(telegraph.variance(step=Q(2, "V"), **STAYS).m_as("V**2"), rel=1e-6)


def test_at_the_corner_half_is_left_and_far_above_a_quarter_for_a_doubling():
    corner = telegraph.corner_frequency(**STAYS)
    at = [telegraph.spectrum(step=Q(1, "V"), frequency=f, **STAYS).m_as("V**2/Hz")
          for f in (0 * corner, corner, 1000 * corner, 2000 * corner)]
    assert at[1] / at[0] == pytest.approx(0.5) and at[3] / at[2] == pytest.approx(0.25, rel=1e-5)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_jumper_keeps_its_law(seed):
    """100 s hold 8000 stays: the mean of two neighbouring Welch averages spreads by a few per cent."""
    state = crackle.telegraph_state(**STAYS, take=Take(Q(100, "s"), Q(8000, "Hz"), np.random.default_rng(seed)))
    assert set(np.unique(state)) == {0.0, 1.0}
    assert state.mean() == pytest.approx(0.8, abs=0.02)
    frequency, density = welch(state, fs=8000, nperseg=4000)
    told = telegraph.spectrum(step=Q(1, "V"), frequency=Q(frequency, "Hz"), **STAYS).m_as("V**2/Hz")
    for low, high in ((4, 20), (20, 60), (60, 200), (200, 500)):
        here = (frequency >= low) & (frequency < high)
        assert density[here].mean() == pytest.approx(told[here].mean(), rel=0.1)


def faults(seed):
    take = short(seed)
    return {
        "flicker": crackle.contact_flicker(depth=0.8, step=Q(0.1, "V"), mean_open=Q(3, "ms"), mean_closed=Q(80, "ms"), take=take),
        "wiper": crackle.worn_wiper(lift=0.9, step=Q(0.2, "V"), worn_places=60, turns=3, take=take),
        "leak": crackle.leaky_bias(direct=Q(1, "V"), roughness=0.02, drift=Q(0.02, "V"), turns=3, take=take),
        "shared": crackle.shared_supply_contact(ripple=Q(0.1, "V"), segments=3, shaft=Q(40, "Hz"), sag=0.2,
                                                mean_bad=Q(1, "s"), mean_good=Q(1, "s"), take=take),
    }


@pytest.mark.parametrize("name", ["flicker", "wiper", "leak", "shared"])
def test_a_seed_decides_every_sample(name):
    first, again, other = (faults(seed)[name] for seed in (5, 5, 6))
    assert np.array_equal(first.added.m, again.added.m) and not np.array_equal(first.added.m, other.added.m)
    assert len(first.gain) == len(first.added) == 64000 and np.all((first.gain >= 0) & (first.gain <= 1))


def test_a_control_left_alone_is_silent():
    alone = crackle.worn_wiper(lift=0.9, step=Q(1, "V"), worn_places=60, turns=0, take=short(1))
    assert np.ptp(alone.gain) == 0 and not alone.added.m.any()
    leak = crackle.leaky_bias(direct=Q(1, "V"), roughness=0.02, drift=Q(0, "V"), turns=0, take=short(1))
    assert not leak.added.m.any()


def test_a_leak_is_proportional_to_its_volts_and_no_leak_is_silent():
    one, two = (crackle.leaky_bias(direct=Q(volts, "V"), roughness=0.02, drift=Q(0, "V"), turns=3,
                                   take=short(1)).added.m for volts in (1, 2))
    assert two == pytest.approx(2 * one) and np.ptp(one) > 0.1


def test_the_shared_contact_has_a_line_at_the_shaft_rate():
    """The odd segment comes once a turn: a line there, not only where the segments pass."""
    against_segments = []
    for seed in range(3, 9):
        frequency, density = welch(faults(seed)["shared"].added.m, fs=16000, nperseg=16000)
        shaft, segments = (density[np.abs(frequency - middle) < 2].max() for middle in (40, 120))
        assert shaft > 20 * np.median(density[(frequency > 50) & (frequency < 70)])
        against_segments.append(shaft / segments)
    assert np.mean(against_segments) > 0.06


def test_a_coupling_capacitor_lets_a_shift_die_away():
    """First order, 10 Hz: after 1 / (2 pi 10 Hz) one part in e is left."""
    take = short(1)
    left = crackle._coupled(Q((take.seconds >= 1).astype(float), "V"), take).m_as("V")
    assert np.interp(1 + 1 / (2 * np.pi * 10), take.seconds, left) == pytest.approx(np.exp(-1), rel=0.01)


@pytest.mark.parametrize("depth", [-0.1, 1.1])
def test_a_share_outside_nothing_to_all_is_refused(depth):
    with pytest.raises(ValueError, match="depth is a share"):
        crackle.contact_flicker(depth=depth, step=Q(1, "V"), mean_open=Q(1, "ms"), mean_closed=Q(1, "ms"),
                                take=short(1))


def test_a_tune_keeps_its_level_and_its_pitches():
    """Only notes of the scale: every strong line of a soft tune lies on one of its eight pitches."""
    tune = plucked_tune(level=Q(0.3, "V"), lowest=Q(220, "Hz"), note=Q(0.5, "s"), brightness=0, take=short(1))
    assert np.max(np.abs(tune.m_as("V"))) == pytest.approx(0.3)
    frequency, density = welch(tune.m_as("V"), fs=16000, nperseg=16000)
    strongest = frequency[np.argmax(density)]
    scale = 220 * 2 ** (np.array([0, 2, 4, 7, 9, 12, 14, 16]) / 12)
    assert np.min(np.abs(scale - strongest)) < 2
