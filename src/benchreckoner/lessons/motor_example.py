"""The invented motor, governor and supply that book 05 reckons with where the reader has none of their own."""

from benchreckoner.units import Q

WINDING = Q(15, "ohm")  # at 20 degC
CONSTANT = Q(0.0130, "V*s/rad")
NO_LOAD = Q(20, "mA")
BRUSH = Q(0, "V")
SENSE = Q(1.0, "ohm")
COMPENSATION = Q(15, "ohm")
PLAY, HEAVY = Q(85, "mA"), Q(140, "mA")
PLAY_SPEED = Q(2400, "turn/min")
SET_VOLTAGE = (CONSTANT * PLAY_SPEED).to("V")  # compensation equals winding, so no current shifts it
CELLS, OPEN_CELL, CELL_RESISTANCE = 6, Q(1.5, "V"), Q(0.15, "ohm")
OPEN_VOLTAGE = CELLS * OPEN_CELL
CONTACTS = Q(0.3, "ohm")  # with the wires
SOURCE = CELLS * CELL_RESISTANCE + CONTACTS + SENSE
DROP = Q(0.3, "V")  # the least the pass transistor keeps for itself
