"""Counting tries into a sheet, one at a time: each is saved at once, and each can be taken back."""

from dataclasses import dataclass
from pathlib import Path

from benchreckoner.bench.changes import Change, add_entry, rewrite_entry, take_back
from benchreckoner.bench.tries import same


@dataclass(frozen=True)
class _Step:
    """One try as it was saved, and the try before it in the same entry, if there is one."""

    change: Change
    entry: dict
    before: "_Step | None"


class Counting:
    """Counts tries into one sheet's file.

    Parameters
    ----------
    path : path-like

    Notes
    -----
    A try goes into the entry of the try before it, where that was the last
    thing saved and is of the same part, condition and stage; a clean try after
    a fault begins a new entry, so that the order is kept. Nothing but the
    file knows the tally: whoever reads it again counts on from there.
    """

    def __init__(self, path):
        self.path, self._steps = Path(path), []

    def count(self, *, part, condition_tried, stage, fault):
        """Save one more try.

        Parameters
        ----------
        part, condition_tried, stage : str
        fault : bool
            Whether the fault showed.

        Returns
        -------
        Sheet
            With this try in it.

        Raises
        ------
        SheetError
            If it cannot be saved; the file is then left as it is.
        """
        named = {"part": part, "condition_tried": condition_tried}
        last = self._steps[-1] if self._steps else None
        change = None
        if last and _goes_on(last.entry, named, stage) and (fault or not last.entry["faults"]):
            entry = last.entry | {"faults": last.entry["faults"] + 1} if fault else last.entry | {"clean": last.entry["clean"] + 1}
            change = rewrite_entry(last.change, table="trial", entry=entry)
        if change is None:  # the file was changed meanwhile, or this begins a new run
            last, entry = None, named | {"clean": int(not fault), "faults": int(fault), "stage": stage}
            change = add_entry(self.path, table="trial", entry=entry)
        self._steps.append(_Step(change, entry, last))
        return change.sheet

    def take_back(self):
        """Take the last try out of the file again.

        Returns
        -------
        sheet : Sheet
        entry : dict
            Part, condition and stage of that try.
        fault : bool
            Whether it was one with the fault.

        Raises
        ------
        ValueError
            If nothing was counted here, or the file was changed since; it is
            then left as it is.
        """
        if not self._steps:
            raise ValueError("nothing to take back: nothing was counted here since the book was opened; "
                             "take older tries out of the sheet in a text editor")
        step = self._steps[-1]
        if step.before is None:
            sheet = take_back(step.change)
        else:
            change = rewrite_entry(step.change, table="trial", entry=step.before.entry)
            if change is None:
                raise ValueError(f"{self.path.name} was changed after this try was saved, so it was left as it is; "
                                 "take the try out in a text editor")
            sheet = change.sheet
        self._steps.pop()
        return sheet, step.entry, step.entry["faults"] > (step.before.entry["faults"] if step.before else 0)


def _goes_on(entry, named, stage):
    return (entry["part"], entry["stage"]) == (named["part"], stage) and same(entry["condition_tried"], named["condition_tried"])
