"""Lessons on cells, adapter, charger and lamps: pictures at every corner, goals that can be met, fair exercises."""

import re

import numpy as np
import pytest
from fair import at, check_fair, given

from benchreckoner import project
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons import adapter_lamps, cells, cells_practice, cells_yours
from benchreckoner.show.declare import corners
from benchreckoner.show.say import SayChecks, look_through
from benchreckoner.units import Q, read_quantity

PICTURES = [cells.CELLS_TO_END, cells.START_DIP, adapter_lamps.ADAPTER, adapter_lamps.CHARGE]
GUESSES = [cells.guess_one_cell_short, cells.guess_start, adapter_lamps.guess_adapter, adapter_lamps.guess_charger,
           adapter_lamps.guess_lamps_in_series]
PROBLEMS = [cells_practice._cell_end, cells_practice._start_volts, cells_practice._off_load, cells_practice._runtime,
            cells_practice._charge, cells_practice._lamp, cells_practice._diode]
# The example motor in plain numbers, from the reference: volts, ohms, V·s/rad.
VSET, RC, R, KE, DROP, OTHER, CELL = 3.26726, 15.0, 15.0, 0.0130, 0.3, 1.3, 0.15


def turns(volts, count, amps):
    """Speed by hand, NaN where it stands: the smaller one of two voltages, less the winding's loss."""
    motor = np.minimum(VSET + RC * amps, count * volts - DROP - amps * (count * CELL + OTHER))
    speed = (motor - R * amps) / KE * 30 / np.pi
    return np.where(speed >= -1e-6, speed, np.nan)


@pytest.mark.parametrize("declared", PICTURES, ids=lambda one: one.key)
def test_every_corner_can_be_drawn(declared):
    shapes = set()
    for _, picture in corners(declared):
        shapes.add((picture.title, picture.x, picture.y, tuple((kind, mark.name) for kind, mark in picture.marks),
                    tuple(len(curve.x) for curve in picture.curves)))
        for words in (picture.sentence, picture.alt):
            assert words.endswith(".") and not re.search(r"\b(nan|inf|None)\b", words) and not re.search(r"(?<!\w)-\d", words)
    assert len(shapes) == 1, "axes, marks and their places stay, whatever the sliders say"


@pytest.mark.parametrize("count", range(2, 11))
@pytest.mark.parametrize("milliamperes", [20, 85, 140, 200])
def test_the_speed_is_that_of_the_sum_by_hand(count, milliamperes):
    picture = at(cells.CELLS_TO_END, cells=count, current=milliamperes / 1000)
    curve, amps = picture.curves[0], milliamperes / 1000
    np.testing.assert_allclose(curve.y, turns(curve.x, count, amps), rtol=1e-4, atol=1)
    end = (VSET + RC * amps + DROP + amps * (count * CELL + OTHER)) / count
    point = picture.points[0]
    assert point.drawn == (0.6 <= end <= 1.7) and f"{end:.2f} V each" in picture.sentence
    if point.drawn:
        assert (point.x, point.y) == pytest.approx((end, 2400), rel=1e-4)


def test_published_ends_stand_in_the_picture():
    """Check value R07."""
    for count, amps, end in ((5, 0.085, 1.0033), (6, 0.085, 0.8382), (7, 0.085, 0.7203), (5, 0.14, 1.1909), (6, 0.14, 0.9959), (7, 0.14, 0.8566)):
        assert at(cells.CELLS_TO_END, cells=count, current=amps).points[0].x == pytest.approx(end, abs=1e-4)


def test_the_goal_of_the_cells_can_be_met():
    """Six at 140 mA; at 85 mA five stay a hair short of it, so six again, or five for all but the last drop."""
    def fewest(amps):
        return next(count for count in range(2, 11) if cells.cell_end(cells=count, current=Q(amps, "A")).m_as("V") <= 1.0)

    assert fewest(0.14) == 6 and fewest(0.085) == 6
    assert "alkaline ones slow" in at(cells.CELLS_TO_END, cells=6, current=0.14).sentence
    assert at(cells.CELLS_TO_END, cells=5, current=0.085).points[0].x == pytest.approx(1.0033, abs=1e-4)


@pytest.mark.parametrize(("count", "amps", "words"), [
    (2, 0.2, "no such cells ever give that"), (3, 0.085, "holds for long"), (4, 0.085, "fresh alkaline cells do for a while"),
    (5, 0.14, "the speed goes before"), (6, 0.14, "NiMH cells are empty first"), (10, 0.02, "below this picture: every cell is empty first")])
def test_the_sentence_knows_the_cells(count, amps, words):
    assert words in at(cells.CELLS_TO_END, cells=count, current=amps).sentence


def test_the_start_dips_as_reckoned_by_hand():
    """Check value R06 at the start: 0.50581 A, 8.3930 V; and 0.085 A times 1.2 ohm less while playing."""
    picture = at(cells.START_DIP, contacts=0.3, cell=0.15)
    assert picture.points[0].y == pytest.approx(8.3930, abs=1e-4) and "506 mA" in picture.sentence
    assert picture.points[1].y == pytest.approx(9 - 0.085 * 1.2, abs=1e-4)
    for positions, picture in corners(cells.START_DIP):
        values = cells.START_DIP.values(positions)
        ohms = values["contacts"].m_as("ohm") + 6 * values["cell"].m_as("ohm")
        assert picture.points[0].y == pytest.approx(9 - ohms * 8.7 / (ohms + 16), abs=1e-6)
        assert picture.points[1].y == pytest.approx(9 - ohms * 0.085, abs=1e-6)
    assert picture.limits[0].value == pytest.approx(VSET + 15 * 0.085 + 0.3 + 0.085, abs=1e-4)


def test_the_goal_of_the_start_can_be_met():
    """By hand: 3 V lost need 8.421 ohm in all, 7.52 of them in contacts."""
    steps = cells.START_DIP.sliders[0].steps
    best = min(steps, key=lambda ohms: abs(at(cells.START_DIP, contacts=ohms).points[0].y - 6))
    picture = at(cells.START_DIP, contacts=best)
    assert best == pytest.approx(7.52, rel=0.05) and picture.points[0].y == pytest.approx(6, abs=0.12)
    assert "still holds the speed" in picture.sentence and picture.points[1].y == pytest.approx(9 - 0.085 * 8.42, abs=0.05)


def test_far_too_many_ohms_end_the_hold():
    """By hand: 4.93 V are needed; so many ohms lie beyond the slider, and are told."""
    picture = cells.dip_picture(contacts=Q(29, "ohm"), cell=Q(4, "ohm"))
    assert 9 - 0.085 * 53 < 4.93 and "no longer holds" in picture.sentence


def test_an_adapter_by_hand_at_its_corners():
    for positions, picture in corners(adapter_lamps.ADAPTER):
        values = adapter_lamps.ADAPTER.values(positions)
        amps, ohms = values["current"].m_as("A"), values["source"].m_as("ohm")
        assert picture.points[0].y == pytest.approx(12 + ohms * (0.4 - amps))
        assert picture.points[1].y == pytest.approx(12 + 0.4 * ohms)
        assert ("past its marked current" in picture.sentence) == (amps > 0.4)


def test_the_goal_of_the_adapter_can_be_met():
    """10 ohm give just 16 V off load, and 15 V at 100 mA."""
    safe = [ohms for ohms in adapter_lamps.ADAPTER.sliders[1].steps if "and no more than" in at(adapter_lamps.ADAPTER, source=ohms).sentence]
    assert max(safe) == 10 and "15.0 V at 100 mA" in at(adapter_lamps.ADAPTER, source=10, current=0.1).sentence


@pytest.mark.parametrize(("capacity", "current", "words"), [
    (1.2, 0.12, "0.1 It: an empty cell is full after about 16 h"), (0.6, 0.06, "about 16 h"), (2.5, 0.12, "takes about 33 h"),
    (0.6, 0.12, "faster than the standard"), (0.5, 0.15, "faster than"), (0.5, 0.18, "far too fast"), (2.0, 0.1, "about 32 h")])
def test_a_charging_rate_is_told(capacity, current, words):
    picture = at(adapter_lamps.CHARGE, capacity=capacity, current=current)
    assert words in picture.sentence and picture.points[0].y == pytest.approx(current / capacity)


@pytest.mark.parametrize("make", GUESSES, ids=lambda make: make.__name__)
def test_a_guess_can_be_asked(make):
    assert make().children


def test_our_sentences_pass_our_own_checks():
    checks = SayChecks(what=("cells",), quantities=((Q(1.19, "V"), "V"),))
    assert all(met for _, met, _ in look_through(cells.OURS, checks)) and cells.say_cells().children


def test_the_tables_carry_marks_and_reckoned_values():
    text = cells.cell_table().data
    assert text.count("never charge it") == 2 and "1.0 V (FOUND" in text and text.count("MEMORY") >= 8
    lamps = adapter_lamps.lamp_table().data
    # By hand: 1.1^0.55 of 100 mA; 6 V in 1 + 6 and 1 + 4 ohm; 4.6 V at 10 mA.
    assert all(words in lamps for words in ("105 mA", "857 mA to 1.2 A", "0.22 to 0.32", "460 Ω", "46 mW", "200 mV"))


GOVERNED = """version = 1
[[instrument]]
name = "meter"
accuracy = [{ quantity = "voltage", limit = "0.5 % + 1 mV" }, { quantity = "current", limit = "1 % + 0.2 mA" }]
[[part]]
name = "cells"
kind = "cells"
count = 6
chemistry = "alkaline"
[[part]]
name = "motor"
kind = "motor"
[[part]]
name = "board"
kind = "governor"
style = "electronic"
sense_resistor = "1 ohm"
""" + "".join(f'[[reading]]\npart = "{part}"\nquantity = "{what}"\nvalue = "{value}"\ninstrument = "meter"\nstage = "as found"\ncondition = "{when}"\n'
              for part, what, value, when in (("cells", "voltage", "9.00 V", "off"), ("motor", "voltage", "8.70 V", "playing"),
                                              ("board", "voltage", "4.54 V", "playing"), ("motor", "current", "85.0 mA", "playing")))


def test_the_readers_own_number_of_cells():
    """By hand: 5.725 V with 0.404 V of standard uncertainty; 95 % lie below 6.39 V, 5 % below 5.06 V."""
    text = cells_yours.counts_of(read_text(GOVERNED))
    assert "needs 5.73 ± 0.81 V" in text or "needs 5.72 ± 0.81 V" in text
    assert "alkaline**, empty at 0.9 V: 6 may do, 8 surely do" in text
    assert "nickel-metal hydride**, empty at 1.0 V: 6 may do, 7 surely do" in text


def test_without_readings_it_says_what_to_read():
    text = GOVERNED[:GOVERNED.index("[[reading]]")]
    assert "sense_resistor" in cells_yours.counts_of(read_text(text)) and "`style`" in cells_yours.counts_of(read_text(text))
    assert "Nothing to judge yet" in cells_yours.supply_html(read_text(text))


def test_the_demo_is_told_on_the_desk():
    assert "✓ cells, voltage" in cells_yours.supply_html(read_sheet(project.CASES / "record_player.toml"))
    assert cells_yours.supply_form() is not None and "needs" in cells_yours.my_counts().data


def test_the_form_tells_of_readings_that_cannot_all_be_true():
    """Six alkaline cells never show 11.4 V: a finding, told where nothing can be judged."""
    text = GOVERNED.replace('"9.00 V"', '"11.40 V"')
    assert "is more than such cells give" in cells_yours.supply_html(read_text(text))


@pytest.mark.parametrize("make", PROBLEMS, ids=lambda make: make.__name__)
@pytest.mark.parametrize("seed", range(40))
def test_an_exercise_is_fair(make, seed):
    check_fair(make(np.random.default_rng(seed)))


@pytest.mark.parametrize("seed", range(20))
def test_exercises_by_their_given_numbers(seed):
    """What a reader would reckon from the numbers as shown comes out right."""
    end = cells_practice._cell_end(np.random.default_rng(seed))
    count = int(end.given[0][1])
    amps, motor, drop, cell, other = (read_quantity(text, unit).quantity.m_as(unit)
                                      for (_, text), unit in zip(end.given[1:], ("A", "V", "V", "ohm", "ohm")))
    assert end.right((motor + drop + amps * (count * cell + other)) / count)
    start = cells_practice._start_volts(np.random.default_rng(seed))
    volts, source, ohms, drop = given(start, "V", "ohm", "ohm", "V")
    assert start.right(volts - source * (volts - drop) / (source + ohms))
    off = cells_practice._off_load(np.random.default_rng(seed))
    (light, high), (heavy, low) = ((read_quantity(name.removeprefix("at "), "A").quantity.m_as("A"),
                                    read_quantity(text, "V").quantity.m_as("V")) for name, text in off.given)
    assert off.right(low + (high - low) / (heavy - light) * heavy)
    hours, charge, diode = (make(np.random.default_rng(seed)) for make in PROBLEMS[3:5] + PROBLEMS[6:])
    capacity, amps = given(hours, "Ah", "A")
    assert hours.right(capacity / amps)
    capacity, amps = given(charge, "Ah", "A")
    assert charge.right(1.6 * capacity / amps)
    volts, own, amps = given(diode, "V", "V", "A")
    assert diode.right((volts - own) / amps)
    lamp = cells_practice._lamp(np.random.default_rng(seed))
    share, power = (float(step.value_text) for step in lamp.steps[:2])
    marked = read_quantity(lamp.given[0][1].split(", ")[1], "A").quantity.m_as("A")
    assert power == pytest.approx(np.exp(0.55 * np.log(share)), abs=6e-4) and lamp.right(marked * power)
