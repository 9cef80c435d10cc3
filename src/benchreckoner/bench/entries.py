"""Reading a sheet's tables entry by entry, each key by what it may hold."""

import difflib
import math
import unicodedata

from benchreckoner.bench.places import line_of
from benchreckoner.bench.vocabulary import COUNT_DETAILS, NUMBER_DETAILS, QUANTITY_DETAILS, TABLES, TEXT_DETAILS
from benchreckoner.units import read_quantity, ureg

_LONGEST = 200


def whole(page):
    """The top level of a sheet."""
    return Entry(page, (), page.data)


def one_table(page, name):
    """The one table of this name, empty if it isn't there."""
    table = page.data.get(name, {})
    if not isinstance(table, dict):
        raise page.fail((name,), f"there can be only one, write it as [{name}] with single brackets")
    return Entry(page, (name,), table)


def all_tables(page, name):
    """Every table of this name, in the order of the file."""
    tables = page.data.get(name, [])
    if not isinstance(tables, list) or not all(isinstance(table, dict) for table in tables):
        raise page.fail((name,), f"write each one under its own line [[{name}]] with double brackets")
    return [Entry(page, (name, number), table) for number, table in enumerate(tables)]


def by_name(entries, read):
    """Read named things in order, and refuse a name that stands twice."""
    things = {}
    for entry in entries:
        thing = read(entry)
        if thing.name in things:
            raise entry.fail("name", f"two {entry.kind}s are named {thing.name!r}; "
                             f"write another name, for example name = \"{thing.name} {len(things) + 1}\"")
        things[thing.name] = thing
    return things


class Entry:
    """One table of the sheet, read key by key."""

    def __init__(self, page, path, table):
        self.page, self.path, self.table = page, path, table

    @property
    def kind(self):
        """Which of the sheet's tables this is."""
        return self.path[0] if self.path else ""

    @property
    def line(self):
        """Where it begins."""
        return line_of(self.page.places, self.path)

    def fail(self, key, what):
        """The error for one key, or a path of keys, to be raised."""
        return self.page.fail((*self.path, *((key,) if isinstance(key, str) else key)), what)

    def missing(self, key):
        """The error for a key that must be there, to be raised."""
        return self.fail(key, f"is missing, {self._write(key)}")

    def only(self, *allowed):
        """Refuse a key that this table doesn't know."""
        for key in self.table:
            if key not in allowed:
                what = "key" if self.path else "key or table"
                raise self.fail(key, f"unknown {what} {_short(key)}{suggest(key, allowed)}")
        return self

    def text(self, key, *, needed=False):
        """Words on one line, spaces tidied; empty if left out."""
        if key not in self.table and not needed:
            return ""
        text = self._string(key)
        return text if key == "note" else self._tidy(key, text)

    def texts(self, key):
        """A list of words; empty if left out."""
        texts = self.table.get(key, [])
        if not isinstance(texts, list) or not all(isinstance(text, str) for text in texts):
            raise self.fail(key, f"must be a list of words in quotation marks, {self._write(key)}")
        return tuple(self._tidy(key, text) for text in texts)

    def count(self, key, *, most, least=1):
        """A whole number of things."""
        if key not in self.table:
            raise self.missing(key)
        count = self.table[key]
        if not isinstance(count, int) or isinstance(count, bool) or not least <= count <= most:
            raise self.fail(key, f"must be a whole number from {least} to {most} without quotation marks, "
                            f"{self._write(key)}")
        return count

    def number(self, key):
        """A pure number above zero."""
        number = self.table[key]
        if not isinstance(number, (int, float)) or isinstance(number, bool) or not 0 < number < math.inf:
            raise self.fail(key, f"must be a number above zero without quotation marks, {self._write(key)}")
        return float(number)

    def yes_or_no(self, key):
        """True or false."""
        if not isinstance(self.table[key], bool):
            raise self.fail(key, f"must be true or false without quotation marks, {self._write(key)}")
        return self.table[key]

    def word(self, key, allowed):
        """One of the sheet's own words, capitals and spaces forgiven."""
        word = self.text(key, needed=True).casefold()
        if word not in allowed:
            raise self.fail(key, f"unknown {key} {_short(word)}{suggest(word, allowed)}")
        return word

    def one_of(self, key, names, what):
        """A name that stands elsewhere in the sheet."""
        name = self.text(key, needed=True)
        self._refuse_unknown(key, name, names, what)
        return name

    def each_of(self, key, names, what):
        """A list of names that stand elsewhere in the sheet; empty if left out."""
        texts = self.texts(key)
        for name in texts:
            self._refuse_unknown(key, name, names, what)
        return texts

    def typed(self, key, unit, *, least=None, above=None):
        """A value as typed, with half its last digit; None if left out."""
        if key not in self.table:
            return None
        text = self._string(key)
        try:
            typed = read_quantity(text, unit, key)
        except ValueError as fault:
            raise self.fail(key, str(fault).removeprefix(f"{key}: ")) from None
        wanted = next(one for one in ((unit,) if isinstance(unit, str) else unit)
                      if typed.quantity.is_compatible_with(one))
        if _misread(typed.quantity, wanted):
            raise self.fail(key, f'{_short(text)} is not in {wanted}, write for example "5 {wanted}"')
        size = typed.quantity.m_as(wanted)
        example = f'write for example {key} = "5 {wanted}"' if key == "value" else self._write(key)
        if least is not None and size < least:
            raise self.fail(key, f"{_short(text)} is below {least:g} {wanted}, {example}")
        if above is not None and size <= above:
            raise self.fail(key, f"{_short(text)} must be above {above:g} {wanted}, {example}")
        return typed

    def quantity(self, key, unit, **limits):
        """A quantity with its unit; None if left out."""
        typed = self.typed(key, unit, **limits)
        return typed and typed.quantity

    def _refuse_unknown(self, key, name, names, what):
        if name not in names:
            hint = suggest(name, names) or f"; there is none yet, write one under its own line [[{what}]]"
            raise self.fail(key, f"no {what} is named {_short(name)}{hint}")

    def _string(self, key):
        if key not in self.table:
            raise self.missing(key)
        text = self.table[key]
        if isinstance(text, (int, float)) and not isinstance(text, bool) and math.isfinite(text):
            raise self.fail(key, f"a bare number needs quotation marks, {self._write(key)}")
        if not isinstance(text, str):
            raise self.fail(key, f"must be text in quotation marks, {self._write(key)}")
        self._check(key, text)
        return text

    def _tidy(self, key, text):
        self._check(key, text)
        text = " ".join(unicodedata.normalize("NFC", text).split())
        if not text:
            raise self.fail(key, f"is empty, {self._write(key)}")
        return text

    def _check(self, key, text):
        if any(unicodedata.category(sign) == "Cc" and sign not in "\t\r\n" for sign in text):
            raise self.fail(key, f"holds a control character, {self._write(key)}")
        if len(text) > _LONGEST and key != "note":
            raise self.fail(key, f"is longer than {_LONGEST} characters, {self._write(key)}")

    def _write(self, key):
        """What to write behind a key."""
        if not self.path:
            return f'write for example {key} = "..."'
        known = {**TEXT_DETAILS, **COUNT_DETAILS, **NUMBER_DETAILS, **TABLES[self.kind]}
        example = known[key] if key in known else QUANTITY_DETAILS[key][1]
        return f"write for example {key} = {example}"


def suggest(word, allowed):
    """Near matches and the words allowed, for the end of an error."""
    allowed = list(allowed)
    if not allowed:
        return ""
    near = difflib.get_close_matches(word, allowed, 2, 0.6)
    meant = f", did you mean {' or '.join(map(_short, near))}? Write" if near else "; write"
    # One that holds a comma would be taken for two.
    listed = ", ".join(f'"{name}"' if "," in name else name for name in allowed[:25]) + (", ..." if len(allowed) > 25 else "")
    return f"{meant} one of: {listed}"


def _misread(quantity, unit):
    """Whether pint would take a unit for another that nobody means by it."""
    if unit == "turn/min":
        # It counts angles, so that 1 Hz would be 9.5 turns a minute.
        return "turn" not in str(quantity.units)
    # To it, 5 % or 5 turns are levels too.
    return unit == "dB" and quantity.units != ureg.dB


def _short(text):
    """A word in quotation marks, cut where it gets long."""
    return repr(text if len(text) <= 60 else text[:57] + "...")
