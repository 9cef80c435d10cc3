"""A counter: a few buttons, each with a key, above a picture that follows the tally."""

from dataclasses import asdict, dataclass
from importlib.resources import files

import anywidget
import traitlets

from benchreckoner.show.live import frame, outline, scene


@dataclass(frozen=True)
class Key:
    """One button: the letter that presses it, its name for the program, its label."""

    letter: str
    name: str
    label: str


class Counter(anywidget.AnyWidget):
    """Buttons that count, and what the count says.

    Parameters
    ----------
    keys : sequence of Key
    label : str
        What is counted, for those who do not see it.
    on_press : callable
        Takes a key's name, does and saves what it means, hands back what to say, as plain text.
        A ValueError or OSError is told, and nothing counts.
    numbers : callable
        The number beside each label, as text, by key's name; a key may have none.
    picture : callable
        The picture as it stands. Its axes may change; a new backdrop is then drawn.

    Notes
    -----
    The counter keeps no tally of its own. It belongs in a `words.card`, whose
    manners keep its keys from the notebook.
    """

    _esm = "\n".join(files(__package__).joinpath(name).read_text(encoding="utf-8") for name in ("stage.js", "counter.js"))
    _css = "\n".join(files(__package__).joinpath(name).read_text(encoding="utf-8") for name in ("live.css", "counter.css"))
    buttons = traitlets.List(traitlets.Dict()).tag(sync=True)
    label = traitlets.Unicode().tag(sync=True)
    frame = traitlets.Dict().tag(sync=True)
    state = traitlets.Dict().tag(sync=True)

    def __init__(self, keys, *, label, on_press, numbers, picture):
        letters = [key.letter for key in keys]
        if len(set(letters)) != len(letters) or not all(len(letter) == 1 and letter.islower() for letter in letters):
            raise ValueError(f'counter {label!r}: each key needs a small letter of its own, such as "c", got {letters}')
        self.act, self.numbers, self.drawn, self._outline = on_press, numbers, picture, None
        super().__init__(buttons=[asdict(key) for key in keys], label=label)
        self.refresh()
        self.on_msg(self._told)

    def press(self, name):
        """Do what a key does, and show what came of it."""
        try:
            said = self.act(name)
        except (ValueError, OSError) as error:
            self.refresh(trouble=f"✗ Not done: {error}")
            return
        self.refresh(said=said)

    def refresh(self, *, said="", trouble=""):
        """Show the tally as it stands now."""
        picture = self.drawn()
        with self.hold_sync():
            if outline(picture) != self._outline:
                self._outline = outline(picture)
                self.frame = {**frame(picture), "key": "counter", "goal": "", "keep": False, "sliders": []}
            drawn = scene(picture)
            self.state = {**drawn, "marks": drawn.pop("numbers"), "numbers": self.numbers(), "said": said, "trouble": trouble}

    def _told(self, _, content, buffers):
        if content.get("press") in [key["name"] for key in self.buttons]:
            self.press(content["press"])

    def _repr_mimebundle_(self, **options):
        bundle, notes = super()._repr_mimebundle_(**options)
        return {**bundle, "text/plain": f"{self.label}\n{self.drawn().sentence}"}, notes
