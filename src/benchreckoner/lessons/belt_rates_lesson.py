"""Book 04, rates you can hear: how often motor, idler, belt and wheels come round, as lines over frequency, and by chalk."""

from dataclasses import dataclass
from html import escape

import numpy as np
from IPython.display import HTML

from benchreckoner.bench.belt_path_sheet import path_of
from benchreckoner.bench.belt_sheet import pulleys_of
from benchreckoner.bench.motor_sheet import PLAYING, motor_sheet
from benchreckoner.lessons.belt_example import DISTANCE, MOTOR_SEAT, PLAY_SPEED, SIDE, WHEEL_SEAT
from benchreckoner.lessons.first_belt import EXAMPLE
from benchreckoner.lessons.your_bench import my_guesses, opening, own_or_demo
from benchreckoner.physics.belt_path import two_pulley_path
from benchreckoner.physics.belt_rates import belt_rate, belt_speed, pulley_rate
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import NumberGuess, number_guess
from benchreckoner.show.picture import Axis, Curve, Picture
from benchreckoner.units import Q, show

_LOW, _HIGH = 1.0, 100.0
_HEARD = {"motor": "a lump of tar on its pulley, or a bent shaft", "belt": "a kink, a joint, a thick place", "wheel": "a wheel or its rim out of true"}


@dataclass(frozen=True)
class Rate:
    """Something that comes round: its name, how often, and what is heard at that rate."""

    name: str
    rate: Q
    heard: str


def rates_picture(*, motor_speed, motor_seat):
    """How often motor, belt and flywheel come round, as lines over frequency.

    Parameters
    ----------
    motor_speed : Quantity [turn/min]
    motor_seat : Quantity [m]
        Diameter of the motor pulley's seat; the rest is the standing example's.

    Returns
    -------
    Picture
    """
    path = two_pulley_path(first_diameter=motor_seat, second_diameter=WHEEL_SEAT, distance=DISTANCE, neutral_height=SIDE / 2)
    speed = belt_speed(pulley_radius=(motor_seat + SIDE) / 2, speed=motor_speed)
    motor, wheel = (pulley_rate(belt_speed=speed, pulley_radius=(seat + SIDE) / 2) for seat in (motor_seat, WHEEL_SEAT))
    belt = belt_rate(belt_speed=speed, path_length=path.length)
    said = (f"Motor at {show(motor_speed, 'turn/min', digits=4)}: the belt runs at {show(speed, 'm/s')}. Once round come the motor {_hertz(motor)} times a "
            f"second, the flywheel {_hertz(wheel)} times, the belt {_hertz(belt)} times: {_hertz(motor / belt)} turns of the motor for one of the belt.")
    return Picture(
        title="Who comes round how often",
        x=Axis("times a second", "Hz", _LOW, _HIGH, scale="log"),
        y=Axis("what comes round", "", 0, 1.1, ticks=((0, "the axis"), (0.6, "motor"), (0.8, "flywheel"), (1.0, "belt"))),
        curves=tuple(Curve(name, np.full(2, rate.m_as("Hz")), np.array([0.0, height]), style) for name, rate, height, style in (
            ("belt", belt, 1.0, "heavy"), ("flywheel", wheel, 0.8, "second"), ("motor", motor, 0.6, "third"))),
        sentence=said, alt=f"Three upright lines over frequency: belt, flywheel, motor, from left to right. {said}")


RATES = LivePicture(
    key="belt-rates", picture=rates_picture,
    sliders=(Slider("motor_speed", "speed of the motor", "turn/min", ladder(1200, 3600, 49), start=PLAY_SPEED.m_as("turn/min")),
             Slider("motor_seat", "seat of the motor's pulley", "m", ladder(0.004, 0.012, 17), start=MOTOR_SEAT.m_as("m"))),
    goal="Leave 6 mm, and find the speed at which the belt comes round three times a second. Then take other pulleys: how "
         "little do belt and flywheel move against each other?",
    phone_sliders=("motor_speed", "motor_seat"))


def guess_wow():
    """Guess first: how often a kink in the belt is heard; the picture opens afterwards."""
    return number_guess(NumberGuess(
        key="belt-rates-kink", question="The motor turns 2400 times a minute. Its pulley's seat measures 6 mm, the belt is 1.2 mm square and "
        "231 mm long where it runs. It has one kink. How many times a second do you hear it?", unit="Hz", truth=Q(3.917, "Hz"),
        explanation="<p>40 turns a second, each of them pulling 2 × π × 3.6 = 22.6 mm of belt past: 905 mm a second. 905 / 231 = 3.9. The motor's "
                    "own 40 a second is a hum, not a waver.</p>"), reveal=opening(RATES), store=my_guesses())


def rates_of(sheet):
    """Everything of a sheet that comes round, the slowest first.

    Parameters
    ----------
    sheet : Sheet
        With the path of its belt. A pulley that is not on the belt counts by its `ratio`.

    Returns
    -------
    tuple of Rate

    Raises
    ------
    ValueError
        Says what is missing and what to write.
    """
    found, about = path_of(sheet), motor_sheet(sheet)
    if found.misfit:
        raise ValueError(found.misfit)
    driving = pulleys_of(sheet)[0]
    moment = next((one for stage in reversed(sheet.stages) for one in about.at(stage, PLAYING) if one.speed is not None), None) if about else None
    if moment is None and (about is None or "rated_speed" not in about.motor.details):
        raise ValueError('the motor\'s speed is not known; read it while it plays, or write rated_speed = "2400 turn/min" with the motor')
    motor_speed = about.motor.details["rated_speed"] if moment is None else moment.speed.value
    height = found.belt.details["thickness"] / 2
    speed = belt_speed(pulley_radius=driving.details["diameter"] / 2 + height, speed=motor_speed)
    rates = [Rate(part.name, pulley_rate(belt_speed=speed, pulley_radius=part.details["diameter"] / 2 + height),
                  _HEARD["motor" if part is driving else "wheel"]) for part in found.pulleys]
    rates.append(Rate(found.belt.name, belt_rate(belt_speed=speed, path_length=found.path.length), _HEARD["belt"]))
    turning = Q(motor_speed.m_as("turn/min") / 60, "Hz")
    rates += [Rate(part.name, turning / part.details["ratio"], _HEARD["wheel"]) for part in sheet.parts.values()
              if part.kind == "pulley" and part not in found.pulleys and "ratio" in part.details]
    return tuple(sorted(rates, key=lambda one: one.rate))


def my_rates():
    """The rates of the sheet as a table; the invented tape player's, where the sheet says too little."""
    rates, words = own_or_demo(rates_of, demo=EXAMPLE, lacks="says too little of its belt yet")
    rows = "".join(f"<tr><td>{escape(one.name)}</td><td>{_hertz(one.rate)} Hz</td><td>{30 * one.rate.m_as('Hz'):.0f}</td><td>{escape(one.heard)}</td></tr>"
                   for one in rates)
    return HTML(f"{words}<table><tr><th>what comes round</th><th>how often</th><th>times in 30 s</th><th>heard at that rate</th></tr>{rows}</table>"
                "<p>Reckoned without creep: driven wheels come about 1 % slower.</p>")


def chalk(seed=None, blanks=1):
    """Rate of a belt by chalk and a watch."""
    return exercise(_chalk, key="belt-chalk", seed=seed, blanks=blanks)


def motor_by_chalk(seed=None, blanks=2):
    """The motor's speed back from the belt's passes."""
    return exercise(_motor_by_chalk, key="belt-chalk-motor", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several questions on rates: the reader must tell first what is known."""
    kinds = (_chalk, _motor_by_chalk, _wheel_rate)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="belt-rates-mixed", seed=seed, blanks=blanks)


def _chalk(rng):
    passes, seconds = int(rng.integers(70, 140)), int(rng.choice([20, 30, 40]))
    return Problem(
        question="A chalk mark on the belt passes a pointer so many times. At which rate do you look for the belt in a recording?",
        given=(("passes", f"{passes}"), ("in", f"{seconds} s")), answer=Q(passes / seconds, "Hz"), unit="Hz", tolerance=0.01,
        steps=(Step("Passes by seconds:", f"{passes / seconds:.3f} Hz"),),
        slips=(Slip(Q(seconds / passes, "Hz"), "That is the time of one round, in seconds. The rate is one over it."),
               Slip(Q(60 * passes / seconds, "Hz"), "That is a minute's count. Hertz are times a <em>second</em>.")))


def _motor_by_chalk(rng):
    passes, path, radius = int(rng.integers(90, 140)), float(rng.integers(200, 260)), float(rng.choice([3.1, 3.6, 4.1]))
    speed = path * passes / 30
    turns = 60 * speed / (2 * np.pi * radius)
    return Problem(
        question="How fast does the motor turn? The belt neither slips nor, for this sum, creeps.",
        given=(("passes of a chalk mark in 30 s", f"{passes}"), ("length of the belt where it runs", f"{path:g} mm"),
               ("motor pulley, up to the belt's middle", f"radius {radius:g} mm")),
        answer=Q(turns, "turn/min"), unit="turn/min", tolerance=0.015,
        steps=(Step("Belt past the pointer each second:", f"{speed:.1f} mm"), Step("Belt for one turn of the motor:", f"{2 * np.pi * radius:.2f} mm"),
               Step("One by the other, times 60:", f"{turns:.0f} turn/min")),
        slips=(Slip(Q(turns / 60, "turn/min"), "That is a second's count. Sixty of them make a minute."),
               Slip(Q(2 * turns, "turn/min"), "The belt lies on the rim: two pi times the radius for one turn.")))


def _wheel_rate(rng):
    turns, small, large = float(rng.choice([1800, 2000, 2400, 3000])), float(rng.choice([3.1, 3.6, 4.1])), float(rng.choice([25.6, 30.6, 40.6]))
    rate = turns / 60 * small / large
    return Problem(
        question="How often a second does the flywheel come round?",
        given=(("motor", f"{turns:g} turn/min"), ("motor pulley, up to the belt's middle", f"radius {small:g} mm"),
               ("flywheel, the same", f"radius {large:g} mm")),
        answer=Q(rate, "Hz"), unit="Hz", tolerance=0.015,
        steps=(Step("The motor, each second:", f"{turns / 60:.2f} Hz"), Step("Small radius by large:", f"{small / large:.4f}"),
               Step("One times the other:", f"{rate:.3f} Hz")),
        slips=(Slip(Q(turns / 60 * large / small, "Hz"), "Upside down: the larger wheel turns slower."),
               Slip(Q(60 * rate, "Hz"), "That is a minute's count. Hertz are times a <em>second</em>.")))


def _hertz(rate):
    value = rate.m_as("Hz") if rate.check("1/[time]") else rate.m_as("")
    return f"{value:.2f}" if value < 10 else f"{value:.3g}"  # two decimals, so that rates near each other can be told apart
