"""The pattern of a motor's readings: Bayes by hand, the table's own sense, and how often it names rightly on motors with known faults."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from simulate_motors import KINDS, draw

from benchreckoner import project
from benchreckoner.bench.motor_pattern import CANDIDATES, MARK, NEEDED, SIGNS, number_sign, read_pattern, seen_sign
from benchreckoner.bench.motor_signs import in_order, stage_pattern, stage_signs, next_in_words
from benchreckoner.bench.sheet import read_sheet, read_text

DEMO = project.CASES / "record_player.toml"
SPREADS = {"current": 0.012, "speed": 0.12, "motor volts": 0.4, "volts in hand": 0.02, "belt off": 0.8}


def pattern(read, names):
    values = {"current": read.current, "speed": read.speed, "motor volts": read.volts, "volts in hand": read.hand, "belt off": read.belt_off}
    return read_pattern(number_sign(name, values[name], SPREADS[name], name) for name in names)


class TestTheTable:
    def test_shares_add_up_to_one(self):
        assert sum(row["prior"] for row in CANDIDATES.values()) == pytest.approx(1)
        for sign in SIGNS.values():
            assert set(sign["given"]) == set(CANDIDATES)
            for shares in sign["given"].values():
                assert len(shares) == len(sign["levels"]) and sum(shares) == pytest.approx(1) and min(shares) > 0

    def test_it_says_where_it_comes_from(self):
        assert MARK == "PRACTICE"

    @pytest.mark.parametrize(("name", "current", "speed", "volts", "hand"), [
        # The reference's pattern of four numbers (PRACTICE), row by row.
        ("set point", "usual", "slow", "low", "some"), ("mechanical load", "high", "slow", "as set", "some"),
        ("headroom", "usual", "slow", "low", "none"), ("feedback open", "low", "fast", "high", "none")])
    def test_the_pattern_of_the_reference_leads_to_its_suspect(self, name, current, speed, volts, hand):
        seen = {"current": current, "speed": speed, "motor volts": volts, "volts in hand": hand}
        assert read_pattern(seen_sign(sign, level, sign) for sign, level in seen.items()).suspects[0].name == name


class TestBayes:
    def test_one_sign_by_hand(self):
        """A high current: each prior times its share, over their sum."""
        product = {name: row["prior"] * SIGNS["current"]["given"][name][2] for name, row in CANDIDATES.items()}
        found = read_pattern([seen_sign("current", "high", "")])
        assert {one.name: one.odds for one in found.suspects} == pytest.approx(
            {name: value / sum(product.values()) for name, value in product.items()})

    def test_a_reading_on_an_edge_counts_half_for_either_side(self):
        assert number_sign("belt off", 45.0, 2.0, "").shares == pytest.approx((0.5, 0.5))

    def test_without_a_reading_the_priors_stand(self):
        assert [one.odds for one in read_pattern(()).suspects] == sorted((row["prior"] for row in CANDIDATES.values()), reverse=True)

    def test_gain_of_a_test_by_hand(self):
        """Mutual information, sum of p(x, y) log2 p(x, y) / p(x) p(y), of suspects and what the test would show."""
        found = read_pattern(())
        for one in found.tests:
            prior = {name: row["prior"] for name, row in CANDIDATES.items()}
            shares = SIGNS[one.name]["given"]
            level = [sum(prior[name] * shares[name][place] for name in prior) for place in range(len(SIGNS[one.name]["levels"]))]
            gain = sum(prior[name] * share * math.log2(share / level[place]) for name in prior for place, share in enumerate(shares[name]))
            assert one.gain == pytest.approx(gain)
        assert [one.gain_per_minute for one in found.tests] == sorted((one.gain_per_minute for one in found.tests), reverse=True)

    def test_belt_off_parts_load_from_the_motors_own_friction(self):
        found = read_pattern(seen_sign(*one, "") for one in (("current", "high"), ("motor volts", "as set"), ("volts in hand", "some")))
        assert {one.name for one in found.suspects[:2]} == {"mechanical load", "motor's own friction"}
        assert found.parting.name == "belt off" and found.named is None and found.word == "can't tell yet"

    def test_with_everything_read_no_test_is_left(self):
        found = read_pattern(seen_sign(name, row["levels"][0], name) for name, row in SIGNS.items())
        assert found.tests == () and found.parting is None and found.word == "headroom" and next_in_words(found) == (found.then,)
        levels = (0, 0, 0, 1, 0, 1, 0, 1, 1)  # slow, usual belt off, swinging, dragging, and yet low volts: they speak against each other
        found = read_pattern(seen_sign(name, row["levels"][level], name) for (name, row), level in zip(SIGNS.items(), levels, strict=True))
        assert found.tests == () and found.named is None and found.then == ""
        assert next_in_words(found) == ("Every test of the table has been made.",)

    def test_a_named_suspect_is_looked_for_and_not_asked_about_again(self):
        """With 96 % on the load, the next test finds which part drags; where the spin has been made, what dragged is cleaned."""
        shown = [("current", "high"), ("belt off", "usual"), ("motor volts", "as set"), ("speed", "slow"), ("volts in hand", "some"),
                 ("motion", "steady")]
        found = read_pattern(seen_sign(*one, "") for one in shown)
        assert found.word == "mechanical load" and len(next_in_words(found)) == 1
        assert "by hand, one after another" in next_in_words(found)[0] and "bits" not in next_in_words(found)[0]
        spun = read_pattern(seen_sign(*one, "") for one in (*shown, ("spun by hand", "drags")))
        assert next_in_words(spun)[0].startswith("Clean and oil what dragged")

    def test_a_name_that_is_barely_sure_keeps_the_test_that_would_settle_it(self):
        found = read_pattern(seen_sign(*one, "") for one in (("current", "high"), ("belt off", "usual"), ("volts in hand", "some")))
        assert NEEDED <= found.suspects[0].odds < 0.9
        first, more = next_in_words(found)
        assert "by hand" in first and more.startswith("To be surer of the name: ") and "bits" in more

    def test_what_finds_the_part_is_not_asked_for_twice(self):
        found = read_pattern(seen_sign(*one, "") for one in (("current", "high"), ("belt off", "usual"), ("volts in hand", "some"), ("motion", "steady"),
                                                            ("motor volts", "as set")))
        assert found.word == "mechanical load" and found.tests[0].name == "spun by hand" and found.surer == found.tests[1]

    def test_every_suspect_says_how_to_find_it(self):
        for name, row in CANDIDATES.items():
            assert row["then"].endswith(".") and row.get("made", "belt off") in SIGNS and ("after" in row) == ("made" in row), name

    def test_odds_are_never_told_as_certain(self):
        surest = read_pattern(seen_sign(*one, "") for one in (("speed", "fast"), ("motor volts", "high"), ("volts in hand", "none"), ("current", "low"),
                                                              ("two volts more", "faster"), ("motion", "steady"))).suspects
        assert surest[0].odds > 0.995 and surest[0].shown == "99 %" and surest[-1].shown == "below 1 %"

    @given(st.lists(st.sampled_from(sorted(SIGNS)), unique=True), st.integers(0, 10**6))
    def test_odds_stay_odds(self, names, seed):
        rng = np.random.default_rng(seed)
        found = read_pattern(seen_sign(name, SIGNS[name]["levels"][rng.integers(len(SIGNS[name]["levels"]))], name) for name in names)
        assert sum(one.odds for one in found.suspects) == pytest.approx(1) and found.tests == tuple(
            one for one in found.tests if one.name not in names and one.gain >= 0)
        assert (found.named is None) == (found.suspects[0].odds < NEEDED)


def rates(names, count=150):
    """Shares of motors named rightly and wrongly, each fault as often as the next."""
    rng = np.random.default_rng(2400)
    right = wrong = 0
    for kind in KINDS:
        for _ in range(count):
            named = pattern(draw(kind, rng), names).named
            right += named is not None and named.name == kind
            wrong += named is not None and named.name != kind
    return right / (count * len(KINDS)), wrong / (count * len(KINDS))


def test_how_often_it_names_rightly():
    """Motors drawn from the laws, not from the table. Seen: four numbers name 33 % rightly, with the belt off 50 %; none wrongly of 900."""
    four = ("current", "speed", "motor volts", "volts in hand")
    for names, least in ((four, 0.15), ((*four, "belt off"), 0.3)):
        right, wrong = rates(names)
        print(f"{len(names)} numbers: named rightly {right:.3f}, wrongly {wrong:.3f}, can't tell yet {1 - right - wrong:.3f}")
        assert wrong < 0.03 and right > least


class TestTheSheet:
    def test_the_demo_is_a_mechanical_load(self):
        found = stage_pattern(read_sheet(DEMO), "as found")
        assert found.word == "mechanical load" and found.suspects[1].name == "motor's own friction" and found.parting.name == "spun by hand"
        volts = next(one for one in stage_signs(read_sheet(DEMO), "as found") if one.name == "motor volts")
        assert "0.0 ± 0.4 % off what a governor rightly set gives" in volts.words  # no side where the uncertainty knows none
        words = in_order(found)
        assert "These readings fit mechanical load" in words and "common practice" in words and "104.0" in words

    def test_after_the_bearing_nothing_is_named_and_the_next_test_is(self):
        found = stage_pattern(read_sheet(DEMO), "platter bearing cleaned")
        assert found.named is None and found.suspects[0].name == "healthy" and "can't tell" in found.word
        assert "none is named" in in_order(found) and next_in_words(found)[0].startswith("Watch the motor's volts") and "3 min" in next_in_words(found)[0]

    def test_what_was_seen_counts(self):
        text = DEMO.read_text(encoding="utf-8")
        seen = text + '\n[[observation]]\npart = "platter"\nwhat = "stops at once when spun"\nstage = "as found"\n'
        before, after = (stage_pattern(read_text(one), "as found").suspects[0].odds for one in (text, seen))
        assert after > before
        elsewhere = read_text(seen.replace('stops at once when spun"\nstage = "as found"', 'stops at once when spun"\nstage = "springs cleaned"'))
        assert stage_pattern(elsewhere, "as found").suspects[0].odds == before
        swinging = read_text(text + '\n[[observation]]\npart = "motor"\nwhat = "the speed swings"\nstage = "as found"\n')
        assert next(one for one in stage_signs(swinging, "as found") if one.name == "motion").shares == (0.0, 1.0, 0.0)

    def test_more_volts_behind_the_governor_than_ahead_of_it_are_no_sign(self):
        wrong = DEMO.read_text(encoding="utf-8").replace('value = "8.90 V"', 'value = "4.20 V"')
        assert "volts in hand" in {one.name for one in stage_signs(read_sheet(DEMO), "as found")}
        assert "volts in hand" not in {one.name for one in stage_signs(read_text(wrong), "as found")}

    def test_a_stage_without_the_motor_has_no_pattern(self):
        sheet = read_sheet(DEMO)
        assert stage_pattern(sheet, "jack and control worked") is None
        assert stage_signs(read_text("version = 1"), "as found") == ()

    def test_without_a_usual_current_common_practice_stands_in(self):
        text = DEMO.read_text(encoding="utf-8").replace('rated_current = "70 mA"\n', "")
        sign = next(one for one in stage_signs(read_text(text), "as found") if one.name == "current")
        assert sign.shares[1] > 0.99 and "60 to 150 mA" in sign.words
