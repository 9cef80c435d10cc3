"""From a few runs on the bench back to the motor: winding resistance, motor constant, no-load current, each with its uncertainty."""

from dataclasses import dataclass

from benchreckoner.bench.motor_run import HELD, NO_LOAD, Run
from benchreckoner.bench.motor_solve import averaged, held_ohms, solve, too_fast
from benchreckoner.bench.motor_words import told, wanted
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import Q, need

__all__ = ["MotorFit", "Run", "fit_motor"]


@dataclass(frozen=True)
class MotorFit:
    """One motor from its runs; what they cannot tell is None, and `wants` says which run would settle it.

    Parameters
    ----------
    winding_resistance : Known [ohm] or None
        Mean over the rotor's positions, at the temperature of the runs.
    motor_constant : Known [V*s/rad] or None
    no_load_current : Known [A] or None
        Taken as the same at every speed.
    brush_drop : Quantity [V]
        As it was given.
    positions : tuple of Known [ohm]
        Ohms at each position of the held rotor.
    reasons : tuple of str
        What the runs say about the motor or about themselves, the gravest first; plain text.
    wants : tuple of str
        The next runs worth taking, the most telling first; empty where nothing is left open.
    """

    winding_resistance: Known | None
    motor_constant: Known | None
    no_load_current: Known | None
    brush_drop: Q
    positions: tuple
    reasons: tuple
    wants: tuple


def fit_motor(runs, *, brush_drop=Q(0, "V")):
    """Winding resistance, motor constant and no-load current that fit the runs best, with what they leave open.

    Parameters
    ----------
    runs : sequence of Run
        Of one motor, in any order: held at several rotor positions, without a load, under one or more loads.
    brush_drop : Quantity [V], optional
        Taken off the volts of every run; none for a small motor, whose brushes then count as winding.

    Returns
    -------
    MotorFit

    Raises
    ------
    ValueError
        If the brushes would take all the volts of a run, or there is no run at all.

    Notes
    -----
    Weighted least squares on V - Vb = I R + Ke w. Uncertainties (k = 2) carry the instruments' limits, what readings share
    included, and the scatter: of the held positions over their number, widened by Student's t for few of them, and of all
    runs together where they stray further than the instruments explain, the larger of both. One held position alone may read a
    quarter low. All runs should be at one temperature: copper adds 0.4 % a kelvin.
    """
    runs = tuple(runs)
    if not runs:
        raise ValueError("runs: there is none; begin with one run without a load: volts, current and speed")
    drop = need(brush_drop, "V", "brush_drop", least=0)
    if any(run.voltage.value <= drop for run in runs):
        raise ValueError(f"brush_drop: takes all the volts of a run, got {drop:~P}; write Q(0, 'V') for a small motor")
    positions = tuple(held_ohms(run, drop) for run in runs if run.kind == HELD)
    solved = solve(runs, drop)
    idle = averaged([run.current.number for run in runs if run.kind == NO_LOAD])
    idle = None if idle is None else Known(idle, "A")
    return MotorFit(solved.resistance, solved.constant, idle, drop, positions,
                    reasons=told(runs, solved, positions=positions, idle=idle, fast=too_fast(runs, drop)),
                    wants=wanted(runs, solved, positions=positions))
