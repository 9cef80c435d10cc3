"""The bag: one draw against the laws one by one, probabilities against invented belts with known truth, and what is refused."""

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner.bench.belt_bag import Belt, draws_of, rank_bag, reckon, two_pulley_drive
from benchreckoner.bench.belt_order import what_to_order
from benchreckoner.bench.belt_priors import BEARINGS, draw, evenly, prior
from benchreckoner.bench.belt_reckon import reckon_sizes
from benchreckoner.bench.belt_slowly import belt_by_the_laws, truth_of
from benchreckoner.bench.belt_window import WAYS, failing, window
from benchreckoner.bench.uncertain import Known, within
from benchreckoner.physics.belt_path import two_pulley_path
from benchreckoner.physics.belt_sizes import MEASURES, SHAPES
from benchreckoner.physics.rubber import modulus_from_hardness
from benchreckoner.units import Q

MOTOR, WHEEL, APART = Q(6, "mm"), Q(60, "mm"), Q(55, "mm")


def drive(**other):
    stated = dict(motor_seat=MOTOR, wheel_seat=WHEEL, distance=APART, seat_path=within(Q(227.215, "mm"), 0.0035, "mm"),
                  load=within(Q(1.0, "mN*m"), 0.15, "N*m"), motor_constant=within(Q(0.0130, "V*s/rad"), 0.03, "V*s/rad"),
                  no_load_current=within(Q(20, "mA"), 0.03, "A"), motor_speed=Q(2400, "turn/min"),
                  wheel_speed=Q(280.5, "turn/min"), trimmer=0.03, bearing="oiled")
    return two_pulley_drive(**{**stated, **other})


def belt(name="one", size=Q(69, "mm"), shape="square", thickness=Q(1.2, "mm"), measure="inside diameter", hardness=60, **other):
    return Belt(name, shape, thickness, size, measure, hardness=hardness, **{"thickness_limit": Q(0.03, "mm"), **other})


BELTS = (belt("square"), belt("round", Q(217, "mm"), "round", Q(1.4, "mm"), "inside circumference", 55),
         belt("flat", Q(108, "mm"), "flat", Q(0.5, "mm"), "flat length", 65, width=Q(4, "mm")),
         belt("pitch", Q(215, "mm"), measure="pitch length", hardness=None))


@pytest.mark.parametrize("number", range(len(BELTS)), ids=lambda number: BELTS[number].name)
def test_one_draw_is_what_the_laws_give_one_by_one(number):
    machine, one = drive(), BELTS[number]
    draws = draws_of(machine, BELTS, count=200)
    found, checked = reckon(machine, draws, BELTS).row(number), 0
    for place in range(0, 200, 9):
        if found.tension[place] < 2 * float(draws.load[place]) / 0.0306:
            continue  # a slack belt, or one that slips, which the laws refuse
        checked += 1
        for name, value in belt_by_the_laws(machine, one, truth_of(draws, one, place)).items():
            assert getattr(found, name)[place] == pytest.approx(value, rel=1e-9, abs=1e-15), (name, place)
    assert checked > 10


def test_the_published_drive():
    """Check values C33, C34, C43 and C45 with everything known: 5 %, 60 Shore A, friction 0.5, bearing 0.1, loss tangent 0.1."""
    machine = drive()
    draws = draws_of(machine, [belt()], count=4)
    own = replace(draws.own["one"], **{name: np.zeros(4) for name in ("hardness", "stiffness")}, thickness=np.full(4, 1.2e-3),
                  size=np.full(4, 68.8236e-3))
    draws = replace(draws, seat_path=np.full(4, 227.21492e-3), load=np.full(4, 1.5e-3), bearing=np.full(4, 0.1), friction=np.full(4, 0.5),
                    aged=np.ones(4), relaxation=np.zeros(4), loss_tangent=np.full(4, 0.1), density=np.full(4, 1200.0), common=np.zeros(4),
                    motor_constant=np.full(4, 0.013), own={"one": own})
    found = reckon(machine, draws, [belt()])
    expected = {"stretch": 0.05, "tension": 0.24740, "margin": 4.8638, "hub": 0.42940, "creep": 0.009842, "bend": 0.16667,
                "torque": 42.940e-6 + 27.558e-6, "added": (42.940e-6 + 27.558e-6) / 0.013}
    for name, value in expected.items():
        assert getattr(found, name)[0, 0] == pytest.approx(value, rel=3e-4), name


def invented(generator):
    """A drive as somebody measured it, and its truth, drawn here and not by the code under test."""
    motor, wheel = generator.uniform(4, 9), generator.uniform(30, 70)
    apart = (motor + wheel) / 2 + generator.uniform(10, 50)
    path = two_pulley_path(first_diameter=Q(motor, "mm"), second_diameter=Q(wheel, "mm"), distance=Q(apart, "mm")).length.m_as("mm")
    load, wanted = generator.uniform(0.3, 1.2) * wheel / 60, 2400 * (motor + 1.2) / (wheel + 1.2) * 0.993
    machine = drive(motor_seat=Q(motor, "mm"), wheel_seat=Q(wheel, "mm"), distance=Q(apart, "mm"),
                    seat_path=Known(within(Q(path, "mm"), 0.8 / path, "mm").number, "mm"),
                    load=within(Q(load, "mN*m"), 0.15, "N*m"), wheel_speed=Q(wanted, "turn/min"),
                    bearing=["ball", "oiled", "dry"][generator.integers(3)])
    low, high = {"ball": (0.001, 0.003), "oiled": (0.02, 0.1), "dry": (0.1, 0.3)}[machine.bearing]
    third = 1 / np.sqrt(3)
    truth = {"seat_path": (path + 0.8 * third * generator.standard_normal()) / 1e3,
             "load": load / 1e3 * (1 + 0.15 * third * generator.standard_normal()),
             "motor_constant": 0.013 * (1 + 0.03 * third * generator.standard_normal()),
             "no_load_current": 0.020 * (1 + 0.03 * third * generator.standard_normal()),
             "bearing": np.exp(generator.uniform(np.log(low), np.log(high))), "friction": generator.uniform(0.4, 0.8),
             "aged": generator.uniform(0.4, 0.6), "loss_tangent": 0.1 * 2 ** (generator.standard_normal() / 1.96),
             "relaxation": generator.uniform(0.03, 0.08), "density": generator.uniform(1100, 1300)}
    return machine, truth, 0.3 * third * np.sqrt(0.5) * generator.standard_normal()


def invented_belt(machine, generator):
    side = generator.choice([1.0, 1.2, 1.2, 1.3, 1.5])
    stretch = generator.uniform(0.01, 0.11)
    diameter = (machine.seat_path.plain + np.pi * side) / (1 + stretch) / np.pi - side
    return belt(size=Q(float(np.round(diameter)), "mm"), thickness=Q(float(side), "mm"))


def sits_well(machine, one, truth, common, generator):
    """Whether a belt with a truth of its own truly sits in the window; its limits written here anew."""
    own = {"size": (one.size.m_as("mm") + generator.uniform(-0.5, 0.5)) / 1e3,
           "thickness": (one.thickness.m_as("mm") + generator.uniform(-0.03, 0.03)) / 1e3}
    stiff = modulus_from_hardness(hardness=60 + generator.uniform(-5, 5)).m_as("Pa")
    try:
        done = belt_by_the_laws(machine, one, {**truth, **own, "modulus": stiff * np.exp(common + 0.3 / np.sqrt(6) * generator.standard_normal())})
    except ValueError:
        return False  # slack, or too slack to carry the load
    return (0.02 <= done["stretch"] <= 0.12 and done["margin"] >= 2 and done["hub"] <= 1 and done["current"] <= 0.2
            and abs(done["speed"]) <= 0.03 and done["bend"] <= 0.25)


def test_probabilities_come_true_as_often_as_they_say():
    """Three hundred invented belts on their own drives: of those said to fit with 20 to 40 %, that many do."""
    generator = np.random.default_rng(20)
    said, came = [], []
    for _ in range(300):
        machine, truth, common = invented(generator)
        one = invented_belt(machine, generator)
        said.append(rank_bag(drive=machine, belts=[one], count=400).ranked[0].probability)
        came.append(sits_well(machine, one, truth, common, generator))
    said, came = np.array(said), np.array(came)
    for low, high in ((0, 0.1), (0.1, 0.4), (0.4, 0.7), (0.7, 1.01)):
        these = (said >= low) & (said < high)
        spread = np.sqrt(np.sum(said[these] * (1 - said[these])) + 0.5)
        assert these.sum() > 25
        assert abs(came[these].sum() - said[these].sum()) < 2.6 * spread, (low, these.sum(), said[these].sum(), came[these].sum())


def test_a_belt_keeps_its_line_whoever_lies_beside_it():
    alone, many = (rank_bag(drive=drive(), belts=belts, count=500) for belts in (BELTS[:1], BELTS[::-1]))
    assert alone.ranked[0].probability == many.of("square").probability
    assert np.array_equal(alone.ranked[0].reckoned.margin, many.of("square").reckoned.margin)
    again = rank_bag(drive=drive(), belts=BELTS, count=500)
    assert [one.belt.name for one in again.ranked] == [one.belt.name for one in many.ranked]
    assert rank_bag(drive=drive(), belts=BELTS, count=500, seed=5).of("square").probability != again.of("square").probability


def test_thinned_draws_rank_again():
    """What a reading leaves is ranked as the same draws' good ones, counted; a belt that joins gets draws of its own."""
    bag = rank_bag(drive=drive(), belts=BELTS[:2], count=500)
    left = np.random.default_rng(1).choice(500, 500, p=(weights := np.linspace(0, 1, 500)) / weights.sum())
    again = rank_bag(drive=drive(), belts=BELTS, draws=bag.draws.taken(left))
    for one in BELTS[:2]:
        assert again.of(one.name).probability == bag.of(one.name).good[left].mean()
    assert len(again.of("pitch").good) == 500 and np.array_equal(again.draws.friction, bag.draws.friction[left])


def test_the_laws_directions():
    """Harder pulls more; thicker runs faster, bends dearer; shorter is tighter; a worn bearing costs current and no grip."""
    def middle(one, **other):
        return rank_bag(drive=drive(**other), belts=[one], count=500).ranked[0].bands

    usual = middle(belt())
    harder, thicker, shorter, dry = middle(belt(hardness=70)), middle(belt(thickness=Q(1.5, "mm"))), middle(belt(size=Q(67, "mm"))), \
        middle(belt(), bearing="dry")
    assert harder["tension"][1] > 1.4 * usual["tension"][1] and harder["stretch"] == usual["stretch"]
    assert thicker["speed"][1] - usual["speed"][1] == pytest.approx(0.0366 + 0.0024, abs=0.0006), "C24, and less creep by its area"
    assert thicker["torque"][1] > 1.5 * usual["torque"][1]
    assert shorter["stretch"][1] > usual["stretch"][1] and shorter["margin"][1] > usual["margin"][1]
    assert dry["current"][1] > usual["current"][1] and dry["margin"] == usual["margin"]


def test_many_sizes_at_once_are_each_belt_for_itself():
    machine = drive()
    for one in BELTS:
        sizes = one.size.m_as("m") * np.array([0.99, 1.0, 1.03])
        rows = reckon_sizes(machine, draws_of(machine, BELTS, count=100), one, sizes)
        for place, size in enumerate(sizes):
            other = replace(one, size=Q(size, "m"))
            alone = reckon(machine, draws_of(machine, [other], count=100), [other])
            for name in vars(alone):
                np.testing.assert_allclose(getattr(rows, name)[place], getattr(alone, name)[0], rtol=1e-9, atol=1e-12, err_msg=name)


def test_bands_hold_what_they_say():
    line = rank_bag(drive=drive(), belts=[belt()]).ranked[0]
    for name, (low, middle, high) in line.bands.items():
        values = getattr(line.reckoned, name)
        assert np.mean(values < low) == pytest.approx(0.025, abs=0.001) and np.mean(values > high) == pytest.approx(0.025, abs=0.001)
        assert low <= middle <= high


@pytest.mark.parametrize("way, quantity, edge, step", [
    ("loose", "stretch", 0.02, -1), ("tight", "stretch", 0.12, 1), ("slip", "margin", 2.0, -1), ("hub", "hub", 1.0, 1),
    ("current", "current", 0.2, 1), ("fast", "speed", 0.03, 1), ("slow", "speed", -0.03, -1), ("bend", "bend", 0.25, 1),
    ("groove", "width", 0.0014, 1)])
def test_each_side_of_the_window_ends_where_it_says(way, quantity, edge, step):
    machine = drive(groove=Q(1.4, "mm"))
    found = rank_bag(drive=machine, belts=[belt()], count=50).ranked[0].reckoned
    beside = replace(found, **{quantity: edge + 1e-6 * step * np.array([-1.0, 0.0, 1.0])})
    assert failing(window(machine), beside)[way].tolist() == [False, False, True]


def test_the_window_is_told_with_marks():
    sides = window(drive(groove=Q(1.4, "mm")))
    assert tuple(side.way for side in sides) == WAYS
    assert all(side.source and side.mark in ("FOUND", "RECOMPUTED", "MEMORY", "PRACTICE") for side in sides)
    assert "groove" not in [side.way for side in window(drive())]


def test_failures_are_counted_and_told():
    """The tempting belt: right length, wrong thickness. Its speed is told first, with its number; one sentence a way to fail."""
    line = rank_bag(drive=drive(), belts=[belt(thickness=Q(1.5, "mm"))]).ranked[0]
    assert line.probability < 0.01 and [way for way, _ in line.failures] == ["fast", "current"]
    assert line.failures[0][1] == np.mean(line.reckoned.speed > 0.03)
    assert "+3.4 to +4.3 %" in line.reasons[0] and "takes 3 %" in line.reasons[0] and "more than 99 of 100" in line.reasons[0]
    assert line.reasons[-1] == "The range told first is so wide chiefly because of how thick the belt truly is." and len(line.reasons) == 3
    slack = rank_bag(drive=drive(load=within(Q(0.8, "mN*m"), 0.15, "N*m")), belts=[belt(size=Q(70, "mm"), shape="round")]).ranked[0]
    assert [way for way, _ in slack.failures] == ["slip"] and slack.reasons[-1].startswith("That range has several causes")


def test_a_band_without_width_is_told_as_one_number():
    machine = drive(groove=Q(1.1, "mm"))
    line = rank_bag(drive=machine, belts=[belt(thickness_limit=Q(0, "mm"))], count=50).ranked[0]
    assert "It is 1.200 mm wide; the groove has 1.1 mm (outside in more than 99 of 100 draws)." in line.reasons
    assert not any(reason.startswith("Th") and "range" in reason for reason in line.reasons), "a band without width has no causes"


def test_the_rubbers_stiffness_counts_with_all_its_parts():
    """Hardness, bag and belt together outweigh friction and ageing in the grip, though none of them does alone."""
    line = rank_bag(drive=drive(), belts=[belt()]).ranked[0]
    own, draws = (bag := rank_bag(drive=drive(), belts=[belt()])).draws.own["one"], bag.draws

    def share(cause):
        return np.corrcoef(cause, line.reckoned.margin)[0, 1] ** 2

    parts = [share(cause) for cause in (own.hardness, own.stiffness, draws.common)]
    assert max(parts) < share(draws.friction) < sum(parts) and "above all the rubber's stiffness" in line.reasons[-1]


def test_too_fast_and_too_slow_are_one_sentence():
    line = rank_bag(drive=drive(trimmer=0.002), belts=[belt()]).ranked[0]
    told = [reason for reason in line.reasons if "speed" in reason]
    outside = np.mean(np.abs(line.reckoned.speed) > 0.002)
    assert len(told) == 1 and f"outside in {100 * outside:.0f} of 100" in told[0] and {"fast", "slow"} <= set(dict(line.failures))


def test_where_none_fits_the_nearest_stands_first():
    """A belt that misses by one side stands before one that misses by three, though the second costs the motor less."""
    near, far = belt("near", thickness=Q(1.5, "mm")), belt("far", Q(72, "mm"), thickness=Q(0.8, "mm"))
    bag = rank_bag(drive=drive(), belts=[far, near])
    assert [one.belt.name for one in bag.ranked] == ["near", "far"] and all(one.probability < 0.005 for one in bag.ranked)
    assert bag.of("far").bands["torque"][1] < bag.of("near").bands["torque"][1]


def test_a_slack_belt_grips_nothing_rather_than_less():
    line = rank_bag(drive=drive(), belts=[belt(size=Q(72, "mm"))]).ranked[0]
    assert line.bands["margin"][0] < 0 and any("it grips 0.0" in reason for reason in line.reasons)


def test_a_belt_too_slack_for_its_load_carries_what_it_can():
    """Its slack side has nothing left, so all that draws the shaft is the tight side's, twice the pull at rest, less what flings."""
    one = belt(size=Q(72, "mm"))
    machine = drive(load=within(Q(5, "mN*m"), 0.05, "N*m"))
    draws = draws_of(machine, [one], count=200)
    found = reckon(machine, draws, [one]).row(0)
    weak = (found.tension > 0.02) & (found.tension < 0.06)
    flung = draws.density * draws.own["one"].thickness**2 / (1 + found.stretch) * (2 * np.pi * 40 * (3e-3 + draws.own["one"].thickness / 2)) ** 2
    assert weak.sum() > 10 and found.hub[weak] == pytest.approx((2 * found.tension - flung)[weak], rel=1e-9)
    assert np.all(found.hub[found.stretch <= 0] == 0)


def test_a_belt_that_cannot_bend_round_its_pulley_is_left_out():
    line = rank_bag(drive=drive(), belts=[belt(size=Q(60, "mm"), thickness=Q(8, "mm"))]).ranked[0]
    assert "could not bend" in line.refused and "8 mm of thickness on a motor pulley of 6 mm" in line.refused


@pytest.mark.parametrize("size, measure, words", [
    (Q(216, "mm"), "inside diameter", "factor of pi"), (Q(69, "mm"), "inside circumference", "factor of pi"),
    (Q(108, "mm"), "inside circumference", "flat length"), (Q(140, "mm"), "inside circumference", "more than any belt"),
    (Q(80, "mm"), "inside diameter", "hang slack")])
def test_what_cannot_lie_on_the_path_is_left_out_and_told(size, measure, words):
    bag = rank_bag(drive=drive(), belts=[belt("odd", size, measure=measure), belt()], count=500)
    assert [one.belt.name for one in bag.ranked] == ["one", "odd"]
    odd = bag.ranked[1]
    assert words in odd.refused and odd.reasons == (odd.refused,) and odd.probability == 0 and odd.good is None
    assert "nan" not in odd.refused and bag.ranked[0].refused == ""


@given(shape=st.sampled_from(SHAPES), measure=st.sampled_from(MEASURES), thickness=st.floats(0.2, 8), size=st.floats(0.5, 3000),
       hardness=st.none() | st.floats(25, 75))
@settings(max_examples=150, deadline=None)
def test_no_belt_is_too_odd_to_be_answered(shape, measure, thickness, size, hardness):
    odd = Belt("odd", shape, Q(thickness, "mm"), Q(size, "mm"), measure, Q(4, "mm") if shape == "flat" else None, hardness)
    line = rank_bag(drive=drive(groove=Q(2, "mm")), belts=[odd], count=64).ranked[0]
    assert 0 <= line.probability <= 1 and all(np.all(np.isfinite(band)) for band in line.bands.values())
    assert all(re.search(r"[.?]$", reason) and not re.search(r"\b(nan|inf)\b", reason) for reason in line.reasons)
    assert bool(line.refused) == (line.good is None)


@pytest.mark.parametrize("wrong, words", [
    (dict(hardness=10), "hardness"), (dict(shape="vee"), "shape"), (dict(measure="length"), "measure"), (dict(size=Q(0, "mm")), "size"),
    (dict(thickness_limit=Q(0.7, "mm")), "thickness_limit"), (dict(width=Q(3, "mm")), "width")])
def test_a_faulty_belt_is_refused_by_name(wrong, words):
    with pytest.raises(ValueError, match=f"one: {words}"):
        belt(**wrong)


@pytest.mark.parametrize("wrong, words", [
    (dict(trimmer=3), "trimmer"), (dict(bearing="greasy"), "bearing"), (dict(load=within(Q(1, "mN*m"), 0.9, "N*m")), "load"),
    (dict(groove=Q(0, "mm")), "groove"), (dict(distance=Q(20, "mm")), "overlap"), (dict(overhang=-1.0), "overhang")])
def test_a_faulty_drive_is_refused_by_name(wrong, words):
    with pytest.raises(ValueError, match=words):
        drive(**wrong)


def test_a_bare_number_is_refused():
    with pytest.raises(TypeError, match="load"):
        drive(load=Q(1, "mN*m"))


@pytest.mark.parametrize("belts", [[], [belt(), belt()]])
def test_a_bag_needs_belts_with_names(belts):
    with pytest.raises(ValueError, match="belts"):
        rank_bag(drive=drive(), belts=belts)


def test_a_weighed_belt_is_known_better():
    """5 % of uncertainty (k = 2) in place of a hardness: the tension's scatter from stiffness shrinks to it."""
    weighed = belt(modulus=within(Q(3.6e6, "Pa"), 0.0433, "Pa"), size_limit=Q(0, "mm"), thickness_limit=Q(0, "mm"))
    line = rank_bag(drive=drive(seat_path=within(Q(227.215, "mm"), 1e-7, "mm")), belts=[weighed]).ranked[0]
    low, middle, high = line.bands["tension"]
    assert (high - low) / middle == pytest.approx(2 * 1.96 * 0.025, rel=0.03)


def test_an_unknown_path_is_reckoned_from_the_pulleys():
    known = drive(seat_path=None).seat_path
    assert known.plain == pytest.approx(227.21492, abs=1e-4) and known.expanded.m_as("mm") == pytest.approx(2 * 1.5 / np.sqrt(3), rel=1e-6)


def test_draws_hold_what_the_table_believes():
    generator, count = np.random.default_rng(3), 2000
    friction = draw(prior("friction"), evenly(generator, count))
    assert 0.4 <= friction.min() < 0.401 and 0.799 < friction.max() <= 0.8 and friction.mean() == pytest.approx(0.6, abs=0.001)
    tangent = draw(prior("loss_tangent"), evenly(generator, count))
    assert np.mean((tangent > 0.05) & (tangent < 0.2)) == pytest.approx(0.95, abs=0.002) and np.median(tangent) == pytest.approx(0.1, rel=0.005)
    oiled = draw(prior("bearing", "oiled"), evenly(generator, count))
    assert np.median(oiled) == pytest.approx(np.sqrt(0.02 * 0.1), rel=0.005), "evenly by ratio"
    for name in ("modulus", "hardness", "friction", "aged_friction", "loss_tangent", "relaxation", "density", "thickness", "size"):
        assert prior(name)["source"] and prior(name)["mark"] in ("FOUND", "RECOMPUTED", "MEMORY", "PRACTICE")
    assert all(prior("bearing", kind)["low"] < prior("bearing", kind)["high"] for kind in BEARINGS)
    with pytest.raises(ValueError, match="belt_priors"):
        prior("colour")


def test_overhang_loads_the_bearing_by_its_lever():
    near, far = (draws_of(drive(overhang=overhang), [belt()], count=100).bearing for overhang in (0.0, 0.5))
    assert far == pytest.approx(2 * near)


def test_what_to_order():
    """The size is the likeliest of the bag of all sizes, reckoned here by a bag of its own; two are never worth less than one."""
    order = what_to_order(drive=drive(), thicknesses=Q([1.0, 1.2, 1.5], "mm"), hardness=60)
    assert order.best.belt.thickness == Q(1.2, "mm") and order.lowest <= order.best.belt.size <= order.highest
    sizes = [Belt(f"{step}", "square", Q(1.2, "mm"), Q(step / 2, "mm"), "inside diameter", hardness=60) for step in range(124, 146)]
    others = rank_bag(drive=drive(), belts=sizes)
    assert order.best.probability == pytest.approx(others.ranked[0].probability, abs=0.025)
    nearly = [one.belt.size.m_as("mm") for one in others.ranked if one.probability >= 0.9 * others.ranked[0].probability]
    assert (order.lowest.m_as("mm"), order.highest.m_as("mm")) == pytest.approx((min(nearly), max(nearly)), abs=0.5)
    assert order.pair[0] < order.best.belt.size < order.pair[1], "neighbours on both sides hedge against the path"
    both = [others.of(f"{round(2 * size.m_as('mm'))}").good for size in order.pair]
    assert order.pair_probability == pytest.approx(np.mean(both[0] | both[1]), abs=0.03) and order.pair_probability > order.best.probability
    assert "1.2 mm" in order.words[0] and f"{order.pair[0].m_as('mm'):g} mm and {order.pair[1].m_as('mm'):g} mm" in order.words[1]


def test_where_no_size_fits_it_says_what_is_against_it():
    order = what_to_order(drive=drive(bearing="dry"), thicknesses=Q([1.2, 1.5], "mm"), hardness=60)
    assert order.best.probability < 0.5 and order.words[0].startswith("No size") and order.words[-1].startswith("Mend")
    assert any("current" in words for words in order.words)
