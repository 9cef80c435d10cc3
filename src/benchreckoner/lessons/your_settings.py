"""The reader's own trimmers and controls: where each stands, written into the sheet before it is turned."""

from html import escape

from benchreckoner.lessons.your_bench import SheetWriter, my_sheet
from benchreckoner.show.form import Field


def settings_form():
    """A form that writes where a trimmer or a control stands into the sheet on the desk.

    Returns
    -------
    EntryForm
    """
    return _Settings().form


class _Settings(SheetWriter):
    """The form for settings; it answers with each one's way back."""

    table, value = "setting", "place"

    def __init__(self):
        self.fields = (
            Field("part", "Part it belongs to", "choice", lambda: tuple(my_sheet().parts), placeholder="choose", required=True),
            Field("what", "Which one", placeholder="such as speed trimmer", required=True),
            Field("place", "Where it stands", placeholder="such as slot at two o'clock", required=True),
            Field("stage", "Stage", "choice", lambda: tuple(reversed(my_sheet().stages)), required=True),
            Field("photo", "Photograph, if there is one", placeholder="such as trimmer.jpg"),
        )
        super().__init__()

    def save(self, entries):
        """Write one setting."""
        change = self.write(entries)
        return f"Saved in {escape(change.path.name)}: {escape(self.told(change.sheet))}."

    def told(self, sheet):
        """The sheet's last setting, in words."""
        one = sheet.settings[-1]
        return f"{one.what} of {one.part}, {one.stage}: {one.place}"

    def answer(self):
        """Every trimmer with the places it has stood at, the first one first."""
        lines = "".join(f"<li><strong>{escape(stood[0].what)}, {escape(stood[0].part)}:</strong> "
                        f"{escape('; then '.join(f'{one.place} ({one.stage})' for one in stood))}</li>" for stood in my_sheet().stood)
        return f"<p>The way back, as the record will print it:</p><ul>{lines}</ul>" if lines else "<p>No setting is written down yet.</p>"
