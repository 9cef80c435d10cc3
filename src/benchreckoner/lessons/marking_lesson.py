"""Book 03, markings: one line typed from the part, and what it says; a guess and two exercises."""

from html import escape

import ipywidgets

from benchreckoner.bench.part_marking import read_marking, tolerance_words
from benchreckoner.lessons.your_bench import my_guesses
from benchreckoner.physics.colour_bands import DIGITS, TOLERANCES, colours
from benchreckoner.physics.markings import letter_code, old_words, three_figures
from benchreckoner.physics.preferred import SERIES, nearest_preferred
from benchreckoner.physics.tolerances import letter_tolerance
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.words import above, alert_area, button, card, on_enter, row, status_area, text_box, trouble
from benchreckoner.units import Q, show, show_exact

_UNITS = {"resistor": "ohm", "capacitor": "F"}
_TO_BUY = {"resistor": "E24", "capacitor": "E6"}  # what shops keep. Common practice.


def guess_both_ends():
    """Guess first: five bands that can be read from both ends; the form for markings opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="marking-both-ends", question="A small resistor shows five bands: brown, black, black, red, brown. The gaps "
        "between them look alike. What is it?",
        choices=(
            Choice("10 kΩ. One reads from the left.", "A part has no left: it went in as the hand held it. From the other end "
                   "the same bands are brown, red, black, black, brown: 120 Ω."),
            Choice("Nothing: these bands are not allowed.", "Both ways round they are. 100 and two noughts is 10 kΩ; 120 and no "
                   "nought is 120 Ω. Both are made by the million."),
            Choice("10 kΩ or 120 Ω. Only a meter tells.", "Brown at both ends means 1 or 1 %, so both ends can be the first. "
                   "Gold or silver at one end would have settled it: neither is a digit.", right=True),
        )), reveal=marking_form, store=my_guesses())


def marking_form():
    """A form that reads one typed line from a part; nothing is written anywhere."""
    return _Reader().view


def reading_html(text, part):
    """What a marking says, as HTML made from escaped parts.

    Parameters
    ----------
    text : str
    part : str
        ``"resistor"`` or ``"capacitor"``.

    Returns
    -------
    str

    Raises
    ------
    ValueError
        Says what the marking could mean.
    """
    readings = read_marking(text, part)
    lines = "".join(f"<li>{_told(one, part)}</li>" for one in readings)
    if len(readings) == 1:
        return f"<p>One reading fits:</p><ul>{lines}</ul>"
    return (f"<p>{len(readings)} readings fit, the likelier first. Before you trust one, measure the part, or look at its size "
            f"and its place in the circuit:</p><ul>{lines}</ul>")


def bands(seed=None, blanks=1):
    """The most ohms that a resistor's bands allow."""
    return exercise(_bands, key="marking-bands", seed=seed, blanks=blanks)


def code(seed=None, blanks="all"):
    """The least farads that a capacitor's printing allows."""
    return exercise(_code, key="marking-code", seed=seed, blanks=blanks)


class _Reader:
    """One line, one choice, and what the line says."""

    def __init__(self):
        self.part = above(ipywidgets.Dropdown, "What is it?", options=tuple(_UNITS))
        self.text = text_box("What stands on it", placeholder="such as 4K7, or yellow violet red gold")
        self.text.layout.max_width = "32em"
        on_enter(self.text, self.read)
        self.part.observe(lambda _: self.hint(), names="value")
        self.text.observe(lambda _: self.follow(), names="value")
        self.error, self.answer = alert_area(), status_area()
        self.view = card(row(self.part, self.text), row(button("Read it", self.read)), self.error, self.answer)

    def hint(self):
        """Show an entry of the kind that is chosen."""
        self.text.placeholder = ("such as 4K7, or yellow violet red gold" if self.part.value == "resistor"
                                 else "such as 473K, 4n7, or 50 MFD -10/+50 % 25 V")
        self.follow()

    def follow(self):
        """Keep the answer to what stands there now; an empty box is no mistake."""
        if self.text.value.strip():
            self.read()
        else:
            self.answer.value = self.error.value = ""

    def read(self):
        """Say what the line means; what cannot be read stays in the box."""
        try:
            self.answer.value, self.error.value = reading_html(self.text.value, self.part.value), ""
        except ValueError as error:
            self.answer.value, self.error.value = "", trouble(str(error))


def _told(reading, part):
    unit = _UNITS[part]
    words = f"<strong>{escape(show_exact(reading.value, unit))}, {escape(tolerance_words(reading))}</strong>"
    if reading.rated is not None:
        words += f", for {escape(show_exact(reading.rated, 'V'))}"
    words += f": {escape(reading.how)}."
    if reading.limits is not None:
        words += " Within its marking from {} to {}.".format(*(escape(show(limit, unit, digits=4)) for limit in reading.limits))
    return f"{words} {escape(_to_buy(reading, part))}"


def _to_buy(reading, part):
    """Whether the value is still made, and which is nearest where it is not."""
    if reading.series in SERIES and list(SERIES).index(reading.series) <= list(SERIES).index(_TO_BUY[part]):
        return f"It stands in the series {reading.series}, so it is easily had."
    nearest = nearest_preferred(value=reading.value, series=_TO_BUY[part])
    change = 100 * float((nearest / reading.value).m_as("") - 1)
    size = f"{abs(change):.2g} % {'more' if change > 0 else 'less'}"
    stands = f"It stands in {reading.series} only" if reading.series else "No series holds it"
    return f"{stands}; the nearest of {_TO_BUY[part]} is {show_exact(nearest, _UNITS[part])}, {size}."


def _bands(rng):
    figures, power = float(rng.choice(SERIES["E12"])), int(rng.integers(1, 6))
    tolerance = float(rng.choice([0.05, 0.1, 0.02]))
    resistance = Q(round(figures * 10.0**power, 6), "ohm")
    words = colours(resistance=resistance, tolerance=tolerance)
    noughts = DIGITS.index(words[2])
    most = resistance * (1 + tolerance)
    name = next(name for name, share in TOLERANCES.items() if share == tolerance)
    return Problem(
        question="What is the most that a good meter may show if this resistor is within its marking?",
        given=(("bands, first to last", " ".join(words)),),
        answer=most, unit="ohm", tolerance=0.005,
        steps=(Step("The first two bands are digits:", f"{figures * 10:.0f}"),
               Step("The third says how many noughts follow:", show_exact(resistance, "ohm")),
               Step(f"{name.capitalize()} at the end is {100 * tolerance:.0f} %, and the most is that much above:",
                    show(most, "ohm", digits=4))),
        slips=(Slip(resistance, "That is the value. It may be more by the last band's per cent."),
               Slip(resistance * (1 - tolerance), "That is the least it may be."),
               Slip(most * 10, f"One nought too many: the third band stands for {noughts}, as the number of noughts."),
               Slip(most / 10, f"One nought too few: {words[2]} stands for {noughts} noughts.")))


def _code(rng):
    letter = str(rng.choice(["K", "M", "T", "Z"]))
    value = float(rng.choice(SERIES["E6"]))
    lower, upper = letter_tolerance(letter=letter)
    style = int(rng.integers(3))
    if style == 0:
        capacitance = Q(value * 10.0 ** int(rng.integers(1, 4)), "nF")
        printed = three_figures(value=capacitance, tolerance=letter)
        how = "Two digits, and as many noughts, in picofarads:"
    elif style == 1:
        capacitance = Q(value * 10.0 ** int(rng.integers(-1, 2)), "uF")
        printed = letter_code(value=capacitance, tolerance=letter)
        how = "The first letter stands where the point would be:"
    else:
        capacitance = Q(value * 10.0 ** int(rng.integers(0, 3)), "uF")
        printed = f"{old_words(capacitance=capacitance)} −{-100 * lower:.0f}/+{100 * upper:.0f} %"
        how = "MFD is the old word for microfarad:"
    least = capacitance * (1 + lower)
    return Problem(
        question="A capacitor is marked as below. What is the least it may have and still be within its marking?",
        given=(("printed on it", printed),),
        answer=least, unit="F", tolerance=0.01,
        steps=(Step(how, show_exact(capacitance, "F")),
               Step("How far below it may be:" if style == 2 else f"{letter} stands for {-100 * lower:.0f} % below and "
                    f"{100 * upper:.0f} % above. How far below it may be:", f"{-100 * lower:.0f} %"),
               Step("So the least is:", show(least, "F"))),
        slips=(Slip(capacitance, "That is the value. It may be less by the tolerance's lower part."),
               Slip(capacitance * (1 + upper), "That is the most it may have. What is the least?"),
               Slip(capacitance * (1 - upper), "You took the upper per cent off. Above and below differ here."),
               Slip(least * 10, "One nought too many: count the noughts again."),
               Slip(least / 10, "One nought too few: count the noughts again.")))
