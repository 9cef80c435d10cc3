"""The pages of a workshop pack: cards, handouts, their keys, the tins, the host's sheet and one for the back of the room."""

import math
from dataclasses import dataclass
from importlib import resources

import jinja2
from markupsafe import Markup

from benchreckoner.bench.cautions import all_cautions
from benchreckoner.lessons.workshop_plan import kits, plan, visits
from benchreckoner.lessons.workshop_stations import STATIONS, Station, cautions_of, problems
from benchreckoner.lessons.workshop_tins import CONTACTS, SETTINGS, TIRED, TITLES, make_tin
from benchreckoner.physics.viewing import letter_height
from benchreckoner.show.exercise import Problem, given_table
from benchreckoner.show.spoken import spoken_seconds
from benchreckoner.show.words import magnitude, show_number
from benchreckoner.units import Q, read_quantity, show, show_exact

OURS = '<meta name="generator" content="Bench Reckoner, workshop pack">'
_RATE = 140  # words a minute, read out slowly: common practice
_SMALL_SUPPLY = Q(0.5, "A")  # where many a bench supply stops
# For the back of the room: the size of its type, and of its capitals beside that size in a plain grotesque.
_LARGE, _CAPITAL = 115, 0.688
_POINT = Q(25.4 / 72, "mm")
# The least and the preferred height of a letter, in minutes of arc: a published guideline for control rooms (NUREG-0700, revision 2, 1.3.1-4), FOUND.
_LEAST_ARC, _GOOD_ARC = Q(16, "arcmin"), Q(20, "arcmin")
_TIN_CAUTIONS = ("scope", "power off", "shorted cells", "held motor", "hot parts", "soldering")
# File, title, what for, for whom; the part of the template is named in the file.
_PAGES = (
    ("host", "For the host", "the plan, cautions to read out, things to bring and to print", "the host"),
    ("cards", "Table cards", "one for each station: cautions, guess, steps", "the tables"),
    ("handouts", "Handouts", "one for each table and station, front and back, with that table's numbers", "the tables"),
    ("keys", "Keys", "the answers to the same numbers, and what wrong ones mean", "the host alone"),
    ("tin", "The tins of faults", "what is soldered in, and what a good reading is", "the host alone"),
    ("large", "For the back of the room", "the minutes and the stations in very large type, for the wall or a screen", "the room"),
)


@dataclass(frozen=True)
class Workshop:
    """What a pack is made from: the host's settings.

    ``words`` are those of the tins by table and key, ``invented`` the places of those that nobody has read yet.
    """

    tables: int
    minutes: int
    seed: int
    stations: tuple[Station, ...]
    words: dict
    invented: frozenset = frozenset()


@dataclass(frozen=True)
class Sheet:
    """One handout and its key: the exercises of one table at one station."""

    table: int
    station: Station
    problems: tuple[Problem, ...]

    @property
    def id(self):
        """Its name within the page."""
        return f"table-{self.table}-{self.station.name.lower().replace(' ', '-')}"

    @property
    def asked(self):
        """Each exercise with how many of its steps show their value."""
        first, second = self.problems
        return (first, len(first.steps) - 1), (second, 0)


def sheets(workshop):
    """Every handout, table by table, in the order in which the table visits its stations.

    Parameters
    ----------
    workshop : Workshop

    Returns
    -------
    tuple of Sheet
    """
    turns = _turns(workshop)
    drawn = {one.name: problems(one, seed=workshop.seed, tables=workshop.tables) for one in workshop.stations}
    return tuple(Sheet(table + 1, STATIONS[name], drawn[name][table])
                 for table in range(workshop.tables) for name in visits(turns, table))


def pack(workshop, *, machine, settings):
    """Every page of the pack as text.

    Parameters
    ----------
    workshop : Workshop
    machine : str
        The name of the machine on the sheet, from its author.
    settings : str
        The name of the file that the host edits.

    Returns
    -------
    dict of str to str
        By file name; the last, ``workshop.html``, lists the others.

    Raises
    ------
    TinError
        If an entry makes no tin.
    """
    turns, tins = _turns(workshop), {key: _tin(key, workshop) for key in TITLES}
    visited = [one for one in workshop.stations if kits(turns, one.name)]
    cautions, order = cautions_of(visited), [visits(turns, table) for table in range(workshop.tables)]
    rounds = len(order[0])
    values = {"minutes": workshop.minutes, "tables": workshop.tables, "seed": workshop.seed, "stations": visited,
              "turns": turns, "order": order, "rounds": rounds, "missed": len(visited) - rounds,
              "unvisited": [one.name for one in workshop.stations if one not in visited], "machine": machine,
              "settings": settings, "sheets": sheets(workshop), "cautions_of": cautions_of,
              "kits": [{"station": one, "kits": kits(turns, one.name), "buy": tins[one.tin]["buy"] if one.tin else ()} for one in visited],
              "large": {"points": _LARGE, "capital": f"{_capital().m_as('mm'):.0f} mm", "legible": _far(_LEAST_ARC), "easy": _far(_GOOD_ARC)}}
    own = {"host": {"cautions": cautions, "reading": _minutes(cautions), "playing": _playing(workshop, tins)},
           "tin": {"tins": tins.values(), "cautions": [one for one in all_cautions() if one.name in _TIN_CAUTIONS]}}
    made = {f"workshop_{kind}.html": _render(kind, title, {**values, **own.get(kind, {})}) for kind, title, *_ in _PAGES}
    listed = [{"file": f"workshop_{kind}.html", "title": title, "what": what, "whom": whom} for kind, title, what, whom in _PAGES]
    empty = ", ".join(dict.fromkeys(one.key for tin in tins.values() for one in tin["empty"]))
    made["workshop.html"] = _render("index", "Workshop pack", {**values, "listed": listed, "empty": empty})
    return made


def file_names():
    """The names of the pages that a pack holds.

    Returns
    -------
    tuple of str
    """
    return (*(f"workshop_{kind}.html" for kind, *_ in _PAGES), "workshop.html")


def _turns(workshop):
    return plan(minutes=workshop.minutes, tables=workshop.tables, stations=[one.name for one in workshop.stations])


def _tin(key, workshop):
    tin = make_tin(key, workshop.words)
    told = [(one.words, workshop.words[one.table, one.key], (one.table, one.key) in workshop.invented)
            for one in SETTINGS if any(where == key for where, _ in one.fills)]
    return {"title": TITLES[key], "html": Markup(tin.html), "buy": tin.buy, "empty": tin.empty, "told": told}


def _playing(workshop, tins):
    """The playing current as it stands, and whether a small supply gives twice that; None where no tin has read it."""
    text = workshop.words["machine", "playing"]
    if not tins[CONTACTS]["html"] and not tins[TIRED]["html"]:
        return None
    return {"text": text, "enough": 2 * read_quantity(text, "A").quantity <= _SMALL_SUPPLY}


def _capital():
    return _LARGE * _CAPITAL * _POINT


def _far(arc):
    """From how far off a capital of the large page is seen under an angle, rounded down to half a metre."""
    metres = (_capital() / letter_height(angle=arc, distance=Q(1, "m"))).m_as("")  # twice as high, twice as far
    return f"{math.floor(2 * metres + 0.01) / 2:g} m"


def _minutes(cautions):
    seconds = spoken_seconds(" ".join(f"{one.title}. {one.words}" for one in cautions), _RATE)
    minutes = max(1, round(seconds / 60))
    return f"{minutes} minutes" if minutes > 1 else "a minute"


def _render(kind, title, values):
    room = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True,
        loader=jinja2.FunctionLoader(lambda file: resources.files("benchreckoner.tell").joinpath(file).read_text("utf-8")))
    # Questions, steps and hints hold simple HTML of our own, see `show.exercise.Problem`.
    room.filters |= {"html": Markup, "given": lambda problem: Markup(given_table(problem)), "answer": _answer, "within": _within,
                     "slips": _slips}
    return room.get_template("workshop.html").render(ours=Markup(OURS), kind=kind, title=title, **values)


def _answer(problem):
    return _shown(problem.value, problem)


def _shown(value, problem):
    """With as many digits as the key asks for: what must be right within a thousandth needs four."""
    if problem.unit in ("", "%") or problem.margin >= 0.005 * abs(problem.value):
        return show_number(value, problem.unit)
    return show(Q(value, problem.unit), problem.unit, 4)


def _slips(problem):
    """Wrong answers as printed, each with its hint; with some numbers a mistake comes out right, and is no slip."""
    values = ((magnitude(slip.value, problem.unit), slip.hint) for slip in problem.slips)
    return [(_shown(value, problem), hint) for value, hint in values if not problem.right(value)]


def _within(problem):
    if isinstance(problem.tolerance, Q):
        return show_exact(problem.tolerance, problem.unit)
    return f"{100 * problem.tolerance:.3g} %"
