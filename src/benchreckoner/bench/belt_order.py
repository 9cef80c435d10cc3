"""What to order where nothing in the bag fits: a size with its tolerance, and two neighbours worth buying together."""

from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.belt_bag import Belt, Ranked, draws_of, rank_bag
from benchreckoner.physics.belt_sizes import INSIDE_DIAMETER, size_as_sold, wanted_circumference
from benchreckoner.units import Q

_STEP = Q(0.5, "mm")
_STRETCHES = (0.13, 0.01)  # a little beyond the window at both ends
_NEARLY = 0.9  # as good as the best: nine tenths of its probability
FITS = 0.5  # from here on a belt is worth fitting first


@dataclass(frozen=True, eq=False)
class Order:
    """What to order: the best size, the sizes that are nearly as good, and the best two together, by inside diameter.

    ``lowest`` and ``highest`` bound the sizes that are nearly as good; ``pair`` two inside diameters and ``pair_probability``
    that at least one of the two fits. ``words`` says all of it.
    """

    best: Ranked
    lowest: Q
    highest: Q
    pair: tuple
    pair_probability: float
    words: tuple


def what_to_order(*, drive, thicknesses, shape="square", width=None, hardness=None, draws=None):
    """Look for the size to order.

    Parameters
    ----------
    drive : Drive
    thicknesses : Quantity [m], a row
        Those on offer.
    shape : str, optional
    width : Quantity [m], optional
        Of flat belts.
    hardness : float, optional
        Shore A on offer; 50 to 70 is believed if left out.
    draws : Draws, optional
        Thinned by a reading, if there was one.

    Returns
    -------
    Order

    Raises
    ------
    ValueError
        If none on offer can be reckoned.

    Notes
    -----
    Sizes in steps of 0.5 mm of inside diameter, each as uncertain as a list is. Two belts share the drive and the bag's
    rubber, and have their own lengths and stiffness, so the second is worth less than the first alone.
    """
    offers = [Belt(f"{thick:.3g~P}, {size:.4g~P}", shape, thick, size, INSIDE_DIAMETER, width, hardness)
              for thick in thicknesses for size in _sizes(drive, thick)]
    bag = rank_bag(drive=drive, belts=offers, draws=draws_of(drive, offers) if draws is None else draws)
    best = bag.ranked[0]
    if best.refused:
        raise ValueError(f"thicknesses: no belt on offer can be reckoned on this drive. {best.refused}")
    alike = sorted((one for one in bag.ranked if one.belt.thickness == best.belt.thickness and not one.refused),
                   key=lambda one: one.belt.size)
    lowest, highest = _neighbours(alike, best)
    pair, together = _pair(alike)
    return Order(best, lowest, highest, pair, together, _words(best, lowest, highest, pair, together))


def _sizes(drive, thickness):
    """Inside diameters on offer that come anywhere near."""
    height = thickness / 2
    path = drive.seat_path.value + drive.total_wrap.m_as("rad") * height
    ends = [size_as_sold(inside_circumference=wanted_circumference(path_length=path, stretch=stretch, neutral_height=height),
                         measure=INSIDE_DIAMETER, neutral_height=height) / _STEP for stretch in _STRETCHES]
    low, high = (round(end.m_as("")) for end in ends)
    return [step * _STEP for step in range(low, high + 1)]


def _neighbours(alike, best):
    """The smallest and the largest size, without a gap from the best, that are nearly as good."""
    place = alike.index(best)
    low = high = place
    while low > 0 and alike[low - 1].probability >= _NEARLY * best.probability:
        low -= 1
    while high < len(alike) - 1 and alike[high + 1].probability >= _NEARLY * best.probability:
        high += 1
    return alike[low].belt.size, alike[high].belt.size


def _pair(alike):
    """The two sizes of which most likely one fits."""
    out = np.array([~one.good for one in alike], dtype=float)
    neither = out @ out.T / out.shape[1] + np.eye(len(out))
    one, other = np.unravel_index(np.argmin(neither), neither.shape)
    return tuple(sorted((alike[one].belt.size, alike[other].belt.size))), float(1 - neither[one, other])


def _words(best, lowest, highest, pair, together):
    belt = best.belt
    hard = "" if belt.hardness is None else f", {belt.hardness:g} Shore A"
    wide = "" if belt.width is None else f"{belt.width.m_as('mm'):g} mm by "
    first = (f"Order a {belt.shape} belt of {wide}{belt.thickness.m_as('mm'):g} mm{hard}, {_mm(belt.size)} inside diameter: it sits in the good "
             f"window in {round(100 * best.probability)} of 100 draws. From {_mm(lowest)} to {_mm(highest)} are nearly as good.")
    two = (f"If two are to be bought together, take {_mm(pair[0])} and {_mm(pair[1])}: at least one of them fits in "
           f"{round(100 * together)} of 100 draws.")
    if best.probability >= FITS:
        return first, two
    return (f"No size of these sections is likely to fit; what comes nearest, {belt.thickness.m_as('mm'):g} mm thick and {_mm(belt.size)} inside "
            f"diameter, does in {round(100 * best.probability)} of 100 draws.", *best.reasons, "Mend what stands against it before you buy.")


def _mm(length):
    return f"{length.m_as('mm'):g} mm"
