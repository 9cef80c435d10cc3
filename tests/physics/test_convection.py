"""Laws of rising air: another library, an old formula, published plates and a duct made whole, what is refused."""

import numpy as np
import pytest
from ht import conv_free_immersed as other

from benchreckoner.physics.convection import (
    air_properties, film_coefficient, lying_plate_bottom, lying_plate_top, rayleigh_number, standing_plate, standing_plate_smooth,
)
from benchreckoner.units import Q


@pytest.mark.parametrize("rayleigh", [1e2, 1e4, 3e5, 1e7, 9e8])
def test_standing_plates_agree_with_another_library(rayleigh):
    assert standing_plate(rayleigh=rayleigh, prandtl=0.7) == pytest.approx(other.Nu_vertical_plate_Churchill(0.7, rayleigh / 0.7))


@pytest.mark.parametrize("rayleigh", [2e4, 1e5, 5e6])
def test_lying_plates_agree_with_another_library(rayleigh):
    up = other.Nu_horizontal_plate_McAdams(0.7, rayleigh / 0.7, buoyancy=True)
    down = other.Nu_horizontal_plate_McAdams(0.7, rayleigh / 0.7, buoyancy=False)
    assert lying_plate_top(rayleigh=rayleigh) == pytest.approx(up)
    assert lying_plate_bottom(rayleigh=rayleigh) == pytest.approx(down)


@pytest.mark.parametrize("rayleigh", [1e4, 1e5, 1e6, 1e7])
def test_both_forms_of_one_plate_stay_within_a_tenth(rayleigh):
    whole, smooth = standing_plate(rayleigh=rayleigh, prandtl=0.7), standing_plate_smooth(rayleigh=rayleigh, prandtl=0.7)
    assert smooth == pytest.approx(whole, rel=0.1)


def test_an_older_formula_gives_the_published_plate():
    """Check value P12 by its own formula, 0.678 Ra^(1/4) (Pr / (0.952 + Pr))^(1/4); ours lies a little below it."""
    rayleigh, prandtl = 1.647e8, 0.711
    older = 0.678 * rayleigh**0.25 * (prandtl / (0.952 + prandtl)) ** 0.25 * 0.02614 / 0.4
    assert older == pytest.approx(4.06, rel=2e-3) and older * 26 == pytest.approx(105.5, rel=2e-3)
    assert 0.94 < standing_plate_smooth(rayleigh=rayleigh, prandtl=prandtl) * 0.02614 / 0.4 / older < 1


def test_a_published_plate_as_a_whole():
    """Check value P10: 1060 W from 0.71 by 1.02 m at 232 degC in air of 23 degC."""
    rayleigh = rayleigh_number(temperature_difference=Q(209, "K"), expansion=Q(1 / 400, "1/K"), length=Q(0.71, "m"),
                               viscosity=Q(26.4e-6, "m**2/s"), diffusivity=Q(38.3e-6, "m**2/s"), gravity=Q(9.8, "m/s**2"))
    film = film_coefficient(nusselt=standing_plate(rayleigh=rayleigh, prandtl=0.69), conductivity=Q(0.0338, "W/(m*K)"),
                            length=Q(0.71, "m"))
    assert (film * Q(0.71 * 1.02, "m**2") * Q(209, "K")).m_as("W") == pytest.approx(1060, rel=2e-3)


def test_a_published_duct_as_a_whole():
    """Check value P16: two sides, top and bottom of a warm duct lose 246 W a metre."""
    air = dict(temperature_difference=Q(30, "K"), expansion=Q(1 / 303, "1/K"), viscosity=Q(16.2e-6, "m**2/s"),
               diffusivity=Q(22.9e-6, "m**2/s"), gravity=Q(9.8, "m/s**2"))
    high, wide = (rayleigh_number(length=Q(length, "m"), **air) for length in (0.3, 0.375))
    film = [film_coefficient(nusselt=nusselt, conductivity=Q(0.0265, "W/(m*K)"), length=Q(length, "m")).m_as("W/(m**2*K)")
            for nusselt, length in ((standing_plate_smooth(rayleigh=high, prandtl=0.71), 0.3),
                                    (lying_plate_top(rayleigh=wide), 0.375), (lying_plate_bottom(rayleigh=wide), 0.375))]
    assert 30 * (2 * 0.3 * film[0] + 0.75 * film[1] + 0.75 * film[2]) == pytest.approx(246, rel=3e-3)


@pytest.mark.parametrize("celsius", [-20, 0, 20, 45, 77, 110, 150])
def test_air_is_air_by_gas_law_and_viscosity(celsius):
    """Sutherland's viscosity over the density of an ideal gas; the Prandtl number of a gas of two atoms hardly moves.

    The table is for 100 kPa, 1.3 % thinner than one atmosphere.
    """
    kelvin = celsius + 273.15
    viscosity = 1.716e-5 * (kelvin / 273.15) ** 1.5 * (273.15 + 110.4) / (kelvin + 110.4)
    air = air_properties(temperature=Q(celsius, "degC"))
    assert air.viscosity.m_as("m**2/s") == pytest.approx(viscosity / (101325 / (287.05 * kelvin)), rel=0.03)
    assert 0.68 < air.prandtl < 0.73
    assert air.conductivity.m_as("W/(m*K)") == pytest.approx(
        air.diffusivity.m_as("m**2/s") * 101325 / (287.05 * kelvin) * 1007, rel=0.03)


def test_twice_the_length_is_eight_times_the_number():
    one, two = (rayleigh_number(temperature_difference=Q(40, "K"), expansion=Q(1 / 320, "1/K"), length=Q(length, "mm"),
                                viscosity=Q(1.8e-5, "m**2/s"), diffusivity=Q(2.5e-5, "m**2/s")) for length in (20, 40))
    assert two == pytest.approx(8 * one)


def test_no_drive_leaves_little():
    assert standing_plate_smooth(rayleigh=0, prandtl=0.7) == 0.68 and lying_plate_top(rayleigh=0) == 0 == lying_plate_bottom(rayleigh=0)


def test_the_top_changes_its_law_where_the_sources_do():
    assert lying_plate_top(rayleigh=1e7 - 1) == pytest.approx(lying_plate_top(rayleigh=1e7), rel=0.07)
    assert lying_plate_top(rayleigh=1e8) == pytest.approx(2.1544 * lying_plate_top(rayleigh=1e7), rel=1e-4)


@pytest.mark.parametrize(("call", "told"), [
    (lambda: air_properties(temperature=Q(200, "degC")), "temperature: the table"),
    (lambda: air_properties(temperature=Q(-30, "degC")), "temperature: the table"),
    (lambda: standing_plate_smooth(rayleigh=2e9, prandtl=0.7), "rayleigh: smooth up to 1e9"),
    (lambda: standing_plate(rayleigh=-1, prandtl=0.7), "rayleigh: must be at least 0"),
    (lambda: standing_plate(rayleigh=1e5, prandtl=0), "prandtl"),
])
def test_what_cannot_be_is_told(call, told):
    with pytest.raises(ValueError, match=told):
        call()


@pytest.mark.parametrize("wrong", [np.nan, Q(3, "m")])
def test_no_number_is_told(wrong):
    with pytest.raises(TypeError, match="rayleigh"):
        lying_plate_bottom(rayleigh=wrong)
