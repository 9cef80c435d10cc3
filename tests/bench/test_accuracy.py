"""What an instrument's accuracy says, and which promise covers a reading."""

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchreckoner.bench.accuracy import entry_for, read_accuracy
from benchreckoner.units import Q

RANGES = [
    {"quantity": "voltage", "up_to": "20 V", "limit": "0.8 % + 20 mV"},
    {"quantity": "voltage", "up_to": "200 mV", "limit": "0.5 % + 0.2 mV"},
    {"quantity": "voltage", "up_to": "2 V", "limit": "0.6 % + 2 mV"},
    {"quantity": "current", "up_to": "2 A", "limit": "1.5 % + 3 digits"},
    {"quantity": "resistance", "limit": "1 % + 2 digits"},
]


def only(text):
    entry, = read_accuracy(text, "accuracy")
    return entry.fraction, entry.fixed, entry.digits


class TestReading:
    @pytest.mark.parametrize("text", [
        "0.5 % + 2 digits", "±(0,5 % + 2 digits)", "0.5%+2d", "± 0.5 % ± 2 dgt", "2 counts + 0.5 %",
        "(0.5 % of reading + 2 Digits)", "0.5 % rdg + 2 dgts",
    ])
    def test_spellings_of_one_promise(self, text):
        assert only(text) == (pytest.approx(0.005), None, 2.0)

    def test_fixed_parts(self):
        assert only("3 mV") == (0.0, Q(3, "mV"), 0.0)
        assert only("1 %") == (pytest.approx(0.01), None, 0.0)
        fraction, fixed, digits = only("0.8 % + 3 mV + 1 digit")
        assert (fraction, digits) == (pytest.approx(0.008), 1.0)
        assert fixed == Q(3, "mV")

    def test_a_temperature_limit_is_a_difference(self):
        assert only("2 °C")[1].to("delta_degF").magnitude == pytest.approx(3.6)

    @settings(deadline=None)
    @given(percent=st.decimals("0.1", 50, places=1), digits=st.integers(1, 99), comma=st.booleans())
    def test_what_is_typed_is_what_is_read(self, percent, digits, comma):
        text = f"±({percent} % + {digits} digits)"
        fraction, _, counted = only(text.replace(".", ",") if comma else text)
        assert fraction == pytest.approx(float(percent) / 100)
        assert counted == digits

    def test_a_word_for_an_accuracy_is_answered_with_one(self):
        with pytest.raises(ValueError, match='^accuracy: \'good\' holds no number, write for example "0.8 % . 3 mV"$'):
            read_accuracy("good", "accuracy")

    @pytest.mark.parametrize("text", [
        "", "%", "0.8", "0.8 % + ", "-1 %", "0.8 % + -3 mV", "0.8 % + 0.3 %", "3 mV + 4 mV", "0 %", "0 digits",
        "150 %", "nan %", "nan V", "1e400 V", "2 % of full scale", "2 % FS", "1 % of range", "good", "3 kg/s",
        "0.8 % & 3 mV",
    ])
    def test_nonsense_names_the_entry_and_shows_an_example(self, text):
        with pytest.raises(ValueError, match=r'^accuracy: .*(write|for example) .*"'):
            read_accuracy(text, "accuracy")

    @pytest.mark.parametrize(("entry", "where"), [
        (3.5, "accuracy:"), ([], "accuracy:"), (True, "accuracy:"), (["1 %"], "accuracy 1:"),
        ([{"limit": "1 %"}], "accuracy 1, quantity:"),
        ([{"quantity": "voltage"}], "accuracy 1, limit:"),
        ([{"quantity": "voltage", "limit": 1}], "accuracy 1, limit:"),
        ([{"quantity": "volts", "limit": "1 %"}], "accuracy 1, quantity:"),
        ([{"quantity": ["voltage"], "limit": "1 %"}], "accuracy 1, quantity:"),
        ([RANGES[0], {"quantity": "voltage", "up_to": "2 A", "limit": "1 %"}], "accuracy 2, up_to:"),
        ([RANGES[0], {"quantity": "voltage", "up_to": "-2 V", "limit": "1 %"}], "accuracy 2, up_to:"),
        ([RANGES[0], {"quantity": "voltage", "upto": "2 V", "limit": "1 %"}], "accuracy 2, upto:"),
        ([{"quantity": "voltage", "limit": "1 % + 3 mA"}], "accuracy 1, limit:"),
    ])
    def test_faulty_tables_name_their_place(self, entry, where):
        with pytest.raises(ValueError, match=f"^{where}") as fault:
            read_accuracy(entry, "accuracy")
        assert "write" in str(fault.value) or "for example" in str(fault.value)


class TestChoosing:
    promises = read_accuracy(RANGES, "meter")

    def choose(self, quantity, value, **more):
        return entry_for(self.promises, quantity=quantity, value=value, name="meter", **more)

    @pytest.mark.parametrize(("value", "fraction"), [
        (Q(150, "mV"), 0.005), (Q(-150, "mV"), 0.005), (Q(200, "mV"), 0.005), (Q(0.2, "V"), 0.005),
        (Q(201, "mV"), 0.006), (Q(4.83, "V"), 0.008), (Q(-19.9, "V"), 0.008),
    ])
    def test_the_smallest_range_that_holds_the_value(self, value, fraction):
        assert self.choose("voltage", value).fraction == pytest.approx(fraction)

    def test_a_stated_range_decides(self):
        chosen = self.choose("voltage drop", Q(150, "mV"), range=Q(20, "V"))
        assert chosen.fraction == pytest.approx(0.008)

    @pytest.mark.parametrize(("quantity", "value", "fraction"), [
        ("voltage drop", Q(150, "mV"), 0.005), ("leakage current", Q(3, "uA"), 0.015),
        ("series resistance", Q(2, "ohm"), 0.01),
    ])
    def test_read_on_the_ranges_of_its_sister(self, quantity, value, fraction):
        assert self.choose(quantity, value).fraction == pytest.approx(fraction)

    def test_a_promise_of_its_own_comes_before_its_sister(self):
        promises = read_accuracy([*RANGES, {"quantity": "leakage current", "limit": "7 %"}], "meter")
        chosen = entry_for(promises, quantity="leakage current", value=Q(3, "uA"), name="meter")
        assert chosen.fraction == pytest.approx(0.07)
        assert entry_for(promises, quantity="current", value=Q(3, "uA"), name="meter").fraction \
            == pytest.approx(0.015)

    def test_one_promise_serves_every_quantity_of_its_dimension(self):
        promises = read_accuracy("1 % + 2 digits", "meter")
        for quantity, value in (("voltage", Q(5, "V")), ("current", Q(5, "A")), ("temperature", Q(5, "degC"))):
            assert entry_for(promises, quantity=quantity, value=value, name="meter").digits == 2

    @pytest.mark.parametrize(("quantity", "value", "more"), [
        ("voltage", Q(21, "V"), {}), ("time", Q(3, "s"), {}), ("current", Q(3, "A"), {}),
        ("voltage", Q(150, "mV"), {"range": Q(600, "V")}), ("voltage", Q(250, "mV"), {"range": Q(200, "mV")}),
    ])
    def test_no_promise_names_the_instrument(self, quantity, value, more):
        with pytest.raises(ValueError, match=r"instrument 'meter'.*(write|for example)"):
            self.choose(quantity, value, **more)

    def test_a_fixed_part_of_another_dimension_asks_for_ranges(self):
        promises = read_accuracy("0.8 % + 3 mV", "meter")
        assert entry_for(promises, quantity="voltage drop", value=Q(1, "V"), name="meter").fixed == Q(3, "mV")
        with pytest.raises(ValueError, match=r'meter.*write one entry a range: accuracy = \[\{ quantity = "current"'):
            entry_for(promises, quantity="current", value=Q(1, "A"), name="meter")

    def test_the_example_in_an_error_can_be_typed(self):
        with pytest.raises(ValueError, match="write one entry a range") as fault:
            self.choose("speed", Q(33, "turn/min"))
        typed = tomllib.loads("accuracy = " + str(fault.value).partition("accuracy = ")[2])["accuracy"]
        assert read_accuracy(typed, "accuracy")[0].quantity == "speed"
