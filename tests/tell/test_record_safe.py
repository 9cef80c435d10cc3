"""The record: that nothing a reader typed can harm it, and that it is saved whole or not at all."""

import os
import subprocess
import sys

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as some
from recorded import DEMO, NASTY, Page

from benchreckoner import commands
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.tell.record import make_record, record_html

TURNED = "\u202eאבג דהו\u202c"


@pytest.fixture(scope="module")
def demo():
    return Page(record_html(read_sheet(DEMO)))


def test_the_same_sheet_gives_the_same_bytes(tmp_path):
    """In two processes whose sets and dictionaries are shuffled differently."""
    pages = []
    for seed in ("1", "2"):
        folder = tmp_path / seed
        line = f"from benchreckoner.tell.record import make_record; make_record({str(DEMO)!r}, {str(folder)!r})"
        subprocess.run([sys.executable, "-c", line], check=True, env={**os.environ, "PYTHONHASHSEED": seed})
        pages.append((folder / "record_player.record.html").read_bytes())
    assert pages[0] == pages[1]


class TestNames:
    def test_markup_in_names_stays_text(self, demo):
        text = DEMO.read_text(encoding="utf-8")
        for name in ("spring 3", "springs cleaned", "suitcase record player", "second meter", "dull grey bloom under the rivet"):
            text = text.replace(f'"{name}"', tomlkit.string(f"{NASTY} {name}").as_string())
        text = text.replace("rivet of spring 3", NASTY.replace('"', "'"))
        page = Page(record_html(read_text(text)))
        assert set(page.tags) == set(demo.tags), "a name became markup"
        assert page.headings[0][1] == f"{NASTY} suitcase record player"
        assert f"{NASTY} spring 3 is the guilty link" in page.text
        assert {name for _, name, _ in page.attributes} == {name for _, name, _ in demo.attributes}

    @given(words=some.lists(some.text(some.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=40)
                            .filter(lambda text: text.strip()), min_size=4, max_size=4))
    @settings(deadline=None, max_examples=25)
    def test_whatever_is_typed_stays_text(self, words):
        name, symptom, photo, note = words
        sheet = read_text(tomlkit.dumps({
            "version": 1, "note": note, "machine": {"name": name, "note": note},
            "part": [{"name": name, "kind": "motor"}], "symptom": [{"what": symptom, "stage": "as found", "note": note}],
            "observation": [{"part": name, "what": symptom, "stage": "as found", "photo": photo}]}))
        plain = read_text('version = 1\nnote = "a"\n[machine]\nname = "a"\nnote = "a"\n[[part]]\nname = "a"\nkind = "motor"\n'
                          '[[symptom]]\nwhat = "a"\nstage = "as found"\nnote = "a"\n'
                          '[[observation]]\npart = "a"\nwhat = "a"\nstage = "as found"\nphoto = "a"\n')
        assert Page(record_html(sheet)).tags == Page(record_html(plain)).tags

    def test_names_that_turn_the_line_round_leave_the_numbers_alone(self):
        text = record_html(read_text(DEMO.read_text(encoding="utf-8").replace('"spring 3"', f'"{TURNED}"')))
        assert not set(text) & set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
        assert "אבג דהו\u200e is the guilty link" in text, "the run from right to left ends before the words that follow"
        assert next(row for row in Page(text).table("as found, held: volts") if "אבג" in row[0])[3] == "827 ± 13 mΩ"

    def test_a_photograph_is_named_and_not_shown(self):
        text = DEMO.read_text(encoding="utf-8").replace('what = "dull', 'photo = "../spring 3.jpg"\nwhat = "dull')
        page = Page(record_html(read_text(text)))
        assert "photograph kept with the sheet: ../spring 3.jpg" in page.text and "img" not in page.tags


class TestSaving:
    @pytest.fixture
    def sheet(self, tmp_path):
        path = tmp_path / "garden player.toml"
        path.write_text("version = 1", encoding="utf-8")
        return path

    def test_named_after_the_sheet_in_a_folder_it_makes(self, sheet, tmp_path):
        assert make_record(sheet, tmp_path / "lid") == tmp_path / "lid" / "garden player.record.html"
        assert [path.name for path in (tmp_path / "lid").iterdir()] == ["garden player.record.html"]
        assert sheet.read_text(encoding="utf-8") == "version = 1"

    def test_no_parent_folder_is_made(self, sheet, tmp_path):
        with pytest.raises(FileNotFoundError, match="there is no folder .*far.*make it first"):
            make_record(sheet, tmp_path / "far" / "away")
        assert not (tmp_path / "far").exists()

    def test_a_file_in_place_of_the_folder(self, sheet):
        with pytest.raises(NotADirectoryError, match="name a folder"):
            make_record(sheet, sheet)

    def test_a_faulty_sheet_leaves_no_folder(self, tmp_path):
        (tmp_path / "faulty.toml").write_text("version = 9", encoding="utf-8")
        with pytest.raises(SheetError):
            make_record(tmp_path / "faulty.toml", tmp_path / "lid")
        assert not (tmp_path / "lid").exists()

    def test_an_earlier_record_is_replaced_and_nothing_else(self, sheet, tmp_path):
        path = make_record(sheet, tmp_path)
        sheet.write_text('version = 1\n[machine]\nname = "Garden player"', encoding="utf-8")
        assert "Garden player" in make_record(sheet, tmp_path).read_text(encoding="utf-8")
        path.write_text("my own page", encoding="utf-8")
        with pytest.raises(FileExistsError, match="no record of a repair and was left as it is"):
            make_record(sheet, tmp_path)
        assert path.read_text(encoding="utf-8") == "my own page"
        path.unlink()
        path.mkdir()
        with pytest.raises(FileExistsError):
            make_record(sheet, tmp_path)

    def test_the_command_says_so_and_ends_with_2(self, sheet, tmp_path, capsys):
        page = tmp_path / "garden player.record.html"
        page.write_text("my own page", encoding="utf-8")
        words = ["make", "record", "--sheet", str(sheet), "--to", str(tmp_path)]
        assert commands.main(words) == 2
        assert "left as it is" in capsys.readouterr().err
        page.unlink()
        assert commands.main(words) == 0
        assert page.exists()

    @pytest.mark.parametrize("step", ["fsync", "replace"])
    @pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
    def test_stopped_half_way_the_earlier_record_stands(self, sheet, tmp_path, monkeypatch, step, error):
        path = make_record(sheet, tmp_path)
        earlier = path.read_bytes()

        def stop(*_):
            raise error

        monkeypatch.setattr("os." + step, stop)
        sheet.write_text('version = 1\n[machine]\nname = "Garden player"', encoding="utf-8")
        with pytest.raises(type(error)):
            make_record(sheet, tmp_path)
        assert path.read_bytes() == earlier
        assert {one.name for one in tmp_path.iterdir()} == {sheet.name, path.name}

    @pytest.mark.parametrize("step", ["fsync", "replace"])
    def test_killed_while_saving_the_earlier_record_stands(self, sheet, tmp_path, step):
        """The process is gone at once, with the new page written but not yet in its place."""
        path = make_record(sheet, tmp_path)
        earlier = path.read_bytes()
        sheet.write_text('version = 1\n[machine]\nname = "Garden player"', encoding="utf-8")
        child = ("import os, sys\n"
                 "from benchreckoner.tell.record import make_record\n"
                 f"os.{step} = lambda *_: os._exit(9)\n"
                 "make_record(sys.argv[1], sys.argv[2])\n")
        assert subprocess.run([sys.executable, "-c", child, str(sheet), str(tmp_path)]).returncode == 9
        assert path.read_bytes() == earlier
        assert "Garden player" in make_record(sheet, tmp_path).read_text(encoding="utf-8")
