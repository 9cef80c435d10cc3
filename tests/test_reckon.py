"""reckon.py and the commands behind it, without network and without making an environment."""

import ast
import importlib.util
import json
import os
import subprocess
import sys
import types
from pathlib import Path

import pytest

from benchreckoner import commands, project

SOURCE = project.ROOT / "reckon.py"
DEMO = project.CASES / "record_player.toml"


@pytest.fixture
def reckon():
    spec = importlib.util.spec_from_file_location("reckon", SOURCE)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def root(tmp_path):
    """A project folder with nothing in it but what is to be installed."""
    folder = tmp_path / "Plattenspieler für Anna"
    (folder / "tests").mkdir(parents=True)
    for name in ("requirements.txt", "tests/requirements.txt", "pyproject.toml"):
        (folder / name).write_text(name, encoding="utf-8")
    return folder


@pytest.fixture
def environment(reckon, root, monkeypatch):
    """An environment that seems to stand, its Python being 3.11.7."""
    monkeypatch.setattr(reckon, "interpreter_version", lambda environment: "3.11.7")
    folder = root / ".venv"
    folder.mkdir()
    return folder


def stamp(reckon, root, environment, files):
    text = reckon.stamp_text(root, files, "3.11.7")
    (environment / reckon.STAMPS[files]).write_text(text, encoding="utf-8")


def run(*words, cwd=None):
    return subprocess.run(
        [sys.executable, *words], capture_output=True, encoding="utf-8", cwd=cwd, check=False
    )


def test_reckon_parses_on_an_old_python_and_imports_only_the_standard_library():
    tree = ast.parse(SOURCE.read_text(encoding="utf-8"), feature_version=(3, 8))
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names.add(node.module.partition(".")[0])
    assert names - sys.stdlib_module_names == {"benchreckoner"}


@pytest.mark.parametrize("version", [(3, 8, 18), (3, 10, 13, "final", 0)])
def test_an_old_python_gets_one_clear_line(reckon, version):
    with pytest.raises(reckon.Trouble, match="needs Python 3.11 or newer") as caught:
        reckon.refuse_old_python(version)
    assert caught.value.code == 2
    assert f"{version[0]}.{version[1]}" in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 14, 1)])
def test_a_python_new_enough_passes(reckon, version):
    reckon.refuse_old_python(version)


@pytest.mark.parametrize("missing", ["venv", "ensurepip"])
def test_missing_venv_module_names_the_line_that_mends_it(reckon, root, monkeypatch, missing):
    find = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util, "find_spec", lambda name: None if name == missing else find(name)
    )
    with pytest.raises(reckon.Trouble, match="sudo apt install python3-venv") as caught:
        reckon.prepare(root, reckon.BASE)
    assert caught.value.code == 2


def test_windows_keeps_its_python_elsewhere(reckon, root):
    assert reckon.interpreter(root, windows=True) == root / "Scripts" / "python.exe"
    assert reckon.interpreter(root, windows=False) == root / "bin" / "python"


def test_a_finished_installation_is_ready(reckon, root, environment):
    stamp(reckon, root, environment, reckon.BASE)
    assert reckon.is_ready(root, environment, reckon.BASE)
    assert not reckon.is_ready(root, environment, reckon.TESTS)


@pytest.mark.parametrize("name", ["requirements.txt", "pyproject.toml"])
def test_a_changed_requirement_is_not_ready(reckon, root, environment, name):
    stamp(reckon, root, environment, reckon.BASE)
    (root / name).write_text("changed", encoding="utf-8")
    assert not reckon.is_ready(root, environment, reckon.BASE)


def test_the_tests_own_requirements_leave_the_base_ready(reckon, root, environment):
    stamp(reckon, root, environment, reckon.BASE)
    stamp(reckon, root, environment, reckon.TESTS)
    (root / "tests" / "requirements.txt").write_text("changed", encoding="utf-8")
    assert reckon.is_ready(root, environment, reckon.BASE)
    assert not reckon.is_ready(root, environment, reckon.TESTS)


def test_another_python_or_a_moved_folder_is_not_ready(reckon, root, environment, monkeypatch):
    stamp(reckon, root, environment, reckon.BASE)
    moved = root.with_name("elsewhere")
    root.rename(moved)
    assert not reckon.is_ready(moved, moved / ".venv", reckon.BASE)
    stamp(reckon, moved, moved / ".venv", reckon.BASE)
    assert reckon.is_ready(moved, moved / ".venv", reckon.BASE)
    monkeypatch.setattr(reckon, "interpreter_version", lambda environment: "3.12.1")
    assert not reckon.is_ready(moved, moved / ".venv", reckon.BASE)


def test_an_installation_killed_in_the_middle_is_neither_ready_nor_usable(reckon, root, environment):
    stamp(reckon, root, environment, reckon.BASE)
    (environment / reckon.UNFINISHED).touch()
    assert not reckon.is_ready(root, environment, reckon.BASE)
    assert not reckon.is_usable(environment)


def test_a_vanished_interpreter_is_noticed(reckon, root):
    environment = root / ".venv"
    environment.mkdir()
    (environment / "pyvenv.cfg").touch()
    assert reckon.interpreter_version(environment) == ""
    stamp(reckon, root, environment, reckon.BASE)
    assert not reckon.is_ready(root, environment, reckon.BASE)
    assert not reckon.is_usable(environment)


def test_the_environment_we_run_in_is_usable(reckon):
    if sys.prefix == sys.base_prefix:
        pytest.skip("no environment here")
    folder = Path(sys.prefix)
    assert reckon.interpreter_version(folder) == "%d.%d.%d" % sys.version_info[:3]
    assert reckon.is_usable(folder)


def test_clearing_leaves_only_the_lock(reckon, root):
    environment = root / ".venv"
    (environment / "lib" / "deep").mkdir(parents=True)
    for name in ("pyvenv.cfg", reckon.LOCK, reckon.UNFINISHED):
        (environment / name).touch()
    reckon.clear(environment)
    assert [entry.name for entry in environment.iterdir()] == [reckon.LOCK]


@pytest.mark.parametrize(
    ("state", "usable", "steps"),
    [
        ("finished", True, []),
        ("made by other means", True, ["install"]),
        ("broken", False, ["create", "install"]),
    ],
)
def test_prepare_does_no_more_than_is_needed(
    reckon, root, environment, monkeypatch, state, usable, steps
):
    done = []
    monkeypatch.setattr(reckon, "is_usable", lambda environment: usable)
    monkeypatch.setattr(reckon, "create", lambda environment: done.append("create"))
    monkeypatch.setattr(reckon, "install", lambda *arguments: done.append("install"))
    if state == "finished":
        stamp(reckon, root, environment, reckon.BASE)
    assert reckon.prepare(root, reckon.BASE) == reckon.interpreter(environment)
    assert done == steps


@pytest.mark.parametrize(
    ("began", "unfinished"), [(False, False), (True, True)], ids=["offline", "disk full"]
)
def test_a_failed_pip_spoils_only_what_it_had_begun_to_change(
    reckon, root, environment, monkeypatch, began, unfinished
):
    stamp(reckon, root, environment, reckon.TESTS)
    monkeypatch.setattr(reckon, "run_pip", lambda *arguments: (False, began))
    with pytest.raises(reckon.Trouble, match="same command again") as caught:
        reckon.install(root, environment, reckon.BASE, lock=None)
    assert caught.value.code == 1
    assert (environment / reckon.UNFINISHED).exists() == unfinished
    assert reckon.is_ready(root, environment, reckon.TESTS) != began


def test_a_new_base_makes_the_tests_installation_doubtful(reckon, root, environment, monkeypatch):
    stamp(reckon, root, environment, reckon.TESTS)
    monkeypatch.setattr(reckon, "run_pip", lambda *arguments: (True, True))
    reckon.install(root, environment, reckon.BASE, lock=None)
    assert reckon.is_ready(root, environment, reckon.BASE)
    assert not reckon.is_ready(root, environment, reckon.TESTS)


def test_a_successful_pip_leaves_stamps_and_no_mark(reckon, root, environment, monkeypatch):
    monkeypatch.setattr(reckon, "run_pip", lambda *arguments: (True, True))
    reckon.install(root, environment, reckon.TESTS, lock=None)
    assert reckon.is_ready(root, environment, reckon.BASE)
    assert reckon.is_ready(root, environment, reckon.TESTS)


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("Downloading scipy-1.17.1-cp311-manylinux.whl (35.0 MB)", "  fetching scipy 1.17.1 (35.0 MB)"),
        ("Using cached a/b/pint-0.25-py3-none-any.whl (9 kB)", "  fetching pint 0.25 (9 kB)"),
        ("Installing collected packages: numpy, pint", "  installing 2 packages"),
        ("Requirement already satisfied: numpy", ""),
    ],
)
def test_pip_is_shown_in_short_lines(reckon, line, shown):
    assert reckon.friendly(line) == shown


def test_an_unknown_command_ends_before_installing_and_lists_what_there_is():
    result = run(str(SOURCE), "repair")
    assert result.returncode == 2
    assert "'repair'" in result.stderr
    assert "open, test, new, read, make, check, benchmark" in result.stderr


def test_something_that_cannot_be_made_lists_what_can():
    result = run(str(SOURCE), "make", "coffee", "--sheet", "a.toml", "--to", "b")
    assert result.returncode == 2
    assert "'coffee'" in result.stderr
    assert all(what in result.stderr for what in ("record", "script", "pages"))


@pytest.mark.parametrize("words", [["--help"], ["test", "--help"], ["read", "-h"]])
def test_help_needs_no_environment(words):
    result = run(str(SOURCE), *words)
    assert result.returncode == 0
    assert result.stdout.startswith("usage: reckon.py")


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
