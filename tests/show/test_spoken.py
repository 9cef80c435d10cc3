"""Figures as a mouth says them, each written down by hand."""

import pytest
from uncertainties import ufloat

from benchreckoner.bench.uncertain import Known
from benchreckoner.show.spoken import exact, figure, unit_said
from benchreckoner.units import Q


@pytest.mark.parametrize("value, unit, said", [
    (2200e-6, "F", "2200 microfarads"), (47e-9, "F", "47 nanofarads"), (0.05, "ohm", "50 milliohms"), (1, "V", "1 volt"),
    (4700, "ohm", "4.7 kilohms"), (2.2e6, "ohm", "2.2 megohms"), (2400, "turn/min", "2400 turns a minute"), (0, "ohm", "0 ohms")])
def test_a_limit_is_said_in_the_unit_of_the_trade(value, unit, said):
    assert exact(Q(value, unit), unit) == said


@pytest.mark.parametrize("value, spread, unit, said", [
    (1180e-6, 41e-6, "F", "about 1180 microfarads, give or take 41"), (0.827, 0.013, "ohm", "about 830 milliohms, give or take 13"),
    (0.001, 0.02, "ohm", "no more than about 21 milliohms"), (-0.3, 0.1, "V", "about minus 300 millivolts, give or take 100")])
def test_a_value_is_rounded_by_its_uncertainty_and_said_with_it(value, spread, unit, said):
    assert figure(Known(ufloat(value, spread / 2), unit)) == said


@pytest.mark.parametrize("value", [1e-12, 3.3e-9, 4.7e-6, 1e-3, 0.02])
def test_what_is_said_of_farads_is_read_back(value):
    number, words = exact(Q(value, "F"), "F").split(" ")
    unit, factor = unit_said(words)
    assert unit == "F" and float(number) * factor == pytest.approx(value)
