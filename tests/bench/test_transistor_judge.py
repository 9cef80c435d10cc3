"""Transistors judged by their heat: expected junctions by hand, what is missing is asked for, before and after."""

import pytest

from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.report import json_report
from benchreckoner.bench.sheet import read_text
from benchreckoner.bench.transistor_judge import AT_WORST, JUNCTION, judge_transistors
from benchreckoner.units import Q

TOP = '''version = 1
[machine]
name = "trial"
supply = "9 V"
[[instrument]]
name = "meter"
accuracy = "0.5 % + 2 mV"
[[instrument]]
name = "amperes"
accuracy = "1 %"
[[instrument]]
name = "thermometer"
accuracy = "2 degC"
[[part]]
name = "cells"
kind = "cells"
count = 6
chemistry = "alkaline"
[[part]]
name = "motor"
kind = "motor"
[[action]]
name = "plate fitted"
'''
PLAY = [("pass", "voltage drop", "4.27 V", "meter"), ("motor", "current", "85.0 mA", "amperes"), ("cells", "voltage", "8.81 V", "meter"),
        ("cells", "voltage", "9.00 V", "meter", "off")]
SMALL = dict(junction_limit="150 degC", junction_air="200 K/W", temperature="35 degC")


def sheet(details, readings, top=TOP):
    lines = "\n".join(f'{key} = "{text}"' for key, text in details.items())
    text = f'{top}[[part]]\nname = "pass"\nkind = "transistor"\n{lines}\n'
    for part, quantity, value, instrument, *rest in readings:
        condition, stage = (*rest, *("playing", "as found")[len(rest):])
        text += (f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "{instrument}"\n'
                 f'stage = "{stage}"\ncondition = "{condition}"\n')
    return read_text(text)


def judged(details, readings=PLAY, quantity=JUNCTION, **more):
    report, = judge_transistors(sheet(details, readings, **more))
    return next(one for one in report.judgements if one.quantity == quantity)


def test_by_its_resistance_to_the_air():
    """4.27 V x 85 mA = 0.363 W; 35 + 200 x 0.363 = 107.6 degC."""
    one = judged(SMALL)
    assert one.known.plain == pytest.approx(35 + 200 * 4.27 * 0.085) and one.verdict.word == "sound"
    assert "362.9 ± 4.7 mW" in one.reason and "42 K below its limit" in one.reason and "common practice" in one.reason


def test_the_uncertainty_is_carried():
    """u: volts (0.5 % + 2 mV, last digit 5 mV), amperes 1 % and 0.05 mA, air 3 K, each over the root of three."""
    volts = ((0.005 * 4.27 / 3**0.5) ** 2 + (0.002 / 3**0.5) ** 2 + (0.005 / 3**0.5) ** 2) ** 0.5 / 4.27
    amperes = ((0.01 / 3**0.5) ** 2 + (0.05 / 85 / 3**0.5) ** 2) ** 0.5
    rise = 200 * 4.27 * 0.085
    expected = ((rise**2 * (volts**2 + amperes**2)) + (3 / 3**0.5) ** 2) ** 0.5
    assert judged(SMALL).known.number.std_dev == pytest.approx(expected, rel=1e-3)


def test_by_a_thermometer_on_its_case():
    """61 degC at the case and 8 K/W of 0.363 W: 63.9 degC; the air is then needed for the highest supply alone."""
    found = judged({"junction_limit": "150 degC", "junction_case": "8 K/W"}, [*PLAY, ("pass", "temperature", "61 degC", "thermometer")])
    assert found.known.plain == pytest.approx(61 + 8 * 4.27 * 0.085) and found.verdict.word == "sound"
    worst = judged({"junction_limit": "150 degC", "junction_case": "8 K/W"},
                   [*PLAY, ("pass", "temperature", "61 degC", "thermometer")], AT_WORST)
    assert worst.verdict.word == "can't tell yet" and "temperature =" in worst.next


def test_a_case_colder_than_its_air_is_told():
    case = [*PLAY, ("pass", "temperature", "20 degC", "thermometer")]
    one = judged({"junction_limit": "150 degC", "junction_case": "8 K/W", "temperature": "35 degC"}, case)
    assert one.verdict.word == "can't tell yet" and "colder than the 35 °C" in one.next


def test_a_body_is_known_however_it_is_spelled():
    assert judged(dict(junction_limit="150 degC", temperature="35 degC", style="Tab")).known is not None


def test_a_thermometer_goes_before_the_paper():
    both = {**SMALL, "junction_case": "8 K/W"}
    assert judged(both, [*PLAY, ("pass", "temperature", "61 degC", "thermometer")]).known.plain == pytest.approx(63.9, abs=0.05)


def test_over_a_plate():
    """P14: 50 mm of bare sheet 25.2 K/W at 40 K; about 29 at 10 K, half as strong an air current... so 35 + 0.363 x (29 + 1 + 8)."""
    one = judged({"junction_limit": "150 degC", "junction_case": "8 K/W", "plate_side": "50 mm", "temperature": "35 degC"})
    assert one.known.plain == pytest.approx(35 + 0.363 * 40, abs=1.5) and "20 %" in one.reason
    # 20 % of the plate's share alone, and 3 K of air, are limits: together a standard uncertainty of about 2.1 K.
    assert one.known.number.std_dev == pytest.approx(((0.2 * 11 / 3**0.5) ** 2 + 3) ** 0.5, rel=0.1)


def test_the_highest_supply():
    """Off load 0.19 V more than now: (4.27 + 0.19) x 85 mA = 0.3791 W, 110.8 degC."""
    one = judged(SMALL, quantity=AT_WORST)
    assert one.known.plain == pytest.approx(35 + 200 * 4.46 * 0.085, abs=0.05) and "190 mV more" in one.reason


@pytest.mark.parametrize(("off", "told"), [("8.81 V", "no more volts than now"), ("8.30 V", "more volts loaded than with nothing drawn")])
def test_a_supply_that_hardly_rises_and_one_that_falls(off, told):
    assert told in judged(SMALL, [*PLAY[:3], ("cells", "voltage", off, "meter", "off")], AT_WORST).reason


def test_an_adapter_that_was_never_read_off_load():
    """Marked 9 V, 1.6 times as much off load: 14.4 V, 5.59 V more; 9.86 V x 85 mA x 200 K/W + 35 = 202.6 degC."""
    top = TOP.replace('kind = "cells"\ncount = 6\nchemistry = "alkaline"', 'kind = "adapter"')
    one = judged(SMALL, PLAY[:3], AT_WORST, top=top)
    assert one.known.plain == pytest.approx(202.6, abs=0.1) and one.verdict.word == "bad" and "common practice" in one.reason
    assert "Switch off" in one.next


@pytest.mark.parametrize(("off", "volts", "told"), [("17.20 V", 17.2, "off load (as found)"), ("12.00 V", 14.4, "1.6 times")])
def test_what_an_adapter_once_gave_is_not_forgotten(off, volts, told):
    """Read off load before the plate was fitted; the higher of that and 1.6 times 9 V: (4.27 + volts - 8.81) V x 85 mA x 10 K/W + 35."""
    top = TOP.replace('kind = "cells"\ncount = 6\nchemistry = "alkaline"', 'kind = "adapter"')
    now = [(*row, "playing", "plate fitted") for row in PLAY[:3]]
    one = judged({**SMALL, "junction_air": "10 K/W"}, [*now, ("cells", "voltage", off, "meter", "off", "as found")], AT_WORST, top=top)
    assert one.known.plain == pytest.approx(35 + 10 * (volts - 4.54) * 0.085, abs=0.05) and told in one.reason


def test_what_cells_once_gave_says_nothing_of_those_in_it_now():
    now = [(*row, "playing", "plate fitted") for row in PLAY[:3]]
    one = judged(SMALL, [*now, ("cells", "voltage", "9.30 V", "meter", "off", "as found")], AT_WORST)
    assert one.known is None and "nothing drawn (off)" in one.next


@pytest.mark.parametrize(("air", "word"), [("20 degC", "sound"), ("64 degC", "doubtful"), ("90 degC", "bad"), ("52 degC", "can't tell yet")])
def test_the_bands(air, word):
    """72.6 K of rise; sound to 125 degC, bad from 150."""
    one = judged({**SMALL, "temperature": air})
    assert one.verdict.word == word
    assert (one.band.sound_up_to.m_as("degC"), one.band.bad_from.m_as("degC")) == (pytest.approx(125), 150)
    assert bool(one.next) == (word != "sound")


@pytest.mark.parametrize(("details", "readings", "told"), [
    (SMALL, PLAY[1:] + [("pass", "temperature", "61 degC", "thermometer")], "Read the voltage drop across pass"),
    (SMALL, [PLAY[0], *PLAY[2:]], "Read the current through pass, or the motor's"),
    (SMALL, [("pass", "voltage drop", "-4.27 V", "meter"), *PLAY[1:]], "probes turned round"),
    ({}, PLAY, 'junction_limit = "150 degC"'),
    ({"junction_limit": "150 degC"}, PLAY, "Touch its case with a thermometer while it runs"),
    ({"junction_limit": "150 degC", "temperature": "35 degC"}, PLAY, 'style = "small plastic"'),
    ({"junction_limit": "150 degC", "temperature": "35 degC", "plate_side": "50 mm"}, PLAY, 'junction_case = "3 K/W"'),
    ({"junction_limit": "150 degC", "temperature": "35 degC", "plate_side": "8 mm", "junction_case": "3 K/W"}, PLAY, "larger than the tab"),
    ({"junction_limit": "150 degC"}, [*PLAY, ("pass", "temperature", "61 degC", "thermometer")], 'junction_case = "3 K/W"'),
])
def test_what_is_missing_is_asked_for(details, readings, told):
    one = judged(details, readings)
    assert one.verdict.word == "can't tell yet" and one.known is None and told in one.next


@pytest.mark.parametrize(("readings", "told"), [
    (PLAY[:2], "Read the volts across cells (playing), and off"), (PLAY[:3], "with nothing drawn")])
def test_what_the_highest_supply_needs(readings, told):
    assert told in judged(SMALL, readings, AT_WORST).next


@pytest.mark.parametrize(("details", "middle"), [
    ({"style": "small plastic"}, 200), ({"style": "tab"}, 80), ({"style": "small plastic", "rated_power": "500 mW"}, 250)])
def test_by_its_body_or_rating(details, middle):
    """Bodies: 150 to 250 and 60 to 100 K/W (PRACTICE); 125 K over 0.5 W are 250 K/W."""
    one = judged({"junction_limit": "150 degC", "temperature": "25 degC", **details})
    assert one.known.plain == pytest.approx(25 + middle * 4.27 * 0.085)


def test_a_tab_transistors_rating_is_not_taken_for_free_air():
    """Its rating holds with the case kept cold: 40 W would make 3 K/W of it."""
    assert judged({"junction_limit": "150 degC", "temperature": "25 degC", "style": "tab", "rated_power": "40 W"}).known.plain > 50


def test_a_reading_with_the_power_off_says_nothing():
    assert judge_transistors(sheet(SMALL, [("pass", "voltage drop", "0.00 V", "meter", "off")])) == ()


def test_before_and_after():
    hot, cool = ([("pass", "temperature", value, "thermometer", "playing", stage),
                  *((*one[:4], one[4] if len(one) > 4 else "playing", stage) for one in PLAY)]
                 for value, stage in (("98 degC", "as found"), ("55 degC", "plate fitted")))
    reports = judge_transistors(sheet({"junction_limit": "150 degC", "junction_case": "8 K/W"}, hot + cool))
    assert [one.stage for one in reports] == ["plate fitted", "as found"]
    change, = comparisons(reports)
    assert change.real and change.change.plain == pytest.approx(-43, abs=0.1) and "down by 43.0 °C" in change.sentence()


def test_its_own_current_goes_before_the_motors():
    own = judged(SMALL, [*PLAY, ("pass", "current", "100 mA", "amperes")])
    assert own.known.plain == pytest.approx(35 + 200 * 0.427)


def test_a_row_for_other_programs_is_read_by_pint():
    rows = json_report(sheet(SMALL, PLAY))
    row = next(one for one in rows if one["quantity"] == JUNCTION)
    assert Q(row["value"]).m_as("K") == pytest.approx(107.6 + 273.15, abs=0.1) and Q(row["limit"]).m_as("degC") == pytest.approx(125)
    assert Q(row["uncertainty"]).m_as("K") == pytest.approx(3.6, abs=0.1)


def test_in_the_feed_chain_its_ohms_are_not_judged():
    made = sheet(SMALL, [*PLAY, ("pass", "voltage drop", "2.00 V", "meter", "playing", "plate fitted"),
                         ("motor", "current", "85.0 mA", "amperes", "playing", "plate fitted")])
    row = next(one for one in json_report(made) if (one["part"], one["quantity"]) == ("pass", "resistance"))
    assert row["verdict"] == "can't tell yet" and "see the transistors, part by part" in row["reason"]
    assert not [one for one in comparisons(judge_sheet(made)) if one.part == "pass"]
