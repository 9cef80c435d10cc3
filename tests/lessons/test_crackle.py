"""Lessons on crackle: sounds under their ceiling, pictures at every corner, goals, questions, and the form."""

import shutil
import wave

import numpy as np
import pytest
from fair import check_fair

from benchreckoner import project
from benchreckoner.bench.crackle_sort import CAUSES, CHANGES, SAME, UNTRIED
from benchreckoner.bench.desk import SHEET_VARIABLE
from benchreckoner.bench.recordings import RATE
from benchreckoner.lessons import crackle, crackle_bench, crackle_practice
from benchreckoner.show import store
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.show.sound import CEILING
from benchreckoner.units import Q, read_quantity

PROBLEMS = [crackle_practice._corner, crackle_practice._one_answer, crackle_practice._size, crackle_practice._beat]


@pytest.fixture(autouse=True)
def desk(tmp_path, monkeypatch):
    """A copy of the demo sheet on the desk, for this test alone."""
    copy = tmp_path / "record_player.toml"
    shutil.copy(project.CASES / "record_player.toml", copy)
    monkeypatch.setenv(SHEET_VARIABLE, str(copy))
    return tmp_path


def at(declared, **wanted):
    """The picture where each named slider stands at the step of this value, the others at their start."""
    positions = dict(declared.start)
    for slider in declared.sliders:
        if slider.name in wanted:
            positions[slider.name] = int(np.argmin(np.abs(np.array(slider.steps) - wanted[slider.name])))
    return declared.at(positions)


@pytest.mark.parametrize("cause", ["tune", "flicker", "wiper", "leak", "shared"])
def test_a_sound_stays_under_its_ceiling_and_comes_again(cause):
    made, again, other = crackle.sound(cause), crackle.sound(cause), crackle.sound(cause, seed=2)
    assert np.max(np.abs(made.played)) <= 10 ** (CEILING / 20) + 1e-12
    assert np.array_equal(made.samples, again.samples) and not np.array_equal(made.samples, other.samples)
    html = made._repr_html_()
    assert html.index("Turn the volume down first") < html.index("<audio") and "autoplay" not in html
    assert "−12 dB of full scale" in html and html.count("<svg") + html.count("<img") == 2


def test_a_cause_that_does_not_exist_is_told():
    with pytest.raises(ValueError, match="write one of tune, flicker"):
        crackle.sound("dirt")


@pytest.mark.parametrize("declared", [crackle.JUMPER, crackle.EVIDENCE], ids=lambda one: one.key)
def test_every_corner_keeps_its_axes_and_marks(declared):
    first = declared.at(declared.start)
    for _, picture in corners(declared):
        assert (picture.title, picture.x, picture.y) == (first.title, first.x, first.y)
        assert [mark.name for _, mark in picture.marks] == [mark.name for _, mark in first.marks]
        assert picture.points[0].drawn and "nan" not in picture.sentence


def test_the_published_corner_stands_in_the_picture():
    """Check value P23, at the nearest steps; half of the low density is left there."""
    picture = crackle.jumper(closed=Q(0.1, "s"), opened=Q(0.01, "s"))
    assert picture.points[0].x == pytest.approx(17.507, rel=1e-3) and picture.points[0].y == pytest.approx(3.0053e-3 / 2, rel=1e-3)
    assert "9.09 times a second" in picture.sentence and "17.5 Hz" in picture.sentence


def test_the_goals_of_the_jumper_can_be_met():
    first = at(crackle.JUMPER, closed=0.1, opened=0.01)
    assert first.points[0].x == pytest.approx(17.5, rel=0.1)
    # As often: nearly the whole 110 ms closed, and open for less than a millisecond.
    second = at(crackle.JUMPER, closed=0.11, opened=4.5e-4)
    often = 1 / sum(min(crackle.JUMPER.sliders[0].steps, key=lambda step: abs(step - want)) for want in (0.11, 4.5e-4))
    assert second.points[0].x > 300 and often == pytest.approx(9, abs=1)


def test_the_goals_of_the_evidence_can_be_met():
    """By hand: 3 to the n over 4 is 2.25 for two and 6.75 for three; one answer alone would have to be 16."""
    shares = [at(crackle.EVIDENCE, ratio=3, answers=count).points[0].y for count in (2, 3)]
    assert shares == pytest.approx([100 * 2.25 / 3.25, 100 * 6.75 / 7.75]) and shares[0] < 80 < shares[1]
    assert at(crackle.EVIDENCE, ratio=10, answers=1).points[0].y < 80 < at(crackle.EVIDENCE, ratio=20, answers=1).points[0].y
    assert "enough to name it" in at(crackle.EVIDENCE, ratio=3, answers=3).sentence


@pytest.mark.parametrize("make", [crackle.guess_buzz, crackle.guess_corner, crackle.guess_evidence], ids=lambda make: make.__name__)
def test_a_guess_can_be_asked_and_opens(make):
    asked = make()
    next(box for box in _all(asked) if getattr(box, "description", "") == "Show me").click()
    assert asked.children[-1].children


def _all(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from _all(child)


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(25))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


def test_an_exercise_by_its_given_numbers():
    """What a reader would reckon from the numbers as shown comes out right."""
    for seed in range(25):
        for make, by_hand in ((crackle_practice._corner, lambda closed, opened: (1 / closed + 1 / opened) / 2 / np.pi),
                              (crackle_practice._size, lambda step, closed, opened: step * np.sqrt(closed * opened) / (closed + opened))):
            problem = make(np.random.default_rng(seed))
            numbers = [read_quantity(text, ("s", "V")).quantity.to_base_units().m for _, text in problem.given]
            assert problem.right(by_hand(*numbers))


def test_the_beat_and_the_odds_by_their_given_numbers():
    for seed in range(10):
        beat, odds = (make(np.random.default_rng(seed)) for make in (crackle_practice._beat, crackle_practice._one_answer))
        assert beat.right(float(beat.given[0][1].split()[0]) / 60)
        each = [float(text.split()[0]) for _, text in odds.given]
        assert odds.right(100 * max(each) / sum(each))


def test_the_mixed_exercise_and_its_fellows_show():
    for make in (crackle_practice.corner, crackle_practice.one_answer, crackle_practice.mixed):
        assert make(seed=3).children


def form():
    view = crackle_bench.crackle_form()
    return view.children[0]


def told(made):
    return made.error.value + made.said.value + made.answered.value


def write(path, samples, rate=RATE):
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes((np.clip(samples, -1, 1) * 32767).astype("<i2").tobytes())
    return path


def test_an_empty_form_says_cannot_tell_and_what_to_try():
    made = form()
    assert "Can&#x27;t tell yet" in told(made) and "Next:" in told(made) and "✗" not in told(made)
    assert [made.boxes[name].value for name in ("turn", "press", "power", "wait")] == [UNTRIED] * 4


def test_answers_are_kept_and_found_again(desk):
    made = form()
    made.boxes["press"].value, made.boxes["turn"].value = CHANGES, SAME
    made.save()
    assert "Kept in record_player.guesses.toml" in told(made)
    entries, _ = store.kept(desk / "record_player.guesses.toml", group="crackle", key="tests")
    assert entries[-1]["press"] == CHANGES and "signs" not in entries[-1]
    again = form()
    assert again.boxes["press"].value == CHANGES and "likelier with a contact that flickers" in told(again)
    assert crackle_bench.my_odds().ranked[0] == "flicker"


def test_a_recording_speaks_and_stays_until_another_or_none(desk):
    heard = crackle.sound("shared")
    path = write(desk / "<b>.wav", heard.played)
    made = form()
    made.boxes["recording"].value = f'"{path}"'
    made.save()
    assert "&lt;b&gt;.wav" in told(made) and "<b>.wav" not in told(made) and "Most likely a supply contact shared" in told(made)
    made.boxes["wait"].value = SAME
    made.save()
    assert "&lt;b&gt;.wav" in told(made) and "Wait ten minutes: no change" in told(made)
    made.boxes["recording"].value = "none"
    made.save()
    assert "No recording yet" in told(made)


def test_take_back_goes_one_step_back():
    made = form()
    made.undo()
    assert "nothing to take back" in told(made)
    for answer in (CHANGES, SAME):
        made.boxes["power"].value = answer
        made.save()
    made.undo()
    assert made.boxes["power"].value == CHANGES and "Change the source of power: changes it" in told(made)


@pytest.mark.parametrize(("name", "samples", "wanted"), [
    ("short.wav", np.full(3200, 0.1), "too short"), ("silent.wav", np.zeros(4 * RATE), "silent"),
    ("clipped.wav", np.sign(np.sin(np.arange(4 * RATE) / 9)), "clipped"), ("missing.wav", None, "no such file"),
    ("notes.txt", "words", "not a sound file")])
def test_a_bad_recording_is_told_and_nothing_is_kept(desk, name, samples, wanted):
    if isinstance(samples, str):
        (desk / name).write_text(samples, encoding="utf-8")
    elif samples is not None:
        write(desk / name, samples)
    made = form()
    made.boxes["recording"].value = str(desk / name)
    made.save()
    assert wanted in made.error.value and not (desk / "record_player.guesses.toml").exists()
    assert made.boxes["recording"].value


def test_a_stopped_search_changes_nothing(desk, monkeypatch):
    def stopped(path):
        raise KeyboardInterrupt

    monkeypatch.setattr(crackle_bench, "read_recording", stopped)
    made = form()
    made.boxes["recording"].value = "a.wav"
    made.save()
    assert "stopped before" in made.error.value and not (desk / "record_player.guesses.toml").exists()


def test_a_store_edited_by_hand_is_told_or_left_out(desk):
    path = desk / "record_player.guesses.toml"
    path.write_text('version = 1\n[[crackle.tests]]\nturn = "perhaps"\nrecording = "<i>"\nsigns = { rate = "many" }\n', encoding="utf-8")
    assert "&lt;i&gt;" in told(form())
    path.write_text('version = 1\n[[crackle.tests]]\nrecording = "a"\nsigns = { rates = 3.0 }\n', encoding="utf-8")
    assert "there is none of that name" in told(form())


def test_the_tables_show_every_number_and_their_mark():
    text = crackle_bench.odds_table().data
    assert "PRACTICE" in text and "| cause | turn | press | power | wait |" in text and "| a worn wiper | 95 | 15 | 5 | 5 |" in text
    for way in ("recording", "tests", "both"):
        text = crackle_bench.judged_table(way).data
        assert text.count("\n| ") == 1 + len(CAUSES) and "Without a fault" in text
    with pytest.raises(ValueError, match="recording, tests, both"):
        crackle_bench.judged_table("ears")


def test_our_own_sentences_hold_what_we_ask_for():
    checks = SayChecks(what=("wiper",), quantities=((Q(2, "mV"), "V"),))
    assert all(met for _, met, _ in look_through(crackle_bench.say_ours(), checks))
    assert crackle_bench.say_what_crackles().children
