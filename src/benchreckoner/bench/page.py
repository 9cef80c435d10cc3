"""A sheet's file and its text, or another of that kind: where each table stands, and errors that say so."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from benchreckoner.bench.places import find_places, line_of, path_at, say_path

_LARGEST = 5_000_000
_WHOLE = ()


@dataclass(frozen=True)
class Wording:
    """What a kind of file is called in its errors, and what it looks like, so that they show what to write in it.

    ``entry`` is one line of it, ``header`` that of an entry in a list, ``table`` any header; ``signs`` says what can be read once it is UTF-8,
    ``missing`` and ``folder`` what to do where there is no such file, ``large`` how to make one smaller; ``examples`` has a line for each
    key that holds another kind of thing than `entry` does.
    """

    kind: str
    entry: str
    header: str
    table: str
    signs: str
    missing: str
    folder: str
    large: str
    examples: Mapping[str, str] = field(default_factory=dict)

    def place(self, path):
        """Name an entry for a person."""
        # A bare "line 4" would be taken for a line of the file.
        named = ("[[line]]", *path[1:]) if path[:1] == ("line",) else path
        return say_path(named) if path else f"top of the {self.kind}"

    def plainly(self, reason, path):
        """The standard reader's complaint at an entry in plain words, with what to write instead."""
        example = self.examples.get(path[-1] if path else "", self.entry)
        told = (
            ("Cannot overwrite a value", "this key stands twice in its table; write it once"),
            ("Cannot declare", "this name already has a table or a list; write a table's header once, with all its entries below it, and a list's "
             f"the same each time, for example {self.header}"),
            ("Cannot mutate", f"this list was already written in one line; write each entry under its own header, for example {self.header}"),
            ("Expected ']]'", f"the header lacks a bracket, write for example {self.header}"),
            ("Expected ']'", f"the header lacks a bracket, write for example {self.table}"),
            ("Expected '='", f"the key lacks its equals sign, write for example {example}"),
            ("Expected newline", f"something stands behind its end; write all of it in one pair of quotation marks, for example {example}, "
                                 "and \\\" for a quotation mark within"),
            ("Unescaped", "a backslash in quotation marks stands for a sign of its own; write / or two backslashes"),
            ("Unterminated", f"a quotation mark is missing, write for example {example}"),
            ("Illegal character '\\n'", f"a quotation mark is missing at the end, write for example {example}"),
        )
        usual = f"text and values stand in quotation marks, write for example {example}" if example == self.entry else f"write for example {example}"
        return next((plain for start, plain in told if reason.startswith(start)), usual)

    def too_large(self, size):
        """Say that a file is larger than any of its kind."""
        return f"is {size / 1e6:.1f} MB, and a {self.kind} is at most {_LARGEST / 1e6:g} MB; {self.large}"


SHEET_WORDING = Wording(
    kind="sheet", entry='value = "184 mV"', header="[[reading]]", table="[machine]", signs='values such as "4.7 µF" can be read',
    missing="there is no such file; write a new one with: python3 reckon.py new record_player.toml",
    folder="is a folder, give the sheet in it, for example record_player.toml",
    large='write pictures as a file name, for example photo = "spring3.jpg"')


class SheetError(ValueError):
    """A fault in a sheet: which file, which line, which entry, and what to write."""

    def __init__(self, what, *, source, line, entry):
        super().__init__(f"{source}, line {line}, {entry}: {what}")
        self.source, self.line, self.entry, self.what = source, line, entry, what


class Page:
    """A sheet's text, taken apart into tables whose lines are known."""

    def __init__(self, text, source, wording=SHEET_WORDING):
        self.source, self.wording = source, wording
        self.places = {_WHOLE: 1}
        try:
            size = len(text.encode("utf-8"))
        except UnicodeEncodeError:
            raise self.fail(_WHOLE, f"holds half a character, which no file can keep; write plain text, for example {wording.entry}") from None
        if size > _LARGEST:
            raise self.fail(_WHOLE, self.wording.too_large(size))
        text = text.removeprefix("\ufeff")
        self.places = find_places(text)
        self.data = self._parse(text)

    def fail(self, path, what):
        """The error for the entry at `path`, to be raised."""
        return SheetError(what, source=self.source, line=line_of(self.places, path), entry=self.wording.place(path))

    def _parse(self, text):
        try:
            return tomllib.loads(text)
        except (ValueError, RecursionError) as fault:
            reason = str(fault)
        found = re.search(r"at line (\d+)", reason)
        # A quotation mark or bracket left open runs to the end; its own start is the place to look.
        line = int(found[1]) if found else max(self.places.values())
        path = path_at(self.places, line)
        raise SheetError(f"cannot be read: {self.wording.plainly(reason, path)}", source=self.source, line=line, entry=self.wording.place(path))


def load_text(path, wording=SHEET_WORDING):
    """The text of a file, line ends as they stand, or a `SheetError`."""
    path = Path(path)

    def fail(what):
        return SheetError(what, source=path.name or wording.kind, line=1, entry="file")

    if path.is_dir():
        raise fail(wording.folder)
    if not path.exists():
        raise fail(wording.missing)
    if not path.is_file():
        raise fail(f"is no ordinary file, give a {wording.kind} for it")
    try:
        size = path.stat().st_size
        if size > _LARGEST:
            raise fail(wording.too_large(size))
        return path.read_bytes().decode("utf-8")
    except UnicodeDecodeError as fault:
        line = fault.object.count(b"\n", 0, fault.start) + 1
        raise SheetError(f"is not UTF-8 text; save it as UTF-8 in the text editor, then {wording.signs}",
                         source=path.name, line=line, entry="file") from None
    except OSError as fault:
        raise fail(f"cannot be opened ({fault.strerror}); give a {wording.kind} that may be read") from None
