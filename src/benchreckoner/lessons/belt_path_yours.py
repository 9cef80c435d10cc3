"""Book 04, the reader's own belt: its path from the sheet, to scale, and its length as measured in one way or several."""

from html import escape

import ipywidgets
import numpy as np
from IPython.display import Markdown

from benchreckoner.bench.belt_measure import (CALLIPER_LIMIT, OLD_LIMIT, THREAD_LIMIT, best_of, by_calliper, by_old_belt, by_thread,
                                              size_to_order)
from benchreckoner.bench.belt_path_sheet import likely_slip, path_of
from benchreckoner.lessons.your_bench import my_guesses, my_sheet
from benchreckoner.physics.belt_path import belt_line
from benchreckoner.physics.belt_sizes import INSIDE_CIRCUMFERENCE, INSIDE_DIAMETER, MEASURES, free_length, inside_circumference
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.picture import Axis, Curve, Picture, Point
from benchreckoner.show.still import still
from benchreckoner.show.words import above, row, text_box
from benchreckoner.units import Q, read_quantity, show_known

STRETCH = 0.05
THICKNESSES = Q([0.2, 6], "mm")  # of belts that can be reckoned
_LONGEST = Q(5, "m")  # beyond it a unit was surely mistyped: our own choice
_POOR = 0.1  # share of a path beyond which a size to order says nothing: our own choice
_GROUP, _KEY = "readings", "belt-path"
_RIM = np.linspace(0, 2 * np.pi, 61)
_BOXES = {  # name: label, example, proposal
    "thickness": ("Thickness of the belt", "such as 1.2 mm", ""),
    "thread": ("Thread, once round; several parted by ;", "such as 228.1 mm; 228.6 mm; 228.2 mm", ""),
    "thread thickness": ("Thickness of the thread", "such as 0.3 mm", "0.3 mm"),
    "thread limit": ("A laying is good to within", "such as 1 mm", f"{THREAD_LIMIT:g} mm"),
    "motor": ("Calliper: seat of the motor pulley", "such as 6.0 mm", ""),
    "wheel": ("Calliper: seat of the wheel", "such as 60.0 mm", ""),
    "distance": ("Calliper: middle to middle", "such as 55.0 mm", ""),
    "calliper limit": ("Each is good to within", "such as 0.3 mm", f"{CALLIPER_LIMIT:g} mm"),
    "old": ("Old belt: its inside circumference", "such as 220 mm", ""),
    "offered": ("A belt on offer: its size", "such as 70 mm", ""),
}
_MEASURE = "measure"


def my_path():
    """The path of the sheet's belt, drawn to scale, or what the sheet still needs.

    Returns
    -------
    Still or IPython.display.Markdown
    """
    try:
        return still(sheet_picture(path_of(my_sheet())))
    except ValueError as fault:
        return Markdown(f"Not drawn yet: {escape(str(fault))}.")


def sheet_picture(found):
    """The path of a sheet's belt, to scale.

    Parameters
    ----------
    found : SheetPath

    Returns
    -------
    Picture
    """
    across, up = (places.m_as("mm") for places in belt_line(**found.place))
    x, y = (found.place[name].m_as("mm") for name in ("across", "up"))
    radii = found.place["diameters"].m_as("mm") / 2
    margin = 0.1 * max(np.ptp(across), np.ptp(up))
    rims = [Curve(f"seat of {part.name}", radius * np.cos(_RIM) + middle, radius * np.sin(_RIM) + height, style)
            for part, radius, middle, height, style in zip(found.pulleys, radii, x, y, ("third", "second", *["fourth"] * len(radii)))]
    wraps = ", ".join(f"{part.name} over {wrap:.0f}°" for part, wrap in zip(found.pulleys, found.path.wraps.m_as("deg")))
    told = " ".join((f"The path of {found.belt.name} is {found.path.length.m_as('mm'):.1f} mm along its middle. It lies on {wraps}.",
                     *found.doubts))
    return Picture(
        title=f"The path of {found.belt.name}, to scale", to_scale=True,
        x=Axis("across", "mm", min(across.min(), (x - radii).min()) - margin, max(across.max(), (x + radii).max()) + margin),
        y=Axis("up", "mm", min(up.min(), (y - radii).min()) - margin, max(up.max(), (y + radii).max()) + margin),
        curves=(*rims, Curve("middle of the belt", across, up, "first")),
        points=tuple(Point(part.name, *place, "other") for part, *place in zip(found.pulleys, x, y)),
        sentence=told, alt=f"{len(radii)} circles seen from above, drawn to scale, with the belt as one line round them. {told}")


def measured():
    """A form for one way of measuring the path or several, with the size to order.

    Returns
    -------
    ipywidgets.VBox
    """
    return Measured().card


class Measured(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {name: text_box(label, placeholder=hint) for name, (label, hint, _) in _BOXES.items()}
        boxes[_MEASURE] = above(ipywidgets.Dropdown, "That size is its", options=MEASURES)
        told = ipywidgets.HTML("Fill in the way you measured, or several; leave the others empty.")
        super().__init__(boxes, (told, row(*boxes.values())), ask="How long, and which size?", said_of=said_of, path=my_guesses, group=_GROUP, key=_KEY,
                         first={name: usual for name, (*_, usual) in _BOXES.items()})


def said_of(texts):
    """The path by each way that was filled in, and the size to order, in sentences of plain text.

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
    height = _thickness(texts) / 2
    ways = _ways(texts, height)
    name, clashing = best_of(ways)
    if not ways[name].expanded < _POOR * ways[name].value:
        raise ValueError(f"By {name} the path is {_shown(ways[name])}, too poor to order by; measure nearer, and look at what each is "
                         "good to")
    lines = [f"By {way}: the path is {_shown(known)} along the belt's middle." for way, known in ways.items()]
    if "old belt" in clashing:
        slip = likely_slip(size=_length(texts, "old"), measure=INSIDE_CIRCUMFERENCE, neutral_height=height, path_length=ways[name].value)
        lines.append(f"The old belt and the {name} differ by more than both explain. {slip or 'Go by the other, or measure both again.'}")
    if {"thread", "calliper"} & set(clashing):
        return *lines, ("Thread and calliper differ by more than both explain: one of them holds a slip. Measure both again before you "
                        "order; no size is told until they agree.")
    return *lines, *_to_order(texts, ways[name], name, height)


def _thickness(texts):
    label = _BOXES["thickness"][0]
    thickness = _positive(texts["thickness"], label)
    if not THICKNESSES[0] <= thickness <= THICKNESSES[1]:
        raise ValueError(f'{label}: {THICKNESSES[0]:~P} to {THICKNESSES[1]:~P} can be reckoned, write for example "1.2 mm"')
    return thickness


def _ways(texts, height):
    """The path by each way that was filled in."""
    ways = {}
    lengths = [_positive(one.strip(), _BOXES["thread"][0]) for one in texts["thread"].split(";") if one.strip()]
    if lengths:
        thin = _length(texts, "thread thickness")
        if not thin < min(lengths) / 20:
            raise ValueError(f'Thickness of the thread: {thin:~P} is no thread for such a path, write for example "0.3 mm"')
        ways["thread"] = by_thread(lengths=lengths, limit=_length(texts, "thread limit"), neutral_height=height, thread_thickness=thin)
    if any(texts[name] for name in ("motor", "wheel", "distance")):
        ways["calliper"] = by_calliper(first_diameter=_length(texts, "motor"), second_diameter=_length(texts, "wheel"),
                                       distance=_length(texts, "distance"), limit=_length(texts, "calliper limit"), neutral_height=height)
    if texts["old"]:
        ways["old belt"] = by_old_belt(inside=_length(texts, "old"), limit=Q(OLD_LIMIT, "mm"), neutral_height=height)
    if not ways:
        raise ValueError('Thread, once round: nothing is measured yet, write for example "228.1 mm; 228.6 mm; 228.2 mm"')
    return ways


def _to_order(texts, path, name, height):
    """The size to order for a path, how sure, and how a belt on offer would sit."""
    sizes = [size_to_order(path=path, stretch=STRETCH, measure=measure, neutral_height=height)
             for measure in (INSIDE_DIAMETER, INSIDE_CIRCUMFERENCE)]
    stretch_off = 100 * (path.expanded / path.value).m_as("") * (1 + STRETCH)
    lines = [f"By the {name}, for 5 % of stretch: inside diameter {_shown(sizes[0])}, which is inside circumference {_shown(sizes[1])}. "
             f"What the path leaves open is ± {stretch_off:.1f} % of stretch, so the pull is known to about ± {20 * stretch_off:.0f} %, "
             "the rubber's own scatter left out."]
    if texts["offered"]:
        lines.append(_offered(_length(texts, "offered"), texts[_MEASURE], path, height))
    return tuple(lines)


def _offered(size, measure, path, height):
    """How far a belt on offer would be stretched on this path, or what its size was surely meant to be."""
    slip = likely_slip(size=size, measure=measure, neutral_height=height, path_length=path.value)
    if slip:
        return slip
    free = free_length(inside_circumference=inside_circumference(size=size, measure=measure, neutral_height=height), neutral_height=height)
    stretch, off = 100 * ((path.value / free).m_as("") - 1), 100 * (path.expanded / free).m_as("")
    return f"{size.m_as('mm'):.4g} mm of {measure} would be stretched by {stretch:.1f} ± {off:.1f} % on this path."


def _length(texts, name):
    return _positive(texts[name], _BOXES[name][0])


def _positive(text, label):
    if not text:
        raise ValueError(f'{label}: nothing there yet, write for example "1.2 mm"')
    length = read_quantity(text, "mm", label).quantity
    if not length.magnitude > 0:
        raise ValueError(f'{label}: must be above zero, write for example "1.2 mm"')
    if not length < _LONGEST:
        raise ValueError(f'{label}: {length:.4g~P} is longer than any drive here; were millimetres meant? Write for example "228 mm"')
    return length.to("mm")


def _shown(known):
    return show_known(known.value, known.expanded, "m")
