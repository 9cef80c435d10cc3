"""What tries prove: exact limits by scipy's own intervals, and what peeking at them costs."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.stats import binom, binomtest

from benchreckoner.physics.chance import chance_misled_by_peeking, chance_of_at_most, clean_tries_needed, failure_rate_limit


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


@pytest.mark.parametrize("rate", [0.35, 0.5])
def test_peeking_by_listing_every_outcome(rate):
    """Second route: all 4096 orders of clean and faulty tries, each asked at every try for its own limit."""
    tries = 12
    below = {(clean, faults): failure_rate_limit(clean=clean, faults=faults) <= rate
             for clean in range(tries + 1) for faults in range(tries + 1 - clean)}
    misled = np.zeros(tries)
    for order in itertools.product((0, 1), repeat=tries):
        faults = np.cumsum(order)
        first = next((number for number in range(tries) if below[number + 1 - faults[number], faults[number]]), None)
        if first is not None:
            misled[first:] += rate ** faults[-1] * (1 - rate) ** (tries - faults[-1])
    assert chance_misled_by_peeking(rate=rate, tries=tries) == pytest.approx(misled, abs=1e-12)


@given(rate=some.floats(0.02, 0.6))
def test_peeking_misleads_at_least_as_often_as_one_look(rate):
    ever = chance_misled_by_peeking(rate=rate, tries=120)
    once = [binom.cdf(np.arange(tries + 1), tries, rate) for tries in (20, 60, 120)]
    for tries, sums in zip((20, 60, 120), once):
        allowed = sums[sums <= 0.05]
        assert ever[tries - 1] >= (allowed[-1] if len(allowed) else 0) - 1e-12
    assert np.all(np.diff(ever) >= 0) and ever[-1] <= 1


def test_no_tries_mislead_nobody():
    assert len(chance_misled_by_peeking(rate=0.1, tries=0)) == 0


@pytest.mark.parametrize(("wrong", "kind"), [({"clean": -1}, ValueError), ({"clean": 2.5}, TypeError), ({"clean": True}, TypeError),
                                             ({"clean": 3, "confidence": 1.5}, ValueError),
                                             ({"clean": 3, "confidence": "95 %"}, TypeError)])
def test_tries_that_cannot_be_counted(wrong, kind):
    with pytest.raises(kind, match="write for example"):
        failure_rate_limit(**wrong)


@given(hits=some.integers(0, 12), rates=some.lists(some.floats(0, 1), min_size=1, max_size=9))
def test_hits_at_unequal_rates_by_listing_every_way(hits, rates):
    ways = sum(math.prod(rate if hit else 1 - rate for hit, rate in zip(way, rates, strict=True))
               for way in itertools.product((True, False), repeat=len(rates)) if sum(way) <= hits)
    assert chance_of_at_most(hits=hits, rates=rates) == pytest.approx(ways, abs=1e-12)


@given(hits=some.integers(0, 60), tries=some.integers(1, 60), rate=some.floats(0.01, 0.99))
def test_hits_at_one_rate_as_another_library_has_them(hits, tries, rate):
    assert chance_of_at_most(hits=hits, rates=[rate] * tries) == pytest.approx(binom.cdf(hits, tries, rate), abs=1e-9)


def test_of_no_tries_none_succeeds():
    assert chance_of_at_most(hits=0, rates=[]) == 1


@pytest.mark.parametrize(("wrong", "kind"), [({"hits": -1}, ValueError), ({"hits": 1.5}, TypeError), ({"rates": [0.5, 1.1]}, ValueError),
                                             ({"rates": ["a"]}, TypeError)])
def test_wrong_hits_or_rates_are_named(wrong, kind):
    with pytest.raises(kind, match=next(iter(wrong))):
        chance_of_at_most(**{"hits": 1, "rates": [0.5], **wrong})
