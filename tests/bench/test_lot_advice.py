"""Advice on a lot: typed entries are read or refused by name, and the advice follows the cheapest step."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner.bench.lot_advice import advice, likely_span, read_plan, read_price
from benchreckoner.units import Q

ENTRIES = {"tested": "5", "bad": "3", "untested": "12", "test_time": "4 min", "replace_time": "6 min", "price": "0.40 €",
           "hour": "12 €", "pad_risk": "1 %", "pad_time": "30 min", "miss_time": "90 min", "expected": "50 %", "weight": "2"}


def plan(**changed):
    return read_plan({**ENTRIES, **changed})


def test_entries_become_minutes():
    """0.40 of 12 an hour is 2 min; a pad is 0.3 min: 4.3 and 6 + 2 + 0.3."""
    read = plan()
    assert read.test.m_as("min") == pytest.approx(4.3) and read.replace.m_as("min") == pytest.approx(8.3)
    assert plan(miss_time="1,5 h").miss == Q(90, "min")


@pytest.mark.parametrize(("text", "wanted"), [("0,40 €", (0.4, "€")), ("£2", (2, "£")), ("3.5 EUR", (3.5, "EUR")), ("40p", (40, "p"))])
def test_a_price_is_read_with_its_currency(text, wanted):
    assert read_price(text, "Price") == wanted


@pytest.mark.parametrize(("changed", "told"), [
    ({"price": "0.40"}, "Price: .*currency"), ({"price": "£0.40 €"}, "Price"), ({"price": "0.40 £"}, "one currency"), ({"hour": "0 €"}, "hour"),
    ({"bad": "6"}, "Bad: 6 bad of 5"), ({"tested": "five"}, "Tested"), ({"untested": "501"}, "Untested"), ({"test_time": "4"}, "Time to test"),
    ({"miss_time": "-1 min"}, "stays in"), ({"pad_risk": "130 %"}, "Risk"), ({"expected": "100 %"}, "Expected"), ({"weight": "0"}, "Worth"),
    ({"weight": "much"}, "Worth"), ({"replace_time": "6 V"}, "Time to replace"),
])
def test_nonsense_is_refused_by_the_name_of_its_box(changed, told):
    with pytest.raises(ValueError, match=told):
        plan(**changed)


def test_five_of_five_bad_is_replaced_and_a_dozen_sound_ones_are_left():
    assert advice(plan(bad="5"))[0] == "Stop testing. Replace the other 12."
    assert advice(plan(bad="0", tested="12", miss_time="30 min"))[0] == "Stop testing. Leave the other 12 in."
    assert advice(plan(bad="0"))[0] == "Test the next one."
    assert advice(plan(untested="0")) == ("Nothing is left untested.",)


def test_a_near_tie_is_told():
    """3 of 5: testing on and replacing all cost within half a per cent of each other."""
    lines = advice(plan())
    assert any("nearly the same" in line for line in lines)
    assert not any("nearly the same" in line for line in advice(plan(bad="0")))


def test_the_opinion_beforehand_is_told_where_it_matters():
    assert any("hardly matters" in line for line in advice(plan(bad="5")))
    assert any("expected 90 % bad would replace the rest" in line for line in advice(plan()))


def test_what_follows_a_test_is_what_is_then_advised():
    read = plan(bad="0", miss_time="25 min", tested="3")
    line = next(one for one in advice(read) if one.startswith("If it is bad"))
    assert read.after(False).step.step == "leave"
    assert ("leave the rest in" in line.partition("If it is sound")[2]) == (read.after(False).step.step == "leave")


def test_a_test_moves_one_part_from_the_rest_to_the_tested():
    after = plan().after(True)
    assert (after.tested, after.bad, after.untested) == (6, 4, 11)
    assert plan().after(False).bad == 3


def test_the_likely_span_leaves_out_a_twentieth_at_each_end():
    assert likely_span([0.05, 0.9, 0.05]) == (0, 1) and likely_span([0.04, 0.92, 0.04]) == (1, 1)
    assert likely_span([1.0]) == (0, 0) and likely_span([0.04, 0.88, 0.08]) == (1, 2)


@settings(max_examples=60)
@given(tested=st.integers(0, 20), share=st.floats(0, 1), untested=st.integers(0, 25), miss=st.integers(0, 300),
       price=st.integers(0, 900), weight=st.integers(1, 40))
def test_whatever_is_typed_the_advice_is_a_cheapest_one(tested, share, untested, miss, price, weight):
    read = plan(tested=str(tested), bad=str(round(share * tested)), untested=str(untested), miss_time=f"{miss} min",
                price=f"{price / 100} €", weight=str(weight))
    lines, step = advice(read), read.step
    assert all(line.strip() and "nan" not in line for line in lines)
    if untested:
        word = {"test": "Test", "replace": "Replace", "leave": "Leave"}[step.step]
        assert word in lines[0] and getattr(step, step.step) == min(step.test, step.replace, step.leave)
