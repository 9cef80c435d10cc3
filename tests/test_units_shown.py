"""Every unit that a worked example or a slider prints is one that a textbook prints."""

import re

import pytest

from benchreckoner import project, published
from benchreckoner.lessons.series import live_pictures
from benchreckoner.published import read_rows

BASE = ("Ω V A F W N s Hz m g H J Ah Pa N·m V·s/rad").split()
PREFIXED = {f"{prefix}{unit}" for unit in BASE for prefix in ("", "p", "n", "µ", "m", "k", "M", "G")} - {"ks", "mF"}
PLAIN = set("""% °C K ° K/W J/K 1/K 1/s rad rad/s m/s m/s² µV/K mW/K r/min turn min h d years mm² mm⁴ m²/s V² V²/Hz kg·m² kg/m kg/m³ g/m in ft
    arcmin dB A/Ah W/(m·K) W/(m²·K) W/(m²·K⁴) Ω·m Ω·m² N·m·s/rad""".split()) | {"per hour", "minutes of arc"}
VALUE = re.compile(r"^[+−-]?[\d.]+(?:×10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?(?: (.+)|(°))?$")
AS_FOUND = {"50 mF", "50 MFD", "250 MMF"}  # as the source or the old part has it


def units_of(texts):
    """The units of all that reads as a number with one."""
    found = {text: match for text in texts if text not in AS_FOUND and (match := VALUE.match(text))}
    return {text: match[1] or match[2] for text, match in found.items() if match[1] or match[2]}


def check(texts):
    wrong = {text: unit for text, unit in units_of(texts).items() if unit not in PREFIXED | PLAIN}
    assert not wrong


def test_worked_examples(capsys, monkeypatch):
    rows = {row.id: row for row in read_rows(project.WORKED_EXAMPLES)}
    monkeypatch.setattr(published, "find_row", rows.get)  # which reads all the files, each time
    printed = []
    for row_id in rows:
        published.worked_case(row_id)
        lines = capsys.readouterr().out.splitlines()
        printed += [part for line in lines if not line.startswith("source:")
                    for part in re.split(r", (?:expected|tolerance) |, ", line.partition(": ")[2].removeprefix("ours "))]
    assert len(units_of(printed)) > 1000
    check(printed)


@pytest.mark.parametrize("picture", live_pictures(), ids=lambda picture: picture.key)
def test_sliders_and_axes(picture):
    """Every step, and the units of both axes."""
    drawn = picture.at(picture.start)
    check([slider.text(position) for slider in picture.sliders for position in range(len(slider.steps))]
          + [f"1 {axis.symbol}" for axis in (drawn.x, drawn.y)])
