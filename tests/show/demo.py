"""A made-up picture for the tests of the picture machinery: a voltage divider."""

import numpy as np

from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.picture import Axis, Band, Curve, Limit, Picture, Point
from benchreckoner.units import Q

OHMS = {"log": np.geomspace(10, 10_000, 201), "linear": np.linspace(0, 2_000, 201)}


def divider(*, series, load, supply, scale="log", volts_scale="linear"):
    """Volts left for a load behind a resistor, every kind of mark in it."""
    series, load, supply = series.m_as("ohm"), load.m_as("ohm"), supply.m_as("V")
    ohms = OHMS[scale]
    left = supply * load / (load + ohms)
    lost = supply - left
    lost[90:100] = np.nan
    here = supply * load / (load + series)
    return Picture(
        title="Volts left for a load behind a resistor",
        x=Axis("series resistance", "ohm", ohms[0], ohms[-1], scale),
        y=Axis("volts left", "V", 0.02 if volts_scale == "log" else 0, 12, volts_scale),
        curves=[Curve("left for the load", ohms, left), Curve("lost", ohms, lost, "second")],
        bands=[Band("within a tenth", ohms, left * 0.9, left * 1.1)],
        points=[Point("here", series, here),
                Point("half", *((load, supply / 2) if series < load else (np.nan, np.nan)), style="other")],
        limits=[Limit("least that works", "y", 5), Limit("load", "x", load)],
        sentence=f"{series:g} Ω in front of {load:g} Ω leave {here:.2f} V.",
        alt="The volts left fall as the series resistance grows.",
    )


def declared(**fixed):
    """The divider with its two sliders."""
    return LivePicture(
        key="divider", picture=divider, goal="Find the ohms that leave 5.0 V.",
        sliders=[Slider("series", "Series resistance", "ohm", ladder(10, 2000, 41, "log"), 100),
                 Slider("load", "Load", "ohm", ladder(50, 2000, 31, "log"), 200)],
        fixed={"supply": Q(9, "V"), **fixed},
    )
