"""A small motor's power at the shaft, its efficiency, and the currents where each is greatest."""

import numpy as np

from benchreckoner.physics.motors import motor_speed, shaft_torque, stall_current
from benchreckoner.units import Q, need

_NO_DROP = Q(0, "V")


def shaft_power(*, voltage, current, winding_resistance, no_load_current, brush_drop=_NO_DROP):
    r"""Power that the shaft hands on.

    Parameters
    ----------
    voltage : Quantity [V], above zero
    current : Quantity [A], at least `no_load_current`, at most the held current
    winding_resistance : Quantity [ohm], above zero
    no_load_current : Quantity [A], zero or more
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [W]

    Notes
    -----
    .. math:: P = (V - V_b - I R)(I - I_0)

    Torque times speed; the motor constant cancels.

    References
    ----------
    .. [1] Fitzgerald et al., Electric Machinery, 6th ed., example 7.9, check value M03. FOUND.

    Examples
    --------
    >>> power = shaft_power(voltage=Q(6, "V"), current=Q(210, "mA"), winding_resistance=Q(15, "ohm"),
    ...     no_load_current=Q(20, "mA"))
    >>> print(f"{power:.4f~P}")
    0.5415 W
    """
    unit = Q(1, "V*s/rad")
    speed = motor_speed(voltage=voltage, current=current, winding_resistance=winding_resistance, motor_constant=unit,
                        brush_drop=brush_drop)
    torque = shaft_torque(current=current, no_load_current=no_load_current, motor_constant=unit)
    return (torque * speed.to("rad/s") / Q(1, "rad")).to("W")


def efficiency(*, voltage, current, winding_resistance, no_load_current, brush_drop=_NO_DROP):
    r"""Share of the power taken that the shaft hands on.

    Parameters
    ----------
    voltage : Quantity [V], above zero
    current : Quantity [A], above zero, at least `no_load_current`, at most the held current
    winding_resistance : Quantity [ohm], above zero
    no_load_current : Quantity [A], zero or more
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [dimensionless]

    Notes
    -----
    .. math:: \eta = \frac{(V - V_b - I R)(I - I_0)}{V I}

    References
    ----------
    .. [1] Shaft power by power taken, check value M16. RECOMPUTED.

    Examples
    --------
    >>> share = efficiency(voltage=Q(6, "V"), current=Q(89.4, "mA"), winding_resistance=Q(15, "ohm"),
    ...     no_load_current=Q(20, "mA"))
    >>> print(f"{share:.4f~P}")
    0.6028
    """
    power = shaft_power(voltage=voltage, current=current, winding_resistance=winding_resistance,
                        no_load_current=no_load_current, brush_drop=brush_drop)
    return (power / (need(voltage, "V", "voltage", above=0) * need(current, "A", "current", above=0))).to("")


def best_efficiency_current(*, voltage, winding_resistance, no_load_current, brush_drop=_NO_DROP):
    r"""Current at which the motor wastes the smallest share.

    Parameters
    ----------
    voltage : Quantity [V], above zero
    winding_resistance : Quantity [ohm], above zero
    no_load_current : Quantity [A], zero or more
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = \sqrt{I_0 I_s}

    References
    ----------
    .. [1] Where the efficiency's slope is nought, check value M16. RECOMPUTED.

    Examples
    --------
    >>> amps = best_efficiency_current(voltage=Q(6, "V"), winding_resistance=Q(15, "ohm"), no_load_current=Q(20, "mA"))
    >>> print(f"{amps.to('mA'):.1f~P}")
    89.4 mA
    """
    held = stall_current(voltage=voltage, winding_resistance=winding_resistance, brush_drop=brush_drop)
    return np.sqrt(held * need(no_load_current, "A", "no_load_current", least=0)).to("A")


def most_power_current(*, voltage, winding_resistance, no_load_current, brush_drop=_NO_DROP):
    r"""Current at which the shaft hands on the most power: half way between no load and held.

    Parameters
    ----------
    voltage : Quantity [V], above zero
    winding_resistance : Quantity [ohm], above zero
    no_load_current : Quantity [A], zero or more
    brush_drop : Quantity [V], zero or more

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = \frac{I_0 + I_s}{2}

    Long before that the winding may be too warm: a motor of a player is run far below it.

    References
    ----------
    .. [1] Where the power's slope is nought, check value M16. RECOMPUTED.

    Examples
    --------
    >>> amps = most_power_current(voltage=Q(6, "V"), winding_resistance=Q(15, "ohm"), no_load_current=Q(20, "mA"))
    >>> print(f"{amps.to('mA'):.0f~P}")
    210 mA
    """
    held = stall_current(voltage=voltage, winding_resistance=winding_resistance, brush_drop=brush_drop)
    return ((held + need(no_load_current, "A", "no_load_current", least=0)) / 2).to("A")
