"""Exercises of book 03 on testers: two that fade, and one that mixes the laws."""

import numpy as np

from benchreckoner.physics.testers import KNEE, charge_time_reading, discharge_time_reading
from benchreckoner.physics.testers_steady import bridge_resistance, integrator_reading
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_NO_SERIES = Q(0, "ohm")


def charged_late(seed=None, blanks=1):
    """What a charge-time tester shows of a leaky part."""
    return exercise(charged_late_problem, key="reads-high-charged-late", seed=seed, blanks=blanks)


def leak_from_two(seed=None, blanks=2):
    """The leak, from a bridge and a discharge tester."""
    return exercise(_leak_from_two, key="reads-high-leak-from-two", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (charged_late_problem, _leak_from_two, _no_reading, _posing, _added_up)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="reads-high-mixed", seed=seed, blanks=blanks)


def _part(rng):
    return Q(float(rng.choice([1, 2.2, 4.7, 10, 22, 47])), "uF")


def charged_late_problem(rng):
    """What a tester that times the charge shows of a leaky part.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    farads, source = _part(rng), Q(float(rng.choice([1, 4.7, 10, 22])), "kohm")
    leak = Q(float(f"{source.m_as('kohm') * rng.uniform(2.2, 12):.2g}"), "kohm")
    reads = charge_time_reading(capacitance=farads, leakage_resistance=leak, series_resistance=_NO_SERIES, source_resistance=source)
    share = float((leak / (leak + source)).m_as(""))
    waited = -np.log(1 - KNEE / share)
    return Problem(
        question="A tester charges a leaky part through its resistor and stops its clock at 63.2 % of its supply. It divides the "
                 "seconds by its resistor and calls that farads. What does it show?",
        given=(("true farads", show(farads, "F")), ("the leak across it", show(leak, "ohm")), ("the tester's resistor", show(source, "ohm"))),
        answer=reads, unit="F", tolerance=0.02,
        steps=(Step("Where the part would end, as a share of the supply (leak over leak and resistor):", f"{share:.4f}"),
               Step("The wait, in its own time constants: −ln(1 − 0.6321 / that share):", f"{waited:.4f}"),
               Step("Farads times that share times that wait:", show(reads, "F"))),
        slips=(Slip(farads, "That is what is there. The leak makes the tester wait longer."),
               Slip(farads / share, "The time constant gets <em>shorter</em> by that share, and the way to the threshold longer."),
               Slip(farads * waited, "Its own time constant is shorter: leak and resistor charge it side by side. Multiply by the share."),
               Slip(farads * share, "That is the shorter time constant alone. It must also wait for a threshold that is nearer to its end.")))


def _leak_from_two(rng):
    farads, load = _part(rng), Q(float(rng.choice([1, 4.7, 10, 22])), "kohm")
    true = Q(float(f"{load.m_as('kohm') * rng.uniform(1.5, 8):.2g}"), "kohm")
    exact = discharge_time_reading(capacitance=farads, leakage_resistance=true, series_resistance=_NO_SERIES, load_resistance=load)
    reads = Q(float(f"{exact.m_as('uF'):.3g}"), "uF")
    share = (reads / farads).m_as("")
    leak = (load * share / (1 - share)).to("ohm")
    return Problem(
        question="A bridge shows a part's true farads. A discharge tester empties it through its own resistor and shows less, because "
                 "the leak helps. How many ohms has the leak?",
        given=(("the bridge shows", show(farads, "F")), ("the discharge tester shows", show(reads, "F")),
               ("its resistor", show(load, "ohm"))),
        answer=leak, unit="ohm", tolerance=0.03,
        steps=(Step("The share that is left (shown over true):", f"{share:.4f}"),
               Step("The share that is missing:", f"{1 - share:.4f}"),
               Step("The resistor, times what is left over what is missing:", show(leak, "ohm"))),
        slips=(Slip((load * (1 - share) / share).to("ohm"), "Upside down: a large leak resistance leaves the reading nearly right."),
               Slip((load * share).to("ohm"), "That is the two side by side. Take the tester's resistor out of it."),
               Slip((load / (1 - share)).to("ohm"), "That is the leak and the tester's resistor added up. Take the resistor off.")))


def _no_reading(rng):
    source = Q(float(rng.choice([0.47, 1, 2.2, 4.7, 10, 22, 47])), "kohm")
    stop = float(rng.choice([0.5, 0.75, 0.8, 0.9]))
    edge = (source * stop / (1 - stop)).to("ohm")
    return Problem(
        question="A charge-time tester stops its clock at a given share of its supply. Below how many ohms of leak does it never stop?",
        given=(("the tester's resistor", show(source, "ohm")), ("it stops at", f"{100 * stop:.0f} % of its supply")),
        answer=edge, unit="ohm", tolerance=0.02,
        steps=(Step("The leak must take that share of the supply, the resistor the rest; one over the other:", f"{stop / (1 - stop):.3f}"),
               Step("Times the tester's resistor:", show(edge, "ohm"))),
        slips=(Slip((source * (1 - stop) / stop).to("ohm"), "Upside down: the volts that matter stand across the leak."),
               Slip(source * stop, "Leak and resistor divide the supply: the share is the leak's part of <em>both</em>.")))


def _posing(rng):
    farads, leak = Q(float(rng.choice([2.2, 4.7, 10])), "uF"), Q(float(rng.choice([1, 1.5, 2.2, 3.3, 4.7])), "kohm")
    frequency = Q(120, "Hz")
    ohms = bridge_resistance(capacitance=farads, leakage_resistance=leak, series_resistance=_NO_SERIES, frequency=frequency)
    loss = (1 / (2 * np.pi * frequency * leak * farads)).m_as("")
    parallel = (1 / (2 * np.pi * frequency * farads)).to("ohm")
    return Problem(
        question="A bridge reads a part that leaks and has no series resistance at all. How many ohms in series does it show?",
        given=(("farads", show(farads, "F")), ("the leak across it", show(leak, "ohm")), ("the bridge's frequency", show(frequency, "Hz"))),
        answer=ohms, unit="ohm", tolerance=0.03,
        steps=(Step("The part's reactance, one over 2π f C:", show(parallel, "ohm")),
               Step("That over the leak's ohms: the loss D", f"{loss:.4f}"),
               Step("The leak's ohms, over 1 + 1/D²:", show(ohms, "ohm"))),
        slips=(Slip(leak, "That lies <em>across</em> the part. Turned into a series resistance it is far fewer ohms."),
               Slip(parallel, "That is the reactance. It divides by the leak once more.")))


def _added_up(rng):
    farads, time = _part(rng), Q(float(rng.choice([50, 100, 200])), "ms")
    leak = Q(float(f"{(time / farads).m_as('kohm') * rng.uniform(0.6, 6):.2g}"), "kohm")
    reads = integrator_reading(capacitance=farads, leakage_resistance=leak, series_resistance=_NO_SERIES, time=time)
    return Problem(
        question="A tester puts volts on a part at once and adds up all that flows in a fixed time. It divides by the volts and calls "
                 "that farads. What does it show?",
        given=(("true farads", show(farads, "F")), ("the leak across it", show(leak, "ohm")), ("it adds up for", show(time, "s"))),
        answer=reads, unit="F", tolerance=0.02,
        steps=(Step("What leaks, as if it were farads (the time over the leak's ohms):", show((time / leak).to("F"), "F")),
               Step("The true farads on top:", show(reads, "F"))),
        slips=(Slip(farads, "That is what is stored. What leaks meanwhile is counted too."),
               Slip((time / leak).to("F"), "That is the leak's share alone. The stored charge comes on top.")))
