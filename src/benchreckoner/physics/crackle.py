"""Crackle: four faults as signals.

Every signal is reckoned, none is sampled: the same seed gives the same crackle.
"""

from dataclasses import dataclass

import numpy as np

from benchreckoner.units import Q, need


def telegraph_state(*, mean_up, mean_down, take):
    """A random jumper as a row of zeros and ones.

    Parameters
    ----------
    mean_up, mean_down : Quantity [s], above zero
        How long it stays at one and at zero, on average.
    take : Take

    Returns
    -------
    numpy.ndarray
        Zeros and ones.

    Notes
    -----
    Stays are exponentially spread; `telegraph` has the law. A stay shorter than a sample may be missed.
    """
    up, down = (need(mean, "s", name, above=0).m_as("s") * take.each_second
                for mean, name in ((mean_up, "mean_up"), (mean_down, "mean_down")))
    first = take.rng.random() < up / (up + down)
    edges, at, state = [], 0.0, first
    while at < take.count:
        stays = take.rng.exponential((up, down) if state else (down, up), size=(64, 2)).ravel()
        edges.append(at + np.cumsum(stays))
        at = edges[-1][-1]
    passed = np.searchsorted(np.concatenate(edges), np.arange(take.count), side="right")
    return ((passed + int(not first)) % 2 == 0).astype(float)


@dataclass(frozen=True, eq=False)
class Fault:
    """What a fault does to a signal: multiplies it by `gain`, adds `added` [V]."""

    gain: np.ndarray
    added: Q

    def heard(self, music):
        """The signal as it comes out of the machine [V]."""
        return (self.gain * need(music, "V", "music") + self.added).to("V")


def contact_flicker(*, depth, step, mean_open, mean_closed, take):
    """A contact in the signal's path that lets go and takes hold at random, turned or not.

    Parameters
    ----------
    depth : float
        Share of the signal lost while it lets go, 0 to 1.
    step : Quantity [V]
        The jump that a little direct current across it makes.
    mean_open, mean_closed : Quantity [s], above zero
    take : Take

    Returns
    -------
    Fault
    """
    if not 0 <= depth <= 1:
        raise ValueError(f"depth is a share from 0 to 1, such as 0.7, got {depth:g}")
    state = telegraph_state(mean_up=mean_open, mean_down=mean_closed, take=take)
    return Fault(1 - depth * state, _coupled(need(step, "V", "step") * state, take))


def worn_wiper(*, lift, step, worn_places, turns, take):
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
    take : Take

    Returns
    -------
    Fault

    Notes
    -----
    The roughness belongs to the place, not to the moment: turned back, it comes again in reverse.
    """
    position = turned(turns=turns, take=take)
    centres = take.rng.uniform(0, 1, worn_places)
    widths = take.rng.exponential(4e-4, worn_places) + 1e-4
    places = np.linspace(0, 1, 20001)
    track = np.zeros_like(places)
    for centre, width in zip(centres, widths):
        track[np.abs(places - centre) < width] = take.rng.uniform(0.5, 1)
    off = np.interp(position, places, track)
    return Fault(_volume(position) * (1 - lift * off), _coupled(need(step, "V", "step") * off, take))


def leaky_bias(*, direct, roughness, drift, turns, take):
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
    take : Take

    Returns
    -------
    Fault

    Notes
    -----
    The volts follow the wiper; the coupling capacitor passes only their changes. So the control itself may be sound.
    """
    position = turned(turns=turns, take=take)
    track = np.interp(position * 2000, np.arange(2001), take.rng.standard_normal(2001))
    walk = np.cumsum(take.rng.standard_normal(take.count)) / np.sqrt(take.each_second)
    volts = need(direct, "V", "direct") * (position + roughness * track) + need(drift, "V", "drift") * walk
    return Fault(_volume(position), _coupled(volts, take))


def shared_supply_contact(*, ripple, segments, shaft, sag, mean_bad, mean_good, take):
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
    take : Take

    Returns
    -------
    Fault

    Notes
    -----
    The brush passes one segment after another; one of them always differs, so the pattern repeats once a turn.
    """
    state = telegraph_state(mean_up=mean_bad, mean_down=mean_good, take=take)
    slow = 1 + 0.002 * np.sin(2 * np.pi * 0.7 * take.seconds + take.rng.uniform(0, 2 * np.pi))
    angle = np.cumsum(need(shaft, "Hz", "shaft", above=0).m_as("Hz") * slow) / take.each_second + take.rng.random()
    heights = 1 + 0.3 * take.rng.standard_normal(segments)
    heights[0] += 1.5
    segment, within = np.divmod(angle * segments, 1)
    pulses = heights[segment.astype(int) % segments] * np.exp(-within / 0.12)
    poor = 0.25 + 0.75 * state
    return Fault(1 - sag * poor, _coupled(need(ripple, "V", "ripple") * poor * pulses, take))


def turned(*, turns, take):
    """Where a control stands, 0 to 1, while somebody turns it and leaves it, in turn."""
    rng, length = take.rng, take.count / take.each_second
    now, time, place = 0.5, [0.0], [0.5]
    for number, start in enumerate(np.sort(rng.uniform(0.05, 0.95, turns)) * length):
        goal = rng.uniform(0.75, 1) if number % 2 else rng.uniform(0, 0.25)
        start = max(start, time[-1] + 0.02)
        time += [start, start + rng.uniform(0.25, 0.7)]
        place += [now, goal]
        now = goal
    return np.interp(take.seconds, time, place)


def _volume(position):
    """What a control hands on: half of the signal at one end of its way, all at the other."""
    return 0.5 + 0.5 * position


def _coupled(volts, take):
    """What a coupling capacitor passes of a voltage: all but what is slower than 10 Hz."""
    # Only here, because scipy would make every import of the laws slower.
    from scipy.signal import butter, sosfilt

    plain = volts.m_as("V")
    return Q(sosfilt(butter(1, 10, "highpass", fs=take.each_second, output="sos"), plain - plain[0]), "V")
