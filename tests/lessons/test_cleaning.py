"""Cleaning: the order of harm, the cautions before each step, and what the sheet says of before and after."""

import re
from html import unescape

import numpy as np
import pytest

from benchreckoner.bench.reasons import mark_words
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.lessons import cleaning, cleaning_practice
from benchreckoner.lessons.cleaning_steps import steps, steps_for, surfaces
from benchreckoner.lessons.your_bench import my_sheet
from benchreckoner.show.say import look_through

STEP = {step.name: step for step in steps()}
SURFACE = {one.name: one for one in surfaces()}


def names(surface):
    return [step.name for step in steps_for(SURFACE[surface])]


class TestTheSteps:
    def test_the_order_is_that_of_the_trade(self):
        """Work, dry swab, alcohol, a drop of cleaner, abrasion, tension, replace: common practice, least harm first."""
        order = list(STEP)
        trade = ["work", "dry", "alcohol", "cleaner", "rub", "tension", "replace"]
        assert [name for name in order if name in trade] == trade

    @pytest.mark.parametrize("step", steps(), ids=lambda step: step.name)
    def test_a_step_says_of_every_surface_whether_it_suits(self, step):
        assert sorted([*step.suits, *step.never]) == sorted(SURFACE)
        assert all(step.never.values()) and step.words.endswith(".") and mark_words(step.mark) and step.source

    def test_nothing_rough_goes_on_plating_and_no_acid_where_no_alkali_is(self):
        assert STEP["rub"].suits == ("solid metal",)
        assert STEP["burnish"].suits == ("relay",)
        assert STEP["crust"].suits == ("crusted spring",)

    def test_crust_is_never_ground_or_brushed_dry(self):
        assert names("crusted spring")[0] == "crust" and {"work", "dry"}.isdisjoint(names("crusted spring"))

    def test_a_solder_joint_is_melted_and_a_pad_stays_dry(self):
        assert "solder" in names("solder joint") and "work" not in names("solder joint")
        assert names("pads and belts") == ["dry", "replace"]

    @pytest.mark.parametrize(("step", "wanted"), [
        ("crust", {"leaked cells", "skin and eyes", "cadmium"}), ("alcohol", {"solvents", "sprays"}),
        ("cleaner", {"solvents", "sprays"}), ("rub", {"fibre pen", "cadmium"}), ("solder", {"soldering", "hot parts"}),
    ])
    def test_a_step_has_its_cautions(self, step, wanted):
        assert wanted <= {one.name for one in STEP[step].cautions}

    def test_the_power_is_off_before_every_step(self):
        assert all(step.cautions[0].name == "power off" for step in steps())


class TestTheLadder:
    def opened(self, surface=""):
        ladder = cleaning._Ladder()
        ladder.choice.value = surface
        pages = []
        while len(pages) < len(ladder.steps):
            ladder.open_next()
            pages.append(ladder.now.value)
        return ladder, pages

    @pytest.mark.parametrize("surface", ["", *SURFACE])
    def test_it_opens_one_step_at_a_time_with_the_cautions_before_it(self, surface):
        ladder, pages = self.opened(surface)
        for step, page in zip(ladder.steps, pages):
            titles = [other.title for other in ladder.steps if f": {other.title}." in page]
            assert titles == [step.title]
            assert all(page.index(one.words[:20]) < page.index(step.words[:20]) for one in step.cautions)
        assert ladder.past.value.count("<summary>") >= len(ladder.steps) - 1
        assert ladder.further.layout.display == "none"
        ladder.open_next()  # nothing further to open
        assert ladder.opened == len(ladder.steps)

    def test_nothing_is_open_at_first_and_another_surface_begins_anew(self):
        ladder, _ = self.opened("plated leaf")
        ladder.choice.value = "carbon track"
        assert ladder.now.value == ladder.past.value == "" and ladder.further.layout.display is None
        ladder.open_next()
        assert "Step 1 of 3" in ladder.now.value

    def test_a_surface_says_what_to_read_where_to_stop_and_what_is_left_out(self):
        ladder, _ = self.opened("gold jack")
        words = unescape(ladder.before.value)
        assert SURFACE["gold jack"].stop in words and SURFACE["gold jack"].measure in words
        assert "0.1 to 1 micrometre" in ladder.left_out.value

    def test_each_step_ends_with_reading_again(self):
        _, pages = self.opened("plated spring")
        assert all("Then read the voltage drop again" in page for page in pages[:-1]) and "last step" in pages[-1]


def test_the_guess_can_be_asked_and_opens_the_ladder():
    asked = cleaning.guess_first_move()
    assert asked.children and callable(cleaning.ladder)


class TestWhetherItHelped:
    def test_the_demo_by_hand(self):
        """Held: 821 mV at 993 mA, then 42.6 mV at 1086 mA."""
        text = cleaning.helped(my_sheet())
        before, after, down = re.search(r"held: spring 3 went from (\d+) ± \d+ mΩ .*? to ([\d.]+) ± .*?down by (\d+) mΩ",
                                        text).groups()
        assert int(before) == round(1000 * 821 / 993) and float(after) == round(1000 * 42.6 / 1086, 2)
        assert int(down) == round(1000 * (821 / 993 - 42.6 / 1086))
        assert text.index("spring 3") < text.index("<details>") < text.index("play switch")

    def sheet(self, *readings, kind="signal contact", more=""):
        rows = "".join(f'\n[[reading]]\npart = "jack"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "meter"\n'
                       f'stage = "{stage}"\ncondition = "{condition}"\n' for quantity, value, stage, condition in readings)
        return read_text('version = 1\n[[instrument]]\nname = "meter"\naccuracy = [{quantity = "level", limit = "0.5 dB"}, '
                         '{quantity = "resistance", limit = "1 % + 0.2 ohm"}]\n'
                         f'[[part]]\nname = "jack"\nkind = "{kind}"\n{more}[[action]]\nname = "jack wiped"\n{rows}')

    def test_a_level_that_rose(self):
        text = cleaning.helped(self.sheet(("level", "-14.0 dB", "as found", "playing"), ("level", "-9.0 dB", "jack wiped", "playing")))
        assert "up by 5.00 dB" in text and "It helped" in text

    def test_a_change_inside_the_uncertainty_is_none(self):
        """Two readings, each within 0.5 dB and half a digit: u = 0.41 dB, so 0.8 dB could be nothing."""
        text = cleaning.helped(self.sheet(("level", "-9.8 dB", "as found", "playing"), ("level", "-9.0 dB", "jack wiped", "playing")))
        assert "No reading shows" in text and "nothing is shown to have changed" in text

    def test_ohms_read_with_the_power_off(self):
        text = cleaning.helped(self.sheet(("resistance", "3.4 ohm", "as found", "off"), ("resistance", "0.3 ohm", "jack wiped", "off")))
        assert "off: jack went from 3.4" in text and "down by 3.10 Ω" in text and "It helped" in text

    def test_what_got_worse_is_told(self):
        louder, fewer = ("level", "-9.0 dB", "as found", "playing"), ("level", "-14.0 dB", "jack wiped", "playing")
        assert "got worse. Look again" in cleaning.helped(self.sheet(louder, fewer))
        ohms = (("resistance", "3.4 ohm", "as found", "off"), ("resistance", "0.3 ohm", "jack wiped", "off"))
        assert "Something got better, something got worse" in cleaning.helped(self.sheet(louder, fewer, *ohms))

    def test_ohms_of_a_control_have_no_better_end(self):
        sheet = self.sheet(("resistance", "340 ohm", "as found", "off"), ("resistance", "30 ohm", "jack wiped", "off"),
                           kind="potentiometer", more='resistance = "10 kohm"\n')
        assert "It changed something" in cleaning.helped(sheet)

    def test_what_moved_and_now_holds_still(self):
        text = cleaning.helped(self.sheet(
            ("level", "-9.0 dB", "as found", "still"), ("level", "-19.0 dB", "as found", "wiggled"),
            ("level", "-9.0 dB", "jack wiped", "still"), ("level", "-9.1 dB", "jack wiped", "wiggled")))
        assert "wiggled: jack was doubtful (as found) and is sound (jack wiped)" in text and "It helped" in text
        assert "wiggled: the level of jack went" in text

    def test_another_condition_is_no_comparison(self):
        text = cleaning.helped(self.sheet(("level", "-14.0 dB", "as found", "playing"), ("level", "-9.0 dB", "jack wiped", "winding")))
        assert "nobody knows" in text

    def test_without_an_action_it_says_what_to_do(self):
        assert "No action stands" in cleaning.helped(read_text("version = 1\n"))

    def test_names_never_become_markup(self):
        text = cleaning.helped(read_text('version = 1\n[[action]]\nname = "<b>wiped</b>"\n'))
        assert "<b>" not in text and "&lt;b&gt;" in text

    def test_our_sentences_pass_our_own_check(self):
        best = cleaning._told_change(my_sheet())
        assert best.part == "spring 3"
        assert all(met for _, met, _ in look_through(cleaning.say_ours(best), cleaning.say_checks(best)))
        assert cleaning.say_whether_it_helped().children

    def test_without_a_change_there_is_nothing_to_say(self, desk):
        text = desk.read_text(encoding="utf-8")
        desk.write_text(text[:text.index("[[setting]]")], encoding="utf-8")
        assert "no place yet" in cleaning.say_whether_it_helped().data
        assert read_sheet(desk).actions == ()


class TestTheOrder:
    @pytest.mark.parametrize("seed", range(40))
    @pytest.mark.parametrize("strangers", [0, 3])
    def test_a_case_is_fair(self, seed, strangers):
        surface, offered, order = cleaning_practice.case(np.random.default_rng(seed), strangers)
        suited = [step.name for step in steps_for(surface)]
        assert [offered[letter].name for letter in order] == suited
        assert len(offered) == len(suited) + strangers
        right, _ = cleaning_practice.answer(" ".join(order.lower()), surface, offered, order)
        assert right
        for place in range(len(order) - 1):
            swapped = order[:place] + order[place + 1] + order[place] + order[place + 2:]
            right, words = cleaning_practice.answer(swapped, surface, offered, order)
            assert not right and "can wait" in words and offered[order[place + 1]].risk in unescape(words)
        for letter in set(offered) - set(order):
            right, words = cleaning_practice.answer(letter + order, surface, offered, order)
            assert not right and offered[letter].never[surface.name] in unescape(words)
        right, words = cleaning_practice.answer(order[:-1], surface, offered, order)
        assert not right and "1 more" in words

    def test_the_letters_do_not_give_the_order_away(self):
        orders = [cleaning_practice.case(np.random.default_rng(seed), 0)[2] for seed in range(40)]
        assert sum(order == "".join(sorted(order)) for order in orders) < 4

    @pytest.mark.parametrize(("typed", "told"), [("", "for example"), ("Z", "letters from A"), ("AA", "twice"), ("<b>", "letters")])
    def test_nonsense_is_told(self, typed, told):
        case = cleaning_practice.case(np.random.default_rng(1), 0)
        with pytest.raises(ValueError, match=told):
            cleaning_practice.answer(typed, *case)

    def test_the_card(self):
        asked = cleaning_practice._Order(3, strangers=0)
        _, offered, order = asked.case
        asked.box.value = "?"
        asked.check()
        assert "Your order" in asked.error.value
        asked.box.value = order
        asked.check()
        assert "Right" in asked.said.value and not asked.error.value
        asked.another()
        assert asked.seed == 4 and asked.said.value == ""
        assert cleaning_practice.put_in_order(3).children and cleaning_practice.choose_and_order(3).children
