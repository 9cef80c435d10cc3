"""The host's form for the tin of faults, and the table that goes to the printer."""

from html import escape

import ipywidgets

from benchreckoner.bench.accuracy import read_accuracy
from benchreckoner.bench.repair import Instrument
from benchreckoner.bench.tin import SPRING, SWITCH, WIPER, Host, imitations
from benchreckoner.bench.uncertain import one_reading, within
from benchreckoner.bench.vocabulary import QUANTITIES
from benchreckoner.lessons.resistor_trial import machine_readings
from benchreckoner.lessons.your_bench import my_guesses, my_sheet
from benchreckoner.show import store
from benchreckoner.show.words import SCROLLS, above, alert_area, button, card, caution, on_enter, row, status_area, text_box, trouble
from benchreckoner.units import Q, read_percent, read_quantity, show, show_exact

_MOST_SUPPLY = Q(63, "V")  # where this work ends
_MOST_LOSS = Q(40, "dB")
_SMALL = Q(0.25, "W")  # the usual resistor of a drawer
_WEAK_PULL = 0.5
_TOLERANCES = {"5 %": 0.05, "1 %": 0.01}
_COUNTS = ("2000", "4000", "6000", "20000", "60000")
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
_LABELS = {name: label for name, label, *_ in (*_BOXES, *_METERS)}
_LIKE = {name: like for name, _, like in _BOXES}
_OPTIONAL = ("held",)
_WHERE = {SPRING: "across it, playing", SWITCH: "across it, power off, one end free, leads in it",
          WIPER: "to one end, power off, turned to that stop, leads in it"}


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
    if supply > _MOST_SUPPLY:
        raise ValueError(f"{_LABELS['supply']}: {show(supply, 'V')} is beyond {show_exact(_MOST_SUPPLY, 'V')}, where this work ends")
    volts, loss = _positive(texts, "volts", "V").quantity, _positive(texts, "loss", "dB").quantity
    if not volts < supply / 2:
        raise ValueError(f"{_LABELS['volts']}: {show(volts, 'V')} is half the supply or more, and the motor would hardly turn; "
                         f"write less, for example \"{show(supply / 20, 'V', 2)}\"")
    if loss > _MOST_LOSS:
        raise ValueError(f"{_LABELS['loss']}: {show(loss, 'dB')} is near silence, write for example \"{_LIKE['loss']}\"")
    share = read_percent(texts["share"], _LABELS["share"])
    if not 0 < share < 1:
        raise ValueError(f"{_LABELS['share']}: must be more than 0 % and less than 100 %, write for example \"{_LIKE['share']}\"")
    leads = _positive(texts, "leads", "ohm")
    return Host(supply=supply, current=one_reading(playing, quantity="current", instrument=ammeter),
                rest=_held_rest(texts, supply, playing.quantity), volts=volts, load=_positive(texts, "load", "ohm").quantity,
                loss=loss, track=_positive(texts, "track", "ohm").quantity, share=share, tolerance=_TOLERANCES[texts["tolerance"]],
                volts_meter=voltmeter, ohms_meter=ohmmeter, counts=int(texts["counts"]),
                leads=within(leads.quantity, (leads.half_digit / leads.quantity).m_as(""), "ohm"))


def table_html(host):
    """The tin as a table that prints in grey, a line a resistor, with the warnings below; made from escaped parts."""
    found = imitations(host)
    tolerance = f"{100 * host.tolerance:.0f} %"
    edge = "border: 1px solid #444; padding: 0.2em 0.5em; text-align: left"
    cell, short = f'style="{edge}"', f'style="{edge}; white-space: nowrap"'
    head = "".join(f'<th scope="col" {cell}>{text}</th>' for text in ("Label", "What it does", "At worst", "Buy", "A good reading"))
    lines = "".join(
        f'<tr><th scope="row" {short}>{escape(f"{one.fault}, {_ohms(one)}, {tolerance}")}</th>'
        + "".join(f"<td {style}>{escape(text)}</td>" for style, text in
                  ((cell, _effect(one)), (short, _watts(one.power)), (short, _buy(one)), (cell, _band(one))))
        + "</tr>" for one in found)
    told = "".join(f"<li>{escape(line)}.</li>" for line in warnings(found, host))
    notes = ("<p>At worst: for the spring, the motor held; for the switch, the whole supply across it and what it feeds; for the "
             "wiper, the whole supply across it. Buy at least twice those watts (common practice). A good reading holds about 95 % "
             "of what a meter like yours shows: the resistor's tolerance, your meter, and the leads where they are in it.</p>")
    return (f'<div style="{SCROLLS}"><table style="border-collapse: collapse"><caption>The tin of faults</caption>'
            f"<thead><tr>{head}</tr></thead><tbody>{lines}</tbody></table></div>"
            + (f"<p><strong>Take care:</strong></p><ul>{told}</ul>" if told else "") + notes)


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
        watts = _watts(hottest.power)
        if hottest.rating is None and fault == SPRING and host.rest is None:
            yield (f"{fault}: read the motor's current with its pulley held, 2 s at most. Without it the worst case is a motor "
                   f"without ohms, {watts}, and nothing on sale stands twice that")
        elif hottest.rating is None:
            yield f"{fault}: it would have to stand {watts}, and nothing on sale stands twice that. Wish for something milder"
        elif hottest.rating > _SMALL:
            why = {SPRING: "if somebody holds the motor", SWITCH: "if the output hangs on one side of the supply",
                   WIPER: "if the whole supply gets across it"}[fault]
            yield (f"{fault}: {why}, it must stand {watts}. A {_SMALL.m_as('W'):g} W part would overheat, and a larger one still gets hot: "
                   "out of reach of fingers and plastic")
    for one in found:
        name = f"{one.fault}, {_ohms(one)}"
        if one.pull is not None and one.pull < _WEAK_PULL:
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
        self.boxes["counts"] = above(ipywidgets.Dropdown, "Counts of your meter's display", options=_COUNTS)
        self.boxes["tolerance"] = above(ipywidgets.Dropdown, "Tolerance of your resistors", options=tuple(_TOLERANCES))
        self.error, self.note, self.answer = alert_area(), alert_area(), status_area()
        self.view = card(row(*self.boxes.values()), row(button("Reckon the tin", self.reckon)), self.error, self.note, self.answer)
        self.fill()

    def fill(self):
        """What this host typed the last time, else what the sheet knows."""
        earlier, note = store.kept(my_guesses(), group="tin", key="host")
        self.note.value = caution(note)
        for name, text in {**from_sheet(my_sheet()), **(earlier[-1] if earlier else {})}.items():
            if name in self.boxes and text in {"tolerance": tuple(_TOLERANCES), "counts": _COUNTS}.get(name, (text,)):
                self.boxes[name].value = str(text)

    def reckon(self):
        """Make the table, or say which entry is wrong; what was typed stays and is kept."""
        texts = {name: (box.value or "").strip() for name, box in self.boxes.items()}
        self.note.value = caution(store.keep(my_guesses(), texts, group="tin", key="host"))
        try:
            missing = next((name for name in _LABELS if not texts[name] and name not in _OPTIONAL), None)
            if missing:
                like = self.boxes[missing].placeholder.removeprefix("such as ")
                raise ValueError(f'{_LABELS[missing]}: nothing there yet, write for example "{like}"')
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
    typed = read_quantity(texts[name], unit, _LABELS[name])
    if not typed.quantity.magnitude > 0:
        raise ValueError(f"{_LABELS[name]}: must be above zero, write for example \"{_LIKE[name]}\"")
    return typed


def _held_rest(texts, supply, playing):
    """Everything in the loop while the motor is held, or None where nobody read it."""
    if not texts["held"]:
        return None
    held = _positive(texts, "held", "A").quantity
    if held < playing:
        raise ValueError(f"{_LABELS['held']}: {show(held, 'A')} is less than the {show(playing, 'A')} playing, and a held motor draws "
                         "more; read it again, or leave the box empty")
    return (supply / held).to("ohm")


def _ohms(one):
    """As it is printed on a resistor and its bag: no milliohms."""
    ohms = one.resistance.m_as("ohm")
    return f"{ohms:.2g} Ω" if ohms < 100 else show_exact(one.resistance, "ohm")


def _watts(power):
    """As ratings are printed: no milliwatts down to a tenth."""
    watts = power.m_as("W")
    return f"{watts:#.2g}".rstrip(".") + " W" if watts >= 0.095 else show(power, "W", 2)


def _effect(one):
    """What one resistor does, beside the wish."""
    if one.fault == WIPER:
        return f"{100 * one.effect.plain:.2g} % of the track (wished {100 * one.wished.m_as(''):.3g} %)"
    if one.fault == SWITCH:
        return f"{one.effect.plain:.2f} dB lost (wished {one.wished.m_as('dB'):.2f} dB)"
    pull = f"; {100 * one.pull:.0f} % of the starting pull left" if one.pull is not None else ""
    return f"{show(one.effect.value, 'V')} lost, playing (wished {show(one.wished, 'V')}){pull}"


def _buy(one):
    return f"{one.rating.m_as('W'):g} W or more" if one.rating is not None else "none stands it"


def _band(one):
    """The two ends between which a sound meter reads, in one unit."""
    known = one.reading
    number, unit = show(known.value + known.expanded, known.unit).split(" ")
    decimals = len(number.partition(".")[2])
    low = (known.value - known.expanded).m_as(known.unit) / (known.value + known.expanded).m_as(known.unit) * float(number)
    return f"{low:.{decimals}f} to {number} {unit} {_WHERE[one.fault]}"
