"""Exercises of book 02 on one contact: spot, film, force and broken films, and one that mixes them."""

import numpy as np

from benchreckoner.lessons.one_contact import BRONZE, CESSATION, CLEAN, FILMED, PATCH, metal_and_film
from benchreckoner.physics.force import force_exponent, resistance_at_force
from benchreckoner.physics.fritting import fritted_resistance
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_LAWS = (("a rough clean contact, whose metal gives way", 1 / 2, "1/2"), ("a smooth clean ball that springs", 1 / 3, "1/3"),
         ("a contact whose film cracks", 1.0, "1"))


def spot(seed=None, blanks=1):
    """Ohms of one filmed spot."""
    return exercise(_spot, key="one-contact-spot-ohms", seed=seed, blanks=blanks)


def two_meters(seed=None, blanks=2):
    """Ohms that a meter leaves in a film that breaks."""
    return exercise(_two_meters, key="one-contact-left", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_spot, _two_meters, _press, _slope)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="one-contact-mixed", seed=seed, blanks=blanks)


def _spot(rng):
    radius, patch = Q(float(rng.integers(2, 25)), "um"), Q(float(rng.choice([0.2, 0.5, 1, 2, 5, 10])), "ohm")
    metal, film = metal_and_film(radius=radius, patch=patch)
    area = np.pi * radius.m_as("um") ** 2
    return Problem(
        question="One round spot between two bronze leaves, with a film on it. How many ohms is that, metal and film together?",
        given=(("radius of the spot", f"{radius.m_as('um'):.0f} µm"), ("one square micrometre of the film", show(patch, "ohm")),
               ("bronze", f"{BRONZE['resistivity'].m_as('ohm um'):.4f} Ω µm")),
        answer=metal + film, unit="ohm", tolerance=0.02,
        steps=(Step("Metal: bronze over twice the radius:", show(metal, "ohm")),
               Step("The spot's area, π times the radius squared:", f"{area:.4g} µm²"),
               Step("Film: the ohms of one square micrometre over that area:", show(film, "ohm")),
               Step("One behind the other, they add:", show(metal + film, "ohm"))),
        slips=(Slip(metal, "That is the metal alone. The film comes on top."),
               Slip(film, "That is the film alone. The metal comes on top."),
               Slip(metal / 2 + film, "Over <em>four</em> times the radius is one side alone. The current squeezes in on one side and "
                    "spreads out on the other: twice the radius."),
               Slip(metal + patch * PATCH / (4 * np.pi * radius**2), "That area took the diameter for the radius."),
               Slip(metal + patch / radius.m_as("um"), "The film goes with the spot's <em>area</em>, not with its radius.")))


def _two_meters(rng):
    source = Q(float(rng.choice([1.5, 2, 2.5, 3, 4.5, 6, 9])), "V")
    series = Q(float(rng.choice([100, 220, 470, 1000, 2200])), "ohm")
    left = fritted_resistance(source_voltage=source, series_resistance=series, filmed_resistance=FILMED, clean_resistance=CLEAN,
                              breakdown_voltage=Q(1, "V"), cessation_voltage=CESSATION)
    rest = source - CESSATION
    current = (rest / series).to("A")
    return Problem(
        question="A filmed contact has 10 kΩ; its film breaks at 1 V. A meter is put across it. By the rule of thumb the contact then "
                 "keeps 0.3 V. How many ohms are left?",
        given=(("the meter, open", show(source, "V")), ("what limits its current", show(series, "ohm"))),
        answer=left, unit="ohm", tolerance=0.02,
        steps=(Step("The volts left for the meter's own ohms:", show(rest, "V")),
               Step("The current they drive:", show(current, "A")),
               Step("0.3 V over that current:", show(left, "ohm"))),
        slips=(Slip((CESSATION * series / source).to("ohm"), "The meter's own ohms have only what the contact leaves them: take the "
                    "0.3 V off first."),
               Slip(FILMED, "That is what was there before. The film gets nearly all of the meter's volts, more than the 1 V it stands."),
               Slip((source * series / rest).to("ohm"), "The contact keeps 0.3 V, not all of the meter's volts.")))


def _press(rng):
    name, exponent, written = _LAWS[rng.integers(len(_LAWS))]
    ohms, grams = Q(float(rng.integers(5, 80)), "mohm"), float(rng.choice([20, 30, 50, 80, 100]))
    times = float(rng.choice([2, 3, 4, 5]))
    after = resistance_at_force(resistance=ohms, force=Q(grams, "gram_force"), new_force=Q(times * grams, "gram_force"),
                                exponent=exponent)
    return Problem(
        question=f"This is {name}. You press it harder. How many ohms has it then?",
        given=(("ohms at first", show(ohms, "ohm")), ("the scale at first", f"{grams:.0f} g"),
               ("the scale then", f"{times * grams:.0f} g")),
        answer=after, unit="ohm", tolerance=0.02,
        steps=(Step("How many times the force:", f"{times:.0f}"),
               Step(f"One over that, to the power {written}:", f"{times**-exponent:.3f}"),
               Step("So many times the ohms:", show(after, "ohm"))),
        slips=tuple(Slip(ohms * times**-other, f"That is the power {text}, which belongs to {what}.")
                    for what, other, text in _LAWS if other != exponent)
        + (Slip(ohms * times**exponent, "Pressed harder it has <em>fewer</em> ohms."),))


def _slope(rng):
    light, times = float(rng.choice([20, 40, 50])), float(rng.choice([4, 5, 8, 10]))
    first, exponent = Q(float(rng.integers(20, 90)), "mohm"), float(rng.uniform(0.3, 1.05))
    second = Q(float(f"{(first * times**-exponent).m_as('mohm'):.3g}"), "mohm")
    slope = float(force_exponent(forces=Q([light, times * light], "gram_force").to("N"),
                                 resistances=Q([first.m_as("ohm"), second.m_as("ohm")], "ohm")))
    ratio = (first / second).m_as("")
    return Problem(
        question="Two pairs from one contact on a kitchen scale. Which slope do they make on log axes: which power of the force do the "
                 "ohms fall with? (A plain number.)",
        given=((f"at {light:.0f} g", show(first, "ohm")), (f"at {times * light:.0f} g", show(second, "ohm"))),
        answer=Q(slope, ""), unit="", tolerance=0.02,
        steps=(Step("How many times the force, and its logarithm:", f"{times:.0f}, {np.log10(times):.4f}"),
               Step("How many times fewer ohms, and the logarithm:", f"{ratio:.4g}, {np.log10(ratio):.4f}"),
               Step("The second logarithm over the first:", f"{slope:.3f}")),
        slips=(Slip(Q(1 / slope, ""), "Upside down: the logarithm of the ohms stands on top."),
               Slip(Q(ratio / times, ""), "That divides the <em>times</em>. On log axes it is their logarithms.")))
