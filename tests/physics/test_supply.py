"""Sources: off load and on load."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchreckoner.physics import supply
from benchreckoner.units import Q


@given(st.integers(1, 12), st.floats(0.8, 1.7), st.floats(0.001, 1), st.floats(0.5, 100))
def test_the_resistance_comes_back_from_the_two_voltages(cells, volts, ohms, load):
    current, loaded = supply.loaded_cells(cells=cells, cell_voltage=Q(volts, "V"),
                                          cell_resistance=Q(ohms, "ohm"), load_resistance=Q(load, "ohm"))
    back = supply.source_resistance(off_voltage=Q(cells * volts, "V"), loaded_voltage=loaded, current=current)
    assert back.m_as("ohm") == pytest.approx(cells * ohms, rel=1e-6)


def test_more_volts_loaded_than_off_gives_a_negative_answer_to_be_told():
    back = supply.source_resistance(off_voltage=Q(9, "V"), loaded_voltage=Q(9.1, "V"), current=Q(0.1, "A"))
    assert back.m_as("ohm") == pytest.approx(-1)


@given(st.floats(1, 50), st.floats(0.5, 100))
def test_a_series_resistor_never_takes_more_than_a_matched_one(volts, other):
    """The most power goes into a resistor equal to the rest of the loop (maximum power transfer)."""
    def watts(ohms):
        return supply.series_resistor(resistance=Q(ohms, "ohm"), supply=Q(volts, "V"),
                                      other_resistance=Q(other, "ohm"))[1].m_as("W")

    assert watts(other) == pytest.approx(volts**2 / (4 * other))
    assert watts(other / 3) < watts(other) and watts(3 * other) < watts(other)


@pytest.mark.parametrize("cells", [0, -1, 1.5, True, "6"])
def test_cells_are_counted(cells):
    with pytest.raises(ValueError, match="cells"):
        supply.loaded_cells(cells=cells, cell_voltage=Q(1.5, "V"), cell_resistance=Q(0.1, "ohm"),
                            load_resistance=Q(1, "ohm"))
