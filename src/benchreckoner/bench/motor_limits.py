"""Bands for a motor, its governor and what it drives, and the verdict within a band that has two sides."""

import tomllib
from importlib import resources

from benchreckoner.bench.limits import Band
from benchreckoner.bench.verdict import BAD, DOUBTFUL, NEEDED, SOUND, UNTOLD, Verdict, share_below
from benchreckoner.units import read_quantity

_ROWS = tomllib.loads(resources.files(__package__).joinpath("motor_limits.toml").read_text(encoding="utf-8"))
_ENDS = ("sound_up_to", "bad_from", "sound_down_to", "bad_down_from")
_UNITS = ("A", "ohm", "V")


def motor_band(name, own=None):
    """One band of the table.

    Parameters
    ----------
    name : str
        A row of ``motor_limits.toml``.
    own : Quantity, optional
        The motor's own usual value, for a band that is so many times it, or so far either way of it.

    Returns
    -------
    Band
    """
    row = _ROWS[name]
    said = row["source"], row["mark"]
    if "sound_times" in row:
        return Band(row["sound_times"] * own, row["bad_times"] * own, *said)
    if "sound_share" in row:
        sound, bad = row["sound_share"], row["bad_share"]
        return Band((1 + sound) * own, (1 + bad) * own, *said, (1 - sound) * own, (1 - bad) * own)
    if "sound_from" in row:  # the less, the worse
        return Band(*(read_quantity(row[key], "V").quantity for key in ("sound_from", "bad_up_to")), *said)
    ends = [read_quantity(row[key], _UNITS).quantity if key in row else None for key in _ENDS]
    return Band(*ends[:2], *said, *ends[2:])


def judge_within(known, band):
    """The verdict on a value against a band with one side or two.

    Parameters
    ----------
    known : Known
    band : Band
        Where its sound edge lies above its bad one, less is worse.

    Returns
    -------
    Verdict
    """
    sound, bad = band.sound_up_to.m_as(known.unit), band.bad_from.m_as(known.unit)
    value, spread = known.plain, known.number.std_dev
    if sound > bad:
        sound, bad, value = -sound, -bad, -value
    below, above = share_below(sound, value, spread), share_below(-bad, -value, spread)
    if band.sound_down_to is not None:
        below -= share_below(band.sound_down_to.m_as(known.unit), value, spread)
        above += share_below(band.bad_down_from.m_as(known.unit), value, spread)
    shares = {SOUND: below, DOUBTFUL: max(0.0, 1 - below - above), BAD: above}
    word = max(shares, key=shares.get)
    return Verdict(word if shares[word] >= NEEDED else UNTOLD, shares[word])
