"""A belt out of the bag, and the drive it shall fit: what is stated or measured of both."""

from dataclasses import dataclass, field

import numpy as np

from benchreckoner.bench.belt_priors import prior
from benchreckoner.bench.uncertain import Known, within
from benchreckoner.physics.belt_path import two_pulley_path
from benchreckoner.physics.belt_sizes import MEASURES, belt_section
from benchreckoner.physics.plain import number
from benchreckoner.units import Q, need

_SOFTEST, _HARDEST = 25, 75  # so that the tolerance of the hardness stays where the laws hold
_ONCE_ROUND = Q(2 * np.pi, "rad")


@dataclass(frozen=True)
class Belt:
    """One belt of the bag.

    Parameters
    ----------
    name : str
        Its own draws hang on it, so its line does not change when other belts come or go.
    shape : str
        ``"square"``, ``"round"`` or ``"flat"``.
    thickness : Quantity [m]
    size : Quantity [m]
    measure : str
        The word that the size goes by, one of `belt_sizes.MEASURES`.
    width : Quantity [m], optional
        Of a flat belt.
    hardness : float, optional
        Shore A as stated, 25 to 75; left out, 50 to 70 is believed.
    modulus : Known [Pa], optional
        Weighed: it then stands instead of the hardness.
    size_limit, thickness_limit : Quantity [m], optional
        How far the true value may lie either way; what lists are good to, if left out.
    """

    name: str
    shape: str
    thickness: Q
    size: Q
    measure: str
    width: Q | None = None
    hardness: float | None = None
    modulus: Known | None = None
    size_limit: Q | None = None
    thickness_limit: Q | None = None

    def __post_init__(self):
        try:
            belt_section(shape=self.shape, thickness=self.thickness, width=self.width)
            need(self.size, "m", "size", above=0)
            for name in ("size_limit", "thickness_limit"):
                if getattr(self, name) is not None:
                    need(getattr(self, name), "m", name, least=0)
            self._check_words()
        except ValueError as fault:
            raise ValueError(f"{self.name}: {fault}") from None

    def _check_words(self):
        if self.measure not in MEASURES:
            raise ValueError(f"measure: must be one of {', '.join(MEASURES)}, got {self.measure!r}; write \"inside diameter\"")
        if self.hardness is not None and not _SOFTEST <= number(self.hardness, "hardness", example=60) <= _HARDEST:
            raise ValueError(f"hardness: belts of {_SOFTEST} to {_HARDEST} Shore A can be reckoned, got {self.hardness}; write 60")
        if self.limits["thickness"] >= self.thickness.m_as("m") / 2:
            raise ValueError("thickness_limit: must be below half the thickness; write Q(0.05, 'mm')")

    @property
    def limits(self):
        """How far size and thickness may lie off either way, in metres."""
        stated = {"size": self.size_limit, "thickness": self.thickness_limit}
        listed = {"size": 1e-3 * prior("size")[self.measure], "thickness": 1e-3 * prior("thickness")["limit"]}
        return {what: listed[what] if limit is None else limit.m_as("m") for what, limit in stated.items()}


@dataclass(frozen=True)
class Drive:
    """What a belt must fit: the path along the seats, the motor's pulley, the load, the motor, the speed that is wanted.

    Parameters
    ----------
    seat_path : Known [m]
        Length along the seats, as a thread of no thickness; each belt's own thickness is added.
    motor_seat, wheel_seat : Quantity [m]
        Diameters where the belt's inner face lies.
    motor_wrap : Quantity [rad]
        Of the belt on the motor's pulley.
    load : Known [N*m]
        That the wheel asks for at most.
    motor_constant : Known [V*s/rad]
    no_load_current : Known [A]
        Of the motor with the belt off.
    motor_speed, wheel_speed : Quantity [turn/min]
        As the motor runs now, and as the wheel should.
    trimmer : float
        By how much the speed can be trimmed either way, as a share.
    shaft_radius : Quantity [m], optional
    bearing : str, optional
        ``"ball"``, ``"oiled"``, ``"dry"`` or ``"unknown"``: of the motor.
    overhang : float, optional
        How far the pulley stands out beyond the front bearing, by the distance of the bearings.
    groove : Quantity [m], optional
        Width of the narrowest seat, if its flanges bound it.
    total_wrap : Quantity [rad], optional
        Of all pulleys together; a full turn for an open loop.
    """

    seat_path: Known
    motor_seat: Q
    wheel_seat: Q
    motor_wrap: Q
    load: Known
    motor_constant: Known
    no_load_current: Known
    motor_speed: Q
    wheel_speed: Q
    trimmer: float
    shaft_radius: Q = field(default_factory=lambda: Q(1, "mm"))
    bearing: str = "unknown"
    overhang: float = 0.0
    groove: Q | None = None
    total_wrap: Q = _ONCE_ROUND

    def __post_init__(self):
        for name, unit in (("motor_seat", "m"), ("wheel_seat", "m"), ("motor_wrap", "rad"), ("motor_speed", "turn/min"),
                           ("wheel_speed", "turn/min"), ("shaft_radius", "m"), ("total_wrap", "rad")):
            need(getattr(self, name), unit, name, above=0)
        for name, unit in (("seat_path", "m"), ("load", "N*m"), ("motor_constant", "V*s/rad"), ("no_load_current", "A")):
            known = getattr(self, name)
            if not isinstance(known, Known):
                raise TypeError(f"{name}: write a Known, such as within(Q(1, '{unit}'), 0.02, '{unit}'), got {known!r}")
            need(known.value, unit, name, above=0)
            if not 5 * known.number.std_dev < known.plain:
                raise ValueError(f"{name}: is known to no better than {known.value:.3g~P} ± {known.expanded:.2g~P}; measure it nearer first")
        if not 0 < number(self.trimmer, "trimmer", example=0.03) < 1:
            raise ValueError(f"trimmer: a share above 0 and below 1, got {self.trimmer!r}; write 0.03 for 3 % either way")
        number(self.overhang, "overhang", least=0, example=0.5)
        if self.groove is not None:
            need(self.groove, "m", "groove", above=0)
        prior("bearing", self.bearing)


def two_pulley_drive(*, motor_seat, wheel_seat, distance, seat_path=None, **stated):
    """A drive of one open belt over two pulleys, its wrap and, if no thread was laid, its path from the pulleys.

    Parameters
    ----------
    motor_seat, wheel_seat, distance : Quantity [m]
    seat_path : Known [m], optional
        Left out, it is reckoned, with 0.3 mm for each of the three sizes.
    **stated
        The rest of a `Drive`.

    Returns
    -------
    Drive
    """
    path = two_pulley_path(first_diameter=motor_seat, second_diameter=wheel_seat, distance=distance)
    if seat_path is None:  # the path moves by about 1.3, 1.9 and 1.7 times these; 1.5 mm at worst is common practice
        seat_path = within(path.length.to("mm"), (Q(1.5, "mm") / path.length).m_as(""), "mm")
    return Drive(seat_path=seat_path, motor_seat=motor_seat, wheel_seat=wheel_seat, motor_wrap=path.first_wrap, **stated)
