"""The resistor before a capacitor that may be a short: its ohms, and what it must stand in the worst case."""

import numpy as np

from benchreckoner.units import Q, need


def limiting_resistance(*, supply, most_current):
    r"""Ohms that let no more than a current through, even if the part behind them is a short.

    Parameters
    ----------
    supply : Quantity [V], above zero
    most_current : Quantity [A], above zero

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = U / I_{max}

    The bench rule takes 1 to 5 mA, up to 63 V. PRACTICE.

    References
    ----------
    .. [1] Ohm's law; check value C46, FOUND (second-hand).

    Examples
    --------
    >>> print(f"{limiting_resistance(supply=Q(25, 'V'), most_current=Q(5, 'mA')).to('kohm'):.1f~P}")
    5.0 kΩ
    """
    supply = need(supply, "V", "supply", above=0)
    return (supply / need(most_current, "A", "most_current", above=0)).to("ohm")


def worst_case(*, supply, resistance):
    r"""What flows, and what the resistor turns into heat, if the part behind it is a short.

    Parameters
    ----------
    supply : Quantity [V], above zero
    resistance : Quantity [ohm], above zero

    Returns
    -------
    current : Quantity [A]
    power : Quantity [W]

    Notes
    -----
    .. math:: I = U / R, \qquad P = U^2 / R

    A charged part that is discharged through the resistor gives the same at the first moment.

    References
    ----------
    .. [1] Ohm's and Joule's laws; check values C45 and C46, RECOMPUTED.

    Examples
    --------
    >>> current, power = worst_case(supply=Q(25, "V"), resistance=Q(1, "kohm"))
    >>> print(f"{current.to('mA'):.0f~P}, {power:.3f~P}")
    25 mA, 0.625 W
    """
    supply = need(supply, "V", "supply", above=0)
    current = supply / need(resistance, "ohm", "resistance", above=0)
    return current.to("A"), (supply * current).to("W")


def preconditioning_resistances(*, rated_voltage):
    """Resistors by which a published test charges and discharges sound parts; far too low for a failed one.

    Parameters
    ----------
    rated_voltage : Quantity [V], above zero

    Returns
    -------
    charging, discharging : Quantity [ohm]

    Notes
    -----
    About 100 ohm up to 100 V and 1000 ohm above, then about 1 ohm per volt. Never for reforming.

    References
    ----------
    .. [1] EIA-815 (1999), as a standards shop's abstract gives it; check value C47. FOUND.

    Examples
    --------
    >>> charging, discharging = preconditioning_resistances(rated_voltage=Q(16, "V"))
    >>> print(f"{charging:.0f~P}, {discharging:.0f~P}")
    100 Ω, 16 Ω
    """
    volts = need(rated_voltage, "V", "rated_voltage", above=0).magnitude
    return Q(np.where(volts <= 100, 100.0, 1000.0)[()], "ohm"), Q(1.0 * volts, "ohm")
