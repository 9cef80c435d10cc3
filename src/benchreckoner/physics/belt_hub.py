"""What a belt does to the shaft it pulls at: the load on the hub, and the friction of the bearings under it."""

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.units import Q, need


def hub_load(*, tight_pull, slack_pull, wrap, centrifugal=Q(0, "N")):
    r"""Force with which a belt draws a pulley sideways.

    Parameters
    ----------
    tight_pull, slack_pull : Quantity [N], at least `centrifugal`
        The same twice for a belt at rest.
    wrap : Quantity [rad], zero or more
    centrifugal : Quantity [N], zero or more

    Returns
    -------
    Quantity [N]

    Raises
    ------
    ValueError
        If a side has no pull left.

    Notes
    -----
    .. math:: Q = \sqrt{F_1^2 + F_2^2 - 2 F_1 F_2 \cos\theta}

    with F - Fc for F in a running belt. At rest it is 2 F0 sin(theta/2).

    References
    ----------
    .. [1] Sum of two forces; check value C26. RECOMPUTED.

    Examples
    --------
    >>> print(f"{hub_load(tight_pull=Q(3, 'N'), slack_pull=Q(4, 'N'), wrap=Q(90, 'deg')):.2f~P}")
    5.00 N
    """
    flung = need(centrifugal, "N", "centrifugal", least=0).magnitude
    tight, slack = (need(pull, "N", name, least=0).magnitude - flung
                    for pull, name in ((tight_pull, "tight_pull"), (slack_pull, "slack_pull")))
    if not (np.all(tight >= 0) and np.all(slack >= 0)):
        raise ValueError("centrifugal: flings the belt off its pulley; write Q(0, 'N') for a belt at rest, or a slower speed")
    return Q(np.sqrt(tight**2 + slack**2 - 2 * tight * slack * np.cos(need(wrap, "rad", "wrap", least=0).magnitude)), "N")


def bearing_torque(*, hub_load, bearing_friction, shaft_radius, overhang=0.0):
    r"""Torque that the bearings take because a belt draws the shaft sideways.

    Parameters
    ----------
    hub_load : Quantity [N], zero or more
    bearing_friction : float or array, zero or more
        About 0.002 for balls, 0.02 to 0.1 for a good oiled sleeve, 0.1 to 0.3 dry or gummed.
    shaft_radius : Quantity [m], above zero
        In the bearing.
    overhang : float or array, zero or more
        How far the pulley stands out beyond the front bearing, by the distance of the two bearings.

    Returns
    -------
    Quantity [N*m]

    Notes
    -----
    .. math:: M = \mu_b\, r\, Q\, (1 + 2 a / b)

    A driven shaft has the same: seen from the motor it counts times the ratio of the radii, R1 / R2.

    References
    ----------
    .. [1] Khurmi and Gupta's journal friction, inputs and result FOUND, check value C9; levers, C34. RECOMPUTED.

    Examples
    --------
    >>> torque = bearing_torque(hub_load=Q(0.43108, "N"), bearing_friction=0.1, shaft_radius=Q(1, "mm"))
    >>> print(f"{torque.to('uN*m'):.2f~P}")
    43.11 µN·m
    """
    load, radius = need(hub_load, "N", "hub_load", least=0), need(shaft_radius, "m", "shaft_radius", above=0)
    friction = number(bearing_friction, "bearing_friction", least=0, example=0.1)
    return (friction * load * radius * (1 + 2 * number(overhang, "overhang", least=0, example=0.5))).to("N*m")
