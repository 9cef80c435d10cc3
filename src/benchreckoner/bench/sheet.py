"""The bench sheet: one repair's readings as plain data, read from a TOML file."""

import re
from pathlib import Path

from benchreckoner.bench.accuracy import entry_for, read_accuracy
from benchreckoner.bench.entries import all_tables, one_table, whole
from benchreckoner.bench.page import Page, SheetError, load_text
from benchreckoner.bench.part_marking import read_marking
from benchreckoner.bench.repair import (
    Action, Beside, Instrument, Machine, Observation, Part, Reading, Sheet, Symptom, Trial,
)
from benchreckoner.bench.vocabulary import (
    AS_FOUND, CONDITIONS, COUNT_DETAILS, KINDS, NEVER_NEGATIVE, QUANTITIES, QUANTITY_DETAILS, TABLES,
    TESTER_PRINCIPLES, TEXT_DETAILS, VERSION,
)
from benchreckoner.units import read_percent, read_quantity

__all__ = [
    "Action", "Instrument", "Machine", "Observation", "Part", "Reading", "Sheet", "SheetError", "Symptom",
    "Trial", "read_sheet", "read_text",
]
_COLDEST = -273.15
_MOST_VOLTS = 63
_MOST_PIECES = 1000
_MOST_TRIES = 100_000
_USUAL_TOLERANCE = 0.1  # of a resistor whose own is not written: common practice for old carbon ones
_PART_KEYS = (*TABLES["part"], *QUANTITY_DETAILS, *TEXT_DETAILS, *COUNT_DETAILS)


def read_sheet(path):
    """Read a bench sheet from its file, which is left as it is.

    Parameters
    ----------
    path : path-like

    Returns
    -------
    Sheet

    Raises
    ------
    SheetError
        Names file, line and entry, says what is wrong and shows what to write.
    """
    return read_text(load_text(path), source=Path(path).name)


def read_text(text, *, source="sheet"):
    """Read a bench sheet from its text.

    Parameters
    ----------
    text : str
        TOML as laid down in the developers' guide; a byte order mark and either
        kind of line end are welcome.
    source : str
        The file's name, for errors.

    Returns
    -------
    Sheet

    Raises
    ------
    SheetError
        Names file, line and entry, says what is wrong and shows what to write.

    Examples
    --------
    >>> sheet = read_text('version = 1\\n[[action]]\\nname = "springs cleaned"')
    >>> sheet.stages
    ('as found', 'springs cleaned')
    """
    page = Page(text, source)
    _check_version(page)
    note = whole(page).only("version", "note", *TABLES).text("note")
    machine = _machine(one_table(page, "machine"))
    instruments = _by_name(all_tables(page, "instrument"), _instrument)
    parts = _parts(all_tables(page, "part"))
    actions = _by_name(all_tables(page, "action"), _action)
    stages = (AS_FOUND, *actions)
    readings = tuple(_reading(entry, parts, instruments, stages) for entry in all_tables(page, "reading"))
    symptoms = tuple(_symptom(entry, stages) for entry in all_tables(page, "symptom"))
    observations = tuple(_observation(entry, parts, stages) for entry in all_tables(page, "observation"))
    trials = tuple(_trial(entry, parts, stages) for entry in all_tables(page, "trial"))
    return Sheet(source, machine, instruments, parts, tuple(actions.values()), readings, symptoms, observations, note,
                 trials)


def _check_version(page):
    version = page.data.get("version")
    example = f"write for example version = {VERSION} at the top of the sheet"
    if "version" not in page.data:
        raise page.fail(("version",), f"is missing, {example}")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise page.fail(("version",), f"must be a whole number, {example}")
    if version > VERSION:
        raise page.fail(("version",), f"this sheet was made for a newer Bench Reckoner (sheet version {version}) and "
                        f"was left as it is; fetch the newer one, since this one reads version = {VERSION}")


def _by_name(entries, read):
    """Read named things in order, and refuse a name that stands twice."""
    things = {}
    for entry in entries:
        thing = read(entry)
        if thing.name in things:
            raise entry.fail("name", f"two {entry.kind}s are named {thing.name!r}; "
                             f"write another name, for example name = \"{thing.name} {len(things) + 1}\"")
        things[thing.name] = thing
    return things


def _machine(entry):
    entry.only(*TABLES["machine"])
    supply = entry.quantity("supply", "V", above=0)
    if supply is not None and supply.m_as("V") > _MOST_VOLTS:
        raise entry.fail("supply", f"{supply:~P} is above {_MOST_VOLTS} V, where this work ends: mains and high "
                         'voltage belong to somebody licensed; write for example supply = "9 V"')
    name = entry.text("name", needed="name" in entry.table) or "unnamed machine"
    return Machine(name, entry.text("kind"), supply, entry.text("note"))


def _instrument(entry):
    entry.only(*TABLES["instrument"])
    name = entry.text("name", needed=True)
    accuracy = entry.table.get("accuracy")
    if accuracy is None:
        raise entry.missing("accuracy")
    note = entry.text("note")
    leads = entry.typed("leads", "ohm", least=0)
    four_wire = "four_wire" in entry.table and entry.yes_or_no("four_wire")
    input_resistance = entry.quantity("input_resistance", "ohm", above=0)
    principle = entry.word("principle", TESTER_PRINCIPLES) if "principle" in entry.table else ""
    try:
        return Instrument(name, read_accuracy(accuracy, "accuracy"), note, leads, four_wire, input_resistance, principle)
    except ValueError as fault:
        where, _, what = str(fault).partition(": ")
        raise entry.fail(_accuracy_path(where), what) from None


def _accuracy_path(where):
    """Path of ``accuracy 2, limit`` as it stands in the sheet."""
    name, _, key = where.partition(", ")
    _, _, number = name.partition(" ")
    return ("accuracy", *((int(number) - 1,) if number else ()), *((key,) if key else ()))


def _parts(entries):
    parts = _by_name(entries, _part)
    motors = [entry for entry, part in zip(entries, parts.values(), strict=True) if part.kind == "motor"]
    if len(motors) > 1:
        raise motors[1].fail("kind", "there is a motor already, and a sheet follows the feed of one; "
                             'keep kind = "motor" once and write a second sheet for the other')
    for entry, part in zip(entries, parts.values(), strict=True):
        if part.current_from is not None:
            entry.one_of("current_from", [name for name in parts if name != part.name], "part")
    return parts


def _part(entry):
    entry.only(*_PART_KEYS)
    name, kind = entry.text("name", needed=True), entry.word("kind", KINDS)
    current_from = entry.text("current_from", needed=True) if "current_from" in entry.table else None
    details = _details(entry)
    if kind == "capacitor" and "marking" in details:
        details = {**_printed(entry, details["marking"]), **details}
    return Part(name, kind, details, current_from, entry.text("note"))


def _printed(entry, marking):
    """What a capacitor's marking says; whatever the sheet says itself goes before it."""
    try:
        printed = read_marking(marking, "capacitor")[0]
    except ValueError as fault:
        raise entry.fail("marking", str(fault).removeprefix("Marking: ")) from None
    return {"capacitance": printed.value} | ({} if printed.rated is None else {"rated_voltage": printed.rated})


def _details(entry):
    details = {}
    for key in entry.table:
        if key == "temperature":
            details[key] = entry.quantity(key, "degC", least=_COLDEST)
        elif key in QUANTITY_DETAILS:
            details[key] = entry.quantity(key, QUANTITY_DETAILS[key][0], above=0)
        elif key in TEXT_DETAILS:
            details[key] = entry.text(key)
        elif key in COUNT_DETAILS:
            details[key] = entry.count(key, most=_MOST_PIECES)
        elif key in ("after_branch", "trimmer"):
            details[key] = entry.yes_or_no(key)
        elif key == "tolerance":
            details[key] = _share(entry, key, entry.text(key, needed=True))
        elif key == "across":
            details[key] = _across(entry)
    return details


def _across(entry):
    """The resistors across a part, as ``4k7``, or each with a name before it and a tolerance behind it."""
    texts = entry.table["across"]
    texts = (entry.text("across", needed=True),) if isinstance(texts, str) else entry.texts("across")
    if not texts:
        raise entry.fail("across", 'is empty, write for example across = ["R12 4k7 5 %", "R13 10 kohm"]')
    return tuple(_beside(entry, text) for text in texts)


def _beside(entry, text):
    words, tolerance = text, _USUAL_TOLERANCE
    percent = re.fullmatch(r"(.*?)[\s±]+([\d.,]+\s*%)", text)
    if percent:
        words, tolerance = percent[1], _share(entry, "across", percent[2])
    names = words.split()
    for start in range(len(names)):
        try:
            ohms = read_quantity(" ".join(names[start:]), "ohm").quantity
        except ValueError:
            continue
        if not ohms.magnitude > 0:
            raise entry.fail("across", f"{text!r} must be above 0 ohm, write for example across = \"R12 4k7 5 %\"")
        return Beside(" ".join(names[:start]), ohms, tolerance)
    raise entry.fail("across", f"cannot read {text!r} as a resistor, write for example across = \"R12 4k7 5 %\"")


def _share(entry, key, text):
    try:
        share = read_percent(text, key)
    except ValueError as fault:
        raise entry.fail(key, str(fault).removeprefix(f"{key}: ")) from None
    if not share < 1:
        raise entry.fail(key, f"{text!r} is the whole value or more, write for example \"5 %\"")
    return share


def _action(entry):
    entry.only(*TABLES["action"])
    name = entry.text("name", needed=True)
    if name.casefold() == AS_FOUND:
        raise entry.fail("name", f"{AS_FOUND!r} is the stage before any action; "
                         'say what was done, for example name = "springs cleaned"')
    return Action(name, entry.quantity("planned", "min", least=0), entry.quantity("took", "min", least=0),
                  entry.texts("taken_off"), entry.text("note"))


def _reading(entry, parts, instruments, stages):
    entry.only(*TABLES["reading"])
    part = entry.one_of("part", parts, "part")
    quantity = entry.word("quantity", QUANTITIES)
    value = _reading_value(entry, quantity)
    instrument = entry.one_of("instrument", instruments, "instrument")
    stage = entry.one_of("stage", stages, "stage")
    condition = entry.word("condition", CONDITIONS)
    after = entry.quantity("after", "min", least=0)
    span = entry.quantity("range", QUANTITIES[quantity], above=None if quantity == "temperature" else 0)
    applied = entry.quantity("applied", "V", above=0)
    if applied is not None:
        _check_volts(entry, "applied", applied, "10 V")
    series_resistor = entry.quantity("series_resistor", "ohm", above=0)
    try:
        entry_for(instruments[instrument].accuracy, quantity=quantity, value=value.quantity, range=span,
                  name=instrument)
    except ValueError as fault:
        raise entry.fail("instrument", str(fault)) from None
    return Reading(part, quantity, value, instrument, stage, condition, after, span, entry.table["value"],
                   entry.line, entry.text("note"), applied, series_resistor)


def _reading_value(entry, quantity):
    least = 0 if quantity in NEVER_NEGATIVE else _COLDEST if quantity == "temperature" else None
    value = entry.typed("value", QUANTITIES[quantity], least=least)
    if value is None:
        raise entry.missing("value")
    if QUANTITIES[quantity] == "V":
        _check_volts(entry, "value", value.quantity, "4,83 V")
    return value


def _check_volts(entry, key, volts, example):
    if abs(volts.m_as("V")) > _MOST_VOLTS:
        raise entry.fail(key, f"{volts:~P} is above {_MOST_VOLTS} V, where this work ends: mains and high "
                              f"voltage are for licensed people and local rules; write for example \"{example}\"")


def _symptom(entry, stages):
    entry.only(*TABLES["symptom"])
    return Symptom(entry.text("what", needed=True), entry.one_of("stage", stages, "stage"), entry.text("note"))


def _observation(entry, parts, stages):
    entry.only(*TABLES["observation"])
    return Observation(entry.one_of("part", parts, "part"), entry.text("what", needed=True),
                       entry.one_of("stage", stages, "stage"), entry.text("photo"), entry.text("note"))


def _trial(entry, parts, stages):
    entry.only(*TABLES["trial"])
    part, tried = entry.one_of("part", parts, "part"), entry.text("condition_tried", needed=True)
    clean, faults = (entry.count(key, most=_MOST_TRIES, least=0) for key in ("clean", "faults"))
    if not clean + faults:
        raise entry.fail("clean", "no try is counted here; write for example clean = 1")
    return Trial(part, tried, clean, faults, entry.one_of("stage", stages, "stage"), entry.text("note"))
