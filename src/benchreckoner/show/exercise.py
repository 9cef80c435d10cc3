"""Exercises that fade, with new numbers each time and a hint for each usual slip."""

import random
from collections import Counter
from dataclasses import dataclass
from html import escape

import ipywidgets
import numpy as np

from benchreckoner.show.words import (alert_area, button, card, example, magnitude, on_enter, read_answer, row,
                                      show_number, status_area, text_box, trouble)
from benchreckoner.units import Q, show_exact

_tries = Counter()  # by key, this sitting: running the cell again must not forget them
_PREFIX = "look at the prefixes, and put every value into plain units first"
_FACTORS = (
    (1e3, f"A thousand times too large: {_PREFIX}."),
    (1e-3, f"A thousand times too small: {_PREFIX}."),
    (1e6, f"A million times too large, as when milli is taken for kilo: {_PREFIX}."),
    (1e-6, f"A million times too small, as when kilo is taken for milli: {_PREFIX}."),
    (2.0, "Twice too large: is something counted twice, or a half left out?"),
    (0.5, "Half of what it should be: is something halved that should not be, or one of two left out?"),
)


@dataclass(frozen=True)
class Step:
    """One line of the worked answer: what is done, and what comes out (simple HTML both)."""

    text: str
    value_text: str


@dataclass(frozen=True)
class Slip:
    """A wrong value that a known mistake gives, and the sentence that meets it (simple HTML)."""

    value: Q
    hint: str


@dataclass(frozen=True)
class Problem:
    """One exercise with its numbers.

    ``question``, the names and texts in ``given``, and the steps may hold simple HTML.
    ``unit`` has no prefix (``"V"``, ``"%"``, ``""`` for a ratio). ``tolerance`` is a
    fraction of the answer, or a quantity.
    """

    question: str
    given: tuple[tuple[str, str], ...]
    answer: Q
    unit: str
    tolerance: float | Q
    steps: tuple[Step, ...]
    slips: tuple[Slip, ...] = ()

    @property
    def value(self):
        """The answer as a plain number in `unit`."""
        return magnitude(self.answer, self.unit)

    @property
    def margin(self):
        """How far off an answer may be, in `unit`."""
        if isinstance(self.tolerance, Q):
            return abs(magnitude(self.tolerance, self.unit))
        return abs(self.tolerance * self.value)

    def right(self, value):
        """Tell whether a plain number in `unit` lies within the tolerance, ends included."""
        return abs(value - self.value) <= self.margin * (1 + 1e-9) + 1e-12 * abs(self.value)


def hint(problem, value):
    """Say what a wrong answer looks like, as HTML; empty when the answer is right.

    Parameters
    ----------
    problem : Problem
    value : float
        What was typed, in the unit of the problem.
    """
    answer = problem.value
    if problem.right(value):
        return ""
    for slip in problem.slips:
        if _like(problem, value, magnitude(slip.value, problem.unit)):
            return slip.hint
    if _like(problem, value, -answer):
        return "The size is right and the sign is wrong: up or down, gained or lost?"
    for factor, words in _FACTORS:
        if answer and _like(problem, value, factor * answer):
            return words
    if problem.unit in ("", "%") and answer:
        whole = 100 if problem.unit == "%" else 1
        if _like(problem, value, whole**2 / answer):
            return "The ratio is upside down: which one is divided by which?"
    return _how_far(problem, value)


def exercise(make, *, key, seed=None, blanks=1):
    """Show one exercise with a box for the answer, hints, new numbers and the worked answer in a fold.

    Parameters
    ----------
    make : callable
        Takes a numpy Generator and returns a Problem.
    key : str
        Under which tries are counted this sitting.
    seed : int, optional
        Which numbers to begin with; any if left out. It is shown, so they can be had again.
    blanks : int or "all"
        How many of the last steps the reader finds alone.

    Returns
    -------
    ipywidgets.VBox
    """
    return _Exercise(make, key, random.randrange(1, 1000) if seed is None else seed, blanks).view


class _Exercise:
    def __init__(self, make, key, seed, blanks):
        self.make, self.key, self.blanks = make, key, blanks
        self.text, self.fold, self.count = (ipywidgets.HTML() for _ in range(3))
        self.error, self.answer = alert_area(), status_area()
        self.box = text_box("Your answer")
        on_enter(self.box, self.check)
        self.view = card(self.text, row(self.box, button("Check my answer", self.check),
                                        button("Another one", self.another)),
                         self.error, self.answer, self.count, self.fold)
        self.begin(seed)

    def begin(self, seed):
        """Put the numbers of this seed in place."""
        self.seed = seed
        self.problem = self.make(np.random.default_rng(seed))
        self.box.value = self.error.value = self.answer.value = ""
        self.box.description = f"Your answer{', with its unit' if self.problem.unit else ''}"
        self.box.placeholder = f"such as {example(self.problem.unit)}"
        self.text.value = _asked(self.problem, self.blanks)
        self.fold.value = (f"<details><summary>Worked answer</summary>{_worked(self.problem)}</details>")
        self.tell_count()

    def another(self):
        """New numbers, the next seed."""
        self.begin(self.seed + 1)
        self.box.focus()

    def check(self):
        """Judge the answer; what cannot be read is no try."""
        try:
            value = read_answer(self.box.value, self.problem.unit, "Your answer")
        except ValueError as error:
            self.error.value, self.answer.value = trouble(str(error)), ""
            return
        self.error.value = ""
        _tries[self.key] += 1
        self.answer.value = _judged(self.problem, value, self.box.value)
        self.tell_count()

    def tell_count(self):
        """Say which numbers these are, and how often was tried."""
        tries = _tries[self.key]
        told = {0: "no try yet", 1: "1 try"}.get(tries, f"{tries} tries")
        self.count.value = f"<small>Numbers {self.seed} (seed={self.seed} brings them back); {told} this sitting.</small>"


def given_table(problem):
    """What is given, as an HTML table; empty when nothing is."""
    rows = "".join(f"<tr><td>{name}</td><td>{text}</td></tr>" for name, text in problem.given)
    return f'<table class="reckoner-given">{rows}</table>' if rows else ""


def _judged(problem, value, typed):
    words = hint(problem, value)
    if words:
        return f"<p><strong>✗ {escape(typed.strip())}: not yet.</strong> {words}</p>"
    return (f"<p><strong>✓ {escape(typed.strip())}: right.</strong> "
            f"We find {escape(show_number(problem.value, problem.unit))}.</p>")


def _asked(problem, blanks):
    steps = len(problem.steps)
    shown = 0 if blanks == "all" else max(0, steps - blanks)
    lines = "".join(f"<li>{step.text} <strong>{step.value_text}</strong></li>" for step in problem.steps[:shown])
    if shown:
        lines += "<li><em>yours</em></li>" * (steps - shown)
    tolerance = (f"{100 * problem.tolerance:.3g} %" if not isinstance(problem.tolerance, Q) else
                 show_exact(problem.tolerance, problem.unit) if problem.unit else f"{problem.margin:.3g}")
    return (f"<p>{problem.question}</p>" + given_table(problem)
            + (f"<ol>{lines}</ol>" if lines else "") + f"<p>Right within {escape(tolerance)}.</p>")


def _worked(problem):
    lines = "".join(f"<li>{step.text} <strong>{step.value_text}</strong></li>" for step in problem.steps)
    return f"<ol>{lines}</ol><p>Answer: <strong>{escape(show_number(problem.value, problem.unit))}</strong></p>"


def _like(problem, value, target):
    """Whether `value` could be `target`, with the tolerance of the problem in proportion."""
    scale = abs(target / problem.value) if problem.value else 1.0
    return abs(value - target) <= problem.margin * scale * (1 + 1e-9) + 1e-12 * abs(target)


def _how_far(problem, value):
    answer = problem.value
    side = "Too high" if value > answer else "Too low"
    if not value or not answer or value * answer < 0:
        return f"{side}."
    times = max(value / answer, answer / value)
    if times < 1.1:
        return f"{side}, but close: keep more digits until the end."
    return f"{side}, by a factor of about {float(f'{times:.2g}'):g}."
