"""Exercises of book 05 on warmth: two that fade, and one that mixes the laws."""

import numpy as np

from benchreckoner.lessons.motor_example import CONSTANT, PLAY_SPEED, WINDING
from benchreckoner.lessons.warming import PATHS
from benchreckoner.physics.bearing_load import bearing_limit
from benchreckoner.physics.copper import rise_by_resistance, stopped_resistance
from benchreckoner.physics.warm_motor import warm_current, warm_drift
from benchreckoner.physics.warming import held_temperature, rhythm_temperatures
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show

_ROOM = Q(20, "degC")
_TO_AIR = PATHS["winding_to_housing"] + PATHS["housing_to_air"]


def rise_from_ohms(seed=None, blanks=1):
    """How warm a winding got, from its ohms and the probes' own."""
    return exercise(_rise_from_ohms, key="warming-rise", seed=seed, blanks=blanks)


def copper_and_magnet(seed=None, blanks=2):
    """What a rise does to a governed motor's speed, copper and magnet together."""
    return exercise(_copper_and_magnet, key="warming-drift", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_rise_from_ohms, _copper_and_magnet, _back_to_stopping, _more_current, _held_current, _bearing, _rhythm)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="warming-mixed", seed=seed, blanks=blanks)


def _rise_from_ohms(rng):
    leads, cold = Q(float(rng.choice([0.2, 0.3, 0.5])), "ohm"), Q(float(rng.choice([8, 12, 15, 22])), "ohm")
    first, room = Q(float(f"{(cold + leads).m_as('ohm'):.2f}"), "ohm"), float(rng.choice([15, 18, 20, 23]))
    second = Q(float(f"{first.m_as('ohm') + cold.m_as('ohm') * rng.uniform(0.06, 0.2):.2f}"), "ohm")
    ratio = float(((second - leads) / (first - leads)).m_as(""))
    rise = _kelvin(rise_by_resistance(cold_resistance=first - leads, warm_resistance=second - leads, cold=Q(room, "degC")))
    return Problem(
        question="A motor is read cold, after hours at rest, and again at the moment it stops. The probes' own ohms are in both readings. How "
                 "many kelvin warmer is the winding?",
        given=(("probes together", show(leads, "ohm", digits=2)), ("cold", show(first, "ohm", digits=4)), ("warm", show(second, "ohm", digits=4)),
               ("room", f"{room:g} °C")),
        answer=rise, unit="K", tolerance=0.02,
        steps=(Step("Take the probes off both, then warm over cold:", f"{ratio:.4f}"),
               Step("Copper's 234.5 and the cold temperature together:", f"{234.5 + room:.1f} K"),
               Step("What the ratio has above one, times that:", show(rise, "K"))),
        slips=(Slip(_kelvin(rise_by_resistance(cold_resistance=first, warm_resistance=second, cold=Q(room, "degC"))),
                    "The probes are still in it. They don't warm."),
               Slip(Q(float(rise.magnitude) + room, "K"), "That is the temperature. Asked is how much <em>warmer</em>."),
               Slip(Q((ratio - 1) * 234.5, "K"), "The line meets zero at −234.5 °C, and the cold winding was already above 0 °C: add its "
                                                  "temperature.")))


def _copper_and_magnet(rng):
    current, rise = Q(float(rng.choice([40, 60, 85, 120, 140])), "mA"), float(rng.choice([15, 20, 25, 30, 40]))
    hot = Q(20 + rise, "degC")
    volts = (CONSTANT * PLAY_SPEED).to("V")
    strength, more = 1 - 0.002 * rise, WINDING.m_as("ohm") * rise / 254.5
    taken = current.m_as("A") / strength
    loss = 100 * more * taken / volts.m_as("V")
    whole, copper, magnet = (_turning(warm_drift(
        cold_current=current, winding=winding, magnet=shell, set_voltage=volts, compensation=WINDING, open_voltage=Q(30, "V"),
        regulator_drop=Q(0.3, "V"), source_resistance=Q(2, "ohm"), winding_resistance=WINDING, motor_constant=CONSTANT))
        for winding, shell in ((hot, hot), (hot, _ROOM), (_ROOM, hot)))
    return Problem(
        question="A governed motor's compensation is its own ohms at 20 °C, so all its turning volts are the set volts. Winding and ferrite "
                 "magnet are now warmer; the load's torque is the same. How fast does it turn now?",
        given=(("speed at 20 °C", show(PLAY_SPEED, "turn/min")), ("ohms at 20 °C", show(WINDING, "ohm")), ("set volts", show(volts, "V", digits=4)),
               ("current when cold", show(current, "A")),
               ("warmer by", f"{rise:g} K")),
        answer=whole, unit="turn/min", tolerance=0.002,
        steps=(Step("The magnet's strength, less 0.2 % for each kelvin:", f"{strength:.3f}"),
               Step("The current now, and the copper's new ohms (a 254.5th for each kelvin):", f"{1e3 * taken:.1f} mA, {more:.3f} Ω"),
               Step("What they take of the set volts:", f"{loss:.2f} %"),
               Step("The speed, times what is left of the volts, over the strength:", show(whole, "turn/min"))),
        slips=(Slip(copper, "That is copper alone. The magnet is warm too."),
               Slip(magnet, "That is the magnet alone. The copper is warm too."),
               Slip(copper * strength, "A weaker magnet makes it <em>faster</em>: the same volts need more turns.")))


def _back_to_stopping(rng):
    late, wait = Q(float(rng.choice([9, 13, 16, 24])), "ohm"), float(rng.choice([6, 9, 12, 18]))
    first = Q(float(f"{late.m_as('ohm') * (1 + rng.uniform(0.01, 0.03)):.2f}"), "ohm")
    ohms = stopped_resistance(first=first, late=late, waited=Q(wait, "s"), time_constant=Q(18, "s"))
    left = float(np.exp(-wait / 18))
    return Problem(
        question="A winding cools towards its shell in 18 s (by a factor e). It is read some seconds after stopping, and again two minutes "
                 "later. How many ohms had it when it stopped?",
        given=(("read first", show(first, "ohm", digits=4)), ("seconds after stopping", f"{wait:g} s"), ("read late", show(late, "ohm", digits=4))),
        answer=ohms, unit="ohm", tolerance=Q(0.02, "ohm"),
        steps=(Step("What is still there of the difference after that wait:", f"{left:.3f}"),
               Step("The difference as it was read:", show(first - late, "ohm")),
               Step("The late ohms, and that difference over what is still there:", show(ohms, "ohm", digits=4))),
        slips=(Slip(first, "It has cooled for some seconds by then."),
               Slip(late + (first - late) * left, "Backwards: before, the difference was <em>larger</em>."),
               Slip((first / left).to("ohm"), "Only the difference to the shell fades, not all the ohms.")))


def _more_current(rng):
    current, rise = Q(float(rng.choice([45, 60, 85, 110, 140])), "mA"), float(rng.choice([20, 30, 40, 50]))
    warm = warm_current(cold_current=current, magnet=Q(20 + rise, "degC"))
    strength = 1 - 0.002 * rise
    return Problem(
        question="A motor with a ferrite magnet turns the same load, and its magnet is warmer than the 20 °C it was at first. What does it draw now?",
        given=(("current at first", show(current, "A")), ("warmer by", f"{rise:g} K")),
        answer=warm, unit="A", tolerance=0.01,
        steps=(Step("The magnet's strength, less 0.2 % for each kelvin:", f"{strength:.3f}"),
               Step("The same torque takes the current over that:", show(warm, "A", digits=4))),
        slips=(Slip(current, "That is the cold current. A weaker magnet pulls less for each ampere."),
               Slip(current * strength, "A weaker magnet needs <em>more</em> current for the same torque.")))


def _held_current(rng):
    current, air = Q(float(rng.choice([200, 250, 300, 350])), "mA"), float(rng.choice([20, 25, 30]))
    end = held_temperature(current=current, winding_resistance=WINDING, thermal_resistance=_TO_AIR, ambient=Q(air, "degC"))
    plain = float((current**2 * WINDING * _TO_AIR).m_as("delta_degC"))
    rise = Q(end.m_as("degC") - air, "K")
    start = plain * (1 + (air - 20) / 254.5)
    return Problem(
        question="A bench supply holds a motor's current while the motor cannot turn. How many kelvin above the air does the winding end, with the "
                 "copper's growing ohms counted?",
        given=(("ohms at 20 °C", show(WINDING, "ohm")), ("current held", show(current, "A")), ("air", f"{air:g} °C"),
               ("winding to air", f"{_TO_AIR.magnitude:g} K/W")),
        answer=rise, unit="K", tolerance=0.02,
        steps=(Step("Current squared, ohms at 20 °C, K/W: the rise if the ohms stayed:", f"{plain:.1f} K"),
               Step("The same with the ohms at the air's temperature:", f"{start:.1f} K"),
               Step("One, less a 254.5th for each of the first kelvins:", f"{1 - plain / 254.5:.4f}"),
               Step("The second over the third:", show(rise, "K"))),
        slips=(Slip(Q(plain, "K"), "Each kelvin adds ohms, and at a held current each ohm adds heat."),
               Slip(Q(start, "K"), "That counts the air's warmth only. The winding's own comes on top."),
               Slip(Q(float(end.m_as("degC")), "K"), "That is the temperature. Asked is how far it is above the air.")))


def _bearing(rng):
    spare, pull = Q(float(rng.choice([20, 40, 60, 120])), "mA"), Q(float(rng.choice([0.4, 0.8, 1.5, 2.8])), "N")
    shaft, bending = Q(float(rng.choice([0.8, 1, 1.5])), "mm"), Q(float(rng.choice([20, 40, 60, 100])), "uN*m")
    limit = bearing_limit(spare_current=spare, hub_load=pull, bending_torque=bending, shaft_radius=shaft, motor_constant=CONSTANT)
    torque = 1e6 * (CONSTANT * Q(1, "rad") * spare).m_as("N*m")
    lever = 1e6 * (pull * shaft).m_as("N*m")
    return Problem(
        question="A belt may take no more than a given current before the governor runs out of volts. At which X, friction coefficient times one plus "
                 "twice the overhang, is that?",
        given=(("current to spare", show(spare, "A")), ("motor", "13.0 mN·m for each ampere"), ("pull across the shaft", show(pull, "N", digits=2)),
               ("radius of the shaft", show(shaft.to("m"), "m", digits=2)), ("bending the belt takes", f"{bending.magnitude:g} µN·m")),
        answer=limit, unit="", tolerance=0.02,
        steps=(Step("The torque that the spare current gives:", f"{torque:.1f} µN·m"),
               Step("Less the bending:", f"{torque - bending.magnitude:.1f} µN·m"),
               Step("Over pull times radius:", f"{float(limit.magnitude):.4f}")),
        slips=(Slip(Q(torque / lever, ""), "Bending takes its share first."),
               Slip(Q((torque + float(bending.magnitude)) / lever, ""), "Bending takes torque away; take it off."),
               Slip(limit / 2, "The radius counts here, not the diameter.")))


def _rhythm(rng):
    load_end, idle_end = float(rng.choice([80, 100, 125])), float(rng.choice([20, 25]))
    load_time, idle_time, tau = float(rng.choice([2, 5, 10])), float(rng.choice([10, 20, 30])), float(rng.choice([18, 30, 60]))
    lowest, highest = rhythm_temperatures(load_end=Q(load_end, "degC"), idle_end=Q(idle_end, "degC"), load_time=Q(load_time, "s"),
                                          idle_time=Q(idle_time, "s"), time_constant=Q(tau, "s"))
    working, resting = np.exp(-load_time / tau), np.exp(-idle_time / tau)
    return Problem(
        question="Somebody tests a held motor again and again, some seconds on, some seconds off, while the shell hardly changes. How hot does the "
                 "winding get in each turn, once the turns repeat themselves?",
        given=(("left on for ever it would end at", f"{load_end:g} °C"), ("at rest", f"{idle_end:g} °C"), ("on", f"{load_time:g} s"),
               ("off", f"{idle_time:g} s"), ("time constant", f"{tau:g} s")),
        answer=highest, unit="degC", tolerance=0.02,
        steps=(Step("The shares of a difference that outlast the time on and the time off:", f"{working:.4f}, {resting:.4f}"),
               Step("One less the first, over one less both multiplied:", f"{(1 - working) / (1 - working * resting):.4f}"),
               Step("The temperature at rest, and so much of the way up:", show(highest, "degC", digits=4))),
        slips=(Slip(lowest, "That is the lowest, at the end of the rest. Asked is the highest."),
               Slip(Q(idle_end + (load_end - idle_end) * (1 - working), "degC"), "That is the first turn, from cold. The rest is too short to cool it "
                                                                                 "all the way."),
               Slip(Q(load_end, "degC"), "That would take minutes without a rest.")))


def _kelvin(rise):
    return Q(float(rise.m_as("delta_degC")), "K")


def _turning(drift):
    return PLAY_SPEED * (1 + float(drift.m_as("percent")) / 100)
