"""Letters on a phone: the picture at every corner, its goal, the reader's own screen, fair exercises, and our own frames."""

import math
import re

import matplotlib
import numpy as np
import pytest
from fair import at, check_fair
from hypothesis import given
from hypothesis import strategies as some
from matplotlib.font_manager import FontProperties, findfont, get_font

from benchreckoner.lessons import film_letters, film_letters_practice, film_letters_yours
from benchreckoner.lessons.series import live_pictures
from benchreckoner.show.declare import corners
from benchreckoner.show.draw import look
from benchreckoner.show.say import look_through
from benchreckoner.tell.framed import SHAPES, layout
from benchreckoner.units import read_quantity

PROBLEMS = [film_letters_practice._lines_needed, film_letters_practice._words_stay, film_letters_practice._other_way, film_letters_practice._wall,
            film_letters_practice._clap]
TEXTS = {"Screen's short side": "65 mm", "Watched from": "35 cm", "Sheet on the wall read from": "5 m", "Clap from the camera": "1 m",
         "Frames a second": "25"}
MINUTES = 60 * 180 / math.pi  # in a radian


def test_every_corner_by_the_small_angle():
    shapes = set()
    for places, picture in corners(film_letters.LETTERS):
        lines, distance, side = (slider.steps[places[slider.name]] for slider in film_letters.LETTERS.sliders)
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        suit, other = picture.points
        assert suit.y == pytest.approx(lines / 720 * side / distance * MINUTES, rel=1e-3) and suit.x == pytest.approx(1e3 * distance)
        assert other.y == pytest.approx(suit.y * 9 / 16, rel=1e-3)
        for point, curve in zip(picture.points, picture.curves, strict=True):
            assert np.interp(point.x, curve.x, curve.y) == pytest.approx(point.y, rel=1e-3)
        for words in (picture.sentence, picture.alt):
            assert f"{suit.y:.0f} minutes of arc" in words and words.endswith(".") and not re.search(r"\b(nan|inf)\b", words)
    assert len(shapes) == 1


def test_the_goal_can_be_met():
    """20 minutes of arc at 350 mm are 2.036 mm: 22.6 lines of 720 on 65 mm, and 40.1 where the long side of 1280 must fit in there."""
    ease = {lines: at(film_letters.LETTERS, lines=lines, distance=0.35, side=0.065).sentence for lines in range(8, 61)}
    suit, other = ([lines for lines, told in ease.items() if "are read with ease" in told.split("held the other way")[part]] for part in (0, 1))
    assert suit[0] == math.ceil(20 / MINUTES * 350 * 720 / 65) == 23 and other[0] == math.ceil(20 / MINUTES * 350 * 1280 / 65) == 41


@pytest.mark.parametrize(("minutes", "words"), [(20, "with ease"), (19.9, "can be read"), (16, "can be read"), (15.9, "effort"), (9.9, "too small")])
def test_words_change_where_the_standard_has_its_edges(minutes, words):
    assert words in film_letters.read_words(minutes)


def test_letters_of_our_own_frames_are_as_high_as_the_book_says():
    """Capitals in our pictures: 22 lines on a wide frame, 19 on an upright one; the height of an H by the font itself."""
    with look(True):
        points = matplotlib.rcParams["font.size"]
    letters = get_font(findfont(FontProperties(family=["DejaVu Sans"])))
    letters.set_size(100, 72)
    letters.set_text("H")
    capital = letters.get_width_height()[1] / 64 / 100
    lines = {shape: capital * points * layout(live_pictures()[0].at(live_pictures()[0].start), shape).dots / 72 for shape in SHAPES}
    assert {shape: math.floor(high) for shape, high in lines.items()} == {"wide": 22, "upright": 19}
    assert min(lines.values()) * 65 / 720 / 350 * MINUTES > 16


def test_my_screen():
    suit, other, wall, clap = film_letters_yours.said_of(TEXTS)
    assert "can be read from 19 of 720 lines on, and with ease from 23 on." in suit
    assert "can be read from 33 of 720 lines on, and with ease from 41 on." in other
    assert "from 29 mm on" in wall  # 5000 mm times 20 / 3437.7
    assert "heard 2.9 ms late, 0.073 of a frame" in clap  # 1 / 343.2 s, by 25
    far, *_ = film_letters_yours.said_of({**TEXTS, "Watched from": "12 m"})
    assert far.endswith("can be read from 619 of 720 lines on; with ease none that fits into the frame.")
    assert "no letter that fits" in film_letters_yours.said_of({**TEXTS, "Watched from": "20 m"})[0]


@pytest.mark.parametrize(("change", "told"), [
    ({"Watched from": "35"}, "Watched from"), ({"Screen's short side": "0 mm"}, "Screen's short side: must lie"), ({"Screen's short side": "<b>"}, "Screen"),
    ({"Clap from the camera": "2 s"}, "Clap"), ({"Frames a second": "25.5"}, "Frames"), ({"Sheet on the wall read from": "9000 km"}, "Sheet"),
    ({"Frames a second": ""}, "Frames")])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        film_letters_yours.said_of({**TEXTS, **change})


def test_the_form_answers_and_brings_back():
    form = film_letters_yours.ScreenForm()
    form.boxes["Watched from"].value = "40 cm"
    form.answer_now()
    assert "with ease from 26 on" in form.said.value and not form.error.value
    again = film_letters_yours.ScreenForm()
    assert again.boxes["Watched from"].value == "40 cm"
    again.boxes["Watched from"].value = "<b>"
    again.answer_now()
    assert "&lt;b&gt;" in again.error.value and not again.said.value


def test_everything_opens_and_ours_pass(monkeypatch):
    for show in (film_letters.guess_other_way, film_letters.guess_clap, film_letters.say_letters, film_letters_yours.my_screen,
                 film_letters_practice.lines_needed, film_letters_practice.words_stay, film_letters_practice.mixed_film):
        assert show().children
    asked = {}
    monkeypatch.setattr(film_letters, "say_it", lambda *words, **more: asked.update(more))
    film_letters.say_letters()
    assert all(met for _, met, _ in look_through(asked["ours"], asked["checks"]))
    assert not all(met for _, met, _ in look_through("It will be fine.", asked["checks"]))
    # the numbers of our sentences: 20 of 720 lines on 65 mm, from 350 mm; 9.98 minutes of arc the other way
    assert 20 / 720 * 65 == pytest.approx(1.8, abs=0.01) and 20 / 720 * 65 / 350 * MINUTES == pytest.approx(17.7, abs=0.05)
    assert at(film_letters.LETTERS, lines=20, distance=0.35, side=0.065).sentence.endswith("and are too small to count on.")


@pytest.mark.parametrize("problem", PROBLEMS)
@given(seed=some.integers(0, 10_000))
def test_exercises_are_fair(problem, seed):
    check_fair(problem(np.random.default_rng(seed)))


def given_numbers(problem, *units):
    return [read_quantity(text, unit).quantity.m_as(unit) if unit else float(re.match(r"[\d.]+", text)[0])
            for (_, text), unit in zip(problem.given, units)]


@pytest.mark.parametrize("seed", range(15))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    lines, stay, other, wall, clap = (problem(np.random.default_rng(seed)) for problem in PROBLEMS)
    side, distance, count, angle, radian = given_numbers(lines, "m", "m", "", "", "")
    assert lines.right(angle / radian * distance / side * count)
    letters, each, ready = given_numbers(stay, "", "", "s")
    assert stay.right(ready + letters / each)
    high, side = given_numbers(other, "", "m")
    assert other.right(high / 1280 * side), "the long side, 1280 lines, lies along the screen's short side"
    distance, angle, radian = given_numbers(wall, "m", "", "")
    assert wall.right(distance * angle / radian)
    away, speed, frames = given_numbers(clap, "m", "", "")
    assert clap.right(away / speed * frames)
