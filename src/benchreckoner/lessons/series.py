"""The live pictures of the whole series, for whatever shows them outside the books."""

from benchreckoner.lessons.contact_resistance import HELD_VOLTS, own_held_volts
from benchreckoner.lessons.start_here import DIVIDER, PLUS_OR_MINUS


def live_pictures():
    """Every live picture that needs no sheet, in the order of the books.

    Returns
    -------
    tuple of LivePicture
    """
    return (DIVIDER, PLUS_OR_MINUS, HELD_VOLTS)


def own_pictures(sheet):
    """The live pictures that a sheet's own readings make.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of (LivePicture, Reading)
        Those that the readings suffice for, perhaps none.
    """
    found = (own_held_volts(sheet),)
    return tuple(own for own in found if own is not None)
