"""The live pictures of the whole series, for whatever shows them outside the books."""

from benchreckoner.lessons.capacitor_bench import LEAKY_STAGE, MOVED_CORNER
from benchreckoner.lessons.contact_resistance import HELD_VOLTS, own_held_volts
from benchreckoner.lessons.crackle import EVIDENCE, JUMPER
from benchreckoner.lessons.cured import FAILURE_LIMIT, PEEKING, WATCHED_TEST
from benchreckoner.lessons.decide_the_rest import LOT
from benchreckoner.lessons.leakage_bench import CURRENT, KEPT, SOAKAGE
from benchreckoner.lessons.level_budget import LEVEL_CHAIN
from benchreckoner.lessons.lost_volts import TWO_OR_FOUR
from benchreckoner.lessons.one_contact import METER_THAT_MENDS, PRESS_HARDER, SPOT_AND_FILM
from benchreckoner.lessons.reads_high import READS_HIGH
from benchreckoner.lessons.reforming import SHORT
from benchreckoner.lessons.signal_contacts import CONTACT_LOSS, DECIBELS, POTENTIOMETER, SHARED_RETURN
from benchreckoner.lessons.start_here import DIVIDER, PLUS_OR_MINUS
from benchreckoner.lessons.tin_of_faults import WHICH_RESISTOR


def live_pictures():
    """Every live picture that needs no sheet, in the order of the books.

    Returns
    -------
    tuple of LivePicture
    """
    return (DIVIDER, PLUS_OR_MINUS, HELD_VOLTS, TWO_OR_FOUR, SPOT_AND_FILM, PRESS_HARDER, METER_THAT_MENDS, DECIBELS,
            CONTACT_LOSS, POTENTIOMETER, SHARED_RETURN, LEVEL_CHAIN, JUMPER, EVIDENCE, FAILURE_LIMIT, PEEKING, WATCHED_TEST,
            WHICH_RESISTOR, READS_HIGH, CURRENT, KEPT, SOAKAGE, LEAKY_STAGE, MOVED_CORNER, LOT, SHORT)


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
