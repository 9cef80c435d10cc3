"""Marks moved by the script against matplotlib's own drawing of the same state, pixel by pixel."""

import base64
import io
import json
import re
from importlib.resources import files

import numpy as np
import pytest
from PIL import Image

import benchreckoner.show
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.live import picture_at, scene, spec
from benchreckoner.show.picture import Axis, Curve, Picture, Reading
from benchreckoner.show.still import backdrop, svg_text
from benchreckoner.units import Q

pytestmark = pytest.mark.browser

ROOM = files(benchreckoner.show)
READING = Reading(Q(400, "ohm"), Q(7, "V"))
STATES = [(0, 0), (40, 30), (20, 11), (0, 30)]
# Edges are smoothed a little differently when numbers are rounded; one dashed line costs 300, wrong marks 18,000.
ALLOWED = 600
# Where each mark and each name stands in its frame, by its id without the prefix; what is hidden is left out.
PLACES = """(place) => {
  const frame = document.querySelector(place);
  const found = {};
  for (const node of frame.querySelectorAll("g[id]")) {
    const mark = node.id.match(/(band|curve|limit|point)-\\d+(-name)?$/);
    const box = node.getBoundingClientRect();
    const from = frame.getBoundingClientRect();
    if (mark && box.width + box.height) found[mark[0]] = [box.left - from.left, box.top - from.top, box.width, box.height];
  }
  return found;
}"""


def plain(message):
    """A scene as a page without a kernel would store it."""
    return {**message, "numbers": base64.b64encode(message["numbers"]).decode("ascii")}


def inline(data):
    return json.dumps(data).replace("</", "<\\/")


def open_page(page, body, whole=True):
    """A page of ours with the script in it and no notebook anywhere; `whole` puts the frames on whole pixels."""
    style = ROOM.joinpath("live.css").read_text(encoding="utf-8")
    script = ROOM.joinpath("stage.js").read_text(encoding="utf-8")
    page.set_content(f"""<!doctype html><meta charset="utf-8"><style>{style} body {{ margin: 0; background: white }}
        .frame {{ background: white; height: 630px; overflow: hidden; width: 720px }}
        .whole .frame {{ position: absolute; left: 0; top: 0 }} .whole #second {{ top: 660px }}
        .frame svg {{ display: block; width: 100% }}</style>
        <body class="{'whole' if whole else ''}"><div id="first" class="frame"></div><div id="second" class="frame"></div>
        <script type="module">{script}
        const unpack = (message) => {{
          const bytes = Uint8Array.from(atob(message.numbers), (letter) => letter.charCodeAt(0));
          return {{ ...message, numbers: numbersFrom(new DataView(bytes.buffer)) }};
        }};
        {body}
        window.ready = true;</script>""")
    page.wait_for_function("window.ready")


def pixels(page, place):
    return np.asarray(Image.open(io.BytesIO(page.locator(place).screenshot())).convert("RGB"), dtype=int)


def differing(one, other):
    assert one.shape == other.shape
    return int(np.sum(np.abs(one - other).max(axis=2) > 32))


def drawn_by_matplotlib(page, picture, large):
    page.evaluate("text => { document.querySelector('#second').innerHTML = text }",
                  svg_text(picture, large=large, prefix="still-"))
    return pixels(page, "#second")


@pytest.mark.parametrize("fixed, size", [
    ({}, "normal"), ({}, "large"), ({"scale": "linear"}, "normal"), ({"volts_scale": "log"}, "normal")])
def test_moved_marks_are_matplotlibs_own_picture(page, demo, fixed, size):
    declaration = demo.declared(**fixed)
    pictures = [picture_at(declaration, dict(zip(("series", "load"), state)), READING) for state in STATES]
    open_page(page, f"""
        const spec = {inline(spec(declaration, pictures[0]))};
        const draw = mount(document.querySelector("#first"), spec.sizes.{size}, spec);
        window.drawn = (message) => draw(unpack(message));""")
    moved, wanted = [], []
    for picture in pictures:
        page.evaluate("message => window.drawn(message)", plain(scene(picture)))
        moved.append(pixels(page, "#first"))
        wanted.append(drawn_by_matplotlib(page, picture, size == "large"))
        places = page.evaluate(PLACES, "#first"), page.evaluate(PLACES, "#second")
        assert len(places[0]) == 8 + 5 - 2 * (not picture.points[1].drawn)
        assert places[0].keys() == places[1].keys()
        for name, place in places[0].items():
            assert place == pytest.approx(places[1][name], abs=0.1), f"{name} is not where matplotlib puts it"
    counts = [differing(one, other) for one, other in zip(moved, wanted)]
    controls = [differing(one, other) for one, other in zip(moved, wanted[1:])]
    print(f"{size}, {fixed or 'log x'}: {counts} pixels differ, with wrong marks {controls}")
    assert max(counts) <= ALLOWED
    assert min(controls) > 10 * ALLOWED, "the comparison would not have noticed wrong marks"


@pytest.mark.parametrize("size", ["normal", "large"])
def test_a_drawing_to_scale_is_matplotlibs_own_and_round_stays_round(page, size):
    """A circle and a line of many places, moved: the axes keep one scale, whatever room the frame leaves."""
    turn = np.linspace(0, 2 * np.pi, 61)

    def wheel(middle):
        rim = Curve("rim", 30 * np.cos(turn) + middle, 30 * np.sin(turn), "second")
        return Picture("A wheel", Axis("across", "mm", -40, 160), Axis("up", "mm", -50, 50), f"A wheel at {middle}.", "A wheel.",
                       (rim, Curve("line", [0, middle], [-40, 40])), to_scale=True)

    declaration = LivePicture(key="wheel", picture=wheel, sliders=[Slider("middle", "Middle", "", (0, 60, 120), 0)])
    pictures = [declaration.at({"middle": place}) for place in range(3)]
    open_page(page, f"""
        const spec = {inline(spec(declaration, pictures[0]))};
        const draw = mount(document.querySelector("#first"), spec.sizes.{size}, spec);
        window.drawn = (message) => draw(unpack(message));""")
    moved, wanted = [], []
    for picture in pictures:
        page.evaluate("message => window.drawn(message)", plain(scene(picture)))
        moved.append(pixels(page, "#first"))
        wanted.append(drawn_by_matplotlib(page, picture, size == "large"))
        _, _, width, height = page.evaluate(PLACES, "#first")["curve-0"]
        assert width == pytest.approx(height, rel=0.01)
    assert max(differing(one, other) for one, other in zip(moved, wanted)) <= ALLOWED
    assert min(differing(one, other) for one, other in zip(moved, wanted[1:])) > 10 * ALLOWED


def test_alt_text_follows_and_absent_marks_are_hidden(page, demo):
    declaration = demo.declared()
    open_page(page, f"""
        const spec = {inline(spec(declaration, declaration.at(declaration.start)))};
        const draw = mount(document.querySelector("#first"), spec.sizes.normal, spec);
        window.drawn = (message) => draw(unpack(message));""")
    point = "#first [id$='point-1']"
    for state, seen in (((0, 30), True), ((40, 0), False), ((0, 30), True)):
        picture = declaration.at(dict(zip(("series", "load"), state)))
        page.evaluate("message => window.drawn(message)", plain(scene(picture)))
        assert page.get_by_role("img", name=picture.alt).count() == 1
        assert page.locator(point).is_visible() is seen
        assert page.locator(f"{point[:-2]}-name']").is_visible() is seen


def test_the_same_picture_twice_shares_no_ids(page, demo):
    declaration = demo.declared()
    first, second = (declaration.at({"series": series, "load": 9}) for series in (2, 38))
    open_page(page, f"""
        const spec = {inline(spec(declaration, first))};
        mount(document.querySelector("#first"), spec.sizes.normal, spec)(unpack({inline(plain(scene(first)))}));
        mount(document.querySelector("#second"), spec.sizes.normal, spec)(unpack({inline(plain(scene(second)))}));""")
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map((node) => node.id)")
    assert len(ids) == len(set(ids))
    before = pixels(page, "#second")
    page.evaluate("document.querySelector('#first').style.visibility = 'hidden'")
    page.evaluate("document.querySelector('#first svg').style.display = 'none'")
    assert differing(before, pixels(page, "#second")) == 0, "one picture leans on the other's hidden parts"


@pytest.fixture
def controls(page, demo):
    """The whole panel, its kernel played by a table of scenes for the first slider."""
    declaration = demo.declared()
    scenes = [plain(scene(picture_at(declaration, {"series": position, "load": 11}, READING))) for position in range(41)]
    open_page(page, f"""
        const spec = {inline(spec(declaration, picture_at(declaration, declaration.start, READING), True))};
        const scenes = {inline(scenes)};
        window.moves = [];
        window.kept = [];
        window.shown = panel(document.querySelector("#first"), spec, {{
          move(positions) {{ moves.push(positions); shown.show(unpack(scenes[positions[0]])); }},
          keep(positions) {{ kept.push(positions); shown.answer("Kept " + positions); }},
        }});
        shown.show(unpack(scenes[spec.sliders[0].start]));""", whole=False)
    return declaration


def test_an_arrow_key_moves_picture_sentence_and_table_together(page, controls):
    slider = page.get_by_role("slider", name="Series resistance")
    start = controls.start["series"]
    place = page.locator("#first [id$='point-0'] use")
    before = place.get_attribute("x")
    slider.focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    assert page.evaluate("moves") == [[start + 1, 11], [start + 2, 11]]
    picture = picture_at(controls, {"series": start + 2, "load": 11}, READING)
    text = controls.sliders[0].text(start + 2)
    assert slider.get_attribute("aria-valuetext") == text
    assert page.get_by_text(text, exact=True).is_visible()
    assert float(place.get_attribute("x")) > float(before)
    assert page.locator(".reckoner-sentence").inner_text() == picture.sentence
    page.get_by_text("The picture as a table").click()
    cell = page.get_by_role("row", name="here").get_by_role("cell").first
    assert cell.inner_text() == picture.x.number(picture.points[0].x)


def test_the_sentence_is_read_out_only_at_rest(page, controls):
    page.clock.install()
    status = page.get_by_role("status")
    before = status.text_content()
    page.get_by_role("slider", name="Series resistance").focus()
    for _ in range(5):
        page.keyboard.press("ArrowRight")
        page.clock.run_for(100)
        assert status.text_content() == before
    page.clock.run_for(1000)
    assert status.text_content() == page.locator(".reckoner-sentence").inner_text() != before


def test_keeping_answers_and_large_keeps_the_state(page, controls):
    page.get_by_role("slider", name="Load").focus()
    page.keyboard.press("ArrowLeft")
    page.get_by_role("button", name="Keep this setting").click()
    assert page.evaluate("kept") == [[controls.start["series"], 10]]
    assert page.get_by_text(f"Kept {controls.start['series']},10").is_visible()
    large = page.get_by_role("button", name="Large picture")
    large.click()
    assert large.get_attribute("aria-pressed") == "true"
    picture = picture_at(controls, {"series": controls.start["series"], "load": 11}, READING)
    page.evaluate("""document.body.className = "whole";
        document.querySelector(".reckoner-drawing").style.cssText = "border: 0; padding: 0; width: 720px";
        document.querySelector("#first").replaceChildren(document.querySelector(".reckoner-drawing"))""")
    moved = pixels(page, "#first")
    assert differing(moved, drawn_by_matplotlib(page, picture, True)) <= ALLOWED


def test_nothing_is_wider_than_a_phone(page, controls):
    large = re.search('viewBox="([^"]*)"', backdrop(controls.at(controls.start), large=True).svg)[1]
    page.set_viewport_size({"width": 390, "height": 844})
    page.add_style_tag(content=".frame { height: auto !important; width: auto !important } body { padding: 0 8px }")
    page.get_by_text("The picture as a table").click()
    for _ in range(2):
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        assert page.locator("#first svg").bounding_box()["width"] >= 340
        assert page.locator("#first svg").get_attribute("viewBox") == large, "small drawings need the larger text"
        page.get_by_role("button", name="Large picture").click()


def test_words_from_a_reader_never_become_markup(page, demo):
    nasty = '<img src=x onerror="window.hurt = 1">'
    declared = demo.declared()
    declaration = LivePicture("nasty", declared.picture, declared.sliders, nasty, declared.fixed)
    message = plain(scene(declaration.at(declaration.start)))
    message["sentence"] = message["alt"] = message["tables"][0]["rows"][0][0] = nasty
    open_page(page, f"""
        const spec = {inline(spec(declaration, declaration.at(declaration.start), True))};
        const shown = panel(document.querySelector("#first"), spec, {{ move() {{}}, keep() {{}} }});
        shown.show(unpack({inline(message)}));
        shown.answer({inline(nasty)});""")
    assert page.locator("#first").get_by_text(nasty).count() == 5
    assert page.locator("#first img").count() == 0
    assert page.evaluate("window.hurt") is None
