"""Book 04, tighter is not steadier: grip, creep, load across the shaft and current against stretch, for thin belts and thick."""

from dataclasses import replace

import numpy as np
from IPython.display import Markdown

from benchreckoner.bench.belt_draws import Draws, draws_of
from benchreckoner.bench.belt_priors import prior
from benchreckoner.bench.belt_reckon import cut_of, fitted, modulus_draws, modulus_of
from benchreckoner.bench.belt_window import window
from benchreckoner.bench.belt_words import dominant
from benchreckoner.lessons.belt_example import BELTS, DRIVE, HARDNESS, LOAD, MOTOR_SEAT, SHAPE, SIDE, STRETCH
from benchreckoner.lessons.belt_pull import newtons
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.belt_bending import RULE, bend_length, bending_drag, bending_factor
from benchreckoner.physics.belt_sizes import belt_section
from benchreckoner.physics.rubber import modulus_from_hardness, neo_hookean_tension
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show

OURS = ("Stretched by 10 % instead of 5 %, the belt still creeps by about 1.0 %, and draws the shaft nearly twice as hard, so it costs the motor "
        "about half as much current again. That is reckoned for one belt of 1.2 mm on a bearing like ours and not measured; "
        "tighter would help only if it slips now, and a wiped pulley might do that as well.")
_COUNT = 1000
_BAND = (0.025, 0.975)
_LEAST, _MOST = 0.01, 0.15
_ALONG = np.linspace(_LEAST, _MOST, 57)
_DRAWS = draws_of(DRIVE, BELTS[:1], count=_COUNT)
_STIFF = modulus_draws(BELTS[0], _DRAWS.own[BELTS[0].name], _DRAWS.common)
_OFF = _DRAWS.own[BELTS[0].name].thickness - BELTS[0].thickness.m_as("m")
_LIMITS = {side.way: abs(side.limit) for side in window(DRIVE)}


def _middle(name):
    row = prior(name)
    return np.array([row["middle"] if "middle" in row else (row["low"] + row["high"]) / 2])


_MIDDLE = Draws(
    seat_path=np.array([DRIVE.seat_path.value.m_as("m")]), load=np.array([LOAD.m_as("N*m")]),
    motor_constant=np.array([DRIVE.motor_constant.value.m_as("V*s/rad")]),
    no_load_current=np.array([DRIVE.no_load_current.value.m_as("A")]), bearing=np.array([0.1]),
    friction=_middle("friction"), aged=_middle("aged_friction"), loss_tangent=_middle("loss_tangent"),
    relaxation=_middle("relaxation"), density=_middle("density"), common=np.zeros(1), own={})


def tighter_picture(*, stretch, side, bearing, load):
    """What a square belt of 60 Shore A does beside the right one, against its stretch.

    Parameters
    ----------
    stretch : Quantity [percent]
    side : Quantity [m]
        Of the square.
    bearing : float
        Friction coefficient of the motor's bearing.
    load : Quantity [N*m]
        That the wheel asks for.

    Returns
    -------
    Picture
        Without creep where the aged belt slips.
    """
    here, wide, asked = stretch.m_as(""), side.m_as("m"), load.m_as("N*m")
    middle = replace(_MIDDLE, bearing=np.array([bearing]), load=np.array([asked]))
    right = fitted(DRIVE, middle, section=cut_of(SHAPE, np.array([SIDE.m_as("m")])), stretch=np.array([STRETCH]), modulus=_stiffness())
    found = fitted(DRIVE, middle, section=cut_of(SHAPE, np.array([wide])), stretch=np.append(_ALONG, here)[:, None], modulus=_stiffness())
    times = {name: (getattr(found, name) / getattr(right, name))[:, 0] for name in ("margin", "creep", "hub", "added")}
    slips = found.margin[:, 0] < 1
    creep = np.where(slips, np.nan, times["creep"])
    told = _told(here, wide, bearing, asked, times, bool(slips[-1]))
    along = 100 * _ALONG
    return Picture(
        title="What tighter does, beside the right belt",
        x=Axis("stretch", "%", 0, 100 * _MOST), y=Axis("times the right belt's", "", 0.05, 20, scale="log"),
        curves=(Curve("grip, once aged", along, times["margin"][:-1], "second"), Curve("creep", along, creep[:-1], "heavy"),
                Curve("load across the shaft", along, times["hub"][:-1], "third"),
                Curve("current for the belt", along, times["added"][:-1], "first")),
        points=(_crossing("grips", found.margin, _LIMITS["slip"], times["margin"], "other"),
                _crossing("1 N", found.hub, _LIMITS["hub"], times["hub"], "extra")),
        limits=(Limit("this stretch", "x", 100 * here),), sentence=told,
        alt=("Four lines against stretch on a log axis of times what the right belt does, 1.2 mm square at 5 %. Grip, load across the shaft and "
             "current for the belt rise to the right, the current least. Creep alone is almost level. A thicker belt lifts the first "
             "three and lowers creep. Two marks: from where on the aged belt grips twice the load, and from where it draws the shaft with 1 N. "
             f"{told}"))


def _stiffness():
    return np.array([modulus_of(HARDNESS)])


def _crossing(name, values, limit, times, style):
    """Where a row of values passes a limit, marked on its line; nowhere if it does not within the picture."""
    row = values[:-1, 0]
    place = np.interp(limit, row, _ALONG, left=np.nan, right=np.nan)
    return Point(name, 100 * place, np.interp(place, _ALONG, times[:-1]), style)


def _told(here, wide, bearing, asked, times, slips):
    draws = replace(_DRAWS, bearing=np.full(_COUNT, bearing), load=_DRAWS.load * (asked / LOAD.m_as("N*m")))
    spread = fitted(DRIVE, draws, section=cut_of(SHAPE, wide + _OFF), stretch=np.full(_COUNT, here), modulus=_STIFF)
    grip, hub, added = (np.quantile(getattr(spread, name), _BAND) for name in ("margin", "hub", "added"))
    creeping = "Once aged it slips at the load" if slips else f"It creeps by {_span(100 * np.quantile(spread.creep, _BAND), 2)} %"
    creeps = "" if slips else f" and {times['creep'][-1]:.2f} times the creep"
    cause = dominant(spread.margin, draws, _DRAWS.own[BELTS[0].name], alone=False)
    tight = _tight_words(spread.margin, spread.hub)
    return (f"{1e3 * wide:.1f} mm square, {100 * here:.1f} % of stretch: once aged it grips {_span(grip, 1)} times what the load asks. "
            f"{creeping}, draws the shaft with {newtons(hub[0])} to {newtons(hub[1])} and costs {_span(1e3 * added, 1)} mA. Beside the right belt "
            f"that is {times['margin'][-1]:.2f} times the grip, {times['hub'][-1]:.2f} times the load across the shaft, "
            f"{times['added'][-1]:.2f} times the current{creeps}. {tight} {cause}")


def _tight_words(margin, hub):
    """Whether tighter helps, by how many draws are short of grip."""
    short = np.mean(margin < _LIMITS["slip"])
    hard = " The shaft is drawn with more than 1 N as it is." if np.median(hub) > _LIMITS["hub"] else ""
    if short > 0.95:
        return f"Tighter helps here: the aged grip is short of twice the load in nearly all draws.{hard}"
    if short < 0.05:
        return f"Tighter only costs here: the aged grip is twice the load in nearly all draws.{hard}"
    return (f"Tighter helps in the {100 * short:.0f} of 100 draws whose aged grip is short of twice the load, and costs in all "
            f"100.{hard}")


def _span(ends, decimals):
    return f"{ends[0]:.{decimals}f} to {ends[1]:.{decimals}f}"


TIGHTER = LivePicture(
    key="belt-tighter", picture=tighter_picture,
    sliders=(Slider("stretch", "stretch of the belt", "%", tuple(step / 2 for step in range(2, 31)), start=100 * STRETCH),
             Slider("side", "side of the square belt", "m", tuple(round(step * 1e-4, 4) for step in range(8, 21)), start=SIDE.m_as("m")),
             Slider("bearing", "friction of the motor's bearing", "", (0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.3), start=0.1),
             Slider("load", "what the wheel asks", "N*m", tuple(step * 1e-4 for step in range(5, 31)), start=LOAD.m_as("N*m"))),
    goal="Double the stretch from 5 to 10 %: what does creep do, what the current? Then go to 1.5 mm at 5 %, and find the stretch at which a belt "
         "of 1.2 mm costs as much current. Last, still at 1.2 mm, find the stretch below which tighter helps in more than half of the draws.",
    phone_sliders=("stretch", "side"))


def bending_table():
    """What bending costs on the motor's pulley, by the rule and by the whole bend, for three sections.

    Returns
    -------
    IPython.display.Markdown
    """
    lines = ["| belt | drag by the rule | drag by the whole bend | the rule is high by |", "|---|---|---|---|"]
    for shape, size in (("square", 1.2), ("square", 1.5), ("round", 1.2)):
        section = belt_section(shape=shape, thickness=Q(size, "mm"))
        rubber = dict(modulus=modulus_from_hardness(hardness=HARDNESS), second_moment=section.second_moment)
        radius = MOTOR_SEAT / 2 + section.neutral_height
        pull = neo_hookean_tension(area=section.area, modulus=rubber["modulus"], stretch_ratio=1 + STRETCH)
        factor = bending_factor(arc=radius * DRIVE.motor_wrap.m_as("rad"), bend_length=bend_length(**rubber, tension=pull))
        rule, whole = (bending_drag(loss_tangent=prior("loss_tangent")["middle"], **rubber, pulley_radius=radius, factor=one)
                       for one in (RULE, factor))
        lines.append(f"| {shape}, {size} mm | {show(rule, 'N')} | {show(whole, 'N')} | {100 * ((rule / whole).m_as('') - 1):.0f} % |")
    return Markdown("\n".join(lines))


def guess_steadier():
    """Guess first: what twice the stretch does to creep; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="belt-tighter-creep",
        question="A belt at 5 % of stretch drives a wheel that has a tape to pull which runs hard. It does not slip, and yet the wheel is 1.0 % "
                 "slower than the pulleys' sizes say. You fit a shorter one, at 10 %. How much slower is the wheel now?",
        choices=(
            Choice("0.5 %: twice as tight, half as slow.", "So it would be if creep were slip. The belt creeps because its tight side is longer "
                   "than its slack side, and the load sets that difference, whatever both sides have in common."),
            Choice("Not at all: it cannot slip any more.", "It did not slip before either. Every belt that carries a load creeps."),
            Choice("About as slow as before, even a little slower.", "1.02 % instead of 0.98 %: stretched rubber is a little softer. A thicker "
                   "belt creeps less, a tighter one does not.", right=True),
            Choice("2 %: it is stretched twice as far.", "The stretch that both sides share drops out. Only their difference counts."),
        )), reveal=opening(TIGHTER), store=my_guesses())


def guess_thick():
    """Guess first: what a thicker belt costs at the same pull; no picture opens."""
    return choice_guess(ChoiceGuess(
        key="belt-tighter-thick",
        question="No belt of 1.2 mm at hand, so you fit 1.5 mm of the same rubber, just so much longer that it pulls no harder. What does it cost "
                 "the motor, beside the right one?",
        choices=(
            Choice("The same: the same pull, the same friction.", "In the bearing, yes. But a belt costs twice: it is bent round the motor's "
                   "pulley and straightened again, at each pass, and that goes nearly as the fourth power of the thickness."),
            Choice("Less: it sits looser.", "Tension has no part in what bending costs."),
            Choice("About half as much again.", "The bearing takes 43 µN·m as before, bending 65 instead of 28: 108 instead of 71 µN·m in all. "
                   "And the wheel runs 3.7 % fast.", right=True),
            Choice("Four times as much.", "Bending alone takes 2.3 times as much; the bearing's part stays."),
        )), store=my_guesses())


def say_tighter():
    """Two sentences to somebody who wants it tighter."""
    return say_it(
        "belt-tighter", "A friend wants a tighter belt, “so that it runs steadier”. Tell them in two sentences what 10 % instead of 5 % would do, how "
        "you know, how sure you are, and what you have not measured.",
        ours=OURS,
        checks=SayChecks(what=("creep", "creeps", "slip", "slips", "tighter"), known=("reckoned", "reckon", "slider", "picture"),
                         quantities=((Q(1.0, "percent"), "%"), (Q(10, "percent"), "%"), (Q(5, "percent"), "%"))),
        store=my_guesses())
