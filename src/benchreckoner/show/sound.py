"""A sound in a notebook: a caution, a player, and two pictures of what it plays.

Nothing plays by itself, and nothing leaves here louder than `CEILING`.
"""

import base64
import functools
import io
import wave
from dataclasses import dataclass
from html import escape

import numpy as np
from scipy.signal import welch

from benchreckoner.show.picture import Axis, Band, Curve, Picture
from benchreckoner.show.still import still

CEILING = -12.0  # dB below the largest number a sound file can hold; the loudest sample stays at or under it
_LEVEL = (f"It never plays by itself, and its loudest moment is held at {CEILING:.0f} dB of full scale; how loud that is "
          "at your ear is for your volume control.").replace("-", "−")
_FADE = 0.02  # s, so that start and stop do not click
_COLUMNS = 400
_LOWEST, _HIGHEST = 20, 8000  # Hz
_FLOOR, _TOP = -120, 0  # dB


@dataclass(frozen=True, eq=False)
class Sound:
    """A sound to hear and to see: waveform and spectrum side by side.

    Parameters
    ----------
    name : str
        In plain words.
    samples : array of float
        Full scale is 1; a tenth of a second at least. Louder sounds are made quieter as a whole, never cut.
    rate : int
        Samples in a second.
    caution : str
        What to take care of, shown before the player.

    Raises
    ------
    ValueError
        For a row too short, or with a number that is none.
    """

    name: str
    samples: np.ndarray
    rate: int
    caution: str

    def __post_init__(self):
        samples = np.array(self.samples, dtype=float)
        if samples.ndim != 1 or len(samples) < 2 or not np.all(np.isfinite(samples)):
            raise ValueError("samples: a sound is one row of finite numbers, at least two, such as np.zeros(16000)")
        object.__setattr__(self, "samples", samples)

    @functools.cached_property
    def played(self):
        """The samples as they are played: faded at both ends, without direct current, never above the ceiling."""
        samples = self.samples - self.samples.mean()
        ends = min(len(samples) // 2, max(1, round(_FADE * self.rate)))
        samples[:ends] *= np.linspace(0, 1, ends)
        samples[-ends:] *= np.linspace(1, 0, ends)
        return samples * min(1.0, 10 ** (CEILING / 20) / max(np.max(np.abs(samples)), 1e-12))

    @property
    def wav(self):
        """The bytes of a WAV file: one channel, 16 bits."""
        buffer = io.BytesIO()
        with wave.open(buffer, "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(int(self.rate))
            file.writeframes(np.trunc(self.played * 32767).astype("<i2").tobytes())
        return buffer.getvalue()

    @property
    def waveform(self):
        """The sound along time, as a Picture: from its lowest to its highest value in each short moment."""
        played, rate, length = self.played, self.rate, len(self.played) / self.rate
        edges = np.unique(np.linspace(0, len(played), min(_COLUMNS, len(played)) + 1).astype(int))
        low, high = np.minimum.reduceat(played, edges[:-1]), np.maximum.reduceat(played, edges[:-1])
        height = 10 ** (CEILING / 20)
        loudest = float(np.argmax(np.abs(played)) / rate)
        return Picture(
            title=f"{self.name}: along time", x=Axis("time", "s", 0, length),
            y=Axis("share of full scale", "", -height, height),
            bands=(Band("from lowest to highest", edges[:-1] / rate, low, high),),
            sentence=f"{length:.1f} s of {self.name}; the loudest moment comes at {loudest:.1f} s.",
            alt=f"A dark band along {length:.1f} seconds, as tall as the sound is loud at each moment. "
                f"It is tallest at {loudest:.1f} s.")

    @property
    def spectrum(self):
        """How the sound's power spreads over the frequencies, as a Picture in dB of full scale for each hertz."""
        frequency, density = welch(self.played, fs=self.rate, nperseg=min(len(self.played), 2**13))
        wanted = (frequency >= _LOWEST) & (frequency <= _HIGHEST)
        frequency, density = frequency[wanted], density[wanted]
        decibels = np.clip(10 * np.log10(np.maximum(density, 1e-30)), _FLOOR, _TOP)
        strongest = float(frequency[np.argmax(decibels)])
        total = density.sum()
        half = (f" Half of its power lies below {frequency[np.searchsorted(np.cumsum(density), total / 2)]:.0f} Hz."
                if total > 0 else "")
        return Picture(
            title=f"{self.name}: over frequency", x=Axis("frequency", "Hz", _LOWEST, _HIGHEST, scale="log"),
            y=Axis("power in each hertz, below full scale", "", _FLOOR, _TOP, symbol="dB"),
            curves=(Curve("power", frequency, decibels),),
            sentence=f"The most power of {self.name} lies near {strongest:.0f} Hz.{half}",
            alt=f"A curve of power over frequency, from {_LOWEST} Hz to {_HIGHEST} Hz on a log axis. "
                f"It is highest near {strongest:.0f} Hz.")

    def __repr__(self):
        return "\n".join([f"Sound: {self.name}", self.waveform.sentence, self.spectrum.sentence])

    def _repr_html_(self):
        coded = base64.b64encode(self.wav).decode("ascii")
        name = escape(self.name)
        drawn = "".join(f'<div style="flex:1 1 18em;min-width:0">{still(picture)._repr_html_()}</div>'
                        for picture in (self.waveform, self.spectrum))
        return (f'<section aria-label="Sound: {name}"><p role="note"><strong>⚠ {escape(self.caution)}</strong> {_LEVEL}</p>'
                f'<p>{name}</p><audio controls preload="none" aria-label="Play: {name}" style="max-width:100%" '
                f'src="data:audio/wav;base64,{coded}"></audio>'
                f'<div style="display:flex;flex-wrap:wrap;gap:1em">{drawn}</div></section>')
