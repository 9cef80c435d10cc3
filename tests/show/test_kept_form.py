"""A small form: answers, nonsense, and what it brings back."""

import ipywidgets
import pytest

from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import text_box


def said_of(texts):
    if texts["volts"] == "lots":
        raise ValueError('Volts: write for example "6 V"')
    return (f"{texts['volts']} <b>with</b> {texts['kind']}",)


@pytest.fixture
def made(tmp_path):
    def make():
        boxes = {"volts": text_box("Volts"), "kind": ipywidgets.Dropdown(options=[("choose", ""), ("cells", "D")])}
        return KeptForm(boxes, boxes.values(), ask="What?", said_of=said_of, path=lambda: tmp_path / "kept.toml", group="readings", key="k",
                        first={"volts": "9 V"})
    return make


def test_it_proposes_answers_and_brings_back(made):
    form = made()
    assert form.boxes["volts"].value == "9 V"
    form.boxes["volts"].value, form.boxes["kind"].value = " 6 V ", "D"
    form.answer_now()
    assert form.said.value == "<p>6 V &lt;b&gt;with&lt;/b&gt; D</p>" and not form.error.value
    again = made()
    assert (again.boxes["volts"].value, again.boxes["kind"].value) == ("6 V", "D")


def test_nonsense_is_told_and_neither_kept_nor_lost(made):
    form = made()
    form.answer_now()
    form.boxes["volts"].value = "lots"
    form.answer_now()
    assert "Not yet" in form.error.value and not form.said.value and form.boxes["volts"].value == "lots"
    assert made().boxes["volts"].value == "9 V"


def test_a_choice_that_is_no_longer_offered_is_left(made, tmp_path):
    form = made()
    form.boxes["kind"].value = "D"
    form.answer_now()
    kept = tmp_path / "kept.toml"
    kept.write_text(kept.read_text(encoding="utf-8").replace('"D"', '"AA"'), encoding="utf-8")
    assert made().boxes["kind"].value == ""
