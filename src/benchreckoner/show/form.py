"""The entry form: labelled boxes, Save, Take back, and the answer below."""

from collections.abc import Callable
from dataclasses import dataclass

import ipywidgets

from benchreckoner.show.words import above, alert_area, button, card, on_enter, row, status_area, text_box, trouble


@dataclass(frozen=True)
class Field:
    """One box of a form.

    ``kind`` is ``"choice"`` (one of the options), ``"combo"`` (an option or anything typed) or
    ``"text"``. ``options`` may be a callable; it is asked again after each save. All plain text.
    """

    name: str
    label: str
    kind: str = "text"
    options: tuple[str, ...] | Callable[[], tuple[str, ...]] = ()
    placeholder: str = ""
    required: bool = False

    def __post_init__(self):
        if self.kind not in ("choice", "combo", "text"):
            raise ValueError(f'{self.name}: the kind {self.kind!r} does not exist, write "choice", "combo" or "text"')

    def now(self):
        """The options as they stand."""
        return tuple(self.options() if callable(self.options) else self.options)


class EntryForm(ipywidgets.VBox):
    """A form that saves one entry after another.

    Parameters
    ----------
    fields : sequence of Field
    value : str
        The name of the field that is cleared after a save and takes the focus; Enter in it saves.
    on_save : callable
        Takes a dict of name to text, as typed and stripped; hands back what to say, as
        HTML-safe text. A ValueError is shown and the entries stay.
    on_undo : callable
        Takes back the last entry and hands back what to say, as HTML-safe text, or raises ValueError.
    answer : callable
        The judgement as it stands, as HTML made from escaped parts.

    Notes
    -----
    `boxes` holds the box of each field by name.
    """

    def __init__(self, fields, *, value, on_save, on_undo, answer):
        self.fields, self.value_name = tuple(fields), value
        self.on_save, self.on_undo, self.judge = on_save, on_undo, answer
        self.boxes = {field.name: _box(field) for field in self.fields}
        on_enter(self.boxes[value], self.save)
        self.error, self.said, self.answered = alert_area(), status_area(), status_area()
        self.card = card(row(*self.boxes.values()),
                         row(button("Save", self.save), button("Take back", self.undo)),
                         self.error, self.said, self.answered)
        super().__init__([self.card], layout={"overflow": "visible"})
        self.show_answer()

    def save(self):
        """Hand the entries over; only a save that went well clears the value."""
        try:
            entries = self.entries()
            said = self.on_save(entries)
        except (ValueError, OSError) as error:
            self.complain(error)
            return
        self.boxes[self.value_name].value = ""
        self.settle(said)
        self.boxes[self.value_name].focus()

    def undo(self):
        """Take the last entry back."""
        try:
            said = self.on_undo()
        except (ValueError, OSError) as error:
            self.complain(error)
            return
        self.settle(said)

    def entries(self):
        """What stands in the boxes, stripped; raises ValueError where a required one is empty."""
        texts = {name: (box.value or "").strip() for name, box in self.boxes.items()}
        for field in self.fields:
            if field.required and not texts[field.name]:
                raise ValueError(f"{field.label}: nothing there yet, {_wanted(field)}")
        return texts

    def settle(self, said):
        """Tell what happened, renew the options, judge anew."""
        self.error.value = ""
        self.said.value = f"<p>✓ {said}</p>"
        for field in self.fields:
            if callable(field.options):
                _renew(self.boxes[field.name], field)
        self.show_answer()

    def complain(self, error):
        """Say what is wrong beside the form; the entries stay."""
        self.error.value, self.said.value = trouble(str(error)), ""

    def show_answer(self):
        """Put the judgement as it stands below the form."""
        try:
            self.answered.value = self.judge()
        except (ValueError, OSError) as error:
            self.answered.value = trouble(str(error))


def _box(field):
    if field.kind == "choice":
        return above(ipywidgets.Dropdown, field.label, options=_choices(field))
    if field.kind == "combo":
        return above(ipywidgets.Combobox, field.label, options=field.now(), placeholder=field.placeholder,
                     continuous_update=False)
    return text_box(field.label, placeholder=field.placeholder)


def _choices(field):
    first = [(field.placeholder, "")] if field.placeholder else []
    return first + [(option, option) for option in field.now()]


def _renew(box, field):
    """New options, the same one chosen where it still exists."""
    if field.kind == "combo":
        box.options = field.now()
        return
    chosen, choices = box.value, _choices(field)
    if list(box.options) != choices:
        box.options = choices
        if chosen in (value for _, value in choices):
            box.value = chosen


def _wanted(field):
    if field.kind == "choice":
        return "choose one"
    return f'write for example "{field.placeholder.removeprefix("such as ")}"' if field.placeholder else "write it"
