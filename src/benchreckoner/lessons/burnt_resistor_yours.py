"""Book 05, the reader's own burnt resistor: bands and evidence in, candidates with odds and reasons out."""

from html import escape

import ipywidgets

from benchreckoner.bench.burnt_cause import body_watts, cause, replacement_words, why_first
from benchreckoner.bench.burnt_resistor import (KINDS, candidates, from_circuit, own_reading, read_bands, twin_in_circuit, twin_reading,
                                                what_settles)
from benchreckoner.bench.resistor_judge import judge_resistors
from benchreckoner.lessons.your_bench import my_guesses, readings_form, reports_html
from benchreckoner.physics.resistors import allowed_power
from benchreckoner.show import store
from benchreckoner.show.words import above, alert_area, button, card, caution, on_enter, row, status_area, text_box, trouble
from benchreckoner.units import Q, read_percent, read_quantity, show, show_exact

LIFTED, IN_CIRCUIT = "one leg lifted", "in circuit"
_MOST_VOLTS = Q(63, "V")
_TOLD = 6
# Name, label, what to write; all but the bands may stay empty.
_BOXES = (
    ("bands", "Bands now, first to last", "brown grey ? gold"), ("own", "The burnt part itself reads", "62 ohm"),
    ("twin", "Other channel's part reads", "46.5 ohm"), ("across", "What lies across that one", "220 ohm"),
    ("accuracy", "Your meter is good to", "1 %"), ("volts", "Sister stage: volts across it", "0.47 V"),
    ("current", "Sister stage: current in it", "10 mA"), ("diameter", "Its body's thickness", "2.4 mm"),
    ("length", "Its body's length", "6.5 mm"), ("watts", "Its watts, if you know them", "0.25 W"),
    ("supply", "Volts of the supply before it", "9 V"),
)
_LABELS = {name: label for name, label, _ in _BOXES}
_LIKE = {name: like for name, _, like in _BOXES}
_NEEDED = ("bands", "accuracy")
_SHOWN = ("bands", "kind", "own", "twin", "how", "across", "accuracy", "volts", "current", "diameter", "length", "watts", "supply")


def burnt_form():
    """The form for one burnt resistor; nothing is written into the sheet."""
    return _Burnt().view


def others_form():
    """A form for readings of the sheet's resistors and loudspeakers, answered by what they say of them."""
    return readings_form(quantities=("resistance", "voltage drop", "current", "voltage"), kinds=("resistor", "loudspeaker"),
                         judged=others_html)


def others_html(sheet):
    """What a sheet's readings say of its resistors and loudspeakers, as HTML made from escaped parts."""
    return reports_html(judge_resistors(sheet), nothing=(
        "No resistor and no loudspeaker was read yet. Write one into the sheet as told above, and enter its ohms, <em>lifted</em>."))


def answer_html(texts):
    """What the bands and the evidence leave, what would settle it, what may go in, and why it burnt; from escaped parts.

    Parameters
    ----------
    texts : dict of str to str
        What stands in each box, `how` the twin was read, and the `kind`.

    Returns
    -------
    str

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.
    """
    missing = next((name for name in _NEEDED if not texts[name]), None)
    if missing:
        raise ValueError(f'{_LABELS[missing]}: nothing there yet, write for example "{_LIKE[missing]}"')
    found = candidates(read_bands(texts["bands"]), _evidence(texts))
    lines = "".join(f"<li><strong>{escape(show_exact(one.value, 'ohm'))}</strong>, {_odds(one.odds)} "
                    f"({escape(' '.join(one.bands))}): {escape('; '.join(one.reasons))}.</li>" for one in found[:_TOLD])
    made = (f"<p>What it may have been, the likeliest first:</p><ol>{lines}</ol><p>{escape(what_settles(found))}</p>"
            "<p>The odds rest on how common values and burnt colours are, which is common practice or our own choice: an order "
            "to check in, no proof.</p>")
    watts, size = _watts(texts)
    if watts is not None:
        after = "".join(f"<li>{escape(line)}</li>" for line in replacement_words(kind=texts["kind"], rated_power=watts))
        made += f"<p>{escape(size)}</p><p>What may go in:</p><ul>{after}</ul>"
    supply = _positive(texts, "supply", "V")
    if supply is not None and supply > _MOST_VOLTS:
        raise ValueError(f"{_LABELS['supply']}: {show(supply, 'V')} is beyond 63 V, where this work ends")
    if watts is not None and supply is not None:
        told = why_first(cause(resistance=found[0].value, rated_power=watts, supply=supply), resistance=found[0].value, rated_power=watts)
        made += "<p>Why it burnt, taking the first candidate:</p><ul>" + "".join(f"<li>{escape(line)}</li>" for line in told) + "</ul>"
    else:
        made += "<p>Write its body's size, or its watts, and the supply's volts as well: then what burnt it can be reckoned.</p>"
    return made


def _odds(share):
    return "more than 99 in 100" if share > 0.99 else f"{100 * share:.2g} in 100"


def _evidence(texts):
    accuracy = read_percent(texts["accuracy"], _LABELS["accuracy"])
    if not 0 < accuracy < 1:
        raise ValueError(f'{_LABELS["accuracy"]}: must lie between 0 % and 100 %, write for example "{_LIKE["accuracy"]}"')
    twin, across, own = (_positive(texts, name, "ohm") for name in ("twin", "across", "own"))
    volts, current = _positive(texts, "volts", "V"), _positive(texts, "current", "A")
    if twin is not None and texts["how"] == LIFTED:
        yield twin_reading(resistance=twin, accuracy=accuracy)
    elif twin is not None:
        if across is not None and not twin < across:
            raise ValueError(f"{_LABELS['across']}: must be above what was read, {show(twin, 'ohm')}, since nothing in parallel raises a "
                             "reading; look whether that path is the right one")
        yield twin_in_circuit(resistance=twin, accuracy=accuracy, across=across)
    if (volts is None) != (current is None):
        raise ValueError(f"{_LABELS['volts' if volts is None else 'current']}: write it too, volts and current belong together; "
                         f'for example "{_LIKE["volts" if volts is None else "current"]}"')
    if volts is not None:
        yield from_circuit(voltage=volts, current=current, accuracy=min(0.5, 2 * accuracy))
    if own is not None:
        yield own_reading(resistance=own, kind=texts["kind"], accuracy=accuracy)


def _watts(texts):
    """The part's watts, as typed or by its body, and how they are known; None where neither was written."""
    watts = _positive(texts, "watts", "W")
    diameter, length = _positive(texts, "diameter", "mm"), _positive(texts, "length", "mm")
    if watts is None and (diameter is None or length is None):
        return None, ""
    how = "as you wrote"
    if watts is None:
        watts, usual = body_watts(diameter=diameter, length=length)
        how = ("by the usual bodies of film resistors (published; newer bodies of this size may stand more)" if usual else
               "by the nearest usual body, and none is near: compare with neighbours of known watts")
    warm = Q(100, "degC")
    return watts, (f"Rated {watts.m_as('W'):g} W, {how}. Where the air round it has {show_exact(warm, 'degC')} it may make only "
                   f"{show(allowed_power(rated_power=watts, temperature=warm), 'W', 2)}.")


def _positive(texts, name, unit):
    """A quantity above zero, or None where the box is empty."""
    if not texts[name]:
        return None
    value = read_quantity(texts[name], unit, _LABELS[name]).quantity
    if not value.magnitude > 0:
        raise ValueError(f'{_LABELS[name]}: must be above zero, write for example "{_LIKE[name]}"')
    return value


class _Burnt:
    """Boxes filled from what was kept; the answer below."""

    def __init__(self):
        self.boxes = {name: text_box(label, placeholder=f"such as {like}") for name, label, like in _BOXES}
        for box in self.boxes.values():
            on_enter(box, self.reckon)
        self.choices = {"how": (LIFTED, IN_CIRCUIT), "kind": KINDS}
        self.boxes["how"] = above(ipywidgets.Dropdown, "That one was read", options=self.choices["how"])
        self.boxes["kind"] = above(ipywidgets.Dropdown, "Its kind", options=KINDS)
        self.error, self.note, self.answer = alert_area(), alert_area(), status_area()
        self.view = card(row(*map(self.boxes.get, _SHOWN)), row(button("What was it?", self.reckon)), self.error, self.note, self.answer)
        earlier, note = store.kept(my_guesses(), group="burnt", key="resistor")
        self.note.value = caution(note)
        for name, text in (earlier[-1] if earlier else {}).items():
            if name in self.boxes and text in self.choices.get(name, (text,)):
                self.boxes[name].value = str(text)

    def reckon(self):
        """Answer, or say which entry is wrong; what was typed stays and is kept."""
        texts = {name: (box.value or "").strip() for name, box in self.boxes.items()}
        self.note.value = caution(store.keep(my_guesses(), texts, group="burnt", key="resistor"))
        try:
            made = answer_html(texts)
        except ValueError as error:
            self.error.value, self.answer.value = trouble(str(error)), ""
            return
        self.error.value, self.answer.value = "", made
