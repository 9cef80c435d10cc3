"""One contact seen close: small spots of metal, and a film on them.

What force does to both is in `force`, the voltage that breaks a film through in `fritting`.
"""

import tomllib
from importlib import resources

import numpy as np

from benchreckoner.units import Q, need

# Below this radius electrons fly through a spot without a collision, and the law of the
# spreading current ends: mean free path 39 nm in copper, MEMORY.
_SMALLEST_SPOT = 40e-9
_LORENZ = Q(2.4430e-8, "V**2/K**2")  # (pi^2/3) (Boltzmann's constant / the electron's charge)^2, RECOMPUTED


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


def heated_ratio(*, voltage_drop, surroundings=Q(20, "degC")):
    r"""How many times its cold ohms a spot of metal has when its own current heats it.

    Parameters
    ----------
    voltage_drop : Quantity [V], zero or more
        Across the spot alone, film and terminals left out.
    surroundings : Quantity [degC]
        Of the metal on both sides, well away from the spot.

    Returns
    -------
    float or array

    Notes
    -----
    .. math:: \frac{R}{R_0} = \frac{x}{\arctan x}, \quad x = \frac{V}{2 \sqrt{L}\, T_0}

    with L = 2.443e-8 V²/K². The hottest place reaches T² = T0² + V²/(4L), whatever the size of the spot; what carries current carries
    heat, so ohms and temperature belong together. Holds for bare metal that has not softened, up to some 0.1 V; from there on the
    spot grows and its ohms fall. A film over the spot takes volts without heating the metal as much.

    References
    ----------
    .. [1] Formula F12 for the hottest place, FOUND in an open finite-element example; the ratio from it by integrating the volts over
       ohms that grow with the temperature, RECOMPUTED.

    Examples
    --------
    >>> print(f"{heated_ratio(voltage_drop=Q(50, 'mV')):.3f}")
    1.092
    """
    volts = need(voltage_drop, "V", "voltage_drop", least=0)
    around = need(surroundings, "K", "surroundings", above=0)
    x = (volts / (2 * np.sqrt(_LORENZ) * around)).m_as("")
    return np.sinc(np.arctan(x) / np.pi) * np.sqrt(1 + x**2)  # x / arctan x, and 1 where x is 0
