"""Book 04, what months and years take of a belt's pull, and what a cold morning does."""

import numpy as np
from IPython.display import Markdown

from benchreckoner.bench.belt_priors import prior
from benchreckoner.lessons.belt_example import DRIVE, HARDNESS, HEAVY_LOAD, SIDE, STRETCH, WHEEL_SEAT
from benchreckoner.lessons.belt_pull import newtons
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.belt_pull import greatest_pull
from benchreckoner.physics.rubber import modulus_from_hardness, neo_hookean_tension, ratio_of_tension
from benchreckoner.physics.rubber_ageing import kept_share, warmth_slope
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.units import Q

_TICKS = tuple((float(np.log10(Q(number, unit).m_as("min"))), name) for number, unit, name in (
    (1, "min", "1 minute"), (1, "hour", "1 hour"), (1, "day", "1 day"), (1, "month", "1 month"), (1, "year", "1 year"), (10, "year", "10 years")))
_MOST_YEARS = 30
_DECADES = np.array(sorted({*np.linspace(0, np.log10(Q(_MOST_YEARS, "year").m_as("min")), 25), *(value for value, _ in _TICKS)}))
_RUBBER = dict(area=SIDE**2, modulus=modulus_from_hardness(hardness=HARDNESS))
_FRESH = neo_hookean_tension(**_RUBBER, stretch_ratio=1 + STRETCH)
_POOR = 0.3  # friction of a glazed or dusty belt: common practice
_MARGIN = float((greatest_pull(rest_tension=_FRESH, friction=_POOR, wrap=DRIVE.motor_wrap) / (HEAVY_LOAD / ((WHEEL_SEAT + SIDE) / 2))).m_as(""))
_WANTED = 2.0  # times the load, for the start: common practice


def years_picture(*, years, loss):
    """What is left of a belt's first pull, against time.

    Parameters
    ----------
    years : float
        Since it was fitted.
    loss : Quantity [percent]
        Lost with each tenfold of time.

    Returns
    -------
    Picture
    """
    each, usual = loss.m_as(""), prior("relaxation")
    decades, times = np.log10(Q(years, "year").m_as("min")), Q(10.0**_DECADES, "min")
    low, own, high = (100 * kept_share(time=times, loss_per_decade=share) for share in (usual["high"], each, usual["low"]))
    left, least, most = (float(kept_share(time=Q(years, "year"), loss_per_decade=share)) for share in (each, usual["high"], usual["low"]))
    grown = (1 + STRETCH) / ratio_of_tension(tension=_FRESH * left, **_RUBBER) - 1
    told = (f"After {_years(years)}, with {100 * each:.1f} % lost at each tenfold of time, {100 * left:.0f} % of the first pull is left: "
            f"{newtons(left * _FRESH.m_as('N'))} of {newtons(_FRESH.m_as('N'))}. Dusty, the belt then grips {_MARGIN * left:.1f} times what a tape "
            f"that runs hard asks, {_enough(_MARGIN * left)} for its start. Usual filled rubbers keep {100 * least:.0f} to "
            f"{100 * most:.0f} %. A new belt that pulls no harder would be {100 * grown:.1f} % longer; a set that shows when this one "
            "comes off is the same loss seen again.")
    return Picture(
        title="What the years leave of a belt's pull",
        x=Axis("time since it was fitted", "", 0, _DECADES[-1], ticks=_TICKS), y=Axis("left of the first pull", "%", 0, 100),
        bands=(Band("usual filled rubbers", _DECADES, low, high, "first"),), curves=(Curve("this belt", _DECADES, own, "heavy"),),
        points=(Point("now", decades, 100 * left),),
        limits=(Limit("dusty, grips twice a hard tape", "y", 100 * _WANTED / _MARGIN),), sentence=told,
        alt=("Share of the first pull that is left, against time from a minute to thirty years, each tenfold as wide as the last. A straight line "
             f"falls from 100 % at one minute; a band of usual rubbers widens downwards beside it. {told}"))


def _enough(margin):
    shown = round(margin, 1)
    return "just enough" if shown == _WANTED else "enough" if shown > _WANTED else "too little"


def _years(years):
    if years < 1:
        return f"{years * 12:.0f} months" if years > 0.1 else "a month" if years > 0.05 else "four days"
    return "a year" if years == 1 else f"{years:g} years"


YEARS = LivePicture(
    key="belt-years", picture=years_picture,
    sliders=(Slider("years", "years since it was fitted", "", (0.01, 0.08, 0.25, 0.5, 1, 2, 3, 5, 7, 10, 15, 20, 25, 30), start=5),
             Slider("loss", "lost at each tenfold of time", "%", tuple(step / 2 for step in range(4, 25)), start=5)),
    goal="5 % at each tenfold: after how many years does the dusty belt come down to the line, twice what a tape asks that runs hard? And with "
         "8 %? Then find a loss with which it is still above the line after 30 years.",
    phone_sliders=("years", "loss"))


def guess_first_day():
    """Guess first: how a belt loses its pull; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="belt-years-first-day",
        question="A new belt is fitted. Within the first day it loses 16 % of the pull it had after one minute. What has it lost after ten years, "
                 "kept cool and dark?",
        choices=(
            Choice("16 %: it has settled after a day.", "It never quite settles. Each tenfold of time takes as much again, and from a day to ten years "
                   "there are three and a half tenfolds."),
            Choice("About 34 %.", "5 % at each tenfold of time: 3.16 tenfolds from a minute to a day, 6.72 to ten years. So nearly half of it goes "
                   "on the first day.", right=True),
            Choice("Nearly all of it: 16 % every day.", "Then no belt would last a week. The loss gets slower in the same measure as time gets "
                   "longer."),
            Choice("Nothing more, if nobody plays it.", "Rubber relaxes because it is stretched, playing or not.")),
        explanation="<p>Warmth, light and oil add a second loss that goes with time itself: a belt beside a warm transformer fares worse "
                    "than this picture.</p>"), reveal=opening(YEARS), store=my_guesses())


def warm_table():
    """How a fitted belt's pull changes on a cold morning and a hot afternoon, by its stretch.

    Returns
    -------
    IPython.display.Markdown
    """
    lines = ["| stretch | for each degree | at 5 °C instead of 20 °C | at 35 °C |", "|---|---|---|---|"]
    for stretch in (0.03, 0.05, 0.07, 0.1):
        slope = 100 * float(warmth_slope(temperature=Q(20, "degC"), stretch_ratio=1 + stretch).m_as("1/K"))
        cells = [_signed(slope, 1), _signed(-15 * slope, 0), _signed(15 * slope, 0)]
        lines.append(f"| {100 * stretch:.0f} % | " + " | ".join(cells) + " |")
    return Markdown("\n".join(lines))


def _signed(value, decimals):
    text = f"{value:+.{decimals}f}".replace("-", "−")
    return f"{text[1:] if float(f'{value:.{decimals}f}') == 0 else text} %"
