"""The script: what is said of a repair, to a camera or to a room.

`outline` makes every line from a sheet; `read_script` hands them over as their author left them.
"""

from benchreckoner.tell.script_file import read_script
from benchreckoner.tell.script_line import CHAPTERS, REGISTERS, Claim, Line, Script
from benchreckoner.tell.script_outline import chapter_times, fit, outline, total
from benchreckoner.show.spoken import spoken_seconds

__all__ = ["CHAPTERS", "REGISTERS", "Claim", "Line", "Script", "chapter_times", "fit", "outline", "read_script",
           "spoken_seconds", "total"]
