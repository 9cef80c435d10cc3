"""Lessons on governors: pictures at every corner by another way, goals that can be met, guesses, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, given
from scipy.integrate import solve_ivp

from benchreckoner.lessons import governor, governor_centrifugal, governor_practice, governor_response
from benchreckoner.lessons.governor import SUPPLY, supply_picture
from benchreckoner.lessons.governor_centrifugal import CONTACTS
from benchreckoner.lessons.governor_response import JOLT
from benchreckoner.show.declare import corners
from benchreckoner.show.picture import Point
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PROBLEMS = [getattr(governor_practice, name) for name in (
    "least_volts_problem", "_slow_by", "_most_current", "_bridge", "_cold", "_duty", "_spring", "_band", "_beyond", "_run_up", "_coast")]
WINDING, CONSTANT, SET_VOLTS, DROP = 15.0, 0.0130, 0.0130 * 80 * np.pi, 0.3  # 80 pi rad/s are 2400 r/min
TO_TURNS = 30 / np.pi


def every_corner_and_some(declared, count=60):
    """The corners, and as many steps again by chance, always the same ones."""
    rng = np.random.default_rng(5)
    for positions, picture in corners(declared):
        yield declared.values(positions), picture
    for _ in range(count):
        positions = {slider.name: int(rng.integers(len(slider.steps))) for slider in declared.sliders}
        yield declared.values(positions), declared.at(positions)


@pytest.mark.parametrize("declared", [SUPPLY, JOLT, CONTACTS], ids=lambda declared: declared.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in every_corner_and_some(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)
    assert len(shapes) == 1, "axes, marks and their places stay, whatever the sliders say"


@pytest.mark.parametrize("declared", [SUPPLY, JOLT, CONTACTS], ids=lambda declared: declared.key)
def test_a_phone_can_hold_it(declared):
    assert np.prod([len(slider.steps) for slider in declared.sliders if slider.name in declared.phone_sliders]) <= 5000


def loop(volts, amps, compensation, source):
    """Speed in r/min and volts over the transistor, by the loop's equations solved for each regime; NaN where it stands."""
    motor = [1, -CONSTANT]
    held = np.linalg.solve([motor, [1, 0]], [WINDING * amps, SET_VOLTS + compensation * amps])
    kept = volts - source * amps - held[0]
    if kept >= DROP:
        volts_there, speed = held
    else:
        volts_there, speed = np.linalg.solve([motor, [1, 0]], [WINDING * amps, volts - DROP - source * amps])
        speed = min(speed, held[1])
    return (speed * TO_TURNS if speed >= -1e-9 else np.nan), volts - source * amps - volts_there, kept >= DROP


def test_the_supply_picture_by_solving_the_loop():
    for values, picture in every_corner_and_some(SUPPLY):
        given = [values[name].m_as(unit) for name, unit in (("supply", "V"), ("current", "A"), ("compensation", "ohm"), ("source", "ohm"))]
        speed, kept, held = loop(*given)
        assert picture.points[0].y == pytest.approx(speed, rel=1e-9, nan_ok=True)
        assert ("holds" in picture.sentence) == (held and not np.isnan(speed))
        assert ("stands" in picture.sentence) == np.isnan(speed)
        if held and not np.isnan(speed):
            told = read_quantity(re.search(r"keeps ([\d.]+ m?V)", picture.sentence)[1], "V").quantity.m_as("V")
            assert told == pytest.approx(kept, rel=0.006)
        for volts, drawn in zip(picture.curves[1].x[::9], picture.curves[1].y[::9]):
            assert drawn == pytest.approx(loop(volts, *given[1:])[0], rel=1e-9, abs=1e-5, nan_ok=True)


def test_the_knee_is_marked_where_the_line_bends():
    picture = SUPPLY.at(SUPPLY.start)
    line = picture.curves[1]
    assert picture.limits[0].value == pytest.approx(5.02926, abs=1e-4)  # 3.26726 + 15 x 0.085 + 0.3 + 2.2 x 0.085, by hand
    flat = line.y[line.x >= picture.limits[0].value - 1e-9]
    assert flat == pytest.approx(2400) and line.y[line.x < picture.limits[0].value - 0.01][-1] < 2400
    assert picture.curves[0].y[-1] > picture.y.high, "the faint line climbs on, out of the picture"


def test_the_first_goal_can_be_met():
    """5.03 V at 85 mA and 5.98 V at 140 mA are the knees, by hand."""
    assert "holds 2400 r/min" in at(SUPPLY, supply=5.25).sentence and "fully open" in at(SUPPLY, supply=5.0).sentence
    assert "holds 2400 r/min" in at(SUPPLY, supply=6.0, current=0.14).sentence
    assert "fully open" in at(SUPPLY, supply=5.75, current=0.14).sentence


def test_too_few_volts_are_told():
    assert "the motor stands, for its ohms" in at(SUPPLY, supply=2.0, current=0.14).sentence
    assert "whatever the supply" in at(SUPPLY, supply=15.0, current=0.4, compensation=0).sentence


def test_a_readers_own_set_and_reading():
    """All by arguments; the point's name and the axes stay, wherever the sliders stand."""
    fixed = dict(set_voltage=Q(2.0, "V"), winding=Q(10, "ohm"), constant=Q(0.008, "V*s/rad"), brush=Q(0.1, "V"), drop=Q(0.6, "V"),
                 own=Point("your reading", 6.1, 3900, "own"))
    pictures = [supply_picture(supply=Q(volts, "V"), current=Q(90, "mA"), compensation=Q(8, "ohm"), source=Q(3, "ohm"), **fixed)
                for volts in (3, 6, 12)]
    assert len({picture.y.high for picture in pictures}) == 1 and pictures[0].y.high > 3900
    assert all(picture.points[1].drawn and picture.points[1].name == "your reading" for picture in pictures)
    assert pictures[2].points[0].y == pytest.approx((2.0 - 0.1 - 2 * 0.09) / 0.008 * TO_TURNS)
    assert pictures[0].points[0].y == pytest.approx((3 - 0.6 - 0.1 - 13 * 0.09) / 0.008 * TO_TURNS)


def test_a_reading_beyond_the_axes_widens_them():
    picture = supply_picture(supply=Q(9, "V"), current=Q(85, "mA"), compensation=Q(15, "ohm"), source=Q(2.2, "ohm"),
                             own=Point("your reading", 18.4, 5000, "own"))
    assert picture.x.high == 19 and picture.y.high == 5500 and picture.points[1].drawn


def jolt_by_hand(ohms, celsius, grams):
    """The two equations' matrix, from the reference's motor."""
    winding = WINDING * (234.5 + celsius) / 254.5
    inertia = 1.8e-7 + grams / 1000 * 0.020**2 / 2 / 5.28**2
    return np.array([[(ohms - winding) / 0.010, -CONSTANT / 0.010], [CONSTANT / inertia, -2e-7 / inertia]]), inertia


def test_the_jolt_by_eigenvalues_and_a_numerical_solution():
    for number, (values, picture) in enumerate(every_corner_and_some(JOLT, 30)):
        matrix, inertia = jolt_by_hand(*(values[name].m_as(unit) for name, unit in (
            ("compensation", "ohm"), ("temperature", "degC"), ("flywheel", "g"))))
        roots = np.linalg.eigvals(matrix)
        grows = roots.real.max() > 0
        assert ("hunts" in picture.sentence or "runs away" in picture.sentence) == grows == (not picture.points[0].drawn)
        assert ("runs away" in picture.sentence) == (grows and abs(roots.imag).max() == 0)
        if number % 4 == 0:
            blow = np.array([0, -0.013 * 0.055 / inertia])
            found = solve_ivp(lambda _, state, matrix=matrix, blow=blow: matrix @ state + blow, (0, 0.4), [0, 0],
                              t_eval=np.linspace(0, 0.4, 401), rtol=1e-8, atol=1e-9).y[1]
            expected = 100 * found / (80 * np.pi)
            line = picture.curves[0].y
            shown = np.isfinite(line)
            assert line[shown] == pytest.approx(expected[shown], rel=1e-4, abs=1e-4)
            if not grows:
                assert shown.all() and picture.points[0].y == pytest.approx(
                    100 * np.linalg.solve(matrix, -blow)[1] / (80 * np.pi), abs=1e-4)


def test_a_line_that_hunts_ends_where_it_leaves_the_picture():
    line = at(JOLT, compensation=18).curves[0].y
    last = np.flatnonzero(np.isfinite(line))[-1]
    assert abs(line[last]) > 15 and np.all(np.abs(line[:last]) <= 15) and last < 100


def test_the_second_goal_can_be_met():
    """15 ohm at 20 degC, 13.8 at 0 degC, and 2.02 % of speed: check value M29."""
    assert "comes back" in at(JOLT, compensation=15).sentence and "hunts" in at(JOLT, compensation=15.2).sentence
    assert "hunts" in at(JOLT, compensation=14.0, temperature=0).sentence
    assert "hunts" not in at(JOLT, compensation=13.8, temperature=0).sentence
    assert "sinks by 2.0" in at(JOLT, compensation=13.8).sentence


def test_a_heavier_flywheel_hunts_more_slowly_and_no_less():
    swings = [float(re.search(r"hunts: ([\d.]+) Hz", at(JOLT, compensation=15.2, flywheel=grams).sentence)[1]) for grams in (5, 60, 300)]
    assert swings == sorted(swings, reverse=True)


def test_the_contacts_by_trying_shares():
    """The share whose mean volts turn the motor at 2400 r/min, searched among many."""
    shares = np.linspace(0, 1, 20001)
    for values, picture in every_corner_and_some(CONTACTS):
        volts, amps, bridging = (values[name].m_as(unit) for name, unit in (("supply", "V"), ("current", "A"), ("bridging", "ohm")))
        mean = volts - amps * 1.2 - (1 - shares) * amps * bridging
        speeds = (mean - amps * WINDING) / CONSTANT * TO_TURNS
        if speeds[-1] < 2400:
            assert "too few volts" in picture.sentence and not picture.points[0].drawn
            assert ("stands" in picture.sentence) == (speeds[-1] <= 0)
        elif speeds[0] > 2400:
            assert "too many volts" in picture.sentence and not picture.points[0].drawn
            told = float(re.search(r"about (\d+) r/min", picture.sentence)[1])
            assert told == pytest.approx(speeds[0], rel=0.05)
        else:
            assert picture.points[0].y == pytest.approx(100 * shares[np.argmin(np.abs(speeds - 2400))], abs=0.01)


def test_the_third_goal_can_be_met():
    assert "hold 2400" in at(CONTACTS, bridging=68).sentence and "too many volts" in at(CONTACTS, bridging=47).sentence
    assert "too many volts" in at(CONTACTS, bridging=68, current=0.04).sentence


def test_contact_limits_are_the_ends_of_the_line():
    picture = at(CONTACTS, bridging=100)
    line, (slow, fast) = picture.curves[0], picture.limits
    drawn = line.x[np.isfinite(line.y)]
    assert (drawn[0], drawn[-1]) == pytest.approx((slow.value, fast.value))
    assert slow.value == pytest.approx(4.6443, abs=1e-3) and fast.value == pytest.approx(13.1443, abs=1e-3)  # by hand


@pytest.mark.parametrize("make", [governor.guess_more_volts, governor_response.guess_perfect, governor_centrifugal.guess_contacts])
def test_a_guess_can_be_asked(make):
    assert make().children


def test_our_sentences_pass_our_own_checks_and_are_true():
    """On 9 V at 85 mA, 4.4 V on the motor: the transistor keeps 9 - 0.187 - 4.4, and 4.4 + 0.3 + 0.187 would do."""
    checks = SayChecks(what=("transistor",), quantities=((Q(4.4, "V"), "V"),), known=("meter",))
    assert all(met for _, met, _ in look_through(governor.OURS, checks))
    assert 9 - 0.187 - 4.4 == pytest.approx(4.4, abs=0.05) and 4.4 + 0.3 + 0.187 == pytest.approx(5.0, abs=0.15)
    assert governor.say_trimmer().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(30))
def test_an_exercise_is_fair(make, seed):
    problem = make(np.random.default_rng(seed))
    check_fair(problem)
    for slip in problem.slips:
        assert not problem.right(slip.value.m_as(problem.unit)), f"a mistake that would pass: {slip.hint}"


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    made = {make.__name__: make(np.random.default_rng(seed)) for make in PROBLEMS}
    volts, ohms, source, drop, amps = given(made["least_volts_problem"], "V", "ohm", "ohm", "V", "A")
    assert made["least_volts_problem"].right(volts + ohms * amps + source * amps + drop)
    winding, ohms, before, now, turning = given(made["_slow_by"], "ohm", "ohm", "A", "A", "V")
    assert made["_slow_by"].right(100 * (winding - ohms) * (now - before) / turning)
    supply, drop, volts, ohms, source = given(made["_most_current"], "V", "V", "V", "ohm", "ohm")
    assert made["_most_current"].right((supply - drop - volts) / (ohms + source))
    sense, upper, lower = given(made["_bridge"], "ohm", "ohm", "ohm")
    assert made["_bridge"].right(sense * upper / lower)
    winding, room, coldest = given(made["_cold"], "ohm", "degC", "degC")
    assert made["_cold"].right(winding * (234.5 + coldest) / (234.5 + room))
    high, low, needed = given(made["_duty"], "V", "V", "V")
    assert made["_duty"].right(100 * (needed - low) / (high - low))
    speed, times = given(made["_spring"], "turn/min", "")
    assert made["_spring"].right(speed * np.sqrt(times))
    spring, rubs = (Q(float(text.split()[0]), text.split()[1]).m_as("N") for _, text in made["_band"].given)
    assert made["_band"].right(100 * rubs / spring)
    cells, drop, amps, winding, source = given(made["_beyond"], "V", "V", "A", "ohm", "ohm")
    assert made["_beyond"].right((cells - drop - amps * (winding + source)) / CONSTANT * TO_TURNS)
    speed, final, tau = given(made["_run_up"], "turn/min", "turn/min", "s")
    assert made["_run_up"].right(-tau * np.log(1 - speed / final))
    inertia, speed, friction = (float(text.split()[0]) for _, text in made["_coast"].given)
    assert made["_coast"].right(inertia * 1e-6 * speed / TO_TURNS / (friction / 1000))


@pytest.mark.parametrize("show", [governor_practice.least_volts, governor_practice.slow_by, governor_practice.mixed])
def test_an_exercise_can_be_shown(show):
    assert show(seed=3).children
