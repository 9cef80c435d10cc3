"""Judgements of pass transistors by their heat: as they run, and on the highest supply that the sheet knows of."""

from dataclasses import replace

from benchreckoner.bench.chain import SOURCES, link_current, read_chain
from benchreckoner.bench.judge import WORST_FIRST, Judgement, PartsReport
from benchreckoner.bench.limits import Band
from benchreckoner.bench.reasons import told, verdict_words
from benchreckoner.bench.transistor_heat import LIMITS, Missing, exact, junction_of
from benchreckoner.bench.uncertain import Known, Readings
from benchreckoner.bench.verdict import BAD, DOUBTFUL, UNTOLD, Verdict, judge_value, uncertainty_to_settle
from benchreckoner.units import Q, read_quantity, show, show_exact

JUNCTION, AT_WORST = "junction temperature", "junction temperature on the highest supply"
_RUNNING = ("playing", "winding", "no load", "starting", "held")
_ASKED = ("voltage drop", "current", "temperature")
_COOLER = ("Switch off and let it cool: it may burn a finger. Then see why it is so hot: too high a supply, too much load, "
           "or a plate that is missing or loose.")


def judge_transistors(sheet):
    """Judge the heat of every transistor that was read while it ran, at every stage.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartsReport
        The latest stage first.
    """
    readings = Readings(sheet)
    parts = [part for part in sheet.parts.values() if part.kind == "transistor"]
    reports = []
    for stage in reversed(sheet.stages):
        found = [one for part in parts for condition in _RUNNING if _read(readings, part, stage, condition)
                 for one in _judge(sheet, readings, part, stage, condition)]
        if found:
            reports.append(PartsReport("transistors", stage, tuple(
                sorted(found, key=lambda one: WORST_FIRST.index(one.verdict.word))), ()))
    return tuple(reports)


def _read(readings, part, stage, condition):
    return any(readings.find(part.name, quantity, stage, condition) is not None for quantity in _ASKED)


def _judge(sheet, readings, part, stage, condition):
    untold = Judgement(part.name, part.kind, JUNCTION, stage, condition, None, None, Verdict(UNTOLD, 1.0), "", "")
    try:
        drop, power = _heat(sheet, readings, part, stage, condition)
    except Missing as missing:
        yield replace(untold, reason="Its heat is not known.", next=str(missing))
        return
    if "junction_limit" not in part.details:
        yield replace(untold, reason=f"{told(power)} of heat; how hot its junction may be is not written.",
                      next='From its data sheet, write junction_limit = "150 degC". Germanium bears far less than silicon, '
                           "so nothing is assumed.")
        return
    try:
        junction = junction_of(part, power, readings.find(part.name, "temperature", stage, condition))
    except Missing as missing:
        yield replace(untold, reason=f"{told(power)} of heat; how hot that makes the junction is not known.", next=str(missing))
        return
    yield _against_limit(untold, part, junction.known, f"{told(power)} of heat, {junction.how}")
    yield _on_highest(sheet, readings, replace(untold, quantity=AT_WORST), part, drop, power, junction)


def _heat(sheet, readings, part, stage, condition):
    """The volts across it, and its heat."""
    drop = readings.find(part.name, "voltage drop", stage, condition)
    if drop is None:
        raise Missing(f"Read the voltage drop across {part.name}, collector to emitter ({condition}).")
    if not drop.plain > 0:
        raise Missing("Its drop is not above zero: read it again with the probes turned round.")
    current = readings.find(part.name, "current", stage, condition)
    if current is None:
        current, _ = link_current(read_chain(sheet, readings, stage, condition), part)
    if current is None or not current.plain > 0:
        raise Missing(f"Read the current through {part.name}, or the motor's ({condition}).")
    return drop, Known(drop.number * current.number, "W")


def _against_limit(untold, part, junction, how):
    margin = read_quantity(LIMITS["junction"]["margin"], "K").quantity.m_as("K")
    limit = part.details["junction_limit"].m_as("degC")
    band = Band(Q(limit - margin, "degC"), Q(limit, "degC"), LIMITS["junction"]["source"], LIMITS["junction"]["mark"])
    verdict = judge_value(value=junction.plain, uncertainty=junction.number.std_dev, sound_up_to=limit - margin, bad_from=limit)
    left = limit - junction.plain
    room = f"{left:.0f} K below its limit" if left >= 0 else f"{-left:.0f} K above its limit"
    reason = f"{how}: {told(junction)}, {room}; {verdict_words(band, verdict)}."
    return replace(untold, known=junction, band=band, verdict=verdict, reason=reason, next=_next(part, junction, band, verdict))


def _next(part, junction, band, verdict):
    if verdict.word in (BAD, DOUBTFUL):
        return _COOLER
    if verdict.word != UNTOLD:
        return ""
    needed = 2 * uncertainty_to_settle(value=junction.plain, sound_up_to=band.sound_up_to.m_as("degC"),
                                       bad_from=band.bad_from.m_as("degC"))
    if needed < 2:
        return "It sits on a limit, and no reading will settle that: treat it as doubtful. " + _COOLER
    return f"Touch the case of {part.name} with a thermometer, so that its junction is known to ± {needed:.0f} K."


def _on_highest(sheet, readings, untold, part, drop, power, junction):
    """The same load on the highest volts: the governor holds the motor's, so the transistor takes all that is more."""
    if junction.air is None:
        return replace(untold, reason="How far it would warm further is not known without the air round it.",
                       next='Write the air round it, such as temperature = "35 degC".')
    try:
        now, highest, words = _supplies(sheet, readings, untold.stage, untold.condition)
    except Missing as missing:
        return replace(untold, reason="How much higher its supply can go is not known.", next=str(missing))
    more = highest - now
    if more.differs() and more.plain < 0:
        return replace(untold, reason="The supply reads more volts loaded than with nothing drawn.", next="Read both again, off first.")
    watts = Known(power.number * (drop.number + more.number) / drop.number, "W")
    warm = Known(junction.air.number + (junction.known.number - junction.air.number) * watts.number / power.number, "degC")
    takes = (f"would take {show(more.value, 'V', 2)} more" if more.differs() else
             "would take no more volts than now, as far as they were read,")
    return _against_limit(untold, part, warm, f"On {words} the transistor {takes} at the same load, {told(watts)} of heat")


def _supplies(sheet, readings, stage, condition):
    """Volts now, the highest that can come, and those in words."""
    sources = [part for part in sheet.parts.values() if part.kind in SOURCES]
    loaded = {part.name: readings.find(part.name, "voltage", stage, condition) for part in sources}
    now = next((known for known in loaded.values() if known is not None), None)
    if now is None:
        name = sources[0].name if sources else "the supply"
        raise Missing(f"Read the volts across {name} ({condition}), and off.")
    found = [one for part in sources for one in _highest_of(sheet, readings, part, stage)]
    if not found:
        raise Missing(f"Read the volts across {next(name for name, known in loaded.items() if known is now)} with nothing drawn (off).")
    return now, *max(found, key=lambda one: one[0].plain)


def _highest_of(sheet, readings, part, stage):
    off = readings.find(part.name, "voltage", stage, "off")
    if off is not None:
        yield off, f"the {told(off)} of {part.name} off load"
        return
    if part.kind != "adapter":
        return
    for other in sheet.stages:  # an adapter gives again what it once gave; cells do not
        if (off := readings.find(part.name, "voltage", other, "off")) is not None:
            yield off, f"the {told(off)} of {part.name} off load ({other})"
    if (marked := part.details.get("rated_voltage", sheet.machine.supply)) is not None:
        volts = LIMITS["adapter"]["times"] * marked
        yield exact(volts, "V"), (
            f"{show_exact(volts, 'V')}, {LIMITS['adapter']['times']} times what is marked on {part.name}, as an unregulated one may give "
            "off load (common practice),")
