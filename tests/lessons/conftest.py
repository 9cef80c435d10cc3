"""What the lessons' tests share: the demo sheet on the desk."""

import shutil

import pytest

from benchreckoner import project
from benchreckoner.bench.desk import SHEET_VARIABLE


@pytest.fixture(autouse=True)
def desk(tmp_path, monkeypatch):
    """A copy of the demo sheet on the desk, for this test alone."""
    copy = tmp_path / "record_player.toml"
    shutil.copy(project.CASES / "record_player.toml", copy)
    monkeypatch.setenv(SHEET_VARIABLE, str(copy))
    return copy
