"""A hundred damaged sheets, each refused with its line and entry, and left as it is."""

import random
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner.bench.sheet import Sheet, SheetError, read_sheet, read_text

TEXT = Path(__file__).with_name("sample_sheet.toml").read_text(encoding="utf-8")
LINES = TEXT.splitlines()
COUNT = 100


def where(pattern, chance):
    """A random line that matches."""
    return chance.choice([number for number, line in enumerate(LINES) if re.search(pattern, line)])


def swap(number, line):
    """The sheet with one line in other words, and where the fault is then told."""
    return [*LINES[:number], line, *LINES[number + 1:]], number + 1


def rewrite(pattern, *written):
    """Damage that gives a random matching line another value."""
    def damage(chance):
        number = where(pattern, chance)
        return swap(number, LINES[number].split(" = ")[0] + " = " + chance.choice(written))
    return damage


def append(*tables):
    """Damage by a faulty table at the end; its line `!` is the one at fault."""
    def damage(chance):
        lines = [*LINES, *chance.choice(tables).split("\n")]
        line = next(number for number, line in enumerate(lines, 1) if line.startswith("!"))
        return [one.removeprefix("!") for one in lines], line
    return damage


def reading(**keys):
    """A reading at the end, faulty in the keys given."""
    usual = {"part": "motor", "quantity": "current", "value": "150 mA", "instrument": "meter",
             "stage": "as found", "condition": "playing"}
    return "[[reading]]\n" + "\n".join(f'{"!" * (key in keys)}{key} = "{value}"' for key, value in (usual | keys).items())


def misspell(pattern, group=0):
    """Damage that doubles a random letter of a key, a table or a word of ours."""
    def damage(chance):
        number = where(pattern, chance)
        start, end = re.search(pattern, LINES[number]).span(group)
        at = chance.randrange(start, end)
        return swap(number, LINES[number][:at] + "x" + LINES[number][at:])
    return damage


def remove(pattern, text):
    """Damage that loses a piece of a line."""
    def damage(chance):
        number = where(pattern, chance)
        return swap(number, LINES[number].replace(text, "", 1))
    return damage


def lose_a_key(chance):
    number = where(r'^(part|quantity|value|instrument|stage|condition) = ', chance)
    header = max(above for above in range(number) if LINES[above].startswith("[["))
    return LINES[:number] + LINES[number + 1:], header + 1


def twice(chance):
    number = where(r'^\w+ = "', chance)
    return [*LINES[:number + 1], LINES[number], *LINES[number + 1:]], number + 2


def cut_short(chance):
    number = where(r'^\w+ = ".*"$', chance)
    return [*LINES[:number], LINES[number][:-chance.randrange(1, 4)]], number + 1


def nonsense(chance):
    number = where(r"^$", chance)
    return swap(number, chance.choice(["???", "= 3", "part", "[", "[[]]", "[machine", "part = ", "\x00", '"""', "a.b.c",
                                       "x = 0x", "x = 1979-13-45", "x = {", "x = tru"]))


DAMAGES = {
    "value without unit": rewrite(r"^value", '"171"', '"0,2"', '"12."'),
    "value without quotation marks": rewrite(r"^value", "171", "4.83", "-2", "true", "[]", "{}", "1979-05-27"),
    "value that is no number": rewrite(r"^value", '"nan V"', '"inf A"', '"1e400 V"', '"-1e400 mA"', '"0e999 V"', "nan"),
    "value with two commas": rewrite(r"^value", '"1,234,5 V"', '"1.2.3 V"', '"1,2.3 V"', '"1..2 V"', '"V"', '"- V"'),
    "value of another dimension": rewrite(r"^value", '"3 kg"', '"171 F"', '"2 min"', '"3 mohm"', '"3 dB"'),
    "value not quoted": rewrite(r"^value", "171 mV", "4,83 V", "12mV"),
    "misspelt key": misspell(r"^(\w+) = ", 1),
    "misspelt table": misspell(r"^\[\[(\w+)\]\]", 1),
    "misspelt machine": misspell(r"^\[(machine)\]", 1),
    "misspelt kind": misspell(r'^kind = "((?!record)[a-z ]+)"', 1),
    "misspelt quantity": misspell(r'^quantity = "([a-z ]+)"', 1),
    "misspelt condition": misspell(r'^condition = "([a-z ]+)"', 1),
    "misspelt part": misspell(r'^part = "([a-z ]+)"', 1),
    "misspelt instrument": misspell(r'^instrument = "([a-z ]+)"', 1),
    "misspelt stage": misspell(r'^stage = "([a-z ]+)"', 1),
    "lost key": lose_a_key,
    "key twice": twice,
    "lost quotation mark": remove(r'^\w+ = "[^"]*"$', '"'),
    "lost equals sign": remove(r'^\w+ = "', "="),
    "lost bracket": remove(r"^\[\[", "["),
    "lost closing bracket": remove(r"^\[\[", "]"),
    "cut short": cut_short,
    "nonsense": nonsense,
    "version": rewrite(r"^version", "2", "99", '"1"', "0", "-1", "true", "1.0"),
    "name twice": append('[[part]]\n!name = "motor"\nkind = "lamp"',
                         '[[instrument]]\n!name = "meter"\naccuracy = "1 %"',
                         '[[action]]\n!name = "end spring cleaned"'),
    "action as found": append('[[action]]\n!name = "as found"', '[[action]]\n!name = "As Found"'),
    "empty name": rewrite(r"^(name|what)", '""', '"  "', "3", "[]", '"a\\u0000b"'),
    "second motor": append('[[part]]\nname = "second motor"\n!kind = "motor"'),
    "count": rewrite(r"^count", "0", "-4", '"4"', "4.5", "true", "99999999999999999999"),
    "detail": rewrite(r"^(length|rated_voltage)", '"38"', "38", '"-3 cm"', '"0 V"', '"3 kg"', '"1e400 m"'),
    "current from nowhere": rewrite(r"^current_from", '"lamps"', '"lamp feed"', '""', "3", "true"),
    "branch": rewrite(r"^after_branch", '"true"', "1", '"yes"'),
    "accuracy": rewrite(r'^accuracy = "', '"0.2"', '"1 % + 2 %"', '"0 s"', '"-1 s"', '"2 % FS"', '"good"', "3", "[]", "{}",
                        '[{ quantity = "time" }]', '[{ limit = "1 %" }]', '[{ quantity = "tim", limit = "1 %" }]'),
    "range of an accuracy": misspell(r'\{ (quantity) = "voltage"', 1),
    "below zero": append(reading(quantity="resistance").replace('!quantity', 'quantity').replace(
        'value = "150 mA"', '!value = "-3 ohm"')),
    "instrument that promises nothing": append(reading(instrument="stopwatch")),
    "beyond every range": rewrite(r'^value = "(6,28|171)', '"250 V"', '"-21 V"'),
    "beyond its range": rewrite(r"^range", '"20 mV"', '"170 mV"', '"2 kV"', '"0 V"', '"200 mA"', '"200"'),
    "time": rewrite(r"^(after|planned|took)", '"2"', "2", '"2 V"', '"-2 min"', '"nan min"', '"soon"'),
    "fitted": rewrite(r"^fitted", '"end spring"', "[1]", '["end sprig"]', '[["end spring"]]'),
    "taken off": rewrite(r"^taken_off", '"lid"', "[1]", '["lid", ""]', '[["lid"]]'),
    "supply": rewrite(r"^supply", '"6"', "6", '"6 A"', '"-6 V"', '"0 V"', '"230 V"'),
}


def damaged_sheets():
    """The seeded sheets, no two alike: what was done to each, its text, the line of its fault."""
    chance, sheets = random.Random(4711), {}
    while len(sheets) < COUNT:
        for name, damage in DAMAGES.items():
            lines, line = damage(chance)
            sheets["\n".join(lines) + "\n"] = (name, line)
    return [(name, text, line) for text, (name, line) in list(sheets.items())[:COUNT]]


SHEETS = damaged_sheets()
# These may be told at another line: where the text stops making sense, or at the entry that is then missing.
TOLD_LATER = {"lost quotation mark", "lost bracket", "lost closing bracket", "cut short", "nonsense", "beyond its range",
              "beyond every range", "misspelt table", "lost equals sign"}


def test_the_sheet_before_the_damage_is_sound():
    assert isinstance(read_text(TEXT), Sheet)


def test_the_damage_is_of_many_kinds():
    assert len(SHEETS) == COUNT
    assert {name for name, _, _ in SHEETS} == set(DAMAGES)
    assert all(text != TEXT for _, text, _ in SHEETS)


@pytest.mark.parametrize(("name", "text", "line"), SHEETS,
                         ids=[f"{number}-{name}" for number, (name, _, _) in enumerate(SHEETS)])
def test_a_damaged_sheet_is_refused(name, text, line, tmp_path):
    path = tmp_path / "damaged.toml"
    path.write_bytes(text.encode("utf-8"))
    with pytest.raises(SheetError) as caught:
        read_sheet(path)
    fault = caught.value
    assert fault.source == "damaged.toml"
    assert fault.entry
    assert str(fault).startswith(f"damaged.toml, line {fault.line}, {fault.entry}: ")
    assert "rite " in str(fault) or "for example" in str(fault) or "version = 1" in str(fault)
    assert 1 <= fault.line <= text.count("\n")
    if name not in TOLD_LATER:
        assert fault.line == line
    assert path.read_bytes() == text.encode("utf-8")


PIECES = ['"', "'", '"""', "[", "]", "[[", "]]", "{", "}", "=", "#", "\n", "\r", ",", ".", "\\", "\ufeff", "\x00", "1e999",
          "[[reading]]", "[reading]", "[part.x]", "value = ", "nan", "-", "%", "+", "±", "9" * 400, "k7", "degC", "dB"]


@settings(max_examples=300, deadline=None)
@given(data=st.data())
def test_any_damage_at_all_gives_a_sheet_or_an_error_of_ours(data):
    text = TEXT
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        end = data.draw(st.integers(start, min(len(text), start + 30)))
        piece = data.draw(st.sampled_from(PIECES) | st.text(max_size=5))
        text = text[:start] + piece + text[end:]
    try:
        read_text(text)
    except SheetError as fault:
        assert 1 <= fault.line <= text.count("\n") + 1
        assert fault.entry


@settings(deadline=None)
@given(st.text())
def test_any_value_typed_gives_a_reading_or_an_error_of_ours(value):
    quoted = '"' + "".join(sign if sign.isalnum() else f"\\U{ord(sign):08X}" for sign in value) + '"'
    text = TEXT.replace('"171 mV"', quoted)
    try:
        assert read_text(text).readings[1].text == value
    except SheetError as fault:
        assert fault.entry in ("reading 2, value", "reading 2, instrument")
