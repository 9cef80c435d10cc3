"""Before and after: what an action changed, and whether by more than the uncertainty."""

from dataclasses import dataclass

from benchreckoner.bench.reasons import told
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import show


@dataclass(frozen=True)
class Comparison:
    """One part's ohms at two stages under one condition."""

    part: str
    condition: str
    before_stage: str
    after_stage: str
    before: Known
    after: Known

    @property
    def change(self):
        return self.after - self.before

    @property
    def real(self):
        """Whether the change is more than its uncertainty explains."""
        return self.change.differs()

    def sentence(self):
        """The change in words."""
        steps = f"{self.part} went from {told(self.before)} ({self.before_stage}) to {told(self.after)} ({self.after_stage})"
        if self.real:
            way = "down" if self.change.plain < 0 else "up"
            return f"{steps}: {way} by {show(abs(self.change.value), 'ohm')}, more than the uncertainty explains."
        return f"{steps}: no more than the uncertainty explains, so nothing is shown to have changed."


def comparisons(reports):
    """Each part's ohms at every stage against the last stage before it that knew them.

    Parameters
    ----------
    reports : tuple of StageReport
        From `judge_sheet`, the latest first.

    Returns
    -------
    tuple of Comparison
        In the order of the stages, biggest change first within one.
    """
    last, found = {}, []
    for report in reversed(reports):
        here = []
        for chain in report.chains:
            for one in chain.judgements:
                if one.known is None or one.quantity != "resistance":
                    continue
                key = (one.part, one.condition)
                if key in last and last[key][0] != report.stage:
                    here.append(Comparison(one.part, one.condition, last[key][0], report.stage, last[key][1], one.known))
                last[key] = (report.stage, one.known)
        found += sorted(here, key=lambda change: -abs(change.change.plain))
    return tuple(found)
