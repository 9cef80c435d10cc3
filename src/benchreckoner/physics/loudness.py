"""How loud a recording is, as broadcasters reckon it: weighted by frequency, silence left out."""

import numpy as np

from benchreckoner.physics.plain import count
from benchreckoner.units import Q, need

RATE = 48000  # samples a second, for which the two filters are published
# The head's gain towards the treble, then the ear's loss towards the bass.
_SHELF = (1.53512485958697, -2.69169618940638, 1.19839281085285), (1.0, -1.69065929318241, 0.73248077421585)
_HIGH_PASS = (1.0, -2.0, 1.0), (1.0, -1.99004745483398, 0.99007225036621)
_OFFSET = -0.691  # dB, so that a tone near 1 kHz keeps its level
_BLOCK, _STEP = round(0.4 * RATE), round(0.1 * RATE)
_SILENCE, _BELOW_MEAN = -70.0, -10.0  # dB: the two gates
_LOWEST_RATE = 8000
_SHORTEST = 0.8  # s: five blocks; fewer say little


def k_weighting(*, frequency):
    r"""The gain that a frequency gets before its loudness is reckoned.

    Parameters
    ----------
    frequency : Quantity [Hz], above zero and below 24 kHz

    Returns
    -------
    Quantity [dB]

    Raises
    ------
    ValueError
        For a frequency that the published filters do not pass.

    Notes
    -----
    The sum of two filters, each

    .. math:: H(z) = \frac{b_0 + b_1 z^{-1} + b_2 z^{-2}}{1 + a_1 z^{-1} + a_2 z^{-2}}

    at 48 000 samples a second. It is drawn for ears in general and for sounds of usual loudness: yours may hear otherwise.

    References
    ----------
    .. [1] ITU-R BS.1770-4, Tables 1 and 2, the coefficients read as several open programs quote them. FOUND.

    Examples
    --------
    >>> print(f"{k_weighting(frequency=Q(50, 'Hz')):.1f~P}")
    -3.9 dB
    """
    from scipy.signal import freqz

    hertz = need(frequency, "Hz", "frequency", above=0).m_as("Hz")
    if not np.all(hertz < RATE / 2):
        raise ValueError(f"frequency: must be below {RATE // 2} Hz, got {frequency:~P}; write Q(1000, 'Hz')")
    gain = np.prod([abs(freqz(*stage, worN=np.atleast_1d(hertz), fs=RATE)[1]) for stage in (_SHELF, _HIGH_PASS)], axis=0)
    return Q((20 * np.log10(gain)).reshape(np.shape(hertz))[()], "dB")


def integrated_loudness(*, samples, rate):
    r"""Loudness of a whole recording.

    Parameters
    ----------
    samples : array of float
        Full scale is 1. One row is one channel; two rows are left and right. At least 0.8 s.
    rate : int
        Samples a second, 8000 at least. Other rates than 48 000 are converted first.

    Returns
    -------
    Quantity [dB]
        Below full scale, written LKFS or LUFS elsewhere.

    Raises
    ------
    TypeError
        For a rate that is no whole number.
    ValueError
        For a recording that is too short, holds values that are none, or is silent.

    Notes
    -----
    Blocks of 0.4 s begin every 0.1 s. With the mean square :math:`z` of each weighted channel in a block:

    .. math:: L = -0.691 + 10 \log_{10} \sum z

    Blocks below -70 dB do not count, nor those more than 10 dB below the mean of what is left.
    It says how loud, not how good: hiss and hum count as music does.

    References
    ----------
    .. [1] ITU-R BS.1770-4, Annex 1; the filters, the blocks and the gates as open programs quote it. FOUND.

    Examples
    --------
    >>> seconds = np.arange(5 * 48000) / 48000
    >>> print(f"{integrated_loudness(samples=0.1 * np.sin(2 * np.pi * 997 * seconds), rate=48000):.2f~P}")
    -23.01 dB
    """
    blocks = _blocks(_checked(samples, rate))
    for gate in (_SILENCE, None):
        if gate is None:
            gate = _level(blocks.mean()) + _BELOW_MEAN
        blocks = blocks[_level(blocks) > gate]
        if not len(blocks):
            raise ValueError("samples: nothing in this recording is louder than silence; turn the recorder up and record again")
    return Q(float(_level(blocks.mean())), "dB")


def tones_loudness(*, levels, durations, frequency=Q(1000, "Hz"), channels=2):
    r"""Loudness of steady tones one after the other, for checking a measurement of loudness.

    Parameters
    ----------
    levels : Quantity [dB], a row
        Peak of each tone below full scale, zero at most.
    durations : Quantity [s], a row, above zero
    frequency : Quantity [Hz], above zero and below 24 kHz
    channels : int, 1 or 2
        In which the tone stands alike.

    Returns
    -------
    Quantity [dB]

    Raises
    ------
    ValueError
        For rows that do not belong together, or a tone above full scale.

    Notes
    -----
    The tones are laid down as samples and measured by `integrated_loudness`. One long tone gives

    .. math:: L = L_{peak} - 3.01 + 10 \log_{10} n + K(f) - 0.691

    References
    ----------
    .. [1] EBU Tech 3341, Table 1, test signals 1 to 5, read as an open program's pages quote them. FOUND.

    Examples
    --------
    >>> print(f"{tones_loudness(levels=Q([-23], 'dB'), durations=Q([20], 's')):.1f~P}")
    -23.0 dB
    """
    levels, durations = need(levels, "dB", "levels").m_as("dB"), need(durations, "s", "durations", above=0).m_as("s")
    hertz = need(frequency, "Hz", "frequency", above=0).m_as("Hz")
    if np.ndim(levels) != 1 or np.shape(levels) != np.shape(durations) or not hertz < RATE / 2:
        raise ValueError("levels, durations: must be two rows of equal length, of tones below 24 kHz; write Q([-23], 'dB'), Q([20], 's')")
    if np.any(levels > 0):
        raise ValueError(f"levels: full scale is 0 dB, got {levels.max():g} dB; write Q([-23], 'dB')")
    if count(channels, "channels") not in (1, 2):
        raise ValueError(f"channels: must be 1 or 2, got {channels}; write channels=2")
    sizes = np.repeat(10 ** (levels / 20), np.round(durations * RATE).astype(int))
    tone = sizes * np.sin(2 * np.pi * hertz * np.arange(len(sizes)) / RATE)
    return integrated_loudness(samples=np.tile(tone, (channels, 1)), rate=RATE)


def _checked(samples, rate):
    """One row a channel at the published rate."""
    from scipy.signal import resample_poly

    if count(rate, "rate") < _LOWEST_RATE:
        raise ValueError(f"rate: must be at least {_LOWEST_RATE} samples a second, got {rate}; write rate=48000")
    rows = np.atleast_2d(np.asarray(samples, dtype=float))
    if rows.ndim != 2 or len(rows) > 2 or rows.shape[1] < _SHORTEST * rate:
        raise ValueError(f"samples: must be one or two rows of {_SHORTEST} s at least, got an array of shape {rows.shape}; "
                         "write np.zeros((2, 48000))")
    if not np.all(np.isfinite(rows)):
        raise ValueError("samples: must be finite numbers; save the recording again as a 16-bit WAV")
    if rate == RATE:
        return rows
    shared = np.gcd(rate, RATE)
    return resample_poly(rows, RATE // shared, rate // shared, axis=1)


def _blocks(rows):
    """Mean square of each block, its channels summed."""
    from scipy.signal import lfilter

    for stage in (_SHELF, _HIGH_PASS):
        rows = lfilter(*stage, rows, axis=1)
    summed = np.concatenate(([0.0], np.cumsum((rows**2).sum(axis=0))))
    starts = np.arange(0, rows.shape[1] - _BLOCK + 1, _STEP)
    # The difference of two sums can fall a hair below nought in silence.
    return np.maximum(summed[starts + _BLOCK] - summed[starts], 0) / _BLOCK


def _level(square):
    return _OFFSET + 10 * np.log10(np.maximum(square, 1e-30))
