"""Lessons on captions: guesses, and exercises by their given numbers."""

import re

import numpy as np
import pytest
from fair import at, check_fair

from benchreckoner.lessons import captioning
from benchreckoner.show.declare import corners
from benchreckoner.show.say import look_through
from benchreckoner.tell.caption_book import my_captions
from benchreckoner.tell.captions import Spoken, cues

PROBLEMS = [captioning._stands, captioning._words_a_minute, captioning._longest_text]


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    problem = make(np.random.default_rng(seed))
    check_fair(problem)
    first, second, *_ = (float(re.match(r"[\d.]+", text)[0]) for _, text in problem.given)
    by_hand = {"_stands": lambda: 0.3 * first - second, "_words_a_minute": lambda: first / second * 60,
               "_longest_text": lambda: min(first + second - 1, first + 1.5)}
    assert problem.right(by_hand[make.__name__]()) and problem.value > 0


@pytest.mark.parametrize("make", [captioning.guess_flash, captioning.guess_heard, captioning.say_aligned, captioning.stands_long_enough, captioning.mixed])
def test_it_can_be_asked(make):
    assert make().children


def test_my_captions_are_a_table_of_escaped_lines(desk):
    nasty = "<img src=x>"
    desk.write_text(desk.read_text(encoding="utf-8").replace('"suitcase record player"', f"'{nasty}'").replace('"spring 3"', f"'{nasty} 3'"), encoding="utf-8")
    table = my_captions().data
    assert table.count("<tr>") == 9 and nasty not in table and "00:00:00.000" in table


def test_every_corner_is_as_the_captions_that_are_made():
    """The same two sentences through what writes the files: words of one syllable, short enough for one caption each."""
    for places, picture in corners(captioning.CAPTION_TIMES):
        words, rate, silence = (slider.steps[places[slider.name]] for slider in captioning.CAPTION_TIMES.sliders)
        voice, text = 60 * words / rate, " ".join(["so"] * int(words))
        first, second = cues((Spoken(text, 0.0, voice), Spoken(text, voice + silence, 2 * voice + silence)), width=80)
        drawn = picture.curves[1].x
        assert drawn[[0, 1, 3, 4]] == pytest.approx([first.start, first.end, second.start, second.end])
        assert np.isnan(drawn[2]) and picture.points[1].x == pytest.approx(second.start)
        assert not re.search(r"\b(nan|inf)\b", picture.sentence + picture.alt)


def test_the_goals_can_be_met():
    """1.5 s by the guideline; 60 s by 0.3 s a word are 200 words a minute, so from the next step, 220."""
    stays = [step for step in np.arange(41) / 10 if "stays until" in at(captioning.CAPTION_TIMES, silence=step).sentence]
    assert max(stays) == 1.5 and stays == sorted(stays) and len(stays) == 16
    late = [rate for rate in range(120, 261, 20) if "second one goes with its voice" not in at(captioning.CAPTION_TIMES, rate=rate, words=12).sentence]
    assert late == [220, 240, 260]


def test_ours_passes_its_own_checks(monkeypatch):
    asked = {}
    monkeypatch.setattr(captioning, "say_it", lambda *words, **more: asked.update(more))
    captioning.say_aligned()
    assert all(met for _, met, _ in look_through(asked["ours"], asked["checks"]))
    assert not all(met for _, met, _ in look_through("It is fine.", asked["checks"])) and "no word was checked" in asked["ours"]
