"""Book 03, why a leaky part reads high: what six kinds of tester show, the guesses, the table, and saying it."""

import numpy as np
from IPython.display import Markdown

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.testers import (KNEE, charge_time_reading, discharge_time_reading, oscillator_reading,
                                           ramp_reading)
from benchreckoner.physics.testers_steady import PARALLEL, bridge_capacitance, bridge_resistance, integrator_reading
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact

MARKED, BRIDGE, ADDING_TIME, RAMP_VOLTS = Q(10, "uF"), Q(120, "Hz"), Q(0.1, "s"), Q(1, "V")
OURS = ("18 µF on a tester that times the charging means that the part fills late: about 21 kΩ of leakage across 10 µF would do "
        "that, and so would about 18 µF, so it is not yet known which. Read it on a bridge as well: near 10 µF there, it leaks and goes; "
        "near 18 µF, look for a part in parallel.")
_LEAST, _MOST, _HIGHEST = 1e3, 1e8, 4.0
_NEAR_CLIFF = 1 + np.geomspace(1e-5, 0.3, 24)
_RIGHT = 0.02  # a tester that is off by less than this is called right


def readings(*, leakage_resistance, series_resistance, tester_resistance, capacitance=MARKED):
    """What each kind of tester shows of one part.

    Parameters
    ----------
    leakage_resistance, series_resistance : Quantity [ohm]
        Of the part.
    tester_resistance : Quantity [ohm]
        Of the testers that have a resistor; the steady current is what 1 V drives through as much.
    capacitance : Quantity [F], optional

    Returns
    -------
    dict of Quantity [F]
        NaN where a clock never stops.
    """
    part = dict(capacitance=capacitance, leakage_resistance=leakage_resistance, series_resistance=series_resistance)
    return {
        "charge time": charge_time_reading(**part, source_resistance=tester_resistance),
        "bridge, 120 Hz": bridge_capacitance(**part, frequency=BRIDGE),
        "discharge time": discharge_time_reading(**part, load_resistance=tester_resistance),
        "steady current": ramp_reading(**part, current=RAMP_VOLTS / tester_resistance, stop=RAMP_VOLTS),
        "oscillator": oscillator_reading(**part, source_resistance=tester_resistance),
        "charge added up": integrator_reading(**part, time=ADDING_TIME),
    }


def tester_picture(*, leakage, series, tester, capacitance=MARKED):
    """What six kinds of tester show of a part, against its leak.

    Parameters
    ----------
    leakage, series, tester : Quantity [ohm]
        The leak across the part, its series resistance, the testers' resistor.
    capacitance : Quantity [F], optional
        What the part truly has.

    Returns
    -------
    Picture
        A clock that never stops leaves a gap.
    """
    edge = _never_below(series, tester)
    smooth = np.geomspace(_LEAST, _MOST, 91)
    cliffs = (edge, tester.m_as("ohm"), 2 * tester.m_as("ohm"))  # of charge time, steady current and oscillator
    ohms = np.sort(np.concatenate((smooth, *(cliff * _NEAR_CLIFF for cliff in cliffs))))
    both = _times(readings(leakage_resistance=Q(np.append(ohms, leakage.m_as("ohm")), "ohm"), series_resistance=series,
                           tester_resistance=tester, capacitance=capacitance), capacitance)  # one reckoning for curves and points: a slider waits for it
    along, here = ({name: values[part] for name, values in both.items()} for part in (slice(-1), -1))
    posing = bridge_resistance(capacitance=capacitance, leakage_resistance=leakage, series_resistance=series, frequency=BRIDGE)
    place = float(leakage.m_as("kohm"))
    shown = {name: _farads(here[name], capacitance) for name in ("bridge, 120 Hz", "discharge time")}
    styles = dict(zip(here, ("heavy", "second", "third", "fourth", "first", "faint")))
    seen, true = show(leakage, "ohm", digits=2), show_exact(capacitance, "F")
    charged = _charge_words(here["charge time"], capacitance)
    return Picture(
        title=f"What a tester shows of {true} that leak",
        x=Axis("resistance of the leak", "kohm", _LEAST / 1e3, _MOST / 1e3, scale="log"),
        y=Axis("times the true farads", "", 0, _HIGHEST),
        curves=tuple(Curve(name, ohms / 1e3, values, styles[name]) for name, values in along.items()),
        points=(Point("charge time here", place, _drawn(here["charge time"])),
                Point("bridge here", place, _drawn(here["bridge, 120 Hz"]), "other")),
        limits=(Limit("twice", "y", 2), Limit("no reading below", "x", edge / 1e3 if _LEAST <= edge <= _MOST else np.nan)),
        sentence=(f"{true} with {seen} across it: a charge-time tester of {show(tester, 'ohm', digits=2)} shows "
                  f"{charged}, a bridge at 120 Hz {shown['bridge, 120 Hz']} and "
                  f"{show(posing, 'ohm', digits=2)} in series, a discharge tester {shown['discharge time']}. Below "
                  f"{show(Q(edge, 'ohm'), 'ohm')} the charge-time tester never comes to an end."),
        alt=("Six curves of what a tester shows, in times of the true farads, against the ohms of the leak on a log axis. "
             f"{_level_words(tester, series)} {_cliff_words(edge)} The charge added up climbs without end, the discharge tester sinks, and the bridge "
             f"stays almost level. At {seen} the charge-time tester shows {charged}, the bridge "
             f"{shown['bridge, 120 Hz']}, the discharge tester {shown['discharge time']}."))


def _level_words(tester, series):
    """How the curves lie on the right, where the leak is small: below one where the part's own resistance is not small beside the tester's."""
    if series < 0.05 * tester:
        return "All run level at one on the right, where the leak is small."
    return ("All run level on the right, where the leak is small: bridge and charge added up at one, the others below it, since the "
            "part's own series resistance is not small beside the tester's.")


def _cliff_words(edge):
    """How the testers that run out of volts behave towards the left."""
    if edge < _LEAST:
        return "The charge-time tester shows a number at every leak in this picture, since its resistor is small beside them."
    return ("Towards the left the charge-time tester and the steady current bend upwards, pass twice and at once leave the picture: left of that they "
            "show nothing. The oscillator stays low longer and goes as suddenly.")


READS_HIGH = LivePicture(
    key="reads-high", picture=tester_picture,
    sliders=(Slider("leakage", "ohms of the leak", "ohm", ladder(_LEAST, _MOST, 101, "log"), start=1e6),
             Slider("series", "series resistance of the part", "ohm", ladder(0.03, 100, 15, "log"), start=3),
             Slider("tester", "the tester's resistor", "ohm",
                    (100, 220, 470, 1000, 2200, 4700, 10000, 22000, 47000, 100000, 220000, 470000), start=10000)),
    goal="Tester's resistor 10 kΩ: find the leak at which the charge-time tester shows about twice. How many times its resistor is "
         "that? Then go on to no reading, and count the steps.",
    phone_sliders=("leakage", "tester"))


def guess_bonus():
    """Guess first: what a reading far above the marking means; the six testers open afterwards."""
    return choice_guess(ChoiceGuess(
        key="reads-high-bonus",
        question="An old capacitor says 10 µF. A tester that times the charging through 10 kΩ shows 18 µF. Bonus?",
        choices=(
            Choice("A bonus: it holds more than it promised, so it is healthy.",
                   "Old tolerances were wide, +50 % perhaps, but 18 µF are +80 %. A leak takes part of the charging current, so the part fills late, and "
                   "the tester calls <em>late</em> <em>more</em>. About 21 kΩ across it would do."),
            Choice("The tester is broken.",
                   "It timed rightly. It only reckons with a part that does not leak. Try it on a good part: it will be right there."),
            Choice("It has dried out.", "Then it would have <em>fewer</em> farads, and read low."),
            Choice("It may leak badly. This reading alone does not say.",
                   "About 21 kΩ across 10 µF read just so. So would 18 µF: another part still in parallel, say. One reading of "
                   "another kind tells them apart.", right=True),
        )), reveal=opening(READS_HIGH), store=my_guesses())


def guess_two_testers():
    """Guess first: which of two testers that disagree is right; the table of patterns opens no picture."""
    return choice_guess(ChoiceGuess(
        key="reads-high-two-testers",
        question="The same part, now on a bridge at 120 Hz: 10.0 µF. The charge-time tester still says 18 µF. Which one lies?",
        choices=(
            Choice("The bridge: it uses next to no volts.", "True, and a real part leaks less at low volts. But a bridge hardly heeds a "
                   "leak at any volts: at 120 Hz 10 µF carry 160 times the current of 21 kΩ, and the leak is lost beside it."),
            Choice("The charge-time tester: throw it out.", "It is the one that saw the leak. Keep both."),
            Choice("Neither. Together they say that it leaks.",
                   "Each shows truly what it measures. That they disagree <em>is</em> the finding: about 21 kΩ across the part.",
                   right=True),
            Choice("The part changed between the readings.", "It can, a few per cent with warmth or soakage. Not by 8 µF."),
        )), store=my_guesses())


def pattern_table():
    """What each kind of tester makes of a leaky, a resistive and a dried-out part, reckoned with our laws.

    Returns
    -------
    IPython.display.Markdown
    """
    sound = dict(leakage_resistance=Q(1e9, "ohm"), series_resistance=Q(1e-3, "ohm"))
    leaky = {**sound, "leakage_resistance": Q(22, "kohm")}
    dry = {"capacitance": MARKED / 2, "leakage_resistance": Q(1e9, "ohm"), "series_resistance": Q(500, "ohm")}
    columns = [leaky, {**sound, "series_resistance": Q(500, "ohm")}, dry]
    found = [readings(**one, tester_resistance=Q(10, "kohm")) for one in columns]
    lines = ["| tester | leaky: 22 kΩ across it | 500 Ω in series | dried out: 5 µF and 500 Ω |", "|---|---|---|---|"]
    lines += [f"| {name} | " + " | ".join(_pattern_cell(one[name]) for one in found) + " |" for name in found[0]]
    columns = [{"capacitance": MARKED, **one} for one in columns]
    lines.append("| bridge, parallel farads | " + " | ".join(
        _pattern_cell(bridge_capacitance(**one, frequency=BRIDGE, mode=PARALLEL)) for one in columns) + " |")
    for frequency in (BRIDGE, Q(1, "kHz")):
        ohms = [show(bridge_resistance(**one, frequency=frequency), "ohm", digits=2) for one in columns]
        lines.append(f"| bridge, series ohms at {show_exact(frequency, 'Hz')} | " + " | ".join(ohms) + " |")
    return Markdown("\n".join(lines))


def say_why():
    """Two sentences to somebody who is glad of 18 µF."""
    return say_it(
        "reads-high", "A friend is glad: “It says 10, it reads 18 µF, better than new!” Tell them in two sentences what it means and "
        "what you would do next.",
        ours=OURS,
        checks=SayChecks(what=("leak", "leaks", "leaky", "leakage"), known=("tester", "bridge"),
                         quantities=((Q(21, "kohm"), "ohm"), (Q(18, "uF"), "F"), (Q(10, "uF"), "F"))),
        store=my_guesses())


def _never_below(series, tester):
    """Ohms of leak below which a charge-time tester's clock never stops."""
    rho = (series / tester).m_as("")
    threshold = KNEE * (1 + rho) - rho
    return float(((tester + series) * threshold / (1 - threshold)).m_as("ohm"))


def _times(shown, capacitance):
    true = capacitance.m_as("F")
    return {name: value.m_as("F") / true for name, value in shown.items()}


def _drawn(value):
    return float(value) if value <= _HIGHEST else np.nan


def _farads(times, capacitance):
    return "nothing" if np.isnan(times) else show(times * capacitance, "F")


def _charge_words(times, capacitance):
    if np.isnan(times):
        return "nothing, its clock runs on"
    return f"{_farads(times, capacitance)}, {float(times):.2f} times what is there"


def _pattern_cell(farads):
    times = float((farads / MARKED).m_as(""))
    if np.isnan(times):
        return "no reading"
    word = "right" if abs(times - 1) <= _RIGHT else "HIGH" if times > 1 else "LOW"
    return f"{word}, {show(farads, 'F')}"
