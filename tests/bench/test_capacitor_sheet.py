"""A whole sheet of capacitors: one verdict a part, leakage before capacitance, and the same words wherever they are shown."""

import re

import pytest

from benchreckoner import project
from benchreckoner.bench.capacitor_sheet import judge_capacitors, part_verdicts
from benchreckoner.bench.parts import ROOMS, judge_parts, latest_of
from benchreckoner.bench.report import findings, json_report, text_report
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.bench.shopping import shopping_list

CASE = project.CASES / "tape_player.toml"


@pytest.fixture
def sheet_with(tmp_path):
    """The invented tape player, its text changed."""
    def changed(*pairs):
        text = CASE.read_text(encoding="utf-8")
        for old, new in pairs:
            assert old in text
            text = text.replace(old, new)
        path = tmp_path / "sheet.toml"
        path.write_text(text, encoding="utf-8")
        return read_sheet(path)
    return changed


def test_one_word_a_part_and_why(sheet_with):
    """C2 leaks 330 uA where 4.6 uA are allowed; C4 has lost 61 %; C5 is sound in all three; the others can't be told."""
    found = {one.part.name: one for one in part_verdicts(sheet_with())}
    assert {name: one.word for name, one in found.items()} == {
        "C1": "can't tell yet", "C2": "bad", "C3": "can't tell yet", "C4": "bad", "C5": "sound", "C6": "can't tell yet"}
    assert "over each of" in found["C2"].reasons[0] and "0.01" not in found["C2"].reasons[0]
    assert any("61 % below" in reason for reason in found["C4"].reasons)
    assert "up to 3.30 V" in found["C2"].effects[0]
    assert "109 Hz, where 42.3 Hz" in found["C4"].effects[0]
    assert "Read its leakage" in found["C6"].next and not found["C2"].next
    assert [one.word for one in part_verdicts(sheet_with())][:2] == ["bad", "bad"]


def test_a_good_capacitance_clears_no_part(sheet_with):
    sheet = sheet_with(*((f'value = "{volts} mV"\ninstrument = "meter"', 'value = "5 mV"\ninstrument = "meter"') for volts in (31, 19, 10)))
    assert {one.part.name: one.word for one in part_verdicts(sheet)}["C5"] == "sound"
    text = re.sub(r'\[\[reading\]\]\npart = "C5"\nquantity = "voltage drop"\n(?:.+\n)+', "", CASE.read_text(encoding="utf-8"))
    sheet = sheet_with((CASE.read_text(encoding="utf-8"), text))
    one = next(one for one in part_verdicts(sheet) if one.part.name == "C5")
    assert one.word == "can't tell yet" and "Read its leakage" in one.next


def test_over_its_rated_voltage_nothing_is_judged(sheet_with):
    sheet = sheet_with(('applied = "15.8 V"', 'applied = "25 V"'))
    leak = next(one for one in judge_capacitors(sheet)[0].judgements if one.part == "C5" and one.quantity == "leakage current")
    assert leak.verdict.word == "can't tell yet" and "made for" in leak.reason


def test_the_rooms_stand_side_by_side(sheet_with):
    sheet = sheet_with()
    reports = judge_parts(sheet)
    assert {report.room for report in reports} <= set(ROOMS)
    assert latest_of(reports, "signal") is None and latest_of(reports, "capacitors").stage == "as found"
    rows = json_report(sheet)
    assert [row["verdict"] for row in rows if row["stage"] == "as found" and row["part"].startswith("C")][:3] == ["bad"] * 3
    leak = next(row for row in rows if row["part"] == "C2" and row["quantity"] == "leakage current")
    assert leak["limit"] == "4.6e-06 A"
    assert any("C4, capacitance (lifted): bad" in line for line in findings(sheet))
    assert "as found, capacitors" in text_report(sheet)


def test_what_is_bad_is_what_to_buy(sheet_with):
    bad = [one.part for one in part_verdicts(sheet_with()) if one.word == "bad"]
    lines, left_out = shopping_list(bad)
    assert {one.names for one in lines} == {("C2",), ("C4",)} and not left_out


def test_a_replaced_part_is_compared(sheet_with):
    """An action, then the new part read: the sheet says what changed."""
    text = CASE.read_text(encoding="utf-8") + '''
[[action]]
name = "C4 replaced"
fitted = ["C4"]
[[reading]]
part = "C4"
quantity = "capacitance"
value = "478 uF"
instrument = "capacitance tester"
stage = "C4 replaced"
condition = "lifted"
'''
    sheet = sheet_with((CASE.read_text(encoding="utf-8"), text))
    assert any("C4, capacitance, went from 182" in line and "up by" in line for line in findings(sheet))
    assert next(one for one in part_verdicts(sheet) if one.part.name == "C4").word == "can't tell yet"
