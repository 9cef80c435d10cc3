"""Reforming: what is refused and why, plans by hand, cautions before steps, and the lesson round them."""

from html import unescape

import numpy as np
import pytest
from fair import check_fair
from hypothesis import given, settings
from hypothesis import strategies as some

from benchreckoner.bench.reforming_plan import IDLE, KINDS, SIGNS, Refused, plan_reforming, rating_to_buy
from benchreckoner.lessons import reforming
from benchreckoner.physics.preferred import SERIES
from benchreckoner.show.declare import corners
from benchreckoner.units import Q, read_quantity


def plan(**changed):
    usual = dict(capacitance=Q(1000, "uF"), rated_voltage=Q(25, "V"), supply=Q(25, "V"))
    return plan_reforming(**usual | changed)


class TestRefused:
    @pytest.mark.parametrize(("changed", "told"), [
        (dict(supply=Q(70, "V"), rated_voltage=Q(100, "V")), "Supply: 70 V is above 63 V"),
        (dict(rated_voltage=Q(100, "V")), "Rated voltage: 100 V is above 63 V"),
        (dict(supply=Q(26, "V")), "more than the 25 V"),
        (dict(kind="solid tantalum"), "can catch fire"), (dict(kind="not known"), "find out first"),
        (dict(signs=SIGNS[1]), "vented"), (dict(signs=SIGNS[2]), "dried out"), (dict(signs=SIGNS[3]), "short"),
    ])
    def test_with_the_reason(self, changed, told):
        with pytest.raises(Refused, match=told):
            plan(**changed)

    @pytest.mark.parametrize("changed", [dict(capacitance=Q(0, "uF")), dict(capacitance=Q(-1, "uF")), dict(supply=Q(0, "V")),
                                         dict(capacitance=Q(5, "V"))])
    def test_what_is_no_part(self, changed):
        with pytest.raises(ValueError):
            plan(**changed)

    def test_nothing_above_63_volts_whatever_the_rest(self):
        for kind in KINDS:
            for idle in IDLE:
                with pytest.raises(Refused, match="63 V"):
                    plan(supply=Q(63.01, "V"), rated_voltage=Q(450, "V"), kind=kind, idle=idle)


class TestThePlan:
    def test_by_hand(self):
        """25 V, 2 mA: 12.5 kohm, so 15 kohm; 1.67 mA, 41.7 mW; 5 x 15 s; 1 s x ln 25; 0.01 x 25000 + 3 uA (C23), a tenth of 25 V."""
        found = plan()
        assert found.resistor.m_as("kohm") == pytest.approx(15) and found.worst_current.m_as("mA") == pytest.approx(25 / 15)
        assert found.worst_power.m_as("mW") == pytest.approx(625 / 15) and found.rating.m_as("W") == 0.25
        assert found.settling.m_as("s") == pytest.approx(75) and found.discharge_time.m_as("s") == pytest.approx(3.2189, abs=1e-3)
        assert found.limit.m_as("uA") == pytest.approx(253) and found.stop_below.m_as("V") == pytest.approx(2.5)

    def test_published_discharge(self):
        """Check value C48: 63 V, 4700 uF, 1 kohm, 19.4727 s; 4 W at the first moment want a resistor of 5 W."""
        found = plan(capacitance=Q(4700, "uF"), rated_voltage=Q(63, "V"))
        assert found.discharge_time.m_as("s") == pytest.approx(19.4727, abs=1e-3) and found.discharge_rating.m_as("W") == 5

    def test_a_small_part_stops_at_its_limit(self):
        """1 uF, 50 V: 3.5 uA through 27 kohm are 94 mV, far below a tenth of the volts."""
        found = plan(capacitance=Q(1, "uF"), rated_voltage=Q(50, "V"), supply=Q(50, "V"))
        assert found.stop_below.m_as("mV") == pytest.approx(3.5 * 27)

    @settings(max_examples=60)
    @given(farads=some.floats(0.5, 5000), rated=some.floats(4, 63), share=some.floats(0.1, 1), most=some.sampled_from([1, 2, 5]))
    def test_the_worst_case_is_always_stood(self, farads, rated, share, most):
        """Law: all volts across the resistor, no more current than allowed, twice the heat in hand, an E12 value."""
        found = plan(capacitance=Q(farads, "uF"), rated_voltage=Q(rated, "V"), supply=Q(share * rated, "V"), most_current=Q(most, "mA"))
        volts, ohms = share * rated, found.resistor.m_as("ohm")
        assert volts / ohms <= 1e-3 * most * (1 + 1e-6) and 2 * volts**2 / ohms <= found.rating.m_as("W") * (1 + 1e-9)
        mantissa = round(ohms / 10 ** np.floor(np.log10(ohms) + 1e-9), 2)
        assert mantissa in SERIES["E12"] or mantissa == 10
        assert rated * np.exp(-found.discharge_time.m_as("s") / (1000 * farads * 1e-6)) <= 1 + 1e-9
        assert rated**2 / 1000 <= found.discharge_rating.m_as("W")

    def test_discharge_first_and_last(self):
        first, *_, again, _ = plan().steps
        assert first.startswith("Discharge it first") and again.startswith("Discharge it again")
        assert "below 1 V" in first and "Wait five minutes and read again" in first and "3.8 V can come back" in first

    def test_when_to_stop_is_said(self):
        words = " ".join(plan().steps)
        assert "Stop, done" in words and "Stop, scrap" in words and "Warm, hissing or swelling: off at once" in words

    def test_at_less_than_its_rated_voltage_it_is_good_for_that_only(self):
        assert "good for 16 V, not for the 25 V" in " ".join(plan(supply=Q(16, "V")).steps)
        assert "good for" not in " ".join(plan().steps)

    def test_a_rating_is_never_too_small(self):
        assert rating_to_buy(Q(0.25, "W")).m_as("W") == 0.25 and rating_to_buy(Q(0.26, "W")).m_as("W") == 0.5


class TestTheForm:
    def filled(self, **texts):
        form = reforming._Planner()
        for name, text in {"capacitance": "1000 uF", "rated_voltage": "25 V", "supply": "25 V", **texts}.items():
            (form.texts | form.choices)[name].value = text
        form.make()
        return form

    def test_cautions_stand_before_the_steps(self):
        text = unescape(self.filled().answer.value)
        assert text.index("Only up to 63 V") < text.index("Discharge it first") and "eye protection" in text
        assert "Common practice, no published recipe" in text

    @pytest.mark.parametrize(("texts", "told"), [
        ({"supply": "30 V"}, "more than the 25 V"), ({"supply": "25"}, "Volts you would set"), ({"capacitance": "-5 uF"}, "above zero"),
        ({"capacitance": ""}, "Capacitance"), ({"kind": "solid tantalum"}, "not reformed"),
        ({"rated_voltage": "<b>450 V"}, "&lt;b&gt;"),
    ])
    def test_a_refusal_says_why_and_leaves_no_plan(self, texts, told):
        form = self.filled(**texts)
        assert told in form.error.value and form.answer.value == ""

    def test_a_part_in_use_gets_little_hope(self):
        assert "reckon with replacing it" in self.filled(idle=IDLE[1]).answer.value
        assert "may help" in self.filled().answer.value


def test_every_corner_can_be_drawn():
    for _, picture in corners(reforming.SHORT):
        assert picture.sentence.endswith(".") and picture.points[0].drawn


@pytest.mark.parametrize(("volts", "ohms"), [(25, 5600), (63, 15000)])
def test_the_goal_can_be_met(volts, ohms):
    """5 and 12.6 kohm by hand; the next E12 values, and no smaller one."""
    resistor, supply = reforming.SHORT.sliders
    steps = list(resistor.steps)
    place, level = steps.index(ohms), list(supply.steps).index(volts)
    assert "within the bench rule" in reforming.SHORT.at({"resistor": place, "supply": level}).sentence
    assert "too much" in reforming.SHORT.at({"resistor": place - 1, "supply": level}).sentence


def test_the_published_resistor_in_the_guess_is_far_too_small():
    """C47's 100 ohm at 25 V: 250 mA, 6.25 W."""
    positions = {"resistor": 0, "supply": list(reforming.SHORT.sliders[1].steps).index(25)}
    sentence = reforming.SHORT.at(positions).sentence
    assert "250 mA" in sentence and "no common resistor" in sentence


@pytest.mark.parametrize("make", [reforming.guess_help, reforming.guess_resistor, reforming.planner], ids=lambda make: make.__name__)
def test_it_can_be_asked(make):
    assert make().children


@pytest.mark.parametrize("make", [reforming._worst_watts, reforming._how_long], ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(25))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_the_discharge_by_its_given_numbers():
    for seed in range(25):
        problem = reforming._how_long(np.random.default_rng(seed))
        farads, volts, ohms = (read_quantity(text, unit).quantity.m_as(unit)
                               for (_, text), unit in zip(problem.given, ("F", "V", "ohm"), strict=True))
        assert problem.right(ohms * farads * np.log(volts))
