"""Wald's test: the odds themselves, his inequalities, his bounds, and simulated repairs."""

import itertools
import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.optimize import brentq
from scipy.stats import binom

from benchreckoner.physics.sequential import (
    CURED, FAULTY, GO_ON, chance_called_cured, clean_tries_to_cured, expected_tries, sequential_boundaries,
    sequential_decision,
)

PLANS = [
    {"good_rate": 0.01, "bad_rate": 0.10, "alarm_risk": 0.05, "miss_risk": 0.05},
    {"good_rate": 0.01, "bad_rate": 0.10, "alarm_risk": 0.10, "miss_risk": 0.01},
    {"good_rate": 0.05, "bad_rate": 0.30, "alarm_risk": 0.05, "miss_risk": 0.10},
]
shares = some.floats(0.01, 0.4)
plans = some.builds(lambda good, factor, alarm, miss: {"good_rate": good, "bad_rate": min(0.95, factor * good),
                                                       "alarm_risk": alarm, "miss_risk": miss},
                    some.floats(0.04, 0.3), some.floats(3, 12), some.floats(0.03, 0.4), some.floats(0.03, 0.4))


@given(good=shares, factor=some.floats(1.5, 9), alarm=shares, miss=shares, clean=some.integers(0, 300), faults=some.integers(0, 30))
def test_the_decision_is_the_likelihood_ratio(good, factor, alarm, miss, clean, faults):
    """Second route: the odds themselves, from binomial chances, against Wald's two bounds."""
    bad = min(0.9, factor * good)
    odds = binom.logpmf(faults, clean + faults, bad) - binom.logpmf(faults, clean + faults, good)
    said = sequential_decision(clean=clean, faults=faults, good_rate=good, bad_rate=bad, alarm_risk=alarm, miss_risk=miss)
    upper, lower = math.log((1 - miss) / alarm), math.log(miss / (1 - alarm))
    if min(abs(odds - upper), abs(odds - lower)) > 1e-6:
        assert said == (FAULTY if odds > upper else CURED if odds < lower else GO_ON)


@given(clean=some.integers(0, 60), faults=some.integers(0, 4), plan=some.sampled_from(PLANS))
def test_so_many_clean_tries_and_it_is_cured(clean, faults, plan):
    more = clean_tries_to_cured(clean=clean, faults=faults, **plan)
    assert sequential_decision(clean=clean + more, faults=faults, **plan) == CURED
    if more:
        assert sequential_decision(clean=clean + more - 1, faults=faults, **plan) != CURED


@settings(max_examples=60)
@given(plan=plans)
def test_the_risks_stay_within_what_is_promised(plan):
    """Wald's three inequalities, which hold exactly whatever lies beyond the lines."""
    alarm, miss = 1 - chance_called_cured(rate=plan["good_rate"], **plan), chance_called_cured(rate=plan["bad_rate"], **plan)
    assert alarm <= plan["alarm_risk"] / (1 - plan["miss_risk"]) + 1e-9
    assert miss <= plan["miss_risk"] / (1 - plan["alarm_risk"]) + 1e-9
    assert alarm + miss <= plan["alarm_risk"] + plan["miss_risk"] + 1e-9


def walds_bounds(plan, rate):
    """Between which chances of "cured", and mean numbers of tries, the truth must lie.

    The mean of exp(power x weight) over the ends of all tests is 1, and the mean weight is the mean number of tries times
    the weight of one. A test ends on its line, or beyond it by less than one step: from that follow bounds that
    hold exactly. Wald's short forms are one end of them.
    """
    good, bad, alarm, miss = plan.values()
    fault, clean = math.log(bad / good), math.log((1 - bad) / (1 - good))
    upper, lower = math.log((1 - miss) / alarm), math.log(miss / (1 - alarm))
    drift = rate * fault + (1 - rate) * clean

    def excess(power):
        return rate * math.exp(power * fault) + (1 - rate) * math.exp(power * clean) - 1

    power = brentq(excess, *((1e-6, 60) if drift < 0 else (-60, -1e-6)), xtol=1e-14)
    ends = list(itertools.product((upper, upper + fault), (lower, lower + clean)))
    chances = [math.expm1(power * high) / (math.exp(power * high) - math.exp(power * low)) for high, low in ends]
    means = [(chance * low + (1 - chance) * high) / drift
             for chance in (min(chances), max(chances)) for high, low in ends]
    return (min(chances), max(chances)), (min(means), max(means))


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("rate", [0.005, 0.01, 0.02, 0.05, 0.08, 0.1, 0.2, 0.3])
def test_chance_and_tries_lie_within_walds_bounds(plan, rate):
    (least, most), (fewest, longest) = walds_bounds(plan, rate)
    assert least - 1e-9 <= chance_called_cured(rate=rate, **plan) <= most + 1e-9
    assert fewest - 1e-9 <= expected_tries(rate=rate, **plan) <= longest + 1e-9


@pytest.mark.parametrize("rate", [0.05, 0.15, 0.3, 0.6])
def test_chance_and_tries_by_listing_every_path(rate):
    """Second route: each path followed one by one until the library's own decision, in a test that ends soon."""
    plan = {"good_rate": 0.1, "bad_rate": 0.6, "alarm_risk": 0.2, "miss_risk": 0.2}
    cured = mean = open_chance = 0.0
    paths = [(0, 0, 1.0)]
    while paths:
        clean, faults, chance = paths.pop()
        said = sequential_decision(clean=clean, faults=faults, **plan) if clean + faults else GO_ON
        if said != GO_ON or clean + faults == 18:
            cured, mean = cured + chance * (said == CURED), mean + chance * (clean + faults)
            open_chance += chance * (said == GO_ON)
        else:
            paths += [(clean + 1, faults, chance * (1 - rate)), (clean, faults + 1, chance * rate)]
    assert cured == pytest.approx(chance_called_cured(rate=rate, **plan), abs=open_chance + 1e-12)
    assert mean == pytest.approx(expected_tries(rate=rate, **plan), abs=100 * open_chance + 1e-12)
    assert open_chance < 1e-3


def test_many_rates_at_once_are_the_rates_one_by_one():
    rates = np.array([0.003, 0.04, 0.2])
    for law in (chance_called_cured, expected_tries):
        assert law(rate=rates, **PLANS[0]) == pytest.approx([law(rate=float(rate), **PLANS[0]) for rate in rates])


@settings(max_examples=25)
@given(plan=some.sampled_from(PLANS), rate=some.floats(0.002, 0.9))
def test_a_worse_part_is_called_cured_less_often(plan, rate):
    assert 0 <= chance_called_cured(rate=rate * 1.05, **plan) <= chance_called_cured(rate=rate, **plan) + 1e-9 <= 1 + 2e-9
    assert expected_tries(rate=rate, **plan) >= 1


@pytest.mark.parametrize("plan", PLANS)
def test_the_risks_in_a_simulation(plan):
    """Five thousand repairs of each sort, tried one by one until the library itself says stop."""
    chance, repairs = random.Random(4), 5_000
    verdict = {}

    def tried(rate):
        said = []
        for _ in range(repairs):
            clean = faults = 0
            for fault in (chance.random() < rate for _ in itertools.count()):
                clean, faults = clean + (not fault), faults + int(fault)
                if (clean, faults) not in verdict:
                    verdict[clean, faults] = sequential_decision(clean=clean, faults=faults, **plan)
                if verdict[clean, faults] != GO_ON:
                    said.append(verdict[clean, faults])
                    break
        return said

    alarm = tried(plan["good_rate"]).count(FAULTY) / repairs
    miss = tried(plan["bad_rate"]).count(CURED) / repairs
    for seen, promised in ((alarm, plan["alarm_risk"] / (1 - plan["miss_risk"])),
                           (miss, plan["miss_risk"] / (1 - plan["alarm_risk"]))):
        assert seen <= promised + 3 * math.sqrt(promised / repairs)


@pytest.mark.parametrize(("wrong", "told"), [
    ({"good_rate": 0.1, "bad_rate": 0.1}, "good_rate"), ({"good_rate": 0.2}, "good_rate"), ({"alarm_risk": 0.97}, "alarm_risk"),
    ({"miss_risk": 0}, "miss_risk"), ({"bad_rate": 1}, "bad_rate"), ({"good_rate": math.nan}, "good_rate"),
])
def test_rates_and_risks_that_make_no_test(wrong, told):
    with pytest.raises(ValueError, match=f"{told}.*write for example"):
        sequential_boundaries(**PLANS[0] | wrong)
