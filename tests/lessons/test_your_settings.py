"""The form for trimmers and controls: what it writes is on the sheet, can be taken back, and is text wherever it is shown."""

import pytest

from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.your_settings import settings_form


def fill(form, **entries):
    for name, text in entries.items():
        form.boxes[name].value = text
    form.save()


@pytest.fixture
def form():
    return settings_form()


def said(form):
    return form.error.value, form.said.value, form.answered.value


def test_what_is_typed_stands_on_the_sheet_and_is_told_with_its_way_back(form, desk):
    before = desk.read_text(encoding="utf-8")
    fill(form, part="volume control", what="preset <b>", place="half a turn & a bit", stage="springs cleaned", photo="preset.jpg")
    (one,) = [one for one in read_sheet(desk).settings if one.part == "volume control"]
    assert (one.what, one.place, one.stage, one.photo) == ("preset <b>", "half a turn & a bit", "springs cleaned", "preset.jpg")
    _, told, answer = said(form)
    assert "preset &lt;b&gt;" in told and "half a turn &amp; a bit (springs cleaned)" in answer and "<b>" not in told + answer
    assert "(as found); then not turned" in answer, "the demo's trimmer keeps its first place first"
    assert form.boxes["place"].value == ""
    form.undo()
    assert desk.read_text(encoding="utf-8") == before and "Taken back: preset &lt;b&gt;" in form.said.value


def test_a_place_that_is_told_already_is_refused_and_stays_in_its_box(form, desk):
    before = desk.read_text(encoding="utf-8")
    fill(form, part="governor board", what="speed trimmer", place="elsewhere", stage="as found")
    assert form.error.value and form.boxes["place"].value == "elsewhere"
    assert desk.read_text(encoding="utf-8") == before


def test_an_empty_sheet_has_no_way_back_yet(desk):
    desk.write_text("version = 1\n", encoding="utf-8")
    assert "No setting is written down yet" in settings_form().answered.value
