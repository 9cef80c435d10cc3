"""The time that reading takes."""

import pytest

from benchreckoner.physics.reading import reading_time


def test_twice_the_words_take_twice_the_time():
    assert reading_time(words=8).m_as("s") == pytest.approx(2 * reading_time(words=4).m_as("s"))


def test_it_asks_for_less_speed_than_the_guideline_advises_at_most():
    """180 words a minute, advised at most by the same source, take 0.333 s each: speech at that rate is never hurried."""
    assert reading_time(words=180).m_as("min") < 1


@pytest.mark.parametrize(("words", "error"), [(-1, ValueError), (2.5, TypeError)])
def test_nonsense_is_refused(words, error):
    with pytest.raises(error, match="words"):
        reading_time(words=words)
