"""Laws of signal paths: limits, signs, doubling, and a second route by solving the circuit's nodes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from benchreckoner.physics import levels, signal
from benchreckoner.units import Q

ohms = st.floats(1e-3, 1e6)
shares = st.floats(0, 1)
any_level = st.floats(-120, 120)


def loss(load, series):
    return signal.series_loss(load_resistance=Q(load, "ohm"), series_resistance=Q(series, "ohm")).m_as("dB")


def pot(position, track, load, wiper=0.0):
    return signal.potentiometer_ratio(position=position, track_resistance=Q(track, "ohm"),
                                      load_resistance=Q(load, "ohm"), wiper_resistance=Q(wiper, "ohm"))


def coupled(farads, resistance, hertz):
    return signal.coupling_loss(capacitance=Q(farads, "F"), resistance=Q(resistance, "ohm"),
                                frequency=Q(hertz, "Hz")).m_as("dB")


def power(supply, kept, load):
    return signal.clipping_power(supply=Q(supply, "V"), saturation_voltage=Q(kept, "V"),
                                 load_resistance=Q(load, "ohm")).m_as("W")


@given(any_level)
def test_decibels_and_ratios_undo_each_other(level):
    assert levels.decibels(ratio=levels.voltage_ratio(level=Q(level, "dB"))).m_as("dB") == pytest.approx(level, abs=1e-9)


@given(st.floats(1e-5, 1e5), st.floats(1e-5, 1e5))
def test_a_product_of_ratios_is_a_sum_of_decibels(first, second):
    both = Q([float(levels.decibels(ratio=one).m_as("dB")) for one in (first, second)], "dB")
    assert levels.chain_level(levels=both).m_as("dB") == pytest.approx(
        levels.decibels(ratio=first * second).m_as("dB"), abs=1e-9)


def test_signs_and_zero_of_decibels():
    assert levels.decibels(ratio=1).m_as("dB") == 0
    assert levels.decibels(ratio=0.9).m_as("dB") < 0 < levels.decibels(ratio=1.1).m_as("dB")


def test_decibels_are_those_of_pint():
    """Second route: pint's own decibel is ten times the logarithm of a power ratio."""
    assert levels.decibels(ratio=0.3).m_as("dB") == pytest.approx(Q(0.3**2, "").to("dB").magnitude)


@given(ohms, ohms)
def test_loss_depends_on_the_ratio_alone_and_is_never_a_gain(load, series):
    assert loss(load, series) <= 0 and loss(load, 0) == 0
    assert loss(2 * load, 2 * series) == pytest.approx(loss(load, series), abs=1e-9)
    assert loss(load, load) == pytest.approx(20 * np.log10(0.5))


@given(st.floats(1e-9, 1e-2), st.floats(1, 1e5), st.floats(1, 20000))
def test_coupling_by_complex_impedances(farads, resistance, hertz):
    """Second route: the divider of a resistor and the capacitor's complex impedance."""
    divider = resistance / (resistance + 1 / (2j * np.pi * hertz * farads))
    assert coupled(farads, resistance, hertz) == pytest.approx(20 * np.log10(abs(divider)), abs=1e-6)


def test_coupling_at_its_corner_and_an_octave_lower():
    corner = 1 / (2 * np.pi * 8 * 470e-6)
    assert coupled(470e-6, 8, corner) == pytest.approx(10 * np.log10(0.5))
    assert coupled(470e-6, 8, corner / 2048) - coupled(470e-6, 8, corner / 1024) == pytest.approx(-6.0206, abs=1e-3)
    assert coupled(470e-6, 8, 1000 * corner) == pytest.approx(0, abs=1e-5)


@given(ohms, ohms, ohms)
def test_damping_halves_when_the_path_doubles(load, source, contact):
    def factor(times):
        return signal.damping_factor(load_resistance=Q(load, "ohm"), source_resistance=times * Q(source, "ohm"),
                                     contact_resistance=times * Q(contact, "ohm"))

    assert factor(2) == pytest.approx(factor(1) / 2)


@given(st.floats(4, 600), st.floats(1e-3, 1e3))
def test_crosstalk_by_solving_the_nodes(transducer, shared):
    """Second route: one node, three conductances; the driven source gives 1 V, the other 0 V."""
    node = (1 / transducer) / (2 / transducer + 1 / shared)
    own, source = signal.shared_return_crosstalk(transducer_resistance=Q(transducer, "ohm"),
                                                 return_resistance=Q(shared, "ohm"))
    assert source.m_as("dB") == pytest.approx(20 * np.log10(node), abs=1e-9)
    assert own.m_as("dB") == pytest.approx(20 * np.log10(node / (1 - node)), abs=1e-9)


def test_an_open_return_leaves_the_difference_of_both_sides():
    own, source = signal.shared_return_crosstalk(transducer_resistance=Q(32, "ohm"), return_resistance=Q(1e9, "ohm"))
    assert own.m_as("dB") == pytest.approx(0, abs=1e-6)
    assert source.m_as("dB") == pytest.approx(20 * np.log10(0.5), abs=1e-6)


@given(st.floats(0.01, 0.99), st.floats(1e3, 1e6), st.floats(1e3, 1e6), st.floats(0, 2e5))
def test_the_potentiometer_by_solving_two_nodes(position, track, load, wiper):
    """Second route: Kirchhoff at the wiper's touching point and at the load, by numpy."""
    upper, lower = (1 - position) * track, position * track
    wiper = max(wiper, 1e-3)
    matrix = np.array([[1 / upper + 1 / lower + 1 / wiper, -1 / wiper], [-1 / wiper, 1 / wiper + 1 / load]])
    volts = np.linalg.solve(matrix, [1 / upper, 0])
    assert pot(position, track, load, wiper) == pytest.approx(volts[1], rel=1e-6)


def test_ends_of_the_potentiometer():
    assert pot(0, 1e4, 1e5) == 0 and pot(1, 1e4, 1e5) == 1
    assert pot(0.5, 1e4, 1e15) == pytest.approx(0.5)
    assert pot(0.5, 1e4, 1e5, 1e4) < pot(0.5, 1e4, 1e5)


@given(st.floats(2, 60), st.floats(0, 0.9), st.floats(2, 32))
def test_clipping_power_by_averaging_a_sine(supply, kept, load):
    """Second route: the mean of u²/R over one turn (scipy's integral)."""
    peak = supply / 2 - kept
    mean = quad(lambda turn: (peak * np.sin(2 * np.pi * turn)) ** 2 / load, 0, 1)[0]
    assert power(supply, kept, load) == pytest.approx(mean)
    assert power(2 * supply, 2 * kept, load) == pytest.approx(4 * mean)


@pytest.mark.parametrize("law", [
    lambda: levels.decibels(ratio=0), lambda: levels.decibels(ratio=-1), lambda: levels.decibels(ratio=np.nan),
    lambda: levels.voltage_ratio(level=Q(1, "V")), lambda: levels.chain_level(levels=Q([1, np.inf], "dB")),
    lambda: loss(0, 1), lambda: loss(8, -1), lambda: coupled(0, 1, 1),
    lambda: pot(1.1, 1e4, 1e5), lambda: pot(np.nan, 1e4, 1e5), lambda: power(1, 0.5, 8),
    lambda: signal.shared_return_crosstalk(transducer_resistance=Q(32, "ohm"), return_resistance=Q(0, "ohm")),
])
def test_bad_input_is_refused(law):
    with pytest.raises(ValueError):
        law()


def test_a_bare_number_is_refused_by_name():
    with pytest.raises(TypeError, match="load_resistance"):
        signal.series_loss(load_resistance=8, series_resistance=Q(1, "ohm"))
