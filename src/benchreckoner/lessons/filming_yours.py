"""Book 07, the reader's own lamps, camera and machine: which shutter, which frame rate, what the film will show."""

import re

import ipywidgets

from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.vocabulary import ON_BENCH_SUPPLY
from benchreckoner.lessons.filming import shutter
from benchreckoner.lessons.your_bench import my_guesses, my_sheet
from benchreckoner.physics.camera import flicker_free_exposures, flicker_seen, ripple_left, smear
from benchreckoner.physics.plain import count
from benchreckoner.physics.turning import seen_speed
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import row, text_box
from benchreckoner.units import Q, read_quantity, show

_GROUP, _KEY = "readings", "my-film"
_SAMPLE = {"Mains": "50 Hz", "Frames a second": "25", "Shutter": "1/50 s", "Marks on each pulley": "3"}
_SHUTTER = re.compile(r"1\s*/\s*(\d+(?:[.,]\d+)?)\s*s?")
_FEW = 6


def my_film():
    """A small form for the reader's lamps and camera; the speeds come from the sheet on the desk.

    Returns
    -------
    ipywidgets.VBox
    """
    return FilmForm().card


class FilmForm(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {name: text_box(name, placeholder=f"such as {sample}") for name, sample in _SAMPLE.items()}
        told = ipywidgets.HTML("The turning speeds are those on your sheet.")
        super().__init__(boxes, (told, row(*boxes.values())), ask="What will the film show?", said_of=lambda texts: said_of(texts, my_sheet()),
                         path=my_guesses, group=_GROUP, key=_KEY, first=_SAMPLE)


def said_of(texts, sheet, parts=None):
    """What a film will show, in sentences of plain text.

    Parameters
    ----------
    texts : dict of str
        As typed, by the names of the form's boxes.
    sheet : Sheet
        Its speeds are taken, the latest of each part.
    parts : tuple of PartsReport, optional
        What `judge_parts` gave, where that is known already.

    Returns
    -------
    tuple of str

    Raises
    ------
    ValueError
        Names the box, says what is wrong and what to write.
    """
    mains, exposure = _above(read_quantity(texts["Mains"], "Hz", "Mains").quantity, "Mains"), _exposure(texts["Shutter"])
    rate = Q(whole_number(texts, "Frames a second"), "1/s")
    if exposure.m_as("s") * rate.m_as("1/s") > 1 + 1e-9:
        raise ValueError(f"Shutter: {shutter(exposure)} is longer than a frame at {rate.magnitude} frames a second; write a shorter one")
    marks = count(whole_number(texts, "Marks on each pulley"), "Marks on each pulley")
    return (*_lamp(mains, exposure, rate), *(_turning(part, speed, marks, rate, exposure) for part, speed in speeds(sheet, parts).items()))


def speeds(sheet, parts=None):
    """The latest speed of each part in the machine, read or judged; standing ones, and a bare motor on a bench supply, left out.

    Parameters
    ----------
    sheet : Sheet
    parts : tuple of PartsReport, optional
        What `judge_parts` gave, where that is known already: a motor's speed follows from what it drives.

    Returns
    -------
    dict of Quantity [turn/min]
    """
    judged = [one for report in parts or judge_parts(sheet) for one in report.judgements]
    found = {one.part: one.known.value for one in reversed(judged)
             if one.kind == "motor" and one.quantity == "speed" and one.known is not None}
    readings = sorted(sheet.readings, key=lambda reading: sheet.stages.index(reading.stage))
    found |= {reading.part: reading.value.quantity for reading in readings if reading.quantity == "speed"
              and reading.condition not in ON_BENCH_SUPPLY and reading.value.quantity.check("[frequency]")}  # a tape's cm/s turn nothing
    return {part: speed for part, speed in found.items() if speed.m_as("turn/min") > 0}


def _lamp(mains, exposure, rate):
    free = flicker_free_exposures(mains_frequency=mains, frame_rate=rate)
    listed = ", ".join(shutter(one) for one in free[:_FEW])
    yield (f"Lamps on {show(mains, 'Hz', digits=2)}: free of flicker are {listed}." if listed else
           f"Lamps on {show(mains, 'Hz', digits=2)}: at {rate.magnitude} frames a second no shutter is free of flicker. Take fewer frames, or daylight.")
    left = ripple_left(frequency=2 * mains, exposure=exposure)
    if left < 1e-3:
        yield f"Your {shutter(exposure)} leaves nothing of their swing."
        return
    seen = abs(flicker_seen(mains_frequency=mains, frame_rate=rate).m_as("Hz"))
    way = "the bands stand still" if seen < 1e-3 else f"it seems to come and go {seen:.3g} times a second"
    yield f"Your {shutter(exposure)} leaves {100 * left:.2g} % of their swing; {way}."


def _turning(part, speed, marks, rate, exposure):
    seen = seen_speed(speed=speed, marks=marks, rate=rate).m_as("turn/min")
    blur = 360 * smear(speed=speed, exposure=exposure).m_as("turn")
    true = speed.m_as("turn/min")
    what = ("seems to stand still" if abs(seen) < 0.05 else "is seen as it turns" if abs(seen - true) < 0.01 * true else
            f"seems to turn {'forwards' if seen > 0 else 'backwards'} at {abs(seen):.3g} r/min")
    marked = f"{marks} mark{'' if marks == 1 else 's'}"
    lost = " That smears the marks into each other: film with a shorter shutter, or show the speed in numbers." if blur > 180 / marks else ""
    return (f"{part}, {show(speed, 'turn/min', digits=4)}, with {marked}: {what}, and each mark turns by {blur:.3g} degrees while the "
            f"shutter is open.{lost}")


def _exposure(text):
    written = _SHUTTER.fullmatch(text)
    seconds = Q(1 / float(written[1].replace(",", ".")), "s") if written and float(written[1].replace(",", ".")) > 0 else None
    return _above(read_quantity(text, "s", "Shutter").quantity, "Shutter") if seconds is None else seconds


def _above(value, name):
    if not value.magnitude > 0:
        raise ValueError(f'{name}: must be above zero, write for example "{_SAMPLE[name]}"')
    return value


def whole_number(texts, name):
    """A whole number above zero out of the box of this name, or a ValueError that shows what to write."""
    if not texts[name].isdecimal() or not 0 < int(texts[name]) <= 10000:
        raise ValueError(f'{name}: write a whole number above zero, for example "{_SAMPLE[name]}"')
    return int(texts[name])
