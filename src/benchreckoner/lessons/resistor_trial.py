"""One thing to do at once: a resistor in series with the cells of a sound machine, reckoned, measured, compared."""

from dataclasses import dataclass
from html import escape

import ipywidgets

from benchreckoner.bench.chain import SOURCES, STANDING, feed_parts
from benchreckoner.bench.reasons import told
from benchreckoner.bench.tin import TOLERANCE, drop_across, worst_case
from benchreckoner.bench.uncertain import Known, Readings, one_reading
from benchreckoner.lessons.your_bench import my_guesses, my_sheet, readings_form
from benchreckoner.physics.preferred import nearest_preferred
from benchreckoner.show import store
from benchreckoner.show.form import EntryForm, Field
from benchreckoner.units import Q, read_quantity, show, show_exact

_SHARE = 0.05  # of the supply: enough to read well, too little to stop the machine


@dataclass(frozen=True)
class Plan:
    """Which resistor to take for this machine, and what it should show."""

    resistance: Q
    rating: Q
    held_power: Q
    held_known: bool
    current: Known
    expected: Known


def plan(sheet):
    """Choose the resistor for one machine.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    Plan

    Raises
    ------
    ValueError
        If the sheet lacks what is needed; the message says what to read.
    """
    source, motor, _ = feed_parts(sheet)
    if source is None or motor is None:
        raise ValueError("the sheet needs a part of the kind \"cells\" or \"adapter\" and one of the kind \"motor\"")
    volts, current, held = machine_readings(sheet)
    if volts is None or current is None or not current.plain > 0:
        raise ValueError(f"read the volts of {source.name} (off) and the current of {motor.name} (playing), "
                         "and enter them in the form below")
    resistance = nearest_preferred(value=(_SHARE * volts / current.value).to("ohm"))
    rest = (volts / held.value).to("ohm") if held is not None and held.plain > 0 else Q(0, "ohm")
    power, rating = worst_case(resistance=resistance, supply=volts, rest=rest)
    if rating is None and held is None:
        raise ValueError(f"read the current of {motor.name} with its pulley held, 2 s at most, and enter it in the form "
                         "below: without it nobody knows how many watts the resistor must stand")
    if rating is None:
        raise ValueError(f"held, the resistor would have to stand {show(power, 'W')}: too much for a trial on the table")
    expected = drop_across(resistance=resistance, tolerance=TOLERANCE, current=current)
    return Plan(resistance, rating, power, held is not None, current, expected)


def machine_readings(sheet):
    """The newest readings that say what a machine asks of a resistor in its feed.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    supply : Quantity [V] or None
        Read with nothing drawn if possible, else as written on the machine.
    playing, held : Known or None
        Its current.
    """
    readings = Readings(sheet)
    source, motor, _ = feed_parts(sheet)
    ends = [part.name for part in (motor, source) if part is not None]
    ahead = ends[-1:] if source is not None else []
    supply = _latest(sheet, readings, ahead, "voltage", ["off"]) or _latest(sheet, readings, ahead, "voltage", ["playing"])
    return (supply.value if supply is not None else sheet.machine.supply,
            _latest(sheet, readings, ends, "current", ["playing"]), _latest(sheet, readings, ends, "current", STANDING))


def trial():
    """The plan in words, and a form that compares the reader's reading with it."""
    try:
        chosen = plan(my_sheet())
    except ValueError as error:
        missing = ipywidgets.HTML(f"<p><strong>Not yet:</strong> {escape(str(error))}. Then run this cell again.</p>")
        return ipywidgets.VBox([missing, readings_form(quantities=("current", "voltage"), kinds=(*SOURCES, "motor"))],
                               layout={"overflow": "visible"})
    return ipywidgets.VBox([ipywidgets.HTML(words(chosen)), _form(chosen)], layout={"overflow": "visible"})


def words(chosen):
    """The plan as HTML made from escaped parts."""
    worst = "if the motor is held" if chosen.held_known else "in the worst case, a motor without ohms"
    return (f"<p>For this machine: a <strong>{escape(show(chosen.resistance, 'ohm', digits=2))}</strong> resistor, rated "
            f"<strong>{escape(show_exact(chosen.rating, 'W'))}</strong> or more. "
            f"Playing, the motor draws {escape(told(chosen.current))}, so the resistor should take "
            f"<strong>{escape(told(chosen.expected))}</strong>; {worst}, it must stand "
            f"{escape(show(chosen.held_power, 'W', digits=2))}, and twice that is common practice. Do not hold the motor with it in. "
            f"The ± holds the resistor's tolerance of {100 * TOLERANCE:.0f} % and your meter's.</p>")


def compare(chosen, drop):
    """Whether a reading agrees with the plan, in words.

    Parameters
    ----------
    chosen : Plan
    drop : Known
        Read across the resistor.

    Returns
    -------
    str
    """
    gap = drop - chosen.expected
    if not gap.differs():
        return (f"Reckoned {told(chosen.expected)}, read {told(drop)}: they agree within what you can know. "
                "You have just found a known resistance by its drop.")
    way = "more" if gap.plain > 0 else "less"
    return (f"Reckoned {told(chosen.expected)}, read {told(drop)}: {way} than the uncertainty explains. "
            "Check the resistor's value, the meter's range, and whether the current was still the same.")


def _form(chosen):
    sheet = my_sheet()
    fields = (Field("value", "Volts across the resistor, playing", placeholder=f"such as {show(chosen.expected.value, 'V', 2)}",
                    required=True),
              Field("instrument", "Instrument", "choice", tuple(sheet.instruments), required=True))
    said = {"last": "Nothing read yet."}

    def save(entries):
        typed = read_quantity(entries["value"], "V", "Volts across the resistor")
        if typed.quantity.magnitude < 0:
            raise ValueError("Volts across the resistor: the probes are the other way round; swap them, or write it "
                             f"without the sign, for example \"{entries['value'].strip().lstrip('-−')}\"")
        drop = one_reading(typed, quantity="voltage", instrument=sheet.instruments[entries["instrument"]])
        said["last"] = compare(chosen, drop)
        note = store.keep(my_guesses(), {"read": entries["value"], "reckoned": told(chosen.expected)},
                          group="trial", key="series-resistor")
        return escape(note or "Kept beside your guesses.")

    def undo():
        said["last"] = "Nothing read yet."
        return "Cleared here; what was kept beside your guesses stays."

    return EntryForm(fields, value="value", on_save=save, on_undo=undo, answer=lambda: f"<p>{escape(said['last'])}</p>")


def _latest(sheet, readings, parts, quantity, conditions):
    """The newest value of this kind, by stage, then by the order of conditions and parts."""
    for stage in reversed(sheet.stages):
        for condition in conditions:
            for part in parts:
                known = readings.find(part, quantity, stage, condition)
                if known is not None:
                    return known
    return None
