"""Where each sentence lies in a recording: pauses found by energy, sentences laid between them by dynamic programming."""

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import maximum_filter1d

STEP = 0.01  # s between two levels
SHORTEST_PAUSE = 0.18  # s: the stop in a "t" is shorter
_CLICK, _ALONE = 0.06, 0.08  # s: what is shorter, with silence on both sides, is no speech but the recorder's button
_STANDS_OUT = 12.0  # dB by which speech must lie above what is left in the pauses
_PAUSE_SHARE = 0.35  # of the way up from the floor to the speech
_CHOSEN_BELOW, _WEIGHT_EACH = 0.35, 8.0  # s of a pause that ends a sentence as often as not; odds each further second
_MOST_FOR, _MOST_AGAINST, _NO_PAUSE = 4.0, 2.0, 5.0  # as logarithms of odds
_EVERY = 0.8  # s between places where a sentence may end without a pause
_LENGTH_SPREAD, _SHORT_SPREAD = 0.04, 0.15  # how far a sentence's length strays: of its logarithm, squared; more if short
_LONGEST_STRAY = 5.0  # times the longest sentence's share: no further apart are its ends looked for
_SHORTEST_SENTENCE = 0.1  # s
_DEEPEST = 40.0  # dB below the speech: what is cut to nothing in a pause is no floor
_SURE, _UNHEARD = 0.8, 0.5  # an end without a pause is never sure
_AS_EXPECTED = 8  # sentences that are taken to have strayed as expected before any is heard
_SHUFFLES = 5
_FEWEST, _ALIKE = 6, 0.3  # sentences whose order can be told from another one's; spread of their lengths' logarithms


@dataclass(frozen=True)
class Pauses:
    """Silences between the first and the last sound: rows of start and end [s], and where all speech begins and ends."""

    spans: np.ndarray
    begins: float
    ends: float


@dataclass(frozen=True)
class Placed:
    """When a sentence begins and ends [s], and how sure that is, 0 to 1."""

    start: float
    end: float
    sure: float


@dataclass(frozen=True)
class Laid:
    """Sentences in their places, and how well they fit.

    ``strays`` : how far their lengths stray, squared, against what is usual, which is 1. ``gain`` : by how much their own
    order is likelier than the best of a few shuffled ones, as a logarithm for each sentence; None for too few of them, or too
    much alike.
    """

    sentences: tuple[Placed, ...]
    strays: float
    gain: float | None


def find_pauses(levels):
    """Find the silences in a voice.

    Parameters
    ----------
    levels : numpy.ndarray
        Level every `STEP` [dB].

    Returns
    -------
    Pauses or None
        None where nothing falls far enough below the voice: music or noise lies under it.

    Notes
    -----
    The floor is what the quietest moments of a pause's length hold, the speech what one moment in ten reaches. A silence
    lies below a third of the way between.
    """
    levels = np.asarray(levels, dtype=float)
    width = round(SHORTEST_PAUSE / STEP)
    loudest_near = maximum_filter1d(levels, width)
    speech = np.quantile(levels, 0.9)
    floor = max(loudest_near.min(), speech - _DEEPEST)
    if not speech - floor >= _STANDS_OUT:
        return None
    sounding = np.flatnonzero(levels > floor + _PAUSE_SHARE * (speech - floor))
    runs = np.split(sounding, np.flatnonzero(np.diff(sounding) > round(_ALONE / STEP)) + 1)
    sounding = np.concatenate([run for run in runs if len(run) * STEP >= _CLICK] or [sounding])
    holes = np.flatnonzero(np.diff(sounding) > width)
    spans = np.column_stack((sounding[holes] + 1, sounding[holes + 1])) * STEP
    return Pauses(spans, sounding[0] * STEP, (sounding[-1] + 1) * STEP)


def align(levels, pauses, lengths):
    """Lay sentences one after the other between the pauses.

    Parameters
    ----------
    levels : numpy.ndarray
        Level every `STEP` [dB].
    pauses : Pauses
    lengths : sequence of float
        How long each sentence should take, in any one measure, above zero.

    Returns
    -------
    Laid or None
        None where so many sentences cannot be laid into so short a voice.

    Notes
    -----
    Each sentence ends at a pause, the longer the likelier, or, unlikely, where the voice dips. What its speech should take is
    its share of all speech; the logarithm of what it takes strays from that. The likeliest whole is chosen. From it is learnt
    how far this voice's lengths stray, and it is chosen anew. A sentence is as sure as the less likely one of its two ends,
    over all ways to lay them (forwards and backwards sums); never where one of them has no pause.
    """
    places = _Places(levels, pauses)
    lengths = np.asarray(lengths, dtype=float)
    wanted = lengths * places.spoken[-1] / lengths.sum()
    first, likelihood = _Ways(places.spoken, places.odds, wanted).likeliest()
    if first is None:
        return None
    strays = _strays(np.diff(places.spoken[first]), wanted)
    ways = _Ways(places.spoken, places.odds, wanted, strays)
    chosen, _ = ways.likeliest()
    sure = np.array(ways.certainty(chosen))
    unheard = (places.after == places.before)[chosen][1:-1]
    sure[1:-1][unheard] = np.minimum(sure[1:-1][unheard], _UNHEARD)
    starts, ends = places.after[chosen[:-1]], places.before[chosen[1:]]
    found = tuple(Placed(float(start), float(end), float(min(sure[number], sure[number + 1])))
                  for number, (start, end) in enumerate(zip(starts, ends)))
    tells = len(wanted) >= _FEWEST and np.log(wanted).std() > _ALIKE
    return Laid(found, strays, (likelihood - _shuffled(places, wanted)) / len(wanted) if tells else None)


def _strays(taken, wanted):
    """How far lengths stray, squared, against what is usual; few sentences hardly tell."""
    squares = np.log(np.maximum(taken, _SHORTEST_SENTENCE) / wanted) ** 2 / (_LENGTH_SPREAD + _SHORT_SPREAD / wanted)
    return float((_AS_EXPECTED + squares.sum()) / (_AS_EXPECTED + len(wanted)))


def _shuffled(places, wanted):
    """The likelihood of the likeliest of a few other orders: what a voice that says something else reaches as well."""
    chance = np.random.default_rng(0)
    orders = [wanted[::-1], *(chance.permutation(wanted) for _ in range(_SHUFFLES))]
    return max(_Ways(places.spoken, places.odds, order).likeliest()[1] for order in orders)


class _Places:
    """Where a sentence may begin or end: the first sound, each pause, dips between them, the last sound."""

    def __init__(self, levels, pauses):
        dips = _dips(levels, pauses)
        before = np.concatenate((pauses.spans[:, 0], dips))
        after = np.concatenate((pauses.spans[:, 1], dips))
        odds = np.concatenate((_pause_odds(pauses.spans[:, 1] - pauses.spans[:, 0]), np.full(len(dips), -_NO_PAUSE)))
        order = np.argsort(before)
        self.before = np.concatenate(([pauses.begins], before[order], [pauses.ends]))
        self.after = np.concatenate(([pauses.begins], after[order], [pauses.ends]))
        self.odds = np.concatenate(([0.0], odds[order], [0.0]))
        silent = np.concatenate(([0.0], np.cumsum(self.after - self.before)))[:-1]
        self.spoken = self.before - pauses.begins - silent  # s of speech up to here


def _pause_odds(seconds):
    return np.clip(_WEIGHT_EACH * (seconds - _CHOSEN_BELOW), -_MOST_AGAINST, _MOST_FOR)


def _dips(levels, pauses):
    """The quietest moment in each stretch of speech of about `_EVERY`."""
    edges = np.concatenate(([pauses.begins], pauses.spans.ravel(), [pauses.ends])).reshape(-1, 2)
    found = []
    for start, end in edges:
        parts = int((end - start) / _EVERY)
        for low, high in zip(*(np.linspace(start, end, parts + 1)[part] for part in (slice(None, -1), slice(1, None)))):
            first, last = (round(edge / STEP) for edge in (low, high))
            found.append((first + 1 + np.argmin(levels[first + 1:last - 1])) * STEP)
    return np.array(found)


class _Ways:
    """All ways to lay sentences between the places, weighed by logarithms of their odds."""

    def __init__(self, spoken, odds, wanted, strays=1.0):
        self.spoken, self.odds, self.wanted, self.strays = spoken, odds, wanted, strays
        count = len(self.odds)
        furthest = np.searchsorted(self.spoken, self.spoken - _LONGEST_STRAY * wanted.max())
        steps = np.arange(1, 1 + max(1, int((np.arange(count) - furthest).max())))
        self.earlier = np.arange(count)[:, None] - steps  # for each place, where a sentence that ends here may begin
        self.later = np.arange(count)[:, None] + steps

    def likeliest(self):
        """The places between the sentences, first and last sound included, or None where no way leads there; their likelihood."""
        best, came = self._only(0), []
        for wanted in self.wanted:
            ways = self._reached(best, wanted)
            came.append(np.argmax(ways, axis=1))
            best = ways[np.arange(len(best)), came[-1]]
        if not np.isfinite(best[-1]):
            return None, -np.inf
        places = [len(best) - 1]
        for back in reversed(came):
            places.append(int(self.earlier[places[-1], back[places[-1]]]))
        return np.array(places[::-1]), float(best[-1])

    def certainty(self, chosen):
        """The probability of each chosen place among all for that boundary."""
        ahead, behind = [self._only(0)], [self._only(-1)]
        for wanted in self.wanted:
            ahead.append(np.logaddexp.reduce(self._reached(ahead[-1], wanted), axis=1))
        for wanted in self.wanted[::-1]:
            behind.append(np.logaddexp.reduce(self._left(behind[-1], wanted), axis=1))
        both = [one + other for one, other in zip(ahead, reversed(behind))]
        return [float(np.exp(one[place] - np.logaddexp.reduce(one))) for place, one in zip(chosen, both)]

    def _only(self, place):
        odds = np.full(len(self.odds), -np.inf)
        odds[place] = 0.0
        return odds

    def _reached(self, before, wanted):
        here = self.odds[:, None] + self._fit(self.spoken[:, None] - self.spoken[self.earlier], wanted)
        return np.where(self.earlier >= 0, before[self.earlier] + here, -np.inf)

    def _left(self, behind, wanted):
        ends = np.minimum(self.later, len(self.odds) - 1)
        here = self.odds[ends] + behind[ends] + self._fit(self.spoken[ends] - self.spoken[:, None], wanted)
        return np.where(self.later < len(self.odds), here, -np.inf)

    def _fit(self, taken, wanted):
        """Log likelihood of speech that takes so long for a sentence."""
        strayed = np.log(np.maximum(taken, _SHORTEST_SENTENCE) / wanted)
        spread = self.strays * (_LENGTH_SPREAD + _SHORT_SPREAD / wanted)
        return np.where(taken > _SHORTEST_SENTENCE, -strayed**2 / (2 * spread), -np.inf)


def is_sure(placed):
    """Whether a sentence's times can be taken as found."""
    return placed.sure >= _SURE
