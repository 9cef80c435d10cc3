"""The path of a sheet's belt: its pulleys where they stand, which way they turn, and what looks wrong about it."""

from dataclasses import dataclass

from benchreckoner.bench.repair import Part
from benchreckoner.physics.belt_path import BeltPath, belt_path
from benchreckoner.physics.belt_sizes import (INSIDE_CIRCUMFERENCE, INSIDE_DIAMETER, MEASURES, free_length,
                                              inside_circumference)
from benchreckoner.units import Q

PLAUSIBLE = (0.0, 0.15)  # stretch of a belt that somebody may have meant; common practice is 3 to 8 %


@dataclass(frozen=True)
class SheetPath:
    """A belt's path as a sheet gives it: the belt, the pulleys in the order it meets them, the reckoned path, and doubts in words."""

    belt: Part
    pulleys: tuple[Part, ...]
    place: dict
    path: BeltPath
    doubts: tuple[str, ...]

    @property
    def misfit(self):
        """Why no belt can lie so, though a length comes out all the same; empty where one can, crossed or not."""
        return " ".join(self.doubts) if self.path.untouched or self.path.blocked else ""


def belt_in_machine(sheet, stage=None):
    """The belt that runs at a stage: the last one fitted up to then, else the one in the machine as found.

    Parameters
    ----------
    sheet : Sheet
        Of several belts, the one it was found with says ``in_machine = true``.
    stage : str, optional
        The latest, if left out.

    Returns
    -------
    Part or None
        None where several belts are listed and nothing says which of them ran.
    """
    belts = {name: part for name, part in sheet.parts.items() if part.kind == "belt"}
    done = sheet.actions if stage is None else sheet.actions[:sheet.stages.index(stage)]
    for action in reversed(done):
        fitted = [name for name in action.fitted if name in belts]
        if fitted:
            return belts[fitted[-1]]
    as_found = [part for part in belts.values() if part.details.get("in_machine")] or list(belts.values())
    return as_found[0] if len(as_found) == 1 else None


def path_of(sheet):
    """Reckon the path of the belt that is in the machine now.

    Parameters
    ----------
    sheet : Sheet
        The belt has a `thickness`; each pulley on the belt a `diameter` and a place `at`. They stand on the sheet in the order in
        which the belt meets them; one that turns against the first has `turns = "the other way"`.

    Returns
    -------
    SheetPath

    Raises
    ------
    ValueError
        Says what to write where something is missing, and names the pulleys where no belt can lie.
    """
    belt = belt_in_machine(sheet)
    pulleys = tuple(part for part in sheet.parts.values() if part.kind == "pulley" and "at" in part.details)
    if belt is None:
        raise ValueError('no belt is known to be in the machine; write one part of kind = "belt", and of several mark the one that runs '
                         'with in_machine = true, or name it in an action, fitted = ["belt a"]')
    if len(pulleys) < 2:
        raise ValueError('a path needs two pulleys that say where they stand; write for each diameter = "6 mm" (of its seat) and '
                         'at = ["55 mm", "0 mm"], across and up from any one place')
    for part in (*pulleys, belt):
        wanted = "thickness" if part.kind == "belt" else "diameter"
        if wanted not in part.details:
            raise ValueError(f'{part.name}: has no {wanted}, write for example {wanted} = "{"1.2" if part.kind == "belt" else "6"} mm"')
    place = dict(diameters=Q.from_list([part.details["diameter"].to("mm") for part in pulleys]),
                 across=Q.from_list([part.details["at"][0] for part in pulleys]),
                 up=Q.from_list([part.details["at"][1] for part in pulleys]),
                 senses=[-1 if part.details.get("turns") == "the other way" else 1 for part in pulleys],
                 neutral_height=belt.details["thickness"] / 2)
    try:
        path = belt_path(**place)
    except ValueError as fault:
        names = ", ".join(f"{number} is {part.name}" for number, part in enumerate(pulleys, start=1))
        raise ValueError(f"{fault} ({names})") from None
    return SheetPath(belt, pulleys, place, path, _doubts([part.name for part in pulleys], path))


def likely_slip(*, size, measure, neutral_height, path_length):
    """What a size was probably meant to be, where as stated it fits nothing and by another word it fits.

    Parameters
    ----------
    size : Quantity [mm]
        As typed.
    measure : str
        The word for it, one of `MEASURES`.
    neutral_height, path_length : Quantity [mm]
        Of the belt and of its path.

    Returns
    -------
    str
        A sentence, or nothing where the size may stand as it is.
    """
    def stretch(word):
        try:
            inside = inside_circumference(size=size, measure=word, neutral_height=neutral_height)
        except ValueError:
            return -1.0
        return (path_length / free_length(inside_circumference=inside, neutral_height=neutral_height)).m_as("") - 1

    def fits(word):
        return PLAUSIBLE[0] <= stretch(word) <= PLAUSIBLE[1]

    if fits(measure):
        return ""
    shown = f"{size.m_as('mm'):.4g} mm"
    for word in (INSIDE_CIRCUMFERENCE, INSIDE_DIAMETER, *MEASURES):
        if fits(word):
            factor = ", a factor of pi" if {word, measure} == {INSIDE_CIRCUMFERENCE, INSIDE_DIAMETER} else ""
            return (f"{shown} as {measure} would stretch the belt by {100 * stretch(measure):.0f} %. As {word} it would be "
                    f"{100 * stretch(word):.0f} %: was one taken for the other{factor}?").replace("by -", "by −")
    if stretch(measure) < 0:
        return f"{shown} as {measure} is longer than the path: the belt would hang slack. Was it the right belt's size?"
    return f"{shown} as {measure} would stretch the belt by {100 * stretch(measure):.0f} %, more than any belt is fitted with."


def _doubts(names, path):
    after = {span: names[(span + 1) % len(names)] for span in range(len(names))}
    doubts = [f"The belt does not truly touch {names[pulley]}: its place, its seat or the way it turns may be wrong." for pulley in
              path.untouched]
    doubts += [f"Between {names[span]} and {after[span]} the belt would run through {names[pulley]}. Does the belt meet the pulleys in "
               "another order?" for span, pulley in path.blocked]
    doubts += [f"The belt crosses itself, between {names[one]} and {after[one]} and between {names[other]} and {after[other]}, and rubs "
               "there. If yours does not, a pulley turns the other way, or is not touched." for one, other in path.crossings
               if not _about_untouched(one, other, path, len(names))]
    return tuple(doubts)


def _about_untouched(one, other, path, count):
    """Whether two spans that cross are those beside a pulley that is told as untouched already."""
    return any({one, other} == {pulley, (pulley - 1) % count} for pulley in path.untouched)
