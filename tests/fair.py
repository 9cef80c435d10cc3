"""What every exercise and every small form owes its reader, and a picture at the steps of its sliders: shared by the lessons' tests."""

import re

import numpy as np

from benchreckoner.show.exercise import hint
from benchreckoner.show.words import magnitude, read_answer
from benchreckoner.units import read_quantity


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


def given(problem, *units):
    """The numbers that an exercise shows, as a reader would take them, in these units; with "" for a bare number."""
    return [read_quantity(text, unit).quantity.m_as(unit) if unit else float(re.match(r"[\d.]+", text)[0])
            for (_, text), unit in zip(problem.given, units)]


def check_form(make, texts, words, *, spoilt):
    """A small form answers these texts in these words, a new one brings them back, and tags typed into a box stay text."""
    form = make()
    for name, text in texts.items():
        form.boxes[name].value = text
    form.answer_now()
    assert words in form.said.value and not form.error.value
    again = make()
    assert {name: again.boxes[name].value for name in texts} == texts
    form.boxes[spoilt].value = "<b>6"
    form.answer_now()
    assert "<b>6" not in form.error.value and "Not yet" in form.error.value and not form.said.value
    assert form.boxes[spoilt].value == "<b>6"
