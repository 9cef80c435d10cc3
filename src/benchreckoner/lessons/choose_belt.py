"""Book 04, choose from the bag: one belt's chance against its listed size, the bag as a sorted list, and what to order."""

import functools
from html import escape

import ipywidgets
import numpy as np

from benchreckoner.bench.belt_bag import Belt, draws_of, rank_bag
from benchreckoner.bench.belt_order import what_to_order
from benchreckoner.bench.belt_reckon import reckon_sizes
from benchreckoner.bench.belt_window import failing, inside, window
from benchreckoner.lessons.belt_example import BELTS, CALLIPER, DRIVE
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Curve, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q

_COUNT = 400  # draws behind a slider: steps of a quarter of a hundred
_SIZES = np.arange(60.0, 78.01, 0.25)  # mm
_GROUPS = (  # what is drawn as one curve, and how it is told
    ("too loose, or it slips once aged", ("loose", "slip"), "fourth"),
    ("costs too much current, or pulls too hard", ("tight", "hub", "current"), "second"),
    ("wrong speed", ("fast", "slow"), "third"),
)
_OFFERED = Q([1.0, 1.2, 1.5], "mm")


def window_picture(*, size, thickness, hardness):
    """A belt's chance of sitting in the good window, by the size it is listed with, and what fails.

    Parameters
    ----------
    size : Quantity [m]
        Inside diameter as listed.
    thickness : Quantity [m]
        Of a square belt, by calliper.
    hardness : float
        Shore A.

    Returns
    -------
    Picture
    """
    good, groups = _curves(round(thickness.m_as("mm"), 3), float(hardness))
    here = size.m_as("mm")
    at = float(np.interp(here, _SIZES, good))
    told = _picture_words(here, thickness.m_as("mm"), hardness, at, [(name, float(np.interp(here, _SIZES, share))) for name, share in groups])
    return Picture(
        title="One belt's chance, by its listed size",
        x=Axis("inside diameter as listed", "mm", 60, 78), y=Axis("draws out of a hundred", "", 0, 105),
        curves=(Curve("sits in the good window", _SIZES, good, "heavy"),
                *(Curve(name, _SIZES, share, style) for (name, share), (_, _, style) in zip(groups, _GROUPS))),
        points=(Point("this belt", here, at),),
        sentence=told,
        alt=(f"A heavy curve that {'rises and falls over the listed size' if np.max(good) >= 1 else 'lies at nought for every listed size'}, and a curve "
             f"for each way to fail. {told}"))


def _picture_words(size, thickness, hardness, at, groups):
    first = (f"A square belt of {thickness:g} mm, {hardness:g} Shore A, listed with {size:g} mm inside diameter, sits in the good window in "
             f"{of_hundred(at)} of 100 draws.")
    against = [f"{name}, in {of_hundred(share)}" for name, share in sorted(groups, key=lambda pair: -pair[1]) if share >= 2.5]
    if not against:
        return f"{first} Hardly anything is against it."
    return f"{first} Against it: {'; '.join(against)}. One draw may fail in several ways."


@functools.lru_cache(maxsize=128)
def _curves(thickness, hardness):
    """The curves of one thickness and hardness over all sizes, in hundredths."""
    belt = Belt("picture", "square", Q(thickness, "mm"), Q(69, "mm"), "inside diameter", hardness=hardness, thickness_limit=CALLIPER)
    lost = failing(window(DRIVE), reckon_sizes(DRIVE, _drive_draws().with_belts([belt]), belt, _SIZES / 1000))
    shares = [100 * np.logical_or.reduce([lost[way] for way in ways]).mean(axis=1) for _, ways, _ in _GROUPS]
    return 100 * inside(lost).mean(axis=1), tuple((name, share) for (name, _, _), share in zip(_GROUPS, shares))


@functools.cache
def _drive_draws():
    return draws_of(DRIVE, (), count=_COUNT)


WINDOW = LivePicture(
    key="belt-window", picture=window_picture,
    sliders=(Slider("size", "inside diameter as listed", "m", tuple(step / 2000 for step in range(120, 157)), start=0.069),
             Slider("thickness", "side of the belt", "m", ladder(0.0008, 0.0018, 11), start=0.0012),
             Slider("hardness", "Shore A", "", (40, 45, 50, 55, 60, 65, 70), start=60)),
    goal="Leave 1.2 mm and 60 Shore A, and find the size with the best chance. Then take 1.5 mm: is there any size that helps? And "
         "which hardness lets the 1.0 mm belt come nearest?",
    phone_sliders=("size", "thickness"),
    phone_goal="Leave 1.2 mm, and find the size with the best chance. Then take 1.5 mm: is there any size that helps?")


@functools.cache
def ranked():
    """The example's bag, ranked.

    Returns
    -------
    Bag
    """
    return rank_bag(drive=DRIVE, belts=BELTS)


def guess_tempting():
    """Guess first: the right length and the wrong thickness; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="belt-tempting",
        question="The right belt is 1.2 mm square. In the bag lies one of exactly the right <em>length</em>, but 1.5 mm square. The motor's "
                 "pulley measures 6 mm, the wheel's 60 mm; the speed trimmer takes 3 % either way. Does it serve?",
        choices=(
            Choice("Yes: a belt is chosen by its length, and a little more rubber lasts longer.",
                   "Length sets the stretch. But the belt's middle is what runs: half of 0.3 mm is a lot on a pulley of 3 mm radius."),
            Choice("Yes: it only pulls harder, and tighter is steadier.",
                   "It does pull harder, by 56 %. That buys grip that was there already; the motor pays for it, and the speed is off."),
            Choice("No: it would slip.", "It grips better than the right one. Grip is not what is against it."),
            Choice("No: the wheel would run nearly 4 % fast, and the belt costs the motor about twice as much.",
                   "", right=True),
        ),
        explanation="<p>From middle to middle the pulleys are 3.75 and 30.75 mm in place of 3.6 and 30.6: the wheel runs 3.7 % faster by that, "
                    "and a little more since a thick belt creeps less. Bending goes nearly with the fourth power of the thickness.</p>"),
        reveal=opening(WINDOW), store=my_guesses())


def guess_sure():
    """Guess first: how sure one may be of the belt that looks right; no picture opens."""
    line = ranked().of("belt a")
    against = "; ".join(f"{words}, in {round(100 * share)}" for words, share in
                        ((_WAYS[way], share) for way, share in line.failures))
    return number_guess(NumberGuess(
        key="belt-how-sure",
        question="Belt a is right by all that can be read: 1.2 mm square, 60 Shore A, 69 mm where 68.8 would be exact. Out of 100 machines with "
                 "such numbers, in how many would it truly do all that is asked, for five years?",
        unit="%", truth=Q(100 * line.probability, "%"),
        explanation=f"<p>Against it: {escape(against)}. The numbers on the label leave that much open: rubber of one "
                    "hardness differs by 30 %, a listed size by half a millimetre, a bearing by a factor of five. One belt fitted and one "
                    "reading of the current will close most of it: that is the next section.</p>"), store=my_guesses())


_WAYS = {"loose": "too loose", "tight": "too tight", "slip": "slips once aged", "hub": "pulls too hard at the shaft",
         "current": "costs too much current", "fast": "wheel too fast", "slow": "wheel too slow", "bend": "too thick to bend",
         "groove": "too wide for the groove"}


def bag_list(bag=None):
    """The bag as a sorted list: each belt, in how many draws it fits, what is most against it, the rest in a fold.

    Parameters
    ----------
    bag : Bag, optional
        The example's, if left out.

    Returns
    -------
    ipywidgets.HTML
    """
    bag = ranked() if bag is None else bag
    return ipywidgets.HTML("<p>The likeliest first. “Fits” means inside every side of the good window, fresh and in five years. "
                           f"Each line stands on {len(bag.draws.load)} draws of all that is not known.</p>"
                           f"<ol>{''.join(belt_line(one) for one in bag.ranked)}</ol>")


def belt_line(one):
    """One belt of a ranked bag as a list entry.

    Parameters
    ----------
    one : Ranked

    Returns
    -------
    str
        HTML made from escaped parts.
    """
    head = f"<strong>{escape(one.belt.name)}</strong>, {escape(described(one.belt))}"
    if one.refused:
        return f"<li>{head}. {escape(one.refused)}</li>"
    fold = "".join(f"<li>{escape(reason)}</li>" for reason in one.reasons[1:])
    first = f" {escape(one.reasons[0])}" if one.reasons else " Hardly anything is against it."
    return (f"<li>{head}: fits in <strong>{of_hundred(100 * one.probability)} of 100</strong>.{first}"
            + (f"<details><summary>What else</summary><ul>{fold}</ul></details>" if fold else "") + "</li>")


def described(belt):
    """A belt's section, size and hardness, as its label would say."""
    wide = "" if belt.width is None else f"{belt.width.m_as('mm'):g} × "
    hard = "hardness not stated" if belt.hardness is None else f"{belt.hardness:g} Shore A"
    return f"{belt.shape} {wide}{belt.thickness.m_as('mm'):g} mm, {belt.size.m_as('mm'):g} mm {belt.measure}, {hard}"


def order_words():
    """What to order for the example's drive, if the bag were empty.

    Returns
    -------
    ipywidgets.HTML
    """
    order = what_to_order(drive=DRIVE, thicknesses=_OFFERED, hardness=60)
    return ipywidgets.HTML("".join(f"<p>{escape(words)}</p>" for words in order.words))


def ours():
    """Our sentences on the tempting belt and the right one, from the ranked bag."""
    right, tempting = (ranked().of(name) for name in ("belt a", "belt b"))
    low, _, high = (100 * edge for edge in tempting.bands["speed"])
    return (f"Fit belt a first: reckoned from path, thickness and hardness it sits in the good window in about {round(100 * right.probability)} of "
            f"100 draws, and its grip in five years is what I am not sure of. Belt b has the right length, but at 1.5 mm the wheel would run "
            f"{low:.1f} to {high:.1f} % fast and the trimmer takes no more than 3 %.")


def say_choice():
    """Two sentences to somebody who holds the tempting belt in their hand."""
    tempting = Q(100 * ranked().of("belt b").bands["speed"][1], "%")
    return say_it(
        "belt-choice", "A friend holds belt b in their hand: “it has the right length”. Tell them in two sentences which belt to fit "
                       "first, how you know it, and how sure you are.",
        ours=ours,
        checks=SayChecks(what=("belt a", "1.2 mm"), known=("thickness", "calliper", "reckoned", "draws"),
                         quantities=((tempting, "%"), (Q(3, "%"), "%"), (Q(100 * ranked().of("belt a").probability, "%"), "%"))),
        store=my_guesses())


def of_hundred(share):
    """Draws out of a hundred, with no false certainty at either end."""
    return "fewer than 1" if share < 0.5 else "more than 99" if share >= 99.5 else f"{share:.0f}"
