"""Laws of one contact: limits, slopes on log axes, second routes, refusals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from benchreckoner.physics import spots
from benchreckoner.physics.fritting import fritted_resistance
from benchreckoner.units import Q

newtons = st.floats(0.01, 5)
pascals = st.floats(5e7, 4e9)
radii = st.floats(1e-7, 5e-5)
BRONZE, COPPER = Q(11.5e-8, "ohm m"), Q(1.678e-8, "ohm m")
STIFFNESS, BALL, SOFT = Q(73.496, "GPa"), Q(1, "mm"), Q(369, "MPa")


def slope(law, force):
    """Slope on log axes: how many per cent of ohms for one per cent of force."""
    low, high = (law(Q(force * step, "N")).m_as("ohm") for step in (1 / 1.001, 1.001))
    return np.log(high / low) / np.log(1.001**2)


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


@given(newtons, pascals)
def test_given_way_metal_by_radius_and_by_force(force, hardness):
    """Second route: the area that carries the force, then the current through it."""
    load = {"force": Q(force, "N"), "hardness": Q(hardness, "Pa")}
    radius = spots.plastic_radius(**load)
    assert np.pi * radius.m_as("m")**2 * hardness == pytest.approx(force)
    by_spot = spots.constriction_resistance(resistivity=BRONZE, spot_radius=radius)
    assert spots.plastic_resistance(resistivity=BRONZE, **load).m == pytest.approx(by_spot.m)


@given(newtons)
def test_slopes_on_log_axes(force):
    def film(load):
        radius = spots.plastic_radius(force=load, hardness=SOFT)
        return spots.film_resistance(film_resistivity=Q(1, "ohm um^2"), spot_radius=radius)

    assert slope(lambda load: spots.plastic_resistance(resistivity=BRONZE, force=load, hardness=SOFT),
                 force) == pytest.approx(-1 / 2)
    assert slope(film, force) == pytest.approx(-1)
    hard = Q(4e9, "Pa")  # springs up to 13 N
    assert slope(lambda load: spots.elastic_resistance(resistivity=BRONZE, force=load, ball_radius=BALL,
                                                       stiffness=STIFFNESS, hardness=hard), force) == pytest.approx(-1 / 3)


def test_the_yield_force_by_a_root_finder():
    """Second route: the force at which Hertz's mean pressure is 0.4 of the hardness (scipy)."""
    def excess(force):
        radius = spots.elastic_radius(force=Q(force, "N"), ball_radius=BALL, stiffness=STIFFNESS).m_as("m")
        return force / (np.pi * radius**2) - 0.4 * SOFT.m_as("Pa")

    found = spots.yield_force(ball_radius=BALL, stiffness=STIFFNESS, hardness=SOFT).m_as("N")
    assert found == pytest.approx(brentq(excess, 1e-4, 1), rel=1e-6)


def test_p15_is_past_its_limit_and_refused():
    """P15: at 0.1 N the mean pressure is 314.04 MPa, 0.8511 of the hardness."""
    radius = spots.elastic_radius(force=Q(0.1, "N"), ball_radius=BALL, stiffness=STIFFNESS).m_as("m")
    assert 0.1 / (np.pi * radius**2) == pytest.approx(314.04e6, rel=1e-3)
    ball = {"resistivity": COPPER, "ball_radius": BALL, "stiffness": STIFFNESS, "hardness": SOFT}
    with pytest.raises(ValueError, match="gives way"):
        spots.elastic_resistance(force=Q(0.1, "N"), **ball)
    with pytest.raises(ValueError, match="gives way"):
        spots.elastic_resistance(force=Q([0.001, 0.1], "N"), **ball)
    assert spots.elastic_resistance(force=Q(0.0103, "N"), **ball).m > 0


@given(st.lists(st.tuples(newtons, st.floats(1e-3, 10)), min_size=3, max_size=8, unique_by=lambda pair: round(pair[0], 2)))
def test_the_slope_by_polyfit(pairs):
    """Second route: numpy's straight line through the logarithms."""
    forces, ohms = np.array(pairs).T
    ours = spots.force_exponent(forces=Q(forces, "N"), resistances=Q(ohms, "ohm"))
    assert ours == pytest.approx(-np.polyfit(np.log(forces), np.log(ohms), 1)[0], rel=1e-6, abs=1e-9)


@given(st.floats(0.2, 1.5), newtons)
def test_a_slope_put_in_comes_out(exponent, force):
    forces = Q(force * np.array([1.0, 1.7, 3.0, 6.0]), "N")
    ohms = spots.resistance_at_force(resistance=Q(0.3, "ohm"), force=Q(force, "N"), new_force=forces, exponent=exponent)
    assert spots.force_exponent(forces=forces, resistances=ohms) == pytest.approx(exponent)


def fritted(source, series, breakdown=1.0):
    return fritted_resistance(source_voltage=Q(source, "V"), series_resistance=Q(series, "ohm"),
                              filmed_resistance=Q(10, "kohm"), clean_resistance=Q(20, "mohm"),
                              breakdown_voltage=Q(breakdown, "V"), cessation_voltage=Q(0.3, "V")).m_as("ohm")


@given(st.floats(0.0, 12), st.floats(1, 1e5), st.floats(0.3, 9))
def test_a_break_never_makes_a_contact_worse_nor_better_than_clean(source, series, breakdown):
    left = fritted(source, series, breakdown)
    assert 0.02 <= left <= 10_000 * (1 + 1e-9)
    if source * 10_000 / (10_000 + series) < breakdown:
        assert left == pytest.approx(10_000)
    elif left > 0.02:
        # Kirchhoff by hand: the contact keeps the cessation voltage.
        assert source * left / (left + series) == pytest.approx(0.3)


def test_much_current_leaves_a_clean_contact_and_20_mv_nothing_changed():
    assert fritted(12, 0.01) == pytest.approx(0.02)
    assert fritted(0.02, 1000) == pytest.approx(10_000)
    assert fritted([0.02, 3], 1000) == pytest.approx([10_000, 111.111], rel=1e-4)


def test_the_metals_are_whole():
    for name, metal in spots.METALS.items():
        assert metal["resistivity"].m_as("ohm m") > 0 and metal["hardness"].m_as("MPa") > 0
        for what in ("resistivity", "hardness"):
            assert metal[f"{what}_source"] and metal[f"{what}_mark"] in ("FOUND", "RECOMPUTED", "MEMORY", "PRACTICE"), name


@pytest.mark.parametrize(("law", "word"), [
    (lambda: spots.constriction_resistance(resistivity=COPPER, spot_radius=Q(39, "nm")), "40 nm"),
    (lambda: spots.constriction_resistance(resistivity=Q(-1, "ohm m"), spot_radius=Q(1, "um")), "resistivity"),
    (lambda: spots.film_resistance(film_resistivity=Q(1, "ohm m"), spot_radius=Q(1, "um")), "film_resistivity"),
    (lambda: spots.plastic_radius(force=Q(0, "N"), hardness=SOFT), "force"),
    (lambda: spots.shared_modulus(modulus=SOFT, poisson_ratio=0.7, other_modulus=SOFT, other_poisson_ratio=0.3), "poisson_ratio"),
    (lambda: spots.resistance_at_force(resistance=Q(1, "ohm"), force=Q(1, "N"), new_force=Q(2, "N"), exponent=0), "exponent"),
    (lambda: spots.force_exponent(forces=Q([1, 1], "N"), resistances=Q([1, 2], "ohm")), "all the same"),
    (lambda: spots.force_exponent(forces=Q([1], "N"), resistances=Q([1], "ohm")), "two readings"),
    (lambda: spots.scale_force(mass=Q(-1, "g")), "mass"),
    (lambda: fritted(3, 1000, breakdown=0.2), "breakdown_voltage"),
    (lambda: fritted_resistance(source_voltage=Q(3, "V"), series_resistance=Q(1, "kohm"), filmed_resistance=Q(1, "kohm"),
                                clean_resistance=Q(1, "ohm"), breakdown_voltage=Q(1, "V"), cessation_voltage=Q(0.5, "V")), "soften"),
])
def test_bad_input_is_refused(law, word):
    with pytest.raises(ValueError, match=word):
        law()
