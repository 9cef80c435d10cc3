"""Exercises of book 03 on leakage on the bench: two that fade, and one that mixes the laws."""

import math

from benchreckoner.physics.leakage import charging_current, decayed_current, held_voltage, leakage_current
from benchreckoner.physics.leakage_limits import leakage_limit
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_METER = Q(10, "Mohm")
_MOST_EVER = Q(1e9, "Mohm")  # as good as no leak


def meters_current(seed=None, blanks=1):
    """Leakage from the volts across a resistor, the meter's own ohms beside it."""
    return exercise(meters_current_problem, key="leakage-meters-current", seed=seed, blanks=blanks)


def at_five_minutes(seed=None, blanks=2):
    """Leakage after five minutes, from what was read after one and two."""
    return exercise(_at_five_minutes, key="leakage-at-five-minutes", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (meters_current_problem, _at_five_minutes, _still_charging, _kept, _multiple)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="leakage-mixed", seed=seed, blanks=blanks)


def _micro(current):
    """Currents that are added up stand in one unit."""
    return f"{current.m_as('uA'):#.3g} µA"


def meters_current_problem(rng):
    """What leaks, from a meter that takes its own share.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    resistor, shown = Q(float(rng.choice([0.47, 1, 2.2])), "Mohm"), Q(float(rng.integers(20, 150)) / 100, "V")
    through, beside = (shown / resistor).to("uA"), (shown / _METER).to("uA")
    current = leakage_current(shown=shown, series_resistance=resistor, meter_resistance=_METER)
    return Problem(
        question="A capacitor lies on voltage behind a resistor, a meter lies across the resistor. How much leaks through the "
                 "capacitor?",
        given=(("the meter shows", show(shown, "V")), ("the resistor", show(resistor, "ohm")),
               ("the meter's input", show(_METER, "ohm"))),
        answer=current, unit="A", tolerance=0.01,
        steps=(Step("Through the resistor:", _micro(through)), Step("Through the meter beside it:", _micro(beside)),
               Step("The capacitor passes both:", _micro(current))),
        slips=(Slip(through, "That is the resistor's share. The meter lies beside it and takes its own."),
               Slip(through - beside, "The meter's share comes on top: the capacitor has passed both."),
               Slip((shown / (resistor + _METER)).to("A"), "Resistor and meter lie side by side, not one behind the other.")))


def _at_five_minutes(rng):
    slope = float(rng.integers(5, 10)) / 10
    first = Q(float(rng.integers(20, 90)), "uA")
    second = Q(round(first.m_as("uA") * 2**-slope, 1), "uA")
    exponent = math.log((first / second).m_as("")) / math.log(2)
    last = decayed_current(current=first, read_after=Q(1, "min"), exponent=exponent, time=Q(5, "min"))
    straight = first - (first - second) * 4
    return Problem(
        question="The charging current has gone. You read the leakage after one minute and after two. What does the power law give "
                 "after five, where the rule's limit holds?",
        given=(("after 1 min", show(first, "A")), ("after 2 min", show(second, "A"))),
        answer=last, unit="A", tolerance=0.03,
        steps=(Step("From one minute to two it falls to this share:", f"{(second / first).m_as(''):.3f}"),
               Step("So the power is its logarithm over that of a half:", f"{exponent:.2f}"),
               Step("One minute's reading over 5 to that power:", show(last, "A"))),
        slips=(Slip(second, "That is the reading after two minutes. It goes on falling."),
               Slip(first / 5, "That takes the power as 1. Let the two readings say what it is."),
               Slip(first * (second / first).m_as("") ** 4, "That takes the same share off each minute. A power law takes the "
                    "same share off each <em>doubling</em> of the time."),
               *((Slip(straight, "That is a straight line. Leakage falls fast at first, then slowly."),) if straight.m > 0 else ())))


def _still_charging(rng):
    supply, resistor = Q(float(rng.choice([5, 6, 9])), "V"), Q(float(rng.choice([22, 47, 100])), "kohm")
    farads, wait = Q(float(rng.choice([470, 1000])), "uF"), Q(float(rng.choice([30, 60])), "s")
    left = charging_current(supply=supply, series_resistance=resistor, capacitance=farads, time=wait)
    ages = (wait / (resistor * farads)).m_as("")
    return Problem(
        question="A perfect capacitor, that leaks nothing at all, is put on voltage through a resistor. What does the meter in line "
                 "show all the same?",
        given=(("supply", show(supply, "V")), ("resistor", show(resistor, "ohm")), ("capacitance", show(farads, "F")),
               ("you read after", show(wait, "s"))),
        answer=left, unit="A", tolerance=0.03,
        steps=(Step("At the first moment, volts by ohms:", show(supply / resistor, "A")),
               Step("The wait, counted in resistor times capacitance:", f"{ages:.2f}"),
               Step("The first current times e to minus that:", show(left, "A"))),
        slips=(Slip((supply / resistor).to("A"), "That is the first moment. It has been charging since."),
               Slip((supply / resistor * -math.expm1(-ages)).to("A"), "That is what has <em>gone</em>. What is left still flows."),
               Slip((supply / resistor * math.exp(-1 / ages)).to("A"), "Upside down: the wait stands above resistor times capacitance.")))


def _kept(rng):
    start, farads = Q(float(rng.choice([5, 6, 9, 12])), "V"), Q(float(rng.choice([4.7, 10])), "uF")
    wait = Q(float(rng.choice([30, 60, 90])), "s")
    left = held_voltage(voltage=start, capacitance=farads, leakage_resistance=_MOST_EVER, meter_resistance=_METER, time=wait)
    ages = (wait / (farads * _METER)).m_as("")
    return Problem(
        question="A perfect capacitor is charged, the supply comes off, and the meter stays on it. What does the meter show later?",
        given=(("charged to", show(start, "V")), ("capacitance", show(farads, "F")), ("the meter's input", show(_METER, "ohm")),
               ("later", show(wait, "s"))),
        answer=left, unit="V", tolerance=0.02,
        steps=(Step("The meter's ohms times the capacitance:", show((farads * _METER).to("s"), "s")),
               Step("The wait, counted in that:", f"{ages:.3f}"), Step("The volts times e to minus that:", show(left, "V"))),
        slips=(Slip(start, "The part is perfect, but the meter is not: its ohms empty it."),
               Slip(start - left, "That is what has gone. What is left?"),
               Slip(start * (1 - ages), "The longer it falls, the slower: take e to minus the wait, not a straight line.")
               if ages < 1 else Slip(start / 2, "Half would be after 0.69 times the ohms times the capacitance.")))


def _multiple(rng):
    farads, rated = Q(float(rng.choice([10, 22, 47])), "uF"), Q(float(rng.choice([10, 16, 25])), "V")
    limit = leakage_limit(rule="a hundredth and three", capacitance=farads, voltage=rated)
    read = Q(float(round(limit.m_as("uA") * rng.uniform(1.5, 30))), "uA")
    times = (read / limit).m_as("")
    return Problem(
        question="How many times the limit “a hundredth and three” (published: 0.01 times µF times V, plus 3, in µA) is what you "
                 "read after five minutes at rated voltage? (A plain number.)",
        given=(("capacitance", show(farads, "F")), ("rated voltage", show(rated, "V")), ("you read", show(read, "A"))),
        answer=Q(times, ""), unit="", tolerance=0.03,
        steps=(Step("The limit:", show(limit, "A")), Step("What you read, divided by it:", f"{times:.3g}")),
        slips=(Slip(Q(1 / times, ""), "Upside down: the reading stands on top."),
               Slip(Q(read.m_as("uA") / (limit.m_as("uA") - 3), ""), "The 3 µA are missing: the rule adds them.")))
