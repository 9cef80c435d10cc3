"""Pages for a phone: what is packed into them against the library, and that nothing a reader typed can harm them."""

import base64
import gzip
import json
import pathlib
import re
import runpy
import types
from dataclasses import replace

import numpy as np
import pytest

from benchreckoner import commands, project
from benchreckoner.bench.sheet import SheetError, read_sheet
from benchreckoner.lessons.series import live_pictures, own_pictures
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.live import picture_at, scene
from benchreckoner.show.picture import Axis, Band, Curve, Picture, Point, Reading
from benchreckoner.tell import pages, spread
from benchreckoner.units import Q

DEMO = project.CASES / "record_player.toml"
NASTY = '<script>alert("1")</script> \' & --> </style> <img src=x onerror=alert(1)>'
MARK_WIDTHS = {"curve": 2, "band": 3, "point": 3, "limit": 2}
divider = types.SimpleNamespace(**runpy.run_path(str(pathlib.Path(__file__).parents[1].joinpath("show", "demo.py"))))


def few(*phone, key="divider", goal="Find the ohms that leave 5.0 V."):
    """The made-up divider of the picture tests, with few steps."""
    return LivePicture(
        key=key, picture=divider.divider, goal=goal,
        sliders=[Slider("series", "Series resistance", "ohm", ladder(10, 2000, 7, "log"), 100),
                 Slider("load", "Load", "ohm", ladder(50, 2000, 5, "log"), 300)],
        fixed={"supply": Q(9, "V")}, phone_sliders=phone)


def unpacked(page):
    """Words and numbers of a page, read by the layout that its script reads."""
    packed = re.search(r'<script type="text/plain" id="table">([^<]*)</script>', page)[1]
    whole = gzip.decompress(base64.b64decode(packed))
    length = int.from_bytes(whole[:4], "little")
    return json.loads(whole[4:4 + length]), np.frombuffer(whole[4 + length:], "<i2")


def looked_up(page, positions):
    """The scene that a page holds at these steps."""
    words, places = unpacked(page)

    def index(along):
        return sum(stride * step for stride, step in zip(along, positions, strict=True))

    def pick(kept):
        return kept["values"][index(kept["along"])]

    numbers = []
    for mark in words["marks"]:
        columns = [places[(row := column["from"] + index(column["along"]) * mark["count"]):row + mark["count"]]
                   for column in mark["columns"]]
        numbers.append(np.column_stack(columns).ravel())
    tables = [{"caption": pick(table["caption"]), "head": pick(table["head"]),
               "rows": [row for row in map(pick, table["rows"]) if row is not None]}
              for table in words["tables"] if pick(table["head"]) is not None]
    return {"sentence": pick(words["sentence"]), "alt": pick(words["alt"]), "tables": tables,
            "counts": [mark["count"] for mark in words["marks"]], "numbers": np.concatenate(numbers).astype("<i2").tobytes()}


@pytest.mark.parametrize("phone", [("series", "load"), ("load", "series"), ("series",), ("load",)])
def test_every_step_is_the_librarys_own_scene(phone):
    declared = few(*phone)
    reading = Reading(Q(400, "ohm"), Q(7, "V"))
    page = pages.page_html(declared, reading=reading)
    names = [slider.name for slider in declared.sliders if slider.name in phone]
    for steps in np.ndindex(*(len(slider.steps) for slider in declared.sliders if slider.name in phone)):
        at = {**declared.start, **dict(zip(names, steps))}
        assert looked_up(page, steps) == scene(picture_at(declared, at, reading))
    outline = unpacked(page)[0]["spec"]
    assert [slider["name"] for slider in outline["sliders"]] == names


def test_a_slider_that_stands_still_is_told_with_its_value():
    alone, both = pages.page_html(few("series")), pages.page_html(few("series", "load"))
    assert "<bdi>Load</bdi> stands still at 320 Ω" in alone
    assert "stands still" not in both


def test_what_no_slider_changes_is_kept_once():
    words, places = unpacked(pages.page_html(few("series", "load")))
    curve = next(mark for mark in words["marks"] if mark["count"] == 201 and len(mark["columns"]) == 2)
    assert curve["columns"][0]["along"] == [0, 0], "the ohms along the axis"
    assert curve["columns"][1]["along"] == [0, 1], "the volts, which the load alone changes"
    assert words["alt"]["values"] == ["The volts left fall as the series resistance grows."]
    assert len(words["sentence"]["values"]) == 7 * 5
    # Two curves, a band and the small marks, in full at each of 35 steps, would take 35 times this.
    assert places.size < 201 * (2 + 2 + 3) * 5 + 35 * 20


def growing(*, size):
    """A picture whose rows grow longer, and whose second table comes and goes."""
    count = int(size)
    x = np.linspace(0, 1, count)
    return Picture(title="Rows that grow", x=Axis("a", "", 0, 1), y=Axis("b", "", 0, 1), sentence=f"{count} places.", alt="A line.",
                   curves=[Curve("line", x, x)], bands=[Band("area", x if count > 3 else x[::-1], x, x)],
                   points=[Point("end", 1.0, 1.0 if count > 3 else np.nan)])


def test_rows_of_any_length_end_in_a_gap():
    declared = LivePicture("growing", growing, [Slider("size", "Places", "", (2, 3, 5, 12), 3)])
    page = pages.page_html(declared)
    for step in range(4):
        wanted, found = scene(declared.at({"size": step})), looked_up(page, [step])
        assert [found[what] for what in ("sentence", "alt", "tables")] == [wanted[what] for what in ("sentence", "alt", "tables")]
        rest, kinds = np.frombuffer(found["numbers"], "<i2"), [kind for kind, _ in declared.at({"size": 0}).marks]
        own = np.frombuffer(wanted["numbers"], "<i2")
        for kind, longer, shorter in zip(kinds, found["counts"], wanted["counts"], strict=True):
            width = MARK_WIDTHS[kind]
            assert rest[:shorter * width].tolist() == own[:shorter * width].tolist()
            assert set(rest[shorter * width:longer * width].tolist()) <= {-32768}
            rest, own = rest[longer * width:], own[shorter * width:]


def test_a_page_that_would_be_too_large_says_which_and_what_to_do(monkeypatch):
    monkeypatch.setattr(pages, "LARGEST", 20_000)
    with pytest.raises(ValueError, match=r"'divider'.*at most 20000; give its sliders fewer steps"):
        pages.page_html(few("series"))


@pytest.fixture
def small(monkeypatch):
    """A series of one small picture, and one with the reader's own reading, named as nastily as can be."""
    own = few("series", key="own-divider", goal=NASTY)
    monkeypatch.setattr(pages, "live_pictures", lambda: (few("series"),))
    monkeypatch.setattr(pages, "own_pictures", lambda sheet: ((own, Reading(Q(400, "ohm"), Q(7, "V"))),))


def test_every_picture_is_listed_and_the_same_sheet_gives_the_same_bytes(small, tmp_path):
    index = pages.make_pages(DEMO, tmp_path / "one")
    again = pages.make_pages(DEMO, tmp_path / "two")
    names = sorted(path.name for path in index.parent.iterdir())
    assert names == ["divider.html", "index.html", "own-divider.html"]
    assert index.name == "index.html"
    for name in names:
        assert (index.parent / name).read_bytes() == (again.parent / name).read_bytes()
    text = index.read_text(encoding="utf-8")
    assert re.findall(r'href="([^"]*)"', text) == ["divider.html", "own-divider.html"]
    assert "Find the ohms that leave 5.0 V." in text and "suitcase record player" in text
    # Made anew over its own pages, and never over anything else.
    pages.make_pages(DEMO, tmp_path / "one")
    other = tmp_path / "three"
    other.mkdir()
    other.joinpath("index.html").write_text("my own page", encoding="utf-8")
    with pytest.raises(FileExistsError, match="no picture for a phone and was left as it is"):
        pages.make_pages(DEMO, other)
    assert [path.name for path in other.iterdir()] == ["index.html"]
    assert other.joinpath("index.html").read_text(encoding="utf-8") == "my own page"


def test_several_processes_write_the_same_bytes(monkeypatch, tmp_path):
    """Eight small pictures of the books, worked out here and by two processes."""
    steps = {declared.key: np.prod([len(slider.steps) for slider in declared.sliders if slider.name in declared.phone_sliders])
             for declared in live_pictures()}
    fewest = sorted(steps, key=steps.get)[:8]
    monkeypatch.setattr(pages, "live_pictures", lambda: tuple(declared for declared in live_pictures() if declared.key in fewest))
    monkeypatch.setattr(pages, "own_pictures", lambda sheet: ())
    made = []
    for cores in (1, 2):
        monkeypatch.setattr(spread, "_cores", lambda: cores)
        made.append(pages.make_pages(DEMO, tmp_path / f"{cores}").parent)
    names = sorted(path.name for path in made[0].iterdir())
    assert names == sorted([*(f"{key}.html" for key in fewest), "index.html"])
    for name in names:
        assert (made[0] / name).read_bytes() == (made[1] / name).read_bytes()


def test_markup_in_a_name_stays_text(small, tmp_path):
    sheet = tmp_path / "nasty.toml"
    text = DEMO.read_text(encoding="utf-8").replace('"suitcase record player"', f"'''{NASTY}'''")
    sheet.write_text(text, encoding="utf-8")
    index = pages.make_pages(sheet, tmp_path / "out")
    for path in index.parent.iterdir():
        page = path.read_text(encoding="utf-8")
        assert "<script>alert" not in page and "<img" not in page
        assert page.count("<script") == (0 if path == index else 2)
        assert "http" not in re.sub(r'http-equiv|"http://www\.w3\.org/[^"]*"', "", page)


def test_the_command_says_where_the_pages_lie(small, tmp_path, capsys):
    assert commands.main(["make", "pages", "--sheet", str(DEMO), "--to", str(tmp_path / "out")]) == 0
    said = capsys.readouterr()
    assert str(tmp_path / "out" / "index.html") in said.out


def test_a_faulty_sheet_makes_nothing(tmp_path):
    sheet = tmp_path / "faulty.toml"
    sheet.write_text("not toml at all", encoding="utf-8")
    with pytest.raises(SheetError):
        pages.make_pages(sheet, tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_the_series_has_each_picture_once_and_a_sheet_without_readings_has_none_of_its_own(tmp_path):
    keys = [one.key for one in (*live_pictures(), *(one for one, _ in own_pictures(read_sheet(DEMO))))]
    assert len(keys) == len(set(keys)) and "index" not in keys
    assert "my-held-volts" in keys
    assert commands.main(["new", str(tmp_path / "new.toml")]) == 0
    assert own_pictures(read_sheet(tmp_path / "new.toml")) == ()


def test_a_page_asks_what_its_sliders_can_meet():
    """A picture with a goal of its own for a page shows that one, and no other does."""
    declared = replace(few("series"), phone_goal="Find the ohms that leave 4.0 V.")
    assert unpacked(pages.page_html(declared))[0]["spec"]["goal"] == "Find the ohms that leave 4.0 V."
    assert unpacked(pages.page_html(few("series")))[0]["spec"]["goal"] == "Find the ohms that leave 5.0 V."
