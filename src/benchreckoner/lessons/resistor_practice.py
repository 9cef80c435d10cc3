"""Exercises of book 05 on resistors: two that fade on heat and on a load, and one that mixes the laws."""

import numpy as np

from benchreckoner.physics.parallel import parallel_resistance, without_parallel
from benchreckoner.physics.preferred import SERIES
from benchreckoner.physics.resistors import OVERLOAD, across_load, allowed_power, burning_current, in_series_with_load
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_RATINGS = (0.125, 0.25, 0.5, 1, 2)


def allowed_heat(seed=None, blanks=1):
    """What a resistor may turn into heat in warm air."""
    return exercise(_allowed_heat, key="resistor-allowed", seed=seed, blanks=blanks)


def beside_the_loudspeaker(seed=None, blanks=2):
    """What the amplifier sees of a loudspeaker with a resistor across it, and what goes into the resistor."""
    return exercise(_watts_across, key="resistor-across", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_allowed_heat, _watts_across, _twin_alone, _burning, _sees, _quieter)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="resistor-mixed", seed=seed, blanks=blanks)


def _value(rng, low, decades):
    return Q(float(f"{rng.choice(SERIES['E12']) * low * 10.0 ** rng.integers(decades):.3g}"), "ohm")


def _rated(rng):
    return Q(float(rng.choice(_RATINGS)), "W")


def _sold(rated):
    return f"{rated.m_as('W'):g} W"


def _allowed_heat(rng):
    rated, air = _rated(rng), int(rng.integers(17, 29)) * 5
    may = allowed_power(rated_power=rated, temperature=Q(air, "degC"))
    left = (155 - air) / 85
    return Problem(
        question="A film resistor may make its rated watts up to 70 °C, and nothing at 155 °C; between them a straight line "
                 "falls. What may it make here?",
        given=(("rated", _sold(rated)), ("air round it", f"{air} °C")), answer=may, unit="W", tolerance=0.02,
        steps=(Step("From the air up to 155 °C there are left:", f"{155 - air} °C"),
               Step("Of the 85 °C from 70 to 155 that is:", f"{left:.4f}"),
               Step("Times the rated watts:", show(may, "W"))),
        slips=(Slip(rated, "That holds up to 70 °C only. The air here is warmer."),
               Slip(rated * (1 - left), "That is what is lost to the warmth. What is left?"),
               Slip(rated * (155 - air) / 155, "The line begins at 70 °C, not at zero: divide by 85.")))


def _watts_across(rng):
    load, shunt = Q(float(rng.choice([4, 8, 16])), "ohm"), _value(rng, 10, 1)
    volts = Q(float(rng.choice([2, 2.8, 4, 5.6])), "V")
    effect = across_load(voltage=volts, load_resistance=load, resistance=shunt)
    whole = effect.load_power + effect.resistor_power
    return Problem(
        question="A resistor stands across a loudspeaker. The amplifier holds its volts. How many watts go into the resistor?",
        given=(("loudspeaker", show(load, "ohm")), ("the resistor", show(shunt, "ohm")), ("amplifier", show(volts, "V"))),
        answer=effect.resistor_power, unit="W", tolerance=0.02,
        steps=(Step("Across it stand the same volts as across the loudspeaker:", show(volts, "V")),
               Step("Their current in the resistor, volts by its ohms:", show(volts / shunt, "A")),
               Step("Volts times that current:", show(effect.resistor_power, "W"))),
        slips=(Slip(effect.load_power, "That goes into the loudspeaker. Divide by the resistor's own ohms."),
               Slip(whole.to("W"), "That is what the amplifier gives to both together."),
               Slip((volts**2 / (load + shunt)).to("W"), "That is for the two in series. Here each has all the volts."),
               Slip((volts / shunt * Q(1, "V")).to("W"), "That is its current as a number. Times the volts it makes watts.")))


def _twin_alone(rng):
    true = _value(rng, 100, 2)
    path = Q(float(f"{true.m_as('ohm') * rng.uniform(1.2, 6):.2g}"), "ohm")
    read = Q(float(f"{parallel_resistance(resistances=Q([true.m_as('ohm'), path.m_as('ohm')], 'ohm')).m_as('ohm'):.3g}"), "ohm")
    alone = without_parallel(reading=read, parallel=path)
    return Problem(
        question="The twin of a burnt part reads this in circuit, and this lies across it. What has the twin by itself?",
        given=(("read in circuit", show(read, "ohm")), ("across it", show(path, "ohm"))), answer=alone, unit="ohm", tolerance=0.03,
        steps=(Step("Path less reading:", show(path - read, "ohm")),
               Step("Reading times path:", f"{read.m_as('ohm') * path.m_as('ohm'):.4g} Ω²"),
               Step("The one divided by the other, times over path less reading:", show(alone, "ohm"))),
        slips=(Slip(path - read, "Ohms side by side do not simply subtract; their reciprocals do."),
               Slip((read * path / (read + path)).to("ohm"), "That puts the path across once more. It must come off."),
               Slip(read, "That is both together. The part alone has more.")))


def _burning(rng):
    rated, ohms = _rated(rng), _value(rng, 10, 2)
    current = burning_current(rated_power=rated, resistance=ohms)
    return Problem(
        question=f"Which current gives this resistor {OVERLOAD:g} times its rated watts, which it does not stand for long?",
        given=(("resistor", f"{show(ohms, 'ohm')}, {_sold(rated)}"),), answer=current, unit="A", tolerance=0.02,
        steps=(Step("That many watts:", show(OVERLOAD * rated, "W")),
               Step("By its ohms:", f"{(OVERLOAD * rated / ohms).m_as('A**2'):.4g} A²"),
               Step("The square root:", show(current, "A"))),
        slips=(Slip(current / 2.5, f"That is its rated current. {OVERLOAD:g} times the watts is more."),
               Slip(current * 2.5, "Watts go with the square of the current: 2.5 times the current will do.")))


def _sees(rng):
    load, shunt = Q(float(rng.choice([4, 8, 16])), "ohm"), _value(rng, 10, 1)
    both = across_load(voltage=Q(1, "V"), load_resistance=load, resistance=shunt).load
    return Problem(
        question="A resistor stands across a loudspeaker. How many ohms does the amplifier see?",
        given=(("loudspeaker", show(load, "ohm")), ("the resistor", show(shunt, "ohm"))), answer=both, unit="ohm", tolerance=0.01,
        steps=(Step("The two multiplied:", f"{load.m_as('ohm') * shunt.m_as('ohm'):.4g} Ω²"), Step("By the two added:", show(both, "ohm"))),
        slips=(Slip(load + shunt, "That is for the two in series. Across, the amplifier sees less than either."),
               Slip((load + shunt) / 2, "No average: with a second path it sees less than either."),
               Slip(load, "That is the loudspeaker alone.")))


def _quieter(rng):
    load, series = Q(float(rng.choice([4, 8, 16])), "ohm"), _value(rng, 1, 2)
    level = in_series_with_load(voltage=Q(1, "V"), load_resistance=load, resistance=series).level
    ratio = float((load / (load + series)).m_as(""))
    return Problem(
        question="A resistor stands in series with a loudspeaker. What does it do to the level? (Less loud is negative.)",
        given=(("loudspeaker", show(load, "ohm")), ("the resistor", show(series, "ohm"))), answer=level, unit="dB", tolerance=Q(0.1, "dB"),
        steps=(Step("The loudspeaker's share of the volts:", f"{ratio:.4f}"), Step("Twenty times its logarithm:", show(level, "dB"))),
        slips=(Slip(Q(level.m_as("dB") / 2, "dB"), "Ten times the logarithm is for watts. The same ohms, so for volts it is twenty."),
               Slip(Q(float(20 * np.log10(1 - ratio)), "dB"), "That is the resistor's own share of the volts. The loudspeaker has "
                                                              "the rest.")))
