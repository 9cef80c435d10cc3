"""Preferred values: the resistors that a drawer holds."""

import numpy as np

from benchreckoner.units import Q, need

# IEC 60063, series E12, as a public page lists it. FOUND (second-hand).
E12 = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
_LEAST, _MOST = 1e-6, 1e9  # ohm
_SERIES = np.array([float(f"{value}e{power}") for power in range(-7, 11) for value in E12])
_SAME = 1e-9  # a value this near to a step, by ratio, is that step


def nearest_preferred(*, resistance):
    r"""The E12 resistor whose value is nearest, by ratio.

    Parameters
    ----------
    resistance : Quantity [ohm], 1 microohm to 1 gigaohm

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    Nearest by ratio, not by difference: 10 % too much and 10 % too little count alike.

    References
    ----------
    .. [1] IEC 60063, series E12; check value C52, FOUND (second-hand).

    Examples
    --------
    >>> print(nearest_preferred(resistance=Q(4.3, "ohm")))
    4.7 ohm
    """
    below, above = preferred_neighbours(resistance=resistance)
    return np.where(resistance / below <= above / resistance, below.m_as("ohm"), above.m_as("ohm"))[()] * below.units


def preferred_neighbours(*, resistance):
    r"""The two E12 resistors between which a value lies.

    Parameters
    ----------
    resistance : Quantity [ohm], 1 microohm to 1 gigaohm

    Returns
    -------
    below, above : Quantity [ohm]
        Both the same where the value is one of the series.

    Raises
    ------
    ValueError
        If the value lies outside what resistors are made for.

    References
    ----------
    .. [1] IEC 60063, series E12; check value C52, FOUND (second-hand).

    Examples
    --------
    >>> below, above = preferred_neighbours(resistance=Q(4.3, "ohm"))
    >>> print(f"{below}, {above}")
    3.9 ohm, 4.7 ohm
    """
    ohms = need(resistance, "ohm", "resistance", least=_LEAST).m_as("ohm")
    if np.any(ohms > _MOST):
        raise ValueError(f"resistance: {resistance:~P} is more than any resistor has; write for example 4.7 Mohm")
    below = _SERIES[np.searchsorted(_SERIES, ohms * (1 + _SAME), side="right") - 1]
    above = _SERIES[np.searchsorted(_SERIES, ohms * (1 - _SAME), side="left")]
    return Q(below, "ohm"), Q(above, "ohm")
