"""The sentences behind a judgement of what passes sound: why it is so, and what to measure next."""

from benchreckoner.bench.reasons import sentence, told, verdict_words
from benchreckoner.bench.verdict import UNTOLD, uncertainty_to_settle
from benchreckoner.units import Q, show, show_exact


def path_words(part):
    """What lies across a part, by name and ohms."""
    named = [f"{one.name} {show_exact(one.resistance, 'ohm')}".strip() for one in part.details["across"]]
    return named[0] if len(named) == 1 else ", ".join(named[:-1]) + " and " + named[-1]


def why(part, way, bounds, band, verdict):
    """Why a part's ohms got their verdict: what was read, what may be in it, the limits and their mark."""
    exact = bounds.low is bounds.high and not bounds.in_circuit
    against = verdict_words(band, verdict) if exact else verdict_words(band, verdict, untold="that reaches over the limits")
    if bounds.in_circuit and verdict.word != UNTOLD:
        against += "; lifting a leg would not change that"
    return f"{sentence(reading_words(part, way, bounds))[:-1]}: {against}."


def reading_words(part, way, bounds):
    """What a reading says of the part alone."""
    if not bounds.in_circuit:
        return f"{told(way.reading)}{way.words}"
    read = f"{told(way.reading)} in circuit{way.words}"
    if bounds.open_ended:
        least = _ohms(bounds.lowest()) + " or more" if bounds.lowest() > 0 else "anything"
        return f"{read}, where {_unnamed(part)}, so that by itself it may have {least}"
    most = bounds.highest()
    if most is None:
        alone = (f"at least {_ohms(bounds.lowest())} and perhaps open, since {path_words(part)} alone across it would read "
                 "nearly the same")
    else:
        alone = f"{_ohms(bounds.lowest())} to {_ohms(most)} by itself"
    return f"{read}; without {path_words(part)} across it, {alone}"


def too_much(part, way):
    """A reading in circuit that the path alone would not allow."""
    return (f"{part.name} reads {told(way.reading)} in circuit, more than {path_words(part)} across it allow: nothing in "
            "parallel raises a reading.")


def beyond_track(part, way, track):
    """A wiper that is said to have more ohms than its whole track."""
    return (f"{part.name} reads {told(way.reading)} at the wiper, more than its whole track of {show_exact(track, 'ohm')}: it was "
            "not at the stop, has lost touch, or a value was mistyped.")


SEE_CONTRADICTION = "Its readings contradict each other, so nothing is said of it."
TOO_MUCH_NEXT = ("Look whether that path is open or was named wrongly, let capacitors empty themselves, and read again with "
                 "the leads exchanged. Or lift a leg.")


def next_ohms(part, way, bounds, band, worth_lifting):
    """What would turn "can't tell yet" into a verdict for a part's ohms."""
    if bounds.low is None and not way.leads_known and (bounds.highest() is None or bounds.highest() > band.sound_up_to.m_as("ohm")):
        return (f"Touch the leads together and write what {way.instrument} then shows beside its accuracy, such as "
                f"leads = \"0.20 ohm\"; or send a known current through {part.name} and read current and voltage drop.")
    if bounds.in_circuit:
        if worth_lifting:
            name = "" if bounds.path else " Or name what lies across it, such as across = \"R12 4k7\"."
            return f"Lifting a leg of {part.name} is worth it: within these bounds the verdict could go either way.{name}"
        return (f"Lifting a leg of {part.name} would not settle it: even alone it would sit too near a limit. "
                "Read it finer, or treat it as doubtful.")
    return next_finer(part, way.reading, band)


def next_finer(part, known, band):
    """How fine a reading would have to be."""
    edges = [edge.m_as(band.unit) for edge in (band.sound_up_to, band.bad_from, band.sound_down_to, band.bad_down_from)
             if edge is not None]
    needed = min(uncertainty_to_settle(value=known.plain, sound_up_to=edge, bad_from=edge) for edge in edges)
    if needed <= 0.01 * abs(known.plain):
        return (f"It sits on a limit, and finer readings will hardly settle it: treat {part.name} as doubtful, "
                "clean it and compare.")
    return (f"Read it again on the smallest range that holds it, to {show(Q(2 * needed, band.unit), band.unit)} or better.")


def direct_volts(volts, band, verdict):
    """What direct volts on a control mean."""
    meaning = {
        "sound": "so scratching, if there is any, comes from track or wiper",
        "doubtful": "perhaps a capacitor that leaks; a track can scratch as well",
        "bad": "that points at a leaky capacitor, not at the track, unless the circuit is meant to put volts there",
    }.get(verdict.word, "")
    return f"{told(volts)} of direct voltage on it: {verdict_words(band, verdict)}" + (f"; {meaning}." if meaning else ".")


def next_capacitor(part):
    """Where direct volts on a control lead to."""
    return (f"Before any spray, find the capacitor that should keep direct volts off {part.name}, and read the volts on "
            "both of its sides.")


def next_direct_volts(part):
    """The reading without which scratching says nothing."""
    return (f"Measure this next, before any spray: the direct volts on {part.name}, wiper to its ground end, while the machine "
            "plays (quantity voltage).")


def _unnamed(part):
    return "what lies across these two points is not known" if "across" in part.details else "what lies across it is not named"


def _ohms(plain):
    return show(Q(plain, "ohm"), "ohm")
