"""Preferred values: the resistors that a drawer holds."""

import numpy as np

from benchreckoner.units import Q, need

# IEC 60063, series E12, as a public page lists it. FOUND (second-hand).
E12 = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)


def nearest_preferred(*, resistance):
    r"""The E12 resistor whose value is nearest, by ratio.

    Parameters
    ----------
    resistance : Quantity [ohm], above zero

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
    ohms = float(need(resistance, "ohm", "resistance", above=0).m_as("ohm"))
    decade = 10.0 ** np.floor(np.log10(ohms))
    candidates = [value * scale for scale in (decade, 10 * decade) for value in E12]
    return Q(float(f"{min(candidates, key=lambda one: abs(np.log(one / ohms))):.2g}"), "ohm")
