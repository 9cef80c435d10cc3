"""A sound is never louder than told, never plays by itself, and its caution stands first."""

import io
import re
import wave

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner.show.sound import CEILING, Sound

RATE = 16000
CARE = "Take care of your ears."


def sound(samples, name="a sound"):
    return Sound(name, samples, RATE, CARE)


def written(samples):
    """What a player would find in the file: a second reader."""
    with wave.open(io.BytesIO(sound(samples).wav), "rb") as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, RATE)
        return np.frombuffer(file.readframes(file.getnframes()), dtype="<i2") / 32768


@settings(deadline=None, max_examples=60)
@given(seed=st.integers(0, 10**6), size=st.floats(1e-6, 1e6), offset=st.floats(-1e3, 1e3), spikes=st.integers(0, 50))
def test_never_above_the_ceiling(seed, size, offset, spikes):
    rng = np.random.default_rng(seed)
    samples = size * rng.standard_normal(4000) + offset
    samples[rng.integers(0, 4000, spikes)] *= 1000
    assert np.max(np.abs(written(samples))) <= 10 ** (CEILING / 20)


def test_a_quiet_sound_stays_quiet_and_a_loud_one_is_not_cut():
    tone = np.sin(2 * np.pi * 500 * np.arange(RATE) / RATE)
    assert np.max(np.abs(written(0.1 * tone))) == pytest.approx(0.1, abs=1e-3)
    loud, soft = written(5 * tone), written(0.2 * tone)
    assert loud / np.max(loud) == pytest.approx(soft / np.max(soft), abs=1e-3)


def test_the_caution_stands_before_the_player_and_names_are_escaped():
    html = sound(np.random.default_rng(1).standard_normal(RATE), "<img src=x onerror=alert(1)>")._repr_html_()
    assert html.index(CARE) < html.index("<audio")
    assert "<img src=x" not in html and "autoplay" not in html
    assert re.search(r"<audio controls [^>]*aria-label=", html)
    assert f"{CEILING:.0f} dB".replace("-", "−") in html


def test_the_spectrum_of_a_tone_is_where_the_tone_is():
    """A sine at −20 dB of full scale has power 0.005; its line, summed over hertz, gives that back."""
    tone = 0.1 * np.sin(2 * np.pi * 1000 * np.arange(4 * RATE) / RATE)
    picture = sound(tone).spectrum
    (curve,) = picture.curves
    assert curve.x[np.argmax(curve.y)] == pytest.approx(1000, abs=2)
    assert np.sum(10 ** (curve.y / 10)) * (curve.x[1] - curve.x[0]) == pytest.approx(0.005, rel=0.02)


def test_the_waveform_reaches_as_far_as_the_sound():
    click = np.zeros(RATE)
    click[8000] = 0.2
    picture = sound(click).waveform
    assert np.max(picture.bands[0].high) == pytest.approx(0.2, abs=1e-3) and "0.5 s" in picture.sentence


@pytest.mark.parametrize("samples", [[], [0.1], [0.1, np.nan], [[0.1, 0.2], [0.1, 0.2]]])
def test_what_is_no_sound_is_refused(samples):
    with pytest.raises(ValueError, match="one row of finite numbers"):
        sound(samples)


def test_silence_can_be_shown():
    assert "nan" not in repr(sound(np.zeros(RATE)))
