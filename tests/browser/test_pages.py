"""Pages for a phone: opened from disk with the network off, moved by finger and by key, against the library."""

import re
from dataclasses import replace

import numpy as np
import pytest

from benchreckoner import project
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.contact_resistance import HELD_VOLTS
from benchreckoner.lessons.series import live_pictures, own_pictures
from benchreckoner.show.live import picture_at
from benchreckoner.show.still import backdrop
from benchreckoner.show.table import tables
from benchreckoner.tell import pages

pytestmark = pytest.mark.browser

DEMO, OTHER = project.CASES / "record_player.toml", read_sheet(project.CASES / "tape_player.toml")
LISTED = [(one, None) for one in live_pictures()] + list(own_pictures(read_sheet(DEMO)))
SHOWN = LISTED + list(own_pictures(OTHER))
# A page holds whole ten-thousandths of an axis and the script draws hundredths of a unit. On the longer axis, some 340
# units, half of the one is 0.017 and half of the other 0.005: together below one ten-thousandth of it, 0.034.
TOLERANCE = 1e-4
# What the page shows: the places of its marks in the drawing's own units, its words and its table.
LOOK = r"""() => {
  const numbers = (text) => (text.match(/-?[\d.]+/g) || []).map(Number);
  const marks = {};
  for (const node of document.querySelectorAll("#picture svg g[id]")) {
    const id = node.id.match(/(curve|band|point|limit)-\d+$/)?.[0];
    if (!id || node.style.display === "none") continue;
    const use = node.querySelector("use");
    marks[id] = id.startsWith("point") ? [use.getAttribute("x"), use.getAttribute("y")].map(Number)
      : numbers(node.querySelector("path").getAttribute("d"));
  }
  return {
    marks,
    large: document.querySelector("#picture svg").getAttribute("viewBox"),
    sentence: document.querySelector(".reckoner-sentence").textContent,
    alt: document.querySelector(".reckoner-drawing").getAttribute("aria-label"),
    readouts: [...document.querySelectorAll(".reckoner-slider span")].map((node) => node.textContent),
    spoken: [...document.querySelectorAll(".reckoner-slider input")].map((node) => node.getAttribute("aria-valuetext")),
    tables: [...document.querySelectorAll(".reckoner-tables table")].map((table) => [
      table.caption.textContent, ...[...table.rows].map((row) => [...row.cells].map((cell) => cell.textContent))]),
  };
}"""
MOVE = """positions => document.querySelectorAll(".reckoner-slider input").forEach((input, index) => {
  input.value = positions[index];
  input.dispatchEvent(new Event("input"));
})"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Every page of the series, made once, and the other machine's own beside them."""
    home = pages.make_pages(DEMO, tmp_path_factory.mktemp("phone") / "pages").parent
    for declared, reading in own_pictures(OTHER):
        text = pages.page_html(declared, reading=reading, machine=OTHER.machine.name)
        (home / f"{declared.key}.html").write_text(text, encoding="utf-8")
    return home


@pytest.fixture
def phone(browser):
    """A page as a phone shows it, with the network off; it collects what it asks for and complains of."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True, offline=True)
    opened = context.new_page()
    opened.asked, opened.complaints = [], []
    opened.on("request", lambda request: opened.asked.append(request.url))
    opened.on("console", lambda message: opened.complaints.append(message.text))
    opened.on("pageerror", lambda error: opened.complaints.append(str(error)))
    yield opened
    context.close()
    assert opened.complaints == []


def open_page(page, path):
    page.goto(path.as_uri())
    page.locator(".reckoner-sentence").wait_for()


def wanted_places(picture, box):
    """Where a scene's marks stand in the drawing's units, from the picture itself."""
    left, top, width, height = box

    def along(axis, values):
        # A page keeps what lies more than three axes away at three.
        return np.clip(np.atleast_1d(axis.fraction(values)), -3, 3)

    def across(values):
        return left + width * along(picture.x, values)

    def down(values):
        return top + height * (1 - along(picture.y, values))

    counted, places = {}, {}
    for kind, mark in picture.marks:
        number = counted[kind] = counted.get(kind, -1) + 1
        if kind == "curve":
            place = np.column_stack((across(mark.x), down(mark.y)))
        elif kind == "point":
            place = np.column_stack((across(mark.x), down(mark.y)))
        elif kind == "limit" and mark.axis == "x":
            place = np.array([[across(mark.value)[0], top + height], [across(mark.value)[0], top]])
        elif kind == "limit":
            place = np.array([[left, down(mark.value)[0]], [left + width, down(mark.value)[0]]])
        else:
            place = band_outlines(np.column_stack((across(mark.x), down(mark.low), down(mark.high))))
        place = place[np.all(np.isfinite(place), axis=1)]
        if place.size:
            places[f"{kind}-{number}"] = place.ravel()
    return places


def band_outlines(rows):
    """Along the lower edge and back along the upper one, for each stretch without a gap."""
    gaps = np.flatnonzero(~np.all(np.isfinite(rows), axis=1))
    stretches = [stretch[np.all(np.isfinite(stretch), axis=1)] for stretch in np.split(rows, gaps)]
    outlines = [np.vstack((stretch[:, [0, 1]], stretch[::-1, [0, 2]])) for stretch in stretches if len(stretch)]
    return np.vstack(outlines) if outlines else np.empty((0, 2))


@pytest.mark.parametrize(("declared", "reading"), SHOWN, ids=lambda one: getattr(one, "key", ""))
def test_ten_random_steps_agree_with_the_library(phone, folder, declared, reading):
    path = folder / f"{declared.key}.html"
    assert path.stat().st_size <= 600_000
    open_page(phone, path)
    chosen = np.random.default_rng(20)
    sliders = [slider for slider in declared.sliders if slider.name in declared.phone_sliders]
    for _ in range(10):
        steps = [int(chosen.integers(len(slider.steps))) for slider in sliders]
        phone.evaluate(MOVE, steps)
        found = phone.evaluate(LOOK)
        picture = picture_at(declared, {**declared.start, **{slider.name: step for slider, step in zip(sliders, steps)}}, reading)
        assert found["sentence"] == picture.sentence and found["alt"] == picture.alt
        texts = [slider.text(step) for slider, step in zip(sliders, steps)]
        assert found["readouts"] == found["spoken"] == texts
        assert found["tables"] == [[table.caption, list(table.head), *map(list, table.rows)] for table in tables(picture)]
        drawn = backdrop(picture, large=True)
        assert found["large"] == re.search('viewBox="([^"]*)"', drawn.svg)[1]
        wanted = wanted_places(picture, drawn.box)
        assert found["marks"].keys() == wanted.keys()
        for name, places in wanted.items():
            assert found["marks"][name] == pytest.approx(places, abs=TOLERANCE * max(drawn.box[2:])), name
    assert phone.asked == [path.as_uri()]


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", ["index", *(declared.key for declared, _ in SHOWN)])
def test_nothing_is_wider_than_the_window(phone, folder, name, width):
    phone.set_viewport_size({"width": width, "height": 844})
    phone.goto((folder / f"{name}.html").as_uri())
    if name != "index":
        phone.locator(".reckoner-sentence").wait_for()
        phone.get_by_text("The picture as a table").click()
        assert phone.locator("#picture svg").bounding_box()["width"] >= 340
    assert phone.evaluate("document.documentElement.scrollWidth") <= width
    assert phone.evaluate("""() => [...document.querySelectorAll("body *:not(svg *, .reckoner-tables *)")].filter(
        (node) => node.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map((node) => node.tagName)""") == []


def test_a_finger_drags_the_slider_and_the_picture_follows(phone, folder):
    open_page(phone, folder / "held-volts.html")
    slider = phone.get_by_label("ohms of the link")
    slider.scroll_into_view_if_needed()
    box, before = slider.bounding_box(), phone.evaluate(LOOK)
    assert box["height"] >= 40, "a finger is wide"
    middle = box["y"] + box["height"] / 2
    touch = phone.context.new_cdp_session(phone)

    def finger(what, *places):
        touch.send("Input.dispatchTouchEvent", {"type": what, "touchPoints": [{"x": x, "y": middle} for x in places]})

    position = int(slider.input_value())
    start = box["x"] + 8 + (box["width"] - 16) * position / 100
    finger("touchStart", start)
    for part in np.linspace(start, box["x"] + box["width"] - 4, 12):
        finger("touchMove", float(part))
    after = phone.evaluate(LOOK)  # while the finger is still down
    finger("touchEnd")
    assert int(slider.input_value()) > position + 30
    assert after["sentence"] != before["sentence"] and after["marks"]["point-0"] != before["marks"]["point-0"]
    assert f"With {after['readouts'][0]} in the link" in after["sentence"]


def test_the_goal_is_met_by_keys_alone(phone, folder):
    """Check value K4: 1 ohm in the link leaves 5.00 V."""
    open_page(phone, folder / "held-volts.html")
    for _ in range(2):
        phone.keyboard.press("Tab")
    assert phone.evaluate("document.activeElement.type") == "range"
    link = next(slider for slider in HELD_VOLTS.sliders if slider.name == "link")
    for _ in range(link.steps.index(1.0) - link.start_position):
        phone.keyboard.press("ArrowRight")
    assert "5.00 V of 6.00 V reach the held motor" in phone.evaluate(LOOK)["sentence"]
    phone.get_by_role("status").get_by_text("5.00 V of 6.00 V").wait_for(state="attached")
    phone.keyboard.press("Tab")
    phone.keyboard.press("End")
    assert "and 4.0 Ω in the cells" in phone.evaluate(LOOK)["sentence"]


def test_the_index_leads_to_each_page_and_back(phone, folder):
    phone.goto((folder / "index.html").as_uri())
    links = phone.locator(".pictures a")
    assert links.count() == len(LISTED)
    for place, (declared, _) in enumerate(LISTED):
        assert phone.get_by_text(declared.phone_goal or declared.goal, exact=True).is_visible()
        links.nth(place).tap()
        phone.locator(".reckoner-sentence").wait_for()
        assert phone.url.endswith(f"{declared.key}.html")
        phone.get_by_role("link", name="All pictures").tap()
        phone.wait_for_url("**/index.html")
    assert all(url.startswith("file:") for url in phone.asked)


def test_markup_in_a_sheets_names_is_shown_as_text(phone, tmp_path, monkeypatch):
    nasty = '<img src=x onerror="window.hurt = 1">'
    sheet = tmp_path / "nasty.toml"
    text = DEMO.read_text(encoding="utf-8")
    for name in ("spring 3", "suitcase record player"):
        text = text.replace(f'"{name}"', f"'{nasty} {name}'")
    sheet.write_text(text, encoding="utf-8")
    own, reading = own_pictures(read_sheet(sheet))[0]
    monkeypatch.setattr(pages, "live_pictures", lambda: ())
    monkeypatch.setattr(pages, "own_pictures", lambda _: ((replace(own, phone_sliders=("link",)), reading),))
    index = pages.make_pages(sheet, tmp_path / "out")
    phone.goto(index.as_uri())
    assert phone.locator(".pictures").get_by_text(nasty).count() == 2
    assert phone.get_by_role("heading", name=nasty).count() == 1
    assert phone.locator("img").count() == 0
    open_page(phone, index.parent / "my-held-volts.html")
    assert phone.get_by_label(f"ohms of {nasty} spring 3").is_visible()
    assert phone.get_by_text(f"{nasty} suitcase record player").is_visible()
    assert phone.locator("img").count() == 0
    assert phone.evaluate("window.hurt") is None


def test_without_scripts_the_words_and_the_table_remain(browser, folder):
    context = browser.new_context(viewport={"width": 390, "height": 844}, java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto((folder / "held-volts.html").as_uri())
    assert "reach the held motor" in page.locator("#picture").inner_text()
    assert page.get_by_role("table").count() == 2
    context.close()


def test_a_file_that_came_over_in_part_says_so(browser, folder, tmp_path):
    text = (folder / "held-volts.html").read_text(encoding="utf-8")
    start = text.index('id="table">') + len('id="table">')
    broken = tmp_path / "held-volts.html"
    broken.write_text(text[:start + 4000] + text[text.index("</script>", start):], encoding="utf-8")
    context = browser.new_context(offline=True)
    page = context.new_page()
    page.goto(broken.as_uri())
    page.get_by_text("or the file came over in part").wait_for()
    assert "reach the held motor" in page.locator("#picture").inner_text()
    context.close()
