"""What is said of contacts, jacks, shields and controls that pass sound, on whole sheets."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from signal_sheets import JACK, VOLUME, judged, sheet

from benchreckoner import project
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.report import findings, json_report, text_report
from benchreckoner.bench.sheet import SheetError, read_sheet
from benchreckoner.bench.signal_judge import judge_signal
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.units import ureg

DEMO = project.CASES / "record_player.toml"


class TestOhms:
    @pytest.mark.parametrize(("value", "word"), [("0.00 ohm", SOUND), ("0.02 ohm", SOUND), ("0.30 ohm", UNTOLD), ("3.00 ohm", UNTOLD)])
    def test_two_wires_clear_but_do_not_condemn(self, value, word):
        one = judged(sheet(("jack", "resistance", value)))
        assert one.verdict.word == word
        if word == UNTOLD:
            assert "leads included" in one.reason and 'leads = "0.20 ohm"' in one.next

    @pytest.mark.parametrize(("value", "word"), [("0.21 ohm", SOUND), ("0.70 ohm", DOUBTFUL), ("1.50 ohm", BAD)])
    def test_with_the_leads_read_they_condemn_as_well(self, value, word):
        one = judged(sheet(("jack", "resistance", value), meter='leads = "0.20 ohm"'))
        assert one.verdict.word == word and one.known.plain == pytest.approx(float(value.split()[0]) - 0.2)
        assert "common practice" in one.reason

    def test_four_wires_need_no_leads(self):
        assert judged(sheet(("jack", "resistance", "1.50 ohm"), meter="four_wire = true")).verdict.word == BAD

    def test_volts_and_current_are_four_wires(self):
        one = judged(sheet(("jack", "voltage drop", "15.0 mV"), ("jack", "current", "10.0 mA")))
        assert one.verdict.word == BAD and one.known.plain == pytest.approx(1.5)
        # u by hand: a / sqrt(3) for 0.5 %, 0.2 mV, 0.05 mV of 15 mV and 1 %, 0.1 mA, 0.05 mA of 10 mA.
        shares = [0.005, 0.2 / 15, 0.05 / 15, 0.01, 0.1 / 10, 0.05 / 10]
        assert one.known.number.std_dev == pytest.approx(1.5 * math.sqrt(sum(share**2 for share in shares) / 3))

    @pytest.mark.parametrize(("rows", "words"), [
        ([("voltage drop", "15.0 mV")], "No current"), ([("current", "10.0 mA")], "No voltage drop"),
        ([("voltage drop", "15.0 mV"), ("current", "0.0 mA")], "told from zero"),
        ([("voltage drop", "-15.0 mV"), ("current", "10.0 mA")], "other way round")])
    def test_without_both_there_are_no_ohms(self, rows, words):
        one = judged(sheet(*[("jack", *row) for row in rows]))
        assert one.verdict.word == UNTOLD and one.known is None and words in one.reason and one.next

    def test_less_than_its_own_leads_is_told(self):
        one = judged(sheet(("jack", "resistance", "0.10 ohm"), meter='leads = "0.50 ohm"'))
        assert one.verdict.word == UNTOLD and "less than nothing" in one.reason

    @pytest.mark.parametrize("kind", ["signal contact", "signal switch", "jack contact", "shield"])
    def test_every_kind_has_a_band_with_its_mark_beside_it(self, kind):
        one = judged(sheet(("it", "resistance", "0.01 ohm"), parts=[("it", kind, "")]))
        assert one.verdict.word == SOUND and "(common practice)" in one.reason

    def test_repeats_that_cannot_both_be_true_are_told(self):
        report, = judge_signal(sheet(("jack", "resistance", "0.30 ohm"), ("jack", "resistance", "0.90 ohm")))
        assert any("Repeats of the resistance of jack" in one.reason for one in report.findings)


class TestInCircuit:
    def test_an_unknown_path_leaves_a_lower_bound(self):
        low = judged(sheet(("jack", "resistance", "0.02 ohm", "in circuit"), meter="four_wire = true"))
        assert low.verdict.word == UNTOLD and "not named" in low.reason and "worth it" in low.next
        high = judged(sheet(("jack", "resistance", "1.50 ohm", "in circuit"), meter="four_wire = true"))
        assert high.verdict.word == BAD and "lifting a leg would not change that" in high.reason

    def test_a_known_path_is_taken_off(self):
        """33.1 kohm beside 90 to 110 kohm: 47.4 to 52.4 kohm before the meter's own 0.45 kohm, by hand."""
        one = judged(sheet(("tone", "resistance", "33.1 kohm", "in circuit"),
                           parts=[("tone", "potentiometer", 'resistance = "50 kohm"\nacross = "R7 100 kohm 10 %"')]))
        assert one.verdict.word == SOUND and "R7 100 kΩ" in one.reason and "lifting a leg would not change" in one.reason
        assert one.known.plain == pytest.approx(1e3 * 33.1 * 100 / (100 - 33.1))

    def test_two_paths_are_one_and_both_are_named(self):
        """4.7 and 10 kohm side by side are 3.197 kohm; 2.43 kohm before it leave 10.13 kohm."""
        parts = [("tone", "potentiometer", 'resistance = "10 kohm"\nacross = ["R12 4k7 1 %", "R13 10 kohm 1 %"]')]
        one = judged(sheet(("tone", "resistance", "2.43 kohm"), parts=parts))
        path = 4.7 * 10 / 14.7
        assert one.known.plain == pytest.approx(1e3 * 2.43 * path / (path - 2.43)) and "R12 4.7 kΩ and R13 10 kΩ" in one.reason

    def test_lifting_is_worth_it_only_where_the_verdict_could_differ(self):
        parts = [("tone", "potentiometer", 'resistance = "10 kohm"\nacross = "R12 4k7 40 %"')]
        open_end = judged(sheet(("tone", "resistance", "4.20 kohm"), parts=parts))
        assert open_end.verdict.word == UNTOLD and "perhaps open" in open_end.reason and "is worth it" in open_end.next
        parts = [("tone", "potentiometer", 'resistance = "10 kohm"\nacross = "R12 100 kohm 0.1 %"')]
        edge = judged(sheet(("tone", "resistance", "10.72 kohm"), parts=parts))  # 12.007 kohm: on the limit itself
        assert edge.verdict.word == UNTOLD and "would not settle it" in edge.next

    def test_more_than_the_path_allows_is_a_contradiction(self):
        parts = [("tone", "potentiometer", 'resistance = "10 kohm"\nacross = "R12 4k7 5 %"')]
        made = sheet(("tone", "resistance", "9.10 kohm"), parts=parts)
        report, = judge_signal(made)
        (one,) = report.findings
        assert one.quantity == "contradiction" and "R12 4.7 kΩ" in one.reason and "nothing in parallel raises" in one.reason
        assert judged(made).verdict.word == UNTOLD

    def test_a_lifted_part_is_read_alone(self):
        parts = [("tone", "potentiometer", 'resistance = "10 kohm"\nacross = "R12 4k7 5 %"')]
        assert judged(sheet(("tone", "resistance", "9.10 kohm", "lifted"), parts=parts)).verdict.word == SOUND

    def test_without_saying_so_it_is_read_alone(self):
        assert judged(sheet(("volume", "resistance", "9.10 kohm", "off"), parts=[VOLUME])).verdict.word == SOUND

    def test_a_wiper_is_not_joined_to_its_end_by_the_tracks_path(self):
        parts = [("tone", "potentiometer", 'resistance = "10 kohm"\nacross = "R12 4k7 5 %"')]
        assert judged(sheet(("tone", "wiper resistance", "90 ohm"), parts=parts), "wiper resistance").verdict.word == UNTOLD
        assert judged(sheet(("tone", "wiper resistance", "90 ohm", "lifted"), parts=parts), "wiper resistance").verdict.word == SOUND


class TestControls:
    @pytest.mark.parametrize(("value", "word"), [("100 ohm", SOUND), ("350 ohm", DOUBTFUL), ("900 ohm", BAD), ("200 ohm", UNTOLD)])
    def test_the_wiper_by_its_share_of_the_track(self, value, word):
        assert judged(sheet(("volume", "wiper resistance", value), parts=[VOLUME]), "wiper resistance").verdict.word == word

    def test_a_track_that_was_read_will_do(self):
        rows = [("volume", "resistance", "9.80 kohm"), ("volume", "wiper resistance", "900 ohm")]
        bare = [("volume", "potentiometer", "")]
        assert judged(sheet(*rows, parts=bare), "wiper resistance").verdict.word == BAD
        track = judged(sheet(*rows, parts=bare))
        assert track.verdict.word == UNTOLD and "written on it" in track.reason
        assert "resistance = \"10 kohm\"" in judged(sheet(rows[1], parts=bare), "wiper resistance").reason

    @pytest.mark.parametrize(("value", "word"), [("9.1 kohm", SOUND), ("7.0 kohm", DOUBTFUL), ("13.5 kohm", DOUBTFUL), ("4.0 kohm", BAD),
                                                 ("200 kohm", BAD), ("12.0 kohm", UNTOLD)])
    def test_the_track_on_both_sides(self, value, word):
        assert judged(sheet(("volume", "resistance", value), parts=[VOLUME])).verdict.word == word

    def test_a_wiper_above_its_track_is_told(self):
        made = sheet(("volume", "wiper resistance", "12.5 kohm"), parts=[VOLUME])
        assert "more than its whole track of 10 kΩ" in judge_signal(made)[0].findings[0].reason
        assert judged(made, "wiper resistance").verdict.word == UNTOLD

    @pytest.mark.parametrize(("value", "word", "words"), [
        ("0.4 mV", SOUND, "track or wiper"), ("-0.4 mV", SOUND, "track or wiper"), ("12.0 mV", DOUBTFUL, "perhaps a capacitor"),
        ("80.0 mV", BAD, "leaky capacitor, not at the track"), ("-80.0 mV", BAD, "leaky capacitor, not at the track")])
    def test_direct_volts_point_at_a_capacitor(self, value, word, words):
        one = judged(sheet(("volume", "voltage", value, "playing"), parts=[VOLUME]), "voltage")
        assert one.verdict.word == word and words in one.reason and (word == SOUND or "Before any spray" in one.next)

    @pytest.mark.parametrize(("more", "row", "asked"), [
        ('[[symptom]]\nwhat = "volume scratches"\nstage = "as found"\n', ("volume", "resistance", "9.5 kohm"), ["volume"]),
        ('[[symptom]]\nwhat = "the knob crackles"\nstage = "as found"\n', ("volume", "resistance", "9.5 kohm"), ["volume", "tone"]),
        ('[[observation]]\npart = "volume"\nwhat = "noisy"\nstage = "as found"\n', ("volume", "resistance", "9.5 kohm"), ["volume"]),
        ("", ("volume", "wiper resistance", "900 ohm"), ["volume"]), ("", ("volume", "resistance", "9.5 kohm"), []),
        ('[[symptom]]\nwhat = "the tone knob scratches"\nstage = "as found"\n', ("volume", "resistance", "9.5 kohm"), ["tone"])])
    def test_scratching_is_no_dirty_control_before_the_volts_are_read(self, more, row, asked):
        parts = [VOLUME, ("tone", "potentiometer", "")]
        report, = judge_signal(sheet(row, parts=parts, more=more))
        wanted = [one for one in report.judgements if "Measure this next" in one.next]
        assert [one.part for one in wanted] == asked
        report, = judge_signal(sheet(row, ("volume", "voltage", "0.3 mV", "playing"), parts=parts, more=more))
        assert "volume" not in [one.part for one in report.judgements if "Measure this next" in one.next]


    def test_scratching_alone_asks_for_the_volts(self):
        symptom = '[[symptom]]\nwhat = "volume scratches"\nstage = "as found"\n'
        assert not judge_signal(sheet(parts=[VOLUME], more=symptom)), "a sheet without readings has nothing to judge yet"
        report, = judge_signal(sheet(("motor", "voltage", "6.00 V", "playing"), parts=[VOLUME, ("motor", "motor", "")], more=symptom))
        (one,) = report.judgements
        assert one.quantity == "voltage" and one.verdict.word == UNTOLD and "Measure this next" in one.next

    def test_volts_read_before_the_cleaning_are_not_asked_for_again(self):
        poor, volts = ("volume", "wiper resistance", "900 ohm", "still", "worked"), ("volume", "voltage", "0.3 mV")
        made = sheet(poor, (*volts, "playing"), parts=[VOLUME])
        assert not any("Measure this next" in one.next for report in judge_signal(made) for one in report.judgements)
        made = sheet(("volume", "wiper resistance", "900 ohm"), (*volts, "playing", "worked"), parts=[VOLUME])
        assert ["Measure this next" in one.next for one in judge_signal(made)[1].judgements] == [False, True]


class TestLevels:
    LEAF = [("leaf", "signal contact", 'load = "8 ohm"')]

    @pytest.mark.parametrize(("behind", "word"), [("-12.7 dB", BAD), ("-10.1 dB", UNTOLD)])
    def test_a_loss_into_a_known_load_is_ohms(self, behind, word):
        one = judged(sheet(("leaf", "level before", "-10.0 dB"), ("leaf", "level", behind), parts=self.LEAF), "level loss")
        assert one.verdict.word == word
        assert one.known.plain == pytest.approx(-10 - float(behind.split()[0]))

    def test_published_ohms(self):
        """D1: 1 ohm before 8 ohm costs 1.0231 dB."""
        one = judged(sheet(("leaf", "level before", "0.0000 dB"), ("leaf", "level", "-1.0231 dB"), parts=self.LEAF), "level loss")
        assert one.reason.split("before 8 Ω is ")[1].startswith("1.00 ± ")

    def test_without_a_load_it_says_only_that_something_takes_them(self):
        rows = [("jack", "level before", "-10.0 dB"), ("jack", "level", "-12.0 dB")]
        one = judged(sheet(*rows), "level loss")
        assert one.verdict.word == DOUBTFUL and "2.00 ± 0.34 dB" in one.reason  # 2 sqrt(2 (0.2^2 + 0.05^2) / 3)
        none = judged(sheet(rows[0], ("jack", "level", "-10.1 dB")), "level loss")
        assert none.verdict.word == UNTOLD and "clears nothing" in none.reason

    @pytest.mark.parametrize(("quantity", "missing"), [("level", "level before"), ("level before", "level")])
    def test_a_level_without_its_pair_is_told(self, quantity, missing):
        one = judged(sheet(("jack", quantity, "-10.0 dB")), "level loss")
        assert one.verdict.word == UNTOLD and "one level alone" in one.reason and f"Read the {missing} of jack" in one.next

    def test_a_contact_that_adds_level_is_a_contradiction(self):
        report, = judge_signal(sheet(("jack", "level before", "-12.0 dB"), ("jack", "level", "-10.0 dB")))
        assert "no contact adds level" in report.findings[0].reason and report.judgements[0].verdict.word == UNTOLD

    def test_a_control_takes_level_by_design(self):
        one = judged(sheet(("volume", "level before", "-10.0 dB"), ("volume", "level", "-30.0 dB"), parts=[VOLUME]), "level loss")
        assert one.verdict.word == UNTOLD and "what a control is for" in one.reason

    @pytest.mark.parametrize(("condition", "values", "word"), [
        ("wiggled", ["-14.0 dB"], DOUBTFUL), ("pressed", ["-14.0 dB"], BAD), ("wiggled", ["-10.1 dB"], SOUND),
        ("wiggled", ["-10.0 dB", "-10.1 dB", "-16.0 dB", "-10.0 dB"], DOUBTFUL)])
    def test_a_level_that_moves_is_a_finding(self, condition, values, word):
        made = sheet(("jack", "level", "-10.0 dB"), *[("jack", "level", value, condition) for value in values])
        one = judged(made, "movement")
        assert one.verdict.word == word and not judge_signal(made)[0].findings
        assert len(judge_signal(made)[0].judgements) == 1  # the wiggled level is the pair

    @pytest.mark.parametrize(("value", "word"), [("0.90 ohm", BAD), ("0.24 ohm", SOUND), ("0.30 ohm", UNTOLD), ("0.50 ohm", BAD)])
    def test_ohms_may_give_a_little_when_pressed(self, value, word):
        """A sound jack contact has 50 mohm in all; the two readings leave 25 mohm of doubt each (k = 2)."""
        assert judged(sheet(("jack", "resistance", "0.25 ohm"), ("jack", "resistance", value, "pressed")), "movement").verdict.word == word

    def test_moved_without_having_lain_still(self):
        one = judged(sheet(("jack", "level", "-10.0 dB", "wiggled")), "movement")
        assert one.verdict.word == UNTOLD and "lying still" in one.next


class TestReports:
    def test_did_it_help(self):
        made = sheet(("jack", "resistance", "1.62 ohm"), ("jack", "resistance", "0.20 ohm", "still", "worked"),
                     ("volume", "wiper resistance", "430 ohm"), ("volume", "wiper resistance", "425 ohm", "still", "worked"),
                     ("volume", "voltage", "40.0 mV", "playing"), ("volume", "voltage", "1.0 mV", "playing", "worked"), parts=[JACK, VOLUME])
        changes = {(one.part, one.quantity): one for one in comparisons(judge_signal(made))}
        assert changes["jack", "resistance"].real and not changes["volume", "wiper resistance"].real
        assert "volume, voltage, went from" in changes["volume", "voltage"].sentence() and "39.0 mV" in changes["volume", "voltage"].sentence()
        assert sum("more than the uncertainty explains" in line for line in findings(made)) == 2

    def test_the_demo_puts_the_feed_chain_first(self):
        lines = findings(read_sheet(DEMO))
        assert "spring 3 is the guilty link" in lines[1] and "spring 3 went from" in "".join(lines)
        assert next(number for number, line in enumerate(lines) if re.match(r"[\w ]+, (signal|motor|supply): ", line)) == 2
        assert any("phono jack went from 1.44" in line for line in lines)
        rows = [row for row in json_report(read_sheet(DEMO)) if row["stage"] == "as found"]
        words = [row["verdict"] for row in rows]
        assert words == sorted(words, key=[BAD, DOUBTFUL, UNTOLD, SOUND].index)
        assert rows[0]["part"] == "spring 3" and ("phono jack", BAD) in [(row["part"], row["verdict"]) for row in rows]

    def test_what_goes_into_a_row_can_be_read_by_pint(self):
        made = sheet(("jack", "level before", "-10.0 dB"), ("jack", "level", "-16.02 dB"), ("volume", "voltage", "40.0 mV", "playing"),
                     ("volume", "wiper resistance", "12.5 kohm"), parts=[JACK, VOLUME])
        rows = {(row["part"], row["quantity"]): row for row in json_report(made)}
        for row in rows.values():
            assert all(ureg.Quantity(row[key]) is not None for key in ("value", "uncertainty", "limit") if row[key])
        assert float(rows["jack", "level loss"]["value"]) == pytest.approx(0.5, abs=0.001)  # 6.02 dB leave half the volts
        assert rows["volume", "voltage"]["limit"] == "0.02 V"

    def test_only_the_sound_is_on_the_sheet(self):
        made = sheet(("jack", "resistance", "0.02 ohm"))
        assert findings(made) == ["As found, signal: sound by these readings: jack."]
        assert "jack, still: sound" in text_report(made)

    @pytest.mark.parametrize(("keys", "words"), [
        ('across = "R12"', "as a resistor"), ('across = "R12 -4k7"', "as a resistor|above 0"), ("across = []", "is empty"),
        ('across = "R12 4k7 100 %"', "whole value"), ("across = 4700", "quotation marks"), ('across = ["4 uF"]', "as a resistor"),
        ('tolerance = "20"', "percentage"), ('load = "0 ohm"', "above 0")])
    def test_a_faulty_key_is_told(self, keys, words):
        with pytest.raises(SheetError, match=words):
            sheet(parts=[("it", "potentiometer", keys)])

    def test_negative_ohms_are_refused(self):
        with pytest.raises(SheetError, match="below 0 ohm"):
            sheet(("volume", "wiper resistance", "-3 ohm"), parts=[VOLUME])
        with pytest.raises(SheetError, match="leads.*below 0 ohm"):
            sheet(meter='leads = "-1 ohm"')


@settings(max_examples=30, deadline=None)
@given(st.floats(0.001, 100), st.sampled_from(["still", "in circuit", "off"]), st.booleans(), st.booleans())
def test_whatever_is_read_every_sheet_gets_words(ohms, condition, leads, across):
    part = ("jack", "jack contact", 'across = "8 ohm"' if across else "")
    made = sheet(("jack", "resistance", f"{ohms:.3f} ohm", condition), parts=[part], meter='leads = "0.2 ohm"' if leads else "")
    one = judged(made)
    assert one.reason and (one.verdict.word != UNTOLD or one.next or judge_signal(made)[0].findings)
    assert text_report(made) and json_report(made)
