"""Exercises of book 02 on crackle: two that fade, and one that mixes the laws."""

import numpy as np

from benchreckoner.bench.crackle_sort import CAUSES, crackle_tests
from benchreckoner.physics import telegraph
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def corner(seed=None, blanks=1):
    """Where the noise of a random jumper begins to fall."""
    return exercise(_corner, key="crackle-corner", seed=seed, blanks=blanks)


def one_answer(seed=None, blanks=2):
    """What one test's answer makes of a cause that began as one of five."""
    return exercise(_one_answer, key="crackle-one-answer", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_corner, _one_answer, _size, _beat)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="crackle-mixed", seed=seed, blanks=blanks)


def _stays(rng):
    """How long it holds and how long it lets go, unlike enough to matter."""
    opened = Q(float(rng.choice([1, 2, 4, 5, 8, 10])), "ms")
    return (opened * float(rng.integers(6, 15))).to("ms"), opened


def _given(closed, opened):
    return (("it holds, on average", show(closed, "s")), ("it lets go, on average", show(opened, "s")))


def _corner(rng):
    closed, opened = _stays(rng)
    rates = (1 / closed + 1 / opened).to("1/s")
    answer = telegraph.corner_frequency(mean_up=closed, mean_down=opened)
    return Problem(
        question="A contact holds and lets go at random. At which frequency has its crackle fallen to half the power?",
        given=_given(closed, opened), answer=answer, unit="Hz", tolerance=0.02,
        steps=(Step("One over each stay, added:", f"{rates.m_as('1/s'):.4g} a second"),
               Step("Over 2π:", show(answer, "Hz"))),
        slips=(Slip(Q(rates.m_as("1/s"), "Hz"), "That is a rate. A whole cycle is 2π of it: divide once more."),
               Slip(Q((1 / (closed + opened)).m_as("1/s"), "Hz"), "That is how often it lets go. The corner comes from how "
                    "<em>short</em> the stays are: add one over each."),
               Slip(Q((1 / closed).m_as("1/s") / (2 * np.pi), "Hz"), "That is the longer stay alone. Both count, and the shorter "
                    "one counts most.")))


def _one_answer(rng):
    tests = crackle_tests()
    test = tests[rng.integers(len(tests))]
    cause = max(CAUSES, key=lambda one: test.changes[one])
    whole = sum(test.changes.values())
    answer = Q(100 * test.changes[cause] / whole, "percent")
    return Problem(
        question=f"Five causes, each one in five at first. The test “{test.title.lower()}” changes the crackle. In 100 machines of "
                 f"each kind it does so as often as given. How many per cent is <em>{CAUSES[cause]}</em> now?",
        given=tuple((CAUSES[one], f"{100 * test.changes[one]:.0f} in 100") for one in CAUSES),
        answer=answer, unit="%", tolerance=Q(1, "percent"),
        steps=(Step("All machines in which the test changes it, of 500:", f"{100 * whole:.0f}"),
               Step("Of these, those with this cause:", f"{100 * test.changes[cause]:.0f}"),
               Step("The second over the first:", f"{answer.m_as('percent'):.1f} %")),
        slips=(Slip(Q(100 * test.changes[cause], "percent"), "That is how often this cause answers so. Turned round, the "
                    "<em>other</em> causes that answer so count as well."),
               Slip(Q(20 * test.changes[cause], "percent"), "That is its share of all 500. Only those count in which the test "
                    "changed something.")))


def _size(rng):
    closed, opened = _stays(rng)
    step = Q(float(rng.choice([20, 50, 100, 200])), "mV")
    spread = telegraph.variance(step=step, mean_up=closed, mean_down=opened)
    answer = np.sqrt(spread).to("V")
    share = (opened / (closed + opened)).m_as("")
    return Problem(
        question="How large is the whole crackle of this contact, as a root mean square in volts?",
        given=(("each jump", show(step, "V")), *_given(closed, opened)), answer=answer, unit="V", tolerance=0.02,
        steps=(Step("Share of the time that it is open:", f"{share:.4f}"),
               Step("That share times the rest, and its root:", f"{np.sqrt(share * (1 - share)):.4f}"),
               Step("Times the jump:", show(answer, "V"))),
        slips=(Slip(share * step, "That is its mean. A steady part is no noise: take the root of share times rest."),
               Slip(share * (1 - share) * step, "The root is missing: that product belongs to the square of the volts.")))


def _beat(rng):
    turns, segments = float(rng.choice([1800, 2100, 2400, 2700])), int(rng.choice([3, 5]))
    answer = Q(turns / 60, "Hz")
    return Problem(
        question="A motor buzzes through a supply contact. One of its segments differs a little, as one always does. What is the "
                 "<em>lowest</em> frequency of the buzz?",
        given=(("the shaft", f"{turns:.0f} turns a minute"), ("segments", f"{segments}")),
        answer=answer, unit="Hz", tolerance=0.01,
        steps=(Step("The pattern comes again once a turn; turns in a second:", show(answer, "Hz")),),
        slips=(Slip(segments * answer, "That is how often a segment passes. The pattern comes again only when the <em>same</em> "
                    "segment does, once a turn."),
               Slip(Q(turns, "Hz"), "That is turns in a minute. A hertz is once in a second.")))
