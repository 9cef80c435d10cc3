"""The words of a bench sheet: its tables, keys, kinds, quantities and conditions."""

VERSION = 1
AS_FOUND = "as found"

KINDS = (
    "cells", "adapter", "supply contact", "lead", "switch", "plug and socket", "solder joint",
    "current meter", "signal contact", "signal switch", "jack contact", "shield", "potentiometer",
    "capacitor", "resistor", "loudspeaker",
    "motor", "governor", "transistor", "belt", "pulley", "head", "lamp",
)
# What a motor's feed current can pass through, one after the other.
FEED_KINDS = (
    "cells", "adapter", "supply contact", "lead", "switch", "plug and socket", "solder joint",
    "current meter", "motor", "governor", "transistor", "resistor",
)
# What passes sound and not the motor's current: judged one by one, not as a chain.
SIGNAL_KINDS = ("signal contact", "signal switch", "jack contact", "shield", "potentiometer")
QUANTITIES = {
    "voltage": "V",
    "voltage drop": "V",
    "current": "A",
    "resistance": "ohm",
    "capacitance": "F",
    "series resistance": "ohm",
    "leakage current": "A",
    "speed": ("turn/min", "cm/s"),
    "time": "s",
    "temperature": "degC",
    "level": "dB",
    "level before": "dB",
    "wiper resistance": "ohm",
    "force": "N",
    "mass": "g",
    "length": "mm",
}
# A meter's leads can be the wrong way round, so volts and amperes may be negative; these can't.
NEVER_NEGATIVE = (
    "resistance", "capacitance", "series resistance", "wiper resistance", "speed", "time", "force", "mass",
    "length",
)
CONDITIONS = (
    "off", "starting", "held", "playing", "winding", "no load",
    "in circuit", "lifted", "still", "wiggled", "pressed",
    "bench supply, held", "bench supply, no load", "bench supply, loaded",
)
# A bench supply straight on the motor's own terminals: nothing of the feed chain carries its current then.
ON_BENCH_SUPPLY = ("bench supply, held", "bench supply, no load", "bench supply, loaded")

# Every table with its keys; behind each key, what to write.
TABLES = {
    "machine": {
        "name": '"suitcase record player"', "kind": '"record player"', "supply": '"9 V"',
        "note": '"bought at a flea market"',
    },
    "instrument": {
        "name": '"meter"', "accuracy": '"0.8 % + 3 mV"', "leads": '"0.20 ohm"',
        "four_wire": "false", "input_resistance": '"10 Mohm"', "principle": '"charge time"', "note": '"checked in spring"',
    },
    "part": {
        "name": '"spring 3"', "kind": '"supply contact"', "current_from": '"motor"',
        "after_branch": "true", "across": '["R12 4k7 5 %", "R13 10 kohm"]',
        "tolerance": '"20 %"', "trimmer": "false", "at": '["55 mm", "0 mm"]', "turns": '"the other way"',
        "sold_as": '"inside diameter"', "in_machine": "true", "drives": "true",
        "bearing": '"oiled"', "trim": '"3 %"',
        "note": '"the one nearest the hinge"',
    },
    "action": {
        "name": '"springs cleaned"', "planned": '"20 min"', "took": '"35 min"',
        "taken_off": '["lid", "belt"]', "fitted": '["spring 3"]', "note": '"one screw is short"',
    },
    "reading": {
        "part": '"spring 3"', "quantity": '"voltage drop"', "value": '"184 mV"',
        "instrument": '"meter"', "stage": '"as found"', "condition": '"playing"',
        "after": '"2 min"', "range": '"200 mV"', "applied": '"10 V"',
        "series_resistor": '"10 kohm"', "run": '"rim 1"', "note": '"steady"',
    },
    "symptom": {"what": '"slow"', "stage": '"as found"', "note": '"worse when cold"'},
    "observation": {
        "part": '"spring 3"', "what": '"green crust"', "stage": '"as found"',
        "photo": '"spring3.jpg"', "note": '"on both ends"',
    },
    # Where a trimmer or a control stands, so that whoever turns it next can turn it back.
    "setting": {
        "part": '"motor"', "what": '"speed trimmer"', "place": '"a quarter turn clockwise of the left stop"',
        "stage": '"as found"', "photo": '"trimmer.jpg"', "note": '"sealed with paint"',
    },
    # In each, the clean tries came first; what followed a fault is a new one.
    "trial": {
        "part": '"spring 3"', "condition_tried": '"cold"', "clean": "10", "faults": "0",
        "stage": '"as found"', "note": '"after a night in the shed"',
    },
}
# Facts about a part that come with a unit.
QUANTITY_DETAILS = {
    "length": ("m", '"35 cm"'),
    "thickness": ("mm", '"1.2 mm"'),
    "width": ("mm", '"4 mm"'),
    "diameter": ("mm", '"6 mm"'),
    "rim_diameter": ("mm", '"100 mm"'),  # of a flywheel, over all: with its mass, how hard it is to start
    "shaft_diameter": ("mm", '"2 mm"'),  # of a motor, in its bearing
    "height": ("mm", '"11 mm"'),
    "lead_spacing": ("mm", '"2.5 mm"'),
    "temperature": ("degC", '"20 degC"'),
    "capacitance": ("F", '"47 uF"'),
    "resistance": ("ohm", '"4k7"'),
    "load": ("ohm", '"47 kohm"'),
    "impedance": ("ohm", '"8 ohm"'),  # as printed on a loudspeaker
    "least_load": ("ohm", '"4 ohm"'),  # that the amplifier behind it is made for
    "rated_voltage": ("V", '"16 V"'),
    "rated_current": ("A", '"120 mA"'),
    "rated_power": ("W", '"0.5 W"'),
    "rated_speed": ("turn/min", '"2400 turn/min"'),
    "junction_limit": ("degC", '"150 degC"'),  # of a transistor, with its resistances to case and air
    "junction_case": ("K/W", '"3 K/W"'),
    "junction_air": ("K/W", '"80 K/W"'),
    "plate_side": ("mm", '"50 mm"'),  # of the square plate that cools it
    "sense_resistor": ("ohm", '"0.5 ohm"'),
    "compensation": ("ohm", '"5 ohm"'),
    "regulator_drop": ("V", '"0.4 V"'),  # the least that a governor's transistor keeps for itself
    "capacity": ("Ah", '"2 Ah"'),  # of one cell
    "charge_current": ("A", '"120 mA"'),  # that a built-in charger sends through the cells
}
# Facts about a part in words.
TEXT_DETAILS = {
    "gauge": '"AWG 24"',
    "chemistry": '"alkaline"',
    "size": '"D"',
    "place": '"across the motor"',
    "section": '"square"',
    "made": '"about 1975"',
    "marking": '"50 MFD 15 V -10/+50 %"',
    "style": '"aluminium"',
    "mounting": '"axial"',
    "grade": '"long-life"',
}
COUNT_DETAILS = {"count": "6"}
# Pure numbers: turns of the motor for one turn of a pulley.
# And the hardness of a belt in points of Shore A.
NUMBER_DETAILS = {"ratio": "72", "hardness": "60"}
# What holds a motor's speed: by its own volts, or by contacts that fly open.
GOVERNOR_STYLES = ("electronic", "contact")
# Which way a pulley turns, seen from above: as the first one on the belt does, or against it.
TURNS = ("the same way", "the other way")
# By which a tester of capacitors measures.
TESTER_PRINCIPLES = ("charge time", "bridge", "discharge time", "steady current to 1 V", "oscillator", "charge added up")
