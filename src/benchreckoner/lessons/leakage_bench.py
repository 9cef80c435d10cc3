"""Book 03, leakage on the bench: charge that poses as leakage, the meter that empties the part, charge that comes back."""

import numpy as np

from benchreckoner.bench.leakage_readings import MOSTLY
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.leakage import currents_on_voltage, decayed_current, held_voltage, recovered_voltage
from benchreckoner.physics.leakage_limits import leakage_limit
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

SUPPLY, RATED = Q(6, "V"), Q(6.3, "V")
EXPONENT = 0.7  # from memory: parts are often between 0.5 and 1
RULE = "a hundredth and three"
SOAKED, SOAK_OHMS = Q(100, "uF"), Q(10, "Mohm")  # an example of our own: 10 % come back with 100 s
FARADS = tuple(float(f"{one * 10.0**power:.2g}") for power in range(-7, -1) for one in (1, 2.2, 4.7)
               if 4e-7 < one * 10.0**power < 5e-3)
_LEAST, _MOST = 1e-3, 1e5  # uA
_FIRST, _LAST, _HOUR = 1.0, 7200.0, 3600.0  # s


def current_on_voltage(*, wait, resistor, capacitance, leakage):
    """What a meter in line shows while a capacitor lies on voltage: charging and leakage, against the time.

    Parameters
    ----------
    wait : Quantity [s]
        When the meter is read.
    resistor : Quantity [ohm]
    capacitance : Quantity [F]
    leakage : Quantity [A]
        Of the part after one minute at the supply.

    Returns
    -------
    Picture
    """
    seconds = np.geomspace(_FIRST, _LAST, 161)

    def both(time):
        alone = decayed_current(current=leakage, read_after=Q(1, "min"), exponent=EXPONENT, time=time)
        return (one.m_as("uA") for one in currents_on_voltage(
            supply=SUPPLY, series_resistance=resistor, capacitance=capacitance, leakage_resistance=SUPPLY / alone, time=time))

    charging, leaking = both(Q(seconds, "s"))
    charges, leaks = (float(one) for one in both(wait))
    shown, share = charges + leaks, leaks / (charges + leaks)
    limit = leakage_limit(rule=RULE, capacitance=capacitance, voltage=RATED)
    early = ("Too early: you would judge the charge, not the part." if share < 0.5 else
             "Not yet: charge is still a large part of it." if share < MOSTLY else "Now the meter speaks of the part.")
    return Picture(
        title="Charging or leaking?",
        x=Axis("time on voltage", "s", _FIRST, _LAST, scale="log"),
        y=Axis("current", "uA", _LEAST, _MOST, scale="log"),
        curves=(Curve("charging", seconds, _drawn(charging), "second"), Curve("leaking", seconds, _drawn(leaking), "third"),
                Curve("what the meter shows", seconds, _drawn(charging + leaking), "heavy")),
        points=(Point("you read here", float(wait.m_as("s")), shown if shown >= _LEAST else np.nan),),
        limits=(Limit("limit for this part", "y", float(limit.m_as("uA"))),),
        sentence=(f"After {_time(wait)} the meter shows {show(Q(shown, 'uA'), 'A', digits=2)}, and {_percent(share)} of it is "
                  f"leakage. {early} The limit is {show(limit, 'A')}, at five minutes."),
        alt=("Current against time on voltage, both axes log. The charging current runs level, then drops like a cliff; the "
             "leakage comes up with the volts, then sinks slowly; the meter shows their sum. After "
             f"{_time(wait)} it shows {show(Q(shown, 'uA'), 'A', digits=2)}, {_percent(share)} of it leakage."))


def voltage_kept(*, time, capacitance, meter, leak):
    """Volts of a charged capacitor that lies alone, and of one with a meter left on it.

    Parameters
    ----------
    time : Quantity [s]
    capacitance : Quantity [F]
    meter : Quantity [ohm]
        Of the meter's input.
    leak : Quantity [ohm]
        Of the part.

    Returns
    -------
    Picture
    """
    seconds = np.geomspace(_FIRST, _HOUR, 121)

    def kept(when, ohms):
        return held_voltage(voltage=SUPPLY, capacitance=capacitance, leakage_resistance=leak, meter_resistance=ohms,
                            time=when).m_as("V")

    nothing = Q(1e9, "Mohm")  # as good as no meter
    here, alone = float(kept(time, meter)), float(kept(time, nothing))
    share = (1 / meter / (1 / meter + 1 / leak)).m_as("")
    return Picture(
        title="Charged, then left alone",
        x=Axis("time since the supply came off", "s", _FIRST, _HOUR, scale="log"),
        y=Axis("volts left", "V", 0, 7),
        curves=(Curve("nothing on it", seconds, kept(Q(seconds, "s"), nothing), "faint"),
                Curve("meter left on it", seconds, kept(Q(seconds, "s"), meter))),
        points=(Point("with the meter", float(time.m_as("s")), here), Point("without", float(time.m_as("s")), alone, "other")),
        limits=(Limit("half", "y", float(SUPPLY.m_as("V")) / 2),),
        sentence=(f"After {_time(time)} the part has {_volts(here)} with the meter on it all the while, {_volts(alone)} without. "
                  f"Of what flows off, {_percent(share)} goes through the meter's {show(meter, 'ohm', digits=2)}, "
                  f"{_percent(1 - share)} through the part."),
        alt=("Two falling curves of the volts left in a capacitor charged to 6 V, against the time on a log axis: one with a "
             f"meter on it, one without. After {_time(time)} they stand at {_volts(here)} and {_volts(alone)}."))


def soakage(*, wait, share, voltage):
    """Volts that come back after a capacitor was discharged for a moment.

    Parameters
    ----------
    wait : Quantity [s]
        Since the resistor came off.
    share : Quantity [percent]
        What comes back in the end, of the volts before.
    voltage : Quantity [V]
        On which the part had stood for long.

    Returns
    -------
    Picture
    """
    seconds, part = np.geomspace(_FIRST, _HOUR, 121), share / 100
    inner = SOAKED * part / (1 - part)

    def back(when):
        return recovered_voltage(voltage=voltage, capacitance=SOAKED, soak_capacitance=inner, soak_resistance=SOAK_OHMS,
                                 time=when).m_as("V")

    here = float(back(wait))
    return Picture(
        title="Discharged, then left open",
        x=Axis("time since the resistor came off", "s", _FIRST, _HOUR, scale="log"),
        y=Axis("volts that came back", "V", 0, 10),
        curves=(Curve("volts", seconds, back(Q(seconds, "s"))),),
        points=(Point("here", float(wait.m_as("s")), here),),
        limits=(Limit("1 V: discharge it again", "y", 1),),
        sentence=(f"{_volts(float(voltage.m_as('V')))}, discharged until the meter showed nothing: {_time(wait)} later there are "
                  f"{_volts(here)} again. " + ("Discharge it once more." if here >= 1 else "Below 1 V: you may handle it.")),
        alt=("The volts that come back after a discharge, against the time on a log axis: a curve that rises from nothing and levels "
             f"off at {share:g} per cent of what was there. After {_time(wait)} it stands at {_volts(here)}."))


CURRENT = LivePicture(
    key="leakage-current", picture=current_on_voltage,
    sliders=(Slider("wait", "time on voltage", "s", ladder(_FIRST, _LAST, 78, "log"), start=10),
             Slider("resistor", "ohms in series", "ohm", (100, 220, 470, 1e3, 2.2e3, 4.7e3, 1e4, 2.2e4, 4.7e4, 1e5, 2.2e5, 4.7e5, 1e6),
                    start=1e5),
             Slider("capacitance", "capacitance", "F", FARADS, start=1e-3),
             Slider("leakage", "leakage after one minute", "A", ladder(1e-7, 1e-3, 41, "log"), start=5e-6)),
    goal="1000 µF through 100 kΩ: find the wait after which nine tenths of what is shown is leakage. Then find it for 10 kΩ.",
    phone_sliders=("wait", "resistor"))

KEPT = LivePicture(
    key="leakage-kept", picture=voltage_kept,
    sliders=(Slider("time", "time since the supply came off", "s", ladder(_FIRST, _HOUR, 71, "log"), start=60),
             Slider("capacitance", "capacitance", "F", FARADS, start=1e-5),
             Slider("meter", "ohms of the meter's input", "ohm", (1e6, 1e7, 1e8), start=1e7),
             Slider("leak", "ohms of the part's leakage", "ohm", ladder(1e5, 1e10, 41, "log"), start=1e10)),
    goal="10 µF that hardly leaks: find the time in which a meter of 10 MΩ alone halves the volts. Then find how large the part "
         "must be for the meter to take less than a tenth in that time.",
    phone_sliders=("time", "capacitance"))

SOAKAGE = LivePicture(
    key="leakage-soakage", picture=soakage,
    sliders=(Slider("wait", "time since the resistor came off", "s", ladder(_FIRST, _HOUR, 71, "log"), start=2),
             Slider("share", "per cent that come back", "", ladder(1, 15, 15), start=10),
             Slider("voltage", "volts it had stood on", "V", (3, 6, 9, 12, 16, 25, 35, 50, 63), start=25)),
    goal="25 V and 10 %: find the wait after which more than 1 V is back.", phone_sliders=("wait", "voltage"))


def guess_meter():
    """Guess first: what the meter's own ohms do to a reading across a large resistor."""
    return choice_guess(ChoiceGuess(
        key="leakage-meter", question="A capacitor leaks through a resistor of 1 MΩ. Across the resistor your meter of 10 MΩ shows "
        "1.00 V. How much leaks?",
        choices=(
            Choice("1.00 µA: volts by ohms.", "That is what flows in the resistor. The meter is a second way beside it, and "
                   "0.10 µA more flows there."),
            Choice("1.10 µA.", "1.00 µA through the resistor and 0.10 µA through the meter. The part passed both. With 10 kΩ the "
                   "meter's share is a thousandth, and you may forget it.", right=True),
            Choice("0.91 µA: the meter takes some away.", "The meter takes its share of what the part has <em>already</em> let "
                   "through. So the part leaks more than the resistor shows, not less."),
        )), store=my_guesses())


def guess_wait():
    """Guess first: whether ten seconds are enough; the picture of charging and leaking opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="leakage-wait", question="1000 µF, 100 kΩ in series, 6 V. Ten seconds after switching on you read 54 µA; the limit for the "
        "part is 66 µA. What do you know?",
        choices=(
            Choice("It is good: below the limit.", "A perfect part would show the same 54 µA here. You have read the charge. "
                   "It happens to lie below the limit; with 47 kΩ the same part would show 103 µA and “fail”."),
            Choice("It leaks 54 µA: nearly bad.", "Almost all of it still charges the part. Resistor times capacitance is 100 s: "
                   "after ten of them it has hardly begun."),
            Choice("Nothing yet about leakage.", "54 µA is what charges any part of this size at that moment. Wait, or take a "
                   "smaller resistor.", right=True),
            Choice("Ten seconds are always enough.", "For 10 µF through 1 kΩ, yes: that is a hundredth of a second. Here one "
                   "resistor times one capacitor is 100 s."),
        )), reveal=opening(CURRENT), store=my_guesses())


def guess_kept():
    """Guess first: why a charged part sinks under the meter; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="leakage-kept", question="You charge 10 µF to 6.0 V, pull the supply off and leave your meter on it. A minute later it "
        "shows 3.3 V. What does the part do?",
        choices=(
            Choice("It leaks badly: half is gone in a minute.", "It went through your meter. 10 MΩ and 10 µF are 100 s, "
                   "whatever the part does. A perfect part falls to 3.3 V."),
            Choice("It has too little capacitance.", "You can't tell: the meter's ohms and the part's own are both in it. Half "
                   "the capacitance would have come down to 1.8 V, though."),
            Choice("Nothing: the meter emptied it.", "Charge it again, take the meter off, wait a minute, touch it for a "
                   "second: what you then read is the part's own.", right=True),
        )), reveal=opening(KEPT), store=my_guesses())


def guess_shorted():
    """Guess first: whether a shorted part is empty; the picture of soakage opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="leakage-shorted", question="A capacitor stood on 25 V for an hour. You discharge it until the meter shows 0.0 V, take the "
        "resistor off and have a coffee. What may it hold when you come back?",
        choices=(
            Choice("0 V: shorted is empty.", "The plates were empty. The layer between them had soaked up charge, and gives it "
                   "back slowly. 10 to 15 % come back in a wet aluminium part (published, open encyclopaedia)."),
            Choice("Two or three volts.", "10 to 15 % of 25 V. Enough to upset a meter on its ohms range, or a transistor "
                   "that you solder it to.", right=True),
            Choice("All 25 V.", "What the plates held is gone for good. Only what had soaked in comes back."),
        )), reveal=opening(SOAKAGE), store=my_guesses())


def _drawn(values):
    return np.where(values >= _LEAST, values, np.nan)


def _percent(share):
    """A share for reading; neither nothing nor all is ever said of a little."""
    if 0 < share < 0.005 or 0.995 < share < 1:
        return "less than 1 %" if share < 0.5 else "more than 99 %"
    return f"{100 * share:.0f} %"


def _volts(value):
    return show(Q(value, "V"), "V", digits=2) if value >= 1e-3 else "less than 1 mV"


def _time(time):
    seconds = float(time.m_as("s"))
    for size, unit in ((3600, "h"), (60, "min")):
        if seconds >= size:
            return f"{seconds / size:.2g} {unit}"
    return f"{seconds:.2g} s"
