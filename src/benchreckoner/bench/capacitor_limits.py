"""What a capacitor on the sheet is, and the edges of what it may read."""

import tomllib
from dataclasses import dataclass
from importlib import resources

from benchreckoner.bench.limits import Band, NoBand
from benchreckoner.bench.part_marking import read_marking
from benchreckoner.physics.capacitors import series_resistance
from benchreckoner.units import Q, read_percent, read_quantity

ELECTROLYTIC = ("aluminium", "bipolar aluminium", "solid tantalum")
STYLES = (*ELECTROLYTIC, "film", "ceramic")
PLACES = ("coupling", "supply", "bypass", "timing", "output", "motor filter")
_TABLE = tomllib.loads(resources.files(__package__).joinpath("capacitor_limits.toml").read_text(encoding="utf-8"))


@dataclass(frozen=True)
class Rating:
    """What is printed on a capacitor, or written beside it on the sheet.

    `lower` and `upper` are fractions of the capacitance, None where no tolerance is known.
    """

    capacitance: Q
    rated_voltage: Q | None
    lower: float | None
    upper: float | None
    style: str
    place: str

    @property
    def tolerance(self):
        """How far a sound part may lie below and above: as marked, else as common practice takes an unmarked one."""
        if self.lower is not None:
            return self.lower, self.upper
        unmarked = read_percent(_TABLE["capacitance"]["unmarked"])
        return -unmarked, unmarked


def rating(part):
    """What the sheet says a capacitor is meant to be.

    Parameters
    ----------
    part : Part
        Of kind capacitor, as a sheet gives it: with `capacitance`, and `rated_voltage`, `tolerance` or
        `marking`, `style` and `place` as far as they are known.

    Returns
    -------
    Rating
        Aluminium where no style is written; an empty place where none of `PLACES` is named.

    Raises
    ------
    NoBand
        If the sheet says no capacitance, neither itself nor by a marking, or the style is none we know.
    """
    details, lower, upper = part.details, None, None
    if "capacitance" not in details:
        raise NoBand('write what it is meant to be: capacitance = "47 uF", or marking = "50 MFD 15 V -10/+50 %" as printed')
    if "tolerance" in details:
        lower, upper = -details["tolerance"], details["tolerance"]
    elif "marking" in details:
        printed = read_marking(details["marking"], "capacitor")[0]
        lower, upper = printed.lower, printed.upper
    style = details.get("style", "aluminium").casefold()
    if style not in STYLES:
        raise NoBand(f'style "{details["style"]}" is none we know; write one of: {", ".join(STYLES)}')
    place = details.get("place", "").casefold()
    return Rating(details["capacitance"], details.get("rated_voltage"), lower, upper, style,
                  next((one for one in PLACES if one in place), ""))


def capacitance_band(rated):
    """Within which capacitance a part is as marked, and below which it is worn out.

    Parameters
    ----------
    rated : Rating

    Returns
    -------
    Band
        High readings have no bad edge of their own, since what reads high leaks or is made so: `bad_from` lies
        where no reading comes.
    """
    table, marked = _TABLE["capacitance"], rated.lower is not None
    lower, upper = rated.tolerance
    if rated.style in ELECTROLYTIC:
        worn = min(-read_percent(table["worn_down"]), lower)
        source, mark = table["worn_source"], table["worn_mark"] if marked else table["unmarked_mark"]
        source = f"{'marked tolerance' if marked else 'unmarked, so 20 % either way (common practice)'}; {source}"
    else:
        worn, source, mark = max(2 * lower, -1.0), table["others"], table["others_mark"]
    whole = rated.capacitance.to("F")
    return Band((1 + upper) * whole, Q(float("inf"), "F"), source, mark, (1 + lower) * whole, (1 + worn) * whole)


def series_resistance_band(rated):
    """The series resistance that a new part may have, and what three times it makes of it.

    Parameters
    ----------
    rated : Rating

    Returns
    -------
    Band

    Raises
    ------
    NoBand
        For a style without a figure, or a part whose rated voltage is not known or above 63 V.
    """
    table = _TABLE["series_resistance"]
    if rated.style not in ("aluminium", "bipolar aluminium"):
        raise NoBand(f"there is no figure here for the series resistance of {rated.style} parts")
    if rated.rated_voltage is None:
        raise NoBand('what a new part may have goes by its rated voltage: write rated_voltage = "16 V"')
    usual = next((row for row in table["usual"] if rated.rated_voltage <= read_quantity(row["up_to"], "V").quantity * (1 + 1e-9)), None)
    if usual is None:
        raise NoBand("parts above 63 V are out of these books' scope")
    ohms = series_resistance(capacitance=rated.capacitance, dissipation=usual["dissipation"],
                             frequency=read_quantity(table["frequency"], "Hz").quantity)
    return Band(ohms, table["times_worn"] * ohms, table["source"], table["mark"])
