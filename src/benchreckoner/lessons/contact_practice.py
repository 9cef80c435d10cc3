"""Exercises of book 02: entry questions, three that fade, and one that mixes the laws."""

from benchreckoner.physics.contacts import contact_resistance, motor_voltage, voltage_drop
from benchreckoner.physics.ohmmeter import two_wire_reading
from benchreckoner.physics.parallel import parallel_resistance
from benchreckoner.show.entry import Entry, entry_questions
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.show.guess import Choice, ChoiceGuess
from benchreckoner.units import Q, show

_SECTION, _BENCH = "One dirty joint", "Your bench"


def skip_ahead():
    """Three questions: all right leads straight to the reader's own bench."""
    return entry_questions((
        Entry(drop_to_ohms_of(Q(184, "mV"), Q(310, "mA")), _SECTION),
        Entry(held_volts_of(Q(9, "V"), Q(0.9, "ohm"), Q(7, "ohm"), Q(1.1, "ohm")), _SECTION),
        Entry(ChoiceGuess(
            key="contacts-entry-largest", question="At 1 A, three alkaline cells lose 0.8 V between them and a plug loses "
            "0.3 V. Which one do you mend first?",
            choices=(
                Choice("The cells: they lose the most volts.",
                       "Volts alone do not judge. Three such cells may have 0.9 Ω and be sound; a plug with 0.3 Ω is bad."),
                Choice("The plug: its ohms are out of its band, the cells' are not.",
                       "Each part is judged by its own band, in ohms.", right=True),
                Choice("The motor: it gets too few volts.", "The motor is where the loss is felt, not where it is made."),
            )), _SECTION)), where=_BENCH)


def drop_to_ohms(seed=None, blanks=1):
    """Ohms of a link from its drop and the current."""
    return exercise(drop_to_ohms_problem, key="contacts-drop-to-ohms", seed=seed, blanks=blanks)


def held_volts(seed=None, blanks=2):
    """Volts at a held motor behind one bad link."""
    return exercise(held_volts_problem, key="contacts-held-volts", seed=seed, blanks=blanks)


def missing_joint(seed=None, blanks="all"):
    """The ohms of a joint that nobody measured, from what the drops leave over."""
    return exercise(_missing_joint, key="contacts-missing-joint", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (drop_to_ohms_problem, held_volts_problem, _missing_joint, _two_wire, _two_prongs)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="contacts-mixed", seed=seed, blanks=blanks)


def drop_to_ohms_problem(rng):
    """Ohms of a link from its drop and the current.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    return drop_to_ohms_of(Q(float(rng.integers(40, 900)), "mV"), Q(float(rng.integers(80, 900)), "mA"))


def drop_to_ohms_of(drop, current):
    """The problem with these numbers."""
    ohms = contact_resistance(voltage_drop=drop, current=current)
    return Problem(
        question="A battery spring loses these volts while the motor draws this current. How many ohms has it?",
        given=(("voltage drop across the spring", show(drop, "V")), ("current through it", show(current, "A"))),
        answer=ohms, unit="ohm", tolerance=0.02,
        steps=(Step("The drop in volts:", f"{drop.m_as('V'):.3g} V"),
               Step("The current in amperes:", f"{current.m_as('A'):.3g} A"),
               Step("Ohms are volts divided by amperes:", show(ohms, "ohm"))),
        slips=(Slip(Q(1 / ohms.m_as("ohm"), "ohm"), "Upside down: amperes by volts. Ohms are volts <em>per</em> ampere, "
                    "so the volts stand on top."),
               Slip(Q((drop * current).m_as("W"), "ohm"), "That is volts <em>times</em> amperes, which gives watts.")))


def held_volts_problem(rng):
    """Volts at a held motor behind one bad link.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    cells = int(rng.integers(2, 9))
    return held_volts_of(Q(1.5 * cells, "V"), Q(round(0.15 * cells, 2), "ohm"), Q(float(rng.integers(5, 16)), "ohm"),
                         Q(round(float(rng.uniform(0.4, 3)), 1), "ohm"))


def held_volts_of(supply, cells, motor, link):
    """The problem with these numbers."""
    volts = motor_voltage(supply=supply, source_resistance=cells, motor_resistance=motor, contact_resistance=link)
    whole = cells + link + motor
    current = supply / whole
    return Problem(
        question="A motor is held still behind one bad spring. How many volts reach it?",
        given=(("supply, nothing drawn", show(supply, "V")), ("inside the cells", show(cells, "ohm")),
               ("the spring", show(link, "ohm")), ("the motor", show(motor, "ohm"))),
        answer=volts, unit="V", tolerance=0.02,
        steps=(Step("All the ohms in the loop, added up:", show(whole, "ohm")),
               Step("The current they allow:", show(current, "A")),
               Step("The motor's share, current times its ohms:", show(volts, "V"))),
        slips=(Slip((supply - volts).to("V"), "Those are the volts that get <em>lost</em>. The motor gets the rest."),
               Slip(motor_voltage(supply=supply, source_resistance=Q(0, "ohm"), motor_resistance=motor,
                                  contact_resistance=link), "The cells have ohms too: they belong in the loop."),
               Slip(motor_voltage(supply=supply, source_resistance=cells, motor_resistance=motor),
                    "That is with a perfect spring: its ohms belong in the loop.")))


def _missing_joint(rng):
    current, joint = Q(round(float(rng.uniform(0.3, 1.0)), 2), "A"), Q(round(float(rng.uniform(0.3, 2)), 2), "ohm")
    drops = [Q(float(rng.integers(10, 90)), "mV") for _ in range(3)]
    hidden = voltage_drop(current=current, contact_resistance=joint)
    supply = Q(round(float(rng.uniform(5, 9)), 2), "V")
    motor = (supply - sum(drops, Q(0, "V")) - hidden).to("V")
    ohms = contact_resistance(voltage_drop=hidden, current=current)
    return Problem(
        question="You read the supply under load, every drop you could reach, and the motor. The drops do not account "
                 "for all the volts. How many ohms has the joint that you did not find?",
        given=(("supply under load", f"{supply.m_as('V'):.3f} V"),
               *((f"drop {number}", show(drop, "V")) for number, drop in enumerate(drops, start=1)),
               ("at the motor", f"{motor.m_as('V'):.3f} V"), ("current", show(current, "A"))),
        answer=ohms, unit="ohm", tolerance=0.03,
        steps=(Step("Volts missing between supply and motor:", f"{(supply - motor).m_as('V'):.3f} V"),
               Step("What the drops account for:", f"{sum(drops, Q(0, 'V')).m_as('V'):.3f} V"),
               Step("What is left over:", f"{hidden.m_as('V'):.3f} V"),
               Step("As ohms, at this current:", show(ohms, "ohm"))),
        slips=(Slip(contact_resistance(voltage_drop=(supply - motor).to("V"), current=current),
                    "That is everything between supply and motor. Take off the drops that you did find."),
               Slip(Q(1 / ohms.m_as("ohm"), "ohm"), "Upside down: ohms are volts <em>per</em> ampere.")))


def _two_wire(rng):
    lead = Q(round(float(rng.uniform(0.05, 0.3)), 2), "ohm")
    link = Q(round(float(rng.uniform(0.02, 0.6)), 2), "ohm")
    reading = two_wire_reading(resistance=link, lead_resistance=lead)
    return Problem(
        question="An ohmmeter with two test leads shows this across a switch. How many ohms has the switch itself?",
        given=(("the meter shows", show(reading, "ohm")), ("each test lead", show(lead, "ohm"))),
        answer=link, unit="ohm", tolerance=Q(5, "mohm"),
        steps=(Step("Both leads are in the reading:", show(2 * lead, "ohm")),
               Step("The switch is what remains:", show(link, "ohm"))),
        slips=(Slip((reading - lead).to("ohm"), "Two leads carry the current, there and back: take off both."),
               Slip((reading + 2 * lead).to("ohm"), "The leads are already in the reading: take them off, not on."),
               Slip(reading, "That is switch <em>and</em> leads.")))


def _two_prongs(rng):
    clean, dirty = Q(float(rng.integers(10, 40)), "mohm"), Q(float(rng.integers(80, 400)), "mohm")
    both = parallel_resistance(resistances=Q([clean.m_as("ohm"), dirty.m_as("ohm")], "ohm"))
    return Problem(
        question="A switch blade touches with two prongs side by side. One is clean, one is filmed over. "
                 "How many ohms has the blade?",
        given=(("clean prong", show(clean, "ohm")), ("filmed prong", show(dirty, "ohm"))),
        answer=both, unit="ohm", tolerance=0.02,
        steps=(Step("Side by side, one over the whole is the sum of one over each:",
                    f"{1 / both.m_as('ohm'):.3g} per ohm"),
               Step("Turned over again:", show(both, "ohm"))),
        slips=(Slip((clean + dirty).to("ohm"), "That is one <em>behind</em> the other. Side by side, the current has two ways."),
               Slip(((clean + dirty) / 2).to("ohm"), "Not the middle of the two: two ways are always better than the better one."),
               Slip(Q(1 / both.m_as("ohm"), "ohm"), "Turn it over once more.")))
