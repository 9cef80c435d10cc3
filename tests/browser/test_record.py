"""The record in a browser: opened from disk without a network, on a phone, and printed."""

import io
import re

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
    for name in ("spring 3", "springs cleaned", "suitcase record player", "second meter", "speed trimmer"):
        text = text.replace(f'"{name}"', f"'{LONG} {name}'")
    folder.joinpath("long.toml").write_text(text, encoding="utf-8")
    return make_record(folder / "long.toml", folder)


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
    row = offline.get_by_role("table", name="as found, held: volts and ohms of each place").get_by_role("row", name="spring 3")
    assert "The guilty link" in row.inner_text()


def test_a_source_is_reached_by_keyboard(offline, record):
    offline.goto(record.as_uri())
    offline.keyboard.press("Tab")
    assert offline.evaluate("document.activeElement.getAttribute('href')") == "#source-1"
    offline.keyboard.press("Enter")
    assert offline.evaluate("location.hash") == "#source-1"


def test_printed_in_grey_the_guilty_step_and_verdict_stand_out(offline, record):
    offline.goto(record.as_uri())
    offline.emulate_media(media="print")
    row = offline.get_by_role("table", name="as found, held: volts and ohms of each place").get_by_role("row", name="spring 3")
    assert row.is_visible() and "The guilty link" in row.inner_text()
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


A4 = {"width": 695, "height": 1039}  # less its margins, 184 mm by 275 mm, in pixels of a browser
MOST_PAGES = 8


def pages(page):
    """How many sheets of paper it takes."""
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True)))


@pytest.fixture(params=["record_player", "tape_player"])
def printed(request, offline, tmp_path):
    """A demo machine's record as it goes to paper."""
    offline.set_viewport_size(A4)
    offline.emulate_media(media="print")
    offline.goto(make_record(project.CASES / f"{request.param}.toml", tmp_path).as_uri())
    return offline


def test_a_record_takes_few_sheets_of_paper_and_the_lid_one(printed):
    assert 2 <= pages(printed) <= MOST_PAGES
    printed.evaluate("document.querySelectorAll('main > section:not(.lid), footer').forEach((node) => { node.hidden = true; })")
    assert pages(printed) == 1
    assert printed.evaluate("getComputedStyle(document.querySelector('.lid')).breakAfter") == "page"


def test_on_paper_the_lid_is_legible_and_no_heading_stands_alone(printed):
    """9 pt are 12 pixels of a browser."""
    small = printed.evaluate("""() => [...document.querySelectorAll(".lid *")].filter((node) =>
        parseFloat(getComputedStyle(node).fontSize) < 12).map((node) => node.outerHTML)""")
    assert small == []
    for place in ("h2", "h3", "thead", "caption", "th.group", "tbody tr"):
        assert printed.evaluate("place => getComputedStyle(document.querySelector(place)).breakAfter", place) == "avoid", place


def test_before_and_after_stand_side_by_side_on_paper(offline, record):
    offline.set_viewport_size(A4)
    offline.emulate_media(media="print")
    offline.goto(record.as_uri())
    first, second = (offline.get_by_role("img").nth(place).bounding_box() for place in range(2))
    assert first["y"] == second["y"] and first["x"] + first["width"] < second["x"]


def test_on_paper_a_name_far_too_long_stays_in_its_column(offline, long_names):
    offline.set_viewport_size(A4)
    offline.emulate_media(media="print")
    offline.goto(long_names.as_uri())
    over = offline.evaluate("""() => [...document.querySelectorAll("th, td, li, p, dd, h1, h3")].filter(
        (node) => node.scrollWidth > node.clientWidth + 1 && getComputedStyle(node).display !== "inline").map((node) => node.outerHTML)""")
    assert over == []
    assert offline.evaluate("document.documentElement.scrollWidth") <= A4["width"]


def test_on_a_phone_a_row_becomes_lines_with_the_names_of_its_columns(offline, record):
    offline.set_viewport_size({"width": 390, "height": 844})
    offline.goto(record.as_uri())
    row = offline.get_by_role("table", name="as found, held: volts and ohms of each place").get_by_role("row", name="spring 3")
    name, lost, _, _, why = row.locator("th, td").all()
    assert lost.evaluate("node => getComputedStyle(node, '::before').content") == '"lost here: "'
    assert why.bounding_box()["width"] > 300 and lost.bounding_box()["y"] > name.bounding_box()["y"]
    assert offline.get_by_role("columnheader", name="Verdict and limit").count() > 0, "the headings are still there to be read aloud"


@pytest.mark.parametrize("text", ["version = 1", 'version = 1\n[[part]]\nname = "spring"\nkind = "supply contact"',
                                  'version = 1\n[[instrument]]\nname = "meter"\naccuracy = "1 %"\n[[part]]\nname = "spring"\n'
                                  'kind = "supply contact"\n[[reading]]\npart = "spring"\nquantity = "voltage drop"\n'
                                  'value = "184 mV"\ninstrument = "meter"\nstage = "as found"\ncondition = "playing"'])
def test_a_sheet_with_hardly_anything_on_it_prints(offline, tmp_path, text):
    tmp_path.joinpath("bare.toml").write_text(text, encoding="utf-8")
    offline.emulate_media(media="print")
    offline.goto(make_record(tmp_path / "bare.toml", tmp_path).as_uri())
    assert pages(offline) in (2, 3)
