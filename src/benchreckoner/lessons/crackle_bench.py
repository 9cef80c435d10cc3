"""Book 02, crackle at your own bench: the form for four tests and a recording, the odds, and how far to trust them."""

from html import escape
from pathlib import Path

import ipywidgets
from IPython.display import Markdown

from benchreckoner.bench.crackle_signs import signs
from benchreckoner.bench.crackle_sort import (CAUSES, CHANGES, SAME, UNTOLD, UNTRIED, crackle_tests, judged_names,
                                              percent, sort_crackle)
from benchreckoner.bench.recordings import read_recording
from benchreckoner.lessons.crackle import scratching
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.show import store
from benchreckoner.show.form import EntryForm, Field
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show

_PLACE = {"group": "crackle", "key": "tests"}
_NO_RECORDING = "none"
_METER = Q(2, "mV")  # what the machine in the exercise of telling reads across its control
_SHORT = {"flicker": "flicker", "wiper": "wiper", "leak": "leak", "shared": "shared", "other": "none", UNTOLD: UNTOLD}
_WAYS = {"recording": "the recording alone", "tests": "the four tests alone", "both": "both"}


def crackle_form():
    """A form for the four tests and a recording; it keeps them beside the sheet and answers with odds.

    Returns
    -------
    ipywidgets.VBox
    """
    return _Crackle().view


class _Crackle:
    """The form, and where the reading of a long recording shows its progress."""

    def __init__(self):
        self.progress = ipywidgets.Output()
        fields = (*(Field(test.name, test.title, "choice", (UNTRIED, CHANGES, SAME)) for test in crackle_tests()),
                  Field("recording", "Recording, if you have one", placeholder="such as recordings/switch.wav"))
        self.form = EntryForm(fields, value="recording", on_save=self.save, on_undo=self.undo, answer=_answer)
        last, _ = _last()
        for name, box in self.form.boxes.items():
            if last.get(name) in (UNTRIED, CHANGES, SAME):
                box.value = last[name]
        self.view = ipywidgets.VBox([self.form, self.progress], layout={"overflow": "visible"})

    def save(self, entries):
        """Keep the answers; with a new recording its signs as well, else those of the one before."""
        before, _ = _last()
        path = entries.pop("recording").strip("\"'")
        heard = {name: before[name] for name in ("recording", "signs") if name in before}
        if path == _NO_RECORDING:
            heard = {}
        elif path:
            heard = {"recording": Path(path).name, "signs": self.searched(Path(path).expanduser())}
        note = store.keep(my_guesses(), {**entries, **heard}, **_PLACE)
        told = f"Kept in {my_guesses().name}, with the recording {heard['recording']}." if heard else f"Kept in {my_guesses().name}."
        return escape(note or told)

    def searched(self, path):
        """The signs of a recording; stopped, nothing is kept."""
        self.progress.clear_output()
        stopped = None
        with self.progress:
            try:
                return signs(read_recording(path).samples)
            except (ValueError, OSError) as error:
                stopped = error
            except KeyboardInterrupt:
                stopped = ValueError("stopped before the recording was read; nothing was changed")
        raise stopped

    def undo(self):
        """Go back to what was kept before."""
        kept, _ = store.kept(my_guesses(), **_PLACE)
        if len(kept) < 2:
            raise ValueError("nothing to take back: these are the first answers kept")
        earlier = {name: value for name, value in kept[-2].items() if name != "date"}
        store.keep(my_guesses(), earlier, **_PLACE)
        for test in crackle_tests():
            self.form.boxes[test.name].value = earlier.get(test.name, UNTRIED)
        return "Back to the answers before."


def _last():
    kept, note = store.kept(my_guesses(), **_PLACE)
    return (kept[-1] if kept else {}), note


def _answer():
    """The odds of what was kept last, why, and what to try next, as HTML made from escaped parts."""
    last, note = _last()
    odds = my_odds()
    asked = "".join(f"<li><strong>{escape(test.title)}.</strong> {escape(test.ask)}</li>" for test in crackle_tests())
    rows = "".join(f"<tr><td>{escape(CAUSES[cause])}</td><td>{percent(odds.shares[cause])}</td></tr>" for cause in odds.ranked)
    reasons = "".join(f"<li>{escape(reason)}</li>" for reason in odds.reasons)
    from_what = (f"With {escape(str(last['recording']))}. " if "signs" in last else "No recording yet. ")
    return ((f"<p><strong>Take care:</strong> {escape(note)}</p>" if note else "")
            + f"<details><summary>The four tests</summary><ol>{asked}</ol></details>"
            + f"<p>{from_what}<strong>{escape(odds.sentence)}</strong></p><p><strong>Next:</strong> {escape(odds.next)}</p>"
            + f'<table class="reckoner-given"><caption>Odds</caption>{rows}</table>'
            + (f"<details><summary>Why</summary><ul>{reasons}</ul></details>" if reasons else ""))


def my_odds():
    """The odds from the answers kept last.

    Returns
    -------
    CrackleOdds
        Even odds if nothing was kept, or nothing that can be read.
    """
    last, _ = _last()
    answers = {test.name: last[test.name] for test in crackle_tests() if last.get(test.name) in (CHANGES, SAME)}
    found = last.get("signs") if isinstance(last.get("signs"), dict) else {}
    return sort_crackle(found={name: value for name, value in found.items() if isinstance(value, (int, float))}, answers=answers)


def odds_table():
    """What each test is taken to say, as a table."""
    tests = crackle_tests()
    lines = [f"| cause | {' | '.join(test.name for test in tests)} |", "|---" * (len(tests) + 1) + "|"]
    lines += [f"| {CAUSES[cause]} | " + " | ".join(f"{100 * test.changes[cause]:.0f}" for test in tests) + " |" for cause in CAUSES]
    return Markdown("In 100 machines with this cause, the test changes the crackle in so many:\n\n" + "\n".join(lines)
                    + "\n\nPRACTICE: judgement of the trade, no source. Before any test, each cause has one in five.")


def judged_table(way="both"):
    """What was named in the trial on unheard recordings, as a table.

    Parameters
    ----------
    way : str
        The evidence used: ``"recording"``, ``"tests"`` or ``"both"``.
    """
    if way not in _WAYS:
        raise ValueError(f"way {way!r}: write one of {', '.join(_WAYS)}")
    named = judged_names()[way]
    lines = [f"Named from {_WAYS[way]}:\n\n| in truth | {' | '.join(_SHORT.values())} |", "|---" * (len(_SHORT) + 1) + "|"]
    lines += [f"| {CAUSES[cause]} | " + " | ".join(str(names.count(column)) for column in _SHORT) + " |"
              for cause, names in named.items()]
    told = [(cause, name) for cause, names in named.items() for name in names if name != UNTOLD]
    right = sum(cause == name for cause, name in told)
    false = sum(name != "other" for cause, name in told if cause == "other")
    return Markdown("\n".join(lines) + f"\n\nNamed {len(told)} of {sum(map(len, named.values()))}, rightly {right}. "
                    f"Without a fault, and yet given one: {false} of {len(named['other'])}.")


def say_what_crackles():
    """Say it: two sentences on a control that scratches, then ours, made from the same odds and reading."""
    return say_it("crackle-cause", "A control scratches while it is turned, and only then. Pressing, other power and waiting change "
                  f"nothing. Across it you read {show(_METER, 'V')} of direct volts. Tell its owner in two sentences what it is, how "
                  "you know, how sure you are, and what you do not know.", ours=say_ours,
                  checks=SayChecks(what=("wiper", "control", "track", "potentiometer"), quantities=((_METER, "V"),)), store=my_guesses())


def say_ours():
    """Our sentences on the scratching control."""
    odds = scratching()
    best, second = odds.ranked[:2]
    return (f"It is most likely {CAUSES[best]}: it scratches only while it is turned, which alone makes that about "
            f"{100 * odds.shares[best]:.0f} % sure against {100 * odds.shares[second]:.0f} % for {CAUSES[second]}, and the "
            f"{show(_METER, 'V')} I read across it speak against the leak. I have not read it hot, so a leak that comes with "
            "warmth is not ruled out, and whether cleaning lasts I cannot say yet.")
