"""No two texts of a picture touch, and none leaves it, at corners of its sliders, on a wide screen and on a phone."""

import itertools
import random

import numpy as np
import pytest

from benchreckoner.lessons.series import live_pictures
from benchreckoner.show.draw import draw, look, redraw

SAMPLED = 4
KNOWN = {  # steps at which names once ran into each other
    "motor-lines": ((0, 0, 0, 0), (0, 0, 0, 9)), "pass-heat": ((55, 58), (0, 0)), "belt-off": ((0, 0),), "plate-side": ((42, 29, 6, 0),),
    "motor-pattern": ((30, 20, 13, 2), (45, 0, 40, 18)), "governor-contacts": ((0, 0, 0),),
}
ROOM, SLACK = 2, 0.2  # points between words side by side; a line's own air above and below its letters, in parts of it


def corners_of(picture):
    """A seeded few of all corners, and those where it went wrong before."""
    every = list(itertools.product(*((0, len(slider.steps) - 1) for slider in picture.sliders)))
    return (*KNOWN.get(picture.key, ()), *random.Random(picture.key).sample(every, min(SAMPLED, len(every))))


def words_of(drawn):
    """The text and the box of every word in the picture, as matplotlib's renderer measures it; its title and key are one."""
    renderer, axes = drawn.canvas.get_renderer(), drawn.axes[0]
    texts = list(axes.texts)
    for axis in (axes.xaxis, axes.yaxis):
        low, high = sorted(axis.get_view_interval())
        texts += [axis.label, *(tick.label1 for tick in axis.get_major_ticks() if low <= tick.get_loc() <= high)]
    return [*((text.get_text(), text.get_window_extent(renderer)) for text in texts if text.get_text()),
            ("title and key", drawn.legends[0].get_window_extent(renderer))]


def touching(drawn):
    """Pairs of words that touch or run together, and words that leave the drawing."""
    words = words_of(drawn)
    pairs = [(one, other) for (one, a), (other, b) in itertools.combinations(words, 2)
             if min(a.x1, b.x1) - max(a.x0, b.x0) > -ROOM and min(a.y1, b.y1) - max(a.y0, b.y0) > SLACK * min(a.height, b.height)]
    outside = [(word, "the edge") for word, a in words
               if a.x0 < -0.5 or a.y0 < -0.5 or a.x1 > drawn.bbox.x1 + 0.5 or a.y1 > drawn.bbox.y1 + 0.5]
    return pairs + outside


def cut_off(drawn):
    """Markers that reach beyond the drawing."""
    return [line.get_gid() for line in drawn.axes[0].lines if line.get_marker() not in ("None", None, "") and np.isfinite(line.get_xydata()).all()
            and not 0 <= drawn.axes[0].transData.transform(line.get_xydata())[0, 0] <= drawn.bbox.width - line.get_markersize() / 2]


@pytest.mark.parametrize("key, steps, name, other", [
    ("decibels", (60,), "watts here", "volts here"), ("pass-heat", (55, 29), "motor held", None), ("pass-heat", (55, 0), "motor held", None)])
def test_a_name_stands_at_its_own_mark(key, steps, name, other):
    """Where others once kept it away, at phone size: next to its own mark, and nearer to it than to another's."""
    picture = next(picture for picture in live_pictures() if picture.key == key)
    state = picture.at(dict(zip(picture.start, steps)))
    with look(True):
        drawn, _ = draw(state, True)
    box = dict(words_of(drawn))[name]
    away = {point.name: np.hypot(*np.subtract(spot, np.clip(spot, (box.x0, box.y0), (box.x1, box.y1)))) for point in state.points
            if point.drawn for spot in [drawn.axes[0].transData.transform((point.x, point.y))]}
    assert min(away, key=away.get) == name and away[name] < 16
    assert other is None or away[other] > away[name] + 5


@pytest.mark.parametrize("picture", live_pictures(), ids=lambda picture: picture.key)
@pytest.mark.parametrize("large", [False, True], ids=["wide", "phone"])
def test_no_two_words_touch_and_no_marker_is_cut_off(picture, large):
    drawn = None
    for steps in corners_of(picture):
        state = picture.at(dict(zip(picture.start, steps)))
        with look(large):
            if drawn is None:
                drawn, _ = draw(state, large)
                drawn.draw_without_rendering()
            else:
                redraw(drawn, state, large)
            assert touching(drawn) == [], steps
            assert cut_off(drawn) == [], steps
