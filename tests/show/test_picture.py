"""Pictures as data, their stills and their table twins."""

import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.show.declare import LivePicture, Slider, corners, ladder
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point, Reading, mark_reading
from benchreckoner.show.still import figure, png_bytes, still, svg_text
from benchreckoner.show.table import tables, tables_html
from benchreckoner.units import Q, read_quantity

OHMS, VOLTS = Axis("resistance", "ohm", 0, 10), Axis("volts", "V", 0.1, 100, "log")


def picture(**marks):
    return Picture(title="A title", x=OHMS, y=VOLTS, sentence="A sentence.", alt="Alt text.", **marks)


def number(cell):
    return float(cell.replace("−", "-"))


@pytest.mark.parametrize("marks, name, words", [
    (lambda: dict(curves=[Curve("drop", [1, 2, 3], [1, 2])]), "drop", "equal length"),
    (lambda: dict(curves=[Curve("drop", [1], [1])]), "drop", "at least two"),
    (lambda: dict(curves=[Curve("drop", [1, 2], [1, np.inf])]), "drop", "infinite"),
    (lambda: dict(curves=[Curve("drop", [1, 2], [1, 2], "pink")]), "drop", "first, second"),
    (lambda: dict(bands=[Band("spread", [1, 2], [1, 2], [1, 2, 3])]), "spread", "equal length"),
    (lambda: dict(points=[Point("here", 11, 1)]), "here", "outside the axes"),
    (lambda: dict(points=[Point("here", 1, 0.05)]), "here", "outside the axes"),
    (lambda: dict(limits=[Limit("most", "y", 200)]), "most", "outside the axis"),
    (lambda: dict(limits=[Limit("most", "z", 2)]), "most", '"x" or "y"'),
    (lambda: dict(points=[Point("here", 1, 1)], limits=[Limit("here", "y", 2)]), "here", "own name"),
])
def test_a_mark_that_cannot_be_drawn_is_refused_by_name(marks, name, words):
    with pytest.raises(ValueError, match=f"{name}.*{words}"):
        picture(**marks())


def test_a_quantity_where_a_number_belongs_is_refused():
    with pytest.raises(TypeError, match="drop.*m_as"):
        Curve("drop", Q([1, 2], "ohm"), [1, 2])


@pytest.mark.parametrize("low, high, scale", [(1, 1, "linear"), (0, 1, "log"), (0, np.inf, "linear"), (0, 1, "cubic")])
def test_an_axis_without_sense_is_refused(low, high, scale):
    with pytest.raises(ValueError, match="axis 'volts'"):
        Axis("volts", "V", low, high, scale)


def test_a_picture_without_words_is_refused():
    with pytest.raises(ValueError, match="alt is empty"):
        replace(picture(), alt=" ")


def test_marks_are_kept_as_rows_that_nobody_can_change():
    row = np.array([1.0, 2.0])
    curve = Curve("drop", row, row)
    row[0] = 9
    assert curve.x[0] == 1
    with pytest.raises(ValueError, match="read-only"):
        curve.x[0] = 9


def test_own_reading_inside_is_marked_and_outside_is_said():
    inside = mark_reading(picture(), Reading(Q(4000, "mohm"), Q(2, "V")))
    assert (inside.points[-1].x, inside.points[-1].y, inside.points[-1].style) == (4, 2, "own")
    assert "marked at 4.00 Ω and 2.00 V" in inside.sentence
    outside = mark_reading(picture(), Reading(Q(40, "ohm"), Q(-2, "V")))
    assert not outside.points[-1].drawn
    assert "Your reading, 40.00 Ω and −2.00 V, lies outside this picture." in outside.sentence
    assert tables(outside)[0].rows == (("your reading", "outside this picture", "outside this picture"),)


@given(low=some.floats(0.001, 10), ratio=some.floats(3, 1e5), count=some.integers(2, 40),
       scale=some.sampled_from(["linear", "log"]))
def test_ladder_rises_keeps_its_ends_and_reads_well(low, ratio, count, scale):
    steps = ladder(low, low * ratio, count, scale)
    exact = np.geomspace(low, low * ratio, count) if scale == "log" else np.linspace(low, low * ratio, count)
    assert len(steps) == count and np.all(np.diff(steps) > 0)
    np.testing.assert_allclose(steps, exact, rtol=0.0501 if scale == "log" else 0.00501)
    slider = Slider("link", "Link", "ohm", steps, steps[0])
    for position, step in enumerate(steps):
        text = slider.text(position)
        assert len(re.sub(r"\D", "", text).strip("0")) <= 3
        # Read back by the same rules as anything typed: the text is the step, with its unit.
        assert read_quantity(text, "ohm").quantity.m_as("ohm") == pytest.approx(step)


def test_a_ladder_too_fine_to_read_is_refused():
    with pytest.raises(ValueError, match="too many"):
        ladder(100, 101, 50)


def test_a_count_reaches_the_picture_as_a_plain_number():
    slider = Slider("cells", "Cells", "", range(1, 9), 6)
    assert (slider.value(5), slider.text(5), slider.start_position) == (6.0, "6", 5)


@pytest.mark.parametrize("change, words", [
    (dict(key="Two Words"), "small letters"),
    (dict(fixed={"series": 1}), "only once"),
    (dict(phone_sliders=["nobody"]), "phone_sliders"),
    (dict(sliders=[]), "needs a slider"),
])
def test_a_faulty_declaration_is_refused(demo, change, words):
    given = dict(key="divider", picture=demo.divider, sliders=demo.declared().sliders)
    with pytest.raises(ValueError, match=words):
        LivePicture(**{**given, **change})


def test_corners_are_every_combination_of_ends(demo):
    declaration = demo.declared()
    found = list(corners(declaration))
    assert [tuple(positions.values()) for positions, _ in found] == [(0, 0), (0, 30), (40, 0), (40, 30)]
    for positions, drawn in found:
        values = declaration.values(positions)
        assert drawn.points[0].x == values["series"].m_as("ohm")
        assert drawn.points[0].y == pytest.approx(
            (Q(9, "V") * values["load"] / (values["load"] + values["series"])).m_as("V"))


@pytest.mark.parametrize("fixed", [{}, {"scale": "linear"}, {"volts_scale": "log"}])
def test_table_says_what_the_picture_shows(demo, fixed):
    for _, drawn in corners(demo.declared(**fixed)):
        places, rows = tables(drawn)
        assert number(places.rows[0][1]) == pytest.approx(drawn.points[0].x, rel=0.005, abs=1)
        assert number(places.rows[0][2]) == pytest.approx(drawn.points[0].y, rel=0.005, abs=0.00501)
        assert places.rows[2] == ("least that works", "all", "5.00")
        assert rows.head[1] == "left for the load [V]" and len(rows.head) == 5
        wanted = [drawn.curves[0].y, drawn.curves[1].y, drawn.bands[0].low, drawn.bands[0].high]
        for index, row in zip(range(0, 201, 25), rows.rows, strict=True):
            assert number(row[0]) == pytest.approx(drawn.curves[0].x[index], rel=0.005, abs=0.5)
            for cell, values in zip(row[1:], wanted, strict=True):
                assert number(cell) == pytest.approx(values[index], rel=0.005, abs=0.00501)


def test_table_says_where_there_is_nothing():
    gap = picture(curves=[Curve("drop", [0, 1, 2], [1, np.nan, 2])], points=[Point("peak", np.nan, 1)])
    places, rows = tables(gap)
    assert places.rows == (("peak", "none", "none"),)
    assert [row[1] for row in rows.rows] == ["1.00", "none", "2.00"]


def test_still_is_the_same_twice_and_every_mark_has_its_id(demo):
    drawn = demo.declared().at({"series": 3, "load": 9})
    first = svg_text(drawn)
    assert first == svg_text(drawn)
    for key in ("band-0", "curve-0", "curve-1", "limit-0", "limit-1", "point-0", "point-1", "point-0-name"):
        assert f'id="{key}"' in first
    assert "<text" not in first, "static text is drawn as paths, so that no reader's fonts matter"
    assert png_bytes(drawn).startswith(b"\x89PNG")


def test_a_prefix_keeps_two_drawings_in_one_page_apart(demo):
    drawn = demo.declared().at(demo.declared().start)
    ids = [set(re.findall(r' id="([^"]+)"', svg_text(drawn, prefix=prefix))) for prefix in ("before-", "after-")]
    assert not ids[0] & ids[1]
    text = svg_text(drawn, prefix="before-")
    assert set(re.findall(r'href="#([^"]+)"', text)) | set(re.findall(r"url\(#([^)]+)\)", text)) <= ids[0]


def test_a_notebooks_own_settings_change_nothing(demo):
    import matplotlib
    drawn = demo.declared().at(demo.declared().start)
    plain = svg_text(drawn)
    with matplotlib.rc_context({"font.size": 30, "axes.facecolor": "black", "figure.dpi": 50}):
        assert svg_text(drawn) == plain


def test_no_global_plotting_state_is_touched():
    code = "import sys, benchreckoner.show.still; sys.exit('matplotlib.pyplot' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_marks_differ_by_more_than_colour():
    x = [0, 5, 10]
    drawn = picture(curves=[Curve(style, x, [1, 2, 3], style) for style in ("first", "second", "third", "fourth")],
                    points=[Point(style, 1, 1, style) for style in ("own", "other", "extra")],
                    bands=[Band(f"{style} band", x, [1, 1, 1], [2, 2, 2], style) for style in ("first", "second", "third")])
    axes = figure(drawn).axes[0]
    drawing = ElementTree.fromstring(svg_text(drawn))
    styles = [next(node.get("style") for node in group.iter() if node.tag.endswith("path"))
              for group in drawing.iter() if group.get("id", "").startswith("curve-")]
    assert len({tuple(re.findall("stroke-dasharray: [^;]*", style)) for style in styles}) == 4
    assert len({line.get_marker() for line in axes.lines if (line.get_gid() or "").startswith("point")}) == 3
    assert len({patch.get_hatch() for patch in axes.patches}) == 3


def test_names_typed_by_a_reader_stay_text():
    nasty = '<script>alert("$x$")</script> & co'
    drawn = Picture(title=nasty, x=OHMS, y=VOLTS, sentence=nasty, alt=nasty, points=[Point(nasty, 1, 1)])
    drawing = ElementTree.fromstring(svg_text(drawn))
    assert drawing.get("aria-label") == nasty
    assert not [node for node in drawing.iter() if node.tag.endswith("script")]
    for html in (tables_html(drawn), still(drawn)._repr_html_()):
        assert "<script" not in html and "&lt;script&gt;" in html


def test_still_without_a_widget_says_all_in_words(demo):
    drawn = demo.declared().at(demo.declared().start)
    shown = still(drawn)
    assert drawn.sentence in repr(shown) and "left for the load [V]" in repr(shown)
    assert drawn.alt in shown._repr_html_() and "<table>" in shown._repr_html_()


STATIONS = Axis("along the way", "", -0.5, 2.5, ticks=[(0, "first stop"), (1, "a stop with a very long name of its own, number 2"), (2, "last stop")])


def stations(**marks):
    return replace(picture(), x=STATIONS, **marks)


def test_named_places_stand_in_the_table_and_beside_the_axis():
    named = stations(curves=[Curve("height", [-0.5, 0, 0.5, 1, 1.5, 2, 2.5], [1, 2, 3, 4, 5, 6, 7])],
                     points=[Point("here", 1.9, 5)], bands=[Band("edge", [0.5, 1, 1.5], [1, 2, 3], [2, 3, 4])])
    places, *along = tables(named)
    assert places.rows == (("here", "last stop", "5.00"),)
    assert along[0].rows == tuple((name, number) for (_, name), number in zip(STATIONS.ticks, ("2.00", "4.00", "6.00"), strict=True))
    assert along[1].rows == ((STATIONS.ticks[1][1], "2.00", "3.00"),)
    labels = [label.get_text() for label in figure(named).axes[0].get_xticklabels()]
    assert labels[0] == "first stop" and labels[1].startswith("a stop") and labels[1].endswith("number 2")
    assert len(labels[1]) <= 24


def test_a_long_axis_down_to_little_counts_in_powers_of_ten():
    def numbers(low, high):
        drawn = figure(replace(picture(), y=Axis("power", "", low, high, "log")))
        drawn.draw_without_rendering()
        return [tick.label1.get_text() for tick in drawn.axes[0].yaxis.get_major_ticks() if low <= tick.get_loc() <= high]

    assert numbers(1e-10, 10) == ["10⁻¹⁰", "10⁻⁹", "10⁻⁸", "10⁻⁷", "10⁻⁶", "10⁻⁵", "10⁻⁴", "10⁻³", "10⁻²", "10⁻¹", "1", "10¹"]
    assert numbers(1e-3, 100) == ["0.001", "0.01", "0.1", "1", "10", "100"]


def test_many_named_places_do_not_touch():
    many = Axis("along the way", "", -0.5, 39.5, ticks=[(place, f"stop {place}") for place in range(40)])
    drawn = figure(replace(picture(), x=many))
    drawn.draw_without_rendering()
    boxes = [label.get_window_extent() for label in drawn.axes[0].get_xticklabels()]
    assert all(left.x1 <= right.x0 for left, right in zip(boxes, boxes[1:]))
    assert all(box.y0 >= 0 for box in boxes)


def test_names_in_letters_the_drawing_lacks_become_boxes_without_a_warning():
    named = replace(picture(), title="日本 tape", x=Axis("along the way", "", 0, 2, ticks=[(1, "\u202e電池 3 --> <b>")]))
    assert figure(named).axes[0].get_xticklabels()[0].get_text() == "□□ 3 --> <b>"
    ElementTree.fromstring(svg_text(named).replace("xlink:href", "href"))


def test_a_named_place_outside_the_axis_is_refused():
    with pytest.raises(ValueError, match="tick 'beyond'.*outside"):
        Axis("along the way", "", 0, 1, ticks=[(2, "beyond")])
