"""Exercises of book 04 on tighter belts: creep, grip, what a belt costs in current, and one that mixes them."""

import numpy as np

from benchreckoner.lessons.belt_example import CONSTANT
from benchreckoner.physics.bearing_load import belt_current
from benchreckoner.physics.belt_creep import driven_speed
from benchreckoner.physics.belt_hub import bearing_torque
from benchreckoner.physics.belt_pull import both_pulls, capstan_factor, greatest_pull, needed_friction
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_MOTOR, _WHEEL = 3.0, 30.0  # mm, radii of the seats
_WRAP = Q(121.2, "deg")


def creeps(seed=None, blanks=1):
    """How much a belt creeps under its load."""
    return exercise(_creeps, key="belt-tighter-creep", seed=seed, blanks=blanks)


def costs(seed=None, blanks=2):
    """The current that a belt costs its motor."""
    return exercise(_costs, key="belt-tighter-costs", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_creeps, _costs, _grips, _needs, _runs)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-tighter-mixed", seed=seed, blanks=blanks)


def _load(rng):
    return Q(float(rng.choice([0.8, 1.0, 1.2, 1.5, 2.0])), "mN*m")


def _creeps(rng):
    torque, side, stiff = _load(rng), Q(float(rng.choice([1.0, 1.2, 1.5])), "mm"), Q(round(float(rng.uniform(2.5, 5)), 1), "MPa")
    radius = Q(_WHEEL, "mm") + side / 2
    pull, firm = (torque / radius).to("N"), (stiff * side**2).to("N")
    lost = Q(100 * (pull / firm).m_as(""), "percent")
    return Problem(
        question="A belt drives a wheel, not slipping. How much slower than the pulleys' sizes say does the wheel run, at small stretch?",
        given=(("torque on the wheel", show(torque, "N*m", 2)), ("wheel, radius up to the belt's middle", show(radius, "m")),
               ("side of the square belt", show(side, "m", 2)), ("modulus of its rubber", show(stiff, "Pa", 2))),
        answer=lost, unit="%", tolerance=0.02,
        steps=(Step("What one span pulls more than the other (torque over radius):", show(pull, "N")),
               Step("Modulus times section:", show(firm, "N")), Step("One over the other:", f"{lost.magnitude:.3f} %")),
        slips=(Slip(lost * side.m_as("mm"), "The section is the side times itself."),
               Slip(3 * lost, "The whole modulus E counts here, not a third of it."),
               Slip(Q(100, "percent") - lost, "That is the speed that is left. What is lost was asked for.")))


def _costs(rng):
    load, friction = Q(round(float(rng.uniform(0.25, 1.2)), 2), "N"), float(rng.choice([0.05, 0.1, 0.2]))
    bending, radius = Q(float(rng.integers(15, 90)), "uN*m"), Q(float(rng.choice([0.75, 1.0])), "mm")
    given = dict(bearing=friction, hub_load=load, shaft_radius=radius, motor_constant=CONSTANT)
    amps = belt_current(**given, bending_torque=bending)
    rubbing = bearing_torque(hub_load=load, bearing_friction=friction, shaft_radius=radius)
    alone = belt_current(**given, bending_torque=Q(0, "N*m"))
    return Problem(
        question="A belt draws the motor's shaft into its bearing, and is bent round the pulley at each pass. What current does it cost?",
        given=(("load across the shaft", show(load, "N")), ("friction of the bearing", f"{friction:g}"),
               ("radius of the shaft", show(radius, "m", 2)), ("bending, at the motor", show(bending, "N*m", 2)),
               ("motor constant", f"{CONSTANT.m_as('V*s/rad'):g} N·m/A")),
        answer=amps, unit="A", tolerance=0.02,
        steps=(Step("The bearing's torque (friction times load times radius):", show(rubbing, "N*m")),
               Step("With bending:", show(rubbing + bending, "N*m")), Step("Over the motor constant:", show(amps, "A"))),
        slips=(Slip(alone, "That is the bearing alone. Bending the belt costs as well, however slack it is."),
               Slip(amps - alone, "That is bending alone. The bearing takes its part."),
               Slip((2 * alone + (amps - alone)).to("A"), "The radius of the shaft counts, not what it measures across.")))


def _grips(rng):
    rest, friction, torque = Q(round(float(rng.uniform(0.15, 0.6)), 2), "N"), float(rng.choice([0.2, 0.3, 0.4])), _load(rng)
    most = greatest_pull(rest_tension=rest, friction=friction, wrap=_WRAP)
    asked = (torque / Q(_WHEEL + 0.6, "mm")).to("N")
    margin, product = most / asked, friction * _WRAP.m_as("rad")
    return Problem(
        question="How many times the pull that the wheel asks for can this belt pull before it slips? It runs too slowly to be flung.",
        given=(("pull of the belt at rest", show(rest, "N", 2)), ("friction", f"{friction:g}"), ("it lies on the motor pulley over", "121.2°"),
               ("torque on the wheel", show(torque, "N*m", 2)), ("wheel, radius up to the belt's middle", "30.6 mm")),
        answer=margin, unit="", tolerance=0.02,
        steps=(Step("What the wheel asks (torque over radius):", show(asked, "N")),
               Step("Friction times wrap in radians, halved:", f"{product / 2:.4f}"),
               Step("Most that it can pull (twice the rest pull, times tanh of that):", show(most, "N")),
               Step("Over what is asked:", f"{margin.m_as(''):.3f}")),
        slips=(Slip(margin / 2, "Twice the pull at rest: what one span gains, the other loses."),
               Slip(margin * float(np.tanh(product) / np.tanh(product / 2)), "Half of friction times wrap."),
               Slip(1 / margin, "Upside down: what it can over what is asked."),
               Slip(rest / asked * capstan_factor(friction=friction, wrap=_WRAP), "e to the friction times wrap says how many times <em>the slack "
                    "side</em> the tight side may pull. Between fixed shafts both change.")))


def _needs(rng):
    rest, torque = Q(round(float(rng.uniform(0.12, 0.4)), 2), "N"), _load(rng)
    radius = Q(_WHEEL + 0.6, "mm")
    tight, slack = both_pulls(rest_tension=rest, torque=torque, pulley_radius=radius)
    least = needed_friction(tight_pull=tight, slack_pull=slack, wrap=_WRAP)
    times = (tight / slack).m_as("")
    return Problem(
        question="How much friction does this belt need at least on the motor's pulley? An oily one has 0.1 to 0.2. The belt runs too slowly "
                 "to be flung.",
        given=(("pull of the belt at rest", show(rest, "N", 2)), ("it lies on the motor pulley over", "121.2°"),
               ("torque on the wheel", show(torque, "N*m", 2)), ("wheel, radius up to the belt's middle", "30.6 mm")),
        answer=Q(least, ""), unit="", tolerance=0.02,
        steps=(Step("What each span gains or loses (half of torque over radius):", show((tight - slack) / 2, "N")),
               Step("Tight side over slack side:", f"{times:.4f}"),
               Step("The logarithm of that, over the wrap of 2.115 radians:", f"{least:.4f}")),
        slips=(Slip(Q(np.log10(times) / _WRAP.m_as("rad"), ""), "The natural logarithm: it is e that stands in the law."),
               Slip(Q(np.log(times) / 121.2, ""), "The wrap in radians, 2.115, not in degrees."),
               Slip(Q(np.log(times), ""), "That is friction times wrap. Divide by the wrap."),
               Slip(needed_friction(tight_pull=rest + (tight - slack), slack_pull=rest, wrap=_WRAP) * Q(1, ""),
                    "Between fixed shafts one side gains what the other loses: half each.")))


def _runs(rng):
    speed, lost = Q(float(rng.choice([2000, 2400, 3000])), "turn/min"), float(rng.choice([0.006, 0.01, 0.015]))
    thick = float(rng.choice([1.0, 1.2, 1.5]))
    motor, wheel = _MOTOR + thick / 2, _WHEEL + thick / 2
    turns = driven_speed(speed=speed, driving_radius=Q(motor, "mm"), driven_radius=Q(wheel, "mm"), creep=lost)
    return Problem(
        question="How fast does the wheel turn? Both seats are given across; the belt is square.",
        given=(("motor", show(speed, "turn/min", 4)), ("seats", f"{2 * _MOTOR:.0f} mm and {2 * _WHEEL:.0f} mm"), ("side of the belt", f"{thick:g} mm"),
               ("creep", f"{100 * lost:g} %")),
        answer=turns, unit="turn/min", tolerance=0.003,
        steps=(Step("The radii up to the belt's middle:", f"{motor:g} mm and {wheel:g} mm"),
               Step("The motor's speed times one over the other:", show(turns / (1 - lost), "turn/min", 4)),
               Step("Less creep:", show(turns, "turn/min", 4))),
        slips=(Slip(speed * _MOTOR / _WHEEL * (1 - lost), "The belt's middle lies half a thickness above both seats: on the small pulley that counts."),
               Slip(turns / (1 - lost), "That is without creep."), Slip(turns * (1 + lost) / (1 - lost), "Creep makes the wheel slower."),
               Slip(speed * wheel / motor * (1 - lost), "Upside down: the large wheel turns slowly.")))
