"""Tries on the sheet: read strictly, counted apart, saved whole, rewritten and taken back."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner import project
from benchreckoner.bench.changes import add_entry, rewrite_entry, take_back
from benchreckoner.bench.report import text_report
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.bench.tries import PLAN, Tally, decide, tallies, tally_of
from benchreckoner.files import save_whole
from benchreckoner.physics.sequential import sequential_decision

HEAD = 'version = 1\n[[part]]\nname = "switch"\nkind = "switch"\n'
GOOD = '[[trial]]\npart = "switch"\ncondition_tried = "cold"\nclean = 10\nfaults = 0\nstage = "as found"\n'
ENTRY = {"part": "switch", "condition_tried": "tilted", "clean": 3, "faults": 1, "stage": "as found"}


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "player.toml"
    path.write_text(HEAD + GOOD, encoding="utf-8")
    return path


@pytest.mark.parametrize(("typed", "wrong", "told"), [
    ('"switch"\ncond', '"swich"\ncond', "did you mean 'switch'"), ('"cold"', '" "', "is empty"), ('"cold"', "3", "quotation marks"),
    ("clean = 10", "clean = -1", "from 0"), ("clean = 10", 'clean = "10"', "without quotation marks"),
    ("clean = 10", "clean = 1.5", "whole number"), ("clean = 10", "clean = true", "whole number"),
    ("clean = 10", "clean = 1000000000", "whole number"), ("clean = 10\n", "", "clean is missing|is missing"),
    ("faults = 0\n", "", "is missing"), ("clean = 10", "clean = 0", "no try"), ("stage = \"as found\"", 'stage = "later"', "no stage"),
    ("faults", "fault", "unknown key"), ("[[trial]]", "[trial]", "double brackets"), ('"cold"', '"a\\u0000b"', "control character"),
])
def test_a_faulty_trial_is_told_with_its_line(typed, wrong, told):
    assert typed in HEAD + GOOD
    with pytest.raises(SheetError) as error:
        read_text(HEAD + GOOD.replace(typed, wrong, 1))
    assert any(one in str(error.value) for one in told.split("|")) and "line" in str(error.value)


def test_conditions_parts_and_stages_are_counted_apart():
    sheet = read_text('version = 1\n[[part]]\nname = "switch"\nkind = "switch"\n[[part]]\nname = "lamp"\nkind = "lamp"\n'
                      '[[action]]\nname = "cleaned"\n' + GOOD + GOOD.replace("cold", "Cold ") + GOOD.replace("cold", "tilted")
                      + GOOD.replace('"switch"', '"lamp"') + GOOD.replace("as found", "cleaned"))
    counted = {(tally.part, tally.condition_tried, tally.stage): tally.clean for tally in tallies(sheet)}
    assert counted == {("switch", "cold", "as found"): 20, ("switch", "tilted", "as found"): 10,
                       ("lamp", "cold", "as found"): 10, ("switch", "cold", "cleaned"): 10}


def test_the_decision_falls_at_the_first_line():
    """By hand: two faults at once exceed 0.0397 x 2 + 1.228; thirty-one clean tries are needed without any."""
    def tally(*runs):
        text = "".join(GOOD.replace("10", str(clean)).replace("faults = 0", f"faults = {faults}") for clean, faults in runs)
        return tally_of(read_text(HEAD + text), part="switch", condition_tried="COLD", stage="as found")

    assert decide(tally((31, 0)), PLAN) == ("cured", 31) and decide(tally((30, 0)), PLAN) == ("go on", 30)
    assert decide(tally((0, 2), (500, 0)), PLAN) == ("not cured", 2)
    assert decide(tally((40, 9)), PLAN) == ("cured", 31)


@given(runs=some.lists(some.tuples(some.integers(0, 40), some.integers(0, 3)), max_size=8), strict=some.booleans())
def test_the_decision_by_asking_after_every_try(runs, strict):
    """Second route: the law itself, asked try by try; and the corners of the path lie where those tries lie."""
    plan = {**PLAN, "bad_rate": 0.3} if strict else PLAN
    tally = Tally("switch", "cold", "as found", tuple(runs))
    order = [fault for clean, faults in runs for fault in (0,) * clean + (1,) * faults]
    places = [(number, sum(order[:number])) for number in range(len(order) + 1)]
    first = next(((said, tries) for tries, faults in places[1:]
                  if (said := sequential_decision(clean=tries - faults, faults=faults, **plan)) != "go on"), ("go on", len(order)))
    assert decide(tally, plan) == first
    assert set(tally.path) <= set(places) and tally.path[-1] == places[-1] == (tally.clean + tally.faults, tally.faults)


def test_a_trial_is_added_rewritten_and_taken_back(path):
    before = path.read_bytes()
    first = add_entry(path, table="trial", entry=ENTRY)
    second = rewrite_entry(first, table="trial", entry=ENTRY | {"faults": 2})
    assert [trial.faults for trial in read_sheet(path).trials] == [0, 2] and second.sheet == read_sheet(path)
    take_back(second)
    assert path.read_bytes() == before


def test_what_was_typed_meanwhile_is_never_rewritten(path):
    first = add_entry(path, table="trial", entry=ENTRY)
    by_hand = path.read_text(encoding="utf-8") + "# looked again\n"
    save_whole(path, by_hand)
    assert rewrite_entry(first, table="trial", entry=ENTRY | {"faults": 2}) is None
    assert path.read_text(encoding="utf-8") == by_hand


def test_a_faulty_rewrite_leaves_the_file(path):
    first = add_entry(path, table="trial", entry=ENTRY)
    with pytest.raises(SheetError, match="whole number"):
        rewrite_entry(first, table="trial", entry=ENTRY | {"clean": -1})
    assert path.read_text(encoding="utf-8") == first.after


def test_the_example_of_the_empty_sheet_reads():
    text = (project.ROOT / "src" / "benchreckoner" / "bench" / "empty_sheet.toml").read_text(encoding="utf-8")
    example = text[text.index("# [[trial]]"):].replace("# ", "").replace('"spring 1"', '"switch"').replace("springs cleaned", "as found")
    assert read_text(HEAD + example).trials[0].clean == 10


def test_reading_a_sheet_as_text_tells_each_tally():
    """By hand: 1 - 0.05^(1/10) = 26 %, and 31 - 10 tries to go."""
    assert ("switch, tried cold (as found): 10 of 10 tries clean; up to 26 % of all tries could still fail (95 % limit). "
            "Go on: about 21 more clean tries.\n") in text_report(read_text(HEAD + GOOD))
    assert "tried" not in text_report(read_text(HEAD))
