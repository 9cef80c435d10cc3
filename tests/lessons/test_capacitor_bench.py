"""Book 03, capacitors in their places: goals that can be met, published numbers in the pictures, fair questions."""

import numpy as np
import pytest
from fair import check_fair

from benchreckoner.lessons import capacitor_bench, capacitor_practice
from benchreckoner.units import read_quantity

PROBLEMS = [capacitor_practice._lifted_base, capacitor_practice._lost_bass, capacitor_practice._new_ohms,
            capacitor_practice._idle_hours, capacitor_practice._through_loudspeaker, capacitor_practice._emptied]


def at(declared, **wanted):
    """The picture where each named slider stands at the step nearest to this value, the others at their start."""
    positions = dict(declared.start)
    for slider in declared.sliders:
        if slider.name in wanted:
            positions[slider.name] = int(np.argmin(np.abs(np.log(np.array(slider.steps) / wanted[slider.name]))))
    return declared.at(positions)


def test_the_example_stands_in_the_picture():
    """By hand, 47 k / 12 k at 6 V, gain 100: 3.99 V without a leak, 3.27 V with 100 kohm from 3.5 V. RECOMPUTED."""
    picture = at(capacitor_bench.LEAKY_STAGE, leak=1e5)
    assert "from 3.99 V to 3.27 V" in picture.sentence and picture.points[0].x == pytest.approx(0.1)


def test_the_goal_of_the_stage_can_be_met():
    steps = capacitor_bench.LEAKY_STAGE.sliders[0].steps
    leak = min(steps, key=lambda step: abs(at(capacitor_bench.LEAKY_STAGE, leak=step).points[0].y - 3.5))
    soft, stiff = (at(capacitor_bench.LEAKY_STAGE, leak=leak, stiffness=times) for times in (1, 10))
    assert soft.points[0].y == pytest.approx(3.5, abs=0.06)
    moved = [abs(one.points[0].y - one.limits[0].value) for one in (soft, stiff)]
    assert moved[1] < moved[0] / 3


def test_the_band_holds_the_usual_transistor():
    for leak in (1e4, 1e5, 1e7):
        band, curve = (getattr(at(capacitor_bench.LEAKY_STAGE, leak=leak), what)[0] for what in ("bands", "curves"))
        inside = (curve.y >= band.low - 1e-9) & (curve.y <= band.high + 1e-9)
        # Fully open, collector and emitter stand together and the spread turns over.
        assert inside[curve.x > 0.03].all()


def test_the_goal_of_the_bass_can_be_met():
    """1 / (2 pi x 8 ohm x 200 Hz) is 99.5 uF."""
    picture = at(capacitor_bench.MOVED_CORNER, capacitance=99.5e-6)
    assert picture.points[0].x == pytest.approx(200, rel=0.04) and picture.points[0].y == pytest.approx(-3.01, abs=0.01)


def test_the_guesses_can_be_asked(tmp_path, monkeypatch):
    monkeypatch.setenv("BENCH_RECKONER_SHEET", str(tmp_path / "none.toml"))
    assert capacitor_bench.guess_leaky_stage().children and capacitor_bench.guess_thin_bass().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(30))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_an_exercise_by_its_given_numbers():
    """What a reader would reckon from the numbers as shown comes out right."""
    for seed in range(30):
        problem = capacitor_practice._lost_bass(np.random.default_rng(seed))
        farads, ohms = (read_quantity(text, unit).quantity.m_as(unit) for (_, text), unit in zip(problem.given, ("F", "ohm")))
        assert problem.right(1 / (2 * np.pi * farads * ohms))
        problem = capacitor_practice._lifted_base(np.random.default_rng(seed))
        amps, upper, lower = (read_quantity(text, unit).quantity for (_, text), unit in zip(problem.given, ("A", "ohm", "ohm")))
        assert problem.right((amps / (1 / upper + 1 / lower)).m_as("V"))
