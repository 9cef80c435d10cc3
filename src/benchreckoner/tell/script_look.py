"""What its author should look at in a script: said alike on the page, in the book and at the terminal."""

import difflib
from dataclasses import replace

from benchreckoner.bench.places import find_places, line_of
from benchreckoner.show.spoken import plain, spoken_seconds
from benchreckoner.tell.script_line import CHAPTERS, REGISTERS
from benchreckoner.tell.script_outline import total

_ALIKE = 0.8  # from here on a chapter's name is a slip for one of ours


def clock(seconds):
    """A time as minutes and seconds.

    >>> clock(83.6)
    '1:24'
    """
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"


def longest(lines, words_per_minute):
    """The register that takes longest, and its seconds."""
    return max(((register, total(lines, register, words_per_minute)) for register in REGISTERS), key=lambda pair: pair[1])


def whole(script):
    """What to look at in the whole script: too long, a chapter that went.

    Parameters
    ----------
    script : Script

    Returns
    -------
    tuple of str
    """
    told = []
    if script.target is not None and longest(script.lines, script.words_per_minute)[1] > script.target:
        told.append(_too_long(script))
    said = {line.chapter for line in script.used}
    gone = [chapter for chapter in dict.fromkeys(line.chapter for line in script.lines) if chapter not in said]
    if not said:
        told.append("No line is said: every one has use = false.")
    else:
        told += [f"The chapter “{chapter}” is not told: every line of it has use = false." for chapter in gone]
    return tuple(told)


def of_line(script, line_id):
    """What to look at in one line: its marks, and the words that newer readings give.

    Parameters
    ----------
    script : Script
    line_id : str

    Returns
    -------
    tuple of (str, str)
        What it is, and the words.
    """
    return (*(("Look at this", mark) for mark in script.marks.get(line_id, ())),
            *((f"By the readings now ({what})", words) for what, words in script.newer.get(line_id, {}).items()))


def to_look_at(script, text, *, name):
    """All of it for a terminal, one line each, in the order of the file.

    Parameters
    ----------
    script : Script
    text : str
        Of its file, and its `name`.
    name : str

    Returns
    -------
    tuple of str
    """
    places = find_places(text.removeprefix("\ufeff"))
    lines = (f"{name}, line {line_of(places, ('line', number))}, “{line.id}”: {words if lead == 'Look at this' else f'{lead}: {words}'}"
             for number, line in enumerate(script.lines) for lead, words in of_line(script, line.id))
    return tuple(plain(words) for words in (*whole(script), *lines))


def line_marks(lines):
    """What is odd about a line beside the others, whatever the readings say.

    Parameters
    ----------
    lines : iterable of Line

    Returns
    -------
    dict of str to tuple of str
        Marks by a line's id.
    """
    marks, begun, before = {}, set(), None
    for line in (line for line in lines if line.use):
        found = [f"It says nothing to a {register}. Write {register} = \"...\", or use = false to leave the line out."
                 for register in REGISTERS if not line.say[register].strip()]
        if line.chapter != before:
            found += _chapter_marks(line.chapter, begun)
            begun.add(line.chapter)
            before = line.chapter
        if found:
            marks[line.id] = tuple(found)
    return marks


def _chapter_marks(chapter, begun):
    if chapter in begun:
        yield f"The chapter “{chapter}” begins a second time here. Move the line to the others of its chapter, or give it the chapter it stands in."
    near = difflib.get_close_matches(chapter, CHAPTERS, 1, _ALIKE) if chapter not in CHAPTERS and chapter not in begun else ()
    if near:
        yield f"“{chapter}” is a chapter of its own here. Did you mean “{near[0]}”?"


def _too_long(script):
    """By how much, and what else could be left out: the least weighty lines first, none that is its chapter's last."""
    rate = script.words_per_minute
    register, seconds = longest(script.lines, rate)
    told = f"It takes {clock(seconds)} to a {register}, {clock(seconds - script.target)} longer than the target of {clock(script.target)}."
    told += "".join(f" “{line.id}” alone takes {clock(alone)}." for line in script.lines
                    if line.use and (alone := spoken_seconds(line.say[register], rate)) > script.target)
    lines, out = list(script.lines), []
    for line in sorted(script.lines, key=lambda line: (line.weight, -spoken_seconds(line.say[register], rate))):
        if longest(lines, rate)[1] <= script.target:
            break
        if line.use and sum(one.use and one.chapter == line.chapter for one in lines) > 1:
            lines[lines.index(line)] = replace(line, use=False)
            out.append(f"“{line.id}” ({clock(spoken_seconds(line.say[register], rate))})")
    shortest = longest(lines, rate)[1]
    if shortest > script.target:
        return f"{told} Even with one line a chapter, the weightiest, it takes {clock(shortest)}: give it more time, or write shorter lines."
    return f"{told} It fits if you also write use = false at {', '.join(out)}."
