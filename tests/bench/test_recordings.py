"""Recordings: good ones arrive as they were, bad ones each get a sentence that says what to do."""

import wave

import av
import numpy as np
import pytest

from benchreckoner.bench import recordings
from benchreckoner.bench.recordings import RATE, RecordingError, read_recording


def tone(*, seconds=4.0, rate=44100, level=0.3, pitch=440):
    return level * np.sin(2 * np.pi * pitch * np.arange(round(seconds * rate)) / rate)


def write_wav(path, samples, *, rate=44100, channels=1, width=2):
    numbers = np.round(np.repeat(np.clip(samples, -1, 1), channels) * (2 ** (8 * width - 1) - 1)).astype("<i8")
    raw = (numbers + 128).astype("u1").tobytes() if width == 1 else \
        numbers.view("u1").reshape(-1, 8)[:, :width].tobytes()
    with wave.open(str(path), "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(rate)
        file.writeframes(raw)
    return path


def write_other(path, samples, *, codec, rate=44100, layout="mono"):
    with av.open(str(path), "w") as file:
        stream = file.add_stream(codec, rate=rate, layout=layout)
        for start in range(0, len(samples), 1024):
            block = np.ascontiguousarray(samples[None, start:start + 1024], dtype="float32")
            frame = av.AudioFrame.from_ndarray(block, format="fltp", layout="mono")
            frame.sample_rate, frame.pts = rate, start
            for packet in stream.encode(frame):
                file.mux(packet)
        for packet in stream.encode(None):
            file.mux(packet)
    return path


def strongest(recording):
    spectrum = np.abs(np.fft.rfft(recording.samples * np.hanning(len(recording.samples))))
    return np.argmax(spectrum) * RATE / len(recording.samples)


@pytest.mark.parametrize("rate", [8000, 11025, 16000, 22050, 44056, 44100, 44101, 48000, 96000, 192000])
def test_any_usual_or_odd_rate_keeps_pitch_length_and_level(tmp_path, rate):
    recording = read_recording(write_wav(tmp_path / "a.wav", tone(rate=rate), rate=rate))
    assert recording.rate == RATE and recording.seconds == pytest.approx(4, abs=0.002)
    assert strongest(recording) == pytest.approx(440, abs=0.5)
    assert np.std(recording.samples) == pytest.approx(0.3 / np.sqrt(2), rel=0.01)


@pytest.mark.parametrize("width", [1, 2, 3, 4])
@pytest.mark.parametrize("channels", [1, 2])
def test_any_width_and_number_of_channels(tmp_path, width, channels):
    recording = read_recording(write_wav(tmp_path / "a.wav", tone(), width=width, channels=channels))
    assert np.max(recording.samples) == pytest.approx(0.3, abs=0.01) and recording.seconds == pytest.approx(4, abs=0.01)


@pytest.mark.parametrize(("name", "codec"), [("a.m4a", "aac"), ("a.flac", "flac"), ("a.wav", "pcm_f32le"), ("sound", None)])
def test_a_phones_own_files(tmp_path, name, codec):
    if codec is None:  # a WAV whose name does not say so
        path = write_wav(tmp_path / name, tone())
    else:
        path = write_other(tmp_path / name, tone(), codec=codec)
    recording = read_recording(path)
    assert strongest(recording) == pytest.approx(440, abs=0.5) and recording.seconds == pytest.approx(4, abs=0.1)


def square(seconds=4):
    return np.clip(tone(seconds=seconds, level=3), -1, 1)


@pytest.mark.parametrize(("samples", "rate", "told"), [
    (tone(seconds=0.2), 44100, "too short.*Record at least 3 s"),
    (tone(seconds=2.99), 44100, "too short"),
    (tone(seconds=600, rate=8000), 8000, "10 minutes is too long. Cut out"),
    (tone(seconds=4) * 0, 44100, "silent.*level up"),
    (tone(seconds=4) * 1e-3, 44100, "silent.*level up"),
    (square(), 44100, "clipped.*level down"),
    (tone(rate=4000), 4000, "4000 samples in a second.*44100 or 48000"),
])
def test_a_bad_recording_gets_its_sentence(tmp_path, samples, rate, told):
    with pytest.raises(RecordingError, match=f"^a.wav: .*{told}"):
        read_recording(write_wav(tmp_path / "a.wav", samples, rate=rate))


def test_long_and_short_ones_of_other_kinds(tmp_path):
    with pytest.raises(RecordingError, match="too short"):
        read_recording(write_other(tmp_path / "a.flac", tone(seconds=0.2), codec="flac"))
    with pytest.raises(RecordingError, match="too long"):
        read_recording(write_other(tmp_path / "a.flac", tone(seconds=601, rate=8000), codec="flac", rate=8000))


@pytest.mark.parametrize("content", [b"this is no sound\n" * 99, b"RIFF\x00\x00\x00\x00WAVE", bytes(range(256)) * 40, b""])
def test_a_file_that_is_no_sound_is_named(tmp_path, content):
    path = tmp_path / "notes.wav"
    path.write_bytes(content)
    with pytest.raises(RecordingError, match=r"^notes\.wav: .*(not a sound file|is empty)"):
        read_recording(path)


def test_a_missing_file_and_a_folder(tmp_path):
    for path in (tmp_path / "none.wav", tmp_path):
        with pytest.raises(RecordingError, match="no such file"):
            read_recording(path)


def test_a_cut_off_wav_is_read_as_far_as_it_goes(tmp_path):
    path = write_wav(tmp_path / "a.wav", tone(seconds=8))
    path.write_bytes(path.read_bytes()[:44 + 2 * 44100 * 5])
    assert read_recording(path).seconds == pytest.approx(5, abs=0.01)


def test_stopping_is_heard(tmp_path, monkeypatch):
    def stopped(steps, **_):
        raise KeyboardInterrupt

    monkeypatch.setattr(recordings, "tqdm", stopped)
    with pytest.raises(KeyboardInterrupt):
        read_recording(write_wav(tmp_path / "a.wav", tone()))


@pytest.mark.parametrize("pitch", [200, 440, 2000])
def test_a_loud_recording_that_is_not_cut_off_passes(tmp_path, pitch):
    assert read_recording(write_wav(tmp_path / "a.wav", tone(level=0.99, pitch=pitch))).seconds == pytest.approx(4)
