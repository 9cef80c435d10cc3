"""Small lamps: a filament is no resistor, and a light-emitting diode needs one."""

import numpy as np

from benchreckoner.physics.plain import share
from benchreckoner.units import need

CURRENT_EXPONENT = 0.55  # published as a rule for filament lamps in general; a single kind differs a little
LEAST_LIFE_EXPONENT, MOST_LIFE_EXPONENT = 12, 16


def lamp_current(*, voltage, rated_voltage, rated_current):
    r"""Current of a filament lamp that glows at other volts than its own.

    Parameters
    ----------
    voltage : Quantity [V], zero or more
        Across the lamp, once it has settled.
    rated_voltage : Quantity [V], above zero
    rated_current : Quantity [A], above zero
        Both as marked on the lamp.

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = I_0 (V / V_0)^{0.55}

    From about half to one and a quarter of its rated volts. Lower down the filament no longer glows: it cools mostly
    through its supports, its ohms fall towards the cold ones and the current is more than this.

    References
    ----------
    .. [1] Open encyclopaedia, "Lamp rerating". FOUND.

    Examples
    --------
    A 6 V, 100 mA lamp on half its volts draws far more than half:

    >>> from benchreckoner.units import Q
    >>> current = lamp_current(voltage=Q(3, "V"), rated_voltage=Q(6, "V"), rated_current=Q(100, "mA"))
    >>> print(f"{current.to('mA'):.1f~P}")
    68.3 mA
    """
    rated_current = need(rated_current, "A", "rated_current", above=0)
    volts = (need(voltage, "V", "voltage", least=0) / need(rated_voltage, "V", "rated_voltage", above=0)).m_as("")
    return (rated_current * volts**CURRENT_EXPONENT).to("A")


def lamp_life(*, voltage, rated_voltage):
    r"""How many times as long a filament lamp lasts at other volts than its own: a least and a most.

    Parameters
    ----------
    voltage, rated_voltage : Quantity [V], above zero

    Returns
    -------
    least, most : float

    Notes
    -----
    .. math:: t / t_0 = (V / V_0)^{-12} \ldots (V / V_0)^{-16}

    Within some 10 % of its rated volts. Shocks and many starts end a lamp sooner.

    References
    ----------
    .. [1] Open encyclopaedia, "Lamp rerating": exponents from -12 to -16. FOUND.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> least, most = lamp_life(voltage=Q(6.6, "V"), rated_voltage=Q(6, "V"))
    >>> print(f"{least:.2f} to {most:.2f}")
    0.22 to 0.32
    """
    volts = (need(voltage, "V", "voltage", above=0) / need(rated_voltage, "V", "rated_voltage", above=0)).m_as("")
    ends = volts**-LEAST_LIFE_EXPONENT, volts**-MOST_LIFE_EXPONENT
    return np.minimum(*ends), np.maximum(*ends)


def lamp_inrush(*, open_voltage, source_resistance, rated_voltage, rated_current, cold_share):
    r"""Current through a cold filament lamp in the moment it is switched on.

    Parameters
    ----------
    open_voltage : Quantity [V], zero or more
        Of the supply, with nothing drawn from it.
    source_resistance : Quantity [ohm], zero or more
        Cells, contacts and wires.
    rated_voltage : Quantity [V], above zero
    rated_current : Quantity [A], above zero
    cold_share : float, above 0 and below 1
        Cold ohms over hot ohms. Published from 1/15 to 1/10; read your own with an ohmmeter.

    Returns
    -------
    Quantity [A]

    Raises
    ------
    ValueError
        If the share is no share.

    Notes
    -----
    .. math:: I = V_s / (R_s + c\, V_0 / I_0)

    It falls to the settled current within hundredths of a second.

    References
    ----------
    .. [1] Open encyclopaedia, "Incandescent light bulb", as quoted on a physics page: cold about 1/15 of hot.
       A lamp engineer's pages: about 14 times the current; a switch maker's: 10 times. FOUND.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> current = lamp_inrush(open_voltage=Q(6, "V"), source_resistance=Q(1, "ohm"), rated_voltage=Q(6, "V"),
    ...     rated_current=Q(100, "mA"), cold_share=0.1)
    >>> print(f"{current.to('mA'):.0f~P}")
    857 mA
    """
    open_voltage = need(open_voltage, "V", "open_voltage", least=0)
    source_resistance = need(source_resistance, "ohm", "source_resistance", least=0)
    hot = need(rated_voltage, "V", "rated_voltage", above=0) / need(rated_current, "A", "rated_current", above=0)
    cold = share(cold_share, "cold_share") * hot
    return (open_voltage / (source_resistance + cold)).to("A")


def led_resistor(*, supply, led_voltage, current):
    r"""Resistor in series with a light-emitting diode, and the watts it turns into heat.

    Parameters
    ----------
    supply : Quantity [V]
        The most that the supply gives, fresh cells or an adapter off load.
    led_voltage : Quantity [V], above zero
        Across the diode while it glows: about 2 V red to green, 3 V blue and white (common practice).
    current : Quantity [A], above zero

    Returns
    -------
    resistance : Quantity [ohm]
    power : Quantity [W]

    Raises
    ------
    ValueError
        For a supply that does not exceed the diode's own volts.

    Notes
    -----
    .. math:: R = (V_s - V_{LED}) / I, \quad P = (V_s - V_{LED})\, I

    With little more than the diode's own volts the current swings wildly with the supply: leave a third of the volts
    to the resistor. It lights one way round only, and stands a few volts the wrong way round, no more.

    References
    ----------
    .. [1] Ohm's and Joule's laws. RECOMPUTED.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> ohms, watts = led_resistor(supply=Q(9, "V"), led_voltage=Q(2, "V"), current=Q(10, "mA"))
    >>> print(f"{ohms:.0f~P}, {watts.to('mW'):.0f~P}")
    700 Ω, 70 mW
    """
    supply = need(supply, "V", "supply")
    led_voltage = need(led_voltage, "V", "led_voltage", above=0)
    current = need(current, "A", "current", above=0)
    if not np.all(supply > led_voltage):
        raise ValueError(f"supply: must be above the diode's own {led_voltage:~P}, got {supply:~P}: it would not light; "
                         "write Q(9, 'V')")
    left = supply - led_voltage
    return (left / current).to("ohm"), (left * current).to("W")
