"""What the judgements say of whole sheets."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from simulate import Truth, generator, make_sheet, sheet_of, sound_chain

from benchreckoner import project
from benchreckoner.bench.judge import CONTRADICTION, UNMEASURED, judge_sheet
from benchreckoner.bench.report import findings, json_report, text_report
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.bench.verdict import BAD, SOUND, UNTOLD
from benchreckoner.units import ureg

DEMO = project.CASES / "record_player.toml"
KINDS = {"spring": "supply contact", "switch": "switch", "plug": "plug and socket", "cells": 6}


def chain_of(sheet, condition="held"):
    for stage in judge_sheet(sheet):
        for chain in stage.chains:
            if chain.chain.condition == condition:
                return chain
    return None


def sheet(*rows):
    return make_sheet(Truth({"spring": 0, "switch": 0, "plug": 0}, 9, 1, 8, "held", kinds=KINDS), rows)


def held(part, quantity, value):
    return part, quantity, value, "second meter" if quantity == "current" else "meter", "held"


SOUND_ROWS = [("cells", "voltage", "9.00 V", "meter", "off"), held("cells", "voltage", "8.10 V"),
              held("motor", "voltage", "7.94 V"), held("motor", "current", "1.000 A"),
              held("spring", "voltage drop", "40.0 mV"), held("switch", "voltage drop", "90.0 mV"),
              held("plug", "voltage drop", "20.0 mV")]


def with_row(part, quantity, value, condition="held"):
    """The sound rows with one reading changed."""
    return sheet(*[(*row[:2], value, *row[3:]) if (row[0], row[1], row[4]) == (part, quantity, condition) else row
                   for row in SOUND_ROWS])


def verdicts(chain):
    return {one.part: one.verdict.word for one in chain.judgements}


def test_a_sound_chain_is_said_to_be():
    chain = chain_of(sheet(*SOUND_ROWS))
    assert set(verdicts(chain).values()) == {SOUND} and not chain.findings
    assert "is sound" in findings(sheet(*SOUND_ROWS))[0]


def test_the_demo_names_the_right_link():
    """Truth of the invented machine: spring 3 has 0.82 ohm; the cells lose more volts and are sound."""
    chain = chain_of_stage(DEMO, "as found")
    assert chain.guilty.part == "spring 3"
    assert abs(chain.guilty.known.plain - 0.82) <= chain.guilty.known.expanded.m_as("ohm")
    cells = next(one for one in chain.judgements if one.part == "cells")
    lost = cells.known.plain * chain.chain.current.plain
    assert cells.verdict.word == SOUND and lost > chain.chain.drops["spring 3"].plain


def chain_of_stage(path, name):
    return next(stage.main for stage in judge_sheet(read_sheet(path)) if stage.stage == name)


def test_volts_won_back_by_hand():
    """One bad link in a loop solved on paper: 9 V; 1 + 2 + 6 ohm; the link mended to 0.05 ohm."""
    rows = [("cells", "voltage", "9.000 V", "meter", "off"), held("cells", "voltage", "8.000 V"),
            held("motor", "voltage", "6.000 V"), held("motor", "current", "1.000 A"),
            held("spring", "voltage drop", "2.000 V")]
    chain = chain_of(sheet(*rows))
    gain = chain.guilty.gain
    assert gain.volts.plain == pytest.approx(9 * 6 / 7.05 - 6, rel=1e-6)
    assert gain.torque_ratio.plain == pytest.approx(9 / 7.05, rel=1e-6)
    assert not gain.at_most
    bound = chain_of(sheet(*rows[1:])).guilty.gain
    assert bound.at_most and bound.volts.plain == pytest.approx(8 * 6 / 6.05 - 6, rel=1e-6)
    assert "at most" in findings(sheet(*rows[1:]))[0]


def test_turning_the_current_is_taken_as_constant():
    rows = [(*row[:4], "playing" if row[4] == "held" else row[4]) for row in SOUND_ROWS]
    rows[4] = ("spring", "voltage drop", "800.0 mV", "meter", "playing")
    chain = chain_of(sheet(*rows), "playing")
    assert chain.guilty.gain.volts.plain == pytest.approx((0.8 - 0.05) * 1.0)
    assert chain.guilty.gain.torque_ratio is None


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6), st.floats(0.2, 3))
def test_scaling_all_drops_and_the_current_leaves_ohms_alone(seed, factor):
    rng = generator(seed)
    truth = sound_chain(rng)
    rows = [("motor", "current", "0.400 A", "second meter", "held")]
    rows += [(name, "voltage drop", f"{0.4 * ohms:.6f} V", "meter", "held") for name, ohms in truth.links.items()]
    scaled = [(part, quantity, f"{float(value.split()[0]) * factor:.13f} {value.split()[1]}", *rest)
              for part, quantity, value, *rest in rows]
    before, after = chain_of(make_sheet(truth, rows)), chain_of(make_sheet(truth, scaled))
    ohms = {one.part: one.known.plain for one in before.judgements}
    assert {one.part: one.known.plain for one in after.judgements} == pytest.approx(ohms, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6))
def test_one_more_sound_link_changes_no_other_verdict(seed):
    rng = generator(seed)
    truth = sound_chain(rng)
    truth.condition = "playing"  # the current stays as it is when the supply makes up for the new link
    plain = chain_of(sheet_of(truth, generator(seed)), "playing")
    more = Truth({**truth.links, "extra": 0.03}, truth.off_voltage + 0.12 * 0.03, truth.source_resistance,
                 truth.motor_resistance, "playing", kinds={**truth.kinds, "extra": "supply contact"})
    added = verdicts(chain_of(sheet_of(more, generator(seed)), "playing"))
    assert added.pop("extra") in (SOUND, UNTOLD)
    assert {name: added[name] for name in truth.links} == {name: verdicts(plain)[name] for name in truth.links}


def test_a_joint_nobody_listed_is_told_with_its_ohms():
    chain = chain_of(with_row("motor", "voltage", "7.44 V"))
    (finding,) = chain.findings
    assert finding.quantity == UNMEASURED and finding.known.plain == pytest.approx(0.51)
    assert "510" in finding.reason and "not in the list" in finding.reason
    assert "do not close" in findings(with_row("motor", "voltage", "7.44 V"))[0]


def test_a_link_that_was_not_read_is_asked_for():
    chain = chain_of(sheet(*[row for row in SOUND_ROWS if row[0] != "switch"]))
    assert verdicts(chain)["switch"] == UNTOLD
    switch = next(one for one in chain.judgements if one.part == "switch")
    assert "switch" in switch.next
    (finding,) = chain.findings
    assert finding.quantity == UNMEASURED and "switch" in finding.reason


@pytest.mark.parametrize(("row", "words"), [
    (("motor", "voltage", "8.10 V"), "drops add up"),
    (("spring", "voltage drop", "12.0 V"), "more than the whole supply"),
    (("spring", "voltage drop", "-40.0 mV"), "other way round"),
    (("cells", "voltage", "9.60 V"), "no source gains volts"),
])
def test_contradictions_are_told(row, words):
    chain = chain_of(with_row(*row))
    assert any(one.quantity == CONTRADICTION and words in one.reason for one in chain.findings)
    assert verdicts(chain)[row[0] if row[0] != "motor" else "spring"] in (UNTOLD, SOUND)
    assert all(one.verdict.word != BAD for one in chain.judgements)


def test_repeats_that_cannot_both_be_true_are_told():
    chain = chain_of(sheet(*SOUND_ROWS, held("spring", "voltage drop", "950 mV")))
    assert any("repeats of the voltage drop of spring" in one.reason for one in chain.findings)
    quiet = chain_of(sheet(*SOUND_ROWS, held("spring", "voltage drop", "40.1 mV")))
    assert not quiet.findings


def test_two_instruments_that_disagree_are_told():
    rows = [*SOUND_ROWS, held("cells", "current", "1.300 A")]
    chain = chain_of(sheet(*rows))
    assert any("different currents" in one.reason for one in chain.findings)
    assert all(verdicts(chain)[name] == UNTOLD for name in ("spring", "switch", "plug"))


@pytest.mark.parametrize("amperes", ["0.000 A", "0.001 A", "-0.500 A"])
def test_no_current_no_ohms(amperes):
    chain = chain_of(with_row("motor", "current", amperes))
    assert set(verdicts(chain).values()) == {UNTOLD}
    assert all(one.known is None for one in chain.judgements)


def test_an_ohmmeter_clears_but_does_not_condemn():
    text = DEMO.read_text(encoding="utf-8")
    text = text.replace('limit = "1.2 % + 2 mA" }]', 'limit = "1.2 % + 2 mA" }, { quantity = "resistance", limit = "1 % + 10 mohm" }]')

    def with_ohms(value):
        return read_text(text + f'\n[[reading]]\npart = "play switch"\nquantity = "resistance"\nvalue = "{value}"\n'
                         'instrument = "second meter"\nstage = "as found"\ncondition = "off"\n')

    assert verdicts(chain_of(with_ohms("0.070 ohm"), "off"))["play switch"] == SOUND
    assert verdicts(chain_of(with_ohms("0.900 ohm"), "off"))["play switch"] == UNTOLD
    slipped = chain_of(with_ohms("0.010 ohm"))
    assert not any("ohmmeter" in one.reason for one in slipped.findings)  # other stage first
    found = next(chain for stage in judge_sheet(with_ohms("0.010 ohm")) if stage.stage == "as found"
                 for chain in stage.chains if chain.chain.condition == "held")
    assert any("ohmmeter" in one.reason for one in found.findings)


def test_a_part_beyond_a_branch_needs_its_current_named():
    text = DEMO.read_text(encoding="utf-8")
    beyond = 'name = "play switch"\nkind = "switch"\n'
    assert beyond in text
    branched = read_text(text.replace(beyond, beyond + "after_branch = true\n"))
    named = read_text(text.replace(beyond, beyond + 'after_branch = true\ncurrent_from = "motor"\n'))
    assert verdicts(chain_of(branched))["play switch"] == UNTOLD
    assert verdicts(chain_of(named))["play switch"] == SOUND


def test_cells_of_another_chemistry_are_not_judged_by_the_wrong_band():
    sheet_text = DEMO.read_text(encoding="utf-8").replace('chemistry = "alkaline"', 'chemistry = "zinc-carbon"')
    cells = next(one for one in chain_of(read_text(sheet_text)).judgements if one.part == "cells")
    assert cells.verdict.word == UNTOLD and "alkaline" in cells.reason


def test_what_an_action_changed():
    lines = findings(read_sheet(DEMO))
    assert any("spring 3 went from" in line and "more than the uncertainty" in line for line in lines)
    assert not any("row bridge went" in line for line in lines)


def test_rows_for_other_programs():
    rows = json_report(read_sheet(DEMO))
    keys = ["part", "quantity", "stage", "condition", "value", "uncertainty", "limit", "verdict", "reason", "next"]
    assert all(list(row) == keys and all(isinstance(value, str) for value in row.values()) for row in rows)
    stages = [row["stage"] for row in rows]
    assert stages == sorted(stages, key=["platter bearing cleaned", "jack and control worked", "springs cleaned", "as found"].index)
    found = [row for row in rows if row["stage"] == "as found"]
    assert found[0]["part"] == "spring 3" and found[0]["verdict"] == BAD
    assert ureg.Quantity(found[0]["value"]).m_as("ohm") == pytest.approx(0.82, abs=0.02)
    assert ureg.Quantity(found[0]["limit"]).m_as("ohm") == pytest.approx(0.5)


def test_an_empty_sheet_asks_for_readings():
    empty = read_text('version = 1\n[machine]\nname = "trial"\nkind = "tape player"\n')
    assert "Nothing to judge yet" in findings(empty)[0]
    assert json_report(empty) == []
    assert "trial" in text_report(empty)


def test_every_practice_limit_says_so_beside_its_verdict():
    for one in chain_of_stage(DEMO, "as found").judgements:
        assert {"PRACTICE": "common practice", "MEMORY": "from memory"}[one.band.mark] in one.reason


def test_repeats_on_two_ranges_are_read_each_by_its_own():
    """An autoranging meter does this by itself; both repeats count, and their gap is told."""
    chain = chain_of(sheet(*SOUND_ROWS, held("spring", "voltage drop", "0.210 V")))
    assert any("repeats of the voltage drop of spring" in one.reason for one in chain.findings)


def test_a_part_on_a_branch_stays_out_of_the_motors_path():
    """A lamp's feed takes 0.15 V of its own 0.1 A: bad in itself, but no volts of the motor's."""
    text = DEMO.read_text(encoding="utf-8")
    text = text.replace('[[part]]\nname = "motor"\n', '[[part]]\nname = "lamp feed"\nkind = "lead"\ngauge = "AWG 24"\n'
                        'length = "20 cm"\nafter_branch = true\ncurrent_from = "lamp"\n\n[[part]]\nname = "lamp"\nkind = "lamp"\n\n'
                        '[[part]]\nname = "motor"\n')

    def extra(part, quantity, value, instrument):
        return (f'\n[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "{instrument}"\n'
                'stage = "springs cleaned"\ncondition = "held"\n')

    branched = read_text(text + extra("lamp feed", "voltage drop", "0.150 V", "meter")
                         + extra("lamp", "current", "0.100 A", "second meter"))
    chain = chain_of(branched)
    feed = next(one for one in chain.judgements if one.part == "lamp feed")
    assert feed.known.plain == pytest.approx(1.5) and feed.verdict.word == BAD and feed.gain is None
    assert chain.guilty is None and not chain.findings
    assert "not in the motor's own path" in findings(branched)[0]


def test_a_guilty_link_among_contradictions_is_only_guilty_if_the_readings_hold():
    line = findings(with_row("spring", "voltage drop", "0.800 V"))[0]
    assert "if the readings hold" in line and "sure" not in line and "more at the" not in line


def test_sound_is_said_only_with_drops_and_ends_and_says_what_could_still_hide():
    assert "nothing is known of the links" in findings(sheet(*SOUND_ROWS[:4]))[0]
    assert "Read the volts across the supply" in findings(sheet(*[row for row in SOUND_ROWS if row[:2] != ("motor", "voltage")]))[0]
    # 9 V range: two fixed parts of 10 mV and two half digits of 5 mV, a / sqrt(3) each, twice, at 1 A: about 18 mohm.
    assert "no joint above 2" in findings(sheet(*SOUND_ROWS))[0] or "no joint above 1" in findings(sheet(*SOUND_ROWS))[0]


def test_switched_off_there_is_no_chain_to_close():
    chain = chain_of(sheet(*SOUND_ROWS, ("motor", "voltage", "0.00 V", "meter", "off")))
    assert not chain.findings


def test_two_bad_links_stand_in_the_order_of_the_volts_they_give_back():
    rows = [("cells", "voltage", "9.00 V", "meter", "off"), held("cells", "voltage", "8.00 V"),
            held("motor", "voltage", "4.58 V"), held("motor", "current", "1.000 A"),
            held("spring", "voltage drop", "1.400 V"), held("switch", "voltage drop", "2.000 V"), held("plug", "voltage drop", "20.0 mV")]
    chain = chain_of(sheet(*rows))
    assert [one.part for one in chain.judgements[:2]] == ["switch", "spring"]
    assert chain.judgements[0].won_back > chain.judgements[1].won_back > 0


def test_a_second_source_is_no_link():
    text = DEMO.read_text(encoding="utf-8").replace('[[part]]\nname = "spring 1"', '[[part]]\nname = "mains adapter"\nkind = "adapter"\n\n[[part]]\nname = "spring 1"')
    assert "mains adapter" not in [one.part for one in chain_of(read_text(text)).judgements]


def test_above_63_volts_a_reading_is_refused():
    with pytest.raises(ValueError, match="above 63 V"):
        read_text(DEMO.read_text(encoding="utf-8").replace('value = "9.14 V"', 'value = "230 V"'))


def with_ohmmeter(value, more=""):
    """The demo with an ohmmeter's reading of its play switch, and what is known of that meter."""
    text = DEMO.read_text(encoding="utf-8")
    text = text.replace('limit = "1.2 % + 2 mA" }]', 'limit = "1.2 % + 2 mA" }, '
                        '{ quantity = "resistance", limit = "1 % + 10 mohm" }]' + more)
    return read_text(text + f'\n[[reading]]\npart = "play switch"\nquantity = "resistance"\nvalue = "{value}"\n'
                     'instrument = "second meter"\nstage = "as found"\ncondition = "off"\n')


def test_an_ohmmeters_reading_near_a_limit_without_any_current():
    assert verdicts(chain_of(with_ohmmeter("0.105 ohm"), "off"))["play switch"] == UNTOLD


@pytest.mark.parametrize("more", ['\nleads = "0.2 ohm"', "\nfour_wire = true"])
def test_an_ohmmeter_whose_leads_are_known_may_condemn(more):
    assert verdicts(chain_of(with_ohmmeter("0.900 ohm", more), "off"))["play switch"] == BAD


@pytest.mark.parametrize(("volts", "amperes", "words"), [("0.1 %", "3 %", "The current is the coarse one"),
                                                          ("3 %", "0.1 %", "Read the drop across spring again")])
def test_the_coarse_reading_is_the_one_to_take_again(volts, amperes, words):
    """51 mohm with 1.7 % in either reading: told apart from 50 mohm by 1.2 %, so that reading must get finer."""
    text = f"""version = 1
[[instrument]]
name = "meter"
accuracy = "{volts}"
[[instrument]]
name = "ammeter"
accuracy = "{amperes}"
[[part]]
name = "spring"
kind = "supply contact"
[[part]]
name = "motor"
kind = "motor"
"""
    for one, quantity, value, instrument in (("spring", "voltage drop", "51.00 mV", "meter"), ("motor", "current", "1.0000 A", "ammeter")):
        text += (f'[[reading]]\npart = "{one}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "{instrument}"\n'
                 'stage = "as found"\ncondition = "held"\n')
    (near,) = chain_of(read_text(text)).judgements
    assert near.verdict.word == UNTOLD and near.next.startswith(words)


def test_findings_on_the_whole_chain_stand_behind_what_is_bad():
    rows = [(*row[:2], "900.0 mV", *row[3:]) if row[0] == "spring" else row for row in SOUND_ROWS]
    found = [(row["part"], row["verdict"]) for row in json_report(sheet(*rows))]
    assert found[0] == ("spring", BAD) and found[1][0] == "feed chain"
