"""What a motor's runs say in sentences, and which run would say more."""

from benchreckoner.bench.motor_run import HELD, LOADED, NO_LOAD
from benchreckoner.units import Q, show, show_exact, show_known

HOT = Q(1, "W")  # a held small motor that takes more than this soon scorches; our own choice
SOUND_SPREAD = 4 / 3  # highest ohms over lowest of a sound rotor: three segments, one brush on two of them
POSITIONS, APART = 6, 2.0
_RARE = 0.02
_ROUGH = 0.1


def told(runs, solved, *, positions, idle, fast):
    """What the runs say about the motor or about themselves, the gravest first.

    Parameters
    ----------
    runs : sequence of Run
    solved : Solved
    positions : sequence of Known [ohm]
    idle : Known [A] or None
    fast : sequence of Run
        Those that turn faster than their volts allow.

    Returns
    -------
    tuple of str
    """
    return (*_scorching(runs), *_impossible(solved, fast), *_driven(fast), *_uneven(positions), *_straying(solved, fast),
            *_idle_above_load(runs, idle))


def wanted(runs, solved, *, positions):
    """The next runs worth taking, the most telling first.

    Parameters
    ----------
    runs : sequence of Run
    solved : Solved
    positions : sequence of Known [ohm]

    Returns
    -------
    tuple of str
    """
    turning = [run for run in runs if run.turning]
    return (*_free_run(runs), *_speeds(runs), *_hold_it(solved, positions), *_second_load(turning, positions))


def _scorching(runs):
    for run in runs:
        watts = (run.voltage.value * run.current.value).to("W")
        if run.kind == HELD and watts > HOT:
            yield (f"Held on {show_exact(run.voltage.value, 'V')} this motor takes {show(watts, 'W')}, and all of it is heat in the "
                   "winding. Left on, a stalled motor scorches its varnish within minutes. Let go now, let it cool, and hold it again "
                   "on 1 to 2 V, for less than two seconds each time.")
            return


def _impossible(solved, fast):
    if not solved.possible and not fast:
        yield ("No motor gives these runs together: on the same volts, more current goes with less speed. Look for a speed counted half "
               "or double, a current read on another range, or volts read elsewhere than at the motor's own terminals.")


def _driven(fast):
    for run in fast:
        yield (f"The run {run.shown} turns faster than its {show_exact(run.voltage.value, 'V')} allow by the other runs. "
               "Either something drives the shaft, or the speed was counted too high: a strobe stands still at twice the speed too.")


def _uneven(positions):
    if len(positions) < 2:
        return
    low, high = min(positions, key=lambda one: one.plain), max(positions, key=lambda one: one.plain)
    if high.plain > SOUND_SPREAD * low.plain and high.lies_above(type(low)(SOUND_SPREAD * low.number, low.unit)):
        yield (f"The held rotor reads from {show(low.value, 'ohm')} to {show(high.value, 'ohm')} with its position, more than a third "
               "apart. A sound rotor stays within a third: a dirty or burnt segment, a worn brush, or a coil that is open.")


def _straying(solved, fast):
    if solved.chance < _RARE and not fast:
        where = f" Look first at the run {solved.worst.shown}." if solved.worst else ""
        yield ("The runs disagree by more than the instruments explain, and the uncertainty has been widened for it. Was the winding "
               f"warmer in some, or a speed counted wrongly? Brushes that take volts of their own do it too.{where}")


def _idle_above_load(runs, idle):
    for run in runs:
        if idle is not None and run.kind == LOADED and idle.lies_above(run.current):
            yield (f"The run {run.shown} draws less than the {show_known(idle.value, idle.expanded, 'A')} without a load. "
                   "Either the two were swapped, or something drives the shaft.")


def _free_run(runs):
    if not any(run.kind == NO_LOAD for run in runs):
        yield ("Run it with nothing on its shaft, belt off, straight on the bench supply: volts at its terminals, current and speed. "
               "That gives its own friction, and most of its motor constant.")


def _speeds(runs):
    for run in runs:
        if run.kind != HELD and run.speed is None:
            yield f"Take the speed of the run {run.shown} as well: without it that run says nothing about the magnet."


def _hold_it(solved, positions):
    rough = solved.resistance is None or solved.resistance.expanded > _ROUGH * solved.resistance.value
    if len(positions) < POSITIONS and (rough or len(positions) == 1):
        more = f"{POSITIONS - len(positions)} more positions" if positions else f"{POSITIONS} positions"
        yield (f"Hold the shaft at {more} of the rotor, on 1 to 2 V, for less than two seconds each, and read volts at the terminals and "
               "current. One position alone may read a quarter too low.")
    elif rough and positions:
        yield (f"The held positions scatter. Hold it at {POSITIONS} more, or take two loaded runs with currents two to one apart: a "
               "turning rotor takes the mean by itself.")


def _second_load(turning, positions):
    amps = [run.current.plain for run in turning]
    if not turning:
        return
    if not any(run.kind == LOADED for run in turning):
        yield "Load it until it draws at least twice its no-load current, and read all three again: that checks the other runs."
    elif not positions and len(turning) > 1 and max(amps) < APART * min(amps):
        yield (f"Currents of {show(Q(min(amps), 'A'), 'A')} to {show(Q(max(amps), 'A'), 'A')} lie too near each other to tell winding "
               "and magnet apart. Take one more run at twice the current, on the same volts.")
