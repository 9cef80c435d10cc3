"""How hard a belt pulls, its rubber weighed, and what years take: pictures at every corner, goals, forms, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, check_form, given

from benchreckoner.bench.belt_priors import prior
from benchreckoner.lessons import belt_pull, belt_pull_practice, belt_pull_yours, belt_years
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q

PROBLEMS = [belt_pull_practice.tension_problem, belt_pull_practice._weighed, belt_pull_practice._across, belt_pull_practice._years,
            belt_pull_practice._grown]
TEXTS = {**{name: usual for name, (*_, usual) in belt_pull_yours._BOXES.items()}, "shape": "square", "legs": "a loop, two legs",
         "thickness": "1.2 mm", "hung": "0 g: 101.0 mm; 20 g: 103.0 mm; 40 g: 105.0 mm; 80 g: 109.5 mm; 120 g: 114.0 mm"}
WRAP = np.pi - 2 * np.arcsin(27 / 55)


def law(stretch, hardness, side):
    """Newton, by Gent's form and the neo-Hookean law, written out."""
    modulus = 0.0981 * (56 + 7.62336 * hardness) / (0.137505 * (254 - 2.54 * hardness))
    return side**2 * modulus / 3 * (1 + stretch - (1 + stretch) ** -2)


def shape_of(picture):
    return (picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
            tuple(len(mark.x) for mark in (*picture.curves, *picture.bands)))


def reads_well(picture):
    for words in (picture.sentence, picture.alt):
        assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)


def test_every_corner_of_the_pull():
    shapes = set()
    for positions, picture in corners(belt_pull.PULL):
        stretch, hardness, side = (slider.steps[positions[slider.name]] for slider in belt_pull.PULL.sliders)
        shapes.add(shape_of(picture))
        reads_well(picture)
        pull = law(stretch / 100, hardness, 1e3 * side)
        here, = picture.points
        across = 2 * here.y * np.sin(WRAP / 2)
        assert here.y == pytest.approx(pull, rel=0.03)
        assert np.interp(stretch, picture.curves[1].x, picture.curves[1].y) == pytest.approx(across, rel=3e-3)
        band, middle = picture.bands[0], picture.curves[0]
        assert np.all(np.diff(middle.y) > 0) and np.all((band.low < middle.y) & (middle.y < band.high))
        assert np.interp(stretch, middle.x, middle.y) == pytest.approx(here.y, rel=2e-3)
        told = [float(number) for number in re.findall(r"([\d.]+) N\b", picture.sentence)]
        low, high = np.interp(stretch, middle.x, band.low), np.interp(stretch, middle.x, band.high)
        assert told == pytest.approx([here.y, low, high, across, low * across / here.y, high * across / here.y], rel=0.06)
        assert picture.y.low < band.low.min() and across < picture.y.high
    assert len(shapes) == 1


def test_the_pull_starts_on_the_published_belt():
    """Check values C32, C33 and T1: 0.2474 N, 0.431 N across the shaft, 29 % more for a millimetre less."""
    picture = belt_pull.PULL.at(belt_pull.PULL.start)
    assert picture.points[0].y == pytest.approx(0.2474, rel=0.01) and "is about 0.43 N" in picture.sentence
    assert "29 % harder" in picture.sentence and "0.16 N to 0.37 N" in picture.sentence


def test_the_goals_of_the_pull_can_be_met():
    """0.431 N goes as the square of the side: past 1 N from 1.83 mm. A millimetre doubles a pull below some 1.5 %."""
    below, above = (re.search(r"that is about ([\d.]+) N", at(belt_pull.PULL, side=side).sentence)[1] for side in (0.0018, 0.0019))
    assert float(below) < 1 < float(above)
    assert "times as hard" in at(belt_pull.PULL, stretch=1.0).sentence and "% harder" in at(belt_pull.PULL, stretch=1.5).sentence


def test_the_guesses_numbers_are_right():
    """One millimetre less of diameter: 3.1416 mm less of 219.986, on the same path of 230.985 mm."""
    shorter = 230.98484 / (230.98484 / 1.05 - np.pi) - 1
    assert law(shorter, 60, 1.2) / law(0.05, 60, 1.2) == pytest.approx(1.29, abs=0.005)
    assert shorter == pytest.approx(0.065, abs=5e-4) and np.pi / 219.986 == pytest.approx(0.0143, abs=1e-4)
    assert (law(0.05, 65, 1) / law(0.05, 55, 1)) ** 0.5 == pytest.approx(1.20, abs=0.03)
    assert law(0.05, 55, 1) / law(0.05, 60, 1) == pytest.approx(1 - 0.18, abs=0.005)
    assert law(0.05, 65, 1) / law(0.05, 60, 1) == pytest.approx(1.23, abs=0.005)
    assert law(0.05, 80, 1) / law(0.05, 30, 1) == pytest.approx(8, abs=0.3)
    for make in (belt_pull.guess_millimetre, belt_pull.guess_hardness, belt_years.guess_first_day):
        assert make().children


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("pulls",), known=("Shore",), quantities=((Q(0.25, "N"), "N"),))
    assert all(met for _, met, _ in look_through(belt_pull.OURS, checks))
    assert belt_pull.say_pull().children


def test_every_corner_of_the_years():
    shapes = set()
    for positions, picture in corners(belt_years.YEARS):
        years, loss = (slider.steps[positions[slider.name]] for slider in belt_years.YEARS.sliders)
        shapes.add(shape_of(picture))
        reads_well(picture)
        left = 100 - loss * np.log10(years * 365.25 * 24 * 60)
        assert picture.points[0].y == pytest.approx(left, abs=0.01) and f"{left:.0f} % of the first pull" in picture.sentence
        assert picture.curves[0].y[0] == pytest.approx(100) and np.interp(
            picture.points[0].x, picture.curves[0].x, picture.curves[0].y) == pytest.approx(left, abs=0.01)
    assert len(shapes) == 1
    band, usual = picture.bands[0], prior("relaxation")
    assert (band.low[-1], band.high[-1]) == pytest.approx([100 - 100 * usual[edge] * band.x[-1] for edge in ("high", "low")], abs=0.01)


def test_published_losses_stand_in_the_years():
    """Check value C38 at 5 % a tenfold: 0.714 after a year, 0.664 after ten."""
    for years, kept in ((1, 71.4), (10, 66.4)):
        assert at(belt_years.YEARS, years=years).points[0].y == pytest.approx(kept, abs=0.05)


def test_the_goals_of_the_years_can_be_met():
    """Dusty at 0.3 of friction: 0.2474 N, tanh(0.3 * 2.1153 / 2), over 1.5 mN·m by 30.6 mm: 3.10 times at first."""
    line = belt_years.YEARS.at(belt_years.YEARS.start).limits[0].value
    assert line == pytest.approx(100 * 2 / (2 * 0.2474 * np.tanh(0.15 * WRAP) / (1.5 / 30.6)), rel=1e-3)
    assert at(belt_years.YEARS, years=20, loss=5).points[0].y > line > at(belt_years.YEARS, years=30, loss=5).points[0].y
    assert at(belt_years.YEARS, years=0.01, loss=8).points[0].y > line > at(belt_years.YEARS, years=0.08, loss=8).points[0].y
    assert at(belt_years.YEARS, years=30, loss=4.5).points[0].y > line
    assert "just enough" in at(belt_years.YEARS, years=25, loss=5).sentence


def test_a_years_set_is_not_counted_twice():
    """What is left of the pull, by the law, of a belt that much longer on the same path."""
    picture = at(belt_years.YEARS, years=10, loss=5)
    grown = float(re.search(r"would be ([\d.]+) % longer", picture.sentence)[1]) / 100
    assert law(1.05 / (1 + grown) - 1, 60, 1.2) / law(0.05, 60, 1.2) == pytest.approx(0.664, abs=0.01)


def test_the_table_of_warmth_turns_over():
    """Reference 1.12: -0.41 % a degree at 3 %, -0.12 at 5 %, +0.10 at 10 %, one digit; nought near 6.9 %."""
    lines = [[cell.strip() for cell in line.strip("| ").split("|")] for line in belt_years.warm_table().data.splitlines()[2:]]
    assert lines == [["3 %", "−0.4 %", "+6 %", "−6 %"], ["5 %", "−0.1 %", "+2 %", "−2 %"], ["7 %", "0.0 %", "0 %", "0 %"],
                     ["10 %", "+0.1 %", "−1 %", "+1 %"]]


def test_the_form_names_the_rubber():
    """By hand from the line of 120 g: 0.5884 N a leg, 114.0 by 101.0 mm: E = 3 * 0.5884 / (1.44 * (1.1287 - 0.7850)) = 3.57 MPa."""
    first, second, *rest = belt_pull_yours.said_of(TEXTS)
    assert 3 * 0.5884 / (1.44 * (114 / 101 - (101 / 114) ** 2)) == pytest.approx(3.57, abs=0.01)
    assert first.startswith("Modulus E: 3.56 ± 0.29 MPa") and "up to 12.8 %" in first
    assert "5.12 ± 0.29 N" in second and "244 ± 14 mN" in second and rest == [
        "What is left open of the modulus comes chiefly from how thick the piece is."]


def test_a_strip_is_half_a_loop_and_a_flat_belt_has_its_own_section():
    strip = belt_pull_yours.said_of({**TEXTS, "legs": "a cut strip, one leg"})[0]
    assert strip.startswith("Modulus E: 7.11")
    flat = belt_pull_yours.said_of({**TEXTS, "shape": "flat", "thickness": "0.5 mm", "width": "2.88 mm"})[0]
    assert flat.startswith("Modulus E: 3.56")


def test_the_hardness_is_compared():
    told = belt_pull_yours.said_of({**TEXTS, "hardness": "60 ShA"})[2]
    assert "3.6 MPa, likely 2.4 MPa to 5.4 MPa" in told and "5 times narrower" in told
    for far in ("30", "75"):
        assert "lies outside that" in belt_pull_yours.said_of({**TEXTS, "hardness": far})[2]
    loose = belt_pull_yours.said_of({**TEXTS, "hardness": "60", "length limit": "5 mm"})
    assert "no narrower" in loose[2] and any("hang more" in line for line in loose)


@pytest.mark.parametrize(("change", "told"), [
    ({"hung": ""}, "two masses"), ({"hung": "20 g 103 mm"}, "pair 1: write mass and length"), ({"hung": "20 g: 103 V; 0 g: 100 mm"}, "pair 1, length"),
    ({"hung": "0 g: 100 mm; -5 g: 103 mm"}, "pair 2, mass"), ({"hung": "0 g: 100 mm; 5 g: 0 mm"}, "pair 2, length: must be above zero"),
    ({"hung": "0 g: 103 mm; 20 g: 100 mm"}, "does not grow"), ({"hung": "0 g: 100 mm; 700 g: 170 mm"}, "Mass: length: 700 g"),
    ({"hung": "0 g: 100 mm; 20 g: 100.0001 mm"}, "Mass: length: the piece grew too little"),
    ({"thickness": ""}, "Thickness"), ({"thickness limit": "0.7 mm"}, "below half"), ({"thickness limit": "0 mm"}, "above zero"),
    ({"shape": "flat"}, "Width"), ({"hardness": "soft"}, "25 to 75"), ({"hardness": "90"}, "25 to 75"), ({"length limit": "x"}, "length"),
    ({"mass share": "much"}, "masses")])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        belt_pull_yours.said_of({**TEXTS, **change})


def test_the_form_answers_keeps_and_brings_back():
    check_form(belt_pull_yours.Weighed, {**TEXTS, "legs": "a cut strip, one leg"}, "7.11", spoilt="hung")


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    one = belt_pull_practice.tension_problem(np.random.default_rng(seed))
    side, stiff, percent = given(one, "m", "Pa", "")
    ratio = 1 + percent / 100
    assert one.right(side**2 * stiff / 3 * (ratio - 1 / ratio**2))
    two = belt_pull_practice._weighed(np.random.default_rng(seed))
    side, mass, free, length = given(two, "m", "kg", "m", "m")
    ratio = length / free
    assert two.right(3 * mass * 9.81 / 2 / side**2 / (ratio - 1 / ratio**2))
    three = belt_pull_practice._across(np.random.default_rng(seed))
    pull, degrees = given(three, "N", "")
    assert three.right(abs(pull + pull * np.exp(1j * np.radians(180 - degrees))))
    four = belt_pull_practice._years(np.random.default_rng(seed))
    pull, percent, years = given(four, "N", "", "")
    assert four.right(pull * (1 - percent / 100 * np.log10(years * 525960)))
    five = belt_pull_practice._grown(np.random.default_rng(seed))
    _, percent, kept = given(five, "m", "", "")
    assert five.right(100 * ((1 + percent / 100) / (1 + kept * percent / 100) - 1))
