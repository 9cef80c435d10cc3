"""Book 00, start here: the three tools that newcomers need, the cautions, the sheet, the index of books."""

import json
import re
from html import escape

import numpy as np
from IPython.display import HTML, Markdown

from benchreckoner import project
from benchreckoner.bench.cautions import all_cautions
from benchreckoner.bench.reasons import sureness
from benchreckoner.bench.verdict import UNTOLD, judge_value
from benchreckoner.lessons.contact_resistance import SPRING_BAND, SUPPLY, held_volts
from benchreckoner.lessons.sure_and_right import ranges_sentence
from benchreckoner.lessons.your_bench import my_guesses, my_sheet, opening
from benchreckoner.physics.contacts import motor_voltage
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.still import still
from benchreckoner.show.store import hit_rate
from benchreckoner.units import Q, show, show_known

_DOUBTFUL, _BAD = (float(edge.m_as("ohm")) for edge in (SPRING_BAND.sound_up_to, SPRING_BAND.bad_from))


def divider(*, upper, lower, supply=SUPPLY):
    """Volts across the lower of two resistors, against its ohms.

    Parameters
    ----------
    upper, lower : Quantity [ohm]
    supply : Quantity [V]

    Returns
    -------
    Picture
    """
    ohms = Q(np.linspace(0.1, 20, 160), "ohm")

    def volts(lower):
        return motor_voltage(supply=supply, source_resistance=upper, motor_resistance=lower).m_as("V")

    tap, whole = float(volts(lower)), upper + lower
    return Picture(
        title="A divider shares volts out by ohms",
        x=Axis("ohms of the lower one", "ohm", 0, 20), y=Axis("volts across the lower one", "V", 0, supply.m_as("V")),
        curves=(Curve("volts across the lower one", ohms.m_as("ohm"), volts(ohms)),),
        points=(Point("here", float(lower.m_as("ohm")), tap),),
        sentence=(f"{show(upper, 'ohm')} above and {show(lower, 'ohm')} below make {show(whole, 'ohm')}. The lower one "
                  f"keeps {lower.m_as('ohm'):.1f} of {whole.m_as('ohm'):.1f} ohms, so it keeps that share of the "
                  f"{supply.m_as('V'):.0f} V: {tap:.2f} V."),
        alt=(f"A curve of the volts across the lower resistor against its ohms, rising ever more slowly towards "
             f"{supply.m_as('V'):.0f} V. At {show(lower, 'ohm')} it stands at {tap:.2f} V."))


def plus_or_minus(*, value, spread):
    """A value with its uncertainty beside the limits of a battery spring, and the verdict that follows.

    Parameters
    ----------
    value : Quantity [ohm]
        As read.
    spread : Quantity [ohm]
        Expanded uncertainty, k = 2: the number behind the ±.

    Returns
    -------
    Picture
    """
    middle, half = float(value.m_as("ohm")), float(spread.m_as("ohm"))
    ohms = np.linspace(0, 1, 401)
    verdict = judge_value(value=middle, uncertainty=half / 2, sound_up_to=_DOUBTFUL, bad_from=_BAD)
    known = show_known(value, spread, "ohm")
    why = ("no verdict holds 95 % of what it could be" if verdict.word == UNTOLD else sureness(verdict.probability))
    return Picture(
        title="A reading is a range",
        x=Axis("ohms of a battery spring", "ohm", 0, 1), y=Axis("how likely, beside the likeliest", "", 0, 1.1),
        curves=(Curve("where the true value may be", ohms, np.exp(-0.5 * ((ohms - middle) / (half / 2)) ** 2)),),
        points=(Point("read", middle, 1.0), Point("minus", _inside(middle - half), np.exp(-2), "other"),
                Point("plus", _inside(middle + half), np.exp(-2), "extra")),
        limits=(Limit("doubtful", "x", _DOUBTFUL), Limit("bad", "x", _BAD)),
        sentence=f"{known}: {verdict.word}; {why}.",
        alt=(f"A bell-shaped curve round {show(value, 'ohm')}, with the limits at 50 mΩ and 500 mΩ marked. "
             f"The verdict is: {verdict.word}."))


DIVIDER = LivePicture(
    key="divider", picture=divider,
    sliders=(Slider("upper", "ohms of the upper one", "ohm", ladder(0.2, 10, 50), start=4),
             Slider("lower", "ohms of the lower one", "ohm", ladder(0.5, 20, 40), start=4)),
    goal="Put 8 Ω below and find the ohms above that leave 5.0 V of 6 V.", phone_sliders=("upper", "lower"))

PLUS_OR_MINUS = LivePicture(
    key="plus-or-minus", picture=plus_or_minus,
    sliders=(Slider("value", "ohms as read", "ohm", ladder(0.01, 0.9, 90), start=0.6),
             Slider("spread", "the number behind the ±", "ohm", ladder(0.01, 0.4, 40), start=0.05)),
    goal="Read 600 mΩ. How wide may the ± be before \"bad\" becomes \"can't tell yet\"?",
    phone_sliders=("value", "spread"))


def guess_divider():
    """Guess first: the ohms above that leave 5 of 6 V; the live picture opens afterwards."""
    return number_guess(NumberGuess(
        key="start-divider", unit="ohm", truth=Q(1.6, "ohm"),
        question="Two resistors in a row share 6 V. The lower one has 8 Ω and is to keep 5 V. How many ohms above it?",
        explanation="<p>The lower one keeps five sixths of the volts, so it has five sixths of the ohms: 8 of 9.6. "
                    "That leaves 1.6 Ω above.</p>"),
        reveal=opening(DIVIDER), store=my_guesses())


def guess_plus_or_minus():
    """Guess first: what may be said of a range that reaches over a limit; the live picture opens afterwards."""
    verdict = judge_value(value=0.6, uncertainty=0.09, sound_up_to=_DOUBTFUL, bad_from=_BAD)
    return choice_guess(ChoiceGuess(
        key="start-plus-or-minus", question="A spring reads 600 ± 180 mΩ, and from 500 mΩ on a spring is bad. What do you say?",
        choices=(
            Choice("Bad: 600 is more than 500.", f"The number is, the range is not: bad holds only "
                   f"{100 * verdict.probability:.0f} % of it. Replace parts on that, and one in eight was not bad."),
            Choice("Can't tell yet.", f"Bad holds {100 * verdict.probability:.0f} % of the range, and a verdict needs 95 %. "
                   "Read it more finely.", right=True),
            Choice("Sound: it might be below 500.", "Sound ends at 50 mΩ for a spring, and next to nothing of the range lies there."),
        )), reveal=opening(PLUS_OR_MINUS), store=my_guesses())


def log_axis_picture():
    """The same curve on a log axis: what was crowded at the left edge has room."""
    return still(held_volts(link=Q(1, "ohm"), cells=Q(0.6, "ohm")))


def plain_axis_picture():
    """The curve of motor volts on a plain axis: everything that matters is crowded at the left edge."""
    log = held_volts(link=Q(1, "ohm"), cells=Q(0.6, "ohm"))
    ohms = np.linspace(0, 100, 401)
    volts = motor_voltage(supply=SUPPLY, source_resistance=Q(0.6, "ohm"), motor_resistance=Q(8, "ohm"),
                          contact_resistance=Q(ohms, "ohm"))
    return still(Picture(
        title="Volts at the held motor, on a plain axis", x=Axis("ohms of one link", "ohm", 0, 100), y=log.y,
        curves=(Curve("motor volts", ohms, volts.m_as("V")),), points=(Point("1 Ω", 1.0, log.points[0].y),),
        sentence="On a plain axis everything between a sound and a bad spring lies within the first half per cent.",
        alt="The same curve on a plain axis from 0 to 100 ohms: it drops steeply at the left edge, where all the "
            "sound and bad springs are, and crawls along the bottom for the rest."))


def guess_log_step():
    """Guess first: what one step to the right means on a log axis."""
    return choice_guess(ChoiceGuess(
        key="start-log-step", question="On a log axis the marks read 0.01, 0.1, 1, 10. Which value lies half-way between 1 and 10?",
        choices=(
            Choice("5.5", "That is half-way on a plain axis. On a log axis equal steps <em>multiply</em>: half-way is "
                   "the number that is as many times 1 as 10 is of it."),
            Choice("about 3.2", "3.2 times 1 is 3.2, and 3.2 times 3.2 is about 10.", right=True),
            Choice("5", "Half of ten is half-way on a plain axis that starts at 0. A log axis never reaches 0."),
        )), store=my_guesses())


def books():
    """The books that exist, with links, in order."""
    rows = []
    for path in sorted(project.NOTEBOOKS.glob("[0-9][0-9]_*.ipynb")):
        title, question = _heading(path)
        rows.append(f"| [{path.stem}]({path.name}) | {title} | {question} |")
    return Markdown("\n".join(["| book | what you do in it | the question it answers |", "|---|---|---|", *rows]))


def bench_summary():
    """What is on the bench: machine, instruments, parts of the sheet, and where the file lies."""
    sheet = my_sheet()
    instruments = ", ".join(escape(name) for name in sheet.instruments) or "none yet"
    parts = ", ".join(escape(name) for name in sheet.parts) or "none yet"
    supply = f", {escape(show(sheet.machine.supply, 'V'))}" if sheet.machine.supply is not None else ""
    return HTML(f"<p><strong>{escape(sheet.machine.name)}</strong> ({escape(sheet.machine.kind)}{supply}), "
                f"from {escape(sheet.source)}.</p><p>Instruments: {instruments}.</p><p>Parts: {parts}.</p>"
                f"<p>{len(sheet.readings)} readings so far.</p>")


def how_well_i_guess():
    """What the reader's guesses came to so far, ranges and choices."""
    rate = hit_rate(my_guesses())
    choices = " ".join(f"Of {asked} choice{'s' if asked > 1 else ''} at {sure} % sure, {right} right."
                       for sure, asked, right in rate.choices)
    return Markdown(f"{ranges_sentence(rate)} {choices}".strip())


def cautions():
    """Every caution of the bench, with its source and mark."""
    rows = [f"<dt><strong>{escape(one.title)}</strong></dt><dd>{escape(one.words)} "
            f"<small>({escape(one.source)}. {one.mark})</small></dd>" for one in all_cautions()]
    return HTML(f"<dl>{''.join(rows)}</dl>")


def _inside(ohms):
    """A place on the axis from 0 to 1 ohm, or none."""
    return ohms if 0 <= ohms <= 1 else np.nan


def _heading(path):
    """Title and question of a book: its first heading, and the line that starts with "The question:"."""
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    text = "".join(cells[0]["source"]) if cells else ""
    title = re.search(r"^# (.+)$", text, re.MULTILINE)
    question = re.search(r"^\*?The question:\*? (.+)$", text, re.MULTILINE)
    return (title[1] if title else path.stem), (question[1] if question else "")
