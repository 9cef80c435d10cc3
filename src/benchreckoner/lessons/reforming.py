"""Book 03, reforming: when it may help, the resistor for the worst case, a plan with its cautions first, and when to stop."""

from html import escape

import ipywidgets
import numpy as np

from benchreckoner.bench.cautions import all_cautions
from benchreckoner.bench.reforming_plan import (CURRENTS, DISCHARGE, IDLE, KINDS, MARGIN, RATINGS, SAFE, SIGNS,
                                                plan_reforming, rating_to_buy)
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.capacitors import discharge_time
from benchreckoner.physics.preferred import SERIES, preferred_neighbours
from benchreckoner.physics.reforming import limiting_resistance, preconditioning_resistances, worst_case
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.show.words import (above, alert_area, button, card, on_enter, row, status_area, text_box, trouble)
from benchreckoner.units import Q, read_quantity, show, show_exact

CAUTIONS = ("scope", "stored charge", "charge comes back", "polarity", "reforming", "hot parts")
_LEAST, _MOST = 1e2, 1e5  # ohm
_OHMS = tuple(float(f"{one * decade:.2g}") for decade in (100, 1000, 10000) for one in SERIES["E12"]) + (1e5,)


def into_a_short(*, resistor, supply):
    """What flows if the part behind the resistor is a short, against the resistor.

    Parameters
    ----------
    resistor : Quantity [ohm]
    supply : Quantity [V]

    Returns
    -------
    Picture
    """
    ohms = np.geomspace(_LEAST, _MOST, 61)
    current = worst_case(supply=supply, resistance=Q(ohms, "ohm"))[0].m_as("mA")
    flows, heat = worst_case(supply=supply, resistance=resistor)
    here, least, most = flows.m_as("mA"), CURRENTS[0].m_as("mA"), CURRENTS[-1].m_as("mA")
    judged = ("too much for a failed part" if here > most * (1 + 1e-9) else
              "within the bench rule of 1 to 5 mA (common practice)" if here >= least else
              "gentle, but a leaky part may never reach its volts")
    buy = "no common resistor stands it"
    if MARGIN * heat <= Q(RATINGS[-1], "W"):
        buy = f"one of {rating_to_buy(MARGIN * heat).m_as('W'):g} W will do"
    return Picture(
        title="If the part is a short",
        x=Axis("resistor in series", "ohm", _LEAST, _MOST, scale="log"), y=Axis("current into a short", "mA", 0.01, 1000, scale="log"),
        curves=(Curve("current", ohms, current),),
        bands=(Band("bench rule, 1 to 5 mA", ohms, np.full_like(ohms, least), np.full_like(ohms, most)),),
        points=(Point("here", float(resistor.m_as("ohm")), float(here)),),
        limits=(Limit("5 mA", "y", most),),
        sentence=(f"Behind {show_exact(resistor, 'ohm')} at {show_exact(supply, 'V')} a short draws {show(flows, 'A', digits=2)}: {judged}. "
                  f"The resistor turns {show(heat, 'W', digits=2)} into heat; with twice that in hand, {buy}."),
        alt=("A falling straight line of the current into a short against the resistor in series, both axes log, and a band from 1 to "
             f"5 mA. At {show_exact(resistor, 'ohm')} the current is {show(flows, 'A', digits=2)}."))


SHORT = LivePicture(
    key="reforming-short", picture=into_a_short,
    sliders=(Slider("resistor", "resistor in series", "ohm", _OHMS, start=1000),
             Slider("supply", "volts of the supply", "V", (4, 6, 6.3, 9, 10, 16, 25, 35, 50, 63), start=25)),
    goal="25 V: find the smallest resistor that keeps a short at 5 mA or less. Then at 63 V.", phone_sliders=("resistor", "supply"))


def guess_help():
    """Guess first: which part reforming may help."""
    return choice_guess(ChoiceGuess(
        key="reforming-help", question="Four parts leave you unhappy. Which one may reforming help?",
        choices=(
            Choice("Reads 40 % of its capacitance, with high series resistance.", "It has dried out. Voltage mends oxide, it "
                   "brings no liquid back."),
            Choice("A solid tantalum part that leaks.", "Never. Its fault is a short that feeds on current and can catch fire."),
            Choice("Its top bulges.", "It has made gas. More current makes more gas. Replace it."),
            Choice("Lay unused for years, leaks ten times too much, capacitance right.", "The oxide has thinned while nothing "
                   "kept it up. A little current over some time can thicken it again.", right=True),
        )), store=my_guesses())


def guess_resistor():
    """Guess first: whether a textbook's resistor is for a failed part; the picture of a short opens afterwards."""
    charging, _ = preconditioning_resistances(rated_voltage=Q(25, "V"))
    current, power = worst_case(supply=Q(25, "V"), resistance=charging)
    return choice_guess(ChoiceGuess(
        key="reforming-resistor", question="A published test prepares parts of 25 V by an hour at full volts "
        f"through {show_exact(charging, 'ohm')} (EIA-815, published). You have a leaky part of 25 V. What about that resistor?",
        choices=(
            Choice("Take it: it is published.", "Published for <em>sound</em> parts, before a measurement. If yours is nearly a short, "
                   f"{show(current, 'A', digits=2)} flow."),
            Choice("Take it, but half a watt instead of a quarter.", "If the part is a short, the resistor has all "
                   f"25 V: {show(power, 'W')}. It would glow, and the part would have had a quarter of an ampere."),
            Choice("Some kilohms instead: reckon as if the part were a short.", "The whole supply across the resistor is the worst that "
                   "can happen. At 5 mA that is 5 kΩ and an eighth of a watt.", right=True),
            Choice("None: the supply has a current limit.", "Few bench supplies hold a few milliamperes, and at the first moment their "
                   "own output capacitor gives what it has. Use both."),
        )), reveal=opening(SHORT), store=my_guesses())


def planner():
    """A form that makes a plan for one part, cautions first, or refuses it with the reason."""
    return _Planner().view


def worst_watts(seed=None, blanks=1):
    """What the resistor before a part that may be a short must stand."""
    return exercise(_worst_watts, key="reforming-worst-watts", seed=seed, blanks=blanks)


def how_long_to_discharge(seed=None, blanks="all"):
    """How long a resistor takes to bring a part down to one volt."""
    return exercise(_how_long, key="reforming-discharge", seed=seed, blanks=blanks)


class _Planner:
    def __init__(self):
        self.texts = {"capacitance": text_box("Capacitance", placeholder="such as 100 uF"),
                      "rated_voltage": text_box("Rated voltage", placeholder="such as 16 V"),
                      "supply": text_box("Volts you would set", placeholder="such as 16 V")}
        self.choices = {name: above(ipywidgets.Dropdown, label, options=list(options)) for name, label, options in (
            ("kind", "What it is", KINDS), ("signs", "What it shows", SIGNS), ("idle", "It lay unused for", IDLE))}
        self.current = above(ipywidgets.Dropdown, "Most current into a short", value=CURRENTS[1],
                             options=[(show_exact(one, "A"), one) for one in CURRENTS])
        self.error, self.answer = alert_area(), status_area()
        for box in self.texts.values():
            on_enter(box, self.make)
        self.view = card(row(*self.texts.values(), *self.choices.values(), self.current), row(button("Make the plan", self.make)),
                         self.error, self.answer)

    def make(self):
        """Read the boxes; a plan, or the reason why there is none."""
        self.answer.value = self.error.value = ""
        try:
            read = {name: self.read(name, unit) for name, unit in (("capacitance", "F"), ("rated_voltage", "V"), ("supply", "V"))}
            plan = plan_reforming(**read, **{name: box.value for name, box in self.choices.items()}, most_current=self.current.value)
        except ValueError as error:
            self.error.value = trouble(str(error))
            return
        self.answer.value = plan_html(plan)

    def read(self, name, unit):
        """One box as a quantity; the error speaks of the box."""
        box = self.texts[name]
        value = read_quantity(box.value, unit, box.description).quantity
        if not value.magnitude > 0:
            raise ValueError(f'{box.description}: must be above zero, write for example "{box.placeholder.removeprefix("such as ")}"')
        return value


def plan_html(plan):
    """A plan as HTML: the cautions, then the steps.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    str
    """
    known = {one.name: one for one in all_cautions()}
    cautions = "".join(f"<li><strong>{escape(known[name].title)}.</strong> {escape(known[name].words)}</li>" for name in CAUTIONS)
    steps = "".join(f"<li>{escape(step)}</li>" for step in plan.steps)
    hope = ("It lay idle, so it may help." if plan.idle else "It had its volts until lately, so its oxide was kept up and reforming has "
            "little to mend: reckon with replacing it.")
    return (f"<p><strong>Before it, take care:</strong></p><ul>{cautions}</ul><p><strong>The plan.</strong> {hope} Common practice, "
            f"no published recipe.</p><ol>{steps}</ol>")


def _worst_watts(rng):
    supply, most = Q(float(rng.choice([10, 16, 25, 35, 50, 63])), "V"), Q(float(rng.choice([2, 4, 5])), "mA")
    least = limiting_resistance(supply=supply, most_current=most)
    resistor = preferred_neighbours(value=least)[1]
    current, power = worst_case(supply=supply, resistance=resistor)
    return Problem(
        question="You reform a part that may turn out a short. Take the next E12 resistor that lets no more through than you allow. "
                 "What must it stand as heat, at worst?",
        given=(("the supply", show_exact(supply, "V")), ("allowed into a short", show_exact(most, "A"))),
        answer=power, unit="W", tolerance=0.03,
        steps=(Step("At least this many ohms:", show(least, "ohm")), Step("The next E12 value up:", show_exact(resistor, "ohm")),
               Step("The supply squared, over it:", show(power, "W"))),
        slips=(Slip(power / 2, "Half would be if part and resistor shared the volts. A short leaves them all to the resistor."),
               Slip(power / 4, "That is with half the volts on the part. A short leaves none there."),
               Slip(Q(current.m_as("A"), "W"), "That is the current. Times the volts it is the heat.")))


def _how_long(rng):
    farads, volts = Q(float(rng.choice([220, 470, 1000, 2200, 4700])), "uF"), Q(float(rng.choice([16, 25, 35, 50, 63])), "V")
    constant = (DISCHARGE * farads).to("s")
    time = discharge_time(capacitance=farads, resistance=DISCHARGE, start=volts, end=SAFE)
    return Problem(
        question="A capacitor is discharged through a resistor before you touch it. How long until one volt is left?",
        given=(("capacitance", show(farads, "F")), ("charged to", show_exact(volts, "V")), ("the resistor", show_exact(DISCHARGE, "ohm"))),
        answer=time, unit="s", tolerance=0.03,
        steps=(Step("Resistor times capacitance:", show(constant, "s")),
               Step("The natural logarithm of volts over one volt:", f"{np.log(volts.m_as('V')):.3f}"),
               Step("The one times the other:", show(time, "s"))),
        slips=(Slip(constant, "After that time more than a third is left: 37 %. One volt takes longer."),
               Slip(constant * np.log10(volts.m_as("V")), "That is the logarithm to base ten. Charge goes with the natural one."),
               Slip(constant * volts.m_as("V"), "It is the <em>logarithm</em> of the volts that counts.")))
