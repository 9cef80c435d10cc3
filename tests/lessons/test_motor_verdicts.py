"""Lessons on four numbers, on belt off against belt on, and on the reader's own motor: corners, goals, forms, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, given

from benchreckoner.bench.sheet import read_text
from benchreckoner.lessons import belt_off, motor_opening, motor_pattern, motor_verdicts
from benchreckoner.lessons.your_bench import my_sheet
from benchreckoner.show.declare import corners
from benchreckoner.show.say import look_through

PROBLEMS = (belt_off._times_the_torque, belt_off._torque_of_the_rest, belt_off._volts_of_line, belt_off._own_share)
WINDING, CONSTANT, SOURCE, DROP = 15.0, 0.0130, 2.2, 0.3
SET = CONSTANT * 2400 * 2 * np.pi / 60


def own():
    return motor_verdicts.own_governor(my_sheet())


@pytest.mark.parametrize("declared", [motor_pattern.PATTERN, belt_off.SPLIT], ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith((".", "?")) and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)[-−]\d", words)
    assert len(shapes) == 1


def test_phone_pages_stay_small():
    for declared in (motor_pattern.PATTERN, belt_off.SPLIT, own()):
        assert np.prod([len(slider.steps) for slider in declared.sliders if slider.name in declared.phone_sliders]) <= 5000


def test_four_readings_at_every_corner_by_hand():
    """Volts round the loop, without the library's laws: the governor's line or the supply's, whichever is lower."""
    for positions, _ in corners(motor_pattern.PATTERN):
        values = motor_pattern.PATTERN.values(positions)
        supply, setting, load, idle = (values[name].to_base_units().magnitude for name in ("supply", "setting", "load", "own"))
        amps = load + idle
        volts = min(SET * setting + 15 * amps, supply - DROP - SOURCE * amps)
        shown = [one.m_as(unit) for one, unit in zip(motor_pattern.four_readings(**values), ("V", "A", "turn/min", "V"))]
        if volts <= WINDING * amps:
            amps = min(amps, (supply - DROP) / (WINDING + SOURCE))
            wanted = [WINDING * amps, amps, 0, supply - SOURCE * amps - WINDING * amps]
        else:
            wanted = [volts, amps, (volts - WINDING * amps) / CONSTANT * 60 / (2 * np.pi), supply - SOURCE * amps - volts]
        assert shown == pytest.approx(wanted, rel=1e-6, abs=1e-9)


class TestThePattern:
    def test_a_heavy_load_leaves_two_suspects_that_belt_off_parts(self):
        """65 + 42.5 mA of load make 1.5 times 85 mA; 105 and 110 mA are the steps beside it."""
        picture = at(motor_pattern.PATTERN, load=0.11)
        assert "Can't tell yet: mechanical load" in picture.sentence and "motor's own friction" in picture.sentence and picture.sentence.endswith(
            "What would part these two: Take the belt off and read the current again.")

    def test_a_low_supply_is_named_headroom(self):
        assert "the pattern of headroom" in at(motor_pattern.PATTERN, supply=4.8).sentence
        assert "Next: While it plays, read the volts of the cells" in at(motor_pattern.PATTERN, supply=4.8).sentence
        assert "headroom" not in at(motor_pattern.PATTERN, supply=6).sentence

    def test_a_low_setting_leads_and_is_not_named(self):
        assert "Can't tell yet: set point" in at(motor_pattern.PATTERN, setting=95).sentence

    def test_the_healthy_set_stands_at_one(self):
        picture = motor_pattern.PATTERN.at(motor_pattern.PATTERN.start)
        assert [point.y for point in picture.points] == pytest.approx([1] * 4, abs=1e-9) and "2400 r/min" in picture.sentence

    def test_a_motor_that_stands_is_told(self):
        assert "It stands." in at(motor_pattern.PATTERN, supply=3, load=0.2).sentence

    def test_worked_case_by_hand(self):
        """95 % of 3.267 V and 15 ohm times 85 mA are 4.38 V: 5 % slow, with 9 - 0.187 - 4.38 = 4.43 V in hand."""
        picture = at(motor_pattern.PATTERN, setting=95)
        assert picture.sentence.startswith("4.38 V at the motor, 85.0 mA, 2280 r/min, 4.43 V in hand.")

    def test_the_table_says_what_the_reference_says(self):
        rows = {line.split("|")[1].strip(" *"): line.split("|")[2].strip()
                for line in motor_pattern.pattern_table().data.splitlines() if line.startswith("| **")}
        assert rows["headroom"] == "speed slow, motor volts low, volts in hand none" and rows["healthy"] == "nothing"
        assert rows["feedback open"] == "current low, speed fast, motor volts high, volts in hand none"
        assert rows["mechanical load"] == "current high, speed slow" and rows["hunting"] == "motion swinging"
        assert rows["motor's own friction"] == "current high, speed slow, belt off high"


class TestBeltOff:
    def test_twice_the_torque_is_not_twice_the_current(self):
        """20 + 2 x 65 mA are 150 mA, not 170."""
        assert "2.00 times the healthy set's" in at(belt_off.SPLIT, off=0.02, on=0.15).sentence

    def test_our_sentences_pass_our_own_checks(self, monkeypatch):
        """And 140 - 20 over 85 - 20 are 1.846."""
        asked = {}
        monkeypatch.setattr(belt_off, "say_it", lambda key, prompt, **rest: asked.update(rest))
        belt_off.say_who_brakes()
        assert all(met for _, met, _ in look_through(asked["ours"], asked["checks"])) and "1.85 times" in asked["ours"]
        for lacking in ("The motor is worn.", "It takes about 140 mA.", "Read with a meter, no more than 20 mA."):
            assert not all(met for _, met, _ in look_through(lacking, asked["checks"]))
        monkeypatch.undo()
        assert belt_off.say_who_brakes().children

    def test_published_torques_stand_in_the_picture(self):
        """M17: 0.845 and 1.560 mN·m."""
        assert "0.845 mN·m" in at(belt_off.SPLIT, off=0.02, on=0.085).sentence
        assert "1.56 mN·m" in at(belt_off.SPLIT, off=0.02, on=0.14).sentence

    def test_points_at_every_corner_by_hand(self):
        for positions, picture in corners(belt_off.SPLIT):
            values = belt_off.SPLIT.values(positions)
            for point, name in zip(picture.points, ("off", "on")):
                amps = values[name].m_as("mA")
                assert (point.x, point.y) == pytest.approx((amps, 0.013 * amps))

    def test_swapped_readings_are_told(self):
        picture = at(belt_off.SPLIT, off=0.06, on=0.02)
        assert "swapped" in picture.sentence and np.isnan(picture.bands[1].high).all()


class TestTheReadersOwn:
    def test_the_demo_names_its_suspects_and_the_next_test(self):
        words = motor_verdicts.suspects().data
        assert words.index("mechanical load, 96") < words.index("own friction") and "Next test worth its minutes" in words and "by hand" in words

    def test_every_stage_is_told_the_latest_first(self):
        words = motor_verdicts.verdicts().data
        assert 0 <= words.index("platter bearing cleaned") < words.index("as found") and "1.74 times" in words and "6.00 ± 0.10 Ω" in words
        assert "Suspects" not in words and "Suspects, as found" in motor_verdicts.motor_html(my_sheet())  # not told twice on one page

    def test_the_readers_point_stands_in_the_readers_picture(self):
        """9.14 V off load, 33.04 x 72 = 2378.9 turns a minute; the governor's line gives 2378 there."""
        declared = own()
        for _, picture in corners(declared):
            mine = next(point for point in picture.points if point.style == "own")
            assert (mine.x, mine.y) == pytest.approx((9.14, 33.04 * 72)) and picture.sentence.endswith(".")
        here = declared.at(declared.start)
        assert here.points[0].y == pytest.approx(2378.9, abs=5)

    def test_its_goal_can_be_met(self):
        """At 105 mA: 4.09 + 5 x 0.105 V, 0.3 V, and (9.14 - 8.90)/0.104 + 0.5 ohm times 0.105 A: 5.21 V."""
        at_105 = {"current": int(np.argmin(np.abs(np.array(own().sliders[1].steps) - 0.105)))}
        steps = own().sliders[0].steps
        low, high = (own().at({**own().start, **at_105, "supply": place}).sentence for place in
                     (max(place for place, step in enumerate(steps) if step < 5.21), min(place for place, step in enumerate(steps) if step > 5.21)))
        assert "fully open" in low and "the governor holds" in high and "5.21 V" in low

    def test_our_sentences_pass_our_own_checks(self):
        read = motor_verdicts.first_read(my_sheet())
        assert all(met for _, met, _ in look_through(motor_verdicts.say_ours(read), motor_verdicts.say_checks(read)))
        assert motor_verdicts.say_why_slow().children

    def test_the_form_writes_a_run_and_answers(self, desk):
        form = motor_verdicts.motor_form()
        for name, text in (("part", "motor"), ("quantity", "current"), ("value", "165 mA"), ("instrument", "bench supply"), ("stage", "as found"),
                           ("condition", "bench supply, held"), ("run", "held 7")):
            form.boxes[name].value = text
        form.save()
        assert not form.error.value and 'run = "held 7"' in desk.read_text(encoding="utf-8") and "Suspects" in form.answered.value

    def test_nonsense_is_told(self):
        form = motor_verdicts.motor_form()
        for name, text in (("part", "motor"), ("quantity", "speed"), ("value", "-5 turn/min"), ("instrument", "phone"), ("stage", "as found"),
                           ("condition", "playing")):
            form.boxes[name].value = text
        form.save()
        assert "below 0" in form.error.value

    def test_a_sheet_without_a_motor_gets_the_demo(self, desk):
        desk.write_text("version = 1\n", encoding="utf-8")
        assert "invented record player" in motor_verdicts.verdicts().data and motor_verdicts.my_governor() is not None
        assert "too little" in motor_verdicts.motor_html(read_text("version = 1"))

    def test_names_from_the_sheet_stay_text(self, desk):
        text = desk.read_text(encoding="utf-8").replace("governor board", "<b>board")
        desk.write_text(text, encoding="utf-8")
        assert "<b>board" not in motor_verdicts.verdicts().data and "&lt;b&gt;board" in motor_verdicts.verdicts().data

    def test_too_little_for_an_own_picture_is_said(self, desk):
        text = desk.read_text(encoding="utf-8").partition("\n# The bare motor on a bench supply")[0]
        desk.write_text(text, encoding="utf-8")
        assert own() is None and "bench supply" in motor_verdicts.my_governor().data


@pytest.mark.parametrize("make", [motor_pattern.guess_what_first, belt_off.guess_torque, motor_opening.skip_ahead, belt_off.times_the_torque,
                                  belt_off.torque_of_the_rest, belt_off.mixed, motor_verdicts.done_form])
def test_it_can_be_shown(make):
    assert make().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    times = belt_off._times_the_torque(np.random.default_rng(seed))
    off, usual, now = given(times, "mA", "mA", "mA")
    assert times.right((now - off) / (usual - off)) and not times.right(now / usual)
    rest = belt_off._torque_of_the_rest(np.random.default_rng(seed))
    off, on, constant = given(rest, "A", "A", "V*s/rad")
    assert rest.right(constant * (on - off)) and not rest.right(constant * on) and not rest.right(1000 * constant * (on - off))
    line = belt_off._volts_of_line(np.random.default_rng(seed))
    usual, volts, ohms, now = given(line, "A", "V", "ohm", "A")
    assert line.right(volts + ohms * (now - usual))
    share = belt_off._own_share(np.random.default_rng(seed))
    off, on = given(share, "A", "A")
    assert share.right(100 * off / on) or share.right(off / on)
