"""What an action changed, as a picture: held against the readings as they stand on the sheets, and against sheets of two lines."""

import numpy as np
import pytest

from benchreckoner import project
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons.changes_shown import change_pictures


def pictures_of(sheet):
    return {picture.title: picture for picture in change_pictures((judge_sheet(sheet), judge_parts(sheet)))}


@pytest.fixture(scope="module")
def record_player():
    return pictures_of(read_sheet(project.CASES / "record_player.toml"))


@pytest.fixture(scope="module")
def tape_player():
    return pictures_of(read_sheet(project.CASES / "tape_player.toml"))


def test_the_spring_stands_at_its_volts_over_its_amperes_from_bad_to_sound(record_player):
    """821.0 mV at 993 mA, and 42.6 mV at 1086 mA after the cleaning, in milliohms."""
    picture = record_player["Spring 3: resistance"]
    assert [point.x for point in picture.points] == pytest.approx([821.0 / 0.993, 42.6 / 1.086], rel=1e-6)
    assert [point.y for point in picture.points] == [0, -1] and picture.x.unit == "mohm" and picture.x.low == 0
    sound, bad = picture.bands
    assert (sound.name, *sound.x) == ("sound up to 50 mΩ", 0, 50) and (bad.name, bad.x[0], bad.x[1]) == ("bad from 500 mΩ", 500, picture.x.high)
    whiskers = picture.curves[0]
    assert (whiskers.x[1] - whiskers.x[0]) / 2 == pytest.approx(13, abs=0.5)  # as the script and the record say it
    assert whiskers.y[:2] == pytest.approx([0, 0]) and np.isnan(whiskers.x[2])


def test_each_bar_is_as_long_as_its_uncertainty_and_lies_about_its_point(record_player, tape_player):
    for picture in (*record_player.values(), *tape_player.values()):
        ends = picture.curves[0].x.reshape(-1, 3)
        assert ends[:, :2].mean(axis=1) == pytest.approx([point.x for point in picture.points])
        assert np.all(ends[:, 0] < ends[:, 1]) and np.nanmin(ends) > picture.x.low - 1e-9 and np.nanmax(ends) < picture.x.high


def test_three_stages_of_one_quantity_make_one_picture_and_what_did_not_change_is_said(tape_player):
    picture = tape_player["Flywheel: speed lost by the belt"]
    assert [name for _, name in picture.y.ticks] == ["as found", "belt a fitted", "belt d fitted"]
    assert "“belt a fitted” it went down by more" in picture.sentence and "“belt a fitted” to “belt d fitted” no change is shown" in picture.sentence


def test_a_name_is_no_finer_than_its_uncertainty_lets_it_be(record_player, tape_player):
    assert [point.name.strip() for point in tape_player["Flywheel: speed lost by the belt"].points] == ["16.45 %", "0.89 %", "0.65 %"]
    assert [point.name.strip() for point in record_player["Phono jack: resistance"].points] == ["1.440 Ω", "20 mΩ"]


def test_what_was_bad_or_doubtful_comes_first_and_what_did_not_change_not_at_all(record_player, tape_player):
    titles = list(record_player)
    assert list(tape_player)[0] == "Flywheel: speed lost by the belt" and "Motor: current" in tape_player
    assert titles[0] == "Spring 3: resistance" and "Motor: torque of belt and bearings" in titles
    assert not any(title.startswith(("Cells", "Red lead", "Play switch")) for title in titles)


def test_a_two_sided_limit_shades_its_inside_and_its_outsides(record_player):
    picture = record_player["Motor: speed"]
    words = {band.name: tuple(band.x) for band in picture.bands}
    (inside,) = [x for name, x in words.items() if name.startswith("sound, ")]
    assert inside == pytest.approx((0.995 * 2400, 1.005 * 2400))
    assert picture.x.low > 0 and "does not start at nought" in picture.alt


def sheet_of(before, after, *, condition="held"):
    text = ('version = 1\n[machine]\nname = "x"\n[[instrument]]\nname = "m"\naccuracy = "0.1 %"\n[[part]]\nname = "cells"\nkind = "cells"\n'
            '[[part]]\nname = "spring <b>"\nkind = "supply contact"\n[[part]]\nname = "motor"\nkind = "motor"\n[[action]]\nname = "done & dusted"\n')
    for stage, drop in (("as found", before), ("done & dusted", after)):
        for part, quantity, value in (("spring <b>", "voltage drop", drop), ("motor", "current", "1.000 A")):
            text += f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "m"\nstage = "{stage}"\ncondition = "{condition}"\n'
    return read_text(text, source="x.toml")


@pytest.mark.parametrize("before, after, unit", [("0.8 V", "20 mV", "mohm"), ("2.5 V", "20 mV", "ohm"), ("20 mV", "30 mV", "mohm")])
def test_the_unit_fits_the_largest(before, after, unit):
    (picture,) = pictures_of(sheet_of(before, after)).values()
    assert picture.x.unit == unit and "spring <b>" in picture.title.lower()


def test_nothing_is_drawn_where_nothing_changed():
    assert not pictures_of(sheet_of("800 mV", "800 mV"))
    assert not pictures_of(read_text("version = 1", source="x.toml"))
