"""Lessons on leakage at the bench: pictures at every corner, goals that can be met, the reader's own readings, fair questions."""

import shutil

import numpy as np
import pytest
from fair import check_fair
from scipy.optimize import brentq

from benchreckoner import project
from benchreckoner.bench.changes import add_entry
from benchreckoner.bench.desk import SHEET_VARIABLE
from benchreckoner.bench.leakage_judge import judge_leakage
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons import leakage_bench, leakage_bench_practice, leakage_yours
from benchreckoner.lessons.leakage_bench import CURRENT, KEPT, SOAKAGE
from benchreckoner.show.declare import corners
from benchreckoner.show.say import look_through
from benchreckoner.units import read_quantity

PROBLEMS = [getattr(leakage_bench_practice, name) for name in
            ("meters_current_problem", "_at_five_minutes", "_still_charging", "_kept", "_multiple")]
GUESSES = [leakage_bench.guess_meter, leakage_bench.guess_wait, leakage_bench.guess_kept, leakage_bench.guess_shorted]


@pytest.fixture(autouse=True)
def desk(tmp_path, monkeypatch):
    """A copy of the demo sheet on the desk, with a capacitor, for this test alone."""
    copy = tmp_path / "record_player.toml"
    shutil.copy(project.CASES / "record_player.toml", copy)
    monkeypatch.setenv(SHEET_VARIABLE, str(copy))
    add_entry(copy, table="instrument", entry={"name": "fine <b>meter</b>", "accuracy": "0.5 % + 1 mV", "input_resistance": "10 Mohm"})
    add_entry(copy, table="part", entry={"name": "C <7>", "kind": "capacitor", "capacitance": "100 uF", "rated_voltage": "10 V"})
    return copy


def read(desk, *values, **keys):
    """Readings of the capacitor as (value, time), and the report on them."""
    for value, after in values:
        usual = {"part": "C <7>", "quantity": "voltage drop", "value": value, "instrument": "fine <b>meter</b>", "after": after,
                 "stage": "as found", "condition": "lifted", "applied": "10 V", "series_resistor": "10 kohm"}
        add_entry(desk, table="reading", entry=usual | keys)
    report, = judge_leakage(read_sheet(desk))
    return report


def at(declared, **wanted):
    """The picture where each named slider stands at the step nearest to this value, the others at their start."""
    positions = dict(declared.start)
    for slider in declared.sliders:
        if slider.name in wanted:
            positions[slider.name] = int(np.argmin(np.abs(np.log(np.array(slider.steps) / wanted[slider.name]))))
    return declared.at(positions)


@pytest.mark.parametrize("declared", [CURRENT, KEPT, SOAKAGE], ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    first = declared.at(declared.start)
    for _, picture in corners(declared):
        assert (picture.x, picture.y, picture.title) == (first.x, first.y, first.title)
        assert [mark.name for _, mark in picture.marks] == [mark.name for _, mark in first.marks]
        assert all(np.isfinite(curve.y).any() for curve in picture.curves[-1:]) and picture.sentence.endswith(".")


@pytest.mark.parametrize("ohms", [100e3, 10e3])
def test_the_goal_of_the_wait_can_be_met(ohms):
    """By hand: E/R e^(-t/RC) against I1 (t/1 min)^-0.7, the leak small beside the resistor."""
    def too_little(seconds):
        charging, leaking = 6 / ohms * np.exp(-seconds / (ohms * 1e-3)), 5e-6 * (seconds / 60) ** -0.7
        return leaking - 9 * charging

    wait = brentq(too_little, ohms * 1e-3, 50 * ohms * 1e-3)
    assert "Now the meter speaks" in at(CURRENT, wait=1.15 * wait, resistor=ohms).sentence
    assert "Now the meter speaks" not in at(CURRENT, wait=0.85 * wait, resistor=ohms).sentence


def test_published_charge_stands_in_the_picture():
    """Check values C29 and C30, 6 V and 1000 uF; the part leaks a tenth of a microampere."""
    for ohms, wait, microamperes in ((10e3, 60, 1.4873), (100e3, 120, 18.072)):
        picture = at(CURRENT, resistor=ohms, wait=wait, leakage=1e-7)
        curve = next(curve for curve in picture.curves if curve.name == "charging")
        assert np.interp(wait, curve.x, curve.y) == pytest.approx(microamperes, rel=0.1)


def test_the_meter_never_shows_more_than_the_resistor_lets_through():
    for positions, picture in corners(CURRENT):
        shown = next(curve for curve in picture.curves if curve.name == "what the meter shows").y
        assert np.nanmax(shown) <= 6e6 / CURRENT.values(positions)["resistor"].m_as("ohm") * (1 + 1e-9)


def test_the_goals_of_the_meter_on_it_can_be_met():
    """Half is left after ln 2 times 100 s; a meter takes less than a tenth where RC is above t / 0.105."""
    half = at(KEPT, time=np.log(2) * 100)
    assert half.points[0].y == pytest.approx(3, abs=0.15)
    assert at(KEPT, time=69.3, capacitance=100e-6).points[0].y > 5.4 > at(KEPT, time=69.3, capacitance=47e-6).points[0].y
    assert at(KEPT, time=60).points[0].y == pytest.approx(6 * 0.54881, rel=0.02)  # check value C33


def test_the_goal_of_soakage_can_be_met():
    """2.5 V come back with 100 s: 1 V after 100 s times ln(1 / 0.6), 51 s."""
    assert "once more" in at(SOAKAGE, wait=58).sentence and "Below 1 V" in at(SOAKAGE, wait=45).sentence
    assert at(SOAKAGE, wait=3600).points[0].y == pytest.approx(2.5, rel=1e-3)


class TestYourReadings:
    def test_a_form_saves_time_volts_and_resistor(self, desk):
        form = leakage_yours.leakage_form()
        for name, text in (("part", "C <7>"), ("quantity", "voltage drop"), ("value", "68.1 mV"), ("instrument", "fine <b>meter</b>"),
                           ("condition", "lifted"), ("after", "5 min"), ("applied", "10 V"), ("series_resistor", "10 kohm")):
            form.boxes[name].value = text
        form.save()
        reading = read_sheet(desk).readings[-1]
        assert reading.applied.m_as("V") == 10 and reading.series_resistor.m_as("kohm") == 10
        assert "A hundredth and three (published)" in form.answered.value and form.error.value == ""
        form.undo()
        assert "No leakage reading" in form.answered.value

    def test_too_many_volts_are_met_at_their_box(self, desk):
        form = leakage_yours.leakage_form()
        for name, text in (("part", "C <7>"), ("quantity", "voltage drop"), ("value", "68.1 mV"), ("instrument", "fine <b>meter</b>"),
                           ("condition", "lifted"), ("applied", "100 V")):
            form.boxes[name].value = text
        form.save()
        assert "63 V" in form.error.value and form.boxes["applied"].value == "100 V"

    def test_names_from_the_sheet_are_no_markup(self, desk):
        report = read(desk, ("210 mV", "1 min"), ("129 mV", "2 min"), ("68.1 mV", "5 min"))
        text = leakage_yours.leakage_html(read_sheet(desk))
        assert "C <7>" not in text and "C &lt;7&gt;" in text
        assert "C <7>" not in leakage_yours.my_leakage_law().value
        assert report.rules

    def test_the_law_is_drawn_through_the_readings(self, desk):
        report = read(desk, ("210 mV", "1 min"), ("129.3 mV", "2 min"), ("68.1 mV", "5 min"))
        picture = leakage_yours.law_picture(report)
        curve, band = picture.curves[0], picture.bands[0]
        for point in picture.points:
            assert np.exp(np.interp(np.log(point.x), np.log(curve.x), np.log(curve.y))) == pytest.approx(point.y, rel=0.01)
        assert np.all(band.low < curve.y) and np.all(curve.y < band.high)
        assert "three at least” (common practice)" in picture.sentence

    def test_a_reading_full_of_charge_is_drawn_apart(self, desk):
        report = read(desk, ("4.000 V", "20 s"), ("300.0 mV", "3 min"), ("210.0 mV", "5 min"), series_resistor="100 kohm")
        picture = leakage_yours.law_picture(report)
        assert [point.style for point in picture.points] == ["extra", "own", "own"] and "1 of the readings was" in picture.sentence

    def test_without_readings_it_says_what_to_do(self, desk):
        assert "three" in leakage_yours.my_leakage_law().value
        assert "1, 2 and 5 minutes" in leakage_yours.say_my_leakage().data

    def test_our_sentences_pass_our_own_look(self, desk):
        report = read(desk, ("210 mV", "1 min"), ("129.3 mV", "2 min"), ("68.1 mV", "5 min"))
        checks = leakage_yours.say_my_leakage()
        assert checks.children
        ours = leakage_yours.say_ours(report)
        assert all(met for _, met, _ in look_through(ours, leakage_yours.say_checks(report)))
        assert "no published rule" in ours


@pytest.mark.parametrize("make", GUESSES, ids=lambda make: make.__name__)
def test_a_guess_can_be_asked(make):
    assert make().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(25))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_exercises_by_their_given_numbers():
    """What a reader would reckon from the numbers as shown comes out right."""
    for seed in range(30):
        problem = leakage_bench_practice.meters_current_problem(np.random.default_rng(seed))
        volts, ohms, meter = (read_quantity(text, unit).quantity.m_as(unit)
                              for (_, text), unit in zip(problem.given, ("V", "ohm", "ohm"), strict=True))
        assert problem.right(volts * (ohms + meter) / (ohms * meter))
        problem = leakage_bench_practice._at_five_minutes(np.random.default_rng(seed))
        first, second = (read_quantity(text, "A").quantity.m_as("A") for _, text in problem.given)
        line = np.polyfit(np.log([1, 2]), np.log([first, second]), 1)
        assert problem.right(np.exp(np.polyval(line, np.log(5))))
