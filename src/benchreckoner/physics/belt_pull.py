"""How a belt pulls: grip and slip, and what its own speed takes of its grip."""

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.units import Q, need

_STILL = Q(0, "N")


def capstan_factor(*, friction, wrap):
    r"""How many times the slack side's pull the tight side may have before a belt slips.

    Parameters
    ----------
    friction : float or array, above zero
        Between belt and pulley.
    wrap : Quantity [rad], above zero

    Returns
    -------
    float or array

    Notes
    -----
    .. math:: F_1 / F_2 = e^{\mu \theta}

    The pulley's size has no part in it. A groove with slanted sides, the angle b between them, counts as a friction of
    mu / sin(b/2). Friction of rubber is no constant: it grows at light pressure and sinks with dust and shine.

    References
    ----------
    .. [1] Euler and Eytelwein; Shigley, eq. 17-7 in a stored study digest. FOUND.

    Examples
    --------
    >>> print(f"{capstan_factor(friction=0.3, wrap=Q(180, 'deg')):.4f}")
    2.5663
    """
    return np.exp(number(friction, "friction", above=0, example=0.4) * need(wrap, "rad", "wrap", above=0).magnitude)


def slack_pull(*, tight_pull, friction, wrap, centrifugal=_STILL):
    r"""Least pull the slack side must have, so that the belt does not slip.

    Parameters
    ----------
    tight_pull : Quantity [N], above `centrifugal`
    friction : float or array, above zero
    wrap : Quantity [rad], above zero
    centrifugal : Quantity [N], zero or more
        From `centrifugal_pull`; it lifts the belt and grips nothing.

    Returns
    -------
    Quantity [N]

    Raises
    ------
    ValueError
        If the belt is flung off its pulley: no pull is left to grip with.

    Notes
    -----
    .. math:: F_2 = F_c + (F_1 - F_c)\, e^{-\mu\theta}

    References
    ----------
    .. [1] Shigley, eq. 17-7. FOUND. R. S. Khurmi and J. K. Gupta, "Theory of Machines", ch. 11: inputs FOUND in stored
       companion scripts, the book's name and answers MEMORY.

    Examples
    --------
    >>> slack = slack_pull(tight_pull=Q(4167.4, "N"), friction=0.4, wrap=Q(3.34886, "rad"), centrifugal=Q(780, "N"))
    >>> print(f"{slack:.1f~P}")
    1667.4 N
    """
    tight, flung = need(tight_pull, "N", "tight_pull", above=0), need(centrifugal, "N", "centrifugal", least=0)
    _gripping("tight_pull", tight, flung)
    return (flung + (tight - flung) / capstan_factor(friction=friction, wrap=wrap)).to("N")


def needed_friction(*, tight_pull, slack_pull, wrap, centrifugal=_STILL):
    r"""Friction that a belt needs on a pulley to carry what it carries.

    Parameters
    ----------
    tight_pull, slack_pull : Quantity [N], above `centrifugal`
    wrap : Quantity [rad], above zero
    centrifugal : Quantity [N], zero or more

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        If a side has no pull left to grip with.

    Notes
    -----
    .. math:: \mu = \frac{1}{\theta} \ln\frac{F_1 - F_c}{F_2 - F_c}

    References
    ----------
    .. [1] Shigley, eq. 17-7 turned round, check values C12, C13 and C33. RECOMPUTED.

    Examples
    --------
    >>> mu = needed_friction(tight_pull=Q(846, "N"), slack_pull=Q(182, "N"), wrap=Q(3.0373, "rad"))
    >>> print(f"{mu:.3f}")
    0.506
    """
    tight, slack = need(tight_pull, "N", "tight_pull", above=0), need(slack_pull, "N", "slack_pull", above=0)
    flung = need(centrifugal, "N", "centrifugal", least=0)
    _gripping("tight_pull", tight, flung)
    _gripping("slack_pull", slack, flung)
    return np.log(((tight - flung) / (slack - flung)).m_as("")) / need(wrap, "rad", "wrap", above=0).magnitude


def greatest_pull(*, rest_tension, friction, wrap, centrifugal=_STILL):
    r"""Most that a stretched belt between fixed shafts can pull before it slips.

    Parameters
    ----------
    rest_tension : Quantity [N], above `centrifugal`
        In the belt while nothing turns.
    friction : float or array, above zero
    wrap : Quantity [rad], above zero
        Of the pulley with the smallest product of friction and wrap, mostly the motor's.
    centrifugal : Quantity [N], zero or more

    Returns
    -------
    Quantity [N]
        The difference of the two sides' pulls.

    Raises
    ------
    ValueError
        If the belt is flung off.

    Notes
    -----
    .. math:: F_1 - F_2 = 2 (F_0 - F_c) \tanh\frac{\mu\theta}{2}

    The shafts stand still, so what one side gains the other loses: F1 + F2 = 2 F0. Even endless friction cannot pull more
    than twice the tension.

    References
    ----------
    .. [1] Shigley, eq. 17-9, in another form. FOUND; check value C33 RECOMPUTED.

    Examples
    --------
    >>> most = greatest_pull(rest_tension=Q(0.2474, "N"), friction=0.5, wrap=Q(121.1993, "deg"))
    >>> print(f"{most:.4f~P}")
    0.2397 N
    """
    rest, flung = need(rest_tension, "N", "rest_tension", above=0), need(centrifugal, "N", "centrifugal", least=0)
    _gripping("rest_tension", rest, flung)
    half = number(friction, "friction", above=0, example=0.4) * need(wrap, "rad", "wrap", above=0).magnitude / 2
    return (2 * (rest - flung) * np.tanh(half)).to("N")


def both_pulls(*, rest_tension, torque, pulley_radius):
    r"""Pull of the tight and of the slack side while the belt drives.

    Parameters
    ----------
    rest_tension : Quantity [N], above zero
    torque : Quantity [N*m], zero or more
        On the pulley that is driven.
    pulley_radius : Quantity [m], above zero
        Of that pulley, up to the belt's neutral line.

    Returns
    -------
    tight, slack : Quantity [N]

    Raises
    ------
    ValueError
        If the slack side would have to push.

    Notes
    -----
    .. math:: F_{1,2} = F_0 \pm \frac{M}{2R}

    References
    ----------
    .. [1] Balance of torques, and fixed shafts. Check value C33. RECOMPUTED.

    Examples
    --------
    >>> tight, slack = both_pulls(rest_tension=Q(0.2474, "N"), torque=Q(1.5, "mN*m"), pulley_radius=Q(30.6, "mm"))
    >>> print(f"{tight:.4f~P}, {slack:.4f~P}")
    0.2719 N, 0.2229 N
    """
    rest = need(rest_tension, "N", "rest_tension", above=0)
    half = need(torque, "N*m", "torque", least=0) / need(pulley_radius, "m", "pulley_radius", above=0) / 2
    if not np.all(half < rest):
        raise ValueError(f"torque: needs a pull of {np.max(2 * half).to('N'):.3g~P}, more than twice the tension can give; "
                         "write Q(1.5, 'mN*m'), or a larger tension")
    return (rest + half).to("N"), (rest - half).to("N")


def belt_mass(*, density, area, stretch_ratio):
    r"""Mass of each metre of a stretched belt.

    Parameters
    ----------
    density : Quantity [kg/m**3], above zero
    area : Quantity [m**2], above zero
        Of the free belt.
    stretch_ratio : float or array, at least 1

    Returns
    -------
    Quantity [kg/m]

    Notes
    -----
    .. math:: m' = \rho A_0 / \lambda

    References
    ----------
    .. [1] The mass stays while the length grows. RECOMPUTED.

    Examples
    --------
    >>> mass = belt_mass(density=Q(1200, "kg/m**3"), area=Q(1.44, "mm**2"), stretch_ratio=1.05)
    >>> print(f"{mass.to('g/m'):.3f~P}")
    1.646 g/m
    """
    per_metre = need(density, "kg/m**3", "density", above=0) * need(area, "m**2", "area", above=0)
    return (per_metre / number(stretch_ratio, "stretch_ratio", least=1, example=1.05)).to("kg/m")


def centrifugal_pull(*, mass_per_length, speed):
    r"""Pull in a running belt that only holds it on its curve.

    Parameters
    ----------
    mass_per_length : Quantity [kg/m], above zero
    speed : Quantity [m/s], zero or more
        Of the belt.

    Returns
    -------
    Quantity [N]

    Notes
    -----
    .. math:: F_c = m' v^2

    A small belt below 1.5 m/s loses less than 2 % of its grip to it.

    References
    ----------
    .. [1] Shigley, ch. 17; check values C4, C12 and C14. FOUND.

    Examples
    --------
    >>> flung = centrifugal_pull(mass_per_length=Q(0.9, "kg/m"), speed=Q(12.5664, "m/s"))
    >>> print(f"{flung:.2f~P}")
    142.12 N
    """
    mass = need(mass_per_length, "kg/m", "mass_per_length", above=0)
    return (mass * need(speed, "m/s", "speed", least=0) ** 2).to("N")


def _gripping(name, pull, flung):
    if not np.all(pull > flung):
        raise ValueError(f"{name}: must be above the centrifugal {np.max(flung):.3g~P}, or nothing presses the belt on its pulley, "
                         f"got {np.min(pull):.3g~P}; write a slower speed or more tension")
