"""What reaches a viewer: how large letters look from where one sits, and how late a clap is heard."""

import numpy as np

from benchreckoner.units import Q, need

_AT_FREEZING = 331.3  # m/s
_FREEZING = 273.15  # K


def letter_angle(*, height, distance):
    r"""Angle under which a letter is seen.

    Parameters
    ----------
    height : Quantity [m], above zero
        Of a capital letter, from its foot to its top.
    distance : Quantity [m], above zero
        From the eye to the letter.

    Returns
    -------
    Quantity [arcmin]
        A minute of arc is a sixtieth of a degree.

    Notes
    -----
    .. math:: \alpha = 2 \arctan \frac{h}{2 d}

    For letters looked at straight on. A screen held aslant makes them look lower.

    References
    ----------
    .. [1] The triangle between eye, foot and top; held by a second formula. RECOMPUTED.

    Examples
    --------
    >>> print(f"{letter_angle(height=Q(2, 'mm'), distance=Q(350, 'mm')):.1f}")
    19.6 arcminute
    """
    height, distance = need(height, "m", "height", above=0), need(distance, "m", "distance", above=0)
    return Q(2 * np.arctan((height / (2 * distance)).m_as("")), "rad").to("arcmin")


def letter_height(*, angle, distance):
    r"""How high letters must be to be seen under an angle.

    Parameters
    ----------
    angle : Quantity [arcmin], above zero
    distance : Quantity [m], above zero

    Returns
    -------
    Quantity [mm]

    Raises
    ------
    ValueError
        If the angle is half a turn or more, which no letter can fill.

    Notes
    -----
    .. math:: h = 2 d \tan \frac{\alpha}{2}

    For small angles height is angle times distance: at twice the distance, twice the height.

    References
    ----------
    .. [1] NUREG-0700, Rev. 2, 1.3.1-4: height = 6.283 D (MA) / 21600, the same for small angles. FOUND.

    Examples
    --------
    >>> print(f"{letter_height(angle=Q(20, 'arcmin'), distance=Q(350, 'mm')):.2f~P}")
    2.04 mm
    """
    angle, distance = need(angle, "rad", "angle", above=0), need(distance, "m", "distance", above=0)
    if not np.all(angle.m < np.pi):
        raise ValueError(f"angle: must be below half a turn, got {angle.to('degree'):~P}; write Q(20, 'arcmin')")
    return (2 * distance * np.tan(angle.m / 2)).to("mm")


def sound_delay(*, distance, temperature):
    r"""How long a sound takes to a microphone or an ear.

    Parameters
    ----------
    distance : Quantity [m], zero or more
    temperature : Quantity [degC], above -273.15
        Of the air.

    Returns
    -------
    Quantity [ms]

    Notes
    -----
    .. math:: t = \frac{d}{331.3\,\mathrm{m/s}\,\sqrt{1 + \vartheta / 273.15\,\mathrm{°C}}}

    For dry air; moist air is faster by less than a hundredth. Light's own time is left out: it is a millionth of that.

    References
    ----------
    .. [1] An encyclopedia's practical formula for dry air, 331.3 m/s at 0 °C (read). FOUND.

    Examples
    --------
    >>> print(f"{sound_delay(distance=Q(10, 'm'), temperature=Q(20, 'degC')):.1f~P}")
    29.1 ms
    """
    distance = need(distance, "m", "distance", least=0)
    kelvins = need(temperature, "degC", "temperature", above=-_FREEZING).m_as("kelvin")
    return (distance / Q(_AT_FREEZING * np.sqrt(kelvins / _FREEZING), "m/s")).to("ms")
