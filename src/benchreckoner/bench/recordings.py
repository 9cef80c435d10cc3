"""Read a recording of one's own: one row of numbers at one rate, or a sentence that says what to do."""

import wave
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import numpy as np
from scipy.signal import resample_poly
from tqdm import tqdm

RATE = 16000  # samples in a second of every recording, once read
SHORTEST, LONGEST = 3.0, 600.0  # s
SLOWEST, FASTEST = 8000, 192000  # samples in a second
QUIETEST = -60.0  # dB of full scale, root mean square
_FLAT = 0.985  # share of full scale from which a row of equal samples is a cut-off top
_CLIPPED_SHARE = 1e-4
_WIDTHS = {1: "u1", 2: "<i2", 4: "<i4"}


class RecordingError(ValueError):
    """A recording that cannot be used, with what to do instead."""


@dataclass(frozen=True, eq=False)
class Recording:
    """A recording as the library uses it.

    Attributes
    ----------
    name : str
    samples : numpy.ndarray
        One channel, full scale 1, at `RATE`.
    rate : int
        Samples in a second: always `RATE`.
    """

    name: str
    samples: np.ndarray
    rate: int = RATE

    @property
    def seconds(self):
        """How long it is."""
        return len(self.samples) / self.rate


def read_recording(path):
    """Read a recording: WAV, or anything else that the audio reader knows, such as a phone's own files.

    Parameters
    ----------
    path : str or Path

    Returns
    -------
    Recording
        Channels are averaged. Long reading shows its progress; stopping it (Ctrl C, or the notebook's stop button)
        changes nothing.

    Raises
    ------
    RecordingError
        Clipped, too quiet, under 3 s, 10 minutes or longer, a rate outside 8 to 192 kHz, or no audio.
    """
    path = Path(path)
    if not path.is_file():
        raise RecordingError(f"{path.name}: there is no such file. Write the recording's name with its folder, such as "
                             "\"recordings/switch.wav\".")
    if path.stat().st_size == 0:
        raise RecordingError(f"{path.name}: the file is empty. Record again and copy it once the recorder has stopped.")
    try:
        samples, rate = _read_wav(path)
    except (wave.Error, EOFError):
        samples, rate = _read_other(path)
    return checked(path.name, samples, rate)


def checked(name, samples, rate):
    """A recording from samples at any rate, if it can be used.

    Parameters
    ----------
    name : str
    samples : numpy.ndarray
        One channel, full scale 1.
    rate : int

    Returns
    -------
    Recording

    Raises
    ------
    RecordingError
    """
    _check_rate(name, rate)
    _check_length(name, len(samples) / rate)
    if not np.all(np.isfinite(samples)):
        raise RecordingError(f"{name}: it holds values that are no numbers. Save it again as a 16-bit WAV.")
    clipped = _clipped_share(samples)
    samples = samples - samples.mean()
    level = 10 * np.log10(max(np.mean(samples**2), 1e-20))
    if level < QUIETEST:
        raise RecordingError(f"{name}: it is silent, or nearly so. Move the microphone closer or turn the recorder's level up, "
                             "listen to it once, and record again.")
    if clipped > _CLIPPED_SHARE:
        raise RecordingError(f"{name}: it is clipped: {100 * clipped:.2g} % of it is cut off at the top, which sounds like crackle. "
                             "Turn the recorder's level down, or move it away, and record again.")
    if rate != RATE:
        ratio = Fraction(RATE, int(rate)).limit_denominator(2000)
        samples = resample_poly(samples, ratio.numerator, ratio.denominator)
    return Recording(name, np.asarray(samples, dtype=float))


def _check_rate(name, rate):
    if not SLOWEST <= rate <= FASTEST:
        raise RecordingError(f"{name}: {rate} samples in a second cannot be used. Record with 44100 or 48000, which every recorder "
                             f"offers ({SLOWEST} to {FASTEST} will do).")


def _check_length(name, seconds):
    if seconds < SHORTEST:
        raise RecordingError(f"{name}: {seconds:.2g} s is too short to hear a pattern. Record at least {SHORTEST:.0f} s, best 10 to 20 s.")
    if seconds >= LONGEST:
        raise RecordingError(f"{name}: {seconds / 60:.0f} minutes is too long. Cut out 10 to 20 s with the crackle in it "
                             f"(under {LONGEST / 60:.0f} minutes will do).")


def _read_wav(path):
    with wave.open(str(path), "rb") as file:
        rate, channels, width, count = file.getframerate(), file.getnchannels(), file.getsampwidth(), file.getnframes()
        if width not in (1, 2, 3, 4):
            raise wave.Error("unknown width")
        _check_rate(path.name, rate)
        # Before reading: a day of sound would fill the memory.
        _check_length(path.name, count / rate)
        blocks = [_numbers(file.readframes(rate), width, channels)
                  for _ in _progress(range(-(-count // rate)), path.name)]
    return np.concatenate(blocks), rate


def _numbers(frames, width, channels):
    frames = frames[:len(frames) // (width * channels) * width * channels]
    if width == 3:
        # numpy has no 24-bit numbers: stand each in the upper part of a 32-bit one.
        wide = np.zeros((len(frames) // 3, 4), dtype="u1")
        wide[:, 1:] = np.frombuffer(frames, dtype="u1").reshape(-1, 3)
        frames, width = wide.tobytes(), 4
    numbers = np.frombuffer(frames, dtype=_WIDTHS[width]).astype(float)
    numbers = (numbers - 128) / 128 if width == 1 else numbers / 2.0 ** (8 * width - 1)
    return numbers.reshape(-1, channels).mean(axis=1)


def _read_other(path):
    import av  # only here: it takes a while to load, and a WAV needs none of it

    refusal = RecordingError(f"{path.name}: this is not a sound file that can be read. Save the recording as WAV, "
                             "or send the phone's own sound file unchanged.")
    blocks, length = [], 0
    try:
        with av.open(str(path)) as file:
            if not file.streams.audio:
                raise refusal
            stream = file.streams.audio[0]
            rate = stream.rate
            _check_rate(path.name, rate)
            if file.duration:
                _check_length(path.name, file.duration / av.time_base)
            to_plain = av.AudioResampler(format="fltp")
            for frame in _progress(file.decode(stream), path.name):
                for plain in to_plain.resample(frame):
                    blocks.append(plain.to_ndarray().astype(float).mean(axis=0))
                    length += len(blocks[-1])
                if length >= LONGEST * rate:
                    _check_length(path.name, length / rate)
    except (av.FFmpegError, UnicodeDecodeError) as error:
        raise refusal from error
    if not blocks:
        raise refusal
    return np.concatenate(blocks), rate


def _progress(steps, name):
    return tqdm(steps, desc=f"reading {name}", delay=1, leave=False)


def _clipped_share(samples):
    """Share of samples that stand flat at the very top or bottom, or lie beyond it."""
    top = np.abs(samples) >= _FLAT
    # A loud sound rounds its tops, a cut-off one is level there; packed files let cut-off tops stick out beyond 1.
    level = np.abs(np.diff(samples)) < 1e-4
    flat = top[1:-1] & level[:-1] & level[1:]
    return float((flat.sum() + (np.abs(samples) > 1.0).sum()) / len(samples))
