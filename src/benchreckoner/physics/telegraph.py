"""A voltage that jumps at random between two values: how large its noise is, and where."""

import numpy as np

from benchreckoner.units import Q, need


def variance(*, step, mean_up, mean_down):
    r"""Variance of a voltage that jumps at random between two values.

    Parameters
    ----------
    step : Quantity [V]
        Between the two values.
    mean_up, mean_down : Quantity [s], above zero
        How long it stays, on average, in each.

    Returns
    -------
    Quantity [V²]

    Notes
    -----
    .. math:: \sigma^2 = \Delta V^2 \frac{t_0 t_1}{(t_0 + t_1)^2}

    Holds where each jump comes at random, whatever went before.

    References
    ----------
    .. [1] Machlup, J. Appl. Phys. 25, 341 (1954), formula F24, MEMORY; check value P23, RECOMPUTED from it.

    Examples
    --------
    >>> print(f"{variance(step=Q(1, 'V'), mean_up=Q(1, 's'), mean_down=Q(1, 's')):~P}")
    0.25 V²
    """
    step, mean_up, mean_down = _jumps(step, mean_up, mean_down)
    return (step**2 * mean_up * mean_down / (mean_up + mean_down) ** 2).to("V**2")


def corner_frequency(*, mean_up, mean_down):
    r"""Frequency above which a random jumper's noise falls off.

    Parameters
    ----------
    mean_up, mean_down : Quantity [s], above zero
        How long it stays, on average, in each state.

    Returns
    -------
    Quantity [Hz]

    Notes
    -----
    .. math:: f_c = \frac{1}{2\pi}\left(\frac{1}{t_0} + \frac{1}{t_1}\right)

    There the density is half of what it is at low frequencies. The shorter stay decides.

    References
    ----------
    .. [1] Machlup, J. Appl. Phys. 25, 341 (1954), formula F24, MEMORY; check value P23, RECOMPUTED from it.

    Examples
    --------
    >>> print(f"{corner_frequency(mean_up=Q(0.1, 's'), mean_down=Q(0.01, 's')):.1f~P}")
    17.5 Hz
    """
    _, mean_up, mean_down = _jumps(Q(1, "V"), mean_up, mean_down)
    return Q(((1 / mean_up + 1 / mean_down) / (2 * np.pi)).m_as("1/s"), "Hz")


def spectrum(*, step, mean_up, mean_down, frequency):
    r"""One-sided power density of a voltage that jumps at random between two values.

    Parameters
    ----------
    step : Quantity [V]
    mean_up, mean_down : Quantity [s], above zero
    frequency : Quantity [Hz], zero or more, any shape

    Returns
    -------
    Quantity [V²/Hz]

    Notes
    -----
    .. math:: S(f) = \frac{4\,\Delta V^2}{(t_0+t_1)\left[(1/t_0+1/t_1)^2+(2\pi f)^2\right]}

    Flat below the corner, then a quarter for each doubling of f. Many such spots with different stays add up to
    something near 1/f. Sampled at a rate of its own, a signal shows a little more near half that rate.

    References
    ----------
    .. [1] Machlup, J. Appl. Phys. 25, 341 (1954), formula F24, MEMORY; check value P23, RECOMPUTED from it.

    Examples
    --------
    >>> density = spectrum(step=Q(1, "V"), mean_up=Q(0.1, "s"), mean_down=Q(0.01, "s"), frequency=Q(0, "Hz"))
    >>> print(f"{density.m_as('V**2/Hz'):.6f}")
    0.003005
    """
    step, mean_up, mean_down = _jumps(step, mean_up, mean_down)
    turn = Q(2 * np.pi * need(frequency, "Hz", "frequency", least=0).m_as("Hz"), "1/s")
    density = 4 * step**2 / ((mean_up + mean_down) * ((1 / mean_up + 1 / mean_down) ** 2 + turn**2))
    return Q(density.m_as("V**2*s"), "V**2/Hz")


def _jumps(step, mean_up, mean_down):
    return need(step, "V", "step"), need(mean_up, "s", "mean_up", above=0), need(mean_down, "s", "mean_down", above=0)
