"""Chromium for the browser tests: found, or clearly said to be missing."""

import os
import shutil
from pathlib import Path

import pytest

MISSING = "browser tests not run: no Chromium found"
_not_run = pytest.StashKey[bool]()


def _find_chromium():
    """Path of the system's Chromium, or else of the one that playwright installed, or None."""
    for name in ("chromium", "chromium-browser"):
        if found := shutil.which(name):
            return found
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        own = playwright.chromium.executable_path
    return own if Path(own).exists() else None


@pytest.fixture(scope="session")
def chromium(request):
    """Path of a Chromium. Without one the test is skipped, or fails where CI is set."""
    if found := _find_chromium():
        return found
    if os.environ.get("CI", "").lower() not in ("", "0", "false"):
        pytest.fail(MISSING)
    request.config.stash[_not_run] = True
    pytest.skip(MISSING)


@pytest.fixture(autouse=True)
def _browser_test_has_chromium(request):
    """Ask for Chromium on behalf of every test marked `browser`."""
    if request.node.get_closest_marker("browser"):
        request.getfixturevalue("chromium")


def pytest_terminal_summary(terminalreporter, config):
    """Say it where the reader looks, not only behind a letter s."""
    if config.stash.get(_not_run, False):
        terminalreporter.write_line(MISSING, yellow=True)
