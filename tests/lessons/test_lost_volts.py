"""Lessons on the whole chain: staircases that open, two wires and four at every corner, fair questions."""

import re

import numpy as np
import pytest

from benchreckoner.bench.desk import sheet_path
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons import lost_volts
from benchreckoner.lessons.staircase import staircases
from benchreckoner.show.exercise import hint
from benchreckoner.show.words import magnitude
from benchreckoner.units import read_quantity


def at(**wanted):
    """The picture where each named slider stands at the step of this value, the others at their start."""
    positions = dict(lost_volts.TWO_OR_FOUR.start)
    for slider in lost_volts.TWO_OR_FOUR.sliders:
        if slider.name in wanted:
            positions[slider.name] = int(np.flatnonzero(np.isclose(slider.steps, wanted[slider.name]))[0])
    return lost_volts.TWO_OR_FOUR.at(positions)


def test_published_readings_stand_in_the_picture():
    """Check values K1 (two wires: 0.2200 ohm, ten times too high on top) and K3 (0.300 mohm of thermal volts)."""
    two, four = at(link=0.02, loop=0.2, current=0.1).points
    assert two.y == pytest.approx(0.22) and four.y == pytest.approx(0.0203)
    assert "11 times what it is" in at(link=0.02, loop=0.2, current=0.1).sentence


def test_the_goals_can_be_met():
    """By hand: 0.2 is a tenth of 2 ohm, and 30 uV are 1 % of the drop of 20 mohm at 0.15 A."""
    steps = lost_volts.TWO_OR_FOUR.sliders[0].steps
    least = next(step for step in steps if at(link=step, loop=0.2).points[0].y <= 1.1 * step * (1 + 1e-9))
    assert 2 <= least <= 2.3
    steps = lost_volts.TWO_OR_FOUR.sliders[2].steps
    off = [at(link=0.02, current=step).points[1].y / 0.02 - 1 for step in steps]
    assert steps[int(np.argmin(np.abs(np.array(off) - 0.01)))] == pytest.approx(0.15, rel=0.1)


def test_the_guess_tells_the_demos_own_drops():
    """What the demo reads, motor held: the switch loses more once the spring is clean."""
    read = [reading.value.quantity for reading in read_sheet(sheet_path()).readings
            if (reading.part, reading.quantity, reading.condition) == ("play switch", "voltage drop", "held")]
    assert len(read) == 2 and read[1] > read[0]
    assert f"{read[0].m_as('mV'):.1f} mV" in lost_volts.guess_other_drops().children[1].value


def test_both_staircases_stand_on_one_scale():
    shown = lost_volts.my_staircases().value
    assert shown.count("<img") == 2
    first, last = (picture for _, picture in staircases(judge_sheet(read_sheet(sheet_path()))))
    assert first.y == last.y and len(last.curves) == len(first.curves)


def test_without_readings_it_says_what_to_read(desk):
    text = desk.read_text(encoding="utf-8")
    desk.write_text(text[:text.index("[[reading]]")], encoding="utf-8")
    assert "While the motor runs or is held" in lost_volts.my_staircases().value


def test_one_stage_alone_is_one_staircase(desk):
    text = desk.read_text(encoding="utf-8")
    desk.write_text(re.sub(r'\[\[reading\]\](?:(?!\[\[).)*stage = "(?!as found)(?:(?!\[\[).)*', "", text, flags=re.DOTALL),
                    encoding="utf-8")
    assert lost_volts.my_staircases().value.count("<img") == 1


def test_the_guesses_can_be_asked():
    assert lost_volts.guess_two_wires().children


@pytest.mark.parametrize("seed", range(40))
def test_the_exercise_is_fair(seed):
    problem = lost_volts._turned_round(np.random.default_rng(seed))
    given = {name: read_quantity(text, ("V", "A")).quantity for name, text in problem.given}
    by_hand = (given["one way"] - given["turned round"]).m_as("V") / (2 * given["current"].m_as("A"))
    assert problem.right(by_hand) and hint(problem, problem.value) == ""
    for slip in problem.slips:
        wrong = magnitude(slip.value, problem.unit)
        if not problem.right(wrong):
            assert hint(problem, wrong)
