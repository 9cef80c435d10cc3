"""The record: one page for the machine's lid, which tells the next repairer what was found and done."""

import re
from importlib import resources
from pathlib import Path

import jinja2
from markupsafe import Markup

from benchreckoner.bench.cautions import cautions_for
from benchreckoner.bench.chain import feed_parts
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import WORST_FIRST, judge_sheet
from benchreckoner.bench.parts import ROOMS, judge_parts, latest_of
from benchreckoner.bench.reasons import mark_words, sentence, told, won_back
from benchreckoner.bench.report import findings, part_name
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.bench.tries import PLAN, counted, decision_words, plan_words, still_possible, tallies
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.bench.vocabulary import QUANTITIES
from benchreckoner.lessons.staircase import chains_to_show, missing, staircases, stairs
from benchreckoner.show.still import svg_text
from benchreckoner.tell.framed import BEFORE_UNIT, NO_BREAK
from benchreckoner.tell.place import put_pages
from benchreckoner.units import show, show_exact

# How an earlier record of ours is known again: nothing else is ever replaced.
_OURS = '<meta name="generator" content="Bench Reckoner, record of a repair">'
_TURNING = dict.fromkeys([*range(0x202A, 0x202F), *range(0x2066, 0x206A)])
_SETTINGS = ("set voltage", "compensation", "speed")  # what a trimmer was left at, and what it makes of the speed
_ON_THE_LID = 7  # of each kind at most
_RIGHT_TO_LEFT = re.compile("[\u0590-\u08ff]+(?: [\u0590-\u08ff]+)*")
# Shape and word, never colour.
_ROOM_TITLES = {"signal": ("What passes sound", "ohms, volts and levels of what passes sound"),
                "capacitors": ("Capacitors", "capacitance, series resistance and leakage of capacitors"),
                "motor": ("Motor and governor", "what the motor draws, how fast it runs, and what holds its speed"),
                "belts": ("Belt", "the belt's stretch and pull, the current it takes and the speed it loses"),
                "supply": ("Cells and adapter", "the volts of cells and adapter, and a charger"),
                "transistors": ("Transistors", "the heat of transistors and what carries it off"),
                "resistors": ("Resistors and loudspeakers", "ohms and heat of resistors, coils of loudspeakers and what their amplifier sees")}
_SHAPES = {BAD: ("bad", "✕"), DOUBTFUL: ("doubtful", "◐"), UNTOLD: ("untold", "?"), SOUND: ("sound", "✓")}
_CONDITIONS = {
    "off": "switched off",
    "starting": "the moment of starting, caught by a meter that holds its highest or lowest reading",
    "held": "motor switched on and its pulley held still, at most 2 s",
    "playing": "playing",
    "winding": "winding",
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


def make_record(sheet_path, folder):
    """Write the record of a sheet as one page that needs no network, no script and no program.

    Parameters
    ----------
    sheet_path : path-like
    folder : path-like
        Where to put it. It is made if only it, and not its parent, is missing.

    Returns
    -------
    pathlib.Path
        The page, named after the sheet: ``NAME.record.html``.

    Raises
    ------
    SheetError
        If the sheet cannot be read.
    OSError
        If the page cannot be written, or if something that is no record stands in its place.

    Notes
    -----
    The same sheet gives the same bytes. The page appears whole or not at all,
    so an earlier record is never half lost.
    """
    sheet = read_sheet(sheet_path)
    page = record_html(sheet)
    name = f"{Path(sheet_path).stem}.record.html"
    put_pages({name: page}, folder, ours=_OURS, what="record of a repair")
    return Path(folder) / name


def record_html(sheet):
    """The record's page as text.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
    """
    room = jinja2.Environment(autoescape=True, undefined=jinja2.StrictUndefined, finalize=_upright,
                              trim_blocks=True, lstrip_blocks=True)
    room.filters |= {"told": _cell, "sentence": sentence, "mark_words": mark_words, "exact": show_exact,
                     "change": _change, "joined": _joined}
    template = room.from_string(resources.files("benchreckoner.tell").joinpath("record.html").read_text("utf-8"))
    reports, parts = judge_sheet(sheet), judge_parts(sheet)
    notes = _Notes()
    return template.render(
        lid=_lid(sheet, reports, parts), measured=QUANTITIES,
        ours=Markup(_OURS), sheet=sheet, findings=findings(sheet, (reports, parts)), cautions=cautions_for(sheet), shapes=_SHAPES,
        conditions=_conditions(sheet), staircases=list(_staircases(reports)), missing=_missing(sheet, reports),
        judged=list(_judged(reports, notes)), rooms=list(_rooms(parts, notes)), compared=_compared(reports, parts),
        tried=_tried(sheet), plan=plan_words(PLAN),
        going_back=_going_back(sheet), alone=_alone(reports, parts), untold=_untold(reports, parts),
        unjudged=_unjudged(sheet, reports, parts),
        readings=_readings(sheet), notes=notes.listed)


class _Notes:
    """The limits' sources, numbered as they are met."""

    def __init__(self):
        self.listed = []

    def number(self, band):
        note = (band.source, band.mark)
        if note not in self.listed:
            self.listed.append(note)
        return self.listed.index(note) + 1


def _conditions(sheet):
    """The conditions that this sheet uses, in plain words."""
    used = {reading.condition for reading in sheet.readings}
    return [(word, meaning) for word, meaning in _CONDITIONS.items() if word in used and meaning != word]


def _staircases(reports):
    """One drawing a stage, with its sentence and the rows of its table."""
    drawn = staircases(reports)
    for place, (chain, picture) in enumerate(drawn):
        guilty = chain.guilty.part if chain.guilty else None
        yield {"when": ("Before", "After")[place] if drawn[1:] else "", "stage": chain.chain.stage,
               "condition": chain.chain.condition, "sentence": picture.sentence,
               "drawing": Markup(_upright(svg_text(picture, prefix=f"staircase-{place + 1}-"))),
               "rows": [(stair, stair.name == guilty) for stair in stairs(chain)]}


def _missing(sheet, reports):
    if chains_to_show(reports):
        return ""
    source, motor, links = feed_parts(sheet)
    return missing(source=source, motor=motor, links=links)


def _judged(reports, notes):
    """Every chain with its links, the worst first."""
    for report in reports:
        for chain in report.chains:
            if chain.judgements:
                yield {"stage": report.stage, "condition": chain.chain.condition,
                       "rows": [{"one": one, "note": notes.number(one.band) if one.band else None,
                                 "gain": won_back(one.gain, chain.chain.standing) if one.gain else ""}
                                for one in chain.judgements]}


def _rooms(parts, notes):
    """What is judged part by part: what passes sound, then the capacitors, each stage with the worst first."""
    for room in ROOMS:
        groups = [{"stage": report.stage, "rows": [{"one": one, "note": notes.number(one.band) if one.band else None}
                                                   for one in report.judgements]}
                  for report in parts if report.room == room and report.judgements]
        if groups:
            title, caption = _ROOM_TITLES[room]
            yield {"title": title, "caption": caption, "groups": groups}


def _compared(reports, parts):
    """What changed, one table for two stages and a condition."""
    groups = {}
    for one in (*comparisons(reports), *comparisons(parts)):
        groups.setdefault((one.before_stage, one.after_stage, one.condition), []).append(one)
    return [{"before": before, "after": after, "condition": condition, "rows": rows}
            for (before, after, condition), rows in groups.items()]


def _lid(sheet, reports, parts):
    """What the next repairer needs on one sheet of paper, each list cut to what fits."""
    proof = [one for group in _compared(reports, parts) for one in group["rows"] if one.real]
    # The last change of a thing is the proof; an earlier one is told below.
    proof = list({(one.part, one.quantity): one for one in proof}.values())
    # Of a part's verdicts the worst, and the worst part first: what is cut off at the end is the least.
    ranked = sorted(_alone(reports, parts), key=lambda one: WORST_FIRST.index(one.verdict.word), reverse=True)
    alone = list({one.part: one.verdict.word for one in ranked}.items())[::-1]
    open_still = [part_name(one) for one in _untold(reports, parts)] + [part.name for part in _unjudged(sheet, reports, parts)]
    names = [name for name in dict.fromkeys(open_still) if name not in dict(alone)]
    settings = [one for one in _latest(reports, parts) if one.quantity in _SETTINGS and one.known is not None]
    return {"settings": settings[:_ON_THE_LID], "proof": proof[:_ON_THE_LID], "more_proof": len(proof[_ON_THE_LID:]), "alone": alone[:_ON_THE_LID],
            "more_alone": len(alone[_ON_THE_LID:]), "untold": names[:_ON_THE_LID], "more_untold": len(names[_ON_THE_LID:])}


def _change(one):
    way = "down" if one.change.plain < 0 else "up"
    return f"{way} by {show(abs(one.change.value), one.change.unit)}, more than the uncertainty explains"


def _upright(value):
    """Text without signs that turn round what follows: in a name they would turn the numbers after it."""
    return value.translate(_TURNING) if isinstance(value, str) and not isinstance(value, Markup) else value


def _joined(text):
    """The same words, but no line ends within a value, its uncertainty and its unit.

    Behind words that run from right to left stands a mark that ends their run,
    so that the numbers after them keep their place.
    """
    text = _RIGHT_TO_LEFT.sub("\\g<0>\u200e", text)
    return BEFORE_UNIT.sub(NO_BREAK, text.replace(" ± ", f"{NO_BREAK}±{NO_BREAK}"))


def _cell(known):
    """A value for a narrow column, where a line may end before its uncertainty."""
    return _joined(told(known)).replace(f"{NO_BREAK}±", " ±")


def _going_back(sheet):
    """What was taken off, the last thing first, each with the actions that took it off."""
    taken = {}
    for action in reversed(sheet.actions):
        for thing in reversed(action.taken_off):
            taken.setdefault(thing, []).append(action.name)
    return list(taken.items())


def _tried(sheet):
    """Each tally with what it proves, in words."""
    return [{"tally": tally, "counted": counted(tally), "decision": decision_words(tally, PLAN), "limit": still_possible(tally)}
            for tally in tallies(sheet)]


def _latest(reports, parts):
    """Each part's judgements at the latest stage that speaks of it; a verdict goes before none."""
    latest = {}
    for report in (*reports, *parts):
        for one in sorted(report.judgements, key=lambda one: one.verdict.word == UNTOLD):
            latest.setdefault((one.part, one.quantity), one)
    return latest.values()


def _alone(reports, parts):
    return [one for one in _latest(reports, parts) if one.verdict.word in (BAD, DOUBTFUL)]


def _untold(reports, parts):
    """What the latest readings leave open, what cannot all be true first."""
    whole = [one for chain in reports[0].chains for one in chain.findings] if reports else []
    whole += [one for room in ROOMS if (latest := latest_of(parts, room)) for one in latest.findings]
    return whole + [one for one in _latest(reports, parts) if one.verdict.word == UNTOLD]


def _unjudged(sheet, reports, parts):
    judged = {one.part for one in _latest(reports, parts)}
    return [part for part in sheet.parts.values() if part.name not in judged]


def _readings(sheet):
    """The readings as typed, stage by stage and condition by condition."""
    groups = {}
    for reading in sorted(sheet.readings, key=lambda reading: sheet.stages.index(reading.stage)):
        groups.setdefault((reading.stage, reading.condition), []).append(reading)
    return [{"stage": stage, "condition": condition, "rows": rows,
             "remarks": any(row.after is not None or row.note for row in rows)} for (stage, condition), rows in groups.items()]
