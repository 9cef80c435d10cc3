"""A belt's reasons in words: what is against it, with its number as a band, and what that band comes from."""

import numpy as np

_TELLS = {  # by way: what the band is of, its factor and unit, and what is asked
    "loose": ("stretch", "it would be stretched by {} %; below {limit} % it slips or jumps off", 100),
    "tight": ("stretch", "it would be stretched by {} %; above {limit} % it loads the bearings and loses its pull fast", 100),
    "slip": ("margin", "once aged, it grips {} times what the load asks; {limit} times are wanted, for the start", 1),
    "hub": ("hub", "it pulls the motor's shaft sideways with {} N; {limit} N is the most", 1),
    "current": ("current", "it adds {} % to the motor's current; {limit} % is the most", 100),
    "fast": ("speed", "the wheel's speed would be off by {} %; the trimmer takes {limit} % at most", 100),
    "slow": ("speed", "the wheel's speed would be off by {} %; the trimmer takes {limit} % at most", 100),
    "bend": ("bend", "half its thickness is {} of the motor pulley's radius; {limit} is the most, it is too thick to bend there", 1),
    "groove": ("width", "it is {} mm wide; the groove has {limit} mm", 1000),
}
_CHIEFLY = 0.4  # of the spread, by square of correlation
_CAUSES = {
    "seat_path": "how long the path truly is", "load": "what the load truly asks", "bearing": "the bearing's friction",
    "motor_constant": "the motor's constant", "no_load_current": "the motor's own friction",
    "friction": "the friction of belt on pulley", "aged": "what dust and shine take of the friction",
    "loss_tangent": "how much the rubber loses in bending", "relaxation": "how fast the rubber relaxes",
    "common": "the rubber's stiffness", "stiffness": "the rubber's stiffness", "hardness": "the rubber's stiffness",
    "size": "how long the belt truly is", "thickness": "how thick the belt truly is",
}


def told(side, bands, share):
    """One way to fail in words, with its number as a band and how often it comes true.

    Parameters
    ----------
    side : Side
    bands : dict
        As in `Ranked`.
    share : float
        Of the draws that lie outside.

    Returns
    -------
    str
    """
    quantity, words, times = _TELLS[side.way]
    low, _, high = bands[quantity]
    if quantity == "margin":  # what is slack, or flung off, grips nothing
        low, high = max(low, 0.0), max(high, 0.0)
    limit = f"{abs(times * side.limit):g}"
    text = words.format(_span(times * low, times * high, signed=quantity == "speed"), limit=limit)
    return f"{text[0].upper()}{text[1:]} (outside in {_hundred(share)} of 100 draws)."


def dominant(values, draws, own, *, alone):
    """What makes a band wide: the cause that goes with most of it.

    Parameters
    ----------
    values : array
        Of that band's quantity, draw by draw.
    draws : Draws
    own : Own
    alone : bool
        Whether it is the one band that was told.

    Returns
    -------
    str
        Empty where nothing varies.

    Notes
    -----
    By the square of the correlation between cause and quantity, draw by draw: a cause's share where all act in proportion.
    """
    causes = np.array([getattr(own if hasattr(own, name) else draws, name) for name in _CAUSES])
    beside, values = causes - causes.mean(axis=1, keepdims=True), values - values.mean()
    spread = (beside**2).sum(axis=1) * (values @ values)
    if not np.any(spread > 0):
        return ""
    shares = {}
    for words, share in zip(_CAUSES.values(), (beside @ values) ** 2 / np.where(spread > 0, spread, np.inf)):
        shares[words] = shares.get(words, 0.0) + share
    words, share = max(shares.items(), key=lambda pair: pair[1])
    which = "That range" if alone else "The range told first"
    return f"{which} is so wide chiefly because of {words}." if share > _CHIEFLY else f"{which} has several causes, above all {words}."


def _span(low, high, *, signed):
    """A band to two figures of its width or to three of its size; one number where both ends read alike."""
    digits = max(0, 1 - int(np.floor(np.log10(2 * max(high - low, 1e-2 * abs(high), 1e-9)))))
    ends = [f"{end:{'+' if signed else ''}.{digits}f}".replace("-", "−") for end in (low, high)]
    return ends[0] if ends[0] == ends[1] else " to ".join(ends)


def _hundred(share):
    """Draws out of a hundred, with no false certainty at either end."""
    whole = round(100 * share)
    return "more than 99" if whole == 100 else str(whole)
