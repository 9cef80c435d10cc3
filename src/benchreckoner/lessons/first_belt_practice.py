"""Book 04, the first belt teaches: exercises on odds after a reading, and on scoring a prediction."""

import numpy as np

from benchreckoner.physics.odds import odds_after
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q


def odds(seed=None, blanks=1):
    """Odds of one rubber over another, by a reading."""
    return exercise(_odds, key="belt-odds", seed=seed, blanks=blanks)


def chance(seed=None, blanks=2):
    """From odds to a chance."""
    return exercise(_chance, key="belt-odds-chance", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several questions: the reader must tell first what is asked."""
    kinds = (_odds, _chance, _deviations, _taken)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-learn-mixed", seed=seed, blanks=blanks)


def _odds(rng):
    spread = float(rng.choice([0.6, 0.8, 1.0]))
    first, second = 3.0, 3.0 + 2 * spread * float(rng.choice([1.0, 1.25, 1.5]))
    reading = round(first + spread * float(rng.uniform(0.25, 0.7)), 1)
    one, other = (reading - first) / spread, (reading - second) / spread
    answer = float(odds_after(reading=Q(reading, "mA"), first=Q(first, "mA"), second=Q(second, "mA"), spread=Q(spread, "mA")))
    return Problem(
        question="Soft rubber would add one current, stiff rubber another. Both are as likely before the reading. What are the odds of <em>soft</em> "
                 "over stiff after it? Number: so many to one.",
        given=(("soft rubber would add", f"{first:g} mA"), ("stiff rubber would add", f"{second:g} mA"), ("read", f"{reading:g} mA"),
               ("standard uncertainty of all this", f"{spread:g} mA")),
        answer=Q(answer, ""), unit="", tolerance=0.04,
        steps=(Step("Off the soft one, in standard uncertainties:", f"{abs(one):.3f}"), Step("Off the stiff one:", f"{abs(other):.3f}"),
               Step("Half the difference of their squares, as a power of e:", f"{answer:.3f}")),
        slips=(Slip(Q(1 / answer, ""), "Upside down: those are the odds of stiff over soft."),
               Slip(Q(answer**2, ""), "Only <em>half</em> of the difference of the squares counts."),
               Slip(Q(float(abs(other / one)), ""), "Odds do not go with the distances, but with e to half their squares.")))


def _chance(rng):
    to_one = round(float(rng.uniform(1.5, 8)), 1)
    answer = 100 * to_one / (1 + to_one)
    return Problem(
        question="After a reading, the odds of soft rubber over stiff are these, and there is no third kind. What is the chance of soft, in per cent?",
        given=(("odds, soft over stiff", f"{to_one:g} to 1"),), answer=Q(answer, "percent"), unit="%", tolerance=0.02,
        steps=(Step("Both parts together:", f"{to_one + 1:g}"), Step("One over them is one part's share:", f"{100 / (1 + to_one):.2f} %"),
               Step("Soft has the rest:", f"{answer:.1f} %")),
        slips=(Slip(Q(100 - answer, "percent"), "That is the chance of stiff."),
               Slip(Q(100 / to_one, "percent"), "Divide by both parts together, the one of stiff included.")))


def _deviations(rng):
    model, meter = float(rng.choice([1.2, 1.5, 2.0])), float(rng.choice([0.5, 0.9]))
    predicted = float(rng.integers(33, 38))
    reading = predicted + round(float(rng.choice([-1, 1]) * rng.uniform(0.8, 3.5)), 1)
    both = float(np.hypot(model, meter))
    answer = (reading - predicted) / both
    return Problem(
        question="A current was predicted before the belt was fitted, then read. How many standard deviations off is the reading? Below counts "
                 "negative.",
        given=(("predicted", f"{predicted:g} mA"), ("standard deviation of the prediction", f"{model:g} mA"), ("read", f"{reading:g} mA"),
               ("standard uncertainty of the meter", f"{meter:g} mA")),
        answer=Q(answer, ""), unit="", tolerance=0.03,
        steps=(Step("Read less predicted:", f"{reading - predicted:+.1f} mA".replace("-", "−")),
               Step("Both spreads together, by their squares:", f"{both:.3f} mA"), Step("One by the other:", f"{answer:.3f}".replace("-", "−"))),
        slips=(Slip(Q(-answer, ""), "The sign: read less predicted, so a low reading is negative."),
               Slip(Q((reading - predicted) / (model + meter), ""), "Spreads that have nothing to do with each other add by their squares."),
               Slip(Q((reading - predicted) / model, ""), "The meter's own uncertainty belongs in as well.")))


def _taken(rng):
    off, on, load = float(rng.integers(16, 25)), float(rng.integers(33, 42)), round(float(rng.uniform(7.5, 10.5)), 1)
    answer = on - off - load
    return Problem(
        question="What does the belt itself take of the motor's current? The wheel's drag was measured by a thread, and reckoned over to the motor.",
        given=(("belt off", f"{off:g} mA"), ("belt on", f"{on:g} mA"), ("for the wheel's drag", f"{load:g} mA")),
        answer=Q(answer, "mA"), unit="A", tolerance=Q(0.15, "mA"),
        steps=(Step("Belt on less belt off:", f"{on - off:g} mA"), Step("Less what the wheel asks:", f"{answer:.1f} mA")),
        slips=(Slip(Q(on - off, "mA"), "The wheel's own drag is still in that: no belt is to blame for it."),
               Slip(Q(on - load, "mA"), "The motor's own current, belt off, is still in that.")))
