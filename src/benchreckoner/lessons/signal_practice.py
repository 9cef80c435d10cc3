"""Exercises of book 02 on contacts that pass sound: two that fade, and one that mixes the laws."""

import numpy as np

from benchreckoner.physics.levels import chain_level, decibels
from benchreckoner.physics.signal import clipping_power, damping_factor, series_loss, shared_return_crosstalk
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_NEAR = Q(0.1, "dB")


def lost_decibels(seed=None, blanks=1):
    """Decibels that one contact costs a loudspeaker."""
    return exercise(_lost_decibels, key="signal-lost-decibels", seed=seed, blanks=blanks)


def whole_chain(seed=None, blanks=2):
    """Decibels that two losses one behind the other cost together."""
    return exercise(_whole_chain, key="signal-whole-chain", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_lost_decibels, _whole_chain, _crosstalk, _clipping, _damping)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="signal-mixed", seed=seed, blanks=blanks)


def _lost_decibels(rng):
    load = Q(float(rng.choice([4, 8, 16, 32])), "ohm")
    contact = Q(round(float(rng.uniform(0.1, 0.6)) * load.m_as("ohm"), 1), "ohm")
    ratio = (load / (load + contact)).m_as("")
    level = series_loss(load_resistance=load, series_resistance=contact)
    return Problem(
        question="A jack's contact stands in series with a loudspeaker or headphone. What does it do to the level? "
                 "(A loss is below zero.)",
        given=(("the contact", show(contact, "ohm")), ("what it feeds", show(load, "ohm"))),
        answer=level, unit="dB", tolerance=_NEAR,
        steps=(Step("All the ohms in the loop:", show(load + contact, "ohm")),
               Step("The share of the volts that is left:", f"{ratio:.4f}"),
               Step("20 times its logarithm:", show(level, "dB"))),
        slips=(Slip(Q(level.m_as("dB") / 2, "dB"), "10 times the logarithm is for watts. Volts take 20 times."),
               Slip(decibels(ratio=(contact / (load + contact)).m_as("")),
                    "That is the contact's own share of the volts. The loudspeaker has the rest."),
               Slip(Q(20 * np.log(ratio), "dB"), "That is the natural logarithm; decibels take the one to base ten.")))


def _whole_chain(rng):
    source, load = Q(float(rng.integers(5, 20)) / 10, "kohm"), Q(float(rng.integers(3, 20)), "kohm")
    contact = Q(round(float(rng.uniform(0.5, 4)), 1), "ohm")
    first = series_loss(load_resistance=load, series_resistance=source)
    second = series_loss(load_resistance=Q(8, "ohm"), series_resistance=contact)
    first_level, second_level = (float(level.m_as("dB")) for level in (first, second))
    whole = chain_level(levels=Q([first_level, second_level], "dB"))
    return Problem(
        question="An extra input hangs on the first stage, and a contact stands in series with the 8 Ω loudspeaker. What "
                 "do both together do to the level? (A loss is below zero.)",
        given=(("ohms inside the first stage", show(source, "ohm")), ("ohms of the extra input", show(load, "ohm")),
               ("the contact", show(contact, "ohm"))),
        answer=whole, unit="dB", tolerance=_NEAR,
        steps=(Step("The extra input's share, 20 log of load over load and source:", show(first, "dB")),
               Step("The contact's share, the same way with 8 Ω:", show(second, "dB")),
               Step("One behind the other, decibels add:", show(whole, "dB"))),
        slips=(Slip(first, "That is the first loss alone. The contact comes on top."),
               Slip(second, "That is the contact's loss alone. The extra input comes on top."),
               Slip(Q(-first_level * second_level, "dB"), "Ratios multiply, decibels add.")))


def _crosstalk(rng):
    side, shared = Q(float(rng.choice([16, 32, 64, 300])), "ohm"), Q(round(float(rng.uniform(0.1, 3)), 1), "ohm")
    own, source = shared_return_crosstalk(transducer_resistance=side, return_resistance=shared)
    return Problem(
        question="Both sides of a headphone return by one contact. One side plays, the other side's source gives "
                 "nothing. How loud is the silent side, against the <em>driven side's own</em> volts?",
        given=(("each side", show(side, "ohm")), ("the shared contact", show(shared, "ohm"))),
        answer=own, unit="dB", tolerance=Q(0.05, "dB"),
        steps=(Step("The contact in parallel with the silent side, beside the driven side: its ratio is",
                    f"{(shared / (shared + side)).m_as(''):.5f}"),
               Step("20 times its logarithm:", show(own, "dB", digits=4))),
        slips=(Slip(source, "That is against the source. The driven side has a little less than the source."),
               Slip(Q(own.m_as("dB") / 2, "dB"), "10 times the logarithm is for watts. Volts take 20 times.")))


def _clipping(rng):
    supply, kept = Q(float(rng.choice([6, 7.5, 9, 12])), "V"), Q(float(rng.integers(3, 9)) / 10, "V")
    load = Q(float(rng.choice([4, 8, 16])), "ohm")
    power = clipping_power(supply=supply, saturation_voltage=kept, load_resistance=load)
    peak = (supply / 2 - kept).to("V")
    return Problem(
        question="An output rests at half the supply and drives the loudspeaker through a capacitor. What is the most "
                 "power of a sine wave before it clips?",
        given=(("supply, playing loud", show(supply, "V")), ("kept by the transistor at the peak", show(kept, "V")),
               ("the loudspeaker", show(load, "ohm"))),
        answer=power, unit="W", tolerance=0.02,
        steps=(Step("The peak, half the supply without what the transistor keeps:", show(peak, "V")),
               Step("Its square over twice the ohms:", show(power, "W"))),
        slips=(Slip((peak**2 / load).to("W"), "That is the power at the peak. A sine's mean power is half of it."),
               Slip(((supply - kept) ** 2 / (2 * load)).to("W"), "It rests at <em>half</em> the supply: it can swing by half only."),
               Slip(((supply / 2) ** 2 / (2 * load)).to("W"), "The transistor keeps some of it at the peak: take that off first.")))


def _damping(rng):
    source, contact = Q(float(rng.integers(5, 20)) / 100, "ohm"), Q(float(rng.integers(5, 40)) / 100, "ohm")
    load = Q(8, "ohm")
    factor = float(damping_factor(load_resistance=load, source_resistance=source, contact_resistance=contact))
    return Problem(
        question="How many times are the loudspeaker's ohms those of everything that drives it? (A plain number.)",
        given=(("the loudspeaker", show(load, "ohm")), ("the amplifier's output", show(source, "ohm")),
               ("contacts and wire", show(contact, "ohm"))),
        answer=Q(factor, ""), unit="", tolerance=0.02,
        steps=(Step("Everything that drives it:", show(source + contact, "ohm")),
               Step("The loudspeaker's ohms over these:", f"{factor:.3g}")),
        slips=(Slip(Q(float(damping_factor(load_resistance=load, source_resistance=source)), ""),
                    "That is without the contacts. They stand in the same loop."),
               Slip(Q(1 / factor, ""), "Upside down: the loudspeaker's ohms stand on top.")))
