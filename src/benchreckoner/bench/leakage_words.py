"""The sentences behind a judgement of leakage: each rule by name with its mark, and what to say when rules disagree."""

import math

from benchreckoner.bench.leakage_judge import AS_MADE, AS_NEW, MANY, NEAR_RATED
from benchreckoner.bench.leakage_readings import time_words
from benchreckoner.bench.reasons import mark_words, sentence, sureness
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.units import Q, show, show_exact

_AGAINST = {SOUND: "within it", BAD: "over it", UNTOLD: "can't tell yet"}
_PRACTICE = {SOUND: "sound", DOUBTFUL: "over the limit, but not many times", BAD: "bad, many times over",
             UNTOLD: "can't tell yet"}


def name_of(series):
    """A series in words: part, condition, volts."""
    volts = f", {show_exact(series.applied, 'V')}" if series.applied is not None else ""
    return f"{series.part.name} ({series.stage}, {series.condition}{volts})"


def headline(report):
    """One sentence on a series: what all rules say, or between what they lie.

    Parameters
    ----------
    report : LeakageReport

    Returns
    -------
    str
    """
    name = name_of(report.series)
    if report.stop:
        return sentence(f"{name}: leakage not judged. {report.stop}")
    told_by = [one for one in report.rules if one.verdict.word != UNTOLD]
    if not told_by:
        return f"{name}: can't tell yet, by no rule. {next_step(report)}"
    mildest, hardest = report.span
    untold = len(report.rules) - len(told_by)
    if mildest == hardest:
        words = {SOUND: "within", BAD: "over"}[mildest]
        if not untold:
            return f"{name}: {mildest}, its leakage is {words} each of {len(told_by)} rules."
        return (f"{name}: {mildest} as far as can be told: {words} {_names(told_by)}; {untold} more can't tell yet. "
                f"{next_step(report)}")
    answers = " ".join(_answer(question, told_by) for question in (AS_NEW, AS_MADE))
    return (f"{name}: the rules disagree, from {mildest} to {hardest}. {answers} So say both, with the rule's name. What counts "
            "is what this leakage does in its place.")


def rule_line(one):
    """One rule's verdict as a sentence: name, mark, limit, multiple, how it is known."""
    limit = f"{one.rule.name} ({_known_from(one.rule)}), {show(one.limit, 'A')}"
    return sentence(f"{limit}: {_times(one)}, {_AGAINST[one.verdict.word]}{_sure(one)}; {one.how}")


def practice_line(report):
    """What common practice says, marked as such.

    Parameters
    ----------
    report : LeakageReport

    Returns
    -------
    str
    """
    one = report.practice
    return sentence(f"Common practice, no published rule: after two minutes at working voltage, {_times(one)} the limit of "
                    f"“{one.rule.name}” ({show(one.limit, 'A')}), {_PRACTICE[one.verdict.word]}{_sure(one)}. Many is "
                    f"{MANY} times here, by our own choice; {one.how}")


def notes(series):
    """What else the readings tell: charging current, the law they follow, what was taken for granted.

    Parameters
    ----------
    series : LeakageSeries

    Returns
    -------
    list of str
    """
    lines = []
    for point in series.points:
        if point.mostly_charging:
            most = point.charging.plain + 2 * point.charging.number.std_dev
            lines.append(f"After {time_words(point.after)}, {show(point.read.value, 'A')} were read, of which about "
                         f"{show(point.charging.value, 'A', digits=2)}, at most {show(Q(most, 'A'), 'A', digits=2)}, "
                         "may still be charging current. It is left out: wait longer, or take a smaller resistor.")
        elif not point.shows:
            lines.append(f"After {time_words(point.after)} the reading does not differ from nothing by more than "
                         "the instrument may be off; it only says \"no more than that\".")
    if series.law is not None:
        slope = _plain(-series.law.slope.plain, 2 * series.law.slope.number.std_dev)
        lines.append(f"The readings fall as one over the time to the power of {slope} (common are 0.5 to 1, from memory).")
        if series.law.bent:
            lines.append("They lie off that law by more than the instrument explains, so the uncertainty was widened: is "
                         "charging current in it, did the part warm up, or has it come down to its floor?")
    if series.untimed:
        lines.append(f"{series.untimed} without a time on voltage {'was' if series.untimed == 1 else 'were'} left out.")
    return lines + [sentence(words) for words in series.assumed]


def next_step(report):
    """What to read so that a rule can tell."""
    series = report.series
    if series.condition == "in circuit":
        return "Lift one leg and read again: in circuit, the rest of the circuit leaks too."
    if series.points and series.points[-1].charging is None:
        return "Write the series resistor, the volts applied and the part's capacitance: else it may be charging current."
    if series.points and not series.usable:
        return "Wait until the charging current has gone, or take a smaller resistor, and read again."
    volts, rated = series.on_part, series.part.details["rated_voltage"]
    if volts is None or volts < NEAR_RATED * rated:
        return (f"A rule means the rated {show_exact(rated, 'V')}: read again with that much on the part, through the resistor, "
                "at 1, 2 and 5 minutes.")
    return "Read at 1, 2 and 5 minutes, on the smallest range that holds it, at the rated voltage."


def _answer(question, told_by):
    ours = [one for one in told_by if one.question == question]
    words = {one.verdict.word for one in ours}
    names = "; ".join(f"{_AGAINST[word].removesuffix(' it')} {_names([one for one in ours if one.verdict.word == word])}"
                      for word in (SOUND, BAD) if word in words)
    reply = {frozenset(): "can't tell yet", frozenset({SOUND}): "yes", frozenset({BAD}): "no"}.get(frozenset(words), "by some")
    return f"Is it {question}? {reply.capitalize()}{f' ({names})' if names else ''}."


def _names(rules):
    return " and ".join(f"“{one.rule.name}”, {mark_words(one.rule.mark)}" for one in rules)


def _known_from(rule):
    return mark_words(rule.mark) + (", second-hand" if rule.second_hand else "")


def _times(one):
    if one.multiple is None:
        return "how many times is not known"
    size = one.multiple
    if one.bound:
        edge = size.plain + (2 if one.bound == "at most" else -2) * size.number.std_dev
        return f"{one.bound} {float(f'{max(edge, 0):.2g}'):g} times"
    return f"{_plain(size.plain, 2 * size.number.std_dev)} times"


def _plain(value, expanded):
    """A plain number with its expanded uncertainty: a multiple takes no prefix."""
    decimals = max(0, 1 - math.floor(math.log10(expanded))) if expanded > 0 else 2
    return f"{value:.{decimals}f} ± {expanded:.{decimals}f}"


def _sure(one):
    return "" if one.verdict.word == UNTOLD or one.verdict.probability > 0.999 else f", {sureness(one.verdict.probability)}"
