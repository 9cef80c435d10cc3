"""One contact seen close: small spots of metal, a film on them, and what force does to both.

The voltage that breaks a film through is in `fritting`.
"""

import tomllib
from importlib import resources

import numpy as np

from benchreckoner.units import Q, need, ureg

# Below this radius electrons fly through a spot without a collision, and the law of the
# spreading current ends: mean free path 39 nm in copper, MEMORY.
_SMALLEST_SPOT = 40e-9
# Mean pressure, as a share of the hardness, at which the metal first yields: formula F10.
_FIRST_YIELD = 0.4


def _read_metals():
    text = resources.files(__package__).joinpath("spots.toml").read_text(encoding="utf-8")
    return {row["name"]: {**row, "resistivity": Q(1e-8 * row["resistivity"], "ohm m"), "hardness": Q(row["hardness"], "MPa")}
            for row in tomllib.loads(text)["metal"]}


METALS = _read_metals()


def constriction_resistance(*, resistivity, spot_radius, other_resistivity=None):
    r"""Resistance of one round metal spot, because the current must squeeze through it.

    Parameters
    ----------
    resistivity : Quantity [ohm m], zero or more
        Of the body on one side.
    spot_radius : Quantity [m], at least 40 nm
    other_resistivity : Quantity [ohm m], zero or more
        Of the body on the other side. Left out: the same metal. Zero gives one side alone.

    Returns
    -------
    Quantity [ohm]

    Raises
    ------
    ValueError
        If the spot is smaller than 40 nm, where this law no longer holds.

    Notes
    -----
    .. math:: R = \frac{\rho_1 + \rho_2}{4 a}

    Holds for a clean spot much smaller than the bodies.

    References
    ----------
    .. [1] Holm, *Electric Contacts*, 4th ed. 1967, sections 1 to 4, formula F1; check value P2,
       RECOMPUTED. One side alone, P4, FOUND in an open test suite.

    Examples
    --------
    >>> ohms = constriction_resistance(resistivity=Q(1.7241e-8, "ohm m"), spot_radius=Q(10, "um"))
    >>> print(f"{ohms.to('mohm'):.3f~P}")
    0.862 mΩ
    """
    resistivity = need(resistivity, "ohm m", "resistivity", least=0)
    other = resistivity if other_resistivity is None else need(other_resistivity, "ohm m", "other_resistivity", least=0)
    spot_radius = need(spot_radius, "m", "spot_radius", above=0)
    if not np.all(spot_radius.m_as("m") >= _SMALLEST_SPOT):
        raise ValueError(f"spot_radius: must be at least 40 nm, got {spot_radius.to('nm'):~P}; in a smaller spot the "
                         "current no longer spreads as this law says, write Q(1, 'um')")
    return ((resistivity + other) / (4 * spot_radius)).to("ohm")


def film_resistance(*, film_resistivity, spot_radius):
    r"""Resistance of the film that covers one round spot.

    Parameters
    ----------
    film_resistivity : Quantity [ohm m²], zero or more
        Ohms of a patch times the patch's area; 1e-12 ohm m² is 1 ohm on a square micrometre.
    spot_radius : Quantity [m], above zero

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = \frac{\sigma_f}{\pi a^2}

    In series with the constriction of the same spot. A thick film that does not conduct at all
    until it breaks has no such number.

    References
    ----------
    .. [1] Formula F7; check value P16, RECOMPUTED.

    Examples
    --------
    >>> ohms = film_resistance(film_resistivity=Q(1e-12, "ohm m^2"), spot_radius=Q(10, "um"))
    >>> print(f"{ohms.to('mohm'):.3f~P}")
    3.183 mΩ
    """
    film_resistivity = need(film_resistivity, "ohm*m**2", "film_resistivity", least=0)
    spot_radius = need(spot_radius, "m", "spot_radius", above=0)
    return (film_resistivity / (np.pi * spot_radius**2)).to("ohm")


def plastic_radius(*, force, hardness):
    r"""Radius of the one round spot that carries the force when the metal has given way.

    Parameters
    ----------
    force : Quantity [N], above zero
    hardness : Quantity [Pa], above zero
        Of the softer side.

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: a = \sqrt{F / (\pi H)}

    Rough surfaces yield at their tips at any force. Several spots of the same area together have
    fewer ohms, so one spot is the worst clean case.

    References
    ----------
    .. [1] Slade (ed.), *Electrical Contacts*, pp. 13-15, read second-hand, formula F9 with
       nothing carried by the film; check value P12, RECOMPUTED.

    Examples
    --------
    >>> print(f"{plastic_radius(force=Q(1, 'N'), hardness=Q(500, 'MPa')).to('um'):.1f~P}")
    25.2 µm
    """
    force = need(force, "N", "force", above=0)
    hardness = need(hardness, "Pa", "hardness", above=0)
    return np.sqrt(force / (np.pi * hardness)).to("m")


def plastic_resistance(*, resistivity, force, hardness):
    r"""Ohms of a clean contact whose metal has given way: half as much for four times the force.

    Parameters
    ----------
    resistivity : Quantity [ohm m], above zero
        The same metal on both sides.
    force : Quantity [N], above zero
    hardness : Quantity [Pa], above zero

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = \sqrt{\frac{\rho^2 \pi H}{4 F}}

    The size of the plates does not come into it.

    References
    ----------
    .. [1] Slade (ed.), *Electrical Contacts*, pp. 13-15, read second-hand, formula F9; check
       values P12 and P14, RECOMPUTED.

    Examples
    --------
    >>> ohms = plastic_resistance(resistivity=Q(1.587e-8, "ohm m"), force=Q(1, "N"), hardness=Q(500, "MPa"))
    >>> print(f"{ohms.to('mohm'):.4f~P}")
    0.3145 mΩ
    """
    resistivity = need(resistivity, "ohm m", "resistivity", above=0)
    force = need(force, "N", "force", above=0)
    hardness = need(hardness, "Pa", "hardness", above=0)
    return np.sqrt(resistivity**2 * np.pi * hardness / (4 * force)).to("ohm")


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
        If the metal would already give way: `plastic_resistance` speaks there.

    Notes
    -----
    .. math:: R = \frac{\rho}{2 a}, \quad a = \left(\frac{3 F R}{4 E^*}\right)^{1/3}

    References
    ----------
    .. [1] Hertz and Holm, formula F10; from check value P15, RECOMPUTED, its inputs MEMORY.

    Examples
    --------
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


def resistance_at_force(*, resistance, force, new_force, exponent):
    r"""Ohms of a contact pressed with another force, by the rule of thumb of one exponent.

    Parameters
    ----------
    resistance : Quantity [ohm], above zero
        At `force`.
    force, new_force : Quantity [N], above zero
    exponent : float, above zero
        1/3 for metal that springs, 1/2 for metal that gives way, about 1 for a film that cracks.

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = K F^{-m}

    References
    ----------
    .. [1] Holm, formula F11. MEMORY.

    Examples
    --------
    >>> ohms = resistance_at_force(resistance=Q(100, "mohm"), force=Q(1, "N"), new_force=Q(2, "N"), exponent=0.5)
    >>> print(f"{ohms.to('mohm'):.1f~P}")
    70.7 mΩ
    """
    resistance = need(resistance, "ohm", "resistance", above=0)
    force, new_force = need(force, "N", "force", above=0), need(new_force, "N", "new_force", above=0)
    if not (np.isfinite(exponent) and exponent > 0):
        raise ValueError(f"exponent: must be above zero, got {exponent!r}; write exponent=0.5")
    return (resistance * (new_force / force).m_as("") ** -exponent).to("ohm")


def scale_force(*, mass):
    r"""Force behind what a kitchen scale shows.

    Parameters
    ----------
    mass : Quantity [kg], zero or more
        As shown.

    Returns
    -------
    Quantity [N]

    Notes
    -----
    .. math:: F = m g

    References
    ----------
    .. [1] 60 gf are 0.588 N in MIL-C-21679, check value S15. FOUND.

    Examples
    --------
    >>> print(f"{scale_force(mass=Q(60, 'g')):.3f~P}")
    0.588 N
    """
    return (need(mass, "kg", "mass", least=0) * ureg.standard_gravity).to("N")


def force_exponent(*, forces, resistances):
    r"""Exponent m of R = K F^-m that fits several readings best: the slope on log axes.

    Parameters
    ----------
    forces : Quantity [N], shape (n, ...), each above zero
        n readings along the first axis, two different ones at least.
    resistances : Quantity [ohm], the same shape, each above zero

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        If there are fewer than two readings, or all forces are the same.

    Notes
    -----
    .. math:: m = -\frac{\sum (x - \bar x)(y - \bar y)}{\sum (x - \bar x)^2},
        \quad x = \ln F,\ y = \ln R

    References
    ----------
    .. [1] Straight line by least squares; check value by P14 and the square-root law, RECOMPUTED.

    Examples
    --------
    >>> print(f"{force_exponent(forces=Q([1, 4], 'N'), resistances=Q([10, 5], 'mohm')):.2f}")
    0.50
    """
    forces, resistances = need(forces, "N", "forces", above=0), need(resistances, "ohm", "resistances", above=0)
    if np.ndim(forces.m) < 1 or np.shape(forces.m) != np.shape(resistances.m) or len(forces) < 2:
        raise ValueError("forces: a slope needs two readings at least, and as many resistances as forces; "
                         "write forces=Q([1, 2], 'N')")
    x, y = np.log(forces.m_as("N")), np.log(resistances.m_as("ohm"))
    x, y = x - x.mean(axis=0), y - y.mean(axis=0)
    spread = (x**2).sum(axis=0)
    if not np.all(spread > 1e-12):
        raise ValueError("forces: all the same, so there is no slope; write forces=Q([1, 2], 'N')")
    return -(x * y).sum(axis=0) / spread
