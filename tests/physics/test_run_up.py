"""Running up and coasting down against a numerical solution of the same motion."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.integrate import solve_ivp

from benchreckoner.physics import run_up
from benchreckoner.physics.governors import ungoverned_speed
from benchreckoner.units import Q

CONSTANT, RESISTANCE = 0.0130, 17.2


@settings(max_examples=20, deadline=None)
@given(some.floats(2e-7, 1e-5), some.floats(0.02, 0.2), some.floats(7, 12))
def test_time_to_speed_by_solving_the_motion(inertia, amps, volts):
    def motion(_, speed):
        return [(CONSTANT * (volts - 0.3 - CONSTANT * speed[0]) / RESISTANCE - CONSTANT * amps) / inertia]

    def there(_, speed):
        return speed[0] - 80 * np.pi

    there.terminal = True
    final = ungoverned_speed(current=Q(amps, "A"), open_voltage=Q(volts, "V"), regulator_drop=Q(0.3, "V"), source_resistance=Q(2.2, "ohm"),
                             winding_resistance=Q(15, "ohm"), motor_constant=Q(CONSTANT, "V*s/rad"))
    if final.m_as("turn/min") < 2500:
        return
    tau = run_up.run_up_constant(inertia=Q(inertia, "kg*m**2"), resistance=Q(RESISTANCE, "ohm"), motor_constant=Q(CONSTANT, "V*s/rad"))
    time = run_up.run_up_time(speed=Q(2400, "turn/min"), final_speed=final, time_constant=tau)
    expected = solve_ivp(motion, (0, 20 * tau.m_as("s")), [0], events=there, rtol=1e-9, atol=1e-9).t_events[0][0]
    assert time.m_as("s") == pytest.approx(expected, rel=1e-5)


@given(some.floats(0, 1e-6), some.floats(1e-6, 1e-4), some.floats(1, 15))
def test_the_energy_is_the_same_at_either_shaft(own, wheel, ratio):
    inertia = run_up.shaft_inertia(motor_inertia=Q(own, "kg*m**2"), flywheel_inertia=Q(wheel, "kg*m**2"), ratio=ratio)
    assert inertia.m_as("kg*m**2") * 250**2 / 2 == pytest.approx(own * 250**2 / 2 + wheel * (250 / ratio) ** 2 / 2)


def test_coasting_down_uses_up_the_momentum():
    """Solved step by step until it stands."""
    def stands(_, speed):
        return speed[0]

    stands.terminal = True
    found = solve_ivp(lambda _, speed: [-0.4e-3 / 6e-7], (0, 10), [80 * np.pi], events=stands).t_events[0][0]
    time = run_up.coast_down_time(inertia=Q(6e-7, "kg*m**2"), speed=Q(2400, "turn/min"), friction_torque=Q(0.4, "mN*m"))
    assert time.m_as("s") == pytest.approx(found, rel=1e-6)


def test_one_time_constant_reaches_63_per_cent():
    time = run_up.run_up_time(speed=Q(1 - np.exp(-1), "turn/min"), final_speed=Q(1, "turn/min"), time_constant=Q(1, "s"))
    assert time.m_as("s") == pytest.approx(1)


@pytest.mark.parametrize(("law", "given_values", "told"), [
    ("run_up_time", dict(speed=Q(2400, "turn/min"), final_speed=Q(2400, "turn/min"), time_constant=Q(1, "s")), "speed: .* never reached"),
    ("run_up_time", dict(speed=Q(-1, "turn/min"), final_speed=Q(2400, "turn/min"), time_constant=Q(1, "s")), "speed: must be at least 0"),
    ("shaft_inertia", dict(motor_inertia=Q(0, "kg*m**2"), flywheel_inertia=Q(1, "kg*m**2"), ratio=0), "ratio: turns of the motor"),
    ("shaft_inertia", dict(motor_inertia=Q(0, "kg*m**2"), flywheel_inertia=Q(1, "kg*m**2"), ratio=True), "ratio: turns of the motor"),
    ("coast_down_time", dict(inertia=Q(1, "kg*m**2"), speed=Q(1, "turn/min"), friction_torque=Q(0, "N*m")), "friction_torque"),
    ("run_up_constant", dict(inertia=Q(1, "kg*m**2"), resistance=Q(0, "ohm"), motor_constant=Q(1, "V*s/rad")), "resistance"),
])
def test_nonsense_is_told(law, given_values, told):
    with pytest.raises(ValueError, match=told):
        getattr(run_up, law)(**given_values)
