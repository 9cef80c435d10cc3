"""Exercises: right within the tolerance, a hint for each slip, the same numbers for the same seed."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchreckoner.show import exercise as module
from benchreckoner.show.entry import Entry, entry_questions
from benchreckoner.show.exercise import Problem, Slip, Step, exercise, hint
from benchreckoner.show.guess import Choice, ChoiceGuess
from benchreckoner.units import Q

LABEL, PLAIN = "Your answer, with its unit", "Your answer"
ANYTHING = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None)
STEPS = (Step("First step", "1.11 V"), Step("Second step", "2.22 V"), Step("Third step", "4.00 V"))


def problem(answer=Q(4, "V"), unit="V", tolerance=0.02, slips=()):
    return Problem("How many volts?", (("Current", "0.5 A"),), answer, unit, tolerance, STEPS, slips)


def varied(rng):
    volts = float(rng.integers(2, 90))
    return Problem(f"{volts} V?", (), Q(volts, "V"), "V", 0.02, STEPS)


@pytest.fixture(autouse=True)
def new_sitting():
    module._tries.clear()


def answer(hands, widget, text, label=LABEL):
    hands.write(widget, label, text)
    hands.press(widget, "Check my answer")


@pytest.mark.parametrize("typed", ["4 V", "4,0V", "4000 mV", "3.92 V", "4.08 V", "0,004 kV"])
def test_right_within_the_tolerance_ends_included(hands, typed):
    widget = exercise(lambda rng: problem(), key="k", seed=1)
    answer(hands, widget, typed)
    assert f"✓ {typed}: right." in hands.text(widget)


def test_a_plain_number_is_asked_for_without_a_unit(hands):
    widget = exercise(lambda rng: problem(answer=Q(4, ""), unit=""), key="k", seed=1)
    answer(hands, widget, "4", PLAIN)
    assert "✓ 4: right." in hands.text(widget)


@pytest.mark.parametrize("typed", ["3.919 V", "4.081 V"])
def test_not_right_beyond_the_tolerance(hands, typed):
    widget = exercise(lambda rng: problem(), key="k", seed=1)
    answer(hands, widget, typed)
    assert f"✗ {typed}: not yet." in hands.text(widget) and "close" in hands.text(widget)


@pytest.mark.parametrize("typed, right", [("4.1 V", True), ("3.9 V", True), ("4.11 V", False)])
def test_a_tolerance_may_be_a_quantity(hands, typed, right):
    widget = exercise(lambda rng: problem(tolerance=Q(100, "mV")), key="k", seed=1)
    assert "Right within 100 mV." in hands.text(widget)
    answer(hands, widget, typed)
    assert ("✓" in hands.text(widget)) == right


def test_a_tolerance_of_a_plain_number_is_told_as_one(hands):
    """Not as "400 m", which a reader takes for metres."""
    asked = hands.text(exercise(lambda rng: problem(answer=Q(14, ""), unit="", tolerance=Q(0.4, "")), key="k", seed=1))
    assert "Right within 0.4." in asked


@given(value=st.floats(1e-9, 1e9), sign=st.sampled_from([1, -1]), tolerance=st.floats(1e-3, 0.2),
       part=st.floats(-1, 1))
def test_any_answer_within_the_tolerance_is_right(value, sign, tolerance, part):
    posed = problem(answer=Q(sign * value, "V"), tolerance=tolerance)
    assert hint(posed, sign * value * (1 + part * tolerance)) == ""


@given(value=st.floats(1e-9, 1e9), tolerance=st.floats(1e-3, 0.2), beyond=st.floats(1.01, 100))
def test_no_answer_beyond_the_tolerance_is_right(value, tolerance, beyond):
    posed = problem(answer=Q(value, "V"), tolerance=tolerance)
    assert hint(posed, value * (1 + beyond * tolerance)) and hint(posed, value * (1 - beyond * tolerance))


@pytest.mark.parametrize("typed, words", [
    ("-4 V", "sign is wrong"),
    ("4 mV", "A thousand times too small"), ("4 kV", "A thousand times too large"),
    ("4 uV", "A million times too small"), ("4 MV", "A million times too large"),
    ("8 V", "Twice too large"), ("2 V", "Half of what it should be"),
    ("12 V", "Too high, by a factor of about 3."), ("1 V", "Too low, by a factor of about 4."),
    ("4.2 V", "Too high, but close"), ("-1 V", "Too low."), ("0 V", "Too low."),
    ("7 V", "lower resistance first"),
])
def test_each_slip_has_its_own_hint(hands, typed, words):
    slips = (Slip(Q(7, "V"), "Take the lower resistance first."),)
    widget = exercise(lambda rng: problem(slips=slips), key="k", seed=1)
    answer(hands, widget, typed)
    assert words in hands.text(widget) and "✗" in hands.text(widget)


@pytest.mark.parametrize("unit, right, typed", [("", Q(5, "dimensionless"), "0.2"), ("%", Q(20, "percent"), "500 %")])
def test_a_ratio_upside_down_is_told(hands, unit, right, typed):
    widget = exercise(lambda rng: problem(answer=right, unit=unit), key="k", seed=1)
    answer(hands, widget, typed, LABEL if unit else PLAIN)
    assert "upside down" in hands.text(widget)


def test_zero_can_be_the_answer():
    posed = problem(answer=Q(0, "V"), tolerance=Q(1, "mV"))
    assert hint(posed, 0.0005) == "" and hint(posed, 0.1) == "Too high."


@pytest.mark.parametrize("typed, words", [
    ("4 A", "cannot be turned into V"), ("4", "has no unit"), ("", "nothing written yet"), ("<b>4", "cannot read")])
def test_what_cannot_be_read_is_told_and_is_no_try(hands, typed, words):
    widget = exercise(lambda rng: problem(), key="k", seed=1)
    answer(hands, widget, typed)
    assert words in hands.text(widget) and "no try yet" in hands.text(widget)
    assert hands.find(widget, LABEL).value == typed and "<b>4" not in hands.text(widget)


@ANYTHING
@given(typed=st.text())
def test_any_text_is_answered_and_never_raises(hands, typed):
    widget = exercise(lambda rng: problem(), key="k", seed=1)
    answer(hands, widget, typed)
    assert any(mark in hands.text(widget) for mark in "✓✗")


def asked(hands, widget):
    """The text of the exercise before the fold."""
    return hands.text(widget).split("<details>")[0]


@pytest.mark.parametrize("blanks, shown, hidden", [
    (0, ("First", "Second", "Third"), ()), (1, ("First", "Second"), ("Third",)),
    (2, ("First",), ("Second", "Third")), ("all", (), ("First", "Second", "Third"))])
def test_steps_fade_from_the_last(hands, blanks, shown, hidden):
    text = asked(hands, exercise(lambda rng: problem(), key="k", seed=1, blanks=blanks))
    assert all(word in text for word in shown) and not any(word in text for word in hidden)


def test_the_worked_answer_stands_in_a_closed_fold(hands):
    fold = hands.text(exercise(lambda rng: problem(), key="k", seed=1, blanks="all")).split("<details>")[1]
    assert "<details open" not in fold and all(word in fold for word in ("First", "Second", "Third", "4.00 V"))


def test_the_same_seed_gives_the_same_numbers(hands):
    first, second = (exercise(varied, key="k", seed=5) for _ in range(2))
    assert asked(hands, first) == asked(hands, second)
    texts = {asked(hands, exercise(varied, key="k", seed=seed)) for seed in range(8)}
    assert len(texts) > 4


def test_another_one_is_the_next_seed_and_says_which(hands):
    widget = exercise(varied, key="k", seed=5)
    answer(hands, widget, "1 V")
    hands.press(widget, "Another one")
    assert "seed=6" in hands.text(widget) and hands.find(widget, LABEL).value == "" and "✗" not in hands.text(widget)
    assert hands.text(widget).split("<small>")[0] == hands.text(exercise(varied, key="other", seed=6)).split("<small>")[0]


def test_without_a_seed_the_numbers_can_still_be_had_again(hands):
    widget = exercise(varied, key="k")
    seed = int(hands.text(widget).split("seed=")[1].split()[0])
    assert asked(hands, widget) == asked(hands, exercise(varied, key="k", seed=seed))


def test_tries_are_counted_over_reruns_of_the_cell(hands):
    widget = exercise(lambda rng: problem(), key="k", seed=1)
    answer(hands, widget, "1 V")
    assert "1 try this sitting" in hands.text(widget)
    hands.enter(widget, LABEL)
    assert "2 tries this sitting" in hands.text(widget)
    assert "2 tries" in hands.text(exercise(lambda rng: problem(), key="k", seed=1))
    assert "no try yet" in hands.text(exercise(lambda rng: problem(), key="another", seed=1))


CHOICE = ChoiceGuess("c", "Which?", (Choice("this", "Because.", True), Choice("that", "A usual mix-up.")))
ENTRIES = (Entry(problem(), "Volts lost"), Entry(CHOICE, "Sound & bad"), Entry(problem(), "Volts lost"))


def test_a_plain_number_is_not_asked_for_a_unit(hands):
    times = Problem(question="How many times?", given=(), answer=Q(2, ""), unit="", tolerance=0.01, steps=(), slips=())
    widget = entry_questions((Entry(times, "Volts lost"), Entry(CHOICE, "Sound & bad"), Entry(problem(), "Volts lost")))
    hands.write(widget, "Answer 1", "2")
    hands.write(widget, "Answer 3, with its unit", "1 V")


def entrance(hands, first, choice, third):
    widget = entry_questions(ENTRIES)
    hands.write(widget, "Answer 1, with its unit", first)
    hands.radio(widget).value = choice
    hands.write(widget, "Answer 3, with its unit", third)
    hands.press(widget, "Check my answers")
    return hands.text(widget)


def test_all_right_leads_straight_to_the_bench(hands):
    text = entrance(hands, "4 V", "this", "4,0 V")
    assert '<a href="#Your-bench">Your bench</a>' in text and "Read first" not in text


def test_each_wrong_answer_names_its_part_once(hands):
    text = entrance(hands, "4 mV", "that", "9 V")
    assert text.count('<a href="#Volts-lost">Volts lost</a>') == 1
    assert '<a href="#Sound-&amp;-bad">Sound &amp; bad</a>' in text
    assert "Your bench" not in text and "A usual mix-up." in text and "A thousand times too small" in text


def test_one_wrong_answer_of_three_is_enough_to_read_its_part(hands):
    text = entrance(hands, "4 V", "that", "4 V")
    assert "Your bench" not in text and "Volts lost" not in text and "Sound &amp; bad</a>" in text


def test_no_advice_before_every_question_is_answered(hands):
    text = entrance(hands, "4 V", None, "soon")
    assert "Answer 2: choose one" in text and "Answer 3: cannot read" in text
    assert "href" not in text


def test_infinite_and_huge_answers_are_no_answers(hands):
    widget = exercise(lambda rng: problem(answer=Q(5, "dimensionless"), unit=""), key="k", seed=1)
    for typed in ("nan", "inf", "1e99", "9" * 400):
        answer(hands, widget, typed, PLAIN)
        assert "cannot read" in hands.text(widget)
    assert math.isfinite(problem().margin)
