"""A reading as bounds on the part alone: what test leads, a track's end and a parallel path leave open."""

import math
from dataclasses import dataclass

from benchreckoner.bench.uncertain import Known, one_reading, propagate, within
from benchreckoner.bench.verdict import BAD, DOUBTFUL, NEEDED, SOUND, UNTOLD, Verdict, share_below
from benchreckoner.physics.parallel import parallel_resistance, without_parallel
from benchreckoner.units import Q

MOST_LEADS = 1.0  # ohm: the most that a sound pair of test leads has, common practice
_LEAST_TOLERANCE = 1e-6  # a resistor without any would have no uncertainty to carry


@dataclass(frozen=True)
class Way:
    """How ohms were read: the value without leads that are known, and what may still be in it."""

    reading: Known
    instrument: str
    four_wire: bool
    leads_known: bool
    leads_matter: bool = True

    @property
    def words(self):
        """What to say behind the value."""
        if self.four_wire or not self.leads_matter:
            return ""
        return " without its leads" if self.leads_known else ", leads included"


def read_ohms(sheet, readings, part, quantity, stage, condition):
    """An ohmmeter's reading of a part, without its leads where the sheet says what they have.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings
        Of that sheet.
    part : Part
    quantity, stage, condition : str

    Returns
    -------
    Way or None
        None if there is none.
    """
    known = readings.by_instrument(part.name, quantity, stage, condition)
    if not known:
        return None
    (name, _), reading = min(known.items(), key=lambda one: one[1].number.std_dev)
    instrument, matter = sheet.instruments[name], part.kind != "potentiometer"  # beside a track, leads are nothing
    if instrument.four_wire or instrument.leads is None:
        return Way(reading, name, instrument.four_wire, False, matter)
    leads = one_reading(instrument.leads, quantity="resistance", instrument=instrument)
    return Way(reading - leads, name, False, True, matter)


@dataclass(frozen=True)
class Bounds:
    """The ohms of one part alone, between what was read and what may be in the reading.

    `low` is the reading with everything taken off that may be in it, None if
    that could be all of it. `high` is the reading as it stands, or without its
    leads where they are known. `path` holds the least and the most ohms of
    what lies across the part; None if nothing does. `open_ended`: something
    unknown lies across it, so that it may be anything from the reading up.
    """

    low: Known | None
    high: Known
    path: tuple | None = None
    open_ended: bool = False

    @property
    def in_circuit(self):
        return self.open_ended or self.path is not None

    @property
    def best(self):
        """One value to show and to compare: the part's own where the path is known, else the reading."""
        if self.path is None or self.contradicted or self.highest() is None:
            return self.high
        least, most = self.path
        middle, half = (least + most) / 2, (most - least) / 2
        path = within(Q(middle, "ohm"), max(half / middle, _LEAST_TOLERANCE), "ohm")
        return propagate(lambda reading, parallel: without_parallel(reading=reading, parallel=parallel), "ohm",
                         reading=self.high, parallel=path)

    @property
    def contradicted(self):
        """Whether it reads more than the known path alone, which nothing in parallel can."""
        if self.path is None:
            return False
        least = self.low.plain if self.low is not None else self.high.plain - MOST_LEADS
        return least - self.path[1] > 2 * self.high.number.std_dev

    def lowest(self):
        """The least ohms that about 95 % sureness allows, as a plain number."""
        if self.low is None:
            return 0.0
        read = max(0.0, self.low.plain - 2 * self.low.number.std_dev)
        return _alone(read, self.path[1]) if self.path else read

    def highest(self):
        """The most ohms that about 95 % sureness allows, as a plain number; None if there is no most."""
        if self.open_ended:
            return None
        read = self.high.plain + 2 * self.high.number.std_dev
        most = _alone(read, self.path[0]) if self.path else read
        return None if math.isinf(most) else most

    def below(self, edge):
        """The least probability that the part has at most these ohms."""
        if self.open_ended:
            return 0.0
        return share_below(self._as_read(edge, 0), self.high.plain, self.high.number.std_dev)

    def above(self, edge):
        """The least probability that the part has at least these ohms."""
        if self.low is None:
            return 0.0
        return share_below(-self._as_read(edge, 1), -self.low.plain, self.low.number.std_dev)

    def _as_read(self, edge, end):
        """What a part of these ohms would read: judged there, a swelling error stays what it is."""
        if self.path is None or edge <= 0:
            return edge
        return parallel_resistance(resistances=Q([edge, self.path[end]], "ohm")).m_as("ohm")


def judge_bounds(bounds, band):
    """The verdict that holds wherever in its bounds the part lies, with at least 95 % of the probability.

    Parameters
    ----------
    bounds : Bounds
    band : Band

    Returns
    -------
    Verdict
    """
    sound, bad = band.sound_up_to.m_as("ohm"), band.bad_from.m_as("ohm")
    shares = {SOUND: bounds.below(sound), BAD: bounds.above(bad), DOUBTFUL: bounds.above(sound) + bounds.below(bad) - 1}
    if band.sound_down_to is not None:
        sound_down, bad_down = band.sound_down_to.m_as("ohm"), band.bad_down_from.m_as("ohm")
        shares[SOUND] += bounds.above(sound_down) - 1
        shares[BAD] = max(shares[BAD], bounds.below(bad_down))
        shares[DOUBTFUL] = max(shares[DOUBTFUL], bounds.above(bad_down) + bounds.below(sound_down) - 1)
    word = max(shares, key=shares.get)
    likely = max(0.0, shares[word])
    return Verdict(word if likely >= NEEDED else UNTOLD, likely)


def lifting_would_tell(bounds, band):
    """Whether the part alone, read with the same share of uncertainty, would get a verdict.

    Parameters
    ----------
    bounds : Bounds
        Of a reading in circuit that gives no verdict.
    band : Band

    Returns
    -------
    bool
        True also where the part may be anything, so that only lifting can say.
    """
    if bounds.highest() is None or bounds.contradicted:
        return True
    alone = Known(bounds.high.number * (bounds.best.plain / bounds.high.plain), "ohm")
    return judge_bounds(Bounds(alone, alone), band).word != UNTOLD


def _alone(read, path):
    """Ohms of the part behind a reading, as plain numbers; endless where the path alone would read less."""
    if read <= 0:
        return 0.0
    if read >= path:
        return math.inf
    return float(without_parallel(reading=Q(read, "ohm"), parallel=Q(path, "ohm")).m_as("ohm"))
