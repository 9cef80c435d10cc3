"""From masses hung on a piece of belt back to its rubber: stiffness, modulus and free length, each with its uncertainty."""

from dataclasses import dataclass

import numpy as np
import uncertainties
from scipy.optimize import least_squares
from scipy.special import ndtri
from scipy.stats import chi2
from uncertainties import umath

from benchreckoner.bench.belt_draws import COUNT, SEED
from benchreckoner.bench.belt_priors import evenly, prior
from benchreckoner.bench.belt_reckon import modulus_of
from benchreckoner.bench.uncertain import Known, within
from benchreckoner.bench.verdict import NEEDED
from benchreckoner.physics.rubber import GREATEST_RATIO
from benchreckoner.units import Q, need

_GRAVITY = 9.80665  # m/s**2, standard; it differs by 0.3 % at most between places
_SHAPE = np.sqrt(3)  # a limit a is the half-width of an even spread: u = a / sqrt(3)
_TOO_WIDE = 0.3  # of the stiffness, k = 2: beyond it the hardness says as much
_NOTHING = 1.0  # of the stiffness, k = 2: it might as well be nought
_ROUNDS = 3  # what a millimetre weighs hangs on the fit itself; it settles at once
_WELL_HELD = 1.25  # up to here the law follows gum rubber within 3 % (Treloar's data)
_BAND = (0.025, 0.5, 0.975)
_GENERATOR = np.random.default_rng(SEED)
_POINTS = 2 * evenly(_GENERATOR, COUNT) - 1
_COMPOUND = np.exp(prior("modulus")["limit"] / _SHAPE * ndtri(evenly(_GENERATOR, COUNT)))


@dataclass(frozen=True)
class Hung:
    """One mass on the piece, nought for none, and how long the piece then was."""

    mass: Q
    length: Q


@dataclass(frozen=True)
class RubberFit:
    """What masses and lengths say of one piece of belt.

    Parameters
    ----------
    stiffness : Known [N]
        Modulus times section: all that a belt's pull needs, the thickness has no part in it.
    modulus, shear : Known [MPa]
        Young's modulus, and a third of it.
    free_length : Known [mm]
    ratios : tuple of float
        Stretch ratio at each reading.
    reasons : tuple of str
        What makes the modulus uncertain, and what looks wrong with the readings.
    """

    stiffness: Known
    modulus: Known
    shear: Known
    free_length: Known
    ratios: tuple
    reasons: tuple


def fit_rubber(hung, *, length_limit, mass_share, area, legs):
    r"""Fit the law of stretched rubber to masses hung on a piece of belt.

    Parameters
    ----------
    hung : sequence of Hung
        Two or more, with different masses; one of them may be nought.
    length_limit : Quantity [mm]
        Within which each length is right.
    mass_share : float
        Share within which all masses together are right, such as 0.02.
    area : Known [mm**2]
        Of the cut through the free belt.
    legs : int
        2 for a loop, 1 for a strip.

    Returns
    -------
    RubberFit

    Raises
    ------
    ValueError
        For too few readings, a piece that does not grow with the mass, or so little that nothing can be told, or one stretched
        beyond 1.5 times its length, where the law stops holding.

    Notes
    -----
    Least squares on :math:`m g / n = E A (\lambda - \lambda^{-2}) / 3`, the free length fitted along, each reading weighed by
    what its length leaves open. What all masses share moves the stiffness as a whole. Where chi squared leaves less than 5 %
    chance, the uncertainty is widened by sqrt(chi squared / degrees of freedom).

    References
    ----------
    .. [1] The law as in `rubber.neo_hookean_tension`; tested against Treloar's data (FOUND) and against a fit of lengths by roots.
    """
    force, length, sigma = _readings(hung, length_limit, legs)

    def pull(stiffness, free):
        return stiffness / 3 * (length / free - (length / free) ** -2)

    unknown = _spring(force, length)  # logarithm of modulus times section, and the free length
    for _ in range(_ROUNDS):
        stiffness, free = np.exp(unknown[0]), unknown[1]
        weight = sigma * stiffness / (3 * free) * (1 + 2 * (length / free) ** -3)  # newton for what the ruler leaves open
        found = least_squares(lambda tried, weight=weight: (pull(np.exp(tried[0]), tried[1]) - force) / weight, unknown, x_scale=(0.1, 1))
        unknown = found.x
    return _fit(found, _held(hung, length / unknown[1]), within(Q(1, ""), mass_share, "").number, area, sigma)


def guessed_modulus(hardness):
    """Young's modulus that a hardness lets one guess, with the scatter of compounds and of what sellers state.

    Parameters
    ----------
    hardness : float
        Shore A, 25 to 75.

    Returns
    -------
    Quantity [Pa]
        Its 2.5 %, 50 % and 97.5 % places.
    """
    stiff = modulus_of(hardness + prior("hardness")["limit"] * _POINTS) * _COMPOUND
    return Q(np.quantile(stiff, _BAND), "Pa")


def _readings(hung, length_limit, legs):
    """Force in each leg [N], lengths and their standard uncertainty [mm]."""
    if legs not in (1, 2):
        raise ValueError(f"legs: a strip has 1, a loop has 2, got {legs!r}")
    if len(hung) < 2:
        raise ValueError("hung: two masses are needed at least, one of them may be 0 g; four or five are better")
    masses = np.array([need(one.mass, "kg", "mass", least=0).magnitude for one in hung])
    lengths = np.array([need(one.length, "mm", "length", above=0).magnitude for one in hung])
    if np.ptp(masses) <= 0:
        raise ValueError("hung: all masses are the same; hang different ones")
    return masses * _GRAVITY / legs, lengths, need(length_limit, "mm", "length_limit", above=0).magnitude / _SHAPE


def _spring(force, length):
    """Where the fit begins: logarithm of modulus times section, and free length, of a steel spring."""
    slope, free = np.polyfit(force, length, 1)
    if not (slope > 0 and free > 0):
        raise ValueError("hung: the piece does not grow longer with the mass; were two lines exchanged, or millimetres and grams? "
                         'Write for example "20 g: 103 mm; 40 g: 106 mm"')
    return np.array([np.log(free / slope), free])


def _held(hung, ratios):
    """The stretch ratios, all of them within the law."""
    if np.max(ratios) > GREATEST_RATIO:
        raise ValueError(f"hung: {hung[int(np.argmax(ratios))].mass.to('g'):.4g~P} stretch the piece to {np.max(ratios):.2f} times its "
                         f"length, beyond {GREATEST_RATIO}, where the law stops holding; leave that line out and hang less")
    return ratios


def _fit(found, ratios, masses, area, sigma):
    freedom, squares = len(ratios) - 2, 2 * found.cost
    bent = freedom > 0 and squares > chi2.ppf(NEEDED, freedom)
    covariance = np.linalg.inv(found.jac.T @ found.jac) * (squares / freedom if bent else 1)
    logarithm, free = uncertainties.correlated_values(found.x, covariance)
    if 2 * logarithm.std_dev >= _NOTHING:
        raise ValueError(f"hung: the piece grew too little, or too unevenly, beside {_SHAPE * sigma:.2g} mm to tell anything; hang more, take "
                         "a longer piece, or read each length again after one minute")
    stiffness = umath.exp(logarithm) * masses
    modulus = stiffness / area.number
    shares = {"how thick the piece is": area.number.std_dev / area.plain, "the lengths": logarithm.std_dev,
              "the masses": uncertainties.std_dev(masses)}
    reasons = [f"What is left open of the modulus comes chiefly from {max(shares, key=shares.get)}."]
    if bent:
        reasons.append("The readings lie off the law by more than the ruler explains: was the piece stretched a few times first, and each "
                       "length read after one minute?")
    if np.max(ratios) > _WELL_HELD:
        reasons.append(f"The piece was stretched to {np.max(ratios):.2f} times its length: beyond {_WELL_HELD} the law makes the "
                       "rubber up to a tenth too soft. Leave the heaviest out.")
    if 2 * logarithm.std_dev > _TOO_WIDE:
        reasons.append(f"The piece grew too little beside {_SHAPE * sigma:.2g} mm: hang more, or take a longer piece.")
    return RubberFit(Known(stiffness, "N"), Known(modulus, "MPa"), Known(modulus / 3, "MPa"), Known(free, "mm"),
                     tuple(float(ratio) for ratio in ratios), tuple(reasons))
