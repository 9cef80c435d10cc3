"""Book 02, one contact seen close: spot and film, force, and the meter that mends what it measures."""

import functools

import numpy as np

from benchreckoner.bench.fits import in_grams
from benchreckoner.lessons.contact_resistance import SPRING_BAND
from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.force import plastic_radius, plastic_resistance
from benchreckoner.physics.fritting import fritted_resistance
from benchreckoner.physics.spots import METALS, constriction_resistance, film_resistance
from benchreckoner.physics.springing import elastic_resistance, shared_modulus, yield_force
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.show.say import SayChecks, say_it
from benchreckoner.units import Q, show

BRONZE = METALS["phosphor bronze"]
PATCH = Q(1, "um**2")
BALL = Q(1, "mm")
# Stiffness of bronze and how it narrows when pulled: MEMORY.
STIFFNESS = shared_modulus(modulus=Q(110, "GPa"), poisson_ratio=0.34, other_modulus=Q(110, "GPa"), other_poisson_ratio=0.34)
# A filmed contact of the teaching rule, check value P22: PRACTICE.
FILMED, CLEAN, CESSATION = Q(10, "kohm"), Q(20, "mohm"), Q(0.3, "V")
_THINNEST, _THICKEST = 0.1, 1e4
_LIGHT, _HEAVY = 0.01, 5.0
_SMALL, _WIDE = 1e-7, 5e-5
_FAINT, _STRONG = 0.01, 10.0


def metal_and_film(*, radius, patch):
    """Ohms of one spot in bronze and of the film on it.

    Parameters
    ----------
    radius : Quantity [m]
    patch : Quantity [ohm]
        Of one square micrometre of the film.

    Returns
    -------
    metal, film : Quantity [ohm]
    """
    return (constriction_resistance(resistivity=BRONZE["resistivity"], spot_radius=radius),
            film_resistance(film_resistivity=patch * PATCH, spot_radius=radius))


def pressed(*, force, patch):
    """Ohms of bronze that gives way under a force, and of the film on the spot it makes.

    Parameters
    ----------
    force : Quantity [N]
    patch : Quantity [ohm]
        Of one square micrometre of the film.

    Returns
    -------
    metal, film : Quantity [ohm]
    """
    spot = plastic_radius(force=force, hardness=BRONZE["hardness"])
    return (plastic_resistance(resistivity=BRONZE["resistivity"], force=force, hardness=BRONZE["hardness"]),
            film_resistance(film_resistivity=patch * PATCH, spot_radius=spot))


def spot_and_film(*, radius, patch):
    """What one spot costs, metal and film, against its radius.

    Parameters
    ----------
    radius : Quantity [m]
    patch : Quantity [ohm]
        Of one square micrometre of the film.

    Returns
    -------
    Picture
    """
    radii = Q(np.geomspace(_SMALL, _WIDE, 121), "m")
    metals, films = metal_and_film(radius=radii, patch=patch)
    metal, film = metal_and_film(radius=radius, patch=patch)
    both = metal + film
    more = "the film costs more" if film > metal else "the metal costs more"
    shown = show(radius, "m", digits=2)
    return Picture(
        title="One spot and the film on it",
        x=Axis("radius of the spot", "um", 0.1, 50, scale="log"), y=Axis("ohms", "ohm", 1e-3, 1e6, scale="log"),
        curves=(Curve("metal alone", radii.m_as("um"), metals.m_as("ohm"), "second"),
                Curve("film alone", radii.m_as("um"), films.m_as("ohm"), "third"),
                Curve("both", radii.m_as("um"), (metals + films).m_as("ohm"))),
        points=(Point("here", round(float(radius.m_as("um")), 6), float(both.m_as("ohm"))),),
        sentence=(f"A spot of {shown} radius in bronze: {show(metal, 'ohm')} to squeeze through the metal, "
                  f"{show(film, 'ohm')} to get through the film, {show(both, 'ohm')} together; {more}."),
        alt=("Three falling curves of ohms against the radius of one spot, both axes log. The metal's falls ten times for ten "
             "times the radius, the film's a hundred times, and both together follow whichever is higher. "
             f"At {shown} they make {show(both, 'ohm')}."))


def press_harder(*, force, patch):
    """Ohms against force: rough metal, a smooth ball, and rough metal under a film.

    Parameters
    ----------
    force : Quantity [N]
    patch : Quantity [ohm]
        Of one square micrometre of the film.

    Returns
    -------
    Picture
        The ball's curve ends where its metal begins to give way.
    """
    forces = _forces()
    metals, films = pressed(force=forces, patch=patch)
    (metal, _), (film, _) = once_and_twice = pressed(force=force * np.array([1.0, 2.0]), patch=patch)
    here, twice = sum(once_and_twice).m_as("ohm")
    shown = show(Q(here, "ohm"), "ohm")
    return Picture(
        title="Ohms and force",
        x=Axis("force", "N", _LIGHT, _HEAVY, scale="log"), y=Axis("ohms", "ohm", 1e-3, 1e4, scale="log"),
        curves=(Curve("rough and clean", forces.m_as("N"), metals.m_as("ohm"), "second"),
                Curve("smooth ball, clean", forces.m_as("N"), _ball(), "third"),
                Curve("rough, with film", forces.m_as("N"), (metals + films).m_as("ohm"))),
        points=(Point("here", float(force.m_as("N")), float(here)),),
        limits=(Limit("sound", "y", float(SPRING_BAND.sound_up_to.m_as("ohm"))),),
        sentence=(f"{in_grams(force)} on bronze: {show(metal, 'ohm')} of metal and {show(film, 'ohm')} of "
                  f"film, {shown} together. Twice the force would leave {twice / here:.2f} of that."),
        alt=("Three falling lines of ohms against force, both axes log. Clean rough metal falls to half for four times the "
             "force; a smooth ball less steeply, and its line ends where the metal begins to give way; with a film the fall is "
             f"steeper, up to half for twice the force. At {in_grams(force)} the filmed contact has {shown}."))


def _forces():
    return Q(np.geomspace(_LIGHT, _HEAVY, 121), "N")


@functools.cache  # no slider moves it
def _ball():
    """A clean smooth ball's ohms while it springs, nothing from its first yield on."""
    forces = _forces()
    most = yield_force(ball_radius=BALL, stiffness=STIFFNESS, hardness=BRONZE["hardness"])
    springs = forces <= most
    ohms = np.full(len(forces), np.nan)
    ohms[springs] = elastic_resistance(resistivity=BRONZE["resistivity"], force=forces[springs], ball_radius=BALL,
                                       stiffness=STIFFNESS, hardness=BRONZE["hardness"]).m_as("ohm")
    return ohms


def left_after(*, source, series, breakdown):
    """Ohms that a source leaves in the filmed contact of the picture."""
    return fritted_resistance(source_voltage=source, series_resistance=series, filmed_resistance=FILMED,
                              clean_resistance=CLEAN, breakdown_voltage=breakdown, cessation_voltage=CESSATION)


def meter_that_mends(*, source, series, breakdown):
    """What is left of a film after a meter or a circuit was put across it.

    Parameters
    ----------
    source : Quantity [V]
        With nothing drawn.
    series : Quantity [ohm]
        What limits the current.
    breakdown : Quantity [V]
        Across the film when it breaks.

    Returns
    -------
    Picture
    """
    volts = Q(np.geomspace(_FAINT, _STRONG, 181), "V")
    left = left_after(source=source, series=series, breakdown=breakdown)
    breaks_from = float((breakdown * (FILMED + series) / FILMED).m_as("V"))
    broken = left < FILMED
    start = f"{show(source, 'V', digits=2)} behind {show(series, 'ohm', digits=2)}:"
    words = (f"the film breaks, and {show(left, 'ohm')} of the {show(FILMED, 'ohm', digits=2)} are left. The meter shows a better "
             "contact than it found" if broken else
             f"the film holds, and the {show(FILMED, 'ohm', digits=2)} are still there, before and after")
    return Picture(
        title="The meter that mends what it measures",
        x=Axis("volts of the meter or circuit, open", "V", _FAINT, _STRONG, scale="log"),
        y=Axis("ohms of the contact afterwards", "ohm", 1e-2, 1e5, scale="log"),
        curves=(Curve("afterwards", volts.m_as("V"), left_after(source=volts, series=series, breakdown=breakdown).m_as("ohm")),),
        points=(Point("here", float(source.m_as("V")), float(left.m_as("ohm"))),),
        limits=(Limit("film breaks", "x", breaks_from if breaks_from <= _STRONG else np.nan),),
        sentence=f"{start} {words}.",
        alt=("A curve of the ohms that are left against the volts put across a filmed contact, both axes log: level at "
             f"{show(FILMED, 'ohm', digits=2)} up to where the film breaks, then a sheer drop and a slow fall. At "
             f"{show(source, 'V', digits=2)} {show(left, 'ohm')} are left."))



def _patch_slider(start):
    return Slider("patch", "ohms of one square micrometre of film", "ohm", ladder(_THINNEST, _THICKEST, 26, "log"), start=start)


SPOT_AND_FILM = LivePicture(
    key="spot-and-film", picture=spot_and_film,
    sliders=(Slider("radius", "radius of the spot", "m", ladder(_SMALL, _WIDE, 60, "log"), start=1e-5), _patch_slider(1)),
    goal="With 1.0 Ω on each square micrometre, find the spot whose metal and film cost about the same.",
    phone_sliders=("radius", "patch"))

PRESS_HARDER = LivePicture(
    key="press-harder", picture=press_harder,
    sliders=(Slider("force", "force on the contact", "N", ladder(_LIGHT, _HEAVY, 62, "log"), start=0.1), _patch_slider(_THINNEST)),
    goal="Put 10 Ω on each square micrometre, and find the least force that brings the contact under 50 mΩ.",
    phone_sliders=("force", "patch"))

METER_THAT_MENDS = LivePicture(
    key="meter-that-mends", picture=meter_that_mends,
    sliders=(Slider("source", "volts of the meter or circuit, open", "V",
                    (0.01, 0.02, 0.03, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.9, 1, 1.1, 1.2, 1.5, 2, 2.5, 3, 4.5, 6, 7.5, 9), start=0.02),
             Slider("series", "ohms that limit the current", "ohm", (8, 30, 100, 300, 1000, 3000, 10000, 30000, 100000), start=1000),
             Slider("breakdown", "volts at which the film breaks", "V", (0.3, 0.5, 0.7, 1, 1.5, 2, 3, 5, 7), start=1)),
    goal="Behind 1 kΩ, find the volts that leave 111 Ω. Then go back to 20 mV.",
    phone_sliders=("source", "series"))


def guess_spot():
    """Guess first: through how much of two plates the current passes; spot and film open afterwards."""
    share = (plastic_radius(force=Q(0.5, "N"), hardness=BRONZE["hardness"]) ** 2 * np.pi / Q(16, "mm**2")).m_as("percent")
    return choice_guess(ChoiceGuess(
        key="one-contact-spot", question="Two bronze leaves, 4 mm by 4 mm, are pressed together with 0.5 N, what 51 g weigh. "
        "Through how much of those 16 mm² does the current pass?",
        choices=(
            Choice("Through all of it: that is why bigger plates have fewer ohms.", "Metal is rough. Two plates touch at a few "
                   "tips, and the tips flatten until they carry the force. A bigger plate pressed as hard has no more of them: "
                   "force and hardness decide, not size."),
            Choice("Through the shiny part; where it is dark nothing passes.", "Looks tell little. A film that blocks a millivolt "
                   "may be thinner than light can show, and a dark contact may conduct at its tips."),
            Choice("Through a few tiny spots: less than a hundredth of a per cent.", "The force over the hardness is the area that "
                   f"carries: {share:.1g} % of the plates. All the current must squeeze through there.", right=True),
        )), reveal=opening(SPOT_AND_FILM), store=my_guesses())


def guess_press():
    """Guess first: what twice the force does; the picture of force opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="one-contact-press", question="A clean, rough leaf contact. You press it twice as hard. What becomes of its ohms?",
        choices=(
            Choice("They halve: twice the force, half the ohms.", "That is the area, and it does double. But the ohms of squeezing go "
                   "with the <em>radius</em> of the spot, and twice the area is only 1.41 times the radius. A film on the spot goes "
                   "with the area: it halves."),
            Choice("Nothing: it either touches or it doesn't.", "It touches at tips, and more force flattens more metal. Touching is "
                   "no yes or no."),
            Choice("They fall to about seven tenths.", "1 over the square root of 2 is 0.71, where metal gives way. A smooth ball "
                   "that springs falls to 0.79, a film that cracks to about half.", right=True),
        )), reveal=opening(PRESS_HARDER), store=my_guesses())


def guess_two_meters():
    """Guess first: two meters disagree about one contact; the meter that mends opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="one-contact-two-meters", question="One dull contact, not touched in between. A first meter, with 20 mV at its tips, "
        "reads 10 kΩ. A second one, with 3 V behind 1 kΩ, reads 111 Ω. Which of the two is right?",
        choices=(
            Choice("The second: more volts make a surer reading.", "They make a larger signal, and they can break the film. It read "
                   "the contact that it had just made."),
            Choice("The first: the second must be faulty.", "The second read well what was there by then. Go back to the first: it "
                   "now reads about a hundred ohms too."),
            Choice("Both: the second one changed the contact.", "The film broke at some volts. What is left is where the contact keeps "
                   "about 0.3 V: 0.3 V × 1 kΩ / 2.7 V. A rule of common practice, and the number drifts.", right=True),
        )), reveal=opening(METER_THAT_MENDS), store=my_guesses())


def guess_dry_beep():
    """Guess first: what a beep proves about a contact that carries millivolts."""
    return choice_guess(ChoiceGuess(
        key="one-contact-beep", question="The switch behind the playback head beeps in the meter. The music in it has a few "
        "millivolts. Is the switch good?",
        choices=(
            Choice("Yes: it beeps, so its ohms are low.", "Many meters beep at 20 to 50 Ω (common practice). And the beeper's own "
                   "volts may have broken the film that the music cannot break."),
            Choice("Yes, if the beep stays steady while I wiggle it.", "Better than a mere beep. But each wiggle rubs and each beep "
                   "breaks film, so you tested the contact of this minute. The millivolts come back to it tomorrow."),
            Choice("No: a meter's volts have ruined it by now.", "A few milliamperes melt no sound contact. They mostly leave it better for "
                   "a while, and the evidence is gone. Unplug the head first: a meter's direct current can magnetise it (from memory)."),
            Choice("Not proven: read it with at most 20 mV, or send a tone through and listen.", "20 mV is what standards allow for "
                   "contacts like this, to spare the film. A soft tone through the switch is the same test by ear.", right=True),
        )), store=my_guesses())


def guess_sulphide():
    """Guess first: why brown silver works in one place and crackles in another."""
    return choice_guess(ChoiceGuess(
        key="one-contact-sulphide", question="Two silver contacts, both turned grey-brown. The one in the motor's switch works well. "
        "The one in the line switch crackles. How can that be?",
        choices=(
            Choice("Tarnish on silver conducts well, so the crackle comes from elsewhere.", "A textbook does call silver little troubled "
                   "by corrosion. That fits volts and amperes. At millivolts a study found serious losses. Each is right in its own range."),
            Choice("One was lucky: brown is bad, so both must be polished.", "The motor's volts break its film each time it closes. "
                   "Polishing takes silver that does not come back."),
            Choice("The motor's volts break the film, the line's millivolts don't.", "Silver sulphide conducts poorly at millivolts, "
                   "drifts, and minds the polarity. Volts and milliamperes go through.", right=True),
            Choice("More current always cleans, so line contacts need more of it.", "Where the circuit can't give volts and "
                   "milliamperes, no wish helps: line contacts want gold, or wiping. And too much current melts and pits."),
        )), store=my_guesses())


def say_why_no_beep():
    """Say it: why a beep did not settle the matter."""
    return say_it("one-contact-beep", "Somebody says: “It beeps, so the switch is fine.” Answer in two sentences.",
                  ours=("A switch that beeps may still have a film: with 3 V behind 1 kΩ the meter can break it and then read about 111 Ω, "
                        "a rule of thumb, where 20 mV still meet kilohms. Not shown by the beep is what a few millivolts of music find "
                        "there tomorrow; for that I would read with at most 20 mV, or send a soft tone through."),
                  checks=SayChecks(what=("switch", "contact", "film", "beep"),
                                   quantities=((Q(20, "mV"), "V"), (Q(111, "ohm"), "ohm"), (Q(3, "V"), "V"))), store=my_guesses())
