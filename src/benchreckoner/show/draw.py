"""How a picture looks: the one drawing behind every still and every backdrop."""

import contextlib
import unicodedata

import matplotlib
import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import findfont, get_font
from matplotlib.lines import Line2D
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.textpath import TextPath
from matplotlib.ticker import FuncFormatter, LogLocator, MaxNLocator, NullFormatter, NullLocator
from matplotlib.transforms import blended_transform_factory

from benchreckoner.show.picture import Point

INK, GRID, PAPER = "#1d2230", "#d5d8de", "#ffffff"
# Each mark differs by dash, shape or hatch as well as colour, and the colours differ in lightness too.
_CURVES = {
    "first": dict(color="#0b3c7a", linestyle="-", linewidth=2.2),
    "second": dict(color="#c25a00", linestyle=(0, (5, 2)), linewidth=2.2),
    "third": dict(color="#1b8a6b", linestyle=(0, (6, 1.6, 1.2, 1.6)), linewidth=2.2),
    "fourth": dict(color="#7a2c86", linestyle=(0, (1.2, 1.4)), linewidth=2.6),
    "faint": dict(color="#767b86", linestyle="-", linewidth=1.1),
    "heavy": dict(color=INK, linestyle="-", linewidth=4.8),
}
_BANDS = {
    "first": dict(facecolor="#e4edf7", edgecolor="#8fb0d3", hatch="///"),
    "second": dict(facecolor="#fbeedd", edgecolor="#dcae77", hatch="..."),
    "third": dict(facecolor="#e6f3ee", edgecolor="#8fc2b0", hatch="\\\\\\"),
    "heavy": dict(facecolor="#f6e3c8", edgecolor="#8a4b00", hatch="xx"),
}
_POINTS = {
    "here": dict(marker="o", markersize=9, markerfacecolor=INK, markeredgecolor=PAPER, markeredgewidth=1.4),
    "own": dict(marker="D", markersize=9, markerfacecolor=PAPER, markeredgecolor="#a3124f", markeredgewidth=2.4),
    "other": dict(marker="s", markersize=7.5, markerfacecolor="#c25a00", markeredgecolor=PAPER, markeredgewidth=1.2),
    "extra": dict(marker="^", markersize=9, markerfacecolor="#1b8a6b", markeredgecolor=PAPER, markeredgewidth=1.2),
}
_LIMIT = dict(color="#4b5160", linestyle=(0, (3, 2.4)), linewidth=1.3)
_SIZE = {False: (5.4, 4.2), True: (5.2, 4.5)}  # inches of 72 points; the first is close to a phone's width in pixels
_ROOM_FOR_NAMES = 1.1  # inches more height where places along x have names, written upright
_LONGEST_NAME = 24
_NAME_WIDTH, _NAME_HEIGHT = 0.024, 0.11  # of one letter, and of a name with its gap, in parts of the axes
_LOOK = {
    "font.family": ["DejaVu Sans"], "text.color": INK, "text.parse_math": False,
    "axes.edgecolor": INK, "axes.labelcolor": INK, "axes.linewidth": 0.9, "axes.axisbelow": True,
    "axes.spines.top": False, "axes.spines.right": False, "axes.unicode_minus": True,
    "xtick.color": INK, "ytick.color": INK, "grid.color": GRID, "grid.linewidth": 0.7,
    "hatch.linewidth": 0.7, "path.simplify": False,
    "svg.fonttype": "path", "svg.hashsalt": "bench reckoner",
}


def mark_ids(picture):
    """An id for each mark, in drawing order."""
    counted = {}
    for kind, _ in picture.marks:
        counted[kind] = counted.get(kind, -1) + 1
        yield f"{kind}-{counted[kind]}"


def side(picture, mark):
    """On which side of a point or limit its name stands: 1 added for left, 2 for below.

    The first of the places with room in which the fewest marks lie. Reckoned in parts of
    the axes, for text of middling size, so that every size of drawing chooses alike.
    """
    return _name_box(picture, mark)[2]


def _name_box(picture, mark):
    """Left, bottom and side of the place for a name: the limits choose first, the points make way."""
    width = _NAME_WIDTH * len(mark.name)
    rows = [_fractions(picture, curve.x, curve.y) for curve in picture.curves]
    rows += [_fractions(picture, point.x, point.y) for point in picture.points]
    if isinstance(mark, Point):
        x, y = (float(place) for place in _fractions(picture, mark.x, mark.y))
        lefts, bottoms = (x + 0.02, x - 0.02 - width), (y, y - _NAME_HEIGHT)
        for limit in picture.limits:
            if np.isfinite(limit.value):
                start, bottom, _ = _name_box(picture, limit)
                along = np.linspace(start, start + _NAME_WIDTH * len(limit.name), 9)
                rows.append((along, np.full(9, bottom + _NAME_HEIGHT / 2)))
    elif mark.axis == "y":
        y = float(picture.y.fraction(mark.value))
        lefts, bottoms = (1 - width, 0.0), (y, y - _NAME_HEIGHT)
    else:
        x = float(picture.x.fraction(mark.value))
        lefts, bottoms = (x + 0.01, x - 0.01 - width), (1 - _NAME_HEIGHT, 0.0)
    x, y = (np.concatenate([np.atleast_1d(row[which]) for row in rows] or [[]]) for which in (0, 1))

    def crowd(box):
        left, bottom, _ = box
        outside = left < -0.01 or left + width > 1.05 or bottom < -0.01 or bottom + _NAME_HEIGHT > 1.06
        inside = (left < x) & (x < left + width) & (bottom < y) & (y < bottom + _NAME_HEIGHT)
        return 1000 * outside + np.count_nonzero(inside)

    return min(((left, bottom, across + 2 * down) for down, bottom in enumerate(bottoms)
                for across, left in enumerate(lefts)), key=crowd)


@contextlib.contextmanager
def look(large):
    """Our own settings, whatever the notebook has set; a live size and a large one."""
    with matplotlib.rc_context():
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(_LOOK)
        matplotlib.rcParams["font.size"] = _text_size(large)
        yield


def _text_size(large):
    return 14 if large else 10.5


def size_of(picture, large):
    """Inches across and up of a picture's drawing, the same for its every state."""
    width, height = _SIZE[large]
    return width, height + _ROOM_FOR_NAMES * bool(picture.x.ticks)


def draw(picture, large, *, sides=True):
    """The figure, and by mark id how far its name hops: (to the left, to below), in points.

    Without `sides`, every name stands on its usual side, whatever else is there.
    """
    drawn = Figure(figsize=size_of(picture, large), dpi=72, layout="constrained", facecolor=PAPER)
    FigureCanvasAgg(drawn)
    axes = drawn.add_subplot(facecolor=PAPER)
    _axes(axes, picture, large)
    artists = _put_marks(axes, picture, large)
    _heading(drawn, picture, [artist for (kind, _), artist in zip(picture.marks, artists) if kind in ("band", "curve")], large)
    # Lay out once: nothing that moves has a say in it, so every state has the same axes.
    drawn.get_layout_engine().execute(drawn)
    drawn.set_layout_engine("none")
    axes.apply_aspect()
    return drawn, _put_names(axes, picture, large, sides)


def redraw(drawn, picture, large):
    """Put another state of a picture into its figure, as `draw` would draw it; what does not move is not made again."""
    axes = drawn.axes[0]
    for artist in (*axes.lines, *axes.patches, *axes.texts):
        artist.remove()
    _put_marks(axes, picture, large)
    _put_names(axes, picture, large, True)


def _put_marks(axes, picture, large):
    artists = []
    for key, (kind, mark) in zip(mark_ids(picture), picture.marks):
        artists.append(_MARKS[kind](axes, picture, mark, 1.5 if large else 1.0))
        artists[-1].set_gid(key)
        artists[-1].set_in_layout(False)
    return artists


def _put_names(axes, picture, large, sides):
    return {key: _name(axes, picture, mark, key, large, sides) for key, (kind, mark) in zip(mark_ids(picture), picture.marks)
            if kind in ("point", "limit")}


def _heading(drawn, picture, handles, large):
    """Title and key together above the axes, where no mark can reach them."""
    size = _text_size(large) * 0.95
    room = _SIZE[large][0] * 72 / (max((_width(handle.get_label(), large) for handle in handles), default=1) + 5 * size)
    drawn.legend(handles=handles, loc="outside upper left", title=_wrapped(picture.title, large), alignment="left",
                 title_fontproperties={"weight": "bold", "size": _text_size(large) * 1.08}, fontsize=size,
                 ncols=max(1, min(3, int(room))), frameon=False, handlelength=2.6, borderpad=0.1, columnspacing=1.4)


def _axes(axes, picture, large):
    for axis, which in ((picture.x, axes.xaxis), (picture.y, axes.yaxis)):
        name = which.axis_name
        getattr(axes, f"set_{name}scale")(axis.scale)
        getattr(axes, f"set_{name}lim")(axis.low, axis.high)
        getattr(axes, f"set_{name}label")(axis.heading)
        if axis.ticks:
            _name_places(axis, which, large)
        elif axis.scale == "log":
            decades = np.log10(axis.high / axis.low)
            which.set_major_locator(LogLocator(subs=(1, 2, 5) if decades <= 2.2 else (1,), numticks=20))
            which.set_minor_locator(LogLocator(subs=range(2, 10), numticks=99) if decades <= 5 else NullLocator())
            which.set_minor_formatter(NullFormatter())
            which.set_major_formatter(FuncFormatter(lambda value, _: f"{value:.12g}"))
        else:
            which.set_major_locator(MaxNLocator(nbins=6 if name == "y" else 4 if picture.y.ticks else 7, steps=(1, 2, 2.5, 5, 10)))
        which.set_tick_params(length=3)
    if picture.to_scale:
        axes.set_aspect("equal", adjustable="box", anchor="C")
    axes.grid(True, which="major")
    axes.set_autoscale_on(False)


def _name_places(axis, which, large):
    """Names in place of numbers; along x they stand upright, small enough not to touch each other."""
    width = 0.7 * 72 * _SIZE[large][0] * min(np.diff(sorted(value for value, _ in axis.ticks)), default=1) / (axis.high - axis.low)
    which.set_ticks([value for value, _ in axis.ticks], [written(_shortened(name)) for _, name in axis.ticks],
                    fontsize=min(_text_size(large) * 0.95, width),
                    **(dict(rotation=90) if which.axis_name == "x" else {}))


def _shortened(name):
    """A long name without its middle: names alike often differ in their last letters."""
    half = _LONGEST_NAME // 2
    return name if len(name) <= _LONGEST_NAME else f"{name[:half - 1].rstrip()}…{name[-half:].lstrip()}"


def written(text):
    """The text as the drawing's letters can write it: a box for any they lack, no signs that only steer others."""
    letters = get_font(findfont("DejaVu Sans"))
    return "".join(sign if letters.get_char_index(ord(sign)) else "□" for sign in text
                   if unicodedata.category(sign) != "Cf")


def _drawable(picture, curve):
    """A curve's rows, with gaps where a log axis cannot show them."""
    gap = np.isnan(picture.x.fraction(curve.x)) | np.isnan(picture.y.fraction(curve.y))
    return curve.x, np.where(gap, np.nan, curve.y)


def _band_path(band):
    """One closed outline for each stretch without a gap."""
    holds = np.isfinite(band.x) & np.isfinite(band.low) & np.isfinite(band.high)
    edges = np.flatnonzero(np.diff(np.concatenate(([0], holds.astype(int), [0]))))
    outlines = []
    for begin, end in edges.reshape(-1, 2):
        part = slice(begin, end)
        there, back = (np.column_stack((band.x[part], row[part])) for row in (band.low, band.high))
        outlines.append(Path(np.vstack((there, back[::-1], there[:1])), closed=True))
    return Path.make_compound_path(*outlines) if outlines else Path(np.empty((0, 2)))


def _draw_band(axes, picture, band, heavier):
    return axes.add_patch(PathPatch(_band_path(band), transform=axes.transData, linewidth=0, label=band.name,
                                    **_BANDS[band.style]))


def _draw_curve(axes, picture, curve, heavier):
    return axes.plot(*_drawable(picture, curve), label=curve.name, **_heavier(_CURVES[curve.style], heavier))[0]


def _draw_point(axes, picture, point, heavier):
    return axes.plot([point.x], [point.y], linestyle="none", clip_on=False, zorder=6,
                     **_heavier(_POINTS[point.style], heavier))[0]


def _draw_limit(axes, picture, limit, heavier):
    along, across = [limit.value, limit.value], [0, 1]
    rows = (along, across) if limit.axis == "x" else (across, along)
    return axes.add_line(Line2D(*rows, transform=_along(axes, limit), **_heavier(_LIMIT, heavier)))


_MARKS = {"band": _draw_band, "curve": _draw_curve, "point": _draw_point, "limit": _draw_limit}


def _along(axes, limit):
    """Data along the limit's own axis, parts of the axes across it."""
    if limit.axis == "x":
        return blended_transform_factory(axes.transData, axes.transAxes)
    return blended_transform_factory(axes.transAxes, axes.transData)


def _heavier(style, factor):
    return {name: value * factor if name in ("linewidth", "markersize", "markeredgewidth") else value
            for name, value in style.items()}


def _wrapped(title, large):
    words, lines, width = written(title).split(), [""], 33 if large else 54
    for word in words:
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return "\n".join(lines)


def _name(axes, picture, mark, key, large, sides):
    """Write a short name beside its mark, on paper so that a curve behind it doesn't hide it; say how it hops."""
    size, width, gap = _text_size(large), _width(mark.name, large), 10 if large else 7
    if isinstance(mark, Point):
        place, transform, offset = (mark.x, mark.y), axes.transData, (gap, gap)
        hop = (-2 * gap - width, -2 * gap - 0.6 * size)
    elif mark.axis == "x":
        place, transform, offset = (mark.value, 1), _along(axes, mark), (gap, -1.3 * size)
        hop = (-2 * gap - width, 1.8 * size - axes.get_window_extent().height * 72 / axes.figure.dpi)
    else:
        place, transform, offset = (1, mark.value), _along(axes, mark), (-width - 2, gap - 2)
        hop = (width + 8 - axes.get_window_extent().width * 72 / axes.figure.dpi, -2 * gap - 0.5 * size)
    if np.all(np.isfinite(place)):
        where = side(picture, mark) if sides else 0
        offset = (offset[0] + hop[0] * (where & 1), offset[1] + hop[1] * (where >> 1))
        label = axes.annotate(mark.name, place, xycoords=transform, xytext=offset, textcoords="offset points",
                              annotation_clip=False, zorder=5, fontsize=size * 0.95,
                              bbox=dict(facecolor=PAPER, edgecolor="none", alpha=0.8, pad=1))
        label.set_gid(f"{key}-name")
    return hop


def _width(text, large):
    size = _text_size(large) * 0.95
    return float(TextPath((0, 0), text, size=size, prop={"family": ["DejaVu Sans"]}).get_extents().x1)


def _fractions(picture, x, y):
    return picture.x.fraction(x), picture.y.fraction(y)
