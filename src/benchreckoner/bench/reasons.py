"""The sentences behind a judgement: why it is so, and what to measure next."""

from benchreckoner.bench.chain import SOURCES, STANDING, link_current
from benchreckoner.bench.uncertain import propagate
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.physics.contacts import contact_resistance
from benchreckoner.units import show, show_exact, show_known

_WORDS_OF_MARKS = {"FOUND": "published", "RECOMPUTED": "recomputed", "MEMORY": "from memory", "PRACTICE": "common practice"}


def told(known):
    """A known value with its expanded uncertainty."""
    return show_known(known.value, known.expanded, known.unit)


def sentence(words):
    """The same words with a capital and a full stop."""
    return words[:1].upper() + words[1:] + ("" if words.endswith((".", "!", "?")) else ".")


def mark_words(mark):
    """A mark as a reader would say it."""
    return _WORDS_OF_MARKS[mark]


def sureness(probability):
    """A probability as a reader would say it, never as certainty."""
    if probability > 0.999:
        return "more than 99.9 % sure"
    return f"{100 * probability:.0f} % sure" if probability < 0.995 else f"{100 * probability:.1f} % sure"


def against_band(known, band, verdict):
    """Why a value got its verdict, with the limit's mark beside it."""
    return f"{told(known)}: {verdict_words(band, verdict)}."


def verdict_words(band, verdict, *, untold="too uncertain beside the limits"):
    """A verdict's band in words, its mark beside it, and how sure it is; `untold` begins the words where there is none."""
    edges = f"({mark_words(band.mark)})"
    sound, bad = show_exact(band.sound_up_to, band.unit), show_exact(band.bad_from, band.unit)
    if band.sound_down_to is not None:
        sound = f"{show_exact(band.sound_down_to, band.unit)} to {sound}"
        bad = f"{show_exact(band.bad_down_from, band.unit)} to {bad}"
        words = {BAD: f"bad outside {bad} {edges}", SOUND: f"sound within {sound} {edges}",
                 DOUBTFUL: f"outside {sound}, within {bad} {edges}",
                 UNTOLD: f"{untold} {sound} and {bad} {edges}"}
    else:
        words = {BAD: f"bad from {bad} {edges}", SOUND: f"sound up to {sound} {edges}",
                 DOUBTFUL: f"between {sound} and {bad} {edges}",
                 UNTOLD: f"{untold} {sound} and {bad} {edges}"}
    quiet = verdict.word == UNTOLD or verdict.word == SOUND and verdict.probability > 0.999
    return words[verdict.word] + ("" if quiet else f", {sureness(verdict.probability)}")


def settle(chain, part, ohms, needed):
    """The measurement that would turn "can't tell yet" into a verdict."""
    if needed.m_as("ohm") <= 0.01 * abs(ohms.plain):
        return (f"It sits on a limit, and finer readings will hardly settle it: treat {part.name} as doubtful, "
                "mend it and compare.")
    current = link_current(chain, part)[0] or chain.current
    if current is None:
        return f"Read the voltage drop across {part.name} while the motor runs or is held."
    drop = current.value * needed
    if _coarse(ohms, current, needed):
        return (f"The current is the coarse one here: read it again on the smallest range that holds it, to "
                f"{show(2 * current.value * needed.m_as('ohm') / ohms.plain, 'A')} or better.")
    if part.kind in SOURCES:
        return f"Read {part.name} off and loaded again on one range, several times, to {show(2 * drop, 'V')} or better."
    if chain.condition not in STANDING:
        return (f"Read the drop across {part.name} with the motor held for at most 2 s at low volts: more current, "
                f"more drop. Or read it now to {show(2 * drop, 'V')} or better.")
    return f"Read the drop across {part.name} again, on the smallest range that holds it, to {show(2 * drop, 'V')} or better."


def _coarse(ohms, current, needed):
    """Whether the current's uncertainty alone is more than the ohms may have."""
    parts = ohms.number.error_components()
    return sum(parts.get(one, 0.0) ** 2 for one in current.number.error_components()) > needed.m_as("ohm") ** 2


def next_reading(chain, link):
    """What to read when a link's ohms are not known."""
    if link.name not in chain.drops:
        return f"Read the voltage drop across {link.name} ({chain.condition})."
    if link.current_from:
        return f"Read the current of {link.current_from} ({chain.condition})."
    if link.details.get("after_branch") or chain.current_problem:
        ends = " or ".join(f'"{part.name}"' for part in (chain.source, chain.motor) if part)
        return f"Name the part whose current it carries: current_from = {ends}."
    return f"Read the motor's current ({chain.condition}), with the meter on a range that shows it."


def next_source_reading(chain):
    """What to read when a source's ohms are not known."""
    if chain.off_voltage is None:
        return f"Switch off and read the volts across {chain.source.name} (off)."
    if chain.loaded_voltage is None:
        return f"Read the volts across {chain.source.name} ({chain.condition})."
    return f"Read the motor's current ({chain.condition})."


def as_ohms(left, current):
    """Volts nobody accounts for, as the ohms of one joint."""
    return told(propagate(contact_resistance, "ohm", voltage_drop=left, current=current))


def unmeasured(left, ohms, unread):
    """What the remainder of a chain means."""
    size = f"{told(left)} between supply and motor" + (f" ({ohms})" if ohms else "")
    if unread:
        return f"{size} are in no drop that was read; not read here: {', '.join(unread)}."
    return f"{size} are in no drop that was read: a joint that is not in the list takes them."


def next_joint(unread):
    """Where to look for volts nobody accounts for."""
    if unread:
        return f"Read the voltage drop across {unread[0]}."
    return ("Keep one probe on the source and walk the other along the chain towards the motor: "
            "the jump names the joint. Add it to the sheet.")


def won_back(gain, standing):
    """What mending one link would give the motor."""
    words = f"{'at most' if gain.at_most else 'about'} {show(gain.volts.value, 'V', digits=2)}"
    if not standing:
        return f"{words} more at the motor while it turns"
    text = f"{words} more at the held motor"
    if gain.torque_ratio is not None:
        text += f", about {float(f'{100 * (gain.torque_ratio.plain - 1):.2g}'):g} % more starting pull"
    return text
