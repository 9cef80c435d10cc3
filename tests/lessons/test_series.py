"""Every live picture of the series, at every corner of its ranges."""

import re

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
