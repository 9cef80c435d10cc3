"""Uncertainty of readings: what is shared, what shrinks, and the road through a law (JCGM 100)."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.bench.sheet import read_text
from benchreckoner.bench.uncertain import Known, Readings, propagate
from benchreckoner.physics.contacts import contact_resistance, motor_voltage
from benchreckoner.units import Q

TOP = '''version = 1
[machine]
name = "trial"
kind = "record player"
[[instrument]]
name = "meter"
accuracy = {accuracy}
[[part]]
name = "one"
kind = "supply contact"
[[part]]
name = "two"
kind = "supply contact"
'''
READING = '''[[reading]]
part = "{part}"
quantity = "voltage drop"
value = "{value}"
instrument = "meter"
stage = "as found"
condition = "held"
'''
PLAIN = '"1 % + 3 mV"'
RANGED = '[{ quantity = "voltage", up_to = "2 V", limit = "1 % + 3 mV" }]'


def drops(accuracy, *values):
    """The drop of part one, and of part two, from (part, value) pairs."""
    text = TOP.format(accuracy=accuracy) + "".join(READING.format(part=part, value=value) for part, value in values)
    readings = Readings(read_text(text))
    return [readings.find(part, "voltage drop", "as found", "held") for part in ("one", "two")]


def test_one_reading_by_hand():
    """u = sqrt((1 % x 500)^2 + 3^2 + 0.5^2) / sqrt(3) mV, JCGM 100 4.3.7 (limits as even spreads)."""
    one, _ = drops(PLAIN, ("one", "500 mV"))
    assert one.number.std_dev == pytest.approx(math.sqrt(5**2 + 3**2 + 0.5**2) / math.sqrt(3) * 1e-3)
    assert one.expanded.m_as("V") == pytest.approx(2 * one.number.std_dev)


def test_percentages_are_shared_on_one_stated_range_only():
    """Two equal readings: a shared percentage cancels in their difference, digits do not."""
    digits = math.sqrt(2 * (3**2 + 0.5**2)) / math.sqrt(3) * 1e-3
    one, two = drops(RANGED, ("one", "500 mV"), ("two", "500 mV"))
    assert (one - two).number.std_dev == pytest.approx(digits)
    one, two = drops(PLAIN, ("one", "500 mV"), ("two", "500 mV"))
    assert (one - two).number.std_dev == pytest.approx(math.hypot(digits, math.sqrt(2) * 5e-3 / math.sqrt(3)))


def test_readings_at_several_times_are_no_repeats():
    """2 and 5 minutes on voltage: the latest stands, unless one has no time of its own."""
    def one(value, after):
        text = READING.format(part="one", value=value)
        return text + (f'after = "{after}"\n' if after else "")

    def stands(*rows):
        return Readings(read_text(TOP.format(accuracy=PLAIN) + "".join(rows))).find("one", "voltage drop", "as found", "held").plain

    early, late, plain = one("500 mV", "2 min"), one("300 mV", "5 min"), one("400 mV", "")
    assert stands(late, early) == stands(early, late) == pytest.approx(0.3)
    assert stands(early, plain, late) == pytest.approx(0.4)
    assert stands(late, one("310 mV", "300 s")) == pytest.approx(0.305)


def test_repeats_shrink_scatter_only():
    values = (500, 504, 498, 502)
    one, _ = drops(PLAIN, *(("one", f"{value} mV") for value in values))
    limits = math.sqrt((0.01 * np.mean(values)) ** 2 + 3**2 + 0.5**2) / math.sqrt(3)
    scatter = np.std(values, ddof=1) / math.sqrt(len(values))
    assert one.plain == pytest.approx(np.mean(values) * 1e-3)
    assert one.number.std_dev == pytest.approx(math.hypot(limits, scatter) * 1e-3)
    same, _ = drops(PLAIN, *(("one", "500 mV"),) * 9)
    single, _ = drops(PLAIN, ("one", "500 mV"))
    assert same.number.std_dev == pytest.approx(single.number.std_dev)


@given(st.floats(0.01, 10), st.floats(0.01, 2), st.floats(1e-4, 0.05), st.floats(1e-4, 0.05))
def test_a_quotient_by_the_textbook_rule(volts, amperes, spread_volts, spread_amperes):
    """Relative uncertainties of a quotient add in squares: JCGM 100, 5.1.6."""
    import uncertainties

    got = propagate(contact_resistance, "ohm",
                    voltage_drop=Known(uncertainties.ufloat(volts, spread_volts * volts), "V"),
                    current=Known(uncertainties.ufloat(amperes, spread_amperes * amperes), "A"))
    assert got.plain == pytest.approx(volts / amperes)
    assert got.number.std_dev / got.plain == pytest.approx(math.hypot(spread_volts, spread_amperes), rel=1e-4)


def test_a_divider_against_drawn_numbers():
    """Second route: a hundred thousand draws (JCGM 101) through the same law, seeded."""
    import uncertainties

    rng = np.random.default_rng(5)
    middle = {"supply": (9.0, 0.05, "V"), "source_resistance": (0.9, 0.03, "ohm"), "motor_resistance": (8.0, 0.2, "ohm"),
              "contact_resistance": (0.8, 0.02, "ohm")}
    got = propagate(motor_voltage, "V", **{name: Known(uncertainties.ufloat(value, spread), unit)
                                           for name, (value, spread, unit) in middle.items()})
    drawn = motor_voltage(**{name: Q(rng.normal(value, spread, 100_000), unit)
                             for name, (value, spread, unit) in middle.items()}).m_as("V")
    assert got.plain == pytest.approx(drawn.mean(), rel=2e-3)
    assert got.number.std_dev == pytest.approx(drawn.std(), rel=0.02)
