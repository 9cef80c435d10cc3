"""Cautions: what can hurt at this bench, and which of it belongs to the parts of one sheet."""

import tomllib
from dataclasses import dataclass
from importlib import resources


@dataclass(frozen=True)
class Caution:
    """One danger, in words for the person at the bench, with its source and mark.

    Without `kinds` it belongs to every sheet; with `chemistries` only to cells
    that name one of them, or that name none and may be any.
    """

    name: str
    title: str
    words: str
    source: str
    mark: str
    kinds: tuple = ()
    chemistries: tuple = ()

    def belongs_to(self, part):
        """Whether it belongs to one part of a sheet."""
        chemistry = _plain(part.details.get("chemistry", ""))
        fits = part.kind != "cells" or not self.chemistries or chemistry not in _KNOWN and not any(
            word in chemistry for word in _KNOWN) or any(word in chemistry for word in self.chemistries)
        return part.kind in self.kinds and fits


def all_cautions():
    """Every caution, in the order to read them.

    Returns
    -------
    tuple of Caution
    """
    return _CAUTIONS


def cautions_for(sheet):
    """The cautions that belong to the parts of a sheet.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of Caution
        In the order to read them; those for every bench come with any sheet.
    """
    parts = sheet.parts.values()
    return tuple(one for one in _CAUTIONS if not one.kinds or any(one.belongs_to(part) for part in parts))


def _plain(chemistry):
    """A chemistry without the hyphens and capitals that people write differently."""
    return "".join(letter for letter in chemistry.casefold() if letter.isalnum())


def _read_cautions():
    text = resources.files("benchreckoner.bench").joinpath("cautions.toml").read_text("utf-8")
    return tuple(Caution(**{key: tuple(value) if isinstance(value, list) else value for key, value in row.items()})
                 for row in tomllib.loads(text)["caution"])


_CAUTIONS = _read_cautions()
# A chemistry that no caution names may be any: better a caution too many.
_KNOWN = frozenset(word for one in _CAUTIONS for word in one.chemistries)
