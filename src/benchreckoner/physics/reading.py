"""How long a caption or a sentence must stand, so that it can be read beside the picture."""

from benchreckoner.physics.plain import count
from benchreckoner.units import Q, need

WORD_SECONDS = 0.3  # least time for each word
LETTERS_A_SECOND, READY = 15.0, 1.0  # read at ease; s until the eye has found the words
_LEAST_STANDING = 3.0  # s
LONGEST_STAY = 1.5  # s after the voice has stopped; a silence no longer than this gets no gap
LEAST_GAP = 1.0  # s between two captions, if there is any


def reading_time(*, words):
    r"""How long a caption should stand at least.

    Parameters
    ----------
    words : int
        In the caption.

    Returns
    -------
    Quantity [s]

    Notes
    -----
    .. math:: t = 0.3\,\mathrm{s} \times n

    For speech of up to some 180 words a minute. Long figures and unknown words need more, and what happens in the picture needs
    time too.

    References
    ----------
    .. [1] BBC, Subtitle Guidelines, 4.1, read in an open copy. FOUND.

    Examples
    --------
    >>> print(f"{reading_time(words=10):.1f~P}")
    3.0 s
    """
    return Q(WORD_SECONDS * count(words, "words"), "s")


def caption_stay(*, words, voice, silence):
    r"""How long a caption stands that comes with its voice and has another one after it.

    Parameters
    ----------
    words : int
        In the caption.
    voice : Quantity [s], zero or more
        How long they take to say.
    silence : Quantity [s], zero or more
        From the end of the voice to the next caption.

    Returns
    -------
    Quantity [s]

    Notes
    -----
    A silence of 1.5 s or less is bridged: the caption stays until the next one. In a longer one it goes with its voice, or
    later if its words need that, but no later than 1.5 s after the voice, and so that the screen is empty for 1 s at least:

    .. math:: t = \max(v,\ \min(0.3\,\mathrm{s}\, n,\ v + 1.5\,\mathrm{s},\ v + s - 1\,\mathrm{s}))

    References
    ----------
    .. [1] BBC, Subtitle Guidelines, 4.1, 4.5 and 5.2, read in an open copy. FOUND. That a silence is bridged up to the same 1.5 s
       is our own choice.

    Examples
    --------
    >>> print(f"{caption_stay(words=10, voice=Q(2.4, 's'), silence=Q(3, 's')):.1f~P}")
    3.0 s
    """
    voice = need(voice, "s", "voice", least=0).m_as("s")
    silence = need(silence, "s", "silence", least=0).m_as("s")
    if silence <= LONGEST_STAY:
        return Q(voice + silence, "s")
    wanted, empty = reading_time(words=words).m_as("s"), voice + silence - LEAST_GAP
    return Q(max(voice, min(wanted, voice + LONGEST_STAY, empty)), "s")


def standing_time(*, letters):
    r"""How long a clip stops at a sentence that stands beside its picture.

    Parameters
    ----------
    letters : int
        In the sentence, spaces counted.

    Returns
    -------
    Quantity [s]

    Notes
    -----
    .. math:: t = \max(3\,\mathrm{s},\ 1\,\mathrm{s} + n / 15\,\mathrm{s^{-1}})

    A second for the eye to come over from the curve, then at ease. For words that nobody speaks.

    References
    ----------
    .. [1] Common practice. PRACTICE.

    Examples
    --------
    >>> print(f"{standing_time(letters=90):.1f~P}")
    7.0 s
    """
    return Q(max(_LEAST_STANDING, READY + count(letters, "letters") / LETTERS_A_SECOND), "s")
