"""Changing a sheet: every save whole or not at all, every comment kept, every change undone."""

import contextlib
import os
import shutil
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import tomlkit

from benchreckoner.bench.entries import suggest
from benchreckoner.bench.sheet import Sheet, SheetError, load_text, read_text
from benchreckoner.bench.vocabulary import TABLES

_LISTS = tuple(table for table in TABLES if table != "machine")
_TRIES = 20


@dataclass(frozen=True)
class Change:
    """One saved change: the file's text before and after it, and the sheet it made."""

    path: Path
    before: str
    after: str
    sheet: Sheet


def add_entry(path, *, table, entry):
    """Add an entry at the end of a sheet's file.

    Parameters
    ----------
    path : path-like
    table : str
        instrument, part, action, reading, symptom or observation.
    entry : mapping of str to str
        Keys and values as they would be typed into the file.

    Returns
    -------
    Change

    Raises
    ------
    SheetError
        If the entry or the file is faulty; the file is then left as it is.
    ValueError
        If the sheet has no such table.

    Notes
    -----
    The file is read afresh, so what was typed into it by hand survives. The new
    text is put behind the old one, which so stays as it is, byte for byte; it
    is saved only if the sheet reads well with it.
    """
    if table not in _LISTS:
        raise ValueError(f"table: unknown table {table!r}{suggest(str(table), _LISTS)}")
    path = Path(path)
    for _ in range(_TRIES):
        before = load_text(path)
        after = before + _addition(path, before, table, entry)
        sheet = read_text(after, source=path.name)
        if replace_text(path, before=before, after=after):
            return Change(path, before, after, sheet)
    raise _file_error(path, "is being changed by another program all the time, so nothing was saved; "
                      "close the other one and write the entry again")


def take_back(change):
    """Undo a change, if nothing else was changed since.

    Parameters
    ----------
    change : Change

    Returns
    -------
    Sheet
        As it was before the change.

    Raises
    ------
    ValueError
        If the file no longer reads as the change left it; it is left as it is.
    """
    sheet = read_text(change.before, source=change.path.name)
    if load_text(change.path) != change.after \
            or not replace_text(change.path, before=change.after, after=change.before):
        raise ValueError(f"{change.path.name} was changed after this entry was saved, so it was left as it is; "
                         "take the entry out in a text editor")
    return sheet


def replace_text(path, *, before, after):
    """Put one text in place of another in a file, whole or not at all.

    Parameters
    ----------
    path : path-like
    before, after : str

    Returns
    -------
    bool
        False if the file no longer held `before`; it is then left as it is.

    Raises
    ------
    SheetError
        If the file cannot be saved; it is then left as it is.

    Notes
    -----
    The text goes to a temporary file in the same folder, which then takes the
    sheet's place in one step: whenever the program is killed, the sheet is
    wholly the old or wholly the new one.
    """
    # A link would otherwise be replaced by a file, and the sheet it points to left behind.
    target = Path(path).resolve()
    try:
        with tempfile.NamedTemporaryFile(
                "wb", dir=target.parent, prefix=f".{target.name}.", suffix=".saving", delete=False) as temporary:
            try:
                temporary.write(after.encode("utf-8"))
                temporary.flush()
                os.fsync(temporary.fileno())
                temporary.close()
                with contextlib.suppress(OSError):
                    shutil.copymode(target, temporary.name)
                held = target.read_bytes() == before.encode("utf-8")
                if held:
                    os.replace(temporary.name, target)
            finally:
                temporary.close()
                Path(temporary.name).unlink(missing_ok=True)
    except OSError as fault:
        raise _file_error(path, f"cannot be saved ({fault.strerror}) and was left as it is; "
                          "free the disk or the folder, then write the entry again") from None
    return held


def _addition(path, before, table, entry):
    """The text to put behind a sheet for one more entry."""
    if not isinstance(entry, Mapping):
        raise TypeError("entry: must be a mapping of keys to values, for example {'what': 'slow'}")
    try:
        addition = tomlkit.dumps({table: [dict(entry)]})
        kept = tomllib.loads(addition) == {table: [dict(entry)]} and addition.encode("utf-8")
    except (ValueError, TypeError):
        kept = False
    if not kept:
        raise SheetError('holds something that no sheet can keep; write plain text, for example note = "steady"',
                         source=path.name, line=before.count("\n") + 1, entry=f"new {table}")
    joint = "" if not before else "\n" if before.endswith("\n") else "\n\n"
    addition = joint + addition
    return addition.replace("\n", "\r\n") if "\r\n" in before else addition


def _file_error(path, what):
    return SheetError(what, source=Path(path).name, line=1, entry="file")
