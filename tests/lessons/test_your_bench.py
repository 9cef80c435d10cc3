"""The reader's own sheet, else a demo's: what a room finds, and that it is said whose it is."""

import pytest

from benchreckoner import project
from benchreckoner.bench.sheet import SheetError
from benchreckoner.lessons.your_bench import own_or_demo

DEMO = project.CASES / "tape_player.toml"


class Asked:
    """A room that finds the machine's kind, or too little; and how often it was asked, of which machine."""

    def __init__(self, enough):
        self.enough, self.kinds = enough, []

    def __call__(self, sheet):
        self.kinds.append(sheet.machine.kind)
        return sheet.machine.kind if sheet.machine.kind in self.enough else None


def test_the_readers_own_sheet_is_asked_once_and_alone():
    asked = Asked(("record player", "tape player"))
    assert own_or_demo(asked, demo=DEMO, lacks="says nothing") == ("record player", "")
    assert asked.kinds == ["record player"]


def test_where_it_says_too_little_the_demo_is_asked_and_that_is_said():
    asked = Asked(("tape player",))
    found, words = own_or_demo(asked, demo=DEMO, lacks="says <nothing>")
    assert found == "tape player" and asked.kinds == ["record player", "tape player"]
    assert words == "<p>Your sheet says &lt;nothing&gt;, so here is the invented tape player's.</p>"


def test_what_is_missing_is_said():
    def find(sheet):
        if sheet.machine.kind == "record player":
            raise ValueError("belt <a>: has no length")
        return "found"

    found, words = own_or_demo(find, demo=DEMO, lacks="says too little")
    assert found == "found" and words.endswith("On yours: Belt &lt;a&gt;: has no length.</p>")


def test_a_sheet_that_cannot_be_read_is_no_reason_for_the_demo(desk):
    desk.write_text("version = 1\nmachine = 3\n", encoding="utf-8")
    with pytest.raises(SheetError):
        own_or_demo(lambda sheet: None, demo=DEMO, lacks="says too little")
