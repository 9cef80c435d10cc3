"""Book 02, the tin of faults: which resistor from the drawer imitates which bad contact, on the host's own machine."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.contacts import contact_resistance, voltage_drop
from benchreckoner.physics.preferred import SERIES, preferred_neighbours
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Picture, Point
from benchreckoner.units import Q, show

_LEAST_OHMS, _MOST_OHMS = 0.03, 200.0
_LEAST_VOLTS, _MOST_VOLTS = 0.05, 2.0
_DRAWER = np.array([value * 10.0**power for power in range(-2, 3) for value in SERIES["E12"]])


def which_resistor(*, wish, current):
    """The ohms that lose the wished volts at one current, and the two resistors that the drawer has for it.

    Parameters
    ----------
    wish : Quantity [V]
    current : Quantity [A]

    Returns
    -------
    Picture
    """
    wishes = Q(np.geomspace(_LEAST_VOLTS, _MOST_VOLTS, 61), "V")
    exact = contact_resistance(voltage_drop=wish, current=current)
    below, above = preferred_neighbours(value=exact)
    amperes, place = float(current.m_as("A")), float(wish.m_as("V"))
    # The nearest by ratio changes half-way between two values on a log scale.
    steps = amperes * np.sqrt(_DRAWER[:-1] * _DRAWER[1:])
    stair_x = np.concatenate([[amperes * _DRAWER[0]], np.repeat(steps, 2), [amperes * _DRAWER[-1]]])
    lost = [show(voltage_drop(current=current, contact_resistance=one), "V", 2) for one in (below, above)]
    miss = 100 * min(abs((one / exact).m_as("") - 1) for one in (below, above))
    drawer = (f"The drawer has just that: {show(below, 'ohm', 2)}." if miss < 0.05 else
              f"The drawer has {show(below, 'ohm', 2)}, which loses {lost[0]}, and {show(above, 'ohm', 2)}, which loses {lost[1]}: "
              f"the nearer one misses the wish by {miss:.0f} %.")
    return Picture(
        title="A wish, and what the drawer has",
        x=Axis("volts to lose", "V", _LEAST_VOLTS, _MOST_VOLTS, scale="log"),
        y=Axis("ohms", "ohm", _LEAST_OHMS, _MOST_OHMS, scale="log"),
        curves=(Curve("ohms that lose just that", wishes.m_as("V"),
                      contact_resistance(voltage_drop=wishes, current=current).m_as("ohm")),
                Curve("nearest in the drawer", stair_x, np.repeat(_DRAWER, 2), "second")),
        points=(Point("wished", place, float(exact.m_as("ohm"))), Point("milder", place, float(below.m_as("ohm")), "other"),
                Point("stronger", place, float(above.m_as("ohm")), "extra")),
        sentence=f"To lose {show(wish, 'V', 2)} at {show(current, 'A', 2)} takes {show(exact, 'ohm')}. {drawer}",
        alt=("A straight rising line of the ohms against the volts to lose, both axes log, and a stair along it: the twelve "
             f"values a decade that are sold. For {show(wish, 'V', 2)} the line stands at {show(exact, 'ohm')}, between "
             f"{show(below, 'ohm', 2)} and {show(above, 'ohm', 2)}."))


WHICH_RESISTOR = LivePicture(
    key="tin-which-resistor", picture=which_resistor,
    sliders=(Slider("wish", "volts to lose", "V", ladder(_LEAST_VOLTS, _MOST_VOLTS, 33, "log"), start=0.45),
             Slider("current", "the motor's current, playing", "A", ladder(0.02, 1, 18, "log"), start=0.1)),
    goal="At 100 mA, find a wish that the drawer meets exactly. Then the wish that even the nearest misses by most: by how much?",
    phone_sliders=("wish", "current"))


def guess_tin():
    """Guess first: which resistor to put into the tin for a bad spring; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="tin-which", question="A workshop wants a bad spring that loses half a volt. The motor draws 0.1 A playing and 1 A "
        "while it is held; the supply has 9 V. What goes into the tin?",
        choices=(
            Choice("A rusty spring from the junk box: nothing is more real.",
                   "Real, and another one at every touch. Nobody can tell a participant whether the reading was right. A fault to "
                   "learn on has a known size."),
            Choice("4.7 Ω, a quarter of a watt: 0.5 V times 0.1 A is only 50 mW.",
                   "That is while it plays. Somebody will hold the motor: 9 V over 9 Ω and 4.7 Ω is 0.66 A, and 2 W go into the "
                   "little part. It smokes."),
            Choice("4.7 Ω, 5 W.", "0.47 V at 0.1 A. Held, 2 W go into it, and twice that is common practice.", right=True),
            Choice("0.5 Ω, 5 W: half a volt, half an ohm.",
                   "Half an ohm loses half a volt at 1 A. This motor plays at 0.1 A, so it would lose a tenth of the wish."),
        )), reveal=opening(WHICH_RESISTOR), store=my_guesses())
