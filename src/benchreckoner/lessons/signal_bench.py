"""Book 02, the signal's parts at your bench: what a reading in circuit says, one reading told three ways."""

from html import escape

import ipywidgets

from benchreckoner.bench.sheet import read_text
from benchreckoner.bench.signal_judge import judge_signal
from benchreckoner.bench.vocabulary import SIGNAL_KINDS
from benchreckoner.lessons.your_bench import my_guesses, readings_form
from benchreckoner.physics.parallel import parallel_resistance, without_parallel
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.units import Q, show

QUANTITIES = ("resistance", "wiper resistance", "voltage", "level before", "level", "voltage drop", "current")
# An invented control, read by an invented meter: 5 kilohm in circuit, with and without the name of what lies across it.
_EXAMPLE = """version = 1
[[instrument]]
name = "meter"
accuracy = "0.8 % + 10 ohm"
[[part]]
name = "control"
kind = "potentiometer"
resistance = "10 kohm"
{across}
[[reading]]
part = "control"
quantity = "resistance"
value = "{value}"
instrument = "meter"
stage = "as found"
condition = "{condition}"
"""
_WAYS = (("Nothing named across it", "", "5.00 kohm", "in circuit"),
         ("R3, 10 kΩ, 5 %, named across it", 'across = "R3 10 kohm 5 %"', "5.00 kohm", "in circuit"),
         ("One leg lifted", "", "9.98 kohm", "lifted"))


def signal_form():
    """A form for readings of what passes sound; the judgement answers.

    Returns
    -------
    EntryForm
    """
    return readings_form(quantities=QUANTITIES, kinds=SIGNAL_KINDS)


def three_ways():
    """The same control read in circuit, read with its path named, and read alone: what may be said each time.

    Returns
    -------
    ipywidgets.HTML
    """
    rows = []
    for heading, across, value, condition in _WAYS:
        (report,) = judge_signal(read_text(_EXAMPLE.format(across=across, value=value, condition=condition)))
        (one,) = report.judgements
        rows.append(f"<li><strong>{escape(heading)}: {escape(one.verdict.word)}.</strong> {escape(f'{one.reason} {one.next}')}</li>")
    return ipywidgets.HTML(f"<ul>{''.join(rows)}</ul>")


def guess_in_circuit():
    """Guess first: what a low reading in circuit proves; the same reading told three ways opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="signal-in-circuit", question="A volume control has 10 kΩ written on it. Soldered in, the power off, your meter "
        "reads 5 kΩ from end to end. Is its track bad?",
        choices=(
            Choice("Yes: half of it is gone.", "The meter reads everything that joins the two points. A good track of 10 kΩ "
                   "with 10 kΩ across it reads 5 kΩ."),
            Choice("No: in circuit everything reads low, so it is fine.", "A worn track of 6 kΩ with 30 kΩ across it reads 5 kΩ "
                   "too. A low reading clears nothing."),
            Choice("It has at least 5 kΩ. What lies across it decides the rest.", "Nothing in parallel can raise a reading, so "
                   "5 kΩ is the least. Name what lies across it, and there is a most as well.", right=True),
            Choice("Nothing can be said before a leg is lifted.", "Something can: it has at least 5 kΩ, so it is neither shorted "
                   "nor burnt to a few hundred ohms. Lift a leg only where that is not enough."),
        )), reveal=three_ways, store=my_guesses())


def taken_off(seed=None, blanks=2):
    """Ohms of a part by itself, from its reading in circuit and the path across it."""
    return exercise(_taken_off, key="signal-taken-off", seed=seed, blanks=blanks)


def _taken_off(rng):
    part, path = Q(float(rng.integers(20, 95)) / 10, "kohm"), Q(float(rng.choice([10, 15, 22, 33, 47])), "kohm")
    reading = Q(round(float(parallel_resistance(resistances=Q([part.m_as("kohm"), path.m_as("kohm")], "kohm")).m_as("kohm")), 2), "kohm")
    alone = without_parallel(reading=reading, parallel=path)
    seen, beside = 1 / reading.m_as("kohm"), 1 / path.m_as("kohm")
    return Problem(
        question="A track is read in circuit. How many ohms has it by itself?",
        given=(("read in circuit", show(reading, "ohm")), ("what lies across it", show(path, "ohm"))),
        answer=alone, unit="ohm", tolerance=0.02,
        steps=(Step("One over the reading, per kilohm:", f"{seen:.4f}"),
               Step("Less one over the path:", f"{seen - beside:.4f}"),
               Step("One over that:", show(alone, "ohm"))),
        slips=(Slip(reading, "That is both together. Take the path off."),
               Slip((path - reading).to("ohm"), "Ohms side by side do not add, so they do not subtract. Their <em>inverses</em> do."),
               Slip(parallel_resistance(resistances=Q([reading.m_as("ohm"), path.m_as("ohm")], "ohm")),
                    "That puts the path across it a second time. It has to come off: minus, not plus.")))
