"""The bench sheet: one repair's readings as plain data, read from a TOML file."""

from functools import partial
from pathlib import Path

from benchreckoner.bench.accuracy import entry_for, read_accuracy
from benchreckoner.bench.entries import all_tables, by_name, one_table, whole
from benchreckoner.bench.page import Page, SheetError, load_text
from benchreckoner.bench.repair import Action, Instrument, Machine, Observation, Part, Reading, Setting, Sheet, Symptom, Trial
from benchreckoner.bench.sheet_parts import read_parts
from benchreckoner.bench.vocabulary import (
    AS_FOUND, CONDITIONS, NEVER_NEGATIVE, QUANTITIES, TABLES, TESTER_PRINCIPLES, VERSION,
)

__all__ = [
    "Action", "Instrument", "Machine", "Observation", "Part", "Reading", "Setting", "Sheet", "SheetError",
    "Symptom", "Trial", "read_sheet", "read_text",
]
_COLDEST = -273.15
_MOST_VOLTS = 63
_MOST_TRIES = 100_000


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
    instruments = by_name(all_tables(page, "instrument"), _instrument)
    parts = read_parts(all_tables(page, "part"))
    actions = by_name(all_tables(page, "action"), partial(_action, parts))
    stages = (AS_FOUND, *actions)
    readings = tuple(_reading(entry, parts, instruments, stages) for entry in all_tables(page, "reading"))
    symptoms = tuple(_symptom(entry, stages) for entry in all_tables(page, "symptom"))
    observations = tuple(_observation(entry, parts, stages) for entry in all_tables(page, "observation"))
    trials = tuple(_trial(entry, parts, stages) for entry in all_tables(page, "trial"))
    return Sheet(source, machine, instruments, parts, tuple(actions.values()), readings, symptoms, observations, note,
                 trials, _settings(all_tables(page, "setting"), parts, stages))


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


def _action(parts, entry):
    entry.only(*TABLES["action"])
    name = entry.text("name", needed=True)
    if name.casefold() == AS_FOUND:
        raise entry.fail("name", f"{AS_FOUND!r} is the stage before any action; "
                         'say what was done, for example name = "springs cleaned"')
    return Action(name, entry.quantity("planned", "min", least=0), entry.quantity("took", "min", least=0),
                  entry.texts("taken_off"), entry.text("note"), entry.each_of("fitted", parts, "part"))


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
    run = entry.text("run", needed="run" in entry.table)
    try:
        entry_for(instruments[instrument].accuracy, quantity=quantity, value=value.quantity, range=span,
                  name=instrument)
    except ValueError as fault:
        raise entry.fail("instrument", str(fault)) from None
    return Reading(part, quantity, value, instrument, stage, condition, after, span, entry.table["value"],
                   entry.line, entry.text("note"), applied, series_resistor, run)


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


def _settings(entries, parts, stages):
    """Every setting; one thing can stand in one place alone at one stage."""
    found = {}
    for entry in entries:
        one = _setting(entry, parts, stages)
        key = (one.part, one.what.casefold(), one.stage)
        if key in found:
            raise entry.fail("place", f"{one.what!r} of {one.part!r} has a place {one.stage!r} already; keep the last one, "
                                      'or write the action that moved it and name it, for example stage = "trimmer set"')
        found[key] = one
    return tuple(found.values())


def _setting(entry, parts, stages):
    entry.only(*TABLES["setting"])
    return Setting(entry.one_of("part", parts, "part"), entry.text("what", needed=True), entry.text("place", needed=True),
                   entry.one_of("stage", stages, "stage"), entry.text("photo"), entry.text("note"))


def _trial(entry, parts, stages):
    entry.only(*TABLES["trial"])
    part, tried = entry.one_of("part", parts, "part"), entry.text("condition_tried", needed=True)
    clean, faults = (entry.count(key, most=_MOST_TRIES, least=0) for key in ("clean", "faults"))
    if not clean + faults:
        raise entry.fail("clean", "no try is counted here; write for example clean = 1")
    return Trial(part, tried, clean, faults, entry.one_of("stage", stages, "stage"), entry.text("note"))
