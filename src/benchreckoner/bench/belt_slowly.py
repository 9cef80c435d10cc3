"""One belt and one draw through the laws of `physics/`, one by one: slow, and what the fast way is held against."""

import numpy as np

from benchreckoner.bench.belt_priors import prior
from benchreckoner.physics.bearing_load import belt_current
from benchreckoner.physics.belt_bending import bending_strain, bending_torque
from benchreckoner.physics.belt_creep import creep, driven_speed
from benchreckoner.physics.belt_hub import hub_load
from benchreckoner.physics.belt_pull import belt_mass, both_pulls, centrifugal_pull, greatest_pull
from benchreckoner.physics.belt_rates import belt_speed
from benchreckoner.physics.belt_sizes import belt_section, free_length, inside_circumference
from benchreckoner.physics.rubber import modulus_from_hardness, neo_hookean_tension
from benchreckoner.physics.rubber_ageing import kept_share
from benchreckoner.units import Q


def truth_of(draws, belt, place):
    """One draw of everything that one belt's doings hang on.

    Parameters
    ----------
    draws : Draws
        With the own draws of this belt.
    belt : Belt
        Of a hardness, stated or not.
    place : int
        Which draw.

    Returns
    -------
    dict
        Plain numbers in SI units: the fields of `Draws` but `common`, and the belt's `size`, `thickness` and `modulus`.
    """
    own, truth = draws.own[belt.name], {name: float(values[place]) for name, values in vars(draws).items() if name not in ("own", "common")}
    hardness = prior("hardness")["unstated_middle"] if belt.hardness is None else belt.hardness
    modulus = modulus_from_hardness(hardness=float(hardness + own.hardness[place])) * np.exp(draws.common[place] + own.stiffness[place])
    return {**truth, "size": float(own.size[place]), "thickness": float(own.thickness[place]), "modulus": modulus.m_as("Pa")}


def belt_by_the_laws(drive, belt, truth):
    """What a belt does on a drive, if this is true of both.

    Parameters
    ----------
    drive : Drive
    belt : Belt
    truth : dict
        As `truth_of` gives it.

    Returns
    -------
    dict
        By the names of `Reckoned`, plain numbers in SI units.

    Raises
    ------
    ValueError
        For a belt that hangs slack, or is too slack to carry its load: the laws refuse it.
    """
    section = belt_section(shape=belt.shape, thickness=Q(truth["thickness"], "m"), width=belt.width)
    height, radii = section.neutral_height, [seat / 2 + section.neutral_height for seat in (drive.motor_seat, drive.wheel_seat)]
    inside = inside_circumference(size=Q(truth["size"], "m"), measure=belt.measure, neutral_height=height)
    ratio = ((Q(truth["seat_path"], "m") + drive.total_wrap.m_as("rad") * height)
             / free_length(inside_circumference=inside, neutral_height=height)).m_as("")
    modulus = Q(truth["modulus"], "Pa")
    rest = neo_hookean_tension(area=section.area, modulus=modulus, stretch_ratio=ratio)
    flung = centrifugal_pull(mass_per_length=belt_mass(density=Q(truth["density"], "kg/m**3"), area=section.area, stretch_ratio=ratio),
                             speed=belt_speed(pulley_radius=radii[0], speed=drive.motor_speed))
    load = Q(truth["load"], "N*m")
    tight, slack = both_pulls(rest_tension=rest, torque=load, pulley_radius=radii[1])
    aged = rest * kept_share(time=Q(prior("relaxation")["years"], "year"), loss_per_decade=truth["relaxation"])
    most = greatest_pull(rest_tension=aged, friction=truth["friction"] * truth["aged"], wrap=drive.motor_wrap, centrifugal=flung)
    hub = hub_load(tight_pull=tight, slack_pull=slack, wrap=drive.motor_wrap, centrifugal=flung)
    bending = bending_torque(loss_tangent=truth["loss_tangent"], modulus=modulus, second_moment=section.second_moment, motor_radius=radii[0],
                             other_radii=Q.from_list([radii[1]]))
    constant = Q(truth["motor_constant"], "V*s/rad")
    added = belt_current(bearing=truth["bearing"], hub_load=hub, bending_torque=bending, shaft_radius=drive.shaft_radius, motor_constant=constant)
    needed = Q(truth["no_load_current"], "A") + (load * radii[0] / radii[1] / (constant * Q(1, "rad"))).to("A")
    lost = creep(tight_pull=tight, slack_pull=slack, area=section.area, modulus=modulus)
    speed = driven_speed(speed=drive.motor_speed, driving_radius=radii[0], driven_radius=radii[1], creep=lost)
    return {"stretch": ratio - 1, "tension": rest.m_as("N"), "margin": (most / (tight - slack)).m_as(""), "hub": hub.m_as("N"),
            "torque": (added * constant * Q(1, "rad")).m_as("N*m"), "added": added.m_as("A"), "current": (added / needed).m_as(""),
            "drawn": (needed + added).m_as("A"), "creep": lost, "speed": (speed / drive.wheel_speed).m_as("") - 1,
            "bend": bending_strain(neutral_height=height, pulley_radius=radii[0])}
