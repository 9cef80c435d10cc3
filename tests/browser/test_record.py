"""The record in a browser: opened from disk without a network, on a phone, and printed."""

import io

import numpy as np
import pytest
from PIL import Image

from benchreckoner import project
from benchreckoner.tell.record import make_record

pytestmark = pytest.mark.browser

DEMO = project.CASES / "record_player.toml"
LONG = "W" * 100 + " <b>\u202eאבג\u202c</b> " + "contact" * 6


@pytest.fixture(scope="module")
def record(tmp_path_factory):
    return make_record(DEMO, tmp_path_factory.mktemp("lid"))


@pytest.fixture(scope="module")
def long_names(tmp_path_factory):
    """A record whose machine, link and stage have names far too long."""
    folder = tmp_path_factory.mktemp("long")
    text = DEMO.read_text(encoding="utf-8")
    for name in ("spring 3", "springs cleaned", "suitcase record player", "second meter"):
        text = text.replace(f'"{name}"', f"'{LONG} {name}'")
    folder.joinpath("long.toml").write_text(text, encoding="utf-8")
    return make_record(folder / "long.toml", folder)


@pytest.fixture
def offline(page):
    """The page with the network off; it collects what it asks for and what it complains of."""
    page.context.set_offline(True)
    page.asked, page.complaints = [], []
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("console", lambda message: page.complaints.append(message.text))
    return page


def test_it_opens_from_disk_and_asks_for_nothing(offline, record):
    offline.goto(record.as_uri())
    assert offline.get_by_role("heading", level=1, name="suitcase record player").is_visible()
    assert offline.asked == [record.as_uri()]
    assert offline.complaints == []


@pytest.mark.parametrize("width", [1280, 390])
@pytest.mark.parametrize("which", ["record", "long_names"])
def test_nothing_is_wider_than_the_window(offline, request, which, width):
    offline.set_viewport_size({"width": width, "height": 844})
    offline.goto(request.getfixturevalue(which).as_uri())
    assert offline.evaluate("document.documentElement.scrollWidth") <= width
    wide = offline.evaluate("""() => [...document.querySelectorAll("body *:not(svg *)")].filter(
        (node) => node.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map((node) => node.tagName)""")
    assert wide == []


def test_the_staircases_are_pictures_with_words_and_a_table(offline, record):
    offline.goto(record.as_uri())
    pictures = offline.get_by_role("img")
    assert pictures.count() == 2
    for place in range(2):
        assert "Volts lost at each step" in pictures.nth(place).get_attribute("aria-label")
        assert pictures.nth(place).bounding_box()["width"] > 400
    row = offline.get_by_role("table", name="The staircase as a table: as found, held").get_by_role("row", name="spring 3")
    assert "the guilty link" in row.inner_text()


def test_a_source_is_reached_by_keyboard(offline, record):
    offline.goto(record.as_uri())
    offline.keyboard.press("Tab")
    assert offline.evaluate("document.activeElement.getAttribute('href')") == "#source-1"
    offline.keyboard.press("Enter")
    assert offline.evaluate("location.hash") == "#source-1"


def test_printed_in_grey_the_guilty_step_and_verdict_stand_out(offline, record):
    offline.goto(record.as_uri())
    offline.emulate_media(media="print")
    row = offline.get_by_role("table", name="The staircase as a table: as found, held").get_by_role("row", name="spring 3")
    assert row.is_visible() and "the guilty link" in row.inner_text()
    assert offline.locator("#staircase-1-point-0-name").is_visible(), "the label beside the step"
    words = offline.locator(".verdict.bad").first
    assert words.is_visible() and "bad" in words.inner_text()
    edge, plain = (offline.locator(f".verdict.{word}").first.evaluate("node => parseFloat(getComputedStyle(node).borderTopWidth)")
                   for word in ("bad", "sound"))
    assert edge > plain
    box = offline.locator("#staircase-1-band-0").bounding_box()
    beside = 10
    grey = _grey(offline, {"x": box["x"] - beside, "y": box["y"], "width": box["width"] + beside, "height": box["height"]})
    upper = grey[: int(0.7 * len(grey))]
    dark = (upper < 90).mean(axis=0) > 0.6
    assert dark.sum() >= 4, "no heavy edge down the guilty step"
    assert upper[:, beside + 8: -4].std() > 8, "no hatch in the guilty step"


def _grey(page, clip):
    """Part of the page as lightness, 0 to 255."""
    shot = page.screenshot(clip=clip, full_page=True)
    return np.asarray(Image.open(io.BytesIO(shot)).convert("L"), dtype=float)


def test_it_prints_on_a4_without_a_break_in_a_row(offline, record):
    """Rows and pictures keep together, and table headings come again on the next sheet of paper."""
    offline.goto(record.as_uri())
    offline.emulate_media(media="print")
    for place in ("tr", "figure", "li"):
        assert offline.evaluate("place => getComputedStyle(document.querySelector(place)).breakInside", place) == "avoid"
    assert offline.evaluate("getComputedStyle(document.querySelector('thead')).display") == "table-header-group"
    paper = offline.pdf(prefer_css_page_size=True)
    assert b"/MediaBox [0 0 594" in paper or b"/MediaBox [0 0 595" in paper


@pytest.mark.parametrize("case", ["record_player", "tape_player"])
def test_what_the_next_repairer_needs_fits_one_a4(offline, tmp_path, case):
    """A4 less its margins is 180 mm by 269 mm: 680 by 1017 pixels of a browser."""
    offline.set_viewport_size({"width": 680, "height": 1017})
    offline.emulate_media(media="print")
    offline.goto(make_record(project.CASES / f"{case}.toml", tmp_path).as_uri())
    assert offline.evaluate("document.querySelector('.lid').getBoundingClientRect().bottom + scrollY") <= 1017
    assert offline.evaluate("getComputedStyle(document.querySelector('.lid')).breakAfter") == "page"
