"""What a motor's readings cannot mean, told by name: turned leads, a speed of a held shaft, a stalled motor left on, a belt that helps."""

from benchreckoner.bench.judge import unjudged
from benchreckoner.bench.motor_run import HELD
from benchreckoner.bench.motor_sheet import BELT_OFF, KINDS, PLAYING
from benchreckoner.bench.reasons import told
from benchreckoner.units import Q, show

STALLED, RUN, SWAPPED, BENCH_RUNS = "stalled motor", "bench run", "belt off against belt on", "bench runs together"
_LONGEST_HELD = Q(2, "s")


def odd_readings(about, stage):
    """What one stage's readings of the motor cannot mean, or should not have been.

    Parameters
    ----------
    about : MotorSheet
    stage : str

    Yields
    ------
    Judgement
        A finding: it has a reason and a next step, and no verdict.
    """
    moments = [one for one in about.moments if one.stage == stage]
    for moment in moments:
        for name, reason, then in (*_stalled(moment), *(_odd_run(moment) if moment.condition in KINDS else ())):
            yield unjudged(about.motor, name, stage, moment.condition, reason=reason, next=then)
    for reason, then in _swapped(about, stage):
        yield unjudged(about.motor, SWAPPED, stage, PLAYING, reason=reason, next=then)
    fit = about.fit_here(stage)
    if fit is not None and fit.reasons:
        yield unjudged(about.motor, BENCH_RUNS, stage, "bench supply", reason=" ".join(fit.reasons), next=fit.wants[0] if fit.wants else "")


def _stalled(moment):
    if moment.condition.endswith("held") and moment.after is not None and moment.after > _LONGEST_HELD:
        yield (STALLED, f"Held for {show(moment.after, 's', digits=2)}: all that a stalled motor takes turns to heat in its winding.",
               "Switch off, let it cool for ten minutes, and hold it for 2 s at most, on 1 to 2 V.")
    if moment.condition in (PLAYING, BELT_OFF) and moment.speed is not None and not moment.speed.plain > 0:
        yield (STALLED, "It stands while it is on: all that a stalled motor takes turns to heat in its winding.",
               "Switch off, and free what blocks it before it goes on again. If it was the platter that stood and not the motor, look at the belt.")


def _odd_run(moment):
    """What keeps a run on the bench supply from being used."""
    name = f"The run {moment.run}" if moment.run else "This run has no name, and it"
    read = {"current": moment.current, "volts": moment.terminal}
    for what, known in read.items():
        if known is not None and not known.plain > 0:
            yield (RUN, f"{name} has {told(known)}: nothing flows, or the meter's leads were turned round. It is left out.",
                   f"Turn the leads round and read the {what} again.")
    for what in (what for what, known in read.items() if known is None):
        yield (RUN, f"{name} has no {what}, so it is left out.",
               f"Enter the {what} of the motor as well, under the same run and condition.")
    if moment.speed is None:
        return
    if KINDS[moment.condition] == HELD:
        yield (RUN, f"{name} has a speed, and a held shaft has none. The speed is left out.",
               "If the shaft turned, enter the run as no load or loaded.")
    elif not moment.speed.plain > 0:
        yield (RUN, f"{name} stands still. Its speed is left out.", 'Enter a shaft that stands as "bench supply, held", and let go within 2 s.')


def _swapped(about, stage):
    on, off = about.first(stage, PLAYING), about.first(stage, BELT_OFF)
    if None not in (on, off) and on.current.plain > 0 and off.current.lies_above(on.current):
        yield (f"With its belt off it draws {told(off.current)}, playing {told(on.current)}: a belt cannot help the motor.",
               "See whether the two were swapped, or read on different volts; then read both again.")
