"""Draw a picture with matplotlib: SVG and PNG stills, and the backdrop of a live picture.

Only figure and canvas objects are used, never the global state of pyplot, so a
still looks the same whatever a notebook has set.
"""

import base64
import functools
import io
import re
from dataclasses import dataclass
from html import escape

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_svg import FigureCanvasSVG

from benchreckoner.show.draw import draw, look, redraw
from benchreckoner.show.picture import Band, Curve, Limit, Picture, Point
from benchreckoner.show.table import tables_html, tables_text


@dataclass(frozen=True)
class Backdrop:
    """A drawing whose marks a script can move.

    Attributes
    ----------
    svg : str
    box : tuple of float
        Left, top, width and height of the axes, in the drawing's own units.
    labels : dict
        By mark id: where the mark stands (``home``), and how far its name hops to right and up for each of its ``places``.
    """

    svg: str
    box: tuple
    labels: dict


def figure(picture, *, large=False):
    """Draw a picture.

    Parameters
    ----------
    picture : Picture
    large : bool
        Bigger text and lines, for the back of a room.

    Returns
    -------
    matplotlib.figure.Figure
        With an Agg canvas, its layout frozen.
    """
    with look(large):
        return draw(picture, large)[0]


class Figures:
    """Figures of a picture's states one after the other: a figure is drawn once and only its marks are put anew."""

    def __init__(self):
        self._outline, self._drawn = None, None

    def of(self, picture):
        """The large figure of a state, until the next one is asked for."""
        if self._outline == _outline(picture):
            with look(True):
                redraw(self._drawn, picture, True)
        else:
            self._outline, self._drawn = _outline(picture), figure(picture, large=True)
        return self._drawn


def svg_text(picture, *, large=False, prefix=""):
    """A picture as one SVG element, alt text included, for pages and files.

    Parameters
    ----------
    picture : Picture
    large : bool
    prefix : str
        Put before every id, so that several drawings can share a page.
    """
    with look(large):
        drawing = svg_of(draw(picture, large)[0], prefix=prefix)
    return drawing.replace("<svg ", f'<svg role="img" aria-label="{escape(picture.alt)}" ', 1)


def png_bytes(picture, *, large=False, dots_per_inch=160):
    """A picture as the bytes of a PNG file."""
    with look(large):
        buffer = io.BytesIO()
        draw(picture, large)[0].savefig(buffer, format="png", dpi=dots_per_inch, metadata={"Software": None})
    return buffer.getvalue()


class Still:
    """A picture that stands still in a notebook, with its sentence and table: needs no widget."""

    def __init__(self, picture, large=False):
        self.picture, self.large = picture, large

    def __repr__(self):
        return f"{self.picture.alt}\n{self.picture.sentence}\n\n{tables_text(self.picture)}"

    def _repr_html_(self):
        pixels = base64.b64encode(png_bytes(self.picture, large=self.large)).decode("ascii")
        width = "100%" if self.large else "40em"
        return (f'<figure style="margin:0;max-width:{width};line-height:1.4"><img style="width:100%;height:auto" '
                f'alt="{escape(self.picture.alt)}" src="data:image/png;base64,{pixels}">'
                f"<figcaption>{escape(self.picture.sentence)}</figcaption></figure>"
                f"<details><summary>The picture as a table</summary>{tables_html(self.picture)}</details>")


def still(picture, *, large=False):
    """Show a picture without sliders: drawing, sentence and table."""
    return Still(picture, large)


def backdrop(picture, *, large=False):
    """The drawing behind a live picture, its marks put aside for the script to place.

    The same for every state of one live picture, so it is drawn once and kept.

    Parameters
    ----------
    picture : Picture
        Any state.
    large : bool

    Returns
    -------
    Backdrop
    """
    return _backdrop(_outline(picture), large)


def _outline(picture):
    """What does not move."""
    return (picture.title, picture.x, picture.y, picture.to_scale,
            tuple((kind, mark.name, mark.axis if kind == "limit" else mark.style) for kind, mark in picture.marks))


@functools.lru_cache(maxsize=256)  # both sizes of every picture of the books: a slider waits for this
def _backdrop(outline, large):
    title, x, y, to_scale, marks = outline
    middle = [_middle(x), _middle(y)]
    row_x, row_y = [middle[0]] * 2, [middle[1]] * 2
    make = {"band": lambda name, style: Band(name, row_x, row_y, row_y, style),
            "curve": lambda name, style: Curve(name, row_x, row_y, style),
            "point": lambda name, style: Point(name, *middle, style),
            "limit": lambda name, axis: Limit(name, axis, middle["xy".index(axis)])}
    groups = {kind: [make[kind](name, style) for found, name, style in marks if found == kind] for kind in make}
    bare = Picture(title, x, y, title, title, groups["curve"], groups["band"], groups["point"], groups["limit"],
                   to_scale)
    with look(large):
        drawn, labels = draw(bare, large, sides=False)
        drawing = svg_of(drawn)
    box = drawn.axes[0].get_window_extent()
    scale, height = 72 / drawn.dpi, drawn.get_figheight() * 72
    left, top, width, height = (float(value) for value in (box.x0 * scale, height - box.y1 * scale,
                                                           box.width * scale, box.height * scale))
    home = [left + width / 2, top + height / 2]
    return Backdrop(drawing, (left, top, width, height),
                    {key: {"home": home, "places": np.round(found - found[0], 2).tolist()} for key, found in labels.items()})


def _middle(axis):
    if axis.scale == "log":
        return (axis.low * axis.high) ** 0.5
    return (axis.low + axis.high) / 2


def svg_of(drawn, *, prefix=""):
    """A figure as one SVG element without a size of its own; `prefix` as for `svg_text`."""
    buffer = io.StringIO()
    FigureCanvasSVG(drawn).print_svg(buffer, metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    FigureCanvasAgg(drawn)
    drawing = buffer.getvalue()
    drawing = re.sub(r"<!--.*?-->\s*", "", drawing[drawing.index("<svg"):], flags=re.DOTALL)
    drawing = re.sub(r'(<svg[^>]*?) width="[^"]*"', r"\1", re.sub(r'(<svg[^>]*?) height="[^"]*"', r"\1", drawing))
    return re.sub(r'( id="|href="#|url\(#)', rf"\g<1>{prefix}", drawing) if prefix else drawing
