"""A wheel's speed where nothing tells the motor's: no limit, but compared before and after, and silent where the motor's is known."""

import pytest

from benchreckoner import project
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.report import text_report
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.tell.script_outline import outline

SHEET = ('version = 1\n[[instrument]]\nname = "phone"\naccuracy = "0.2 %"\n[[part]]\nname = "motor"\nkind = "motor"\n'
         '[[part]]\nname = "capstan"\nkind = "pulley"\n[[action]]\nname = "belt cleaned"\n')


def speed(value, stage, part="capstan", condition="playing"):
    return (f'[[reading]]\npart = "{part}"\nquantity = "speed"\nvalue = "{value}"\ninstrument = "phone"\nstage = "{stage}"\n'
            f'condition = "{condition}"\n')


BOTH = SHEET + speed("431.0 turn/min", "as found") + speed("450.5 turn/min", "belt cleaned")


def test_it_is_told_compared_and_never_judged():
    sheet = read_text(BOTH)
    parts = judge_parts(sheet)
    judged = [one for report in parts for one in report.judgements]
    assert {(one.part, one.verdict.word, one.no_band) for one in judged} == {("capstan", "can't tell yet", True)}
    (change,) = comparisons(parts)
    assert change.real and change.change.plain == pytest.approx(19.5) and "ratio" in judged[0].next
    assert "capstan" in text_report(sheet)


def test_the_script_tells_the_main_cure_and_which_action_it_was():
    said = " ".join(line.say["camera"] for line in outline(read_text(BOTH)))
    assert "the speed of the capstan was about 431 turns a minute" in said and "it was about 450.5 turns a minute" in said
    assert "one thing was done: “belt cleaned”" in said and "Not settled yet: the speed of the capstan" not in said


@pytest.mark.parametrize("more", [speed("2400 turn/min", "as found", part="motor"), ""])
def test_where_the_motor_s_speed_is_known_the_wheel_is_left_to_the_belt(more):
    with_ratio = BOTH if more else BOTH.replace('kind = "pulley"', 'kind = "pulley"\nratio = 5.6')
    found = {(one.part, one.stage) for report in judge_parts(read_text(with_ratio + more)) for one in report.judgements if one.quantity == "speed"}
    assert ("capstan", "as found") not in found and ("motor", "as found") in found


@pytest.mark.parametrize("reading", [speed("4.76 cm/s", "as found"), speed("431 turn/min", "as found", condition="no load")])
def test_a_tape_s_speed_and_a_wheel_s_with_the_belt_off_tell_nothing_here(reading):
    assert not [one for report in judge_parts(read_text(SHEET + reading)) for one in report.judgements if one.part == "capstan"]


@pytest.mark.parametrize("demo", ["record_player", "tape_player"])
def test_the_demos_say_nothing_new(demo):
    judged = [one for report in judge_parts(read_sheet(project.CASES / f"{demo}.toml")) for one in report.judgements]
    assert not [one for one in judged if one.quantity == "speed" and one.kind == "pulley"]
