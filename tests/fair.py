"""What every exercise owes its reader, checked in one place."""

from benchreckoner.show.exercise import hint
from benchreckoner.show.words import magnitude
from benchreckoner.units import read_quantity


def check_fair(problem):
    """The right answer passes, the worked answer as shown passes, and each slip has its hint."""
    assert hint(problem, problem.value) == ""
    text = problem.steps[-1].value_text
    assert problem.right(read_quantity(text, problem.unit).quantity.m_as(problem.unit) if problem.unit else float(text))
    for slip in problem.slips:
        wrong = magnitude(slip.value, problem.unit)
        if not problem.right(wrong):
            assert hint(problem, wrong)
