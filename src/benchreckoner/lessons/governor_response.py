"""Book 05, compensation against hunting: the speed after a jolt of load, and the guess about perfect compensation."""

import numpy as np

from benchreckoner.lessons.motor_example import CONSTANT, HEAVY, PLAY, PLAY_SPEED, WINDING
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.copper import warmed_resistance
from benchreckoner.physics.hunting import governor_roots, load_step, stability_limit
from benchreckoner.physics.run_up import shaft_inertia
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

INDUCTANCE, FRICTION = Q(10, "mH"), Q(2e-7, "N*m*s/rad")  # of the invented motor, as its other values
ARMATURE, WHEEL_RADIUS, RATIO = Q(1.8e-7, "kg*m**2"), Q(20, "mm"), 5.28
_ROOM = Q(20, "degC")  # where the winding's ohms were read
_TIME = Q(np.linspace(0, 0.4, 401), "s")
_FOREVER = Q([0, 1000], "s")
_EDGE = 15.0  # per cent: the picture's upper and lower end
_CALM = np.log(20)  # time constants until a twentieth of a jolt is left


def jolt_picture(*, compensation, temperature, flywheel):
    """Speed of a governed motor after its load has grown at one blow, against time.

    Parameters
    ----------
    compensation : Quantity [ohm]
    temperature : Quantity [degC]
        Of the winding.
    flywheel : Quantity [g]
        Mass of a disc that the motor turns by a belt.

    Returns
    -------
    Picture
        A line that leaves the picture ends there: it hunts or runs away, and the sentence says which.
    """
    winding = warmed_resistance(resistance=WINDING, cold=_ROOM, warm=temperature)
    inertia = shaft_inertia(motor_inertia=ARMATURE, flywheel_inertia=flywheel * WHEEL_RADIUS**2 / 2, ratio=RATIO)
    turning = dict(winding_resistance=winding, inductance=INDUCTANCE, inertia=inertia, viscous_friction=FRICTION,
                   motor_constant=CONSTANT)
    jolt = dict(torque=(CONSTANT * (HEAVY - PLAY)).to("N*m"), compensation=compensation, **turning)
    change = _percent(load_step(time=_TIME, **jolt))
    limit = stability_limit(**turning)
    slow, _, swing = (float(root.magnitude) for root in governor_roots(compensation=compensation, **turning))
    rests = float(_percent(load_step(time=_FOREVER, **jolt))[-1]) if compensation < limit else np.nan
    said = (f"Compensation {show(compensation, 'ohm')}, winding {show(winding, 'ohm')} at {show(temperature, 'degC', digits=2)}: "
            + _motion(slow, swing, rests))
    return Picture(
        title="A governed motor after a jolt of load",
        x=Axis("time since the jolt", "ms", 0, 400),
        y=Axis("speed, against before", "%", -_EDGE, _EDGE),
        curves=(Curve("speed", _TIME.m_as("ms"), _inside(change), "heavy"),),
        points=(Point("comes to rest", 400, rests),),
        limits=(Limit("before", "y", 0),),
        sentence=said,
        alt=("The change of speed in per cent against milliseconds, from the moment at which the load grows from 85 to 140 mA. With little "
             "compensation the line sinks and lies level below. With more it sinks less and swings longer. From the winding's own ohms on "
             f"the swings grow until they leave the picture. {said}"))


JOLT = LivePicture(
    key="governor-jolt", picture=jolt_picture,
    sliders=(Slider("compensation", "the governor's compensation", "ohm", ladder(8, 18, 51), start=12),
             Slider("temperature", "winding's temperature", "degC", tuple(range(0, 41, 5)), start=20),
             Slider("flywheel", "flywheel's mass", "g", (5, 10, 20, 40, 60, 100, 200, 300), start=60)),
    goal="At 20 °C: find the most compensation that comes to rest. Then cool the winding to 0 °C: does it still? Find the most that "
         "does, and what it costs in speed at 20 °C.",
    phone_sliders=("compensation", "temperature"))


def guess_perfect():
    """Guess first: how much compensation is best; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="governor-perfect",
        question="The winding has 15 Ω at 20 °C. With 15 Ω of compensation no load shifts the speed. Is that where to leave the "
                 "compensation trimmer?",
        choices=(
            Choice("Yes: perfect is best.",
                   "There every jolt swings on and on. One cold morning takes the winding to 13.8 Ω, and 15 Ω are then too many: it hunts."),
            Choice("No, a little more: a warm winding has more ohms.",
                   "It does, in half an hour. But it starts cold, and there it would hunt at once."),
            Choice("No, less: the ohms of the coldest winding it will start with.",
                   "13.8 Ω for 0 °C. It costs 2 % of speed from the light load to the heavy one, and that can be heard; but it is steady.",
                   right=True),
            Choice("It does not matter: the flywheel smooths it.",
                   "A heavier flywheel makes the swings slower, not smaller in the long run. The limit hardly moves."),
        )), reveal=opening(JOLT), store=my_guesses())


def _percent(change):
    return 100 * (change / PLAY_SPEED).m_as("")


def _inside(change):
    """The line up to where it first leaves the picture; what a growing swing does after that no bench will show."""
    out = np.flatnonzero(np.abs(change) > _EDGE)
    if not out.size:
        return change
    return np.where(np.arange(len(change)) <= out[0], change, np.nan)


def _motion(slow, swing, rests):
    times = f"{show(Q(swing, 'Hz'), 'Hz', digits=2)}"
    if np.isnan(rests):
        grows = show(Q(np.log(2) / slow, "s"), "s", digits=2)
        if swing:
            return (f"too much, so it hunts: {times}, and the swings double every {grows}, until supply or transistor stop them. "
                    "The line ends where it leaves the picture.")
        return (f"far too much, so it runs away without a swing, twice as far every {grows}, until supply or transistor stop it. "
                "The line ends where it leaves the picture.")
    calm = show(Q(_CALM / -slow, "s"), "s", digits=2)
    end = "the speed comes back to where it was" if abs(rests) < 0.005 else f"the speed sinks by {-rests:.2f} % in the end"
    # How far past its end a swing goes, of what it came from; less than a twentieth nobody would call a swing.
    if swing and np.exp(slow / (2 * swing)) > 1 / 20:
        return f"{end}, after swings of {times} that take {calm} to calm down to a twentieth."
    return f"{end}, within {calm} and without a swing to speak of."
