"""What is said of cells, a built-in charger and an adapter, on whole sheets and on simulated benches."""

import numpy as np
import pytest

from benchreckoner import project
from benchreckoner.bench.cell_kinds import cell_kinds, is_lithium, kind_of
from benchreckoner.bench.cells_judge import CHARGE, REGULATION, judge_supply
from benchreckoner.bench.judge import CONTRADICTION
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.published import MARKS

TOP = """version = 1
[machine]
name = "invented"
kind = "tape player"
{machine}
[[instrument]]
name = "meter"
accuracy = [{{ quantity = "voltage", limit = "0.5 % + 5 mV" }}, {{ quantity = "current", limit = "1 % + 0.2 mA" }}]
[[action]]
name = "mended"
"""
SIX = ("cells", "cells", 'count = 6\nchemistry = "alkaline"')
ADAPTER = ("adapter", "adapter", 'rated_voltage = "12 V"')
MOTOR = ("motor", "motor", "")
BOARD = ("board", "governor", 'style = "electronic"\nsense_resistor = "1 ohm"')


def sheet(*rows, parts=(SIX,), machine='supply = "9 V"'):
    """A sheet from (part, quantity, value, condition, stage) rows; the stage may be left out."""
    text = TOP.format(machine=machine)
    text += "".join(f'[[part]]\nname = "{name}"\nkind = "{kind}"\n{keys}\n' for name, kind, keys in parts)
    for row in rows:
        name, quantity, value, condition, stage = (*row, "as found")[:5]
        text += (f'[[reading]]\npart = "{name}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "meter"\n'
                 f'stage = "{stage}"\ncondition = "{condition}"\n')
    return read_text(text)


def judged(made, quantity="voltage", condition=None):
    (one,) = [one for report in judge_supply(made) for one in report.judgements
              if one.quantity == quantity and condition in (None, one.condition)]
    return one


def cells(chemistry, volts, condition="playing", count=6):
    return sheet(("cells", "voltage", volts, condition), parts=(("cells", "cells", f'count = {count}\nchemistry = "{chemistry}"'),))


class TestCells:
    @pytest.mark.parametrize(("chemistry", "volts", "word"), [
        ("alkaline", "8.60 V", SOUND), ("alkaline", "6.30 V", DOUBTFUL), ("alkaline", "5.10 V", BAD), ("alkaline", "5.40 V", UNTOLD),
        ("NiMH", "7.20 V", SOUND), ("NiMH", "6.30 V", DOUBTFUL), ("NiMH", "5.80 V", BAD),
        ("Ni-Cd", "7.20 V", SOUND), ("nickel cadmium", "5.80 V", BAD), ("zinc-carbon", "5.20 V", BAD),
    ])
    def test_under_load_beside_the_end_point(self, chemistry, volts, word):
        one = judged(cells(chemistry, volts))
        assert one.verdict.word == word and one.known.plain == pytest.approx(float(volts.split()[0]))
        assert "memory" in one.reason or "published" in one.reason

    def test_the_edges_are_those_of_all_the_cells_together(self):
        """By hand: four times 0.9 V, and four times half-way between 0.9 and 1.5 V."""
        band = judged(cells("alkaline", "5.50 V", count=4)).band
        assert (band.bad_from.m_as("V"), band.sound_up_to.m_as("V")) == pytest.approx((3.6, 4.8))

    def test_rested_cells_are_spoken_of_only_when_empty(self):
        assert not judge_supply(cells("alkaline", "9.10 V", "off"))
        one = judged(cells("alkaline", "5.00 V", "off"))
        assert one.verdict.word == BAD and "even at rest" in one.reason

    def test_without_number_or_chemistry_it_says_what_to_write(self):
        named = (("cells", "cells", 'chemistry = "alkaline"'),)
        assert "count = 6" in judged(sheet(("cells", "voltage", "8.60 V", "playing"), parts=named)).next
        counted = (("cells", "cells", "count = 6"),)
        one = judged(sheet(("cells", "voltage", "8.60 V", "playing"), parts=counted))
        assert one.verdict.word == UNTOLD and one.no_band and 'chemistry = "alkaline"' in one.next

    def test_lithium_cells_have_no_end_point_here(self):
        one = judged(cells("lithium", "9.10 V"))
        assert "3.7 V" in one.reason and "come out" in one.next and "alkaline" not in one.next

    def test_more_volts_than_such_cells_give_are_a_contradiction(self):
        (report,) = judge_supply(cells("alkaline", "11.40 V", "off"))
        (one,) = report.findings
        assert one.quantity == CONTRADICTION and "lithium" in one.next and not report.judgements

    def test_cells_are_followed_through_the_stages(self):
        made = sheet(("cells", "voltage", "5.00 V", "playing"), ("cells", "voltage", "8.90 V", "playing", "mended"))
        assert [(report.stage, report.judgements[0].verdict.word) for report in judge_supply(made)] == [
            ("mended", SOUND), ("as found", BAD)]


def governed(*, volts_in="8.70 V", behind="4.54 V", off="9.00 V", current="85.0 mA", chemistry="alkaline", count=6,
             keeps=""):
    board = (*BOARD[:2], f"{BOARD[2]}\n{keeps}")
    parts = (("cells", "cells", f'count = {count}\nchemistry = "{chemistry}"'), MOTOR, board)
    return sheet(("cells", "voltage", off, "off"), ("motor", "voltage", volts_in, "playing"),
                 ("board", "voltage", behind, "playing"), ("motor", "current", current, "playing"), parts=parts)


class TestRegulation:
    def test_its_end_is_the_volts_that_are_needed_shared_by_the_cells(self):
        """By hand: 0.3 V lost on the way, 4.54 V wanted, 0.085 V in 1 ohm, 0.8 V for the transistor: 5.725 V by six."""
        one = judged(governed(), REGULATION)
        assert one.known.plain == pytest.approx(5.725 / 6, abs=1e-4)
        # u by hand: 0.7 V even spread, and the three readings' own, some hundredths of a volt.
        assert one.known.number.std_dev == pytest.approx(0.7 / np.sqrt(3) / 6, rel=0.02)
        assert "common practice" in one.reason and "0.55 V a cell are in hand" in one.reason

    @pytest.mark.parametrize(("behind", "word"), [("2.00 V", SOUND), ("4.54 V", UNTOLD), ("6.30 V", DOUBTFUL)])
    def test_beside_the_end_point(self, behind, word):
        assert judged(governed(behind=behind), REGULATION).verdict.word == word

    def test_too_few_cells_of_a_lower_voltage_never_keep_it(self):
        one = judged(governed(behind="6.00 V", off="7.20 V", volts_in="7.00 V", chemistry="NiMH", count=4), REGULATION)
        assert one.verdict.word == BAD and "cannot keep it regulating" in one.reason

    @pytest.mark.parametrize("change", [{"volts_in": "9.90 V"}, {"behind": "8.90 V"}, {"current": "0.0 mA"}])
    def test_readings_that_cannot_be_true_say_nothing(self, change):
        found = [one.quantity for report in judge_supply(governed(**change)) for one in report.judgements]
        assert REGULATION not in found

    def test_a_drop_that_was_read_takes_the_place_of_the_usual_one(self):
        """By hand: 0.4 V in place of the usual 0.8 V; a limit of 30 % of it is 0.12 V. The same machine can now be told."""
        one = judged(governed(keeps='regulator_drop = "0.4 V"'), REGULATION)
        assert one.known.plain == pytest.approx(5.325 / 6, abs=1e-4) and "0.4 V, as written" in one.reason
        # The readings' own, under 0.04 V together, come on top.
        assert 0.12 / np.sqrt(3) / 6 < one.known.number.std_dev < np.hypot(0.12 / np.sqrt(3), 0.04) / 6
        assert "regulator_drop" in judged(governed(), REGULATION).next
        assert one.verdict.word == UNTOLD and "little playing time" in one.next

    def test_a_drop_beyond_what_stands_across_it_is_told(self):
        """By hand: 8.70 less 4.54 less 0.085 V leave 4.075 V across the transistor."""
        one = judged(governed(keeps='regulator_drop = "40 V"'), REGULATION)
        assert one.verdict.word == UNTOLD and "40 V are written" in one.reason and "only 4.07" in one.reason and "anew" in one.next

    def test_cells_that_already_show_less_are_told(self):
        one = judged(governed(off="5.20 V", volts_in="4.90 V"), REGULATION)
        assert "a cell are missing" in one.reason


def charged(keys):
    return judged(sheet(parts=(("cells", "cells", f'count = 4\ncharge_current = "120 mA"\n{keys}'),)), CHARGE)


class TestCharger:
    @pytest.mark.parametrize("chemistry", ["alkaline", "zinc-carbon", "lithium", "Li-ion 14500"])
    def test_never_into_what_may_not_be_charged(self, chemistry):
        one = charged(f'chemistry = "{chemistry}"\ncapacity = "2 Ah"')
        assert one.verdict.word == BAD and "never charge" in one.reason and "cells out" in one.next

    @pytest.mark.parametrize(("capacity", "word"), [("2 Ah", SOUND), ("1.2 Ah", SOUND), ("600 mAh", DOUBTFUL), ("300 mAh", BAD),
                                                    ("1 Ah", UNTOLD)])
    def test_the_rate_is_judged_against_the_capacity(self, capacity, word):
        one = charged(f'chemistry = "NiMH"\ncapacity = "{capacity}"')
        assert one.verdict.word == word and "common practice" in one.reason

    def test_a_slow_one_tells_the_hours(self):
        """By hand: 1.6 times 2 Ah by 0.12 A."""
        assert "0.06 It" in charged('chemistry = "NiCd"\ncapacity = "2 Ah"').reason
        assert "about 27 h" in charged('chemistry = "NiCd"\ncapacity = "2 Ah"').reason

    @pytest.mark.parametrize("keys", ["", 'chemistry = "NiMH"', 'capacity = "2 Ah"'])
    def test_not_known_means_charge_outside(self, keys):
        one = charged(keys)
        assert one.verdict.word == UNTOLD and "outside the machine" in one.next

    def test_it_stands_in_the_latest_report(self):
        made = sheet(("cells", "voltage", "8.60 V", "playing", "mended"),
                     parts=(("cells", "cells", 'count = 6\nchemistry = "alkaline"\ncharge_current = "120 mA"'),))
        (report,) = judge_supply(made)
        assert report.stage == "mended" and [one.quantity for one in report.judgements] == [CHARGE, "voltage"], "the worst first"


def adapter(*rows, parts=(ADAPTER, MOTOR), machine='supply = "12 V"'):
    return sheet(*rows, parts=parts, machine=machine)


class TestAdapter:
    @pytest.mark.parametrize(("volts", "word"), [("12.50 V", SOUND), ("11.00 V", SOUND), ("14.20 V", DOUBTFUL), ("10.00 V", DOUBTFUL),
                                                 ("16.00 V", BAD), ("8.00 V", BAD), ("13.20 V", UNTOLD), ("9.00 V", UNTOLD)])
    def test_under_load_beside_the_machines_supply(self, volts, word):
        one = judged(adapter(("adapter", "voltage", volts, "playing")))
        assert one.verdict.word == word and "common practice" in one.reason
        assert ("plus and minus" in one.next) == (word != SOUND)

    def test_its_own_ohms_are_told(self):
        """By hand: 3 V by 0.3 A."""
        made = adapter(("adapter", "voltage", "15.50 V", "off"), ("adapter", "voltage", "12.50 V", "playing"),
                       ("motor", "current", "300.0 mA", "playing"))
        assert "inside it 10.0" in judged(made, condition="playing").reason

    @pytest.mark.parametrize("condition", ["off", "playing"])
    def test_minus_is_never_taken_for_few_volts(self, condition):
        one = judged(adapter(("adapter", "voltage", "-17.20 V", condition)))
        assert one.verdict.word == UNTOLD and "plus and minus of the plug" in one.reason and "out of the machine" in one.next

    def test_what_was_read_already_is_not_asked_for_again(self):
        loaded = ("adapter", "voltage", "16.00 V", "playing")
        both = judged(adapter(loaded, ("adapter", "voltage", "17.20 V", "off")), condition="playing")
        assert "Read it off load" in judged(adapter(loaded)).next and "off load" not in both.next

    def test_too_many_volts_off_load_say_what_to_do(self):
        one = judged(adapter(("adapter", "voltage", "25.00 V", "off")))
        assert "regulated adapter" in one.next and "every part it meets is rated for more" in one.next

    @pytest.mark.parametrize(("volts", "word"), [("15.00 V", SOUND), ("21.00 V", DOUBTFUL), ("25.00 V", BAD)])
    def test_off_load_beside_its_marked_volts(self, volts, word):
        assert judged(adapter(("adapter", "voltage", volts, "off"))).verdict.word == word

    @pytest.mark.parametrize(("volts", "word"), [("15.00 V", SOUND), ("18.00 V", BAD), ("16.00 V", UNTOLD)])
    def test_off_load_beside_the_weakest_part_across_the_supply(self, volts, word):
        parts = (ADAPTER, ("C1", "capacitor", 'rated_voltage = "16 V"\nplace = "supply"'),
                 ("C2", "capacitor", 'rated_voltage = "6.3 V"\nplace = "bypass"'),
                 ("C3", "capacitor", 'rated_voltage = "25 V"\nplace = "supply"'))
        one = judged(adapter(("adapter", "voltage", volts, "off"), parts=parts))
        assert one.verdict.word == word and "16 V of C1" in one.reason

    def test_without_anything_to_hold_it_against(self):
        bare = (("adapter", "adapter", ""),)
        made = adapter(("adapter", "voltage", "12.50 V", "playing"), ("adapter", "voltage", "15.00 V", "off"), parts=bare, machine="")
        assert 'supply = "9 V"' in judged(made, condition="playing").next
        assert "rated_voltage" in judged(made, condition="off").next


def test_every_kind_carries_its_marks_and_sane_volts():
    for kind in cell_kinds():
        assert {kind.nominal_mark, kind.end_mark, kind.ohms_mark} <= set(MARKS)
        assert kind.end_point < kind.half_way < kind.nominal < kind.most
        assert kind_of(kind.name) is kind and all(kind_of(word) is kind for word in kind.words)


@pytest.mark.parametrize(("spelling", "name"), [
    ("Alkaline", "alkaline"), ("Ni-MH", "nickel-metal hydride"), ("nickel metal hydride", "nickel-metal hydride"),
    ("NiCd", "nickel-cadmium"), ("Ni-Cad", "nickel-cadmium"), ("zinc chloride", "zinc-carbon"), ("carbon-zinc", "zinc-carbon")])
def test_a_chemistry_is_known_however_it_is_spelled(spelling, name):
    assert kind_of(spelling).name == name and not is_lithium(spelling)


@pytest.mark.parametrize("spelling", ["lithium", "Li-ion", "LiFePO4", "14500", "lithium, in place of alkaline"])
def test_lithium_is_known_and_has_no_volts_of_its_own(spelling):
    assert is_lithium(spelling) and kind_of(spelling) is None


@pytest.mark.parametrize("seed", range(5))
def test_verdicts_are_seldom_wrong(seed):
    """A hundred sets of cells with known volts, read by a meter that keeps its promise: of those called empty, few are not."""
    rng = np.random.default_rng(seed)
    wrong = 0
    for true in rng.uniform(5.0, 7.6, 100):
        read = true * (1 + rng.uniform(-0.005, 0.005)) + rng.uniform(-0.005, 0.005)
        word = judged(cells("alkaline", f"{read:.2f} V")).verdict.word
        wrong += (word == BAD and true > 5.4) or (word == SOUND and true < 7.2)
    assert wrong <= 5


def test_the_demo_machines_can_be_judged():
    for name in ("record_player", "tape_player"):
        for report in judge_supply(read_sheet(project.CASES / f"{name}.toml")):
            assert all(one.reason.endswith(".") for one in report.judgements)
