"""Judgements of what feeds the machine: cells against their end point and the governor's, a charger, an adapter."""

from dataclasses import replace

from benchreckoner.bench.adapter_judge import judge_adapter
from benchreckoner.bench.cell_kinds import is_lithium, kind_of
from benchreckoner.bench.judge import CONTRADICTION, WORST_FIRST, Judgement, PartsReport
from benchreckoner.bench.limits import Band
from benchreckoner.bench.motor_sheet import PLAYING, motor_sheet
from benchreckoner.bench.reasons import mark_words, sureness, told
from benchreckoner.bench.uncertain import Known, Readings, within
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD, Verdict, judge_value
from benchreckoner.physics.charging import STANDARD_RATE, charge_rate, full_charge_time
from benchreckoner.units import Q, show

END_VOLTS, CHARGE, REGULATION = "voltage", "charging current", "volts a cell where regulation ends"
_LOADED = (PLAYING, "winding")
_CHARGER_KNOWN = 0.05  # a charging current is taken as good to 5 %, our own choice
_RATE_SOUND, _RATE_BAD = 1.2 * STANDARD_RATE, 3 * STANDARD_RATE
_DROP, _DROP_KNOWN = Q(0.8, "V"), 0.7 / 0.8  # what a governor's transistor keeps for itself: 0.1 to 1.5 V
_DROP_READ = 0.3  # how far such a drop may be off where the sheet has it, our own choice
_NEVER = ("Take the cells out before the adapter goes in, or open the charger's path, and charge nothing here: charged, such a cell "
          "can leak, burst or burn.")
_NEAR_END = "It lies so near the cells' end that little playing time hangs on it."
_MEASURE_DROP = ("Run it from a bench supply, turn that down until the speed just falls, and read the volts on both sides of the governor "
                 "there. Their difference, less the sense resistor's ohms times the current, is what its transistor keeps: write it with "
                 'the governor, such as regulator_drop = "0.4 V".')
_OUTSIDE = "Until that is known, take the cells out while the adapter is in, and charge outside the machine, in a charger made for them."


def judge_supply(sheet):
    """Judge the cells and the adapter of a sheet by their volts, at every stage that has readings of them.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartsReport
        The latest stage first. A charger stands in the latest of them.

    Notes
    -----
    Ohms inside cells and adapter are the feed chain's business (`judge.judge_sheet`).
    """
    readings = Readings(sheet)
    cells = [part for part in sheet.parts.values() if part.kind == "cells"]
    adapters = [part for part in sheet.parts.values() if part.kind == "adapter"]
    found = {}
    for stage in sheet.stages:
        found[stage] = [one for part in cells for one in (*_cell_volts(readings, part, stage), *_regulation(sheet, part, stage))]
        found[stage] += [one for part in adapters for one in judge_adapter(sheet, readings, part, stage)]
    latest = next((stage for stage in reversed(sheet.stages) if found[stage]), sheet.stages[0])
    found[latest] += [_charger(part, latest) for part in cells if "charge_current" in part.details]
    return tuple(_report(stage, found[stage]) for stage in reversed(sheet.stages) if found[stage])


def _report(stage, found):
    judged = sorted((one for one in found if one.quantity != CONTRADICTION), key=lambda one: WORST_FIRST.index(one.verdict.word))
    return PartsReport("supply", stage, tuple(judged), tuple(one for one in found if one.quantity == CONTRADICTION))


def _cell_volts(readings, part, stage):
    """Volts under load against the end point; rested cells that show less than that are empty as well."""
    read = {condition: readings.find(part.name, "voltage", stage, condition) for condition in (*_LOADED, "off")}
    kind, count = kind_of(part.details.get("chemistry", "")), part.details.get("count")
    loaded = [condition for condition in _LOADED if read[condition] is not None]
    if kind is None or count is None:
        if loaded:
            yield _unnamed(part, stage, loaded[0], count)
        return
    for condition, known in read.items():
        if known is not None and known.plain - 2 * known.number.std_dev > (count * kind.most).m_as("V"):
            yield Judgement(part.name, part.kind, CONTRADICTION, stage, condition, known, None, Verdict(UNTOLD, 1.0), (
                f"{told(known)} from {count} {kind.name} cells is more than such cells give, {_volts(kind.most)} each "
                "at the most (from memory)."),
                "Count them, read what is printed on each, and see that none is a lithium cell of the same shape.")
            return
    for condition in loaded:
        yield _against_end(part, kind, count, stage, condition, read[condition])
    if not loaded and read["off"] is not None:
        rested = _against_end(part, kind, count, stage, "off", read["off"])
        if rested.verdict.word == BAD:  # rested cells show volts that they cannot keep, so nothing else is said of them
            yield rested


def _unnamed(part, stage, condition, count):
    why = "Volts say nothing of cells without their number and chemistry."
    then = "Write how many they are, such as count = 6." if count is None else 'Write what they are, such as chemistry = "alkaline".'
    if is_lithium(part.details.get("chemistry", "")):
        why = "A lithium cell of this shape may give 1.5 V or 3.7 V: no end point without its papers."
        then = "Read what is printed on them. Those of 3.7 V come out: they give more volts than the machine was made for."
    return Judgement(part.name, part.kind, END_VOLTS, stage, condition, None, None, Verdict(UNTOLD, 1.0), why, then, no_band=True)


def _against_end(part, kind, count, stage, condition, known):
    """More volts are better: judged with the sign turned round."""
    band = Band(count * kind.half_way, count * kind.end_point, f"end point: {kind.end_source}; sound edge: half-way from there "
                "to the nominal volts, our own choice", "PRACTICE")
    verdict = judge_value(value=-known.plain, uncertainty=known.number.std_dev, sound_up_to=-band.sound_up_to.m_as("V"),
                          bad_from=-band.bad_from.m_as("V"))
    end = f"{_volts(kind.end_point)} each ({mark_words(kind.end_mark)})"
    words = {
        BAD: f"empty: {kind.name} cells end at {end}" + (", and these show less even at rest" if condition == "off" else ""),
        DOUBTFUL: f"not far from the end of {kind.name} cells, {end}",
        SOUND: f"well above the end of {kind.name} cells, {end}",
        UNTOLD: f"too near an edge to tell; {kind.name} cells end at {end}",
    }[verdict.word]
    sure = f", {sureness(verdict.probability)}" if verdict.word in (BAD, DOUBTFUL) else ""
    then = {BAD: "Change or charge all of them together, of one kind and one age.",
            DOUBTFUL: "Read it again after half an hour of playing; look for one cell that is lower than the rest.",
            SOUND: "", UNTOLD: "Read each cell by itself while it plays, on a finer range."}[verdict.word]
    return Judgement(part.name, part.kind, END_VOLTS, stage, condition, known, band, verdict,
                     f"{told(known)}, {_volts(known.value / count)} a cell: {words}{sure}.", then)


def _regulation(sheet, part, stage):
    """Down to which volts a cell the governor holds at this load, where volts on both sides of it were read."""
    kind, count, motor = kind_of(part.details.get("chemistry", "")), part.details.get("count"), motor_sheet(sheet)
    if kind is None or count is None or motor is None or motor.governor is None or "sense_resistor" not in motor.governor.details:
        return
    moment = motor.first(stage, PLAYING)
    rest = motor.readings.find(part.name, "voltage", stage, "off")
    if moment is None or rest is None or moment.inlet is None or moment.terminal is None or not moment.current.differs():
        return
    if (moment.inlet - rest).differs() and moment.inlet.plain > rest.plain or moment.terminal.plain > moment.inlet.plain:
        return  # readings that cannot all be true; the feed chain tells of them
    sense = motor.governor.details["sense_resistor"].m_as("ohm")
    # As `supply.regulation_end` has it, with what was read in place of the governor's constants and the chain's ohms.
    lost, wanted = rest.number - moment.inlet.number, moment.terminal.number + sense * moment.current.number
    drop, kept = _kept_by(motor.governor)
    across = Known(moment.inlet.number - wanted, "V")
    if "regulator_drop" in motor.governor.details and drop.lies_above(across):
        yield Judgement(part.name, part.kind, REGULATION, stage, PLAYING, None, None, Verdict(UNTOLD, 1.0), (
            f"{_volts(drop.value)} are written as the least that the governor's transistor keeps, and only {told(across)} stand across it now."),
            "Read both sides of the governor again, and write regulator_drop anew.")
        return
    known = Known((lost + wanted + drop.number) / count, "V")
    band = Band(kind.end_point, kind.nominal, f"end point: {kind.end_source}", "PRACTICE")
    verdict = judge_value(value=known.plain, uncertainty=known.number.std_dev, sound_up_to=band.sound_up_to.m_as("V"),
                          bad_from=band.bad_from.m_as("V"))
    end = f"{_volts(kind.end_point)}, where {kind.name} cells are empty ({mark_words(kind.end_mark)})"
    words = {SOUND: f"no higher than {end}: the cells are used up first", BAD: f"at or above their nominal {_volts(kind.nominal)}: "
             f"{count} such cells cannot keep it regulating", DOUBTFUL: f"above {end}: the speed goes before the cells are empty",
             UNTOLD: f"too uncertain beside {end}"}[verdict.word]
    spare = (rest.plain / count) - known.plain
    near = _NEAR_END if "regulator_drop" in motor.governor.details else _MEASURE_DROP
    then = {SOUND: "", UNTOLD: near}.get(verdict.word, "A dry bearing, a tight belt or dirty contacts bring this forward: mend "
                                                                "those before you change the cells.")
    yield Judgement(part.name, part.kind, REGULATION, stage, PLAYING, known, band, verdict, (
        f"At {told(moment.current)} the governor holds down to {known.plain:.2f} ± {known.expanded.m_as('V'):.2f} V a cell, {words}. Now {abs(spare):.2f} V "
        f"a cell are {'in hand' if spare > 0 else 'missing'}. {kept}"), then)


def _kept_by(governor):
    """The least volts that its transistor keeps, and in words how they are known."""
    if "regulator_drop" in governor.details:
        drop = governor.details["regulator_drop"]
        return within(drop, _DROP_READ, "V"), (f"Its transistor keeps {_volts(drop)}, as written, taken as good to "
                                               f"{100 * _DROP_READ:.0f} %.")
    return within(_DROP, _DROP_KNOWN, "V"), "Its transistor is taken to keep 0.1 to 1.5 V (common practice)."


def _charger(part, stage):
    """A built-in charger against the cells that lie in it."""
    current, chemistry = part.details["charge_current"], part.details.get("chemistry", "")
    kind, capacity = kind_of(chemistry), part.details.get("capacity")
    known = within(current, _CHARGER_KNOWN, "A")
    untold = Judgement(part.name, part.kind, CHARGE, stage, "charging", known, None, Verdict(UNTOLD, 1.0), "", _OUTSIDE)
    if is_lithium(chemistry) or kind is not None and not kind.chargeable:
        name = "lithium" if kind is None else kind.name
        return replace(untold, verdict=Verdict(BAD, 1.0), reason=f"{told(known)} into {name} cells: never charge them in this machine.",
                       next=_NEVER)
    if kind is None or capacity is None:
        missing = 'their chemistry = "nickel-metal hydride"' if kind is None else 'the capacity of one cell, such as capacity = "2 Ah"'
        return replace(untold, reason=f"{told(known)} of charging says nothing without {missing}.")
    band = Band((_RATE_SOUND * capacity).to("A"), (_RATE_BAD * capacity).to("A"), (
        "0.1 It for 16 h is the standard charge (pages that quote the IEC test); up to 0.12 It taken as that, from 0.3 It on bad "
        "without a charger that stops by itself: common practice"), "PRACTICE")
    verdict = judge_value(value=known.plain, uncertainty=known.number.std_dev, sound_up_to=band.sound_up_to.m_as("A"),
                          bad_from=band.bad_from.m_as("A"))
    rate = charge_rate(current=current, capacity=capacity).m_as("1/h")
    hours = full_charge_time(capacity=capacity, current=current).m_as("h")
    said = f"{told(known)} into {show(capacity, 'Ah', 2)} is {rate:.2g} It"
    if verdict.word == SOUND:
        return replace(untold, band=band, verdict=verdict, next="Time it, feel the cells, and end it by hand.", reason=(
            f"{said}, no more than the standard charge ({mark_words('PRACTICE')}): an empty cell needs about {hours:.0f} h."))
    return replace(untold, band=band, verdict=verdict, reason=(
        f"{said}, faster than the standard 0.1 It: past full it turns all of it into heat, unless the charger stops by itself "
        f"({mark_words('PRACTICE')})."))


def _volts(quantity):
    """Volts as they are spoken of cells: 0.9 V, not 900 mV."""
    return f"{quantity.m_as('V'):.3g} V"
