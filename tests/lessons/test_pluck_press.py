"""Pluck and press: the picture at every corner by plain geometry, its goal, the form, and fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, check_form, given
from scipy.optimize import brentq

from benchreckoner.lessons import pluck_press, pluck_press_practice, pluck_press_yours
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q

PROBLEMS = [pluck_press_practice._plucked, pluck_press_practice._pressed, pluck_press_practice._a_metre]
SPAN, PATH, STIFF = 47.9166, 230.98484, 1.44 * 3.60507 / 3
TEXTS = {**{name: usual for name, (*_, usual) in pluck_press_yours._BOXES.items()}, "shape": "square", "span": "47.9 mm",
         "thickness": "1.20 mm", "path": "231 mm"}
PLUCK, PRESSED = {"tone": "128 Hz"}, {"force": "0.0542 N", "deflection": "2.40 mm"}


def pressing(share, stretch, whole=None):
    """Force [N] and the formula's pull, for a belt that is pressed by this share of its span: lengths by Pythagoras."""
    half = SPAN / 2
    slant = np.hypot(half, share * SPAN)
    free = (whole or SPAN) / (1 + stretch)
    ratio = ((whole or SPAN) + 2 * (slant - half)) / free
    force = 2 * STIFF * (ratio - ratio**-2) * share * SPAN / slant
    return force, force / (4 * share)


def rest(stretch):
    return STIFF * (1 + stretch - (1 + stretch) ** -2)


def test_every_corner_by_pythagoras():
    shapes = set()
    for positions, picture in corners(pluck_press.PRESS):
        share, stretch = (slider.steps[positions[slider.name]] / 100 for slider in pluck_press.PRESS.sliders)
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)
        force, formula = pressing(share, stretch)
        wanted = [formula / rest(stretch), pressing(share, stretch, PATH)[1] / rest(stretch)]
        point, = picture.points
        assert point.y == pytest.approx(wanted[0], rel=1e-5)
        for curve, times in zip(picture.curves, wanted, strict=True):
            assert np.interp(point.x, curve.x, curve.y) == pytest.approx(times, rel=1e-3) and np.all(curve.y > 1)
        tone = float(re.search(r"sounds at (\d+) Hz", picture.sentence)[1])
        assert tone == pytest.approx(np.sqrt(rest(stretch) * (1 + stretch) / (1200 * 1.44e-6)) / (2e-3 * SPAN), abs=0.7)
        newtons = [float(number) for number in re.findall(r"([\d.]+) N\b", picture.sentence)]
        assert newtons == pytest.approx([force, formula, rest(stretch)], rel=0.06)
    assert len(shapes) == 1


def test_the_published_press_stands_in_the_picture():
    """Check value C37: 0.13483 N, 0.33708 N by the formula, 0.24740 N in truth; a 20th reads 9 % high, a 64th 0.9 %."""
    picture = pluck_press.PRESS.at(pluck_press.PRESS.start)
    assert picture.points[0].y == pytest.approx(0.33708 / 0.24740, rel=1e-4) and "0.34 N" in picture.sentence and "0.25 N" in picture.sentence
    assert at(pluck_press.PRESS, deflection=5).points[0].y == pytest.approx(1.09, abs=0.005)
    assert at(pluck_press.PRESS, deflection=1.5).points[0].y == pytest.approx(1.009, abs=0.001)
    assert "it reads 1.06 times" in picture.sentence and "128 Hz" in picture.sentence  # C36


def test_the_goal_can_be_met():
    below, above = (at(pluck_press.PRESS, deflection=step).points[0].y for step in (5.0, 5.5))
    assert below < 1.1 < above
    more = at(pluck_press.PRESS, stretch=10).points[0].y
    assert more < at(pluck_press.PRESS, stretch=5).points[0].y


def test_the_guesses_numbers_are_right():
    assert pressing(0.1, 0.05) == pytest.approx((0.135, 0.337), abs=5e-4) and rest(0.05) == pytest.approx(0.2474, abs=5e-5)
    assert np.hypot(1, 0.2) - 1 == pytest.approx(0.02, abs=5e-4)
    assert pluck_press.guess_press().children and pluck_press.guess_octave().children and pluck_press.say_press().children


def test_our_sentences_pass_our_own_checks_and_hold_their_numbers():
    """0.32 N: the pull at rest of a sliding belt that takes the same 0.13483 N."""
    checks = SayChecks(what=("pull",), known=("pressed",), quantities=((Q(0.25, "N"), "N"),))
    assert all(met for _, met, _ in look_through(pluck_press.OURS, checks))
    firm = brentq(lambda times: times * pressing(0.1, 0.05, PATH)[0] - 0.13483, 0.5, 2)
    assert firm * rest(0.05) == pytest.approx(0.318, abs=1e-3)


def test_a_plucked_belt_is_told_with_what_it_stands_on():
    """4 * 0.0479**2 * 128**2 * 1200 * 1.44e-6 / 1.05 = 0.2475 N; it dips by m g l**2 / 8 F = 18.7 um."""
    pull, dip = pluck_press_yours.said_of({**TEXTS, **PLUCK})
    assert 4 * 0.0479**2 * 128**2 * 1200 * 1.44e-6 / 1.05 == pytest.approx(0.2475, abs=1e-4)
    assert pull.startswith("By its tone the belt pulls with 247 ± 25 mN") and "1100 to 1300" in pull and "19 µm" in dip


def test_a_weighed_belt_is_known_better():
    """0.380 g over 231 mm is 1.645 g/m: the same pull, and the density left out."""
    pull, _ = pluck_press_yours.said_of({**TEXTS, **PLUCK, "mass": "0.380 g", "thickness": ""})
    assert 4 * 0.0479**2 * 128**2 * 0.380e-3 / 0.231 == pytest.approx(0.2474, abs=1e-4)
    middle, wide = (float(number) for number in re.search(r"with ([\d.]+) ± ([\d.]+) mN", pull).groups())
    assert middle == pytest.approx(247.4, abs=0.6) and wide < 10 and "over its path" in pull


def test_a_pressed_belt_is_told_both_ways():
    """By Pythagoras, with the force that a 20th of the span takes."""
    told, = pluck_press_yours.said_of({**TEXTS, **PRESSED})
    gripped, sliding, formula = (float(number) for number in re.findall(r"(\d+) ± \d+ mN", told))
    share = 2.4 / 47.9
    assert gripped == pytest.approx(1e3 * 0.0542 * rest(0.05) / pressing(share, 0.05)[0], rel=5e-3)
    assert sliding == pytest.approx(1e3 * 0.0542 * rest(0.05) / pressing(share, 0.05, PATH)[0], rel=5e-3)
    assert formula == pytest.approx(1e3 * 0.0542 / 4 / share, rel=5e-3)
    mass, = pluck_press_yours.said_of({**TEXTS, "force": "5.527 g", "deflection": "2.40 mm"})
    assert re.findall(r"(\d+) ± \d+ mN", mass)[0] == f"{gripped:.0f}"


def test_a_far_press_and_an_unknown_path_are_told():
    told, further = pluck_press_yours.said_of({**TEXTS, "path": "", "force": "0.1348 N", "deflection": "4.7 mm", "length limit": "0.1 mm"})
    assert "254 ± 19 mN" in told  # a point of stretch alone moves it by 5.6 %: 0.056 * 254 / 3**0.5 * 2 = 16, lengths and digits the rest
    assert "less than the usual formula's 343.5" in told and "press less far" in further


def test_what_leaves_most_of_a_pull_open_is_told():
    """By hand, each as a share of the pull: density 8.3 % beside 0.5 mm in 47.9 mm twice, 2.1 %, and half of 0.01 mm or 0.1 mm
    of thickness; a weighed belt leaves the span. Pressed: 0.5 of 2.4 mm is 21 %; of 0.02 mm little is left beside a point of stretch."""
    for change, words in ((PLUCK, "the mass of each metre"), ({**PLUCK, "mass": "0.380 g"}, "the free span"), ({"tone": "1e2 Hz"}, "the tone"),
                          (PRESSED, "the deflection"), ({**PRESSED, "length limit": "0.01 mm"}, "its stretch"),
                          ({**PRESSED, "length limit": "0.01 mm", "force": "0.1 N"}, "the force")):
        assert f"comes chiefly from {words}." in pluck_press_yours.said_of({**TEXTS, **change})[0], words


@pytest.mark.parametrize(("tone", "told"), [("128 Hz", "Pluck and press agree"), ("256 Hz", "an octave too high"), ("64 Hz", "an octave too low"),
                                            ("180 Hz", "one of them holds a slip")])
def test_the_two_tests_are_compared(tone, told):
    assert told in pluck_press_yours.said_of({**TEXTS, **PRESSED, "tone": tone, "length limit": "0.1 mm"})[-1]


@pytest.mark.parametrize(("change", "told"), [
    ({}, "nothing is measured"), ({"span": ""}, "Free span"), ({**PLUCK, "stretch": "0 %"}, "above 1 %"), ({**PLUCK, "stretch": "x"}, "stretch"),
    ({"tone": "0 Hz"}, "above zero"), ({"tone": "128 V"}, "Pluck"), ({**PLUCK, "thickness": ""}, "Thickness"), ({**PLUCK, "mass": "0 g"}, "Mass"),
    ({**PLUCK, "mass": "0.38 g", "path": ""}, "Path"), ({**PLUCK, "shape": "flat"}, "Width"), ({**PRESSED, "force": "5"}, "force"),
    ({**PRESSED, "force": "-1 N"}, "above zero"), ({**PRESSED, "deflection": "9 mm"}, "too far"), ({**PRESSED, "deflection": ""}, "deflection"),
    ({**PRESSED, "path": "90 mm"}, "Path, once round the belt: is the whole loop"),
    ({**PRESSED, "deflection": "0.8 mm"}, "measure finer"), ({**PLUCK, "length limit": "0 mm"}, "above zero")])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        pluck_press_yours.said_of({**TEXTS, **change})


def test_the_form_warns_answers_keeps_and_brings_back():
    assert "never on a running belt" in pluck_press_yours.Tested().card.children[1].value
    check_form(pluck_press_yours.Tested, {**TEXTS, **PLUCK}, "247 ± 25 mN", spoilt="tone")


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    one = pluck_press_practice._plucked(np.random.default_rng(seed))
    tone, span, grams = given(one, "Hz", "m", "")
    assert one.right(1e-3 * grams * (2 * span * tone) ** 2)
    two = pluck_press_practice._pressed(np.random.default_rng(seed))
    force, deflection, span, percent = given(two, "N", "m", "m", "")
    ratio = 1 + percent / 100
    during = ratio * np.hypot(1, 2 * deflection / span)
    assert two.right(force * np.hypot(span / 2, deflection) / (2 * deflection) * (ratio - ratio**-2) / (during - during**-2))
    three = pluck_press_practice._a_metre(np.random.default_rng(seed))
    density, side, percent, path = given(three, "", "m", "", "m")
    assert three.right(1e3 * density * side**2 * path / (1 + percent / 100))
