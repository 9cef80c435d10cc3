"""Guesses against truth: the picture at every corner, its goal, what counts show, and the reader's own over all books."""

import itertools
import re

import numpy as np
import pytest
from fair import at, check_fair
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.stats import binom

from benchreckoner.lessons import start_here, sure_and_right, sure_practice, tell_honestly
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.show.declare import corners
from benchreckoner.show.say import look_through
from benchreckoner.show.store import HitRate, keep

PROBLEMS = [sure_practice._should_be_right, sure_practice._all_hold, sure_practice._outside, sure_practice._one_outside]


@given(number=some.integers(1, 60), rate=some.sampled_from([0.5, 0.6, 0.7, 0.8, 0.9]))
@settings(max_examples=40)
def test_no_surprise_is_one_in_twenty_from_either_end(number, rate):
    low, high = sure_and_right.unsurprising((rate,) * number)
    at_most, at_least = (lambda hits: binom.cdf(hits, number, rate)), (lambda hits: binom.sf(hits - 1, number, rate))
    assert at_most(low) >= 0.05 and (low == 0 or at_most(low - 1) < 0.05)
    assert at_least(high) >= 0.05 and (high == number or at_least(high + 1) < 0.05)


def test_every_corner_can_be_drawn():
    for places, picture in corners(sure_and_right.SURE):
        number, holding = (slider.steps[places[slider.name]] for slider in sure_and_right.SURE.sliders)
        band = picture.bands[0]
        assert picture.points[0].x == number and picture.points[0].y == pytest.approx(100 * holding / 100, abs=100 / number)
        assert np.all(band.low <= 100 * band.x * 0.9 / band.x) and np.all(band.high >= 90) and len(band.x) == 60
        assert not re.search(r"\b(nan|inf|None)\b", picture.sentence + picture.alt)


def test_the_goal_can_be_met():
    """By the binomial sum: 8 of 12 come by chance 2.6 times in a hundred, and with fewer ranges no 70 in a hundred are that rare."""
    shown = [number for number in range(1, 61) if "show that the ranges are too narrow" in at(sure_and_right.SURE, ranges=number, holding=70).sentence]
    assert shown[0] == 12 and binom.cdf(8, 12, 0.9) < 0.05
    assert all(binom.cdf(int(0.7 * number + 0.5), number, 0.9) >= 0.05 for number in range(1, 12))


def test_ranges_that_always_hold_show_that_they_may_be_narrower():
    """0.9 to the 28th is 5.2 %, to the 29th 4.7 %."""
    told = {number: at(sure_and_right.SURE, ranges=number, holding=100).sentence for number in (28, 29)}
    assert "nothing is shown yet" in told[28] and "may be narrower" in told[29]


@pytest.mark.parametrize(("good", "bad", "told"), [
    (0, 0, "No range guessed yet"), (9, 1, "that fits"), (3, 2, "that fits"), (1, 0, "1 of your 1 range held"),
    (6, 4, "make them wider"),      # P(6 or fewer of 10 at 90 %) = 1.3 %
    (8, 2, "that fits"),            # P(8 or fewer of 10) = 26 %
    (28, 0, "that fits"),           # 0.9**28 = 5.2 %
    (29, 0, "narrower"),            # 0.9**29 = 4.7 %
])
def test_ranges_are_called_too_narrow_only_when_chance_does_not_explain_it(good, bad, told):
    assert told in sure_and_right.ranges_sentence(HitRate(good + bad, good, ()))


@pytest.mark.parametrize(("choices", "told"), [
    ((), "No choice made yet"),
    (((60, 1, 0),), "0 of your 1 choice was right; by how sure you were, 0.6 should be: that fits"),
    (((80, 3, 3),), "3 of your 3 choices were right; by how sure you were, 2.4 should be: that fits"),
    (((100, 2, 1),), "1 of your 2 choices was right; by how sure you were, 2.0 should be. You are surer than you are right"),
    (((50, 4, 4), (60, 4, 4)), "You are right more often than you say"),  # 0.5^4 times 0.6^4 is 0.8 %
    (((90, 20, 17), (50, 2, 1)), "19.0 should be: that fits."),
])
def test_choices_are_weighed_together_by_how_sure_each_was(choices, told):
    assert told in sure_and_right.choices_sentence(HitRate(0, 0, choices))


def test_guesses_of_several_books_stand_against_the_truth():
    """None, three, and many: keys of books 00, 02, 03 and 07 in one file beside the sheet."""
    assert "No guess stands in record_player.guesses.toml yet" in sure_and_right.my_guesses_so_far().data
    for key, low, high, truth, inside in (("start-divider", "1", "<2>", "1.60 Ω", True), ("contacts-held", "4", "5", "5.9 V", False),
                                          ("tell-change", "4", "6", "5 mΩ", True)):
        keep(my_guesses(), {"lowest": low, "highest": high, "truth": truth, "inside": inside}, group="range", key=key)
    told = sure_and_right.my_guesses_so_far().data
    assert "2 of your 3 ranges held the true value; 90 % should: that fits" in told and "No choice made yet" in told
    assert "<td>start divider</td><td>1 to &lt;2&gt;</td><td>1.60 Ω</td><td>✓ inside</td>" in told and "✗ outside" in told
    for number, (sure, right) in enumerate(itertools.chain([(100, False)] * 3, [(60, False)], [(60, True)] * 2)):
        keep(my_guesses(), {"choice": "x", "sure": sure, "right": right}, group="choice", key=f"leakage-{number}")
    keep(my_guesses(), {"choice": "x", "sure": 60, "right": False}, group="choice", key="leakage-5")  # a second guess
    told = sure_and_right.my_guesses_so_far().data
    assert "2 of your 6 choices were right; by how sure you were, 4.8 should be. You are surer than you are right" in told
    assert "<td>choices, 60 % sure</td><td>3</td><td>2</td><td>0 to 3</td><td>fits</td>" in told
    assert "<td>choices, 100 % sure</td><td>3</td><td>0</td><td>3</td><td>fewer than chance explains</td>" in told
    assert "2 of your 3 ranges held" in start_here.how_well_i_guess().data


@pytest.mark.parametrize("entry", [{"sure": 300, "right": True}, {"sure": "x", "right": True}, {"sure": 80, "right": 1}])
def test_a_guess_that_somebody_wrote_over_is_not_counted(entry):
    keep(my_guesses(), entry, group="choice", key="one")
    assert "No guess stands in" in sure_and_right.my_guesses_so_far().data


def test_everything_opens_and_ours_pass(monkeypatch):
    for show in (sure_and_right.guess_six_of_ten, sure_and_right.say_how_sure, sure_practice.should_be_right, sure_practice.all_hold, sure_practice.mixed_sure):
        assert show() is not None
    asked = {}
    monkeypatch.setattr(sure_and_right, "say_it", lambda *words, **more: asked.update(more))
    sure_and_right.say_how_sure()
    assert all(met for _, met, _ in look_through(asked["ours"], asked["checks"]))
    assert not all(met for _, met, _ in look_through("I guess well.", asked["checks"]))


@pytest.mark.parametrize("problem", PROBLEMS)
@given(seed=some.integers(0, 10_000))
def test_exercises_are_fair(problem, seed):
    check_fair(problem(np.random.default_rng(seed)))


@given(seed=some.integers(0, 10_000))
def test_the_answers_by_another_way(seed):
    right, every, outside, one = (problem(np.random.default_rng(seed)) for problem in PROBLEMS)
    assert right.value == pytest.approx(sum(int(number) * int(re.search(r"\d+", name)[0]) / 100 for name, number in right.given))
    sure, number = (int(re.match(r"\d+", text)[0]) for _, text in every.given)
    assert every.value == pytest.approx(100 * binom.pmf(number, number, sure / 100))
    number, sure = (int(re.match(r"\d+", text)[0]) for _, text in outside.given)
    assert outside.value == pytest.approx(binom.mean(number, 1 - sure / 100))
    number, sure = (int(re.match(r"\d+", text)[0]) for _, text in one.given)
    assert one.value == pytest.approx(100 * binom.sf(0, number, 1 - sure / 100))


def test_the_chance_that_is_named():
    assert 1 / binom.cdf(6, 10, 0.9) == pytest.approx(78, abs=0.5)
    assert tell_honestly.BREATH == 20
