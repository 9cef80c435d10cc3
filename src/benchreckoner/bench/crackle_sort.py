"""Which cause makes this crackle: odds from a recording and from four short tests.

Bayes' rule on tables small enough to read. `crackle_tests.toml` holds the prior and how often each test changes the
crackle, by cause: common practice. `crackle_counts.toml` holds how often each sign of a recording fell into which fifth,
among reckoned recordings of each cause: `assets/crackle_counts.py` makes it.
"""

import functools
import tomllib
from dataclasses import dataclass
from importlib.resources import files

import numpy as np

CAUSES = {
    "flicker": "a contact that flickers",
    "wiper": "a worn wiper",
    "leak": "a leak into the control",
    "shared": "a supply contact shared with the motor",
    "other": "none of these",
}
CHANGES, SAME, UNTRIED = ANSWERS = "changes it", "no change", "not tried"
UNTOLD = "can't tell"
# The signs of one recording say partly the same: counted whole, they would be too sure of themselves. With this power,
# shares claimed were kept on further recordings of the kind that the counts were made from.
TRUST = 0.7
_SIGNS = {
    "rate": "{:.1f} jumps a second",
    "uneven": "jumps {:.1f} times as unevenly spread as chance would",
    "burst": "bursts of about {:.2g} s",
    "height": "jumps {:.0f} times as high as the usual",
    "turns": "neighbouring jumps that go opposite ways in {:.0%}",
    "shaft": "a regular beat {:.1f} dB over its surroundings",
    "shift": "a shift to one side by {:.1%} of the loudness",
}


@dataclass(frozen=True)
class CrackleTest:
    """One of the four tests: what to do, and how likely a change is for each cause."""

    name: str
    title: str
    ask: str
    changes: dict

    def likelihood(self, cause, answer):
        """How likely this answer is, ``"changes it"`` or ``"no change"``."""
        return self.changes[cause] if answer == CHANGES else 1 - self.changes[cause]


@dataclass(frozen=True)
class CrackleOdds:
    """Share of belief in each cause, why, and what to try next."""

    shares: dict
    reasons: tuple
    next: str

    @property
    def ranked(self):
        """The causes, the likeliest first."""
        return sorted(self.shares, key=self.shares.get, reverse=True)

    @property
    def named(self):
        """The cause that is sure enough to be named, or ``"can't tell"``."""
        best = self.ranked[0]
        return best if self.shares[best] >= _practice()["sure"] / 100 else UNTOLD

    @property
    def sentence(self):
        """In plain words, with the odds."""
        best, second = self.ranked[:2]
        odds = f"{CAUSES[best]} {percent(self.shares[best])}, {CAUSES[second]} {percent(self.shares[second])}"
        if self.named == UNTOLD:
            return f"Can't tell yet: {odds}."
        return f"Most likely {CAUSES[best]}: {odds}."


def crackle_tests():
    """The four tests, in the order to do them.

    Returns
    -------
    tuple of CrackleTest
    """
    return tuple(CrackleTest(row["name"], row["title"], row["ask"], {cause: row[cause] / 100 for cause in CAUSES})
                 for row in _practice()["test"])


def sort_crackle(*, found=None, answers=None):
    """Odds over the causes.

    Parameters
    ----------
    found : dict, optional
        From `crackle_signs.signs`. Left out, only the tests speak.
    answers : dict, optional
        One of `ANSWERS` by name of the test; a test left out was not tried.

    Returns
    -------
    CrackleOdds

    Raises
    ------
    ValueError
        For an unknown test, answer or sign.
    """
    answers = dict(answers or {})
    tests = {test.name: test for test in crackle_tests()}
    for name, answer in answers.items():
        if name not in tests:
            raise ValueError(f"test {name!r}: there is none of that name, write one of {', '.join(tests)}")
        if answer not in ANSWERS:
            raise ValueError(f"test {name!r}: write one of {', '.join(ANSWERS)}, not {answer!r}")
    for name in found or {}:
        if name not in _SIGNS:
            raise ValueError(f"sign {name!r}: there is none of that name, the signs are {', '.join(_SIGNS)}")
    evidence = [(_SIGNS[name].format(value).replace("%", " %"), _sign_likelihoods(name, value)) for name, value in (found or {}).items()]
    evidence += [(f"{tests[name].title}: {answer}", {cause: tests[name].likelihood(cause, answer) for cause in CAUSES})
                 for name, answer in answers.items() if answer != UNTRIED]
    shares = _shared(_practice()["prior"], *(likelihoods for _, likelihoods in evidence))
    untried = [test for name, test in tests.items() if answers.get(name, UNTRIED) == UNTRIED]
    odds = CrackleOdds(shares, (), _next(shares, untried))
    best, second = odds.ranked[:2]
    return CrackleOdds(shares, tuple(_reason(words, likelihoods[best] / likelihoods[second], best, second)
                                     for words, likelihoods in evidence), odds.next)


def percent(share):
    """A share for reading: never all, never nothing."""
    return "under 1 %" if share < 0.01 else "over 99 %" if share > 0.99 else f"{100 * share:.0f} %"


def judged_names():
    """What was named in the one trial on unheard recordings.

    Returns
    -------
    dict
        ``"recording"``, ``"tests"`` and ``"both"`` (the evidence used), each a dict of true cause to the list of names.
    """
    stored = _stored("crackle_judged.toml")
    return {way: stored[way] for way in ("recording", "tests", "both")}


def _sign_likelihoods(name, value):
    box = int(np.searchsorted(_counted()["edges"][name], value))
    rows = {cause: _counted()["counts"][cause][name] for cause in CAUSES}
    # One more in every box: never seen is not impossible.
    return {cause: ((row[box] + 1) / (sum(row) + len(row))) ** TRUST for cause, row in rows.items()}


def _shared(prior, *likelihoods):
    weights = {cause: prior[cause] * np.prod([one[cause] for one in likelihoods]) for cause in CAUSES}
    return {cause: float(weight / sum(weights.values())) for cause, weight in weights.items()}


def _next(shares, untried):
    """The untried test that promises to leave the least doubt, or the measurement that settles it."""
    best, second = sorted(shares, key=shares.get, reverse=True)[:2]
    measure = _practice()["next"][best]
    if shares[best] >= _practice()["sure"] / 100 or not untried:
        return measure
    test = min(untried, key=lambda one: _doubt_left(shares, one))
    return f"{test.title}. {test.ask}"


def _doubt_left(shares, test):
    """Entropy to be expected after a test."""
    left = 0.0
    for answer in (CHANGES, SAME):
        likelihoods = {cause: test.likelihood(cause, answer) for cause in CAUSES}
        after = np.array(list(_shared(shares, likelihoods).values()))
        left -= sum(shares[cause] * likelihoods[cause] for cause in CAUSES) * float(np.sum(after * np.log(after)))
    return left


def _reason(words, ratio, best, second):
    """How much one piece of evidence weighs between the two likeliest causes."""
    words = words[0].upper() + words[1:]
    if 0.8 < ratio < 1.25:
        return f"{words}. Says little between {CAUSES[best]} and {CAUSES[second]}."
    first, other = (best, second) if ratio > 1 else (second, best)
    return f"{words}. {max(ratio, 1 / ratio):.2g} times likelier with {CAUSES[first]} than with {CAUSES[other]}."


@functools.cache
def _practice():
    return _stored("crackle_tests.toml")


@functools.cache
def _counted():
    return _stored("crackle_counts.toml")


def _stored(name):
    return tomllib.loads(files("benchreckoner.bench").joinpath(name).read_text(encoding="utf-8"))
