"""Markings read and written: what is written is read back, and what means nothing is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics.colour_bands import COLOURS, DIGITS, TOLERANCES, colour_name, colour_value, colours
from benchreckoner.physics.markings import (letter_code, letter_code_value, old_words, old_words_value, three_figures,
                                            three_figures_value)
from benchreckoner.physics.preferred import SERIES
from benchreckoner.physics.tolerances import letter_tolerance, printed_tolerance
from benchreckoner.units import Q

E24 = st.sampled_from(SERIES["E24"])
E96 = st.sampled_from(SERIES["E96"])
LETTERS = "BCDFGHJKMNQTSZ"


def close(value, wanted, unit):
    return value.m_as(unit) == pytest.approx(wanted, rel=1e-9)


@given(value=E24, power=st.integers(-1, 9), tolerance=st.sampled_from([*TOLERANCES.values(), 0.2]))
def test_four_bands_written_are_read_back(value, power, tolerance):
    words = colours(resistance=Q(value * 10.0**power, "ohm"), tolerance=tolerance)
    read = colour_value(bands=words)
    assert len(words) == (3 if tolerance == 0.2 else 4)
    assert close(read.value, value * 10.0**power, "ohm") and (read.lower, read.upper) == (-tolerance, tolerance)


@given(value=E96, power=st.integers(0, 9), tolerance=st.sampled_from(list(TOLERANCES.values())))
def test_five_bands_written_are_read_back(value, power, tolerance):
    words = colours(resistance=Q(value * 10.0**power, "ohm"), tolerance=tolerance, bands=5)
    read = colour_value(bands=words)
    assert len(words) == 5 and close(read.value, value * 10.0**power, "ohm") and read.upper == tolerance


@given(bands=st.lists(st.sampled_from(COLOURS), min_size=3, max_size=5))
def test_bands_that_are_read_are_written_the_same(bands):
    try:
        read = colour_value(bands=bands)
    except ValueError:
        return
    assert list(colours(resistance=read.value, tolerance=read.upper, bands=max(4, len(bands)))) == bands


@given(first=st.sampled_from(DIGITS[1:]), second=st.sampled_from(DIGITS), third=st.sampled_from(DIGITS[:-1]))
def test_the_next_power_is_ten_times_the_ohms(first, second, third):
    one = colour_value(bands=[first, second, third]).value
    assert close(colour_value(bands=[first, second, DIGITS[DIGITS.index(third) + 1]]).value, 10 * one.m_as("ohm"), "ohm")


def test_colour_words_are_forgiven_their_spelling():
    assert colour_value(bands=["Purple", " GRAY", "red", "gold"]).value == Q(7800, "ohm")
    assert [colour_name(word) for word in ("gray", "mauve", "golden")] == ["grey", "violet", "gold"]


@pytest.mark.parametrize(("bands", "told"), [
    (["red"], "three, four or five"), (["red"] * 6, "temperature"), (["gold", "red", "red", "brown"], "band 1: gold"),
    (["red", "silver", "red", "brown"], "band 2: silver"), (["black", "red", "red", "brown"], "begins with black"),
    (["red", "red", "red", "orange"], "band 4: orange"), (["red", "pink", "red"], "'pink' is no colour"),
])
def test_bands_that_mean_nothing_are_refused(bands, told):
    with pytest.raises(ValueError, match=told):
        colour_value(bands=bands)


@pytest.mark.parametrize(("given", "told"), [
    (dict(resistance=Q(473, "ohm"), tolerance=0.05), "2 figures"), (dict(resistance=Q(47, "ohm"), tolerance=0.07), "tolerance"),
    (dict(resistance=Q(47e12, "ohm"), tolerance=0.05), "power 12"), (dict(resistance=Q(47, "ohm"), tolerance=0.05, bands=6), "bands"),
])
def test_values_that_no_bands_say_are_refused(given, told):
    with pytest.raises(ValueError, match=told):
        colours(**given)


@given(value=E96, power=st.integers(-1, 9), letter=st.sampled_from(["", *LETTERS]))
def test_a_resistor_code_written_is_read_back(value, power, letter):
    wanted = value * 10.0**power
    read = letter_code_value(marking=letter_code(value=Q(wanted, "ohm"), tolerance=letter), part="resistor")
    assert close(read.value, wanted, "ohm")
    assert (read.lower, read.upper) == (letter_tolerance(letter=letter) if letter else (None, None))


@given(value=E96, power=st.integers(-11, -1), letter=st.sampled_from(["", *LETTERS]))
def test_a_capacitor_code_written_is_read_back(value, power, letter):
    wanted = value * 10.0**power
    code = letter_code(value=Q(wanted, "F"), tolerance=letter)
    for typed in (code, code.replace("µ", "u"), code.replace("µ", "U"), code.replace("µ", "\u03bc"), f' "{code}" '):
        assert close(letter_code_value(marking=typed, part="capacitor").value, wanted, "F")


@given(value=E24, power=st.integers(-11, -6), letter=st.sampled_from(["", *LETTERS]))
def test_three_figures_written_are_read_back(value, power, letter):
    farads = Q(value * 10.0**power, "F")
    code = three_figures(value=farads, tolerance=letter)
    assert len(code) == 3 + len(letter)
    assert close(three_figures_value(marking=code, part="capacitor").value, farads.m_as("F"), "F")


@given(value=E24, power=st.integers(-12, -2))
def test_old_words_written_are_read_back_and_agree_with_the_codes(value, power):
    farads = Q(value * 10.0**power, "F")
    words = old_words(capacitance=farads)
    assert close(old_words_value(marking=words), farads.m_as("F"), "F")
    assert close(old_words_value(marking=words.lower()), farads.m_as("F"), "F")
    assert close(letter_code_value(marking=letter_code(value=farads), part="capacitor").value, farads.m_as("F"), "F")


@given(below=st.integers(0, 99), above=st.integers(0, 200))
def test_a_printed_tolerance_is_read_either_way_round(below, above):
    wanted = pytest.approx((-below / 100, above / 100))
    for text in (f"-{below}/+{above} %", f"+{above} -{below}%", f"−{below} +{above}", f"-{below}% +{above}%"):
        assert printed_tolerance(marking=text) == wanted
    assert printed_tolerance(marking=f"± {below} %") == pytest.approx((-below / 100, below / 100))


def test_small_capacitors_count_picofarads():
    assert letter_tolerance(letter="C", capacitance=Q(5, "pF")) == pytest.approx((-0.05, 0.05))
    assert letter_tolerance(letter="C", capacitance=Q(10, "pF")) == (-0.0025, 0.0025)
    assert letter_tolerance(letter="J", capacitance=Q(5, "pF")) == (-0.05, 0.05)


@pytest.mark.parametrize(("read", "marking"), [
    (letter_code_value, "4X7"), (letter_code_value, "K"), (letter_code_value, "4R7Y"), (letter_code_value, ""),
    (letter_code_value, "R0"), (three_figures_value, "4"), (three_figures_value, "478"), (three_figures_value, "047"),
])
def test_codes_that_mean_nothing_are_refused(read, marking):
    with pytest.raises(ValueError, match="marking|letter"):
        read(marking=marking, part="resistor")


@pytest.mark.parametrize("marking", ["50 ML", "MFD", "0 MFD", "", "50"])
def test_old_words_that_mean_nothing_are_refused(marking):
    with pytest.raises(ValueError, match="marking"):
        old_words_value(marking=marking)


@pytest.mark.parametrize("marking", ["-10+", "much", "-100/+50 %", "", "10 20"])
def test_tolerances_that_mean_nothing_are_refused(marking):
    with pytest.raises(ValueError, match="marking"):
        printed_tolerance(marking=marking)


def test_values_that_no_code_says_are_refused():
    with pytest.raises(ValueError, match="figures"):
        letter_code(value=Q(1.23456, "kohm"))
    with pytest.raises(ValueError, match="two digits"):
        three_figures(value=Q(473, "pF"))
    with pytest.raises(ValueError, match="part"):
        three_figures_value(marking="473", part="valve")
    with pytest.raises(ValueError, match="letter"):
        letter_code(value=Q(47, "ohm"), tolerance="x")
