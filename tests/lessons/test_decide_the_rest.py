"""Lessons on lots: the picture at every corner, its goal, the adviser's buttons, fair exercises."""

import numpy as np
import pytest
from fair import check_fair
from scipy import stats

from benchreckoner.bench.lot_advice import read_plan
from benchreckoner.lessons import decide_the_rest as lesson
from benchreckoner.lessons import decide_the_rest_practice as practice
from benchreckoner.show.declare import corners
from benchreckoner.show.say import look_through
from benchreckoner.show.table import tables
from benchreckoner.units import read_quantity

PROBLEMS = [practice._next_part, practice._leave_or_replace, practice._missed]


def at(**wanted):
    """The picture where each slider stands at the step of this value, the others at their start."""
    positions = dict(lesson.LOT.start)
    for slider in lesson.LOT.sliders:
        if slider.name in wanted:
            positions[slider.name] = slider.steps.index(wanted[slider.name])
    return lesson.LOT.at(positions)


def columns(picture):
    """Heights of the thirteen columns."""
    return picture.bands[0].high[1::4]


def test_every_corner_can_be_drawn():
    titles = {picture.title for _, picture in corners(lesson.LOT)}
    assert len(titles) == 1
    for positions, picture in corners(lesson.LOT):
        impossible = positions["bad"] > positions["tested"]
        assert np.isnan(columns(picture)).all() == impossible
        assert ("cannot be" in picture.sentence) == impossible
        assert np.isnan(picture.limits[0].value) == impossible
        assert impossible or columns(picture).max() <= picture.y.high


@pytest.mark.parametrize(("tested", "bad", "weight"), [(5, 3, 2), (15, 0, 2), (0, 0, 20), (7, 7, 5)])
def test_the_columns_are_scipys(tested, bad, weight):
    picture = at(tested=tested, bad=bad, weight=weight)
    theirs = 100 * stats.betabinom(12, bad + weight / 2, tested - bad + weight / 2).pmf(np.arange(13))
    assert columns(picture) == pytest.approx(theirs) and columns(picture).sum() == pytest.approx(100)
    assert picture.limits[0].value == pytest.approx(theirs @ np.arange(13) / 100)
    hopeful, gloomy = picture.curves
    assert hopeful.y @ np.arange(13) < 100 * picture.limits[0].value < gloomy.y @ np.arange(13)


def test_the_goal_can_be_met():
    """None bad of m: (m + 1)/(m + 13), so eleven tests make it even."""
    assert "with 50 % it is none" in at(tested=11, bad=0, weight=2).sentence
    assert "with 48 % it is none" in at(tested=10, bad=0, weight=2).sentence


def test_opinions_part_less_the_more_is_tested():
    def gap(tested, bad):
        hopeful, gloomy = at(tested=tested, bad=bad, weight=8).curves
        return (gloomy.y - hopeful.y) @ np.arange(13)
    assert gap(15, 9) < gap(10, 6) < gap(5, 3)


def test_the_table_has_a_row_for_each_number():
    found = tables(at(tested=5, bad=3, weight=2))
    assert all(any(len(table.rows) == 13 for table in found if heading in table.head[1]) for heading in ("expected half", "expected 10"))


def test_the_guess_tells_true_numbers():
    """2 to 11, seven on average, and all bad with about 2 %."""
    picture = at(tested=5, bad=3, weight=2)
    assert "it is 2 to 11 of them" in picture.sentence and "6.9 are bad" in picture.sentence
    assert round(columns(picture)[12]) == 2 and columns(picture)[0] < 1
    assert lesson.guess_rest().children


@pytest.fixture
def adviser():
    return lesson._Adviser()


def test_the_buttons_count_and_are_taken_back(adviser):
    first = adviser.answer.value
    adviser.tested(True)
    assert adviser.counts() == {"tested": "6", "bad": "4", "untested": "11"}
    assert "Replace the other 11" in adviser.answer.value
    adviser.tested(False)
    assert adviser.counts() == {"tested": "7", "bad": "4", "untested": "10"}
    adviser.take_back()
    adviser.take_back()
    assert adviser.answer.value == first and adviser.counts() == {"tested": "5", "bad": "3", "untested": "12"}
    adviser.take_back()
    assert "nothing to take back" in adviser.error.value and adviser.answer.value == first


def test_following_the_rule_ends(adviser):
    for _ in range(30):
        if "Test the next one" not in adviser.answer.value:
            break
        adviser.tested(False)
    assert "Stop testing" in adviser.answer.value or "Nothing is left" in adviser.answer.value


def test_a_change_in_a_box_changes_the_advice_and_nonsense_stays(adviser):
    adviser.boxes["miss_time"].value = "1 min"
    assert "Leave the other 12 in" in adviser.answer.value
    adviser.boxes["price"].value = "<i>cheap</i>"
    assert "Price" in adviser.error.value and "<i>" not in adviser.error.value and not adviser.answer.value
    assert adviser.boxes["price"].value == "<i>cheap</i>"
    adviser.tested(True)
    assert adviser.boxes["tested"].value == "5"
    adviser.boxes["price"].value = "1 €"
    assert not adviser.error.value and adviser.answer.value


def test_none_left_is_told(adviser):
    adviser.boxes["untested"].value = "0"
    assert "Nothing is left untested" in adviser.answer.value
    adviser.tested(True)
    assert "none is left" in adviser.error.value


def test_our_sentences_pass_their_own_checks():
    plan = read_plan(lesson.EXAMPLE)
    assert all(met for _, met, _ in look_through(lesson.say_ours(plan), lesson.say_checks(plan)))
    step = plan.step  # "next to nothing" must stay true of the example
    assert abs(step.test.m_as("min") - step.replace.m_as("min")) < 1
    assert lesson.say_the_rest().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(40))
def test_exercises_by_their_given_numbers(seed):
    """By hand, without our laws."""
    problem = practice._next_part(np.random.default_rng(seed))
    tested, bad = (int(text) for _, text in problem.given)
    assert problem.right(100 * (bad + 1) / (tested + 2))
    problem = practice._missed(np.random.default_rng(seed))
    lot, bad, tested = (int(text) for _, text in problem.given)
    assert problem.right(100 * stats.hypergeom(lot, bad, tested).pmf(0))
    problem = practice._leave_or_replace(np.random.default_rng(seed))
    tested, bad, untested = (int(text) for _, text in problem.given[:3])
    replace, miss = (read_quantity(text, "min").quantity.m_as("min") for _, text in problem.given[3:])
    assert problem.right(untested * ((bad + 1) / (tested + 2) * miss - replace))


def test_exercises_can_be_shown():
    for show in (practice.next_part, practice.leave_or_replace, practice.mixed):
        assert show(seed=1).children
