"""Readings in circuit as bounds: what they say is never more than what is known."""

import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.bench.bounds import Bounds, judge_bounds
from benchreckoner.bench.limits import Band
from benchreckoner.bench.uncertain import Known
from benchreckoner.bench.verdict import UNTOLD, judge_value
from benchreckoner.units import Q


def known(value, spread):
    return Known(uncertainties.ufloat(value, spread), "ohm")


def band(sound, bad):
    return Band(Q(sound, "ohm"), Q(bad, "ohm"), "", "PRACTICE")


positive = st.floats(1e-2, 1e5)


@given(positive, st.floats(1e-3, 0.3), st.floats(0.1, 10), st.floats(1.001, 10))
def test_bounds_of_no_width_are_a_value(value, share, place, apart):
    """Second route: the verdict on a plain value (JCGM 106)."""
    sound = value * place
    one = judge_bounds(Bounds(known(value, share * value), known(value, share * value)), band(sound, sound * apart))
    other = judge_value(value=value, uncertainty=share * value, sound_up_to=sound, bad_from=sound * apart)
    assert one.word == other.word and one.probability == pytest.approx(other.probability, abs=1e-9)


@given(positive, positive, st.floats(0.001, 0.2), st.floats(-1, 1), st.floats(0, 0.05), st.floats(-1.9, 1.9))
def test_the_truth_lies_within_the_bounds(truth, path, tolerance, off, share, error):
    """A path anywhere in its tolerance, and a reading off by less than twice its uncertainty."""
    reading = 1 / (1 / truth + 1 / (path * (1 + off * tolerance)))
    reading = known(reading * (1 - error * share), max(share * reading, 1e-9))
    for low, open_ended in ((reading, False), (None, False), (reading, True)):
        bounds = Bounds(low, reading, path=None if open_ended else (path * (1 - tolerance), path * (1 + tolerance)), open_ended=open_ended)
        assert bounds.lowest() <= truth * (1 + 1e-6)
        assert bounds.highest() is None or bounds.highest() >= truth * (1 - 1e-6)
        assert not bounds.contradicted


@given(positive, st.floats(1e-3, 0.1), st.floats(0.1, 10), st.floats(1.01, 10))
def test_less_known_is_never_more_told(value, share, place, apart):
    """Opening a bound can take a verdict away, never turn it round."""
    reading, limits = known(value, share * value), band(value * place, value * place * apart)
    full = judge_bounds(Bounds(reading, reading), limits).word
    for bounds in (Bounds(None, reading), Bounds(reading, reading, open_ended=True), Bounds(None, reading, open_ended=True)):
        assert judge_bounds(bounds, limits).word in (full, UNTOLD)
