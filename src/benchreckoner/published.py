"""Check values: rows that hold our laws against published or recomputed results."""

import importlib
import inspect
import math
import re
import tomllib
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from benchreckoner import project
from benchreckoner.units import Q, symbol, ureg

MARKS = ("FOUND", "RECOMPUTED", "MEMORY", "PRACTICE")
_KEYS = {"id", "function", "given", "expect", "tolerance", "source", "mark", "note"}
_QUANTITY = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*([A-Za-zµΩ°%][\w µΩ°%*/^().-]*)?\s*")
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_ROUNDING = 1e-9  # "exact" leaves room for the last bits of a float, no more


class RowError(ValueError):
    """A row that cannot be read or run, named by its file and id."""


@dataclass(frozen=True)
class Row:
    """One check value and where it comes from."""

    id: str
    function: str
    given: dict
    expect: object
    tolerance: str
    source: str
    mark: str
    note: str
    file: str


@dataclass(frozen=True)
class Outcome:
    """What a law of ours gave for a row, part by part: (name, ours, expected, holds)."""

    row: Row
    parts: tuple

    @property
    def holds(self):
        return all(part[3] for part in self.parts)


def read_rows(folder):
    """Read every row of every TOML file in a folder.

    Parameters
    ----------
    folder : path

    Returns
    -------
    tuple of Row

    Raises
    ------
    RowError
        If the folder holds no row files, or a row is faulty or named twice.
    """
    files = sorted(Path(folder).glob("*.toml"))
    if not files:
        raise RowError(f"{Path(folder).name}: no row files here; a row file ends in .toml and holds [[row]] tables")
    rows = [row for file in files for row in _read_file(file)]
    seen = set()
    for row in rows:
        if row.id in seen:
            raise RowError(f"{row.file}, {row.id}: two rows have this id; give each its own")
        seen.add(row.id)
    return tuple(rows)


def find_row(row_id):
    """The project's own row of this id.

    Raises
    ------
    RowError
        If there is none.
    """
    for row in read_rows(project.WORKED_EXAMPLES):
        if row.id == row_id:
            return row
    raise RowError(f"{row_id}: no such row in {project.WORKED_EXAMPLES.name}")


def run_row(row):
    """Run one row's law and compare.

    Parameters
    ----------
    row : Row

    Returns
    -------
    Outcome

    Raises
    ------
    RowError
        If the law does not exist or refuses what it was given.
    """
    law = _find_law(row)
    try:
        ours = law(**{name: _read_value(value) for name, value in row.given.items()})
    except (TypeError, ValueError) as error:
        raise RowError(f"{row.file}, {row.id}: {row.function} refuses: {error}") from error
    return Outcome(row, tuple(_compare(row, *part) for part in _pair(row, ours)))


def check_folder(folder):
    """Run all rows of a folder.

    Parameters
    ----------
    folder : path

    Returns
    -------
    lines : list of str
        One a row, and a last line that counts.
    failed : int

    Raises
    ------
    RowError
        If the folder or a row cannot be read.
    """
    lines, failed, rows = [], 0, read_rows(folder)
    for row in rows:
        try:
            outcome = run_row(row)
            good, text = outcome.holds, describe(outcome)
        except RowError as error:
            good, text = False, str(error)
        failed += not good
        lines.append(f"{'holds ' if good else 'DIFFERS'}  {text}")
    lines.append(f"{len(rows) - failed} of {len(rows)} rows hold")
    return lines, failed


def describe(outcome):
    """One line: id, our value, the published one, tolerance and mark."""
    row = outcome.row
    parts = "; ".join(f"{name}{': ' if name else ''}ours {_text(ours)}, expected {_text(expected)}"
                      for name, ours, expected, _ in outcome.parts)
    return f"{row.id}: {parts} (tolerance {row.tolerance}; {row.mark})"


def worked_case(row_id):
    """Print one of the project's rows beside our own value, for a book.

    Parameters
    ----------
    row_id : str

    Raises
    ------
    RowError
        If the row does not hold: a book must not print a wrong value quietly.
    """
    outcome = run_row(find_row(row_id))
    row = outcome.row
    if not outcome.holds:
        raise RowError(f"{describe(outcome)}: differs from its source")
    lines = [f"{name.replace('_', ' ')}: {_as_read(value)}" for name, value in row.given.items()]
    lines += [f"{name or 'answer'}: ours {_text(ours)}, expected {_text(expected)}, tolerance {_as_read(row.tolerance)}"
              for name, ours, expected, _ in outcome.parts]
    # In one piece, since a kernel may part what is printed line by line.
    print("\n".join([*lines, f"source: {row.source} [{row.mark}]"]))


def _read_file(file):
    try:
        text = file.read_text(encoding="utf-8")
        tables = tomllib.loads(text).get("row", [])
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise RowError(f"{file.name}: cannot be read: {error}") from error
    if not isinstance(tables, list) or not tables or not all(isinstance(table, dict) for table in tables):
        raise RowError(f"{file.name}: holds no [[row]] table")
    for number, table in enumerate(tables, start=1):
        name = f"{file.name}, {table.get('id', f'row {number}')}"
        wrong = sorted(set(table) ^ (_KEYS & set(table) | (_KEYS - {"note"})))
        if wrong:
            raise RowError(f"{name}: missing or unknown: {', '.join(wrong)}")
        if table["mark"] not in MARKS:
            raise RowError(f"{name}: mark must be one of {', '.join(MARKS)}, got {table['mark']!r}")
        if not isinstance(table["given"], dict) or not all(
                isinstance(table[key], str) for key in ("id", "function", "tolerance", "source")):
            raise RowError(f"{name}: id, function, tolerance and source are text, given is a table")
        yield Row(**{"note": "", **table}, file=file.name)


def _find_law(row):
    module, _, name = row.function.rpartition(".")
    if not re.fullmatch(r"[a-z][a-z_0-9]*", module) or not re.fullmatch(r"[a-z][a-z_0-9]*", name):
        raise RowError(f"{row.file}, {row.id}: {row.function!r} is no law; write for example \"contacts.motor_voltage\"")
    try:
        home = importlib.import_module(f"benchreckoner.physics.{module}")
    except ModuleNotFoundError:
        raise RowError(f"{row.file}, {row.id}: there is no module {module!r} of laws") from None
    law = getattr(home, name, None)
    if not inspect.isfunction(law) or law.__module__ != home.__name__:
        raise RowError(f"{row.file}, {row.id}: {module} has no law {name!r}")
    return law


def _read_value(value):
    """A number with a unit becomes a quantity; other text, counts and ratios stay as they are."""
    if isinstance(value, list):
        parts = [_read_value(part) for part in value]
        return Q.from_list(parts) if parts and isinstance(parts[0], Q) else parts
    match = _QUANTITY.fullmatch(value) if isinstance(value, str) else None
    if not match:
        return value
    if not match[2]:
        return float(match[1])
    try:
        return Q(float(match[1]), ureg.parse_units(match[2]))
    except Exception as error:  # pint raises several unrelated kinds for text that is no unit
        raise ValueError(f"{value!r} has no unit we know") from error


def _pair(row, ours):
    if isinstance(row.expect, dict):
        named = ours if isinstance(ours, dict) else getattr(ours, "_asdict", dict)()
        missing = sorted(set(row.expect) - set(named))
        if missing:
            raise RowError(f"{row.file}, {row.id}: {row.function} gives no {', '.join(missing)}")
        return [(name, named[name], value) for name, value in row.expect.items()]
    if isinstance(row.expect, list):
        ours = list(ours) if isinstance(ours, tuple) or getattr(ours, "ndim", 0) else [ours]
        if len(ours) != len(row.expect):
            raise RowError(f"{row.file}, {row.id}: {row.function} gives {len(ours)} values, "
                           f"the row expects {len(row.expect)}")
        return [(str(number), one, value) for number, (one, value) in
                enumerate(zip(ours, row.expect, strict=True), start=1)]
    return [("", ours, row.expect)]


def _compare(row, name, ours, expect):
    if isinstance(ours, str):  # a written marking or a name: right to the letter, whatever unit it looks like
        if row.tolerance.strip() != "exact":
            raise RowError(f"{row.file}, {row.id}: text is compared with tolerance \"exact\", not {row.tolerance!r}")
        return name, ours, expect, ours == expect
    try:
        published = _read_value(expect)
        unit = published.units if isinstance(published, Q) else None
        got = float(ours.m_as(unit)) if unit is not None else float(ours)
        want = float(published.magnitude if unit is not None else published)
        allowed = _allowed(row.tolerance, want, unit)
        if not 0 <= allowed < math.inf:
            raise ValueError(f"the tolerance {row.tolerance!r} is no tolerance")
    except Exception as error:  # a unit or a shape that does not fit, whichever way pint words it
        raise RowError(f"{row.file}, {row.id}: cannot compare {expect!r}: {error}") from error
    shown = Q(got, unit) if unit is not None else got
    return name, shown, published, math.isfinite(got) and abs(got - want) <= allowed


def _allowed(tolerance, want, unit):
    if tolerance.strip() == "exact":
        return _ROUNDING * abs(want)
    if tolerance.strip().endswith("%"):
        return float(tolerance.strip()[:-1]) / 100 * abs(want)
    absolute = _read_value(tolerance)
    return abs(absolute.m_as(unit) if isinstance(absolute, Q) else float(absolute))


def _as_read(value):
    """What a row says, its digits as they stand, its unit as readers write it."""
    if isinstance(value, list):
        return ", ".join(map(_as_read, value))
    read = _read_value(value)
    if isinstance(read, Q):
        return _beside(_QUANTITY.fullmatch(value)[1], read.units)
    if not isinstance(read, float):
        return str(value)
    return _powers(np.format_float_scientific(read, trim="-") if isinstance(value, float) and abs(read) >= 1e6 else str(value))


def _text(value):
    if isinstance(value, str):
        return value
    if not isinstance(value, Q):
        return _powers(f"{float(value):.6g}")
    return _beside(f"{value.magnitude:.6g}", value.units)


def _beside(number, unit):
    """A number with its unit, as a textbook prints them; an angle's sign stands close."""
    sign = symbol(unit)
    return f"{_powers(number)}{'' if sign == '°' else ' '}{sign}".strip()


def _powers(number):
    """A power of ten as it is written by hand."""
    return re.sub(r"[eE]\+?(-?)0*(\d+)", lambda found: f"×10{(found[1] + found[2]).translate(_RAISED)}", number)
