"""Book 04, the reader's own belts: the forms, the judgement before and after, and saying it."""

from html import escape

from IPython.display import HTML

from benchreckoner.bench.belt_judge import LOST, STRETCH, TAKEN, judge_belts
from benchreckoner.bench.compare import comparisons
from benchreckoner.bench.reasons import sentence, told
from benchreckoner.lessons.first_belt import EXAMPLE
from benchreckoner.lessons.your_bench import actions_form, my_guesses, own_or_demo, readings_form, reports_html
from benchreckoner.show.say import SayChecks, say_it

_NOTHING = ("The sheet says too little of its belts yet. Write each belt with section, thickness, length and sold_as, each pulley with diameter and "
            "at, and enter the motor's current belt off and belt on.")


def belt_form():
    """A form for strings, forces, currents, speeds and starts; it answers with the belt's judgement."""
    return readings_form(quantities=("current", "speed", "time", "length", "force", "mass"), kinds=("motor", "pulley", "belt"), judged=belts_html)


def done_form():
    """A form for what was done; *fitted* names the belt that runs from then on."""
    return actions_form()


def verdicts():
    """What the reader's sheet says of its belts; the invented tape player's, where it says nothing."""
    reports, words = _reports()
    return HTML(words + _reports_html(reports))


def belts_html(sheet):
    """The belt's judgements at every stage, the latest first, and what changed from belt to belt.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
        HTML made from escaped parts.
    """
    return _reports_html(judge_belts(sheet))


def _reports_html(reports):
    changed = "".join(f"<li>{escape(sentence(one.sentence()))}</li>" for one in comparisons(reports) if one.real)
    return reports_html(reports, nothing=_NOTHING) + (f"<p>Before and after:</p><ul>{changed}</ul>" if changed else "")


def say_before_and_after():
    """Say it: two sentences on the belt now against the belt before."""
    reports, _ = _reports()
    found = [one for report in reports for one in report.judgements if one.quantity in (LOST, TAKEN, STRETCH) and one.known is not None]
    return say_it("belt-before-after", "Tell the owner in two sentences what the new belt changed. Say what it is, how you know, how sure you are, and "
                  "what you do not know.", ours=our_sentences(reports),
                  checks=SayChecks(what=("belt",), quantities=tuple((one.known.value, one.known.unit) for one in found)), store=my_guesses())


def our_sentences(reports):
    """Our sentences, from the judgements of the first stage and of the last.

    Parameters
    ----------
    reports : sequence of PartsReport
        Of the belts, the latest stage first.

    Returns
    -------
    str
    """
    last, first = ({one.quantity: one for one in report.judgements if one.known is not None} for report in (reports[0], reports[-1]))
    lost = (f"I measured what the belt loses of the speed: {told(first[LOST].known)} before, {told(last[LOST].known)} now. "
            if LOST in first and LOST in last else "")
    taken = f"The belt itself takes about {told(last[TAKEN].known)} of the motor's current. " if TAKEN in last else ""
    return f"{lost}{taken}How long its grip will last I do not know: that is age, and I read it fresh."


def _reports():
    return own_or_demo(_with_values, demo=EXAMPLE, lacks="says too little of its belts yet")


def _with_values(sheet):
    """The belts' reports where anything was read or reckoned of them at all."""
    reports = judge_belts(sheet)
    return reports if any(one.known is not None for report in reports for one in report.judgements) else ()
