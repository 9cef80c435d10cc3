"""The time that reading takes."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from benchreckoner.physics.reading import caption_stay, reading_time, standing_time
from benchreckoner.units import Q


def test_twice_the_words_take_twice_the_time():
    assert reading_time(words=8).m_as("s") == pytest.approx(2 * reading_time(words=4).m_as("s"))


def test_it_asks_for_less_speed_than_the_guideline_advises_at_most():
    """180 words a minute, advised at most by the same source, take 0.333 s each: speech at that rate is never hurried."""
    assert reading_time(words=180).m_as("min") < 1


@pytest.mark.parametrize(("words", "error"), [(-1, ValueError), (2.5, TypeError)])
def test_nonsense_is_refused(words, error):
    with pytest.raises(error, match="words"):
        reading_time(words=words)


def test_a_sentence_stands_three_seconds_at_least_and_grows_by_its_letters():
    assert standing_time(letters=0).m_as("s") == standing_time(letters=30).m_as("s") == 3
    assert (standing_time(letters=75) - standing_time(letters=45)).m_as("s") == pytest.approx(2)


def test_a_sentence_is_given_no_less_time_than_a_caption_of_as_many_words():
    """Words of an English text take about six letters with their space: 15 a second are 0.4 s a word, above the caption's 0.3 s."""
    for words in range(1, 60):
        assert standing_time(letters=6 * words) >= reading_time(words=words)


@given(words=some.integers(0, 30), voice=some.floats(0, 10), silence=some.floats(0, 10))
def test_a_caption_never_goes_before_its_voice_and_never_flashes(words, voice, silence):
    """What the guideline asks: gone 1.5 s after the voice at the latest where there is a gap, and a gap of a second at least or none."""
    stay = caption_stay(words=words, voice=Q(voice, "s"), silence=Q(silence, "s")).m_as("s")
    gap = voice + silence - stay
    assert stay >= voice - 1e-9 and stay <= voice + 1.5 + 1e-9
    assert abs(gap) < 1e-9 or gap >= 1 - 1e-9
    if silence > 2.5:
        assert stay == pytest.approx(min(max(voice, 0.3 * words), voice + 1.5))


@pytest.mark.parametrize("wrong", [{"words": -1}, {"voice": Q(-1, "s")}, {"silence": Q(1, "V")}])
def test_a_caption_s_nonsense_is_named(wrong):
    with pytest.raises(ValueError, match=next(iter(wrong))):
        caption_stay(**{"words": 4, "voice": Q(2, "s"), "silence": Q(3, "s"), **wrong})
