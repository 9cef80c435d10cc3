"""One joint under two conditions: a film that gives way, a hot spot, a joint that moves, a current misread."""

import pytest

from benchreckoner.bench.judge import BY_CURRENT, CONTRADICTION, judge_sheet
from benchreckoner.bench.report import findings, json_report
from benchreckoner.bench.sheet import read_text
from benchreckoner.tell.script_outline import outline

RANGED = 'accuracy = [{ quantity = "voltage", up_to = "2 V", limit = "1 % + 0.1 mV" }, { quantity = "current", up_to = "2 A", limit = "1 % + 0.1 mA" }]'
ALONE = 'accuracy = [{ quantity = "voltage", limit = "1 % + 0.1 mV" }, { quantity = "current", limit = "1 % + 0.1 mA" }]'
HEAD = """version = 1
[machine]
name = "trial"
kind = "tape player"
supply = "9 V"
[[instrument]]
name = "meter"
{accuracy}
"""
PARTS = {"spring": "supply contact", "wire": "lead", "plug": "plug and socket"}


def sheet(held, playing, *, amperes=("1.0000 A", "0.1000 A"), accuracy=RANGED):
    """Drops by part, held and playing, and the two currents."""
    text = HEAD.format(accuracy=accuracy) + '[[part]]\nname = "motor"\nkind = "motor"\n'
    text += "".join(f'[[part]]\nname = "{name}"\nkind = "{PARTS[name]}"\n' for name in held)
    rows = [("motor", "current", value, condition) for value, condition in zip(amperes, ("held", "playing"), strict=True)]
    rows += [(name, "voltage drop", drop, condition) for drops, condition in ((held, "held"), (playing, "playing")) for name, drop in drops.items()]
    return read_text(text + "".join(f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "meter"\n'
                                    f'stage = "as found"\ncondition = "{condition}"\n' for part, quantity, value, condition in rows))


def told(*args, **kwargs):
    return [one for stage in judge_sheet(sheet(*args, **kwargs)) for chain in stage.chains for one in chain.findings]


def test_a_film_that_gives_way_is_said_and_is_no_contradiction():
    """600 mohm held, 1.1 ohm playing."""
    (one,) = told({"spring": "600.0 mV"}, {"spring": "110.0 mV"})
    assert (one.part, one.quantity, one.condition) == ("spring", BY_CURRENT, "held") and one.known.plain == pytest.approx(-0.5)
    assert "fell with the larger current, as those of a film do that gives way" in one.reason and one.next.startswith("Clean it")
    assert "1.000" in one.reason and "100.0" in one.reason  # both currents


def test_the_guilty_link_stays_surely_guilty_beside_a_film():
    held = sheet({"spring": "600.0 mV"}, {"spring": "110.0 mV"})
    assert not any(chain.contradicted for stage in judge_sheet(held) for chain in stage.chains)
    assert "spring is the guilty link" in findings(held)[0] and "if the readings hold" not in findings(held)[0]


def test_a_hot_spot_is_said():
    """80 mV heat a spot to 1.213 times its cold ohms: x = 80/91.639 = 0.87299, its arc tangent 0.71771, so 1.2164 at most."""
    (one,) = told({"spring": "80.0 mV"}, {"spring": "7.00 mV"})  # 80.0 and 70.0 mohm: 1.14 times
    assert one.quantity == BY_CURRENT and "heats a small spot" in one.reason


def test_what_heat_cannot_explain_is_a_contradiction():
    (one,) = told({"spring": "80.0 mV"}, {"spring": "6.00 mV"})  # 1.33 times
    assert (one.part, one.quantity) == ("feed chain", CONTRADICTION) and "no current explains the two ohms of spring" in one.reason
    assert "pressing and tapping" in one.next


def test_a_spot_that_has_softened_rises_no_further():
    """1.5 V would melt any metal: 220 mV heat a spot to 2.04 times its cold ohms (x = 2.4007, its arc tangent 1.1760), and then it grows."""
    (one,) = told({"spring": "1.5000 V"}, {"spring": "50.00 mV"})  # 1.5 ohm and 0.5 ohm: three times
    assert one.quantity == CONTRADICTION and "no current explains the two ohms of spring" in one.reason
    (one,) = told({"spring": "400.0 mV"}, {"spring": "35.00 mV"})  # 1.14 times, though 35 mV have warmed it a little
    assert one.quantity == BY_CURRENT and "heats a small spot" in one.reason


@pytest.mark.parametrize("playing", ["7.00 mV", "9.00 mV"])
def test_a_lead_has_neither_film_nor_spot(playing):
    (one,) = told({"wire": "80.0 mV"}, {"wire": playing})
    assert one.quantity == CONTRADICTION and "two ohms of wire" in one.reason


def test_links_that_all_moved_one_way_tell_of_the_current():
    """All 20 % up: a current typed a fifth too low."""
    held = {"spring": "60.0 mV", "wire": "36.0 mV", "plug": "24.0 mV"}
    (one,) = told(held, {"spring": "5.00 mV", "wire": "3.00 mV", "plug": "2.00 mV"})
    assert (one.part, one.quantity) == ("feed chain", CONTRADICTION) and "all 3 links" in one.reason and "a misread current does" in one.reason


def test_two_films_that_give_way_by_unlike_shares_are_no_misread_current():
    """0.6 of 1.1 ohm is left of one, 0.3 of 0.9 ohm of the other: no one current makes both right."""
    found = told({"spring": "600.0 mV", "plug": "300.0 mV"}, {"spring": "110.0 mV", "plug": "90.00 mV"})
    assert [(one.part, one.quantity) for one in found] == [("spring", BY_CURRENT), ("plug", BY_CURRENT)]


def test_the_same_ohms_twice_say_nothing():
    assert told({"spring": "60.0 mV", "wire": "36.0 mV"}, {"spring": "6.00 mV", "wire": "3.60 mV"}) == []


def test_what_the_readings_share_cancels():
    """2 % apart at nearly one current: shared percentages leave digits alone to explain it, own ones explain it all."""
    drops = {"spring": "1.0000 V"}, {"spring": "0.9800 V"}
    (one,) = told(*drops, amperes=("1.0000 A", "1.0000 A"))
    assert one.quantity == CONTRADICTION  # no larger current that could have changed it
    assert told(*drops, amperes=("1.0000 A", "1.0000 A"), accuracy=ALONE) == []


def test_of_many_joints_each_must_stand_out_more():
    """2.3 times its own standard uncertainty is told of one joint, and not of one among two that are alike."""
    own, other = {"spring": "60.0 mV"}, {"plug": "60.0 mV"}
    playing = next(f"{drop / 100:.2f} mV" for drop in range(600, 700)
                   if told(own, {"spring": f"{drop / 100:.2f} mV"}))  # the first drop that is told alone
    assert told({**own, **other}, {"spring": playing, "plug": "6.00 mV"}) == []


def test_a_row_and_a_sentence_for_it():
    film = sheet({"spring": "600.0 mV"}, {"spring": "110.0 mV"})
    row = next(row for row in json_report(film) if row["quantity"] == BY_CURRENT)
    assert (row["part"], row["value"], row["verdict"]) == ("spring", "-0.5000 ohm", "can't tell yet")
    assert any(line.startswith("As found: ohms by current, held: the ohms of spring fell") for line in findings(film))


def test_a_sound_chain_with_a_changing_joint_still_closes():
    """40 mohm held, 45 playing, both sound: the sentence does not say that the readings do not close."""
    lines = findings(sheet({"spring": "40.00 mV"}, {"spring": "4.500 mV"}))
    assert any("ohms by current" in line for line in lines) and not any("do not close" in line for line in lines)


def test_a_script_says_what_it_means_not_the_figures_alone():
    (line,) = [line for line in outline(sheet({"spring": "600.0 mV"}, {"spring": "110.0 mV"})) if BY_CURRENT in line.id]
    assert line.say["camera"] == "The ohms of spring fell with the larger current, as those of a film do that gives way."
