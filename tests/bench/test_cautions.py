"""Which cautions stand before which sheet."""

import pytest

from benchreckoner import project
from benchreckoner.bench.cautions import all_cautions, cautions_for
from benchreckoner.bench.reasons import mark_words
from benchreckoner.bench.sheet import read_sheet, read_text
from benchreckoner.bench.vocabulary import KINDS


def names(*parts):
    """Names of the cautions for parts given as (kind, further lines)."""
    rows = "".join(f'\n[[part]]\nname = "part {number}"\nkind = "{kind}"\n{more}\n'
                   for number, (kind, more) in enumerate(parts))
    return [one.name for one in cautions_for(read_text("version = 1\n" + rows))]


def test_an_empty_sheet_still_says_where_this_work_ends():
    assert names() == ["scope", "power off"]
    words = all_cautions()[0].words
    assert "63 V" in words and "licensed" in words and "local rules" in words


@pytest.mark.parametrize("kind, wanted", [
    ("cells", {"leaked cells", "skin and eyes", "polarity", "shorted cells"}),
    ("motor", {"held motor", "hot parts", "moving parts"}),
    ("capacitor", {"stored charge", "polarity"}),
    ("belt", {"melted belts", "moving parts"}),
    ("head", {"solvents"}),
])
def test_a_part_brings_its_cautions(kind, wanted):
    assert wanted <= set(names((kind, "")))
    assert not wanted & set(names(("loudspeaker", "")))


@pytest.mark.parametrize("chemistry, wanted", [
    ("alkaline", {"leaked cells"}), ("NiCd", {"leaked cells", "cadmium"}), ("nickel-cadmium", {"leaked cells", "cadmium"}),
    ("zinc carbon", {"zinc cells"}), ("lithium", {"lithium"}),
    ("", {"leaked cells", "cadmium", "zinc cells", "lithium"}),  # nobody knows yet, so all of them
])
def test_the_chemistry_decides_what_leaks(chemistry, wanted):
    line = f'chemistry = "{chemistry}"' if chemistry else ""
    assert set(names(("cells", line))) & {"leaked cells", "cadmium", "zinc cells", "lithium"} == wanted


def test_a_contact_may_be_crusted_by_any_cell():
    assert "leaked cells" in names(("supply contact", ""), ("cells", 'chemistry = "zinc carbon"'))


def test_the_words_that_matter_most_stand_in_the_demo():
    found = {one.name: one.words for one in cautions_for(read_sheet(project.CASES / "record_player.toml"))}
    assert "Never acid on skin or in eyes" in found["skin and eyes"]
    assert "eye protection" in found["leaked cells"] and "loves" in found["leaked cells"]
    assert "at most 2 s" in found["held motor"]
    assert "stored charge" not in found


def test_every_caution_is_whole():
    found = all_cautions()
    assert len({one.name for one in found}) == len(found)
    for one in found:
        assert mark_words(one.mark) and one.source and one.title
        assert set(one.kinds) <= set(KINDS)
        assert one.words.endswith(".")
