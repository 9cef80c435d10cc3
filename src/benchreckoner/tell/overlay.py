"""A reading over the minutes, to lay over one's own film: it starts at a clap in the film's sound."""

from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import tomlkit

from benchreckoner.bench.recordings import RecordingError, read_recording
from benchreckoner.tell.choice import ChoiceError
from benchreckoner.tell.framed import SHAPES, Layout, Words, pixels

_LINES = """
# A reading over the minutes, to lay over a film of your own. Clap once when the volts go on, in the film; put the film or its
# sound into this folder; take the marks off the lines below and write what was read. {found}
# Where a part was read over the minutes at several stages, name one as well: stage = "as found"
# [[overlay]]
# name = "over-the-minutes"
# film = "film.mp4"
# part = {part}
# quantity = {quantity}
"""
_FOUND = "Named here is what this sheet has the most readings with a time of."
_NONE = 'It needs readings with a time (after = "2 min"); this sheet has none yet.'
_KEYS = ("name", "film", "part", "quantity")
_BLOCK = 0.005  # s
_BEFORE = 40  # blocks of background: a fifth of a second
_RISE = 15.0  # dB over the background
_NEAR = 12.0  # dB below the loudest rise: a clap is among the loudest
_SHORT, _FALL = 30, 10.0  # blocks within which a clap has fallen by so many dB
_STRIP = {"wide": 150, "upright": 220}  # pixels at the foot of a frame
_DOTS = 160.0


@dataclass(frozen=True)
class Overlay:
    """What to lay over a film: its name, how long the film is, when the clap sounds, and what was read when."""

    name: str
    seconds: float
    clap: float
    what: str
    rows: tuple

    def frames(self, shape):
        """Frames with their opacity and the seconds that each stays: see-through up to the clap, then a second each."""
        width, height = SHAPES[shape]
        yield np.zeros((height, width, 4), np.uint8), self.clap
        shown = 0
        while self.clap + shown < self.seconds:
            frame = np.zeros((height, width, 4), np.uint8)
            strip = pixels(strip_layout(shape), None, self.words(shown))
            frame[-strip.shape[0]:, :, :3], frame[-strip.shape[0]:, :, 3] = strip, 255
            yield frame, min(1.0, self.seconds - self.clap - shown)
            shown += 1

    def words(self, since):
        """What stands there so many seconds after the clap: the last reading taken by then, never one between two."""
        past = [text for after, text in self.rows if after <= since]
        return Words(f"{since // 60:.0f}:{since % 60:02.0f} since the clap", f"{self.what}: {past[-1] if past else 'not read yet'}")


def strip_layout(shape):
    """The layout of the strip of words."""
    size = (SHAPES[shape][0], _STRIP[shape])
    return Layout(size, _DOTS, (0, 0, 0, 0), (0, 0, *size))


def overlay_words(sheet):
    """The lines of a new file of choices that show how an overlay is asked for.

    Parameters
    ----------
    sheet : Sheet
        The part and the quantity that it holds the most readings with a time of are the example.

    Returns
    -------
    str
    """
    timed = Counter((reading.part, reading.quantity) for reading in sheet.readings if reading.after is not None)
    part, quantity = timed.most_common(1)[0][0] if timed else ("C1", "leakage current")
    return _LINES.format(found=_FOUND if timed else _NONE, part=tomlkit.string(part).as_string(), quantity=tomlkit.string(quantity).as_string())


def overlays(told, sheet, folder):
    """The overlays that a file of choices asks for.

    Parameters
    ----------
    told : dict
        With a list ``overlay``, or without.
    sheet : Sheet
    folder : path-like
        Where the films lie.

    Returns
    -------
    list of Overlay

    Raises
    ------
    ChoiceError
        If one lacks a word, or if the sheet holds no such readings with a time.
    RecordingError
        If a film has no sound that can be used, or no clap.
    """
    return [_overlay(one, sheet, Path(folder)) for one in told.get("overlay", [])]


def _overlay(one, sheet, folder):
    for key in _KEYS:
        if not isinstance(one.get(key), str) or not one[key].strip():
            raise ChoiceError(f"overlay: needs {key} = \"...\"; it needs {', '.join(_KEYS)}")
    name = one["name"].strip()
    if not all(sign.isalnum() or sign in "-_" for sign in name):
        raise ChoiceError(f"overlay {name!r}: write its name with letters, digits and hyphens only")
    rows = sorted((reading.after.m_as("s"), reading.text) for reading in sheet.readings
                  if reading.part == one["part"] and reading.quantity == one["quantity"] and reading.after is not None
                  and one.get("stage", reading.stage) == reading.stage)
    if not rows:
        raise ChoiceError(f"overlay {name!r}: the sheet holds no {one['quantity']!r} of {one['part']!r} with a time; "
                          "readings say after = \"2 min\"")
    recording = read_recording(folder / one["film"])
    return Overlay(name, recording.seconds, find_clap(recording), f"{one['part']}, {one['quantity']}", tuple(rows))


def find_clap(recording):
    """When the clap sounds: the first short sound that rises steeply and is among the loudest.

    Parameters
    ----------
    recording : Recording

    Returns
    -------
    float
        In seconds from the recording's start.

    Raises
    ------
    RecordingError
        If there is none.

    Notes
    -----
    Differences of samples stand for them, which weakens speech and hum beside a clap. Of blocks of 5 ms the energy in decibels
    is compared with the middle one of the fifth of a second before. A clap rises by 15 dB, has fallen by 10 dB after 0.15 s,
    and rises to within 12 dB of the loudest that does so. All three are our own choice.
    """
    steps = np.diff(recording.samples)
    size = round(_BLOCK * recording.rate)
    blocks = steps[:len(steps) // size * size].reshape(-1, size)
    level = 10 * np.log10(np.mean(blocks**2, axis=1) + 1e-12)
    padded = np.concatenate((np.full(_BEFORE, np.median(level)), level, np.full(_SHORT, np.median(level))))
    before = np.median(np.lib.stride_tricks.sliding_window_view(padded, _BEFORE)[:len(level)], axis=1)
    after = padded[_BEFORE + _SHORT:_BEFORE + _SHORT + len(level)]
    rises = np.flatnonzero((level - before >= _RISE) & (level - after >= _FALL))
    if not rises.size:
        raise RecordingError(f"{recording.name}: no clap was found. Clap once, a metre from the microphone, with half a second of quiet "
                             "before it.")
    block = rises[level[rises] >= level[rises].max() - _NEAR][0]
    return float(block * _BLOCK)
