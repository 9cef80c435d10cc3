"""Lessons on heat: pictures at every corner against other sums, goals that can be met, the form, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, check_form, given

from benchreckoner import project
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons import heat_practice, pass_transistor, plate, plate_yours
from benchreckoner.physics.plates import METALS, plate_temperature
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PICTURES = [pass_transistor.HEAT, plate.PLATE, plate.SPREADING]
PROBLEMS = [heat_practice._heat_in_line, heat_practice._plate_at_most, heat_practice._worst_load, heat_practice._derated,
            heat_practice._from_case]
TEXTS = {"Heat in the transistor": "2 W", "Side of the plate": "80 mm", "Thickness": "1,5 mm", "Room air": "25 °C", "Metal": "aluminium",
         "Finish": "bare sheet", "Place": "standing, in the closed case", "Junction's limit": "150 °C", "Junction to case": "3 K/W"}


@pytest.mark.parametrize("declared", PICTURES, ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)
    assert len(shapes) == 1, "axes, marks and their places stay, whatever the sliders say"
    assert np.prod([len(one.steps) for one in declared.sliders if one.name in declared.phone_sliders]) <= 5000


def by_hand(volts, amperes):
    """Our motor: 15 ohm, compensated by 15, behind 2.2 ohm, set to 3.26726 V, 0.3 V of drop. Volts, watts, stall."""
    left = volts - 2.2 * amperes - (3.26726 + 15 * amperes)
    return max(left, 0.3) * amperes, (volts - 0.3) / 17.2


def test_heat_at_every_corner():
    for positions, picture in corners(pass_transistor.HEAT):
        values = pass_transistor.HEAT.values(positions)
        volts, amperes = values["supply"].m_as("V"), values["load"].m_as("A")
        watts, stalled = by_hand(volts, amperes)
        load, worst, held = picture.points
        assert load.drawn == (amperes <= stalled)
        if load.drawn:
            assert load.y == pytest.approx(watts, rel=1e-4)
        assert (held.x, held.y) == (pytest.approx(1000 * stalled), pytest.approx(0.3 * stalled))
        curve = picture.curves[1]
        governed = curve.x < 1000 * (volts - 0.3 - 3.26726) / 17.2
        assert worst.y == pytest.approx(np.max(curve.y[governed | (curve.x == worst.x)]), rel=1e-3)
        assert curve.y == pytest.approx([by_hand(volts, one / 1000)[0] for one in curve.x], rel=1e-3, abs=1e-4)


def test_the_published_worst_case_stands_in_the_picture():
    """Check value P09: 0.3630 W at 85 mA; 0.4777 W at 166.65 mA."""
    picture = at(pass_transistor.HEAT, supply=9, load=0.085)
    load, worst, _ = picture.points
    assert load.y == pytest.approx(0.3630, rel=2e-3) and (worst.x, worst.y) == (pytest.approx(166.65, abs=0.02), pytest.approx(0.4777, rel=2e-3))
    assert "363 mW" in picture.sentence and "the motor held leaves 152 mW" in picture.sentence


def test_the_supply_of_the_goal_can_be_found():
    """(150 - 35) / 200 = 0.575 W at 85 mA: 3.26726 + 17.2 x 0.085 + 6.765 = 11.49 V, so between 11.4 and 11.6 V."""
    below, beyond = (at(pass_transistor.HEAT, supply=volts, load=0.085) for volts in (11.4, 11.6))
    assert below.points[0].y < 0.575 < beyond.points[0].y
    assert "within the 575 mW" in below.sentence and "more than the 575 mW" in beyond.sentence
    highest = at(pass_transistor.HEAT, supply=15, load=0.3)
    assert highest.points[2].y < 0.575, "the motor held never comes as high"


def test_more_than_a_stalled_motor_draws_is_told():
    picture = at(pass_transistor.HEAT, supply=4, load=0.3)
    assert not picture.points[0].drawn and "never draws 300 mA: held fast it draws 215 mA" in picture.sentence


def test_the_line_of_worst_loads_joins_the_tops():
    curve = pass_transistor.HEAT.at(pass_transistor.HEAT.start).curves[0]
    assert np.interp(166.65, curve.x, curve.y) == pytest.approx(0.4777, rel=3e-3)


def of_plate(picture):
    """Junction and plate where the slider stands; the curves have a place for each of its steps."""
    here, = picture.points
    return here, float(picture.curves[2].y[np.argmin(np.abs(picture.curves[2].x - here.x))])


def test_plates_at_every_corner_by_the_solver():
    """The picture reads tables backwards; the solver finds each root by itself."""
    for positions, picture in corners(plate.PLATE):
        values = plate.PLATE.values(positions)
        junction, metal = of_plate(picture)
        watts = values["power"].m_as("W")
        try:
            found = plate_temperature(power=values["power"], side=values["side"], thickness=values["thickness"], air=Q(35, "degC"),
                                      conductivity=Q(200, "W/(m*K)"), emissivity=values["emissivity"], source_side=Q(10, "mm")).m_as("degC")
        except ValueError:
            assert np.isnan(metal) and not junction.drawn and "would pass 300 °C" in picture.sentence
            continue
        assert metal == pytest.approx(found, abs=0.2)
        assert junction.drawn == (found + 4 * watts <= 300) and (not junction.drawn or junction.y == pytest.approx(found + 4 * watts, abs=0.2))
        assert picture.curves[0].y[0] == pytest.approx(35 + 80 * watts)


def test_the_plates_of_the_goal_can_be_found():
    """2 W on bare sheet: some plates leave 25 K of margin and burn fingers, larger ones do not, and paint saves the rest."""
    wanted = dict(power=2, emissivity=0.09, thickness=0.0015)
    sides = plate.PLATE.sliders[0].steps
    shown = [of_plate(at(plate.PLATE, side=side, **wanted)) for side in sides]
    margin = next(side for side, (junction, _) in zip(sides, shown) if junction.y <= 125)
    cool = next(side for side, (_, metal) in zip(sides, shown) if metal <= 60)
    assert 0.03 < margin < 0.045 < cool < 0.12
    painted = at(plate.PLATE, side=margin, **{**wanted, "emissivity": 0.88}).points
    bare = at(plate.PLATE, side=margin, **wanted).points
    assert painted[0].y < bare[0].y - 15
    assert at(plate.PLATE, side=cool, **wanted).limits[2].value == 60


def test_what_the_guess_says_of_paint():
    """50 mm at 2 W: painting takes 15 to 20 K off."""
    bare, black = (of_plate(plate.plate_picture(side=Q(50, "mm"), power=Q(2, "W"), emissivity=finish, thickness=Q(1.5, "mm")))[1]
                   for finish in (0.09, 0.88))
    assert 15 < bare - black < 20 and (bare - black) / (bare - 35) == pytest.approx(1 / 3, abs=0.05)


def test_a_plate_no_better_than_the_body_is_told():
    assert "no more than the transistor's own body" in at(plate.PLATE, side=0.015, power=0.1).sentence
    assert "no more than" not in at(plate.PLATE, side=0.12, power=0.1).sentence


def test_the_spreading_goal_can_be_met():
    """4 mm of mild steel conduct as well along the sheet as 1 mm of aluminium: only the product counts."""
    aluminium = at(plate.SPREADING, conductivity=200, thickness=0.001, side=0.1)
    steel = at(plate.SPREADING, conductivity=50, thickness=0.004, side=0.1)
    assert aluminium.points[0].y == pytest.approx(steel.points[0].y)
    half = {metal: at(plate.SPREADING, conductivity=metal, thickness=0.00075, side=0.1).points[0].y < 50 for metal in (15, 50, 115, 200, 390)}
    assert half == {15: True, 50: True, 115: False, 200: False, 390: False} and sorted(half) == sorted(row["conductivity"] for row in METALS.values())


def test_what_the_guess_says_of_stainless_steel():
    """About a quarter works, a patch of some 50 mm."""
    picture = at(plate.SPREADING, conductivity=15, thickness=0.001, side=0.1)
    assert picture.points[0].y == pytest.approx(25, abs=2.5) and "a plate of 51 mm" in picture.sentence
    assert picture.sentence.startswith("Stainless steel, 1 mm thick")


def test_two_formulas_stay_close():
    rows = plate.two_formulas().data.splitlines()[2:]
    assert [float(row.split("|")[4].strip().rstrip("% ")) < 10 for row in rows] == [True] * 3


@pytest.mark.parametrize("make", [pass_transistor.guess_worst, plate.guess_paint, plate.guess_spreading, pass_transistor.own_transistor,
                                  plate_yours.my_plate])
def test_it_opens(make):
    form = make()
    assert getattr(form, "children", form)


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("transistor", "governor"), known=("reckoned",), quantities=((Q(0.36, "W"), "W"),))
    assert all(met for _, met, _ in look_through(pass_transistor.OURS, checks)) and pass_transistor.say_heat().children


def test_our_sentences_say_what_the_picture_says():
    for volts, watts in ((9, 0.36), (14.4, 0.82)):
        picture = pass_transistor.heat_picture(supply=Q(volts, "V"), load=Q(85, "mA"))
        assert picture.points[0].y == pytest.approx(watts, abs=0.005) and f"{watts} W" in pass_transistor.OURS


def test_a_plate_of_ones_own():
    """80 mm of bare sheet at 2 W in 40 degC: by the solver; 20 % of the rise is taken as the doubt."""
    words = plate_yours.said_of(TEXTS)
    found = plate_temperature(power=Q(2, "W"), side=Q(80, "mm"), thickness=Q(1.5, "mm"), conductivity=Q(200, "W/(m*K)"), emissivity=0.09,
                              air=Q(40, "degC"), source_side=Q(10, "mm")).m_as("degC")
    assert f"The plate gets to about {found:.0f} °C in air of 40 °C" in words[1]
    assert f"The junction gets to about {found + 8:.0f} °C, at most {found + 8 + 0.2 * (found - 40):.0f}" in words[0] and "enough" in words[0]


@pytest.mark.parametrize(("change", "told"), [
    ({"Side of the plate": "40 mm"}, "perhaps only"), ({"Side of the plate": "33 mm"}, "perhaps beyond it"),
    ({"Side of the plate": "20 mm"}, "Don't run it so"), ({"Place": "lying free, open air"}, "air of 25 °C"),
    ({"Metal": "stainless steel", "Thickness": "1 mm"}, "too far from the tab")])
def test_plates_that_do_less(change, told):
    assert told in " ".join(plate_yours.said_of({**TEXTS, **change}))


@pytest.mark.parametrize(("change", "told"), [
    ({"Heat in the transistor": ""}, "Heat in the transistor"), ({"Heat in the transistor": "0 W"}, "above zero"),
    ({"Heat in the transistor": "60 W"}, "far too small for so much heat"), ({"Side of the plate": "9 mm"}, "more than the tab's 10 mm"),
    ({"Side of the plate": "2000 mm"}, "at most 300 mm"), ({"Thickness": "-1 mm"}, "Thickness: must be above zero"),
    ({"Room air": "300 °C"}, "Room air: must lie from 0 to 60 °C"), ({"Junction's limit": "10 °C"}, "Junction's limit: must lie"),
    ({"Junction to case": "3"}, "Junction to case"),
])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        plate_yours.said_of({**TEXTS, **change})


def test_the_form_answers_keeps_and_brings_back():
    check_form(plate_yours.OwnPlate, TEXTS, "The junction gets to about", spoilt="Thickness")


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(25))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(20))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    problem = heat_practice._heat_in_line(np.random.default_rng(seed))
    supply, motor, amperes = given(problem, "V", "V", "A")
    assert problem.right((supply - motor) * amperes)
    problem = heat_practice._plate_at_most(np.random.default_rng(seed))
    watts, air, case, joint = given(problem, "W", "degC", "K/W", "K/W")
    assert problem.right((125 - air) / watts - case - joint)
    problem = heat_practice._worst_load(np.random.default_rng(seed))
    supply, kept, compensation, source = given(problem, "V", "V", "ohm", "ohm")
    assert problem.right((supply - kept) / (2 * (compensation + source)))
    problem = heat_practice._derated(np.random.default_rng(seed))
    rated, air = (read_quantity(problem.given[number][1], unit).quantity.m_as(unit) for number, unit in ((0, "W"), (2, "degC")))
    assert problem.right(rated - float(problem.given[1][1].split()[0]) / 1000 * (air - 25))
    problem = heat_practice._from_case(np.random.default_rng(seed))
    case, watts, resistance = given(problem, "degC", "W", "K/W")
    assert problem.right(case + watts * resistance)


def test_the_form_answers_with_the_transistor_alone():
    """4.27 V x 85 mA x 200 K/W + 35 = 107.6 degC; nothing of the feed chain, whatever the sheet holds."""
    demo = (project.CASES / "record_player.toml").read_text(encoding="utf-8")
    own = demo + """
[[part]]
name = "TR<1>"
kind = "transistor"
after_branch = true
junction_limit = "150 degC"
junction_air = "200 K/W"
temperature = "35 degC"
[[reading]]
part = "TR<1>"
quantity = "voltage drop"
value = "4.27 V"
instrument = "meter"
stage = "as found"
condition = "playing"
[[reading]]
part = "TR<1>"
quantity = "current"
value = "85.0 mA"
instrument = "second meter"
stage = "as found"
condition = "playing"
"""
    told = pass_transistor.transistor_html(read_text(own))
    assert "TR&lt;1&gt;, junction temperature (playing)" in told and "107.6" in told and "spring" not in told
    assert "No transistor was read yet" in pass_transistor.transistor_html(read_sheet(project.CASES / "record_player.toml"))
