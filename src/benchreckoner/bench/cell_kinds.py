"""Kinds of cells: their volts, end point, ohms, and whether they may be charged; each value with its mark."""

import tomllib
from dataclasses import dataclass
from importlib import resources

from benchreckoner.units import Q, read_quantity

# Known by name, and never judged by volts: some lithium cells of this shape give 1.5 V, others 3.7 V (from memory).
LITHIUM = ("lithium", "liion", "lipo", "life", "14500")


@dataclass(frozen=True)
class CellKind:
    """One chemistry. Volts are those of one cell; `ohms` is in words, for one AA cell."""

    name: str
    words: tuple[str, ...]
    nominal: Q
    nominal_mark: str
    end_point: Q
    end_mark: str
    end_source: str
    most: Q
    ohms: str
    ohms_mark: str
    chargeable: bool

    @property
    def half_way(self):
        """Half-way from the end point up to the nominal volts: from here up we call it sound, our own choice."""
        return (self.end_point + self.nominal) / 2


def cell_kinds():
    """Every kind that has volts of its own.

    Returns
    -------
    tuple of CellKind
    """
    return _KINDS


def kind_of(chemistry):
    """The kind that a sheet's chemistry names, however it is spelled, or None.

    Parameters
    ----------
    chemistry : str

    Returns
    -------
    CellKind or None
        None for lithium too: what it gives, nobody can tell by its shape.
    """
    plain = _plain(chemistry)
    if is_lithium(chemistry):
        return None
    return next((kind for kind in _KINDS if any(word in plain for word in kind.words)), None)


def is_lithium(chemistry):
    """Whether a sheet's chemistry names a lithium cell, of whatever sort."""
    return any(word in _plain(chemistry) for word in LITHIUM)


def _plain(chemistry):
    return "".join(letter for letter in chemistry.casefold() if letter.isalnum())


def _read_kinds():
    text = resources.files(__package__).joinpath("cell_kinds.toml").read_text(encoding="utf-8")
    volts = ("nominal", "end_point", "most")
    return tuple(CellKind(**{key: read_quantity(value, "V").quantity if key in volts else tuple(value) if key == "words" else value
                             for key, value in row.items()}) for row in tomllib.loads(text)["kind"])


_KINDS = _read_kinds()
