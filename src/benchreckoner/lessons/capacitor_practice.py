"""Exercises of book 03 on capacitors in their places: two that fade, and one that mixes the laws."""

import numpy as np

from benchreckoner.physics.bias import bias_shift, direct_current_into, emptied_after
from benchreckoner.physics.capacitors import corner_frequency, series_resistance
from benchreckoner.physics.leakage_limits import leakage_limit
from benchreckoner.show.entry import Entry, entry_questions
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess
from benchreckoner.units import Q, show


def skip_ahead():
    """Three questions: all right leads straight to the reader's own bench."""
    return entry_questions((
        Entry(ChoiceGuess(
            key="capacitors-entry-high", question="A part marked 10 µF reads 18 µF on a tester that times the charge, and 10 µF on a "
            "bridge. What is it?",
            choices=(
                Choice("A good one with something to spare.", "A charge that comes late is <em>shown</em> as more. What steals the "
                       "charge is a leak."),
                Choice("A leaky one.", "The leak makes the charge late; the bridge hardly sees it in the farads.", right=True),
                Choice("A dried-out one.", "Drying out takes farads away: both testers would read low."),
            )), "Why a leaky part reads high"),
        Entry(_allowed_leakage(np.random.default_rng(3)), "Leakage on the bench"),
        Entry(_lost_bass(np.random.default_rng(1)), "What it does in its place")), where="Your bench")


def lifted_base(seed=None, blanks=1):
    """Volts by which a leak lifts a divider."""
    return exercise(_lifted_base, key="capacitors-lifted-base", seed=seed, blanks=blanks)


def lost_bass(seed=None, blanks=2):
    """The pitch at which a dried-out output capacitor has lost 3 dB."""
    return exercise(_lost_bass, key="capacitors-lost-bass", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_lifted_base, _lost_bass, _allowed_leakage, _new_ohms, _idle_hours, _through_loudspeaker)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="capacitors-mixed", seed=seed, blanks=blanks)


def _lifted_base(rng):
    upper, lower = Q(float(rng.choice([33, 47, 68, 100])), "kohm"), Q(float(rng.choice([6.8, 10, 12, 15])), "kohm")
    leakage = Q(float(rng.integers(2, 40)), "uA")
    both = (upper * lower / (upper + lower)).to("kohm")
    volts = bias_shift(leakage=leakage, upper=upper, lower=lower)
    return Problem(
        question="A coupling capacitor leaks into a base that hangs on a divider. By how many volts does it lift the divider at "
                 "most?",
        given=(("leakage", show(leakage, "A")), ("upper resistor", show(upper, "ohm")), ("lower resistor", show(lower, "ohm"))),
        answer=volts, unit="V", tolerance=0.02,
        steps=(Step("To the leak both resistors lie side by side:", show(both, "ohm")),
               Step("Leakage times that:", show(volts, "V"))),
        slips=(Slip((leakage * lower).to("V"), "That is the lower resistor alone. The upper one carries part of it as well: the "
                    "supply stands still for a change."),
               Slip((leakage * (upper + lower)).to("V"), "That is both one behind the other. To the leak they lie side by side.")))


def _lost_bass(rng):
    load, farads = Q(float(rng.choice([4, 8, 16])), "ohm"), Q(float(rng.integers(30, 400)), "uF")
    pitch = corner_frequency(resistance=load, capacitance=farads)
    constant = (load * farads).to("ms")
    return Problem(
        question="What is left of an output capacitor stands before this loudspeaker. At which pitch has it lost 3 dB?",
        given=(("capacitance", show(farads, "F")), ("loudspeaker", show(load, "ohm"))),
        answer=pitch, unit="Hz", tolerance=0.02,
        steps=(Step("Ohms times farads:", f"{constant.m_as('ms'):.3g} ms"),
               Step("Times 2π:", f"{2 * np.pi * constant.m_as('ms'):.3g} ms"),
               Step("One over that:", show(pitch, "Hz"))),
        slips=(Slip((2 * np.pi * pitch).to("Hz"), "That is one over ohms times farads. Divide by 2π too: a pitch counts whole swings."),
               Slip(Q(1 / pitch.m_as("Hz"), "Hz"), "Upside down: that is a time.")))


def _allowed_leakage(rng):
    farads, volts = Q(float(rng.choice([22, 47, 100, 220])), "uF"), Q(float(rng.choice([10, 16, 25])), "V")
    limit = leakage_limit(rule="a hundredth and three", capacitance=farads, voltage=volts)
    micro = farads.m_as("uF") * volts.m_as("V")
    return Problem(
        question="The published rule “a hundredth and three” allows a hundredth of µF times V, in µA, and three more. How much may this part leak?",
        given=(("capacitance", show(farads, "F")), ("rated voltage", show(volts, "V"))),
        answer=limit, unit="A", tolerance=0.02,
        steps=(Step("Microfarads times volts:", f"{micro:.0f}"), Step("A hundredth of that:", f"{micro / 100:.3g} µA"),
               Step("And three more:", show(limit, "A"))),
        slips=(Slip(Q(micro / 100, "uA"), "Three microamperes more: small parts would have next to nothing otherwise."),
               Slip(Q(micro + 3, "uA"), "A <em>hundredth</em> of it, then three more.")))


def _new_ohms(rng):
    farads, factor = Q(float(rng.choice([10, 22, 47, 100, 220])), "uF"), float(rng.choice([0.10, 0.13, 0.15, 0.17, 0.20]))
    ohms = series_resistance(capacitance=farads, dissipation=factor, frequency=Q(120, "Hz"))
    return Problem(
        question="A data sheet gives a dissipation factor at 120 Hz. How many ohms of series resistance are that?",
        given=(("capacitance", show(farads, "F")), ("dissipation factor", f"{factor:.2f}")),
        answer=ohms, unit="ohm", tolerance=0.02,
        steps=(Step("What the capacitance alone has at 120 Hz, one over 2π f C:", show(ohms / factor, "ohm")),
               Step("The dissipation factor is that share of it:", show(ohms, "ohm"))),
        slips=(Slip(ohms / factor, "That is what the capacitance alone has. The series resistance is a share of it."),
               Slip((ohms * 2 * np.pi).to("ohm"), "The 2π is missing: 2π times the pitch times the farads.")))


def _idle_hours(rng):
    charge, leakage = Q(float(rng.choice([1000, 2500, 8000])), "mA*h"), Q(float(rng.integers(2, 20)) / 10, "mA")
    time = emptied_after(charge=charge, current=leakage).to("h")
    return Problem(
        question="A leaky supply capacitor sits before the power switch. After how many hours has it emptied the cells?",
        given=(("what the cells hold", f"{charge.m_as('mA*h'):.0f} mAh"), ("leakage", show(leakage, "A"))),
        answer=time, unit="h", tolerance=0.02,
        steps=(Step("Milliampere-hours by milliamperes:", f"{time.m_as('h'):.4g} h"),),
        slips=(Slip(Q(1 / time.m_as("h"), "h"), "Upside down: what they hold divided by what flows."),
               Slip(time / 24, "Those are days. The question asks for hours.")))


def _through_loudspeaker(rng):
    supply, leak = Q(float(rng.choice([6, 9, 12])), "V"), Q(float(rng.integers(3, 30)) * 100, "ohm")
    current = direct_current_into(voltage=supply / 2, leakage_resistance=leak, load_resistance=Q(8, "ohm"))
    return Problem(
        question="The output stands at half the supply. Its capacitor leaks into a loudspeaker of 8 Ω. How much direct current "
                 "flows through the loudspeaker?",
        given=(("supply", show(supply, "V")), ("the leak", show(leak, "ohm"))),
        answer=current, unit="A", tolerance=0.02,
        steps=(Step("Half the supply:", show(supply / 2, "V")),
               Step("All the ohms in its way:", show(leak + Q(8, "ohm"), "ohm", digits=4)),
               Step("Volts by ohms:", show(current, "A"))),
        slips=(Slip(2 * current, "That is the whole supply. The output stands at half of it."),
               Slip((supply / 2 / Q(8, "ohm")).to("A"), "The leak's own ohms stand in the way too.")))
