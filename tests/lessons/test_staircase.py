"""The feed chain as a staircase: every level against sums of the typed readings."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from benchreckoner import project
from benchreckoner.bench.chain import feed_parts
from benchreckoner.bench.judge import UNMEASURED, judge_sheet
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons.staircase import NOT_READ, chains_to_show, missing, staircase, stairs
from benchreckoner.show.table import tables

DEMO = project.CASES / "record_player.toml"
# As typed in the demo sheet, held, in the order the current meets them: millivolts as found and after cleaning.
LINKS = {"spring 1": (31.0, 33.9), "row bridge": (34.1, 37.2), "red lead": (32.1, 35.0), "second meter": (42.0, 46.0),
         "play switch": (58.1, 63.6), "lead joint": (3.9, 4.3), "motor plug": (17.0, 18.6), "black lead": (33.0, 36.1),
         "spring 3": (821, 42.6)}
ENDS = ((9.14, 7.88, 6.81), (9.13, 7.77, 7.45))
NAMES = ["off load", "under load", *LINKS, "motor"]


def levels(when):
    off, loaded, motor = ENDS[when]
    lost = np.cumsum([drops[when] for drops in LINKS.values()]) / 1000
    return [off, loaded, *(loaded - lost), motor]


def treads(picture, name="volts left"):
    """The drawn level at each named place."""
    curve = next(curve for curve in picture.curves if curve.name == name)
    return [float(curve.y[curve.x == value][0]) for value, _ in picture.x.ticks if value in curve.x]


def sheet(drops, *, off="9.00 V", loaded="8.00 V", motor="7.90 V", current="1.000 A", condition="held", stage="", links=None):
    """A sheet with one stage and its readings; anything given as None was not read."""
    names = links or list(drops)
    text = ('version = 1\n[[instrument]]\nname = "meter"\naccuracy = "0.1 % + 0.1 mV"\n'
            '[[instrument]]\nname = "ammeter"\naccuracy = "0.1 % + 0.1 mA"\n'
            '[[part]]\nname = "cells"\nkind = "cells"\nchemistry = "alkaline"\ncount = 6\n')
    text += "".join(f'[[part]]\nname = "{name}"\nkind = "supply contact"\n' for name in names)
    text += '[[part]]\nname = "motor"\nkind = "motor"\n'
    rows = [("cells", "voltage", off, "off"), ("cells", "voltage", loaded, condition), ("motor", "voltage", motor, condition),
            ("motor", "current", current, condition), *((name, "voltage drop", drop, condition) for name, drop in drops.items())]
    for part, quantity, value, when in rows:
        if value is not None:
            text += (f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\n'
                     f'instrument = "{"ammeter" if quantity == "current" else "meter"}"\nstage = "as found"\ncondition = "{when}"\n')
    return read_text(text)


def shown(read):
    return chains_to_show(judge_sheet(read))


def test_the_demos_levels_are_sums_of_what_was_typed():
    before, after = shown(read_sheet(DEMO))
    pictures = staircase(chain=before, after=after), staircase(chain=after, before=before)
    for when, picture in enumerate(pictures):
        assert [name for _, name in picture.x.ticks] == NAMES
        np.testing.assert_allclose(treads(picture), levels(when), atol=1e-9)
    np.testing.assert_allclose(treads(pictures[1], "before, for comparison"), levels(0), atol=1e-9)
    assert (pictures[0].y, pictures[0].x) == (pictures[1].y, pictures[1].x), "one scale, one row of places"


def test_the_guilty_step_stands_out_by_hatch_edge_and_words():
    before, after = shown(read_sheet(DEMO))
    picture = staircase(chain=before, after=after)
    place = NAMES.index("spring 3")
    band, = picture.bands
    assert band.style == "heavy" and list(band.x) == [place - 0.5, place, place + 0.5]
    assert band.high[0] - band.low[0] == pytest.approx(0.821)
    assert [curve.name for curve in picture.curves if curve.style == "heavy"] == ["the bad step"]
    label, = picture.points
    assert label.name == "bad: 821 mV, 827 mΩ"  # 821 mV / 993 mA
    assert "lost at spring 3, the guilty link" in picture.sentence
    mended = staircase(chain=after, before=before)
    assert not mended.bands and not mended.points and "guilty" not in mended.sentence


def test_the_table_has_a_row_for_each_place():
    before, _ = shown(read_sheet(DEMO))
    rows = next(table for table in tables(staircase(chain=before)) if table.head[1].startswith("volts left")).rows
    assert [row[0] for row in rows] == NAMES
    assert [float(row[1]) for row in rows] == [round(level, 2) for level in levels(0)]


@given(drops=some.lists(some.integers(1, 90), min_size=1, max_size=30), scale=some.sampled_from([1, 3]))
@settings(deadline=None, max_examples=25)
def test_any_chain_falls_and_ends_at_the_motor(drops, scale):
    """Its steps add up to what the source lost on the way, and every mark lies inside the axes."""
    motor = 8 - scale * sum(drops) / 1000
    one, = shown(sheet({f"link {number}": f"{scale * drop} mV" for number, drop in enumerate(drops)}, motor=f"{motor:.4f} V"))
    picture = staircase(chain=one)
    found = treads(picture)
    assert np.all(np.diff(found) <= 1e-9)
    assert found[1] - sum(stair.lost.plain for stair in stairs(one)[2:-1]) == pytest.approx(motor, abs=1e-6)
    assert picture.y.low <= found[-1] and found[0] <= picture.y.high


def test_volts_that_nobody_read_are_a_step_of_their_own():
    one, = shown(sheet({"spring": "30.0 mV"}, motor="7.00 V"))
    picture = staircase(chain=one)
    assert [name for _, name in picture.x.ticks] == ["off load", "under load", "spring", UNMEASURED, "motor"]
    np.testing.assert_allclose(treads(picture), [9, 8, 7.97, 7, 7], atol=1e-9)
    assert picture.points[0].name == "unmeasured: 970 mV, 970 mΩ"
    assert picture.bands[0].style == "heavy"


def test_a_link_without_a_reading_is_named_and_drawn_level():
    one, = shown(sheet({"spring": "30.0 mV"}, motor="7.97 V", links=["spring", "switch"]))
    picture = staircase(chain=one)
    assert "switch, not read" in dict(picture.x.ticks).values()
    np.testing.assert_allclose(treads(picture), [9, 8, 7.97, 7.97, 7.97], atol=1e-9)
    assert "Not read, so drawn level: switch." in picture.sentence
    assert next(stair for stair in stairs(one) if stair.name == "switch").note == NOT_READ


def test_without_the_motors_volts_its_tread_is_a_gap():
    one, = shown(sheet({"spring": "30.0 mV"}, motor=None))
    picture = staircase(chain=one)
    assert np.isnan(treads(picture)[-1]) and "the motor's volts were not read" in picture.sentence


def test_without_the_volts_under_load_the_top_is_worked_back():
    one, = shown(sheet({"spring": "30.0 mV"}, loaded=None))
    np.testing.assert_allclose(treads(staircase(chain=one)), [9, 7.93, 7.9, 7.9], atol=1e-9)
    assert "worked back" in staircase(chain=one).sentence


def test_the_ends_alone_make_one_unmeasured_step():
    one, = shown(sheet({}, links=["spring"]))
    np.testing.assert_allclose(treads(staircase(chain=one)), [9, 8, 8, 7.9, 7.9], atol=1e-9)


def test_contradictory_readings_are_drawn_as_they_stand():
    one, = shown(sheet({"spring": "30.0 V"}))
    picture = staircase(chain=one)
    assert treads(picture)[2] == pytest.approx(-22)
    assert "contradict each other" in picture.sentence


def test_nothing_to_start_from_is_said():
    read = sheet({}, off=None, loaded=None, motor=None, current=None, links=["spring"])
    assert shown(read) == ()
    source, motor, links = feed_parts(read)
    assert missing(source=source, motor=motor, links=links).endswith("each link: spring.")
    assert "does not list the motor" in missing(source=source, motor=None, links=links)
    lone, = judge_sheet(sheet({"spring": "30.0 mV"}, off=None, loaded=None, motor=None))
    with pytest.raises(ValueError, match="across the source under load"):
        staircase(chain=lone.main)


def test_a_condition_seen_twice_is_preferred():
    """As found both held and playing were read; only held was read again."""
    chains = shown(read_sheet(DEMO))
    assert [(one.chain.stage, one.chain.condition) for one in chains] == [("as found", "held"), ("springs cleaned", "held")]


def test_the_scale_says_when_it_does_not_start_at_zero():
    high, = shown(sheet({"spring": "30.0 mV"}))
    assert staircase(chain=high).y.low > 0 and "not at zero" in staircase(chain=high).sentence
    low, = shown(sheet({"spring": "7.000 V"}, motor="1.000 V"))
    assert staircase(chain=low).y.low == 0 and "not at zero" not in staircase(chain=low).sentence
