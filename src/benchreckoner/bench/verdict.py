"""The verdict on one value against its band (JCGM 106)."""

import math
from dataclasses import dataclass

SOUND, DOUBTFUL, BAD, UNTOLD = "sound", "doubtful", "bad", "can't tell yet"
NEEDED = 0.95  # the share of the probability that a band must hold to be the verdict
_ONE_SIDED = 1.645  # standard deviations that leave 5 % beyond one edge


@dataclass(frozen=True)
class Verdict:
    """The word, and how probable the band behind it is."""

    word: str
    probability: float


def judge_value(*, value, uncertainty, sound_up_to, bad_from):
    """The band that holds at least 95 % of the probability, if one does.

    Parameters
    ----------
    value, uncertainty : float
        In one unit; standard uncertainty, zero or more.
    sound_up_to, bad_from : float
        The band's edges in the same unit.

    Returns
    -------
    Verdict
        With "can't tell yet", the probability is that of the likeliest band.

    Notes
    -----
    The value is taken as normally distributed round what was read.

    References
    ----------
    .. [1] JCGM 106, conformity with a stated probability. MEMORY.
    """
    sound = share_below(sound_up_to, value, uncertainty)
    bad = share_below(-bad_from, -value, uncertainty)  # turned round, so that the edge itself is bad
    shares = {SOUND: sound, DOUBTFUL: max(0.0, 1 - sound - bad), BAD: bad}
    word = max(shares, key=shares.get)
    return Verdict(word if shares[word] >= NEEDED else UNTOLD, shares[word])


def uncertainty_to_settle(*, value, sound_up_to, bad_from):
    """The standard uncertainty at which this value would get a verdict.

    Parameters
    ----------
    value, sound_up_to, bad_from : float

    Returns
    -------
    float
        Zero if the value sits on an edge, where no measuring settles it.
    """
    return min(abs(value - sound_up_to), abs(value - bad_from)) / _ONE_SIDED


def share_below(edge, value, uncertainty):
    """The probability that a value of this standard uncertainty truly lies at or below an edge.

    Parameters
    ----------
    edge, value, uncertainty : float
        In one unit.

    Returns
    -------
    float
    """
    if uncertainty == 0:
        return 1.0 if value <= edge else 0.0
    return 0.5 * (1 + math.erf((edge - value) / (uncertainty * math.sqrt(2))))
