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
from matplotlib.ticker import FuncFormatter, LogLocator, MaxNLocator, NullFormatter, NullLocator
from matplotlib.transforms import blended_transform_factory

from benchreckoner.show.names import name_size, name_width, offsets, places, text_size
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
_MARKER_ROOM = {False: 6, True: 9}  # points that the largest marker reaches beyond its place
_ROOM_FOR_NAMES = 1.1  # inches more height where places along x have names, written upright
_LONGEST_NAME = 24
_RAISED = str.maketrans("−0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOOK = {
    "font.family": ["DejaVu Sans"], "text.color": INK, "text.parse_math": False,
    "axes.edgecolor": INK, "axes.labelcolor": INK, "axes.linewidth": 0.9, "axes.axisbelow": True,
    "axes.spines.top": False, "axes.spines.right": False, "axes.unicode_minus": True,
    "xtick.color": INK, "ytick.color": INK, "grid.color": GRID, "grid.linewidth": 0.7,
    "hatch.linewidth": 0.7, "path.simplify": False, "text.hinting": "none",  # else letters are wider at some sizes than laid out
    "svg.fonttype": "path", "svg.hashsalt": "bench reckoner",
}


def mark_ids(picture):
    """An id for each mark, in drawing order."""
    counted = {}
    for kind, _ in picture.marks:
        counted[kind] = counted.get(kind, -1) + 1
        yield f"{kind}-{counted[kind]}"


@contextlib.contextmanager
def look(large):
    """Our own settings, whatever the notebook has set; a live size and a large one."""
    with matplotlib.rc_context():
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(_LOOK)
        matplotlib.rcParams["font.size"] = text_size(large)
        yield


def size_of(picture, large):
    """Inches across and up of a picture's drawing, the same for its every state."""
    width, height = _SIZE[large]
    return width, height + _ROOM_FOR_NAMES * bool(picture.x.ticks)


def draw(picture, large, *, sides=True):
    """The figure, and by mark id the places that its name can take.

    Without `sides`, every name stands in its usual place, whatever else is there.
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
    _leave_room_for_markers(drawn, axes, large)
    axes.apply_aspect()
    _fit_headings(drawn, axes)
    return drawn, _put_names(axes, picture, large, sides)


def _leave_room_for_markers(drawn, axes, large):
    """Draw the axes in from the right, where a marker at their end would be cut off."""
    place, room = axes.get_position(), _MARKER_ROOM[large] / (72 * drawn.get_figwidth())
    if place.x1 > 1 - room:
        axes.set_position([place.x0, place.y0, 1 - room - place.x0, place.height])


def _fit_headings(drawn, axes):
    """Where the heading of an axis is longer than its side of the drawing, below title and key, shift it along, then make it smaller."""
    renderer = drawn.canvas.get_renderer()
    ends = drawn.bbox.width - 1, drawn.legends[0].get_window_extent(renderer).y0
    for axis, end in zip((axes.xaxis, axes.yaxis), ends):
        name, heading = axis.axis_name, axis.label
        axis.get_tightbbox(renderer)  # puts the heading where the finished layout has it
        box = heading.get_window_extent(renderer)
        length = getattr(box, "width" if name == "x" else "height")
        if heading.get_text() and length > end:
            heading.set_fontsize(np.floor(10 * heading.get_fontsize() * end / length) / 10)
            box = heading.get_window_extent(renderer)
        low, high = (getattr(box, f"{name}{side}") for side in (0, 1))
        if over := max(high - end, 0) or min(low, 0):
            side = getattr(axes.bbox, "width" if name == "x" else "height")
            getattr(heading, f"set_{name}")(0.5 - over / side)


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
    """Write all names; answer each one's places, by mark id."""
    box = axes.get_window_extent()
    across, up = (side * 72 / axes.figure.dpi for side in (box.width, box.height))
    chosen = places(picture, across, up, large) if sides else [0] * len(picture.marks)
    labels = {}
    for key, (kind, mark), place in zip(mark_ids(picture), picture.marks, chosen, strict=True):
        if kind in ("point", "limit"):
            labels[key] = offsets(mark, across, up, large)
            _name(axes, mark, key, labels[key][place], large)
    return labels


def _heading(drawn, picture, handles, large):
    """Title and key together above the axes, where no mark can reach them."""
    size = name_size(large)
    room = _SIZE[large][0] * 72 / (max((name_width(handle.get_label(), large) for handle in handles), default=1) + 5 * size)
    drawn.legend(handles=handles, loc="outside upper left", title=_wrapped(picture.title, large), alignment="left",
                 title_fontproperties={"weight": "bold", "size": text_size(large) * 1.08}, fontsize=size,
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
            which.set_major_formatter(FuncFormatter(_power if axis.low < 1e-4 and decades > 2.2 else lambda value, _: f"{value:.12g}"))
        else:
            which.set_major_locator(MaxNLocator(nbins=6 if name == "y" else 4 if picture.y.ticks else 7, steps=(1, 2, 2.5, 5, 10)))
        which.set_tick_params(length=3, pad=_MARKER_ROOM[large] - 2.5)
    if picture.to_scale:
        axes.set_aspect("equal", adjustable="box", anchor="C")
    axes.grid(True, which="major")
    axes.set_autoscale_on(False)


def _power(value, _):
    """A power of ten: on a long axis, noughts take longer to count."""
    return f"10{f'{np.log10(value):.0f}'.replace('-', '−').translate(_RAISED)}" if value != 1 else "1"


def _name_places(axis, which, large):
    """Names in place of numbers; along x they stand upright, small enough not to touch each other."""
    width = 0.7 * 72 * _SIZE[large][0] * min(np.diff(sorted(value for value, _ in axis.ticks)), default=1) / (axis.high - axis.low)
    which.set_ticks([value for value, _ in axis.ticks], [written(_shortened(name)) for _, name in axis.ticks],
                    fontsize=min(name_size(large), width),
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


def _name(axes, mark, key, offset, large):
    """Write a short name beside its mark, on paper so that a curve behind it doesn't hide it."""
    if isinstance(mark, Point):
        spot, transform = (mark.x, mark.y), axes.transData
    else:
        spot, transform = (mark.value, 1) if mark.axis == "x" else (1, mark.value), _along(axes, mark)
    if np.all(np.isfinite(spot)):
        label = axes.annotate(mark.name, spot, xycoords=transform, xytext=offset, textcoords="offset points",
                              annotation_clip=False, zorder=5, fontsize=name_size(large),
                              bbox=dict(facecolor=PAPER, edgecolor="none", alpha=0.8, pad=1))
        label.set_gid(f"{key}-name")
