"""One typed line from a part: every reading that fits, and errors that say what it could mean."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner.bench.part_marking import read_marking, tolerance_words
from benchreckoner.physics.colour_bands import COLOURS, colours
from benchreckoner.physics.markings import letter_code, old_words, three_figures
from benchreckoner.physics.preferred import SERIES
from benchreckoner.units import Q, show_exact

UNITS = {"resistor": "ohm", "capacitor": "F"}


def shown(text, part):
    return [(show_exact(one.value, UNITS[part]), tolerance_words(one)) for one in read_marking(text, part)]


@pytest.mark.parametrize(("text", "first"), [
    ("yellow violet orange gold", ("47 kΩ", "±5 %")), ("Yellow, Violet,Orange ,gold", ("47 kΩ", "±5 %")),
    ("yellow-violet-orange", ("47 kΩ", "±20 %")), ("gold orange violet yellow", ("47 kΩ", "±5 %")),
    ("orange orange black brown purple", ("3.3 kΩ", "±0.1 %")), ("R47", ("470 mΩ", "no tolerance marked")),
    ("4k7 J", ("4.7 kΩ", "±5 %")), ("4,7 kΩ 10%", ("4.7 kΩ", "±10 %")), ("474", ("470 kΩ", "no tolerance marked")),
    ("103K", ("10 kΩ", "±10 %")),
])
def test_a_resistor_is_read(text, first):
    assert shown(text, "resistor")[0] == first


@pytest.mark.parametrize(("text", "first"), [
    ("473K 330V", ("47 nF", "±10 %")), ("50 MFD -10 +50% 25 WVDC", ("50 µF", "−10/+50 %")), ("250 mmf", ("250 pF", "no tolerance marked")),
    ("4µ7", ("4.7 µF", "no tolerance marked")), ("\"u47\"", ("470 nF", "no tolerance marked")), ("220 µF 16 V", ("220 µF", "no tolerance marked")),
    ("10 MF", ("10 µF", "no tolerance marked")), (".05", ("50 nF", "no tolerance marked")), ("4.7nK", ("4.7 nF", "±10 %")),
    ("100 uF, +50/-10 %, 6.3 V", ("100 µF", "−10/+50 %")), ("16 V.D.C. 22u", ("22 µF", "no tolerance marked")),
])
def test_a_capacitor_is_read(text, first):
    assert shown(text, "capacitor")[0] == first


def test_the_printed_voltage_is_told():
    assert read_marking("473K 330V", "capacitor")[0].rated == Q(330, "V")
    assert read_marking("100uF 6,3V", "capacitor")[0].rated == Q(6.3, "V")
    assert read_marking("100uF", "capacitor")[0].rated is None


def test_bands_that_read_from_both_ends_are_told_both_ways():
    """Brown black black red brown is 10 kilohm; from the other end the same bands are 120 ohm, and both are made."""
    assert shown("brown black black red brown", "resistor") == [("10 kΩ", "±1 %"), ("120 Ω", "±1 %")]
    assert shown("brown black black black brown", "resistor")[0] == ("100 Ω", "±1 %")


def test_the_made_value_stands_first():
    """From the left 2.3 kilohm, which no series holds; from the other end 12 kilohm, which E12 holds."""
    assert shown("red orange red brown", "resistor") == [("12 kΩ", "±2 %"), ("2.3 kΩ", "±1 %")]


def test_no_part_of_these_books_is_as_large_as_that():
    assert {value for value, _ in shown("470F", "capacitor")} == {"47 pF", "470 pF"}


def test_what_the_trade_leaves_out_is_told_as_several_readings():
    assert [value for value, _ in shown("100", "capacitor")] == ["10 pF", "100 pF", "100 µF"]
    assert [value for value, _ in shown("10 mF", "capacitor")] == ["10 µF", "10000 µF"]


@given(value=st.sampled_from(SERIES["E24"]), power=st.integers(0, 6), tolerance=st.sampled_from([0.05, 0.1, 0.02, 0.01]))
def test_a_written_resistor_is_among_its_readings(value, power, tolerance):
    wanted = Q(value * 10.0**power, "ohm")
    for text in (" ".join(colours(resistance=wanted, tolerance=tolerance)), letter_code(value=wanted),
                 ", ".join(reversed(colours(resistance=wanted, tolerance=tolerance, bands=5)))):
        assert any(one.value.m_as("ohm") == pytest.approx(wanted.m_as("ohm")) for one in read_marking(text, "resistor"))


@given(value=st.sampled_from(SERIES["E12"]), power=st.integers(-11, -5), letter=st.sampled_from("JKMZT"))
def test_a_written_capacitor_is_among_its_readings(value, power, letter):
    wanted = Q(value * 10.0**power, "F")
    for text in (letter_code(value=wanted, tolerance=letter), old_words(capacitance=wanted) + " -10/+50 % 25 V",
                 three_figures(value=wanted, tolerance=letter) if power < -5 else letter_code(value=wanted)):
        assert any(one.value.m_as("F") == pytest.approx(wanted.m_as("F")) for one in read_marking(text, "capacitor"))


@pytest.mark.parametrize(("text", "part", "told"), [
    ("4X7", "resistor", '"4R7" (4.7 Ω), "4K7" (4.7 kΩ) or "4M7" (4.7 MΩ)'), ("47O", "resistor", '"470" (47 Ω)'),
    ("4R7", "capacitor", '"4n7" (4.7 nF)'), ("10 ML", "capacitor", '"10 MF" (10 µF)'),
    ("yellow violet orange black", "resistor", '"yellow violet orange brown" (47 kΩ, ±1 %)'),
    ("brn blk red gld", "resistor", '"brown black red gold" (1 kΩ, ±5 %)'), ("red pink red", "resistor", '"pink" is no colour'),
    ("red red", "resistor", "three, four or five"), ("red red red", "capacitor", "measure it"),
    ("", "resistor", "nothing written"), ("4" * 61, "resistor", "60 characters"), ("hello", "capacitor", "Nothing near it"),
])
def test_nonsense_is_told_what_it_could_mean(text, part, told):
    with pytest.raises(ValueError, match=re.escape(told)) as caught:
        read_marking(text, part)
    assert str(caught.value).startswith("Marking: ")


TYPED = st.one_of(st.text(max_size=20), st.text("0123456789RKMGpnuµFVmJ./+-% ", max_size=12),
                  st.lists(st.sampled_from(COLOURS), min_size=1, max_size=6).map(" ".join))


@settings(max_examples=200)
@given(text=TYPED, part=st.sampled_from(list(UNITS)))
def test_anything_typed_is_read_or_refused_with_markings_that_read(text, part):
    try:
        readings = read_marking(text, part)
    except ValueError as error:
        for offered in re.findall(r'"([^"]+)" \(', str(error)):
            assert read_marking(offered, part)
        return
    for one in readings:
        low, high = one.limits or (one.value, one.value)
        assert low <= one.value <= high and one.how
