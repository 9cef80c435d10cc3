"""Draws of everything that is not known for certain, of a drive and of each belt: the particles that all reckoning with belts shares.

The drive's draws stand beside every belt's alike, so belts are compared on the same drive. A belt's own draws hang on the seed
and its name alone.
"""

import zlib
from dataclasses import dataclass, fields, replace

import numpy as np
from scipy.special import ndtri

from benchreckoner.bench.belt_priors import draw, evenly, prior

COUNT, SEED = 4000, 4


@dataclass(frozen=True, eq=False)
class Own:
    """Draws of one belt: its size [m], thickness [m], points of Shore A beside the stated, and own part of ln E."""

    size: np.ndarray
    thickness: np.ndarray
    hardness: np.ndarray
    stiffness: np.ndarray

    def taken(self, indices):
        """The same with these draws alone, in this order."""
        return _taken(self, indices)


@dataclass(frozen=True, eq=False)
class Draws:
    """Draws of one drive and its belts, SI units, each array with one entry a draw.

    ``bearing`` is the friction coefficient times one plus twice the overhang; ``friction`` that of clean rubber, fresh;
    ``aged`` the share of it that dust and shine leave; ``relaxation`` the pull lost with each tenfold of time; ``common``
    the part of ln E that belts out of one bag share; ``own`` the belts' own, by name.
    """

    seat_path: np.ndarray
    load: np.ndarray
    motor_constant: np.ndarray
    no_load_current: np.ndarray
    bearing: np.ndarray
    friction: np.ndarray
    aged: np.ndarray
    loss_tangent: np.ndarray
    relaxation: np.ndarray
    density: np.ndarray
    common: np.ndarray
    own: dict

    def taken(self, indices):
        """The draws at these indices, repeats welcome: what is left of them once a reading has spoken.

        Parameters
        ----------
        indices : array of int
            Drawn by weight, so that likely draws come often.

        Returns
        -------
        Draws
        """
        return replace(_taken(self, indices), own={name: own.taken(indices) for name, own in self.own.items()})

    def with_belts(self, belts, *, seed=SEED):
        """The same draws with those of further belts beside them; a belt that is there already keeps its own."""
        new = {belt.name: own_draws(belt, count=len(self.load), seed=seed) for belt in belts if belt.name not in self.own}
        return replace(self, own={**self.own, **new})


def draws_of(drive, belts, *, count=COUNT, seed=SEED):
    """Draw a drive and its belts.

    Parameters
    ----------
    drive : Drive
    belts : sequence of Belt
    count, seed : int, optional

    Returns
    -------
    Draws
    """
    generator = np.random.default_rng(seed)
    known = {name: _normal(getattr(drive, name), unit, evenly(generator, count))
             for name, unit in (("seat_path", "m"), ("load", "N*m"), ("motor_constant", "V*s/rad"), ("no_load_current", "A"))}
    believed = {name: draw(prior(row, kind), evenly(generator, count)) for name, row, kind in (
        ("bearing", "bearing", drive.bearing), ("friction", "friction", None), ("aged", "aged_friction", None),
        ("loss_tangent", "loss_tangent", None), ("relaxation", "relaxation", None), ("density", "density", None))}
    believed["bearing"] = believed["bearing"] * (1 + 2 * drive.overhang)
    common = np.sqrt(prior("modulus")["common_share"]) * _scatter() * ndtri(evenly(generator, count))
    return Draws(**known, **believed, common=common, own={}).with_belts(belts, seed=seed)


def own_draws(belt, *, count=COUNT, seed=SEED):
    """Draw what one belt has of its own.

    Parameters
    ----------
    belt : Belt
    count, seed : int, optional

    Returns
    -------
    Own
    """
    generator = np.random.default_rng([seed, zlib.crc32(belt.name.encode())])
    middle = {"size": belt.size.m_as("m"), "thickness": belt.thickness.m_as("m")}
    sizes = {what: middle[what] + belt.limits[what] * (2 * evenly(generator, count) - 1) for what in middle}
    points = prior("hardness")["unstated_limit" if belt.hardness is None else "limit"] * (2 * evenly(generator, count) - 1)
    return Own(**sizes, hardness=points, stiffness=own_scatter() * ndtri(evenly(generator, count)))


def own_scatter():
    """Standard uncertainty of a belt's own part of ln E."""
    return np.sqrt(1 - prior("modulus")["common_share"]) * _scatter()


def _normal(known, unit, even):
    return known.value.m_as(unit) * (1 + known.number.std_dev / known.plain * ndtri(even))


def _scatter():
    """Standard uncertainty of ln E at one hardness: the limit as JCGM 100 takes one, over the root of three."""
    return prior("modulus")["limit"] / np.sqrt(3)


def _taken(draws, indices):
    return replace(draws, **{one.name: getattr(draws, one.name)[indices] for one in fields(draws) if one.name != "own"})
