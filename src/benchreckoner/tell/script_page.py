"""The script to read from, and the description to publish with it, beside the author's own file."""

import re
from importlib import resources
from pathlib import Path

import jinja2
from markupsafe import Markup

from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.files import save_whole
from benchreckoner.show.spoken import plain, spoken_seconds
from benchreckoner.tell import script_about
from benchreckoner.tell.place import check_places, put_pages
from benchreckoner.tell.script_about import description, heard_chapters
from benchreckoner.tell.script_file import remake
from benchreckoner.tell.script_line import REGISTERS
from benchreckoner.tell.script_look import clock, of_line, to_look_at, whole
from benchreckoner.tell.script_outline import total
from benchreckoner.tell.script_read import NAME, digest, load_script

_OURS = '<meta name="generator" content="Bench Reckoner, script of a repair">'
DESCRIPTION, _PAGE = "script_description.txt", "script.html"
_MADE = re.compile('<meta name="description-made" content="([0-9a-f]+)">')


def make_script(sheet_path, folder, *, tell=lambda line: None):
    """Write the script: the author's own file, a page to read from, and the description.

    Parameters
    ----------
    sheet_path : path-like
    folder : path-like
        Where to put them. A script that lies there is made again, with all that its author wrote; a description that was
        changed by hand is left as it is.
    tell : callable
        Hears how long it takes, and then a line for everything that its author should look at.

    Returns
    -------
    pathlib.Path
        The page, ``script.html``.

    Raises
    ------
    SheetError
        If the sheet, or the script that lies there, cannot be read; both are then left as they are.
    OSError
        If a file cannot be written, if something else stands in its place, or if the script was
        changed by another program meanwhile.
    """
    sheet, folder = read_sheet(sheet_path), Path(folder)
    home = folder / NAME
    before = load_script(home) if home.exists() else None
    judgements = judge_sheet(sheet), judge_parts(sheet)
    after, script = remake(before, sheet, judgements=judgements)
    if after != before and before is not None and not home.stat().st_mode & 0o222:
        raise PermissionError(f"{home} may only be read, and newer readings change it; let it be written, or name another folder")
    about = description(script, sheet, heard_chapters(script, folder), judgements)
    check_places((_PAGE,), folder, ours=_OURS, what="script of a repair")
    theirs = _changed_by_hand(folder, about)
    if not theirs:
        put_pages({DESCRIPTION: about}, folder, ours=script_about.OURS, what="description of a repair")
    put_pages({_PAGE: script_html(script, sheet, about)}, folder, ours=_OURS, what="script of a repair")
    if after != before and not save_whole(home, after, only_over=before):
        raise OSError(f"{home} was changed while the script was made, and was left as it is; make the script again")
    tell(f"{len(script.used)} lines are said and {len(script.dropped)} left out: {_times(script)}.")
    for line in to_look_at(script, after, name=NAME):
        tell(line)
    if theirs:
        tell(f"{DESCRIPTION} was changed by hand and is left as it is. What it would be now stands at the end of {_PAGE}; delete yours to have it.")
    return folder / _PAGE


def _changed_by_hand(folder, about):
    """Whether the description that lies there is not as it was when the page beside it was made."""
    try:
        there = (folder / DESCRIPTION).read_text(encoding="utf-8")
    except (FileNotFoundError, IsADirectoryError):
        return False
    except UnicodeDecodeError:
        return True
    page = folder / _PAGE
    made = _MADE.search(page.read_text(encoding="utf-8", errors="replace")) if page.exists() else None
    return digest(there) not in (digest(about), made and made[1])


def script_html(script, sheet, about):
    """The page to read from, as text.

    Parameters
    ----------
    script : Script
    sheet : Sheet
    about : str
        The description.

    Returns
    -------
    str
    """
    room = jinja2.Environment(autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    template = room.from_string(resources.files("benchreckoner.tell").joinpath("script.html").read_text("utf-8"))
    read_out = spoken_seconds(" ".join(line.caution for line in script.used), script.words_per_minute)
    return template.render(
        ours=Markup(_OURS), made=digest(about), machine=plain(script.machine), source=sheet.source, script=script, about=about, chapters=_chapters(script),
        times=_times(script), read_out=clock(read_out), target=clock(script.target) if script.target else "", whole=whole(script), of_line=of_line)


def _times(script):
    return " and ".join(f"{clock(total(script.lines, register, script.words_per_minute))} to a {register}" for register in REGISTERS)


def _chapters(script):
    """The lines that are said, chapter by chapter, each with the time at which it begins."""
    here, chapters = 0.0, []
    for line in script.used:
        if not chapters or chapters[-1]["title"] != line.chapter:
            chapters.append({"title": line.chapter, "lines": []})
        chapters[-1]["lines"].append((clock(here), line))
        here += spoken_seconds(line.say["camera"], script.words_per_minute)
    return chapters
