"""A sound in a notebook: a caution, a player, and two pictures of what it plays.

Nothing plays by itself, and nothing leaves here louder than `CEILING`.
"""

import base64
import io
import wave
from dataclasses import dataclass
from html import escape

import numpy as np
from scipy.signal import welch

from benchreckoner.show.picture import Axis, Band, Curve, Picture
from benchreckoner.show.still import still

CEILING = -12.0  # dB below the largest number a sound file can hold; the loudest sample stays at or under it
CAUTION = ("Take care of your ears. Crackle is sudden. Turn the volume down first, lay headphones on the table, start the "
           "sound, and only then turn up. It never plays by itself, and its loudest moment is held at "
           f"{CEILING:.0f} dB of full scale".replace("-", "−") + "; how loud that is at your ear is for your volume control.")
_FADE = 0.02  # s, so that start and stop do not click
_COLUMNS = 400
_LOWEST, _HIGHEST = 20, 8000  # Hz
_FLOOR, _TOP = -120, 0  # dB


def limited(samples, rate):
    """Samples as they may be played: faded at both ends, without direct current, never above the ceiling.

    Parameters
    ----------
    samples : array of float
        Full scale is 1. Louder sounds are made quieter as a whole, never cut.
    rate : int
        Samples in a second.

    Returns
    -------
    numpy.ndarray

    Raises
    ------
    ValueError
        For a row too short, or with a number that is none.
    """
    samples = np.array(samples, dtype=float)
    if samples.ndim != 1 or len(samples) < 2 or not np.all(np.isfinite(samples)):
        raise ValueError("samples: a sound is one row of finite numbers, at least two, such as np.zeros(16000)")
    samples -= samples.mean()
    ends = min(len(samples) // 2, max(1, round(_FADE * rate)))
    samples[:ends] *= np.linspace(0, 1, ends)
    samples[-ends:] *= np.linspace(1, 0, ends)
    return samples * min(1.0, 10 ** (CEILING / 20) / max(np.max(np.abs(samples)), 1e-12))


def wav_bytes(samples, rate):
    """A sound as the bytes of a WAV file: one channel, 16 bits, never above the ceiling."""
    buffer = io.BytesIO()
    with wave.open(buffer, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(int(rate))
        file.writeframes(np.trunc(limited(samples, rate) * 32767).astype("<i2").tobytes())
    return buffer.getvalue()


def waveform(samples, rate, *, name):
    """The sound along time: from its lowest to its highest value in each short moment.

    Parameters
    ----------
    samples : array of float
        At least a tenth of a second.
    rate : int
    name : str

    Returns
    -------
    Picture
    """
    played = limited(samples, rate)
    edges = np.unique(np.linspace(0, len(played), min(_COLUMNS, len(played)) + 1).astype(int))
    low, high = np.minimum.reduceat(played, edges[:-1]), np.maximum.reduceat(played, edges[:-1])
    length = len(played) / rate
    height = 10 ** (CEILING / 20)
    loudest = float(np.argmax(np.abs(played)) / rate)
    return Picture(
        title=f"{name}: along time", x=Axis("time", "s", 0, length),
        y=Axis("share of full scale", "", -height, height),
        bands=(Band("from lowest to highest", edges[:-1] / rate, low, high),),
        sentence=f"{length:.1f} s of {name}; the loudest moment comes at {loudest:.1f} s.",
        alt=f"A dark band along {length:.1f} seconds, as tall as the sound is loud at each moment. "
            f"It is tallest at {loudest:.1f} s.")


def spectrum(samples, rate, *, name):
    """How the sound's power spreads over the frequencies.

    Parameters
    ----------
    samples : array of float
        At least a tenth of a second.
    rate : int
    name : str

    Returns
    -------
    Picture
        In dB: power in each hertz, against that of full scale.
    """
    played = limited(samples, rate)
    frequency, density = welch(played, fs=rate, nperseg=min(len(played), 2**13))
    decibels = np.clip(10 * np.log10(np.maximum(density, 1e-30)), _FLOOR, _TOP)
    wanted = (frequency >= _LOWEST) & (frequency <= _HIGHEST)
    strongest = float(frequency[wanted][np.argmax(decibels[wanted])])
    total = density[wanted].sum()
    middle = float(frequency[wanted][np.searchsorted(np.cumsum(density[wanted]), total / 2)]) if total > 0 else np.nan
    half = f" Half of its power lies below {middle:.0f} Hz." if np.isfinite(middle) else ""
    return Picture(
        title=f"{name}: over frequency", x=Axis("frequency", "Hz", _LOWEST, _HIGHEST, scale="log"),
        y=Axis("power in each hertz, below full scale", "", _FLOOR, _TOP, symbol="dB"),
        curves=(Curve("power", frequency[wanted], decibels[wanted]),),
        sentence=f"The most power of {name} lies near {strongest:.0f} Hz.{half}",
        alt=f"A curve of power over frequency, from {_LOWEST} Hz to {_HIGHEST} Hz on a log axis. It is highest near {strongest:.0f} Hz.")


@dataclass(frozen=True, eq=False)
class Sound:
    """A sound to hear and to see.

    Parameters
    ----------
    name : str
        In plain words.
    samples : array of float
        Full scale is 1.
    rate : int
        Samples in a second.
    """

    name: str
    samples: np.ndarray
    rate: int

    @property
    def pictures(self):
        """The sound along time, and over frequency."""
        return waveform(self.samples, self.rate, name=self.name), spectrum(self.samples, self.rate, name=self.name)

    def __repr__(self):
        return "\n".join([f"Sound: {self.name}", *(picture.sentence for picture in self.pictures)])

    def _repr_html_(self):
        coded = base64.b64encode(wav_bytes(self.samples, self.rate)).decode("ascii")
        name = escape(self.name)
        drawn = "".join(f'<div style="flex:1 1 18em;min-width:0">{still(picture)._repr_html_()}</div>'
                        for picture in self.pictures)
        return (f'<section aria-label="Sound: {name}"><p role="note"><strong>⚠ {escape(CAUTION)}</strong></p>'
                f'<p>{name}</p><audio controls preload="none" aria-label="Play: {name}" style="max-width:100%" '
                f'src="data:audio/wav;base64,{coded}"></audio>'
                f'<div style="display:flex;flex-wrap:wrap;gap:1em">{drawn}</div></section>')
