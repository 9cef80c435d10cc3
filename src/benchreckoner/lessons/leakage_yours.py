"""Book 03, the reader's own leakage readings: the form, each rule's answer, the law through them, and saying it."""

from html import escape

import ipywidgets
import numpy as np
from IPython.display import Markdown

from benchreckoner.bench.leakage_judge import judge_leakage
from benchreckoner.bench.leakage_readings import ACROSS, LEAKAGE, time_words
from benchreckoner.bench.leakage_words import headline, name_of, notes, practice_line, rule_line
from benchreckoner.bench.reasons import mark_words, told
from benchreckoner.lessons.your_bench import SIGNS, my_guesses, my_sheet, readings_form
from benchreckoner.show.form import Field
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.show.still import still
from benchreckoner.units import Q, show

_FIRST, _LAST = 10.0, 7200.0  # s


def leakage_form():
    """A form for leakage readings of the sheet's capacitors, each with its time, volts and resistor.

    Returns
    -------
    EntryForm
    """
    return readings_form(quantities=(ACROSS, LEAKAGE), kinds=("capacitor",), judged=leakage_html, further=(
        Field("applied", "Volts of the supply", placeholder="such as 10 V"),
        Field("series_resistor", "Resistor in series", placeholder="such as 10 kohm")))


def leakage_html(sheet):
    """What a sheet's leakage readings say, series by series, as HTML made from escaped parts.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
    """
    reports = judge_leakage(sheet)
    if not reports:
        return ("<p>No leakage reading of a capacitor yet. Discharge the part, look at plus and minus, put it behind the resistor, "
                "start the watch, and read after 1, 2 and 5 minutes.</p>")
    return "".join(_report_html(report) for report in reports)


def my_leakage_law():
    """The readings of each part on the desk's sheet, the law through them and the limits: one picture a series.

    Returns
    -------
    ipywidgets.HTML
        Words that say what to read first, where nothing can be drawn.
    """
    drawn = [law_picture(report) for report in judge_leakage(my_sheet()) if report.series.law is not None and not report.stop]
    if not drawn:
        return ipywidgets.HTML("<p>Two readings of one part at two times are needed for a line, three to see whether it is "
                               "one. Enter them above, then run this cell again.</p>")
    return ipywidgets.HTML("".join(still(picture)._repr_html_() for picture in drawn))


def law_picture(report):
    """Readings of one series, the power law through them with its uncertainty, and the rules' limits.

    Parameters
    ----------
    report : LeakageReport
        Of a series with a law.

    Returns
    -------
    Picture
    """
    series, law = report.series, report.series.law
    seconds = np.geomspace(_FIRST, _LAST, 61)
    line = [law.at(Q(one, "s")) for one in seconds]
    value, spread = np.array([[1e6 * one.plain, 2e6 * one.number.std_dev] for one in line]).T
    ordered = sorted(report.rules, key=lambda one: one.limit)
    strictest, mildest = ordered[0], ordered[-1]
    points = {time_words(point.after): point for point in series.points if _FIRST <= point.after.m_as("s") <= _LAST
              and point.read.plain > 0}
    heights = [*(1e6 * point.read.plain for point in points.values()), *(one.limit.m_as("uA") for one in ordered), value[-1]]
    five = law.at(Q(5, "min"))
    left_out = sum(not point.usable for point in series.points)
    return Picture(
        title=f"Leakage of {name_of(series)}",
        x=Axis("time on voltage", "s", _FIRST, _LAST, scale="log"),
        y=Axis("current", "uA", 10 ** np.floor(np.log10(min(heights)) - 0.3), 10 ** np.ceil(np.log10(max(heights)) + 0.3), scale="log"),
        curves=(Curve("law through the readings", seconds, value),),
        bands=(Band("holds about 95 %", seconds, np.maximum(value - spread, 1e-9), value + spread),),
        points=tuple(Point(name, float(point.after.m_as("s")), 1e6 * point.read.plain, "own" if point.usable else "extra")
                     for name, point in points.items()),
        limits=tuple(Limit(f"{word} rule", "y", float(one.limit.m_as("uA")))
                     for word, one in (("strictest", strictest), ("mildest", mildest))),
        sentence=(f"Through {law.count} readings of {series.part.name} runs a law that gives {told(five)} after five minutes. "
                  f"The strictest rule here is {_named(strictest)}, the mildest {_named(mildest)}."
                  + (f" {left_out} of the readings {'was' if left_out == 1 else 'were'} left out of the law." if left_out else "")),
        alt=("Current against time on voltage, both axes log: the readings, a falling straight line through them with a band of "
             f"its uncertainty, and level lines at the strictest and the mildest limit of {len(ordered)} rules. After five "
             f"minutes the law stands at {told(five)}."))


def say_my_leakage():
    """Say it: two sentences on one part's leakage, then ours, from the same readings."""
    best = next((report for report in judge_leakage(my_sheet()) if report.practice is not None
                 and report.practice.multiple is not None and not report.practice.bound), None)
    if best is None:
        return Markdown("No part has a leakage yet that can be told in a number. Enter readings after 1, 2 and 5 minutes above, "
                        "then run this cell again.")
    return say_it("leakage", "Tell in two sentences whether this part leaks too much. Say what it is, how you know, how sure you "
                  "are, and what you do not know.", ours=say_ours(best), checks=say_checks(best), store=my_guesses())


def say_ours(report):
    """Our sentences on one series whose leakage is known."""
    last = report.series.points[-1]
    practice = practice_line(report).partition("; ")[0] + "."
    return (f"{report.series.part.name} still passes {told(last.read)} after {time_words(last.after)} on voltage, charging "
            f"{'included' if last.mostly_charging else 'over'}. {practice} What this does not show is its leakage when warm, nor "
            "its capacitance and series resistance.")


def say_checks(report):
    """What the reader's sentences on one series are looked through for."""
    return SayChecks(what=(report.series.part.name,),
                     quantities=tuple((point.read.value, "A") for point in reversed(report.series.points)))


def _report_html(report):
    first, stop, rest = headline(report).partition(". ")
    words = f"<p><strong>{escape(first + stop.strip())}</strong> {escape(rest)}</p>"
    if report.stop:
        return words
    rules = "".join(f"<li>{SIGNS[one.verdict.word]} {escape(rule_line(one))}</li>" for one in report.rules)
    practice = f"<p>{SIGNS[report.practice.verdict.word]} {escape(practice_line(report))}</p>"
    more = "".join(f"<li>{escape(line)}</li>" for line in notes(report.series))
    return (f"{words}{practice}<details><summary>Rule by rule ({len(report.rules)})</summary><ul>{rules}</ul></details>"
            f"<details><summary>How it is known</summary><ul>{more}</ul></details>")



def _named(one):
    return f"“{one.rule.name}” ({mark_words(one.rule.mark)}) with {show(one.limit, 'A')} after {time_words(one.rule.read_after)}"
