"""The excerpts before and after as files that are equally loud, for a film or a room."""

import io
import wave
from pathlib import Path

import numpy as np

from benchreckoner.bench.excerpts import matched, read_excerpt
from benchreckoner.bench.recordings import RecordingError
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.files import save_whole
from benchreckoner.physics.loudness import RATE
from benchreckoner.tell.voice import ENDINGS

_NAMES = ("before", "after")


def make_excerpts(sheet_path, folder, *, tell=lambda line: None):
    """Match two recordings in a folder, ``before`` and ``after``, and put the matched ones beside them.

    Parameters
    ----------
    sheet_path : path-like
        It must be readable; nothing is taken from it.
    folder : path-like
        With ``before.wav`` and ``after.wav``, or other sounds and films of these names.
    tell : callable
        Hears by how much they differed.

    Returns
    -------
    pathlib.Path
        The second of ``before-matched.wav`` and ``after-matched.wav``.

    Raises
    ------
    SheetError
        If the sheet cannot be read.
    OSError
        If a recording is missing, cannot be used, or a file cannot be written.
    """
    read_sheet(sheet_path)
    try:
        first, second = (read_excerpt(_find(Path(folder), name)) for name in _NAMES)
    except RecordingError as error:
        raise OSError(str(error)) from error
    samples, words = matched(first, second)
    for name, one in zip(_NAMES, samples):
        save_whole(Path(folder) / f"{name}-matched.wav", _wav(one))
    tell(words)
    tell(f"Beside it: {_NAMES[0]}-matched.wav.")
    return Path(folder) / f"{_NAMES[1]}-matched.wav"


def _find(folder, name):
    found = [path for path in sorted(folder.iterdir()) if path.stem.casefold() == name and path.suffix.casefold() in ENDINGS
             ] if folder.is_dir() else []
    if len(found) != 1:
        if found:
            raise RecordingError(f"{', '.join(path.name for path in found)}: which one is it? Leave only one of them in the folder.")
        raise RecordingError(f"There is no recording called {name} in {folder}. Put one there as {name}.wav, or with the ending that your phone writes, "
                             f"and the {next(other for other in _NAMES if other != name)} beside it.")
    return found[0]


def _wav(samples):
    """The bytes of a WAV file with 16 bits a sample."""
    buffer = io.BytesIO()
    with wave.open(buffer, "wb") as file:
        file.setnchannels(len(samples))
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(np.clip(np.round(samples.T * 32768), -32768, 32767).astype("<i2").tobytes())
    return buffer.getvalue()
