"""Book 03, the reader's own two readings of one capacitor, and what they leave open."""

import ipywidgets

from benchreckoner.bench.capacitor_causes import fit_part
from benchreckoner.bench.capacitor_fit import PRINCIPLES, ShownReading
from benchreckoner.bench.uncertain import within
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import above, row, text_box
from benchreckoner.units import read_percent, read_quantity, show

_NEVER = ("none", "nothing", "no reading", "never")
_OUT, _IN = "out of circuit, or one leg lifted", "in circuit"
_GROUP, _KEY = "readings", "reads-high"
_NUMBERS = ("First", "Second")


def two_readings():
    """A small form for one or two readings of one part, with what fits them.

    Returns
    -------
    ipywidgets.VBox
    """
    return TwoReadings().card


class TwoReadings(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {
            "marked": text_box("Marked on it", placeholder="such as 10 µF"),
            "less": text_box("A sound one may have less by", placeholder="such as 20 %"),
            "more": text_box("And more by", placeholder="such as 20 %"),
            "place": above(ipywidgets.Dropdown, "Read", options=(_OUT, _IN)),
        }
        rows = [row(*boxes.values())]
        for number in _NUMBERS:
            own = {
                f"{number} tester": above(ipywidgets.Dropdown, f"{number} tester",
                                          options=[("choose", ""), *((name, name) for name in PRINCIPLES)]),
                f"{number} shows": text_box(f"{number} shows", placeholder="such as 18 µF, or none"),
                f"{number} setting": text_box(f"{number}: its own setting", placeholder="the usual one"),
                f"{number} accuracy": text_box(f"{number}: good to within", placeholder="such as 3 %"),
            }
            own[f"{number} tester"].observe(lambda change, number=number: self.tell_usual(number), "value")
            boxes.update(own)
            rows.append(row(*own.values()))
        super().__init__(boxes, rows, ask="What fits?", said_of=said_of, path=my_guesses, group=_GROUP, key=_KEY,
                         first={"less": "20 %", "more": "20 %", "First accuracy": "3 %", "Second accuracy": "3 %"})

    def tell_usual(self, number):
        """Say beside the box which setting is taken if none is written."""
        principle = PRINCIPLES.get(self.boxes[f"{number} tester"].value)
        self.boxes[f"{number} setting"].placeholder = (
            f"if empty: {show(principle.usual, principle.setting_unit, digits=2)}" if principle else "the usual one")


def said_of(texts):
    """What fits the readings, in sentences of plain text.

    Parameters
    ----------
    texts : dict of str
        As typed, by the names of the form's boxes.

    Returns
    -------
    tuple of str

    Raises
    ------
    ValueError
        Names the box, says what is wrong and what to write.
    """
    if texts["place"] == _IN:
        raise ValueError("Read: in circuit, what lies across the part reads as farads and as leakage too, and nobody knows how "
                         "much; lift one leg, read again, and choose \"out of circuit\"")
    marked = read_quantity(texts["marked"], "F", "Marked on it").quantity
    if not marked.magnitude > 0:
        raise ValueError('Marked on it: must be above zero, write for example "10 µF"')
    less, more = read_percent(texts["less"], "Less by"), read_percent(texts["more"], "More by")
    if not less < 1:
        raise ValueError('Less by: must be below 100 %, write for example "20 %"')
    if not more < 10:
        raise ValueError('More by: must be below 1000 %, write for example "50 %"')
    found = tuple(_reading(number, texts) for number in _NUMBERS if texts[f"{number} tester"])
    if not found:
        raise ValueError("First tester: choose how you read it")
    return fit_part(found, marked=marked, tolerance=(-less, more)).sentences


def _reading(number, texts):
    """One tester's reading as typed; the last digit counts as well as the accuracy."""
    principle = PRINCIPLES[texts[f"{number} tester"]]
    setting = principle.usual
    if texts[f"{number} setting"]:
        setting = read_quantity(texts[f"{number} setting"], principle.setting_unit, f"{number} setting").quantity
        if not setting.magnitude > 0:
            raise ValueError(f"{number} setting: must be above zero, write for example "
                             f"\"{show(principle.usual, principle.setting_unit, digits=2)}\"")
    text = texts[f"{number} shows"]
    if text.casefold() in _NEVER:
        return ShownReading(principle.name, None, setting)
    typed = read_quantity(text, principle.shows, f"{number} shows")
    if not typed.quantity.magnitude > 0:
        raise ValueError(f"{number} shows: must be above zero; where it never comes to an end, write \"none\"")
    limit = read_percent(texts[f"{number} accuracy"], f"{number}, good to within")
    limit += float((typed.half_digit / typed.quantity).m_as(""))
    return ShownReading(principle.name, within(typed.quantity, limit, principle.shows), setting)
