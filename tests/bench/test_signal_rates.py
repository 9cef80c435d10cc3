"""What passes sound on simulated benches with known truth: how often a verdict is wrong.

Each rate is printed (run pytest with -s to see them).
"""

import numpy as np
from signal_sheets import judged, sheet

from benchreckoner.bench.signal_judge import judge_signal
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD

OHMS, VOLTS, DECIBELS = (0.008, 0.02), (0.005, 2e-4), 0.2  # share and fixed part of each promise
TRIALS = 600


def right(word, truth, sound, bad):
    return word == UNTOLD or word == (SOUND if truth <= sound else BAD if truth >= bad else DOUBTFUL)


def typed(value, share, fixed, step, rng):
    """What a meter shows that errs anywhere within its limits."""
    shown = value * (1 + rng.uniform(-share, share)) + rng.uniform(-fixed, fixed)
    return max(0.0, round(shown / step) * step)


def test_simulated_contacts_are_seldom_judged_wrongly():
    """Two wires with their leads read, ohms from far below to far above the band (0.05 and 1 ohm)."""
    rng = np.random.default_rng(41)
    wrong = told = 0
    for _ in range(TRIALS):
        truth, leads = 10 ** rng.uniform(-2.5, 1), rng.uniform(0.05, 0.4)
        gain = rng.uniform(-OHMS[0], OHMS[0])
        shown = [max(0.0, round(ohms * (1 + gain) + rng.uniform(-OHMS[1], OHMS[1]), 2)) for ohms in (truth + leads, leads)]
        word = judged(sheet(("jack", "resistance", f"{shown[0]:.2f} ohm"), meter=f'leads = "{shown[1]:.2f} ohm"')).verdict.word
        wrong += not right(word, truth, 0.05, 1)
        told += word != UNTOLD
    print(f"\n{TRIALS} contacts by two wires: {wrong} judged wrongly, {told} told at all")
    assert wrong <= 0.02 * TRIALS and told >= 0.6 * TRIALS


def test_simulated_tracks_in_circuit_are_seldom_judged_wrongly():
    """A track anywhere from a third to three times what is written on it, a path within its tolerance across it."""
    rng = np.random.default_rng(42)
    wrong = told = false = needless = 0
    for _ in range(TRIALS):
        truth, path, tolerance = 1e4 * 3 ** rng.uniform(-1, 1), 10 ** rng.uniform(3.7, 5.3), rng.choice([0.01, 0.05, 0.1])
        reading = 1 / (1 / truth + 1 / (path * (1 + rng.uniform(-tolerance, tolerance))))
        parts = [("tone", "potentiometer", f'resistance = "10 kohm"\nacross = "R1 {path:.3f} ohm {100 * tolerance:.0f} %"')]
        made = sheet(("tone", "resistance", f"{typed(reading, OHMS[0], 20, 10, rng):.0f} ohm", "in circuit"), parts=parts)
        one = judged(made)
        true_word = SOUND if 8e3 <= truth <= 12e3 else BAD if truth <= 5e3 or truth >= 15e3 else DOUBTFUL
        wrong += one.verdict.word not in (UNTOLD, true_word)
        told += one.verdict.word != UNTOLD
        false += bool(judge_signal(made)[0].findings)
        needless += one.verdict.word == UNTOLD and not one.next
    print(f"\n{TRIALS} tracks in circuit: {wrong} judged wrongly, {told} told at all, {false} false contradictions")
    assert wrong <= 0.02 * TRIALS and told >= 0.5 * TRIALS and false <= 0.01 * TRIALS and not needless


def test_simulated_contacts_that_lie_still_are_seldom_said_to_move():
    rng = np.random.default_rng(43)
    accused = 0
    for _ in range(TRIALS // 2):
        levels = [f"{-10 + rng.uniform(-DECIBELS, DECIBELS):.1f} dB" for _ in range(4)]
        rows = [("jack", "level", levels[0]), *[("jack", "level", level, "wiggled") for level in levels[1:]]]
        accused += judged(sheet(*rows), "movement").verdict.word in (BAD, DOUBTFUL)
    print(f"\n{TRIALS // 2} contacts that lie still: {accused} said to move")
    assert accused <= 0.05 * TRIALS // 2
