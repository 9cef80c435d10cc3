"""Book 04, pluck and press: a fitted belt's pull without a balance, and what pressing itself adds; never on a running belt."""

import numpy as np

from benchreckoner.lessons.belt_example import DENSITY, DISTANCE, HARDNESS, MOTOR_SEAT, SEAT_PATH, SIDE, STRETCH, WHEEL_SEAT
from benchreckoner.lessons.belt_pull import newtons
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.belt_pull import belt_mass
from benchreckoner.physics.belt_tests import pluck_frequency, press_tension, simple_press_tension
from benchreckoner.physics.rubber import modulus_from_hardness, neo_hookean_tension
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q

OURS = ("Pressed by a tenth of its span the belt gave a pull of 0.34 N by the usual formula, but pressing stretches it: with that taken off it is "
        "about 0.25 N if both pulleys grip, and up to 0.32 N if the belt slides on them. Which of the two it does I have not measured, so "
        "I would press less, or pluck it as a check.")
_GRAM = 9.80665e-3  # newton
_SPAN = np.sqrt(DISTANCE**2 - ((WHEEL_SEAT - MOTOR_SEAT) / 2) ** 2).to("mm")
_PATH = (SEAT_PATH + np.pi * SIDE).to("mm")
_LEAST, _MOST = 0.015, 0.1
_ALONG = np.linspace(_LEAST, _MOST, 35)
_RUBBER = dict(area=SIDE**2, modulus=modulus_from_hardness(hardness=HARDNESS))


def press_picture(*, deflection, stretch):
    """How many times the true pull the press test's usual formula reads, against the deflection.

    Parameters
    ----------
    deflection : Quantity [percent]
        By the span.
    stretch : Quantity [percent]
        Of the fitted belt.

    Returns
    -------
    Picture
    """
    here, ratio = deflection.m_as(""), 1 + stretch.m_as("")
    test = dict(force=Q(1, "N"), deflection=np.append(_ALONG, here) * _SPAN, span=_SPAN)
    simple = simple_press_tension(**test).m_as("N")
    true = {name: press_tension(**test, stretch_ratio=ratio, path_length=whole).m_as("N")
            for name, whole in (("grip", None), ("share", _PATH))}
    times = {name: simple / pull for name, pull in true.items()}
    rest = float(neo_hookean_tension(**_RUBBER, stretch_ratio=ratio).m_as("N"))
    force = rest / float(true["grip"][-1])
    mass = belt_mass(density=DENSITY, area=SIDE**2, stretch_ratio=ratio)
    tone = pluck_frequency(tension=Q(rest, "N"), mass_per_length=mass, span=_SPAN).m_as("Hz")
    told = (f"A span of {_SPAN.m_as('mm'):.1f} mm, the belt stretched by {100 * (ratio - 1):.1f} %, pressed by {here * _SPAN.m_as('mm'):.2g} mm, "
            f"{100 * here:.1f} % of the span. If both pulleys grip, that takes {newtons(force)}, the weight of {force / _GRAM:.2g} g. The usual formula "
            f"makes {newtons(force * float(simple[-1]))} of it, and the belt pulls with {newtons(rest)}: {times['grip'][-1]:.2f} times the truth. If "
            f"the belt slides on its pulleys and the whole loop gives way, it reads {times['share'][-1]:.2f} times. Plucked instead, it sounds at "
            f"{tone:.0f} Hz.")
    along, place = 100 * _ALONG, 100 * here
    return Picture(
        title="What pressing adds to the pull",
        x=Axis("deflection by the span", "%", 0, 100 * _MOST), y=Axis("formula by true pull", "", 0.9, 2.1),
        curves=(Curve("both pulleys grip", along, times["grip"][:-1], "first"), Curve("the whole loop gives way", along, times["share"][:-1], "second")),
        points=(Point("gripped", place, times["grip"][-1]),),
        limits=(Limit("true", "y", 1),), sentence=told,
        alt=("Two curves against the deflection, of what the usual formula reads in times of the true pull. Both start just above one on the left and "
             f"bend upwards, the gripped one several times as steeply. {told}"))


PRESS = LivePicture(
    key="belt-press", picture=press_picture,
    sliders=(Slider("deflection", "deflection by the span", "%", tuple(step / 2 for step in range(3, 21)), start=10),
             Slider("stretch", "stretch of the belt", "%", tuple(step / 2 for step in range(4, 31)), start=100 * STRETCH)),
    goal="5 % of stretch: find the largest deflection at which the formula reads less than a tenth too high although both pulleys grip. How many "
         "millimetres is that? Then see whether a belt that is stretched more forgives more.",
    phone_sliders=("deflection", "stretch"))


def guess_press():
    """Guess first: what is true behind a press test's formula; the picture opens afterwards."""
    return number_guess(NumberGuess(
        key="belt-press-true", question="A belt at rest, stretched by 5 %. You press the middle of its free span by a tenth of its length; it takes "
        "0.135 N. The usual formula, force times span over four times deflection, says 0.337 N. The pulleys grip the belt. How hard did it "
        "pull before you pressed?", unit="N", truth=Q(0.2474, "N"),
        explanation="<p>Pressed, the span is 2 % longer, and that is two fifths of the 5 % it had. For a steel wire the formula is fine at once; "
                    "rubber needs the stretch of the test taken off, or a test so small that it hardly stretches.</p>"),
        reveal=opening(PRESS), store=my_guesses())


def guess_octave():
    """Guess first: what an octave costs a pluck test; no picture opens."""
    return choice_guess(ChoiceGuess(
        key="belt-pluck-octave",
        question="A phone shows 256 Hz for the plucked belt. In truth that is its second tone, an octave above the lowest. By how much is the pull "
                 "wrong that you reckon from it?",
        choices=(
            Choice("Twice as much.", "The tone is twice the true one, and the pull goes as its <em>square</em>."),
            Choice("Four times as much.", "The pull goes as tone times tone. Pluck in the middle of the span, where the second tone has no place, and "
                   "see whether the number makes sense.", right=True),
            Choice("Half as much.", "A higher tone means a harder pull, not a weaker one."),
            Choice("Not at all: an octave is the same note.", "To the ear, nearly. In hertz it is a factor of two."))), store=my_guesses())


def say_press():
    """Two sentences to somebody who pressed a belt."""
    return say_it(
        "belt-press", "A friend pressed a belt by a tenth of its span and is proud of “0.34 N”. Tell them in two sentences what that is worth.",
        ours=OURS,
        checks=SayChecks(what=("pull", "pulls", "tension", "pressing"), known=("formula", "pressed", "press"),
                         quantities=((Q(0.25, "N"), "N"), (Q(0.34, "N"), "N"))),
        store=my_guesses())
