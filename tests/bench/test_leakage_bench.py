"""Leakage from the sheet: amperes, charging current, the law through the readings, and the rules by name."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from benchreckoner.bench import leakage_words
from benchreckoner.bench.leakage_judge import AS_MADE, AS_NEW, judge_leakage, rules_for
from benchreckoner.bench.leakage_readings import leakage_series, year_made
from benchreckoner.bench.sheet import SheetError, read_text
from benchreckoner.bench.uncertain import Readings
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.physics.leakage import charging_current
from benchreckoner.physics.leakage_limits import LEAKAGE_RULES
from benchreckoner.units import Q

TOP = '''version = 1
[[instrument]]
name = "meter"
accuracy = "{accuracy}"
input_resistance = "10 Mohm"
[[part]]
name = "C7"
kind = "capacitor"
capacitance = "{capacitance}"
rated_voltage = "10 V"
{more}
'''
TIMES = (1, 2, 5)


def sheet(*readings, more="", accuracy="0.5 % + 1 mV", capacitance="100 uF"):
    """A sheet with one capacitor and readings given as (value, minutes, keys in other words)."""
    text = TOP.format(accuracy=accuracy, more=more, capacitance=capacitance)
    for value, minutes, *keys in readings:
        usual = {"part": "C7", "quantity": "voltage drop", "value": value, "instrument": "meter", "stage": "as found",
                 "condition": "lifted", "after": f"{minutes} min", "applied": "10.1 V", "series_resistor": "10 kohm"}
        usual |= keys[0] if keys else {}
        text += "[[reading]]\n" + "".join(f'{key} = "{one}"\n' for key, one in usual.items() if one)
    return read_text(text.replace("10.1 V", "10 V"))


def falling(first, slope=0.7, keys=None):
    """Readings of volts that fall as a power of the time, the first in millivolts after one minute."""
    return [(f"{first * minutes**-slope:.2f} mV", minutes, keys or {}) for minutes in TIMES]


def only(found):
    report, = judge_leakage(found)
    return report


class TestAmperes:
    def test_the_meters_own_ohms_are_in_it(self):
        """Check value C31: 2 V across 10 kohm beside 10 Mohm."""
        report = only(sheet(("2.000 V", 5)))
        assert report.series.points[0].read.value.m_as("uA") == pytest.approx(200.2)

    def test_an_ammeters_reading_stands_as_it_is(self):
        report = only(sheet(("12.5 uA", 5, {"quantity": "leakage current"}), accuracy="1 % + 2 digits"))
        assert report.series.points[0].read.value.m_as("uA") == pytest.approx(12.5)

    def test_without_its_resistor_a_voltage_is_no_current(self):
        report = only(sheet(("2.000 V", 5, {"series_resistor": ""})))
        assert "series_resistor" in report.stop and not report.rules

    def test_the_resistor_is_no_better_than_it_is_made(self):
        """5 % as an even spread, and little else: 5 % / sqrt(3)."""
        read = only(sheet(("2.000 V", 5))).series.points[0].read.number
        assert read.std_dev / read.nominal_value == pytest.approx(0.05 / np.sqrt(3), rel=0.02)

    def test_an_unknown_input_is_assumed_and_told(self):
        text = "\n".join(leakage_words.notes(only(read_text(TOP.format(
            accuracy="1 % + 1 mV", more="", capacitance="100 uF").replace('input_resistance = "10 Mohm"\n', "") + '''[[reading]]
part = "C7"\nquantity = "voltage drop"\nvalue = "100.0 mV"\ninstrument = "meter"\nstage = "as found"
condition = "lifted"\nafter = "5 min"\napplied = "10 V"\nseries_resistor = "10 kohm"''')).series))
        assert "10 MΩ at its input" in text and "common practice" in text


class TestCharging:
    def test_the_trap_is_told_and_left_out(self):
        """Check value C30 by the sheet's road: 6 V, 100 kohm, 1000 uF, two minutes: 18 uA that leak nowhere."""
        report = only(sheet(("1.80 V", 2, {"applied": "6 V", "series_resistor": "100 kohm"}), capacitance="1000 uF"))
        point, = report.series.points
        assert point.charging.value.m_as("uA") == pytest.approx(18.072, abs=0.01)
        assert point.mostly_charging and not point.usable and all(one.verdict.word != BAD for one in report.rules)
        assert "charging current" in " ".join(leakage_words.notes(report.series))

    def test_what_little_still_charges_is_taken_off(self):
        found = sheet(("100.0 mV", 1, {"series_resistor": "100 kohm"}), capacitance="47 uF", more='tolerance = "10 %"')
        point, = only(found).series.points
        left = charging_current(supply=Q(10, "V"), series_resistance=Q(100, "kohm"), capacitance=Q(47, "uF"), time=Q(1, "min"))
        assert 0 < left.m_as("A") < 0.1 * point.read.plain
        assert (point.read - point.leakage).plain == pytest.approx(left.m_as("A"), rel=1e-6)

    def test_a_reading_full_of_charge_stays_out_of_the_law(self):
        """100 kohm and 100 uF: 10 s. After ten seconds 37 uA still charge, after five minutes nothing does."""
        keys = {"series_resistor": "100 kohm"}
        report = only(sheet(("4.000 V", "0.1667", keys), ("300.0 mV", 3, keys), ("210.0 mV", 5, keys)))
        assert [point.usable for point in report.series.points] == [False, True, True] and report.series.law.count == 2

    @pytest.mark.parametrize("keys", [{"applied": ""}, {"series_resistor": "", "quantity": "leakage current"}])
    def test_where_charging_is_not_known_nothing_is_called_bad(self, keys):
        value = "900 uA" if "quantity" in keys else "9.00 V"
        report = only(sheet((value, 5, keys), accuracy="1 % + 2 digits"))
        assert all(one.verdict.word != BAD for one in report.rules)
        assert any("charging current cannot be told" in words for words in report.series.assumed)


class TestTheLaw:
    @settings(max_examples=20)
    @given(first=some.floats(20, 900), slope=some.floats(0.3, 1))
    def test_against_a_line_by_numpy(self, first, slope):
        """Second route: polyfit through the logarithms of the readings as typed."""
        readings = falling(first, slope)
        report = only(sheet(*readings))
        amperes = [float(value.split()[0]) * 1e-3 * (1 / 1e4 + 1 / 1e7) for value, *_ in readings]
        line = np.polyfit(np.log(TIMES), np.log(amperes), 1)
        law = report.series.law
        # A rounded last digit weighs the later ones less, so both lines agree to the rounding.
        assert law.slope.plain == pytest.approx(line[0], abs=0.02)
        assert law.at(Q(10, "min")).plain == pytest.approx(np.exp(np.polyval(line, np.log(10))), rel=0.05)

    def test_the_interval_holds_the_truth(self):
        """Meter, resistor and watch err evenly within their limits: k = 2 holds at least 95 %."""
        chance, held = np.random.default_rng(11), 0
        for _ in range(80):
            slope, current = chance.uniform(0.3, 1), 10 ** chance.uniform(-5.5, -3.8)
            ohms, meter = (1e4 * (1 + 0.05 * chance.uniform(-1, 1)), 1e7 * (1 + 0.05 * chance.uniform(-1, 1)))
            gain, readings = 1 + 0.005 * chance.uniform(-1, 1), []
            for minutes in TIMES:
                true = current * ((60 * minutes + chance.uniform(-5, 5)) / 60) ** -slope
                volts = true / (1 / ohms + 1 / meter) * gain + 1e-3 * chance.uniform(-1, 1)
                readings.append((f"{1e3 * volts:.1f} mV", minutes))
            found = sheet(*readings)
            series, = leakage_series(found, Readings(found))
            for minutes in (2, 5, 10):
                at = series.at(Q(minutes, "min"))
                assert at.low is at.high
                known = at.low
                held += abs(known.plain - current * minutes**-slope) <= 2 * known.number.std_dev
        assert held / 240 >= 0.95

    def test_watch_and_meter_are_never_read_at_once(self):
        """Five seconds of one and of two minutes, as even spreads, over the logarithm of two."""
        series = only(sheet(("2.0000 V", 1), ("1.0000 V", 2), accuracy="0.001 % + 0.01 mV")).series
        by_hand = np.hypot(5 / 60, 5 / 120) / np.sqrt(3) / np.log(2)
        assert series.law.slope.number.std_dev == pytest.approx(by_hand, rel=0.01)

    def test_far_beyond_the_readings_it_is_a_bound_only(self):
        series = only(sheet(*falling(200))).series
        near = series.at(Q(25, "min"))
        assert near.low is near.high
        far = series.at(Q(3, "h"))
        assert far.low is None and far.high.plain == pytest.approx(series.points[-1].leakage.plain)

    def test_a_single_reading_bounds_what_comes_later(self):
        at = only(sheet(("100.0 mV", 1))).series.at(Q(5, "min"))
        assert at.low is None and at.high.value.m_as("uA") == pytest.approx(10.01, rel=1e-3)
        at = only(sheet(("100.0 mV", 10))).series.at(Q(5, "min"))
        assert at.high is None and at.low.value.m_as("uA") == pytest.approx(10.01, rel=1e-3)

    def test_leakage_that_grows_is_no_law_but_a_warning(self):
        report = only(sheet(*falling(100, slope=-0.5)))
        assert "grows" in report.stop and not report.rules and report.practice is None


class TestTheRules:
    def verdicts(self, report):
        return {one.rule.name: one.verdict.word for one in report.rules}

    def test_published_limits_by_hand(self):
        """100 uF, 10 V: 13 uA (FOUND rule), 1.3 mA in the 1940s. 20 uA after five minutes lie between."""
        report = only(sheet(("200.0 mV", 5)))
        assert self.verdicts(report)["a hundredth and three"] == BAD
        assert self.verdicts(only(sheet(("200.0 mV", 5), more='made = "1948"')))["military 1940s"] == SOUND

    def test_at_rated_voltage_a_rule_clears(self):
        report = only(sheet(("50.0 mV", 5)))
        assert report.series.on_part.m_as("V") == pytest.approx(9.95, rel=1e-4)
        assert self.verdicts(report)["a hundredth and three"] == SOUND

    def test_nine_tenths_of_the_voltage_clear_only_below_half_the_limit(self):
        """0.7 of the rated voltage has about half of its leakage (FOUND), so up to twice as much flows at all of it."""
        for millivolts, word in ((50, SOUND), (100, UNTOLD), (200, BAD)):
            report = only(sheet((f"{millivolts}.0 mV", 5, {"applied": "9 V"})))
            assert self.verdicts(report)["a hundredth and three"] == word

    def test_far_below_the_rated_voltage_a_rule_only_condemns(self):
        assert self.verdicts(only(sheet(("1.0 mV", 5, {"applied": "5 V"}))))["general-purpose grade"] == UNTOLD
        assert self.verdicts(only(sheet(("2.000 V", 5, {"applied": "5 V"}))))["general-purpose grade"] == BAD

    def test_in_circuit_nothing_is_condemned(self):
        report = only(sheet(("2.000 V", 5, {"condition": "in circuit"})))
        assert BAD not in self.verdicts(report).values() and "Lift one leg" in leakage_words.headline(report)
        assert BAD in self.verdicts(only(sheet(("2.000 V", 5)))).values()
        assert set(self.verdicts(only(sheet(("5.0 mV", 2, {"condition": "in circuit"})))).values()) == {SOUND}

    def test_above_the_rated_voltage_nothing_is_judged(self):
        report = only(sheet(("50.0 mV", 5, {"applied": "16 V"})))
        assert not report.rules and "made for 10 V" in leakage_words.headline(report)

    def test_more_than_the_supply_can_drive_is_refused(self):
        assert "than the supply can drive" in only(sheet(("11.00 V", 5))).stop

    @pytest.mark.parametrize(("made", "grade", "own"), [
        ("1948", "", {"military 1940s"}), ("1965", "", {"military 1940s", "long-life grade", "general-purpose grade"}),
        ("about 1975", "long-life", {"long-life grade"}), ("1982", "general purpose", {"general-purpose grade"}),
        ("", "", {"military 1940s", "long-life grade", "general-purpose grade"}),
    ])
    def test_which_rule_for_which_age(self, made, grade, own):
        more = (f'made = "{made}"\n' if made else "") + (f'grade = "{grade}"' if grade else "")
        found = rules_for(sheet(more=more).parts["C7"])
        assert {name for question, name in found if question == AS_MADE} == own
        assert "a hundredth and three" in {name for question, name in found if question == AS_NEW}

    def test_a_year_is_found_in_words(self):
        assert year_made(sheet(more='made = "Taiwan, week 12 of 1974"').parts["C7"]) == 1974
        assert year_made(sheet(more='made = "code 219741"').parts["C7"]) is None

    def test_rules_that_disagree_give_a_span(self):
        """40 uA: three times today's limit, a thirtieth of the 1940s one."""
        report = only(sheet(("400.0 mV", 5, {"applied": "10.42 V"}), more='made = "1948"', accuracy="0.5 % + 1 mV"))
        assert not report.rules  # 10.42 V are above the 10 V that it is made for
        report = only(sheet(("300.0 mV", 5, {"series_resistor": "1 kohm"}), more='made = "1948"'))
        assert report.span == (SOUND, BAD)
        words = leakage_words.headline(report)
        assert "disagree, from sound to bad" in words and "1940s”, published" in words and "? No" in words and "? Yes" in words

    def test_every_rule_is_told_by_name_and_mark(self):
        report = only(sheet(*falling(100)))
        lines = " ".join(leakage_words.rule_line(one) for one in report.rules).casefold()
        assert all(one.rule.name in lines for one in report.rules)
        assert "published" in lines and "from memory" in lines and "common practice" in lines


class TestPractice:
    @pytest.mark.parametrize(("volts", "word"), [("50.0 mV", SOUND), ("400.0 mV", DOUBTFUL), ("3.000 V", BAD)])
    def test_a_multiple_of_the_computed_limit(self, volts, word):
        """13 uA for 100 uF, 10 V: 5, 40 and 300 uA are 0.4, 3.1 and 23 times."""
        report = only(sheet((volts, 2)))
        times = {"50.0 mV": 5.005 / 13, "400.0 mV": 40.04 / 13, "3.000 V": 300.3 / 13}[volts]
        assert report.practice.multiple.plain == pytest.approx(times, rel=1e-3) and report.practice.verdict.word == word
        assert "no published rule" in leakage_words.practice_line(report)

    def test_working_voltage_is_enough(self):
        assert only(sheet(("50.0 mV", 2, {"applied": "6 V"}))).practice.verdict.word == SOUND


def test_wrong_verdicts_are_rare():
    """Parts with leakage spread over the limit: a rule that tells is right at least 95 times in 100."""
    chance, told, wrong = np.random.default_rng(3), 0, 0
    limit = 13e-6
    for _ in range(80):
        slope, current = chance.uniform(0.3, 1), limit * 5**0.7 * 10 ** chance.uniform(-0.5, 0.5)
        ohms, gain = 1e3 * (1 + 0.05 * chance.uniform(-1, 1)), 1 + 0.005 * chance.uniform(-1, 1)
        readings = []
        for minutes in TIMES:
            volts = current * (minutes + chance.uniform(-5, 5) / 60) ** -slope * ohms * gain + 1e-4 * chance.uniform(-1, 1)
            readings.append((f"{1e3 * volts:.1f} mV", minutes, {"series_resistor": "1 kohm"}))
        report = only(sheet(*readings, accuracy="0.5 % + 0.1 mV"))
        verdict = next(one.verdict.word for one in report.rules if one.rule.name == "a hundredth and three")
        told += verdict != UNTOLD
        wrong += verdict != UNTOLD and (verdict == SOUND) != (current * 5**-slope <= limit)
    assert told > 40 and wrong / told <= 0.05


@pytest.mark.parametrize(("keys", "told"), [
    ({"applied": "70 V"}, "above 63 V"), ({"applied": "0 V"}, "above 0"), ({"series_resistor": "-1 kohm"}, "above 0"),
    ({"series_resistor": "10 V"}, "cannot be turned into ohm"),
])
def test_what_no_reading_can_be_is_refused(keys, told):
    with pytest.raises(SheetError, match=told):
        sheet(("1.0 mV", 5, keys))


def test_every_rule_is_for_some_part():
    asked = {name for made in ("1948", "1975", "") for _, name in
             rules_for(sheet(more=f'made = "{made}"' if made else "").parts["C7"])}
    assert asked == set(LEAKAGE_RULES)
