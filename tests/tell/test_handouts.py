"""Handouts and keys: each answer reckoned again from what the page itself prints, by formulas written out here."""

import math
import re
from html import unescape

import pytest

from benchreckoner import project
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.workshop_stations import MOST_TABLES, STATIONS, problems
from benchreckoner.tell.workshop import new_settings, pages

DEMO = read_sheet(project.CASES / "record_player.toml")
TEXT = new_settings(DEMO)
PREFIX = {"": 1, "n": 1e-9, "µ": 1e-6, "m": 1e-3, "k": 1e3, "M": 1e6}
VALUE = re.compile(r"([-−]?[\d.]+) ?([nµmkM]?)(N·m|V·s/rad|Hz|Pa|V|A|Ω|F|m|N|W|%)$")


def plain(text):
    """A printed value in plain units; per cent as a fraction."""
    text = text.strip().replace("−", "-")
    if text.endswith(" mm²"):
        return float(text.removesuffix(" mm²")) * 1e-6
    if re.fullmatch(r"-?[\d.]+", text):
        return float(text)
    found = VALUE.fullmatch(text)
    number = float(found[1])
    if found[3] == "%":
        return number / 100
    return number * PREFIX[found[2]]


def words(html):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def read_page(text):
    """Each sheet of a page: its name, and for each exercise its heading, the given values and the whole of it."""
    found = {}
    for part in re.findall(r'<section class="sheet \w+" id="([^"]+)">(.*?)</section>', text, re.DOTALL):
        exercises = re.findall(r'<div class="exercise">(.*?)</div>', part[1], re.DOTALL)
        found[part[0]] = [(re.search(r"<h2>(.*?)</h2>", one, re.DOTALL)[1],
                           [plain(words(cell)) for cell in re.findall(r"<tr><td>.*?</td><td>(.*?)</td></tr>", one, re.DOTALL)],
                           one) for one in exercises]
    return found


def lost_volts(volts, amps):
    return (volts, amps, volts / amps), (amps / volts, volts * amps)


def held(supply, cells, spring, motor):
    loop = cells + spring + motor
    left = supply * motor / loop
    return (loop, supply / loop, left), (supply - left, supply * motor / (spring + motor), supply * motor / (cells + motor))


def charged(farads, leak, source):
    share = leak / (leak + source)
    wait = -math.log(1 - (1 - math.exp(-1)) / share)
    return (share, wait, farads * share * wait), (farads, farads / share, farads * wait, farads * share)


def leaks(shown, resistor, meter):
    through, beside = shown / resistor, shown / meter
    return (through, beside, through + beside), (through, through - beside, shown / (resistor + meter))


def torque(amps, idle, constant):
    return (amps - idle, constant * (amps - idle)), (constant * amps, constant * idle, constant * (amps + idle))


def least(volts, ohms, source, drop, amps):
    motor, lost = volts + ohms * amps, source * amps
    return (motor, lost, motor + lost + drop), (motor + drop, motor + lost, volts + drop + lost)


def path(thread, cord, side):
    lift = side / 2 - cord / 2
    return (lift, 2 * math.pi * lift, thread + 2 * math.pi * lift), (thread, thread - 2 * math.pi * lift, thread + math.pi * side)


def pull(side, modulus, stretch):
    ratio = 1 + stretch
    bracket = ratio - 1 / ratio**2
    newtons = side**2 * modulus / 3 * bracket
    return (side**2, bracket, newtons), (side**2 * modulus * stretch, 3 * newtons, newtons / (1000 * side))


# Of each exercise what every step gives, the last being the answer, and what the slips give.
SUMS = {"lost-volts": (lost_volts, held), "leaky-capacitor": (charged, leaks), "motor-and-governor": (torque, least), "belts": (path, pull)}


def made(**changes):
    text = TEXT
    for key, value in changes.items():
        text = re.sub(rf"^{key} = \d+", f"{key} = {value}", text, flags=re.MULTILINE)
    return pages(DEMO, text)


def test_the_keys_answer_the_handouts_own_numbers():
    pack = made(tables=12, minutes=120, seed=7)
    handouts, keys = read_page(pack["workshop_handouts.html"]), read_page(pack["workshop_keys.html"])
    assert list(handouts) == list(keys) and len(handouts) == 12 * 4
    for name, exercises in handouts.items():
        for place, (_, given, _) in enumerate(exercises):
            heading, again, _ = keys[name][place]
            assert again == given
            *_, expected = SUMS[name.split("-", 2)[2]][place](*given)[0]
            assert plain(words(heading).split(": ")[1]) == pytest.approx(expected, rel=0.012), (name, place)


@pytest.mark.parametrize("seed", [1, 2])
def test_every_number_of_the_keys_by_another_sum(seed):
    """Steps and slips too. What is printed has three digits or more, so they agree within one in the last of three."""
    keys = read_page(made(tables=12, minutes=120, seed=seed)["workshop_keys.html"])
    for name, exercises in keys.items():
        for place, (_, given, whole) in enumerate(exercises):
            steps, slips = SUMS[name.split("-", 2)[2]][place](*given)
            printed = [plain(words(one)) for one in re.findall(r"<li>(?:(?!</li>).)*<strong>([^<]*)</strong></li>", whole)]
            assert printed == pytest.approx(list(steps), rel=0.009), (name, place)
            wrong = [plain(words(one)) for one in re.findall(r"<li><strong>(.*?)</strong>: ", whole)]
            left = iter(slips)
            assert wrong and all(any(one == pytest.approx(slip, rel=0.012) for slip in left) for one in wrong), (name, place)


@pytest.mark.parametrize("station", STATIONS.values(), ids=STATIONS)
def test_two_hundred_seeds_are_answered_by_the_numbers_they_print(station):
    for seed in range(200):
        for place, problem in enumerate(problems(station, seed=seed, tables=1)[0]):
            steps, _ = SUMS[station.name.lower().replace(" ", "-")][place](*(plain(words(text)) for _, text in problem.given))
            assert problem.value == pytest.approx(steps[-1], rel=0.006), (seed, place)
            assert problem.right(problem.value) and problem.margin < 0.03 * abs(problem.value)


def test_a_key_has_the_digits_that_it_asks_for():
    """A path must be right within a thousandth: three digits would be rounded further than that."""
    for name, exercises in read_page(made(tables=12)["workshop_keys.html"]).items():
        if name.endswith("belts"):
            heading, given, whole = exercises[0]
            assert "0.1 %" in words(whole)
            assert plain(words(heading).split(": ")[1]) == pytest.approx(path(*given)[0][-1], rel=0.0005)


def test_no_handout_gives_its_answer_away():
    pack = made()
    handouts, keys = read_page(pack["workshop_handouts.html"]), read_page(pack["workshop_keys.html"])
    assert pack["workshop_handouts.html"].count('class="side back"') == len(handouts)
    for name, exercises in handouts.items():
        for place, (_, given, whole) in enumerate(exercises):
            answer = words(keys[name][place][0]).split(": ")[1]
            assert answer not in words(whole).replace(" ".join(map(str, given)), "")
            assert whole.count('class="blank"') == (1, whole.count("<li>"))[place]
    assert "for the host alone" not in pack["workshop_handouts.html"]


@pytest.mark.parametrize("station", STATIONS.values(), ids=STATIONS)
@pytest.mark.parametrize("seed", range(12))
def test_every_table_has_other_numbers(station, seed):
    pairs = problems(station, seed=seed, tables=MOST_TABLES)
    for number in range(2):
        assert len({pair[number].given for pair in pairs}) == MOST_TABLES
    assert [pair[0].given for pair in problems(station, seed=seed, tables=3)] == [pair[0].given for pair in pairs[:3]]


def test_no_two_tables_are_handed_the_same_numbers():
    handouts = read_page(made(tables=12, minutes=120)["workshop_handouts.html"])
    for station in SUMS:
        for place in range(2):
            seen = {tuple(exercises[place][1]) for name, exercises in handouts.items() if name.split("-", 2)[2] == station}
            assert len(seen) == 12


def test_a_seed_brings_its_numbers_back_and_another_brings_others():
    assert made(seed=5) == made(seed=5)
    assert read_page(made(seed=5)["workshop_handouts.html"]) != read_page(made(seed=6)["workshop_handouts.html"])


def test_a_table_gets_the_stations_it_visits_and_no_other():
    pack = made()
    for table in range(1, 5):
        row = re.search(rf'<tr><th scope="row">{table}</th><td>([^<]*)</td></tr>', pack["workshop_host.html"])[1].split(", ")
        names = [name for name in read_page(pack["workshop_handouts.html"]) if name.startswith(f"table-{table}-")]
        assert [name.split("-", 2)[2] for name in names] == [name.lower().replace(" ", "-") for name in row]
        assert len(row) == 3


def test_no_key_calls_a_right_answer_wrong():
    """A square belt of 1.0 mm has a section of 1.0 mm²: whoever forgets to square it is right all the same."""
    keys = read_page(made(tables=12, minutes=120)["workshop_keys.html"])
    assert any(given[0] == 1e-3 for name in keys if name.endswith("belts") for _, given, _ in keys[name][1:])
    for exercises in keys.values():
        for heading, _, whole in exercises:
            answer = plain(words(heading).split(": ")[1])
            slips = [plain(words(one)) for one in re.findall(r"<li><strong>(.*?)</strong>: ", whole)]
            assert slips and all(abs(slip - answer) > 0.0009 * abs(answer) for slip in slips)
