"""The picture of what testers show of a leaky part, as a sheet's own capacitor makes it."""

from dataclasses import replace

from benchreckoner.bench.leakage_readings import leakage_series
from benchreckoner.bench.uncertain import Readings
from benchreckoner.lessons.reads_high import READS_HIGH
from benchreckoner.lessons.your_bench import my_sheet, own_live
from benchreckoner.show.declare import Slider
from benchreckoner.show.picture import Reading

_CHARGE_TIME = "charge time"
_LEAK = next(slider for slider in READS_HIGH.sliders if slider.name == "leakage")


def my_reads_high():
    """The picture of testers for a leaky part of the sheet on the desk, with its own reading marked.

    Returns
    -------
    widget or Markdown
        Words that say what to read first, where the sheet has no such part.
    """
    return own_live(own_reads_high(my_sheet()), needs="Your own picture needs one capacitor with its marked `capacitance`, read on a tester whose "
                    "`principle` is `\"charge time\"`, and its leakage through a resistor with the volts `applied`: both lifted, at one stage.")


def own_reads_high(sheet):
    """The live picture of a sheet's capacitor that was both read by a charge-time tester and seen to leak.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    (LivePicture, Reading) or None
        Of the part that reads highest against its marking; None where no part was read both ways, lifted, at one stage. Its
        true farads are taken to be the marked ones, its tester's resistor the usual one.
    """
    found = [own for series in leakage_series(sheet, Readings(sheet)) if (own := _own(sheet, series)) is not None]
    return max(found, key=lambda own: own[1].y.magnitude, default=None)


def _own(sheet, series):
    marked, usable = series.part.details.get("capacitance"), series.usable
    read = [one for one in sheet.readings if (one.part, one.quantity, one.stage, one.condition) ==
            (series.part.name, "capacitance", series.stage, series.condition)
            and sheet.instruments[one.instrument].principle == _CHARGE_TIME]
    if None in (marked, series.on_part) or not usable or not read or series.condition == "in circuit":
        return None
    leak = (series.on_part / usable[-1].leakage.value).to("ohm")
    if not _LEAK.steps[0] <= leak.magnitude <= _LEAK.steps[-1]:
        return None
    start = float(f"{leak.magnitude:.3g}")
    sliders = {slider.name: slider for slider in READS_HIGH.sliders}
    leakage = Slider("leakage", f"ohms of the leak of {series.part.name}", "ohm", tuple(sorted({*_LEAK.steps, start})), start=start)
    declared = replace(
        READS_HIGH, key="my-reads-high", sliders=(leakage, sliders["series"], sliders["tester"]), fixed={"capacitance": marked},
        goal=f"{series.part.name} stands at the leak that you read. How far may its ohms fall before a charge-time tester never comes to an end?")
    return declared, Reading(x=leak, y=(read[-1].value.quantity / marked).to(""), name=f"your {series.part.name}")
