"""A sheet with one spring, as text, and a script with one line changed: what the tests of the script share."""

import tomlkit

from benchreckoner.bench.sheet import read_text

SMALL = ('version = 1\n[machine]\nname = "Garden player"\n[[instrument]]\nname = "meter"\naccuracy = "0.5 % + 0.2 mV"\n'
         '[[instrument]]\nname = "ammeter"\naccuracy = "1 % + 1 mA"\n'
         '[[part]]\nname = "cells"\nkind = "cells"\nchemistry = "alkaline"\ncount = 6\n'
         '[[part]]\nname = "spring 9"\nkind = "supply contact"\n[[part]]\nname = "motor"\nkind = "motor"\n')


def reading(part, quantity, value, condition="held", stage="as found"):
    meter = "ammeter" if quantity == "current" else "meter"
    return (f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\n'
            f'instrument = "{meter}"\nstage = "{stage}"\ncondition = "{condition}"\n')


def one_spring(drop="800 mV", *, more=""):
    return read_text(SMALL + more + reading("motor", "current", "1.000 A") + reading("spring 9", "voltage drop", drop), source="one.toml")


def edited(text, line_id, **changes):
    document = tomlkit.parse(text)
    for row in document["line"]:
        if row["id"] == line_id:
            row.update(changes)
    return tomlkit.dumps(document)
