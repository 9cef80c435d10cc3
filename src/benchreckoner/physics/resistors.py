"""Resistors: what they may turn into heat, what burns them, and what one beside a load does to it."""

from typing import NamedTuple

import numpy as np

from benchreckoner.physics.levels import decibels
from benchreckoner.units import Q, need

FULL_POWER_UP_TO = Q(70, "degC")  # film resistors; in the style of IEC 60115. MEMORY.
FILM_HOTTEST = Q(155, "degC")  # metal film; carbon film 125 to 155. MEMORY.
OVERLOAD = 6.25  # times the rated watts for 5 s: a usual overload test. FOUND (glossary; it varies).


class LoadEffect(NamedTuple):
    """What an amplifier meets, and where its watts go, with one resistor beside a load.

    ``load`` is what the amplifier sees, ``current`` what it gives, ``level`` the load's change against no resistor at all.
    """

    load: Q
    current: Q
    load_power: Q
    resistor_power: Q
    level: Q


def dissipated_power(*, voltage, resistance):
    r"""Watts that a resistor turns into heat, from the volts across it.

    Parameters
    ----------
    voltage : Quantity [V]
        Across the resistor, either way round.
    resistance : Quantity [ohm], above zero

    Returns
    -------
    Quantity [W]

    Notes
    -----
    .. math:: P = V^2 / R

    For steady or effective (root mean square) volts.

    References
    ----------
    .. [1] Joule's law.

    Examples
    --------
    >>> print(f"{dissipated_power(voltage=Q(9, 'V'), resistance=Q(100, 'ohm')):.2f~P}")
    0.81 W
    """
    voltage = need(voltage, "V", "voltage")
    resistance = need(resistance, "ohm", "resistance", above=0)
    return (voltage**2 / resistance).to("W")


def allowed_power(*, rated_power, temperature, hottest=FILM_HOTTEST):
    r"""Watts that a resistor may turn into heat where it is already warm.

    Parameters
    ----------
    rated_power : Quantity [W], above zero
        As sold, for up to 70 degC.
    temperature : Quantity [degC], any shape
        Of the air round it: inside the closed case, not of the room.
    hottest : Quantity [degC], above 70 degC
        What its body may reach. 155 degC, a metal film's, if left out.

    Returns
    -------
    Quantity [W]

    Raises
    ------
    ValueError
        Where the air is as hot as the part may be: nothing is allowed there.

    Notes
    -----
    .. math:: P = P_{70} \frac{T_{max} - t}{T_{max} - 70}

    above 70 degC, and all of it below. For free air at sea level and leads of usual length. Its neighbours and the board
    have limits of their own, and they are lower.

    References
    ----------
    .. [1] Film resistors in the style of IEC 60115, MEMORY; check value R01, RECOMPUTED.

    Examples
    --------
    >>> print(f"{allowed_power(rated_power=Q(0.25, 'W'), temperature=Q(100, 'degC')):.3f~P}")
    0.162 W
    """
    rated_power = need(rated_power, "W", "rated_power", above=0)
    temperature = need(temperature, "degC", "temperature")
    hottest = need(hottest, "degC", "hottest", above=FULL_POWER_UP_TO.magnitude)
    left = ((hottest - temperature) / (hottest - FULL_POWER_UP_TO)).m_as("")
    if not np.all(left > 0):
        raise ValueError(f"temperature: {temperature:~P} leaves nothing of {hottest:~P}; write a cooler place, such as Q(40, 'degC')")
    return (rated_power * np.minimum(1.0, left)).to("W")


def hot_spot(*, ambient, power, rated_power, hottest=FILM_HOTTEST):
    r"""The hottest place on a resistor's body.

    Parameters
    ----------
    ambient : Quantity [degC]
        Air round it.
    power : Quantity [W], zero or more
        Turned into heat.
    rated_power : Quantity [W], above zero
    hottest : Quantity [degC], above 70 degC
        Reached at 70 degC with the rated watts in it.

    Returns
    -------
    Quantity [degC]

    Notes
    -----
    .. math:: T = t + (T_{max} - 70) P / P_{70}

    Steady, after some minutes. Warmth is taken as given off in proportion to the rise, which is right near the rating only: far
    below it the true rise is somewhat more. Beyond the rating the part changes, and the law ends.

    References
    ----------
    .. [1] The derating line read backwards; check value R01, RECOMPUTED.

    Examples
    --------
    >>> spot = hot_spot(ambient=Q(25, "degC"), power=Q(0.4, "W"), rated_power=Q(0.25, "W"))
    >>> print(f"{spot:.0f~P}")
    161 °C
    """
    ambient = need(ambient, "degC", "ambient")
    power = need(power, "W", "power", least=0)
    rated_power = need(rated_power, "W", "rated_power", above=0)
    hottest = need(hottest, "degC", "hottest", above=FULL_POWER_UP_TO.magnitude)
    return (ambient + (hottest - FULL_POWER_UP_TO) * (power / rated_power).m_as("")).to("degC")


def burning_current(*, rated_power, resistance, times=OVERLOAD):
    r"""Current that gives a resistor so many times its rated watts.

    Parameters
    ----------
    rated_power : Quantity [W], above zero
    resistance : Quantity [ohm], above zero
    times : float, above zero
        6.25 if left out, which a sound part stands for seconds and not for minutes.

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = \sqrt{k P / R}

    6.25 times the watts are 2.5 times the rated current, and 2.5 times the rated volts. What chars a body in minutes may be
    less: twice the watts already bring a film's hot spot near 200 degC in a warm case.

    References
    ----------
    .. [1] Joule's law; the factor from a glossary of resistor terms, FOUND, and it varies from type to type.

    Examples
    --------
    >>> print(f"{burning_current(rated_power=Q(0.25, 'W'), resistance=Q(100, 'ohm')):.3f~P}")
    0.125 A
    """
    rated_power = need(rated_power, "W", "rated_power", above=0)
    resistance = need(resistance, "ohm", "resistance", above=0)
    if isinstance(times, bool) or not isinstance(times, (int, float)) or not times > 0:
        raise ValueError(f"times: must be a plain number above zero, got {times!r}; write times=6.25")
    return ((times * rated_power / resistance) ** 0.5).to("A")


def across_load(*, voltage, load_resistance, resistance, source_resistance=Q(0, "ohm")):
    r"""What a resistor across a load does to the load, to its level and to what drives it.

    Parameters
    ----------
    voltage : Quantity [V], above zero
        Of the amplifier with nothing connected, root mean square.
    load_resistance : Quantity [ohm], above zero
        The loudspeaker, by its impedance.
    resistance : Quantity [ohm], above zero
        Across it, any shape.
    source_resistance : Quantity [ohm], zero or more
        Inside the amplifier and its wires. None if left out: it holds its volts.

    Returns
    -------
    LoadEffect

    Notes
    -----
    .. math:: R' = \frac{R R_L}{R + R_L}, \quad I = \frac{V}{R' + r}, \quad P_R = \frac{(I R')^2}{R}

    A loudspeaker's impedance changes with frequency, so this holds near the frequency at which it has its rated ohms. An amplifier
    that runs out of volts or current no longer holds anything.

    References
    ----------
    .. [1] Ohm's law and two resistors side by side; check value R02, RECOMPUTED.

    Examples
    --------
    >>> effect = across_load(voltage=Q(2.82843, "V"), load_resistance=Q(8, "ohm"), resistance=Q(33, "ohm"))
    >>> print(f"{effect.load:.3f~P}, {effect.resistor_power:.3f~P}, {effect.level:.1f~P}")
    6.439 Ω, 0.242 W, 0.0 dB
    """
    voltage, load, resistor, source = _checked(voltage, load_resistance, resistance, source_resistance)
    both = 1 / (1 / load + 1 / resistor)
    current = voltage / (both + source)
    across = current * both
    alone = voltage * load / (load + source)
    return LoadEffect(both.to("ohm"), current.to("A"), (across**2 / load).to("W"), (across**2 / resistor).to("W"),
                      decibels(ratio=(across / alone).m_as("")))


def in_series_with_load(*, voltage, load_resistance, resistance, source_resistance=Q(0, "ohm")):
    r"""What a resistor in series with a load does to the load, to its level and to what drives it.

    Parameters
    ----------
    voltage, load_resistance, source_resistance : Quantity
        As for `across_load`.
    resistance : Quantity [ohm], above zero
        In series with it, any shape.

    Returns
    -------
    LoadEffect

    Notes
    -----
    .. math:: R' = R + R_L, \quad I = \frac{V}{R' + r}, \quad P_R = I^2 R

    Holds as `across_load` does. A resistor in series also lets the loudspeaker's own resonance swing more freely, which no watt
    tells of.

    References
    ----------
    .. [1] Ohm's law; the level also by `signal.series_loss`.

    Examples
    --------
    >>> effect = in_series_with_load(voltage=Q(2.82843, "V"), load_resistance=Q(8, "ohm"), resistance=Q(8, "ohm"))
    >>> print(f"{effect.load:.0f~P}, {effect.resistor_power:.2f~P}, {effect.level:.2f~P}")
    16 Ω, 0.25 W, -6.02 dB
    """
    voltage, load, resistor, source = _checked(voltage, load_resistance, resistance, source_resistance)
    both = load + resistor
    current = voltage / (both + source)
    ratio = ((load + source) / (both + source)).m_as("")
    return LoadEffect(both.to("ohm"), current.to("A"), (current**2 * load).to("W"), (current**2 * resistor).to("W"),
                      decibels(ratio=ratio))


def _checked(voltage, load_resistance, resistance, source_resistance):
    return (need(voltage, "V", "voltage", above=0), need(load_resistance, "ohm", "load_resistance", above=0),
            need(resistance, "ohm", "resistance", above=0), need(source_resistance, "ohm", "source_resistance", least=0))
