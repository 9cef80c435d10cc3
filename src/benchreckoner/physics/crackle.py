"""Crackle: four faults as signals.

Every signal is reckoned, none is sampled: the same seed gives the same crackle.
"""

from dataclasses import dataclass

import numpy as np

from benchreckoner.units import Q, need


def telegraph_state(*, mean_up, mean_down, duration, rate, rng):
    """A random jumper as a row of zeros and ones.

    Parameters
    ----------
    mean_up, mean_down : Quantity [s], above zero
        How long it stays at one and at zero, on average.
    duration : Quantity [s], above zero
    rate : Quantity [Hz], above zero
        Samples in a second.
    rng : numpy.random.Generator
        Its seed decides every jump.

    Returns
    -------
    numpy.ndarray
        Zeros and ones.

    Notes
    -----
    Stays are exponentially spread; `telegraph` has the law. A stay shorter than a sample may be missed.
    """
    count, rate = _samples(duration, rate)
    up = need(mean_up, "s", "mean_up", above=0).m_as("s") * rate
    down = need(mean_down, "s", "mean_down", above=0).m_as("s") * rate
    first = rng.random() < up / (up + down)
    edges, at, state = [], 0.0, first
    while at < count:
        stays = rng.exponential((up, down) if state else (down, up), size=(64, 2)).ravel()
        edges.append(at + np.cumsum(stays))
        at = edges[-1][-1]
    passed = np.searchsorted(np.concatenate(edges), np.arange(count), side="right")
    return ((passed + int(not first)) % 2 == 0).astype(float)


@dataclass(frozen=True, eq=False)
class Fault:
    """What a fault does to a signal: multiplies it by `gain`, adds `added` [V]."""

    gain: np.ndarray
    added: Q

    def heard(self, music):
        """The signal as it comes out of the machine [V]."""
        return (self.gain * need(music, "V", "music") + self.added).to("V")


def contact_flicker(*, depth, step, mean_open, mean_closed, duration, rate, rng):
    """A contact in the signal's path that lets go and takes hold at random, turned or not.

    Parameters
    ----------
    depth : float
        Share of the signal lost while it lets go, 0 to 1.
    step : Quantity [V]
        The jump that a little direct current across it makes.
    mean_open, mean_closed : Quantity [s], above zero
    duration : Quantity [s]
    rate : Quantity [Hz]
    rng : numpy.random.Generator

    Returns
    -------
    Fault
    """
    if not 0 <= depth <= 1:
        raise ValueError(f"depth is a share from 0 to 1, such as 0.7, got {depth:g}")
    state = telegraph_state(mean_up=mean_open, mean_down=mean_closed, duration=duration, rate=rate, rng=rng)
    return Fault(1 - depth * state, need(step, "V", "step") * _coupled(state, rate))


def worn_wiper(*, lift, step, worn_places, turns, duration, rate, rng):
    """A volume control whose wiper lifts off worn places of its track: silent until turned.

    Parameters
    ----------
    lift : float
        Share of the signal lost on a worn place, 0 to 1.
    step : Quantity [V]
        The jump of stray direct current as the wiper lifts.
    worn_places : int
        How many, at places of the track that stay the same.
    turns : int
        Times somebody turns it, from one stop towards the other.
    duration : Quantity [s]
    rate : Quantity [Hz]
    rng : numpy.random.Generator

    Returns
    -------
    Fault

    Notes
    -----
    The roughness belongs to the place, not to the moment: turned back, it comes again in reverse.
    """
    position = turned(turns=turns, duration=duration, rate=rate, rng=rng)
    centres, widths = rng.uniform(0, 1, worn_places), rng.exponential(4e-4, worn_places) + 1e-4
    places = np.linspace(0, 1, 20001)
    track = np.zeros_like(places)
    for centre, width in zip(centres, widths):
        track[np.abs(places - centre) < width] = rng.uniform(0.5, 1)
    off = np.interp(position, places, track)
    gain = (0.5 + 0.5 * position) * (1 - lift * off)
    return Fault(gain, need(step, "V", "step") * _coupled(off, rate))


def leaky_bias(*, direct, roughness, drift, turns, duration, rate, rng):
    """Direct volts on a control, from a leaking capacitor: thump and scratch when it moves, slow drift when not.

    Parameters
    ----------
    direct : Quantity [V]
        Across the control.
    roughness : float
        The track's own small unevenness, a share such as 0.01: a sound control has it too.
    drift : Quantity [V]
        How far the leak wanders, slowly.
    turns : int
    duration : Quantity [s]
    rate : Quantity [Hz]
    rng : numpy.random.Generator

    Returns
    -------
    Fault

    Notes
    -----
    The volts follow the wiper; the coupling capacitor passes only their changes. So the control itself may be sound.
    """
    position = turned(turns=turns, duration=duration, rate=rate, rng=rng)
    count, plain = _samples(duration, rate)
    track = np.interp(position * 2000, np.arange(2001), rng.standard_normal(2001))
    moving = need(direct, "V", "direct") * (position + roughness * track)
    walk = np.cumsum(rng.standard_normal(count)) / np.sqrt(plain)
    wander = need(drift, "V", "drift") * walk
    return Fault(0.5 + 0.5 * position, Q(_coupled((moving + wander).m_as("V"), rate), "V"))


def shared_supply_contact(*, ripple, segments, shaft, sag, mean_bad, mean_good, duration, rate, rng):
    """A poor supply contact that the motor's current shares with the amplifier: buzz at the shaft's rate.

    Parameters
    ----------
    ripple : Quantity [V]
        What the motor's pulses, in the contact's ohms, leave in the sound while the contact is poor.
    segments : int
        Current pulses in each turn of the motor's shaft.
    shaft : Quantity [Hz]
        Turns in a second.
    sag : float
        Share of the signal lost while the contact is poor.
    mean_bad, mean_good : Quantity [s], above zero
        How long the contact stays poor, and better.
    duration : Quantity [s]
    rate : Quantity [Hz]
    rng : numpy.random.Generator

    Returns
    -------
    Fault

    Notes
    -----
    The brush passes one segment after another; one of them always differs, so the pattern repeats once a turn.
    """
    state = telegraph_state(mean_up=mean_bad, mean_down=mean_good, duration=duration, rate=rate, rng=rng)
    count, plain = _samples(duration, rate)
    slow = 1 + 0.002 * np.sin(2 * np.pi * 0.7 * np.arange(count) / plain + rng.uniform(0, 2 * np.pi))
    angle = np.cumsum(need(shaft, "Hz", "shaft", above=0).m_as("Hz") * slow) / plain + rng.random()
    heights = 1 + 0.3 * rng.standard_normal(segments)
    heights[0] += 1.5
    segment, within = np.divmod(angle * segments, 1)
    pulses = heights[segment.astype(int) % segments] * np.exp(-within / 0.12)
    poor = 0.25 + 0.75 * state
    return Fault(1 - sag * poor, need(ripple, "V", "ripple") * _coupled(poor * pulses, rate))


def turned(*, turns, duration, rate, rng):
    """Where a control stands, 0 to 1, while somebody turns it and leaves it, in turn."""
    count, plain = _samples(duration, rate)
    stops = np.sort(rng.uniform(0.05, 0.95, turns)) * count
    now, time, place = 0.5, [0.0], [0.5]
    for number, start in enumerate(stops):
        goal = rng.uniform(0.75, 1) if number % 2 else rng.uniform(0, 0.25)
        start = max(start, time[-1] + 0.02 * plain)
        time += [start, start + rng.uniform(0.25, 0.7) * plain]
        place += [now, goal]
        now = goal
    return np.interp(np.arange(count), time, place)


def _samples(duration, rate):
    duration, rate = need(duration, "s", "duration", above=0), need(rate, "Hz", "rate", above=0)
    return max(2, round(duration.m_as("s") * rate.m_as("Hz"))), rate.m_as("Hz")


def _coupled(signal, rate):
    """What a coupling capacitor passes: all but what is slower than 10 Hz."""
    # Only here, because scipy would make every import of the laws slower.
    from scipy.signal import butter, sosfilt

    return sosfilt(butter(1, 10, "highpass", fs=need(rate, "Hz", "rate").m_as("Hz"), output="sos"), signal - signal[0])
