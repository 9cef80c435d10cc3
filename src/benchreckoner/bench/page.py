"""A sheet's file and its text: where each table stands, and errors that say so."""

import re
import tomllib
from pathlib import Path

from benchreckoner.bench.places import find_places, line_of, path_at, say_path

_LARGEST = 5_000_000
_WHOLE = ()
# The standard reader's words for the faults that people make most, and what to write instead.
_PLAIN_WORDS = (
    ("Cannot overwrite a value", "this key stands twice in its table; write it once"),
    ("Cannot declare", "this name is used for one table and for a list; "
                       "write the same header each time, for example [[reading]]"),
    ("Cannot mutate", "this list was already written in one line; "
                      "write each entry under its own header, for example [[reading]]"),
    ("Expected ']]'", "the header lacks a bracket, write for example [[reading]]"),
    ("Expected ']'", "the header lacks a bracket, write for example [machine]"),
    ("Expected '='", 'the key lacks its equals sign, write for example value = "184 mV"'),
    ("Unterminated", 'a quotation mark is missing, write for example value = "184 mV"'),
    ("Illegal character '\\n'", 'a quotation mark is missing at the end, write for example value = "184 mV"'),
)
_USUAL = 'text and values stand in quotation marks, write for example value = "184 mV"'


class SheetError(ValueError):
    """A fault in a sheet: which file, which line, which entry, and what to write."""

    def __init__(self, what, *, source, line, entry):
        super().__init__(f"{source}, line {line}, {entry}: {what}")
        self.source, self.line, self.entry, self.what = source, line, entry, what


class Page:
    """A sheet's text, taken apart into tables whose lines are known."""

    def __init__(self, text, source):
        self.source = source
        self.places = {_WHOLE: 1}
        try:
            size = len(text.encode("utf-8"))
        except UnicodeEncodeError:
            raise self.fail(_WHOLE, "holds half a character, which no file can keep; "
                            'write plain text, for example note = "steady"') from None
        if size > _LARGEST:
            raise self.fail(_WHOLE, _too_large(size))
        text = text.removeprefix("\ufeff")
        self.places = find_places(text)
        self.data = self._parse(text)

    def fail(self, path, what):
        """The error for the entry at `path`, to be raised."""
        return SheetError(what, source=self.source, line=line_of(self.places, path), entry=say_path(path))

    def _parse(self, text):
        try:
            return tomllib.loads(text)
        except (ValueError, RecursionError) as fault:
            reason = str(fault)
        found = re.search(r"at line (\d+)", reason)
        # A quotation mark or bracket left open runs to the end; its own start is the place to look.
        line = int(found[1]) if found else max(self.places.values())
        plain = next((plain for start, plain in _PLAIN_WORDS if reason.startswith(start)), _USUAL)
        raise SheetError(f"cannot be read: {plain}", source=self.source, line=line,
                         entry=say_path(path_at(self.places, line)))


def load_text(path):
    """The text of a sheet's file, line ends as they stand, or a `SheetError`."""
    path = Path(path)

    def fail(what):
        return SheetError(what, source=path.name or "sheet", line=1, entry="file")

    if path.is_dir():
        raise fail("is a folder, give the sheet in it, for example record_player.toml")
    if not path.exists():
        raise fail("there is no such file; write a new one with: python3 reckon.py new record_player.toml")
    if not path.is_file():
        raise fail("is no ordinary file, give a sheet, for example record_player.toml")
    try:
        size = path.stat().st_size
        if size > _LARGEST:
            raise fail(_too_large(size))
        return path.read_bytes().decode("utf-8")
    except UnicodeDecodeError as fault:
        line = fault.object.count(b"\n", 0, fault.start) + 1
        raise SheetError('is not UTF-8 text; save it as UTF-8 in the text editor, then values such as "4.7 µF" '
                         "can be read", source=path.name, line=line, entry="file") from None
    except OSError as fault:
        raise fail(f"cannot be opened ({fault.strerror}); give a file that may be read, "
                   "for example record_player.toml") from None


def _too_large(size):
    """Say that a file is larger than any sheet."""
    return (f"is {size / 1e6:.1f} MB, and a sheet is at most {_LARGEST / 1e6:g} MB; "
            'write pictures as a file name, for example photo = "spring3.jpg"')
