"""Capacitors on the sheet: edges by hand, bounds in circuit, what they do around them, what to buy."""

import numpy as np
import pytest

from benchreckoner.bench.capacitor_effects import effects
from benchreckoner.bench.capacitor_judge import judge_capacitor
from benchreckoner.bench.capacitor_limits import PLACES, capacitance_band, rating, series_resistance_band
from benchreckoner.bench.limits import NoBand
from benchreckoner.bench.repair import Part
from benchreckoner.bench.sheet import SheetError, read_sheet
from benchreckoner.bench.shopping import shopping_list
from benchreckoner.bench.uncertain import Readings
from benchreckoner.units import Q

HEAD = '''version = 1
[machine]
name = "trial"
kind = "tape player"
[[instrument]]
name = "tester"
accuracy = "2 % + 0.1 uF"
[[instrument]]
name = "bridge"
accuracy = "5 % + 0.1 ohm"
[[part]]
name = "C1"
kind = "capacitor"
marking = "50 MFD 15 V -10/+50 %"
'''


def part(**details):
    return Part("C1", "capacitor", details, None, "")


PRINTED = part(marking="50 MFD 15 V -10/+50 %", capacitance=Q(50, "uF"), rated_voltage=Q(15, "V"))


def test_a_marking_is_read_with_the_sheet(tmp_path):
    """What is printed stands for what the sheet does not say; nonsense is refused with its line."""
    path = tmp_path / "sheet.toml"
    path.write_text(HEAD, encoding="utf-8")
    assert rating(read_sheet(path).parts["C1"]) == rating(PRINTED)
    path.write_text(HEAD.replace("50 MFD 15 V -10/+50 %", "hello"), encoding="utf-8")
    with pytest.raises(SheetError, match="marking"):
        read_sheet(path)


def judged(tmp_path, *readings):
    """Each reading is (quantity, value, condition)."""
    text = HEAD
    for quantity, value, condition in readings:
        name = "tester" if quantity == "capacitance" else "bridge"
        text += (f'[[reading]]\npart = "C1"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "{name}"\n'
                 f'stage = "as found"\ncondition = "{condition}"\n')
    path = tmp_path / "sheet.toml"
    path.write_text(text, encoding="utf-8")
    sheet = read_sheet(path)
    return judge_capacitor(sheet, Readings(sheet), sheet.parts["C1"], "as found")


def test_the_edges_by_hand():
    """50 uF, -10/+50 %: 45 to 75 uF as marked, worn out below 35. 15 V counts as 16: 0.17 / (2 pi 120 x 50 uF) is 4.509 ohm."""
    rated = rating(PRINTED)
    band = capacitance_band(rated)
    assert [edge.m_as("uF") for edge in (band.bad_down_from, band.sound_down_to, band.sound_up_to)] == pytest.approx([35, 45, 75])
    ohms = series_resistance_band(rated)
    assert ohms.sound_up_to.m_as("ohm") == pytest.approx(4.509, abs=1e-3)
    assert ohms.bad_from.m_as("ohm") == pytest.approx(3 * 4.509, abs=3e-3)


def test_what_stands_on_the_sheet_goes_before_the_print():
    rated = rating(part(marking="50 MFD 15 V -10/+50 %", capacitance=Q(100, "uF"), rated_voltage=Q(25, "V"), tolerance=0.1, place="the output"))
    assert rated.capacitance.m_as("uF") == 100 and rated.rated_voltage.m_as("V") == 25 and rated.place == "output"
    assert (rated.lower, rated.upper) == (-0.1, 0.1)


@pytest.mark.parametrize(("details", "told"), [
    ({}, 'capacitance = "47 uF"'),
    ({"capacitance": Q(1, "uF"), "style": "paper hat"}, "write one of: aluminium")])
def test_what_it_is_meant_to_be_must_be_known(details, told):
    with pytest.raises(NoBand, match=told):
        rating(part(**details))


@pytest.mark.parametrize(("value", "word", "told"), [
    ("50 uF", "sound", "a leak hides in it"), ("30 uF", "bad", "40 % below"), ("41.0 uF", "doubtful", "not yet worn out"),
    ("91 uF", "doubtful", "Too much is no bonus"), ("45 uF", "can't tell yet", "too uncertain beside the edges 45"),
    ("35.0 uF", "can't tell yet", "too uncertain beside 35 µF, where it would be worn out (published); sound is 45"), ("0.0 uF", "can't tell yet", "nothing")])
def test_capacitance(tmp_path, value, word, told):
    (one,) = judged(tmp_path, ("capacitance", value, "lifted"))
    assert one.verdict.word == word and told in one.reason


@pytest.mark.parametrize(("value", "word"), [("3.0 ohm", "sound"), ("8.0 ohm", "doubtful"), ("18.0 ohm", "bad"), ("4.5 ohm", "can't tell yet")])
def test_series_resistance(tmp_path, value, word):
    assert judged(tmp_path, ("series resistance", value, "lifted"))[0].verdict.word == word


@pytest.mark.parametrize(("quantity", "value", "word"), [
    ("capacitance", "50 uF", "can't tell yet"), ("capacitance", "30 uF", "doubtful"), ("series resistance", "3.0 ohm", "can't tell yet"),
    ("series resistance", "18.0 ohm", "can't tell yet")])
def test_in_circuit_only_what_cannot_be_otherwise_is_said(tmp_path, quantity, value, word):
    (one,) = judged(tmp_path, (quantity, value, "in circuit"))
    assert one.verdict.word == word and "in circuit" in one.reason


def test_repeats_that_contradict_each_other_are_told(tmp_path):
    found = judged(tmp_path, ("capacitance", "50.0 uF", "lifted"), ("capacitance", "80.0 uF", "lifted"))
    assert any(one.quantity == "contradiction" for one in found)


def test_a_verdict_is_seldom_wrong(tmp_path):
    """300 readings of parts whose true capacitance is known: at most one in twenty gets a wrong word."""
    rated, chance, wrong = rating(PRINTED), np.random.default_rng(5), 0
    band = capacitance_band(rated)
    text = HEAD
    truths = chance.uniform(25e-6, 95e-6, 300)
    parts = "".join(f'[[part]]\nname = "P{place}"\nkind = "capacitor"\nmarking = "50 MFD 15 V -10/+50 %"\n' for place in range(len(truths)))
    for place, truth in enumerate(truths):
        read = 1e6 * truth * (1 + chance.uniform(-0.02, 0.02)) + chance.uniform(-0.1, 0.1)
        parts += (f'[[reading]]\npart = "P{place}"\nquantity = "capacitance"\nvalue = "{read:.1f} uF"\ninstrument = "tester"\n'
                  'stage = "as found"\ncondition = "lifted"\n')
    path = tmp_path / "sheet.toml"
    path.write_text(text + parts, encoding="utf-8")
    sheet = read_sheet(path)
    readings = Readings(sheet)
    for place, truth in enumerate(truths):
        (one,) = judge_capacitor(sheet, readings, sheet.parts[f"P{place}"], "as found")
        true = ("bad" if truth < band.bad_down_from.m_as("F") else
                "sound" if band.sound_down_to.m_as("F") <= truth <= band.sound_up_to.m_as("F") else "doubtful")
        wrong += one.verdict.word not in (true, "can't tell yet")
    assert wrong <= 0.05 * len(truths)


def test_what_leakage_does_by_hand():
    """0.3 mA in 10 kohm are 3 V; through 8 ohm 2.4 mV; 2500 mAh by 0.3 mA are 347 days."""
    def said(place, **details):
        return " ".join(effects(part(**details), rating(part(capacitance=Q(50, "uF"), place=place)), leakage=Q(0.3, "mA")))

    assert "up to 3.00 V" in said("coupling", load=Q(10, "kohm")) and "load = " in said("coupling")
    assert "2.40 mV" in said("output") and "350 days" in said("supply")
    assert all(said(place) for place in PLACES)


def test_a_shift_at_the_collector_by_hand():
    """10 uA in 12 kohm are 120 mV; by 1 kohm and 12 kohm over the gain and one, times 3.9 kohm: 371 mV at 50, 453 mV at 400."""
    rated = rating(part(capacitance=Q(10, "uF"), place="coupling"))
    (said,) = effects(part(load=Q(12, "kohm")), rated, leakage=Q(10, "uA"), supply=Q(12, "V"))
    assert "sinks by 371 mV to 453 mV, for gains of 50 to 400" in said
    (said,) = effects(part(load=Q(12, "kohm")), rated, leakage=Q(300, "uA"), supply=Q(12, "V"))
    assert "sinks by" not in said, "the example stage has run out of volts"


def test_what_lost_capacitance_does_by_hand():
    """20 uF instead of 50 before 8 ohm: 995 Hz instead of 398; a time becomes 0.40 of what it was."""
    out = effects(part(), rating(part(capacitance=Q(50, "uF"), place="output")), capacitance=Q(20, "uF"))
    assert "995 Hz, where 398 Hz" in out[0]
    timing = effects(part(), rating(part(capacitance=Q(50, "uF"), place="timing")), capacitance=Q(20, "uF"))
    assert "0.40 times" in timing[0]


def test_equal_parts_share_a_line():
    bought = dict(capacitance=Q(47, "uF"), rated_voltage=Q(16, "V"))
    parts = [Part("C1", "capacitor", {**bought, "place": "supply"}, None, ""),
             Part("C2", "capacitor", {**PRINTED.details, "place": "coupling"}, None, ""),
             Part("C3", "capacitor", {**bought, "capacitance": Q(25, "uF"), "tolerance": 0.1}, None, "")]
    lines, left_out = shopping_list(parts)
    assert [(one.count, one.value.m_as("uF"), one.voltage.m_as("V")) for one in lines] == [
        (2, pytest.approx(47), 16), (1, pytest.approx(33), 16)]
    assert lines[0].names == ("C1", "C2") and not left_out


@pytest.mark.parametrize("volts", [4, 6, 6.3, 12, 15, 16, 30, 63])
def test_the_voltage_is_never_lower(volts):
    (line,), _ = shopping_list([part(capacitance=Q(10, "uF"), rated_voltage=Q(volts, "V"))])
    assert volts <= line.voltage.m_as("V") <= max(6.3, 2 * volts)


def test_what_cannot_be_bought_yet_says_why():
    _, left_out = shopping_list([part(capacitance=Q(10, "uF")), part(capacitance=Q(10, "uF"), rated_voltage=Q(350, "V"))])
    assert "rated_voltage" in left_out[0] and "out of these books' scope" in left_out[1]


def test_a_value_that_sets_a_time_is_kept():
    (line,), _ = shopping_list([part(capacitance=Q(25, "uF"), tolerance=0.05, rated_voltage=Q(16, "V"), place="timing")])
    assert line.value.m_as("uF") == pytest.approx(22) and "22 µF is not 25 µF" in line.line()
    (line,), _ = shopping_list([part(capacitance=Q(47, "uF"), rated_voltage=Q(16, "V"), place="timing")])
    assert line.value.m_as("uF") == pytest.approx(47) and "Keep the value" in line.line()
