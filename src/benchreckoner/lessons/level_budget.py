"""Book 02, where the decibels went: a level chain from head to loudspeaker, shared out among five causes."""

from dataclasses import dataclass

import numpy as np
from IPython.display import Markdown

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.levels import chain_level, decibels
from benchreckoner.physics.signal import clipping_power, coupling_loss, series_loss
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import NumberGuess, number_guess
from benchreckoner.show.picture import Axis, Curve, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show, show_level

# An invented small player. Its stages are buffered from each other, so that no share changes another.
OUTPUT, INPUT, SPEAKER = Q(1, "kohm"), Q(10, "kohm"), Q(8, "ohm")
SOUND_CAPACITOR, SOUND_SUPPLY, KEPT = Q(1, "uF"), Q(9, "V"), Q(0.5, "V")
TONE = Q(100, "Hz")
_LEAST, _MOST = -60, 5
_WEAK = dict(dirt=Q(3, "dB"), load=Q(4.7, "kohm"), capacitor=Q(0.22, "uF"), supply=Q(7, "V"), contact=Q(1, "ohm"))


@dataclass(frozen=True)
class Share:
    """One cause's share of a loss, how it is known, and what would tell it from the others."""

    place: str
    level: Q
    mark: str
    tells: str


def shares(*, dirt, load, capacitor, supply, contact):
    """Share a loss of level out, each cause against the same player in good order.

    Parameters
    ----------
    dirt : Quantity [dB]
        Lost between tape and head at this pitch: found by cleaning and comparing, not by a law.
    load : Quantity [ohm]
        Added behind the first stage.
    capacitor : Quantity [F]
        Coupling the power stage.
    supply : Quantity [V]
        While it plays loud.
    contact : Quantity [ohm]
        In series with the loudspeaker.

    Returns
    -------
    tuple of Share
        From head to loudspeaker.
    """
    def coupled(capacitance):
        return coupling_loss(capacitance=capacitance, resistance=INPUT, frequency=TONE).m_as("dB")

    def most(supply):
        return clipping_power(supply=supply, saturation_voltage=KEPT, load_resistance=SPEAKER)

    sag = decibels(ratio=np.sqrt((most(supply) / most(SOUND_SUPPLY)).m_as("")))
    return (
        Share("head dirt", Q(-float(dirt.m_as("dB")), "dB"), "PRACTICE",
              "the treble loses far more than this; the head looks brown; clean it, play the same seconds again and compare"),
        Share("added load", series_loss(load_resistance=load, series_resistance=OUTPUT), "RECOMPUTED",
              "bass and treble fall alike, steadily; unplug what was added and the level is back"),
        Share("capacitor", Q(coupled(capacitor) - coupled(SOUND_CAPACITOR), "dB"), "RECOMPUTED",
              "the bass goes, the treble stays; switched off, put a good one of the same value across it, then compare"),
        Share("supply", sag, "RECOMPUTED",
              "quiet passages are as ever, loud ones flatten and grate; read the volts while it plays loud, or try fresh cells"),
        Share("contact", series_loss(load_resistance=SPEAKER, series_resistance=contact), "RECOMPUTED",
              "comes and goes when pressed or turned; with a steady tone, read the volts across the contact itself"))


def level_chain(*, dirt, load, capacitor, supply, contact):
    """The level left at each place from head to loudspeaker, as steps down.

    Parameters
    ----------
    dirt, load, capacitor, supply, contact
        As for `shares`.

    Returns
    -------
    Picture
    """
    found = shares(dirt=dirt, load=load, capacitor=capacitor, supply=supply, contact=contact)
    levels = np.array([float(one.level.m_as("dB")) for one in found])
    left = np.concatenate([[0.0], np.cumsum(levels)])
    ends = np.arange(len(left))
    whole = float(chain_level(levels=Q(levels, "dB")).m_as("dB"))
    worst = found[int(np.argmin(levels))]
    largest = (f"The largest share is {show_level(-worst.level)}: {worst.place}. To know it from the "
               f"others: {worst.tells}." if whole < -0.5 else "Nothing of weight is lost.")
    return Picture(
        title="Where the decibels went",
        x=Axis("from head to loudspeaker", "", -0.5, len(left) - 0.5,
               ticks=((0, "in order"), *((place, one.place) for place, one in enumerate(found, start=1)))),
        y=Axis("level left", "dB", _LEAST, _MOST),
        curves=(Curve("level left", np.ravel(np.column_stack([ends - 0.5, ends, ends + 0.5])), np.repeat(left, 3)),),
        points=(Point("at the loudspeaker", float(ends[-1]), float(left[-1])),),
        sentence=f"{show_level(Q(-whole, 'dB'))} are lost at {TONE.m_as('Hz'):.0f} Hz in loud passages. {largest}",
        alt=(f"Steps down from 0 dB to {show_level(Q(whole, 'dB'))}: "
             + ", ".join(f"{one.place} {show_level(one.level)}" for one in found) + "."))


LEVEL_CHAIN = LivePicture(
    key="level-chain", picture=level_chain,
    sliders=(Slider("dirt", "lost to dirt on the head, at this pitch", "dB", ladder(0, 12, 25), start=0),
             Slider("load", "ohms of an added load", "ohm", ladder(300, 1e6, 57, "log"), start=1e6),
             Slider("capacitor", "coupling capacitor", "F", ladder(0.047e-6, 1e-6, 41, "log"), start=1e-6),
             Slider("supply", "volts of the supply, playing loud", "V", ladder(4, 9, 51), start=9),
             Slider("contact", "ohms of the loudspeaker's contact", "ohm", ladder(1e-3, 10, 81, "log"), start=0.01)),
    goal="Lose about 3 dB in one place alone: by the contact, then by the capacitor, then by the supply. "
         "Read each time what would tell it from the others.",
    phone_sliders=("supply", "contact"))


def guess_level_chain():
    """Guess first: what two losses one behind the other make; the level chain opens afterwards."""
    first, second = (decibels(ratio=0.5), decibels(ratio=0.5))
    both = chain_level(levels=Q([float(first.m_as("dB")), float(second.m_as("dB"))], "dB"))
    return number_guess(NumberGuess(
        key="signal-level-chain", unit="dB", truth=Q(-float(both.m_as("dB")), "dB"),
        question="A worn part halves the volts of the signal. Behind it, another halves them once more. How many decibels "
                 "are lost in all?",
        explanation="<p>Half of half is a quarter of the volts. Ratios multiply, decibels add: 6.02 dB and 6.02 dB. "
                    "So a loss can be shared out like a bill.</p>"),
        reveal=opening(LEVEL_CHAIN), store=my_guesses())


def example_budget():
    """The budget of one weak player as a table: each share, how it is known, what tells it apart."""
    found = shares(**_WEAK)
    rows = [f"| {one.place} | {show(one.level, 'dB', digits=2)} | {one.mark} | {one.tells} |" for one in found]
    return Markdown("\n".join([
        "| where | share | mark | what would tell it from the others (common practice) |", "|---|---|---|---|", *rows,
        f"| **all together** | **{show(_weak_loss(), 'dB')}** | | a share that is only PRACTICE makes the sum no better than that |"]))


def say_why_weak():
    """Two sentences to the owner of the weak player."""
    return say_it("signal-weak", "The owner of the weak player in the table wants to know where the sound went. Tell them in two sentences: the "
                  "whole loss, what takes most, how you know each, how sure you are, and what you do not know.", ours=say_ours,
                  checks=SayChecks(what=("dirt", "supply", "contact", "capacitor", "load"), quantities=((-_weak_loss(), "dB"),),
                                   known=("compared", "cleaned", "reckoned")), store=my_guesses())


def say_ours():
    """Our sentences on the weak player."""
    dirt, *reckoned = sorted(shares(**_WEAK), key=lambda one: one.mark != "PRACTICE")
    largest = max(reckoned, key=lambda one: -one.level.m_as("dB"))
    return (f"About {show_level(-_weak_loss())} are missing at {TONE.m_as('Hz'):.0f} Hz in loud passages: roughly {show_level(-dirt.level)} went when "
            f"the head was cleaned and compared, {show_level(-largest.level)} I reckon from the volts of the {largest.place}, the rest from three smaller "
            "items. I do not know yet whether the reckoned items are all there is; mending one and reading the level again would show it.")


def _weak_loss():
    return chain_level(levels=Q([float(one.level.m_as("dB")) for one in shares(**_WEAK)], "dB"))
