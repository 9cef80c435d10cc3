"""The words that a script's sentences are made of: what a quantity is called aloud, and how a list or a verdict is said."""

from benchreckoner.bench.reasons import sureness
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND
from benchreckoner.bench.vocabulary import AS_FOUND
from benchreckoner.show.spoken import called, plain

SPOKEN_VERDICTS = {BAD: "bad", DOUBTFUL: "doubtful", SOUND: "sound"}
_COUNTS = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NOUNS = {
    "leakage current": "the leakage of {part}",
    "torque of belt and bearings": "the torque that belt and bearings ask of {part}",
    "speed lost by the belt": "the speed that the belt loses at {part}",
    "current taken by the belt": "the current that the belt costs {part}",
    "pull at the shaft": "the belt’s pull at {part}",
    "path along the seats": "the belt’s path over {part}",
    "headroom": "the voltage that {part} has in hand",
    "volts a cell where regulation ends": "how low {part} may sink before the speed goes",
    "what a belt must fit": "how well {part} fits",
    "level loss": "the level lost at {part}",
    "movement": "what moving {part} changes",
    "junction temperature on the highest supply": "how hot {part} gets inside on the highest supply",
    "pattern": "which fault {part}’s readings fit",
}
# Only of these does it matter what the machine was doing; ohms and farads are the part's own.
_BY_CONDITION = ("current", "speed", "voltage", "voltage drop", "power", "level")
_WHILE = {"playing": "while it played, ", "no load": "with the belt off, ", "held": "with the motor held, ", "starting": "as it started, ",
          "off": "switched off, ", "charging": "while it charged, ", "bench supply": "on a bench supply, "}
# How the readings of one kind tell anything at all, by the quantity and how its condition begins.
_CHAIN = "One current runs through every link, from the cells to the motor. So the volts lost across a link, divided by it, are that link’s ohms."
_TOUCH = "A contact is read in ohms, with the power off: where metal touches metal well, there are next to none."
_LEAK = "A leaky capacitor can read high. So a good capacitance clears nothing: its leakage has to be read too."
_TURN = "A motor’s current tells how hard it has to turn. Its volts, less those that its winding takes, tell how fast."
_BELT = "Too slack, a belt slips and loses speed. Too tight, it costs current and bearings."
_PRINCIPLES = (("resistance", "held", _CHAIN), ("resistance", "playing", _CHAIN), ("resistance", "off", _TOUCH), ("wiper resistance", "", _TOUCH),
               ("capacitance", "", _LEAK), ("leakage current", "", _LEAK), ("current", "playing", _TURN), ("speed", "playing", _TURN),
               ("torque of belt and bearings", "", _TURN), ("speed lost by the belt", "", _BELT), ("stretch", "", _BELT),
               ("current taken by the belt", "", _BELT), ("pull at the shaft", "", _BELT))
_ALMOST_SURE = 0.99  # above it "sound" or "bad" is said without how sure


def told_twice(camera, room=None):
    """The two registers of a line; the room hears the same where nothing else is given."""
    return {"camera": camera, "room": camera if room is None else room}


def listed(names, most=3):
    """Names as they are said, one after the other: the first few, then how many more."""
    said, more = names[:most], len(names) - most
    if more > 0:
        return f"{', '.join(said)} and {number_word(more)} more"
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"


def number_word(count):
    """A small number as a word."""
    return _COUNTS[count] if count < len(_COUNTS) else str(count)


def upper(text):
    """The same words, the first letter large."""
    return text[:1].upper() + text[1:]


def stopped(text):
    """The same words with a full stop, unless they bring a stop of their own.

    >>> stopped("slow"), stopped("slow!")
    ('slow.', 'slow!')
    """
    return text if text.endswith((".", "!", "?", "…")) else f"{text}."


def quantity_words(one):
    """What a judgement or comparison is of: "the resistance of spring 3"."""
    return _NOUNS.get(plain(one.quantity), f"the {plain(one.quantity)} of {{part}}").replace("{part}", called(one.part))


def moment_words(one, stage=AS_FOUND):
    """When and how it was read, as the start of a sentence: "After “belt a fitted”, while it played, "; often empty."""
    after = "" if stage == AS_FOUND else f"after “{plain(stage)}”, "
    return f"{after}{condition_words(one.condition) if one.quantity in _BY_CONDITION else ''}"


def condition_words(condition):
    """What the machine was doing, as the start of a sentence: "while it played, after 30 min, "."""
    how, _, later = condition.partition(", after ")
    begun = next((words for start, words in _WHILE.items() if how.startswith(start)), "")
    return f"{begun}{f'after {plain(later)}, ' if later else ''}"


def principle_words(one):
    """Why such a reading tells anything, as one or two sentences; None where there is nothing to explain."""
    return next((words for quantity, start, words in _PRINCIPLES
                 if one.quantity == quantity and one.condition.startswith(start)), None)


def time_words(time):
    """How long something took, as it is said: "35 minutes"."""
    unit, name = ("s", "second") if time.m_as("min") < 1 else ("min", "minute") if time.m_as("h") < 2 else ("h", "hour")
    count = f"{time.m_as(unit):.3g}"
    return f"{count} {name}{'' if count == '1' else 's'}"


def verdict_words(one):
    """A verdict in two registers, with how sure it is where that is not near certainty, and the figure in it, often empty."""
    said = f"That is {SPOKEN_VERDICTS[one.verdict.word]}."
    if one.verdict.probability > _ALMOST_SURE:
        return said, said, ""
    sure = sureness(one.verdict.probability).replace(" %", " per cent")
    return f"{said} I am {sure} of that.", f"{said} We are {sure} of that.", sure
