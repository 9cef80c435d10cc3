"""Book 04, its opening: three questions that tell which parts a reader may skip."""

import numpy as np

from benchreckoner.lessons.first_belt_practice import _taken
from benchreckoner.show.entry import Entry, entry_questions
from benchreckoner.show.exercise import Problem, Slip, Step
from benchreckoner.show.guess import Choice, ChoiceGuess
from benchreckoner.units import Q

PATH_PART, PULL_PART, TEACHES_PART = "Which size fits this path?", "How hard does it pull?", "The first belt teaches"


def skip_ahead():
    """Three questions: all right leads straight to the reader's own bench."""
    return entry_questions((
        Entry(_inside_diameter(), PATH_PART),
        Entry(ChoiceGuess(
            key="belt-entry-tighter", question="A wheel wavers at 4 % with a belt stretched by 5 %, which grips five times as hard as the load asks. "
            "A tighter belt goes on. What becomes better?",
            choices=(
                Choice("The speed holds steadier.", "Creep hardly changes with stretch, and slip there was none. Tighter buys no steadiness here."),
                Choice("Nothing: hub load, current and wear go up.", "Grip that is there already cannot help twice.", right=True),
                Choice("The current falls, since it no longer slips.", "It did not slip. More pull means more friction in the bearing."),
            )), PULL_PART),
        Entry(_taken(np.random.default_rng(3)), TEACHES_PART)), where="Your bench")


def _inside_diameter():
    """220 mm free along the middle, 1.2 mm thick: (220 - 1.2 pi) / pi."""
    free, thick = 220.0, 1.2
    diameter = free / np.pi - thick
    return Problem(
        question="A square belt should be 220.0 mm long, free and along its middle, and is 1.2 mm thick. Which inside diameter do you order?",
        given=(("free length along the middle", "220.0 mm"), ("thickness", "1.2 mm")),
        answer=Q(diameter, "mm"), unit="m", tolerance=0.005,
        steps=(Step("The inside is shorter by pi times the thickness:", f"{free - np.pi * thick:.1f} mm"),
               Step("By pi:", f"{diameter:.1f} mm")),
        slips=(Slip(Q(free / np.pi, "mm"), "That is the diameter of its middle. The inside is one thickness less."),
               Slip(Q(free - np.pi * thick, "mm"), "That is the inside circumference. The diameter is a pi of it.")))
