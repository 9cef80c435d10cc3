"""The script of a teaching card: keys stay in the card, choices are one group, answers are spoken."""

import json
from importlib.resources import files

import pytest

# The shape that the widgets give a card, and a notebook that listens for keys as a real one does:
# unless the element or one round it carries the attribute that says hands off.
PAGE = """
<div class="reckoner">
  <div class="widget-radio-box"><label>this<input type="radio"></label><label>that<input type="radio"></label></div>
  <select><option>choose</option><option>apple</option></select><input type="text"><button>Check</button>
  <details><summary>Worked answer</summary>4 V</details>
  <div class="reckoner-status"></div><div class="reckoner-alert"></div>
</div>
<select id="elsewhere"><option>one</option><option>two</option></select>
<script>
window.heard = [];
document.addEventListener("keydown", event => {
  for (let at = event.target; at; at = at.parentElement) if (at.hasAttribute("data-lm-suppress-shortcuts")) return;
  window.heard.push(event.key);
});
</script>
"""


@pytest.fixture
def card(page):
    page.set_content(PAGE)
    script = files("benchreckoner.show").joinpath("card.js").read_text(encoding="utf-8")
    for _ in range(2):  # every card brings the script; it must act once
        page.evaluate("text => import(URL.createObjectURL(new Blob([text], {type: 'text/javascript'})))", script)
    return page


def heard(page, element, *keys):
    page.evaluate("window.heard.length = 0")
    page.locator(element).focus()
    for key in keys:
        page.keyboard.press(key)
    return json.loads(page.evaluate("JSON.stringify(window.heard)"))


@pytest.mark.browser
@pytest.mark.parametrize("element", [".reckoner select", ".reckoner button", ".reckoner summary",
                                     ".reckoner label:first-child input"])
def test_plain_keys_stay_in_the_card(card, element):
    assert heard(card, element, "ArrowDown", "a", "d", "Enter") == []


@pytest.mark.browser
def test_keys_meant_for_the_notebook_reach_it(card):
    assert heard(card, ".reckoner button", "Escape") == ["Escape"]
    assert "s" in heard(card, ".reckoner button", "Control+s")
    assert "Enter" in heard(card, ".reckoner button", "Shift+Enter")
    assert heard(card, "#elsewhere", "ArrowDown") == ["ArrowDown"]


@pytest.mark.browser
def test_arrows_move_within_one_group_of_choices(card):
    card.locator(".reckoner input[type=radio]").first.focus()
    card.keyboard.press("Space")
    card.keyboard.press("ArrowDown")
    assert card.evaluate("[...document.querySelectorAll('input[type=radio]')].map(one => one.checked)") == [False, True]
    card.keyboard.press("Tab")
    assert card.evaluate("document.activeElement.tagName") == "SELECT"
    assert card.locator(".widget-radio-box").get_attribute("role") == "radiogroup"


@pytest.mark.browser
def test_answers_have_a_place_that_is_spoken_before_they_come(card):
    card.locator(".reckoner input[type=text]").focus()
    assert card.locator(".reckoner-status").get_attribute("role") == "status"
    assert card.locator(".reckoner-alert").get_attribute("role") == "alert"
