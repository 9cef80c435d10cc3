"""One run of a motor on the bench supply: held, without a load, or loaded."""

from dataclasses import dataclass

from benchreckoner.bench.uncertain import Known
from benchreckoner.units import show

HELD, NO_LOAD, LOADED = "held", "no load", "loaded"
KINDS = (HELD, NO_LOAD, LOADED)


@dataclass(frozen=True)
class Run:
    """One steady run straight on the bench supply, or one try with the shaft held still.

    Parameters
    ----------
    kind : str
        ``"held"``, ``"no load"`` (belt off, nothing on the shaft) or ``"loaded"``.
    voltage : Known [V], above zero
        At the motor's own terminals.
    current : Known [A], above zero
    speed : Known [turn/min], above zero, or None
        None where the shaft was held, or where no speed was taken.

    Raises
    ------
    ValueError
        Names what is wrong and says what to write.
    """

    kind: str
    voltage: Known
    current: Known
    speed: Known | None = None

    def __post_init__(self):
        if self.kind not in KINDS:
            raise ValueError(f"kind: write one of {', '.join(KINDS)}, got {self.kind!r}")
        for name, known in (("voltage", self.voltage), ("current", self.current)):
            if not known.plain > 0:
                raise ValueError(f"{name}: must be above zero, got {known.value:~P}; swap the probes or write it without a sign")
            if not known.number.std_dev > 0:
                raise ValueError(f"{name}: is known to within nothing; give the accuracy of the instrument")
        if self.speed is None:
            return
        if self.kind == HELD:
            raise ValueError(f"speed: a held shaft has none, got {self.speed.value:~P}; leave it out")
        if not self.speed.plain > 0:
            raise ValueError(f"speed: must be above zero, got {self.speed.value:~P}; write how fast, whichever way round, "
                             'and "held" for a shaft that stands still')
        if not self.speed.number.std_dev > 0:
            raise ValueError("speed: is known to within nothing; give how far it may be off")

    @property
    def turning(self):
        """Whether it tells volts, current and speed of a turning shaft."""
        return self.kind != HELD and self.speed is not None

    @property
    def shown(self):
        """The run in words."""
        return f"{self.kind} at {show(self.current.value, 'A')}"
