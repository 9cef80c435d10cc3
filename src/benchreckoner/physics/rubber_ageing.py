"""What time and warmth take of a stretched belt: its pull fades, and its length grows."""

import numpy as np

from benchreckoner.physics.plain import number, share
from benchreckoner.physics.rubber import held_ratio
from benchreckoner.units import Q, need


def kept_share(*, time, loss_per_decade, first_time=Q(1, "min")):
    r"""Share of its pull that a belt at constant length still has.

    Parameters
    ----------
    time : Quantity [s]
        Since it was fitted, at least `first_time`.
    loss_per_decade : float or array, 0 to 1
        Lost with each tenfold of time: 0.02 to 0.03 gum rubber, 0.03 to 0.08 filled, 0.10 and more poor compounds.
    first_time : Quantity [s], above zero
        When the full pull is counted.

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        Before the first time, or where nothing would be left: the law has then long stopped holding.

    Notes
    -----
    .. math:: F(t)/F(t_1) = 1 - B \log_{10}(t / t_1)

    The physical loss, cool and shut away. Warmth, light and oil add a chemical loss that grows with time itself. This
    loss and the set that the belt shows when it comes off are one thing seen twice: never count both.

    References
    ----------
    .. [1] Gent (ed.), "Engineering with Rubber"; Freakley and Payne, "Theory and Practice of Engineering with Rubber".
       MEMORY.

    Examples
    --------
    >>> print(f"{kept_share(time=Q(10, 'year'), loss_per_decade=0.05):.3f}")
    0.664
    """
    first = need(first_time, "s", "first_time", above=0)
    time = need(time, "s", "time", least=first.magnitude)
    kept = 1 - share(loss_per_decade, "loss_per_decade", ends=True) * np.log10((time / first).m_as(""))
    if not np.all(kept > 0):
        raise ValueError(f"loss_per_decade: {loss_per_decade} over this time leaves nothing, and the law does not hold so far; "
                         "write loss_per_decade=0.05")
    return kept


def warmth_slope(*, temperature, stretch_ratio, expansion=Q(2.2e-4, "1/K")):
    r"""By what share a fitted belt's pull changes with each degree.

    Parameters
    ----------
    temperature : Quantity [degC or K]
    stretch_ratio : float or array, above 1, to 1.5
    expansion : Quantity [1/K], above zero
        Of the rubber, along one side.

    Returns
    -------
    Quantity [1/K]

    Raises
    ------
    ValueError
        For a ratio of 1 or less, or beyond 1.5.

    Notes
    -----
    .. math::
        \frac{d \ln F}{d T} = \frac1T - \alpha - \alpha \frac{\lambda + 2\lambda^{-2}}{\lambda - \lambda^{-2}}

    Warm rubber pulls harder, and grows longer; between 6 and 7 % of stretch the two cancel. Trust one digit: another
    account of the same molecules shifts it by 0.04 % a degree. The pulleys' own expansion is left out.

    References
    ----------
    .. [1] Ideal rubber with thermal expansion, derived. RECOMPUTED; the expansion MEMORY.

    Examples
    --------
    >>> slope = warmth_slope(temperature=Q(20, "degC"), stretch_ratio=1.05)
    >>> print(f"{100 * slope.m_as('1/K'):.2f} % a degree")
    -0.12 % a degree
    """
    warm = need(temperature, "K", "temperature", above=0).magnitude
    growth = need(expansion, "1/K", "expansion", above=0).magnitude
    ratio = held_ratio(stretch_ratio, "stretch_ratio")
    if not np.all(ratio > 1):
        raise ValueError(f"stretch_ratio: must be above 1, a slack belt has no pull to change, got {stretch_ratio!r}; write 1.05")
    return Q(1 / warm - growth - growth * (ratio + 2 * ratio**-2) / (ratio - ratio**-2), "1/K")


def length_after_set(*, free_length, stretch, set_share):
    r"""Free length of a belt that has stayed stretched for long.

    Parameters
    ----------
    free_length : Quantity [m], above zero
        When it was new.
    stretch : float or array, zero or more
        At which it was kept, as a share.
    set_share : float or array, 0 to 1
        How much of that stretch it keeps.

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: L_0' = L_0 (1 + s\,\varepsilon)

    References
    ----------
    .. [1] Tension set after ISO 2285. MEMORY.

    Examples
    --------
    >>> longer = length_after_set(free_length=Q(220, "mm"), stretch=0.05, set_share=0.4)
    >>> print(f"{longer.to('mm'):.1f~P}")
    224.4 mm
    """
    free = need(free_length, "m", "free_length", above=0)
    stretch = number(stretch, "stretch", least=0, example=0.05)
    return (free * (1 + share(set_share, "set_share", ends=True) * stretch)).to("m")
