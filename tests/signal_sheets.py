"""Sheets of contacts, jacks and controls from a few rows: shared by the tests of what passes sound."""

from benchreckoner.bench.sheet import read_text
from benchreckoner.bench.signal_judge import judge_signal

TOP = """version = 1
[[instrument]]
name = "meter"
accuracy = [{ quantity = "resistance", up_to = "200 ohm", limit = "0.8 % + 20 mohm" },
            { quantity = "resistance", limit = "0.8 % + 20 ohm" },
            { quantity = "voltage", limit = "0.5 % + 0.2 mV" }, { quantity = "current", limit = "1 % + 0.1 mA" },
            { quantity = "level", limit = "0.2 dB" }]
"""
JACK = ("jack", "jack contact", "")
VOLUME = ("volume", "potentiometer", 'resistance = "10 kohm"')


def sheet(*rows, parts=(JACK,), meter="", more=""):
    """A sheet from (part, quantity, value, condition, stage) rows; stage and condition may be left out."""
    text = TOP + meter + "\n" + "".join(f'[[part]]\nname = "{name}"\nkind = "{kind}"\n{keys}\n' for name, kind, keys in parts)
    text += '[[action]]\nname = "worked"\n' + more
    for row in rows:
        name, quantity, value, condition, stage = (*row, "still", "as found")[:5] if len(row) == 3 else (*row, "as found")[:5]
        text += (f'[[reading]]\npart = "{name}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "meter"\n'
                 f'stage = "{stage}"\ncondition = "{condition}"\n')
    return read_text(text)


def judged(made, quantity="resistance"):
    report = judge_signal(made)[0]
    (one,) = [one for one in report.judgements if one.quantity == quantity]
    return one
