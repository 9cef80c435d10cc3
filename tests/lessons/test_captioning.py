"""Lessons on captions: guesses, and exercises by their given numbers."""

import re

import numpy as np
import pytest
from fair import check_fair

from benchreckoner.lessons import captioning
from benchreckoner.tell.caption_book import my_captions

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


@pytest.mark.parametrize("make", [captioning.guess_flash, captioning.guess_heard, captioning.stands_long_enough, captioning.mixed])
def test_it_can_be_asked(make):
    assert make().children


def test_my_captions_are_a_table_of_escaped_lines(desk):
    nasty = "<img src=x>"
    desk.write_text(desk.read_text(encoding="utf-8").replace('"suitcase record player"', f"'{nasty}'").replace('"spring 3"', f"'{nasty} 3'"), encoding="utf-8")
    table = my_captions().data
    assert table.count("<tr>") == 9 and nasty not in table and "00:00:00.000" in table
