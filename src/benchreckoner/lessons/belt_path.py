"""Book 04, the path of a belt: a drawing to scale, the guesses, and saying which size to order."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.belt_path import belt_line, two_pulley_path
from benchreckoner.physics.belt_sizes import INSIDE_DIAMETER, size_as_sold, wanted_circumference
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Picture
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q

STRETCH = 0.05  # common practice for square and round belts: 3 to 8 %
OURS = ("A thread in the seats says 227.2 mm, so a square belt of 1.2 mm runs 231.0 mm along its middle; with 5 % of stretch that asks "
        "for an inside diameter of about 68.8 mm, or an inside circumference of about 216 mm. The thread is good to within 1 mm, which "
        "is under a tenth of the stretch; the old belt I did not trust, since nobody knows its set.")
_RIM = np.linspace(0, 2 * np.pi, 61)
_ARC = 41


def path_picture(*, motor, wheel, distance, thickness):
    """The path of an open belt over a motor pulley and a wheel, drawn to scale.

    Parameters
    ----------
    motor, wheel : Quantity [m]
        Diameters of the two seats.
    distance : Quantity [m]
        Between the middles of the shafts.
    thickness : Quantity [m]
        Of the belt; its middle lies half of it above the seats.

    Returns
    -------
    Picture
        Without a belt where the pulleys would overlap.
    """
    apart, radii = distance.m_as("mm"), (motor.m_as("mm") / 2, wheel.m_as("mm") / 2)
    here = (f"Seats of {_mm(motor)} and {_mm(wheel)}, {_mm(distance)} from middle to middle, belt {_mm(thickness)} thick")
    across, up, told = np.full(2 * _ARC + 1, np.nan), np.full(2 * _ARC + 1, np.nan), (
        f"{here}: the two pulleys would overlap, which cannot be. Perhaps the gap between the rims was measured.")
    if apart > sum(radii):
        height = thickness / 2
        line = belt_line(diameters=Q([2 * radius for radius in radii], "mm"), across=Q([0, apart], "mm"), up=Q([0, 0], "mm"),
                         senses=[1, 1], neutral_height=height, arc_points=_ARC)
        across, up = (places.m_as("mm") for places in line)
        told = f"{here}: {_path_words(motor, wheel, distance, height)}"
    circles = [(radius * np.cos(_RIM) + middle, radius * np.sin(_RIM)) for radius, middle in zip(radii, (0, apart))]
    return Picture(
        title="The path of a belt, to scale",
        x=Axis("across", "mm", -15, 175), y=Axis("up", "mm", -70, 70), to_scale=True,
        curves=(Curve("motor pulley's seat", *circles[0], "third"), Curve("wheel's seat", *circles[1], "second"),
                Curve("middle of the belt", across, up, "first")),
        sentence=told,
        alt=(f"Two circles seen from above, drawn to scale, {'with the belt as one line round both' if np.isfinite(across[0]) else 'without a belt'}. "
             f"{told}"))


def _path_words(motor, wheel, distance, height):
    path = two_pulley_path(first_diameter=motor, second_diameter=wheel, distance=distance, neutral_height=height)
    seats = path.length - 2 * np.pi * height  # one full turn of wraps in an open loop
    order = wanted_circumference(path_length=path.length, stretch=STRETCH, neutral_height=height)
    diameter = size_as_sold(inside_circumference=order, measure=INSIDE_DIAMETER, neutral_height=height)
    return (f"the path is {_mm(path.length)} along the belt's middle and {_mm(seats)} along the seats. The belt lies on the motor "
            f"pulley over {path.first_wrap.m_as('deg'):.0f}°, on the wheel over {path.second_wrap.m_as('deg'):.0f}°. With 5 % of stretch "
            f"that asks for an inside diameter of {_mm(diameter)}, which is an inside circumference of {_mm(order)}.")


PATH = LivePicture(
    key="belt-path", picture=path_picture,
    sliders=(Slider("distance", "from middle to middle", "m", tuple(step / 1000 for step in range(25, 121)), start=0.055),
             Slider("wheel", "seat of the wheel, across", "m", tuple(step / 1000 for step in range(20, 101, 8)), start=0.060),
             Slider("motor", "seat of the motor pulley, across", "m", ladder(0.003, 0.015, 25), start=0.006),
             Slider("thickness", "thickness of the belt", "m", ladder(0.0006, 0.003, 13), start=0.0012)),
    goal="Seats 6 and 60 mm, belt 1.2 mm: find the distance that asks for an inside diameter of about 75 mm. Then bring the shafts together "
         "until the belt lies on the motor pulley over less than 90°. By how much did the wheel's share grow?",
    phone_sliders=("distance", "wheel"))


def guess_size():
    """Guess first: which size to order; the drawing opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="belt-path-size",
        question="The path of a belt is 231 mm along its middle. You want 5 % of stretch, a square belt of 1.2 mm. The shop lists its belts "
                 "by <em>inside diameter</em>. Which one?",
        choices=(
            Choice("220 mm.", "That is the length <em>round</em> the belt. A belt of 220 mm <em>inside diameter</em> is 691 mm round: three "
                   "times too long. Taking one for the other is a factor of 3.14, and the purchase that people make twice."),
            Choice("73.5 mm.", "That is 231 by pi: a belt about as long as its path. It lies on the pulleys and pulls at nothing."),
            Choice("77 mm.", "Stretch the wrong way round: a belt must be <em>shorter</em> than its path."),
            Choice("About 69 mm.", "231 by 1.05 is 220 mm along the middle of the free belt. The inside is shorter by 1.2 mm times pi: 216 mm. "
                   "By pi once more: 68.8 mm.", right=True),
        )), reveal=opening(PATH), store=my_guesses())


def guess_folded():
    """Guess first: what pressing a belt flat and doubling the length does; no picture opens."""
    return choice_guess(ChoiceGuess(
        key="belt-path-folded",
        question="You press an old square belt of 1.5 mm flat: 60 mm from tip to tip, outside. Is its inside circumference 120 mm?",
        choices=(
            Choice("Yes: twice the folded length.", "The tips are rubber too. Each leg has a thickness of belt at either end that is not inside."),
            Choice("No, it is shorter: about 114 mm.", "Each of the two legs loses 1.5 mm at both ends: 6 mm in all, 5 % of 120. That is a "
                   "whole stretch.", right=True),
            Choice("No, it is longer: the fold takes some up.", "The outside of a fold is longer, the inside is not."),
        ),
        explanation="<p>If the folds bulge instead of closing, a little comes back: 2.3 times the radius inside the fold, for both together. "
                    "Two thin pins inside, pulled apart gently, are better than any fold.</p>"), store=my_guesses())


def say_size():
    """Two sentences to somebody who will order the belt."""
    return say_it(
        "belt-path", "A friend orders the belt for you. Tell them in two sentences which size, how you know it, and how sure you are.",
        ours=OURS,
        checks=SayChecks(what=("inside diameter", "inside circumference"), known=("thread", "calliper", "string", "old belt"),
                         quantities=((Q(68.8, "mm"), "m"), (Q(216, "mm"), "m"), (Q(231, "mm"), "m"), (Q(227.2, "mm"), "m"))),
        store=my_guesses())


def _mm(length):
    return f"{length.m_as('mm'):.2f}".rstrip("0").rstrip(".") + " mm" if length.m_as("mm") < 20 else f"{length.m_as('mm'):.1f} mm"
