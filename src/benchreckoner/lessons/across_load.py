"""Book 05, a resistor across a loudspeaker or in series with it: what the amplifier sees, what is heard, and what gets hot."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.preferred import SERIES
from benchreckoner.physics.resistors import across_load, in_series_with_load
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact

ONE_WATT = Q(8**0.5, "V")  # makes 1 W in 8 ohm
OURS = ("The 33 Ω across the loudspeaker has burnt open, and you hear nothing of it: the amplifier now sees 8 Ω instead of about "
        "6.4 Ω, and gives about a fifth less current at the same level. Read with a meter, the loudspeaker's 6.9 Ω are direct ohms "
        "and not its impedance, so they do not prove what the amplifier sees.")
_LOWEST, _HIGHEST = 0.0009, 40.0
_WORTH = 0.05  # by which a loudspeaker's printed ohms may be off at the least. Common practice.
_QUIET = 0.05  # dB; less than anybody hears by far


def _drawer(low):
    """Three decades of E12, from `low` up."""
    return (*(float(f"{value * low * 10.0**power:.3g}") for power in range(3) for value in SERIES["E12"]), 1000.0 * low)


_ACROSS, _SERIES = _drawer(1.0), _drawer(0.1)


def across_picture(*, resistance, loudspeaker, least):
    """A resistor across a loudspeaker on an amplifier that holds its volts.

    Parameters
    ----------
    resistance, loudspeaker, least : Quantity [ohm]
        The resistor, the loudspeaker's impedance, and the least load that the amplifier is made for.

    Returns
    -------
    Picture
    """
    return _picture(across_load, "across", _ACROSS, resistance, loudspeaker, least)


def series_picture(*, resistance, loudspeaker, least):
    """A resistor in series with a loudspeaker; parameters as for `across_picture`."""
    return _picture(in_series_with_load, "in series with", _SERIES, resistance, loudspeaker, least)


def _picture(law, where, steps, resistance, loudspeaker, least):
    ohms, load = np.geomspace(steps[0], steps[-1], 91), float(loudspeaker.m_as("ohm"))
    along = law(voltage=ONE_WATT, load_resistance=loudspeaker, resistance=Q(np.append(ohms, resistance.m_as("ohm")), "ohm"))
    alone_current, alone_power = (ONE_WATT / loudspeaker).m_as("A"), (ONE_WATT**2 / loudspeaker).m_as("W")
    sees, current, heard, heat = (along.load.m_as("ohm") / load, along.current.m_as("A") / alone_current,
                                  np.broadcast_to(along.load_power.m_as("W") / alone_power, len(ohms) + 1),
                                  along.resistor_power.m_as("W") / alone_power)
    limit = float(least.m_as("ohm")) / load
    place, level = float(resistance.m_as("ohm")), float(np.broadcast_to(along.level.m_as("dB"), len(ohms) + 1)[-1])
    short, times = 1 - sees[-1] / limit, float(f"{current[-1]:.3g}")
    loud = ("The loudspeaker is as loud as without it" if abs(level) < _QUIET else
            f"The loudspeaker is {-level:.1f} dB quieter than without it")
    what = f"{show_exact(resistance, 'ohm')} {where} {show_exact(loudspeaker, 'ohm')}"
    seen = show(Q(sees[-1] * load, "ohm"), "ohm")
    gives = "the same current" if times == 1 else f"{times:g} times the current"
    least_words = (f"The amplifier's least load of {show_exact(least, 'ohm')} is kept." if short < 1e-9 else
                   f"That misses the amplifier's least load of {show_exact(least, 'ohm')} by {100 * short:.1g} %, less than "
                   f"printed ohms are worth."
                   if short < _WORTH else
                   f"That is below the amplifier's least load of {show_exact(least, 'ohm')}: it may overload, get hot and fail.")
    return Picture(
        title=f"A resistor {where} a loudspeaker",
        x=Axis("the resistor", "ohm", steps[0], steps[-1], scale="log"),
        y=Axis("times as without it", "", _LOWEST, _HIGHEST, scale="log"),
        curves=(Curve("ohms the amplifier sees", ohms, sees[:-1], "heavy"), Curve("amplifier's current", ohms, current[:-1], "second"),
                Curve("watts in the loudspeaker", ohms, heard[:-1], "third"),
                Curve("watts in the resistor", ohms, heat[:-1], "fourth")),
        points=(Point("ohms", place, float(sees[-1])), Point("watts here", place, float(heat[-1]), "other")),
        limits=(Limit("least load", "y", limit),),
        sentence=(f"{what}: the amplifier sees {seen} and gives {gives}. {loud}. For each watt in the "
                  f"loudspeaker alone, {show(Q(heat[-1], 'W'), 'W', 2)} go into the resistor. {least_words}"),
        alt=(f"Four curves on log axes against the resistor's ohms, all as times what they are without it; the "
             f"resistor's watts beside those of the loudspeaker alone. {_SHAPES[where]} For "
             f"{what} the amplifier sees {seen}, and {show(Q(heat[-1], 'W'), 'W', 2)} go into the resistor for each watt in the "
             f"loudspeaker alone. {least_words}"))


_SHAPES = {
    "across": ("The loudspeaker's watts run level at one. Few ohms pull down what the amplifier sees, and raise its current and the "
               "resistor's watts alike; with many ohms all come back to one, but the resistor's watts go on falling."),
    "in series with": ("With few ohms all but the resistor's watts run level at one. With many, what the amplifier sees climbs, "
                       "its current falls, and the loudspeaker's watts fall twice as steeply. The resistor's watts are most, a "
                       "quarter, where both have the same ohms."),
}
_SPEAKERS, _LEASTS = (3.2, 4, 8, 16), (3.2, 4, 6, 8)


def _sliders(steps, start):
    return (Slider("resistance", "the resistor", "ohm", steps, start=start),
            Slider("loudspeaker", "the loudspeaker, as printed", "ohm", _SPEAKERS, start=8),
            Slider("least", "the amplifier's least load", "ohm", _LEASTS, start=6))


ACROSS = LivePicture(
    key="across-loudspeaker", picture=across_picture, sliders=_sliders(_ACROSS, 33), phone_sliders=("resistance", "loudspeaker"),
    goal="8 Ω, and a least load of 6 Ω: find the smallest resistor of the drawer that the amplifier stands. Then make it twice as "
         "many ohms, as an old part becomes: what changes, and what does not?")
IN_SERIES = LivePicture(
    key="series-loudspeaker", picture=series_picture, sliders=_sliders(_SERIES, 1), phone_sliders=("resistance", "loudspeaker"),
    goal="8 Ω: find the resistor that leaves the loudspeaker half its watts. How many decibels is that? Then the one that gets hottest.")


def guess_open():
    """Guess first: what changes when a resistor across a loudspeaker opens; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="across-open",
        question="33 Ω stand across an 8 Ω loudspeaker. The 33 Ω burn open. The amplifier holds its volts. What do you notice?",
        choices=(
            Choice("It plays louder: the resistor took a fifth of the sound.",
                   "It took nothing from the loudspeaker. Both had the same volts, and still have. The amplifier gave 1.24 times "
                   "the watts; now it gives 1."),
            Choice("It plays more softly.",
                   "Fewer ohms would make more current, more ohms less. But the loudspeaker's own current is volts by its own "
                   "ohms, and neither has changed."),
            Choice("Nothing. The amplifier's load has become lighter, that is all.",
                   "8 Ω in place of 6.44 Ω: a fifth less current from the amplifier, the same volts on the loudspeaker. Only an "
                   "amplifier with ohms of its own lets you hear it.", right=True),
            Choice("It falls silent: the circuit is broken.", "That is a resistor <em>in series</em>. This one stands across."),
        )), reveal=opening(ACROSS), store=my_guesses())


def guess_series():
    """Guess first: how loud a loudspeaker is behind as many ohms as it has; the second picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="series-quieter", question="8 Ω are put in series with an 8 Ω loudspeaker. How many of its watts are left to it?",
        choices=(
            Choice("Half.", "Half the volts <em>and</em> half the current are left to it. Half of half is a quarter."),
            Choice("A quarter: 6 dB less.",
                   "Half the volts at half the current. The resistor takes another quarter, and the amplifier gives half of what "
                   "it gave.", right=True),
            Choice("All: the resistor only adds its own.",
                   "That is a resistor <em>across</em>. In series, every ampere for the loudspeaker passes through it."),
        )), reveal=opening(IN_SERIES), store=my_guesses())


def say_across():
    """Two sentences to a friend who found a resistor across a loudspeaker burnt open."""
    return say_it(
        "across-load", "A friend found the 33 Ω across an 8 Ω loudspeaker burnt open. “But it plays, and the loudspeaker reads "
                       "6.9 Ω. So the load was always 6.9?” Answer in two sentences.",
        ours=OURS,
        checks=SayChecks(what=("loudspeaker", "amplifier", "load"), known=("meter",),
                         quantities=((Q(6.44, "ohm"), "ohm"), (Q(8, "ohm"), "ohm"), (Q(33, "ohm"), "ohm"), (Q(6.9, "ohm"), "ohm"))),
        store=my_guesses())
