"""Laws of force: metal that gives way, metal that springs, slopes on log axes, second routes, refusals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from benchreckoner.physics import force as force_laws
from benchreckoner.physics import spots, springing
from benchreckoner.units import Q

newtons = st.floats(0.01, 5)
pascals = st.floats(5e7, 4e9)
BRONZE, COPPER = Q(11.5e-8, "ohm m"), Q(1.678e-8, "ohm m")
STIFFNESS, BALL, SOFT = Q(73.496, "GPa"), Q(1, "mm"), Q(369, "MPa")


def slope(law, force):
    """Slope on log axes: how many per cent of ohms for one per cent of force."""
    low, high = (law(Q(force * step, "N")).m_as("ohm") for step in (1 / 1.001, 1.001))
    return np.log(high / low) / np.log(1.001**2)


@given(newtons, pascals)
def test_given_way_metal_by_radius_and_by_force(force, hardness):
    """Second route: the area that carries the force, then the current through it."""
    load = {"force": Q(force, "N"), "hardness": Q(hardness, "Pa")}
    radius = force_laws.plastic_radius(**load)
    assert np.pi * radius.m_as("m")**2 * hardness == pytest.approx(force)
    by_spot = spots.constriction_resistance(resistivity=BRONZE, spot_radius=radius)
    assert force_laws.plastic_resistance(resistivity=BRONZE, **load).m == pytest.approx(by_spot.m)


@given(newtons)
def test_slopes_on_log_axes(force):
    def film(load):
        radius = force_laws.plastic_radius(force=load, hardness=SOFT)
        return spots.film_resistance(film_resistivity=Q(1, "ohm um^2"), spot_radius=radius)

    assert slope(lambda load: force_laws.plastic_resistance(resistivity=BRONZE, force=load, hardness=SOFT),
                 force) == pytest.approx(-1 / 2)
    assert slope(film, force) == pytest.approx(-1)
    hard = Q(4e9, "Pa")  # springs up to 13 N
    assert slope(lambda load: springing.elastic_resistance(resistivity=BRONZE, force=load, ball_radius=BALL,
                                                       stiffness=STIFFNESS, hardness=hard), force) == pytest.approx(-1 / 3)


def test_the_yield_force_by_a_root_finder():
    """Second route: the force at which Hertz's mean pressure is 0.4 of the hardness (scipy)."""
    def excess(force):
        radius = springing.elastic_radius(force=Q(force, "N"), ball_radius=BALL, stiffness=STIFFNESS).m_as("m")
        return force / (np.pi * radius**2) - 0.4 * SOFT.m_as("Pa")

    found = springing.yield_force(ball_radius=BALL, stiffness=STIFFNESS, hardness=SOFT).m_as("N")
    assert found == pytest.approx(brentq(excess, 1e-4, 1), rel=1e-6)


def test_p15_is_past_its_limit_and_refused():
    """P15: at 0.1 N the mean pressure is 314.04 MPa, 0.8511 of the hardness."""
    radius = springing.elastic_radius(force=Q(0.1, "N"), ball_radius=BALL, stiffness=STIFFNESS).m_as("m")
    assert 0.1 / (np.pi * radius**2) == pytest.approx(314.04e6, rel=1e-3)
    ball = {"resistivity": COPPER, "ball_radius": BALL, "stiffness": STIFFNESS, "hardness": SOFT}
    with pytest.raises(ValueError, match="gives way"):
        springing.elastic_resistance(force=Q(0.1, "N"), **ball)
    with pytest.raises(ValueError, match="gives way"):
        springing.elastic_resistance(force=Q([0.001, 0.1], "N"), **ball)
    assert springing.elastic_resistance(force=Q(0.0103, "N"), **ball).m > 0


@given(st.lists(st.tuples(newtons, st.floats(1e-3, 10)), min_size=3, max_size=8, unique_by=lambda pair: round(pair[0], 2)))
def test_the_slope_by_polyfit(pairs):
    """Second route: numpy's straight line through the logarithms."""
    forces, ohms = np.array(pairs).T
    ours = force_laws.force_exponent(forces=Q(forces, "N"), resistances=Q(ohms, "ohm"))
    assert ours == pytest.approx(-np.polyfit(np.log(forces), np.log(ohms), 1)[0], rel=1e-6, abs=1e-9)


@given(st.floats(0.2, 1.5), newtons)
def test_a_slope_put_in_comes_out(exponent, force):
    forces = Q(force * np.array([1.0, 1.7, 3.0, 6.0]), "N")
    ohms = force_laws.resistance_at_force(resistance=Q(0.3, "ohm"), force=Q(force, "N"), new_force=forces, exponent=exponent)
    assert force_laws.force_exponent(forces=forces, resistances=ohms) == pytest.approx(exponent)


@pytest.mark.parametrize(("law", "word"), [
    (lambda: force_laws.plastic_radius(force=Q(0, "N"), hardness=SOFT), "force"),
    (lambda: springing.shared_modulus(modulus=SOFT, poisson_ratio=0.7, other_modulus=SOFT, other_poisson_ratio=0.3), "poisson_ratio"),
    (lambda: force_laws.resistance_at_force(resistance=Q(1, "ohm"), force=Q(1, "N"), new_force=Q(2, "N"), exponent=np.inf), "exponent"),
    (lambda: force_laws.force_exponent(forces=Q([1, 1], "N"), resistances=Q([1, 2], "ohm")), "all the same"),
    (lambda: force_laws.force_exponent(forces=Q([1], "N"), resistances=Q([1], "ohm")), "two readings"),
    (lambda: force_laws.scale_force(mass=Q(-1, "g")), "mass"),
])
def test_bad_input_is_refused(law, word):
    with pytest.raises(ValueError, match=word):
        law()
