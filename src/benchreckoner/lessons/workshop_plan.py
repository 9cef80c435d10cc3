"""How a workshop's minutes are shared out, and which table sits where."""

from dataclasses import dataclass

STATION, CHANGE = 20, 2  # minutes
OPENING, LEAST_CLOSING = 10, 8


@dataclass(frozen=True)
class Turn:
    """One stretch of the evening; ``seats`` holds the station of each table, empty outside the rounds."""

    start: int
    end: int
    what: str
    seats: tuple[str, ...] = ()


def rounds_that_fit(*, minutes, stations, station=STATION, change=CHANGE):
    """How many stations each table can visit.

    Parameters
    ----------
    minutes : int
        From the first word to the last.
    stations : int
        How many there are: nobody visits one twice.
    station, change : int
        Minutes at a station, and for going to the next.

    Returns
    -------
    int
        0 where not even one fits.

    Notes
    -----
    n rounds take n times the station's minutes and n - 1 changes, beside opening and closing:
    n = (minutes - opening - closing + change) / (station + change), rounded down.

    Examples
    --------
    >>> rounds_that_fit(minutes=90, stations=4)
    3
    """
    return max(0, min(stations, (minutes - OPENING - LEAST_CLOSING + change) // (station + change)))


def least_minutes(*, rounds, station=STATION, change=CHANGE):
    """The shortest evening with so many rounds.

    Parameters
    ----------
    rounds, station, change : int
        Minutes, all but the first.

    Returns
    -------
    int

    Examples
    --------
    >>> least_minutes(rounds=4)
    104
    """
    return OPENING + LEAST_CLOSING + rounds * station + (rounds - 1) * change


def plan(*, minutes, tables, stations):
    """The evening from its first minute to its last.

    Parameters
    ----------
    minutes, tables : int
    stations : sequence of str

    Returns
    -------
    tuple of Turn

    Raises
    ------
    ValueError
        Where not one station fits.
    """
    rounds = rounds_that_fit(minutes=minutes, stations=len(stations))
    if not rounds:
        raise ValueError(f"{minutes} minutes are too few for one station, write {least_minutes(rounds=1)} or more")
    turns = [Turn(0, OPENING, "Welcome, and the cautions read out")]
    for number in range(rounds):
        if number:
            turns.append(Turn(turns[-1].end, turns[-1].end + CHANGE, "Change tables"))
        seats = tuple(stations[(table + number) % len(stations)] for table in range(tables))
        turns.append(Turn(turns[-1].end, turns[-1].end + STATION, f"Round {number + 1}", seats))
    turns.append(Turn(turns[-1].end, minutes, "Each table tells one thing it found, and how sure it is"))
    return tuple(turns)


def visits(turns, table):
    """The stations of one table in the order it visits them.

    Parameters
    ----------
    turns : sequence of Turn
    table : int
        Counted from 0.

    Returns
    -------
    tuple of str
    """
    return tuple(turn.seats[table] for turn in turns if turn.seats)


def kits(turns, station):
    """How many sets of one station are needed at once.

    Parameters
    ----------
    turns : sequence of Turn
    station : str

    Returns
    -------
    int
    """
    return max(turn.seats.count(station) for turn in turns)
