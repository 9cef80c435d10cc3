"""The counter's script by keys and by buttons, without a notebook: each press is one press, wherever it comes from."""

import json
import runpy
from importlib.resources import files
from pathlib import Path

import pytest

import benchreckoner.show

pytestmark = pytest.mark.browser

ROOM = files(benchreckoner.show)
BASKET = runpy.run_path(str(Path(__file__).parents[1] / "show" / "test_counter.py"))["Basket"]
# A model as the script knows it, with nobody behind it but a list of what was sent.
MODEL = """
const heard = {};
window.sent = [];
const packed = (bytes) => new DataView(Uint8Array.from(bytes).buffer);
const values = { buttons: BUTTONS, label: "Count apples", frame: FRAME, state: STATE };
values.state.marks = packed(values.state.marks);
window.model = {
  get: (name) => values[name],
  send: (message) => window.sent.push(message.press),
  on: (event, act) => { heard[event] = act; },
  off: () => {},
};
window.answer = (state, frame) => {
  state.marks = packed(state.marks);
  values.state = state;
  if (frame) { values.frame = frame; heard["change:frame"](); }
  heard["change:state"]();
};
"""


def plain(counter):
    return {**counter.state, "marks": list(counter.state["marks"])}


def put(page, counter):
    style = ROOM.joinpath("live.css").read_text(encoding="utf-8") + ROOM.joinpath("counter.css").read_text(encoding="utf-8")
    script = ROOM.joinpath("stage.js").read_text(encoding="utf-8") + ROOM.joinpath("counter.js").read_text(encoding="utf-8")
    model = MODEL
    for name, value in (("BUTTONS", counter.buttons), ("FRAME", counter.frame), ("STATE", plain(counter))):
        model = model.replace(name, json.dumps(value))
    page.set_content(f"<!doctype html><meta charset='utf-8'><style>{style}</style><input id='elsewhere'><div id='root'></div>")
    page.evaluate("""async ([model, script]) => {
        (0, eval)(model.replaceAll("const ", "var "));
        const module = await import(URL.createObjectURL(new Blob([script], {type: "text/javascript"})));
        module.default.render({ model: window.model, el: document.getElementById("root") });
    }""", [model, script])


@pytest.fixture
def basket():
    return BASKET()


@pytest.fixture
def shown(page, basket):
    put(page, basket.counter)
    return page


def sent(page):
    return page.evaluate("window.sent")


def test_buttons_and_keys_send_one_press_each(shown):
    shown.get_by_role("button", name="Apple").click()
    assert shown.evaluate("document.activeElement.textContent").startswith("Apple")
    shown.keyboard.press("a")
    shown.keyboard.press("u")
    shown.keyboard.press("Shift+A")
    shown.keyboard.press("Enter")
    shown.keyboard.press("Space")
    assert sent(shown) == ["apple", "apple", "back", "apple", "apple", "apple"]
    shown.keyboard.press("z")
    shown.keyboard.press("Control+a")
    assert len(sent(shown)) == 6


@pytest.mark.parametrize("key", ["a", "Enter"])
def test_a_key_held_down_is_one_press(shown, key):
    shown.get_by_role("button", name="Apple").focus()
    for _ in range(5):
        shown.keyboard.down(key)  # without a release between them: the browser marks all but the first as repeats
    shown.keyboard.up(key)
    assert sent(shown) == ["apple"]


def test_keys_act_only_within_the_counter(shown):
    shown.locator("#elsewhere").focus()
    shown.keyboard.type("a banana")
    assert sent(shown) == [] and shown.locator("#elsewhere").input_value() == "a banana"
    shown.keyboard.press("Tab")
    shown.keyboard.press("a")
    assert sent(shown) == ["apple"]


def test_what_comes_back_is_shown_and_told(shown, basket):
    shown.get_by_role("button", name="Apple").click()
    assert shown.locator(".reckoner-waiting").count() == 1
    basket.counter.press("apple")
    shown.evaluate("state => window.answer(state)", plain(basket.counter))
    apple = shown.get_by_role("button", name="Apple: 1")
    assert apple.locator("b").inner_text() == "1" and apple.locator("kbd").inner_text() == "a"
    assert shown.locator(".reckoner-waiting").count() == 0
    assert shown.locator(".reckoner-said").inner_text() == "1 in the basket"
    assert shown.locator(".reckoner-sentence").inner_text() == "1 apples."
    before = shown.locator("[id$='point-0'] use").get_attribute("y")
    for _ in range(3):
        basket.counter.press("apple")
    shown.evaluate("([state, frame]) => window.answer(state, frame)", [plain(basket.counter), basket.counter.frame])
    assert shown.get_by_role("alert").inner_text().startswith("✗ Not done: the basket is full")
    assert shown.get_by_role("button", name="Apple: 3").is_visible()
    assert shown.locator("[id$='point-0'] use").get_attribute("y") != before
    assert shown.locator("svg").count() == 1


def test_on_a_phone_nothing_is_wider_than_the_screen(shown):
    shown.set_viewport_size({"width": 390, "height": 844})
    assert shown.evaluate("document.documentElement.scrollWidth") <= 390
    boxes = [button.bounding_box() for button in shown.locator(".reckoner-keys button").all()]
    assert all(box["height"] >= 44 and box["width"] >= 120 for box in boxes)
