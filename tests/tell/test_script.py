"""The script: every figure traced to a judgement by a parse of its own, and nothing that an author wrote lost."""

import functools
import re
import shutil
import tomllib
from html.parser import HTMLParser

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as some

from benchreckoner import commands, project
from benchreckoner.bench.cautions import cautions_for
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.sheet import SheetError, read_sheet, read_text
from benchreckoner.tell import script_page
from benchreckoner.tell.script import CHAPTERS, REGISTERS, fit, outline, read_script, total
from benchreckoner.tell.script_file import remake
from benchreckoner.tell.script_page import clock, description, make_script, script_html
from benchreckoner.show.spoken import spoken_seconds
from benchreckoner.tell.script_words import condition_words, time_words
from benchreckoner.units import Q

DEMOS = ["record_player", "tape_player"]
NASTY = "<script>alert(1)</script> & <img src=x onerror=alert(1)> {{ 7*7 }}"
# Read here by their names alone, so that a wrong prefix or unit in the script shows.
PREFIXES = {"pico": 1e-12, "nano": 1e-9, "micro": 1e-6, "milli": 1e-3, "kilo": 1e3, "k": 1e3, "mega": 1e6, "meg": 1e6, "": 1.0}
UNITS = {"ohm": "ohm", "ohms": "ohm", "volt": "V", "volts": "V", "amp": "A", "amps": "A", "farad": "F", "farads": "F",
         "newton": "N", "newtons": "N", "newton metres": "N*m", "turns a minute": "turn/min", "degrees Celsius": "degC",
         "watt": "W", "watts": "W", "decibels": "dB", "per cent": "percent", "millimetres": "mm", "seconds": "s",
         "volt seconds per radian": "V*s/rad", "megapascals": "MPa"}
FIGURE = re.compile(r"(minus )?(\d+(?:\.\d+)?) ?([a-z]*?)(" + "|".join(sorted(UNITS, key=len, reverse=True)) + r")?(?![a-z])")


@pytest.fixture(scope="module", params=DEMOS)
def sheet(request):
    return read_sheet(project.CASES / f"{request.param}.toml")


@pytest.fixture(scope="module")
def lines(sheet):
    return outline(sheet)


@pytest.fixture(scope="module")
def made(sheet):
    return remake(None, sheet)


def figures(text):
    """(value in the plain unit, unit, half its last digit) of each number in a text."""
    for minus, number, prefix, unit in FIGURE.findall(text):
        factor = PREFIXES[prefix] * (-1 if minus else 1) if unit else 1.0
        half = 0.5 * 10.0 ** -len(number.partition(".")[2]) * abs(factor)
        yield float(number) * factor, UNITS.get(unit), half


@functools.cache
def reports_of(name):
    sheet = read_sheet(project.CASES / name)
    return judge_sheet(sheet), judge_parts(sheet)


def judged(sheet):
    chains, parts = reports_of(sheet.source)
    reports = (*chains, *parts)
    return [one for report in reports for piece in getattr(report, "chains", (report,))
            for one in (*piece.judgements, *piece.findings)]


def values_of(sheet, claim):
    """Everything that the judgements and comparisons behind a claim know, as plain numbers with their units."""
    for one in judged(sheet):
        if (one.part, one.quantity, one.stage, one.condition) == (claim.part, claim.quantity, claim.stage, claim.condition):
            yield 100 * one.verdict.probability, "percent", 0.0
            for known in filter(None, (one.known, one.as_read, one.gain and one.gain.volts)):
                yield known.plain, known.unit, 2 * known.number.std_dev
            for name in ("sound_up_to", "bad_from", "sound_down_to", "bad_down_from"):
                if one.band is not None and (edge := getattr(one.band, name)) is not None:
                    yield float(edge.m_as(one.band.unit)), one.band.unit, 0.0
    for one in (change for reports in reports_of(sheet.source) for change in comparisons(reports)):
        for stage, known in ((one.before_stage, one.before), (one.after_stage, one.after)):
            if (one.part, one.quantity, stage, one.condition) == (claim.part, claim.quantity, claim.stage, claim.condition):
                yield known.plain, known.unit, 2 * known.number.std_dev


def traced(sheet, claim):
    """Whether each figure of a claim is a value of its judgement, its uncertainty, a limit, or how sure it is."""
    if claim.quantity == "time":
        action = next(action for action in sheet.actions if action.name == claim.stage)
        number, unit = claim.text.split(" ")
        return any(float(number) == time.m_as(unit) for time in (action.took, action.planned) if time is not None)
    known = list(values_of(sheet, claim))
    reasons = " ".join(f"{one.reason} {one.next}" for one in judged(sheet) if one.part == claim.part)
    if claim.text.rstrip(".") in reasons:
        return True
    if "no more than about" in claim.text:
        return any(abs(value - (its + spread)) <= 0.011 * value for value, unit, _ in figures(claim.text)
                   for its, its_unit, spread in known if unit == its_unit)
    if "give or take" in claim.text:
        (value, unit, _), (spread, _, half) = figures(claim.text)
        scale = re.search(r"[\d.]+ ([a-z]*?)(?:ohm|volt|amp|farad|newton|turn|watt|degree|decibel|millimetre|second|megapascal|per cent)", claim.text)[1]
        factor = PREFIXES.get(scale, 1.0)
        return any(unit == its_unit and abs(value - its) <= 0.2501 * its_spread and abs(spread * factor - its_spread) <= half * factor + 1e-15
                   for its, its_unit, its_spread in known)
    if "more than 99.9 per cent" in claim.text:
        return any(its > 99.9 and unit == "percent" for its, unit, _ in known)
    return all(any(unit == its_unit and abs(value - its) <= max(half, 0.006 * abs(its)) for its, its_unit, _ in known)
               for value, unit, half in figures(claim.text))


def without_names(sheet, text):
    names = [sheet.machine.name, *sheet.parts, *sheet.instruments, *sheet.stages, *(one.what for one in sheet.symptoms),
             *(one.what for one in sheet.observations), *(one.place for one in sheet.settings), *(thing for action in sheet.actions for thing in action.taken_off)]
    for name in sorted(names, key=len, reverse=True):
        text = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", "…", text, flags=re.IGNORECASE)
    return text


def test_every_figure_is_traced_to_a_judgement(sheet, lines):
    for line in lines:
        for claim in line.claims:
            if claim.quantity != "tries":
                assert traced(sheet, claim), (line.id, claim)
        for words in line.say.values():
            for claim in sorted(line.claims, key=lambda claim: -len(claim.text)):
                words = words.replace(claim.text, "").replace(f"{claim.text[:1].lower()}{claim.text[1:]}", "")
            assert not re.search(r"\d", without_names(sheet, words)), (line.id, words)
    assert sum(len(line.claims) for line in lines) > 20


def test_the_trace_itself_can_fail(sheet, lines):
    """A figure a tenth off, another stage, or another part is caught."""
    claim = next(claim for line in lines for claim in line.claims if "give or take" in claim.text)
    value = re.match(r"about (\d+(?:\.\d+)?)", claim.text)[1]
    wrong = claim.text.replace(value, str(round(1.1 * float(value), 3)), 1)
    assert traced(sheet, claim)
    assert not traced(sheet, type(claim)(wrong, claim.part, claim.quantity, claim.stage, claim.condition))
    assert not traced(sheet, type(claim)(claim.text, claim.part, claim.quantity, "another stage", claim.condition))
    assert not traced(sheet, type(claim)(claim.text.replace("milli", "micro").replace("ohms", "volts"), "nobody", claim.quantity,
                                         claim.stage, claim.condition))


def test_a_sentence_is_short_enough_to_say(sheet, lines):
    lengths = [len(sentence.split()) for line in lines for words in line.say.values() for sentence in re.split(r"(?<=[.:])\s", words)]
    assert max(lengths) <= 28 and sum(length <= 20 for length in lengths) / len(lengths) > 0.9


def test_every_chapter_has_a_line_and_every_line_its_own_id(lines):
    assert [chapter for chapter in CHAPTERS if any(line.chapter == chapter for line in lines)] == list(CHAPTERS)
    assert len({line.id for line in lines}) == len(lines)
    assert all(set(line.say) == set(REGISTERS) and all(line.say.values()) for line in lines)


def test_every_caution_of_the_sheet_stands_in_the_script_whatever_is_dropped(sheet, made):
    """What a short script leaves out, its cautions do not leave with it."""
    text = made[0].replace('target = "6 min"', 'target = "20 s"')
    script = remake(text, sheet)[1]
    assert len(script.dropped) > len(script.used)
    told = "\n".join(line.caution for line in script.used)
    assert all(one.words in told for one in cautions_for(sheet))


def test_a_caution_stands_before_the_step_it_protects():
    said = outline(read_sheet(project.CASES / "record_player.toml"))
    held = next(place for place, line in enumerate(said) if "held" in line.shot)
    assert any("at most 2 s at a time" in line.caution for line in said[:held + 1])
    work = [line for line in said if line.id.startswith("done: ")]
    assert len(work) == 3 and all("take the cells out" in line.caution for line in work)
    assert "up to 63 V" in said[0].caution


def test_a_lifted_leg_has_the_iron_s_cautions_before_it_and_applied_volts_theirs():
    """The tape player's C4 is read with a leg lifted, and C2 leaks under 12 V, long before a belt is fitted."""
    said = outline(read_sheet(project.CASES / "tape_player.toml"))
    lifted = next(line for line in said if line.id.endswith("lifted"))
    assert "Old solder holds lead" in lifted.caution and "take the cells out" in lifted.caution
    leaks = next(place for place, line in enumerate(said) if "leakage" in line.id)
    assert any("never solid tantalum" in line.caution for line in said[:leaks + 1])


def test_no_shot_holds_a_probe_to_what_turns():
    shots = {line.id: line.shot for demo in DEMOS for line in outline(read_sheet(project.CASES / f"{demo}.toml"))}
    slip = next(shot for key, shot in shots.items() if key.startswith("judged: flywheel"))
    assert slip == "close-up of the flywheel, the machine playing"
    assert not any("probes at" in shot for key, shot in shots.items() if any(word in key for word in ("speed", "torque", "stretch", "pattern")))
    assert any("probes at C4" in shot for shot in shots.values())


def test_figures_to_hold_against_each_other_are_heard_in_one_unit():
    """0.78 against 1.28 millinewton metres; but 54 milliohms are not made 0.054 ohms."""
    said = {"".join(line.id.split(",")[:2]): line.say["camera"] for line in outline(read_sheet(project.CASES / "record_player.toml"))}
    torque = said["changed: motor torque of belt and bearings"]
    assert "about 0.78 millinewton metres, give or take 0.056" in torque and "1.28 millinewton metres, give or take 0.058" in torque
    assert said["limit: motor torque of belt and bearings"].startswith("Up to 0.92 millinewton metres is sound, and 1.1 millinewton metres")
    assert "no more than about 54 milliohms" in said["changed: phono jack resistance"]
    assert said["limit: phono jack resistance"].startswith("Up to 50 milliohms is sound, and 1 ohm")


def test_a_part_read_in_between_is_not_said_to_be_unread():
    """The motor's current was read held after the springs, so that nobody read it is not true."""
    said = next(line for line in outline(read_sheet(project.CASES / "record_player.toml")) if line.id.startswith("which action: motor")).say["room"]
    assert said.startswith("Between these readings of the motor, three things were done: “springs cleaned”,") and "Nobody" not in said


def test_the_demo_tells_its_spring_and_which_action_cured_it():
    """821.0 mV at 993 mA are 826.8 milliohms; 39.2 afterwards; only the cleaning lies between."""
    said = {line.id: line.say["camera"] for line in outline(read_sheet(project.CASES / "record_player.toml"))}
    assert "about 827 milliohms, give or take 13" in said["judged: spring 3, resistance, as found, held"]
    assert "about 39.2 milliohms" in said["changed: spring 3, resistance, as found, springs cleaned, held"]
    assert said["which action: spring 3, springs cleaned"] == "Between these readings of spring 3, one thing was done: “springs cleaned”."
    both = said["which action: phono jack, springs cleaned, jack and control worked"]
    assert "One of these two, or both, changed it" in both and "cannot say which" in both
    assert "no more than about 54 milliohms" in said["changed: phono jack, resistance, as found, jack and control worked, off"]


def test_mending_the_spring_is_said_to_win_back_what_the_divider_gives():
    """6.81 V reach the motor at 993 mA behind 776.8 milliohms above the sound limit; 6.86 ohms more or less is the motor itself."""
    said = {line.id: line.say["camera"] for line in outline(read_sheet(project.CASES / "record_player.toml"))}
    motor, above, off = 6.8077 / 0.993, 0.8268 - 0.050, 9.14
    won = off * (motor / (off / 0.993 - above) - motor / (off / 0.993))
    value, unit, half = next(figures(said["costs: spring 3, resistance, as found, held"]))
    assert unit == "V" and value == pytest.approx(won, rel=0.01)
    assert said["costs: spring 3, resistance, as found, held"].startswith("With the motor held, mending it would win back about")


def test_why_a_reading_tells_anything_is_said_once_and_before_it(sheet, lines):
    ids = [line.id for line in lines]
    whys = [line for line in lines if line.id.startswith("how it tells")]
    assert len(whys) >= 2 and len({line.say["camera"] for line in whys}) == len(whys)
    assert all(lines[ids.index(why.id) + 1].id.startswith("judged: ") for why in whys)


def test_common_practice_is_named_whatever_is_dropped_and_other_marks_beside_their_limit(sheet, made, lines):
    assert "common practice" in next(line for line in lines if line.id == "whose limits").say["camera"]
    limits = {line.id: line.say["camera"] for line in lines if line.id.startswith("limit: ")}
    assert all("published" in words for key, words in limits.items() if "leakage" in key)
    assert not any("practice" in words for words in limits.values())
    shorter = fit(lines, target=150, words_per_minute=160)
    used = {line.id for line in shorter if line.use}
    assert "whose limits" in used or not any(key.startswith("limit: ") for key in used)


def test_a_verdict_less_sure_says_so_and_a_surer_one_does_not_repeat_it(lines, sheet):
    by_key = {(one.part, one.quantity, one.stage, one.condition): one for one in judged(sheet) if one.known is not None}
    heard = 0
    for line in lines:
        if line.id.startswith("judged: ") and line.claims[0].text.startswith(("about", "no more")):
            claim = line.claims[0]
            one = by_key[claim.part, claim.quantity, claim.stage, claim.condition]
            assert ("sure of that" in line.say["camera"]) == (one.verdict.probability <= 0.99), line.id
            heard += 1
    assert heard >= 5


def test_how_long_the_work_took_is_said_in_minutes_that_were_typed():
    said = {line.id: line.say["camera"] for line in outline(read_sheet(project.CASES / "record_player.toml"))}
    assert said["time: springs cleaned"] == "That took 35 minutes. Planned were 20 minutes."


def test_where_a_trimmer_stood_and_was_left_is_said_with_its_own_numbers_unmarked():
    place = "2.5 turns from the left stop"
    more = '[[action]]\nname = "cleaned"\n' + "".join(
        f'[[setting]]\npart = "motor"\nwhat = "speed trimmer"\nplace = "{words}"\nstage = "{stage}"\n'
        for words, stage in (("not turned", "cleaned"), (place, "as found")))
    sheet = one_spring(more=more)
    text, script = remake(None, sheet)
    said = next(line for line in script.lines if line.id == "setting: motor, speed trimmer").say["camera"]
    assert said == f"The speed trimmer of the motor was found like this: “{place}”. And left like this: “not turned”."
    assert not remake(edited(text, "opening", camera=said), sheet)[1].marks.get("opening")


def test_ohms_are_said_without_what_the_machine_was_doing(lines):
    ohms = [line.say["camera"] for line in lines if line.id.startswith(("judged: ", "changed: ")) and ", resistance," in line.id]
    assert not any("while" in words or "held" in words for words in ohms)
    currents = [line.say["camera"] for line in lines if line.id.startswith("changed: motor, current,")]
    assert currents and all("while it played, " in words.lower() for words in currents)


@pytest.mark.parametrize("time, words", [(Q(1, "min"), "1 minute"), (Q(40, "s"), "40 seconds"), (Q(0.5, "h"), "30 minutes"), (Q(3, "h"), "3 hours"),
                                         (Q(90, "min"), "90 minutes")])
def test_a_time_is_said_in_the_unit_that_people_use(time, words):
    assert time_words(time) == words


@pytest.mark.parametrize("condition, words", [("playing", "while it played, "), ("playing, after 30 min", "while it played, after 30 min, "),
                                               ("no load", "with the belt off, "), ("lifted", "")])
def test_what_the_machine_was_doing_is_said_before_the_figure(condition, words):
    assert condition_words(condition) == words


SMALL = ('version = 1\n[machine]\nname = "Garden player"\n[[instrument]]\nname = "meter"\naccuracy = "0.5 % + 0.2 mV"\n'
         '[[instrument]]\nname = "ammeter"\naccuracy = "1 % + 1 mA"\n'
         '[[part]]\nname = "cells"\nkind = "cells"\nchemistry = "alkaline"\ncount = 6\n'
         '[[part]]\nname = "spring 9"\nkind = "supply contact"\n[[part]]\nname = "motor"\nkind = "motor"\n')


def reading(part, quantity, value, condition="held", stage="as found"):
    meter = "ammeter" if quantity == "current" else "meter"
    return (f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\n'
            f'instrument = "{meter}"\nstage = "{stage}"\ncondition = "{condition}"\n')


def one_spring(drop="800 mV", *, more=""):
    return read_text(SMALL + more + reading("motor", "current", "1.000 A") + reading("spring 9", "voltage drop", drop), source="one.toml")


def test_a_sheet_with_one_reading_or_none_makes_a_whole_script():
    for text in (SMALL, SMALL + reading("motor", "current", "1.000 A"), "version = 1"):
        sheet = read_text(text, source="one.toml")
        again, script = remake(None, sheet)
        assert {line.chapter for line in script.used} == set(CHAPTERS) and remake(again, sheet)[0] == again
        assert "<h1>" in script_html(script, sheet, description(script, sheet))
        assert not any("Give or take" in line.say["camera"] for line in script.lines)  # no figure says it
    assert any("do not suffice" in line.say["camera"] for line in remake(None, read_text(SMALL + reading("motor", "current", "1.000 A")))[1].used)


def test_markup_in_names_appears_as_text():
    text = (SMALL.replace("Garden player", NASTY).replace("spring 9", NASTY)
            + f"[[action]]\nname = '{NASTY} done'\ntaken_off = ['{NASTY}']\n[[symptom]]\nwhat = '{NASTY}'\nstage = 'as found'\n"
            + reading("motor", "current", "1.000 A") + reading(NASTY, "voltage drop", "800 mV"))
    sheet = read_text(text)
    script = remake(None, sheet)[1]
    page = script_html(script, sheet, description(script, sheet))

    class Tags(HTMLParser):
        found, text = set(), ""

        def handle_starttag(self, tag, attributes):
            self.found.add(tag)
            assert not any(name.startswith("on") or name in ("src", "href") for name, _ in attributes)

        def handle_data(self, text):
            Tags.text += text

    Tags().feed(page)
    assert not Tags.found & {"script", "img"} and "{{ 7*7 }}" in Tags.text and "<script>alert(1)</script>" in Tags.text


def test_sources_are_told_in_words_a_viewer_knows(sheet, made):
    about = description(made[1], sheet)
    assert not re.search(r"FOUND|MEMORY|PRACTICE|RECOMPUTED", about) and "(common practice)" in about


def test_a_page_asks_for_nothing_outside(sheet, made):
    page = script_html(made[1], sheet, description(made[1], sheet))
    assert "default-src 'none'" in page and not re.search(r"https?:|<script|<link|url\(", page)
    assert page.index("Bench Reckoner, script") < 1000


def test_made_again_it_stays_the_same_byte_for_byte(sheet, made):
    assert remake(made[0], sheet)[0] == made[0] and tomllib.loads(made[0])["target"] == "6 min"


def test_it_is_fitted_to_its_target_by_the_least_weighty_lines(sheet, lines):
    for seconds in (90, 180, 300):
        said = fit(lines, target=seconds, words_per_minute=160)
        dropped, kept = ([line for line in said if line.use == use] for use in (False, True))
        assert all(total(said, register, 160) <= seconds for register in REGISTERS)
        assert {line.chapter for line in kept} == set(CHAPTERS)
        alone = {chapter for chapter in CHAPTERS if sum(line.chapter == chapter for line in kept) == 1}
        assert max(line.weight for line in dropped) <= min(line.weight for line in kept if line.chapter not in alone)
    assert all(line.use for line in fit(lines, target=None, words_per_minute=160))


def test_the_shortest_script_still_tells_what_is_not_known(sheet, made):
    script = remake(made[0].replace('target = "6 min"', 'target = "20 s"'), sheet)[1]
    (unsure,) = [line.id for line in script.used if line.chapter == CHAPTERS[-1]]
    assert unsure.startswith(("left: ", "untold: "))


def test_time_goes_down_as_the_rate_goes_up():
    assert spoken_seconds("one two three", 60) == pytest.approx(3) and spoken_seconds("one two three", 180) == pytest.approx(1)
    with pytest.raises(ValueError, match="words_per_minute"):
        spoken_seconds("one", 0)
    assert clock(59.6) == "1:00"


@pytest.mark.parametrize("number, words", [
    ("0", 1), ("7", 1), ("13", 1), ("39", 2), ("40", 1), ("100", 2), ("830", 4), ("827", 5), ("1000", 2), ("2380", 6), ("2005", 4),
    ("0.63", 4), ("39.2", 4), ("1,5", 3)])
def test_a_number_counts_as_the_words_that_are_said(number, words):
    """Counted by hand: eight hundred and thirty; two thousand three hundred and eighty; nought point six three."""
    assert spoken_seconds(number, 60) == pytest.approx(words)


def edited(text, line_id, **changes):
    document = tomlkit.parse(text)
    for row in document["line"]:
        if row["id"] == line_id:
            row.update(changes)
    return tomlkit.dumps(document)


def test_words_and_comments_of_the_author_survive():
    sheet = one_spring()
    text = edited(remake(None, sheet)[0], "opening", camera="Look at this old thing.")
    text = text.replace('[[line]]\nid = "judged', '# my reminder: speak slowly\n[[line]]\nid = "judged')
    text += '\n[[line]]\nchapter = "Thanks"\ncamera = "Thank you, Aunt."\nmood = "warm"\n# the end\n'
    again, script = remake(text, sheet)
    assert script.used[0].say["camera"] == "Look at this old thing." and script.used[0].say["room"].startswith("On the table")
    own = script.lines[-1]
    assert own.say == {"camera": "Thank you, Aunt.", "room": "Thank you, Aunt."} and own.chapter == "Thanks" and own.id == "own 1"
    place = again.index("# my reminder: speak slowly\n[[line]]\n")
    assert again[place:].split("\n")[2].startswith('id = "judged') and "# the end" in again and 'mood = "warm"' in again
    assert remake(again, sheet)[0] == again and not script.marks and not script.newer


def test_a_line_switched_on_or_off_by_hand_stays_so():
    sheet = read_sheet(project.CASES / "record_player.toml")
    text = remake(None, sheet)[0]
    script = remake(edited(edited(text, "instruments", use=True), "done: springs cleaned", use=False), sheet)[1]
    use = {line.id: line.use for line in script.lines}
    assert use["instruments"] and not use["done: springs cleaned"]
    assert "Unplug the adapter" in next(line for line in script.used if line.id == "taken off: springs cleaned").caution


def test_a_changed_reading_renews_an_untouched_line():
    text = remake(None, one_spring("800 mV"))[0]
    script = remake(text, one_spring("900 mV"))[1]
    assert "about 900 milliohms" in next(line for line in script.lines if line.id.startswith("judged")).say["camera"]
    assert not script.marks and not script.newer


def test_a_changed_reading_marks_an_edited_line_and_shows_both():
    key = "judged: spring 9, resistance, as found, held"
    text = edited(remake(None, one_spring("800 mV"))[0], key, camera="A whole 800 milliohms, give or take 9!")
    sheet = one_spring("900 mV")
    again, script = remake(text, sheet)
    line = next(line for line in script.lines if line.id == key)
    assert line.say["camera"] == "A whole 800 milliohms, give or take 9!" and "about 900 milliohms" in line.say["room"]
    assert "about 900 milliohms" in script.newer[key]["camera"] and any("changed since" in mark for mark in script.marks[key])
    assert any("“800 milliohms” stands in no reading" in mark for mark in script.marks[key])
    page = script_html(script, sheet, "")
    assert "A whole 800 milliohms" in page and "By the readings now (camera)" in page
    assert remake(again, sheet)[0] == again and "newer" in again
    looked = re.sub(r"newer = .*\n", "", again)
    assert key not in remake(looked, sheet)[1].newer, "deleting newer says that the author has looked"


def test_a_line_whose_readings_are_gone_is_kept():
    key = "judged: spring 9, resistance, as found, held"
    text = remake(None, one_spring())[0]
    bare = read_text(SMALL + reading("motor", "current", "1.000 A"), source="one.toml")
    gone, script = remake(text, bare)
    assert key in gone and key not in {line.id for line in script.used} and "switched off" in script.marks[key][0]
    assert key in {line.id for line in remake(gone, one_spring())[1].used}, "and comes back with its reading"
    script = remake(edited(text, key, camera="Mine."), bare)[1]
    assert "Mine." in {line.say["camera"] for line in script.used} and "no longer carry" in script.marks[key][0]


@pytest.mark.parametrize("words, marked", [
    ("Spring 9 lost 800 millivolts at 1 amp.", ()), ("It is 0.8 Ω, give or take 10.", ()), ("Six cells.", ()),
    ("It is 700 milliohms.", ("“700 milliohms”",)), ("It plays 25 per cent louder.", ("“25 per cent”",)),
    ("It is definitely cured.", ("“definitely”",)), ("I paid 12 for it.", ("“12”",)), ("800 volts", ("“800 volts”",))])
def test_a_claim_that_nothing_carries_is_marked_and_explained(words, marked):
    sheet = one_spring()
    script = remake(edited(remake(None, sheet)[0], "opening", camera=words), sheet)[1]
    found = script.marks.get("opening", ())
    assert len(found) == len(marked) and all(word in mark for word, mark in zip(marked, found))


def test_the_script_itself_is_carried(sheet, made):
    """No made line would be marked if its author had written it."""
    text = re.sub(r"^(?:made|id) = .*\n", "", made[0], flags=re.MULTILINE)
    script = remake(text, sheet)[1]
    assert sum(line.id.startswith("own ") for line in script.lines) > 30 and not script.marks


@pytest.mark.parametrize("wrong, told", [
    ('version = 1\nsheet = "one.toml"\n[[line]]\nid = "opening\n', "line 4"),
    ('version = 1\nsheet = "one.toml"\n[[line]]\nid = "a"\ncamera = 3\n', "line 5"),
    ('version = 1\nsheet = "one.toml"\n[line]\ncamera = "x"\n', "double brackets"),
    ('version = 1\nsheet = "one.toml"\nline = [{ camera = "x" }]\n', "double brackets"),
    ('version = 1\nsheet = "one.toml"\n[[line]]\nid = "a"\n', "is missing"),
    ('version = 1\nsheet = "one.toml"\ntarget = "soon"\n', "target"), ('version = 1\nsheet = "one.toml"\ntarget = 6\n', "target"),
    ('version = 1\nsheet = "one.toml"\ntarget = "-1 min"\n', "target"), ('version = 1\nsheet = "one.toml"\nwords_per_minute = 0\n', "40 to 400"),
    ('version = 9\nsheet = "one.toml"\n', "newer"), ('version = 1\nsheet = "other.toml"\n', "other.toml"), ("a = 1\n", "no script of ours"),
    ('version = 1\nsheet = "one.toml"\n[[line]]\ncamera = "x"\nuse = "no"\n', "true or false")])
def test_a_script_edited_into_nonsense_is_told_and_left(tmp_path, wrong, told, capsys):
    (tmp_path / "one.toml").write_text(SMALL, encoding="utf-8")
    home = tmp_path / "out"
    home.mkdir()
    (home / "script.toml").write_text(wrong, encoding="utf-8")
    assert commands.main(["make", "script", "--sheet", str(tmp_path / "one.toml"), "--to", str(home)]) == 2
    error = capsys.readouterr().err
    assert told in error and "script.toml" in error
    assert (home / "script.toml").read_text(encoding="utf-8") == wrong and sorted(path.name for path in home.iterdir()) == ["script.toml"]


@pytest.mark.parametrize("name", DEMOS)
def test_make_script_writes_all_and_read_script_reads_it(tmp_path, name, capsys):
    sheet_path = tmp_path / f"{name}.toml"
    shutil.copy(project.CASES / f"{name}.toml", sheet_path)
    home = tmp_path / "out"
    for _ in range(2):
        assert commands.main(["make", "script", "--sheet", str(sheet_path), "--to", str(home)]) == 0
        assert "script.html" in capsys.readouterr().out
    assert sorted(path.name for path in home.iterdir()) == ["script.html", "script.toml", "script_description.txt"]
    sheet = read_sheet(sheet_path)
    script = read_script(home / "script.toml", sheet)
    assert script == read_script(home / "none.toml", sheet) and script.target == 360
    assert all(total(script.lines, register, script.words_per_minute) <= 360 for register in REGISTERS)
    about = (home / "script_description.txt").read_text(encoding="utf-8")
    times = re.findall(r"^(\d+):(\d\d) (.+)$", about, re.MULTILINE)
    assert [chapter for *_, chapter in times] == list(CHAPTERS) and times[0][:2] == ("0", "00")
    assert all(f"- {part}" in about for part in sheet.parts) and "Corrections" in about and "common practice" in about


def test_what_is_no_script_of_ours_is_left(tmp_path):
    (tmp_path / "one.toml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "script.html").write_text("mine", encoding="utf-8")
    with pytest.raises(OSError, match="was left as it is"):
        make_script(tmp_path / "one.toml", tmp_path)
    assert (tmp_path / "script.html").read_text(encoding="utf-8") == "mine" and not (tmp_path / "script.toml").exists()


def test_a_file_that_its_author_saves_meanwhile_is_left(tmp_path, monkeypatch):
    (tmp_path / "one.toml").write_text(SMALL, encoding="utf-8")
    make_script(tmp_path / "one.toml", tmp_path)
    home = tmp_path / "script.toml"
    (tmp_path / "one.toml").write_text(SMALL + reading("motor", "current", "1.000 A"), encoding="utf-8")
    monkeypatch.setattr(script_page, "put_pages", lambda *pages, **more: home.write_text("# mine\n", encoding="utf-8"))
    with pytest.raises(OSError, match="was changed while"):
        make_script(tmp_path / "one.toml", tmp_path)
    assert home.read_text(encoding="utf-8") == "# mine\n"


def test_windows_line_ends_and_a_byte_order_mark_are_welcome():
    sheet = one_spring()
    text = "\ufeff" + edited(remake(None, sheet)[0], "opening", camera="Mine.").replace("\n", "\r\n")
    again, script = remake(text, one_spring("900 mV", more='[[action]]\nname = "cleaned"\n'))
    assert script.used[0].say["camera"] == "Mine." and "\n" not in again.replace("\r\n", "")
    assert any(line.id == "done: cleaned" for line in script.lines)


WORDS = some.text(some.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=60)
COMMENTS = some.text(some.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp")), max_size=30)


@settings(max_examples=25, deadline=None)
@given(data=some.data())
def test_whatever_an_author_does_nothing_is_lost(data):
    """Lines edited, added, doubled, moved and commented: every word of theirs is there after two remakes and a new reading."""
    sheet = one_spring()
    text, script = remake(None, sheet)
    head, *blocks = re.split(r"(?m)^(?=\[\[line\]\])", text)
    kept = []
    for _ in range(data.draw(some.integers(1, 4))):
        what = data.draw(some.sampled_from(["edit", "own", "comment", "move", "double"]))
        place = data.draw(some.integers(0, len(blocks) - 1))
        words = data.draw(WORDS)
        if what == "edit":
            document = tomlkit.parse(blocks[place])
            document["line"][0]["camera"] = f"{words}."
            blocks[place] = tomlkit.dumps(document)
        elif what == "own":
            blocks.insert(place, tomlkit.dumps({"line": [{"room": f"{words}!"}]}) + "\n")
        elif what == "comment":
            comment = f"# {data.draw(COMMENTS)} #"
            kept.append(comment)
            blocks[place] = f"[[line]] {comment}\n{blocks[place].partition(chr(10))[2]}{comment}\n"
        elif what == "move":
            blocks.insert(place, blocks.pop(data.draw(some.integers(0, len(blocks) - 1))))
        else:
            blocks.insert(place, blocks[data.draw(some.integers(0, len(blocks) - 1))])
    typed = head + "".join(blocks)
    theirs = {row[key] for row in tomllib.loads(typed)["line"] for key in ("camera", "room") if key in row and "made" not in row or
              key in row and row[key] not in {words for line in script.lines for words in line.say.values()}}
    again, _ = remake(typed, sheet)
    assert remake(again, sheet)[0] == again
    later, told = remake(again, one_spring("850 mV"))
    said = {words for line in told.lines for words in line.say.values()}
    assert theirs <= said and all(comment in later for comment in kept)
    assert len({line.id for line in told.lines}) == len(told.lines) and len(told.lines) >= len(blocks)
    script_html(told, sheet, description(told, sheet))


@settings(max_examples=40, deadline=None)
@given(rubbish=some.text(max_size=200), place=some.integers(0, 3000))
def test_any_text_is_read_or_told(rubbish, place):
    sheet = one_spring()
    text = remake(None, sheet)[0]
    try:
        again, _ = remake(text[:place] + rubbish + text[place:], sheet)
    except SheetError as error:
        assert "script.toml, line" in str(error)
    else:
        assert remake(again, sheet)[0] == again
