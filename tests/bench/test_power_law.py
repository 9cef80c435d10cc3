"""A power law through readings: the second route by numpy, coverage by simulation, what the readings share."""

import math

import numpy as np
import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.bench.power_law import fit_power_law
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import Q

TIMES = (60.0, 120.0, 300.0)


def known(values, spreads, unit):
    return [Known(uncertainties.ufloat(value, spread), unit) for value, spread in zip(values, spreads, strict=True)]


def exact(values, unit):
    """As good as exact: a spread of nothing is refused by the library."""
    return known(values, [1e-12] * len(values), unit)


@given(level=some.floats(1e-7, 1e-3), slope=some.floats(-1.5, 1), time=some.floats(30, 3600))
def test_readings_on_a_law_give_that_law(level, slope, time):
    fit = fit_power_law(x=exact(TIMES, "s"), y=known([level * (one / 60) ** slope for one in TIMES], [level / 50] * 3, "A"))
    assert fit.slope.plain == pytest.approx(slope, abs=1e-9) and not fit.bent
    assert fit.at(Q(time, "s")).plain == pytest.approx(level * (time / 60) ** slope, rel=1e-8)


@given(shares=some.lists(some.floats(0.01, 0.05), min_size=4, max_size=4), seed=some.integers(0, 10_000))
def test_against_a_weighted_line_of_numpy(shares, seed):
    """polyfit weighs by one over the standard uncertainty, and gives slope, value and their covariance."""
    times = np.array([60, 120, 300, 600])
    read = 1e-5 * (times / 60) ** -0.7 * np.exp(0.3 * np.random.default_rng(seed).normal(size=4) * shares)
    fit = fit_power_law(x=exact(times, "s"), y=known(read, np.array(shares) * read, "A"))
    line, covariance = np.polyfit(np.log(times / 300), np.log(read), 1, w=1 / np.array(shares), cov="unscaled")
    at = fit.at(Q(300, "s"))
    assert [fit.slope.plain, math.log(at.plain)] == pytest.approx(line, rel=1e-6)
    if not fit.bent:
        assert fit.slope.number.std_dev == pytest.approx(math.sqrt(covariance[0, 0]), rel=1e-4)
        assert at.number.std_dev / at.plain == pytest.approx(math.sqrt(covariance[1, 1]), rel=1e-4)


def test_the_interval_holds_the_truth():
    """Limits drawn evenly, one meter's percentage shared: k = 2 holds at least 95 %, and not for being far too wide."""
    chance, held, errors = np.random.default_rng(5), 0, []
    for _ in range(400):
        slope, level = chance.uniform(-1, -0.3), 10 ** chance.uniform(-6, -4)
        shared = chance.uniform(-1, 1)
        percentage = 0.01 * uncertainties.ufloat(0, 1 / math.sqrt(3))
        y = []
        for time in TIMES:
            true = level * (time / 60) ** slope
            read = true * (1 + 0.01 * shared) + 0.02 * level * chance.uniform(-1, 1)
            y.append(Known(read * (1 + percentage) + uncertainties.ufloat(0, 0.02 * level / math.sqrt(3)), "A"))
        fit = fit_power_law(x=exact(TIMES, "s"), y=y)
        found, true = fit.at(Q(600, "s")), level * 10**slope
        held += abs(found.plain - true) <= 2 * found.number.std_dev
        errors.append((found.plain - true) / found.number.std_dev)
    assert held / 400 >= 0.95
    assert 0.7 < np.std(errors) < 1.2


def test_what_all_share_moves_the_level_and_not_the_slope():
    percentage = uncertainties.ufloat(0, 0.05)
    y = [Known(value * (1 + percentage) + uncertainties.ufloat(0, 0.001 * value), "A")
         for value in 9e-6 * np.array([1, 2, 5]) ** -0.6]
    fit = fit_power_law(x=exact(TIMES, "s"), y=y)
    assert fit.slope.number.std_dev < 0.002
    at = fit.at(Q(120, "s"))
    assert at.number.std_dev / at.plain == pytest.approx(0.05, rel=0.1)


def test_an_uncertain_time_counts_by_the_slope():
    """5 % of the time is 5 % of a current that falls as 1/t."""
    y = [1 / time for time in TIMES]
    fit = fit_power_law(x=known(TIMES, [0.05 * time for time in TIMES], "s"), y=known(y, [1e-9] * 3, "A"))
    along = np.log(TIMES) - np.log(TIMES).mean()
    assert fit.slope.number.std_dev == pytest.approx(0.05 / math.sqrt((along**2).sum()), rel=1e-3)


def test_readings_off_the_law_widen_it():
    smooth = fit_power_law(x=exact(TIMES, "s"), y=known(9e-6 * np.array([1, 2, 5]) ** -0.6, [1e-7] * 3, "A"))
    bent = fit_power_law(x=exact(TIMES, "s"), y=known([9e-6, 6e-6, 5.5e-6], [1e-7] * 3, "A"))
    assert not smooth.bent and bent.bent and bent.slope.number.std_dev > 3 * smooth.slope.number.std_dev


@pytest.mark.parametrize(("x", "y", "told"), [
    ([60], [1e-6], "two readings at least"), ([60, 60], [1e-6, 2e-6], "one place"),
    ([60, 120], [0, 1e-6], "above zero"), ([0, 120], [1e-6, 1e-6], "above zero"), ([60, 120], [1e-6], "two readings"),
])
def test_what_gives_no_line_is_refused(x, y, told):
    with pytest.raises(ValueError, match=told):
        fit_power_law(x=exact(x, "s"), y=exact(y, "A"))
