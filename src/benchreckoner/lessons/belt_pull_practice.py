"""Exercises of book 04 on pull: tension, load across the shaft, weighing rubber, what set and years leave, and one that mixes them."""

import numpy as np

from benchreckoner.physics.belt_hub import hub_load
from benchreckoner.physics.rubber import linear_tension, neo_hookean_tension
from benchreckoner.physics.rubber_ageing import kept_share, length_after_set
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_GRAVITY = Q(9.80665, "m/s**2")


def tension(seed=None, blanks=1):
    """The pull of a belt from its section, its modulus and its stretch."""
    return exercise(tension_problem, key="belt-pull-tension", seed=seed, blanks=blanks)


def weighed(seed=None, blanks=2):
    """The modulus from one mass on a loop."""
    return exercise(_weighed, key="belt-pull-weighed", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (tension_problem, _weighed, _across, _years, _grown)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-pull-mixed", seed=seed, blanks=blanks)


def _square(rng):
    return Q(float(rng.choice([1.0, 1.2, 1.5, 1.6])), "mm")


def tension_problem(rng):
    """The pull of a fitted belt, fresh and at rest.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    side, stiff, stretch = _square(rng), Q(round(float(rng.uniform(2, 5)), 1), "MPa"), float(rng.choice([0.04, 0.05, 0.06, 0.08, 0.1]))
    given = dict(area=side**2, modulus=stiff, stretch_ratio=1 + stretch)
    pull = neo_hookean_tension(**given)
    bracket = 1 + stretch - (1 + stretch) ** -2
    return Problem(
        question="How hard does this fitted belt pull, fresh and at rest?",
        given=(("side of the square belt", show(side, "m", 2)), ("modulus of its rubber", show(stiff, "Pa", 2)),
               ("stretch", f"{100 * stretch:.0f} %")),
        answer=pull, unit="N", tolerance=0.015,
        steps=(Step("The section (side times side):", f"{(side**2).m_as('mm**2'):.2f} mm²"),
               Step("λ − 1/λ², with λ one plus the stretch:", f"{bracket:.4f}"),
               Step("Section times a third of the modulus times that:", show(pull, "N"))),
        slips=(Slip(linear_tension(**given), "That is the law of a steel spring. Rubber gets thinner as it stretches: take λ − 1/λ² and a "
                    "<em>third</em> of the modulus."),
               Slip(3 * pull, "A third of the modulus: it is the shear modulus that stands in this law."),
               Slip(pull / side.m_as("mm"), "The section is the side times itself.")))


def _weighed(rng):
    side, mass, free = _square(rng), Q(float(rng.choice([40, 50, 60, 80, 100])), "g"), Q(float(rng.choice([90, 100, 110, 120])), "mm")
    third = (Q(float(rng.uniform(2.2, 5)), "MPa") * side**2 / 3).to("N")
    force = (mass * _GRAVITY / 2).to("N")
    grid = np.linspace(1, 1.5, 20001)
    length = Q(round(float(free.m_as("mm") * np.interp((force / third).m_as(""), grid - grid**-2, grid)), 1), "mm")
    ratio = (length / free).m_as("")
    bracket = ratio - ratio**-2
    stiff = (3 * force / (side**2 * bracket)).to("MPa")
    return Problem(
        question="A belt hangs over a smooth pin as a loop, a mass hooked into its lower end. From pin to hook it measures one length "
                 "with the mass and another without. What is the modulus E of its rubber?",
        given=(("side of the square belt", show(side, "m", 2)), ("the mass", show(mass, "g", 3)), ("pin to hook without it", show(free, "m", 4)),
               ("pin to hook with it", show(length, "m", 4))),
        answer=stiff, unit="Pa", tolerance=0.02,
        steps=(Step("The pull in each of the two legs (mass times 9.81 m/s², halved):", show(force, "N")),
               Step("λ − 1/λ², with λ one length over the other:", f"{bracket:.4f}"),
               Step("Three times the pull, over section and that:", show(stiff, "Pa", 4))),
        slips=(Slip(2 * stiff, "A loop has two legs: each carries half."), Slip(stiff / 3, "That is the shear modulus G. E is three times it."),
               Slip((force / (side**2 * (ratio - 1))).to("MPa"), "That is the law of a steel spring: close at small stretch, and the further off the "
                    "more it stretches."),
               Slip(stiff / 9.80665, "Grams are no newtons: times 9.81 m/s².")))


def _across(rng):
    pull, wrap = Q(round(float(rng.uniform(0.1, 0.9)), 2), "N"), Q(float(rng.choice([100, 110, 120, 130, 140, 150])), "deg")
    load = hub_load(tight_pull=pull, slack_pull=pull, wrap=wrap)
    half = wrap.m_as("rad") / 2
    return Problem(
        question="A belt at rest lies round a motor pulley. How hard does it draw the shaft sideways?",
        given=(("pull of the belt", show(pull, "N", 2)), ("it lies on the pulley over", f"{wrap.m_as('deg'):.0f}°")),
        answer=load, unit="N", tolerance=0.015,
        steps=(Step("The sine of half that angle:", f"{np.sin(half):.4f}"), Step("Two spans pull, so twice the pull times that:", show(load, "N"))),
        slips=(Slip(2 * pull, "That holds for half a turn of wrap. The two spans pull at an angle to each other."),
               Slip(load / 2, "Two spans pull at the pulley."), Slip(2 * pull * np.cos(half), "The sine: at half a turn both spans pull one way.")))


def _years(rng):
    fresh, loss, years = Q(round(float(rng.uniform(0.15, 0.8)), 2), "N"), float(rng.choice([0.03, 0.05, 0.08])), int(rng.choice([1, 5, 10]))
    share = kept_share(time=Q(years, "year"), loss_per_decade=loss)
    decades = (1 - share) / loss
    return Problem(
        question="A belt loses a share of its first pull with each tenfold of time, counted from one minute on. How hard does it still pull?",
        given=(("pull after one minute", show(fresh, "N", 2)), ("lost with each tenfold of time", f"{100 * loss:.0f} %"),
               ("fitted for", f"{years} years" if years > 1 else "1 year")),
        answer=fresh * share, unit="N", tolerance=0.015,
        steps=(Step("Minutes of that time, as a power of ten (the logarithm):", f"{decades:.2f}"),
               Step("The share that is left (one less that many losses):", f"{share:.3f}"), Step("Of the first pull:", show(fresh * share, "N"))),
        slips=(Slip(fresh * (1 - loss) ** decades, "Each loss is a share of the <em>first</em> pull: add the losses up, do not multiply them."),
               Slip(fresh * (1 - share), "That is what is lost. What is left was asked for."),
               Slip(fresh * (1 - loss * np.log10(years * 12)), "Counted from one minute on, not from a month.")))


def _grown(rng):
    free, stretch, kept = Q(float(rng.choice([160, 200, 220, 260])), "mm"), float(rng.choice([0.05, 0.06, 0.08])), float(rng.choice([0.2, 0.4, 0.6]))
    path = free * (1 + stretch)
    now = length_after_set(free_length=free, stretch=stretch, set_share=kept)
    left = Q(100 * ((path / now).m_as("") - 1), "percent")
    return Problem(
        question="A belt sat on its path for years and comes off. It keeps a share of its stretch for good: its set. It goes back on the same "
                 "path. By how many per cent is it stretched now?",
        given=(("free length when new", show(free, "m", 3)), ("stretch when it was new", f"{100 * stretch:.0f} %"), ("share kept", f"{kept:g}")),
        answer=left, unit="%", tolerance=Q(0.05, "percent"),
        steps=(Step("The path (free length times one plus the stretch):", show(path, "m", 4)),
               Step("The free length now (longer by share times stretch):", show(now, "m", 4)),
               Step("Path over that, less one:", f"{left.magnitude:.2f} %")),
        slips=(Slip(Q(100 * stretch * kept, "percent"), "That is what it has grown by. What is left of the stretch was asked for."),
               Slip(Q(100 * stretch, "percent"), "That was the new belt. It has grown since.")))
