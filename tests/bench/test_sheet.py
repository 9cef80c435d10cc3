"""The bench sheet as plain data, and what its reader forgives and refuses."""

import re
from importlib import resources
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner.bench.places import find_places, line_of, say_path
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.bench.vocabulary import (
    CONDITIONS, FEED_KINDS, KINDS, NEVER_NEGATIVE, QUANTITIES, QUANTITY_DETAILS, TABLES,
)
from benchreckoner.units import Q, read_quantity

SAMPLE = Path(__file__).with_name("sample_sheet.toml")
TEXT = SAMPLE.read_text(encoding="utf-8")
START = """version = 1
[[instrument]]
name = "meter"
accuracy = "1 % + 2 digits"
[[part]]
name = "spring"
kind = "supply contact"
"""


def reading(**keys):
    """A sheet with one reading, some of its keys in other words."""
    usual = {"part": '"spring"', "quantity": '"voltage drop"', "value": '"5 mV"', "instrument": '"meter"',
             "stage": '"as found"', "condition": '"playing"'}
    lines = [f"{key} = {value}" for key, value in (usual | keys).items() if value is not None]
    return START + "[[reading]]\n" + "\n".join(lines) + "\n"


class TestSample:
    sheet = read_sheet(SAMPLE)

    def test_everything_is_there(self):
        sheet = self.sheet
        assert (sheet.source, sheet.machine.name) == ("sample_sheet.toml", "Picnic player")
        assert sheet.machine.supply == Q(6, "V")
        assert list(sheet.instruments) == ["meter", "stopwatch"]
        assert list(sheet.parts) == ["cells", "end spring", "red lead", "slide switch", "motor", "lamp feed", "lamp"]
        assert sheet.stages == ("as found", "end spring cleaned")
        assert [one.text for one in sheet.readings] == ["6,28 V", "171 mV", "12.4mV", "142 mA"]
        assert (sheet.symptoms[0].what, sheet.observations[0].photo) == ("slow", "end_spring.jpg")

    def test_details_are_of_the_right_kind(self):
        parts = self.sheet.parts
        assert parts["cells"].details == {"chemistry": "alkaline", "size": "C", "count": 4}
        assert parts["red lead"].details["length"].m_as("cm") == pytest.approx(38)
        assert parts["red lead"].details["gauge"] == "AWG 26"
        assert parts["lamp feed"].details == {"after_branch": True}
        assert parts["lamp feed"].current_from == "lamp"
        assert parts["motor"].current_from is None

    def test_readings_keep_what_was_typed(self):
        reading = self.sheet.readings[1]
        assert reading.value.quantity == Q(171, "mV")
        assert reading.value.half_digit.m_as("mV") == pytest.approx(0.5)
        assert (reading.range, reading.after) == (Q(200, "mV"), Q(2, "min"))
        assert self.sheet.readings[0].after is None

    def test_action_keeps_times_and_what_came_off(self):
        action, = self.sheet.actions
        assert (action.planned, action.took, action.taken_off) == (Q(20, "min"), Q(35, "min"), ("lid", "belt"))
        assert action.fitted == ("end spring",)

    def test_readings_know_their_lines(self):
        lines = TEXT.splitlines()
        for reading in self.sheet.readings:
            assert lines[reading.line - 1] == "[[reading]]"
            assert f'value = "{reading.text}"' in lines[reading.line:reading.line + 4]

    def test_reading_leaves_the_file_alone(self):
        before = SAMPLE.read_bytes()
        read_sheet(SAMPLE)
        assert SAMPLE.read_bytes() == before


class TestForgiving:
    @pytest.mark.parametrize("text", [
        "version = 1", "version = 1\n[machine]\n", "version = 1\nreading = []\npart = []\n",
        "# a remark\nversion = 1 # another\n", "version = 1\r\n[machine]\r\nname = \"A\"\r\n", START,
    ])
    def test_a_sheet_with_nothing_read_yet(self, text):
        assert read_text(text).readings == ()

    def test_windows_line_ends_and_byte_order_mark(self, tmp_path):
        path = tmp_path / "sheet.toml"
        path.write_bytes(b"\xef\xbb\xbf" + TEXT.replace("\n", "\r\n").encode("utf-8"))
        sheet = read_sheet(path)
        usual = read_text(TEXT, source="sheet.toml")
        assert sheet.readings == usual.readings
        assert sheet.parts == usual.parts

    def test_repeats_are_welcome(self):
        text = reading()
        assert len(read_text(text + text[text.index("[[reading]]"):]).readings) == 2

    @pytest.mark.parametrize("kind", ["Supply Contact", " supply   contact "])
    def test_capitals_and_spaces_in_our_own_words(self, kind):
        assert read_text(START.replace("supply contact", kind)).parts["spring"].kind == "supply contact"

    def test_spaces_in_names(self):
        assert read_text(reading(part='" spring "')).readings[0].part == "spring"

    def test_lists_written_in_one_line(self):
        text = START + 'symptom = [{ what = "slow", stage = "as found" },\n { what = "hum", stage = "as fond" }]'
        text = text.replace("version = 1\n", "").replace("symptom", "version = 1\nsymptom")
        moved = text[text.index("version"):] + "\n" + text[:text.index("version")]
        with pytest.raises(SheetError, match="did you mean 'as found'") as fault:
            read_text(moved)
        assert (fault.value.line, fault.value.entry) == (3, "symptom 2, stage")

    @pytest.mark.parametrize("value", ["5mV", "0,005 V", "5000 µV", "5000 uV", " 5 mV ", "-5 mV"])
    def test_values_as_people_type_them(self, value):
        assert abs(read_text(reading(value=f'"{value}"')).readings[0].value.quantity.m_as("mV")) == pytest.approx(5)

    @pytest.mark.parametrize("speed", ["33.3 turn/min", "33,3 rpm", "4.76 cm/s"])
    def test_speeds(self, speed):
        assert read_text(reading(quantity='"speed"', value=f'"{speed}"')).readings[0].text == speed

    @settings(deadline=None)
    @given(st.text(st.characters(exclude_categories=["Cs", "Cc"])))
    def test_any_note_is_kept(self, note):
        quoted = '"' + note.replace("\\", "\\\\").replace('"', '\\"') + '"'
        assert read_text(reading(note=quoted)).readings[0].note == note


def fault_of(text):
    with pytest.raises(SheetError) as fault:
        read_text(text, source="player.toml")
    return fault.value


class TestRefusing:
    @pytest.mark.parametrize(("keys", "entry", "says"), [
        ({"value": '"5"'}, "value", '"5 V"'),
        ({"value": "5"}, "value", 'value = "184 mV"'),
        ({"value": "true"}, "value", 'value = "184 mV"'),
        ({"value": "nan"}, "value", 'value = "184 mV"'),
        ({"value": "1979-05-27"}, "value", 'value = "184 mV"'),
        ({"value": '"nan V"'}, "value", '"1 V"'),
        ({"value": '"1e400 V"'}, "value", '"1 V"'),
        ({"value": '"0e999 V"'}, "value", '"1 V"'),
        ({"value": '"5 mA"'}, "value", '"5 mV"'),
        ({"value": '""'}, "value", '"1 V"'),
        ({"value": None}, "value", "is missing"),
        ({"quantity": None}, "quantity", "is missing"),
        ({"instrument": None}, "instrument", "is missing"),
        ({"quantity": '"voltage drip"'}, "quantity", "did you mean 'voltage drop'"),
        ({"condition": '"plaing"'}, "condition", "did you mean 'playing'"),
        ({"condition": '"bench"'}, "condition", 'pressed, "bench supply, held", "bench supply, no load", "bench supply, loaded"'),
        ({"part": '"sprung"'}, "part", "did you mean 'spring'"),
        ({"part": '"lid"'}, "part", "spring"),
        ({"instrument": '"metre"'}, "instrument", "did you mean 'meter'"),
        ({"stage": '"as fund"'}, "stage", "did you mean 'as found'"),
        ({"after": '"2 V"'}, "after", '"2 min"'),
        ({"after": '"-2 min"'}, "after", "below 0 min"),
        ({"range": '"200 mA"'}, "range", '"200 mV"'),
        ({"range": '"0 V"'}, "range", "above 0 V"),
        ({"range": '"2 mV"'}, "instrument", "beyond the range"),
        ({"note": "3"}, "note", "quotation marks"),
        ({"vlaue": '"5 mV"'}, "vlaue", "did you mean 'value'"),
        ({"quantity": '"resistance"', "value": '"-1 ohm"'}, "value", "below 0 ohm"),
        ({"quantity": '"capacitance"', "value": '"-1 uF"'}, "value", "below 0 F"),
        ({"quantity": '"resistance"', "value": f'"{"9" * 150}k7"'}, "value", "too large"),
        ({"quantity": '"temperature"', "value": '"-300 degC"'}, "value", "below -273.15 degC"),
        ({"quantity": '"level"', "value": '"5000 dB"'}, "value", "too large"),
        ({"quantity": '"mass"', "value": '"5 u"'}, "value", "too small"),
        ({"quantity": '"speed"', "value": '"0.55 Hz"'}, "value", '"5 turn/min"'),
        ({"quantity": '"level"', "value": '"-5 turn"'}, "value", '"5 dB"'),
        ({"quantity": '"level"', "value": '"5 rad"'}, "value", '"5 dB"'),
        ({"condition": '"playing\\u001b[2J"'}, "condition", "control character"),
        ({"condition": f'"{"x" * 300}"'}, "condition", "200 characters"),
    ])
    def test_a_faulty_reading(self, keys, entry, says):
        fault = fault_of(reading(**keys))
        assert fault.entry == f"reading 1, {entry}"
        assert says in str(fault)
        written = reading(**keys).splitlines()
        assert written[fault.line - 1].startswith(f"{entry} =" if keys.get(entry, "") is not None else "[[reading]]")

    def test_what_an_error_says(self):
        assert str(fault_of(reading(value='"184"'))) == (
            "player.toml, line 11, reading 1, value: '184' has no unit, write for example \"184 V\"")

    @pytest.mark.parametrize(("more", "entry", "says"), [
        ('[[part]]\nname = "spring"\nkind = "lead"', "part 2, name", "are named"),
        ('[[part]]\nname = " spring"\nkind = "lead"', "part 2, name", "are named"),
        ('[[instrument]]\nname = "meter"\naccuracy = "1 %"', "instrument 2, name", "are named"),
        ('[[action]]\nname = "a"\n[[action]]\nname = "a"', "action 2, name", "are named"),
        ('[[action]]\nname = "As found"', "action 1, name", "before any action"),
        ('[[action]]\nname = "a"\ntook = "-3 min"', "action 1, took", "below 0 min"),
        ('[[action]]\nname = "a"\ntaken_off = "lid"', "action 1, taken_off", '["lid", "belt"]'),
        ('[[action]]\nname = "a"\ntaken_off = [1]', "action 1, taken_off", '["lid", "belt"]'),
        ('[[action]]\nname = "a"\nfitted = ["sprin"]', "action 1, fitted", "spring"),
        ('[[part]]\nname = "a"\nkind = "sping"', "part 2, kind", "one of: cells, adapter"),
        ('[[part]]\nname = ""\nkind = "lead"', "part 2, name", "is empty"),
        ('[[part]]\nname = "a"\nkind = "lead"\nlength = 3', "part 2, length", 'length = "35 cm"'),
        ('[[part]]\nname = "a"\nkind = "lead"\nlength = "3 V"', "part 2, length", '"3 m"'),
        ('[[part]]\nname = "a"\nkind = "lead"\nlength = "0 m"', "part 2, length", "above 0 m"),
        ('[[part]]\nname = "a"\nkind = "lead"\ngauge = 24', "part 2, gauge", 'gauge = "AWG 24"'),
        ('[[part]]\nname = "a"\nkind = "capacitor"\ncapacitance = "-1 uF"', "part 2, capacitance", "above 0 F"),
        ('[[part]]\nname = "a"\nkind = "cells"\ncount = 0', "part 2, count", "count = 6"),
        ('[[part]]\nname = "a"\nkind = "cells"\ncount = true', "part 2, count", "count = 6"),
        ('[[part]]\nname = "a"\nkind = "cells"\ncount = "6"', "part 2, count", "without quotation marks"),
        ('[[part]]\nname = "a"\nkind = "lead"\nafter_branch = "yes"', "part 2, after_branch", "after_branch = true"),
        ('[[part]]\nname = "a"\nkind = "lead"\ncurrent_from = "b"', "part 2, current_from", "no part is named 'b'"),
        ('[[part]]\nname = "a"\nkind = "lead"\ncurrent_from = "a"', "part 2, current_from", "no part is named 'a'"),
        ('[[part]]\nname = "a"\nkind = "motor"\n[[part]]\nname = "b"\nkind = "motor"', "part 3, kind", "once"),
        ('[[part]]\nname = "a"\nkind = "lead"\n[part.x]\ny = 1', "part 2, x", "unknown key"),
        ('[[instrument]]\nname = "a"', "instrument 2, accuracy", '"0.8 % + 3 mV"'),
        ('[[instrument]]\nname = "a"\naccuracy = 0.8', "instrument 2, accuracy", '"0.8 % + 3 mV"'),
        ('[[instrument]]\nname = "a"\naccuracy = [{ quantity = "voltage" }]', "instrument 2, accuracy 1, limit",
         "is missing"),
        ('[[instrument]]\nname = "a"\n[[instrument.accuracy]]\nquantity = "voltage"\nlimit = "1 A"',
         "instrument 2, accuracy 1, limit", '"1 V"'),
        ('[[symptom]]\nwhat = "slow"', "symptom 1, stage", "is missing"),
        ('[[symptom]]\nwhat = "slow"\nstage = "later"', "symptom 1, stage", "as found"),
        ('[[observation]]\npart = "nut"\nwhat = "rust"\nstage = "as found"', "observation 1, part", "spring"),
        ('[machine]\nsupply = "230 V"', "machine, supply", "above 63 V"),
        ('[machine]\nsupply = "-9 V"', "machine, supply", "above 0 V"),
        ('[machine]\nname = ""', "machine, name", "is empty"),
        ('[[machine]]\nname = "a"', "machine", "[machine] with single brackets"),
        ('[reading]\npart = "spring"', "reading", "[[reading]]"),
        ('[[redding]]\npart = "spring"', "redding", "did you mean 'reading'"),
        ('[[part.x]]\ny = 1', "part 1, x", "unknown key"),
        ('[[symptom]]\nwhat = "slow"\nwhat = "hum"\nstage = "as found"', "symptom 1, what", "twice"),
        ('[[symptom]]\nwhat = slow', "symptom 1, what", "quotation marks"),
        ('[[symptom]]\nwhat = "slow', "symptom 1, what", "quotation mark is missing"),
        ('[[symptom]]\nwhat = """slow\nand so on', "symptom 1, what", "quotation mark"),
        ('[[symptom]\nwhat = "slow"', "symptom 1", "cannot be read"),
        ('[[symptom]]\nwhat "slow"', "symptom 1", "cannot be read"),
        ("x = " + "[" * 5000, "part 1, x", "cannot be read"),
        ("x = " + "9" * 5000, "part 1, x", "cannot be read"),
    ])
    def test_a_faulty_table(self, more, entry, says):
        fault = fault_of(START + more)
        assert fault.entry.startswith(entry)
        assert says in str(fault)
        assert "rite" in str(fault) or "for example" in str(fault)
        assert 8 <= fault.line <= 8 + more.count("\n")

    @pytest.mark.parametrize(("text", "says"), [
        ("", "is missing"), ("[machine]\n", "is missing"), ('version = "1"', "whole number"),
        ("version = true", "whole number"), ("version = 0", "whole number"), ("version = 1.0", "whole number"),
        ("version = 2", "newer Bench Reckoner"), ('version = 7\n[[gadget]]\nname = "x"', "newer Bench Reckoner"),
        ("\n# soon\nversion = 2", "newer Bench Reckoner"),
    ])
    def test_version(self, text, says):
        fault = fault_of(text)
        assert says in str(fault)
        assert "version = 1" in str(fault)
        assert fault.entry == "version"
        assert fault.line == (3 if "soon" in text else 1)

    def test_a_newer_sheet_is_left_as_it_is(self, tmp_path):
        path = tmp_path / "newer.toml"
        text = TEXT.replace("version = 1", "version = 2")
        path.write_text(text, encoding="utf-8")
        with pytest.raises(SheetError, match="newer Bench Reckoner"):
            read_sheet(path)
        assert path.read_text(encoding="utf-8") == text

    def test_files_that_are_no_sheets(self, tmp_path):
        latin, big, wide = (tmp_path / f"{name}.toml" for name in ("latin", "big", "wide"))
        latin.write_bytes("version = 1\n# µ\n".encode("latin-1"))
        big.write_bytes(b"#" * 5_000_001)
        wide.write_bytes("version = 1".encode("utf-16"))
        for path, line, says in ((tmp_path, 1, "folder"), (tmp_path / "none.toml", 1, "no such file"),
                                 (latin, 2, "UTF-8"), (wide, 1, "UTF-8"), (big, 1, "5 MB")):
            with pytest.raises(SheetError, match=says) as fault:
                read_sheet(path)
            assert (fault.value.source, fault.value.line, fault.value.entry) == (path.name, line, "file")
            assert str(tmp_path.parent) not in str(fault.value)

    def test_half_a_character(self):
        assert "half a character" in str(fault_of('version = 1\nnote = "\ud800"'))

    def test_a_reading_that_no_instrument_promises(self):
        text = reading().replace("1 % + 2 digits", "1 % + 3 mA")
        fault = fault_of(text)
        assert fault.entry == "reading 1, instrument"
        assert "write one entry a range" in str(fault)


class TestPlaces:
    def test_signs_inside_strings_and_comments_do_not_count(self):
        text = "\n".join([
            'a = "[[part]] # \\" = "', "b = '[[part]] \"'", 'c = """', "[[part]]", 'name = "x" ""', '"""""',
            "d = '''", "[[part]]", "'''", '# [[part]] "', 'l = """a"""" # "[', "e = [ # ]", "  [1, 2], # [[part]]", "]",
            '[[ "part" ]] # one', 'name = "x"', "[[part]]", "'na.me' = 1", 'f.g = 2', "[part.h.'i j']", "k = 1",
        ])
        places = find_places(text)
        assert {path: line for path, line in places.items() if path[:1] == ("part",)} == {
            ("part", 0): 15, ("part", 0, "name"): 16, ("part", 1): 17, ("part", 1, "na.me"): 18,
            ("part", 1, "f", "g"): 19, ("part", 1, "h", "i j"): 20, ("part", 1, "h", "i j", "k"): 21}
        assert line_of(places, ("part", 1, "missing")) == 17

    def test_tables_written_in_lists(self):
        places = find_places("a = [\n  { b = [{ c = 1 }] },\n  # none\n  { b = 2 },\n]\nd = 1")
        assert places == {(): 1, ("a",): 1, ("a", 0): 2, ("a", 1): 4, ("d",): 6}

    @settings(deadline=None)
    @given(st.text('ab"\'[]{}=#,\n\r\\ .'))
    def test_faulty_text_is_no_error(self, text):
        assert find_places(text)[()] == 1

    def test_names_for_people(self):
        assert say_path(("reading", 2, "value")) == "reading 3, value"
        assert say_path(()) == "top of the sheet"


class TestWords:
    def test_feed_kinds_are_kinds(self):
        assert set(FEED_KINDS) < set(KINDS)

    def test_every_quantity_has_units_that_are_read(self):
        for units in QUANTITIES.values():
            for unit in (units,) if isinstance(units, str) else units:
                assert read_quantity(f"1 {unit}", unit).quantity.magnitude == 1
        assert set(NEVER_NEGATIVE) < set(QUANTITIES)

    def test_every_example_can_be_typed(self):
        text = "version = 1\n"
        for table, keys in TABLES.items():
            text += f"[{table}]\n" if table == "machine" else f"[[{table}]]\n"
            text += "".join(f"{key} = {value}\n" for key, value in keys.items())
            if table == "part":
                text += "".join(f"{key} = {example}\n" for key, (_, example) in QUANTITY_DETAILS.items())
        text += '[[part]]\nname = "motor"\nkind = "motor"\n'
        assert read_text(text).readings[0].condition in CONDITIONS


class TestTemplate:
    text = resources.files("benchreckoner.bench").joinpath("empty_sheet.toml").read_text(encoding="utf-8")

    def test_it_is_an_empty_sheet(self):
        sheet = read_text(self.text)
        assert (sheet.parts, sheet.readings) == ({}, ())

    def test_its_examples_can_be_used(self):
        used = re.sub(r"(?m)^# (?=\[\[|\w+ = |    \{|\])", "", self.text)
        sheet = read_text(used)
        assert (len(sheet.parts), len(sheet.readings), len(sheet.observations)) == (8, 2, 1)
        assert sheet.readings[1].applied.m_as("V") == 10 and sheet.readings[1].series_resistor.m_as("kohm") == 10
        assert [(one.name, one.resistance.m_as("kohm"), one.tolerance) for one in sheet.parts["tone control"].details["across"]] \
            == [("R7", 100, 0.05), ("R8", 47, 0.1)]
        assert sheet.instruments["meter"].leads.quantity.m_as("ohm") == 0.2 and not sheet.instruments["meter"].four_wire
        assert sheet.stages == ("as found", "springs cleaned")
