"""Exercises of book 07 on how sure one is: what should hold, what chance does, what many figures come to."""

import numpy as np

from benchreckoner.physics.chance import chance_of_at_most
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q


def should_be_right(seed=None, blanks=1):
    """How many of some choices should be right, by how sure they were."""
    return exercise(_should_be_right, key="tell-should-be-right", seed=seed, blanks=blanks)


def all_hold(seed=None, blanks=2):
    """How likely it is that all of some ranges hold."""
    return exercise(_all_hold, key="tell-all-hold", seed=seed, blanks=blanks)


def mixed_sure(seed=None, blanks="all"):
    """One of several: the reader must tell first what is asked."""
    kinds = (_should_be_right, _all_hold, _outside, _one_outside)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="tell-sure-mixed", seed=seed, blanks=blanks)


def _should_be_right(rng):
    first, second = (int(sure) for sure in rng.choice([50, 60, 70, 80, 90], size=2, replace=False))
    many, few = int(rng.integers(4, 11)), int(rng.integers(2, 8))
    parts = many * first / 100, few * second / 100
    answer = sum(parts)
    return Problem(
        question="You made these choices. If you are as often right as you are sure, how many should be right in all? (A plain number.)",
        given=((f"choices at {first} %", str(many)), (f"choices at {second} %", str(few))), answer=Q(answer, ""), unit="", tolerance=Q(0.05, ""),
        steps=(Step("Of the first ones:", f"{parts[0]:g}"), Step("Of the others:", f"{parts[1]:g}"), Step("Together:", f"{answer:g}")),
        slips=(Slip(Q(float(many + few), ""), "All of them would be right only at 100 %."),
               Slip(Q(many + few - answer, ""), "Those are the ones that should be wrong."),
               Slip(Q((many + few) * (first + second) / 200, ""), "There are not as many of one sort as of the other: reckon each by itself."),
               Slip(Q(100 * answer, ""), "Per cent are hundredths: divide by 100.")))


def _all_hold(rng):
    sure, number = int(rng.choice([80, 90, 95])), int(rng.integers(3, 9))
    answer = 100 * (sure / 100) ** number
    return Problem(
        question="Each range is as good as promised, and they know nothing of each other. How likely do <em>all</em> of them hold?",
        given=(("promised", f"{sure} %"), ("ranges", str(number))), answer=Q(answer, "percent"), unit="%", tolerance=0.02,
        steps=(Step("The chance of one:", f"{sure / 100:g}"), Step("Times itself, once for each range:", f"{answer / 100:.4f}"),
               Step("In per cent:", f"{answer:.2f} %")),
        slips=(Slip(Q(float(sure), "percent"), "That is one alone. With each further one there is one more that may fail."),
               Slip(Q(100 - answer, "percent"), "That is the chance that at least one does not hold."),
               Slip(Q(max(0.0, 100 - number * (100 - sure)), "percent"), "Taking off each one's share of failing counts the cases twice in which two fail: multiply instead."),
               Slip(Q(answer / 100, "percent"), "As a share that is right; in per cent it is a hundred times that.")))


def _outside(rng):
    number, sure = int(rng.choice([20, 30, 40, 60])), int(rng.choice([80, 90, 95]))
    answer = number * (100 - sure) / 100
    return Problem(
        question="In how many of these ranges do you expect the true value <em>outside</em>, if they are as good as promised? (A plain number.)",
        given=(("ranges", str(number)), ("promised", f"{sure} %")), answer=Q(answer, ""), unit="", tolerance=0.01,
        steps=(Step("The share that fails:", f"{(100 - sure) / 100:g}"), Step("Times the ranges:", f"{answer:g}")),
        slips=(Slip(Q(number - answer, ""), "Those are the ones that hold."),
               Slip(Q(answer / 2, ""), "That is one side alone. A true value may lie above a range or below it."),
               Slip(Q(100 * answer, ""), "Per cent are hundredths: divide by 100.")))


def _one_outside(rng):
    number, sure = int(rng.integers(3, 9)), int(rng.choice([80, 90]))
    answer = 100 * chance_of_at_most(hits=number - 1, rates=np.full(number, sure / 100))
    return Problem(
        question="You tell so many figures, each with a ± that holds as often as stated. How likely is at least one of them wrong?",
        given=(("figures", str(number)), ("each holds", f"{sure} %")), answer=Q(answer, "percent"), unit="%", tolerance=0.02,
        steps=(Step("The chance that all hold:", f"{1 - answer / 100:.4f}"), Step("What is left of one, in per cent:", f"{answer:.2f} %")),
        slips=(Slip(Q(100 - answer, "percent"), "That is the chance that all hold."),
               Slip(Q(float(number * (100 - sure)), "percent"), "Adding them counts the cases twice in which two are wrong."),
               Slip(Q(float(100 - sure), "percent"), "That is for one figure. You tell several.")))
