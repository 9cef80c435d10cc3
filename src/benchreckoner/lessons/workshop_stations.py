"""The four stations of a workshop: what lies on the table, what is done there, and the exercises of its handout."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.cautions import all_cautions
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.verdict import BAD, DOUBTFUL
from benchreckoner.lessons.belt_path_practice import from_thread_problem
from benchreckoner.lessons.belt_pull_practice import tension_problem
from benchreckoner.lessons.contact_practice import drop_to_ohms_problem, held_volts_problem
from benchreckoner.lessons.governor_practice import least_volts_problem
from benchreckoner.lessons.leakage_bench_practice import meters_current_problem
from benchreckoner.lessons.motor_constants_practice import load_torque_problem
from benchreckoner.lessons.reads_high_practice import charged_late_problem
from benchreckoner.lessons.workshop_tins import CONTACTS, LEAK, TIRED

MOST_TABLES = 12
FEED = "feed chain"


@dataclass(frozen=True)
class Station:
    """One station, all of it plain text.

    ``cautions`` are names of `bench.cautions`, read before the steps. ``write`` are the lines that a table fills in.
    ``exercises`` are two makers of problems: of the first all values but the last are printed, of the second none. ``tin`` is a key of
    `workshop_tins.TITLES` or empty, ``rooms`` are those of `bench.parts.ROOMS` that it teaches, with `FEED` for the feed chain.
    """

    name: str
    question: str
    idea: str
    guess: str
    cautions: tuple[str, ...]
    steps: tuple[str, ...]
    write: tuple[str, ...]
    tell: str
    bring: tuple[str, ...]
    exercises: tuple[Callable, Callable]
    rooms: tuple[str, ...]
    tin: str = ""


LOST_VOLTS = Station(
    name="Lost volts",
    question="Volts leave the supply. Where do they get lost on their way to the motor?",
    idea="Every link in the loop takes volts in proportion to its ohms. So a meter across a link, while current flows, finds a bad one "
         "without taking anything apart.",
    guess="Which link of this machine takes the most volts while it plays?",
    cautions=("scope", "adapter", "shorted cells", "moving parts", "hot parts"),
    steps=("Set the meter to volts. Read the supply with nothing drawn.",
           "Let the machine play. Read the supply again, then the current: the ammeter stands in line, in the gap of the feed, never across "
           "the supply.",
           "Read the volts across each link in turn, from the supply to the motor and back. The ammeter is a link too.",
           "Divide each link's volts by the amperes: those are its ohms.",
           "Add up all the drops and the motor's volts. Do they make the volts of the supply while it plays?"),
    write=("supply, nothing drawn", "supply, playing", "current, playing", "across the worst link", "its ohms", "all drops and the motor, added up"),
    tell="Which link was it, how do you know, and how sure are you?",
    bring=("a machine that plays from cells or an isolated low-voltage adapter, its feed within reach of probes",
           "fresh cells, or an isolated low-voltage supply that limits its current",
           "a gap in the feed with two clips, where the ammeter goes", "two meters: one in line for the current, one for volts",
           "one resistor of the tin, soldered in before the evening"),
    exercises=(drop_to_ohms_problem, held_volts_problem), rooms=(FEED, "signal"), tin=CONTACTS)
LEAKY_CAPACITOR = Station(
    name="Leaky capacitor",
    question="A tester shows more microfarads than are printed on the part. Good news?",
    idea="Many testers time how slowly a part charges. A leak makes it charge more slowly to the mark, and the tester calls that more farads. "
         "So a high reading can be a bad sign, and only a leakage test clears the part.",
    guess="Two parts lie here, the same in print. Which one will read higher: the sound one or the leaky one?",
    cautions=("scope", "stored charge", "charge comes back", "polarity", "reforming"),
    steps=("Discharge both parts through a resistor. Read below 1 V, wait a minute, and read again.",
           "Read both parts on the tester. Which one reads higher?",
           "Put each on the test's volts, never more than its print says: a resistor in series, plus to plus.",
           "Read the volts across the resistor after 1 minute and after 2.",
           "Divide those volts by the resistor's ohms: that much leaks. Discharge the part again."),
    write=("part A on the tester", "part B on the tester", "volts across the resistor, part A", "volts across the resistor, part B", "which part leaks"),
    tell="Why did the worse part read higher?",
    bring=("a capacitor tester, or a meter that measures capacitance",
           "two wet aluminium capacitors alike, such as 10 µF and 25 V, rated above the test's volts: both wrapped in tape, one resistor of the tin "
           "across one of them, plus and minus marked",
           "an isolated low-voltage supply that limits its current, for the test's volts",
           "a series resistor of 10 kΩ, 0.25 W for tests up to 35 V and 1 W above", "a meter for volts, and a 1 kΩ resistor of 0.25 W to discharge with",
           "a clock with seconds",
           "eye protection for everybody at this table"),
    exercises=(charged_late_problem, meters_current_problem),
    rooms=("capacitors",), tin=LEAK)
MOTOR = Station(
    name="Motor and governor",
    question="The machine runs slow. Is it the motor, its governor, or too few volts?",
    idea="A motor's current tells its torque. Its volts, less what its winding takes, tell its speed. A governor holds the speed as long as "
         "the supply has volts in hand; with too few it lets go all at once.",
    guess="How far can the supply fall before this machine loses its speed?",
    cautions=("scope", "power off", "shorted cells", "polarity", "held motor", "moving parts", "hot parts"),
    steps=("Set the supply to the machine's volts, and its limit to twice the playing current that the host tells you.",
           "Let it play. Read the current with the belt on.",
           "Supply off. Lift the belt. Supply on, and read the current of the motor alone.",
           "Supply off, belt back on. Let it play, and turn the volts down until the speed just goes. Read the volts there.",
           "Turn them up again. How many volts had this machine in hand?"),
    write=("current, belt on", "current, belt off", "volts at which the speed goes", "volts in hand"),
    tell="Is this machine slow because of its motor, its governor or its supply?",
    bring=("a belt-driven machine with a governed motor", "an isolated bench supply with adjustable volts, up to the machine's own, and a current limit",
           "a meter in line for the current, a meter for volts", "something to hear or see the speed by: a steady tone on the machine and a phone, or a "
           "paper mark on the wheel to count", "the resistors of the tin, for tables that finish early"),
    exercises=(load_torque_problem, least_volts_problem),
    rooms=("motor", "supply", "transistors"), tin=TIRED)
BELTS = Station(
    name="Belts",
    question="The old belt is tar. Which belt do you order?",
    idea="The path decides the length, the stretch decides the pull. Too loose slips; too tight loads the bearings and takes more current.",
    guess="How long is the path of this belt, by eye alone?",
    cautions=("scope", "power off", "moving parts", "melted belts"),
    steps=("Power off, cells out. Lay a thread once round in the seats, taut, and mark where it meets itself.",
           "Take it off and read its length against a rule. Do it three times.",
           "Add what a belt's middle lies higher, once round: 2π times half its thickness less half the thread's.",
           "Divide by one plus the stretch you want, 5 % to begin with: that is the free length, along its middle.",
           "Find the belt of the bag that is nearest. Fit it, turn it by hand, and only then give it power."),
    write=("thread, three times", "path of the belt's middle", "free length to order", "belt of the bag"),
    tell="By how much may your length be off, and would another belt of the bag do as well?",
    bring=("an open belt drive without its belt, power off", "thin thread, a fine marker, a rule of 30 cm", "callipers, or the belts' thickness written on a card",
           "a bag of belts, each with a letter and its size", "gloves and paper, if an old belt is still in place"),
    exercises=(from_thread_problem, tension_problem), rooms=("belts",))
STATIONS = {one.name: one for one in (LOST_VOLTS, LEAKY_CAPACITOR, MOTOR, BELTS)}


def problems(station, *, seed, tables):
    """The exercises of every table, no two tables with the same numbers.

    Parameters
    ----------
    station : Station
    seed : int
    tables : int

    Returns
    -------
    tuple of tuple of Problem
        One pair a table. A further table changes nothing for those before it, nor does another station.
    """
    place = list(STATIONS).index(station.name)
    drawn = []
    for number, make in enumerate(station.exercises):
        rng, found = np.random.default_rng([seed, place, number]), {}
        while len(found) < tables:
            problem = make(rng)
            found.setdefault(problem.given, problem)
        drawn.append(tuple(found.values()))
    return tuple(zip(*drawn))


def in_order_for(sheet):
    """The stations, those first that teach what was wrong with the machine: the more of its parts, the earlier.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of Station
        In their usual order where the sheet found nothing.
    """
    told = [(FEED, one) for report in judge_sheet(sheet) for one in report.judgements]
    told += [(report.room, one) for report in judge_parts(sheet) for one in report.judgements]
    faulty = {(room, one.part) for room, one in told if one.verdict.word in (BAD, DOUBTFUL)}
    return tuple(sorted(STATIONS.values(), key=lambda station: -sum(room in station.rooms for room, _ in faulty)))


def cautions_of(stations):
    """What to read out, in the order in which cautions are read.

    Parameters
    ----------
    stations : sequence of Station

    Returns
    -------
    tuple of Caution
    """
    wanted = {name for station in stations for name in station.cautions}
    return tuple(one for one in all_cautions() if one.name in wanted)
