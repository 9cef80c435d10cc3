"""Testers of capacitance against a second route: a numerical solution that stops at the threshold, complex impedance."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.integrate import solve_ivp

from benchreckoner.physics import testers, testers_steady
from benchreckoner.units import Q

FARADS, LEAK, SERIES = 10e-6, some.floats(-0.3, 4), some.floats(0, 0.4)
TIMED = settings(max_examples=40, deadline=None)
# The tester's resistor is 1 ohm and its supply 1 V in the second route: leak and series resistance are told in its terms.
OHM = 10e3


def part(leak, series, farads=FARADS):
    return dict(capacitance=Q(farads, "F"), leakage_resistance=Q(leak * OHM, "ohm"), series_resistance=Q(series * OHM, "ohm"))


def when(flow, seen, threshold, begin, rising=True, longest=400.0):
    """Time at which what the tester sees passes a threshold; NaN if never. Capacitance 1, started at `begin`."""
    if (seen(begin) >= threshold) == rising:
        return 0.0, begin

    def passed(_, state):
        return seen(state[0]) - threshold

    passed.terminal = True
    found = solve_ivp(lambda _, state: [flow(state[0])], (0, longest), [begin], events=passed, rtol=1e-10, atol=1e-13)
    return (found.t[-1], found.y[0, -1]) if found.t_events[0].size else (np.nan, np.nan)


def agrees(farads, expected, tolerance=1e-6):
    shown = float(farads.m_as("F")) / FARADS
    assert shown == pytest.approx(expected, rel=tolerance, abs=1e-9, nan_ok=True)


def charging(leak, series):
    """The flow into the part while the tester charges it, and what its probes see."""
    return (lambda volts: (1 - volts) / (1 + series) - volts / leak), (lambda volts: (volts + series) / (1 + series))


@TIMED
@given(leak=LEAK, series=SERIES, stop=some.floats(0.3, 0.9), start=some.floats(0, 0.25))
def test_charge_time(leak, series, stop, start):
    leak = 10**leak
    if abs(leak / (leak + 1 + series) - (stop * (1 + series) - series)) < 1e-3:
        return  # on the very edge of never, where a numerical solution is slower than the law
    flow, seen = charging(leak, series)
    first, volts = when(flow, seen, start, 0.0)
    last, _ = when(flow, seen, stop, volts) if np.isfinite(first) else (np.nan, 0)
    agrees(testers.charge_time_reading(**part(leak, series), source_resistance=Q(OHM, "ohm"), stop=stop, start=start),
           last / np.log((1 - start) / (1 - stop)))


@TIMED
@given(leak=LEAK, series=SERIES, stop=some.floats(0.1, 0.5), start=some.floats(0.6, 0.95), filling=some.floats(0, 0.2))
def test_discharge_time(leak, series, stop, start, filling):
    leak = 10**leak
    flow, seen = (lambda volts: -volts / (1 + series) - volts / leak), (lambda volts: volts / (1 + series))
    full, at_probes = leak / (leak + filling + series), (leak + series) / (leak + filling + series)  # at rest: Ohm's law
    if abs(at_probes - start) < 1e-6:
        return
    first, volts = when(flow, seen, start, full, rising=False)
    expected = when(flow, seen, stop, volts, rising=False)[0] / np.log(start / stop) if at_probes >= start else np.nan
    agrees(testers.discharge_time_reading(**part(leak, series), load_resistance=Q(OHM, "ohm"), stop=stop, start=start,
                                          charging_resistance=Q(filling * OHM, "ohm")), expected)


@TIMED
@given(series=SERIES, leak=LEAK, stop=some.floats(0.1, 0.9))
def test_discharge_from_the_switch_over(series, leak, stop):
    """Emptied from what the leak and the series resistance leave of the whole supply."""
    leak = 10**leak
    time, _ = when(lambda volts: -volts / (1 + series) - volts / leak, lambda volts: volts / (1 + series), stop,
                   leak / (leak + series), rising=False)
    agrees(testers.discharge_time_reading(**part(leak, series), load_resistance=Q(OHM, "ohm"), stop=stop), time / np.log(1 / stop))


@TIMED
@given(leak=LEAK, series=SERIES, start=some.floats(0, 0.4), stop=some.floats(0.5, 2))
def test_ramp(leak, series, start, stop):
    """A current of 1 in these units: 1 V by the tester's resistor."""
    leak = 10**leak
    if abs(leak + series - stop) < 1e-2 * stop:
        return
    flow, seen = (lambda volts: 1 - volts / leak), (lambda volts: volts + series)
    first, volts = when(flow, seen, start, 0.0)
    last, _ = when(flow, seen, stop, volts) if np.isfinite(first) else (np.nan, 0)
    agrees(testers.ramp_reading(**part(leak, series), current=Q(1 / OHM, "A"), start=Q(start, "V"), stop=Q(stop, "V")),
           last / (stop - start))


@TIMED
@given(leak=LEAK, series=some.floats(0, 0.3), low=some.floats(0.2, 0.4), high=some.floats(0.6, 0.8))
def test_oscillator(leak, series, low, high):
    """Both halves of one round, each to its own threshold."""
    leak = 10**leak
    if abs(leak / (leak + 1 + series) - (high * (1 + series) - series)) < 1e-3:
        return
    flow, seen = charging(leak, series)
    if high - low <= series / (1 + series) + 1e-3:
        return
    up, top = when(flow, seen, high, low * (1 + series))
    expected = np.nan
    if np.isfinite(up):
        down, _ = when(lambda volts: -volts / (1 + series) - volts / leak, lambda volts: volts / (1 + series), low, top, rising=False)
        expected = (up + down) / np.log((1 - low) * high / ((1 - high) * low))
    agrees(testers.oscillator_reading(**part(leak, series), source_resistance=Q(OHM, "ohm"), low=low, high=high), expected)


def test_an_oscillator_that_jumps_its_whole_swing_shows_nought():
    shown = testers.oscillator_reading(**part(100, 0.6), source_resistance=Q(OHM, "ohm"))
    assert shown.m_as("F") == 0


@given(leak=some.floats(1, 7), series=some.floats(0, 100), farads=some.floats(-7, -2), hertz=some.floats(1.7, 5))
def test_bridge_against_complex_impedance(leak, series, farads, hertz):
    leak, farads, hertz = 10**leak, 10**farads, 10**hertz
    turn = 2j * np.pi * hertz
    impedance = series + 1 / (1 / leak + turn * farads)
    given = dict(capacitance=Q(farads, "F"), leakage_resistance=Q(leak, "ohm"), series_resistance=Q(series, "ohm"),
                 frequency=Q(hertz, "Hz"))
    assert testers_steady.bridge_resistance(**given).m_as("ohm") == pytest.approx(impedance.real, rel=1e-6)
    assert testers_steady.bridge_capacitance(**given).m_as("F") == pytest.approx(-1 / (abs(turn) * impedance.imag), rel=1e-6)
    assert testers_steady.bridge_capacitance(**given, mode="parallel").m_as("F") == pytest.approx(
        (1 / impedance).imag / abs(turn), rel=1e-6)


@TIMED
@given(leak=LEAK, series=some.floats(0.01, 1), time=some.floats(0.1, 10))
def test_integrator_adds_up_what_flows(leak, series, time):
    leak = 10**leak

    def flow(_, state):
        current = (1 - state[0]) / series
        return [current - state[0] / leak, current]

    found = solve_ivp(flow, (0, time), [0.0, 0.0], rtol=1e-10, atol=1e-13)
    agrees(testers_steady.integrator_reading(**part(leak, 0), time=Q(time * OHM * FARADS, "s"),
                                             source_resistance=Q(series * OHM, "ohm")), found.y[1, -1])
    agrees(testers_steady.integrator_reading(**part(leak, series), time=Q(time * OHM * FARADS, "s")), found.y[1, -1])


@pytest.mark.parametrize(("law", "never", "settings_of"), [
    (testers.charge_time_reading, np.e - 1, dict(source_resistance=Q(OHM, "ohm"))),
    (testers.oscillator_reading, 2.0, dict(source_resistance=Q(OHM, "ohm"))),
    (testers.ramp_reading, 1.0, dict(current=Q(1 / OHM, "A"), stop=Q(1, "V"))),
])
def test_below_these_ohms_it_never_stops(law, never, settings_of):
    """k/(1-k) times the tester's resistor; just above it still shows something, and more than twice."""
    shown = law(**part(np.array([0.999, 1.001]) * never, 0), **settings_of).m_as("uF")
    assert np.isnan(shown[0]) and shown[1] > 20


def test_a_source_too_weak_for_the_leak_never_begins_to_empty_it():
    """A tenth of the leak's ohms may stand before it, if the clock starts at nine tenths; more may not."""
    shown = testers.discharge_time_reading(**part(np.array([0.5, 1.0, 100.0]), 0), load_resistance=Q(OHM, "ohm"), start=0.9,
                                           stop=0.3, charging_resistance=Q(1, "kohm")).m_as("uF")
    assert np.isnan(shown[0]) and shown[1:] == pytest.approx([5, 10 * 100 / 101])


LAWS = [
    (testers.charge_time_reading, dict(source_resistance=Q(OHM, "ohm"))),
    (testers.discharge_time_reading, dict(load_resistance=Q(OHM, "ohm"))),
    (testers.ramp_reading, dict(current=Q(1 / OHM, "A"), stop=Q(1, "V"))),
    (testers.oscillator_reading, dict(source_resistance=Q(OHM, "ohm"))),
    (testers_steady.bridge_capacitance, dict(frequency=Q(120, "Hz"))),
    (testers_steady.integrator_reading, dict(time=Q(0.1, "s"))),
]


@pytest.mark.parametrize(("law", "own"), LAWS, ids=lambda one: getattr(one, "__name__", ""))
@given(farads=some.floats(-6.5, -2.5))
def test_a_perfect_part_shows_what_it_is(law, own, farads):
    perfect = dict(capacitance=Q(10**farads, "F"), leakage_resistance=Q(1e15, "ohm"), series_resistance=Q(0, "ohm"))
    assert law(**perfect, **own).m_as("F") == pytest.approx(10**farads, rel=1e-6)


@pytest.mark.parametrize(("law", "own"), LAWS, ids=lambda one: getattr(one, "__name__", ""))
@pytest.mark.parametrize(("change", "told"), [
    (dict(capacitance=Q(0, "F")), "capacitance"), (dict(capacitance=Q(-1, "uF")), "capacitance"),
    (dict(leakage_resistance=Q(0, "ohm")), "leakage_resistance"), (dict(series_resistance=Q(-1, "ohm")), "series_resistance"),
    (dict(leakage_resistance=Q(np.nan, "ohm")), "leakage_resistance")])
def test_what_cannot_be_is_refused(law, own, change, told):
    with pytest.raises(ValueError, match=told):
        law(**{**part(10, 0), **change}, **own)


@pytest.mark.parametrize("call", [
    lambda: testers.charge_time_reading(**part(10, 0), source_resistance=Q(OHM, "ohm"), stop=1.0),
    lambda: testers.charge_time_reading(**part(10, 0), source_resistance=Q(OHM, "ohm"), start=0.7, stop=0.6),
    lambda: testers.discharge_time_reading(**part(10, 0), load_resistance=Q(OHM, "ohm"), start=0.2),
    lambda: testers.discharge_time_reading(**part(10, 0), load_resistance=Q(OHM, "ohm"), charging_resistance=Q(1, "ohm")),
    lambda: testers.oscillator_reading(**part(10, 0), source_resistance=Q(OHM, "ohm"), low=0.0),
    lambda: testers.ramp_reading(**part(10, 0), current=Q(1, "mA"), start=Q(2, "V"), stop=Q(1, "V")),
    lambda: testers_steady.bridge_capacitance(**part(10, 0), frequency=Q(120, "Hz"), mode="other"),
])
def test_a_tester_set_wrongly_is_refused(call):
    with pytest.raises(ValueError, match="write"):
        call()
