"""Book 05, the cooling plate: how large, how thick, which finish; the guesses, the pictures, and how far to trust them."""

import numpy as np
from IPython.display import Markdown

from benchreckoner.lessons.your_bench import my_guesses, opening
from benchreckoner.physics.convection import air_properties, film_coefficient, rayleigh_number, standing_plate, standing_plate_smooth
from benchreckoner.physics.dissipation import junction_temperature
from benchreckoner.physics.plates import FINISHES, HOTTEST, METALS, plate_resistance, spreading_efficiency
from benchreckoner.show.declare import LivePicture, Slider, ladder
from benchreckoner.show.guess import Choice, ChoiceGuess, choice_guess
from benchreckoner.show.picture import Axis, Curve, Limit, Picture, Point
from benchreckoner.units import Q, show

# A tab transistor in a closed case. To the air without a plate, and over grease to a plate: common practice.
AIR, JUNCTION_LIMIT, TOUCH = Q(35, "degC"), Q(150, "degC"), Q(60, "degC")
JUNCTION_CASE, JOINT, BARE_TAB, TAB = Q(3, "K/W"), Q(1, "K/W"), Q(80, "K/W"), Q(10, "mm")
MARGIN = 25  # kelvin below the limit, common practice
_ALUMINIUM = Q(METALS["aluminium"]["conductivity"], "W/(m*K)")
_LEAST, _MOST, _TOP = 15, 120, 300
_SIDES = np.linspace(_LEAST, _MOST, 43)
_RISES = np.geomspace(0.2, HOTTEST.m_as("degC") - AIR.m_as("degC"), 40)
_FACE = Q(10, "W/(m**2*K)")  # from each face of a plate at work: 6 by air and 4 by radiation, say


def plate_picture(*, side, power, emissivity, thickness):
    """Junction and plate of a tab transistor against the side of its plate.

    Parameters
    ----------
    side : Quantity [mm]
        Of the square plate of aluminium.
    power : Quantity [W]
        Heat in the transistor.
    emissivity : float
        Of the plate's faces, by their finish.
    thickness : Quantity [mm]

    Returns
    -------
    Picture
        What would be hotter than the picture is a gap.
    """
    here = float(side.m_as("mm"))
    sides = np.append(_SIDES, here)
    plates = _plate_temperatures(sides, power, emissivity, thickness)
    junctions = plates + float((power * (JUNCTION_CASE + JOINT)).m_as("K"))
    bare = float(junction_temperature(ambient=AIR, power=power, resistances=Q([BARE_TAB.m_as("K/W")], "K/W")).m_as("degC"))
    junctions, plates = (np.where(values <= _TOP, values, np.nan) for values in (junctions, plates))
    limit = JUNCTION_LIMIT.m_as("degC")
    return Picture(
        title="A transistor with a tab, on a plate and without",
        x=Axis("side of the square plate", "mm", _LEAST, _MOST),
        y=Axis("temperature", "degC", 0, _TOP),
        curves=(Curve("junction without a plate", _SIDES, np.full(len(_SIDES), bare), "second"),
                Curve("junction on the plate", _SIDES, junctions[:-1], "heavy"), Curve("plate at the tab", _SIDES, plates[:-1], "third")),
        points=(Point("here", here, junctions[-1]),),
        limits=(Limit("junction's limit", "y", limit), Limit("25 K of margin", "y", limit - MARGIN),
                Limit("burns fingers", "y", TOUCH.m_as("degC"))),
        sentence=_told(side, power, emissivity, thickness, junctions[-1], plates[-1], bare),
        alt=("Temperatures against the side of a square plate. A level line is the junction without a plate. Two curves, one close above "
             "the other, are the junction on the plate and the plate itself: hottest for a small plate, falling fast at first and "
             f"then ever more slowly. At {_mm(side)} the junction has {_degrees(junctions[-1])}, the plate "
             f"{_degrees(plates[-1])}; without a plate it would have {_degrees(bare)}."))


PLATE = LivePicture(
    key="plate-side", picture=plate_picture,
    sliders=(Slider("side", "side of the plate", "m", ladder(0.015, 0.12, 43), start=0.03),
             Slider("power", "heat in the transistor", "W", ladder(0.1, 3, 30), start=2),
             Slider("emissivity", "finish: 0.09 bare, 0.88 painted", "", (0.05, 0.09, 0.25, 0.5, 0.7, 0.88, 0.95), start=0.09),
             Slider("thickness", "thickness of the plate", "m", (0.0005, 0.001, 0.0015, 0.002, 0.003), start=0.0015)),
    goal="2 W, bare sheet: find the smallest plate that leaves the junction 25 K of margin. Then the smallest that you could touch. "
         "Then paint that one.",
    phone_sliders=("side", "emissivity"))


def spreading_picture(*, conductivity, thickness, side):
    """How far the heat of a small spot spreads in a plate, against the plate's side.

    Parameters
    ----------
    conductivity : Quantity [W/(m*K)]
    thickness, side : Quantity [mm]

    Returns
    -------
    Picture
    """
    sides = np.append(_SIDES, side.m_as("mm"))
    spread = dict(conductivity=conductivity, coefficient=_FACE, source_side=TAB)
    share, thick = (spreading_efficiency(side=Q(sides, "mm"), thickness=times * thickness, **spread) for times in (1, 2))
    here, area = float(share[-1]), float(side.m_as("cm")) ** 2
    worth = f"{np.sqrt(here) * side.m_as('mm'):.0f} mm"
    metal = next((f"{name}, " for name, row in METALS.items() if row["conductivity"] == conductivity.m_as("W/(m*K)")), "")
    return Picture(
        title="How much of a plate works",
        x=Axis("side of the square plate", "mm", _LEAST, _MOST),
        y=Axis("share of the plate that works", "%", 0, 100, symbol="%"),
        curves=(Curve("twice as thick", _SIDES, 100 * thick[:-1], "faint"), Curve("this plate", _SIDES, 100 * share[:-1], "heavy")),
        points=(Point("here", float(sides[-1]), 100 * here),),
        limits=(Limit("half of it works", "y", 50),),
        sentence=(f"{metal[:1].upper()}{metal[1:]}{_mm(thickness)} thick: of a plate of {_mm(side)} "
                  f"({area:.0f} cm² each face) {100 * here:.0f} % works. It gives off as much as a plate of {worth} that is as hot all "
                  f"over as under the tab. Twice as thick, {100 * float(thick[-1]):.0f} % would."),
        alt=("Share of the plate that works against its side. Both curves start near 100 % for a small plate and fall as the plate "
             "grows, since its rim stays cool; the one for twice the thickness falls later. Poor conductors fall steeply. "
             f"Here {100 * here:.0f} % works."))


SPREADING = LivePicture(
    key="plate-spreading", picture=spreading_picture,
    sliders=(Slider("conductivity", "conductivity of the metal", "W/(m*K)",
                    sorted(row["conductivity"] for row in METALS.values()), start=200),
             Slider("thickness", "thickness of the plate", "m", ladder(0.0005, 0.004, 15), start=0.001),
             Slider("side", "side of the plate", "m", ladder(0.015, 0.12, 22), start=0.1)),
    goal="A plate of 100 mm, 0.75 mm thick: find the metals of which less than half works. How thick would mild steel (50) have to be "
         "to work as well as 1 mm of aluminium (200)?",
    phone_sliders=("conductivity", "thickness"))


def guess_paint():
    """Guess first: what a coat of black paint does to a plate; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="plate-paint",
        question="A bare aluminium plate of 50 mm square cools a transistor in a closed case. You paint both faces matt black, thinly. "
                 "What happens to the transistor at the same 2 W?",
        choices=(
            Choice("It gets hotter: paint keeps the heat in.", "A coat of a twentieth of a millimetre holds back a tenth of a kelvin. "
                   "What it adds by radiation is worth more than a hundred times that."),
            Choice("Nothing: black matters in sunshine only.", "Warmth has a colour of its own, far beyond red. Bare metal is a mirror "
                   "for it, and a mirror radiates next to nothing; any lacquer, even white or clear, radiates well."),
            Choice("It gets about 15 to 20 K cooler.", "Bare, nearly all has to go by air. Painted, radiation carries about as much again, "
                   "though less in a hot or a bright case.", right=True),
            Choice("It gets about 60 K cooler.", "That would take most of its rise above the air away. Radiation about doubles what "
                                                 "leaves; "
                   "the plate then sinks by about a third."),
        )), reveal=opening(PLATE), store=my_guesses())


def guess_spreading():
    """Guess first: how much of a large thin plate works; the picture opens afterwards."""
    return choice_guess(ChoiceGuess(
        key="plate-spreading",
        question="A transistor sits in the middle of a sheet of <em>stainless steel</em>, 100 mm square and 1 mm thick. How much does it "
                 "give off, beside a sheet that is as hot all over as under the tab?",
        choices=(
            Choice("All of it: metal is metal.", "Stainless steel conducts thirteen times worse than aluminium. Its rim stays cold."),
            Choice("About two thirds.", "Aluminium of 1 mm gives about 80 %. This one is far behind it."),
            Choice("About a quarter.", "Only the middle gets hot. A patch of some 50 mm, hot all over, would do as much.", right=True),
            Choice("Next to nothing.", "The patch round the tab still works, and air takes its heat."),
        )), reveal=opening(SPREADING), store=my_guesses())


def two_formulas():
    """What two published forms give for standing plates of 40 K above the air, and radiation left out.

    Returns
    -------
    IPython.display.Markdown
    """
    lines = ["| plate | smooth currents only | all currents | apart |", "|---|---|---|---|"]
    film = Q(45, "degC")
    air = air_properties(temperature=film)
    for millimetres in (30, 50, 100):
        length = Q(millimetres, "mm")
        rayleigh = rayleigh_number(temperature_difference=Q(40, "K"), expansion=1 / film.to("K"), length=length,
                                   viscosity=air.viscosity, diffusivity=air.diffusivity)
        smooth, whole = (float(film_coefficient(nusselt=law(rayleigh=rayleigh, prandtl=air.prandtl), conductivity=air.conductivity,
                                                length=length).m_as("W/(m**2*K)")) for law in (standing_plate_smooth, standing_plate))
        lines.append(f"| {millimetres} mm | {smooth:.1f} W/(m²·K) | {whole:.1f} W/(m²·K) | {100 * abs(whole / smooth - 1):.0f} % |")
    return Markdown("\n".join(lines))


def _plate_temperatures(sides, power, emissivity, thickness):
    """Degrees at the tab for many plates at once: each plate's heat is tabled over its rise, and read backwards."""
    air = float(AIR.m_as("degC"))
    resistance = plate_resistance(side=Q(sides[:, None], "mm"), thickness=thickness, conductivity=_ALUMINIUM, emissivity=emissivity,
                                  surface=Q(air + _RISES[None, :], "degC"), air=AIR, source_side=TAB).m_as("K/W")
    heat, wanted = np.log(_RISES / resistance), np.log(power.m_as("W"))
    return air + np.array([np.exp(np.interp(wanted, row, np.log(_RISES), right=np.nan)) for row in heat])


def _told(side, power, emissivity, thickness, junction, plate, bare):
    finish = next((name for name, row in FINISHES.items() if row["emissivity"] == emissivity), f"faces of {emissivity:g}")
    words = f"{show(power, 'W', 2)} on aluminium of {_mm(side)} square, {_mm(thickness)} thick, {finish}: "
    if np.isnan(junction):
        return words + f"the junction would pass {_TOP} °C, far beyond its limit. Without a plate it would have {_degrees(bare)}."
    left = JUNCTION_LIMIT.m_as("degC") - junction
    room = f"{left:.0f} K below" if left >= 0 else f"{-left:.0f} K above"
    touch = f"{'above' if plate > TOUCH.m_as('degC') else 'not above'} the {TOUCH.m_as('degC'):.0f} °C that burn fingers"
    words += (f"the junction has {_degrees(junction)}, {room} its limit, and the plate {_degrees(plate)}, {touch}. "
              f"Without a plate it would have {_degrees(bare)}.")
    return words if junction < bare else words + " So small a plate does no more than the transistor's own body, which this sum leaves out."


def _mm(length):
    return f"{length.m_as('mm'):g} mm"


def _degrees(value):
    return f"more than {_TOP} °C" if np.isnan(value) else f"{value:.0f} °C"
