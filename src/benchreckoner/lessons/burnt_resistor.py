"""Book 05, a burnt resistor: how hot it may run, what its damaged bands leave open, and saying it."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.resistors import FILM_HOTTEST, FULL_POWER_UP_TO, allowed_power, hot_spot
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact

RATINGS = (0.125, 0.25, 0.5, 1, 2, 3, 5)  # watts, as sold
OURS = ("The burnt resistor was most likely 47 Ω and not the 18 Ω that its bands show now: its twin in the other channel reads "
        "46.5 Ω with a leg lifted, good to about 1 %, and heat turns yellow brown and violet grey. What burnt it is not known yet, so "
        "no new one goes in before the ohms behind it are read.")
_COOLEST, _WARMEST = 0.0, 150.0
_LEAST, _MOST = 0.02, 10.0
_AIR = Q(np.linspace(_COOLEST, _WARMEST, 76), "degC")
_CHARS = 200  # degC; beyond it the law of the hot spot has long ended


def heat_picture(*, rated, power, ambient):
    """What a resistor may turn into heat against the air round it, and where it stands.

    Parameters
    ----------
    rated, power : Quantity [W]
        As sold, and turned into heat now.
    ambient : Quantity [degC]

    Returns
    -------
    Picture
    """
    may = allowed_power(rated_power=rated, temperature=_AIR).m_as("W")
    here = allowed_power(rated_power=rated, temperature=ambient)
    spot = hot_spot(ambient=ambient, power=power, rated_power=rated).m_as("degC")
    air, heat, most = show_exact(ambient, "degC"), show(power, "W", 2), show(here, "W", 2)
    how_hot = (f"its hot spot is near {spot:.0f} °C" if spot <= _CHARS else
               f"by the straight line its hot spot would be above {_CHARS} °C, where the line has ended and the part chars")
    if power > here * (1 + 1e-9):
        told = f"That is too much: it may make {most} here, and its body may reach {FILM_HOTTEST.magnitude:.0f} °C."
    elif power > here / 2 * (1 + 1e-9):
        told = f"It may make {most} here, so it lives, and hot. Common practice is half: {show(here / 2, 'W', 2)}."
    else:
        told = f"It may make {most} here, and this is half of that or less, as common practice asks."
    return Picture(
        title="What a film resistor may turn into heat",
        x=Axis("air round the resistor", "degC", _COOLEST, _WARMEST, symbol="°C"),
        y=Axis("heat", "W", _LEAST, _MOST, scale="log"),
        curves=(Curve("it may make", _AIR.magnitude, may, "heavy"), Curve("half, common practice", _AIR.magnitude, may / 2, "second")),
        points=(Point("here", float(ambient.m_as("degC")), float(power.m_as("W"))),),
        limits=(Limit("rated up to here", "x", FULL_POWER_UP_TO.magnitude),),
        sentence=f"{heat} in a resistor of {rated.m_as('W'):g} W, {air} round it: {how_hot}. {told}",
        alt=(f"Heat on a log axis against the air's temperature. What a resistor of {rated.m_as('W'):g} W may make runs level up to "
             f"70 °C and then falls, faster and faster on this axis, towards nothing at {FILM_HOTTEST.magnitude:.0f} °C; half of "
             f"it runs below. The mark stands at {heat} and {air}, where {most} are allowed."))


HEAT = LivePicture(
    key="resistor-heat", picture=heat_picture,
    sliders=(Slider("rated", "watts as sold", "W", RATINGS, start=0.25),
             Slider("power", "watts turned into heat", "W", ladder(0.05, 5, 41, "log"), start=0.4),
             Slider("ambient", "air round it", "degC", tuple(range(10, 121, 5)), start=60)),
    goal="0.4 W in air of 60 °C: find the smallest resistor that stands it. Then the smallest that has half in hand.",
    phone_sliders=("rated", "power"))


def guess_bands():
    """Guess first: what four bands on a charred body say; the picture of its heat opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="burnt-bands",
        question="A charred resistor of a quarter of a watt, fed from 9 V, shows brown, grey, black, gold. The "
                 "same part in the other channel, one leg lifted, reads 46.5 Ω. What goes in?",
        choices=(
            Choice("18 Ω: brown, grey, black. Bands do not lie.",
                   "They do once they were hot. Yellow goes brown, violet goes grey, red goes brown (common practice). 18 Ω in "
                   "place of 47 Ω would let two and a half times the current through."),
            Choice("47 Ω, once I know what burnt the old one.",
                   "<em>Yellow, violet</em>, black it was, and the twin says so to 1 %. But a resistor hardly burns by itself. "
                   "What it feeds comes first.", right=True),
            Choice("47 Ω of twice the watts, so that it holds next time.",
                   "The value is right. Twice the watts is no cure: whatever burnt this one still draws its current, and now "
                   "something dearer burns. A fusible type must even be the same type."),
            Choice("46.5 Ω: that is what the twin reads.",
                   "Nobody makes 46.5 Ω in this series. The twin is a 47 Ω part, 1 % low, and may be so."),
        )), reveal=opening(HEAT), store=my_guesses())


def say_what_it_was():
    """Two sentences to the machine's owner, who asks whether it is a simple swap."""
    return say_it(
        "burnt-resistor", "The owner asks: “So you just swap the burnt one?” Say in two sentences what it was, how you know, and "
                          "why you do not solder yet. (Bands now brown, grey, black, gold; the twin reads 46.5 Ω.)",
        ours=OURS,
        checks=SayChecks(what=("resistor",), known=("twin", "channel"), tolerance=0.02,
                         quantities=((Q(47, "ohm"), "ohm"), (Q(46.5, "ohm"), "ohm"), (Q(18, "ohm"), "ohm"))),
        store=my_guesses())
