"""The feed chain at one stage under one condition: ohms a link, what is left over, what to win back."""

from dataclasses import dataclass

from benchreckoner.bench.uncertain import Known, propagate
from benchreckoner.bench.vocabulary import FEED_KINDS
from benchreckoner.physics.contacts import contact_resistance, motor_voltage
from benchreckoner.physics.supply import source_resistance
from benchreckoner.units import Q

SOURCES = ("cells", "adapter")
STANDING = ("held", "starting")  # the motor makes no voltage of its own: just ohms


@dataclass(frozen=True)
class Chain:
    """What was read of the feed chain at one stage under one condition.

    `drops` and `currents` are by part name; anything not read is None or absent.
    """

    stage: str
    condition: str
    source: object
    motor: object
    links: tuple
    off_voltage: Known | None
    loaded_voltage: Known | None
    motor_voltage: Known | None
    motor_current: Known | None
    source_current: Known | None
    drops: dict
    currents: dict
    current_problem: str

    @property
    def standing(self):
        return self.condition in STANDING

    @property
    def current(self):
        """The chain's current: the motor's, else the source's, else a meter's in circuit."""
        meter = next((self.currents[link.name] for link in self.links
                      if link.kind == "current meter" and link.name in self.currents), None)
        return next((one for one in (self.motor_current, self.source_current, meter) if one is not None), None)


def feed_parts(sheet):
    """Source, motor and the links between and after them, in the order the current meets them.

    A second source is no link: only the first one is reckoned with. Nor is a
    governor whose style is written: it is the motor's own, and judged with it. No link either is a
    resistor whose place is written: it stands somewhere else in the machine.

    Returns
    -------
    source, motor : Part or None
    links : tuple of Part
    """
    parts = [part for part in sheet.parts.values() if part.kind in FEED_KINDS
             and not (part.kind == "governor" and "style" in part.details)
             and not (part.kind == "resistor" and "place" in part.details)]
    source = next((part for part in parts if part.kind in SOURCES), None)
    motor = next((part for part in parts if part.kind == "motor"), None)
    return source, motor, tuple(part for part in parts if part.kind not in SOURCES and part is not motor)


def in_series(chain, link):
    """Whether a link carries the current from source to motor; a part on a branch of its own does not."""
    ends = {part.name for part in (chain.source, chain.motor) if part}
    return not link.current_from or link.current_from in ends


def read_chain(sheet, readings, stage, condition):
    """Gather one stage and condition of the feed chain.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings
        Of that sheet.
    stage, condition : str

    Returns
    -------
    Chain
    """
    source, motor, links = feed_parts(sheet)

    def of(part, quantity, when=condition):
        return readings.find(part.name, quantity, stage, when) if part else None

    drops = {link.name: of(link, "voltage drop") for link in links}
    currents = {part.name: of(part, "current") for part in sheet.parts.values()}
    motor_current, source_current = of(motor, "current"), of(source, "current")
    return Chain(
        stage, condition, source, motor, links,
        off_voltage=of(source, "voltage", "off"), loaded_voltage=of(source, "voltage"),
        motor_voltage=of(motor, "voltage"), motor_current=motor_current, source_current=source_current,
        drops={name: drop for name, drop in drops.items() if drop is not None},
        currents={name: current for name, current in currents.items() if current is not None},
        current_problem=_branch(source, motor, links, source_current, motor_current))


def link_current(chain, link):
    """The current through one link, or why it is not known.

    Returns
    -------
    current : Known or None
    reason : str
        Empty when the current is known.
    """
    if link.current_from:
        current = chain.currents.get(link.current_from)
        return current, "" if current else f"no current of {link.current_from} was read {_when(chain)}"
    if link.details.get("after_branch"):
        return None, "the current divides before it: name the part whose current it carries with current_from"
    if chain.current_problem:
        return None, chain.current_problem
    if chain.current is None:
        return None, f"no current was read {_when(chain)}"
    return chain.current, ""


def link_ohms(chain, link):
    """Ohms of one link, or why they cannot be told.

    Returns
    -------
    ohms : Known or None
    reason : str
    """
    drop = chain.drops.get(link.name)
    if drop is None:
        return None, f"no voltage drop was read {_when(chain)}"
    return _ohms(chain, drop, *link_current(chain, link))


def source_ohms(chain):
    """Ohms inside the source, from its volts off and loaded, or why they cannot be told."""
    if chain.off_voltage is None or chain.loaded_voltage is None:
        missing = "off" if chain.off_voltage is None else chain.condition
        return None, f"no voltage across it was read with the condition \"{missing}\" at this stage"
    current = chain.source_current or chain.current
    if current is None or not flows(current):
        return None, _no_current(chain, current)
    return propagate(source_resistance, "ohm", off_voltage=chain.off_voltage,
                     loaded_voltage=chain.loaded_voltage, current=current), ""


def remainder(chain):
    """Volts between source and motor that no drop accounts for; None if an end was not read."""
    if chain.loaded_voltage is None or chain.motor_voltage is None:
        return None
    left = chain.loaded_voltage - chain.motor_voltage
    for link in chain.links:
        if link.name in chain.drops and in_series(chain, link):
            left = left - chain.drops[link.name]
    return left


def hidden_joint(chain):
    """The most ohms that a joint nobody listed could have and still not show; None if an end was not read."""
    left, current = remainder(chain), chain.current
    if left is None or current is None or not flows(current):
        return None
    return Q((abs(left.plain) + 2 * left.number.std_dev) / current.plain, "ohm")


def unread_links(chain):
    """Links of the chain whose drop was not read at this stage and condition."""
    return tuple(link for link in chain.links if link.name not in chain.drops and in_series(chain, link))


@dataclass(frozen=True)
class Gain:
    """What the motor wins if one link falls to its sound limit."""

    volts: Known
    torque_ratio: Known | None
    at_most: bool


def gain(chain, part, ohms, sound):
    """Motor volts won back if a part of these ohms fell to its sound limit.

    Parameters
    ----------
    chain : Chain
    part : Part
        The link, or the source.
    ohms : Known
        The part's.
    sound : Quantity [ohm]

    Returns
    -------
    Gain or None
        None if the part is not above its sound limit, lies on a branch, or no current is known.

    Notes
    -----
    Held or starting, the whole chain is a divider and the current rises as the
    link improves. Turning, the current is taken as constant. Without the
    source's off-load volts its own sag is left out: an upper bound. Without
    the motor's volts the freed volts are an upper bound too.
    """
    current = chain.current
    if current is None or not flows(current) or ohms.plain <= sound.m_as("ohm") or not in_series(chain, part):
        return None
    if not chain.standing:
        return Gain(_freed(ohms, sound, current), None, at_most=False)
    start = chain.off_voltage or chain.loaded_voltage
    if chain.motor_voltage is None or start is None or not _adds_up(start, chain.motor_voltage, current, ohms, sound):
        return Gain(_freed(ohms, sound, current), None, at_most=True)
    mended = propagate(lambda **known: _held_mended(sound=sound, **known), "V",
                       start=start, motor=chain.motor_voltage, current=current, ohms=ohms)
    ratio = Known(mended.number / chain.motor_voltage.number, "")
    return Gain(mended - chain.motor_voltage, ratio, at_most=chain.off_voltage is None)


def _held_mended(*, start, motor, current, ohms, sound):
    """The held motor's volts with the link mended; all else in the loop stays as the readings have it."""
    rest = (start - motor) / current - ohms + sound
    return motor_voltage(supply=start, source_resistance=rest, motor_resistance=motor / current)


def _adds_up(start, motor, current, ohms, sound):
    """Whether the loop has room for this link at all; contradictory readings have not."""
    rest = (start - motor).number / current.number - ohms.number + sound.m_as("ohm")
    return motor.plain > 0 and rest.nominal_value > 0.01 * rest.std_dev


def _freed(ohms, sound, current):
    return propagate(lambda ohms, current: (ohms - sound) * current, "V", ohms=ohms, current=current)


def _ohms(chain, drop, current, reason):
    if current is None:
        return None, reason
    if not flows(current):
        return None, _no_current(chain, current)
    return propagate(contact_resistance, "ohm", voltage_drop=drop, current=current), ""


def flows(current):
    """Whether a current is more than nothing, beyond its uncertainty."""
    return current.plain > 0 and current.differs()


def _no_current(chain, current):
    if current is None:
        return f"no current was read {_when(chain)}"
    if current.plain < 0 and current.differs():
        return f"the current read {_when(chain)} is negative: the meter was in the other way round"
    return f"the current read {_when(chain)} is nothing that can be told from zero, and no ohms come out of that"


def _branch(source, motor, links, source_current, motor_current):
    if source_current is None or motor_current is None or not (source_current - motor_current).differs():
        return ""
    if source_current.lies_above(motor_current) and all(link.current_from for link in links):
        return ""  # a branch, and every link says on which side of it it lies
    more = "more" if source_current.lies_above(motor_current) else "less"
    return (f"{source.name} and {motor.name} do not carry the same current (the first gives {more}), "
            "so this part must name the one whose current it carries with current_from")


def _when(chain):
    return f"at the stage \"{chain.stage}\" under the condition \"{chain.condition}\""
