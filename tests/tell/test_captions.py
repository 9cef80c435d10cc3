"""Captions: what a reader can follow, what a player can load, and times that never cross."""

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.tell.captions import (HEIGHT, UPRIGHT_HEIGHT, UPRIGHT_WIDTH, WIDTH, Cue, Spoken, break_lines, chapter_cues, cues,
                                         sentences, syllables, timestamp, vtt)

LONG = "Spring 3 took 184 mV ± 2 mV as found, and after cleaning it took 3.1 mV, so the missing tenth of a volt was there and nowhere else."
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc", "Zs", "Zl", "Zp")), min_size=1, max_size=60)
TEXTS = st.lists(WORDS, min_size=1, max_size=30).map(" ".join)


@st.composite
def said(draw):
    """Sentences one after the other, with and without silence between."""
    here, found = draw(st.floats(0, 5)), []
    for text in draw(st.lists(TEXTS, min_size=1, max_size=6)):
        length = draw(st.floats(0.2, 20))
        found.append(Spoken(text, here, here + length))
        here += length + draw(st.sampled_from([0, 0, 0.3, 1.0, 1.5, 1.6, 4.0]))
    return found


@given(TEXTS, st.sampled_from([(WIDTH, HEIGHT), (UPRIGHT_WIDTH, UPRIGHT_HEIGHT)]))
def test_no_line_is_too_long_and_no_letter_is_lost(text, size):
    captions = break_lines(text, width=size[0], height=size[1])
    assert all(0 < len(line) <= size[0] for lines in captions for line in lines)
    assert all(1 <= len(lines) <= size[1] for lines in captions)
    assert "".join("".join("".join(line.split()) for line in lines) for lines in captions) == "".join(text.split())


def test_a_sentence_breaks_at_its_commas():
    assert break_lines(LONG) == (("Spring 3 took 184 mV ± 2 mV as found,", "and after cleaning it took 3.1 mV,"),
                                 ("so the missing tenth of a volt", "was there and nowhere else."))


def test_two_words_are_no_caption_by_themselves():
    text = "As found, the series resistance of C4 came to about 3.4 ohms, give or take 0.23."
    assert min(len(" ".join(lines).split()) for lines in break_lines(text)) > 3
    assert break_lines("As found, its trouble was: slow, and the speed falls with the tape's drag.") == (
        ("As found, its trouble was:",), ("slow, and the speed falls", "with the tape's drag."))


@pytest.mark.parametrize("width", range(13, 40))
def test_a_value_stays_with_its_unit(width):
    lines = [line for caption in break_lines(LONG, width=width) for line in caption]
    assert not any(re.search(r"(\d|±)$", line.rstrip(".,")) and not line.endswith("Spring 3") for line in lines)
    assert any("3.1 mV" in line for line in lines) and any("184 mV ± 2 mV" in line for line in lines)


def test_no_line_ends_in_an_article_where_another_break_is_free():
    lines = break_lines("We measured the drop across every spring in the whole battery box of this old machine.")
    assert not any(re.search(r"\b(the|of|a|in|this)$", line) for caption in lines for line in caption)


@given(said())
def test_captions_never_cross_and_gaps_are_none_or_a_second(spoken):
    shown = cues(spoken)
    for first, second in pairwise(shown):
        gap = second.start - first.end
        assert abs(gap) < 1e-6 or gap >= 1 - 1e-6
    ends = {sentence.end for sentence in spoken}
    assert all(cue.end >= cue.start and min(abs(cue.end - end) for end in ends) < 21 for cue in shown)


@given(said())
def test_a_caption_comes_with_its_voice_and_goes_soon_after(spoken):
    shown = iter(cues(spoken))
    for sentence in spoken:
        own = [next(shown) for _ in break_lines(sentence.text)]
        assert own[0].start == sentence.start
        assert sentence.end - 1e-6 <= own[-1].end <= sentence.end + 1.5 + 1e-6


def test_a_short_sentence_stays_for_its_words():
    """Ten words want 3 s. The voice took 2 s; then it is silent for long."""
    first, second = cues([Spoken("One two three four five six seven eight nine ten.", 0, 2), Spoken("On.", 10, 11)], width=80)
    assert first.end == pytest.approx(3.0) and second.start == 10


@pytest.mark.parametrize(("silence", "goes"), [(0.4, 2.4), (1.5, 3.5), (1.6, 2.6), (2.2, 3.2), (6.0, 3.5)])
def test_silences_are_closed_or_left_open(silence, goes):
    """Fourteen words want 4.2 s and have 2. Up to 1.5 s a silence is closed; a longer one keeps a gap of 1 s at least."""
    text = "One two three four five six seven eight nine ten and two more words."
    first, _ = (cue for cue in cues([Spoken(text, 0, 2), Spoken("On.", 2 + silence, 9)], width=80))
    assert first.end == pytest.approx(goes)


def test_a_caption_borrows_time_within_its_sentence():
    """Ten short words want 3 s and are a third of the syllables of 6 s; the long words beside them have time to spare."""
    text = "We put it in and it ran as it did, notwithstanding incomprehensibly oxidised intermediary potentiometers."
    first, second = cues([Spoken(text, 1, 7)], width=80, height=1)
    assert len(first.lines[0].split()) == 10 and (first.start, second.end) == (1, 7)
    assert first.end == second.start == pytest.approx(4.0)
    assert not first.hurried and not second.hurried
    spoken = [syllables(" ".join(cue.lines)) for cue in (first, second)]
    assert 6 * spoken[0] / sum(spoken) < 2.9, "by its syllables it would have been too short"


def test_where_nothing_can_be_spared_time_is_shared_by_syllables():
    text = "We put it in and it ran as it did, notwithstanding incomprehensibly oxidised intermediary potentiometers."
    first, second = cues([Spoken(text, 1, 3)], width=80, height=1)
    spoken = [syllables(" ".join(cue.lines)) for cue in (first, second)]
    assert first.end - first.start == pytest.approx(2 * spoken[0] / sum(spoken)) and first.hurried


def test_a_rushed_caption_is_told():
    text = "One two three four five six seven eight nine ten."
    assert Cue(0, 2, (text,)).hurried and not Cue(0, 3, (text,)).hurried


def test_markup_is_shown_and_arrows_are_no_times():
    text = vtt([Cue(0, 2, ("<b>R7</b> & C4 --> 5 V",))], notes=["kept --> so"])
    assert "&lt;b&gt;R7&lt;/b&gt; &amp; C4 --&gt; 5 V" in text
    assert text.count("-->") == 1 and text.startswith("WEBVTT\n\nNOTE\n")


@given(st.lists(st.text(st.sampled_from("a -->\n\r\u2028"), max_size=30), max_size=4))
def test_a_note_cannot_become_a_caption(notes):
    text = vtt([Cue(0, 1, ("On.",))], notes=notes)
    blocks = re.split(r"\r\n\r\n|\n\n|\r\r", text.strip())
    assert text.count("-->") == 1 and len(blocks) == 2 + len(notes)


@given(st.floats(0, 360000))
def test_times_read_back(seconds):
    found = re.fullmatch(r"(\d\d+):([0-5]\d):([0-5]\d\.\d{3})", timestamp(seconds))
    assert int(found[1]) * 3600 + int(found[2]) * 60 + float(found[3]) == pytest.approx(seconds, abs=6e-4)


def test_chapters_run_from_first_sentence_to_first_sentence():
    spoken = [Spoken("One.", 0, 2, "Wrong"), Spoken("Two.", 2, 5, "Wrong"), Spoken("Three.", 6, 9, "Done")]
    assert chapter_cues(spoken) == (Cue(0, 6, ("Wrong",)), Cue(6, 9, ("Done",)))
    assert chapter_cues([]) == ()


def test_a_bridged_silence_leaves_no_gap_of_a_rounding():
    """0.1 + ((1.0 - 0.1) + (1.3 - 1.0)) is not quite 1.3."""
    first, second = cues((Spoken("One.", 0.1, 1.0), Spoken("Two.", 1.3, 2.2)))
    assert first.end == second.start == 1.3


def test_sentences_and_syllables():
    assert sentences("  It took 3.1 mV.  “Why?” he said. No! ") == ("It took 3.1 mV.", "“Why?”", "he said.", "No!")
    assert sentences("") == ()
    counted = {"cat": 1, "battery": 3, "table": 2, "184": 6, "mV": 2, "V": 2, "Hz": 2, "It": 1, "I": 1, "a": 1, "We": 1, "kΩ.": 2}
    assert {word: syllables(word) for word in counted} == counted
