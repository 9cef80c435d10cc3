"""The parts of a bench sheet, each with its details: what is written on it, and what lies across it."""

import re

from benchreckoner.bench.belt_priors import BEARINGS
from benchreckoner.bench.entries import by_name
from benchreckoner.bench.part_marking import read_marking
from benchreckoner.bench.repair import Beside, Part
from benchreckoner.bench.vocabulary import (
    COUNT_DETAILS, GOVERNOR_STYLES, KINDS, NUMBER_DETAILS, QUANTITY_DETAILS, TABLES, TEXT_DETAILS, TURNS,
)
from benchreckoner.physics.belt_sizes import MEASURES, SHAPES
from benchreckoner.units import read_percent, read_quantity

_COLDEST = -273.15
_MOST_PIECES = 1000
_USUAL_TOLERANCE = 0.1  # of a resistor whose own is not written: common practice for old carbon ones
_WORDS = {"turns": TURNS, "section": SHAPES, "sold_as": MEASURES, "bearing": BEARINGS}
_PART_KEYS = (*TABLES["part"], *QUANTITY_DETAILS, *TEXT_DETAILS, *COUNT_DETAILS, *NUMBER_DETAILS)


def read_parts(entries):
    """Every part of the sheet by its name, in the order the current meets them.

    Parameters
    ----------
    entries : list of Entry

    Returns
    -------
    dict of Part

    Raises
    ------
    SheetError
        Names file, line and entry, says what is wrong and shows what to write.
    """
    parts = by_name(entries, _part)
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
    if kind == "governor" and "style" in details:
        details["style"] = entry.word("style", GOVERNOR_STYLES)
    if kind in ("capacitor", "resistor") and "marking" in details:
        details = {**_printed(entry, kind, details["marking"]), **details}
    return Part(name, kind, details, current_from, entry.text("note"))


def _printed(entry, kind, marking):
    """What a capacitor's or a resistor's marking says; whatever the sheet says itself goes before it."""
    try:
        printed = read_marking(marking, kind)[0]
    except ValueError as fault:
        raise entry.fail("marking", str(fault).removeprefix("Marking: ")) from None
    if kind == "resistor":
        return {"resistance": printed.value} | ({} if printed.upper is None else {"tolerance": printed.upper})
    return {"capacitance": printed.value} | ({} if printed.rated is None else {"rated_voltage": printed.rated})


def _details(entry):
    details = {}
    for key in entry.table:
        if key == "temperature":
            details[key] = entry.quantity(key, "degC", least=_COLDEST)
        elif key in QUANTITY_DETAILS:
            details[key] = entry.quantity(key, QUANTITY_DETAILS[key][0], above=0)
        elif key in _WORDS:
            details[key] = entry.word(key, _WORDS[key])
        elif key in TEXT_DETAILS:
            details[key] = entry.text(key)
        elif key in COUNT_DETAILS:
            details[key] = entry.count(key, most=_MOST_PIECES)
        elif key in NUMBER_DETAILS:
            details[key] = entry.number(key)
        elif key in ("after_branch", "trimmer", "in_machine", "drives"):
            details[key] = entry.yes_or_no(key)
        elif key in ("tolerance", "trim"):
            details[key] = _share(entry, key, entry.text(key, needed=True))
        elif key == "across":
            details[key] = _across(entry)
        elif key == "at":
            details[key] = _place(entry)
    return details


def _place(entry):
    """Where a shaft stands, seen from above: across and up from any one place of the machine."""
    texts = entry.texts("at")
    if len(texts) != 2:
        raise entry.fail("at", 'is two lengths, across and up, write for example at = ["55 mm", "0 mm"]')
    try:
        return tuple(read_quantity(text, "mm", "at").quantity.to("mm") for text in texts)
    except ValueError as fault:
        raise entry.fail("at", str(fault).removeprefix("at: ")) from None


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
