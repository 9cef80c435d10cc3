"""The invented drive and the bag of eight belts that book 04 reckons with where the reader has none of their own."""

from benchreckoner.bench.belt_bag import Belt, two_pulley_drive
from benchreckoner.bench.uncertain import within
from benchreckoner.lessons.motor_example import CONSTANT, NO_LOAD, PLAY_SPEED, WINDING
from benchreckoner.units import Q

MOTOR_SEAT, WHEEL_SEAT, DISTANCE = Q(6, "mm"), Q(60, "mm"), Q(55, "mm")
SEAT_PATH = Q(227.215, "mm")  # along the seats, as a thread of no thickness; check value C22
SEAT_PATH_LIMIT = Q(0.8, "mm")  # three threads and their marks: common practice
SHAFT_RADIUS = Q(1, "mm")
LOAD = Q(1.0, "mN*m")  # the wheel asks this while playing
HEAVY_LOAD = Q(1.5, "mN*m")  # and this with a tape that runs hard; check value C33
WHEEL_SPEED = Q(280.5, "turn/min")  # of the right belt: 2400 by 8.5, less 0.66 % of creep
TRIMMER = 0.03  # of the speed, either way

SHAPE, SIDE, HARDNESS, STRETCH = "square", Q(1.2, "mm"), 60, 0.05
DENSITY = Q(1200, "kg/m**3")
INSIDE_DIAMETER = Q(68.8, "mm")  # check value C41

CALLIPER = Q(0.03, "mm")  # thickness of a belt, at three places: common practice

# Name, shape, thickness, width, size, the word it is sold by, Shore A. The second has the right length and the wrong thickness.
BAG = (
    ("belt a", "square", Q(1.2, "mm"), None, Q(69, "mm"), "inside diameter", 60),
    ("belt b", "square", Q(1.5, "mm"), None, Q(69, "mm"), "inside diameter", 60),
    ("belt c", "square", Q(1.2, "mm"), None, Q(71, "mm"), "inside diameter", 60),
    ("belt d", "square", Q(1.2, "mm"), None, Q(66, "mm"), "inside diameter", 60),
    ("belt e", "square", Q(1.0, "mm"), None, Q(68, "mm"), "inside diameter", 50),
    ("belt f", "round", Q(1.2, "mm"), None, Q(70, "mm"), "inside diameter", 60),
    ("belt g", "flat", Q(0.5, "mm"), Q(4, "mm"), Q(108, "mm"), "flat length", 60),
    ("belt h", "square", Q(1.2, "mm"), None, Q(213, "mm"), "inside diameter", 60),  # surely its circumference
)

DRIVE = two_pulley_drive(
    motor_seat=MOTOR_SEAT, wheel_seat=WHEEL_SEAT, distance=DISTANCE, shaft_radius=SHAFT_RADIUS, bearing="oiled", trimmer=TRIMMER,
    seat_path=within(SEAT_PATH, (SEAT_PATH_LIMIT / SEAT_PATH).m_as(""), "mm"), load=within(LOAD, 0.15, "N*m"),
    motor_constant=within(CONSTANT, 0.03, "V*s/rad"), no_load_current=within(NO_LOAD, 0.03, "A"),
    motor_speed=PLAY_SPEED, wheel_speed=WHEEL_SPEED)
BELTS = tuple(Belt(name, shape, thickness, size, measure, width, hardness, thickness_limit=CALLIPER)
              for name, shape, thickness, width, size, measure, hardness in BAG)

__all__ = ["BAG", "BELTS", "CALLIPER", "CONSTANT", "DENSITY", "DISTANCE", "DRIVE", "HARDNESS", "HEAVY_LOAD", "INSIDE_DIAMETER", "LOAD",
           "MOTOR_SEAT", "NO_LOAD", "PLAY_SPEED", "SEAT_PATH", "SEAT_PATH_LIMIT", "SHAFT_RADIUS", "SHAPE", "SIDE", "STRETCH", "TRIMMER",
           "WHEEL_SEAT", "WHEEL_SPEED", "WINDING"]
