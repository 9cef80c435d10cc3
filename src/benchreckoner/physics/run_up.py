"""From standstill to speed and back: what turns, seen from the motor's shaft, and how long it takes."""

import numpy as np

from benchreckoner.units import need


def shaft_inertia(*, motor_inertia, flywheel_inertia, ratio):
    r"""Everything that turns, as the motor's shaft feels it.

    Parameters
    ----------
    motor_inertia : Quantity [kg*m**2], zero or more
        Of the armature and its pulley.
    flywheel_inertia : Quantity [kg*m**2], zero or more
        Of flywheel or platter round its own shaft; a disc has half its mass times its radius squared.
    ratio : float, above zero
        Turns of the motor for one of the flywheel.

    Returns
    -------
    Quantity [kg*m**2]

    Notes
    -----
    .. math:: J = J_m + J_{fw} / g^2

    A belt that neither slips nor stretches.

    References
    ----------
    .. [1] The energy of both is the same, counted at one shaft. RECOMPUTED.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> inertia = shaft_inertia(motor_inertia=Q(2e-7, "kg*m**2"), flywheel_inertia=Q(1e-5, "kg*m**2"), ratio=5)
    >>> print(f"{inertia.magnitude:.1e}")
    6.0e-07
    """
    if isinstance(ratio, bool) or not isinstance(ratio, (int, float)) or not 0 < ratio < np.inf:
        raise ValueError(f"ratio: turns of the motor for one of the flywheel, above zero, got {ratio!r}; write ratio=5.3")
    own = need(motor_inertia, "kg*m**2", "motor_inertia", least=0)
    return (own + need(flywheel_inertia, "kg*m**2", "flywheel_inertia", least=0) / ratio**2).to("kg*m**2")


def run_up_constant(*, inertia, resistance, motor_constant):
    r"""Time constant with which a motor comes up to speed.

    Parameters
    ----------
    inertia : Quantity [kg*m**2], above zero
        At the motor's shaft.
    resistance : Quantity [ohm], above zero
        Winding and source together while the supply limits; the winding less the compensation while the governor holds.
    motor_constant : Quantity [V*s/rad], above zero

    Returns
    -------
    Quantity [s]

    Notes
    -----
    .. math:: \tau = J R / K_e^2

    The winding's inductance is left out: it is over within a millisecond.

    References
    ----------
    .. [1] Torque and volts of a motor with a permanent magnet. RECOMPUTED.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> tau = run_up_constant(inertia=Q(6e-7, "kg*m**2"), resistance=Q(17, "ohm"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{tau.to('ms'):.1f~P}")
    60.4 ms
    """
    inertia = need(inertia, "kg*m**2", "inertia", above=0)
    constant = need(motor_constant, "V*s/rad", "motor_constant", above=0)
    # Volts for a radian a second, and newton metres for an ampere, are the same number.
    return (inertia * need(resistance, "ohm", "resistance", above=0) / (constant * constant.to("N*m/A"))).to("s")


def run_up_time(*, speed, final_speed, time_constant):
    r"""Time from rest to a speed, on the way to a higher one that it would reach in the end.

    Parameters
    ----------
    speed : Quantity [turn/min], zero or more
    final_speed : Quantity [turn/min], above `speed`
        What the supply would drive it to with this load; see `governors.ungoverned_speed`.
    time_constant : Quantity [s], above zero

    Returns
    -------
    Quantity [s]

    Raises
    ------
    ValueError
        For a speed that it never reaches.

    Notes
    -----
    .. math:: t = -\tau \ln(1 - \omega / \omega_\infty)

    The load's torque is the same at all speeds, and the belt does not slip.

    References
    ----------
    .. [1] Exponential approach, held by a numerical solution. RECOMPUTED.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> time = run_up_time(speed=Q(2400, "turn/min"), final_speed=Q(4800, "turn/min"), time_constant=Q(100, "ms"))
    >>> print(f"{time.to('ms'):.1f~P}")
    69.3 ms
    """
    speed = need(speed, "turn/min", "speed", least=0)
    final = need(final_speed, "turn/min", "final_speed", above=0)
    if not np.all(speed < final):
        raise ValueError(f"speed: {speed:~P} is never reached, the supply takes this load to {final:~P}; "
                         "write a higher supply or less load")
    return (-need(time_constant, "s", "time_constant", above=0) * np.log1p(-(speed / final).m_as(""))).to("s")


def coast_down_time(*, inertia, speed, friction_torque):
    r"""Time to standstill after switching off.

    Parameters
    ----------
    inertia : Quantity [kg*m**2], above zero
        At the motor's shaft.
    speed : Quantity [turn/min], zero or more
    friction_torque : Quantity [N*m], above zero
        At the motor's shaft: of bearings, belt and brushes.

    Returns
    -------
    Quantity [s]

    Notes
    -----
    .. math:: t = J \omega / T

    Friction that is the same at all speeds, and a motor whose circuit is open: through a closed one it brakes itself.

    References
    ----------
    .. [1] Torque is the change of angular momentum. RECOMPUTED.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> time = coast_down_time(inertia=Q(6e-7, "kg*m**2"), speed=Q(2400, "turn/min"), friction_torque=Q(0.5, "mN*m"))
    >>> print(f"{time:.2f~P}")
    0.30 s
    """
    speed = need(speed, "turn/min", "speed", least=0)
    friction = need(friction_torque, "N*m", "friction_torque", above=0)
    return (need(inertia, "kg*m**2", "inertia", above=0) * speed / friction).to("s")
