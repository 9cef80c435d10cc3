"""A Chromium for the tests that look at a page."""

import os
import pathlib
import runpy
import shutil
import types

import pytest

NAMES = ("chromium", "chromium-browser", "google-chrome")
# Nothing leaves this machine, and nothing depends on a graphics card.
SWITCHES = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
            "--disable-sync", "--no-first-run", "--disable-quic"]


def find_chromium(environment=os.environ, which=shutil.which):
    """The browser named by BENCH_RECKONER_CHROMIUM, else the first that is installed, else None."""
    return environment.get("BENCH_RECKONER_CHROMIUM") or next(filter(None, map(which, NAMES)), None)


@pytest.fixture(scope="module")
def browser():
    """One browser for a module's tests; without one the tests are skipped, but in CI they fail."""
    program = find_chromium()
    if program is None:
        if os.environ.get("CI"):
            pytest.fail("no Chromium found, and in CI the browser tests must run")
        pytest.skip("browser tests not run: no Chromium found")
    from playwright.sync_api import sync_playwright
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=program, args=SWITCHES)
        yield opened
        opened.close()


@pytest.fixture
def page(browser):
    """A fresh page, 1280 pixels wide, that fails its test on any error in a script."""
    errors = []
    context = browser.new_context(viewport={"width": 1280, "height": 1200})
    opened = context.new_page()
    opened.on("pageerror", lambda error: errors.append(error))
    yield opened
    context.close()
    assert not errors, f"the page's own script failed: {errors}"


@pytest.fixture(scope="session")
def demo():
    """The made-up picture of the picture tests."""
    home = pathlib.Path(__file__).parents[1]
    return types.SimpleNamespace(**runpy.run_path(str(home.joinpath("show", "demo.py"))))
