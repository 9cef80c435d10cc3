"""Exercises of book 05 on one motor: two that fade, and one that mixes the laws."""

from benchreckoner.lessons.belt_off import _times_the_torque
from benchreckoner.physics.motor_runs import motor_constant_from_run
from benchreckoner.physics.motors import motor_speed, shaft_torque, stall_current
from benchreckoner.physics.turning import ripple_per_turn, ripple_speed
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def load_torque(seed=None, blanks=1):
    """Torque at the shaft, from the current and the current without a load."""
    return exercise(load_torque_problem, key="motor-load-torque", seed=seed, blanks=blanks)


def constant_from_free_run(seed=None, blanks=2):
    """The motor constant, from one run without a load."""
    return exercise(_constant_from_free_run, key="motor-constant-free-run", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (load_torque_problem, _constant_from_free_run, _times_the_torque, _held_current, _ripple)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="motor-mixed", seed=seed, blanks=blanks)


def _round(value, unit):
    return Q(float(f"{value:.3g}"), unit)


def _motor(rng):
    """Winding, constant and no-load current of some small motor."""
    return (Q(float(rng.choice([10, 12, 15, 18, 22, 27])), "ohm"), Q(float(rng.choice([9, 11, 13, 15, 18])), "mV*s/rad"),
            Q(float(rng.choice([14, 17, 20, 23, 26])), "mA"))


def load_torque_problem(rng):
    """The torque that the shaft has for its load.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    _, constant, idle = _motor(rng)
    current = _round(idle.m_as("mA") * rng.uniform(2.5, 3.7), "mA")
    torque = shaft_torque(current=current, no_load_current=idle, motor_constant=constant)
    left = current - idle
    per_ampere = constant * Q(1, "rad")
    return Problem(
        question="How much torque has the shaft for its load?",
        given=(("current", show(current, "A")), ("current without a load", show(idle, "A")), ("motor constant", show(constant, "V*s/rad"))),
        answer=torque, unit="N*m", tolerance=0.02,
        steps=(Step("Take off what the motor needs for itself:", show(left, "A")),
               Step("Times the constant, which is as many N·m an ampere:", show(torque, "N*m"))),
        slips=(Slip((per_ampere * current).to("N*m"), "That is all the torque of the magnet. The motor's own friction takes its share first."),
               Slip((per_ampere * idle).to("N*m"), "That is what the motor keeps for itself. What is left over goes to the shaft."),
               Slip((per_ampere * (current + idle)).to("N*m"), "The motor's own friction is already in the current: take it off.")))


def _constant_from_free_run(rng):
    ohms, constant, idle = _motor(rng)
    volts = Q(float(rng.choice([3, 4.5, 6])), "V")
    turns = Q(round(motor_speed(voltage=volts, current=idle, winding_resistance=ohms, motor_constant=constant).m_as("turn/min"), -1), "turn/min")
    found = motor_constant_from_run(voltage=volts, current=idle, speed=turns, winding_resistance=ohms)
    left = volts - idle * ohms
    return Problem(
        question="A motor runs with nothing on its shaft. How large is its motor constant?",
        given=(("volts at its terminals", show(volts, "V")), ("current", show(idle, "A")), ("winding", show(ohms, "ohm")),
               ("speed", f"{turns.m:.0f} r/min")),
        answer=found, unit="V*s/rad", tolerance=0.015,
        steps=(Step("What the winding takes:", show((idle * ohms).to("V"), "V")),
               Step("What is left for turning:", show(left, "V")),
               Step("The speed in radians a second, 2π a turn:", f"{turns.m_as('rad/s'):.1f} rad/s"),
               Step("Volts that are left, by that speed:", show(found, "V*s/rad"))),
        slips=(Slip((volts / turns).to("V*s/rad"), "The winding takes its share of the volts before the magnet gets any."),
               Slip(Q((left / turns).m_as("V*min/turn"), "V*s/rad"), "That is volts for each turn a minute. Turn the speed into radians a second."),
               Slip(Q((left / turns).m_as("V*s/turn"), "V*s/rad"), "That is volts for each turn a second. A turn has 2π radians."),
               Slip((((volts + idle * ohms) / turns).to("V*s/rad")), "The winding's volts are taken off, not added.")))


def _held_current(rng):
    ohms, constant, _ = _motor(rng)
    volts = Q(float(rng.choice([1.5, 3, 6, 9])), "V")
    held = stall_current(voltage=volts, winding_resistance=ohms)
    return Problem(
        question="What does the motor draw in the first moment, before it turns?",
        given=(("volts at its terminals", show(volts, "V")), ("winding", show(ohms, "ohm")), ("motor constant", show(constant, "V*s/rad"))),
        answer=held, unit="A", tolerance=0.015,
        steps=(Step("At a stand the magnet gives no volts back, so the winding has all of them:", show(volts, "V")),
               Step("By the ohms:", show(held, "A"))),
        slips=(Slip(Q((ohms / volts).m_as("ohm/V"), "A"), "Upside down: volts by ohms."),
               Slip(Q((volts / constant).m_as("rad/s"), "A"), "That is a speed. At a stand the constant has no say.")))


def _ripple(rng):
    segments, turns = int(rng.choice([3, 5, 7, 8])), float(rng.choice([1500, 1800, 2100, 2400, 3000]))
    each = ripple_per_turn(brushes=2, segments=segments)
    hertz = Q(each * turns / 60, "Hz")
    speed = ripple_speed(frequency=hertz, brushes=2, segments=segments)
    per_segment = Q(turns * each / segments, "turn/min")
    return Problem(
        question="The current of a motor with two brushes ripples. How fast does it turn?",
        given=(("ripple", show(hertz, "Hz")), ("segments of the commutator", str(segments))),
        answer=speed, unit="turn/min", tolerance=0.01,
        steps=(Step("Ripples a turn, the least number that both 2 and the segments divide:", str(each)),
               Step("Turns a second:", f"{hertz.m / each:.2f}"),
               Step("Times 60:", f"{speed.m:.0f} r/min")),
        slips=(Slip(per_segment, "Ripples a turn are not the segments: with two brushes an odd number of segments counts double."),
               Slip(Q(hertz.m / each, "turn/min"), "Those are turns a second. Times 60.")))
