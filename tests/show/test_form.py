"""The entry form: saves, says what is wrong, keeps what was typed, takes back."""

from html import escape

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchreckoner.show.form import EntryForm, Field
from benchreckoner.units import read_quantity


class Bench:
    """A sheet of paper behind the form."""

    def __init__(self):
        self.rows, self.parts = [], ["cells", "spring <b>3</b>"]

    def save(self, entries):
        read_quantity(entries["value"], "V", "value")
        self.rows.append(entries)
        if entries["part"] not in self.parts:
            self.parts.append(entries["part"])
        return f"Saved {escape(entries['part'])}."

    def undo(self):
        if not self.rows:
            raise ValueError("there is nothing to take back")
        return f"Took back {escape(self.rows.pop()['value'])}."

    def answer(self):
        return f"<p>{len(self.rows)} readings</p>" + "".join(escape(row["part"]) for row in self.rows)

    def form(self, kind="choice"):
        return EntryForm(
            (Field("part", "Part", kind, lambda: tuple(self.parts), "choose a part", True),
             Field("value", "Value, with unit", placeholder="such as 184 mV", required=True),
             Field("instrument", "Instrument", "choice", ("meter", "bench supply"))),
            value="value", on_save=self.save, on_undo=self.undo, answer=self.answer)


@pytest.fixture
def bench():
    return Bench()


def fill(hands, form, part, value):
    hands.write(form, "Part", part)
    hands.write(form, "Value, with unit", value)


def test_a_save_hands_over_what_was_typed_and_clears_the_value_only(hands, bench):
    form = bench.form()
    fill(hands, form, "cells", " 4,83 V ")
    hands.write(form, "Instrument", "bench supply")
    hands.press(form, "Save")
    assert bench.rows == [{"part": "cells", "value": "4,83 V", "instrument": "bench supply"}]
    assert form.boxes["value"].value == ""
    assert (form.boxes["part"].value, form.boxes["instrument"].value) == ("cells", "bench supply")
    assert "✓ Saved cells." in hands.text(form) and "1 readings" in hands.text(form)


def test_enter_in_the_value_saves(hands, bench):
    form = bench.form()
    fill(hands, form, "cells", "1 V")
    hands.enter(form, "Value, with unit")
    assert len(bench.rows) == 1


def test_a_bouncing_enter_saves_once_and_a_quick_second_value_is_heard(hands, bench, monkeypatch):
    from benchreckoner.show import words
    monkeypatch.setattr(words, "_DOUBLE_CLICK", 60)
    form = bench.form()
    for value, rows in (("eleven", 0), ("1 V", 1), ("", 1), ("2 V", 2), ("", 2)):
        fill(hands, form, "cells", value)
        hands.enter(form, "Value, with unit")
        assert len(bench.rows) == rows
    assert "✓ Saved" in hands.text(form)


@pytest.mark.parametrize("part, value, told", [
    ("cells", "184", "value: '184' has no unit"), ("cells", "1 A", "cannot be turned into V"),
    ("cells", "", 'Value, with unit: nothing there yet, write for example "184 mV"'),
    ("", "1 V", "Part: nothing there yet, choose one")])
def test_an_error_is_told_and_the_entries_stay(hands, bench, part, value, told):
    form = bench.form()
    fill(hands, form, part, value)
    hands.press(form, "Save")
    assert escape(told) in hands.text(form) and bench.rows == []
    assert (form.boxes["part"].value, form.boxes["value"].value) == (part, value)
    assert "0 readings" in hands.text(form)


def test_the_error_goes_when_mended(hands, bench):
    form = bench.form()
    fill(hands, form, "cells", "184")
    hands.press(form, "Save")
    hands.write(form, "Value, with unit", "184 mV")
    hands.press(form, "Save")
    assert "✗" not in hands.text(form) and "✓ Saved" in hands.text(form)


def test_a_full_disk_is_told_and_the_entries_stay(hands, bench):
    def full(entries):
        raise OSError("No space left on device")
    bench.save = full
    form = bench.form()
    fill(hands, form, "cells", "1 V")
    hands.press(form, "Save")
    assert "No space left" in hands.text(form) and form.boxes["value"].value == "1 V"


def test_take_back_undoes_and_judges_anew(hands, bench):
    form = bench.form()
    fill(hands, form, "cells", "1 V")
    hands.press(form, "Save")
    hands.press(form, "Take back")
    assert bench.rows == [] and "Took back 1 V." in hands.text(form) and "0 readings" in hands.text(form)
    hands.press(form, "Take back")
    assert "nothing to take back" in hands.text(form)


def test_markup_in_names_and_values_stays_text(hands, bench):
    form = bench.form()
    fill(hands, form, "spring <b>3</b>", "<img src=x>")
    hands.press(form, "Save")
    assert "<img" not in hands.text(form)
    hands.write(form, "Value, with unit", "1 V")
    hands.press(form, "Save")
    assert "<b>3" not in hands.text(form) and "spring &lt;b&gt;3" in hands.text(form)


def test_new_options_appear_and_the_choice_stays(hands, bench):
    form = bench.form()
    fill(hands, form, "cells", "1 V")
    bench.parts.append("switch")
    hands.press(form, "Save")
    assert ("switch", "switch") in form.boxes["part"].options and form.boxes["part"].value == "cells"
    bench.parts.remove("cells")
    hands.press(form, "Take back")
    assert form.boxes["part"].value == ""


def test_a_combo_takes_a_new_name_and_offers_it_next(hands, bench):
    form = bench.form(kind="combo")
    fill(hands, form, "lead 2", "1 V")
    hands.press(form, "Save")
    assert bench.rows[0]["part"] == "lead 2" and "lead 2" in form.boxes["part"].options
    assert form.boxes["part"].value == "lead 2"


def test_every_box_has_its_label(hands, bench):
    assert hands.labels(bench.form()) == ["Part", "Value, with unit", "Instrument", "Save", "Take back"]


def test_a_judgement_that_fails_is_told(hands, bench):
    def broken():
        raise ValueError("line 3: the sheet cannot be read")
    bench.answer = broken
    assert "line 3" in hands.text(bench.form())


def test_an_unknown_kind_is_refused():
    with pytest.raises(ValueError, match='part: the kind .* write "choice"'):
        Field("part", "Part", "menu")


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None)
@given(part=st.text(), value=st.text())
def test_any_text_is_saved_or_stays_in_its_box(hands, part, value):
    bench = Bench()
    form = bench.form(kind="combo")
    fill(hands, form, part, value)
    hands.press(form, "Save")
    if bench.rows:
        assert bench.rows[0]["part"] == part.strip()
    else:
        assert (form.boxes["part"].value, form.boxes["value"].value) == (part, value)
        assert "✗ Not yet" in hands.text(form)
