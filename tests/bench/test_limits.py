"""The bands against the figures they were taken from."""

import pytest

from benchreckoner.bench.limits import NoBand, band_for, read_gauge
from benchreckoner.bench.sheet import Part
from benchreckoner.bench.uncertain import Known, within
from benchreckoner.units import Q

# Common practice (PRACTICE) for contacts; the switch's sound edge MIL-C-21679, at most 0.1 ohm a pair (FOUND);
# alkaline cells 0.15 to 0.3 ohm fresh, above 0.5 ohm near the end (MEMORY).
EDGES = [("supply contact", {}, 0.05, 0.5), ("switch", {}, 0.1, 0.5), ("plug and socket", {}, 0.03, 0.15),
         ("cells", {"chemistry": "Alkaline", "count": 6}, 1.8, 3.0)]


def part(kind, **details):
    return Part(name="it", kind=kind, details=details, current_from=None, note="")


@pytest.mark.parametrize(("kind", "details", "sound", "bad"), EDGES)
def test_edges(kind, details, sound, bad):
    band = band_for(part(kind, **details))
    assert (band.sound_up_to.m_as("ohm"), band.bad_from.m_as("ohm")) == (pytest.approx(sound), pytest.approx(bad))


def test_a_lead_by_hand():
    """W7: 84.213 ohm/km x 0.35 m = 29.5 mohm, and two end joints of 5 mohm; bad at twice that."""
    band = band_for(part("lead", gauge="24 AWG", length=Q(35, "cm")))
    assert band.sound_up_to.m_as("mohm") == pytest.approx(29.475 + 10, rel=1e-3)
    assert band.bad_from == 2 * band.sound_up_to


def test_a_current_meter_by_its_share():
    """2 % and 5 % of 9 V at 0.5 A: 0.36 and 0.9 ohm (volts budget, PRACTICE)."""
    band = band_for(part("current meter"), supply=within(Q(9, "V"), 0.01, "V"), current=Known(within(Q(0.5, "A"), 0.01, "A").number, "A"))
    assert (band.sound_up_to.m_as("ohm"), band.bad_from.m_as("ohm")) == (pytest.approx(0.36), pytest.approx(0.9))


@pytest.mark.parametrize(("kind", "details", "words"), [
    ("adapter", {}, "not judged here"), ("cells", {"chemistry": "zinc-carbon", "count": 6}, "alkaline"),
    ("cells", {"chemistry": "alkaline"}, "count = 6"), ("lead", {}, "AWG 24"),
    ("lead", {"gauge": "thin", "length": Q(1, "m")}, "none of these"),
    ("lead", {"gauge": "0.14 mm2", "length": Q(1, "m")}, "none of these"), ("current meter", {}, "supply"),
])
def test_without_a_band_it_says_what_would_give_one(kind, details, words):
    with pytest.raises(NoBand, match=words):
        band_for(part(kind, **details))


def test_gauges_as_people_write_them():
    assert read_gauge("AWG 24") == read_gauge("24 awg") == read_gauge("AWG#24") == 24
    assert read_gauge("0,5 mm²").m_as("mm**2") == pytest.approx(0.5)
