"""Finding a fitted belt's pull without a balance: by its tone, by pressing it sideways, by its dip. Never on a running belt."""

import numpy as np

from benchreckoner.physics.rubber import held_ratio
from benchreckoner.units import Q, need


def pluck_frequency(*, tension, mass_per_length, span, speed=Q(0, "m/s")):
    r"""Tone of a plucked span.

    Parameters
    ----------
    tension : Quantity [N], above zero
    mass_per_length : Quantity [kg/m], above zero
        Of the stretched belt.
    span : Quantity [m], above zero
        Free length between the pulleys.
    speed : Quantity [m/s], zero or more, below the speed of waves
        Of the belt itself; zero for the test.

    Returns
    -------
    Quantity [Hz]

    Raises
    ------
    ValueError
        If the belt runs as fast as its waves.

    Notes
    -----
    .. math:: f = \frac{c^2 - v^2}{2 l c}, \qquad c = \sqrt{F / m'}

    For a thin belt: a stiff, short span sounds higher.

    References
    ----------
    .. [1] OpenStax, "University Physics" 1, wave speed on a stretched string, check value C35. FOUND.
    .. [2] A string that moves along. MEMORY.

    Examples
    --------
    >>> tone = pluck_frequency(tension=Q(0.5, "N"), mass_per_length=Q(1.7, "g/m"), span=Q(50, "mm"))
    >>> print(f"{tone:.1f~P}")
    171.5 Hz
    """
    force, mass = need(tension, "N", "tension", above=0), need(mass_per_length, "kg/m", "mass_per_length", above=0)
    length, moving = need(span, "m", "span", above=0), need(speed, "m/s", "speed", least=0)
    wave = np.sqrt(force / mass).to("m/s")
    if not np.all(moving < wave):
        raise ValueError(f"speed: must be below that of the belt's waves, {np.min(wave):.3g~P}, got {np.max(moving):.3g~P}; "
                         "write Q(0, 'm/s') for a belt at rest")
    return ((wave**2 - moving**2) / (2 * length * wave)).to("Hz")


def pluck_tension(*, frequency, mass_per_length, span):
    r"""Pull of a belt at rest, from the tone of one plucked span.

    Parameters
    ----------
    frequency : Quantity [Hz], above zero
        Of its lowest tone.
    mass_per_length : Quantity [kg/m], above zero
    span : Quantity [m], above zero

    Returns
    -------
    Quantity [N]

    Notes
    -----
    .. math:: F = 4 m' l^2 f^2

    1 % of error in tone or span is 2 % in the pull. An octave taken too high is a factor of four.

    References
    ----------
    .. [1] A stretched string, check value C36. RECOMPUTED.

    Examples
    --------
    >>> pull = pluck_tension(frequency=Q(200, "Hz"), mass_per_length=Q(1.7, "g/m"), span=Q(50, "mm"))
    >>> print(f"{pull:.2f~P}")
    0.68 N
    """
    tone, length = need(frequency, "Hz", "frequency", above=0), need(span, "m", "span", above=0)
    return (4 * need(mass_per_length, "kg/m", "mass_per_length", above=0) * length**2 * tone**2).to("N")


def simple_press_tension(*, force, deflection, span):
    r"""Pull by the press test's usual formula, which forgets that pressing stretches the belt.

    Parameters
    ----------
    force : Quantity [N], above zero
        Sideways, in the middle of the span.
    deflection : Quantity [m], above zero
    span : Quantity [m], above zero

    Returns
    -------
    Quantity [N]

    Notes
    -----
    .. math:: F = \frac{p\, l}{4\, \delta}

    It reads high: with rubber at 5 % of stretch 0.9 % at a deflection of a 64th of the span, 9.4 % at a 20th, 36 % at a tenth.

    References
    ----------
    .. [1] Balance of forces at small angles, check value C37. RECOMPUTED.

    Examples
    --------
    >>> pull = simple_press_tension(force=Q(0.13483, "N"), deflection=Q(4.79166, "mm"), span=Q(47.9166, "mm"))
    >>> print(f"{pull:.4f~P}")
    0.3371 N
    """
    pressed = need(force, "N", "force", above=0)
    return (pressed * need(span, "m", "span", above=0) / (4 * need(deflection, "m", "deflection", above=0))).to("N")


def press_tension(*, force, deflection, span, stretch_ratio, path_length=None):
    r"""Pull of a belt at rest by the press test, with the stretch that the pressing adds taken off.

    Parameters
    ----------
    force : Quantity [N], above zero
        Sideways, in the middle of the span.
    deflection : Quantity [m], above zero
    span : Quantity [m], above zero
    stretch_ratio : float or array, above 1, to 1.5
        Of the fitted belt before the test: its path by its free length.
    path_length : Quantity [m], at least the span, optional
        Of the whole loop, if the belt slides freely on its pulleys; left out, both pulleys grip it.

    Returns
    -------
    Quantity [N]

    Raises
    ------
    ValueError
        For a ratio of 1 or less, or a test that stretches it beyond 1.5.

    Notes
    -----
    .. math::
        \tan b = \frac{2\delta}{l}, \quad F' = \frac{p}{2 \sin b}, \quad
        F = F'\, \frac{\lambda - \lambda^{-2}}{\lambda' - \lambda'^{-2}}, \quad
        \lambda' = \frac{\lambda}{\cos b} \ \text{or}\ \lambda\left[1 + \frac{l}{L}\left(\frac{1}{\cos b} - 1\right)\right]

    The modulus drops out. The truth lies between the two: do the test at a small deflection, and the two agree.

    References
    ----------
    .. [1] Balance of forces and the neo-Hookean law, check value C37. RECOMPUTED.

    Examples
    --------
    >>> pull = press_tension(force=Q(0.13483, "N"), deflection=Q(4.79166, "mm"), span=Q(47.9166, "mm"), stretch_ratio=1.05)
    >>> print(f"{pull:.4f~P}")
    0.2474 N
    """
    pressed, length = need(force, "N", "force", above=0), need(span, "m", "span", above=0)
    slope = (2 * need(deflection, "m", "deflection", above=0) / length).m_as("")
    ratio = held_ratio(stretch_ratio, "stretch_ratio")
    if not np.all(ratio > 1):
        raise ValueError(f"stretch_ratio: must be above 1, a slack belt has no pull, got {stretch_ratio!r}; write 1.05")
    longer = np.sqrt(1 + slope**2)  # 1 / cos b
    part = 1.0
    if path_length is not None:
        whole = need(path_length, "m", "path_length", above=0)
        if not np.all(whole >= length):
            raise ValueError(f"path_length: is the whole loop, at least the span of {length.to('mm'):.4g~P}; write Q(230, 'mm')")
        part = (length / whole).m_as("")
    during = held_ratio(ratio * (1 + part * (longer - 1)), "stretch_ratio, while pressed")
    pulled = pressed * longer / (2 * slope)  # p / (2 sin b)
    return (pulled * (ratio - ratio**-2) / (during - during**-2)).to("N")


def dip_by_weight(*, mass_per_length, span, tension):
    r"""Dip of a level span in its middle, by its own weight.

    Parameters
    ----------
    mass_per_length : Quantity [kg/m], above zero
    span : Quantity [m], above zero
    tension : Quantity [N], above zero

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: h = \frac{m' g l^2}{8 F}

    For a dip that is small beside the span. Small belts dip too little to measure: a dip that shows is a belt that hangs
    slack.

    References
    ----------
    .. [1] Shigley, eq. 17-13, and two stored solutions, check values C14 and C15. FOUND.

    Examples
    --------
    >>> dip = dip_by_weight(mass_per_length=Q(1.17005, "kg/m"), span=Q(6.096, "m"), tension=Q(3457.9, "N"))
    >>> print(f"{dip.to('mm'):.2f~P}")
    15.41 mm
    """
    weight = need(mass_per_length, "kg/m", "mass_per_length", above=0) * Q(9.80665, "m/s**2")
    return (weight * need(span, "m", "span", above=0) ** 2 / (8 * need(tension, "N", "tension", above=0))).to("m")
