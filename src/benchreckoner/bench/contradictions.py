"""Readings that cannot all be true, told when they differ by more than their uncertainty explains."""

from itertools import combinations

from benchreckoner.bench import chain as chains
from benchreckoner.bench.reasons import told
from benchreckoner.bench.vocabulary import SIGNAL_KINDS
from benchreckoner.units import show

_BY_ANY_INSTRUMENT = ("voltage", "voltage drop", "current", "resistance", "wiper resistance", "level", "level before")
# Two testers that measure a capacitor differently may both be right: that they differ is a finding of its own.
_BY_ONE = ("capacitance", "series resistance")


def contradictions(sheet, readings, chain):
    """What contradicts itself in one chain.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings
    chain : Chain

    Yields
    ------
    difference : Known
    reason, next : str
    """
    parts = [part for part in sheet.parts.values() if part.kind not in (*SIGNAL_KINDS, "capacitor", "loudspeaker", "resistor")]
    yield from disagreements(parts, readings, chain.stage, chain.condition)
    yield from _ends(chain)
    if chain.current_problem:
        yield (chain.source_current - chain.motor_current,
               f"{chain.source.name} and {chain.motor.name} carry different currents, "
               f"{told(chain.source_current)} and {told(chain.motor_current)}: "
               + ("something else draws from the chain." if chain.source_current.lies_above(chain.motor_current)
                  else "a motor cannot take more than its source gives."),
               f"Find the branch and name each link's current: current_from = \"{chain.source.name}\" before it, "
               f"\"{chain.motor.name}\" after it. Or read both currents again.")
    for link in chain.links:
        yield from _link(readings, chain, link)


def disagreements(parts, readings, stage, condition):
    """One instrument's repeats, and two instruments on one reading, that differ by more than they explain.

    Parameters
    ----------
    parts : iterable of Part
    readings : Readings
    stage, condition : str

    Yields
    ------
    difference : Known
    reason, next : str
    """
    for part in parts:
        for quantity in (*_BY_ANY_INSTRUMENT, *_BY_ONE):
            for one, low, high in readings.extremes(part.name, quantity, stage, condition):
                if high.lies_above(low):
                    yield (high - low,
                           f"repeats of the {quantity} of {part.name} run from {told(low)} to {told(high)}, more than "
                           f"{one} explains: it moves, or one of them was mistyped.",
                           ("Read it again while pressing and tapping" if quantity == "voltage drop" else
                            "Read it again, all in one go") + ", and put a mistyped value right in the sheet.")
            known = readings.by_instrument(part.name, quantity, stage, condition) if quantity in _BY_ANY_INSTRUMENT else {}
            for ((one, _), first), ((other, _), second) in combinations(known.items(), 2):
                if one != other and (first - second).differs():
                    yield (first - second,
                           f"{one} and {other} disagree about the {quantity} of {part.name}: "
                           f"{told(first)} and {told(second)}.",
                           "Compare the two instruments on one sound source, then read again.")


def _ends(chain):
    """Supply, motor and what lies between."""
    if chain.off_voltage is not None and chain.loaded_voltage is not None:
        if chain.loaded_voltage.lies_above(chain.off_voltage):
            yield (chain.off_voltage - chain.loaded_voltage, f"{chain.source.name} reads {told(chain.loaded_voltage)} loaded but only "
                   f"{told(chain.off_voltage)} off: no source gains volts by giving current.",
                   "Read both again, off first.")
    left = chains.remainder(chain) if chain.condition != "off" else None
    if left is not None and left.differs() and left.plain < 0:
        lost = chain.loaded_voltage - chain.motor_voltage
        yield (left, f"the drops add up to {show(-left.value, 'V')} more than the {told(lost)} "
               "that are missing between supply and motor: these readings cannot all be true.",
               "Read supply, motor and the largest drop again, all in one go.")


def _link(readings, chain, link):
    drop = chain.drops.get(link.name)
    ceiling = chain.off_voltage or chain.loaded_voltage
    if drop is not None and ceiling is not None and drop.lies_above(ceiling):
        yield (drop - ceiling, f"{link.name} is said to lose {told(drop)}, more than the whole supply of {told(ceiling)}.",
               "Check range and unit, and read the drop again.")
    if drop is not None and drop.differs() and drop.plain < 0:
        yield (drop, f"{link.name} is said to lose {told(drop)}, and a link cannot give volts: "
               "the probes were the other way round.", "Read the drop again with the probes turned round.")
    ohms, _ = chains.link_ohms(chain, link)
    direct = readings.find(link.name, "resistance", chain.stage, "off")
    if ohms is not None and direct is not None and ohms.lies_above(direct):
        yield (ohms - direct, f"{link.name} has {told(ohms)} by its drop but only {told(direct)} by the ohmmeter, "
               "whose test leads can only add: the joint moves, or one reading slipped.",
               "Read the drop again while pressing and tapping the joint.")
