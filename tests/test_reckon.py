"""reckon.py itself, before any command runs: without network and without making an environment."""

import ast
import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest

from benchreckoner import project

SOURCE = project.ROOT / "reckon.py"


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


def run(*words):
    return subprocess.run(
        [sys.executable, *words], capture_output=True, encoding="utf-8", check=False
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
