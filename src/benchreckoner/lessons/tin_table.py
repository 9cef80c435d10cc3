"""What the printed tables of all the tins of faults share: columns that keep a value beside its unit, watts, the lines that follow."""

import re
from html import escape

from benchreckoner.show.words import SCROLLS
from benchreckoner.units import Q, show

SMALL = Q(0.25, "W")  # the usual resistor of a drawer
MOST_VOLTS = Q(63, "V")  # where this work ends
WEAK_PULL = 0.5  # of the starting pull: below it a motor may not start
_EDGE = "border: 1px solid #444; padding: 0.2em 0.5em; text-align: left; min-width:"
_WORDS, _VALUES = f"{_EDGE} 7em", f"{_EDGE} 4.5em"  # the columns of words first: they would shrink to a word a line
# A value, its uncertainty and its unit, which a narrow column must not part.
_VALUE = re.compile(r"\d[\d.]*(?: ± [\d.]+)? (?:[pnµmkMG]?(?:Ω|V|A|F|W)(?! or)|W or more|dB|%)")


def tin_table(caption, head, rows):
    """A table that prints in grey.

    Parameters
    ----------
    caption : str
    head : sequence of str
    rows : sequence of sequence of str
        Plain text, the label first.

    Returns
    -------
    str
        HTML of escaped parts.
    """
    styles = [_WORDS, _WORDS, *[_VALUES] * (len(head) - 2)]
    top = "".join(f'<th scope="col" style="{style}">{escape(text)}</th>' for text, style in zip(head, styles))
    lines = "".join(f'<tr><th scope="row" style="{_WORDS}">{_whole(label)}</th>' + "".join(
        f'<td style="{style}">{_whole(text)}</td>' for text, style in zip(cells, styles[1:])) + "</tr>" for label, *cells in rows)
    return (f'<div style="{SCROLLS}" tabindex="0" role="region" aria-label="{escape(caption)}">'
            f'<table style="border-collapse: collapse"><caption>{escape(caption)}</caption>'
            f"<thead><tr>{top}</tr></thead><tbody>{lines}</tbody></table></div>")


def take_care(lines):
    """What a host must know first, as a list; nothing where there is nothing to say.

    Parameters
    ----------
    lines : iterable of str
        Plain text without full stops.

    Returns
    -------
    str
        HTML of escaped parts.
    """
    told = "".join(f"<li>{escape(line)}.</li>" for line in lines)
    return f"<p><strong>Take care:</strong></p><ul>{told}</ul>" if told else ""


def show_watts(power):
    """Watts as ratings are printed: no milliwatts down to a tenth.

    Parameters
    ----------
    power : Quantity [W]

    Returns
    -------
    str

    Examples
    --------
    >>> show_watts(Q(0.31, "W")), show_watts(Q(0.046, "W"))
    ('0.31 W', '46 mW')
    """
    watts = power.m_as("W")
    return f"{watts:#.2g}".rstrip(".") + " W" if watts >= 0.095 else show(power, "W", 2)


def show_rating(rating):
    """What to buy, or that nothing on sale stands it.

    Parameters
    ----------
    rating : Quantity [W] or None

    Returns
    -------
    str
    """
    return "none stands it" if rating is None else f"{rating.m_as('W'):g} W or more"


def _whole(text):
    return _VALUE.sub(r'<span style="white-space: nowrap">\g<0></span>', escape(text))
