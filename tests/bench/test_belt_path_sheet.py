"""The path of a sheet's belt, the measuring methods' uncertainty, and sizes that were surely something else."""

import math
import re

import numpy as np
import pytest

from benchreckoner.bench import belt_measure
from benchreckoner.bench.belt_path_sheet import belt_in_machine, likely_slip, path_of
from benchreckoner.bench.sheet import SheetError, read_text
from benchreckoner.physics.belt_sizes import FLAT_LENGTH, INSIDE_CIRCUMFERENCE, INSIDE_DIAMETER
from benchreckoner.units import Q

TOP = '''version = 1
[machine]
name = "trial"
kind = "record player"
[[part]]
name = "belt"
kind = "belt"
section = "square"
thickness = "1.2 mm"
'''
PULLEY = '''[[part]]
name = "{name}"
kind = "pulley"
diameter = "{diameter}"
at = ["{x} mm", "{y} mm"]
{more}
'''
MOTOR = PULLEY.format(name="motor pulley", diameter="6 mm", x=0, y=0, more="")
WHEEL = PULLEY.format(name="wheel", diameter="60 mm", x=55, y=0, more="")
HEIGHT = Q(0.6, "mm")


def idler(x, y, turns="the other way", diameter="8 mm"):
    return PULLEY.format(name="idler", diameter=diameter, x=x, y=y, more=f'turns = "{turns}"')


def found(*parts):
    return path_of(read_text(TOP + "".join(parts)))


def test_the_published_drive_from_a_sheet():
    """Check value C22."""
    path = found(MOTOR, WHEEL)
    assert path.path.length.m_as("mm") == pytest.approx(230.98484, rel=1e-6) and path.doubts == ()
    assert [part.name for part in path.pulleys] == ["motor pulley", "wheel"] and path.belt.name == "belt"


def test_an_idler_at_the_back_makes_it_longer_and_one_that_misses_is_told():
    across = PULLEY.format(name="wheel", diameter="60 mm", x=120, y=0, more="")
    plain, pressed = found(MOTOR, across), found(MOTOR, across, idler(60, 15))
    assert pressed.path.length > plain.path.length and pressed.doubts == ()
    missing = found(MOTOR, across, idler(60, 0, turns="the same way", diameter="4 mm"))
    assert any("does not truly touch idler" in doubt for doubt in missing.doubts)
    above = found(MOTOR, across, idler(60, 40))
    assert len(above.doubts) == 1 and "does not truly touch idler" in above.doubts[0]


def test_a_pulley_in_the_way_is_told_by_name():
    doubts = found(PULLEY.format(name="one", diameter="10 mm", x=0, y=0, more=""), PULLEY.format(name="two", diameter="10 mm", x=100, y=0, more=""),
                   PULLEY.format(name="three", diameter="10 mm", x=50, y=100, more=""),
                   PULLEY.format(name="four", diameter="60 mm", x=50, y=20, more="")).doubts
    assert any("Between one and two the belt would run through four" in doubt for doubt in doubts)


def test_a_crossed_belt_is_told():
    doubts = found(MOTOR, WHEEL.replace('at =', 'turns = "the other way"\nat =')).doubts
    assert len(doubts) == 1 and "crosses itself" in doubts[0]


@pytest.mark.parametrize(("parts", "told"), [
    ((MOTOR,), "two pulleys"), ((MOTOR, WHEEL.replace("55", "30")), "overlap.*2 is wheel"),
    ((MOTOR, WHEEL.replace('diameter = "60 mm"\n', "")), "wheel: has no diameter"),
    ((MOTOR, WHEEL, '[[part]]\nname = "second"\nkind = "belt"\n'), "in_machine = true")])
def test_what_a_sheet_lacks_is_told(parts, told):
    with pytest.raises(ValueError, match=told):
        found(*parts)


def test_a_belt_without_thickness_is_told():
    with pytest.raises(ValueError, match="belt: has no thickness"):
        path_of(read_text(TOP.replace('thickness = "1.2 mm"\n', "") + MOTOR + WHEEL))


@pytest.mark.parametrize(("line", "told"), [
    ('at = ["55 mm"]', "two lengths"), ('at = "55 mm"', "list"), ('at = ["55 mm", "x"]', "x"), ('at = ["55 mm", "3 V"]', "3 V"),
    ('turns = "backwards"\nat = ["55 mm", "0 mm"]', "turns")])
def test_a_place_that_cannot_be_read_is_told_with_its_line(line, told):
    with pytest.raises(SheetError, match=told):
        read_text(TOP + MOTOR + WHEEL.replace('at = ["55 mm", "0 mm"]', line))


def thread(*values, limit=1.0):
    return belt_measure.by_thread(lengths=[Q(value, "mm") for value in values], limit=Q(limit, "mm"), thread_thickness=Q(0.3, "mm"),
                                  neutral_height=HEIGHT)


def test_a_thread_by_hand():
    """The mean and 0.9 pi; the limit over root three, and the scatter of three over root three beside it (JCGM 100)."""
    known = thread(228.1, 228.6, 228.2)
    assert known.plain == pytest.approx(228.3 + 0.9 * math.pi)
    assert known.number.std_dev == pytest.approx(math.hypot(1 / math.sqrt(3), np.std([228.1, 228.6, 228.2], ddof=1) / math.sqrt(3)))
    assert thread(228.3).number.std_dev == pytest.approx(1 / math.sqrt(3))


def test_many_layings_shrink_the_scatter_and_never_the_limit():
    few, many = thread(228, 229), thread(*[228, 229] * 50)
    assert 1 / math.sqrt(3) < many.number.std_dev < few.number.std_dev


def test_a_calliper_against_random_errors():
    """Ten thousand callipers, each off by a chance within its limit, the sum by the law's own geometry."""
    known = belt_measure.by_calliper(first_diameter=Q(6, "mm"), second_diameter=Q(60, "mm"), distance=Q(55, "mm"), limit=Q(0.3, "mm"),
                                     neutral_height=HEIGHT)
    chance = np.random.default_rng(4)
    small, large, apart = (size + chance.uniform(-0.3, 0.3, 10_000) for size in (6, 60, 55))
    lean = np.arcsin((large - small) / 2 / apart)
    lengths = 2 * apart * np.cos(lean) + (small / 2 + 0.6) * (np.pi - 2 * lean) + (large / 2 + 0.6) * (np.pi + 2 * lean)
    assert known.plain == pytest.approx(lengths.mean(), abs=0.02)
    assert known.number.std_dev == pytest.approx(lengths.std(), rel=0.03)


def test_an_old_belt_is_a_poor_witness():
    """All that may be between 3 and 8 % of stretch and a set of 0.2 to 0.9, by chance."""
    known = belt_measure.by_old_belt(inside=Q(222, "mm"), limit=Q(0.5, "mm"), neutral_height=HEIGHT)
    chance = np.random.default_rng(4)
    stretch, kept = chance.uniform(0.03, 0.08, 20_000), chance.uniform(0.2, 0.9, 20_000)
    lengths = (222 + chance.uniform(-0.5, 0.5, 20_000) + 1.2 * np.pi) * (1 + stretch) / (1 + kept * stretch)
    assert known.plain == pytest.approx(lengths.mean(), rel=1e-3) and known.number.std_dev == pytest.approx(lengths.std(), rel=0.1)
    assert known.number.std_dev > 3 * thread(228.3).number.std_dev


def test_the_size_to_order_is_as_uncertain_as_its_path():
    """Check value C41, and its share of the path's uncertainty: 1 by 1.05, and by pi for a diameter."""
    path = thread(227.21492 + 0.3 * math.pi)
    round_it, across = (belt_measure.size_to_order(path=path, stretch=0.05, measure=measure, neutral_height=HEIGHT)
                        for measure in (INSIDE_CIRCUMFERENCE, INSIDE_DIAMETER))
    assert (round_it.plain, across.plain) == pytest.approx((216.2156, 68.8236), rel=1e-5)
    assert round_it.number.std_dev == pytest.approx(path.number.std_dev / 1.05)
    assert across.number.std_dev == pytest.approx(path.number.std_dev / 1.05 / math.pi)


def test_the_best_way_and_one_that_clashes():
    ways = {"old belt": belt_measure.by_old_belt(inside=Q(300, "mm"), limit=Q(0.5, "mm"), neutral_height=HEIGHT), "thread": thread(228.3)}
    assert belt_measure.best_of(ways) == ("thread", ("old belt",))
    assert belt_measure.best_of({**ways, "old belt": thread(228.4, limit=3)}) == ("thread", ())


@pytest.mark.parametrize(("size", "measure", "told"), [
    (68.8, INSIDE_DIAMETER, "^$"), (216, INSIDE_CIRCUMFERENCE, "^$"),
    (216, INSIDE_DIAMETER, "As inside circumference it would be 5 %.*factor of pi"),
    (68.8, INSIDE_CIRCUMFERENCE, "As inside diameter it would be 5 %.*factor of pi"),
    (108, INSIDE_CIRCUMFERENCE, "As flat length"), (216, FLAT_LENGTH, "As inside circumference"),
    (80, INSIDE_DIAMETER, "hang slack"), (55, INSIDE_DIAMETER, "more than any belt")])
def test_a_size_that_was_surely_another(size, measure, told):
    said = likely_slip(size=Q(size, "mm"), measure=measure, neutral_height=HEIGHT, path_length=Q(230.98484, "mm"))
    assert re.search(told, said)


def test_of_several_belts_the_one_that_runs():
    """As found the marked one, then whatever an action fitted last; pulleys fitted with it change nothing."""
    belts = "".join(f'[[part]]\nname = "{name}"\nkind = "belt"\n{rest}\n' for name, rest in
                    (("old", "in_machine = true"), ("a", 'section = "square"\nsold_as = "inside diameter"\nhardness = 60'), ("b", "")))
    actions = ('[[action]]\nname = "first"\nfitted = ["a"]\n[[action]]\nname = "cleaned"\n'
               '[[action]]\nname = "second"\nfitted = ["b"]\n')
    sheet = read_text("version = 1\n" + belts + actions)
    assert [belt_in_machine(sheet, stage).name for stage in sheet.stages] == ["old", "a", "a", "b"]
    assert belt_in_machine(sheet).name == "b"
    assert sheet.parts["a"].details == {"section": "square", "sold_as": "inside diameter", "hardness": 60.0}
    assert belt_in_machine(read_text("version = 1\n" + belts.replace("in_machine = true", ""))) is None


@pytest.mark.parametrize("wrong", ['section = "oval"', 'sold_as = "diameter"', "hardness = 0", 'in_machine = "yes"', 'drives = 1'])
def test_a_belts_words_are_checked(wrong):
    with pytest.raises(SheetError, match="[Ww]rite"):
        read_text(f'version = 1\n[[part]]\nname = "a"\nkind = "belt"\n{wrong}\n')
