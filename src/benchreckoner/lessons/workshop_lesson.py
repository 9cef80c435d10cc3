"""Book 07, a room and 90 minutes: how many stations fit, how to run one, and a handout read aloud."""

import numpy as np

from benchreckoner.lessons.workshop_plan import CHANGE, OPENING, STATION, least_minutes, rounds_that_fit
from benchreckoner.lessons.workshop_stations import LOST_VOLTS, STATIONS, problems
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q

_FOUR = len(STATIONS)
_EVENINGS = np.arange(30, 181)
READ_TABLE = 1
OURS = ("Across the spring we read 446 millivolts, at a current of 499 milliamperes. Volts divided by amperes are ohms, so this spring has "
        "about 0.89 ohms; that tells of the spring as it sat then, not of the other links.")


def evening(*, minutes, station):
    """How many stations each table visits in an evening, over the evening's length.

    Parameters
    ----------
    minutes, station : Quantity [min]
        Whole minutes: the evening, and one station.

    Returns
    -------
    Picture
    """
    here, each = (round(float(value.m_as("min"))) for value in (minutes, station))
    visited = [rounds_that_fit(minutes=int(one), stations=_FOUR, station=each) for one in _EVENINGS]
    rounds = rounds_that_fit(minutes=here, stations=_FOUR, station=each)
    used = OPENING + rounds * each + max(rounds - 1, 0) * CHANGE
    more = least_minutes(rounds=rounds + 1, station=each) if rounds < _FOUR else np.nan
    fits = (f"each table visits {rounds} of {_FOUR} stations, and {here - used} minutes are left for the closing" if rounds else
            "not one station fits")
    ahead = "That is all of them." if rounds == _FOUR else f"{'One more' if rounds else 'The first'} asks for {more} minutes."
    return Picture(
        title="How many stations fit",
        x=Axis("the whole evening", "min", 30, 180), y=Axis("stations visited", "", 0, 5),
        curves=(Curve("stations that fit", _EVENINGS.astype(float), np.array(visited, dtype=float)),),
        points=(Point("this evening", here, rounds), Point("one more", more, rounds + 1 if rounds < _FOUR else np.nan, "other")),
        limits=(Limit("all four", "y", _FOUR),),
        sentence=f"In {here} minutes, with {each} at each station, {fits}. {ahead}",
        alt=(f"A staircase: stations that each table visits over the minutes of the evening, with {each} minutes a station. "
             f"At {here} minutes it stands at {rounds}. {ahead}"))


EVENING = LivePicture(
    key="stations-that-fit", picture=evening,
    sliders=(Slider("minutes", "the whole evening", "min", tuple(float(one) for one in range(40, 181)), start=90),
             Slider("station", "minutes at a station", "min", tuple(float(one) for one in range(10, 31)), start=STATION)),
    goal="With 20 minutes a station, find the shortest evening in which each table visits all four.",
    phone_sliders=("minutes", "station"))


def guess_rounds():
    """Guess first: how many stations fit into 90 minutes; the live picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="workshop-rounds", question="You have a room for 90 minutes, four stations of 20 minutes, 10 minutes to open with the cautions, "
        "2 minutes to change tables, and at least 8 to close. How many stations does each table visit?",
        choices=(
            Choice("Four: four times 20 is 80.", "With opening, three changes and closing that is 104 minutes. Somebody would lose the "
                   "closing, which is where the room hears what was found."),
            Choice("Three.", "10 + 3 × 20 + 2 × 2 makes 74, and 16 minutes are left for the closing. What a table missed it hears then.", right=True),
            Choice("Two, to be safe.", "A third fits with 8 minutes to spare beyond the least closing. Spare time is welcome, but a third "
                   "station is worth more."),
        )), reveal=opening(EVENING), store=my_guesses())


def guess_help():
    """Guess first: what a host says to a table that asks whether its number is right."""
    return choice_guess(ChoiceGuess(
        key="workshop-help", question="A table has found 1.12 Ω where your key says 0.894 Ω. “Is that right?” they ask. What helps them most?",
        choices=(
            Choice("“No, it is 0.894.”", "Now they have a number and no reason. The next table will ask as well."),
            Choice("“Nearly.”", "It is upside down, not nearly right: 1.12 is one over 0.894. Kind words can hide a fault."),
            Choice("“Which did you divide by which, and what would the unit be?”", "They find it themselves: amperes per volt are no "
                   "ohms. The key lists this slip with its value, so that you can know it at a glance.", right=True),
        )), store=my_guesses())


def say_the_handout():
    """Say it: a handout's exercise read aloud to a room."""
    drop, current = (text for _, text in problems(LOST_VOLTS, seed=1, tables=READ_TABLE)[0][0].given)
    return say_it(
        "workshop-aloud", f"Table {READ_TABLE}'s handout says: voltage drop across the spring {drop}, current through it {current}. Tell the "
        "room in two sentences what was read, what the spring has, how you know, and what that does not show. Units as words.",
        ours=OURS, store=my_guesses(),
        checks=SayChecks(what=("spring",), quantities=((Q(0.894, "ohm"), "ohm"),), known=("divided", "by")))


def shortest_evening(seed=None, blanks=1):
    """The shortest evening for so many rounds."""
    return exercise(_shortest_evening, key="workshop-shortest", seed=seed, blanks=blanks)


def sheets_to_print(seed=None, blanks=2):
    """How many handouts to print."""
    return exercise(_sheets_to_print, key="workshop-sheets", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several: the reader must tell first what is asked."""
    kinds = (_shortest_evening, _sheets_to_print, _sets_to_bring)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="workshop-mixed", seed=seed, blanks=blanks)


def _shortest_evening(rng):
    rounds, station, change = int(rng.integers(2, 5)), int(rng.integers(12, 26)), int(rng.integers(1, 5))
    ends = int(rng.integers(12, 26))
    whole = ends + rounds * station + (rounds - 1) * change
    return Problem(
        question="How many minutes must an evening have at least? (A plain number.)",
        given=(("stations that each table visits", f"{rounds}"), ("minutes at each", f"{station}"), ("minutes for a change of tables", f"{change}"),
               ("opening and closing together, in minutes", f"{ends}")),
        answer=Q(whole, ""), unit="", tolerance=Q(0.4, ""),
        steps=(Step("At the stations:", f"{rounds * station}"), Step("Changes, one fewer than stations:", f"{(rounds - 1) * change}"),
               Step("These two, opening and closing:", f"{whole}")),
        slips=(Slip(Q(whole + change, ""), "Between n stations lie n − 1 changes."),
               Slip(Q(rounds * station + (rounds - 1) * change, ""), "Opening and closing are missing."),
               Slip(Q(whole - (rounds - 1) * change, ""), "People must walk from table to table as well.")))


def _sheets_to_print(rng):
    tables, rounds, people = int(rng.integers(3, 9)), int(rng.integers(2, 5)), int(rng.integers(2, 5))
    whole = tables * rounds * people
    return Problem(
        question="Each person gets a handout of their own at each station that their table visits. How many handouts are printed? "
                 "(A plain number.)",
        given=(("tables", f"{tables}"), ("people at each", f"{people}"), ("stations that each table visits", f"{rounds}")),
        answer=Q(whole, ""), unit="", tolerance=Q(0.4, ""),
        steps=(Step("People in the room:", f"{tables * people}"), Step("Times the stations that each visits:", f"{whole}")),
        slips=(Slip(Q(tables * rounds, ""), "That is one a table. Each person gets one."),
               Slip(Q(tables * people, ""), "That is for one station. Each table visits several.")))


def _sets_to_bring(rng):
    stations = int(rng.integers(2, 5))
    full, over = int(rng.integers(1, 3)), int(rng.integers(1, stations))
    tables = full * stations + over
    return Problem(
        question="The tables are spread over the stations as evenly as can be, and move on together. How many sets of one station must "
                 "you bring, so that none ever waits? (A plain number.)",
        given=(("tables", f"{tables}"), ("stations", f"{stations}")),
        answer=Q(full + 1, ""), unit="", tolerance=Q(0.1, ""),
        steps=(Step("Tables over stations:", f"{tables / stations:.3g}"), Step("Rounded up, since half a table needs a whole set:", f"{full + 1}")),
        slips=(Slip(Q(full, ""), "Rounded down, one table has nothing to do."),
               Slip(Q(tables, ""), "They are not all at one station at once.")))
