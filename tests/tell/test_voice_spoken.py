"""A synthesised voice with known times: it is found, and whatever else it is taken for is refused."""

import tomllib

import av
import numpy as np
import pytest
from scipy.signal import resample_poly

from benchreckoner import project
from benchreckoner.tell.align import STEP, Pauses, align
from benchreckoner.tell.captions import Spoken
from benchreckoner.tell.voice import Voice, _Levels, place_sentences, read_voice

RECORDINGS = project.ROOT / "shared" / "recordings"
TOLD = tomllib.loads((RECORDINGS / "spoken.toml").read_text(encoding="utf-8"))
TRUE = [(one["start"], one["end"]) for one in TOLD["sentence"]]
TEXTS = [one["text"] for one in TOLD["sentence"]]
RATE = 16000


def spoken(texts=TEXTS):
    return [Spoken(text, 3.0 * place, 3.0 * place + 3.0) for place, text in enumerate(texts)]


@pytest.fixture(scope="module")
def samples():
    with av.open(str(RECORDINGS / TOLD["recording"])) as file:
        plain = np.concatenate([frame.to_ndarray()[0] for frame in file.decode(audio=0)]) / 32768
    return resample_poly(plain, 2, 1)


def heard(samples, texts=TEXTS):
    blocks = _Levels()
    blocks.add(samples)
    return place_sentences(Voice("voice.wav", blocks.levels), spoken(texts))


def missed(found, true=TRUE):
    return np.abs(np.array([one.start for one in found]) - np.array([start for start, _ in true]))


def noise(samples, decibels):
    return samples + np.random.default_rng(1).normal(0, 10 ** (decibels / 20), len(samples))


def music(seconds, decibels):
    """Chords of three notes that die away, with a beat."""
    chance, found = np.random.default_rng(2), np.zeros(round(seconds * RATE))
    for start in np.arange(0, len(found) - RATE, RATE // 4):
        along = np.arange(RATE) / RATE
        notes = chance.choice([220, 277, 330, 440, 554, 660], 3, replace=False)
        found[start:start + RATE] += np.exp(-3 * along) * sum(np.sin(2 * np.pi * note * along) for note in notes)
    return found / found.std() * 10 ** (decibels / 20)


def test_a_voice_in_a_quiet_room_is_found():
    found, remarks = place_sentences(read_voice(RECORDINGS / TOLD["recording"]), spoken())
    assert np.mean(missed(found) <= 0.3) >= 0.95 and np.median(missed(found)) < 0.05, remarks
    assert [one.end for one in found] == pytest.approx([end for _, end in TRUE], abs=0.3)
    assert all(one.sure >= 0.8 for one in found) and remarks == ()


@pytest.mark.parametrize("decibels", [-60, -50, -45])
def test_a_voice_in_a_noisy_room_is_found(samples, decibels):
    found, remarks = heard(noise(samples, decibels))
    assert np.mean(missed(found) <= 0.3) >= 0.95, remarks


@pytest.mark.parametrize("pace", [(4, 5), (5, 4)])
def test_a_slow_and_a_fast_voice_are_found(samples, pace):
    true = np.array(TRUE) * pace[0] / pace[1]
    found, remarks = heard(resample_poly(samples, *pace))
    assert np.mean(missed(found, true) <= 0.3) >= 0.95, remarks


def test_a_steady_voice_is_sure_though_its_pauses_are_short(samples):
    """Sentences a quarter of a second apart, no longer than at a comma: their lengths part them."""
    parts = [samples[round((start - 0.12) * RATE):round((end + 0.12) * RATE)] for start, end in TRUE]
    found, remarks = heard(np.concatenate(parts))
    starts = np.cumsum([0, *(len(part) / RATE for part in parts[:-1])]) + 0.12
    assert missed(found, [(start, 0) for start in starts]).max() < 0.1 and remarks == ()


def test_a_sentence_said_twice_spoils_none_but_its_neighbours(samples):
    """The fourth sentence is said again, from the third pause on."""
    begin, end = (round(time * RATE) for time in (TRUE[3][0] - 0.3, TRUE[3][1]))
    found, remarks = heard(np.concatenate((samples[:end], samples[begin:])))
    kept = [*range(3), *range(5, 12)]
    true = [(start + (end - begin) / RATE * (place > 3), 0) for place, (start, _) in enumerate(TRUE)]
    assert np.mean(missed([found[place] for place in kept], [true[place] for place in kept]) <= 0.3) >= 0.9, remarks


OTHER = {"the sentences the other way round": TEXTS[::-1], "longer and longer ones": sorted(TEXTS, key=len),
         "shuffled": [TEXTS[place] for place in np.random.default_rng(35).permutation(12)],
         "other words": ["It rained."] * 6 + ["By noon the whole town knew what had happened to the smallest of the three boats that had gone out."] * 4
         + ["Nobody spoke."] * 2}


@pytest.mark.parametrize("texts", OTHER.values(), ids=OTHER)
def test_another_text_is_refused_and_keeps_its_planned_times(samples, texts):
    found, (remark,) = heard(samples, texts)
    assert "do not fit the sentences" in remark and "Another text, another language" in remark
    by = len(samples) / RATE / 36
    assert [one.start for one in found] == pytest.approx([3 * by * place for place in range(12)], abs=0.01)
    assert all(one.sure == 0 for one in found) and "stretched to the recording's length" in remark


def test_half_of_it_is_refused(samples):
    found, (remark,) = heard(samples[:len(samples) // 2])
    assert "only part of it?" in remark or "a part left out" in remark
    assert [one.start for one in found] == [3.0 * place for place in range(12)] and "not the recording's, which is 22 s long" in remark


@pytest.mark.parametrize("decibels", [-34, -28, -20])
def test_music_under_it_is_told(samples, decibels):
    found, remarks = heard(samples + music(len(samples) / RATE, decibels))
    wrong = missed(found) > 0.3
    assert any("music" in remark or "Not sure" in remark for remark in remarks)
    assert sum(one.sure >= 0.8 for one, far in zip(found, wrong) if far) <= 1, remarks


def test_noise_alone_is_no_voice():
    found, (remark,) = heard(np.random.default_rng(0).normal(0, 0.1, 3 * RATE))
    assert "no voice" in remark and [one.start for one in found] == [3.0 * place for place in range(12)]


def levels(*stretches):
    """Levels of stretches of (seconds, decibels)."""
    return np.concatenate([np.full(round(seconds / STEP), float(level)) for seconds, level in stretches])


def test_only_speech_counts_as_a_sentences_length():
    """Eight short pieces with pauses between them, then one piece as long as all eight."""
    pieces = [(0.25, -20), (0.3, -80)] * 8
    laid = align(levels(*pieces, (2.0, -20)), Pauses(np.array([(0.25, 0.55)]) + 0.55 * np.arange(8)[:, None], 0.0, 6.4), [10, 10])
    assert laid.sentences[1].start == pytest.approx(8 * 0.55)


def test_a_voice_that_runs_on_is_parted_where_it_dips():
    """No pause at all; the voice falls for a twentieth of a second and is loudest elsewhere."""
    told = levels((1.1, -20), (0.1, -12), (0.85, -20), (0.05, -32), (0.6, -20), (0.1, -12), (1.2, -20))
    first, second = align(told, Pauses(np.zeros((0, 2)), 0.0, 4.0), [10, 10]).sentences
    assert first.end == second.start == pytest.approx(2.05, abs=0.06)
    assert first.sure <= 0.5 and second.sure <= 0.5, "an end that no pause was heard at is never sure"


def test_a_click_in_a_pause_does_not_part_it(samples):
    clicked = samples.copy()
    for (_, end), (start, _) in zip(TRUE, TRUE[1:]):
        middle = round((end + start) / 2 * RATE)
        clicked[middle:middle + 100] += 0.3
    found, _ = heard(clicked)
    assert np.mean(missed(found) <= 0.3) >= 0.95


def test_few_sentences_do_not_tell_which_text_it_is(samples):
    end = round((TRUE[2][1] + 0.3) * RATE)
    found, remarks = heard(samples[:end], TEXTS[:3])
    assert any("too few, or too much alike, to tell" in remark for remark in remarks) and missed(found, TRUE[:3]).max() < 0.3


def test_sentences_of_one_length_do_not_tell_their_order():
    parts = [(1.5, -20), (0.6, -80)] * 8
    laid = align(levels(*parts), Pauses(np.array([(1.5, 2.1)]) + 2.1 * np.arange(7)[:, None], 0.0, 16.2), [9, 10] * 4)
    assert laid.gain is None and all(one.sure > 0.8 for one in laid.sentences)


def test_two_sentences_hardly_tell_how_far_a_voice_strays():
    """Ten with those eight that are taken as usual; the two do not stray at all."""
    laid = align(levels((2.0, -20), (0.6, -80), (1.0, -20)), Pauses(np.array([(2.0, 2.6)]), 0.0, 3.6), [20, 10])
    assert laid.strays == pytest.approx(8 / 10, abs=0.01)
