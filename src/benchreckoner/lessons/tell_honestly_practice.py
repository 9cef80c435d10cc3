"""Exercises of book 07 on telling: the ± of a change, the upper end, words and minutes; the last one mixes them."""

from benchreckoner.physics.comparing import change_uncertainty
from benchreckoner.show.entry import Entry, entry_questions
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess
from benchreckoner.units import Q, show, show_known

_TRIPLES = ((3, 4), (6, 8), (5, 12), (8, 15), (9, 12), (2, 2), (4, 7))
HONEST_PART = "How sure, in words"


def spread_of_a_change(seed=None, blanks=1):
    """The ± of a change from those of two readings."""
    return exercise(_spread_of_a_change, key="tell-spread-of-a-change", seed=seed, blanks=blanks)


def rounded_for_the_ear(seed=None, blanks=1):
    """How far a figure may be rounded before it is said."""
    return exercise(_rounded, key="tell-rounded", seed=seed, blanks=blanks)


def words_that_fit(seed=None, blanks=2):
    """How many words of explanation fit into a talk, its figures and silences taken off."""
    return exercise(_words_that_fit, key="tell-words-that-fit", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several: the reader must tell first what is asked."""
    kinds = (_spread_of_a_change, _words_that_fit, _no_more_than, _wrong_in_all, _rate_needed, _rounded)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="tell-mixed", seed=seed, blanks=blanks)


def skip_ahead():
    """Three questions: all right leads straight to the reader's own script."""
    return entry_questions((
        Entry(ChoiceGuess(
            key="tell-entry-change", question="A link read 90 ± 6 mΩ before, 78 ± 8 mΩ after, on meters that share nothing. What do you tell?",
            choices=(
                Choice("It went down by about 12 milliohms, give or take 10.", "", right=True),
                Choice("It went down by about 12 milliohms, give or take 14.", "Adding takes the worst of both at once. Square, add, take the root: 10."),
                Choice("Nothing: the two ranges overlap.", "Ranges that overlap may still differ: what counts is the ± of the change, and that is 10."),
            )), HONEST_PART),
        Entry(ChoiceGuess(
            key="tell-entry-cure", question="Between two readings lie two actions, and the reading changed. Which one cured it?",
            choices=(
                Choice("The last one.", "Last is not cause: the first may have done it alone."),
                Choice("One of the two, or both.", "", right=True),
                Choice("Both.", "One alone may have been enough. No reading between them tells."),
            )), "The script from your sheet"),
        Entry(ChoiceGuess(
            key="tell-entry-digits", question="Your sheet says 826.8 ± 13 mΩ. What do you say aloud?",
            choices=(
                Choice("“826.8 milliohms.”", "Without its ± it claims a tenth of a milliohm."),
                Choice("“About 827 milliohms, give or take 13.”", "", right=True),
                Choice("“Roughly one ohm.”", "That gives away what you know: it is well below one, by more than ten times the ±."),
            )), HONEST_PART)), where="Your bench")


def _spread_of_a_change(rng):
    first, second = (float(size) for size in _TRIPLES[rng.integers(len(_TRIPLES))])
    unit, prefix = (("ohm", "mohm"), ("V", "mV"), ("A", "mA"))[rng.integers(3)]
    before, after = Q(float(rng.integers(60, 95)), prefix), Q(float(rng.integers(25, 50)), prefix)
    one, other = Q(first, prefix), Q(second, prefix)
    answer = change_uncertainty(before=one, after=other).to(unit)
    squares = first ** 2 + second ** 2
    return Problem(
        question="A reading before and one after, by meters that share nothing. You tell the change. What stands behind its ±?",
        given=(("before", show_known(before, one, unit)), ("after", show_known(after, other, unit))),
        answer=answer, unit=unit, tolerance=0.03,
        steps=(Step("Each ± squared, and added, in the unit shown:", f"{squares:g}"),
               Step("The root of that:", show(answer, unit))),
        slips=(Slip((one + other).to(unit), "Added, they are the worst of both at once. Chance seldom does that: square, add, take the root."),
               Slip(max(one, other).to(unit), "That is the larger one alone. The other one counts too, if less."),
               Slip(abs(one - other).to(unit), "The values are taken from each other. Their uncertainties never are: doubt grows."),
               Slip((before - after).to(unit), "That is the change itself. How sure is it?"),
               Slip((answer / 2).to(unit), "Both ± are expanded already, so the root is too: nothing is halved.")))


def _rounded(rng):
    half = Q(float(rng.choice([4, 6, 8, 12, 16, 20])), "mohm")
    value = Q(float(rng.integers(400, 900)) + 0.3, "mohm")
    answer = (half / 4).to("ohm")
    return Problem(
        question="You may round a figure for the ear, but move it by no more than a quarter of its ±. By how many ohms may this one move?",
        given=(("as the sheet has it", show_known(value, half, "ohm")),), answer=answer, unit="ohm", tolerance=0.02,
        steps=(Step("Its ±:", show(half, "ohm")), Step("A quarter of that:", show(answer, "ohm"))),
        slips=(Slip(half.to("ohm"), "That is the whole ±. Rounded by that, the figure could lie at the very edge of what you know."),
               Slip((half / 2).to("ohm"), "That is half of it, one standard uncertainty. We allow half of that again."),
               Slip((value / 4).to("ohm"), "A quarter of the ±, not of the value."),
               Slip((half * 4).to("ohm"), "Four times is the wrong way round: less than the ±, not more.")))


def _words_that_fit(rng):
    minutes, rate = int(rng.choice([3, 4, 5, 6, 8])), int(rng.choice([120, 140, 160, 180]))
    silent = int(rng.choice([20, 30, 45, 60]))
    answer = rate * (60 * minutes - silent) / 60
    return Problem(
        question="So long may the film be, so long nobody speaks while hands work. How many words may its script have?",
        given=(("length", f"{minutes} min"), ("without words", f"{silent} s"), ("words a minute", str(rate))),
        answer=Q(answer, ""), unit="", tolerance=0.02,
        steps=(Step("Seconds with words:", f"{60 * minutes - silent}"), Step("In minutes:", f"{(60 * minutes - silent) / 60:.4g}"),
               Step("Times the words a minute:", f"{answer:g}")),
        slips=(Slip(Q(float(rate * minutes), ""), "The silence has no words in it: take it off first."),
               Slip(Q(rate * (60 * minutes + silent) / 60, ""), "The silence comes <em>off</em> the length."),
               Slip(Q(float(rate * (60 * minutes - silent)), ""), "The rate counts words a <em>minute</em>: turn the seconds into minutes."),
               Slip(Q((60 * minutes - silent) / 60, ""), "Those are the minutes with words. How many words do they hold?")))


def _no_more_than(rng):
    value, half = Q(float(rng.choice([12, 18, 20, 26])), "mohm"), Q(float(rng.choice([28, 32, 34, 40])), "mohm")
    answer = (value + half).to("ohm")
    return Problem(
        question="A jack reads less than its own ±. You say: “no more than about …”. How many ohms?",
        given=(("as read", show_known(value, half, "ohm")),), answer=answer, unit="ohm", tolerance=0.03,
        steps=(Step("The value, and its ± on top:", show(answer, "ohm")),),
        slips=(Slip((value + 2 * half).to("ohm"), "The ± is expanded already (k = 2). It counts once."),
               Slip(value.to("ohm"), "It may well be more than was read: put the ± on top."),
               Slip(half.to("ohm"), "That is the ± alone. It stands round the value, not round nothing."),
               Slip((half - value).to("ohm"), "That is how far the range reaches below nothing. You want its upper end.")))


def _wrong_in_all(rng):
    said = int(rng.choice([20, 40, 60, 80, 120]))
    answer = 0.05 * said
    return Problem(
        question="Over the years you say “give or take” so often, each time with a ± that holds 95 of 100. In how many do you expect "
                 "the true value outside?",
        given=(("figures told", str(said)),), answer=Q(answer, ""), unit="", tolerance=0.02,
        steps=(Step("The share outside:", "0.05"), Step("Times the figures:", f"{answer:g}")),
        slips=(Slip(Q(0.95 * said, ""), "Those are the ones inside."), Slip(Q(0.0, ""), "Then the ± would be wider than it says: 95 of 100 is not all."),
               Slip(Q(0.025 * said, ""), "That is one end alone. It may lie above or below.")))


def _rate_needed(rng):
    words, minutes = int(rng.choice([480, 600, 750, 900])), int(rng.choice([4, 5, 6]))
    answer = words / minutes
    return Problem(
        question="Your script has so many words, and the film so many minutes. How fast must you speak, in words a minute?",
        given=(("words", str(words)), ("length", f"{minutes} min")), answer=Q(answer, ""), unit="", tolerance=0.02,
        steps=(Step("Words over minutes:", f"{answer:g}"),),
        slips=(Slip(Q(minutes / words, ""), "Upside down: words for each minute."),
               Slip(Q(words / (60 * minutes), ""), "That is words a second. A minute has 60.")))
