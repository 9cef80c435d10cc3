"""Book 04, the first belt teaches: how one reading narrows the band of the next belt, and what the sheet's belts have taught."""

import functools
from dataclasses import dataclass
from html import escape

import numpy as np
from IPython.display import HTML
from scipy.special import ndtr

from benchreckoner import project
from benchreckoner.bench.belt_bag import rank_bag
from benchreckoner.bench.belt_draws import draws_of
from benchreckoner.bench.belt_learn import SHOWN, learn, predict, score
from benchreckoner.bench.belt_reckon import reckon
from benchreckoner.bench.belt_sheet import bag_of, drive_of, inertia_of, seen_of
from benchreckoner.bench.belt_drive import Drive
from benchreckoner.bench.reasons import told
from benchreckoner.bench.uncertain import Known
from benchreckoner.lessons.belt_example import BELTS, DRIVE
from benchreckoner.lessons.choose_belt import of_hundred
from benchreckoner.lessons.your_bench import my_guesses, opening, own_or_demo
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import show_known

EXAMPLE = project.CASES / "tape_player.toml"
_FIRST, _NEXT = (next(belt for belt in BELTS if belt.name == name) for name in ("belt a", "belt d"))
_COUNT = 20_000
_EDGES = np.linspace(26, 50, 121)  # mA
_MIDDLES = (_EDGES[1:] + _EDGES[:-1]) / 2
_SMOOTH = np.exp(-0.5 * (np.arange(-6, 7) / 2) ** 2)  # 0.4 mA
_RARE, _FEW = 0.001, 30
_ENDS = (0.025, 0.975)


def next_picture(*, reading, good_to):
    """What one reading with the first belt says of the next belt's current.

    Parameters
    ----------
    reading : Quantity [A]
        The motor's current with belt a.
    good_to : Quantity [A]
        Its expanded uncertainty, k = 2.

    Returns
    -------
    Picture
        Where no draw explains the reading, nothing is left to draw after it.
    """
    first, following = _currents()
    read, spread = reading.m_as("mA"), good_to.m_as("mA") / 2
    beside = (read - first) / spread
    below = float(ndtr(beside).mean())
    weights = np.exp(-0.5 * (beside**2 - np.min(beside**2)))
    weights = weights / weights.sum()
    left = 1 / np.sum(weights**2)
    before = _band(np.full(len(following), 1 / len(following)))
    stops = 2 * min(below, 1 - below) < _RARE or left < _FEW
    low, high = (np.nan, np.nan) if stops else _band(weights)
    first_words = f"Belt a: {show_known(reading, good_to, 'A')}."
    if stops:
        said = (f"{first_words} The model stops here: hardly any of {_COUNT} draws gives that. Check the reading, and whether the belt rubs or the "
                "bearing is dry.")
    else:
        said = (f"{first_words} Belt d will then draw {low:.1f} to {high:.1f} mA; before the reading it was {before[0]:.1f} to {before[1]:.1f} mA. "
                f"The weight lies on {left:.0f} of {_COUNT} draws.")
    after = ("and none after it" if stops else
             f"and {'a narrower' if high - low < 0.9 * (before[1] - before[0]) else 'another'} one after it")
    return Picture(
        title="What belt a tells of belt d",
        x=Axis("motor's current with belt d", "mA", 28, 48), y=Axis("belief for each milliampere", "percent", 0, 70, symbol="%"),
        curves=(Curve("before the reading", _MIDDLES, _density(None), "faint"),
                Curve("after it", _MIDDLES, np.full(len(_MIDDLES), np.nan) if stops else _density(weights), "heavy")),
        limits=(Limit("low end", "x", low), Limit("high end", "x", high)),
        sentence=said, alt=f"A flat hill of belief over the current of belt d before the reading, {after}. {said}")


@functools.cache
def _currents():
    """Currents of the first and the next belt, draw by draw, in mA."""
    drawn = reckon(DRIVE, draws_of(DRIVE, (_FIRST, _NEXT), count=_COUNT), (_FIRST, _NEXT)).drawn
    return 1e3 * drawn[0], 1e3 * drawn[1]


@functools.cache
def _rising():
    """The next belt's currents from low to high: their order, themselves, and how many lie below each edge."""
    order = np.argsort(_currents()[1])
    rising = _currents()[1][order]
    return order, rising, np.append(np.searchsorted(rising, _EDGES[:-1], "left"), np.searchsorted(rising, _EDGES[-1], "right"))


def _density(weights):
    order, _, below = _rising()
    counts = np.diff(below) / _COUNT if weights is None else np.diff(np.append(0, np.cumsum(weights[order]))[below])
    return 100 * np.convolve(counts, _SMOOTH / _SMOOTH.sum(), mode="same") / (_EDGES[1] - _EDGES[0])


def _band(weights):
    order, rising, _ = _rising()
    below = np.cumsum(weights[order])
    return tuple(float(np.interp(edge, below, rising)) for edge in _ENDS)


NEXT = LivePicture(
    key="belt-next-current", picture=next_picture,
    sliders=(Slider("reading", "the motor's current with belt a", "A", ladder(0.029, 0.042, 53), start=0.033),
             Slider("good_to", "the reading is good to ± (k = 2)", "A", ladder(0.0002, 0.006, 12, "log"), start=0.0002)),
    goal="Find a reading after which belt d will surely draw less than 35 mA. Then make the meter worse: from which ± on does that reading teach "
         "next to nothing?",
    phone_sliders=("reading", "good_to"))


def guess_what_it_tells():
    """Guess first: what the current of the first belt says; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="belt-first-tells",
        question="The first belt from a bag is fitted, and the motor's current read, belt off and belt on. What do you know then about the "
                 "<em>next</em> belt from that bag?",
        choices=(
            Choice("Nothing: another belt, other rubber.",
                   "The motor, its bearing, the path and the load stay the same, and belts out of one bag mostly come from one kind of rubber."),
            Choice("All: the current gives the rubber's stiffness, and with it every other belt.",
                   "One number cannot part stiff rubber from a dry bearing or from rubber that loses much in bending. All three raise the current."),
            Choice("How well it will grip.",
                   "The current has hardly any grip in it. The <em>start</em> has: a heavy wheel comes up as fast as the belt can pull without slipping."),
            Choice("Its current within a narrower band than before, but still a band.", "", right=True),
        ),
        explanation="<p>A reading strikes out whatever does not agree with it. What is left agrees, and that is more than one truth.</p>"),
        reveal=opening(NEXT), store=my_guesses())


def taught():
    """What the fitted belts of the sheet have taught, step by step; the invented tape player's, where the sheet says too little."""
    fitted, words = _fitted()
    return HTML(words + _taught_html(fitted))


@dataclass(frozen=True)
class Fitted:
    """The drive of a sheet, the bag, and what each fitted belt was read to do."""

    drive: Drive
    belts: tuple
    seen: tuple
    inertia: Known | None


def fitted_of(sheet):
    """What a sheet says of belts that were fitted and read.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    Fitted

    Raises
    ------
    ValueError
        Says what is missing.
    """
    belts = bag_of(sheet)
    drive, seen = (drive_of(sheet), seen_of(sheet)) if belts else (None, ())
    if not seen:
        raise ValueError("No belt of a bag was fitted and read yet.")
    return Fitted(drive, belts, seen, inertia_of(sheet))


def _fitted():
    return own_or_demo(fitted_of, demo=EXAMPLE, lacks="says too little of belts yet")


def _taught_html(fitted):
    """Each fitted belt in turn: the bag before, the prediction, its score, what was learned; then the next prediction."""
    drive, belts, seen, inertia = fitted.drive, fitted.belts, fitted.seen, fitted.inertia
    parts, known = [_ranked_html("The bag before any belt was fitted", rank_bag(drive=drive, belts=belts))], learn(drive=drive, belts=belts, seen=())
    for place, one in enumerate(seen):
        expected = predict(known, one.belt, noise=one.current.number.std_dev)
        parts.append(f"<p><strong>{escape(one.stage)}.</strong> {escape(score(expected, one.current).words)}"
                     f"{' Nothing had been fitted before.' if place == 0 else ''}</p>")
        known = learn(drive=drive, belts=belts, seen=seen[:place + 1], inertia=inertia)
        if known.stops:
            return "".join(parts) + f"<p>{escape(known.stops)}</p>"
        parts += [f"<p>{escape(_read_words(one))} {escape(known.sureness)}</p>", narrowed_html(known),
                  _ranked_html(f"The bag after {one.belt.name}", rank_bag(drive=drive, belts=belts, draws=known.draws))]
    return "".join(parts) + _next_html(rank_bag(drive=drive, belts=belts, draws=known.draws), known, {one.belt.name for one in seen})


def _next_html(bag, known, fitted):
    """The likeliest belt not fitted yet, with its current beforehand; or that one of those fitted stands better than all of them."""
    tried = max((bag.of(name) for name in fitted), key=lambda one: one.probability)
    rest = [one for one in bag.ranked if not one.refused and one.belt.name not in fitted]
    if rest and rest[0].probability > tried.probability:
        return f"<p><strong>Next, if another is tried.</strong> {escape(predict(known, rest[0].belt).words)}</p>"
    others = f" The best of those not tried, {rest[0].belt.name}, does in {of_hundred(100 * rest[0].probability)}." if rest else ""
    return (f"<p><strong>Keep {escape(tried.belt.name)}.</strong> {escape(f'It fits in {of_hundred(100 * tried.probability)} of 100 draws.{others}')} "
            "What is not sure yet, the years will show: read the current again after a month.</p>")


def narrowed_html(known):
    """What the readings have narrowed, as a table.

    Parameters
    ----------
    known : Learned

    Returns
    -------
    str
    """
    rows = "".join(f"<tr><td>{escape(SHOWN[name][0])}</td><td>{_span(known.before[name], *SHOWN[name][1:])}</td>"
                   f"<td>{_span(known.after[name], *SHOWN[name][1:])}</td></tr>" for name in SHOWN)
    return f"<table><tr><th>what</th><th>believed before</th><th>after</th></tr>{rows}</table>"


def our_sentences(fitted):
    """Two sentences on what the sheet's first belt taught.

    Parameters
    ----------
    fitted : Fitted

    Returns
    -------
    str
    """
    drive, belts, seen = fitted.drive, fitted.belts, fitted.seen
    known = learn(drive=drive, belts=belts, seen=seen[:1], inertia=fitted.inertia)
    if known.stops:
        return (f"I read {told(seen[0].current)} with {seen[0].belt.name}, and nothing that I believe of this drive explains it. So I learn nothing from "
                "it yet, and look first for what rubs or drags.")
    best = rank_bag(drive=drive, belts=belts, draws=known.draws).ranked[0]
    scored = (f" I predicted {seen[1].belt.name} before I fitted it: {_inner(score(predict(known, seen[1].belt), seen[1].current).words)}"
              if len(seen) > 1 else "")
    return (f"I read {told(seen[0].current)} with {seen[0].belt.name}, and after that {best.belt.name} sits in the good window in about "
            f"{round(100 * best.probability)} of 100 draws.{scored} Whether the rubber is stiff or the bearing drags I do not know yet.")


def say_what_it_taught():
    """Say it: two sentences on what the first belt taught."""
    fitted, _ = _fitted()
    first = fitted.seen[0]
    return say_it("belt-first-taught", "Tell a friend in two sentences what the first belt taught. Say what it is, how you know, how sure you are, "
                  "and what you do not know.", ours=lambda: our_sentences(fitted),
                  checks=SayChecks(what=(first.belt.name, "belt"), quantities=((first.current.value, "A"),), known=("reckoned", "predicted", "draws")),
                  store=my_guesses())


def _read_words(one):
    told_of = [f"{told(one.current)}"]
    told_of += [] if one.speed is None else [f"the wheel at {told(one.speed)}"]
    told_of += [] if one.start is None else [f"up to speed in {told(one.start)}"]
    return f"Read with {one.belt.name}: {', '.join(told_of)}."


def _ranked_html(title, bag):
    line = "; ".join(f"{one.belt.name} {'left out' if one.refused else round(100 * one.probability)}" for one in bag.ranked)
    return f"<p>{escape(title)}, draws out of 100 in the good window: {escape(line)}.</p>"


def _span(ends, times, unit):
    digits = 4 if unit == "mm" else 2
    low, high = (float(f"{times * end:.{digits}g}") for end in (ends[0], ends[2]))
    return f"{low:g} to {high:g} {unit}".strip()


def _inner(words):
    return words[:1].lower() + words[1:]
