"""What is believed of rubber belts before anything is measured, out of belt_priors.toml, and draws from it."""

import tomllib
from importlib import resources

from scipy.special import ndtri

BEARINGS = ("ball", "oiled", "dry", "unknown")
_ROWS = tomllib.loads(resources.files(__package__).joinpath("belt_priors.toml").read_text(encoding="utf-8"))
_NINETEEN_OF_TWENTY = 1.96


def prior(name, kind=None):
    """One row of the table.

    Parameters
    ----------
    name : str
        Such as ``"friction"``.
    kind : str, optional
        Of a bearing: one of `BEARINGS`.

    Returns
    -------
    dict

    Raises
    ------
    ValueError
        For a row that is not there.
    """
    row = _ROWS.get(name, {})
    row = row.get(kind, {}) if kind is not None else row
    if not row or "mark" not in row:
        known = BEARINGS if name == "bearing" else tuple(_ROWS)
        raise ValueError(f"{name}: there is no row {kind or name!r} in belt_priors.toml; write one of {', '.join(known)}")
    return row


def draw(row, even):
    """Values that a row believes in, from numbers spread evenly between 0 and 1.

    Parameters
    ----------
    row : dict
        From `prior`, with `low` and `high`, `middle` and `factor`, or `limit` round zero.
    even : array
        From `evenly`.

    Returns
    -------
    array
    """
    if "factor" in row:
        return row["middle"] * row["factor"] ** (ndtri(even) / _NINETEEN_OF_TWENTY)
    if row.get("by_ratio"):
        return row["low"] * (row["high"] / row["low"]) ** even
    low, high = (row["low"], row["high"]) if "low" in row else (-row["limit"], row["limit"])
    return low + (high - low) * even


def evenly(generator, count):
    """Numbers between 0 and 1 in random order, one in each of `count` equal steps: steadier than chance alone."""
    return (generator.permutation(count) + generator.random(count)) / count
