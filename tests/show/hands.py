"""A reader's hands for the tests of the teaching widgets."""

import ipywidgets
from ipywidgets.widgets.widget import CallbackDispatcher as Dispatcher


def call_and_raise(dispatcher, *given, **named):
    """What the dispatcher does, but with errors raised instead of logged."""
    for callback in dispatcher.callbacks:
        callback(*given, **named)


def everything(widget):
    """The widget and all that stands in it, in order."""
    yield widget
    for child in getattr(widget, "children", ()):
        yield from everything(child)


def seen(widget):
    """The same, without what is hidden."""
    if widget.layout.display == "none":
        return
    yield widget
    for child in getattr(widget, "children", ()):
        yield from seen(child)


def find(widget, label):
    """The one visible box or button with this label."""
    found = [part for part in seen(widget) if getattr(part, "description", "") == label]
    assert len(found) == 1, (label, labels(widget))
    return found[0]


def labels(widget):
    return [part.description for part in seen(widget) if getattr(part, "description", "")]


def radio(widget):
    return next(part for part in seen(widget) if isinstance(part, ipywidgets.RadioButtons))


def write(widget, label, text):
    find(widget, label).value = text


def press(widget, label):
    find(widget, label).click()


def enter(widget, label):
    """Press Enter in a box, as the browser tells it."""
    find(widget, label)._handle_custom_msg({"event": "submit"}, [])


def text(widget):
    """All visible HTML."""
    return "\n".join(part.value for part in seen(widget) if isinstance(part, ipywidgets.HTML))
