"""No file of the project carries a marker for work left undone."""

import re

from benchreckoner import project

FOLDERS = ("src", "tests", "notebooks", "shared", "assets", ".ci")
MARKERS = re.compile(r"\b(" + "|".join(("TO" + "DO", "FIX" + "ME", "X" * 3)) + r")\b")


def texts():
    """Every text file of the project, with its text."""
    paths = [path for path in project.ROOT.iterdir() if path.is_file()]
    for folder in FOLDERS:
        paths += (project.ROOT / folder).rglob("*")
    for path in paths:
        if path.is_file() and not {"__pycache__", ".ipynb_checkpoints"} & set(path.parts):
            try:
                yield path, path.read_text(encoding="utf-8")
            except UnicodeDecodeError:
                continue  # a picture or a sound


def test_nothing_is_marked_as_left_undone():
    found = {str(path.relative_to(project.ROOT)) for path, text in texts() if MARKERS.search(text)}
    assert found == set()
