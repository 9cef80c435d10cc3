"""The workshop's settings and pages: what a host writes is kept, nonsense is told by its line, markup stays text."""

import itertools
import re
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from benchreckoner import commands, project
from benchreckoner.bench.cautions import all_cautions
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.lessons.workshop_plan import CHANGE, LEAST_CLOSING, OPENING, STATION, kits, least_minutes, plan, rounds_that_fit, visits
from benchreckoner.lessons.workshop_stations import STATIONS
from benchreckoner.tell.handouts import file_names
from benchreckoner.tell.workshop import SETTINGS_FILE, make_handouts, new_settings, pages

DEMOS = sorted(project.CASES.glob("*_player.toml"))
DEMO = read_sheet(DEMOS[0])
TEXT = new_settings(DEMO)
NASTY = "<script>alert(1)</script> & <img src=x>"


class Tags(HTMLParser):
    """Every tag of a page and every attribute."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.attributes = [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.tags.append(tag)
        self.attributes += attributes


def changed(old, new):
    assert TEXT.count(old) == 1
    return TEXT.replace(old, new)


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_a_pack_is_whole_and_the_same_again(demo, tmp_path):
    index = make_handouts(demo, tmp_path)
    first = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert set(first) == {*file_names(), SETTINGS_FILE} and index.name in first
    make_handouts(demo, tmp_path)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == first
    assert b"Not reckoned" not in first["workshop_tin.html"] and first["workshop_tin.html"].count(b"<caption>") == 3


def test_no_page_asks_for_anything_or_runs_anything():
    made = pages(DEMO, TEXT)
    for name, text in made.items():
        page = Tags(text)
        assert not {"script", "img", "link", "iframe", "object", "video", "audio", "form"} & set(page.tags), name
        assert {value for key, value in page.attributes if key in ("href", "src")} <= set(made), name
        assert not any(key.startswith("on") for key, _ in page.attributes), name
        assert "url(" not in text and "@import" not in text and "default-src 'none'" in text


def test_the_index_lists_every_other_page():
    made = pages(DEMO, TEXT)
    assert {value for key, value in Tags(made["workshop.html"]).attributes if key == "href"} == set(made) - {"workshop.html"}


def test_what_the_host_wrote_is_kept(tmp_path):
    make_handouts(DEMOS[0], tmp_path)
    edited = (tmp_path / SETTINGS_FILE).read_text(encoding="utf-8").replace("tables = 4", "# our room\ntables = 2")
    (tmp_path / SETTINGS_FILE).write_text(edited, encoding="utf-8")
    make_handouts(DEMOS[0], tmp_path)
    assert (tmp_path / SETTINGS_FILE).read_text(encoding="utf-8") == edited
    assert "Table 3" not in (tmp_path / "workshop_handouts.html").read_text(encoding="utf-8")


def test_a_strangers_page_is_left_alone(tmp_path):
    (tmp_path / "workshop.html").write_text("mine", encoding="utf-8")
    with pytest.raises(FileExistsError, match="workshop.html"):
        make_handouts(DEMOS[0], tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["workshop.html"]


def test_the_sheets_own_readings_are_taken():
    text = new_settings(read_sheet(project.CASES / "record_player.toml"))
    assert 'supply = "9.13 V"' in text and "supply, nothing drawn; from your sheet" in text
    assert "loses its speed; from" not in text, "nobody read that"


def test_a_sheet_without_a_reading_still_gives_a_pack():
    bare = read_text('version = 1\n[machine]\nname = "bare"\n')
    made = pages(bare, new_settings(bare))
    assert "bare" in made["workshop.html"] and "Not reckoned" not in made["workshop_tin.html"]


def test_markup_in_a_name_or_an_entry_is_text():
    sheet = read_text(f"version = 1\n[machine]\nname = '{NASTY}'\n")
    made = pages(sheet, new_settings(sheet))
    assert "&lt;script&gt;alert(1)" in made["workshop.html"]
    assert all("<script" not in text and "<img" not in text for text in made.values())
    with pytest.raises(SheetError, match="machine, supply"):
        pages(DEMO, re.sub('supply = ".*"', f'supply = "{NASTY}"', TEXT, count=1))


def line_with(start):
    return next(number for number, line in enumerate(TEXT.splitlines(), 1) if line.startswith(start))


@pytest.mark.parametrize(("old", "new", "at", "told"), [
    ("tables = 4", "tables = 0", "tables", "whole number from 1 to 12"),
    ("tables = 4", 'tables = "4"', "tables", "without quotation marks"),
    ("tables = 4", "tables = true", "tables", "whole number"),
    ("tables = 4", "tabels = 4", "tables", "is 'tables' meant|tables"),
    ("minutes = 90", "minutes = 37", "minutes", "from 38 to 480"),
    ("seed = 1", "seed = -1", "seed", "from 0"),
    ('"Belts",', '"Belt",', "stations", "no station 'Belt'"),
    ('"Belts",', '"Lost volts",', "stations", "stands twice"),
    ('playing = "', 'playing = 72 # "', "playing", "quotation marks"),
    ('volts = "0.5 %', 'volts = "half a volt %', "volts", "accuracy|limit|write"),
    ('leads = "0.20 ohm"', 'leads = "0.20 V"', "leads", "ohm"),
    ('counts = "2000"', 'counts = "19"', "counts", "2000, 4000"),
    ('times = "1.5"', 'times = "0.5"', "times", "1.02"),
    ('shows = "playing"', 'shows = "singing"', "shows", "playing, starting"),
    ('pull = "40 %"', 'pull = "99 %"', "pull", "5 % to 95 %"),
])
def test_nonsense_is_told_with_its_line(old, new, at, told):
    with pytest.raises(SheetError, match=told) as caught:
        pages(DEMO, changed(old, new))
    assert caught.value.source == SETTINGS_FILE and caught.value.line == line_with(f"{at} = ")


@pytest.mark.parametrize("text", ["", "tables = ", "stations = []", "[machine\n", "machine = 3", "\x00", "[[machine]]"])
def test_a_broken_file_is_told(text):
    with pytest.raises(SheetError, match=SETTINGS_FILE):
        pages(DEMO, text)


@settings(max_examples=25)
@given(some.text(max_size=60))
def test_whatever_stands_in_an_entry_it_is_told_or_taken(word):
    text = TEXT.replace('spring = "', "spring = '''" + word.replace("'", "") + "''' # \"", 1)
    try:
        made = pages(DEMO, text)
    except SheetError as error:
        assert error.source == SETTINGS_FILE
    else:
        assert set(made) == set(file_names())


def test_an_empty_entry_leaves_its_tin_out_and_says_so():
    made = pages(DEMO, re.sub('least = "[^"]*"', 'least = ""', TEXT))
    assert made["workshop_tin.html"].count("Not reckoned yet") == 1 and made["workshop_tin.html"].count("<caption>") == 2
    assert "[machine] least" in made["workshop_tin.html"] and "least" in made["workshop.html"]


def test_volts_on_an_old_capacitor_come_with_what_to_do_when_it_swells():
    """Its table puts both parts on volts, the leaky one as well."""
    steps = " ".join(STATIONS["Leaky capacitor"].steps)
    card = pages(DEMO, TEXT)["workshop_cards.html"]
    assert "on the test's volts" in steps and card.index("Warm, hissing or swelling") < card.index("Put each on the test")


def test_every_caution_of_a_station_is_read_out_and_stands_before_its_steps():
    made, words = pages(DEMO, TEXT), {one.name: one.words for one in all_cautions()}
    cards = made["workshop_cards.html"].split("<section")[1:]
    for station, card in zip(STATIONS.values(), cards, strict=True):
        for name in station.cautions:
            start = words[name].split(".")[0].split("'")[0]
            assert start in made["workshop_host.html"] and 0 < card.index(start) < card.index("<ol>")


def test_the_command_makes_it(tmp_path, capsys):
    assert commands.make(what="handouts", sheet=DEMOS[0], folder=tmp_path / "new") == 0
    assert "workshop.html" in capsys.readouterr().out
    (tmp_path / "new" / SETTINGS_FILE).write_text("tables = 99", encoding="utf-8")
    assert commands.make(what="handouts", sheet=DEMOS[0], folder=tmp_path / "new") == commands.FAULTY
    assert f"{SETTINGS_FILE}, line 1" in capsys.readouterr().err


@given(minutes=some.integers(38, 300), tables=some.integers(1, 12), count=some.integers(1, 4))
def test_the_plan_fills_the_evening_and_nobody_sits_twice_at_a_station(minutes, tables, count):
    names = tuple(STATIONS)[:count]
    turns = plan(minutes=minutes, tables=tables, stations=names)
    assert turns[0].start == 0 and turns[-1].end == minutes
    assert all(one.end == other.start for one, other in itertools.pairwise(turns))
    assert all(one.end - one.start == STATION for one in turns if one.seats)
    assert turns[0].end == OPENING and turns[-1].end - turns[-1].start >= LEAST_CLOSING
    for table in range(tables):
        seen = visits(turns, table)
        assert len(set(seen)) == len(seen) >= 1
    assert max(kits(turns, name) for name in names) == -(-tables // count)


def test_how_many_rounds_fit():
    """By hand: 10 + 3 * 20 + 2 * 2 + 8 = 82, and 10 + 4 * 20 + 3 * 2 + 8 = 104."""
    assert [rounds_that_fit(minutes=minutes, stations=4) for minutes in (37, 38, 81, 82, 90, 103, 104)] == [0, 1, 2, 3, 3, 3, 4]
    assert [least_minutes(rounds=number) for number in (1, 3, 4)] == [38, 82, 104]
    assert rounds_that_fit(minutes=400, stations=2) == 2
    assert (OPENING, LEAST_CLOSING, STATION, CHANGE) == (10, 8, 20, 2)
    with pytest.raises(ValueError, match="38 or more"):
        plan(minutes=37, tables=1, stations=("Belts",))
