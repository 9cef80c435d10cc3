"""When a governed motor hunts: the limit of its compensation, its two roots, its way through a step of load."""

import numpy as np

from benchreckoner.units import Q, need

_MOST_GROWTH = 700.0  # e to this still is a number


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
    slow, quick = _roots(left, inductance, inertia, friction, constant)
    return Q(slow.real, "1/s"), Q(quick.real, "1/s"), Q(slow.imag / (2 * np.pi), "Hz")


def load_step(*, time, torque, compensation, winding_resistance, inductance, inertia, viscous_friction, motor_constant):
    r"""Change of a governed motor's speed after its load has grown at one blow.

    Parameters
    ----------
    time : Quantity [s], zero or more
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
        For a time at which a hunting motor's swing has grown past all numbers.

    Notes
    -----
    .. math:: L \dot\imath = -(R - R_c) i - K_e \omega, \quad J \dot\omega = K_e i - b\, \omega - T

    With the roots :math:`s_1, s_2` of `governor_roots`, the speed's end :math:`\omega_e = -(R - R_c) T / [(R - R_c) b + K_e^2]`
    and :math:`g = (e^{s_1 t} - e^{s_2 t}) / (s_1 - s_2)`:

    .. math:: \omega = \omega_e (1 - e^{s_2 t} + s_2 g) - g T / J

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
    first, second = _roots(left, inductance, inertia, friction, constant)
    if not np.all(max(first.real, second.real) * seconds < _MOST_GROWTH):
        raise ValueError(f"time: by {time:~P} the swing has grown past all numbers; write a shorter time, such as Q(0.4, 's')")
    end = -left * torque / (left * friction + constant**2)
    early, late = np.exp(first * seconds), np.exp(second * seconds)
    between = (early - late) / (first - second) if first != second else seconds * late
    return Q((end * (1 - late + second * between) - between * torque / inertia).real, "rad/s").to("turn/min")


def _roots(left, inductance, inertia, friction, constant):
    """The two roots as complex numbers, from the ohms that are left uncompensated."""
    damping = left / inductance + friction / inertia
    root = np.sqrt(damping**2 / 4 - (left * friction + constant**2) / (inductance * inertia) + 0j)
    return -damping / 2 + root, -damping / 2 - root


def _moving(winding_resistance, inductance, inertia, viscous_friction, motor_constant):
    """What turns, as plain numbers in SI."""
    return (need(winding_resistance, "ohm", "winding_resistance", above=0).m_as("ohm"),
            need(inductance, "H", "inductance", above=0).m_as("H"),
            need(inertia, "kg*m**2", "inertia", above=0).m_as("kg*m**2"),
            need(viscous_friction, "N*m*s/rad", "viscous_friction", least=0).m_as("N*m*s/rad"),
            need(motor_constant, "V*s/rad", "motor_constant", above=0).m_as("V*s/rad"))
