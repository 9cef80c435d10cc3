"""From testers' readings back to the part: the truth stays inside, causes are told apart, clashes are told."""

import numpy as np
import pytest
import uncertainties

from benchreckoner.bench.capacitor_causes import DRY, LEAKY, MORE, RESISTIVE, SOUND, fit_part
from benchreckoner.bench.capacitor_fit import LEAST_LEAK, NO_LEAK, PRINCIPLES, ShownReading, anything, region
from benchreckoner.bench.uncertain import Known
from benchreckoner.units import Q

MARKED = Q(10, "uF")


def shown(principle, value, unit="uF", share=0.02, setting=None):
    """A tester's reading, known to a share of itself (one standard deviation)."""
    law = PRINCIPLES[principle]
    plain = Q(value, unit).m_as(law.shows)
    return ShownReading(principle, Known(uncertainties.ufloat(plain, share * abs(plain)), law.shows), setting or law.usual)


def never(principle):
    return ShownReading(principle, None, PRINCIPLES[principle].usual)


def simulated(rng, names, farads, leak, series, share=0.02):
    """What these testers show of a part, each with its own chance error; no reading where the clock never stops."""
    for name in names:
        law = PRINCIPLES[name]
        true = float(law.reading(capacitance=Q(farads, "F"), leakage_resistance=Q(leak, "ohm"), series_resistance=Q(series, "ohm"),
                                 setting=law.usual).m_as(law.shows))
        yield (ShownReading(name, None, law.usual) if np.isnan(true) else
               shown(name, true * (1 + share * rng.standard_normal()), law.shows, share))


def test_the_truth_lies_within_at_least_95_times_in_100():
    """300 parts of any kind, read in one or two ways; each has one chance in twenty to be missed, in all three values at once."""
    rng = np.random.default_rng(38)
    names, inside, tried = list(PRINCIPLES), 0, 300
    for _ in range(tried):
        part = np.exp(rng.uniform(np.log([3e-6, 3e3, 0.1]), np.log([20e-6, 1e7, 300])))
        ways = rng.choice(names, size=int(rng.integers(1, 3)), replace=False)
        found = region(tuple(readings := list(simulated(rng, ways, *part))), anything(readings, MARKED))
        inside += bool(found) and np.any(np.all((found.lows <= np.log(part)) & (np.log(part) <= found.lows + found.size), axis=1))
    assert inside >= 0.95 * tried


def test_a_leak_is_bounded_and_the_bounds_hold():
    """Truth 20 kilohm on 10 uF: a charge-time tester of 10 kilohm shows 1.9733 times as much, a bridge what it is."""
    fit = fit_part([shown("charge time", 19.733, share=0.005), shown("bridge", 10, share=0.005)], marked=MARKED)
    low, high = fit.causes[0].region.span.whole(1)
    assert [cause.name for cause in fit.causes] == [LEAKY] and low < 20e3 < high and high / low < 1.35


def test_a_finer_reading_leaves_a_narrower_range():
    widths = []
    for share in (0.03, 0.01, 0.003):
        readings = [shown("charge time", 13.878, share=share), shown("bridge", 10, share=share)]
        low, high = region(readings, anything(readings, MARKED)).span.whole(1)
        assert low < 30e3 < high
        widths.append(high / low)
    assert widths[0] > widths[1] > widths[2]


@pytest.mark.parametrize(("readings", "names"), [
    ([("charge time", 18)], [LEAKY, MORE]),
    ([("charge time", 18), ("bridge", 10)], [LEAKY]),
    ([("charge time", 18), ("bridge", 18)], [MORE]),
    ([("charge time", 10)], [SOUND]),
    ([("charge time", 5)], [DRY]),
    ([("discharge time", 6.7)], [LEAKY, DRY]),
    ([("discharge time", 6.7), ("charge time", 6.6)], [DRY]),
])
def test_causes_are_told_apart(readings, names):
    fit = fit_part([shown(*one) for one in readings], marked=MARKED)
    assert [cause.name for cause in fit.causes] == names


def test_series_resistance_alone_is_found_where_only_it_can_be():
    fit = fit_part([shown("bridge", 10), shown("bridge, series resistance", 400, "ohm")], marked=MARKED)
    assert [cause.name for cause in fit.causes] == [RESISTIVE]


@pytest.mark.parametrize("readings", [
    [("charge time", 10), ("discharge time", 20)],  # a discharge tester never reads high at one time constant
    [("charge time", 10), ("bridge", 20)],  # a leak that doubles a bridge stops a charge-time tester for good
])
def test_readings_that_clash_are_told(readings):
    fit = fit_part([shown(*one) for one in readings], marked=MARKED)
    assert fit.whole is None and fit.sentences[0].startswith("These two readings can't both be right")


def test_a_clock_that_never_stops_is_a_reading_too():
    """Below 1.718 times the tester's resistor it never stops."""
    fit = fit_part([never("charge time")], marked=MARKED)
    low, high = fit.causes[0].region.span.whole(1)
    assert [cause.name for cause in fit.causes] == [LEAKY]
    assert low == pytest.approx(LEAST_LEAK) and 17183 <= high < 1.1 * 17183


def test_several_causes_say_what_to_measure_next_and_why():
    fit = fit_part([shown("charge time", 18)], marked=MARKED)
    assert "a wide old tolerance, soakage, or another part in parallel" in fit.sentences[0]
    assert fit.sentences[1].startswith("Measure this next: a bridge at 120 Hz")


def test_what_it_says_to_measure_next_does_settle_it():
    """The named reading, taken of a leaky part and of one with more farads, leaves one cause each."""
    first = shown("charge time", 18)
    for value, name in ((10, LEAKY), (17.6, MORE)):
        assert [cause.name for cause in fit_part([first, shown("bridge", value)], marked=MARKED).causes] == [name]


def test_a_normal_reading_clears_no_leak():
    fit = fit_part([shown("charge time", 10)], marked=MARKED)
    assert 10e3 < fit.hidden < NO_LEAK and "don't prove it" in fit.sentences[1]


@pytest.mark.parametrize(("call", "told"), [
    (lambda: fit_part([], marked=MARKED), "none there"),
    (lambda: fit_part([shown("charge time", 10)], marked=Q(0, "uF")), "marked"),
    (lambda: fit_part([shown("charge time", 10)], marked=MARKED, tolerance=(0.2, 0.2)), "tolerance"),
    (lambda: never("bridge"), "always shows something"),
    (lambda: ShownReading("charge time", Known(uncertainties.ufloat(0, 1e-8), "F"), Q(10, "kohm")), "above zero"),
    (lambda: shown("charge time", -1), "above zero"),
    (lambda: ShownReading("guessing", None, Q(1, "ohm")), "write one of"),
])
def test_what_cannot_be_is_refused(call, told):
    with pytest.raises(ValueError, match=told):
        call()
