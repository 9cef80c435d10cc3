"""Letters seen from a distance and claps heard from one: against small angles, the sky, and a gas's own law."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.constants import R as GAS

from benchreckoner.physics.viewing import letter_angle, letter_height, sound_delay
from benchreckoner.units import Q

METRES = some.floats(1e-4, 1e3)


@given(height=METRES, distance=METRES)
def test_the_angle_is_that_of_the_triangle(height, distance):
    """By the law of cosines, from an eye level with the letter's middle to its foot and to its top."""
    side = distance**2 + (height / 2)**2
    cosine = (2 * side - height**2) / (2 * side)
    found = letter_angle(height=Q(height, "m"), distance=Q(distance, "m")).m_as("rad")
    assert math.cos(found) == pytest.approx(cosine, abs=1e-9)


@given(angle=some.floats(1, 600), distance=METRES)
def test_height_and_angle_undo_each_other(angle, distance):
    height = letter_height(angle=Q(angle, "arcmin"), distance=Q(distance, "m"))
    assert letter_angle(height=height, distance=Q(distance, "m")).m_as("arcmin") == pytest.approx(angle)
    assert letter_height(angle=Q(angle, "arcmin"), distance=Q(2 * distance, "m")).m_as("mm") == pytest.approx(2 * height.m_as("mm"))


def test_the_moon():
    """3474 km across at 384 400 km: about half a degree, 31 minutes of arc."""
    assert letter_angle(height=Q(3474, "km"), distance=Q(384400, "km")).m_as("arcmin") == pytest.approx(31.1, abs=0.05)


@given(celsius=some.floats(-50, 60), distance=METRES)
def test_sound_goes_as_in_an_ideal_gas(celsius, distance):
    """The root of 1.4 R T / M, with 28.96 g of dry air in a mole: another route to the same speed."""
    speed = math.sqrt(1.4 * GAS * (celsius + 273.15) / 28.96e-3)
    assert sound_delay(distance=Q(distance, "m"), temperature=Q(celsius, "degC")).m_as("s") == pytest.approx(distance / speed, rel=1e-3)


def test_four_times_as_hot_is_twice_as_fast():
    cold, hot = (sound_delay(distance=Q(1, "m"), temperature=Q(kelvins, "kelvin")).m_as("ms") for kelvins in (100, 400))
    assert cold == pytest.approx(2 * hot)


@pytest.mark.parametrize(("call", "wrong", "kind"), [
    (letter_angle, {"height": 2}, TypeError), (letter_angle, {"distance": Q(0, "m")}, ValueError), (letter_angle, {"height": Q(1, "V")}, ValueError),
    (letter_height, {"angle": Q(180, "degree")}, ValueError), (letter_height, {"distance": Q(float("nan"), "m")}, ValueError),
    (sound_delay, {"temperature": Q(-273.15, "degC")}, ValueError), (sound_delay, {"distance": Q(-1, "m")}, ValueError)])
def test_a_wrong_argument_is_named(call, wrong, kind):
    sound = {letter_angle: {"height": Q(2, "mm"), "distance": Q(350, "mm")}, letter_height: {"angle": Q(20, "arcmin"), "distance": Q(350, "mm")},
             sound_delay: {"distance": Q(8, "m"), "temperature": Q(20, "degC")}}[call]
    with pytest.raises(kind, match=next(iter(wrong))):
        call(**{**sound, **wrong})
