"""What a belt's pull costs a motor: friction where its shaft is pressed into the bearing, and the belt's own bending."""

from benchreckoner.units import Q, need


def belt_current(*, bearing, hub_load, bending_torque, shaft_radius, motor_constant):
    r"""Motor current that a belt costs, beside what the load takes.

    Parameters
    ----------
    bearing : float or array, zero or more
        X: the bearing's friction coefficient, times one plus twice the overhang over the distance of the bearings.
    hub_load : Quantity [N], zero or more
        Pull of the belt across the shaft.
    bending_torque : Quantity [N*m], zero or more
        What bending the belt round the pulleys takes, at the motor.
    shaft_radius : Quantity [mm], above zero
    motor_constant : Quantity [V*s/rad], above zero
        The same number as newton metres for each ampere.

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = (X Q r + M_{bend}) / K_t, \qquad X = \mu_b (1 + 2 a / b)

    The pulley stands out by *a* beyond the front bearing, the bearings lie *b* apart: a lever, so the front one carries more
    than the belt pulls. Dry friction: in proportion to the load, whatever the speed. An oiled sleeve at speed has less.

    References
    ----------
    .. [1] Levers and dry friction; check value M30, RECOMPUTED.

    Examples
    --------
    >>> amps = belt_current(bearing=0.1, hub_load=Q(2.84139, "N"), bending_torque=Q(99.006, "uN*m"), shaft_radius=Q(1, "mm"),
    ...     motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{amps.to('mA'):.1f~P}")
    29.5 mA
    """
    load, bending, radius, constant = _belt(hub_load, bending_torque, shaft_radius, motor_constant)
    return ((Q(bearing, "") * load * radius + bending) / constant).to("A")


def bearing_limit(*, spare_current, hub_load, bending_torque, shaft_radius, motor_constant):
    r"""The bearing at which a belt takes all the current that is to spare.

    Parameters
    ----------
    spare_current : Quantity [A]
        Most current at which the governor still holds, less what the motor draws without the belt.
    hub_load : Quantity [N], above zero
    bending_torque : Quantity [N*m], zero or more
    shaft_radius : Quantity [mm], above zero
    motor_constant : Quantity [V*s/rad], above zero

    Returns
    -------
    Quantity []
        X as in `belt_current`. Below zero where bending alone takes more than there is.

    Notes
    -----
    .. math:: X = (K_t I_{spare} - M_{bend}) / (Q r)

    References
    ----------
    .. [1] `belt_current` turned round; check value M30, RECOMPUTED.

    Examples
    --------
    >>> limit = bearing_limit(spare_current=Q(236.3, "mA"), hub_load=Q(2.84139, "N"), bending_torque=Q(99.006, "uN*m"),
    ...     shaft_radius=Q(1, "mm"), motor_constant=Q(0.013, "V*s/rad"))
    >>> print(f"{limit.m_as(''):.2f}")
    1.05
    """
    load, bending, radius, constant = _belt(hub_load, bending_torque, shaft_radius, motor_constant, above=0)
    return ((need(spare_current, "A", "spare_current") * constant - bending) / (load * radius)).to("")


def _belt(hub_load, bending_torque, shaft_radius, motor_constant, above=None):
    load = need(hub_load, "N", "hub_load", above=above, least=0)
    bending = need(bending_torque, "N*m", "bending_torque", least=0)
    radius = need(shaft_radius, "mm", "shaft_radius", above=0)
    return load, bending, radius, need(motor_constant, "V*s/rad", "motor_constant", above=0) * Q(1, "rad")
