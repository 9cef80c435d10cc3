"""Book 05, adapter, charger and lamps: an adapter off load, a charging current against capacity, a filament that is no resistor."""

import numpy as np
from IPython.display import Markdown

from benchreckoner.lessons.motor_example import PLAY
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.charging import STANDARD_RATE, charge_rate, full_charge_time
from benchreckoner.physics.lamps import lamp_current, lamp_inrush, lamp_life, led_resistor
from benchreckoner.physics.supply import source_voltage
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

# An invented adapter, a machine with 16 V parts across its supply, an invented lamp.
MARKED, MARKED_CURRENT, RATED_PART = Q(12, "V"), Q(400, "mA"), Q(16, "V")
LAMP_VOLTS, LAMP_CURRENT = Q(6, "V"), Q(100, "mA")
_MOST_AMPS = 0.6
_GENTLE, _QUICK = 0.05, 0.3  # It: below the first, longer than 32 h; above the second it must stop by itself; common practice
_SMALL, _LARGE = 0.5, 10.0


def adapter_picture(*, current, source):
    """Volts of an unregulated adapter against the current drawn from it.

    Parameters
    ----------
    current : Quantity [A]
    source : Quantity [ohm]
        Inside the adapter.

    Returns
    -------
    Picture
    """
    line = dict(voltage=MARKED, at_current=MARKED_CURRENT, source_resistance=source)
    amps = np.append(np.linspace(0, _MOST_AMPS, 25), current.m_as("A"))
    volts = source_voltage(**line, current=Q(amps, "A")).m_as("V")
    off, here = volts[0], volts[-1]
    rated = RATED_PART.m_as("V")
    word = "more than" if off > rated * (1 + 1e-9) else "no more than"
    beyond = " That is past its marked current: it runs hot, and hums into the sound." if current > MARKED_CURRENT else ""
    said = (f"An adapter marked {MARKED.m_as('V'):g} V at {show(MARKED_CURRENT, 'A')}, with {show(source, 'ohm', 2)} inside, gives "
            f"{here:.1f} V "
            f"at {show(current, 'A', 2)} and {off:.1f} V with nothing drawn: {off / MARKED.m_as('V'):.2f} times what is marked, and "
            f"{word} the "
            f"{rated:g} V of the capacitors.{beyond}")
    return Picture(
        title="An unregulated adapter, loaded and not",
        x=Axis("current drawn", "A", 0, _MOST_AMPS), y=Axis("volts at its plug", "V", 0, 22),
        curves=(Curve("volts", amps[:-1], volts[:-1], "heavy"),),
        points=(Point("here", amps[-1], here), Point("off load", 0, off, "other")),
        limits=(Limit("marked volts", "y", MARKED.m_as("V")), Limit("capacitors: 16 V", "y", rated),
                Limit("marked current", "x", MARKED_CURRENT.m_as("A"))),
        sentence=said,
        alt=("A straight line of an adapter's volts, falling as more current is drawn. It passes its marked volts at its marked current "
             "and "
             f"stands highest on the left, where nothing is drawn. {said}"))


ADAPTER = LivePicture(
    key="adapter-off-load", picture=adapter_picture,
    sliders=(Slider("current", "current drawn", "A", ladder(0, _MOST_AMPS, 25), start=0.4),
             Slider("source", "ohms inside the adapter", "ohm", (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 17, 20), start=5)),
    goal="Find the most ohms inside at which the 16 V capacitors are safe with nothing drawn. What does it then give at 100 mA?",
    phone_sliders=("current", "source"))


def charge_picture(*, capacity, current):
    """Charging rate of a built-in charger against the capacity of the cells that lie in it.

    Parameters
    ----------
    capacity : Quantity [Ah]
        Of one cell.
    current : Quantity [A]
        That the charger gives, read in line.

    Returns
    -------
    Picture
    """
    hours = np.append(np.geomspace(_SMALL, _LARGE, 61), capacity.m_as("Ah"))
    rates = charge_rate(current=current, capacity=Q(hours, "Ah")).m_as("1/h")
    here, standard = rates[-1], STANDARD_RATE.m_as("1/h")
    time = full_charge_time(capacity=capacity, current=current).m_as("h")
    ends = np.array([_SMALL, _LARGE])
    if here > _QUICK * (1 + 1e-9):
        word = "far too fast for a charger that does not stop by itself"
    elif here > standard * (1 + 1e-9):
        word = "faster than the standard charge: the cells get hot unless it stops in time"
    elif here >= _GENTLE:
        word = f"an empty cell is full after about {time:.0f} h"
    else:
        word = f"slower than a timed charge: an empty cell takes about {time:.0f} h"
    said = f"{show(current, 'A', 2)} into nickel cells of {show(capacity, 'Ah', 2)} is {here:.2g} It: {word}."
    return Picture(
        title="One charger, cells of many sizes",
        x=Axis("capacity of one cell", "Ah", _SMALL, _LARGE, scale="log"),
        y=Axis("charging rate It", "1/h", 0.002, 2, scale="log", symbol="per hour"),
        curves=(Curve("this charger", hours[:-1], rates[:-1], "heavy"),),
        bands=(Band("timed by hand", ends, np.full(2, _GENTLE), np.full(2, standard), "third"),),
        points=(Point("these cells", hours[-1], here),),
        limits=(Limit("standard: 0.1 It, 16 h", "y", standard), Limit("must stop by itself", "y", _QUICK)),
        sentence=said,
        alt=("A straight line on two log axes: the larger the cells, the slower the same charger fills them. A band from 0.05 to 0.1 It "
             "is where "
             f"a charge timed by hand lies; above 0.3 It a charger must stop by itself. {said}"))


CHARGE = LivePicture(
    key="charge-rate", picture=charge_picture,
    sliders=(Slider("capacity", "capacity of one cell", "Ah",
                    (0.5, 0.6, 0.7, 0.8, 1.0, 1.2, 1.5, 1.8, 2.0, 2.2, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0), start=2.0),
             Slider("current", "charging current, read in line", "A",
                    (0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.12, 0.15, 0.18, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6), start=0.12)),
    goal="A charger gave 120 mA to 1.2 Ah NiCd cells. Put 0.6 Ah cells in: which current would suit them? And how long does 120 mA take "
         "in 2.5 Ah?",
    phone_sliders=("capacity", "current"))


def guess_adapter():
    """Guess first: what a 12 V adapter reads with nothing drawn; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="adapter-off-load", question="An old adapter is marked 12 V, 400 mA. Out of the machine, your meter shows 17.2 V at its plug. "
        "What does that mean?",
        choices=(
            Choice("It is broken: it gives five volts too many.",
                   "Without a regulator that is usual: 1.2 to 1.6 times the marked volts off load (common practice). At 400 mA it may "
                   "well give its 12 V."),
            Choice("Nothing: under load it will come down.",
                   "It will. But a machine that is switched off draws nothing, and whatever sits ahead of the switch gets all 17.2 V: a "
                   "16 V "
                   "capacitor, say."),
            Choice("It is unregulated: read it under load, and ask what meets the 17.2 V.",
                   "Two readings give its inner ohms: (17.2 − 12) V by 0.4 A are 13 Ω. And a part rated for less than 17.2 V must not "
                   "meet it "
                   "off load.", right=True),
            Choice("The meter is wrong: the peaks of the mains come through.",
                   "The capacitor inside does charge to the peaks, and the meter reads just that, truly: off load it stays there."),
        )), reveal=opening(ADAPTER), store=my_guesses())


def guess_charger():
    """Guess first: alkaline cells in a machine with a charger; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="charger-chemistry", question="A tape player has a socket marked <em>charge</em> and was made for NiCd cells. You put "
                                          "something else in and "
        "plug the adapter in. With which cells is that safe?",
        choices=(
            Choice("Alkaline: a little charge freshens them up.", "Never. Charged, they can leak or burst (published by makers of cells)."),
            Choice("Lithium cells of the same shape: they are rechargeable too.", "Never in here: they need a charger that ends at an "
                                                                                  "exact voltage, "
                   "and overcharged they can burn. Many give 3.7 V as well, three times a NiCd cell."),
            Choice("NiMH, always: it is nearly the same.", "Only if the current suits them. At up to 0.1 It, timed, they stand it; a "
                                                           "fast charger "
                   "that waits for NiCd's way of getting full can overheat them."),
            Choice("NiMH, once its current is read and is 0.1 It or less, and timed.",
                   "Read it in line with a meter, divide by the capacity, and end it by the clock. Where you can't read it, charge "
                   "outside the "
                   "machine.",
                   right=True),
        )), reveal=opening(CHARGE), store=my_guesses())


def guess_lamps_in_series():
    """Guess first: two equal lamps in series on the volts of one; nothing opens."""
    half = lamp_current(voltage=LAMP_VOLTS / 2, rated_voltage=LAMP_VOLTS, rated_current=LAMP_CURRENT)
    return choice_guess(ChoiceGuess(
        key="lamps-in-series", question="A 6 V lamp draws 100 mA from 6 V. Two such lamps in series on the same 6 V: what do they draw?",
        choices=(
            Choice("50 mA: twice the ohms, half the current.", "So it would be with resistors. A cooler filament has fewer ohms."),
            Choice(f"About {show(half, 'A', 2)}.", "Each gets 3 V, and 0.5 to the power 0.55 is 0.68 (published rule for filament "
                                                   "lamps).", right=True),
            Choice("100 mA: current is the same all along a series circuit.", "The same in both lamps, yes, but less than one draws "
                                                                              "alone."),
            Choice("200 mA: two lamps, twice the current.", "That is two side by side, each with its own 6 V."),
        )), store=my_guesses())


def lamp_table():
    """What changes when the pilot lamp is changed, all on one supply of 6 V behind 1 ohm.

    Returns
    -------
    IPython.display.Markdown
    """
    lamp = dict(rated_voltage=LAMP_VOLTS, rated_current=LAMP_CURRENT)
    over = Q(6.6, "V")
    least, most = lamp_life(voltage=over, rated_voltage=LAMP_VOLTS)
    soft, hard = (lamp_inrush(open_voltage=LAMP_VOLTS, source_resistance=Q(1, "ohm"), cold_share=share, **lamp)
                  for share in (1 / 10, 1 / 15))
    ohms, watts = led_resistor(supply=Q(6.6, "V"), led_voltage=Q(2, "V"), current=Q(10, "mA"))
    return Markdown("\n".join((
        "| what | reckoned |", "|---|---|",
        f"| the 6 V, 100 mA lamp on 6.6 V | {show(lamp_current(voltage=over, **lamp), 'A')}, and {least:.2f} to {most:.2f} of its life |",
        f"| the same lamp, cold, switched on | {show(soft, 'A', 2)} to {show(hard, 'A', 2)} for some hundredths of a second |",
        "| a 6 V, 300 mA lamp in its place | 200 mA more, all the time: more than twice what a motor at "
        f"{show(PLAY, 'A', 2)} draws; in 1 Ω of cells and contacts {show(Q(1, 'ohm') * Q(200, 'mA'), 'V')} less for all |",
        f"| a 10 mA red light-emitting diode with {show(ohms, 'ohm')} | {show(Q(10, 'mA'), 'A', 2)}, {show(watts, 'W', 2)} in the "
        "resistor, "
        "no inrush; one way round only |")))
