"""Bands: the ohms, or volts, at which a part of each kind is sound, doubtful or bad."""

import re
import tomllib
from dataclasses import dataclass
from importlib import resources

from benchreckoner.physics.leads import lead_resistance
from benchreckoner.units import Q, read_percent, read_quantity

# Each soldered end of a lead; far below the band's own edge for a joint, so that
# a dry joint at one end still shows.
_END_JOINT = Q(5, "mohm")
# Links of the chain whose ohms say nothing of them.
_JUDGED_ELSEWHERE = {
    "adapter": "an adapter has its own judgement: see the supply, part by part",
    "resistor": "a resistor is judged by what is marked on it: see the resistors, part by part",
    "transistor": "a transistor takes what its governor leaves it: see the transistors, part by part",
}


@dataclass(frozen=True)
class Band:
    """Where sound ends and where bad begins, with its source and mark.

    A band round a stated value ends below as well, at `sound_down_to` and `bad_down_from`.
    """

    sound_up_to: Q
    bad_from: Q
    source: str
    mark: str
    sound_down_to: Q | None = None
    bad_down_from: Q | None = None

    @property
    def unit(self):
        """What its edges are told in."""
        return next(unit for unit in ("ohm", "V", "F", "A", "turn/min", "N*m", "W", "degC", "N", "percent")
                    if self.bad_from.is_compatible_with(unit))


class NoBand(ValueError):
    """There is no band for this part yet; the message says what would give one."""


def band_for(part, *, quantity="resistance", supply=None, current=None, track=None, allowed=None):
    """The band for one part of the sheet.

    Parameters
    ----------
    part : Part
    quantity : str
        What was read of it.
    supply, current : Known, optional
        Of the chain it stands in; a current meter's band needs both.
    track : Quantity [ohm], optional
        A potentiometer's, end to end; a wiper's band is a share of it.
    allowed : Quantity [W], optional
        That a resistor may turn into heat where it is; the band of its power is a share of it.

    Returns
    -------
    Band

    Raises
    ------
    NoBand
        If the kind has none, or the part lacks what its band needs.
    """
    details = part.details
    rows = [row for row in _ROWS if (row["kind"], row.get("quantity", "resistance")) == (part.kind, quantity)
            and row.get("trimmer") in (None, details.get("trimmer", False))]
    if not rows:
        if part.kind in _JUDGED_ELSEWHERE:
            raise NoBand(_JUDGED_ELSEWHERE[part.kind])
        what = "" if quantity == "resistance" else f"{quantity} of the "
        raise NoBand(f"not judged here: there is no band yet for the {what}kind \"{part.kind}\"")
    named = [row for row in rows if row.get("chemistry") in (None, details.get("chemistry", "").casefold())]
    if not named:
        known = ", ".join(row["chemistry"] for row in rows)
        raise NoBand(f"there is no band for these cells; bands exist for: {known}. "
                     f"Write chemistry = \"{rows[0]['chemistry']}\" if that is what they are")
    row = max(named, key=lambda row: "trimmer" in row)
    if row.get("rule") == "lead":
        return _lead_band(part, row)
    if row.get("rule") == "share of supply":
        return _share_band(row, supply, current)
    if row.get("rule") == "share of track":
        return _track_share_band(row, track)
    if row.get("rule") == "round the stated value":
        return _stated_band(row, details)
    if row.get("rule") == "share of impedance":
        return _impedance_band(row, details)
    if row.get("rule") == "share of allowed power":
        return Band(read_percent(row["sound_share"]) * allowed, read_percent(row["bad_share"]) * allowed, row["source"], row["mark"])
    times = 1
    if row.get("each") == "cell":
        if "count" not in details:
            raise NoBand("the band is for one cell: write how many there are, such as count = 6")
        times = details["count"]
    return Band(times * row["sound_up_to"], times * row["bad_from"], row["source"], row["mark"])


def band_rows():
    """The table of bands as it stands in limits.toml, edges as quantities.

    Returns
    -------
    tuple of dict
    """
    return tuple(_ROWS)


def read_gauge(text):
    """A lead's gauge as typed: ``AWG 24`` gives 24, ``0.5 mm2`` gives an area.

    Raises
    ------
    ValueError
        If it is neither.
    """
    match = re.fullmatch(r"\s*(?:AWG\s*#?\s*(\d{1,2})|(\d{1,2})\s*AWG)\s*", text, re.IGNORECASE)
    if match:
        return int(match[1] or match[2])
    try:
        return read_quantity(text, "mm**2", "gauge").quantity
    except ValueError:
        raise ValueError(f'gauge: cannot read {text!r}, write for example "AWG 24" or "0.5 mm2"') from None


def _lead_band(part, row):
    details = part.details
    if "gauge" not in details or "length" not in details:
        raise NoBand('a lead\'s band is computed: write its gauge = "AWG 24" (or "0.5 mm2") and length = "40 cm"')
    try:
        ohms = lead_resistance(gauge=read_gauge(details["gauge"]), length=details["length"],
                               temperature=details.get("temperature", Q(20, "degC")))
    except ValueError:
        raise NoBand(f'a lead\'s gauge is "AWG 0" to "AWG 40", or "0.5 mm2", "0.75 mm2", "1 mm2" or "1.5 mm2"; '
                     f'"{details["gauge"]}" is none of these') from None
    sound = ohms + 2 * _END_JOINT
    return Band(sound, 2 * sound, row["source"], row["mark"])


def _share_band(row, supply, current):
    if supply is None or current is None or not current.plain > 0:
        raise NoBand("read the supply's volts under this condition too: its band is a share of them")
    whole = supply.value / current.value
    return Band((read_percent(row["sound_share"]) * whole).to("ohm"), (read_percent(row["bad_share"]) * whole).to("ohm"),
                row["source"], row["mark"])


def _track_share_band(row, track):
    if track is None:
        raise NoBand('its band is a share of the track: write resistance = "10 kohm", or read the track end to end')
    sound = max(read_percent(row["sound_share"]) * track, row.get("at_least", Q(0, "ohm")))
    return Band(sound.to("ohm"), max(read_percent(row["bad_share"]) * track, sound).to("ohm"), row["source"], row["mark"])


def _stated_band(row, details):
    stated = details.get("resistance")
    if stated is None:
        raise NoBand(f'a {row["words"]} is judged by what is written on it: write resistance = "10 kohm"')
    sound = details.get("tolerance", read_percent(row["sound_share"]))
    bad = max(read_percent(row["bad_share"]), sound)
    up_to, up_from, down_to, down_from = ((1 + sign * share) * stated.to("ohm") for sign in (1, -1) for share in (sound, bad))
    return Band(up_to, up_from, row["source"], row["mark"], down_to, down_from)


def _impedance_band(row, details):
    if "impedance" not in details:
        raise NoBand('a loudspeaker is judged by the ohms that are printed on it: write impedance = "8 ohm"')
    down_from, down_to, up_to, up_from = (read_percent(row[key]) * details["impedance"].to("ohm") for key in
                                          ("bad_down_share", "sound_down_share", "sound_share", "bad_share"))
    return Band(up_to, up_from, row["source"], row["mark"], down_to, down_from)


def _read_rows():
    text = resources.files(__package__).joinpath("limits.toml").read_text(encoding="utf-8")
    edges = ("sound_up_to", "bad_from", "at_least")
    return [{key: read_quantity(value, ("ohm", "V")).quantity if key in edges else value for key, value in row.items()}
            for row in tomllib.loads(text)["band"]]


_ROWS = _read_rows()
