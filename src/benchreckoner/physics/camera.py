"""What a camera and its microphone make of a repair: flickering lamps, turning pulleys, levels that are evened out."""

import numpy as np

from benchreckoner.physics.plain import count, number
from benchreckoner.units import Q, need


def ripple_left(*, frequency, exposure):
    r"""How much of a steady ripple is left once it is averaged over a while.

    Parameters
    ----------
    frequency : Quantity [Hz], zero or more
        Of the ripple: a lamp on the mains ripples twice a cycle; marks on a pulley pass as often as turns times marks.
    exposure : Quantity [s], above zero
        How long the shutter is open.

    Returns
    -------
    float or array
        From 1, all of it, to 0, none.

    Notes
    -----
    .. math:: \left| \frac{\sin \pi f \tau}{\pi f \tau} \right|

    Nothing is left where the exposure holds a whole number of ripples, whatever their shape. The formula is for a sine; sharper
    ripples have overtones, each with its own frequency. The same holds for a picture's line as for the whole picture.

    References
    ----------
    .. [1] The mean of a sine over a stretch of time, held by adding samples up. RECOMPUTED.

    Examples
    --------
    >>> print(f"{ripple_left(frequency=Q(100, 'Hz'), exposure=Q(1 / 60, 's')):.3f}")
    0.165
    """
    frequency = need(frequency, "Hz", "frequency", least=0)
    exposure = need(exposure, "s", "exposure", above=0)
    return abs(np.sinc((frequency * exposure).m_as("")))[()]


def flicker_free_exposures(*, mains_frequency, frame_rate):
    r"""Exposures at which a lamp on the mains leaves neither flicker nor bands.

    Parameters
    ----------
    mains_frequency : Quantity [Hz], above zero
    frame_rate : Quantity [1/s], above zero
        No exposure is longer than a frame.

    Returns
    -------
    Quantity [s], a row
        Shortest first; empty where a frame is shorter than one ripple of the lamp.

    Notes
    -----
    .. math:: \tau = \frac{k}{2 f}, \quad k = 1, 2, \ldots, \lfloor 2 f / r \rfloor

    For lamps that follow the mains. A dimmed lamp and many with a driver ripple at other frequencies as well; then only a trial tells.

    References
    ----------
    .. [1] A photographer's pages: exposures of 1/100 s and multiples at 50 Hz, 1/120 s and multiples at 60 Hz. FOUND.

    Examples
    --------
    >>> exposures = flicker_free_exposures(mains_frequency=Q(50, "Hz"), frame_rate=Q(25, "1/s"))
    >>> print(exposures.to("ms"))
    [10.0 20.0 30.0 40.0] millisecond
    """
    ripples = 2 * need(mains_frequency, "Hz", "mains_frequency", above=0).m_as("Hz")
    frames = need(frame_rate, "1/s", "frame_rate", above=0).m_as("1/s")
    # A hair, since 120 ripples by 24 frames must not come out as 4.999.
    most = int(np.floor(ripples / frames * (1 + 1e-9)))
    return Q(np.arange(1, most + 1) / ripples, "s")


def flicker_seen(*, mains_frequency, frame_rate):
    r"""How often a lamp's ripple seems to come and go on a film.

    Parameters
    ----------
    mains_frequency : Quantity [Hz], above zero
    frame_rate : Quantity [1/s], above zero

    Returns
    -------
    Quantity [Hz]
        Nought where bands stand still; below nought where they walk the other way.

    Notes
    -----
    .. math:: f' = 2 f - r\,\mathrm{round}\!\left(\frac{2 f}{r}\right)

    Sampling: a ripple is taken for the slowest one that passes through the same points.

    References
    ----------
    .. [1] The sampling theorem, tested against a sine laid down frame by frame. RECOMPUTED.

    Examples
    --------
    >>> print(f"{flicker_seen(mains_frequency=Q(50, 'Hz'), frame_rate=Q(30, '1/s')):.0f~P}")
    10 Hz
    """
    ripples = 2 * need(mains_frequency, "Hz", "mains_frequency", above=0)
    frames = need(frame_rate, "1/s", "frame_rate", above=0)
    return (ripples - frames * np.round((ripples / frames).m_as(""))).to("Hz")


def still_frame_rates(*, speed, marks, slowest, fastest):
    r"""Frame rates at which marks on a turning shaft seem to stand still.

    Parameters
    ----------
    speed : Quantity [turn/min], above zero
    marks : int, above zero
        Alike and evenly spaced: spokes, screws, one stroke of a pen.
    slowest, fastest : Quantity [1/s], above zero
        Between which the camera's frame rates lie.

    Returns
    -------
    Quantity [1/s], a row
        Fastest first.

    Raises
    ------
    ValueError
        If the slowest is not below the fastest, or there are no marks.

    Notes
    -----
    .. math:: r = \frac{n N}{k}, \quad k = 1, 2, \ldots

    A speed that is a hair off makes the marks creep; that is no fault of the machine.

    References
    ----------
    .. [1] A whole number of spacings from frame to frame; by hand. RECOMPUTED.

    Examples
    --------
    >>> rates = still_frame_rates(speed=Q(2400, "turn/min"), marks=1, slowest=Q(12, "1/s"), fastest=Q(60, "1/s"))
    >>> print(rates.m.round(2))
    [40.   20.   13.33]
    """
    if count(marks, "marks") == 0:
        raise ValueError("marks: must be above zero, got 0; write marks=1")
    passing = marks * (need(speed, "turn/min", "speed", above=0) / Q(1, "turn")).m_as("1/s")
    low, high = (need(rate, "1/s", name, above=0).m_as("1/s") for rate, name in ((slowest, "slowest"), (fastest, "fastest")))
    if not low < high:
        raise ValueError(f"slowest: must lie below the fastest, {high:g}/s, got {low:g}/s; write Q(24, '1/s')")
    first, last = (int(np.ceil(passing / high * (1 - 1e-9))), int(np.floor(passing / low * (1 + 1e-9))))
    return Q(passing / np.arange(max(1, first), last + 1), "1/s")


def recorded_step(*, step, ratio, time, settling_time):
    r"""What a recorder with automatic gain leaves of a step in level.

    Parameters
    ----------
    step : Quantity [dB]
        By how much the sound really grew louder.
    ratio : float, at least 1
        Decibels in for each decibel out, once the gain has settled; 1 is no automatic gain.
    time : Quantity [s], zero or more
        Since the step.
    settling_time : Quantity [s], above zero
        In which the gain goes 63 % of its way.

    Returns
    -------
    Quantity [dB]

    Notes
    -----
    .. math:: \Delta = \Delta_0 \left( \frac{1}{\rho} + \left(1 - \frac{1}{\rho}\right) e^{-t/\tau} \right)

    The plainest model: real recorders turn down faster than up, and not below some level. It is for seeing what happens, not for
    undoing it.

    References
    ----------
    .. [1] A gain in decibels that settles exponentially; held by its differential equation, step by step. RECOMPUTED.

    Examples
    --------
    >>> step = recorded_step(step=Q(12, "dB"), ratio=4, time=Q(10, "s"), settling_time=Q(1, "s"))
    >>> print(f"{step:.1f~P}")
    3.0 dB
    """
    step = need(step, "dB", "step")
    rest = 1 / number(ratio, "ratio", least=1, example=4)
    settled = np.exp(-(need(time, "s", "time", least=0) / need(settling_time, "s", "settling_time", above=0)).m_as(""))
    return Q((step.m_as("dB") * (rest + (1 - rest) * settled))[()], "dB")


def change_by_reference(*, before, after, reference_before, reference_after):
    r"""By how much a machine grew louder, read beside a sound that stayed the same.

    Parameters
    ----------
    before, after : Quantity [dB]
        Level of the machine in the two recordings.
    reference_before, reference_after : Quantity [dB]
        Level of one and the same sound in them, such as another player at the same place and the same setting.

    Returns
    -------
    Quantity [dB]
        Whatever gain each recording had drops out, if it stayed the same within that recording.

    Notes
    -----
    .. math:: \Delta = (L_2 - R_2) - (L_1 - R_1)

    Record both sounds in one take, one after the other: automatic gain must not move between them, so switch it off, or keep
    the sounds about as loud.

    References
    ----------
    .. [1] A gain adds the same decibels to both; by hand. RECOMPUTED.

    Examples
    --------
    >>> change = change_by_reference(before=Q(-30, "dB"), after=Q(-22, "dB"),
    ...     reference_before=Q(-20, "dB"), reference_after=Q(-18, "dB"))
    >>> print(f"{change:.0f~P}")
    6 dB
    """
    later, earlier = need(after, "dB", "after").m, need(before, "dB", "before").m
    other_later = need(reference_after, "dB", "reference_after").m
    other_earlier = need(reference_before, "dB", "reference_before").m
    return Q((later - other_later) - (earlier - other_earlier), "dB")


def smear(*, speed, exposure):
    r"""How far a mark on a shaft turns while the shutter is open.

    Parameters
    ----------
    speed : Quantity [turn/min], zero or more
    exposure : Quantity [s], above zero

    Returns
    -------
    Quantity [turn]

    Notes
    -----
    .. math:: n\, \tau

    References
    ----------
    .. [1] Speed times time; by hand. RECOMPUTED.

    Examples
    --------
    >>> print(f"{smear(speed=Q(2400, 'turn/min'), exposure=Q(1 / 50, 's')):.1f~P}")
    0.8 turn
    """
    return (need(speed, "turn/min", "speed", least=0) * need(exposure, "s", "exposure", above=0)).to("turn")
