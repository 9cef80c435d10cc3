"""Book 07, pictures and clips: letters that a phone's viewer can read, and a clap that is heard late."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.viewing import letter_angle, sound_delay
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import NumberGuess, number_guess
from benchreckoner.show.picture import Axis, Band, Curve, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show

LINES = 720  # of a frame, along its short side
OTHER_WAY = 16 / 9  # by so much a film shrinks on a phone held the other way
LEAST, EASE = Q(16, "arcmin"), Q(20, "arcmin")  # ISO 9241-3, as an ergonomics page quotes it
_EFFORT = 10  # minutes of arc that can still be used; the same page
_NEAREST, _FARTHEST = 200, 700  # mm
_ROOM = Q(20, "degC")
OURS = ("The digits are about 1.8 mm high on the screen, and from 350 mm they look about 18 minutes of arc: enough to be read, a little short of "
        "ease. That does not hold for a phone held the other way, where they shrink by 16 to 9 and are too small to count on.")


def looks(*, lines, side, distance):
    """How high letters of a film look on a phone, held to suit the film and held the other way, against the distance.

    Parameters
    ----------
    lines : float
        Height of a capital letter, of the 720 lines along a frame's short side.
    side : Quantity [m]
        The screen's short side.
    distance : Quantity [m]
        From the eye.

    Returns
    -------
    Picture
    """
    high = lines / LINES * side
    along = np.linspace(_NEAREST, _FARTHEST, 201)
    where = Q(np.append(along, distance.m_as("mm")), "mm")
    seen = [letter_angle(height=one, distance=where).m_as("arcmin") for one in (high, high / OTHER_WAY)]
    here = [float(one[-1]) for one in seen]
    sentence = (f"Capitals {lines:.0f} of {LINES} lines high, on a screen {show(side, 'm', digits=2)} across its short side, from "
                f"{show(distance, 'm')}. Held to suit the film they look {here[0]:.0f} minutes of arc high and {read_words(here[0])}; held the "
                f"other way {here[1]:.0f}, and {read_words(here[1])}.")
    return Picture(
        title="How high a film's letters look on a phone",
        x=Axis("distance from the eye", "mm", _NEAREST, _FARTHEST), y=Axis("height seen", "arcmin", 1, 200, scale="log", symbol="arcmin"),
        bands=(Band("can be read; above it, with ease", along, np.full_like(along, LEAST.m), np.full_like(along, EASE.m)),),
        curves=(Curve("held to suit the film", along, seen[0][:-1], "first"), Curve("held the other way", along, seen[1][:-1], "second")),
        points=(Point("to suit", float(where[-1].m), here[0]), Point("other way", float(where[-1].m), here[1], "other")),
        sentence=sentence,
        alt=("Two falling lines, one below the other at the same distance everywhere on this log axis, and a narrow band from 16 to 20 minutes of "
             f"arc. {sentence}"))


def read_words(arcminutes):
    """What capitals so high are good for, in words that follow "they"."""
    if arcminutes >= EASE.m:
        return "are read with ease"
    if arcminutes >= LEAST.m:
        return "can be read"
    return "take effort" if arcminutes >= _EFFORT else "are too small to count on"


LETTERS = LivePicture(
    key="film-letters", picture=looks,
    sliders=(Slider("lines", "height of a capital, lines of 720", "", tuple(range(8, 61)), start=14),
             Slider("distance", "distance from the eye", "m", tuple(np.arange(200, 701, 25) / 1000), start=0.35),
             Slider("side", "the screen's short side", "m", tuple(np.arange(55, 91, 5) / 1000), start=0.065)),
    goal="On a screen 65 mm across, from 350 mm: find the fewest lines that are read with ease when the phone is held to suit the film. "
         "And when it is held the other way?",
    phone_sliders=("lines", "distance"))


def guess_other_way():
    """Guess first: by how much letters shrink on a phone held the other way; the live picture opens afterwards."""
    return number_guess(NumberGuess(
        key="film-other-way", unit="", truth=Q(OTHER_WAY, ""),
        question="You film 16 to 9, and your viewer holds the phone upright instead of turning it. How many times smaller do all letters look?",
        explanation="<p>Turned, the film's short side fills the screen's short side. Upright, its <em>long</em> side has to fit in there: 16 parts "
                    "where 9 were, so all is 16/9 times smaller.</p>"), reveal=opening(LETTERS), store=my_guesses())


def guess_clap():
    """Guess first: how late a clap at the far end of a room is heard."""
    delay = sound_delay(distance=Q(8, "m"), temperature=_ROOM)
    return number_guess(NumberGuess(
        key="film-clap", unit="s", truth=delay,
        question="In a room somebody claps 8 m from the camera. How long after the hands meet is the clap in the film's sound?",
        explanation="<p>Sound goes about 343 m in a second at 20 °C: 3 ms for each metre. A frame at 25 a second lasts 40 ms, so even from there "
                    "the strip starts little more than half a frame late. At a bench, one metre away, it is 3 ms.</p>"), store=my_guesses())


def say_letters():
    """Say it: whether letters of a film can be read."""
    return say_it(
        "film-letters", "A friend films a meter, whose digits come out 20 of 720 lines high. On a phone 65 mm across that is 1.8 mm; held to suit the "
        "film, from 350 mm, they look 18 minutes of arc high. Tell your friend in two sentences whether that will be read, how you know, and what "
        "you have not reckoned with.", ours=OURS, store=my_guesses(),
        checks=SayChecks(what=("digits", "letters", "capitals"), quantities=((Q(1.8, "mm"), "m"), (Q(18, "arcmin"), "arcmin")),
                         known=("minutes of arc", "millimetres")))
