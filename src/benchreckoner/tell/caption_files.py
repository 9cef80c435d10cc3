"""Captions and chapters as files beside a film, by plan or after a recording of the voice; corrected ones are never lost."""

import hashlib
import itertools
import re
from pathlib import Path

from benchreckoner.bench.recordings import RecordingError
from benchreckoner.bench.sheet import SheetError, read_sheet
from benchreckoner.files import save_whole
from benchreckoner.tell.captions import (GUIDELINE, HEIGHT, UPRIGHT_HEIGHT, UPRIGHT_WIDTH, WIDTH, Spoken, chapter_cues, cues, sentences,
                                         timestamp, vtt)
from benchreckoner.tell.place import put_pages
from benchreckoner.tell.script import read_script, spoken_seconds
from benchreckoner.tell.script_file import NAME
from benchreckoner.tell.voice import find_voice, place_sentences, read_voice

_REGISTER = "camera"
_OURS = "Made by Bench Reckoner. Correct what you like: a changed file is kept, and a new one is put beside it."
_MARK = re.compile(r"^Unchanged: ([0-9a-f]{16})$", re.MULTILINE)


def planned(script):
    """The sentences of a script with the times that its speaking rate gives.

    Parameters
    ----------
    script : Script

    Returns
    -------
    tuple of Spoken
        One after the other, without a silence between.
    """
    found, here = [], 0.0
    for line in script.used:
        for sentence in sentences(line.say[_REGISTER]):
            end = here + spoken_seconds(sentence, script.words_per_minute)
            found.append(Spoken(sentence, here, end, line.chapter))
            here = end
    return tuple(found)


def make_captions(sheet_path, folder, *, tell=lambda line: None):
    """Write captions, upright captions and chapters for a film of the repair.

    Parameters
    ----------
    sheet_path : path-like
    folder : path-like
        With the author's ``script.toml`` and, if there is one, a recording of the voice named ``voice.wav``, ``voice.m4a`` and
        so on. It is made if only it, and not its parent, is missing.
    tell : callable
        Hears a line for everything that its author should know.

    Returns
    -------
    pathlib.Path
        The captions.

    Raises
    ------
    SheetError
        If the sheet or the script cannot be read, or nothing in it is said.
    OSError
        If the voice cannot be heard or a file cannot be written.

    Notes
    -----
    A file whose captions were changed by hand is left as it is; the new one stands beside it under the next number.
    """
    script = read_script(Path(folder) / NAME, read_sheet(sheet_path))
    spoken = planned(script)
    if not spoken:
        raise SheetError("no line is said, so there is nothing to caption; set use = true for one at least",
                         source=NAME, line=1, entry="line")
    put_pages({}, folder, ours=_OURS, what="captions")
    spoken, remarks = _heard(folder, spoken)
    shown = cues(spoken, width=WIDTH, height=HEIGHT)
    hurried = [f"Hard to read in its time, {timestamp(cue.start)}: {len(' '.join(cue.lines).split())} words in {cue.end - cue.start:.1f} s, "
               f"wanted {cue.wanted_seconds:.1f} s" for cue in shown if cue.hurried]
    for remark in (*remarks, *hurried):
        tell(remark)
    notes = (f"Times and lines by {GUIDELINE}", *remarks, *hurried)
    upright = cues(spoken, width=UPRIGHT_WIDTH, height=UPRIGHT_HEIGHT)
    files = {"captions": shown, "captions_upright": upright, "chapters": chapter_cues(spoken)}
    written = {name: _put(Path(folder), name, each, notes if name != "chapters" else (), tell) for name, each in files.items()}
    tell(f"Beside {written['captions'].name}: {written['captions_upright'].name} for an upright film, and {written['chapters'].name}.")
    return written["captions"]


def _heard(folder, spoken):
    """The times of a recorded voice, where there is one."""
    try:
        path = find_voice(folder)
        if path is None:
            return spoken, ("No recording of the voice: the times are those of the script's speaking rate. Put voice.wav into "
                            "the folder and make them again.",)
        return place_sentences(read_voice(path), spoken)
    except RecordingError as error:
        raise OSError(str(error)) from error


def _put(folder, name, shown, notes, tell):
    """Write one file under the first name where nothing of the author's own stands."""
    text = _marked(vtt(shown, notes=notes))
    for number in itertools.count(1):
        path = folder / (f"{name}.vtt" if number == 1 else f"{name}-{number}.vtt")
        if not path.exists() or _untouched(path):
            save_whole(path, text)
            return path
        tell(f"{path.name} was changed by hand and is left as it is.")


def _marked(text):
    """The text with a mark by which it is known to be unchanged."""
    head, rest = text.split("\n\n", 1)
    return f"{head}\n\nNOTE\n{_OURS}\nUnchanged: {_digest(rest)}\n\n{rest}"


def _untouched(path):
    """Whether a file is one of ours, as we wrote it, whatever its line ends."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return False
    mark = _MARK.search(text)
    return bool(mark) and _digest(text[mark.end():].lstrip("\n")) == mark[1]


def _digest(text):
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:16]
