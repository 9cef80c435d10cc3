"""Where the names of points and limits stand: near their marks, inside the axes, and off each other where that can be."""

import functools
import itertools

import numpy as np
from matplotlib.textpath import TextPath

from benchreckoner.show.picture import Point

PLACES = 16  # that a name can take beside its mark; the first four are the usual ones
_ASCENT, _DESCENT, _LINE = 0.78, 0.24, 1.3  # of a line of text, in parts of its size
_PAD, _MARKER = 3, 6  # points kept free round a name, and round the middle of a marker
_SAMPLES = 128  # places looked at along each curve
_SWEEPS = 3
# What a place costs: to leave the axes is worst, then to touch another name; to stand further off is worse than a curve behind.
_OUT, _NAME_ON_NAME, _NAME_ON_MARKER, _LIKE_ANOTHERS, _LINE_BEHIND = 1e6, 1e4, 400, 150, 6
_FURTHER = np.repeat([0, 40, 80, 120], 4)
_FURTHER_OFF_A_POINT = np.repeat([0, 10, 40, 80], 4)


def text_size(large):
    """Of the drawing's letters, in points."""
    return 14 if large else 10.5


def name_size(large):
    """Of the letters of a mark's name, in points."""
    return text_size(large) * 0.95


@functools.lru_cache(maxsize=1024)
def name_width(text, large):
    """Of a name in the drawing's letters, in points."""
    return float(TextPath((0, 0), text, size=name_size(large), prop={"family": ["DejaVu Sans"]}).get_extents().x1)


def offsets(mark, across, up, large):
    """Each place of a name: points across and up from its point, or from its limit's upper or right end, to the start of its line.

    Parameters
    ----------
    mark : Point or Limit
    across, up : float
        Of the axes, in points.
    large : bool

    Returns
    -------
    numpy.ndarray
        `PLACES` rows of two.
    """
    return _offsets(None if isinstance(mark, Point) else mark.axis, mark.name, across, up, large)


@functools.lru_cache(maxsize=1024)
def _offsets(limited, name, across, up, large):
    size, width, gap = text_size(large), name_width(name, large), 10 if large else 7
    if limited is None:
        right, left, above, below, line = gap, -gap - width, gap, -gap - 0.6 * size, _LINE * size
        level, middle = -0.35 * size, -width / 2
        corners = [[(right, above), (left, above), (right, below), (left, below)],
                   [(right, level), (left, level), (middle, above), (middle, below)]]
        corners += [[(x, y + (lines if y > 0 else -lines)) for x, y in corners[0]] for lines in (line, 2 * line)]
    elif limited == "x":
        corners = [[(x, y) for y in (-_LINE * size * (1 + step), size * (0.5 + _LINE * step) - up) for x in (gap, -gap - width)]
                   for step in range(4)]
    else:
        corners = [[(x, y) for y in (gap - 2, -gap - 2 - 0.5 * size) for x in (-width - 2 - inward, 6 - across + inward)]
                   for inward in (step * (width + 2 * gap) for step in range(4))]
    found = np.array(corners).reshape(PLACES, 2)
    found.flags.writeable = False
    return found


def places(picture, across, up, large):
    """The place of each mark's name, in drawing order; 0 for a mark that has none now.

    Parameters
    ----------
    picture : Picture
    across, up : float
        Of the axes, in points.
    large : bool

    Returns
    -------
    list of int

    Notes
    -----
    The limits choose first, then the points, each the best place that is left; then all look again, at last by twos.
    """
    across, up = round(across, 1), round(up, 1)  # a stray last bit must not move a name between two drawings of one state
    marks = [mark for mark in (*picture.limits, *picture.points) if np.all(np.isfinite(_spot(picture, mark, across, up)))]
    boxes = [_boxes(picture, mark, across, up, large) for mark in marks]
    costs = _alone(picture, marks, boxes, across, up)
    touching, chosen = _touching(boxes), [None] * len(marks)
    for _ in range(_SWEEPS):
        before = list(chosen)
        for index, cost in enumerate(costs):
            chosen[index] = int(np.argmin(cost + _taken(touching, chosen, index)))
        if chosen == before:
            break
    if any(cost[place] > cost.min() for cost, place in zip(costs, chosen)):
        _by_twos(costs, touching, chosen)
    by_mark = {id(mark): place for mark, place in zip(marks, chosen)}
    return [by_mark.get(id(mark), 0) for _, mark in picture.marks]


def _taken(touching, chosen, index, *apart):
    """What each place of a name costs by the places that others have now."""
    return _NAME_ON_NAME * np.sum([touching[index, other, :, place] for other, place in enumerate(chosen)
                                   if place is not None and other not in (index, *apart)], axis=0)


def _by_twos(costs, touching, chosen):
    """Let every two names choose together: of two, neither may be able to leave for the other's good."""
    for one, other in itertools.combinations(range(len(chosen)), 2):
        both = np.add.outer(costs[one] + _taken(touching, chosen, one, other), costs[other] + _taken(touching, chosen, other, one))
        both = both + _NAME_ON_NAME * touching[one, other]
        best = np.unravel_index(np.argmin(both), both.shape)
        if both[best] < both[chosen[one], chosen[other]]:
            chosen[one], chosen[other] = (int(place) for place in best)


def _alone(picture, marks, boxes, across, up):
    """What each place of each name costs, whatever the other names do."""
    lines = _lines(picture, across, up)
    points = [mark for mark in marks if isinstance(mark, Point)]
    costs = []
    for mark, own in zip(marks, boxes):
        markers = np.array([_spot(picture, point, across, up) for point in points if point is not mark]).reshape(-1, 2)
        cost = (_OUT * _outside(own, across, up) + _NAME_ON_MARKER * np.count_nonzero(_away(own, markers) < _MARKER, axis=1)
                + _holding(own, lines) + _LINE_BEHIND * _crossed(picture, mark, own, across, up))
        if isinstance(mark, Point):
            nearer = _away(own, markers) < _away(own, np.array([_spot(picture, mark, across, up)]))
            cost = cost + _LIKE_ANOTHERS * np.count_nonzero(nearer, axis=1) + _FURTHER_OFF_A_POINT
        else:
            cost = cost + _FURTHER
        costs.append(cost)
    return costs


def _lines(picture, across, up):
    """Places along all curves, as many on each."""
    found = [np.empty((0, 2))]
    for steps, along, x, y in _curves(picture):
        found.append(np.column_stack([np.interp(along, steps, part) for part in (x * across, y * up)]))
    return np.vstack(found)


@functools.lru_cache(maxsize=2)  # both sizes of one picture are asked for together
def _curves(picture):
    """For each curve its steps, the places looked at along them, and where they lie in parts of the axes."""
    return [(np.arange(len(curve.x)), np.linspace(0, len(curve.x) - 1, _SAMPLES), picture.x.fraction(curve.x), picture.y.fraction(curve.y))
            for curve in picture.curves]


def _spot(picture, mark, across, up):
    """The point, or the upper or right end of the limit."""
    x, y = _parts(picture)[id(mark)]
    return x * across, y * up


@functools.lru_cache(maxsize=2)
def _parts(picture):
    """Where each point, and each limit's upper or right end, lies in parts of the axes."""
    parts = {id(point): (float(picture.x.fraction(point.x)), float(picture.y.fraction(point.y))) for point in picture.points}
    for limit in picture.limits:
        value = float(getattr(picture, limit.axis).fraction(limit.value))
        parts[id(limit)] = (value, 1.0) if limit.axis == "x" else (1.0, value)
    return parts


def _boxes(picture, mark, across, up, large):
    """Left, bottom, right and top of a name in each of its places."""
    x, y = (offsets(mark, across, up, large) + _spot(picture, mark, across, up)).T
    size = name_size(large)
    return np.column_stack((x, y - _DESCENT * size, x + name_width(mark.name, large), y + _ASCENT * size))


def _outside(boxes, across, up):
    """By how many points a name leaves the axes; two are allowed."""
    over = np.column_stack((-boxes[:, 0], -boxes[:, 1], boxes[:, 2] - across, boxes[:, 3] - up)) - 2
    return np.maximum(over, 0).sum(axis=1)


def _touching(boxes):
    """Whether a name in one of its places touches another in one of its own: by name, other name, place, other place."""
    left, bottom, right, top = np.moveaxis(np.reshape(boxes, (len(boxes), PLACES, 4)), -1, 0)
    beside, level = (low[:, None, :, None] < high[None, :, None, :] for low, high in ((left, right + _PAD), (bottom, top)))
    return beside & beside.transpose(1, 0, 3, 2) & level & level.transpose(1, 0, 3, 2)


def _holding(boxes, spots):
    """How many spots lie in a name's box."""
    x, y = spots.T
    left, bottom, right, top = (edge[:, None] for edge in boxes.T)
    return np.count_nonzero((left < x) & (x < right) & (bottom < y) & (y < top), axis=1)


def _away(boxes, spots):
    """How far each spot lies from a name's box; 0 inside."""
    x, y = spots[None, :, 0], spots[None, :, 1]
    left, bottom, right, top = (edge[:, None] for edge in boxes.T)
    return np.hypot(np.maximum(np.maximum(left - x, x - right), 0), np.maximum(np.maximum(bottom - y, y - top), 0))


def _crossed(picture, mark, boxes, across, up):
    """How many lines of other limits run through a name."""
    count = np.zeros(len(boxes))
    for limit in picture.limits:
        if limit is not mark:
            x, y = _spot(picture, limit, across, up)
            low, high, where = (boxes[:, 0], boxes[:, 2], x) if limit.axis == "x" else (boxes[:, 1], boxes[:, 3], y)
            count += (low < where) & (where < high)
    return count
