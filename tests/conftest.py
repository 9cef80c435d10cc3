"""What every run of the tests has to say at its end."""

import os
import shutil
import tempfile
from pathlib import Path

import hypothesis

from benchreckoner import project
from benchreckoner.bench.desk import SHEET_VARIABLE

# A slow machine is no failure: hypothesis must not time its examples.
hypothesis.settings.register_profile("untimed", deadline=None)
hypothesis.settings.load_profile("untimed")

NOT_RUN = "browser tests not run"


def pytest_terminal_summary(terminalreporter):
    """Say that no browser was found where the reader looks, not only behind a letter s."""
    skipped = terminalreporter.stats.get("skipped", [])
    if any(NOT_RUN in str(report.longrepr) for report in skipped):
        terminalreporter.write_line(f"{NOT_RUN}: no Chromium found", yellow=True)


def pytest_configure(config):
    """The books are run on a copy of the demo sheet, never on what lies on the reader's own desk."""
    folder = Path(tempfile.mkdtemp(prefix="bench-reckoner-tests-"))
    shutil.copy(project.CASES / "record_player.toml", folder)
    os.environ[SHEET_VARIABLE] = str(folder / "record_player.toml")
    config.add_cleanup(lambda: shutil.rmtree(folder, ignore_errors=True))
