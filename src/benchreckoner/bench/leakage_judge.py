"""Leakage against the rules: which rule is for which age of part, each verdict by name, and what common practice says."""

from dataclasses import dataclass

from benchreckoner.bench.leakage_readings import LeakageSeries, leakage_series, year_made
from benchreckoner.bench.uncertain import Known, Readings, propagate
from benchreckoner.bench.verdict import BAD, DOUBTFUL, NEEDED, SOUND, UNTOLD, Verdict, judge_value, share_below
from benchreckoner.physics.leakage_limits import LEAKAGE_RULES, LeakageRule, leakage_limit
from benchreckoner.units import Q, show_exact

PRACTICE_RULE = "a hundredth and three"
PRACTICE_TIME = Q(2, "min")  # at working voltage: common practice for small parts
MANY = 10  # times the computed limit: common practice says many, ten is our choice
# From 0.7 of the rated voltage to all of it leakage about doubles. Open encyclopaedia, "Aluminum electrolytic
# capacitor". FOUND, rounded there.
NEAR_RATED, UP_TO_RATED = 0.7, 2.0
_AT_RATED = 0.98  # volts this near are the rated ones
AS_NEW, AS_MADE = "as good as a new one", "still what it was made to be"
_MILITARY, _MODERN = ("military 1940s",), ("a hundredth and three", "a hundredth, three at least")
_GRADES = {"long-life": ("long-life grade",), "general-purpose": ("general-purpose grade",)}


@dataclass(frozen=True)
class RuleVerdict:
    """What one rule says: its limit, how many times the limit flows, and the verdict.

    `multiple` is None where only a bound is known; `bound` then says which: ``"at most"`` or ``"at least"``.
    """

    question: str
    rule: LeakageRule
    limit: Q
    multiple: Known | None
    bound: str
    verdict: Verdict
    how: str


@dataclass(frozen=True)
class LeakageReport:
    """One series of readings, judged by every rule that is for such a part, and by common practice."""

    series: LeakageSeries
    rules: tuple[RuleVerdict, ...]
    practice: RuleVerdict | None
    stop: str = ""  # why nothing can be judged

    @property
    def span(self):
        """The mildest and the hardest word among the rules that can tell; empty if none can."""
        order = (SOUND, DOUBTFUL, BAD)
        words = [one.verdict.word for one in self.rules if one.verdict.word != UNTOLD]
        return (min(words, key=order.index), max(words, key=order.index)) if words else ()


def judge_leakage(sheet, readings=None):
    """Judge every series of leakage readings on a sheet.

    Parameters
    ----------
    sheet : Sheet
    readings : Readings, optional
        Of that sheet, to share a meter's percentage with other judgements.

    Returns
    -------
    tuple of LeakageReport
        Latest stage first.
    """
    found = leakage_series(sheet, readings if readings is not None else Readings(sheet))
    return tuple(judge_series(series) for series in reversed(found))


def judge_series(series):
    """Judge one series of readings.

    Parameters
    ----------
    series : LeakageSeries

    Returns
    -------
    LeakageReport
    """
    stop = _stop(series)
    if stop:
        return LeakageReport(series, (), None, stop)
    rules = tuple(_judged(series, question, LEAKAGE_RULES[name], LEAKAGE_RULES[name].read_after)
                  for question, name in rules_for(series.part))
    # Two minutes or more: a first reading that came later stands for them.
    practice = _judged(series, "common practice", LEAKAGE_RULES[PRACTICE_RULE], max(PRACTICE_TIME, series.points[0].after),
                       practice=True)
    return LeakageReport(series, rules, practice)


def rules_for(part):
    """The rules that are for a part, each with the question that it answers.

    Parameters
    ----------
    part : Part
        ``made`` holds a year somewhere, ``grade`` is long-life or general-purpose; both may be left out.

    Returns
    -------
    tuple of (question, rule's name)

    Notes
    -----
    Today's rule answers for every part whether it is as good as a new one. Whether it is still what it was made to be
    is the question of its own time: the 1940s rule up to 1959, the grades since 1970. Of the years between, and where
    no year is written, both are asked. The years follow each rule's `for_parts`; drawing the line there is our choice.
    """
    year = year_made(part)
    grade = part.details.get("grade", "").casefold().replace(" ", "-")
    graded = next((names for word, names in _GRADES.items() if word in grade), sum(_GRADES.values(), ()))
    own = () if year is not None and year >= 1970 else _MILITARY
    own += () if year is not None and year < 1960 else graded
    return tuple((AS_NEW, name) for name in _MODERN) + tuple((AS_MADE, name) for name in own)


def _stop(series):
    """Why nothing can be judged, or nothing."""
    details = series.part.details
    rated = details.get("rated_voltage")
    if rated is not None and series.applied is not None and series.applied > rated:
        return (f"{show_exact(series.applied, 'V')} were applied to a part made for {show_exact(rated, 'V')}. Discharge it and leave "
                "it off: nothing read above the rated voltage is judged here")
    if series.problems:
        return "; ".join(series.problems)
    if not series.points:
        return 'no reading says how long the part had been on voltage; write after = "5 min"'
    if series.rising:
        return ("the leakage grows with time on voltage. Take the part off voltage: one that warms up or breaks down does "
                "this, a sound one never")
    missing = [f'{key} = "{example}"' for key, example in (("capacitance", "100 uF"), ("rated_voltage", "16 V"))
               if key not in details]
    if missing:
        return f"a limit is reckoned from what is printed on the part; write {' and '.join(missing)}"
    return ""


def _judged(series, question, rule, time, practice=False):
    """One rule's verdict; common practice takes the working voltage as it is, a rule means the rated one."""
    details = series.part.details
    limit = leakage_limit(rule=rule.name, capacitance=details["capacitance"], voltage=details["rated_voltage"])
    known = series.at(time)
    low, high, how = known.low, known.high, known.how
    if not practice:
        high, words = _at_rated(series, high)
        how += words
    bad_from = MANY if practice else 1
    if low is not None and low is high:
        multiple = _times(low, limit)
        verdict = judge_value(value=multiple.plain, uncertainty=multiple.number.std_dev, sound_up_to=1, bad_from=bad_from)
        return RuleVerdict(question, rule, limit, multiple, "", verdict, how)
    least, most = _times(low, limit), _times(high, limit)
    verdict = _between(least, most, bad_from)
    by_least = most is None or verdict.word == BAD
    return RuleVerdict(question, rule, limit, least if by_least else most, "at least" if by_least else "at most", verdict, how)


def _times(current, limit):
    return None if current is None else propagate(lambda current: current / limit, "", current=current)


def _at_rated(series, high):
    """The most that would flow at rated voltage, and words on how that is known."""
    volts, rated = series.on_part, series.part.details["rated_voltage"]
    if volts is None:
        return None, ", at a voltage that is not written"
    share = (volts / rated).m_as("")
    if share >= _AT_RATED:
        return high, ""
    words = f", at {volts.m_as('V'):.3g} V of {rated.m_as('V'):g} V rated"
    if share < NEAR_RATED or high is None:
        return None, f"{words}, so that at rated voltage it is more"
    return Known(high.number * UP_TO_RATED, high.unit), f"{words}, so that at rated voltage it is up to about twice as much"


def _between(least, most, bad_from):
    """The verdict that holds wherever between its bounds the multiple lies."""
    sound = 0.0 if most is None else share_below(1, most.plain, most.number.std_dev)
    bad = 0.0 if least is None else share_below(-bad_from, -least.plain, least.number.std_dev)
    likely = max(sound, bad)
    return Verdict(UNTOLD if likely < NEEDED else SOUND if sound >= bad else BAD, likely)
