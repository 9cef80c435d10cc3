"""Book 07, the reader's own captions: what they will look like, from the sheet on the desk."""

from html import escape

from IPython.display import HTML

from benchreckoner.bench.desk import sheet_path
from benchreckoner.lessons.your_bench import my_sheet
from benchreckoner.show.words import words_table
from benchreckoner.tell.caption_files import planned
from benchreckoner.tell.captions import cues, timestamp
from benchreckoner.tell.script import read_script
from benchreckoner.tell.script_file import NAME

_FIRST = 8


def my_captions():
    """The first captions of the reader's own script, with the times of its speaking rate.

    Returns
    -------
    IPython.display.HTML
        A table, made from escaped parts.
    """
    spoken = planned(read_script(sheet_path().with_name(NAME), my_sheet()))
    shown = cues(spoken)
    rows = "".join(f"<tr><td>{timestamp(cue.start)}</td><td>{timestamp(cue.end)}</td><td>{'<br>'.join(escape(line) for line in cue.lines)}</td></tr>"
                   for cue in shown[:_FIRST])
    return HTML(words_table(f"<caption>{len(shown)} captions in {timestamp(shown[-1].end)}, the first {min(_FIRST, len(shown))} of them</caption>"
                f"<thead><tr><th>from</th><th>to</th><th>caption</th></tr></thead><tbody>{rows}</tbody>"))
