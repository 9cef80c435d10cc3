"""Cold against warm on a motor whose truth is known: every part is found again, and what is not the motor's is left over."""

import numpy as np
import pytest
import uncertainties

from benchreckoner.bench.uncertain import Known
from benchreckoner.bench.warm_sort import Run, sort_warm

OHMS, CONSTANT, SET = 15.0, 0.013, 3.2672564


def known(value, spread, unit):
    return Known(uncertainties.ufloat(value, spread), unit)


def sorted_run(rng=None, *, winding=30.0, shell=24.0, torque=1.0, governed=True, slip=0.0, spread=1e-6):
    """What a motor at 20 degC and warm would be read as, each reading off by its spread times chance."""
    def read(value, unit):
        return known(value * (1 + (spread * rng.normal() if rng else 0)), spread * value, unit)

    def run(rise_winding, rise_shell, share, slipped):
        strength = 1 - 0.002 * rise_shell
        amps, ohms = 0.085 * share / strength, OHMS * (254.5 + rise_winding) / 254.5
        volts = SET + 15 * amps if governed else SET + 15 * 0.085
        speed = (volts - amps * ohms) / (CONSTANT * strength) / (2 * np.pi) * 60 * (1 - slipped)
        return Run(read(speed, "turn/min"), read(volts, "V"), read(amps, "A"))

    late, stopped = (OHMS * (254.5 + rise) / 254.5 for rise in (shell, winding))
    return sort_warm(cold=run(0, 0, 1, 0), warm=run(winding, shell, torque, slip), cold_ohms=read(OHMS, "ohm"),
                     first_ohms=read(late + (stopped - late) * np.exp(-5 / 18), "ohm"), late_ohms=read(late, "ohm"),
                     waited=known(5, 1e-6, "s"), time_constant=known(18, 1e-5, "s"), temperature=known(20, 1e-6, "degC"),
                     magnet_loss=known(-0.002, 1e-9, "1/delta_degC"))


@pytest.mark.parametrize("governed", [True, False])
@pytest.mark.parametrize("torque", [0.85, 1.0, 1.2])
def test_the_truth_is_found_again(governed, torque):
    found = sorted_run(governed=governed, torque=torque)
    assert found.winding_rise.plain == pytest.approx(30, abs=1e-3) and found.shell_rise.plain == pytest.approx(24, abs=1e-3)
    assert found.torque.plain == pytest.approx(100 * (torque - 1), abs=1e-3)
    assert abs(found.left.plain) < 0.03, "the parts add up to the change, but for its third order: 15 % leave 0.03 %"
    assert found.parts["magnet"].plain == pytest.approx(200 * 0.048 / 1.952, abs=1e-3)
    assert found.parts["copper"].plain < 0 < found.parts["magnet"].plain


def test_copper_by_hand():
    """Mean current times the gained ohms, over the mean of the turning volts."""
    found = sorted_run(governed=False)
    warm, gained = 0.085 / 0.952, OHMS * 30 / 254.5
    turning = (SET + (SET + 15 * 0.085 - warm * (OHMS + gained))) / 2
    assert found.parts["copper"].plain == pytest.approx(-100 * (0.085 + warm) / 2 * gained / turning, abs=1e-3)


def test_a_belt_that_slips_is_left_over():
    found = sorted_run(slip=0.02)
    assert found.left.plain == pytest.approx(-2, abs=0.05) and "belt that slips" in found.sentences[2]
    assert "no more than the readings explain" in sorted_run(spread=1e-3).sentences[2]


@pytest.mark.parametrize(("torque", "told"), [(0.85, "15.0 ± 0.0 % less torque than cold: grease"), (1.2, "20.0 ± 0.0 % more torque"),
                                              (1.0, "the same torque as cold")])
def test_grease_and_a_binding_bearing_are_told_apart(torque, told):
    assert told in sorted_run(torque=torque).sentences[3]


def test_truth_lies_inside_its_uncertainty():
    """Readings good to 0.3 %: rises, torque and what is left hold the truth in about 95 of 100 trials."""
    rng = np.random.default_rng(3)
    trials = [sorted_run(rng, torque=0.95, spread=3e-3) for _ in range(150)]
    for part, truth in (("winding_rise", 30), ("torque", -5), ("left", 0)):
        inside = sum(abs(getattr(one, part).plain - truth) <= 2 * getattr(one, part).number.std_dev for one in trials)
        assert 0.9 * len(trials) <= inside <= len(trials) - 1
