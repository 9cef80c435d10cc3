"""When a governed motor hunts: roots against numpy's eigenvalues, the limit by a root search, the step by solve_ivp."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from benchreckoner.physics import hunting
from benchreckoner.units import Q

WINDING, HENRY, INERTIA, FRICTION, CONSTANT = 15.0, 0.010, 6.1044e-7, 2e-7, 0.0130


def set_of(winding=WINDING, henry=HENRY, inertia=INERTIA, friction=FRICTION, constant=CONSTANT):
    return dict(winding_resistance=Q(winding, "ohm"), inductance=Q(henry, "H"), inertia=Q(inertia, "kg*m**2"),
                viscous_friction=Q(friction, "N*m*s/rad"), motor_constant=Q(constant, "V*s/rad"))


def eigenvalues(ohms, winding=WINDING, henry=HENRY, inertia=INERTIA, friction=FRICTION, constant=CONSTANT):
    return np.linalg.eigvals([[(ohms - winding) / henry, -constant / henry], [constant / inertia, -friction / inertia]])


@given(some.floats(0, 30), some.floats(1e-3, 30e-3), some.floats(1e-7, 1e-5), some.floats(0, 1e-6))
def test_roots_are_the_eigenvalues(ohms, henry, inertia, friction):
    expected = sorted(eigenvalues(ohms, henry=henry, inertia=inertia, friction=friction), key=lambda root: -root.real)
    slow, quick, swing = hunting.governor_roots(compensation=Q(ohms, "ohm"), **set_of(henry=henry, inertia=inertia, friction=friction))
    size = max(abs(root) for root in expected)
    assert slow.m_as("1/s") == pytest.approx(expected[0].real, abs=1e-6 * size)
    assert quick.m_as("1/s") == pytest.approx(expected[1].real, abs=1e-6 * size)
    assert swing.m_as("Hz") == pytest.approx(abs(expected[0].imag) / (2 * np.pi), abs=1e-6 * size)


@given(some.floats(5, 60), some.floats(1e-3, 30e-3), some.floats(1e-7, 1e-5), some.floats(1e-9, 1e-6))
def test_the_limit_is_where_the_real_part_changes_sign(winding, henry, inertia, friction):
    given_set = dict(winding=winding, henry=henry, inertia=inertia, friction=friction)
    limit = hunting.stability_limit(**set_of(**given_set)).m_as("ohm")
    found = brentq(lambda ohms: eigenvalues(ohms, **given_set).real.max(), 0, winding + 1000, xtol=1e-12)
    assert limit == pytest.approx(found, rel=1e-6)


def test_the_limit_by_creeping_away():
    """With much friction the last coefficient decides: the motor never swings, it runs away."""
    given_set = dict(henry=0.1, inertia=1e-7, friction=1e-4)
    limit = hunting.stability_limit(**set_of(**given_set)).m_as("ohm")
    assert limit == pytest.approx(WINDING + CONSTANT**2 / 1e-4)
    assert eigenvalues(limit - 0.01, **given_set).real.max() < 0 < eigenvalues(limit + 0.01, **given_set).real.max()


def test_without_friction_the_limit_is_the_winding():
    assert hunting.stability_limit(**set_of(friction=0)).m_as("ohm") == WINDING


def test_at_the_edge_it_swings_for_ever():
    slow, quick, swing = hunting.governor_roots(compensation=Q(WINDING, "ohm"), **set_of(friction=0))
    assert slow.magnitude == quick.magnitude == 0
    assert swing.m_as("Hz") == pytest.approx(CONSTANT / np.sqrt(HENRY * INERTIA) / (2 * np.pi))


@settings(max_examples=20, deadline=None)
@given(some.floats(0, 18), some.floats(-1e-3, 1e-3))
def test_a_step_of_load_by_solving_the_two_equations(ohms, torque):
    times = np.linspace(0, 0.05, 26)

    def motion(_, state):
        return [((ohms - WINDING) * state[0] - CONSTANT * state[1]) / HENRY,
                (CONSTANT * state[0] - FRICTION * state[1] - torque) / INERTIA]

    expected = solve_ivp(motion, (0, 0.05), [0, 0], t_eval=times, rtol=1e-9, atol=1e-9).y[1] * 30 / np.pi
    change = hunting.load_step(time=Q(times, "s"), torque=Q(torque, "N*m"), compensation=Q(ohms, "ohm"), **set_of())
    assert change.m_as("turn/min") == pytest.approx(expected, rel=1e-5, abs=1e-3)


def test_a_step_ends_in_the_droop():
    """After long the steady law holds: the torque over the constant is the current, and each ohm that is missing costs its share."""
    change = hunting.load_step(time=Q(np.linspace(0, 2, 201), "s"), torque=Q(0.715, "mN*m"), compensation=Q(12, "ohm"), **set_of(friction=0))
    assert change[-1].m_as("rad/s") == pytest.approx(-3 * 0.055 / CONSTANT, rel=1e-6)


def test_two_roots_that_fall_together():
    """Where a swing just no longer forms: by the numerical solution, and level with its neighbours."""
    ohms = WINDING - 2 * CONSTANT * np.sqrt(HENRY / INERTIA)
    slow, quick, swing = hunting.governor_roots(compensation=Q(ohms, "ohm"), **set_of(friction=0))
    assert slow.magnitude == pytest.approx(quick.magnitude, rel=1e-6) and swing.magnitude < 1e-3
    same, beside = (hunting.load_step(time=Q(20, "ms"), torque=Q(0.7, "mN*m"), compensation=Q(ohms + more, "ohm"), **set_of(friction=0))
                    for more in (0, 1e-6))
    assert same.m_as("turn/min") == pytest.approx(beside.m_as("turn/min"), rel=1e-5)
    exact = dict(winding=3.0, henry=1.0, inertia=1.0, friction=0.0, constant=1.0)  # (s + 1)^2 with 1 ohm of compensation
    change = hunting.load_step(time=Q(2, "s"), torque=Q(1, "N*m"), compensation=Q(1, "ohm"), **set_of(**exact))
    assert change.m_as("rad/s") == pytest.approx(-2 * (1 - 3 * np.exp(-2)) - 2 * np.exp(-2))


def test_a_swing_past_all_numbers_is_told():
    with pytest.raises(ValueError, match="time: by 100 s the swing has grown past all numbers"):
        hunting.load_step(time=Q(100, "s"), torque=Q(1, "mN*m"), compensation=Q(18, "ohm"), **set_of())


@pytest.mark.parametrize(("name", "value"), [("winding", 0.0), ("henry", 0.0), ("inertia", -1.0), ("friction", -1e-9), ("constant", 0.0)])
def test_nonsense_is_told(name, value):
    with pytest.raises(ValueError, match="must be"):
        hunting.governor_roots(compensation=Q(12, "ohm"), **set_of(**{name: value}))
