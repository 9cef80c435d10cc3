"""Chance: what tries without a fault prove about a fault that comes and goes."""

import math
from typing import NamedTuple

CURED, FAULTY, GO_ON = "cured", "not cured", "go on"


class Boundaries(NamedTuple):
    """Two lines of faults against tries: cured below ``slope * tries - cured``, not cured above ``slope * tries + faulty``."""

    slope: float
    cured: float
    faulty: float


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
    clean, faults = _count(clean, "clean"), _count(faults, "faults")
    doubt = 1 - _share(confidence, "confidence")
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
    exact = math.log(1 - _share(confidence, "confidence")) / math.log(1 - _share(rate, "rate"))
    return max(1, math.ceil(exact - 1e-9))


def sequential_boundaries(*, good_rate, bad_rate, alarm_risk, miss_risk):
    r"""Wald's two lines: at how many faults in how many tries to stop trying.

    Parameters
    ----------
    good_rate, bad_rate : float, between 0 and 1, the good one lower
        Faults a try of a part that counts as cured, and of one that does not.
    alarm_risk : float
        Risk of saying "not cured" of a part with the good rate.
    miss_risk : float
        Risk of saying "cured" of a part with the bad rate.

    Returns
    -------
    Boundaries
        Three plain numbers: slope, cured, faulty.

    Raises
    ------
    ValueError
        If the rates stand the wrong way round, or the two risks together reach 1.

    Notes
    -----
    .. math:: g = \ln\frac{p_1 (1 - p_0)}{p_0 (1 - p_1)}, \quad
       s = \frac{1}{g} \ln\frac{1 - p_0}{1 - p_1}, \quad
       h_0 = \frac{1}{g} \ln\frac{1 - \alpha}{\beta}, \quad
       h_1 = \frac{1}{g} \ln\frac{1 - \beta}{\alpha}

    The risks that come out are not more than :math:`\alpha/(1-\beta)` and
    :math:`\beta/(1-\alpha)`, and together not more than :math:`\alpha+\beta`.
    For equal tries that know nothing of each other. Looking after every try
    is allowed: that is what the lines are made for.

    References
    ----------
    .. [1] Wald's rule and his two inequalities, as open lecture notes on the
       sequential probability ratio test quote them. FOUND (second-hand);
       check values chance-wald, RECOMPUTED from that rule.

    Examples
    --------
    >>> lines = sequential_boundaries(good_rate=0.01, bad_rate=0.1, alarm_risk=0.05, miss_risk=0.05)
    >>> print(f"{lines.slope:.4f} {lines.cured:.3f} {lines.faulty:.3f}")
    0.0397 1.228 1.228
    """
    fault, clean, upper, lower = _steps(good_rate, bad_rate, alarm_risk, miss_risk)
    return Boundaries(-clean / (fault - clean), -lower / (fault - clean), upper / (fault - clean))


def sequential_decision(*, clean, faults, good_rate, bad_rate, alarm_risk, miss_risk):
    """What Wald's test says after these tries.

    Parameters
    ----------
    clean, faults : int, zero or more
        So far, and on neither line before.
    good_rate, bad_rate, alarm_risk, miss_risk : float
        As for `sequential_boundaries`.

    Returns
    -------
    str
        ``"cured"``, ``"not cured"`` or ``"go on"``.

    References
    ----------
    .. [1] As `sequential_boundaries`.

    Examples
    --------
    >>> sequential_decision(clean=31, faults=0, good_rate=0.01, bad_rate=0.1, alarm_risk=0.05, miss_risk=0.05)
    'cured'
    """
    clean, faults = _count(clean, "clean"), _count(faults, "faults")
    lines = sequential_boundaries(good_rate=good_rate, bad_rate=bad_rate, alarm_risk=alarm_risk, miss_risk=miss_risk)
    even = lines.slope * (clean + faults)
    if faults >= even + lines.faulty - 1e-9:
        return FAULTY
    return CURED if faults <= even - lines.cured + 1e-9 else GO_ON


def clean_tries_to_cured(*, clean, faults, good_rate, bad_rate, alarm_risk, miss_risk):
    """How many more tries, all clean, until Wald's test says "cured".

    Parameters
    ----------
    clean, faults : int, zero or more
        So far.
    good_rate, bad_rate, alarm_risk, miss_risk : float
        As for `sequential_boundaries`.

    Returns
    -------
    int
        Zero if the line is reached already.

    References
    ----------
    .. [1] As `sequential_boundaries`: the line for "cured", solved for the tries.

    Examples
    --------
    >>> clean_tries_to_cured(clean=10, faults=0, good_rate=0.01, bad_rate=0.1, alarm_risk=0.05, miss_risk=0.05)
    21
    """
    clean, faults = _count(clean, "clean"), _count(faults, "faults")
    lines = sequential_boundaries(good_rate=good_rate, bad_rate=bad_rate, alarm_risk=alarm_risk, miss_risk=miss_risk)
    return max(0, math.ceil((faults + lines.cured) / lines.slope - 1e-6) - clean - faults)


def chance_called_cured(*, rate, good_rate, bad_rate, alarm_risk, miss_risk):
    r"""How often Wald's test says "cured" of a part that fails at this rate.

    Parameters
    ----------
    rate : float, between 0 and 1
        The part's true failure rate.
    good_rate, bad_rate, alarm_risk, miss_risk : float
        As for `sequential_boundaries`.

    Returns
    -------
    float
        A chance from 0 to 1.

    Notes
    -----
    .. math:: L = \frac{A^h - 1}{A^h - B^h}, \quad
       p = \frac{1 - r^h}{q^h - r^h}, \quad A = \frac{1-\beta}{\alpha}, \; B = \frac{\beta}{1-\alpha}, \;
       q = \frac{p_1}{p_0}, \; r = \frac{1-p_1}{1-p_0}

    The power *h* is found from the rate. Each test is taken to end on its
    line; in truth it ends a little beyond, so this is an approximation.

    References
    ----------
    .. [1] Wald, operating characteristic. MEMORY; check values chance-oc, by
       the two rates at which it must give the risks themselves.

    Examples
    --------
    >>> print(f"{chance_called_cured(rate=0.01, good_rate=0.01, bad_rate=0.1, alarm_risk=0.05, miss_risk=0.05):.3f}")
    0.950
    """
    fault, clean, upper, lower = _steps(good_rate, bad_rate, alarm_risk, miss_risk)
    power = _power(_share(rate, "rate"), fault, clean)
    if abs(power) < 1e-6:  # the middle between both lines, where numerator and denominator vanish together
        return upper / (upper - lower)
    # Divided by the larger of the two powers, so that neither overflows.
    if power > 0:
        return -math.expm1(-power * upper) / -math.expm1(power * (lower - upper))
    return math.exp(-power * lower) * math.expm1(power * upper) / math.expm1(power * (upper - lower))


def expected_tries(*, rate, good_rate, bad_rate, alarm_risk, miss_risk):
    r"""How many tries Wald's test takes on average until it stops.

    Parameters
    ----------
    rate : float, between 0 and 1
        The part's true failure rate.
    good_rate, bad_rate, alarm_risk, miss_risk : float
        As for `sequential_boundaries`.

    Returns
    -------
    float
        Tries; a little low, because a test ends beyond its line.

    Notes
    -----
    .. math:: \bar n = \frac{L \ln B + (1 - L) \ln A}{p \ln q + (1 - p) \ln r}

    with the letters of `chance_called_cured`.

    References
    ----------
    .. [1] Wald, average sample number. MEMORY; check value chance-expected,
       RECOMPUTED by hand.

    Examples
    --------
    >>> tries = expected_tries(rate=0.01, good_rate=0.01, bad_rate=0.1, alarm_risk=0.05, miss_risk=0.05)
    >>> print(f"{tries:.1f}")
    37.2
    """
    fault, clean, upper, lower = _steps(good_rate, bad_rate, alarm_risk, miss_risk)
    rate = _share(rate, "rate")
    drift = rate * fault + (1 - rate) * clean
    if abs(drift) < 1e-6 * (fault - clean):
        return -upper * lower / (fault * -clean)
    cured = chance_called_cured(rate=rate, good_rate=good_rate, bad_rate=bad_rate, alarm_risk=alarm_risk,
                                miss_risk=miss_risk)
    return (cured * lower + (1 - cured) * upper) / drift


def _steps(good_rate, bad_rate, alarm_risk, miss_risk):
    """What one fault and one clean try add to the weight of evidence, and the two weights at which to stop."""
    good, bad = _share(good_rate, "good_rate"), _share(bad_rate, "bad_rate")
    alarm, miss = _share(alarm_risk, "alarm_risk"), _share(miss_risk, "miss_risk")
    if not good < bad:
        raise ValueError(f"good_rate: must be below bad_rate, got {good:g} and {bad:g}; write for example 0.01 and 0.10")
    if not alarm + miss < 1:
        raise ValueError(f"alarm_risk: the two risks must stay below 1 together, got {alarm:g} and {miss:g}; "
                         "write for example 0.05 for each")
    return (math.log(bad / good), math.log1p(-bad) - math.log1p(-good),
            math.log((1 - miss) / alarm), math.log(miss / (1 - alarm)))


def _power(rate, fault, clean):
    """Wald's power h of a failure rate: 1 at the good one, -1 at the bad one, 0 at the slope of the lines."""
    def off(power):
        # The mean of evidence to this power is 1; logarithms keep it within reach of a float.
        return math.log(rate) + power * fault, math.log1p(-rate) + power * clean

    def excess(power):
        first, second = off(power)
        top = max(first, second)
        return top + math.log(math.exp(first - top) + math.exp(second - top))

    drift = rate * fault + (1 - rate) * clean
    if abs(drift) < 1e-9 * (fault - clean):
        return 0.0
    from scipy.optimize import brentq

    # Away from zero, where the other root lies: the excess is convex and touches zero at both.
    away = -1.0 if drift > 0 else 1.0
    far = away
    while excess(far) <= 0:
        far *= 2
    near = far
    while excess(near) >= 0:
        near /= 2
        if abs(near) < 1e-9:
            return 0.0
    return brentq(excess, near, far, xtol=1e-13)


def _share(value, name):
    """A plain number between 0 and 1, ends excluded."""
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError(f"{name}: must be a plain number, got {value!r}; write for example {name}=0.05")
    if not 0 < value < 1:
        raise ValueError(f"{name}: must lie between 0 and 1, got {value!r}; write for example {name}=0.05")
    return float(value)


def _count(value, name):
    """A whole number of tries."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError(f"{name}: must be a whole number, got {value!r}; write for example {name}=10")
    if value < 0:
        raise ValueError(f"{name}: must be zero or more, got {value}; write for example {name}=10")
    return value
