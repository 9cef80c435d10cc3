"""Book 05, the governor with flying contacts: how long they are shut, and where they lose their hold."""

import numpy as np

from benchreckoner.lessons.motor_example import BRUSH, CONSTANT, OPEN_VOLTAGE, PLAY, PLAY_SPEED, SENSE, SOURCE, WINDING
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.centrifugal import contact_duty
from benchreckoner.physics.motors import motor_speed, terminal_voltage
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

CELLS_AND_WIRES = SOURCE - SENSE  # this kind has no sense resistor
_LEAST, _MOST = 2.0, 15.0
_MOTOR = dict(winding_resistance=WINDING, motor_constant=CONSTANT, brush_drop=BRUSH)


def contact_picture(*, supply, current, bridging):
    """Share of the time for which a flying contact is shut, against the supply's volts.

    Parameters
    ----------
    supply : Quantity [V]
        Off load; where the reader stands.
    current : Quantity [A]
        Mean current of the motor at this load.
    bridging : Quantity [ohm]
        Of the resistor across the contacts.

    Returns
    -------
    Picture
        Where the hold is lost the line has a gap.
    """
    needed = terminal_voltage(speed=PLAY_SPEED, current=current, **_MOTOR)
    volts, lost_shut = supply.m_as("V"), (current * CELLS_AND_WIRES).m_as("V")
    lost_open = lost_shut + (current * bridging).m_as("V")
    slow_below, fast_above = needed.m_as("V") + lost_shut, needed.m_as("V") + lost_open
    axis = np.sort(np.append(np.linspace(_LEAST, _MOST, 53), np.clip([slow_below, fast_above], _LEAST, _MOST)))
    along = np.append(axis, volts)  # one reckoning for line and point
    share = 100 * contact_duty(needed_voltage=needed, low_voltage=Q(along - lost_open, "V"), high_voltage=Q(along - lost_shut, "V"))
    held = np.where((share >= -1e-9) & (share <= 100 + 1e-9), share, np.nan)
    said = _said(volts, current, held[-1], share[-1], slow_below, fast_above,
                 left=volts - (lost_shut if share[-1] > 100 else lost_open))
    return Picture(
        title="How long a flying contact is shut",
        x=Axis("supply, off load", "V", _LEAST, _MOST), y=Axis("contacts shut", "%", 0, 100),
        curves=(Curve("share of the time", axis, held[:-1], "heavy"),),
        points=(Point("here", volts, held[-1]),),
        limits=(Limit("slow below", "x", slow_below if slow_below >= _LEAST else np.nan),
                Limit("fast above", "x", fast_above if fast_above <= _MOST else np.nan)),
        sentence=said,
        alt=("The share of the time for which the contacts are shut, in per cent, against the supply's volts off load. A straight line "
             "falls from 100 per cent, at the least volts that hold the speed, to none at the most. Outside these two it has no place: "
             f"there the speed is held no longer. {said}"))


CONTACTS = LivePicture(
    key="governor-contacts", picture=contact_picture,
    sliders=(Slider("supply", "supply, off load", "V", ladder(_LEAST, _MOST, 53), start=OPEN_VOLTAGE.m_as("V")),
             Slider("current", "current drawn by the motor", "A", ladder(0.02, 0.2, 37), start=PLAY.m_as("A")),
             Slider("bridging", "resistor across the contacts", "ohm", (22, 33, 47, 68, 100, 150, 220, 330), start=100)),
    goal="9 V, 85 mA: find the smallest resistor across the contacts with which they still hold. Then take the load off, to 40 mA: what "
         "does the motor do now?",
    phone_sliders=("bridging", "current"))


def guess_contacts():
    """Guess first: what a motor with welded contacts does; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="governor-contacts",
        question="A motor has a flying contact on its shaft, with a resistor across it. One day it runs far too fast. What has most "
                 "likely happened?",
        choices=(
            Choice("The contacts have welded shut.",
                   "Then the motor gets all the volts all the time: on 9 V, at 85 mA, over twice its speed. The spring can still pull, "
                   "nothing opens.", right=True),
            Choice("The contacts are dirty and no longer close.",
                   "Then the current goes through the resistor alone: slow, or not turning at all."),
            Choice("The cells are too fresh.",
                   "Fresh cells only make the contacts stay open longer. It runs fast where even the resistor lets through too much: at a "
                   "very light load, or with a resistor that has lost ohms."),
            Choice("The spring has gone weak.",
                   "A weaker spring opens <em>sooner</em>: slow. Half the force is 29 % slower, for the speed goes as its root."),
        )), reveal=opening(CONTACTS), store=my_guesses())


def _said(volts, current, held, share, slow_below, fast_above, *, left):
    load = f"On {show(Q(volts, 'V'), 'V')} off load, at a load of {show(current, 'A', digits=2)}"
    ends = show(Q(slow_below, "V"), "V") + (f" to {show(Q(fast_above, 'V'), 'V')}" if fast_above <= _MOST else " upwards")
    if not np.isnan(held):
        return f"{load}: the contacts are shut {held:.0f} % of the time. They hold {show(PLAY_SPEED, 'turn/min')} from {ends}."
    stands = left <= (BRUSH + current * WINDING).m_as("V")
    turns = "it stands" if stands else f"it turns at {_about(motor_speed(voltage=Q(left, 'V'), current=current, **_MOTOR))}"
    if share > 100:
        return f"{load}: too few volts. The contacts are shut all the time, and {turns}. They would hold from {ends}."
    return (f"{load}: too many volts. The contacts are open all the time, the resistor alone lets through too much, and {turns}. They "
            f"would hold from {ends}.")


def _about(speed):
    """A speed that nobody will hold to the last turn."""
    return f"about {show(Q(float(format(speed.m_as('turn/min'), '.2g')), 'turn/min'), 'turn/min')}"
