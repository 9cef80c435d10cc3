"""Exercises of book 04 on the pull of a fitted belt: by tone, by pressing, and one that mixes them with a belt's mass."""

import numpy as np

from benchreckoner.physics.belt_pull import belt_mass
from benchreckoner.physics.belt_tests import pluck_tension, press_tension, simple_press_tension
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def plucked(seed=None, blanks=1):
    """The pull from a tone."""
    return exercise(_plucked, key="belt-pluck", seed=seed, blanks=blanks)


def pressed(seed=None, blanks=2):
    """The pull from a press test, with the stretch of the test taken off."""
    return exercise(_pressed, key="belt-press", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_plucked, _pressed, _a_metre)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-pluck-mixed", seed=seed, blanks=blanks)


def _span(rng):
    return Q(float(rng.integers(35, 121)), "mm")


def _plucked(rng):
    span, mass, tone = _span(rng), Q(round(float(rng.uniform(1.1, 3)), 2), "g/m"), Q(float(rng.integers(60, 260)), "Hz")
    pull = pluck_tension(frequency=tone, mass_per_length=mass, span=span)
    wave = (2 * span * tone).to("m/s")
    return Problem(
        question="The free span of a belt at rest is plucked in its middle. How hard does the belt pull?",
        given=(("lowest tone", show(tone, "Hz")), ("free span", show(span, "m")), ("mass of each metre", f"{mass.magnitude:.2f} g/m")),
        answer=pull, unit="N", tolerance=0.02,
        steps=(Step("How fast waves run along it (twice the span times the tone):", f"{wave.magnitude:.2f} m/s"),
               Step("That squared, times the mass of each metre in kg/m:", show(pull, "N"))),
        slips=(Slip(pull / 4, "The lowest tone has half a wave on the span: twice the span is a wave."),
               Slip(4 * pull, "That is an octave too high, or twice the span taken twice."),
               Slip(pull / wave.magnitude, "The speed of the waves goes in squared.")))


def _pressed(rng):
    span, stretch, share = _span(rng), float(rng.choice([0.04, 0.05, 0.06, 0.08])), float(rng.choice([0.05, 0.06, 0.08, 0.1]))
    deflection = Q(round(share * span.m_as("mm"), 1), "mm")
    force = Q(round(float(4 * share * rng.uniform(250, 700))), "mN")
    test = dict(force=force, deflection=deflection, span=span)
    pull, simple = press_tension(**test, stretch_ratio=1 + stretch), simple_press_tension(**test)
    longer = float(np.hypot(1, (2 * deflection / span).m_as("")))
    during = (1 + stretch) * longer
    brackets = [ratio - ratio**-2 for ratio in (1 + stretch, during)]
    return Problem(
        question="The middle of a belt's free span is pressed sideways. Both pulleys grip it. How hard did the belt pull before?",
        given=(("force", show(force, "N")), ("deflection", show(deflection, "m")), ("free span", show(span, "m")),
               ("stretch before", f"{100 * stretch:.0f} %")),
        answer=pull, unit="N", tolerance=0.02,
        steps=(Step("How much longer the span gets (root of one plus the square of twice the deflection by the span):", f"{longer:.5f}"),
               Step("The usual formula, times that: the pull while pressed:", show(simple * longer, "N")),
               Step("λ − 1/λ² before and while pressed:", f"{brackets[0]:.4f} and {brackets[1]:.4f}"),
               Step("The pull while pressed, times one over the other:", show(pull, "N"))),
        slips=(Slip(simple, "That is the usual formula. Pressing stretches the belt: take that off."),
               Slip(simple * longer, "That is the pull <em>while</em> it is pressed."),
               Slip(simple * longer * brackets[1] / brackets[0], "Upside down: unpressed, the belt pulls less."),
               Slip(2 * pull, "Both halves of the span carry the force: four times the deflection stands below.")))


def _a_metre(rng):
    side, ratio = Q(float(rng.choice([1.0, 1.2, 1.5, 1.6])), "mm"), float(rng.choice([1.04, 1.05, 1.08, 1.1]))
    density = Q(float(rng.choice([1100, 1200, 1300])), "kg/m**3")
    mass = belt_mass(density=density, area=side**2, stretch_ratio=ratio).to("kg/m")
    length = Q(float(rng.choice([0.2, 0.23, 0.3])), "m")
    whole = (mass * length).to("g")
    return Problem(
        question="What does the whole fitted belt weigh, as a mass?",
        given=(("density of its rubber", f"{density.magnitude:.0f} kg/m³"), ("side of the square belt, free", show(side, "m", 2)),
               ("stretch", f"{100 * (ratio - 1):.0f} %"), ("path once round", show(length, "m"))),
        answer=whole, unit="g", tolerance=0.01,
        steps=(Step("The free length (path over one plus the stretch):", show(length / ratio, "m", 4)),
               Step("Times side times side: the rubber there is:", f"{(length / ratio * side**2).m_as('mm**3'):.1f} mm³"),
               Step("Times the density:", show(whole, "g", 4))),
        slips=(Slip(whole * ratio, "Stretched, each metre holds less rubber: the free length counts."),
               Slip(whole * ratio**2, "The free belt is shorter than its path, not longer.")))
