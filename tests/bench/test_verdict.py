"""The verdict rule on one value."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD, judge_value, uncertainty_to_settle


def judge(value, uncertainty, sound=0.05, bad=0.5):
    return judge_value(value=value, uncertainty=uncertainty, sound_up_to=sound, bad_from=bad)


@given(st.floats(-1, 2), st.floats(1e-4, 1), st.floats(0, 1), st.floats(0, 1))
def test_the_shares_are_those_of_scipy(value, uncertainty, sound, more):
    verdict = judge(value, uncertainty, sound, sound + more)
    spread = norm(value, uncertainty)
    shares = {SOUND: spread.cdf(sound), BAD: spread.sf(sound + more)}
    shares[DOUBTFUL] = 1 - sum(shares.values())
    assert verdict.probability == pytest.approx(max(shares.values()), abs=1e-9)
    if verdict.word != UNTOLD:
        assert shares[verdict.word] >= 0.95 - 1e-9
    else:
        assert max(shares.values()) < 0.95 + 1e-9


def test_edges_without_uncertainty():
    assert judge(0.05, 0).word == SOUND
    assert judge(0.5, 0).word == BAD
    assert judge(0.2, 0).word == DOUBTFUL


def test_ninety_five_per_cent_is_enough_and_less_is_not():
    one_sided = norm.ppf(0.95)
    assert judge(0.5 + 1.001 * one_sided * 0.01, 0.01).word == BAD
    assert judge(0.5 + 0.999 * one_sided * 0.01, 0.01).word == UNTOLD


@given(st.floats(0.51, 5))
def test_the_asked_for_uncertainty_does_settle_it(value):
    needed = uncertainty_to_settle(value=value, sound_up_to=0.05, bad_from=0.5)
    assert judge(value, 0.999 * needed).word == BAD
    assert judge(value, 3 * needed).word == UNTOLD
