"""The signal's parts at the bench: the guess about readings in circuit, one reading told three ways, the form."""

import re

import numpy as np
import pytest

from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons import signal_bench
from benchreckoner.show.exercise import hint
from benchreckoner.units import read_quantity


def test_one_reading_is_told_three_ways():
    """10 kohm with 9.5 to 10.5 kohm across it reads 5 kohm: by itself 9.5 to 10.6 kohm, a little more with the meter's share."""
    unknown, named, lifted = re.findall(r"<li>(.*?)</li>", signal_bench.three_ways().value)
    assert "can't tell yet" in unknown.replace("&#x27;", "'") and "is worth it" in unknown
    assert "sound." in named and "R3 10 kΩ" in named and "would not change that" in named
    low, high = (float(number) for number in re.search(r"across it, ([\d.]+) kΩ to ([\d.]+) kΩ", named).groups())
    assert 9.0 < low < 9.55 and 10.55 < high < 11.2
    assert "sound." in lifted and "in circuit" not in lifted


def test_the_guess_can_be_asked_and_its_numbers_hold():
    """10 kohm beside 10, and 6 beside 30, both read 5 (F23 by hand)."""
    assert signal_bench.guess_in_circuit().children
    assert 10 * 10 / (10 + 10) == 6 * 30 / (6 + 30) == 5


def test_the_form_takes_what_passes_sound_and_answers(desk):
    form = signal_bench.signal_form()
    offered = str(form.boxes["part"].options)
    assert "phono jack" in offered and "volume control" in offered and "spring 3" not in offered
    for name, text in {"part": "volume control", "quantity": "voltage", "value": "60.0 mV", "instrument": "meter",
                       "stage": "jack and control worked", "condition": "playing"}.items():
        form.boxes[name].value = text
    form.save()
    assert not form.error.value and read_sheet(desk).readings[-1].value.quantity.m_as("mV") == 60
    answer = form.answered.value
    assert "✗ volume control, voltage (playing): bad." in answer and "leaky capacitor" in answer and "2 sound readings" in answer


@pytest.mark.parametrize("seed", range(30))
def test_the_exercise_by_a_second_road(seed):
    """By hand in kilohms: the path put back beside the answer gives the reading."""
    problem = signal_bench._taken_off(np.random.default_rng(seed))
    reading, path = (float(text.split()[0]) for _, text in problem.given)
    answer = problem.value / 1e3
    assert answer * path / (answer + path) == pytest.approx(reading, rel=5e-3)
    assert hint(problem, problem.value) == ""
    assert problem.right(read_quantity(problem.steps[-1].value_text, "ohm").quantity.m_as("ohm"))
    for slip in problem.slips:
        wrong = slip.value.m_as("ohm")
        assert problem.right(wrong) or hint(problem, wrong)
