"""Book 05, the reader's own plate: its size, metal, finish and place, and the margin that it leaves the transistor."""

import ipywidgets

from benchreckoner.lessons.plate import JOINT, MARGIN, TAB, TOUCH
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.dissipation import junction_temperature
from benchreckoner.physics.plates import FINISHES, LYING, METALS, STANDING, plate_temperature, spreading_efficiency
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import above, row, text_box
from benchreckoner.units import Q, read_quantity, show

_GROUP, _KEY = "plate", "plate-own"
_PLACES = {
    "standing, open air": (STANDING, False), "lying free, open air": (LYING, False),
    "standing, in the closed case": (STANDING, True), "lying free, in the closed case": (LYING, True),
}
_CASE_RISE = 15  # kelvin that the air in a closed case is above the room, common practice
_OFF_BY = 0.2  # of the plate's rise: how far such sums may be off, from memory
_FACE, _LARGEST = Q(10, "W/(m**2*K)"), Q(300, "mm")
_UNITS = {"Heat in the transistor": ("W", "0.8 W"), "Side of the plate": ("mm", "50 mm"), "Thickness": ("mm", "1.5 mm"),
          "Room air": ("degC", "25 °C"), "Junction's limit": ("degC", "150 °C"), "Junction to case": ("K/W", "3 K/W")}
_SPANS = {"Room air": (0, 60), "Junction's limit": (60, 250)}
_FIRST = {"Thickness": "1.5 mm", "Room air": "25 °C", "Metal": "aluminium", "Finish": "bare sheet", "Place": "standing, in the closed case"}


def my_plate():
    """A small form for a plate of the reader's own, answered with its temperature and the margin that it leaves.

    Returns
    -------
    ipywidgets.VBox
    """
    return OwnPlate().card


class OwnPlate(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        typed = {name: text_box(name, placeholder=f"such as {example}") for name, (_, example) in _UNITS.items()}
        chosen = {name: above(ipywidgets.Dropdown, name, options=tuple(choices))
                  for name, choices in (("Metal", METALS), ("Finish", FINISHES), ("Place", _PLACES))}
        first, last = list(typed.values())[:3], list(typed.values())[3:]
        super().__init__({**typed, **chosen}, (row(*first), row(*chosen.values()), row(*last)), ask="How hot?", said_of=said_of,
                         path=my_guesses, group=_GROUP, key=_KEY, first=_FIRST)


def said_of(texts):
    """How hot plate and junction get, the margin, and how far to trust it, in sentences of plain text.

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
    given = {name: _read(name, texts[name]) for name in _UNITS}
    position, closed = _PLACES[texts["Place"]]
    power, side = given["Heat in the transistor"], given["Side of the plate"]
    if not TAB < side <= _LARGEST:
        raise ValueError(f"Side of the plate: must be more than the tab's {TAB.m_as('mm'):g} mm and at most {_LARGEST.m_as('mm'):g} mm, "
                         "write for example \"50 mm\"")
    air = given["Room air"].m_as("degC") + (_CASE_RISE if closed else 0)
    metal = Q(METALS[texts["Metal"]]["conductivity"], "W/(m*K)")
    try:
        warm = plate_temperature(power=power, side=side, thickness=given["Thickness"], conductivity=metal, air=Q(air, "degC"),
                                 emissivity=FINISHES[texts["Finish"]]["emissivity"], source_side=TAB, position=position)
    except ValueError:
        raise ValueError("Side of the plate: far too small for so much heat, it would pass 300 °C; write a larger one, such as "
                         "\"80 mm\", or less heat") from None
    chain = Q([given["Junction to case"].m_as("K/W"), JOINT.m_as("K/W")], "K/W")
    junction = junction_temperature(ambient=warm, power=power, resistances=chain).m_as("degC")
    works = spreading_efficiency(side=side, thickness=given["Thickness"], conductivity=metal, coefficient=_FACE, source_side=TAB)
    plate, off = float(warm.m_as("degC")), _OFF_BY * (float(warm.m_as("degC")) - air)
    return (_junction_words(junction, off, given["Junction's limit"].m_as("degC")),
            _plate_words(plate, air, closed, works),
            f"The plate's rise may be off by 20 % either way, {off:.0f} K here (from memory); a draught helps, a wall close by, dust or a "
            f"second hot part hinders. Between case and plate {show(JOINT, 'K/W', 2)} are reckoned, over grease (common practice); "
            "a dry or crooked seat has several times that.")


def _junction_words(junction, off, limit):
    left, least = limit - junction, limit - junction - off
    words = f"The junction gets to about {junction:.0f} °C, at most {junction + off:.0f}"
    if least >= MARGIN:
        return f"{words}: {left:.0f} K below its limit. That is enough: {MARGIN} K are wanted (common practice)."
    if least >= 0:
        return f"{words}: {left:.0f} K below its limit, and perhaps only {least:.0f}. Too little: {MARGIN} K are wanted (common practice)."
    if left >= 0:
        return f"{words}: {left:.0f} K below its limit, but perhaps beyond it. Not enough."
    return f"{words}: {-left:.0f} K above its limit. Don't run it so."


def _plate_words(plate, air, closed, works):
    where = f"air of {air:.0f} °C" + (f", {_CASE_RISE} K above the room as in a closed case (common practice)" if closed else "")
    touch = "hot enough to burn fingers" if plate > TOUCH.m_as("degC") else f"not above the {TOUCH.m_as('degC'):.0f} °C that burn fingers"
    return (f"The plate gets to about {plate:.0f} °C in {where}: {touch}. About {100 * works:.0f} % of it works; the rest is too far "
            "from the tab.")


def _read(name, text):
    unit, example = _UNITS[name]
    value = read_quantity(text, unit, name).quantity
    if unit != "degC" and not value.magnitude > 0:
        raise ValueError(f"{name}: must be above zero, write for example \"{example}\"")
    if name in _SPANS and not _SPANS[name][0] <= value.m_as("degC") <= _SPANS[name][1]:
        raise ValueError("{}: must lie from {} to {} °C, write for example \"{}\"".format(name, *_SPANS[name], example))
    return value
