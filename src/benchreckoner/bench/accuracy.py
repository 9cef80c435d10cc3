"""What an instrument's maker promises, and which promise covers a reading."""

import re
from dataclasses import dataclass

from benchreckoner.bench.vocabulary import QUANTITIES
from benchreckoner.units import Q, read_percent, read_quantity, ureg

# A drop is read on the voltage ranges, and so on, unless the maker promises it apart.
READ_AS = {"voltage drop": "voltage", "leakage current": "current", "series resistance": "resistance",
           "wiper resistance": "resistance", "level before": "level"}
_DIGITS = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:d|dgt|dgts|digit|digits|count|counts)\.?", re.IGNORECASE)
_OF_READING = re.compile(r"%\s*(?:of\s+(?:the\s+)?reading|rdg\.?|reading)", re.IGNORECASE)
_OF_RANGE = re.compile(r"%\s*(?:of\s+)?(?:the\s+)?(?:full[\s-]?scale|f\.?s|range|span)", re.IGNORECASE)
_UNITS = ("V", "A", "ohm", "F", "turn/min", "cm/s", "s", "degC", "dB", "N", "g", "mm")
_EXAMPLE = 'write for example "0.8 % + 3 mV"'
_ROUNDING = 1e-9


@dataclass(frozen=True)
class AccuracyEntry:
    """One promise: the true value is within this limit of the reading."""

    quantity: str | None
    up_to: Q | None
    fraction: float
    fixed: Q | None
    digits: float


def read_accuracy(entry, name):
    """Read what stands behind an instrument's ``accuracy``.

    Parameters
    ----------
    entry : str or list of dict
        Such as ``0.8 % + 3 mV`` or ``±(0,5 % + 2 digits)``, where a digit is the
        last typed one; or one table a range with quantity, up_to and limit.
    name : str
        What to call the entry in an error.

    Returns
    -------
    tuple of AccuracyEntry

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.

    Examples
    --------
    >>> promise, = read_accuracy("±(0,5 % + 2 digits)", "accuracy")
    >>> promise.fraction, promise.digits
    (0.005, 2.0)
    """
    if isinstance(entry, str):
        return (_read_limit(entry, None, None, name),)
    if not isinstance(entry, list) or not entry:
        raise ValueError(f"{name}: must be text in quotation marks, {_EXAMPLE}")
    return tuple(_read_range(table, f"{name} {number}") for number, table in enumerate(entry, 1))


def entry_for(entries, *, quantity, value, range=None, name):
    """Find the promise that covers a reading.

    Parameters
    ----------
    entries : tuple of AccuracyEntry
    quantity : str
        Of the reading. A voltage drop is read on the voltage ranges, a leakage
        current on the current ranges, a series resistance on the resistance ranges.
    value : Quantity
        The reading.
    range : Quantity, optional
        The range the instrument was set to, if it was noted.
    name : str
        The instrument's, for the error.

    Returns
    -------
    AccuracyEntry
        The one with the smallest ``up_to`` that holds the value or the stated range.

    Raises
    ------
    ValueError
        Names the instrument if nothing it promises fits.

    Examples
    --------
    >>> promises = read_accuracy([{"quantity": "voltage", "up_to": "200 mV", "limit": "0.5 % + 0.2 mV"},
    ...                           {"quantity": "voltage", "up_to": "20 V", "limit": "0.8 % + 20 mV"}], "meter")
    >>> entry_for(promises, quantity="voltage drop", value=Q(184, "mV"), name="meter").fraction
    0.005
    """
    if range is not None and not _holds(range, value):
        raise ValueError(f"instrument {name!r}: the reading {value:~P} is beyond the range {range:~P}; "
                         'write the range that was set, for example range = "20 V"')
    reach = value if range is None else range
    for wanted in (quantity, READ_AS.get(quantity)):
        fitting = [entry for entry in entries if _promises(entry, wanted, reach)]
        if fitting:
            break
    else:
        raise ValueError(f"instrument {name!r} has no accuracy for a {quantity} of {reach:~P}; "
                         f"{_one_a_range(quantity)}")
    # Of two promises of equal reach, the first written stands.
    chosen = min(fitting, key=lambda entry: float("inf") if entry.up_to is None else entry.up_to.m_as(reach.units))
    if chosen.fixed is not None and not chosen.fixed.is_compatible_with(value):
        raise ValueError(f"instrument {name!r}: its accuracy of {chosen.fixed:~P} says nothing "
                         f"about a {quantity}; {_one_a_range(quantity)}")
    return chosen


def _promises(entry, quantity, reach):
    if entry.quantity not in (None, quantity):
        return False
    return entry.up_to is None or (entry.up_to.is_compatible_with(reach) and _holds(entry.up_to, reach))


def _holds(limit, value):
    return abs(value.m_as(limit.units)) <= abs(limit.magnitude) * (1 + _ROUNDING)


def _one_a_range(quantity):
    unit = _units_of(quantity)[0]
    return ("write one entry a range: accuracy = "
            f'[{{ quantity = "{quantity}", up_to = "20 {unit}", limit = "1 % + 2 digits" }}]')


def _units_of(quantity):
    units = QUANTITIES[quantity]
    return (units,) if isinstance(units, str) else units


def _read_range(table, name):
    """One table of an accuracy that is written range by range."""
    if not isinstance(table, dict):
        raise ValueError(f"{name}: must be a table, {_one_a_range('voltage')}")
    for key in table:
        if key not in ("quantity", "up_to", "limit", "note"):
            raise ValueError(f"{name}, {key}: unknown key; a range has quantity, up_to and limit, "
                             f"{_one_a_range('voltage')}")
    for key in ("quantity", "limit"):
        if key not in table:
            raise ValueError(f"{name}, {key}: is missing, {_one_a_range('voltage')}")
    quantity = table["quantity"]
    if not isinstance(quantity, str) or quantity not in QUANTITIES:
        raise ValueError(f"{name}, quantity: unknown quantity {quantity!r}; write one of: {', '.join(QUANTITIES)}")
    up_to = None
    if "up_to" in table:
        up_to = read_quantity(table["up_to"], _units_of(quantity), f"{name}, up_to").quantity
        if not up_to.magnitude > 0:
            raise ValueError(f"{name}, up_to: must be above zero, write for example "
                             f'up_to = "200 {_units_of(quantity)[0]}"')
    return _read_limit(table["limit"], quantity, up_to, f"{name}, limit")


def _read_limit(text, quantity, up_to, name):
    """One limit: a percentage, a fixed part and digits, each at most once."""
    if not isinstance(text, str):
        raise ValueError(f"{name}: must be text in quotation marks, {_EXAMPLE}")
    if _OF_RANGE.search(text):
        raise ValueError(f"{name}: {text!r} counts from the range, not the reading; turn it into a fixed part, "
                         'for example 2 % of a 10 V range is "0.2 V"')
    found = {}
    for term in re.split(r"[+±]", _unwrapped(_OF_READING.sub("%", text))):
        part, value = _read_term(term.strip(), quantity, name)
        if part in found:
            raise ValueError(f"{name}: {text!r} gives the {part} part twice, {_EXAMPLE}")
        found[part] = value
    entry = AccuracyEntry(quantity, up_to, found.get("percent", 0.0), found.get("fixed"), found.get("digits", 0.0))
    if entry.fraction == 0 and entry.digits == 0 and (entry.fixed is None or entry.fixed.magnitude == 0):
        raise ValueError(f"{name}: {text!r} promises no error at all, which no instrument can; {_EXAMPLE}")
    return entry


def _unwrapped(text):
    """The terms without the sign and brackets round them."""
    text = text.strip().removeprefix("±").strip()
    return text[1:-1] if text.startswith("(") and text.endswith(")") else text


def _read_term(term, quantity, name):
    digits = _DIGITS.fullmatch(term)
    if digits:
        return "digits", float(digits[1].replace(",", "."))
    if "%" in term:
        fraction = read_percent(term, name)
        if fraction > 1:
            raise ValueError(f"{name}: {term!r} is more than the whole reading, {_EXAMPLE}")
        return "percent", fraction
    if not any(sign.isdigit() for sign in term):
        raise ValueError(f"{name}: {term!r} holds no number, {_EXAMPLE}")
    fixed = read_quantity(term, _UNITS if quantity is None else _units_of(quantity), name).quantity
    if fixed.magnitude < 0:
        raise ValueError(f"{name}: {term!r} is below zero, {_EXAMPLE}")
    if fixed.units == ureg.degC:
        # An error of 2 degrees is a difference, not a temperature.
        fixed = Q(fixed.magnitude, "delta_degC")
    return "fixed", fixed
