"""The reader's own script, shown in the book: what would be said, how long it takes, what has to be looked at."""

from html import escape

from IPython.display import HTML

from benchreckoner.bench.desk import sheet_path
from benchreckoner.bench.page import SheetError
from benchreckoner.lessons.your_bench import my_sheet
from benchreckoner.show.words import caution, words_table
from benchreckoner.tell.script import REGISTERS, outline, read_script, total
from benchreckoner.tell.script_file import remake
from benchreckoner.tell.script_look import clock, of_line, whole
from benchreckoner.tell.script_read import NAME


def my_script():
    """The script of the sheet on the desk, chapter by chapter, as said to a camera.

    Where a ``script.toml`` lies beside the sheet, it is the author's own; one that cannot be read is told, and the
    script is shown as the sheet alone makes it.

    Returns
    -------
    IPython.display.HTML
    """
    sheet, note = my_sheet(), ""
    try:
        script = read_script(sheet_path().with_name(NAME), sheet)
    except SheetError as error:
        note, script = caution(f"{error}. Shown is the script as the sheet alone makes it."), remake(None, sheet)[1]
    times = " and ".join(f"{clock(total(script.lines, register, script.words_per_minute))} to a {register}" for register in REGISTERS)
    parts = [f"{note}<p>{len(script.used)} lines are said and {len(script.dropped)} left out: {times}, at "
             f"{script.words_per_minute:g} words a minute.</p>",
             *(f"<p><strong>Look at this:</strong> {escape(words)}</p>" for words in whole(script))]
    for chapter in dict.fromkeys(line.chapter for line in script.used):
        said = "".join(f"<li>{escape(line.say['camera'])}{_marks(script, line)}</li>" for line in script.used if line.chapter == chapter)
        parts.append(f"<details><summary><strong>{escape(chapter)}</strong></summary><ul>{said}</ul></details>")
    return HTML("".join(parts))


def my_claims():
    """Each figure of the script with the judgement or comparison it came from, as a table.

    Returns
    -------
    IPython.display.HTML
    """
    rows = "".join("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in (claim.text, claim.part, claim.quantity, claim.stage, claim.condition))
                   + "</tr>" for line in outline(my_sheet()) for claim in line.claims)
    head = "".join(f"<th>{word}</th>" for word in ("what is said", "part", "quantity", "stage", "condition"))
    return HTML(words_table(f"<caption>Every figure, and where it comes from</caption><tr>{head}</tr>{rows}") if rows else
                "<p>No figure is said yet: the sheet's readings judge nothing.</p>")


def _marks(script, line):
    return "".join(f"<br><strong>{lead}:</strong> {escape(words)}" for lead, words in of_line(script, line.id))
