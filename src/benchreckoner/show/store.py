"""The store: what the reader guessed and wrote, kept in a file beside the bench sheet."""

import math
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import tomlkit
from tomlkit.exceptions import TOMLKitError

from benchreckoner.files import save_whole

_VERSION = 1
_RANGE_PROMISE = 0.9  # ranges are asked for at 90 %


@dataclass(frozen=True)
class HitRate:
    """How often the reader's first guesses held.

    ``ranges`` and ``held`` count the 90 % ranges and those with the true value inside.
    ``choices`` holds one row for each confidence used: (per cent, asked, right).
    """

    ranges: int
    held: int
    choices: tuple[tuple[int, int, int], ...]

    @property
    def sentence(self):
        """Say in one sentence whether the ranges were as wide as they should be."""
        if not self.ranges:
            return "No range guessed yet."
        ranges = "1 range" if self.ranges == 1 else f"{self.ranges} ranges"
        start = f"{self.held} of your {ranges} held the true value; 90 % should"
        if _chance_of_at_most(self.held, self.ranges) < 0.05:
            return f"{start}, so make them wider."
        if _chance_of_at_most(self.ranges - self.held, self.ranges, 1 - _RANGE_PROMISE) < 0.05:
            return f"{start}, so you may make them narrower."
        return f"{start}: that fits, as far as {ranges} can tell."


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
    try:
        found = _open(Path(path))[1].unwrap() if path is not None else {}
    except OSError:
        found = {}
    inside = [entries[0].get("inside") for entries in found.get("range", {}).values() if entries]
    inside = [held for held in inside if isinstance(held, bool)]
    table = {}
    for entries in found.get("choice", {}).values():
        sure, right = (entries[0].get(name) for name in ("sure", "right")) if entries else (None, None)
        if isinstance(sure, int) and isinstance(right, bool):
            table.setdefault(sure, []).append(right)
    return HitRate(len(inside), sum(inside), tuple(
        (sure, len(rights), sum(rights)) for sure, rights in sorted(table.items())))


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


def _chance_of_at_most(count, total, each=_RANGE_PROMISE):
    """The chance of `count` or fewer hits in `total` tries with chance `each`."""
    return sum(math.comb(total, hits) * each**hits * (1 - each)**(total - hits) for hits in range(count + 1))
