"""Signal paths: what contacts, loads, potentiometers and shared returns do to a signal."""

import numpy as np

from benchreckoner.physics.levels import decibels
from benchreckoner.physics.plain import share
from benchreckoner.units import Q, need


def series_loss(*, load_resistance, series_resistance):
    r"""Level left for a load behind resistance in series: a contact, or the source's own.

    Parameters
    ----------
    load_resistance : Quantity [ohm], above zero
        Loudspeaker, headphone or the input of the next stage.
    series_resistance : Quantity [ohm], zero or more

    Returns
    -------
    Quantity [dB]
        Zero or below.

    Notes
    -----
    .. math:: \Delta L = 20 \log_{10} \frac{R_L}{R_L + R_c}

    For a source that holds its voltage. A loudspeaker's impedance changes
    with frequency, and the loss changes with it.

    References
    ----------
    .. [1] Voltage divider, formula F20; check values D1, D2 and D4, RECOMPUTED.

    Examples
    --------
    >>> loss = series_loss(load_resistance=Q(8, "ohm"), series_resistance=Q(1, "ohm"))
    >>> print(f"{loss:.2f~P}")
    -1.02 dB
    """
    load_resistance = need(load_resistance, "ohm", "load_resistance", above=0)
    series_resistance = need(series_resistance, "ohm", "series_resistance", least=0)
    return decibels(ratio=(load_resistance / (load_resistance + series_resistance)).m_as(""))


def coupling_loss(*, capacitance, resistance, frequency):
    r"""Level left behind a coupling capacitor at one frequency.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    resistance : Quantity [ohm], above zero
        What the capacitor works into: source and load added.
    frequency : Quantity [Hz], above zero

    Returns
    -------
    Quantity [dB]
        Zero or below; about -3.01 dB at the corner.

    Notes
    -----
    .. math:: \Delta L = -10 \log_{10}\left(1 + \frac{1}{(2 \pi f R C)^2}\right)

    For a capacitor without loss or leakage. This is the loss against the same
    circuit with a capacitor that is far too large.

    References
    ----------
    .. [1] First-order high-pass; check value C15 (capacitors).

    Examples
    --------
    >>> loss = coupling_loss(capacitance=Q(470, "uF"), resistance=Q(8, "ohm"), frequency=Q(42.328, "Hz"))
    >>> print(f"{loss:.2f~P}")
    -3.01 dB
    """
    capacitance = need(capacitance, "F", "capacitance", above=0)
    resistance = need(resistance, "ohm", "resistance", above=0)
    frequency = need(frequency, "Hz", "frequency", above=0)
    turns = (2 * np.pi * frequency * resistance * capacitance).m_as("")
    return decibels(ratio=turns / np.hypot(turns, 1))


def damping_factor(*, load_resistance, source_resistance, contact_resistance=Q(0, "ohm")):
    r"""How many times a loudspeaker's ohms are those of what drives it.

    Parameters
    ----------
    load_resistance : Quantity [ohm], above zero
        The loudspeaker's nominal impedance.
    source_resistance : Quantity [ohm], above zero
        At the amplifier's output.
    contact_resistance : Quantity [ohm], zero or more
        Contacts and wire on the way there and back.

    Returns
    -------
    float or array

    Notes
    -----
    .. math:: D = R_L / (R_s + R_c)

    The voice coil's own ohms are in the same loop and are usually most of it,
    so a large factor shrinks long before anybody can hear it.

    References
    ----------
    .. [1] Definition; check value D5, RECOMPUTED.

    Examples
    --------
    >>> print(f"{damping_factor(load_resistance=Q(8, 'ohm'), source_resistance=Q(0.05, 'ohm')):.0f}")
    160
    """
    load_resistance = need(load_resistance, "ohm", "load_resistance", above=0)
    source_resistance = need(source_resistance, "ohm", "source_resistance", above=0)
    contact_resistance = need(contact_resistance, "ohm", "contact_resistance", least=0)
    return (load_resistance / (source_resistance + contact_resistance)).m_as("")


def shared_return_crosstalk(*, transducer_resistance, return_resistance):
    r"""What one channel leaks into the other through a contact that both return by.

    Parameters
    ----------
    transducer_resistance : Quantity [ohm], above zero
        Of each of two equal headphones.
    return_resistance : Quantity [ohm], above zero
        Of the contact or wire that both share.

    Returns
    -------
    against_transducer : Quantity [dB]
        The silent side against the driven transducer's own voltage.
    against_source : Quantity [dB]
        The silent side against the source that drives the other one.

    Notes
    -----
    .. math::
        20 \log_{10} \frac{R_c}{R_c + R}, \qquad 20 \log_{10} \frac{R_c}{2 R_c + R}

    One side is driven, the other's source holds 0 V; sources have no ohms of
    their own. What leaks is turned round: with the return open, both sides
    play the same difference of left and right, in opposite sense.

    References
    ----------
    .. [1] Two voltage dividers, formula F22; check value D7, RECOMPUTED.

    Examples
    --------
    >>> own, source = shared_return_crosstalk(transducer_resistance=Q(32, "ohm"), return_resistance=Q(1, "ohm"))
    >>> print(f"{own:.2f~P}, {source:.2f~P}")
    -30.37 dB, -30.63 dB
    """
    transducer = need(transducer_resistance, "ohm", "transducer_resistance", above=0)
    shared = need(return_resistance, "ohm", "return_resistance", above=0)
    return (decibels(ratio=(shared / (shared + transducer)).m_as("")),
            decibels(ratio=(shared / (2 * shared + transducer)).m_as("")))


def potentiometer_ratio(*, position, track_resistance, load_resistance, wiper_resistance=Q(0, "ohm")):
    r"""Share of the signal that a potentiometer hands on.

    Parameters
    ----------
    position : float or array, from 0 to 1
        Share of the track's ohms below the wiper (not of the turn: a volume
        control's track is seldom even).
    track_resistance : Quantity [ohm], above zero
    load_resistance : Quantity [ohm], above zero
        Input of the stage behind the wiper.
    wiper_resistance : Quantity [ohm], zero or more

    Returns
    -------
    float or array

    Raises
    ------
    ValueError
        If the position lies outside 0 to 1.

    Notes
    -----
    .. math:: \frac{V}{V_{in}} = \frac{x R_L}{R_L + R_w + x (1 - x) R_p}

    For a source without ohms of its own.

    References
    ----------
    .. [1] Voltage divider with its source replaced by Thevenin's, formula F21.

    Examples
    --------
    >>> ratio = potentiometer_ratio(position=0.5, track_resistance=Q(10, "kohm"),
    ...     load_resistance=Q(100, "kohm"), wiper_resistance=Q(100, "ohm"))
    >>> print(f"{ratio:.4f}")
    0.4873
    """
    position = share(position, "position", ends=True)
    track_resistance = need(track_resistance, "ohm", "track_resistance", above=0)
    load_resistance = need(load_resistance, "ohm", "load_resistance", above=0)
    wiper_resistance = need(wiper_resistance, "ohm", "wiper_resistance", least=0)
    behind = wiper_resistance + position * (1 - position) * track_resistance
    return (position * load_resistance / (load_resistance + behind)).m_as("")


def clipping_power(*, supply, saturation_voltage, load_resistance):
    r"""Most power of a sine wave before an output stage runs out of supply.

    Parameters
    ----------
    supply : Quantity [V], above zero
        As it stands while the stage draws its full current.
    saturation_voltage : Quantity [V], zero or more
        What each output transistor keeps for itself at the peak.
    load_resistance : Quantity [ohm], above zero

    Returns
    -------
    Quantity [W]

    Raises
    ------
    ValueError
        If the transistors keep more than half the supply: nothing is left.

    Notes
    -----
    .. math:: P = \frac{(V_s/2 - V_{sat})^2}{2 R}

    For one output that rests at half the supply and drives the load through a
    capacitor. Two outputs in a bridge swing twice as far.

    References
    ----------
    .. [1] Mean power of a sine wave; no check value in the reference tables, RECOMPUTED by hand.

    Examples
    --------
    >>> power = clipping_power(supply=Q(9, "V"), saturation_voltage=Q(0.5, "V"), load_resistance=Q(8, "ohm"))
    >>> print(f"{power:.1f~P}")
    1.0 W
    """
    supply = need(supply, "V", "supply", above=0)
    saturation_voltage = need(saturation_voltage, "V", "saturation_voltage", least=0)
    load_resistance = need(load_resistance, "ohm", "load_resistance", above=0)
    swing = supply / 2 - saturation_voltage
    if not np.all(swing.m_as("V") > 0):
        raise ValueError("saturation_voltage: leaves nothing of half the supply; "
                         "write a higher supply or a smaller saturation_voltage")
    return (swing**2 / (2 * load_resistance)).to("W")
