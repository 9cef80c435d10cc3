"""Book 02, the reader's own contact on a kitchen scale: the form, the slope and its picture."""

from html import escape

import numpy as np

from benchreckoner.bench.fits import LAWS, fit_force, in_grams, read_pressed, slope_words
from benchreckoner.lessons.your_bench import my_guesses, my_sheet
from benchreckoner.show import store
from benchreckoner.show.form import EntryForm, Field
from benchreckoner.show.picture import Axis, Curve, Picture, Point
from benchreckoner.show.still import still
from benchreckoner.units import Q, show

_GROUP, _KEY = "pair", "one-contact"
_FIELDS = ("contact", "shown", "ohms", "scale", "meter")
# A demo's readings, invented: bronze leaf, clean, on a scale with 1 g steps.
EXAMPLE = (("20 g", "31.2 mohm"), ("50 g", "19.9 mohm"), ("100 g", "13.8 mohm"), ("200 g", "10.1 mohm"), ("400 g", "7.0 mohm"))


def force_form():
    """A form for pairs of force and ohms of one contact; it answers with the slope, its picture and what it tells.

    Returns
    -------
    EntryForm
    """
    return _Pairs().form


def example_slope():
    """The slope of an invented clean leaf, as the form would show it.

    Returns
    -------
    Still
    """
    pairs = [read_pressed(shown=shown, ohms=ohms, scale="1 g", meter="1 % + 2 digits") for shown, ohms in EXAMPLE]
    return still(slope_picture(fit_force(pairs), "an invented leaf"))


def slope_picture(fit, contact):
    """The reader's points, the fitted line, and the three laws through the points' middle.

    Parameters
    ----------
    fit : ForceFit
    contact : str
        Its name.

    Returns
    -------
    Picture
    """
    forces, ohms = (np.array([getattr(pair, name).plain for pair in fit.pairs]) for name in ("force", "ohms"))
    low, high = _decades(forces)
    along = Q(np.geomspace(low, high, 41), "N")
    lines = tuple(Curve(f"{law.written}: {law.meaning}", along.m_as("N"), fit.line(along, law.exponent).m_as("ohm"), style)
                  for law, style in zip(LAWS, ("second", "third", "fourth")))
    words = slope_words(fit)
    return Picture(
        title="Your contact: ohms and force",
        x=Axis("force", "N", low, high, scale="log"), y=Axis("ohms", "ohm", *_decades(ohms), scale="log"),
        curves=(Curve("your line", along.m_as("N"), fit.line(along).m_as("ohm"), "heavy"), *lines),
        points=tuple(Point(str(number), float(force), float(one), "own") for number, (force, one) in enumerate(zip(forces, ohms), 1)),
        sentence=f"{contact[:1].upper()}{contact[1:]}. {words}",
        alt=(f"{len(forces)} numbered points of ohms against force, both axes log, with a heavy straight line fitted to them and "
             f"three thinner lines of slopes 1/3, 1/2 and 1 through their middle. {words}"))


class _Pairs:
    """The pairs kept beside the sheet, and the form that adds to them."""

    def __init__(self):
        self.path = my_guesses()
        entries, self.note = store.kept(self.path, group=_GROUP, key=_KEY)
        self.pairs = standing(entries)
        fields = (
            Field("contact", "Contact", "combo", self.contacts, placeholder="such as head leaf", required=True),
            Field("shown", "Force, as the scale shows it", placeholder="such as 120 g", required=True),
            Field("ohms", "Ohms under it, four wires", placeholder="such as 14.2 mohm", required=True),
            Field("scale", "Scale's limit, if known", placeholder="such as 2 g"),
            Field("meter", "Meter's limit, if known", placeholder="such as 1 % + 2 digits"))
        self.form = EntryForm(fields, value="ohms", on_save=self.save, on_undo=self.undo, answer=self.answer)

    def contacts(self):
        """Names used before, then the sheet's parts."""
        return tuple(dict.fromkeys([*(str(pair["contact"]) for pair in self.pairs), *my_sheet().parts]))

    def save(self, entries):
        """Keep one pair that can be read."""
        pair = {name: entries[name] for name in _FIELDS if entries[name]}
        pressed = _read(pair)
        note = store.keep(self.path, pair, group=_GROUP, key=_KEY)
        self.pairs.append(pair)
        return (f"Kept: {escape(pair['contact'])}, {in_grams(pressed.force.value)}, {show(pressed.ohms.value, 'ohm')}."
                + (f" {escape(note)}" if note else ""))

    def undo(self):
        """Take the last pair back; the store only grows, so that is written down too."""
        if not self.pairs:
            raise ValueError("nothing to take back: no pair is kept")
        note = store.keep(self.path, {"taken_back": True}, group=_GROUP, key=_KEY)
        pair = self.pairs.pop()
        return f"Taken back: {escape(_words(pair))}." + (f" {escape(note)}" if note else "")

    def answer(self):
        """The slope of the contact that was pressed last, with its picture."""
        if not self.pairs:
            return "<p>No pair yet. Three different forces make a slope, six make a good one.</p>" + _aside(self.note)
        contact = str(self.pairs[-1]["contact"])
        mine = [pair for pair in self.pairs if str(pair["contact"]) == contact]
        listed = "; ".join(f"{number}: {pair.get('shown', '')}, {pair.get('ohms', '')}" for number, pair in enumerate(mine, 1))
        start = f"<p>Pairs of {escape(contact)}: {escape(listed)}.</p>" + _aside(self.note)
        pressed = [_read(pair) for pair in mine]
        try:
            fit = fit_force(pressed)
        except ValueError as error:
            return f"{start}<p>{escape(str(error))}.</p>"
        return start + still(slope_picture(fit, contact))._repr_html_()


def standing(entries):
    """The pairs that were not taken back again.

    Parameters
    ----------
    entries : list of dict
        As the store keeps them.

    Returns
    -------
    list of dict
    """
    pairs = []
    for entry in entries:
        if not entry.get("taken_back"):
            pairs.append({name: entry[name] for name in _FIELDS if name in entry} | {"contact": entry.get("contact", "contact")})
        elif pairs:
            pairs.pop()
    return pairs


def _read(pair):
    return read_pressed(**{name: pair.get(name, "") for name in _FIELDS if name != "contact"})


def _words(pair):
    return f"{pair['contact']}, {pair.get('shown', '')}, {pair.get('ohms', '')}"


def _aside(note):
    return f"<p><strong>Take care:</strong> {escape(note)}</p>" if note else ""


def _decades(values):
    """The whole decades that hold these values with a little air."""
    return 10.0 ** np.floor(np.log10(values.min() * 0.9)), 10.0 ** np.ceil(np.log10(values.max() * 1.1))
