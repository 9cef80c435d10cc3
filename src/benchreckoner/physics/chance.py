"""Chance: what tries without a fault prove, and how many hits chance alone gives."""

import math

import numpy as np

from benchreckoner.physics.plain import count, share


def failure_rate_limit(*, clean, faults=0, confidence=0.95):
    r"""Highest failure rate that these tries still allow.

    Parameters
    ----------
    clean, faults : int, zero or more
        Tries without and with the fault.
    confidence : float, between 0 and 1
        How often such a limit holds.

    Returns
    -------
    float
        Faults a try, 1 if nothing was tried.

    Notes
    -----
    The rate *p* at which so few faults in n tries would have the chance
    1 - confidence:

    .. math:: \sum_{i=0}^{k} \binom{n}{i} p^i (1-p)^{n-i} = 1 - c,
       \qquad p = 1 - (1 - c)^{1/n} \text{ for } k = 0

    For equal tries that know nothing of each other, and a number of tries
    settled before they began. One-sided.

    References
    ----------
    .. [1] Exact binomial limit (Clopper and Pearson), MEMORY; check values
       chance-limit, RECOMPUTED from the sum.

    Examples
    --------
    >>> print(f"{failure_rate_limit(clean=10):.4f}")
    0.2589
    """
    clean, faults = count(clean, "clean"), count(faults, "faults")
    doubt = 1 - share(confidence, "confidence")
    if clean == 0:
        return 1.0
    if faults == 0:
        return 1 - doubt ** (1 / clean)
    # Only here, because scipy would make every import of the laws slower.
    from scipy.special import betaincinv

    return float(betaincinv(faults + 1, clean, 1 - doubt))


def clean_tries_needed(*, rate, confidence=0.95):
    r"""Tries without any fault that bring the highest failure rate down to this one.

    Parameters
    ----------
    rate : float, between 0 and 1
        Faults a try.
    confidence : float, between 0 and 1

    Returns
    -------
    int

    Notes
    -----
    .. math:: n = \left\lceil \frac{\ln(1 - c)}{\ln(1 - p)} \right\rceil

    References
    ----------
    .. [1] `failure_rate_limit` turned round; check value chance-needed, RECOMPUTED.

    Examples
    --------
    >>> clean_tries_needed(rate=0.1)
    29
    """
    exact = math.log(1 - share(confidence, "confidence")) / math.log(1 - share(rate, "rate"))
    return max(1, math.ceil(exact - 1e-9))


def chance_misled_by_peeking(*, rate, tries, confidence=0.95):
    """How often the limit slips below the true rate at some try, if it is looked at after every one.

    Parameters
    ----------
    rate : float, between 0 and 1
        The part's true failure rate.
    tries : int, zero or more
        At most so many.
    confidence : float, between 0 and 1

    Returns
    -------
    array, shape (tries,)
        Chance that it has done so by the first try, the second, and so on.

    Notes
    -----
    Exact: the chances of every number of faults are carried from try to try,
    and those that are once misled are taken out. The limit of
    `failure_rate_limit` lies below the rate where so few faults have a chance
    below 1 - confidence: looked at once only, it misleads no oftener than that.

    References
    ----------
    .. [1] The binomial sum; check value chance-peeking, RECOMPUTED by hand.

    Examples
    --------
    >>> print(f"{chance_misled_by_peeking(rate=0.1, tries=100)[-1]:.3f}")
    0.115
    """
    rate, tries = share(rate, "rate"), count(tries, "tries")
    doubt = 1 - share(confidence, "confidence")
    counted = honest = np.array([1.0])  # chances by number of faults: of all, and of those never misled so far
    first = np.zeros(tries)
    for number in range(tries):
        counted, honest = (np.append(chances * (1 - rate), 0) + np.append(0, chances * rate) for chances in (counted, honest))
        misled = np.cumsum(counted) <= doubt
        first[number] = honest[misled].sum()
        honest = np.where(misled, 0, honest)
    return np.cumsum(first)


def chance_of_at_most(*, hits, rates):
    r"""Chance that no more than so many tries succeed, each at a rate of its own.

    Parameters
    ----------
    hits : int, zero or more
    rates : array of float, each from 0 to 1
        How likely each try succeeds: a range of ten that nine should hold has 0.9, a choice at 60 % has 0.6.

    Returns
    -------
    float

    Notes
    -----
    The chances of every number of hits are carried from try to try:

    .. math:: P_{n}(k) = (1 - p_n)\, P_{n-1}(k) + p_n\, P_{n-1}(k-1)

    For tries that know nothing of each other. Two questions on one thing are hit or missed together more often than this says.

    References
    ----------
    .. [1] The binomial sum where all rates are alike; held against another library, and by listing every way. RECOMPUTED.

    Examples
    --------
    >>> print(f"{chance_of_at_most(hits=6, rates=[0.9] * 10):.4f}")
    0.0128
    """
    hits, rates = count(hits, "hits"), share(rates, "rates", ends=True)
    chances = np.array([1.0])
    for rate in np.atleast_1d(rates):
        chances = np.append(chances * (1 - rate), 0) + np.append(0, chances * rate)
    return min(1.0, float(chances[:hits + 1].sum()))
