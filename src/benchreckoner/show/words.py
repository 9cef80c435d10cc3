"""What the teaching widgets share: labelled boxes, answers read and shown, marked sentences."""

import asyncio
import functools
import math
import re
import time
from html import escape
from importlib.resources import files

import anywidget
import ipywidgets

from benchreckoner import units

_PLAIN_NUMBER = re.compile(r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,2})?")
_ENTER_SETTLES = 0.1  # s
_DOUBLE_CLICK = 0.3  # s
_TOO_LARGE = 1e18


class _Manners(anywidget.AnyWidget):
    """Nothing to see: it brings the script and the style that every card needs."""

    _esm = files("benchreckoner.show").joinpath("card.js").read_text(encoding="utf-8")
    _css = files("benchreckoner.show").joinpath("card.css").read_text(encoding="utf-8")


@functools.cache
def _manners():
    """One for all cards of a kernel: a book of a hundred cards need not send it a hundred times."""
    return _Manners(layout={"display": "none"})


def card(*parts):
    """Stack the parts of one teaching widget."""
    box = ipywidgets.VBox([_manners(), *parts],
                          layout={"padding": "6px 8px", "margin": "4px 0", "overflow": "visible",
                                  "border_left": "3px solid #888"})
    box.add_class("reckoner")
    return box


# Round a wide table: it scrolls by itself, and leaves the lines above and below it as narrow as the page.
SCROLLS = "overflow-x: auto; width: 0; min-width: 100%"


def words_table(rows):
    """A table whose cells are words: each begins at its left, and it scrolls by itself where the page is narrow.

    Parameters
    ----------
    rows : str
        Its rows and caption (simple HTML).

    Returns
    -------
    str
    """
    return f'<div style="{SCROLLS}"><table class="reckoner-words">{rows}</table></div>'


def row(*parts):
    """Stand parts side by side where there is room, under each other where there is none."""
    return ipywidgets.Box(parts, layout={"display": "flex", "flex_flow": "row wrap", "overflow": "visible",
                                         "align_items": "flex-end"})


def above(kind, label, *, widest="18em", **settings):
    """Make a box of the given kind with its label above it, to stand in a `row`."""
    layout = {"flex": "1 1 11em", "flex_flow": "column", "align_items": "stretch", "height": "auto",
              "width": "auto", "max_width": widest, "overflow": "visible"}
    made = kind(description=label, style={"description_width": "auto"}, layout=layout, **settings)
    made.add_class("reckoner-above")
    return made


def text_box(label, *, placeholder=""):
    """Make a one-line box that hands its text over when it is left or Enter is pressed."""
    return above(ipywidgets.Text, label, placeholder=placeholder, continuous_update=False)


def button(label, action):
    """Make a button as wide as its words."""
    made = ipywidgets.Button(description=label, layout={"width": "auto"})
    act = _once(action)
    made.on_click(lambda _: act())
    return made


def on_enter(box, action):
    """Call `action` when Enter is pressed in a one-line box."""
    act = _once(action, new_text=lambda: box.value)

    def heard(_, content, __):
        if content.get("event") != "submit":
            return
        # The browser sends Enter first and the text it closes right after it.
        try:
            asyncio.get_running_loop().call_later(_ENTER_SETTLES, act)
        except RuntimeError:
            act()

    box.on_msg(heard)


def _once(action, new_text=lambda: ""):
    """The action, deaf to the second half of a double click or a bouncing key, but never to a new text."""
    ended, heard = -math.inf, ""

    def act():
        nonlocal ended, heard
        text = new_text()
        if time.monotonic() - ended >= _DOUBLE_CLICK or text not in ("", heard):
            action()
            ended, heard = time.monotonic(), text

    return act


def status_area():
    """Make a place for answers, which a screen reader speaks when it changes."""
    area = ipywidgets.HTML()
    area.add_class("reckoner-status")
    return area


def alert_area():
    """Make a place for errors, which a screen reader speaks at once."""
    area = ipywidgets.HTML()
    area.add_class("reckoner-alert")
    return area


def trouble(message):
    """Mark up an error given as plain text."""
    return f"<strong>✗ Not yet:</strong> {escape(message)}" if message else ""


def caution(message):
    """Mark up a note on the store given as plain text."""
    return f"<strong>Take care:</strong> {escape(message)}" if message else ""


def visible(widget, shown):
    """Show a widget or take it out of the flow, without making it anew."""
    widget.layout.display = None if shown else "none"


def read_answer(text, unit, name):
    """Read what the reader typed as a plain number in `unit`.

    Parameters
    ----------
    text : str
    unit : str
        As `units.read_quantity` takes it; ``""`` for a ratio, ``"%"`` for per cent.
    name : str
        What to call the entry in an error.

    Returns
    -------
    float

    Raises
    ------
    ValueError
        Names the entry, says what is wrong and shows what to write.
    """
    if not text.strip():
        raise ValueError(f'{name}: nothing written yet, write for example "{example(unit)}"')
    if unit == "%":
        return 100 * units.read_percent(text, name)
    if unit:
        return float(units.read_quantity(text, unit, name).quantity.m_as(unit))
    plain = text.strip().replace("−", "-").lower().removesuffix("times").removesuffix("×").strip()
    if not _PLAIN_NUMBER.fullmatch(plain) or not abs(float(plain.replace(",", "."))) < _TOO_LARGE:
        raise ValueError(f'{name}: cannot read "{text}" as a plain number, write for example "{example(unit)}"')
    return float(plain.replace(",", "."))


def example(unit):
    """An entry of the right form for `unit`."""
    return f"1.5 {unit}".strip()


def magnitude(quantity, unit):
    """The plain number of a quantity in `unit`, per cent and ratios included."""
    return float(quantity.m_as({"%": "percent", "": "dimensionless"}.get(unit, unit)))


def show_number(value, unit):
    """Show a plain number of `unit` to three digits.

    >>> show_number(0.184, "V"), show_number(7.5, "%"), show_number(2.0, "")
    ('184 mV', '7.50 %', '2.00')
    """
    if unit not in ("", "%"):
        return units.show(units.Q(value, unit), unit)
    size = math.floor(math.log10(abs(value))) if value else 0
    return f"{value:.{max(0, 2 - size)}f} {unit}".strip().replace("-", "−")
