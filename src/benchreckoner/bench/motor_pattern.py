"""Which fault a motor's readings point at: supply, motor volts, current and speed together, and the next test worth its minutes."""

import tomllib
from dataclasses import dataclass
from importlib import resources

import numpy as np
from scipy import stats

from benchreckoner.bench.verdict import UNTOLD

_TABLE = tomllib.loads(resources.files(__package__).joinpath("motor_pattern.toml").read_text(encoding="utf-8"))
CANDIDATES = {row["name"]: row for row in _TABLE["candidate"]}
SIGNS = {row["name"]: row for row in _TABLE["sign"]}
NEEDED, MARK = _TABLE["needed"], _TABLE["mark"]
_TELLS = 2.0  # a level so many times as usual under a candidate as under all together speaks for it
_SUREST = 0.99  # what is only common practice is never told as certain


@dataclass(frozen=True)
class Sign:
    """One thing that was read: how probable each of its levels is, given the reading's uncertainty, and how it reads."""

    name: str
    shares: tuple[float, ...]
    words: str


@dataclass(frozen=True)
class Suspect:
    """One candidate with its odds, and what speaks for it and against it, the strongest first."""

    name: str
    odds: float
    fits: tuple[str, ...]
    against: tuple[str, ...]

    @property
    def means(self):
        """What it says of the machine."""
        return CANDIDATES[self.name]["means"]

    @property
    def shown(self):
        """Its odds in words, never as certainty."""
        return f"{100 * min(self.odds, _SUREST):.0f} %" if self.odds >= 0.01 else "below 1 %"


@dataclass(frozen=True)
class NextTest:
    """A test not yet made: its minutes, what it would tell in bits, and what the leading candidates would make it show."""

    name: str
    minutes: float
    gain: float
    how: str
    shows: tuple[tuple[str, str], ...]

    @property
    def gain_per_minute(self):
        return self.gain / self.minutes


@dataclass(frozen=True)
class Pattern:
    """The candidates in order, the tests by what they tell a minute, and the one that would part the leading two."""

    suspects: tuple[Suspect, ...]
    tests: tuple[NextTest, ...]
    parting: NextTest | None

    @property
    def named(self):
        """The candidate that may be named, or None: below 80 % it is "can't tell yet"."""
        return self.suspects[0] if self.suspects[0].odds >= NEEDED else None

    @property
    def then(self):
        """What finds the part, once a candidate is named, or what mends it, where the test that finds it has been made; else empty."""
        if self.named is None:
            return ""
        row = CANDIDATES[self.named.name]
        untried = {test.name for test in self.tests}
        return row["after"] if "made" in row and row["made"] not in untried else row["then"]

    @property
    def surer(self):
        """The test that tells most a minute about the name itself, or None: what finds the part anyhow is not asked for twice."""
        finds = CANDIDATES[self.named.name].get("made") if self.named else None
        return next((test for test in self.tests if test.name != finds), None)

    @property
    def word(self):
        """The name, or "can't tell yet"."""
        return self.named.name if self.named else UNTOLD


def number_sign(name, value, uncertainty, words):
    """A sign read as a number: each level's share of the probability.

    Parameters
    ----------
    name : str
        Of a sign with edges.
    value, uncertainty : float
        In the sign's own measure; standard uncertainty.
    words : str
        How it reads.

    Returns
    -------
    Sign
    """
    inner = stats.norm.cdf((np.array(SIGNS[name]["edges"]) - value) / max(uncertainty, 1e-12))
    return Sign(name, tuple(np.diff([0.0, *inner, 1.0])), words)


def seen_sign(name, level, words):
    """A sign that was seen, not measured: one level and no other.

    Parameters
    ----------
    name, level, words : str

    Returns
    -------
    Sign
    """
    return Sign(name, tuple(float(one == level) for one in SIGNS[name]["levels"]), words)


def read_pattern(signs):
    """Weigh the candidates by what was read.

    Parameters
    ----------
    signs : iterable of Sign

    Returns
    -------
    Pattern

    Notes
    -----
    Bayes' rule: prior odds times, for each sign, the share of its levels under a candidate, each level weighed by how
    probable the reading makes it. The signs are taken as independent once the candidate is given. Priors and shares are
    our own choice after common practice (PRACTICE), one fault at a time; two faults together are beyond it.
    A test's worth is the entropy, in bits, that it is expected to take off the odds.
    """
    signs = tuple(signs)
    odds = np.array([row["prior"] for row in CANDIDATES.values()])
    for sign in signs:
        odds = odds * (_given(sign.name) @ np.array(sign.shares))
    odds = odds / odds.sum()
    order = np.argsort(-odds, kind="stable")
    names = list(CANDIDATES)
    suspects = tuple(Suspect(names[place], float(odds[place]), *_reasons(signs, names[place])) for place in order)
    left = [name for name in SIGNS if name not in {sign.name for sign in signs}]
    leading = np.zeros_like(odds)
    leading[order[:2]] = odds[order[:2]] / odds[order[:2]].sum()
    tests = sorted((_test(name, odds, suspects) for name in left), key=lambda one: -one.gain_per_minute)
    parting = max((_test(name, leading, suspects) for name in left), key=lambda one: one.gain_per_minute, default=None)
    return Pattern(suspects, tuple(tests), parting)


def _given(name):
    """Shares of a sign's levels, a row a candidate."""
    return np.array([SIGNS[name]["given"][candidate] for candidate in CANDIDATES])


def _reasons(signs, candidate):
    """What speaks for a candidate, and what against it, the strongest first."""
    prior = np.array([row["prior"] for row in CANDIDATES.values()])
    found = []
    for sign in signs:
        seen = _given(sign.name) @ np.array(sign.shares)
        ratio = float(seen[list(CANDIDATES).index(candidate)] / (prior @ seen / prior.sum()))
        if ratio >= _TELLS ** 0.5 or ratio <= 1 / _TELLS:
            found.append((abs(np.log(ratio)), ratio > 1, sign.words))
    found.sort(key=lambda one: -one[0])
    return tuple(tuple(words for _, fits, words in found if fits == side) for side in (True, False))


def _test(name, odds, suspects):
    given = _given(name)
    shown = odds @ given
    after = odds[:, None] * given / shown
    gain = max(0.0, float(_entropy(odds) - sum(share * _entropy(after[:, level]) for level, share in enumerate(shown))))
    row = SIGNS[name]
    shows = tuple((one.name, row["levels"][int(np.argmax(row["given"][one.name]))]) for one in suspects[:3])
    return NextTest(name, row["minutes"], gain, row["how"], shows)


def _entropy(odds):
    held = odds[odds > 0]
    return float(-np.sum(held * np.log2(held)))
