"""What an author did to a script: words and comments kept, new readings told, claims that nothing carries marked."""

import re
import shutil
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from one_spring import SMALL, edited, one_spring, reading

from benchreckoner import commands, project
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.tell import script_page
from benchreckoner.tell.script import CHAPTERS, REGISTERS, read_script, total
from benchreckoner.tell.script_about import description
from benchreckoner.tell.script_file import remake
from benchreckoner.tell.script_page import make_script, script_html

DEMOS = ["record_player", "tape_player"]


@pytest.fixture(scope="module", params=DEMOS)
def sheet(request):
    return read_sheet(project.CASES / f"{request.param}.toml")


@pytest.fixture(scope="module")
def made(sheet):
    return remake(None, sheet)


def test_the_description_promises_nothing_of_a_figure_that_the_author_added():
    sheet = one_spring()
    text, script = remake(None, sheet)
    assert "\nEvery figure in it comes from the bench sheet" in description(script, sheet)
    changed = edited(text, "opening", camera="It runs at 77.7 V now.")
    about = description(remake(changed, sheet)[1], sheet)
    assert "\nIts figures, but for those that the author added, come from the bench sheet" in about and "Every figure" not in about
    assert "Every figure" in description(remake(edited(changed, "opening", use=False), sheet)[1], sheet)


def test_words_and_comments_of_the_author_survive():
    sheet = one_spring()
    text = edited(remake(None, sheet)[0], "opening", camera="Look at this old thing.")
    text = text.replace('[[line]]\nid = "judged', '# my reminder: speak slowly\n[[line]]\nid = "judged')
    text += '\n[[line]]\nchapter = "Thanks"\ncamera = "Thank you, Aunt."\nmood = "warm"\n# the end\n'
    again, script = remake(text, sheet)
    assert script.used[0].say["camera"] == "Look at this old thing." and script.used[0].say["room"].startswith("On the table")
    own = script.lines[-1]
    assert own.say == {"camera": "Thank you, Aunt.", "room": "Thank you, Aunt."} and own.chapter == "Thanks" and own.id == "own 1"
    place = again.index("# my reminder: speak slowly\n[[line]]\n")
    assert again[place:].split("\n")[2].startswith('id = "judged') and "# the end" in again and 'mood = "warm"' in again
    assert remake(again, sheet)[0] == again and not script.marks and not script.newer


def test_a_line_switched_on_or_off_by_hand_stays_so():
    sheet = read_sheet(project.CASES / "record_player.toml")
    text = remake(None, sheet)[0]
    script = remake(edited(edited(text, "instruments", use=True), "done: springs cleaned", use=False), sheet)[1]
    use = {line.id: line.use for line in script.lines}
    assert use["instruments"] and not use["done: springs cleaned"]
    assert "Unplug the adapter" in next(line for line in script.used if line.id == "taken off: springs cleaned").caution


def test_a_changed_reading_renews_an_untouched_line():
    text = remake(None, one_spring("800 mV"))[0]
    script = remake(text, one_spring("900 mV"))[1]
    assert "about 900 milliohms" in next(line for line in script.lines if line.id.startswith("judged")).say["camera"]
    assert not script.marks and not script.newer


def test_a_changed_reading_marks_an_edited_line_and_shows_both():
    key = "judged: spring 9, resistance, as found, held"
    text = edited(remake(None, one_spring("800 mV"))[0], key, camera="A whole 800 milliohms, give or take 9!")
    sheet = one_spring("900 mV")
    again, script = remake(text, sheet)
    line = next(line for line in script.lines if line.id == key)
    assert line.say["camera"] == "A whole 800 milliohms, give or take 9!" and "about 900 milliohms" in line.say["room"]
    assert "about 900 milliohms" in script.newer[key]["camera"] and any("changed since" in mark for mark in script.marks[key])
    assert any("“800 milliohms” stands in no reading" in mark for mark in script.marks[key])
    page = script_html(script, sheet, "")
    assert "A whole 800 milliohms" in page and "By the readings now (camera)" in page
    assert remake(again, sheet)[0] == again and "newer" in again
    looked = re.sub(r"newer = .*\n", "", again)
    assert key not in remake(looked, sheet)[1].newer, "deleting newer says that the author has looked"


def test_a_line_whose_readings_are_gone_is_kept():
    key = "judged: spring 9, resistance, as found, held"
    text = remake(None, one_spring())[0]
    bare = read_text(SMALL + reading("motor", "current", "1.000 A"), source="one.toml")
    gone, script = remake(text, bare)
    assert key in gone and key not in {line.id for line in script.used} and "switched off" in script.marks[key][0]
    assert key in {line.id for line in remake(gone, one_spring())[1].used}, "and comes back with its reading"
    script = remake(edited(text, key, camera="Mine."), bare)[1]
    assert "Mine." in {line.say["camera"] for line in script.used} and "no longer carry" in script.marks[key][0]


@pytest.mark.parametrize("words, marked", [
    ("Spring 9 lost 800 millivolts at 1 amp.", ()), ("It is 0.8 Ω, give or take 10.", ()), ("Six cells.", ()),
    ("It is 700 milliohms.", ("“700 milliohms”",)), ("It plays 25 per cent louder.", ("“25 per cent”",)),
    ("It is definitely cured.", ("“definitely”",)), ("I paid 12 for it.", ("“12”",)), ("800 volts", ("“800 volts”",))])
def test_a_claim_that_nothing_carries_is_marked_and_explained(words, marked):
    sheet = one_spring()
    script = remake(edited(remake(None, sheet)[0], "opening", camera=words), sheet)[1]
    found = script.marks.get("opening", ())
    assert len(found) == len(marked) and all(word in mark for word, mark in zip(marked, found))


@pytest.mark.parametrize("name", DEMOS)
def test_make_script_writes_all_and_read_script_reads_it(tmp_path, name, capsys):
    sheet_path = tmp_path / f"{name}.toml"
    shutil.copy(project.CASES / f"{name}.toml", sheet_path)
    home = tmp_path / "out"
    for _ in range(2):
        assert commands.main(["make", "script", "--sheet", str(sheet_path), "--to", str(home)]) == 0
        assert "script.html" in capsys.readouterr().out
    assert sorted(path.name for path in home.iterdir()) == ["script.html", "script.toml", "script_description.txt"]
    sheet = read_sheet(sheet_path)
    script = read_script(home / "script.toml", sheet)
    assert script == read_script(home / "none.toml", sheet) and script.target == 360
    assert all(total(script.lines, register, script.words_per_minute) <= 360 for register in REGISTERS)
    about = (home / "script_description.txt").read_text(encoding="utf-8")
    times = re.findall(r"^(\d+):(\d\d) (.+)$", about, re.MULTILINE)
    assert [chapter for *_, chapter in times] == list(CHAPTERS) and times[0][:2] == ("0", "00")
    assert all(f"- {part}" in about for part in sheet.parts) and "Corrections" in about and "common practice" in about
    assert "from a limit" in about.splitlines()[1], "no reading gave the limits' figures"


def test_what_is_no_script_of_ours_is_left(tmp_path):
    (tmp_path / "one.toml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "script.html").write_text("mine", encoding="utf-8")
    with pytest.raises(OSError, match="was left as it is"):
        make_script(tmp_path / "one.toml", tmp_path)
    assert (tmp_path / "script.html").read_text(encoding="utf-8") == "mine" and not (tmp_path / "script.toml").exists()


def test_a_file_that_its_author_saves_meanwhile_is_left(tmp_path, monkeypatch):
    (tmp_path / "one.toml").write_text(SMALL, encoding="utf-8")
    make_script(tmp_path / "one.toml", tmp_path)
    home = tmp_path / "script.toml"
    (tmp_path / "one.toml").write_text(SMALL + reading("motor", "current", "1.000 A"), encoding="utf-8")
    monkeypatch.setattr(script_page, "put_pages", lambda *pages, **more: home.write_text("# mine\n", encoding="utf-8"))
    with pytest.raises(OSError, match="was changed while"):
        make_script(tmp_path / "one.toml", tmp_path)
    assert home.read_text(encoding="utf-8") == "# mine\n"


def test_windows_line_ends_and_a_byte_order_mark_are_welcome():
    sheet = one_spring()
    text = "\ufeff" + edited(remake(None, sheet)[0], "opening", camera="Mine.").replace("\n", "\r\n")
    again, script = remake(text, one_spring("900 mV", more='[[action]]\nname = "cleaned"\n'))
    assert script.used[0].say["camera"] == "Mine." and "\n" not in again.replace("\r\n", "")
    assert any(line.id == "done: cleaned" for line in script.lines)


@settings(max_examples=40, deadline=None)
@given(rubbish=some.text(max_size=200), place=some.integers(0, 3000))
def test_any_text_is_read_or_told(rubbish, place):
    sheet = one_spring()
    text = remake(None, sheet)[0]
    try:
        again, _ = remake(text[:place] + rubbish + text[place:], sheet)
    except SheetError as error:
        assert "script.toml, line" in str(error)
    else:
        assert remake(again, sheet)[0] == again


def test_made_again_it_stays_the_same_byte_for_byte(sheet, made):
    assert remake(made[0], sheet)[0] == made[0] and tomllib.loads(made[0])["target"] == "6 min"
