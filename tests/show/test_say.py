"""Say it: four checks, each with its nudge; the sentences are kept."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchreckoner.show.say import SayChecks, look_through, say_it
from benchreckoner.show.store import kept
from benchreckoner.units import Q

CHECKS = SayChecks(("spring 3", "contact"), ((Q(184, "mV"), "V"), (Q(0.6, "ohm"), "ohm")))
AREA = "Your sentences"
OURS = "Spring <3> loses 184 mV."


def met(text):
    return {name for name, good, _ in look_through(text, CHECKS) if good}


def nudges(text):
    return {name: sentence for name, good, sentence in look_through(text, CHECKS) if not good}


@pytest.mark.parametrize("text", [
    "Spring 3 drops 184 mV.", "SPRING 3: 0,18 V", "the contact has 0.6 ohm", "a contact of 600 mΩ",
    "Spring 3 has 0R60.", "Contact: 184 ± 2 mV", "contact between 0.5 and 0.6 ohm", "I measured the contact",
    "The meter read it at spring 3."])
def test_what_and_how_known_are_seen(text):
    assert {"What", "How known"} <= met(text)


@pytest.mark.parametrize("text", ["Spring 3 drops 500 mV.", "Spring 3 is 0.6 long.", "contact 184 A", "contact 184"])
def test_a_wrong_or_bare_number_is_no_proof(text):
    assert "How known" not in met(text)


def test_one_breath_is_counted_sentence_by_sentence_where_it_matters():
    assert "One breath" not in {name for name, _, _ in look_through("a b c d.", CHECKS)}
    short = SayChecks(("spring 3",), (), most_words=4)
    told = {text: {name: (good, words) for name, good, words in look_through(text, short)}["One breath"]
            for text in ("a b c d. e f 0.5 V", "a b. c d e f g; h", "")}
    assert told["a b c d. e f 0.5 V"][0] and told[""][0]
    assert told["a b. c d e f g; h"] == (False, "one sentence has 5 words; make two of it, of 4 at most.")


@pytest.mark.parametrize("text", ["about 2", "± 5 mV", "at least this", "95 % of the time", "I am fairly sure"])
def test_how_sure_is_seen(text):
    assert "How sure" in met(text)


@pytest.mark.parametrize("text", ["I have not tried", "it’s only one", "I can’t tell", "still unmeasured", "nothing else"])
def test_what_not_is_seen(text):
    assert "What not" in met(text)


@pytest.mark.parametrize("text, name", [
    ("springs 31 everywhere", "What"), ("already ready", "How known"), ("surely", "How sure"),
    ("a note, a knot", "What not")])
def test_a_word_inside_another_does_not_count(text, name):
    assert name not in met(text)


def test_each_nudge_is_one_line_and_shows_what_to_write():
    told = nudges("Hm.")
    assert set(told) == {"What", "How known", "How sure", "What not"}
    assert "spring 3" in told["What"] and "184 mV" in told["How known"]
    assert "±" in told["How sure"] and "not measured" in told["What not"]
    assert not any("\n" in sentence for sentence in told.values())


@given(text=st.text())
def test_any_text_never_raises(text):
    assert len(look_through(text, CHECKS)) == 4


def say(hands, widget, text):
    hands.write(widget, AREA, text)
    hands.press(widget, "Check my sentences")


def test_ours_come_only_after_a_check_and_are_escaped(hands):
    made = []
    widget = say_it("k", "Say it.", ours=lambda: made.append(1) or OURS, checks=CHECKS)
    assert "Show ours" not in hands.labels(widget)
    hands.press(widget, "Check my sentences")
    assert "Nothing written yet" in hands.text(widget) and "Show ours" not in hands.labels(widget)
    say(hands, widget, "It is broken.")
    assert "still to add" in hands.text(widget) and not made
    hands.press(widget, "Show ours")
    assert "Spring &lt;3&gt; loses" in hands.text(widget)


def test_the_sentences_are_kept_and_come_back(hands, tmp_path):
    store = tmp_path / "demo.guesses.toml"
    widget = say_it("k", "Say it.", ours=OURS, checks=CHECKS, store=store)
    say(hands, widget, "Spring 3 <b>drops 184 mV</b>.")
    say(hands, widget, "Spring 3 <b>drops 184 mV</b>.")
    assert "<b>drops" not in hands.text(widget)
    say(hands, widget, "Not sure yet.")
    assert [entry["text"] for entry in kept(store, group="sentences", key="k")[0]] == [
        "Spring 3 <b>drops 184 mV</b>.", "Not sure yet."]
    again = say_it("k", "Say it.", ours=OURS, checks=CHECKS, store=store)
    assert hands.find(again, AREA).value == "Not sure yet."


def test_a_damaged_store_is_told_of(hands, tmp_path):
    store = tmp_path / "demo.guesses.toml"
    store.write_text("[", encoding="utf-8")
    widget = say_it("k", "Say it.", ours=OURS, checks=CHECKS, store=store)
    say(hands, widget, "Spring 3.")
    assert "demo.guesses.2.toml" in hands.text(widget) and store.read_text(encoding="utf-8") == "["


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40, deadline=None)
@given(text=st.text())
def test_any_sentences_are_answered(hands, text):
    widget = say_it("k", "Say it.", ours=OURS, checks=CHECKS)
    say(hands, widget, text)
    assert "still to add" in hands.text(widget) or "Nothing written yet" in hands.text(widget)
