"""Book 02, the whole chain: a staircase before and after mending, and what two wires or four show of one link."""

from html import escape

import ipywidgets
import numpy as np

from benchreckoner import project
from benchreckoner.bench.chain import feed_parts
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.contact_resistance import SPRING_BAND
from benchreckoner.lessons.staircase import chains_to_show, missing, staircases
from benchreckoner.lessons.your_bench import my_guesses, my_sheet, opening
from benchreckoner.physics.ohmmeter import reversed_contact_resistance, thermal_resistance_error, two_wire_reading
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.still import still
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show, show_digits

# Copper against brass, 10 K apart. Check value K3; Kidd, Table 1, FOUND.
PAIR, APART = Q(3, "uV/K"), Q(10, "delta_degC")
_LEAST, _MOST, _HIGHEST = 1e-3, 10.0, 12.0


def guess_other_drops():
    """Guess first: what mending one link does to the drops of the others."""
    first, last = chains_to_show(judge_sheet(read_sheet(project.CASES / "record_player.toml")))
    guilty, other = first.guilty.part, "play switch"

    def read(report, part):
        return show(report.chain.drops[part].value, "V")

    return choice_guess(ChoiceGuess(
        key="lost-volts-other-drops",
        question=(f"The demo machine, motor held. {guilty.capitalize()} loses {read(first, guilty)}, the {other} "
                  f"{read(first, other)}. You clean {guilty} and touch nothing else. What does the {other} lose now, "
                  "motor held again?"),
        choices=(
            Choice("Less: the whole chain is better now.",
                   f"The chain is better, and for just that reason <em>more</em> current flows. The {other} has the same "
                   "ohms as before, so it loses more."),
            Choice("The same: nobody touched it.",
                   "Its ohms are the same, the current is not: the spring had been holding it back. Volts are ohms "
                   "<em>times</em> current."),
            Choice("More.", f"It lost {read(first, other)} before and {read(last, other)} after, by the demo's own readings: "
                   "more current through the same ohms. A drop that grew after a repair need not be a new fault; reckon "
                   "its ohms.", right=True),
        )), store=my_guesses())


def my_staircases():
    """The reader's feed chain as a staircase, as it was first and as it is now, on one scale.

    Returns
    -------
    ipywidgets.HTML
        Words that say what to read first, where the sheet does not suffice.
    """
    sheet = my_sheet()
    drawn = staircases(judge_sheet(sheet))
    if not drawn:
        source, motor, links = feed_parts(sheet)
        return ipywidgets.HTML(f"<p>{escape(missing(source=source, motor=motor, links=links))}</p>")
    return ipywidgets.HTML("".join(still(picture)._repr_html_() for _, picture in drawn))


def two_or_four(*, link, loop, current):
    """What an ohmmeter's two wires and a four-wire reading show of one link.

    Parameters
    ----------
    link : Quantity [ohm]
        The link's own resistance.
    loop : Quantity [ohm]
        Both test leads and their tips, together.
    current : Quantity [A]
        Through the link while its drop is read.

    Returns
    -------
    Picture
    """
    ohms = Q(np.geomspace(_LEAST, _MOST, 121), "ohm")
    error = thermal_resistance_error(sensitivity=PAIR, temperature_difference=APART, current=current)

    def two_wires(resistance):
        return two_wire_reading(resistance=resistance, lead_resistance=loop / 2).m_as("ohm")

    here, two, four = float(link.m_as("ohm")), float(two_wires(link)), (link + error)
    shown = show(link, "ohm", digits=2)
    sound, bad = float(SPRING_BAND.sound_up_to.m_as("ohm")), float(SPRING_BAND.bad_from.m_as("ohm"))
    return Picture(
        title="One link, two wires or four",
        x=Axis("ohms of the link", "ohm", _LEAST, _MOST, scale="log"),
        y=Axis("ohms shown", "ohm", _LEAST, _HIGHEST, scale="log"),
        curves=(Curve("two wires", ohms.m_as("ohm"), two_wires(ohms), "second"),
                Curve("four wires, one way", ohms.m_as("ohm"), (ohms + error).m_as("ohm")),
                Curve("four wires, turned round too", ohms.m_as("ohm"), ohms.m_as("ohm"), "faint")),
        points=(Point("two", here, two, "other"), Point("four", here, float(four.m_as("ohm")))),
        limits=(Limit("spring sound up to here", "y", sound), Limit("bad from here", "y", bad)),
        sentence=(f"A link of {shown} reads {show(Q(two, 'ohm'), 'ohm')} with two wires, leads of {show(loop, 'ohm', digits=2)} "
                  f"included: {_excess(two / here)}. With four wires at {show(current, 'A', digits=2)} it reads "
                  f"{show(four, 'ohm')}; {show(PAIR * APART, 'V', digits=2)} of thermal volts are in that, and go when the "
                  "current is turned round."),
        alt=("Three curves of the ohms shown against a link's own ohms, both axes log. With two wires the curve "
             f"never comes below the leads' own {show(loop, 'ohm', digits=2)}; with four wires it follows the link down to "
             f"milliohms. At {shown} two wires show {show(Q(two, 'ohm'), 'ohm')}, four show {show(four, 'ohm')}."))


TWO_OR_FOUR = LivePicture(
    key="two-or-four", picture=two_or_four,
    sliders=(Slider("link", "ohms of the link", "ohm", ladder(_LEAST, _MOST, 81, "log"), start=0.02),
             Slider("loop", "ohms of both test leads", "ohm", ladder(0.05, 1, 20), start=0.2),
             Slider("current", "current through the link", "A", ladder(0.01, 1, 41, "log"), start=0.1)),
    goal="Leads of 200 mΩ: find the smallest link that two wires show at most a tenth too high. Then set 20 mΩ, and find "
         "the current at which four wires are 1 % off.",
    phone_sliders=("link", "loop"))


def guess_two_wires():
    """Guess first: what taking the leads off the reading mends; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="lost-volts-two-wires",
        question="Your meter shows 0.2 Ω with its tips held together and 0.2 Ω across a battery spring. Its last digit is "
        "0.1 Ω. What do you know of the spring?",
        choices=(
            Choice("It has 0.2 Ω: that is what the meter shows.",
                   "The leads have 0.2 Ω by themselves, and they are in the reading. The meter has said nothing of the spring yet."),
            Choice("It has 0 Ω: 0.2 less 0.2.",
                   "Each of the two is rounded to 0.1 Ω, so the difference may be off by as much. A spring of 80 mΩ, "
                   "doubtful already, would read just so."),
            Choice("Less than about 0.1 Ω, and not whether it is sound.",
                   "Good enough to clear it of being bad, from 0.5 Ω. To tell sound from doubtful, at 50 mΩ, read its drop "
                   "while the motor's current flows.", right=True),
            Choice("Nothing at all: the meter is useless here.",
                   "It rules out half an ohm, and that is something. It only can't tell finer than its digit and its leads."),
        )), reveal=opening(TWO_OR_FOUR), store=my_guesses())


def turned_round(seed=None, blanks=1):
    """Ohms of a link from its drop with the current one way and then the other."""
    return exercise(_turned_round, key="lost-volts-turned-round", seed=seed, blanks=blanks)


def _turned_round(rng):
    link, current = Q(float(rng.integers(8, 60)), "mohm"), Q(float(rng.choice([50, 100, 200])), "mA")
    thermal = Q(float(rng.integers(20, 90)), "uV")
    forward, backward = (link * current + thermal).to("mV"), (thermal - link * current).to("mV")
    ohms = reversed_contact_resistance(forward_drop=forward, backward_drop=backward, current=current)
    return Problem(
        question="You read a joint's drop with four wires, then turn the current round and read again; the meter's tips "
                 "stay where they are. How many ohms has the joint, without the thermal volts?",
        given=(("one way", f"{forward.m_as('mV'):.2f} mV"), ("turned round", f"{backward.m_as('mV'):.2f} mV".replace("-", "−")),
               ("current", show(current, "A"))),
        answer=ohms, unit="ohm", tolerance=0.02,
        steps=(Step("From the one to the other, in millivolts:", f"{(forward - backward).m_as('mV'):.2f} mV"),
               Step("Half of that is the joint's own drop:", f"{((forward - backward) / 2).m_as('mV'):.2f} mV"),
               Step("Divided by the current:", show(ohms, "ohm"))),
        slips=(Slip(((forward - backward) / current).to("ohm"), "That is twice the joint: the drop went from plus to minus, "
                    "so halve the difference."),
               Slip((forward / current).to("ohm"), "The thermal volts are still in it. Use both readings."),
               Slip(((forward + backward) / (2 * current)).to("ohm"), "Added up, the joint drops out and the thermal volts "
                    "stay. Take the second reading <em>off</em>, its sign included."),
               Slip(Q(1 / ohms.m_as("ohm"), "ohm"), "Upside down: ohms are volts <em>per</em> ampere.")))


def _excess(ratio):
    if ratio >= 2:
        return f"{show_digits(ratio)} times what it is"
    return f"{100 * (ratio - 1):.2g} % too high"
