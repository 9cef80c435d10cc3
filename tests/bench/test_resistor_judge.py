"""Resistors and loudspeakers on a sheet: bounds in circuit, heat by hand, before and after, and nonsense."""

import math

import pytest

from benchreckoner.bench.chain import feed_parts
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.resistor_judge import judge_resistors
from benchreckoner.bench.sheet import read_text

HEAD = '''version = 1
[[instrument]]
name = "meter"
accuracy = "0.8 % + 1 mohm"
leads = "0.20 ohm"
[[instrument]]
name = "bare"
accuracy = "0.8 % + 1 mohm"
[[instrument]]
name = "volts"
accuracy = "0.5 % + 1 mV"
[[instrument]]
name = "amps"
accuracy = "1 %"
[[action]]
name = "short mended"
'''
R12 = 'name = "R12"\nkind = "resistor"\nplace = "emitter"\nresistance = "100 ohm"\ntolerance = "5 %"\n'
SPEAKER = 'name = "left"\nkind = "loudspeaker"\nimpedance = "8 ohm"\n'


def sheet(part, *readings):
    """A sheet of one part; each reading is quantity, value, condition, and perhaps instrument and stage."""
    name = part.split('"')[1]
    text = HEAD + "[[part]]\n" + part
    for quantity, value, condition, *more in readings:
        instrument = more[0] if more else {"resistance": "meter", "current": "amps"}.get(quantity, "volts")
        stage = more[1] if len(more) > 1 else "as found"
        text += (f'[[reading]]\npart = "{name}"\nquantity = "{quantity}"\nvalue = "{value}"\ncondition = "{condition}"\n'
                 f'instrument = "{instrument}"\nstage = "{stage}"\n')
    return read_text(text)


def judged(part, *readings, quantity="resistance"):
    (report, *_) = judge_resistors(sheet(part, *readings))
    return next(one for one in report.judgements if one.quantity == quantity)


class TestOhms:
    @pytest.mark.parametrize(("read", "word"), [
        ("101.0 ohm", "sound"), ("96.0 ohm", "sound"), ("112.0 ohm", "doubtful"), ("85.0 ohm", "doubtful"), ("152.0 ohm", "bad"),
        ("60.0 ohm", "bad"), ("105.1 ohm", "can't tell yet")])
    def test_lifted_it_is_judged_by_its_marking(self, read, word):
        """5 % is 95 to 105, and a quarter off is 75 to 125."""
        assert judged(R12, ("resistance", read, "lifted")).verdict.word == word

    def test_its_uncertainty_by_hand(self):
        """152.0 less 0.20 ohm: 0.8 % and 1 mohm of each, half a digit of 0.1 and of 0.01; u = a / sqrt(3), k = 2."""
        one = judged(R12, ("resistance", "152.0 ohm", "lifted"))
        limits = (0.008 * 152, 0.001, 0.05, 0.008 * 0.2, 0.001, 0.005)
        assert one.known.plain == pytest.approx(151.8)
        assert one.known.expanded.m_as("ohm") == pytest.approx(2 * math.sqrt(sum(each**2 for each in limits) / 3), rel=1e-3)

    def test_in_circuit_it_is_only_the_least(self):
        low = judged(R12, ("resistance", "60.0 ohm", "in circuit"))
        assert low.verdict.word == "can't tell yet" and "59.2 Ω or more" in low.reason and "Lifting a leg" in low.next
        assert judged(R12, ("resistance", "140.0 ohm", "in circuit")).verdict.word == "bad", "nothing in parallel raises a reading"
        assert judged(R12, ("resistance", "60.0 ohm", "off")).verdict.word == "can't tell yet", "off is in circuit too"

    def test_a_known_path_gives_it_back(self):
        """100 ohm with 220 across it reads 68.75."""
        beside = R12 + 'across = ["R13 220 ohm 1 %"]\n'
        one = judged(beside, ("resistance", "68.95 ohm", "in circuit"))
        assert one.known.plain == pytest.approx(100, abs=0.2) and one.verdict.word == "sound"

    def test_more_than_the_path_allows_is_a_contradiction(self):
        (report,) = judge_resistors(sheet(R12 + 'across = ["R13 50 ohm 1 %"]\n', ("resistance", "80.0 ohm", "in circuit")))
        assert report.findings[0].quantity == "contradiction" and "more than R13 50 Ω" in report.findings[0].reason

    def test_leads_that_nobody_measured_can_be_an_ohm(self):
        small = R12.replace("100 ohm", "4R7")
        assert judged(small, ("resistance", "5.00 ohm", "lifted", "bare")).verdict.word == "can't tell yet"
        assert judged(small, ("resistance", "4.80 ohm", "lifted", "meter")).verdict.word == "sound"

    def test_volts_by_current_need_no_leg_lifted(self):
        """1.52 V at 10.0 mA are 152 ohm."""
        one = judged(R12, ("voltage drop", "1.520 V", "playing"), ("current", "10.00 mA", "playing"))
        assert one.verdict.word == "bad" and one.known.plain == pytest.approx(152) and "By volts and current" in one.reason

    def test_its_bands_are_its_marking(self):
        """Yellow violet brown gold: 470 ohm, 5 %; what the sheet says itself goes first."""
        bands = 'name = "R1"\nkind = "resistor"\nplace = "base"\nmarking = "yellow violet brown gold"\n'
        assert judged(bands, ("resistance", "460.0 ohm", "lifted")).verdict.word == "sound"
        assert judged(bands, ("resistance", "440.0 ohm", "lifted")).verdict.word == "doubtful"
        assert judged(bands + 'tolerance = "10 %"\n', ("resistance", "440.0 ohm", "lifted")).verdict.word == "sound"
        with pytest.raises(ValueError, match="marking"):
            sheet(bands.replace("violet", "purplish"))

    def test_without_a_marking_it_says_what_to_write(self):
        one = judged(R12.replace('resistance = "100 ohm"\n', ""), ("resistance", "100 ohm", "lifted"))
        assert one.no_band and 'resistance = "10 kohm"' in one.reason

    def test_a_bad_one_is_not_replaced_before_the_cause_is_found(self):
        assert "Find why before you replace it" in judged(R12, ("resistance", "300 ohm", "lifted")).next

    def test_a_place_takes_it_out_of_the_feed_chain(self):
        assert feed_parts(sheet(R12))[2] == ()
        assert [one.name for one in feed_parts(sheet(R12.replace('place = "emitter"\n', "")))[2]] == ["R12"]

    def test_one_in_the_feed_takes_the_chain_s_current(self):
        feed = HEAD + '[[part]]\n' + R12.replace('place = "emitter"\n', "") + '[[part]]\nname = "motor"\nkind = "motor"\n'
        for part, quantity, value, instrument in (("R12", "voltage drop", "1.000 V", "volts"), ("motor", "current", "10.00 mA", "amps")):
            feed += (f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\ninstrument = "{instrument}"\n'
                     'stage = "as found"\ncondition = "playing"\n')
        (report,) = judge_resistors(read_text(feed))
        assert next(one for one in report.judgements if one.quantity == "resistance").known.plain == pytest.approx(100)


class TestHeat:
    HOT = R12 + 'rated_power = "0.25 W"\n'

    @pytest.mark.parametrize(("volts", "more", "word"), [
        ("2.100 V", "", "sound"), ("4.300 V", "", "doubtful"), ("6.100 V", "", "bad"), ("-6.100 V", "", "bad"),
        ("4.300 V", 'temperature = "125 degC"\n', "bad"), ("3.540 V", "", "can't tell yet")])
    def test_by_hand(self, volts, more, word):
        """44, 185, 372 mW of 250; at 125 degC 30/85 of 250 mW are left, 88 mW. 3.54 V are 125 mW, just half."""
        assert judged(self.HOT + more, ("voltage", volts, "playing"), quantity="power").verdict.word == word

    def test_its_uncertainty_by_hand(self):
        """6.1 V: twice 0.5 % and twice 1.5 mV of it, and 5 % of the ohms."""
        one = judged(self.HOT, ("voltage", "6.100 V", "playing"), quantity="power")
        shares = (0.01, 2 * 0.001 / 6.1, 2 * 0.0005 / 6.1, 0.05)
        assert one.known.plain == pytest.approx(0.3721)
        assert one.known.expanded.m_as("W") == pytest.approx(0.3721 * 2 * math.sqrt(sum(each**2 for each in shares) / 3), rel=1e-3)

    def test_its_own_ohms_go_before_its_marking(self):
        one = judged(self.HOT, ("voltage", "6.100 V", "playing"), ("resistance", "152.2 ohm", "lifted"), quantity="power")
        assert one.known.plain == pytest.approx(6.1**2 / 152) and "its own ohms" in one.reason

    @pytest.mark.parametrize("volts", ["2.000 V", "-2.000 V"])
    def test_volts_times_current(self, volts):
        one = judged(self.HOT, ("voltage drop", volts, "playing"), ("current", "20.0 mA", "playing"), quantity="power")
        assert one.known.plain == pytest.approx(0.040) and "volts times current" in one.reason

    def test_before_and_after(self):
        reports = judge_resistors(sheet(self.HOT, ("voltage", "6.100 V", "playing"),
                                        ("voltage", "2.100 V", "playing", "volts", "short mended")))
        assert [(report.stage, report.judgements[0].verdict.word) for report in reports] == [("short mended", "sound"), ("as found", "bad")]
        change, = [one for one in comparisons(reports) if one.quantity == "power"]
        assert change.real and change.change.plain == pytest.approx(0.0441 - 0.3721)
        assert "hot spot is near 167 °C" in reports[1].judgements[0].reason

    def test_without_a_rating_it_asks_for_one(self):
        one = judged(R12, ("voltage", "6.1 V", "playing"), quantity="power")
        assert one.no_band and 'rated_power = "0.25 W"' in one.next

    def test_air_as_hot_as_the_part_may_be(self):
        one = judged(self.HOT + 'temperature = "160 degC"\n', ("voltage", "1 V", "playing"), quantity="power")
        assert one.verdict.word == "can't tell yet" and "find what heats it" in one.next

    def test_switched_off_there_is_no_heat(self):
        assert judge_resistors(sheet(self.HOT, ("voltage", "6.1 V", "off"))) == ()


class TestLoudspeaker:
    @pytest.mark.parametrize(("read", "word"), [("6.90 ohm", "sound"), ("5.30 ohm", "doubtful"), ("8.50 ohm", "doubtful"),
                                                ("2.50 ohm", "bad"), ("5.00 kohm", "bad")])
    def test_its_coil(self, read, word):
        """5.5 to 7.5 ohm for 8 (common practice), 4 and 10 the bad edges; 0.2 ohm of leads are taken off."""
        one = judged(SPEAKER, ("resistance", read, "lifted"))
        assert one.verdict.word == word and "Direct ohms are not its impedance" in one.reason

    def test_without_printed_ohms_it_asks_for_them(self):
        assert 'impedance = "8 ohm"' in judged(SPEAKER.replace('impedance = "8 ohm"\n', ""), ("resistance", "7 ohm", "lifted")).reason

    @pytest.mark.parametrize(("least", "across", "word"), [
        ("4 ohm", "R20 33 ohm 5 %", "sound"), ("8 ohm", "R20 47 ohm 5 %", "doubtful"), ("8 ohm", "R20 10 ohm 5 %", "bad"),
        ("8 ohm", "R20 33 ohm 5 %", "can't tell yet")])
    def test_what_the_amplifier_sees(self, least, across, word):
        """8 with 33 is 6.439, with 47 6.836, with 10 4.444; bad below 0.8 times the least load, 6.4."""
        part = SPEAKER + f'least_load = "{least}"\nacross = ["{across}"]\n'
        one = judged(part, ("resistance", "7.0 ohm", "lifted"), quantity="load")
        ohms = float(across.split()[1])
        assert one.verdict.word == word and one.known.plain == pytest.approx(8 * ohms / (8 + ohms)) and "from memory" in one.reason

    def test_repeats_that_differ_are_told(self):
        (report,) = judge_resistors(sheet(SPEAKER, ("resistance", "7.0 ohm", "lifted"), ("resistance", "9.0 ohm", "lifted", "bare")))
        assert report.findings
