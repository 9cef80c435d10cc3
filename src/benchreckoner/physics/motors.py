"""A small motor with brushes and a permanent magnet: volts, current, speed and torque."""

import numpy as np

from benchreckoner.physics.plain import useful_volts
from benchreckoner.units import Q, need

_NO_DROP = Q(0, "V")
_ROUNDING = 1e-9


def motor_speed(*, voltage, current, winding_resistance, motor_constant, brush_drop=_NO_DROP):
    r"""Speed at which a motor turns on these volts while it draws this current.

    Parameters
    ----------
    voltage : Quantity [V], above zero
        At the motor's own terminals.
    current : Quantity [A], zero or more
    winding_resistance : Quantity [ohm], above zero
    motor_constant : Quantity [V*s/rad], above zero
    brush_drop : Quantity [V], zero or more
        Volts that the brushes take at any current; in small motors mostly none.

    Returns
    -------
    Quantity [turn/min]

    Raises
    ------
    ValueError
        If the current is more than these volts drive through the held winding: it would have to turn backwards.

    Notes
    -----
    .. math:: \omega = \frac{V - V_b - I R}{K_e}

    Steady speed only. The winding's resistance rises as it warms, the magnet weakens.

    References
    ----------
    .. [1] Fitzgerald et al., Electric Machinery, 6th ed., ch. 7, check value M01. FOUND.

    Examples
    --------
    >>> speed = motor_speed(voltage=Q(6, "V"), current=Q(20, "mA"), winding_resistance=Q(15, "ohm"),
    ...     motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{speed.to('rad/s'):.2f~P}")
    438.46 rad/s
    """
    current = need(current, "A", "current", least=0)
    resistance = need(winding_resistance, "ohm", "winding_resistance", above=0)
    constant = need(motor_constant, "V*s/rad", "motor_constant", above=0)
    useful = useful_volts(voltage, brush_drop)
    if np.any((current * resistance).m_as("V") > useful.m_as("V") * (1 + _ROUNDING)):
        raise ValueError(f"current: {current:~P} is more than the {(useful / resistance).to('A'):.4g~P} that these volts drive "
                         "through the held winding; read volts and current at one time, or look at winding_resistance")
    left = np.maximum((useful - current * resistance).m_as("V"), 0)  # at a stand, nought but for rounding
    return (Q(left, "V") / constant).to("turn/min")


def terminal_voltage(*, speed, current, winding_resistance, motor_constant, brush_drop=_NO_DROP):
    r"""Volts that a motor needs at its terminals for this speed and current.

    Parameters
    ----------
    speed : Quantity [turn/min], zero or more
    current : Quantity [A], zero or more
    winding_resistance : Quantity [ohm], above zero
    motor_constant : Quantity [V*s/rad], above zero
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: V = K_e \omega + I R + V_b

    Steady speed only.

    References
    ----------
    .. [1] Fitzgerald et al., Electric Machinery, 6th ed., ch. 7. FOUND.

    Examples
    --------
    >>> volts = terminal_voltage(speed=Q(2400, "turn/min"), current=Q(85, "mA"), winding_resistance=Q(15, "ohm"),
    ...     motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{volts:.4f~P}")
    4.5423 V
    """
    speed = need(speed, "turn/min", "speed", least=0)
    current = need(current, "A", "current", least=0)
    resistance = need(winding_resistance, "ohm", "winding_resistance", above=0)
    constant = need(motor_constant, "V*s/rad", "motor_constant", above=0)
    return (constant * speed + current * resistance + need(brush_drop, "V", "brush_drop", least=0)).to("V")


def shaft_torque(*, current, no_load_current, motor_constant):
    r"""Torque that the shaft hands on, of what the current makes.

    Parameters
    ----------
    current : Quantity [A], at least `no_load_current`
    no_load_current : Quantity [A], zero or more
        What the motor draws with nothing on its shaft: its own friction.
    motor_constant : Quantity [V*s/rad], above zero
        Newton metres an ampere are the same number.

    Returns
    -------
    Quantity [N*m]

    Raises
    ------
    ValueError
        If the current is less than the motor's own friction takes: something would have to drive the shaft.

    Notes
    -----
    .. math:: T = K_e (I - I_0)

    The motor's own friction is taken as constant; over two to one in speed it moves by about a fifth (PRACTICE).
    Below about a fifth of the no-load speed it holds no longer.

    References
    ----------
    .. [1] Fitzgerald et al., Electric Machinery, 6th ed., ch. 7. FOUND.

    Examples
    --------
    >>> torque = shaft_torque(current=Q(85, "mA"), no_load_current=Q(20, "mA"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{torque.to('mN*m'):.3f~P}")
    0.845 mN·m
    """
    working = _working_current(current, no_load_current)
    return (need(motor_constant, "V*s/rad", "motor_constant", above=0) * Q(1, "rad") * working).to("N*m")


def stall_current(*, voltage, winding_resistance, brush_drop=_NO_DROP):
    r"""Current of a held motor, and of every motor in the first moment.

    Parameters
    ----------
    voltage : Quantity [V], above zero
    winding_resistance : Quantity [ohm], above zero
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I_s = \frac{V - V_b}{R}

    For a cold winding; held for longer than a second or two on full volts, it warms fast and draws less.

    References
    ----------
    .. [1] Kosow, Electric Machinery and Transformers, example 4.12, check value M11. FOUND.

    Examples
    --------
    >>> print(stall_current(voltage=Q(6, "V"), winding_resistance=Q(15, "ohm")))
    0.4 ampere
    """
    return (useful_volts(voltage, brush_drop) / need(winding_resistance, "ohm", "winding_resistance", above=0)).to("A")


def stall_torque(*, voltage, winding_resistance, motor_constant, no_load_current, brush_drop=_NO_DROP):
    r"""Torque of a held motor.

    Parameters
    ----------
    voltage : Quantity [V], above zero
    winding_resistance : Quantity [ohm], above zero
    motor_constant : Quantity [V*s/rad], above zero
    no_load_current : Quantity [A], zero or more
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [N*m]

    Notes
    -----
    .. math:: T_s = K_e (I_s - I_0)

    References
    ----------
    .. [1] The torque law at the held current, check value M15. RECOMPUTED.

    Examples
    --------
    >>> torque = stall_torque(voltage=Q(6, "V"), winding_resistance=Q(15, "ohm"), motor_constant=Q(0.013, "V*s/rad"),
    ...     no_load_current=Q(20, "mA"))
    >>> print(f"{torque.to('mN*m'):.2f~P}")
    4.94 mN·m
    """
    held = stall_current(voltage=voltage, winding_resistance=winding_resistance, brush_drop=brush_drop)
    return shaft_torque(current=held, no_load_current=no_load_current, motor_constant=motor_constant)


def torque_ratio(*, first_current, second_current, no_load_current):
    r"""How many times the torque of the first load the second one asks, by the two currents.

    Parameters
    ----------
    first_current : Quantity [A], above `no_load_current`
    second_current : Quantity [A], at least `no_load_current`
    no_load_current : Quantity [A], zero or more

    Returns
    -------
    Quantity [dimensionless]

    Raises
    ------
    ValueError
        If the first current is no more than the motor's own friction takes.

    Notes
    -----
    .. math:: \frac{T_2}{T_1} = \frac{I_2 - I_0}{I_1 - I_0}

    References
    ----------
    .. [1] The torque law twice, check value M17. RECOMPUTED.

    Examples
    --------
    >>> ratio = torque_ratio(first_current=Q(85, "mA"), second_current=Q(140, "mA"), no_load_current=Q(20, "mA"))
    >>> print(f"{ratio:.4f~P}")
    1.8462
    """
    first = _working_current(first_current, no_load_current, "first_current")
    if not np.all(first.magnitude > 0):
        raise ValueError(f"first_current: must be above the no-load current, got {first_current:~P}; "
                         "a motor without a load has nothing to compare with")
    return (_working_current(second_current, no_load_current, "second_current") / first).to("")


def _working_current(current, no_load_current, name="current"):
    """Current beyond what the motor's own friction takes."""
    current, idle = need(current, "A", name, least=0), need(no_load_current, "A", "no_load_current", least=0)
    if np.any(current.magnitude < idle.magnitude * (1 - _ROUNDING)):
        raise ValueError(f"{name}: {current:~P} is less than the {idle:~P} that the motor takes without a load; "
                         "something else would have to drive the shaft")
    return Q(np.maximum(current.magnitude - idle.magnitude, 0), "A")
