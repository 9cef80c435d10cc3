"""The store: what the reader guessed and wrote, kept in a file beside the bench sheet."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import tomlkit
from tomlkit.exceptions import TOMLKitError

from benchreckoner.files import save_whole

_VERSION = 1


@dataclass(frozen=True)
class HitRate:
    """How often the reader's first guesses held.

    ``ranges`` and ``held`` count the 90 % ranges and those with the true value inside.
    ``choices`` holds one row for each confidence used: (per cent, asked, right).
    """

    ranges: int
    held: int
    choices: tuple[tuple[int, int, int], ...]


def keep(path, entry, *, group, key):
    """Add one entry to the store; earlier entries stay.

    Parameters
    ----------
    path : Path or None
        The store. With None nothing is kept.
    entry : dict of str to plain values
        What to keep; the date is added.
    group, key : str
        What sort of entry it is (``range``, ``choice``, ``sentences`` ...), and the key of the question.

    Returns
    -------
    str
        Empty when all is well, else a plain sentence for the reader.

    Notes
    -----
    A damaged store is left as it is and a fresh one is begun beside it. The file is
    replaced whole, so a kill at any moment leaves the old store or the new one.
    """
    if path is None:
        return ""
    path = Path(path)
    try:
        home, document, note = _open(path)
        entries = document.setdefault(group, tomlkit.table()).setdefault(key, tomlkit.aot())
        row = tomlkit.table()
        row["date"] = datetime.now().astimezone().replace(microsecond=0)
        row.update({name: _writable(value) for name, value in entry.items()})
        entries.append(row)
        home.parent.mkdir(parents=True, exist_ok=True)
        save_whole(home, tomlkit.dumps(document))
    except OSError as error:
        return (f"This could not be written to {path.name} ({error.strerror or error}). "
                "It stays on this page until you close it: note it down.")
    return note


def kept(path, *, group, key):
    """Hand back the entries kept for one question, oldest first, and a note if the store is damaged.

    Returns
    -------
    tuple of (list of dict, str)
    """
    if path is None:
        return [], ""
    try:
        _, document, note = _open(Path(path))
    except OSError as error:
        return [], f"{Path(path).name} could not be read ({error.strerror or error})."
    return document.unwrap().get(group, {}).get(key, []), note


def hit_rate(path):
    """Count how often the reader's guesses held, first guesses only.

    A second guess is made with the answer known, so it tells nothing.

    Parameters
    ----------
    path : Path or None
        The store.

    Returns
    -------
    HitRate
    """
    ranges, choices = first_guesses(path, group="range"), first_guesses(path, group="choice")
    table = {}
    for entry in choices.values():
        table.setdefault(entry["sure"], []).append(entry["right"])
    return HitRate(len(ranges), sum(entry["inside"] for entry in ranges.values()), tuple(
        (sure, len(rights), sum(rights)) for sure, rights in sorted(table.items())))


def first_guesses(path, *, group):
    """The first guess at each question that is whole, by the question's key, in the order in which they were begun.

    Parameters
    ----------
    path : Path or None
        The store.
    group : str
        ``"range"`` or ``"choice"``.

    Returns
    -------
    dict of str to dict
    """
    try:
        found = _open(Path(path))[1].unwrap() if path is not None else {}
    except OSError:
        found = {}
    firsts = {key: entries[0] for key, entries in found.get(group, {}).items() if entries}
    return {key: entry for key, entry in firsts.items() if _whole(entry, group)}


def _whole(entry, group):
    """Whether an entry says if its guess held: a reader may have written in the file."""
    if group == "range":
        return isinstance(entry.get("inside"), bool)
    sure = entry.get("sure")
    return isinstance(sure, int) and 0 <= sure <= 100 and isinstance(entry.get("right"), bool)


def _open(path):
    """The first of `path`, `path` 2, `path` 3 ... that is new or reads well."""
    number, home, damaged = 1, path, []
    while True:
        if not home.exists():
            return home, tomlkit.document().add("version", _VERSION), _damage(damaged, home)
        document = _read(home)
        if document is not None:
            return home, document, _damage(damaged, home)
        damaged.append(home.name)
        number += 1
        home = path.with_name(f"{path.stem}.{number}{path.suffix}")


def _read(path):
    """The document, or None where it is damaged or from a newer version."""
    try:
        document = tomlkit.parse(path.read_text(encoding="utf-8"))
        content = document.unwrap()
    except (TOMLKitError, UnicodeDecodeError):
        return None
    groups = {name: value for name, value in content.items() if name != "version"}
    sound = content.get("version") == _VERSION and all(
        isinstance(keys, dict) and all(
            isinstance(entries, list) and all(isinstance(entry, dict) for entry in entries)
            for entries in keys.values())
        for keys in groups.values())
    return document if sound else None


def _damage(damaged, home):
    if not damaged:
        return ""
    return (f"{' and '.join(damaged)} cannot be read as a store of guesses. It was left untouched; "
            f"what you type now goes to {home.name} beside it.")


def _writable(value):
    # A browser can send half of a split character, which no file can hold.
    return value.encode("utf-8", "replace").decode("utf-8") if isinstance(value, str) else value
