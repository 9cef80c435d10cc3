"""A picture is data first.

Everything that shows a picture reads this one value: the live picture, the
still figure, the table beside it, the pages, and the tests.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from benchreckoner.units import Q, symbol

CURVE_STYLES = ("first", "second", "third", "fourth", "faint", "heavy")
BAND_STYLES = ("first", "second", "third", "heavy")
POINT_STYLES = ("here", "own", "other", "extra")


@dataclass(frozen=True)
class Axis:
    """One axis: what it measures, in which unit, from where to where.

    Parameters
    ----------
    label : str
        In plain words, without the unit.
    unit : str
        As pint reads it, such as ``"mohm"``; all marks are numbers in this unit.
        An empty string stands for a count or a ratio.
    low, high : float
        The ends, in that unit. A log axis starts above zero.
    scale : str
        ``"linear"`` or ``"log"``.
    symbol : str
        How the unit is written for readers. Left out, as `units.symbol` has it.
    ticks : tuple of (float, str)
        Places with names of their own, in place of numbers; the table has a row for each.
    """

    label: str
    unit: str
    low: float
    high: float
    scale: str = "linear"
    symbol: str = ""
    ticks: tuple[tuple[float, str], ...] = ()

    def __post_init__(self):
        if self.scale not in ("linear", "log"):
            raise ValueError(f"axis {self.label!r}: scale is \"linear\" or \"log\", not {self.scale!r}")
        if not (math.isfinite(self.low) and math.isfinite(self.high) and self.low < self.high):
            raise ValueError(f"axis {self.label!r}: low must be below high, got {self.low} and {self.high}")
        if self.scale == "log" and not self.low > 0:
            raise ValueError(f"axis {self.label!r}: a log axis starts above zero, got {self.low}")
        object.__setattr__(self, "low", float(self.low))
        object.__setattr__(self, "high", float(self.high))
        object.__setattr__(self, "symbol", self.symbol or symbol(self.unit))
        object.__setattr__(self, "ticks", tuple((float(value), name) for value, name in self.ticks))
        for value, name in self.ticks:
            if not self.holds(value):
                raise ValueError(f"axis {self.label!r}: tick {name!r} at {value:g} lies outside {self.low:g} to {self.high:g}")

    @property
    def heading(self):
        """The label with its unit in brackets."""
        return f"{self.label} [{self.symbol}]" if self.symbol else self.label

    def fraction(self, values):
        """Where values lie along the axis: 0 at its low end, 1 at its high end, NaN for none."""
        values = np.asarray(values, dtype=float)
        if self.scale == "linear":
            return (values - self.low) / (self.high - self.low)
        positive = np.where(values > 0, values, np.nan)
        return np.log10(positive / self.low) / np.log10(self.high / self.low)

    def holds(self, value):
        """Whether a value lies between the ends."""
        return bool(self.low <= value <= self.high)

    def number(self, value):
        """A number for reading: as fine as a thousandth of the axis, or to three digits on a log axis.

        Where places have names, the nearest one's name.
        """
        if self.ticks:
            return min(self.ticks, key=lambda tick: abs(tick[0] - value))[1]
        top = max(abs(self.low), abs(self.high)) / 5 if self.scale == "linear" else abs(value)
        decimals = max(0, 2 - math.floor(math.log10(top))) if top > 0 else 0
        text = f"{value:.{decimals}f}"
        return (text.lstrip("-") if float(text) == 0 else text).replace("-", "−")

    def shown(self, value):
        """A number with its unit, for a sentence."""
        return f"{self.number(value)} {self.symbol}".strip()


@dataclass(frozen=True, eq=False)
class Curve:
    """A line through x and y, in the axes' units; NaN makes a gap. Style: one of CURVE_STYLES."""

    name: str
    x: np.ndarray
    y: np.ndarray
    style: str = "first"

    def __post_init__(self):
        _freeze(self, "curve", CURVE_STYLES, "x", "y")


@dataclass(frozen=True, eq=False)
class Band:
    """The area between low and high over x; NaN makes a gap. Style: one of BAND_STYLES."""

    name: str
    x: np.ndarray
    low: np.ndarray
    high: np.ndarray
    style: str = "first"

    def __post_init__(self):
        _freeze(self, "band", BAND_STYLES, "x", "low", "high")


@dataclass(frozen=True)
class Point:
    """One marked place with its short name beside it; NaN means it is not drawn now.

    Style: one of POINT_STYLES. ``"here"`` is where the sliders stand, ``"own"`` the reader's reading.
    """

    name: str
    x: float
    y: float
    style: str = "here"

    def __post_init__(self):
        _number(self, "point", "x", "y")
        if self.style not in POINT_STYLES:
            raise ValueError(f"point {self.name!r}: style is one of {', '.join(POINT_STYLES)}, not {self.style!r}")

    @property
    def drawn(self):
        """Whether it has a place at all."""
        return math.isfinite(self.x) and math.isfinite(self.y)


@dataclass(frozen=True)
class Limit:
    """A line right across at one value of the axis ``"x"`` or ``"y"``; NaN means it is not drawn now."""

    name: str
    axis: str
    value: float

    def __post_init__(self):
        _number(self, "limit", "value")
        if self.axis not in ("x", "y"):
            raise ValueError(f"limit {self.name!r}: axis is \"x\" or \"y\", not {self.axis!r}")


@dataclass(frozen=True, eq=False)
class Picture:
    """Axes, marks, one sentence in plain words, and alt text for those who don't see it.

    ``to_scale`` draws a thing as it is: a millimetre is as long across as it is up.

    Raises
    ------
    ValueError
        For a mark that cannot be drawn, by its name. Curves and bands may leave the axes,
        points and limits may not.
    """

    title: str
    x: Axis
    y: Axis
    sentence: str
    alt: str
    curves: tuple = ()
    bands: tuple = ()
    points: tuple = ()
    limits: tuple = ()
    to_scale: bool = False

    def __post_init__(self):
        if self.to_scale and (self.x.unit, self.x.scale, self.y.scale) != (self.y.unit, "linear", "linear"):
            raise ValueError(f"picture {self.title!r}: a drawing to scale has one unit along both axes, and none is a log axis")
        for group in ("curves", "bands", "points", "limits"):
            object.__setattr__(self, group, tuple(getattr(self, group)))
        for what in ("title", "sentence", "alt"):
            if not getattr(self, what).strip():
                raise ValueError(f"picture {self.title!r}: {what} is empty, write it in plain words")
        names = [mark.name for _, mark in self.marks]
        for name in names:
            if names.count(name) > 1:
                raise ValueError(f"picture {self.title!r}: two marks are named {name!r}, give each its own name")
        for point in self.points:
            if point.drawn and not (self.x.holds(point.x) and self.y.holds(point.y)):
                raise ValueError(f"point {point.name!r}: ({point.x:g}, {point.y:g}) lies outside the axes, "
                                 f"which run {self._span(self.x)} and {self._span(self.y)}")
        for limit in self.limits:
            axis = getattr(self, limit.axis)
            if math.isfinite(limit.value) and not axis.holds(limit.value):
                raise ValueError(f"limit {limit.name!r}: {limit.value:g} lies outside the axis, "
                                 f"which runs {self._span(axis)}")

    @property
    def marks(self):
        """All marks with their kind, in drawing order."""
        return ([("band", mark) for mark in self.bands] + [("limit", mark) for mark in self.limits]
                + [("curve", mark) for mark in self.curves] + [("point", mark) for mark in self.points])

    @staticmethod
    def _span(axis):
        return f"from {axis.low:g} to {axis.high:g} {axis.symbol}".strip()


@dataclass(frozen=True)
class Reading:
    """The reader's own reading: a quantity along each axis."""

    x: Q
    y: Q
    name: str = "your reading"


def mark_reading(picture, reading):
    """Mark the reader's own reading, or say that it lies outside.

    Parameters
    ----------
    picture : Picture
    reading : Reading

    Returns
    -------
    Picture
        With one more point of style ``"own"``. Outside the axes the point is kept
        undrawn, so that sentence and table can say so.
    """
    x, y = float(reading.x.m_as(picture.x.unit)), float(reading.y.m_as(picture.y.unit))
    place = f"{picture.x.shown(x)} and {picture.y.shown(y)}"
    if picture.x.holds(x) and picture.y.holds(y):
        point, words = Point(reading.name, x, y, "own"), f"{_capital(reading.name)} is marked at {place}."
    else:
        point = Point(reading.name, np.nan, np.nan, "own")
        words = f"{_capital(reading.name)}, {place}, lies outside this picture."
    return replace(picture, points=(*picture.points, point), sentence=f"{picture.sentence} {words}",
                   alt=f"{picture.alt} {words}")


def _capital(text):
    return text[:1].upper() + text[1:]


def _plain(kind, name, what, value):
    if isinstance(value, Q):
        raise TypeError(f"{kind} {name!r}: {what} is a quantity, write its number in the axis' unit, "
                        f"for example {what}.m_as(\"mohm\")")
    value = np.array(value, dtype=float)
    if np.isinf(value).any():
        raise ValueError(f"{kind} {name!r}: {what} is infinite, write a finite number or NaN for a gap")
    return value


def _freeze(mark, kind, styles, *arrays):
    if mark.style not in styles:
        raise ValueError(f"{kind} {mark.name!r}: style is one of {', '.join(styles)}, not {mark.style!r}")
    values = [_plain(kind, mark.name, what, getattr(mark, what)) for what in arrays]
    if values[0].ndim != 1 or len(values[0]) < 2 or any(value.shape != values[0].shape for value in values):
        shapes = ", ".join(f"{what} has shape {value.shape}" for what, value in zip(arrays, values))
        raise ValueError(f"{kind} {mark.name!r}: needs rows of equal length, at least two long, but {shapes}")
    for what, value in zip(arrays, values):
        value.flags.writeable = False
        object.__setattr__(mark, what, value)


def _number(mark, kind, *names):
    for what in names:
        value = _plain(kind, mark.name, what, getattr(mark, what))
        if value.ndim:
            raise ValueError(f"{kind} {mark.name!r}: {what} must be one number, got {value!r}")
        object.__setattr__(mark, what, float(value))
