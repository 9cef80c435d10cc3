"""Test some, decide the rest: what tested parts say of untested ones of the same make and age."""

from typing import NamedTuple

import numpy as np

from benchreckoner.physics.plain import count, share
from benchreckoner.units import Q, need

_MOST = 1000  # untested parts; the table of a longer lot would take too long at the bench


class NextStep(NamedTuple):
    """What to do next, and the cost to be expected from here with each of the three first moves."""

    step: str
    test: Q
    replace: Q
    leave: Q


def chance_next_is_bad(*, tested, bad, expected_share=0.5, weight=2.0):
    r"""Chance that the next untested part is bad.

    Parameters
    ----------
    tested, bad : int, zero or more
    expected_share : float, between 0 and 1
        The share of bad ones that was expected before anything was tested.
    weight : float, above zero
        How many tested parts that opinion is worth.

    Returns
    -------
    float

    Notes
    -----
    .. math:: p = \frac{k + w\,s}{m + w}

    With the share one half and the weight two, every share of bad ones counts as equally likely at first: the rule
    of succession. Holds for parts that are alike: one make, one age, one place in the circuit, picked without looking.

    References
    ----------
    .. [1] Rule of succession, (n + 1)/(n + 2) after n of n, as a public solution to a textbook example has it. FOUND
       (second-hand).

    Examples
    --------
    >>> print(f"{chance_next_is_bad(tested=5, bad=3):.3f}")
    0.571
    """
    on_bad, on_sound = _opinion(tested, bad, expected_share, weight)
    return on_bad / (on_bad + on_sound)


def chances_of_bad(*, tested, bad, untested, expected_share=0.5, weight=2.0):
    r"""Chance of each number of bad ones among the untested.

    Parameters
    ----------
    tested, bad, untested : int, zero or more
    expected_share, weight : float
        As for `chance_next_is_bad`.

    Returns
    -------
    array, shape (untested + 1,)
        Chance that none is bad, that one is, and so on.

    Notes
    -----
    Beta-binomial, with :math:`\alpha = k + w s` and :math:`\beta = m - k + w(1 - s)`:

    .. math:: P(j) = \binom{r}{j} \frac{B(j + \alpha,\, r - j + \beta)}{B(\alpha, \beta)}

    It is wider than a count with a known share, because the share is known only from those tested.

    References
    ----------
    .. [1] Beta-binomial distribution; check values lots-chances, RECOMPUTED as fractions, lots-families, MEMORY.

    Examples
    --------
    >>> print(f"{chances_of_bad(tested=5, bad=0, untested=12)[0]:.4f}")
    0.3333
    """
    # Only here, because scipy would make every import of the laws slower.
    from scipy.special import betaln

    on_bad, on_sound = _opinion(tested, bad, expected_share, weight)
    rest = count(untested, "untested")
    number = np.arange(rest + 1)
    ways = -np.log(rest + 1) - betaln(number + 1, rest - number + 1)
    return np.exp(ways + betaln(number + on_bad, rest - number + on_sound) - betaln(on_bad, on_sound))


def sample_chances(*, lot, bad_in_lot, tested):
    r"""Chance of each number of bad ones among those tested, if the lot holds so many.

    Parameters
    ----------
    lot, bad_in_lot, tested : int, zero or more
        Neither the bad ones nor the tested ones outnumber the lot.

    Returns
    -------
    array, shape (tested + 1,)

    Notes
    -----
    Hypergeometric, for parts picked without looking and not put back:

    .. math:: P(j) = \binom{b}{j}\binom{N - b}{m - j} \Big/ \binom{N}{m}

    References
    ----------
    .. [1] Hypergeometric distribution; check values lots-marbles and lots-balls, FOUND (second-hand).

    Examples
    --------
    >>> print(f"{sample_chances(lot=17, bad_in_lot=3, tested=5)[0]:.4f}")
    0.3235
    """
    from scipy.special import gammaln

    lot, bad_in_lot, tested = count(lot, "lot"), count(bad_in_lot, "bad_in_lot"), count(tested, "tested")
    for value, name in ((bad_in_lot, "bad_in_lot"), (tested, "tested")):
        if value > lot:
            raise ValueError(f"{name}: cannot be more than the lot of {lot}, got {value}")
    found = np.arange(tested + 1)
    possible = (found <= bad_in_lot) & (tested - found <= lot - bad_in_lot)

    def log_ways(whole, part):
        part = np.where(possible, part, 0)
        return gammaln(whole + 1) - gammaln(part + 1) - gammaln(whole - part + 1)

    ways = log_ways(bad_in_lot, found) + log_ways(lot - bad_in_lot, tested - found)
    return np.where(possible, np.exp(ways - _log_choose(lot, tested)), 0.0)


def bad_in_lot_limit(*, lot, tested, bad=0, confidence=0.95):
    """The most bad ones that a lot may hold without the test being an unlikely one.

    Parameters
    ----------
    lot, tested, bad : int, zero or more
    confidence : float, between 0 and 1

    Returns
    -------
    int
        Bad ones in the whole lot, those found included.

    Notes
    -----
    The largest number with which so few bad ones, or fewer, still have the chance 1 - confidence. No opinion goes in:
    it says what cannot be excluded, not what is likely. In a large lot without any bad one found it is three in
    the number tested, the rule of three.

    References
    ----------
    .. [1] Rule of three, as public pages tell it, FOUND (second-hand); `sample_chances` turned round.

    Examples
    --------
    >>> bad_in_lot_limit(lot=17, tested=5)
    6
    """
    lot, tested, bad = count(lot, "lot"), count(tested, "tested"), count(bad, "bad")
    doubt = 1 - share(confidence, "confidence")
    if bad > tested or tested > lot:
        raise ValueError(f"bad: write no more bad than tested and no more tested than the lot, got {bad} of {tested} of {lot}")

    def allows(number):
        return sample_chances(lot=lot, bad_in_lot=number, tested=tested)[:bad + 1].sum() >= doubt

    low, high = bad, lot - (tested - bad)  # the chance falls as the number rises, so halving finds the last one
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if allows(middle) else (low, middle - 1)
    return low


def work_cost(*, time, pad_risk=0.0, pad_time=Q(0, "min"), price_time=Q(0, "min")):
    r"""What one part costs in time, the price and the risk to the board turned into time.

    Parameters
    ----------
    time : Quantity [min], zero or more
        Hands on.
    pad_risk : float, between 0 and 1
        Chance of lifting a pad.
    pad_time : Quantity [min], zero or more
        To mend one.
    price_time : Quantity [min], zero or more
        The price, as the time it is worth.

    Returns
    -------
    Quantity [min]

    Notes
    -----
    .. math:: c = t + q\,t_\mathrm{pad} + t_\mathrm{price}

    References
    ----------
    .. [1] An expectation, by its definition; check value lots-work, RECOMPUTED by hand.

    Examples
    --------
    >>> print(work_cost(time=Q(4, "min"), pad_risk=0.01, pad_time=Q(30, "min")))
    4.3 minute
    """
    time, pad_time, price_time = (need(value, "min", name, least=0) for value, name in
                                  ((time, "time"), (pad_time, "pad_time"), (price_time, "price_time")))
    return (time + share(pad_risk, "pad_risk", ends=True) * pad_time + price_time).to("min")


def next_step(*, tested, bad, untested, test_cost, replace_cost, miss_cost, expected_share=0.5, weight=2.0):
    r"""Test the next one, replace the rest, or leave the rest: the cheapest to be expected.

    Parameters
    ----------
    tested, bad, untested : int, zero or more
    test_cost : Quantity [min], zero or more
        To test one part.
    replace_cost : Quantity [min], zero or more
        To replace one, its price included.
    miss_cost : Quantity [min], zero or more
        If one bad part stays in.
    expected_share, weight : float
        As for `chance_next_is_bad`.

    Returns
    -------
    NextStep
        ``step`` is ``"test"``, ``"replace"`` or ``"leave"``; the costs are those of all that is still untested.

    Notes
    -----
    Backwards from the last part: with r untested and the chance p of the next one,

    .. math:: V_r = \min\{ r\,c_R,\; r\,p\,c_M,\; c_T + p\,(c_R + V_{r-1}^{\mathrm{bad}})
       + (1 - p)\,V_{r-1}^{\mathrm{sound}} \}

    A test is taken as always right, and one bad part left in as no worse beside a second.

    References
    ----------
    .. [1] Dynamic programming on the rule of succession; check values lots-step, RECOMPUTED by hand.

    Examples
    --------
    >>> step = next_step(tested=5, bad=0, untested=12, test_cost=Q(4, "min"), replace_cost=Q(9, "min"),
    ...     miss_cost=Q(90, "min"))
    >>> step.step
    'test'
    """
    on_bad, on_sound = _opinion(tested, bad, expected_share, weight)
    rest = count(untested, "untested")
    if rest > _MOST:
        raise ValueError(f"untested: at most {_MOST} are reckoned, got {rest}")
    test, replace, miss = (float(need(value, "min", name, least=0).m_as("min")) for value, name in
                           ((test_cost, "test_cost"), (replace_cost, "replace_cost"), (miss_cost, "miss_cost")))
    cost = np.zeros(rest + 1)  # of what comes after, by how many of the further tests were bad
    moves = (0.0, 0.0, 0.0)
    for further in range(rest - 1, -1, -1):
        chance = (on_bad + np.arange(further + 1)) / (on_bad + on_sound + further)
        left = rest - further
        moves = (left * chance * miss, np.full(further + 1, left * replace),
                 test + chance * (replace + cost[1:further + 2]) + (1 - chance) * cost[:further + 1])
        cost = np.minimum.reduce(moves)
    leave, replaced, tested_next = (float(np.ravel(move)[0]) for move in moves)
    cheapest = min((leave, "leave"), (replaced, "replace"), (tested_next, "test"), key=lambda one: one[0])[1]
    return NextStep(cheapest, Q(tested_next, "min"), Q(replaced, "min"), Q(leave, "min"))


def _opinion(tested, bad, expected_share, weight):
    """How many bad and how many sound ones speak, the opinion beforehand included."""
    tested, bad = count(tested, "tested"), count(bad, "bad")
    if bad > tested:
        raise ValueError(f"bad: cannot be more than the {tested} tested, got {bad}")
    expected_share = share(expected_share, "expected_share")
    if isinstance(weight, bool) or not isinstance(weight, (int, float)):
        raise TypeError(f"weight: must be a plain number, got {weight!r}; write for example weight=2")
    if not 0 < weight < np.inf:
        raise ValueError(f"weight: must be above zero and finite, got {weight!r}; write for example weight=2")
    return bad + weight * expected_share, tested - bad + weight * (1 - expected_share)


def _log_choose(whole, part):
    from scipy.special import gammaln

    return gammaln(whole + 1) - gammaln(part + 1) - gammaln(whole - part + 1)
