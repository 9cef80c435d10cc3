"""A sheet of twenty-three mixed capacitors, some tested in two ways: the words a careful repairer would sign, and why."""

from dataclasses import replace

import pytest

from benchreckoner.bench.capacitor_effects import effects
from benchreckoner.bench.capacitor_limits import rating
from benchreckoner.bench.capacitor_sheet import part_verdicts
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.bench.shopping import shopping_list
from benchreckoner.units import Q

HEAD = '''version = 1
[machine]
name = "trial"
kind = "tape player"
supply = "12 V"
[[instrument]]
name = "charge tester"
accuracy = "3 % + 0.02 uF"
principle = "charge time"
[[instrument]]
name = "bridge"
accuracy = "2 % + 0.02 uF"
principle = "bridge"
[[instrument]]
name = "old tester"
accuracy = "3 % + 0.02 uF"
[[instrument]]
name = "ohms bridge"
accuracy = "5 % + 0.1 ohm"
[[instrument]]
name = "meter"
accuracy = "0.8 % + 0.2 mV"
input_resistance = "10 Mohm"
'''
LEAK = 'after = "{after}"\napplied = "{applied}"\nseries_resistor = "10 kohm"\n'


def farads(value, by="charge tester", condition="lifted"):
    return "capacitance", value, by, condition, ""


def ohms(value, condition="lifted"):
    return "series resistance", value, "ohms bridge", condition, ""


def leaks(*volts, applied="16 V", condition="lifted"):
    """Volts across 10 kohm after 1, 2 and 5 minutes."""
    return [("voltage drop", value, "meter", condition, LEAK.format(after=after, applied=applied))
            for after, value in zip(("1 min", "2 min", "5 min"), volts)]


GOOD = leaks("40.0 mV", "24.0 mV", "12.0 mV")  # 1.2 uA after five minutes
GROSS = leaks("6.00 V", "5.80 V", "5.60 V")  # 560 uA, and hardly falling
PART = 'capacitance = "47 uF"\nrated_voltage = "16 V"\nmade = "1978"\n'
OLD = 'marking = "50 MFD 15 V -10/+50 %"\nmade = "1952"\n'
CASES = {
    "all three sound": (PART, [farads("48.0 uF"), ohms("1.5 ohm"), *GOOD], "sound", "within"),
    "sound, ohms not read": (PART, [farads("46.0 uF"), *GOOD], "sound", "as it dries out"),
    "capacitance alone": (PART, [farads("47.0 uF")], "can't tell yet", "a leak hides in it"),
    "dried out": (PART, [farads("21.0 uF"), ohms("18.0 ohm"), *GOOD], "bad", "below what it should be"),
    "ohms alone bad": (PART, [farads("45.0 uF"), ohms("22.0 ohm"), *GOOD], "bad", "three times that"),
    "ohms doubtful": (PART, [farads("45.0 uF"), ohms("9.0 ohm"), *GOOD], "doubtful", "old ones had"),
    "a little low": (PART, [farads("35.0 uF"), *GOOD], "doubtful", "not yet worn out"),
    "leaks grossly": (PART, [farads("47.5 uF"), *GROSS], "bad", "over each of"),
    "reads high": (PART, [farads("68.0 uF")], "doubtful", "no bonus"),
    "high and leaks": (PART, [farads("68.0 uF"), *GROSS], "bad", "over each of"),
    "two ways agree": (PART, [farads("47.0 uF"), farads("46.8 uF", "bridge"), *GOOD], "sound", "within"),
    "two ways disagree": (PART, [farads("80.0 uF"), farads("47.0 uF", "bridge")], "doubtful", "80.0 ± 2.8 µF on charge tester"),
    "two ways, one principle unknown": (PART, [farads("80.0 uF"), farads("47.0 uF", "old tester")], "doubtful", "disagree are a finding"),
    "in circuit only": (PART, [farads("52.0 uF", condition="in circuit")], "can't tell yet", "in circuit"),
    "in circuit, ohms high": (PART, [ohms("30.0 ohm", "in circuit")], "can't tell yet", "more or less"),
    "in circuit, far too low": (PART, [farads("12.0 uF", condition="in circuit")], "doubtful", "only add"),
    "not read": (PART, [], "can't tell yet", ""),
    "old and wide": (OLD, [farads("66.0 uF"), *leaks("40.0 mV", "24.0 mV", "12.0 mV", applied="15 V")], "sound", "marked tolerance"),
    "old, rules disagree": (OLD, [farads("55.0 uF"), *leaks("0.40 V", "0.33 V", "0.25 V", applied="15 V")], "doubtful", "rules disagree"),
    "above its voltage": (PART, [farads("47.0 uF"), *leaks("40.0 mV", "24.0 mV", "12.0 mV", applied="25 V")], "can't tell yet", "made for"),
    "reads nothing": (PART, [farads("0.00 uF")], "can't tell yet", "gave up"),
    "film, near": ('capacitance = "1 uF"\nrated_voltage = "63 V"\nstyle = "film"\ntolerance = "10 %"\n', [farads("1.02 uF")], "can't tell yet", "within"),
    "bulged": (PART, [farads("47.0 uF"), ohms("1.5 ohm"), *GOOD], "bad", "Seen: bulged"),
}


@pytest.fixture(scope="module")
def verdicts(tmp_path_factory):
    text = HEAD
    for name, (details, *_) in CASES.items():
        text += f'[[part]]\nname = "{name}"\nkind = "capacitor"\nplace = "coupling"\nload = "10 kohm"\n{details}'
    for name, (_, readings, *_) in CASES.items():
        for quantity, value, instrument, condition, more in readings:
            text += (f'[[reading]]\npart = "{name}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "{instrument}"\n'
                     f'stage = "as found"\ncondition = "{condition}"\n{more}')
    text += '[[observation]]\npart = "bulged"\nwhat = "bulged"\nstage = "as found"\n'
    path = tmp_path_factory.mktemp("sheet") / "sheet.toml"
    path.write_text(text, encoding="utf-8")
    return {one.part.name: one for one in part_verdicts(read_sheet(path))}


def test_there_are_twenty_three(verdicts):
    assert len(verdicts) == len(CASES) == 23


@pytest.mark.parametrize("name", CASES)
def test_the_word_and_its_reason(verdicts, name):
    _, _, word, told = CASES[name]
    assert verdicts[name].word == word, verdicts[name].reasons
    assert told in " ".join(verdicts[name].reasons)
    assert not any(sign in " ".join((*verdicts[name].reasons, *verdicts[name].effects)) for sign in ("nan", "inf ", "e+0", "e-0"))


def test_every_part_that_cannot_be_told_says_what_to_do(verdicts):
    assert all(one.next or one.reasons for one in verdicts.values() if one.word == "can't tell yet")


def test_a_shift_never_passes_the_supply(verdicts):
    """560 uA in 10 kohm are 5.6 V of 12; in 47 kohm they would be 26 V, and the machine has 12."""
    assert "up to 5.61 V" in verdicts["leaks grossly"].effects[0]
    part = verdicts["leaks grossly"].part
    wide = effects(replace(part, details={**part.details, "load": Q(47, "kohm")}), rating(part), leakage=Q(560, "uA"), supply=Q(12, "V"))
    assert "as far as the supply of 12 V goes" in wide[0]


def test_equal_bad_parts_are_bought_together(verdicts):
    lines, left_out = shopping_list([one.part for one in verdicts.values() if one.word == "bad"])
    assert [one.count for one in lines] == [5] and not left_out


BULGED = ('[[part]]\nname = "C5"\nkind = "capacitor"\ncapacitance = "47 uF"\n[[action]]\nname = "lid off"\n{}'
          '[[observation]]\npart = "C5"\nwhat = "bulged"\nstage = "{}"\n')


@pytest.mark.parametrize(("fitted", "stage", "word"), [
    ("", "as found", "bad"),
    ('fitted = ["C5"]\n', "as found", "can't tell yet"),
    ('fitted = ["C5"]\n', "lid off", "bad"),
])
def test_what_was_seen_holds_until_another_is_fitted(fitted, stage, word):
    verdict, = part_verdicts(read_text("version = 1\n" + BULGED.format(fitted, stage)))
    assert verdict.word == word
