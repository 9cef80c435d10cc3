"""Book 05, cells: how many keep the governor fed to their end, what a start does to the volts, and saying it."""

import numpy as np
from IPython.display import Markdown

from benchreckoner.bench.cell_kinds import cell_kinds, kind_of
from benchreckoner.lessons.motor_example import (BRUSH, CELL_RESISTANCE, CELLS, COMPENSATION, CONSTANT, CONTACTS, DROP, HEAVY,
                                                 OPEN_CELL, OPEN_VOLTAGE, PLAY, SENSE, SET_VOLTAGE, WINDING)
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.governors import supplied_speed
from benchreckoner.physics.supply import regulation_end, start_dip
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact

_GOVERNOR = dict(set_voltage=SET_VOLTAGE, compensation=COMPENSATION, regulator_drop=DROP)
_MOTOR = dict(winding_resistance=WINDING, motor_constant=CONSTANT, brush_drop=BRUSH)
_LEAST, _MOST, _FASTEST = 0.6, 1.7, 2600.0
_HYDRIDE, _ALKALINE = kind_of("NiMH"), kind_of("alkaline")
OURS = ("Five NiMH cells would let this governor go at about 1.19 V a cell under a heavy load, and such cells stay near 1.2 V for most of "
        "their charge: too few. Six hold to 1.00 V, just to their end. That is reckoned from the motor's readings; I have not yet "
        "measured the new cells in the machine.")


def cell_end(*, cells, current, cell=CELL_RESISTANCE):
    """Open-circuit volts of each cell at which the example's governor lets go.

    Parameters
    ----------
    cells : int
    current : Quantity [A]
    cell : Quantity [ohm], optional

    Returns
    -------
    Quantity [V]
    """
    return regulation_end(cells=cells, current=current, cell_resistance=cell, other_resistance=CONTACTS + SENSE, **_GOVERNOR)


def cells_picture(*, cells, current):
    """Speed against the open-circuit volts of each cell, for so many cells in series.

    Parameters
    ----------
    cells : float
        A whole number, as a slider hands it over.
    current : Quantity [A]

    Returns
    -------
    Picture
        Where the motor would stand the curve has a gap.
    """
    count = int(cells)
    end = cell_end(cells=count, current=current).m_as("V")
    source = count * CELL_RESISTANCE + CONTACTS + SENSE
    stands = (DROP + BRUSH + current * (WINDING + source)).m_as("V") / count
    axis = np.sort(np.append(np.linspace(_LEAST, _MOST, 56), np.clip([end, stands], _LEAST, _MOST)))
    speed, turning = np.full(len(axis), np.nan), axis >= stands
    if turning.any():
        speed[turning] = supplied_speed(current=current, open_voltage=Q(count * axis[turning], "V"), source_resistance=source,
                                        **_GOVERNOR, **_MOTOR)[0].m_as("turn/min")
    held = supplied_speed(current=current, open_voltage=Q(count * end + 1, "V"), source_resistance=source, **_GOVERNOR,
                          **_MOTOR)[0].m_as("turn/min")
    seen = _LEAST <= end <= _MOST
    said = _said(count, current, end)
    line = ("From the right the line runs level while the governor holds, bends at a knee and falls to the left, where the cells set the speed."
            if seen else "The line runs level all along, since the governor holds." if end < _LEAST else
            "The line falls from right to left, since the cells set the speed all along." if turning.any() else
            "No line is drawn: the motor stands.")
    return Picture(
        title="How far down so many cells keep the speed",
        x=Axis("volts of one cell, nothing drawn", "V", _LEAST, _MOST), y=Axis("motor's speed", "turn/min", 0, _FASTEST, symbol="r/min"),
        curves=(Curve("speed", axis, speed, "heavy"),),
        points=(Point("here", end if seen else np.nan, held if seen else np.nan),),
        bands=(_bar("alkaline, empty to fresh", _ALKALINE.end_point, OPEN_CELL, 300, "first"),
               _bar("NiMH, empty to usual", _HYDRIDE.end_point, _HYDRIDE.nominal, 550, "second")),
        limits=(Limit("lets go here", "x", end if seen else np.nan),),
        sentence=said,
        alt=(f"Motor speed against the volts of one cell. {line} Two bars at the bottom show where cells are used: alkaline from empty at "
             "0.9 V "
             f"to fresh at 1.5 V, NiMH from empty at 1.0 V to its usual 1.2 V. {said}"))


CELLS_TO_END = LivePicture(
    key="cells-to-the-end", picture=cells_picture,
    sliders=(Slider("cells", "cells in series", "", tuple(range(2, 11)), start=CELLS),
             Slider("current", "current drawn by the motor", "A", ladder(0.02, 0.2, 37), start=PLAY.m_as("A"))),
    goal="140 mA: find the fewest cells that hold the speed down to where NiMH cells are empty, 1.0 V. And at 85 mA?",
    phone_sliders=("cells", "current"))


def dip_picture(*, contacts, cell):
    """Volts behind cells and contacts, starting and playing, against the ohms of contacts and wires.

    Parameters
    ----------
    contacts : Quantity [ohm]
        Contacts, switch and wires together; where the reader stands.
    cell : Quantity [ohm]
        Inside one of the six cells.

    Returns
    -------
    Picture
    """
    here, inside = contacts.m_as("ohm"), CELLS * cell
    ohms = np.append(np.geomspace(_FEW, _MANY, 81), here)  # one reckoning for curves and points
    current, start = start_dip(open_voltage=OPEN_VOLTAGE, supply_resistance=inside + Q(ohms, "ohm"), regulator_drop=DROP,
                               motor_resistance=WINDING + SENSE, brush_drop=BRUSH)
    start, play = start.m_as("V"), (OPEN_VOLTAGE - PLAY * (inside + Q(ohms, "ohm"))).m_as("V")
    needed = (SET_VOLTAGE + COMPENSATION * PLAY + DROP + SENSE * PLAY).m_as("V")
    word = "still holds the speed" if play[-1] >= needed else "no longer holds the speed"
    said = (f"With {show(contacts, 'ohm', 2)} in contacts and wires and {show(cell, 'ohm', 2)} in each of six cells, {start[-1]:.2f} V are "
            f"left in the moment of the start, at {show(Q(float(current.m_as('A')[-1]), 'A'), 'A')}. Playing, at {show(PLAY, 'A', 2)}, "
            f"{play[-1]:.2f} V are left, and the governor {word}.")
    return Picture(
        title="The same ohms at the start and while playing",
        x=Axis("ohms of contacts and wires", "ohm", _FEW, _MANY, scale="log"), y=Axis("volts left", "V", 0, 9.5),
        curves=(Curve("playing", ohms[:-1], play[:-1], "second"), Curve("at the start", ohms[:-1], start[:-1], "heavy")),
        points=(Point("start", here, start[-1]), Point("play", here, play[-1], "other")),
        limits=(Limit("the governor needs this", "y", needed),),
        sentence=said,
        alt=("Two lines of the volts left behind cells and contacts, against the ohms of contacts and wires on a log axis. Both are nearly "
             f"level on the left and bend down on the right, the one of the start far sooner and deeper than the one of playing. {said}"))


_FEW, _MANY = 0.05, 30.0
START_DIP = LivePicture(
    key="cells-start-dip", picture=dip_picture,
    sliders=(Slider("contacts", "ohms of contacts and wires", "ohm",
                    tuple(sorted({*ladder(_FEW, _MANY, 81, "log"), CONTACTS.m_as("ohm")})), start=CONTACTS.m_as("ohm")),
             Slider("cell", "ohms of each cell", "ohm", (0.02, 0.04, 0.06, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1.0, 1.5),
                    start=CELL_RESISTANCE.m_as("ohm"))),
    goal="Find the ohms of contacts that leave 6.0 V at the start. What is lost while playing, and would you hear it?",
    phone_sliders=("contacts", "cell"))


def guess_one_cell_short():
    """Guess first: do five NiMH cells do where six alkaline ones did; the picture opens afterwards."""
    five, six = (cell_end(cells=count, current=HEAVY).m_as("V") for count in (5, 6))
    return choice_guess(ChoiceGuess(
        key="cells-one-short",
        question=(f"A player with a governor was made for six alkaline cells. You have five NiMH cells and a dummy for the sixth place. "
                  "Its "
                  f"motor draws {show(PLAY, 'A', 2)}, and {show(HEAVY, 'A')} under a heavy load. Will five do?"),
        choices=(
            Choice("Yes: 1.2 V cells always do where 1.5 V cells did.",
                   f"Often, but reckon it. At {show(HEAVY, 'A')} five let go at {five:.2f} V each, and such cells stay near 1.2 V for "
                   "most of "
                   "their charge."),
            Choice("No: the governor needs the 9 V that are written on the case.",
                   "It needs about 5 V at the play current, all losses in. Nine are only what six fresh cells give."),
            Choice(f"Just at {show(PLAY, 'A', 2)}, not under the heavy load.",
                   f"At {show(PLAY, 'A', 2)} five hold to 1.00 V each, just their end point; at {show(HEAVY, 'A')} they let go at "
                   f"{five:.2f} V, "
                   f"where most of their time lies. Six hold to {six:.2f} V.", right=True),
            Choice("Yes: a governor makes up for any volts.",
                   "It can only take volts away. Once the cells give less than it needs, it is fully open and the cells set the speed."),
        )), reveal=opening(CELLS_TO_END), store=my_guesses())


def guess_start():
    """Guess first: what shows a dirty contact that playing hides; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="cells-start", question="A player on six cells plays at the right speed, but starts late and its lamp blinks at each start. "
        "With the motor playing, the cells' volts look right. What now?",
        choices=(
            Choice("The cells are sound, so the motor is at fault.",
                   "At the start it draws six times the current of playing. Volts read while playing cannot clear the way to it."),
            Choice("Fit fresh cells and hope.", "They would dip less for a while. A joint of several ohms would stay, and stay hidden."),
            Choice("Read the volts at the start, with min/max hold, on both sides of the contacts.",
                   "There the ohms show: six times the current, six times the drop. Playing, the governor hides them.", right=True),
        )), reveal=opening(START_DIP), store=my_guesses())


def cell_table():
    """The kinds of cells, each value with its mark; a list, since a phone has no room for a table.

    Returns
    -------
    IPython.display.Markdown
    """
    return Markdown("\n".join(
        f"- **{kind.name}:** {show_exact(kind.nominal, 'V')} ({kind.nominal_mark}); empty under load at {kind.end_point.m_as('V'):.1f} V "
        f"({kind.end_mark}: *{kind.end_source}*); one AA cell {kind.ohms} ({kind.ohms_mark}); "
        f"{'may be charged, with the right charger' if kind.chargeable else 'never charge it'}." for kind in cell_kinds()))


def say_cells():
    """Two sentences to somebody who wants to leave one cell out."""
    return say_it(
        "cells-one-short", "A friend wants to run the same player on five NiMH cells and a dummy. Tell them in two sentences whether that "
        "will do, how you know, how sure you are and what you have not tried.",
        ours=OURS, checks=SayChecks(what=("cells", "cell"), known=("reckoned", "reckon"), quantities=(
            (Q(1.19, "V"), "V"), (Q(1.0, "V"), "V"), (Q(1.2, "V"), "V"), (Q(140, "mA"), "A"))), store=my_guesses())


def _bar(name, empty, fresh, bottom, style):
    """Where on the axis one kind of cell is used, as a bar at the foot of the picture."""
    return Band(name, np.array([empty.m_as("V"), fresh.m_as("V")]), np.full(2, bottom), np.full(2, bottom + 170), style)


def _said(count, current, end):
    inside = "below this picture" if end < _LEAST else "above this picture" if end > _MOST else ""
    start = (f"{count} cells at {show(current, 'A')} keep the speed down to {end:.2f} V each" + (f", {inside}" if inside else "") + ": ")
    if end > _MOST:
        return start + "no such cells ever give that, so the governor never holds."
    if end > OPEN_CELL.m_as("V"):
        return start + "more than fresh alkaline cells give at rest, so the governor never holds for long."
    if end > _HYDRIDE.nominal.m_as("V"):
        return start + "fresh alkaline cells do for a while, NiMH cells never."
    if end > _HYDRIDE.end_point.m_as("V"):
        return start + "the speed goes before the cells are empty, with NiMH cells and with alkaline ones."
    if end > _ALKALINE.end_point.m_as("V"):
        return start + "NiMH cells are empty first, alkaline ones slow the machine before their end."
    return start + "every cell is empty first, and none is wasted."
