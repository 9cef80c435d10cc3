"""How long a caption must stand, so that it can be read beside the picture."""

from benchreckoner.physics.plain import count
from benchreckoner.units import Q

WORD_SECONDS = 0.3  # least time for each word


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
