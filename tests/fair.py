"""What every exercise owes its reader, and a picture at the steps of its sliders: shared by the lessons' tests."""

import numpy as np

from benchreckoner.show.exercise import hint
from benchreckoner.show.words import magnitude, read_answer


def check_fair(problem):
    """The right answer passes, the worked answer as shown passes, and each slip has its hint."""
    assert hint(problem, problem.value) == ""
    assert problem.right(read_answer(problem.steps[-1].value_text, problem.unit, "the last step"))
    for slip in problem.slips:
        wrong = magnitude(slip.value, problem.unit)
        assert problem.right(wrong) or hint(problem, wrong)


def at(declared, **wanted):
    """The picture where each named slider stands at the step of this value, which must exist, the others at their start."""
    positions = dict(declared.start)
    for slider in declared.sliders:
        if slider.name in wanted:
            positions[slider.name] = int(np.flatnonzero(np.isclose(slider.steps, wanted[slider.name]))[0])
    return declared.at(positions)
