"""Exercises of book 02 on the tin of faults: two that fade, and one that mixes the laws."""

from benchreckoner.bench.tin import RESERVE, worst_case
from benchreckoner.physics.contacts import contact_resistance, resistance_from_loss, voltage_drop
from benchreckoner.physics.preferred import nearest_preferred, preferred_neighbours
from benchreckoner.physics.supply import series_resistor
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def lost_by_the_nearest(seed=None, blanks=1):
    """Volts that the nearest E12 resistor loses, beside the wish."""
    return exercise(_lost_by_the_nearest, key="tin-nearest", seed=seed, blanks=blanks)


def watts_at_worst(seed=None, blanks=2):
    """Watts that the resistor's rating must have, with the motor held."""
    return exercise(_watts_at_worst, key="tin-watts", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_lost_by_the_nearest, _watts_at_worst, _ohms_for_decibels, _share_of_the_track, _highest_reading)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="tin-mixed", seed=seed, blanks=blanks)


def _lost_by_the_nearest(rng):
    while True:
        current, wish = Q(float(rng.integers(60, 400)), "mA"), Q(float(rng.integers(20, 120)) / 100, "V")
        exact = contact_resistance(voltage_drop=wish, current=current)
        below, above = preferred_neighbours(value=exact)
        # Away from half-way and from the series itself, so that rounding on the way changes nothing.
        if max((exact / below).m_as(""), (above / exact).m_as("")) > 1.12 and (exact / below).m_as("") > 1.02 < (above / exact).m_as(""):
            break
    near = nearest_preferred(value=exact)
    other = above if near == below else below
    volts = voltage_drop(current=current, contact_resistance=near)
    return Problem(
        question="A participant is to find a bad spring that loses these volts. You take the E12 resistor nearest by ratio. "
                 "How many volts does it really lose?",
        given=(("volts to lose", show(wish, "V")), ("the motor's current, playing", show(current, "A")),
               ("E12", "1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2")),
        answer=volts, unit="V", tolerance=0.02,
        steps=(Step("Ohms that would lose just that, volts by amperes:", show(exact, "ohm")),
               Step("The nearest of the drawer:", show(near, "ohm", 2)),
               Step("Its ohms times the current:", show(volts, "V"))),
        slips=(Slip(wish, "That is the wish. The drawer has no such resistor: take the nearest one and reckon forward."),
               Slip(voltage_drop(current=current, contact_resistance=other), "That is the neighbour on the other side of the wish.")))


def _watts_at_worst(rng):
    supply, rest = Q(float(rng.choice([6, 9, 12])), "V"), Q(float(rng.integers(6, 20)), "ohm")
    resistance, playing = Q(float(rng.choice([2.2, 3.3, 4.7, 6.8])), "ohm"), Q(float(rng.integers(80, 200)), "mA")
    current, power = series_resistor(resistance=resistance, supply=supply, other_resistance=rest)
    needed = (RESERVE * power).to("W")
    return Problem(
        question="This resistor goes into a motor's feed, and somebody will hold the motor. Common practice asks for twice the "
                 "watts at worst. How many watts must its rating have at least?",
        given=(("supply", show(supply, "V")), ("motor held, and all else in the loop", show(rest, "ohm")),
               ("the resistor", show(resistance, "ohm", 2)), ("current, playing", show(playing, "A"))),
        answer=needed, unit="W", tolerance=0.03,
        steps=(Step("All the ohms in the loop, motor held:", show(rest + resistance, "ohm")),
               Step("The current they allow:", show(current, "A")),
               Step("Its square times the resistor's ohms:", show(power, "W")),
               Step("Twice that:", show(needed, "W"))),
        slips=(Slip(power, "That is what it must stand. Common practice buys twice as much."),
               Slip((RESERVE * playing**2 * resistance).to("W"), "That is while it plays. Held, the motor draws far more."),
               Slip((RESERVE * worst_case(resistance=resistance, supply=supply, rest=Q(0, "ohm"))[0]).to("W"),
                    "That puts the whole supply across the resistor. The held motor has ohms too: they belong in the loop."),
               Slip((RESERVE * (supply / rest) ** 2 * resistance).to("W"), "That is the current without the resistor. It stands in the loop as well.")))


def _ohms_for_decibels(rng):
    load, loss = Q(float(rng.choice([4, 8, 16, 32])), "ohm"), Q(float(rng.integers(2, 13)) / 2, "dB")
    ohms = resistance_from_loss(load_resistance=load, loss=loss)
    ratio = 10 ** (loss.m_as("dB") / 20)
    return Problem(
        question="A resistor in series with a loudspeaker or headphone is to imitate a dirty switch. How many ohms lose these "
                 "decibels?",
        given=(("to lose", show(loss, "dB", 2)), ("what it feeds", show(load, "ohm", 2))),
        answer=ohms, unit="ohm", tolerance=0.02,
        steps=(Step("So many times fewer volts are left, ten to the power of decibels by 20:", f"{ratio:.4f}"),
               Step("All ohms of the loop are that many times the load's:", show(ratio * load, "ohm")),
               Step("The switch's part of them:", show(ohms, "ohm"))),
        slips=(Slip((ratio * load).to("ohm"), "That is the whole loop, the load included. Take it off."),
               Slip((load * (10 ** (loss.m_as("dB") / 10) - 1)).to("ohm"), "Decibels by 10 is for watts. Volts take 20."),
               Slip((load * (1 - 1 / ratio)).to("ohm"), "That is the share lost, times the load. But the load is only what is left.")))


def _share_of_the_track(rng):
    track, share = Q(float(rng.choice([4.7, 10, 22, 47])), "kohm"), float(rng.integers(5, 40)) / 100
    ohms = (share * track).to("ohm")
    return Problem(
        question="A resistor in the wiper's lead is to imitate a worn wiper. How many ohms are this share of the track?",
        given=(("the track", show(track, "ohm")), ("share", f"{100 * share:.0f} %")),
        answer=ohms, unit="ohm", tolerance=0.01,
        steps=(Step("The track in plain ohms:", f"{track.m_as('ohm'):.0f} Ω"), Step("Its share:", show(ohms, "ohm"))),
        slips=(Slip((track * share / (1 - share)).to("ohm"), "A share of the track, not of track and resistor together."),
               Slip((track * (1 - share)).to("ohm"), "That is the rest of the track.")))


def _highest_reading(rng):
    ohms, leads = Q(float(rng.choice([1.0, 2.2, 4.7, 8.2])), "ohm"), Q(float(rng.integers(10, 40)) / 100, "ohm")
    tolerance = float(rng.choice([0.01, 0.05]))
    most = ((1 + tolerance) * ohms + leads).to("ohm")
    return Problem(
        question="An ohmmeter that is right to the last digit reads this resistor through its two leads. What is the most it may "
                 "show, if the resistor keeps its promise?",
        given=(("written on the resistor", show(ohms, "ohm", 2)), ("its tolerance", f"{100 * tolerance:.0f} %"),
               ("both leads together", show(leads, "ohm", 2))),
        answer=most, unit="ohm", tolerance=0.005,
        steps=(Step("The resistor at its largest:", show((1 + tolerance) * ohms, "ohm")),
               Step("With the leads, which are in every two-wire reading:", show(most, "ohm"))),
        slips=(Slip(((1 + tolerance) * ohms).to("ohm"), "The leads are in the reading too."),
               Slip((ohms + leads).to("ohm"), "That is with a resistor that has just what is written on it."),
               Slip(((1 + tolerance) * (ohms + leads)).to("ohm"), "The tolerance is the resistor's. The leads have none.")))
