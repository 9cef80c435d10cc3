"""The one builder of live pictures: sliders, drawing, sentence, table twin.

The kernel draws the backdrop once. Each step of a slider sends only where the
marks stand now, as whole parts of the axes, and the texts that go with them; the
script beside this file moves the marks.
"""

from importlib.resources import files

import anywidget
import numpy as np
import traitlets

from benchreckoner.show.draw import mark_ids
from benchreckoner.show.names import PLACES, places
from benchreckoner.show.picture import mark_reading
from benchreckoner.show.still import backdrop
from benchreckoner.show.table import tables, tables_text

FULL, GAP = 10_000, -32_768  # one side of the axes, and "nothing here", in the numbers the script reads


def live(declaration, reading=None, on_keep=None):
    """Build a live picture.

    Parameters
    ----------
    declaration : LivePicture
    reading : Reading, optional
        The reader's own, marked in the picture.
    on_keep : callable, optional
        Called as ``on_keep(values)`` with each slider's quantity by name when the reader
        keeps a setting. What it returns, if anything, is shown as the answer.

    Returns
    -------
    Live
        A widget; shown when it is a cell's last line.
    """
    return Live(declaration, reading, on_keep)


def picture_at(declaration, positions, reading=None):
    """The picture at these steps, the reader's own reading marked."""
    picture = declaration.at(positions)
    return picture if reading is None else mark_reading(picture, reading)


def spec(declaration, picture, can_keep=False):
    """All that the script needs to know once: marks, both sizes of backdrop, sliders with the text of each step.

    Parameters
    ----------
    declaration : LivePicture
    picture : Picture
        Any state.
    can_keep : bool
        Whether somebody listens to the button that keeps a setting.

    Returns
    -------
    dict
        Plain data, ready for JSON.
    """
    return {
        **frame(picture), "key": declaration.key, "goal": declaration.goal, "keep": can_keep,
        "sliders": [{"name": slider.name, "label": slider.label, "start": slider.start_position,
                     "texts": [slider.text(position) for position in range(len(slider.steps))]}
                    for slider in declaration.sliders],
        "phone": list(declaration.phone_sliders),
    }


def frame(picture):
    """The part of a spec that the picture alone decides: its title, its marks and both sizes of backdrop."""
    sizes = {name: backdrop(picture, large=name == "large") for name in ("normal", "large")}
    return {
        "title": picture.title,
        "marks": [{"id": key, "kind": kind, "axis": getattr(mark, "axis", None)}
                  for key, (kind, mark) in zip(mark_ids(picture), picture.marks)],
        "sizes": {name: {"svg": drawn.svg, "box": list(drawn.box), "labels": drawn.labels, "times": PLACES if name == "large" else 1}
                  for name, drawn in sizes.items()},
    }


def marks(picture):
    """Where all marks stand.

    Parameters
    ----------
    picture : Picture

    Returns
    -------
    counts : list of int
        How many places each mark has, in drawing order.
    numbers : numpy.ndarray of int16
        For each place of a curve x, y; of a band x, low, high; of a point x, y, name; of a limit
        value, name. `FULL` is one side of the axes, `GAP` is nothing; name is the place of the mark's
        name in the normal backdrop, and sixteen times that in the large one.
    """
    counts, parts, named, taken = [], [], [], 0
    for (kind, mark), name in zip(picture.marks, _name_places(picture), strict=True):
        if kind == "curve":
            part = np.column_stack((picture.x.fraction(mark.x), picture.y.fraction(mark.y)))
        elif kind == "band":
            part = np.column_stack((picture.x.fraction(mark.x), picture.y.fraction(mark.low), picture.y.fraction(mark.high)))
        elif kind == "point":
            part = np.array([[picture.x.fraction(mark.x), picture.y.fraction(mark.y), 0]])
        else:
            part = np.array([[getattr(picture, mark.axis).fraction(mark.value), 0]])
        counts.append(len(part))
        parts.append(part.ravel())
        taken += part.size
        if kind in ("point", "limit"):
            named.append((taken - 1, name))
    numbers = _whole(np.concatenate(parts)) if parts else np.empty(0, "<i2")
    for place, name in named:
        numbers[place] = name
    return counts, numbers


def _name_places(picture):
    normal, large = (places(picture, *backdrop(picture, large=size).box[2:], size) for size in (False, True))
    return [one + PLACES * other for one, other in zip(normal, large, strict=True)]


def scene(picture):
    """What a step changes, as one message: marks, sentence, alt text and table cells."""
    counts, numbers = marks(picture)
    return {"counts": counts, "numbers": numbers.tobytes(), "sentence": picture.sentence, "alt": picture.alt,
            "tables": [{"caption": table.caption, "head": list(table.head), "rows": [list(row) for row in table.rows]}
                       for table in tables(picture)]}


class Live(anywidget.AnyWidget):
    """A live picture in a notebook; make it with `live`."""

    _esm = "\n".join(files(__package__).joinpath(name).read_text(encoding="utf-8") for name in ("stage.js", "live.js"))
    _css = files(__package__).joinpath("live.css").read_text(encoding="utf-8")
    spec = traitlets.Dict().tag(sync=True)
    # The browser moved them, so it need not be told where they are.
    positions = traitlets.List(traitlets.Int()).tag(sync=True, echo_update=False)
    scene = traitlets.Dict().tag(sync=True)

    def __init__(self, declaration, reading=None, on_keep=None):
        self.declaration, self.reading, self._on_keep = declaration, reading, on_keep
        first = picture_at(declaration, declaration.start, reading)
        self._outline = outline(first)
        super().__init__(spec=spec(declaration, first, on_keep is not None),
                         positions=list(declaration.start.values()), scene=scene(first))
        self.observe(self._moved, "positions")
        self.on_msg(self._told)

    @property
    def picture(self):
        """The picture as it stands now."""
        return self._picture(self.positions)

    def _picture(self, positions):
        return picture_at(self.declaration, self._named(positions), self.reading)

    def _named(self, positions):
        return dict(zip(self.declaration.start, positions, strict=True))

    def _moved(self, change):
        try:
            picture = self._picture(change["new"])
            if outline(picture) != self._outline:
                raise ValueError(f"live picture {self.declaration.key!r}: its title, axes and marks' names must stay "
                                 "the same at every step; give a mark that is not there NaN")
        except Exception as error:
            # The last picture must not stand beside a slider that has moved on.
            words = f"This step cannot be drawn. {error}"
            self.scene = {"counts": [], "numbers": b"", "sentence": words, "alt": words, "tables": []}
            raise
        self.scene = scene(picture)

    def _told(self, _, content, buffers):
        if "keep" in content:
            values = self.declaration.values(self._named(content["keep"]))
            texts = ", ".join(f"{slider.label} {slider.text(position)}"
                              for slider, position in zip(self.declaration.sliders, content["keep"]))
            self.send({"kept": self._on_keep(values) or f"Kept: {texts}."})

    def _repr_mimebundle_(self, **options):
        bundle, notes = super()._repr_mimebundle_(**options)
        picture = self.picture
        return {**bundle, "text/plain": f"{picture.alt}\n{picture.sentence}\n\n{tables_text(picture)}"}, notes


def outline(picture):
    """What must stay the same while the same backdrop serves."""
    return picture.title, picture.x, picture.y, [(kind, mark.name) for kind, mark in picture.marks]


def _whole(fractions):
    """Parts of the axes as whole numbers; what lies more than three axes away is as good as gone."""
    scaled = np.clip(np.round(fractions * FULL), -3 * FULL, 3 * FULL)
    return np.where(np.isnan(scaled), GAP, scaled).astype("<i2")
