"""The electronic governor: the knee, the droop, the bridge against nodal equations, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.optimize import brentq

from benchreckoner.physics import governors
from benchreckoner.units import Q

MOTOR = dict(winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
SET = dict(set_voltage=Q(3.26726, "V"), compensation=Q(12, "ohm"))
SUPPLY = dict(open_voltage=Q(9, "V"), regulator_drop=Q(0.3, "V"), source_resistance=Q(2.2, "ohm"))


def speeds(amps, **changed):
    return governors.supplied_speed(current=Q(amps, "A"), **{**MOTOR, **SET, **SUPPLY, **changed})


def test_perfect_compensation_heeds_no_load():
    speed = governors.governed_speed(current=Q(np.linspace(0, 0.3, 7), "A"), set_voltage=Q(3, "V"), compensation=Q(15, "ohm"), **MOTOR)
    assert speed.m_as("rad/s") == pytest.approx(np.full(7, 3 / 0.013))


@given(some.floats(0, 14.9), some.floats(15.1, 20))
def test_too_little_sinks_and_too_much_climbs_with_load(little, much):
    for ohms, sign in ((little, -1), (much, 1)):
        light, heavy = (governors.governed_speed(current=Q(amps, "A"), set_voltage=Q(4, "V"), compensation=Q(ohms, "ohm"), **MOTOR)
                        for amps in (0.05, 0.2))
        assert np.sign((heavy - light).magnitude) == sign


@given(some.floats(0, 0.3), some.floats(0, 0.3), some.floats(0, 18), some.floats(0, 0.5))
def test_the_error_is_that_of_two_speeds(trim, load, ohms, brush):
    """Trimmed at one load by the set voltage, read at another."""
    volts = 3.26726 + brush + (15 - ohms) * trim
    if volts - brush - (15 - ohms) * load < 0 or volts <= 0:
        return
    before, after = (governors.governed_speed(current=Q(amps, "A"), set_voltage=Q(volts, "V"), compensation=Q(ohms, "ohm"),
                                              brush_drop=Q(brush, "V"), **MOTOR).m_as("turn/min") for amps in (trim, load))
    assert before == pytest.approx(2400, rel=1e-5)
    error = governors.speed_error(current=Q(load, "A"), trim_current=Q(trim, "A"), trim_speed=Q(2400, "turn/min"),
                                  compensation=Q(ohms, "ohm"), **MOTOR)
    assert error.m_as("%") == pytest.approx(100 * (after / before - 1), abs=1e-3)


def test_the_knee_is_where_both_speeds_meet():
    """Found by a root of their difference, and nothing jumps there."""
    wanted = lambda amps: governors.governed_speed(current=Q(amps, "A"), **SET, **MOTOR).m_as("turn/min")  # noqa: E731
    offered = lambda amps: governors.ungoverned_speed(current=Q(amps, "A"), **SUPPLY, **MOTOR).m_as("turn/min")  # noqa: E731
    knee = brentq(lambda amps: wanted(amps) - offered(amps), 0.01, 0.45, xtol=1e-14)
    assert governors.headroom_current(**SUPPLY, **SET).m_as("A") == pytest.approx(knee, rel=1e-9)
    (below, held), (above, lost) = speeds(knee - 1e-9), speeds(knee + 1e-9)
    assert held and not lost and below.m_as("turn/min") == pytest.approx(above.m_as("turn/min"), rel=1e-6)


@given(some.floats(0.02, 0.4))
def test_the_slower_of_the_two_is_the_speed(amps):
    speed, governed = speeds(amps)
    two = [governors.governed_speed(current=Q(amps, "A"), **SET, **MOTOR).m_as("turn/min"),
           governors.ungoverned_speed(current=Q(amps, "A"), **SUPPLY, **MOTOR).m_as("turn/min")]
    assert speed.m_as("turn/min") == pytest.approx(min(two)) and governed == (two[0] <= two[1])


def test_more_volts_help_up_to_the_knee_alone():
    volts = np.linspace(2, 15, 27)
    speed, governed = speeds(0.085, open_voltage=Q(volts, "V"))
    speed = speed.m_as("turn/min")
    assert np.all(np.diff(speed[~governed]) > 0) and np.ptp(speed[governed]) == pytest.approx(0, abs=1e-9)
    assert list(governed) == sorted(governed), "once held, always held"


def test_no_headroom_is_negative_and_not_cut_off():
    amps = governors.headroom_current(**{**SUPPLY, "open_voltage": Q(3, "V")}, **SET)
    assert amps.m_as("A") == pytest.approx((2.7 - 3.26726) / 14.2)


@given(some.floats(0.2, 10), some.floats(0.5, 60), some.floats(0.5, 12), some.floats(0, 0.4))
def test_the_bridge_by_its_own_equations(sense, times, volts, amps):
    """Solve tap - I Rs = Vref for the total, take the sense resistor off, and compare with Vset + Rc I."""
    ohms, reference = governors.bridge_values(set_voltage=Q(volts, "V"), sense_resistance=Q(sense, "ohm"),
                                              upper_resistance=Q(times, "kohm"), lower_resistance=Q(1, "kohm"))
    total = np.linalg.solve([[1 / (1 + times)]], [reference.m_as("V") + amps * sense])[0]
    assert total - amps * sense == pytest.approx(volts + ohms.m_as("ohm") * amps, rel=1e-9)


@pytest.mark.parametrize(("changed", "told"), [
    (dict(open_voltage=Q(0.3, "V")), "open_voltage: must be above regulator_drop"),
    (dict(open_voltage=Q(-9, "V")), "open_voltage: must be above regulator_drop"),
    (dict(open_voltage=Q(5, "V"), current=Q(3, "A")), "current: .* more than this supply gives"),
    (dict(current=Q(0.45, "A"), compensation=Q(0, "ohm")), "current: .* held winding"),
    (dict(current=Q(-0.1, "A")), "current: must be at least 0"), (dict(set_voltage=Q(0, "V")), "set_voltage: must be above 0"),
    (dict(compensation=Q(-1, "ohm")), "compensation"), (dict(source_resistance=Q(0, "ohm")), "source_resistance"),
    (dict(regulator_drop=Q(-1, "V")), "regulator_drop"), (dict(open_voltage=Q(float("nan"), "V")), "open_voltage"),
])
def test_nonsense_is_told(changed, told):
    with pytest.raises(ValueError, match=told):
        governors.supplied_speed(**{**dict(current=Q(85, "mA")), **MOTOR, **SET, **SUPPLY, **changed})


def test_a_bare_number_is_told():
    with pytest.raises(TypeError, match="current: write"):
        governors.governed_speed(current=0.1, **SET, **MOTOR)
    with pytest.raises(TypeError, match="current: write"):
        governors.supplied_speed(current=0.1, **SET, **SUPPLY, **MOTOR)
