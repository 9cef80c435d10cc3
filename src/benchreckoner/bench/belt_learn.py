"""The first belt teaches: from what a fitted belt was read to do, back to drive and rubber, on to the next belt's current.

`learn` weighs draws of everything unknown by how well each explains the readings, and keeps draws by weight. They re-rank the
bag (`belt_bag.rank_bag` with ``draws=learned.draws``) and `predict` the next current; `score` holds it against its reading.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from benchreckoner.bench.belt_draws import SEED, Draws, draws_of
from benchreckoner.bench.belt_drive import Drive
from benchreckoner.bench.belt_reckon import modulus_draws, reckon
from benchreckoner.bench.reasons import told
from benchreckoner.units import Q, show

COUNT, KEPT = 60_000, 4000
FEW = 100  # effective draws; below it bands are rough: our own choice
_RARE = 0.001  # of both tails together: a reading further out contradicts the model; our own choice
# What the laws leave out, as standard shares. The bending rule alone reads 9 to 29 % high; sliding friction is no constant: our own choice.
_ADDED_SHARE, _START_SHARE = 0.10, 0.10
_SEAT_SHARE = 0.004  # of the speed: a motor seat of 6 mm by calliper to 0.05 mm
_BAND = (0.025, 0.5, 0.975)
_READ = {"current": ("the motor's current", "A"), "speed": ("the wheel's speed", "turn/min"), "start": ("the start", "s")}
SHOWN = {  # what is told of: in which words, times what, and the unit then
    "modulus": ("the fitted belt's modulus", 1e-6, "MPa"), "bearing": ("friction of the motor's bearing", 1, ""),
    "friction": ("friction of belt on pulley", 1, ""), "seat_path": ("path along the seats", 1e3, "mm"),
    "loss_tangent": ("loss in bending, tan δ", 1, ""), "load": ("what the wheel asks", 1e3, "mN·m"),
}


@dataclass(frozen=True, eq=False)
class Learned:
    """What readings have left of the draws.

    ``draws`` drawn by weight, all alike from here on; ``seen`` the readings that were used; ``effective`` how many of the first
    draws carry the weight, as equal ones would; ``stops`` says in words which reading no draw explains, and is empty otherwise;
    ``before`` and ``after`` 2.5 %, 50 % and 97.5 % places of what `SHOWN` names, SI units.
    """

    drive: Drive
    belts: tuple
    draws: Draws
    seen: tuple
    effective: float
    count: int
    stops: str
    before: dict
    after: dict

    @property
    def sureness(self):
        """How much stands behind the bands, in words."""
        left = f"The weight now lies on {self.effective:.0f} out of {self.count} draws."
        return left if self.effective >= FEW else f"{left} That is few: take the bands as rough."


@dataclass(frozen=True)
class Prediction:
    """A current before it is read: middle and ends of the band that holds it in 95 of 100, and its standard deviation, in ampere."""

    belt: str
    low: float
    middle: float
    high: float
    spread: float

    @property
    def words(self):
        return (f"With {self.belt} the motor will draw {_milli(self.low)} to {_milli(self.high)} mA, most likely about "
                f"{_milli(self.middle)} mA: 95 of 100 such bands should hold.")


@dataclass(frozen=True)
class Score:
    """A prediction against its reading: inside its band or not, and how many standard deviations beside its middle."""

    inside: bool
    deviations: float
    words: str


def learn(*, drive, belts, seen, inertia=None, count=COUNT, seed=SEED):
    """Weigh what is believed of drive and belts by what fitted belts were read to do.

    Parameters
    ----------
    drive : Drive
    belts : sequence of Belt
        The bag, the fitted ones among them.
    seen : sequence of Seen
        In the order in which they were fitted.
    inertia : Known [kg*m**2], optional
        Of the wheel; without it a start time says nothing.
    count, seed : int, optional

    Returns
    -------
    Learned

    Notes
    -----
    Importance weights: each draw counts with the product of the normal likelihoods of the readings. A reading whose two tails
    under what was left before it hold less than one in a thousand stops the learning: it is not used, nor any after it.
    Pulls are those of a fresh belt: read within some ten minutes of fitting. To what instruments allow comes what the laws
    leave out: a tenth of the current that the belt adds, a tenth of the start.
    """
    seen, belts = tuple(seen), tuple(belts)
    fitted = seen[0].belt if seen else belts[0]
    draws = draws_of(drive, {one.belt.name: one.belt for one in seen}.values() or (fitted,), count=count, seed=seed)
    hidden = np.random.default_rng([seed, 1]).standard_normal((2, count))
    logs, used, stops = np.zeros(count), [], ""
    for one in seen:
        for name, values, model in _explained(drive, draws, one, inertia, hidden):
            read, weights = getattr(one, name), _normed(logs)
            spread = np.hypot(read.number.std_dev, model)
            if 2 * min(below := float(weights @ ndtr((read.plain - values) / spread)), 1 - below) < _RARE:
                stops = _contradiction(one, name, values, weights)
                break
            logs = logs - ((read.plain - values) / spread) ** 2 / 2 - np.log(spread)
        if stops:
            break
        used.append(one)
    weights = _normed(logs)
    left = draws.taken(_systematic(weights, min(KEPT, count), seed))
    return Learned(drive, belts, left, tuple(used), float(1 / np.sum(weights**2)), count, stops, _bands(draws, fitted), _bands(left, fitted))


def predict(learned, belt, *, noise=None):
    """The current of a belt before it is fitted, as the meter will show it.

    Parameters
    ----------
    learned : Learned
    belt : Belt
    noise : float, optional
        Standard uncertainty of the reading to come [A]; the last reading's, if left out.

    Returns
    -------
    Prediction
    """
    draws = learned.draws.with_belts([belt])
    noise = learned.seen[-1].current.number.std_dev if noise is None else noise
    reckoned = reckon(learned.drive, draws, [belt])
    spread = np.hypot(noise, _ADDED_SHARE * reckoned.added[0])
    shown = reckoned.drawn[0] + spread * np.random.default_rng(SEED).standard_normal(len(spread))
    low, middle, high = np.quantile(shown, _BAND)
    return Prediction(belt.name, float(low), float(middle), float(high), float(np.std(shown)))


def score(prediction, current):
    """Hold a prediction against the reading when it comes.

    Parameters
    ----------
    prediction : Prediction
        With the meter's own uncertainty in it.
    current : Known [A]

    Returns
    -------
    Score
    """
    inside = prediction.low <= current.plain <= prediction.high
    beside = (current.plain - prediction.middle) / prediction.spread
    way = "above" if beside > 0 else "below"
    words = (f"Predicted {_milli(prediction.low)} to {_milli(prediction.high)} mA, read {told(current)}: {'inside' if inside else 'outside'} the band of "
             f"95 %, {abs(beside):.1f} standard deviations {way} its middle.")
    return Score(inside, beside, words if inside else f"{words} One in twenty should be; check the reading first, then what the model leaves out.")


def start_times(drive, draws, belt, inertia):
    """Time to speed while the belt slips, draw by draw; endless where it cannot pull the load. The law is `belt_start.start_time`.

    Parameters
    ----------
    drive : Drive
    draws : Draws
    belt : Belt
    inertia : array [kg*m**2]

    Returns
    -------
    array [s]
    """
    tension = reckon(drive, draws, [belt]).tension[0]
    pull = 2 * tension * np.tanh(draws.friction * drive.motor_wrap.m_as("rad") / 2)
    spare = pull * (drive.wheel_seat.m_as("m") / 2 + draws.own[belt.name].thickness / 2) - draws.load
    return np.where(spare > 0, inertia * drive.wheel_speed.m_as("rad/s") / np.where(spare > 0, spare, 1.0), np.inf)


def _explained(drive, draws, one, inertia, hidden):
    """For each reading of one belt: what every draw says it should be, and the spread that the laws themselves have."""
    reckoned = reckon(drive, draws, [one.belt])
    yield "current", reckoned.drawn[0], _ADDED_SHARE * reckoned.added[0]
    if one.speed is not None:
        wanted = drive.wheel_speed.m_as("turn/min")
        yield "speed", wanted * (1 + reckoned.speed[0]) * (1 + _SEAT_SHARE * hidden[0]), 0.0
    if one.start is not None and inertia is not None:
        turned = np.maximum(inertia.plain + inertia.number.std_dev * hidden[1], 0.1 * inertia.plain)
        times = start_times(drive, draws, one.belt, turned)
        yield "start", times, _START_SHARE * np.minimum(times, one.start.plain * 10)


def _contradiction(one, name, values, weights):
    words, unit = _READ[name]
    order = np.argsort(values)
    low, high = (values[order][min(np.searchsorted(np.cumsum(weights[order]), edge), len(values) - 1)] for edge in (_BAND[0], _BAND[2]))
    read = getattr(one, name)
    return (f"The model stops here: {words} with {one.belt.name} read {told(read)}, where everything believed so far gives "
            f"{_shown(low, unit)} to {_shown(high, unit)}. No draw explains it, so nothing is learned from it. Check the reading, then what the "
            "model leaves out: a belt that rubs or lies beside its seat, a dry bearing, a brake, another motor speed.")


def _bands(draws, fitted):
    values = {"modulus": modulus_draws(fitted, draws.own[fitted.name], draws.common)}
    return {name: tuple(float(edge) for edge in np.quantile(values.get(name, getattr(draws, name, None)), _BAND)) for name in SHOWN}


def _normed(logs):
    weights = np.exp(logs - logs.max())
    return weights / weights.sum()


def _systematic(weights, kept, seed):
    """Indices by weight, evenly spaced from one random start: steadier than chance alone."""
    places = (np.arange(kept) + np.random.default_rng([seed, 2]).random()) / kept
    return np.minimum(np.searchsorted(np.cumsum(weights), places), len(weights) - 1)


def _milli(ampere):
    return f"{1000 * ampere:.1f}"


def _shown(value, unit):
    return "no end" if not np.isfinite(value) else show(Q(float(value), unit), unit, digits=3)
