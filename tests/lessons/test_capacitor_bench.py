"""Book 03, capacitors in their places: goals that can be met, published numbers in the pictures, fair questions."""

import shutil

import numpy as np
import pytest
from fair import check_fair

from benchreckoner.bench.capacitor_sheet import part_verdicts
from benchreckoner.bench.desk import SHEET_VARIABLE
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons import capacitor_bench, capacitor_practice, capacitor_verdicts
from benchreckoner.show.say import look_through
from benchreckoner.units import read_quantity

PROBLEMS = [capacitor_practice._lifted_base, capacitor_practice._lost_bass, capacitor_practice._allowed_leakage,
            capacitor_practice._new_ohms,
            capacitor_practice._idle_hours, capacitor_practice._through_loudspeaker]


def at(declared, **wanted):
    """The picture where each named slider stands at the step nearest to this value, the others at their start."""
    positions = dict(declared.start)
    for slider in declared.sliders:
        if slider.name in wanted:
            positions[slider.name] = int(np.argmin(np.abs(np.log(np.array(slider.steps) / wanted[slider.name]))))
    return declared.at(positions)


def test_the_example_stands_in_the_picture():
    """By hand, 47 k / 12 k at 6 V, gain 100: 3.99 V without a leak, 3.27 V with 100 kohm from 3.5 V. RECOMPUTED."""
    picture = at(capacitor_bench.LEAKY_STAGE, leak=1e5)
    assert "from 3.99 V to 3.27 V" in picture.sentence and picture.points[0].x == pytest.approx(0.1)


def test_the_goal_of_the_stage_can_be_met():
    steps = capacitor_bench.LEAKY_STAGE.sliders[0].steps
    leak = min(steps, key=lambda step: abs(at(capacitor_bench.LEAKY_STAGE, leak=step).points[0].y - 3.5))
    soft, stiff = (at(capacitor_bench.LEAKY_STAGE, leak=leak, stiffness=times) for times in (1, 10))
    assert soft.points[0].y == pytest.approx(3.5, abs=0.06)
    moved = [abs(one.points[0].y - one.limits[0].value) for one in (soft, stiff)]
    assert moved[1] < moved[0] / 3


def test_the_band_holds_the_usual_transistor():
    for leak in (1e4, 1e5, 1e7):
        band, curve = (getattr(at(capacitor_bench.LEAKY_STAGE, leak=leak), what)[0] for what in ("bands", "curves"))
        inside = (curve.y >= band.low - 1e-9) & (curve.y <= band.high + 1e-9)
        # Fully open, collector and emitter stand together and the spread turns over.
        assert inside[curve.x > 0.03].all()


def test_the_goal_of_the_bass_can_be_met():
    """1 / (2 pi x 4 ohm x 100 Hz) is 398 uF."""
    picture = at(capacitor_bench.MOVED_CORNER, capacitance=398e-6, load=4)
    assert picture.points[0].x == pytest.approx(100, rel=0.04) and picture.points[0].y == pytest.approx(-3.01, abs=0.01)


def test_the_guesses_can_be_asked(tmp_path, monkeypatch):
    monkeypatch.setenv("BENCH_RECKONER_SHEET", str(tmp_path / "none.toml"))
    assert capacitor_bench.guess_leaky_stage().children and capacitor_bench.guess_thin_bass().children


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(30))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_an_exercise_by_its_given_numbers():
    """What a reader would reckon from the numbers as shown comes out right."""
    for seed in range(30):
        problem = capacitor_practice._lost_bass(np.random.default_rng(seed))
        farads, ohms = (read_quantity(text, unit).quantity.m_as(unit) for (_, text), unit in zip(problem.given, ("F", "ohm")))
        assert problem.right(1 / (2 * np.pi * farads * ohms))
        problem = capacitor_practice._lifted_base(np.random.default_rng(seed))
        amps, upper, lower = (read_quantity(text, unit).quantity for (_, text), unit in zip(problem.given, ("A", "ohm", "ohm")))
        assert problem.right((amps / (1 / upper + 1 / lower)).m_as("V"))


class TestTheVerdicts:
    @pytest.fixture(autouse=True)
    def desk(self, tmp_path, monkeypatch):
        """A copy of the invented tape player on the desk, for this test alone."""
        copy = tmp_path / "tape_player.toml"
        shutil.copy(capacitor_verdicts.EXAMPLE, copy)
        monkeypatch.setenv(SHEET_VARIABLE, str(copy))
        return copy

    def test_every_part_has_one_with_its_reasons(self):
        text = capacitor_verdicts.verdicts().data
        assert text.count("<strong>✗") == 2 and text.count("<strong>✓") == 1 and text.count("<strong>…") == 3
        assert "tape player's" not in text

    def test_the_list_to_buy_holds_the_bad_ones(self):
        text = capacitor_verdicts.to_buy().data
        assert "1 × 10 µF, 16 V, aluminium: C2." in text and "1 × 470 µF, 16 V" in text and "C1, C3, C6. Read them first" in text

    def test_a_reading_changes_the_verdict(self, desk):
        form = capacitor_verdicts.capacitor_form()
        for name, text in (("part", "C6"), ("quantity", "capacitance"), ("value", "3.1 uF"), ("instrument", "capacitance tester"),
                           ("stage", "as found"), ("condition", "lifted")):
            form.boxes[name].value = text
        form.save()
        assert not form.error.value and "✗ C6" in form.answered.value
        form.undo()
        assert "✗ C6" not in form.answered.value

    def test_a_sheet_without_capacitors_shows_the_example_and_says_so(self, monkeypatch, tmp_path):
        copy = tmp_path / "other.toml"
        text = capacitor_verdicts.EXAMPLE.read_text(encoding="utf-8")
        copy.write_text(text[:text.index("[[part]]")], encoding="utf-8")
        monkeypatch.setenv(SHEET_VARIABLE, str(copy))
        assert "so here is the invented tape player's" in capacitor_verdicts.verdicts().data
        assert "lists no capacitor yet" in capacitor_verdicts.verdicts_html(read_sheet(copy))

    def test_names_never_become_markup(self, desk):
        desk.write_text(desk.read_text(encoding="utf-8").replace('"C2"', '"<img src=x onerror=alert(1)>"'), encoding="utf-8")
        for text in (capacitor_verdicts.verdicts().data, capacitor_verdicts.to_buy().data):
            assert "<img" not in text and "&lt;img" in text

    def test_our_sentences_name_what_goes_and_what_is_not_known(self):
        found = part_verdicts(read_sheet(capacitor_verdicts.EXAMPLE))
        ours = capacitor_verdicts.say_ours(found)
        assert all(met for _, met, _ in look_through(ours, capacitor_verdicts.say_checks(found)))
        assert ours.startswith("C2 has to go: its leakage current was read as 330") and "So does C4." in ours and "C5 may stay" in ours and "C1, C3, C6 too little" in ours
        assert capacitor_verdicts.say_which_are_bad().children and capacitor_verdicts.guess_replace_all().children

    def test_a_part_that_is_bad_by_its_looks_alone_can_be_told(self, desk):
        desk.write_text('version = 1\n[[part]]\nname = "C9"\nkind = "capacitor"\ncapacitance = "10 uF"\nrated_voltage = "16 V"\n'
                        'place = "coupling"\n[[observation]]\npart = "C9"\nwhat = "it bulges"\nstage = "as found"\n', encoding="utf-8")
        found = part_verdicts(read_sheet(desk))
        ours = capacitor_verdicts.say_ours(found)
        assert ours.startswith("C9 has to go. Seen: it bulges. Such a part is replaced whatever it reads (common practice).")
        assert capacitor_verdicts.say_checks(found).quantities == () and capacitor_verdicts.say_which_are_bad().children
