"""Book 02, contacts that pass sound: decibels, contacts and loads, the potentiometer, the shared return."""

import numpy as np

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.levels import decibels, voltage_ratio
from benchreckoner.physics.signal import potentiometer_ratio, series_loss, shared_return_crosstalk
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show, show_level, show_digits

SPEAKER, LINE = Q(4, "ohm"), Q(47, "kohm")
LOADS = (4, 8, 16, 32, 64, 120, 250, 600, 1500, 4700, 10000, 22000, 47000)
TRACK = Q(10, "kohm")
_LEAST_OHMS, _MOST_OHMS = 1e-2, 1e4
_LEAST_LOSS, _MOST_LOSS = 1e-4, 100.0
_LOWEST, _HIGHEST = -40.0, 20.0


def decibel_scale(*, level):
    """Volts and watts behind a number of decibels.

    Parameters
    ----------
    level : Quantity [dB]

    Returns
    -------
    Picture
    """
    levels = np.linspace(_LOWEST, _HIGHEST, 121)
    volts = voltage_ratio(level=Q(levels, "dB"))
    here = float(level.m_as("dB"))
    volt = float(voltage_ratio(level=level))
    return Picture(
        title="What decibels mean",
        x=Axis("level", "dB", _LOWEST, _HIGHEST), y=Axis("times as much as before", "", 1e-4, 100, scale="log"),
        curves=(Curve("volts", levels, volts), Curve("watts", levels, volts**2, "second")),
        points=(Point("volts here", here, volt), Point("watts here", here, volt**2, "other")),
        limits=(Limit("as before", "y", 1),),
        sentence=(f"{show(level, 'dB', digits=2)} is {show_digits(volt)} times the volts and, in the same load, "
                  f"{show_digits(volt**2)} times the watts."),
        alt=("Two straight lines over the decibels, on a log axis, that cross at 0 dB, where both are 1. The line of the watts "
             f"is twice as steep. At {show(level, 'dB', digits=2)} the volts stand at {show_digits(volt)}, "
             f"the watts at {show_digits(volt**2)}."))


def contact_loss(*, contact, load):
    """Decibels that a contact in series costs, against its ohms, for one load.

    Parameters
    ----------
    contact, load : Quantity [ohm]

    Returns
    -------
    Picture
        The point is not drawn where the loss lies below the axis.
    """
    ohms = Q(np.geomspace(_LEAST_OHMS, _MOST_OHMS, 141), "ohm")

    def lost(load, series):
        return -series_loss(load_resistance=load, series_resistance=series).m_as("dB")

    def drawn(load):
        values = lost(load, ohms)
        return np.where(values >= _LEAST_LOSS, values, np.nan)

    loss = float(lost(load, contact))
    place = loss if loss >= _LEAST_LOSS else np.nan
    words = f"{loss:.2g} dB" if loss >= _LEAST_LOSS else "less than a ten-thousandth of a dB"
    if loss >= 0.95:
        words = f"{loss:.1f} dB"
    share = contact.m_as("ohm") / load.m_as("ohm")
    shown_share = (f"{show_digits(share, 2)} times the load's" if share >= 1 else f"1 part in {_rounded(1 / share)} of the load's")
    return Picture(
        title="What a contact costs",
        x=Axis("ohms of the contact", "ohm", _LEAST_OHMS, _MOST_OHMS, scale="log"),
        y=Axis("decibels lost", "dB", _LEAST_LOSS, _MOST_LOSS, scale="log"),
        curves=(Curve("a 4 Ω loudspeaker", ohms.m_as("ohm"), drawn(SPEAKER), "faint"),
                Curve("a 47 kΩ line input", ohms.m_as("ohm"), drawn(LINE), "third"),
                Curve("your load", ohms.m_as("ohm"), drawn(load))),
        points=(Point("here", float(contact.m_as("ohm")), place),),
        limits=(Limit("1 dB", "y", 1),),
        sentence=(f"{show(contact, 'ohm', digits=2)} before a load of {show(load, 'ohm', digits=2)} costs {words}: "
                  f"its ohms are {shown_share}."),
        alt=("Rising curves of the decibels lost against the ohms of a contact, both axes log: one for a loudspeaker of "
             "4 ohm, one for a line input of 47 kilohm far to its right, one for the chosen load between them. "
             f"At {show(contact, 'ohm', digits=2)} the chosen load loses {words}."))


def potentiometer(*, position, wiper, load):
    """What a potentiometer hands on, against where its wiper stands.

    Parameters
    ----------
    position : float
        Share of the track's ohms below the wiper.
    wiper, load : Quantity [ohm]

    Returns
    -------
    Picture
    """
    places = np.linspace(0, 1, 101)

    def share(position, wiper):
        return 100 * potentiometer_ratio(position=position, track_resistance=TRACK, load_resistance=load,
                                         wiper_resistance=wiper)

    here, clean = float(share(position, wiper)), float(share(position, Q(0, "ohm")))
    cost = ("there is nothing to lose at the bottom" if clean == 0 else
            f"that is {abs(decibels(ratio=here / clean).m_as('dB')):.2f} dB less than a perfect wiper gives")
    return Picture(
        title="A potentiometer and its wiper",
        x=Axis("share of the track below the wiper", "percent", 0, 100, symbol="%"),
        y=Axis("signal handed on", "percent", 0, 100, symbol="%"),
        curves=(Curve("perfect wiper, same load", 100 * places, share(places, Q(0, "ohm")), "faint"),
                Curve("this wiper", 100 * places, share(places, wiper))),
        points=(Point("here", 100 * position, here),),
        sentence=(f"With {show(wiper, 'ohm', digits=2)} at the wiper and a load of {show(load, 'ohm', digits=2)}, "
                  f"{100 * position:.0f} % of the track hands on {here:.1f} % of the signal; {cost}."),
        alt=("Two curves of the signal handed on against the wiper's place on a track of 10 kilohm, one for a perfect "
             f"wiper, one lower. At {100 * position:.0f} per cent of the track this wiper hands on {here:.1f} per cent."))


def shared_return(*, shared, headphone):
    """Crosstalk through a return that both sides of a headphone share.

    Parameters
    ----------
    shared, headphone : Quantity [ohm]

    Returns
    -------
    Picture
    """
    ohms = Q(np.geomspace(1e-3, 1e3, 121), "ohm")
    own, source = shared_return_crosstalk(transducer_resistance=headphone, return_resistance=ohms)
    here, below = (float(one.m_as("dB")) for one in
                   shared_return_crosstalk(transducer_resistance=headphone, return_resistance=shared))
    percent = 100 * voltage_ratio(level=Q(here, "dB"))
    return Picture(
        title="A return that both sides share",
        x=Axis("ohms of the shared return", "ohm", 1e-3, 1e3, scale="log"),
        y=Axis("leak into the silent side", "dB", -120, 0),
        curves=(Curve("against the driven side", ohms.m_as("ohm"), own.m_as("dB")),
                Curve("against the source", ohms.m_as("ohm"), source.m_as("dB"), "second")),
        points=(Point("here", float(shared.m_as("ohm")), here),),
        sentence=(f"{show(shared, 'ohm', digits=2)} in the shared return of a headphone of {show(headphone, 'ohm', digits=2)} "
                  f"puts {show_digits(percent, 2)} % of one side into the other, turned round: {show_level(Q(here, 'dB'))} against "
                  f"the driven side, {show_level(Q(below, 'dB'))} against the source."),
        alt=("Two curves of the leak into the silent side against the ohms of the shared return, on a log axis. Both "
             "rise by 20 dB for ten times the ohms, then flatten, one towards 0 dB and one towards minus 6 dB. "
             f"At {show(shared, 'ohm', digits=2)} the leak stands at {show_level(Q(here, 'dB'))}."))


DECIBELS = LivePicture(
    key="decibels", picture=decibel_scale,
    sliders=(Slider("level", "level against before", "dB", ladder(_LOWEST, _HIGHEST, 61), start=10),),
    goal="Find the decibels that leave half the volts. Then those that leave half the watts.")

CONTACT_LOSS = LivePicture(
    key="contact-loss", picture=contact_loss,
    sliders=(Slider("contact", "ohms of the contact", "ohm", ladder(_LEAST_OHMS, _MOST_OHMS, 121, "log"), start=0.1),
             Slider("load", "ohms of what it feeds", "ohm", LOADS, start=8)),
    goal="Find the ohms that cost about 1.0 dB before a 4 Ω loudspeaker. Then before a 47 kΩ line input.",
    phone_sliders=("contact", "load"))

POTENTIOMETER = LivePicture(
    key="potentiometer", picture=potentiometer,
    sliders=(Slider("position", "share of the track below the wiper", "", ladder(0, 1, 51), start=0.5),
             Slider("wiper", "ohms of the wiper", "ohm", ladder(10, 1e6, 51, "log"), start=100),
             Slider("load", "ohms of what it feeds", "ohm", (4700, 10000, 22000, 47000, 100000, 220000, 470000, 1000000),
                    start=100000)),
    goal="At half the track, with a load of 100 kΩ, find the wiper ohms that take about 6 dB away.",
    phone_sliders=("position", "wiper"))

SHARED_RETURN = LivePicture(
    key="shared-return", picture=shared_return,
    sliders=(Slider("shared", "ohms of the shared return", "ohm", ladder(1e-3, 1e3, 121, "log"), start=0.01),
             Slider("headphone", "ohms of each side", "ohm", (8, 16, 32, 64, 100, 150, 250, 300, 600), start=32)),
    goal="Find the ohms that put about −50 dB into the silent side of a 32 Ω headphone.",
    phone_sliders=("shared", "headphone"))


def guess_decibels():
    """Guess first: what 6 dB less leaves; the picture of decibels opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="signal-decibels", question="A signal falls by 6 dB. How many of its volts are left?",
        choices=(
            Choice("94 %: six per cent are gone.", "Decibels are not per cent. They count how many <em>times</em>: each "
                   "20 dB is one more factor of ten in volts."),
            Choice("About half.", "6 dB down is 0.501 times the volts.", right=True),
            Choice("A quarter.", "That is what is left of the <em>watts</em> in the same load: they go with the square "
                   "of the volts."),
        )), reveal=opening(DECIBELS), store=my_guesses())


def guess_contact_loss():
    """Guess first: where a tenth of an ohm and a kilohm matter; the live picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="signal-contact-loss", question="One contact has 1 Ω too much, another has 1 kΩ too much. The 1 Ω feeds a "
        "4 Ω loudspeaker, the 1 kΩ feeds a line input of 47 kΩ. Which one costs more level?",
        choices=(
            Choice("The kilohm: a thousand times the ohms, a thousand times the loss.",
                   "Ohms alone cost nothing. What counts is the contact's ohms beside the load's: 1 in 47 costs 0.2 dB."),
            Choice("The one ohm.", "1 Ω beside 4 Ω costs 1.9 dB; 1 kΩ beside 47 kΩ costs 0.2 dB. A line contact this poor "
                   "still gives itself away: by crackle and drop-outs, not by loss.", right=True),
            Choice("Neither: both pass sound, so both are good.",
                   "That is the beep again: it proves a path, not a good one. 1.9 dB can be read on any level meter."),
        )), reveal=opening(CONTACT_LOSS), store=my_guesses())


def guess_potentiometer():
    """Guess first: what scratching proves; the potentiometer opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="signal-scratching", question="A volume control scratches when it is turned. What does that prove?",
        choices=(
            Choice("The track is dirty: spray it.", "Perhaps. But direct current on the wiper, from a leaky capacitor, "
                   "scratches the same way, and spray washes the evidence off. Read the volts across the control first."),
            Choice("The wiper's ohms are too high.", "Steady ohms only cost a little level. What scratches is ohms, or a "
                   "direct voltage, that <em>change</em> while the wiper moves."),
            Choice("Not yet which: read the direct volts on the control first.",
                   "More than a few millivolts (common practice): look for the leaky capacitor. None: it is the track or "
                   "the wiper.", right=True),
        )), reveal=opening(POTENTIOMETER), store=my_guesses())


def guess_open_return():
    """Guess first: what an open shared return leaves to hear; the crosstalk picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="signal-open-return", question="The one contact by which both sides of a headphone return comes open. "
        "What do you hear?",
        choices=(
            Choice("Nothing: no return, no current.", "Each side can still return through the <em>other</em> side. Only "
                   "what is the same on both finds no way."),
            Choice("One side only.", "The broken contact belongs to both sides: neither is spared."),
            Choice("Both sides, but what is in the middle is gone.", "Both play left minus right. A voice recorded in the "
                   "middle vanishes, echo and what was at the sides stay.", right=True),
        )), reveal=opening(SHARED_RETURN), store=my_guesses())


def _rounded(value):
    """A large whole number to two digits, for reading."""
    return f"{float(f'{value:.2g}'):,.0f}".replace(",", " ")
