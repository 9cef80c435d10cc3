"""Exercises of book 07 on pictures and clips: letters high enough, words long enough, a clap on time; the last one mixes them."""

import math

from benchreckoner.lessons.film_letters import EASE, LINES, OTHER_WAY
from benchreckoner.physics.reading import LETTERS_A_SECOND, READY, standing_time
from benchreckoner.physics.viewing import letter_height, sound_delay
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_EACH_RADIAN = 60 * 180 / math.pi  # minutes of arc
_ROOM = Q(20, "degC")


def lines_needed(seed=None, blanks=1):
    """How many lines of a frame a capital must take."""
    return exercise(_lines_needed, key="film-lines-needed", seed=seed, blanks=blanks)


def words_stay(seed=None, blanks=2):
    """How long a clip must stop at its sentence."""
    return exercise(_words_stay, key="film-words-stay", seed=seed, blanks=blanks)


def mixed_film(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_lines_needed, _words_stay, _other_way, _wall, _clap)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="film-letters-mixed", seed=seed, blanks=blanks)


def _lines_needed(rng):
    side, distance = Q(float(rng.choice([60, 65, 70, 75])), "mm"), Q(float(rng.choice([250, 300, 350, 400, 450])), "mm")
    height = letter_height(angle=EASE, distance=distance)
    answer = LINES * (height / side).m_as("")
    return Problem(
        question="A phone is held to suit the film. How many of the frame's lines must a capital be high, to be read with ease? (A plain number, before "
                 "you round it up.)",
        given=(("screen's short side", show(side, "m")), ("distance from the eye", show(distance, "m")), ("lines along the short side", str(LINES)),
               ("with ease", f"{EASE.m:.0f} minutes of arc"), ("minutes of arc in a radian", f"{_EACH_RADIAN:.0f}")),
        answer=Q(answer, ""), unit="", tolerance=0.02,
        steps=(Step("The angle in radians:", f"{EASE.m / _EACH_RADIAN:.6f}"), Step("Times the distance, the capital's height:", show(height, "m", digits=4)),
               Step("Over the screen's short side, times the lines:", f"{answer:.2f}")),
        slips=(Slip(Q(answer * OTHER_WAY, ""), "That is for a phone held the other way. This one suits the film."),
               Slip(Q(60 * answer, ""), "Those are 20 degrees. A minute of arc is a sixtieth of one."),
               Slip(Q(height.m_as("mm"), ""), "Those are millimetres on the screen. How many of the lines are they?"),
               Slip(Q(LINES ** 2 / answer, ""), "Upside down: letter over screen, not screen over letter.")))


def _words_stay(rng):
    letters = int(rng.integers(60, 181))
    answer = standing_time(letters=letters)
    return Problem(
        question="A clip stops so that its sentence can be read. Our clips take so many letters a second, and a second to find the words. How long must it stop?",
        given=(("letters in the sentence, spaces too", str(letters)), ("letters a second", f"{LETTERS_A_SECOND:g}"), ("to find the words", show(Q(READY, "s"), "s"))),
        answer=answer, unit="s", tolerance=0.02,
        steps=(Step("Letters over letters a second:", show(Q(letters / LETTERS_A_SECOND, "s"), "s", digits=4)),
               Step("And the time to find them:", show(answer, "s", digits=4))),
        slips=(Slip(Q(letters / LETTERS_A_SECOND, "s"), "The eye comes from the curve: it needs a second to find the words."),
               Slip(Q(LETTERS_A_SECOND / letters, "s"), "Upside down: letters over letters a second."),
               Slip(Q(letters * LETTERS_A_SECOND, "s"), "Many letters a second make it shorter: divide.")))


def _other_way(rng):
    lines, side = int(rng.integers(18, 41)), Q(float(rng.choice([60, 65, 70, 75])), "mm")
    answer = (lines / LINES * side / OTHER_WAY).to("m")
    return Problem(
        question="A wide film, 16 to 9, is watched on a phone held upright. How high are its capitals on the screen?",
        given=(("height of a capital", f"{lines} of {LINES} lines"), ("screen's short side", show(side, "m"))), answer=answer, unit="m", tolerance=0.02,
        steps=(Step("Held to suit it, the lines' share of the short side:", show(lines / LINES * side, "m", digits=4)),
               Step("Upright the long side must fit in there: 9 by 16 of that:", show(answer, "m", digits=4))),
        slips=(Slip((answer * OTHER_WAY).to("m"), "That is for a phone turned to suit the film. Upright it shrinks."),
               Slip((answer * OTHER_WAY**2).to("m"), "Held the other way the film gets smaller, not larger."),
               Slip((answer / OTHER_WAY).to("m"), "It shrinks once, by 16/9.")))


def _wall(rng):
    distance = Q(float(rng.integers(3, 11)), "m")
    answer = letter_height(angle=EASE, distance=distance).to("m")
    return Problem(
        question="How high must capitals be on a sheet at the wall, to be read with ease from the back of the room?",
        given=(("distance", show(distance, "m")), ("with ease", f"{EASE.m:.0f} minutes of arc"), ("minutes of arc in a radian", f"{_EACH_RADIAN:.0f}")),
        answer=answer, unit="m", tolerance=0.02,
        steps=(Step("The angle in radians:", f"{EASE.m / _EACH_RADIAN:.6f}"), Step("Times the distance:", show(answer, "m", digits=4))),
        slips=(Slip((60 * answer).to("m"), "Those are 20 degrees. A minute of arc is a sixtieth of one."),
               Slip((answer * 180 / math.pi).to("m"), "A radian has 57.3 degrees: the angle must be in radians.")))


def _clap(rng):
    distance, rate = Q(float(rng.integers(4, 26)), "m"), int(rng.choice([25, 30, 50, 60]))
    delay = sound_delay(distance=distance, temperature=_ROOM)
    answer = delay.m_as("s") * rate
    return Problem(
        question="The strip over your film starts at the clap in its sound. How many frames late is that, at 20 °C? (A plain number.)",
        given=(("from the clap to the camera", show(distance, "m")), ("sound", "343 m/s"), ("frames a second", str(rate))),
        answer=Q(answer, ""), unit="", tolerance=0.02,
        steps=(Step("Distance over the speed of sound:", show(delay, "s", digits=4)), Step("Times the frames a second:", f"{answer:.3g}")),
        slips=(Slip(Q(delay.m_as("s") / rate, ""), "A second has that many frames: multiply."),
               Slip(Q(delay.m_as("ms"), ""), "Those are milliseconds. How many frames are they?"),
               Slip(Q(2 * answer, ""), "The sound goes one way only. Light is there at once.")))
