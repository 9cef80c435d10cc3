"""A belt's section and its length as sold: inside diameter, inside circumference, flat length and pitch length kept apart."""

from typing import NamedTuple

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.units import Q, need

SHAPES = ("square", "round", "flat")
INSIDE_DIAMETER, INSIDE_CIRCUMFERENCE = "inside diameter", "inside circumference"
FLAT_LENGTH, PITCH_LENGTH = "flat length", "pitch length"
MEASURES = (INSIDE_DIAMETER, INSIDE_CIRCUMFERENCE, FLAT_LENGTH, PITCH_LENGTH)


class Section(NamedTuple):
    """A cut through a belt: its area, the height of its neutral line above the seat, its second moment of area."""

    area: Q
    neutral_height: Q
    second_moment: Q


def belt_section(*, shape, thickness, width=None):
    r"""The cut through a belt, as the laws of pull and bending need it.

    Parameters
    ----------
    shape : str
        ``"square"``, ``"round"`` or ``"flat"``.
    thickness : Quantity [m], above zero
        Side of a square, diameter of a round belt, thickness of a flat one.
    width : Quantity [m], above zero, optional
        Of a flat belt alone.

    Returns
    -------
    Section
        In m**2, m and m**4.

    Raises
    ------
    ValueError
        For an unknown shape, a flat belt without a width, or a width where none belongs.

    Notes
    -----
    .. math::
        A = a^2,\ \tfrac{\pi}{4} d^2,\ w t; \quad y = \tfrac12 (a, d, t); \quad
        I = \tfrac{a^4}{12},\ \tfrac{\pi d^4}{64},\ \tfrac{w t^3}{12}

    For a belt at rest and unstretched. One thinned by stretch has its area divided by the stretch ratio. A round belt in
    a groove with slanted sides sits higher than half its diameter.

    References
    ----------
    .. [1] Geometry of plane figures. RECOMPUTED.

    Examples
    --------
    >>> section = belt_section(shape="square", thickness=Q(1.2, "mm"))
    >>> print(f"{section.area.to('mm**2'):.2f~P}, neutral line {section.neutral_height.to('mm'):.1f~P} up")
    1.44 mm², neutral line 0.6 mm up
    """
    thick = need(thickness, "m", "thickness", above=0)
    if shape not in SHAPES:
        raise ValueError(f"shape: must be one of {', '.join(SHAPES)}, got {shape!r}; write shape=\"square\"")
    if (shape == "flat") != (width is not None):
        raise ValueError("width: a flat belt needs one, square and round belts have none; write width=Q(4, 'mm') or leave it out")
    if shape == "round":
        area, moment = np.pi / 4 * thick**2, np.pi / 64 * thick**4
    else:
        wide = thick if shape == "square" else need(width, "m", "width", above=0)
        area, moment = wide * thick, wide * thick**3 / 12
    return Section(area.to("m**2"), (thick / 2).to("m"), moment.to("m**4"))


def inside_circumference(*, size, measure, neutral_height):
    r"""Inside circumference of a free belt, from a size as one seller or another states it.

    Parameters
    ----------
    size : Quantity [m], above zero
    measure : str
        ``"inside diameter"``, ``"inside circumference"``, ``"flat length"`` (folded flat, tip to tip inside) or
        ``"pitch length"`` (along the neutral line).
    neutral_height : Quantity [m], zero or more
        From the inner face to the neutral line.

    Returns
    -------
    Quantity [m]

    Raises
    ------
    ValueError
        For an unknown measure, or a pitch length too short for so thick a belt.

    Notes
    -----
    .. math:: C_i = \pi D, \quad C_i, \quad 2 l, \quad L - 2\pi y

    Taking an inside circumference for an inside diameter is a factor of pi. A flat length as sold is often taken over the
    outside of the folds: see `folded_circumference`.

    References
    ----------
    .. [1] Geometry of a circle; the trade's words, check values C20 and C41. RECOMPUTED.

    Examples
    --------
    >>> round_it = inside_circumference(size=Q(70, "mm"), measure="inside diameter", neutral_height=Q(0.6, "mm"))
    >>> print(f"{round_it.to('mm'):.1f~P}")
    219.9 mm
    """
    size = need(size, "m", "size", above=0)
    height = need(neutral_height, "m", "neutral_height", least=0)
    inside = {INSIDE_DIAMETER: np.pi * size, INSIDE_CIRCUMFERENCE: size, FLAT_LENGTH: 2 * size,
              PITCH_LENGTH: size - 2 * np.pi * height}[_known(measure)]
    if not np.all(inside.magnitude > 0):
        raise ValueError(f"size: a pitch length of {size.to('mm'):.4g~P} is too short for so thick a belt; write Q(230, 'mm')")
    return inside.to("m")


def size_as_sold(*, inside_circumference, measure, neutral_height):
    r"""The same belt in the words of another seller.

    Parameters
    ----------
    inside_circumference : Quantity [m], above zero
        Of the free belt.
    measure : str
        As for `inside_circumference`.
    neutral_height : Quantity [m], zero or more

    Returns
    -------
    Quantity [m]

    Raises
    ------
    ValueError
        For an unknown measure.

    Notes
    -----
    .. math:: D = C_i / \pi, \quad C_i, \quad l = C_i / 2, \quad L = C_i + 2\pi y

    References
    ----------
    .. [1] Shigley, section 17-3: pitch length is inside circumference and an addend, check value C20. FOUND.

    Examples
    --------
    >>> diameter = size_as_sold(inside_circumference=Q(216.2, "mm"), measure="inside diameter", neutral_height=Q(0.6, "mm"))
    >>> print(f"{diameter.to('mm'):.1f~P}")
    68.8 mm
    """
    inside = need(inside_circumference, "m", "inside_circumference", above=0)
    height = need(neutral_height, "m", "neutral_height", least=0)
    return {INSIDE_DIAMETER: inside / np.pi, INSIDE_CIRCUMFERENCE: inside, FLAT_LENGTH: inside / 2,
            PITCH_LENGTH: inside + 2 * np.pi * height}[_known(measure)].to("m")


def free_length(*, inside_circumference, neutral_height):
    r"""Free length of a belt along its neutral line, which is what stretches.

    Parameters
    ----------
    inside_circumference : Quantity [m], above zero
    neutral_height : Quantity [m], zero or more

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: L_0 = C_i + 2\pi y

    References
    ----------
    .. [1] A loop laid as a circle. RECOMPUTED; Shigley's addend says the same, FOUND.

    Examples
    --------
    >>> free = free_length(inside_circumference=Q(216.2156, "mm"), neutral_height=Q(0.6, "mm"))
    >>> print(f"{free.to('mm'):.2f~P}")
    219.99 mm
    """
    return size_as_sold(inside_circumference=inside_circumference, measure=PITCH_LENGTH, neutral_height=neutral_height)


def wanted_circumference(*, path_length, stretch, neutral_height):
    r"""Inside circumference to order, for a path and a wanted stretch.

    Parameters
    ----------
    path_length : Quantity [m], above zero
        Along the neutral line of the fitted belt.
    stretch : float or array, above -1
        As a share: 0.05 for 5 %.
    neutral_height : Quantity [m], zero or more
        Of the new belt.

    Returns
    -------
    Quantity [m]

    Raises
    ------
    ValueError
        If nothing would be left.

    Notes
    -----
    .. math:: C_i = \frac{L}{1 + \varepsilon} - 2\pi y

    A stretched belt is thinner, its neutral line a little lower; that is below 0.1 % of the length and left out.

    References
    ----------
    .. [1] Check value C41. RECOMPUTED.

    Examples
    --------
    >>> order = wanted_circumference(path_length=Q(230.98484, "mm"), stretch=0.05, neutral_height=Q(0.6, "mm"))
    >>> print(f"{order.to('mm'):.2f~P}")
    216.22 mm
    """
    length = need(path_length, "m", "path_length", above=0)
    stretch = number(stretch, "stretch", above=-1, example=0.05)
    return inside_circumference(size=length / (1 + stretch), measure=PITCH_LENGTH, neutral_height=neutral_height)


def _known(measure):
    if measure not in MEASURES:
        raise ValueError(f"measure: must be one of {', '.join(MEASURES)}, got {measure!r}; write measure=\"inside diameter\"")
    return measure
