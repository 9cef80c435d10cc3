"""Laws of capacitors and their leakage, against limits, properties and a second route."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.integrate import solve_ivp

from benchreckoner.physics import capacitors, leakage, leakage_limits
from benchreckoner.units import Q

OHMS, FARADS, VOLTS = some.floats(10, 1e6), some.floats(1e-6, 5e-3), some.floats(0.5, 63)


@given(supply=VOLTS, ohms=OHMS, farads=FARADS, share=some.floats(0.01, 0.99))
def test_time_and_volts_are_each_others_inverse(supply, ohms, farads, share):
    part = dict(supply=Q(supply, "V"), series_resistance=Q(ohms, "ohm"), capacitance=Q(farads, "F"))
    time = capacitors.charging_time(voltage=Q(share * supply, "V"), **part)
    assert capacitors.charged_voltage(time=time, **part).m_as("V") == pytest.approx(share * supply, rel=1e-9)


def test_charging_against_a_numerical_solution():
    found = solve_ivp(lambda _, volts: (9 - volts) / (4700 * 220e-6), (0, 3), [0], rtol=1e-9, atol=1e-12, dense_output=True)
    for seconds in (0.1, 1.0, 3.0):
        volts = capacitors.charged_voltage(supply=Q(9, "V"), series_resistance=Q(4.7, "kohm"), capacitance=Q(220, "uF"),
                                           time=Q(seconds, "s"))
        assert volts.m_as("V") == pytest.approx(found.sol(seconds)[0], rel=1e-6)
        current = leakage.charging_current(supply=Q(9, "V"), series_resistance=Q(4.7, "kohm"), capacitance=Q(220, "uF"),
                                           time=Q(seconds, "s"))
        assert current.m_as("A") == pytest.approx((9 - found.sol(seconds)[0]) / 4700, rel=1e-6)


def test_a_part_below_one_volt_needs_no_discharge():
    assert capacitors.discharge_time(capacitance=Q(1, "mF"), resistance=Q(100, "ohm"), start=Q(0.5, "V")).m_as("s") == 0


@given(ohms=OHMS, farads=FARADS)
def test_at_the_corner_the_reactance_is_the_resistance(ohms, farads):
    corner = capacitors.corner_frequency(resistance=Q(ohms, "ohm"), capacitance=Q(farads, "F")).m_as("Hz")
    assert abs(1 / (1 + 1j * 2 * np.pi * corner * ohms * farads)) ** 2 == pytest.approx(0.5)


@given(farads=FARADS, ohms=some.floats(0.001, 0.5), hertz=some.floats(50, 1e3))
def test_dissipation_is_the_slope_of_the_impedance(farads, ohms, hertz):
    """Second route: resistance over reactance of the complex impedance."""
    impedance = ohms + 1 / (1j * 2 * np.pi * hertz * farads)
    factor = capacitors.dissipation_factor(capacitance=Q(farads, "F"), series_resistance=Q(ohms, "ohm"), frequency=Q(hertz, "Hz"))
    assert factor == pytest.approx(impedance.real / -impedance.imag)
    if 0 < factor < 1:
        back = capacitors.series_resistance(capacitance=Q(farads, "F"), dissipation=factor, frequency=Q(hertz, "Hz"))
        assert back.m_as("ohm") == pytest.approx(ohms)


@given(supply=VOLTS, leak=some.floats(1e3, 1e8), ohms=some.floats(1e3, 1e6), meter=some.floats(1e6, 1e8))
def test_the_leak_is_found_again_from_what_a_divider_shows(supply, leak, ohms, meter):
    both = 1 / (1 / ohms + 1 / meter)
    shown = supply * both / (both + leak)
    found = leakage.leakage_resistance(supply=Q(supply, "V"), shown=Q(shown, "V"), series_resistance=Q(ohms, "ohm"),
                                       meter_resistance=Q(meter, "ohm"))
    assert found.m_as("ohm") == pytest.approx(leak, rel=1e-6)


@given(supply=VOLTS, ohms=some.floats(1e3, 1e5), leak=some.floats(1e4, 1e7))
def test_both_currents_against_a_numerical_solution(supply, ohms, leak):
    farads = 100e-6
    end = 3 * ohms * farads
    found = solve_ivp(lambda _, volts: ((supply - volts) / ohms - volts / leak) / farads, (0, end), [0], rtol=1e-9,
                      atol=1e-12, dense_output=True)
    for share in (0.1, 0.5, 1.0):
        charging, leaking = leakage.currents_on_voltage(supply=Q(supply, "V"), series_resistance=Q(ohms, "ohm"),
                                                        capacitance=Q(farads, "F"), leakage_resistance=Q(leak, "ohm"),
                                                        time=Q(share * end, "s"))
        volts = found.sol(share * end)[0]
        assert leaking.m_as("A") == pytest.approx(volts / leak, rel=1e-6)
        assert (charging + leaking).m_as("A") == pytest.approx((supply - volts) / ohms, rel=1e-6)


def test_soakage_against_a_numerical_solution():
    outer, inner, ohms = 90e-6, 10e-6, 1e6

    def flow(_, volts):
        current = (volts[1] - volts[0]) / ohms
        return [current / outer, -current / inner]

    found = solve_ivp(flow, (0, 60), [0, 6], rtol=1e-10, atol=1e-12, dense_output=True)
    for seconds in (1, 10, 60):
        volts = leakage.recovered_voltage(voltage=Q(6, "V"), capacitance=Q(outer, "F"), soak_capacitance=Q(inner, "F"),
                                          soak_resistance=Q(ohms, "ohm"), time=Q(seconds, "s"))
        assert volts.m_as("V") == pytest.approx(found.sol(seconds)[0], rel=1e-6)


@given(current=some.floats(1e-7, 1e-3), exponent=some.floats(0, 1.5), factor=some.floats(1.1, 60))
def test_the_power_law_multiplies(current, exponent, factor):
    """Twice the same step in time is twice the same factor in current."""
    def at(minutes):
        return leakage.decayed_current(current=Q(current, "A"), read_after=Q(1, "min"), exponent=exponent,
                                       time=Q(minutes, "min")).m_as("A")

    assert at(factor**2) / at(factor) == pytest.approx(at(factor) / current)


@pytest.mark.parametrize("rule", leakage_limits.LEAKAGE_RULES)
@given(farads=some.floats(0.5, 5000), volts=some.floats(4, 63), more=some.floats(1, 3))
def test_a_larger_part_is_allowed_no_less(rule, farads, volts, more):
    one = leakage_limits.leakage_limit(rule=rule, capacitance=Q(farads, "uF"), voltage=Q(volts, "V"))
    other = leakage_limits.leakage_limit(rule=rule, capacitance=Q(more * farads, "uF"), voltage=Q(volts, "V"))
    assert other.m_as("uA") >= one.m_as("uA") * (1 - 1e-9) > 0


@pytest.mark.parametrize("rule", ["long-life grade", "general-purpose grade"])
def test_the_recalled_rules_join_where_they_change(rule):
    """At CU = 1000 both halves of a rule give the same: 10 and 50 uA."""
    below, above = (leakage_limits.leakage_limit(rule=rule, capacitance=Q(100 * by, "uF"), voltage=Q(10, "V")).m_as("uA")
                    for by in (1, 1 + 1e-9))
    assert below == pytest.approx(above, rel=1e-6)


@pytest.mark.parametrize(("call", "told"), [
    (lambda: leakage.leakage_resistance(supply=Q(6, "V"), shown=Q(6, "V"), series_resistance=Q(1, "kohm"),
                                        meter_resistance=Q(10, "Mohm")), "cannot take more than the supply"),
    (lambda: capacitors.charging_time(supply=Q(6, "V"), series_resistance=Q(1, "kohm"), capacitance=Q(1, "uF"),
                                      voltage=Q(6, "V")), "must lie below the supply"),
    (lambda: capacitors.stored_energy(capacitance=Q(0, "F"), voltage=Q(6, "V")), "capacitance: must be above 0"),
    (lambda: capacitors.stored_energy(capacitance=Q(-1, "uF"), voltage=Q(6, "V")), "capacitance: must be above 0"),
    (lambda: leakage.decayed_current(current=Q(1, "uA"), read_after=Q(1, "min"), exponent=-1, time=Q(1, "min")), "exponent"),
    (lambda: leakage_limits.leakage_limit(rule="none", capacitance=Q(1, "uF"), voltage=Q(6, "V")), "write one of"),
    (lambda: leakage_limits.leakage_limit(rule="military 1940s", capacitance=Q(1, "uF"), voltage=Q(500, "V")), "up to 450 V"),
])
def test_what_cannot_be_is_refused(call, told):
    with pytest.raises(ValueError, match=told):
        call()
