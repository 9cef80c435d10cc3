"""Odds: what one reading does to two explanations that say different things about it."""

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.units import need


def odds_after(*, reading, first, second, spread, before=1.0):
    r"""Odds of one explanation over another, once a current has been read.

    Parameters
    ----------
    reading : Quantity [A]
    first, second : Quantity [A]
        What each explanation says the reading should be.
    spread : Quantity [A], above zero
        Standard uncertainty of the reading and of what the explanations say, together; the same for both.
    before : float, above zero
        Odds of the first over the second before the reading.

    Returns
    -------
    float

    Notes
    -----
    .. math:: \frac{p_1}{p_2} \cdot \exp\frac{(x - m_2)^2 - (x - m_1)^2}{2 u^2}

    Holds for a normally distributed reading. Only what tells the two apart counts: a reading half-way between them changes
    nothing, however fine it is.

    References
    ----------
    .. [1] Bayes' rule with two normal densities; their ratio from scipy is the second route. RECOMPUTED.

    Examples
    --------
    >>> from benchreckoner.units import Q
    >>> print(f"{odds_after(reading=Q(3.7, 'mA'), first=Q(3, 'mA'), second=Q(5, 'mA'), spread=Q(0.8, 'mA')):.2f}")
    2.55
    """
    read, one, other = (need(value, "A", name).magnitude for value, name in ((reading, "reading"), (first, "first"), (second, "second")))
    spread = need(spread, "A", "spread", above=0).magnitude
    prior = number(before, "before", above=0, example=1.0)
    return prior * np.exp(((read - other) ** 2 - (read - one) ** 2) / (2 * spread**2))
