"""Changing a sheet: every save whole or not at all, every comment kept, every change undone."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import tomlkit

from benchreckoner.bench.entries import suggest
from benchreckoner.bench.page import SheetError, load_text
from benchreckoner.bench.sheet import Sheet, read_text
from benchreckoner.bench.vocabulary import TABLES
from benchreckoner.files import save_whole

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
        instrument, part, action, reading, symptom, observation, setting or trial.
    entry : mapping
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
        if _save(path, before, after):
            return Change(path, before, after, sheet)
    raise _file_error(path, "is being changed by another program all the time, so nothing was saved; "
                      "close the other one and write the entry again")


def rewrite_entry(change, *, table, entry):
    """Put another entry in the place of the one just added, if nothing else was changed since.

    Parameters
    ----------
    change : Change
        As `add_entry` or this function gave it.
    table : str
    entry : mapping

    Returns
    -------
    Change or None
        None if the file was changed since; it is then left as it is.

    Raises
    ------
    SheetError
        If the entry is faulty; the file is then left as it is.
    """
    after = change.before + _addition(change.path, change.before, table, entry)
    sheet = read_text(after, source=change.path.name)
    return Change(change.path, change.before, after, sheet) if _save(change.path, change.after, after) else None


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
    if not _save(change.path, change.after, change.before):
        raise ValueError(f"{change.path.name} was changed after this entry was saved, so it was left as it is; "
                         "take the entry out in a text editor")
    return sheet


def _save(path, before, after):
    try:
        return save_whole(path, after, only_over=before)
    except OSError as fault:
        raise _file_error(path, f"cannot be saved ({fault.strerror}) and was left as it is; "
                          "free the disk or the folder, then write the entry again") from None


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
