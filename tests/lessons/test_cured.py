"""Lessons on a fault that comes and goes: pictures, goals, guesses, exercises, the counter and the sheet under it."""

import numpy as np
import pytest
from fair import at, check_fair
from scipy.stats import binomtest

from benchreckoner.bench.sheet import read_sheet
from benchreckoner.bench.tries import PLAN, Tally, tally_of
from benchreckoner.lessons import cured, cured_counter, cured_practice
from benchreckoner.lessons.cured_counter import TryCounter, path_picture, read_plan
from benchreckoner.show.declare import corners
from benchreckoner.show.live import outline
from benchreckoner.show.say import SayChecks, look_through

PICTURES = [cured.FAILURE_LIMIT, cured.PEEKING, cured.WATCHED_TEST]
PROBLEMS = [cured_practice._still_possible, cured_practice._tries_needed, cured_practice._slips_through, cured_practice._more_clean]
GUESSES = [cured.guess_ten_clean, cured.guess_peeking, cured.guess_next_try]
TYPED = {"good_rate": "1 %", "bad_rate": "10 %", "alarm_risk": "5 %", "miss_risk": "5 %"}


@pytest.mark.parametrize("declared", PICTURES, ids=lambda declared: declared.key)
def test_pictures_at_every_corner(declared):
    first = outline(declared.at(declared.start))
    for _, picture in corners(declared):
        assert outline(picture) == first and picture.points[0].drawn


def test_the_goal_of_the_limit_can_be_met():
    """0.95^59 = 0.0485 and 0.95^58 = 0.0510; with a fault, scipy's exact interval."""
    places = [at(cured.FAILURE_LIMIT, clean=clean, faults=0).points[0].y for clean in (58, 59)]
    assert places[1] < 5 < places[0]
    fewest = next(clean for clean in range(1, 151) if binomtest(1, clean + 1).proportion_ci(0.9).high < 0.05)
    places = [at(cured.FAILURE_LIMIT, clean=clean, faults=1).points[0].y for clean in (fewest - 1, fewest)]
    assert places[1] < 5 < places[0] and fewest == 92


def test_ten_clean_tries_say_what_the_guess_says():
    assert "up to 26 %" in at(cured.FAILURE_LIMIT, clean=10, faults=0).sentence
    assert "59 clean tries" in [choice.answer for choice in asked(cured.guess_ten_clean) if "5 %:" in choice.text][0]


def asked(make):
    """The choices of a guess, caught on their way into the widget."""
    caught = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cured, "choice_guess", lambda guess, **_: caught.append(guess))
        make()
    return caught[0].choices


def test_the_goal_of_peeking_can_be_met():
    shares = [at(cured.PEEKING, tries=tries, rate=10).points[0].y for tries in (70, 80)]
    assert shares[0] < 10 < shares[1] < 11
    assert at(cured.PEEKING, tries=200, rate=10).points[0].y == pytest.approx(16, abs=1)


def test_the_goal_of_the_watched_test_can_be_met():
    slider = cured.WATCHED_TEST.sliders[0]
    assert min(abs(at(cured.WATCHED_TEST, rate=step).points[0].y - 50) for step in slider.steps) < 5
    assert at(cured.WATCHED_TEST, rate=10, bad=10).points[0].y <= 100 * 0.05 / 0.95  # Wald's inequality


def test_one_fault_after_28_clean_tries():
    """By hand: (1 + 1.2279) / 0.039747 = 56.05, so try 57, of which 29 are made."""
    assert "about 28 more" in path_picture(Tally("switch", "cold", "as found", ((28, 1),)), PLAN).sentence
    assert "28 more" in next(choice.text for choice in asked(cured.guess_next_try) if choice.right)


@pytest.mark.parametrize("make", GUESSES, ids=lambda make: make.__name__)
def test_a_guess_can_be_asked(make):
    assert make().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("show", [cured_practice.still_possible, cured_practice.tries_needed, cured_practice.mixed])
def test_an_exercise_can_be_shown(show):
    assert show(seed=3).children


RUNS = [(), ((1, 0),), ((31, 0),), ((0, 1),), ((0, 1), (60, 0)), ((0, 9),), ((700, 3),), ((5, 1), (3, 1), (40, 0)), ((10**6, 10**6),)]


@pytest.mark.parametrize("runs", RUNS, ids=str)
@pytest.mark.parametrize("plan", [PLAN, {"good_rate": 0.001, "bad_rate": 0.002, "alarm_risk": 0.01, "miss_risk": 0.01},
                                  {"good_rate": 0.2, "bad_rate": 0.9, "alarm_risk": 0.4, "miss_risk": 0.4}])
def test_every_path_fits_its_picture(runs, plan):
    tally = Tally("switch", "cold", "as found", runs)
    picture = path_picture(tally, plan)
    x, y = picture.curves[0].x, picture.curves[0].y
    assert picture.points[0].drawn and picture.x.holds(x.max()) and picture.y.holds(y.max())
    assert (x[-1], y[-1]) == (tally.clean + tally.faults, tally.faults)
    cured_band, faulty_band = picture.bands
    assert faulty_band.low[0] < faulty_band.low[-1] < picture.y.high  # the strip between both lines is in sight, end to end
    if "go on" in picture.alt.rpartition("Decision")[2]:
        assert cured_band.high[-1] > tally.faults  # and so is where it may end


def test_the_path_crosses_the_line_where_the_decision_falls():
    picture = path_picture(Tally("switch", "cold", "as found", ((31, 0),)), PLAN)
    edge = next(band for band in picture.bands if band.name.startswith("cured"))
    assert np.interp(30, edge.x, edge.high) < 0 < np.interp(31, edge.x, edge.high)
    assert "since try 31" in picture.sentence


def test_axes_seldom_change_while_counting():
    seen = {outline(path_picture(Tally("switch", "cold", "as found", ((clean, 0), (0, fault))), PLAN))[1:3]
            for clean in range(36) for fault in (0, 1)}
    assert len(seen) == 1


@pytest.fixture
def counter():
    made = TryCounter()
    made.boxes["part"].value, made.boxes["condition"].value = "spring 3", "cold"
    return made


def test_every_press_is_on_the_sheet_at_once(counter, desk):
    for number, name in enumerate(("clean", "clean", "fault", "clean"), 1):
        counter.counter.press(name)
        assert sum(trial.clean + trial.faults for trial in read_sheet(desk).trials) == number
    assert counter.counter.state["numbers"] == {"clean": "3", "fault": "1"}
    assert "3 of 4 tries clean" in counter.counter.state["said"] and "3 of 4" in counter.counter.state["sentence"]
    counter.counter.press("back")
    assert "Taken back: one clean try of spring 3, cold." == counter.counter.state["said"]
    assert counter.counter.state["numbers"] == {"clean": "2", "fault": "1"}


def test_the_counter_goes_on_where_the_sheet_stands(counter):
    for _ in range(12):
        counter.counter.press("clean")
    again = TryCounter()
    assert (again.boxes["part"].value, again.boxes["condition"].value) == ("spring 3", "cold")
    assert again.counter.state["numbers"]["clean"] == "12"
    again.counter.press("back")
    assert "nothing to take back" in again.counter.state["trouble"] and again.counter.state["numbers"]["clean"] == "12"


def test_conditions_and_stages_are_counted_apart(counter, desk):
    counter.counter.press("clean")
    counter.boxes["condition"].value = "tilted"
    assert counter.counter.state["numbers"]["clean"] == "0"
    counter.counter.press("fault")
    counter.boxes["condition"].value = " COLD"
    assert counter.counter.state["numbers"] == {"clean": "1", "fault": "0"}
    assert tally_of(read_sheet(desk), part="spring 3", condition_tried="tilted", stage=counter.boxes["stage"].value).faults == 1


@pytest.mark.parametrize(("box", "told"), [("part", "Part: nothing there yet"), ("condition", 'for example "cold"')])
def test_a_press_without_part_or_condition_counts_nothing(counter, desk, box, told):
    counter.boxes[box].value = ""
    before = desk.read_text(encoding="utf-8")
    counter.counter.press("clean")
    assert told in counter.counter.state["trouble"] and desk.read_text(encoding="utf-8") == before


def test_a_condition_that_no_sheet_can_hold_is_told(counter, desk):
    counter.boxes["condition"].value = "x" * 300
    counter.counter.press("clean")
    assert "condition_tried" in counter.counter.state["trouble"] or "long" in counter.counter.state["trouble"]
    assert not read_sheet(desk).trials


def test_a_sheet_broken_by_hand_is_told_and_left(counter, desk):
    counter.counter.press("clean")
    desk.write_text(desk.read_text(encoding="utf-8") + "[[trial]\n", encoding="utf-8")
    before = desk.read_text(encoding="utf-8")
    counter.counter.press("clean")
    assert "line" in counter.counter.state["trouble"] and desk.read_text(encoding="utf-8") == before


def test_other_rates_and_risks_change_the_decision(counter):
    counter.counter.press("clean")
    assert "about 30 more" in counter.counter.state["sentence"]
    counter.asked["bad_rate"].value = "30 %"
    assert "30 % does not" in counter.words.value and "about 8 more" in counter.counter.state["sentence"]


@pytest.mark.parametrize(("changed", "told"), [
    ({"good_rate": "1"}, "as a percentage"), ({"good_rate": "0 %"}, "write for example"), ({"bad_rate": "100 %"}, "below 100 %"),
    ({"good_rate": "10 %"}, "must be more"), ({"good_rate": "95 %"}, "must be more"), ({"alarm_risk": "60 %", "miss_risk": "50 %"}, "together"),
    ({"miss_risk": "five"}, "as a percentage"), ({"miss_risk": ""}, "as a percentage"),
])
def test_nonsense_is_refused_and_the_test_goes_on(counter, changed, told):
    with pytest.raises(ValueError, match=f"{told}.*") as error:
        read_plan(TYPED | changed)
    assert "write for example" in str(error.value) and str(error.value).startswith(tuple(cured_counter._PLAN.values()))
    for name, text in changed.items():
        counter.asked[name].value = text
    assert "Not yet" in counter.error.value and counter.plan["good_rate"] == 0.01


def test_what_is_taken_for_granted_is_said(counter):
    assert "knowing nothing of the one before" in counter.words.value and "About" in counter.words.value
    assert "while you watch, go by the decision" in counter.words.value
    assert read_plan(TYPED) == pytest.approx(dict(PLAN))


def test_our_sentences_pass_our_own_checks(counter):
    checks = SayChecks(what=("switch", "spring 3"), quantities=(), known=("tries", "try", "tried", "times"))
    example = cured.our_sentences()
    assert "Switch, tried cold: 31 of 31 tries clean" in example and "9.2 %" in example
    counter.counter.press("fault")
    assert "Spring 3, tried cold: 0 of 1 try clean" in cured.our_sentences()
    for text in (example, cured.our_sentences()):
        assert all(met for _, met, _ in look_through(text, checks))
    assert cured.say_it_is_cured().children


def test_without_how_it_is_known_a_hint_is_given():
    checks = SayChecks(what=("cured",), quantities=(), known=("tries",))
    hints = {name: words for name, met, words in look_through("It is cured.", checks) if not met}
    assert "tries" in hints["How known"]
