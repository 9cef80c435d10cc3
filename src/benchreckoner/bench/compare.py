"""Before and after: what an action changed, and whether by more than the uncertainty."""

from dataclasses import dataclass, replace

from benchreckoner.bench.reasons import told
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import show

_COMPARED = ("resistance", "wiper resistance", "voltage", "level loss", "capacitance",
             "series resistance", "leakage current", "current", "speed", "torque of belt and bearings", "winding resistance",
             "motor constant", "no-load current", "set voltage", "compensation", "junction temperature", "power", "load",
             "current taken by the belt", "speed lost by the belt", "pull at the shaft")


@dataclass(frozen=True)
class Comparison:
    """One part's ohms, or another reading of it, at two stages under one condition."""

    part: str
    quantity: str
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
        what = "" if self.quantity == "resistance" else f", {self.quantity},"
        steps = f"{self.part}{what} went from {told(self.before)} ({self.before_stage}) to {told(self.after)} ({self.after_stage})"
        if self.real:
            way = "down" if self.change.plain < 0 else "up"
            return f"{steps}: {way} by {show(abs(self.change.value), self.change.unit)}, more than the uncertainty explains."
        return f"{steps}: no more than the uncertainty explains, so nothing is shown to have changed."


def comparisons(reports):
    """Each part's readings at every stage against the last stage before it that knew them.

    Parameters
    ----------
    reports : tuple of StageReport or PartsReport
        From `judge_sheet` or `judge_parts`, the latest first.

    Returns
    -------
    tuple of Comparison
        In the order of the stages, biggest change first within one.
    """
    last, found = {}, []
    for report in reversed(reports):
        here = []
        for one in report.judgements:
            known = one.known if one.as_read is None else one.as_read
            steered = (one.kind, one.quantity) == ("transistor", "resistance")  # its governor sets it, no action does
            if known is None or steered or one.quantity not in _COMPARED:
                continue
            key = (one.part, one.quantity, one.condition)
            if key in last and last[key][0] != report.stage:
                here.append(Comparison(*key, last[key][0], report.stage, last[key][1], known))
            last[key] = (report.stage, known)
        found += sorted(here, key=lambda change: -abs(change.change.plain))
    return tuple(found)


def whole_changes(changes):
    """From the first to the last that is known of each thing, the steps between left out.

    Parameters
    ----------
    changes : iterable of Comparison
        As `comparisons` gives them.

    Returns
    -------
    tuple of Comparison
        One for each part, quantity and condition, the earliest known first.
    """
    whole = {}
    for one in changes:
        key = (one.part, one.quantity, one.condition)
        first = whole.get(key, one)
        whole[key] = replace(one, before_stage=first.before_stage, before=first.before)
    return tuple(whole.values())
