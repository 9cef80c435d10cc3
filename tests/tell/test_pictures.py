"""Pictures to show: sizes, marks in the files, words that stay in their place, and choices that are their author's."""

import io
import itertools
import re
import tomllib
import xml.etree.ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from matplotlib.text import Text
from PIL import Image

from benchreckoner import commands, project
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.series import live_pictures
from benchreckoner.show.still import figure
from benchreckoner.tell import clips, framed, pictures
from benchreckoner.tell.choice import ChoiceError, choices

DEMO = project.CASES / "record_player.toml"
NASTY = '<script>alert("1")</script> & $x_1$ --> <img src=x>'
ENDS = [(one, step) for one in live_pictures() if one.key in ("held-volts", "reads-high") for step in ("start", "low", "high")]


@pytest.fixture(scope="module")
def shown():
    return pictures.framed(read_sheet(DEMO))


def boxes(drawn):
    """The place of every piece of text that is seen, in pixels."""
    drawn.canvas.draw()
    renderer = drawn.canvas.get_renderer()
    texts = [one for one in drawn.findobj(Text) if one.get_visible() and one.get_text().strip()]
    return [(one.get_text(), one.get_window_extent(renderer)) for one in texts]


def overlaps(found):
    """Pairs of texts whose boxes share more than the room that a line keeps for tails below it: six pixels."""
    shared = []
    for (one, first), (other, second) in itertools.combinations(found, 2):
        wide = min(first.x1, second.x1) - max(first.x0, second.x0)
        high = min(first.y1, second.y1) - max(first.y0, second.y0)
        if wide > 6 and high > 6:
            shared.append((one, other))
    return shared


def state(declaration, step):
    slider = next(one for one in declaration.sliders if one.name == declaration.phone_sliders[0])
    at = {"start": slider.start_position, "low": 0, "high": len(slider.steps) - 1}[step]
    return declaration.at({**declaration.start, slider.name: at})


@pytest.mark.parametrize("shape", framed.SHAPES)
def test_a_frame_is_full_and_its_parts_do_not_touch(shape, shown):
    width, height = framed.SHAPES[shape]
    assert 9 * max(width, height) == 16 * min(width, height)
    for one in shown.values():
        place = framed.layout(one.picture, shape) if one.picture else framed.card(shape)
        (left, top, wide, high), (at, down, across, deep) = place.picture, place.panel
        assert (left, top) == (0, 0) and (at + across, down + deep) == (width, height)
        assert (at, down) in ((wide, 0), (0, high)) and across > 0.3 * width and deep > 0.3 * height


@pytest.mark.parametrize(("declaration", "step"), ENDS, ids=lambda one: getattr(one, "key", one))
def test_no_text_in_a_picture_lies_over_another(declaration, step):
    drawn = figure(state(declaration, step), large=True)
    drawn.set_dpi(160)
    assert overlaps(boxes(drawn)) == []


@pytest.mark.parametrize("demo", ["record_player", "tape_player"])
@pytest.mark.parametrize("shape", framed.SHAPES)
def test_nothing_of_a_sheets_own_pictures_is_cut_off(demo, shape):
    """The outermost pixels of each drawing are paper."""
    for name, one in pictures.framed(read_sheet(project.CASES / f"{demo}.toml")).items():
        if one.words.foot and one.picture is not None:
            drawing = framed.picture_pixels(framed.layout(one.picture, shape), figure(one.picture, large=True))
            edges = (drawing[:2], drawing[-2:], drawing[:, :2], drawing[:, -2:])
            assert all((edge == 255).all() for edge in edges), name


@pytest.mark.parametrize("shape", framed.SHAPES)
def test_words_keep_to_their_panel_and_apart(shape, shown):
    for one in (shown[name] for name in ("title", "my-held-volts", "ten-warm-minutes", "rest-of-lot")):
        place = framed.layout(one.picture, shape) if one.picture else framed.card(shape)
        for words in (one.words, framed.Words(one.words.head, one.words.sentence, NASTY)):
            found = boxes(framed.panel(place, words))
            assert overlaps(found) == []
            for text, box in found:
                assert box.x0 >= 0 and box.y0 >= 0 and box.x1 <= place.panel[2] and box.y1 <= place.panel[3], text


def test_letters_are_no_smaller_than_a_phone_needs(shown):
    """19 pixels of 720 across are 10 of a phone 390 pixels wide; 22 of 1280 are 14 on one 844 pixels long."""
    for shape, least in (("wide", 19), ("upright", 19)):
        for one in shown.values():
            place = framed.layout(one.picture, shape) if one.picture else framed.card(shape)
            sizes = [text.get_fontsize() for text in framed.panel(place, framed.Words(one.words.head, one.words.sentence)).texts]
            assert min(sizes, default=99) * place.dots / 72 >= least * (1 if place.dots > 130 else 0.9)


@settings(max_examples=15, deadline=None)
@given(some.text(max_size=300))
def test_whatever_is_written_keeps_to_the_panel(text):
    place = framed.card("wide")
    for _, box in boxes(framed.panel(place, framed.Words(text, text, text[:40]))):
        assert box.x1 <= place.panel[2] + 1


def test_no_line_ends_before_a_unit():
    place = framed.card("upright")
    lines = [text for text, _ in boxes(framed.panel(place, framed.Words("", "the winding has 15 Ω and takes 85 mA " * 8)))]
    assert len(lines) > 4 and not any(re.match(r"(Ω|mA)", line) for line in lines)


def test_no_line_ends_between_a_sign_and_its_figure():
    for width in range(1, 9):
        said = " ".join(["x" * width] + ["the spring took 184 ± 2 mV"] * 8)
        lines = [text for text, _ in boxes(framed.panel(framed.card("upright"), framed.Words("", said)))]
        assert len(lines) > 4 and not any(line.endswith("±") for line in lines)


def test_too_many_words_are_refused():
    with pytest.raises(ValueError, match="do not fit"):
        framed.panel(framed.card("wide"), framed.Words("", "word " * 2000))


def test_pixels_and_drawing_show_the_same_picture_and_carry_our_mark(shown):
    files = pictures.files_of("title", shown["title"]) | pictures.files_of("held-volts", shown["held-volts"])
    assert sorted(files) == sorted(f"{name}-{shape}.{kind}" for name in ("title", "held-volts") for shape in framed.SHAPES
                                   for kind in ("png", "svg"))
    for name, content in files.items():
        size = framed.SHAPES["wide" if "wide" in name else "upright"]
        if name.endswith("png"):
            image = Image.open(io.BytesIO(content))
            assert image.size == size and image.info["Software"] == "Bench Reckoner, picture to show"
            assert np.asarray(image.convert("L")).std() > 10
        else:
            root = xml.etree.ElementTree.fromstring(content)
            assert (root.get("width"), root.get("height")) == tuple(str(side) for side in size)
            ids = re.findall(r' id="([^"]*)"', content)
            assert len(ids) == len(set(ids)) and "picture to show" in content[:1000]
            assert "http" not in re.sub(r'"http://www\.w3\.org/[^"]*"', "", content)


def test_markup_in_a_name_stays_text():
    text = framed.svg(framed.card("wide"), None, framed.Words(NASTY, NASTY), "mark")
    assert "<script" not in text and "<img" not in text
    assert xml.etree.ElementTree.fromstring(text).find("{http://www.w3.org/2000/svg}title").text.startswith("<script>")


def test_a_sheet_gives_its_own_pictures_and_a_title(shown):
    assert [name for name in shown if name.startswith(("title", "my-"))][:3] == ["title", "my-staircase-1", "my-staircase-2"]
    assert shown["title"].words.head.startswith("suitcase record player") and "slow to start" in shown["title"].words.sentence
    assert shown["my-held-volts"].words.foot == "suitcase record player" and shown["held-volts"].words.foot == ""
    assert all(one.key in shown for one in live_pictures())


def test_a_choice_is_its_authors_own(tmp_path):
    names = {"divider": "a divider", "held-volts": "a held\nmotor"}
    path = tmp_path / "pictures.toml"
    assert choices(path, names=names, usual=["divider"]) == (["divider"], {})
    text = path.read_text(encoding="utf-8")
    assert "#   held-volts: a held motor" in text
    path.write_text("# mine\n" + text.replace('"divider"', '"held-volts", "held-volts"'), encoding="utf-8")
    mine = path.read_bytes()
    assert choices(path, names=names, usual=["divider"])[0] == ["held-volts"] and path.read_bytes() == mine
    for every in ('["all"]', '"all"'):
        path.write_text(f"wanted = {every}", encoding="utf-8")
        assert choices(path, names=names, usual=[])[0] == ["divider", "held-volts"]
    for wrong, words in (('wanted = ["held-volt"]', "is 'held-volts' meant"), ("wanted = 3", "needs a list"), ("wanted = [", "cannot be read"),
                         ('wanted = ["qqq"]', "there is no 'qqq'"), ("", "needs a list")):
        path.write_text(wrong, encoding="utf-8")
        with pytest.raises(ChoiceError, match=words):
            choices(path, names=names, usual=[])
        assert path.read_text(encoding="utf-8") == wrong


def test_who_asks_for_no_picture_is_told_what_to_write(tmp_path):
    (tmp_path / "pictures.toml").write_text("wanted = []", encoding="utf-8")
    with pytest.raises(ChoiceError, match=r'asks for no picture; write one at least, such as wanted = \["title"\]'):
        pictures.make_pictures(project.CASES / "record_player.toml", tmp_path)


def test_a_new_file_asks_for_each_picture_once(tmp_path, monkeypatch):
    monkeypatch.setattr(pictures, "files_of", lambda name, one: {f"{name}.svg": one.words.head})
    asked = tomllib.loads(pictures.make_pictures(DEMO, tmp_path / "out").joinpath("pictures.toml").read_text(encoding="utf-8"))["wanted"]
    assert asked[0] == "title" and len(asked) == len(set(asked))


@pytest.fixture
def title_alone(tmp_path):
    folder = tmp_path / "out"
    folder.mkdir()
    folder.joinpath("pictures.toml").write_text('wanted = ["title"]', encoding="utf-8")
    return folder


def test_the_command_writes_the_chosen_and_nothing_over_what_is_not_ours(title_alone, capsys):
    words = ["make", "pictures", "--sheet", str(DEMO), "--to", str(title_alone)]
    assert commands.main(words) == 0
    printed, told = capsys.readouterr()
    assert "pictures.toml" in printed and told == "1 pictures, each wide and upright, as PNG and SVG: title\n"
    assert len(list(title_alone.iterdir())) == 5
    assert commands.main(words) == 0
    title_alone.joinpath("title-wide.png").write_bytes(b"my own")
    assert commands.main(words) == 2
    assert title_alone.joinpath("title-wide.png").read_bytes() == b"my own"
    title_alone.joinpath("pictures.toml").write_text('wanted = ["titel"]', encoding="utf-8")
    capsys.readouterr()
    assert commands.main(words) == 2 and "is 'title' meant" in capsys.readouterr().err


def test_the_longest_words_of_a_clip_fit(shown):
    """At start and both ends of the pictures that say most, in both shapes."""
    for declaration in (one for one in live_pictures() if one.key in ("ten-warm-minutes", "motor-left-on", "plate-side")):
        for shot in clips.shots(declaration):
            if shot.words.sentence:
                for shape in framed.SHAPES:
                    framed.panel(framed.layout(shown[declaration.key].picture, shape), shot.words)
