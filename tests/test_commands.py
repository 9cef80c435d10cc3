"""The commands behind reckon.py, each by what it prints, writes and hands back."""

import json
import os
import subprocess
import sys
import types

import pytest

from benchreckoner import commands, project

DEMO = project.CASES / "record_player.toml"


def run(*words):
    return subprocess.run(
        [sys.executable, *words], capture_output=True, encoding="utf-8", check=False
    )


@pytest.mark.parametrize("words", [[], ["read"], ["open", "--no-brow"], ["new", "a", "b"]])
def test_wrong_words_are_refused(words, capsys):
    with pytest.raises(SystemExit) as caught:
        commands.read_words(words)
    assert caught.value.code == 2
    assert "usage: reckon.py" in capsys.readouterr().err


def test_words_after_test_go_to_pytest_as_they_are(monkeypatch):
    words = ["-x", "tests/test_units.py", "-k", "comma or dot", "--", "-q"]
    assert commands.read_words(["test", *words]).pytest_words == words
    handed = []
    monkeypatch.setattr(pytest, "main", lambda given: handed.extend(given) or pytest.ExitCode(5))
    monkeypatch.chdir(project.ROOT)
    assert commands.main(["test", *words]) == 5
    assert handed[-len(words) :] == words
    assert "--nbval-lax" in handed


def test_reading_a_missing_sheet_fails_without_traceback(tmp_path):
    missing = tmp_path / "häuschen.toml"
    result = run("-P", "-m", "benchreckoner.commands", "read", str(missing))
    assert result.returncode == 2
    assert result.stdout == ""
    assert missing.name in result.stderr
    assert "Traceback" not in result.stderr


def test_reading_a_faulty_sheet_says_where(tmp_path, capsys):
    sheet = tmp_path / "faulty.toml"
    sheet.write_text('version = 1\n[machine]\nname = "x"\nsupply = "nine"\n', encoding="utf-8")
    with pytest.raises(SystemExit) as caught:
        commands.main(["read", str(sheet)])
    assert caught.value.code == 2
    output = capsys.readouterr()
    assert output.out == ""
    assert "supply" in output.err


def test_reading_the_demo_prints_text(capsys):
    assert commands.main(["read", str(DEMO)]) == 0
    assert "Ω" in capsys.readouterr().out


def test_json_on_stdout_is_json_and_nothing_else():
    surroundings = dict(os.environ, PYTHONIOENCODING="ascii")
    words = ["-P", "-m", "benchreckoner.commands", "read", str(DEMO), "--json"]
    result = subprocess.run([sys.executable, *words], capture_output=True, env=surroundings, check=True)
    rows = json.loads(result.stdout.decode("utf-8"))
    keys = "part quantity stage condition value uncertainty limit verdict reason next"
    assert rows
    assert all(list(row) == keys.split() for row in rows)


def test_a_reader_who_stops_listening_causes_no_traceback():
    reading, writing = os.pipe()
    os.close(reading)
    words = ["-P", "-m", "benchreckoner.commands", "read", str(DEMO)]
    result = subprocess.run([sys.executable, *words], stdout=writing, stderr=subprocess.PIPE, check=False)
    os.close(writing)
    assert b"Traceback" not in result.stderr
    assert b"BrokenPipe" not in result.stderr


def test_a_new_sheet_can_be_read_and_is_never_written_over(tmp_path, capsys):
    sheet = tmp_path / "mein Gerät.toml"
    assert commands.main(["new", str(sheet)]) == 0
    assert commands.main(["read", str(sheet)]) == 0
    sheet.write_text("all my readings", encoding="utf-8")
    assert commands.main(["new", str(sheet)]) == 2
    assert sheet.read_text(encoding="utf-8") == "all my readings"
    assert "exists already" in capsys.readouterr().err


def test_a_new_sheet_in_no_folder_names_the_folder(tmp_path, capsys):
    assert commands.main(["new", str(tmp_path / "none" / "sheet.toml")]) == 2
    assert str(tmp_path / "none") in capsys.readouterr().err


def test_make_record_writes_a_page_and_says_where(tmp_path, capsys):
    assert commands.main(["make", "record", "--sheet", str(DEMO), "--to", str(tmp_path)]) == 0
    (page,) = tmp_path.iterdir()
    assert str(page) in capsys.readouterr().out
    assert "spring 3" in page.read_text(encoding="utf-8")


def test_a_folder_that_the_system_refuses_is_told_with_what_to_do(tmp_path, capsys, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device", str(tmp_path / ".script.html.abc.saving"))

    monkeypatch.setitem(commands.MAKERS, "script", full)
    assert commands.make(what="script", sheet=project.CASES / "record_player.toml", folder=tmp_path) == 2
    told = capsys.readouterr().err
    assert told.startswith(f"{tmp_path}: the system refused (No space left on device). See that") and "saving" not in told


def test_make_from_a_faulty_or_missing_sheet_makes_nothing(tmp_path, capsys):
    sheet = tmp_path / "faulty.toml"
    for text in (None, "not toml at all"):
        if text:
            sheet.write_text(text, encoding="utf-8")
        assert commands.main(["make", "record", "--sheet", str(sheet), "--to", str(tmp_path / "out")]) == 2
        assert sheet.name in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(("published", "code"), [("8.1 V", 0), ("8.2 V", 1)])
def test_check_tells_rows_that_hold_from_rows_that_fail(tmp_path, capsys, published, code):
    # Two resistors in series, 0.9 and 8.1 ohm, across 9 V: the motor keeps nine tenths.
    (tmp_path / "rows.toml").write_text(
        "[[row]]\n"
        'id = "divider"\nfunction = "contacts.motor_voltage"\n'
        'given = { supply = "9 V", source_resistance = "0.9 ohm", motor_resistance = "8.1 ohm" }\n'
        f'expect = "{published}"\ntolerance = "0.1 %"\nsource = "arithmetic"\nmark = "RECOMPUTED"\n',
        encoding="utf-8",
    )
    assert commands.main(["check", str(tmp_path)]) == code
    assert "divider" in capsys.readouterr().out


@pytest.mark.parametrize("text", [None, "[[row]", "[[row]]\nid = 1\n"])
def test_check_says_which_file_it_cannot_read(tmp_path, capsys, text):
    if text is not None:
        (tmp_path / "rows.toml").write_text(text, encoding="utf-8")
    assert commands.main(["check", str(tmp_path)]) == 2
    assert (tmp_path.name if text is None else "rows.toml") in capsys.readouterr().err


@pytest.fixture
def started(monkeypatch, tmp_path):
    """The words that JupyterLab would be started with; nothing is started."""
    words = []
    labapp = types.ModuleType("jupyterlab.labapp")
    labapp.main = words.extend
    monkeypatch.setitem(sys.modules, "jupyterlab.labapp", labapp)
    monkeypatch.setattr(project, "ROOT", tmp_path)
    monkeypatch.setenv("BENCH_RECKONER_SHEET", "")
    return words


def test_open_without_a_sheet_copies_the_demo_once(started, tmp_path, capsys):
    assert commands.main(["open", "--no-browser"]) == 0
    copy = tmp_path / "my_bench" / "record_player.toml"
    assert copy.read_bytes() == DEMO.read_bytes()
    assert os.environ["BENCH_RECKONER_SHEET"] == str(copy)
    assert capsys.readouterr().out.count("\n") >= 2
    assert "--ServerApp.open_browser=False" in started

    copy.write_text(copy.read_text(encoding="utf-8") + "# my own remark\n", encoding="utf-8")
    commands.main(["open"])
    assert copy.read_text(encoding="utf-8").endswith("# my own remark\n")
    assert [entry.name for entry in copy.parent.iterdir()] == [copy.name]


def test_open_takes_a_sheet_and_a_port(started, tmp_path, monkeypatch):
    sheet = tmp_path / "mine.toml"
    sheet.write_bytes(DEMO.read_bytes())
    monkeypatch.chdir(tmp_path)
    commands.main(["open", "mine.toml", "--port", "8899"])
    assert os.environ["BENCH_RECKONER_SHEET"] == str(sheet)
    assert "--ServerApp.port=8899" in started
    assert not (tmp_path / "my_bench").exists()


def test_open_with_a_faulty_sheet_starts_nothing(started, tmp_path, capsys):
    sheet = tmp_path / "faulty.toml"
    sheet.write_text("not toml at all", encoding="utf-8")
    with pytest.raises(SystemExit) as caught:
        commands.main(["open", str(sheet)])
    assert caught.value.code == 2
    assert capsys.readouterr().err
    assert started == []
