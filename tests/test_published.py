"""Every published row, and the reader of rows itself."""

import importlib
import pkgutil

import pytest

from benchreckoner import physics, project, published

ROWS = published.read_rows(project.WORKED_EXAMPLES)
GOOD = '''[[row]]
id = "trial"
function = "contacts.motor_voltage"
given = { supply = "9 V", source_resistance = "0.9 ohm", motor_resistance = "8.1 ohm" }
expect = "8.1 V"
tolerance = "0.1 %"
source = "by hand: 9 x 8.1 / 9"
mark = "RECOMPUTED"
'''


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_row_holds(row):
    outcome = published.run_row(row)
    assert outcome.holds, published.describe(outcome)


# No laws with a number to publish: argument checks, and what makes sound from chance.
NO_LAWS = {"plain", "take", "crackle", "tunes"}


def test_every_law_has_a_row():
    """A law nobody holds against an outside value is not ready to be used."""
    modules = [importlib.import_module(f"benchreckoner.physics.{module.name}")
               for module in pkgutil.iter_modules(physics.__path__) if module.name not in NO_LAWS]
    laws = {f"{module.__name__.rpartition('.')[2]}.{name}" for module in modules for name, thing in vars(module).items()
            if callable(thing) and getattr(thing, "__module__", "") == module.__name__ and not name.startswith("_")}
    # Held elsewhere: warm_copper by W14 through lead_resistance, the words and lines of Wald's test by chance-wald,
    # the leaky stage by the worked example in test_bias, which no row can write down; integrated_loudness by the tones of loudness.tones_loudness. A spelling is no law.
    through_others = {"leads.warm_copper", "leakage_limits.LeakageRule", "sequential.sequential_decision",
                      "sequential.Boundaries", "bias.Stage", "bias.leaky_bias", "resistors.LoadEffect", "lots.NextStep", "markings.Marking", "colour_bands.colour_name",
                      "testers.tested_part", "loudness.integrated_loudness",
                      "belt_path.TwoPulleyPath", "belt_path.BeltPath", "belt_path.belt_line", "belt_sizes.Section", "rubber.held_ratio"}
    assert laws - {row.function for row in ROWS} == through_others


def folder(tmp_path, text):
    (tmp_path / "rows.toml").write_text(text, encoding="utf-8")
    return tmp_path


def test_a_good_folder_holds(tmp_path):
    lines, failed = published.check_folder(folder(tmp_path, GOOD))
    assert failed == 0 and lines[-1] == "1 of 1 rows hold"


@pytest.mark.parametrize(("change", "told"), [
    (("8.1 V", "8.2 V"), "DIFFERS"),
    (("8.1 V", "8.1 A"), "cannot compare"),
    (("8.1 V", "nan V"), "cannot compare|DIFFERS"),
    (("contacts.motor_voltage", "contacts.np"), "no law"),
    (("contacts.motor_voltage", "os.system"), "no module"),
    (("contacts.motor_voltage", "contacts.need"), "no law"),
    (("contacts.motor_voltage", "..units.show"), "no law"),
    (('"0.9 ohm"', '"0.9 V"'), "source_resistance"),
    (('"0.9 ohm"', '"-1 ohm"'), "source_resistance"),
    (("supply =", "suply ="), "suply"),
    (("0.1 %", "2 A"), "cannot compare"),
])
def test_a_wrong_row_fails(tmp_path, change, told):
    lines, failed = published.check_folder(folder(tmp_path, GOOD.replace(*change)))
    assert failed == 1
    assert any(one in lines[0] for one in told.split("|"))


@pytest.mark.parametrize("text", [
    "", "row = 3", "[[row]", GOOD + GOOD, GOOD.replace("mark", "marc"), GOOD.replace("RECOMPUTED", "CERTAIN"),
    GOOD.replace('source = "by hand: 9 x 8.1 / 9"\n', ""),
])
def test_a_faulty_file_is_named(tmp_path, text):
    with pytest.raises(published.RowError, match=r"rows\.toml"):
        published.check_folder(folder(tmp_path, text))


def test_an_empty_folder_is_told(tmp_path):
    with pytest.raises(published.RowError, match="no row files"):
        published.check_folder(tmp_path)


def test_lists_names_and_absolute_tolerances(tmp_path):
    text = GOOD.replace('"0.1 %"', '"2 mV"').replace("8.1 V", "8.1015 V")
    assert published.check_folder(folder(tmp_path, text))[1] == 0
    assert published.check_folder(folder(tmp_path, text.replace("8.1015 V", "8.1025 V")))[1] == 1


def test_text_is_compared_to_the_letter(tmp_path):
    text = (GOOD.replace("contacts.motor_voltage", "markings.letter_code").replace('"0.1 %"', '"exact"').replace("8.1 V", "4K7")
            .replace('supply = "9 V", source_resistance = "0.9 ohm", motor_resistance = "8.1 ohm"', 'value = "4.7 kohm"'))
    assert published.check_folder(folder(tmp_path, text))[1] == 0
    assert published.check_folder(folder(tmp_path, text.replace("4K7", "4k7")))[1] == 1
    assert published.check_folder(folder(tmp_path, text.replace("exact", "1 %")))[1] == 1


def test_a_book_never_prints_a_wrong_value(monkeypatch, tmp_path, capsys):
    monkeypatch.setattr(project, "WORKED_EXAMPLES", folder(tmp_path, GOOD.replace("8.1 V", "8.2 V")))
    with pytest.raises(published.RowError, match="differs"):
        published.worked_case("trial")
    assert capsys.readouterr().out == ""


def test_a_large_plain_number_is_printed_as_a_power_of_ten(capsys):
    published.worked_case("convection-P10-nusselt")
    assert "rayleigh: 1.8125×10⁹\n" in capsys.readouterr().out
