"""Saving: nothing lost, nothing moved, undone without a trace, and whole whenever it is killed."""

import os
import random
import stat
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner import files
from benchreckoner.bench.changes import add_entry, take_back
from benchreckoner.files import save_whole
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text

SAMPLE = Path(__file__).with_name("sample_sheet.toml")
READING = {"part": "end spring", "quantity": "voltage drop", "value": "12,6 mV", "instrument": "meter",
           "stage": "end spring cleaned", "condition": "playing"}
ENTRIES = {
    "reading": READING,
    "action": {"name": "lead renewed", "planned": "5 min"},
    "part": {"name": "solder lug", "kind": "solder joint"},
    "instrument": {"name": "old meter", "accuracy": "3 % + 20 mV"},
    "symptom": {"what": "hums", "stage": "as found"},
    "observation": {"part": "lamp", "what": "black glass", "stage": "as found"},
}


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "player.toml"
    path.write_bytes(SAMPLE.read_bytes())
    return path


def alone(path):
    """Whether nothing lies beside the sheet."""
    return list(path.parent.iterdir()) == [path]


class TestAdding:
    @pytest.mark.parametrize("table", ENTRIES)
    def test_added_at_the_end_and_taken_back(self, path, table):
        before = path.read_bytes()
        change = add_entry(path, table=table, entry=ENTRIES[table])
        after = path.read_bytes()
        assert after.startswith(before)
        assert after[len(before):].decode("utf-8") == f"\n[[{table}]]\n" + "".join(
            f'{key} = "{value}"\n' for key, value in ENTRIES[table].items())
        assert (change.before, change.after) == (before.decode("utf-8"), after.decode("utf-8"))
        assert change.sheet == read_sheet(path)
        assert take_back(change) == read_text(change.before, source="player.toml")
        assert path.read_bytes() == before
        assert alone(path)

    def test_the_new_reading_is_the_last(self, path):
        reading = add_entry(path, table="reading", entry=READING).sheet.readings[-1]
        assert (reading.part, reading.text, reading.stage) == ("end spring", "12,6 mV", "end spring cleaned")
        assert path.read_text(encoding="utf-8").splitlines()[reading.line - 1] == "[[reading]]"

    def test_a_repeat_is_welcome(self, path):
        count = len(read_sheet(path).readings)
        for _ in range(3):
            sheet = add_entry(path, table="reading", entry=READING).sheet
        assert len(sheet.readings) == count + 3

    def test_edits_by_hand_between_two_saves_survive(self, path):
        add_entry(path, table="reading", entry=READING)
        text = path.read_text(encoding="utf-8") + "# looked again on Sunday\n"
        text = text.replace('name = "Picnic player"', 'name = "Garden player"   # renamed')
        path.write_text(text, encoding="utf-8")
        sheet = add_entry(path, table="symptom", entry=ENTRIES["symptom"]).sheet
        assert sheet.machine.name == "Garden player"
        assert path.read_text(encoding="utf-8").startswith(text)

    @pytest.mark.parametrize("original", [
        b"version = 1", b"version = 1\n", b"version = 1 # no line end", b"\xef\xbb\xbfversion = 1\r\n[machine]\r\n",
        b"version = 1\r\n# a remark", b"\n\n\nversion = 1\n\n\n",
    ])
    def test_line_ends_and_marks_stay(self, path, original):
        path.write_bytes(original)
        first = add_entry(path, table="action", entry=ENTRIES["action"])
        second = add_entry(path, table="action", entry={"name": "oiled"})
        assert second.sheet.stages == ("as found", "lead renewed", "oiled")
        saved = path.read_bytes()
        assert saved.startswith(original)
        if b"\r\n" in original:
            assert saved.count(b"\n") == saved.count(b"\r\n")
        take_back(second)
        take_back(first)
        assert path.read_bytes() == original

    def test_lists_and_ranges(self, path):
        ranges = [{"quantity": "voltage", "up_to": "2 V", "limit": "1 %"}, {"quantity": "speed", "limit": "1 %"}]
        change = add_entry(path, table="instrument", entry={"name": "old meter", "accuracy": ranges})
        assert [one.quantity for one in change.sheet.instruments["old meter"].accuracy] == ["voltage", "speed"]
        change = add_entry(path, table="action", entry={"name": "oiled", "taken_off": ["lid", "arm"]})
        assert change.sheet.actions[-1].taken_off == ("lid", "arm")

    @settings(max_examples=40, deadline=None)
    @given(note=st.text(st.characters(exclude_categories=["Cs", "Cc"]) | st.sampled_from("\n\t\r\"'\\#[]=")),
           count=st.integers(1, 999), value=st.decimals(0, 150, places=2), comma=st.booleans())
    def test_any_entry_comes_back_as_it_was_typed(self, note, count, value, comma):
        text = f"{value} mV".replace(".", ",") if comma else f"{value} mV"
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "player.toml"
            path.write_bytes(SAMPLE.read_bytes())
            first = add_entry(path, table="reading", entry=READING | {"value": text, "note": note})
            second = add_entry(path, table="part", entry={"name": f"joint {count}", "kind": "solder joint",
                                                          "note": note, "count": count})
            sheet = read_sheet(path)
            assert (sheet.readings[-1].text, sheet.readings[-1].note) == (text, note)
            assert sheet.readings[-1].value.quantity.m_as("mV") == pytest.approx(float(value))
            assert sheet.parts[f"joint {count}"].details["count"] == count
            take_back(second)
            take_back(first)
            assert path.read_bytes() == SAMPLE.read_bytes()


class TestRefusing:
    @pytest.mark.parametrize(("table", "entry", "where"), [
        ("reading", READING | {"value": "12"}, "reading 5, value"),
        ("reading", READING | {"value": 12}, "reading 5, value"),
        ("reading", READING | {"value": "1e400 V"}, "reading 5, value"),
        ("reading", READING | {"part": "sprocket"}, "reading 5, part"),
        ("reading", READING | {"stage": "oiled"}, "reading 5, stage"),
        ("reading", READING | {"colour": "red"}, "reading 5, colour"),
        ("reading", READING | {"co lour\n": "red"}, "reading 5, co lour\n"),
        ("reading", {}, "reading 5, part"),
        ("part", {"name": "motor", "kind": "lamp"}, "part 8, name"),
        ("part", {"name": "other motor", "kind": "motor"}, "part 8, kind"),
        ("action", {"name": "as found"}, "action 2, name"),
        ("action", {"name": "\ud800"}, "new action"),
        ("action", {"name": None}, "new action"),
        ("action", {1: "oiled"}, "new action"),
        ("action", {"name": "oil\x00ed"}, "action 2, name"),
        ("instrument", {"name": "eye", "accuracy": "good"}, "instrument 3, accuracy"),
    ])
    def test_a_faulty_entry_leaves_the_file_alone(self, path, table, entry, where):
        with pytest.raises(SheetError, match="player.toml") as fault:
            add_entry(path, table=table, entry=entry)
        assert fault.value.entry == where
        assert fault.value.line >= 1
        assert path.read_bytes() == SAMPLE.read_bytes()
        assert alone(path)

    @pytest.mark.parametrize("table", ["readings", "machine", "version", "", None])
    def test_no_such_table(self, path, table):
        with pytest.raises(ValueError, match="one of: instrument, part"):
            add_entry(path, table=table, entry=READING)
        assert path.read_bytes() == SAMPLE.read_bytes()

    def test_an_entry_is_a_mapping(self, path):
        with pytest.raises(TypeError, match="entry: must be a mapping"):
            add_entry(path, table="symptom", entry="slow")

    def test_a_faulty_or_newer_file_is_left_alone(self, path):
        for text in ("version = 2\n", 'version = 1\n[machine]\nname = "a', "version = 1\nsymptom = []\n", "a = ["):
            path.write_text(text, encoding="utf-8")
            with pytest.raises(SheetError):
                add_entry(path, table="symptom", entry=ENTRIES["symptom"])
            assert path.read_text(encoding="utf-8") == text
        path.unlink()
        with pytest.raises(SheetError, match="no such file"):
            add_entry(path, table="symptom", entry=ENTRIES["symptom"])
        assert not path.exists()

    def test_undo_after_another_change(self, path):
        change = add_entry(path, table="reading", entry=READING)
        text = path.read_text(encoding="utf-8") + "# by hand\n"
        path.write_text(text, encoding="utf-8")
        with pytest.raises(ValueError, match="was changed after"):
            take_back(change)
        assert path.read_text(encoding="utf-8") == text

    def test_undo_twice(self, path):
        change = add_entry(path, table="reading", entry=READING)
        take_back(change)
        with pytest.raises(ValueError, match="was changed after"):
            take_back(change)
        assert path.read_bytes() == SAMPLE.read_bytes()


class TestSaving:
    @pytest.mark.parametrize("step", ["fsync", "replace"])
    def test_a_failing_disk_leaves_the_file_and_no_litter(self, path, monkeypatch, step):
        def full(*_):
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(files.os, step, full)
        with pytest.raises(SheetError, match="No space left on device.*left as it is") as fault:
            add_entry(path, table="reading", entry=READING)
        assert (fault.value.line, fault.value.entry) == (1, "file")
        assert path.read_bytes() == SAMPLE.read_bytes()
        assert alone(path)

    def test_stopped_by_the_keyboard_while_saving(self, path, monkeypatch):
        def stop(*_):
            raise KeyboardInterrupt

        monkeypatch.setattr(files.os, "fsync", stop)
        with pytest.raises(KeyboardInterrupt):
            add_entry(path, table="reading", entry=READING)
        assert path.read_bytes() == SAMPLE.read_bytes()
        assert alone(path)

    def test_another_program_saves_in_between(self, path, monkeypatch):
        """An edit that lands between our reading and our saving is kept, and ours put behind it."""
        edits = iter(["# one\n", "# two\n"])
        real = os.fsync

        def edit_meanwhile(handle):
            real(handle)
            with path.open("a", encoding="utf-8") as file:
                file.write(next(edits, ""))

        monkeypatch.setattr(files.os, "fsync", edit_meanwhile)
        sheet = add_entry(path, table="reading", entry=READING).sheet
        text = path.read_text(encoding="utf-8")
        assert text.index("# one") < text.index("# two") < text.index("12,6 mV")
        assert sheet == read_sheet(path)
        assert alone(path)

    def test_a_file_that_never_stands_still(self, path, monkeypatch):
        def edit_meanwhile(_):
            with path.open("a", encoding="utf-8") as file:
                file.write("#\n")

        monkeypatch.setattr(files.os, "fsync", edit_meanwhile)
        with pytest.raises(SheetError, match="nothing was saved"):
            add_entry(path, table="reading", entry=READING)
        assert path.read_bytes().startswith(SAMPLE.read_bytes())
        assert "12,6 mV" not in path.read_text(encoding="utf-8")

    def test_another_program_saves_while_undoing(self, path, monkeypatch):
        change = add_entry(path, table="reading", entry=READING)
        monkeypatch.setattr(files.os, "fsync", lambda _: path.write_text("version = 1", encoding="utf-8"))
        with pytest.raises(ValueError, match="was changed after"):
            take_back(change)
        assert path.read_text(encoding="utf-8") == "version = 1"

    @pytest.mark.skipif(os.name == "nt", reason="these permissions are not Windows'")
    def test_permissions_stay(self, path):
        path.chmod(0o640)
        add_entry(path, table="reading", entry=READING)
        assert stat.S_IMODE(path.stat().st_mode) == 0o640

    @pytest.mark.skipif(os.name == "nt", reason="links need rights there")
    def test_a_link_stays_a_link(self, path, tmp_path):
        folder = tmp_path / "elsewhere"
        folder.mkdir()
        link = folder / "link.toml"
        link.symlink_to(path)
        add_entry(link, table="reading", entry=READING)
        assert link.is_symlink()
        assert b"12,6 mV" in path.read_bytes()


# Saves a large sheet over and over: the longer text, the shorter one, and so on.
CHILD = """
import sys
from pathlib import Path
from benchreckoner.files import save_whole

path = Path(sys.argv[1])
old = path.read_bytes().decode("utf-8")
new = old + sys.argv[2]
print("saving", flush=True)
while True:
    assert save_whole(path, new, only_over=old)
    assert save_whole(path, old, only_over=new)
"""
KILLS = 30


def test_a_save_killed_at_any_moment_leaves_a_whole_sheet(tmp_path):
    """Thirty kills; a half-written, empty or missing file would be seen at once."""
    path = tmp_path / "large.toml"
    path.write_bytes(SAMPLE.read_bytes() + (b"# " + 5_000 * b"a" + b"\n") * 900)
    change = add_entry(path, table="symptom", entry=ENTRIES["symptom"])
    take_back(change)
    old, new = change.before.encode("utf-8"), change.after.encode("utf-8")
    chance = random.Random(1907)
    for kill in range(KILLS):
        path.write_bytes(old)
        child = subprocess.Popen([sys.executable, "-c", CHILD, str(path), change.after.removeprefix(change.before)],
                                 stdout=subprocess.PIPE, text=True)
        try:
            assert child.stdout.readline() == "saving\n"
            with pytest.raises(subprocess.TimeoutExpired):
                child.wait(timeout=chance.uniform(0.001, 0.2))
        finally:
            child.kill()
            child.wait()
            child.stdout.close()
        text = path.read_bytes()
        # A comparison left to pytest would print both texts, line by line.
        whole = text in (old, new)
        assert whole, f"after kill {kill} the sheet is neither the old nor the new one"


def test_replacing_says_whether_it_did(path):
    text = SAMPLE.read_bytes().decode("utf-8")
    assert not save_whole(path, "version = 1", only_over=text + "#")
    assert path.read_bytes() == SAMPLE.read_bytes()
    assert save_whole(path, "version = 1", only_over=text)
    assert path.read_bytes() == b"version = 1"
