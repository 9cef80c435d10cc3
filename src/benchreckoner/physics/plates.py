"""A cooling plate: heat spreads in it from a small warm spot, and leaves both its faces by air and by radiation."""

import tomllib
from importlib import resources

import numpy as np

from benchreckoner.physics.convection import (
    air_properties, film_coefficient, lying_plate_bottom, lying_plate_top, rayleigh_number, standing_plate_smooth,
)
from benchreckoner.physics.plain import share
from benchreckoner.units import Q, need

STEFAN = Q(5.670374e-8, "W/(m**2*K**4)")
STANDING, LYING = "standing", "lying"
POSITIONS = (STANDING, LYING)
HOTTEST = Q(300, "degC")  # solder, paint and the transistor have given up long before


def _read(table):
    text = resources.files(__package__).joinpath("plates.toml").read_text(encoding="utf-8")
    return {row["name"]: row for row in tomllib.loads(text)[table]}


METALS, FINISHES = _read("metal"), _read("finish")


def radiation_coefficient(*, emissivity, surface, surroundings):
    r"""Heat that a face radiates from each square metre, for each kelvin above its surroundings.

    Parameters
    ----------
    emissivity : float, 0 to 1
    surface, surroundings : Quantity [degC]

    Returns
    -------
    Quantity [W/(m**2*K)]

    Notes
    -----
    .. math:: h_r = \varepsilon \sigma (T_s^2 + T_a^2)(T_s + T_a)

    In kelvin; the same as the difference of the fourth powers over the difference. All round it stands what has the
    air's temperature. A bright case throws part of it back.

    References
    ----------
    .. [1] Stefan and Boltzmann's law; its constant, MEMORY. Check value plates-radiation, RECOMPUTED.

    Examples
    --------
    >>> found = radiation_coefficient(emissivity=0.88, surface=Q(60, "degC"), surroundings=Q(20, "degC"))
    >>> print(f"{found.m_as('W/m**2/K'):.2f}")
    6.15
    """
    emissivity = share(emissivity, "emissivity", ends=True)
    surface, air = (need(value, "K", name, above=0) for value, name in ((surface, "surface"), (surroundings, "surroundings")))
    return (emissivity * STEFAN * (surface**2 + air**2) * (surface + air)).to("W/(m**2*K)")


def spreading_efficiency(*, side, thickness, conductivity, coefficient, source_side):
    r"""What a plate gives off, as a share of what it would if it were as hot all over as at its middle.

    Parameters
    ----------
    side : Quantity [m], above zero
        Of a square plate.
    thickness : Quantity [m], above zero
    conductivity : Quantity [W/(m*K)], above zero
    coefficient : Quantity [W/(m**2*K)], above zero
        From each face, air and radiation together.
    source_side : Quantity [m], above zero and below the side
        Of the square that is warmed, in the middle of the plate.

    Returns
    -------
    float

    Raises
    ------
    ValueError
        If the warmed square is as large as the plate.

    Notes
    -----
    Square plate and square source are taken as discs of the same area, a round fin with a dry rim:

    .. math::
        \eta = \frac{r_1^2 + \eta_f (r_2^2 - r_1^2)}{r_2^2}, \quad
        \eta_f = \frac{2 r_1}{m (r_2^2 - r_1^2)} \;
        \frac{K_1(m r_1) I_1(m r_2) - I_1(m r_1) K_1(m r_2)}{K_0(m r_1) I_1(m r_2) + I_0(m r_1) K_1(m r_2)},
        \quad m = \sqrt{\frac{2 h}{k t}}

    Within 2 % of a square reckoned point by point for aluminium and copper, 5 % for steel (tests). A source at
    the edge does worse: it is the middle of a plate twice as long.

    References
    ----------
    .. [1] The annular fin, Incropera, chapter 3, MEMORY; check values plates-spreading,
       RECOMPUTED by finite differences.

    Examples
    --------
    >>> share = spreading_efficiency(side=Q(60, "mm"), thickness=Q(1.5, "mm"), conductivity=Q(200, "W/(m*K)"),
    ...     coefficient=Q(10, "W/(m**2*K)"), source_side=Q(10, "mm"))
    >>> print(f"{share:.3f}")
    0.961
    """
    from scipy.special import i0, i1, k0, k1

    side, thickness = need(side, "m", "side", above=0), need(thickness, "m", "thickness", above=0)
    conductivity = need(conductivity, "W/(m*K)", "conductivity", above=0)
    coefficient = need(coefficient, "W/(m**2*K)", "coefficient", above=0)
    source_side = need(source_side, "m", "source_side", above=0)
    if not np.all(source_side < side):
        raise ValueError("source_side: must be smaller than the plate; write Q(10, 'mm')")
    inner, outer = source_side / np.sqrt(np.pi), side / np.sqrt(np.pi)  # discs of the same areas
    m = (2 * coefficient / (conductivity * thickness)) ** 0.5
    near, far = (m * inner).m_as(""), (m * outer).m_as("")
    flow = (k1(near) * i1(far) - i1(near) * k1(far)) / (k0(near) * i1(far) + i0(near) * k1(far))
    return ((inner**2 + 2 * inner / m * flow) / outer**2).m_as("")


def plate_coefficient(*, side, emissivity, surface, air, position=STANDING):
    r"""Heat that leaves each square metre of a square plate, mean of its two faces, for each kelvin above the air.

    Parameters
    ----------
    side : Quantity [m], above zero
    emissivity : float, 0 to 1
    surface : Quantity [degC], above the air's
    air : Quantity [degC]
        Round the plate: inside a closed case, the air in there.
    position : str
        ``"standing"``, or ``"lying"`` with air below it too.

    Returns
    -------
    Quantity [W/(m**2*K)]

    Raises
    ------
    ValueError
        For a plate no hotter than the air, or hotter than 300 degC.

    Notes
    -----
    Still air by Churchill and Chu where it stands, by the two faces' own laws where it lies, and radiation.
    All over as hot as `surface`. To perhaps 20 % (MEMORY): a draught helps, a wall close by hinders. Standing and lying
    come out within that of each other, so the laws do not say which is cooler; common practice is to stand it.

    References
    ----------
    .. [1] `convection`, and `radiation_coefficient`; check value P14, RECOMPUTED.

    Examples
    --------
    >>> found = plate_coefficient(side=Q(60, "mm"), emissivity=0.09, surface=Q(60, "degC"), air=Q(20, "degC"))
    >>> print(f"{found.m_as('W/m**2/K'):.2f}")
    7.55
    """
    side = need(side, "m", "side", above=0)
    surface, air = need(surface, "K", "surface", above=0), need(air, "K", "air", above=0)
    if position not in POSITIONS:
        raise ValueError(f"position: must be one of {', '.join(POSITIONS)}, got {position!r}; write position=\"standing\"")
    if not np.all(surface > air):
        raise ValueError("surface: must be hotter than the air round it; write Q(60, 'degC')")
    if not np.all(surface <= HOTTEST.to("K")):
        raise ValueError("surface: beyond 300 degC, where no such plate is used; write Q(60, 'degC')")
    film = (surface + air) / 2
    still = air_properties(temperature=film)
    length = side if position == STANDING else side / 4  # lying: area over perimeter
    rayleigh = rayleigh_number(temperature_difference=surface - air, expansion=1 / film, length=length,
                               viscosity=still.viscosity, diffusivity=still.diffusivity)
    if position == STANDING:
        nusselt = standing_plate_smooth(rayleigh=rayleigh, prandtl=still.prandtl)
    else:
        nusselt = (lying_plate_top(rayleigh=rayleigh) + lying_plate_bottom(rayleigh=rayleigh)) / 2
    return (film_coefficient(nusselt=nusselt, conductivity=still.conductivity, length=length)
            + radiation_coefficient(emissivity=emissivity, surface=surface, surroundings=air))


def plate_resistance(*, side, thickness, conductivity, emissivity, surface, air, source_side, position=STANDING):
    r"""Thermal resistance of a square plate, from the spot that is warmed to the air.

    Parameters
    ----------
    side, thickness : Quantity [m], above zero
    conductivity : Quantity [W/(m*K)], above zero
    emissivity : float, 0 to 1
    surface : Quantity [degC], above the air's
        At the warmed spot.
    air : Quantity [degC]
    source_side : Quantity [m], above zero and below the side
    position : str
        ``"standing"`` or ``"lying"``.

    Returns
    -------
    Quantity [K/W]

    Notes
    -----
    .. math:: R = \frac{1}{\eta (h + h_r) \, 2 a^2}

    Falls a little as the plate gets hotter: warm air rises faster. Both faces count, and neither may touch anything.

    References
    ----------
    .. [1] `plate_coefficient` and `spreading_efficiency`; check value P14, RECOMPUTED.

    Examples
    --------
    >>> found = plate_resistance(side=Q(60, "mm"), thickness=Q(1.5, "mm"), conductivity=Q(200, "W/(m*K)"), emissivity=0.09,
    ...     surface=Q(60, "degC"), air=Q(20, "degC"), source_side=Q(10, "mm"))
    >>> print(f"{found.to('K/W'):.1f~P}")
    19.0 K/W
    """
    coefficient = plate_coefficient(side=side, emissivity=emissivity, surface=surface, air=air, position=position)
    efficiency = spreading_efficiency(side=side, thickness=thickness, conductivity=conductivity, coefficient=coefficient,
                                      source_side=source_side)
    return (1 / (efficiency * coefficient * 2 * side**2)).to("K/W")


def plate_temperature(*, power, side, thickness, conductivity, emissivity, air, source_side, position=STANDING):
    r"""How hot a square plate gets where the transistor sits on it.

    Parameters
    ----------
    power : Quantity [W], above zero
    side, thickness : Quantity [m], above zero
    conductivity : Quantity [W/(m*K)], above zero
    emissivity : float, 0 to 1
    air : Quantity [degC]
    source_side : Quantity [m], above zero and below the side
    position : str
        ``"standing"`` or ``"lying"``.

    Returns
    -------
    Quantity [degC]

    Raises
    ------
    ValueError
        If it would pass 300 degC: the plate is far too small.

    Notes
    -----
    The temperature at which as much leaves as comes in, :math:`T - T_a = P R(T)`, found by bisection and secants.

    References
    ----------
    .. [1] `plate_resistance`; check value plates-balance, RECOMPUTED.

    Examples
    --------
    >>> found = plate_temperature(power=Q(2, "W"), side=Q(60, "mm"), thickness=Q(1.5, "mm"),
    ...     conductivity=Q(200, "W/(m*K)"), emissivity=0.09, air=Q(20, "degC"), source_side=Q(10, "mm"))
    >>> print(f"{found:.1f~P}")
    58.3 °C
    """
    from scipy.optimize import brentq

    watts, still = float(need(power, "W", "power", above=0).m_as("W")), float(need(air, "degC", "air").m_as("degC"))

    def excess(surface):
        resistance = plate_resistance(side=side, thickness=thickness, conductivity=conductivity, emissivity=emissivity,
                                      surface=Q(surface, "degC"), air=air, source_side=source_side, position=position)
        return (surface - still) / resistance.magnitude - watts

    highest = float(HOTTEST.m_as("degC"))
    if excess(highest) < 0:
        raise ValueError(f"power: {power:~P} would heat a plate of {side.to('mm'):.3g~P} beyond 300 degC; "
                         "take a larger plate, or write less, such as Q(1, 'W')")
    return Q(brentq(excess, still + 1e-6, highest, xtol=1e-6), "degC")
