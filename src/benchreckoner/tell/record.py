"""The record: one page for the machine's lid, which tells the next repairer what was found and done."""

import re
from importlib import resources
from pathlib import Path

import jinja2
from markupsafe import Markup

from benchreckoner.bench.cautions import cautions_for
from benchreckoner.bench.chain import feed_parts
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.reasons import mark_words, sentence, told
from benchreckoner.bench.report import chain_lines, findings, part_name
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.bench.tries import PLAN, plan_words
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.bench.vocabulary import AS_FOUND
from benchreckoner.lessons.staircase import chains_to_show, missing, staircases
from benchreckoner.show.still import svg_text
from benchreckoner.tell import record_lid, record_rows
from benchreckoner.tell.framed import BEFORE_UNIT, NO_BREAK
from benchreckoner.tell.place import put_pages
from benchreckoner.units import show_exact

# How an earlier record of ours is known again: nothing else is ever replaced.
_OURS = '<meta name="generator" content="Bench Reckoner, record of a repair">'
_TURNING = dict.fromkeys([*range(0x202A, 0x202F), *range(0x2066, 0x206A)])
_RIGHT_TO_LEFT = re.compile("[\u0590-\u08ff]+(?: [\u0590-\u08ff]+)*")
# Shape and word, never colour.
_SHAPES = {BAD: ("bad", "✕"), DOUBTFUL: ("doubtful", "◐"), UNTOLD: ("untold", "?"), SOUND: ("sound", "✓")}


def make_record(sheet_path, folder):
    """Write the record of a sheet as one page that needs no network, no script and no program.

    Parameters
    ----------
    sheet_path : path-like
    folder : path-like
        Where to put it. It is made if only it, and not its parent, is missing.

    Returns
    -------
    pathlib.Path
        The page, named after the sheet: ``NAME.record.html``.

    Raises
    ------
    SheetError
        If the sheet cannot be read.
    OSError
        If the page cannot be written, or if something that is no record stands in its place.

    Notes
    -----
    The same sheet gives the same bytes. The page appears whole or not at all,
    so an earlier record is never half lost.
    """
    sheet = read_sheet(sheet_path)
    page = record_html(sheet)
    name = f"{Path(sheet_path).stem}.record.html"
    put_pages({name: page}, folder, ours=_OURS, what="record of a repair")
    return Path(folder) / name


def record_html(sheet):
    """The record's page as text.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
    """
    room = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, finalize=_upright, trim_blocks=True, lstrip_blocks=True,
        loader=jinja2.FunctionLoader(lambda file: resources.files("benchreckoner.tell").joinpath(file).read_text("utf-8")))
    room.filters |= {"cell": _cell, "sentence": sentence, "mark_words": mark_words, "exact": show_exact, "joined": _joined,
                     "part_words": record_rows.part_words}
    reports, parts = judge_sheet(sheet), judge_parts(sheet)
    opened, notes = record_lid.left_open(reports, parts), record_rows.Notes()
    return room.get_template("record.html").render(
        ours=Markup(_OURS), sheet=sheet, as_found=AS_FOUND, shapes=_SHAPES, lid=record_lid.lid(sheet, reports, parts),
        cautions=cautions_for(sheet), says=_says(sheet, reports, parts), conditions=record_rows.conditions(sheet),
        staircases=list(_staircases(reports)), missing=_missing(sheet, reports),
        chains=list(record_rows.chain_tables(reports, opened, notes)), rooms=list(record_rows.room_tables(parts, opened, notes)),
        changes=record_rows.changes(reports, parts), tried=record_rows.tried(sheet), plan=plan_words(PLAN),
        going_back=record_rows.going_back(sheet, record_lid.replaced(sheet)),
        alone=record_lid.left_alone(reports, parts), opened=[(one, part_name(one)) for one in opened],
        unjudged=record_lid.unjudged(sheet, reports, parts), readings=record_rows.readings(sheet), notes=notes.listed)


def _says(sheet, reports, parts):
    """What stands in no table: how the feed chain hangs together, and readings that cannot all be true."""
    if not reports and not parts:
        return findings(sheet, (reports, parts))
    return chain_lines(reports) + [f"{sentence(report.stage)[:-1]}: {one.quantity} ({one.condition}): {one.reason} {one.next}"
                                   for report in parts for one in report.findings]


def _staircases(reports):
    """One drawing a stage, with its sentence."""
    drawn = staircases(reports)
    for place, (chain, picture) in enumerate(drawn):
        yield {"when": ("Before", "After")[place] if drawn[1:] else "", "stage": chain.chain.stage,
               "condition": chain.chain.condition, "sentence": picture.sentence,
               "drawing": Markup(_upright(svg_text(picture, prefix=f"staircase-{place + 1}-")))}


def _missing(sheet, reports):
    if chains_to_show(reports):
        return ""
    source, motor, links = feed_parts(sheet)
    return missing(source=source, motor=motor, links=links)


def _upright(value):
    """Text without signs that turn round what follows: in a name they would turn the numbers after it."""
    return value.translate(_TURNING) if isinstance(value, str) and not isinstance(value, Markup) else value


def _joined(text):
    """The same words, but no line ends within a value, its uncertainty and its unit.

    Behind words that run from right to left stands a mark that ends their run,
    so that the numbers after them keep their place.
    """
    text = _RIGHT_TO_LEFT.sub("\\g<0>\u200e", text)
    return BEFORE_UNIT.sub(NO_BREAK, text.replace(" ± ", f"{NO_BREAK}±{NO_BREAK}"))


def _cell(value):
    """A value for a narrow column, where a line may end before its uncertainty."""
    return _joined(value if isinstance(value, str) else told(value)).replace(f"{NO_BREAK}±", " ±")
