"""Book 04, how hard a belt pulls: stretch, hardness and section to tension and hub load, as bands; guesses, and saying it."""

import numpy as np

from benchreckoner.bench.rubber_fit import guessed_modulus
from benchreckoner.lessons.belt_example import DRIVE, HARDNESS, SEAT_PATH, SIDE, STRETCH
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.belt_hub import hub_load
from benchreckoner.physics.rubber import neo_hookean_tension
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q

HUB_MOST = 1.0  # N across the shaft of a small motor: common practice
OURS = ("A square belt of 1.2 mm and 60 Shore A at 5 % of stretch pulls with about 0.25 N, but 60 Shore A is not one stiffness: anything "
        "between 0.16 and 0.37 N is likely. I have not weighed the rubber; a few masses on a loop would narrow that to about a "
        "tenth, and its thickness then has no part in it.")
_LEAST, _MOST = 0.01, 0.15
_ALONG = np.linspace(_LEAST, _MOST, 57)
_ACROSS = float(hub_load(tight_pull=Q(1, "N"), slack_pull=Q(1, "N"), wrap=DRIVE.motor_wrap).m_as("N"))  # newton across the shaft for each of pull


def pull_picture(*, stretch, hardness, side):
    """Pull of a square belt against its stretch, as wide as its hardness leaves it.

    Parameters
    ----------
    stretch : Quantity [percent]
    hardness : float
        Shore A.
    side : Quantity [m]
        Of the square.

    Returns
    -------
    Picture
    """
    here, place = stretch.m_as(""), stretch.m_as("%")
    stiff = guessed_modulus(hardness)
    ratios = np.concatenate((1 + _ALONG, [1 + here, 1 + _shorter_stretch(here, side)]))
    unit = neo_hookean_tension(area=side**2, modulus=Q(1, "MPa"), stretch_ratio=ratios).m_as("N")
    low, middle, high = unit * stiff.m_as("MPa")[:, None]
    along, at = 100 * _ALONG, len(_ALONG)
    told = (f"{_side(side)} square, {hardness:.0f} Shore A, {place:.1f} % of stretch: the belt pulls with about {newtons(middle[at])}, and anything "
            f"from {newtons(low[at])} to {newtons(high[at])} is likely, since rubber of one hardness is not of one stiffness. Across the "
            f"motor's shaft that is about {newtons(_ACROSS * middle[at])}, {newtons(_ACROSS * low[at])} to {newtons(_ACROSS * high[at])}. A belt "
            f"of 1 mm less inside diameter would pull {_times(middle[at + 1] / middle[at])}.")
    return Picture(
        title="How hard a belt pulls",
        x=Axis("stretch", "%", 0, 100 * _MOST), y=Axis("force", "N", 1e-3, 20, scale="log"),
        bands=(Band("pull, by its hardness", along, low[:at], high[:at], "first"),),
        curves=(Curve("pull of the belt", along, middle[:at], "first"),
                Curve("across the motor's shaft", along, _ACROSS * middle[:at], "second")),
        points=(Point("pull here", place, middle[at]),),
        limits=(Limit("1 N across the shaft", "y", HUB_MOST),), sentence=told,
        alt=("Pull of a belt against its stretch, force on a log axis: a band that rises steeply from the left and ever more gently to the "
             f"right, with a line through its middle. A second line, {_ACROSS:.2f} times as large, is the load across the motor's shaft. {told}"))


def _shorter_stretch(stretch, side):
    """Stretch of a belt with 1 mm less inside diameter on the same path."""
    path = SEAT_PATH.m_as("m") + np.pi * side.m_as("m")
    return path / (path / (1 + stretch) - np.pi * 1e-3) - 1


def _side(side):
    return f"{side.m_as('mm'):.2g} mm"


def newtons(force):
    """A plain number of newtons, to two digits and without a prefix, so that pulls compare at a glance.

    >>> newtons(0.2474), newtons(0.3), newtons(12.6), newtons(0.00412)
    ('0.25 N', '0.30 N', '13 N', '0.0041 N')
    """
    return f"{force:.{max(0, 1 - int(np.floor(np.log10(float(f'{force:.1e}')))))}f} N"


def _times(factor):
    return f"{100 * (factor - 1):.0f} % harder" if factor < 2 else f"{factor:.1f} times as hard"


PULL = LivePicture(
    key="belt-pull", picture=pull_picture,
    sliders=(Slider("stretch", "stretch of the belt", "%", tuple(step / 2 for step in range(2, 31)), start=100 * STRETCH),
             Slider("hardness", "hardness, Shore A", "", tuple(range(30, 76)), start=HARDNESS),
             Slider("side", "side of the square belt", "m", tuple(round(step * 1e-4, 4) for step in range(6, 31)), start=SIDE.m_as("m"))),
    goal="Start from 5 %, 60 Shore A, 1.2 mm. Find the side at which the middle of the load across the shaft passes 1 N. Then go back to 1.2 mm "
         "and find the stretch below which one millimetre of diameter doubles the pull.",
    phone_sliders=("stretch", "side"))


def guess_millimetre():
    """Guess first: what a belt one millimetre smaller does to the pull; the picture opens afterwards."""
    return number_guess(NumberGuess(
        key="belt-pull-millimetre", question="A belt of 68.8 mm inside diameter sits on its path with 5 % of stretch. You take one of 67.8 mm "
        "instead, all else alike. By how many per cent does the pull grow?", unit="%", truth=Q(29.0, "percent"),
        explanation="<p>One millimetre of diameter is 3.14 mm round: 1.43 % of a belt of 220 mm. That is little beside the belt, and a lot "
                    "beside its stretch: 5 % becomes 6.5 %. So lists in steps of 1 mm are coarse, and a pull is never one number.</p>"),
        reveal=opening(PULL), store=my_guesses())


def guess_hardness():
    """Guess first: what a stated hardness says of the pull; no picture opens."""
    return choice_guess(ChoiceGuess(
        key="belt-pull-hardness",
        question="Two belts, both sold as 60 Shore A, both 1.2 mm square, both stretched by 5 %. How far apart can their pulls be?",
        choices=(
            Choice("Not at all: the hardness fixes the stiffness.", "A durometer feels the skin under a needle, and the fillers in a compound "
                   "change needle and stretch in different measure. Compounds of one hardness differ by 30 % either way."),
            Choice("By some per cent, what a meter is off.", "The meter is the smaller part: 5 points less are 18 %, 5 points more 23 %. The "
                   "compounds themselves differ by 30 % either way."),
            Choice("By a factor of about two.", "From 0.16 to 0.37 N is likely: 30 % either way for the compound, 5 points either way for "
                   "the seller. The needle moreover asks for 6 mm of rubber, so a belt cannot be read at all.", right=True),
            Choice("By a factor of ten.", "Even 30 and 80 Shore A lie only eight times apart."),
        )), store=my_guesses())


def say_pull():
    """Two sentences to somebody who asks how hard the belt pulls."""
    return say_it(
        "belt-pull", "Somebody asks: “How hard does that belt pull?” Answer in two sentences for the square belt of 1.2 mm and 60 Shore A "
        "at 5 %: how much, how you know, how sure you are, and what you have not measured.",
        ours=OURS,
        checks=SayChecks(what=("pull", "pulls", "tension"), known=("Shore", "hardness", "weighed", "masses"),
                         quantities=((Q(0.25, "N"), "N"), (Q(0.16, "N"), "N"), (Q(0.37, "N"), "N"))),
        store=my_guesses())
