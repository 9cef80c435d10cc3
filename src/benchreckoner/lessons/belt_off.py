"""Book 05, belt off against belt on: the torque that the motor keeps, and what it drives takes."""

import numpy as np

from benchreckoner.lessons.motor_example import CONSTANT, NO_LOAD, PLAY
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.motors import shaft_torque
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import NumberGuess, number_guess
from benchreckoner.show.picture import Axis, Band, Curve, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_digits

OURS = ("Read with the belt off, the motor takes its 20 mA as it always did, so its own friction has not grown. Belt and bearings take 120 mA "
        "now where they took 65 mA, about 1.85 times the torque; which of the two asks for it, the currents do not tell.")
_MOST_AMPS = 0.25
_TOP = 3.5  # mN·m: the picture's upper end


def split_picture(*, off, on):
    """Torque against current: what the motor keeps for itself, and what belt and bearings take.

    Parameters
    ----------
    off, on : Quantity [A]
        Current with the belt off and with it on.

    Returns
    -------
    Picture
        Where the belt-on current is the smaller one, its band is gone: such readings were swapped.
    """
    idle, play = off.m_as("A"), on.m_as("A")
    per_amp = 1e3 * CONSTANT.m_as("V*s/rad")
    amps = np.linspace(0, _MOST_AMPS, 2)
    possible = play >= idle
    edges = np.array([idle, play])
    said = _said(off, on) if possible else (
        f"{show(off, 'A')} with the belt off and {show(on, 'A')} with it on: a belt cannot help the motor, so the two readings were swapped.")
    return Picture(
        title="Belt off against belt on",
        x=Axis("current", "mA", 0, 1e3 * _MOST_AMPS), y=Axis("torque by the magnet", "mN*m", 0, _TOP, symbol="mN·m"),
        curves=(Curve("torque by current", 1e3 * amps, per_amp * amps, "heavy"),),
        bands=(Band("motor's own", 1e3 * np.array([0.0, idle]), np.zeros(2), per_amp * np.array([0.0, idle]), "second"),
               Band("belt and bearings", 1e3 * edges, np.full(2, per_amp * idle) if possible else np.full(2, np.nan),
                    per_amp * edges if possible else np.full(2, np.nan), "first")),
        points=(Point("belt off", 1e3 * idle, per_amp * idle, "other"), Point("belt on", 1e3 * play, per_amp * play)),
        sentence=said,
        alt=f"A straight line of torque against current from nought up. Two points on it: belt off, and belt on. {said}")


def _said(off, on):
    driven = shaft_torque(current=on, no_load_current=off, motor_constant=CONSTANT)
    own = shaft_torque(current=off, no_load_current=Q(0, "A"), motor_constant=CONSTANT)
    usual = shaft_torque(current=PLAY, no_load_current=NO_LOAD, motor_constant=CONSTANT)
    return (f"{show(off, 'A')} with the belt off, {show(on, 'A')} with it on: the motor keeps {show_digits(own.m_as('mN*m'))} mN·m for itself, belt and bearings take "
            f"{show_digits(driven.m_as('mN*m'))} mN·m, {(driven / usual).m_as(''):.2f} times the healthy set's.")


SPLIT = LivePicture(
    key="belt-off", picture=split_picture,
    sliders=(Slider("off", "current, belt off", "A", ladder(0.005, 0.06, 12), start=NO_LOAD.m_as("A")),
             Slider("on", "current, belt on", "A", ladder(0.02, 0.25, 47), start=PLAY.m_as("A"))),
    goal="Belt off 20 mA: find the current at which belt and bearings take twice the healthy set's torque. Is it twice 85 mA?",
    phone_sliders=("off", "on"))


def guess_torque():
    """Guess first: how much more torque two thirds more current make; the picture opens afterwards."""
    return number_guess(NumberGuess(
        key="belt-off-torque", question="A motor draws 20 mA with its belt off and 85 mA playing. One cold day it draws 140 mA playing, two thirds "
        "more. By how much has the torque of belt and bearings grown, in per cent?", unit="%", truth=Q(84.6, "percent"),
        explanation="The first 20 mA turn the motor itself and reach no belt. (140 − 20) / (85 − 20) = 1.846: 85 % more torque for 65 % more "
                    "current. Torque grows faster than current."), reveal=opening(SPLIT), store=my_guesses())


def say_who_brakes():
    """Two sentences to a friend who blames the motor for the current."""
    return say_it(
        "belt-off-who-brakes",
        "A friend's player drew 85 mA when all was well and draws 140 mA today; belt off it drew 20 mA then and draws 20 mA now. “Two thirds "
        "more current: the motor is worn out.” Answer in two sentences.",
        ours=OURS,
        checks=SayChecks(what=("motor", "belt", "bearing", "bearings"), known=("belt off",),
                         quantities=tuple((Q(milli, "mA"), "A") for milli in (20, 65, 85, 120, 140))),
        store=my_guesses())


def times_the_torque(seed=None, blanks=1):
    """How many times the torque, by three currents."""
    return exercise(_times_the_torque, key="belt-off-times", seed=seed, blanks=blanks)


def torque_of_the_rest(seed=None, blanks=2):
    """The torque of belt and bearings, by two currents and the motor constant."""
    return exercise(_torque_of_the_rest, key="belt-off-torque-rest", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several questions on a motor's currents: the reader must tell first which law applies."""
    kinds = (_times_the_torque, _torque_of_the_rest, _volts_of_line, _own_share)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-off-mixed", seed=seed, blanks=blanks)


def _currents(rng):
    off = float(rng.integers(15, 36))
    return off, off + float(rng.integers(35, 80))


def _constant(rng):
    return Q(float(rng.integers(8, 25)), "mV*s/rad")


def _times_the_torque(rng):
    off, usual = _currents(rng)
    now = float(round(usual * rng.uniform(1.3, 1.9)))
    times = Q((now - off) / (usual - off), "")
    return Problem(
        question="A motor's currents were read belt off, playing when all was well, and playing today. How many times the torque do belt and "
                 "bearings take today?",
        given=(("belt off", f"{off:.0f} mA"), ("playing, when all was well", f"{usual:.0f} mA"), ("playing today", f"{now:.0f} mA")),
        answer=times, unit="", tolerance=0.02,
        steps=(Step("Beyond the belt-off current, then:", f"{usual - off:.0f} mA"), Step("Beyond it today:", f"{now - off:.0f} mA"),
               Step("Today's over the one of then:", f"{times.magnitude:.3f}")),
        slips=(Slip(Q(now / usual, ""), "That compares the currents whole. The belt-off current reaches no belt: take it off both."),
               Slip(1 / times, "Upside down: today's goes above."),
               Slip(Q((now - usual) / (usual - off), ""), "That is by how much it grew. How many <em>times</em> is one more.")))


def _torque_of_the_rest(rng):
    off, on = _currents(rng)
    constant = _constant(rng)
    torque = shaft_torque(current=Q(on, "mA"), no_load_current=Q(off, "mA"), motor_constant=constant)
    return Problem(
        question="What torque do belt and bearings take?",
        given=(("belt off", f"{off:.0f} mA"), ("belt on", f"{on:.0f} mA"), ("motor constant", show(constant, "V*s/rad"))),
        answer=torque, unit="N*m", tolerance=0.02,
        steps=(Step("The current that reaches the belt:", f"{on - off:.0f} mA"),
               Step("As many newton metres an ampere as volts for each radian a second:", f"{constant.m_as('V*s/rad'):.4f} N·m"),
               Step("One times the other:", show(torque, "N*m"))),
        slips=(Slip(shaft_torque(current=Q(on, "mA"), no_load_current=Q(0, "A"), motor_constant=constant),
                    "That is all the torque, the motor's own friction too. Take the belt-off current off first."),
               Slip(shaft_torque(current=Q(off, "mA"), no_load_current=Q(0, "A"), motor_constant=constant),
                    "That is what the motor keeps for itself.")))


def _own_share(rng):
    off, on = _currents(rng)
    share = Q(100 * off / on, "percent")
    return Problem(
        question="What share of the playing current turns the motor alone?",
        given=(("belt off", f"{off:.0f} mA"), ("belt on", f"{on:.0f} mA")), answer=share, unit="%", tolerance=0.02,
        steps=(Step("Belt off over belt on:", f"{off / on:.4f}"), Step("In per cent:", f"{share.magnitude:.1f} %")),
        slips=(Slip(Q(100 - share.magnitude, "percent"), "That is the share that belt and bearings take."),
               Slip(Q(100 * off / (on - off), "percent"), "Of the <em>whole</em> playing current, not of the rest.")))


def _volts_of_line(rng):
    usual, more = float(rng.integers(60, 100)), float(rng.integers(20, 60))
    ohms, volts = float(rng.integers(4, 15)), float(f"{rng.uniform(3.6, 5.2):.2f}")
    now = Q(volts + 1e-3 * more * ohms, "V")
    return Problem(
        question="A governor compensates. At its usual current the motor gets these volts. What should it get today?",
        given=(("usual current", f"{usual:.0f} mA"), ("volts at it", f"{volts:.2f} V"), ("compensation", f"{ohms:.0f} Ω"),
               ("current today", f"{usual + more:.0f} mA")),
        answer=now, unit="V", tolerance=0.01,
        steps=(Step("More current than usual:", f"{more:.0f} mA"), Step("Times the compensation:", show(Q(1e-3 * more * ohms, "V"), "V")),
               Step("On top of the usual volts:", show(now, "V", digits=4))),
        slips=(Slip(Q(volts - 1e-3 * more * ohms, "V"), "The governor gives <em>more</em> as the current rises."),
               Slip(Q(volts + 1e-3 * (usual + more) * ohms, "V"), "The usual current is in the usual volts already: only what is more counts."),
               Slip(Q(volts, "V"), "Without compensation, yes. This one adds some for each ampere.")))
