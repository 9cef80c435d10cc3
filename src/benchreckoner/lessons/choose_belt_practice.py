"""Exercises of book 04 on choosing a belt: two that fade, and one that mixes them."""

import numpy as np

from benchreckoner.physics.belt_pull import greatest_pull
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def speed_by_thickness(seed=None, blanks=1):
    """How far the wheel's speed is off with a belt of another thickness."""
    return exercise(_speed_by_thickness, key="belt-speed-by-thickness", seed=seed, blanks=blanks)


def aged_margin(seed=None, blanks=2):
    """How many times the load's pull an aged belt still grips."""
    return exercise(_aged_margin, key="belt-aged-margin", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several: the reader must tell first what is asked for."""
    kinds = (_speed_by_thickness, _aged_margin, _share_of_current)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-choice-mixed", seed=seed, blanks=blanks)


def _speed_by_thickness(rng):
    motor, wheel = (Q(float(rng.choice(sizes)), "mm") for sizes in ((5, 6, 7, 8), (40, 50, 60, 70)))
    right, other = (Q(float(side), "mm") for side in rng.choice([(1.2, 1.5), (1.0, 1.2), (1.0, 1.5), (1.2, 1.6)]))
    ratios = [((motor + side) / (wheel + side)).m_as("") for side in (right, other)]
    off = ratios[1] / ratios[0] - 1
    alone = ((motor + other) / (motor + right)).m_as("") - 1
    both = ((motor + 2 * other) / (wheel + 2 * other) * (wheel + 2 * right) / (motor + 2 * right)).m_as("") - 1
    return Problem(
        question="A drive was made for one square belt and gets another. By how much does its wheel run too fast? Creep left out.",
        given=(("seat of the motor's pulley, across", show(motor, "m", 2)), ("seat of the wheel, across", show(wheel, "m", 2)),
               ("belt it was made for", show(right, "m", 2)), ("belt it gets", show(other, "m", 2))),
        answer=Q(100 * off, "%"), unit="%", tolerance=0.02,
        steps=(Step("Turns of the wheel for one of the motor, by the diameters up to the right belt's middle (seat and one thickness):",
                    f"{ratios[0]:.5f}"),
               Step("The same with the other belt:", f"{ratios[1]:.5f}"),
               Step("The second over the first, less one:", f"{100 * off:.3g} %")),
        slips=(Slip(Q(100 * alone, "%"), "That is the motor's pulley alone. The wheel's way grows too, by much less."),
               Slip(Q(100 * both, "%"), "The radius grows by <em>half</em> a thickness, so the diameter by one, not by two."),
               Slip(Q(0.0, "%"), "The seats stay what they are. The belt's <em>middle</em> is what runs, half a thickness above them.")))


def _aged_margin(rng):
    rest, wrap = Q(round(float(rng.uniform(0.15, 0.5)), 2), "N"), Q(float(rng.choice([115, 120, 125, 130])), "deg")
    kept, friction = (round(float(rng.uniform(*ends)), 2) for ends in ((0.55, 0.75), (0.25, 0.4)))
    pull = Q(round(float(rng.uniform(25, 60)), 0), "mN")
    aged = kept * rest
    most = greatest_pull(rest_tension=aged, friction=friction, wrap=wrap)
    margin = (most / pull).to("")
    fresh, turned = greatest_pull(rest_tension=rest, friction=friction, wrap=wrap), wrap.m_as("rad")
    return Problem(
        question="How many times the load's pull does this belt still grip in five years? The window asks for 2. What flings it outwards is left out.",
        given=(("pull of the new belt at rest", show(rest, "N", 2)), ("share of it left in five years", f"{kept:g}"),
               ("friction, aged", f"{friction:g}"), ("wrap on the motor's pulley", f"{wrap.m_as('deg'):.0f}° = {turned:.3f} rad"),
               ("pull that the load asks", show(pull, "N", 2))),
        answer=margin, unit="", tolerance=0.02,
        steps=(Step("What is left of its pull:", show(aged, "N", 3)),
               Step("Twice that, times the hyperbolic tangent of half of friction times wrap:", show(most, "N", 3)),
               Step("Over the pull that the load asks:", f"{margin.m_as(''):.3g}")),
        slips=(Slip((fresh / pull).to(""), "That is the new belt. Take what is left of its pull in five years."),
               Slip((most / pull / 2).to(""), "One side gains what the other loses: the difference is <em>twice</em> the pull times the tangent."),
               Slip((2 * aged * np.tanh(friction * turned) / pull).to(""), "Half of friction times wrap goes into the tangent."),
               Slip((aged * (np.exp(friction * turned) - 1) / pull).to(""),
                    "That takes the slack side as if it kept its full pull. Between fixed shafts it gives up as much as the tight side gains.")))


def _share_of_current(rng):
    hub, bearing = Q(round(float(rng.uniform(0.3, 0.9)), 2), "N"), float(rng.choice([0.03, 0.05, 0.08]))
    bending, constant = Q(round(float(rng.uniform(15, 70)), 0), "uN*m"), Q(float(rng.choice([9, 11, 13, 15])), "mN*m/A")
    without, radius = Q(round(float(rng.uniform(25, 60)), 0), "mA"), Q(1.0, "mm")
    rubbing = (bearing * hub * radius).to("uN*m")
    added = ((rubbing + bending) / constant).to("mA")
    share = (100 * added / without).m_as("")
    return Problem(
        question="By how many per cent does this belt raise the motor's current? The window allows 20.",
        given=(("pull across the motor's shaft", show(hub, "N", 2)), ("friction of its bearing", f"{bearing:g}"),
               ("radius of the shaft", show(radius, "m", 2)), ("torque that bending the belt takes", f"{bending.m_as('uN*m'):.0f} µN·m"),
               ("torque for each ampere", f"{constant.m_as('mN*m/A'):g} mN·m/A"), ("current without the belt's own cost", show(without, "A", 2))),
        answer=Q(share, "%"), unit="%", tolerance=0.02,
        steps=(Step("Torque that the bearing takes:", f"{rubbing.m_as('uN*m'):.3g} µN·m"),
               Step("Both torques as current:", show(added, "A", 3)),
               Step("Over the current without the belt:", f"{share:.3g} %")),
        slips=(Slip(Q(100 * (rubbing / constant / without).m_as(""), "%"), "The bearing is not all: bending the belt costs too, and mostly more."),
               Slip(Q(100 * (bending / constant / without).m_as(""), "%"), "Bending is not all: the belt also presses the shaft into its bearing."),
               Slip(Q(100 * (added / (without + added)).m_as(""), "%"), "By how much it is <em>raised</em> was asked: over the current without the belt.")))
