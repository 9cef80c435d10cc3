"""The host's form for the tin of faults, and the table that goes to the printer."""

import ipywidgets

from benchreckoner.bench.accuracy import read_accuracy
from benchreckoner.bench.repair import Instrument
from benchreckoner.bench.tin import SPRING, SWITCH, WIPER, Host, imitations
from benchreckoner.bench.uncertain import one_reading, within
from benchreckoner.bench.vocabulary import QUANTITIES
from benchreckoner.lessons.resistor_trial import machine_readings
from benchreckoner.lessons.tin_table import MOST_VOLTS, SMALL, WEAK_PULL, show_rating, show_watts, take_care, tin_table
from benchreckoner.lessons.your_bench import my_guesses, my_sheet
from benchreckoner.show import store
from benchreckoner.show.words import above, alert_area, button, card, caution, on_enter, row, status_area, text_box, trouble
from benchreckoner.units import Q, read_percent, read_quantity, show, show_exact

_MOST_LOSS = Q(40, "dB")
_LEAST_SOLD, _MOST_SOLD = Q(0.1, "ohm"), Q(10, "Mohm")  # of usual resistors: common practice
TOLERANCES = {"5 %": 0.05, "1 %": 0.01}
COUNTS = ("2000", "4000", "6000", "20000", "60000")
# Name, label, what to write.
_BOXES = (
    ("supply", "Supply", "9 V"), ("playing", "Motor's current, playing", "104 mA"),
    ("held", "Motor's current, held (if you read it)", "1.05 A"), ("volts", "Bad spring: volts to lose", "0.45 V"),
    ("load", "Dirty switch: ohms of what it feeds", "8 ohm"), ("loss", "Dirty switch: decibels to lose", "1 dB"),
    ("track", "Worn wiper: ohms of the track", "10 kohm"), ("share", "Worn wiper: share of the track", "20 %"),
    ("leads", "Ohms of your meter's leads", "0.20 ohm"),
)
# Name, label, quantity, what to write.
_METERS = (
    ("ammeter", "Meter on amperes", "current", "1.2 % + 2 mA"), ("voltmeter", "Meter on volts", "voltage drop", "0.5 % + 1 mV"),
    ("ohmmeter", "Meter on ohms", "resistance", "0.8 % + 0.2 ohm"),
)
LABELS = {name: label for name, label, *_ in (*_BOXES, *_METERS)}
_LIKE = {name: like for name, _, like in _BOXES}
_OPTIONAL = ("held",)


def tin():
    """The form: the host's machine, meter and wishes in, the tin's resistors as a table out."""
    return _Tin().view


def read_host(texts, instruments):
    """Read what a host typed.

    Parameters
    ----------
    texts : dict of str to str
        What stands in each box.
    instruments : dict of str to Instrument
        Those that a meter's box may name.

    Returns
    -------
    Host

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.
    """
    ammeter, voltmeter, ohmmeter = (_meter(texts[name], label, quantity, like, instruments) for name, label, quantity, like in _METERS)
    supply, playing = _positive(texts, "supply", "V").quantity, _positive(texts, "playing", "A")
    if supply > MOST_VOLTS:
        raise ValueError(f"{LABELS['supply']}: {show(supply, 'V')} is beyond {show_exact(MOST_VOLTS, 'V')}, where this work ends")
    volts, loss = _positive(texts, "volts", "V").quantity, _positive(texts, "loss", "dB").quantity
    if not volts < supply / 2:
        raise ValueError(f"{LABELS['volts']}: {show(volts, 'V')} is half the supply or more, and the motor would hardly turn; "
                         f"write less, for example \"{show(supply / 20, 'V', 2)}\"")
    if loss > _MOST_LOSS:
        raise ValueError(f"{LABELS['loss']}: {show(loss, 'dB')} is near silence, write for example \"{_LIKE['loss']}\"")
    share = read_percent(texts["share"], LABELS["share"])
    if not 0 < share < 1:
        raise ValueError(f"{LABELS['share']}: must be more than 0 % and less than 100 %, write for example \"{_LIKE['share']}\"")
    leads = _positive(texts, "leads", "ohm")
    return Host(supply=supply, current=one_reading(playing, quantity="current", instrument=ammeter),
                rest=_held_rest(texts, supply, playing.quantity), volts=volts, load=_positive(texts, "load", "ohm").quantity,
                loss=loss, track=_positive(texts, "track", "ohm").quantity, share=share, tolerance=TOLERANCES[texts["tolerance"]],
                volts_meter=voltmeter, ohms_meter=ohmmeter, counts=int(texts["counts"]),
                leads=within(leads.quantity, (leads.half_digit / leads.quantity).m_as(""), "ohm"))


def table_html(host):
    """The tin as a table that prints in grey, a line a resistor, with the warnings below; made from escaped parts."""
    found = imitations(host)
    rows = [(_label(one, host), _effect(one), show_watts(one.power), show_rating(one.rating), _band(one)) for one in found]
    return (tin_table("The tin of faults", ("Label", "What it does", "At worst", "Buy", "A good reading"), rows)
            + "<p>Read the spring across it, playing. Read the switch across it, power off and one end free; the wiper to one end, power off "
              "and turned to that stop: there the meter's leads are in the reading.</p>"
            + take_care(warnings(found, host))
            + "<p>At worst: for the spring, the motor held; for the switch, the whole supply across it and what it feeds; for the "
              "wiper, the whole supply across it. Buy at least twice those watts (common practice). A good reading holds about 95 % "
              "of what a meter like yours shows: the resistor's tolerance, your meter, and the leads where they are in it.</p>")


def to_buy(host):
    """The resistors of the tin, as a shop has them.

    Parameters
    ----------
    host : Host

    Returns
    -------
    tuple of str
    """
    return tuple(f"{_label(one, host)}: {show_rating(one.rating)}" for one in imitations(host))


def warnings(found, host):
    """What a host must know before the resistors go into the tin, in plain words.

    Parameters
    ----------
    found : sequence of Imitation
    host : Host

    Yields
    ------
    str
    """
    for fault in (SPRING, SWITCH, WIPER):
        hottest = max((one for one in found if one.fault == fault), key=lambda one: one.power)
        watts = show_watts(hottest.power)
        if hottest.rating is None and fault == SPRING and host.rest is None:
            yield (f"{fault}: read the motor's current with its pulley held, 2 s at most. Without it the worst case is a motor "
                   f"without ohms, {watts}, and nothing on sale stands twice that")
        elif hottest.rating is None:
            yield f"{fault}: it would have to stand {watts}, and nothing on sale stands twice that. Wish for something milder"
        elif hottest.rating > SMALL:
            why = {SPRING: "if somebody holds the motor", SWITCH: "if the output hangs on one side of the supply",
                   WIPER: "if the whole supply gets across it"}[fault]
            yield f"{fault}: {why}, it must stand {watts}"
    if any(one.rating is not None and one.rating > SMALL for one in found):
        yield f"A {SMALL.m_as('W'):g} W part would overheat there, and a larger one still gets hot: out of reach of fingers and plastic"
    for one in found:
        name = f"{one.fault}, {_ohms(one)}"
        if not _LEAST_SOLD <= one.resistance <= _MOST_SOLD:
            yield f"{name}: no usual drawer holds it; those on sale go from {show_exact(_LEAST_SOLD, 'ohm')} to {show_exact(_MOST_SOLD, 'ohm')}"
        if one.pull is not None and one.pull < WEAK_PULL:
            yield f"{name}: only {100 * one.pull:.0f} % of the starting pull is left, so the motor may not start"
        if not one.told_apart:
            yield (f"{name}: your meter cannot tell it from a sound contact, which may read up to "
                   f"{show(one.sound.value, one.sound.unit, 2)}. Wish for more, or use a finer meter")


class _Tin:
    """Boxes filled from what was kept, else from the sheet; the table below."""

    def __init__(self):
        self.instruments = my_sheet().instruments
        self.boxes = {name: text_box(label, placeholder=f"such as {like}") for name, label, like in _BOXES}
        for name, label, _, like in _METERS:
            self.boxes[name] = above(ipywidgets.Combobox, f"{label} (its name, or its limits)", options=tuple(self.instruments),
                                     placeholder=f"such as {like}", continuous_update=False)
        for box in self.boxes.values():
            on_enter(box, self.reckon)
        self.boxes["counts"] = above(ipywidgets.Dropdown, "Counts of your meter's display", options=COUNTS)
        self.boxes["tolerance"] = above(ipywidgets.Dropdown, "Tolerance of your resistors", options=tuple(TOLERANCES))
        self.error, self.note, self.answer = alert_area(), alert_area(), status_area()
        self.view = card(row(*self.boxes.values()), row(button("Reckon the tin", self.reckon)), self.error, self.note, self.answer)
        self.fill()

    def fill(self):
        """What this host typed the last time, else what the sheet knows."""
        earlier, note = store.kept(my_guesses(), group="tin", key="host")
        self.note.value = caution(note)
        for name, text in {**from_sheet(my_sheet()), **(earlier[-1] if earlier else {})}.items():
            if name in self.boxes and text in {"tolerance": tuple(TOLERANCES), "counts": COUNTS}.get(name, (text,)):
                self.boxes[name].value = str(text)

    def reckon(self):
        """Make the table, or say which entry is wrong; what was typed stays and is kept."""
        texts = {name: (box.value or "").strip() for name, box in self.boxes.items()}
        self.note.value = caution(store.keep(my_guesses(), texts, group="tin", key="host"))
        try:
            missing = next((name for name in LABELS if not texts[name] and name not in _OPTIONAL), None)
            if missing:
                like = self.boxes[missing].placeholder.removeprefix("such as ")
                raise ValueError(f'{LABELS[missing]}: nothing there yet, write for example "{like}"')
            made = table_html(read_host(texts, self.instruments))
        except ValueError as error:
            self.error.value, self.answer.value = trouble(str(error)), ""
            return
        self.error.value, self.answer.value = "", made


def from_sheet(sheet):
    """What a sheet says of the host's machine and meters, as texts for the boxes.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    dict of str to str
    """
    supply, playing, held = machine_readings(sheet)
    found = {"supply": (supply, "V"), "playing": (playing and playing.value, "A"), "held": (held and held.value, "A")}
    texts = {name: show(value, unit) for name, (value, unit) in found.items() if value is not None}
    if supply is not None:
        texts["volts"] = show(supply / 20, "V", 2)
    for name, _, quantity, _ in _METERS:
        fitting = [one for one in sheet.instruments.values()
                   if any(entry.quantity in (None, quantity.removesuffix(" drop")) for entry in one.accuracy)]
        if fitting:
            texts[name] = fitting[0].name
            if quantity == "resistance" and fitting[0].leads is not None:
                texts["leads"] = show(fitting[0].leads.quantity, "ohm", 2)
    return texts


def _meter(text, label, quantity, like, instruments):
    """An instrument of the sheet by its name, else one with the limits that were typed."""
    meter = instruments.get(text) or Instrument(label, read_accuracy(text, label), "")
    if quantity != "current" and any(entry.digits and entry.up_to is None for entry in meter.accuracy):
        raise ValueError(f"{label}: a limit in digits says nothing before there is a reading; write the digits with their unit, "
                         f'for example "{like}"')
    if text not in instruments and not all(entry.fixed is None or entry.fixed.is_compatible_with(QUANTITIES[quantity])
                                           for entry in meter.accuracy):
        raise ValueError(f'{label}: {text!r} is in another unit, write for example "{like}"')
    return meter


def _positive(texts, name, unit):
    typed = read_quantity(texts[name], unit, LABELS[name])
    if not typed.quantity.magnitude > 0:
        raise ValueError(f"{LABELS[name]}: must be above zero, write for example \"{_LIKE[name]}\"")
    return typed


def _held_rest(texts, supply, playing):
    """Everything in the loop while the motor is held, or None where nobody read it."""
    if not texts["held"]:
        return None
    held = _positive(texts, "held", "A").quantity
    if held < playing:
        raise ValueError(f"{LABELS['held']}: {show(held, 'A')} is less than the {show(playing, 'A')} playing, and a held motor draws "
                         "more; read it again, or leave the box empty")
    return (supply / held).to("ohm")


def _ohms(one):
    """As it is printed on a resistor and its bag: no milliohms."""
    ohms = one.resistance.m_as("ohm")
    return f"{ohms:.2g} Ω" if ohms < 100 else show_exact(one.resistance, "ohm")


def _label(one, host):
    return f"{one.fault}, {_ohms(one)}, {100 * host.tolerance:.0f} %"


def _effect(one):
    """What one resistor does, beside the wish."""
    if one.fault == WIPER:
        return f"{100 * one.effect.plain:.2g} % of the track (wished {100 * one.wished.m_as(''):.3g} %)"
    if one.fault == SWITCH:
        return f"{one.effect.plain:.2f} dB lost (wished {one.wished.m_as('dB'):.2f} dB)"
    pull = f"; {100 * one.pull:.0f} % of the starting pull left" if one.pull is not None else ""
    return f"{show(one.effect.value, 'V')} lost, playing (wished {show(one.wished, 'V')}){pull}"


def _band(one):
    """The two ends between which a sound meter reads, in one unit."""
    known = one.reading
    number, unit = show(known.value + known.expanded, known.unit).split(" ")
    decimals = len(number.partition(".")[2])
    low = (known.value - known.expanded).m_as(known.unit) / (known.value + known.expanded).m_as(known.unit) * float(number)
    return f"{low:.{decimals}f} to {number} {unit}"
