"""Exercises of book 07 on filming: two that fade, and one that mixes the laws."""

import numpy as np

from benchreckoner.physics.camera import change_by_reference, ripple_left, smear
from benchreckoner.physics.turning import seen_speed
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show, show_level


def seen_turning(seed=None, blanks=1):
    """How fast a pulley seems to turn on a film."""
    return exercise(_seen_turning, key="film-seen-turning", seed=seed, blanks=blanks)


def beside_another(seed=None, blanks=2):
    """How much louder a machine is, read beside a sound that stayed the same."""
    return exercise(_beside_another, key="film-beside-another", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_seen_turning, _beside_another, _longest_free, _smeared, _swing_left)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="film-mixed", seed=seed, blanks=blanks)


def _seen_turning(rng):
    marks, rate = int(rng.choice([1, 2, 3])), int(rng.choice([24, 25, 30]))
    whole, share = int(rng.integers(1, 4)), float(rng.choice([0.1, 0.2, 0.25, 0.3]))
    spacing = 60 * rate / marks
    speed = Q(spacing * (whole + share), "turn/min")
    seen = seen_speed(speed=speed, marks=marks, rate=Q(rate, "1/s"))
    return Problem(
        question="A pulley with marks, alike and evenly spaced, is filmed. How fast does it seem to turn?",
        given=(("its true speed", f"{speed.m:.6g} r/min"), ("marks on it", str(marks)), ("frames a second", str(rate))),
        answer=seen, unit="turn/min", tolerance=0.01,
        steps=(Step("The speed that moves it on by one spacing a frame (60 times the frames, over the marks):", f"{spacing:.6g} r/min"),
               Step("How often that goes into the true speed, to the nearest whole number:", str(whole)),
               Step("What is left of the true speed:", f"{seen.m:.6g} r/min".replace("-", "−"))),
        slips=(Slip(speed, "That is the true speed. The eye takes the nearest mark for the same one."),
               Slip(Q(float(speed.m) - whole * 60 * rate, "turn/min"), "With several marks alike, a part of a turn already looks the same: divide the spacing by the marks.")))


def _beside_another(rng):
    before, change = -float(rng.integers(28, 36)), float(rng.integers(3, 12))
    reference, gain = -float(rng.integers(18, 24)), -float(rng.integers(2, 7))
    levels = [Q(level, "dB") for level in (before, before + change + gain, reference, reference + gain)]
    answer = change_by_reference(before=levels[0], after=levels[1], reference_before=levels[2], reference_after=levels[3])
    return Problem(
        question="In each of two recordings stand your machine and another player that was not touched. By how many decibels did your "
                 "machine grow louder?",
        given=tuple((name, show_level(level)) for name, level in zip(
            ("machine, before", "machine, after", "other player, before", "other player, after"), levels)),
        answer=answer, unit="dB", tolerance=0.01,
        steps=(Step("The machine below the other player, before:", show_level(levels[0] - levels[2])),
               Step("The same, after:", show_level(levels[1] - levels[3])),
               Step("The second less the first:", show_level(answer))),
        slips=(Slip(levels[1] - levels[0], "That holds what the recorder's gain did as well. The other player shows by how much it moved."),
               Slip(levels[1] - levels[0] + (levels[3] - levels[2]), "Take the other player's change off; it is the recorder's, not the machine's.")))


def _longest_free(rng):
    mains, rate = int(rng.choice([50, 60])), int(rng.choice([24, 25, 30, 48]))
    most = int(2 * mains / rate + 1e-9)
    answer = Q(most / (2 * mains), "s")
    return Problem(
        question="Which is the longest shutter that leaves nothing of the lamps' flicker and still fits into one frame?",
        given=(("mains", f"{mains} Hz"), ("frames a second", str(rate))),
        answer=answer, unit="s", tolerance=0.01,
        steps=(Step("One swing of the lamps, one over twice the mains:", show(Q(0.5 / mains, "s"), "s", digits=4)),
               Step("How many of them fit whole into a frame:", str(most)),
               Step("These together:", show(answer, "s", digits=4))),
        slips=tuple(Slip(Q(value, "s"), words) for value, words in (
            (1 / rate, "That is the frame. It leaves nothing only where it holds whole swings."),
            (0.5 / mains, "That is one swing, and free of flicker. A frame has room for more."))
            if not np.isclose(value, answer.m, rtol=0.02)))


def _smeared(rng):
    speed, part = Q(float(rng.choice([1500, 1800, 2400, 3000])), "turn/min"), int(rng.choice([500, 1000, 2000]))
    turned = smear(speed=speed, exposure=Q(1 / part, "s"))
    answer = Q(360 * turned.m, "degree")
    return Problem(
        question="By how many degrees does a mark on this pulley turn while the shutter is open?",
        given=(("speed", show(speed, "turn/min", digits=4)), ("shutter", f"1/{part} s")),
        answer=answer, unit="degree", tolerance=0.01,
        steps=(Step("Turns a second, speed over 60:", f"{speed.m / 60:.4g}"),
               Step("Turns while it is open:", f"{turned.m:.4g}"), Step("Times 360:", f"{answer.m:.4g} degree")),
        slips=(Slip(60 * answer, "Those are turns a minute. Divide by 60 first."),))


def _swing_left(rng):
    mains, part = int(rng.choice([50, 60])), int(rng.choice([80, 160, 200, 250, 400]))
    left = float(ripple_left(frequency=Q(2 * mains, "Hz"), exposure=Q(1 / part, "s")))
    swings = 2 * mains / part
    return Problem(
        question="How many per cent of a lamp's swing does this shutter leave?",
        given=(("mains", f"{mains} Hz"), ("shutter", f"1/{part} s")),
        answer=Q(100 * left, "percent"), unit="%", tolerance=0.02,
        steps=(Step("Swings while it is open, twice the mains times the shutter:", f"{swings:.4g}"),
               Step("π times that, as an angle in radians:", f"{np.pi * swings:.4f}"),
               Step("The size of its sine over itself:", f"{100 * left:.2f} %")),
        slips=(Slip(Q(100 * abs(np.sinc(mains / part)), "percent"), "A lamp swings twice in each cycle of the mains."),))
