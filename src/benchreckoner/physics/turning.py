"""How fast a shaft turns, counted: bars under a flickering lamp, turns on a phone's film, ripple of the current."""

import math

import numpy as np

from benchreckoner.physics.plain import count
from benchreckoner.units import Q, need

_TURN = Q(1, "turn")


def strobe_speed(*, flicker_frequency, bars, drift=Q(0, "1/s"), passed=1):
    r"""Speed of a disc with evenly spaced bars that seem to stand still, or to drift slowly, under a flickering lamp.

    Parameters
    ----------
    flicker_frequency : Quantity [Hz], above zero
        Flashes a second. A lamp on the mains flashes twice a cycle.
    bars : int, above zero
        Round the whole disc.
    drift : Quantity [1/s]
        Bars that pass a fixed mark each second, positive in the direction of turning.
    passed : int, above zero
        By how many bars the disc moves on from flash to flash: one, if it is near the speed it was drawn for.

    Returns
    -------
    Quantity [turn/min]

    Raises
    ------
    ValueError
        If the bars drift by half their spacing a flash or more: which way they go can then no longer be told.

    Notes
    -----
    .. math:: n = \frac{k f + d}{N}

    The bars stand still at twice and three times the speed too: :math:`k` is not seen, it must be known.

    References
    ----------
    .. [1] One bar a flash; 133 bars under 100 flashes, from an open mailing list on old machines. FOUND.

    Examples
    --------
    >>> print(f"{strobe_speed(flicker_frequency=Q(100, 'Hz'), bars=180):.3f~P}")
    33.333 turn/min
    """
    flicker, drift = need(flicker_frequency, "Hz", "flicker_frequency", above=0), need(drift, "1/s", "drift")
    bars, passed = _some(bars, "bars"), _some(passed, "passed")
    if not np.all(abs(drift.magnitude) < flicker.magnitude / 2):
        raise ValueError(f"drift: must be below half the flashes, {flicker.magnitude / 2:g} bars a second, got {drift.magnitude:g}; "
                         "which way faster bars go cannot be told")
    return (_TURN * (passed * flicker + drift) / bars).to("turn/min")


def filmed_speed(*, turns, frames, frame_rate):
    r"""Speed of a mark on a shaft, counted on a film frame by frame.

    Parameters
    ----------
    turns : float, above zero
        Quarter turns count too.
    frames : int, above zero
        From the first frame to the last.
    frame_rate : Quantity [1/s], above zero
        As filmed, not as played back.

    Returns
    -------
    Quantity [turn/min]

    Raises
    ------
    ValueError
        If the mark would move by half a turn a frame or more: which way it went cannot be told.

    Notes
    -----
    .. math:: n = \frac{\text{turns} \times f}{\text{frames}}

    Half a frame is uncertain at either end, so count over a hundred frames or more. Some phones vary their frame rate:
    film a clock with a seconds hand once.

    References
    ----------
    .. [1] Turns by time; by hand. RECOMPUTED.

    Examples
    --------
    >>> print(f"{filmed_speed(turns=40, frames=240, frame_rate=Q(240, '1/s')):.0f~P}")
    2400 turn/min
    """
    rate, frames = need(frame_rate, "1/s", "frame_rate", above=0), _some(frames, "frames")
    if isinstance(turns, bool) or not isinstance(turns, (int, float)):
        raise TypeError(f"turns: must be a plain number, got {turns!r}; write for example turns=12.25")
    if not 0 < turns < frames / 2:
        raise ValueError(f"turns: must be above zero and below half a turn a frame, {frames / 2:g}, got {turns}; "
                         "film with more frames a second")
    return (_TURN * turns * rate / frames).to("turn/min")


def seen_speed(*, speed, marks, rate):
    r"""Speed at which marks on a shaft seem to turn, on a film or under a flickering lamp.

    Parameters
    ----------
    speed : Quantity [turn/min], zero or more
        The true one.
    marks : int, above zero
        Alike and evenly spaced.
    rate : Quantity [1/s], above zero
        Frames or flashes a second.

    Returns
    -------
    Quantity [turn/min]
        Nought where they seem to stand still, below nought where they seem to go backwards.

    Notes
    -----
    .. math:: n' = n - \frac{f}{N}\,\mathrm{round}\!\left(\frac{n N}{f}\right)

    The eye takes the nearest mark for the same one, so nothing faster than half a spacing a frame is seen truly.

    References
    ----------
    .. [1] Sampling at a fixed rate; tested against marks laid down frame by frame. RECOMPUTED.

    Examples
    --------
    >>> seen = seen_speed(speed=Q(2400, "turn/min"), marks=1, rate=Q(30, "1/s"))
    >>> print(f"{seen:.0f~P}")
    600 turn/min
    """
    speed, rate = need(speed, "turn/min", "speed", least=0), need(rate, "1/s", "rate", above=0)
    spacing = (_TURN * rate / _some(marks, "marks")).to("turn/min")
    return (speed - spacing * np.round((speed / spacing).m_as(""))).to("turn/min")


def ripple_per_turn(*, brushes, segments):
    """How often a motor's current ripples in one turn.

    Parameters
    ----------
    brushes, segments : int, above zero

    Returns
    -------
    int
        The least number that both divide; with two brushes, twice an odd number of segments.

    References
    ----------
    .. [1] An open motor driver's source reckons so. FOUND.

    Examples
    --------
    >>> ripple_per_turn(brushes=2, segments=3), ripple_per_turn(brushes=2, segments=8)
    (6, 8)
    """
    return math.lcm(_some(brushes, "brushes"), _some(segments, "segments"))


def ripple_frequency(*, speed, brushes, segments):
    r"""Frequency at which a motor's current ripples.

    Parameters
    ----------
    speed : Quantity [turn/min], zero or more
    brushes, segments : int, above zero

    Returns
    -------
    Quantity [Hz]

    Notes
    -----
    .. math:: f = \mathrm{lcm}(b, s)\, n

    Segments that differ add a line once a turn, at n alone.

    References
    ----------
    .. [1] Ripple per turn times turns, check value M25. RECOMPUTED.

    Examples
    --------
    >>> print(f"{ripple_frequency(speed=Q(2400, 'turn/min'), brushes=2, segments=3):.0f~P}")
    240 Hz
    """
    each = ripple_per_turn(brushes=brushes, segments=segments)
    return (each * need(speed, "turn/min", "speed", least=0) / _TURN).to("Hz")


def ripple_speed(*, frequency, brushes, segments):
    r"""Speed of a motor, from the ripple of its current.

    Parameters
    ----------
    frequency : Quantity [Hz], above zero
    brushes, segments : int, above zero

    Returns
    -------
    Quantity [turn/min]

    Notes
    -----
    .. math:: n = \frac{f}{\mathrm{lcm}(b, s)}

    A thousandth of 240 Hz needs a recording of about four seconds.

    References
    ----------
    .. [1] Ripple per turn times turns, check value M25 backwards. RECOMPUTED.

    Examples
    --------
    >>> print(f"{ripple_speed(frequency=Q(240, 'Hz'), brushes=2, segments=3):.0f~P}")
    2400 turn/min
    """
    each = ripple_per_turn(brushes=brushes, segments=segments)
    return (need(frequency, "Hz", "frequency", above=0) * _TURN / each).to("turn/min")


def _some(value, name):
    if count(value, name) == 0:
        raise ValueError(f"{name}: must be above zero, got 0; write for example {name}=2")
    return value
