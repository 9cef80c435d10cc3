"""Book 07, filming a repair: lamps that flicker, pulleys that seem to stand still, levels that a recorder evens out."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.camera import recorded_step, ripple_left, still_frame_rates
from benchreckoner.physics.turning import seen_speed
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_level

OURS = ("The two recordings differ by about 3 dB in level, but the recorder's automatic gain was on, so by how much the machine "
        "itself grew louder they do not show. Measured at its loudspeaker with a meter it is about 12 dB.")
SHUTTERS = (1000, 500, 400, 250, 200, 125, 120, 100, 60, 50, 48, 40, 30, 25, 24)  # parts of a second
RATES = (24, 25, 30, 48, 50, 60, 100, 120)
_SLOWEST, _FASTEST = 10, 130  # frames a second
_MOST_TURNS = 3000
_BEFORE, _AFTER, _TOP = -1.0, 10.0, 20.0


def shutter(exposure):
    """An exposure as cameras write it.

    >>> shutter(Q(20, "ms")), shutter(Q(1 / 48, "s"))
    ('1/50 s', '1/48 s')
    """
    return f"1/{1 / exposure.m_as('s'):.4g} s"


def flicker_picture(*, exposure, mains, ripple):
    """What a shutter leaves of a lamp's flicker, against how long it is open.

    Parameters
    ----------
    exposure : Quantity [s]
    mains : Quantity [Hz]
    ripple : float
        By how many per cent of its mean the lamp swings either way.

    Returns
    -------
    Picture
    """
    seconds = np.geomspace(1e-3, 50e-3, 401)
    left = ripple * ripple_left(frequency=2 * mains, exposure=Q(np.append(seconds, exposure.m_as("s")), "s"))
    along, here = left[:-1], float(left[-1])
    hertz = mains.m_as("Hz")
    words = ("nothing is left of it: neither flicker nor bands." if here < 0.005 else
             f"{here:.2g} % of the mean are left, as bands across the picture or as flicker.")
    sentence = (f"A lamp on mains of {hertz:.0f} Hz swings by {ripple:.0f} % of its mean, {2 * hertz:.0f} times a second. "
                f"With a shutter of {shutter(exposure)}, {words} {shutter(0.5 / mains)} and its multiples leave nothing.")
    return Picture(
        title="What the shutter leaves of a lamp's flicker",
        x=Axis("shutter open", "ms", 1, 50, scale="log"), y=Axis("swing that is left", "", 0, 100, symbol="%"),
        curves=(Curve("left", seconds * 1e3, along, "heavy"),),
        points=(Point("here", float(exposure.m_as("ms")), here),),
        limits=(Limit("1 swing", "x", 500 / hertz), Limit("2 swings", "x", 1000 / hertz)),
        sentence=sentence,
        alt=("A curve against the time for which the shutter is open. It starts level at the lamp's full swing, falls to nought where "
             f"the shutter holds one whole swing, and comes back in ever lower arches with a nought at each further swing. {sentence}"))


def frames_picture(*, rate, speed, marks):
    """How fast marks on a shaft seem to turn on a film, against the film's frames a second.

    Parameters
    ----------
    rate : Quantity [Hz]
        Frames a second.
    speed : Quantity [turn/min]
        The true one.
    marks : float
        How many, evenly spaced.

    Returns
    -------
    Picture
    """
    count = round(marks)
    rates = np.linspace(_SLOWEST, _FASTEST, 961)
    seen = seen_speed(speed=speed, marks=count, rate=Q(np.append(rates, rate.m_as("Hz")), "Hz")).m_as("turn/min")
    along, here = seen[:-1].copy(), float(seen[-1])
    along[1:][np.diff(along) > 0.3 * 60 * rates[1:] / count] = np.nan  # no line across a jump by a whole spacing
    turns = speed.m_as("turn/min")
    still = still_frame_rates(speed=speed, marks=count, slowest=Q(20, "Hz"), fastest=Q(_FASTEST, "Hz")).m_as("Hz")
    listed = ", ".join(f"{one:.3g}" for one in still) or "no rate"
    marked, stand = ("1 mark", "it stands") if count == 1 else (f"{count} marks", "they stand")
    sentence = (f"{turns:.0f} r/min with {marked}, filmed at {rate.m_as('Hz'):.0f} frames a second: "
                f"{_turning_words(here, turns, float(rate.m_as('Hz')) * 60 / count, alone=count == 1)} Between 20 and {_FASTEST} frames a second {stand} still at {listed}.")
    return Picture(
        title="How fast a pulley seems to turn on a film",
        x=Axis("frames a second", "", _SLOWEST, _FASTEST), y=Axis("speed that is seen", "turn/min", -_MOST_TURNS, _MOST_TURNS, symbol="r/min"),
        curves=(Curve("seen", rates, along, "first"),),
        points=(Point("here", float(rate.m_as("Hz")), here),),
        limits=(Limit("seems to stand still", "y", 0), Limit("true", "y", float(turns))),
        sentence=sentence,
        alt=("Slanted lines, one behind the other and longer to the right: each falls from forwards through nought to backwards, then "
             f"jumps up again. At enough frames a second the last one lies on the true speed. {sentence}"))


def gain_picture(*, step, ratio, settling):
    """A machine that grows louder at one blow, and what a recorder with automatic gain keeps of that.

    Parameters
    ----------
    step : Quantity [dB]
        By how much it really grows louder.
    ratio : float
        Decibels in for each decibel out.
    settling : Quantity [s]

    Returns
    -------
    Picture
    """
    later = np.linspace(0, _AFTER, 201)
    kept = recorded_step(step=step, ratio=ratio, time=Q(later, "s"), settling_time=settling).m_as("dB")
    seconds, true = np.concatenate(([_BEFORE, 0], later)), float(step.m_as("dB"))
    words = ("The recorder leaves it as it is." if ratio == 1 else
             f"The recorder's gain takes back all but {show_level(Q(kept[-1], 'dB'))} within {_AFTER:.0f} s.")
    sentence = (f"The machine grows {show_level(step)} louder at one blow. {words} Whoever compares two recordings made like that hears "
                f"{show_level(Q(kept[-1], 'dB'))}.")
    return Picture(
        title="A louder machine, and what automatic gain keeps of it",
        x=Axis("time since it grew louder", "s", _BEFORE, _AFTER), y=Axis("level above before", "", 0, _TOP, symbol="dB"),
        curves=(Curve("recorded", seconds, np.concatenate(([0, 0], kept)), "heavy"),
                Curve("true", seconds, np.concatenate(([0, 0], np.full(len(later), true))), "faint")),
        points=(Point("after 10 s", _AFTER, float(kept[-1])),),
        sentence=sentence,
        alt=("Two lines along time. Both jump up at nought; the true one stays, "
             f"{'and so does the recorded one' if ratio == 1 else 'the recorded one sinks back towards a part of it'}. {sentence}"))


FLICKER = LivePicture(
    key="film-flicker", picture=flicker_picture,
    sliders=(Slider("exposure", "shutter open", "s", tuple(1 / part for part in SHUTTERS), start=1 / 60),
             Slider("mains", "mains", "Hz", (50, 60), start=50),
             Slider("ripple", "the lamp's swing, per cent of its mean", "", (2, 5, 10, 20, 40, 60, 80, 100), start=40)),
    goal="50 Hz: find a shutter between 1/200 s and 1/60 s that leaves nothing. Then go to 60 Hz: does it still?",
    phone_sliders=("exposure", "mains"))

FRAMES = LivePicture(
    key="film-frames", picture=frames_picture,
    sliders=(Slider("rate", "frames a second", "Hz", RATES, start=25),
             Slider("speed", "true speed", "turn/min", tuple(np.arange(600, _MOST_TURNS + 1, 100)), start=2400),
             Slider("marks", "marks on the pulley", "", (1, 2, 3, 4), start=3)),
    goal="2400 r/min, three marks: find the frame rates at which they stand still. Then one at which they go backwards.",
    phone_sliders=("rate", "speed"))

GAIN = LivePicture(
    key="film-gain", picture=gain_picture,
    sliders=(Slider("step", "how much louder it really is", "dB", (1, 2, 3, 4, 6, 8, 10, 12, 15, 18), start=12),
             Slider("ratio", "decibels in for one out", "", (1, 1.5, 2, 3, 4, 6, 10), start=2),
             Slider("settling", "time in which the gain settles", "s", (0.1, 0.2, 0.5, 1, 2, 5), start=0.5)),
    goal="12 dB louder in truth: find the ratio that leaves 3.0 dB after ten seconds. Then let the gain settle in 5 s: what is left now?",
    phone_sliders=("step", "ratio"))


def guess_shutter():
    """Guess first: what takes dark bands out of a film; what the shutter leaves opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="film-shutter",
        question="Dark bands walk up the film of your bench. The lamp hangs on mains of 50 Hz, the shutter is at 1/120 s. What takes them out?",
        choices=(
            Choice("A faster shutter, 1/1000 s: it freezes them.",
                   "It freezes them, and at their darkest: the shorter the shutter, the more of the lamp's swing is left."),
            Choice("A brighter lamp of the same kind.", "It swings by as many per cent. The camera turns its gain down, and the bands stay."),
            Choice("A shutter of 1/100 s or 1/50 s.", "Every line of the picture then gets one or two whole swings of the lamp, and these are alike.", right=True),
            Choice("More frames a second.", "They make the bands walk at another pace. Only a shutter that holds whole swings takes them out."),
        )), reveal=opening(FLICKER), store=my_guesses())


def guess_pulley():
    """Guess first: what a film says of a pulley that seems to creep backwards."""
    return choice_guess(ChoiceGuess(
        key="film-pulley",
        question="On your film, 25 frames a second, the motor's pulley with three spokes creeps backwards. The record plays. What is wrong?",
        choices=(
            Choice("The motor turns the wrong way.", "Then the platter would as well. From frame to frame the spokes move on by almost a whole number of "
                   "their spacings, and the eye takes the nearest one for the same."),
            Choice("The belt slips.", "A slipping belt slows the platter. The creep is between film and spokes."),
            Choice("Nothing: 120 spokes a second meet 25 frames a second.",
                   "4.8 spacings a frame look like one fifth of a spacing back. Say so in the film, or someone will write to you.", right=True),
            Choice("The film plays too slowly.", "Then everything would be slow, your hands as well."),
        )), reveal=opening(FRAMES), store=my_guesses())


def guess_louder():
    """Guess first: what two recordings by a phone say of a machine's level."""
    return choice_guess(ChoiceGuess(
        key="film-louder",
        question="Before and after, filmed by the same phone from the same place: the second one is 3 dB louder. What do you tell?",
        choices=(
            Choice("It is 3 dB louder now.", "Only if the phone kept its gain, and most turn it down as the sound grows. 3 dB may be all that is left of 12."),
            Choice("It is certainly more than 3 dB louder.", "If its gain moved, and downwards. Perhaps it was off, or turned up for the softer one "
                   "and was still on its way. The film alone cannot say."),
            Choice("That a film cannot tell, and what the meter says.", "A meter at the loudspeaker knows nothing of the phone. Or record "
                   "another, unchanged sound beside both, and compare with that.", right=True),
            Choice("Nothing: sound is a matter of taste.", "Whether it is better is. How many decibels it grew is not."),
        )), reveal=opening(GAIN), store=my_guesses())


def say_louder():
    """Two sentences for a film, about a machine that seems louder."""
    return say_it(
        "film-louder", "Your two recordings differ by 3 dB, automatic gain on; your meter at the loudspeaker says 12 dB. Tell it for the film in two "
        "sentences.", ours=OURS,
        checks=SayChecks(what=("louder", "level"), known=("meter", "loudspeaker"), quantities=((Q(12, "dB"), "dB"), (Q(3, "dB"), "dB"))),
        store=my_guesses())


def _turning_words(seen, true, spacing, *, alone):
    it, seems, is_, flickers = ("it", "seems", "is", "flickers") if alone else ("they", "seem", "are", "flicker")
    if abs(seen) < 0.5:
        return f"{it} {seems} to stand still."
    if abs(abs(seen) - spacing / 2) < 0.5:
        return f"{it} {flickers} between two places, and no way round can be told."
    if abs(seen - true) < 0.5:
        return f"{it} {is_} seen as {it} turn{'s' * alone}."
    return f"{it} {seems} to turn {'forwards' if seen > 0 else 'backwards'} at {show(Q(abs(seen), 'turn/min'), 'turn/min')}."
