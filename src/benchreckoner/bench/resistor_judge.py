"""Judgements of resistors by their ohms and their heat, and of loudspeakers by their coil and what stands across them."""

from dataclasses import replace

from benchreckoner.bench import signal_reasons as words
from benchreckoner.bench.bounds import MOST_LEADS, Bounds, judge_bounds, lifting_would_tell, read_ohms
from benchreckoner.bench.chain import feed_parts, link_ohms, read_chain
from benchreckoner.bench.contradictions import disagreements
from benchreckoner.bench.judge import CONTRADICTION, WORST_FIRST, Judgement, PartsReport
from benchreckoner.bench.limits import NoBand, band_for
from benchreckoner.bench.reasons import against_band, mark_words, sentence, sureness, told
from benchreckoner.bench.uncertain import Known, Readings, propagate, within
from benchreckoner.bench.verdict import BAD, SOUND, UNTOLD, Verdict, judge_value
from benchreckoner.bench.vocabulary import CONDITIONS
from benchreckoner.physics.contacts import contact_resistance
from benchreckoner.physics.parallel import parallel_resistance
from benchreckoner.physics.resistors import allowed_power, dissipated_power, hot_spot
from benchreckoner.units import Q, show, show_exact

POWER, LOAD = "power", "load"
_MARKED = "marked resistance"
_IN_CASE = Q(40, "degC")  # round a part in a closed case, where the sheet says nothing. Common practice.
_USUAL_TOLERANCE = 0.1  # of a resistor whose own is not written: common practice for old carbon ones
_DIPS_TO = 0.8  # of the printed impedance, at some pitch. IEC 60268-5, MEMORY.
_CAUTION = "Direct ohms are not its impedance: this clears or condemns the coil, and says nothing of how it loads an amplifier."


def judge_resistors(sheet):
    """Judge every resistor and loudspeaker that was read, at every stage.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartsReport
        The latest stage first.
    """
    readings = Readings(sheet)
    links = feed_parts(sheet)[2]
    parts = [part for part in sheet.parts.values() if part.kind in ("resistor", "loudspeaker")]
    reports = []
    for stage in reversed(sheet.stages):
        found = [one for part in parts for one in _judge_part(sheet, readings, part, stage, part in links)]
        judged = sorted((one for one in found if one.quantity != CONTRADICTION), key=lambda one: WORST_FIRST.index(one.verdict.word))
        if found:
            reports.append(PartsReport("resistors", stage, tuple(judged), tuple(one for one in found if one.quantity == CONTRADICTION)))
    return tuple(reports)


def _judge_part(sheet, readings, part, stage, is_link):
    taken = {condition for name, _, at, condition in readings.keys() if (name, at) == (part.name, stage)}
    for condition in [one for one in CONDITIONS if one in taken]:
        for known, reason, then in disagreements([part], readings, stage, condition):
            yield replace(_untold(part, CONTRADICTION, stage, condition), known=known, reason=sentence(reason), next=then)
        way = read_ohms(sheet, readings, part, "resistance", stage, condition)
        if way is not None:
            yield from _judge_ohms(part, stage, condition, way)
        if part.kind == "resistor":
            yield from _by_current(sheet, readings, part, stage, condition, is_link)
            yield from _power(sheet, readings, part, stage, condition)
    if part.kind == "loudspeaker" and taken and {"impedance", "least_load"} <= set(part.details):
        yield _load(part, stage, next(one for one in CONDITIONS if one in taken))


def _judge_ohms(part, stage, condition, way):
    """An ohmmeter's reading: of the part alone only with a leg lifted, else a bound."""
    untold = replace(_untold(part, "resistance", stage, condition), known=way.reading, as_read=way.reading)
    bounds = _bounds(part, condition, way)
    if bounds.contradicted:
        yield replace(untold, reason=words.SEE_CONTRADICTION)
        yield replace(untold, quantity=CONTRADICTION, reason=words.too_much(part, way), next=words.TOO_MUCH_NEXT)
        return
    try:
        band = _band(part)
    except NoBand as nothing:
        yield replace(untold, reason=sentence(str(nothing)), no_band=True)
        return
    verdict = judge_bounds(bounds, band)
    then = ""
    if verdict.word == UNTOLD:
        then = words.next_ohms(part, way, bounds, band, bounds.in_circuit and lifting_would_tell(bounds, band))
    elif verdict.word == BAD:
        then = _before_replacing(part)
    reason = words.why(part, way, bounds, band, verdict)
    yield replace(untold, known=bounds.best, band=band, verdict=verdict, next=then,
                  reason=f"{reason} {_CAUTION}" if part.kind == "loudspeaker" else reason)


def _by_current(sheet, readings, part, stage, condition, is_link):
    """Ohms from the volts across it and the current through it: no lead and no neighbour is in them."""
    drop = readings.find(part.name, "voltage drop", stage, condition)
    current = readings.find(part.name, "current", stage, condition)
    if drop is None:
        return
    if current is not None and current.differs() and current.plain > 0:
        ohms = propagate(contact_resistance, "ohm", voltage_drop=drop, current=current)
    elif is_link:
        ohms, _ = link_ohms(read_chain(sheet, readings, stage, condition), part)
    else:
        return
    if ohms is None or not ohms.plain > 0:
        return
    found = replace(_untold(part, "resistance", stage, condition), known=ohms)
    try:
        band = _band(part)
    except NoBand as nothing:
        yield replace(found, reason=sentence(str(nothing)), no_band=True)
        return
    verdict = judge_bounds(Bounds(ohms, ohms), band)
    then = {UNTOLD: words.next_finer(part, ohms, band), BAD: _before_replacing(part)}.get(verdict.word, "")
    yield replace(found, band=band, verdict=verdict, reason=f"By volts and current {against_band(ohms, band, verdict)}", next=then)


def _power(sheet, readings, part, stage, condition):
    """Its heat while it works, against what it may turn into heat where it stands."""
    volts = next((one for one in (readings.find(part.name, quantity, stage, condition) for quantity in ("voltage drop", "voltage"))
                  if one is not None), None)
    current = readings.find(part.name, "current", stage, condition)
    alone = read_ohms(sheet, readings, part, "resistance", stage, "lifted")
    if volts is None or condition == "off":
        return
    if current is not None:
        watts, how = Known(volts.number * current.number, "W"), "volts times current"
        watts = watts if watts.plain >= 0 else Known(-watts.number, "W")  # one pair of probes the other way round
    elif alone is not None and alone.reading.differs() and alone.reading.plain > 0:
        watts, how = propagate(dissipated_power, "W", voltage=volts, resistance=alone.reading), "volts squared by its own ohms"
    elif "resistance" not in part.details:
        return
    else:
        marked = within(part.details["resistance"], part.details.get("tolerance", _USUAL_TOLERANCE), "ohm")
        watts, how = propagate(dissipated_power, "W", voltage=volts, resistance=marked), "volts squared by its marked ohms"
    found = replace(_untold(part, POWER, stage, condition), known=watts)
    rated = part.details.get("rated_power")
    if rated is None:
        yield replace(found, reason=f"{told(watts)} of heat ({how}); what it may is not written.",
                      next="Measure its body, and write rated_power = \"0.25 W\".", no_band=True)
        return
    around = part.details.get("temperature", _IN_CASE)
    try:
        allowed = allowed_power(rated_power=rated, temperature=around)
    except ValueError:
        yield replace(found, reason=f"Round it are {show_exact(around, 'degC')}, which is as hot as a film resistor's body may be.",
                      next="Read the air beside it again; if it holds, move it or find what heats it.")
        return
    band = band_for(part, quantity=POWER, allowed=allowed)
    verdict = judge_value(value=watts.plain, uncertainty=watts.number.std_dev, sound_up_to=band.sound_up_to.m_as("W"),
                          bad_from=band.bad_from.m_as("W"))
    spot = hot_spot(ambient=around, power=watts.value, rated_power=rated)
    reason = (f"Its heat, {how}, is {against_band(watts, band, verdict)} Rated {show_exact(rated, 'W')}, it may make {show(allowed, 'W')} "
              f"where the air round it has {show_exact(around, 'degC')}")
    hot = f"; its hot spot is near {spot.m_as('degC'):.0f} °C." if spot.m_as("degC") <= 200 else "; that is beyond what its body stands."
    then = {UNTOLD: words.next_finer(part, watts, band), SOUND: ""}.get(
        verdict.word, "Find what draws the current before you fit anything. Mind your fingers.")
    yield replace(found, band=band, verdict=verdict, reason=reason + hot, next=then)


def _load(part, stage, condition):
    """What the amplifier behind a loudspeaker sees, with whatever stands across it, against the least it is made for."""
    printed, least = (part.details[name].to("ohm") for name in ("impedance", "least_load"))
    beside = part.details.get("across", ())
    known = Known(within(printed, 1e-6, "ohm").number, "ohm")
    for one in beside:
        known = propagate(lambda load, shunt: 1 / (1 / load + 1 / shunt), "ohm", load=known,
                          shunt=within(one.resistance, one.tolerance, "ohm"))
    verdict = judge_value(value=-known.plain, uncertainty=known.number.std_dev, sound_up_to=-least.m_as("ohm"),
                          bad_from=-_DIPS_TO * least.m_as("ohm"))
    across = f" with {words.path_words(part)} across it" if beside else ""
    sure = {SOUND: "", UNTOLD: ", too near one of these to tell"}.get(verdict.word, f", {sureness(verdict.probability)}")
    reason = (f"The amplifier sees {show(known.value, 'ohm')}{across}, by the printed {show_exact(printed, 'ohm')}; its least load is "
              f"{show_exact(least, 'ohm')} (bad below {show_exact(_DIPS_TO * least, 'ohm')}: {mark_words('PRACTICE')}){sure}. "
              f"At some pitches the impedance may fall to {100 * _DIPS_TO:.0f} % of what is printed ({mark_words('MEMORY')}).")
    then = "" if verdict.word == SOUND else "Take off what stands across it, or give it more ohms, before you turn it up."
    return replace(_untold(part, LOAD, stage, condition), known=known, verdict=verdict, reason=reason, next=then)


def _bounds(part, condition, way):
    """What a reading leaves open about the part alone; two-wire leads only matter beside few ohms."""
    low = way.reading
    if not way.four_wire and not way.leads_known:
        low = Known(way.reading.number - MOST_LEADS, "ohm")
    if condition == "lifted":
        return Bounds(low, way.reading)
    beside = part.details.get("across", ())
    if not beside:
        return Bounds(low, way.reading, open_ended=True)
    least, most = (float(parallel_resistance(resistances=Q([one.resistance.m_as("ohm") * (1 + sign * one.tolerance) for one in beside],
                                                           "ohm")).m_as("ohm")) for sign in (-1, 1))
    return Bounds(low, way.reading, path=(least, most))


def _band(part):
    return band_for(part, quantity=_MARKED if part.kind == "resistor" else "resistance")


def _before_replacing(part):
    if part.kind == "loudspeaker":
        return "Read it once more at its own tags, its wires off: a broken wire reads the same as a broken coil."
    return ("Find why before you replace it: what stands behind it, and what it feeds. A fusible or flameproof type only by the same "
            "type and value.")


def _untold(part, quantity, stage, condition):
    return Judgement(part.name, part.kind, quantity, stage, condition, None, None, Verdict(UNTOLD, 1.0), "", "")
