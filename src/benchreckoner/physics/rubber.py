"""Rubber under pull: from hardness to stiffness, from stretch to tension, and what time and warmth take away."""

import numpy as np

from benchreckoner.physics.plain import number, share
from benchreckoner.units import Q, need

GREATEST_RATIO = 1.5  # beyond it the tension law reads more than a tenth high, and soon far more
FORMS = ("Gent", "error function", "IRHD")
_SOFTEST, _HARDEST = 20, 80


def modulus_from_hardness(*, hardness, form="Gent"):
    r"""Young's modulus of rubber, from its hardness.

    Parameters
    ----------
    hardness : float or array, 20 to 80
        Shore A, or IRHD, which is nearly the same there.
    form : str
        ``"Gent"``, ``"error function"`` or ``"IRHD"``.

    Returns
    -------
    Quantity [Pa]

    Raises
    ------
    ValueError
        Outside 20 to 80, where the forms part and the first is wrong; for an unknown form.

    Notes
    -----
    .. math::
        E = \frac{0.0981\,(56 + 7.62336\,S)}{0.137505\,(254 - 2.54\,S)}\,\mathrm{MPa}, \qquad
        S = 100\,\mathrm{erf}(3.186 \cdot 10^{-4} \sqrt{E/\mathrm{Pa}}), \qquad
        S = 100\,\Phi\!\left(\frac{\log_{10}(E/\mathrm{MPa}) - 0.364}{0.7}\right)

    Compounds of one hardness differ by 30 % either way (FOUND), so this is never one number. The durometer needs about 6 mm
    of rubber: a belt cannot be read directly. Hang weights on it instead.

    References
    ----------
    .. [1] A. N. Gent, Trans. Inst. Rubber Ind. 34 (1958) 46: the paper MEMORY; the form with 7.62336 and a table of G in
       a stored repository, FOUND.
    .. [2] The error function form, in a second stored repository. FOUND.
    .. [3] The IRHD curve, from the midpoint and slope in ISO 48. MEMORY.

    Examples
    --------
    >>> print(f"{modulus_from_hardness(hardness=60).to('MPa'):.3f~P}")
    3.605 MPa
    """
    from scipy.special import erfinv, ndtri

    hardness = number(hardness, "hardness", least=_SOFTEST, example=60)
    if not np.all(hardness <= _HARDEST):
        raise ValueError(f"hardness: must be at most {_HARDEST}, where the forms still hold, got {hardness}; write hardness=60")
    if form == "Gent":
        return Q(0.0981e6 * (56 + 7.62336 * hardness) / (0.137505 * (254 - 2.54 * hardness)), "Pa")
    if form == "error function":
        return Q((erfinv(hardness / 100) / 3.186e-4) ** 2, "Pa")
    if form == "IRHD":
        return Q(1e6 * 10 ** (0.364 + 0.7 * ndtri(hardness / 100)), "Pa")
    raise ValueError(f"form: must be one of {', '.join(FORMS)}, got {form!r}; write form=\"Gent\"")


def neo_hookean_tension(*, area, modulus, stretch_ratio):
    r"""Pull of stretched rubber.

    Parameters
    ----------
    area : Quantity [m**2], above zero
        Of the cut through the free belt.
    modulus : Quantity [Pa], above zero
        Young's modulus at small stretch.
    stretch_ratio : float or array, 1 to 1.5
        Length by free length: 1.05 for 5 % of stretch.

    Returns
    -------
    Quantity [N]

    Raises
    ------
    ValueError
        Below 1, where the belt is longer than its path, and beyond 1.5, where the law stops holding.

    Notes
    -----
    .. math:: F = A_0 \frac{E}{3} \left(\lambda - \lambda^{-2}\right)

    Within 3 % of gum rubber at ratios of 1.125 and 1.24, 7 % high at 1.39, 13 % at 1.585; at 1.02 a tenth low, where the
    data are coarse. A filled rubber is softer from its second stretch on: stretch it a few times first.

    References
    ----------
    .. [1] L. R. G. Treloar, "The Physics of Rubber Elasticity". MEMORY.
    .. [2] L. R. G. Treloar, Trans. Faraday Soc. 40 (1944) 59, data in an open library's tests. FOUND.

    Examples
    --------
    >>> pull = neo_hookean_tension(area=Q(1.44, "mm**2"), modulus=Q(3.60507, "MPa"), stretch_ratio=1.05)
    >>> print(f"{pull:.4f~P}")
    0.2474 N
    """
    area, modulus = need(area, "m**2", "area", above=0), need(modulus, "Pa", "modulus", above=0)
    ratio = held_ratio(stretch_ratio, "stretch_ratio")
    return (area * modulus / 3 * (ratio - ratio**-2)).to("N")


def linear_tension(*, area, modulus, stretch_ratio):
    r"""Pull of stretched rubber, were it a steel spring: for comparison.

    Parameters
    ----------
    area : Quantity [m**2], above zero
    modulus : Quantity [Pa], above zero
    stretch_ratio : float or array, 1 to 1.5

    Returns
    -------
    Quantity [N]

    Raises
    ------
    ValueError
        As `neo_hookean_tension`.

    Notes
    -----
    .. math:: F = E A_0 (\lambda - 1)

    5 % high at 5 % of stretch, 10 % high at 10 %: rubber gets thinner as it stretches.

    References
    ----------
    .. [1] Hooke's law. RECOMPUTED, check value C32.

    Examples
    --------
    >>> pull = linear_tension(area=Q(1.44, "mm**2"), modulus=Q(3.60507, "MPa"), stretch_ratio=1.05)
    >>> print(f"{pull:.4f~P}")
    0.2596 N
    """
    area, modulus = need(area, "m**2", "area", above=0), need(modulus, "Pa", "modulus", above=0)
    return (area * modulus * (held_ratio(stretch_ratio, "stretch_ratio") - 1)).to("N")


def ratio_of_tension(*, tension, area, modulus):
    r"""Stretch ratio of rubber under a known pull.

    Parameters
    ----------
    tension : Quantity [N], zero or more
    area : Quantity [m**2], above zero
    modulus : Quantity [Pa], above zero

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        If the pull stretches it beyond 1.5 times its length, where the law stops holding.

    Notes
    -----
    The one real root of :math:`\lambda^3 - f \lambda^2 - 1 = 0`, with :math:`f = 3F/(E A_0)`: with
    :math:`\lambda = 1/u` it is :math:`u^3 + f u - 1 = 0`, solved by Cardano's formula.

    References
    ----------
    .. [1] `neo_hookean_tension` turned round. RECOMPUTED.

    Examples
    --------
    >>> ratio = ratio_of_tension(tension=Q(0.2474, "N"), area=Q(1.44, "mm**2"), modulus=Q(3.60507, "MPa"))
    >>> print(f"{ratio:.4f}")
    1.0500
    """
    tension = need(tension, "N", "tension", least=0)
    area, modulus = need(area, "m**2", "area", above=0), need(modulus, "Pa", "modulus", above=0)
    third = (tension / (area * modulus)).m_as("")  # f / 3
    root = np.sqrt(0.25 + third**3)
    # Written as a quotient: the plain difference of the two cube roots loses digits for a strong pull.
    one, other = np.cbrt(root + 0.5), np.cbrt(root - 0.5)
    ratio = one**2 + one * other + other**2
    if not np.all(ratio <= GREATEST_RATIO):
        raise ValueError(f"tension: {tension:.4g~P} stretches the belt to {np.max(ratio):.3g} times its length, beyond "
                         f"{GREATEST_RATIO}, where this law stops holding; write Q(0.25, 'N'), or a larger area")
    return ratio


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


def held_ratio(value, name):
    """A stretch ratio for which the tension law holds, checked."""
    ratio = number(value, name, example=1.05)
    if not np.all(ratio >= 1):
        raise ValueError(f"{name}: must be at least 1, got {value!r}: the belt is longer than its path and hangs slack; was a "
                         "circumference taken for a diameter, or one seller's length for another's? Write for example 1.05")
    if not np.all(ratio <= GREATEST_RATIO):
        raise ValueError(f"{name}: must be at most {GREATEST_RATIO}, where this law stops holding, got {value!r}; was an inside "
                         "diameter taken for a circumference? Write for example 1.05")
    return ratio
