"""Make `bench/crackle_counts.toml`: reckon recordings of each cause and count where their signs fall.

Run it with ``python assets/crackle_counts.py``; it takes some minutes and can be stopped.
"""

from pathlib import Path

import numpy as np
import tomlkit
from scipy.signal import butter, sosfilt
from tqdm import tqdm

import benchreckoner.bench
from benchreckoner.bench.crackle_signs import signs
from benchreckoner.bench.crackle_sort import CAUSES
from benchreckoner.bench.recordings import RATE
from benchreckoner.files import save_whole
from benchreckoner.physics import crackle
from benchreckoner.physics.take import Take
from benchreckoner.physics.tunes import plucked_tune
from benchreckoner.units import Q

EACH, SECONDS, BOXES = 150, 8.0, 5
_SEED = 20


def between(rng, low, high):
    """A number drawn evenly on a log scale."""
    return float(np.exp(rng.uniform(np.log(low), np.log(high))))


def fault(cause, take):
    """A fault of this cause, its strength drawn; with a sound control somebody may turn as well."""
    rng = take.rng
    if cause == "flicker":
        return crackle.contact_flicker(depth=rng.uniform(0.3, 1), step=Q(between(rng, 0.01, 0.3), "V"), take=take,
                                       mean_open=Q(between(rng, 0.3, 20), "ms"), mean_closed=Q(between(rng, 30, 400), "ms"))
    if cause == "wiper":
        return crackle.worn_wiper(lift=rng.uniform(0.5, 1), step=Q(between(rng, 0.02, 0.4), "V"), take=take,
                                  worn_places=int(rng.integers(20, 150)), turns=int(rng.integers(2, 6)))
    if cause == "leak":
        return crackle.leaky_bias(direct=Q(between(rng, 0.3, 4), "V"), roughness=between(rng, 0.003, 0.03), take=take,
                                  drift=Q(between(rng, 0.005, 0.1), "V"), turns=int(rng.integers(2, 6)))
    if cause == "shared":
        return crackle.shared_supply_contact(ripple=Q(between(rng, 0.02, 0.3), "V"), segments=int(rng.choice([3, 5])),
                                             shaft=Q(between(rng, 20, 50), "Hz"), sag=rng.uniform(0, 0.4), take=take,
                                             mean_bad=Q(between(rng, 0.3, 3), "s"), mean_good=Q(between(rng, 0.3, 3), "s"))
    return crackle.Fault(np.ones(take.count), Q(0, "V"))


def music(take):
    """A plucked tune, alone or with a drum or a voice; a voice; edged tones; or next to nothing."""
    rng = take.rng
    tune = plucked_tune(level=Q(1, "V"), lowest=Q(rng.uniform(110, 330), "Hz"), note=Q(rng.uniform(0.15, 0.7), "s"),
                        brightness=rng.uniform(0, 1), take=take).m_as("V")
    kind = rng.choice(["tune", "drum", "voice", "both", "edged", "silence"])
    if kind == "silence":
        return 0.01 * tune
    added = {"tune": lambda take: 0, "drum": drum, "voice": murmur, "both": murmur, "edged": edged}[kind](take)
    sound = added if kind in ("voice", "edged") else tune + rng.uniform(0.3, 1) * added
    return between(rng, 0.1, 0.6) * sound / np.max(np.abs(sound))


def drum(take):
    """A low drum on each beat, a hiss on every other."""
    rng, sound, pitch = take.rng, np.zeros(take.count), take.rng.uniform(60, 110)
    for number, start in enumerate(np.arange(rng.uniform(0, 0.5), SECONDS, rng.uniform(0.35, 0.8))):
        after = np.clip(take.seconds - start, 0, None)
        sound += np.exp(-after / 0.06) * np.sin(2 * np.pi * pitch * after)
        if number % 2:
            sound += 0.4 * (after > 0) * np.exp(-after / 0.04) * rng.standard_normal(take.count)
    return sound / np.max(np.abs(sound))


def murmur(take):
    """A voice without words: a gliding buzz in syllables, and hisses between."""
    rng, time = take.rng, take.seconds
    pitch = rng.uniform(90, 220) * (1 + 0.15 * np.sin(2 * np.pi * rng.uniform(0.3, 0.8) * time + rng.uniform(0, 6)))
    turn = 2 * np.pi * np.cumsum(pitch) / take.each_second
    syllables = np.clip(np.sin(2 * np.pi * rng.uniform(2, 4) * time) + rng.uniform(-0.2, 0.4), 0, None)
    hisses = np.clip(np.sin(2 * np.pi * rng.uniform(0.8, 2) * time) - 0.8, 0, None)
    sound = sum(np.sin(order * turn) / order for order in range(1, 16)) * syllables
    sound += 3 * hisses * rng.standard_normal(take.count)
    return sound / np.max(np.abs(sound))


def edged(take):
    """Tones that jump in each cycle, as some instruments made of valves and chips do: saw teeth or a square wave."""
    rng, step = take.rng, take.rng.uniform(0.15, 0.6)
    pitch = rng.uniform(80, 300) * 2 ** (rng.integers(0, 13, int(SECONDS / step) + 1) / 12)
    turn = np.cumsum(pitch[(take.seconds / step).astype(int)]) / take.each_second
    wave = turn % 1 - 0.5 if rng.random() < 0.5 else np.sign(turn % 1 - 0.5)
    return wave * np.clip(take.seconds % step / 0.01, 0, 1) * np.exp(-rng.uniform(0, 2) * (take.seconds % step) / step)


def ticks(take):
    """A worn record's own ticks: none of the four causes."""
    rng, sound, time = take.rng, np.zeros(take.count), np.arange(200) / take.each_second
    for start in rng.integers(0, take.count - 200, rng.poisson(between(rng, 0.3, 6) * SECONDS)):
        sound[start:start + 200] += (rng.normal() * np.exp(-time / between(rng, 1e-4, 6e-4))
                                     * np.cos(2 * np.pi * rng.uniform(500, 4000) * time))
    return sound


def recorded(cause, rng):
    """One reckoned recording at `RATE`: music, the fault, a recorder that hears no lowest tones, hiss, perhaps hum."""
    take = Take(Q(SECONDS, "s"), Q(RATE, "Hz"), rng)
    sound = music(take)
    if cause not in ("wiper", "leak") and rng.random() < 0.5:
        sound = sound * (0.5 + 0.5 * crackle.turned(turns=int(rng.integers(2, 6)), take=take))
    heard = fault(cause, take).heard(Q(sound, "V")).m_as("V")
    if cause == "other" and rng.random() < 0.3:
        heard = heard + between(rng, 0.01, 0.2) * ticks(take)
    heard = sosfilt(butter(1, between(rng, 3, 60), "highpass", fs=RATE, output="sos"), heard)
    heard = heard + between(rng, 3e-4, 5e-3) * rng.standard_normal(take.count)
    return heard + rng.choice([0, between(rng, 3e-4, 6e-3)]) * np.sin(2 * np.pi * 50 * take.seconds)


def counted():
    """The document: edges of the boxes, and counts by cause and sign."""
    rng = np.random.default_rng(_SEED)
    found = {cause: [signs(recorded(cause, rng)) for _ in tqdm(range(EACH), desc=cause)] for cause in CAUSES}
    names = list(found["other"][0])
    pooled = {name: [one[name] for many in found.values() for one in many] for name in names}
    edges = {name: [float(f"{edge:.4g}") for edge in np.quantile(pooled[name], np.arange(1, BOXES) / BOXES)] for name in names}
    counts = {cause: {name: np.bincount(np.searchsorted(edges[name], [one[name] for one in many]), minlength=BOXES).tolist()
                      for name in names} for cause, many in found.items()}
    document = tomlkit.document()
    document.add(tomlkit.comment("Written by assets/crackle_counts.py, never by hand."))
    document.add(tomlkit.comment(f"Of {EACH} reckoned recordings of each cause, how many fell into each of {BOXES} boxes."))
    document.update({"edges": edges, "counts": counts})
    return tomlkit.dumps(document)


if __name__ == "__main__":
    save_whole(Path(benchreckoner.bench.__file__).with_name("crackle_counts.toml"), counted())
