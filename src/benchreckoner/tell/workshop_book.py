"""The workshop pack made from the book: a form for the room, and the pages it wrote."""

from html import escape

from benchreckoner.bench.desk import sheet_path
from benchreckoner.show.words import alert_area, button, card, on_enter, row, status_area, text_box, trouble
from benchreckoner.tell.workshop import SETTINGS_FILE, make_handouts

FOLDER = "workshop"


def make_the_pack():
    """A box for a folder's name and a button: writes the pack beside the sheet on the desk, and says where it lies.

    Returns
    -------
    ipywidgets.VBox
    """
    return _Form().view


class _Form:
    def __init__(self):
        self.box = text_box("Folder beside your sheet", placeholder=f"such as {FOLDER}")
        self.box.value = FOLDER
        on_enter(self.box, self.make)
        self.error, self.answer = alert_area(), status_area()
        self.view = card(row(self.box, button("Make the pack", self.make)), self.error, self.answer)

    def make(self):
        """Write the pack, or say what is in the way; an earlier pack is made again from its settings."""
        self.error.value = self.answer.value = ""
        try:
            index = make_handouts(sheet_path(), sheet_path().parent / _name(self.box.value))
        except (OSError, ValueError) as error:
            self.error.value = trouble(str(error))
            return
        self.answer.value = (f"<p>The pack lies in <strong>{escape(index.parent.name)}</strong>, beside your sheet. Open "
                             f"<strong>{index.name}</strong> in a browser and print from there. For another room, change "
                             f"<strong>{SETTINGS_FILE}</strong> in that folder and make it again.</p>")


def _name(text):
    """One plain folder name: a pack is never put outside the sheet's own folder."""
    name = text.strip()
    if not name or name in (".", "..") or any(sign in name for sign in '/\\:*?"<>|\0'):
        raise ValueError(f'Folder beside your sheet: write one plain name, for example "{FOLDER}"')
    return name
