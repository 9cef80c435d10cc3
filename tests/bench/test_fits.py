"""The slope of ohms over force: against scipy, against chance, and in words that claim no more than it holds."""

import re

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from benchreckoner.bench.fits import LAWS, fit_force, read_pressed, slope_words
from benchreckoner.units import Q

FORCES = (50, 80, 130, 200, 320, 500)


def pairs(ohms, grams=FORCES, scale="", meter=""):
    return [read_pressed(shown=f"{force} g", ohms=f"{one:.3f} mohm", scale=scale, meter=meter) for force, one in zip(grams, ohms)]


def followed(exponent, grams=FORCES, stray=0.0, seed=1):
    """Milliohms that follow one law, each astray by chance."""
    chance = np.random.default_rng(seed).normal(0, stray, len(grams)) if stray else np.zeros(len(grams))
    return 40 * (np.array(grams) / 50) ** -exponent * np.exp(chance)


@given(st.lists(st.tuples(st.floats(10, 500), st.floats(1, 400)), min_size=3, max_size=9, unique_by=lambda pair: round(pair[0])))
def test_slope_and_scatter_by_scipy(rows):
    """Second route: scipy's linear regression through the logarithms, and numpy's polyfit."""
    assume(np.ptp([ohms for _, ohms in rows]) > 1e-3)  # of a level line scipy's error is no number
    made = [read_pressed(shown=f"{force:.5f} g", ohms=f"{ohms:.6f} mohm") for force, ohms in rows]
    x, y = np.log([pair.force.plain for pair in made]), np.log([pair.ohms.plain for pair in made])
    line, ours = stats.linregress(x, y), fit_force(made)
    assert ours.exponent == pytest.approx(-line.slope, rel=1e-6, abs=1e-8)
    assert ours.exponent == pytest.approx(-np.polyfit(x, y, 1)[0], rel=1e-6, abs=1e-8)
    assert ours.by_scatter == pytest.approx(stats.t.ppf(0.975, len(rows) - 2) * line.stderr, rel=1e-5, abs=1e-6)
    assert ours.line(Q(made[0].force.plain, "N")).m_as("ohm") == pytest.approx(np.exp(line.intercept + line.slope * x[0]), rel=1e-6)


def test_three_pairs_by_the_printed_table():
    """Student's t for one degree of freedom at 97.5 % is 12.706 in any table."""
    made = fit_force(pairs((40, 30, 20), (50, 100, 200)))
    x, y = np.log([50, 100, 200]), np.log([40, 30, 20])
    assert made.by_scatter == pytest.approx(12.706 * stats.linregress(x, y).stderr, rel=1e-4)


def test_the_readings_own_uncertainty_by_hand_and_by_chance():
    """Second routes: the slope's weights by hand for ohms alone, and ten thousand drawn sets for both."""
    made = fit_force(pairs(followed(0.5), scale="3 g", meter="2 %"))
    x = np.log(FORCES)
    weights = (x - x.mean()) / ((x - x.mean()) ** 2).sum()
    ohms_alone = fit_force(pairs(followed(0.5), meter="20 %"))  # digits and scale are nothing beside it
    assert ohms_alone.by_readings == pytest.approx(2 * 0.2 / np.sqrt(3) * np.sqrt((weights**2).sum()), rel=5e-3)
    rng = np.random.default_rng(3)

    def even(shape):
        return rng.uniform(-1, 1, (*shape, len(FORCES)))

    shape = (10_000,)
    force = np.array(FORCES) + 3 * even(shape) + 0.5 * even(shape)
    ohms = np.array([pair.ohms.plain for pair in made.pairs]) * (1 + 0.02 * even(shape))
    lx, ly = np.log(force), np.log(ohms)
    lx, ly = lx - lx.mean(axis=1, keepdims=True), ly - ly.mean(axis=1, keepdims=True)
    slopes = -(lx * ly).sum(axis=1) / (lx**2).sum(axis=1)
    assert made.by_readings == pytest.approx(2 * slopes.std(), rel=0.03)


def test_the_larger_uncertainty_stands():
    clean, astray = pairs(followed(0.5), meter="5 %"), pairs(followed(0.5, stray=0.2))
    calm, wild = fit_force(clean), fit_force(astray)
    assert calm.expanded == calm.by_readings > calm.by_scatter
    assert wild.expanded == wild.by_scatter > wild.by_readings


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.written)
def test_a_law_put_in_is_named(law):
    made = fit_force(pairs(followed(law.exponent, stray=0.01)))
    assert made.inside == (law,)
    assert f"only {law.written} ({law.meaning}) lies inside" in slope_words(made)


@pytest.mark.parametrize("count", [3, 6])
def test_how_often_the_interval_holds_the_truth(count):
    """Scatter is normal here, so the interval must hold 95 times in 100, as far as 150 sets can tell (scipy)."""
    grams = np.round(np.geomspace(30, 500, count))
    held = 0
    for seed in range(150):
        made = fit_force(pairs(followed(0.5, grams, 0.08, seed), grams))
        held += abs(made.exponent - 0.5) <= made.expanded
    assert stats.binomtest(held, 150, 0.95).pvalue > 0.01


def test_two_laws_inside_cannot_be_told_yet():
    words = slope_words(fit_force(pairs(followed(0.42, stray=0.1), scale="5 g", meter="5 %")))
    assert "Can't tell yet: 1/3" in words and "1/2" in words and "1 (a film" not in words
    assert "more pairs over the same forces" in words


def test_what_would_settle_it_does_settle_it():
    """As many pairs, as good as these, over the spread that is asked for: one law is left."""
    narrow = (50, 60, 72, 86)
    made = fit_force(pairs(followed(0.5, narrow), narrow, meter="8 %"))
    words = slope_words(made)
    assert "Can't tell yet" in words and "spread from 490 mN (50 g) to" in words
    top = float(words.split(" to ")[1].split("(")[1].split(" g")[0])
    wide = np.round(np.geomspace(50, 1.05 * top, 4))
    again = fit_force(pairs(followed(0.5, wide), wide, meter="8 %"))
    assert [law.written for law in again.inside] == ["1/2"]


def test_as_many_more_pairs_as_asked_for_suffice():
    """The same forces again and again, as the words ask: the laws inside come apart."""
    made = fit_force(pairs(followed(0.45, stray=0.12)))
    more = int(re.search(r"about (\d+) more pairs over the same forces", slope_words(made))[1])
    assert len(made.inside) == 2 and more > 1
    times = 1 + -(-more // len(FORCES))
    grams = FORCES * times
    again = [fit_force(pairs(followed(0.45, grams, 0.12, seed), grams)).expanded for seed in range(20)]
    fewer = [fit_force(pairs(followed(0.45, stray=0.12, seed=seed))).expanded for seed in range(20)]
    assert np.mean(again) < 0.5 / 6 < np.mean(fewer)


@pytest.mark.parametrize(("exponent", "told"), [(0.05, "flatter than any"), (-0.3, "flatter than any"), (1.6, "steeper than any"),
                                                (0.75, "between them")])
def test_a_slope_beside_all_laws(exponent, told):
    words = slope_words(fit_force(pairs(followed(exponent, stray=0.01))))
    assert "None of these three laws" in words and told in words


def test_nothing_settles_it_with_a_hopeless_meter():
    wide = (10, 20, 500)
    words = slope_words(fit_force(pairs(followed(0.5, wide), wide, scale="9 g", meter="90 %")))
    assert "Can't tell yet" in words and "finer or steadier" in words


def test_a_force_in_newtons_is_the_same_force():
    """60 gf are 0.588 N in MIL-C-21679."""
    grams, newtons = read_pressed(shown="60 g", ohms="10 mohm"), read_pressed(shown="0,588 N", ohms="0.01 ohm")
    assert grams.force.plain == pytest.approx(newtons.force.plain, rel=1e-3) and grams.ohms.plain == newtons.ohms.plain


@pytest.mark.parametrize(("box", "text", "told"), [
    ("shown", "120", "Force.*no unit"), ("shown", "0 g", "tare the scale"), ("shown", "-5 g", "above zero"), ("shown", "12 V", "Force"),
    ("ohms", "0.00 ohm", "range that shows"), ("ohms", "much", "Ohms"), ("scale", "1 ohm", "Scale's limit.*2 g"),
    ("meter", "2 g", "Meter's limit"), ("meter", "1 % of range", "Meter's limit"), ("meter", "fine", "Meter's limit")])
def test_what_cannot_be_read_is_told_by_its_box(box, text, told):
    with pytest.raises(ValueError, match=told):
        read_pressed(**{"shown": "120 g", "ohms": "14 mohm", box: text})


@pytest.mark.parametrize(("grams", "told"), [((), "none so far"), ((50, 80), "are 2"), ((50, 50, 50, 50), "is 1"), ((50, 80, 50, 80), "are 2")])
def test_too_few_forces_are_told(grams, told):
    with pytest.raises(ValueError, match=f"3 different forces at least; there .*{told}"):
        fit_force(pairs([10.0] * len(grams), grams))
