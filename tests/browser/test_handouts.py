"""The workshop pack in a browser: offline, on a phone, and on A4 with nothing cut off and each handout on a page of its own."""

import re

import pytest

from benchreckoner import project
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.tell.handouts import file_names
from benchreckoner.tell.workshop import SETTINGS_FILE, make_handouts, new_settings

pytestmark = pytest.mark.browser

DEMO = project.CASES / "record_player.toml"
POINTS = 0.75  # of one CSS pixel
PAPER = {False: 688, True: 1032}  # CSS pixels between the margins, upright and lying
# A handout has a front and a back; for the wall there are six turns, the three words, and a sign for each station.
SHEETS = {"workshop_cards.html": 4, "workshop_handouts.html": 96, "workshop_keys.html": 48, "workshop_large.html": 11, "workshop.html": 1,
          "workshop_tin.html": 4}
BACKS = {"workshop_handouts.html": 2}
ARMS_LENGTH = ("workshop_cards.html", "workshop_handouts.html")
TALL = 1016.7  # CSS pixels between the margins of an upright sheet
# Every text on the page with its size and its right edge.
TEXTS = """() => [...document.querySelectorAll("body *")].filter((node) => node.checkVisibility() &&
    [...node.childNodes].some((child) => child.nodeType === 3 && child.data.trim())).map((node) =>
    [node.tagName, parseFloat(getComputedStyle(node).fontSize), node.getBoundingClientRect().right, node.textContent.trim().slice(0, 40)])"""
COLOURS = """() => [...document.querySelectorAll("body, body *")].flatMap((node) => { const style = getComputedStyle(node);
    return [style.color, style.backgroundColor, style.borderTopColor]; })"""


@pytest.fixture(scope="module")
def pack(tmp_path_factory):
    """The fullest pack: twelve tables, every station visited."""
    folder = tmp_path_factory.mktemp("pack")
    text = new_settings(read_sheet(DEMO)).replace("tables = 4", "tables = 12").replace("minutes = 90", "minutes = 120")
    (folder / SETTINGS_FILE).write_text(text, encoding="utf-8")
    make_handouts(DEMO, folder)
    return folder


@pytest.fixture(scope="module")
def usual(tmp_path_factory):
    """The pack as a host first gets it: its plan has a column for each of the four tables."""
    folder = tmp_path_factory.mktemp("usual")
    make_handouts(DEMO, folder)
    return folder


def test_the_usual_pack_fits_a_phone_and_what_scrolls_by_itself_takes_the_keys(offline, usual):
    offline.set_viewport_size({"width": 390, "height": 844})
    for name in file_names():
        offline.goto((usual / name).as_uri())
        assert offline.evaluate("document.documentElement.scrollWidth") <= 390, name
        wide = offline.evaluate("""[...document.querySelectorAll('main *')].filter((node) => node.scrollWidth > node.clientWidth + 1
            && getComputedStyle(node).overflowX === 'auto').map((node) => [node.tabIndex, node.getAttribute('aria-label')])""")
        assert all(place == 0 and label for place, label in wide)
        assert name not in ("workshop_host.html", "workshop_tin.html") or wide


@pytest.mark.parametrize("name", file_names())
def test_it_opens_offline_and_fits_a_phone(offline, pack, name):
    offline.set_viewport_size({"width": 390, "height": 844})
    offline.goto((pack / name).as_uri())
    assert offline.asked == [(pack / name).as_uri()] and offline.complaints == []
    assert offline.evaluate("document.documentElement.scrollWidth") <= 390


def test_the_index_leads_to_every_page_and_back(offline, pack):
    offline.goto((pack / "workshop.html").as_uri())
    for place in range(offline.get_by_role("link").count()):
        link = offline.get_by_role("link").nth(place)
        title = link.inner_text()
        link.click()
        assert offline.title() == title
        offline.get_by_role("link", name="The whole pack").click()


@pytest.mark.parametrize("name", file_names())
def test_on_paper_nothing_is_cut_off_or_small_or_coloured(offline, pack, name):
    width = PAPER[name == "workshop_large.html"]
    offline.set_viewport_size({"width": width, "height": 1000})
    offline.emulate_media(media="print")
    offline.goto((pack / name).as_uri())
    texts = offline.evaluate(TEXTS)
    assert texts and [text for text in texts if text[2] > width + 1] == []
    assert [text for text in texts if text[1] * POINTS < 12 - 1e-6] == []
    if name in ARMS_LENGTH:
        assert [text for text in texts if text[1] * POINTS < 14 - 1e-6] == []
    for colour in set(offline.evaluate(COLOURS)):
        red, green, blue = re.findall(r"[\d.]+", colour)[:3]
        assert red == green == blue, colour
    if name == "workshop_large.html":
        assert min(text[1] for text in texts) * POINTS >= 114.9
    else:
        headings = [text for text in texts if text[0] in ("H1", "H2")]
        body = offline.evaluate("parseFloat(getComputedStyle(document.querySelector('main p')).fontSize)")
        assert headings and min(text[1] for text in headings) > body


@pytest.mark.parametrize(("name", "count"), SHEETS.items())
def test_each_sheet_is_one_page_of_a4(offline, pack, name, count):
    offline.goto((pack / name).as_uri())
    paper = offline.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", paper)) == count
    boxes = {tuple(round(float(side)) for side in box.split()) for box in re.findall(rb"/MediaBox \[0 0 ([\d. ]+)\]", paper)}
    offline.emulate_media(media="print")
    breaks = offline.evaluate("[...document.querySelectorAll('.sheet')].map((node) => getComputedStyle(node).breakAfter)")
    assert set(breaks[:-1]) <= {"page"} and len(breaks) in (0, count / BACKS.get(name, 1))
    assert len(boxes) == 1
    short, long = sorted(boxes.pop())
    assert abs(short - 595) <= 1 and abs(long - 842) <= 1
    assert offline.locator(".screen").count() == (name != "workshop.html")


@pytest.mark.parametrize("demo", sorted(project.CASES.glob("*_player.toml")), ids=lambda path: path.stem)
def test_a_tin_is_whole_on_one_sheet_and_no_column_shrinks_to_a_word(offline, tmp_path, demo):
    make_handouts(demo, tmp_path)
    offline.set_viewport_size({"width": PAPER[False], "height": 1000})
    offline.emulate_media(media="print")
    offline.goto((tmp_path / "workshop_tin.html").as_uri())
    heights = offline.evaluate("[...document.querySelectorAll('.tin')].map((node) => node.offsetHeight)")
    assert len(heights) == 3 and max(heights) <= TALL
    rows = offline.evaluate("""[...document.querySelectorAll('.tin tr')].map((row) =>
        row.offsetHeight / parseFloat(getComputedStyle(row).lineHeight))""")
    assert max(rows) < 4, "a row of more than three lines"


def test_every_front_and_every_back_fits_its_side(offline, pack):
    """At the width of the paper: a front that ran over would put the exercises on a second sheet."""
    offline.set_viewport_size({"width": PAPER[False], "height": 1000})
    offline.emulate_media(media="print")
    offline.goto((pack / "workshop_handouts.html").as_uri())
    sides = offline.evaluate("[...document.querySelectorAll('.side')].map((node) => [node.offsetHeight, node.scrollHeight])")
    assert len(sides) == SHEETS["workshop_handouts.html"] and max(max(side) for side in sides) <= TALL
    assert set(offline.evaluate("[...document.querySelectorAll('.back')].map((node) => getComputedStyle(node).breakBefore)")) == {"page"}


def test_for_the_wall_each_turn_fills_a_screen_and_the_keys_walk_through(offline, pack):
    offline.set_viewport_size({"width": 1280, "height": 720})
    offline.goto((pack / "workshop_large.html").as_uri())
    tall = offline.evaluate("[...document.querySelectorAll('.sheet')].map((node) => [node.offsetHeight, node.scrollWidth])")
    assert all(0.9 * 720 <= height <= 1.3 * 720 and width <= 1280 for height, width in tall)
    capital = offline.evaluate("parseFloat(getComputedStyle(document.querySelector('.sheet p')).fontSize)")
    assert capital > 100
    tops = "[...document.querySelectorAll('.sheet')].map((node) => Math.round(node.getBoundingClientRect().top))"
    for place in range(1, 4):
        offline.keyboard.press("PageDown")
        offline.wait_for_function(f"(place) => Math.abs({tops}[place]) <= 1", arg=place)
