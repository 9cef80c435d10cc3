"""The tin of faults: which resistor imitates a bad contact, what it must stand, what a participant should read."""

from dataclasses import dataclass

from benchreckoner.bench.accuracy import entry_for
from benchreckoner.bench.limits import band_for
from benchreckoner.bench.repair import Instrument, Part
from benchreckoner.bench.uncertain import Known, one_reading, propagate, within
from benchreckoner.physics.contacts import (contact_resistance, resistance_from_loss, starting_torque_ratio,
                                            voltage_drop)
from benchreckoner.physics.preferred import preferred_neighbours
from benchreckoner.physics.signal import series_loss
from benchreckoner.physics.supply import series_resistor
from benchreckoner.units import Q, Typed

SPRING, SWITCH, WIPER = "bad spring", "dirty switch", "worn wiper"
TOLERANCE = 0.05  # of the usual carbon or metal film resistor
RATINGS = (0.25, 0.5, 1, 2, 5, 10, 20)  # watts, as sold
RESERVE = 2.0  # common practice: twice the watts it must stand
# The kind and reading whose band says how much a sound one may have.
_SOUND = {SPRING: ("supply contact", "resistance"), SWITCH: ("signal switch", "resistance"),
          WIPER: ("potentiometer", "wiper resistance")}


@dataclass(frozen=True)
class Host:
    """The host's machine, meter and wishes.

    ``rest`` is everything in the loop while the motor is held, None if nobody
    read it. ``leads`` is the meter's lead loop. ``share`` is of the track.
    ``counts`` is how many steps the meter's display has on each range: the last
    digit is the range divided by it, where the meter's limits name the range.
    """

    supply: Q
    current: Known
    rest: Q | None
    volts: Q
    load: Q
    loss: Q
    track: Q
    share: float
    tolerance: float
    volts_meter: Instrument
    ohms_meter: Instrument
    leads: Known
    counts: int = 2000


@dataclass(frozen=True)
class Imitation:
    """One resistor for the tin.

    ``effect`` is what it does: volts lost, decibels lost, or a plain share of
    the track. ``reading`` is what the host's meter shows on it, ``sound`` what
    it shows on a contact that is just sound. ``rating`` is None where none that
    is sold stands the worst case. ``pull`` is the share of the starting pull
    left, None where it has nothing to do with a motor or nobody read it held.
    """

    fault: str
    resistance: Q
    wished: Q
    effect: Known
    power: Q
    rating: Q | None
    reading: Known
    sound: Known
    pull: float | None = None

    @property
    def told_apart(self):
        """Whether the host's meter tells it from a sound contact."""
        return self.reading.lies_above(self.sound)


def imitations(host):
    """The E12 resistors on both sides of each wished fault; one where the wish is on the series.

    Parameters
    ----------
    host : Host

    Returns
    -------
    tuple of Imitation
        Springs, then switches, then wipers, the milder first.
    """
    exact = {SPRING: contact_resistance(voltage_drop=host.volts, current=host.current.value),
             SWITCH: resistance_from_loss(load_resistance=host.load, loss=host.loss),
             WIPER: (host.share * host.track).to("ohm")}
    made = {SPRING: _spring, SWITCH: _switch, WIPER: _wiper}
    return tuple(made[fault](host, resistance) for fault, ohms in exact.items() for resistance in _both(ohms))


def worst_case(*, resistance, supply, rest):
    """The watts a resistor must stand at worst, and the rating to buy.

    Parameters
    ----------
    resistance : Quantity [ohm]
    supply : Quantity [V]
    rest : Quantity [ohm]
        Everything else in the loop at its least: with a motor, when it is held.

    Returns
    -------
    power : Quantity [W]
    rating : Quantity [W] or None
        With the reserve of common practice; None where none that is sold has it.
    """
    _, power = series_resistor(resistance=resistance, supply=supply, other_resistance=rest)
    wanted = RESERVE * power.m_as("W")
    return power, next((Q(one, "W") for one in RATINGS if one >= wanted), None)


def drop_across(*, resistance, tolerance, current):
    """Volts that a resistor takes, with its tolerance and what is known of the current.

    Parameters
    ----------
    resistance : Quantity [ohm]
    tolerance : float
    current : Known

    Returns
    -------
    Known
    """
    return propagate(voltage_drop, "V", current=current, contact_resistance=within(resistance, tolerance, "ohm"))


def _spring(host, resistance):
    power, rating = worst_case(resistance=resistance, supply=host.supply, rest=host.rest if host.rest is not None else Q(0, "ohm"))
    effect = drop_across(resistance=resistance, tolerance=host.tolerance, current=host.current)
    sound = Known(_sound_ohms(SPRING) * host.current.number, "V")
    pull = None if host.rest is None else float(starting_torque_ratio(
        source_resistance=Q(0, "ohm"), motor_resistance=host.rest, contact_resistance=resistance))
    return Imitation(SPRING, resistance, host.volts, effect, power, rating,
                     *(_as_read(host, one, "voltage drop", host.volts_meter) for one in (effect, sound)), pull)


def _switch(host, resistance):
    """At worst the output hangs on one side of the supply: the whole of it across switch and load."""
    power, rating = worst_case(resistance=resistance, supply=host.supply, rest=host.load)
    ohms = within(resistance, host.tolerance, "ohm")
    effect = propagate(lambda series: -series_loss(load_resistance=host.load, series_resistance=series), "dB", series=ohms)
    return Imitation(SWITCH, resistance, host.loss, effect, power, rating,
                     *_two_wire(host, ohms, Known(_sound_ohms(SWITCH), "ohm")))


def _wiper(host, resistance):
    """Turned to the stop, the control's own wiper is in the reading: anything that a sound one may have."""
    power, rating = worst_case(resistance=resistance, supply=host.supply, rest=Q(0, "ohm"))
    ohms, track = within(resistance, host.tolerance, "ohm"), host.track.m_as("ohm")
    most = _sound_ohms(WIPER, track=host.track)
    effect = Known(ohms.number / track, "")
    return Imitation(WIPER, resistance, Q(host.share, ""), effect, power, rating,
                     *_two_wire(host, ohms + within(Q(most / 2, "ohm"), 1.0, "ohm"), Known(most, "ohm")))


def _two_wire(host, *ohms):
    """What the host's ohmmeter shows of each, its leads included."""
    return (_as_read(host, one + host.leads, "resistance", host.ohms_meter) for one in ohms)


def _as_read(host, expected, quantity, meter):
    """An expected value with the meter's own error on top."""
    entry = entry_for(meter.accuracy, quantity=quantity, value=expected.value, name=meter.name)
    half_digit = entry.up_to / (2 * host.counts) if entry.up_to is not None else Q(0, expected.unit)
    read = one_reading(Typed(expected.value, half_digit), quantity=quantity, instrument=meter)
    return expected + Known(read.number - read.plain, expected.unit)


def _sound_ohms(fault, **track):
    kind, quantity = _SOUND[fault]
    return float(band_for(Part("", kind, {}, None, ""), quantity=quantity, **track).sound_up_to.m_as("ohm"))


def _both(ohms):
    below, above = preferred_neighbours(value=ohms)
    return (below,) if below == above else (below, above)
