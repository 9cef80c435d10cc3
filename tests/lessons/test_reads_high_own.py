"""The sheet's own leaky capacitor in the picture of testers: its place by hand, and the sheets that have none."""

from math import log

import pytest

from benchreckoner import project
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons.reads_high_own import my_reads_high, own_reads_high
from benchreckoner.show.live import picture_at

TAPE_PLAYER = (project.CASES / "tape_player.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def own():
    return own_reads_high(read_sheet(project.CASES / "tape_player.toml"))


def test_c2_lies_where_its_volts_and_its_tester_put_it(own):
    """3.30 V across 10 kilohms beside the meter's 10 megohms; the rest of 12 V lies on the part; 14.9 of 10 microfarads."""
    declared, reading = own
    amperes = 3.30 / (1 / (1 / 10e3 + 1 / 10e6))
    assert reading.x.m_as("ohm") == pytest.approx((12 - amperes * 10e3) / amperes, rel=0.002)
    assert reading.y.m_as("") == pytest.approx(1.49) and "C2" in reading.name and "C2" in declared.goal


def test_at_the_leak_that_was_read_the_charging_law_gives_what_the_tester_showed(own):
    """Two readings that know nothing of each other agree: t = R'C ln(V/(V - 0.6321)), with R' and V behind the leak."""
    declared, reading = own
    leak = reading.x.m_as("ohm")
    share = leak / (leak + 10e3)
    times = share * log(share / (share - 0.6321))
    assert times == pytest.approx(reading.y.m_as(""), rel=0.01)
    picture = picture_at(declared, declared.start, reading)
    here = next(point for point in picture.points if point.name == "charge time here")
    assert here.y == pytest.approx(times, rel=0.005) and here.x == pytest.approx(leak / 1e3, rel=0.005)
    marked = next(point for point in picture.points if point.style == "own")
    assert (marked.x, marked.y) == pytest.approx((leak / 1e3, 1.49))


def test_another_marking_speaks_of_its_own_farads():
    declared, _ = own_reads_high(read_text(TAPE_PLAYER.replace('name = "C2"\nkind = "capacitor"\ncapacitance = "10 uF"',
                                                               'name = "C2"\nkind = "capacitor"\ncapacitance = "9 uF"')))
    picture = picture_at(declared, declared.start)
    assert "9 µF" in picture.title and picture.sentence.startswith("9 µF with") and "10 µF" not in picture.sentence


@pytest.mark.parametrize("old, new", [('principle = "charge time"', 'principle = "discharge time"'), ('applied = "', 'note = "'), ('condition = "lifted"', 'condition = "in circuit"')])
def test_without_both_readings_taken_alike_there_is_none(old, new):
    assert old in TAPE_PLAYER and own_reads_high(read_text(TAPE_PLAYER.replace(old, new))) is None


def test_a_sheet_without_capacitors_has_none():
    assert own_reads_high(read_sheet(project.CASES / "record_player.toml")) is None and own_reads_high(read_text("version = 1")) is None


def test_on_the_desk_it_is_live_or_says_what_to_read(desk):
    assert "charge time" in my_reads_high().data
    desk.write_text(TAPE_PLAYER, encoding="utf-8")
    assert "Your C2 is marked at" in str(my_reads_high().scene)
