"""Where trimmers and controls stand, as the sheet tells it: what is forgiven, what is refused."""

import re
from importlib import resources

import pytest

from benchreckoner import project
from benchreckoner.bench.changes import add_entry, take_back
from benchreckoner.bench.report import json_report, text_report
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text

START = """version = 1
[[part]]
name = "governor board"
kind = "governor"
[[action]]
name = "trimmer set"
"""
USUAL = {"part": "governor board", "what": "speed trimmer", "place": "a quarter turn clockwise of the left stop", "stage": "as found"}


def setting(**keys):
    """One entry, some of its keys in other words."""
    return "[[setting]]\n" + "".join(f'{key} = "{words}"\n' for key, words in (USUAL | keys).items() if words is not None)


def test_a_setting_as_typed():
    one, = read_text(START + setting(photo="trimmer.jpg", note="sealed with paint")).settings
    assert (one.part, one.what, one.place, one.stage) == tuple(USUAL.values())
    assert (one.photo, one.note) == ("trimmer.jpg", "sealed with paint")
    assert read_text(START).settings == ()


def test_spaces_are_forgiven():
    one, = read_text(START + setting(part=" governor  board", what=" speed   trimmer ")).settings
    assert (one.part, one.what) == ("governor board", "speed trimmer")


def test_one_thing_before_and_after_and_two_things_at_once():
    text = START + setting() + setting(stage="trimmer set", place="at the middle") + setting(what="gain trimmer")
    assert [(one.what, one.stage) for one in read_text(text).settings] == [
        ("speed trimmer", "as found"), ("speed trimmer", "trimmer set"), ("gain trimmer", "as found")]


@pytest.mark.parametrize(("keys", "entry", "says"), [
    ({"part": "governer board"}, "part", "did you mean 'governor board'"),
    ({"part": "lid"}, "part", "no part is named 'lid'"),
    ({"part": None}, "part", 'is missing, write for example part = "motor"'),
    ({"what": None}, "what", 'is missing, write for example what = "speed trimmer"'),
    ({"what": " "}, "what", "is empty"),
    ({"place": None}, "place", 'write for example place = "a quarter turn clockwise of the left stop"'),
    ({"place": "x" * 201}, "place", "longer than 200 characters"),
    ({"stage": "trimmer turned"}, "stage", "one of: as found, trimmer set"),
    ({"stage": None}, "stage", "is missing"),
    ({"value": "3 V"}, "value", "unknown key 'value'"),
])
def test_what_is_refused_names_line_and_entry(keys, entry, says):
    text = START + setting(**keys)
    with pytest.raises(SheetError) as fault:
        read_text(text)
    assert fault.value.entry == f"setting 1, {entry}" and says in str(fault.value)
    written = text.splitlines()[fault.value.line - 1]
    assert written.startswith(f"{entry} =" if keys[entry] is not None else "[[setting]]")


def test_two_places_at_one_stage_contradict_each_other():
    text = START + setting() + setting(what="Speed trimmer", place="at the right stop")
    with pytest.raises(SheetError, match="has a place 'as found' already.*for example stage") as fault:
        read_text(text)
    assert fault.value.entry == "setting 2, place"
    assert text.splitlines()[fault.value.line - 1] == 'place = "at the right stop"'


def test_single_brackets_are_explained():
    with pytest.raises(SheetError, match=r"\[\[setting\]\] with double brackets"):
        read_text(START + setting().replace("[[setting]]", "[setting]"))


def test_it_can_be_added_and_taken_back(tmp_path):
    path = tmp_path / "sheet.toml"
    path.write_text(START, encoding="utf-8")
    change = add_entry(path, table="setting", entry=USUAL)
    assert change.sheet.settings[0].place == USUAL["place"]
    assert take_back(change).settings == () and path.read_text(encoding="utf-8") == START


def test_the_empty_sheet_shows_how():
    text = resources.files("benchreckoner.bench").joinpath("empty_sheet.toml").read_text(encoding="utf-8")
    one, = read_text(re.sub(r"(?m)^# (?=\[\[|\w+ = |    \{|\])", "", text)).settings
    assert one.part == "tone control" and "left stop" in one.place


@pytest.mark.parametrize("case", ["record_player", "tape_player"])
def test_a_setting_judges_nothing(case):
    """The demo sheets read the same without it, sentence by sentence."""
    text = (project.CASES / f"{case}.toml").read_text(encoding="utf-8")
    without = re.sub(r"(?m)^\[\[setting\]\]\n(\w+ = .*\n)+", "", text)
    with_it, bare = read_sheet(project.CASES / f"{case}.toml"), read_text(without)
    assert with_it.settings and not bare.settings
    assert text_report(with_it) == text_report(bare) and json_report(with_it) == json_report(bare)
