"""Clips: what they show and for how long, and a clap found in sounds that were made for it."""

import pathlib
import runpy
import types
import wave

import av
import numpy as np
import pytest

from benchreckoner import commands, project
from benchreckoner.bench.recordings import RATE as SOUND_RATE
from benchreckoner.bench.recordings import Recording, RecordingError
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons.series import live_pictures
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.still import Figures, figure
from benchreckoner.tell import clips
from benchreckoner.tell.choice import ChoiceError
from benchreckoner.tell.framed import layout, picture_pixels
from benchreckoner.tell.overlay import Overlay, find_clap, overlay_words, overlays
from benchreckoner.units import Q

DEMO = project.CASES / "record_player.toml"
divider = types.SimpleNamespace(**runpy.run_path(str(pathlib.Path(__file__).parents[1].joinpath("show", "demo.py"))))
FEW = LivePicture(key="divider", picture=divider.divider, goal="Find the ohms that leave 5.0 V.",
                  sliders=[Slider("series", "Series resistance", "ohm", ladder(10, 2000, 4, "log"), 50),
                           Slider("load", "Load", "ohm", ladder(50, 2000, 5, "log"), 300)], fixed={"supply": Q(9, "V")})


def sound(*, clap=None, loud=0.5, noise=0.003, seconds=6, more=0):
    """A room with noise, and one clap: a burst that dies away within hundredths of a second."""
    random = np.random.default_rng(3)
    samples = noise * random.standard_normal(seconds * SOUND_RATE) + more
    if clap is not None:
        tail = np.exp(-np.arange(int(0.1 * SOUND_RATE)) / (0.012 * SOUND_RATE)) * random.standard_normal(int(0.1 * SOUND_RATE))
        samples[round(clap * SOUND_RATE):][:len(tail)] += loud * tail / 3
    return Recording("film", samples)


def test_a_clip_begins_with_a_guess_and_stops_to_be_read():
    found = clips.shots(FEW)
    assert found[0].words.sentence == "Guess first. Find the ohms that leave 5.0 V." and found[0].positions == found[1].positions == FEW.start
    told = [shot for shot in found[1:] if shot.words.sentence]
    assert [shot.positions["series"] for shot in told] == [FEW.start["series"], 0, 3]
    for shot in told:
        assert shot.words.sentence == FEW.at(shot.positions).sentence
        assert shot.seconds >= len(shot.words.sentence) / 15  # letters that are read in a second
    moving = [shot for shot in found if not shot.words.sentence]
    assert [shot.positions["series"] for shot in found[2:]] == [*range(FEW.start["series"])][::-1] + [1, 2, 3]
    assert all(shot.words.head.startswith("Series resistance: ") for shot in moving) and moving


def test_a_slider_that_starts_at_an_end_sweeps_once():
    low = LivePicture(key="low", picture=divider.divider, fixed=FEW.fixed,
                      sliders=[Slider("series", "Series resistance", "ohm", ladder(10, 2000, 4, "log"), 10), FEW.sliders[1]])
    assert [shot.positions["series"] for shot in clips.shots(low)] == [0, 0, 1, 2, 3]


def test_a_long_slider_is_drawn_in_few_steps(monkeypatch):
    monkeypatch.setattr(clips, "_STEPS", 5)
    long = LivePicture(key="long", picture=divider.divider, fixed=FEW.fixed,
                       sliders=[Slider("series", "Series resistance", "ohm", ladder(10, 2000, 60, "log"), 80), FEW.sliders[1]])
    assert len({shot.positions["series"] for shot in clips.shots(long)}) <= 6


@pytest.fixture
def small(monkeypatch):
    monkeypatch.setattr(clips, "live_pictures", lambda: (FEW,))
    monkeypatch.setattr(clips, "own_pictures", lambda sheet: ())
    monkeypatch.setattr(clips, "_OF_THE_SERIES", ("divider",))
    monkeypatch.setattr(clips, "standing_time", lambda letters: Q(max(0.2, 1 + letters / 400), "s"))


def frames_of(path):
    with av.open(str(path)) as file:
        return [frame.to_ndarray(format="rgb24") for frame in file.decode(video=0)], float(file.streams.video[0].average_rate)


def test_a_clip_holds_its_frames(small, tmp_path, capsys):
    out = tmp_path / "out"
    assert commands.main(["make", "clips", "--sheet", str(DEMO), "--to", str(out)]) == 0
    printed, told = capsys.readouterr()
    assert "clips.toml" in printed and printed.count("\n") == 1
    lengths = {shape: sum(seconds for _, seconds in clips.sweep_frames(FEW, None, "", shape)) for shape in clips.SHAPES}
    assert told.splitlines() == [f"divider-{shape}.mp4: {seconds:.0f} s long, {place} of 2" for place, (shape, seconds) in enumerate(lengths.items(), 1)]
    assert sorted(path.name for path in out.iterdir()) == ["clips.toml", "divider-upright.mp4", "divider-wide.mp4"]
    for shape, (width, height) in clips.SHAPES.items():
        found, rate = frames_of(out / f"divider-{shape}.mp4")
        wanted = list(clips.sweep_frames(FEW, None, "", shape))
        assert rate == clips.RATE and len(found) == sum(max(1, round(seconds * clips.RATE)) for _, seconds in wanted)
        assert found[0].shape == (height, width, 3)
        for place, (pixels, _) in ((0, wanted[0]), (-1, wanted[-1])):
            assert np.abs(found[place].astype(int) - pixels).mean() < 4, "the picture survives being packed"
        assert np.abs(wanted[0][0].astype(int) - wanted[-1][0]).mean() > 1, "start and end differ"
    assert commands.main(["make", "clips", "--sheet", str(DEMO), "--to", str(out)]) == 0, "over its own"
    out.joinpath("divider-wide.mp4").write_bytes(b"my own film")
    assert commands.main(["make", "clips", "--sheet", str(DEMO), "--to", str(out)]) == 2
    assert out.joinpath("divider-wide.mp4").read_bytes() == b"my own film"


@pytest.mark.parametrize("key", ["divider", "held-volts", "motor-lines"])
def test_a_figure_whose_marks_are_put_anew_is_the_figure_drawn_anew(key):
    """Pixel by pixel, at the start, both ends and back: bands, curves, points, limits and their names."""
    declaration = FEW if key == "divider" else next(one for one in live_pictures() if one.key == key)
    figures, slider = Figures(), next(one for one in declaration.sliders if one.name == declaration.phone_sliders[0])
    for step in (slider.start_position, 0, len(slider.steps) - 1, 0):
        picture = declaration.at({**declaration.start, slider.name: step})
        anew = picture_pixels(layout(picture, "wide"), figure(picture, large=True))
        assert np.array_equal(picture_pixels(layout(picture, "wide"), figures.of(picture)), anew)


def test_another_picture_gets_a_figure_of_its_own():
    figures, first, other = Figures(), FEW.at(FEW.start), live_pictures()[0]
    drawn = figures.of(first)
    assert figures.of(first) is drawn
    assert figures.of(other.at(other.start)) is not drawn


def test_stopped_half_way_the_earlier_clip_stands(tmp_path):
    path = tmp_path / "clip.mp4"
    path.write_bytes(b"earlier")

    def frames():
        yield np.zeros((180, 320, 3), np.uint8), 1
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        clips.write_clip(path, frames())
    assert [one.name for one in tmp_path.iterdir()] == ["clip.mp4"] and path.read_bytes() == b"earlier"


@pytest.mark.parametrize("clap", [0.4, 1.234, 3.0, 5.5])
@pytest.mark.parametrize("noise", [0.0005, 0.003, 0.01])
def test_a_clap_is_found_in_noise(clap, noise):
    assert find_clap(sound(clap=clap, noise=noise)) == pytest.approx(clap, abs=0.011)


def test_a_clap_is_told_from_what_swells_and_from_a_step():
    hum = 0.2 * np.sin(2 * np.pi * 50 * np.arange(6 * SOUND_RATE) / SOUND_RATE)
    assert find_clap(sound(clap=2.0, more=hum)) == pytest.approx(2.0, abs=0.011)
    music = np.where(np.arange(6 * SOUND_RATE) > SOUND_RATE, 0.1, 0) * np.random.default_rng(5).standard_normal(6 * SOUND_RATE)
    with pytest.raises(RecordingError, match="no clap was found"):
        find_clap(sound(more=music))  # a noise that starts and stays is no clap
    assert find_clap(Recording("two", sound(clap=1.0).samples + sound(clap=4.0).samples)) == pytest.approx(1.0, abs=0.011)


@pytest.mark.parametrize("noise", [0.001, 0.1])
def test_noise_alone_has_no_clap(noise):
    with pytest.raises(RecordingError, match="Clap once"):
        find_clap(sound(noise=noise))


SHEET = """version = 1
[machine]
name = "Garden player"
[[instrument]]
name = "meter"
accuracy = "1 %"
[[part]]
name = "C1"
kind = "capacitor"
""" + "".join(f"""[[reading]]
part = "C1"
quantity = "leakage current"
value = "{value}"
instrument = "meter"
stage = "as found"
condition = "lifted"
after = "{after}"
""" for after, value in (("2 s", "40 uA"), ("4 s", "12 uA")))


@pytest.fixture
def film(tmp_path):
    samples = (32767 * np.clip(sound(clap=1.5).samples, -1, 1)).astype("<i2")
    with wave.open(str(tmp_path / "film.wav"), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(SOUND_RATE)
        file.writeframes(samples.tobytes())
    return tmp_path


ASKED = {"name": "leak", "film": "film.wav", "part": "C1", "quantity": "leakage current"}


def test_an_overlay_starts_at_the_clap_and_shows_only_what_was_read(film):
    (one,) = overlays({"overlay": [ASKED]}, read_text(SHEET), film)
    assert (one.seconds, one.clap) == (6.0, pytest.approx(1.5, abs=0.011))
    assert [one.words(since).sentence for since in (0, 1, 2, 3, 4)] == ["C1, leakage current: not read yet"] * 2 + [
        "C1, leakage current: 40 uA"] * 2 + ["C1, leakage current: 12 uA"]
    assert one.words(65).head == "1:05 since the clap"
    for shape, (width, height) in clips.SHAPES.items():
        found = list(one.frames(shape))
        assert sum(seconds for _, seconds in found) == pytest.approx(6.0)
        assert found[0][0].shape == (height, width, 4) and not found[0][0].any(), "nothing is there before the clap"
        covered = found[1][0][:, :, 3]
        assert not covered[:height // 2].any() and covered[-1].all(), "only a strip at the foot"


def test_an_overlay_can_be_seen_through(tmp_path):
    one = Overlay("leak", 1.0, 0.4, "C1", ((0.0, "1 uA"),))
    clips.write_clip(tmp_path / "leak.webm", one.frames("wide"))
    with av.open(str(tmp_path / "leak.webm")) as file:
        assert file.streams.video[0].metadata.get("alpha_mode", file.streams.video[0].metadata.get("ALPHA_MODE")) == "1"


@pytest.mark.parametrize(("change", "words"), [({"film": ""}, "needs film"), ({"part": "C9"}, "holds no 'leakage current' of 'C9'"),
                                               ({"name": "../out"}, "letters, digits and hyphens")])
def test_an_overlay_that_cannot_be_is_told(film, change, words):
    with pytest.raises(ChoiceError, match=words):
        overlays({"overlay": [ASKED | change]}, read_text(SHEET), film)
    with pytest.raises(RecordingError, match="no such file"):
        overlays({"overlay": [ASKED | {"film": "none.wav"}]}, read_text(SHEET), film)


@pytest.mark.parametrize("demo", [None, "record_player", "tape_player"])
def test_the_lines_of_a_new_file_work_once_their_marks_are_off(film, demo):
    """As written for that very sheet: the example is of something that was read over the minutes."""
    import tomlkit

    sheet = read_text(SHEET) if demo is None else read_sheet(project.CASES / f"{demo}.toml")
    text = "\n".join(line[2:] for line in overlay_words(sheet).splitlines() if line.startswith(("# [[", "# name", "# film", "# part", "# quantity")))
    (one,) = overlays(tomlkit.parse(text.replace("film.mp4", "film.wav")).unwrap(), sheet, film)
    assert one.name == "over-the-minutes" and one.rows
    assert overlays({}, sheet, film) == []


def test_a_sheet_without_times_is_told_what_an_overlay_needs():
    assert "this sheet has none yet" in overlay_words(read_text("version = 1")) and "none yet" not in overlay_words(read_text(SHEET))
