"""When a governed motor hunts: the limit of its compensation, its two roots, its way through a step of load."""

import numpy as np
from scipy.linalg import expm

from benchreckoner.units import Q, need


def stability_limit(*, winding_resistance, inductance, inertia, viscous_friction, motor_constant):
    r"""The compensation above which a governed motor's speed does not come to rest.

    Parameters
    ----------
    winding_resistance : Quantity [ohm], above zero
        As cold as it gets.
    inductance : Quantity [H], above zero
        Of the winding.
    inertia : Quantity [kg*m**2], above zero
        At the motor's shaft.
    viscous_friction : Quantity [N*m*s/rad], zero or more
        Torque that grows with speed.
    motor_constant : Quantity [V*s/rad], above zero

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R_c < R + \min(L\, b / J,\; K_e^2 / b)

    The first end hunts, the second would creep away. In a small motor both lie a hair above the winding's own ohms.
    An ideal amplifier: a filter or a slow transistor lowers it.

    References
    ----------
    .. [1] Routh's rule for a quadratic, held by its roots. RECOMPUTED.

    Examples
    --------
    >>> ohms = stability_limit(winding_resistance=Q(15, "ohm"), inductance=Q(10, "mH"), inertia=Q(1e-6, "kg*m**2"),
    ...     viscous_friction=Q(1e-6, "N*m*s/rad"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{ohms:.2f~P}")
    15.01 Ω
    """
    winding, inductance, inertia, friction, constant = _moving(winding_resistance, inductance, inertia, viscous_friction,
                                                               motor_constant)
    with np.errstate(divide="ignore"):
        spare = np.minimum(inductance * friction / inertia, np.divide(constant**2, friction))
    return Q(winding + spare, "ohm")


def governor_roots(*, compensation, winding_resistance, inductance, inertia, viscous_friction, motor_constant):
    r"""How a governed motor answers a jolt: the rates at which its two motions grow or die, and its swing.

    Parameters
    ----------
    compensation : Quantity [ohm], zero or more
    winding_resistance, inductance, inertia, viscous_friction, motor_constant : Quantity
        As for `stability_limit`.

    Returns
    -------
    slow, quick : Quantity [1/s]
        Real parts of the two roots, the larger first. Below zero a jolt dies away, above zero it grows.
    swing : Quantity [Hz]
        How often it swings meanwhile; nought where it does not.

    Notes
    -----
    .. math:: L J s^2 + [(R - R_c) J + L b] s + (R - R_c) b + K_e^2 = 0

    References
    ----------
    .. [1] Volts round the loop and torque on the shaft, an ideal amplifier; held by numerical eigenvalues. RECOMPUTED.

    Examples
    --------
    >>> slow, quick, swing = governor_roots(compensation=Q(12, "ohm"), winding_resistance=Q(15, "ohm"), inductance=Q(10, "mH"),
    ...     inertia=Q(1e-6, "kg*m**2"), viscous_friction=Q(0, "N*m*s/rad"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{slow.magnitude:.1f} and {quick.magnitude:.1f} a second, {swing.magnitude:.1f} Hz")
    -75.2 and -224.8 a second, 0.0 Hz
    """
    winding, inductance, inertia, friction, constant = _moving(winding_resistance, inductance, inertia, viscous_friction,
                                                               motor_constant)
    left = winding - need(compensation, "ohm", "compensation", least=0).m_as("ohm")
    damping = left / inductance + friction / inertia
    stiffness = (left * friction + constant**2) / (inductance * inertia)
    root = np.sqrt(damping**2 / 4 - stiffness + 0j)
    return (Q(-damping / 2 + root.real, "1/s"), Q(-damping / 2 - root.real, "1/s"), Q(root.imag / (2 * np.pi), "Hz"))


def load_step(*, time, torque, compensation, winding_resistance, inductance, inertia, viscous_friction, motor_constant):
    r"""Change of a governed motor's speed after its load has grown at one blow.

    Parameters
    ----------
    time : Quantity [s], one axis of equal steps from zero
        Since the blow.
    torque : Quantity [N*m]
        By how much the load grew.
    compensation : Quantity [ohm], zero or more
    winding_resistance, inductance, inertia, viscous_friction, motor_constant : Quantity
        As for `stability_limit`.

    Returns
    -------
    Quantity [turn/min], shape of `time`
        Of a hunting motor it grows without end; a real one is stopped by its supply.

    Raises
    ------
    ValueError
        For times that are not equal steps from zero.

    Notes
    -----
    .. math:: L \dot\imath = -(R - R_c) i - K_e \omega, \quad J \dot\omega = K_e i - b\, \omega - T

    solved by the matrix exponential of one step of time, again and again.

    References
    ----------
    .. [1] Volts round the loop and torque on the shaft, an ideal amplifier; held by a numerical solution. RECOMPUTED.

    Examples
    --------
    >>> change = load_step(time=Q(np.linspace(0, 1, 11), "s"), torque=Q(0.5, "mN*m"), compensation=Q(12, "ohm"),
    ...     winding_resistance=Q(15, "ohm"), inductance=Q(10, "mH"), inertia=Q(1e-6, "kg*m**2"),
    ...     viscous_friction=Q(0, "N*m*s/rad"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{change[-1].m_as('turn/min'):.1f}")
    -84.8
    """
    winding, inductance, inertia, friction, constant = _moving(winding_resistance, inductance, inertia, viscous_friction,
                                                               motor_constant)
    left = winding - need(compensation, "ohm", "compensation", least=0).m_as("ohm")
    seconds = need(time, "s", "time", least=0).m_as("s")
    torque = need(torque, "N*m", "torque").m_as("N*m")
    if np.ndim(seconds) != 1 or len(seconds) < 2 or seconds[0] != 0 or not np.allclose(np.diff(seconds), seconds[1]):
        raise ValueError("time: must run in equal steps from zero; write Q(np.linspace(0, 0.4, 401), 's')")
    # The blow is a third state that stays as it is.
    motion = np.array([[-left / inductance, -constant / inductance, 0],
                       [constant / inertia, -friction / inertia, -torque / inertia], [0, 0, 0]])
    step, state = expm(motion * seconds[1]), np.array([0.0, 0.0, 1.0])
    speeds = np.empty(len(seconds))
    for place in range(len(seconds)):
        speeds[place] = state[1]
        state = step @ state
    return Q(speeds, "rad/s").to("turn/min")


def _moving(winding_resistance, inductance, inertia, viscous_friction, motor_constant):
    """What turns, as plain numbers in SI."""
    return (need(winding_resistance, "ohm", "winding_resistance", above=0).m_as("ohm"),
            need(inductance, "H", "inductance", above=0).m_as("H"),
            need(inertia, "kg*m**2", "inertia", above=0).m_as("kg*m**2"),
            need(viscous_friction, "N*m*s/rad", "viscous_friction", least=0).m_as("N*m*s/rad"),
            need(motor_constant, "V*s/rad", "motor_constant", above=0).m_as("V*s/rad"))
