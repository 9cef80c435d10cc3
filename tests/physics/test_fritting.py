"""Films that break: limits, Kirchhoff by hand, where the rule stops, refusals."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics.fritting import fritted_resistance
from benchreckoner.units import Q


def fritted(source, series, breakdown=1.0):
    return fritted_resistance(source_voltage=Q(source, "V"), series_resistance=Q(series, "ohm"),
                              filmed_resistance=Q(10, "kohm"), clean_resistance=Q(20, "mohm"),
                              breakdown_voltage=Q(breakdown, "V"), cessation_voltage=Q(0.3, "V")).m_as("ohm")


@given(st.floats(0.0, 12), st.floats(1, 1e5), st.floats(0.3, 9))
def test_a_break_never_makes_a_contact_worse_nor_better_than_clean(source, series, breakdown):
    left = fritted(source, series, breakdown)
    assert 0.02 <= left <= 10_000 * (1 + 1e-9)
    if source * 10_000 / (10_000 + series) < breakdown:
        assert left == pytest.approx(10_000)
    elif left > 0.02:
        # Kirchhoff by hand: the contact keeps the cessation voltage.
        assert source * left / (left + series) == pytest.approx(0.3)


def test_much_current_leaves_a_clean_contact_and_20_mv_nothing_changed():
    assert fritted(12, 0.01) == pytest.approx(0.02)
    assert fritted(0.02, 1000) == pytest.approx(10_000)
    assert fritted([0.02, 3], 1000) == pytest.approx([10_000, 111.111], rel=1e-4)


def test_a_source_below_the_breakdown_never_breaks_a_film():
    """F15's own condition, no fritting if the source is below the breakdown, is met by ours, which asks more."""
    assert fritted(0.999, 1e-3) == pytest.approx(10_000)
    assert fritted(1.001, 1e-3) < 10_000


def test_a_film_that_gets_only_a_share_of_the_source_holds():
    """10 kilohm behind 10 kilohm get half: 1.9 V break nothing at 1 V, 2.1 V do."""
    assert fritted(1.9, 10_000) == pytest.approx(10_000)
    assert fritted(2.1, 10_000) == pytest.approx(0.3 * 10_000 / 1.8)


@pytest.mark.parametrize(("wrong", "word"), [({"breakdown_voltage": Q(0.2, "V")}, "breakdown_voltage"),
                                           ({"cessation_voltage": Q(0.5, "V")}, "soften"),
                                           ({"cessation_voltage": Q(0.1, "V")}, "at least 0.2"),
                                           ({"filmed_resistance": Q(1, "mohm")}, "filmed_resistance")])
def test_bad_input_is_refused(wrong, word):
    right = {"source_voltage": Q(3, "V"), "series_resistance": Q(1, "kohm"), "filmed_resistance": Q(10, "kohm"),
             "clean_resistance": Q(20, "mohm"), "breakdown_voltage": Q(1, "V"), "cessation_voltage": Q(0.3, "V")}
    with pytest.raises(ValueError, match=word):
        fritted_resistance(**{**right, **wrong})
