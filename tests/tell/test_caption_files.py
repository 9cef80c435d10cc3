"""Captions as files: by plan, after a voice, beside a corrected one, and for a script that is none."""

import re
import runpy
from pathlib import Path
from types import SimpleNamespace

import pytest
import tomlkit

from benchreckoner import commands, project
from benchreckoner.bench.sheet import SheetError, read_sheet
from benchreckoner.tell import caption_files
from benchreckoner.tell.caption_files import make_captions, planned
from benchreckoner.tell.captions import UPRIGHT_HEIGHT, UPRIGHT_WIDTH, break_lines, cues, sentences
from benchreckoner.tell.script import Script, read_script
from benchreckoner.tell.script_page import make_script

SHEETS = [project.CASES / "record_player.toml", project.CASES / "tape_player.toml"]
VOICE = SimpleNamespace(**runpy.run_path(str(Path(__file__).with_name("test_voice.py"))))


def shown(path):
    """The captions of a file as (start, end, text), read apart without our own code."""
    found = []
    for block in path.read_text(encoding="utf-8").strip().split("\n\n")[1:]:
        lines = block.split("\n")
        if not lines[0].startswith("NOTE"):
            start, end = (sum(60 ** place * float(part) for place, part in enumerate(reversed(time.split(":")))) for time in lines[1].split(" --> "))
            found.append((start, end, "\n".join(lines[2:])))
    return found


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.stem)
def test_both_machines_get_captions_and_chapters(sheet, tmp_path):
    told = []
    path = make_captions(sheet, tmp_path / "film", tell=told.append)
    script = read_script(tmp_path / "film" / "script.toml", read_sheet(sheet))
    said = [sentence for line in script.used for sentence in sentences(line.say["camera"])]
    found = shown(path)
    assert len(found) == sum(len(break_lines(sentence)) for sentence in said)
    assert " ".join(text for _, _, text in found).split() == " ".join(said).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").split()
    assert all(start < end for start, end, _ in found) and max(len(line) for _, _, text in found for line in text.split("\n")) <= 37 + 12
    upright = cues(planned(script), width=UPRIGHT_WIDTH, height=UPRIGHT_HEIGHT)
    assert not any("Hard to read" in line for line in told) and not any(cue.hurried for cue in upright)
    chapters = shown(path.with_name("chapters.vtt"))
    assert [text for _, _, text in chapters] == list(dict.fromkeys(line.chapter for line in script.used))
    assert chapters[0][0] == 0 and all(one[1] == other[0] for one, other in zip(chapters, chapters[1:]))
    assert path.with_name("captions_upright.vtt").exists() and any("No recording of the voice" in line for line in told)


def test_times_are_those_of_the_speaking_rate():
    script = read_script("nowhere.toml", read_sheet(SHEETS[0]))
    spoken = planned(script)
    words = sum(len(re.findall(r"[^\W\d_]+(?:['’\-][^\W\d_]+)*", one.text)) for one in spoken)
    assert spoken[-1].end > words / script.words_per_minute * 60 and spoken[0].start == 0
    assert all(one.end == other.start for one, other in zip(spoken, spoken[1:]))


def test_a_recorded_voice_gives_the_times(tmp_path):
    make_script(SHEETS[0], tmp_path)
    texts = [one.text for one in planned(read_script(tmp_path / "script.toml", read_sheet(SHEETS[0])))]
    samples, true = VOICE.recorded(texts=texts, wobble=0.05, commas=False, seed=8)
    VOICE.written(tmp_path / "voice.wav", samples)
    told = []
    found = shown(make_captions(SHEETS[0], tmp_path, tell=told.append))
    starts = [start for start, _, _ in found]
    near = [min(abs(start - begins) for start in starts) for begins, _ in true]
    assert sum(gap < 0.12 for gap in near) >= 0.95 * len(true), told
    assert not any("No recording" in line for line in told)


def test_a_corrected_file_is_kept(tmp_path):
    path = make_captions(SHEETS[0], tmp_path)
    corrected = path.read_text(encoding="utf-8").replace("00:00:00.000", "00:00:00.500", 1)
    path.write_text(corrected, encoding="utf-8")
    told = []
    second = make_captions(SHEETS[0], tmp_path, tell=told.append)
    assert path.read_text(encoding="utf-8") == corrected and second.name == "captions-2.vtt"
    assert "captions.vtt was changed by hand and is left as it is." in told
    assert make_captions(SHEETS[0], tmp_path) == second, "the unchanged second one is made again"
    second.write_text("mine", encoding="utf-8")
    assert make_captions(SHEETS[0], tmp_path).name == "captions-3.vtt"


def test_captions_follow_the_scripts_words_and_a_corrected_file_still_stands(tmp_path):
    """The author changes a line of the script, corrects a caption by hand, then changes the line again."""
    def say(words):
        script = tomlkit.parse((tmp_path / "script.toml").read_text(encoding="utf-8"))
        next(line for line in script["line"] if line["use"])["camera"] = words
        (tmp_path / "script.toml").write_text(tomlkit.dumps(script), encoding="utf-8")
        return make_captions(SHEETS[0], tmp_path)

    make_script(SHEETS[0], tmp_path)
    path = say("This came in a suitcase.")
    assert shown(path)[0][2] == "This came in a suitcase."
    mine = path.read_text(encoding="utf-8").replace("in a suitcase", "in an old suitcase")
    path.write_text(mine, encoding="utf-8")
    again = say("This came by train.")
    assert again.name == "captions-2.vtt" and shown(again)[0][2] == "This came by train."
    assert path.read_text(encoding="utf-8") == mine
    assert say("This came on foot.") == again and shown(again)[0][2] == "This came on foot." and path.read_text(encoding="utf-8") == mine


def test_an_unchanged_file_is_made_again_byte_for_byte_and_line_ends_do_not_matter(tmp_path):
    path = make_captions(SHEETS[0], tmp_path)
    first = path.read_bytes()
    path.write_bytes(first.replace(b"\n", b"\r\n"))
    assert make_captions(SHEETS[0], tmp_path) == path and path.read_bytes() == first


def test_a_file_that_is_not_ours_is_kept(tmp_path):
    (tmp_path / "chapters.vtt").write_bytes(b"\xff\xfe somebody else's")
    make_captions(SHEETS[0], tmp_path)
    assert (tmp_path / "chapters.vtt").read_bytes().startswith(b"\xff\xfe") and (tmp_path / "chapters-2.vtt").exists()


def test_a_script_with_nothing_said_is_told(tmp_path, monkeypatch):
    monkeypatch.setattr(caption_files, "read_script", lambda path, sheet: Script(machine="", lines=(), words_per_minute=160))
    with pytest.raises(SheetError, match="nothing to caption"):
        make_captions(SHEETS[0], tmp_path)
    assert not list(tmp_path.iterdir())


def test_a_silent_voice_leaves_nothing_behind(tmp_path, capsys):
    VOICE.written(tmp_path / "voice.wav", VOICE.np.zeros(80000))
    assert commands.main(["make", "captions", "--sheet", str(SHEETS[0]), "--to", str(tmp_path)]) == 2
    assert "silent" in capsys.readouterr().err and not list(tmp_path.glob("*.vtt"))


def test_the_command_says_where_they_lie(tmp_path, capsys):
    assert commands.main(["make", "captions", "--sheet", str(SHEETS[0]), "--to", str(tmp_path / "film")]) == 0
    out, err = capsys.readouterr()
    assert out.strip().endswith("captions.vtt") and "No recording of the voice" in err
    assert "captions_upright.vtt" in err and "chapters.vtt" in err
