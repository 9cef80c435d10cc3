"""Book 05, the governor: speed against supply and load with the knee in sight, the guesses, and saying it."""

import numpy as np

from benchreckoner.lessons.motor_example import (BRUSH, COMPENSATION, CONSTANT, DROP, OPEN_VOLTAGE, PLAY, SET_VOLTAGE, SOURCE,
                                                 WINDING)
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.governors import supplied_speed, ungoverned_speed
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show

OURS = ("I read 9.0 V from the cells off load and 4.4 V on the motor at 85 mA: the transistor keeps about 4.4 V, and about 5.0 V from "
        "the cells would be enough, so more volts would only warm it. Whether the trimmer, the reference or a slipping belt makes it slow "
        "I do not know yet; the motor's own speed comes next.")
_LEAST, _MOST = 2.0, 15.0
_NO_READING = Point("your reading", np.nan, np.nan, "own")


def supply_picture(*, supply, current, compensation, source, set_voltage=SET_VOLTAGE, winding=WINDING, constant=CONSTANT,
                   brush=BRUSH, drop=DROP, own=_NO_READING):
    """Speed of a motor with governor against its supply's volts, at one load.

    Parameters
    ----------
    supply : Quantity [V]
        Off load; where the reader stands.
    current : Quantity [A]
    compensation, source : Quantity [ohm]
        The governor's, and all before it with its sense resistor.
    set_voltage : Quantity [V], optional
    winding : Quantity [ohm], optional
    constant : Quantity [V*s/rad], optional
    brush, drop : Quantity [V], optional
        Of the brushes; the least that the transistor keeps.
    own : Point, optional
        The reader's own reading: volts off load across, turns a minute up.

    Returns
    -------
    Picture
        Where the motor would stand the curves have a gap.
    """
    motor = dict(winding_resistance=winding, motor_constant=constant, brush_drop=brush)
    feed = dict(regulator_drop=drop, source_resistance=source)
    volts, amps = supply.m_as("V"), current.m_as("A")
    wanted = (set_voltage + compensation * current).m_as("V")
    knee = wanted + drop.m_as("V") + amps * source.m_as("ohm")
    turns_from = (drop + brush + current * (winding + source)).m_as("V")
    can_turn = wanted >= (brush + current * winding).m_as("V")
    most = float(np.ceil(np.nanmax([_MOST, own.x])))
    axis = np.sort(np.append(np.linspace(_LEAST, most, 53), np.clip([turns_from, knee], _LEAST, most)))
    along = np.append(axis, volts)  # one reckoning for curve and point: a slider waits for it
    open_wide, held = (np.full(len(along), np.nan) for _ in range(2))
    turning = along >= turns_from
    if turning.any():
        fed = dict(open_voltage=Q(along[turning], "V"), **feed)
        open_wide[turning] = ungoverned_speed(current=current, **fed, **motor).m_as("turn/min")
        if can_turn:
            held[turning] = supplied_speed(current=current, set_voltage=set_voltage, compensation=compensation, **fed,
                                           **motor)[0].m_as("turn/min")
    top = _top(set_voltage, brush, constant, own)
    speed = held[-1]
    said = _said(volts, amps, knee, wanted, speed, held=volts >= knee, can_turn=can_turn, ohms=source.m_as("ohm"),
                 spare=volts - knee, needs=drop.m_as("V"))
    return Picture(
        title="What the supply's volts do to a governed motor",
        x=Axis("supply, off load", "V", _LEAST, most), y=Axis("motor's speed", "turn/min", 0, top, symbol="r/min"),
        curves=(Curve("governor fully open", axis, open_wide[:-1], "faint"), Curve("with its governor", axis, held[:-1], "heavy")),
        points=(Point("here", volts, speed if speed <= top else np.nan), own),
        limits=(Limit("held from here", "x", knee if can_turn and _LEAST <= knee <= most else np.nan),),
        sentence=said,
        alt=f"Motor speed against the supply's volts off load. {_seen(axis, open_wide[:-1], held[:-1], knee)} {said}")


def _seen(axis, open_wide, held, knee):
    """What is drawn, for the alt text: either line may be missing."""
    if np.isnan(open_wide).all():
        return "No line is drawn: the motor stands all along."
    faint = "A faint line climbs with the volts, as it would with the governor fully open."
    if np.isnan(held).all():
        return f"{faint} With its governor the motor stands, and no line is drawn for that."
    if knee > axis[-1]:
        return "The heavy line climbs with the volts, and a faint one is hidden under it: the supply sets the speed all along."
    if knee < axis[0]:
        return f"The heavy line runs level: the governor sets the speed all along. {faint}"
    return ("The heavy line climbs with the volts, bends at a knee and runs on level: left of the knee the supply sets the speed, right of it the "
            "governor does. A faint line shows how it would climb on with the governor fully open.")


SUPPLY = LivePicture(
    key="governor-supply", picture=supply_picture,
    sliders=(Slider("supply", "supply, off load", "V", ladder(_LEAST, _MOST, 53), start=OPEN_VOLTAGE.m_as("V")),
             Slider("current", "current drawn by the motor", "A", ladder(0.02, 0.4, 77), start=PLAY.m_as("A")),
             Slider("compensation", "the governor's compensation", "ohm", ladder(0, 15, 31), start=COMPENSATION.m_as("ohm")),
             Slider("source", "cells, contacts, wires, sense resistor", "ohm", (1.2, 1.5, 2.2, 3, 4, 5, 6, 8, 10),
                    start=SOURCE.m_as("ohm"))),
    goal="85 mA: find the fewest volts at which the governor still holds 2400 r/min. Then make it 140 mA: how many more does it take?",
    phone_sliders=("supply", "current"))


def guess_more_volts():
    """Guess first: what more volts do for a slow governed motor; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="governor-more-volts",
        question="A player with an electronic governor runs 3 % slow. Its six cells give 9.0 V off load, the motor gets 4.4 V. "
                 "What will a 12 V supply do?",
        choices=(
            Choice("It makes the motor faster: more volts, more speed.",
                   "So it would without a governor. Here the governor lets through what it was set to, and its transistor keeps the rest."),
            Choice("The speed stays. Only the transistor gets warmer.",
                   "About 5 V off load would do at this load. All volts above that stay in the transistor, as heat: 3 V more at 85 mA "
                   "are a quarter of a watt more.", right=True),
            Choice("It helps a little, for the cells were near their end.",
                   "The motor gets 4.4 V of nearly 9: there are about 4 V to spare. Near the end, the two would lie within half a volt."),
            Choice("It lets the trimmer take hold again.",
                   "The trimmer has hold already. It loses it only where the transistor has no volts left to work with."),
        )), reveal=opening(SUPPLY), store=my_guesses())


def say_trimmer():
    """Two sentences to somebody who reaches for a stronger adapter."""
    return say_it(
        "governor-volts", "The player is slow, cells at 9.0 V off load, 4.4 V on the motor, 85 mA. Somebody fetches a stronger adapter. "
        "Tell them in two sentences what the readings say, and what you would measure next.",
        ours=OURS,
        checks=SayChecks(what=("governor", "transistor", "trimmer"), known=("volts", "meter"),
                         quantities=((Q(4.4, "V"), "V"), (Q(9, "V"), "V"), (Q(5, "V"), "V"), (Q(85, "mA"), "A"))),
        store=my_guesses())


def _top(set_voltage, brush, constant, own):
    """The axis' end, the same wherever the sliders stand: well above the set speed and above the reader's own."""
    speed = ((set_voltage - brush) / constant).m_as("turn/min")
    most = np.nanmax([1.3 * speed, 1.1 * own.y])
    return float(np.ceil(most / 500) * 500)


def _said(volts, amps, knee, wanted, speed, *, held, can_turn, ohms, spare, needs):
    load = f"On {show(Q(volts, 'V'), 'V')} off load, at a load of {show(Q(amps, 'A'), 'A', digits=2)}"
    if not can_turn:
        return (f"{load}: the governor gives no more than {show(Q(wanted, 'V'), 'V')}, too few for this current through the "
                "winding, so the motor stands, whatever the supply.")
    edge = show(Q(knee, "V"), "V")
    if np.isnan(speed):
        return f"{load}: the motor stands, for its ohms and those before it take all the volts. From {edge} on the governor would hold it."
    turns = show(Q(speed, "turn/min"), "turn/min")
    if held:
        kept = show(Q(volts - amps * ohms - wanted, "V"), "V")
        return (f"{load}: the governor holds {turns}. The transistor keeps {kept}, {show(Q(spare, 'V'), 'V')} more than it needs; "
                f"below {edge} off load it would let go.")
    return (f"{load}: {show(Q(-spare, 'V'), 'V')} too few. The governor is fully open, its transistor keeps the last {show(Q(needs, 'V'), 'V')}, "
            f"and the motor follows the supply: {turns}. From {edge} on it would be held.")
