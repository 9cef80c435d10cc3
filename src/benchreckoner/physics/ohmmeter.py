"""What a meter shows for a few milliohms: leads, probes and thermal volts."""

from benchreckoner.units import Q, need


def two_wire_reading(*, resistance, lead_resistance, probe_resistance=Q(0, "ohm")):
    r"""What an ohmmeter shows when its two leads carry the current and sense the volts.

    Parameters
    ----------
    resistance : Quantity [ohm], zero or more
        The link itself.
    lead_resistance : Quantity [ohm], zero or more
        One test lead.
    probe_resistance : Quantity [ohm], zero or more
        Where one probe tip touches.

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R_{shown} = R + 2 R_{lead} + 2 R_{probe}

    References
    ----------
    .. [1] Series circuit, formula F16; check value K1, RECOMPUTED.

    Examples
    --------
    >>> shown = two_wire_reading(resistance=Q(20, "mohm"), lead_resistance=Q(0.1, "ohm"))
    >>> print(f"{shown:.2f~P}")
    0.22 Ω
    """
    resistance = need(resistance, "ohm", "resistance", least=0)
    lead_resistance = need(lead_resistance, "ohm", "lead_resistance", least=0)
    probe_resistance = need(probe_resistance, "ohm", "probe_resistance", least=0)
    return (resistance + 2 * lead_resistance + 2 * probe_resistance).to("ohm")


def thermal_resistance_error(*, sensitivity, temperature_difference, current):
    r"""Ohms that a thermal voltage adds to a four-wire reading, or takes from it.

    Parameters
    ----------
    sensitivity : Quantity [V/K]
        Of the pair of metals; copper with brass about 3 microvolts a kelvin.
    temperature_difference : Quantity [delta_degC]
        Between the two joints of unlike metals.
    current : Quantity [A], above zero

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: \Delta R = S \, \Delta T / I

    References
    ----------
    .. [1] Formula F17; check value K3, RECOMPUTED.
    .. [2] Kidd, "Watch out for those thermoelectric voltages", Table 1. FOUND.

    Examples
    --------
    >>> error = thermal_resistance_error(sensitivity=Q(3, "uV/K"),
    ...     temperature_difference=Q(10, "delta_degC"), current=Q(100, "mA"))
    >>> print(f"{error.to('mohm'):.2f~P}")
    0.30 mΩ
    """
    sensitivity = need(sensitivity, "V/K", "sensitivity")
    temperature_difference = need(temperature_difference, "delta_degC", "temperature_difference")
    current = need(current, "A", "current", above=0)
    return (sensitivity * temperature_difference / current).to("ohm")


def reversed_contact_resistance(*, forward_drop, backward_drop, current):
    r"""Resistance from two readings with the current turned round between them.

    Parameters
    ----------
    forward_drop, backward_drop : Quantity [V]
        Read with the meter's leads left where they are, so the second one
        comes out negative.
    current : Quantity [A], above zero
        The same both times.

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = (V_+ - V_-) / (2 I)

    A thermal voltage does not turn round with the current and drops out.

    References
    ----------
    .. [1] Formula F17; check value K3, RECOMPUTED.

    Examples
    --------
    >>> ohms = reversed_contact_resistance(forward_drop=Q(2.03, "mV"),
    ...     backward_drop=Q(-1.97, "mV"), current=Q(100, "mA"))
    >>> print(f"{ohms.to('mohm'):.1f~P}")
    20.0 mΩ
    """
    forward_drop = need(forward_drop, "V", "forward_drop")
    backward_drop = need(backward_drop, "V", "backward_drop")
    current = need(current, "A", "current", above=0)
    return ((forward_drop - backward_drop) / (2 * current)).to("ohm")
