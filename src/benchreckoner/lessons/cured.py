"""Book 02, cured or just shy: what clean tries prove, what peeking costs, and a test that may be watched."""

import functools

import numpy as np

from benchreckoner.bench.tries import PLAN, Tally, counted, decision_words, percent, still_possible, tallies
from benchreckoner.lessons.your_bench import my_guesses, my_sheet, opening
from benchreckoner.physics.chance import chance_misled_by_peeking, failure_rate_limit
from benchreckoner.physics.sequential import chance_called_cured, expected_tries
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it

EXAMPLE = Tally("switch", "cold", "as found", ((31, 0),))
_MOST_TRIES = 150
_MOST_PEEKS = 300
_RATES = (0.5, 0.7, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40, 50)


def failure_limit(*, clean, faults):
    """The highest failure rate that clean tries still allow.

    Parameters
    ----------
    clean, faults : float
        Whole numbers.

    Returns
    -------
    Picture
    """
    clean, faults = int(clean), int(faults)
    places = np.arange(1, _MOST_TRIES + 1)
    limit = failure_rate_limit(clean=clean, faults=faults)
    tries = f"{clean} clean {'try' if clean == 1 else 'tries'}"
    also = "no fault" if not faults else f"{faults} {'fault' if faults == 1 else 'faults'}"
    check = "" if faults else f" Rule of three, as a check: 3/{clean} is {percent(3 / clean)}." if clean >= 10 else \
        " The rule of three, 3/n, is no good yet: too few tries."
    return Picture(
        title="What is still possible after clean tries",
        x=Axis("clean tries", "", 0, _MOST_TRIES), y=Axis("highest failure rate still possible", "percent", 1, 100, "log", "%"),
        curves=(Curve("without a fault", places, _limits(0), "faint"),
                Curve("rule of three, 3/n", places, np.where(places >= 3, 300 / places, np.nan), "third"),
                Curve("with your faults", places, _limits(faults))),
        points=(Point("here", clean, 100 * limit),),
        limits=(Limit("5 %", "y", 5),),
        sentence=(f"After {tries} and {also}, a part that fails in up to {percent(limit)} of all tries could still hide "
                  f"(95 % limit).{' That is below 5 %.' if limit < 0.05 else ''}{check}"),
        alt=("A falling curve of the highest failure rate still possible, on a log axis, against the number of clean tries: "
             "steep at first, then ever flatter. The rule of three runs a little above it. Each fault lifts the curve. "
             f"At {tries} and {also} it stands at {percent(limit)}."))


def peeking(*, rate, tries):
    """How often a limit made for one look misleads someone who looks after every try.

    Parameters
    ----------
    rate : float
        True failures in a hundred tries.
    tries : float
        At most so many tries.

    Returns
    -------
    Picture
    """
    ever = _misled(rate)
    here = float(ever[int(tries) - 1])
    return Picture(
        title="Stopping when it looks good",
        x=Axis("tries, at most", "", 0, _MOST_PEEKS), y=Axis("misled so far", "percent", 0, 40, symbol="%"),
        curves=(Curve("looking at the limit after every try", np.arange(1, _MOST_PEEKS + 1), 100 * ever),),
        points=(Point("here", tries, 100 * here),),
        limits=(Limit("promised for one look", "y", 5),),
        sentence=(f"A part that fails {rate:g} times in a hundred is called better than it is in {percent(here)} of repairs, if "
                  f"you look after every try and would stop at {tries:g}. Promised were 5 %. Wald's test, watched just as "
                  f"closely and for as long as it takes, lets such a part pass in {percent(_passed(rate))}."),
        alt=("A curve that climbs in steps with the number of tries: how often somebody has been misled who looks at the 95 % "
             "limit after every try. A line across stands at the promised 5 %; the curve leaves it below. "
             f"At {tries:g} tries it stands at {percent(here)}."))


def watched_test(*, rate, bad):
    """How often Wald's test calls a part cured, against how often the part really fails.

    Parameters
    ----------
    rate, bad : float
        Failures in a hundred tries: the part's own, a step of its slider, and those that must not pass.

    Returns
    -------
    Picture
    """
    chances, means = _watched(bad)
    chance, mean = (float(found[_RATES.index(rate)]) for found in (chances, means))
    return Picture(
        title="What the watched test lets pass",
        x=Axis("true failures in a hundred tries", "", 0.5, 50, "log"), y=Axis("called cured", "percent", 0, 100, symbol="%"),
        curves=(Curve("chance of being called cured", np.array(_RATES), 100 * chances),),
        points=(Point("here", rate, 100 * chance),),
        limits=(Limit("cured", "x", 100 * PLAN["good_rate"]), Limit("bad", "x", bad)),
        sentence=(f"A part that really fails {rate:g} times in a hundred is called cured in {percent(chance)} of such tests; "
                  f"a test of it takes {mean:.0f} tries on average."),
        alt=("A curve that falls from nearly 100 per cent to nearly 0 as the part's true failure rate rises, on a log axis. "
             f"Lines stand at 1 in a hundred, which counts as cured, and at {bad:g}, which counts as bad. "
             f"At {rate:g} in a hundred the curve stands at {percent(chance)}."))


# Sliders come back to the same few faults and rates, and a walk through every outcome takes longer than a step may.
@functools.cache
def _limits(faults):
    return np.array([100 * failure_rate_limit(clean=number, faults=faults) for number in range(1, _MOST_TRIES + 1)])


@functools.cache
def _misled(rate):
    return chance_misled_by_peeking(rate=rate / 100, tries=_MOST_PEEKS)


@functools.cache
def _passed(rate):
    return float(chance_called_cured(rate=rate / 100, **{**PLAN, "good_rate": rate / 1000, "bad_rate": rate / 100}))


@functools.cache
def _watched(bad):
    plan = {**PLAN, "bad_rate": bad / 100}
    return tuple(law(rate=np.array(_RATES) / 100, **plan) for law in (chance_called_cured, expected_tries))


FAILURE_LIMIT = LivePicture(
    key="failure-limit", picture=failure_limit,
    sliders=(Slider("clean", "clean tries", "", tuple(range(1, _MOST_TRIES + 1)), start=10),
             Slider("faults", "tries with the fault", "", (0, 1, 2, 3), start=0)),
    goal="Find the fewest clean tries that push the limit below 5 %. Then let one fault happen, and find them again.",
    phone_sliders=("clean", "faults"))

PEEKING = LivePicture(
    key="peeking", picture=peeking,
    sliders=(Slider("tries", "tries, at most", "", tuple(range(10, _MOST_PEEKS + 1, 5)), start=30),
             Slider("rate", "true failures in a hundred tries", "", (3, 5, 10, 20, 30), start=10)),
    goal="With 10 failures in a hundred, find the tries by which peeking misleads twice as often as promised.",
    phone_sliders=("tries", "rate"))

WATCHED_TEST = LivePicture(
    key="watched-test", picture=watched_test,
    sliders=(Slider("rate", "true failures in a hundred tries", "", _RATES, start=5),
             Slider("bad", "failures in a hundred that must not pass", "", (5, 7, 10, 15, 20, 30), start=10)),
    goal="Find the failure rate at which the test is a toss-up: called cured in about half of all repairs.",
    phone_sliders=("rate", "bad"))


def guess_ten_clean():
    """Guess first: what ten clean tries leave possible; the limit's picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="cured-ten-clean", question="The fault came and went. Since the repair: ten tries, all clean. Which failure rate "
        "can you just not rule out, if you want to be 95 % sure?",
        choices=(
            Choice("None: it is cured.", "A part that fails every tenth time gets through ten tries clean in 35 % of all cases "
                   "(0.9<sup>10</sup>). Clean tries make a fault rarer. They never make it zero."),
            Choice("10 %: one in ten tries.", "At 10 % ten clean tries would be nothing special: they happen in 35 % of all cases. "
                   "To rule a rate out at 95 %, they must happen in fewer than 5 %."),
            Choice("5 %: that is what 95 % sure leaves over.", "The 95 % is how <em>sure</em> you are, not how <em>good</em> the "
                   "part is. Two different numbers. 5 % takes 59 clean tries."),
            Choice("26 %: one in four tries.", "A part that fails in 26 % of its tries gets through ten of them clean in only 5 % of "
                   "all cases (0.74<sup>10</sup>).", right=True),
        )), reveal=opening(FAILURE_LIMIT), store=my_guesses())


def guess_peeking():
    """Guess first: what looking after every try costs; the picture of peeking opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="cured-peeking", question="A part really fails every tenth time. You look at its 95 % limit after every try and stop "
        "as soon as it falls below 10 %; after 200 tries you'd give up. How often does the limit mislead you?",
        choices=(
            Choice("In 5 % of such repairs: it is a 95 % limit.", "That holds for <em>one</em> look, after a number of tries that "
                   "was settled before. You looked up to 200 times, and stopped at the look you liked."),
            Choice("In about 16 % of them.", "Each look is one more chance to be fooled, and you stop just when you are.", right=True),
            Choice("Hardly ever: more tries can only make it surer.", "They would, if you went on. But you stop in the lucky "
                   "moment, and keep it."),
        )), reveal=opening(PEEKING), store=my_guesses())


def guess_next_try():
    """Guess first: what a fault after many clean tries means for the test; its picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="cured-one-fault", question="28 clean tries, three more would have done it. Now the fault shows once. What now?",
        choices=(
            Choice("Start again from zero: the old tries no longer count.", "They happened, and they count. Only if you mend "
                   "something <em>now</em> does a new stage begin, with a tally of its own."),
            Choice("Not cured: one fault is one too many.", "A part that fails once in a hundred tries shows a fault within 29 "
                   "tries one time in four. The test waits for more."),
            Choice("Go on: it takes about 28 more clean tries.", "One fault moves the line for “cured” about 25 tries away, itself "
                   "included, so it costs about 24 clean ones. The line now stands at 57 tries, you have 29: 28 are left.", right=True),
        )), reveal=opening(WATCHED_TEST), store=my_guesses())


def say_it_is_cured():
    """Say it: how to tell somebody that an intermittent fault is gone."""
    return say_it("cured", "Somebody asks: is it cured? Answer in two sentences, with your own tally or with 31 clean tries, cold.",
                  ours=our_sentences, store=my_guesses(),
                  checks=SayChecks(what=("fault", "cured", "contact", *my_sheet().parts), quantities=(),
                                   known=("tries", "try", "tried", "times")))


def our_sentences():
    """The model answer, from the latest tally of the sheet or else from the example."""
    tally = (tallies(my_sheet()) or (EXAMPLE,))[-1]
    part = tally.part[:1].upper() + tally.part[1:]
    return (f"{part}, tried {tally.condition_tried}: {counted(tally)}, so: {decision_words(tally, PLAN)}. "
            f"That is no promise: {still_possible(tally)}, and only {tally.condition_tried} was tried, nothing else.")
