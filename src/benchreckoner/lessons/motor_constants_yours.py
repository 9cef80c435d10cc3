"""Book 05, the reader's own motor: runs typed in, constants with their uncertainty, and the next run worth taking."""

from html import escape

import ipywidgets

from benchreckoner.bench.motor_fit import Run, fit_motor
from benchreckoner.bench.motor_run import HELD, LOADED, NO_LOAD
from benchreckoner.bench.uncertain import Known, propagate, within
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.motors import shaft_torque
from benchreckoner.physics.turning import ripple_speed
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import row, text_box
from benchreckoner.units import Q, read_percent, read_quantity, show, show_known

_GROUP, _KEY = "readings", "motor-constants"
_BRUSHES = 2
_MOST_VOLTS = 63  # low voltage, as the cautions have it
_TURNING = (("No load", NO_LOAD), ("First load", LOADED), ("Second load", LOADED))
_SAMPLE = {"volts": "such as 6.00 V", "current": "such as 85 mA", "speed": "such as 3470 r/min or 347 Hz"}
_KINDS = {"volts": "V", "current": "A", "speed": "turn/min"}
_USUAL = {"volts good to": "1 %", "current good to": "1.5 %", "speed good to": "1 %"}


def my_motor():
    """A small form for the runs of one motor, with its constants.

    Returns
    -------
    ipywidgets.VBox
    """
    return MotorRuns().card


class MotorRuns(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {"Held: volts": text_box("Held: volts", placeholder="such as 1.50 V"),
                 "Held: currents": text_box("Held: currents, with ; between", placeholder="such as 101 mA; 97 mA; 104 mA")}
        rows = [row(*boxes.values())]
        for name, _ in _TURNING:
            own = {f"{name}: {what}": text_box(f"{name}: {what}", placeholder=sample) for what, sample in _SAMPLE.items()}
            boxes.update(own)
            rows.append(row(*own.values()))
        last = {"segments": text_box("Segments, if ripple is typed", placeholder="such as 3"),
                **{name: text_box(name.capitalize(), placeholder=text) for name, text in _USUAL.items()}}
        boxes.update(last)
        care = ipywidgets.HTML(f"<strong>Take care:</strong> {escape(CAUTION)}")
        super().__init__(boxes, (care, *rows, row(*last.values())), ask="What motor is it?", said_of=said_of, path=my_guesses, group=_GROUP, key=_KEY, first=_USUAL)


CAUTION = ("bench supply straight on the motor's terminals, 63 V at most, the governor taken off. Hold the shaft for less than two seconds at a "
           "time, on 1 to 2 V: a held motor turns all it takes into heat.")


def said_of(texts):
    """What the runs say, in sentences of plain text.

    Parameters
    ----------
    texts : dict of str
        As typed, by the names of the form's boxes; empty ones are runs not taken.

    Returns
    -------
    tuple of str

    Raises
    ------
    ValueError
        Names the box, says what is wrong and what to write.
    """
    meter = _Meter(texts)
    runs = [*_held(texts, meter), *(run for name, kind in _TURNING for run in _turning(name, kind, texts, meter))]
    if not runs:
        raise ValueError('No load: nothing typed yet; begin with volts, current and speed of a run without a load, such as "6.00 V"')
    fit = fit_motor(runs)
    return (*_constants(fit), *_loads(runs, fit), *fit.reasons, *(f"Worth taking next: {want}" for want in fit.wants))


class _Meter:
    """Readings of one meter share its percentage; each has half its last digit for itself."""

    def __init__(self, texts):
        self.texts, self.shared = texts, {}
        for what, unit in _KINDS.items():
            limit = read_percent(texts[f"{what} good to"], f"{what.capitalize()} good to")
            if not 0 < limit < 0.5:
                raise ValueError(f'{what.capitalize()} good to: must be above 0 % and below 50 %, write for example "{_USUAL[f"{what} good to"]}"')
            self.shared[what] = within(Q(1, unit), limit, unit).number

    def read(self, text, what, name):
        """One reading as typed."""
        unit = _KINDS[what]
        typed = self.ripple(text, name) if what == "speed" and text.casefold().endswith("hz") else None
        if typed is None:
            found = read_quantity(text, unit, name)
            typed = found.quantity.m_as(unit), found.half_digit.m_as(unit)
        value, half = (float(one) for one in typed)
        if not value > 0:
            stands = '; a shaft that stands still belongs to "Held"' if what == "speed" else ""
            raise ValueError(f"{name}: must be above zero, write it without a sign{stands}")
        if what == "volts" and value > _MOST_VOLTS:
            raise ValueError(f'{name}: these books end at {_MOST_VOLTS} V, and small motors far below; write for example "6.00 V"')
        return Known(value * self.shared[what] + within(Q(half, unit), 1.0, unit).number - half, unit)

    def ripple(self, text, name):
        """Turns a minute, and half a digit of them, from the ripple's frequency."""
        if not self.texts["segments"].isdigit() or int(self.texts["segments"]) < 2:
            raise ValueError(f'Segments: {name} is typed as ripple, so write how many segments the commutator has, for example "3"')
        found = read_quantity(text, "Hz", name)
        if not found.quantity.magnitude > 0:
            raise ValueError(f'{name}: must be above zero, write for example "347 Hz"')
        return [ripple_speed(frequency=one, brushes=_BRUSHES, segments=int(self.texts["segments"])).m_as("turn/min")
                for one in (found.quantity, found.half_digit)]


def _held(texts, meter):
    currents = [text.strip() for text in texts["Held: currents"].split(";") if text.strip()]
    if not currents and not texts["Held: volts"]:
        return []
    if not currents or not texts["Held: volts"]:
        raise ValueError('Held: write both the volts, such as "1.50 V", and the currents, such as "101 mA; 97 mA"')
    volts = meter.read(texts["Held: volts"], "volts", "Held: volts")
    return [Run(HELD, volts, meter.read(text, "current", "Held: currents")) for text in currents]


def _turning(name, kind, texts, meter):
    """The run, if it was typed; its speed may be missing."""
    own = {what: texts[f"{name}: {what}"] for what in _KINDS}
    if not any(own.values()):
        return []
    for what in ("volts", "current"):
        if not own[what]:
            raise ValueError(f'{name}: {what}: nothing there yet, write for example "{_SAMPLE[what].removeprefix("such as ")}"')
    read = {what: meter.read(text, what, f"{name}: {what}") for what, text in own.items() if text}
    return [Run(kind, read["volts"], read["current"], read.get("speed"))]


def _constants(fit):
    for known, name, unit in ((fit.winding_resistance, "Winding", "ohm"), (fit.motor_constant, "Motor constant", "V*s/rad"),
                              (fit.no_load_current, "Current for its own friction", "A")):
        yield f"{name}: {show_known(known.value, known.expanded, unit)}." if known else f"{name}: these runs cannot tell."


def _loads(runs, fit):
    """Torque that each load asked for, where everything for it is known."""
    if fit.motor_constant is None or fit.no_load_current is None:
        return
    for run in runs:
        if run.kind == LOADED and run.current.lies_above(fit.no_load_current):
            torque = propagate(lambda current, idle, constant: shaft_torque(current=current, no_load_current=idle, motor_constant=constant),
                               "N*m", current=run.current, idle=fit.no_load_current, constant=fit.motor_constant)
            yield f"At {show(run.current.value, 'A')} its shaft had {show_known(torque.value, torque.expanded, 'N*m')} for the load."
