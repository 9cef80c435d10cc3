"""Lots: chances that agree with scipy, sum to one, and step with each test; a rule that never costs more than a plain one."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from benchreckoner.physics.chance import failure_rate_limit
from benchreckoner.physics.lots import (bad_in_lot_limit, chance_next_is_bad, chances_of_bad, next_step, sample_chances,
                                        work_cost)
from benchreckoner.units import Q

TESTED = st.integers(0, 40).flatmap(lambda tested: st.tuples(st.just(tested), st.integers(0, tested)))
SHARE, WEIGHT = st.floats(0.01, 0.99), st.floats(0.1, 50)
MINUTES = st.floats(0, 200)


@given(TESTED, st.integers(0, 40), SHARE, WEIGHT)
def test_the_chances_are_scipys(counted, untested, expected, weight):
    tested, bad = counted
    ours = chances_of_bad(tested=tested, bad=bad, untested=untested, expected_share=expected, weight=weight)
    theirs = stats.betabinom(untested, bad + weight * expected, tested - bad + weight * (1 - expected))
    assert ours == pytest.approx(theirs.pmf(np.arange(untested + 1)), rel=1e-7, abs=1e-12)
    assert ours.sum() == pytest.approx(1)


@given(TESTED, st.integers(1, 40), SHARE, WEIGHT)
def test_on_average_the_rest_is_as_bad_as_the_next_one(counted, untested, expected, weight):
    given_ = dict(tested=counted[0], bad=counted[1], expected_share=expected, weight=weight)
    chances = chances_of_bad(untested=untested, **given_)
    assert chances @ np.arange(untested + 1) == pytest.approx(untested * chance_next_is_bad(**given_))


@given(TESTED, st.integers(1, 30), SHARE, WEIGHT)
def test_testing_one_more_agrees_with_what_was_said_before(counted, untested, expected, weight):
    """What is believed now is the mean of what will be believed after the next test."""
    (tested, bad), opinion = counted, dict(expected_share=expected, weight=weight)
    chance = chance_next_is_bad(tested=tested, bad=bad, **opinion)
    now = chances_of_bad(tested=tested, bad=bad, untested=untested, **opinion)
    if_bad = chances_of_bad(tested=tested + 1, bad=bad + 1, untested=untested - 1, **opinion)
    if_sound = chances_of_bad(tested=tested + 1, bad=bad, untested=untested - 1, **opinion)
    assert now == pytest.approx(chance * np.append(0, if_bad) + (1 - chance) * np.append(if_sound, 0), abs=1e-12)


@given(st.integers(0, 60), st.integers(0, 60))
def test_a_clean_test_of_m_says_none_of_r_with_a_plain_fraction(tested, untested):
    """With every share equally likely beforehand: (m + 1)/(m + r + 1)."""
    none = chances_of_bad(tested=tested, bad=0, untested=untested)[0]
    assert none == pytest.approx((tested + 1) / (tested + untested + 1))


@given(st.integers(1, 40), st.data())
def test_samples_are_scipys(lot, data):
    bad_in_lot, tested = data.draw(st.integers(0, lot)), data.draw(st.integers(0, lot))
    ours = sample_chances(lot=lot, bad_in_lot=bad_in_lot, tested=tested)
    assert ours == pytest.approx(stats.hypergeom(lot, bad_in_lot, tested).pmf(np.arange(tested + 1)), rel=1e-8, abs=1e-13)


@given(st.integers(1, 25), st.data())
def test_a_finite_lot_and_a_share_tell_the_same(lot, data):
    """Every number of bad ones equally likely, weighed by what was found, is the beta-binomial answer."""
    tested = data.draw(st.integers(0, lot))
    bad = data.draw(st.integers(0, tested))
    weights = [sample_chances(lot=lot, bad_in_lot=bad + rest, tested=tested)[bad] for rest in range(lot - tested + 1)]
    assert np.array(weights) / sum(weights) == pytest.approx(chances_of_bad(tested=tested, bad=bad, untested=lot - tested))


@given(st.integers(1, 60), st.data())
def test_the_limit_is_the_last_number_that_is_not_unlikely(lot, data):
    tested = data.draw(st.integers(0, lot))
    bad = data.draw(st.integers(0, tested))
    limit = bad_in_lot_limit(lot=lot, tested=tested, bad=bad)
    most = lot - (tested - bad)
    chances = [stats.hypergeom(lot, number, tested).cdf(bad) for number in range(bad, most + 1)]
    assert limit == bad + max(step for step, chance in enumerate(chances) if chance >= 0.05 - 1e-12)


@pytest.mark.parametrize(("clean", "faults"), [(30, 0), (20, 0), (18, 2)])
def test_in_a_large_lot_the_limit_is_that_of_a_rate(clean, faults):
    lot = 200_000
    limit = bad_in_lot_limit(lot=lot, tested=clean + faults, bad=faults) / lot
    assert limit == pytest.approx(failure_rate_limit(clean=clean, faults=faults), rel=2e-3)


def costs(test, replace, miss):
    return {"test_cost": Q(test, "min"), "replace_cost": Q(replace, "min"), "miss_cost": Q(miss, "min")}


@given(TESTED, st.integers(1, 15), MINUTES, MINUTES, MINUTES)
def test_the_rule_never_costs_more_than_testing_all(counted, untested, test, replace, miss):
    given_ = dict(tested=counted[0], bad=counted[1])
    step = next_step(untested=untested, **given_, **costs(test, replace, miss))
    chance = chance_next_is_bad(**given_)
    assert step.test.m_as("min") <= untested * (test + chance * replace) + 1e-9
    assert step.replace.m_as("min") == pytest.approx(untested * replace)
    assert step.leave.m_as("min") == pytest.approx(untested * chance * miss)
    assert getattr(step, step.step) == min(step.test, step.replace, step.leave)


@given(st.integers(1, 6), st.floats(0, 60), st.floats(0, 60), st.floats(0, 60))
def test_the_rule_is_the_best_of_all_rules(untested, test, replace, miss):
    """Second route: every way the tests could come out, weighed, and at each the best move, without the table."""
    def best(tested, bad, left):
        if not left:
            return 0.0
        chance = chance_next_is_bad(tested=tested, bad=bad)
        return min(left * replace, left * chance * miss, first(tested, bad, left))

    def first(tested, bad, left):
        chance = chance_next_is_bad(tested=tested, bad=bad)
        return test + chance * (replace + best(tested + 1, bad + 1, left - 1)) + (1 - chance) * best(tested + 1, bad, left - 1)

    assert next_step(tested=1, bad=1, untested=untested, **costs(test, replace, miss)).test.m_as("min") == pytest.approx(
        first(1, 1, untested))


@given(TESTED, st.integers(1, 20))
def test_a_free_test_is_always_worth_it_and_a_dear_one_never(counted, untested):
    given_ = dict(tested=counted[0], bad=counted[1], untested=untested)
    free = next_step(**given_, **costs(0, 10, 60))
    assert free.test.m_as("min") == pytest.approx(untested * chance_next_is_bad(tested=counted[0], bad=counted[1]) * 10)
    assert free.step == "test"
    assert next_step(**given_, **costs(10 * untested + 1, 10, 60)).step != "test"
    assert next_step(**given_, **costs(1, 10, 0)).step == "leave"


def test_more_bad_ones_never_turn_replace_into_leave():
    """At each number tested: leave, test, replace, in this order, as more were bad."""
    for tested in range(0, 21):
        steps = [next_step(tested=tested, bad=bad, untested=12, **costs(4, 9, 30)).step for bad in range(tested + 1)]
        order = [("leave", "test", "replace").index(step) for step in steps]
        assert order == sorted(order)


def test_none_left_costs_nothing():
    step = next_step(tested=3, bad=1, untested=0, **costs(4, 9, 30))
    assert step.test == step.replace == step.leave == Q(0, "min")


@given(st.floats(0, 100), st.floats(0, 1), st.floats(0, 100))
def test_work_costs_at_least_its_time(time, risk, pad):
    cost = work_cost(time=Q(time, "min"), pad_risk=risk, pad_time=Q(pad, "min")).m_as("min")
    assert time <= cost <= time + pad + 1e-9


@pytest.mark.parametrize(("law", "given_", "told"), [
    (chance_next_is_bad, dict(tested=3, bad=4), "bad"), (chance_next_is_bad, dict(tested=3, bad=1, weight=0.0), "weight"),
    (chance_next_is_bad, dict(tested=3, bad=1, expected_share=1.0), "expected_share"), (chances_of_bad, dict(tested=3, bad=1, untested=-1), "untested"),
    (sample_chances, dict(lot=5, bad_in_lot=6, tested=2), "bad_in_lot"), (sample_chances, dict(lot=5, bad_in_lot=2, tested=6), "tested"),
    (bad_in_lot_limit, dict(lot=5, tested=6), "no more tested"), (work_cost, dict(time=Q(-1, "min")), "time"),
    (next_step, dict(tested=1, bad=0, untested=1001, **costs(1, 1, 1)), "untested"), (next_step, dict(tested=1, bad=0, untested=1, **costs(-1, 1, 1)), "test_cost"),
])
def test_nonsense_is_refused_by_name(law, given_, told):
    with pytest.raises(ValueError, match=told):
        law(**given_)


def test_a_wrong_kind_is_refused_by_name():
    for value, name in itertools.product((True, "2"), ("weight",)):
        with pytest.raises(TypeError, match=name):
            chance_next_is_bad(tested=3, bad=1, **{name: value})
    with pytest.raises(TypeError, match="tested"):
        chances_of_bad(tested=2.5, bad=1, untested=2)
