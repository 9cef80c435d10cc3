"""Lessons on contacts that pass sound: pictures at every corner, goals that can be met, fair questions."""

import numpy as np
import pytest
from fair import at, check_fair

from benchreckoner.lessons import level_budget, signal_contacts, signal_practice
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PROBLEMS = [signal_practice._lost_decibels, signal_practice._whole_chain, signal_practice._crosstalk,
            signal_practice._clipping, signal_practice._damping]
GUESSES = [signal_contacts.guess_decibels, signal_contacts.guess_contact_loss, signal_contacts.guess_potentiometer,
           signal_contacts.guess_open_return, level_budget.guess_level_chain]


def test_the_goals_of_the_decibels_can_be_met():
    volts, watts = at(signal_contacts.DECIBELS, level=-6).points[0].y, at(signal_contacts.DECIBELS, level=-3).points[1].y
    assert volts == pytest.approx(0.5, rel=0.01) and watts == pytest.approx(0.5, rel=0.01)


@pytest.mark.parametrize(("load", "by_hand"), [(4, 4 * (10**0.05 - 1)), (47000, 47000 * (10**0.05 - 1))])
def test_the_goal_of_the_contact_can_be_met(load, by_hand):
    """1 dB is a ratio of 10^(1/20), so the ohms are 0.122 times the load's."""
    steps = np.array(signal_contacts.CONTACT_LOSS.sliders[0].steps)
    nearest = float(steps[np.argmin(np.abs(np.log(steps / by_hand)))])
    assert " 1.0 dB" in at(signal_contacts.CONTACT_LOSS, contact=nearest, load=load).sentence


def test_published_losses_stand_in_the_picture():
    """Check values D1 and D4."""
    assert at(signal_contacts.CONTACT_LOSS, contact=1, load=8).points[0].y == pytest.approx(1.0231, abs=1e-3)
    assert at(signal_contacts.CONTACT_LOSS, contact=1000, load=47000).points[0].y == pytest.approx(0.1829, abs=1e-3)


def test_a_loss_below_the_axis_is_told_and_not_drawn():
    picture = at(signal_contacts.CONTACT_LOSS, contact=0.01, load=47000)
    assert not picture.points[0].drawn and "less than" in picture.sentence


def test_the_goal_of_the_potentiometer_can_be_met():
    """Half of 97.56 % is left where the wiper has 102.5 kilohm; the nearest step has 100."""
    picture = at(signal_contacts.POTENTIOMETER, position=0.5, wiper=100e3, load=100000)
    assert picture.points[0].y == pytest.approx(0.5 * 100 / 202.5 * 100)
    assert "5.91 dB less" in picture.sentence


def test_the_goal_of_the_shared_return_can_be_met():
    """Check value D7."""
    picture = at(signal_contacts.SHARED_RETURN, shared=0.1, headphone=32)
    assert picture.points[0].y == pytest.approx(-50.1301, abs=1e-3) and "−50.1 dB" in picture.sentence


def lost(**changed):
    return -at(level_budget.LEVEL_CHAIN, **changed).points[0].y


@pytest.mark.parametrize(("name", "place"), [("contact", "contact"), ("capacitor", "capacitor"), ("supply", "supply")])
def test_the_goal_of_the_level_chain_can_be_met(name, place):
    slider = next(one for one in level_budget.LEVEL_CHAIN.sliders if one.name == name)
    best = min(slider.steps, key=lambda step: abs(lost(**{name: step}) - 3))
    picture = at(level_budget.LEVEL_CHAIN, **{name: best})
    assert -picture.points[0].y == pytest.approx(3, abs=0.25)
    assert f" dB: {place}." in picture.sentence


def test_shares_add_up_and_a_sound_player_loses_nothing():
    """Second route: multiply the ratios of the voltage dividers by hand."""
    assert lost() == pytest.approx(0, abs=0.05)
    found = level_budget.shares(dirt=Q(6, "dB"), load=Q(1, "kohm"), capacitor=Q(1, "uF"), supply=Q(5, "V"),
                                contact=Q(8, "ohm"))
    by_hand = 20 * np.log10(10 ** (-6 / 20) * 1 / 2 * 1 * 2 / 4 * 1 / 2)
    assert sum(one.level.m_as("dB") for one in found) == pytest.approx(by_hand)
    assert [one.place for one in found if one.mark == "PRACTICE"] == ["head dirt"]


def test_the_budget_table_marks_what_is_only_practice():
    text = level_budget.example_budget().data
    assert "| head dirt | −3.0 dB | PRACTICE |" in text and text.count("\n") == 7


@pytest.mark.parametrize("make", GUESSES, ids=lambda make: make.__name__)
def test_a_guess_can_be_asked(make):
    assert make().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_an_exercise_by_its_given_numbers():
    """What a reader would reckon from the numbers as shown comes out right."""
    for seed in range(40):
        problem = signal_practice._lost_decibels(np.random.default_rng(seed))
        contact, load = (read_quantity(text, "ohm").quantity.m_as("ohm") for _, text in problem.given)
        assert problem.right(20 * np.log10(load / (load + contact)))


def test_our_sentences_on_the_weak_player_hold_the_sum():
    """Each share by hand: 4.7 kohm behind 1 kohm; two high-pass corners; peaks of half the supply less 0.5 V; 8 of 9 ohm."""
    def passed(farads):
        ratio = 2 * np.pi * 100 * 10e3 * farads
        return ratio / np.hypot(1, ratio)

    whole = 3 - 20 * np.log10(4.7 / 5.7 * passed(0.22e-6) / passed(1e-6) * 3 / 4 * 8 / 9)
    assert f"{whole:.1f} dB" in level_budget.say_ours() and f"{-20 * np.log10(3 / 4):.1f} dB I reckon from the volts" in level_budget.say_ours()
    checks = SayChecks(what=("supply",), quantities=((Q(whole, "dB"), "dB"),))
    assert all(met for _, met, _ in look_through(level_budget.say_ours(), checks))
    assert level_budget.say_why_weak().children
