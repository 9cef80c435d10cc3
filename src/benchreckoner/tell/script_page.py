"""The script to read from, and the description to publish with it, beside the author's own file."""

from importlib import resources
from pathlib import Path

import jinja2
from markupsafe import Markup

from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.page import load_text
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.reasons import mark_words
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.files import save_whole
from benchreckoner.tell.place import put_pages
from benchreckoner.tell.script_file import NAME, remake
from benchreckoner.tell.script_line import REGISTERS
from benchreckoner.tell.script_outline import chapter_times, total
from benchreckoner.show.spoken import plain, spoken_seconds

_OURS = '<meta name="generator" content="Bench Reckoner, script of a repair">'
_OURS_DESCRIPTION = "Every figure in it comes from a reading, reckoned with Bench Reckoner."
DESCRIPTION = "script_description.txt"


def make_script(sheet_path, folder):
    """Write the script: the author's own file, a page to read from, and the description.

    Parameters
    ----------
    sheet_path : path-like
    folder : path-like
        Where to put them. A script that lies there is made again, with all that its author wrote.

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
    before = load_text(home) if home.exists() else None
    after, script = remake(before, sheet)
    about = description(script, sheet)
    put_pages({DESCRIPTION: about}, folder, ours=_OURS_DESCRIPTION, what="description of a repair")
    put_pages({"script.html": script_html(script, sheet, about)}, folder, ours=_OURS, what="script of a repair")
    if after != before and not save_whole(home, after, only_over=before):
        raise OSError(f"{home} was changed while the script was made, and was left as it is; make the script again")
    return folder / "script.html"


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
        ours=Markup(_OURS), machine=plain(script.machine), source=sheet.source, script=script, about=about, chapters=_chapters(script),
        times={register: clock(total(script.lines, register, script.words_per_minute)) for register in REGISTERS},
        read_out=clock(read_out), target=clock(script.target) if script.target else "",
        over=script.target is not None and any(total(script.lines, one, script.words_per_minute) > script.target for one in REGISTERS))


def description(script, sheet):
    """What to publish with the film: chapters with their times, parts, sources, a place for corrections.

    Parameters
    ----------
    script : Script
    sheet : Sheet

    Returns
    -------
    str
    """
    times = chapter_times(script.used, "camera", script.words_per_minute)
    lines = [f"{plain(script.machine)}: a repair, told from its readings", _OURS_DESCRIPTION, "", "Chapters (planned: put in those of the film)"]
    lines += [f"{clock(start)} {plain(chapter)}" for chapter, start in times]
    lines += ["", "Parts", *(_part_words(part) for part in sheet.parts.values())]
    lines += ["", "Sources of the limits", *(_sources(script, sheet) or ["none: no limit is spoken of"])]
    lines += ["", "Corrections", "None so far. If you find a mistake, write; what is put right stands here, with its date.", ""]
    return "\n".join(lines)


def clock(seconds):
    """A time as minutes and seconds.

    >>> clock(83.6)
    '1:24'
    """
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"


def _part_words(part):
    kind = f" ({part.kind})" if part.kind != part.name else ""
    return f"- {plain(part.name)}{kind}"


def _sources(script, sheet):
    """Where the limits of the parts that are spoken of come from."""
    spoken = {(claim.part, claim.quantity) for line in script.used for claim in line.claims}
    bands = [one.band for report in (*judge_sheet(sheet), *judge_parts(sheet)) for one in report.judgements
             if one.band is not None and (one.part, one.quantity) in spoken]
    told = [(band.source.replace("(FOUND)", f"({mark_words('FOUND')})"), mark_words(band.mark)) for band in bands]
    return list(dict.fromkeys(f"- {source}" if mark in source else f"- {source} ({mark})" for source, mark in told))


def _chapters(script):
    """The lines that are said, chapter by chapter, each with the time at which it begins."""
    here, chapters = 0.0, []
    for line in script.used:
        if not chapters or chapters[-1]["title"] != line.chapter:
            chapters.append({"title": line.chapter, "lines": []})
        chapters[-1]["lines"].append((clock(here), line))
        here += spoken_seconds(line.say["camera"], script.words_per_minute)
    return chapters
