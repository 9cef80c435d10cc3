"""Everything on the sheet that is judged part by part, and not as a chain."""

from benchreckoner.bench.capacitor_sheet import judge_capacitors
from benchreckoner.bench.motor_judge import judge_motors
from benchreckoner.bench.signal_judge import judge_signal

ROOMS = ("signal", "capacitors", "motor")


def judge_parts(sheet):
    """Judge what passes sound, the capacitors, and the motor with its governor.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of PartsReport
        The latest stage first; within one, in the order of `ROOMS`.
    """
    reports = (*judge_signal(sheet), *judge_capacitors(sheet), *judge_motors(sheet))
    return tuple(sorted(reports, key=lambda report: -sheet.stages.index(report.stage)))


def latest_of(reports, room):
    """The latest report of one room, or None."""
    return next((report for report in reports if report.room == room), None)
