"""Book 07, guesses against truth: how many ranges and choices should hold, and how many of the reader's do."""

import functools
from bisect import bisect_left, bisect_right
from html import escape

import numpy as np
from IPython.display import HTML

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.chance import chance_of_at_most
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Band, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.show.store import first_guesses, hit_rate
from benchreckoner.show.words import words_table

PROMISE = 0.9  # ranges are asked for at 90 %
_RARE = 0.05  # each side: what chance does oftener is no surprise
_MOST = 60
OURS = ("Six of my ten ranges held, where nine should have; chance alone does that about once in 78 times. So my “give or take” is "
        "probably too narrow, but ten guesses do not show by how much.")


@functools.lru_cache(maxsize=256)
def unsurprising(rates):
    """The fewest and the most hits that chance gives oftener than one time in twenty, counted from either end.

    Parameters
    ----------
    rates : tuple of float
        How sure each try was.

    Returns
    -------
    (int, int)
    """
    at_most, fewer = functools.partial(chance_of_at_most, rates=rates), range(len(rates))
    low = bisect_left(fewer, _RARE, key=lambda hits: at_most(hits=hits))
    high = bisect_right(fewer, -_RARE, key=lambda hits: at_most(hits=hits) - 1)  # more hits than this would be a surprise
    return low, high


def ranges_that_hold(*, ranges, holding):
    """How many of so many ranges hold, beside what ranges at 90 % leave to chance.

    Parameters
    ----------
    ranges : float
        How many were given.
    holding : float
        How many in a hundred really hold, over many.

    Returns
    -------
    Picture
    """
    given = round(ranges)
    held = int(given * holding / 100 + 0.5)
    counts = np.arange(1, _MOST + 1)
    ends = np.array([unsurprising((PROMISE,) * int(number)) for number in counts])
    low, high = unsurprising((PROMISE,) * given)
    told = _told(held, low, high)
    usual = f" At 90 %, {low} to {high} would be no surprise." if low < high else ""
    sentence = f"Ranges that hold {holding:.0f} times in a hundred: of {_ranges(given)}, about {held} hold{'s' * (held == 1)}.{usual} {told}"
    return Picture(
        title="How many ranges hold", x=Axis("ranges given", "", 0, _MOST), y=Axis("of them hold", "", 0, 112, symbol="%"),
        bands=(Band("no surprise at 90 %", counts.astype(float), 100 * ends[:, 0] / counts, 100 * ends[:, 1] / counts),),
        points=(Point("these", given, 100 * held / given),), limits=(Limit("promised", "y", 100 * PROMISE),),
        sentence=sentence,
        alt=("A band round 90 per cent, wide on the left where few ranges were given, and narrower the more there are. "
             f"At {_ranges(given)} a point stands at {100 * held / given:.0f} per cent. {told}"))


SURE = LivePicture(
    key="ranges-that-hold", picture=ranges_that_hold,
    sliders=(Slider("ranges", "ranges given", "", tuple(range(1, _MOST + 1)), start=5),
             Slider("holding", "how many in a hundred really hold", "", tuple(range(30, 101, 5)), start=70)),
    goal="Somebody's ranges really hold 70 times in a hundred. What is the fewest that can show it?",
    phone_sliders=("ranges", "holding"))


def guess_six_of_ten():
    """Guess first: what six held ranges of ten say; the live picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="tell-six-of-ten", question="You gave ten ranges, each “90 % sure”. Six hold the true value. What do you make of it?",
        choices=(
            Choice("Bad luck: nine in ten is only an average.", "It is, and eight or seven are no surprise. Six or fewer come by chance about "
                   "once in 78 times. You may be that one, but do not count on it."),
            Choice("My ranges are too narrow: next time I make them wider.", "Chance alone gives six or fewer about once in 78 times. "
                   "What you say aloud as “give or take” is probably too narrow as well, then.", right=True),
            Choice("More than half: that is fine.", "It would be, had you said “60 % sure”. You said 90."),
            Choice("My best guesses are wrong: next time I think longer.", "Where the middle of a range lies is one thing, how wide it "
                   "is another. Wide ranges hold with middling guesses; that is what they are for."),
        )), reveal=opening(SURE), store=my_guesses())


def my_guesses_so_far():
    """The reader's first guesses in all books against the truth: counts, what they show, and each range."""
    path = my_guesses()
    rate, ranges = hit_rate(path), first_guesses(path, group="range")
    asked = rate.ranges + sum(number for _, number, _ in rate.choices)
    if not asked:
        return HTML(f"<p>No guess stands in {escape(path.name)} yet. Every card that begins with “Guess first” keeps yours there, in "
                    "this book and in the others.</p>")
    rows = ([("ranges, 90 % sure", rate.ranges, rate.held, 90)] if rate.ranges else []) + [
        (f"choices, {sure} % sure", number, right, sure) for sure, number, right in rate.choices]
    return HTML(f"<p>{ranges_sentence(rate)} {choices_sentence(rate)}</p>{_table(rows)}{_each(ranges)}")


def ranges_sentence(rate):
    """Whether the ranges are as wide as they should be.

    Parameters
    ----------
    rate : HitRate

    Returns
    -------
    str
    """
    if not rate.ranges:
        return "No range guessed yet."
    low, high = unsurprising((PROMISE,) * rate.ranges)
    start = f"{rate.held} of your {_ranges(rate.ranges)} held the true value; 90 % should"
    if low <= rate.held <= high:
        return f"{start}: that fits, as far as {_ranges(rate.ranges)} can tell."
    return f"{start}, so {'make them wider' if rate.held < low else 'you may make them narrower'}."


def choices_sentence(rate):
    """Whether the reader is as often right as sure, over all choices together.

    Parameters
    ----------
    rate : HitRate

    Returns
    -------
    str
    """
    rates = tuple(sure / 100 for sure, number, _ in rate.choices for _ in range(number))
    if not rates:
        return "No choice made yet."
    right = sum(found for _, _, found in rate.choices)
    low, high = unsurprising(rates)
    start = (f"{right} of your {len(rates)} choice{'s' * (len(rates) > 1)} {'was' if 1 in (right, len(rates)) else 'were'} right; by how sure you were, "
             f"{sum(rates):.1f} should be")
    if low <= right <= high:
        return f"{start}: that fits, as far as so few can tell." if len(rates) < 20 else f"{start}: that fits."
    return f"{start}. You are {'surer than you are right' if right < low else 'right more often than you say'}."


def say_how_sure():
    """Say it: what six held ranges of ten tell of one's own "give or take"."""
    return say_it(
        "tell-how-sure", "Six of your ten ranges held. Somebody asks how far to trust your “give or take”. Answer in two sentences: what you "
        "found, how you know, how sure that is, and what it does not show.", ours=OURS, store=my_guesses(),
        checks=SayChecks(what=("range", "ranges", "give or take"), quantities=(), known=("six", "6", "chance", "of ten", "of 10"),
                         most_words=25))


def _ranges(number):
    return "1 range" if number == 1 else f"{number} ranges"


def _told(held, low, high):
    if held < low:
        return "So few show that the ranges are too narrow."
    if held > high:
        return "So many show that the ranges may be narrower."
    return "That fits 90 % as well, so nothing is shown yet."


def _table(rows):
    lines = []
    for words, asked, held, sure in rows:
        low, high = unsurprising((sure / 100,) * asked)
        told = "fewer than chance explains" if held < low else "more than chance explains" if held > high else "fits"
        lines.append(f"<tr><td>{words}</td><td>{asked}</td><td>{held}</td><td>{low if low == high else f'{low} to {high}'}</td><td>{told}</td></tr>")
    return words_table("<tr><th>what you gave</th><th>how many</th><th>held, or right</th><th>no surprise</th><th></th></tr>" + "".join(lines))


def _each(ranges):
    if not ranges:
        return ""
    lines = "".join(
        f"<tr><td>{escape(key.replace('-', ' '))}</td><td>{escape(str(one.get('lowest', '')))} to {escape(str(one.get('highest', '')))}</td>"
        f"<td>{escape(str(one.get('truth', '')))}</td><td>{'✓ inside' if one['inside'] else '✗ outside'}</td></tr>" for key, one in ranges.items())
    table = words_table(f"<tr><th>question</th><th>your range</th><th>truth</th><th></th></tr>{lines}")
    return f"<details><summary>Each range against the truth</summary>{table}</details>"
