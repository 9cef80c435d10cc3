"""Copper leads: the ohms that a length of wire is allowed."""

import tomllib
from importlib import resources

import numpy as np

from benchreckoner.units import Q, need

# International annealed copper standard at 20 degC, from mass resistivity 0.15328 ohm g/m2
# and density 8.89 g/cm3: NBS Handbook 100 (1966), read second-hand. FOUND.
COPPER_RESISTIVITY = Q(1.7241e-8, "ohm m")
# The same standard's temperature coefficient of resistance at 20 degC, formula F26.
COPPER_COEFFICIENT = Q(0.00393, "1/delta_degC")

_LIMITS = tomllib.loads(resources.files(__package__).joinpath("leads.toml").read_text(encoding="utf-8"))


def wire_diameter(*, gauge):
    r"""Diameter of a solid wire by its American gauge number.

    Parameters
    ----------
    gauge : int, 0 to 40

    Returns
    -------
    Quantity [mm]

    Raises
    ------
    ValueError
        If the gauge is no whole number from 0 to 40.

    Notes
    -----
    .. math:: d = 0.127\,\mathrm{mm} \cdot 92^{(36 - n)/39}

    References
    ----------
    .. [1] ASTM B258, the formula; check value W3, RECOMPUTED.

    Examples
    --------
    >>> print(f"{wire_diameter(gauge=24):.3f~P}")
    0.511 mm
    """
    if isinstance(gauge, bool) or not isinstance(gauge, int) or not 0 <= gauge <= 40:
        raise ValueError(f"gauge: must be a whole number from 0 to 40, got {gauge!r}; write gauge=24")
    return Q(0.127 * 92 ** ((36 - gauge) / 39), "mm")


def wire_resistance(*, diameter, length, resistivity=COPPER_RESISTIVITY):
    r"""Resistance of a round wire.

    Parameters
    ----------
    diameter : Quantity [mm], above zero
    length : Quantity [m], zero or more
    resistivity : Quantity [ohm m], above zero
        Annealed copper at 20 degC if left out.

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = \rho \, l / (\pi d^2 / 4)

    References
    ----------
    .. [1] CRC Handbook, wire tables, sec. 15; check value W10, FOUND.

    Examples
    --------
    >>> ohms = wire_resistance(diameter=Q(8.252, "mm"), length=Q(1, "m"),
    ...     resistivity=Q(1.678e-8, "ohm m"))
    >>> print(f"{ohms.to('mohm'):.3f~P}")
    0.314 mΩ
    """
    diameter = need(diameter, "mm", "diameter", above=0)
    length = need(length, "m", "length", least=0)
    resistivity = need(resistivity, "ohm m", "resistivity", above=0)
    return (resistivity * length / (np.pi * diameter**2 / 4)).to("ohm")


def warm_copper(*, resistance, temperature):
    r"""Resistance of copper at a temperature, from its resistance at 20 degC.

    Parameters
    ----------
    resistance : Quantity [ohm], zero or more
        At 20 degC.
    temperature : Quantity [degC], from -50 to 200 degC

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = R_{20} [1 + 0.00393 (T - 20)]

    References
    ----------
    .. [1] Formula F26; check value W14, RECOMPUTED.

    Examples
    --------
    >>> print(f"{warm_copper(resistance=Q(1, 'ohm'), temperature=Q(60, 'degC')):.3f~P}")
    1.157 Ω
    """
    resistance = need(resistance, "ohm", "resistance", least=0)
    temperature = need(temperature, "degC", "temperature", least=-50)
    if not np.all(temperature.m_as("degC") <= 200):
        raise ValueError("temperature: the straight line holds to 200 degC; write Q(20, 'degC')")
    rise = Q(temperature.m_as("degC") - 20, "delta_degC")
    return (resistance * (1 + COPPER_COEFFICIENT * rise)).to("ohm")


def lead_resistance(*, gauge, length, temperature=Q(20, "degC"), conductor_class=5):
    r"""The most ohms a sound copper lead may have.

    Parameters
    ----------
    gauge : int or Quantity [mm**2]
        An American gauge number, or a nominal area: 0.5, 0.75, 1 or 1.5 mm².
    length : Quantity [m], zero or more
        Of one lead, one way.
    temperature : Quantity [degC]
        20 degC if left out.
    conductor_class : int, 2 or 5
        For a nominal area: 2 covers solid and stranded, 5 flexible.

    Returns
    -------
    Quantity [ohm]

    Raises
    ------
    ValueError
        If the area or the class is not in the table.

    Notes
    -----
    A nominal area is a name, not a measurement: the standard sets the largest
    ohms, not the copper. A gauge number gives the ohms of a solid wire of
    annealed copper; stranding adds a few per cent.

    References
    ----------
    .. [1] IEC 60228, two secondary copies; check values W11, W12, FOUND.
    .. [2] ASTM B258 and the annealed copper standard; W4 to W9, RECOMPUTED.

    Examples
    --------
    >>> print(f"{lead_resistance(gauge=24, length=Q(1, 'km')):.2f~P}")
    84.21 Ω
    >>> print(f"{lead_resistance(gauge=Q(0.5, 'mm**2'), length=Q(1, 'km')):.1f~P}")
    39.0 Ω
    """
    length = need(length, "m", "length", least=0)
    if isinstance(gauge, Q):
        cold = _table_resistance(need(gauge, "mm**2", "gauge").m_as("mm**2"), conductor_class) * length
    else:
        cold = wire_resistance(diameter=wire_diameter(gauge=gauge), length=length)
    return warm_copper(resistance=cold, temperature=temperature)


def _table_resistance(area, conductor_class):
    column = _LIMITS.get(f"class_{conductor_class}")
    if column is None:
        raise ValueError(f"conductor_class: must be 2 or 5, got {conductor_class!r}; write conductor_class=5")
    for listed, ohms in zip(_LIMITS["area"], column, strict=True):
        if abs(area - listed) < 1e-9:
            return Q(ohms, "ohm/km")
    raise ValueError(f"gauge: no area of {area:g} mm² in the table; write one of "
                     + ", ".join(f"Q({listed}, 'mm**2')" for listed in _LIMITS["area"]))
