"""Tries of a fault that comes and goes: each part, condition and stage counted apart."""

from dataclasses import dataclass
from types import MappingProxyType

from benchreckoner.bench.reasons import sentence
from benchreckoner.physics.chance import failure_rate_limit
from benchreckoner.physics.sequential import CURED, FAULTY, GO_ON, clean_tries_to_cured, sequential_decision

# What is asked of a repair where nobody asks for anything else: one fault in a hundred tries counts as cured, one in ten
# does not, and each wrong word may come one time in twenty. A choice, not a law of nature.
PLAN = MappingProxyType({"good_rate": 0.01, "bad_rate": 0.10, "alarm_risk": 0.05, "miss_risk": 0.05})


@dataclass(frozen=True)
class Tally:
    """Every try of one part under one condition at one stage, as runs of clean tries and then faults."""

    part: str
    condition_tried: str
    stage: str
    runs: tuple[tuple[int, int], ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def clean(self):
        return sum(clean for clean, _ in self.runs)

    @property
    def faults(self):
        return sum(faults for _, faults in self.runs)

    @property
    def path(self):
        """(tries, faults) at each corner, from nothing on."""
        places = [(0, 0)]
        for clean, faults in self.runs:
            tries, before = places[-1]
            places += [(tries + clean, before), (tries + clean + faults, before + faults)]
        return tuple(dict.fromkeys(places))


def tally_of(sheet, *, part, condition_tried, stage):
    """The tries of one part under one condition at one stage.

    Parameters
    ----------
    sheet : Sheet
    part, condition_tried, stage : str
        Capitals and spaces of the condition do not matter.

    Returns
    -------
    Tally
        Without runs if nothing was tried.
    """
    trials = [trial for trial in sheet.trials
              if (trial.part, trial.stage) == (part, stage) and same(trial.condition_tried, condition_tried)]
    return Tally(part, condition_tried, stage, tuple((trial.clean, trial.faults) for trial in trials),
                 tuple(trial.note for trial in trials if trial.note))


def tallies(sheet):
    """Every tally of a sheet, in the order of their first tries."""
    firsts = {}
    for trial in sheet.trials:
        firsts.setdefault((trial.part, _folded(trial.condition_tried), trial.stage), trial)
    return tuple(tally_of(sheet, part=trial.part, condition_tried=trial.condition_tried, stage=trial.stage)
                 for trial in firsts.values())


def decide(tally, plan):
    """Wald's decision, at the first line that these tries reached.

    Parameters
    ----------
    tally : Tally
    plan : mapping
        The two rates and the two risks, as `sequential_boundaries` takes them.

    Returns
    -------
    decision : str
        ``"cured"``, ``"not cured"`` or ``"go on"``.
    tries : int
        When it fell, or how many there are.
    """
    tries = faults = 0
    for clean, failed in tally.runs:
        # Clean tries lead to no line but the lower one, faults to no line but the upper one.
        needed = clean_tries_to_cured(clean=tries - faults, faults=faults, **plan)
        if needed <= clean:
            return CURED, tries + needed
        tries += clean
        for _ in range(failed):
            tries, faults = tries + 1, faults + 1
            if sequential_decision(clean=tries - faults, faults=faults, **plan) == FAULTY:
                return FAULTY, tries
    return GO_ON, tries


def counted(tally):
    """How many tries were clean, in words."""
    tries = tally.clean + tally.faults
    return f"{tally.clean} of {tries} {'try' if tries == 1 else 'tries'} clean"


def still_possible(tally):
    """What the exact limit still allows, in words."""
    limit = failure_rate_limit(clean=tally.clean, faults=tally.faults)
    return f"up to {percent(limit)} of all tries could still fail (95 % limit)"


def decision_words(tally, plan):
    """Wald's decision in words, and how far it is if there is none yet.

    Parameters
    ----------
    tally : Tally
    plan : mapping
        As `decide` takes it.

    Returns
    -------
    str
    """
    said, tries = decide(tally, plan)
    if said == CURED:
        return f"cured as far as this test goes, since try {tries}"
    if said == FAULTY:
        return f"not cured, since try {tries}"
    more = clean_tries_to_cured(clean=tally.clean, faults=tally.faults, **plan)
    return f"go on: about {more} more clean {'try' if more == 1 else 'tries'}"


def trial_lines(sheet):
    """What was tried, one sentence a tally.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    list of str
        Empty if nothing was tried.
    """
    return [f"{tally.part}, tried {tally.condition_tried} ({tally.stage}): {counted(tally)}; {still_possible(tally)}. "
            f"{sentence(decision_words(tally, PLAN))}" for tally in tallies(sheet)]


def plan_words(plan):
    """What the test was asked to tell apart, in words."""
    return (f"{percent(plan['good_rate'])} of tries failing counts as cured, {percent(plan['bad_rate'])} does not; risk of about "
            f"{percent(plan['alarm_risk'])} of blaming a cured part, {percent(plan['miss_risk'])} of passing a bad one")


def percent(share):
    """A share to two digits, as a percentage; all and none are said of what is certain only."""
    if 0 < share < 1e-4:
        return "less than 0.01 %"
    if 0.995 <= share < 1:
        return "more than 99 %"
    return f"{float(f'{100 * share:.2g}'):g} %"


def same(one, other):
    """Whether two conditions in free words are the same one."""
    return _folded(one) == _folded(other)


def _folded(words):
    return " ".join(words.split()).casefold()
