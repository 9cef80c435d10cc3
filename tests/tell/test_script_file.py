"""The author's file of a script: nonsense told with its line, nothing of theirs lost, and what to look at said once and alike."""

import functools
import os
import re
import shutil
import tomllib

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as some
from markupsafe import escape

from benchreckoner import commands, project
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.tell import captions
from benchreckoner.tell.caption_files import make_captions
from benchreckoner.tell.script import CHAPTERS, REGISTERS, Line, Script, outline, total
from benchreckoner.tell.script_about import description, heard_chapters, long_enough
from benchreckoner.tell.script_file import remake
from benchreckoner.tell.script_look import clock, line_marks, of_line, to_look_at, whole
from benchreckoner.tell.script_page import make_script, script_html
from benchreckoner.tell.script_read import digest

DEMOS = ["record_player", "tape_player"]
MACHINE = ('version = 1\n[machine]\nname = "Garden player"\n[[instrument]]\nname = "meter"\naccuracy = "0.5 % + 0.2 mV"\n'
           '[[instrument]]\nname = "ammeter"\naccuracy = "1 % + 1 mA"\n[[part]]\nname = "spring 9"\nkind = "supply contact"\n'
           '[[part]]\nname = "motor"\nkind = "motor"\n')


def reading(part, quantity, value, stage="as found"):
    meter = "ammeter" if quantity == "current" else "meter"
    return (f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "{meter}"\nstage = "{stage}"\n'
            'condition = "held"\n')


def small(drop="800 mV", *, cleaned=""):
    """A sheet with one spring, and what it lost after it was cleaned."""
    text = MACHINE + ('[[action]]\nname = "cleaned"\n' if cleaned else "") + reading("motor", "current", "1.000 A")
    text += reading("spring 9", "voltage drop", drop) if drop else ""
    if cleaned:
        text += reading("motor", "current", "1.100 A", "cleaned") + reading("spring 9", "voltage drop", cleaned, "cleaned")
    return text


@functools.cache
def sheet_of(text):
    return read_text(text, source="one.toml")


@functools.cache
def demo(name):
    return read_sheet(project.CASES / f"{name}.toml")


@functools.cache
def made_of(name):
    return remake(None, demo(name))[0]


HEAD = 'version = 1\nsheet = "one.toml"\n'
ONE = HEAD + '[[line]]\ncamera = "It was the spring."\n'
NONSENSE = {
    "no closing quotation mark": (HEAD + '[[line]]\ncamera = "It was\n', 4, 'camera = "'),
    "words over two lines": (HEAD + '[[line]]\ncamera = "It was\nthe spring."\n', 4, 'camera = "'),
    "a quotation within": (HEAD + '[[line]]\ncamera = "He said "no" to me."\n', 4, '\\"'),
    "a backslash": (HEAD + '[[line]]\nshot = "C:\\films\\spring"\n', 4, "two backslashes"),
    "no quotation marks": (HEAD + "[[line]]\ncamera = It was the spring.\n", 4, 'camera = "'),
    "no equals sign": (HEAD + '[[line]]\ncamera "It was."\n', 4, 'camera = "'),
    "a bracket short": (HEAD + '[[line]\ncamera = "x"\n', 3, "[[line]]"),
    "single brackets": (HEAD + '[line]\ncamera = "x"\n', 3, "[[line]]"),
    "both kinds of brackets": (ONE + '[line]\ncamera = "x"\n', 5, "[[line]]"),
    "a key twice": (HEAD + '[[line]]\ncamera = "a"\ncamera = "b"\n', 5, "once"),
    "lines in one list": (HEAD + 'line = [{ camera = "x" }]\n', 3, "[[line]]"),
    "line is text": (HEAD + 'line = "x"\n', 3, "[[line]]"),
    "header misspelt": (HEAD + '[[lines]]\ncamera = "x"\n', 3, "[[line]]"),
    "words are a number": (HEAD + "[[line]]\ncamera = 3\n", 4, 'camera = "'),
    "words are a list": (HEAD + '[[line]]\nroom = ["a", "b"]\n', 4, 'room = "'),
    "chapter is a number": (ONE + "chapter = 2\n", 5, 'chapter = "'),
    "use in quotation marks": (ONE + 'use = "no"\n', 5, "use = true"),
    "use with a capital": (ONE + "use = False\n", 5, "use = true"),
    "made is the author's": (ONE + 'made = "in 1962"\n', 5, "my_made"),
    "a line without words": (HEAD + '[[line]]\nid = "a"\n', 3, 'camera = "'),
    "a key misspelt": (HEAD + '[[line]]\nid = "a"\ncamra = "x"\n', 5, "camera"),
    "a setting misspelt": (HEAD + "word_per_minute = 150\n", 3, "words_per_minute"),
    "a setting in a line": (ONE + 'target = "3 min"\n', 5, "above the first [[line]]"),
    "target in a word": (HEAD + 'target = "six"\n', 3, 'target = "6 min"'),
    "target without its unit": (HEAD + "target = 6\n", 3, 'target = "6 min"'),
    "target bare": (HEAD + "target = 6 min\n", 3, 'target = "6 min"'),
    "target below zero": (HEAD + 'target = "-1 min"\n', 3, 'target = "6 min"'),
    "target in volts": (HEAD + 'target = "6 V"\n', 3, 'target = "6 min"'),
    "rate below zero": (HEAD + "words_per_minute = -3\n", 3, "words_per_minute = 160"),
    "rate too low": (HEAD + "words_per_minute = 39\n", 3, "words_per_minute = 160"),
    "rate nought": (HEAD + "words_per_minute = 0\n", 3, "words_per_minute = 160"),
    "rate far too high": (HEAD + "words_per_minute = 1e9\n", 3, "words_per_minute = 160"),
    "rate no number": (HEAD + "words_per_minute = nan\n", 3, "words_per_minute = 160"),
    "rate in quotation marks": (HEAD + 'words_per_minute = "160"\n', 3, "words_per_minute = 160"),
    "a newer version": (HEAD.replace("1", "2"), 1, "version = 1"),
    "version nought": (HEAD.replace("1", "0"), 1, "version = 1"),
    "version true": (HEAD.replace("1", "true"), 1, "version = 1"),
    "version gone": ('sheet = "one.toml"\n', 1, "version = 1"),
    "sheet gone": ("version = 1\n", 1, 'sheet = "one.toml"'),
    "another machine's": (HEAD.replace("one", "other"), 2, 'sheet = "one.toml"'),
    "emptied": ("", 1, "no script of ours"),
    "a letter": ("Dear bench,\nhow are you?\n", 1, "no script of ours"),
    "a page": ("<!doctype html>\n<p>x\n", 1, "no script of ours"),
    "not UTF-8": (HEAD.encode() + '[[line]]\ncamera = "Café."\n'.encode("cp1252"), 4, "UTF-8"),
    "two bytes a sign": (ONE.encode("utf-16"), 1, "UTF-8"),
    "far too long": (ONE + "#" * 5_000_000, 1, "at most 5 MB"),
}


@pytest.fixture
def home(tmp_path):
    (tmp_path / "one.toml").write_text(small(), encoding="utf-8")
    folder = tmp_path / "out"
    folder.mkdir()
    return folder


def make(home):
    return commands.main(["make", "script", "--sheet", str(home.parent / "one.toml"), "--to", str(home)])


@pytest.mark.parametrize("name", NONSENSE)
def test_nonsense_is_told_with_its_line_and_what_to_write_in_a_script(home, capsys, name):
    text, line, told = NONSENSE[name]
    typed = text if isinstance(text, bytes) else text.encode("utf-8")
    (home / "script.toml").write_bytes(typed)
    assert make(home) == 2
    error = capsys.readouterr().err
    assert f"script.toml, line {line}," in error and told in error
    assert not re.search(r"mV|\[\[reading|record_player|\[machine", error), "the words of another kind of file"
    assert (home / "script.toml").read_bytes() == typed and [path.name for path in home.iterdir()] == ["script.toml"]


def test_a_folder_in_its_place_is_told_and_left(home, capsys):
    (home / "script.toml").mkdir()
    assert make(home) == 2 and "is a folder" in capsys.readouterr().err
    assert [path.name for path in home.iterdir()] == ["script.toml"]


def test_a_script_that_may_only_be_read_is_left_and_told_when_it_would_change(home, capsys):
    assert make(home) == 0
    script = home / "script.toml"
    before, page = script.read_bytes(), (home / "script.html").read_bytes()
    script.chmod(0o444)
    capsys.readouterr()
    assert make(home) == 0, "it stays the same"
    (home.parent / "one.toml").write_text(small("900 mV"), encoding="utf-8")
    assert make(home) == 2 and "only be read" in capsys.readouterr().err
    assert script.read_bytes() == before and (home / "script.html").read_bytes() == page


def test_a_line_that_lost_its_id_has_it_back():
    text = remake(None, sheet_of(small()))[0]
    script = remake(text.replace('id = "opening"\n', ""), sheet_of(small()))[1]
    assert script == remake(text, sheet_of(small()))[1]


def test_of_two_lines_with_one_id_the_author_s_is_kept_as_their_own():
    first, second = [line.id for line in outline(sheet_of(small()))[:2]]
    text = remake(None, sheet_of(small()))[0]
    text = changed(text.replace(f'id = "{second}"', f'id = "{first}"'), 1, camera="Mine.")
    again, script = remake(text, sheet_of(small()))
    own = next(line for line in script.lines if line.say["camera"] == "Mine.")
    assert own.id == f"{first} 2" and script.marks[own.id]
    assert {first, second} < {line.id for line in script.lines}
    assert not remake(again, sheet_of(small()))[1].marks, "told once, when it happened"


def test_a_line_without_its_digests_stays_where_it_is_and_its_words_the_author_s():
    text = remake(None, sheet_of(small()))[0]
    bare = re.sub(r"^made = .*\n", "", text, flags=re.MULTILINE)
    assert remake(bare, sheet_of(small()))[1] == remake(text, sheet_of(small()))[1]
    again, script = remake(changed(bare, 0, camera="Mine."), sheet_of(small()))
    assert script.lines[0].say["camera"] == "Mine." and "made" in script.marks[script.lines[0].id][0]
    assert len(script.lines) == len(outline(sheet_of(small()))) and remake(again, sheet_of(small()))[0] == again


def test_words_written_into_newer_are_not_thrown_away(home, capsys):
    text = changed(remake(None, sheet_of(small()))[0], 0, camera="Mine.")
    blocks = blocks_of(text)
    text = "".join(blocks[:1]) + re.sub(r"made = .*\n", 'newer = {camera = "Better."}\n\\g<0>', blocks[1]) + "".join(blocks[2:])
    (home / "script.toml").write_text(text, encoding="utf-8")
    assert make(home) == 2 and "newer" in capsys.readouterr().err
    assert (home / "script.toml").read_text(encoding="utf-8") == text


@pytest.mark.parametrize("typed, ours", [(CHAPTERS[-1].replace("’", "'"), CHAPTERS[-1]), (f" {CHAPTERS[0].upper()} ", CHAPTERS[0]), ("Thanks", "Thanks")])
def test_a_chapter_is_known_by_another_apostrophe_or_capitals(typed, ours):
    text = remake(None, sheet_of(small()))[0] + f'\n[[line]]\nchapter = "{typed}"\ncamera = "Mine."\n'
    again, script = remake(text, sheet_of(small()))
    assert script.lines[-1].chapter == ours and f'chapter = "{typed}"' in again


def test_what_is_odd_about_a_line_is_marked():
    lines = list(outline(sheet_of(small())))
    assert not line_marks(lines)
    silent = changed_line(lines, 0, say={"camera": " ", "room": "x"})
    assert "camera" in line_marks(silent)[lines[0].id][0] and len(line_marks(silent)) == 1
    assert not line_marks(changed_line(silent, 0, use=False)), "a line that is not said needs no words"
    slip = changed_line(lines, 0, chapter=CHAPTERS[0][:-1] + "x")
    assert CHAPTERS[0] in line_marks(slip)[lines[0].id][0]
    late = changed_line(lines, len(lines) - 1, chapter=CHAPTERS[0])
    assert list(line_marks(late)) == [lines[-1].id]


def changed_line(lines, place, **changes):
    line = type(lines[0])(**{**vars(lines[place]), **changes})
    return [*lines[:place], line, *lines[place + 1:]]


def blocks_of(text):
    return re.split(r"(?m)^(?=\[\[line\]\])", text)


def changed(text, place, **values):
    head, *blocks = blocks_of(text)
    document = tomlkit.parse(blocks[place])
    document["line"][0].update(values)
    return head + "".join([*blocks[:place], tomlkit.dumps(document), *blocks[place + 1:]])


class Author:
    """Somebody at an editor, who remembers what they wrote."""

    def __init__(self, text):
        self.words, self.comments, self.choices, self.count = {}, [], {}, 0
        self.take(text)

    def take(self, text):
        self.head, *self.blocks = blocks_of(text)

    @property
    def text(self):
        return self.head + "".join(self.blocks)

    def row(self, place):
        return tomllib.loads(self.blocks[place])["line"][0]

    def put(self, place, key, value):
        document = tomlkit.parse(self.blocks[place])
        document["line"][0][key] = value
        self.blocks[place] = tomlkit.dumps(document)

    def write(self, data, place):
        key = data.draw(some.sampled_from(["camera", "room", "shot", "caution"]))
        words = f"Mine {self.count}: {data.draw(WORDS)}."
        self.words.pop(self.row(place).get(key), None)
        self.words[words] = key
        self.put(place, key, tomlkit.string(words, multiline="\n" in words))

    def add(self, data, place):
        words = f"Own {self.count}: {data.draw(WORDS)}."
        self.words[words] = "camera"
        key = data.draw(some.sampled_from(["", f'id = "own {self.count}"\n', 'chapter = "Thanks"\n']))
        self.blocks.insert(place, f"[[line]]\n{key}camera = {tomlkit.string(words, multiline=chr(10) in words).as_string()}\n\n")

    def move(self, data, place):
        self.blocks.insert(data.draw(some.integers(0, len(self.blocks) - 1)), self.blocks.pop(place))

    def switch(self, data, place):
        row = self.row(place)
        if "made" in row:
            use = not row["use"]
            self.put(place, "use", use)
            self.choices.pop(row["id"], None)
            if use != row["made"]["use"]:  # else it is as it was made again
                self.choices[row["id"]] = use

    def comment(self, data, place):
        comment = f"# {self.count} {data.draw(COMMENTS)} #"
        where = data.draw(some.sampled_from(["top", "above", "header", "key", "end"]))
        self.comments.append(comment)
        block = self.blocks[place]
        if where == "top":
            self.head = f"{comment}\n{self.head}"
        elif where == "above":
            self.blocks[place] = f"{block.rstrip()}\n\n{comment}\n" if place + 1 < len(self.blocks) else f"{block}\n{comment}"
        elif where == "header":
            self.blocks[place] = block.replace("[[line]]", f"[[line]] {comment}", 1) if "[[line]]\n" in block else f"{block}{comment}\n"
        elif where == "key":
            key = data.draw(some.sampled_from(["id", "use", "made", "newer"]))
            self.blocks[place] = re.sub(rf"(?m)^({key} = [^#\n]*)$", lambda line: f"{line[1]} {comment}", block, count=1)
            if self.blocks[place] == block:
                self.comments.pop()
        else:
            self.blocks[place] = f"{block.rstrip()}\n{comment}\n\n"

    def look(self, text):
        """Whether everything of theirs is in a text."""
        rows = tomllib.loads(text).get("line", [])
        for words, key in self.words.items():
            assert any(row.get(key) == words for row in rows), words
        for comment in self.comments:
            assert comment in text, comment
        for name, use in self.choices.items():
            assert [row["use"] for row in rows if row["id"] == name] == [use], name


SIGNS = some.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp"))
WORDS = some.lists(some.text(SIGNS, max_size=25), min_size=1, max_size=3).map("\n# ".join)
COMMENTS = some.text(SIGNS, max_size=20)
SHEETS = [small(), small("900 mV"), small(""), small(cleaned="40 mV"), small("850 mV", cleaned="50 mV")]
DEEDS = ["write", "add", "move", "switch", "comment", "remake", "remake"]


@settings(max_examples=40, deadline=None)
@given(data=some.data())
def test_no_word_comment_or_choice_of_an_author_is_lost_by_any_number_of_remakes(data):
    author = Author(remake(None, sheet_of(SHEETS[0]))[0])
    for author.count in range(data.draw(some.integers(3, 12))):
        deed = data.draw(some.sampled_from(DEEDS))
        if deed == "remake":
            text, script = remake(author.text, sheet_of(data.draw(some.sampled_from(SHEETS))))
            author.look(text)
            said = {words for line in script.lines for words in (*line.say.values(), line.shot, line.caution)}
            assert set(author.words) <= said
            author.take(text)
        else:
            getattr(author, deed)(data, data.draw(some.integers(0, len(author.blocks) - 1)))
    last = sheet_of(SHEETS[0])
    text, _ = remake(author.text, last)
    author.look(text)
    again, script = remake(text, last)
    author.look(again)
    assert remake(again, last)[0] == again


def test_the_author_of_that_test_would_notice():
    """Were a word, a comment or a choice lost, it would fail."""
    author = Author(remake(None, sheet_of(SHEETS[0]))[0])
    author.words["Mine"], whole_text = "camera", author.text
    with pytest.raises(AssertionError):
        author.look(whole_text)
    author.words.clear()
    author.comments.append("# gone #")
    with pytest.raises(AssertionError):
        author.look(whole_text)


def test_the_terminal_says_what_the_page_says(home, capsys):
    text = remake(None, sheet_of(small()))[0].replace('target = "6 min"', 'target = "5 s"')
    text = changed(changed(text, 0, camera="It is definitely 12 volts."), 1, room="Mine.")
    (home / "script.toml").write_text(text, encoding="utf-8")
    (home.parent / "one.toml").write_text(small("900 mV"), encoding="utf-8")
    assert make(home) == 0
    wrote, said, *told = capsys.readouterr().out.splitlines()
    assert wrote == f"Wrote {home / 'script.html'}" and re.match(r"\d+ lines are said and \d+ left out: \d+:\d\d to a camera and \d+:\d\d to a room", said)
    after = (home / "script.toml").read_text(encoding="utf-8")
    script = remake(after, read_sheet(home.parent / "one.toml"))[1]
    assert told == list(to_look_at(script, after, name="script.toml"))
    first = script.lines[0].id
    page = (home / "script.html").read_text(encoding="utf-8")
    found = [words for line in script.lines for _, words in of_line(script, line.id)] + list(whole(script))
    assert len(found) == len(told) >= 3
    for words in found:
        assert sum(words in line for line in told) == 1 and page.count(str(escape(words))) == 1
    line = next(number for number, row in enumerate(after.splitlines(), 1) if row == f'id = "{first}"') - 1
    for sign in ("definitely", "12 volts"):
        assert any(row.startswith(f"script.toml, line {line}, “{first}”") and sign in row for row in told)


def test_newer_words_are_told_at_the_terminal():
    key = next(line.id for line in outline(sheet_of(small())) if line.claims)
    place = [line.id for line in outline(sheet_of(small()))].index(key)
    text = changed(remake(None, sheet_of(small()))[0], place, camera="It is bad.")
    after, script = remake(text, sheet_of(small("900 mV")))
    assert any("900" in words and f"“{key}”" in words and "camera" in words for words in to_look_at(script, after, name="s"))


def test_too_long_says_by_how_much_and_what_else_could_go():
    """Forty lines of one's own of eight words at 160 a minute, 3 s each, stay on: they are the author's."""
    sheet = sheet_of(small())
    text = remake(None, sheet)[0].replace('target = "6 min"', 'target = "2 min"')
    text += "".join(f'\n[[line]]\nid = "thanks {number}"\nchapter = "Thanks"\ncamera = "One two three four five six seven eight."\n' for number in range(45))
    after, script = remake(text, sheet)
    seconds = {register: total(script.lines, register, 160) for register in REGISTERS}
    register = max(seconds, key=seconds.get)
    (told,) = whole(script)
    assert f"{clock(seconds[register])} to a {register}" in told and f"{clock(seconds[register] - 120)} longer" in told
    off = re.findall(r"“([^”]+)” \(0:03\)", told)
    assert off and all(name.startswith("thanks ") for name in off)
    for name in off:
        after = after.replace(f'id = "{name}"\n', f'id = "{name}"\nuse = false\n')
    assert not whole(remake(after, sheet)[1]), "what it names is enough"


def test_the_least_weighty_line_is_the_first_that_could_go():
    """Eight words at 160 a minute are 3 s: of 9 s, one line too many for 7."""
    words = {register: "one two three four five six seven eight" for register in REGISTERS}
    lines = tuple(Line(f"weighs {weight}", CHAPTERS[0], words, weight=weight) for weight in (60, 10, 30))
    (told,) = whole(Script("machine", lines, 160, 7.0))
    assert "“weighs 10” (0:03)" in told and "weighs 30" not in told and "weighs 60" not in told


def test_one_line_that_is_far_too_long_is_named():
    text = changed(remake(None, sheet_of(small()))[0], 0, camera="word " * 10_000)
    (told,) = whole(remake(text, sheet_of(small()))[1])
    assert f"“{outline(sheet_of(small()))[0].id}” alone takes 62:30" in told  # 10 000 / 160 = 62.5 minutes


@pytest.mark.parametrize("which", [*DEMOS, "one reading"])
@pytest.mark.parametrize("target", ["30 s", "1 min", "6 min", ""])
def test_a_script_is_fitted_to_its_target_and_what_does_not_fit_is_told(which, target):
    sheet = sheet_of(MACHINE + reading("motor", "current", "1.000 A")) if which == "one reading" else demo(which)
    text = remake(None, sheet)[0] if which == "one reading" else made_of(which)
    script = remake(text.replace('target = "6 min"', f'target = "{target}"'), sheet)[1]
    seconds = {"30 s": 30, "1 min": 60, "6 min": 360, "": None}[target]
    assert script.target == seconds and {line.chapter for line in script.used} == set(CHAPTERS)
    takes = max(total(script.lines, register, 160) for register in REGISTERS)
    if seconds is None:
        assert not script.dropped and not whole(script)
    elif takes <= seconds:
        assert not whole(script)
    else:
        assert len(script.used) == len(CHAPTERS), "nothing more could go"
        assert len(whole(script)) == 1 and clock(takes) in whole(script)[0] and clock(takes - seconds) in whole(script)[0]


def test_a_chapter_whose_lines_were_all_switched_off_is_told():
    text = remake(made_of("record_player").replace('target = "6 min"', 'target = ""'), demo("record_player"))[0]
    for place, line in enumerate(outline(demo("record_player"))):
        if line.chapter == CHAPTERS[2]:
            text = changed(text, place, use=False)
    (told,) = whole(remake(text, demo("record_player"))[1])
    assert CHAPTERS[2] in told and CHAPTERS[1] not in told
    off = re.sub(r"(?m)^use = true", "use = false", remake(None, sheet_of(small()))[0])
    assert len(whole(remake(off, sheet_of(small()))[1])) == 1


FITTED = MACHINE + ('[[part]]\nname = "C7"\nkind = "capacitor"\ncapacitance = "47 uF"\nrated_voltage = "25 V"\ntolerance = "20 %"\n'
                    '[[part]]\nname = "belt"\nkind = "belt"\nsection = "square"\nthickness = "1.2 mm"\nlength = "66 mm"\nsold_as = "inside diameter"\n'
                    '[[part]]\nname = "platter"\nkind = "pulley"\nratio = 72\n'
                    '[[action]]\nname = "renewed"\nfitted = ["belt", "C7", "platter"]\n' + reading("motor", "current", "1.000 A"))


def test_what_was_fitted_is_described_so_that_it_can_be_found_and_the_rest_named():
    sheet = sheet_of(FITTED)
    fitted, bench = description(remake(None, sheet)[1], sheet).split("\n\nOn the bench\n")
    rows = fitted.partition("\nParts fitted")[2].splitlines()[1:]
    assert [row.partition(":")[0] for row in rows] == ["- belt", "- C7 (capacitor)", "- platter (pulley)"]
    assert all(words in rows[0] for words in ("square", "1.2 mm", "66 mm inside diameter"))
    assert all(words in rows[1] for words in ("47 µF", "25 V", "20 %")) and "72" in rows[2] and "72.0" not in rows[2]
    assert bench.splitlines()[:2] == ["- spring 9 (supply contact)", "- motor"] and "C7" not in bench.partition("Sources")[0]


def test_without_a_part_fitted_none_is_told():
    sheet = sheet_of(small())
    assert "Parts fitted" not in description(remake(None, sheet)[1], sheet)


def test_a_description_that_was_changed_by_hand_is_left_and_told(home, capsys):
    about = home / "script_description.txt"
    assert make(home) == 0 and "by hand" not in capsys.readouterr().out
    made = about.read_text(encoding="utf-8")
    about.write_bytes(made.replace("\n", "\r\n").encode("utf-8"))
    cleaned = small(cleaned="40 mV")
    (home.parent / "one.toml").write_text(cleaned, encoding="utf-8")
    assert make(home) == 0 and "by hand" not in capsys.readouterr().out
    renewed = about.read_text(encoding="utf-8")
    assert renewed != made, "other line ends are no change, and it was made again"
    theirs = renewed.replace("None so far.", "Spring 8, not spring 9.")
    about.write_text(theirs, encoding="utf-8")
    for sheet in (small(), cleaned, cleaned):
        (home.parent / "one.toml").write_text(sheet, encoding="utf-8")
        assert make(home) == 0 and "by hand" in capsys.readouterr().out and about.read_text(encoding="utf-8") == theirs
    about.unlink()
    assert make(home) == 0 and about.read_text(encoding="utf-8") == renewed


def test_a_description_made_in_other_words_before_is_made_again(home):
    about, page = home / "script_description.txt", home / "script.html"
    assert make(home) == 0
    made = about.read_text(encoding="utf-8")
    earlier = made.replace("the bench sheet or from a limit named here", "a reading")
    assert earlier != made
    about.write_text(earlier, encoding="utf-8")
    page.write_text(page.read_text(encoding="utf-8").replace(digest(made), digest(earlier)), encoding="utf-8")
    assert make(home) == 0 and about.read_text(encoding="utf-8") == made


@pytest.mark.parametrize("there", ["My shopping list.", b"\xff\xfe"])
def test_a_file_of_another_kind_in_the_description_s_place_is_left(home, there):
    about = home / "script_description.txt"
    there = there if isinstance(there, bytes) else there.encode()
    about.write_bytes(there)
    assert make(home) == 0 and about.read_bytes() == there and (home / "script.html").exists()


@some.composite
def chapters(draw):
    starts = sorted(draw(some.lists(some.floats(0, 120), min_size=1, max_size=8)))
    return [(f"chapter {number}", start) for number, start in enumerate(starts)]


@given(chapters())
def test_chapters_begin_at_nought_and_last_ten_seconds_as_they_are_shown(times):
    joined = long_enough(times)
    shown = [sum(60 ** place * int(part) for place, part in enumerate(reversed(clock(start).split(":")))) for _, start in joined]
    assert shown[0] == 0 and all(after - before >= 10 for before, after in zip(shown, shown[1:]))
    assert "; ".join(name for name, _ in joined) == "; ".join(name for name, _ in times)
    assert {start for _, start in joined[1:]} <= {start for _, start in times}


def test_a_chapter_is_as_long_as_its_times_are_shown():
    """9.6 s is shown as 0:10, 9.4 s as 0:09."""
    assert len(long_enough([("a", 0.0), ("b", 9.6)])) == 2 and len(long_enough([("a", 0.0), ("b", 9.4)])) == 1


def voice_times(folder, sheet):
    """Chapters as the captions write them after a voice that takes half a minute a chapter, after 1.5 s of silence."""
    script = remake(None, sheet)[1]
    spoken = [captions.Spoken("x", 1.5 + 30 * place, 31.5 + 30 * place, chapter) for place, chapter in enumerate(CHAPTERS)]
    (folder / "chapters.vtt").write_text(captions.vtt(captions.chapter_cues(spoken)), encoding="utf-8")
    return script


def test_chapter_times_come_from_the_recorded_voice(home):
    sheet = read_sheet(home.parent / "one.toml")
    script = voice_times(home, sheet)
    assert not heard_chapters(script, home), "a plan, no voice"
    voice = home / "voice.wav"
    voice.write_bytes(b"")
    old, new = 1_000_000_000, 2_000_000_000
    set_time(voice, old), set_time(home / "chapters.vtt", new)
    heard = heard_chapters(script, home)
    assert [(chapter, start) for chapter, start in heard] == [(chapter, 1.5 + 30 * place) for place, chapter in enumerate(CHAPTERS)]
    assert make(home) == 0
    about = (home / "script_description.txt").read_text(encoding="utf-8")
    assert re.findall(r"(?m)^(\d+:\d\d) ", about) == ["0:00", "0:32", "1:02", "1:32", "2:02"] and "planned" not in about
    set_time(voice, new + 1)
    assert not heard_chapters(script, home), "a voice newer than the captions"
    set_time(voice, old)
    (home / "chapters.vtt").write_text((home / "chapters.vtt").read_text(encoding="utf-8").replace(CHAPTERS[1], "Other"), encoding="utf-8")
    set_time(home / "chapters.vtt", new)
    assert not heard_chapters(script, home), "the script's chapters have changed since"
    (home / "chapters.vtt").write_bytes(b"\xff\xfe")
    set_time(home / "chapters.vtt", new)
    assert not heard_chapters(script, home)
    shutil.copy(voice, home / "voice.mp3")
    assert not heard_chapters(script, home), "which of two voices?"


def set_time(path, seconds):
    os.utime(path, (seconds, seconds))


def test_the_captions_of_a_script_give_the_chapters_it_wants(home):
    """The files that the captions write are read as they are written."""
    page = make_script(home.parent / "one.toml", home)
    make_captions(home.parent / "one.toml", home)
    (home / "voice.wav").write_bytes(b"")
    set_time(home / "voice.wav", 1_000_000_000)
    sheet = read_sheet(home.parent / "one.toml")
    heard = heard_chapters(remake((home / "script.toml").read_text(encoding="utf-8"), sheet)[1], home)
    assert [chapter for chapter, _ in heard] == list(CHAPTERS) and page.exists()


def test_markup_in_what_is_to_look_at_stays_text():
    text = changed(remake(None, sheet_of(small()))[0], 0, camera="12 <b>volts</b>", id="<script>alert(1)</script>")
    script = remake(text, sheet_of(small()))[1]
    page = script_html(script, sheet_of(small()), "")
    assert "<script" not in page and "<b>volts" not in page
