"""How long a caption or a sentence must stand, so that it can be read beside the picture."""

from benchreckoner.physics.plain import count
from benchreckoner.units import Q

WORD_SECONDS = 0.3  # least time for each word
LETTERS_A_SECOND, READY = 15.0, 1.0  # read at ease; s until the eye has found the words
_LEAST_STANDING = 3.0  # s


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
