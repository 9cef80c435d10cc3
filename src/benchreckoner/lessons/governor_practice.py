"""Exercises of book 05 on governors: two that fade, and one that mixes the laws."""

import numpy as np

from benchreckoner.lessons.motor_example import CONSTANT
from benchreckoner.physics.centrifugal import contact_duty, contact_speed, dead_band
from benchreckoner.physics.copper import warmed_resistance
from benchreckoner.physics.governors import bridge_values, headroom_current, speed_error, ungoverned_speed
from benchreckoner.physics.run_up import coast_down_time, run_up_constant, run_up_time
from benchreckoner.show.exercise import Problem, Slip, Step, exercise
from benchreckoner.units import Q, show


def least_volts(seed=None, blanks=1):
    """The fewest volts off load with which a governor still holds."""
    return exercise(least_volts_problem, key="governor-least-volts", seed=seed, blanks=blanks)


def slow_by(seed=None, blanks=2):
    """How far the speed is off at one load, trimmed at another."""
    return exercise(_slow_by, key="governor-slow-by", seed=seed, blanks=blanks)


def mixed(seed=None, blanks="all"):
    """One of several laws: the reader must tell first which one applies."""
    kinds = (least_volts_problem, _slow_by, _most_current, _bridge, _cold, _duty, _spring, _band, _beyond, _run_up, _coast)
    return exercise(lambda rng: kinds[rng.integers(len(kinds))](rng), key="governor-mixed", seed=seed, blanks=blanks)


def _set(rng):
    """A governor, a supply and a load: set volts, compensation, source, drop, current."""
    return (Q(float(rng.choice([2.4, 2.8, 3.2, 3.6])), "V"), Q(float(rng.choice([8, 10, 12, 14])), "ohm"),
            Q(float(rng.choice([2, 2.5, 3, 4])), "ohm"), Q(float(rng.choice([0.3, 0.5, 0.7])), "V"),
            Q(float(rng.choice([70, 85, 100, 120, 140])), "mA"))


def least_volts_problem(rng):
    """The volts of a supply at which a governor just holds.

    Parameters
    ----------
    rng : numpy.random.Generator

    Returns
    -------
    Problem
    """
    volts, ohms, source, drop, current = _set(rng)
    motor, lost = (volts + ohms * current).to("V"), (source * current).to("V")
    least = motor + drop + lost
    return Problem(
        question="How many volts must a supply have off load, so that the governor just holds the speed at this load?",
        given=(("set volts, at no current", show(volts, "V")), ("compensation", show(ohms, "ohm")),
               ("cells, contacts, wires and sense resistor", show(source, "ohm")), ("the transistor keeps at least", show(drop, "V")),
               ("current", show(current, "A"))),
        answer=least, unit="V", tolerance=0.01,
        steps=(Step("What the motor must get: set volts and compensation times current:", show(motor, "V", digits=4)),
               Step("What is lost before it, ohms times current:", show(lost, "V")),
               Step("These two and the transistor's least:", show(least, "V", digits=4))),
        slips=(Slip(motor + drop, "Cells, contacts and sense resistor take their share of the volts too."),
               Slip(motor + lost, "The transistor keeps something for itself, even when it is fully open."),
               Slip(volts + drop + lost, "With the load the governor <em>raises</em> the motor's volts, by the compensation.")))


def _slow_by(rng):
    winding = Q(float(rng.choice([12, 15, 18, 22])), "ohm")
    missing = Q(float(rng.choice([1, 2, 3, 4])), "ohm")
    trim, load = Q(float(rng.choice([60, 70, 85])), "mA"), Q(float(rng.choice([110, 125, 140])), "mA")
    made = Q(float(rng.choice([2.5, 3.0, 3.2])), "V")
    speed = (made / CONSTANT).to("turn/min")
    off = speed_error(current=load, trim_current=trim, trim_speed=speed, compensation=winding - missing, winding_resistance=winding,
                      motor_constant=CONSTANT)
    more, short = load - trim, (missing * (load - trim)).to("mV")
    return Problem(
        question="A governed motor was trimmed right at a light load. How many per cent too slow is it at the heavier one?",
        given=(("winding", show(winding, "ohm")), ("compensation", show(winding - missing, "ohm")), ("current when trimmed", show(trim, "A")),
               ("current now", show(load, "A")), ("volts that the turning itself makes, at the right speed", show(made, "V"))),
        answer=-off, unit="%", tolerance=0.02,
        steps=(Step("How much more current:", show(more, "A")),
               Step("Times the ohms that are not made good (winding less compensation):", show(short, "V")),
               Step("Over the volts that the turning makes:", f"{-off.m_as('%'):.3f} %")),
        slips=(Slip((missing * load / made).to("%"), "The light load was trimmed away: count only the current that has come on top."),
               Slip((winding * more / made).to("%"), "So it would be without compensation. Only the missing ohms count."),
               Slip(((winding - missing) * more / made).to("%"), "That much is made good. What is left of the winding is not.")))


def _most_current(rng):
    volts, ohms, source, drop, _ = _set(rng)
    supply = Q(float(rng.choice([6, 7.2, 7.5, 9])), "V")
    most = headroom_current(open_voltage=supply, regulator_drop=drop, set_voltage=volts, compensation=ohms, source_resistance=source)
    spare, total = (supply - drop - volts).to("V"), (ohms + source).to("ohm")
    return Problem(
        question="Up to which current does this governor hold the speed on this supply?",
        given=(("supply, off load", show(supply, "V")), ("the transistor keeps at least", show(drop, "V")),
               ("set volts, at no current", show(volts, "V")), ("compensation", show(ohms, "ohm")),
               ("cells, contacts, wires and sense resistor", show(source, "ohm"))),
        answer=most, unit="A", tolerance=0.01,
        steps=(Step("Volts to spare at no current:", show(spare, "V")),
               Step("Ohms that use them up, compensation and source together:", show(total, "ohm")),
               Step("One by the other:", show(most, "A", digits=4))),
        slips=(Slip((spare / source).to("A"), "The motor's volts rise with the current as well: the compensation belongs to the ohms."),
               Slip((spare / ohms).to("A"), "The source loses volts as well: its ohms belong to it."),
               Slip(((supply - volts) / total).to("A"), "The transistor's least is missing.")))


def _bridge(rng):
    sense = Q(float(rng.choice([0.47, 1, 1.5, 2.2])), "ohm")
    upper, lower = Q(float(rng.choice([6.8, 10, 12])), "kohm"), Q(float(rng.choice([0.82, 1.0, 1.2])), "kohm")
    ohms, _ = bridge_values(set_voltage=Q(3, "V"), sense_resistance=sense, upper_resistance=upper, lower_resistance=lower)
    times = (upper / lower).m_as("")
    return Problem(
        question="A governor has a sense resistor in series with the motor, and a divider across both. How many ohms does it compensate?",
        given=(("sense resistor", show(sense, "ohm")), ("divider, upper resistor", show(upper, "ohm")),
               ("divider, lower resistor", show(lower, "ohm"))),
        answer=ohms, unit="ohm", tolerance=0.01,
        steps=(Step("Upper over lower:", f"{times:.4g}"), Step("Times the sense resistor:", show(ohms, "ohm", digits=4))),
        slips=(Slip((sense / times).to("ohm"), "Upside down: the upper one over the lower one."),
               Slip((sense * (1 + times)).to("ohm"), "That is with the sense resistor's own drop still in it. The motor does not see that part.")))


def _cold(rng):
    winding, room = Q(float(rng.choice([8.2, 12, 15, 18, 24])), "ohm"), Q(float(rng.choice([20, 23, 25])), "degC")
    coldest = Q(float(rng.choice([-10, 0, 5, 10])), "degC")
    most = warmed_resistance(resistance=winding, cold=room, warm=coldest)
    now, then = (234.5 + one.magnitude for one in (room, coldest))
    return Problem(
        question="A winding is measured in a room. Up to how many ohms may the governor compensate, so that it hunts not even at the "
                 "coldest? Copper: k = 234.5.",
        given=(("winding", show(winding, "ohm")), ("measured at", show(room, "degC", digits=2)), ("coldest", show(coldest, "degC", digits=2))),
        answer=most, unit="ohm", tolerance=0.005,
        steps=(Step("k and the coldest, over k and the room:", f"{then / now:.5f}"), Step("Times the winding's ohms:", show(most, "ohm", digits=4))),
        slips=(Slip(winding * (now / then), "Colder copper has <em>fewer</em> ohms: turn the ratio over."),
               Slip(winding, "That holds in this room only.")))


def _duty(rng):
    low, high = Q(float(rng.choice([1.0, 1.5, 2.0])), "V"), Q(float(rng.choice([7.0, 8.0, 8.8])), "V")
    needed = Q(float(rng.choice([5.2, 5.6, 6.0])), "V")
    share = contact_duty(needed_voltage=needed, low_voltage=low, high_voltage=high)
    return Problem(
        question="A flying contact gives the motor one of two voltages. What share of the time is it shut?",
        given=(("volts with contacts shut", show(high, "V")), ("with contacts open, through the resistor", show(low, "V")),
               ("volts needed at this speed and load", show(needed, "V"))),
        answer=Q(100 * share, "%"), unit="%", tolerance=0.01,
        steps=(Step("Needed, above the low volts:", show(needed - low, "V")), Step("High, above the low volts:", show(high - low, "V")),
               Step("One over the other:", f"{100 * share:.2f} %")),
        slips=(Slip((needed / high).to("%"), "With the contacts open the motor still gets something: count from the low volts."),
               Slip(Q(100 * (1 - share), "%"), "That is how long it is <em>open</em>.")))


def _spring(rng):
    weight = dict(mass=Q(float(rng.choice([0.6, 0.8, 1.0])), "g"), radius=Q(float(rng.choice([6, 8, 10])), "mm"))
    force, times = Q(0.5, "N"), float(rng.choice([0.5, 0.64, 0.81, 1.21, 1.44, 2.0]))
    before, after = (contact_speed(spring_force=one, **weight) for one in (force, times * force))
    return Problem(
        question="A flying contact opens at a certain speed. Somebody bends its spring. At which speed does it open now?",
        given=(("speed before", show(before, "turn/min")), ("the spring's force, times before", f"{times:g}")),
        answer=after, unit="turn/min", tolerance=0.01,
        steps=(Step("The force goes as the square of the speed, so take the root of:", f"{times:g}, which is {np.sqrt(times):.4f}"),
               Step("Times the speed before:", show(after, "turn/min", digits=4))),
        slips=(Slip(before * times, "Twice the speed asks <em>four</em> times the force: take the root."),
               Slip(before * times**2, "The other way round: take the root, not the square."),
               Slip(before / np.sqrt(times), "A stronger spring opens <em>later</em>, so faster.")))


def _band(rng):
    force, rubs = Q(float(rng.choice([0.2, 0.4, 0.5, 0.8])), "N"), Q(float(rng.choice([3, 5, 8, 12])), "mN")
    share = dead_band(friction_force=rubs, governing_force=force)
    return Problem(
        question="A flying contact's lever rubs. Over which range of speed does the governor not stir, as a share of the speed? From the "
                 "lowest to the highest.",
        given=(("the spring's force", show(force, "N")), ("friction either way", show(rubs, "N"))),
        answer=Q(100 * share, "%"), unit="%", tolerance=0.02,
        steps=(Step("Up it needs spring and friction, down spring less friction. Friction over spring:", f"{share:.5f}"),
               Step("The force's range is twice that, and the speed's half of the force's. In per cent:", f"{100 * share:.4g} %")),
        slips=(Slip(Q(200 * share, "%"), "So much the <em>force</em> varies. The speed goes as its root, by half as much."),
               Slip(Q(50 * share, "%"), "That is to one side. Asked is from the lowest to the highest.")))


def _beyond(rng):
    winding, source, drop = Q(15, "ohm"), Q(float(rng.choice([3, 5, 7])), "ohm"), Q(0.3, "V")
    supply, current = Q(float(rng.choice([4.2, 4.5, 4.8])), "V"), Q(float(rng.choice([70, 85, 100])), "mA")
    speed = ungoverned_speed(current=current, open_voltage=supply, regulator_drop=drop, source_resistance=source,
                             winding_resistance=winding, motor_constant=CONSTANT)
    lost = (current * (winding + source)).to("V")
    made = (supply - drop - lost).to("V")
    return Problem(
        question="The cells are tired and the governor is fully open. At what speed does the motor turn, in r/min?",
        given=(("cells, off load", show(supply, "V")), ("the transistor keeps", show(drop, "V")), ("current", show(current, "A")),
               ("winding", show(winding, "ohm")), ("cells, contacts, wires and sense resistor", show(source, "ohm")),
               ("motor constant", "13 mV for each radian a second")),
        answer=speed, unit="turn/min", tolerance=0.01,
        steps=(Step("Lost in winding and source:", show(lost, "V")), Step("Left for the turning itself:", show(made, "V", digits=4)),
               Step("Over the constant, in radians a second:", f"{(made / CONSTANT).m_as('rad/s'):.2f}"),
               Step("Times 60, over 2π:", f"{speed.m_as('turn/min'):.1f} r/min")),
        slips=(Slip(((supply - drop - current * winding) / CONSTANT).to("turn/min"), "Cells, contacts and sense resistor lose volts too."),
               Slip(Q((made / CONSTANT).m_as("rad/s"), "turn/min"), "Those are radians a second. Times 60, over 2π."),
               Slip(Q((made / CONSTANT).m_as("rad/s") * 60, "turn/min"), "A turn is 2π radians: divide by that.")))


def _run_up(rng):
    inertia, ohms = Q(1e-6 * float(rng.choice([0.4, 0.6, 0.9, 1.4])), "kg*m**2"), Q(float(rng.choice([17, 18, 20])), "ohm")
    speed, final = Q(2400, "turn/min"), Q(float(rng.choice([3600, 4000, 4400, 5400])), "turn/min")
    tau = run_up_constant(inertia=inertia, resistance=ohms, motor_constant=CONSTANT)
    time = run_up_time(speed=speed, final_speed=final, time_constant=tau)
    share = (speed / final).m_as("")
    return Problem(
        question="A motor starts from rest, its governor fully open until it is at speed. How long does it take?",
        given=(("speed that the governor holds", show(speed, "turn/min")), ("speed to which the supply would take it", show(final, "turn/min")),
               ("time constant, from inertia, ohms and motor constant", show(tau, "s"))),
        answer=time, unit="s", tolerance=0.02,
        steps=(Step("The share of the final speed that is asked:", f"{share:.4f}"),
               Step("−ln(1 − share):", f"{-np.log(1 - share):.4f}"), Step("Times the time constant:", show(time, "s"))),
        slips=(Slip(tau * share, "It slows as it nears its end: take the logarithm of what is left."),
               Slip(-tau * np.log(share), "What counts is what is still <em>missing</em>: one less the share."),
               Slip(tau, "One time constant brings it to 63 % of the final speed.")))


def _coast(rng):
    inertia, speed = Q(1e-6 * float(rng.choice([0.4, 0.6, 0.9, 1.4])), "kg*m**2"), Q(float(rng.choice([1800, 2400, 3000])), "turn/min")
    friction = Q(float(rng.choice([0.26, 0.4, 0.6, 0.9])), "mN*m")
    time = coast_down_time(inertia=inertia, speed=speed, friction_torque=friction)
    return Problem(
        question="A motor is unplugged at speed, its circuit open. How long until it stands?",
        given=(("inertia at its shaft", f"{1e6 * inertia.m_as('kg*m**2'):g} millionths of a kg m²"), ("speed", show(speed, "turn/min")),
               ("friction at its shaft", f"{friction.m_as('mN*m'):g} mN·m")),
        answer=time, unit="s", tolerance=0.02,
        steps=(Step("The speed in radians a second:", f"{speed.m_as('rad/s'):.2f}"),
               Step("Times the inertia, over the friction:", show(time, "s", digits=4))),
        slips=(Slip(Q((inertia / friction).m_as("s**2") * speed.m_as("turn/min"), "s"), "The speed belongs in radians a second."),
               Slip(Q((inertia / friction).m_as("s**2") * speed.m_as("turn/s"), "s"), "A turn is 2π radians: multiply by that.")))
