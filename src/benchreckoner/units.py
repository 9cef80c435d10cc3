"""Units: the one registry, reading what people type, showing numbers."""

import functools
import math
import re
from dataclasses import dataclass

import numpy as np
from pint.delegates.formatter._compound_unit_helpers import sort_by_dimensionality

from benchreckoner.registry import Registry

ureg = Registry()
# A product as a textbook has it, mN·m, V·s and kg·m²; left alone it would come by the alphabet, m·mN and s·V.
ureg.formatter.default_sort_func = sort_by_dimensionality
Q = ureg.Quantity

# Dials and pulleys turn; pint counts one turn as 6.28 radians, so turns stay explicit.
_SPELLINGS = {
    "": "", "Ω": "ohm", "ohms": "ohm", "Ohm": "ohm", "Ohms": "ohm", "OHM": "ohm",
    "volt": "V", "volts": "V", "v": "V", "amp": "A", "amps": "A", "a": "A",
    "sec": "s", "secs": "s", "second": "s", "seconds": "s",
    "mins": "min", "minute": "min", "minutes": "min", "hours": "h", "hour": "h",
    "°C": "degC", "℃": "degC", "rpm": "turn/min", "r/min": "turn/min", "rev/min": "turn/min",
    "mm²": "mm**2", "mm2": "mm**2", "mm^2": "mm**2", "db": "dB",
}
_CODE_LETTERS = {
    "ohm": {"R": 1.0, "L": 1e-3, "m": 1e-3, "k": 1e3, "K": 1e3, "M": 1e6, "G": 1e9},
    "F": {"p": 1e-12, "n": 1e-9, "u": 1e-6, "m": 1e-3, "F": 1.0},
    "V": {"V": 1.0},
}
_NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,3})?")
_CODE = re.compile(r"(\d+)([RLmkKMGpnuFV])(\d*)\s*(?:ohm|F|V)?")
_UNIT = re.compile(r"[A-Za-z°℃²Ω]+(?:\*\*?\d|\*[a-z])?(?:/[A-Za-z]+)?")
# Products of units, as people write them: "Nm" would be a textile's fineness to pint.
_PRODUCTS = {"N*m": re.compile(r"N[ *·⋅.-]?m"), "V*s/rad": re.compile(r"V[ *·⋅.-]?s/rad")}
_PREFIXES = {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G"}
_SYMBOLS = {"turn/min": "r/min", "deg": "°", "a": "years", "mA·h": "mAh"}
_ABSURD = 1e18
_UNPREFIXED = ("degC", "delta_degC", "K", "K/W", "W/(m*K)", "turn/min", "min", "mm", "mm**2", "dB", "percent")


@dataclass(frozen=True)
class Typed:
    """A value as somebody typed it, with the worth of half its last digit."""

    quantity: Q
    half_digit: Q


def need(value, unit, name, *, above=None, least=None):
    """Hand back `value` in `unit`, or say which argument is wrong and what to write."""
    if not isinstance(value, Q):
        raise TypeError(f"{name}: write Q({value!r}, '{unit}'), not a bare number")
    if not value.is_in(unit):  # most values come as they are wanted, and a slider waits for this
        if not _fits(value.units, unit):
            raise ValueError(f"{name}: expected {unit}, got {value.units:~P}; write Q(1, '{unit}')")
        if unit == "delta_degC" and value.units == ureg.degC:
            raise ValueError(f"{name}: is a difference; write Q({value.magnitude}, 'delta_degC')")
        value = value.to(unit)
    size = value.magnitude
    if not np.isfinite(size).all():
        raise ValueError(f"{name}: must be a finite number, got {value:~P}; write Q(1, '{unit}')")
    if above is not None and not np.greater(size, above).all():
        raise ValueError(f"{name}: must be above {above} {unit}, got {value:~P}")
    if least is not None and not np.greater_equal(size, least).all():
        raise ValueError(f"{name}: must be at least {least} {unit}, got {value:~P}")
    return value


@functools.cache
def _fits(found, wanted):
    return found.is_compatible_with(wanted) and not (wanted == "turn/min" and _cycles(found))


def _cycles(unit):
    """Whether it counts something a second without saying that it turns."""
    return not any(angle in str(unit) for angle in ("turn", "rad", "deg"))


def read_quantity(text, unit, name="value"):
    """Read a value as people type it, with its unit.

    Parameters
    ----------
    text : str
        Such as ``4,83 V``, ``310mA``, ``4k7``, ``0R22``, ``5 min`` or ``12 µV``.
    unit : str or tuple of str
        The unit wanted, or several kinds that are all welcome.
    name : str
        What to call the entry in an error.

    Returns
    -------
    Typed
        The quantity in the unit typed, and half the last typed digit.

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.

    References
    ----------
    .. [1] IEC 60062, letter codes such as 4k7 and 0R22. MEMORY.

    Examples
    --------
    >>> typed = read_quantity("4,83 V", "V")
    >>> print(typed.quantity, typed.half_digit.m_as("mV"))
    4.83 volt 5.0
    >>> print(read_quantity("4k7", "ohm").quantity)
    4.7 kiloohm
    """
    units = (unit,) if isinstance(unit, str) else unit
    if not isinstance(text, str):
        raise ValueError(f"{name}: {text!r} needs its unit and quotation marks, "
                         f"for example {_example(text, units[0])}")
    clean = tidy(text)
    code = _CODE.fullmatch(clean)
    for wanted in units:
        if code and code[2] in _CODE_LETTERS.get(wanted, {}):
            return _from_code(code, wanted, text, name)
    number = _NUMBER.match(clean)
    if not number:
        raise ValueError(f"{name}: cannot read {text!r} as a number with a unit, "
                         f"for example {_example(1, units[0])}")
    return _from_number(number[0], clean[number.end():].strip(), units, text, name)


def read_percent(text, name="value"):
    """Read a percentage such as ``3 %`` or ``0,8%`` as a plain fraction.

    >>> round(read_percent("0,8 %"), 6)
    0.008
    """
    clean = tidy(text) if isinstance(text, str) else ""
    number = _NUMBER.match(clean)
    if not number or clean[number.end():].strip() != "%":
        raise ValueError(f"{name}: cannot read {text!r} as a percentage, write for example \"0.8 %\"")
    value = float(number[0].replace(",", ".")) / 100
    if not math.isfinite(value) or value < 0:
        raise ValueError(f"{name}: {text!r} must be zero or more, write for example \"0.8 %\"")
    return value


@functools.cache
def symbol(unit):
    """How a unit is written for readers, as in a textbook.

    >>> symbol("V*s/rad"), symbol("W/(m*K)"), symbol("turn/min")
    ('V·s/rad', 'W/(m·K)', 'r/min')
    """
    unit = ureg.Unit(unit)
    short = f"{unit:~P}".replace("Δ°C", "K")  # of warmth, a difference
    above, *below = _SYMBOLS.get(short, short).split("/")
    return f"{above}/({'·'.join(below)})" if len(below) > 1 else "/".join((above, *below))


def show(quantity, unit, digits=3):
    """Show a quantity for reading, with a prefix that keeps the number short.

    >>> show(Q(0.0524, "ohm"), "ohm"), show(Q(0.0012, "N*m"), "N*m")
    ('52.4 mΩ', '1.20 mN·m')
    """
    value = float(quantity.m_as(unit))
    if value == 0:
        return f"0 {symbol(unit)}"
    size = math.floor(math.log10(abs(float(f"{value:.{digits - 1}e}"))))
    exponent = _exponent(size, unit)
    decimals = max(0, digits - 1 - (size - exponent))
    return f"{_minus(f'{value / 10**exponent:.{decimals}f}')} {_PREFIXES[exponent]}{symbol(unit)}"


def show_digits(value, digits=3):
    """Show a plain number to so many digits, never with an exponent.

    >>> show_digits(1666.7), show_digits(0.00012)
    ('1670', '0.00012')
    """
    return _minus(f"{float(f'{value:.{digits}g}'):.15f}".rstrip("0").rstrip("."))


def show_exact(quantity, unit):
    """Show a quantity that is what it is, such as a limit: no digits added.

    >>> show_exact(Q(0.05, "ohm"), "ohm")
    '50 mΩ'
    """
    number, _, symbol = show(quantity, unit).partition(" ")
    return f"{number.rstrip('0').rstrip('.') if '.' in number else number} {symbol}"


def show_level(level):
    """Show decibels to one decimal, as levels are told; what is nothing to one decimal has no sign.

    >>> show_level(Q(-3.0103, "dB")), show_level(Q(-0.01, "dB"))
    ('−3.0 dB', '0.0 dB')
    """
    rounded = round(float(level.m_as("dB")), 1) + 0.0
    return f"{_minus(f'{rounded:.1f}')} dB"


def show_known(value, expanded, unit):
    """Show a value with its expanded uncertainty (k = 2), both to the digits that mean something.

    >>> show_known(Q(1.2973, "ohm"), Q(0.0402, "ohm"), "ohm")
    '1.297 ± 0.040 Ω'
    """
    value, expanded = float(value.m_as(unit)), float(expanded.m_as(unit))
    if not expanded > 0:
        return show(Q(value, unit), unit)
    spread = math.floor(math.log10(float(f"{expanded:.1e}")))
    size = max(spread, math.floor(math.log10(abs(value)))) if value else spread
    exponent = _exponent(size, unit)
    decimals = max(0, 1 - (spread - exponent))
    return (f"{_minus(f'{value / 10**exponent:.{decimals}f}')} ± {expanded / 10**exponent:.{decimals}f} "
            f"{_PREFIXES[exponent]}{symbol(unit)}")


def write_plain(value, expanded, unit):
    """Write value and expanded uncertainty as two strings that pint reads.

    >>> write_plain(Q(1.2973, "ohm"), Q(0.0402, "ohm"), "ohm")
    ('1.297 ohm', '0.040 ohm')
    """
    value, expanded = float(value.m_as(unit)), float(expanded.m_as(unit))
    decimals = max(0, 1 - math.floor(math.log10(expanded))) if expanded > 0 else 6
    return f"{value:.{decimals}f} {unit}", f"{expanded:.{decimals}f} {unit}"


def tidy(text):
    """Give micro, ohm, minus and spaces one spelling.

    >>> tidy(" 12 \u00b5V ")
    '12 uV'
    """
    for typed, plain in (("\u00a0", " "), ("\u202f", " "), ("\u2009", " "), ("−", "-"),
                         ("µ", "u"), ("μ", "u"), ("\u2126", "Ω")):
        text = text.replace(typed, plain)
    text = text.strip()
    while re.match(r"[+-]?\d{1,3} \d{3}\b", text):
        text = text.replace(" ", "", 1)
    return text


def _from_code(code, unit, text, name):
    whole, letter, part = code[1], code[2], code[3]
    factor = _CODE_LETTERS[unit][letter]
    number = float(f"{whole}.{part or 0}")
    if not number < _ABSURD:
        raise _too_large(text, unit, name)
    value = Q(number * factor, unit)
    return Typed(value.to_compact() if factor != 1 else value, Q(0.5 * factor * 10.0 ** -len(part), unit))


def _from_number(number, unit_text, units, text, name):
    unit_text = _SPELLINGS.get(unit_text, unit_text.replace("Ω", "ohm").replace("Ohm", "ohm"))
    if "ohm" in units and unit_text in ("k", "K", "M"):
        unit_text = f"{unit_text.replace('K', 'k')}ohm"
    for product, written in _PRODUCTS.items():
        unit_text = written.sub(product, unit_text) if product in units else unit_text
    if not unit_text:
        raise ValueError(f"{name}: {text!r} has no unit, write for example {_example(number, units[0])}")
    if "," in number and "." in number or not _UNIT.fullmatch(unit_text):
        raise ValueError(f"{name}: cannot read {text!r}, write for example {_example(1, units[0])}")
    mantissa, _, power = number.replace(",", ".").lower().partition("e")
    value = float(number.replace(",", "."))
    # Looked at before any unit: a step of 1e999 or an antilogarithm overflows first.
    if not abs(value) < _ABSURD or abs(int(power or 0)) > 99:
        raise _too_large(text, units[0], name)
    try:
        unit = ureg.parse_units(unit_text)
    except Exception:  # pint raises several unrelated kinds for text that is no unit
        raise ValueError(f"{name}: {text!r} has an unknown unit, write for example {_example(1.5, units[0])}") from None
    # To pint 40 Hz are 40 radians a second, a sixth of 40 turns.
    if "turn/min" in units and "Hz" not in units and unit.is_compatible_with("Hz") and _cycles(unit):
        raise ValueError(f"{name}: {text!r} is a frequency, and a speed counts turns; write for example \"5 turn/min\"")
    if not any(unit.is_compatible_with(wanted) for wanted in units):
        raise ValueError(f"{name}: {text!r} cannot be turned into {' or '.join(units)}, "
                         f"write for example {_example(number, _as_large(unit_text, units[0]))}")
    if unit == ureg.dB and abs(value) > 1000:
        raise _too_large(text, units[0], name)
    # "5 u" is an atomic mass to pint: as small as nothing on a bench.
    size = abs(Q(value, unit).to_base_units().magnitude)
    if not size < _ABSURD or 0 < size < 1 / _ABSURD:
        raise _too_large(text, units[0], name)
    step = 10.0 ** (int(power or 0) - len(mantissa.partition(".")[2]))
    difference = ureg.delta_degC if unit == ureg.degC else unit
    return Typed(Q(value, unit), Q(step / 2, difference))


def _as_large(unit_text, wanted):
    """The unit wanted with the prefix that was typed: nobody who wrote milli should be shown a thousandfold."""
    typed = re.split(r"[*/]", unit_text)[0]
    prefixes = [ureg.get_symbol(f"{prefix}meter").removesuffix("m") for prefix, unit, _ in ureg.parse_unit_name(typed) if unit != "gram"]
    return wanted if wanted in _UNPREFIXED else f"{min(prefixes, key=len, default='').replace('µ', 'u')}{wanted}"


def _too_large(text, unit, name):
    return ValueError(f"{name}: {text!r} is too large or too small for any bench, write for example {_example(1, unit)}")


def _example(value, unit):
    return f'"{value} {unit}"'


def _exponent(size, unit):
    if unit in _UNPREFIXED or unit == "s" and size > 0:
        return 0
    if unit == "F" and -4 < size < 0:  # as it is printed on the part: 2200 µF
        return -6
    if unit == "m" and size == -4:  # as a caliper has it: 0.6 mm
        return -3
    return max(-12, min(9, 3 * math.floor(size / 3)))


def _minus(text):
    return text.replace("-", "−")
