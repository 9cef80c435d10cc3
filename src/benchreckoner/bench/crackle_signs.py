"""What a recording shows of crackle: seven numbers, each with a physical meaning."""

import numpy as np
from scipy.ndimage import maximum_filter, median_filter
from tqdm import tqdm

from benchreckoner.bench.recordings import RATE

_STEADY = RATE // 25  # samples over which music is taken as steady
_ORDER = 24  # how many past samples foretell the next
_AT_ONCE = 250  # steady stretches foretold together: 10 s
_SHORT = 4  # samples in the shortest moment looked at
_LOUD = 5.0  # times the usual size of the last second, from which a moment is a jump
_SHARP = 4.0  # and times its own neighbourhood of 8 ms
_GAP = 0.06  # s; jumps nearer than this make one burst
_SLOWEST_SHAFT, _FASTEST_SHAFT = 14.0, 65.0  # turns in a second
_MAINS, _NEAR_MAINS = (50.0, 60.0), 1.5  # Hz; a beat so near is taken for the mains
_BEAT_RATE = 1000  # moments in a second in which a beat is looked for
_BEAT_WINDOW = 2048  # of these moments
_HISS = 1e-3  # of the loudness: what lies under it counts as silence


def signs(samples):
    """The signs of crackle in a recording.

    Parameters
    ----------
    samples : array of float
        One channel at `recordings.RATE`, three seconds or more.

    Returns
    -------
    dict of float
        ``rate``: jumps in a second. ``uneven``: variance over mean of their number in quarter seconds, 1 for pure
        chance. ``burst``: how long the burst lasts that a middling jump belongs to [s]. ``height``: how far jumps stand
        above the usual. ``turns``: share of neighbouring jumps that go opposite ways. ``shaft``: a regular beat with its
        multiples, 14 to 65 times a second but for 50 and 60, over its surroundings [dB]. ``shift``: the largest one-sided
        shift that lasts a fifth of a second, as a share of the sound's loudness.

    Notes
    -----
    Music can be foretold from its last milliseconds, a jump cannot. So all but the shift are looked for in what is left
    over after foretelling. None of the seven depends on how loud the recording is.
    """
    left = _left_over(samples)
    jumps, height = _jumps(left)
    seconds = len(left) / RATE
    quarters = np.bincount((4 * jumps / RATE).astype(int), minlength=int(4 * seconds))
    return {
        "rate": len(jumps) / seconds,
        "uneven": float((np.var(quarters) + 0.1) / (np.mean(quarters) + 0.1)),
        "burst": _burst(jumps / RATE),
        "height": float(np.quantile(height, 0.75)) if len(height) else 1.0,
        "turns": _turns(left, jumps),
        "shaft": _shaft(np.log(_sizes(left, RATE // _BEAT_RATE))),
        "shift": _shift(samples),
    }


def _left_over(samples):
    """What the last samples do not foretell, by linear prediction in steady stretches."""
    rng = np.random.default_rng(0)
    padded = np.concatenate([np.zeros(_ORDER), samples, np.zeros(_STEADY)]) / np.std(samples)
    padded = (padded + _HISS * rng.standard_normal(len(padded))).astype("f4")
    # Stretches that overlap unevenly: seams at even steps would beat as a motor does.
    starts = np.cumsum(rng.integers(_STEADY * 3 // 4, _STEADY + 1, len(samples) // (_STEADY * 3 // 4) + 1)) - _STEADY // 2
    starts = np.concatenate([[0], starts[starts < len(samples)]])
    # Each stretch with the few samples before it.
    rows = np.lib.stride_tricks.sliding_window_view(padded, _ORDER + _STEADY)
    left = np.zeros(len(samples) + _STEADY)
    for first in tqdm(range(0, len(starts), _AT_ONCE), desc="searching the recording", delay=1, leave=False):
        block = starts[first:first + _AT_ONCE]
        some = rows[block]
        weights = _foretelling(some[:, _ORDER:]).astype("f4")
        made = sum(weights[:, lag:lag + 1] * some[:, _ORDER - lag:_ORDER - lag + _STEADY] for lag in range(_ORDER + 1))
        for start, stretch in zip(block, made):
            left[start:start + _STEADY] = stretch
    return left[:len(samples)]


def _foretelling(rows):
    """Levinson's recursion for all rows at once: the weights of what is left over."""
    power = np.abs(np.fft.rfft(rows * np.hanning(_STEADY), 2 * _STEADY, axis=1)) ** 2
    likeness = np.fft.irfft(power, axis=1)[:, :_ORDER + 1]
    weights = np.zeros((len(rows), _ORDER + 1))
    weights[:, 0] = 1
    error = likeness[:, 0].copy()
    for order in range(1, _ORDER + 1):
        reflection = -np.sum(weights[:, :order] * likeness[:, order:0:-1], axis=1) / error
        weights[:, 1:order + 1] += reflection[:, None] * weights[:, order - 1::-1]
        error *= np.maximum(1 - reflection**2, 1e-9)
    return weights


def _sizes(left, each):
    """Root mean square of each moment."""
    return np.sqrt(np.mean(left[:len(left) // each * each].reshape(-1, each) ** 2, axis=1))


def _jumps(left):
    """Samples at which something short stands far above its surroundings, and how far above the usual."""
    size, tenth = _sizes(left, _SHORT), RATE // 10 // _SHORT
    tenths = np.median(size[:len(size) // tenth * tenth].reshape(-1, tenth), axis=1)
    usual = np.repeat(median_filter(tenths, 9, mode="nearest"), tenth)
    size = size[:len(usual)]
    near = median_filter(size, 8 * RATE // 1000 // _SHORT + 1, mode="nearest")
    places = np.flatnonzero((size > _LOUD * usual) & (size > _SHARP * near) & (size == maximum_filter(size, 5)))
    return places * _SHORT, size[places] / usual[places]


def _burst(times):
    """Length of the burst to which the middling jump belongs [s]; 0 without jumps."""
    if not len(times):
        return 0.0
    number = np.concatenate([[0], np.cumsum(np.diff(times) > _GAP)])
    firsts = np.flatnonzero(np.diff(number, prepend=-1))
    lengths = np.maximum.reduceat(times, firsts) - times[firsts]
    return float(np.sort(lengths[number])[len(times) // 2])


def _turns(left, jumps):
    """Share of neighbouring jumps, less than half a second apart, that go opposite ways; few count as half."""
    around = left[jumps[:, None] + np.arange(_SHORT)]
    ways = np.sign(np.take_along_axis(around, np.argmax(np.abs(around), axis=1)[:, None], axis=1)[:, 0])
    opposite = (ways[1:] != ways[:-1])[np.diff(jumps) < RATE / 2]
    return float((opposite.sum() + 2) / (len(opposite) + 4))


def _shaft(size):
    """The strongest comb of a regular beat [dB]: the weaker half of its first six multiples counts."""
    windows = np.lib.stride_tricks.sliding_window_view(size, _BEAT_WINDOW)[::_BEAT_WINDOW // 2]
    windows = windows - windows.mean(axis=1, keepdims=True)
    power = np.mean(np.abs(np.fft.rfft(windows * np.hanning(_BEAT_WINDOW), 4 * _BEAT_WINDOW, axis=1)) ** 2, axis=0)
    step = _BEAT_RATE / (4 * _BEAT_WINDOW)
    level = 10 * np.log10(power / median_filter(power, round(12 / step), mode="nearest"))
    beats = np.arange(_SLOWEST_SHAFT, _FASTEST_SHAFT, step)
    beats = beats[np.min(np.abs(beats[:, None] - np.array(_MAINS)), axis=1) > _NEAR_MAINS]
    combs = level[np.round(beats[:, None] * np.arange(1, 7) / step).astype(int)]
    return float(np.max(np.sort(combs, axis=1)[:, :3].mean(axis=1)))


def _shift(samples):
    """The largest mean over a fifth of a second: whole cycles of mains hum cancel."""
    hundredth = RATE // 100
    means = np.convolve(samples[:len(samples) // hundredth * hundredth].reshape(-1, hundredth).mean(axis=1),
                        np.full(20, 1 / 20), "valid")
    return float(np.quantile(np.abs(means - np.median(means)), 0.98) / np.std(samples))
