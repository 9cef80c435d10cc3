"""The live pictures of the whole series, for whatever shows them outside the books."""

from benchreckoner.lessons.contact_resistance import HELD_VOLTS, own_held_volts
from benchreckoner.lessons.level_budget import LEVEL_CHAIN
from benchreckoner.lessons.lost_volts import TWO_OR_FOUR
from benchreckoner.lessons.signal_contacts import CONTACT_LOSS, DECIBELS, POTENTIOMETER, SHARED_RETURN
from benchreckoner.lessons.start_here import DIVIDER, PLUS_OR_MINUS


def live_pictures():
    """Every live picture that needs no sheet, in the order of the books.

    Returns
    -------
    tuple of LivePicture
    """
    return (DIVIDER, PLUS_OR_MINUS, HELD_VOLTS, TWO_OR_FOUR, DECIBELS, CONTACT_LOSS, POTENTIOMETER, SHARED_RETURN, LEVEL_CHAIN)


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
