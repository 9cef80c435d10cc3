"""The length of a belt's path as measured: by thread, by calliper, from the old belt, each with its honest error."""

import math

import numpy as np
import uncertainties

from benchreckoner.bench.uncertain import Known, propagate
from benchreckoner.physics.belt_lengths import length_from_thread, path_from_old_belt
from benchreckoner.physics.belt_path import two_pulley_path
from benchreckoner.physics.belt_sizes import free_length, size_as_sold, wanted_circumference

# All three: common practice, no source. The first stretch and the set of an old belt are anybody's guess between these.
THREAD_LIMIT, CALLIPER_LIMIT, OLD_LIMIT = 1.0, 0.3, 0.5  # mm
STRETCHED, KEPT = (0.03, 0.08), (0.2, 0.9)
_SHAPE = math.sqrt(3)  # a limit a is the half-width of an even spread: u = a / sqrt(3)


def by_thread(*, lengths, limit, thread_thickness, neutral_height):
    """Path from a thread laid in the seats, once or several times.

    Parameters
    ----------
    lengths : sequence of Quantity [mm]
        Once round, one for each laying.
    limit : Quantity [mm]
        Within which any one laying is right; what all share does not shrink with their number.
    thread_thickness, neutral_height : Quantity [mm]

    Returns
    -------
    Known
        In mm. Repeats use their own spread beside the limit.
    """
    values = [length.m_as("mm") for length in lengths]
    number = float(np.mean(values)) + uncertainties.ufloat(0, limit.m_as("mm") / _SHAPE)
    if len(values) > 1 and len(set(values)) > 1:
        number += uncertainties.ufloat(0, float(np.std(values, ddof=1)) / math.sqrt(len(values)))
    return propagate(lambda thread_length: length_from_thread(thread_length=thread_length, thread_thickness=thread_thickness,
                                                              neutral_height=neutral_height), "mm",
                     thread_length=Known(number, "mm"))


def by_calliper(*, first_diameter, second_diameter, distance, limit, neutral_height):
    """Path of an open belt from both seats and their distance.

    Parameters
    ----------
    first_diameter, second_diameter, distance : Quantity [mm]
    limit : Quantity [mm]
        Within which each one is right.
    neutral_height : Quantity [mm]

    Returns
    -------
    Known
        In mm.
    """
    given = {name: Known(uncertainties.ufloat(value.m_as("mm"), limit.m_as("mm") / _SHAPE), "mm") for name, value in
             dict(first_diameter=first_diameter, second_diameter=second_diameter, distance=distance).items()}
    return propagate(lambda **sizes: two_pulley_path(**sizes, neutral_height=neutral_height).length, "mm", **given)


def by_old_belt(*, inside, limit, neutral_height):
    """Path from the old belt, whose first stretch and set nobody knows.

    Parameters
    ----------
    inside : Quantity [mm]
        Its inside circumference, free.
    limit : Quantity [mm]
    neutral_height : Quantity [mm]

    Returns
    -------
    Known
        In mm, over all of `STRETCHED` and `KEPT`.
    """
    def middle(ends):
        low, high = ends
        return Known(uncertainties.ufloat((low + high) / 2, (high - low) / 2 / _SHAPE), "")

    old = Known(uncertainties.ufloat(inside.m_as("mm"), limit.m_as("mm") / _SHAPE), "mm")

    def law(inside, stretch, kept):
        return path_from_old_belt(old_length=free_length(inside_circumference=inside, neutral_height=neutral_height),
                                  stretch=stretch.m_as(""), set_share=kept.m_as(""))

    return propagate(law, "mm", inside=old, stretch=middle(STRETCHED), kept=middle(KEPT))


def size_to_order(*, path, stretch, measure, neutral_height):
    """The size of the belt to order, as uncertain as its path.

    Parameters
    ----------
    path : Known
        In mm.
    stretch : float
    measure : str
        A seller's word, as `belt_sizes.MEASURES` has them.
    neutral_height : Quantity [mm]

    Returns
    -------
    Known
        In mm.
    """
    def law(length):
        inside = wanted_circumference(path_length=length, stretch=stretch, neutral_height=neutral_height)
        return size_as_sold(inside_circumference=inside, measure=measure, neutral_height=neutral_height)

    return propagate(law, "mm", length=path)


def best_of(ways):
    """The way that is known best, and which of the others it contradicts.

    Parameters
    ----------
    ways : dict of Known
        By name, in mm.

    Returns
    -------
    name : str
    clashing : tuple of str
        Ways that differ from it by more than both uncertainties explain.
    """
    name = min(ways, key=lambda one: ways[one].number.std_dev)
    return name, tuple(other for other in ways if other != name and (ways[other] - ways[name]).differs())
