"""Copper and magnets when they warm: there and back, proportion, the reader of the annealed copper standard's own line."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.physics import copper, leads
from benchreckoner.units import Q

DEGREES, OHMS = some.floats(-40, 150), some.floats(0.1, 1000)


def kelvin(rise):
    return float(rise.m_as("delta_degC"))


@given(ohms=OHMS, cold=DEGREES, warm=DEGREES)
def test_there_and_back(ohms, cold, warm):
    resistance = copper.warmed_resistance(resistance=Q(ohms, "ohm"), cold=Q(cold, "degC"), warm=Q(warm, "degC"))
    rise = copper.rise_by_resistance(cold_resistance=Q(ohms, "ohm"), warm_resistance=resistance, cold=Q(cold, "degC"))
    assert kelvin(rise) == pytest.approx(warm - cold, abs=1e-8)
    back = copper.warmed_resistance(resistance=resistance, cold=Q(warm, "degC"), warm=Q(cold, "degC"))
    assert float(back.m_as("ohm")) == pytest.approx(ohms)


@given(warm=some.floats(0, 120))
def test_the_standard_s_coefficient_says_the_same(warm):
    """0.00393 for each kelvin of the ohms at 20 degC, against 234.5: within a thousandth."""
    other = leads.warm_copper(resistance=Q(15, "ohm"), temperature=Q(warm, "degC"))
    ours = copper.warmed_resistance(resistance=Q(15, "ohm"), cold=Q(20, "degC"), warm=Q(warm, "degC"))
    assert float((ours / other).m_as("")) == pytest.approx(1, abs=1e-3)


def test_a_straight_line():
    warm = Q(np.array([20.0, 50.0, 80.0]), "degC")
    ohms = copper.warmed_resistance(resistance=Q(15, "ohm"), cold=Q(20, "degC"), warm=warm).m_as("ohm")
    assert ohms[0] == pytest.approx(15) and ohms[2] - ohms[1] == pytest.approx(ohms[1] - ohms[0])


def test_twice_the_coefficient_loses_twice_as_much():
    one, two = (copper.warm_constant(motor_constant=Q(0.013, "V*s/rad"), temperature=Q(45, "degC"),
                                     coefficient=Q(loss, "1/delta_degC")).m_as("V*s/rad") for loss in (-0.001, -0.002))
    assert 0.013 - two == pytest.approx(2 * (0.013 - one)) and 0.013 - one == pytest.approx(0.013 * 0.025)


def test_a_magnet_is_stronger_in_the_cold():
    cold = copper.warm_constant(motor_constant=Q(0.013, "V*s/rad"), temperature=Q(0, "degC"))
    assert float(cold.m_as("V*s/rad")) == pytest.approx(0.013 * 1.04)


@given(rise=some.floats(0, 5), waited=some.floats(0, 60))
def test_back_to_the_moment_it_stopped(rise, waited):
    """What has cooled for so long, put back."""
    first = 16 + rise * np.exp(-waited / 18)
    ohms = copper.stopped_resistance(first=Q(first, "ohm"), late=Q(16, "ohm"), waited=Q(waited, "s"), time_constant=Q(18, "s"))
    assert float(ohms.m_as("ohm")) == pytest.approx(16 + rise)


WINDING = dict(resistance=Q(15, "ohm"), cold=Q(20, "degC"), warm=Q(50, "degC"))
TWO = dict(cold_resistance=Q(15, "ohm"), warm_resistance=Q(16, "ohm"), cold=Q(20, "degC"))
STOPPED = dict(first=Q(16, "ohm"), late=Q(15.8, "ohm"), waited=Q(5, "s"), time_constant=Q(18, "s"))
MAGNET = dict(motor_constant=Q(0.013, "V*s/rad"), temperature=Q(50, "degC"))


@pytest.mark.parametrize(("law", "right", "wrong", "error", "told"), [
    (copper.warmed_resistance, WINDING, dict(resistance=15), TypeError, "resistance"),
    (copper.warmed_resistance, WINDING, dict(resistance=Q(-1, "ohm")), ValueError, "resistance"),
    (copper.warmed_resistance, WINDING, dict(warm=Q(400, "degC")), ValueError, "warm"),
    (copper.warmed_resistance, WINDING, dict(cold=Q(-100, "degC")), ValueError, "cold"),
    (copper.warmed_resistance, WINDING, dict(intercept=Q(20, "delta_degC")), ValueError, "intercept"),
    (copper.rise_by_resistance, TWO, dict(cold_resistance=Q(0, "ohm")), ValueError, "cold_resistance"),
    (copper.rise_by_resistance, TWO, dict(warm_resistance=Q(np.nan, "ohm")), ValueError, "warm_resistance"),
    (copper.rise_by_resistance, TWO, dict(cold=Q(20, "V")), ValueError, "cold"),
    (copper.warm_constant, MAGNET, dict(coefficient=Q(0.002, "1/delta_degC")), ValueError, "coefficient: a magnet weakens"),
    (copper.warm_constant, MAGNET, dict(coefficient=Q(-0.05, "1/delta_degC")), ValueError, "leaves no magnet"),
    (copper.warm_constant, MAGNET, dict(motor_constant=Q(0, "V*s/rad")), ValueError, "motor_constant"),
    (copper.stopped_resistance, STOPPED, dict(time_constant=Q(0, "s")), ValueError, "time_constant"),
    (copper.stopped_resistance, STOPPED, dict(waited=Q(-1, "s")), ValueError, "waited"),
    (copper.stopped_resistance, STOPPED, dict(late=Q(0, "ohm")), ValueError, "late"),
])
def test_nonsense_is_told_by_its_name(law, right, wrong, error, told):
    with pytest.raises(error, match=told):
        law(**{**right, **wrong})
