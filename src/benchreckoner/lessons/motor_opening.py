"""Book 05, its opening: three questions that tell which parts a reader may skip."""

import numpy as np

from benchreckoner.lessons.belt_off import _times_the_torque
from benchreckoner.lessons.governor_practice import least_volts_problem
from benchreckoner.show.entry import Entry, entry_questions
from benchreckoner.show.guess import Choice, ChoiceGuess

PATTERN_PART, GOVERNOR_PART = "Read four numbers together", "The governor: more volts, and why they change nothing"


def skip_ahead():
    """Three questions: all right leads straight to the reader's own bench."""
    return entry_questions((
        Entry(_times_the_torque(np.random.default_rng(5)), PATTERN_PART),
        Entry(least_volts_problem(np.random.default_rng(2)), GOVERNOR_PART),
        Entry(ChoiceGuess(
            key="motor-entry-pattern", question="A governed player is slow. The motor gets fewer volts than its governor should give, its current "
            "is usual, and 0.3 V stand between supply and motor. Where do you look first?",
            choices=(
                Choice("At the trimmer.", "It has lost hold: with 0.3 V in hand the governor is fully open already."),
                Choice("At cells, contacts and switch.", "Too few volts come in. Nothing behind them can make that good.", right=True),
                Choice("At belt and bearings.", "They would raise the current, and it is usual."),
            )), PATTERN_PART)), where="Your bench")
