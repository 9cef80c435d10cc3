"""What a picture says at the ends of its sliders: no number with an exponent, and no line told of that is not drawn so."""

import itertools
import random
import re

import pytest

from benchreckoner.bench.tries import percent
from benchreckoner.lessons.series import live_pictures

PICTURES = {picture.key: picture for picture in live_pictures()}
L, H = 0, -1  # low and high end of a slider


def at(key, *ends):
    picture = PICTURES[key]
    return picture.at({slider.name: end % len(slider.steps) for slider, end in zip(picture.sliders, ends, strict=True)})


@pytest.mark.parametrize("key", PICTURES)
def test_no_number_has_an_exponent(key):
    every = list(itertools.product((L, H), repeat=len(PICTURES[key].sliders)))
    for ends in random.Random(key).sample(every, min(4, len(every))):
        state = at(key, *ends)
        assert not re.search(r"\de[+-]\d", f"{state.sentence} {state.alt}"), ends


@pytest.mark.parametrize("key, ends, said", [
    ("two-or-four", (L, H, H), "1000 times what it is"), ("contact-loss", (H, L), "2500 times the load's"), ("crackle-jumper", (L, L), "1670 times a second"),
    ("crackle-jumper", (L, H), "It lets go once a second"), ("watched-test", (H, L), "cured in less than 0.01 % of"),
    ("crackle-evidence", (H, H), "to over 99 %: enough"), ("belt-next-current", (L, L), "Belt a: 29.00 ± 0.20 mA."),
    ("motor-pattern", (H, H, H, H), "The point for current lies above the picture."), ("motor-lines", (L, L, L, L), "with 0 mN·m"),
])
def test_a_sentence_at_an_end(key, ends, said):
    assert said in at(key, *ends).sentence


@pytest.mark.parametrize("key, ends, said, kept_back", [
    ("crackle-evidence", (L, L), "Both lie level", "rises"), ("tin-which-resistor", (H, L), "2.0 V: 100 Ω, just that", "there are two"),
    ("rest-of-lot", (L, L, L), "All are as tall, with 8 %", "tallest"), ("belt-path", (L, H, H, L), "without a belt", "line round both"),
    ("belt-window", (L, L, L), "lies at nought", "rises and falls"), ("belt-next-current", (H, L), "and none after it", "narrower"),
    ("belt-next-current", (H, H), "another one after it", "narrower"), ("copper-and-magnet", (L, L, L), "All three lines lie level", "highest"),
    ("governor-supply", (H, H, L, H), "no line is drawn for that", "bends at a knee"), ("cells-to-the-end", (L, L), "falls from right to left", "bends at a knee"),
    ("cells-to-the-end", (L, H), "No line is drawn", "bends at a knee"), ("cells-to-the-end", (H, L), "level all along", "bends at a knee"),
    ("film-gain", (L, L, L), "so does the recorded one", "sinks back"), ("leaky-stage", (L, L), "rises again beyond", "highest"),
    ("reads-high", (L, L, L), "shows a number at every leak", "leave the picture"), ("reads-high", (H, H, L), "the others below it", "All run level at one"),
    ("plate-side", (L, L, L, L), "hottest for a small plate", "very hot"), ("has-it-changed", (L, L), "a ± of 1 milliohm.", "1 milliohms"),
])
def test_alt_text_at_an_end(key, ends, said, kept_back):
    alt = at(key, *ends).alt
    assert said in alt and kept_back not in alt


@pytest.mark.parametrize("share, said", [(0, "0 %"), (1e-9, "less than 0.01 %"), (2e-4, "0.02 %"), (0.994, "99 %"), (0.9999, "more than 99 %"), (1, "100 %")])
def test_all_and_none_are_told_of_what_is_certain_only(share, said):
    assert percent(share) == said
