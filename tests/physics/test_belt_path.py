"""A belt's path by other routes: a convex hull, a string pulled taut by a solver, triangles with a known answer."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as some
from scipy.optimize import minimize
from scipy.spatial import ConvexHull

from benchreckoner.physics import belt_lengths, belt_path, belt_sizes
from benchreckoner.units import Q

STEADY = settings(max_examples=40, deadline=None)
RIM = np.linspace(0, 2 * np.pi, 4001)
DEMO = dict(first_diameter=Q(6, "mm"), second_diameter=Q(60, "mm"), distance=Q(55, "mm"))


def path(circles, senses, height=0.0):
    radii, across, up = np.array(circles, dtype=float).T
    return belt_path.belt_path(diameters=Q(2 * radii, "mm"), across=Q(across, "mm"), up=Q(up, "mm"), senses=senses,
                               neutral_height=Q(height, "mm"))


def hull(circles):
    """Length of a string round all the circles, by the hull of finely sampled rims."""
    rims = np.vstack([np.column_stack((x + r * np.cos(RIM), y + r * np.sin(RIM))) for r, x, y in circles])
    return ConvexHull(rims).area  # in the plane scipy calls the perimeter area


@STEADY
@given(first=some.floats(1, 15), second=some.floats(5, 100), gap=some.floats(0.5, 200), height=some.floats(0, 2))
def test_two_open_pulleys_against_the_hull_and_the_general_law(first, second, gap, height):
    apart = first + second + gap
    found = belt_path.two_pulley_path(first_diameter=Q(2 * first, "mm"), second_diameter=Q(2 * second, "mm"),
                                      distance=Q(apart, "mm"), neutral_height=Q(height, "mm"))
    assert found.length.m_as("mm") == pytest.approx(hull([(first + height, 0, 0), (second + height, apart, 0)]), rel=2e-6)
    general = path([(first, 0, 0), (second, apart, 0)], [1, 1], height)
    assert general.length.m_as("mm") == pytest.approx(found.length.m_as("mm"))
    assert general.wraps.m_as("rad") == pytest.approx([found.first_wrap.m_as("rad"), found.second_wrap.m_as("rad")])
    assert general.turning == pytest.approx(1) and not (general.untouched or general.blocked or general.crossings)


@STEADY
@given(first=some.floats(1, 15), second=some.floats(5, 100), gap=some.floats(2.5, 200), height=some.floats(0, 1))
def test_two_crossed_pulleys_against_the_general_law(first, second, gap, height):
    apart = first + second + gap
    found = belt_path.two_pulley_path(first_diameter=Q(2 * first, "mm"), second_diameter=Q(2 * second, "mm"),
                                      distance=Q(apart, "mm"), neutral_height=Q(height, "mm"), crossed=True)
    general = path([(first, 0, 0), (second, apart, 0)], [1, -1], height)
    assert general.length.m_as("mm") == pytest.approx(found.length.m_as("mm"))
    assert general.turning == pytest.approx(0, abs=1e-9) and general.crossings == ((0, 1),)


@STEADY
@given(some.lists(some.tuples(some.floats(2, 12), some.floats(-0.3, 0.3)), min_size=3, max_size=6), some.floats(60, 120))
def test_many_pulleys_of_one_sense_against_the_hull(pulleys, out):
    """Pulleys on a ring, jostled, all of which the belt touches."""
    turns = np.arange(len(pulleys)) * 2 * np.pi / len(pulleys) + np.array([jostle for _, jostle in pulleys])
    circles = [(radius, out * np.cos(turn), out * np.sin(turn)) for (radius, _), turn in zip(pulleys, turns)]
    found = path(circles, [1] * len(circles))
    assume(not found.untouched and found.turning < 1.5)
    assert found.length.m_as("mm") == pytest.approx(hull(circles), rel=2e-6)
    assert found.spans.m_as("mm").sum() + (found.wraps.m_as("rad") @ [radius for radius, *_ in circles]) == pytest.approx(
        found.length.m_as("mm"))


def test_an_idler_at_the_back_against_a_string_pulled_taut():
    """The shortest way that winds as told: where it leaves and meets each pulley is left to a solver."""
    circles, senses = [(5, 0, 0), (20, 100, 0), (6, 45, 12)], np.array([1, 1, -1])
    radii, across, up = np.array(circles).T

    def length(angles):
        meets, leaves = angles[:3], angles[3:]
        start = np.column_stack((across + radii * np.cos(leaves), up + radii * np.sin(leaves)))
        end = np.column_stack((across + radii * np.cos(meets), up + radii * np.sin(meets)))
        spans = np.hypot(*(np.roll(end, -1, axis=0) - start).T)
        return spans.sum() + radii @ (senses * (leaves - meets))

    found = path(circles, senses.tolist())
    # A string's length is stationary in every place where it leaves or meets a rim.
    begin = np.array([np.pi / 2, -np.pi / 2, 5.2, 3 * np.pi / 2, np.pi / 2 + 0.2, 4.0])
    taut = minimize(lambda angles: sum((length(angles + step) - length(angles - step)) ** 2 for step in 1e-4 * np.eye(6)),
                    begin, method="Nelder-Mead", options=dict(maxiter=40000, maxfev=40000, xatol=1e-10, fatol=1e-22))
    assert found.length.m_as("mm") == pytest.approx(length(taut.x), rel=1e-6)
    assert found.turning == pytest.approx(1) and not (found.untouched or found.blocked or found.crossings)


@STEADY
@given(turn=some.floats(0, 6.28), right=some.floats(-50, 50))
def test_turning_moving_and_reversing_change_nothing(turn, right):
    circles, senses = np.array([(5, 0, 0), (20, 100, 0), (6, 45, 12)], dtype=float), [1, 1, -1]
    whole = path(circles, senses).length.m_as("mm")
    moved = [(r, x * np.cos(turn) - y * np.sin(turn) + right, x * np.sin(turn) + y * np.cos(turn)) for r, x, y in circles]
    assert path(moved, senses).length.m_as("mm") == pytest.approx(whole)
    assert path(circles[::-1], [-sense for sense in senses[::-1]]).length.m_as("mm") == pytest.approx(whole)


def test_an_idler_inside_the_loop_touches_nothing():
    found = path([(5, 0, 0), (20, 100, 0), (3, 50, 0)], [1, 1, 1])
    assert found.turning == pytest.approx(2) and found.untouched == (2,)


@pytest.mark.parametrize(("up", "touches"), [(7, True), (9.5, True), (10.9, False), (12.5, False), (16, False)])
def test_an_idler_above_the_belt_touches_only_where_it_reaches_it(up, touches):
    """Pulleys of 5 mm radius: the upper span runs 5 mm up, and an idler of 6 mm reaches it from below 11 mm, a hair at first."""
    found = path([(5, 0, 0), (5, 100, 0), (6, 50, up)], [1, 1, -1])
    assert found.untouched == (() if touches else (2,))


def test_a_pulley_in_the_way_of_a_span_is_named():
    found = path([(5, 0, 0), (5, 100, 0), (5, 50, 80), (4, 50, -5)], [1, 1, 1, 1])
    assert found.blocked or found.untouched
    through = path([(5, 0, 0), (5, 100, 0), (5, 50, 100), (30, 50, 20)], [1, 1, 1, 1])
    assert (0, 3) in through.blocked


def test_the_row_of_points_is_as_long_as_the_belt():
    place = dict(diameters=Q([10, 40, 12], "mm"), across=Q([0, 100, 45], "mm"), up=Q([0, 0, 12], "mm"), senses=[1, 1, -1])
    across, up = belt_path.belt_line(**place, arc_points=400)
    drawn = np.hypot(np.diff(across.m_as("mm")), np.diff(up.m_as("mm"))).sum()
    assert drawn == pytest.approx(belt_path.belt_path(**place).length.m_as("mm"), rel=1e-5)


@pytest.mark.parametrize(("change", "told"), [
    (dict(distance=Q(33, "mm")), "gap between the rims"), (dict(distance=Q(-1, "mm")), "distance"),
    (dict(first_diameter=Q(0, "mm")), "first_diameter"), (dict(neutral_height=Q(-1, "mm")), "neutral_height"),
    (dict(distance=Q(33.5, "mm"), neutral_height=Q(1, "mm"), crossed=True), "crossed"),
    (dict(distance=Q(np.nan, "mm")), "distance"), (dict(distance=Q(55, "g")), "distance")])
def test_two_pulleys_that_cannot_be_are_refused(change, told):
    with pytest.raises(ValueError, match=told):
        belt_path.two_pulley_path(**{**DEMO, **change})


@pytest.mark.parametrize(("circles", "senses", "told"), [
    ([(5, 0, 0), (6, 10, 0)], [1, 1], "overlap"), ([(5, 0, 0)], [1], "two pulleys or more"),
    ([(5, 0, 0), (6, 50, 0)], [1, 2], "senses"), ([(5, 0, 0), (6, 50, 0)], [1], "one entry")])
def test_paths_that_cannot_be_are_refused(circles, senses, told):
    with pytest.raises(ValueError, match=told):
        path(circles, senses)


def test_too_thick_for_the_gap_between_crossed_pulleys():
    with pytest.raises(ValueError, match="no belt passes from pulley 1"):
        path([(5, 0, 0), (6, 11.5, 0)], [1, -1], height=1)


@STEADY
@given(size=some.floats(20, 400), height=some.floats(0, 2), measure=some.sampled_from(belt_sizes.MEASURES))
def test_a_size_there_and_back(size, height, measure):
    sold = belt_sizes.size_as_sold(inside_circumference=Q(size, "mm"), measure=measure, neutral_height=Q(height, "mm"))
    back = belt_sizes.inside_circumference(size=sold, measure=measure, neutral_height=Q(height, "mm"))
    assert back.m_as("mm") == pytest.approx(size)


@STEADY
@given(thread=some.floats(0, 0.8), height=some.floats(0.2, 1.2))
def test_a_thread_against_the_path_itself(thread, height):
    """Exact for an open loop; for a crossed one all but the squares of the thickness."""
    for crossed, tolerance in ((False, 1e-9), (True, 1e-3)):
        laid, belt = (belt_path.two_pulley_path(**DEMO, neutral_height=Q(up, "mm"), crossed=crossed) for up in (thread / 2, height))
        found = belt_lengths.length_from_thread(thread_length=laid.length, thread_thickness=Q(thread, "mm"), neutral_height=Q(height, "mm"),
                                              total_wrap=laid.first_wrap + laid.second_wrap)
        assert found.m_as("mm") == pytest.approx(belt.length.m_as("mm"), rel=tolerance)


def test_a_whole_set_is_the_path_and_none_is_the_new_belt():
    old = dict(old_length=Q(220, "mm"), stretch=0.05)
    assert belt_lengths.path_from_old_belt(**old, set_share=1).m_as("mm") == pytest.approx(220)
    assert belt_lengths.path_from_old_belt(**old, set_share=0).m_as("mm") == pytest.approx(231)


@pytest.mark.parametrize("shape", ["square", "round", "flat"])
def test_a_section_against_a_sum_over_strips(shape):
    strips = (np.arange(20000) + 0.5) / 20000 - 0.5
    wide = {"square": 1.0, "round": 2 * np.sqrt(0.25 - strips**2), "flat": 3.0}[shape] * np.ones_like(strips)
    found = belt_sizes.belt_section(shape=shape, thickness=Q(1, "mm"), **({"width": Q(3, "mm")} if shape == "flat" else {}))
    assert found.area.m_as("mm**2") == pytest.approx(wide.mean(), rel=1e-5)
    assert found.second_moment.m_as("mm**4") == pytest.approx((wide * strips**2).mean(), rel=1e-5)


@pytest.mark.parametrize(("call", "told"), [
    (lambda: belt_sizes.belt_section(shape="oval", thickness=Q(1, "mm")), "shape"),
    (lambda: belt_sizes.belt_section(shape="flat", thickness=Q(1, "mm")), "width"),
    (lambda: belt_sizes.belt_section(shape="round", thickness=Q(1, "mm"), width=Q(1, "mm")), "width"),
    (lambda: belt_sizes.size_as_sold(inside_circumference=Q(1, "mm"), measure="length", neutral_height=Q(0, "mm")), "measure"),
    (lambda: belt_sizes.wanted_circumference(path_length=Q(3, "mm"), stretch=0.05, neutral_height=Q(1, "mm")), "too short"),
    (lambda: belt_lengths.folded_circumference(folded_length=Q(2, "mm"), thickness=Q(1.2, "mm")), "folded_length"),
    (lambda: belt_lengths.path_from_old_belt(old_length=Q(2, "mm"), stretch=0.05, set_share=1.2), "set_share")])
def test_sizes_that_cannot_be_are_refused(call, told):
    with pytest.raises(ValueError, match=told):
        call()
