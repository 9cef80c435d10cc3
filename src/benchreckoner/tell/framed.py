"""A picture and its words in one frame, wide or upright, as pixels and as a drawing.

The picture is the large one of the books. Its words stand beside or under it in a panel
of their own, so that none of them can reach into the picture.
"""

import functools
import io
import re
from dataclasses import dataclass
from html import escape

import matplotlib.image
import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font

from benchreckoner.show.draw import INK, PAPER, look, size_of, written
from benchreckoner.show.still import svg_of, svg_text

SHAPES = {"wide": (1280, 720), "upright": (720, 1280)}  # pixels, 16 to 9 and 9 to 16
# Points of text, the first that fits. The smallest is at least 19 pixels of a frame: 12 on a phone 844 pixels long that
# is turned to suit a wide one, 10 on one held upright.
_SIZES = (22, 20, 18, 17, 16, 15, 14, 13, 12, 11, 10)
_MARGIN, _LINE, _GAP = 14, 1.3, 0.6  # points; heights of the text
_INCH = 72  # points
_MEASURED = 100  # points, at which widths are taken
BEFORE_UNIT = re.compile(r"(?<=\d) (?=[%°µa-zA-ZΩ]{1,3}\b|%|°C)|(?<=±) (?=\d)")  # a line does not end here
NO_BREAK = "\u00a0"


@dataclass(frozen=True)
class Words:
    """What stands by a picture: what it is about in bold, a sentence, and at the foot where it comes from."""

    head: str = ""
    sentence: str = ""
    foot: str = ""


@dataclass(frozen=True)
class Layout:
    """Where picture and panel stand in a frame: left, top, width and height in pixels; and pixels to an inch."""

    frame: tuple
    dots: float
    picture: tuple
    panel: tuple


def layout(picture, shape):
    """The layout of a frame, the same for every state of a picture.

    Parameters
    ----------
    picture : Picture
    shape : str
        One of `SHAPES`.

    Returns
    -------
    Layout
    """
    width, height = SHAPES[shape]
    across, up = size_of(picture, True)
    if shape == "wide":
        dots, taken = height / up, round(across * height / up)
        return Layout((width, height), dots, (0, 0, taken, height), (taken, 0, width - taken, height))
    dots, taken = width / across, round(up * width / across)
    return Layout((width, height), dots, (0, 0, width, taken), (0, taken, width, height - taken))


def card(shape):
    """The layout of a frame of words alone."""
    width, height = SHAPES[shape]
    return Layout((width, height), 160.0, (0, 0, 0, 0), (0, 0, width, height))


def pixels(place, drawing, words):
    """A frame as pixels.

    Parameters
    ----------
    place : Layout
    drawing : numpy.ndarray or None
        From `picture_pixels`; None leaves its place empty.
    words : Words

    Returns
    -------
    numpy.ndarray of uint8
        Rows, columns, and red, green and blue.
    """
    width, height = place.frame
    frame = np.full((height, width, 3), 255, np.uint8)
    for part, box in ((drawing, place.picture), (_pixels(panel(place, words)), place.panel)):
        if part is not None:
            left, top, wide, high = box
            part = part[:high, :wide]
            frame[top:top + part.shape[0], left:left + part.shape[1]] = part
    return frame


def picture_pixels(place, drawn):
    """A picture's large figure as it stands in such a frame."""
    drawn.set_dpi(place.dots)
    return _pixels(drawn)


def png(frame, about):
    """A frame as the bytes of a PNG file; `about` is kept in it as its software."""
    buffer = io.BytesIO()
    matplotlib.image.imsave(buffer, frame, format="png", metadata={"Software": about})
    return buffer.getvalue()


def svg(place, picture, words, about):
    """A frame as the text of an SVG file, its letters drawn as outlines; `about` is kept in it.

    Parameters
    ----------
    place : Layout
    picture : Picture or None
    words : Words
    about : str

    Returns
    -------
    str
    """
    width, height = place.frame
    parts = [(svg_of(panel(place, words), prefix="words-"), place.panel)]
    if picture is not None:
        parts.append((svg_text(picture, large=True, prefix="picture-"), place.picture))
    drawn = "\n".join(text.replace("<svg ", f'<svg x="{left}" y="{top}" width="{wide}" height="{high}" ', 1)
                      for text, (left, top, wide, high) in parts)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="{width}" height="{height}" '
            f'viewBox="0 0 {width} {height}">\n<metadata>{about}</metadata>\n'
            f"<title>{escape(written(' '.join((words.head, words.sentence, words.foot)).strip()))}</title>\n"
            f'<rect width="{width}" height="{height}" fill="{PAPER}"/>\n{drawn}\n</svg>\n')


def panel(place, words):
    """The words as a figure, in the largest size that fits.

    Parameters
    ----------
    place : Layout
    words : Words

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    ValueError
        If they do not fit even at the smallest size.
    """
    wide, high = (side / place.dots * _INCH for side in place.panel[2:])
    for size in _SIZES:
        head, sentence, foot = (_lines(text, wide - 2 * _MARGIN, size * share, weight) for text, share, weight in (
            (words.head, 1, "bold"), (words.sentence, 1, "normal"), (words.foot, 0.8, "normal")))
        needed = size * (_LINE * (len(head) + len(sentence) + 0.8 * len(foot)) + 2 * _GAP)
        if needed <= high - 2 * _MARGIN:
            return _panel(place, size, head, sentence, foot)
    raise ValueError(f"words of {len(words.head + words.sentence + words.foot)} letters do not fit beside a picture: {words.sentence[:80]}...")


def _panel(place, size, head, sentence, foot):
    with look(True):
        drawn = Figure(figsize=[side / place.dots for side in place.panel[2:]], dpi=place.dots, facecolor=PAPER)
        FigureCanvasAgg(drawn)
        high = place.panel[3] / place.dots * _INCH
        down = _MARGIN

        def write(lines, points, weight):
            nonlocal down
            for line in lines:
                drawn.text(_MARGIN / (place.panel[2] / place.dots * _INCH), 1 - (down + points) / high, line, fontsize=points,
                           fontweight=weight, va="baseline", ha="left", color=INK)
                down += _LINE * points

        write(head, size, "bold")
        down += _GAP * size * bool(head)
        write(sentence, size, "normal")
        down = high - _MARGIN - _LINE * 0.8 * size * len(foot)
        write(foot, 0.8 * size, "normal")
    return drawn


def _lines(text, room, size, weight):
    """The text in lines that are at most so many points wide; a word too long for a line is cut."""
    lines = [""]
    for word in BEFORE_UNIT.sub(NO_BREAK, written(" ".join(text.split()))).split(" "):
        if not word:
            continue
        if not lines[-1] or _wide(f"{lines[-1]} {word}", weight) * size <= room:
            lines[-1] = f"{lines[-1]} {word}".strip()
        else:
            lines.append(word)
        while _wide(lines[-1], weight) * size > room:
            fits = next(count for count in range(len(lines[-1]) - 1, 0, -1)
                        if count == 1 or _wide(lines[-1][:count], weight) * size <= room)
            lines[-1:] = [lines[-1][:fits], lines[-1][fits:]]
    return [line for line in lines if line]


@functools.lru_cache(maxsize=20_000)
def _wide(text, weight):
    """Points across at a size of one point."""
    letters = get_font(findfont(FontProperties(family=["DejaVu Sans"], weight=weight)))
    letters.set_size(_MEASURED, _INCH)  # each time: whoever draws shares these letters
    letters.set_text(text)
    return letters.get_width_height()[0] / 64 / _MEASURED


def _pixels(drawn):
    drawn.canvas.draw()
    return np.asarray(drawn.canvas.buffer_rgba())[:, :, :3].copy()
