"""A belt's length found at the bench: folded flat, by a thread round the path, or from the belt that ran there before."""

import numpy as np

from benchreckoner.physics.plain import number
from benchreckoner.units import Q, need

_ONCE_ROUND = Q(2 * np.pi, "rad")


def folded_circumference(*, folded_length, thickness, fold_radius=Q(0, "mm")):
    r"""Inside circumference of a belt pressed flat and measured over the outside of its two folds.

    Parameters
    ----------
    folded_length : Quantity [m], above zero
        From tip to tip, outside.
    thickness : Quantity [m], above zero
        Of the belt.
    fold_radius : Quantity [m], zero or more
        Inside the folds, if they bulge; zero for folds pressed tight.

    Returns
    -------
    Quantity [m]

    Raises
    ------
    ValueError
        If the folds would be longer than the whole.

    Notes
    -----
    .. math:: C_i = 2 l - 4 t + (2\pi - 4) q

    Twice the folded length is too long by up to four thicknesses, several per cent of a small belt.

    References
    ----------
    .. [1] Two straight legs and two half circles. RECOMPUTED.

    Examples
    --------
    >>> round_it = folded_circumference(folded_length=Q(110.5, "mm"), thickness=Q(1.2, "mm"))
    >>> print(f"{round_it.to('mm'):.1f~P}")
    216.2 mm
    """
    length = need(folded_length, "m", "folded_length", above=0)
    thick = need(thickness, "m", "thickness", above=0)
    bulge = need(fold_radius, "m", "fold_radius", least=0)
    if not np.all(length >= 2 * thick + 2 * bulge):
        raise ValueError(f"folded_length: {length.to('mm'):.4g~P} is shorter than its own folds; write Q(110, 'mm')")
    return (2 * length - 4 * thick + (2 * np.pi - 4) * bulge).to("m")


def length_from_thread(*, thread_length, thread_thickness, neutral_height, total_wrap=_ONCE_ROUND):
    r"""Path of a belt from a thread that was laid in the seats and pulled taut.

    Parameters
    ----------
    thread_length : Quantity [m], above zero
        Once round, from mark to mark.
    thread_thickness : Quantity [m], zero or more
        Its middle lies half of this above the seats.
    neutral_height : Quantity [m], zero or more
        Of the belt.
    total_wrap : Quantity [rad], at least a full turn
        Of all wraps together: a full turn for two open pulleys, more where the belt crosses or bends back.

    Returns
    -------
    Quantity [m]

    Notes
    -----
    .. math:: L = l - \Theta \frac{t}{2} + \Theta y

    Exact where all pulleys turn one way; with a crossed belt or an idler at its back it leaves out squares of the thickness.
    The thread must not stretch, and must touch every pulley that the belt touches.

    References
    ----------
    .. [1] A line moved outwards by a height grows by height times angle. RECOMPUTED, check value C22.

    Examples
    --------
    >>> path = length_from_thread(thread_length=Q(228.2, "mm"), thread_thickness=Q(0.3, "mm"), neutral_height=Q(0.6, "mm"))
    >>> print(f"{path.to('mm'):.2f~P}")
    231.03 mm
    """
    thread = need(thread_length, "m", "thread_length", above=0)
    thick = need(thread_thickness, "m", "thread_thickness", least=0)
    height = need(neutral_height, "m", "neutral_height", least=0)
    wrap = need(total_wrap, "rad", "total_wrap", least=2 * np.pi * (1 - 1e-9)).magnitude
    return (thread + wrap * (height - thick / 2)).to("m")


def path_from_old_belt(*, old_length, stretch, set_share):
    r"""Path of a belt from the old belt as it lies on the bench, which has kept some of its stretch.

    Parameters
    ----------
    old_length : Quantity [m], above zero
        Along its neutral line, free, some hours after it came off.
    stretch : float or array, zero or more
        That it had when it was new, as a share.
    set_share : float or array, from zero to one
        How much of that stretch it has kept: 0 for none, 1 for all.

    Returns
    -------
    Quantity [m]

    Raises
    ------
    ValueError
        For a set outside zero to one.

    Notes
    -----
    .. math:: L = L_r \frac{1 + \varepsilon}{1 + s\,\varepsilon}

    Both the stretch it had and the set it has taken are guesses. The error of the set goes into the length as stretch times
    that error: 5 % and a set known to 0.3 are 1.5 % of length, a third of the whole stretch. Lay a thread as well.

    References
    ----------
    .. [1] Tension set after ISO 2285. MEMORY. The sum itself RECOMPUTED.

    Examples
    --------
    >>> path = path_from_old_belt(old_length=Q(225.5, "mm"), stretch=0.05, set_share=0.5)
    >>> print(f"{path.to('mm'):.1f~P}")
    231.0 mm
    """
    old = need(old_length, "m", "old_length", above=0)
    stretch = number(stretch, "stretch", least=0, example=0.05)
    kept = number(set_share, "set_share", least=0, example=0.5)
    if not np.all(kept <= 1):
        raise ValueError(f"set_share: a belt cannot keep more than all of its stretch, got {set_share!r}; write set_share=0.5")
    return (old * (1 + stretch) / (1 + kept * stretch)).to("m")
