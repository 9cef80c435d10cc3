"""A burnt resistor: Bayes' rule by hand, evidence by scipy, random parts with known truth, and why it burnt."""

import numpy as np
import pytest
from scipy.stats import norm

from benchreckoner.bench import burnt_cause, burnt_resistor
from benchreckoner.bench.burnt_resistor import COMPOSITION, FILM, candidates, read_bands
from benchreckoner.physics.colour_bands import DIGITS, colours
from benchreckoner.physics.preferred import SERIES
from benchreckoner.units import Q


def ohms(found):
    return [one.value.m_as("ohm") for one in found]


def odds(found):
    return {one.value.m_as("ohm"): one.odds for one in found}


def twin(value, accuracy=0.01):
    return burnt_resistor.twin_reading(resistance=Q(value, "ohm"), accuracy=accuracy)


class TestTheBands:
    def test_sound_bands_that_heat_hardly_changes_leave_one_value_in_front(self):
        found = candidates(read_bands("green blue silver gold"))
        assert ohms(found)[0] == pytest.approx(0.56) and found[0].bands == ("green", "blue", "silver", "gold")

    def test_a_brown_band_may_have_been_red(self):
        """1 k against 100 ohm: both of E12, so only the table's 0.6 for red that went brown is between them."""
        found = odds(candidates(read_bands("brown black brown gold")))
        assert found[1000] / found[100] == pytest.approx(0.6) and found[10000] / found[100] == pytest.approx(0.3)

    def test_a_grey_band_may_have_been_violet(self):
        """48 is no preferred figure and 47 is, so the grey was violet."""
        found = candidates(read_bands("yellow grey orange gold"))
        assert ohms(found)[0] == 47000 and any("grey now, was violet" in reason for reason in found[0].reasons)

    def test_an_unreadable_band_leaves_only_preferred_values(self):
        """? violet: 27 and 47 stand in E24; every band's own meaning, without heat, gives no other."""
        found = candidates(read_bands("? violet red silver"))
        assert {2700.0, 4700.0} <= set(ohms(found)[:4]) and ohms(found)[0] in (2700, 4700)
        series = {float(f"{one * 10**power:.3g}") for one in SERIES["E24"] for power in range(-1, 7)}
        assert set(ohms(found)) <= series

    def test_either_of_two_colours(self):
        found = odds(candidates(read_bands("brown/red green/red black silver")))
        assert {15.0, 12.0, 22.0} <= set(found)

    def test_the_odds_are_shares(self):
        for text in ("? ? ? ?", "brown black brown", "brown black black red brown", "? grey gold silver"):
            shares = [one.odds for one in candidates(read_bands(text))]
            assert 0 < sum(shares) <= 1 + 1e-12 and shares == sorted(shares, reverse=True)

    def test_the_odds_of_all_that_fit_add_up(self):
        """With a twin hardly anything is too unlikely to be told."""
        assert sum(one.odds for one in candidates(read_bands("brown black brown gold"), [twin(990)])) == pytest.approx(1, abs=0.02)

    @pytest.mark.parametrize(("text", "told"), [
        ("", "here are 0"), ("brown black", "here are 2"), ("brown black red red red red", "A sixth band"),
        ("brown pink red gold", "'pink' is no colour"), ("brown // red gold", "is no colour"), ("<b> ? ? ?", "is no colour")])
    def test_nonsense_is_told(self, text, told):
        with pytest.raises(ValueError, match=f"Bands: .*{told}"):
            read_bands(text)

    def test_bands_that_no_value_fits_are_told(self):
        with pytest.raises(ValueError, match="no preferred value fits"):
            candidates(read_bands("silver silver silver silver"))


class TestTheEvidence:
    def test_a_twin_s_weight_by_scipy(self):
        """8.2 against 9.1 kilohm, both left open by grey/white ?: E12 three times as common, times two normal densities."""
        found = odds(candidates(read_bands("? ? red gold"), [twin(8600, 0.05)]))
        spread = np.sqrt(0.05**2 + 0.03**2 + 0.05**2 / 3)
        floor = 0.03 / np.log(2.2e8)
        dense = {value: 0.97 * norm.pdf(np.log(8600 / value), scale=spread) + floor for value in (8200, 9100)}
        assert found[8200] / found[9100] == pytest.approx(3 * dense[8200] / dense[9100], rel=1e-6)

    def test_a_twin_in_circuit_with_a_known_path(self):
        """1 k with 2.2 k across it reads 687.5 ohm; the error of the reading swells by 1000/687.5."""
        one = burnt_resistor.twin_in_circuit(resistance=Q(687.5, "ohm"), accuracy=0.01, across=Q(2200, "ohm"))
        assert one.resistance.m_as("ohm") == pytest.approx(1000) and one.above == pytest.approx(np.hypot(0.0145454, 0.03), rel=1e-3)
        assert ohms(candidates(read_bands("? ? ? gold"), [one]))[0] == 1000

    def test_a_twin_in_circuit_alone_is_only_the_least(self):
        one = burnt_resistor.twin_in_circuit(resistance=Q(3000, "ohm"), accuracy=0.01)
        found = odds(candidates(read_bands("brown black brown gold"), [one]))
        assert found.get(100, 0) < 0.1 and found.get(1000, 0) < 0.1 and found[10000] == pytest.approx(found[100000])

    def test_volts_by_current_of_a_sister_stage(self):
        """2.2 V at 1 mA."""
        one = burnt_resistor.from_circuit(voltage=Q(2.2, "V"), current=Q(1, "mA"), accuracy=0.03)
        assert ohms(candidates(read_bands("red/brown ? ? ?"), [one]))[0] == 2200

    def test_composition_drifts_up_and_so_points_below_its_own_reading(self):
        found = odds(candidates(read_bands("? ? red gold"), [burnt_resistor.own_reading(resistance=Q(6.1, "kohm"), kind=COMPOSITION)]))
        assert found[4700] > found.get(8200, 0) * 5 and found[4700] > found.get(10000, 0) * 5

    def test_a_film_s_own_reading_says_little_beside_a_twin(self):
        own = burnt_resistor.own_reading(resistance=Q(47, "kohm"), kind=FILM)
        assert ohms(candidates(read_bands("? ? ? gold"), [own, twin(1000)]))[0] == 1000

    @pytest.mark.parametrize(("make", "name"), [
        (lambda: twin(0), "resistance"), (lambda: twin(1000, 0), "accuracy"), (lambda: twin(1000, 2), "accuracy"),
        (lambda: burnt_resistor.own_reading(resistance=Q(1, "ohm"), kind="glass"), "kind"),
        (lambda: burnt_resistor.from_circuit(voltage=Q(1, "V"), current=Q(0, "A"), accuracy=0.01), "current"),
        (lambda: burnt_resistor.twin_in_circuit(resistance=Q(3, "kohm"), accuracy=0.01, across=Q(1, "kohm")), "reading")])
    def test_nonsense_is_told_by_name(self, make, name):
        with pytest.raises(ValueError, match=name):
            make()

    def test_random_parts_with_known_truth(self):
        """Heat one band as the trade says it does, lose another, read the twin to 2 %: the truth stands in front nearly always."""
        rng, first = np.random.default_rng(5), 0
        changes = {"red": "brown", "violet": "grey", "yellow": "brown", "orange": "red", "brown": "black"}
        for _ in range(60):
            true = float(f"{rng.choice(SERIES['E12']) * 10.0 ** rng.integers(0, 5):.3g}")
            bands = list(colours(resistance=Q(true, "ohm"), tolerance=0.05))
            place = rng.integers(3)
            bands[place] = changes.get(bands[place], bands[place])
            bands[(place + 1) % 3] = "?"
            read = twin(true * (1 + rng.normal(0, 0.03)), 0.02)
            first += ohms(candidates(read_bands(" ".join(bands)), [read]))[0] == pytest.approx(true)
        assert first >= 57


class TestWhatSettles:
    def test_far_apart_takes_a_rough_reading(self):
        words = burnt_resistor.what_settles(candidates(read_bands("brown black brown gold")))
        assert "100 Ω from 1 kΩ" in words and "read it roughly" in words

    def test_neighbours_take_a_fine_one(self):
        """8.2 and 9.1 differ by 11 %: half of that on a log scale is 5.3 %."""
        words = burnt_resistor.what_settles(candidates(read_bands("? ? red gold"), [twin(8700, 0.05)]))
        assert "5.3 % or better" in words and "many places take either" in words

    def test_one_that_stands_out_is_still_checked(self):
        words = burnt_resistor.what_settles(candidates(read_bands("green blue red gold"), [twin(5600)]))
        assert words.startswith("5.6 kΩ stands out") and "Before you solder" in words


class TestWhyItBurnt:
    def test_by_hand(self):
        """10 ohm, 1/4 W: 6.25 times is 1.5625 W, 395 mA. 9 V drive that through 22.77 ohm: 12.77 behind it. Shorted 0.9 A, 8.1 W."""
        found = burnt_cause.cause(resistance=Q(10, "ohm"), rated_power=Q(0.25, "W"), supply=Q(9, "V"))
        assert found.burning.m_as("mA") == pytest.approx(395.28, abs=0.01) and found.rest.m_as("ohm") == pytest.approx(12.768, abs=0.001)
        assert found.shorted.m_as("A") == pytest.approx(0.9) and found.shorted_power.m_as("W") == pytest.approx(8.1)
        words = " ".join(burnt_cause.why_first(found, resistance=Q(10, "ohm"), rated_power=Q(0.25, "W")))
        assert "13 Ω or less" in words and "motor" in words and words.endswith("moves the fault on.")

    @pytest.mark.parametrize(("value", "told"), [(100, "charred over minutes or hours"), (1000, "cannot overheat it at all"), (22, "So anything of 12 Ω or less")])
    def test_each_story_has_its_own_words(self, value, told):
        """9 V: 100 ohm shorted is 3.2 times its watts, 1 k a third of them."""
        found = burnt_cause.cause(resistance=Q(value, "ohm"), rated_power=Q(0.25, "W"), supply=Q(9, "V"))
        assert told in " ".join(burnt_cause.why_first(found, resistance=Q(value, "ohm"), rated_power=Q(0.25, "W")))

    def test_a_motor_is_no_suspect_where_only_a_dead_short_would_do(self):
        """43 ohm stand 8.2 V before they burn: of 9 V that leaves 4.2 ohm behind it, fewer than a held motor has."""
        found = burnt_cause.cause(resistance=Q(43, "ohm"), rated_power=Q(0.25, "W"), supply=Q(9, "V"))
        assert found.rest.m_as("ohm") == pytest.approx(9 / np.sqrt(6.25 * 0.25 / 43) - 43)
        assert "motor" not in " ".join(burnt_cause.why_first(found, resistance=Q(43, "ohm"), rated_power=Q(0.25, "W")))

    @pytest.mark.parametrize(("diameter", "length", "watts", "usual"), [
        (2.4, 6.5, 0.25, True), (1.7, 3.2, 0.125, True), (3.2, 9.0, 0.5, True), (5.0, 12, 1, True), (10, 40, 3, False)])
    def test_the_body_s_size(self, diameter, length, watts, usual):
        assert burnt_cause.body_watts(diameter=Q(diameter, "mm"), length=Q(length, "mm")) == (Q(watts, "W"), usual)

    def test_the_safe_types_are_named_first(self):
        first, second, *_ = burnt_cause.replacement_words(kind=FILM, rated_power=Q(0.25, "W"))
        assert "only the same type of the same value" in first and "More watts is no cure" in second
        assert len(burnt_cause.replacement_words(kind=COMPOSITION, rated_power=Q(0.25, "W"))) == 3


def test_every_colour_that_heat_may_leave_is_a_band():
    seen = set(burnt_resistor._WAS) | {was for one in burnt_resistor._WAS.values() for was in one}
    assert set(DIGITS) <= seen
