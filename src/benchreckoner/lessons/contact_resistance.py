"""Book 02, contact resistance: its pictures, guesses and questions."""

import numpy as np
from IPython.display import Markdown

from benchreckoner import project
from benchreckoner.bench.chain import STANDING
from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.limits import Band, band_for, band_rows
from benchreckoner.bench.report import guilty_sentence
from benchreckoner.bench.sheet import Part, read_sheet
from benchreckoner.lessons.your_bench import my_guesses, my_sheet, opening, own_live
from benchreckoner.physics.contacts import motor_voltage, starting_torque_ratio
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, NumberGuess, choice_guess, number_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point, Reading
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_exact

# The small set of the worked case: four cells, a motor of 8 ohm. Check value K4.
SUPPLY, CELLS, MOTOR = Q(6, "V"), Q(0.6, "ohm"), Q(8, "ohm")
CHAIN_KINDS = ("cells", "adapter", "supply contact", "lead", "switch", "plug and socket", "solder joint",
               "current meter", "motor")
_LINK_LOW, _LINK_HIGH = 1e-3, 100.0
SPRING_BAND = band_for(Part(name="spring", kind="supply contact", details={}, current_from=None, note=""))


def held_volts(*, link, cells, supply=SUPPLY, motor=MOTOR, rest=Q(0, "ohm"), band=SPRING_BAND):
    """Motor volts, held, against one link's ohms.

    Parameters
    ----------
    link : Quantity [ohm]
        Where the slider stands.
    cells : Quantity [ohm]
        Inside the source, all cells together.
    supply : Quantity [V]
        With nothing drawn.
    motor : Quantity [ohm]
    rest : Quantity [ohm]
        All other links together.
    band : Band
        Of the link's kind.

    Returns
    -------
    Picture
    """
    ohms = Q(np.geomspace(_LINK_LOW, _LINK_HIGH, 161), "ohm")

    def volts(link):
        return motor_voltage(supply=supply, source_resistance=cells, motor_resistance=motor,
                             contact_resistance=rest + link).m_as("V")

    left, best = float(volts(link)), float(volts(Q(0, "ohm")))
    pull = 100 * starting_torque_ratio(source_resistance=cells + rest, motor_resistance=motor, contact_resistance=link)
    shown = show(link, "ohm", digits=2)
    return Picture(
        title="Volts at the held motor",
        x=Axis("ohms of one link", "ohm", _LINK_LOW, _LINK_HIGH, scale="log"),
        y=Axis("motor volts, held", "V", 0, float(supply.m_as("V"))),
        curves=(Curve("motor volts", ohms.m_as("ohm"), volts(ohms)),),
        points=(Point("here", float(link.m_as("ohm")), left),),
        limits=(Limit("doubtful", "x", float(band.sound_up_to.m_as("ohm"))),
                Limit("bad", "x", float(band.bad_from.m_as("ohm")))),
        sentence=(f"With {shown} in the link and {show(cells, 'ohm', digits=2)} in the cells, {left:.2f} V of "
                  f"{supply.m_as('V'):.2f} V reach the held motor. The link alone costs {best - left:.2f} V and "
                  f"leaves {pull:.0f} % of the starting pull."),
        alt=(f"A curve of motor volts against the ohms of one link, on a log axis. It is flat near {best:.1f} V up to "
             f"about a tenth of an ohm, then falls towards nothing. At {shown} it stands at {left:.2f} V."))


HELD_VOLTS = LivePicture(
    key="held-volts", picture=held_volts,
    sliders=(Slider("link", "ohms of the link", "ohm", ladder(_LINK_LOW, _LINK_HIGH, 101, "log"), start=0.05),
             Slider("cells", "ohms inside the cells, together", "ohm", ladder(0.1, 4, 40), start=0.6)),
    goal="Find the ohms that leave 5.0 V when the cells have 0.60 Ω. Then set the cells to 2.4 Ω, and find those that leave 4.0 V.",
    phone_sliders=("link", "cells"))


def my_held_volts():
    """The same picture with the numbers of the sheet on the desk and its own reading marked.

    Returns
    -------
    widget or Markdown
        Words that say what to read first, where the sheet has no held readings.
    """
    return own_live(own_held_volts(my_sheet()), needs="Your own picture needs readings of one link's drop, the supply (off and held), the motor's "
                    "volts and its current, all with the motor held. Enter them in the form above and run this cell again.")


def own_held_volts(sheet):
    """The same picture as a sheet's readings make it.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    (LivePicture, Reading) or None
        None where the sheet has no held chain that was read whole.
    """
    found = _held_chain(sheet)
    if found is None:
        return None
    chain, one, band = found
    supply, motor = chain.off_voltage.value, (chain.motor_voltage.value / chain.current.value).to("ohm")
    cells = ((supply - chain.loaded_voltage.value) / chain.current.value).to("ohm")
    rest = ((chain.loaded_voltage.value - chain.motor_voltage.value) / chain.current.value).to("ohm") - one.known.value
    start = float(f"{np.clip(one.known.plain, _LINK_LOW, _LINK_HIGH):.3g}")
    inside = float(f"{np.clip(cells.m_as('ohm'), 0.1, 4):.3g}")
    declared = LivePicture(
        key="my-held-volts", picture=held_volts,
        sliders=(Slider("link", f"ohms of {one.part}", "ohm",
                        tuple(sorted({*ladder(_LINK_LOW, _LINK_HIGH, 101, "log"), start})), start=start),
                 Slider("cells", "ohms inside the cells, together", "ohm",
                        tuple(sorted({*ladder(0.1, 4, 40), inside})), start=inside)),
        goal=f"What would {one.part} give the motor if it were mended to {show(band.sound_up_to, 'ohm', digits=2)}?",
        fixed={"supply": supply, "motor": motor, "rest": Q(max(0.0, rest.m_as("ohm")), "ohm"), "band": band},
        phone_sliders=("link", "cells"))
    return declared, Reading(x=one.known.value, y=chain.motor_voltage.value, name="your reading")


def bands():
    """The bands that judge a feed chain, with their sources and marks; a list, since a phone has no room for a table."""
    rows = [f"- **{row['kind']}{', ' + row['chemistry'] if 'chemistry' in row else ''}:** {_edges(row)}. "
            f"*{row['source']}* ({row['mark']})" for row in band_rows() if row["kind"] in CHAIN_KINDS]
    return Markdown("\n".join(rows))


def _edges(row):
    if row.get("rule") == "lead":
        return "computed from gauge, length and temperature"
    return f"sound up to {_edge(row, 'sound')}, bad from {_edge(row, 'bad')}"


def _edge(row, which):
    if "rule" in row:
        return f"{row[share]} of the supply" if (share := f"{which}_share") in row else "computed for each"
    edge = row["sound_up_to" if which == "sound" else "bad_from"]
    return show_exact(edge, "ohm") + (" a cell" if row.get("each") == "cell" else "")


def _held_chain(sheet):
    """The earliest held chain that was read whole, with its costliest link that has a fixed band."""
    for stage in reversed(judge_sheet(sheet)):
        for report in stage.chains:
            chain = report.chain
            ends = (chain.off_voltage, chain.loaded_voltage, chain.motor_voltage, chain.current)
            if chain.condition not in STANDING or any(end is None or not end.plain > 0 for end in ends):
                continue
            links = [one for one in report.judgements if isinstance(one.band, Band) and one.part in chain.drops
                     and one.known is not None and _LINK_LOW <= one.known.plain <= _LINK_HIGH]
            if links:
                worst = max(links, key=lambda one: (one.won_back, one.known.plain))
                return chain, worst, worst.band
    return None


def guess_held_volts():
    """Guess first: what one ohm leaves of six volts."""
    truth, perfect = _small_set(link=Q(1, "ohm")), _small_set(link=Q(0, "ohm"))
    return number_guess(NumberGuess(
        key="contacts-held-volts", unit="V", truth=truth,
        question=("A small player runs on four cells: 6 V, with 0.6 Ω inside the cells. Its motor has 8 Ω. Held still, "
                  f"the motor gets {perfect.m_as('V'):.2f} V. Now one spring grows 1 Ω of dirt. "
                  "How many volts reach the held motor?"),
        explanation=("<p>The motor keeps 8 of the 9.6 ohms in the loop, so it keeps 8/9.6 of the 6 V. One ohm of dirt "
                     f"took {(perfect - truth).m_as('V'):.2f} V, a tenth of the pull.</p>")), store=my_guesses())


def guess_tired_cells():
    """Guess first: does the same dirt cost more behind tired cells; the live picture opens afterwards."""
    def cost(cells):
        return (_small_set(link=Q(0, "ohm"), cells=cells) - _small_set(link=Q(1, "ohm"), cells=cells)).m_as("V")

    fresh, tired = cost(CELLS), cost(4 * CELLS)
    return choice_guess(ChoiceGuess(
        key="contacts-tired-cells", question="The cells age: inside them, 0.6 Ω become 2.4 Ω. The dirt stays at 1 Ω. "
        "What does the dirt alone now cost the held motor?",
        choices=(
            Choice("More volts than before: everything gets worse with tired cells.",
                   "The motor does get fewer volts, but the cells take most of that. The dirt's own share shrinks, "
                   "because less current flows through it."),
            Choice("The same volts: the dirt has not changed.",
                   "The ohms have not changed, the current has. Volts lost are ohms <em>times</em> current."),
            Choice("Fewer volts than before.",
                   f"It cost {fresh:.2f} V, now it costs {tired:.2f} V: less current, less loss. So volts alone tell "
                   "little about a joint; its ohms do.", right=True),
        )), reveal=opening(HELD_VOLTS), store=my_guesses())


def _small_set(*, link, cells=CELLS):
    return motor_voltage(supply=SUPPLY, source_resistance=cells, motor_resistance=MOTOR, contact_resistance=link)


def guess_beep():
    """Guess first: what a beep across a spring proves."""
    guess = ChoiceGuess(
        key="contacts-beep", question="You hold the meter's probes on both ends of a battery spring, and it beeps. "
        "Is the spring good?",
        choices=(
            Choice("Yes: it beeps, so it conducts.",
                   "It conducts, but the motor asks how well. Many meters beep at 20 to 50 Ω (common practice), and "
                   "one ohm already costs this motor a tenth of its pull."),
            Choice("Yes, and the full supply voltage behind it proves it.",
                   "With nothing drawn, no volts are lost in any ohms: a spring of 1000 Ω shows full volts to a meter "
                   "and starts no motor. Volts prove a path only while the current flows."),
            Choice("I can't say: read the volts across it while the motor pulls.",
                   "Volts across it divided by the current through it: that is the spring's own ohms, at the current "
                   "that matters.", right=True),
            Choice("Yes, if the ohms range shows 0.2 Ω or so.",
                   "The meter's own leads may be all of that, and a range with steps of 0.1 Ω cannot tell 50 mΩ from nothing."),
        ))
    return choice_guess(guess, store=my_guesses())


def guess_guilty():
    """Guess first: which link of the demo machine to mend, from its drops alone."""
    report = _told_chain(read_sheet(project.CASES / "record_player.toml"))
    drops, one = report.chain.drops, report.guilty
    source = report.chain.source.name
    sag = report.chain.off_voltage - report.chain.loaded_voltage
    return choice_guess(ChoiceGuess(
        key="contacts-guilty-demo",
        question=(f"The demo machine, motor held, {show(report.chain.current.value, 'A', 2)}: its six {source} lose "
                  f"{show(sag.value, 'V')}, {one.part} loses {show(drops[one.part].value, 'V')}, the play switch "
                  f"{show(drops['play switch'].value, 'V')}, the motor plug {show(drops['motor plug'].value, 'V')}."),
        choices=(
            Choice(f"The {source}: they lose the most.", f"Six alkaline {source} may have up to "
                   f"{show_exact(6 * Q(0.3, 'ohm'), 'ohm')} together, and these have less. They lose volts as they should."),
            Choice(f"{one.part}.".capitalize(), f"At this current its drop is {show(one.known.value, 'ohm')}, and a spring is "
                   f"bad from {show_exact(one.band.bad_from, 'ohm')} on.", right=True),
            Choice("The switch: its contacts are the oldest.", "Age is no reading. Its drop is a few hundredths of an ohm's "
                   "worth, which is sound for a switch."),
        )), store=my_guesses())


def say_what_is_wrong():
    """Say it: the reader's two sentences on the guilty link, then ours, made from the same readings."""
    report = _told_chain(my_sheet())
    if report is None:
        return Markdown("There is no bad link on this sheet to tell of. Enter the readings of your own machine in the "
                        "form above and run this cell again.")
    prompt = ("Tell somebody at the next table, in two sentences, which link of your machine is bad. "
              "Say what it is, how you know, how sure you are, and what you do not know.")
    return say_it("contacts-guilty", prompt, ours=say_ours(report), checks=say_checks(report), store=my_guesses())


def say_ours(report):
    """Our sentences on a chain's guilty link, from its readings."""
    sentence = guilty_sentence(report)
    return (f"{sentence[:1].upper()}{sentence[1:]} What the readings do not show is why it is bad, and whether it stays "
            "mended: that takes a reading after the cleaning, and another after a month.")


def say_checks(report):
    """What the reader's sentences on a chain's guilty link are looked through for."""
    one = report.guilty
    return SayChecks(what=(one.part,), quantities=((one.known.value, "ohm"), (report.chain.drops[one.part].value, "V")))


def _told_chain(sheet):
    """The earliest chain with a guilty link whose drop was read; that is the story to tell."""
    for stage in reversed(judge_sheet(sheet)):
        main = stage.main
        if main is not None and main.guilty and main.guilty.part in main.chain.drops:
            return main
    return None
