"""Book 03, test some and decide the rest: the picture of the untested, the guess, the adviser, and saying it."""

from html import escape

import ipywidgets
import numpy as np

from benchreckoner.bench.lot_advice import OTHER_OPINIONS, advice, likely_span, read_plan
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.lots import chance_next_is_bad, chances_of_bad
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.show.words import alert_area, button, card, on_enter, row, status_area, text_box, trouble
from benchreckoner.units import show

OTHERS = 12
_HALF = 0.35  # of a column's width
_HOPEFUL, _GLOOMY = OTHER_OPINIONS
# Examples to type over, not advice: each repairer's minutes and prices are their own.
EXAMPLE = {"tested": "5", "bad": "3", "untested": f"{OTHERS}", "test_time": "4 min", "replace_time": "6 min", "price": "0.40 €",
           "hour": "12 €", "pad_risk": "1 %", "pad_time": "30 min", "miss_time": "90 min", "expected": "50 %", "weight": "2"}
_COUNTS = (("tested", "Tested so far"), ("bad", "Of these, bad"), ("untested", "Still untested"))
_WORK = (("test_time", "Time to test one"), ("replace_time", "Time to replace one"), ("price", "Price of a new one"),
         ("hour", "An hour of yours is worth"), ("pad_risk", "Risk to a pad, each time"), ("pad_time", "Time to mend a pad"),
         ("miss_time", "If a bad one stays in, it costs"))
_OPINION = (("expected", "Expected bad beforehand"), ("weight", "Worth so many tests"))


def rest_of_lot(*, tested, bad, weight):
    """Chance of each number of bad ones among twelve untested parts of the same make and age.

    Parameters
    ----------
    tested, bad, weight : float
        Tested parts, bad ones among them, and how many tests the opinion held beforehand (half are bad) is worth.

    Returns
    -------
    Picture
        Nothing is drawn where more were bad than tested.
    """
    tested, bad, weight = int(round(tested)), int(round(bad)), float(weight)
    number = np.arange(OTHERS + 1)
    possible = bad <= tested

    def chances(share):
        if not possible:
            return np.full(OTHERS + 1, np.nan)
        return 100 * chances_of_bad(tested=tested, bad=bad, untested=OTHERS, expected_share=share, weight=weight)

    def average(share):
        return OTHERS * chance_next_is_bad(tested=tested, bad=bad, expected_share=share, weight=weight) if possible else np.nan

    mine = chances(0.5)
    if possible:
        low, high = likely_span(mine / 100)
        sentence = (f"{bad} of {tested} tested were bad: of the other {OTHERS}, {average(0.5):.1f} are bad on average. With at least "
                    f"90 % it is {low} to {high} of them; with {_per_cent(mine[0])} it is none. Colleagues who expected 10 % or 90 % "
                    f"bad beforehand would say {average(_HOPEFUL):.1f} or {average(_GLOOMY):.1f} on average.")
        told = (f"All are as tall, with {_per_cent(mine.max())}." if np.ptp(mine) < 1e-6 else
                f"The tallest column stands at {int(np.argmax(mine))} bad, with {_per_cent(mine.max())}.")
    else:
        sentence = f"{bad} bad of {tested} tested cannot be: move one of the two sliders."
        told = "No column is drawn, because more would be bad than were tested."
    # Each column is three places wide, with a gap behind it.
    places = np.column_stack([number - _HALF, number, number + _HALF, np.full(OTHERS + 1, np.nan)]).ravel()
    tops = np.column_stack([mine, mine, mine, np.full(OTHERS + 1, np.nan)]).ravel()
    return Picture(
        title="How many of the other twelve are bad",
        x=Axis("bad ones among the other twelve", "", -0.6, OTHERS + 0.6, ticks=tuple((value, f"{value}") for value in number)),
        y=Axis("chance", "percent", 0, 60, symbol="%"),
        bands=(Band("expected half bad beforehand", places, np.where(np.isnan(tops), np.nan, 0.0), tops, "heavy"),),
        curves=(Curve("expected 10 % bad", number, chances(_HOPEFUL), "second"),
                Curve("expected 90 % bad", number, chances(_GLOOMY), "third")),
        limits=(Limit("on average", "x", average(0.5)),),
        sentence=sentence,
        alt=("Thirteen columns, the chance that none, one, and so on up to all of twelve untested parts are bad, and two lines "
             f"for other opinions beforehand. {told}"))


LOT = LivePicture(
    key="rest-of-lot", picture=rest_of_lot,
    sliders=(Slider("tested", "parts tested", "", ladder(0, 15, 16), start=5),
             Slider("bad", "of these, bad", "", ladder(0, 15, 16), start=3),
             Slider("weight", "tests that your opinion beforehand is worth", "", (2, 3, 5, 8, 12, 20), start=2)),
    goal="With none bad, find how many must be tested before it is as likely as not (50 %) that none of the other twelve is bad.",
    phone_sliders=("tested", "bad"))


def guess_rest():
    """Guess first: what three bad of five say of the other twelve; the live picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="lots-rest", question="Seventeen capacitors of one make and one age. You lift five, without choosing, and test them: "
        "three are bad. What of the other twelve?",
        choices=(
            Choice("Seven are bad, give or take one: three in five.",
                   "Seven is near the average, but five tests do not know the share that well: from 2 to 11 is what holds at "
                   "least 90 %."),
            Choice("Nothing can be said: each part is on its own.",
                   "Same make, same age, same heat: what ruined three was at work in the others too. Untested, you would have "
                   "said anything from none to all; now none at all is very unlikely."),
            Choice("All are bad. Three bad ones prove a bad batch.",
                   "Two sound ones came out of the same batch. That all the other twelve are bad has a chance of about 2 %."),
            Choice("About seven, but anything from 2 to 11 must be reckoned with.",
                   "The share is known from five tests only, so the number among twelve is wide open. It is still enough to "
                   "decide.", right=True),
        )), reveal=opening(LOT), store=my_guesses())


def adviser():
    """The form that advises, live, while the reader tests: test the next, replace the rest, leave the rest."""
    return _Adviser().view


def say_the_rest():
    """Say it: what to do with the untested twelve, then ours, from the same numbers."""
    plan = read_plan(EXAMPLE)
    return say_it("lots-rest", "Three of five tested capacitors were bad, twelve more of the same make are in. Tell the owner in two "
                  "sentences what you do with the twelve and why.", ours=say_ours(plan), checks=say_checks(plan), store=my_guesses())


def say_ours(plan):
    """Our sentences on a plan."""
    low, high = likely_span(chances_of_bad(**plan.opinion, untested=plan.untested))
    each = chance_next_is_bad(**plan.opinion)
    return (f"I tested {plan.tested} of the {plan.tested + plan.untested} capacitors of this make and {plan.bad} were bad, so of the "
            f"others about {plan.untested * each:.0f} should be bad, somewhere between {low} and {high} (nine chances in ten). Replacing them all takes me "
            f"about {show(plan.step.replace, 'min', digits=2)}, testing on would save next to nothing; which of the "
            f"{plan.untested} are bad I have not measured.")


def say_checks(plan):
    """What the reader's sentences on a plan are looked through for."""
    return SayChecks(what=("capacitors", "capacitor", "parts", "twelve", f"{plan.untested}"),
                     quantities=((plan.step.replace, "min"), (plan.step.leave, "min")))


class _Adviser:
    """Boxes, two buttons for what the last test showed, and advice that follows every change."""

    def __init__(self):
        self.boxes = {name: text_box(label) for name, label in (*_COUNTS, *_WORK, *_OPINION)}
        self.error, self.answer = alert_area(), status_area()
        self.before, self.quiet = [], True
        for name, box in self.boxes.items():
            box.value = EXAMPLE[name]
            box.observe(lambda _: self.advise(), names="value")
            on_enter(box, self.advise)
        found = row(button("The next one was bad", lambda: self.tested(True)),
                    button("The next one was sound", lambda: self.tested(False)), button("Take back", self.take_back))
        self.view = card(*(part for heading, group in (("The count", _COUNTS), ("The work (examples: type your own)", _WORK),
                                                       ("Your opinion before the first test", _OPINION))
                           for part in (ipywidgets.HTML(f"<p><strong>{escape(heading)}</strong></p>"),
                                        row(*(self.boxes[name] for name, _ in group)))),
                         found, self.error, self.answer)
        self.quiet = False
        self.advise()

    def advise(self):
        """Advise on what stands in the boxes; what cannot be read stays there and is told."""
        if self.quiet:
            return
        try:
            first, *reasons = advice(self.plan())
        except ValueError as error:
            self.answer.value, self.error.value = "", trouble(str(error))
            return
        self.error.value = ""
        self.answer.value = (f"<p><strong>{escape(first)}</strong></p>"
                             f"<ul>{''.join(f'<li>{escape(line)}</li>' for line in reasons)}</ul>")

    def plan(self):
        """What stands in the boxes."""
        return read_plan({name: box.value for name, box in self.boxes.items()})

    def tested(self, bad):
        """One more was tested: count it, and advise anew."""
        try:
            plan = self.plan()
            if not plan.untested:
                raise ValueError("Still untested: none is left, so there is nothing to count")
        except ValueError as error:
            self.error.value = trouble(str(error))
            return
        self.before.append(self.counts())
        after = plan.after(bad)
        self.put({"tested": after.tested, "bad": after.bad, "untested": after.untested})

    def take_back(self):
        """Undo the last of the two buttons."""
        if not self.before:
            self.error.value = trouble("nothing to take back: neither button was pressed yet")
            return
        self.put(self.before.pop())

    def counts(self):
        """The three counts as they stand."""
        return {name: self.boxes[name].value for name, _ in _COUNTS}

    def put(self, counts):
        """Put three counts in their boxes at once, and advise once."""
        self.quiet = True
        for name, value in counts.items():
            self.boxes[name].value = f"{value}"
        self.quiet = False
        self.advise()


def _per_cent(value):
    """A chance for reading: never rounded to nought or to all."""
    if 0 < value < 0.1:
        return "less than 0.1 %"
    if 99.5 <= value < 100:
        return "more than 99 %"
    return f"{value:.1f} %" if value < 1 else f"{value:.0f} %"
