"""Exercises of book 03 on lots: two that fade, and one that mixes the laws."""

from benchreckoner.physics.lots import chance_next_is_bad, next_step, sample_chances
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show, show_exact


def next_part(seed=None, blanks=1):
    """The chance that the next part is bad, the opinion beforehand counted in."""
    return exercise(_next_part, key="lots-next", seed=seed, blanks=blanks)


def leave_or_replace(seed=None, blanks=2):
    """What leaving the rest costs more than replacing it."""
    return exercise(_leave_or_replace, key="lots-leave", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_next_part, _leave_or_replace, _missed)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="lots-mixed", seed=seed, blanks=blanks)


def _next_part(rng):
    tested = int(rng.integers(3, 11))
    bad = int(rng.integers(0, tested))
    chance = chance_next_is_bad(tested=tested, bad=bad)
    return Problem(
        question="Before the first test you had no idea how many are bad: count that as two more tested, one of them bad. What is "
                 "the chance that the next one is bad?",
        given=(("tested", f"{tested}"), ("of these, bad", f"{bad}")),
        answer=Q(100 * chance, "percent"), unit="%", tolerance=Q(0.6, "percent"),
        steps=(Step("Bad ones, yours and the one of the opinion:", f"{bad + 1}"),
               Step("All, yours and the two of the opinion:", f"{tested + 2}"),
               Step("The first over the second:", f"{100 * chance:.1f} %")),
        slips=(Slip(Q(100 * bad / tested, "percent"), "That is the share among those tested alone. The opinion counts as two more."),
               Slip(Q(100 * (bad + 1) / (tested + 1), "percent"), "One bad one and one sound one come on top: two, not one."),
               Slip(Q(100 * (bad + 2) / (tested + 2), "percent"), "Of the two of the opinion one is bad, not both."),
               Slip(Q(100 * (1 - chance), "percent"), "That is the chance that it is sound.")))


def _leave_or_replace(rng):
    tested, untested = int(rng.integers(4, 11)), int(rng.integers(5, 16))
    bad = int(rng.integers(1, tested // 2 + 1))
    replace, miss = Q(float(rng.integers(5, 12)), "min"), Q(float(rng.choice([60, 90, 120])), "min")
    step = next_step(tested=tested, bad=bad, untested=untested, test_cost=Q(0, "min"), replace_cost=replace, miss_cost=miss)
    more = step.leave - step.replace
    chance = (bad + 1) / (tested + 2)
    return Problem(
        question="What does leaving the rest in cost more than replacing it, on average? (If it costs less, the answer is below "
                 "zero. The opinion beforehand counts as two tested, one of them bad.)",
        given=(("tested", f"{tested}"), ("of these, bad", f"{bad}"), ("untested", f"{untested}"),
               ("to replace one, price included", show_exact(replace, "min")), ("if a bad one stays in", show_exact(miss, "min"))),
        answer=more, unit="min", tolerance=Q(3, "min"),
        steps=(Step("Chance that one is bad, times the number left: bad ones to expect", f"{chance * untested:.3f}"),
               Step("These times what each costs if it stays in:", show(step.leave, "min")),
               Step("All the rest, times what replacing one costs:", show(step.replace, "min")),
               Step("The difference:", f"{more.m_as('min'):.1f} min".replace("-", "−"))),
        slips=(Slip(step.leave, "That is what leaving costs. Take off what replacing costs."),
               Slip(chance * miss - replace, "That is for one part. There are more of them."),
               Slip(bad / tested * untested * miss - step.replace,
                    "You took the share among those tested alone. The opinion counts as two more."),
               Slip(untested * miss - step.replace, "Not all of them are bad: take the chance into it.")))


def _missed(rng):
    lot = int(rng.integers(8, 20))
    bad, tested = int(rng.integers(1, 4)), int(rng.integers(2, 6))
    chance = float(sample_chances(lot=lot, bad_in_lot=bad, tested=tested)[0])
    first = (lot - bad) / lot
    return Problem(
        question="Suppose the lot below holds just so many bad ones. You pick some without looking, and test them. What is the chance "
                 "that all of them are sound, and the bad ones stay unseen?",
        given=(("parts in all", f"{lot}"), ("bad ones among them", f"{bad}"), ("tested", f"{tested}")),
        answer=Q(100 * chance, "percent"), unit="%", tolerance=Q(0.6, "percent"),
        steps=(Step("The first one is sound with the chance", f"{100 * first:.1f} %"),
               Step("For each further one there is one sound part and one part fewer, for example the second:",
                    f"{100 * (lot - bad - 1) / (lot - 1):.1f} %"),
               Step(f"All {tested} chances times each other:", f"{100 * chance:.1f} %")),
        slips=(Slip(Q(100 * first**tested, "percent"), "You put each part back before the next one. Here the lot shrinks."),
               Slip(Q(100 * (1 - chance), "percent"), "That is the chance to find at least one."),
               Slip(Q(100 * (1 - tested * bad / lot), "percent"), "Chances of parts in a row multiply; they do not add."),
               Slip(Q(100 * first, "percent"), "That is the first one only.")))
