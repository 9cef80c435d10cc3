"""Whether the words of a script are carried: each number by a reading, a judgement or a comparison of the sheet."""

import re

from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.tries import tallies
from benchreckoner.show.spoken import plain, unit_said
from benchreckoner.units import Q

_NUMBER = re.compile(r"(?<![\w.,])\d+(?:[.,]\d+)?")
_UNIT = re.compile(r"\s*([A-Za-zµμΩ\u2126°%]+(?:/[a-z]+)?(?: (?:metres|a minute|a second|seconds per radian|cent|Celsius))?)")
_WORD = re.compile(r"[\w%]+")
# No meter shows these.
_TOO_SURE = ("definitely", "certainly", "guaranteed", "beyond doubt", "without doubt", "as good as new", "perfect", "perfectly",
             "proves", "proven", "for ever", "100 per cent", "100 %")
UNCARRIED = "stands in no reading"  # how the mark of a figure that nothing carries begins


class Carried:
    """Every figure that a sheet carries, to look the words of a script through.

    Parameters
    ----------
    sheet : Sheet
    reports : tuple of StageReport
    parts : tuple of PartsReport
    """

    def __init__(self, sheet, reports, parts):
        self.figures, self.names = [], _names(sheet)
        for one in (piece for report in (*reports, *parts) for piece in _pieces(report)):
            for known in filter(None, (one.known, one.as_read, getattr(one.gain, "volts", None))):
                self._take(known.value, known.unit), self._take(known.expanded, known.unit)
                self._take(Q(known.plain + 2 * known.number.std_dev, known.unit), known.unit)
            if one.band is not None:
                for edge in (one.band.sound_up_to, one.band.bad_from, one.band.sound_down_to, one.band.bad_down_from):
                    self._take(edge, one.band.unit)
            self.figures.append((100 * one.verdict.probability, "percent"))
            self._take_words(f"{one.reason} {one.next}")
        for one in (*comparisons(reports), *comparisons(parts)):
            self._take(abs(one.change.value), one.change.unit), self._take(one.change.expanded, one.change.unit)
        self._take_sheet(sheet)

    def marks(self, text):
        """What in a text nothing carries, one sentence each.

        Parameters
        ----------
        text : str

        Returns
        -------
        tuple of str
        """
        found = [f"“{said}” {UNCARRIED}, judgement or comparison of this sheet. Take it out, enter the reading, "
                 "or say where it comes from." for said, value, unit, half in self._said(text) if not self._holds(value, unit, half)]
        low = f" {' '.join(_WORD.findall(text.casefold()))} "
        found += [f"“{word}” promises more than a reading can carry. Say how sure you are, or leave it out."
                  for word in _TOO_SURE if f" {word} " in low]
        return tuple(dict.fromkeys(found))

    def _said(self, text):
        """Each number of a text with its unit and half its last digit, the sheet's own names left out."""
        text = plain(text)
        for name in self.names:
            text = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", " … ", text, flags=re.IGNORECASE)
        for found in _NUMBER.finditer(text):
            number = found[0].replace(",", ".")
            behind = _UNIT.match(text, found.end())
            unit, factor = unit_said(behind[1]) if behind else (None, 1.0)
            if unit is None and behind:
                unit, factor = unit_said(behind[1].split(" ")[0])
            said = found[0] if unit is None else text[found.start():behind.end(1)]
            yield said, float(number) * factor, unit, 0.5 * _step(number) * factor

    def _holds(self, value, unit, half):
        near = half * (1 + 1e-6)
        if unit is not None:
            return any(abs(abs(figure) - value) <= near for figure, its in self.figures if its == unit)
        return any(abs(abs(figure) * 1000.0 ** power - value) <= near for figure, _ in self.figures for power in range(-4, 5))

    def _take(self, quantity, unit):
        if quantity is not None and abs(size := float(quantity.m_as(unit))) != float("inf"):
            self.figures.append((size, unit))

    def _take_words(self, text):
        self.figures += [(value, unit or "") for _, value, unit, _ in self._said(text)]

    def _take_sheet(self, sheet):
        for reading in sheet.readings:
            for typed in (reading.text, reading.after, reading.applied, reading.series_resistor):
                if typed is not None:
                    self._take_words(str(typed) if isinstance(typed, str) else f"{typed:~P}")
        for action in sheet.actions:
            for time in filter(lambda time: time is not None, (action.planned, action.took)):
                self._take_words(f"{time:~P}")
        if sheet.machine.supply is not None:
            self._take(sheet.machine.supply, "V")
        for one in sheet.settings:  # a dial's "5" carries a 5, but no other number's digits
            self._take_words(one.place)
        for tally in tallies(sheet):
            self.figures += [(float(count), "") for count in (tally.clean, tally.faults, tally.clean + tally.faults)]


def _pieces(report):
    chains = getattr(report, "chains", (report,))
    return [one for chain in chains for one in (*chain.judgements, *chain.findings)]


def _names(sheet):
    """What the sheet calls things, the longest first: a number in a name claims nothing."""
    words = [sheet.machine.name, *sheet.instruments, *sheet.parts, *(action.name for action in sheet.actions),
             *(thing for action in sheet.actions for thing in action.taken_off), *(one.what for one in sheet.symptoms),
             *(one.what for one in (*sheet.observations, *sheet.settings)), *(one.condition_tried for one in sheet.trials)]
    return sorted({plain(word) for word in words if plain(word)}, key=len, reverse=True)


def _step(number):
    """The worth of a number's last digit that counts: of a whole number, noughts behind the first two digits do not."""
    whole, _, part = number.partition(".")
    if part:
        return 10.0 ** -len(part)
    return 10.0 ** min(len(whole) - len(whole.rstrip("0")), max(0, len(whole) - 2))
