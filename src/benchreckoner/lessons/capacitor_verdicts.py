"""Book 03, the whole sheet: each capacitor's verdict with its reasons, what to buy, and saying it."""

from html import escape

from IPython.display import HTML, Markdown

from benchreckoner import project
from benchreckoner.bench.capacitor_limits import PLACES
from benchreckoner.bench.capacitor_sheet import part_verdicts
from benchreckoner.bench.reasons import told
from benchreckoner.bench.shopping import shopping_list
from benchreckoner.bench.verdict import BAD, DOUBTFUL, SOUND, UNTOLD
from benchreckoner.lessons.your_bench import SIGNS, my_guesses, own_or_demo, readings_form
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.say import SayChecks, say_it

EXAMPLE = project.CASES / "tape_player.toml"


def capacitor_form():
    """A form for capacitance and series resistance; it answers with each part's verdict."""
    return readings_form(quantities=("capacitance", "series resistance"), kinds=("capacitor",), judged=verdicts_html)


def verdicts():
    """Each capacitor's verdict on the reader's sheet; the invented tape player's, where the sheet lists no capacitors."""
    found, words = _verdicts()
    return HTML(words + _found_html(found))


def verdicts_html(sheet):
    """One verdict a part: why, a line each, what it does in its place, and what to measure next.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
        HTML made from escaped parts.
    """
    found = part_verdicts(sheet)
    if not found:
        return ("<p>The sheet lists no capacitor yet. Add each as a part: kind = \"capacitor\", its capacitance or its marking, "
                f"rated_voltage, and its place ({', '.join(PLACES)}).</p>")
    return _found_html(found)


def to_buy():
    """What to buy for the parts that are bad, equal parts on one line; doubtful ones named apart."""
    found, words = _verdicts()
    return HTML(words + _shopping_html(found))


def _shopping_html(found):
    lines, left_out = shopping_list([one.part for one in found if one.word == BAD])
    doubtful = [one.part.name for one in found if one.word in (DOUBTFUL, UNTOLD)]
    text = f"<ul>{''.join(f'<li>{escape(one.line())}</li>' for one in lines)}</ul>" if lines else "<p>No part is bad by these readings.</p>"
    text += "".join(f"<p>{escape(one)}</p>" for one in left_out)
    if doubtful:
        text += f"<p>Not on the list, since they are not shown to be bad: {escape(', '.join(doubtful))}. Read them first.</p>"
    return text + "<p><small>Values and voltages as parts are sold, and what may be substituted: common practice.</small></p>"


def guess_replace_all():
    """Guess first: what a set of old capacitors asks for."""
    return choice_guess(ChoiceGuess(
        key="capacitors-replace-all", question="A tape player of 1978 hums and sounds thin. It has six electrolytic capacitors. What do "
        "you do first?",
        choices=(
            Choice("Replace all six: they are old.",
                   "Perhaps you mend it, and never know which one it was. Each joint you heat may lift a pad, and a part fitted the "
                   "wrong way round is a new fault."),
            Choice("Read each one: capacitance, series resistance, leakage. Then decide part by part.",
                   "Ten minutes a part with one leg lifted. Bad ones go, sound ones stay, and the sheet says why.", right=True),
            Choice("Replace those that bulge.", "A bulge is a sign, and its lack is none: most dried-out parts look like new."),
            Choice("Read capacitance in circuit: what reads right may stay.",
                   "In circuit the tester sees whatever lies across the part, and a leak hides in a good reading anyway."),
        )), store=my_guesses())


def say_which_are_bad():
    """Say it: two sentences on the parts to replace, then ours, from the same verdicts."""
    found, _ = _verdicts()
    if not any(one.word == BAD for one in found):
        return Markdown("No capacitor on the sheet is bad by its readings. Enter more above, then run this cell again.")
    return say_it("capacitors-bad", "Tell the owner in two sentences which capacitor you replace and why the others may stay. Say "
                  "what it is, how you know, how sure you are, and what you do not know.", ours=say_ours(found),
                  checks=say_checks(found), store=my_guesses())


def say_ours(found):
    """Our sentences on the bad ones of some verdicts, and what is not known of the others."""
    first, *others = [one for one in found if one.word == BAD]
    text = f"{first.part.name} has to go{_by_reading(first.worst)}" if first.worst else f"{first.part.name} has to go. {first.reasons[0]}"
    text = text if text.endswith(".") else text + "."
    if others:
        text += f" So does {', '.join(one.part.name for one in others)}."
    sound, untold = ([one.part.name for one in found if one.word in words] for words in ((SOUND,), (DOUBTFUL, UNTOLD)))
    if sound:
        text += f" {', '.join(sound)} may stay, by what was read."
    return text + (f" Of {', '.join(untold)} too little is known yet to say." if untold else "")


def say_checks(found):
    """What the reader's sentences on the worst part are looked through for."""
    first = next(one for one in found if one.word == BAD)
    read = ((first.worst.known.value, first.worst.known.unit),) if first.worst else ()
    return SayChecks(what=(first.part.name,), quantities=read)


def _by_reading(worst):
    return f": its {worst.quantity} was read as {told(worst.known)}. {worst.reason.removeprefix(f'{told(worst.known)}: ')}"


def _verdicts():
    return own_or_demo(part_verdicts, demo=EXAMPLE, lacks="lists no capacitor")


def _found_html(found):
    return "".join(_part_html(one) for one in found)


def _part_html(one):
    place = one.part.details.get("place", "")
    lines = [*one.reasons, *one.effects]
    points = "".join(f"<li>{escape(line)}</li>" for line in lines)
    then = f"<li><strong>Next:</strong> {escape(one.next)}</li>" if one.next else ""
    return (f"<p><strong>{SIGNS[one.word]} {escape(one.part.name)}{f', {escape(place)}' if place else ''}: {one.word}.</strong></p>"
            f"<ul>{points}{then}</ul>")
