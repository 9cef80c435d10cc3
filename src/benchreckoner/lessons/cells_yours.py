"""Book 05, the reader's own cells and adapter: what the sheet says of them, and how many cells would do."""

from IPython.display import Markdown

from benchreckoner.bench.cell_kinds import cell_kinds
from benchreckoner.bench.cells_judge import REGULATION, judge_supply
from benchreckoner.bench.verdict import share_below
from benchreckoner.lessons.your_bench import my_sheet, readings_form, reports_html
from benchreckoner.units import show_known

_ENOUGH = 0.95  # as sure as any verdict of the sheet
_COUNTS = range(2, 11)


def supply_form():
    """A form for readings of cells, adapter, motor and governor, answered by what they say of the supply.

    Returns
    -------
    EntryForm
    """
    return readings_form(quantities=("voltage", "current"), kinds=("cells", "adapter", "motor", "governor"),
                         judged=supply_html)


def supply_html(sheet):
    """What a sheet's readings say of cells, charger and adapter, as HTML made from escaped parts."""
    return reports_html(judge_supply(sheet), nothing=(
        "Nothing to judge yet. Read the cells' or the adapter's volts <em>off</em> and <em>playing</em>; for the governor's end also the "
        "motor's volts on both sides of the governor, and its current."))


def my_counts():
    """How many cells of each kind would keep the reader's own governor holding to their end.

    Returns
    -------
    IPython.display.Markdown
    """
    return Markdown(counts_of(my_sheet()))


def counts_of(sheet):
    """How many cells of each kind a sheet's governor needs, in sentences.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
        Markdown; words that say what to read first, where the sheet does not suffice.
    """
    one = next((one for report in judge_supply(sheet) for one in report.judgements if one.quantity == REGULATION), None)
    if one is None:
        return ("To reckon your number of cells, the sheet needs: the cells' count and chemistry and their volts *off*; *playing*, the "
                "motor's "
                "current and its volts on both sides of the governor; and the governor's `style` and `sense_resistor`. Enter them and "
                "run this cell again.")
    count = sheet.parts[one.part].details["count"]
    whole = count * one.known.number
    needed = show_known(count * one.known.value, count * one.known.expanded, "V")
    lines = [f"At this load your governor needs {needed} from the cells, as read with nothing drawn ({one.stage}). To hold to their "
             "end:", ""]
    for kind in cell_kinds():
        end = kind.end_point.m_as("V")
        enough = next((count for count in _COUNTS if share_below(count * end, whole.nominal_value, whole.std_dev) >= _ENOUGH), None)
        perhaps = next((count for count in _COUNTS if share_below(count * end, whole.nominal_value, whole.std_dev) >= 1 - _ENOUGH), None)
        surely = "to be sure it takes more than ten" if enough is None else f"{enough} surely do"
        said = "it takes more than ten" if perhaps is None else surely if enough == perhaps else f"{perhaps} may do, {surely}"
        lines.append(f"- **{kind.name}**, empty at {end:.1f} V: {said}.")
    lines += ["", "More or fewer cells change their own ohms as well; that is left out here, some hundredths of a volt for each. Never fit "
              "more cells than the machine was made for unless you know what every part stands."]
    return "\n".join(lines)
