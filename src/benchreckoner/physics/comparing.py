"""Two readings of one thing: how sure their difference is."""

import numpy as np

from benchreckoner.units import Q, need


def change_uncertainty(*, before, after):
    r"""Uncertainty of the change between two readings that share nothing.

    Parameters
    ----------
    before, after : Quantity, zero or more
        Uncertainties of the two readings, both standard or both expanded, in units of one kind;
        a temperature's in ``delta_degC``.

    Returns
    -------
    Quantity
        Of the same sort, in the unit of `before`.

    Raises
    ------
    TypeError
        If one is a bare number.
    ValueError
        If one is below zero, not finite, or of another kind than the other.

    Notes
    -----
    .. math:: U = \sqrt{U_b^2 + U_a^2}

    Holds for readings that share no error. A meter's own percentage is shared by two readings on one range: then
    the change is surer than this where the two readings are alike, and the bench sheet reckons with that.

    References
    ----------
    .. [1] JCGM 100, 5.1.2, variances of independent values added. MEMORY.

    Examples
    --------
    >>> print(change_uncertainty(before=Q(3, "mohm"), after=Q(4, "mohm")))
    5.0 milliohm
    """
    unit = f"{before.units}" if isinstance(before, Q) else "ohm"
    before = need(before, unit, "before", least=0)
    after = need(after, unit, "after", least=0)
    return Q(np.hypot(before.m_as(unit), after.m_as(unit)), unit)
