"""Judgements of capacitors: capacitance and series resistance of each part, and what its readings in circuit leave open."""

from dataclasses import replace
from itertools import combinations

from benchreckoner.bench.capacitor_causes import SOUND as SOUND_PART
from benchreckoner.bench.capacitor_causes import fit_part
from benchreckoner.bench.capacitor_fit import PRINCIPLES, ShownReading
from benchreckoner.bench.capacitor_limits import ELECTROLYTIC, capacitance_band, rating, series_resistance_band
from benchreckoner.bench.contradictions import disagreements
from benchreckoner.bench.judge import CONTRADICTION, Judgement
from benchreckoner.bench.limits import NoBand
from benchreckoner.bench.reasons import mark_words, sentence, sureness, told
from benchreckoner.bench.verdict import BAD, DOUBTFUL, NEEDED, SOUND, UNTOLD, Verdict, judge_value, share_below
from benchreckoner.units import show, show_exact

IN_CIRCUIT = "in circuit"
_LIFT = "Lift one leg and read it again."


def judge_capacitor(sheet, readings, part, stage):
    """Judge what was read of one capacitor at one stage, its leakage apart.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings
        Of that sheet.
    part : Part
        Of kind capacitor.
    stage : str

    Returns
    -------
    tuple of Judgement
        One for each quantity and condition that was read; contradictions among them.
    """
    found = []
    for name, quantity, at, condition in readings.keys():
        if (name, at) == (part.name, stage) and quantity in _JUDGES:
            known = readings.find(part.name, quantity, stage, condition)
            untold = Judgement(part.name, part.kind, quantity, stage, condition, known, None, Verdict(UNTOLD, 1.0), "", "")
            try:
                rated = rating(part)
                apart = _apart(readings, sheet, untold, rated) if quantity == "capacitance" and condition != IN_CIRCUIT else None
                found.append(apart or _JUDGES[quantity](untold, rated))
            except NoBand as nothing:
                found.append(replace(untold, reason=f"{told(known)}: {nothing}.", no_band=True))
    conditions = {condition for name, _, at, condition in readings.keys() if (name, at) == (part.name, stage)}
    for condition in sorted(conditions):
        found += [Judgement(part.name, part.kind, CONTRADICTION, stage, condition, known, None, Verdict(UNTOLD, 1.0),
                            sentence(reason), then)
                  for known, reason, then in disagreements([part], readings, stage, condition)]
    return tuple(found)


def _apart(readings, sheet, untold, rated):
    """Two testers that disagree are a finding by themselves; None where none do."""
    known = readings.by_instrument(untold.part, untold.quantity, untold.stage, untold.condition)
    pair = next((pair for pair in combinations(known.items(), 2)
                 if pair[0][0][0] != pair[1][0][0] and (pair[0][1] - pair[1][1]).differs()), None)
    if pair is None:
        return None
    names, values = zip(*((name, value) for (name, _), value in pair))
    principles = [sheet.instruments[name].principle for name in names]
    said = " and ".join(f"{told(value)} on {name}" for name, value in zip(names, values))
    if not all(principles):
        why = ("two testers that disagree are a finding. A leak makes one that times the charge read high and one that times the "
               "discharge read low; a bridge hardly minds")
        then = 'Write by which principle each tester measures, such as principle = "charge time", and read its leakage.'
        return replace(untold, verdict=Verdict(DOUBTFUL, 1.0), reason=f"{said}: {why}.", next=then)
    shown = [ShownReading(principle, value, PRINCIPLES[principle].usual) for principle, value in zip(principles, values)]
    fit = fit_part(shown, marked=rated.capacitance, tolerance=rated.tolerance)
    word = DOUBTFUL if fit.whole is not None and SOUND_PART not in [cause.name for cause in fit.causes] else UNTOLD
    taken = ", ".join(dict.fromkeys(f"{principle} with {show_exact(PRINCIPLES[principle].usual, PRINCIPLES[principle].setting_unit)}"
                                    for principle in principles))
    return replace(untold, verdict=Verdict(word, 1.0), reason=f"{said} ({taken}, as usual). {' '.join(fit.sentences)}",
                   next="Read its leakage at its rated voltage, through a resistor, one leg lifted.")


def _capacitance(untold, rated):
    """Too little is wear; too much is leakage, soakage, or made so: it is never bad by itself."""
    known, band = untold.known, capacitance_band(rated)
    value, spread = known.plain, known.number.std_dev
    if not known.differs():
        return replace(untold, band=band, reason=f"{told(known)}: that is nothing, or the tester gave up.",
                       next="Discharge it, look at the tester's leads, and read it again, one leg lifted.")
    worn = share_below(band.bad_down_from.m_as("F"), value, spread)
    low = share_below(band.sound_down_to.m_as("F"), value, spread)
    high = 1 - share_below(band.sound_up_to.m_as("F"), value, spread)
    shares = {BAD: worn, SOUND: max(0.0, 1 - low - high), DOUBTFUL: max(0.0, low - worn) + high}
    word = max(shares, key=shares.get)
    edges = f"{show_exact(band.sound_down_to, 'F')} to {show_exact(band.sound_up_to, 'F')} {_as_marked(rated)}"
    if untold.condition == IN_CIRCUIT:
        return _capacitance_in_circuit(untold, band, edges, worn)
    if shares[word] < NEEDED:
        beside = (f"the edges {edges}" if shares[SOUND] > 1 - NEEDED else
                  f"{show_exact(band.bad_down_from, 'F')}, where it would be worn out ({mark_words(band.mark)}); sound is {edges}")
        return replace(untold, band=band, verdict=Verdict(UNTOLD, shares[word]), reason=f"{told(known)}: too uncertain beside {beside}.",
                       next="Read it again on the smallest range that holds it, or on a finer tester.")
    verdict = Verdict(word, shares[word])
    if word == SOUND:
        return replace(untold, band=band, verdict=verdict, reason=f"{told(known)}: within {edges}. That alone clears no part: "
                       "a leak hides in it.")
    if word == BAD:
        lost = f"{100 * (1 - value / rated.capacitance.m_as('F')):.0f} %"
        return replace(untold, band=band, verdict=verdict,
                       reason=f"{told(known)}: {lost} below what it should be, worn out below {show_exact(band.bad_down_from, 'F')} "
                              f"({mark_words(band.mark)}), {sureness(worn)}.")
    if value < band.sound_down_to.m_as("F"):
        return replace(untold, band=band, verdict=verdict, reason=f"{told(known)}: less than {edges}, not yet worn out.",
                       next="Read its series resistance: a part that dries out gains there.")
    return replace(untold, band=band, verdict=verdict,
                   reason=f"{told(known)}: more than {edges}. Too much is no bonus: it leaks, it soaks, something lies across "
                          "it, or it was made so.",
                   next="Read its leakage at its rated voltage, one leg lifted. If you can, read it on a bridge too.")


def _capacitance_in_circuit(untold, band, edges, worn):
    """Other capacitors across it add to the reading; resistors across it pull some testers down."""
    known = untold.known
    if worn >= NEEDED:
        return replace(untold, band=band, verdict=Verdict(DOUBTFUL, worn), next=_LIFT,
                       reason=f"{told(known)} in circuit: other capacitors across it could only add to that, and sound is {edges}. "
                              "But a resistor across it makes some testers read low.")
    return replace(untold, band=band, next=_LIFT, reason=f"{told(known)} in circuit: other capacitors across it are in the reading, "
                   f"so it may have less; sound is {edges}.")


def _series_resistance(untold, rated):
    known, band = untold.known, series_resistance_band(rated)
    verdict = judge_value(value=known.plain, uncertainty=known.number.std_dev, sound_up_to=band.sound_up_to.m_as("ohm"),
                          bad_from=band.bad_from.m_as("ohm"))
    sound, bad = (show(edge, "ohm", digits=2) for edge in (band.sound_up_to, band.bad_from))
    if untold.condition == IN_CIRCUIT:
        return replace(untold, band=band, reason=f"{told(known)} in circuit: a resistor across a part adds ohms on a bridge at 120 Hz, "
                       f"another capacitor across it takes ohms away, so it may have more or less; sound is up to {sound}.", next=_LIFT)
    against = f"a new part of its kind may have {sound} at 120 Hz ({mark_words(band.mark)})"
    reasons = {SOUND: f"{told(known)}: {against}, {sureness(verdict.probability)}, if the tester uses 120 Hz.",
               DOUBTFUL: f"{told(known)}: {against}; old ones had two or three times as much when new.",
               BAD: f"{told(known)}: {against}, and {bad} is three times that, {sureness(verdict.probability)}: it has dried out, or a leak poses as ohms in series.",
               UNTOLD: f"{told(known)}: too uncertain beside {sound} and {bad}."}
    then = "Read it again on a finer range, one leg lifted, the leads' own ohms taken off." if verdict.word == UNTOLD else ""
    return replace(untold, band=band, verdict=verdict, reason=reasons[verdict.word], next=then)


def _as_marked(rated):
    if rated.lower is None:
        usual = "20 % either way, since no tolerance is marked" if rated.style in ELECTROLYTIC else "20 % either way, unmarked"
        return f"({usual}: common practice)"
    return "(its marked tolerance)"


_JUDGES = {"capacitance": _capacitance, "series resistance": _series_resistance}
