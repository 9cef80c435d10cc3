"""Speeds counted: against marks laid down flash by flash, ripple against a count of brushes and segments that meet."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.physics.turning import (filmed_speed, ripple_frequency, ripple_per_turn, ripple_speed, seen_speed,
                                           strobe_speed)
from benchreckoner.units import Q


@given(bars=some.integers(2, 200), flicker=some.floats(20, 200), passed=some.integers(1, 3), drift=some.floats(-5, 5))
def test_bars_from_flash_to_flash(bars, flicker, passed, drift):
    """Between flashes the disc moves on by so many bars and a little more; that little more, each second, is the drift."""
    speed = strobe_speed(flicker_frequency=Q(flicker, "Hz"), bars=bars, passed=passed, drift=Q(drift, "1/s"))
    moved = speed.m_as("turn/s") / flicker * bars
    assert (moved - passed) * flicker == pytest.approx(drift, abs=1e-7)
    seen = seen_speed(speed=speed, marks=bars, rate=Q(flicker, "Hz")).m_as("turn/s") * bars
    assert seen == pytest.approx(drift, abs=1e-6)


@given(turns=some.floats(0, 100), marks=some.integers(1, 6), rate=some.floats(10, 240))
def test_what_is_seen_lands_where_the_marks_lie(turns, marks, rate):
    """After one frame, true and seen motion put the marks in the same places, and nothing seen is past half a spacing."""
    seen = seen_speed(speed=Q(turns, "turn/s"), marks=marks, rate=Q(rate, "1/s")).m_as("turn/s")
    apart = (turns - seen) / rate * marks
    assert apart == pytest.approx(round(apart), abs=1e-6) and abs(seen) <= rate / marks / 2 * (1 + 1e-9)


def test_slow_enough_is_seen_truly():
    assert seen_speed(speed=Q(800, "turn/min"), marks=1, rate=Q(30, "1/s")).m_as("turn/min") == pytest.approx(800)


@given(turns=some.floats(0.25, 50), frames=some.integers(101, 2000), rate=some.floats(24, 240))
def test_filmed_turns_by_the_clock(turns, frames, rate):
    assert filmed_speed(turns=turns, frames=frames, frame_rate=Q(rate, "1/s")).m_as("turn/s") == pytest.approx(turns / (frames / rate))


@pytest.mark.parametrize("segments", [2, 3, 5, 7, 8, 9, 12])
def test_ripple_counts_the_meetings_of_brush_and_gap(segments):
    """Two brushes half a turn apart: a ripple whenever a gap passes either; gaps that pass both at once count once."""
    places = {(2 * gap + segments * brush) % (2 * segments) for gap in range(segments) for brush in range(2)}
    assert ripple_per_turn(brushes=2, segments=segments) == len(places)


@given(turns=some.floats(1, 6000), brushes=some.sampled_from([2, 4]), segments=some.integers(2, 12))
def test_ripple_there_and_back(turns, brushes, segments):
    hertz = ripple_frequency(speed=Q(turns, "turn/min"), brushes=brushes, segments=segments)
    assert ripple_speed(frequency=hertz, brushes=brushes, segments=segments).m_as("turn/min") == pytest.approx(turns)
    assert hertz.m_as("Hz") == pytest.approx(turns / 60 * np.lcm(brushes, segments))


@pytest.mark.parametrize(("call", "told"), [
    (lambda: strobe_speed(flicker_frequency=Q(100, "Hz"), bars=180, drift=Q(50, "1/s")), "drift: must be below half"),
    (lambda: strobe_speed(flicker_frequency=Q(100, "Hz"), bars=0), "bars: must be above zero"),
    (lambda: strobe_speed(flicker_frequency=Q(0, "Hz"), bars=180), "flicker_frequency"),
    (lambda: filmed_speed(turns=130, frames=240, frame_rate=Q(240, "1/s")), "turns: .* half a turn a frame"),
    (lambda: filmed_speed(turns=-1, frames=240, frame_rate=Q(240, "1/s")), "turns"),
    (lambda: seen_speed(speed=Q(-5, "turn/min"), marks=1, rate=Q(30, "1/s")), "speed"),
    (lambda: ripple_per_turn(brushes=2, segments=0), "segments"),
])
def test_what_cannot_be_is_told(call, told):
    with pytest.raises(ValueError, match=told):
        call()


def test_bare_numbers_are_refused():
    with pytest.raises(TypeError, match="segments"):
        ripple_per_turn(brushes=2, segments=3.0)
    with pytest.raises(TypeError, match="turns"):
        filmed_speed(turns="ten", frames=240, frame_rate=Q(240, "1/s"))
