"""Counting into the sheet: every try saved at once, none lost, each taken back exactly."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.bench.counting import Counting
from benchreckoner.bench.sheet import SheetError, read_sheet
from benchreckoner.bench.tries import PLAN, counted, decide, decision_words, still_possible, tally_of
from benchreckoner.files import save_whole

HEAD = '# my own words\nversion = 1\n[[part]]\nname = "switch"\nkind = "switch"\n[[part]]\nname = "lamp"\nkind = "lamp"\n'
COLD = {"part": "switch", "condition_tried": "cold", "stage": "as found"}


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "player.toml"
    path.write_text(HEAD, encoding="utf-8")
    return path


def tally(path, **changed):
    return tally_of(read_sheet(path), **COLD | changed)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("counting")


@given(presses=some.lists(some.tuples(some.sampled_from(["clean", "fault", "back"]), some.sampled_from(["cold", "tilted"])),
                          max_size=14))
def test_the_sheet_holds_just_the_presses_that_were_not_taken_back(folder, presses):
    """Against a plain list; and taking everything back leaves the file as it was, byte for byte."""
    path = folder / "player.toml"
    path.write_text(HEAD, encoding="utf-8")
    counting, stay = Counting(path), []
    for what, condition in presses:
        if what == "back" and stay:
            counting.take_back()
            stay.pop()
        elif what != "back":
            counting.count(**COLD | {"condition_tried": condition}, fault=what == "fault")
            stay.append((condition, what == "fault"))
        for name in ("cold", "tilted"):
            faults = [fault for condition, fault in stay if condition == name]
            runs = tally(path, condition_tried=name).runs
            assert [fault for clean, failed in runs for fault in (False,) * clean + (True,) * failed] == faults
    while stay:
        counting.take_back()
        stay.pop()
    assert path.read_text(encoding="utf-8") == HEAD


def test_clean_tries_go_into_one_entry_and_a_fault_closes_it(path):
    counting = Counting(path)
    for fault in (False, False, True, True, False):
        counting.count(**COLD, fault=fault)
    assert [(trial.clean, trial.faults) for trial in read_sheet(path).trials] == [(2, 2), (1, 0)]


def test_a_new_sitting_counts_on(path):
    for _ in range(2):
        counting = Counting(path)
        for _ in range(16):
            sheet = counting.count(**COLD, fault=False)
    assert tally(path).clean == 32 and sheet == read_sheet(path)
    assert decide(tally(path), PLAN) == ("cured", 31)


def test_what_was_typed_meanwhile_stays(path):
    counting = Counting(path)
    counting.count(**COLD, fault=False)
    save_whole(path, path.read_text(encoding="utf-8") + "# looked again\n")
    counting.count(**COLD, fault=False)
    assert tally(path).clean == 2 and "# looked again" in path.read_text(encoding="utf-8")
    save_whole(path, path.read_text(encoding="utf-8") + "# and again\n")
    with pytest.raises(ValueError, match="was changed after"):
        counting.take_back()
    assert tally(path).clean == 2


def test_a_rewritten_entry_is_not_taken_back_over_what_was_typed(path):
    counting = Counting(path)
    for _ in range(2):
        counting.count(**COLD, fault=False)
    save_whole(path, path.read_text(encoding="utf-8") + "# by hand\n")
    with pytest.raises(ValueError, match="in a text editor"):
        counting.take_back()
    assert tally(path).clean == 2


def test_taking_back_tells_what_it_was(path):
    counting = Counting(path)
    counting.count(**COLD, fault=False)
    counting.count(**COLD, fault=True)
    assert counting.take_back()[2] is True and counting.take_back()[2] is False
    with pytest.raises(ValueError, match="nothing to take back"):
        counting.take_back()


def test_a_try_that_no_sheet_can_hold_is_refused_and_not_counted(path):
    counting = Counting(path)
    with pytest.raises(SheetError, match="swich"):
        counting.count(**COLD | {"part": "swich"}, fault=False)
    with pytest.raises(SheetError, match="condition_tried"):
        counting.count(**COLD | {"condition_tried": " "}, fault=False)
    assert path.read_text(encoding="utf-8") == HEAD


@pytest.mark.parametrize(("faults", "told"), [
    ([0] * 10, ("10 of 10 tries clean", "up to 26 % ", "go on: about 21 more clean tries")),
    ([0] * 31, ("31 of 31 tries clean", "up to 9.2 % ", "cured as far as this test goes, since try 31")),
    ([1], ("0 of 1 try clean", "up to 100 % ", "go on: about 56 more clean tries")),
    ([0, 1, 1], ("1 of 3 tries clean", "up to 98 % ", "not cured, since try 3")),
    ([0] * 30, ("30 of 30 tries clean", "up to 9.5 % ", "go on: about 1 more clean try")),
])
def test_the_words(path, faults, told):
    """By hand: 1 - 0.05^(1/10), 1 - 0.05^(1/31), 0.95^(1/3), 1 - 0.05^(1/30); and 2.2279 / 0.039747 = 56.05, so try 57."""
    counting = Counting(path)
    for fault in faults:
        counting.count(**COLD, fault=bool(fault))
    here = tally(path)
    assert counted(here) == told[0] and told[1] in still_possible(here) and decision_words(here, PLAN) == told[2]
