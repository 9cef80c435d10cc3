"""A plan for reforming one capacitor, or the reason why it is refused."""

from dataclasses import dataclass

from benchreckoner.physics.capacitors import discharge_time, stored_energy
from benchreckoner.physics.leakage_limits import leakage_limit
from benchreckoner.physics.preferred import preferred_neighbours
from benchreckoner.physics.reforming import limiting_resistance, worst_case
from benchreckoner.units import Q, show, show_exact

MOST_VOLTS = Q(63, "V")
RULE = "a hundredth and three"
DISCHARGE = Q(1, "kohm")  # of the 100 ohm to 1 kohm of common practice, the gentlest
SAFE = Q(1, "V")
CURRENTS = (Q(1, "mA"), Q(2, "mA"), Q(5, "mA"))  # common practice: 1 to 5 mA into a short
RATINGS = (0.25, 0.5, 1, 2, 3, 5)  # W, as resistors are sold. MEMORY
MARGIN = 2  # a resistor that glows is no help: twice the worst case, common practice
LONGEST = Q(1, "h")  # attended: a choice of ours
BACK = 0.15  # the most that soakage brings back in wet aluminium. Open encyclopaedia. FOUND
_TAKEN = 0.1  # of the volts, the resistor may still take at the end: else the part has not had its own
_SETTLED = 5  # resistor times capacitance: less than 1 % left to charge
KINDS = ("wet aluminium", "solid tantalum", "not known")
SIGNS = ("holds its capacitance", "bulged, crusted or wet", "low, high series ohms", "reads as a short")
IDLE = ("years", "in use until lately")


class Refused(ValueError):
    """No plan is made; the message says why, and what to do instead."""


@dataclass(frozen=True)
class Plan:
    """One plan: what to buy, how long it takes, when to stop; all numbers behind the steps."""

    capacitance: Q
    rated_voltage: Q
    supply: Q
    resistor: Q
    worst_current: Q
    worst_power: Q
    rating: Q
    settling: Q
    discharge_time: Q
    discharge_rating: Q
    limit: Q
    stop_below: Q  # volts across the resistor
    idle: bool

    @property
    def steps(self):
        """What to do, one step a sentence or two, discharge first and last."""
        volts, charge = show_exact(self.supply, "V"), stored_energy(capacitance=self.capacitance, voltage=self.rated_voltage)
        empty = (f"{show_exact(DISCHARGE, 'ohm')}, {_watts(self.discharge_rating)} or more, across it for at least "
                 f"{_time(self.discharge_time)} (at {show_exact(self.rated_voltage, 'V')} it holds "
                 f"{show(charge, 'J', digits=2)}). Read: below 1 V? Wait five minutes and read again, for up to "
                 f"{show(BACK * self.rated_voltage, 'V', digits=2)} can come back.")
        lower = ("" if self.supply >= self.rated_voltage else
                 f" It is then good for {volts}, not for the {show_exact(self.rated_voltage, 'V')} printed on it.")
        return (
            f"Discharge it first: {empty}",
            "Lift one leg, or take it out. Find plus and minus: a wrong way round is worse than no reforming at all.",
            f"Put {show_exact(self.resistor, 'ohm')} in series, {_watts(self.rating)} or more. Were the part a short, "
            f"{show(self.worst_current, 'A', digits=2)} would flow and the resistor alone would take all of {volts}: "
            f"{show(self.worst_power, 'W', digits=2)}, for as long as you let it. Set the supply's own current limit as low as it goes.",
            f"Raise the supply in four steps to {volts}. At each, wait until the volts across the resistor have stopped falling: "
            f"{_time(self.settling)} at least, for the charge alone. Stay with it. Feel nothing with the supply on: "
            "off, discharge, then touch.",
            f"At {volts}, read the volts across the resistor after 1, 2 and 5 minutes, then now and then. Stop, done, when they are "
            f"below {show(self.stop_below, 'V', digits=2)}: then no more than {show(self.stop_below / self.resistor, 'A', digits=2)} "
            f"leaks, the part has at least nine tenths of the volts, and the limit of “{RULE}” (published) is "
            f"{show(self.limit, 'A')}.{lower}",
            f"Stop, scrap, when they no longer fall and are still above that, or after {_time(LONGEST)}. Warm, hissing or swelling: "
            "off at once, scrap.",
            f"Discharge it again: {empty}",
            "Then read capacitance and series resistance. Reforming mends the oxide, not what has dried out.",
        )


def plan_reforming(*, capacitance, rated_voltage, supply, kind=KINDS[0], signs=SIGNS[0], idle=IDLE[0], most_current=CURRENTS[1]):
    """Plan the reforming of one part, or refuse it with the reason.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    rated_voltage, supply : Quantity [V], above zero
    kind, signs, idle : str
        One of `KINDS`, `SIGNS`, `IDLE`.
    most_current : Quantity [A]
        Into a short, 1 to 5 mA.

    Returns
    -------
    Plan

    Raises
    ------
    Refused
        For a part that reforming cannot help or a supply that is not for it.
    ValueError
        If a value is not above zero.

    Notes
    -----
    The bench rule is common practice: PRACTICE. What is refused is refused by it too, and by where this work ends.
    """
    _check(rated_voltage, supply, kind, signs)
    resistor = preferred_neighbours(value=limiting_resistance(supply=supply, most_current=most_current))[1]
    current, power = worst_case(supply=supply, resistance=resistor)
    limit = leakage_limit(rule=RULE, capacitance=capacitance, voltage=rated_voltage)
    return Plan(
        capacitance, rated_voltage, supply, resistor, current, power, rating_to_buy(MARGIN * power),
        (_SETTLED * resistor * capacitance).to("s"),
        discharge_time(capacitance=capacitance, resistance=DISCHARGE, start=rated_voltage, end=SAFE),
        rating_to_buy(worst_case(supply=rated_voltage, resistance=DISCHARGE)[1]), limit, min((limit * resistor).to("V"), _TAKEN * supply),
        idle == IDLE[0])


def rating_to_buy(power):
    """The smallest rating on sale that is no less than this."""
    watts = float(power.m_as("W"))
    return Q(next(one for one in RATINGS if one >= watts * (1 - 1e-9)), "W")


def _watts(power):
    """A rating as it is printed on the bag."""
    return f"{power.m_as('W'):g} W"


def _time(time):
    if time < Q(1, "min"):
        return show(time, "s", digits=2)
    return f"{time.m_as('min'):.2g} min"


def _check(rated_voltage, supply, kind, signs):
    ends = f"{show_exact(MOST_VOLTS, 'V')}, where this work ends. Above it a part can kill: leave it to somebody licensed"
    if supply > MOST_VOLTS:
        raise Refused(f"Supply: {show_exact(supply, 'V')} is above {ends}")
    if rated_voltage > MOST_VOLTS:
        raise Refused(f"Rated voltage: {show_exact(rated_voltage, 'V')} is above {ends}; replace the part with the machine unplugged "
                      "and discharged, or have it done")
    if supply > rated_voltage:
        raise Refused(f"Supply: {show_exact(supply, 'V')} is more than the {show_exact(rated_voltage, 'V')} that the part is made for; "
                      f"set it to {show_exact(rated_voltage, 'V')} at most. Over-voltage heats it until it vents")
    if kind == KINDS[1]:
        raise Refused("Kind: solid tantalum is not reformed. Its fault is a short that can catch fire; replace it")
    if kind == KINDS[2]:
        raise Refused("Kind: find out first. A solid tantalum part may burn under what an aluminium one bears")
    if signs == SIGNS[1]:
        raise Refused("Signs: the part has vented or is about to. Nothing mends that; replace it, with gloves, and clean off what "
                      "leaked")
    if signs == SIGNS[2]:
        raise Refused("Signs: it has dried out. Reforming mends the oxide, it brings no liquid back; replace it")
    if signs == SIGNS[3]:
        raise Refused("Signs: a short is no weak oxide. The resistor would take all the volts and the part none; replace it")
