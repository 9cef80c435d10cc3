"""Book 03, each capacitor in its place: what a leak does to a stage, to bass and to cells, and the verdict per part."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.bias import Stage, leaky_bias
from benchreckoner.physics.capacitors import corner_frequency
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

# A stage as old pocket radios and tape players have it; the numbers are an example.
SUPPLY, FAR_SIDE = Q(6, "V"), Q(3.5, "V")
UPPER, LOWER, EMITTER, COLLECTOR, BASE_EMITTER = Q(47, "kohm"), Q(12, "kohm"), Q(1, "kohm"), Q(3.9, "kohm"), Q(0.65, "V")
LEAST_GAIN, USUAL_GAIN, MOST_GAIN = 50, 100, 400
_LEAST, _MOST = 1e4, 1e8


def leaky_stage(*, leak, stiffness):
    """Collector volts of a stage whose coupling capacitor leaks, for any transistor that may sit in it.

    Parameters
    ----------
    leak : Quantity [ohm]
        Resistance that the leaking capacitor shows.
    stiffness : float
        How many times less ohms the divider has than the example's.

    Returns
    -------
    Picture
    """
    stage = Stage(SUPPLY, UPPER / stiffness, LOWER / stiffness, EMITTER, COLLECTOR, BASE_EMITTER)

    def volts(ohms, gain):
        return leaky_bias(stage=stage, gain=gain, leakage_resistance=ohms, leak_from=FAR_SIDE)[1].m_as("V")

    ohms = Q(np.geomspace(_LEAST, _MOST, 121), "ohm")
    rows = {gain: volts(ohms, gain) for gain in (LEAST_GAIN, USUAL_GAIN, MOST_GAIN)}
    here, sound = float(volts(leak, USUAL_GAIN)), float(volts(Q(1e12, "ohm"), USUAL_GAIN))
    current = leaky_bias(stage=stage, gain=USUAL_GAIN, leakage_resistance=leak, leak_from=FAR_SIDE)[0]
    shut = " There it is fully open, and hardly any sound gets through." if here <= (current * EMITTER).m_as("V") else ""
    ends = sorted((float(volts(leak, LEAST_GAIN)), float(volts(leak, MOST_GAIN))))
    usual = rows[USUAL_GAIN]
    turn = ", down to where the transistor is fully open, and rises again beyond" if usual[0] > usual.min() + 0.05 else ""
    return Picture(
        title="A stage with a leaky coupling capacitor",
        x=Axis("ohms of the leak", "Mohm", _LEAST / 1e6, _MOST / 1e6, scale="log"), y=Axis("collector volts", "V", 0, 6),
        bands=(Band("gain 50 to 400", ohms.m_as("Mohm"), np.minimum(rows[LEAST_GAIN], rows[MOST_GAIN]),
                    np.maximum(rows[LEAST_GAIN], rows[MOST_GAIN])),),
        curves=(Curve("gain 100", ohms.m_as("Mohm"), rows[USUAL_GAIN]),),
        points=(Point("here", float(leak.m_as("Mohm")), here),),
        limits=(Limit("without a leak", "y", sound),),
        sentence=(f"A leak of {show(leak, 'ohm', digits=2)} moves the collector from {sound:.2f} V to {here:.2f} V. With the "
                  f"transistors that may sit there, gain {LEAST_GAIN} to {MOST_GAIN}, it stands at {ends[0]:.2f} to {ends[1]:.2f} V.{shut}"),
        alt=("A curve of collector volts against the ohms of a leak, on a log axis, with a band for the spread of transistors. "
             f"From the right it runs level at {sound:.2f} V, then it falls as the leak gets worse{turn}. "
             f"At {show(leak, 'ohm', digits=2)} it stands at {here:.2f} V."))


LEAKY_STAGE = LivePicture(
    key="leaky-stage", picture=leaky_stage,
    sliders=(Slider("leak", "ohms of the leak", "ohm", ladder(_LEAST, _MOST, 81, "log"), start=1e6),
             Slider("stiffness", "divider, times as stiff", "", (0.2, 0.5, 1, 2, 5, 10), start=1)),
    goal="Find the leak that brings the collector down to about 3.5 V. Then make the divider ten times as stiff, and look "
         "what the same leak does.",
    phone_sliders=("leak", "stiffness"))


def moved_corner(*, capacitance, load):
    """Level against pitch behind an output capacitor, as it is and as it was meant.

    Parameters
    ----------
    capacitance : Quantity [F]
        What is left of 470 µF.
    load : Quantity [ohm]

    Returns
    -------
    Picture
    """
    pitch = np.geomspace(10, 10000, 121)
    meant = Q(470, "uF")

    def level(farads):
        corner = corner_frequency(resistance=load, capacitance=farads).m_as("Hz")
        return -10 * np.log10(1 + (corner / pitch) ** 2)

    before, now = (corner_frequency(resistance=load, capacitance=one) for one in (meant, capacitance))
    there = float(now.m_as("Hz"))
    return Picture(
        title="Bass behind an output capacitor",
        x=Axis("pitch", "Hz", 10, 10000, scale="log"), y=Axis("level", "dB", -40, 2),
        curves=(Curve("470 µF, as it was meant", pitch, level(meant), "faint"), Curve("what is left", pitch, level(capacitance))),
        points=(Point("3 dB down", there if 10 <= there <= 10000 else np.nan, -10 * np.log10(2)),),
        sentence=(f"{show(capacitance, 'F', digits=2)} before {show(load, 'ohm', digits=2)} lose 3 dB at {show(now, 'Hz', digits=2)}; "
                  f"470 µF would at {show(before, 'Hz', digits=2)}. Below that each octave loses another 6 dB."),
        alt=("Two curves of level against pitch that are flat on the right and fall by 6 dB an octave on the left. "
             f"With what is left of the capacitor the fall begins at {show(now, 'Hz', digits=2)}."))


MOVED_CORNER = LivePicture(
    key="moved-corner", picture=moved_corner,
    sliders=(Slider("capacitance", "what is left of 470 µF", "F", ladder(5e-6, 700e-6, 81, "log"), start=220e-6),
             Slider("load", "ohms of the loudspeaker", "ohm", (3.2, 4, 8, 16, 32), start=8)),
    goal="Find the capacitance at which a loudspeaker of 4 Ω has lost its bass below 100 Hz.",
    phone_sliders=("capacitance", "load"))


def guess_leaky_stage():
    """Guess first: how many ohms of leak a stage minds; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="capacitors-leaky-stage",
        question="A coupling capacitor of 10 µF reads 10.1 µF on the tester. It leaks: 100 kΩ. The base behind it hangs on 47 kΩ "
        "and 12 kΩ. What does the leak do?",
        choices=(
            Choice("Nothing: it reads 10.1 µF, so it is good.",
                   "A tester of capacitance hardly sees 100 kΩ. The base does: it hangs on kilohms, not on nothing."),
            Choice("It shifts the collector by about 0.7 V.",
                   "3.99 V become 3.27 V. It still plays, but loud passages run out of room on one side, and it grows worse with "
                   "warmth.", right=True),
            Choice("It short-circuits the sound.",
                   "100 kΩ is next to nothing for the sound. It is the <em>direct</em> current through it that moves the stage."),
        )), reveal=opening(LEAKY_STAGE), store=my_guesses())


def guess_thin_bass():
    """Guess first: what a dried-out output capacitor takes away; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="capacitors-thin-bass", question="An output capacitor of 470 µF has dried out to 100 µF, before a loudspeaker of 8 Ω. "
        "What do you hear?",
        choices=(
            Choice("Everything softer.", "The treble passes as before: to it 100 µF is no obstacle."),
            Choice("The bass is gone below about 200 Hz.", "1/(2π · 8 Ω · 100 µF) is 199 Hz; with 470 µF it was 42 Hz.", right=True),
            Choice("The treble is gone.", "That is what a capacitor <em>across</em> the sound does. This one stands in its way, and "
                   "what it stops is the slow."),
        )), reveal=opening(MOVED_CORNER), store=my_guesses())
