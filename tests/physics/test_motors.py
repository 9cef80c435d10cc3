"""A small motor's laws: limits, a second route, the published cases that need two steps, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.optimize import brentq, minimize_scalar

from benchreckoner.physics.motor_power import best_efficiency_current, efficiency, most_power_current, shaft_power
from benchreckoner.physics.motor_runs import constants_from_two_loads, motor_constant_from_run
from benchreckoner.physics.motors import (motor_speed, shaft_torque, stall_current, stall_torque, terminal_voltage,
                                          torque_ratio)
from benchreckoner.units import Q

VOLTS, OHMS, CONSTANT, IDLE, DROP = (some.floats(2, 15), some.floats(5, 60), some.floats(0.003, 0.04), some.floats(0.005, 0.02),
                                     some.floats(0, 0.5))
SHARE = some.floats(0.01, 0.99)


def electric(volts, ohms, drop):
    return dict(voltage=Q(volts, "V"), winding_resistance=Q(ohms, "ohm"), brush_drop=Q(drop, "V"))


def motor(ohms, constant, drop):
    return dict(winding_resistance=Q(ohms, "ohm"), motor_constant=Q(constant, "V*s/rad"), brush_drop=Q(drop, "V"))


@given(volts=VOLTS, ohms=OHMS, constant=CONSTANT, drop=DROP, share=SHARE)
def test_volts_and_speed_are_each_others_inverse(volts, ohms, constant, drop, share):
    amps = Q(share * (volts - drop) / ohms, "A")
    speed = motor_speed(voltage=Q(volts, "V"), current=amps, **motor(ohms, constant, drop))
    assert terminal_voltage(speed=speed, current=amps, **motor(ohms, constant, drop)).m_as("V") == pytest.approx(volts)


@given(volts=VOLTS, ohms=OHMS, constant=CONSTANT, drop=DROP)
def test_held_it_draws_the_most_and_stands(volts, ohms, constant, drop):
    held = stall_current(**electric(volts, ohms, drop))
    assert motor_speed(voltage=Q(volts, "V"), current=held, **motor(ohms, constant, drop)).m_as("turn/min") == pytest.approx(0, abs=1e-6)
    assert held.m_as("A") == pytest.approx((volts - drop) / ohms)


def test_volts_by_hand():
    """0.013 x 251.327 + 0.085 x 15 + 0.2 = 4.7423 V."""
    volts = terminal_voltage(speed=Q(2400, "turn/min"), current=Q(85, "mA"), **motor(15, 0.013, 0.2))
    assert volts.m_as("V") == pytest.approx(4.7423, abs=1e-4)


def test_twice_the_constant_half_the_speed_and_twice_the_torque():
    speeds = motor_speed(voltage=Q(6, "V"), current=Q(85, "mA"), winding_resistance=Q(15, "ohm"),
                         motor_constant=Q([0.013, 0.026], "V*s/rad")).m_as("turn/min")
    torques = shaft_torque(current=Q(85, "mA"), no_load_current=Q(20, "mA"), motor_constant=Q([0.013, 0.026], "V*s/rad")).m_as("N*m")
    assert speeds[0] == pytest.approx(2 * speeds[1]) and torques[1] == pytest.approx(2 * torques[0])


@given(volts=VOLTS, ohms=OHMS, constant=CONSTANT, idle=IDLE, drop=DROP, share=SHARE)
def test_shaft_power_is_torque_times_speed(volts, ohms, constant, idle, drop, share):
    held = (volts - drop) / ohms
    if held <= idle:
        return
    amps = Q(idle + share * (held - idle), "A")
    power = shaft_power(current=amps, no_load_current=Q(idle, "A"), **electric(volts, ohms, drop)).m_as("W")
    speed = motor_speed(voltage=Q(volts, "V"), current=amps, **motor(ohms, constant, drop)).m_as("rad/s")
    torque = shaft_torque(current=amps, no_load_current=Q(idle, "A"), motor_constant=Q(constant, "V*s/rad")).m_as("N*m")
    assert power == pytest.approx(torque * speed, rel=1e-6, abs=1e-12)
    taken = (Q(volts, "V") * amps).m_as("W")
    assert efficiency(current=amps, no_load_current=Q(idle, "A"), **electric(volts, ohms, drop)).m == pytest.approx(power / taken)


@pytest.mark.parametrize("drop", [0, 0.4])
def test_the_best_currents_against_a_search(drop):
    given_ = electric(6, 15, drop)

    def wasted(amps):
        return -efficiency(current=Q(amps, "A"), no_load_current=Q(0.02, "A"), **given_).m

    def power(amps):
        return -shaft_power(current=Q(amps, "A"), no_load_current=Q(0.02, "A"), **given_).m

    ends = dict(bounds=(0.021, 0.37), method="bounded", options={"xatol": 1e-9})
    best = best_efficiency_current(no_load_current=Q(0.02, "A"), **given_).m_as("A")
    most = most_power_current(no_load_current=Q(0.02, "A"), **given_).m_as("A")
    assert best == pytest.approx(minimize_scalar(wasted, **ends).x, rel=1e-4)
    assert most == pytest.approx(minimize_scalar(power, **ends).x, rel=1e-4)


@pytest.mark.parametrize(("turns", "held", "half", "half_held", "watts"), [
    (600, 0.325, 300, 0.163, 5.105), (3750, 0.0722, 1875, 0.0361, 7.088), (92, 1.6, 46, 0.80, 3.854)])
def test_frictionless_most_power_at_half_speed_and_half_torque(turns, held, half, half_held, watts):
    """Check values M13 (a design course's motor page, FOUND) and M14 (RECOMPUTED), on 6 V and 2 ohm, which cancel."""
    made = dict(voltage=Q(6, "V"), winding_resistance=Q(2, "ohm"))
    amps = most_power_current(no_load_current=Q(0, "A"), **made)
    free = motor_speed(current=Q(0, "A"), motor_constant=Q(1, "V*s/rad"), **made)
    speed = motor_speed(current=amps, motor_constant=Q(1, "V*s/rad"), **made)
    whole = stall_torque(no_load_current=Q(0, "A"), motor_constant=Q(1, "V*s/rad"), **made)
    torque = shaft_torque(current=amps, no_load_current=Q(0, "A"), motor_constant=Q(1, "V*s/rad"))
    assert (speed / free).m_as("") * turns == pytest.approx(half, rel=0.004)
    assert (torque / whole).m_as("") * held == pytest.approx(half_held, rel=0.004)
    assert turns * 2 * np.pi / 60 * held / 4 == pytest.approx(watts, rel=1e-3)
    assert shaft_power(current=amps, no_load_current=Q(0, "A"), **made).m_as("W") == pytest.approx((free * whole).m_as("W*rad") / 4)


@pytest.mark.parametrize(("volts", "speed"), [(40, 169.2), (50, 217.5)])
def test_a_load_of_constant_power(volts, speed):
    """Check value M04: Fitzgerald et al., example 11.5, FOUND. 100 W, 1.03 ohm, 0.22 V·s/rad."""
    def beyond(amps):
        return shaft_power(voltage=Q(volts, "V"), current=Q(amps, "A"), winding_resistance=Q(1.03, "ohm"),
                           no_load_current=Q(0, "A")).m_as("W") - 100

    amps = brentq(beyond, 0.1, volts / 1.03 / 2)
    turned = motor_speed(voltage=Q(volts, "V"), current=Q(amps, "A"), winding_resistance=Q(1.03, "ohm"), motor_constant=Q(0.22, "V*s/rad"))
    assert turned.m_as("rad/s") == pytest.approx(speed, rel=1e-3)


def test_torque_grows_faster_than_current():
    """c + (c - 1) I0/(I1 - I0) with c = 140/85; without friction the two go together."""
    many = 140 / 85
    ratio = torque_ratio(first_current=Q(85, "mA"), second_current=Q(140, "mA"), no_load_current=Q([20, 0], "mA")).m
    assert ratio == pytest.approx([many + (many - 1) * 20 / 65, many])


@given(ohms=OHMS, constant=CONSTANT, drop=DROP, first=some.floats(0.02, 0.08), times=some.floats(1.5, 3))
def test_two_loads_give_the_motor_back(ohms, constant, drop, first, times):
    """Made by numpy's own arithmetic; the volts are enough for both."""
    amps = np.array([first, times * first])
    volts = drop + amps[1] * ohms + np.array([1.0, 1.7])
    turns = (volts - drop - amps * ohms) / constant
    found = constants_from_two_loads(first_voltage=Q(volts[0], "V"), first_current=Q(amps[0], "A"), first_speed=Q(turns[0], "rad/s"),
                                     second_voltage=Q(volts[1], "V"), second_current=Q(amps[1], "A"),
                                     second_speed=Q(turns[1], "rad/s"), brush_drop=Q(drop, "V"))
    expected = np.linalg.solve(np.column_stack([amps, turns]), volts - drop)
    assert [one.m for one in found] == pytest.approx(expected, rel=1e-6)
    one = motor_constant_from_run(voltage=Q(volts[0], "V"), current=Q(amps[0], "A"), speed=Q(turns[0], "rad/s"),
                                  winding_resistance=Q(ohms, "ohm"), brush_drop=Q(drop, "V"))
    assert one.m_as("V*s/rad") == pytest.approx(constant)


TWO = dict(first_voltage=Q(6, "V"), first_current=Q(50, "mA"), first_speed=Q(4000, "turn/min"), second_voltage=Q(6, "V"),
           second_current=Q(200, "mA"), second_speed=Q(2000, "turn/min"))


@pytest.mark.parametrize(("call", "told"), [
    (lambda: motor_speed(voltage=Q(6, "V"), current=Q(0.5, "A"), **motor(15, 0.013, 0)), "current: 0.5 A is more than the 0.4 A"),
    (lambda: motor_speed(voltage=Q(0.3, "V"), current=Q(0, "A"), **motor(15, 0.013, 0.5)), "brush_drop: takes all"),
    (lambda: motor_speed(voltage=Q(-6, "V"), current=Q(0, "A"), **motor(15, 0.013, 0)), "voltage"),
    (lambda: terminal_voltage(speed=Q(-1, "turn/min"), current=Q(0, "A"), **motor(15, 0.013, 0)), "speed"),
    (lambda: shaft_torque(current=Q(10, "mA"), no_load_current=Q(20, "mA"), motor_constant=Q(0.013, "V*s/rad")), "drive the shaft"),
    (lambda: torque_ratio(first_current=Q(20, "mA"), second_current=Q(40, "mA"), no_load_current=Q(20, "mA")), "first_current"),
    (lambda: efficiency(current=Q(0, "A"), no_load_current=Q(0, "A"), **electric(6, 15, 0)), "current"),
    (lambda: motor_constant_from_run(voltage=Q(1, "V"), current=Q(0.1, "A"), speed=Q(1, "turn/min"), winding_resistance=Q(15, "ohm")),
     "nothing is left to turn on"),
    (lambda: constants_from_two_loads(**{**TWO, "second_current": Q(50, "mA"), "second_speed": Q(4000, "turn/min")}), "in step"),
    (lambda: constants_from_two_loads(**{**TWO, "second_speed": Q(4500, "turn/min")}), "no motor gives these two runs"),
    (lambda: constants_from_two_loads(**{**TWO, "second_speed": Q(0, "turn/min")}), "second_speed"),
])
def test_what_cannot_be_is_told(call, told):
    with pytest.raises(ValueError, match=told):
        call()
