"""Entry questions: three at the start of a book that tell which parts a reader may skip."""

from dataclasses import dataclass
from html import escape

import ipywidgets

from benchreckoner.show.exercise import Problem, given_table, hint
from benchreckoner.show.guess import ChoiceGuess
from benchreckoner.show.words import button, card, example, on_enter, read_answer, row, status_area, text_box, trouble


@dataclass(frozen=True)
class Entry:
    """One entry question, and the heading of the part that teaches it."""

    ask: Problem | ChoiceGuess
    part: str


def entry_questions(entries, *, where="Your bench"):
    """Ask a few questions; all right leads straight to `where`, else the parts to read are named.

    Parameters
    ----------
    entries : sequence of Entry
    where : str
        The heading to go to when all are right.

    Returns
    -------
    ipywidgets.VBox
    """
    return _Entrance(entries, where).view


class _Entrance:
    def __init__(self, entries, where):
        self.where = where
        self.asked = [(_ChoiceRow if isinstance(entry.ask, ChoiceGuess) else _NumberRow)(number, entry, self.check)
                      for number, entry in enumerate(entries, 1)]
        self.answer = status_area()
        self.view = card(ipywidgets.HTML("<strong>May you skip ahead?</strong> All right means yes."),
                         *(part for asked in self.asked for part in asked.parts),
                         row(button("Check my answers", self.check)), self.answer)

    def check(self):
        """Judge every question that has an answer; give the advice once all have one."""
        rights = [asked.judge() for asked in self.asked]
        if None in rights:
            self.answer.value = ""
            return
        if all(rights):
            words = f"<strong>✓ All right.</strong> Go straight to {_link(self.where)}."
        else:
            parts = dict.fromkeys(asked.entry.part for asked, right in zip(self.asked, rights) if not right)
            words = f"<strong>Read first:</strong> {', '.join(map(_link, parts))}. The rest you may skip."
        self.answer.value = f"<p>{words}</p>"


class _Row:
    def __init__(self, number, entry, check):
        self.number, self.entry, self.check = number, entry, check
        self.said = status_area()
        self.parts = (ipywidgets.HTML(f"<p><strong>{number}.</strong> {entry.ask.question}</p>{self.given()}"),
                      self.box(), self.said)

    def given(self):
        return ""

    def judge(self):
        """True, False, or None where there is no answer yet."""
        try:
            right, words = self.judged()
        except ValueError as error:
            self.said.value = trouble(str(error))
            return None
        self.said.value = f"<p><strong>{'✓ Right.' if right else '✗ Not this one.'}</strong> {words}</p>"
        return right


class _NumberRow(_Row):
    def given(self):
        return given_table(self.entry.ask)

    def box(self):
        self.typed = text_box(f"Answer {self.number}{', with its unit' if self.entry.ask.unit else ''}",
                              placeholder=f"such as {example(self.entry.ask.unit)}")
        on_enter(self.typed, self.check)
        return row(self.typed)

    def judged(self):
        words = hint(self.entry.ask, read_answer(self.typed.value, self.entry.ask.unit, f"Answer {self.number}"))
        return not words, words


class _ChoiceRow(_Row):
    def box(self):
        self.radio = ipywidgets.RadioButtons(options=[choice.text for choice in self.entry.ask.choices], index=None,
                                             layout={"width": "auto", "overflow": "visible"})
        return self.radio

    def judged(self):
        if self.radio.value is None:
            raise ValueError(f"Answer {self.number}: choose one of the answers")
        choice = self.entry.ask.find(self.radio.value)
        return choice.right, choice.answer


def _link(heading):
    """A link to a heading of the same book."""
    return f'<a href="#{escape(heading.replace(" ", "-"))}">{escape(heading)}</a>'
