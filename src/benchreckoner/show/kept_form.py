"""A small form that answers in sentences, and brings back what was last typed in it."""

from html import escape

import ipywidgets

from benchreckoner.show import store
from benchreckoner.show.words import alert_area, button, card, caution, on_enter, row, status_area, trouble


class KeptForm:
    """The boxes, what was last typed in them, and the answer; nonsense changes nothing.

    Parameters
    ----------
    boxes : dict of str to widget
        By the names under which their texts are read and kept.
    parts : iterable of widget
        What stands above the button, the boxes among it.
    ask : str
        The button's words.
    said_of : callable
        From the texts, by the boxes' names, to sentences of plain text; its ValueError or OSError is told.
    path : callable
        Gives the store that the texts are kept in, or None.
    group, key : str
        Their place in it.
    first : dict of str to str, optional
        What to propose where nothing was typed yet.
    """

    def __init__(self, boxes, parts, *, ask, said_of, path, group, key, first=None):
        self.boxes, self._said_of, self._path, self._place = boxes, said_of, path, {"group": group, "key": key}
        for box in boxes.values():
            if isinstance(box, ipywidgets.Text):
                on_enter(box, self.answer_now)
        self.error, self.said, self.note = alert_area(), status_area(), alert_area()
        self.card = card(*parts, row(button(ask, self.answer_now)), self.error, self.said, self.note)
        earlier, note = store.kept(path(), **self._place)
        self.note.value = caution(note)
        for name, text in {**(first or {}), **(earlier[-1] if earlier else {})}.items():
            box = boxes.get(name)
            if box is not None and str(text) in _choices(box, str(text)):
                box.value = str(text)

    def answer_now(self):
        """Read the boxes, answer, and keep what was typed."""
        texts = {name: (box.value or "").strip() for name, box in self.boxes.items()}
        try:
            sentences = self._said_of(texts)
        except (ValueError, OSError) as error:
            self.error.value, self.said.value = trouble(str(error)), ""
            return
        self.error.value = ""
        self.said.value = "".join(f"<p>{escape(sentence)}</p>" for sentence in sentences)
        self.note.value = caution(store.keep(self._path(), texts, **self._place))


def _choices(box, text):
    """What a box can hold: of one to type in, anything."""
    return [one[1] if isinstance(one, tuple) else one for one in getattr(box, "options", (text,))]
