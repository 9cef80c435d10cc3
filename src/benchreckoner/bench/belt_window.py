"""What is good for a drive: the window that a belt must sit in, and how one sits beside it."""

import tomllib
from dataclasses import dataclass
from importlib import resources

import numpy as np

_ROWS = tomllib.loads(resources.files(__package__).joinpath("belt_window.toml").read_text(encoding="utf-8"))
WAYS = ("loose", "tight", "slip", "hub", "current", "fast", "slow", "bend", "groove")


@dataclass(frozen=True)
class Side:
    """One side of the window: which quantity of a belt, from or up to where, and who says so."""

    way: str
    quantity: str
    limit: float
    above: bool
    source: str
    mark: str

    def fails(self, values):
        """Whether each value lies outside; where there is none (NaN), another side has failed already."""
        return values > self.limit if self.above else values < self.limit


def window(drive):
    """The sides of the good window, in the order in which they are told.

    Parameters
    ----------
    drive : Drive
        Its trimmer sets the ends for the speed, its groove the widest belt.

    Returns
    -------
    tuple of Side
    """
    stretch, trimmer = _ROWS["stretch"], "what the speed trimmer of this drive can take, as stated"
    sides = [_side("loose", "stretch", stretch, "low", above=False), _side("tight", "stretch", stretch, "high"),
             _side("slip", "margin", _ROWS["margin"], "least", above=False), _side("hub", "hub", _ROWS["hub"], "most"),
             _side("current", "current", _ROWS["current"], "most"),
             Side("fast", "speed", drive.trimmer, True, trimmer, "PRACTICE"),
             Side("slow", "speed", -drive.trimmer, False, trimmer, "PRACTICE"), _side("bend", "bend", _ROWS["bend"], "most")]
    if drive.groove is not None:
        sides.append(Side("groove", "width", drive.groove.m_as("m"), True, "the groove's width, as stated", "PRACTICE"))
    return tuple(sides)


def failing(sides, reckoned):
    """Which draws of a belt lie outside which side.

    Parameters
    ----------
    sides : tuple of Side
    reckoned : Reckoned

    Returns
    -------
    dict of str to array of bool
        By the side's `way`.
    """
    return {side.way: side.fails(getattr(reckoned, side.quantity)) for side in sides}


def inside(failures):
    """Which draws lie inside every side."""
    return ~np.logical_or.reduce(list(failures.values()))


def _side(way, quantity, row, edge, *, above=True):
    return Side(way, quantity, row[edge], above, row["source"], row["mark"])
