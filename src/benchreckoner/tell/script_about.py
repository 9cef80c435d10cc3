"""The description to publish with a film of the repair: chapters with their times, parts, sources, a place for corrections."""

import html
import re
from pathlib import Path

from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.reasons import mark_words
from benchreckoner.bench.recordings import RecordingError
from benchreckoner.bench.vocabulary import NUMBER_DETAILS, QUANTITY_DETAILS
from benchreckoner.show.spoken import plain
from benchreckoner.tell.script_claims import UNCARRIED
from benchreckoner.tell.script_look import clock
from benchreckoner.tell.script_outline import chapter_times
from benchreckoner.tell.voice import find_voice
from benchreckoner.units import show_exact

OURS = "reckoned with Bench Reckoner."  # by which an earlier one is known again, whatever else is said of it
SHORTEST_CHAPTER = 10  # s: common practice of sites that show films; they want the first one at 0:00 as well
_CUE = re.compile(r"^(?:(\d+):)?(\d\d):(\d\d\.\d{3}) +-->.*\n(.+)$", re.MULTILINE)
# What a viewer needs to find such a part, in the order in which it is said, and the words round its value.
_FOUND_BY = {"style": "{}", "section": "{}", "thickness": "{} thick", "width": "{} wide", "length": "{}",
             "hardness": "hardness {}", "capacitance": "{}", "resistance": "{}", "impedance": "{}", "rated_voltage": "{}", "rated_power": "{}",
             "rated_current": "{}", "rated_speed": "{}", "tolerance": "{} either way", "chemistry": "{}", "count": "{} of them",
             "capacity": "{}", "diameter": "{} across", "height": "{} high", "lead_spacing": "leads {} apart", "ratio": "1 to {}"}


def description(script, sheet, spoken_times=(), judgements=None):
    """What to publish with the film.

    Parameters
    ----------
    script : Script
    sheet : Sheet
    spoken_times : sequence of (str, float)
        Where each chapter begins in the recorded voice; empty where there is none.
    judgements : pair of tuples, optional
        What `judge_sheet` and `judge_parts` gave, where that is known already.

    Returns
    -------
    str
    """
    times = spoken_times or chapter_times(script.used, "camera", script.words_per_minute)
    head = "Chapters (by the recorded voice)" if spoken_times else "Chapters (planned: put in those of the film)"
    lines = [f"{plain(script.machine)}: a repair, told from its readings",
             f"{_whose_figures(script)} from the bench sheet or from a limit named here, {OURS}", "", head]
    lines += [f"{clock(start)} {plain(chapter)}" for chapter, start in long_enough(times)]
    fitted = dict.fromkeys(name for action in sheet.actions for name in action.fitted if name in sheet.parts)
    if fitted:
        lines += ["", "Parts fitted, in this order", *(_in_full(sheet.parts[name]) for name in fitted)]
    lines += ["", "On the bench", *([_shortly(part) for name, part in sheet.parts.items() if name not in fitted] or ["- nothing else"])]
    sources = _sources(script, judgements or (judge_sheet(sheet), judge_parts(sheet)))
    lines += ["", "Sources of the limits", *(sources or ["none: no limit is spoken of"])]
    lines += ["", "Corrections", "None so far. If you find a mistake, write; what is put right stands here, with its date.", ""]
    return "\n".join(lines)


def _whose_figures(script):
    """Nothing is promised of a figure in the author's own words that no reading carries."""
    added = any(UNCARRIED in mark for line in script.used for mark in script.marks.get(line.id, ()))
    return "Its figures, but for those that the author added, come" if added else "Every figure in it comes"


def long_enough(times):
    """Chapters as sites that show films take them: the first at the start, none too short; a short one is joined to the next.

    Parameters
    ----------
    times : sequence of (str, float)
        Chapter and seconds from the start.

    Returns
    -------
    list of (str, float)

    Notes
    -----
    How long the last one is depends on the film, and is not looked at.

    Examples
    --------
    >>> long_enough([("What was wrong", 1.2), ("How we know", 6.0), ("What we did", 40.0)])
    [('What was wrong; How we know', 0.0), ('What we did', 40.0)]
    """
    joined = []
    for place, (chapter, start) in enumerate(times):
        if joined and round(start) - round(joined[-1][1]) < SHORTEST_CHAPTER:
            joined[-1] = (f"{joined[-1][0]}; {chapter}", joined[-1][1])
        else:
            joined.append((chapter, start if place else 0.0))
    return joined


def heard_chapters(script, folder):
    """Where each chapter begins in the recorded voice, by the captions that were made after it.

    Parameters
    ----------
    script : Script
    folder : path-like

    Returns
    -------
    tuple of (str, float)
        Empty if there is no voice, if no captions were made since, or if they tell other chapters than the script does now.
    """
    try:
        voice, chapters = find_voice(folder), Path(folder) / "chapters.vtt"
        if voice is None or not chapters.is_file() or chapters.stat().st_mtime < voice.stat().st_mtime:
            return ()
        text = chapters.read_text(encoding="utf-8")
    except (OSError, RecordingError, UnicodeDecodeError):
        return ()
    found = tuple((html.unescape(title.strip()), 3600 * int(hours or 0) + 60 * int(minutes) + float(seconds))
                  for hours, minutes, seconds, title in _CUE.findall(text))
    wanted = [chapter for chapter, _ in chapter_times(script.used, "camera", script.words_per_minute)]
    return found if [chapter for chapter, _ in found] == wanted else ()


def _in_full(part):
    found_by = {**_FOUND_BY, "length": f"{{}} {part.details.get('sold_as', 'long')}"}  # a belt is sold by one of several lengths
    details = ", ".join(words.format(_detail(key, part.details[key])) for key, words in found_by.items() if key in part.details)
    return f"{_shortly(part)}{f': {details}' if details else ''}"


def _detail(key, value):
    if key == "tolerance":
        return f"{100 * value:g} %"
    if key in QUANTITY_DETAILS:
        return show_exact(value, QUANTITY_DETAILS[key][0])
    return f"{value:g}" if key in NUMBER_DETAILS else plain(str(value))


def _shortly(part):
    kind = f" ({part.kind})" if part.kind != part.name else ""
    return f"- {plain(part.name)}{kind}"


def _sources(script, judgements):
    """Where the limits of the parts that are spoken of come from."""
    spoken = {(claim.part, claim.quantity) for line in script.used for claim in line.claims}
    bands = [one.band for reports in judgements for report in reports for one in report.judgements
             if one.band is not None and (one.part, one.quantity) in spoken]
    told = [(band.source, mark_words(band.mark)) for band in bands]
    return list(dict.fromkeys(f"- {source}" if mark in source else f"- {source} ({mark})" for source, mark in told))
