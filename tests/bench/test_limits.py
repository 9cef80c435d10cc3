"""The bands against the figures they were taken from."""

import pytest

from benchreckoner.bench.limits import NoBand, band_for, read_gauge
from benchreckoner.bench.sheet import Part
from benchreckoner.bench.uncertain import Known, within
from benchreckoner.units import Q

# Common practice (PRACTICE) for contacts; the switch's sound edge MIL-C-21679, at most 0.1 ohm a pair (FOUND);
# alkaline cells 0.15 to 0.3 ohm fresh, above 0.5 ohm near the end (MEMORY).
EDGES = [("supply contact", {}, 0.05, 0.5), ("switch", {}, 0.1, 0.5), ("plug and socket", {}, 0.03, 0.15),
         ("cells", {"chemistry": "Alkaline", "count": 6}, 1.8, 3.0),
         # Signal parts: sound edges S15 and S9 (FOUND), the rest common practice (PRACTICE).
         ("signal contact", {}, 0.1, 0.5), ("signal switch", {}, 0.04, 0.5), ("jack contact", {}, 0.05, 1.0),
         ("shield", {}, 0.06, 0.3)]


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
    ("adapter", {}, "see the supply, part by part"), ("motor", {}, "not judged here"), ("potentiometer", {}, "written on it"), ("cells", {"chemistry": "zinc-carbon", "count": 6}, "alkaline"),
    ("cells", {"chemistry": "alkaline"}, "count = 6"), ("lead", {}, "AWG 24"),
    ("lead", {"gauge": "thin", "length": Q(1, "m")}, "none of these"),
    ("lead", {"gauge": "0.14 mm2", "length": Q(1, "m")}, "none of these"), ("current meter", {}, "supply"),
])
def test_without_a_band_it_says_what_would_give_one(kind, details, words):
    with pytest.raises(NoBand, match=words):
        band_for(part(kind, **details))


@pytest.mark.parametrize(("ohms", "details", "sound", "bad"), [
    (10000, {}, 200, 500), (10000, {"trimmer": True}, 300, 500),  # 2 % and 5 % (PRACTICE); S16: 3 % or 3 ohm (FOUND)
    (50, {"trimmer": True}, 3, 3), (50, {"trimmer": False}, 1, 2.5)])
def test_a_wiper_by_its_share_of_the_track(ohms, details, sound, bad):
    band = band_for(part("potentiometer", **details), quantity="wiper resistance", track=Q(ohms, "ohm"))
    assert (band.sound_up_to.m_as("ohm"), band.bad_from.m_as("ohm")) == (pytest.approx(sound), pytest.approx(bad))


@pytest.mark.parametrize(("details", "edges"), [({}, (5, 8, 12, 15)), ({"tolerance": 0.1}, (5, 9, 11, 15)),
                                                ({"tolerance": 0.6}, (4, 4, 16, 16))])
def test_a_track_on_both_sides_of_what_is_written_on_it(details, edges):
    band = band_for(part("potentiometer", resistance=Q(10, "kohm"), **details))
    here = (band.bad_down_from, band.sound_down_to, band.sound_up_to, band.bad_from)
    assert [edge.m_as("kohm") for edge in here] == pytest.approx(edges)


def test_gauges_as_people_write_them():
    assert read_gauge("AWG 24") == read_gauge("24 awg") == read_gauge("AWG#24") == 24
    assert read_gauge("0,5 mm²").m_as("mm**2") == pytest.approx(0.5)
