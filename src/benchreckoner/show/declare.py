"""What a live picture is made of: its function, its sliders, its goal."""

import itertools
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import numpy as np

from benchreckoner.units import Q, show


def ladder(low, high, count, scale="linear"):
    """Steps for a slider, rounded so that each one reads well.

    Parameters
    ----------
    low, high : float
        First and last step; above zero for a log ladder.
    count : int
        How many steps.
    scale : str
        ``"linear"`` or ``"log"``.

    Returns
    -------
    tuple of float
        Two significant digits where a log ladder allows it, else three.

    Raises
    ------
    ValueError
        When so many steps would need a fourth digit.

    Examples
    --------
    >>> ladder(0.01, 1, 5, "log")
    (0.01, 0.032, 0.1, 0.32, 1.0)
    """
    if scale not in ("linear", "log"):
        raise ValueError(f"ladder: scale is \"linear\" or \"log\", not {scale!r}")
    if count < 2 or not low < high or (scale == "log" and not low > 0):
        raise ValueError(f"ladder: needs low below high and two steps, got {low}, {high}, {count} ({scale})")
    exact = np.geomspace(low, high, count) if scale == "log" else np.linspace(low, high, count)
    for digits in (2, 3) if scale == "log" else (3,):
        steps = [float(f"{value:.{digits}g}") for value in exact]
        if all(first < second for first, second in itertools.pairwise(steps)):
            return tuple(steps)
    raise ValueError(f"ladder: {count} steps from {low} to {high} are too many for three digits, ask for fewer")


@dataclass(frozen=True)
class Slider:
    """A ladder of values that a reader moves along.

    Parameters
    ----------
    name : str
        The picture function's keyword.
    label : str
        What it is, in plain words.
    unit : str
        Such as ``"ohm"``, without a prefix; empty for a count, which arrives as a plain number.
    steps : sequence of float
        Rising values in that unit; `ladder` makes them.
    start : float
        Where it stands at first: the step nearest to this.
    """

    name: str
    label: str
    unit: str
    steps: tuple
    start: float

    def __post_init__(self):
        steps = tuple(float(step) for step in self.steps)
        if len(steps) < 2 or not all(first < second for first, second in itertools.pairwise(steps)):
            raise ValueError(f"slider {self.name!r}: steps must rise and be two at least, got {self.steps!r}")
        if not steps[0] <= self.start <= steps[-1]:
            raise ValueError(f"slider {self.name!r}: start {self.start} lies outside {steps[0]} to {steps[-1]}")
        object.__setattr__(self, "steps", steps)

    @property
    def start_position(self):
        """The step nearest to where it starts."""
        return int(np.argmin(np.abs(np.array(self.steps) - self.start)))

    def value(self, position):
        """The quantity at a step, or a plain number for a count."""
        if not 0 <= position < len(self.steps):
            raise ValueError(f"slider {self.name!r}: has steps 0 to {len(self.steps) - 1}, not {position}")
        return Q(self.steps[position], self.unit) if self.unit else self.steps[position]

    def text(self, position):
        """A step as the reader sees it, such as ``52 mΩ``."""
        step = self.steps[position]
        digits = next((few for few in range(2, 7) if math.isclose(float(f"{step:.{few}g}"), step)), 4)
        return show(Q(step, self.unit), self.unit, digits=digits) if self.unit else f"{step:g}"


@dataclass(frozen=True)
class LivePicture:
    """A picture with sliders, as a lesson declares it.

    Parameters
    ----------
    key : str
        Short and unique: small letters, digits and hyphens.
    picture : callable
        Takes one keyword for each slider and each fixed argument, returns a `Picture`
        whose axes and whose marks' names stay the same; a mark that is not there is NaN.
    sliders : sequence of Slider
    goal : str
        What to try, such as ``"Find the ohms that leave 5.0 V."``
    fixed : mapping
        Further keyword arguments that no slider moves.
    phone_sliders : sequence of str
        The one or two sliders kept on a small page; left out, the first.
    phone_goal : str
        The goal on a small page, where the kept sliders cannot meet all of `goal`; left out, `goal`.
    """

    key: str
    picture: Callable
    sliders: tuple
    goal: str = ""
    fixed: Mapping = field(default_factory=dict)
    phone_sliders: tuple = ()
    phone_goal: str = ""

    def __post_init__(self):
        if not re.fullmatch(r"[a-z][a-z0-9-]*", self.key):
            raise ValueError(f"live picture {self.key!r}: write a key of small letters, digits and hyphens, "
                             "such as \"held-volts\"")
        sliders = tuple(self.sliders)
        names = [slider.name for slider in sliders]
        if not names or len({*names, *self.fixed}) != len(names) + len(self.fixed):
            raise ValueError(f"live picture {self.key!r}: needs a slider, and each keyword only once")
        phone = tuple(self.phone_sliders) or (names[0],)
        if len(phone) > 2 or not set(phone) <= set(names):
            raise ValueError(f"live picture {self.key!r}: phone_sliders names one or two of {', '.join(names)}")
        object.__setattr__(self, "sliders", sliders)
        object.__setattr__(self, "phone_sliders", phone)

    @property
    def start(self):
        """The step of each slider at first, by name."""
        return {slider.name: slider.start_position for slider in self.sliders}

    def values(self, positions):
        """The quantity of each slider at these steps."""
        return {slider.name: slider.value(positions[slider.name]) for slider in self.sliders}

    def at(self, positions):
        """The picture with each slider at this step, by name."""
        return self.picture(**self.values(positions), **self.fixed)


def corners(declaration):
    """Every combination of the sliders' ends.

    Yields
    ------
    positions : dict
        Step by slider name.
    picture : Picture
    """
    names = [slider.name for slider in declaration.sliders]
    for ends in itertools.product(*((0, len(slider.steps) - 1) for slider in declaration.sliders)):
        positions = dict(zip(names, ends))
        yield positions, declaration.at(positions)
