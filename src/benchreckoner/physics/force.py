"""What force does to a contact whose metal gives way, and the slope on log axes that tells what it meets.

Metal that springs is in `springing`, the spot itself and the film on it in `spots`.
"""

import numpy as np

from benchreckoner.units import need, ureg


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
    >>> from benchreckoner.units import Q
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
    >>> from benchreckoner.units import Q
    >>> ohms = plastic_resistance(resistivity=Q(1.587e-8, "ohm m"), force=Q(1, "N"), hardness=Q(500, "MPa"))
    >>> print(f"{ohms.to('mohm'):.4f~P}")
    0.3145 mΩ
    """
    resistivity = need(resistivity, "ohm m", "resistivity", above=0)
    force = need(force, "N", "force", above=0)
    hardness = need(hardness, "Pa", "hardness", above=0)
    return np.sqrt(resistivity**2 * np.pi * hardness / (4 * force)).to("ohm")


def resistance_at_force(*, resistance, force, new_force, exponent):
    r"""Ohms of a contact pressed with another force, by the rule of thumb of one exponent.

    Parameters
    ----------
    resistance : Quantity [ohm], above zero
        At `force`.
    force, new_force : Quantity [N], above zero
    exponent : float
        1/3 for metal that springs, 1/2 for metal that gives way, about 1 for a film that cracks.
        Of readings it may be anything.

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
    >>> from benchreckoner.units import Q
    >>> ohms = resistance_at_force(resistance=Q(100, "mohm"), force=Q(1, "N"), new_force=Q(2, "N"), exponent=0.5)
    >>> print(f"{ohms.to('mohm'):.1f~P}")
    70.7 mΩ
    """
    resistance = need(resistance, "ohm", "resistance", above=0)
    force, new_force = need(force, "N", "force", above=0), need(new_force, "N", "new_force", above=0)
    if not np.isfinite(exponent):
        raise ValueError(f"exponent: must be a finite number, got {exponent!r}; write exponent=0.5")
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
    >>> from benchreckoner.units import Q
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
    >>> from benchreckoner.units import Q
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
