"""How a belt pulls: grip and slip, creep, and the speed of what it drives."""

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.physics.rubber import ratio_of_tension
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


def creep(*, tight_pull, slack_pull, area, modulus, linear=False):
    r"""Share of its speed that an elastic belt loses under load, without any slip.

    Parameters
    ----------
    tight_pull, slack_pull : Quantity [N], zero or more, the first not the smaller
    area : Quantity [m**2], above zero
        Of the free belt.
    modulus : Quantity [Pa], above zero
    linear : bool
        True for a belt that stretches as steel does.

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        If the slack side pulls harder than the tight one.

    Notes
    -----
    .. math:: s = 1 - \lambda_2 / \lambda_1 \approx \frac{F_1 - F_2}{E A_0}

    The same mass passes everywhere, so the stretched side runs faster. It depends on load and section, hardly on how tight
    the belt is.

    References
    ----------
    .. [1] Steady flow of mass, a belt that sticks where it runs on: Firbank; K. L. Johnson, "Contact Mechanics", 8.2.
       MEMORY. Check value C33, RECOMPUTED. One stored book takes the square root of stresses: its units do not fit (C8).

    Examples
    --------
    >>> lost = creep(tight_pull=Q(0.27191, "N"), slack_pull=Q(0.22289, "N"), area=Q(1.44, "mm**2"), modulus=Q(3.60507, "MPa"))
    >>> print(f"{100 * lost:.2f} %")
    0.98 %
    """
    tight, slack = need(tight_pull, "N", "tight_pull", least=0), need(slack_pull, "N", "slack_pull", least=0)
    if not np.all(tight >= slack):
        raise ValueError("slack_pull: must not be greater than tight_pull; write the two the other way round")
    if linear:
        stiffness = need(modulus, "Pa", "modulus", above=0) * need(area, "m**2", "area", above=0)
        return ((tight - slack) / (stiffness + tight)).m_as("")
    tight_ratio, slack_ratio = (ratio_of_tension(tension=pull, area=area, modulus=modulus) for pull in (tight, slack))
    return 1 - slack_ratio / tight_ratio


def driven_speed(*, speed, driving_radius, driven_radius, creep=0.0):
    r"""Speed of the pulley that a belt drives.

    Parameters
    ----------
    speed : Quantity [turn/min], zero or more
        Of the driving pulley.
    driving_radius, driven_radius : Quantity [m], above zero
        Up to the belt's neutral line.
    creep : float or array, zero to below 1
        Lost by creep, or by slip.

    Returns
    -------
    Quantity [turn/min]

    Raises
    ------
    ValueError
        If creep is one or more.

    Notes
    -----
    .. math:: n_2 = n_1 \frac{R_1}{R_2} (1 - s)

    References
    ----------
    .. [1] Khurmi and Gupta, ch. 11 (MEMORY): a compound drive, check value C10. RECOMPUTED.

    Examples
    --------
    >>> print(f"{driven_speed(speed=Q(2400, 'turn/min'), driving_radius=Q(3.6, 'mm'), driven_radius=Q(30.6, 'mm')):.1f~P}")
    282.4 turn/min
    """
    speed = need(speed, "turn/min", "speed", least=0)
    lost = number(creep, "creep", least=0, example=0.01)
    if not np.all(lost < 1):
        raise ValueError(f"creep: must be below 1, got {creep!r}; write for example creep=0.01")
    ratio = need(driving_radius, "m", "driving_radius", above=0) / need(driven_radius, "m", "driven_radius", above=0)
    return (speed * ratio * (1 - lost)).to("turn/min")


def _gripping(name, pull, flung):
    if not np.all(pull > flung):
        raise ValueError(f"{name}: must be above the centrifugal {np.max(flung):.3g~P}, or nothing presses the belt on its pulley, "
                         f"got {np.min(pull):.3g~P}; write a slower speed or more tension")
