"""Two excerpts, before and after, made equally loud: the louder one is turned down, never the softer one up."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from benchreckoner.bench.recordings import RecordingError
from benchreckoner.physics.loudness import RATE, integrated_loudness
from benchreckoner.units import Q, show_level

LONGEST = 180.0  # s


@dataclass(frozen=True, eq=False)
class Excerpt:
    """A recording as it is, one row a channel at `RATE`, full scale 1, and its loudness."""

    name: str
    samples: np.ndarray
    loudness: Q


def read_excerpt(path):
    """Read an excerpt with its channels.

    Parameters
    ----------
    path : path-like

    Returns
    -------
    Excerpt

    Raises
    ------
    RecordingError
        For a file without sound, a silent one, or one under 0.8 s or over 3 minutes.
    """
    import av  # only here: it takes a while to load

    path = Path(path)
    refusal = RecordingError(f"{path.name}: no sound can be read from it. Save the excerpt as WAV, or take the phone's own file.")
    blocks, length = [], 0
    try:
        with av.open(str(path)) as file:
            if not file.streams.audio:
                raise refusal
            stream = file.streams.audio[0]
            layout = "mono" if stream.channels == 1 else "stereo"
            to_plain = av.AudioResampler(format="fltp", layout=layout, rate=RATE)
            for frame in (*file.decode(stream), None):
                for plain in to_plain.resample(frame):
                    blocks.append(plain.to_ndarray().astype(float))
                    length += blocks[-1].shape[1]
                if length > LONGEST * RATE:
                    raise RecordingError(f"{path.name}: it is longer than {LONGEST / 60:.0f} minutes. Cut out what is to be compared.")
    except (av.FFmpegError, UnicodeDecodeError) as error:
        raise refusal from error
    if not blocks:
        raise refusal
    samples = np.concatenate(blocks, axis=1)
    try:
        return Excerpt(path.name, samples, integrated_loudness(samples=samples, rate=RATE))
    except ValueError as error:
        raise RecordingError(f"{path.name}: {error}") from error


def matched(first, second):
    """Both excerpts as loud as the softer one.

    Parameters
    ----------
    first, second : Excerpt

    Returns
    -------
    samples : list of numpy.ndarray
    words : str
        By how much they differed and what was done, in plain words.
    """
    first, second, beside = _alike(first, second)
    target = min(first.loudness, second.loudness)
    gains = [(target - one.loudness).m_as("dB") for one in (first, second)]
    samples = [one.samples * 10 ** (gain / 20) for one, gain in zip((first, second), gains)]
    louder = first if gains[0] < gains[1] else second
    most = -min(gains)
    if most < 0.05:
        return samples, f"Both are equally loud, {show_level(target)} of full scale by ITU-R BS.1770. Neither was turned down.{beside}"
    return samples, (f"{louder.name} was louder by {show_level(Q(most, 'dB'))} (ITU-R BS.1770) and was turned down by as much. What is heard now is not "
                     "loudness. If the recorder's automatic gain was on, the difference is not the machine's." + beside)


def _alike(first, second):
    """Both with as many channels: one channel is heard from both loudspeakers, which makes it louder than it reads."""
    channels = [len(one.samples) for one in (first, second)]
    if channels[0] == channels[1]:
        return first, second, ""
    single = (first, second)[channels.index(min(channels))]
    samples = np.repeat(single.samples, max(channels), axis=0)
    spread = Excerpt(single.name, samples, integrated_loudness(samples=samples, rate=RATE))
    return *(spread if one is single else one for one in (first, second)), f" {single.name} has one channel and was laid on both, as a player does."
