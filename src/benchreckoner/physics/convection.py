"""Heat carried off by air that rises by itself: no fan, no draught."""

import tomllib
from importlib import resources
from typing import NamedTuple

import numpy as np

from benchreckoner.units import Q, need

GRAVITY = Q(9.80665, "m/s**2")


class _Air(NamedTuple):
    """What still air is like at one temperature."""

    viscosity: Q
    diffusivity: Q
    conductivity: Q

    @property
    def prandtl(self):
        """Viscosity over diffusivity."""
        return (self.viscosity / self.diffusivity).m_as("")


def air_properties(*, temperature):
    """What still air is like, by the table in air.toml.

    Parameters
    ----------
    temperature : Quantity [degC], from -23 to 176 degC
        Of the film: halfway between the hot face and the air.

    Returns
    -------
    named tuple of Quantity
        Kinematic viscosity and thermal diffusivity [m**2/s], conductivity [W/(m*K)].

    Raises
    ------
    ValueError
        Outside the table.

    Notes
    -----
    Straight lines between rows 50 K apart, wrong by about 1 %. Dry air at sea level; at 2000 m the
    currents are weaker and carry about a tenth less.

    References
    ----------
    .. [1] Incropera, DeWitt, table A.4, MEMORY; held against the gas law and Sutherland's viscosity to 3 % (tests).

    Examples
    --------
    >>> print(f"{air_properties(temperature=Q(60, 'degC')).conductivity.to('W/m/K'):.4f~P}")
    0.0288 W/m/K
    """
    kelvin = need(temperature, "K", "temperature", above=0).m_as("K")
    if not (np.all(kelvin >= _KELVIN[0]) and np.all(kelvin <= _KELVIN[-1])):
        raise ValueError("temperature: the table of air runs from -23 to 176 degC; write for example Q(60, 'degC')")
    columns = [np.interp(kelvin, _KELVIN, column) for column in _COLUMNS]
    return _Air(*(Q(column, unit) for column, unit in zip(columns, ("m**2/s", "m**2/s", "W/(m*K)"), strict=True)))


def rayleigh_number(*, temperature_difference, expansion, length, viscosity, diffusivity, gravity=GRAVITY):
    r"""How strongly warm air is driven up along a face.

    Parameters
    ----------
    temperature_difference : Quantity [K], zero or more
        Between face and air.
    expansion : Quantity [1/K], above zero
        One over the film's temperature in kelvin.
    length : Quantity [m], above zero
        Height of a standing plate; area over perimeter of a lying one.
    viscosity, diffusivity : Quantity [m**2/s], above zero
    gravity : Quantity [m/s**2], above zero

    Returns
    -------
    float

    Notes
    -----
    .. math:: Ra = g \beta \Delta T L^3 / (\nu \alpha)

    References
    ----------
    .. [1] Incropera, example 9.2, check value P10, FOUND.

    Examples
    --------
    >>> number = rayleigh_number(temperature_difference=Q(40, "K"), expansion=Q(1 / 320, "1/K"), length=Q(50, "mm"),
    ...     viscosity=Q(1.79e-5, "m**2/s"), diffusivity=Q(2.55e-5, "m**2/s"))
    >>> print(f"{number:.3g}")
    3.36e+05
    """
    difference = need(temperature_difference, "K", "temperature_difference", least=0)
    expansion = need(expansion, "1/K", "expansion", above=0)
    length = need(length, "m", "length", above=0)
    viscosity = need(viscosity, "m**2/s", "viscosity", above=0)
    diffusivity = need(diffusivity, "m**2/s", "diffusivity", above=0)
    gravity = need(gravity, "m/s**2", "gravity", above=0)
    return (gravity * expansion * difference * length**3 / (viscosity * diffusivity)).m_as("")


def standing_plate(*, rayleigh, prandtl):
    r"""Nusselt number of a standing plate: how many times better than still air its film carries heat.

    Parameters
    ----------
    rayleigh : float, zero or more
        On the plate's height.
    prandtl : float, above zero
        0.7 for air.

    Returns
    -------
    float

    Notes
    -----
    .. math:: Nu = \left\{0.825 + \frac{0.387 Ra^{1/6}}{[1 + (0.492/Pr)^{9/16}]^{8/27}}\right\}^2

    For all Ra, smooth currents and rough ones alike. Scattered measurements lie within about 10 to 20 % of it (MEMORY).
    Nothing may stand in the way below or above: a plate near a wall or floor does worse.

    References
    ----------
    .. [1] Churchill, Chu, 1975, as in an open heat-transfer library's notes and test, check value P11, FOUND.

    Examples
    --------
    >>> print(f"{standing_plate(rayleigh=3e5, prandtl=0.7):.2f}")
    12.09
    """
    rayleigh, prandtl = _plain(rayleigh, "rayleigh", least=0), _plain(prandtl, "prandtl", least=1e-6)
    return (0.825 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2


def standing_plate_smooth(*, rayleigh, prandtl):
    r"""Nusselt number of a standing plate on which the air flows smoothly, as on all plates of a bench.

    Parameters
    ----------
    rayleigh : float, up to 1e9
        On the plate's height.
    prandtl : float, above zero

    Returns
    -------
    float

    Raises
    ------
    ValueError
        Above 1e9, where the currents grow rough.

    Notes
    -----
    .. math:: Nu = 0.68 + \frac{0.670 Ra^{1/4}}{[1 + (0.492/Pr)^{9/16}]^{4/9}}

    Below about 1e4 the film is as thick as the plate is high, and edges count: a real plate then does better.

    References
    ----------
    .. [1] Churchill, Chu, 1975, as in Incropera, chapter 9, check values P14 and P16, FOUND.

    Examples
    --------
    >>> print(f"{standing_plate_smooth(rayleigh=3e5, prandtl=0.7):.2f}")
    12.70
    """
    rayleigh, prandtl = _plain(rayleigh, "rayleigh", least=0), _plain(prandtl, "prandtl", least=1e-6)
    if not np.all(rayleigh <= 1e9):
        raise ValueError(f"rayleigh: smooth up to 1e9 only, got {np.max(rayleigh):.3g}; use standing_plate there")
    return 0.68 + 0.670 * rayleigh**0.25 / (1 + (0.492 / prandtl) ** (9 / 16)) ** (4 / 9)


def lying_plate_top(*, rayleigh):
    r"""Nusselt number of a hot face that looks up.

    Parameters
    ----------
    rayleigh : float, zero or more
        On area over perimeter.

    Returns
    -------
    float

    Notes
    -----
    .. math:: Nu = 0.54 Ra^{1/4} \; (Ra < 10^7), \quad 0.15 Ra^{1/3} \; \text{above}

    Measured from 1e4 on. Small plates lie below that; used there, it gives too little rather than too much.

    References
    ----------
    .. [1] Incropera, chapter 9: 0.15 by check value P16, FOUND; 0.54, MEMORY.

    Examples
    --------
    >>> print(f"{lying_plate_top(rayleigh=1e5):.2f}")
    9.60
    """
    rayleigh = _plain(rayleigh, "rayleigh", least=0)
    return np.where(rayleigh < 1e7, 0.54 * rayleigh**0.25, 0.15 * np.cbrt(rayleigh))[()]


def lying_plate_bottom(*, rayleigh):
    r"""Nusselt number of a hot face that looks down, where the warm air has to creep out sideways.

    Parameters
    ----------
    rayleigh : float, zero or more
        On area over perimeter.

    Returns
    -------
    float

    Notes
    -----
    .. math:: Nu = 0.27 Ra^{1/4}

    Measured from 1e5 to 1e10; a plate that lies *on* something gives next to nothing on that side.

    References
    ----------
    .. [1] Incropera, example 9.3, check value P16, FOUND.

    Examples
    --------
    >>> print(f"{lying_plate_bottom(rayleigh=1e5):.2f}")
    4.80
    """
    return 0.27 * _plain(rayleigh, "rayleigh", least=0) ** 0.25


def film_coefficient(*, nusselt, conductivity, length):
    r"""Heat that still air carries off each square metre, for each kelvin.

    Parameters
    ----------
    nusselt : float, zero or more
    conductivity : Quantity [W/(m*K)], above zero
        Of the air.
    length : Quantity [m], above zero
        The one that the Nusselt number was reckoned on.

    Returns
    -------
    Quantity [W/(m**2*K)]

    Notes
    -----
    .. math:: h = Nu \, k / L

    References
    ----------
    .. [1] Incropera, examples 9.2 and 9.3, check values P10 and P16, FOUND.

    Examples
    --------
    >>> print(f"{film_coefficient(nusselt=12.7, conductivity=Q(0.028, 'W/(m*K)'), length=Q(50, 'mm')).m_as('W/m**2/K'):.1f}")
    7.1
    """
    conductivity = need(conductivity, "W/(m*K)", "conductivity", above=0)
    return (_plain(nusselt, "nusselt", least=0) * conductivity / need(length, "m", "length", above=0)).to("W/(m**2*K)")


def _plain(value, name, *, least):
    if isinstance(value, Q) or not np.all(np.isfinite(np.asarray(value, dtype=float))):
        raise TypeError(f"{name}: is a plain finite number, got {value!r}; write for example {name}=0.7")
    value = np.asarray(value, dtype=float)[()]
    if not np.all(value >= least):
        raise ValueError(f"{name}: must be at least {least:g}, got {np.min(value):g}")
    return value


def _read_air():
    rows = tomllib.loads(resources.files(__package__).joinpath("air.toml").read_text(encoding="utf-8"))["air"]
    scale = {"viscosity": 1e-6, "diffusivity": 1e-6, "conductivity": 1.0}
    return (np.array([row["kelvin"] for row in rows], dtype=float),
            [np.array([factor * row[name] for row in rows]) for name, factor in scale.items()])


_KELVIN, _COLUMNS = _read_air()
