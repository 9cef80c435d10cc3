"""The rows of the record's tables: the chain place by place, every other part, what changed, and what was typed."""

from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.parts import ROOMS
from benchreckoner.bench.reasons import told, won_back
from benchreckoner.bench.tries import PLAN, counted, decision_words, still_possible, tallies
from benchreckoner.bench.vocabulary import QUANTITIES, QUANTITY_DETAILS
from benchreckoner.lessons.staircase import UNDER_LOAD, stairs
from benchreckoner.units import show, show_exact

_ROOMS = {"signal": "What passes sound", "capacitors": "Capacitors", "motor": "Motor and governor", "belts": "Belt",
          "supply": "Cells and adapter", "transistors": "Transistors", "resistors": "Resistors and loudspeakers"}
_CONDITIONS = {
    "off": "switched off",
    "starting": "the moment of starting, caught by a meter that holds its highest or lowest reading",
    "held": "motor switched on and its pulley held still, at most 2 s",
    "no load": "motor turning with its belt off",
    "in circuit": "power off, the part still soldered in, so that what lies across it is in the reading",
    "lifted": "one leg of the part off the board",
    "still": "nothing moved",
    "wiggled": "while it was moved by hand",
    "pressed": "while it was pressed",
    "bench supply, held": "a bench supply on the motor's own terminals, low volts, its pulley held still, at most 2 s",
    "bench supply, no load": "a bench supply on the motor's own terminals, its belt off",
    "bench supply, loaded": "a bench supply on the motor's own terminals, turning under a load",
}


class Notes:
    """The limits' sources, numbered as they are met."""

    def __init__(self):
        self.listed = []

    def number(self, band):
        """The number of a band's source; None without a band."""
        if band is None:
            return None
        note = (band.source, band.mark)
        if note not in self.listed:
            self.listed.append(note)
        return self.listed.index(note) + 1


def chain_tables(reports, opened, notes):
    """Every chain with its places in the order of the current; what was read of them besides stands below.

    Parameters
    ----------
    reports : tuple of StageReport
    opened : iterable of Judgement
        Those whose next step the record tells in a list of its own.
    notes : Notes
    """
    for report in reports:
        for chain in report.chains:
            guilty = chain.guilty.part if chain.guilty else None
            source = chain.chain.source.name if chain.chain.source else None
            told_of, rows = [], []
            for stair in stairs(chain):
                name = source if stair.name == UNDER_LOAD else stair.name
                one = next((one for one in chain.judgements if one.part == name), None)
                told_of.append(one)
                rows.append({"name": stair.name, "of": source if stair.name == UNDER_LOAD else "", "lost": stair.lost, "left": stair.left,
                             "ohms": stair.ohms, "note": stair.note, "guilty": stair.name == guilty, "why": one and _why(one, opened, notes),
                             "gain": _gain(one, chain)})
            rows += [{"name": one.part, "of": "", "lost": None, "left": None, "ohms": one.known, "note": "", "guilty": False,
                      "why": _why(one, opened, notes), "gain": _gain(one, chain)} for one in chain.judgements if one not in told_of]
            if rows:
                yield {"stage": report.stage, "condition": chain.chain.condition, "rows": rows}


def room_tables(parts, opened, notes):
    """What is judged part by part: what passes sound, then the capacitors and so on, each stage with the worst first."""
    for room in ROOMS:
        for report in parts:
            if report.room == room and report.judgements:
                yield {"title": _ROOMS[room], "stage": report.stage,
                       "rows": [{"one": one, "value": _value(one), "why": _why(one, opened, notes)} for one in report.judgements]}


def _why(one, opened, notes):
    """A verdict with its reason, where neither the value beside it nor the verdict is said a second time."""
    reason = one.reason
    if one.known is not None:
        reason = reason.removeprefix(told(one.known)).lstrip(":,. ")
    reason = reason.removeprefix(one.verdict.word).lstrip() if reason.startswith(f"{one.verdict.word} ") else reason
    return {"word": one.verdict.word, "reason": reason, "note": notes.number(one.band), "next": "" if one in opened else one.next}


def _gain(one, chain):
    return won_back(one.gain, chain.chain.standing) if one and one.gain else ""


def _value(one):
    if one.known is not None:
        return told(one.known)
    return "not known" if one.quantity in QUANTITIES else "several readings"


def changes(reports, parts):
    """What changed, one group for two stages and a condition."""
    groups = {}
    for one in (*comparisons(reports), *comparisons(parts)):
        way = "down" if one.change.plain < 0 else "up"
        row = {"one": one, "change": f"{way} by {show(abs(one.change.value), one.change.unit)}" if one.real else ""}
        groups.setdefault((one.before_stage, one.after_stage, one.condition), []).append(row)
    return [{"before": before, "after": after, "condition": condition, "rows": rows}
            for (before, after, condition), rows in groups.items()]


def going_back(sheet, replaced):
    """What was taken off, the last thing first, each with the actions that took it off."""
    taken = {}
    for action in reversed(sheet.actions):
        for thing in reversed(action.taken_off):
            if thing not in replaced:
                taken.setdefault(thing, []).append(action.name)
    return list(taken.items())


def tried(sheet):
    """Each tally with what it proves, in words."""
    return [{"tally": tally, "counted": counted(tally), "decision": decision_words(tally, PLAN), "limit": still_possible(tally)}
            for tally in tallies(sheet)]


def readings(sheet):
    """The readings as typed, stage by stage and condition by condition."""
    groups = {}
    for reading in sorted(sheet.readings, key=lambda reading: sheet.stages.index(reading.stage)):
        row = {"reading": reading, "remarks": ", ".join(_remarks(reading))}
        groups.setdefault((reading.stage, reading.condition), []).append(row)
    return [{"stage": stage, "condition": condition, "rows": rows} for (stage, condition), rows in groups.items()]


def _remarks(reading):
    """How a reading was taken, where the sheet says more than its condition."""
    if reading.after is not None:
        yield f"after {show_exact(reading.after, 'min')}"
    if reading.applied is not None:
        yield f"from {show_exact(reading.applied, 'V')}"
    if reading.series_resistor is not None:
        yield f"through {show_exact(reading.series_resistor, 'ohm')}"


def part_words(part):
    """What the sheet says of a part, in words: what it is, and what is written on it.

    Parameters
    ----------
    part : Part

    Returns
    -------
    str
    """
    words = [] if part.name == part.kind else [part.kind]
    for key, value in part.details.items():
        name = key.replace("_", " ")
        if value is True:
            words.append(name)
        elif key in QUANTITY_DETAILS:
            unit = QUANTITY_DETAILS[key][0]
            words.append(f"{name} {_as_written(value, unit)}")
        elif key == "across":
            words.append("beside it " + " and ".join(f"{one.name} {_as_written(one.resistance, 'ohm')}".strip() for one in value))
        elif key == "at":
            words.append("at " + " and ".join(_as_written(one, "mm") for one in value))
        elif key in ("tolerance", "trim"):
            words.append(f"{name} {100 * value:g} %")
        elif value is not False:
            words.append(f"{name} {value:g}" if isinstance(value, float) else f"{name} {value}")
    if part.current_from:
        words.append(f"its current is that of {part.current_from}")
    return ", ".join(words)


def conditions(sheet):
    """The conditions that this sheet uses, in plain words."""
    used = {reading.condition for reading in sheet.readings}
    return [(word, meaning) for word, meaning in _CONDITIONS.items() if word in used]


def _as_written(quantity, unit):
    """A part's quantity with every digit that somebody may have written, and no zeros behind them."""
    number, _, symbol = show(quantity, unit, digits=6).partition(" ")
    return f"{number.rstrip('0').rstrip('.') if '.' in number else number} {symbol}"
