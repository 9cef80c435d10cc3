"""The author's own file of a script as it stands: its settings, its lines as they were typed, and errors that show what to write."""

import difflib
import functools
import hashlib
import operator
import re
from dataclasses import dataclass, field

import tomlkit

from benchreckoner.bench.page import Page, SheetError, Wording, load_text
from benchreckoner.bench.places import line_of
from benchreckoner.tell.script_line import CHAPTERS, REGISTERS, Line
from benchreckoner.units import read_quantity

NAME = "script.toml"
VERSION = 1
RATE, TARGET = 160, "6 min"
FIELDS = ("camera", "room", "shot", "caution")  # what is made, and is the author's once changed
_SETTINGS = ("version", "sheet", "target", "words_per_minute")
_KEYS = ("id", "chapter", "use", *FIELDS)
_OURS = ("made", "newer")
_ALIKE = 0.75  # from here on a name is a slip for another one, not the author's own
_LONGEST = 40  # characters of what was typed that an error repeats
_WORDING = Wording(
    kind="script", entry='camera = "It was the spring."', header="[[line]]", table="[[line]]", signs="every sign of your words can be read",
    missing="there is no such file; make one with: python3 reckon.py make script",
    folder="is a folder and was left as it is; move it, or name another folder for the script",
    large="leave out lines, and keep pictures in files of their own",
    examples={"version": f"version = {VERSION}", "target": f'target = "{TARGET}"', "words_per_minute": f"words_per_minute = {RATE}", "use": "use = true",
              "sheet": 'sheet = "record_player.toml"'})
_TRACE = re.compile(r"^\s*(\[+\s*line|(version|sheet|target|words_per_minute|camera|room)\b)", re.MULTILINE)
_NO_SCRIPT = "is no script of ours and was left as it is; move it, or name another folder"


@dataclass
class Row:
    """One line of the file: its block of text, and the line that it makes.

    ``made`` holds a digest of each field as it was made, ``newer`` the words that the readings give now.
    """

    text: str
    line: Line
    made: dict = field(default_factory=dict)
    newer: dict = field(default_factory=dict)
    marks: tuple = ()
    use_is_ours: bool = False

    @property
    def edited(self):
        """The fields that hold the author's own words."""
        return {key for key in FIELDS if self.made.get(key) != digest(field_of(self.line, key))}


def load_script(path):
    """The text of a script's file, or a `SheetError`."""
    return load_text(path, _WORDING)


def page_of(text, name):
    """A script's text taken apart, or a `SheetError`."""
    try:
        return Page(text, name, _WORDING)
    except SheetError:
        if _TRACE.search(text):
            raise
        raise SheetError(_NO_SCRIPT, source=name, line=1, entry=_WORDING.place(())) from None


def read_settings(page, source):
    """Target in seconds or None, and words a minute.

    Parameters
    ----------
    page : Page
    source : str
        The sheet's name.
    """
    data = page.data
    if not any(key in data for key in ("version", "sheet", "line")):
        raise page.fail((), _NO_SCRIPT)
    no_slips(page, (), (*_SETTINGS, "film", "line"))
    _version(page)
    if not isinstance(data.get("sheet"), str):
        raise page.fail(("sheet",), f"names the sheet that this is the script of, write sheet = {quoted(source)}")
    if data["sheet"] != source:
        raise page.fail(("sheet",), f"this script was made for {data['sheet']} and was left as it is; name another folder for {source}, "
                        f"or write sheet = {quoted(source)}")
    rate = data.get("words_per_minute", RATE)
    if not isinstance(rate, (int, float)) or isinstance(rate, bool) or not 40 <= rate <= 400:
        raise page.fail(("words_per_minute",), f"must be a number from 40 to 400 without quotation marks, write for example words_per_minute = {RATE}")
    return _target(page), float(rate)


def _version(page):
    version = page.data.get("version")
    if isinstance(version, int) and version > VERSION:
        raise page.fail(("version",), f"this script is newer than this Bench Reckoner and was left as it is; write version = {VERSION}")
    if version != VERSION or isinstance(version, bool):
        raise page.fail(("version",), f"must be {VERSION}, write version = {VERSION}")


def _target(page):
    typed = page.data.get("target", "")
    if typed == "":
        return None
    try:
        seconds = float(read_quantity(typed, "s", "target").quantity.m_as("s"))
    except ValueError:
        seconds = 0.0
    if not 0 < seconds < 1e6:
        raise page.fail(("target",), f'cannot be read as a time above zero: {str(typed)[:_LONGEST]!r}; write for example target = "{TARGET}", '
                        'or target = "" for as long as it takes')
    return seconds


def cut(text, page):
    """The file's head, and a block of text for each of its lines."""
    rows, typed = page.data.get("line", []), [f"{piece}\n" for piece in text.split("\n")]
    if not isinstance(rows, list) or not all(typed[line_of(page.places, ("line", number)) - 1].lstrip().startswith("[[")
                                             for number in range(len(rows))):
        raise page.fail(("line",), "write each line of the script under its own header [[line]] with double brackets")
    typed[-1] = typed[-1][:-1]
    starts = []
    for number in range(len(rows)):
        start = line_of(page.places, ("line", number)) - 1
        floor = starts[-1] + 1 if starts else 0
        above = start
        while above > floor and typed[above - 1].startswith("#") and '"""' not in typed[above - 1] and "'''" not in typed[above - 1]:
            above -= 1
        # The words above the first line are the head's, unless a gap sets them apart.
        starts.append(above if starts or above > 0 and not typed[above - 1].strip() else start)
    ends = [*starts[1:], len(typed)]
    return "".join(typed[:starts[0] if starts else len(typed)]), ["".join(typed[start:end]) for start, end in zip(starts, ends)]


def read_row(page, number, block):
    """One line as it stands in the file."""
    table = page.data["line"][number]
    _check(page, number, table)
    made, newer = table.get("made", {}), table.get("newer", {})
    say = {register: table.get(register, "") for register in REGISTERS}
    if not made and not any(words.strip() for words in say.values()) and table.get("use", True):
        raise page.fail(("line", number, "camera"), 'is missing: a line of your own says something, write for example camera = "..."')
    if not made:  # in a line of the author's own, one register stands for both
        say = {register: words or say["room" if register == "camera" else "camera"] for register, words in say.items()}
    line = Line(table.get("id", "").strip(), _chapter(table.get("chapter", "")), say, (), table.get("shot", ""), table.get("caution", ""),
                use=table.get("use", True))
    return Row(block, line, dict(made), dict(newer))


def _check(page, number, table):
    for key in ("id", "chapter", *FIELDS):
        if not isinstance(table.get(key, ""), str):
            raise page.fail(("line", number, key), f'must be text in quotation marks, write for example {key} = "..."')
    if not isinstance(table.get("use", True), bool):
        raise page.fail(("line", number, "use"), "must be true or false without quotation marks, write for example use = true")
    for key in _OURS:
        if not isinstance(table.get(key, {}), dict):
            raise page.fail(("line", number, key), f"is kept for what was made; give your own key another name, for example my_{key} = ...")
    for key, words in table.get("newer", {}).items():
        if key in FIELDS and table.get("made", {}).get(key) != digest(words):
            raise page.fail(("line", number, "newer"), f"is made again each time, and your words in it would be lost; write them as {key} = \"...\", "
                            "and delete newer")
    no_slips(page, ("line", number), (*_KEYS, *_OURS))


def no_slips(page, path, names):
    """Refuse a name that is nearly one of these where that one is missing, or a setting that stands too low; other names are the author's own.

    Parameters
    ----------
    page : Page
    path : tuple
        Of the table that is looked through; empty for the file itself.
    names : iterable of str
        What the table may hold.

    Raises
    ------
    SheetError
    """
    table = functools.reduce(operator.getitem, path, page.data)
    for key in _SETTINGS:
        if key in table and key not in page.data:
            low, first = ("a line", "[[line]]") if path[0] == "line" else (f"[{path[0]}]",) * 2
            raise page.fail((*path, key), f"stands within {low}, where it does nothing; move {key} above the first {first}")
    for key in table:
        near = difflib.get_close_matches(key.casefold(), [name for name in names if name not in table], 1, _ALIKE) if key not in names else ()
        if near:
            wanted = "[[line]]" if near[0] == "line" else near[0]
            raise page.fail((*path, key), f"nothing here is named {key[:_LONGEST]!r}; did you mean {wanted}? Write it so, or give a key of your own "
                            "a name that is less like it")


def _chapter(typed):
    """A chapter's name; ours where only its apostrophe, capitals or spaces differ."""
    def plainly(words):
        return " ".join(words.replace("'", "’").casefold().split())

    return next((ours for ours in CHAPTERS if plainly(ours) == plainly(typed)), typed.strip())


def field_of(line, key):
    """What a line holds under one of `FIELDS`."""
    return line.say[key] if key in line.say else getattr(line, key)


def digest(words):
    """A short mark of some words, by which they are known again."""
    return hashlib.sha256(" ".join(str(words).split()).encode("utf-8", "replace")).hexdigest()[:8]


def quoted(text):
    """A text as it is typed in such a file."""
    return tomlkit.string(text).as_string()
