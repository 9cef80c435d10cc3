"""The table twin: what a picture shows, as words and numbers."""

import functools
import math
from dataclasses import dataclass
from html import escape

import numpy as np

_ROWS = 9


@dataclass(frozen=True)
class Table:
    """A caption, one row of headings and rows of text; each row's first cell names it."""

    caption: str
    head: tuple
    rows: tuple


def tables(picture):
    """The tables that say what a picture shows.

    Parameters
    ----------
    picture : Picture

    Returns
    -------
    tuple of Table
        First the points and limits, if any, then curves and bands at nine places
        along x, or at its named places, those with the same x in one table.
    """
    found = []
    if picture.points or picture.limits:
        rows = [_point_row(picture, point) for point in picture.points]
        rows += [_limit_row(picture, limit) for limit in picture.limits]
        found.append(Table(f"{picture.title}: marked places", ("Mark", picture.x.heading, picture.y.heading),
                           tuple(rows)))
    columns = [(curve.x, curve.name, curve.y) for curve in picture.curves]
    for band in picture.bands:
        columns += [(band.x, f"{band.name}, lower edge", band.low), (band.x, f"{band.name}, upper edge", band.high)]
    while columns:
        x = columns[0][0]
        group = [column for column in columns if column[0].tobytes() == x.tobytes()]
        columns = [column for column in columns if column[0].tobytes() != x.tobytes()]
        places = _places(picture.x, x)
        x, ys = x.tolist(), [y.tolist() for _, _, y in group]
        unit = f" [{picture.y.symbol}]" if picture.y.symbol else ""
        found.append(Table(f"{picture.title}: {picture.y.label} along {picture.x.label}",
                           (picture.x.heading, *(name + unit for _, name, _ in group)),
                           tuple((_cell(picture.x, x[place]), *(_cell(picture.y, y[place]) for y in ys))
                                 for place in places)))
    return tuple(found)


def tables_html(picture):
    """The tables as HTML, every text escaped."""
    parts = []
    for table in tables(picture):
        head = "".join(f'<th scope="col">{escape(text)}</th>' for text in table.head)
        rows = "".join(f'<tr><th scope="row">{escape(first)}</th>'
                       + "".join(f"<td>{escape(text)}</td>" for text in rest) + "</tr>"
                       for first, *rest in table.rows)
        parts.append(f"<table><caption>{escape(table.caption)}</caption>"
                     f"<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>")
    return "".join(parts)


def tables_text(picture):
    """The tables as plain text, a row a line."""
    return "\n\n".join("\n".join([table.caption, *(" | ".join(row) for row in (table.head, *table.rows))])
                       for table in tables(picture))


def _places(axis, x):
    """Which of a mark's places get a row."""
    named = [int(np.argmax(x == value)) for value, _ in axis.ticks if value in x]
    return named or _spread(len(x))


@functools.cache
def _spread(count):
    return np.unique(np.linspace(0, count - 1, _ROWS).round().astype(int)).tolist()


def _cell(axis, value):
    return axis.number(value) if math.isfinite(value) else "none"


def _point_row(picture, point):
    if point.drawn:
        return point.name, picture.x.number(point.x), picture.y.number(point.y)
    reason = "outside this picture" if point.style == "own" else "none"
    return point.name, reason, reason


def _limit_row(picture, limit):
    value = _cell(getattr(picture, limit.axis), limit.value)
    return (limit.name, value, "all") if limit.axis == "x" else (limit.name, "all", value)
