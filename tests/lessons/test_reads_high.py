"""Lessons on testers: pictures at every corner, goals that can be met, the pattern, the form, fair exercises."""

import re

import numpy as np
import pytest
from fair import check_fair, check_form, given

from benchreckoner.lessons import reads_high, reads_high_practice, reads_high_yours
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q

PROBLEMS = [reads_high_practice.charged_late_problem, reads_high_practice._leak_from_two, reads_high_practice._no_reading,
            reads_high_practice._posing, reads_high_practice._added_up]
TEXTS = {"marked": "10 µF", "less": "20 %", "more": "20 %", "place": reads_high_yours._OUT,
         "First tester": "charge time", "First shows": "18 uF", "First setting": "", "First accuracy": "3 %",
         "Second tester": "", "Second shows": "", "Second setting": "", "Second accuracy": "3 %"}
BRIDGE = {"Second tester": "bridge", "Second shows": "10.0 uF", "Second accuracy": "1 %"}


def at(**wanted):
    """The picture where each named slider stands at the step of this value, the others at their start."""
    declared = reads_high.READS_HIGH
    positions = dict(declared.start)
    for slider in declared.sliders:
        if slider.name in wanted:
            positions[slider.name] = int(np.flatnonzero(np.isclose(slider.steps, wanted[slider.name]))[0])
    return declared.at(positions)


def test_every_corner_can_be_drawn():
    shapes = set()
    for _, picture in corners(reads_high.READS_HIGH):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)
    assert len(shapes) == 1, "axes, marks and their places stay, whatever the sliders say"


def test_the_goal_can_be_met():
    """Twice comes at 1.98486 times the tester's resistor (check value C39), here 19.8 kilohm."""
    steps = np.array(reads_high.READS_HIGH.sliders[0].steps)
    nearest = float(steps[np.argmin(np.abs(np.log(steps / 19848.6)))])
    picture = at(leakage=nearest, tester=10000)
    assert picture.points[0].y == pytest.approx(2, abs=0.05) and "times what is there" in picture.sentence


def test_from_twice_to_no_reading_is_two_steps():
    """The cliff: 1.985 times the resistor shows twice, 1.718 times nothing any more."""
    steps = list(reads_high.READS_HIGH.sliders[0].steps)
    place = int(np.argmin(np.abs(np.log(np.array(steps) / 19848.6))))
    edge = next(limit for limit in at(leakage=steps[place], tester=10000).limits if limit.axis == "x")
    assert edge.value == pytest.approx(17.1828, rel=0.01)
    beyond = at(leakage=steps[place - 2], tester=10000)
    assert not beyond.points[0].drawn and "its clock runs on" in beyond.sentence and beyond.points[1].drawn


def test_the_cliff_is_drawn_up_to_the_top():
    """The curve leaves the picture by its upper edge, and is a gap to the left of the cliff."""
    curve = at(tester=10000).curves[0]
    assert np.nanmax(curve.y) > 4 and np.all(np.isnan(curve.y[curve.x < 17.1]))
    assert curve.name == "charge time" and np.sum((curve.y > 2) & (curve.x < 19)) > 10


def test_a_reading_above_the_picture_is_told_and_not_drawn():
    """17.2 kilohm are a hair above the cliff."""
    picture = reads_high.tester_picture(leakage=Q(17.2, "kohm"), series=Q(0.03, "ohm"), tester=Q(10, "kohm"))
    assert not picture.points[0].drawn and float(re.search(r"([\d.]+) times", picture.sentence)[1]) > 4


def test_published_readings_stand_in_the_picture():
    """Check values C38 and C43 at a leak of ten times the tester's resistor; the slider's series resistance shifts little."""
    picture = at(leakage=100000, tester=10000, series=0.03)
    assert picture.points[0].y == pytest.approx(1.080486, abs=1e-4)
    assert "a discharge tester 9.09 µF" in picture.sentence


def test_the_pattern_is_that_of_the_reference():
    lines = [[cell.strip() for cell in line.strip("| ").split("|")] for line in reads_high.pattern_table().data.splitlines()]
    words = {name: tuple(cell.split(",")[0] for cell in cells) for name, *cells in lines[2:9]}
    assert words == {
        "charge time": ("HIGH", "right", "LOW"), "bridge, 120 Hz": ("right", "right", "LOW"),
        "discharge time": ("LOW", "right", "LOW"), "steady current": ("HIGH", "LOW", "LOW"), "oscillator": ("HIGH", "LOW", "LOW"),
        "charge added up": ("HIGH", "right", "LOW"), "bridge, parallel farads": ("right", "LOW", "LOW")}


@pytest.mark.parametrize("make", [reads_high.guess_bonus, reads_high.guess_two_testers])
def test_a_guess_can_be_asked(make):
    assert make().children


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("leakage",), quantities=((Q(20, "kohm"), "ohm"),), known=("tester",))
    ours = reads_high.OURS
    assert all(met for _, met, _ in look_through(ours, checks))
    assert reads_high.say_why().children


def test_one_reading_leaves_several_causes_and_says_what_next():
    first, second = reads_high_yours.said_of(TEXTS)
    assert first.startswith("Several causes fit: leaky") and "Measure this next: a bridge" in second


def test_two_readings_leave_one():
    assert reads_high_yours.said_of({**TEXTS, **BRIDGE})[0].startswith("One cause alone fits: leaky")


def test_a_clash_is_told():
    clash = {"Second tester": "discharge time", "Second shows": "30 uF"}
    assert "can't both be right" in reads_high_yours.said_of({**TEXTS, "First shows": "10 uF", **clash})[0]


def test_another_setting_changes_the_leak():
    """A resistor ten times as large: the leak is ten times as many ohms."""
    first, larger = (reads_high_yours.said_of({**TEXTS, **BRIDGE, "First setting": text})[0] for text in ("", "100k"))
    (one, _), (ten, _) = (re.findall(r"([\d.]+) kΩ", words) for words in (first, larger))
    assert float(ten) == pytest.approx(10 * float(one), rel=0.15)


@pytest.mark.parametrize(("change", "told"), [
    ({"marked": ""}, "Marked on it"), ({"marked": "0 uF"}, "Marked on it: must be above zero"),
    ({"marked": "-10 uF"}, "Marked on it"), ({"less": "many"}, "Less by"), ({"less": "100 %"}, "Less by: must be below"),
    ({"more": "5000 %"}, "More by"), ({"place": "in circuit"}, "lift one leg"), ({"First tester": ""}, "choose how you read it"),
    ({"First shows": "18"}, "First shows"), ({"First shows": "0 uF"}, "First shows: must be above zero"),
    ({"First shows": "18 V"}, "First shows"), ({"First setting": "0 ohm"}, "First setting: must be above zero"),
    ({"First setting": "10 V"}, "First setting"), ({"First accuracy": "x"}, "good to within"),
    ({"First tester": "bridge", "First shows": "none"}, "always shows something"),
])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        reads_high_yours.said_of({**TEXTS, **change})


def test_the_form_answers_keeps_and_brings_back():
    check_form(reads_high_yours.TwoReadings, {**TEXTS, **BRIDGE}, "One cause alone fits", spoilt="First shows")


def test_a_fresh_form_answers_one_reading():
    form = reads_high_yours.TwoReadings()
    assert form.boxes["Second tester"].value == "" and form.boxes["Second tester"].label == "choose"
    for name in ("marked", "First tester", "First shows"):
        form.boxes[name].value = TEXTS[name]
    form.answer_now()
    assert "Several causes fit" in form.said.value and "10 kΩ" in form.boxes["First setting"].placeholder


def test_a_clock_that_never_stops_can_be_written_down():
    assert "or less across it" in reads_high_yours.said_of({**TEXTS, "First shows": "None"})[0]


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    late = reads_high_practice.charged_late_problem(np.random.default_rng(seed))
    farads, leak, source = given(late, "F", "ohm", "ohm")
    share = leak / (leak + source)
    assert late.right(-farads * share * np.log(1 - (1 - np.exp(-1)) / share))
    two = reads_high_practice._leak_from_two(np.random.default_rng(seed))
    farads, reads, load = given(two, "F", "F", "ohm")
    assert two.right(load * reads / (farads - reads))
    posing = reads_high_practice._posing(np.random.default_rng(seed))
    farads, leak, hertz = given(posing, "F", "ohm", "Hz")
    assert posing.right((1 / (1 / leak + 2j * np.pi * hertz * farads)).real)
    added = reads_high_practice._added_up(np.random.default_rng(seed))
    farads, leak, seconds = given(added, "F", "ohm", "s")
    assert added.right(farads + seconds / leak)
