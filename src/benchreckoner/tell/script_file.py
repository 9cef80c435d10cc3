"""The author's own file of a script: read, made again, and nothing in it lost.

The file is cut into blocks, one a line with the comments above it; each is changed by itself,
so that whatever else stands in it stays as it was typed.
"""

import itertools
from dataclasses import replace
from pathlib import Path

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Table

from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.tell.script_claims import Carried
from benchreckoner.tell.script_film import read_film
from benchreckoner.tell.script_line import CHAPTERS, REGISTERS, Script
from benchreckoner.tell.script_look import line_marks
from benchreckoner.tell.script_outline import fit, outline
from benchreckoner.tell.script_read import (FIELDS, NAME, RATE, TARGET, VERSION, Row, cut, digest, field_of, load_script, page_of, quoted, read_row,
                                            read_settings)

_HEAD = '''# What is said of one repair, line by line. This file is yours: change words, move lines, add your own. To leave a line
# out, write use = false; one that is deleted comes back.
# Made again, it takes up new readings and leaves what you wrote. "made" is how it knows your words from its own: leave it.
# Behind a line that you changed, "newer" holds the words that newer readings would give; delete it when you have looked.
version = {version}
sheet = {sheet}
target = {target}  # how long it may take; "" for as long as it takes. The least weighty lines are switched off first.
words_per_minute = {rate}  # most authors on radio advise 160 to 180 (published: Rodero, Text & Talk 32, 2012, abstract); hands at work want fewer

# Your lamps and your camera: what a film shows with them stands at the head of script.html.
[film]
mains = "50 Hz"  # of the lamps; 60 Hz where the mains has that
frames = 25  # a second
shutter = "1/50 s"
marks = 3  # on each pulley, or its spokes

'''


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
    return remake(load_script(path) if Path(path).exists() else None, sheet, name=Path(path).name)[1]


def remake(text, sheet, *, name=NAME, judgements=None):
    """Take up what the sheet says now, and leave what the author wrote.

    Parameters
    ----------
    text : str or None
        The file's text; None if there is none yet.
    sheet : Sheet
    name : str
        The file's name, for errors.
    judgements : pair of tuples, optional
        What `judge_sheet` and `judge_parts` gave, where that is known already.

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
        text = _HEAD.format(version=VERSION, sheet=quoted(sheet.source), target=quoted(TARGET), rate=RATE)
    page = page_of(text, name)
    # One kind of line end while it is worked on: the two readers of such files treat them differently.
    end, text = _line_end(text), text.removeprefix("\ufeff").replace("\r\n", "\n")
    target, rate = read_settings(page, sheet.source)
    head, blocks = cut(text, page)
    judgements = judgements or (judge_sheet(sheet), judge_parts(sheet))
    film = read_film(page, sheet, judgements[1])
    made = outline(sheet, judgements)
    rows = _merged([read_row(page, number, block) for number, block in enumerate(blocks)], made)
    fixed = {row.line.id for row in rows if not row.use_is_ours}
    lines = fit(tuple(row.line for row in rows), target=target, words_per_minute=rate, fixed=fixed)
    rows = [replace(row, line=line, made={**row.made, "use": line.use} if row.use_is_ours else row.made)
            for row, line in zip(rows, lines)]
    carried, odd = Carried(sheet, *judgements), line_marks(lines)
    for row in rows:
        row.marks = (*row.marks, *odd.get(row.line.id, ()), *_unread(row, carried))
    script = Script(sheet.machine.name, lines, rate, target, {row.line.id: row.marks for row in rows if row.marks},
                    {row.line.id: row.newer for row in rows if row.newer}, film)
    return (head + "".join(_written(row, page) for row in rows)).replace("\n", end), script


def _merged(rows, made):
    """The file's lines with what the sheet says now; a new one stands behind the one that it follows."""
    fresh = {line.id: line for line in made}
    rows = _named_again(rows, fresh)
    known, merged, chapter = _known(rows, fresh), [], CHAPTERS[0]
    taken = {row.line.id for row in known} | set(fresh)
    for row in rows:
        if any(row is one for one in known):
            row = _brought_up(row, fresh.get(row.line.id))
        else:
            row = _own(row, taken)
            taken.add(row.line.id)
        chapter = row.line.chapter or chapter
        merged.append(replace(row, line=replace(row.line, chapter=chapter)))
    for place, line in enumerate(made):
        if line.id not in {row.line.id for row in merged}:
            before = [row.line.id for row in merged]
            behind = next((before.index(one.id) + 1 for one in reversed(made[:place]) if one.id in before), 0)
            merged.insert(behind, _fresh(line))
    return merged


def _named_again(rows, fresh):
    """The rows, one that lost its id under that of the line whose words it was made with."""
    there, named = {row.line.id for row in rows}, []
    for row in rows:
        if row.made and not row.line.id:
            found = next((line.id for line in fresh.values() if line.id not in there
                          and all(digest(field_of(line, key)) == row.made.get(key) for key in REGISTERS)), "")
            there.add(found)
            row = replace(row, line=replace(row.line, id=found))
        named.append(row)
    return named


def _known(rows, fresh):
    """The rows that were made, one an id: of two, the one whose words are still as made, so that the other one's are kept."""
    known = {}
    for row in rows:
        weight = (bool(row.made), not row.edited)
        if (row.made and row.line.id or row.line.id in fresh) and (row.line.id not in known or weight > known[row.line.id][0]):
            known[row.line.id] = weight, row
    return [row for _, row in known.values()]


def _fresh(line):
    """A line that the file does not hold yet."""
    block = f"[[line]]\nid = {quoted(line.id)}\nchapter = {quoted(line.chapter)}\nuse = true\n\n"
    return Row(block, line, {"use": True, **{key: digest(field_of(line, key)) for key in FIELDS}}, use_is_ours=True)


def _own(row, taken):
    """A line that the author added, under an id that no other line has."""
    wanted = row.line.id or "own"
    names = itertools.chain([row.line.id] if row.line.id else [], (f"{wanted} {number}" for number in itertools.count(1 if not row.line.id else 2)))
    own = next(name for name in names if name not in taken)
    marks = (f"Its id was missing or stood twice: it is a line of your own now, “{own}”, and newer readings leave it as it is.",) if row.made else ()
    return replace(row, line=replace(row.line, id=own), made={}, newer={}, marks=marks)


def _brought_up(row, fresh):
    """A line that was made before, with its fields renewed where they are not the author's."""
    ours = row.line.use == row.made.get("use", not row.line.use)
    edited = row.edited
    if fresh is None:
        words = "The readings no longer carry this line"
        mark = f"{words}, which you had changed." if edited else f"{words}; it was switched off."
        return replace(row, line=replace(row.line, use=row.line.use and (bool(edited) or not ours)), marks=(mark,),
                       made={**row.made, "use": False} if ours and not edited else row.made)
    words = {key: field_of(row.line if key in edited else fresh, key) for key in FIELDS}
    newer = {key: field_of(fresh, key) for key in FIELDS
             if key in edited and words[key] != field_of(fresh, key)
             and (key in row.newer or row.made.get(key, "") != digest(field_of(fresh, key)))}
    said = {register: words[register] for register in REGISTERS}
    line = replace(fresh, chapter=row.line.chapter or fresh.chapter, say=said, shot=words["shot"], caution=words["caution"], use=row.line.use)
    made = {"use": row.made.get("use", True), **{key: digest(field_of(fresh, key)) for key in FIELDS}}
    why = "The readings have changed since you wrote this line" if row.made else "Its “made” was missing, so that its words count as yours"
    marks = (f"{why}; both versions stand here.",) if newer else ()
    return replace(row, line=line, made=made, newer=newer, marks=marks, use_is_ours=ours)


def _unread(row, carried):
    """What nothing on the sheet carries, in the words that are the author's."""
    theirs = [words for register, words in row.line.say.items() if row.made.get(register) != digest(words)]
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
        wanted |= {"use": row.line.use, **{key: field_of(row.line, key) for key in FIELDS}}
    for key, value in wanted.items():
        if table.get(key) != value and (value != "" or key in table):
            table[key] = tomlkit.string(value, multiline="\n" in value) if isinstance(value, str) else value
    for key, value in (("newer", row.newer), ("made", row.made)):
        _put(table, key, value)
    return tomlkit.dumps(document)


def _put(table, key, value):
    """Put a table of ours into a line, or take it away; a comment or a key of the author's own in it stays."""
    there = table.get(key, {})
    value = {name: words for name, words in there.items() if name not in ("use", *FIELDS)} | value
    if value == there:
        return
    if isinstance(there, Table):  # written under a header of its own: there may be comments between
        for name in [name for name in there if name not in value]:
            _take_away(there, name)
        there.update(value)
    elif value:
        inline = tomlkit.inline_table()
        inline.update(value)
        table[key] = inline
    else:
        _take_away(table, key)


def _take_away(table, key):
    """Delete a key; a comment behind it stays."""
    body = table.value.body
    place = next(place for place, (name, _) in enumerate(body) if name is not None and name.key == key)
    comment = table[key].trivia.comment
    del table[key]
    if comment:
        kept = tomlkit.comment("")
        kept.trivia.comment = comment
        body[place] = (None, kept)


def _line_end(text):
    return "\r\n" if "\r\n" in text else "\n"
