"""Levels: a ratio of two voltages in decibels, and back."""

import numpy as np

from benchreckoner.units import Q, need


def decibels(*, ratio):
    r"""A ratio of two voltages in decibels.

    Parameters
    ----------
    ratio : float or array, above zero
        The one voltage divided by the other.

    Returns
    -------
    Quantity [dB]
        Negative where the ratio is below one.

    Raises
    ------
    ValueError
        If the ratio is not above zero.

    Notes
    -----
    .. math:: L = 20 \log_{10} r

    Power goes with the square of the voltage in one and the same load, so
    the same decibels are ten times the logarithm of the power ratio.

    References
    ----------
    .. [1] Definition of the decibel; check values RECOMPUTED.

    Examples
    --------
    >>> print(f"{decibels(ratio=0.5):.2f~P}")
    -6.02 dB
    """
    ratio = np.asarray(ratio, dtype=float)
    if not np.all(np.isfinite(ratio)) or not np.all(ratio > 0):
        raise ValueError(f"ratio: must be above zero, got {ratio}; write ratio=0.5")
    return Q(20 * np.log10(ratio)[()], "dB")


def voltage_ratio(*, level):
    r"""The ratio of two voltages behind a number of decibels.

    Parameters
    ----------
    level : Quantity [dB]

    Returns
    -------
    float or array

    Notes
    -----
    .. math:: r = 10^{L/20}

    References
    ----------
    .. [1] Definition of the decibel, turned round.

    Examples
    --------
    >>> print(f"{voltage_ratio(level=Q(-20, 'dB')):.2f}")
    0.10
    """
    return 10 ** (need(level, "dB", "level").m_as("dB") / 20)


def chain_level(*, levels):
    r"""What gains and losses one behind the other make together.

    Parameters
    ----------
    levels : Quantity [dB], shape (n,)
        A gain is above zero, a loss below.

    Returns
    -------
    Quantity [dB]

    Notes
    -----
    .. math:: L = \sum L_i

    Ratios one behind the other multiply, so their decibels add. This is not
    the level of two sounds heard at once.

    References
    ----------
    .. [1] Logarithm of a product.

    Examples
    --------
    >>> print(f"{chain_level(levels=Q([40, -6, -3], 'dB')):.1f~P}")
    31.0 dB
    """
    return Q(np.atleast_1d(need(levels, "dB", "levels").m_as("dB")).sum(), "dB")
