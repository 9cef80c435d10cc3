"""Book 02, crackle: four causes to hear and to see, the spectrum of a random jumper, and how evidence adds up."""

import ipywidgets
import numpy as np

from benchreckoner.bench.cautions import all_cautions
from benchreckoner.bench.crackle_sort import CHANGES, SAME, percent, sort_crackle
from benchreckoner.bench.recordings import RATE
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics import crackle, telegraph
from benchreckoner.physics.take import Take
from benchreckoner.physics.tunes import plucked_tune
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.sound import Sound
from benchreckoner.units import Q, show, show_digits

SHAFT, SEGMENTS = Q(40, "Hz"), 3
_SECONDS = 6.0
_STEP = Q(1, "V")
_SLOWEST, _FASTEST = 0.1, 1e4  # Hz
_WEAKEST, _STRONGEST = 1e-10, 1.0  # V²/Hz
_CAUSES, _SURE = 5, 80.0
_NAMES = {
    "tune": "a tune through a sound player",
    "flicker": "a tune through a contact that flickers",
    "wiper": "a tune through a worn volume control",
    "leak": "a tune through a control with direct volts on it",
    "shared": "a tune, and a supply contact shared with the motor",
}


def sound(cause, seed=1):
    """A tune through one fault, to hear and to see.

    Parameters
    ----------
    cause : str
        ``"flicker"``, ``"wiper"``, ``"leak"``, ``"shared"``, or ``"tune"`` for the tune alone.
    seed : int
        Another seed gives another crackle of the same kind.

    Returns
    -------
    Sound
    """
    if cause not in _NAMES:
        raise ValueError(f"cause {cause!r}: write one of {', '.join(_NAMES)}")
    take = Take(Q(_SECONDS, "s"), Q(RATE, "Hz"), np.random.default_rng(seed))
    tune = plucked_tune(level=Q(0.2, "V"), lowest=Q(196, "Hz"), note=Q(0.4, "s"), brightness=0.3, take=take)
    heard = tune if cause == "tune" else _fault(cause, take).heard(tune)
    return Sound(_NAMES[cause], heard.m_as("V"), RATE, next(one.words for one in all_cautions() if one.name == "hearing"))


def _fault(cause, take):
    if cause == "flicker":
        return crackle.contact_flicker(depth=0.8, step=Q(0.05, "V"), mean_open=Q(10, "ms"), mean_closed=Q(100, "ms"), take=take)
    if cause == "wiper":
        return crackle.worn_wiper(lift=0.9, step=Q(0.1, "V"), worn_places=80, turns=3, take=take)
    if cause == "leak":
        return crackle.leaky_bias(direct=Q(2, "V"), roughness=0.02, drift=Q(0.03, "V"), turns=3, take=take)
    return crackle.shared_supply_contact(ripple=Q(0.06, "V"), segments=SEGMENTS, shaft=SHAFT, sag=0.2,
                                         mean_bad=Q(1, "s"), mean_good=Q(1, "s"), take=take)


def jumper(*, closed, opened):
    """Where the noise of a contact that lets go at random lies.

    Parameters
    ----------
    closed, opened : Quantity [s]
        How long it holds and how long it lets go, on average.

    Returns
    -------
    Picture
        For a jump of 1 V.
    """
    frequency = Q(np.geomspace(_SLOWEST, _FASTEST, 121), "Hz")
    stays = {"mean_up": closed, "mean_down": opened}
    corner = telegraph.corner_frequency(**stays)
    size = np.sqrt(telegraph.variance(step=_STEP, **stays)).to("V")
    each_second = show_digits((1 / (closed + opened)).m_as("1/s"))
    often = "once" if each_second == "1" else f"{each_second} times"

    def density(frequency):
        return telegraph.spectrum(step=_STEP, frequency=frequency, **stays).m_as("V**2/Hz")

    here = f"{show_digits(corner.m_as('Hz'))} Hz"
    return Picture(
        title="A contact that lets go at random",
        x=Axis("frequency", "Hz", _SLOWEST, _FASTEST, scale="log"),
        y=Axis("power in each hertz, for a jump of 1 V", "V**2/Hz", _WEAKEST, _STRONGEST, scale="log"),
        curves=(Curve("crackle", frequency.m_as("Hz"), density(frequency)),),
        points=(Point("corner", float(corner.m_as("Hz")), float(density(corner))),),
        sentence=(f"It lets go {often} a second, for {show(opened, 's', digits=2)} on average. The crackle is "
                  f"about equally strong well below the corner at {here}, half as strong there, and well above it falls to a quarter "
                  f"of the power for each doubling. All together it is {show(size, 'V')} for a jump of 1 V."),
        alt=("A curve of power over frequency, both axes log: level on the left, then falling straight. The corner between "
             f"the two is marked at {here}."))


def evidence(*, ratio, answers):
    """How answers that all point one way lift a cause that began as one of five.

    Parameters
    ----------
    ratio : float
        How many times likelier each answer is with this cause than with any other.
    answers : float
        How many of them.

    Returns
    -------
    Picture
    """
    counts = np.linspace(0, 8, 81)

    def share(answers):
        odds = ratio**answers / (_CAUSES - 1)
        return 100 * odds / (1 + odds)

    here = float(share(answers))
    told = "enough to name it" if here >= _SURE else "not enough to name it"
    each = "1 answer," if answers == 1 else f"{answers:.0f} answers, each"
    return Picture(
        title="How answers add up",
        x=Axis("answers that point the same way", "", 0, 8), y=Axis("share of this cause", "percent", 0, 100, symbol="%"),
        curves=(Curve("this cause", counts, share(counts)), Curve("each of the other four", counts, (100 - share(counts)) / 4, "second")),
        points=(Point("here", float(answers), here),),
        limits=(Limit("named from here", "y", _SURE),),
        sentence=(f"{each} {ratio:.3g} times likelier with this cause than with the others, {'lifts' if answers == 1 else 'lift'} it from 20 % "
                  f"to {percent(here / 100)}: {told}."),
        alt=("Two curves over the number of answers. "
             + ("The cause they point at rises from 20 per cent towards 100, the others fall. " if ratio > 1 else "Both lie level at 20 per cent. ")
             + f"At {each.partition(',')[0]} it stands at {percent(here / 100)}; a line marks 80 %."))


_STAYS = tuple(sorted({*ladder(3e-4, 1, 41, "log"), 0.01, 0.1}))

JUMPER = LivePicture(
    key="crackle-jumper", picture=jumper,
    sliders=(Slider("closed", "how long it holds", "s", _STAYS, start=1), Slider("opened", "how long it lets go", "s", _STAYS, start=0.1)),
    goal="Find the stays of the worked case: a corner near 17.5 Hz, letting go nine times a second. Then make the dull crackle bright: "
         "move the corner above 300 Hz with the contact letting go as often.",
    phone_sliders=("closed", "opened"))

EVIDENCE = LivePicture(
    key="crackle-evidence", picture=evidence,
    sliders=(Slider("ratio", "times likelier", "", (1, 1.2, 1.5, 2, 3, 4, 5, 6, 8, 10, 16, 20), start=2),
             Slider("answers", "answers", "", tuple(range(9)), start=1)),
    goal="With answers 3 times likelier, find the fewest that name the cause. Then find how many times likelier a single answer would have to be.",
    phone_sliders=("ratio", "answers"))


def guess_buzz():
    """Guess first: where a buzz comes from that begins with the motor; its sound opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="crackle-buzz", question="A player's loudspeaker buzzes in spells, and only while the motor runs. Volume up or "
        "down, the buzz stays as loud. Where do you look first?",
        choices=(
            Choice("In the sound's path: what is heard there is bad there.", "Then the volume control would change it. It comes "
                   "in behind the control, with the supply."),
            Choice("At the motor: its brushes are worn.", "Every brush motor draws its current in pulses. In a sound player "
                   "they stay out of the amplifier, because the contact that both share has hardly any ohms."),
            Choice("At the contacts that motor and amplifier share.", "The motor's pulses times the shared ohms are volts on "
                   "the amplifier's supply. A supply contact that flickers lets the buzz in, in spells.", right=True),
        )), reveal=lambda: _shown(sound("shared")), store=my_guesses())


def guess_corner():
    """Guess first: where the noise of a random jumper ends; the live picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="crackle-corner", question="A contact holds for 100 ms on average and lets go for 10 ms, at random. At which "
        "frequency has its crackle fallen to half the power?",
        choices=(
            Choice("9 Hz: it lets go nine times a second.", "That is how often it happens. How <em>fast</em> each one is over "
                   "decides about the pitch, and that is mostly the shorter stay."),
            Choice("17.5 Hz: the shorter stay decides, and a turn is 2π.", "(1/0.1 s + 1/0.01 s) / 2π = 17.5 Hz. Above it the "
                   "power falls to a quarter for each doubling; what you hear as crackle is that long tail.", right=True),
            Choice("100 Hz: it lets go for a hundredth of a second.", "The right stay, but a rate of 100 a second is not yet a "
                   "frequency: a whole cycle is 2π of it."),
        )), reveal=opening(JUMPER), store=my_guesses())


def guess_evidence():
    """Guess first: how sure four fitting answers make a worn wiper; how answers add up opens afterwards."""
    return number_guess(NumberGuess(
        key="crackle-evidence", question="A volume control scratches while it is turned, and only then. Pressing, another source "
        "of power and ten minutes' wait change nothing. How many per cent sure is <em>a worn wiper</em>?",
        unit="%", truth=Q(100 * scratching().shares["wiper"], "percent"),
        explanation="<p>All four answers fit a worn wiper, and still it isn't sure: direct volts on the control, from a leaking "
                    "capacitor, scratch the same way. A meter across the control tells them apart in a minute; spray never "
                    "does.</p>"),
        reveal=opening(EVIDENCE), store=my_guesses())


def scratching():
    """The odds for a control that scratches while it is turned, all other tests without change."""
    return sort_crackle(answers={"turn": CHANGES, "press": SAME, "power": SAME, "wait": SAME})


def _shown(made):
    return ipywidgets.HTML(made._repr_html_())
