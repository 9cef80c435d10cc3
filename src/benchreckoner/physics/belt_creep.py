"""What a belt loses of the speed without slipping: creep, and how fast a driven wheel turns."""

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.physics.rubber import ratio_of_tension
from benchreckoner.units import Q, need


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
