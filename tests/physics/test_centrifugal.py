"""Flying weights: force balances solved another way, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.optimize import brentq

from benchreckoner.physics import centrifugal
from benchreckoner.units import Q


@given(some.floats(10, 3000))
def test_the_height_balances_weight_and_swing(turns):
    """An arm at the angle of this height pulls the ball inwards as hard as its circle asks."""
    height, arm = centrifugal.ball_height(speed=Q(turns, "turn/min")).m_as("m"), 10.0
    if height >= arm:
        return
    angle = brentq(lambda angle: 9.80665 * np.tan(angle) - (turns * np.pi / 30) ** 2 * arm * np.sin(angle), 1e-6, np.pi / 2 - 1e-9,
                   xtol=1e-14)
    assert arm * np.cos(angle) == pytest.approx(height, rel=1e-3)


@given(some.floats(0.1, 1), some.floats(5, 60), some.floats(0, 0.04))
def test_the_rise_is_that_of_two_heights(arm, angle, lift):
    before = arm * np.cos(np.radians(angle))
    speed = lambda height: brentq(lambda turns: centrifugal.ball_height(speed=Q(turns, "turn/min")).m_as("m") - height, 1, 1000)  # noqa: E731
    rise = centrifugal.ball_rise(arm=Q(arm, "m"), angle=Q(angle, "deg"), lift=Q(lift, "m")).m_as("%")
    assert rise == pytest.approx(100 * (speed(before - lift) / speed(before) - 1), abs=1e-6)


@given(some.floats(0.01, 5), some.floats(0.1, 10), some.floats(1, 30))
def test_at_the_set_speed_the_force_is_the_springs(force, grams, millimetres):
    speed = centrifugal.contact_speed(spring_force=Q(force, "N"), mass=Q(grams, "g"), radius=Q(millimetres, "mm"))
    assert grams / 1e3 * millimetres / 1e3 * (speed.m_as("turn/min") * np.pi / 30) ** 2 == pytest.approx(force)


@given(some.floats(-2, 5), some.floats(5.1, 12), some.floats(-0.5, 1.5))
def test_the_duty_gives_the_mean_back(low, high, share):
    needed = np.average([high, low], weights=[share, 1 - share])
    duty = centrifugal.contact_duty(needed_voltage=Q(needed, "V"), low_voltage=Q(low, "V"), high_voltage=Q(high, "V"))
    assert duty == pytest.approx(share, abs=1e-9)


@given(some.floats(0.001, 0.05))
def test_the_dead_band_lies_between_two_contact_speeds(share):
    """Friction adds to the force on the way up and takes from it on the way down."""
    up, down = (centrifugal.contact_speed(spring_force=Q(1 + side * share, "N"), mass=Q(1, "g"), radius=Q(8, "mm")).magnitude
                for side in (1, -1))
    band = centrifugal.dead_band(friction_force=Q(share, "N"), governing_force=Q(1, "N"))
    assert band == pytest.approx((up - down) / ((up + down) / 2), rel=1e-3)


@pytest.mark.parametrize(("law", "given_values", "told"), [
    ("ball_height", dict(speed=Q(0, "turn/min")), "speed"),
    ("ball_rise", dict(arm=Q(0.4, "m"), angle=Q(90, "deg"), lift=Q(1, "mm")), "angle: must be below 90"),
    ("ball_rise", dict(arm=Q(0.4, "m"), angle=Q(30, "deg"), lift=Q(0.35, "m")), "lift: must be less"),
    ("contact_speed", dict(spring_force=Q(0, "N"), mass=Q(1, "g"), radius=Q(8, "mm")), "spring_force"),
    ("contact_duty", dict(needed_voltage=Q(4, "V"), low_voltage=Q(5, "V"), high_voltage=Q(5, "V")), "high_voltage: must be above"),
    ("dead_band", dict(friction_force=Q(-1, "N"), governing_force=Q(1, "N")), "friction_force"),
])
def test_nonsense_is_told(law, given_values, told):
    with pytest.raises(ValueError, match=told):
        getattr(centrifugal, law)(**given_values)
