"""What leakage does around a capacitor: knot equations as a second route, limits, properties."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.physics.bias import Stage, bias_shift, emitter_current, leaky_bias
from benchreckoner.units import Q

EXAMPLE = Stage(Q(6, "V"), Q(47, "kohm"), Q(12, "kohm"), Q(1, "kohm"), Q(3.9, "kohm"), Q(0.65, "V"))


@given(gain=some.floats(50, 400), leak=some.floats(3e4, 1e8), far=some.floats(2, 6))
def test_the_knot_of_the_base_balances(gain, leak, far):
    """Second route: solve base volts and emitter current from the two equations of the circuit."""
    base, current = np.linalg.solve(
        [[1 / 47e3 + 1 / 12e3 + 1 / leak, 1 / (gain + 1)], [1, -1e3]], [6 / 47e3 + far / leak, 0.65])
    found, collector = leaky_bias(stage=EXAMPLE, gain=gain, leakage_resistance=Q(leak, "ohm"), leak_from=Q(far, "V"))
    assert found.m_as("A") == pytest.approx(current, rel=1e-9)
    open_fully = 6 - current * gain / (gain + 1) * 3900
    assert collector.m_as("V") == pytest.approx(max(open_fully, current * 1e3), rel=1e-9)


def test_without_leakage_nothing_shifts():
    endless = leaky_bias(stage=EXAMPLE, gain=100, leakage_resistance=Q(1e15, "ohm"), leak_from=Q(3.5, "V"))[0]
    assert endless.m_as("mA") == pytest.approx(0.521, abs=5e-4)


@given(gain=some.floats(50, 400))
def test_a_small_leak_lifts_the_base_no_more_than_the_divider_alone(gain):
    leak = Q(10, "Mohm")
    sound, leaky = (leaky_bias(stage=EXAMPLE, gain=gain, leakage_resistance=ohms, leak_from=Q(3.5, "V"))[0].m_as("A")
                    for ohms in (Q(1e15, "ohm"), leak))
    most = bias_shift(leakage=Q(3.5, "V") / leak, upper=Q(47, "kohm"), lower=Q(12, "kohm")).m_as("V")
    assert 0 < (leaky - sound) * 1e3 < most


def test_too_few_volts_leave_the_transistor_shut():
    assert emitter_current(base_supply=Q(0.3, "V"), base_resistance=Q(1, "kohm"), emitter_resistance=Q(1, "kohm"),
                           base_emitter=Q(0.65, "V"), gain=100).m_as("A") == 0


@pytest.mark.parametrize("gain", [0, -1, float("nan")])
def test_a_gain_that_cannot_be_is_refused(gain):
    with pytest.raises(ValueError, match="write gain=100"):
        emitter_current(base_supply=Q(2, "V"), base_resistance=Q(1, "kohm"), emitter_resistance=Q(1, "kohm"),
                        base_emitter=Q(0.65, "V"), gain=gain)


@pytest.mark.parametrize(("leak", "current", "volts"), [
    ("1e15 ohm", 0.521, 3.99), ("1 Mohm", 0.541, 3.91), ("200 kohm", 0.618, 3.61), ("100 kohm", 0.708, 3.27), ("50 kohm", 0.867, 2.65)])
def test_the_example_stage(leak, current, volts):
    """6 V, 47 k / 12 k, 1 k, 3.9 k, gain 100, 0.65 V, 3.5 V behind the leak: worked by hand to three digits. RECOMPUTED."""
    found, collector = leaky_bias(stage=EXAMPLE, gain=100, leakage_resistance=Q(leak), leak_from=Q(3.5, "V"))
    assert found.m_as("mA") == pytest.approx(current, abs=6e-4) and collector.m_as("V") == pytest.approx(volts, abs=6e-3)
