"""Say it: the reader writes two sentences and checks that they hold what a listener needs."""

import re
from dataclasses import dataclass
from html import escape

import ipywidgets

from benchreckoner import units
from benchreckoner.show import store as stores
from benchreckoner.show.words import above, alert_area, button, card, caution, row, status_area, visible
from benchreckoner.units import Q

_KNOWN = ("measured", "measure", "measurement", "read", "reading", "readings", "meter")
_SURE = ("about", "around", "roughly", "nearly", "at least", "at most", "more than", "less than", "between",
         "sure", "certain", "likely", "probably", "within", "give or take", "plus or minus", "per cent", "percent")
_NOT = ("not", "no", "only", "cannot", "can't", "isn't", "doesn't", "don't", "didn't", "wasn't", "haven't",
        "hasn't", "nothing", "never", "still", "unmeasured", "untested", "unknown", "without", "except", "yet")
_SURE_SIGNS = ("±", "+/-", "+-", "≈", "~", "%", "≥", "≤")
_NUMBER = r"[+\-−]?\d+(?:[.,]\d+)?"
_UNIT = r"[A-Za-zµμΩ\u2126°℃%]+\d?(?:/[A-Za-z]+)?"
_SPREAD = re.compile(rf"({_NUMBER})\s*(?:±|\+/-|\+-|to|and|-|–)\s*({_NUMBER})\s*({_UNIT})")
_SENTENCE_END = re.compile(r"(?<=[.!?…;:])\s+")
_WITH_UNIT = re.compile(rf"{_NUMBER}\s?{_UNIT}")


@dataclass(frozen=True)
class SayChecks:
    """What the reader's sentences are looked through for.

    ``what`` : words of which one must stand there, plain text.
    ``quantities`` : pairs of a quantity and its unit without prefix; one of them must be given.
    ``tolerance`` : how near, as a fraction.
    ``known`` : words that tell how it is known, beside those of measuring.
    ``most_words`` : how many words a sentence may have that is heard once; with 0 nobody counts.
    """

    what: tuple[str, ...]
    quantities: tuple[tuple[Q, str], ...]
    tolerance: float = 0.1
    known: tuple[str, ...] = ()
    most_words: int = 0


def say_it(key, prompt, *, ours, checks, store=None):
    """Let the reader write, look through it, and then show our sentences.

    Parameters
    ----------
    key : str
        Under which the sentences are kept.
    prompt : str
        What to write about (simple HTML).
    ours : str or callable giving one
        Our sentences, plain text, made from the same numbers.
    checks : SayChecks
    store : Path or None
        Where the sentences are kept.

    Returns
    -------
    ipywidgets.VBox
    """
    return _Said(key, prompt, ours, checks, store).view


def look_through(text, checks):
    """Check sentences for what, how known, how sure and what not, and for their length where that counts.

    Returns
    -------
    tuple of (name, met, sentence)
        The sentence is plain text.
    """
    what = any(_holds(text, word) for word in checks.what)
    number = _number_in(text, checks)
    known = bool(number) or any(_holds(text, word) for word in (*_KNOWN, *checks.known))
    sure = any(sign in text for sign in _SURE_SIGNS) or any(_holds(text, word) for word in _SURE)
    limits = any(_holds(text, word) for word in _NOT)
    example = units.show(*checks.quantities[0]) if checks.quantities else "184 mV"
    longest = max(len(sentence.split()) for sentence in _SENTENCE_END.split(text))
    breath = () if not checks.most_words else ((
        "One breath", longest <= checks.most_words, "no sentence is too long to be heard once." if longest <= checks.most_words else
        f"one sentence has {longest} words; make two of it, of {checks.most_words} at most."),)
    return (
        ("What", what, "you name it." if what else
         f"name the thing itself, such as “{checks.what[0]}”."),
        ("How known", known, f"you give {number}." if number else "you say how you know." if known else
         f"say how you know, with a number or a word such as “{checks.known[0]}”." if checks.known else
         f"give a number with its unit, such as {example}, or say that you measured it."),
        ("How sure", sure, "you say how far to trust it." if sure else
         "add how far to trust it: ±, “about”, “at least”, or per cent."),
        ("What not", limits, "you say where it ends." if limits else
         "add what you have not measured, or what this does not show."),
        *breath,
    )


class _Said:
    def __init__(self, key, prompt, ours, checks, store):
        self.key, self.ours, self.checks, self.store = key, ours, checks, store
        self.area = above(ipywidgets.Textarea, "Your sentences", widest="40em", rows=4, continuous_update=False)
        self.answer, self.note, self.model = status_area(), alert_area(), status_area()
        self.show_ours = button("Show ours", self.open)
        visible(self.show_ours, False)
        earlier, note = stores.kept(store, group="sentences", key=key)
        self.say_note(note)
        if earlier:
            self.area.value = str(earlier[-1].get("text", ""))
        self.kept = self.area.value
        self.view = card(ipywidgets.HTML(f"<strong>Say it.</strong> {prompt}"), row(self.area),
                         row(button("Check my sentences", self.check), self.show_ours),
                         self.answer, self.note, self.model)

    def check(self):
        """Look the sentences through, keep them, and offer ours."""
        text = self.area.value
        if not text.strip():
            self.answer.value = "<p>Nothing written yet. One sentence is a start.</p>"
            return
        if text != self.kept:
            self.say_note(stores.keep(self.store, {"text": text}, group="sentences", key=self.key))
            self.kept = text
        lines = "".join(f"<p>{'✓' if met else '○ still to add:'} <strong>{name}</strong>: {escape(sentence)}</p>"
                        for name, met, sentence in look_through(text, self.checks))
        self.answer.value = ("<p>This looks for words and numbers only. Whether they are true is for you and your "
                             f"listener.</p>{lines}")
        visible(self.show_ours, True)

    def open(self):
        """Show our sentences."""
        ours = self.ours() if callable(self.ours) else self.ours
        self.model.value = f"<p><strong>Ours:</strong> {escape(ours)}</p>"

    def say_note(self, note):
        """Tell what the store has to say, where it has."""
        self.note.value = caution(note)


def _holds(text, word):
    """Whether the words stand in the text as words, whatever their case."""
    plain = text.casefold().replace("’", "'")
    return re.search(rf"(?<!\w){re.escape(word.casefold())}(?!\w)", plain) is not None


def _number_in(text, checks):
    """The first number with a unit that is near one of the quantities, as it was written."""
    for found in _WITH_UNIT.findall(_SPREAD.sub(r"\1 \3 \2 \3", text)):
        for quantity, unit in checks.quantities:
            try:
                value = float(units.read_quantity(found, unit).quantity.m_as(unit))
            except ValueError:
                continue
            target = float(quantity.m_as(unit))
            if abs(value - target) <= checks.tolerance * abs(target):
                return found.strip()
    return ""
