"""The author's own file of a script: read, made again, and nothing in it lost.

The file is cut into blocks, one a line with the comments above it; each is changed by itself,
so that whatever else stands in it stays as it was typed.
"""

import hashlib
import itertools
from dataclasses import dataclass, field, replace
from pathlib import Path

import tomlkit
from tomlkit.exceptions import TOMLKitError

from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.page import Page, load_text
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.places import line_of
from benchreckoner.tell.script_claims import Carried
from benchreckoner.tell.script_line import CHAPTERS, Line, Script
from benchreckoner.tell.script_outline import fit, outline
from benchreckoner.units import read_quantity

NAME = "script.toml"
VERSION = 1
RATE, TARGET = 160, "6 min"
_FIELDS = ("camera", "room", "shot", "caution")
_HEAD = '''# What is said of one repair, line by line. This file is yours: change words, move lines, add your own. To leave a line
# out, write use = false; one that is deleted comes back.
# Made again, it takes up new readings and leaves what you wrote. "made" is how it knows your words from its own: leave it.
# Behind a line that you changed, "newer" holds the words that newer readings would give; delete it when you have looked.
version = {version}
sheet = {sheet}
target = {target}  # how long it may take; "" for as long as it takes. The least weighty lines are switched off first.
words_per_minute = {rate}  # most authors on radio advise 160 to 180 (published: Rodero, Text & Talk 32, 2012, abstract); hands at work want fewer

'''


@dataclass
class _Row:
    """One line of the file: its block of text, and the line that it makes."""

    text: str
    line: Line
    made: dict = field(default_factory=dict)
    newer: dict = field(default_factory=dict)
    marks: tuple = ()
    use_is_ours: bool = False


def read_script(path, sheet):
    """The script of a sheet as its author left it, newer readings taken up.

    Parameters
    ----------
    path : path-like
        ``script.toml``; where there is none, the script is made afresh. It is only read.
    sheet : Sheet

    Returns
    -------
    Script
        With a mark for each number that nothing on the sheet carries.

    Raises
    ------
    SheetError
        If the file cannot be read as a script of this sheet: which line, and what to write.
    """
    return remake(load_text(path) if Path(path).exists() else None, sheet, name=Path(path).name)[1]


def remake(text, sheet, *, name=NAME):
    """Take up what the sheet says now, and leave what the author wrote.

    Parameters
    ----------
    text : str or None
        The file's text; None if there is none yet.
    sheet : Sheet
    name : str
        The file's name, for errors.

    Returns
    -------
    (str, Script)
        The file's new text and the script that it holds.

    Raises
    ------
    SheetError
        As for `read_script`.

    Notes
    -----
    Made again from the same sheet, the text stays the same.
    """
    if text is None:
        text = _HEAD.format(version=VERSION, sheet=_quoted(sheet.source), target=_quoted(TARGET), rate=RATE)
    page = Page(text, name)
    # One kind of line end while it is worked on: the two readers of such files treat them differently.
    end, text = _line_end(text), text.removeprefix("\ufeff").replace("\r\n", "\n")
    target, rate = _settings(page, sheet)
    head, blocks = _cut(text, page)
    judgements = judge_sheet(sheet), judge_parts(sheet)
    made = outline(sheet, judgements)
    rows = _merged([_read(page, number, block) for number, block in enumerate(blocks)], made)
    fixed = {row.line.id for row in rows if not row.use_is_ours}
    lines = fit(tuple(row.line for row in rows), target=target, words_per_minute=rate, fixed=fixed)
    rows = [replace(row, line=line, made={**row.made, "use": line.use} if row.use_is_ours else row.made)
            for row, line in zip(rows, lines)]
    carried = Carried(sheet, *judgements)
    for row in rows:
        row.marks = (*row.marks, *_unread(row, carried))
    script = Script(sheet.machine.name, lines, rate, target, {row.line.id: row.marks for row in rows if row.marks},
                    {row.line.id: row.newer for row in rows if row.newer})
    return (head + "".join(_written(row, page) for row in rows)).replace("\n", end), script


def _settings(page, sheet):
    """Target in seconds or None, and words a minute."""
    data = page.data
    if not isinstance(data.get("sheet"), str) or data.get("version") is None:
        raise page.fail((), "is no script of ours and was left as it is; move it, or name another folder")
    if not isinstance(data["version"], int) or data["version"] > VERSION:
        raise page.fail(("version",), f"this script is newer than this Bench Reckoner and was left as it is; write version = {VERSION}")
    if data["sheet"] != sheet.source:
        raise page.fail(("sheet",), f"this script was made for {data['sheet']} and was left as it is; name another folder for "
                        f"{sheet.source}, or write sheet = {_quoted(sheet.source)}")
    rate = data.get("words_per_minute", RATE)
    if not isinstance(rate, (int, float)) or isinstance(rate, bool) or not 40 <= rate <= 400:
        raise page.fail(("words_per_minute",), f"must be a number from 40 to 400, write for example words_per_minute = {RATE}")
    try:
        target = data.get("target", "")
        seconds = read_quantity(target, "s", "target").quantity.m_as("s") if target != "" else None
    except ValueError as fault:
        raise page.fail(("target",), str(fault).removeprefix("target: ")) from None
    if seconds is not None and not 0 < seconds < 1e6:
        raise page.fail(("target",), f'must be a time above zero, write for example target = "{TARGET}"')
    return seconds and float(seconds), float(rate)


def _cut(text, page):
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


def _read(page, number, block):
    """One line as it stands in the file."""
    table = page.data["line"][number]
    for key in ("id", "chapter", *_FIELDS):
        if not isinstance(table.get(key, ""), str):
            raise page.fail(("line", number, key), f'must be text in quotation marks, write for example {key} = "..."')
    use = table.get("use", True)
    if not isinstance(use, bool):
        raise page.fail(("line", number, "use"), "must be true or false without quotation marks, write for example use = true")
    made = table["made"] if isinstance(table.get("made"), dict) and "id" in table else {}
    say = {register: table.get(register, "") for register in ("camera", "room")}
    if not made and not any(say.values()):
        raise page.fail(("line", number, "camera"), 'is missing: a line of your own says something, write for example camera = "..."')
    if not made:  # in a line of the author's own, one register stands for both
        say = {register: words or say["room" if register == "camera" else "camera"] for register, words in say.items()}
    line = Line(table.get("id", ""), table.get("chapter", ""), say, (), table.get("shot", ""), table.get("caution", ""), use=use)
    newer = table["newer"] if isinstance(table.get("newer"), dict) else {}
    return _Row(block, line, dict(made), dict(newer))


def _merged(rows, made):
    """The file's lines with what the sheet says now; a new one stands behind the one that it follows."""
    fresh = {line.id: line for line in made}
    seen, merged, chapter = set(), [], CHAPTERS[0]
    for row in rows:
        known = row.made and row.line.id not in seen
        seen.add(row.line.id)
        row = _brought_up(row, fresh.get(row.line.id)) if known else _own(row, {one.line.id for one in merged} | set(fresh))
        chapter = row.line.chapter or chapter
        merged.append(replace(row, line=replace(row.line, chapter=chapter)))
    for place, line in enumerate(made):
        if line.id not in {row.line.id for row in merged}:
            before = [row.line.id for row in merged]
            behind = next((before.index(one.id) + 1 for one in reversed(made[:place]) if one.id in before), 0)
            merged.insert(behind, _fresh(line))
    return merged


def _fresh(line):
    """A line that the file does not hold yet."""
    block = f"[[line]]\nid = {_quoted(line.id)}\nchapter = {_quoted(line.chapter)}\nuse = true\n\n"
    return _Row(block, line, {"use": True, **{key: _digest(_field(line, key)) for key in _FIELDS}}, use_is_ours=True)


def _own(row, taken):
    """A line that the author added, under an id that no other line has."""
    wanted = row.line.id or "own"
    names = itertools.chain([row.line.id] if row.line.id else [], (f"{wanted} {number}" for number in itertools.count(1 if not row.line.id else 2)))
    own = next(name for name in names if name not in taken)
    return replace(row, line=replace(row.line, id=own), made={})


def _brought_up(row, fresh):
    """A line that was made before, with its fields renewed where they are not the author's."""
    ours = row.line.use == row.made.get("use", not row.line.use)
    edited = {key for key in _FIELDS if row.made.get(key) != _digest(_field(row.line, key))}
    if fresh is None:
        words = "The readings no longer carry this line"
        mark = f"{words}, which you had changed." if edited else f"{words}; it was switched off."
        return replace(row, line=replace(row.line, use=row.line.use and (bool(edited) or not ours)), marks=(mark,),
                       made={**row.made, "use": False} if ours and not edited else row.made)
    words = {key: _field(row.line if key in edited else fresh, key) for key in _FIELDS}
    newer = {key: _field(fresh, key) for key in _FIELDS
             if key in edited and words[key] != _field(fresh, key)
             and (key in row.newer or row.made.get(key, "") != _digest(_field(fresh, key)))}
    said = {register: words[register] for register in ("camera", "room")}
    line = replace(fresh, chapter=row.line.chapter or fresh.chapter, say=said, shot=words["shot"], caution=words["caution"], use=row.line.use)
    made = {"use": row.made.get("use", True), **{key: _digest(_field(fresh, key)) for key in _FIELDS}}
    marks = ("The readings have changed since you wrote this line; both versions stand here.",) if newer else ()
    return replace(row, line=line, made=made, newer=newer, marks=marks, use_is_ours=ours)


def _unread(row, carried):
    """What nothing on the sheet carries, in the words that are the author's."""
    theirs = [words for register, words in row.line.say.items() if row.made.get(register) != _digest(words)]
    return tuple(dict.fromkeys(mark for words in theirs for mark in carried.marks(words)))


def _written(row, page):
    """The block of a line with its changed values; comments, order and other keys stay."""
    try:
        document = tomlkit.parse(row.text)
        table = document["line"][0]
    except (TOMLKitError, LookupError):
        raise page.fail(("line",), f"could not be cut into lines at {row.line.id!r}; write each under its own header [[line]]") from None
    wanted = {"id": row.line.id}
    if row.made:
        wanted |= {"use": row.line.use, **{key: _field(row.line, key) for key in _FIELDS}}
    for key, value in wanted.items():
        if table.get(key) != value and (value != "" or key in table):
            table[key] = tomlkit.string(value, multiline="\n" in value) if isinstance(value, str) else value
    for key, value in (("newer", row.newer), ("made", row.made)):
        if value and table.get(key) != value:
            inline = tomlkit.inline_table()
            inline.update(value)
            table[key] = inline
        elif not value and key in table:
            del table[key]
    return tomlkit.dumps(document)


def _field(line, key):
    return line.say[key] if key in line.say else getattr(line, key)


def _digest(words):
    """A short mark of some words, by which they are known again."""
    return hashlib.sha256(" ".join(words.split()).encode("utf-8", "replace")).hexdigest()[:8]


def _quoted(text):
    return tomlkit.string(text).as_string()


def _line_end(text):
    return "\r\n" if "\r\n" in text else "\n"
