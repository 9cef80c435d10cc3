"""A Chromium for the tests that look at a page."""

import os
import pathlib
import runpy
import types

import pytest

from benchreckoner.headless import chromium, find_chromium


@pytest.fixture(scope="module")
def browser():
    """One browser for a module's tests; without one the tests are skipped, but in CI they fail."""
    program = find_chromium()
    if program is None:
        if os.environ.get("CI"):
            pytest.fail("no Chromium found, and in CI the browser tests must run")
        pytest.skip("browser tests not run: no Chromium found")
    with chromium(program=program) as opened:
        yield opened


@pytest.fixture
def page(browser):
    """A fresh page, 1280 pixels wide, that fails its test on any error in a script."""
    errors = []
    context = browser.new_context(viewport={"width": 1280, "height": 1320})
    opened = context.new_page()
    opened.on("pageerror", lambda error: errors.append(error))
    yield opened
    context.close()
    assert not errors, f"the page's own script failed: {errors}"


@pytest.fixture
def offline(page):
    """The page with the network off; it collects what it asks for and what it complains of."""
    page.context.set_offline(True)
    page.asked, page.complaints = [], []
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("console", lambda message: page.complaints.append(message.text))
    return page


@pytest.fixture(scope="session")
def demo():
    """The made-up picture of the picture tests."""
    home = pathlib.Path(__file__).parents[1]
    return types.SimpleNamespace(**runpy.run_path(str(home.joinpath("show", "demo.py"))))
