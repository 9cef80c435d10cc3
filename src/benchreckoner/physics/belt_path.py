"""The path of a belt: its length, its wraps and its free spans, from the places of the pulleys.

All of it runs along the neutral line, the line inside the belt that bending neither stretches nor squeezes. It lies half
a thickness above the seat. Seats are given as diameters, as a calliper reads them.
"""

from typing import NamedTuple

import numpy as np

from benchreckoner.units import Q, need

_HARDLY = np.radians(2.0)  # a wrap below this, or this near to a full turn, touches nothing for certain
_NEARLY_ROUND = np.radians(300.0)  # of one pulley among three or more: no belt is laid so


class TwoPulleyPath(NamedTuple):
    """A belt over two pulleys: its whole length, the wrap on each pulley, and one free span."""

    length: Q
    first_wrap: Q
    second_wrap: Q
    span: Q


class BeltPath(NamedTuple):
    """A belt over any number of pulleys, with what looks wrong about it.

    ``wraps`` by pulley; ``spans`` by the pulley that each one leaves; ``turning`` is +1 or -1 for a simple loop and 0
    for a figure of eight. ``untouched``: pulleys that the belt does not truly touch. ``blocked``: pairs of a span and
    the pulley that lies in its way. ``crossings``: pairs of spans that cross each other.
    """

    length: Q
    wraps: Q
    spans: Q
    turning: float
    untouched: tuple
    blocked: tuple
    crossings: tuple


def two_pulley_path(*, first_diameter, second_diameter, distance, neutral_height=Q(0, "mm"), crossed=False):
    r"""Path of a belt over two pulleys, exactly.

    Parameters
    ----------
    first_diameter, second_diameter : Quantity [m], above zero
        Of the seats, where the belt's inner face lies.
    distance : Quantity [m]
        Between the middles of the two shafts.
    neutral_height : Quantity [m], zero or more
        From the seat to the belt's neutral line: half its thickness.
    crossed : bool
        True for a belt that crosses itself, so that the pulleys turn against each other.

    Returns
    -------
    TwoPulleyPath
        Lengths in metres, wraps in radians.

    Raises
    ------
    ValueError
        If the pulleys would overlap, or a crossed belt would not pass between them.

    Notes
    -----
    With pitch radii :math:`R_i = d_i/2 + y`:

    .. math::
        \text{open: } \sin a = \frac{R_2 - R_1}{C}, \quad L = 2 C \cos a + R_1 (\pi - 2a) + R_2 (\pi + 2a)

        \text{crossed: } \sin a = \frac{R_1 + R_2}{C}, \quad L = 2 C \cos a + (R_1 + R_2)(\pi + 2a)

    For straight, taut spans: a heavy, slack belt sags. A crossed belt rubs itself.

    References
    ----------
    .. [1] Budynas and Nisbett, "Shigley's Mechanical Engineering Design", eqs 17-1 to 17-4, read in a stored study
       digest and solutions. FOUND.

    Examples
    --------
    >>> path = two_pulley_path(first_diameter=Q(6, "mm"), second_diameter=Q(60, "mm"), distance=Q(55, "mm"),
    ...     neutral_height=Q(0.6, "mm"))
    >>> print(f"{path.length.to('mm'):.2f~P}, {path.first_wrap.to('deg'):.1f~P} round the small pulley")
    230.98 mm, 121.2 deg round the small pulley
    """
    first = need(first_diameter, "m", "first_diameter", above=0).magnitude / 2
    second = need(second_diameter, "m", "second_diameter", above=0).magnitude / 2
    apart = need(distance, "m", "distance", above=0).magnitude
    height = need(neutral_height, "m", "neutral_height", least=0).magnitude
    if not np.all(apart > first + second):
        raise ValueError(_overlap("distance", apart, first + second))
    first, second = first + height, second + height
    lean = (first + second if crossed else second - first) / apart
    if not np.all(np.abs(lean) < 1):
        raise ValueError(f"crossed: a crossed belt would not pass between the pulleys, whose rims are nearer than the belt "
                         f"is thick; write crossed=False, or a distance above {1e3 * np.max(first + second):.4g} mm")
    angle = np.arcsin(lean)
    first_wrap, second_wrap = (np.pi + 2 * angle if crossed else np.pi - 2 * angle), np.pi + 2 * angle
    span = apart * np.cos(angle)
    return TwoPulleyPath(Q(2 * span + first * first_wrap + second * second_wrap, "m"), Q(first_wrap, "rad"),
                         Q(second_wrap, "rad"), Q(span, "m"))


def belt_path(*, diameters, across, up, senses, neutral_height=Q(0, "mm")):
    r"""Path of a belt over two or more pulleys, listed in the order in which the belt meets them.

    Parameters
    ----------
    diameters : Quantity [m], one each, above zero
        Of the seats.
    across, up : Quantity [m], one each
        Where the shafts' middles are, seen from above.
    senses : sequence of int
        +1 for a pulley that turns counter-clockwise, -1 for one that turns clockwise.
    neutral_height : Quantity [m], zero or more
        From a seat to the belt's neutral line. On a pulley at the belt's back it is taken as the same.

    Returns
    -------
    BeltPath

    Raises
    ------
    ValueError
        If the lists differ in length, pulleys overlap, or no belt can pass from one pulley to the next so.

    Notes
    -----
    With signed pitch radii :math:`\rho_i = s_i R_i`, shafts :math:`d` apart in the direction :math:`\varphi`, and
    :math:`q = \rho_i - \rho_j`:

    .. math::
        l = \sqrt{d^2 - q^2}, \quad \psi = \varphi + \arcsin\frac{q}{d}, \quad
        \theta_j = s_j(\psi_{out} - \psi_{in}) \bmod 2\pi, \quad L = \sum l + \sum R_j \theta_j

    A sharp look at ``untouched``, ``blocked`` and ``crossings`` is part of the answer: the formula gives a length even
    for a path that no belt can lie on.

    References
    ----------
    .. [1] Own derivation; held against a convex hull, triangles with a known answer, and a string pulled taut
       numerically. RECOMPUTED.

    Examples
    --------
    >>> path = belt_path(diameters=Q([20, 20, 20], "mm"), across=Q([0, 50, 25], "mm"), up=Q([0, 0, 43.30127], "mm"),
    ...     senses=[1, 1, 1])
    >>> print(f"{path.length.to('mm'):.3f~P}, turning {path.turning:.0f}")
    212.832 mm, turning 1
    """
    return _told(_solved(*_checked(diameters, across, up, senses, neutral_height)))


def belt_line(*, diameters, across, up, senses, neutral_height=Q(0, "mm"), arc_points=25):
    """The neutral line as a closed row of points, for drawing.

    Parameters
    ----------
    diameters, across, up, senses, neutral_height
        As for `belt_path`.
    arc_points : int
        How many points each arc has; the row then has as many for each pulley, and one to close it.

    Returns
    -------
    across, up : Quantity [m]

    Raises
    ------
    ValueError
        As `belt_path` does.

    References
    ----------
    .. [1] As `belt_path`; the length of the row comes near to its length. RECOMPUTED.

    Examples
    --------
    >>> across, up = belt_line(diameters=Q([10, 10], "mm"), across=Q([0, 30], "mm"), up=Q([0, 0], "mm"), senses=[1, 1])
    >>> print(f"{len(across)} points, up to {up.max().to('mm'):.1f~P}")
    51 points, up to 5.0 mm
    """
    solved = _solved(*_checked(diameters, across, up, senses, neutral_height))
    steps = np.linspace(0, 1, arc_points)
    angles = solved.enters[:, None] + solved.senses[:, None] * (solved.wraps[:, None] * steps - np.pi / 2)
    x = (solved.x[:, None] + solved.radii[:, None] * np.cos(angles)).ravel()
    y = (solved.y[:, None] + solved.radii[:, None] * np.sin(angles)).ravel()
    return Q(np.append(x, x[0]), "m"), Q(np.append(y, y[0]), "m")


class _Solved(NamedTuple):
    x: np.ndarray
    y: np.ndarray
    radii: np.ndarray
    senses: np.ndarray
    spans: np.ndarray
    leaves: np.ndarray
    enters: np.ndarray
    wraps: np.ndarray


def _checked(diameters, across, up, senses, neutral_height):
    radii = np.atleast_1d(need(diameters, "m", "diameters", above=0).magnitude) / 2
    x, y = (np.atleast_1d(need(places, "m", name).magnitude) for places, name in ((across, "across"), (up, "up")))
    senses = np.asarray(senses)
    height = float(need(neutral_height, "m", "neutral_height", least=0).magnitude)
    if len(radii) < 2 or not len(radii) == len(x) == len(y) == len(senses):
        raise ValueError(f"diameters, across, up, senses: need one entry for each of two pulleys or more, got {len(radii)}, "
                         f"{len(x)}, {len(y)} and {len(senses)}")
    if not np.all(np.isin(senses, (-1, 1))):
        raise ValueError(f"senses: must be 1 (counter-clockwise) or -1 (clockwise), got {senses.tolist()}; write [1, 1, -1]")
    for one in range(len(radii)):
        for other in range(one):
            apart = np.hypot(x[one] - x[other], y[one] - y[other])
            if not apart > radii[one] + radii[other]:
                raise ValueError(f"pulleys {other + 1} and {one + 1}: "
                                 + _overlap("their distance", apart, radii[one] + radii[other]))
    return x, y, radii + height, senses.astype(float)


def _solved(x, y, radii, senses):
    signed = senses * radii
    right, rise = np.roll(x, -1) - x, np.roll(y, -1) - y
    apart, shift = np.hypot(right, rise), signed - np.roll(signed, -1)
    for place in np.flatnonzero(np.abs(shift) >= apart):
        raise ValueError(f"senses: no belt passes from pulley {place + 1} to pulley {(place + 1) % len(x) + 1} with these "
                         "senses; is one of the two said to turn the wrong way, or the belt too thick for the gap?")
    leaves = np.arctan2(rise, right) + np.arcsin(shift / apart)
    enters = np.roll(leaves, 1)
    return _Solved(x, y, radii, senses, np.sqrt(apart**2 - shift**2), leaves, enters,
                   np.mod(senses * (leaves - enters), 2 * np.pi))


def _told(solved):
    count = len(solved.x)
    turning = float(solved.senses @ solved.wraps / (2 * np.pi))
    start = np.column_stack((solved.x + solved.senses * solved.radii * np.sin(solved.leaves),
                             solved.y - solved.senses * solved.radii * np.cos(solved.leaves)))
    end = start + solved.spans[:, None] * np.column_stack((np.cos(solved.leaves), np.sin(solved.leaves)))
    crossings = tuple((one, other) for other in range(count) for one in range(other)
                      if _cross(start[one], end[one], start[other], end[other]))
    blocked = tuple((span, third) for span in range(count) for third in range(count)
                    if third not in (span, (span + 1) % count) and
                    _nearest(start[span], end[span], np.array((solved.x[third], solved.y[third]))) < solved.radii[third] * (1 - 1e-9))
    # A loop that turns twice or more, or nearly once round one of many pulleys, has gone about a pulley that it only passes.
    looped = {pulley for pulley in range(count) if tuple(sorted(((pulley - 1) % count, pulley))) in crossings
              and (abs(turning) > 1.5 or count > 2 and solved.wraps[pulley] > _NEARLY_ROUND)}
    hardly = {int(pulley) for pulley in np.flatnonzero(np.minimum(solved.wraps, 2 * np.pi - solved.wraps) < _HARDLY)}
    return BeltPath(Q(float(solved.spans.sum() + solved.radii @ solved.wraps), "m"), Q(solved.wraps, "rad"), Q(solved.spans, "m"),
                    turning, tuple(sorted(looped | hardly)), blocked, crossings)


def _cross(start, end, other_start, other_end):
    """Whether two pieces of straight line cross."""
    one, other, between = end - start, other_end - other_start, other_start - start
    area = one[0] * other[1] - one[1] * other[0]
    if abs(area) < 1e-15:
        return False
    along = (between[0] * other[1] - between[1] * other[0]) / area
    across = (between[0] * one[1] - between[1] * one[0]) / area
    return bool(0 < along < 1 and 0 < across < 1)


def _nearest(start, end, place):
    """Shortest distance from a place to a piece of straight line."""
    way = end - start
    share = np.clip((place - start) @ way / (way @ way), 0, 1)
    return float(np.hypot(*(place - start - share * way)))


def _overlap(what, apart, needed):
    return (f"{what}: {1e3 * float(np.min(apart)):.4g} mm would make the pulleys overlap, which need more than "
            f"{1e3 * float(np.max(needed)):.4g} mm; was the gap between the rims measured, instead of middle to middle, or a "
            "circumference taken for a diameter?")
