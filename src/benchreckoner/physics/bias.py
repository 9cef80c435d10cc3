"""What a capacitor's leakage does around it: to a transistor's bias, to cells, to a loudspeaker, to the ear."""

from dataclasses import dataclass

import numpy as np

from benchreckoner.units import Q, need


@dataclass(frozen=True)
class Stage:
    """A common-emitter stage with its base on a divider.

    Parameters
    ----------
    supply : Quantity [V], above zero
    upper, lower : Quantity [ohm], above zero
        Of the divider; the upper one goes to the supply.
    emitter : Quantity [ohm], above zero
    collector : Quantity [ohm], zero or more
    base_emitter : Quantity [V]
        About 0.65 V for silicon, 0.2 V for germanium.
    """

    supply: Q
    upper: Q
    lower: Q
    emitter: Q
    collector: Q
    base_emitter: Q

    def __post_init__(self):
        need(self.supply, "V", "supply", above=0), need(self.base_emitter, "V", "base_emitter")
        for name in ("upper", "lower", "emitter"):
            need(getattr(self, name), "ohm", name, above=0)
        need(self.collector, "ohm", "collector", least=0)


def emitter_current(*, base_supply, base_resistance, emitter_resistance, base_emitter, gain):
    r"""Emitter current of a transistor whose base is fed through a resistance.

    Parameters
    ----------
    base_supply : Quantity [V]
        Open-circuit volts of whatever feeds the base.
    base_resistance : Quantity [ohm], zero or more
        That it has.
    emitter_resistance : Quantity [ohm], above zero
    base_emitter : Quantity [V]
    gain : float or array, above zero
        Current gain, collector by base.

    Returns
    -------
    Quantity [A]
        Zero where the volts do not suffice to open the transistor.

    Raises
    ------
    ValueError
        If the gain is not above zero.

    Notes
    -----
    .. math:: I_E = \frac{V_{th} - V_{BE}}{R_E + R_{th} / (\beta + 1)}

    While the collector has volts left; a source that divides by the gain alone, without the one, is told so.

    References
    ----------
    .. [1] Kuphaldt, Lessons in Electric Circuits, vol. III, biasing calculations, check value C17. FOUND; it divides by
       the gain alone.

    Examples
    --------
    >>> amps = emitter_current(base_supply=Q(2, "V"), base_resistance=Q(82, "kohm"), emitter_resistance=Q(470, "ohm"),
    ...     base_emitter=Q(0.7, "V"), gain=100)
    >>> print(f"{amps.to('mA'):.2f~P}")
    1.01 mA
    """
    volts = need(base_supply, "V", "base_supply") - need(base_emitter, "V", "base_emitter")
    base_resistance = need(base_resistance, "ohm", "base_resistance", least=0)
    emitter_resistance = need(emitter_resistance, "ohm", "emitter_resistance", above=0)
    amps = (volts / (emitter_resistance + base_resistance / (_gain(gain) + 1))).m_as("A")
    return Q(np.maximum(amps, 0.0)[()], "A")


def leaky_bias(*, stage, gain, leakage_resistance, leak_from, source_resistance=Q(0, "ohm")):
    r"""Emitter current and collector volts of a stage whose coupling capacitor leaks into the base.

    Parameters
    ----------
    stage : Stage
    gain : float or array, above zero
    leakage_resistance : Quantity [ohm], above zero
        Of the capacitor, as it is at these volts.
    leak_from : Quantity [V]
        Direct volts on the capacitor's other side.
    source_resistance : Quantity [ohm], zero or more
        Behind it.

    Returns
    -------
    emitter : Quantity [A]
    collector : Quantity [V]
        Not below the emitter's volts: there the transistor is fully open.

    Notes
    -----
    Divider, leak and base share one knot: three sources with their resistances are one source with all of
    them side by side (Millman), then `emitter_current`.

    References
    ----------
    .. [1] Millman's theorem; check values C19 and the example stage, RECOMPUTED; second route by the knot's equations.

    Examples
    --------
    >>> stage = Stage(Q(6, "V"), Q(47, "kohm"), Q(12, "kohm"), Q(1, "kohm"), Q(3.9, "kohm"), Q(0.65, "V"))
    >>> amps, volts = leaky_bias(stage=stage, gain=100, leakage_resistance=Q(100, "kohm"), leak_from=Q(3.5, "V"))
    >>> print(f"{amps.to('mA'):.3f~P}, {volts:.2f~P}")
    0.708 mA, 3.27 V
    """
    leak = need(leakage_resistance, "ohm", "leakage_resistance", above=0) \
        + need(source_resistance, "ohm", "source_resistance", least=0)
    leak_from = need(leak_from, "V", "leak_from")
    siemens = 1 / stage.upper + 1 / stage.lower + 1 / leak
    current = emitter_current(base_supply=((stage.supply / stage.upper + leak_from / leak) / siemens).to("V"),
                              base_resistance=(1 / siemens).to("ohm"), emitter_resistance=stage.emitter,
                              base_emitter=stage.base_emitter, gain=gain)
    factor = _gain(gain) / (_gain(gain) + 1)
    volts = (stage.supply - current * factor * stage.collector).m_as("V")
    return current, Q(np.maximum(volts, (current * stage.emitter).m_as("V"))[()], "V")


def bias_shift(*, leakage, upper, lower):
    r"""Volts by which a small leakage current lifts a divider.

    Parameters
    ----------
    leakage : Quantity [A]
    upper, lower : Quantity [ohm], above zero

    Returns
    -------
    Quantity [V]

    Notes
    -----
    .. math:: \Delta V = I\, (R_1 \parallel R_2)

    The base takes a share of it, so this is the most. A leak that comes and goes makes just such steps: crackle.

    References
    ----------
    .. [1] Ohm's law for the divider's own resistance, RECOMPUTED by hand.

    Examples
    --------
    >>> print(f"{bias_shift(leakage=Q(0.1, 'uA'), upper=Q(20, 'kohm'), lower=Q(20, 'kohm')).to('mV'):.1f~P}")
    1.0 mV
    """
    upper, lower = need(upper, "ohm", "upper", above=0), need(lower, "ohm", "lower", above=0)
    return (need(leakage, "A", "leakage") * upper * lower / (upper + lower)).to("V")


def direct_current_into(*, voltage, leakage_resistance, load_resistance):
    r"""Direct current that a leaky output capacitor lets into a loudspeaker.

    Parameters
    ----------
    voltage : Quantity [V]
        Across capacitor and loudspeaker together, half the supply as a rule.
    leakage_resistance : Quantity [ohm], zero or more
    load_resistance : Quantity [ohm], above zero

    Returns
    -------
    Quantity [A]

    Notes
    -----
    .. math:: I = V / (R_L + R_{load})

    References
    ----------
    .. [1] Ohm's law, by hand: 3 V in 1008 ohm.

    Examples
    --------
    >>> amps = direct_current_into(voltage=Q(3, "V"), leakage_resistance=Q(1, "kohm"), load_resistance=Q(8, "ohm"))
    >>> print(f"{amps.to('mA'):.2f~P}")
    2.98 mA
    """
    voltage = need(voltage, "V", "voltage")
    leak = need(leakage_resistance, "ohm", "leakage_resistance", least=0)
    return (voltage / (leak + need(load_resistance, "ohm", "load_resistance", above=0))).to("A")


def emptied_after(*, charge, current):
    r"""How long cells last when something always draws on them.

    Parameters
    ----------
    charge : Quantity [mAh]
        What they hold.
    current : Quantity [A], above zero

    Returns
    -------
    Quantity [s]

    Notes
    -----
    .. math:: t = Q / I

    At so small a current cells give about all that is printed on them; they also empty by themselves.

    References
    ----------
    .. [1] By hand: 2500 mAh by 0.8 mA are 3125 h, 130 days.

    Examples
    --------
    >>> print(f"{emptied_after(charge=Q(2500, 'mA*h'), current=Q(0.8, 'mA')).to('day'):.0f~P}")
    130 d
    """
    charge = need(charge, "mA*h", "charge", above=0)
    return (charge / need(current, "A", "current", above=0)).to("s")


def _gain(gain):
    gain = np.asarray(gain, dtype=float)
    if not (np.all(np.isfinite(gain)) and np.all(gain > 0)):
        raise ValueError(f"gain: must be a number above zero, got {gain}; write gain=100")
    return gain[()]
