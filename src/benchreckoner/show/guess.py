"""Guesses: the reader commits to an answer before anything is shown."""

from dataclasses import dataclass
from html import escape

import ipywidgets

from benchreckoner.show import store as stores
from benchreckoner.show.words import (above, alert_area, button, card, caution, example, magnitude, on_enter,
                                      read_answer, row, show_number, status_area, text_box, trouble, visible)
from benchreckoner.units import Q

_NEVER_BELOW_ZERO = {"ohm": "ohms", "F": "farads", "s": "seconds", "Hz": "hertz"}
_SURE = tuple((f"{per_cent} %", per_cent) for per_cent in range(50, 101, 10))


@dataclass(frozen=True)
class NumberGuess:
    """A number to guess as a range.

    ``question`` and ``explanation`` may hold simple HTML. ``unit`` has no prefix
    (``"V"``, ``"%"``, ``""`` for a ratio).
    """

    key: str
    question: str
    unit: str
    truth: Q
    explanation: str


@dataclass(frozen=True)
class Choice:
    """One choice, in plain text, and the answer that meets whoever takes it (simple HTML)."""

    text: str
    answer: str
    right: bool = False


@dataclass(frozen=True)
class ChoiceGuess:
    """A question with one right choice; ``question`` and ``explanation`` may hold simple HTML."""

    key: str
    question: str
    choices: tuple[Choice, ...]
    explanation: str = ""

    def __post_init__(self):
        if sum(choice.right for choice in self.choices) != 1:
            raise ValueError(f"{self.key}: exactly one choice must be right")
        if len({choice.text for choice in self.choices}) != len(self.choices):
            raise ValueError(f"{self.key}: two choices read the same")
        if not all(choice.answer or choice.right for choice in self.choices):
            raise ValueError(f"{self.key}: each wrong choice needs its own answer")

    def find(self, text):
        """The choice that reads `text`, or None."""
        return next((choice for choice in self.choices if choice.text == text), None)


def number_guess(guess, *, reveal=None, store=None):
    """Ask for the lowest and highest the reader would be 90 % sure of, then show the truth.

    Parameters
    ----------
    guess : NumberGuess
    reveal : widget, or callable giving one
        What opens after the guess; a callable is called only then, and once.
    store : Path or None
        Where guesses are kept, such as ``record_player.guesses.toml``.

    Returns
    -------
    ipywidgets.VBox
    """
    return _NumberAsked(guess, reveal, store).view


def choice_guess(guess, *, reveal=None, store=None):
    """Ask for one choice and how sure the reader is, then answer the choice made.

    Parameters
    ----------
    guess : ChoiceGuess
    reveal, store
        As for `number_guess`.

    Returns
    -------
    ipywidgets.VBox
    """
    return _ChoiceAsked(guess, reveal, store).view


class _Asked:
    """What both kinds share: ask, check or show, answer, open the picture, ask again."""

    group = ""

    def __init__(self, guess, reveal, store):
        self.guess, self.reveal, self.store = guess, reveal, store
        self.error, self.answer, self.note = alert_area(), status_area(), alert_area()
        self.picture = ipywidgets.VBox(layout={"overflow": "visible"})
        self.main = button("Check my guess", self.press)
        self.show_me = button("Show me", self.open)
        self.entry = self.boxes()
        self.asking = True
        self.view = card(ipywidgets.HTML(f"<strong>Guess first.</strong> {guess.question}"), self.entry, self.error,
                         row(self.main, self.show_me), self.answer, self.note, self.picture)
        earlier, note = stores.kept(store, group=self.group, key=guess.key)
        self.say_note(note)
        answer = self.recall(earlier[-1]) if earlier else None
        if answer:
            self.settle(answer)

    def press(self):
        """The one button that checks or, once answered, asks again."""
        if self.asking:
            self.check()
        else:
            self.ask_again()

    def check(self):
        """Read the guess, keep it, answer it."""
        try:
            entry = self.read()
        except ValueError as error:
            self.error.value = trouble(str(error))
            return
        self.say_note(stores.keep(self.store, entry, group=self.group, key=self.guess.key))
        self.settle(self.judge(entry))
        self.main.focus()

    def open(self):
        """Show the answer without a guess."""
        self.settle(f"<p>{self.truth()}</p>{self.guess.explanation}")
        self.main.focus()

    def settle(self, answer):
        """Put the answer in place and open the picture."""
        self.asking = False
        self.main.description = "Guess again"
        self.error.value = ""
        self.answer.value = answer
        for widget in (self.entry, self.show_me):
            visible(widget, False)
        if self.reveal is not None and not self.picture.children:
            self.picture.children = (self.reveal() if callable(self.reveal) else self.reveal,)
        visible(self.picture, True)

    def ask_again(self):
        """Back to the question; what was kept stays kept."""
        self.asking = True
        self.main.description = "Check my guess"
        self.answer.value = ""
        for widget in (self.entry, self.show_me):
            visible(widget, True)
        visible(self.picture, False)
        self.start()

    def say_note(self, note):
        """Tell what the store has to say, where it has."""
        self.note.value = caution(note)


class _NumberAsked(_Asked):
    group = "range"

    def boxes(self):
        hint = f"such as {example(self.guess.unit)}"
        self.lowest, self.highest = (text_box(label, placeholder=hint)
                                     for label in ("Lowest you believe", "Highest you believe"))
        for box in (self.lowest, self.highest):
            on_enter(box, self.enter)
        words = ipywidgets.HTML("Type a range that you are 90 % sure holds it: of ten such ranges, nine should.")
        return ipywidgets.VBox([words, row(self.lowest, self.highest)], layout={"overflow": "visible"})

    def enter(self):
        if self.asking:
            self.check()

    def start(self):
        self.lowest.focus()

    def read(self):
        ends = [(self.end(box.value, name), box.value.strip()) for box, name in ((self.lowest, "Lowest"), (self.highest, "Highest"))]
        (low, low_typed), (high, high_typed) = sorted(ends, key=lambda end: end[0])
        return {"lowest": low_typed, "highest": high_typed, "truth": self.shown_truth(),
                "inside": low <= magnitude(self.guess.truth, self.guess.unit) <= high}

    def end(self, text, name):
        """One end of the range as a plain number."""
        unit = self.guess.unit
        value = read_answer(text, unit, name)
        if value < 0 and unit in _NEVER_BELOW_ZERO:
            raise ValueError(f'{name}: {text.strip()} lies below zero, where no {_NEVER_BELOW_ZERO[unit]} are; '
                             f'write for example "{example(unit)}"')
        return value

    def recall(self, entry):
        low, high = str(entry.get("lowest", "")), str(entry.get("highest", ""))
        try:
            self.end(low, "Lowest"), self.end(high, "Highest")
        except ValueError:
            return None
        return self.judge({"lowest": low, "highest": high})

    def judge(self, entry):
        low, high = (read_answer(entry[end], self.guess.unit, end) for end in ("lowest", "highest"))
        true = magnitude(self.guess.truth, self.guess.unit)
        typed = f"You guessed {escape(entry['lowest'])} to {escape(entry['highest'])}; {self.truth(start='it')}"
        verdict = ("✓ Inside your range." if low <= true <= high else
                   "✗ Outside: above your highest." if true > high else "✗ Outside: below your lowest.")
        return f"<p>{typed} <strong>{verdict}</strong></p>{self.guess.explanation}"

    def truth(self, start="It"):
        return f"{start} is <strong>{escape(self.shown_truth())}</strong>."

    def shown_truth(self):
        return show_number(magnitude(self.guess.truth, self.guess.unit), self.guess.unit)


class _ChoiceAsked(_Asked):
    group = "choice"

    def boxes(self):
        self.radio = ipywidgets.RadioButtons(options=[choice.text for choice in self.guess.choices], index=None,
                                             layout={"width": "auto", "overflow": "visible"})
        self.sure = above(ipywidgets.Dropdown, "How sure are you?", options=[("choose", 0), *_SURE])
        return ipywidgets.VBox([self.radio, row(self.sure)], layout={"overflow": "visible"})

    def start(self):
        self.main.focus()  # radio buttons cannot be given the focus from here

    def read(self):
        if self.radio.value is None:
            raise ValueError("choose one of the answers first")
        if not self.sure.value:
            raise ValueError("say how sure you are; 50 % if you would toss a coin")
        return {"choice": self.radio.value, "sure": self.sure.value,
                "right": self.guess.find(self.radio.value).right}

    def recall(self, entry):
        known = self.guess.find(entry.get("choice")) and isinstance(entry.get("sure"), int)
        return self.judge(entry) if known else None

    def judge(self, entry):
        choice = self.guess.find(entry["choice"])
        verdict = "✓ Right." if choice.right else "✗ Not this one."
        start = f"You chose {_quoted(choice.text)}, {entry['sure']} % sure."
        after = "" if choice.right else f"<p>{self.truth()}</p>"
        return f"<p>{start} <strong>{verdict}</strong> {choice.answer}</p>{after}{self.guess.explanation}"

    def truth(self):
        right = next(choice for choice in self.guess.choices if choice.right)
        return f"The right one is <strong>{_quoted(right.text.removesuffix('.'))}</strong>. {right.answer}"


def _quoted(text):
    """A choice between quotation marks: its own, where it is something said."""
    return escape(text) if text.startswith("“") and text.endswith("”") and text.count("“") == 1 else f"“{escape(text)}”"
