"""Book 03, the tin of faults: a resistor across a sound capacitor imitates a leak on the host's own tester."""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from benchreckoner.bench.accuracy import read_accuracy
from benchreckoner.bench.repair import Instrument
from benchreckoner.bench.tin import TOLERANCE
from benchreckoner.bench.uncertain import Known, one_reading, propagate, within
from benchreckoner.lessons.tin_table import MOST_VOLTS, SMALL, show_rating, tin_table
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.preferred import preferred_neighbours
from benchreckoner.physics.testers import charge_time_reading, discharge_time_reading
from benchreckoner.show import store
from benchreckoner.show.words import alert_area, button, card, caution, on_enter, row, status_area, text_box, trouble
from benchreckoner.units import Q, read_quantity, show, show_known

_NOTHING = Q(0, "ohm")
_MOST_TIMES = 5.0
_TEST = Q(10, "kohm")  # in series while leakage is read
_COOL = SMALL / 2  # what the usual resistor stands with its reserve
_MILDEST, _CLIFF = 1e5, 1.72  # in units of the tester's resistor; just above the last leak at which it still stops
# Name, label, what to write.
_BOXES = (("sound", "The sound part reads", "10.2 uF"), ("tester", "Your tester's limit", "3 % + 0.05 uF"),
          ("source", "Resistor inside your tester", "10 kohm"), ("times", "Times as much, to show", "1.5"),
          ("volts", "Volts for the leakage test", "9 V"))
LABELS = {name: label for name, label, _ in _BOXES}
_LIKE = {name: like for name, _, like in _BOXES}


@dataclass(frozen=True)
class Leak:
    """One resistor for the tin: what a tester that times the charge shows with it, and what else gives it away.

    `shown` is None where the tester never stops. `low` is what a tester that times the discharge shows.
    """

    resistance: Q
    shown: Known | None
    low: Known
    current: Q


def leaks(*, sound, source, times, volts):
    """The two E12 resistors between which the wished reading lies; one where the wish is on the series.

    Parameters
    ----------
    sound : Known
        The sound part, in farads, as the host's tester shows it.
    source : Quantity [ohm]
        The tester's resistor.
    times : float
        How many times the sound reading to show, above 1 and at most 5.
    volts : Quantity [V]
        Of the leakage test.

    Returns
    -------
    tuple of Leak
        The milder first.
    """
    def ratio(ohms):
        return charge_time_reading(capacitance=Q(1, "uF"), leakage_resistance=ohms * source, series_resistance=_NOTHING,
                                   source_resistance=source).m_as("uF") - times

    exact = brentq(ratio, _CLIFF, _MILDEST) * source
    if volts**2 / exact > _COOL:
        raise ValueError(f"{LABELS['volts']}: {show(volts, 'V')} straight across {show(exact, 'ohm', digits=2)} would make it hot; take "
                         "fewer volts, or a tester with a larger resistor inside")
    both = dict.fromkeys(one.m_as("ohm") for one in preferred_neighbours(value=exact))
    return tuple(_leak(sound, source, Q(ohms, "ohm"), volts) for ohms in sorted(both, reverse=True))


def leak_tin():
    """The form: the host's tester and a sound part in, the resistors for the tin as a table out."""
    return _LeakTin().view


def read_wish(texts):
    """Read what a host typed.

    Parameters
    ----------
    texts : dict of str to str

    Returns
    -------
    dict
        Keyword arguments of `leaks`.

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.
    """
    typed = {name: read_quantity(texts[name], unit, LABELS[name]) for name, unit in (("sound", "F"), ("source", "ohm"), ("volts", "V"))}
    for name, one in typed.items():
        if not one.quantity.magnitude > 0:
            raise ValueError(f'{LABELS[name]}: must be above zero, write for example "{_LIKE[name]}"')
    if typed["volts"].quantity > MOST_VOLTS:
        raise ValueError(f"{LABELS['volts']}: {show(typed['volts'].quantity, 'V')} is beyond 63 V, where this work ends")
    try:
        times = float(texts["times"].replace(",", "."))
    except ValueError:
        times = np.nan
    if not 1.02 <= times <= _MOST_TIMES:
        raise ValueError(f'{LABELS["times"]}: write a number from 1.02 to {_MOST_TIMES:g}, for example "{_LIKE["times"]}"; a leak only '
                         "ever adds")
    tester = Instrument(LABELS["tester"], read_accuracy(texts["tester"], LABELS["tester"]), "")
    if not all(entry.fixed is None or entry.fixed.is_compatible_with("F") for entry in tester.accuracy):
        raise ValueError(f'{LABELS["tester"]}: write it in farads, for example "{_LIKE["tester"]}"')
    return {"sound": one_reading(typed["sound"], quantity="capacitance", instrument=tester),
            "source": typed["source"].quantity, "times": times, "volts": typed["volts"].quantity}


def table_html(found):
    """The tin as a table that prints in grey, a line a resistor; made from escaped parts."""
    rows = [(_label(one), _told(one.shown) if one.shown else "no reading", _told(one.low), show(one.current, "A")) for one in found]
    head = ("Label", "A tester that times the charge shows", "One that times the discharge", "Leakage test, 10 kΩ in series")
    return (tin_table("The tin: a resistor across a sound part", head, rows) +
            "<p>Solder the resistor across the sound part, and say nothing. A good reading lies within the ± (about 95 %): the "
            "resistor's 5 % and the tester's limit together. A discharge tester with the same resistor inside is taken; a bridge at "
            "120 Hz shows hardly anything. Unlike a real leak, a resistor's does not fall with the minutes on voltage: "
            "a participant who notices has earned the point.</p>")


def to_buy(found):
    """The resistors of the tin, as a shop has them.

    Parameters
    ----------
    found : sequence of Leak

    Returns
    -------
    tuple of str
    """
    return tuple(f"{_label(one)}: {show_rating(SMALL)}" for one in found)


class _LeakTin:
    """Boxes filled from what was kept; the table below."""

    def __init__(self):
        self.boxes = {name: text_box(label, placeholder=f"such as {like}") for name, label, like in _BOXES}
        for box in self.boxes.values():
            on_enter(box, self.reckon)
        self.error, self.note, self.answer = alert_area(), alert_area(), status_area()
        self.view = card(row(*self.boxes.values()), row(button("Reckon the tin", self.reckon)), self.error, self.note, self.answer)
        earlier, note = store.kept(my_guesses(), group="tin", key="leak")
        self.note.value = caution(note)
        for name, text in (earlier[-1] if earlier else {}).items():
            if name in self.boxes:
                self.boxes[name].value = str(text)

    def reckon(self):
        """Make the table, or say which entry is wrong; what was typed stays and is kept."""
        texts = {name: box.value.strip() for name, box in self.boxes.items()}
        self.note.value = caution(store.keep(my_guesses(), texts, group="tin", key="leak"))
        try:
            missing = next((name for name, text in texts.items() if not text), None)
            if missing:
                raise ValueError(f'{LABELS[missing]}: nothing there yet, write for example "{_LIKE[missing]}"')
            made = table_html(leaks(**read_wish(texts)))
        except ValueError as error:
            self.error.value, self.answer.value = trouble(str(error)), ""
            return
        self.error.value, self.answer.value = "", made


def _leak(sound, source, resistance, volts):
    def late(farads, ohms):
        return charge_time_reading(capacitance=farads, leakage_resistance=ohms, series_resistance=_NOTHING, source_resistance=source)

    def early(farads, ohms):
        return discharge_time_reading(capacitance=farads, leakage_resistance=ohms, series_resistance=_NOTHING, load_resistance=source)

    ohms = within(resistance, TOLERANCE, "ohm")
    stops = np.isfinite(late(sound.value, (1 - TOLERANCE) * resistance).m_as("F"))
    return Leak(resistance, propagate(late, "F", farads=sound, ohms=ohms) if stops else None,
                propagate(early, "F", farads=sound, ohms=ohms), (volts / (resistance + _TEST)).to("A"))


def _label(one):
    return f"leaky part, {show(one.resistance, 'ohm', digits=2)}, {100 * TOLERANCE:.0f} %"


def _told(known):
    return show_known(known.value, known.expanded, known.unit)
