"""The lesson on choosing from the bag: its picture at every corner, its goal, its lists, its form, and fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair

from benchreckoner.bench.belt_bag import Belt, rank_bag
from benchreckoner.lessons import choose_belt, choose_belt_practice, choose_belt_yours
from benchreckoner.lessons.belt_example import BELTS, CALLIPER, DRIVE
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PROBLEMS = [choose_belt_practice._speed_by_thickness, choose_belt_practice._aged_margin, choose_belt_practice._share_of_current]
TYPED = {**choose_belt_yours._FIRST, "Thickness": "1.2 mm", "Size": "69 mm", "Width, if flat": ""}


def test_every_corner_can_be_drawn_and_says_its_chance():
    shapes = set()
    for positions, picture in corners(choose_belt.WINDOW):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        values = choose_belt.WINDOW.values(positions)
        belt = Belt("corner", "square", values["thickness"], values["size"], "inside diameter", hardness=values["hardness"], thickness_limit=CALLIPER)
        line = rank_bag(drive=DRIVE, belts=[belt]).ranked[0]
        assert picture.points[0].y == pytest.approx(100 * line.probability, abs=3), positions
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words)
        assert f"{values['size'].m_as('mm'):g} mm inside diameter" in picture.sentence
        ways = dict(line.failures)
        for way, words in (("fast", "wrong speed"), ("slip", "slips once aged"), ("current", "too much current")):
            if ways.get(way, 0) > 0.06:
                assert words in picture.sentence, positions
    assert len(shapes) == 1


@pytest.mark.parametrize("size", [0.065, 0.070, 0.0705])
def test_the_steep_sides_stand_where_a_belt_of_that_size_does(size):
    belt = Belt("steep", "square", Q(1.2, "mm"), Q(size, "m"), "inside diameter", hardness=60, thickness_limit=CALLIPER)
    chance = rank_bag(drive=DRIVE, belts=[belt]).ranked[0].probability
    assert at(choose_belt.WINDOW, size=size).points[0].y == pytest.approx(100 * chance, abs=3.5)


def test_the_curves_cover_every_draw():
    """Each draw is inside, or fails in one way at least; together never fewer than all."""
    for thickness in (1.0, 1.2, 1.5):
        good, groups = choose_belt._curves(thickness, 60.0)
        assert np.all(good + sum(share for _, share in groups) >= 100 - 1e-9)
        assert all(np.all(good + share <= 100 + 1e-9) for _, share in groups)


def test_the_goals_can_be_met():
    def chance(**where):
        return at(choose_belt.WINDOW, **where).points[0].y

    sizes = {step: chance(size=step) for step in choose_belt.WINDOW.sliders[0].steps}
    best = max(sizes, key=sizes.get)
    assert 0.067 <= best <= 0.069 and sizes[best] > sizes[0.066] + 8 and sizes[best] > sizes[0.070] + 8
    assert max(chance(size=step, thickness=0.0015) for step in choose_belt.WINDOW.sliders[0].steps) < 1
    thin = {hard: max(chance(size=step, thickness=0.001, hardness=hard) for step in choose_belt.WINDOW.sliders[0].steps)
            for hard in (50, 60, 70)}
    assert thin[50] < thin[60] - 20 and thin[60] < thin[70] - 5


def test_the_tempting_belts_numbers_by_hand():
    """Check values C24 and C45: 3.66 % by the radii; half a bearing of 0.1 and all the bending: 49.1 and 98.3 uN·m."""
    assert (3.75 / 30.75) / (3.6 / 30.6) - 1 == pytest.approx(0.0366, abs=5e-5)
    right, tempting = 43.108 / 2 + 27.558, 67.356 / 2 + 64.654
    assert (right, tempting) == pytest.approx((49.1, 98.3), abs=0.05)
    assert tempting / right == pytest.approx(2, abs=0.01)
    lines = {name: choose_belt.ranked().of(name).bands for name in ("belt a", "belt b")}
    assert lines["belt b"]["stretch"][1] == pytest.approx(lines["belt a"]["stretch"][1], abs=2e-4), "the same stretch: right in length"
    assert lines["belt b"]["added"][1] / lines["belt a"]["added"][1] == pytest.approx(2, abs=0.1)


def test_the_bag_is_told_in_order():
    html = choose_belt.bag_list().value
    order = [one.belt.name for one in choose_belt.ranked().ranked]
    assert order[0] == "belt a" and order[-1] == "belt h" and set(order) == {belt.name for belt in BELTS}
    places = [html.index(f"<strong>{name}</strong>") for name in order]
    assert places == sorted(places) and html.count("<ol>") == 1 and "factor of pi" in html
    shares = [float(found) for found in re.findall(r"<strong>(?:fewer than )?(\d+) of 100", html)]
    assert shares == sorted(shares, reverse=True) and len(shares) == 7


def test_a_belts_name_cannot_break_the_list():
    line = rank_bag(drive=DRIVE, belts=[Belt("<b>", "square", Q(1.2, "mm"), Q(69, "mm"), "inside diameter")], count=50).ranked[0]
    assert "<strong>&lt;b&gt;</strong>" in choose_belt.belt_line(line) and "hardness not stated" in choose_belt.belt_line(line)


def test_what_to_order_is_told():
    html = choose_belt.order_words().value
    assert "Order a square belt of 1.2 mm" in html and "at least one of them fits" in html


@pytest.mark.parametrize("make", [choose_belt.guess_tempting, choose_belt.guess_sure, choose_belt.say_choice, choose_belt_yours.my_belt])
def test_a_card_can_be_shown(make):
    assert make().children


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("belt a",), known=("reckoned",), quantities=((Q(3, "%"), "%"),))
    assert all(met for _, met, _ in look_through(choose_belt.ours(), checks))


@pytest.mark.parametrize("change, words", [
    ({}, "fits in 6"), ({"Size": "216 mm"}, "factor of pi"), ({"Thickness": "1.5 mm"}, "Order a square belt of 1.2 mm"),
    ({"Section": "flat", "Width, if flat": "4 mm", "Thickness": "0.5 mm"}, "flat 4 × 0.5 mm"), ({"Thread along the seats": ""}, "fits in 6"),
    ({"Thickness": "4 mm", "Motor's seat": "2 mm", "Thread along the seats": ""}, "could not bend"), ({"Shore A": "not stated"}, "not stated")])
def test_a_typed_belt_gets_its_line(change, words):
    assert words in " ".join(choose_belt_yours.said_of({**TYPED, **change}))


def test_a_refused_belt_is_told_so_and_no_more():
    said = choose_belt_yours.said_of({**TYPED, "Size": "216 mm"})
    assert len(said) == 1 and said[0].startswith("Left out")


@pytest.mark.parametrize("change, words", [
    ({"Size": ""}, "Size: nothing there yet"), ({"Size": "-69 mm"}, "Size: must be above"), ({"Size": "abc"}, "Size"),
    ({"Section": "flat"}, "Width, if flat"), ({"Thickness": "100 mm"}, "Thickness"), ({"Trimmer takes": "0 %"}, "Trimmer"),
    ({"Middle to middle": "20 mm"}, "overlap"), ({"Thread along the seats": "300 mm"}, "pulleys ask for 227.2 mm"),
    ({"Load at the wheel": "1.0"}, "Load"), ({"Load at the wheel": "1.0 N·m"}, "outside 10.0 µN·m to 100 mN·m"),
    ({"Motor constant": "13 V·s/rad"}, "Motor constant: 13 V·s/rad is outside"), ({"Motor's current, belt off": "20 A"}, "milli left out"),
    ({"Thickness of the right belt": "12 mm"}, "Thickness of the right belt: 12 mm is outside"),
    ({"Thickness of the right belt": "6 mm", "Motor's seat": "2 mm", "Thread along the seats": "", "Size": "60 mm"}, "no belt on offer can be")])
def test_nonsense_is_refused_by_its_box(change, words):
    with pytest.raises(ValueError, match=re.escape(words)):
        choose_belt_yours.said_of({**TYPED, **change})


def test_the_form_keeps_what_was_typed_and_survives_nonsense():
    form = choose_belt_yours.OwnBelt()
    form.boxes["Thickness"].value, form.boxes["Size"].value = "1.2 mm", "68 mm"
    form.answer_now()
    said = form.said.value
    assert "fits in 7" in said and not form.error.value
    form.boxes["Size"].value = "nothing"
    form.answer_now()
    assert "Size" in form.error.value and not form.said.value
    assert choose_belt_yours.OwnBelt().boxes["Size"].value == "68 mm"


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    speed = choose_belt_practice._speed_by_thickness(np.random.default_rng(seed))
    motor, wheel, right, other = (read_quantity(text, "m").quantity.m_as("mm") for _, text in speed.given)
    assert speed.right(100 * ((motor + other) * (wheel + right) / ((wheel + other) * (motor + right)) - 1))
    margin = choose_belt_practice._aged_margin(np.random.default_rng(seed))
    texts = [text for _, text in margin.given]
    rest, pull = (read_quantity(texts[place], "N").quantity.m_as("N") for place in (0, 4))
    wrap = np.radians(float(texts[3].split("°")[0]))
    factor = np.exp(float(texts[2]) * wrap)
    assert margin.right(2 * rest * float(texts[1]) * (factor - 1) / (factor + 1) / pull)
    share = choose_belt_practice._share_of_current(np.random.default_rng(seed))
    hub, bearing, radius, bending, each, without = (float(text.split()[0]) for _, text in share.given)
    assert share.given[0][1].endswith(" mN") and share.given[5][1].endswith(" mA") and share.given[2][1] == "1.0 mm"
    assert share.right(100 * (bearing * hub * radius + bending) / each / without)
