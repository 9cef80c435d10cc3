"""The tin of faults as a lesson: the picture at its corners, the host's form, the table, fair exercises."""

import re

import numpy as np
import pytest
from fair import check_fair

from benchreckoner.bench.sheet import read_text
from benchreckoner.lessons import tin_form, tin_of_faults, tin_practice
from benchreckoner.lessons.your_bench import my_sheet
from benchreckoner.physics.preferred import nearest_preferred
from benchreckoner.show.declare import corners
from benchreckoner.units import Q, read_quantity

PROBLEMS = [tin_practice._lost_by_the_nearest, tin_practice._watts_at_worst, tin_practice._ohms_for_decibels,
            tin_practice._share_of_the_track, tin_practice._highest_reading]
TEXTS = {"supply": "9 V", "playing": "100 mA", "held": "1 A", "volts": "0.45 V", "load": "8 ohm", "loss": "1 dB", "track": "10k",
         "share": "20 %", "leads": "0.20 ohm", "ammeter": "1 % + 2 mA", "voltmeter": "0.5 % + 1 mV", "ohmmeter": "0.8 % + 0.2 ohm",
         "tolerance": "5 %", "counts": "2000"}


class TestThePicture:
    def test_it_can_be_drawn_at_every_corner_with_the_same_axes(self):
        found = [picture for _, picture in corners(tin_of_faults.WHICH_RESISTOR)]
        assert all(picture.sentence and all(point.drawn for point in picture.points) for picture in found)
        assert len({(picture.x.low, picture.x.high, picture.y.low, picture.y.high, picture.title) for picture in found}) == 1

    def at(self, wish, current):
        """The picture at the steps nearest to these values."""
        live = tin_of_faults.WHICH_RESISTOR
        wanted = {"wish": wish, "current": current}
        return live.at({one.name: int(np.argmin(np.abs(np.log(np.array(one.steps) / wanted[one.name])))) for one in live.sliders})

    def test_the_first_goal_can_be_met(self):
        """1 V at 100 mA is 10 ohm, and the drawer has 10 ohm."""
        assert "has just that: 10 Ω" in self.at(1.0, 0.1).sentence
        assert "−0 %" not in self.at(1.0, 0.1).alt

    def test_the_second_goal_can_be_met(self):
        """2 ohm lies between 1.8 and 2.2: the nearer by ratio, 2.2, is 10 % too much. No step of E12 can miss by over 12 %."""
        misses = {}
        for wish in tin_of_faults.WHICH_RESISTOR.sliders[0].steps:
            told = re.search(r"by (\d+) %", self.at(wish, 0.1).sentence)
            misses[wish] = int(told[1]) if told else 0
        assert max(misses, key=misses.get) == 0.2 and misses[0.2] == 10

    def test_the_saw_is_the_nearest_resistor(self):
        """Second route: the law for one value, on both sides of where the nearest changes."""
        picture = self.at(0.45, 0.1)
        (saw,) = picture.curves
        listed = np.array([1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2, 10])
        turns = 0.1 * np.sqrt(listed[:-1] * listed[1:])
        for volts in [*np.geomspace(0.06, 1.9, 20), *(0.999 * turns), *(1.001 * turns)]:
            nearest = nearest_preferred(value=Q(volts / 0.1, "ohm")).m_as("ohm")
            assert np.interp(volts, saw.x, saw.y) == pytest.approx(100 * (0.1 * nearest / volts - 1), abs=0.1)

    def test_the_two_marks_stand_where_the_two_resistors_miss(self):
        """0.45 V at 100 mA is 4.5 ohm: 3.9 is 13.3 % less, 4.7 is 4.4 % more."""
        milder, stronger = self.at(0.45, 0.1).points
        assert milder.y == pytest.approx(100 * (3.9 / 4.5 - 1)) and stronger.y == pytest.approx(100 * (4.7 / 4.5 - 1))


def test_the_guess_can_be_asked():
    assert tin_of_faults.guess_tin().children


class TestTheForm:
    def form(self, **changed):
        form = tin_form._Tin()
        for name, text in {**TEXTS, **changed}.items():
            form.boxes[name].value = text
        form.reckon()
        return form

    def rows(self, form):
        return [[re.sub("<[^>]*>", "", cell) for cell in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row)]
                for row in re.findall(r"<tr>(.*?)</tr>", form.answer.value)][1:]

    def test_the_table_by_hand(self):
        """0.45 V at 0.1 A is 4.5 ohm. Held, 9 V over 9 ohm and 4.7 ohm is 0.657 A: 2.03 W, so buy 5 W."""
        rows = self.rows(self.form())
        assert [row[0] for row in rows] == ["bad spring, 3.9 Ω, 5 %", "bad spring, 4.7 Ω, 5 %", "dirty switch, 0.82 Ω, 5 %",
                                            "dirty switch, 1 Ω, 5 %", "worn wiper, 1.8 kΩ, 5 %", "worn wiper, 2.2 kΩ, 5 %"]
        assert rows[1][1].startswith("470 mV lost") and "66 % of the starting pull" in rows[1][1]
        assert rows[1][2] == "2.0 W" and rows[1][3] == "5 W or more"
        assert rows[3][1].startswith("1.02 dB lost") and rows[4][1].startswith("18 % of the track")
        # 470 mV within 5 %, 1 % + 2 mA + 0.5 mA of 100 mA, 0.5 % + 1 mV; u = a / sqrt(3), k = 2.
        limits = np.array([0.05, 0.01, 0.02, 0.005, 0.005, 1 / 470]) * 470
        half = 2 * np.sqrt(sum(limits**2) / 3)
        low, high = (float(number) for number in re.match(r"(\d+) to (\d+) mV", rows[1][4]).groups())
        assert low == pytest.approx(470 - half, abs=0.6) and high == pytest.approx(470 + half, abs=0.6)

    def test_what_a_host_must_know_is_told(self):
        assert "A 0.25 W part would overheat" in self.form().answer.value
        assert "held, 2 s at most" in self.form(held="").answer.value
        assert "cannot tell it from a sound contact" in self.form(voltmeter="0.5 % + 50 mV", volts="20 mV").answer.value
        assert "no usual drawer holds it" in self.form(volts="5 mV").answer.value and "drawer holds it" not in self.form().answer.value
        assert "the motor may not start" in self.form(volts="1.5 V", held="1 A").answer.value
        assert "Take care" not in self.form(supply="1.5 V", playing="20 mA", held="0.1 A", volts="60 mV", load="32 ohm").answer.value

    @pytest.mark.parametrize(("name", "text", "told"), [
        ("supply", "nine", "Supply: cannot read"), ("supply", "230 V", "Supply: 230 V is beyond 63 V"),
        ("supply", "", "Supply: nothing there yet"), ("playing", "-100 mA", "playing: must be above zero"),
        ("playing", "100 mV", "playing: "), ("held", "50 mA", "held (if you read it): 50.0 mA is less than"),
        ("volts", "5 V", "volts to lose: 5.00 V is half the supply"), ("load", "0 ohm", "what it feeds: must be above zero"),
        ("loss", "60 dB", "decibels to lose: 60.0 dB is near silence"), ("track", "10", "track: "), ("share", "120 %", "share of the track: must be"),
        ("share", "20", "share of the track: cannot read"), ("leads", "0 ohm", "leads: must be above zero"),
        ("voltmeter", "0.5 % + 1 mA", "Meter on volts: "), ("ohmmeter", "0.8 % + 2 digits", "Meter on ohms: a limit in digits"),
        ("ohmmeter", "<b>best</b>", "Meter on ohms: "), ("ammeter", "0 %", "Meter on amperes: "),
    ])
    def test_nonsense_names_the_entry_and_stays(self, name, text, told):
        form = self.form(**{name: text})
        assert told in form.error.value and not form.answer.value and "<b>" not in form.error.value
        assert form.boxes[name].value == text

    def test_it_opens_on_what_the_sheet_knows(self):
        boxes = {name: box.value for name, box in tin_form._Tin().boxes.items()}
        assert (boxes["supply"], boxes["playing"], boxes["held"]) == ("9.13 V", "72.0 mA", "1.09 A")
        assert boxes["voltmeter"] == "meter" and boxes["ammeter"] == "second meter"

    def test_a_meter_of_the_sheet_is_named(self):
        """The demo's meter on 2 V, 2000 counts: 0.5 % + 1 mV, and half a digit of 1 mV. Besides 1 %, and 1 % + 2.5 mA of 100 mA."""
        band = self.rows(self.form(voltmeter="meter", tolerance="1 %", ammeter="1 % + 2 mA"))[1][4]
        half = 2 * np.sqrt(sum(np.array([4.7, 4.7, 9.4, 2.35, 2.35, 1, 0.5]) ** 2) / 3)
        low, high = (float(number) for number in re.match(r"(\d+) to (\d+) mV", band).groups())
        assert low == pytest.approx(470 - half, abs=0.6) and high == pytest.approx(470 + half, abs=0.6)

    def test_what_was_typed_is_there_the_next_time(self):
        self.form(load="16 ohm", supply="nonsense")
        boxes = tin_form._Tin().boxes
        assert boxes["load"].value == "16 ohm" and boxes["supply"].value == "nonsense" and tin_form.tin().children

    def test_an_empty_sheet_leaves_the_boxes_empty(self):
        assert tin_form.from_sheet(read_text("version = 1\n")) == {}
        assert tin_form.from_sheet(my_sheet())["leads"] == "180 mΩ"


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_exercises_by_their_given_numbers():
    """What a reader would reckon from the numbers as shown comes out right."""
    series = (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
    values = [value * 10.0**power for power in range(-1, 3) for value in series]

    def given(problem):
        return [read_quantity(text, ("V", "A", "ohm", "dB")).quantity.to_base_units().magnitude
                for _, text in problem.given if re.fullmatch(r"[\d.]+ (?:[mk]?(?:V|A|Ω))", text)]

    for seed in range(40):
        problem = tin_practice._lost_by_the_nearest(np.random.default_rng(seed))
        volts, amperes = given(problem)
        assert problem.right(amperes * min(values, key=lambda one: abs(np.log(one * amperes / volts))))
        problem = tin_practice._watts_at_worst(np.random.default_rng(seed))
        supply, rest, ohms, _ = given(problem)
        assert problem.right(2 * (supply / (rest + ohms)) ** 2 * ohms)


def test_each_exercise_can_be_opened():
    assert all(make(3).children for make in (tin_practice.lost_by_the_nearest, tin_practice.watts_at_worst, tin_practice.mixed))
