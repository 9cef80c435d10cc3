"""A power law through readings on log axes, with the uncertainty that the readings share."""

import math
from dataclasses import dataclass

import numpy as np
import uncertainties
from scipy.stats import chi2
from uncertainties import umath

from benchreckoner.bench.uncertain import Known
from benchreckoner.bench.verdict import NEEDED

_SPREAD = 1e-12  # logarithms nearer than this are one and the same place
_FIRM = 1e-9  # share of the variance added, so that readings which share everything can still be weighed


@dataclass(frozen=True)
class PowerLaw:
    """y = level * (x / at) ** slope, level and slope uncertain and bound to each other.

    Attributes
    ----------
    logarithm : uncertain number
        Of y at the middle of the readings, y in `unit`.
    slope : Known
        A plain number.
    middle : float
        The logarithm of x there, x in `x_unit`.
    stretch : float
        By how much the uncertainty was widened because the readings lie off the law; 1 where they do not.
    count : int
        Readings behind it.
    """

    logarithm: object
    slope: Known
    middle: float
    unit: str
    x_unit: str
    stretch: float
    count: int

    @property
    def bent(self):
        """Whether the readings lie off the law by more than their uncertainties explain."""
        return self.stretch > 1

    def at(self, x):
        """y at a plain quantity x, correlated with the readings behind it."""
        along = math.log(float(x.m_as(self.x_unit))) - self.middle
        return Known(umath.exp(self.logarithm + self.slope.number * along), self.unit)


def fit_power_law(*, x, y):
    """The power law that fits several readings best, each weighed by its own uncertainty.

    Parameters
    ----------
    x, y : sequence of Known
        Two or more, all above zero; x in two places at least. Both may be uncertain.

    Returns
    -------
    PowerLaw

    Raises
    ------
    ValueError
        If there are fewer than two places, or a value is not above zero.

    Notes
    -----
    A straight line through the logarithms by generalised least squares: what the readings share, such as one meter's
    percentage, moves the level and not the slope. An uncertain x counts as an uncertain y, by the slope of an unweighed
    first fit. Where chi squared leaves less than 5 % chance, the whole uncertainty is widened by
    sqrt(chi squared / degrees of freedom); two readings cannot show it.

    References
    ----------
    .. [1] Generalised least squares, and the widening by the residuals. MEMORY. Tested against numpy's polyfit and
       against readings simulated from a known law.
    """
    if len(x) != len(y) or len(x) < 2:
        raise ValueError(f"y: a power law needs two readings at least and as many x, got {len(x)} and {len(y)}")
    for name, readings in (("x", x), ("y", y)):
        if not all(one.plain > 0 for one in readings):
            raise ValueError(f"{name}: a logarithm needs values above zero; leave out a reading of nothing")
    along, up = (np.log([one.plain for one in readings]) for readings in (x, y))
    middle = float(along.mean())
    along = along - middle
    if along.max() - along.min() < _SPREAD:
        raise ValueError("x: all readings lie in one place, so there is no slope; read at another too")
    first = np.polyfit(along, up, 1)[0]
    # What each reading may be off the line, up or along.
    off = [umath.log(high.number) - first * umath.log(far.number) for far, high in zip(x, y, strict=True)]
    off = [one - one.nominal_value for one in off]
    spread = np.array(uncertainties.covariance_matrix(off))
    spread += np.eye(len(off)) * max(_FIRM * np.trace(spread) / len(off), 1e-30)
    design = np.column_stack([np.ones_like(along), along])
    inverse = np.linalg.inv(spread)
    covariance = np.linalg.inv(design.T @ inverse @ design)
    weights = covariance @ design.T @ inverse
    level, slope = weights @ up
    residual = up - design @ [level, slope]
    squares, freedom = float(residual @ inverse @ residual), len(up) - 2
    stretch = 1.0
    wider = (0.0, 0.0)
    if freedom and squares > chi2.ppf(NEEDED, freedom):
        stretch = math.sqrt(squares / freedom)
        wider = uncertainties.correlated_values([0, 0], (stretch**2 - 1) * covariance)
    level, slope = (float(value) + sum(float(weight) * one for weight, one in zip(row, off, strict=True)) + extra
                    for value, row, extra in zip((level, slope), weights, wider, strict=True))
    return PowerLaw(level, Known(slope, ""), middle, y[0].unit, x[0].unit, stretch, len(up))
