"""How hot a transistor's junction gets, from what the sheet knows of it: the thermometer first, then plate, paper or body."""

import tomllib
from dataclasses import dataclass
from importlib import resources

from benchreckoner.bench.uncertain import Known, within
from benchreckoner.physics.dissipation import thermal_resistance
from benchreckoner.physics.plates import FINISHES, METALS, plate_resistance, plate_temperature
from benchreckoner.units import Q, read_percent, read_quantity, show_exact

LIMITS = tomllib.loads(resources.files(__package__).joinpath("transistor_limits.toml").read_text(encoding="utf-8"))
_STYLES = {row["name"]: row for row in LIMITS["style"]}
_SOURCE, _SHEET = Q(10, "mm"), Q(1, "mm")  # a tab's width, and a plate whose thickness is not written
_RATED_AT = Q(25, "degC")
_AS_WRITTEN = 1e-9


class Missing(Exception):
    """Something the junction's temperature needs is not there; the message says what to read or write."""


@dataclass(frozen=True)
class Junction:
    """Its temperature [degC], in words how it was found, and the air round it, where that is known."""

    known: Known
    how: str
    air: Known | None


def junction_of(part, power, case):
    """The junction's temperature.

    Parameters
    ----------
    part : Part
    power : Known
        [W], above zero.
    case : Known or None
        [degC], by a thermometer on its case.

    Returns
    -------
    Junction

    Raises
    ------
    Missing
        Says what to read or write.
    """
    details = part.details
    air = _air(details)
    if case is not None:
        if "junction_case" not in details:
            raise Missing('From the case to the junction its data sheet must tell: write junction_case = "3 K/W".')
        if air is not None and air.lies_above(case):
            raise Missing(f"Its case reads colder than the {show_exact(details['temperature'], 'degC')} of the air round it, and heat flows the "
                          "other way. Read both again, while it runs warm.")
        drop = exact(details["junction_case"], "K/W")
        return Junction(_above(case, power, drop), f"{show_exact(details['junction_case'], 'K/W')} above its case", air)
    if air is None:
        raise Missing(f'Touch its case with a thermometer while it runs warm and enter the temperature of {part.name}; '
                      'or write the air round it, such as temperature = "35 degC".')
    path, how = _to_air(part, power)
    return Junction(_above(air, power, path), how, air)


def exact(quantity, unit):
    """A value taken as it is written; a number without any uncertainty would forget what it is."""
    return within(quantity, _AS_WRITTEN, unit)


def _air(details):
    if "temperature" not in details:
        return None
    limit = read_quantity(LIMITS["air"]["within"], "K").quantity.m_as("K")
    return _spread(details["temperature"].m_as("degC"), limit, "degC")


def _to_air(part, power):
    """The thermal resistance from junction to air, and in words where it is from."""
    details = part.details
    if "plate_side" in details:
        return _over_plate(details, power), (
            f"over its plate of {show_exact(details['plate_side'], 'm')}, taken as bare aluminium that stands free, reckoned to "
            f"{LIMITS['plate']['within']} (from memory)")
    if "junction_air" in details:
        return exact(details["junction_air"], "K/W"), f"by its {show_exact(details['junction_air'], 'K/W')} to the air"
    style = details.get("style", "").casefold()
    if style == "small plastic" and "rated_power" in details:
        found = thermal_resistance(hot=details["junction_limit"], cold=_RATED_AT, power=details["rated_power"])
        return exact(found, "K/W"), f"by its rated {show_exact(details['rated_power'], 'W')} in free air of 25 °C"
    if style in _STYLES:
        row = _STYLES[style]
        return _between(row["least"], row["most"]), f"by what such bodies have, {row['least']} to {row['most']} (common practice)"
    names = " or ".join(f'style = "{name}"' for name in _STYLES)
    raise Missing('Touch its case with a thermometer, or write its junction_air = "80 K/W" from the data sheet, or its body: '
                  f"{names}.")


def _over_plate(details, power):
    if "junction_case" not in details:
        raise Missing('With a plate, its data sheet must tell junction to case: write junction_case = "3 K/W".')
    if not details["plate_side"] > _SOURCE:
        raise Missing(f"A plate must be larger than the tab, {show_exact(_SOURCE, 'm')}: measure its side again, plate_side = \"50 mm\".")
    plate = dict(side=details["plate_side"], thickness=details.get("thickness", _SHEET), air=details["temperature"],
                 conductivity=Q(METALS["aluminium"]["conductivity"], "W/(m*K)"), emissivity=FINISHES["bare sheet"]["emissivity"],
                 source_side=_SOURCE)
    try:
        warm = plate_temperature(power=power.value, **plate)
    except ValueError:
        raise Missing("The plate cannot be reckoned: it would pass 300 °C, or is far from any usual size. Read volts, current and its "
                      "side again, or touch its case with a thermometer.") from None
    plain = within(plate_resistance(surface=warm, **plate), read_percent(LIMITS["plate"]["within"]), "K/W")
    return plain + _between(LIMITS["plate"]["joint_least"], LIMITS["plate"]["joint_most"]) + exact(details["junction_case"], "K/W")


def _between(least, most):
    low, high = (read_quantity(text, "K/W").quantity.m_as("K/W") for text in (least, most))
    return _spread((low + high) / 2, (high - low) / 2, "K/W")


def _spread(middle, limit, unit):
    """A value that lies within a limit of its middle."""
    return Known(middle - 1 + within(Q(1, ""), limit, "").number, unit)


def _above(base, power, resistance):
    return Known(base.number + power.number * resistance.number, "degC")
