"""Lessons on what the first belt teaches, on rates, and on the reader's own belts: corners, goals, forms, fair exercises."""

import re
import shutil

import numpy as np
import pytest
from fair import at, check_fair
from scipy.integrate import trapezoid
from scipy.stats import norm

from benchreckoner.bench.belt_bag import draws_of, reckon
from benchreckoner.bench.belt_judge import judge_belts
from benchreckoner.bench.desk import SHEET_VARIABLE
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons import belt_opening, belt_rates_lesson, belt_verdicts, first_belt, first_belt_practice
from benchreckoner.lessons.belt_example import BELTS, DRIVE
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import read_quantity

PROBLEMS = (first_belt_practice._odds, first_belt_practice._chance, first_belt_practice._deviations, first_belt_practice._taken,
            belt_rates_lesson._chalk, belt_rates_lesson._motor_by_chalk, belt_rates_lesson._wheel_rate, lambda rng: belt_opening._inside_diameter())


@pytest.fixture
def tape_player(tmp_path, monkeypatch):
    """A copy of the invented tape player on the desk, for this test alone."""
    copy = tmp_path / "tape_player.toml"
    shutil.copy(first_belt.EXAMPLE, copy)
    monkeypatch.setenv(SHEET_VARIABLE, str(copy))
    return copy


@pytest.mark.parametrize("declared", [first_belt.NEXT, belt_rates_lesson.RATES], ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words)
    assert len(shapes) == 1
    assert np.prod([len(slider.steps) for slider in declared.sliders]) <= 5000


class TestTheNextCurrent:
    def weights(self, reading, good_to):
        first, following = 1e3 * reckon(DRIVE, draws_of(DRIVE, (BELTS[0], BELTS[3]), count=20_000), (BELTS[0], BELTS[3])).drawn
        weights = norm.pdf(reading, first, good_to / 2)
        return weights / weights.sum(), following

    @pytest.mark.parametrize(("reading", "good_to"), [(0.029, 0.006), (0.033, 0.0002), (0.042, 0.006), (0.031, 0.0002)])
    def test_its_band_by_the_other_library(self, reading, good_to):
        picture = at(first_belt.NEXT, reading=reading, good_to=good_to)
        weights, following = self.weights(1e3 * reading, 1e3 * good_to)
        inside = [weights[following <= limit.value].sum() for limit in picture.limits]
        assert inside == pytest.approx([0.025, 0.975], abs=0.004)
        assert f"on {1 / np.sum(weights**2):.0f} of 20000" in picture.sentence
        after = picture.curves[1]
        assert trapezoid(after.y, after.x) == pytest.approx(100, rel=0.01)
        assert after.x @ after.y / after.y.sum() == pytest.approx(weights @ following, abs=0.05)

    def test_nothing_is_left_of_an_impossible_reading(self):
        picture = at(first_belt.NEXT, reading=0.042, good_to=0.0002)
        assert "The model stops here" in picture.sentence and np.isnan(picture.curves[1].y).all() and np.isnan(picture.limits[0].value)

    def test_its_goals_can_be_met(self):
        """Below some reading the band ends under 35 mA; with a poor meter that reading narrows it by less than a tenth."""
        low = at(first_belt.NEXT, reading=0.0305, good_to=0.0002)
        assert low.limits[1].value < 35
        poor = at(first_belt.NEXT, reading=0.0305, good_to=0.006)
        before = [float(word) for word in re.search(r"it was ([\d.]+) to ([\d.]+)", poor.sentence).groups()]
        assert poor.limits[1].value - poor.limits[0].value > 0.88 * (before[1] - before[0])
        assert at(first_belt.NEXT, reading=0.033, good_to=0.0002).limits[1].value > 35

    def test_a_finer_meter_never_widens(self):
        steps = first_belt.NEXT.sliders[1].steps
        widths = [one.limits[1].value - one.limits[0].value for one in (at(first_belt.NEXT, reading=0.032, good_to=step) for step in steps)]
        assert all(fine < coarse + 0.1 for fine, coarse in zip(widths, widths[1:]))


class TestRates:
    def test_every_corner_by_hand(self):
        for positions, picture in corners(belt_rates_lesson.RATES):
            values = belt_rates_lesson.RATES.values(positions)
            small, turns = values["motor_seat"].m_as("mm") / 2 + 0.6, values["motor_speed"].m_as("turn/min") / 60
            lean = np.arcsin((30.6 - small) / 55)
            length = 2 * 55 * np.cos(lean) + small * (np.pi - 2 * lean) + 30.6 * (np.pi + 2 * lean)
            by_name = {line.name: line.x[0] for line in picture.curves}
            assert by_name == pytest.approx({"motor": turns, "flywheel": turns * small / 30.6, "belt": 2 * np.pi * small * turns / length})

    def test_published_rates_and_the_goal(self):
        """C40: 40, 4.7059 and 3.9170 Hz."""
        start = belt_rates_lesson.RATES.at(belt_rates_lesson.RATES.start)
        assert [line.x[0] for line in start.curves] == pytest.approx([3.9170, 4.7059, 40], rel=1e-4)
        assert at(belt_rates_lesson.RATES, motor_speed=1850).curves[0].x[0] == pytest.approx(3, abs=0.03)

    def test_the_sheets_own_table(self, tape_player):
        """2399 turns a minute by its hum, belt d in the machine; an idler and a platter come in where the sheet has them."""
        words = belt_rates_lesson.my_rates().data
        assert "belt d" in words and "4.70 Hz" in words and "3.92 Hz" in words and "40 Hz" in words and "so here is" not in words
        text = tape_player.read_text(encoding="utf-8").replace(
            "[[symptom]]", '[[part]]\nname = "platter"\nkind = "pulley"\nratio = 72\n\n[[symptom]]', 1)
        found = {one.name: one.rate.m_as("Hz") for one in belt_rates_lesson.rates_of(read_text(text))}
        assert found["platter"] == pytest.approx(2399 / 60 / 72) and list(found)[0] == "platter"

    def test_an_idler_that_is_not_touched_gives_no_rates(self, tape_player):
        text = tape_player.read_text(encoding="utf-8").replace(
            "[[symptom]]", '[[part]]\nname = "idler"\nkind = "pulley"\ndiameter = "8 mm"\nat = ["20 mm", "8 mm"]\n\n[[symptom]]', 1)
        tape_player.write_text(text, encoding="utf-8")
        words = belt_rates_lesson.my_rates().data
        assert "invented tape player" in words and "does not truly touch idler: its place, its seat or the way it turns may be wrong.<" in words

    def test_a_sheet_without_pulleys_gets_the_demo(self):
        assert "invented tape player" in belt_rates_lesson.my_rates().data


class TestTheReadersOwn:
    def test_a_record_player_gets_the_demo_and_is_told_why(self):
        words = first_belt.taught().data
        assert "invented tape player" in words and "On yours:" in words

    def test_the_demo_is_ranked_predicted_scored_and_ranked_again(self, tape_player):
        words = re.sub("<[^>]+>", " ", first_belt.taught().data)
        places = [words.index(part) for part in ("The bag before any belt", "belt a fitted.", "Read with belt a", "The bag after belt a",
                                                 "belt d fitted.", "The bag after belt d", "Keep belt d.")]
        assert places == sorted(places) and words.count("inside the band of 95 %") == 2 and "draws out of 100" in words
        first, both = (int(count) for count in re.findall(r"lies on (\d+) out of 60000 draws", words))
        assert both < first / 2, "the second belt's readings weigh on what the first have left"
        assert re.search(r"bag before.*?: belt a \d+; belt d", words) and re.search(r"bag after belt a.*?: belt d \d+; belt a", words)

    def test_before_a_better_one_is_fitted_its_current_is_told(self, tape_player):
        """Belt d, fitted but not read yet."""
        text = tape_player.read_text(encoding="utf-8")
        tape_player.write_text(text.replace('stage = "belt d fitted"\ncondition = "playing"', 'stage = "belt d fitted"\ncondition = "winding"'),
                               encoding="utf-8")
        words = re.sub("<[^>]+>", " ", first_belt.taught().data)
        assert "Next, if another is tried.  With belt d the motor will draw" in words and "Keep" not in words

    def test_a_reading_that_nothing_explains_ends_the_story(self, tape_player):
        tape_player.write_text(tape_player.read_text(encoding="utf-8").replace('value = "32.8 mA"', 'value = "61.8 mA"'), encoding="utf-8")
        words = first_belt.taught().data
        assert "The model stops here" in words and "The bag after" not in words
        assert "nothing that I believe" in first_belt.our_sentences(first_belt.fitted_of(read_sheet(tape_player)))

    def test_names_from_the_sheet_stay_text(self, tape_player):
        tape_player.write_text(tape_player.read_text(encoding="utf-8").replace('"belt a"', '"<b>belt"').replace("flywheel", "<i>wheel"), encoding="utf-8")
        for words in (first_belt.taught().data, belt_verdicts.verdicts().data, belt_rates_lesson.my_rates().data):
            assert "<b>belt" not in words and "<i>wheel" not in words

    def test_our_sentences_pass_our_own_checks(self, tape_player):
        assert belt_verdicts.say_before_and_after().children and first_belt.say_what_it_taught().children
        sheet = read_sheet(tape_player)
        fitted, reports = first_belt.fitted_of(sheet), judge_belts(sheet)
        checks = SayChecks(what=("belt a",), quantities=((fitted.seen[0].current.value, "A"),), known=("predicted",))
        assert all(met for _, met, _ in look_through(first_belt.our_sentences(fitted), checks))
        assert "16." in belt_verdicts.our_sentences(reports) and "do not know" in belt_verdicts.our_sentences(reports)

    def test_the_form_writes_a_start_and_answers(self, tape_player):
        form = belt_verdicts.belt_form()
        for name, text in (("part", "flywheel"), ("quantity", "time"), ("value", "1.2 s"), ("instrument", "film"), ("stage", "belt d fitted"),
                           ("condition", "starting")):
            form.boxes[name].value = text
        form.save()
        assert not form.error.value and 'value = "1.2 s"' in tape_player.read_text(encoding="utf-8") and "stretch" in form.answered.value

    def test_nonsense_is_told(self, tape_player):
        form = belt_verdicts.belt_form()
        for name, text in (("part", "flywheel"), ("quantity", "length"), ("value", "-228 mm"), ("instrument", "string"), ("stage", "as found"),
                           ("condition", "off")):
            form.boxes[name].value = text
        form.save()
        assert "below 0" in form.error.value

    def test_the_verdicts_of_the_demo(self):
        words = belt_verdicts.verdicts().data
        assert "invented tape player" in words and "Before and after" in words and words.index("belt d fitted") < words.index("as found")
        assert "too little" in belt_verdicts.belts_html(read_text("version = 1"))


@pytest.mark.parametrize("make", [first_belt.guess_what_it_tells, belt_rates_lesson.guess_wow, belt_opening.skip_ahead, first_belt_practice.odds,
                                  first_belt_practice.chance, first_belt_practice.mixed, belt_rates_lesson.chalk, belt_rates_lesson.motor_by_chalk,
                                  belt_rates_lesson.mixed, belt_verdicts.done_form])
def test_it_can_be_shown(make):
    assert make().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def given(problem, *units):
    return [read_quantity(text.removeprefix("radius ").removesuffix(" to 1"), unit).quantity.m_as(unit) if unit else float(text.split()[0])
            for (_, text), unit in zip(problem.given, units)]


@pytest.mark.parametrize("seed", range(25))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    problem = first_belt_practice._odds(np.random.default_rng(seed))
    soft, stiff, read, spread = given(problem, "mA", "mA", "mA", "mA")
    assert problem.right(norm.pdf(read, soft, spread) / norm.pdf(read, stiff, spread))
    problem = first_belt_practice._chance(np.random.default_rng(seed))
    to_one, = given(problem, "")
    assert problem.right(100 * to_one / (1 + to_one))
    problem = first_belt_practice._deviations(np.random.default_rng(seed))
    predicted, model, read, meter = given(problem, "mA", "mA", "mA", "mA")
    assert problem.right((read - predicted) / (model**2 + meter**2) ** 0.5) and not problem.right((read - predicted) / model)
    problem = first_belt_practice._taken(np.random.default_rng(seed))
    off, on, load = given(problem, "A", "A", "A")
    assert problem.right(on - off - load) and not problem.right(on - off)
    problem = belt_rates_lesson._chalk(np.random.default_rng(seed))
    passes, seconds = given(problem, "", "s")
    assert problem.right(passes / seconds) and not problem.right(seconds / passes)
    problem = belt_rates_lesson._motor_by_chalk(np.random.default_rng(seed))
    passes, path, radius = given(problem, "", "mm", "mm")
    turns = 2 * passes * path / (2 * np.pi * radius)
    assert problem.right(turns)
    problem = belt_rates_lesson._wheel_rate(np.random.default_rng(seed))
    turns, small, large = given(problem, "turn/min", "mm", "mm")
    assert problem.right(turns / 60 * small / large)
