"""What a capacitor's leakage or lost capacitance does in its place, in a line each, from the laws."""

from benchreckoner.physics.bias import emitter_current, emptied_after
from benchreckoner.physics.capacitors import corner_frequency
from benchreckoner.units import Q, show, show_exact

_GAINS = (50, 400)  # of the transistors that may sit there; common practice
_EMITTER, _COLLECTOR = Q(1, "kohm"), Q(3.9, "kohm")  # of an example stage
_BASE, _BASE_EMITTER = Q(2, "V"), Q(0.65, "V")
_LOUDSPEAKER = Q(8, "ohm")  # where no load is written: a common one
_CELLS = Q(2500, "mA*h")  # a small alkaline cell's, common practice


def effects(part, rated, *, leakage=None, capacitance=None, supply=None):
    """What this part does to its surroundings, as far as its readings say.

    Parameters
    ----------
    part : Part
        Its `load`, where written, is the ohms it feeds.
    rated : Rating
    leakage : Quantity [A], optional
        At its working voltage.
    capacitance : Quantity [F], optional
        As read.
    supply : Quantity [V], optional
        Of the machine; nothing shifts further than that.

    Returns
    -------
    tuple of str
        Sentences; none where the place is not known.
    """
    load = part.details.get("load")
    found = []
    if leakage is not None and leakage.magnitude > 0 and rated.place in _LEAKS:
        found.append(_LEAKS[rated.place](leakage, load, supply))
    if capacitance is not None and capacitance.magnitude > 0 and rated.place in _CHANGES:
        found.append(_CHANGES[rated.place](capacitance, rated.capacitance, load))
    return tuple(found)


def _coupling_leaks(leakage, load, supply):
    if load is None:
        return (f"Its {show(leakage, 'A')} flow into the stage behind it and shift its bias; write what it feeds, such as "
                "load = \"10 kohm\", and the shift is volts. Where the leak flickers, it crackles.")
    volts = (leakage * load).to("V")
    most = f"up to {show(volts, 'V')}" if supply is None or volts < supply else f"as far as the supply of {show_exact(supply, 'V')} goes"
    return (f"Its {show(leakage, 'A')} in the {show(load, 'ohm', digits=2)} behind it shift the bias by {most}, less what the base "
            f"takes.{_at_the_collector(leakage, load, supply)} Measured at the test's volts, at fewer in the machine it is less. Where the "
            "leak flickers, it crackles; a control behind it scratches.")


def _at_the_collector(leakage, load, supply):
    """What becomes of the shift in an example stage, for the spread of transistors; nothing where it runs out of volts."""
    def sinks(gain):
        before, after = (emitter_current(base_supply=_BASE + lifted, base_resistance=load, emitter_resistance=_EMITTER,
                                         base_emitter=_BASE_EMITTER, gain=gain) for lifted in (Q(0, "V"), leakage * load))
        return ((after - before) * gain / (gain + 1) * _COLLECTOR).to("V")

    least, most = sorted(sinks(gain) for gain in _GAINS)
    if supply is not None and most > supply / 2:
        return ""
    return (f" In a stage with {show(_EMITTER, 'ohm', digits=2)} at the emitter and {show(_COLLECTOR, 'ohm', digits=2)} at the collector, "
            f"the collector sinks by {show(least, 'V', digits=2)} to {show(most, 'V', digits=2)}, for gains of {_GAINS[0]} to {_GAINS[1]}.")


def _supply_leaks(leakage, load, supply):
    days = float(f"{emptied_after(charge=_CELLS, current=leakage).m_as('day'):.2g}")
    return (f"It draws {show(leakage, 'A')} all the time. Before the power switch that empties cells of 2500 mAh in about "
            f"{days:g} days; behind it, it only adds to what the machine draws.")


def _bypass_leaks(leakage, load, supply):
    if load is None:
        return f"Its {show(leakage, 'A')} flow beside the resistor it bypasses; write that, such as load = \"1 kohm\", to see the share."
    volts = (leakage * load).to("V")
    return (f"Its {show(leakage, 'A')} flow beside the {show(load, 'ohm', digits=2)} it bypasses. At an emitter the transistor passes that "
            f"much more, and the collector sinks by it times its own resistor; in a supply feed the stage loses {show(volts, 'V')}.")


def _timing_leaks(leakage, load, supply):
    return f"Its {show(leakage, 'A')} are taken from what charges it: the time grows, and with a large resistor it never ends."


def _output_leaks(leakage, load, supply):
    ohms = load if load is not None else _LOUDSPEAKER
    volts = (leakage * ohms).to("V")
    return (f"It lets {show(leakage, 'A')} of direct current through the loudspeaker, {show(volts, 'V')} across "
            f"{show(ohms, 'ohm', digits=2)}, all the time.")


def _filter_leaks(leakage, load, supply):
    return f"Its {show(leakage, 'A')} add to what the motor draws; small beside it, unless the part grows warm."


def _moved_corner(capacitance, meant, load):
    if load is None:
        return ""
    before, now = (corner_frequency(resistance=load, capacitance=one) for one in (meant, capacitance))
    return f"The bass falls by 3 dB at {show(now, 'Hz')}, where {show(before, 'Hz')} was meant."


def _coupling_changes(capacitance, meant, load):
    return _moved_corner(capacitance, meant, load) or ("Less capacitance takes bass away; write what it feeds, such as "
                                                       "load = \"10 kohm\", to see at which pitch.")


def _output_changes(capacitance, meant, load):
    return _moved_corner(capacitance, meant, load if load is not None else _LOUDSPEAKER)


def _timing_changes(capacitance, meant, load):
    return f"The time it sets becomes {(capacitance / meant).m_as(''):.2f} times what was meant."


def _supply_changes(capacitance, meant, load):
    return f"Hum and motor noise on the supply become about {(meant / capacitance).m_as(''):.2g} times as strong."


_LEAKS = {"coupling": _coupling_leaks, "supply": _supply_leaks, "bypass": _bypass_leaks, "timing": _timing_leaks,
          "output": _output_leaks, "motor filter": _filter_leaks}
_CHANGES = {"coupling": _coupling_changes, "output": _output_changes, "timing": _timing_changes, "supply": _supply_changes,
            "bypass": _coupling_changes, "motor filter": _supply_changes}
