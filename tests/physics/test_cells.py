"""Cells to the end point, the start dip, charging, adapters and small lamps: laws beside the published rows."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from benchreckoner.physics import charging, lamps, supply
from benchreckoner.physics.governors import headroom_current
from benchreckoner.units import Q

GOVERNOR = {"set_voltage": Q(3.26726, "V"), "compensation": Q(15, "ohm"), "regulator_drop": Q(0.3, "V")}
LAMP = {"rated_voltage": Q(6, "V"), "rated_current": Q(100, "mA")}


def end(count, current=0.085, cell=0.15, other=1.3):
    return supply.regulation_end(cells=count, current=Q(current, "A"), cell_resistance=Q(cell, "ohm"),
                                 other_resistance=Q(other, "ohm"), **GOVERNOR).m_as("V")


@given(st.integers(1, 12), st.floats(0, 0.4), st.floats(0, 1.5), st.floats(0.01, 5))
def test_at_the_end_the_governors_headroom_is_just_this_current(count, current, cell, other):
    """The other room's law, asked with the cells at that voltage, hands the current back."""
    back = headroom_current(open_voltage=Q(count * end(count, current, cell, other), "V"),
                            source_resistance=Q(count * cell + other, "ohm"), **GOVERNOR)
    assert back.m_as("A") == pytest.approx(current, abs=1e-9)


def test_at_no_current_only_the_count_matters():
    assert end(6, current=0, cell=1.5) == pytest.approx((3.26726 + 0.3) / 6)
    assert 3 * end(6, current=0) == pytest.approx(6 * end(12, current=0))


@given(st.integers(1, 11), st.floats(0.001, 0.4))
def test_one_cell_more_reaches_further_down(count, current):
    assert end(count + 1, current) < end(count, current)


@given(st.floats(1, 15), st.floats(0, 10), st.floats(1, 60))
def test_the_start_current_balances_the_volts(volts, source, motor):
    """A root search for the current at which the volts round the loop add up to nothing."""
    current, left = supply.start_dip(open_voltage=Q(volts, "V"), supply_resistance=Q(source, "ohm"),
                                     regulator_drop=Q(0.3, "V"), motor_resistance=Q(motor, "ohm"), brush_drop=Q(0.2, "V"))
    root = brentq(lambda amps: volts - 0.3 - 0.2 - amps * source - amps * motor, 0, 100)
    assert current.m_as("A") == pytest.approx(root, abs=1e-9)
    assert left.m_as("V") == pytest.approx(0.5 + root * motor, abs=1e-6)


def test_a_stiff_supply_does_not_dip():
    _, left = supply.start_dip(open_voltage=Q(9, "V"), supply_resistance=Q(0, "ohm"), regulator_drop=Q(0.3, "V"),
                               motor_resistance=Q(16, "ohm"))
    assert left.m_as("V") == pytest.approx(9)


def test_a_supply_under_the_drops_is_told():
    with pytest.raises(ValueError, match="open_voltage: must be above the drops"):
        supply.start_dip(open_voltage=Q(0.5, "V"), supply_resistance=Q(1, "ohm"), regulator_drop=Q(0.3, "V"),
                         motor_resistance=Q(16, "ohm"), brush_drop=Q(0.2, "V"))


@given(st.floats(3, 20), st.floats(0.05, 2), st.floats(0.1, 20), st.floats(0, 3))
def test_two_readings_of_a_source_give_its_line_back(volts, at, ohms, current):
    """From off load and marked point back to the ohms, by the law that was there before."""
    def line(amps):
        return supply.source_voltage(voltage=Q(volts, "V"), at_current=Q(at, "A"), source_resistance=Q(ohms, "ohm"),
                                     current=Q(amps, "A"))

    assert line(at).m_as("V") == pytest.approx(volts)
    assert supply.source_resistance(off_voltage=line(0), loaded_voltage=line(at), current=Q(at, "A")).m_as("ohm") == pytest.approx(ohms)
    assert (line(0) - line(current)).m_as("V") == pytest.approx(current * ohms, abs=1e-9)


@given(st.floats(0.1, 20), st.floats(0.01, 2))
def test_runtime_and_rate_are_each_others_inverse(capacity, current):
    amps, charge = Q(current, "A"), Q(capacity, "Ah")
    hours, rate = charging.runtime(capacity=charge, current=amps), charging.charge_rate(current=amps, capacity=charge)
    assert (hours * rate).m_as("") == pytest.approx(1)
    assert charging.runtime(capacity=2 * charge, current=amps).m_as("h") == pytest.approx(2 * hours.m_as("h"))
    assert charging.full_charge_time(capacity=charge, current=amps) / hours == pytest.approx(1.6)


@given(st.floats(0.1, 20))
def test_the_standard_charge_is_full_in_its_own_time(capacity):
    current, time = charging.standard_charge(capacity=Q(capacity, "Ah"))
    assert charging.full_charge_time(capacity=Q(capacity, "Ah"), current=current).m_as("h") == pytest.approx(time.m_as("h"))
    assert (current * time / Q(capacity, "Ah")).m_as("") == pytest.approx(1.6)


def test_a_lamp_is_itself_at_its_rated_volts_and_dark_at_none():
    assert lamps.lamp_current(voltage=Q(6, "V"), **LAMP).m_as("mA") == pytest.approx(100)
    assert lamps.lamp_current(voltage=Q(0, "V"), **LAMP).m_as("mA") == 0
    assert lamps.lamp_life(voltage=Q(6, "V"), rated_voltage=Q(6, "V")) == pytest.approx((1, 1))


@given(st.floats(0.5, 1.25))
def test_a_lamp_pulls_more_than_a_resistor_below_its_volts_and_less_above(share):
    volts = Q(6 * share, "V")
    resistor = 100 * share
    assert (lamps.lamp_current(voltage=volts, **LAMP).m_as("mA") - resistor) * (1 - share) >= 0
    least, most = lamps.lamp_life(voltage=volts, rated_voltage=Q(6, "V"))
    assert most / least == pytest.approx(max(share**4, share**-4)) and (least - 1) * (1 - share) >= 0


def test_the_current_doubles_its_power_of_two():
    one, two = (lamps.lamp_current(voltage=Q(volts, "V"), **LAMP) for volts in (3, 6))
    assert np.log2((two / one).m_as("")) == pytest.approx(0.55)


def test_inrush_is_the_settled_current_over_the_cold_share_behind_a_stiff_supply():
    def inrush(ohms, share):
        return lamps.lamp_inrush(open_voltage=Q(6, "V"), source_resistance=Q(ohms, "ohm"), cold_share=share, **LAMP).m_as("A")

    assert inrush(0, 0.1) == pytest.approx(1.0)
    assert inrush(6, 0.1) == pytest.approx(inrush(0, 0.1) / 2), "as many ohms again halve it"
    assert inrush(0, 1 / 15) == pytest.approx(1.5)


@given(st.floats(3, 20), st.floats(1, 2.9), st.floats(0.001, 0.05))
def test_the_volts_of_diode_and_resistor_add_up(volts, diode, current):
    ohms, watts = lamps.led_resistor(supply=Q(volts, "V"), led_voltage=Q(diode, "V"), current=Q(current, "A"))
    assert ohms.m_as("ohm") * current + diode == pytest.approx(volts)
    assert watts.m_as("W") + diode * current == pytest.approx(volts * current)


def test_a_diode_that_cannot_light_is_told():
    with pytest.raises(ValueError, match="would not light"):
        lamps.led_resistor(supply=Q(2, "V"), led_voltage=Q(2, "V"), current=Q(10, "mA"))


@pytest.mark.parametrize(("law", "given", "told"), [
    (charging.runtime, {"capacity": Q(0, "Ah"), "current": Q(1, "A")}, "capacity"),
    (charging.runtime, {"capacity": Q(2, "Ah"), "current": Q(0, "A")}, "current"),
    (charging.standard_charge, {"capacity": Q(-2, "Ah")}, "capacity"),
    (charging.charge_rate, {"current": Q(-1, "A"), "capacity": Q(2, "Ah")}, "current"),
    (charging.full_charge_time, {"capacity": Q(2, "A"), "current": Q(1, "A")}, "capacity"),
    (lamps.lamp_current, {"voltage": Q(-3, "V"), **LAMP}, "voltage"),
    (lamps.lamp_life, {"voltage": Q(0, "V"), "rated_voltage": Q(6, "V")}, "voltage"),
    (lamps.lamp_inrush, {"open_voltage": Q(6, "V"), "source_resistance": Q(1, "ohm"), "cold_share": 0.0, **LAMP}, "cold_share"),
    (lamps.led_resistor, {"supply": Q(9, "V"), "led_voltage": Q(2, "V"), "current": Q(0, "A")}, "current"),
    (supply.source_voltage, {"voltage": Q(9, "V"), "at_current": Q(-1, "A"), "source_resistance": Q(1, "ohm"),
                             "current": Q(0, "A")}, "at_current"),
])
def test_nonsense_is_told_by_its_name(law, given, told):
    with pytest.raises(ValueError, match=told):
        law(**given)


@pytest.mark.parametrize("count", [0, -1, 1.5, True, "6"])
def test_cells_are_counted(count):
    with pytest.raises(ValueError, match="cells"):
        end(count)
