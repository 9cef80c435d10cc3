"""Judgements of an adapter: its volts under load and off load, against what the machine and its parts stand."""

from dataclasses import replace

from benchreckoner.bench.judge import Judgement
from benchreckoner.bench.limits import Band
from benchreckoner.bench.reasons import mark_words, sureness, told
from benchreckoner.bench.uncertain import propagate
from benchreckoner.bench.verdict import BAD, DOUBTFUL, NEEDED, SOUND, UNTOLD, Verdict, judge_value, share_below
from benchreckoner.physics.supply import source_resistance
from benchreckoner.units import Q, show_exact

_LOADED = ("playing", "winding")
_NEAR, _FAR = 0.10, 0.25  # of the machine's supply, common practice
_OFF_USUAL, _OFF_MOST = 1.6, 2.0  # times the marked volts; the first is common practice, the second our own choice
_POLARITY = "Then measure plus and minus at its plug: both ways round exist."


def judge_adapter(sheet, readings, part, stage):
    """Judge one adapter at one stage.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings
    part : Part
        An adapter.
    stage : str

    Yields
    ------
    Judgement
        Its loaded volts beside the machine's supply, and its volts off load beside the parts that must stand them.
    """
    read = {condition: readings.find(part.name, "voltage", stage, condition) for condition in (*_LOADED, "off")}
    for condition, known in read.items():
        if known is None:
            continue
        if not known.plain > 0:
            yield _turned(part, stage, condition, known)
        elif condition == "off":
            yield _off_load(sheet, part, stage, known)
        else:
            yield _under_load(sheet, readings, part, stage, condition, known, read["off"])


def _turned(part, stage, condition, known):
    """Minus at the probe that should show plus: never taken for few volts."""
    return Judgement(part.name, part.kind, "voltage", stage, condition, known, None, Verdict(UNTOLD, 1.0), (
        f"{told(known)}, not above zero: the probes were turned round, or plus and minus of the plug are not where you think."),
        "Leave it out of the machine. Hold the red probe where the machine needs plus, and read it again: both ways round exist.")


def _under_load(sheet, readings, part, stage, condition, loaded, off):
    untold = Judgement(part.name, part.kind, "voltage", stage, condition, loaded, None, Verdict(UNTOLD, 1.0), "", "")
    inside = _inside(sheet, readings, part, stage, condition, loaded, off)
    if sheet.machine.supply is None:
        return replace(untold, reason=f"{told(loaded)}{inside}: nothing to hold it against.",
                     next='Write the machine\'s own supply, such as supply = "9 V", from its case or its cells.')
    wanted = sheet.machine.supply.m_as("V")
    edges = [(1 + sign * share) * wanted for share in (_NEAR, _FAR) for sign in (1, -1)]
    up, down, high, low = edges
    band = Band(Q(up, "V"), Q(high, "V"), "within 10 % of the machine's own volts sound, outside 25 % bad: common practice",
                "PRACTICE", Q(down, "V"), Q(low, "V"))
    verdict = _two_sided(loaded, band)
    way = "low" if loaded.plain < wanted else "high"
    words = {SOUND: f"within 10 % of the machine's {show_exact(sheet.machine.supply, 'V')}",
             DOUBTFUL: f"rather {way} for the machine's {show_exact(sheet.machine.supply, 'V')}",
             BAD: f"too {way} for the machine's {show_exact(sheet.machine.supply, 'V')}, by more than 25 %",
             UNTOLD: f"too near an edge beside the machine's {show_exact(sheet.machine.supply, 'V')}"}[verdict.word]
    then = "" if verdict.word == SOUND else (
        f"{'Read it off load as well. ' if off is None else ''}{'It may be too weak, or tired' if way == 'low' else 'It is made for more volts or more current'}: "
        f"use one that gives {show_exact(sheet.machine.supply, 'V')} at the current the machine draws. {_POLARITY}")
    return replace(untold, band=band, verdict=verdict, next=then,
                 reason=f"{told(loaded)} under load: {words} ({mark_words('PRACTICE')}){_sure(verdict)}{inside}.")


def _inside(sheet, readings, part, stage, condition, loaded, off):
    """Its own resistance in words, where volts off load and the current were read too."""
    motor = next((one.name for one in sheet.parts.values() if one.kind == "motor"), part.name)
    current = readings.find(part.name, "current", stage, condition) or readings.find(motor, "current", stage, condition)
    if off is None or current is None or not current.differs() or not (off - loaded).differs() or off.plain < loaded.plain:
        return ""
    ohms = propagate(source_resistance, "ohm", off_voltage=off, loaded_voltage=loaded, current=current)
    return f"; inside it {told(ohms)}, where 1 to 15 Ω are usual without a regulator ({mark_words('PRACTICE')})"


def _off_load(sheet, part, stage, off):
    untold = Judgement(part.name, part.kind, "voltage", stage, "off", off, None, Verdict(UNTOLD, 1.0), "", "")
    weakest = min((one for one in sheet.parts.values() if one.kind == "capacitor" and "rated_voltage" in one.details
                   and one.details.get("place", "").startswith("supply")),
                  key=lambda one: one.details["rated_voltage"], default=None)
    if weakest is not None:
        rated = weakest.details["rated_voltage"].to("V")
        band = Band(rated, rated, f"rated voltage of {weakest.name}, as marked", "PRACTICE")
        name = f"the {show_exact(rated, 'V')} of {weakest.name}"
    else:
        marked = part.details.get("rated_voltage", sheet.machine.supply)
        if marked is None:
            return replace(untold, reason=f"{told(off)} off load: nothing to hold it against.",
                         next='Write what is marked on it, such as rated_voltage = "9 V".')
        band = Band((_OFF_USUAL * marked).to("V"), (_OFF_MOST * marked).to("V"), "an unregulated adapter gives 1.2 to 1.6 times its "
                    "marked volts off load, common practice; two of 12 V were read at 18 to 21 V on a public question page", "PRACTICE")
        name = f"1.6 times the marked {show_exact(marked, 'V')}"
    verdict = judge_value(value=off.plain, uncertainty=off.number.std_dev, sound_up_to=band.sound_up_to.m_as("V"),
                          bad_from=band.bad_from.m_as("V"))
    words = {SOUND: f"no more than {name}", DOUBTFUL: f"more than {name}",
             BAD: f"more than {name if weakest else 'twice the marked volts'}", UNTOLD: f"too near {name} to tell"}[verdict.word]
    then = "" if verdict.word == SOUND else (
        "Whatever sits ahead of the switch gets all of it. Use a regulated adapter, or see first that every part it meets is rated for "
        f"more. {_POLARITY}")
    return replace(untold, band=band, verdict=verdict, next=then, reason=f"{told(off)} off load: {words}{_sure(verdict)}.")


def _two_sided(known, band):
    """The band on either side that holds at least 95 % of the probability, if one does."""
    value, spread = known.plain, known.number.std_dev
    up, high, down, low = (edge.m_as("V") for edge in (band.sound_up_to, band.bad_from, band.sound_down_to, band.bad_down_from))
    sound = share_below(up, value, spread) - share_below(down, value, spread)
    bad = 1 - share_below(high, value, spread) + share_below(low, value, spread)
    shares = {SOUND: sound, BAD: bad, DOUBTFUL: max(0.0, 1 - sound - bad)}
    word = max(shares, key=shares.get)
    return Verdict(word if shares[word] >= NEEDED else UNTOLD, shares[word])


def _sure(verdict):
    return f", {sureness(verdict.probability)}" if verdict.word in (BAD, DOUBTFUL) else ""

