"""Leakage that published rules and common practice allow a capacitor, each rule by name."""

from dataclasses import dataclass

import numpy as np

from benchreckoner.units import Q, need


@dataclass(frozen=True)
class LeakageRule:
    """One published or common limit: its name, when to read, where it is from.

    Attributes
    ----------
    name : str
    for_parts : str
        Which parts it was made for.
    read_after : Quantity [s]
        Time on voltage at which its limit holds.
    source, mark : str
    second_hand : bool
        Whether it was read in a text that only quotes it.
    """

    name: str
    for_parts: str
    read_after: Q
    source: str
    mark: str
    second_hand: bool = False


LEAKAGE_RULES = {rule.name: rule for rule in (
    LeakageRule("a hundredth and three", "aluminium parts of today", Q(5, "min"),
                "0.01 CU + 3 µA, read at 2 or 5 min; open encyclopaedia, \"Electrolytic capacitor\"", "FOUND"),
    LeakageRule("a hundredth, three at least", "aluminium parts of today", Q(2, "min"),
                "the larger of 0.01 CU and 3 µA, read at 1 or 2 min; common variant", "PRACTICE"),
    LeakageRule("long-life grade", "long-life parts since the 1970s", Q(5, "min"),
                "tradition of CECC 30300 and IEC 60384-4, clause text not read", "MEMORY"),
    LeakageRule("general-purpose grade", "general-purpose parts since the 1970s", Q(5, "min"),
                "tradition of CECC 30300 and IEC 60384-4, clause text not read", "MEMORY"),
    LeakageRule("military 1940s", "parts of the 1940s and 1950s", Q(5, "min"),
                "JAN-C-62, as two independent mailing-list posts quote it", "FOUND", True),
)}
_MILITARY_STEPS = ((100, 0.01), (250, 0.02), (350, 0.025), (450, 0.04))


def leakage_limit(*, rule, capacitance, voltage):
    r"""The leakage that a rule allows a capacitor.

    Parameters
    ----------
    rule : str
        One of `LEAKAGE_RULES`.
    capacitance : Quantity [F], above zero
    voltage : Quantity [V], above zero
        Rated voltage.

    Returns
    -------
    Quantity [A]
        At rated voltage and 20 to 25 degrees.

    Raises
    ------
    ValueError
        For a rule that is not there, or a voltage the rule does not reach.

    Notes
    -----
    With C in µF and U in V, in µA: :math:`0.01\,CU + 3`; the larger of :math:`0.01\,CU` and 3; for the long-life
    grade the larger of :math:`0.01\,CU` and 1 up to CU = 1000, :math:`0.006\,CU + 4` above; for the general-purpose
    grade the larger of :math:`0.05\,CU` and 5, then :math:`0.03\,CU + 20`; in the 1940s, in mA,
    :math:`K C + 0.3` with K from 0.01 to 0.04 by the voltage, up to 450 V.

    References
    ----------
    .. [1] Each rule's own, in `LEAKAGE_RULES`. Check values C23 (FOUND rule), C24 (FOUND, second-hand), C26 and C27 (MEMORY).

    Examples
    --------
    >>> for rule in ("a hundredth and three", "military 1940s"):
    ...     print(f"{leakage_limit(rule=rule, capacitance=Q(100, 'uF'), voltage=Q(10, 'V')).to('uA'):.0f~P}")
    13 µA
    1300 µA
    """
    if rule not in LEAKAGE_RULES:
        raise ValueError(f"rule: there is no {rule!r}; write one of: {', '.join(LEAKAGE_RULES)}")
    farads = need(capacitance, "uF", "capacitance", above=0).magnitude
    volts = need(voltage, "V", "voltage", above=0).magnitude
    charge = farads * volts
    if rule == "military 1940s":
        if not np.all(volts <= _MILITARY_STEPS[-1][0]):
            raise ValueError(f"voltage: this rule reaches up to {_MILITARY_STEPS[-1][0]} V, got {voltage:~P}")
        steps, factors = np.array(_MILITARY_STEPS).T
        return Q(1000 * (factors[np.searchsorted(steps, volts)] * farads + 0.3), "uA").to("A")
    micro = {"a hundredth and three": 0.01 * charge + 3,
             "a hundredth, three at least": np.maximum(0.01 * charge, 3),
             "long-life grade": np.where(charge <= 1000, np.maximum(0.01 * charge, 1), 0.006 * charge + 4),
             "general-purpose grade": np.where(charge <= 1000, np.maximum(0.05 * charge, 5), 0.03 * charge + 20)}[rule]
    return Q(micro[()] if hasattr(micro, "shape") else micro, "uA").to("A")
