"""Book 05, warm: the reader's own motor, cold and warm, and what of its change of speed is copper, magnet, or neither."""

import ipywidgets
import uncertainties

from benchreckoner.bench.uncertain import Known
from benchreckoner.bench.warm_sort import Run, sort_warm
from benchreckoner.lessons.warming import PATHS, STORES
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.warming import two_time_constants
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import above, row, text_box
from benchreckoner.units import read_percent, read_quantity

# What a magnet loses for each kelvin, and how far that may be off: the first and last FOUND as single values, the middle as a span;
# a tenth either way for the single ones is our own choice.
MAGNETS = {"ferrite (black, brittle), the usual one": (-0.002, 0.0002), "neodymium (plated, very strong)": (-0.0011, 0.0002),
           "alnico (grey metal)": (-0.0002, 0.00002), "not known": (-0.0011, 0.0011)}
_GROUP, _KEY = "readings", "warming"
_LIMIT = 3**0.5  # a limit a is the half-width of an even spread: u = a / sqrt(3)
_ROWS = (
    ("Cold, at rest", (("Temperature", "degC", "20 °C"), ("Ohms, probes together", "ohm", "0.2 ohm"), ("Ohms of the motor", "ohm", "15.2 ohm"))),
    ("In the first minute", (("Cold speed", "turn/min", "2400 r/min"), ("Cold motor volts", "V", "4.54 V"), ("Cold current", "A", "85 mA"))),
    ("After half an hour", (("Warm speed", "turn/min", "2398 r/min"), ("Warm motor volts", "V", "4.61 V"), ("Warm current", "A", "89 mA"))),
    ("Stopped", (("First ohms", "ohm", "16.87 ohm"), ("Seconds after stopping", "s", "5 s"), ("Late ohms, one to two minutes after", "ohm", "16.61 ohm"))),
    ("The meter", (("Ohms good to", "%", "0.8 %"), ("Volts good to", "%", "0.5 %"), ("Current good to", "%", "1 %"))),
)
_UNITS = {name: unit for _, boxes in _ROWS for name, unit, _ in boxes}


def cold_and_warm():
    """A form for one motor read cold and warm, with what changed its speed.

    Returns
    -------
    ipywidgets.VBox
    """
    return ColdAndWarm().card


class ColdAndWarm(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes, rows = {}, []
        for heading, asked in _ROWS:
            own = {name: text_box(name, placeholder=f"such as {example}") for name, _, example in asked}
            boxes.update(own)
            rows += [ipywidgets.HTML(f"<strong>{heading}</strong>"), row(*own.values())]
        boxes["Magnet"] = above(ipywidgets.Dropdown, "Magnet", options=tuple(MAGNETS))
        super().__init__(boxes, (*rows, row(boxes["Magnet"])), ask="What changed it?", said_of=said_of, path=my_guesses, group=_GROUP, key=_KEY)


def said_of(texts):
    """What changed the speed between cold and warm, in sentences of plain text.

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
    shared = {unit: uncertainties.ufloat(0, read_percent(texts[name], name) / _LIMIT)
              for unit, name in (("ohm", "Ohms good to"), ("V", "Volts good to"), ("A", "Current good to"))}
    known = {name: _reading(texts[name], unit, name, shared) for name, unit in _UNITS.items() if unit != "%"}
    leads = known["Ohms, probes together"]
    winding = {name: known[name] - leads for name in ("Ohms of the motor", "First ohms", "Late ohms, one to two minutes after")}
    for name, ohms in winding.items():
        if not ohms.plain > 0:
            raise ValueError(f"{name}: no more than the probes alone, so nothing is left of the motor; write for example \"15.2 ohm\"")
    first, late = winding["First ohms"], winding["Late ohms, one to two minutes after"]
    if late.lies_above(first):
        raise ValueError("First ohms: fewer than the late ones, and a winding that has stopped only cools; were the two swapped, or did the brushes "
                         "stand at another mark? Write for example \"16.87 ohm\"")
    runs = [Run(known[f"{when} speed"], known[f"{when} motor volts"], known[f"{when} current"]) for when in ("Cold", "Warm")]
    for when, run, ohms in zip(("Cold", "Warm"), runs, (winding["Ohms of the motor"], winding["First ohms"])):
        if not run.volts.plain > run.amps.plain * ohms.plain:
            raise ValueError(f"{when} motor volts: current and ohms take more than that by themselves, so it could not turn; "
                             "read the volts at the motor's terminals while it runs")
    loss, off = MAGNETS[texts["Magnet"]]
    return sort_warm(cold=runs[0], warm=runs[1], cold_ohms=winding["Ohms of the motor"], first_ohms=first,
                     late_ohms=late, waited=known["Seconds after stopping"],
                     time_constant=_cooling(), temperature=known["Temperature"],
                     magnet_loss=Known(uncertainties.ufloat(loss, off / _LIMIT), "1/delta_degC")).sentences


def _cooling():
    """In how many seconds a small winding cools towards its shell: our example's, half as much either way (our choice)."""
    seconds = float(two_time_constants(**PATHS, **STORES)[0].m_as("s"))
    return Known(uncertainties.ufloat(seconds, 0.5 * seconds / _LIMIT), "s")


def _reading(text, unit, name, shared):
    """A reading as typed: what one meter's readings share, and half the last digit of its own."""
    typed = read_quantity(text, unit, name)
    value, step = float(typed.quantity.m_as(unit)), "delta_degC" if unit == "degC" else unit
    if unit == "degC":
        if not -20 <= value <= 60:
            raise ValueError(f'{name}: no bench is that cold or hot; write for example "20 °C"')
    elif value < 0 or (value == 0 and name not in ("Ohms, probes together", "Seconds after stopping")):
        raise ValueError(f'{name}: must be above zero; write for example "{_example(name)}"')
    if name == "Seconds after stopping" and value > 60:
        raise ValueError(f'{name}: by then the winding has cooled to the shell; read within a minute, write for example "5 s"')
    digit = uncertainties.ufloat(0, float(typed.half_digit.m_as(step)) / _LIMIT)
    return Known(value * (1 + shared.get(unit, 0)) + digit, unit)


def _example(name):
    return next(example for _, boxes in _ROWS for box, _, example in boxes if box == name)
