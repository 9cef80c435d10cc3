"""The time that reading takes."""

import pytest

from benchreckoner.physics.reading import reading_time, standing_time


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
