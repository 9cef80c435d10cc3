"""Exercises of book 02 on clean tries: two that fade, and one that mixes the laws."""

import math

from benchreckoner.bench.tries import PLAN
from benchreckoner.physics.chance import clean_tries_needed, failure_rate_limit
from benchreckoner.physics.sequential import clean_tries_to_cured, sequential_boundaries
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q

_WHOLE = Q(0.4, "")  # a number of tries is right or wrong


def still_possible(seed=None, blanks=1):
    """The failure rate that some clean tries still allow."""
    return exercise(_still_possible, key="cured-still-possible", seed=seed, blanks=blanks)


def tries_needed(seed=None, blanks=2):
    """The clean tries that rule a failure rate out."""
    return exercise(_tries_needed, key="cured-tries-needed", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_still_possible, _tries_needed, _slips_through, _more_clean)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="cured-mixed", seed=seed, blanks=blanks)


def _still_possible(rng):
    tries = int(rng.integers(5, 41))
    limit = 100 * failure_rate_limit(clean=tries)
    root = 0.05 ** (1 / tries)
    return Problem(
        question="Since the repair every try was clean. Up to which failure rate could the part still have, at 95 %?",
        given=(("clean tries", str(tries)), ("tries with the fault", "none")),
        answer=Q(limit, "percent"), unit="%", tolerance=0.02,
        steps=(Step(f"A part that passes one try with chance q passes all of them with q<sup>{tries}</sup>; that shall be 0.05, "
                    f"so q is 0.05 to the power 1/{tries}:", f"{root:.4f}"),
               Step("What is left to 1, in per cent:", f"{limit:.3g} %")),
        slips=(Slip(Q(300 / tries, "percent"), "That is the rule of three, 3/n: a good check for many tries, too high for few. "
                    "Here the root is asked for."),
               Slip(Q(100 / tries, "percent"), "One over the tries is no limit: a part with that rate passes them clean in over a third "
                    "of all cases."),
               Slip(Q(100 * root, "percent"), "That is the chance of <em>passing</em> one try. The failure rate is what is left to 1."),
               Slip(Q(5, "percent"), "5 % is how sure you want to be. The rate follows from the number of tries."),
               Slip(Q(100 * (1 - 0.95 ** (1 / tries)), "percent"), "You took the root of 0.95. What shall have a chance of only 0.05 is "
                    "a clean row from a part as bad as that.")))


def _tries_needed(rng):
    rate = int(rng.integers(2, 26)) / 100
    tries, exact = clean_tries_needed(rate=rate), math.log(0.05) / math.log(1 - rate)
    return Problem(
        question="How many clean tries in a row does it take to rule this failure rate out, at 95 %? (A plain number.)",
        given=(("failure rate", f"{100 * rate:.0f} %"),),
        answer=Q(tries, ""), unit="", tolerance=_WHOLE,
        steps=(Step("The chance to pass one try:", f"{1 - rate:.2f}"),
               Step(f"ln 0.05 = −2.996, divided by ln {1 - rate:.2f} = {math.log(1 - rate):.4f}".replace("= -", "= −") + ":", f"{exact:.2f}"),
               Step("Up to the next whole try:", str(tries))),
        slips=(Slip(Q(math.floor(exact), ""), "One too few: at that number the rate is not quite ruled out. Round up."),
               Slip(Q(math.ceil(3 / rate), ""), "The rule of three asks for a little too many. Use the logarithms."),
               Slip(Q(3 / rate, ""), "The rule of three asks for a little too many. Use the logarithms."),
               Slip(Q(1 / rate, ""), "After that many clean tries a part that bad has still a chance of over a third of having got "
                    "through.")))


def _slips_through(rng):
    rate, tries = int(rng.integers(5, 31)) / 100, int(rng.integers(3, 13))
    through = (1 - rate) ** tries
    return Problem(
        question="Nothing was mended: the part fails as often as ever. How often does it still pass all the tries clean?",
        given=(("failure rate", f"{100 * rate:.0f} %"), ("tries", str(tries))),
        answer=Q(100 * through, "percent"), unit="%", tolerance=0.02,
        steps=(Step("The chance to pass one try:", f"{1 - rate:.2f}"),
               Step(f"To pass {tries} of them one after the other, to the power {tries}:", f"{100 * through:.3g} %")),
        slips=(Slip(Q(100 * (1 - through), "percent"), "That is how often the fault <em>shows</em>. The rest passes."),
               Slip(Q(100 * max(0.0, 1 - rate * tries), "percent"), "Chances of failing do not simply add up: a fault in the second try "
                    "needs a clean first one. Multiply the chances of passing."),
               Slip(Q(100 * (1 - rate), "percent"), "That is one try. They must all be clean.")))


def _more_clean(rng):
    clean, faults = int(rng.integers(0, 25)), int(rng.integers(0, 3))
    lines = sequential_boundaries(**PLAN)
    more = clean_tries_to_cured(clean=clean, faults=faults, **PLAN)
    whole = (faults + lines.cured) / lines.slope
    return Problem(
        question="Wald's test calls a part cured once the faults are at most 0.03975 × tries − 1.228. How many more tries does it take, "
                 "if all of them are clean? (A plain number.)",
        given=(("clean so far", str(clean)), ("faults so far", str(faults))),
        answer=Q(more, ""), unit="", tolerance=_WHOLE,
        steps=(Step(f"Tries at which the line stands at {faults}: ({faults} + 1.228) / 0.03975 =", f"{whole:.1f}"),
               Step("Up to the next whole try:", str(math.ceil(whole))),
               Step(f"Less the {clean + faults} made so far, faults included:", str(more))),
        slips=(Slip(Q(math.ceil(whole), ""), "That is all tries together. Some of them you have made already."),
               Slip(Q(math.ceil(whole) - clean, ""), "A try with the fault is a try as well: take it off too."),
               Slip(Q(math.ceil(lines.cured / lines.slope) - clean - faults, ""), "That would be without a fault. Each fault moves the end "
                    "about 25 tries further away, itself included.")))
