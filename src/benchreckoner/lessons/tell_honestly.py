"""Book 07, telling honestly: one idea a sentence, and how sure, in words."""

from html import escape

import numpy as np
from IPython.display import HTML
from uncertainties import ufloat

from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.uncertain import Known
from benchreckoner.bench.vocabulary import AS_FOUND
from benchreckoner.lessons.your_bench import my_guesses, my_sheet, opening
from benchreckoner.physics.comparing import change_uncertainty
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Curve, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.show.spoken import called, figure, shared_size
from benchreckoner.units import Q, show_known

BEFORE = Q(60, "mohm")
_HIGHEST = 110.0  # mΩ, the end of the picture's axis
BREATH = 20  # words of a sentence that is heard once; common practice
OURS = ("Spring 3 had about 827 milliohms, give or take 13. After it was cleaned, it had about 39.2, give or take 0.63. Between the two "
        "readings only that was done. That shows the spring mended, not the whole machine, and not for how long.")
OURS_IN_PARTS = ("Before, the player drew about 84 milliamps, give or take 2. Then its bearing was cleaned and oiled. After that it drew about "
                 "61, give or take 2. Between the two readings only that was done. They do not show why the bearing was stiff.")


def before_after(*, after, spread):
    """One link read before and after, each with the same ±, and whether a change may be told.

    Parameters
    ----------
    after : Quantity [ohm]
        The second reading; the first is `BEFORE`.
    spread : Quantity [ohm], above zero
        Expanded uncertainty of each, k = 2.

    Returns
    -------
    Picture
    """
    first, second, half = (float(value.m_as("mohm")) for value in (BEFORE, after, spread))
    wide = float(change_uncertainty(before=spread, after=spread).m_as("mohm"))
    ohms, change = np.linspace(0, _HIGHEST, 441), second - first
    told = _told(change, wide)
    said = [figure(_known(value, half)) for value in (first, second)]
    return Picture(
        title="Has it changed?",
        x=Axis("ohms of one link", "mohm", 0, _HIGHEST), y=Axis("how likely", "", 0, 1.15),
        curves=(Curve("before", ohms, _bell(ohms, first, half), "first"), Curve("after", ohms, _bell(ohms, second, half), "second")),
        points=(Point("first", first, 1.0, "other"), Point("second", second, 1.0)),
        sentence=f"Before, {said[0]}; after, {said[1]}. {told}",
        alt=(f"Two bell-shaped curves, one round {first:.0f} milliohms, the other round {second:.0f} milliohms, each with a ± of "
             f"{half:.0f} milliohm{'' if half == 1 else 's'}. {told}"))


BEFORE_AFTER = LivePicture(
    key="has-it-changed", picture=before_after,
    sliders=(Slider("after", "ohms read afterwards", "mohm", tuple(float(ohms) for ohms in range(20, 101)), start=38),
             Slider("spread", "the ± of each reading", "mohm", tuple(float(ohms) for ohms in range(1, 21)), start=2)),
    goal="Give each reading ± 5 mΩ. How far below 60 mΩ must the second one lie before a change may be told?",
    phone_sliders=("after", "spread"))


def guess_one_idea():
    """Guess first: which of four sentences may stand in the film."""
    return choice_guess(ChoiceGuess(
        key="tell-one-idea", question="Spring 3 read 827 ± 13 mΩ. You cleaned it, worked the jack, and now the player starts at once. "
        "Which sentence may stand in your film?",
        choices=(
            Choice("“Cleaning the spring cured it.”", "Two things were done, and nobody tried the start between them. The spring's own "
                   "ohms were read on both sides of its cleaning; the start was not."),
            Choice("“The spring had about 827 milliohms, give or take 13; a sound one has up to 50.”",
                   "One idea, a figure with its ±, and what to hold it against.", right=True),
            Choice("“The contact was dead.”", "A dead contact passes nothing. This one passed about an ampere."),
            Choice("“It measured 826.79 milliohms.”", "No meter here tells hundredths of a milliohm beside 13. Digits are a claim too."),
        )), store=my_guesses())


def guess_change():
    """Guess first: the ± of a change; the live picture opens afterwards."""
    return number_guess(NumberGuess(
        key="tell-change", unit="ohm", truth=change_uncertainty(before=Q(3, "mohm"), after=Q(4, "mohm")),
        question="A link reads 62 ± 3 mΩ, and after cleaning 55 ± 4 mΩ, on two meters that share nothing. "
                 "The change is 7 mΩ. How wide is <em>its</em> ±?",
        explanation="<p>Not 7: both would have to be off by all they may, in opposite ways, at once. Not 4 either. Square them, add, "
                    "take the root: 5 mΩ. So 7 ± 5 mΩ may be told as a change.</p>"),
        reveal=opening(BEFORE_AFTER), store=my_guesses())


def guess_cure():
    """Guess first: what may be said where two actions lie between two readings."""
    return choice_guess(ChoiceGuess(
        key="tell-cure", question="Speed before: 0.9 % slow. Then the springs are cleaned, then the bearing is oiled. Speed after: right. "
        "Nobody read the speed in between. What do you tell?",
        choices=(
            Choice("The oil did it: it came last.", "Last is not cause. The better contacts may have done it, and the oil nothing."),
            Choice("One of the two, or both; the readings cannot say which.", "Next time, read between the actions: "
                   "a minute with the phone, and you can.", right=True),
            Choice("Both did it: each was needed.", "Perhaps one alone was enough. Nothing read tells that."),
            Choice("Nothing can be said.", "Something can: it changed, by more than the uncertainty explains, and by no more than these two."),
        )), store=my_guesses())


def guess_six_minutes():
    """Guess first: how many words fit into six minutes."""
    return number_guess(NumberGuess(
        key="tell-six-minutes", unit="", truth=Q(960, ""),
        question="At 160 words a minute, the slow end of what most authors advise for radio: how many words is a talk of six minutes?",
        explanation="<p>6 times 160 is 960: about two pages. “827” counts as five of them, since you say "
                    "<em>eight hundred and twenty-seven</em>.</p>"), store=my_guesses())


def my_changes():
    """Every change on the reader's own sheet that may be told, as it would be said."""
    changes = _changes(my_sheet())
    real = [one for one in changes if one.real]
    rows = "".join("<li>{}, {}: {}; after “{}”, {}.</li>".format(*map(escape, (one.part, one.quantity, before, one.after_stage, after)))
                   for one in real for before, after in (_figures(one),))
    if not changes:
        return HTML("<p>Nothing on your sheet was read both before and after an action. Read one thing again, under the same condition, "
                    "and it stands here.</p>")
    start = f"<p>{len(real)} of {len(changes)} readings that were taken twice changed by more than the uncertainty explains.</p>"
    return HTML(start + (f"<ul>{rows}</ul>" if rows else ""))


def say_the_change():
    """Say it: what cleaning changed, one idea a sentence."""
    return say_it(
        "tell-the-change", f"Spring 3 read {show_known(Q(827, 'mohm'), Q(13, 'mohm'), 'ohm')} as found and "
        f"{show_known(Q(39.23, 'mohm'), Q(0.63, 'mohm'), 'ohm')} after it was cleaned. Tell a viewer, one idea a sentence: what changed, how you "
        "know, how sure you are, and what it does not show.",
        ours=OURS, store=my_guesses(),
        checks=SayChecks(what=("spring", "contact"), most_words=BREATH,
                         quantities=((Q(39.2, "mohm"), "ohm"), (Q(827, "mohm"), "ohm"), (Q(788, "mohm"), "ohm"))))


def say_one_idea():
    """Say it: a sentence of thirty words, taken apart so that it can be heard."""
    return say_it(
        "tell-one-idea-said", "This is right, and lost on whoever hears it: <em>After the bearing had been cleaned and oiled the player, which "
        "before had drawn 84 ± 2 mA, drew 61 ± 2 mA, which between these two readings nothing else explains.</em> Take it apart, one idea a "
        f"sentence, none of more than {BREATH} words. Add what it does not show.",
        ours=OURS_IN_PARTS, store=my_guesses(), checks=SayChecks(
            what=("player", "bearing", "current"), quantities=((Q(61, "mA"), "A"), (Q(84, "mA"), "A"), (Q(23, "mA"), "A")), most_words=BREATH))


def say_mine():
    """Say it: a change on the reader's own sheet, then our sentences from the same two readings."""
    sheet = my_sheet()
    one = next((change for change in _changes(sheet) if change.real), None)
    if one is None:
        return HTML("<p>No change on your sheet may be told yet. Read one thing before an action and again after it, under the same condition, "
                    "and run this cell again.</p>")
    known = [value.value for value in (one.after, one.before)] + [abs(one.change.value)]
    return say_it(
        "tell-mine", f"From your sheet: <em>{escape(_steps(one))}</em> Tell that to somebody who was not there: what changed, how you know, how sure you are, and what it "
        "does not show.", ours=mine_told(one, sheet.stages), store=my_guesses(),
        checks=SayChecks(what=(one.part,), quantities=tuple((value, one.after.unit) for value in known), most_words=25))


def mine_told(change, stages):
    """Our sentences on one change.

    Parameters
    ----------
    change : Comparison
    stages : sequence of str
        Of the sheet, in their order.

    Returns
    -------
    str
    """
    between = stages.index(change.after_stage) - stages.index(change.before_stage)
    cause = ("Between the two readings only that was done." if between == 1 else
             f"{between} things were done between the two readings, so they cannot say which of them did it.")
    return f"{_steps(change)} {cause} They do not show how long it will last."


def _steps(change):
    """The two readings, as said aloud."""
    before, after = _figures(change)
    when = "As found" if change.before_stage == AS_FOUND else f"After “{change.before_stage}”"
    return (f"{when}, the {change.quantity} at {called(change.part)} ({change.condition}) was {before}. "
            f"After “{change.after_stage}”, it was {after}.")


def _figures(change):
    """Before and after in one unit, so that they can be compared by ear."""
    size = shared_size([known.value for known in (change.before, change.after)], change.before.unit)
    return [figure(known, size=size) for known in (change.before, change.after)]


def _changes(sheet):
    return [*comparisons(judge_sheet(sheet)), *comparisons(judge_parts(sheet))]


def _told(change, wide):
    size = f"{abs(change):.0f} milliohms, give or take {wide:.2g}" if wide < 10 else f"{abs(change):.0f} milliohms, give or take {wide:.0f}"
    if abs(change) > wide:
        return f"The change is {size}: more than the uncertainty explains, so it may be told as a change {'down' if change < 0 else 'up'}."
    return f"The change is {size}: no more than the uncertainty explains, so nothing is shown to have changed."


def _bell(ohms, middle, half):
    return np.exp(-0.5 * ((ohms - middle) / (half / 2)) ** 2)


def _known(milliohms, half):
    return Known(ufloat(milliohms / 1e3, half / 2e3), "ohm")
