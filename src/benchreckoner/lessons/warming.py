"""Book 05, warm: ten warm minutes of a motor, copper against magnet, the guesses, and saying it."""

import numpy as np

from benchreckoner.lessons.motor_example import (COMPENSATION, CONSTANT, DROP, HEAVY, OPEN_VOLTAGE, PLAY, PLAY_SPEED, SET_VOLTAGE, SOURCE,
                                                 WINDING)
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.copper import warmed_resistance
from benchreckoner.physics.governors import headroom_current
from benchreckoner.physics.motors import terminal_voltage
from benchreckoner.physics.warm_motor import settled_temperatures, warm_current, warm_drift, warming_temperatures
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact

# The invented motor's two heat stores: winding to housing, housing to air.
PATHS = dict(winding_to_housing=Q(10, "delta_degC/W"), housing_to_air=Q(24, "delta_degC/W"))
STORES = dict(winding_capacity=Q(1.9, "J/delta_degC"), housing_capacity=Q(46, "J/delta_degC"))
ROOM, TEN = Q(20, "degC"), 10.0
OURS = ("Ten minutes of play change a sound motor's speed by about 0.1 %, reckoned for our example, so warmth alone explains no drag; I "
        "have not measured yours. What does slow it is a load that takes nearly all the volts there are: read current, motor volts and "
        "supply cold and warm.")
_STIFF = Q(30, "V")  # volts in hand whatever the motor draws
_MINUTES = np.unique(np.append(np.geomspace(0.05, 60, 44), TEN))
_AT_TEN = int(np.flatnonzero(_MINUTES == TEN)[0])
_LOADS = np.linspace(0.02, 0.16, 71)
_SUPPLY = dict(regulator_drop=DROP, source_resistance=SOURCE)
_MOTOR = dict(winding_resistance=WINDING, motor_constant=CONSTANT)
_LOWEST, _HIGHEST = -10.0, 8.0  # %
_COLDER, _WARMER = -16.0, 10.0  # %
_UNSEEN = 0.005  # %: less is shown as nothing


def minutes_picture(*, current, supply, start, air):
    """Speed of a motor that warms itself, against minutes: with this supply, with fresh cells, and without a governor.

    Parameters
    ----------
    current : Quantity [A]
        At 20 degC, for load and friction.
    supply : Quantity [V]
        Off load.
    start, air : Quantity [degC]
        Of the motor at first, and of the air round it.

    Returns
    -------
    Picture
    """
    winding, magnet = warming_temperatures(cold_current=current, time=Q(_MINUTES, "min"), start=start, air=air,
                                           winding_resistance=WINDING, **PATHS, **STORES)
    warm = dict(cold_current=current, winding=winding, magnet=magnet, start=start, **_SUPPLY, **_MOTOR)
    governed = dict(set_voltage=SET_VOLTAGE, compensation=COMPENSATION)
    fixed = terminal_voltage(speed=PLAY_SPEED, current=current, **_MOTOR)
    here, fresh, bare = (_percent(warm_drift(**warm, **kind)) for kind in (
        {**governed, "open_voltage": supply}, {**governed, "open_voltage": OPEN_VOLTAGE},
        {"set_voltage": fixed, "compensation": Q(0, "ohm"), "open_voltage": _STIFF}))
    most = headroom_current(open_voltage=supply, **governed, **_SUPPLY)
    draws = warm_current(cold_current=current, magnet=magnet).m_as("A")
    lost = _first(draws > most.m_as("A"))
    steady = _first(warmed_resistance(resistance=WINDING, cold=ROOM, warm=winding).m_as("ohm") >= COMPENSATION.m_as("ohm") * (1 - 1e-9))
    end = settled_temperatures(cold_current=current, air=air, winding_resistance=WINDING, **PATHS)[0]
    words = (f"After ten minutes the winding is at {show_exact(_whole(winding[_AT_TEN]), 'degC')} and the motor turns "
             f"{_change(here[_AT_TEN])}; with fresh cells {_change(fresh[_AT_TEN])}, without a governor {_change(bare[_AT_TEN])}. "
             f"{_regulation(lost, most)}{_hunts(0 if lost == 0 else steady)} In the end the winding comes to {show_exact(_whole(end), 'degC')}.")
    return Picture(
        title="Ten warm minutes",
        x=Axis("minutes since it was switched on", "min", 0.05, 60, scale="log"),
        y=Axis("speed against its start", "%", _LOWEST, _HIGHEST, symbol="%"),
        curves=(Curve("without a governor", _MINUTES, bare, "third"), Curve("same load, fresh cells", _MINUTES, fresh, "second"),
                Curve("this supply", _MINUTES, here, "heavy")),
        points=(Point("after ten minutes", TEN, _drawn(here[_AT_TEN])),),
        limits=(Limit("regulation ends", "x", _MINUTES[lost] if lost else np.nan),),
        sentence=words,
        alt=("Three curves of the change of speed in per cent against minutes on a log axis: the governed motor on this supply, the "
             f"same on fresh cells, and a motor on fixed volts. {words}"))


TEN_MINUTES = LivePicture(
    key="ten-warm-minutes", picture=minutes_picture,
    sliders=(Slider("current", "motor current when cold", "A", ladder(0.02, 0.16, 29), start=0.085),
             Slider("supply", "volts of the cells, off load", "V", ladder(5.4, 9, 13), start=9),
             Slider("start", "the motor at first", "degC", ladder(0, 30, 7), start=20),
             Slider("air", "the air round it from then on", "degC", ladder(20, 45, 6), start=20)),
    goal="Motor at 20 °C, air of 45 °C round it: find the load at which ten minutes change next to nothing. Then take 140 mA and "
         "lower the supply until a line shows that regulation ends on the way.",
    phone_sliders=("current", "air"),
    phone_goal="Motor at 20 °C, air of 45 °C round it: find the load at which ten minutes change next to nothing.")


def materials_picture(*, current, rise, compensation):
    """What copper, magnet and both do to a governed motor's speed, against its load.

    Parameters
    ----------
    current : Quantity [A]
        Of the motor when cold.
    rise : Quantity [K]
        Of the whole motor, above 20 degC.
    compensation : Quantity [ohm]
        Of the governor, which is trimmed right at the usual load.

    Returns
    -------
    Picture
    """
    loads = np.append(_LOADS, current.m_as("A"))
    governor = dict(set_voltage=SET_VOLTAGE + (WINDING - compensation) * PLAY, compensation=compensation, open_voltage=_STIFF)
    hot = 20 + rise.m_as("K")
    windings, magnets = (Q(np.array(degrees)[:, np.newaxis], "degC") for degrees in ((hot, 20, hot), (20, hot, hot)))
    copper, magnet, both = _percent(warm_drift(cold_current=Q(loads, "A"), winding=windings, magnet=magnets, **governor, **_SUPPLY,
                                               **_MOTOR))  # one reckoning for the three: a slider waits for it
    crossing = _crossing(both[:-1])
    milli = 1e3 * _LOADS
    cancel = (f"they cancel at {show(Q(crossing / 1e3, 'A'), 'A')}" if np.isfinite(crossing) else
              "they cancel at no load in this picture" if rise.magnitude else "nothing is warmer yet")
    words = (f"{show_exact(rise, 'K')} warmer, {show(current, 'A')}: copper alone makes it {_change(copper[-1])}, the magnet alone "
             f"{_change(magnet[-1])}, both together {_change(both[-1])}; {cancel}.")
    return Picture(
        title="Copper against magnet",
        x=Axis("motor current when cold", "mA", 20, 160),
        y=Axis("speed against cold", "%", _COLDER, _WARMER, symbol="%"),
        curves=(Curve("copper alone", milli, copper[:-1], "first"), Curve("magnet alone", milli, magnet[:-1], "second"),
                Curve("both", milli, both[:-1], "heavy")),
        points=(Point("both, here", float(current.m_as("mA")), _drawn(both[-1], _COLDER, _WARMER)),
                Point("cancel", crossing, 0, "other")),
        limits=(Limit("as when cold", "y", 0),),
        sentence=words,
        alt=("Change of speed in per cent against the load's current. "
             + ("Copper alone falls ever lower to the right, the magnet alone lies highest, and both together begin between them, above zero, and "
                "fall most steeply, to below it. " if rise.magnitude else "All three lines lie level at zero. ") + words))


COPPER_AND_MAGNET = LivePicture(
    key="copper-and-magnet", picture=materials_picture,
    sliders=(Slider("current", "motor current when cold", "A", ladder(0.02, 0.16, 141), start=0.085),
             Slider("rise", "how much warmer", "K", ladder(0, 40, 9), start=30),
             Slider("compensation", "the governor's compensation", "ohm", ladder(0, 15, 16), start=15)),
    goal="30 K warmer, 15 Ω: find the load at which copper and magnet cancel. Then leave the load and change the warmth.",
    phone_sliders=("current", "rise"))


def guess_ten_minutes():
    """Guess first: what ten minutes of play do to a sound motor; the run opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="warming-ten-minutes",
        question="A sound governed motor (15 Ω, 85 mA, fresh cells) is switched on at 20 °C and plays for ten minutes in a room of 20 °C. Its "
                 "speed is now:",
        choices=(
            Choice("Several per cent slow: warm copper has more ohms.",
                   "It has, but its 0.11 W warm the winding by about 2 K. That is 0.13 Ω, and 85 mA through them are 11 mV."),
            Choice("Several per cent fast: a warm magnet is weaker.",
                   "Weaker means faster, that part is right. But in ten minutes the shell gains one kelvin: a fifth of a per cent."),
            Choice("The same to about a tenth of a per cent.",
                   "Copper slows it by 0.3 %, the magnet wins back 0.2 %. The winding is warm in a minute, the magnet takes twenty, so it "
                   "first slows a hair and then creeps back.", right=True),
            Choice("Exactly the same: that is what the governor is for.",
                   "This kind of governor never sees the speed. It reckons it from volts and current, with ohms that were right when "
                   "somebody trimmed it."),
        )), reveal=opening(TEN_MINUTES), store=my_guesses())


def guess_both():
    """Guess first: what copper and magnet do together; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="warming-both",
        question="On a hot day, shut in its case, the whole motor is 30 K warmer. Governor set exactly to its 15 Ω, 85 mA, volts in hand. "
                 "Copper alone would make it 4.6 % slow. With the magnet's part it is:",
        choices=(
            Choice("Slower still: a weak magnet pulls less.",
                   "It does pull less for each ampere, and the motor takes more amperes. But speed is volts over the magnet's constant: "
                   "a weaker magnet has to turn <em>faster</em> for the same volts."),
            Choice("4.6 % slow: the magnet does not matter.", "Hard ferrite loses 0.2 % for each kelvin, copper gains 0.4 % of its ohms. At this "
                   "load the magnet moves the speed more."),
            Choice("1.2 % fast.", "The magnet alone makes it 6.4 % fast. So warm does not always run slow.", right=True),
            Choice("Right on speed: the two always cancel.", "They cancel at one load only, near 104 mA here. Below it warm is fast, above it "
                   "slow."),
        )), reveal=opening(COPPER_AND_MAGNET), store=my_guesses())


def say_warm():
    """Two sentences to somebody who blames the warm motor."""
    return say_it("warming", "Somebody says: “It drags after ten minutes; the motor gets warm, that is normal.” Tell them in two sentences what "
                  "warmth can do and what you would read.", ours=OURS,
                  checks=SayChecks(what=("speed", "warm", "warmth"), known=("reckoned", "supply", "current"),
                                   quantities=((PLAY, "A"), (HEAVY, "A"))), store=my_guesses())


def _percent(drift):
    return drift.m_as("percent")


def _first(reached):
    """The first place where it is so, or none."""
    return int(np.argmax(reached)) if np.any(reached) else None


def _drawn(value, low=_LOWEST, high=_HIGHEST):
    return float(value) if low <= value <= high else np.nan


def _whole(temperature):
    return Q(round(float(temperature.m_as("degC")), 1), "degC")


def _crossing(both):
    """Milliamperes at which the change passes zero, NaN if it never does."""
    places = np.flatnonzero((both[:-1] > 0) & (both[1:] <= 0))
    if not places.size:
        return np.nan
    left = int(places[0])
    return float(1e3 * np.interp(0, (both[left + 1], both[left]), (_LOADS[left + 1], _LOADS[left])))


def _change(percent):
    if abs(percent) < _UNSEEN:
        return "as fast as before"
    return f"{abs(percent):.2f} % {'faster' if percent > 0 else 'slower'}"


def _regulation(lost, most):
    if lost is None:
        return f"The governor has volts in hand for {show(most, 'A')} and keeps them all the way."
    if lost == 0:
        return f"The supply allows {show(most, 'A')}, less than this load takes: it is out of regulation from the start."
    return f"The supply allows {show(most, 'A')}: after {_MINUTES[lost]:.2g} min the load takes more, and regulation ends."


def _hunts(steady):
    if steady == 0:
        return ""
    when = "all through this hour" if steady is None else f"for the first {_MINUTES[steady]:.2g} min"
    return (f" Below 20 °C the copper has less than the governor's {show_exact(COMPENSATION, 'ohm')}: it would hunt {when}, and the curve shows "
            "its middle.")
