"""From a sheet's readings of a motor to the signs that its pattern is read from."""

from benchreckoner.bench.governor_judge import governor_line, headroom_left
from benchreckoner.bench.motor_pattern import NEEDED, number_sign, read_pattern, seen_sign
from benchreckoner.bench.motor_sheet import BELT_OFF, PLAYING, motor_sheet
from benchreckoner.bench.reasons import sentence, told
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import show_exact

_NO_USUAL = (60.0, 150.0)  # mA under load, common practice, where no usual current is written
_EVEN = 4 / 3  # highest over lowest ohms of a sound rotor's positions
# Words of an observation on motor, governor or what is driven, and what they say.
_SEEN = (("motion", "swinging", ("swing", "hunt", "surge")), ("motion", "spiky", ("spik", "rough", "crackl")),
         ("motion", "steady", ("steady", "smooth")), ("spun by hand", "drags", ("drag", "stops at once", "gum", "stiff")),
         ("spun by hand", "coasts", ("coast", "spins free")))
_SHOWN = 4
_WORTH_IT = 0.1  # bits: with a suspect named, a test that tells less waits
_LOOKED_AT = ("motor", "governor", "pulley", "belt")


def stage_pattern(sheet, stage, about=None):
    """The pattern of one stage's readings.

    Parameters
    ----------
    sheet : Sheet
    stage : str
    about : MotorSheet, optional
        What the sheet says of its motor, if that was gathered already.

    Returns
    -------
    Pattern or None
        None where nothing was read of the motor at work.
    """
    signs = stage_signs(sheet, stage, about)
    return read_pattern(signs) if any(sign.name in ("current", "speed", "motor volts", "volts in hand") for sign in signs) else None


def stage_signs(sheet, stage, about=None):
    """Every sign that the readings and observations of one stage give.

    Parameters
    ----------
    sheet : Sheet
    stage : str
    about : MotorSheet, optional
        What the sheet says of its motor, if that was gathered already.

    Returns
    -------
    tuple of Sign
    """
    about = motor_sheet(sheet) if about is None else about
    if about is None:
        return ()
    found = (_current(about, stage), _speed(about, stage), _volts(about, stage), _hand(about, stage), _belt_off(about, stage),
             _positions(about, stage), *_seen(sheet, stage))
    return tuple({sign.name: sign for sign in found if sign is not None}.values())


def _current(about, stage):
    moment = about.first(stage, PLAYING)
    if moment is None or not moment.current.plain > 0:
        return None
    usual = about.motor.details.get("rated_current")
    if usual is None:
        low, high = _NO_USUAL  # these two ends stand where 0.8 and 1.2 times the usual current would
        times = Known(0.8 + 0.4 * (1e3 * moment.current.number - low) / (high - low), "")
        beside = "the 60 to 150 mA that is common"
    else:
        times = Known(moment.current.number / usual.m_as("A"), "")
        beside = f"its usual {show_exact(usual, 'A')}"
    return number_sign("current", times.plain, times.number.std_dev, f"it draws {told(moment.current)}, beside {beside}")


def _speed(about, stage):
    rated = about.motor.details.get("rated_speed")
    moment = next((one for one in about.at(stage, PLAYING) if one.speed is not None), None)
    if rated is None or moment is None:
        return None
    off = Known(100 * (moment.speed.number / rated.m_as("turn/min") - 1), "")
    return number_sign("speed", off.plain, off.number.std_dev,
                       f"it turns {abs(off.plain):.2f} ± {2 * off.number.std_dev:.2f} % {'slow' if off.plain < 0 else 'fast'}")


def _volts(about, stage):
    """The motor's volts beside what its governor, rightly set, would give at this current."""
    moment, line, fit = about.first(stage, PLAYING), governor_line(about, stage), about.fit(stage)
    rated, usual = (about.motor.details.get(key) for key in ("rated_speed", "rated_current"))
    if None in (moment, line, fit, rated, usual) or None in (moment.terminal, fit.winding_resistance, fit.motor_constant):
        return None
    amps = usual.m_as("A")
    expected = (fit.motor_constant.number * rated.m_as("rad/s") + fit.winding_resistance.number * amps
                + line.compensation.number * (moment.current.number - amps))
    off = Known(100 * (moment.terminal.number / expected - 1), "")
    way = "off" if not off.differs() else "below" if off.plain < 0 else "above"
    return number_sign("motor volts", off.plain, off.number.std_dev,
                       f"the motor gets {told(moment.terminal)}, {abs(off.plain):.1f} ± {2 * off.number.std_dev:.1f} % {way} what a "
                       "governor rightly set gives at this current")


def _hand(about, stage):
    if about.governor is None:
        return None
    left = headroom_left(about, next((one for one in about.at(stage, PLAYING) if one.inlet is not None), None))
    if left is None or left.differs() and left.plain < 0:  # more volts behind the governor than ahead of it: a misreading
        return None
    return number_sign("volts in hand", left.plain, left.number.std_dev, f"{told(left)} stand between supply and motor")


def _belt_off(about, stage):
    moment = about.first(stage, BELT_OFF)
    if moment is None or not moment.current.plain > 0:
        return None
    return number_sign("belt off", 1e3 * moment.current.plain, 1e3 * moment.current.number.std_dev,
                       f"with its belt off it draws {told(moment.current)}")


def _positions(about, stage):
    fit = about.fit(stage)
    if fit is None or len(fit.positions) < 4:
        return None
    low, high = (choose(fit.positions, key=lambda one: one.plain) for choose in (min, max))
    level = "uneven" if high.lies_above(Known(_EVEN * low.number, low.unit)) else "even"
    return seen_sign("held positions", level, f"held, it has {told(low)} to {told(high)} by the place of its rotor")


def _seen(sheet, stage):
    for one in sheet.observations:
        if one.stage != stage or sheet.parts[one.part].kind not in _LOOKED_AT:
            continue
        for name, level, words in _SEEN:
            if any(word in one.what.casefold() for word in words):
                yield seen_sign(name, level, f"seen on {one.part}: {one.what}")
                break


def in_order(pattern):
    """The suspects in order with their odds, what speaks for the first, and how sure it is.

    Parameters
    ----------
    pattern : Pattern

    Returns
    -------
    str
    """
    odds = "; ".join(f"{one.name} {one.shown}" for one in pattern.suspects[:_SHOWN])
    first = pattern.suspects[0]
    start = (f"These readings fit {first.name}: {first.means}." if pattern.named else
             f"No cause reaches {100 * NEEDED:.0f} %, so none is named yet.")
    why = "".join(f" {sentence(words)}" for words in (*first.fits, *first.against)[:1])
    return f"{start} In order: {odds} (odds by common practice).{why}"


def next_in_words(pattern):
    """What to do next, as sentences: once a suspect is named, what finds the part; else the test that tells most a minute.

    Parameters
    ----------
    pattern : Pattern

    Returns
    -------
    tuple of str
    """
    then = (pattern.then,) if pattern.then else ()
    first = pattern.surer
    if first is None:
        return then or ("Every test of the table has been made.",)
    if then and first.gain < _WORTH_IT:
        return then
    shows = "; ".join(f"{name}, {level}" for name, level in first.shows)
    test = f"{first.how} It takes {first.minutes} min and tells {first.gain:.2f} bits. Expect: {shows}."
    if then:
        return (*then, f"To be surer of the name: {test}")
    if pattern.parting.name == first.name:
        return (test,)
    one, two = pattern.suspects[:2]
    return test, f"What would part {one.name} from {two.name}: {pattern.parting.how}"
