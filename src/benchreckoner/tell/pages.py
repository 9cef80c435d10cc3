"""Pages for a phone: each live picture as one file, every step of its sliders worked out beforehand.

A page holds the drawing, the script and the style of the books, and a table of all
that its sliders change. What a slider does not change is stored once.
"""

import functools
import gzip
import itertools
import json
from base64 import b64encode
from dataclasses import dataclass
from importlib import resources
from math import prod
from operator import itemgetter
from pathlib import Path

import jinja2
import numpy as np
from markupsafe import Markup

from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.series import book_of, live_pictures, own_pictures
from benchreckoner.show.live import GAP, picture_at, scene, spec
from benchreckoner.show.picture import Reading
from benchreckoner.show.table import tables_html
from benchreckoner.tell.place import check_places, put_pages
from benchreckoner.tell.spread import spread

LARGEST = 600_000  # bytes of one page: small enough for any way of sending it
_OURS = '<meta name="generator" content="Bench Reckoner, picture for a phone">'
_WHAT = "picture for a phone"
_NUMBERS = {"curve": 2, "band": 3, "point": 3, "limit": 2}  # for each place of a mark


@dataclass(frozen=True)
class _Shown:
    """One picture to put on a page; `machine` names whose readings made it."""

    declaration: object
    reading: Reading | None = None
    machine: str = ""


def make_pages(sheet_path, folder):
    """Write every live picture as a page that needs no network and no program but a browser.

    Parameters
    ----------
    sheet_path : path-like
        Its readings add a picture of the reader's own, where they suffice.
    folder : path-like
        Where to put the pages. It is made if only it, and not its parent, is missing.

    Returns
    -------
    pathlib.Path
        The page that lists the others: ``index.html``.

    Raises
    ------
    SheetError
        If the sheet cannot be read.
    OSError
        If a page cannot be written, or if something that is no such page stands in its place.
    ValueError
        If a picture does not fit into a page.

    Notes
    -----
    The same sheet gives the same bytes. Nothing is written before all pages are worked out.
    """
    _all_shown.cache_clear()  # the sheet may have changed
    shown = _all_shown(str(sheet_path))
    names = {key: f"{key}.html" for key in shown}
    check_places([*names.values(), "index.html"], folder, ours=_OURS, what=_WHAT)
    longest_first = sorted(shown, key=lambda key: -prod(len(slider.steps) for slider in _moving(shown[key].declaration)))
    worked_out = dict(zip(longest_first, spread(_work_out, [(str(sheet_path), key) for key in longest_first], unit="page")))
    pages, listed = {}, []
    for key, one in shown.items():
        title, pages[names[key]] = worked_out[key]
        heading = f"Your {one.machine}" if one.machine else book_of(key)
        listed.append({"heading": heading, "file": names[key], "title": title, "goal": _goal(one.declaration), "machine": one.machine})
    groups = [(heading, list(group)) for heading, group in itertools.groupby(listed, key=itemgetter("heading"))]
    pages["index.html"] = _render("index.html", groups=groups)
    put_pages(pages, folder, ours=_OURS, what=_WHAT)
    return Path(folder) / "index.html"


@functools.cache
def _all_shown(sheet_path):
    """The pictures by key: those of the books, then the sheet's own."""
    sheet = read_sheet(sheet_path)
    shown = [_Shown(declaration) for declaration in live_pictures()]
    shown += [_Shown(declaration, reading, sheet.machine.name) for declaration, reading in own_pictures(sheet)]
    return {one.declaration.key: one for one in shown}


def _work_out(task):
    """Title and page of one picture, by its sheet's path and its key: in another process its functions must be found anew."""
    one = _all_shown(task[0])[task[1]]
    return _start(one).title, page_html(one.declaration, reading=one.reading, machine=one.machine)


def page_html(declaration, *, reading=None, machine=""):
    """One live picture as the text of a page.

    Parameters
    ----------
    declaration : LivePicture
    reading : Reading, optional
        The reader's own, marked in the picture.
    machine : str
        Whose readings made the picture.

    Returns
    -------
    str

    Raises
    ------
    ValueError
        If it would be larger than `LARGEST`.
    """
    one = _Shown(declaration, reading, machine)
    first = _start(one)
    stage, style = (resources.files("benchreckoner.show").joinpath(name).read_text("utf-8")
                    for name in ("stage.js", "live.css"))
    text = _render("page.html", title=first.title, machine=machine, sentence=first.sentence,
                   table=Markup(tables_html(first)), resting=_resting(declaration), many=len(_moving(declaration)) > 1,
                   stage=Markup(stage), style=Markup(style), packed=b64encode(_packed(one, first)).decode("ascii"))
    if (size := len(text.encode("utf-8"))) > LARGEST:
        raise ValueError(f"live picture {declaration.key!r}: its page would take {size} bytes of at most {LARGEST}; "
                         "give its sliders fewer steps, or name only one in phone_sliders")
    return text


def _render(name, **values):
    room = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True,
        loader=jinja2.FunctionLoader(lambda file: resources.files("benchreckoner.tell").joinpath(file).read_text("utf-8")))
    return room.get_template(name).render(ours=Markup(_OURS), **values)


def _start(one):
    return picture_at(one.declaration, one.declaration.start, one.reading)


def _goal(declaration):
    """What to try with the sliders that a page keeps."""
    return declaration.phone_goal or declaration.goal


def _moving(declaration):
    """The sliders that a page keeps."""
    return [slider for slider in declaration.sliders if slider.name in declaration.phone_sliders]


def _resting(declaration):
    """Label and value of each slider that stands still on a page."""
    return [(slider.label, slider.text(slider.start_position)) for slider in declaration.sliders
            if slider.name not in declaration.phone_sliders]


def _packed(one, first):
    """All that the page's script needs: the length of the words, the words as JSON, the places as numbers."""
    outline = {**spec(one.declaration, first), "goal": _goal(one.declaration)}
    outline["sliders"] = [slider for slider in outline["sliders"] if slider["name"] in one.declaration.phone_sliders]
    words, places = _table(one, first)
    told = json.dumps({"spec": outline, **words}, ensure_ascii=False, separators=(",", ":")).encode("utf-8")
    whole = len(told).to_bytes(4, "little") + told + places.astype("<i2").tobytes()
    return gzip.compress(whole, compresslevel=9, mtime=0)


def _table(one, first):
    """Words and places of every step, each kept once along the sliders that do not change it."""
    sliders = _moving(one.declaration)
    shape = tuple(len(slider.steps) for slider in sliders)
    names = [slider.name for slider in sliders]
    scenes = [scene(picture_at(one.declaration, {**one.declaration.start, **dict(zip(names, steps))}, one.reading))
              for steps in itertools.product(*map(range, shape))]

    def kept(texts):
        along, chosen = _needed([tuple(text) if isinstance(text, list) else text for text in texts], shape)
        return {"along": along, "values": [texts[place] for place in chosen]}

    tables = []
    for number in range(max(len(state["tables"]) for state in scenes)):
        found = [state["tables"][number] if number < len(state["tables"]) else None for state in scenes]
        rows = max(len(table["rows"]) for table in found if table)
        tables.append({
            "caption": kept([table and table["caption"] for table in found]),
            "head": kept([table and table["head"] for table in found]),
            "rows": [kept([table["rows"][row] if table and row < len(table["rows"]) else None for table in found])
                     for row in range(rows)]})
    words = {"sentence": kept([state["sentence"] for state in scenes]),
             "alt": kept([state["alt"] for state in scenes]), "tables": tables, "marks": []}
    places, taken = [], 0
    for count, columns in _columns(scenes, [kind for kind, _ in first.marks]):
        words["marks"].append({"count": count, "columns": []})
        for column in columns:
            along, chosen = _needed([row.tobytes() for row in column], shape)
            words["marks"][-1]["columns"].append({"along": along, "from": taken})
            places.append(column[chosen].ravel())
            taken += places[-1].size
    return words, np.concatenate(places)


def _columns(scenes, kinds):
    """For each mark its number of places and, for x, y and the like, a table with a row for each scene."""
    widths, split = [_NUMBERS[kind] for kind in kinds], []
    for state in scenes:
        numbers = np.frombuffer(state["numbers"], dtype="<i2")
        ends = np.cumsum([count * width for count, width in zip(state["counts"], widths, strict=True)])
        split.append([part.reshape(-1, width) for part, width in zip(np.split(numbers, ends[:-1]), widths)])
    for states in zip(*split, strict=True):
        count = max(len(state) for state in states)
        # A shorter row ends in a gap, which is drawn as nothing.
        padded = np.full((len(states), count, states[0].shape[1]), GAP, dtype="<i2")
        for row, state in zip(padded, states):
            row[:len(state)] = state
        yield count, np.ascontiguousarray(padded.transpose(2, 0, 1))


def _needed(values, shape):
    """How far a step of each slider leads in the shortest list that holds these values, and which those are."""
    numbered = {}
    codes = np.array([numbered.setdefault(value, len(numbered)) for value in values]).reshape(shape)
    chosen = np.arange(codes.size).reshape(shape)
    for axis in range(len(shape)):
        if np.all(codes == codes.take([0], axis)):
            codes, chosen = codes.take([0], axis), chosen.take([0], axis)
    along = [prod(codes.shape[axis + 1:]) if codes.shape[axis] > 1 else 0 for axis in range(len(shape))]
    return along, chosen.ravel()
