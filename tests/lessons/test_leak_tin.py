"""The tin's leaks: the law inverted over the E12 series, bands that hold, nonsense refused."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from benchreckoner.bench.desk import SHEET_VARIABLE
from benchreckoner.lessons import leak_tin
from benchreckoner.physics.preferred import nearest_preferred
from benchreckoner.units import Q

WISH = {"sound": "10.0 uF", "tester": "2 % + 0.05 uF", "source": "10 kohm", "times": "1.5", "volts": "9 V"}


def shown(leak, source=10e3, farads=10.0):
    """By hand: the part charges towards a lower share of the supply, and the clock stops at 1 - 1/e."""
    share = leak / (leak + source)
    return -farads * share * math.log(1 - (1 - math.exp(-1)) / share)


def test_by_hand():
    """1.5 times lies between 27 and 22 kohm behind 10 kohm, and 22 kohm shows 1.74 times; 9 V in 27 and 10 kohm are 243 uA."""
    mild, hard = leak_tin.leaks(**leak_tin.read_wish(WISH))
    assert [one.resistance.m_as("kohm") for one in (mild, hard)] == pytest.approx([27, 22])
    assert mild.shown.plain * 1e6 == pytest.approx(shown(27e3), rel=1e-6) and hard.shown.plain * 1e6 == pytest.approx(shown(22e3), rel=1e-6)
    assert mild.shown.plain < 15e-6 < hard.shown.plain
    assert mild.current.m_as("uA") == pytest.approx(243, abs=1)
    assert mild.low.plain * 1e6 == pytest.approx(10 * 27 / 37, rel=1e-6)


@settings(max_examples=40, deadline=None)
@given(source=some.floats(300, 1e5), times=some.floats(1.03, 4.9))
def test_the_wish_lies_between_two_neighbours(source, times):
    wish = {**leak_tin.read_wish(WISH), "source": Q(source, "ohm"), "times": times, "volts": Q(1, "V")}
    found = leak_tin.leaks(**wish)
    for one in found:
        assert nearest_preferred(value=one.resistance, series="E12").m_as("ohm") == pytest.approx(one.resistance.m_as("ohm"))
    ratios = [shown(one.resistance.m_as("ohm"), source) / 10 if one.resistance.m_as("ohm") > 1.7183 * source else math.inf for one in found]
    assert ratios[0] <= times * (1 + 1e-6) and ratios[-1] >= times * (1 - 1e-6)


def test_the_band_holds_what_a_tester_shows():
    """2000 resistors within 5 % on testers within their limit: at least 95 % of the readings lie within the ±."""
    (one, *_), rng = leak_tin.leaks(**leak_tin.read_wish(WISH)), np.random.default_rng(3)
    low, high = (one.shown.plain + sign * one.shown.expanded.m_as("F") for sign in (-1, 1))
    ohms = one.resistance.m_as("ohm") * (1 + rng.uniform(-0.05, 0.05, 2000))
    read = [1e-6 * shown(each) * (1 + rng.uniform(-0.02, 0.02)) + 1e-6 * rng.uniform(-0.05, 0.05) for each in ohms]
    assert np.mean((np.array(read) >= low) & (np.array(read) <= high)) >= 0.95


def test_a_resistor_that_would_get_hot_is_refused():
    """63 V across some hundreds of ohms are watts."""
    with pytest.raises(ValueError, match="would make it hot"):
        leak_tin.leaks(**{**leak_tin.read_wish(WISH), "source": Q(100, "ohm"), "volts": Q(63, "V")})


def test_past_the_cliff_there_is_no_reading():
    _, hard = leak_tin.leaks(**{**leak_tin.read_wish(WISH), "times": 4.0})
    assert hard.shown is None and "no reading" in leak_tin.table_html((hard,))


@pytest.mark.parametrize(("change", "told"), [
    ({"sound": "10"}, "no unit"), ({"sound": "0 uF"}, "above zero"), ({"times": "0.8"}, "a leak only"), ({"times": "much"}, "1.02 to 5"),
    ({"volts": "90 V"}, "63 V"), ({"tester": "3 % + 2 mV"}, "in farads"), ({"source": "10 V"}, "Resistor inside")])
def test_nonsense_is_refused_by_name(change, told):
    with pytest.raises(ValueError, match=told):
        leak_tin.read_wish({**WISH, **change})


def test_the_form_answers_and_keeps_what_was_typed(tmp_path, monkeypatch):
    monkeypatch.setenv(SHEET_VARIABLE, str(tmp_path / "sheet.toml"))
    form = leak_tin._LeakTin()
    form.reckon()
    assert "nothing there yet" in form.error.value
    for name, text in WISH.items():
        form.boxes[name].value = text
    form.reckon()
    assert "27 kΩ" in form.answer.value and not form.error.value
    assert leak_tin._LeakTin().boxes["sound"].value == "10.0 uF"
