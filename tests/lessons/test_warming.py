"""Lessons on warmth: pictures at every corner against sums of their own, goals that can be met, the form, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, check_form, given
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from benchreckoner.lessons import warming, warming_limits, warming_practice, warming_yours
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PICTURES = [warming.TEN_MINUTES, warming.COPPER_AND_MAGNET, warming_limits.REGULATION, warming_limits.HELD]
PROBLEMS = [warming_practice._rise_from_ohms, warming_practice._copper_and_magnet, warming_practice._back_to_stopping,
            warming_practice._more_current, warming_practice._held_current, warming_practice._bearing, warming_practice._rhythm]
GUESSES = [warming.guess_ten_minutes, warming.guess_both, warming_limits.guess_tight, warming_limits.guess_held]
TEXTS = {name: example for _, boxes in warming_yours._ROWS for name, _, example in boxes} | {"Magnet": list(warming_yours.MAGNETS)[0]}
E, OHMS, CONSTANT = 0.013 * 80 * np.pi, 15.0, 0.013  # 2400 turns a minute are 80 pi radians a second


def plain(declared, positions):
    return {slider.name: slider.steps[positions[slider.name]] for slider in declared.sliders}


def turning(amps, winding, magnet, supply, compensation=15.0, wanted=E):
    """Speed in radians a second and the current, written anew."""
    strength = 1 - 0.002 * (magnet - 20)
    amps = amps / strength
    volts = np.minimum(wanted + compensation * amps, supply - 0.3 - 2.2 * amps)
    return (volts - amps * OHMS * (234.5 + winding) / 254.5) / CONSTANT / strength, amps


@pytest.mark.parametrize("declared", PICTURES, ids=lambda declared: declared.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None|degC)\b", words)
            assert not re.search(r"(?<!\w)-\d", words) and "  " not in words
    assert len(shapes) == 1, "axes, marks and their places stay, whatever the sliders say"
    steps = [len(slider.steps) for slider in declared.sliders if slider.name in declared.phone_sliders]
    assert np.prod(steps) <= 5000 and declared.goal


def test_ten_minutes_at_every_corner_against_another_solver():
    minutes = warming._MINUTES
    for positions, picture in corners(warming.TEN_MINUTES):
        here = plain(warming.TEN_MINUTES, positions)

        def flow(_, state):
            heat = (here["current"] / (1 - 0.002 * (state[1] - 20))) ** 2 * OHMS * (234.5 + state[0]) / 254.5
            inwards = (state[0] - state[1]) / 10
            return (heat - inwards) / 1.9, (inwards - (state[1] - here["air"]) / 24) / 46

        winding, magnet = solve_ivp(flow, (0, 3600), [here["start"]] * 2, method="Radau", t_eval=60 * minutes, rtol=1e-8, atol=1e-8).y
        fixed = E + here["current"] * OHMS
        ways = {"this supply": (here["supply"],), "same load, fresh cells": (9.0,), "without a governor": (99.0, 0.0, fixed)}
        curves = {curve.name: curve.y for curve in picture.curves}
        for name, way in ways.items():
            before, _ = turning(here["current"], here["start"], here["start"], *way)
            assert curves[name] == pytest.approx(100 * (turning(here["current"], winding, magnet, *way)[0] / before - 1), abs=0.01)
        amps = turning(here["current"], winding, magnet, here["supply"])[1]
        over = amps > (here["supply"] - 0.3 - E) / 17.2
        assert ("out of regulation from the start" in picture.sentence) == bool(over[0])
        assert ("regulation ends" in picture.sentence) == bool(np.any(over) and not over[0])
        assert ("would hunt" in picture.sentence) == bool(winding[0] < 20 and not over[0])


def test_what_ten_minutes_do_is_what_it_is():
    """Light load speeds up in a warm case, heavy load slows; and by itself a sound motor hardly changes."""
    assert at(warming.TEN_MINUTES, current=0.02, air=45).points[0].y > 1
    assert at(warming.TEN_MINUTES, current=0.14, air=45).points[0].y < -1
    alone = at(warming.TEN_MINUTES)
    assert -0.15 < alone.points[0].y < -0.08 and "keeps them all the way" in alone.sentence
    curve = alone.curves[2].y
    assert curve[-1] > np.min(curve) + 0.04, "it slows first and creeps back: winding in a minute, magnet in twenty"


def test_the_goal_of_ten_minutes_can_be_met():
    change = [at(warming.TEN_MINUTES, air=45, current=amps).points[0].y for amps in (0.09, 0.095, 0.1)]
    assert change[0] > 0.1 and min(abs(one) for one in change) < 0.1 and change[2] < 0
    lost = {volts: at(warming.TEN_MINUTES, current=0.14, air=45, supply=volts) for volts in (5.7, 6.0, 6.3)}
    assert [np.isfinite(picture.limits[0].value) and picture.limits[0].value > 0.1 for picture in lost.values()] == [False, True, False]
    assert "out of regulation from the start" in lost[5.7].sentence and "after 3.6 min" in lost[6.0].sentence
    assert lost[6.0].curves[1].y[-1] > lost[6.0].curves[2].y[-1] + 1, "the same load on fresh cells loses far less"


def test_copper_and_magnet_at_every_corner():
    for positions, picture in corners(warming.COPPER_AND_MAGNET):
        here, amps = plain(warming.COPPER_AND_MAGNET, positions), warming._LOADS
        way = (99.0, here["compensation"], E + (OHMS - here["compensation"]) * 0.085)
        hot = 20 + here["rise"]
        for curve, (winding, magnet) in zip(picture.curves, ((hot, 20), (20, hot), (hot, hot))):
            cold = turning(amps, 20, 20, *way)[0]
            assert curve.y == pytest.approx(100 * (turning(amps, winding, magnet, *way)[0] / cold - 1), abs=1e-6)
        if here["rise"]:
            def both(one):
                return turning(one, hot, hot, *way)[0] - turning(one, 20, 20, *way)[0]

            assert picture.points[1].x == pytest.approx(1e3 * brentq(both, 0.02, 0.16), abs=0.2)
            assert "they cancel at" in picture.sentence
        else:
            assert not picture.points[1].drawn and "nothing is warmer yet" in picture.sentence


def test_the_goal_of_copper_and_magnet_can_be_met_and_shows_that_it_moves():
    picture = at(warming.COPPER_AND_MAGNET, current=0.104)
    assert abs(picture.points[0].y) < 0.05 and "cancel at 104 mA" in picture.sentence
    assert abs(at(warming.COPPER_AND_MAGNET, current=0.104, rise=10).points[1].x - 104) > 3


def test_the_published_drifts_stand_in_the_picture():
    """Check value M20."""
    assert all(number in at(warming.COPPER_AND_MAGNET).sentence for number in ("4.60 % slower", "6.38 % faster", "1.18 % faster"))
    assert "2.19 % slower" in at(warming.COPPER_AND_MAGNET, current=0.14).sentence


def test_regulation_at_every_corner():
    for positions, picture in corners(warming_limits.REGULATION):
        here = plain(warming_limits.REGULATION, positions)
        strength = 1 - 0.002 * here["rise"]
        most = (6 * here["cell"] - 0.3 - E) / 17.2
        assert picture.limits[0].value == pytest.approx(1e3 * most)
        for curve, point, (pull, bending) in zip(picture.curves, picture.points, ((0.43108, 27.558), (0.8248, 27.558), (2.84139, 99.006))):
            torque = curve.x * pull * here["shaft"] + bending * 1e-6
            assert curve.y == pytest.approx(1e3 * (0.079564 + torque / 0.013) / strength)
            end = (0.013 * (strength * most - 0.079564) - bending * 1e-6) / pull / here["shaft"]
            assert point.drawn == (0.02 <= end <= 2) and (not point.drawn or point.x == pytest.approx(end))
            name = curve.name
            told = re.search(rf"{name} uses it up at X = ([\d.]+): ([^.]+)\.", picture.sentence)
            assert float(told[1]) == pytest.approx(end, abs=0.5 if end >= 10 else 0.006)
            assert ("no bearing" in told[2]) == (end > 0.9) and ("even an oiled" in told[2]) == (end <= 0.1)


@pytest.mark.parametrize(("volts", "words"), [
    (1.5, ("X = 7.06: no", "X = 3.69: no", "X = 1.05: no")), (1.2, ("X = 3.91: no", "X = 2.04: no", "X = 0.57: a dry one with the pulley")),
    (1.0, ("X = 1.80: no", "X = 0.94: no", "X = 0.25: a dry bearing")),
    (0.9, ("X = 0.75: a dry one with", "X = 0.39: a dry one with", "X = 0.09: even an oiled")),
])
def test_the_published_limits_stand_in_the_picture(volts, words):
    """Check value M30, all twelve."""
    assert all(one in at(warming_limits.REGULATION, cell=volts).sentence for one in words)


def test_the_goal_of_regulation_can_be_met():
    ends = [at(warming_limits.REGULATION, cell=volts).points[2].x for volts in (1.02, 1.04)]
    assert ends[0] < 0.3 < ends[1]
    assert at(warming_limits.REGULATION, cell=1.04, rise=30).points[2].x == pytest.approx(0.27, abs=0.01)


def test_a_held_motor_at_every_corner():
    for positions, picture in corners(warming_limits.HELD):
        here, rise, kept = plain(warming_limits.HELD, positions), 0.0, 0.0
        first = here["volts"] / (OHMS * (234.5 + here["air"]) / 254.5 + here["source"])
        for _ in range(300):
            ohms = OHMS * (234.5 + here["air"] + rise) / 254.5
            rise = 0.5 * rise + 17 * ohms * (here["volts"] / (ohms + here["source"])) ** 2
        end = here["air"] + rise
        told = re.search(r"ends at (\d+) °C", picture.sentence)
        assert float(told[1]) == pytest.approx(end, abs=0.6)
        assert picture.points[0].drawn == (end <= 250) and (not picture.points[0].drawn or picture.points[0].y == pytest.approx(end, abs=1e-3))
        assert ("run away" in picture.sentence) == (first >= 0.70641)
        if first < 0.6:
            for _ in range(400):
                kept = 34 * first**2 * OHMS * (234.5 + here["air"] + kept) / 254.5
            curve = picture.curves[0]
            place = np.argmin(np.abs(curve.x - here["volts"]))
            assert curve.y[place] == pytest.approx(here["air"] + kept, rel=1e-4)


def test_the_goals_of_the_held_motor_can_be_met():
    assert at(warming_limits.HELD, volts=7.6).points[0].y == pytest.approx(105, abs=0.5)
    assert "read 0.1 % high" in at(warming_limits.HELD, volts=2.3).sentence


def test_the_published_end_stands_in_the_picture():
    """Check value T11: 124.7 degC and 0.3722 A."""
    assert "ends at 125 °C and 372 mA" in at(warming_limits.HELD).sentence


@pytest.mark.parametrize("make", GUESSES)
def test_a_guess_can_be_asked(make):
    assert make().children


def test_numbers_in_the_guesses_are_the_laws_own():
    """A load of 153 mA, (0.3 x 2.84139 N x 1 mm + 99.006 uN·m)/0.013 N·m/A + 79.564 mA, 4.6 %, 1.2 % and 104 mA are told in words."""
    worst = at(warming_limits.REGULATION).curves[2]
    assert np.interp(0.3, worst.x, worst.y) == pytest.approx(152.75, abs=0.4)
    assert 25 + 8.7**2 / (15.295 + 2.2) ** 2 * 15.295 * 34 == pytest.approx(154, abs=0.5), "the first ohms would lead to 154 °C"


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("speed",), known=("reckoned",), quantities=((Q(0.1, "A"), "A"),))
    assert all(met for _, met, _ in look_through(warming.OURS, checks))
    assert warming.say_warm().children


def test_the_form_s_own_examples_make_sense():
    """They are a governed motor with a shell 24 K warmer; nothing is left over, and the torque is the same."""
    first, second, third, fourth = warming_yours.said_of(TEXTS)
    assert "the shell 23.9" in first and "magnet +4.90" in second
    assert "no more than the readings explain" in third and "same torque" in fourth


def test_thinned_grease_is_told():
    """Three quarters of the current at the same warmth: less torque."""
    changed = {"Warm current": "67 mA", "Warm motor volts": "4.27 V", "Warm speed": "2440 r/min"}
    assert "less torque than cold: grease" in warming_yours.said_of({**TEXTS, **changed})[3]


def test_an_unknown_magnet_widens_what_is_left():
    spreads = [float(re.search(r"± ([\d.]+) %", warming_yours.said_of({**TEXTS, "Magnet": kind})[2])[1]) for kind in
               (TEXTS["Magnet"], "not known")]
    assert spreads[1] > 2 * spreads[0]


def test_one_meter_s_percentage_drops_out_of_a_ratio():
    """Five times the limit on the ohms: the rise hardly widens, since both readings are off alike."""
    rises = [warming_yours.said_of({**TEXTS, "Ohms good to": text})[0] for text in ("0.8 %", "4 %")]
    narrow, wide = (float(re.search(r"± ([\d.]+) K", words)[1]) for words in rises)
    assert wide < 1.5 * narrow


@pytest.mark.parametrize(("change", "told"), [
    ({"Temperature": "20"}, "Temperature"), ({"Temperature": "200 °C"}, "no bench is that"), ({"Ohms of the motor": ""}, "Ohms of the motor"),
    ({"Ohms of the motor": "0.1 ohm"}, "no more than the probes"), ({"Ohms, probes together": "-1 ohm"}, "probes together: must be above"),
    ({"Cold speed": "-2400 r/min"}, "Cold speed: must be above zero"), ({"Cold speed": "2400 V"}, "Cold speed"),
    ({"Warm motor volts": "0 V"}, "Warm motor volts: must be above"), ({"Warm motor volts": "1 V"}, "could not turn"),
    ({"Cold current": "85"}, "Cold current"), ({"Seconds after stopping": "90 s"}, "has cooled to the shell"),
    ({"Ohms good to": "x"}, "Ohms good to"), ({"First ohms": "nan ohm"}, "First ohms"),
    ({"First ohms": "14 ohm"}, "First ohms: fewer than the late ones"), ({"Late ohms, one to two minutes after": "19 ohm"}, "only cools"),
])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        warming_yours.said_of({**TEXTS, **change})


def test_the_form_answers_keeps_and_brings_back():
    check_form(warming_yours.ColdAndWarm, TEXTS, "When it stopped", spoilt="Warm speed")
    assert warming_yours.cold_and_warm().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    rng = np.random.default_rng
    rise = warming_practice._rise_from_ohms(rng(seed))
    leads, cold, warm, room = given(rise, "ohm", "ohm", "ohm", "degC")
    assert rise.right(((warm - leads) / (cold - leads) - 1) * (234.5 + room))
    drift = warming_practice._copper_and_magnet(rng(seed))
    speed, ohms, volts, amps = given(drift, "turn/min", "ohm", "V", "A")
    warmer = float(drift.given[4][1].split()[0])
    strength = 1 - 0.002 * warmer
    assert drift.right(speed * (volts - ohms * warmer / 254.5 * amps / strength) / volts / strength)
    back = warming_practice._back_to_stopping(rng(seed))
    first, waited, late = given(back, "ohm", "s", "ohm")
    assert back.right(late + (first - late) * np.exp(waited / 18))
    more = warming_practice._more_current(rng(seed))
    assert more.right(given(more, "A")[0] / (1 - 0.002 * float(more.given[1][1].split()[0])))
    held = warming_practice._held_current(rng(seed))
    ohms, amps, air = given(held, "ohm", "A", "degC")
    heat = amps**2 * ohms * 34
    assert held.right(heat * (1 + (air - 20) / 254.5) / (1 - heat / 254.5))
    bearing = warming_practice._bearing(rng(seed))
    spare = given(bearing, "A")[0]
    pull, radius = (read_quantity(bearing.given[place][1], unit).quantity.m_as(unit) for place, unit in ((2, "N"), (3, "m")))
    bending = 1e-6 * float(bearing.given[4][1].split()[0])
    assert bearing.right((0.013 * spare - bending) / pull / radius)
    rhythm = warming_practice._rhythm(rng(seed))
    end, rest, working, resting, tau = given(rhythm, "degC", "degC", "s", "s", "s")
    turn, up, down = rest, np.exp(-working / tau), np.exp(-resting / tau)
    for _ in range(200):
        turn = end - (end - rest - (turn - rest) * down) * up
    assert rhythm.right(turn)
