"""What to buy for the capacitors that have to go: value, voltage, style and fit, equal parts on one line."""

from dataclasses import dataclass

import numpy as np

from benchreckoner.bench.capacitor_limits import rating
from benchreckoner.physics.preferred import preferred_neighbours
from benchreckoner.units import Q, show_exact

# As parts are sold; common practice.
VOLTAGES = (6.3, 10, 16, 25, 35, 50, 63)
_KEEPS_VALUE = ("timing", "output", "motor filter")
_FILM_UP_TO = Q(2.2, "uF")
_NEAR = 0.1  # a value that sets something may be off by this; a choice of ours


@dataclass(frozen=True)
class Wanted:
    """One line of the list: so many parts of one kind, for which places, and what else would do."""

    count: int
    value: Q
    voltage: Q
    style: str
    mounting: str
    names: tuple[str, ...]
    instead: tuple[str, ...]

    def line(self):
        """The line in words."""
        kind = " ".join(word for word in (self.mounting, self.style) if word)
        return (f"{self.count} × {show_exact(self.value, 'F')}, {show_exact(self.voltage, 'V')}, {kind}: {', '.join(self.names)}. "
                + " ".join(self.instead)).strip()


def shopping_list(parts):
    """Merge the parts to be replaced into lines to buy.

    Parameters
    ----------
    parts : iterable of Part
        Capacitors whose rating and rated voltage the sheet holds.

    Returns
    -------
    lines : tuple of Wanted
        The most wanted first.
    left_out : tuple of str
        Parts for which nothing can be said, each with the reason.
    """
    found, left_out = {}, []
    for part in parts:
        rated = rating(part)
        if rated.rated_voltage is None:
            left_out.append(f'{part.name}: write its rated voltage, such as rated_voltage = "16 V".')
        elif rated.rated_voltage.m_as("V") > VOLTAGES[-1] * (1 + 1e-9):
            left_out.append(f"{part.name}: above 63 V, which is out of these books' scope.")
        else:
            value, voltage = _value(rated), _voltage(rated)
            key = (value.m_as("F"), voltage.m_as("V"), rated.style, part.details.get("mounting", ""))
            found.setdefault(key, []).append((part, rated, value, voltage))
    lines = []
    for rows in found.values():
        part, rated, value, voltage = rows[0]
        notes = dict.fromkeys(note for row in rows for note in _instead(*row))
        lines.append(Wanted(len(rows), value, voltage, rated.style, part.details.get("mounting", ""),
                            tuple(one.name for one, *_ in rows), tuple(notes)))
    return tuple(sorted(lines, key=lambda one: -one.count)), tuple(left_out)


def _value(rated):
    """The nearest value that is still made, if the old part could have had it too; else the next one up: E6, as sold."""
    value = rated.capacitance.to("uF")
    below, above = preferred_neighbours(value=value, series="E6")
    near = min((below, above), key=lambda one: abs(np.log((one / value).m_as(""))))
    lowest, _ = rated.tolerance
    return near if rated.place in _KEEPS_VALUE or near >= (1 + lowest) * value else above


def _voltage(rated):
    """The least that is sold and not below what the old part stood."""
    old = rated.rated_voltage.m_as("V")
    return Q(next(one for one in VOLTAGES if one >= old * (1 - 1e-9)), "V")


def _instead(part, rated, value, voltage):
    """What may be fitted in its place, and what may not."""
    higher = [one for one in VOLTAGES if voltage.m_as("V") < one <= 2 * voltage.m_as("V")]
    if higher:
        yield f"Up to {show_exact(Q(higher[-1], 'V'), 'V')} will do too, never less than {show_exact(voltage, 'V')}."
    if rated.place in _KEEPS_VALUE and abs(float((value / rated.capacitance).m_as("")) - 1) > _NEAR:
        yield (f"{show_exact(value, 'F')} is not {show_exact(rated.capacitance, 'F')}: here the value counts; find the right one, or "
               "put two parts side by side.")
    elif rated.place in _KEEPS_VALUE:
        yield "Keep the value: it sets a time, a pitch or a speed."
    elif rated.place in ("supply", "bypass"):
        _, more = preferred_neighbours(value=1.01 * value, series="E6")
        yield f"{show_exact(more, 'F')} will do too."
    if rated.place == "coupling" and value <= _FILM_UP_TO:
        yield "A film part is better here, and it does not mind which way round."
    if rated.style == "bipolar aluminium":
        _, twice = preferred_neighbours(value=1.9 * value, series="E6")
        yield f"Bipolar only; or two of {show_exact(twice, 'F')}, minus to minus, each for the full voltage."
    elif rated.style in ("aluminium", "solid tantalum"):
        yield "Mind its plus and minus by the volts on the board, not by the print alone."
    sizes = [f"{word.replace('_', ' ')} {show_exact(part.details[word], 'mm')}" for word in ("diameter", "height", "lead_spacing")
             if word in part.details]
    if sizes:
        yield f"It must fit: {', '.join(sizes)} at {part.name}."
