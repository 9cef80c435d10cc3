"""Lessons on filming: pictures at every corner, goals that can be met, the reader's own lamps and machine, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, check_form, given

from benchreckoner.bench.desk import sheet_path
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons import filming, filming_practice, filming_yours
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q

PICTURES = [filming.FLICKER, filming.FRAMES, filming.GAIN]
PROBLEMS = [filming_practice._seen_turning, filming_practice._beside_another, filming_practice._longest_free,
            filming_practice._smeared, filming_practice._swing_left]
TEXTS = {"Mains": "50 Hz", "Frames a second": "25", "Shutter": "1/50 s", "Marks on each pulley": "3"}


@pytest.mark.parametrize("declared", PICTURES, ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<![\w/])-\d", words)
    assert len(shapes) == 1, "axes, marks and their places stay, whatever the sliders say"
    assert np.prod([len(slider.steps) for slider in declared.sliders if slider.name in declared.phone_sliders]) <= 5000


def test_the_flicker_at_every_corner_by_samples():
    """The swing of the means of a sine over the exposure, begun at many moments."""
    for positions, picture in corners(filming.FLICKER):
        exposure, mains, ripple = (filming.FLICKER.values(positions)[name] for name in ("exposure", "mains", "ripple"))
        times = (np.arange(4000) + 0.5) / 4000 * exposure.m_as("s")
        means = [np.sin(4 * np.pi * mains.m * (begin + times)).mean() for begin in np.linspace(0, 1 / mains.m, 201)]
        assert picture.points[0].y == pytest.approx(ripple * (max(means) - min(means)) / 2, abs=0.02)


def test_the_flickers_goal_can_be_met():
    free = [part for part in filming.SHUTTERS if 60 < part < 200 and at(filming.FLICKER, mains=50, exposure=1 / part).points[0].y < 0.005]
    assert free == [100]
    found = at(filming.FLICKER, mains=50, exposure=0.01)
    assert "nothing is left of it" in found.sentence and "1/100 s, nothing" in found.sentence
    assert at(filming.FLICKER, mains=60, exposure=0.01).points[0].y == pytest.approx(40 * abs(np.sin(1.2 * np.pi)) / (1.2 * np.pi), rel=1e-6)


def nearest_mark(rate, speed, marks):
    """Follow one mark to the nearest of the next frame, by angles laid down."""
    spacing = 1 / marks
    moved = (speed / 60 / rate) % spacing
    return 60 * rate * min(moved, moved - spacing, key=abs)


def test_the_pulley_at_every_corner_by_frames():
    for positions, picture in corners(filming.FRAMES):
        rate, speed, marks = (filming.FRAMES.values(positions)[name] for name in ("rate", "speed", "marks"))
        assert picture.points[0].y == pytest.approx(nearest_mark(rate.m, speed.m, marks), abs=1e-6)


def test_the_pulleys_goal_can_be_met():
    seen = {rate: at(filming.FRAMES, rate=rate, speed=2400, marks=3) for rate in filming.RATES}
    still = [rate for rate, picture in seen.items() if picture.points[0].y == pytest.approx(0, abs=0.5)]
    assert still == [24, 30, 60, 120] and all("stand still." in seen[rate].sentence for rate in still)
    assert "backwards at 100 r/min" in seen[25].sentence
    assert "they stand still at 120, 60, 40, 30, 24, 20." in seen[25].sentence


def test_one_mark_is_told_as_one():
    for rate in filming.RATES:
        for speed in (600, 1500, 2700):
            assert "they" not in at(filming.FRAMES, rate=rate, speed=speed, marks=1).sentence
    assert "it is seen as it turns. Between 20 and 130 frames a second it stands still at no rate." in at(
        filming.FRAMES, rate=24, speed=600, marks=1).sentence


def test_between_two_places_no_way_round_is_told():
    """3000 r/min, one mark, 100 frames a second: half a turn each."""
    assert "no way round" in at(filming.FRAMES, rate=100, speed=3000, marks=1).sentence


def test_no_line_runs_across_a_jump():
    for speed in (600, 2400, 3000):
        curve = at(filming.FRAMES, speed=speed, marks=3, rate=25).curves[0]
        drawn = curve.y[np.isfinite(curve.y)]
        assert len(drawn) > 0.9 * len(curve.y)
        steps = np.diff(curve.y)
        assert np.nanmax(steps, initial=0) < 0.5 * 60 * 10 / 3, "seen speed falls as frames go faster, and jumps up"


def test_the_gain_at_every_corner_by_hand():
    for positions, picture in corners(filming.GAIN):
        step, ratio, settling = (filming.GAIN.values(positions)[name] for name in ("step", "ratio", "settling"))
        goal, true = step.m / ratio, step.m
        assert picture.points[0].y == pytest.approx(goal + (true - goal) * np.exp(-10 / settling.m), abs=1e-9)
        assert picture.curves[0].y[2] == pytest.approx(true) and np.all(picture.curves[1].y[2:] == true)


def test_the_gains_goal_can_be_met():
    met = [ratio for ratio in (1, 1.5, 2, 3, 4, 6, 10) if "hears 3.0 dB" in at(filming.GAIN, step=12, ratio=ratio).sentence]
    assert met == [4]
    assert "hears 4.2 dB" in at(filming.GAIN, step=12, ratio=4, settling=5).sentence  # 3 + 9 exp(-2)


@pytest.mark.parametrize("make", [filming.guess_shutter, filming.guess_pulley, filming.guess_louder, filming.say_louder])
def test_a_guess_can_be_asked(make):
    assert make().children


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("louder",), known=("meter",), quantities=((Q(12, "dB"), "dB"),))
    assert all(met for _, met, _ in look_through(filming.OURS, checks))


def test_my_film_names_shutters_and_every_turning_part():
    sheet = read_sheet(sheet_path())
    lamp, mine, *turning = filming_yours.said_of(TEXTS, sheet)
    assert lamp.endswith("free of flicker are 1/100 s, 1/50 s, 1/33.33 s, 1/25 s.") and mine == "Your 1/50 s leaves nothing of their swing."
    read = filming_yours.speeds(sheet)
    assert len(turning) == len(read) > 1 and all(any(line.startswith(part) for line in turning) for part in read)
    for line, speed in zip(turning, read.values()):
        assert f"{360 * speed.m_as('turn/min') / 60 / 50:.3g} degrees" in line


def test_a_tape_s_centimetres_a_second_turn_nothing():
    text = ('version = 1\n[[instrument]]\nname = "phone"\naccuracy = "1 %"\n'
            + "".join(f'[[part]]\nname = "{part}"\nkind = "{kind}"\n[[reading]]\npart = "{part}"\nquantity = "speed"\nvalue = "{value}"\n'
                      'instrument = "phone"\nstage = "as found"\ncondition = "playing"\n'
                      for part, kind, value in (("head", "head", "4.71 cm/s"), ("flywheel", "pulley", "280 turn/min"))))
    sheet = read_text(text)
    assert list(filming_yours.speeds(sheet)) == ["flywheel"] and len(filming_yours.said_of(TEXTS, sheet)) == 3


def test_my_film_with_bands_and_a_fast_camera():
    sheet = read_sheet(sheet_path())
    lamp, mine, *_ = filming_yours.said_of({**TEXTS, "Frames a second": "120", "Shutter": "0.005 s"}, sheet)
    assert "no shutter is free" in lamp and "64 % of their swing" in mine and "20 times a second" in mine
    assert "the bands stand still" in filming_yours.said_of({**TEXTS, "Shutter": "1/120"}, sheet)[1]


@pytest.mark.parametrize(("change", "told"), [
    ({"Mains": "50"}, "Mains"), ({"Mains": "0 Hz"}, "Mains: must be above zero"), ({"Frames a second": "25.5"}, "Frames a second"),
    ({"Frames a second": "0"}, "Frames a second"), ({"Shutter": "1/0"}, "Shutter"), ({"Shutter": "<b>"}, "Shutter"),
    ({"Shutter": "1/20"}, "longer than a frame"), ({"Marks on each pulley": "-1"}, "Marks"), ({"Shutter": "-5 ms"}, "Shutter: must be above"),
])
def test_nonsense_is_told_by_its_box(change, told):
    with pytest.raises(ValueError, match=told):
        filming_yours.said_of({**TEXTS, **change}, read_sheet(sheet_path()))


def test_the_form_answers_keeps_and_brings_back():
    assert filming_yours.FilmForm().boxes["Mains"].value == "50 Hz"
    check_form(filming_yours.FilmForm, {"Shutter": "1/100"}, "Your 1/100 s leaves nothing", spoilt="Mains")


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(25))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(15))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    turning = filming_practice._seen_turning(np.random.default_rng(seed))
    speed, marks, rate = given(turning, "turn/min", "", "")
    assert turning.right(nearest_mark(rate, speed, marks))
    beside = filming_practice._beside_another(np.random.default_rng(seed))
    before, after, other, other_after = given(beside, "dB", "dB", "dB", "dB")
    assert beside.right((after - before) - (other_after - other))
    free = filming_practice._longest_free(np.random.default_rng(seed))
    mains, rate = given(free, "Hz", "")
    assert free.right(max(k / (2 * mains) for k in range(1, 20) if k / (2 * mains) <= 1 / rate + 1e-9))
    left = filming_practice._swing_left(np.random.default_rng(seed))
    hertz, part = float(left.given[0][1].split()[0]), float(left.given[1][1].split("/")[1].split()[0])
    angle = 2 * np.pi * hertz / part
    assert left.right(100 * abs(np.sin(angle) / angle))
    smeared = filming_practice._smeared(np.random.default_rng(seed))
    (speed,), part = given(smeared, "turn/min"), float(smeared.given[1][1].split("/")[1].split()[0])
    assert smeared.right(6 * speed / part)
