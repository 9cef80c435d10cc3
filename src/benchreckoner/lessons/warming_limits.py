"""Book 05, warm: where regulation is lost to a belt and its bearing, and how hot a held motor gets."""

import numpy as np

from benchreckoner.lessons.motor_example import CELLS, COMPENSATION, CONSTANT, DROP, SET_VOLTAGE, SOURCE, WINDING
from benchreckoner.lessons.warming import PATHS, STORES
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.bearing_load import bearing_limit, belt_current
from benchreckoner.physics.copper import warm_constant, warmed_resistance
from benchreckoner.physics.governors import headroom_current
from benchreckoner.physics.motors import stall_current
from benchreckoner.physics.warm_motor import warm_current
from benchreckoner.physics.warming import held_temperature, insulation_life_factor, rise_after, runaway_current, stalled_end
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

# Pull across the motor's shaft and torque lost in bending, reckoned from rubber of 60 and 70 Shore A: 1.2 mm square stretched by 5 %,
# the same by 10 %, 1.5 mm square by 15 %. RECOMPUTED in the belt book's own reference.
BELTS = {"usual belt": (Q(0.43108, "N"), Q(27.558, "uN*m")), "tight belt": (Q(0.82480, "N"), Q(27.558, "uN*m")),
         "worst belt": (Q(2.84139, "N"), Q(99.006, "uN*m"))}
WITHOUT_BELT = Q(79.564, "mA")  # at 20 degC: play, less the usual belt on an oiled bearing
OILED, DRY, FAR_OUT = 0.1, 0.3, 0.9  # common practice: most that an oiled, a dry, and a dry overhung sleeve come to
ENAMEL = Q(105, "degC")  # a usual rating of old enamel; common practice
HOLD = Q(2, "s")
_BEARINGS = np.geomspace(0.02, 2, 41)
_MOST_MILLI, _MOST_DEGREES = 400.0, 250.0
_VOLTS = np.linspace(1, 12, 23)
_TO_AIR = PATHS["winding_to_housing"] + PATHS["housing_to_air"]


def regulation_picture(*, cell, shaft, rise):
    """Motor current against the bearing, for three belts, and the current that the supply allows.

    Parameters
    ----------
    cell : Quantity [V]
        Of one of the six cells, off load.
    shaft : Quantity [m]
        Radius of the motor's shaft.
    rise : Quantity [K]
        Of the magnet above 20 degC.

    Returns
    -------
    Picture
    """
    magnet = Q(20 + rise.m_as("K"), "degC")
    constant = warm_constant(motor_constant=CONSTANT, temperature=magnet)
    alone = warm_current(cold_current=WITHOUT_BELT, magnet=magnet)
    most = headroom_current(open_voltage=CELLS * cell, regulator_drop=DROP, set_voltage=SET_VOLTAGE, compensation=COMPENSATION,
                            source_resistance=SOURCE)
    belts = {name: dict(hub_load=pull, bending_torque=bending, shaft_radius=shaft, motor_constant=constant)
             for name, (pull, bending) in BELTS.items()}
    draws = {name: (alone + belt_current(bearing=_BEARINGS, **belt)).m_as("mA") for name, belt in belts.items()}
    ends = {name: float(bearing_limit(spare_current=most - alone, **belt).m_as("")) for name, belt in belts.items()}
    milli = float(most.m_as("mA"))
    words = (f"At {show(cell, 'V')} a cell the supply allows {show(most, 'A')}. "
             + " ".join(f"The {name} uses it up at X = {_two(value)}: {_which(value)}." for name, value in ends.items()))
    return Picture(
        title="Where regulation is lost",
        x=Axis("X: friction of the bearing times overhang", "", 0.02, 2, scale="log"),
        y=Axis("motor current", "mA", 60, _MOST_MILLI),
        curves=tuple(Curve(name, _BEARINGS, draws[name], style) for name, style in zip(draws, ("first", "second", "heavy"))),
        points=tuple(Point(name.removesuffix(" belt"), *((value, milli) if 0.02 <= value <= 2 else (np.nan, np.nan)), style)
                     for (name, value), style in zip(ends.items(), ("extra", "other", "here"))),
        limits=(Limit("supply allows", "y", milli), Limit("oiled", "x", OILED), Limit("dry", "x", DRY),
                Limit("far", "x", FAR_OUT)),
        sentence=words,
        alt=("Motor current against X, which is the bearing's friction coefficient times one plus twice the overhang, on a log axis. "
             "Three curves rise to the right, the worst belt's steepest; a level line is the current that the supply allows. Upright lines "
             f"stand at the most that an oiled, a dry, and a dry overhung bearing come to. {words}"))


REGULATION = LivePicture(
    key="where-regulation-is-lost", picture=regulation_picture,
    sliders=(Slider("cell", "volts of a cell, off load", "V", ladder(0.9, 1.5, 31), start=1.5),
             Slider("shaft", "radius of the motor's shaft", "m", ladder(0.0005, 0.002, 16), start=0.001),
             Slider("rise", "how much warmer the magnet is", "K", ladder(0, 50, 6), start=0)),
    goal="Shaft of 1 mm, cold: find the volts of a cell at which the worst belt on a dry bearing, X = 0.3, uses up what there is. Then see "
         "what 30 K of warmth change about it.",
    phone_sliders=("cell", "rise"))


def held_picture(*, volts, source, air):
    """Where a motor ends that is left on while held, against the volts, and what the first two seconds do.

    Parameters
    ----------
    volts : Quantity [V]
        Of the supply off load, less what the governor keeps.
    source : Quantity [ohm]
        Behind it.
    air : Quantity [degC]

    Returns
    -------
    Picture
    """
    held = dict(source_resistance=source, winding_resistance=WINDING, thermal_resistance=_TO_AIR, ambient=air)
    all_volts = Q(np.append(_VOLTS, volts.m_as("V")), "V")
    ends, currents = stalled_end(voltage=all_volts, **held)
    end, last = ends[-1], currents[-1]
    ohms = warmed_resistance(resistance=WINDING, cold=Q(20, "degC"), warm=air)
    edge = runaway_current(winding_resistance=WINDING, thermal_resistance=_TO_AIR)
    amps = stall_current(voltage=all_volts, winding_resistance=ohms + source)
    settles = amps < edge
    kept = np.full(len(amps), np.nan)
    kept[settles] = held_temperature(current=amps[settles], winding_resistance=WINDING, thermal_resistance=_TO_AIR, ambient=air).m_as("degC")
    gained = rise_after(power=amps[-1] ** 2 * ohms, thermal_resistance=PATHS["winding_to_housing"],
                        heat_capacity=STORES["winding_capacity"], time=HOLD)
    wrong = 100 * float((warmed_resistance(resistance=ohms, cold=air, warm=air + gained) / ohms).m_as("") - 1)
    degrees = float(end.m_as("degC"))
    words = (f"Held on {show(volts, 'V')} behind {show(source, 'ohm')}, it starts at {show(amps[-1], 'A')} and ends at "
             f"{degrees:.0f} °C and {show(last, 'A')}: {_enamel(end)}. {_kept(kept[-1], edge)} In the first 2 s the winding "
             f"gains {float(gained.m_as('delta_degC')):.2g} K, so that its ohms read {wrong:.2g} % high.")
    return Picture(
        title="A motor left on while it is held",
        x=Axis("volts of the supply, less the governor's own", "V", 1, 12),
        y=Axis("winding in the end", "degC", 0, _MOST_DEGREES),
        curves=(Curve("if the current stayed", _VOLTS, np.where(kept[:-1] <= 2 * _MOST_DEGREES, kept[:-1], np.nan), "second"),
                Curve("volts that stay", _VOLTS, ends[:-1].m_as("degC"), "heavy")),
        points=(Point("here", float(volts.m_as("V")), degrees if degrees <= _MOST_DEGREES else np.nan),),
        limits=(Limit("rating of old enamel", "y", float(ENAMEL.m_as("degC"))),),
        sentence=words,
        alt=("Temperature of a held motor's winding in the end, against volts. One curve for volts that stay bends less and less steeply "
             f"upwards, one for the first current kept up climbs without end. A level line stands at 105 °C. {words}"))


HELD = LivePicture(
    key="motor-left-on", picture=held_picture,
    sliders=(Slider("volts", "volts of the supply, less the governor's own", "V", ladder(1, 12, 111), start=8.7),
             Slider("source", "ohms behind it", "ohm", (0, 0.5, 1, 1.5, 2.2, 3, 4, 5, 6, 8), start=2.2),
             Slider("air", "the air round it", "degC", ladder(15, 45, 7), start=25)),
    goal="2.2 Ω behind it, air of 25 °C: find the volts at which the winding ends at 105 °C. Then find the volts at which two seconds make the "
         "ohms read no more than 0.1 % high: those are for the held test.",
    phone_sliders=("volts", "source"))


def guess_tight():
    """Guess first: whether a tight belt slows a governed motor; the limits open afterwards."""
    return choice_guess(ChoiceGuess(
        key="warming-tight-belt",
        question="Fresh cells, six of them, a sound governor. Somebody fits the thickest belt in the bag, far too tight, and the motor's bearing has "
                 "run dry. The record turns:",
        choices=(
            Choice("Slowly: a belt that tight must slow it.",
                   "The governor gives the motor more volts, and fresh cells have them: they allow 316 mA, and it takes some 153. It holds."),
            Choice("At the right speed, and the cells pay.",
                   "About 80 mA without any belt, 153 with this one on a bearing of X = 0.3. Near the end of the cells the same belt does "
                   "slow it.", right=True),
            Choice("At the right speed, and nothing is lost.", "The current nearly doubles. The cells last about half as long, and the bearing wears."),
            Choice("Right at first, slow after ten minutes.", "Warmth takes a few per cent more current here, not twice as much. It matters when a load "
                   "sits just inside what the supply allows."),
        )), reveal=opening(REGULATION), store=my_guesses())


def guess_held():
    """Guess first: how hot a motor gets that is left on while held; the picture opens afterwards."""
    end = stalled_end(voltage=Q(8.7, "V"), source_resistance=SOURCE, winding_resistance=WINDING, thermal_resistance=_TO_AIR, ambient=Q(25, "degC"))[0]
    return number_guess(NumberGuess(
        key="warming-held",
        question="The belt has jammed, and the motor (15 Ω at 20 °C) is left on with 8.7 V behind 2.2 Ω, in air of 25 °C. It sheds its heat through "
                 "34 K for each watt. Where does the winding's temperature end?",
        unit="degC", truth=end,
        explanation="<p>Half an ampere at first, 3.8 W; those ohms would lead to 154 °C. But warm copper lets less current through, and that "
                    "saves some thirty degrees. It is still past the 105 °C of old enamel, and far past what a finger stands.</p>"),
        reveal=opening(HELD), store=my_guesses())


def _two(value):
    return f"{value:.2f}" if value < 10 else f"{value:.0f}"


def _which(value):
    if value <= 0:
        return "with any bearing"
    if value <= OILED:
        return "even an oiled bearing can come to that"
    if value <= DRY:
        return "a dry bearing can come to that"
    return "a dry one with the pulley far out can" if value <= FAR_OUT else "no bearing comes to that"


def _enamel(end):
    factor = insulation_life_factor(temperature=end, rated=ENAMEL)
    if factor <= 1:
        return "inside what old enamel is rated for, 105 °C"
    return (f"old enamel, rated for 105 °C, would last about {factor:.2g} times shorter" if factor <= 16 else
            "far past the 105 °C that old enamel is rated for; it burns")


def _kept(degrees, edge):
    if np.isnan(degrees):
        return f"A supply that kept that first current up would run away: from {show(edge, 'A')} on there is no end."
    if degrees > 2 * _MOST_DEGREES:
        return "A supply that kept that first current up would burn it."
    return f"A supply that kept that first current up would take it to {degrees:.0f} °C."
