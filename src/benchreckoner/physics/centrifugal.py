"""Governors that work by flying weights: balls on arms, and spring contacts that switch the motor's current."""

import numpy as np

from benchreckoner.units import Q, need

GRAVITY = Q(9.80665, "m/s**2")


def ball_height(*, speed):
    r"""Height of the cone in which the balls of a plain governor swing, below its top.

    Parameters
    ----------
    speed : Quantity [turn/min], above zero

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: h = g / \omega^2

    Weight and swing alone, no spring, arms without weight. At a motor's speed the height is a fraction of a millimetre:
    small motors have springs instead.

    References
    ----------
    .. [1] Sarkar, Theory of Machines, 895/n^2 in metres. FOUND (in an open transcription); 894.26 with standard gravity.

    Examples
    --------
    >>> print(f"{ball_height(speed=Q(60, 'turn/min')).to('mm'):.0f~P}")
    248 mm
    """
    speed = need(speed, "turn/min", "speed", above=0)
    return (GRAVITY / speed**2).to("m")


def ball_rise(*, arm, angle, lift):
    r"""By how much the speed has risen when the balls of a plain governor have risen.

    Parameters
    ----------
    arm : Quantity [m], above zero
        From the pivot on the shaft to a ball.
    angle : Quantity [deg], above zero, below 90
        Of the arm to the shaft, before.
    lift : Quantity [m], zero or more
        Of the balls; less than their height below the top.

    Returns
    -------
    Quantity [%]

    Raises
    ------
    ValueError
        For balls that would rise to the top or over it.

    Notes
    -----
    .. math:: \Delta n / n = \sqrt{h / (h - lift)} - 1, \quad h = a \cos\theta

    References
    ----------
    .. [1] Sarkar, Theory of Machines, example 1, p. 196. FOUND (in an open transcription).

    Examples
    --------
    >>> rise = ball_rise(arm=Q(300, "mm"), angle=Q(40, "deg"), lift=Q(10, "mm"))
    >>> print(f"{rise.m_as('%'):.2f} %")
    2.25 %
    """
    angle = need(angle, "deg", "angle", above=0)
    if not np.all(angle.m_as("deg") < 90):
        raise ValueError(f"angle: must be below 90 degrees, got {angle:~P}; write Q(30, 'deg')")
    height = need(arm, "m", "arm", above=0) * np.cos(angle.m_as("rad"))
    left = height - need(lift, "m", "lift", least=0)
    if not np.all(left.magnitude > 0):
        raise ValueError(f"lift: must be less than the height of {height.to('mm'):.0f~P}, got {lift:~P}; write Q(10, 'mm')")
    return ((height / left) ** 0.5 - 1).to("%")


def contact_speed(*, spring_force, mass, radius):
    r"""Speed at which a spring contact on the shaft flies open.

    Parameters
    ----------
    spring_force : Quantity [N], above zero
        That holds the contact shut.
    mass : Quantity [kg], above zero
        Of the flying weight.
    radius : Quantity [m], above zero
        Of its centre round the shaft.

    Returns
    -------
    Quantity [turn/min]

    Notes
    -----
    .. math:: \omega_{set} = \sqrt{F / (m\, r)}

    At the moment of opening. Twice the force is 41 % faster. The weight of the part, which adds to the force and takes
    from it once a turn, is left out.

    References
    ----------
    .. [1] The force on a mass in a circle. RECOMPUTED.

    Examples
    --------
    >>> speed = contact_speed(spring_force=Q(0.5, "N"), mass=Q(1, "g"), radius=Q(8, "mm"))
    >>> print(f"{speed.m_as('turn/min'):.0f}")
    2387
    """
    force = need(spring_force, "N", "spring_force", above=0)
    carried = need(mass, "kg", "mass", above=0) * need(radius, "m", "radius", above=0)
    return ((force / carried) ** 0.5).to("turn/min")


def contact_duty(*, needed_voltage, low_voltage, high_voltage):
    r"""Share of the time for which a governor's contacts must be shut to hold the speed.

    Parameters
    ----------
    needed_voltage : Quantity [V]
        Mean volts that the motor needs at this speed and load.
    low_voltage, high_voltage : Quantity [V]
        On the motor with the contacts open and shut.

    Returns
    -------
    float
        Above 1 the hold is lost to the slow side, below 0 to the fast side; neither is cut off here.

    Raises
    ------
    ValueError
        If the high volts are not above the low ones.

    Notes
    -----
    .. math:: D = (V_{need} - V_{lo}) / (V_{hi} - V_{lo})

    Where the contacts switch faster than the winding's current can follow. With slow contacts the share is another one,
    and the two ends are the same.

    References
    ----------
    .. [1] The mean of two voltages taken in turns. RECOMPUTED.

    Examples
    --------
    >>> print(round(contact_duty(needed_voltage=Q(4.5, "V"), low_voltage=Q(2, "V"), high_voltage=Q(7, "V")), 3))
    0.5
    """
    low, high = need(low_voltage, "V", "low_voltage"), need(high_voltage, "V", "high_voltage")
    if not np.all(high > low):
        raise ValueError(f"high_voltage: must be above low_voltage, {low:~P}, got {high:~P}; write Q(7, 'V')")
    return ((need(needed_voltage, "V", "needed_voltage") - low) / (high - low)).m_as("")


def dead_band(*, friction_force, governing_force):
    r"""Share of the speed within which a flying governor does not stir, for friction.

    Parameters
    ----------
    friction_force : Quantity [N], zero or more
        That must be overcome either way.
    governing_force : Quantity [N], above zero
        Against which the weights pull: the spring's, or the weight of balls and sleeve together.

    Returns
    -------
    float
        From the lowest to the highest speed, over the mean.

    Notes
    -----
    .. math:: (n_1 - n_2) / n = f / F

    The force goes as the square of the speed, so half the friction's share to either side. Small shares only.

    References
    ----------
    .. [1] Bevan, Theory of Machines, 3rd ed., example 10, p. 483. FOUND (in an open transcription).

    Examples
    --------
    >>> print(dead_band(friction_force=Q(5, "mN"), governing_force=Q(0.5, "N")))
    0.01
    """
    return (need(friction_force, "N", "friction_force", least=0)
            / need(governing_force, "N", "governing_force", above=0)).m_as("")
