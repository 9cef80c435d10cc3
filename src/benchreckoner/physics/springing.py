"""A smooth ball that springs against a flat: its spot, its ohms, and where it begins to give way."""

import numpy as np

from benchreckoner.physics.spots import constriction_resistance
from benchreckoner.units import need

# Mean pressure, as a share of the hardness, at which the metal first yields: formula F10.
_FIRST_YIELD = 0.4


def shared_modulus(*, modulus, poisson_ratio, other_modulus, other_poisson_ratio):
    r"""Stiffness of two bodies pressed together.

    Parameters
    ----------
    modulus, other_modulus : Quantity [Pa], above zero
        Young's modulus of each.
    poisson_ratio, other_poisson_ratio : float, 0 to 0.5

    Returns
    -------
    Quantity [Pa]

    Notes
    -----
    .. math:: \frac{1}{E^*} = \frac{1 - \nu_1^2}{E_1} + \frac{1 - \nu_2^2}{E_2}

    References
    ----------
    .. [1] Hertz, formula F10; check value P15, RECOMPUTED, its inputs MEMORY.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> stiffness = shared_modulus(modulus=Q(130, "GPa"), poisson_ratio=0.34,
    ...     other_modulus=Q(130, "GPa"), other_poisson_ratio=0.34)
    >>> print(f"{stiffness.to('GPa'):.1f~P}")
    73.5 GPa
    """
    modulus = need(modulus, "Pa", "modulus", above=0)
    other_modulus = need(other_modulus, "Pa", "other_modulus", above=0)
    for name, ratio in (("poisson_ratio", poisson_ratio), ("other_poisson_ratio", other_poisson_ratio)):
        if not 0 <= ratio <= 0.5:
            raise ValueError(f"{name}: must lie between 0 and 0.5, got {ratio!r}; write {name}=0.34")
    return (1 / ((1 - poisson_ratio**2) / modulus + (1 - other_poisson_ratio**2) / other_modulus)).to("Pa")


def elastic_radius(*, force, ball_radius, stiffness):
    r"""Radius of the spot where a smooth ball springs against a flat.

    Parameters
    ----------
    force : Quantity [N], above zero
    ball_radius : Quantity [m], above zero
    stiffness : Quantity [Pa], above zero
        From `shared_modulus`.

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: a = \left(\frac{3 F R}{4 E^*}\right)^{1/3}

    This is the geometry alone: `yield_force` says up to where the metal springs.

    References
    ----------
    .. [1] Hertz, formula F10; check value P15, RECOMPUTED, its inputs MEMORY.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> radius = elastic_radius(force=Q(0.1, "N"), ball_radius=Q(1, "mm"), stiffness=Q(73.496, "GPa"))
    >>> print(f"{radius.to('um'):.2f~P}")
    10.07 µm
    """
    force = need(force, "N", "force", above=0)
    ball_radius = need(ball_radius, "m", "ball_radius", above=0)
    stiffness = need(stiffness, "Pa", "stiffness", above=0)
    return ((3 * force * ball_radius / (4 * stiffness)) ** (1 / 3)).to("m")


def yield_force(*, ball_radius, stiffness, hardness):
    r"""Force up to which a smooth ball on a flat only springs.

    Parameters
    ----------
    ball_radius : Quantity [m], above zero
    stiffness : Quantity [Pa], above zero
    hardness : Quantity [Pa], above zero

    Returns
    -------
    Quantity [N]

    Notes
    -----
    .. math:: F_y = (0.4\, \pi H)^3 \left(\frac{3 R}{4 E^*}\right)^2

    There the mean pressure is four tenths of the hardness: the metal begins to give. It has
    given way wholly when the mean pressure comes near the hardness itself.

    References
    ----------
    .. [1] Formula F10 with its limit of about 0.4 H; from check value P15, RECOMPUTED, its inputs MEMORY.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> force = yield_force(ball_radius=Q(1, "mm"), stiffness=Q(73.496, "GPa"), hardness=Q(369, "MPa"))
    >>> print(f"{force.to('mN'):.2f~P}")
    10.38 mN
    """
    ball_radius = need(ball_radius, "m", "ball_radius", above=0)
    stiffness = need(stiffness, "Pa", "stiffness", above=0)
    hardness = need(hardness, "Pa", "hardness", above=0)
    return ((_FIRST_YIELD * np.pi * hardness) ** 3 * (3 * ball_radius / (4 * stiffness)) ** 2).to("N")


def elastic_resistance(*, resistivity, force, ball_radius, stiffness, hardness):
    r"""Ohms of a clean smooth ball that springs against a flat: half as much for eight times the force.

    Parameters
    ----------
    resistivity : Quantity [ohm m], above zero
    force : Quantity [N], above zero, up to `yield_force`
    ball_radius : Quantity [m], above zero
    stiffness : Quantity [Pa], above zero
    hardness : Quantity [Pa], above zero

    Returns
    -------
    Quantity [ohm]

    Raises
    ------
    ValueError
        If the metal would already give way: `force.plastic_resistance` speaks there.

    Notes
    -----
    .. math:: R = \frac{\rho}{2 a}, \quad a = \left(\frac{3 F R}{4 E^*}\right)^{1/3}

    References
    ----------
    .. [1] Hertz and Holm, formula F10; from check value P15, RECOMPUTED, its inputs MEMORY.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> ohms = elastic_resistance(resistivity=Q(1.678e-8, "ohm m"), force=Q(10, "mN"), ball_radius=Q(1, "mm"),
    ...     stiffness=Q(73.496, "GPa"), hardness=Q(369, "MPa"))
    >>> print(f"{ohms.to('mohm'):.3f~P}")
    1.795 mΩ
    """
    most = yield_force(ball_radius=ball_radius, stiffness=stiffness, hardness=hardness)
    force = need(force, "N", "force", above=0)
    if not np.all(force <= most):
        raise ValueError(f"force: above {most.to('mN'):.3g~P} this metal gives way, and the law of springing metal ends; "
                         "write a smaller force, or take plastic_resistance")
    spot = elastic_radius(force=force, ball_radius=ball_radius, stiffness=stiffness)
    return constriction_resistance(resistivity=resistivity, spot_radius=spot)
