"""Book 07, captions: how long they stand, in a picture too, what a recording of the voice tells, and exercises."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.reading import LEAST_GAP, LONGEST_STAY, WORD_SECONDS, caption_stay, reading_time
from benchreckoner.show.declare import LivePicture, Slider
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show

_CAPTIONS, _VOICE = 1, 2  # rows of the picture
_LAST = 16.0  # s, the end of its axis
OURS = ("The captions go with your voice, which was heard by its loudness only; 37 of 40 sentence ends are at least 80 per cent sure. Three are not, "
        "so look at those, and no word was checked.")


def caption_times(*, words, rate, silence):
    """Two sentences of as many words along time, and when the caption of each comes and goes.

    Parameters
    ----------
    words : float
        In each.
    rate : float
        Words a minute, as spoken.
    silence : float
        Seconds between the two.

    Returns
    -------
    Picture
    """
    count, voice = round(words), 60 * words / rate
    first = float(caption_stay(words=count, voice=Q(voice, "s"), silence=Q(silence, "s")).m)
    last = float(caption_stay(words=count, voice=Q(voice, "s"), silence=Q(_LAST, "s")).m)
    second = voice + silence
    gap = second - first
    until = ("stays until the second one comes" if gap < 1e-9 else
             f"goes {_after(first - voice)}, and the screen is empty for {gap:.1f} s")
    told = (f"{count} words at {rate:.0f} a minute take {voice:.1f} s to say and {WORD_SECONDS * count:.1f} s to read. With {silence:.1f} s of silence "
            f"behind them the first caption {until}; the second one goes {_after(last - voice)}.")
    return Picture(
        title="When captions come and go",
        x=Axis("time", "s", 0, _LAST), y=Axis("", "", 0.4, 2.6, ticks=((_CAPTIONS, "captions"), (_VOICE, "voice"))),
        curves=(Curve("voice", [0, voice, np.nan, second, second + voice], np.full(5, _VOICE), "first"),
                Curve("captions", [0, first, np.nan, second, second + last], np.full(5, _CAPTIONS), "heavy")),
        points=(Point("1", 0, _CAPTIONS), Point("2", second, _CAPTIONS, "other")), limits=(Limit("first voice ends", "x", voice),),
        sentence=told, alt=f"Two rows along time: above, two stretches of voice with a silence between them; below, the two captions. {told}")


CAPTION_TIMES = LivePicture(
    key="caption-times", picture=caption_times,
    sliders=(Slider("words", "words of each sentence", "", tuple(range(3, 13)), start=8),
             Slider("rate", "words a minute", "", tuple(range(120, 261, 20)), start=160),
             Slider("silence", "seconds of silence between them", "", tuple(tenth / 10 for tenth in range(41)), start=0.4)),
    goal="Find the longest silence in which the first caption stays until the second one comes. Then speak faster: from how many words a minute on "
         "does the second caption outlast its voice?",
    phone_sliders=("rate", "silence"))


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
        )), reveal=opening(CAPTION_TIMES), store=my_guesses())


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


def say_aligned():
    """Say it: what captions aligned to a voice may be trusted for."""
    return say_it(
        "captions-aligned", "Your captions were laid over a recording of your voice: of 40 sentence ends, 37 are at least 80 % sure. Tell whoever will "
        "publish the film, in two sentences, what was done, how sure it is, and what it does not show.", ours=OURS, store=my_guesses(),
        checks=SayChecks(what=("captions", "subtitles"), quantities=(), known=("loudness", "loud", "37", "pauses"), most_words=30))


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
    room = seconds + silence - LEAST_GAP
    words = int(np.floor(room / WORD_SECONDS + 1e-9))
    stay = Q(min(room, seconds + LONGEST_STAY), "s")
    return Problem(
        question="A caption may stay up to 1.5 s after its voice, and then the screen must be empty for a second at least before the next one. How long "
                 "can it stand at most?",
        given=(("time that the voice takes", show(Q(seconds, "s"), "s")), ("silence until the next sentence", show(Q(silence, "s"), "s"))),
        answer=stay, unit="s", tolerance=0.01,
        steps=(Step("Voice and silence, less the second of nothing:", f"{room:.2f} s, room for {words} words"),
               Step("Voice and the longest stay after it:", f"{seconds + LONGEST_STAY:.2f} s"), Step("The shorter of both:", f"{stay.m:.2f} s")),
        slips=(Slip(Q(seconds + silence, "s"), "Then there would be no gap at all."),))


def _after(seconds):
    return f"{seconds:.1f} s after its voice" if seconds > 0.05 else "with its voice"
