"""The part that every book shares: the reader's own sheet, a form for readings, and what they say."""

from html import escape

from IPython.display import Markdown

from benchreckoner.bench.changes import add_entry, take_back
from benchreckoner.bench.desk import guesses_path, sheet_path
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.reasons import sentence, won_back
from benchreckoner.bench.parts import ROOMS, judge_parts, latest_of
from benchreckoner.bench.report import findings, part_name
from benchreckoner.bench.sheet import SheetError, read_sheet
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.bench.vocabulary import CONDITIONS, QUANTITIES
from benchreckoner.show import store
from benchreckoner.show.form import EntryForm, Field
from benchreckoner.show.live import live
from benchreckoner.units import show

_HEADINGS = {"signal": "The signal's way", "capacitors": "Capacitors", "motor": "Motor and governor", "belts": "Belt",
             "supply": "Cells and adapter", "transistors": "Transistors", "resistors": "Resistors and loudspeakers"}
SIGNS = {SOUND: "✓", DOUBTFUL: "?", BAD: "✗", UNTOLD: "…"}


def my_sheet():
    """The sheet on the desk, read afresh."""
    return read_sheet(sheet_path())


def my_guesses():
    """Where this reader's guesses are kept."""
    return guesses_path(sheet_path())


def own_or_demo(find, *, demo, lacks):
    """What a room finds on the reader's own sheet, else what it finds on an invented machine's.

    Parameters
    ----------
    find : callable
        Takes a sheet; hands back nothing, or raises a ValueError that says why, where the sheet says too little.
    demo : Path
        The invented machine's sheet, named after the machine.
    lacks : str
        What the reader's own sheet says too little of, such as "says too little of its motor yet".

    Returns
    -------
    found
        What `find` handed back.
    words : str
        That it is the invented machine's, as HTML made from escaped parts; empty for the reader's own.

    Raises
    ------
    SheetError
        If the reader's sheet cannot be read at all.
    """
    sheet, why = my_sheet(), ""
    try:
        found = find(sheet)
    except ValueError as fault:
        found, why = None, f" On yours: {escape(sentence(str(fault)))}"
    if found:
        return found, ""
    machine = demo.stem.replace("_", " ")
    return find(read_sheet(demo)), f"<p>Your sheet {escape(lacks)}, so here is the invented {machine}'s.{why}</p>"


def readings_form(*, quantities=tuple(QUANTITIES), kinds=None, further=(), judged=None):
    """A form that writes readings into the sheet on the desk and answers with the judgement.

    Parameters
    ----------
    quantities : sequence of str
        Those this book asks for, the usual one first.
    kinds : sequence of str, optional
        Only parts of these kinds are offered; all if left out.
    further : sequence of Field
        Boxes for further keys of a reading, named like them.
    judged : callable, optional
        Takes the sheet and gives the answer as HTML made from escaped parts; the judgement of every book if left out.

    Returns
    -------
    EntryForm
    """
    return _Readings(quantities, kinds, further, judged or judgement_html).form


def actions_form():
    """A form that writes what was done into the sheet on the desk; each action opens a new stage.

    Returns
    -------
    EntryForm
    """
    return _Actions().form


def judgement_html(sheet):
    """What the sheet's readings say: sentences, then each link and each other part at its latest stage.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
        HTML made from escaped parts.
    """
    reports, parts = judge_sheet(sheet), judge_parts(sheet)
    lines = "".join(f"<li>{escape(line)}</li>" for line in findings(sheet, (reports, parts)))
    return (f"<ul>{lines}</ul>" + (_links_html(reports[0]) if reports and reports[0].main else "")
            + "".join(_parts_html(latest) for room in ROOMS if (latest := latest_of(parts, room)) and latest.judgements))


def reports_html(reports, *, nothing):
    """What one room's reports say, every stage, the latest first: for a form that asks about that room alone.

    Parameters
    ----------
    reports : sequence of PartsReport
    nothing : str
        What to read or write, where there is nothing to judge yet; HTML.

    Returns
    -------
    str
        HTML made from escaped parts.
    """
    return "".join(_parts_html(report, (*report.findings, *report.judgements)) for report in reports) or f"<p>{nothing}</p>"


def opening(declared):
    """What a guess opens once it is made: a live picture whose kept settings go beside the guesses."""
    return lambda: live(declared, on_keep=keep_setting(declared.key))


def own_live(own, *, needs):
    """A live picture of the reader's own sheet, or what the sheet needs for it.

    Parameters
    ----------
    own : (LivePicture, Reading or None) or None
    needs : str
        What to read first, as Markdown.

    Returns
    -------
    widget or Markdown
    """
    if own is None:
        return Markdown(needs)
    declared, reading = own
    return live(declared, reading=reading, on_keep=keep_setting(declared.key))


def keep_setting(key):
    """What to do when the reader keeps a picture's setting: write it beside the guesses."""
    def keep(values):
        texts = {name: show(value, f"{value.units:~C}") if hasattr(value, "units") else f"{value:g}"
                 for name, value in values.items()}
        note = store.keep(my_guesses(), texts, group="setting", key=key)
        return note or f"Kept in {my_guesses().name}: " + ", ".join(texts.values()) + "."
    return keep


class SheetWriter:
    """A form that writes entries into the sheet on the desk, and its changes, so that each can be taken back."""

    table, value, fields = "", "", ()

    def __init__(self):
        self.changes = []
        self.form = EntryForm(self.fields, value=self.value, on_save=self.save, on_undo=self.undo, answer=self.answer)

    def write(self, entries):
        """Add one entry; empty boxes are left out."""
        self.changes.append(_added(self.table, entries))
        return self.changes[-1]

    def undo(self):
        """Take the last entry of this form back out of the sheet."""
        if not self.changes:
            raise ValueError("nothing to take back: this form has saved nothing since the book was opened")
        take_back(self.changes[-1])
        return f"Taken back: {escape(self.told(self.changes.pop().sheet))}."


class _Readings(SheetWriter):
    """The form for readings; it answers with the judgement."""

    table, value = "reading", "value"

    def __init__(self, quantities, kinds, further, judged):
        self.kinds, self.judged = kinds, judged
        self.fields = (
            Field("part", "Part", "choice", self.parts, placeholder="choose", required=True),
            Field("quantity", "Quantity", "choice", tuple(quantities), required=True),
            Field("value", "Value, with its unit", placeholder="such as 184 mV", required=True),
            Field("instrument", "Instrument", "choice", lambda: tuple(my_sheet().instruments), required=True),
            Field("stage", "Stage", "choice", lambda: tuple(reversed(my_sheet().stages)), required=True),
            Field("condition", "Condition", "choice", CONDITIONS, placeholder="choose", required=True),
            Field("after", "Time on voltage, if it matters", placeholder="such as 2 min"),
            *further,
        )
        super().__init__()

    def parts(self):
        """Names of the parts that this form offers."""
        return tuple(name for name, part in my_sheet().parts.items() if self.kinds is None or part.kind in self.kinds)

    def save(self, entries):
        """Write one reading."""
        if entries["quantity"] == "voltage drop" and entries["value"].startswith(("-", "−")):
            raise ValueError("Value: a minus sign means that the probes are the other way round; swap them, or write it "
                             f"without the sign, for example \"{entries['value'].lstrip('-−').strip()}\"")
        change = self.write(entries)
        reading = change.sheet.readings[-1]
        unit = QUANTITIES[reading.quantity]
        understood = show(reading.value.quantity, unit) if isinstance(unit, str) else reading.text
        return (f"Saved in {escape(change.path.name)}: {escape(reading.part)}, {escape(reading.quantity)}, "
                f"{escape(understood)}.")

    def told(self, sheet):
        """The sheet's last reading, in words."""
        reading = sheet.readings[-1]
        return f"{reading.part}, {reading.quantity} {reading.text}"

    def answer(self):
        """What the sheet's readings say now."""
        return self.judged(my_sheet())


class _Actions(SheetWriter):
    """The form for what was done; it answers with the stages."""

    table, value = "action", "name"
    fields = (Field("name", "What you did", placeholder="such as springs cleaned", required=True),
              Field("planned", "Planned", placeholder="such as 20 min"),
              Field("took", "Took", placeholder="such as 35 min"),
              Field("taken_off", "Taken off, to go back", placeholder="such as cell lid, base plate"),
              Field("fitted", "Fitted, by its name on the sheet", placeholder="such as C5, or belt 3"))

    def save(self, entries):
        """Write one action; what was taken off and what was fitted are lists, with commas between."""
        lists = {name: [thing.strip() for thing in entries[name].split(",") if thing.strip()] for name in ("taken_off", "fitted")}
        self.write({**entries, **lists})
        return f"Saved: the stage \"{escape(entries['name'])}\" is open. Run the readings' cell again to choose it."

    def told(self, sheet):
        """The sheet's last action, in words."""
        return sheet.actions[-1].name

    def answer(self):
        """The stages of the sheet so far."""
        return f"<p>Stages so far: {escape(', '.join(my_sheet().stages))}.</p>"


def _added(table, entries):
    """Add an entry to the sheet on the desk; an error speaks of the box, not of a line that is not there yet."""
    try:
        return add_entry(sheet_path(), table=table, entry={name: text for name, text in entries.items() if text})
    except SheetError as error:
        own = error.entry.rpartition(", ")[2]
        raise ValueError(f"{own.capitalize()}: {error.what}" if own in entries else str(error)) from error


def _links_html(stage):
    """One line a link, the sound ones in a fold: a phone has no room for a table of reasons."""
    chain = stage.main
    heading = f"<p>Link by link ({escape(stage.stage)}, {escape(chain.chain.condition)}; ± holds about 95 %, k = 2):</p>"
    return heading + _verdicts_html([(one, one.part, _reason(one, chain)) for one in chain.judgements], "link")


def _parts_html(report, told=None):
    """One line a part and quantity, the sound ones in a fold."""
    heading = f"<p>{_HEADINGS[report.room]}, part by part ({escape(report.stage)}; ± holds about 95 %, k = 2):</p>"
    return heading + _verdicts_html([(one, f"{part_name(one)} ({one.condition})", f"{one.reason} {one.next}".strip())
                                     for one in told or report.judgements], "reading")


def _verdicts_html(rows, what):
    lines = [(one.verdict.word, f"<li><strong>{SIGNS[one.verdict.word]} {escape(name)}: {escape(one.verdict.word)}."
              f"</strong> {escape(reason)}</li>") for one, name, reason in rows]
    told_of = "".join(line for word, line in lines if word != SOUND)
    sound = [line for word, line in lines if word == SOUND]
    fold = (f"<details><summary>{len(sound)} sound {what}{'' if len(sound) == 1 else 's'}</summary>"
            f"<ul>{''.join(sound)}</ul></details>") if sound else ""
    return (f"<ul>{told_of}</ul>" if told_of else "") + fold


def _reason(one, chain):
    gain = f" Won back if mended: {won_back(one.gain, chain.chain.standing)}." if one.gain else ""
    return f"{one.reason}{gain} {one.next}".strip()
