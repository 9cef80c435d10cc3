"""The laws of a fitted belt over thousands of draws at once: plain numbers in SI units, a row a belt.

`physics/` is the home of these laws; tests hold one draw of this against them, one by one.
"""

from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.belt_draws import own_scatter
from benchreckoner.bench.belt_priors import prior
from benchreckoner.physics.belt_bending import RULE
from benchreckoner.physics.belt_sizes import FLAT_LENGTH, INSIDE_DIAMETER, PITCH_LENGTH
from benchreckoner.physics.rubber import GREATEST_RATIO

_MINUTES_A_YEAR = 365.25 * 24 * 60


@dataclass(frozen=True, eq=False)
class Reckoned:
    """What fitted belts do, SI units, a row a belt and a column a draw (or a row alone, for one belt).

    ``stretch`` as a share; ``tension`` fresh, at rest; ``margin`` greatest pull before slip, aged, over the load's pull;
    ``hub`` load of the motor's shaft, fresh; ``torque`` that the belt costs the motor; ``added`` the current of that;
    ``current`` the same as a share of what the motor draws without it; ``drawn`` the motor's whole current; ``creep`` and
    ``speed`` (the wheel's, beside the wanted) as shares; ``bend`` half the thickness over the motor pulley's radius;
    ``width`` of the belt. A slack belt pulls nothing.
    """

    stretch: np.ndarray
    tension: np.ndarray
    margin: np.ndarray
    hub: np.ndarray
    torque: np.ndarray
    added: np.ndarray
    current: np.ndarray
    drawn: np.ndarray
    creep: np.ndarray
    speed: np.ndarray
    bend: np.ndarray
    width: np.ndarray

    def row(self, place):
        """One belt's alone."""
        return Reckoned(**{name: values[place] for name, values in vars(self).items()})


def reckon(drive, draws, belts):
    """Reckon belts on a drive, draw by draw.

    Parameters
    ----------
    drive : Drive
    draws : Draws
        With the own draws of these belts.
    belts : sequence of Belt

    Returns
    -------
    Reckoned
    """
    own = [draws.own[belt.name] for belt in belts]
    cuts = [cut_of(belt.shape, one.thickness, belt.width) for belt, one in zip(belts, own)]
    section = Cut(*(np.array([getattr(cut, name) for cut in cuts]) for name in ("area", "height", "moment", "width")))
    free = np.array([free_of(belt.measure, one.size, cut.height) for belt, one, cut in zip(belts, own, cuts)])
    stretch = (draws.seat_path + drive.total_wrap.m_as("rad") * section.height) / free - 1
    return fitted(drive, draws, section=section, stretch=stretch,
                  modulus=np.array([modulus_draws(belt, one, draws.common) for belt, one in zip(belts, own)]))


def reckon_sizes(drive, draws, belt, sizes):
    """Reckon one belt as if it were listed with other sizes, all else with it.

    Parameters
    ----------
    drive : Drive
    draws : Draws
        With the own draws of this belt.
    belt : Belt
    sizes : array [m]
        By the same word as the belt's own size.

    Returns
    -------
    Reckoned
        A row a size.
    """
    own = draws.own[belt.name]
    section = cut_of(belt.shape, own.thickness, belt.width)
    size = np.asarray(sizes)[:, None] + (own.size - belt.size.m_as("m"))
    stretch = (draws.seat_path + drive.total_wrap.m_as("rad") * section.height) / free_of(belt.measure, size, section.height) - 1
    return fitted(drive, draws, section=section, stretch=stretch, modulus=modulus_draws(belt, own, draws.common))


def fitted(drive, draws, *, section, stretch, modulus):
    """What belts of these sections, stretches and moduli do on a drive.

    Parameters
    ----------
    drive : Drive
    draws : Draws
    section : Cut
    stretch, modulus : array
        As a share, and Young's in Pa.

    Returns
    -------
    Reckoned
    """
    motor, wheel = (seat.m_as("m") / 2 + section.height for seat in (drive.motor_seat, drive.wheel_seat))
    turning, wrap = drive.motor_speed.m_as("rad/s"), drive.motor_wrap.m_as("rad")
    # Beyond 1.5 the tension law stops holding; such a belt is out of the window by its stretch alone.
    ratio = np.clip(1 + stretch, 1.0, GREATEST_RATIO)
    tension = section.area * modulus / 3 * (ratio - ratio**-2)
    flung = draws.density * section.area / ratio * (turning * motor) ** 2
    pull = draws.load / wheel
    kept = 1 - draws.relaxation * np.log10(prior("relaxation")["years"] * _MINUTES_A_YEAR)
    margin = 2 * (tension * kept - flung) * np.tanh(draws.friction * draws.aged * wrap / 2) / pull
    carried = np.minimum(pull / 2, tension)  # a belt too slack for the load slips, and carries what it can
    tight, slack = tension + carried, tension - carried
    hub = _across(np.maximum(tight - flung, 0), np.maximum(slack - flung, 0), wrap)
    bending = RULE * draws.loss_tangent * modulus * section.moment * (1 / motor + motor / wheel**2)
    torque = draws.bearing * drive.shaft_radius.m_as("m") * hub + bending
    needed = draws.no_load_current + draws.load * motor / wheel / draws.motor_constant
    added = torque / draws.motor_constant
    creep = 1 - _ratio(slack / (section.area * modulus)) / _ratio(tight / (section.area * modulus))
    speed = turning * motor / wheel * (1 - creep) / drive.wheel_speed.m_as("rad/s") - 1
    return Reckoned(*np.broadcast_arrays(stretch, tension, margin, hub, torque, added, added / needed, needed + added, creep, speed,
                                         section.height / motor, section.width))


@dataclass(frozen=True, eq=False)
class Cut:
    """Sections of belts: area, height of the neutral line, second moment and width, SI units, a row a belt."""

    area: np.ndarray
    height: np.ndarray
    moment: np.ndarray
    width: np.ndarray


def cut_of(shape, thickness, width=None):
    """The section of belts of one shape.

    Parameters
    ----------
    shape : str
    thickness : array [m]
    width : Quantity [m], optional
        Of a flat belt.

    Returns
    -------
    Cut
    """
    if shape == "round":
        return Cut(np.pi / 4 * thickness**2, thickness / 2, np.pi / 64 * thickness**4, thickness)
    wide = thickness if shape == "square" else np.full_like(thickness, width.m_as("m"))
    return Cut(wide * thickness, thickness / 2, wide * thickness**3 / 12, wide)


def modulus_of(hardness):
    """Young's modulus in Pa at a hardness, Gent's form."""
    return 0.0981e6 * (56 + 7.62336 * hardness) / (0.137505 * (254 - 2.54 * hardness))


def modulus_draws(belt, own, common):
    """Young's modulus of one belt in Pa, draw by draw: weighed, or out of its hardness and the scatter of compounds."""
    if belt.modulus is not None:
        return belt.modulus.value.m_as("Pa") * np.exp(own.stiffness * belt.modulus.number.std_dev / belt.modulus.plain / own_scatter())
    stated = prior("hardness")["unstated_middle"] if belt.hardness is None else belt.hardness
    return modulus_of(stated + own.hardness) * np.exp(common + own.stiffness)


def free_of(measure, size, height):
    """Free length along the neutral line, by the word that a size goes by."""
    if measure == PITCH_LENGTH:
        return size
    return {INSIDE_DIAMETER: np.pi, FLAT_LENGTH: 2.0}.get(measure, 1.0) * size + 2 * np.pi * height


def _across(tight, slack, wrap):
    return np.sqrt(tight**2 + slack**2 - 2 * tight * slack * np.cos(wrap))


def _ratio(third):
    """Stretch ratio by pull over area and modulus: the neo-Hookean law turned round."""
    root = np.sqrt(0.25 + third**3)
    one, other = np.cbrt(root + 0.5), np.cbrt(root - 0.5)
    return one**2 + one * other + other**2
