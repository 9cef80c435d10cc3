"""Cleaning, least harm first: the steps in order, the surfaces, and which step suits which surface."""

import tomllib
from dataclasses import dataclass
from importlib import resources

from benchreckoner.bench.cautions import all_cautions


@dataclass(frozen=True)
class Surface:
    """Something to clean: where to stop, and what to read before and after.

    Without a ``quantity`` there is nothing to read on it.
    """

    name: str
    title: str
    stop: str
    measure: str
    quantity: str


@dataclass(frozen=True)
class Step:
    """One step, with the cautions that stand before it and the reason for each surface it does not suit."""

    name: str
    title: str
    words: str
    risk: str
    cautions: tuple
    suits: tuple[str, ...]
    never: dict[str, str]
    source: str
    mark: str


def surfaces():
    """Every surface.

    Returns
    -------
    tuple of Surface
    """
    return _SURFACES


def steps():
    """Every step, the one that can do least harm first.

    Returns
    -------
    tuple of Step
    """
    return _STEPS


def steps_for(surface):
    """The steps that one surface stands, in order.

    Parameters
    ----------
    surface : Surface

    Returns
    -------
    tuple of Step
    """
    return tuple(step for step in _STEPS if surface.name in step.suits)


def _read():
    page = tomllib.loads(resources.files(__package__).joinpath("cleaning.toml").read_text(encoding="utf-8"))
    cautions = {one.name: one for one in all_cautions()}
    found = []
    for row in page["step"]:
        never = {name: one["why"] for one in row["never"] for name in one["surfaces"]}
        found.append(Step(**{**row, "cautions": tuple(cautions[name] for name in row["cautions"]),
                             "suits": tuple(row["suits"]), "never": never}))
    return tuple(Surface(**row) for row in page["surface"]), tuple(found)


_SURFACES, _STEPS = _read()
