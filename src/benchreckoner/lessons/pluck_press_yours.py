"""Book 04, the reader's own pluck or press: a fitted belt's pull with its uncertainty, at rest only."""

import ipywidgets
import numpy as np

from benchreckoner.bench.belt_priors import prior
from benchreckoner.bench.uncertain import propagate, within
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.belt_pull import belt_mass
from benchreckoner.physics.belt_sizes import SHAPES, belt_section
from benchreckoner.physics.belt_tests import dip_by_weight, pluck_tension, press_tension, simple_press_tension
from benchreckoner.show.kept_form import KeptForm
from benchreckoner.show.words import above, row, text_box
from benchreckoner.units import Q, read_percent, read_quantity, show, show_known

_GROUP, _KEY = "readings", "belt-pluck-press"
_GRAVITY = Q(9.80665, "m/s**2")
_STRETCH_LIMIT = 0.01  # the stretch of a fitted belt is known to within a point of a per cent: common practice
_LARGEST = 0.1  # deflection by the span
_BOXES = {  # name: label, example, proposal
    "span": ("Free span, where the belt leaves both pulleys", "such as 48 mm", ""),
    "length limit": ("Lengths are good to within", "such as 0.5 mm", "0.5 mm"),
    "thickness": ("Thickness of the belt", "such as 1.2 mm", ""),
    "width": ("Width, of a flat belt", "such as 4 mm", ""),
    "stretch": ("Its stretch on the path, about", "such as 5 %", "5 %"),
    "path": ("Path, once round the belt", "such as 231 mm", ""),
    "mass": ("Mass of the whole belt, if weighed", "such as 0.38 g", ""),
    "tone": ("Pluck: lowest tone", "such as 128 Hz", ""),
    "force": ("Press: force, or the mass that presses", "such as 0.05 N or 5 g", ""),
    "deflection": ("Press: deflection", "such as 2 mm", ""),
}
_SHAPE = "shape"


def tested():
    """A form for a plucked or pressed belt at rest, with the pull that follows.

    Returns
    -------
    ipywidgets.VBox
    """
    return Tested().card


class Tested(KeptForm):
    """The boxes, what was last typed in them, and the answer."""

    def __init__(self):
        boxes = {name: text_box(label, placeholder=hint) for name, (label, hint, _) in _BOXES.items()}
        boxes[_SHAPE] = above(ipywidgets.Dropdown, "Section", options=SHAPES)
        care = ipywidgets.HTML("<strong>Take care:</strong> at rest and with the cells out, never on a running belt.")
        super().__init__(boxes, (care, row(*boxes.values())), ask="How hard does it pull?", said_of=said_of, path=my_guesses, group=_GROUP, key=_KEY,
                         first={name: usual for name, (*_, usual) in _BOXES.items()})


def said_of(texts):
    """The pull by each test that was filled in, in sentences of plain text.

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
    span, ratio = _length(texts, "span"), 1 + read_percent(texts["stretch"], _BOXES["stretch"][0])
    if not 1.01 < ratio <= 1.15:
        raise ValueError('Its stretch on the path: must be above 1 % and at most 15 %, write for example "5 %"')
    if not texts["tone"] and not texts["force"]:
        raise ValueError('Pluck: lowest tone: nothing is measured yet, write for example "128 Hz"; or fill in the press test')
    lines, found = [], {}
    if texts["tone"]:
        found["pluck"], told = _plucked(texts, span, ratio)
        lines += told
    if texts["force"]:
        found["press"], told = _pressed(texts, span, ratio)
        lines += told
    if len(found) == 2:
        lines.append(_compared(found["pluck"], *found["press"]))
    return tuple(lines)


def _plucked(texts, span, ratio):
    tone = read_quantity(texts["tone"], "Hz", _BOXES["tone"][0])
    if not tone.quantity.magnitude > 0:
        raise ValueError('Pluck: lowest tone: must be above zero, write for example "128 Hz"')
    mass, known_by = _mass(texts, ratio)
    frequency = within(tone.quantity, (tone.half_digit / tone.quantity).m_as(""), "Hz")
    pull = propagate(lambda frequency, mass_per_length, span: pluck_tension(frequency=frequency, mass_per_length=mass_per_length, span=span),
                     "N", frequency=frequency, mass_per_length=mass, span=span)
    dip = dip_by_weight(mass_per_length=mass.value, span=span.value, tension=pull.value)
    chiefly = _chiefly(pull, {"the tone": frequency, "the mass of each metre": mass, "the free span": span})
    return pull, [f"By its tone the belt pulls with {_shown(pull)}; {known_by}. An octave taken too high would make it four times too much. "
                  f"{chiefly}",
                  f"By its own weight such a belt dips by {show(dip, 'm', 2)} in a level span. A dip that you can see is a belt that hangs slack."]


def _mass(texts, ratio):
    """Mass of each metre, and what it stands on."""
    if texts["mass"]:
        weighed = read_quantity(texts["mass"], "g", _BOXES["mass"][0])
        if not weighed.quantity.magnitude > 0:
            raise ValueError('Mass of the whole belt: must be above zero, write for example "0.38 g"')
        path = _length(texts, "path")
        digit = (weighed.half_digit / weighed.quantity).m_as("")
        return propagate(lambda mass, path: mass / path, "kg/m", mass=within(weighed.quantity, digit, "kg"),
                         path=path), "each metre's mass is the belt's mass over its path"
    width = _length(texts, "width").value if texts[_SHAPE] == "flat" else None
    row = prior("density")
    middle = Q((row["low"] + row["high"]) / 2, "kg/m**3")
    density = within(middle, row["high"] / middle.magnitude - 1, "kg/m**3")
    thick = _positive(texts["thickness"], "mm", _BOXES["thickness"][0])
    return propagate(lambda density, thickness: belt_mass(
        density=density, area=belt_section(shape=texts[_SHAPE], thickness=thickness, width=width).area, stretch_ratio=ratio), "kg/m",
        density=density, thickness=within(thick.quantity, (thick.half_digit / thick.quantity).m_as(""), "m")), (
        f"its density is taken as {row['low']:.0f} to {row['high']:.0f} kg/m³, so weigh the belt to know it better")


def _pressed(texts, span, ratio):
    """Pull if both pulleys grip, and if the belt slides on them or, its path unknown, by the usual formula."""
    push = _positive(texts["force"], ("N", "g"), _BOXES["force"][0])
    digit = (push.half_digit / push.quantity).m_as("")
    newtons = push.quantity if push.quantity.is_compatible_with("N") else push.quantity * _GRAVITY
    deflection = _length(texts, "deflection")
    share = (deflection.value / span.value).m_as("")
    if share > _LARGEST:
        raise ValueError(f"Press: deflection: {100 * share:.0f} % of the span is too far, the test itself would stretch the belt more than "
                         'the correction is good for; press by a twentieth, write for example "2 mm"')
    given = dict(force=within(newtons, digit, "N"), deflection=deflection, span=span)
    stretched = within(Q(ratio, ""), _STRETCH_LIMIT / ratio, "")
    whole = _length(texts, "path").value if texts["path"] else None
    if whole is not None and whole <= 2 * span.value:
        raise ValueError('Path, once round the belt: is the whole loop, more than twice its free span; write for example "231 mm"')

    def corrected(path_length):
        return propagate(lambda stretch_ratio, **test: press_tension(**test, stretch_ratio=stretch_ratio.m_as(""), path_length=path_length), "N",
                         stretch_ratio=stretched, **given)

    gripped, simple = corrected(None), propagate(lambda **test: simple_press_tension(**test), "N", **given)
    sliding = simple if whole is None else corrected(whole)
    told = (f"By pressing it pulls with {_shown(gripped)} if both pulleys grip. " + (
        "The path is not filled in, so all that is sure of a belt that slides is that it pulls less than the usual formula's "
        f"{_shown(simple)}." if whole is None else f"If it slides on them, with {_shown(sliding)}; the usual formula says {_shown(simple)}.")
        + " " + _chiefly(gripped, {"the force": given["force"], "the deflection": deflection, "the free span": span, "its stretch": stretched}))
    apart = sliding.plain - gripped.plain > 2 * gripped.number.std_dev
    return (gripped, sliding), [told] + (["The two are further apart than the test is uncertain: press less far."] if apart else [])


def _chiefly(pull, named):
    """Which of the readings leaves most of a pull open."""
    parts = pull.number.error_components()
    shares = {words: sum(parts.get(one, 0) ** 2 for one in known.number.error_components()) for words, known in named.items()}
    return f"What is left open comes chiefly from {max(shares, key=shares.get)}."


def _compared(plucked, gripped, sliding):
    """Whether the two tests agree, or differ by an octave."""
    slack = 2 * np.hypot(plucked.number.std_dev, gripped.number.std_dev)
    if gripped.plain - slack <= plucked.plain <= sliding.plain + slack:
        return "Pluck and press agree."
    for factor, words in ((4, "an octave too high"), (0.25, "an octave too low")):
        if gripped.plain - slack <= plucked.plain / factor <= sliding.plain + slack:
            return f"The two differ by about four: was the tone taken {words}?"
    return "Pluck and press differ by more than both explain: take span, tone, force and deflection again, one of them holds a slip."


def _length(texts, name):
    """A length as typed, good to the form's limit."""
    limit = _positive(texts["length limit"], "mm", _BOXES["length limit"][0]).quantity
    value = _positive(texts[name], "mm", _BOXES[name][0]).quantity
    if limit >= value / 2:
        raise ValueError(f'{_BOXES[name][0]}: is hardly more than what lengths are good to; measure finer, write for example "0.1 mm" there')
    return within(value, (limit / value).m_as(""), "mm")


def _positive(text, unit, label):
    typed = read_quantity(text, unit, label)
    if not typed.quantity.magnitude > 0:
        raise ValueError(f'{label}: must be above zero, write for example "{_example(label)}"')
    return typed


def _example(label):
    return next(hint.removeprefix("such as ") for words, hint, _ in _BOXES.values() if words == label)


def _shown(known):
    return show_known(known.value, known.expanded, "N")
