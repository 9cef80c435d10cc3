"""Book 05, reading four numbers together: the live picture, the guess, the table of patterns."""

import numpy as np
from IPython.display import Markdown

from benchreckoner.bench.motor_pattern import CANDIDATES, NEEDED, SIGNS, number_sign, read_pattern
from benchreckoner.lessons.motor_example import (COMPENSATION, CONSTANT, DROP, NO_LOAD, OPEN_VOLTAGE, PLAY, PLAY_SPEED, SET_VOLTAGE,
                                                 SOURCE, WINDING)
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.governors import supplied_speed
from benchreckoner.physics.motors import stall_current
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

USUAL_LOAD = PLAY - NO_LOAD  # what belt and bearings of the healthy set take, as current
_MOST = 2.5
_NAMES = ("motor volts", "current", "speed", "volts in hand")
_SPREADS = {"current": 0.015, "speed": 0.12, "motor volts": 0.5, "volts in hand": 0.02}  # as fair meters and a phone read


def four_readings(*, supply, setting, load, own):
    """What four instruments show of the invented set.

    Parameters
    ----------
    supply : Quantity [V]
        Off load.
    setting : Quantity [percent]
        The governor's set volts, of what they should be.
    load : Quantity [A]
        Current that belt and bearings ask for.
    own : Quantity [A]
        Current that the motor's own friction takes.

    Returns
    -------
    volts : Quantity [V]
        At the motor.
    current : Quantity [A]
    speed : Quantity [turn/min]
        Nought where it stands.
    hand : Quantity [V]
        Between the supply under load and the motor, the sense resistor's share taken off.
    """
    current = (load + own).to("A")
    held = SET_VOLTAGE * setting.m_as("")
    wanted = (held + COMPENSATION * current).to("V")
    offered = (supply - DROP - SOURCE * current).to("V")
    volts = min(wanted, offered)
    if volts <= current * WINDING:  # it stands, and the winding alone sets the current
        current = min(stall_current(voltage=supply - DROP, winding_resistance=WINDING + SOURCE), current)
        volts = (current * WINDING).to("V")
        return volts, current, Q(0, "turn/min"), (supply - SOURCE * current - volts).to("V")
    speed, _ = supplied_speed(current=current, set_voltage=held, compensation=COMPENSATION, open_voltage=supply, regulator_drop=DROP,
                              source_resistance=SOURCE, winding_resistance=WINDING, motor_constant=CONSTANT)
    return volts, current, speed, (supply - SOURCE * current - volts).to("V")


def pattern_of(volts, current, speed, hand):
    """The pattern that four readings of the invented set make, read by fair instruments."""
    expected = SET_VOLTAGE + COMPENSATION * current
    numbers = {"motor volts": 100 * ((volts / expected).m_as("") - 1), "current": (current / PLAY).m_as(""),
               "speed": 100 * ((speed / PLAY_SPEED).m_as("") - 1), "volts in hand": hand.m_as("V")}
    return read_pattern(number_sign(name, value, _SPREADS[name], name) for name, value in numbers.items())


_HEALTHY = four_readings(supply=OPEN_VOLTAGE, setting=Q(100, "percent"), load=USUAL_LOAD, own=NO_LOAD)


def pattern_picture(*, supply, setting, load, own):
    """Four readings side by side, each as times what it is in the healthy set, and what they point at together.

    Parameters
    ----------
    supply : Quantity [V]
    setting : Quantity [percent]
    load, own : Quantity [A]

    Returns
    -------
    Picture
    """
    found = four_readings(supply=supply, setting=setting, load=load, own=own)
    pattern = pattern_of(*found)
    times = np.array([(one / usual).m_as("") for one, usual in zip(found, _HEALTHY)])
    drawn = np.where(times <= _MOST, times, np.nan)
    places = np.arange(1.0, 5.0)
    volts, current, speed, hand = (show(one, unit) for one, unit in zip(found, ("V", "A", "turn/min", "V")))
    first, second = pattern.suspects[:2]
    word = (f"That is the pattern of {first.name}, {first.shown}" if pattern.named else
            f"Can't tell yet: {first.name} {first.shown}, {second.name} {second.shown}")
    above = "".join(f" The point for {name} lies above the picture." for name, one in zip(_NAMES, times) if one > _MOST)
    stands = " It stands." if found[2].magnitude == 0 else ""
    then = f"Next: {pattern.then}" if pattern.then else f"What would part these two: {pattern.parting.how}"
    sentence = f"{volts} at the motor, {current}, {speed}, {hand} in hand.{stands}{above} {word} (odds by common practice). {then}"
    return Picture(
        title="Four numbers read together",
        x=Axis("reading", "", 0.5, 4.5, ticks=tuple(zip(places, _NAMES))), y=Axis("times the healthy set's", "", 0, _MOST),
        curves=(Curve("this set", places, times, "heavy"),),
        points=tuple(Point(name, place, value, "here" if not number else "other") for number, (name, place, value)
                     in enumerate(zip(_NAMES, places, drawn))),
        limits=(Limit("healthy", "y", 1),), sentence=sentence,
        alt=f"Four readings joined by a line, each as times what the healthy set reads; a level line at one is healthy. {sentence}")


PATTERN = LivePicture(
    key="motor-pattern", picture=pattern_picture,
    sliders=(Slider("supply", "supply, off load", "V", ladder(3, 12, 46), start=OPEN_VOLTAGE.m_as("V")),
             Slider("setting", "the governor's set volts, of what they should be", "percent", ladder(80, 120, 41), start=100),
             Slider("load", "current for belt and bearings", "A", ladder(0, 0.2, 41), start=USUAL_LOAD.m_as("A")),
             Slider("own", "the fault: current for the motor's own friction", "A", ladder(0.01, 0.1, 19), start=NO_LOAD.m_as("A"))),
    goal="Raise the load until the current is 1.5 times what it was: which two suspects stay, and what would part them? Back to the start, "
         "lower the supply until headroom is named. Back again, turn the set volts down to 95 %: who leads, and is it named?",
    phone_sliders=("supply", "load"),
    phone_goal="Raise the load until the current is 1.5 times what it was: which two suspects stay, and what would part them? Back to the start, "
               "lower the supply until headroom is named.")


def guess_what_first():
    """Guess first: a slow player with a high current; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="motor-pattern-first",
        question="A governed player is 1 % slow. The motor gets the volts that its governor should give, 4 V are in hand, and it draws one and a "
                 "half times its usual current. What do you do first?",
        choices=(
            Choice("Turn the trimmer up until the speed is right.",
                   "It would hide the cause and leave the load. The volts are where the governor puts them: nothing is set wrongly."),
            Choice("Give it more volts.", "Four volts are in hand already. The governor keeps all further ones from the motor."),
            Choice("Replace the motor: it draws too much.",
                   "It draws what is asked of it. Whether the motor or what it drives asks, this reading does not say."),
            Choice("Take the belt off and read the current again.",
                   "Two readings, four minutes: what stays is the motor's own, what goes belongs to belt and bearings.", right=True),
        )), reveal=opening(PATTERN), store=my_guesses())


def pattern_table():
    """What reads otherwise under each candidate than in a healthy set, from the table that the odds are made of.

    Returns
    -------
    IPython.display.Markdown
    """
    shown = ("current", "speed", "motor volts", "volts in hand", "belt off", "motion")
    usual = _likeliest("healthy", shown)
    lines = ["| suspect | what reads otherwise than in a healthy set |", "|---|---|"]
    for name in CANDIDATES:
        other = [f"{sign} {level}" for sign, level in _likeliest(name, shown).items() if level != usual[sign]]
        lines.append(f"| **{name}** | {', '.join(other) or 'nothing'} |")
    lines.append("")
    lines.append(f"In a healthy set: {', '.join(f'{sign} {level}' for sign, level in usual.items())}. *Belt off* is the current that the motor draws "
                 "alone; *motion* is how volts and hum move. Each line is what is likeliest, not what is certain. Below "
                 f"{100 * NEEDED:.0f} % no name is given. Which reading goes with which fault is common practice; the shares behind it are our own "
                 "choice, and nobody has counted them.")
    return Markdown("\n".join(lines))


def _likeliest(candidate, signs):
    return {sign: SIGNS[sign]["levels"][int(np.argmax(SIGNS[sign]["given"][candidate]))] for sign in signs}
