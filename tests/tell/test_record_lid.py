"""The record's first sheet of paper: whole changes, settings, what was fitted and what was left."""

import re

import pytest
from recorded import DEMO, Page, one_link, reading
from uncertainties import ufloat

from benchreckoner import project
from benchreckoner.bench.compare import Comparison, whole_changes
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.bench.uncertain import Known
from benchreckoner.tell.record import record_html


@pytest.fixture(scope="module")
def demo():
    return Page(record_html(read_sheet(DEMO)))


@pytest.fixture(scope="module")
def tape():
    return Page(record_html(read_sheet(project.CASES / "tape_player.toml")))


def action(name, **lists):
    return f'[[action]]\nname = "{name}"\n' + "".join(f"{key} = {things}\n" for key, things in lists.items())


def setting(place, stage, what="speed trimmer", part="motor"):
    return f'[[setting]]\npart = "{part}"\nwhat = "{what}"\nplace = "{place}"\nstage = "{stage}"\n'


def held(stage, drop, motor):
    return "".join(reading(*row, "held", stage) for row in (
        ("cells", "voltage", "8.00 V"), ("motor", "voltage", motor), ("motor", "current", "1.000 A"), ("spring", "voltage drop", drop)))


def test_what_the_next_repairer_needs(demo):
    """By hand: 821 mV over 993 mA before, 42.6 mV over 1086 mA after."""
    lid = demo.section("On one page")
    assert "Leaked cells" in lid and "slow to start" in lid and "springs cleaned" in lid and "nothing that is bad or doubtful" in lid
    rows = demo.table("By more than the uncertainty")
    assert rows[1] == ["spring 3", "827 ± 13 mΩ", "39.23 ± 0.63 mΩ", "springs cleaned, held"]
    assert lid.index("cell lid") > lid.index("base plate") > lid.index("platter belt")


def test_a_symptom_that_came_later_says_when():
    sheet = read_text('version = 1\n[[action]]\nname = "belt changed"\n' + "".join(
        f'[[symptom]]\nwhat = "{what}"\nstage = "{stage}"\n' for what, stage in (("slow", "as found"), ("hisses", "belt changed"))))
    assert "What it did: slow; hisses (belt changed)." in Page(record_html(sheet)).section("On one page")


def test_a_change_in_two_steps_is_told_as_a_whole(tape):
    """As typed, the motor drew 31.4, then 32.8, then 34.5 mA: two belts, one change."""
    rows = {row[0]: row[1:] for row in tape.table("By more than the uncertainty")}
    assert rows["motor, current"] == ["31.40 ± 0.22 mA", "34.50 ± 0.24 mA", "belt d fitted, playing"]
    assert rows["flywheel, speed lost by the belt"][0].startswith("16.45 ±") and rows["flywheel, speed lost by the belt"][1].startswith("0.65 ±")


def test_steps_are_joined_by_part_quantity_and_condition():
    def step(before, after, values, condition="held"):
        return Comparison("spring", "resistance", condition, before, after, *(Known(ufloat(value, 0.1), "ohm") for value in values))

    whole = whole_changes([step("as found", "first", (9.0, 5.0)), step("first", "third", (5.0, 1.0)),
                           step("as found", "second", (8.0, 7.0), "playing")])
    assert [(one.condition, one.before_stage, one.after_stage, one.change.plain) for one in whole] == [
        ("held", "as found", "third", -8.0), ("playing", "as found", "second", -1.0)]


def test_there_and_back_again_is_no_proof():
    sheet = one_link(more=action("knocked") + action("cleaned") + held("knocked", "400 mV", "7.60 V") + held("cleaned", "40.0 mV", "7.96 V"))
    page = Page(record_html(sheet))
    assert "No reading shows a change beyond its uncertainty" in page.section("On one page")
    groups = page.groups("Each reading beside")
    assert groups["as found and knocked, held"][0][3] == "up by 360 mΩ" and groups["knocked and cleaned, held"][0][3] == "down by 360 mΩ"


def test_a_setting_from_as_found_to_as_left_beside_what_it_makes(demo):
    """4.45 V less what 72 mA take of them by the compensation; 33.32 turns of the platter times 72."""
    rows = {row[0]: row[1:] for row in demo.table("Trimmers and controls")}
    assert rows["governor board, speed trimmer"] == [
        "slot at two o'clock, an eighth of a turn clockwise of the middle",
        "not turned: both halves of the line still meet (platter bearing cleaned)"]
    assert rows["governor board, set voltage"][0].startswith("4.090") and rows["governor board, set voltage"][1].startswith("4.097")
    assert rows["motor, speed"] == ["2378.9 ± 5.5 r/min", "2399.0 ± 5.6 r/min (platter bearing cleaned)"]
    assert not any("speed" in row[0] for row in demo.table("By more than the uncertainty")), "a setting is told once"


def test_settings_of_three_stages_once_and_late():
    more = action("cleaned") + action("trimmer set")
    more += setting("at the middle", "trimmer set") + setting("left stop", "as found") + setting("a bit right", "cleaned", "Speed trimmer")
    more += setting("in the lower slot", "cleaned", "tension screw") + setting("at ten o'clock", "as found", "tone knob")
    page = Page(record_html(one_link(more=more)))
    assert page.table("Trimmers and controls")[1:] == [
        ["motor, speed trimmer", "left stop", "at the middle (trimmer set)"],
        ["motor, tone knob", "at ten o'clock", "not looked at again"],
        ["motor, tension screw", "not written down", "in the lower slot (cleaned)"]]
    assert "a bit right (cleaned)" in page.section("What was done"), "the step between stands below"


def test_what_was_fitted_is_described_and_what_came_out_again_is_not_named(tape, demo):
    lid = tape.section("On one page")
    fitted = lid[lid.index("Parts fitted:"):lid.index("What changed")]
    assert "belt d, belt, section square, thickness 1.2 mm, length 66 mm" in fitted and "(belt d fitted)." in fitted
    assert "belt a" not in fitted
    assert "Came off, the last thing first: bottom lid." in lid
    assert "Parts fitted: none by this sheet." in demo.section("On one page")


def test_a_part_is_named_by_its_worst_verdict_the_worst_part_first(tape):
    """C2 leaks (bad) and reads high (doubtful): nobody may close the lid on a doubtful C2."""
    lid = tape.section("On one page")
    assert "C2 (bad)" in lid and "C2 (doubtful)" not in lid and lid.index("C4 (bad)") < lid.index("belt d (doubtful)")


def test_long_lists_are_cut_and_it_is_said():
    parts = "".join(f'[[part]]\nname = "lamp {number}"\nkind = "lamp"\n' for number in range(12))
    settings = "".join(setting(f"turn {number}", "as found", "screw", f"lamp {number}") for number in range(12))
    lid = Page(record_html(one_link(parts=parts, more=settings))).section("On one page")
    assert "lamp 2" in lid and "turn 11" not in lid and re.search(r"and \d+ more\.", lid) and "And 5 more below, under “Settings”." in lid
    assert "Nothing yet." in lid and "No reading shows a change" in lid


def test_where_nothing_was_judged_nothing_is_called_well():
    text = DEMO.read_text(encoding="utf-8")
    lid = Page(record_html(read_text(text[:text.index("[[reading]]")]))).section("On one page")
    assert "Left as it is: nothing was judged yet." in lid and "platter belt" in lid
