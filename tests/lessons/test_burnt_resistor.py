"""Lessons on burnt resistors and loads: pictures at every corner and goal, the form, the sentences, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair

from benchreckoner import project
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons import across_load, burnt_resistor, burnt_resistor_yours, resistor_practice
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PICTURES = [burnt_resistor.HEAT, across_load.ACROSS, across_load.IN_SERIES]
PROBLEMS = [resistor_practice._allowed_heat, resistor_practice._watts_across, resistor_practice._twin_alone, resistor_practice._burning,
            resistor_practice._sees, resistor_practice._quieter]
TEXTS = {**{name: "" for name in burnt_resistor_yours._LABELS}, "bands": "brown grey black gold", "accuracy": "1 %",
         "how": burnt_resistor_yours.LIFTED, "kind": "film"}
BODY = {"diameter": "2.4 mm", "length": "6.5 mm"}


@pytest.mark.parametrize("declared", PICTURES, ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks)))
        assert all(point.drawn for point in picture.points)
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)
    assert len(shapes) == 1


@pytest.mark.parametrize("declared", PICTURES, ids=lambda one: one.key)
def test_a_phone_page_holds_it(declared):
    steps = [len(slider.steps) for slider in declared.sliders if slider.name in declared.phone_sliders]
    assert len(steps) == 2 and np.prod(steps) <= 5000


class TestHeat:
    def test_the_goal_can_be_met(self):
        """60 + 85 x 0.4/0.5 = 128 degC, and 196 with a quarter of a watt; half in hand takes a watt."""
        told = {rated: at(burnt_resistor.HEAT, rated=rated, power=0.4, ambient=60).sentence for rated in (0.25, 0.5, 1)}
        assert "near 196 °C. That is too much" in told[0.25] and "near 128 °C" in told[0.5] and "so it lives" in told[0.5]
        assert "near 94 °C" in told[1] and "half of that or less" in told[1]

    def test_the_curve_by_hand(self):
        """R01: a quarter of a watt may make 0.25 x 55/85 at 100 degC."""
        curve, half = at(burnt_resistor.HEAT, rated=0.25).curves
        assert np.interp(100, curve.x, curve.y) == pytest.approx(0.16176, abs=1e-4) == 2 * np.interp(100, half.x, half.y)
        assert curve.y[curve.x <= 70] == pytest.approx(0.25)

    def test_corners_by_hand(self):
        assert [at(burnt_resistor.HEAT, rated=rated, power=power, ambient=air).sentence.split(":")[1].split(".")[0].strip()
                for rated, power, air in ((0.125, 0.05, 120), (5, 5, 10))] == ["its hot spot is near 154 °C", "its hot spot is near 95 °C"]
        assert "has ended and the part chars" in at(burnt_resistor.HEAT, rated=0.125, power=5, ambient=10).sentence


class TestBesideALoudspeaker:
    def test_the_published_case_stands_in_the_picture(self):
        """R02: 33 ohm across 8: 6.439 ohm, 0.2424 W for each watt, 1.242 times the current."""
        picture = at(across_load.ACROSS, resistance=33, loudspeaker=8)
        sees, heat = picture.points
        assert sees.y == pytest.approx(6.4390 / 8, abs=1e-5) and heat.y == pytest.approx(0.242424, abs=1e-5)
        assert "sees 6.44 Ω and gives 1.24 times" in picture.sentence and "as loud as without it" in picture.sentence

    @pytest.mark.parametrize("place", range(8))
    def test_corners_by_a_second_route(self, place):
        """Conductances for across; volts in proportion to ohms for in series."""
        for declared, sign in ((across_load.ACROSS, 1), (across_load.IN_SERIES, -1)):
            values, picture = list(corners(declared))[place]
            ohms, load = (declared.values(values)[name].m_as("ohm") for name in ("resistance", "loudspeaker"))
            sees, heat = picture.points
            if sign > 0:
                assert 1 / sees.y == pytest.approx(1 + load / ohms) and heat.y == pytest.approx(load / ohms)
            else:
                share = load / (ohms + load)
                assert sees.y == pytest.approx(1 / share) and heat.y == pytest.approx(share * (1 - share))
            heard = 1 if sign > 0 else (load / (ohms + load)) ** 2
            for curve, value in zip(picture.curves, (sees.y, 1 / sees.y, heard, heat.y), strict=True):
                assert np.exp(np.interp(np.log(ohms), np.log(curve.x), np.log(curve.y))) == pytest.approx(value, rel=1e-6)

    def test_the_first_goal_can_be_met(self):
        """8 x R / (8 + R) is 6 at R = 24: the drawer has 27 (6.17), and 22 is too little (5.87)."""
        assert "least load of 6 Ω is kept" in at(across_load.ACROSS, resistance=27, loudspeaker=8, least=6).sentence
        below = at(across_load.ACROSS, resistance=22, loudspeaker=8, least=6).sentence
        assert "misses the amplifier's least load of 6 Ω by 2 %" in below
        assert "may overload" in at(across_load.ACROSS, resistance=10, loudspeaker=8, least=6).sentence

    def test_the_second_goal_can_be_met(self):
        """Half the watts at 8 x (sqrt 2 - 1) = 3.31 ohm, 3.0 dB; hottest at 8 ohm, a quarter: 8.2 in the drawer."""
        assert "3.0 dB quieter" in at(across_load.IN_SERIES, resistance=3.3, loudspeaker=8).sentence
        steps = across_load.IN_SERIES.sliders[0].steps
        heat = {step: at(across_load.IN_SERIES, resistance=step, loudspeaker=8).points[1].y for step in steps}
        assert max(heat, key=heat.get) == 8.2 and heat[8.2] == pytest.approx(0.25, abs=0.001)


@pytest.mark.parametrize("make", [burnt_resistor.guess_bands, across_load.guess_open, across_load.guess_series])
def test_a_guess_can_be_asked(make):
    assert make().children


@pytest.mark.parametrize(("ours", "checks"), [
    (burnt_resistor.OURS, SayChecks(what=("resistor",), quantities=((Q(47, "ohm"), "ohm"),), known=("twin",), tolerance=0.001)),
    (across_load.OURS, SayChecks(what=("amplifier",), quantities=((Q(6.4, "ohm"), "ohm"),), known=("meter",), tolerance=0.001))])
def test_our_sentences_pass_our_own_checks(ours, checks):
    assert all(met for _, met, _ in look_through(ours, checks))
    assert burnt_resistor.say_what_it_was().children and across_load.say_across().children


class TestTheForm:
    def told(self, **texts):
        return re.sub("<[^>]*>", "", burnt_resistor_yours.answer_html({**TEXTS, **texts}))

    def test_the_lesson_s_own_case(self):
        """47 ohm, 1/4 W: 6.25 times are 182 mA; 9 V into a short are 191 mA, so 2.4 ohm behind it are the most."""
        told = self.told(twin="46.5 ohm", supply="9 V", **BODY)
        assert told.index("47 Ω, more than 99 in 100") < told.index("47 Ω stands out") and "182 mA" in told and "2.4 Ω or less" in told
        assert "Rated 0.25 W, by the usual bodies" in told and "only 162 mW" in told and "only the same type of the same value" in told

    def test_without_evidence_the_bands_as_they_look_come_first(self):
        told = self.told()
        assert told.index("18 Ω,") < told.index("47 Ω,") and "Write its body's size" in told.replace("&#x27;", "'")

    def test_each_piece_of_evidence_is_heard(self):
        """Each is a reading of 47 ohm: 47 with 220 across it is 38.73; 0.47 V at 10 mA; composition that drifted to 62."""
        for texts in ({"twin": "38.73 ohm", "across": "220 ohm", "how": burnt_resistor_yours.IN_CIRCUIT},
                      {"volts": "0.47 V", "current": "10 mA"}):
            assert "first:47 Ω" in self.told(**texts).replace("\n", "")
        plain, drifted = (self.told(bands="? ? black gold", own=own, kind="carbon composition") for own in ("", "62 ohm"))
        assert "47 Ω" not in plain.split("To tell")[0].split("in 100")[0] and "its own reading, 62.0 Ω" in drifted

    @pytest.mark.parametrize(("change", "told"), [
        ({"bands": ""}, "Bands now"), ({"bands": "brown pink red gold"}, "'pink' is no colour"), ({"bands": "brown"}, "here are 1"),
        ({"accuracy": ""}, "good to"), ({"accuracy": "0 %"}, "good to: must lie"), ({"accuracy": "100 %"}, "good to: must lie"),
        ({"twin": "-3 ohm"}, "Other channel"), ({"twin": "46.5"}, "Other channel"), ({"twin": "0 ohm"}, "must be above zero"),
        ({"twin": "50 ohm", "across": "40 ohm", "how": burnt_resistor_yours.IN_CIRCUIT}, "must be above what was read"),
        ({"volts": "1 V"}, "current in it: write it too"), ({"current": "1 mA"}, "volts across it: write it too"),
        ({"diameter": "0 mm", "length": "3 mm"}, "thickness: must be above zero"), ({"supply": "230 V"}, "beyond 63 V")])
    def test_nonsense_is_told_by_its_box(self, change, told):
        with pytest.raises(ValueError, match=told):
            burnt_resistor_yours.answer_html({**TEXTS, **change})

    def test_it_answers_keeps_and_brings_back(self):
        form = burnt_resistor_yours._Burnt()
        for name, text in {**TEXTS, "twin": "46.5 ohm"}.items():
            form.boxes[name].value = text
        form.reckon()
        assert "47 Ω" in form.answer.value and not form.error.value
        assert burnt_resistor_yours._Burnt().boxes["twin"].value == "46.5 ohm"
        form.boxes["bands"].value = "<b>"
        form.reckon()
        assert form.error.value and not form.answer.value and "<b>" not in form.error.value
        assert burnt_resistor_yours.burnt_form().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(40))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    def given(make):
        problem = make(np.random.default_rng(seed))
        return problem, [read_quantity(text, ("V", "A", "ohm", "W", "degC")).quantity.to_base_units().magnitude for _, text in problem.given
                         if re.fullmatch(r"[\d.]+ (?:[mk]?(?:V|A|Ω|W)|°C)", text)]

    problem, (rated, air) = given(resistor_practice._allowed_heat)
    assert problem.right(rated * (155 - (air - 273.15)) / 85)
    problem, (load, shunt, volts) = given(resistor_practice._watts_across)
    assert problem.right(volts**2 / shunt)
    problem, (read, path) = given(resistor_practice._twin_alone)
    assert problem.right(read * path / (path - read))
    problem, (load, shunt) = given(resistor_practice._sees)
    assert problem.right(load * shunt / (load + shunt))
    problem, (load, series) = given(resistor_practice._quieter)
    assert problem.right(20 * np.log10(load / (load + series)))


def test_each_exercise_can_be_opened():
    assert all(make(3).children for make in (resistor_practice.allowed_heat, resistor_practice.beside_the_loudspeaker, resistor_practice.mixed))


def test_the_sheets_form_answers_with_resistors_alone():
    """18.1 ohm where 47 are printed; nothing of the feed chain, whatever the sheet holds."""
    demo = (project.CASES / "record_player.toml").read_text(encoding="utf-8")
    own = demo + """
[[part]]
name = "R1"
kind = "resistor"
place = "emitter"
resistance = "47 ohm"
[[reading]]
part = "R1"
quantity = "resistance"
value = "18.1 ohm"
instrument = "meter"
stage = "as found"
condition = "lifted"
"""
    told = burnt_resistor_yours.others_html(read_text(own))
    assert "✗ R1 (lifted): bad" in told and "spring" not in told
    assert "No resistor and no loudspeaker" in burnt_resistor_yours.others_html(read_sheet(project.CASES / "record_player.toml"))
    assert burnt_resistor_yours.others_form() is not None


def test_every_box_of_the_form_is_shown():
    form = burnt_resistor_yours._Burnt()
    assert set(burnt_resistor_yours._SHOWN) == set(form.boxes) and form.view.children[1].children == tuple(
        form.boxes[name] for name in burnt_resistor_yours._SHOWN)
