"""Imports go one way, from room to room."""

import ast
import sys

import pytest

from benchreckoner import project

PACKAGE = project.ROOT / "src" / "benchreckoner"
# Each room and the rooms it may import from. `project` only says where files lie.
ROOMS = {
    "registry": set(),
    "units": {"registry"},
    "project": set(),
    "files": set(),
    "physics": {"units", "physics"},
    "bench": {"units", "project", "files", "physics", "bench"},
    "show": {"units", "files", "show"},
    "published": {"units", "project", "physics"},
}
ROOMS["lessons"] = {*ROOMS, "lessons"}
ROOMS["tell"] = {*ROOMS, "tell"}
ROOMS["lab"] = set()
ROOMS["headless"] = {"lab"}  # a JupyterLab and a browser for tests and benchmarks: knows no room
ROOMS["benchmarks"] = {*ROOMS, "benchmarks"}
ROOMS["commands"] = {*ROOMS, "commands"}
# The first is read before anything is installed, the second is kept quick to import.
THIRD_PARTY = {"commands": set(), "project": set(), "files": set(), "physics": {"numpy", "pint", "scipy"}}
MODULES = sorted(
    path
    for path in PACKAGE.rglob("*.py")
    if path != PACKAGE / "__init__.py" and ".ipynb_checkpoints" not in path.parts
)


def imported(source, package):
    """Dotted names that a module's text imports, with relative ones made whole."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = package[: len(package) - node.level + 1] if node.level else []
            base = ".".join([*start, *([node.module] if node.module else [])])
            yield base
            yield from (f"{base}.{alias.name}" for alias in node.names)


def trespasses(room, source, package):
    """Imports in a module's text that its room does not allow."""
    found = set()
    for name in imported(source, package):
        first, _, rest = name.partition(".")
        target = rest.partition(".")[0]
        if first == "benchreckoner":
            if target in ROOMS and target not in ROOMS[room]:
                found.add(name)
        elif room in THIRD_PARTY and first not in sys.stdlib_module_names | THIRD_PARTY[room]:
            found.add(name)
    return found


def top_level_only(source):
    """The text without the bodies of functions, where `commands` imports what it needs."""
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            node.body = [ast.Pass()]
    return ast.unparse(tree)


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_each_module_imports_only_from_the_rooms_before_it(path):
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    assert parts[0] in ROOMS, "a new room: say in ROOMS what it may import"
    source = path.read_text(encoding="utf-8")
    if parts[0] == "commands":
        source = top_level_only(source)
    assert trespasses(parts[0], source, ["benchreckoner", *parts[:-1]]) == set()


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("physics", "from benchreckoner.bench import judge"),
        ("physics", "from benchreckoner import show"),
        ("physics", "from ..show import picture"),
        ("physics", "from .. import bench"),
        ("physics", "import matplotlib.pyplot"),
        ("physics", "def late():\n    import benchreckoner.tell.record"),
        ("show", "from benchreckoner.physics.contacts import motor_voltage"),
        ("show", "import benchreckoner.bench.sheet"),
        ("bench", "from benchreckoner.show.picture import Picture"),
        ("lessons", "from benchreckoner.tell import record"),
        ("tell", "from benchreckoner import commands"),
        ("published", "from benchreckoner.bench import judge"),
        ("units", "from benchreckoner import physics"),
        ("commands", "import numpy"),
    ],
)
def test_a_planted_import_is_caught(room, line):
    assert trespasses(room, line, ["benchreckoner", room])


@pytest.mark.parametrize("path", sorted((PACKAGE / "physics").glob("*.py")), ids=lambda path: path.stem)
def test_a_law_imports_scipy_where_it_needs_it(path):
    """At the top it would make importing the laws three times as slow as numpy, pint and a registry."""
    body = ast.parse(path.read_text(encoding="utf-8")).body
    assert not any(isinstance(node, (ast.Import, ast.ImportFrom)) and "scipy" in ast.unparse(node) for node in body)
