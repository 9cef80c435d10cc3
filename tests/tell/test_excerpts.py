"""Excerpts made equally loud: measured by the reference library, the softer one untouched."""

import wave

import numpy as np
import pyloudnorm
import pytest
from scipy.signal import lfilter, resample_poly

from benchreckoner import commands, project
from benchreckoner.tell.excerpts import make_excerpts

SHEET = project.CASES / "record_player.toml"


def music(decibels, channels=2, rate=48000, seconds=6, seed=0):
    rows = lfilter([0.4], [1, -0.7], np.random.default_rng(seed).normal(0, 0.1, (seconds * rate, channels)), axis=0)
    return np.clip(np.cumsum(rows, axis=0) * 0.02 % 0.5 - 0.25 + rows, -1, 1) * 10 ** (decibels / 20)


def written(path, samples, rate=48000):
    with wave.open(str(path), "wb") as file:
        file.setnchannels(samples.shape[1])
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes(np.round(samples * 32767).astype("<i2").tobytes())


def read(path):
    with wave.open(str(path), "rb") as file:
        return np.frombuffer(file.readframes(file.getnframes()), "<i2").reshape(-1, file.getnchannels()) / 32768, file.getframerate()


def loudness(path):
    samples, rate = read(path)
    return pyloudnorm.Meter(rate).integrated_loudness(samples)


@pytest.mark.parametrize(("first", "second", "channels", "rate"), [(-2, -9.5, 2, 48000), (-20, -3, 1, 44100), (-4, -15, 2, 44100), (-12, -3, 1, 96000),
                                                                  (-3, -8, 2, 96000)])
def test_both_end_up_as_loud_as_the_softer_one(tmp_path, first, second, channels, rate):
    for name, decibels, seed in (("before", first, 1), ("after", second, 2)):
        samples = resample_poly(music(decibels, channels, seed=seed), *{44100: (147, 160), 48000: (1, 1), 96000: (2, 1)}[rate], axis=0)
        written(tmp_path / f"{name}.wav", np.clip(samples, -1, 1), rate)
    told = []
    make_excerpts(SHEET, tmp_path, tell=told.append)
    softer = min(loudness(tmp_path / f"{name}.wav") for name in ("before", "after"))
    apart = abs(loudness(tmp_path / "before.wav") - loudness(tmp_path / "after.wav"))
    for name in ("before", "after"):
        assert loudness(tmp_path / f"{name}-matched.wav") == pytest.approx(softer, abs=0.1)
    assert f"{'before' if first > second else 'after'}.wav was louder by {apart:.1f} dB" in told[0]


def test_the_softer_one_stays_as_it_was(tmp_path):
    written(tmp_path / "before.wav", music(-3))
    written(tmp_path / "after.wav", music(-12))
    make_excerpts(SHEET, tmp_path)
    assert np.max(np.abs(read(tmp_path / "after-matched.wav")[0] - read(tmp_path / "after.wav")[0])) < 1e-4


@pytest.mark.parametrize("single", ["before", "after"])
def test_one_channel_beside_two_is_laid_on_both(tmp_path, single):
    """A player gives it to both loudspeakers: 3 dB more than the standard reads from the one channel."""
    for name, decibels in (("before", -5), ("after", -6.5)):
        written(tmp_path / f"{name}.wav", music(decibels, 1 if name == single else 2, seed=3))
    told = []
    make_excerpts(SHEET, tmp_path, tell=told.append)
    assert f"{single}.wav has one channel and was laid on both" in told[0]
    assert read(tmp_path / f"{single}-matched.wav")[0].shape[1] == 2
    assert loudness(tmp_path / "before-matched.wav") == pytest.approx(loudness(tmp_path / "after-matched.wav"), abs=0.1)


def test_equal_ones_are_told_as_equal(tmp_path, capsys):
    for name in ("before", "after"):
        written(tmp_path / f"{name}.wav", music(-6))
    assert commands.main(["make", "excerpts", "--sheet", str(SHEET), "--to", str(tmp_path)]) == 0
    out, err = capsys.readouterr()
    assert "equally loud" in err and out.strip().endswith("after-matched.wav")


@pytest.mark.parametrize(("samples", "told"), [(None, "no recording called after .* and the before beside it"), (np.zeros((96000, 2)), "louder than silence"),
                                               (np.ones((9000, 2)) * 0.1, "0.8 s"), (np.zeros((200 * 48000, 1)), "longer than 3 minutes")])
def test_what_cannot_be_matched_is_told_and_nothing_is_written(tmp_path, samples, told):
    written(tmp_path / "before.wav", music(-6))
    if samples is not None:
        written(tmp_path / "after.wav", samples)
    with pytest.raises(OSError, match=told):
        make_excerpts(SHEET, tmp_path)
    assert not list(tmp_path.glob("*matched*"))


def test_of_two_recordings_of_one_moment_only_one_may_stay(tmp_path):
    for name in ("before.wav", "before.flac", "after.wav"):
        written(tmp_path / name, music(-6))
    with pytest.raises(OSError, match="before.flac, before.wav: which one is it. Leave only one"):
        make_excerpts(SHEET, tmp_path)


def test_a_file_that_is_no_sound_is_told(tmp_path):
    written(tmp_path / "after.wav", music(-6))
    (tmp_path / "before.mp3").write_text("no sound", encoding="utf-8")
    with pytest.raises(OSError, match="no sound can be read"):
        make_excerpts(SHEET, tmp_path)
