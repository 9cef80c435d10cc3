"""What the author's lamps and camera make of the machine, to be read before the first shot."""

from benchreckoner.lessons.filming_yours import said_of
from benchreckoner.tell.script_read import no_slips

# The file's key for each box of the book's form, and what a new file holds.
USUAL = {"mains": "50 Hz", "frames": 25, "shutter": "1/50 s", "marks": 3}
_BOXES = {"mains": "Mains", "frames": "Frames a second", "shutter": "Shutter", "marks": "Marks on each pulley"}
_ALWAYS = ("Automatic gain hides a change of level: switch it off, or let a steady sound run along and compare with that.",
           "Music: your own, or openly licensed and named in the description.")


def read_film(page, sheet, parts):
    """What a film will show with the lamps and the camera of a script's ``[film]``.

    Parameters
    ----------
    page : Page
    sheet : Sheet
        Its speeds say what turns.
    parts : tuple of PartsReport
        What `judge_parts` gave.

    Returns
    -------
    tuple of str

    Raises
    ------
    SheetError
        Names the line and the key of the file, and shows what to write.
    """
    typed = page.data.get("film", {})
    if not isinstance(typed, dict):
        raise page.fail(("film",), "holds your lamps and camera; write [film] on a line of its own, and mains, frames, shutter and marks below it")
    if typed:
        no_slips(page, ("film",), USUAL)
    film = {**USUAL, **typed}
    for key, usual in USUAL.items():
        if isinstance(film[key], bool) or not isinstance(film[key], (str, int)):
            raise page.fail(("film", key), f"cannot be read, {_example(key)}")
    try:
        told = said_of({_BOXES[key]: str(film[key]).strip() for key in USUAL}, sheet, parts)
    except ValueError as error:
        box, _, what = str(error).partition(": ")
        key = next((key for key, name in _BOXES.items() if name == box), "shutter")
        raise page.fail(("film", key) if key in typed else ("film",), f"{what.rstrip('.')}; {_example(key)}") from error
    used = (f"Reckoned for lamps on {film['mains']}, {film['frames']} frames a second, a shutter of {film['shutter']} and {film['marks']} marks on "
            "each pulley. Yours stand under [film] in script.toml.")
    return (used, *told, *_ALWAYS)


def _example(key):
    usual = USUAL[key]
    return f"write for example {key} = {usual}" if isinstance(usual, int) else f'write for example {key} = "{usual}"'
