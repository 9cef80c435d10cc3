"""Book 04, weigh your rubber: a form for masses and lengths, the rubber behind them, and how the guess from a hardness compares."""

import ipywidgets

from benchreckoner.bench.rubber_fit import Hung, fit_rubber, guessed_modulus
from benchreckoner.bench.uncertain import propagate, within
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.belt_sizes import SHAPES, belt_section
from benchreckoner.physics.rubber import neo_hookean_tension
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import above, row, text_box
from benchreckoner.units import Q, read_percent, read_quantity, show, show_known

_GROUP, _KEY = "readings", "belt-pull"
_STRETCH = 0.05
_LEGS = {"a loop, two legs": 2, "a cut strip, one leg": 1}
_BOXES = {  # name: label, example, proposal
    "hung": ("Mass: length; one pair after another, parted by ;", "such as 0 g: 101 mm; 20 g: 103 mm; 40 g: 106 mm", ""),
    "length limit": ("Each length is good to within", "such as 0.5 mm", "0.5 mm"),
    "mass share": ("The masses are good to within", "such as 2 %", "2 %"),
    "thickness": ("Thickness of the belt", "such as 1.2 mm", ""),
    "thickness limit": ("It is good to within", "such as 0.03 mm", "0.03 mm"),
    "width": ("Width, of a flat belt", "such as 4 mm", ""),
    "hardness": ("Hardness as sold, if known", "such as 60", ""),
}
_CHOICES = {"shape": ("Section", SHAPES), "legs": ("It hangs as", tuple(_LEGS))}


def weighed():
    """A form for masses hung on a piece of belt, with the rubber that fits them.

    Returns
    -------
    ipywidgets.VBox
    """
    return Weighed().card


class Weighed(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {name: text_box(label, placeholder=hint) for name, (label, hint, _) in _BOXES.items()}
        boxes.update({name: above(ipywidgets.Dropdown, label, options=options) for name, (label, options) in _CHOICES.items()})
        super().__init__(boxes, (row(*boxes.values()),), ask="What rubber is it?", said_of=said_of, path=my_guesses, group=_GROUP, key=_KEY,
                         first={name: usual for name, (*_, usual) in _BOXES.items()})


def said_of(texts):
    """The rubber that fits the readings, in sentences of plain text.

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
    fit = _fit(texts)
    stiff, modulus, free = (_shown(known, unit) for known, unit in ((fit.stiffness, "N"), (fit.modulus, "Pa"), (fit.free_length, "m")))
    most = f"{100 * (max(fit.ratios) - 1):.1f} %"
    pull = propagate(lambda stiffness: neo_hookean_tension(area=Q(1, "mm**2"), modulus=stiffness / Q(1, "mm**2"), stretch_ratio=1 + _STRETCH),
                     "N", stiffness=fit.stiffness)
    lines = [f"Modulus E: {modulus}, and G a third of it, {_shown(fit.shear, 'Pa')}. Free length {free}, stretched by up to {most}.",
             f"Modulus times section: {stiff}. With 5 % of stretch the fitted belt pulls with {_shown(pull, 'N')}; its thickness has no part in that."]
    if texts["hardness"]:
        lines.append(_beside_hardness(_hardness(texts["hardness"]), fit.modulus))
    return (*lines, *fit.reasons)


def _fit(texts):
    thick = _positive(texts["thickness"], "mm", _BOXES["thickness"][0])
    limit = _positive(texts["thickness limit"], "mm", f"Thickness: {_BOXES['thickness limit'][0]}")
    if limit >= thick / 2:
        raise ValueError(f'Thickness: {_BOXES["thickness limit"][0]}: must be below half the thickness, write for example "0.03 mm"')
    flat = texts["shape"] == "flat"
    width = _positive(texts["width"], "mm", _BOXES["width"][0]) if flat else None
    area = propagate(lambda thickness: belt_section(shape=texts["shape"], thickness=thickness, width=width).area, "mm**2",
                     thickness=within(thick, (limit / thick).m_as(""), "mm"))
    try:
        return fit_rubber(_hung(texts["hung"]), length_limit=_positive(texts["length limit"], "mm", _BOXES["length limit"][0]),
                          mass_share=read_percent(texts["mass share"], _BOXES["mass share"][0]), area=area, legs=_LEGS[texts["legs"]])
    except ValueError as fault:
        raise ValueError(str(fault).replace("hung:", "Mass: length:")) from None


def _hung(text):
    label, pairs = "Mass: length", []
    for number, pair in enumerate((one for one in text.split(";") if one.strip()), start=1):
        if pair.count(":") != 1:
            raise ValueError(f'{label}, pair {number}: write mass and length with a colon between, for example "20 g: 103 mm"')
        mass, length = pair.split(":")
        weight = read_quantity(mass.strip(), "g", f"{label}, pair {number}, mass").quantity
        if weight.magnitude < 0:
            raise ValueError(f'{label}, pair {number}, mass: must be zero or more, write for example "20 g"')
        pairs.append(Hung(weight, _positive(length.strip(), "mm", f"{label}, pair {number}, length")))
    return pairs


def _beside_hardness(hardness, modulus):
    low, middle, high = guessed_modulus(hardness)
    guess = f"{hardness:g} Shore A alone would let one guess {show(middle, 'Pa', 2)}, likely {show(low, 'Pa', 2)} to {show(high, 'Pa', 2)}"
    narrower = ((high - low) / (2 * modulus.expanded)).m_as("")
    if not (low - modulus.expanded <= modulus.value <= high + modulus.expanded):
        return f"{guess}. What you weighed lies outside that: this is no usual rubber of that hardness, or two lines of the form hold a slip."
    return f"{guess}. Weighed, it is {'no narrower' if narrower < 1.5 else f'{narrower:.0f} times narrower'}."


def _hardness(text):
    """Shore A as a plain number, with or without its letters."""
    number = text.lower().removesuffix("sha").removesuffix("shore a").strip().replace(",", ".")
    if not (number.replace(".", "", 1).isdecimal() and 25 <= float(number) <= 75):
        raise ValueError(f'{_BOXES["hardness"][0]}: belts of 25 to 75 Shore A can be compared, got {text!r}, write for example "60"')
    return float(number)


def _positive(text, unit, label):
    value = read_quantity(text, unit, label).quantity
    if not value.magnitude > 0:
        raise ValueError(f'{label}: must be above zero, write for example "1.2 {unit}"')
    return value


def _shown(known, unit):
    return show_known(known.value, known.expanded, unit)
