"""What the author's lamps and camera make of the machine: told in the script, and nonsense told with its line and key."""

import re

import pytest
from one_spring import SMALL, one_spring

from benchreckoner import project
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.tell.script_file import remake
from benchreckoner.tell.script_page import description, script_html

TAPE_PLAYER = read_sheet(project.CASES / "tape_player.toml")


def film_of(sheet, **typed):
    text = remake(None, sheet)[0]
    for key, value in typed.items():
        text, count = re.subn(rf"(?m)^{key} = .*$", f"{key} = {value}", text, count=1)
        assert count == 1, key
    return remake(text, sheet)[1].film


def test_the_usual_lamps_and_camera_stand_in_a_new_file_and_on_the_page():
    text, script = remake(None, TAPE_PLAYER)
    assert '[film]\nmains = "50 Hz"' in text and text.index("[film]") < text.index("[[line]]")
    page = script_html(script, TAPE_PLAYER, description(script, TAPE_PLAYER))
    assert all(words in page for words in ("Before you film", "free of flicker are 1/100 s, 1/50 s", "openly licensed", "Automatic gain"))
    assert remake(text, TAPE_PLAYER)[0] == text


def test_a_motor_with_three_marks_seems_to_turn_as_the_nearest_frame_has_it():
    """2399 r/min and three marks pass 119.95 times a second: at 25 frames 5.05 short of 125, a third of that a second backwards."""
    told = next(words for words in film_of(TAPE_PLAYER) if words.startswith("motor"))
    passes = 3 * 2399 / 60
    apparent = (passes - 25 * round(passes / 25)) / 3 * 60
    assert f"backwards at {abs(apparent):.3g} r/min" in told and apparent < 0


def test_other_lamps_and_frames_are_taken():
    told = " ".join(film_of(TAPE_PLAYER, mains='"60 Hz"', frames="30", shutter='"1/30 s"', marks="4"))
    assert "1/120 s, 1/60 s" in told and "30 frames a second" in told and "with 4 marks" in told


def test_a_bare_motor_on_a_bench_supply_turns_nothing_in_the_film():
    told = " ".join(film_of(read_sheet(project.CASES / "record_player.toml")))
    assert "platter, 33.32 r/min" in told and "1889" not in told
    assert "motor, 2399 r/min" in told, "33.32 turns of the platter, 72 of the motor to each"


def test_a_file_without_it_is_read_with_the_usual_ones():
    text = re.sub(r"(?s)\[film\].*?(?=\[\[line\]\])", "", remake(None, one_spring())[0])
    again, script = remake(text, one_spring())
    assert again == text and "Reckoned for lamps on 50 Hz" in script.film[0]
    assert not any("r/min" in words for words in remake(None, read_text(SMALL))[1].film)


@pytest.mark.parametrize("key, typed, told", [
    ("mains", '"fast"', 'mains = "50 Hz"'), ("mains", '"-50 Hz"', "above zero"), ("frames", '"many"', "frames = 25"), ("frames", "0", "frames = 25"),
    ("frames", "2.5", "frames = 25"), ("shutter", '"1/5 s"', "longer than a frame"), ("shutter", '"closed"', 'shutter = "1/50 s"'),
    ("shutter", "true", "cannot be read"), ("marks", '""', "marks = 3"), ("marks", "[3]", "cannot be read")])
def test_nonsense_names_its_line_and_key_and_shows_what_to_write(key, typed, told):
    text = remake(None, TAPE_PLAYER)[0]
    line = next(number for number, words in enumerate(text.splitlines(), 1) if words.startswith(f"{key} = "))
    with pytest.raises(SheetError) as error:
        film_of(TAPE_PLAYER, **{key: typed})
    said = str(error.value)
    assert told in said and f"line {line}" in said and key in said and "Frames a second:" not in said


def test_one_that_is_no_table_is_told():
    text = re.sub(r"(?s)\[film\].*?(?=\[\[line\]\])", "", remake(None, TAPE_PLAYER)[0])
    with pytest.raises(SheetError, match=r"\[film\] on a line of its own"):
        remake(text.replace("version = 1\n", 'version = 1\nfilm = "25"\n', 1), TAPE_PLAYER)


@pytest.mark.parametrize("old, new, told", [
    ("shutter = ", "shuter = ", "did you mean shutter"), ("frames = ", "Frames = ", "did you mean frames"),
    ("marks = 3", 'marks = 3\ntarget = "3 min"', r"target: stands within \[film\], where it does nothing; move target above the first \[film\]")])
def test_what_would_change_nothing_is_told(old, new, told):
    text = re.sub("(?m)^target = .*\n", "", remake(None, TAPE_PLAYER)[0])
    assert remake(text, TAPE_PLAYER)[1].target is None
    with pytest.raises(SheetError, match=told):
        remake(text.replace(old, new, 1), TAPE_PLAYER)


def test_a_key_of_the_authors_own_beside_the_lamps_is_left_alone():
    text = remake(None, TAPE_PLAYER)[0].replace("marks = 3", 'marks = 3\nlens = "old"', 1)
    assert remake(text, TAPE_PLAYER)[0] == text
