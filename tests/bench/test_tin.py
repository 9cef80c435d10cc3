"""The tin of faults: each law turned round, watts at worst, and bands that hold what a participant reads."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.bench.accuracy import read_accuracy
from benchreckoner.bench.repair import Instrument
from benchreckoner.bench.tin import RATINGS, SPRING, SWITCH, WIPER, Host, imitations, worst_case
from benchreckoner.bench.uncertain import one_reading, within
from benchreckoner.units import Q, read_quantity


def instrument(accuracy):
    return Instrument("meter", read_accuracy(accuracy, "meter"), "")


def current(text="104 mA", accuracy="1.2 % + 2 mA"):
    return one_reading(read_quantity(text, "A"), quantity="current", instrument=instrument(accuracy))


HOST = Host(supply=Q(9.13, "V"), current=current(), rest=Q(8.41, "ohm"), volts=Q(0.457, "V"), load=Q(8, "ohm"), loss=Q(1, "dB"),
            track=Q(10, "kohm"), share=0.2, tolerance=0.05, volts_meter=instrument("0.5 % + 1 mV"),
            ohms_meter=instrument("0.8 % + 0.2 ohm"), leads=within(Q(0.2, "ohm"), 0.025, "ohm"))


def pair(host, fault):
    return [one for one in imitations(host) if one.fault == fault]


def test_the_springs_by_hand():
    """0.457 V at 104 mA is 4.39 ohm, between 3.9 and 4.7; held, 9.13 V over 13.11 ohm is 0.696 A."""
    low, high = pair(HOST, SPRING)
    assert (low.resistance.m_as("ohm"), high.resistance.m_as("ohm")) == (3.9, 4.7)
    assert (low.effect.plain, high.effect.plain) == (pytest.approx(0.104 * 3.9), pytest.approx(0.104 * 4.7))
    assert high.power.m_as("W") == pytest.approx((9.13 / 13.11) ** 2 * 4.7)
    assert high.rating.m_as("W") == 5 and high.pull == pytest.approx(8.41 / 13.11)


def test_the_switches_by_hand():
    """1 dB before 8 ohm is 8 (10^0.05 - 1) = 0.976 ohm, between 0.82 and 1; published D1: 1 ohm costs 1.0231 dB."""
    low, high = pair(HOST, SWITCH)
    assert (low.resistance.m_as("ohm"), high.resistance.m_as("ohm")) == (0.82, 1.0)
    assert high.effect.plain == pytest.approx(1.0231, abs=1e-3)
    assert high.power.m_as("W") == pytest.approx((9.13 / 9) ** 2) and high.rating.m_as("W") == 5
    assert high.reading.plain == pytest.approx(1.2)  # the leads are in it
    assert high.pull is None


def test_the_wipers_by_hand():
    low, high = pair(HOST, WIPER)
    assert (low.resistance.m_as("ohm"), high.resistance.m_as("ohm")) == (1800, 2200)
    assert (low.effect.plain, high.effect.plain) == (pytest.approx(0.18), pytest.approx(0.22))
    assert low.power.m_as("W") == pytest.approx(9.13**2 / 1800) and low.rating.m_as("W") == 0.25
    assert low.reading.plain == pytest.approx(1800 + 100 + 0.2)  # half of what a sound wiper may have, and the leads


@given(volts=st.floats(0.02, 3), loss=st.floats(0.1, 12), share=st.floats(0.03, 0.9))
def test_a_wish_lies_between_what_its_two_resistors_do(volts, loss, share):
    """The laws are turned round: put forward again, the two neighbours hold the wish between them."""
    host = replace(HOST, volts=Q(volts, "V"), loss=Q(loss, "dB"), share=share)
    ohms = {SPRING: volts / 0.104, SWITCH: 8 * (10 ** (loss / 20) - 1), WIPER: share * 1e4}
    for fault in ohms:
        found = pair(host, fault)
        assert found[0].resistance.m_as("ohm") <= ohms[fault] * (1 + 1e-5)
        assert found[-1].resistance.m_as("ohm") >= ohms[fault] * (1 - 1e-5)
        wished = float(found[0].wished.magnitude)
        assert found[0].effect.plain <= wished * (1 + 1e-4) and found[-1].effect.plain >= wished * (1 - 1e-4)
        assert found[-1].resistance / found[0].resistance < 1.26  # side by side in E12


def test_a_wish_on_the_series_is_one_resistor():
    assert [one.resistance.m_as("ohm") for one in pair(replace(HOST, volts=Q(0.104 * 4.7, "V")), SPRING)] == [4.7]


@given(ohms=st.floats(0.1, 1e4), supply=st.floats(1, 63), rest=st.floats(0, 1e3))
def test_the_watts_are_current_squared_times_ohms(ohms, supply, rest):
    power, rating = worst_case(resistance=Q(ohms, "ohm"), supply=Q(supply, "V"), rest=Q(rest, "ohm"))
    amperes = supply / (ohms + rest)
    assert power.m_as("W") == pytest.approx(amperes**2 * ohms)
    fitting = [one for one in RATINGS if one >= 2 * power.m_as("W")]
    assert (rating is None) == (not fitting) and (rating is None or rating.m_as("W") == min(fitting))


def test_nobody_held_the_motor():
    """9.13 V across 4.7 ohm alone is 17.7 W: nothing on the list stands twice that."""
    spring = pair(replace(HOST, rest=None), SPRING)[1]
    assert spring.power.m_as("W") == pytest.approx(9.13**2 / 4.7) and spring.rating is None and spring.pull is None


def test_a_coarse_meter_does_not_tell_a_small_fault_from_a_sound_contact():
    assert all(one.told_apart for one in imitations(HOST))
    coarse = replace(HOST, volts_meter=instrument("0.5 % + 50 mV"), ohms_meter=instrument("0.8 % + 2 ohm"),
                     volts=Q(20, "mV"), loss=Q(0.2, "dB"), share=0.011)
    assert not any(one.told_apart for one in imitations(coarse))


def test_digits_count_by_the_range_and_the_display():
    """2 digits on 200 ohm and 2000 counts are 0.2 ohm, and the reading is rounded to 0.1 ohm."""
    ranged = Instrument("meter", read_accuracy([{"quantity": "resistance", "up_to": "200 ohm", "limit": "0.8 % + 2 digits"},
                                                {"quantity": "resistance", "up_to": "20 kohm", "limit": "0.8 % + 2 digits"}], "meter"), "")
    one = pair(replace(HOST, ohms_meter=ranged), SWITCH)[1]
    limits = [0.05 * 1.0, 0.2 * 0.025, 0.008 * 1.2, 0.2, 0.05]
    assert one.reading.expanded.m_as("ohm") == pytest.approx(2 * (sum(one**2 for one in limits) / 3) ** 0.5, rel=1e-3)
    finer = pair(replace(HOST, ohms_meter=ranged, counts=20000), SWITCH)[1]
    assert finer.reading.expanded < one.reading.expanded


@pytest.mark.parametrize("tolerance", [0.01, 0.05])
@pytest.mark.parametrize("fault", [SPRING, SWITCH, WIPER])
def test_the_band_holds_what_participants_read(fault, tolerance):
    """Four thousand participants, each with a resistor, a meter and leads off by anything the limits allow."""
    rng = np.random.default_rng(4)

    def off(limit):
        return rng.uniform(-limit, limit, 4000)

    for one in pair(replace(HOST, tolerance=tolerance), fault):
        ohms = one.resistance.m_as("ohm") * (1 + off(tolerance))
        if fault == SPRING:
            amperes = (0.104 + off(0.002) + off(0.0005)) / (1 + off(0.012))
            read = amperes * ohms * (1 + off(0.005)) + off(0.001)
        else:
            own = rng.uniform(0, 0.02 * 1e4, 4000) if fault == WIPER else 0
            read = (ohms + own + 0.2 * (1 + off(0.025))) * (1 + off(0.008)) + off(0.2)
        half = one.reading.expanded.m_as(one.reading.unit)
        inside = np.mean(abs(read - one.reading.plain) <= half)
        assert 0.95 <= inside
        assert np.max(abs(read - one.reading.plain)) > 0.7 * half  # and it is no wider than it need be
