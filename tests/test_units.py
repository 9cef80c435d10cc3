"""What people type, and how numbers are shown."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.units import Q, need, read_percent, read_quantity, show, show_exact, show_known, symbol, ureg, write_plain

TYPED = [  # (as typed, unit wanted, value in that unit, half the last digit)
    ("4,83 V", "V", 4.83, 0.005),
    ("310mA", "A", 0.310, 0.0005),
    ("4k7", "ohm", 4700, 50),
    ("0R22", "ohm", 0.22, 0.005),
    ("2M2", "ohm", 2.2e6, 0.05e6),
    ("4.7k", "ohm", 4700, 50),
    ("470 Ω", "ohm", 470, 0.5),
    ("470 \u2126", "ohm", 470, 0.5),
    ("4n7", "F", 4.7e-9, 0.05e-9),
    ("4u7F", "F", 4.7e-6, 0.05e-6),
    ("10 µF", "F", 10e-6, 0.5e-6),
    ("10 \u03bcF", "F", 10e-6, 0.5e-6),
    ("10uF", "F", 10e-6, 0.5e-6),
    ("5 min", "s", 300, 30),
    ("  1 000 ohm ", "ohm", 1000, 0.5),
    ("\u221212,0 mV", "V", -0.012, 0.00005),
    ("3V3", "V", 3.3, 0.05),
    ("1.5e3 ohm", "ohm", 1500, 50),
    ("33,3 rpm", "turn/min", 33.3, 0.05),
    *((f"33 {typed}", "N*m", 0.033, 0.0005) for typed in ("mN m", "mN*m", "mN·m", "mN⋅m", "mNm", "mN.m", "mN-m")),
]


@pytest.mark.parametrize(("text", "unit", "value", "half"), TYPED)
def test_what_people_type(text, unit, value, half):
    typed = read_quantity(text, unit)
    assert typed.quantity.m_as(unit) == pytest.approx(value)
    assert typed.half_digit.m_as(unit) == pytest.approx(half)


@pytest.mark.parametrize("text", [
    "5", "", "V", "nan", "nan V", "inf V", "-inf V", "1e400 V", "1e308 MV", "4.83 A", "1,234.5 V", "4.8.3 V",
    "9 V V", "2**9 V", "__import__('os') V", "9 V**9999999", "five V", "5 parsecs", "0x10 V", None, 5, 5.0,
])
def test_nonsense_is_refused_with_an_example(text):
    with pytest.raises(ValueError, match=r"reading 3.*for example") as refused:
        read_quantity(text, "V", "reading 3")
    assert '"' in str(refused.value)


@pytest.mark.parametrize(("text", "unit", "suggested"), [
    ("33 mN", "N*m", "33 mN*m"), ("33 mN*m", "V", "33 mV"), ("12 µV", "A", "12 uA"), ("4.7 kV", "ohm", "4.7 kohm"),
    ("4 V", "A", "4 A"), ("5 ms", "mm", "5 mm"), ("5 min", "V", "5 V"), ("5 kg", "N", "5 N"),
])
def test_a_suggestion_keeps_the_size_typed(text, unit, suggested):
    """Who wrote milli and a wrong unit is not told to write a thousand times as much; a minute and a kilogram have no prefix of ours."""
    with pytest.raises(ValueError, match="cannot be turned") as refused:
        read_quantity(text, unit)
    assert str(refused.value).endswith(f'write for example "{suggested}"')


@given(st.text(max_size=20))
def test_any_text_is_read_or_refused_never_worse(text):
    try:
        typed = read_quantity(text, ("V", "ohm", "F", "degC"))
    except ValueError:
        return
    assert math.isfinite(typed.quantity.magnitude) and typed.half_digit.magnitude > 0


@given(st.integers(-999999, 999999), st.integers(0, 4), st.sampled_from(["nV", "uV", "mV", "V", "kV"]),
       st.sampled_from([".", ","]), st.sampled_from(["", " ", "\u00a0"]))
def test_decimals_round_trip(digits, decimals, unit, mark, gap):
    number = f"{digits / 10**decimals:.{decimals}f}"
    typed = read_quantity(f"{number.replace('.', mark)}{gap}{unit}", "V")
    assert typed.quantity.m_as(unit) == pytest.approx(float(number))
    assert typed.half_digit.m_as(unit) == pytest.approx(0.5 / 10**decimals)


@given(st.floats(1e-11, 9e11), st.integers(2, 5))
def test_shown_values_read_back_within_half_their_last_digit(value, digits):
    typed = read_quantity(show(Q(value, "ohm"), "ohm", digits), "ohm")
    assert abs(typed.quantity.m_as("ohm") - value) <= typed.half_digit.m_as("ohm") * (1 + 1e-9)


@given(st.floats(-1e6, 1e6), st.floats(1e-6, 1e3))
def test_plain_values_are_read_by_pint(value, expanded):
    written, spread = write_plain(Q(value, "V"), Q(expanded, "V"), "V")
    assert ureg.Quantity(written).m_as("V") == pytest.approx(value, abs=0.06 * expanded)
    assert ureg.Quantity(spread).m_as("V") == pytest.approx(expanded, rel=0.06)


def test_value_and_uncertainty_share_their_last_digit():
    assert show_known(Q(1.2973, "ohm"), Q(0.0402, "ohm"), "ohm") == "1.297 ± 0.040 Ω"
    assert show_known(Q(0.05, "ohm"), Q(0.012, "ohm"), "ohm") == "50 ± 12 mΩ"
    assert show_known(Q(9.1, "V"), Q(0.25, "V"), "V") == "9.10 ± 0.25 V"
    assert show_known(Q(1228.1, "mm"), Q(4.4, "mm"), "mm") == "1228.1 ± 4.4 mm"  # a second prefix before milli would be nonsense


@pytest.mark.parametrize(("unit", "written"), [  # as the SI brochure prints compound units, with its half-high dot
    ("N*m", "N·m"), ("mN*m", "mN·m"), ("uN*m", "µN·m"), ("V*s/rad", "V·s/rad"), ("W/(m*K)", "W/(m·K)"), ("W/(m**2*K)", "W/(m²·K)"),
    ("kg*m**2", "kg·m²"), ("ohm*m", "Ω·m"), ("K/W", "K/W"), ("delta_degC/W", "K/W"), ("delta_degC", "K"), ("turn/min", "r/min"),
    ("degC", "°C"), ("deg", "°"), ("mohm", "mΩ"), ("mA*h", "mAh"), ("percent", "%"), ("", ""),
])
def test_units_stand_as_in_a_textbook(unit, written):
    assert symbol(unit) == symbol(ureg.Unit(unit)) == written


def test_a_prefix_stands_where_people_put_it():
    assert show(Q(845e-6, "N*m"), "N*m") == "845 µN·m" and show(Q(0.013, "V*s/rad"), "V*s/rad") == "13.0 mV·s/rad"
    assert show(Q(1800, "s"), "s") == "1800 s" and show(Q(0.25, "s"), "s") == "250 ms"
    assert show_exact(Q(2200, "uF"), "F") == "2200 µF" and show_exact(Q(1, "F"), "F") == "1 F"


def test_tenths_of_a_millimetre_are_read_as_a_caliper_has_them():
    assert show(Q(0.6, "mm"), "m", digits=2) == "0.60 mm" and show_exact(Q(0.5, "mm"), "m") == "0.5 mm"
    assert show(Q(99.9, "um"), "m") == "99.9 µm" and show(Q(1.2, "mm"), "m", digits=2) == "1.2 mm"
    assert show(Q(0.5, "K"), "K") == "0.500 K"


def test_percent():
    assert show(Q(0.5, "percent"), "percent") == "0.500 %" and show(Q(100, "percent"), "percent") == "100 %"
    assert read_percent("0,8 %") == pytest.approx(0.008)
    for wrong in ("0.8", "-3 %", "% 3", None, "1e999 %"):
        with pytest.raises(ValueError, match="write for example"):
            read_percent(wrong)


class TestNeed:
    def test_a_bare_number_is_refused_by_name(self):
        with pytest.raises(TypeError, match="current: write Q"):
            need(3, "A", "current")

    @pytest.mark.parametrize("value", [Q(math.nan, "A"), Q(math.inf, "A"), Q([1, math.nan], "A"), Q(1, "V")])
    def test_nonsense_is_refused_by_name(self, value):
        with pytest.raises(ValueError, match="current"):
            need(value, "A", "current")

    def test_limits(self):
        assert need(Q([0, 1], "A"), "mA", "current", least=0).m_as("mA") == pytest.approx(np.array([0, 1000]))
        with pytest.raises(ValueError, match="current: must be above 0"):
            need(Q([0, 1], "A"), "A", "current", above=0)
        with pytest.raises(ValueError, match="at least 0"):
            need(Q(-1, "A"), "A", "current", least=0)

    def test_a_temperature_is_no_difference(self):
        with pytest.raises(ValueError, match="delta_degC"):
            need(Q(10, "degC"), "delta_degC", "temperature_difference")


class TestPintTraps:
    """Traps of the library we build on; if one changes, our spellings must follow."""

    def test_newton_metre_needs_its_star(self):
        assert not Q(1, "Nm").is_compatible_with("N*m")
        assert Q(1, "N*m").is_compatible_with("J")

    def test_a_frequency_is_no_speed(self):
        for read in (lambda: read_quantity("40 Hz", "turn/min", "speed"),
                     lambda: read_quantity("0.04 kHz", "turn/min", "speed"), lambda: need(Q(40, "Hz"), "turn/min", "speed")):
            with pytest.raises(ValueError, match="speed"):
                read()
        assert read_quantity("40 Hz", ("turn/min", "Hz")).quantity.m_as("Hz") == 40

    def test_turns_stay_turns(self):
        assert read_quantity("60 rpm", "turn/min").quantity.m_as("turn/s") == pytest.approx(1)

    def test_doubling_a_temperature_raises(self):
        with pytest.raises(Exception, match="offset"):
            _ = 2 * Q(20, "degC") + Q(1, "degC")
