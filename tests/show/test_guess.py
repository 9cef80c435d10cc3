"""Guesses: read, answered, kept, never lost."""

import re

import ipywidgets
import pytest
import tomlkit
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.store import hit_rate, keep, kept
from benchreckoner.units import Q

DROP = NumberGuess("drop", "How many volts?", "V", Q(600, "mV"), "<p>Ohm's law.</p>")
WHY = ChoiceGuess("why", "Where did it go?", (
    Choice("used up <b>inside</b>", "Nothing is used up."),
    Choice("into heat", "Yes, heat.", True),
    Choice("nowhere", "Look again."),
), "<p>Energy is kept.</p>")
ANYTHING = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None)


@pytest.fixture
def store(tmp_path):
    return tmp_path / "demo.guesses.toml"


def guess_range(hands, widget, low, high):
    hands.write(widget, "Lowest you believe", low)
    hands.write(widget, "Highest you believe", high)
    hands.press(widget, "Check my guess")


@pytest.mark.parametrize("low, high, verdict", [
    ("0,5 V", "700 mV", "✓ Inside"),
    ("0.6 V", "1 V", "✓ Inside"),
    ("700 mV", "0,5 V", "✓ Inside"),
    ("0.61 V", "2 V", "✗ Outside: below your lowest"),
    ("1 mV", "590 mV", "✗ Outside: above your highest"),
])
def test_a_range_is_judged_whichever_way_it_is_typed(hands, low, high, verdict):
    widget = number_guess(DROP)
    guess_range(hands, widget, low, high)
    assert verdict in hands.text(widget)
    assert "600 mV" in hands.text(widget) and "Ohm's law" in hands.text(widget)


def test_swapped_ends_are_put_right_in_the_answer_and_the_store(hands, store):
    widget = number_guess(DROP, store=store)
    guess_range(hands, widget, "2 V", "0,1 V")
    assert "You guessed 0,1 V to 2 V" in hands.text(widget)
    entry = tomlkit.parse(store.read_text(encoding="utf-8"))["range"]["drop"][0]
    assert (entry["lowest"], entry["highest"], entry["inside"]) == ("0,1 V", "2 V", True)
    assert entry["truth"] == "600 mV" and entry["date"].tzinfo is not None


def test_enter_checks_too(hands, store):
    widget = number_guess(DROP, store=store)
    hands.write(widget, "Lowest you believe", "0.1 V")
    hands.write(widget, "Highest you believe", "1 V")
    hands.enter(widget, "Highest you believe")
    assert "✓ Inside" in hands.text(widget)


@pytest.mark.parametrize("low, high, told", [
    ("lots", "1 V", "Lowest: cannot read 'lots'"),
    ("0.1 V", "", "Highest: nothing written yet"),
    ("0.1 V", "1 A", "Highest: '1 A' cannot be turned into V"),
    ("0.1", "1 V", "Lowest: '0.1' has no unit"),
])
def test_nonsense_is_told_beside_the_box_and_stays(hands, store, low, high, told):
    opened = []
    widget = number_guess(DROP, reveal=lambda: opened.append(1), store=store)
    guess_range(hands, widget, low, high)
    assert told in hands.text(widget).replace("&#x27;", "'")
    assert hands.find(widget, "Lowest you believe").value == low
    assert hands.find(widget, "Highest you believe").value == high
    assert not opened and not store.exists() and "600" not in hands.text(widget)


OHMS = NumberGuess("ohms", "How many ohms?", "ohm", Q(1.6, "ohm"), "<p>By the fall of volts.</p>")


@pytest.mark.parametrize("low, high, told", [
    ("-5 ohm", "3 ohm", 'Lowest: -5 ohm lies below zero, where no ohms are; write for example "1.5 ohm"'),
    ("3 ohm", "−20 mΩ", "Highest: −20 mΩ lies below zero"),
])
def test_ohms_below_zero_are_refused_in_words(hands, store, low, high, told):
    widget = number_guess(OHMS, store=store)
    guess_range(hands, widget, low, high)
    assert told in hands.text(widget).replace("&quot;", '"')
    assert "1.60" not in hands.text(widget) and not store.exists()


def test_nothing_is_a_guess_and_volts_may_lie_below_it(hands):
    ohms, volts = number_guess(OHMS), number_guess(DROP)
    guess_range(hands, ohms, "0 ohm", "3 ohm")
    guess_range(hands, volts, "-1 V", "1 V")
    assert "✓ Inside" in hands.text(ohms) and "✓ Inside" in hands.text(volts)


def test_what_was_typed_cannot_become_markup(hands):
    widget = number_guess(DROP)
    guess_range(hands, widget, "<img src=x>", "1 V")
    assert "<img" not in hands.text(widget) and "&lt;img" in hands.text(widget)


def test_the_picture_is_made_once_and_only_after_the_guess(hands):
    made = []

    def picture():
        made.append(ipywidgets.HTML("the picture"))
        return made[-1]

    widget = number_guess(DROP, reveal=picture)
    assert not made
    guess_range(hands, widget, "1 V", "2 V")
    assert "the picture" in hands.text(widget)
    hands.press(widget, "Guess again")
    assert "the picture" not in hands.text(widget) and "600" not in hands.text(widget)
    guess_range(hands, widget, "0 V", "2 V")
    assert "the picture" in hands.text(widget) and len(made) == 1


def test_show_me_opens_without_a_guess_and_keeps_nothing(hands, store):
    widget = number_guess(DROP, reveal=ipywidgets.HTML("the picture"), store=store)
    hands.press(widget, "Show me")
    assert "600 mV" in hands.text(widget) and "the picture" in hands.text(widget)
    assert not store.exists()


def test_a_guess_survives_a_second_run_of_the_cell(hands, store):
    guess_range(hands, number_guess(DROP, store=store), "1 V", "2 V")
    again = number_guess(DROP, reveal=lambda: ipywidgets.HTML("the picture"), store=store)
    assert "You guessed 1 V to 2 V; it is <strong>600 mV</strong>" in hands.text(again)
    assert "the picture" in hands.text(again)
    assert hands.labels(again) == ["Guess again"]
    hands.press(again, "Guess again")
    guess_range(hands, again, "0.5 V", "0.7 V")
    assert len(kept(store, group="range", key="drop")[0]) == 2
    assert "You guessed 0.5 V to 0.7 V" in hands.text(number_guess(DROP, store=store))


@pytest.mark.parametrize("unit, truth, typed", [
    ("%", Q(7, "percent"), ("5 %", "10%")), ("", Q(3, "dimensionless"), ("2,5", "4 times")),
    ("dB", Q(-3, "dB"), ("-6 dB", "0 dB")), ("degC", Q(21, "degC"), ("20 °C", "25 °C"))])
def test_ratios_and_odd_units_are_read(hands, unit, truth, typed):
    widget = number_guess(NumberGuess("k", "?", unit, truth, "."))
    guess_range(hands, widget, *typed)
    assert "✓ Inside" in hands.text(widget)


@ANYTHING
@given(low=st.text(), high=st.text())
def test_any_text_is_answered_and_never_raises(hands, low, high):
    widget = number_guess(DROP)
    guess_range(hands, widget, low, high)
    assert re.search("Inside|Outside|Not yet", hands.text(widget))


def choose(hands, widget, text, sure):
    hands.radio(widget).value = text
    hands.find(widget, "How sure are you?").value = sure
    hands.press(widget, "Check my guess")


def test_each_wrong_choice_meets_its_own_answer(hands, store):
    widget = choice_guess(WHY, store=store)
    choose(hands, widget, "nowhere", 70)
    assert "✗ Not this one." in hands.text(widget) and "Look again." in hands.text(widget)
    assert "“into heat”" in hands.text(widget) and "Nothing is used up" not in hands.text(widget)
    entry = kept(store, group="choice", key="why")[0][0]
    assert (entry["choice"], entry["sure"], entry["right"]) == ("nowhere", 70, False)


def test_the_right_choice_is_told_so_with_the_explanation(hands):
    widget = choice_guess(WHY)
    choose(hands, widget, "into heat", 100)
    assert "✓ Right." in hands.text(widget) and "Energy is kept" in hands.text(widget)


def test_a_choice_is_escaped_and_survives_a_second_run(hands, store):
    choose(hands, choice_guess(WHY, store=store), "used up <b>inside</b>", 50)
    again = choice_guess(WHY, reveal=lambda: ipywidgets.HTML("the picture"), store=store)
    assert "used up &lt;b&gt;inside" in hands.text(again) and "<b>inside" not in hands.text(again)
    assert "50 % sure" in hands.text(again) and "the picture" in hands.text(again)


def test_choosing_nothing_or_no_confidence_is_told(hands, store):
    widget = choice_guess(WHY, store=store)
    hands.press(widget, "Check my guess")
    assert "choose one" in hands.text(widget)
    choose(hands, widget, "nowhere", 0)
    assert "how sure" in hands.text(widget) and not store.exists()
    assert hands.radio(widget).value == "nowhere"


def test_a_question_without_one_right_choice_is_refused():
    with pytest.raises(ValueError, match="why: exactly one"):
        ChoiceGuess("why", "?", (Choice("a", "no"), Choice("b", "no")))


def test_a_double_click_is_one_click(hands, monkeypatch):
    from benchreckoner.show import words
    monkeypatch.setattr(words, "_DOUBLE_CLICK", 60)
    widget = number_guess(DROP)
    hands.write(widget, "Lowest you believe", "0 V")
    hands.write(widget, "Highest you believe", "1 V")
    button = hands.find(widget, "Check my guess")
    button.click()
    button.click()
    assert "✓ Inside" in hands.text(widget)


DAMAGED = ["[[range", "version = 2\n", "version = 1\nrange = 3\n", "version = 1\n[range]\ndrop = [1]\n",
           "", "\x00", 'version = 1\n[range.drop]\nlowest = "1 V"\n']


@pytest.mark.parametrize("damage", DAMAGED)
def test_a_damaged_store_is_left_alone_and_a_fresh_one_begun(hands, store, damage):
    store.write_bytes(damage.encode("utf-8") + b"\xff" * (damage == ""))
    before = store.read_bytes()
    widget = number_guess(DROP, store=store)
    assert "demo.guesses.toml cannot be read" in hands.text(widget)
    guess_range(hands, widget, "0.5 V", "0.7 V")
    assert store.read_bytes() == before
    assert "demo.guesses.2.toml" in hands.text(widget)
    fresh = store.with_name("demo.guesses.2.toml")
    assert "0.5 V" in fresh.read_text(encoding="utf-8")
    assert "You guessed 0.5 V to 0.7 V" in hands.text(number_guess(DROP, store=store))
    fresh.write_text("broken too [", encoding="utf-8")
    keep(store, {"text": "x"}, group="sentences", key="k")
    assert store.with_name("demo.guesses.3.toml").exists()


def test_a_store_that_cannot_be_written_says_so_and_the_guess_stays(hands, tmp_path):
    (tmp_path / "folder").write_text("a file where a folder should be", encoding="utf-8")
    widget = number_guess(DROP, store=tmp_path / "folder" / "demo.guesses.toml")
    guess_range(hands, widget, "0.5 V", "0.7 V")
    assert "could not be" in hands.text(widget) and "✓ Inside" in hands.text(widget)


def test_a_save_cut_short_leaves_the_old_store(store, monkeypatch):
    keep(store, {"text": "first"}, group="sentences", key="k")
    before = store.read_bytes()

    def cut(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("os.replace", cut)
    with pytest.raises(KeyboardInterrupt):
        keep(store, {"text": "second"}, group="sentences", key="k")
    assert store.read_bytes() == before and list(store.parent.iterdir()) == [store]


def test_comments_in_the_store_stay(store):
    keep(store, {"text": "first"}, group="sentences", key="k")
    store.write_text("# my own remark\n" + store.read_text(encoding="utf-8"), encoding="utf-8")
    keep(store, {"text": "second"}, group="range", key="k.with dots")
    assert "# my own remark" in store.read_text(encoding="utf-8")


@ANYTHING
@given(rows=st.lists(st.tuples(st.sampled_from(["range", "choice", "sentences"]), st.text(min_size=1), st.text()),
                     min_size=1, max_size=6))
def test_whatever_is_kept_comes_back(tmp_path_factory, rows):
    path = tmp_path_factory.mktemp("kept") / "a.guesses.toml"
    for group, key, text in rows:
        assert keep(path, {"text": text}, group=group, key=key) == ""
    for group, key, _ in rows:
        assert [entry["text"] for entry in kept(path, group=group, key=key)[0]] == [
            text for other, name, text in rows if (other, name) == (group, key)]


def test_only_first_guesses_count(store):
    for inside in (False, True, True):
        keep(store, {"inside": inside}, group="range", key="drop")
    for sure, right in ((80, True), (100, False)):
        keep(store, {"sure": sure, "right": right}, group="choice", key="why")
    keep(store, {"sure": 80, "right": False}, group="choice", key="where")
    rate = hit_rate(store)
    assert (rate.ranges, rate.held) == (1, 0)
    assert rate.choices == ((80, 2, 1),)


def test_no_store_no_trouble():
    assert hit_rate(None).ranges == 0 and kept(None, group="range", key="k") == ([], "")


@pytest.mark.parametrize(("right", "told"), [("“It passes 0.2 A.”", "<strong>“It passes 0.2 A.”</strong>"), ("“Yes” or “no”.", "<strong>““Yes” or “no””</strong>")])
def test_a_choice_that_is_something_said_keeps_its_own_quotation_marks(hands, right, told):
    widget = choice_guess(ChoiceGuess("said", "What do you say?", (Choice("“It is dead.”", "No."), Choice(right, "", right=True))))
    choose(hands, widget, "“It is dead.”", 80)
    assert "You chose “It is dead.”, 80 % sure." in hands.text(widget) and told in hands.text(widget)
