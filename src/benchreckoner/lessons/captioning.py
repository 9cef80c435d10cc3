"""Book 07, captions: how long they stand, what a recording of the voice tells, and exercises."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.reading import WORD_SECONDS, reading_time
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.units import Q, show

_LEAST_GAP = 1.0  # s between two captions, or none


def guess_flash():
    """Guess first: what to do with a short silence between two captions."""
    return choice_guess(ChoiceGuess(
        key="captions-gap",
        question="Between two sentences you are silent for 0.4 s. What happens to the captions in that time?",
        choices=(
            Choice("The screen is empty for 0.4 s, as the voice is.", "So short a gap is seen as a flash, and the eye jumps. Less than a second of nothing disturbs more than it helps."),
            Choice("The first one stays until the second one comes.", "One follows the other without a gap. From about a second and a half of silence on the screen may be empty.", right=True),
            Choice("The second one comes 0.4 s early.", "Then it tells what has not been said yet. Captions come with the voice."),
            Choice("Both stand together for 0.4 s.", "Nobody can read both, and four lines hide your hands."),
        )), store=my_guesses())


def guess_heard():
    """Guess first: what can be told from the loudness of a voice alone."""
    return choice_guess(ChoiceGuess(
        key="captions-heard",
        question="You read your script to the phone. A program that hears only how loud it is, not a single word, is to find when each sentence began. Can it?",
        choices=(
            Choice("No: without the words there is nothing to go by.", "It has the script. Long sentences take long, short ones are short, and between them you breathe."),
            Choice("Yes, and it knows when you said something else.", "It does not. Another sentence of the same length looks just the same."),
            Choice("Yes, where you paused between sentences; elsewhere it can say how unsure it is.",
                   "Pauses and lengths together fix most of them. Where you ran on, several places fit about as well, and it says so.", right=True),
            Choice("Only if you read like a metronome.", "A tenth faster or slower does no harm: the pauses hold it."),
        )), store=my_guesses())


def stands_long_enough(seed=None, blanks=1):
    """How long a caption must stand."""
    return exercise(_stands, key="captions-stands", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several questions on captions."""
    kinds = (_stands, _words_a_minute, _longest_text)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="captions-mixed", seed=seed, blanks=blanks)


def _stands(rng):
    words, spoken = int(rng.integers(7, 14)), float(rng.choice([1.2, 1.5, 1.8]))
    least = reading_time(words=words)
    later = Q(least.m - spoken, "s")
    return Problem(
        question="A caption comes with its sentence. The voice hurries and is done before the caption can be read. How long must the caption stay "
                 "after the voice has stopped?",
        given=(("words", str(words)), ("time that the voice takes", show(Q(spoken, "s"), "s")), ("a word takes at least", f"{WORD_SECONDS} s")),
        answer=later, unit="s", tolerance=Q(0.03, "s"),
        steps=(Step("Words times the least time for a word:", show(least, "s")), Step("Less what the voice takes:", f"{later.m:.2f} s")),
        slips=(Slip(least, "That is the whole time on the screen. Part of it runs while you speak."),))


def _words_a_minute(rng):
    words, seconds = int(rng.integers(8, 15)), float(rng.choice([2.5, 3.0, 3.5, 4.0]))
    rate = Q(60 * words / seconds, "1/min")
    return Problem(
        question="How many words a minute is this caption?", given=(("words", str(words)), ("it stands for", show(Q(seconds, "s"), "s"))),
        answer=Q(float(rate.m), ""), unit="", tolerance=0.01,
        steps=(Step("Words a second:", f"{words / seconds:.4f}"), Step("Times 60:", f"{rate.m:.1f}")),
        slips=(Slip(Q(words / seconds, ""), "Those are words a second."), Slip(Q(60 * seconds / words, ""), "Upside down: words over time.")))


def _longest_text(rng):
    seconds = float(rng.choice([2.4, 3.0, 3.6, 4.2]))
    silence = float(rng.choice([2.0, 2.5, 3.0]))
    room = seconds + silence - _LEAST_GAP
    words = int(np.floor(room / WORD_SECONDS + 1e-9))
    stay = Q(min(room, seconds + 1.5), "s")
    return Problem(
        question="A caption may stay up to 1.5 s after its voice, and then the screen must be empty for a second at least before the next one. How long "
                 "can it stand at most?",
        given=(("time that the voice takes", show(Q(seconds, "s"), "s")), ("silence until the next sentence", show(Q(silence, "s"), "s"))),
        answer=stay, unit="s", tolerance=0.01,
        steps=(Step("Voice and silence, less the second of nothing:", f"{room:.2f} s, room for {words} words"),
               Step("Voice and the longest stay after it:", f"{seconds + 1.5:.2f} s"), Step("The shorter of both:", f"{stay.m:.2f} s")),
        slips=(Slip(Q(seconds + silence, "s"), "Then there would be no gap at all."),))
