"""Book 05, the pass transistor: how much heat it makes, at which load and on which supply most; the guess and saying it."""

import numpy as np

from benchreckoner.bench.transistor_judge import judge_transistors
from benchreckoner.lessons.motor_example import COMPENSATION, DROP, SET_VOLTAGE, SOURCE, WINDING
from benchreckoner.lessons.your_bench import my_guesses, opening, readings_form, reports_html
from benchreckoner.physics.dissipation import governed_power, largest_power, worst_governed_load
from benchreckoner.physics.governors import headroom_current
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact

_BARE, JUNCTION_LIMIT, CASE_AIR = Q([200.0], "K/W"), Q(150, "degC"), Q(35, "degC")  # a small plastic one in a closed case, PRACTICE
BARE_MOST = largest_power(junction_limit=JUNCTION_LIMIT, ambient=CASE_AIR, resistances=_BARE)
_MOST_AMPERES, _MOST_WATTS = 0.9, 2.2
_FROM, _TO = 4.0, 15.0
OURS = ("On 9 V and 85 mA the transistor makes about 0.36 W, reckoned from 4.3 V across it times the current. On 14.4 V, as a 9 V "
        "adapter may give off load, it makes about 0.82 W, which a bare small transistor does not bear for long. With the motor "
        "held it makes only about 0.15 W. Not measured: how hot its case gets.")


def heat_picture(*, supply, load):
    """Heat in the pass transistor of our motor against the load, on one supply.

    Parameters
    ----------
    supply : Quantity [V]
        Off load.
    load : Quantity [A]
        What the motor draws.

    Returns
    -------
    Picture
        More current than the stalled motor draws is a gap.
    """
    stage = dict(open_voltage=supply, source_resistance=SOURCE, set_voltage=SET_VOLTAGE, compensation=COMPENSATION, regulator_drop=DROP)
    lets_go = headroom_current(**stage).m_as("A")
    stalled = float(((supply - DROP) / (WINDING + SOURCE)).m_as("A"))
    worst = worst_governed_load(**stage).m_as("A")
    here = float(load.m_as("A"))
    # The knee stands in the curve itself, else it would be cut off between two points.
    amperes = np.sort(np.append(np.linspace(0, stalled, 90), [lets_go * (1 - 1e-9), worst]))
    heat = governed_power(current=Q(np.append(amperes, [worst, stalled, min(here, stalled)]), "A"), **stage).m_as("W")
    heat, (most, held, now) = heat[:-3], heat[-3:]
    runs = here <= stalled
    return Picture(
        title="Heat in the pass transistor",
        x=Axis("current that the motor draws", "mA", 0, 1000 * _MOST_AMPERES),
        y=Axis("heat in the transistor", "W", 0, _MOST_WATTS),
        curves=(Curve("worst load of every supply", 1000 * _WORST[0], _WORST[1], "faint"),
                Curve("on this supply", 1000 * amperes, heat, "heavy")),
        points=(Point("your load", 1000 * here if runs else np.nan, now if runs else np.nan),
                Point("worst load", 1000 * worst, most, "other"), Point("motor held", 1000 * stalled, held, "extra")),
        limits=(Limit("a bare small one bears", "y", BARE_MOST.m_as("W")), Limit("governor lets go", "x", 1000 * lets_go)),
        sentence=_told(supply, load, runs, now, worst, most, stalled, held, here > lets_go),
        alt=("Heat against motor current. A hump rises from nothing, falls again, and from the current where the governor lets go "
             "runs on as a low straight line to the stalled motor. A faint line joins the tops of the humps of all supplies: it climbs "
             f"ever more steeply. On {_exact(supply)} the top is {_watts(most)} at {_mA(worst)}; held, the motor leaves "
             f"{_watts(held)} in the transistor."))


HEAT = LivePicture(
    key="pass-heat", picture=heat_picture,
    sliders=(Slider("supply", "volts of the supply, off load", "V", ladder(_FROM, _TO, 56), start=9),
             Slider("load", "current that the motor draws", "A", ladder(0.01, 0.3, 59), start=0.085)),
    goal="Leave the load at 85 mA and raise the supply until a bare small transistor bears no more. Then look for the motor held: "
         "does it ever come as high?",
    phone_sliders=("supply", "load"))


def guess_worst():
    """Guess first: what heats the pass transistor most; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="pass-heat-worst",
        question="A governed motor plays at 85 mA on six cells. Its governor holds the motor at about 4.5 V with one transistor in "
                 "line. Which of these heats that <em>transistor</em> most?",
        choices=(
            Choice("The motor held fast: the current is six times as large.",
                   "The current is. But the governor is then fully open, and the transistor keeps only a few tenths of a volt: 0.15 W. "
                   "The <em>winding</em> is what burns then, and soon: let go."),
            Choice("Tired cells: it must work harder.", "It has less to hold back, so it keeps fewer volts and stays cooler. The speed "
                   "is what suffers."),
            Choice("A 9 V adapter that gives 14 V with little load.",
                   "Every volt that the motor does not get stands across the transistor: about 0.8 W in place of 0.36 W.", right=True),
            Choice("A belt that is too tight: 140 mA in place of 85.",
                   "More current, but the governor then also gives the motor more volts, so fewer are left over: 0.46 W. "
                   "Past 167 mA it even gets cooler."),
        ),
        explanation="Heat is volts <em>times</em> amperes, both at the transistor. Few volts or few amperes, little heat."),
        reveal=opening(HEAT), store=my_guesses())


def own_transistor():
    """The form for the reader's own transistor, answered by the judgement."""
    return readings_form(quantities=("voltage drop", "current", "temperature", "voltage"),
                         kinds=("transistor", "motor", "governor", "cells", "adapter"), judged=transistor_html)


def transistor_html(sheet):
    """What a sheet's readings say of its transistors, as HTML made from escaped parts."""
    return reports_html(judge_transistors(sheet), nothing=(
        "No transistor was read yet. Write it into the sheet with <code>kind = \"transistor\"</code>, and enter the voltage drop across it, "
        "<em>playing</em>."))


def say_heat():
    """Two sentences to somebody who wants to run the machine from any adapter of 9 V."""
    return say_it(
        "pass-heat", "Somebody asks: “It says 9 V, so any 9 V adapter will do?” Answer in two sentences, for our motor of 85 mA.",
        ours=OURS,
        checks=SayChecks(what=("transistor", "governor"), known=("reckoned", "off load", "meter"),
                         quantities=((Q(0.36, "W"), "W"), (Q(0.82, "W"), "W"), (Q(14.4, "V"), "V"), (Q(85, "mA"), "A"))),
        store=my_guesses())


def _reckon_worst():
    """Current and heat at the worst load of every supply, along the slider: the tops of all humps."""
    supplies = Q(np.linspace(_FROM, _TO, 60), "V")
    stage = dict(open_voltage=supplies, source_resistance=SOURCE, set_voltage=SET_VOLTAGE, compensation=COMPENSATION, regulator_drop=DROP)
    worst = worst_governed_load(**stage)
    return worst.m_as("A"), governed_power(current=worst, **stage).m_as("W")


_WORST = _reckon_worst()


def _told(supply, load, runs, now, worst, most, stalled, held, open_wide):
    words = f"On {_exact(supply)} "
    if not runs:
        words += f"our motor never draws {_mA(load.m_as('A'))}: held fast it draws {_mA(stalled)}. "
    else:
        state = "the governor fully open, the transistor keeping only its drop," if open_wide else "the governor holding,"
        words += f"a load of {_mA(load.m_as('A'))} makes {_watts(now)} in the transistor, {state} "
        words += f"{'more than' if now > BARE_MOST.m_as('W') else 'within'} the {_watts(BARE_MOST.m_as('W'))} of a bare small one. "
    return words + (f"While the governor holds, {_mA(worst)} is the worst load, with {_watts(most)}; the motor held leaves "
                    f"{_watts(held)}.")


def _exact(supply):
    return show_exact(supply, "V")


def _mA(amperes):
    return show(Q(float(amperes), "A"), "A")


def _watts(watts):
    return show(Q(float(watts), "W"), "W", digits=2)
