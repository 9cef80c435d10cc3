"""Bending loss: what it costs to bend a rubber belt round a pulley and straighten it again, at every pass."""

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.units import Q, need

RULE = np.pi / 2  # half a full cycle from one bend to its opposite


def bend_length(*, modulus, second_moment, tension):
    r"""Length over which a stiff, taut belt straightens beside a pulley.

    Parameters
    ----------
    modulus : Quantity [Pa], above zero
    second_moment : Quantity [m**4], above zero
    tension : Quantity [N], above zero

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: q = \sqrt{E I / F}

    References
    ----------
    .. [1] A bent beam under tension; check value C44. RECOMPUTED.

    Examples
    --------
    >>> length = bend_length(modulus=Q(3.60507, "MPa"), second_moment=Q(0.1728, "mm**4"), tension=Q(0.2474, "N"))
    >>> print(f"{length.to('mm'):.3f~P}")
    1.587 mm
    """
    stiffness = need(modulus, "Pa", "modulus", above=0) * need(second_moment, "m**4", "second_moment", above=0)
    return np.sqrt(stiffness / need(tension, "N", "tension", above=0)).to("m")


def bending_factor(*, arc, bend_length):
    r"""How much one bend costs, as a factor before loss tangent, stiffness and curvature squared.

    Parameters
    ----------
    arc : Quantity [m], more than two bend lengths
        Of the belt on the pulley: radius times wrap.
    bend_length : Quantity [m], above zero
        From `bend_length`.

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        For an arc below two bend lengths: so stiff a belt never lies on its pulley.

    Notes
    -----
    .. math:: c = \frac{2}{\pi}\left[\gamma + \int_0^\infty s\, e^{-s} \ln(s + p - 2)\, ds\right], \quad p = R\theta / q

    with Euler's constant; the integral is :math:`\ln a + 1 + (1 - a)\, U(1, 1, a)` with a = p - 2. The simple rule is
    c = pi/2. For one bend alone whose curvature dies away on both sides, and rubber whose loss is alike at all speeds.

    References
    ----------
    .. [1] Own derivation, check value C46; a sum over harmonics, C44, agrees to 0.1 %. RECOMPUTED.

    Examples
    --------
    >>> print(f"{bending_factor(arc=Q(4.79902, 'mm'), bend_length=Q(1, 'mm')):.4f}")
    1.3418
    """
    from scipy.special import hyperu

    beyond = (need(arc, "m", "arc", above=0) / need(bend_length, "m", "bend_length", above=0)).m_as("") - 2
    if not np.all(beyond > 0):
        raise ValueError("arc: must be longer than two bend lengths, or the belt is too stiff to lie on its pulley; write a larger "
                         "pulley or a thinner belt")
    return 2 / np.pi * (np.euler_gamma + np.log(beyond) + 1 + (1 - beyond) * hyperu(1, 1, beyond))


def bending_drag(*, loss_tangent, modulus, second_moment, pulley_radius, factor=RULE):
    r"""Force that bending a belt round a pulley takes from its pull.

    Parameters
    ----------
    loss_tangent : float or array, zero or more
        Of the rubber: about 0.1, a factor of two either way, more in the cold.
    modulus : Quantity [Pa], above zero
    second_moment : Quantity [m**4], above zero
    pulley_radius : Quantity [m], above zero
        Up to the belt's neutral line.
    factor : float or array, above zero
        The rule's pi/2, or what `bending_factor` gives.

    Returns
    -------
    Quantity [N]

    Notes
    -----
    .. math:: F_b = c \tan\delta \, \frac{E I}{R^2}

    Tension has no part in it: a slack belt bends as much. It goes nearly as the fourth power of the thickness. For small
    strains; above a quarter of bending strain (half the thickness by the radius) the rubber no longer follows.

    References
    ----------
    .. [1] Loss summed over the section, check value C43. RECOMPUTED; the loss tangent PRACTICE.

    Examples
    --------
    >>> drag = bending_drag(loss_tangent=0.1, modulus=Q(3.60507, "MPa"), second_moment=Q(0.1728, "mm**4"), pulley_radius=Q(3.6, "mm"))
    >>> print(f"{drag.to('mN'):.3f~P}")
    7.550 mN
    """
    stiffness = need(modulus, "Pa", "modulus", above=0) * need(second_moment, "m**4", "second_moment", above=0)
    radius = need(pulley_radius, "m", "pulley_radius", above=0)
    lost = number(loss_tangent, "loss_tangent", least=0, example=0.1) * number(factor, "factor", above=0, example=1.57)
    return (lost * stiffness / radius**2).to("N")


def bending_torque(*, loss_tangent, modulus, second_moment, motor_radius, other_radii, factor=RULE):
    r"""Torque on the motor's shaft that bends the belt round all the pulleys.

    Parameters
    ----------
    loss_tangent, modulus, second_moment, factor
        As for `bending_drag`; one factor for all.
    motor_radius : Quantity [m], above zero
    other_radii : Quantity [m], a row
        Of the other pulleys, up to the neutral line.

    Returns
    -------
    Quantity [N*m]

    Notes
    -----
    .. math:: M_b = R_1 \sum_i F_{b,i}

    References
    ----------
    .. [1] Check values C43 and C45. RECOMPUTED.

    Examples
    --------
    >>> torque = bending_torque(loss_tangent=0.1, modulus=Q(3.60507, "MPa"), second_moment=Q(0.1728, "mm**4"),
    ...     motor_radius=Q(3.6, "mm"), other_radii=Q([30.6], "mm"))
    >>> print(f"{torque.to('uN*m'):.2f~P}")
    27.56 µN·m
    """
    motor, others = need(motor_radius, "m", "motor_radius", above=0), need(other_radii, "m", "other_radii", above=0)
    here = bending_drag(loss_tangent=loss_tangent, modulus=modulus, second_moment=second_moment, pulley_radius=motor, factor=factor)
    return (motor * here * (1 + sum((motor / other) ** 2 for other in others))).to("N*m")


def bending_strain(*, neutral_height, pulley_radius):
    r"""Share by which a belt's outer skin is stretched on a pulley by bending alone.

    Parameters
    ----------
    neutral_height : Quantity [m], zero or more
    pulley_radius : Quantity [m], above zero
        Up to the neutral line.

    Returns
    -------
    float or array

    Notes
    -----
    .. math:: \varepsilon_b = y / R

    Often several times the stretch of the belt. Beyond a quarter the loss law stops holding: the pulley is then smaller than
    three thicknesses.

    References
    ----------
    .. [1] Geometry, check value C34. RECOMPUTED.

    Examples
    --------
    >>> print(f"{100 * bending_strain(neutral_height=Q(0.6, 'mm'), pulley_radius=Q(3.6, 'mm')):.1f} %")
    16.7 %
    """
    height = need(neutral_height, "m", "neutral_height", least=0)
    return (height / need(pulley_radius, "m", "pulley_radius", above=0)).m_as("")
