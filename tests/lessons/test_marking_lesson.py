"""The lesson on markings: a line typed from a part, its answers, fair exercises."""

import numpy as np
import pytest
from fair import check_fair

from benchreckoner.bench.part_marking import read_marking
from benchreckoner.lessons import marking_lesson

PROBLEMS = [marking_lesson._bands, marking_lesson._code]


@pytest.fixture
def reader():
    return marking_lesson._Reader()


def test_a_line_gives_value_tolerance_range_and_what_is_sold(reader):
    reader.text.value = "yellow, violet, orange, gold"
    reader.read()
    assert "<strong>47 kΩ, ±5 %</strong>" in reader.answer.value and not reader.error.value
    assert "from 44.65 kΩ to 49.35 kΩ" in reader.answer.value
    assert "series E3" in reader.answer.value


def test_an_old_capacitor_gets_its_voltage_and_the_nearest_to_buy(reader):
    reader.part.value, reader.text.value = "capacitor", "50 MFD -10/+50 % 25 V"
    reader.read()
    answer = reader.answer.value
    assert "for 25 V" in answer and "from 45.00 µF to 75.00 µF" in answer
    assert "the nearest of E6 is 47 µF, 6 % less" in answer


def test_two_readings_are_both_told(reader):
    reader.text.value = "brown black black red brown"
    reader.read()
    assert "2 readings fit" in reader.answer.value
    assert reader.answer.value.index("10 kΩ") < reader.answer.value.index("120 Ω")


def test_nonsense_says_what_it_could_be_and_stays_in_the_box(reader):
    reader.text.value = "4X7"
    reader.read()
    assert "4R7" in reader.error.value and not reader.answer.value and reader.text.value == "4X7"
    reader.text.value = "<b>4K7</b>"
    reader.read()
    assert "<b>" not in reader.error.value


def test_the_answer_follows_the_box_and_the_part(reader):
    reader.text.value = "47K"
    assert "47 kΩ" in reader.answer.value
    reader.part.value = "capacitor"
    assert "47 pF" in reader.answer.value and "47 kΩ" not in reader.answer.value
    reader.text.value = " "
    assert not reader.answer.value and not reader.error.value
    reader.read()
    assert "nothing written yet" in reader.error.value


def test_the_example_follows_the_part(reader):
    first = reader.text.placeholder
    reader.part.value = "capacitor"
    assert reader.text.placeholder != first
    for part in ("resistor", "capacitor"):
        reader.part.value = part
        for example in reader.text.placeholder.removeprefix("such as ").split(", "):
            assert read_marking(example.removeprefix("or "), part)


def test_the_guess_can_be_asked():
    """Its right answer is the one that the reader of markings gives."""
    assert marking_lesson.guess_both_ends().children
    found = [f"{one.value:~P}" for one in read_marking("brown black black red brown", "resistor")]
    assert found == ["10000.0 Ω", "120.0 Ω"]


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_by_what_is_printed(make, seed):
    """What the reader of markings makes of the given line leads to the answer."""
    problem = make(np.random.default_rng(seed))
    part = "resistor" if problem.unit == "ohm" else "capacitor"
    limits = [one.limits for one in read_marking(problem.given[0][1], part) if one.limits]
    assert any(problem.right(pair[1 if part == "resistor" else 0].m_as(problem.unit)) for pair in limits)
