"""Why a resistor burnt and what may take its place: its body's size, what would have burnt it, what draws that."""

import math
from dataclasses import dataclass

from benchreckoner.bench.burnt_resistor import COMPOSITION, WIRE
from benchreckoner.physics.resistors import OVERLOAD, burning_current, dissipated_power
from benchreckoner.units import Q, need, show, show_exact

# Watts, and a film resistor's usual body: diameter and length in millimetres. FOUND: a public page of common sizes. Newer bodies
# of one size are rated higher, and composition bodies are a little longer.
BODIES = ((0.125, 1.8, 3.0), (0.25, 2.3, 6.3), (0.5, 3.2, 8.5), (1.0, 5.0, 11.0), (2.0, 5.0, 15.0), (3.0, 5.5, 16.0))
_SAME_BODY = 0.35  # natural logarithm by which both sizes together may be off
# The fewest ohms that each of these has when it fails. Common practice.
_SHORTS = ((0.0, "a shorted transistor or rectifier"), (0.0, "an electrolytic with a short, or the wrong way round"),
           (1.0, "a lamp of too many watts"), (5.0, "a motor that is held or has shorted turns"))
FUSIBLE = ("If it was a fusible or flameproof type (grey, matt or ceramic body, one wide end band, standing off the board), only the same "
           "type of the same value goes in: it is there to open without a flame. Never a larger one in its place.")


@dataclass(frozen=True)
class Cause:
    """What would have burnt it, and what the supply can drive. Each a plain quantity."""

    burning: Q
    shorted: Q
    shorted_power: Q
    rest: Q | None  # the most ohms behind it that still burn it; None if even a dead short does not

    @property
    def can_burn(self):
        """Whether a dead short behind it sends as much as burns it."""
        return self.rest is not None


def body_watts(*, diameter, length):
    """The watts that a body of this size usually stands, and whether it fits a usual body at all.

    Parameters
    ----------
    diameter, length : Quantity [mm], above zero
        Of the body, without its leads.

    Returns
    -------
    rated : Quantity [W]
    usual : bool
        False where no usual body is near: measure again, or compare with neighbours.
    """
    across, along = (float(need(one, "mm", name, above=0).m_as("mm")) for one, name in ((diameter, "diameter"), (length, "length")))
    off = {watts: math.hypot(math.log(across / wide), math.log(along / long)) for watts, wide, long in BODIES}
    watts = min(off, key=off.get)
    return Q(watts, "W"), off[watts] <= _SAME_BODY


def cause(*, resistance, rated_power, supply):
    """What current would have burnt a resistor within seconds, and whether its supply can drive it.

    Parameters
    ----------
    resistance : Quantity [ohm], above zero
    rated_power : Quantity [W], above zero
    supply : Quantity [V], above zero
        Before it, nothing drawn.

    Returns
    -------
    Cause
    """
    burning = burning_current(rated_power=rated_power, resistance=resistance)
    shorted = (need(supply, "V", "supply", above=0) / resistance).to("A")
    rest = (supply / burning - resistance).to("ohm")
    return Cause(burning, shorted, dissipated_power(voltage=supply, resistance=resistance), rest if rest.magnitude >= 0 else None)


def why_first(found, *, resistance, rated_power):
    """In plain words: look for what burnt it before a new one goes in.

    Parameters
    ----------
    found : Cause
    resistance, rated_power : Quantity
        Of the part.

    Returns
    -------
    list of str
    """
    times = (found.shorted_power / rated_power).m_as("")
    lines = [f"{show_exact(resistance, 'ohm')}, {rated_power.m_as('W'):g} W: {show(found.burning, 'A', 2)} make {OVERLOAD:g} times its "
             f"rated watts, which burns it soon. A dead short behind it draws {show(found.shorted, 'A', 2)}, "
             f"{times:.2g} times its rated watts."]
    if found.can_burn:
        rest = found.rest.m_as("ohm")
        suspects = [words for ohms, words in _SHORTS if ohms <= rest]
        lines.append(f"So anything of {show(found.rest, 'ohm', 2)} or less behind it burns it. Power off, read the ohms from its far end "
                     f"to the other side of the supply. Suspects: {', '.join(suspects)} (common practice).")
    elif times > 1:
        lines.append("Even a dead short does not bring it that far: it charred over minutes or hours. Look for a short all the same, for "
                     "a second path that feeds it, or for a part of too few watts from the start.")
    else:
        lines.append("Its own supply cannot overheat it at all, not even into a dead short. More volts reached it than that, or it was "
                     "heated from outside: look for a crossed wire and a hot neighbour.")
    return [*lines, "Mend that first. A new resistor only burns again, or moves the fault on."]


def replacement_words(*, kind, rated_power):
    """What may go in: kind and watts, the safe types first."""
    like = {COMPOSITION: "A film resistor may take the place of a composition one, unless short heavy pulses pass through it.",
            WIRE: "A wire-wound one stays wire-wound: it stands pulses and heat that a film does not."}
    return [FUSIBLE, f"Else the same watts as the one that was there, {rated_power.m_as('W'):g} W. More watts is no cure and may hide the "
            "fault: what should have burnt stays, and something dearer burns.", *([like[kind]] if kind in like else [])]
