"""What a script is made of: lines, what each says in two registers, and the readings behind its figures."""

from dataclasses import dataclass, field, replace

CHAPTERS = ("What was wrong", "How we know", "What we did", "What changed", "What we can’t be sure of")
REGISTERS = ("camera", "room")


@dataclass(frozen=True)
class Claim:
    """A figure that is said, and the judgement or comparison it came from."""

    text: str
    part: str
    quantity: str
    stage: str
    condition: str


@dataclass(frozen=True)
class Line:
    """One idea, in two registers: ``camera`` for one viewer, ``room`` for people who can try it.

    ``id`` stays the same as long as the sheet speaks of the same thing. ``shot`` says what to show, ``caution`` what to
    show or read out before it, empty where there is none. Of two lines, the one of less ``weight`` is dropped first.
    """

    id: str
    chapter: str
    say: dict[str, str]
    claims: tuple[Claim, ...] = ()
    shot: str = ""
    caution: str = ""
    weight: int = 50
    use: bool = True


@dataclass(frozen=True)
class Script:
    """A script as its author left it.

    ``marks`` holds, by a line's id, what its author should look at; ``newer`` the words that the readings give now,
    by register, for a line that its author wrote differently before they changed. ``film`` says what the author's lamps and camera will show.
    """

    machine: str
    lines: tuple[Line, ...]
    words_per_minute: float
    target: float | None = None  # s
    marks: dict[str, tuple[str, ...]] = field(default_factory=dict)
    newer: dict[str, dict[str, str]] = field(default_factory=dict)
    film: tuple[str, ...] = ()

    @property
    def used(self):
        """The lines that are said, in order; the caution of a line that is not said stands before the next one."""
        said, waiting = [], []
        for line in self.lines:
            waiting += [words for words in line.caution.splitlines() if words not in waiting]
            if line.use:
                said.append(replace(line, caution="\n".join(waiting)))
                waiting = []
        return tuple(said)

    @property
    def dropped(self):
        """The lines that are in the file and not said."""
        return tuple(line for line in self.lines if not line.use)
