"""A motor's two materials when they warm: copper gains ohms, a magnet loses strength."""

import numpy as np

from benchreckoner.units import Q, need

# The straight line of copper's resistance, followed downwards, reaches zero ohm at -234.5 degC. FOUND (an engineering
# page, a safety-test text); the annealed copper standard's own figure, MEMORY.
COPPER_INTERCEPT = Q(234.5, "delta_degC")
# How much a hard ferrite magnet loses for each kelvin, of what it has at 20 degC. FOUND in an open model library.
FERRITE = Q(-0.002, "1/delta_degC")
_LOWEST, _HIGHEST = -50.0, 250.0  # degC: where copper's straight line is good to a per cent or so


def warmed_resistance(*, resistance, cold, warm, intercept=COPPER_INTERCEPT):
    r"""Resistance of a copper winding at another temperature.

    Parameters
    ----------
    resistance : Quantity [ohm], zero or more
        As it is at `cold`.
    cold, warm : Quantity [degC], from -50 to 250 degC
    intercept : Quantity [delta_degC], above 50
        How far below 0 degC the straight line meets zero ohm; copper's 234.5 if left out.

    Returns
    -------
    Quantity [ohm]

    Raises
    ------
    ValueError
        For a temperature outside the range where the line is straight.

    Notes
    -----
    .. math:: R_2 = R_1 \frac{k + t_2}{k + t_1}

    The straight line holds for copper near room temperature and some way above. Aluminium wire has 225.

    References
    ----------
    .. [1] 234.5: an engineering page and a safety-test text, FOUND. A machine standard's 235: MEMORY.

    Examples
    --------
    >>> ohms = warmed_resistance(resistance=Q(15, "ohm"), cold=Q(20, "degC"), warm=Q(50, "degC"))
    >>> print(f"{ohms:.2f~P}")
    16.77 Ω
    """
    resistance = need(resistance, "ohm", "resistance", least=0)
    cold, warm = _temperature(cold, "cold"), _temperature(warm, "warm")
    intercept = need(intercept, "delta_degC", "intercept", above=-_LOWEST)
    zero = Q(0, "degC")
    return (resistance * (intercept + (warm - zero)) / (intercept + (cold - zero))).to("ohm")


def rise_by_resistance(*, cold_resistance, warm_resistance, cold, intercept=COPPER_INTERCEPT):
    r"""How much warmer a winding is, from its ohms cold and warm.

    Parameters
    ----------
    cold_resistance, warm_resistance : Quantity [ohm], above zero
        Of the winding alone: the leads' ohms taken off both.
    cold : Quantity [degC], from -50 to 250 degC
        Temperature of the winding at the cold reading.
    intercept : Quantity [delta_degC], above 50
        As for `warmed_resistance`.

    Returns
    -------
    Quantity [delta_degC]
        Negative if it is colder.

    Notes
    -----
    .. math:: \Delta t = \left(\frac{R_2}{R_1} - 1\right)(k + t_1)

    It is the *mean* of the winding; its hottest spot is warmer. On 15 ohm, a tenth of an ohm is 1.7 K.

    References
    ----------
    .. [1] D. C. Kulshreshtha, "Basic Electrical Engineering", Ex. 2.18, through an open transcription; check value T01, FOUND.

    Examples
    --------
    >>> rise = rise_by_resistance(cold_resistance=Q(15, "ohm"), warm_resistance=Q(15.1, "ohm"), cold=Q(20, "degC"))
    >>> print(f"{rise.m_as('delta_degC'):.1f} K")
    1.7 K
    """
    cold_resistance = need(cold_resistance, "ohm", "cold_resistance", above=0)
    warm_resistance = need(warm_resistance, "ohm", "warm_resistance", above=0)
    cold = _temperature(cold, "cold")
    intercept = need(intercept, "delta_degC", "intercept", above=-_LOWEST)
    return ((warm_resistance / cold_resistance - 1) * (intercept + (cold - Q(0, "degC")))).to("delta_degC")


def stopped_resistance(*, first, late, waited, time_constant):
    r"""Ohms that a winding had at the moment it stopped, from two readings after it.

    Parameters
    ----------
    first : Quantity [ohm], above zero
        Read some seconds after stopping.
    late : Quantity [ohm], above zero
        Read a minute or two after stopping, when the winding is as warm as the shell.
    waited : Quantity [s], zero or more
        From stopping to the first reading.
    time_constant : Quantity [s], above zero
        In which the winding cools towards the shell.

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R_0 = R_{late} + (R_{first} - R_{late})\, e^{t/\tau}

    While the shell itself hardly cools: its own time constant is many minutes.

    References
    ----------
    .. [1] The cooling of one heat store towards a steady one. RECOMPUTED.

    Examples
    --------
    >>> ohms = stopped_resistance(first=Q(16.2, "ohm"), late=Q(16.0, "ohm"), waited=Q(18, "s"), time_constant=Q(18, "s"))
    >>> print(f"{ohms:.2f~P}")
    16.54 Ω
    """
    first = need(first, "ohm", "first", above=0)
    late = need(late, "ohm", "late", above=0)
    waited = need(waited, "s", "waited", least=0)
    time_constant = need(time_constant, "s", "time_constant", above=0)
    return (late + (first - late) * np.exp((waited / time_constant).m_as(""))).to("ohm")


def warm_constant(*, motor_constant, temperature, coefficient=FERRITE):
    r"""A motor's constant when its magnet has another temperature than 20 degC.

    Parameters
    ----------
    motor_constant : Quantity [V*s/rad], above zero
        At 20 degC.
    temperature : Quantity [degC], from -50 to 250 degC
        Of the magnet.
    coefficient : Quantity [1/delta_degC], at most zero
        What the magnet loses for each kelvin; hard ferrite's if left out.

    Returns
    -------
    Quantity [V*s/rad]

    Raises
    ------
    ValueError
        For a temperature outside the range, or a coefficient that leaves no magnet there.

    Notes
    -----
    .. math:: K_e(t) = K_{e20}\,[1 + a_B (t - 20)]

    Only the part that comes back on cooling. A magnet that was far too hot stays weaker, which this leaves out.

    References
    ----------
    .. [1] Hard ferrite -0.002 /K, an open model library; neodymium -0.0009 to -0.0013 /K, an observatory's notes; alnico
       -0.0002 /K, a materials page. FOUND.

    Examples
    --------
    >>> warm = warm_constant(motor_constant=Q(0.0130, "V*s/rad"), temperature=Q(50, "degC"))
    >>> print(f"{warm.m_as('V*s/rad'):.5f}")
    0.01222
    """
    motor_constant = need(motor_constant, "V*s/rad", "motor_constant", above=0)
    temperature = _temperature(temperature, "temperature")
    coefficient = need(coefficient, "1/delta_degC", "coefficient")
    strength = (1 + coefficient * (temperature - Q(20, "degC"))).to("")
    if np.any(coefficient.magnitude > 0):
        raise ValueError("coefficient: a magnet weakens as it warms; write Q(-0.002, '1/delta_degC')")
    if not np.all(strength.magnitude > 0):
        raise ValueError(f"coefficient: leaves no magnet at {temperature:~P}; write Q(-0.002, '1/delta_degC')")
    return (motor_constant * strength).to("V*s/rad")


def _temperature(value, name):
    value = need(value, "degC", name, least=_LOWEST)
    if not np.all(value.magnitude <= _HIGHEST):
        raise ValueError(f"{name}: the law holds up to {_HIGHEST:g} degC; write Q(20, 'degC')")
    return value
