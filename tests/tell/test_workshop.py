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
from benchreckoner.lessons.workshop_tins import SETTINGS
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


def test_volts_with_nothing_drawn_go_before_later_ones_under_load():
    """Read off as found, and only playing after the work: the tin asks for the first of them."""
    sheet = read_text('version = 1\n[[instrument]]\nname = "meter"\naccuracy = "1 %"\n[[part]]\nname = "cells"\nkind = "cells"\n[[action]]\nname = "cleaned"\n'
                      + "".join(f'[[reading]]\npart = "cells"\nquantity = "voltage"\nvalue = "{value}"\ninstrument = "meter"\nstage = "{stage}"\n'
                                f'condition = "{condition}"\n' for value, stage, condition in (("6.31 V", "as found", "off"), ("6.12 V", "cleaned", "playing"))))
    assert 'supply = "6.31 V"' in new_settings(sheet)


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


@pytest.mark.parametrize(("old", "new", "at", "told"), [
    ("[meter]", "[machine]\nsupply = '9 V'\n[meter]", "[machine]\nsupply = '9", "already has a table .* once, with all its entries below it"),
    ("tables = 4", "tables = 4\ntables = 5", "tables = 5", "stands twice"),
    ("[meter]", "[meter]\ncoutns = '2000'", "coutns", "did you mean 'counts'"),
    ("[meter]", "[metre]", "[metre]", "did you mean 'meter'"),
    ("[meter]", "[[meter]]", "[[meter]]", r"under \[meter\]"),
    ("[meter]", "[meter", "[meter", r"bracket, write for example \[machine\]"),
    ('supply = "9.13 V"', 'supply = "9.13 V', 'supply = "9.13', 'supply = "9 V"'),
    ('supply = "9.13 V"', "supply = 9.13", "supply = 9.13", 'write for example supply = "9.13 V"'),
    ('supply = "9.13 V"', 'supply "9.13 V"', 'supply "9', 'equals sign, write for example supply = "9 V"'),
    ("seed = 1", "seed = 99999999999999999999", "seed", "0 to 999999"),
    ("seed = 1", "seed = 1.0", "seed", "whole number"),
    ("seed = 1", "", "# A workshop", "seed = 0"),
])
def test_a_bent_file_is_told_in_its_own_words(old, new, at, told):
    text = changed(old, new)
    with pytest.raises(SheetError, match=told) as caught:
        pages(DEMO, text)
    assert text.splitlines()[caught.value.line - 1].startswith(at.split("\n")[0]) or text.splitlines()[caught.value.line - 1].startswith(new.split("\n")[-1])
    assert "[[reading]]" not in str(caught.value) and "sheet" not in str(caught.value)


NONSENSE = ["-3 V", "abc", "nan V", "1e400 V", "0", "99999 kV", NASTY, "1 fortnight", "x" * 90]


@pytest.mark.parametrize("key", [(one.table, one.key) for one in SETTINGS], ids=lambda key: key[1])
def test_nonsense_in_any_entry_is_told_there_with_what_to_write(key):
    start = line_with(f"{key[1]} = ")
    for word in NONSENSE:
        lines = TEXT.splitlines()
        lines[start - 1] = f"{key[1]} = '{word}'"
        try:
            made = pages(DEMO, "\n".join(lines))
        except SheetError as error:
            # Two readings that cannot both be true are told at one of the two.
            assert error.line == start or error.entry.split(", ")[0] == "machine", (word, str(error))
            assert len(word) <= 80 or "at most 80 characters" in error.what
            assert re.search("write|for example|must be|is beyond|fewer volts|read both again", error.what), (word, error.what)
        else:
            assert word in ("99999 kV",) and key[1] == "volts" and "<script" not in made["workshop_tin.html"], (word, key)
    for word in ("7", "true", "[1]", "{}", "1979-05-27"):
        lines[start - 1] = f"{key[1]} = {word}"
        with pytest.raises(SheetError, match="in quotation marks, write for example") as caught:
            pages(DEMO, "\n".join(lines))
        assert caught.value.line == start


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
    cards = {re.search("<h1>(.*?)</h1>", card)[1]: card for card in made["workshop_cards.html"].split("<section")[1:]}
    assert set(cards) == set(STATIONS)
    for station in STATIONS.values():
        card = cards[station.name]
        for name in station.cautions:
            start = words[name].split(".")[0].split("'")[0]
            assert start in made["workshop_host.html"] and 0 < card.index(start) < card.index("<ol>")


def test_whoever_lifts_a_belt_or_puts_in_a_meter_is_warned_first():
    for station in STATIONS.values():
        told = " ".join((*station.steps, *station.bring)).lower()
        assert "power off" in station.cautions or "belt" not in " ".join(station.steps).lower()
        assert "shorted cells" in station.cautions or "ammeter" not in told and "in line" not in told
        assert "scope" in station.cautions


def seconds_to_read(html):
    """At 140 words a minute, counted by spaces alone."""
    return 60 * len(re.sub("<[^>]+>", " ", html).split()) / 140


def test_there_is_time_to_read_what_is_to_be_read():
    """Two minutes for a card's cautions, its question and its guess; ten for the welcome, of which the cautions take less than half."""
    made = pages(DEMO, TEXT)
    for card in made["workshop_cards.html"].split("<section")[1:]:
        assert seconds_to_read(card[card.index("<h1>"):card.index("<ol>")]) <= 120
    page = made["workshop_host.html"]
    aloud = seconds_to_read(page[page.index("before the first step"):page.index("Things to bring")])
    assert aloud < 60 * (OPENING / 2 - 1)
    assert f"about {round(aloud / 60)} minutes" in page
    assert sum(int(count) for count in (2, 10, 6, 2)) == STATION and "Two minutes: read" in page and "Ten minutes: the bench" in page


def test_what_to_bring_names_every_resistor_with_its_watts():
    """The demo's spring: 456 mV at 72 mA is 6.3 ohm, so 5.6 and 6.8; held, 9.13 V over 8.38 and 6.8 ohm make 2.5 W in it, twice that is 5 W."""
    page = pages(DEMO, TEXT)["workshop_host.html"]
    assert "<li>bad spring, 6.8 Ω, 5 %: 5 W or more</li>" in page and "<li>bad spring, 5.6 Ω, 5 %: 5 W or more</li>" in page
    assert 2 < (9.13 / (9.13 / 1.09 + 6.8)) ** 2 * 6.8 < 2.6
    assert page.count("<li>leaky part, ") == 2 and page.count("<li>tired supply, ") == 3
    for thing in ("supply", "meter", "thread", "rule of 30 cm", "bag of belts", "10 µF and 25 V", "1 kΩ resistor of 0.25 W", "first-aid box"):
        assert thing in page
    empty = pages(DEMO, re.sub('least = "[^"]*"', 'least = ""', TEXT))["workshop_host.html"]
    assert empty.count("not reckoned yet") == 1 and "<li>tired supply, " not in empty


def test_a_series_resistor_for_the_test_stands_a_shorted_part():
    """Half of a quarter watt in 10 kilohm: the root of 0.125 W times 10 kilohm is 35.4 V. At 63 V it is 0.40 W, and 1 W is more than twice that."""
    assert "0.25 W for tests up to 35 V and 1 W above" in " ".join(STATIONS["Leaky capacitor"].bring)
    assert (0.125 * 10e3) ** 0.5 == pytest.approx(35.4, abs=0.05) and 2 * 63**2 / 10e3 < 1


def test_the_stations_of_a_sheet_begin_with_what_was_wrong():
    """The tape player's capacitors and belt; the record player's springs and its motor."""
    def first_two(sheet):
        names = re.findall('^    "(.*)",$', new_settings(sheet), re.MULTILINE)
        assert sorted(names) == sorted(STATIONS)
        return names[:2]

    assert first_two(read_sheet(project.CASES / "tape_player.toml")) == ["Leaky capacitor", "Belts"]
    assert first_two(DEMO) == ["Lost volts", "Motor and governor"]
    assert first_two(read_text('version = 1\n[machine]\nname = "bare"\n')) == list(STATIONS)[:2]


def test_what_a_held_motor_draws_is_read_or_reckoned_and_never_invented_for_ones_own():
    """The tape player was held at 1 V alone: about 15 ohm, so 12 V would drive 0.8 A through it, not ten times what it plays on."""
    text = new_settings(read_sheet(project.CASES / "tape_player.toml"))
    held = re.search('held = "(.*) mA".*from your sheet', text)[1]
    assert float(held) == pytest.approx(12 / 15 * 1000, rel=0.03)
    own = read_text('version = 1\n[machine]\nname = "own"\nsupply = "9 V"\n')
    assert 'held = ""' in new_settings(own) and 'supply = "9.00 V"' in new_settings(own)
    assert "[machine] held" in pages(own, new_settings(own))["workshop_tin.html"]
    assert 'held = "1.04 A"' in new_settings(read_text('version = 1\n[machine]\nname = "bare"\n'))


def test_what_nobody_has_read_is_marked_until_the_host_writes_it():
    page = pages(DEMO, TEXT)["workshop_tin.html"].replace("\u00a0", " ")
    assert "9.13 V</bdi></li>" in page and "9.04 V</bdi> *</li>" in page and "456 mV</bdi></li>" in page
    own = pages(DEMO, re.sub('loaded = "[^"]*"', 'loaded = "9.01 V"', TEXT))["workshop_tin.html"].replace("\u00a0", " ")
    assert "9.01 V</bdi></li>" in own


def test_a_coarser_meter_and_a_lesser_supply_are_told():
    coarse = pages(DEMO, changed('volts = "0.5 % + 10 mV"', 'volts = "2 % + 0.4 V"'))["workshop_tin.html"]
    assert "your meter cannot tell it from a sound contact" in coarse and "cannot tell it" not in pages(DEMO, TEXT)["workshop_tin.html"]
    five = pages(DEMO, changed('test = "9 V"', 'test = "5 V"'))["workshop_tin.html"]
    assert "135 µA" in five and 5 / 37e3 == pytest.approx(135e-6, abs=0.5e-6)
    host = pages(DEMO, TEXT)["workshop_host.html"].replace("\u00a0", " ")
    assert "0.5 A: enough for every station, since the machine plays on <bdi>72.0 mA</bdi>" in host and 'test = "5 V"' in host
    thirsty = pages(DEMO, re.sub('playing = "[^"]*"', 'playing = "0.26 A"', TEXT))["workshop_host.html"].replace("\u00a0", " ")
    assert "too little for this machine, which plays on <bdi>0.26 A</bdi>" in thirsty
    assert "0.5 A: enough for every station. It" in pages(DEMO, re.sub('supply = "[^"]*"', 'supply = ""', TEXT))["workshop_host.html"]


def test_how_far_off_the_wall_is_legible():
    """A capital of 115 points is 115 * 0.3528 * 0.688 = 27.9 mm; 16 minutes of arc at 6.0 m, 20 at 4.8 m, by the control rooms' own formula."""
    height = 115 * 25.4 / 72 * 0.688
    assert 6.283 * 6000 * 16 / 21600 == pytest.approx(height, rel=0.003) and 6.283 * 4800 * 20 / 21600 == pytest.approx(height, rel=0.003)
    made = pages(DEMO, TEXT)
    assert "capitals are 28 mm tall: legible from 6 m, easy to read from 4.5 m" in made["workshop_host.html"].replace("\n", " ")
    assert "115pt" in made["workshop_large.html"] and made["workshop_large.html"].count('<section class="sheet">') == 5 + 1 + 4


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


def test_a_station_that_no_table_visits_is_not_prepared():
    """One table in 38 minutes has one round: the first station of the file."""
    made = pages(DEMO, changed("tables = 4", "tables = 1").replace("minutes = 90", "minutes = 38"))
    assert "No table comes to Motor and governor, Leaky capacitor, Belts: there is nothing to bring for them" in made["workshop_host.html"]
    assert "0 set" not in made["workshop_host.html"] and "from the others" not in made["workshop_host.html"]
    assert re.findall("<h1>(.*?)</h1>", made["workshop_cards.html"]) == ["Lost volts"]
    assert "Belts" not in made["workshop_large.html"] and "Melted belts" not in made["workshop_host.html"]
    usual = pages(DEMO, TEXT)["workshop_host.html"]
    assert "No table comes" not in usual and "misses 1 of the 4 stations" in usual


def test_how_many_rounds_fit():
    """By hand: 10 + 3 * 20 + 2 * 2 + 8 = 82, and 10 + 4 * 20 + 3 * 2 + 8 = 104."""
    assert [rounds_that_fit(minutes=minutes, stations=4) for minutes in (37, 38, 81, 82, 90, 103, 104)] == [0, 1, 2, 3, 3, 3, 4]
    assert [least_minutes(rounds=number) for number in (1, 3, 4)] == [38, 82, 104]
    assert rounds_that_fit(minutes=400, stations=2) == 2
    assert (OPENING, LEAST_CLOSING, STATION, CHANGE) == (10, 8, 20, 2)
    with pytest.raises(ValueError, match="38 or more"):
        plan(minutes=37, tables=1, stations=("Belts",))
