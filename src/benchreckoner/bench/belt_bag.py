"""Choose from a bag of belts: for every belt its probability of sitting in the good window, and why not, in words.

The way in: a `Drive` (or `two_pulley_drive`), some `Belt`, and ``rank_bag(drive=..., belts=...)``. Everything stands on draws:
`draws_of` makes them once for drive and belts, ``bag.draws`` hands them on, and ``bag.draws.taken(indices)`` keeps those that a
reading has left, to rank the bag again or to reckon the next belt's current (`reckon`). One seed gives one answer.
"""

from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.belt_draws import COUNT, SEED, Draws, draws_of
from benchreckoner.bench.belt_drive import Belt, Drive, two_pulley_drive
from benchreckoner.bench.belt_path_sheet import likely_slip
from benchreckoner.bench.belt_reckon import Reckoned, reckon
from benchreckoner.bench.belt_window import failing, inside, window
from benchreckoner.bench.belt_words import dominant, told
from benchreckoner.physics.rubber import GREATEST_RATIO

__all__ = ["Bag", "Belt", "Drive", "Draws", "Ranked", "draws_of", "rank_bag", "reckon", "two_pulley_drive"]

_BAND = (0.025, 0.5, 0.975)
_FEW = 1000  # draws that tell whether a belt can be reckoned at all
_STIFF = 0.5  # of bending strain, twice where the laws stop holding
_TOLD_FROM = 0.025  # a way to fail that is rarer is not told


@dataclass(frozen=True, eq=False)
class Ranked:
    """One belt and how it stands.

    ``refused`` says why it cannot be reckoned at all, and is empty otherwise. ``probability`` of sitting in the good window;
    ``failures`` pairs of a way to fail (`belt_window.WAYS`) and its probability, the likeliest first, several at once
    counted in each; ``bands`` by quantity its 2.5 %, 50 % and 97.5 % places, SI units and shares; ``reasons`` in words, the
    gravest first; ``reckoned`` and ``good`` a row of draws each, None for a refused belt.
    """

    belt: Belt
    refused: str
    probability: float
    failures: tuple
    bands: dict
    reasons: tuple
    reckoned: Reckoned | None
    good: np.ndarray | None


@dataclass(frozen=True, eq=False)
class Bag:
    """A ranked bag: the belts in order, the likeliest first, and the draws that it stands on."""

    drive: Drive
    ranked: tuple
    draws: Draws

    def of(self, name):
        """The line of one belt, by its name."""
        return next(one for one in self.ranked if one.belt.name == name)


def rank_bag(*, drive, belts, draws=None, count=COUNT, seed=SEED):
    """Rank a bag of belts for a drive.

    Parameters
    ----------
    drive : Drive
    belts : sequence of Belt
        Each with a name of its own.
    draws : Draws, optional
        That were made before; belts that they lack are added.
    count, seed : int, optional
        How many draws to make otherwise, and from which seed.

    Returns
    -------
    Bag
        Most probable first, whole per cents counted; among equals the one that costs the motor the least torque. Refused
        belts come last.

    Raises
    ------
    ValueError
        For an empty bag, or two belts of one name.
    """
    belts = tuple(belts)
    names = [belt.name for belt in belts]
    if not belts or len(set(names)) < len(names):
        raise ValueError("belts: the bag is empty, or two belts have one name; write at least one, each with its own name")
    draws = draws_of(drive, belts, count=count, seed=seed) if draws is None else draws.with_belts(belts, seed=seed)
    reckoned, sides = reckon(drive, draws, belts), window(drive)
    bands = {name: np.quantile(values, _BAND, axis=1).T for name, values in vars(reckoned).items()}
    lost = failing(sides, reckoned)
    good, shares = inside(lost), {way: values.mean(axis=1) for way, values in lost.items()}
    ranked = []
    for place, belt in enumerate(belts):
        own_bands = {name: tuple(float(edge) for edge in values[place]) for name, values in bands.items()}
        why = _refused(drive, belt, own_bands)
        if why:
            ranked.append(Ranked(belt, why, 0.0, (), own_bands, (why,), None, None))
            continue
        failures = tuple(sorted(((way, float(share[place])) for way, share in shares.items() if share[place] >= _TOLD_FROM),
                                key=lambda pair: -pair[1]))
        ranked.append(_line(belt, drive, sides, failures, own_bands, reckoned.row(place), good[place], draws))
    ranked.sort(key=_place)
    return Bag(drive, tuple(ranked), draws)


def _place(one):
    """Refused last, then by probability in whole per cents, then by what the belt costs; where none fits, by how much is against it."""
    hundredths = round(100 * one.probability)
    return bool(one.refused), -hundredths, 0 if hundredths else sum(share for _, share in one.failures), one.bands["torque"][1]


def _line(belt, drive, sides, failures, bands, reckoned, good, draws):
    by_way, said = {side.way: side for side in sides}, {}
    for way, share in failures:  # too fast and too slow are one sentence
        quantity = by_way[way].quantity
        said.setdefault("speed" if quantity == "speed" else way, []).append((by_way[way], share))
    reasons = [told(of_it[0][0], bands, sum(share for _, share in of_it)) for of_it in said.values()]
    if failures:
        values = getattr(reckoned, by_way[failures[0][0]].quantity)
        reasons.append(dominant(values, draws, draws.own[belt.name], alone=len(said) == 1))
    return Ranked(belt, "", float(good.mean()), failures, bands, tuple(reason for reason in reasons if reason), reckoned, good)


def left_out(drive, belt):
    """Why a belt cannot be reckoned on a drive: it is surely slack, or surely beyond where the laws hold.

    Parameters
    ----------
    drive : Drive
    belt : Belt

    Returns
    -------
    str
        A sentence that names the likely slip; empty where the belt can be reckoned.
    """
    reckoned = reckon(drive, draws_of(drive, [belt], count=_FEW), [belt])
    return _slip(drive, belt, *(np.quantile(values[0], _BAND) for values in (reckoned.stretch, reckoned.bend)))


def _refused(drive, belt, bands):
    why = _slip(drive, belt, bands["stretch"], bands["bend"])
    return f"Left out, not reckoned. {why}" if why else ""


def _slip(drive, belt, stretch, bend):
    low, _, high = stretch
    if high <= 0 or low >= GREATEST_RATIO - 1:
        height = belt.thickness / 2
        path = drive.seat_path.value + drive.total_wrap.m_as("rad") * height
        return likely_slip(size=belt.size, measure=belt.measure, neutral_height=height, path_length=path)
    if bend[0] > _STIFF:
        return (f"{belt.thickness.m_as('mm'):.4g} mm of thickness on a motor pulley of {drive.motor_seat.m_as('mm'):.4g} mm: "
                "it could not bend round it. Were thickness and width, or a diameter and a radius, taken for one another?")
    return ""
