"""The tins of faults for a workshop, from one set of words about the host's machine and meters."""

from dataclasses import dataclass

from benchreckoner.bench.motor_judge import judge_motors
from benchreckoner.lessons import leak_tin, tin_form, tired_supply_tin
from benchreckoner.lessons.resistor_trial import machine_readings
from benchreckoner.units import Q, show

CONTACTS, LEAK, TIRED = "contacts", "leak", "tired supply"
TITLES = {CONTACTS: "Bad contacts", LEAK: "A leaky capacitor", TIRED: "A tired supply"}
_USUAL_SUPPLY, _USUAL_PLAYING = Q(9, "V"), Q(104, "mA")
_SHOWS = {"playing": tired_supply_tin.PLAYING, "starting": tired_supply_tin.STARTING}


@dataclass(frozen=True)
class Setting:
    """One entry of the host's file: where it stands, what it means, what a new file says, and which boxes of which tin it fills."""

    table: str
    key: str
    words: str
    usual: str
    fills: tuple[tuple[str, str], ...]


SETTINGS = (
    Setting("machine", "supply", "cells or supply, nothing drawn", "", ((CONTACTS, "supply"), (TIRED, "open"))),
    Setting("machine", "loaded", "the same while it plays", "", ((TIRED, "loaded"),)),
    Setting("machine", "least", "volts at which it loses its speed", "", ((TIRED, "least"),)),
    Setting("machine", "playing", "the motor's current, playing", "", ((CONTACTS, "playing"), (TIRED, "playing"))),
    Setting("machine", "held", "the motor's current, held for 2 s at most", "", ((CONTACTS, "held"), (TIRED, "held"))),
    Setting("meter", "volts", "the voltmeter's limit", "0.5 % + 10 mV", ((CONTACTS, "voltmeter"), (TIRED, "voltmeter"))),
    Setting("meter", "amperes", "the ammeter's limit", "1 % + 0.5 mA", ((CONTACTS, "ammeter"), (TIRED, "ammeter"))),
    Setting("meter", "ohms", "the ohmmeter's limit", "0.8 % + 0.2 ohm", ((CONTACTS, "ohmmeter"),)),
    Setting("meter", "leads", "the meter's two leads held together", "0.20 ohm", ((CONTACTS, "leads"),)),
    Setting("meter", "counts", "counts of the meter's display", "2000", ((CONTACTS, "counts"),)),
    Setting("meter", "farads", "the capacitor tester's limit", "3 % + 0.05 uF", ((LEAK, "tester"),)),
    Setting("meter", "source", "the resistor inside the capacitor tester", "10 kohm", ((LEAK, "source"),)),
    Setting("tin", "spring", "volts that a bad spring takes", "", ((CONTACTS, "volts"),)),
    Setting("tin", "feeds", "ohms of what the dirty switch feeds", "8 ohm", ((CONTACTS, "load"),)),
    Setting("tin", "switch", "decibels that the dirty switch takes", "1 dB", ((CONTACTS, "loss"),)),
    Setting("tin", "track", "ohms of the worn control's track", "10 kohm", ((CONTACTS, "track"),)),
    Setting("tin", "wiper", "the worn wiper's share of the track", "20 %", ((CONTACTS, "share"),)),
    Setting("tin", "tolerance", "tolerance of your resistors (5 % or 1 %)", "5 %", ((CONTACTS, "tolerance"),)),
    Setting("tin", "capacitor", "what the sound capacitor reads", "10.2 uF", ((LEAK, "sound"),)),
    Setting("tin", "times", "times as much as the sound one, for the leaky one to read", "1.5", ((LEAK, "times"),)),
    Setting("tin", "test", "volts of the leakage test, a resistor in series", "9 V", ((LEAK, "volts"),)),
    Setting("tin", "pull", "starting pull that a tired supply leaves", "40 %", ((TIRED, "pull"),)),
    Setting("tin", "shows", "what a tired supply spoils (playing or starting)", "playing", ((TIRED, "wish"),)),
)
_LABELS = {CONTACTS: tin_form.LABELS, LEAK: leak_tin.LABELS, TIRED: tired_supply_tin.LABELS}
_MAY_BE_EMPTY = ((CONTACTS, "held"),)
_CHOICES = {"counts": tin_form.COUNTS, "tolerance": tuple(tin_form.TOLERANCES), "shows": tuple(_SHOWS)}


class TinError(ValueError):
    """An entry of which no tin can be made; `setting` says which."""

    def __init__(self, what, setting):
        super().__init__(what)
        self.setting = setting


@dataclass(frozen=True)
class Tin:
    """One tin: ``html`` is its table, ``buy`` its resistors as a shop has them, ``empty`` what is still to be written for it."""

    html: str = ""
    buy: tuple[str, ...] = ()
    empty: tuple[Setting, ...] = ()


def usual_words(sheet):
    """What a new file says: the sheet's own supply and currents, an invented machine's where it has none.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    words : dict of (str, str) to str
        By table and key. What a held motor draws is never invented for a machine of which something was read: watts hang on it.
    read : tuple of str
        The keys whose words come from the sheet.
    """
    supply, playing, held = machine_readings(sheet)
    invented = supply is None and playing is None and held is None
    amps = {"playing": playing and playing.value, "held": held.value if held is not None else _held_by_its_ohms(sheet, supply)}
    read = tuple(key for key, value in {"supply": supply, **amps}.items() if value is not None)
    supply = _USUAL_SUPPLY if supply is None else supply
    playing = amps["playing"] if "playing" in read else _USUAL_PLAYING
    held = amps["held"] if "held" in read else 10 * playing
    known = {"supply": show(supply, "V"), "loaded": show(0.99 * supply, "V"), "least": show(0.55 * supply, "V"), "playing": show(playing, "A"),
             "held": show(held, "A") if invented or "held" in read else "", "spring": show(supply / 20, "V", 2)}
    return {(one.table, one.key): known.get(one.key, one.usual) for one in SETTINGS}, read


def make_tin(tin, words):
    """One tin, or what is still to be written where an entry that it needs is empty.

    Parameters
    ----------
    tin : str
        A key of `TITLES`.
    words : dict of (str, str) to str

    Returns
    -------
    Tin

    Raises
    ------
    TinError
        Names the entry, says what is wrong and shows what to write.
    """
    used = {box: one for one in SETTINGS for where, box in one.fills if where == tin}
    texts = {box: words[one.table, one.key] for box, one in used.items()}
    empty = tuple(used[box] for box, text in texts.items() if not text and (tin, box) not in _MAY_BE_EMPTY)
    if empty:
        return Tin(empty=empty)
    for one in used.values():
        if one.key in _CHOICES and words[one.table, one.key] not in _CHOICES[one.key]:
            raise TinError(f'must be one of {", ".join(_CHOICES[one.key])}, write for example "{_CHOICES[one.key][0]}"', one)
    try:
        return _MAKERS[tin](texts)
    except ValueError as error:
        told = str(error)
        box = next((box for box, name in _LABELS[tin].items() if told.startswith(f"{name}: ")), None)
        if box is None:
            raise TinError(told, next(iter(used.values()))) from error
        raise TinError(told.removeprefix(f"{_LABELS[tin][box]}: "), used[box]) from error


def _held_by_its_ohms(sheet, supply):
    """What the motor would draw held, straight on the supply, by its winding's ohms as judged; None where nobody knows them."""
    ohms = next((one.known for report in judge_motors(sheet) for one in report.judgements
                 if one.quantity == "winding resistance" and one.known is not None), None)
    return None if ohms is None or supply is None else (supply / ohms.value).to("A")


def _contacts(texts):
    host = tin_form.read_host(texts, {})
    return Tin(tin_form.table_html(host), tin_form.to_buy(host))


def _leak(texts):
    found = leak_tin.leaks(**leak_tin.read_wish(texts))
    return Tin(leak_tin.table_html(found), leak_tin.to_buy(found))


def _tired(texts):
    wish = _SHOWS[texts["wish"]]
    found = tired_supply_tin.tired_supplies(**tired_supply_tin.read_wish({**texts, "wish": wish}))
    return Tin(tired_supply_tin.table_html(found, wish), tired_supply_tin.to_buy(found))


_MAKERS = {CONTACTS: _contacts, LEAK: _leak, TIRED: _tired}
