"""Capacitance testers that always show something: the bridge, and the integrator of charge.

The part is taken as in `testers`: leakage as a resistance across the capacitance, and both behind a series resistance.
"""

import numpy as np

from benchreckoner.physics.testers import tested_part
from benchreckoner.units import Q, need

SERIES, PARALLEL = "series", "parallel"


def bridge_capacitance(*, capacitance, leakage_resistance, series_resistance, frequency, mode=SERIES):
    r"""Capacitance shown by a bridge, which reads the part's impedance at one frequency.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
    series_resistance : Quantity [ohm], zero or more
    frequency : Quantity [Hz], above zero
    mode : str
        ``"series"`` or ``"parallel"``: which pair of parts the bridge takes it for.

    Returns
    -------
    Quantity [F]
        It never fails to show something.

    Raises
    ------
    ValueError
        For another mode.

    Notes
    -----
    With :math:`D_L = 1/(\omega R_L C)`, and :math:`R` as `bridge_resistance` gives it:

    .. math:: C_s = C (1 + D_L^2), \qquad C_p = \frac{C_s}{1 + (\omega C_s R)^2}

    References
    ----------
    .. [1] Series and parallel forms of one impedance; derived, and held by complex arithmetic. RECOMPUTED.

    Examples
    --------
    >>> farads = bridge_capacitance(capacitance=Q(10, "uF"), leakage_resistance=Q(1, "kohm"), series_resistance=Q(5, "ohm"),
    ...     frequency=Q(120, "Hz"))
    >>> print(f"{farads.to('uF'):.3f~P}")
    10.176 µF
    """
    if mode not in (SERIES, PARALLEL):
        raise ValueError(f'mode: write "{SERIES}" or "{PARALLEL}", got {mode!r}')
    resistance = bridge_resistance(capacitance=capacitance, leakage_resistance=leakage_resistance,
                                   series_resistance=series_resistance, frequency=frequency)
    in_series = capacitance * (1 + _leak_factor(capacitance, leakage_resistance, frequency) ** 2)
    if mode == SERIES:
        return in_series.to("F")
    return (in_series / (1 + (2 * np.pi * frequency * in_series * resistance).m_as("") ** 2)).to("F")


def bridge_resistance(*, capacitance, leakage_resistance, series_resistance, frequency):
    r"""Series resistance shown by a bridge: the part's own, and the leak's share that poses as it.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
    series_resistance : Quantity [ohm], zero or more
    frequency : Quantity [Hz], above zero

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: R = r + \frac{R_L}{1 + 1/D_L^2}

    While :math:`D_L` is small, ten times the frequency leaves a hundredth of the leak's share, and all of the part's own.

    References
    ----------
    .. [1] Series form of one impedance; derived, and held by complex arithmetic. RECOMPUTED.

    Examples
    --------
    >>> ohms = bridge_resistance(capacitance=Q(10, "uF"), leakage_resistance=Q(1, "kohm"), series_resistance=Q(0, "ohm"),
    ...     frequency=Q(120, "Hz"))
    >>> print(f"{ohms:.1f~P}")
    17.3 Ω
    """
    capacitance, leak, series = tested_part(capacitance, leakage_resistance, series_resistance)
    frequency = need(frequency, "Hz", "frequency", above=0)
    return (series + leak / (1 + 1 / _leak_factor(capacitance, leak, frequency) ** 2)).to("ohm")


def integrator_reading(*, capacitance, leakage_resistance, series_resistance, time, source_resistance=Q(0, "ohm")):
    r"""Shown by a tester that puts volts on the part and adds up all charge that flows in a fixed time.

    Parameters
    ----------
    capacitance : Quantity [F], above zero
    leakage_resistance : Quantity [ohm], above zero
    series_resistance : Quantity [ohm], zero or more
    time : Quantity [s], above zero
    source_resistance : Quantity [ohm], zero or more
        Between the tester's volts and the part.

    Returns
    -------
    Quantity [F]
        It never fails to show something: what leaks is counted as stored.

    Notes
    -----
    With :math:`R = R_s + r` and :math:`a = R_L/(R_L + R)`:

    .. math:: C_{shown} = \frac{T}{R_L + R} + a^2 C \left(1 - e^{-T / a R C}\right)

    References
    ----------
    .. [1] The current of a charging part and its leak, added up; held by a numerical solution. RECOMPUTED.

    Examples
    --------
    >>> farads = integrator_reading(capacitance=Q(10, "uF"), leakage_resistance=Q(10, "kohm"),
    ...     series_resistance=Q(0, "ohm"), time=Q(0.1, "s"))
    >>> print(f"{farads.to('uF'):.3f~P}")
    20.000 µF
    """
    capacitance, leak, series = tested_part(capacitance, leakage_resistance, series_resistance)
    time, source = need(time, "s", "time", above=0), need(source_resistance, "ohm", "source_resistance", least=0)
    resistance = source + series
    share = leak / (leak + resistance)
    constant = (share * resistance * capacitance / time).m_as("")
    unfinished = np.exp(-1 / np.maximum(constant, 1e-3))  # below a thousandth nothing is left of it
    return (time / (leak + resistance) + share**2 * capacitance * (1 - unfinished)).to("F")


def _leak_factor(capacitance, leakage_resistance, frequency):
    """How lossy the leak alone makes the part, at this frequency."""
    return (1 / (2 * np.pi * frequency * leakage_resistance * capacitance)).m_as("")
