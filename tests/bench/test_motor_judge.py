"""Judgements of motor and governor: the demo's against its known truth, belt off against belt on, and what is told of bad input."""

import math

import pytest

from benchreckoner import project
from benchreckoner.bench.chain import feed_parts
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.governor_judge import governor_line
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.limits import Band
from benchreckoner.bench.motor_judge import judge_motors, torque_split
from benchreckoner.bench.motor_limits import judge_within, motor_band
from benchreckoner.bench.motor_sheet import motor_sheet
from benchreckoner.bench.parts import ROOMS, judge_parts
from benchreckoner.bench.report import findings, json_report, text_report
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.bench.uncertain import within
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.units import Q

DEMO = project.CASES / "record_player.toml"
# The truth that the demo's readings were made from.
WINDING, CONSTANT, IDLE, COMPENSATION, SET_VOLTAGE = 6.0, 0.0160, 0.020, 5.0, 4.0912

HEAD = '''version = 1
[[instrument]]
name = "meter"
accuracy = "0.5 %"
[[part]]
name = "motor"
kind = "motor"
rated_current = "70 mA"
rated_speed = "2400 turn/min"
[[part]]
name = "board"
kind = "governor"
style = "electronic"
'''


def reading(part, quantity, value, condition="playing", **more):
    keys = {"part": part, "quantity": quantity, "value": value, "instrument": "meter", "stage": "as found", "condition": condition, **more}
    return "[[reading]]\n" + "".join(f'{key} = "{text}"\n' for key, text in keys.items())


RUNS = "".join(reading("motor", quantity, value, f"bench supply, {kind}", run=run) for run, kind, volts, amps, speed in (
    ("held 1", "held", "1.000 V", "167 mA", ""), ("held 2", "held", "1.002 V", "166 mA", ""), ("held 3", "held", "0.999 V", "166.5 mA", ""),
    ("held 4", "held", "1.000 V", "167 mA", ""), ("free", "no load", "4.400 V", "20.0 mA", "2554 turn/min"),
    ("rim", "loaded", "4.400 V", "205.0 mA", "1892 turn/min"))
    for quantity, value in (("voltage", volts), ("current", amps), ("speed", speed)) if value)


def judged(text, stage="as found"):
    report = next(one for one in judge_motors(read_text(HEAD + text)) if one.stage == stage)
    return {(one.quantity, one.condition): one for one in (*report.judgements, *report.findings)}


@pytest.fixture(scope="module")
def demo():
    return read_sheet(DEMO)


@pytest.fixture(scope="module")
def found(demo):
    return {(report.stage, one.quantity, one.condition): one for report in judge_motors(demo) for one in report.judgements}


class TestTheDemo:
    @pytest.mark.parametrize(("quantity", "truth"), [("winding resistance", WINDING), ("motor constant", CONSTANT), ("no-load current", IDLE)])
    def test_constants_hold_their_truth(self, found, quantity, truth):
        one = found["as found", quantity, "bench supply"]
        spread = one.known.expanded.magnitude
        assert one.verdict.word == SOUND and abs(one.known.plain - truth) < spread < 0.1 * truth

    @pytest.mark.parametrize(("quantity", "truth"), [("compensation", COMPENSATION), ("set voltage", SET_VOLTAGE)])
    @pytest.mark.parametrize("stage", ["as found", "platter bearing cleaned"])
    def test_the_governor_holds_its_truth(self, found, quantity, truth, stage):
        one = found[stage, quantity, "playing"]
        assert one.verdict.word == SOUND and abs(one.known.plain - truth) < one.known.expanded.magnitude < 0.12 * truth

    def test_it_drags_when_cold_and_less_when_warm(self, found):
        cold, warm = (found["as found", "current", when] for when in ("playing", "playing, after 30 min"))
        assert (cold.verdict.word, warm.verdict.word) == (BAD, DOUBTFUL) and "1.49 times its own usual" in cold.reason
        slow = found["as found", "speed", "playing"]
        assert slow.verdict.word == DOUBTFUL and "0.88 ± 0.23 % slow" in slow.reason
        assert found["as found", "speed", "playing, after 30 min"].verdict.word == UNTOLD

    def test_belt_off_against_belt_on_by_hand(self, demo, found):
        """0.016 N·m/A times 104 - 24 mA is 1.28 mN·m; the usual 70 mA leave 46 mA, 1.74 times less. The motor keeps 0.384 mN·m."""
        one = found["as found", "torque of belt and bearings", "playing"]
        assert one.verdict.word == BAD and one.known.plain == pytest.approx(1.28e-3, rel=0.01) and "1.74 times" in one.reason
        own, driven, _ = torque_split(motor_sheet(demo), "as found")
        assert own.plain == pytest.approx(0.384e-3, rel=0.01) and driven.plain == one.known.plain

    def test_droop_by_hand(self, found):
        """(6 - 5) ohm times 80 mA over 4.021 V is 1.99 %."""
        assert "the speed falls by 2.0 ± " in found["as found", "compensation", "playing"].reason

    def test_headroom_by_hand(self, found):
        """8.90 - 4.61 - 0.5 ohm times 104 mA is 4.238 V."""
        one = found["as found", "headroom", "playing"]
        assert one.verdict.word == SOUND and one.known.plain == pytest.approx(4.238) and "may fall by 3.7 V" in one.reason

    def test_before_and_after_the_bearing(self, demo):
        changes = {(one.quantity, one.condition): one for one in comparisons(judge_motors(demo))}
        assert changes["current", "playing"].real and changes["torque of belt and bearings", "playing"].real and changes["speed", "playing"].real
        assert not changes["current", "no load"].real and not changes["set voltage", "playing"].real

    def test_the_suspects_stand_with_the_judgements(self, found):
        one = found["as found", "pattern", "playing"]
        assert one.verdict.word == DOUBTFUL and "mechanical load" in one.reason and "by hand, one after another" in one.next and one.band is None

    def test_the_feed_chain_is_not_disturbed(self, demo):
        chains = {(report.stage, chain.chain.condition) for report in judge_sheet(demo) for chain in report.chains}
        assert chains == {("as found", "held"), ("as found", "playing"), ("springs cleaned", "held")}
        without = DEMO.read_text(encoding="utf-8").partition("\n# The motor at work")[0]
        rows = [[row for row in json_report(one) if row["part"] not in ("motor", "governor board") and row["quantity"] != "cells left"]
                for one in (demo, read_text(without))]
        assert [row for row in rows[0] if row["stage"] in ("as found", "springs cleaned") and row["condition"] == "held"] == [
            row for row in rows[1] if row["stage"] in ("as found", "springs cleaned") and row["condition"] == "held"]

    def test_a_governor_with_a_style_is_no_link(self, demo):
        text = DEMO.read_text(encoding="utf-8")
        assert "governor board" not in [link.name for link in feed_parts(demo)[2]]
        assert "governor board" in [link.name for link in feed_parts(read_text(text.replace('style = "electronic"\n', "")))[2]]

    def test_every_way_out_tells_it(self, demo):
        assert "motor" in ROOMS and "motor" in {report.room for report in judge_parts(demo)}
        row = next(row for row in json_report(demo) if row["quantity"] == "motor constant")
        assert Q(row["value"]).m_as("V*s/rad") == pytest.approx(CONSTANT, rel=0.02) and Q(row["uncertainty"]).magnitude > 0
        assert any("torque of belt and bearings" in line for line in findings(demo)) and "mN·m" in text_report(demo)


class TestBadInput:
    def test_overcompensation_is_told(self):
        """4.61 V at 104 mA against 4.05 V at 24 mA: 7 ohm, on a winding of 6."""
        one = judged(RUNS + reading("motor", "current", "104.0 mA") + reading("board", "voltage", "4.610 V")
                     + reading("motor", "current", "24.00 mA", "no load") + reading("board", "voltage", "4.050 V", "no load"))
        assert one["compensation", "playing"].verdict.word == BAD and "swings by itself" in one["compensation", "playing"].reason
        assert "the speed rises by" in one["compensation", "playing"].reason and "turn it back" in one["compensation", "playing"].next
        edge = judged((RUNS + reading("motor", "current", "104.0 mA") + reading("board", "voltage", "4.610 V") + reading("motor", "current", "24.00 mA", "no load")
                       + reading("board", "voltage", "4.130 V", "no load")))["compensation", "playing"]
        assert edge.verdict.word == UNTOLD and "0 °C the winding has 8 % less" in edge.reason  # 6 ohm on 6: told too where the verdict is open

    def test_volts_that_fall_with_the_current_are_told(self):
        one = judged(RUNS + reading("motor", "current", "104.0 mA") + reading("board", "voltage", "4.000 V")
                     + reading("motor", "current", "24.00 mA", "no load") + reading("board", "voltage", "4.500 V", "no load"))
        assert one["compensation", "playing"].verdict.word == UNTOLD and "no compensation does" in one["compensation", "playing"].reason

    def test_a_supply_under_the_drop_is_told(self):
        volts = reading("motor", "current", "80.0 mA") + reading("motor", "voltage", "4.200 V")
        assert judged(volts + reading("board", "voltage", "4.000 V"))["headroom", "playing"].verdict.word == BAD
        more = judged(volts + reading("board", "voltage", "4.600 V"))["headroom", "playing"]
        assert more.verdict.word == UNTOLD and "cannot get more volts than come in" in more.reason

    def test_a_stalled_motor_left_on_is_told(self):
        one = judged(reading("motor", "current", "160 mA", "held", after="30 s"))["stalled motor", "held"]
        assert "turns to heat" in one.reason and "Switch off" in one.next
        assert ("stalled motor", "held") not in judged(reading("motor", "current", "160 mA", "held", after="2 s") + reading("motor", "current", "80 mA"))
        hot = judged(reading("motor", "voltage", "9.0 V", "bench supply, held", run="a") + reading("motor", "current", "1.5 A", "bench supply, held", run="a"))
        assert "scorches" in hot["bench runs together", "bench supply"].reason
        sound = read_text(HEAD + reading("motor", "voltage", "9.0 V", "bench supply, held", run="a")
                          + reading("motor", "current", "0.9 A", "bench supply, held", run="a"))
        assert any("scorches" in line for line in findings(sound))  # a sound winding beside it does not hide it

    def test_a_motor_that_stands_while_it_is_on_is_told(self):
        one = judged(reading("motor", "current", "300 mA") + reading("motor", "speed", "0 turn/min"))["stalled motor", "playing"]
        assert "It stands" in one.reason and one.next.startswith("Switch off")
        assert ("stalled motor", "playing") not in judged(reading("motor", "current", "80 mA") + reading("motor", "speed", "2400 turn/min"))

    @pytest.mark.parametrize(("volts", "amps", "said"), [("-1.0 V", "160 mA", "−1.0"), ("1.0 V", "-160 mA", "−160"), ("1.0 V", "0 mA", "0 ± ")])
    def test_a_bench_run_with_turned_leads_is_told(self, volts, amps, said):
        one = judged(reading("motor", "voltage", volts, "bench supply, held", run="a") + reading("motor", "current", amps, "bench supply, held", run="a"))
        found = one["bench run", "bench supply, held"]
        assert said in found.reason and "The run a" in found.reason and "Turn the leads round" in found.next
        assert ("winding resistance", "bench supply") not in one

    @pytest.mark.parametrize(("left", "missing"), [("current", "volts"), ("voltage", "current")])
    def test_a_bench_run_of_one_reading_is_told(self, left, missing):
        value = {"current": "160 mA", "voltage": "1.0 V"}[left]
        found = judged(reading("motor", left, value, "bench supply, held", run="a"))["bench run", "bench supply, held"]
        assert f"has no {missing}" in found.reason and "under the same run" in found.next

    def test_a_held_shaft_with_a_speed_and_a_free_one_without_are_told(self):
        pair = [reading("motor", "voltage", "1.0 V", "bench supply, held", run="a"), reading("motor", "current", "160 mA", "bench supply, held", run="a"),
                reading("motor", "speed", "900 turn/min", "bench supply, held", run="a")]
        one = judged("".join(pair))
        assert "a held shaft has none" in one["bench run", "bench supply, held"].reason and ("winding resistance", "bench supply") in one
        free = judged("".join(pair).replace("supply, held", "supply, loaded").replace("900 turn", "0 turn"))
        assert "stands still" in free["bench run", "bench supply, loaded"].reason
        assert not any(name == "bench run" for name, _ in judged(RUNS))

    def test_a_belt_that_helps_the_motor_is_told(self):
        """140 mA belt off beside 100 mA playing; 100.2 mA beside 100 is within 0.5 %, and no more than that is said."""
        both = reading("motor", "current", "100.0 mA") + reading("motor", "current", "140.0 mA", "no load")
        assert "cannot help the motor" in judged(both)["belt off against belt on", "playing"].reason
        assert ("belt off against belt on", "playing") not in judged(both.replace("140.0", "100.2"))

    def test_a_split_lost_in_the_noise_asks_for_finer_readings(self):
        text = RUNS + "".join(reading("motor", "current", value, condition) for value, condition in
                              (("21.0 mA", "playing"), ("20.9 mA", "no load")))
        torque = judged(text)["torque of belt and bearings", "playing"]
        assert torque.verdict.word == UNTOLD and "told from none" in torque.reason and "rated_current" not in torque.next

    def test_volts_of_a_governor_that_has_let_go_say_nothing_of_its_trimmer(self):
        """4.3 V come in, 4.0 V reach the motor: tired cells, and no trimmer is blamed."""
        tired = RUNS + "".join(reading(part, quantity, value, when) for when, amps, volts in (("playing", "70 mA", "4.000 V"), ("no load", "24 mA", "4.020 V"))
                               for part, quantity, value in (("motor", "current", amps), ("motor", "voltage", "4.30 V"), ("board", "voltage", volts)))
        one = judged(tired)
        assert one["headroom", "playing"].verdict.word == BAD and ("set voltage", "playing") not in one and ("compensation", "playing") not in one
        fresh = judged(tired.replace("4.30 V", "9.00 V"))
        assert fresh["set voltage", "playing"].verdict.word == BAD

    def test_a_negative_speed_is_refused_by_the_sheet(self):
        with pytest.raises(SheetError, match="below 0"):
            read_text(HEAD + reading("motor", "speed", "-2400 turn/min"))

    def test_a_current_backwards_is_told(self):
        one = judged(reading("motor", "current", "-80 mA"))["current", "playing"]
        assert one.verdict.word == UNTOLD and "other way round" in one.reason

    def test_an_unknown_style_is_refused(self):
        with pytest.raises(SheetError, match="electronic"):
            read_text(HEAD.replace('"electronic"', '"magic"'))

    def test_a_run_needs_a_name(self):
        sheet = read_text(HEAD + reading("motor", "current", "80 mA", run="rim 1"))
        assert sheet.readings[0].run == "rim 1"
        with pytest.raises(SheetError, match="run"):
            read_text(HEAD + reading("motor", "current", "80 mA", run=""))

    def test_a_ratio_is_a_plain_number(self):
        part = '[[part]]\nname = "platter"\nkind = "pulley"\nratio = '
        assert read_text(HEAD + part + "72\n").parts["platter"].details["ratio"] == 72
        for wrong in ('"72"', "0", "-3", "true", "inf"):
            with pytest.raises(SheetError, match="ratio"):
                read_text(HEAD + part + wrong + "\n")


class TestOtherSheets:
    def test_a_feed_chain_alone_opens_no_room(self):
        text = HEAD.replace('rated_current = "70 mA"\nrated_speed = "2400 turn/min"\n', "").partition('[[part]]\nname = "board"')[0]
        assert judge_motors(read_text(text + reading("motor", "current", "104 mA"))) == ()
        assert judge_motors(read_text("version = 1")) == ()

    def test_without_bench_runs_it_says_what_is_missing(self):
        one = judged(reading("motor", "current", "104.0 mA") + reading("board", "voltage", "4.610 V")
                     + reading("motor", "current", "24.00 mA", "no load") + reading("board", "voltage", "4.210 V", "no load"))
        assert "bare motor on a bench supply" in one["compensation", "playing"].next and one["set voltage", "playing"].verdict.word == UNTOLD
        assert ("torque of belt and bearings", "playing") not in one

    def test_a_heavy_current_asks_for_the_belt_off(self):
        assert "Take the belt off" in judged(reading("motor", "current", "104.0 mA"))["current", "playing"].next

    def test_one_current_and_the_circuits_compensation(self):
        text = HEAD.replace('style = "electronic"', 'style = "electronic"\ncompensation = "5 ohm"')
        sheet = read_text(text + RUNS + reading("motor", "current", "104.0 mA") + reading("board", "voltage", "4.610 V"))
        line = governor_line(motor_sheet(sheet), "as found")
        assert line.low is None and line.set_voltage.plain == pytest.approx(4.61 - 0.52)

    def test_a_contact_governor_has_no_line(self):
        volts = (reading("motor", "current", "104.0 mA") + reading("board", "voltage", "4.610 V")
                 + reading("motor", "current", "24.00 mA", "no load") + reading("board", "voltage", "4.210 V", "no load"))
        assert governor_line(motor_sheet(read_text(HEAD + RUNS + volts)), "as found") is not None
        sheet = read_text(HEAD.replace('"electronic"', '"contact"') + RUNS + volts)
        assert governor_line(motor_sheet(sheet), "as found") is None
        assert not any(one.quantity == "compensation" for report in judge_motors(sheet) for one in report.judgements)

    def test_runs_of_one_stage_serve_the_next(self, demo):
        about = motor_sheet(demo)
        assert about.fit("platter bearing cleaned").motor_constant.plain == about.fit_here("as found").motor_constant.plain
        assert about.fit_here("platter bearing cleaned") is None


class TestBands:
    def test_two_sides_by_hand(self):
        """Half a per cent either way of 2400 is 12 turns a minute, one and a half 36."""
        band = motor_band("speed", Q(2400, "turn/min"))
        for speed, word in ((2400, SOUND), (2370, DOUBTFUL), (2430, DOUBTFUL), (2340, BAD), (2460, BAD), (2388, UNTOLD)):
            assert judge_within(within(Q(speed, "turn/min"), 0.001, "turn/min"), band).word == word

    def test_less_is_worse_where_the_sound_edge_is_the_higher_one(self):
        band = motor_band("headroom")
        for volts, word in ((2.0, SOUND), (0.75, DOUBTFUL), (0.3, BAD), (-0.2, BAD)):
            assert judge_within(within(Q(volts, "V"), 0.01, "V"), band).word == word

    def test_shares_against_the_normal_curve(self):
        """At two standard deviations above the bad edge, 97.7 % lie beyond it."""
        known = within(Q(1.02, "V"), 0.01 * math.sqrt(3) / 1.02, "V")
        verdict = judge_within(known, Band(Q(0.9, "V"), Q(1.0, "V"), "", "PRACTICE"))
        assert verdict.word == BAD and verdict.probability == pytest.approx(0.97725, abs=1e-4)
