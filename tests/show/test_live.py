"""Where the kernel says the marks stand, and what it says beside them."""

import numpy as np
import pytest

from benchreckoner.show.declare import LivePicture, corners
from benchreckoner.show.live import FULL, GAP, live, marks, picture_at, scene, spec
from benchreckoner.show.names import PLACES as NAME_PLACES
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point, Reading
from benchreckoner.show.still import backdrop, figure
from benchreckoner.show.table import tables
from benchreckoner.units import Q

PLACES = {"band": 3, "curve": 2, "point": 3, "limit": 2}
AXES = [{}, {"scale": "linear"}, {"volts_scale": "log"}]


def rows(picture):
    """The numbers of each mark, a row for each place."""
    counts, numbers = marks(picture)
    taken = 0
    for (kind, mark), count in zip(picture.marks, counts, strict=True):
        width = count * PLACES[kind]
        yield kind, mark, numbers[taken:taken + width].reshape(count, -1)
        taken += width
    assert taken == len(numbers)


def pixels(box, x, y):
    """Where the script puts a place, in the drawing's units."""
    left, top, width, height = box
    return np.column_stack((left + width * x / FULL, top + height * (1 - y / FULL)))


def same_pixels(found, wanted):
    """Within a tenth of a pixel wherever matplotlib draws, and a gap wherever it does not."""
    drawn = np.all(np.isfinite(wanted), axis=1)
    return np.all(np.abs(found[drawn] - wanted[drawn]) < 0.1)


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("fixed", AXES)
def test_marks_stand_where_matplotlib_puts_them(demo, fixed, large):
    for _, picture in corners(demo.declared(**fixed)):
        drawn = figure(picture, large=large)
        axes, box = drawn.axes[0], backdrop(picture, large=large).box

        def wanted(x, y):
            across, up = axes.transData.transform(np.column_stack((x, y))).T
            return np.column_stack((across, drawn.bbox.height - up)) * 72 / drawn.dpi

        for kind, mark, table in rows(picture):
            if kind == "curve":
                np.testing.assert_array_equal(table[:, 1] == GAP, np.isnan(mark.y))
                assert same_pixels(pixels(box, table[:, 0], table[:, 1]), wanted(mark.x, mark.y))
            elif kind == "band":
                assert same_pixels(pixels(box, table[:, 0], table[:, 1]), wanted(mark.x, mark.low))
                assert same_pixels(pixels(box, table[:, 0], table[:, 2]), wanted(mark.x, mark.high))
            elif kind == "point" and mark.drawn:
                assert same_pixels(pixels(box, table[:, 0], table[:, 1]), wanted([mark.x], [mark.y]))
            elif kind == "point":
                assert GAP in table
            else:
                which = "xy".index(mark.axis)
                place = np.broadcast_to(table[:, 0], (2, 1))
                assert same_pixels(pixels(box, *place)[:, [which]],
                                   wanted([mark.value], [mark.value])[:, [which]])


def test_every_state_has_the_same_axes_and_one_backdrop(demo):
    declaration = demo.declared()
    drawn = [backdrop(picture) for _, picture in corners(declaration)]
    assert all(one is drawn[0] for one in drawn)
    for _, picture in corners(declaration):
        state = figure(picture)
        box = state.axes[0].get_window_extent()
        assert (box.x0, box.width, box.height) == pytest.approx(
            (drawn[0].box[0], drawn[0].box[2], drawn[0].box[3]), abs=1e-6)


def test_what_a_log_axis_cannot_show_is_a_gap():
    picture = Picture(title="t", x=Axis("x", "", 1, 100, "log"), y=Axis("y", "", 1, 100, "log"), sentence="s", alt="a",
                      curves=[Curve("c", [1, 10, 100], [10, 0, -1])], bands=[Band("b", [0, 10], [1, 2], [3, 4])])
    (_, _, band), (_, _, curve) = rows(picture)
    np.testing.assert_array_equal(curve, [[0, FULL / 2], [FULL / 2, GAP], [FULL, GAP]])
    assert band[0, 0] == GAP and band[1, 0] == FULL / 2


def test_a_value_far_outside_is_not_taken_for_a_gap():
    picture = Picture(title="t", x=Axis("x", "", 0, 1), y=Axis("y", "", 0, 1), sentence="s", alt="a",
                      curves=[Curve("c", [0, 1], [-1e9, 1e9])])
    (_, _, curve), = rows(picture)
    np.testing.assert_array_equal(curve[:, 1], [-3 * FULL, 3 * FULL])


def test_names_stand_where_there_is_room():
    def side_of(x, y, curve, limits=()):
        picture = Picture(title="t", x=Axis("x", "", 0, 1), y=Axis("y", "", 0, 1), sentence="s", alt="a", limits=limits,
                          curves=[Curve("c", np.linspace(0, 1, 101), curve(np.linspace(0, 1, 101)))],
                          points=[Point("here", x, y)])
        normal, large = list(rows(picture))[-1][2][0, 2] % NAME_PLACES, list(rows(picture))[-1][2][0, 2] // NAME_PLACES
        assert normal == large
        return normal

    falling, rising = (lambda x: 1 - x), (lambda x: x)
    assert side_of(0.5, 0.5, falling) == 0, "right and above a falling line"
    assert side_of(0.5, 0.5, rising) == 1, "left of a rising line"
    assert side_of(0.99, 0.5, falling) & 1, "no room on the right"
    assert side_of(0.5, 0.99, falling) & 2, "no room above"
    assert side_of(0.5, 0.9, rising, [Limit("most", "x", 0.5)]) == 1, "a limit's name stands there already"


def test_a_limits_name_keeps_off_the_curve():
    flat = Picture(title="t", x=Axis("x", "", 0, 1), y=Axis("y", "", 0, 1), sentence="s", alt="a",
                   curves=[Curve("c", np.linspace(0, 1, 101), np.full(101, 0.95))], limits=[Limit("most", "x", 0.5)])
    assert list(rows(flat))[0][2][0, 1] == 2 + 2 * NAME_PLACES, "at the foot of the line, right of it, in both sizes"


def test_a_limit_that_is_not_there_is_a_gap():
    picture = Picture(title="t", x=Axis("x", "", 0, 1), y=Axis("y", "", 0, 1), sentence="s", alt="a",
                      limits=[Limit("most", "y", np.nan)])
    (_, _, table), = rows(picture)
    assert table[0, 0] == GAP


def test_scene_carries_the_pictures_own_words(demo):
    declaration = demo.declared()
    for positions, picture in corners(declaration):
        message = scene(picture)
        assert (message["sentence"], message["alt"]) == (picture.sentence, picture.alt)
        assert [(table["caption"], table["rows"]) for table in message["tables"]] == [
            (table.caption, [list(row) for row in table.rows]) for table in tables(picture)]
        np.testing.assert_array_equal(np.frombuffer(message["numbers"], "<i2"), marks(picture)[1])
        shown = [slider["texts"][positions[slider["name"]]] for slider in spec(declaration, picture)["sliders"]]
        assert shown == [slider.text(positions[slider.name]) for slider in declaration.sliders]


def test_last_position_wins(demo):
    shown = live(demo.declared())
    for position in (3, 17, 40, 5, 29):
        shown.positions = [position, 30 - position // 2]
    wanted = demo.declared().at({"series": 29, "load": 16})
    assert shown.scene == scene(wanted)
    assert shown.picture.sentence == wanted.sentence


def test_own_reading_is_in_the_widget_too(demo):
    reading = Reading(Q(0.5, "kohm"), Q(3.1, "V"))
    shown = live(demo.declared(), reading)
    assert "Your reading is marked at 500 Ω and 3.10 V" in shown.scene["sentence"]
    assert picture_at(demo.declared(), demo.declared().start, reading).points[-1].style == "own"
    assert [mark["id"] for mark in shown.spec["marks"]][-1] == "point-2"


def test_keeping_hands_over_quantities_and_answers(demo):
    kept, sent = [], []
    shown = live(demo.declared(), on_keep=kept.append)
    shown.send = lambda content: sent.append(content)
    assert shown.spec["keep"]
    shown._told(shown, {"keep": [0, 30]}, [])
    assert kept == [{"series": Q(10, "ohm"), "load": Q(2000, "ohm")}]
    assert sent == [{"kept": "Kept: Series resistance 10 Ω, Load 2.0 kΩ."}]
    assert not live(demo.declared()).spec["keep"]


@pytest.mark.parametrize("change, words", [
    (lambda picture, high: Axis("series resistance", "ohm", 10, high, "log"), "must stay the same"),
    (lambda picture, high: 1 / 0, "division by zero"),
])
def test_a_step_that_cannot_be_drawn_is_said_and_never_leaves_the_old_picture(demo, change, words):
    def broken(**given):
        picture = demo.divider(**given)
        if given["series"] > Q(1000, "ohm"):
            object.__setattr__(picture, "x", change(picture, 20_000))
        return picture

    declaration = demo.declared()
    shown = live(LivePicture("broken", broken, declaration.sliders, fixed=declaration.fixed))
    with pytest.raises((ValueError, ZeroDivisionError), match=words):
        shown.positions = [40, 3]
    assert shown.scene["sentence"].startswith("This step cannot be drawn.")
    assert shown.scene["numbers"] == b"" and shown.scene["tables"] == []


def test_without_its_script_a_widget_still_speaks(demo):
    shown = live(demo.declared())
    bundle, _ = shown._repr_mimebundle_()
    assert shown.picture.sentence in bundle["text/plain"]
    assert "within a tenth, lower edge [V]" in bundle["text/plain"]
