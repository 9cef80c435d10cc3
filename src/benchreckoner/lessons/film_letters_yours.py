"""Book 07, the reader's own screen and room: how high letters must be, and how late a clap is heard."""

import math

import ipywidgets

from benchreckoner.lessons.film_letters import EASE, LEAST, LINES, OTHER_WAY
from benchreckoner.lessons.filming_yours import whole_number
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.viewing import letter_height, sound_delay
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import row, text_box
from benchreckoner.units import Q, read_quantity, show

_SAMPLE = {"Screen's short side": "65 mm", "Watched from": "35 cm", "Sheet on the wall read from": "5 m", "Clap from the camera": "1 m",
           "Frames a second": "25"}
_ROOM = Q(20, "degC")


def my_screen():
    """A small form for the reader's own phone, wall and clap.

    Returns
    -------
    ipywidgets.VBox
    """
    return ScreenForm().card


class ScreenForm(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {name: text_box(name, placeholder=f"such as {sample}") for name, sample in _SAMPLE.items()}
        told = ipywidgets.HTML("Measure the screen itself, not the phone's case.")
        super().__init__(boxes, (told, row(*boxes.values())), ask="How high must letters be?", said_of=said_of, path=my_guesses,
                         group="readings", key="my-screen", first=_SAMPLE)


def said_of(texts):
    """How high letters must be, and how late a clap is heard, in sentences of plain text.

    Parameters
    ----------
    texts : dict of str
        As typed, by the names of the form's boxes.

    Returns
    -------
    tuple of str

    Raises
    ------
    ValueError
        Names the box, says what is wrong and what to write.
    """
    side, eye, wall, clap = (_length(texts, name) for name in list(_SAMPLE)[:4])
    frames = Q(whole_number(texts, "Frames a second"), "1/s")
    suit, other = ([_lines(letter_height(angle=angle, distance=eye) * shrunk, side) for angle in (EASE, LEAST)] for shrunk in (1, OTHER_WAY))
    late = sound_delay(distance=clap, temperature=_ROOM)
    return (f"Held to suit the film, {_told(suit)}", f"Held the other way, {_told(other)}",
            f"On a sheet read from {show(wall, 'm')}, capitals are read with ease from {show(letter_height(angle=EASE, distance=wall), 'm', digits=2)} on.",
            f"A clap {show(clap, 'm')} away is heard {show(late, 's', digits=2)} late, {(late * frames).m_as(''):.2g} of a frame.")


def _told(lines):
    ease, least = lines
    if least > LINES:
        return "no letter that fits into the frame can be read from there."
    return (f"capitals can be read from {least} of {LINES} lines on" + (
        f", and with ease from {ease} on." if ease <= LINES else "; with ease none that fits into the frame."))


def _lines(height, side):
    return math.ceil((LINES * height / side).m_as("") - 1e-9)


def _length(texts, name):
    length = read_quantity(texts[name], "m", name).quantity
    if not Q(1, "mm") <= length <= Q(1, "km"):
        raise ValueError(f'{name}: must lie between 1 mm and 1 km, write for example "{_SAMPLE[name]}"')
    return length
