"""Book 05, one motor: its lines against the current, marks that seem to turn, the guesses, and saying it."""

import numpy as np

from benchreckoner.lessons.motor_example import BRUSH, HEAVY, NO_LOAD, PLAY
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.motor_power import best_efficiency_current, efficiency, most_power_current, shaft_power
from benchreckoner.physics.motors import motor_speed, shaft_torque, stall_current, torque_ratio
from benchreckoner.physics.turning import seen_speed
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.live import live
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact, show_digits

FULL_SPEED, FULL_TORQUE = Q(10000, "turn/min"), Q(10, "mN*m")  # what 100 % stands for
_TIMES = float(torque_ratio(first_current=PLAY, second_current=HEAVY, no_load_current=NO_LOAD).m)
_MORE = float((HEAVY / PLAY).m_as(""))
OURS = (f"The motor draws 140 mA where 85 mA is usual, and 20 mA with nothing on its shaft: the load asks about {_TIMES:.2f} times the "
        f"torque, though the current is only {_MORE:.2f} times. Both are meter readings, good to about 2 %. I have not measured which part drags, "
        "belt, bearing or tape path: belt off and belt on come next.")
_ALONG = np.linspace(0, 1, 61)
_FASTEST, _SEEN = 6000.0, 3600.0


def motor_picture(*, voltage, current, winding, constant):
    """A motor's speed, torque and efficiency against its current, from no load until it is held.

    Parameters
    ----------
    voltage : Quantity [V]
        At its terminals.
    current : Quantity [A]
        That the load makes it draw.
    winding : Quantity [ohm]
    constant : Quantity [V*s/rad]

    Returns
    -------
    Picture
        No points where these volts cannot drive the current.
    """
    electric = dict(voltage=voltage, winding_resistance=winding, brush_drop=BRUSH)
    held = stall_current(**electric)
    amps = NO_LOAD + (held - NO_LOAD) * _ALONG
    turns, torques, shares = _lines(amps, constant, electric)
    best = best_efficiency_current(no_load_current=NO_LOAD, **electric)
    here = (np.nan,) * 3
    if current <= held:
        here = tuple(float(one) for one in _lines(current, constant, electric))
    milli, place = amps.m_as("mA"), float(current.m_as("mA"))
    words = _here_words(current, held, constant, electric)
    return Picture(
        title="One motor, from no load until it is held",
        x=Axis("current", "mA", 0, 900), y=Axis("share of full scale", "", 0, 100, symbol="%"),
        curves=(Curve("speed, of 10 000 r/min", milli, turns, "first"), Curve("torque, of 10 mN·m", milli, torques, "second"),
                Curve("efficiency", milli, shares, "third")),
        points=tuple(Point(name, place, _within(value), style)
                     for name, value, style in zip(("speed here", "torque here", "efficiency here"), here, ("here", "other", "extra"))),
        limits=(Limit("held", "x", float(held.m_as("mA"))), Limit("wastes least", "x", float(best.m_as("mA")))),
        sentence=words,
        alt=("Three lines against the current. Speed falls in a straight line to nought where the shaft is held; torque rises in a "
             f"straight line from nought at {show_exact(NO_LOAD, 'A')}; efficiency climbs steeply, tops early and sinks to nought where the "
             f"shaft is held, at {show(held, 'A')}. {words}"))


def seen_picture(*, speed, rate, marks):
    """How fast marks on a shaft seem to turn on a film or under a flickering lamp, against how fast they do.

    Parameters
    ----------
    speed : Quantity [turn/min]
        The true one.
    rate : Quantity [Hz]
        Frames or flashes a second.
    marks : float
        How many, evenly spaced.

    Returns
    -------
    Picture
    """
    count = round(marks)
    true = np.linspace(0, _FASTEST, 601)
    seen = seen_speed(speed=Q(np.append(true, speed.m_as("turn/min")), "turn/min"), marks=count, rate=rate).m_as("turn/min")
    along, here = seen[:-1].copy(), float(seen[-1])
    along[1:][np.diff(along) < 0] = np.nan  # no line from the top of one tooth to the foot of the next
    still = float(rate.m_as("Hz")) * 60 / count
    words = _seen_words(speed, here, still)
    marked = f"{count} mark{'' if count == 1 else 's'}"
    sentence = (f"{_whole(speed)} with {marked}, {rate.m_as('Hz'):.0f} frames or flashes a second: {words} "
                f"They stand still at every multiple of {_whole(Q(still, 'turn/min'))}, and nothing faster than half "
                "of that is seen truly.")
    return Picture(
        title="How fast the marks seem to turn",
        x=Axis("true speed", "turn/min", 0, _FASTEST, symbol="r/min"),
        y=Axis("speed that is seen", "turn/min", -_SEEN, _SEEN * 2, symbol="r/min"),
        curves=(Curve("seen", true, along, "first"), Curve("true", true, true, "faint")),
        points=(Point("here", float(speed.m_as("turn/min")), here),), limits=(Limit("seems to stand still", "y", 0),),
        sentence=sentence,
        alt=f"A row of slanted teeth about nought beside a straight line: what is seen follows the true speed, then jumps back. {sentence}")


MOTOR_LINES = LivePicture(
    key="motor-lines", picture=motor_picture,
    sliders=(Slider("voltage", "volts at its terminals", "V", tuple(np.arange(2, 9.01, 0.5)), start=6),
             Slider("current", "current that the load makes it draw", "A", tuple(np.round(np.arange(20, 601, 5) * 1e-3, 3)), start=0.085),
             Slider("winding", "winding", "ohm", (10, 12, 15, 18, 22, 27, 33, 40), start=15),
             Slider("constant", "motor constant", "V*s/rad", (0.009, 0.010, 0.011, 0.012, 0.013, 0.015, 0.018, 0.022, 0.026, 0.030),
                    start=0.013)),
    goal="6 V, 15 Ω, 13 mV·s/rad: at 85 mA the shaft has 0.845 mN·m. Find the current at which it has twice that. Is it twice the current?",
    phone_sliders=("voltage", "current"))

SEEN_TURNING = LivePicture(
    key="seen-turning", picture=seen_picture,
    sliders=(Slider("speed", "true speed", "turn/min", tuple(np.arange(100, 6001, 100)), start=2400),
             Slider("rate", "frames or flashes a second", "Hz", (24, 25, 30, 50, 60, 100, 120, 240), start=30),
             Slider("marks", "marks on the shaft", "", (1, 2, 3, 4), start=1)),
    goal="30 a second, one mark: find a speed that seems to stand still. Then, at 2400 r/min, find how many frames a second show the truth.",
    phone_sliders=("speed", "rate"))


def guess_more_current():
    """Guess first: what two thirds more current say of the torque; the motor's lines open afterwards."""
    return choice_guess(ChoiceGuess(
        key="motor-more-current",
        question="A motor takes 20 mA with nothing on its shaft. It used to draw 85 mA at play and now draws 140 mA, two thirds more. "
                 "How much more torque does the load ask for?",
        choices=(
            Choice("Two thirds more as well: torque goes with current.",
                   "Torque goes with the current <em>beyond</em> what the motor needs for itself. Take 20 mA off both: 65 and 120 mA."),
            Choice("About 1.85 times: more than the current says.",
                   f"120 mA by 65 mA are {_TIMES:.2f}. The motor's own friction was in both readings and hid part of the rise.", right=True),
            Choice("Less than two thirds: part of it only makes heat.",
                   "The heat in the winding costs <em>volts</em>, and so speed. Every ampere still makes its full torque."),
            Choice("None: the governor holds the speed, so nothing has changed.",
                   "The governor holds the speed. The <em>load</em> sets the torque, and the current follows the torque."),
        )), reveal=opening(MOTOR_LINES), store=my_guesses())


def guess_positions():
    """Guess first: what it means that a held rotor reads otherwise a little further round."""
    return choice_guess(ChoiceGuess(
        key="motor-positions",
        question="You hold the pulley, put 1.5 V on a motor of three segments, and reckon 15.0 Ω. A little further round you "
                 "reckon 11.4 Ω. What is wrong with it?",
        choices=(
            Choice("A coil has shorted turns: fewer ohms.", "Then the low reading would come with one coil only. Three segments read up to a "
                   "quarter less by themselves, wherever a brush touches two of them."),
            Choice("The commutator is dirty: more ohms.", "Dirt would add more, and never the same. A quarter is what a clean rotor does."),
            Choice("Nothing, so far.", "A brush that touches two segments cuts one coil out: a quarter less with three segments, a "
                   "sixth with five. So take six positions and their mean.", right=True),
            Choice("The first reading was wrong.", "Both are right, each for its position. A turning rotor passes through all of them."),
        )), store=my_guesses())


def show_seen():
    """The picture of marks that seem to turn."""
    return live(SEEN_TURNING)


def say_torque():
    """Two sentences about a motor that draws more than it should."""
    return say_it(
        "motor-torque", "Your motor draws 140 mA where 85 mA is usual. Tell a friend in two sentences what that says of the load, how you "
        "know, and what you have not measured.", ours=OURS,
        checks=SayChecks(what=("torque", "load", "drag", "drags"), known=("meter", "belt off"),
                         quantities=((HEAVY, "A"), (PLAY, "A"), (NO_LOAD, "A"))), store=my_guesses())


def _lines(amps, constant, electric):
    """Speed, torque and efficiency at these currents, in per cent of full scale."""
    turns = motor_speed(current=amps, motor_constant=constant, **electric)
    torque = shaft_torque(current=amps, no_load_current=NO_LOAD, motor_constant=constant)
    return (100 * (turns / FULL_SPEED).m_as(""), 100 * (torque / FULL_TORQUE).m_as(""),
            100 * efficiency(current=amps, no_load_current=NO_LOAD, **electric).m)


def _here_words(current, held, constant, electric):
    volts = show_exact(electric["voltage"], "V")
    if current > held:
        return (f"{volts} drive no more than {show(held, 'A')} through this winding, and then the shaft is held still: {show(current, 'A')} "
                "cannot be. A shaft that is held turns all it takes into heat.")
    turns = motor_speed(current=current, motor_constant=constant, **electric)
    torque = shaft_torque(current=current, no_load_current=NO_LOAD, motor_constant=constant)
    power = shaft_power(current=current, no_load_current=NO_LOAD, **electric)
    share = efficiency(current=current, no_load_current=NO_LOAD, **electric).m
    most = most_power_current(no_load_current=NO_LOAD, **electric)
    return (f"On {volts} and at {show(current, 'A')} it turns at {_whole(turns)} "
            f"with {show_digits(torque.m_as('mN*m'))} mN·m: {show(power, 'W')} at the shaft, {100 * share:.0f} % of what it takes. "
            f"Held, it would draw {show(held, 'A')}; the shaft has the most power at {show(most, 'A')}.")


def _seen_words(speed, here, still):
    if abs(here) < 0.5:
        return "the marks seem to stand still."
    if abs(abs(here) - still / 2) < 0.5:
        return "the marks flicker between two places, and no way round can be told."
    if abs(here - speed.m_as("turn/min")) < 0.5:
        return "they are seen truly."
    way = "forwards" if here > 0 else "backwards"
    return f"they seem to turn {way} at {_whole(Q(abs(here), 'turn/min'))}."


def _whole(speed):
    return f"{speed.m_as('turn/min'):.0f} r/min"


def _within(value):
    return value if 0 <= value <= 100 else np.nan
