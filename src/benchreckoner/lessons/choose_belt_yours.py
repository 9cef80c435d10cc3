"""Book 04, the reader's own belt on their own drive: numbers typed, and its line with its reasons."""

from dataclasses import dataclass

import ipywidgets

from benchreckoner.bench.belt_bag import Belt, rank_bag, two_pulley_drive
from benchreckoner.bench.belt_order import FITS, what_to_order
from benchreckoner.bench.belt_priors import BEARINGS
from benchreckoner.bench.belt_sheet import APART
from benchreckoner.bench.uncertain import within
from benchreckoner.lessons.belt_path_yours import THICKNESSES
from benchreckoner.lessons.choose_belt import described, of_hundred
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.belt_creep import driven_speed
from benchreckoner.physics.belt_path import two_pulley_path
from benchreckoner.physics.belt_sizes import MEASURES, SHAPES
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import above, row, text_box
from benchreckoner.units import Q, read_percent, read_quantity, show

_GROUP, _KEY = "readings", "belt-choice-own"
_PATH_LIMIT = Q(0.8, "mm")  # three threads and their marks: common practice
_USUAL_CREEP = 0.007
_MOTOR_SPEED = Q(2400, "turn/min")  # sets how hard the belt is flung, which hardly counts, and drops out of the speed's error
_UNKNOWN_HARDNESS = "not stated"


@dataclass(frozen=True)
class _Box:
    """One box: its unit, an example, whether it may stay empty, and between which values battery-powered machines lie."""

    unit: str
    example: str
    optional: bool = False
    usual: Q | None = None


_THICKNESS = _Box("mm", "1.2 mm", usual=THICKNESSES)
_DRIVE = {"Thread along the seats": _Box("mm", "227.2 mm", optional=True), "Motor's seat": _Box("mm", "6 mm"), "Wheel's seat": _Box("mm", "60 mm"),
          "Middle to middle": _Box("mm", "55 mm"), "Thickness of the right belt": _THICKNESS,
          "Load at the wheel": _Box("N*m", "1.0 mN·m", usual=Q([1e-5, 0.1], "N*m")),
          "Motor constant": _Box("V*s/rad", "0.0130 V·s/rad", usual=Q([5e-4, 0.5], "V*s/rad")),
          "Motor's current, belt off": _Box("A", "20 mA", usual=Q([1e-3, 2], "A")),
          "Trimmer takes": _Box("%", "3 %")}
_BELT = {"Thickness": _THICKNESS, "Width, if flat": _Box("mm", "4 mm", optional=True), "Size": _Box("mm", "69 mm")}
_CHOICES = {"Motor's bearing": BEARINGS, "Section": SHAPES, "Sold by": MEASURES,
            "Shore A": (_UNKNOWN_HARDNESS, "40", "45", "50", "55", "60", "65", "70", "75")}
_FIRST = {"Motor's bearing": "oiled", "Section": "square", "Sold by": "inside diameter", "Shore A": "60",
          **{name: box.example for name, box in _DRIVE.items()}}


def my_belt():
    """A small form for a belt of the reader's own, answered with its line.

    Returns
    -------
    ipywidgets.VBox
    """
    return OwnBelt().card


class OwnBelt(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {name: text_box(name, placeholder=f"such as {box.example}") for name, box in {**_DRIVE, **_BELT}.items()}
        boxes.update({name: above(ipywidgets.Dropdown, name, options=choices) for name, choices in _CHOICES.items()})
        drive, belt = (*_DRIVE, "Motor's bearing"), ("Section", *_BELT, "Sold by", "Shore A")
        parts = (ipywidgets.HTML("<strong>The drive</strong>"), row(*(boxes[name] for name in drive)),
                 ipywidgets.HTML("<strong>The belt</strong>"), row(*(boxes[name] for name in belt)))
        super().__init__(boxes, parts, ask="Does it fit?", said_of=said_of, path=my_guesses, group=_GROUP, key=_KEY, first=_FIRST)


def said_of(texts):
    """What a typed belt's line says, and what to order where it hardly fits, in sentences of plain text.

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
    drive, belt = _drive(texts), _belt(texts)
    line = rank_bag(drive=drive, belts=[belt]).ranked[0]
    if line.refused:
        return (line.refused,)
    first = f"This belt, {described(belt)}: fits in {of_hundred(100 * line.probability)} of 100 draws."
    if line.probability >= FITS:
        return first, *(line.reasons or ("Hardly anything is against it.",))
    order = what_to_order(drive=drive, thicknesses=Q.from_list([_read(texts, _DRIVE, "Thickness of the right belt")]), hardness=60)
    return first, *line.reasons, "With a square belt of the right thickness in its place, 60 Shore A:", *order.words


def _drive(texts):
    motor, wheel, apart, right, load, constant, idle = (_read(texts, _DRIVE, name) for name in (
        "Motor's seat", "Wheel's seat", "Middle to middle", "Thickness of the right belt", "Load at the wheel", "Motor constant",
        "Motor's current, belt off"))
    thread = _read(texts, _DRIVE, "Thread along the seats")
    trimmer = read_percent(texts["Trimmer takes"], "Trimmer takes")
    if not 0 < trimmer < 1:
        raise ValueError('Trimmer takes: must be above 0 % and below 100 %, either way, write for example "3 %"')
    known = None if thread is None else within(_checked(thread, motor, wheel, apart), (_PATH_LIMIT / thread).m_as(""), "mm")
    speed = driven_speed(speed=_MOTOR_SPEED, driving_radius=(motor + right) / 2, driven_radius=(wheel + right) / 2, creep=_USUAL_CREEP)
    return two_pulley_drive(motor_seat=motor, wheel_seat=wheel, distance=apart, seat_path=known, load=within(load, 0.15, "N*m"),
                            motor_constant=within(constant, 0.03, "V*s/rad"), no_load_current=within(idle, 0.03, "A"),
                            motor_speed=_MOTOR_SPEED, wheel_speed=speed, trimmer=trimmer, bearing=texts["Motor's bearing"])


def _checked(thread, motor, wheel, apart):
    """The thread's length, unless the pulleys say something quite different."""
    path = two_pulley_path(first_diameter=motor, second_diameter=wheel, distance=apart).length.to("mm")
    if not abs((thread / path).m_as("") - 1) < APART:
        raise ValueError(f"Thread along the seats: {thread.to('mm'):.4g~P}, but the pulleys ask for {path:.4g~P}. One of the four is wrong; if in doubt, "
                         "leave the thread's box empty")
    return thread


def _belt(texts):
    section, thick, wide = texts["Section"], _read(texts, _BELT, "Thickness"), _read(texts, _BELT, "Width, if flat")
    if section == "flat" and wide is None:
        raise ValueError('Width, if flat: nothing there yet, write for example "4 mm"')
    hardness = None if texts["Shore A"] == _UNKNOWN_HARDNESS else float(texts["Shore A"])
    return Belt("This belt", section, thick, _read(texts, _BELT, "Size"), texts["Sold by"], wide if section == "flat" else None, hardness)


def _read(texts, boxes, name):
    """One box as typed, above zero; None for an empty one that may be empty."""
    box = boxes[name]
    if not texts[name]:
        if box.optional:
            return None
        raise ValueError(f'{name}: nothing there yet, write for example "{box.example}"')
    found = read_quantity(texts[name], box.unit, name).quantity
    if not found.magnitude > 0:
        raise ValueError(f'{name}: must be above zero, write for example "{box.example}"')
    if box.usual is not None and not box.usual[0] <= found <= box.usual[1]:
        low, high = (show(edge, box.unit) for edge in box.usual)
        raise ValueError(f'{name}: {texts[name]} is outside {low} to {high}; was a unit mistyped, or milli left out? Write for example '
                         f'"{box.example}"')
    return found
