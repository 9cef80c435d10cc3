"""Exercises of book 04 on sizes: two that fade, and one that mixes them."""

import numpy as np

from benchreckoner.physics.belt_lengths import folded_circumference, length_from_thread
from benchreckoner.physics.belt_sizes import INSIDE_DIAMETER, size_as_sold, wanted_circumference
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def from_thread(seed=None, blanks=1):
    """The path of a belt from a thread laid in the seats."""
    return exercise(from_thread_problem, key="belt-path-from-thread", seed=seed, blanks=blanks)


def order(seed=None, blanks=2):
    """The inside diameter to order, from path, stretch and section."""
    return exercise(_order, key="belt-path-order", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (from_thread_problem, _order, _folded)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-path-mixed", seed=seed, blanks=blanks)


def _mm(rng, low, high, digits):
    return Q(round(float(rng.uniform(low, high)), digits), "mm")


def _square(rng):
    return Q(float(rng.choice([1.0, 1.2, 1.5, 1.6])), "mm")


def from_thread_problem(rng):
    """The path of a belt's middle from a thread once round.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    thread, cord, side = _mm(rng, 140, 480, 1), Q(float(rng.choice([0.2, 0.3, 0.4])), "mm"), _square(rng)
    path = length_from_thread(thread_length=thread, thread_thickness=cord, neutral_height=side / 2)
    lift = side / 2 - cord / 2
    return Problem(
        question="A taut thread lies once round in the seats of an open belt drive. How long is the path along the middle of a square "
                 "belt? Both middles lie half a thickness above the seats.",
        given=(("the thread, once round", show(thread, "mm", 4)), ("thickness of the thread", show(cord, "mm", 2)),
               ("side of the belt", show(side, "mm", 2))),
        answer=path, unit="m", tolerance=0.001,
        steps=(Step("How much higher the belt's middle lies than the thread's:", show(lift, "mm", 2)),
               Step("That once round, times 2π:", show(2 * np.pi * lift, "mm")),
               Step("The thread and that together:", show(path, "mm", 5))),
        slips=(Slip(thread, "That is the thread's own way. The belt's middle lies higher, and goes a longer way round."),
               Slip(thread - 2 * np.pi * lift, "Away from the seats the way gets longer, not shorter."),
               Slip(thread + np.pi * side, "The thread has a thickness too: its middle already lies half of it above the seats.")))


def _order(rng):
    path, side, stretch = _mm(rng, 150, 480, 1), _square(rng), float(rng.choice([0.04, 0.05, 0.06]))
    inside = wanted_circumference(path_length=path, stretch=stretch, neutral_height=side / 2)
    diameter = size_as_sold(inside_circumference=inside, measure=INSIDE_DIAMETER, neutral_height=side / 2)
    free = path / (1 + stretch)
    return Problem(
        question="Which inside diameter must a square belt have, to be stretched so much on this path?",
        given=(("the path, along the belt's middle", show(path, "m", 4)), ("stretch", f"{100 * stretch:.0f} %"),
               ("side of the belt", show(side, "m", 2))),
        answer=diameter, unit="m", tolerance=0.003,
        steps=(Step("The free belt along its middle (path over 1 + stretch):", show(free, "m", 4)),
               Step("Its inside circumference (π times the side less):", show(inside, "m", 4)),
               Step("Its inside diameter (over π):", show(diameter, "m", 4))),
        slips=(Slip(inside, "That is the way <em>round</em> the inside. A diameter is less by a factor of π."),
               Slip(free / np.pi, "That is taken along the belt's middle. The inside lies half a thickness further in on both sides."),
               Slip((path * (1 + stretch) - np.pi * side) / np.pi, "Stretched the wrong way: a free belt is <em>shorter</em> than its path."),
               Slip((path - np.pi * side) / np.pi, "That belt fits its path without any stretch, and pulls at nothing.")))


def _folded(rng):
    folded, side = _mm(rng, 60, 160, 1), _square(rng)
    inside = folded_circumference(folded_length=folded, thickness=side)
    return Problem(
        question="A square belt is pressed flat, its folds tight, and measured from tip to tip outside. What is its inside circumference?",
        given=(("tip to tip", show(folded, "m", 4)), ("side of the belt", show(side, "m", 2))),
        answer=inside, unit="m", tolerance=0.003,
        steps=(Step("One leg inside (a thickness less at both ends):", show(folded - 2 * side, "m", 4)),
               Step("Both legs:", show(inside, "m", 4))),
        slips=(Slip(2 * folded, "The tips are rubber: each leg is a thickness shorter inside, at <em>both</em> ends."),
               Slip(2 * folded - 2 * side, "Each leg loses a thickness at both ends: four thicknesses in all."),
               Slip(inside / np.pi, "That is the inside diameter. The way round was asked for.")))
