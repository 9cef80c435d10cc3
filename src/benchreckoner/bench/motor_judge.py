"""Judgements of the motor: its constants, what it draws, how fast it runs, and what belt and bearings take of it."""

from dataclasses import replace

from benchreckoner.bench.governor_judge import judge_governor
from benchreckoner.bench.judge import WORST_FIRST, PartsReport, unjudged
from benchreckoner.bench.motor_limits import judge_within, motor_band
from benchreckoner.bench.motor_odd import odd_readings
from benchreckoner.bench.motor_sheet import BELT_OFF, PLAYING, motor_sheet
from benchreckoner.bench.motor_signs import in_order, stage_pattern, next_in_words
from benchreckoner.bench.reasons import told, verdict_words
from benchreckoner.bench.uncertain import Known, propagate
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD, Verdict
from benchreckoner.physics.motors import shaft_torque
from benchreckoner.units import Q, show, show_exact

ROOM, ON_BENCH = "motor", "bench supply"
WINDING, CONSTANT, IDLE = "winding resistance", "motor constant", "no-load current"
CURRENT, SPEED, TORQUE, PATTERN = "current", "speed", "torque of belt and bearings", "pattern"
_HEALTHY = "healthy"
_BELT_OFF_NEXT = "Take the belt off and read the current again, in the same place: that splits the motor from what it drives."


def judge_motors(sheet, about=None):
    """Judge the motor and its governor at every stage that has readings of them.

    Parameters
    ----------
    sheet : Sheet
    about : MotorSheet, optional
        What the sheet says of its motor, if that was gathered already.

    Returns
    -------
    tuple of PartsReport
        The latest stage first.
    """
    about = motor_sheet(sheet) if about is None else about
    if about is None or not (about.tells_of_motor or any(about.wheel_speeds(stage) for stage in sheet.stages)):
        return ()
    reports = (_judge_stage(sheet, about, stage) for stage in reversed(sheet.stages))
    return tuple(report for report in reports if report.judgements or report.findings)


def _judge_stage(sheet, about, stage):
    judged = [*_constants(about, stage), *_currents(about, stage), *_speeds(about, stage), *_wheels(about, stage), *_mechanics(about, stage),
              *judge_governor(about, stage), *_pattern(sheet, about, stage)]
    judged.sort(key=lambda one: WORST_FIRST.index(one.verdict.word))
    return PartsReport(ROOM, stage, tuple(judged), tuple(odd_readings(about, stage)))


def _constants(about, stage):
    """What the bench runs of this stage add up to."""
    fit = about.fit_here(stage)
    if fit is None:
        return
    blank = unjudged(about.motor, WINDING, stage, ON_BENCH)
    then = fit.wants[0] if fit.wants else ""
    found = []
    if fit.winding_resistance is not None:
        found.append(_against(replace(blank, known=fit.winding_resistance), motor_band("winding"),
                              "Read the held rotor at more positions, under 2 s each."))
    if fit.motor_constant is not None:
        found.append(replace(blank, quantity=CONSTANT, known=fit.motor_constant, verdict=Verdict(UNTOLD if fit.reasons else SOUND, 1.0),
                             reason=f"{told(fit.motor_constant)}, and as many newton metres an ampere. It has no limit of its own: "
                             "a weaker magnet shows as a smaller constant than before."))
    if fit.no_load_current is not None:
        found.append(_against(replace(blank, quantity=IDLE, known=fit.no_load_current), motor_band("idle"),
                              "Read it again on a finer range, after a minute of running."))
    if not found:
        found = [replace(blank, reason="The bench runs do not add up to a motor yet.", next=then)]
    yield replace(found[0], next=then or found[0].next)
    yield from found[1:]


def _currents(about, stage):
    """What it draws while playing and with its belt off, each at every time it was read."""
    usual = about.motor.details.get("rated_current")
    for moment in (one for one in about.at(stage, PLAYING) if one.current is not None):
        blank = replace(unjudged(about.motor, CURRENT, stage, moment.when), known=moment.current)
        if moment.current.plain <= 0:
            yield _backwards(blank)
            continue
        band = motor_band("current") if usual is None else motor_band("current_by_usual", usual)
        more = "" if usual is None else (f" That is {moment.current.plain / usual.m_as('A'):.2f} times its own usual "
                                         f"{show_exact(usual, 'A')}.")
        judged = _against(blank, band, "Read the current again on a finer range.")
        heavy = judged.verdict.word in (BAD, DOUBTFUL) and about.first(stage, BELT_OFF) is None
        yield replace(judged, reason=judged.reason + more, next=_BELT_OFF_NEXT if heavy else judged.next)
    idle = about.first(stage, BELT_OFF)
    if idle is not None:
        blank = replace(unjudged(about.motor, CURRENT, stage, idle.when), known=idle.current)
        yield _backwards(blank) if idle.current.plain <= 0 else _against(
            blank, motor_band("idle"), "Read the current again on a finer range, after a minute of running.")


def _speeds(about, stage):
    rated = about.motor.details.get("rated_speed")
    for moment in (one for one in about.at(stage, PLAYING) if one.speed is not None):
        blank = replace(unjudged(about.motor, SPEED, stage, moment.when), known=moment.speed)
        if rated is None:
            yield replace(blank, reason=f"{told(moment.speed)}, and no rated speed to hold it against.", no_band=True,
                          next='Write rated_speed = "2400 turn/min" with the motor, as its set needs it.')
            continue
        off = Known(100 * (moment.speed.number / rated.m_as("turn/min") - 1), "percent")
        way = "slow" if off.plain < 0 else "fast"
        size = f"{abs(off.plain):.2f} ± {2 * off.number.std_dev:.2f} % {way}"
        judged = _against(blank, motor_band("speed", rated), "Take the speed again, over a longer time.")
        yield replace(judged, reason=f"{judged.reason} That is {size}.")


def _wheels(about, stage):
    """Wheels whose speed says nothing of the motor's yet: with no limit, but there to be compared before and after."""
    for wheel, known in about.wheel_speeds(stage):
        yield replace(unjudged(wheel, SPEED, stage, PLAYING), known=known, no_band=True,
                      reason=f"{told(known)}, and nothing to hold it against: how often the motor turns for each turn of it is not written.",
                      next=f"Count or reckon that, and write it at {wheel.name}, for example ratio = 5.6, and rated_speed with the motor.")


def _mechanics(about, stage):
    """Belt off against belt on: the torque that the motor keeps, and what belt and bearings take."""
    split = torque_split(about, stage)
    if split is None:
        return
    own, driven, moment = split
    blank = replace(unjudged(about.motor, TORQUE, stage, moment.when), known=driven)
    keeps = f"{told(driven)} beyond the {show(own.value, 'N*m')} that the motor keeps for itself."
    usual = about.motor.details.get("rated_current")
    if not driven.differs():
        yield replace(blank, reason=f"{keeps} That is nothing that can be told from none.", next="Read both currents again on a finer range.")
        return
    if usual is None:
        yield replace(blank, no_band=True, reason=f"{keeps} No usual current is written with the motor to hold it against.",
                      next='Write rated_current = "70 mA" with the motor if its board or its papers say so.')
        return
    idle = about.first(stage, BELT_OFF).current
    if idle.plain >= usual.m_as("A"):
        yield replace(blank, no_band=True, reason=f"{keeps} With its belt off it draws its usual current already.",
                      next="The motor itself drags: look at its bearings, brushes and commutator.")
        return
    allowed = Q(driven.plain * (usual.m_as("A") - idle.plain) / (moment.current.plain - idle.plain), "N*m")
    judged = _against(blank, motor_band("torque", allowed), "Read both currents again on a finer range.")
    times = driven.plain / allowed.m_as("N*m")
    yield replace(judged, reason=f"{judged.reason} That is {times:.2f} times what its usual current leaves for them, "
                  f"beyond the {show(own.value, 'N*m')} that the motor keeps for itself.")


def torque_split(about, stage):
    """The two readings that split motor from mechanics, as torques.

    Parameters
    ----------
    about : MotorSheet
    stage : str

    Returns
    -------
    own : Known [N*m]
        What the motor's own friction takes, belt off.
    driven : Known [N*m]
        What belt and bearings take while playing.
    moment : Moment
        The one of playing.

    Notes
    -----
    None where the belt was never off, where no motor constant is known, or where a current is nought. Torque goes with
    current beyond the no-load current, not with the current.
    """
    on, off, fit = about.first(stage, PLAYING), about.first(stage, BELT_OFF), about.fit(stage)
    if on is None or off is None or fit is None or fit.motor_constant is None:
        return None
    if not 0 < off.current.plain < on.current.plain:
        return None
    return _torque(off.current, fit), _torque(on.current - off.current, fit), on


def _torque(current, fit):
    """Torque of so much current beyond what is left out of it."""
    return propagate(lambda current, constant: shaft_torque(current=current, no_load_current=Q(0, "A"), motor_constant=constant), "N*m",
                     current=current, constant=fit.motor_constant)


def _pattern(sheet, about, stage):
    """The readings together: the suspects in order, and the next test."""
    pattern = stage_pattern(sheet, stage, about)
    if pattern is None:
        return
    word = UNTOLD if pattern.named is None else SOUND if pattern.word == _HEALTHY else DOUBTFUL
    yield replace(unjudged(about.motor, PATTERN, stage, PLAYING), no_band=True, verdict=Verdict(word, pattern.suspects[0].odds),
                  reason=in_order(pattern), next=" ".join(next_in_words(pattern)))


def _against(blank, band, then):
    verdict = judge_within(blank.known, band)
    return replace(blank, band=band, verdict=verdict, reason=f"{told(blank.known)}: {verdict_words(band, verdict)}.",
                   next=then if verdict.word == UNTOLD else "")


def _backwards(blank):
    return replace(blank, reason=f"{told(blank.known)}: nothing flows, or the meter was in the other way round.",
                   next="Turn the meter's leads round and read the current again.")
