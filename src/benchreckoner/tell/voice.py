"""A recording of the voice: how loud it is at each moment, and which sentence is said when.

Only loudness and lengths are heard, never words.
"""

from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from scipy.signal import butter, sosfilt, sosfilt_zi
from tqdm import tqdm

from benchreckoner.bench.recordings import RecordingError
from benchreckoner.tell.align import STEP, align, find_pauses, is_sure
from benchreckoner.tell.captions import syllables

ENDINGS = (".wav", ".flac", ".mp3", ".m4a", ".aac", ".ogg", ".opus", ".mp4", ".mov", ".mkv", ".webm", ".3gp")
SHORTEST, LONGEST = 2.0, 1800.0  # s
_RATE = 16000
_BAND = (150, 4000)  # Hz: hum and hiss lie outside, a voice inside
_QUIETEST = -65.0  # dB of full scale
_SLOWEST, _FASTEST = 1.8, 9.0  # syllables in a second of speech; common practice is 4 to 6
_ODDLY_OFTEN = 0.5
# What is no longer taken for this script. Synthesised voices reached 0.7, 0.16 and 0.7 at worst; voices that said something
# else, mostly 1, nought and 0.3.
_STRAYED, _LEAST_GAIN, _LEAST_SURE = 1.0, 0.1, 0.4
_ABOUT = (0.75, 1.33)  # times as long as planned: short enough apart for a stretch


@dataclass(frozen=True, eq=False)
class Voice:
    """A recording's loudness, a level [dB of full scale] every `STEP`, between 150 Hz and 4 kHz."""

    name: str
    levels: np.ndarray

    @property
    def seconds(self):
        """How long it is."""
        return len(self.levels) * STEP


def find_voice(folder):
    """The recording of the voice in a folder: a file named "voice" with the ending of a sound or a film.

    Parameters
    ----------
    folder : path-like

    Returns
    -------
    pathlib.Path or None

    Raises
    ------
    RecordingError
        If there are several.
    """
    folder = Path(folder)
    found = sorted(path for path in folder.iterdir() if path.stem.casefold() == "voice" and path.suffix.casefold() in ENDINGS
                   ) if folder.is_dir() else []
    if len(found) > 1:
        raise RecordingError(f"{', '.join(path.name for path in found)}: which one is it? Leave one and give the others another name.")
    return found[0] if found else None


def read_voice(path):
    """Read how loud a voice is at each moment, from a sound or a film.

    Parameters
    ----------
    path : path-like

    Returns
    -------
    Voice

    Raises
    ------
    RecordingError
        For a file without sound, a silent one, one under 2 s or over 30 minutes.

    Notes
    -----
    Channels are averaged. Reading shows its progress; stopping it changes nothing.
    """
    import av  # only here: it takes a while to load

    path, blocks = Path(path), _Levels()
    refusal = RecordingError(f"{path.name}: no sound can be read from it. Save the voice as WAV, or take the phone's own file.")
    try:
        with av.open(str(path)) as file:
            if not file.streams.audio:
                raise refusal
            to_plain = av.AudioResampler(format="flt", layout="mono", rate=_RATE)
            frames = tqdm(file.decode(file.streams.audio[0]), desc=f"reading {path.name}", delay=1, leave=False, disable=None)
            for frame in frames:
                for plain in to_plain.resample(frame):
                    blocks.add(plain.to_ndarray()[0])
                if blocks.seconds > LONGEST:
                    raise RecordingError(f"{path.name}: it is longer than {LONGEST / 60:.0f} minutes. Part it, or leave out what is no voice.")
            for plain in to_plain.resample(None):
                blocks.add(plain.to_ndarray()[0])
    except (av.FFmpegError, UnicodeDecodeError) as error:
        raise refusal from error
    levels = blocks.levels
    if len(levels) * STEP < SHORTEST:
        raise RecordingError(f"{path.name}: {len(levels) * STEP:.1f} s are too short for a voice. Record at least {SHORTEST:.0f} s.")
    if not np.all(np.isfinite(levels)) or np.quantile(levels, 0.9) < _QUIETEST:
        raise RecordingError(f"{path.name}: it is silent, or nearly so. Move the microphone closer and record again.")
    return Voice(path.name, levels)


def place_sentences(voice, spoken):
    """Give sentences the times at which a voice says them.

    Parameters
    ----------
    voice : Voice
    spoken : sequence of Spoken
        With any times; one at least.

    Returns
    -------
    spoken : tuple of Spoken
    remarks : tuple of str
        What could not be heard, or is doubtful, in plain words. Where the sentences do not fit what is heard, they keep the
        times they came with, stretched to the recording if it is about as long, and it is said.
    """
    lengths = [syllables(sentence.text) for sentence in spoken]
    pauses = find_pauses(voice.levels)
    if pauses is None:
        return _as_planned(voice, spoken, "no pauses were found. Music or noise lies under the voice, or it is no voice.")
    speech = pauses.ends - pauses.begins - float((pauses.spans[:, 1] - pauses.spans[:, 0]).sum())
    rate = sum(lengths) / speech
    if not _SLOWEST <= rate <= _FASTEST:
        return _as_planned(voice, spoken, f"{speech:.0f} s of speech for words of about {sum(lengths)} syllables make {rate:.1f} a second, "
                           "where 4 to 6 are usual. Another language, another text, or only part of it?")
    laid = align(voice.levels, pauses, lengths)
    if laid is None:
        return _as_planned(voice, spoken, f"{len(spoken)} sentences do not fit into {pauses.ends - pauses.begins:.1f} s of voice. "
                           "Is it the voice for this script?")
    if not _fits(laid):
        return _as_planned(voice, spoken, "the pauses do not fit the sentences. Another text, another language, another order, a part "
                           "left out, or music under it? Only loudness is heard, never words.")
    return _timed(spoken, laid.sentences), tuple(_remarks(voice, pauses, spoken, laid))


def _fits(laid):
    order_tells = laid.gain is None or laid.gain >= _LEAST_GAIN
    return laid.strays <= _STRAYED and order_tells and sum(map(is_sure, laid.sentences)) >= _LEAST_SURE * len(laid.sentences)


def _as_planned(voice, spoken, reason):
    """The times that the sentences came with, none of them sure, and why."""
    longer = voice.seconds / spoken[-1].end
    stretched = _ABOUT[0] <= longer <= _ABOUT[1]
    by = longer if stretched else 1.0
    how = "stretched to the recording's length" if stretched else f"not the recording's, which is {voice.seconds:.0f} s long"
    return (tuple(replace(sentence, start=sentence.start * by, end=sentence.end * by, sure=0.0) for sentence in spoken),
            (f"{voice.name}: {reason} The times are those of the script's speaking rate, {how}: "
             "set them by hand, or record again.",))


def _timed(spoken, placed):
    return tuple(replace(sentence, start=one.start, end=one.end, sure=one.sure) for sentence, one in zip(spoken, placed))


def _remarks(voice, pauses, spoken, laid):
    if laid.gain is None:
        yield f"{voice.name}: {len(spoken)} sentences are too few, or too much alike, to tell whether it is this script that is said. Look at every time."
    if len(pauses.spans) < _ODDLY_OFTEN * (len(spoken) - 1):
        yield (f"{voice.name}: only {len(pauses.spans)} pauses for {len(spoken)} sentences. Where the voice ran on, the times are guesses.")
    for sentence, one in zip(spoken, laid.sentences):
        if not is_sure(one):
            yield f"Not sure, {one.start:.1f} s to {one.end:.1f} s: “{sentence.text}”"


class _Levels:
    """Gathers samples, filtered, as a level every `STEP`."""

    def __init__(self):
        self.sections = butter(4, _BAND, "bandpass", fs=_RATE, output="sos")
        self.state = sosfilt_zi(self.sections) * 0
        self.left, self.squares, self.count = np.zeros(0), [], round(STEP * _RATE)

    def add(self, samples):
        filtered, self.state = sosfilt(self.sections, samples.astype(float), zi=self.state)
        filtered = np.concatenate((self.left, filtered))
        whole = len(filtered) // self.count * self.count
        self.squares.append((filtered[:whole].reshape(-1, self.count) ** 2).mean(axis=1))
        self.left = filtered[whole:]

    @property
    def seconds(self):
        return sum(map(len, self.squares)) * STEP

    @property
    def levels(self):
        squares = np.concatenate((*self.squares, np.zeros(0)))
        return 10 * np.log10(np.maximum(squares, 1e-12))
