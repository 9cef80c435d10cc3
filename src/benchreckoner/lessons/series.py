"""The live pictures of the whole series, for whatever shows them outside the books."""

from benchreckoner.lessons.across_load import ACROSS, IN_SERIES
from benchreckoner.lessons.adapter_lamps import ADAPTER, CHARGE
from benchreckoner.lessons.belt_off import SPLIT
from benchreckoner.lessons.belt_path import PATH
from benchreckoner.lessons.belt_pull import PULL
from benchreckoner.lessons.belt_rates_lesson import RATES
from benchreckoner.lessons.belt_years import YEARS
from benchreckoner.lessons.burnt_resistor import HEAT as RESISTOR_HEAT
from benchreckoner.lessons.capacitor_bench import LEAKY_STAGE, MOVED_CORNER
from benchreckoner.lessons.captioning import CAPTION_TIMES
from benchreckoner.lessons.cells import CELLS_TO_END, START_DIP
from benchreckoner.lessons.choose_belt import WINDOW
from benchreckoner.lessons.contact_resistance import HELD_VOLTS, own_held_volts
from benchreckoner.lessons.crackle import EVIDENCE, JUMPER
from benchreckoner.lessons.cured import FAILURE_LIMIT, PEEKING, WATCHED_TEST
from benchreckoner.lessons.decide_the_rest import LOT
from benchreckoner.lessons.film_letters import LETTERS
from benchreckoner.lessons.filming import FLICKER, FRAMES, GAIN
from benchreckoner.lessons.first_belt import NEXT
from benchreckoner.lessons.governor import SUPPLY
from benchreckoner.lessons.governor_centrifugal import CONTACTS
from benchreckoner.lessons.governor_response import JOLT
from benchreckoner.lessons.leakage_bench import CURRENT, KEPT, SOAKAGE
from benchreckoner.lessons.level_budget import LEVEL_CHAIN
from benchreckoner.lessons.lost_volts import TWO_OR_FOUR
from benchreckoner.lessons.motor_constants import MOTOR_LINES, SEEN_TURNING
from benchreckoner.lessons.motor_pattern import PATTERN
from benchreckoner.lessons.motor_verdicts import own_governor
from benchreckoner.lessons.one_contact import METER_THAT_MENDS, PRESS_HARDER, SPOT_AND_FILM
from benchreckoner.lessons.pass_transistor import HEAT as TRANSISTOR_HEAT
from benchreckoner.lessons.plate import PLATE, SPREADING
from benchreckoner.lessons.pluck_press import PRESS
from benchreckoner.lessons.reads_high import READS_HIGH
from benchreckoner.lessons.reads_high_own import own_reads_high
from benchreckoner.lessons.reforming import SHORT
from benchreckoner.lessons.signal_contacts import CONTACT_LOSS, DECIBELS, POTENTIOMETER, SHARED_RETURN
from benchreckoner.lessons.start_here import DIVIDER, PLUS_OR_MINUS
from benchreckoner.lessons.sure_and_right import SURE
from benchreckoner.lessons.tell_honestly import BEFORE_AFTER
from benchreckoner.lessons.tighter import TIGHTER
from benchreckoner.lessons.tin_of_faults import WHICH_RESISTOR
from benchreckoner.lessons.warming import COPPER_AND_MAGNET, TEN_MINUTES
from benchreckoner.lessons.warming_limits import HELD, REGULATION
from benchreckoner.lessons.workshop_lesson import EVENING

_BOOKS = {
    "Start here": (DIVIDER, PLUS_OR_MINUS),
    "Contact resistance": (
        HELD_VOLTS, TWO_OR_FOUR, SPOT_AND_FILM, PRESS_HARDER, METER_THAT_MENDS, DECIBELS, CONTACT_LOSS, POTENTIOMETER, SHARED_RETURN,
        LEVEL_CHAIN, JUMPER, EVIDENCE, FAILURE_LIMIT, PEEKING, WATCHED_TEST, WHICH_RESISTOR),
    "Capacitor leakage": (READS_HIGH, CURRENT, KEPT, SOAKAGE, LEAKY_STAGE, MOVED_CORNER, LOT, SHORT),
    "Belt loading": (PATH, PULL, YEARS, TIGHTER, WINDOW, NEXT, PRESS, RATES),
    "Motor current": (
        MOTOR_LINES, SEEN_TURNING, PATTERN, SPLIT, SUPPLY, JOLT, CONTACTS, TEN_MINUTES, COPPER_AND_MAGNET, REGULATION, HELD,
        CELLS_TO_END, START_DIP, CHARGE, ADAPTER, TRANSISTOR_HEAT, PLATE, SPREADING, RESISTOR_HEAT, ACROSS, IN_SERIES),
    "Tell it": (BEFORE_AFTER, CAPTION_TIMES, LETTERS, FLICKER, FRAMES, GAIN, EVENING, SURE),
}


def live_pictures():
    """Every live picture that needs no sheet, in the order of the books.

    Returns
    -------
    tuple of LivePicture
    """
    return tuple(picture for pictures in _BOOKS.values() for picture in pictures)


def book_of(key):
    """The book in which a live picture stands, or "" for one that no book has.

    >>> book_of("divider")
    'Start here'
    """
    return next((book for book, pictures in _BOOKS.items() if key in {picture.key for picture in pictures}), "")


def own_pictures(sheet):
    """The live pictures that a sheet's own readings make.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    tuple of (LivePicture, Reading or None)
        The reading is None where the picture has it as one of its own points. Those that the readings suffice for, perhaps none.
    """
    governor = own_governor(sheet)
    found = (own_held_volts(sheet), own_reads_high(sheet), None if governor is None else (governor, None))
    return tuple(own for own in found if own is not None)
