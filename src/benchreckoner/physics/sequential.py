"""Wald's sequential test: when the tries so far suffice to call a fault cured, or not cured."""

import math
from typing import NamedTuple

import numpy as np

from benchreckoner.physics.plain import count, share

CURED, FAULTY, GO_ON = "cured", "not cured", "go on"
_TOUCH = 1e-9  # faults: so near to a line counts as on it
_LEFT_OPEN = 1e-10  # chance that a walk is still going on when it is broken off


class Boundaries(NamedTuple):
    """Two lines of faults against tries: cured below ``slope * tries - cured``, not cured above ``slope * tries + faulty``."""

    slope: float
    cured: float
    faulty: float


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
    good, bad = share(good_rate, "good_rate"), share(bad_rate, "bad_rate")
    alarm, miss = share(alarm_risk, "alarm_risk"), share(miss_risk, "miss_risk")
    if not good < bad:
        raise ValueError(f"good_rate: must be below bad_rate, got {good:g} and {bad:g}; write for example 0.01 and 0.10")
    if not alarm + miss < 1:
        raise ValueError(f"alarm_risk: the two risks must stay below 1 together, got {alarm:g} and {miss:g}; "
                         "write for example 0.05 for each")
    clean = math.log1p(-good) - math.log1p(-bad)
    whole = math.log(bad / good) + clean
    return Boundaries(clean / whole, math.log((1 - alarm) / miss) / whole, math.log((1 - miss) / alarm) / whole)


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
    clean, faults = count(clean, "clean"), count(faults, "faults")
    lines = sequential_boundaries(good_rate=good_rate, bad_rate=bad_rate, alarm_risk=alarm_risk, miss_risk=miss_risk)
    even = lines.slope * (clean + faults)
    if faults >= even + lines.faulty - _TOUCH:
        return FAULTY
    return CURED if faults <= even - lines.cured + _TOUCH else GO_ON


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
    clean, faults = count(clean, "clean"), count(faults, "faults")
    lines = sequential_boundaries(good_rate=good_rate, bad_rate=bad_rate, alarm_risk=alarm_risk, miss_risk=miss_risk)
    return max(0, math.ceil((faults + lines.cured) / lines.slope - 1e-6) - clean - faults)


def chance_called_cured(*, rate, good_rate, bad_rate, alarm_risk, miss_risk):
    """How often Wald's test says "cured" of a part that fails at this rate.

    Parameters
    ----------
    rate : float or array, between 0 and 1
        The part's true failure rate.
    good_rate, bad_rate, alarm_risk, miss_risk : float
        As for `sequential_boundaries`.

    Returns
    -------
    float or array
        A chance from 0 to 1.

    Notes
    -----
    Exact: the chances of every number of faults are walked from try to try, and
    those that reach a line are taken out. Wald's own short forms let each test
    end on its line, where it really ends a little beyond.

    References
    ----------
    .. [1] `sequential_boundaries`, walked; check values chance-walk, RECOMPUTED
       by hand where every path can be listed.

    Examples
    --------
    >>> chance = chance_called_cured(rate=0.1, good_rate=0.01, bad_rate=0.1, alarm_risk=0.05, miss_risk=0.05)
    >>> print(f"{chance:.3f}")
    0.050
    """
    return _walk(rate, good_rate, bad_rate, alarm_risk, miss_risk)[0]


def expected_tries(*, rate, good_rate, bad_rate, alarm_risk, miss_risk):
    """How many tries Wald's test takes on average until it stops.

    Parameters
    ----------
    rate : float or array, between 0 and 1
        The part's true failure rate.
    good_rate, bad_rate, alarm_risk, miss_risk : float
        As for `sequential_boundaries`.

    Returns
    -------
    float or array

    Notes
    -----
    Exact, as `chance_called_cured`. Some tests take much longer than the mean.

    References
    ----------
    .. [1] As `chance_called_cured`.

    Examples
    --------
    >>> tries = expected_tries(rate=0.01, good_rate=0.01, bad_rate=0.1, alarm_risk=0.05, miss_risk=0.05)
    >>> print(f"{tries:.0f}")
    40
    """
    return _walk(rate, good_rate, bad_rate, alarm_risk, miss_risk)[1]


def _walk(rate, good_rate, bad_rate, alarm_risk, miss_risk):
    """Chance to end on the line "cured", and mean number of tries, for each true rate."""
    lines = sequential_boundaries(good_rate=good_rate, bad_rate=bad_rate, alarm_risk=alarm_risk, miss_risk=miss_risk)
    rates = share(rate, "rate")
    rate = np.atleast_1d(rates)[:, None]
    going, fewest, tries = np.ones((len(rate), 1)), 0, 0
    cured, mean = np.zeros(len(rate)), np.zeros(len(rate))
    while going.sum(axis=1).max() > _LEFT_OPEN:
        mean += going.sum(axis=1)
        tries += 1
        none = np.zeros((len(rate), 1))
        going = np.hstack((going * (1 - rate), none)) + np.hstack((none, going * rate))
        faults, even = fewest + np.arange(going.shape[1]), lines.slope * tries
        low, high = faults <= even - lines.cured + _TOUCH, faults >= even + lines.faulty - _TOUCH
        cured += going[:, low].sum(axis=1)
        inside = ~low & ~high
        going, fewest = going[:, inside], int(faults[inside].min(initial=faults[-1]))
    return tuple(found.reshape(np.shape(rates))[()] for found in (cured, mean))
