"""One joint read under two conditions of one stage: where its ohms differ, whether its current explains it."""

from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from benchreckoner.bench import chain as chains
from benchreckoner.bench.reasons import told
from benchreckoner.bench.uncertain import Known, propagate
from benchreckoner.physics.spots import heated_ratio
from benchreckoner.units import Q

_TOUCHING = ("supply contact", "switch", "plug and socket", "solder joint")  # a cracked solder joint touches too
_COMPARED = (*_TOUCHING, "lead")
_SOFTENS = Q(0.22, "V")  # nickel's, the last of the usual platings to soften; then a spot grows. An open checker of connectors, after Holm: FOUND
_BY_CHANCE = 2 * (1 - NormalDist().cdf(2))  # how often one sound joint differs by more than twice its standard uncertainty
_PRESS = "Read its drop and the current again under both, in one go, while pressing and tapping it."


@dataclass(frozen=True)
class Shift:
    """Ohms of one link that differ between two conditions, in words; `explained` where its current explains it."""

    part: object
    difference: Known
    reason: str
    next: str
    explained: bool


@dataclass(frozen=True)
class _Read:
    """One link under one condition."""

    condition: str
    drop: Known
    current: Known
    ohms: Known


def shifts(one, other):
    """What a chain's joints read under one condition against the other.

    Parameters
    ----------
    one, other : Chain
        Of one stage.

    Yields
    ------
    Shift
        Only where the ohms differ by more than twice the standard uncertainty of their difference; what the readings share
        cancels there. Of many joints one differs so by chance, so for each the factor grows with their number: 2.6 for five.
        `part` is None where the whole chain moved by one factor, as a current read wrongly moves it.
    """
    both = [(link, _read(one, link), _read(other, link)) for link in one.links if link.kind in _COMPARED]
    both = [(link, first, second) for link, first, second in both if first is not None and second is not None]
    factor = NormalDist().inv_cdf(1 - _BY_CHANCE / (2 * max(len(both), 1)))
    moved = [(link, first, second) for link, first, second in both if _differ(first.ohms, second.ohms, factor)]
    if len(moved) == len(both) > 1 and _by_one_factor(moved):
        _, first, second = moved[0]
        yield _misread(first, second, len(both))
        return
    for link, *pair in moved:
        yield _shift(link, *sorted(pair, key=lambda read: read.current.plain))


def _read(chain, link):
    ohms, _ = chains.link_ohms(chain, link)
    if ohms is None or not (chain.drops[link.name].plain > 0 and ohms.plain > 0):
        return None
    return _Read(chain.condition, chain.drops[link.name], chains.link_current(chain, link)[0], ohms)


def _differ(first, second, factor):
    difference = first - second
    return abs(difference.plain) > factor * difference.number.std_dev


def _by_one_factor(moved):
    """Whether all ohms moved by the same share: what was read of the currents is in all of them alike and cancels."""
    shares = [Known(first.ohms.number / second.ohms.number, "") for _, first, second in moved]
    return not any((share - shares[0]).differs() for share in shares)


def _misread(first, second, count):
    way = "more" if first.ohms.plain > second.ohms.plain else "fewer"
    return Shift(None, first.ohms - second.ohms,
                 f"all {count} links that were read under both have {way} ohms {first.condition} than {second.condition}, all by the same "
                 f"share: links hardly do that together, a misread current does, {told(first.current)} or {told(second.current)}.",
                 "Read both currents again, each together with one drop.", explained=False)


def _shift(link, small, large):
    read = (f"{told(small.ohms)} {small.condition}, with {told(small.current)}, and {told(large.ohms)} {large.condition}, "
            f"with {told(large.current)}")
    law = _law(link, small, large) if large.current.lies_above(small.current) else ""
    if law:
        return Shift(link, large.ohms - small.ohms, f"the ohms of {link.name} {law}: {read}.",
                     "Clean it, then read it again under both.", explained=True)
    return Shift(link, large.ohms - small.ohms, f"no current explains the two ohms of {link.name}, so it moves, or a reading slipped: {read}.",
                 _PRESS, explained=False)


def _law(link, small, large):
    """What the larger current does to a joint that touches, in words; empty where nothing is known to do that."""
    if link.kind not in _TOUCHING:
        return ""
    if large.ohms.plain < small.ohms.plain:
        return "fell with the larger current, as those of a film do that gives way"
    hotter = propagate(lambda cold, warm: Q(_heated(warm) / _heated(cold), ""), "", cold=small.drop, warm=large.drop)
    beyond = Known(large.ohms.number / small.ohms.number - hotter.number, "")
    if beyond.plain > 0 and beyond.differs():
        return ""
    return "rose with the larger current, no more than that current heats a small spot of metal"


def _heated(drop):
    return heated_ratio(voltage_drop=np.minimum(drop, _SOFTENS))
