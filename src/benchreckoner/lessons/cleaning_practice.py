"""Exercises of book 02 on cleaning: put the steps in order, then choose them as well."""

import random
import re
from html import escape

import ipywidgets
import numpy as np

from benchreckoner.lessons.cleaning_steps import steps, steps_for, surfaces
from benchreckoner.show.words import alert_area, button, card, on_enter, row, status_area, text_box, trouble

_PLACES = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh")
_LEAST_STEPS = 4


def put_in_order(seed=None):
    """The steps that suit one surface, shuffled: put them in order, least harm first."""
    return _Order(seed, strangers=0).view


def choose_and_order(seed=None):
    """As `put_in_order`, with steps among them that must stay away from this surface."""
    return _Order(seed, strangers=3).view


def case(rng, strangers):
    """One surface, and steps to put in order: those that suit it, and `strangers` that don't.

    Parameters
    ----------
    rng : numpy.random.Generator
    strangers : int

    Returns
    -------
    surface : Surface
    offered : dict of str to Step
        By letter.
    order : str
        The letters of those that suit, least harm first.
    """
    fitting = [one for one in surfaces() if len(steps_for(one)) >= _LEAST_STEPS]
    surface = fitting[rng.integers(len(fitting))]
    suited = steps_for(surface)
    others = [step for step in steps() if step not in suited]
    chosen = [others[place] for place in rng.permutation(len(others))[:strangers]]
    mixed = [*suited, *chosen]
    offered = dict(zip("ABCDEFGHIJ", (mixed[place] for place in rng.permutation(len(mixed)))))
    letters = {step.name: letter for letter, step in offered.items()}
    return surface, offered, "".join(letters[step.name] for step in suited)


def answer(text, surface, offered, order):
    """What a typed order is told, as HTML, and whether it is right.

    Raises
    ------
    ValueError
        If it is no row of the letters on offer, or names one twice.
    """
    letters = re.sub(r"[\s,.;>\-–→]+", "", text).upper()
    strange = [letter for letter in letters if letter not in offered]
    example = "".join(sorted(offered)[:3])
    if not letters or strange:
        raise ValueError(f'Your order: write letters from {min(offered)} to {max(offered)}, for example "{example}"')
    twice = next((letter for letter in letters if letters.count(letter) > 1), "")
    if twice:
        raise ValueError(f"Your order: {twice} stands there twice, write each letter once")
    if letters == order:
        return True, "<p><strong>✓ Right.</strong> After each of them read again, and stop as soon as it is good.</p>"
    return False, f"<p><strong>✗ Not yet.</strong> {_hint(letters, surface, offered, order)}</p>"


def _hint(letters, surface, offered, order):
    """The first thing that is wrong: a step that never suits, one too early, or one that is missing."""
    for letter in letters:
        if letter not in order:
            step = offered[letter]
            return f"{letter}, {escape(step.title.lower())}, is not for this surface: {escape(step.never[surface.name])}."
    for place, (said, wanted) in enumerate(zip(letters, order)):
        if said != wanted:
            early = offered[said]
            return (f"{_PLACES[place]}: {said}, {escape(early.title.lower())}, can wait. It risks {escape(early.risk)}; "
                    "something milder comes before it.")
    return f"So far it is right: {len(order) - len(letters)} more can follow if it is still not good."


class _Order:
    def __init__(self, seed, strangers):
        self.strangers = strangers
        self.text, self.count, self.fold = (ipywidgets.HTML() for _ in range(3))
        self.error, self.said = alert_area(), status_area()
        self.box = text_box("Your order, as letters")
        on_enter(self.box, self.check)
        self.view = card(self.text, row(self.box, button("Check my order", self.check), button("Another one", self.another)),
                         self.error, self.said, self.count, self.fold)
        self.begin(random.randrange(1, 1000) if seed is None else seed)

    def begin(self, seed):
        """Put the case of this seed in place."""
        self.seed = seed
        self.case = case(np.random.default_rng(seed), self.strangers)
        surface, offered, order = self.case
        wanted = ("Some of these steps must stay away from it. Put the others in order" if self.strangers
                  else "Put these steps in order")
        lines = "".join(f"<li>{letter}: {escape(step.title)}</li>" for letter, step in offered.items())
        self.text.value = (f"<p>On your bench: <strong>{escape(surface.title)}</strong>. {wanted}, least harm first.</p>"
                           f'<ul style="list-style: none">{lines}</ul>')
        self.box.placeholder = f"such as {''.join(sorted(offered)[:3])}"
        self.box.value = self.error.value = self.said.value = ""
        self.count.value = f"<small>Case {seed} (seed={seed} brings it back).</small>"
        worked = "".join(f"<li>{letter}: {escape(offered[letter].title)}. It risks {escape(offered[letter].risk)}.</li>"
                         for letter in order)
        self.fold.value = f"<details><summary>Worked answer</summary><ol>{worked}</ol></details>"

    def another(self):
        """The next case."""
        self.begin(self.seed + 1)
        self.box.focus()

    def check(self):
        """Judge the order; what cannot be read changes nothing."""
        try:
            _, self.said.value = answer(self.box.value, *self.case)
        except ValueError as error:
            self.error.value, self.said.value = trouble(str(error)), ""
            return
        self.error.value = ""
