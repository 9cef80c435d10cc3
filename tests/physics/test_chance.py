"""What tries prove: exact limits by scipy's own intervals, Wald's test by the exact walk and by simulation."""

import itertools
import math
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.stats import binom, binomtest

from benchreckoner.physics.chance import (
    CURED, FAULTY, GO_ON, chance_called_cured, clean_tries_needed, clean_tries_to_cured, expected_tries,
    failure_rate_limit, sequential_boundaries, sequential_decision,
)

PLANS = [
    {"good_rate": 0.01, "bad_rate": 0.10, "alarm_risk": 0.05, "miss_risk": 0.05},
    {"good_rate": 0.01, "bad_rate": 0.10, "alarm_risk": 0.10, "miss_risk": 0.01},
    {"good_rate": 0.05, "bad_rate": 0.30, "alarm_risk": 0.05, "miss_risk": 0.10},
]
shares = some.floats(0.01, 0.4)


@pytest.mark.parametrize(("clean", "faults"), [(1, 0), (10, 0), (59, 0), (28, 2), (5, 5), (1, 9), (200, 1)])
@pytest.mark.parametrize("confidence", [0.9, 0.95, 0.99])
def test_the_limit_is_scipys_exact_interval(clean, faults, confidence):
    """One-sided at 95 % is the upper end of the two-sided exact interval at 90 %."""
    tried = binomtest(faults, clean + faults).proportion_ci(2 * confidence - 1, method="exact")
    assert failure_rate_limit(clean=clean, faults=faults, confidence=confidence) == pytest.approx(tried.high, rel=1e-9)


@given(clean=some.integers(1, 500), faults=some.integers(0, 40))
def test_the_limit_by_its_definition(clean, faults):
    limit = failure_rate_limit(clean=clean, faults=faults)
    assert binom.cdf(faults, clean + faults, limit) == pytest.approx(0.05, rel=1e-6)
    assert faults / (clean + faults) < limit < 1


@given(clean=some.integers(0, 300), faults=some.integers(0, 20))
def test_more_clean_tries_lower_the_limit_and_a_fault_raises_it(clean, faults):
    here = failure_rate_limit(clean=clean, faults=faults)
    assert failure_rate_limit(clean=clean + 1, faults=faults) < here
    assert failure_rate_limit(clean=clean, faults=faults + 1) >= here


def test_nothing_tried_proves_nothing():
    assert failure_rate_limit(clean=0) == failure_rate_limit(clean=0, faults=7) == 1


def test_three_over_n_for_many_tries():
    """ln 20 = 2.9957: the trade's 'rule of three', in the limit."""
    assert 10_000 * failure_rate_limit(clean=10_000) == pytest.approx(math.log(20), rel=1e-3)


@given(rate=some.floats(0.001, 0.9), confidence=some.sampled_from([0.9, 0.95, 0.99]))
def test_the_tries_needed_are_enough_and_one_fewer_is_not(rate, confidence):
    tries = clean_tries_needed(rate=rate, confidence=confidence)
    assert failure_rate_limit(clean=tries, confidence=confidence) <= rate * (1 + 1e-9)
    if tries > 1:
        assert failure_rate_limit(clean=tries - 1, confidence=confidence) > rate


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


def walk_exactly(plan, rate, tries=4000):
    """Chance of 'cured' and of 'not cured', and the mean number of tries, by walking through every outcome."""
    lines = sequential_boundaries(**plan)
    going, cured, faulty, mean = np.array([1.0]), 0.0, 0.0, 0.0
    for count in range(1, tries):
        mean += going.sum()
        going = np.append(going * (1 - rate), 0) + np.append(0, going * rate)
        faults = np.arange(len(going))
        low, high = faults <= lines.slope * count - lines.cured, faults >= lines.slope * count + lines.faulty
        cured, faulty = cured + going[low].sum(), faulty + going[high].sum()
        going = np.where(low | high, 0, going)[:int(lines.slope * count + lines.faulty) + 2]
    assert going.sum() < 1e-9
    return cured, faulty, mean


@pytest.mark.parametrize("plan", PLANS)
def test_the_risks_stay_within_what_is_promised(plan):
    """Wald's inequalities, held against the exact walk."""
    alarm, miss = walk_exactly(plan, plan["good_rate"])[1], walk_exactly(plan, plan["bad_rate"])[0]
    assert alarm <= plan["alarm_risk"] / (1 - plan["miss_risk"])
    assert miss <= plan["miss_risk"] / (1 - plan["alarm_risk"])
    assert alarm + miss <= plan["alarm_risk"] + plan["miss_risk"]
    assert alarm > 0.2 * plan["alarm_risk"] and miss > 0.2 * plan["miss_risk"]  # and the test is not wastefully strict


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


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("rate", [0.005, 0.02, 0.04, 0.08, 0.2])
def test_characteristic_and_tries_are_near_the_exact_walk(plan, rate):
    """Wald's forms let a test end on its line; a whole fault takes it beyond, so they are near, not exact."""
    cured, _, mean = walk_exactly(plan, rate)
    assert chance_called_cured(rate=rate, **plan) == pytest.approx(cured, abs=0.12)
    assert 0.6 * mean < expected_tries(rate=rate, **plan) <= 1.02 * mean


@given(plan=some.sampled_from(PLANS), rate=some.floats(0.0001, 0.9))
def test_the_characteristic_falls_with_the_rate(plan, rate):
    here = chance_called_cured(rate=rate, **plan)
    assert 0 <= here <= 1
    assert chance_called_cured(rate=rate * 1.05, **plan) <= here + 1e-9
    assert expected_tries(rate=rate, **plan) > 0


@pytest.mark.parametrize("plan", PLANS)
def test_at_the_slope_nothing_breaks(plan):
    """There numerator and denominator vanish together; a hair to either side must agree."""
    slope = sequential_boundaries(**plan).slope
    for law in (chance_called_cured, expected_tries):
        assert law(rate=slope, **plan) == pytest.approx(law(rate=slope * (1 + 1e-3), **plan), rel=5e-3)
        assert law(rate=slope, **plan) == pytest.approx(law(rate=slope * (1 - 1e-6), **plan), rel=1e-4)


@pytest.mark.parametrize(("wrong", "told"), [
    ({"good_rate": 0.1, "bad_rate": 0.1}, "good_rate"), ({"good_rate": 0.2}, "good_rate"), ({"alarm_risk": 0.97}, "alarm_risk"),
    ({"miss_risk": 0}, "miss_risk"), ({"bad_rate": 1}, "bad_rate"), ({"good_rate": math.nan}, "good_rate"),
])
def test_rates_and_risks_that_make_no_test(wrong, told):
    with pytest.raises(ValueError, match=f"{told}.*write for example"):
        sequential_boundaries(**PLANS[0] | wrong)


@pytest.mark.parametrize(("wrong", "kind"), [({"clean": -1}, ValueError), ({"clean": 2.5}, TypeError), ({"clean": True}, TypeError),
                                             ({"clean": 3, "confidence": 1.5}, ValueError),
                                             ({"clean": 3, "confidence": "95 %"}, TypeError)])
def test_tries_that_cannot_be_counted(wrong, kind):
    with pytest.raises(kind, match="write for example"):
        failure_rate_limit(**wrong)
