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
    limit = f"{abs(times * side.limit):g}"
    text = words.format(_span(times * low, times * high, signed=quantity == "speed"), limit=limit)
    return f"{text[0].upper()}{text[1:]} (outside in {_hundred(share)} of 100 draws)."


def refusal(stretch, slip):
    """Why a belt is left out of the reckoning, with the slip that is likely.

    Parameters
    ----------
    stretch : tuple of float
        Its band.
    slip : str
        From `likely_slip`; empty where none explains it.

    Returns
    -------
    str
    """
    if stretch[2] <= 0:
        plain = "longer than the path: it would hang slack."
    else:
        plain = f"would have to stretch by {100 * stretch[1]:.0f} %: shorter than this path allows, and beyond 50 % no law here holds."
    return f"Left out, not reckoned. {slip}" if slip else f"Left out, not reckoned: {plain}"


def dominant(quantity, values, draws, own):
    """What makes a band wide: the cause that goes with most of it.

    Parameters
    ----------
    quantity : str
    values : array
        That quantity, draw by draw.
    draws : Draws
    own : Own

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
    return f"The range told first is so wide chiefly because of {words}." if share > 0.4 else f"The range told first has several causes, above all {words}."


def _span(low, high, *, signed):
    """A band to two figures of its width or to three of its size; one number where both ends read alike."""
    digits = max(0, 1 - int(np.floor(np.log10(2 * max(high - low, 1e-3 * abs(high), 1e-9)))))
    ends = [f"{end:{'+' if signed else ''}.{digits}f}".replace("-", "−") for end in (low, high)]
    return ends[0] if ends[0] == ends[1] else " to ".join(ends)


def _hundred(share):
    """Draws out of a hundred, with no false certainty at either end."""
    whole = round(100 * share)
    return "more than 99" if whole == 100 else str(whole)
