"""Readings of one contact pressed with several forces: the slope on log axes, and what it tells."""

import math
from dataclasses import dataclass

import numpy as np
from scipy import stats

from benchreckoner.bench.accuracy import AccuracyEntry, read_accuracy
from benchreckoner.bench.repair import Instrument
from benchreckoner.bench.uncertain import Known, one_reading, propagate
from benchreckoner.physics.force import force_exponent, resistance_at_force, scale_force
from benchreckoner.units import Q, read_quantity, show_exact, ureg

LEAST_FORCES = 3
_SURE = 0.975  # both tails together leave 5 %
_MOST_READINGS = 30  # more is no advice for a bench
_MOST_FORCE = Q(5, "N")  # no contact of this gear is pressed harder


@dataclass(frozen=True)
class Law:
    """What presses like this: the exponent of R = K F^-m, how it is written, and what it means."""

    exponent: float
    written: str
    meaning: str


# Holm, formula F11. MEMORY.
LAWS = (Law(1 / 3, "1/3", "smooth metal that springs"), Law(1 / 2, "1/2", "metal that gives way"),
        Law(1.0, "1", "a film that cracks or carries the current"))


@dataclass(frozen=True)
class Pressed:
    """One force and the ohms read under it."""

    force: Known
    ohms: Known


@dataclass(frozen=True)
class ForceFit:
    """A straight line on log axes through readings at several forces.

    ``exponent`` is m of R = K F^-m. ``by_readings`` is its expanded uncertainty (k = 2) from what the
    instruments promise, ``by_scatter`` half of its 95 % interval from how far the readings stray.
    """

    pairs: tuple[Pressed, ...]
    exponent: float
    by_readings: float
    by_scatter: float

    @property
    def expanded(self):
        """The larger of both: neither sees all of the other."""
        return max(self.by_readings, self.by_scatter)

    @property
    def inside(self):
        """The laws whose exponent lies within the uncertainty."""
        return tuple(law for law in LAWS if abs(law.exponent - self.exponent) <= self.expanded)

    def line(self, force, exponent=None):
        """Ohms on the fitted line, or on one of another slope through the readings' middle."""
        middle_force, middle_ohms = (Q(math.exp(np.mean(np.log(values))), unit) for values, unit in (
            ([pair.force.plain for pair in self.pairs], "N"), ([pair.ohms.plain for pair in self.pairs], "ohm")))
        return resistance_at_force(resistance=middle_ohms, force=middle_force, new_force=force,
                                   exponent=self.exponent if exponent is None else exponent)


def read_pressed(*, shown, ohms, scale="", meter=""):
    """One pair as typed: what the kitchen scale shows, and the ohms under it.

    Parameters
    ----------
    shown : str
        Such as ``120 g`` or ``1.2 N``.
    ohms : str
        Such as ``14.2 mohm``, read with four wires.
    scale, meter : str
        What the makers promise, such as ``2 g`` and ``1 % + 2 digits``. Left out: half the last typed digit alone.

    Returns
    -------
    Pressed

    Raises
    ------
    ValueError
        Names the box, says what is wrong and shows what to write.
    """
    typed = read_quantity(shown, ("g", "N"), "Force")
    if not typed.quantity.magnitude > 0:
        raise ValueError(f'Force: {shown!r} must be above zero, tare the scale before you press; write for example "120 g"')
    quantity = "force" if typed.quantity.is_compatible_with("N") else "mass"
    force = one_reading(typed, quantity=quantity, instrument=_instrument(scale, "Scale's limit", quantity))
    if quantity == "mass":
        force = propagate(scale_force, "N", mass=force)
    typed = read_quantity(ohms, "ohm", "Ohms")
    if not typed.quantity.magnitude > 0:
        raise ValueError(f'Ohms: {ohms!r} must be above zero, take a range that shows the contact; write for example "14.2 mohm"')
    resistance = one_reading(typed, quantity="resistance", instrument=_instrument(meter, "Meter's limit", "resistance"))
    return Pressed(force, resistance)


def fit_force(pairs):
    """Fit R = K F^-m to readings of one contact, as a straight line on log axes.

    Parameters
    ----------
    pairs : sequence of Pressed
        At three different forces at least.

    Returns
    -------
    ForceFit

    Raises
    ------
    ValueError
        If there are fewer than three different forces.

    Notes
    -----
    The readings' uncertainty goes through the law by numerical derivatives (JCGM 100). The scatter's standard error is
    that of an unweighted straight line, times Student's t at 97.5 % with n - 2 degrees of freedom.
    """
    pairs = tuple(pairs)
    forces, ohms = (np.array([getattr(pair, name).plain for pair in pairs]) for name in ("force", "ohms"))
    different = len(np.unique(np.round(np.log(forces), 6)))
    if different < LEAST_FORCES:
        raise ValueError(f"A slope needs {LEAST_FORCES} different forces at least; there "
                         f"{'is' if different == 1 else 'are'} {different or 'none'} so far")
    known = {f"force_{number}": pair.force for number, pair in enumerate(pairs)}
    known |= {f"ohms_{number}": pair.ohms for number, pair in enumerate(pairs)}

    def law(**values):
        force, resistance = (Q(np.stack([values[f"{name}_{number}"].m_as(unit) for number in range(len(pairs))]), unit)
                             for name, unit in (("force", "N"), ("ohms", "ohm")))
        return Q(force_exponent(forces=force, resistances=resistance), "")

    exponent = propagate(law, "", **known)
    x, y = np.log(forces), np.log(ohms)
    x, y = x - x.mean(), y - y.mean()
    left = y + exponent.plain * x
    error = math.sqrt((left**2).sum() / (len(pairs) - 2) / (x**2).sum())
    return ForceFit(pairs, exponent.plain, 2 * exponent.number.std_dev, float(stats.t.ppf(_SURE, len(pairs) - 2)) * error)


def slope_words(fit):
    """What a fit says, in plain sentences: the slope, the laws inside it, and what would settle it.

    Parameters
    ----------
    fit : ForceFit

    Returns
    -------
    str
    """
    decimals = max(1, min(3, 1 - math.floor(math.log10(max(fit.expanded, 1e-3)))))
    slope = f"{fit.exponent:.{decimals}f}".replace("-", "−")
    start = f"Your slope: {slope} ± {fit.expanded:.{decimals}f} (holds about 95 %, {len(fit.pairs)} pairs). "
    named = [f"{law.written} ({law.meaning})" for law in fit.inside]
    if len(named) == 1:
        return f"{start}Of the three laws only {named[0]} lies inside."
    if named:
        return f"{start}Can't tell yet: {', '.join(named[:-1])} and {named[-1]} lie inside. {_settle(fit)}"
    return f"{start}None of these three laws lies inside. {_odd(fit)}"


def in_grams(force):
    """A force with what a kitchen scale shows for it.

    >>> in_grams(Q(0.5, "N"))
    '500 mN (51 g)'
    """
    grams = (force / ureg.standard_gravity).m_as("g")
    rounded = Q(float(f"{force.m_as('N'):.2g}"), "N")
    return f"{show_exact(rounded, 'N')} ({float(f'{grams:.2g}'):g} g)"


def _instrument(limit, name, quantity):
    """The instrument behind a box for its limit; an empty box promises nothing beyond the digits."""
    entries = read_accuracy(limit, name) if limit else (AccuracyEntry(None, None, 0.0, None, 0.0),)
    unit = {"mass": "g", "force": "N", "resistance": "ohm"}[quantity]
    fixed = entries[0].fixed
    if fixed is not None and not fixed.is_compatible_with(unit):
        raise ValueError(f'{name}: {limit!r} is no limit in {unit}, write it in the unit of the reading, for example '
                         f'"{"1 % + 2 digits" if unit == "ohm" else f"2 {unit}"}"')
    return Instrument(name, entries, "")


def _settle(fit):
    """Wider forces or more readings: what would bring the laws inside apart."""
    exponents = [law.exponent for law in fit.inside]
    needed = min(high - low for low, high in zip(exponents, exponents[1:])) / 2
    times = fit.expanded / needed
    forces = [pair.force.plain for pair in fit.pairs]
    low, high = min(forces), max(forces)
    most = _MOST_FORCE.m_as("N")
    ways = []
    if math.log(low) + times * math.log(high / low) <= math.log(most):
        ways.append(f"as many pairs spread from {in_grams(Q(low, 'N'))} to {in_grams(Q(low * (high / low) ** times, 'N'))}")
    elif high < most / 2:
        ways.append("a wider spread of force, from a hundredth of a newton to a few newtons")
    more = _more_readings(fit, needed)
    if more:
        ways.append(f"about {more} more {'pair' if more == 1 else 'pairs'} over the same forces")
    if not ways:
        return "Neither a few more pairs nor more force will settle it: finer or steadier readings would."
    return f"What would settle it: {', or '.join(ways)}."


def _more_readings(fit, needed):
    """How many more pairs of the same kind, over the same forces, suffice; 0 if too many."""
    have = len(fit.pairs)
    for count in range(have + 1, _MOST_READINGS + 1):
        shrink = math.sqrt(have / count)
        scatter = fit.by_scatter * shrink * stats.t.ppf(_SURE, count - 2) / stats.t.ppf(_SURE, have - 2)
        if max(scatter, fit.by_readings * shrink) < needed:
            return count - have
    return 0


def _odd(fit):
    """What a slope beside all laws may mean, and how to find out."""
    if fit.exponent < LAWS[0].exponent:
        return ("It is flatter than any: some ohms that no force changes are in the reading. Look for test leads (two wires?) "
                "or another joint between the probes, and read again closer to the contact.")
    if fit.exponent > LAWS[-1].exponent:
        return ("It is steeper than any: the film tears, or the contact was moved between the readings. Read again from light "
                "to heavy without lifting it.")
    return ("It lies between them: perhaps one law at light forces and another at heavy ones. More pairs, light and heavy, "
            "show whether the line bends.")
