"""Invented motors with a known fault, and what fair instruments read of them: drawn from the laws, not from the table of odds."""

from dataclasses import dataclass

WINDING, CONSTANT, COMPENSATION, SOURCE, DROP, SUPPLY, USUAL, OWN = 15.0, 0.013, 13.0, 2.2, 0.3, 9.0, 0.085, 0.020
RATED = 251.327  # rad/s, 2400 turns a minute
SET = CONSTANT * RATED + (WINDING - COMPENSATION) * USUAL
KINDS = ("mechanical load", "headroom", "set point", "motor's own friction", "feedback open", "healthy")


@dataclass(frozen=True)
class Read:
    """Readings with their standard uncertainty: times the usual current, per cent of speed and volts, volts in hand, mA belt off."""

    current: float
    speed: float
    volts: float
    hand: float
    belt_off: float


def draw(kind, rng):
    """One motor with this fault, read by a fair meter and a phone."""
    own = OWN * rng.uniform(0.8, 1.3)
    driven = (USUAL - OWN) * rng.uniform(0.88, 1.12)
    supply, setting, open_loop = SUPPLY * rng.uniform(0.85, 1.02), rng.normal(1, 0.002), False
    if kind == "mechanical load":
        driven *= rng.uniform(1.5, 2.6)
    elif kind == "headroom":
        supply = SET + COMPENSATION * USUAL + SOURCE * USUAL + DROP - rng.uniform(0.1, 1.2)
    elif kind == "set point":
        setting = 1 + rng.choice([-1, 1]) * rng.uniform(0.03, 0.12)
    elif kind == "motor's own friction":
        own += rng.uniform(0.04, 0.1)
    elif kind == "feedback open":
        open_loop = True
    current = own + driven
    offered = supply - DROP - SOURCE * current
    volts = offered if open_loop else min(SET * setting + COMPENSATION * current, offered)
    speed = (volts - WINDING * current) / CONSTANT
    hand = supply - SOURCE * current - volts
    expected = SET + COMPENSATION * current
    return Read(current / USUAL * rng.normal(1, 0.012), 100 * (speed / RATED - 1) + rng.normal(0, 0.12),
                100 * (volts / expected - 1) + rng.normal(0, 0.4), hand + rng.normal(0, 0.02), 1e3 * own + rng.normal(0, 0.8))
