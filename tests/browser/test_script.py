"""The script in a browser: opened from disk without a network, at two widths, and printed."""

import re

import pytest

from benchreckoner import project
from benchreckoner.tell.script_page import make_script

pytestmark = pytest.mark.browser

DEMOS = ["record_player", "tape_player"]
LONG = "W" * 100 + " <b>\u202eאבג\u202c</b> " + "contact" * 6
SMALLEST, MOST_PAGES = 9, 7  # points, sheets of A4


@pytest.fixture(scope="module", params=[*DEMOS, "long names"])
def script(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("script")
    if request.param in DEMOS:
        return make_script(project.CASES / f"{request.param}.toml", folder)
    text = (project.CASES / "record_player.toml").read_text(encoding="utf-8")
    for name in ("spring 3", "springs cleaned", "suitcase record player", "second meter"):
        text = text.replace(f'"{name}"', f"'{LONG} {name}'")
    (folder / "long.toml").write_text(text, encoding="utf-8")
    home = make_script(folder / "long.toml", folder)
    typed = (folder / "script.toml").read_text(encoding="utf-8")
    (folder / "script.toml").write_text(re.sub(r'camera = ".*"', f"camera = '12 {LONG}'", typed, count=1), encoding="utf-8")
    make_script(folder / "long.toml", folder)
    return home


@pytest.fixture
def offline(offline, script):
    """The script, opened."""
    offline.goto(script.as_uri())
    return offline


def test_it_opens_from_disk_and_asks_for_nothing(offline, script):
    assert offline.get_by_role("heading", level=1).is_visible()
    assert offline.asked == [script.as_uri()] and offline.complaints == []


@pytest.mark.parametrize("width", [1280, 390])
def test_nothing_is_wider_than_the_window(offline, width):
    offline.set_viewport_size({"width": width, "height": 844})
    assert offline.evaluate("document.documentElement.scrollWidth") <= width
    assert offline.evaluate("""() => [...document.querySelectorAll("body *")].filter((node) =>
        node.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map((node) => node.tagName)""") == []


@pytest.mark.parametrize("width, stacked", [(1280, False), (390, True)])
def test_the_two_registers_stand_side_by_side_and_stack_on_a_phone(offline, width, stacked):
    offline.set_viewport_size({"width": width, "height": 844})
    cells = offline.locator(".line").nth(2).locator("tr").last.locator("td:not(.time)")
    camera, room = (cells.nth(place).bounding_box() for place in (0, 1))
    assert (room["y"] >= camera["y"] + camera["height"] - 1) == stacked and (room["x"] > camera["x"] + camera["width"] - 1) == (not stacked)
    named = offline.locator(".register").first.is_visible()
    assert named == stacked and offline.locator("thead").first.is_visible() == (not stacked), "each register is named once"


def test_it_prints_on_few_sheets_of_a4_in_letters_that_can_be_read(offline, script):
    offline.emulate_media(media="print")
    sizes = offline.evaluate("""() => [...document.querySelectorAll("main *, footer *")].filter((node) => [...node.childNodes].some(
        (child) => child.nodeType === 3 && child.data.trim())).map((node) => parseFloat(getComputedStyle(node).fontSize) * 0.75)""")
    assert min(sizes) >= SMALLEST - 0.01
    # A4 less its margins is 182 mm: 688 pixels of a browser.
    offline.set_viewport_size({"width": 688, "height": 1032})
    assert offline.evaluate("[...document.querySelectorAll('td.time')].every((node) => node.scrollWidth <= node.clientWidth)")
    assert offline.evaluate("new Set([...document.querySelectorAll('tr:last-child > td.time')].map((node) => node.clientWidth)).size") == 1
    paper = offline.pdf(prefer_css_page_size=True)
    assert b"/MediaBox [0 0 594" in paper or b"/MediaBox [0 0 595" in paper
    if script.parent.joinpath("long.toml").exists():
        return
    assert 1 < len(re.findall(rb"/Type\s*/Page\b", paper)) <= MOST_PAGES


def test_a_line_is_not_broken_over_two_sheets_and_its_caution_stands_above_it(offline):
    offline.emulate_media(media="print")
    assert offline.evaluate("getComputedStyle(document.querySelector('.line')).breakInside") == "avoid"
    assert offline.evaluate("getComputedStyle(document.querySelector('thead')).display") == "table-header-group"
    line = offline.locator(".line", has=offline.locator(".care")).first
    care = line.locator(".care").bounding_box()
    assert care["y"] + care["height"] <= line.locator("tr").last.bounding_box()["y"] + 1
    assert float(line.locator(".care").evaluate("node => parseFloat(getComputedStyle(node).borderTopWidth)")) >= 1
