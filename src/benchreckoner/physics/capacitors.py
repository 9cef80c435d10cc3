"""Capacitors as parts: charging and discharging, energy, corner, dissipation factor and series resistance."""

import numpy as np

from benchreckoner.physics.plain import share
from benchreckoner.units import Q, need


def charged_voltage(*, supply, series_resistance, capacitance, time):
    r"""Volts across a capacitor that charges from empty through a resistor.

    Parameters
    ----------
    supply : Quantity [V]
    series_resistance : Quantity [ohm], above zero
    capacitance : Quantity [F], above zero
    time : Quantity [s], zero or more

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: V = E \left(1 - e^{-t / R C}\right)

    For a part without leakage.

    References
    ----------
    .. [1] Kuphaldt, Lessons in Electric Circuits, vol. I, ch. 16, check values C01 and C03. FOUND.

    Examples
    --------
    >>> volts = charged_voltage(supply=Q(15, "V"), series_resistance=Q(10, "kohm"),
    ...     capacitance=Q(100, "uF"), time=Q(0.5, "s"))
    >>> print(f"{volts:.3f~P}")
    5.902 V
    """
    supply = need(supply, "V", "supply")
    constant = _time_constant(series_resistance, capacitance)
    time = need(time, "s", "time", least=0)
    return (supply * -np.expm1(-(time / constant).m_as(""))).to("V")


def charging_time(*, supply, series_resistance, capacitance, voltage):
    r"""Time until a capacitor, charged from empty through a resistor, has reached a voltage.

    Parameters
    ----------
    supply : Quantity [V], above zero
    series_resistance : Quantity [ohm], above zero
    capacitance : Quantity [F], above zero
    voltage : Quantity [V], from zero to below the supply

    Returns
    -------
    Quantity [s]

    Raises
    ------
    ValueError
        If the voltage is not below the supply: it is never reached.

    Notes
    -----
    .. math:: t = -R C \ln (1 - V / E)

    References
    ----------
    .. [1] OpenStax, University Physics vol. 2, sec. 10.5, check value C08. FOUND.

    Examples
    --------
    >>> seconds = charging_time(supply=Q(100, "V"), series_resistance=Q(101, "ohm"),
    ...     capacitance=Q(50, "mF"), voltage=Q(80, "V"))
    >>> print(f"{seconds:.2f~P}")
    8.13 s
    """
    supply = need(supply, "V", "supply", above=0)
    voltage = need(voltage, "V", "voltage", least=0)
    if not np.all(voltage < supply):
        raise ValueError(f"voltage: must lie below the supply of {supply:~P} to be reached, got {voltage:~P}")
    return (-_time_constant(series_resistance, capacitance) * np.log1p(-(voltage / supply).m_as(""))).to("s")


def discharge_time(*, capacitance, resistance, start, end=Q(1, "V")):
    r"""Time that a resistor takes to bring a charged capacitor down.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    resistance : Quantity [ohm], above zero
    start : Quantity [V], above zero
    end : Quantity [V], above zero
        Down to here; one volt if left out.

    Returns
    -------
    Quantity [s]
        Zero where the part already holds less.

    Notes
    -----
    .. math:: t = R C \ln (U / U_{end})

    The part then recovers a few per cent by soakage: read it again after a wait.

    References
    ----------
    .. [1] Exponential discharge; check value C48, RECOMPUTED.

    Examples
    --------
    >>> seconds = discharge_time(capacitance=Q(4700, "uF"), resistance=Q(1, "kohm"), start=Q(63, "V"))
    >>> print(f"{seconds:.1f~P}")
    19.5 s
    """
    start, end = need(start, "V", "start", above=0), need(end, "V", "end", above=0)
    return (_time_constant(resistance, capacitance) * np.maximum(np.log((start / end).m_as("")), 0)).to("s")


def stored_energy(*, capacitance, voltage):
    r"""Energy in a charged capacitor.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    voltage : Quantity [V]

    Returns
    -------
    Quantity [J]

    Notes
    -----
    .. math:: W = \tfrac{1}{2} C U^2

    References
    ----------
    .. [1] OpenStax, College Physics, "Energy Stored in Capacitors", check value C13 turned round. FOUND.

    Examples
    --------
    >>> print(f"{stored_energy(capacitance=Q(1000, 'uF'), voltage=Q(25, 'V')):.2f~P}")
    0.31 J
    """
    capacitance = need(capacitance, "F", "capacitance", above=0)
    voltage = need(voltage, "V", "voltage")
    return (capacitance * voltage**2 / 2).to("J")


def corner_frequency(*, resistance, capacitance):
    r"""The pitch at which a resistor and a capacitor halve the power.

    Parameters
    ----------
    resistance : Quantity [ohm], above zero
        Source and load together, as the capacitor sees them.
    capacitance : Quantity [F], above zero

    Returns
    -------
    Quantity [Hz]

    Notes
    -----
    .. math:: f = \frac{1}{2 \pi R C}

    References
    ----------
    .. [1] Kuphaldt, Lessons in Electric Circuits, vol. II, filters, check value C14. FOUND.

    Examples
    --------
    >>> print(f"{corner_frequency(resistance=Q(500, 'ohm'), capacitance=Q(7, 'uF')):.2f~P}")
    45.47 Hz
    """
    return (1 / (2 * np.pi * _time_constant(resistance, capacitance))).to("Hz")


def dissipation_factor(*, capacitance, series_resistance, frequency):
    r"""The dissipation factor of a capacitor with series resistance.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    series_resistance : Quantity [ohm], zero or more
    frequency : Quantity [Hz], above zero

    Returns
    -------
    float or array

    Notes
    -----
    .. math:: D = 2 \pi f C r

    Without leakage and far below the part's own resonance.

    References
    ----------
    .. [1] Open encyclopaedia, "Aluminum electrolytic capacitor". FOUND. Check value C35, RECOMPUTED.

    Examples
    --------
    >>> factor = dissipation_factor(capacitance=Q(100, "uF"), series_resistance=Q(1, "ohm"), frequency=Q(120, "Hz"))
    >>> print(f"{factor:.4f}")
    0.0754
    """
    capacitance = need(capacitance, "F", "capacitance", above=0)
    series_resistance = need(series_resistance, "ohm", "series_resistance", least=0)
    frequency = need(frequency, "Hz", "frequency", above=0)
    return (2 * np.pi * frequency * capacitance * series_resistance).m_as("")


def series_resistance(*, capacitance, dissipation, frequency):
    r"""The series resistance behind a dissipation factor.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    dissipation : float or array, between 0 and 1
    frequency : Quantity [Hz], above zero
        At which the dissipation factor was read or printed.

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: r = \frac{D}{2 \pi f C}

    References
    ----------
    .. [1] The same formula turned round; check value C36, RECOMPUTED.

    Examples
    --------
    >>> ohms = series_resistance(capacitance=Q(100, "uF"), dissipation=0.2, frequency=Q(120, "Hz"))
    >>> print(f"{ohms:.3f~P}")
    2.653 Ω
    """
    capacitance = need(capacitance, "F", "capacitance", above=0)
    frequency = need(frequency, "Hz", "frequency", above=0)
    return (share(dissipation, "dissipation") / (2 * np.pi * frequency * capacitance)).to("ohm")


def _time_constant(resistance, capacitance):
    resistance = need(resistance, "ohm", "resistance", above=0)
    return resistance * need(capacitance, "F", "capacitance", above=0)
