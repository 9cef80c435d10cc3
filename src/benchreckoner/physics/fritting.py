"""Films that break: the ohms a voltage leaves behind in a contact with a film on it."""

import numpy as np

from benchreckoner.units import need


def fritted_resistance(*, source_voltage, series_resistance, filmed_resistance, clean_resistance,
                       breakdown_voltage, cessation_voltage):
    r"""Ohms of a filmed contact after a source was put across it.

    Parameters
    ----------
    source_voltage : Quantity [V], zero or more
        Of the meter or the circuit, with nothing drawn.
    series_resistance : Quantity [ohm], above zero
        What limits the current.
    filmed_resistance : Quantity [ohm], above zero
        Of the contact as it was found.
    clean_resistance : Quantity [ohm], above zero, up to `filmed_resistance`
        Of the same contact without its film.
    breakdown_voltage : Quantity [V], at least `cessation_voltage`
        Across the film when it breaks: about 0.1 V for each nanometre of film, MEMORY.
    cessation_voltage : Quantity [V], 0.2 V to 0.4 V
        Across the contact when the break stops widening.

    Returns
    -------
    Quantity [ohm]
        The filmed resistance, where the film holds.

    Raises
    ------
    ValueError
        If the cessation voltage lies where the rule is not known to hold, or above the breakdown.

    Notes
    -----
    .. math:: R = \frac{V_c R_s}{V_s - V_c}

    never less than the clean contact. The film breaks if its share of the source,
    :math:`V_s R / (R + R_s)`, reaches the breakdown voltage. The rule as it is taught asks less: only
    that the source itself reach it. The two agree where the film has far more ohms than the series
    resistor; where it has not, the source may be above the breakdown and the film, which gets only
    a share of it, holds.

    A rule for teaching, and it stops soon. A break is taken as one step; real films, silver sulphide
    among them, also widen old channels at fewer volts, drift, and mind the polarity. Each further
    try starts from what the last one left. No current or time too short to melt a bridge is known to
    the rule, nor a metal that melts below 0.2 V, as tin does. And a film so thin that electrons pass
    it at any voltage has nothing to break: it is ohms, as in `spots.film_resistance`.

    References
    ----------
    .. [1] After Holm, sections 26 and 27, formula F15; check value P22. PRACTICE.
    .. [2] Russ, IEEE Trans. PMP-6, 129, 1970, on silver sulphide, abstract. FOUND.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> ohms = fritted_resistance(source_voltage=Q(3, "V"), series_resistance=Q(1, "kohm"),
    ...     filmed_resistance=Q(10, "kohm"), clean_resistance=Q(20, "mohm"), breakdown_voltage=Q(1, "V"),
    ...     cessation_voltage=Q(0.3, "V"))
    >>> print(f"{ohms:.1f~P}")
    111.1 Ω
    """
    source_voltage = need(source_voltage, "V", "source_voltage", least=0)
    series_resistance = need(series_resistance, "ohm", "series_resistance", above=0)
    clean_resistance = need(clean_resistance, "ohm", "clean_resistance", above=0)
    filmed_resistance = need(filmed_resistance, "ohm", "filmed_resistance", above=0)
    cessation_voltage = need(cessation_voltage, "V", "cessation_voltage", least=0.2)
    breakdown_voltage = need(breakdown_voltage, "V", "breakdown_voltage", above=0)
    if not np.all(cessation_voltage.m_as("V") <= 0.4):
        raise ValueError(f"cessation_voltage: must be at most 0.4 V, got {cessation_voltage:~P}; contact metals soften "
                         "and melt from there on, write Q(0.3, 'V')")
    if not np.all(breakdown_voltage >= cessation_voltage):
        raise ValueError("breakdown_voltage: must be at least the cessation voltage, or the break would have no end; "
                         "write Q(1, 'V')")
    if not np.all(filmed_resistance >= clean_resistance):
        raise ValueError("filmed_resistance: must be at least the clean resistance; write Q(10, 'kohm')")
    breaks = source_voltage * filmed_resistance / (filmed_resistance + series_resistance) >= breakdown_voltage
    # Where the film holds, the source may lie below the cessation voltage: any value above it will do.
    source = np.where(breaks, source_voltage.m_as("V"), cessation_voltage.m_as("V") + 1)
    left = cessation_voltage.m_as("V") * series_resistance / (source - cessation_voltage.m_as("V"))
    return np.where(breaks, np.maximum(left, clean_resistance), filmed_resistance).to("ohm")
