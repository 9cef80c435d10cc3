"""Exercises of book 05 on cells, adapters and lamps: three that fade, and one that mixes the laws."""

from benchreckoner.physics.charging import full_charge_time, runtime
from benchreckoner.physics.lamps import lamp_current, led_resistor
from benchreckoner.physics.supply import regulation_end, source_resistance, source_voltage, start_dip
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def cell_end(seed=None, blanks=1):
    """Volts of one cell at which a governor lets go."""
    return exercise(_cell_end, key="cells-end", seed=seed, blanks=blanks)


def start_volts(seed=None, blanks=2):
    """Volts left behind cells and contacts in the moment of the start."""
    return exercise(_start_volts, key="cells-start-volts", seed=seed, blanks=blanks)


def off_load(seed=None, blanks="all"):
    """An adapter's volts off load, from two readings under load."""
    return exercise(_off_load, key="cells-off-load", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (_cell_end, _start_volts, _off_load, _runtime, _charge, _lamp, _diode)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="cells-mixed", seed=seed, blanks=blanks)


def _pick(rng, values, unit):
    return Q(float(rng.choice(values)), unit)


def _cell_end(rng):
    count, current = int(rng.integers(3, 9)), _pick(rng, [60, 80, 100, 120, 150], "mA")
    wanted, drop = _pick(rng, [2.4, 3.0, 3.6, 4.2, 4.8], "V"), _pick(rng, [0.3, 0.6, 0.8, 1.0], "V")
    cell, other = _pick(rng, [0.1, 0.15, 0.2, 0.3], "ohm"), _pick(rng, [0.8, 1.2, 1.5, 2.0], "ohm")
    # The motor's volts at this current as one number: what set voltage and compensation come to.
    end = regulation_end(cells=count, current=current, set_voltage=wanted, compensation=Q(0, "ohm"), regulator_drop=drop,
                         cell_resistance=cell, other_resistance=other)
    lost = (current * (count * cell + other)).to("V")
    whole = wanted + drop + lost
    return Problem(
        question="A governor keeps these volts on the motor at this current. At how many volts a cell, read with nothing drawn, does it "
                 "let go?",
        given=(("cells in series", f"{count}"), ("current", show(current, "A")), ("volts on the motor", show(wanted, "V")),
               ("the least that the transistor keeps", show(drop, "V")), ("ohms of each cell", show(cell, "ohm")),
               ("contacts, wires and sense resistor", show(other, "ohm"))),
        answer=end, unit="V", tolerance=0.02,
        steps=(Step("Lost on the way, current times all ohms (cells, contacts, sense resistor):", show(lost, "V")),
               Step("Needed in all: the motor's volts, the transistor's, and what is lost:", show(whole, "V")),
               Step("Shared by the cells:", show(end, "V"))),
        slips=(Slip(whole, "That is what all cells must give together. Share it."),
               Slip((wanted + drop) / count, "The current also loses volts in cells, contacts and sense resistor."),
               Slip((wanted + lost) / count, "The transistor keeps its own part as well."),
               Slip((wanted + drop - lost) / count, "What is lost on the way must be given on top, not taken off.")))


def _start_volts(rng):
    supply = Q(1.5 * int(rng.integers(3, 9)), "V")
    source, motor = _pick(rng, [0.8, 1.2, 2.0, 3.3, 4.7], "ohm"), _pick(rng, [8, 10, 12, 15, 20], "ohm")
    drop = _pick(rng, [0.3, 0.6, 0.8], "V")
    current, left = start_dip(open_voltage=supply, supply_resistance=source, regulator_drop=drop, motor_resistance=motor)
    lost = (source * current).to("V")
    return Problem(
        question="A motor stands still in the moment it is switched on. How many volts are left behind cells and contacts?",
        given=(("cells, nothing drawn", show(supply, "V")), ("cells, contacts and wires", show(source, "ohm")),
               ("winding and sense resistor", show(motor, "ohm")), ("the transistor keeps", show(drop, "V"))),
        answer=left, unit="V", tolerance=0.02,
        steps=(Step("Current: the volts less the transistor's, by all ohms:", show(current, "A")),
               Step("Lost in cells and contacts, that current times their ohms:", show(lost, "V")),
               Step("Left of the cells' volts:", show(left, "V"))),
        slips=(Slip(lost, "That is what is lost. What is left of the whole?"),
               Slip(supply, "So it would be with nothing drawn. A motor at rest draws its most."),
               Slip((motor * current).to("V"), "That is what winding and sense resistor get. The transistor keeps its part behind the "
                                               "contacts too.")))


def _off_load(rng):
    source = _pick(rng, [3, 5, 8, 10, 12, 15], "ohm")
    first, second = _pick(rng, [50, 60, 80], "mA"), _pick(rng, [200, 250, 300], "mA")
    low = _pick(rng, [6.0, 7.5, 9.0, 12.0], "V")
    high = Q(round(source_voltage(voltage=low, at_current=second, source_resistance=source, current=first).m_as("V"), 2), "V")
    ohms = source_resistance(off_voltage=high, loaded_voltage=low, current=second - first)
    off = source_voltage(voltage=low, at_current=second, source_resistance=ohms, current=Q(0, "A"))
    return Problem(
        question="An unregulated adapter is read at two loads. What does it give with nothing drawn, taken as a straight line?",
        given=((f"at {show(first, 'A')}", f"{high.m_as('V'):.2f} V"), (f"at {show(second, 'A')}", f"{low.m_as('V'):.2f} V")),
        answer=off, unit="V", tolerance=0.01,
        steps=(Step("Its ohms: volts lost from one load to the other, by the amperes between them:", show(ohms, "ohm")),
               Step("Off load: the lower volts, and those ohms times their whole current on top:", show(off, "V"))),
        slips=(Slip(high, "That is at the lighter load. Off load it gives still more."),
               Slip((low - ohms * second).to("V"), "Wrong way: with less drawn it gives more."),
               Slip((high + ohms * second).to("V"), "Those volts belong to the lighter load: add what the <em>lighter</em> current "
                                                    "costs.")))


def _runtime(rng):
    capacity, current = _pick(rng, [1.2, 2.0, 2.5, 4.0, 8.0], "Ah"), _pick(rng, [60, 85, 110, 140, 180], "mA")
    hours = runtime(capacity=capacity, current=current)
    return Problem(
        question="Six cells in series feed a player. For how many hours, if they gave all that is marked?",
        given=(("marked on each cell", show(capacity, "Ah")), ("the player draws", show(current, "A"))),
        answer=hours, unit="h", tolerance=0.02,
        steps=(Step("The same current flows through all six, so the capacity of one counts:", show(capacity, "Ah")),
               Step("Ampere-hours by amperes:", f"{hours.m_as('h'):.3g} h")),
        slips=(Slip(6 * hours, "In series the volts add up, not the ampere-hours."),
               Slip(hours / 6, "The six do not share the current: each one carries all of it."),
               Slip(Q((current / capacity).m_as("1/h"), "h"), "Upside down: a larger cell lasts longer.")))


def _charge(rng):
    capacity, current = _pick(rng, [0.6, 1.2, 2.0, 2.5, 4.0], "Ah"), _pick(rng, [50, 60, 100, 120], "mA")
    hours = full_charge_time(capacity=capacity, current=current)
    return Problem(
        question="A built-in charger sends this current through empty nickel cells. The standard charge puts 1.6 times the capacity in. "
                 "For how many hours?",
        given=(("capacity of one cell", show(capacity, "Ah")), ("charging current", show(current, "A"))),
        answer=hours, unit="h", tolerance=0.02,
        steps=(Step("To put in:", f"{1.6 * capacity.m_as('Ah'):.3g} Ah"), Step("By the current:", f"{hours.m_as('h'):.3g} h")),
        slips=(Slip(hours / 1.6, "Part of the charge turns into heat: 1.6 times the capacity must go in."),
               Slip(hours / 2.56, "Times 1.6, not by 1.6: more must go in than comes out.")))


def _lamp(rng):
    rated, current = _pick(rng, [3.5, 6.0, 12.0], "V"), _pick(rng, [60, 100, 200, 300], "mA")
    share = float(rng.choice([0.5, 0.6, 0.7, 0.8]))
    now = lamp_current(voltage=share * rated, rated_voltage=rated, rated_current=current)
    return Problem(
        question="A filament lamp glows on fewer volts than its own. Its current goes as volts to the power 0.55. What does it draw?",
        given=(("marked", f"{show(rated, 'V')}, {show(current, 'A')}"), ("volts across it now", show(share * rated, "V"))),
        answer=now, unit="A", tolerance=0.02,
        steps=(Step("Volts now over its own:", f"{share:.2f}"), Step("That to the power 0.55:", f"{share**0.55:.3f}"),
               Step("Times its marked current:", show(now, "A"))),
        slips=(Slip(share * current, "That is a resistor. A cooler filament has fewer ohms, so more flows."),
               Slip(current, "Fewer volts, and less current, only not in proportion."),
               Slip(current / share**0.55, "Upside down: fewer volts cannot draw more.")))


def _diode(rng):
    supply, volts = _pick(rng, [4.5, 6.0, 9.0, 12.0], "V"), _pick(rng, [1.9, 2.1, 3.0], "V")
    current = _pick(rng, [2, 5, 10, 20], "mA")
    ohms, _ = led_resistor(supply=supply, led_voltage=volts, current=current)
    left = supply - volts
    return Problem(
        question="A light-emitting diode takes a pilot lamp's place. Which resistor goes in series with it?",
        given=(("supply", show(supply, "V")), ("across the diode", show(volts, "V")), ("current", show(current, "A"))),
        answer=ohms, unit="ohm", tolerance=0.03,
        steps=(Step("Left for the resistor:", show(left, "V")), Step("By the current:", show(ohms, "ohm"))),
        slips=(Slip((supply / current).to("ohm"), "The diode keeps its own volts: take them off first."),
               Slip((volts / current).to("ohm"), "Those volts lie across the diode. The resistor gets the rest."),
               Slip(Q(left.m_as("V") * current.m_as("A"), "ohm"), "Volts <em>times</em> amperes are watts.")))
