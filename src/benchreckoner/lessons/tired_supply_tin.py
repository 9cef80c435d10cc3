"""Book 05, the tin of faults: a resistor behind sound cells imitates a tired supply, on the host's own machine."""

from dataclasses import dataclass
from html import escape

import ipywidgets

from benchreckoner.bench.accuracy import read_accuracy
from benchreckoner.bench.repair import Instrument
from benchreckoner.bench.tin import TOLERANCE, drop_across, worst_case
from benchreckoner.bench.uncertain import Known, one_reading
from benchreckoner.lessons.tin_table import MOST_VOLTS, SMALL, WEAK_PULL, show_rating, show_watts, take_care, tin_table
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.contacts import contact_resistance, starting_torque_ratio
from benchreckoner.physics.preferred import preferred_neighbours
from benchreckoner.show import store
from benchreckoner.show.words import above, alert_area, button, card, caution, on_enter, row, status_area, text_box, trouble
from benchreckoner.units import Q, read_percent, read_quantity, show, show_exact, show_known

PLAYING, STARTING = "loses its speed while it plays", "plays, but starts badly"
HOLDS, EDGE, LOST = "holds its speed", "on the edge", "has let go of its speed"
_NOTHING, _BEYOND = Q(0, "ohm"), 1.05  # a step past a value of the drawer
# Name, label, what to write.
_BOXES = (
    ("open", "Cells or adapter, nothing drawn", "9.0 V"), ("loaded", "The same while it plays", "8.90 V"),
    ("least", "Volts where it loses speed", "4.93 V"),
    ("playing", "Motor's current, playing", "85 mA"), ("held", "Motor's current, held 2 s", "0.50 A"),
    ("pull", "Starting badly: pull to leave", "40 %"),
    ("voltmeter", "Meter on volts", "0.5 % + 10 mV"), ("ammeter", "Meter on amperes", "1 % + 0.5 mA"),
)
LABELS = {name: label for name, label, _ in _BOXES}
_LIKE = {name: like for name, _, like in _BOXES}


@dataclass(frozen=True)
class TiredSupply:
    """One resistor for the tin, and what a table finds with it.

    ``behind`` is what is left of the supply behind it while playing, ``drop`` what the resistor takes, ``looks`` the ohms that the
    supply seems to have. ``power`` is at worst, the motor held; ``rating`` None where none that is sold stands it.
    """

    resistance: Q
    behind: Known
    drop: Known
    looks: Q
    speed: str
    pull: float
    power: Q
    rating: Q | None


def tired_supplies(*, supply, loaded, least, playing, held, wish, pull):
    """The two E12 resistors between which the wished symptom lies, and one more where the stronger is not sure to show it.

    Parameters
    ----------
    supply : Quantity [V]
        Nothing drawn.
    loaded, least : Known
        Volts across it while playing, and at which the governor lets go.
    playing : Known
        Amperes.
    held : Quantity [A]
    wish : str
        `PLAYING` or `STARTING`.
    pull : float
        Share of the starting pull to leave, for `STARTING`.

    Returns
    -------
    tuple of TiredSupply
        The milder first.

    Notes
    -----
    The motor's current is taken as the same with and without the resistor while the governor holds, since the mechanics ask for the
    same torque. Where the governor has let go the current hardly changes either, and the speed does. What a held motor draws
    is taken as set by ohms alone.
    """
    rest = (supply / held).to("ohm")
    if wish == PLAYING:
        exact = contact_resistance(voltage_drop=loaded.value - least.value, current=playing.value)
    else:
        exact = rest * (1 / pull - 1)
    both = dict.fromkeys(one.m_as("ohm") for one in preferred_neighbours(value=exact))
    found = [_one(Q(ohms, "ohm"), supply, loaded, least, playing, rest) for ohms in sorted(both)]
    if wish == PLAYING and found[-1].speed != LOST:
        _, stronger = preferred_neighbours(value=_BEYOND * found[-1].resistance)
        found.append(_one(stronger, supply, loaded, least, playing, rest))
    return tuple(found)


def tired_supply_tin():
    """The form: the host's supply, motor and wish in, the resistors for the tin as a table out."""
    return _TiredTin().view


def read_wish(texts):
    """Read what a host typed.

    Parameters
    ----------
    texts : dict of str to str

    Returns
    -------
    dict
        Keyword arguments of `tired_supplies`.

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.
    """
    units = {"open": "V", "loaded": "V", "least": "V", "playing": "A", "held": "A"}
    typed = {name: read_quantity(texts[name], unit, LABELS[name]) for name, unit in units.items()}
    for name, one in typed.items():
        if not one.quantity.magnitude > 0:
            raise ValueError(f'{LABELS[name]}: must be above zero, write for example "{_LIKE[name]}"')
    volts, amps = (_meter(texts, name, unit) for name, unit in (("voltmeter", "V"), ("ammeter", "A")))
    supply, loaded, least, playing, held = (one.quantity for one in typed.values())
    if supply > MOST_VOLTS:
        raise ValueError(f"{LABELS['open']}: {show(supply, 'V')} is beyond 63 V, where this work ends")
    if loaded > supply:
        raise ValueError(f"{LABELS['loaded']}: {show(loaded, 'V')} is more than the {show(supply, 'V')} with nothing drawn; read "
                         f"both again")
    if not least < loaded:
        raise ValueError(f"{LABELS['least']}: must be below the {show(loaded, 'V')} while it plays, or this machine has nothing "
                         f"in hand to take")
    if not held > playing:
        raise ValueError(f"{LABELS['held']}: must be above the {show(playing, 'A')} playing, since a held motor draws more; read "
                         f"it again")
    pull = read_percent(texts["pull"], LABELS["pull"])
    if not 0.05 <= pull <= 0.95:
        raise ValueError(f'{LABELS["pull"]}: write 5 % to 95 %, for example "{_LIKE["pull"]}"')
    return {"supply": supply, "loaded": one_reading(typed["loaded"], quantity="voltage", instrument=volts),
            "least": one_reading(typed["least"], quantity="voltage", instrument=volts),
            "playing": one_reading(typed["playing"], quantity="current", instrument=amps),
            "held": held, "wish": texts["wish"], "pull": pull}


def warnings(found, wish):
    """What a host must know before the resistors go into the tin, in plain words.

    Parameters
    ----------
    found : sequence of TiredSupply
    wish : str

    Yields
    ------
    str
    """
    hot = [one for one in found if one.rating is not None and one.rating > SMALL]
    if hot:
        names, most = ", ".join(show_exact(one.resistance, "ohm") for one in hot), max(one.power for one in hot)
        yield (f"{names}: if somebody holds the motor, up to {show_watts(most)} turn into heat in it. A {SMALL.m_as('W'):g} W part would burn; a "
               "larger one still gets hot: out of reach of fingers and plastic")
    weak = [one for one in found if one.pull < WEAK_PULL]
    if weak and wish == PLAYING:
        yield (f"{', '.join(show_exact(one.resistance, 'ohm') for one in weak)}: {100 * min(one.pull for one in weak):.0f} % of the starting "
               "pull can be all that is left. If the motor does not start, bridge the resistor with a lead until it turns")
    for one in found:
        name = show_exact(one.resistance, "ohm")
        if one.rating is None:
            yield f"{name}: held, it must stand {show_watts(one.power)}, and nothing on sale stands twice that. Wish for something milder"
        if one.speed == EDGE:
            yield f"{name}: within what your meters can tell, it may hold its speed or not. Put it in and look before the workshop"
        if wish == STARTING and one.speed == LOST:
            yield f"{name}: it also loses its speed while playing. Leave it more pull, or take it as the other fault"


def table_html(found, wish):
    """The tin as a table that prints in grey, a line a resistor, with warnings and the key below; made from escaped parts."""
    rows = [(_label(one), one.speed, f"{100 * one.pull:.0f} %", show_watts(one.power), show_rating(one.rating),
             show_known(one.behind.value, one.behind.expanded, "V"), show(one.looks, "ohm", 2)) for one in found]
    head = ("Label", "The motor", "Starting pull left", "At worst", "Buy", "Supply behind it, playing", "Looks like cells of")
    drops = " or ".join(show_known(one.drop.value, one.drop.expanded, "V") for one in found)
    return (tin_table("The tin: a resistor behind sound cells", head, rows)
            + take_care(warnings(found, wish))
            + "<p>Solder it into the lead behind the cells or the adapter, and say nothing. At worst is with the motor held; buy at least twice "
              "those watts (common practice). A good reading lies within the ± (about 95 %).</p>"
            f"<p>The key: with nothing drawn the volts are as good as new, so whoever reads only those clears the supply. Fresh "
            f"cells change nothing. Straight across cells or adapter, playing, the volts hold; across the resistor stand {escape(drops)}. "
            f"Tired cells would sag themselves.</p>")


def to_buy(found):
    """The resistors of the tin, as a shop has them.

    Parameters
    ----------
    found : sequence of TiredSupply

    Returns
    -------
    tuple of str
    """
    return tuple(f"{_label(one)}: {show_rating(one.rating)}" for one in found)


class _TiredTin:
    """Boxes filled from what was kept; the table below."""

    def __init__(self):
        self.boxes = {name: text_box(label, placeholder=f"such as {like}") for name, label, like in _BOXES}
        for box in self.boxes.values():
            on_enter(box, self.reckon)
        self.boxes["wish"] = above(ipywidgets.Dropdown, "What the table should see: it", options=(PLAYING, STARTING))
        self.error, self.note, self.answer = alert_area(), alert_area(), status_area()
        self.view = card(row(*self.boxes.values()), row(button("Reckon the tin", self.reckon)), self.error, self.note, self.answer)
        earlier, note = store.kept(my_guesses(), group="tin", key="tired")
        self.note.value = caution(note)
        for name, text in (earlier[-1] if earlier else {}).items():
            if name in self.boxes and (name != "wish" or text in (PLAYING, STARTING)):
                self.boxes[name].value = str(text)

    def reckon(self):
        """Make the table, or say which entry is wrong; what was typed stays and is kept."""
        texts = {name: (box.value or "").strip() for name, box in self.boxes.items()}
        self.note.value = caution(store.keep(my_guesses(), texts, group="tin", key="tired"))
        try:
            missing = next((name for name, text in texts.items() if not text), None)
            if missing:
                raise ValueError(f'{LABELS[missing]}: nothing there yet, write for example "{_LIKE[missing]}"')
            made = table_html(tired_supplies(**read_wish(texts)), texts["wish"])
        except ValueError as error:
            self.error.value, self.answer.value = trouble(str(error)), ""
            return
        self.error.value, self.answer.value = "", made


def _one(resistance, supply, loaded, least, playing, rest):
    drop = drop_across(resistance=resistance, tolerance=TOLERANCE, current=playing)
    behind = loaded - drop
    speed = HOLDS if behind.lies_above(least) else LOST if least.lies_above(behind) else EDGE
    power, rating = worst_case(resistance=resistance, supply=supply, rest=rest)
    pull = float(starting_torque_ratio(source_resistance=_NOTHING, motor_resistance=rest, contact_resistance=resistance))
    looks = contact_resistance(voltage_drop=supply - behind.value, current=playing.value)
    return TiredSupply(resistance, behind, drop, looks, speed, pull, power, rating)


def _label(one):
    return f"tired supply, {show_exact(one.resistance, 'ohm')}, {100 * TOLERANCE:.0f} %"


def _meter(texts, name, unit):
    meter = Instrument(LABELS[name], read_accuracy(texts[name], LABELS[name]), "")
    if any(entry.digits for entry in meter.accuracy) or not all(
            entry.fixed is None or entry.fixed.is_compatible_with(unit) for entry in meter.accuracy):
        raise ValueError(f'{LABELS[name]}: write its limits with their unit, for example "{_LIKE[name]}"')
    return meter
