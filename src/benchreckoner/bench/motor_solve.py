"""The equations that a motor's runs make, V - Vb = I R + Ke w, and their least squares, with all that the runs share."""

import math
from dataclasses import dataclass

import numpy as np
from scipy import linalg, stats
from uncertainties import covariance_matrix, ufloat

from benchreckoner.bench.motor_run import HELD, Run
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import Q

ONE_POSITION = 0.25  # a sound rotor of three segments reads a quarter less where one brush touches two of them
_LIMIT = math.sqrt(3)
_WORTH = 0.5  # known to no better than half of itself, a constant is not told
_ROUNDS = 4  # weights depend on the answer, weakly


@dataclass(frozen=True)
class Equation:
    """Volts behind the brushes, amperes and radians a second, as uncertain numbers; `run` is None for all held positions together."""

    volts: object
    amps: object
    speed: object
    run: Run | None


@dataclass(frozen=True)
class Solved:
    """What the equations gave.

    ``resistance`` and ``constant`` are None where the runs cannot tell them, ``possible`` is False where no motor gives
    such runs. ``chance`` says how often runs of one motor would disagree so much; ``worst`` strays the furthest, where it can be told.
    """

    resistance: Known | None = None
    constant: Known | None = None
    possible: bool = True
    chance: float = 1.0
    worst: Run | None = None


def held_ohms(run, brush_drop):
    """Ohms at one position of the held rotor."""
    return Known((run.voltage.number - brush_drop.m_as("V")) / run.current.number, "ohm")


def averaged(numbers):
    """Mean of repeats, their scatter widened by Student's t so that k = 2 holds for few; None of none."""
    if not numbers:
        return None
    middle, count = sum(numbers) / len(numbers), len(numbers)
    if count == 1:
        return middle
    scatter = np.std([number.nominal_value for number in numbers], ddof=1) / math.sqrt(count)
    return middle + _spread(scatter * stats.t.ppf(0.975, count - 1) / 2)


def solve(runs, brush_drop):
    """Winding resistance and motor constant that fit all runs best.

    Parameters
    ----------
    runs : sequence of Run
    brush_drop : Quantity [V]

    Returns
    -------
    Solved
    """
    equations = _equations(runs, brush_drop)
    held, turning = [one for one in equations if one.run is None], [one for one in equations if one.run is not None]
    if not turning:
        return Solved(resistance=_worth(Known(held[0].volts, "ohm"))) if held else Solved()
    if len(equations) < 2:
        return Solved()
    return _least_squares(equations)


def too_fast(runs, brush_drop):
    """Runs that turn faster than their volts allow, judged by the constant that all the others give."""
    found = []
    for run in (run for run in runs if run.turning):
        others = solve([other for other in runs if other is not run], brush_drop)
        if others.constant is None or others.resistance is None:
            continue
        back = others.constant.number * _radians(run.speed)
        if Known(back, "V").lies_above(Known(run.voltage.number - brush_drop.m_as("V"), "V")):
            found.append(run)
    return tuple(found)


def _equations(runs, brush_drop):
    """One for each turning run, and one for all held positions together: the running rotor passes through them all."""
    drop = brush_drop.m_as("V")
    found = [Equation(run.voltage.number - drop, run.current.number, _radians(run.speed), run) for run in runs if run.turning]
    ohms = [held_ohms(run, brush_drop).number for run in runs if run.kind == HELD]
    if len(ohms) == 1:
        ohms[0] += _spread(ONE_POSITION * ohms[0].nominal_value / _LIMIT)
    return found + ([Equation(averaged(ohms), 1.0, 0.0, None)] if ohms else [])


def _radians(speed):
    return speed.number * Q(1, speed.unit).m_as("rad/s")


def _least_squares(equations):
    factors = np.array([[_plain(one.amps), _plain(one.speed)] for one in equations])
    volts = np.array([_plain(one.volts) for one in equations])
    answer, each = np.zeros(2), np.abs(volts)
    for _ in range(_ROUNDS):
        answer = linalg.lstsq(factors / each[:, None], volts / each)[0]
        misses = [one.volts - one.amps * answer[0] - one.speed * answer[1] for one in equations]
        each = np.array([miss.std_dev for miss in misses])
    if not np.all(answer > 0):
        return Solved(possible=False)
    ways = linalg.pinv(factors / each[:, None]) / each
    left = np.array([miss.nominal_value for miss in misses])
    chance, wider = _surprise(misses, left, factors @ ways)
    moved = [miss - value + _spread(wider * size) for miss, value, size in zip(misses, left, each)]
    known = [Known(value + sum(way * move for way, move in zip(row, moved)), unit)
             for value, row, unit in zip(answer, ways, ("ohm", "V*s/rad"))]
    worst = equations[int(np.argmax(np.abs(left / each)))].run if len(equations) > 3 else None
    return Solved(_worth(known[0]), _worth(known[1]), chance=chance, worst=worst)


def _surprise(misses, left, fitted):
    """How often one motor's runs would stray so far, and by how much wider than promised they do, as a share of each promise."""
    free = len(misses) - 2
    if not free:
        return 1.0, 0.0
    rest = np.eye(len(misses)) - fitted
    spread = rest @ np.array(covariance_matrix(misses)) @ rest.T
    strays = max(0.0, float(left @ linalg.pinvh(spread, rtol=1e-9) @ left))
    return float(stats.chi2.sf(strays, free)), math.sqrt(max(0.0, strays / free - 1))


def _spread(size):
    return ufloat(0, size) if size > 0 else 0.0


def _plain(number):
    return getattr(number, "nominal_value", number)


def _worth(known):
    return known if 2 * known.number.std_dev < _WORTH * known.plain else None
