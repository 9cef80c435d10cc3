"""The voice: made-up recordings of which every time is known, and others that cannot be heard."""

import wave

import numpy as np
import pytest
from scipy.signal import lfilter

from benchreckoner.bench.recordings import RecordingError
from benchreckoner.tell.align import find_pauses
from benchreckoner.tell.captions import Spoken, syllables
from benchreckoner.tell.voice import find_voice, place_sentences, read_voice

RATE = 16000
TEXTS = ("It turned too slowly.", "Spring three took a tenth of a volt away from the motor, and a healthy one takes a hundredth.",
         "We cleaned it.", "Now it takes three millivolts, give or take one, and the platter keeps its speed.", "The belt was not measured.",
         "Nobody can say yet how long that will last, so read it again in a year.", "Thank you.", "Bring your own machine next month.")


def spoken(texts=TEXTS):
    return [Spoken(text, number, number + 1.0) for number, text in enumerate(texts)]


def speech(seconds, chance):
    """Noise coloured like a voice, in syllables of a fifth of a second, no dip as long as a pause."""
    count = round(seconds * RATE)
    noise = lfilter([1], [1, -1.3, 0.6], chance.normal(0, 0.03, count))
    beat = 0.55 + 0.45 * np.sin(2 * np.pi * 4.6 * np.arange(count) / RATE + chance.uniform(0, 6))
    return noise * beat


def recorded(texts=TEXTS, seed=0, pace=5.0, pause=(0.5, 0.9), wobble=0.12, lead=0.7, commas=True):
    """A voice that says the texts, and the true start and end of each."""
    chance = np.random.default_rng(seed)
    parts, true, here = [np.zeros(round(lead * RATE))], [], lead
    for text in texts:
        start = here
        for piece in text.split(",") if commas else [text]:
            if here > start:
                parts.append(np.zeros(round(0.25 * RATE)))
                here += 0.25
            length = syllables(piece) / pace * np.exp(chance.normal(0, wobble))
            parts.append(speech(length, chance))
            here += len(parts[-1]) / RATE
        true.append((start, here))
        gap = chance.uniform(*pause)
        parts.append(np.zeros(round(gap * RATE)))
        here += len(parts[-1]) / RATE
    samples = np.concatenate(parts)
    return samples + chance.normal(0, 1e-4, len(samples)), true


def written(path, samples, rate=RATE, channels=1):
    with wave.open(str(path), "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes(np.repeat(np.clip(samples * 32767, -32768, 32767).astype("<i2"), channels).tobytes())
    return path


def heard(tmp_path, samples, texts=TEXTS, **how):
    return place_sentences(read_voice(written(tmp_path / "voice.wav", samples, **how)), spoken(texts))


@pytest.mark.parametrize("seed", range(6))
def test_every_sentence_is_found(tmp_path, seed):
    samples, true = recorded(seed=seed)
    found, remarks = heard(tmp_path, samples)
    for sentence, (start, end) in zip(found, true):
        assert sentence.start == pytest.approx(start, abs=0.08) and sentence.end == pytest.approx(end, abs=0.12), remarks
    assert [sentence.text for sentence in found] == list(TEXTS)


def test_a_clear_voice_is_sure_and_says_nothing(tmp_path):
    found, remarks = heard(tmp_path, recorded(wobble=0.05, commas=False)[0])
    assert all(sentence.sure > 0.8 for sentence in found) and remarks == ()


def test_a_stereo_recording_at_another_rate(tmp_path):
    samples, true = recorded(seed=3)
    found, _ = heard(tmp_path, np.repeat(samples, 3), rate=48000, channels=2)
    assert [sentence.start for sentence in found] == pytest.approx([start for start, _ in true], abs=0.1)


def test_two_sentences_run_together_are_told(tmp_path):
    """Between the second and the third there is no pause at all."""
    chance = np.random.default_rng(5)
    samples, true = recorded(seed=5, commas=False, wobble=0.03)
    first, last = (round(time * RATE) for time in (true[1][1], true[2][0]))
    samples = np.concatenate((samples[:first], samples[last:])) + chance.normal(0, 1e-5, len(samples) - (last - first))
    found, remarks = heard(tmp_path, samples)
    assert any("We cleaned it." in remark and "Not sure" in remark for remark in remarks)
    assert found[1].end == pytest.approx(true[1][1], abs=0.8)
    lost = true[2][0] - true[1][1]
    assert found[-1].start == pytest.approx(true[-1][0] - lost, abs=0.1), "those behind it are found again"


def test_music_under_it_falls_back_and_says_so(tmp_path):
    samples, _ = recorded(seed=1)
    seconds = np.arange(len(samples)) / RATE
    chords = sum(np.sin(2 * np.pi * hertz * seconds) for hertz in (220, 277, 330, 660)) * 0.03
    found, (remark,) = heard(tmp_path, samples + chords)
    assert "no pauses were found" in remark and "Music" in remark and "the script's speaking rate" in remark
    assert [(sentence.start, sentence.end) for sentence in found] == [(one.start, one.end) for one in spoken()]
    assert all(sentence.sure == 0 for sentence in found)


@pytest.mark.parametrize("times", [0, 3])
def test_another_text_is_told(tmp_path, times):
    """The same voice for next to no words, and for three times as many."""
    texts = tuple(" ".join([text.rstrip(".")] * times) + "." if times else "On." for text in TEXTS)
    _, remarks = heard(tmp_path, recorded(seed=2)[0], texts=texts)
    assert any("Another language, another text" in remark for remark in remarks)


def test_another_order_is_refused(tmp_path):
    found, (remark,) = heard(tmp_path, recorded(seed=4, wobble=0.05)[0], texts=tuple(sorted(TEXTS, key=len)))
    assert "another order" in remark and all(sentence.sure == 0 for sentence in found)


def test_more_sentences_than_fit_are_told(tmp_path):
    """Thirty words with a stop behind each, for one long sentence without a pause."""
    samples, _ = recorded(texts=TEXTS[1:2], seed=1, commas=False)
    found, (remark,) = heard(tmp_path, samples, texts=("On.",) * 30)
    assert "30 sentences do not fit into" in remark and [one.start for one in found] == [one.start for one in spoken(("On.",) * 30)]


def test_one_sentence_alone(tmp_path):
    samples, true = recorded(texts=TEXTS[1:2], commas=False)
    (found,), _ = heard(tmp_path, samples, texts=TEXTS[1:2])
    assert (found.start, found.end) == pytest.approx(true[0], abs=0.06)


@pytest.mark.parametrize("hum", [0.0, 0.08])
def test_pauses_are_found_with_their_ends(tmp_path, hum):
    """50 Hz hum about as loud as the voice changes nothing."""
    samples, true = recorded(seed=0, commas=False)
    samples = samples + hum * np.sin(2 * np.pi * 50 * np.arange(len(samples)) / RATE)
    pauses = find_pauses(read_voice(written(tmp_path / "voice.wav", samples)).levels)
    assert len(pauses.spans) == len(TEXTS) - 1
    wanted = [(end, start) for (_, end), (start, _) in zip(true, true[1:])]
    assert pauses.spans == pytest.approx(np.array(wanted), abs=0.12)


def test_the_recorders_button_is_no_speech(tmp_path):
    samples, true = recorded(seed=0, commas=False)
    samples[800:1200] += 0.5
    found, _ = heard(tmp_path, np.concatenate((samples, np.zeros(RATE // 2), np.full(300, 0.5), np.zeros(RATE // 4))))
    assert found[0].start == pytest.approx(true[0][0], abs=0.05) and found[-1].end == pytest.approx(true[-1][1], abs=0.12)


def test_sentences_stay_in_order_whatever_is_heard(tmp_path):
    for seed in range(4):
        samples = np.random.default_rng(seed).normal(0, 0.05, 6 * RATE) * np.repeat(np.random.default_rng(seed).integers(0, 2, 30), RATE // 5)
        found, _ = heard(tmp_path, samples)
        assert all(one.start <= one.end <= other.start + 1e-9 for one, other in zip(found, found[1:]))
        assert all(0 <= sentence.sure <= 1 + 1e-9 for sentence in found)


@pytest.mark.parametrize(("samples", "told"), [(np.zeros(5 * RATE), "silent"), (np.ones(RATE) * 0.1, "too short")])
def test_what_cannot_be_heard_is_told(tmp_path, samples, told):
    with pytest.raises(RecordingError, match=told):
        read_voice(written(tmp_path / "voice.wav", samples))


def test_no_sound_at_all_is_told(tmp_path):
    path = tmp_path / "voice.mp3"
    path.write_text("not a sound", encoding="utf-8")
    with pytest.raises(RecordingError, match="no sound can be read"):
        read_voice(path)


def test_the_voice_in_a_folder(tmp_path):
    assert find_voice(tmp_path) is None and find_voice(tmp_path / "nowhere") is None
    (tmp_path / "voice.txt").touch()
    (tmp_path / "Voice.M4A").touch()
    assert find_voice(tmp_path).name == "Voice.M4A"
    (tmp_path / "voice.wav").touch()
    with pytest.raises(RecordingError, match="which one"):
        find_voice(tmp_path)
