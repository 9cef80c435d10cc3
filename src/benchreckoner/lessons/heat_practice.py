"""Exercises of book 05 on heat: two that fade, and one that mixes the laws."""

from benchreckoner.lessons.motor_example import COMPENSATION, DROP, SET_VOLTAGE, SOURCE
from benchreckoner.physics.dissipation import (
    derated_power, junction_temperature, thermal_resistance, transistor_power, worst_governed_load,
)
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def heat_in_line(seed=None, blanks=1):
    """Heat of a transistor in line, from the volts on both sides and the current."""
    return exercise(_heat_in_line, key="heat-in-line", seed=seed, blanks=blanks)


def smallest_way_out(seed=None, blanks=2):
    """The thermal resistance that a plate may have at most."""
    return exercise(_plate_at_most, key="heat-plate-at-most", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_heat_in_line, _plate_at_most, _worst_load, _derated, _from_case)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="heat-mixed", seed=seed, blanks=blanks)


def _heat_in_line(rng):
    supply, motor = Q(float(rng.choice([6, 9, 12])), "V"), Q(float(rng.choice([2.4, 3.0, 4.5])), "V")
    current = Q(float(rng.choice([65, 85, 110, 140])), "mA")
    drop = supply - motor
    watts = transistor_power(voltage_drop=drop, current=current)
    return Problem(
        question="A transistor stands in line between supply and motor. How much heat does it make?",
        given=(("volts before it", show(supply, "V")), ("volts on the motor", show(motor, "V")), ("current", show(current, "A"))),
        answer=watts, unit="W", tolerance=0.02,
        steps=(Step("Volts across the transistor:", show(drop, "V")), Step("Times the current:", show(watts, "W"))),
        slips=(Slip((supply * current).to("W"), "That is all that the supply gives. The motor has its share."),
               Slip((motor * current).to("W"), "That goes into the motor. Take the volts that <em>stay at the transistor</em>.")))


def _plate_at_most(rng):
    watts, air = Q(float(rng.choice([0.8, 1.5, 2.0, 3.0])), "W"), Q(float(rng.choice([25, 35, 45])), "degC")
    case, joint, limit = Q(float(rng.choice([3, 5, 8])), "K/W"), Q(1.0, "K/W"), Q(125, "degC")
    whole = thermal_resistance(hot=limit, cold=air, power=watts)
    plate = (whole - case - joint).to("K/W")
    span = Q(limit.m_as("degC") - air.m_as("degC"), "K")
    return Problem(
        question="A junction may reach 125 °C, margin taken off already. How much thermal resistance may the plate have at most?",
        given=(("heat", show(watts, "W")), ("air round it", show(air, "degC")), ("junction to case", show(case, "K/W")),
               ("case to plate", show(joint, "K/W"))),
        answer=plate, unit="K/W", tolerance=0.02,
        steps=(Step("Kelvins there are to spend:", show(span, "K")),
               Step("Over the heat: what the whole chain may have", show(whole, "K/W")),
               Step("Less the two links that are there already:", show(plate, "K/W"))),
        slips=(Slip(whole, "That is the whole chain. Two of its links are there already."),
               Slip(whole + case + joint, "The links come <em>off</em> what the chain may have."),
               Slip(Q(float((watts / span).m_as("W/K")), "K/W"), "Upside down: kelvins for each watt."),
               Slip(Q(limit.m_as("degC") / watts.m_as("W"), "K/W") - case - joint, "The air is warm already: only what lies above it may "
                                                                                   "be spent.")))


def _worst_load(rng):
    supply = Q(float(rng.choice([7, 8, 9, 10, 12])), "V")
    stage = dict(source_resistance=SOURCE, set_voltage=SET_VOLTAGE, compensation=COMPENSATION)
    worst = worst_governed_load(open_voltage=supply, regulator_drop=DROP, **stage)
    left = supply - SET_VOLTAGE
    ohms = COMPENSATION + SOURCE
    return Problem(
        question="The governor of our motor holds. At which current does its transistor get hottest?",
        given=(("supply, off load", show(supply, "V")), ("set voltage", show(SET_VOLTAGE, "V", 4)),
               ("compensation", show(COMPENSATION, "ohm")), ("source, sense resistor included", show(SOURCE, "ohm"))),
        answer=worst, unit="A", tolerance=0.02,
        steps=(Step("Volts that are left over with no current:", show(left, "V")),
               Step("Ohms by which each ampere lessens them, compensation and source together:", show(ohms, "ohm")),
               Step("Volts over twice those ohms:", show(worst, "A"))),
        slips=(Slip((left / ohms).to("A"), "There nothing at all would be left across it. The top lies halfway."),
               Slip((supply / (2 * ohms)).to("A"), "The governor needs its set voltage first; take it off."),
               Slip((left / (2 * COMPENSATION)).to("A"), "The source lessens them too: its ohms come on top of the compensation.")))


def _derated(rng):
    rated, slope = Q(float(rng.choice([350, 500, 625])), "mW"), Q(float(rng.choice([2.8, 4.0, 5.0])), "mW/K")
    air = Q(float(rng.choice([40, 50, 60])), "degC")
    left = derated_power(rated_power=rated, slope=slope, ambient=air)
    lost = (slope * Q(air.m_as("degC") - 25, "K")).to("W")
    return Problem(
        question="A small transistor's rated power holds up to 25 °C. What is left of it in warmer air?",
        given=(("rated power", show(rated, "W")), ("it loses", f"{slope.m_as('mW/K'):g} mW a kelvin"), ("air", show(air, "degC"))),
        answer=left, unit="W", tolerance=0.01,
        steps=(Step("Lost by the kelvins above 25 °C:", show(lost, "W")), Step("Left of the rating:", show(left, "W"))),
        slips=(Slip(lost, "That is what it loses. How much is left?"), Slip(rated + lost, "It may do <em>less</em> where it is warm."),
               Slip((rated - slope * Q(air.m_as("degC"), "K")).to("W"), "Count the kelvins from 25 °C, not from zero.")))


def _from_case(rng):
    case, watts = Q(float(rng.choice([48, 61, 75, 90])), "degC"), Q(float(rng.choice([0.5, 1.2, 2.5])), "W")
    resistance = Q(float(rng.choice([4, 8, 12])), "K/W")
    junction = junction_temperature(ambient=case, power=watts, resistances=Q([resistance.m_as("K/W")], "K/W"))
    rise = (watts * resistance).to("K")
    return Problem(
        question="A thermometer touches a transistor's case. How hot is the junction inside?",
        given=(("case", show(case, "degC")), ("heat", show(watts, "W")), ("junction to case", show(resistance, "K/W"))),
        answer=junction, unit="degC", tolerance=0.01,
        steps=(Step("Above its case, heat times resistance:", show(rise, "K")), Step("So the junction has", show(junction, "degC"))),
        slips=(Slip(Q(rise.m_as("K"), "degC"), "That is how much it lies <em>above its case</em>."),
               Slip(Q(case.m_as("degC") - rise.m_as("K"), "degC"), "The heat comes from the junction: it is the hottest place.")))
