"""Lessons on one motor: pictures at every corner against plain arithmetic, goals, the form, fair exercises."""

import math
import re

import numpy as np
import pytest
from fair import at, check_fair, check_form, given

from benchreckoner.lessons import motor_constants, motor_constants_practice, motor_constants_yours
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, show

PROBLEMS = [motor_constants_practice.load_torque_problem, motor_constants_practice._constant_from_free_run,
            motor_constants_practice._held_current, motor_constants_practice._ripple]
LIVE = [motor_constants.MOTOR_LINES, motor_constants.SEEN_TURNING]
TYPED = {"Held: volts": "1.50 V", "Held: currents": "101 mA; 97,0 mA; 104 mA; 99 mA; 100 mA; 98 mA",
         "No load: volts": "6.00 V", "No load: current": "20.0 mA", "No load: speed": "4187 r/min",
         "First load: volts": "6.00 V", "First load: current": "85.0 mA", "First load: speed": "3471 r/min",
         "Second load: volts": "6.00 V", "Second load: current": "200 mA", "Second load: speed": "2204 r/min", "segments": ""}
TEXTS = {**motor_constants_yours._USUAL, **TYPED}


@pytest.mark.parametrize("declared", LIVE, ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)
    assert len(shapes) == 1, "axes, marks and their places stay, whatever the sliders say"
    phone = [len(slider.steps) for slider in declared.sliders if slider.name in declared.phone_sliders]
    assert math.prod(phone) <= 5000


def test_every_corner_of_the_lines_by_plain_arithmetic():
    for positions, picture in corners(motor_constants.MOTOR_LINES):
        volts, amps, ohms, constant = (value.m_as(unit) for value, unit in zip(
            motor_constants.MOTOR_LINES.values(positions).values(), ("V", "A", "ohm", "V*s/rad")))
        left = volts - amps * ohms
        expected = (left / constant * 60 / (2 * math.pi) / 100, constant * (amps - 0.02) / 1e-4, 100 * left * (amps - 0.02) / (volts * amps))
        for point, value in zip(picture.points, expected):
            if left < 0 or value > 100:
                assert not point.drawn
            else:
                assert point.y == pytest.approx(value, abs=1e-6)
        assert ("cannot be" in picture.sentence) == (left < 0)
        held = next(limit.value for limit in picture.limits if limit.name == "held")
        assert held == pytest.approx(1000 * volts / ohms)
        speed, torque, share = (curve.y for curve in picture.curves)
        assert speed[-1] == pytest.approx(0, abs=1e-6) and torque[0] == pytest.approx(0, abs=1e-9) and share[[0, -1]] == pytest.approx(0, abs=1e-6)


def test_the_lines_goal_can_be_met():
    """Twice 65 mA and 20 mA more are 150 mA: 1.69 mN·m."""
    assert "0.845 mN·m" in at(motor_constants.MOTOR_LINES).sentence
    assert "1.69 mN·m" in at(motor_constants.MOTOR_LINES, current=0.150).sentence
    assert "3471 r/min" in at(motor_constants.MOTOR_LINES).sentence  # (6 - 1.275) / 0.013 rad/s


def test_points_stand_up_to_the_held_current_and_no_further():
    """6 V by 15 ohm are 400 mA."""
    drawn = [at(motor_constants.MOTOR_LINES, current=amps).points[0].drawn for amps in (0.380, 0.400, 0.405)]
    assert drawn == [True, True, False]
    assert "it turns at 0 r/min" in at(motor_constants.MOTOR_LINES, current=0.400).sentence


def test_the_limit_of_least_waste_stands_where_the_line_tops():
    picture = at(motor_constants.MOTOR_LINES)
    best = next(limit.value for limit in picture.limits if limit.name == "wastes least")
    line = picture.curves[2]
    assert best == pytest.approx(89.443, abs=1e-2) and abs(line.x[np.argmax(line.y)] - best) < 7


def test_every_corner_of_the_marks_by_their_angles():
    """Angle moved in one frame, taken the nearest way round: complex numbers in place of rounding."""
    for positions, picture in corners(motor_constants.SEEN_TURNING):
        speed, rate, marks = motor_constants.SEEN_TURNING.values(positions).values()
        moved = np.exp(2j * np.pi * marks * speed.m_as("turn/s") / rate.m_as("Hz"))
        seen = np.angle(moved) / (2 * np.pi) / marks * rate.m_as("Hz") * 60
        point = picture.points[0].y
        assert point == pytest.approx(seen, abs=1e-6) or abs(point) == pytest.approx(abs(seen), abs=1e-6) and "no way round" in picture.sentence


def test_the_marks_goal_can_be_met():
    assert "seem to stand still" in at(motor_constants.SEEN_TURNING, speed=1800, rate=30, marks=1).sentence.split("They")[0]
    truly = [rate for rate in motor_constants.SEEN_TURNING.sliders[1].steps if "seen truly." in
             at(motor_constants.SEEN_TURNING, speed=2400, rate=rate, marks=1).sentence.split("They")[0]]
    assert truly == [100, 120, 240]
    assert "backwards at 100 r/min" in at(motor_constants.SEEN_TURNING, speed=1700, rate=30, marks=1).sentence
    assert "no way round" in at(motor_constants.SEEN_TURNING, speed=900, rate=30, marks=1).sentence


@pytest.mark.parametrize("make", [motor_constants.guess_more_current, motor_constants.guess_positions, motor_constants.say_torque])
def test_a_question_can_be_asked(make):
    assert make().children


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("torque",), quantities=((Q(140, "mA"), "A"),), known=("meter",))
    assert all(met for _, met, _ in look_through(motor_constants.OURS, checks))
    assert "1.85 times" in motor_constants.OURS


def test_the_form_knows_the_motor():
    said = motor_constants_yours.said_of(TEXTS)
    found = {line.split(":")[0]: float(re.search(r": ([\d.]+) ±", line)[1]) for line in said[:3]}
    assert found["Winding"] == pytest.approx(15, rel=0.01) and found["Motor constant"] == pytest.approx(13, rel=0.01)
    assert found["Current for its own friction"] == 20
    assert said[3].startswith("At 85.0 mA its shaft had 84") and said[4].startswith("At 200 mA its shaft had 2.3")
    assert not any("Worth taking next" in line for line in said)


def test_ripple_may_stand_for_speed():
    """3471 r/min with three segments: six ripples a turn, 347.1 Hz."""
    ripple = {"First load: speed": "347.1 Hz", "segments": "3"}
    assert motor_constants_yours.said_of({**TEXTS, **ripple})[1] == motor_constants_yours.said_of(TEXTS)[1]


def test_a_free_run_alone_says_what_is_worth_taking():
    texts = {**TEXTS, **{name: "" for name in TYPED if not name.startswith("No load")}}
    said = motor_constants_yours.said_of(texts)
    assert said[0] == "Winding: these runs cannot tell." and any("Worth taking next: Hold the shaft at 6" in line for line in said)


def test_a_stalled_motor_on_full_volts_is_told():
    said = motor_constants_yours.said_of({**TEXTS, "Held: volts": "9.00 V", "Held: currents": "600 mA"})
    assert any("takes 5.40 W" in line for line in said)


@pytest.mark.parametrize(("change", "told"), [
    ({"Held: volts": ""}, "Held: write both"), ({"Held: currents": "; ;"}, "Held: write both"),
    ({"Held: currents": "101 mA 97 mA"}, "Held: currents"), ({"Held: volts": "-1.5 V"}, "Held: volts: must be above zero, write it without a sign$"),
    ({"No load: volts": "80 V"}, "No load: volts: these books end at 63 V"),
    ({"No load: speed": "-4000 r/min"}, "No load: speed: must be above zero"), ({"No load: speed": "0 r/min"}, "belongs to \"Held\""),
    ({"No load: speed": "fast"}, "No load: speed"), ({"First load: volts": ""}, "First load: volts: nothing there yet"),
    ({"First load: speed": "347 Hz"}, "Segments: First load: speed is typed as ripple"), ({"First load: speed": "-3 Hz", "segments": "3"}, "above zero"),
    ({"Second load: current": "85 V"}, "Second load: current"), ({"volts good to": "x"}, "Volts good to"),
    ({"volts good to": "0 %"}, "Volts good to: must be above"), ({"speed good to": "80 %"}, "Speed good to: must be"),
    ({name: "" for name in TYPED}, "nothing typed yet"),
])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        motor_constants_yours.said_of({**TEXTS, **change})


def test_the_form_answers_keeps_and_brings_back():
    assert motor_constants_yours.MotorRuns().boxes["volts good to"].value == "1 %"
    check_form(motor_constants_yours.MotorRuns, TEXTS, "Winding: 15", spoilt="No load: volts")


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    torque, free, held, ripple = (make(np.random.default_rng(seed)) for make in PROBLEMS)
    times = motor_constants_practice._times_the_torque(np.random.default_rng(seed))
    amps, idle, constant = given(torque, "A", "A", "V*s/rad")
    assert torque.right(constant * (amps - idle))
    volts, amps, ohms, turns = given(free, "V", "A", "ohm", "turn/min")
    assert free.right((volts - amps * ohms) / (turns * 2 * math.pi / 60))
    assert free.steps[1].value_text == show(Q(volts - amps * ohms, "V"), "V")
    idle, first, second = given(times, "A", "A", "A")
    assert times.right((second - idle) / (first - idle))
    volts, ohms = given(held, "V", "ohm")
    assert held.right(volts / ohms)
    (hertz,), segments = given(ripple, "Hz"), int(ripple.given[1][1])
    assert ripple.right(hertz / (segments * (2 if segments % 2 else 1)) * 60)
