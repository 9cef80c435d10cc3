"""Every live picture of the series, at every corner of its ranges."""

import itertools
import math
import re

import numpy as np
import pytest

from benchreckoner.lessons.series import live_pictures
from benchreckoner.show.declare import corners


@pytest.mark.parametrize("declared", live_pictures(), ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith((".", "?"))
            assert not re.search(r"\b(nan|inf|None)\b", words)
            assert not re.search(r"(?<!\w)-\d", words), "a minus sign is not a hyphen"
    assert len(shapes) == 1, "axes and marks stay, whatever the sliders say"


@pytest.mark.parametrize("declared", live_pictures(), ids=lambda one: one.key)
def test_it_has_a_goal_and_a_place_on_a_phone(declared):
    assert declared.goal.endswith((".", "?"))
    steps = 1
    for slider in declared.sliders:
        if slider.name in declared.phone_sliders:
            steps *= len(slider.steps)
    assert steps <= 5000, "each step of a page is worked out beforehand, at some milliseconds each"


@pytest.mark.parametrize(("key", "moved", "resting"), [
    ("governor-contacts", {"bridging", "current"}, {"supply": 9}), ("where-regulation-is-lost", {"cell", "rise"}, {"shaft": 0.001}),
    ("plate-side", {"side", "emissivity"}, {"power": 2}), ("plate-spreading", {"conductivity", "thickness"}, {"side": 0.1}),
    ("ten-warm-minutes", {"current", "air"}, {"start": 20}), ("motor-pattern", {"supply", "load"}, {}),
    ("belt-window", {"size", "thickness"}, {"hardness": 60}), ("belt-tighter", {"stretch", "side"}, {"bearing": 0.1, "load": 0.001})])
def test_a_page_keeps_the_sliders_that_its_goal_moves(key, moved, resting):
    """Read from each goal, by hand: what it asks to move is kept, and what it takes as given stands there."""
    declared = next(one for one in live_pictures() if one.key == key)
    assert set(declared.phone_sliders) == moved
    starts = {slider.name: slider.steps[slider.start_position] for slider in declared.sliders}
    assert {name: starts[name] for name in resting} == resting
    asked = declared.phone_goal or declared.goal
    assert not re.search("95 %|which hardness|lower the supply until a line|find the load from which", asked)


@pytest.mark.parametrize("declared", live_pictures(), ids=lambda one: one.key)
def test_steps_between_the_corners_can_be_drawn(declared):
    """A slider that stops anywhere must not end in an error: every step where they are few, else a seeded share of them."""
    ways = [range(len(slider.steps)) for slider in declared.sliders]
    every = math.prod(map(len, ways)) <= 700
    rng = np.random.default_rng(5)
    steps = itertools.product(*ways) if every else (tuple(rng.choice(way) for way in ways) for _ in range(60))
    for step in steps:
        assert declared.at({slider.name: int(at) for slider, at in zip(declared.sliders, step, strict=True)}).sentence
