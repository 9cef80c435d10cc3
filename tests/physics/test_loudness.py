"""Loudness against the reference library, against laws, and against what must be refused."""

import numpy as np
import pyloudnorm
import pytest
from scipy.signal import lfilter

from benchreckoner.physics.loudness import integrated_loudness, k_weighting, tones_loudness
from benchreckoner.units import Q


def loud(samples, rate=48000):
    return integrated_loudness(samples=samples, rate=rate).m_as("dB")


def noise(seconds, rate=48000, channels=2, seed=0):
    """Noise, redder than white, with loud, soft and silent parts."""
    chance = np.random.default_rng(seed)
    rows = lfilter([1], [1, -0.9], chance.normal(0, 0.02, (channels, int(seconds * rate))), axis=1)
    shape = np.repeat(10 ** (chance.choice([-60, -30, -12, -3, 0], 20) / 20), rows.shape[1] // 20)
    return rows[:, :len(shape)] * shape


@pytest.mark.parametrize("channels", [1, 2])
@pytest.mark.parametrize("seed", range(4))
def test_the_reference_library_says_the_same(seed, channels):
    rows = noise(12, channels=channels, seed=seed)
    # That library draws its filters from rounded corner frequencies, so a few hundredths of a decibel part us.
    assert loud(rows) == pytest.approx(pyloudnorm.Meter(48000).integrated_loudness(rows.T), abs=0.05)


@pytest.mark.parametrize("rate", [16000, 44100, 96000])
def test_another_rate_says_the_same(rate):
    """A tone well below half of each rate."""
    seconds = np.arange(6 * rate) / rate
    assert loud(0.1 * np.sin(2 * np.pi * 997 * seconds), rate) == pytest.approx(-23.01, abs=0.01)


def test_twice_the_size_is_six_decibels_more():
    rows = noise(8)
    assert loud(2 * rows) - loud(rows) == pytest.approx(20 * np.log10(2), abs=1e-9)


def test_two_channels_alike_are_three_decibels_more_than_one():
    row = noise(8, channels=1)
    assert loud(np.vstack((row, row))) - loud(row) == pytest.approx(10 * np.log10(2), abs=1e-9)


def test_channels_change_places_and_sign():
    rows = noise(8)
    assert loud(rows[::-1]) == pytest.approx(loud(rows), abs=1e-9) == loud(-rows)


def test_silence_round_it_changes_little():
    rows = noise(8)
    still = np.zeros((2, 5 * 48000))
    assert loud(np.hstack((still, rows, still))) == pytest.approx(loud(rows), abs=0.1)


def test_what_lies_below_the_first_gate_does_not_count():
    """-72.5 dB lies less than 10 dB below the mean of both, so that only the first gate keeps it out."""
    found = tones_loudness(levels=Q([-64, -72.5], "dB"), durations=Q([10, 10], "s")).m_as("dB")
    assert found == pytest.approx(-64, abs=0.1)


def test_one_long_tone_by_the_formula():
    for hertz in (60, 997, 8000):
        wanted = -20 - 10 * np.log10(2) + k_weighting(frequency=Q(hertz, "Hz")).m_as("dB") - 0.691
        found = tones_loudness(levels=Q([-20], "dB"), durations=Q([20], "s"), frequency=Q(hertz, "Hz"), channels=1)
        assert found.m_as("dB") == pytest.approx(wanted, abs=0.01)


def test_the_weighting_cuts_bass_and_lifts_treble():
    """Four decibels at the top; at the bottom it falls by twelve for each octave."""
    assert k_weighting(frequency=Q(10, "kHz")).m_as("dB") == pytest.approx(4.0, abs=0.1)
    low = k_weighting(frequency=Q([2.5, 5, 10], "Hz")).m_as("dB")
    assert np.diff(low) == pytest.approx([12, 12], abs=0.6)


@pytest.mark.parametrize(("change", "error", "told"), [
    ({"samples": np.zeros(48000 * 3)}, ValueError, "louder than silence"),
    ({"samples": np.full(48000 * 3, np.nan)}, ValueError, "finite"),
    ({"samples": np.ones(100)}, ValueError, "0.8 s"), ({"samples": np.ones((3, 48000))}, ValueError, "one or two rows"),
    ({"rate": 48000.0}, TypeError, "rate"), ({"rate": 4000}, ValueError, "rate: must be at least"),
])
def test_nonsense_is_refused(change, error, told):
    with pytest.raises(error, match=told):
        integrated_loudness(**{"samples": noise(3), "rate": 48000, **change})


@pytest.mark.parametrize(("change", "told"), [
    ({"levels": Q([3], "dB")}, "levels"), ({"levels": Q(-3, "dB")}, "two rows"), ({"channels": 3}, "channels"),
    ({"frequency": Q(30, "kHz")}, "24 kHz"), ({"durations": Q([1, 2], "s")}, "two rows"),
])
def test_tones_that_cannot_be(change, told):
    with pytest.raises(ValueError, match=told):
        tones_loudness(**{"levels": Q([-3], "dB"), "durations": Q([5], "s"), **change})


def test_a_frequency_beyond_the_filters_is_refused():
    with pytest.raises(ValueError, match="frequency"):
        k_weighting(frequency=Q(24, "kHz"))
