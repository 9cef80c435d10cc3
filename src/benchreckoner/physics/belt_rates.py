"""Rates that can be heard: how often the motor, an idler, the belt and a flywheel come round, and where the belt springs."""

import numpy as np

from benchreckoner.physics.rubber import held_ratio
from benchreckoner.units import Q, need


def belt_speed(*, pulley_radius, speed):
    r"""Speed of a belt along its way.

    Parameters
    ----------
    pulley_radius : Quantity [m], above zero
        Up to the neutral line.
    speed : Quantity [turn/min], zero or more
        Of that pulley.

    Returns
    -------
    Quantity [m/s]

    Notes
    -----
    .. math:: v = 2\pi R n

    References
    ----------
    .. [1] Geometry, check values C4 and C40. RECOMPUTED.

    Examples
    --------
    >>> print(f"{belt_speed(pulley_radius=Q(3.6, 'mm'), speed=Q(2400, 'turn/min')):.3f~P}")
    0.905 m/s
    """
    return (need(pulley_radius, "m", "pulley_radius", above=0) * need(speed, "rad/s", "speed", least=0)).to("m/s")


def pulley_rate(*, belt_speed, pulley_radius):
    r"""How often a pulley or an idler comes round.

    Parameters
    ----------
    belt_speed : Quantity [m/s], zero or more
    pulley_radius : Quantity [m], above zero
        Up to the neutral line.

    Returns
    -------
    Quantity [Hz]

    Notes
    -----
    .. math:: f = \frac{v}{2\pi R}

    A bent shaft or a lump of tar on this pulley is heard at this rate. Creep makes a driven pulley slower by about 1 %.

    References
    ----------
    .. [1] Geometry, check value C40. RECOMPUTED.

    Examples
    --------
    >>> print(f"{pulley_rate(belt_speed=Q(0.90478, 'm/s'), pulley_radius=Q(30.6, 'mm')):.3f~P}")
    4.706 Hz
    """
    return (need(belt_speed, "m/s", "belt_speed", least=0) / (2 * np.pi * need(pulley_radius, "m", "pulley_radius", above=0))).to("Hz")


def belt_rate(*, belt_speed, path_length):
    r"""How often one place of the belt comes round.

    Parameters
    ----------
    belt_speed : Quantity [m/s], zero or more
    path_length : Quantity [m], above zero

    Returns
    -------
    Quantity [Hz]

    Notes
    -----
    .. math:: f = v / L

    A kink, a joint or a thick place is heard at this rate.

    References
    ----------
    .. [1] Geometry, check value C40. RECOMPUTED.

    Examples
    --------
    >>> print(f"{belt_rate(belt_speed=Q(0.90478, 'm/s'), path_length=Q(230.98484, 'mm')):.3f~P}")
    3.917 Hz
    """
    return (need(belt_speed, "m/s", "belt_speed", least=0) / need(path_length, "m", "path_length", above=0)).to("Hz")


def belt_resonance(*, area, modulus, stretch_ratio, span, flywheel_radius, inertia):
    r"""Rate at which a flywheel swings on its two spans, the motor held still.

    Parameters
    ----------
    area : Quantity [m**2], above zero
        Of the free belt.
    modulus : Quantity [Pa], above zero
    stretch_ratio : float or array, 1 to 1.5
    span : Quantity [m], above zero
        One free span.
    flywheel_radius : Quantity [m], above zero
        Up to the neutral line.
    inertia : Quantity [kg*m**2], above zero

    Returns
    -------
    Quantity [Hz]

    Raises
    ------
    ValueError
        For a ratio at which the tension law does not hold.

    Notes
    -----
    .. math:: f_0 = \frac{1}{2\pi} \sqrt{\frac{2 k R^2}{J}}, \qquad k = \frac{A_0 E}{3\, l} \left(\lambda + 2 \lambda^{-2}\right)

    What shakes faster than this is filtered, what shakes near it grows. Rubber is stiffer when shaken than when stretched
    slowly, so the true rate lies higher.

    References
    ----------
    .. [1] A mass on two springs with the slope of the neo-Hookean law, check value C40. RECOMPUTED.

    Examples
    --------
    >>> swing = belt_resonance(area=Q(1.44, "mm**2"), modulus=Q(3.60507, "MPa"), stretch_ratio=1.05, span=Q(47.9166, "mm"),
    ...     flywheel_radius=Q(30.6, "mm"), inertia=Q(2.7e-5, "kg*m**2"))
    >>> print(f"{swing:.2f~P}")
    13.48 Hz
    """
    ratio = held_ratio(stretch_ratio, "stretch_ratio")
    stiffness = need(area, "m**2", "area", above=0) * need(modulus, "Pa", "modulus", above=0) / 3 * (ratio + 2 * ratio**-2) \
        / need(span, "m", "span", above=0)
    radius, mass = need(flywheel_radius, "m", "flywheel_radius", above=0), need(inertia, "kg*m**2", "inertia", above=0)
    return (np.sqrt(2 * stiffness * radius**2 / mass) / (2 * np.pi)).to("Hz")
