"""The lessons of books 00 and 02: pictures at every corner, goals that can be met, questions with true answers."""

import json
import re

import numpy as np
import pytest
from fair import at, check_fair

from benchreckoner import project
from benchreckoner.bench.desk import sheet_path
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons import contact_practice, contact_resistance, resistor_trial, start_here, your_bench
from benchreckoner.show.declare import corners
from benchreckoner.units import Q, read_quantity

PROBLEMS = [contact_practice.drop_to_ohms_problem, contact_practice.held_volts_problem, contact_practice._missing_joint,
            contact_practice._two_wire, contact_practice._two_prongs]


def test_my_own_picture_can_be_drawn_at_every_corner():
    live = contact_resistance.my_held_volts()
    assert all(picture.sentence for _, picture in corners(live.declaration))
    assert "Your reading is marked" in live.picture.sentence
    assert "spring 3" in live.declaration.goal


def test_the_goal_of_the_first_picture_can_be_met():
    """Check value K4: 6 V, 0.6 ohm, 8 ohm, and 1 ohm in the link leave 5.0000 V."""
    picture = at(contact_resistance.HELD_VOLTS, link=1.0, cells=0.6)
    assert picture.points[0].y == pytest.approx(5.0) and "5.00 V of 6.00 V" in picture.sentence
    # K6: 0.89583 of the starting pull.
    assert "90 % of the starting pull" in picture.sentence


def test_the_curve_is_the_point_moved_along():
    """Second route: each point of the curve is the voltage divider by hand."""
    picture = at(contact_resistance.HELD_VOLTS, link=1.0, cells=0.6)
    (curve,) = picture.curves
    assert curve.y == pytest.approx(6 * 8 / (8.6 + curve.x))


def test_the_goal_of_the_divider_can_be_met():
    assert at(start_here.DIVIDER, upper=1.6, lower=8.0).points[0].y == pytest.approx(5.0)


def test_the_goal_of_plus_or_minus_can_be_met():
    """Bad needs 95 % above 0.5 ohm: from 0.6 ohm that is 1.645 u, so the ± (2 u) may be 0.1216 ohm."""
    assert ": bad;" in at(start_here.PLUS_OR_MINUS, value=0.6, spread=0.12).sentence
    assert "can't tell yet" in at(start_here.PLUS_OR_MINUS, value=0.6, spread=0.13).sentence


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_the_missing_joint_by_its_given_numbers():
    """What a reader would reckon from the numbers as shown comes out right."""
    for seed in range(40):
        problem = contact_practice._missing_joint(np.random.default_rng(seed))
        given = {name: read_quantity(text, ("V", "A")).quantity for name, text in problem.given}
        drops = sum(value.m_as("V") for name, value in given.items() if name.startswith("drop"))
        left = given["supply under load"].m_as("V") - given["at the motor"].m_as("V") - drops
        assert problem.right(left / given["current"].m_as("A"))


def test_links_of_the_entry_questions_arrive():
    cells = json.loads((project.NOTEBOOKS / "02_contact_resistance.ipynb").read_text(encoding="utf-8"))["cells"]
    text = "\n".join("".join(cell["source"]) for cell in cells)
    headings = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    assert contact_practice._SECTION in headings and contact_practice._BENCH in headings


def test_the_index_names_every_book_with_its_question():
    lines = start_here.books().data.splitlines()
    assert len(lines) == 2 + len(list(project.NOTEBOOKS.glob("*.ipynb")))
    assert all(line.strip("| ").endswith("?") for line in lines[2:])


class TestTheForm:
    def enter(self, form, **entries):
        for name, text in entries.items():
            form.boxes[name].value = text
        form.save()

    def test_a_reading_is_saved_judged_and_taken_back(self, desk):
        before = desk.read_text(encoding="utf-8")
        taken = len(read_sheet(desk).readings)
        form = your_bench.readings_form()
        self.enter(form, part="spring 1", quantity="voltage drop", value="0,95 V", instrument="meter",
                   stage="springs cleaned", condition="held")
        assert "950 mV" in form.said.value and not form.error.value
        assert len(read_sheet(desk).readings) == taken + 1
        # Two readings that cannot both be true are not averaged in silence.
        assert "repeats of the voltage drop of spring 1" in form.answered.value
        form.undo()
        assert desk.read_text(encoding="utf-8") == before
        form.undo()
        assert "nothing to take back" in form.error.value

    def test_nonsense_keeps_the_entries(self, desk):
        taken = len(read_sheet(desk).readings)
        form = your_bench.readings_form()
        self.enter(form, part="spring 1", quantity="voltage drop", value="0.95", instrument="meter",
                   stage="as found", condition="held")
        assert "no unit" in form.error.value and form.boxes["value"].value == "0.95"
        assert len(read_sheet(desk).readings) == taken

    def test_a_sheet_edited_by_hand_is_read_afresh(self, desk):
        form = your_bench.readings_form()
        desk.write_text(desk.read_text(encoding="utf-8").replace('name = "spring 1"', 'name = "first spring"')
                        .replace('part = "spring 1"', 'part = "first spring"'), encoding="utf-8")
        form.settle("read again")
        assert "first spring" in form.boxes["part"].options[2][0] or "first spring" in str(form.boxes["part"].options)

    def test_names_never_become_markup(self, desk):
        desk.write_text(desk.read_text(encoding="utf-8").replace("spring 3", "<img src=x onerror=alert(1)>"),
                        encoding="utf-8")
        form = your_bench.readings_form()
        assert "<img" not in form.answered.value and "&lt;img" in form.answered.value


class TestTheResistorTrial:
    def test_the_plan_by_hand(self):
        """72 mA, the last read playing, and 9.13 V: 5 % is 0.457 V, 6.34 ohm, E12 6.8; held 8.41 + 6.8 ohm at 9.13 V is 0.600 A, 2.45 W."""
        plan = resistor_trial.plan(your_bench.my_sheet())
        assert plan.resistance.m_as("ohm") == pytest.approx(6.8)
        assert plan.expected.plain == pytest.approx(0.072 * 6.8)
        assert plan.held_power.m_as("W") == pytest.approx(2.45, rel=0.01)
        assert plan.rating.m_as("W") >= 2 * 2.45

    def test_a_reading_is_compared(self):
        plan = resistor_trial.plan(your_bench.my_sheet())
        form = resistor_trial.trial().children[1]
        for text, words in (("0,48 V", "agree"), ("0.60 V", "more than the uncertainty"), ("300 mV", "less than")):
            form.boxes["value"].value = text
            form.save()
            assert words in form.answered.value
        assert plan.expected.expanded.m_as("V") > 0

    def test_without_a_current_it_asks_for_one(self, desk):
        text = desk.read_text(encoding="utf-8")
        desk.write_text(text[:text.index("[[reading]]")], encoding="utf-8")
        asked = resistor_trial.trial()
        assert "current" in asked.children[0].value and "boxes" in dir(asked.children[1])

    def test_without_held_readings_it_asks_for_the_held_current(self, desk):
        desk.write_text(desk.read_text(encoding="utf-8").replace('condition = "held"', 'condition = "winding"'),
                        encoding="utf-8")
        with pytest.raises(ValueError, match="pulley held"):
            resistor_trial.plan(your_bench.my_sheet())  # 9.13 V across 4.7 ohm alone: 17.7 W, more than anybody has


def test_without_held_readings_the_picture_says_what_to_read(desk):
    text = desk.read_text(encoding="utf-8")
    desk.write_text(text[:text.index("[[reading]]")], encoding="utf-8")
    assert "needs readings" in contact_resistance.my_held_volts().data
    assert "no bad link" in contact_resistance.say_what_is_wrong().data


def test_our_sentences_pass_our_own_check():
    from benchreckoner.show.say import look_through

    report = contact_resistance._told_chain(read_sheet(sheet_path()))
    said = contact_resistance.say_what_is_wrong()
    assert said is not None
    checks = contact_resistance.say_checks(report)
    assert all(met for _, met, _ in look_through(contact_resistance.say_ours(report), checks))


def test_held_volts_says_volts_and_never_divides_by_nothing():
    picture = contact_resistance.held_volts(link=Q(100, "ohm"), cells=Q(0.1, "ohm"))
    assert 0 < picture.points[0].y < 0.5
