"""Book 02, the tin of faults: which resistor from the drawer imitates which bad contact, on the host's own machine."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.contacts import contact_resistance, voltage_drop
from benchreckoner.physics.preferred import SERIES, preferred_neighbours
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import show

_MOST_MISS = 30.0  # per cent: the widest step of the series is a quarter
_LEAST_VOLTS, _MOST_VOLTS = 0.05, 2.0
_POINTS = 6  # drawn for each tooth, which is nearly straight
_DRAWER = np.array([value * 10.0**power for power in range(-2, 3) for value in SERIES["E12"]])


def which_resistor(*, wish, current):
    """How far the resistors of a drawer miss a wish for volts lost, at one current.

    Parameters
    ----------
    wish : Quantity [V]
    current : Quantity [A]

    Returns
    -------
    Picture
    """
    exact = contact_resistance(voltage_drop=wish, current=current)
    pair = preferred_neighbours(value=exact)
    lost = [show(voltage_drop(current=current, contact_resistance=one), "V", 2) for one in pair]
    ohms = [show(one, "ohm", 2) for one in pair]
    low, high = (round(float(100 * ((one / exact).m_as("") - 1)), 9) + 0.0 for one in pair)
    place = float(wish.m_as("V"))
    # The nearest by ratio changes half-way between two values on a log scale: a tooth for each value of the drawer.
    turns = np.sqrt(_DRAWER[:-1] * _DRAWER[1:])
    teeth = np.geomspace(turns[:-1], turns[1:], _POINTS).T.ravel()
    nearest = np.repeat(_DRAWER[1:-1], _POINTS)
    drawer = (f"The drawer has just that: {ohms[0]}." if max(high, -low) < 0.05 else
              f"The drawer has {ohms[0]}, which loses {lost[0]}, and {ohms[1]}, which loses {lost[1]}: "
              f"the nearer one misses the wish by {min(high, -low):.0f} %.")
    choice = (f"{ohms[0]}, just that" if max(high, -low) < 0.05 else
              f"two, {ohms[0]}, {low:.0f} % off, and {ohms[1]}, {high:.0f} % off".replace("-", "−"))
    return Picture(
        title="What the drawer makes of a wish",
        x=Axis("volts to lose", "V", _LEAST_VOLTS, _MOST_VOLTS, scale="log"),
        y=Axis("loses more or less than wished", "percent", -_MOST_MISS, _MOST_MISS, symbol="%"),
        curves=(Curve("the nearest in the drawer", float(current.m_as("A")) * teeth, 100 * (nearest / teeth - 1)),),
        points=(Point("milder", place, low, "other"), Point("stronger", place, high, "extra")),
        limits=(Limit("as wished", "y", 0),),
        sentence=f"To lose {show(wish, 'V', 2)} at {show(current, 'A', 2)} takes {show(exact, 'ohm')}. {drawer}",
        alt=("A saw of twelve teeth a decade over the volts to lose: each tooth is one value that is sold, and falls through zero "
             f"where it loses just what is wished. For {show(wish, 'V', 2)}: {choice}."))


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
