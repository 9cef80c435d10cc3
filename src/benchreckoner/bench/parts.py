"""Everything on the sheet that is judged part by part, and not as a chain."""

from benchreckoner.bench.belt_judge import judge_belts
from benchreckoner.bench.capacitor_sheet import judge_capacitors
from benchreckoner.bench.cells_judge import judge_supply
from benchreckoner.bench.motor_judge import judge_motors
from benchreckoner.bench.resistor_judge import judge_resistors
from benchreckoner.bench.signal_judge import judge_signal
from benchreckoner.bench.transistor_judge import judge_transistors

ROOMS = ("signal", "capacitors", "motor", "belts", "supply", "transistors", "resistors")


def judge_parts(sheet):
    """Judge what passes sound, the capacitors, the motor with its governor, its belt, what feeds them, transistors and resistors.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartsReport
        The latest stage first; within one, in the order of `ROOMS`.
    """
    judges = (judge_signal, judge_capacitors, judge_motors, judge_belts, judge_supply, judge_transistors, judge_resistors)
    reports = [report for judge in judges for report in judge(sheet)]
    return tuple(sorted(reports, key=lambda report: -sheet.stages.index(report.stage)))


def latest_of(reports, room):
    """The latest report of one room, or None."""
    return next((report for report in reports if report.room == room), None)
