"""What every reckoned signal needs to know: its length, its samples, and where chance comes from."""

from dataclasses import dataclass

import numpy as np

from benchreckoner.units import Q, need


@dataclass(frozen=True)
class Take:
    """How long a signal is, how finely it is reckoned, and the chance in it.

    Parameters
    ----------
    duration : Quantity [s], above zero
    rate : Quantity [Hz], above zero
        Samples in a second.
    rng : numpy.random.Generator
        Its seed decides every jump.
    """

    duration: Q
    rate: Q
    rng: np.random.Generator

    def __post_init__(self):
        need(self.duration, "s", "duration", above=0), need(self.rate, "Hz", "rate", above=0)

    @property
    def each_second(self):
        """Samples in a second, as a plain number."""
        return self.rate.m_as("Hz")

    @property
    def count(self):
        """How many samples, two at least."""
        return max(2, round(self.duration.m_as("s") * self.each_second))

    @property
    def seconds(self):
        """The time of each sample, as plain numbers [s]."""
        return np.arange(self.count) / self.each_second
