"""What a level or a wiggle says of a contact: decibels lost across it, and whether it stays when it is moved."""

from dataclasses import replace

from benchreckoner.bench.bounds import Bounds, judge_bounds
from benchreckoner.bench.judge import CONTRADICTION, Judgement
from benchreckoner.bench.limits import band_for
from benchreckoner.bench.reasons import sureness, told, verdict_words
from benchreckoner.bench.signal_reasons import SEE_CONTRADICTION
from benchreckoner.bench.uncertain import propagate, within
from benchreckoner.bench.verdict import BAD, DOUBTFUL, NEEDED, SOUND, UNTOLD, Verdict, share_below
from benchreckoner.physics.contacts import resistance_from_loss
from benchreckoner.units import Q, show, show_exact

MOVED = ("wiggled", "pressed")
LOSS, MOVEMENT = "level loss", "movement"
_RESTING = ("still", "off", "playing", "in circuit", "lifted", "no load")
_HEARD = 1.0  # dB: about the least change of level that is noticed, common practice
_LOAD_TOLERANCE = 0.2  # a loudspeaker's ohms change with the pitch, an input's are seldom known better


def level_loss(readings, part, stage, condition):
    """Judge the level lost across a part, from a reading before it and one behind it.

    Parameters
    ----------
    readings : Readings
    part : Part
    stage, condition : str

    Yields
    ------
    Judgement
    """
    before = readings.find(part.name, "level before", stage, condition)
    behind = readings.find(part.name, "level", stage, condition)
    if before is None and behind is None:
        return
    untold = Judgement(part.name, part.kind, LOSS, stage, condition, None, None, Verdict(UNTOLD, 1.0), "", "")
    if before is None or behind is None:
        if before is None and _moved_levels(readings, part, stage):
            return  # its pair is the level when wiggled
        there, missing = ("behind", "before") if before is None else ("before", "behind")
        quantity = "level before" if before is None else "level"
        yield replace(untold, reason=f"The level {there} it was read, but not the level {missing} it: one level alone says "
                      "nothing of a loss.",
                      next=f"Read the {quantity} of {part.name} with the same tone ({condition}), or its level wiggled.")
        return
    loss = before - behind
    untold = replace(untold, known=loss, as_read=loss)
    if loss.differs() and loss.plain < 0:
        reason = (f"{part.name} is said to have {show(-loss.value, 'dB')} more behind it than before it, and no contact adds level: "
                  "the places were exchanged, or the tone changed.")
        then = "Read both again with one steady tone."
        yield replace(untold, reason=SEE_CONTRADICTION)
        yield replace(untold, quantity=CONTRADICTION, reason=reason, next=then)
    elif part.kind == "potentiometer":
        yield replace(untold, reason=f"{told(loss)} are lost across it, but taking level is what a control is for.",
                      next="Read its wiper resistance at the stop, or its level while it is wiggled.")
    elif "load" in part.details:
        yield _into_load(part, loss, untold)
    elif loss.differs():
        sure = share_below(0, -loss.plain, loss.number.std_dev)
        yield replace(untold, verdict=Verdict(DOUBTFUL, sure),
                      reason=f"{told(loss)} are lost between the two places: something there takes them, {sureness(sure)}.",
                      next=f"Read the ohms of {part.name}, or write what it feeds, such as load = \"8 ohm\": then the loss is ohms.")
    else:
        yield replace(untold, reason=f"{told(loss)}: no loss shows. Before a line input that clears nothing, since even a kilohm "
                      "costs little there.",
                      next=f"Read the ohms of {part.name}, or its level while it is wiggled.")


def movements(readings, part, stage, band):
    """Judge what changes when a part is wiggled or pressed.

    Parameters
    ----------
    readings : Readings
    part : Part
    stage : str
    band : Band or None
        For its ohms, or a control's wiper: a sound part cannot change by more than it has.

    Yields
    ------
    Judgement
    """
    for condition in MOVED:
        for quantity in ("resistance", "wiper resistance", "level"):
            singles = readings.singles(part.name, quantity, stage, condition)
            if singles:
                yield _movement(readings, part, quantity, stage, condition, singles, band)


def _movement(readings, part, quantity, stage, condition, singles, band):
    untold = Judgement(part.name, part.kind, MOVEMENT, stage, condition, None, None, Verdict(UNTOLD, 1.0), "", "")
    resting = next((known for known in (readings.find(part.name, quantity, stage, one) for one in _RESTING) if known is not None), None)
    if resting is None:
        return replace(untold, reason=f"Its {quantity} was read {condition}, but not while it lay still.",
                       next=f"Read the {quantity} of {part.name} once more, lying still.")
    change = max((one - resting for one in singles), key=lambda change: abs(change.plain))
    size, spread = abs(change.plain), change.number.std_dev
    allowed = _HEARD if quantity == "level" else band.sound_up_to.m_as("ohm") if band else 0.0
    # An ohmmeter good enough sees any contact give a little when it is pressed; a level has no such excuse.
    shown = share_below(0 if quantity == "level" else -allowed, -size, spread)
    limit = f"{show_exact(Q(allowed, change.unit), change.unit)} (common practice)"
    untold = replace(untold, known=change)
    moved = f"its {quantity} changes by {told(change)} when {condition}"
    if shown >= 1 - (1 - NEEDED) / (2 * len(singles)):  # the largest of several is large by chance: each has its share of 5 %
        more = "" if quantity == "level" else f", more than the {limit} that a sound one has in all"
        word = BAD if condition == "pressed" else DOUBTFUL
        return replace(untold, verdict=Verdict(word, shown),
                       reason=f"It moves: {moved}{more}, {sureness(shown)}; common practice calls that "
                              + ("bad." if word == BAD else "suspect."),
                       next=f"Move one thing at a time, {part.name} itself, its plug, its wires: what changes the reading is the place.")
    steady = share_below(allowed, size, spread)
    if steady >= NEEDED:
        return replace(untold, verdict=Verdict(SOUND, steady), reason=f"It holds still: {moved}, within {limit}.")
    return replace(untold, reason=f"{moved[:1].upper()}{moved[1:]}: too uncertain beside {limit}.",
                   next="Read it still and moved again, on the smallest range that holds it.")


def _into_load(part, loss, untold):
    """A loss into a known load is ohms, and so has a band."""
    ohms = propagate(resistance_from_loss, "ohm", loss=loss, load_resistance=within(part.details["load"], _LOAD_TOLERANCE, "ohm"))
    band = band_for(part)
    verdict = judge_bounds(Bounds(ohms, ohms), band)
    then = f"Read the ohms of {part.name}: a level is too coarse for so little." if verdict.word == UNTOLD else ""
    return replace(untold, band=band, verdict=verdict, next=then,
                   reason=f"{told(loss)} are lost across it, which before {show_exact(part.details['load'], 'ohm')} is "
                          f"{told(ohms)}: {verdict_words(band, verdict)}.")


def _moved_levels(readings, part, stage):
    return any(readings.singles(part.name, "level", stage, one) for one in MOVED)
