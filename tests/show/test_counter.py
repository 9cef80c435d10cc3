"""The counter in the kernel: what a press does, what is shown, and that nothing counts twice or by itself."""

import numpy as np
import pytest

from benchreckoner.show.counter import Counter, Key
from benchreckoner.show.live import marks
from benchreckoner.show.picture import Axis, Curve, Picture, Point

KEYS = (Key("a", "apple", "Apple"), Key("u", "back", "Take back"))


class Basket:
    """Apples counted by hand; no fourth one fits."""

    def __init__(self):
        self.apples = 0
        self.counter = Counter(KEYS, label="Count apples", on_press=self.press, numbers=lambda: {"apple": str(self.apples)},
                               picture=self.picture)

    def press(self, name):
        if name == "apple" and self.apples == 3:
            raise ValueError("the basket is full; take an apple back")
        self.apples += 1 if name == "apple" else -1
        return f"{self.apples} in the basket"

    def picture(self):
        most = 2 if self.apples <= 2 else 4
        return Picture(title="Apples", x=Axis("day", "", 0, 1), y=Axis("apples", "", 0, most),
                       curves=(Curve("so far", np.array([0.0, 1.0]), np.array([0.0, self.apples])),),
                       points=(Point("now", 1, self.apples),), sentence=f"{self.apples} apples.", alt="A line.")


@pytest.fixture
def basket():
    return Basket()


def test_a_press_acts_and_is_answered(basket):
    basket.counter.press("apple")
    state = basket.counter.state
    assert basket.apples == 1 and state["numbers"] == {"apple": "1"} and state["said"] == "1 in the basket"
    assert state["sentence"] == "1 apples." and not state["trouble"]
    assert state["marks"] == marks(basket.picture())[1].tobytes()


def test_what_is_refused_is_told_and_nothing_counts(basket):
    for _ in range(4):
        basket.counter.press("apple")
    state = basket.counter.state
    assert basket.apples == 3 and "the basket is full" in state["trouble"] and not state["said"]
    basket.counter.press("back")
    assert basket.apples == 2 and not basket.counter.state["trouble"]


def test_a_message_from_the_browser_is_a_press_and_others_are_not(basket):
    for content in ({"press": "apple"}, {"press": "pear"}, {"keep": [1]}, {}, {"press": None}):
        basket.counter._told(basket.counter, content, [])
    assert basket.apples == 1


def test_a_new_backdrop_only_where_the_axes_change(basket):
    first = basket.counter.frame
    basket.counter.press("apple")
    basket.counter.press("apple")
    assert basket.counter.frame is first
    basket.counter.press("apple")
    assert basket.counter.frame is not first and basket.counter.frame["sliders"] == []


@pytest.mark.parametrize("letters", ["aa", "A1", ("ab", "c")])
def test_each_key_has_a_small_letter_of_its_own(letters):
    keys = [Key(letter, f"name {number}", "Label") for number, letter in enumerate(letters)]
    with pytest.raises(ValueError, match="small letter of its own"):
        Counter(keys, label="Count", on_press=None, numbers=None, picture=None)


def test_without_a_browser_there_is_a_text(basket):
    assert "0 apples." in basket.counter._repr_mimebundle_()[0]["text/plain"]
