"""A plain tune reckoned note by note, to have something that a fault can spoil."""

import numpy as np

from benchreckoner.units import need

_STEPS = np.array([0, 2, 4, 7, 9, 12, 14, 16])  # semitones of a five-note scale


def plucked_tune(*, level, lowest, note, brightness, take):
    """Notes of a five-note scale, plucked and dying away.

    Parameters
    ----------
    level : Quantity [V]
        Largest value.
    lowest : Quantity [Hz]
    note : Quantity [s]
        Length of one note.
    brightness : float
        How slowly the overtones weaken, 0 (soft) to 1 (bright).
    take : Take
        Its chance chooses the notes.

    Returns
    -------
    Quantity [V]
        As long as the duration.
    """
    rate = take.each_second
    length = need(note, "s", "note", above=0).m_as("s")
    sound, time = np.zeros(take.count), np.arange(round(2.5 * length * rate)) / rate
    # Struck softly and let die to nothing: an edge at either end would be a crackle of its own.
    shape = (1 - np.exp(-time / 0.008)) * np.cos(np.pi / 2 * time / time[-1]) ** 2
    for start in range(0, take.count, max(1, round(length * rate))):
        pitch = need(lowest, "Hz", "lowest", above=0).m_as("Hz") * 2 ** (take.rng.choice(_STEPS) / 12)
        tone = sum(np.sin(2 * np.pi * order * pitch * time) * np.exp(-time * order / length) * order ** (brightness - 2)
                   for order in range(1, 9) if order * pitch < rate / 2.2)
        end = min(take.count, start + len(time))
        sound[start:end] += (shape * tone)[:end - start]
    return need(level, "V", "level") * (sound / np.max(np.abs(sound)))
