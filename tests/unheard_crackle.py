"""Recordings on which sorting crackle is judged: other parameters, other noise, other music than those it was built on.

``python tests/unheard_crackle.py`` judges once and writes `bench/crackle_judged.toml`, which the book shows.
"""

from pathlib import Path

import numpy as np
import tomlkit
from scipy.signal import butter, lfilter, sosfilt
from tqdm import tqdm

import benchreckoner.bench
from benchreckoner.bench.crackle_signs import signs
from benchreckoner.bench.crackle_sort import CAUSES, CHANGES, SAME, UNTRIED, crackle_tests, sort_crackle
from benchreckoner.bench.recordings import RATE, checked
from benchreckoner.files import save_whole
from benchreckoner.physics import crackle
from benchreckoner.physics.take import Take
from benchreckoner.units import Q

SEED, EACH, SECONDS = 52618, 30, 11.0
TRIED, PULLED = 0.75, 1 / 3  # how often a test is tried; how far the truth lies from the stated odds, towards a coin's


def organ(rng, time):
    """Held chords with vibrato, a drum whose pitch falls, and short hisses."""
    sound = np.zeros_like(time)
    for start in np.arange(0, SECONDS, 1.3):
        here = np.clip((time - start) / 0.06, 0, 1) * np.clip((start + 1.35 - time) / 0.06, 0, 1)
        for pitch in rng.uniform(90, 500, 3):
            turn = 2 * np.pi * pitch * (time + 1e-4 * np.sin(2 * np.pi * 5.5 * time))
            sound += here * sum(np.sin(order * turn) / order**1.5 for order in (1, 2, 3, 5))
    for number, start in enumerate(np.arange(0.2, SECONDS, rng.uniform(0.25, 0.6))):
        after = np.clip(time - start, 0, None)
        if number % 2:
            sound += rng.uniform(0.5, 1.5) * (after > 0) * np.exp(-after / 0.02) * rng.standard_normal(len(time))
        else:
            sound += 3 * np.exp(-after / 0.09) * np.sin(2 * np.pi * (45 * after + 5 * (1 - np.exp(-after / 0.03))))
    return sound


def talk(rng, time):
    """Like speech: pulses through moving resonances, in words with pauses, with sharp hisses."""
    marks = np.arange(0, SECONDS + 1, 0.4)
    pitch = rng.uniform(85, 210) * np.exp(np.interp(time, marks, 0.15 * rng.standard_normal(len(marks))))
    pulses = np.diff(np.floor(np.cumsum(pitch) / RATE), prepend=0.0)
    sound = np.zeros_like(time)
    for start in np.arange(0, SECONDS, 0.18):
        if rng.random() < 0.2:
            continue
        part = slice(int(start * RATE), min(len(time), int((start + 0.17) * RATE)))
        source = pulses[part] if rng.random() < 0.8 else rng.standard_normal(part.stop - part.start)
        for middle, width in ((rng.uniform(300, 800), 80), (rng.uniform(900, 2200), 120), (2600, 200)):
            size = np.exp(-np.pi * width / RATE)
            source = lfilter([1 - size], [1, -2 * size * np.cos(2 * np.pi * middle / RATE), size**2], source)
        sound[part] += source / max(np.std(source), 1e-9) * np.hanning(part.stop - part.start)
    return sound


def strings(rng, time):
    """Strummed strings: each a burst of noise that runs round a loop and loses its edge."""
    sound, start = np.zeros_like(time), 0.0
    while start < SECONDS:
        part = sound[int(start * RATE):]
        for number in range(rng.integers(1, 5)):
            period, first = int(RATE / rng.uniform(80, 450)), int(0.02 * number * RATE)
            burst = np.zeros(len(part))
            burst[first:first + period] = rng.uniform(-1, 1, len(burst[first:first + period]))
            part += lfilter([1], [1, *np.zeros(period - 1), -0.498, -0.498], burst)
        start += rng.uniform(0.2, 0.8)
    return sound


def fault(cause, take):
    """Drawn evenly, from ranges that overlap those built on and reach beyond them."""
    rng = take.rng
    if cause == "flicker":
        return crackle.contact_flicker(depth=rng.uniform(0.2, 0.9), step=Q(rng.uniform(0.02, 0.5), "V"), take=take,
                                       mean_open=Q(rng.uniform(1, 40), "ms"), mean_closed=Q(rng.uniform(50, 600), "ms"))
    if cause == "wiper":
        return crackle.worn_wiper(lift=rng.uniform(0.4, 1), step=Q(rng.uniform(0.02, 0.6), "V"), take=take,
                                  worn_places=int(rng.integers(10, 250)), turns=int(rng.integers(1, 8)))
    if cause == "leak":
        return crackle.leaky_bias(direct=Q(rng.uniform(0.3, 6), "V"), roughness=rng.uniform(0.002, 0.04), take=take,
                                  turns=int(rng.integers(1, 8)), drift=Q(rng.uniform(0.001, 0.2), "V"))
    if cause == "shared":
        return crackle.shared_supply_contact(ripple=Q(rng.uniform(0.02, 0.5), "V"), segments=int(rng.choice([3, 5, 7])),
                                             shaft=Q(rng.uniform(16, 60), "Hz"), sag=rng.uniform(0, 0.6), take=take,
                                             mean_bad=Q(rng.uniform(0.2, 5), "s"), mean_good=Q(rng.uniform(0.2, 5), "s"))
    return crackle.Fault(np.ones(take.count), Q(0, "V"))


def pink(rng, count):
    """Noise whose power falls as one over frequency."""
    spectrum = np.fft.rfft(rng.standard_normal(count)) / np.sqrt(np.arange(count // 2 + 1) + 1)
    noise = np.fft.irfft(spectrum, count)
    return noise / np.std(noise)


def unheard(cause, number, seed=SEED):
    """One recording as a reader's own may be: another level, another recorder, rounded to 16 bits.

    Each number has its own seed. Of the recordings without a fault every third holds a worn record's ticks.
    """
    rng = np.random.default_rng([seed, list(CAUSES).index(cause), number])
    take = Take(Q(SECONDS, "s"), Q(RATE, "Hz"), rng)
    sound = (organ, talk, strings)[number % 3](rng, take.seconds)
    sound = rng.uniform(0.05, 0.5) * sound / np.max(np.abs(sound))
    if cause not in ("wiper", "leak") and rng.random() < 0.5:
        sound = sound * (0.5 + 0.5 * crackle.turned(turns=int(rng.integers(1, 6)), take=take))
    heard = fault(cause, take).heard(Q(sound, "V")).m_as("V")
    if cause == "other" and number // 3 % 3 == 2:
        for start in rng.integers(0, take.count - 40, rng.poisson(rng.uniform(0.5, 8) * SECONDS)):
            heard[start:start + 40] += rng.laplace(0, 0.06) * np.hanning(40)
    heard = heard + rng.uniform(5e-4, 8e-3) * pink(rng, take.count)
    heard += rng.uniform(0, 0.01) * np.sin(2 * np.pi * 60 * take.seconds) + rng.uniform(0, 0.003) * np.sin(
        2 * np.pi * 180 * take.seconds)
    heard = sosfilt(butter(2, [rng.uniform(2, 80), rng.uniform(5000, 7900)], "bandpass", fs=RATE, output="sos"), heard)
    loud = 10 ** rng.uniform(-1, -0.03) * heard / np.max(np.abs(heard))
    return checked("unheard.wav", np.round(loud * 2**15) / 2**15, RATE).samples


def answered(cause, number):
    """Answers to the four tests by somebody whose machine does not quite keep to the stated odds."""
    rng = np.random.default_rng([SEED, 99, list(CAUSES).index(cause), number])
    answers = {}
    for test in crackle_tests():
        chance = test.changes[cause] + PULLED * (0.5 - test.changes[cause])
        changed = CHANGES if rng.random() < chance else SAME
        answers[test.name] = changed if rng.random() < TRIED else UNTRIED
    return answers


def judged(count=EACH):
    """What is named, by true cause and recording: from the recording alone, from the tests alone, and from both."""
    named = {"recording": {}, "tests": {}, "both": {}}
    for cause in CAUSES:
        rows = []
        for number in tqdm(range(count), desc=cause, delay=1):
            found, answers = signs(unheard(cause, number)), answered(cause, number)
            rows.append([sort_crackle(found=found).named, sort_crackle(answers=answers).named,
                         sort_crackle(found=found, answers=answers).named])
        for way, column in zip(named, zip(*rows)):
            named[way][cause] = list(column)
    return named


if __name__ == "__main__":
    document = tomlkit.document()
    document.add(tomlkit.comment("Written by tests/unheard_crackle.py, never by hand: what was named, one recording after the other."))
    document.update({"seed": SEED, "each": EACH, **judged()})
    save_whole(Path(benchreckoner.bench.__file__).with_name("crackle_judged.toml"), tomlkit.dumps(document))
