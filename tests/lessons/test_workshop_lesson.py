"""The lesson on a workshop: its picture at every step against a count by hand, its goal, fair exercises, the form."""

import re

import numpy as np
import pytest
from fair import at, check_fair
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.lessons import workshop_lesson
from benchreckoner.show.declare import corners
from benchreckoner.show.say import look_through
from benchreckoner.tell import workshop_book

PROBLEMS = [workshop_lesson._shortest_evening, workshop_lesson._sheets_to_print, workshop_lesson._sets_to_bring]


def by_counting(minutes, station):
    """Stations put in one after the other as long as eight minutes stay for the closing."""
    used, rounds = 10, 0
    while rounds < 4 and used + (2 if rounds else 0) + station + 8 <= minutes:
        used, rounds = used + (2 if rounds else 0) + station, rounds + 1
    return rounds, minutes - used


def test_every_corner_is_what_counting_gives():
    shapes = set()
    for places, picture in corners(workshop_lesson.EVENING):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks)))
        minutes, station = (int(slider.steps[places[slider.name]]) for slider in workshop_lesson.EVENING.sliders)
        rounds, left = by_counting(minutes, station)
        assert picture.points[0].y == rounds
        assert list(picture.curves[0].y) == [by_counting(int(one), station)[0] for one in picture.curves[0].x]
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words)
        assert ("not one station fits" in picture.sentence) == (rounds == 0)
        assert rounds == 0 or f"visits {rounds} of 4 stations, and {left} minutes" in picture.sentence
        assert np.isnan(picture.points[1].x) == (rounds == 4)
        if rounds < 4:
            more = int(picture.points[1].x)
            assert by_counting(more, station)[0] == rounds + 1 and by_counting(more - 1, station)[0] == rounds
    assert len(shapes) == 1


def test_the_goal_can_be_met():
    assert at(workshop_lesson.EVENING, minutes=104, station=20).points[0].y == 4
    assert at(workshop_lesson.EVENING, minutes=103, station=20).points[0].y == 3


def test_the_guess_is_what_the_picture_says():
    assert "visits 3 of 4 stations, and 16 minutes are left" in at(workshop_lesson.EVENING, minutes=90, station=20).sentence


@pytest.mark.parametrize("problem", PROBLEMS)
@given(seed=some.integers(0, 10_000))
def test_exercises_are_fair(problem, seed):
    check_fair(problem(np.random.default_rng(seed)))


@given(seed=some.integers(0, 10_000))
def test_the_answers_by_counting_up(seed):
    short, printed, sets = (problem(np.random.default_rng(seed)) for problem in PROBLEMS)
    rounds, station, change, ends = (int(text) for _, text in short.given)
    assert short.value == ends + sum(station + (change if number else 0) for number in range(rounds))
    tables, people, visited = (int(text) for _, text in printed.given)
    assert printed.value == sum(1 for _ in np.ndindex(tables, people, visited))
    tables, stations = (int(text) for _, text in sets.given)
    assert sets.value == max(sum(1 for table in range(tables) if table % stations == one) for one in range(stations))


def test_everything_opens():
    for show in (workshop_lesson.guess_rounds, workshop_lesson.guess_help, workshop_lesson.say_the_handout, workshop_lesson.shortest_evening,
                 workshop_lesson.sheets_to_print, workshop_lesson.mixed, workshop_book.make_the_pack):
        assert show() is not None


def test_ours_passes_its_own_checks_and_reads_that_handout(monkeypatch):
    asked = {}
    monkeypatch.setattr(workshop_lesson, "say_it", lambda key, prompt, **more: asked.update(more, prompt=prompt))
    workshop_lesson.say_the_handout()
    assert all(met for _, met, _ in look_through(asked["ours"], asked["checks"]))
    assert not all(met for _, met, _ in look_through("It is bad.", asked["checks"]))
    assert "446 mV" in asked["prompt"] and "499 mA" in asked["prompt"]
    assert 446 / 499 == pytest.approx(0.894, abs=0.0005) and 499 / 446 == pytest.approx(1.12, abs=0.005)


def test_the_form_makes_the_pack_beside_the_sheet_and_nowhere_else(desk):
    form = workshop_book._Form()
    for name in ("", "..", "../up", "a/b"):
        form.box.value = name
        form.make()
        assert "one plain name" in form.error.value and not form.answer.value
    form.box.value = "tonight"
    form.make()
    assert "tonight" in form.answer.value and not form.error.value
    assert (desk.parent / "tonight" / "workshop.html").exists()
    (desk.parent / "tonight" / "workshop.toml").write_text("tables = 0", encoding="utf-8")
    form.make()
    assert "line 1" in form.error.value and not form.answer.value
