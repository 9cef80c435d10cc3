"""Laws of one spot and its film: limits, second routes, refusals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from benchreckoner.physics import spots
from benchreckoner.units import Q

radii = st.floats(1e-7, 5e-5)
BRONZE, COPPER = Q(11.5e-8, "ohm m"), Q(1.678e-8, "ohm m")


@given(radii)
def test_the_spot_as_current_that_spreads(radius):
    """Second route: shells of the current's flow, oblate half-spheroids, added up by scipy for one side."""
    inner, _ = quad(lambda angle: 1.0, 0, np.pi / 2)  # each shell adds rho/(2 pi a) per radian of opening
    one_side = 11.5e-8 / (2 * np.pi * radius) * inner
    whole = spots.constriction_resistance(resistivity=BRONZE, spot_radius=Q(radius, "m")).m_as("ohm")
    assert whole == pytest.approx(2 * one_side)


def test_two_metals_lie_half_way_and_one_side_is_half():
    spot = {"resistivity": BRONZE, "spot_radius": Q(10, "um")}
    both, one = (spots.constriction_resistance(**spot, other_resistivity=other) for other in (BRONZE, Q(0, "ohm m")))
    mixed = spots.constriction_resistance(**spot, other_resistivity=COPPER)
    copper = spots.constriction_resistance(resistivity=COPPER, spot_radius=Q(10, "um"))
    assert one.m == pytest.approx(both.m / 2)
    assert mixed.m_as("ohm") == pytest.approx((both + copper).m_as("ohm") / 2)


def test_spot_and_film_together():
    """P16: 3.1831 mohm of film and 0.86205 mohm of copper make 4.0451 mohm."""
    spot = Q(10, "um")
    whole = (spots.constriction_resistance(resistivity=Q(1.7241e-8, "ohm m"), spot_radius=spot)
             + spots.film_resistance(film_resistivity=Q(1e-12, "ohm m^2"), spot_radius=spot))
    assert whole.m_as("mohm") == pytest.approx(4.0451, rel=1e-3)


@given(radii)
def test_a_film_is_the_resistance_of_a_patch(radius):
    film = spots.film_resistance(film_resistivity=Q(1e-12, "ohm m^2"), spot_radius=Q(radius, "m"))
    half = spots.film_resistance(film_resistivity=Q(1e-12, "ohm m^2"), spot_radius=Q(radius / 2, "m"))
    assert half.m == pytest.approx(4 * film.m)


@given(st.floats(1e-3, 0.12), st.floats(250, 320))
def test_a_hot_spot_by_adding_up_its_volts(volts, around):
    """Second route: F12's temperature at every place of the spot, by scipy; ohms grow as the temperature does."""
    lorenz = 2.4430e-8
    hottest = np.sqrt(around**2 + volts**2 / (4 * lorenz))
    carried, _ = quad(lambda place: around / np.sqrt(hottest**2 - place**2 / lorenz), -volts / 2, volts / 2)  # the current times the cold ohms
    ratio = spots.heated_ratio(voltage_drop=Q(volts, "V"), surroundings=Q(around, "K"))
    assert ratio == pytest.approx(volts / carried, rel=1e-6)


def test_a_spot_without_volts_stays_cold():
    """And a few volts add the square of x over three."""
    assert spots.heated_ratio(voltage_drop=Q(0, "V")) == 1
    x = 0.001 / 0.0916393
    assert spots.heated_ratio(voltage_drop=Q(1, "mV")) - 1 == pytest.approx(x**2 / 3, rel=1e-3)


def test_the_metals_are_whole():
    for name, metal in spots.METALS.items():
        assert metal["resistivity"].m_as("ohm m") > 0 and metal["hardness"].m_as("MPa") > 0
        for what in ("resistivity", "hardness"):
            assert metal[f"{what}_source"] and metal[f"{what}_mark"] in ("FOUND", "RECOMPUTED", "MEMORY", "PRACTICE"), name


@pytest.mark.parametrize(("law", "word"), [
    (lambda: spots.constriction_resistance(resistivity=COPPER, spot_radius=Q(39, "nm")), "40 nm"),
    (lambda: spots.constriction_resistance(resistivity=Q(-1, "ohm m"), spot_radius=Q(1, "um")), "resistivity"),
    (lambda: spots.film_resistance(film_resistivity=Q(1, "ohm m"), spot_radius=Q(1, "um")), "film_resistivity"),
    (lambda: spots.heated_ratio(voltage_drop=Q(-1, "mV")), "voltage_drop"),
    (lambda: spots.heated_ratio(voltage_drop=Q(1, "A")), "voltage_drop"),
])
def test_bad_input_is_refused(law, word):
    with pytest.raises(ValueError, match=word):
        law()
