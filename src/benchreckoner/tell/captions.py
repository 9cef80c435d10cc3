"""Captions: sentences with their times, broken into lines that can be read, as WebVTT.

Sizes and times follow the subtitle guidelines of a public broadcaster (BBC, Subtitle Guidelines, sections 3 to 5, read in
an open copy; FOUND): 37 characters a line and two lines, 25 and three on an upright picture (3.1, 3.3); about 0.3 s a word at
least (4.1); between two captions no gap, or one of a second at least (4.5); at most 1.5 s after the voice has stopped (5.2);
breaks at punctuation, none after an article, a preposition or a conjunction (3.4).
"""

import math
import re
from dataclasses import dataclass

import numpy as np

from benchreckoner.physics.reading import WORD_SECONDS, caption_stay
from benchreckoner.units import Q

GUIDELINE = "BBC, Subtitle Guidelines, sections 3 to 5. FOUND, read in an open copy."
WIDTH, HEIGHT = 37, 2  # characters a line, lines a caption
UPRIGHT_WIDTH, UPRIGHT_HEIGHT = 25, 3
_LONG_SILENCE = 1000.0  # s; behind the last caption
_BINDS_ON = frozenset("a an the of on in at to by for from with without under over and but or that which who if as than "
                      "i you he she it we they is are was were has have had be been will would can could may not no its "
                      "their our your this these those about".split())
_LEADS_IN = frozenset("and but or because so that which who where when while after before until if from with to".split())
_CLOSED, _COMMA, _CAUTIOUS, _PLAIN, _BOUND = 0.0, 0.5, 1.0, 2.0, 6.0
_NEW_CAPTION, _RAGGED, _LONELY = 3.0, 1.5, 6.0
_SENTENCE_END = re.compile(r"(?<=[.!?…])[\"'”’)]*\s+")
_VALUE = re.compile(r"[+\-−±≈~]?\d[\d.,/]*%?")
_SIGN = re.compile(r"[±+\-−≈~=×]")
_UNIT = re.compile(r"(?:[a-zA-Zµ°Ω%]{1,4}|[a-zA-Zµ]+/[a-zA-Z]+|volts?|amps?|ohms?|per|seconds?|minutes?|decibels?)[.,;:!?]*")


@dataclass(frozen=True)
class Spoken:
    """One sentence as it is said: its text, when it begins and ends [s], and under which chapter it stands.

    ``sure`` : how sure its times are, 0 to 1; 1 where they are planned.
    """

    text: str
    start: float
    end: float
    chapter: str = ""
    sure: float = 1.0


@dataclass(frozen=True)
class Cue:
    """One caption: when it comes and goes [s], and its lines."""

    start: float
    end: float
    lines: tuple[str, ...]

    @property
    def wanted_seconds(self):
        """How long its words should stand at least."""
        return WORD_SECONDS * len(" ".join(self.lines).split())

    @property
    def hurried(self):
        """Whether it goes before its words can be read."""
        return self.end - self.start < self.wanted_seconds - 0.05


def sentences(text):
    """Part a text into its sentences.

    >>> sentences("It had 184 mV. Now it has 3.1 mV!  Why?")
    ('It had 184 mV.', 'Now it has 3.1 mV!', 'Why?')
    """
    parts, start = [], 0
    text = " ".join(text.split())
    for end in _SENTENCE_END.finditer(text):
        parts.append(text[start:end.end()].strip())
        start = end.end()
    return tuple(part for part in (*parts, text[start:]) if part)


def syllables(text):
    """About how many syllables a text has when it is said in English; what takes time to say, counted.

    >>> syllables("The spring took 184 mV.")
    11
    """
    return max(1, sum(_word_syllables(word) for word in text.split()))


def _word_syllables(word):
    digits = len(re.findall(r"\d", word))
    if digits:
        return 2 * digits + ("." in word.strip(".,"))
    letters = re.sub(r"[^a-zµω]", "", word.casefold())
    groups = len(re.findall(r"[aeiouy]+", letters)) - (letters.endswith("e") and not letters.endswith("le"))
    # A unit's symbol is said as a whole word.
    unit = letters in ("hz", "m", "µ", "ω") or len(letters) < 3 and word != "I" and (len(letters) == 1 or word[1:] != word[1:].lower())
    return max(groups, 2 if letters and unit and word[:1] != "a" else bool(letters))


def break_lines(text, *, width=WIDTH, height=HEIGHT):
    """Break one sentence into captions and their lines, at the places that disturb reading least.

    Parameters
    ----------
    text : str
    width, height : int
        Characters a line, lines a caption.

    Returns
    -------
    tuple of tuple of str
        For each caption its lines.

    Notes
    -----
    All ways to break it are weighed (dynamic programming). A value stays with its unit; a word longer than a line is cut.
    """
    words = _unbroken(text, width)
    best = {(0, 0): (0.0, None, None)}  # words used, lines in this caption: cost, where it came from, its line
    for used in range(len(words)):
        for line in range(height):
            if (used, line) in best:
                _extend(words, used, line, best, width, height)
    place = min((key for key in best if key[0] == len(words)), key=lambda key: best[key][0])
    found = []
    while best[place][1] is not None:
        _, before, text_line = best[place]
        found.append((before[1], text_line))
        place = before
    captions = []
    for line, text_line in reversed(found):
        if line == 0:
            captions.append([])
        captions[-1].append(text_line)
    return tuple(tuple(lines) for lines in captions)


def _extend(words, used, line, best, width, height):
    """Try every next line from here."""
    cost = best[used, line][0]
    text = ""
    for end in range(used + 1, len(words) + 1):
        text = f"{text} {words[end - 1]}" if text else words[end - 1]
        if len(text) > width:
            break
        last = end == len(words)
        price = 0.0 if last else _break_price(words[end - 1], words[end])
        ragged = 0.0 if last else _RAGGED * (1 - len(text) / width) ** 2
        # Two words by themselves are gone before they are seen.
        lonely = 0.0 if line or last and not used else _LONELY * (1 - len(text) / width) ** 2
        ways = [(0, _NEW_CAPTION + lonely + 2 * price)]
        if line + 1 < height and not last:
            ways.append((line + 1, price))
        for following, added in ways:
            total = cost + added + ragged
            if total < best.get((end, following), (math.inf,))[0]:
                best[end, following] = (total, (used, line), text)


def _break_price(before, after):
    if before[-1] in ".,;:!?…)”–":
        return _COMMA if before[-1] == "," else _CLOSED
    if before.casefold() in _BINDS_ON:
        return _BOUND
    return _CAUTIOUS if after.casefold() in _LEADS_IN else _PLAIN


def _unbroken(text, width):
    """The words, a value and its unit as one, nothing longer than a line."""
    words = []
    for word in text.split():
        joined = f"{words[-1]} {word}" if words else word
        last = words[-1].split()[-1] if words else ""
        started = bool(words and _VALUE.match(words[-1]))
        belongs = (_VALUE.fullmatch(last) and _UNIT.fullmatch(word) or started and _SIGN.fullmatch(word)
                   or _SIGN.fullmatch(last) and _VALUE.match(word))
        if belongs and len(joined) <= width:
            words[-1] = joined
        else:
            words += [word[place:place + width] for place in range(0, len(word), width)]
    return words


def cues(spoken, *, width=WIDTH, height=HEIGHT):
    """Captions for sentences that are said one after the other.

    Parameters
    ----------
    spoken : sequence of Spoken
        In the order of their times.
    width, height : int

    Returns
    -------
    tuple of Cue
        A sentence's time is shared by its captions as their syllables are; one that is too short for its words borrows from
        those that have time to spare. None overlap; gaps are nought or a second at least.
    """
    raw = []
    for sentence in spoken:
        captions = break_lines(sentence.text, width=width, height=height)
        start = sentence.start
        for lines, seconds in zip(captions, _shares(captions, sentence.end - sentence.start)):
            raw.append((start, start + seconds, lines))
            start += seconds
        raw[-1] = (raw[-1][0], sentence.end, raw[-1][2])
    following = [start for start, _, _ in raw[1:]] + [math.inf]
    return tuple(Cue(start, _stays_until(start, end, after, lines), lines)
                 for (start, end, lines), after in zip(raw, following))


def _shares(captions, span):
    """How much of a sentence's time each of its captions gets."""
    spoken = np.array([syllables(" ".join(lines)) for lines in captions], dtype=float)
    shares = span * spoken / spoken.sum()
    spare = shares - [WORD_SECONDS * len(" ".join(lines).split()) for lines in captions]
    if spare.sum() < 0 or (spare >= 0).all():
        return shares.tolist()
    lacking, left = np.maximum(-spare, 0), np.maximum(spare, 0)
    return (shares + lacking - left * lacking.sum() / left.sum()).tolist()


def _stays_until(start, end, after, lines):
    """When a caption goes: with its voice, or later where its words need that or the silence is too short for a gap."""
    silence = Q(min(max(0.0, after - end), _LONG_SILENCE), "s")
    goes = start + caption_stay(words=len(" ".join(lines).split()), voice=Q(end - start, "s"), silence=silence).m_as("s")
    return after if math.isclose(goes, after, abs_tol=1e-9) else goes  # no gap, not one of a rounding


def vtt(shown, *, notes=()):
    """Captions as the text of a WebVTT file (W3C).

    Parameters
    ----------
    shown : sequence of Cue
    notes : sequence of str
        Remarks for whoever opens the file; players leave them out.

    Returns
    -------
    str
    """
    blocks = ["WEBVTT", *("NOTE\n" + _remark(note) for note in notes)]
    blocks += [f"{number}\n{timestamp(cue.start)} --> {timestamp(cue.end)}\n" + "\n".join(_escaped(line) for line in cue.lines)
               for number, cue in enumerate(shown, 1)]
    return "\n\n".join(blocks) + "\n"


def chapter_cues(spoken):
    """One cue for each chapter, from its first sentence to the next chapter's."""
    starts = [sentence for place, sentence in enumerate(spoken) if place == 0 or sentence.chapter != spoken[place - 1].chapter]
    ends = [sentence.start for sentence in starts[1:]] + [spoken[-1].end if spoken else 0.0]
    return tuple(Cue(sentence.start, end, (sentence.chapter,)) for sentence, end in zip(starts, ends))


def timestamp(seconds):
    """Seconds as WebVTT writes them.

    >>> timestamp(3723.4567)
    '01:02:03.457'
    """
    thousandths = round(seconds * 1000)
    minutes, rest = divmod(thousandths, 60000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{rest // 1000:02d}.{rest % 1000:03d}"


def _escaped(text):
    """Text that a player shows as it stands. With > escaped no arrow is left either."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _remark(text):
    """Text that ends no note before its time: no empty line, no arrow."""
    return "\n".join(line.replace("-->", "→") for line in text.splitlines() if line.strip())
