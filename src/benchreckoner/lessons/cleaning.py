"""Book 02, cleaning: a guess, the steps that open one at a time, and whether it helped."""

from html import escape

import ipywidgets
from IPython.display import HTML, Markdown

from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.reasons import told
from benchreckoner.bench.signal_judge import judge_signal
from benchreckoner.bench.signal_levels import MOVEMENT
from benchreckoner.bench.uncertain import Readings
from benchreckoner.bench.verdict import SOUND, UNTOLD
from benchreckoner.lessons.cleaning_steps import steps, steps_for, surfaces
from benchreckoner.lessons.your_bench import my_guesses, my_sheet
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.show.words import above, button, card, row, status_area, visible
from benchreckoner.units import Q, show

_ANY = "any surface: the whole ladder"
_BETTER, _WORSE, _OTHER, _STILL = "better", "worse", "other", "still"


def guess_first_move():
    """Guess first: what to do with a contact that plays up; the ladder of steps opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="cleaning-first-move", question="A switch in an old player crackles. It looks dull. What is the first thing you do?",
        choices=(
            Choice("Spray it: if the crackle goes, it was dirt.",
                   "Spray is no test, it washes the evidence off. If the crackle goes, was it dirt, or did you work the switch "
                   "while you sprayed? And the rest of the can is in the belt, the felt and the foam."),
            Choice("Rub it until it shines.",
                   "Shine does not conduct, contact does. The plating is thinner than a hair by far: bright today, bare steel or "
                   "brass tomorrow. Rubbing is the last step, and on solid metal only."),
            Choice("Vinegar: acid takes any corrosion off.",
                   "Weak acid answers one thing only, the alkaline crust of leaked cells. It never dries out of a switch, and it "
                   "goes on eating there."),
            Choice("Read it, then work it twenty times with the power off, then read it again.",
                   "A reading before, the step that can do least harm, the same reading after. Often that is the whole repair.",
                   right=True),
        )), reveal=ladder, store=my_guesses())


def ladder():
    """The steps, least harm first, one at a time; for any surface or for the one that is chosen."""
    return _Ladder().view


class _Ladder:
    """Opens one step after another, each behind its cautions; choosing another surface begins anew."""

    def __init__(self):
        self.choice = above(ipywidgets.Dropdown, "What do you want to clean?", widest="40em",
                            options=[(_ANY, ""), *((one.title, one.name) for one in surfaces())])
        self.choice.observe(lambda _: self.begin(), names="value")
        self.before, self.past, self.left_out = (ipywidgets.HTML() for _ in range(3))
        self.now = status_area()
        self.further = button("", self.open_next)
        self.again = button("Start again", self.begin)
        self.view = card(row(self.choice), self.before, self.past, self.now, row(self.further, self.again), self.left_out)
        self.begin()

    def begin(self):
        """Close every step."""
        self.surface = next((one for one in surfaces() if one.name == self.choice.value), None)
        self.steps = steps_for(self.surface) if self.surface else steps()
        self.opened = 0
        self.before.value, self.left_out.value = self.first_words(), self.reasons()
        self.past.value = self.now.value = ""
        self.further.description = "Open the first step"
        visible(self.further, True)
        visible(self.again, False)

    def open_next(self):
        """Fold the step that is open, and open the next one."""
        if self.opened == len(self.steps):
            return
        if self.opened:
            earlier = self.steps[self.opened - 1]
            self.past.value += (f"<details><summary>{self.opened}. {escape(earlier.title)}</summary>"
                                f"{self.step_words(earlier)}</details>")
        step = self.steps[self.opened]
        self.opened += 1
        self.now.value = (f"<p><strong>Step {self.opened} of {len(self.steps)}: {escape(step.title)}.</strong></p>"
                          f"{self.step_words(step)}{self.after_words()}")
        self.further.description = "Not enough: the next step"
        visible(self.further, self.opened < len(self.steps))
        visible(self.again, True)

    def first_words(self):
        """What to read before anything is touched, and where to stop."""
        if self.surface is None:
            return ("<p>Ten steps, the one that can do least harm first. After each one read again, and stop as soon as it is "
                    "good. Choose your surface: not every step suits it.</p>")
        return (f"<p><strong>Read.</strong> {escape(self.surface.measure)}</p>"
                f"<p><strong>Where to stop.</strong> {escape(self.surface.stop)}</p>")

    def step_words(self, step):
        """The cautions first, then what to do and what it risks."""
        cautions = "".join(f"<li><strong>{escape(one.title)}.</strong> {escape(one.words)}</li>" for one in step.cautions)
        words = (f"<p>Before it, take care:</p><ul>{cautions}</ul><p>{escape(step.words)}</p>"
                 f"<p>It risks {escape(step.risk)}. <small>({escape(step.source)}. {step.mark})</small></p>")
        if self.surface is None:
            titles = {one.name: one.title for one in surfaces()}
            suits = "".join(f"<li>✓ {escape(titles[name])}</li>" for name in step.suits)
            never = "".join(f"<li>✗ {escape(titles[name])}: {escape(why)}</li>" for name, why in step.never.items())
            words += f"<details><summary>Which surfaces it suits</summary><ul>{suits}{never}</ul></details>"
        return words

    def after_words(self):
        """What comes after a step: read again, then stop or go on."""
        if self.opened == len(self.steps):
            return "<p>Then read again. This is the last step.</p>"
        if self.surface is not None and not self.surface.quantity:
            return "<p>Dry, and nothing loose? Then stop here.</p>"
        what = f"the {self.surface.quantity} again, in" if self.surface is not None else "again,"
        return f"<p>Then read {what} the same place in the same way. Good, and good when you wiggle it? Then stop here.</p>"

    def reasons(self):
        """Why some steps are left out for this surface."""
        if self.surface is None:
            return ""
        lines = "".join(f"<li>{escape(step.title)}: {escape(step.never[self.surface.name])}</li>"
                        for step in steps() if self.surface.name in step.never)
        return f"<details><summary>Steps left out for this surface, and why</summary><ul>{lines}</ul></details>" if lines else ""


def did_it_help():
    """What each action on the sheet changed, by its own readings."""
    return HTML(helped(my_sheet()))


def helped(sheet):
    """Before and after each action, as HTML made from escaped parts.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
    """
    if not sheet.actions:
        return ("<p>No action stands on the sheet yet. Read first, clean, enter what you did above, then read the same places "
                "again under the new stage.</p>")
    changes = _changes(sheet)
    blocks = []
    for action in sheet.actions:
        here = [(way, words) for stage, way, words in changes if stage == action.name]
        moved, still = ([words for way, words in here if (way == _STILL) is wanted] for wanted in (False, True))
        blocks.append(f"<p><strong>{escape(action.name)}.</strong> {_verdict({way for way, _ in here})}</p>{_list(moved)}")
        if still:
            blocks.append(f"<details><summary>{len(still)} without a change that is shown</summary>{_list(still)}</details>")
    return "".join(blocks)


def say_whether_it_helped():
    """Say it: two sentences on what a cleaning did, then ours, from the same readings."""
    best = _told_change(my_sheet())
    if best is None:
        return Markdown("The sheet shows no place yet that got better by more than the uncertainty. Enter an action and the "
                        "readings after it, then run this cell again.")
    return say_it("cleaning-helped", "Tell in two sentences what you did to the machine and whether it helped. Say what it is, "
                  "how you know, how sure you are, and what you do not know.",
                  ours=say_ours(best), checks=say_checks(best), store=my_guesses())


def say_ours(best):
    """Our sentences on one comparison that shows a change for the better."""
    return (f"Reading it before and after shows that it helped: {best.sentence()} What two readings do not show is whether it "
            "stays so: read it again in a month, and wiggle it while you read.")


def say_checks(best):
    """What the reader's sentences on one comparison are looked through for."""
    unit = best.change.unit
    return SayChecks(what=(best.part,), quantities=((best.before.value, unit), (best.after.value, unit),
                                                    (abs(best.change.value), unit)))


def _told_change(sheet):
    """The change for the better that is largest beside its uncertainty, or None."""
    better = [one for one in (*comparisons(judge_sheet(sheet)), *comparisons(judge_signal(sheet)))
              if one.real and one.change.plain < 0]
    return min(better, key=lambda one: one.change.plain / one.change.number.std_dev, default=None)


def _changes(sheet):
    """(stage, which way, words) of everything read before and after: ohms and losses, levels, and what moves."""
    found = []
    for one in (*comparisons(judge_sheet(sheet)), *comparisons(judge_signal(sheet))):
        whole_track = one.quantity == "resistance" and sheet.parts[one.part].kind == "potentiometer"
        found.append((one.after_stage, _way(one.change, 0 if whole_track else -1), f"{one.condition}: {one.sentence()}"))
    return found + list(_levels(sheet)) + list(_movements(sheet))


def _levels(sheet):
    """Levels of one place under one condition, against the last stage that read them."""
    readings, last = Readings(sheet), {}
    for stage in sheet.stages:
        for part, quantity, when, condition in readings.keys():
            if when != stage or quantity != "level":
                continue
            after = readings.find(part, quantity, stage, condition)
            if (part, condition) in last:
                earlier, before = last[part, condition]
                change = after - before
                said = f"{condition}: the level of {part} went from {told(before)} ({earlier}) to {told(after)} ({stage})"
                size = show(Q(abs(change.plain), "dB"), "dB")
                said += (f": {'up' if change.plain > 0 else 'down'} by {size}, more than the uncertainty explains."
                         if change.differs() else ": no more than the uncertainty explains, so nothing is shown to have changed.")
                yield stage, _way(change, 1), said
            last[part, condition] = (stage, after)


def _movements(sheet):
    """Whether what changed when it was wiggled or pressed still does."""
    last = {}
    for report in reversed(judge_signal(sheet)):
        for one in report.judgements:
            key = (one.part, one.condition)
            if one.quantity != MOVEMENT or one.verdict.word == UNTOLD:
                continue
            if key in last:
                earlier, before = last[key]
                way = {(False, True): _BETTER, (True, False): _WORSE}.get((before == SOUND, one.verdict.word == SOUND), _STILL)
                yield report.stage, way, f"{one.condition}: {one.part} was {before} ({earlier}) and is {one.verdict.word} ({report.stage})."
            last[key] = (report.stage, one.verdict.word)


def _way(change, better):
    """Which way a change went; `better` is the sign of a change for the better, 0 where neither sign is."""
    if not change.differs():
        return _STILL
    return {1: _BETTER, -1: _WORSE, 0: _OTHER}[better * (1 if change.plain > 0 else -1)]


def _verdict(ways):
    """What an action did, from the ways its readings went."""
    if _WORSE in ways:
        return ("Something got better, something got worse:" if _BETTER in ways
                else "Something got worse. Look again at what was touched:")
    if _BETTER in ways:
        return "It helped:"
    if _OTHER in ways:
        return "It changed something:"
    if _STILL in ways:
        return "No reading shows that it changed anything. The part may have been good, or the meter too coarse."
    return "No place was read both before and after it, so nobody knows whether it helped."


def _list(lines):
    return f"<ul>{''.join(f'<li>{escape(line)}</li>' for line in lines)}</ul>" if lines else ""
